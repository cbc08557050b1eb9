"""Seams of rounds, and rounds that read the same backwards.

Source: that a beginning chain stands on the work between the stitches that it joins, that the slip stitch lies at its top,
and that a petal is drawn even, is common practice of printed charts, no source.
"""

from __future__ import annotations

import cmath
import itertools
import math
import re

import pytest
import shapely
import svg_ruler
from hookfold.charts.drawing.svg import write
from hookfold.charts.layout.chart.either import chart_document
from hookfold.charts.layout.labels.among import Wanted, labels_of
from hookfold.charts.layout.labels.label import map_of_rounds
from hookfold.charts.layout.rounds.lay import lay_rounds
from hookfold.charts.layout.rounds.mirror import mirror_of
from hookfold.charts.layout.rounds.net import Net
from hookfold.charts.layout.rounds.plan import planned
from hookfold.charts.model.rows.work import work_text
from hookfold.charts.output.drawn import written_chart
from hookfold.charts.output.written import worked_text
from hookfold.charts.setting import Heading, Setting
from shapely import LineString
from shapely import Point as ShapelyPoint

CIRCLE = """Make a magic ring.
Rnd 1: Ch 1, 6 sc in ring, join with sl st in first sc.
Rnd 2: Ch 1, 2 sc in each sc around, join with sl st in first sc.
Rnd 3: Ch 1, *sc in next sc, 2 sc in next sc; rep from * around, join with sl st in first sc.
Rnd 4: Ch 1, *sc in next 2 sc, 2 sc in next sc; rep from * around, join with sl st in first sc.
"""
STAR = """Ch 5, join with sl st in first ch to form ring.
Rnd 1: Ch 1, 10 sc in ring, join with sl st in first sc.
Rnd 2: Ch 1, *sc in next sc, ch 7, sc in next sc; rep from * around, join with sl st in first sc.
Rnd 3: Ch 1, *(4 sc, ch 3, 4 sc) in next ch-7 sp; rep from * around, join with sl st in first sc.
"""
ASLANT = STAR.replace("(4 sc, ch 3, 4 sc)", "(3 sc, ch 3, 2 dc)")
SPIRAL = """Make a magic ring.
Rnd 1: 6 sc in ring.
Rnd 2: 2 sc in each sc around.
""" + "\n".join(f"Rnd {n}: *Sc in next {n - 2} sc, 2 sc in next sc; rep from * around." for n in range(3, 12))


def fabric(text):
    found = work_text(text)
    assert not found.problems
    return found.fabric


def net(text):
    return Net(planned(fabric(text), None), 1, lambda foot: None)


def place(spot):
    return complex(*spot.head)


def spots(ring, *roles):
    return [s for s in ring.laid.spots if s.role in roles]


@pytest.mark.parametrize("hand", ["right", "left"])
def test_a_beginning_chain_stands_upright_between_the_last_stitch_and_the_first(hand):
    for ring in lay_rounds(fabric(CIRCLE), hand).rings:
        stitches, (chain,), (join,) = (spots(ring, role) for role in ("stitch", "start", "join"))
        x, y, turn = chain.ovals[0]
        out = math.degrees(math.atan2(y, x))
        assert abs(math.remainder(turn - out, 180.0)) < 25.0
        near = sorted(stitches, key=lambda s: abs(place(s) - complex(*join.head)))[:2]
        assert {s.item for s in near} == {stitches[0].item, stitches[-1].item}
        apart = [abs(complex(*s.head) - complex(*join.head)) for s in near]
        assert abs(apart[0] - apart[1]) < 0.3
        assert math.hypot(x, y) < abs(complex(*join.head)) < ring.outer + 0.35  # the dot lies at the chain's top


def test_a_beginning_chain_stands_on_the_join_of_the_round_below():
    rings = lay_rounds(fabric(CIRCLE)).rings
    for below, ring in itertools.pairwise(rings):
        (join,), (chain,) = spots(below, "join"), spots(ring, "start")
        foot = complex(*chain.feet[0])
        assert abs(foot - place(join)) < 0.45


