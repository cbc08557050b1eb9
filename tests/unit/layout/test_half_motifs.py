"""Half motifs: which fabrics they are, how wide they open, where their rows, corners and numbers stand."""

from __future__ import annotations

import itertools
import math

import pytest
import svg_ruler
from hookfold.charts.drawing.svg import write
from hookfold.charts.layout.chart.either import chart_document
from hookfold.charts.layout.labels.label import map_of_rounds
from hookfold.charts.layout.labels.row_numbers import edge_labels
from hookfold.charts.layout.placing.tracks import ArcWay, FacetWay
from hookfold.charts.layout.shapes.corners import corners_of
from hookfold.charts.layout.shapes.found import AboutRing
from hookfold.charts.layout.shapes.ring import mirrored
from hookfold.charts.layout.shapes.wedge import Wedge, row_corners, wedge_of
from hookfold.charts.layout.shapes.wedge_rows import lay_wedge
from hookfold.charts.model.rows.work import work_text
from hookfold.charts.setting import Heading, Setting

RING = "Make a magic ring.\n"
DC = "Ch 3 (counts as dc), "
#: Each with the degrees from edge to edge, its sides, and whether the outer two are half ones.
SHAPES = {
    "half circle": (
        RING + f"Row 1: {DC}5 dc in ring, turn.\nRow 2: {DC}2 dc in each of next 5 dc, turn.\n"
        f"Row 3: {DC}dc in first st, *dc in next st, 2 dc in next st; rep from * across, turn.",
        (180, 0, False),
    ),
    "quarter circle from one chain": (
        f"Ch 4.\nRow 1: 3 dc in 4th ch from hook, turn.\nRow 2: {DC}2 dc in each of next 2 dc, dc in last st, turn.",
        (90, 0, False),
    ),
    "whole circle left open": (
        RING + f"Row 1: {DC}11 dc in ring, turn.\nRow 2: {DC}dc in first st, 2 dc in each st across, turn.\n"
        f"Row 3: {DC}*2 dc in next st, dc in next st; rep from * to last st, 2 dc in last st, turn.",
        (330, 0, False),
    ),
    "half square": (
        RING + f"Row 1: {DC}3 dc in ring, ch 2, 4 dc in ring, turn.\n"
        f"Row 2: {DC}2 dc in first st, dc in next 3 dc, (2 dc, ch 2, 2 dc) in ch-2 sp, dc in next 3 dc, "
        "3 dc in last st, turn.",
        (180, 2, False),
    ),
    "quarter square": (
        RING + f"Row 1: {DC}2 dc in ring, ch 2, 3 dc in ring, turn.\n"
        f"Row 2: {DC}dc in next 2 dc, (2 dc, ch 2, 2 dc) in ch-2 sp, dc in next 3 dc, turn.",
        (90, 2, True),
    ),
    "half hexagon": (
        RING + f"Row 1: {DC}2 dc in ring, (ch 1, 3 dc in ring) twice, turn.\n"
        f"Row 2: {DC}dc in first st, *dc in next 2 dc, (dc, ch 1, dc) in next ch-1 sp, dc in next dc; rep from * "
        "once more, dc in next dc, 2 dc in last dc, turn.",
        (180, 3, False),
    ),
    "half square cut along its sides": (
        RING + f"Row 1: {DC}dc in ring, ch 2, 3 dc in ring, ch 2, 2 dc in ring, turn.\n"
        f"Row 2: {DC}dc in next dc, (2 dc, ch 2, 2 dc) in next ch-2 sp, dc in next 3 dc, "
        "(2 dc, ch 2, 2 dc) in next ch-2 sp, dc in next 2 dc, turn.",
        (180, 3, True),
    ),
    "square open along a diagonal": (
        RING + f"Row 1: {DC}3 dc in ring, (ch 2, 4 dc in ring) 3 times, turn.\n"
        f"Row 2: {DC}dc in first st, dc in next 3 dc, *(2 dc, ch 2, 2 dc) in next ch-2 sp, dc in next 4 dc; rep from "
        "* 2 times more, dc in same st as last dc, turn.",
        (336, 4, False),
    ),
}
PLAIN_ROWS = {
    "a tab": RING + "Row 1: Ch 1, 5 sc in ring, turn.\nRows 2-6: Ch 1, sc in each st across, turn.",
    "flat rows": "Ch 8.\nRow 1: Sc in 2nd ch from hook, sc in next 6 ch, turn.\nRow 2: Ch 1, sc in each st across, turn.",
    "a triangle from one chain": "Ch 2.\nRow 1: 3 sc in 2nd ch from hook, turn.\n"
    "Row 2: Ch 1, 2 sc in first st, sc in next st, 2 sc in last st, turn.",
    "rounds": RING + "Rnd 1: Ch 1, 6 sc in ring, join with sl st in first sc.",
}


