"""Mitred pieces: which fabrics they are, how their foundation is bent, where their rows and corners stand."""

from __future__ import annotations

import itertools
import math
from dataclasses import replace

import pytest
from hookfold.charts.layout.labels.label import map_of_rounds
from hookfold.charts.layout.labels.row_numbers import edge_labels
from hookfold.charts.layout.shapes.found import Mitred
from hookfold.charts.layout.shapes.mitre import mitre_of
from hookfold.charts.layout.shapes.mitre_rows import lay_mitre, way_of
from hookfold.charts.layout.shapes.mitre_track import MitreWay
from hookfold.charts.layout.shapes.ring import mirrored
from hookfold.charts.model.rows.work import work_text


def rows(first, row, counts):
    """A foundation with its first row, and a row for each count of stitches before the corner."""
    return "\n".join([first, *(f"Row {k}: {row.replace('N', str(n))}" for k, n in enumerate(counts, start=2))])


SQUARE = rows(
    "Ch 14.\nRow 1: Sc in 2nd ch from hook and in next 4 ch, sc3tog over next 3 ch, sc in last 5 ch, turn.",
    "Ch 1, sc in first N sc, sc3tog over next 3 sts, sc in last N sc, turn.",
    (4, 3, 2, 1),
)
#: Each with the turn at its corners in degrees, its corners on the first row, and the sides of its foundation.
MITRES = {
    "square": (SQUARE, 90, (5.0,), (6.0, 6.0)),
    "to its last stitch": (SQUARE + "\nRow 6: Ch 1, sc3tog over next 3 sts.", 90, (5.0,), (6.0, 6.0)),
    "two left out": (
        rows(
            "Ch 13.\nRow 1: Sc in 2nd ch from hook and in next 4 ch, sk next 2 ch, sc in last 5 ch, turn.",
            "Ch 1, sc in first N sc, sk next 2 sc, sc in last N sc, turn.",
            (4, 3, 2),
        ),
        90, (4.5,), (5.5, 5.5),
    ),
    "one arm longer": (
        "Ch 18.\nRow 1: Sc in 2nd ch from hook and in next 4 ch, sc3tog over next 3 ch, sc in last 9 ch, turn.\n"
        "Row 2: Ch 1, sc in first 8 sc, sc3tog over next 3 sts, sc in last 4 sc, turn.\n"
        "Row 3: Ch 1, sc in first 3 sc, sc3tog over next 3 sts, sc in last 7 sc, turn.",
        90, (5.0,), (6.0, 10.0),
    ),
    "in double crochet": (
        rows(
            "Ch 15.\nRow 1: Dc in 4th ch from hook and in next 3 ch, dc3tog over next 3 ch, dc in last 5 ch, turn.",
            "Ch 3 (counts as dc), dc in next N dc, dc3tog over next 3 sts, dc in next N dc, dc in last st, turn.",
            (3, 2, 1),
        ),
        51, (5.0,), (6.0, 6.0),
    ),
    "half a frame": (
        "Ch 23.\nRow 1: Sc in 2nd ch from hook and in next 3 ch, sc3tog over next 3 ch, sc in next 8 ch, "
        "sc3tog over next 3 ch, sc in last 4 ch, turn.\n"
        "Row 2: Ch 1, sc in first 3 sc, sc3tog over next 3 sts, sc in next 6 sc, sc3tog over next 3 sts, "
        "sc in last 3 sc, turn.\n"
        "Row 3: Ch 1, sc in first 2 sc, sc3tog over next 3 sts, sc in next 4 sc, sc3tog over next 3 sts, "
        "sc in last 2 sc, turn.",
        90, (4.0, 13.0), (5.0, 11.0, 5.0),
    ),
}  # fmt: skip
FLAT = {
    "narrowing at its ends": rows(
        "Ch 14.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn.",
        "Ch 1, sc2tog over first 2 sts, sc in next N sc, sc2tog over last 2 sts, turn.",
        (9, 7, 5),
    ),
    "narrowing by twos at its ends": rows(
        "Ch 16.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn.",
        "Ch 1, sc in first sc, sc3tog over next 3 sts, sc in next N sc, sc3tog over next 3 sts, sc in last sc, turn.",
        (7, 3),
    )
    + "\nRow 4: Ch 1, sc in each st across, turn.",
    "a chevron": "Ch 14.\nRow 1: 2 sc in 2nd ch from hook, sc in next 4 ch, sc3tog over next 3 ch, sc in next 4 ch, "
    "2 sc in last ch, turn.\n"
    "Rows 2-5: Ch 1, 2 sc in first sc, sc in next 4 sc, sc3tog over next 3 sts, sc in next 4 sc, 2 sc in last sc, turn.",
    "lost over another place each time": "Ch 14.\n"
    "Row 1: Sc in 2nd ch from hook and in next 4 ch, sc3tog over next 3 ch, sc in last 5 ch, turn.\n"
    "Row 2: Ch 1, sc in first sc, sc3tog over next 3 sts, sc in last 7 sts, turn.\n"
    "Row 3: Ch 1, sc in first sc, sc3tog over next 3 sts, sc in last 5 sts, turn.",
    "bent once": "Ch 14.\n"
    "Row 1: Sc in 2nd ch from hook and in next 4 ch, sc3tog over next 3 ch, sc in last 5 ch, turn.\n"
    "Rows 2-5: Ch 1, sc in each st across, turn.",
    "one stitch fewer": rows(
        "Ch 14.\nRow 1: Sc in 2nd ch from hook and in next 5 ch, sc2tog over next 2 ch, sc in last 5 ch, turn.",
        "Ch 1, sc in first N sc, sc2tog over next 2 sts, sc in each st across, turn.",
        (5, 5, 4),
    ),
    "corners that do not meet": "Ch 41.\n"
    "Row 1: Sc in 2nd ch from hook and in next 3 ch, sc3tog over next 3 ch, sc in next 8 ch, sc3tog over next 3 ch, "
    "sc in next 15 ch, sc3tog over next 3 ch, sc in last 4 ch, turn.\n"
    "Row 2: Ch 1, sc in first 3 sc, sc3tog over next 3 sts, sc in next 13 sc, sc3tog over next 3 sts, sc in next 6 sc, "
    "sc3tog over next 3 sts, sc in last 3 sc, turn.\n"
    "Row 3: Ch 1, sc in first 2 sc, sc3tog over next 3 sts, sc in next 4 sc, sc3tog over next 3 sts, sc in next 11 sc, "
    "sc3tog over next 3 sts, sc in last 2 sc, turn.",
}