def test_petals_are_even():
    """Turned over about the line through a petal's tip, the stitches on it lie where those on its other side do."""
    laid = lay_rounds(fabric(STAR))
    made = spots(laid.rings[2], "stitch")
    for first in range(0, len(made), 8):
        petal = [place(s) for s in made[first : first + 8]]
        axis = sum(petal) / abs(sum(petal))
        for a, b in zip(petal[:4], petal[:3:-1], strict=True):
            assert abs((a / axis).conjugate() * axis - b) < 0.02


def test_a_petal_points_up():
    made = spots(lay_rounds(fabric(STAR)).rings[2], "chain")
    tip = min((place(s) for s in made), key=lambda z: z.imag)
    assert abs(cmath.phase(tip * 1j)) < 0.02


def test_rounds_that_do_not_read_the_same_backwards_have_no_mirror():
    assert mirror_of(net(STAR)) is not None
    assert mirror_of(net(ASLANT)) is None
    assert mirror_of(net(CIRCLE)) is None  # increases come after, not before, in every sector


def test_each_round_of_a_spiral_has_its_number_and_its_arrow():
    laid = lay_rounds(fabric(SPIRAL))
    far = 6.0 * (laid.radius + 3.0)
    found = labels_of(laid, None, Wanted("right", False, False, 0), 6.0, (-far, -far, far, far)).labels
    assert [label.words for label in found if label.is_number] == [str(n) for n in range(1, 12)]
    assert all(label.arrow for label in found)


OVAL = """Ch 9.
Rnd 1: Sc in 2nd ch from hook and in next 6 ch, 3 sc in last ch; working along opposite side of foundation chain, \
sc in next 6 ch, 2 sc in last ch, join with sl st in first sc.
Rnd 2: Ch 1, 2 sc in same st as join, sc in next 6 sc, 2 sc in each of next 3 sc, sc in next 6 sc, \
2 sc in each of last 2 sc, join with sl st in first sc.
Rnd 3: Ch 1, sc in each sc around, join with sl st in first sc.
"""


def labels(laid, mm):
    far = mm * (laid.radius + 3.0)
    return labels_of(laid, None, Wanted("right", True, False, 0), mm, (-far, -far, far, far)).labels


@pytest.mark.parametrize("text", [CIRCLE, OVAL], ids=["circle", "oval"])
@pytest.mark.parametrize("mm", [9.0, 6.0])
def test_a_number_stands_by_the_first_stitch_of_its_round_and_not_by_the_last(text, mm):
    laid = lay_rounds(fabric(text))
    found = {label.row: label for label in labels(laid, mm) if label.is_number}
    assert sorted(found) == [ring.index for ring in laid.rings]
    for ring in laid.rings:
        first, *_, last = (LineString([s.feet[0], s.head]) for s in spots(ring, "stitch"))
        x, y = found[ring.index].at
        at = ShapelyPoint(x / mm, y / mm)
        assert at.distance(first) < at.distance(last) + 0.15
        assert found[ring.index].arrow or ring.index > 0, "the first says which way all go"


@pytest.mark.parametrize("text", [CIRCLE, OVAL, STAR], ids=["circle", "oval", "star"])
def test_a_count_has_a_millimetre_of_white(text):
    """Measured on the finished sheet, from the box of the words to the outlines of all that is drawn."""
    (sheet,) = chart_document(fabric(text), Heading("Try"), Setting(extent="full")).sheets
    read = svg_ruler.read(write(sheet))
    counts = [place for words, place in read.texts if re.fullmatch(r"\(\d+\)", words)]
    assert counts or any("Stitches made in rnd 1" in words for words, _ in read.texts)
    for place in counts:
        assert min(place.distance(g.ink) for g in read.glyphs) > 0.9


def test_chain_and_join_of_a_round_are_a_pair():
    """More white from one round's dot to the chain of the next than from that round's own chain."""
    for one, other in itertools.pairwise(lay_rounds(fabric(CIRCLE)).rings[1:]):
        (chain,), (join,), (above,) = spots(one, "start"), spots(one, "join"), spots(other, "start")
        own, next_ = (abs(complex(*s.ovals[0][:2]) - place(join)) for s in (chain, above))
        assert own < next_ - 0.05