def worked(text):
    found = work_text("Terms: US\n" + text)
    assert not found.problems
    return found.fabric


def shape(name):
    fabric = worked(SHAPES[name][0])
    wedge = wedge_of(fabric)
    assert wedge is not None
    return fabric, wedge


@pytest.mark.parametrize("name", SHAPES)
def test_the_shape_is_found_from_the_work(name):
    _, wedge = shape(name)
    assert (round(math.degrees(wedge.angle)), wedge.sides, wedge.half_ends) == SHAPES[name][1]


@pytest.mark.parametrize("name", PLAIN_ROWS)
def test_other_work_is_no_half_motif(name):
    assert wedge_of(worked(PLAIN_ROWS[name])) is None


def test_what_grows_at_the_ends_of_a_row_is_no_corner():
    """Three in the first stitch and in the last widen half a square along its edge; its one corner is between."""
    fabric, _ = shape("half square")
    ends = [s.feet for s in fabric.rows[1].row.stitches if s.role in ("stitch", "turning")]
    assert ends[0] == ends[2]
    assert ends[-1] == ends[-3]
    assert [len(c) for c in row_corners(fabric)] == [1, 1]


def test_rounds_have_no_one_corner():
    """One corner makes half a square of rows, but no shape of rounds."""
    fabric, _ = shape("quarter square")
    assert corners_of(fabric.rows, closed=False) is not None
    assert corners_of(fabric.rows) is None


@pytest.mark.parametrize("sign", [1.0, -1.0])
@pytest.mark.parametrize("u", [-0.3, 0.0, 0.4, 2.9, 4.5, 4.9])
def test_a_place_on_an_arc_is_found_again(u, sign):
    """Beyond an edge too: an arc does not come round to itself."""
    way = ArcWay(sign, 1.0, 4.6)
    assert way.u(way.at(u, 3.0)) == pytest.approx(u)
    assert way.v(way.at(u, 3.0)) == pytest.approx(3.0)
    assert way.near(u, 99.0) == u


@pytest.mark.parametrize("sign", [1.0, -1.0])
@pytest.mark.parametrize("u", [-0.4, 0.1, 1.0, 1.9, 2.1, 5.5, 6.3])
def test_a_place_on_sides_is_found_again(u, sign):
    way = FacetWay(sign, math.pi / 6, 3, math.pi / 3)
    assert way.u(way.at(u, 3.0)) == pytest.approx(u)
    assert way.v(way.at(u, 3.0)) == pytest.approx(3.0)


def angle(point):
    """The direction of a point from the ring, counter-clockwise from the top, in degrees."""
    return math.degrees(math.atan2(-point[0], -point[1]))


@pytest.mark.parametrize("name", SHAPES)
def test_rows_go_from_edge_to_edge(name):
    """A right-side row counter-clockwise from the right-hand edge, the next one back; all in order."""
    fabric, wedge = shape(name)
    half = math.degrees(wedge.angle) / 2
    for ring in lay_wedge(fabric, wedge).rings:
        tops = [s for s in ring.laid.spots if s.role in ("stitch", "turning")]
        turns = [angle(s.head) for s in tops]
        sign = 1 if ring.worked.side == "RS" else -1
        assert (turns[0], turns[-1]) == (pytest.approx(-sign * half, abs=0.1), pytest.approx(sign * half, abs=0.1))
        assert all((b - a) * sign > 0 for a, b in itertools.pairwise(turns))