def worked(text):
    found = work_text("Terms: US\n" + text)
    assert not found.problems, [p.says for p in found.problems]
    return found.fabric


def shape(name):
    fabric = worked(MITRES[name][0])
    mitre = mitre_of(fabric)
    assert mitre is not None
    return fabric, mitre


@pytest.mark.parametrize("name", MITRES)
def test_the_shape_is_found_from_the_work(name):
    _, mitre = shape(name)
    _, turn, corners, sides = MITRES[name]
    assert (round(math.degrees(mitre.each)), mitre.corners[0]) == (turn, corners)
    assert mitre.sides == pytest.approx(sides)


@pytest.mark.parametrize("name", FLAT)
def test_other_work_is_no_mitre(name):
    assert mitre_of(worked(FLAT[name])) is None


def test_single_crochet_is_drawn_at_its_own_size():
    """As tall as wide, and one stitch lost a row on either side: nothing has to be stretched for a square."""
    _, mitre = shape("square")
    assert (mitre.spacing, mitre.stretch) == (pytest.approx(1.0), pytest.approx(1.0))


WAY = MitreWay(-1.0, 0.0, math.pi / 2, 5.0, (0.0, 5.0, 15.0, 20.0))


@pytest.mark.parametrize("v", [0.0, 1.0, 3.0])
@pytest.mark.parametrize("u", [-0.5, 0.0, 1.0, 9.0, 11.5, 18.5, 20.5])
def test_a_place_is_found_again(u, v):
    assert WAY.u(WAY.at(u, v)) == pytest.approx(u)
    assert WAY.v(WAY.at(u, v)) == pytest.approx(v)
    assert (WAY.unit(v), WAY.near(u, 99.0)) == (1.0, u)


@pytest.mark.parametrize("corner", [5.0, 15.0])
def test_corners_lie_on_a_line_to_the_middle(corner):
    """Outside the foundation too, where its chain lies."""
    for v in (-0.3, 0.0, 2.0, 4.0):
        x, y = WAY.at(corner, v)
        assert abs(abs(x) - abs(y)) < 1e-9
        assert math.hypot(x, y) == pytest.approx((5.0 - v) * math.sqrt(2.0))


def test_what_lies_over_a_corner_is_cut_off_at_it():
    assert WAY.at(4.9, 2.0) == pytest.approx(WAY.at(5.0, 2.0))