def test_numbers_are_inked_as_their_rounds():
    (sheet,) = chart_document(fabric(CIRCLE), Heading("Try"), Setting(extent="full")).sheets
    svg = write(sheet).decode()
    numbers = svg[svg.index('id="round-numbers"') :]
    tones = [re.search(rf'id="round-{n}".*?((?:fill|stroke)="(#\w+)")', svg, re.S).group(2) for n in (1, 2)]
    assert tones[0] != tones[1] and all(tone in numbers for tone in tones)


WALKED = """Terms: US
Ch 5, join with sl st in first ch to form a ring.
Rnd 1 (RS): Ch 3 (counts as dc), 3 dc in ring, ch 3, [4 dc in ring, ch 3] 3 times, join with sl st in top of beg ch-3.
Rnd 2: Sl st in next 3 dc and in next ch-3 sp, ch 3 (counts as dc), (3 dc, ch 3, 4 dc) in same sp, ch 2, *(4 dc, ch 3, 4 dc) \
in next ch-3 sp, ch 2; rep from * around, join with sl st in top of beg ch-3.
"""


@pytest.mark.parametrize("hand", ["right", "left"])
def test_slip_stitches_on_the_way_to_a_space_lie_along_the_bars_they_go_into_and_the_last_inside_the_space(hand):
    found = svg_ruler.read(write(written_chart(worked_text(WALKED, "a.txt"), "a.txt", Setting(hand=hand)).sheets[0]))
    unit = svg_ruler.stitch_mm(found)
    bars = [LineString(g.lines[1]) for g in found.glyphs if g.row == "round-1" and g.kind == "dc"]
    dots = [g.ink for g in found.glyphs if g.row == "round-2" and g.kind == "sl-st-solid"]
    assert len(dots) == 4
    for dot in dots[:3]:
        bar = min(bars, key=dot.distance)
        assert bar.distance(dot.centroid) < 0.4 * unit
        long = dot.minimum_rotated_rectangle.exterior.coords
        sides = sorted(itertools.pairwise(long), key=lambda side: math.dist(*side))
        assert abs(math.sin(bearing(*sides[-1]) - bearing(bar.coords[0], bar.coords[-1]))) < 0.2
    chains = [g.ink for g in found.glyphs if g.row == "round-1" and g.kind == "ch"]
    near = sorted(chains, key=dots[3].distance)[:3]
    centre = shapely.union_all([g.ink for g in found.glyphs if g.row == "centre"]).centroid
    assert dots[3].distance(shapely.union_all(near)) < 0.5 * unit
    assert centre.distance(dots[3].centroid) < min(centre.distance(c.centroid) for c in near)


def bearing(a, b):
    return math.atan2(b[1] - a[1], b[0] - a[0])


HEXAGON = """Make a magic ring.
Rnd 1: Ch 3 (counts as dc), dc in ring, ch 1, [2 dc in ring, ch 1] 5 times, join with sl st in top of beg ch-3.
Rnd 2: Ch 3 (counts as dc), dc in next dc, (dc, ch 1, dc) in next ch-1 sp, *dc in next 2 dc, (dc, ch 1, dc) in next \
ch-1 sp; rep from * around, join with sl st in top of beg ch-3.
Rnd 3: Ch 1, sc in same st as join, sc in next 2 dc, 3 sc in next ch-1 sp, *sc in next 4 dc, 3 sc in next ch-1 sp; \
rep from * 4 more times, sc in last dc, join with sl st in first sc.
"""


@pytest.mark.parametrize("text", [CIRCLE, OVAL, STAR, WALKED, HEXAGON], ids=["circle", "oval", "star", "square", "hexagon"])
@pytest.mark.parametrize("mm", [9.0, 5.0])
def test_every_round_has_a_number_and_an_arrow_all_alike_in_white(text, mm):
    """As large as half a stitch allows, and no two sizes on one chart."""
    laid = lay_rounds(fabric(text))
    found = [label for label in labels(laid, mm) if label.is_number]
    assert len(found) == len(laid.rings)
    assert len({(label.size_mm, label.head_mm, round(math.dist(*label.arrow), 6)) for label in found}) == 1
    ink = map_of_rounds(laid)
    for label in found:
        left, top, right, bottom = (side / mm for side in label.words_box)
        assert ink.free_about((left, top, right, bottom), 1.0) * mm > 0.3