@pytest.mark.parametrize(
    ("name", "turns"),
    [
        ("half square", [0]),
        ("quarter square", [0]),
        ("half hexagon", [-30, 30]),
        ("half square cut along its sides", [-45, 45]),
        ("square open along a diagonal", [-84, 0, 84]),
    ],
)
def test_corners_stand_where_the_shape_has_them(name, turns):
    fabric, wedge = shape(name)
    for ring, corners in zip(lay_wedge(fabric, wedge).rings, row_corners(fabric), strict=True):
        found = sorted(angle(ring.laid.spots[i].head) for i in corners)
        assert found == pytest.approx(turns, abs=2.0)


def test_a_corner_of_three_in_one_stands_on_its_middle_stitch():
    fabric = worked(
        RING + "Row 1: Ch 1, 5 sc in ring, turn.\n"
        "Row 2: Ch 1, 2 sc in first st, sc in next st, 3 sc in next st, sc in next st, 2 sc in last st, turn.\n"
        "Row 3: Ch 1, 2 sc in first st, sc in next 3 sts, 3 sc in next st, sc in next 3 sts, 2 sc in last st, turn."
    )
    wedge = wedge_of(fabric)
    assert wedge == Wedge(math.pi, 2)
    for ring, corners in list(zip(lay_wedge(fabric, wedge).rings, row_corners(fabric), strict=True))[1:]:
        (corner,) = corners
        assert ring.laid.spots[corner].head[0] == pytest.approx(0.0, abs=0.01)


def test_a_beginning_chain_that_does_not_count_lies_outside_the_edge():
    fabric = worked(
        RING + "Row 1: Ch 1, 4 sc in ring, turn.\nRow 2: Ch 1, 2 sc in each st across, turn.\n"
        "Row 3: Ch 1, *sc in next st, 2 sc in next st; rep from * across, turn."
    )
    wedge = wedge_of(fabric)
    for ring in lay_wedge(fabric, wedge).rings:
        start, first = ring.laid.spots[0], ring.laid.spots[1]
        assert start.role == "start"
        turns = [angle(start.ovals[0][:2]), angle(first.head)]
        assert abs(turns[0]) > abs(turns[1])
        assert math.dist(start.ovals[0][:2], first.head) > 0.5


@pytest.mark.parametrize("hand", ["right", "left"])
def test_numbers_have_arrows_into_the_wedge(hand):
    """Below the straight edge of half a circle, pointing up; counts at the other ends, none beside its own number."""
    fabric, wedge = shape("half circle")
    laid = lay_wedge(fabric, wedge)
    found = edge_labels(laid, AboutRing(wedge).edges, "right", map_of_rounds(laid), 7.0, counts=True)
    numbers = [t for t in found.labels if t.is_number]
    counts = [t for t in found.labels if not t.is_number]
    assert [t.words for t in numbers] == ["1", "2", "3"]
    assert [t.words for t in counts] == [f"({r.row.made})" for r in fabric.rows]
    for number, count in zip(numbers, counts, strict=True):
        (tail, tip) = number.arrow
        assert tip[1] < tail[1] < number.at[1]
        assert (number.at[0] > 0) != (count.at[0] > 0)
    assert len({round(t.at[1], 3) for t in numbers}) == 1