@pytest.mark.parametrize("name", MITRES)
def test_rows_go_from_edge_to_edge(name):
    """Their outermost stitches stand on the two edges, and the others in order between them."""
    fabric, mitre = shape(name)
    for ring in lay_mitre(fabric, mitre).rings:
        way = way_of(mitre, ring.worked.direction)
        tops = [way.u(s.head) for s in ring.laid.spots if s.role in ("stitch", "turning")]
        assert all(b > a for a, b in itertools.pairwise(tops))
        if len(tops) > 1:
            assert (tops[0], tops[-1]) == (pytest.approx(0.0, abs=2e-3), pytest.approx(way.bounds[-1], abs=2e-3))


@pytest.mark.parametrize("name", MITRES)
def test_stitches_stand_straight_over_what_they_go_into(name):
    fabric, mitre = shape(name)
    laid = lay_mitre(fabric, mitre)
    below = laid.centre
    for ring in laid.rings:
        way = way_of(mitre, ring.worked.direction)
        for spot, made in zip(ring.laid.spots, ring.worked.row.stitches, strict=True):
            if made.role == "stitch" and len(made.feet) == 1:
                base = below.spots[made.feet[0].at].head
                assert abs(way.u(spot.head) - way.u(base)) < 0.05
                assert math.dist(spot.feet[0], base) < 1e-3
        below = ring.laid


def test_the_last_stitch_of_a_square_lies_over_against_the_bend():
    """The chain runs up the left side and along the bottom; the last decrease is the corner at the top right."""
    fabric, mitre = shape("to its last stitch")
    laid = lay_mitre(fabric, mitre)
    heads = [s.head for s in laid.centre.spots if s.role == "chain"]
    left, bottom = min(x for x, _ in heads), max(y for _, y in heads)
    x, y = laid.rings[-1].laid.spots[-1].head
    assert x - left == pytest.approx(bottom - y)
    assert x == pytest.approx(max(x for x, _ in heads), abs=0.1)


def test_a_left_hander_sees_it_in_a_mirror():
    fabric, mitre = shape("square")
    laid = lay_mitre(fabric, mitre)
    pairs = zip(laid.centre.spots, mirrored(laid).centre.spots, strict=True)
    assert all(b.head == (-a.head[0], a.head[1]) for a, b in pairs)


def test_a_first_row_on_the_wrong_side_begins_at_the_other_end():
    """The bend lies in the same corner, seen from the right side."""
    fabric = worked(SQUARE.replace("Row 1:", "Row 1 (WS):"))
    mitre = mitre_of(fabric)
    assert mitre is not None
    first = lay_mitre(fabric, mitre).rings[0].laid.spots
    assert fabric.rows[0].direction == "left-to-right"
    assert first[1].head[1] < first[-1].head[1]


def test_numbers_carry_the_letters_of_colours_where_they_change():
    """Outside the edges where rows begin; the foundation says how many chains it has."""
    fabric, mitre = shape("square")
    striped = replace(fabric, rows=tuple(replace(r, colour="AB"[k % 2]) for k, r in enumerate(fabric.rows)))
    laid = lay_mitre(striped, mitre)
    ink = map_of_rounds(laid)
    labels = edge_labels(laid, Mitred(mitre).edges, "right", ink, 7.0, counts=True, begun="ch 14").labels
    words = [label.words for label in labels]
    assert words == ["1 A", "2 B", "3 A", "4 B", "5 A", "(11)", "(9)", "(7)", "(5)", "(3)", "ch 14"]
    heads = [s.head for ring in laid.rings for s in ring.laid.spots]
    right, top = max(x for x, _ in heads) * 7.0, min(y for _, y in heads) * 7.0
    assert all(label.at[0] > right for label in labels[0:5:2])
    assert all(label.at[1] < top for label in labels[1:5:2])


@pytest.mark.parametrize("sign", [1.0, -1.0])
@pytest.mark.parametrize("each", [math.pi / 2, math.pi / 3])
def test_inward_is_straight_from_a_side_and_half_way_between_two_on_their_corner(sign, each):
    way = MitreWay(sign, 0.4, each, 8.0, (0.0, 5.0, 12.0))
    def facing(turn):
        return pytest.approx((-math.cos(turn), math.sin(turn)))

    assert way.out(2.0) == facing(0.4) and way.out(9.0) == facing(0.4 + sign * each)
    assert way.out(5.0) == facing(0.4 + sign * each / 2)