def test_numbers_grow_with_the_stitches():
    laid = lay_rounds(fabric(WALKED))
    small, large = (next(one.size_mm for one in labels(laid, mm) if one.is_number) for mm in (3.0, 9.0))
    assert large > 1.5 * small


def disc(stitch, sides=9, rounds=9):
    """A disc that grows by one stitch a side each round; the last two of a side stand in one."""
    begun = "Ch 2 (does not count as a st), "
    made = [f"Rnd 1: {begun}{sides} {stitch} in ring, join with sl st in first {stitch}.",
            f"Rnd 2: {begun}2 {stitch} in each st around, join with sl st in first {stitch}."]  # fmt: skip
    for n in range(3, rounds + 1):
        made.append(f"Rnd {n}: {begun}*{stitch} in next {n - 2} {'st' if n == 3 else 'sts'}, 2 {stitch} in next st; "
                    f"rep from * around, join with sl st in first {stitch}.")  # fmt: skip
    return "\n".join(["Make a magic ring.", *made])


def turns_from(start, point):
    """How far round the centre, counter-clockwise, a point lies from another, from -pi to pi."""
    return math.remainder(-cmath.phase(complex(*point) / complex(*start)), math.tau)


@pytest.mark.parametrize("stitch", ["sc", "hdc", "dc"])
@pytest.mark.parametrize("hand", ["right", "left"])
def test_a_join_lies_between_the_last_stitch_and_the_first_in_every_round_of_a_disc(stitch, hand):
    way = 1.0 if hand == "right" else -1.0
    for ring in lay_rounds(fabric(disc(stitch)), hand).rings:
        stitches, (join,) = spots(ring, "stitch"), spots(ring, "join")
        before, after = (way * turns_from(join.head, s.head) for s in (stitches[-1], stitches[0]))
        assert before < 0.0 < after
        ink = ShapelyPoint(join.head).buffer(0.13)  # half the height of its dot
        assert all(LineString([s.head, s.feet[0]]).distance(ink) > 0.1 for s in (stitches[-1], stitches[0]))


def test_rounds_of_a_disc_have_their_arrows_where_letters_of_colours_would_make_numbers_wide():
    laid = lay_rounds(fabric(disc("hdc")))
    for ring in laid.rings:
        object.__setattr__(ring.worked, "colour", "A")
    far = 4.5 * (laid.radius + 3.0)
    found = labels_of(laid, None, Wanted("right", False, True, 0), 4.5, (-far, -far, far, far)).labels
    numbers = [label for label in found if label.is_number]
    assert [label.words for label in numbers] == [str(n) for n in range(1, 10)]
    assert sum(label.arrow is not None for label in numbers) >= 7
    for label in numbers:
        if label.arrow:
            assert math.dist(label.at, label.arrow[1]) < 8.0


def test_numbers_stand_at_the_seam_of_a_dense_disc_without_letters_rather_than_apart_with_them():
    laid = lay_rounds(fabric(disc("dc", 11, 13)))
    for ring in laid.rings:
        object.__setattr__(ring.worked, "colour", "A")
    far = 3.2 * (laid.radius + 3.0)
    found = labels_of(laid, None, Wanted("right", False, True, 0), 3.2, (-far, -far, far, far)).labels
    numbers = [label for label in found if label.is_number]
    assert [label.words for label in numbers] == [str(n) for n in range(1, 14)]
    assert sum(label.arrow is not None for label in numbers) >= 12
    for ring, label in zip(laid.rings, numbers, strict=True):
        start = ring.laid.spots[0].head
        assert math.dist(label.at, (start[0] * 3.2, start[1] * 3.2)) < 3.0 * 3.2