@pytest.mark.parametrize("hand", ["right", "left"])
def test_arrows_run_the_way_their_rows_begin(hand):
    """Of half a square along its first side, halfway between the edge's line and a way square to it."""
    fabric, wedge = shape("half square")
    laid = lay_wedge(fabric, wedge)
    laid = mirrored(laid) if hand == "left" else laid
    numbers = [
        t for t in edge_labels(laid, AboutRing(wedge).edges, hand, map_of_rounds(laid), 7.0, counts=False).labels if t.is_number
    ]
    for ring, number in zip(laid.rings, numbers, strict=True):
        (x0, y0), (x1, y1) = number.arrow
        tops = [s.head for s in ring.laid.spots if s.role in ("stitch", "turning")]
        onward = math.copysign(1.0, tops[len(tops) // 4][0] - tops[0][0])
        assert (x1 - x0) * onward == pytest.approx(y0 - y1)
        assert y1 < y0 < number.at[1]


def drawn(fabric, **more):
    document = chart_document(fabric, Heading("Half"), Setting(**more))
    return [svg_ruler.read(write(sheet)) for sheet in document.sheets]


def test_a_slit_has_numbers_and_says_the_counts_in_words():
    fabric, _ = shape("whole circle left open")
    (sheet,) = drawn(fabric)
    said = {words for words, _ in sheet.texts}
    assert {"1", "2", "3"} <= said
    assert not {f"({r.row.made})" for r in fabric.rows} & said
    assert "Stitches made in row 1: 12, row 2: 24, row 3: 36." in " ".join(dict.fromkeys(w for w, _ in sheet.texts))


def test_groups_are_rows():
    fabric, _ = shape("half hexagon")
    (sheet,) = drawn(fabric)
    assert {"centre", "row-1", "row-2", "row-numbers"} <= set(sheet.groups)
    assert not any(name.startswith("round") for name in sheet.groups)


def fan(rows):
    """Half a circle of so many rows of sc."""
    text = RING + "Row 1: Ch 1, 3 sc in ring, turn.\nRow 2: Ch 1, 2 sc in each st across, turn.\n"
    for k in range(3, rows + 1):
        text += f"Row {k}: Ch 1, *sc in next {k - 2} sts, 2 sc in next st; rep from * across, turn.\n"
    return worked(text)


@pytest.mark.parametrize("extent", ["full", "repeat"])
def test_a_large_one_is_drawn_over_several_pages(extent):
    """Every stitch and every number is on one of them."""
    fabric = fan(40)
    sheets = drawn(fabric, extent=extent)
    assert len(sheets) > 2
    assert {str(k) for k in range(1, 41)} <= {words for sheet in sheets for words, _ in sheet.texts}
    stitches = [g for sheet in sheets for g in sheet.glyphs if (g.row, g.kind) == ("row-40", "sc")]
    assert len(stitches) >= fabric.rows[-1].row.made


def test_rows_that_repeat_are_drawn_once():
    fabric = worked(
        RING + "Row 1: Ch 1, 5 sc in ring, turn.\nRow 2: Ch 1, 2 sc in each st across, turn.\n"
        "Rows 3-6: Ch 1, sc in each st across, turn."
    )
    (short,), (full,) = drawn(fabric, extent="repeat"), drawn(fabric, extent="full")
    assert {"row-3", "row-4"} <= set(short.groups)
    assert "row-6" not in short.groups
    assert "row-6" in full.groups
    assert "Rows 3–4 are drawn once and worked 2 times." in " ".join(dict.fromkeys(w for w, _ in short.texts))


def test_a_row_that_broke_off_is_drawn_all_the_same():
    found = work_text(f"Terms: US\n{RING}Row 1: {DC}6 dc in ring, turn.\nRow 2: Ch 3.")
    assert found.problems
    (sheet,) = drawn(found.fabric)
    assert "row-1" in sheet.groups


def test_those_in_an_edge_stitch_stand_inward_square_to_the_edge():
    """Three in the first stitch and three in the last of half a square: one on the edge, two above it."""
    fabric, wedge = shape("half square")
    tops = [s for s in lay_wedge(fabric, wedge).rings[1].laid.spots if s.role in ("stitch", "turning")]
    for on_edge, *others in (tops[:3], tops[:-4:-1]):
        assert on_edge.feet[0][1] == pytest.approx(0.0, abs=0.01)
        assert on_edge.head[1] == pytest.approx(0.0, abs=0.01)
        ups = [-s.feet[0][1] for s in others]
        assert 0.1 < ups[0] < ups[1] < 0.4
        assert others[0].feet[0][0] == pytest.approx(others[1].feet[0][0], abs=0.01)


def test_a_row_that_leaves_stitches_unworked_ends_inside():
    fabric = worked(
        RING + f"Row 1: {DC}6 dc in ring, turn.\n"
        f"Row 2: {DC}dc in each of next 4 sts, leave last 2 sts unworked, turn."
    )
    wedge = wedge_of(fabric)
    row = lay_wedge(fabric, wedge).rings[1].laid.spots
    half = math.degrees(wedge.angle) / 2
    assert angle(row[0].head) == pytest.approx(half, abs=0.1)
    assert angle(row[-1].head) == pytest.approx(-half / 3, abs=1.0)


def test_arches_say_nothing_of_how_wide_it_opens():
    """Long chains hang as wide as they are stretched: half a circle stays one with arches round it."""
    text = SHAPES["half circle"][0]
    plain = wedge_of(worked(text))
    edged = wedge_of(worked(f"{text}\nRow 4: Ch 1, sc in first st, *ch 7, sk next st, sc in next st; rep from * across."))
    assert edged == plain


def test_crosses_on_a_tight_arc_do_not_touch():
    """Their arms lie below their heads, where an arc is shorter."""
    fabric = worked(
        RING + "Row 1: Ch 1, 6 sc in ring, turn.\nRow 2: Ch 1, 2 sc in each st across, turn.\n"
        "Rows 3-7: Ch 1, sc in each st across, turn."
    )
    (sheet,) = drawn(fabric, extent="full")
    assert svg_ruler.overlaps(sheet) == []


#: Half a square with a last row of single crochet: by what it works into the corner below, where its own corner is.
EDGINGS = {"2 sc in ch-2 sp": 10.5, "3 sc in ch-2 sp": 11, "sk ch-2 sp": 9.5, "ch 3, sk ch-2 sp": 10}


@pytest.mark.parametrize("corner", EDGINGS)
def test_a_plain_last_row_follows_the_shape_below_it(corner):
    """It need not turn at its corner by what is worked there: what it is worked on does."""
    edging = f"Row 3: Ch 1, 2 sc in first st, sc in next 7 dc, {corner}, sc in next 7 dc, 2 sc in last st."
    fabric = worked(f"{SHAPES['half square'][0]}\n{edging}")
    wedge = wedge_of(fabric)
    assert wedge is not None
    assert (round(math.degrees(wedge.angle)), wedge.sides) == (180, 2)
    assert row_corners(fabric)[-1] == (EDGINGS[corner],)
    heads = [s.head for s in lay_wedge(fabric, wedge).rings[-1].laid.spots if s.role == "stitch"]
    left, right = ([(x, y) for x, y in heads if side * x > 0.3] for side in (-1, 1))
    for points in (left, right):
        ways = [abs(x) + abs(y) for x, y in points]
        assert max(ways) - min(ways) < 0.3
    assert len(left) == len(right)


def test_a_last_row_that_grows_much_is_not_plain():
    """Fans all along it are no edging that follows: they open as they need."""
    edging = f"Row 3: {DC}3 dc in each of next 7 dc, 2 dc in ch-2 sp, 3 dc in each of next 7 dc, dc in last st."
    fabric = worked(f"{SHAPES['half square'][0]}\n{edging}")
    assert fabric.rows[-1].row.made > 40
    assert row_corners(fabric) is None


GRANNY = RING + (
    f"Rnd 1: {DC}2 dc in ring, ch 2, (3 dc in ring, ch 2) 3 times, join with sl st in top of beginning ch-3.\n"
    f"Rnd 2: {DC}dc in next 2 dc, (2 dc, ch 2, 2 dc) in ch-2 sp, *dc in next 3 dc, (2 dc, ch 2, 2 dc) in ch-2 sp; "
    "rep from * 2 times more, join with sl st in top of beginning ch-3.\n"
)


@pytest.mark.parametrize(
    ("corner", "last"), [("2 sc in", (7, 16, 25, 34)), ("3 sc in", (7, 17, 27, 37)), ("sk", (6, 13, 20, 27))]
)
def test_a_plain_last_round_of_a_square_is_square(corner, last):
    """With two in each corner space, or three, or none."""
    fabric = worked(
        GRANNY + f"Rnd 3: Ch 1, sc in first st, sc in next 4 dc, {corner} ch-2 sp, *sc in next 7 dc, {corner} next "
        "ch-2 sp; rep from * 2 times more, sc in last 2 dc, join with sl st in first sc."
    )
    found = corners_of(fabric.rows)
    assert found is not None
    assert [len(places) for places in found] == [4, 4, 4]
    assert found[-1] == last
