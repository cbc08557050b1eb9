"""Borders about a piece: shells stand over what they go into, corners keep one foot, fans do not turn back.

That a shell is drawn over its place, and what goes into one place meets there, is common practice, no source.
"""

import itertools
import math

import pytest
from hookfold.charts.drawing.display import Group, Text
from hookfold.charts.layout.placing.ink import mark_of
from hookfold.charts.layout.placing.placed import Spot
from hookfold.charts.layout.shapes.edged import edging_of
from hookfold.charts.layout.shapes.found import fabric_shape
from hookfold.charts.model.rows.work import work_text
from hookfold.charts.output.drawn import written_chart
from hookfold.charts.output.written import worked_text
from hookfold.charts.setting import Setting

DOUBLES = (
    "Terms: US\nCh 22.\nRow 1: Dc in 4th ch from hook and in each ch across. (20 dc)\n"
    "Rows 2-{rows}: Ch 3 (counts as dc), turn. Dc in next st and in each st across.\nBorder:\n"
)
SINGLES = (
    "Terms: US\nCh 21.\nRow 1: Sc in 2nd ch from hook and in each ch across. (20 sc)\n"
    "Rows 2-{rows}: Ch 1, turn. Sc in each st across.\nBorder:\n"
)
PLAIN = "Rnd 1: {turn}ch 1, *work {side} sc evenly along side, 3 sc in corner; rep from * 3 more times, join with sl st in first sc.\n"
SHELLS = (
    "Rnd 2: Ch 1, sc in same st, *sk 1 st, 5 dc in next st, sk 1 st, sc in next st; rep from * around, ending with sk 1 "
    "st, 5 dc in next st, sk 1 st, join with sl st in first sc.\n"
)
CORNER_FANS = (
    "Rnd 2: Ch 1, sc in same st, *(ch 3, sk 2 sts, sc in next st) 6 times, ch 3, sk 1 st, (9 dc in next st), ch 3, sk 1 "
    "st, sc in next st; rep from * around, ending with ch 3, join with sl st in first sc.\n"
)
SHELLED = DOUBLES.format(rows=8) + PLAIN.format(turn="", side=18) + SHELLS
FANNED = SINGLES.format(rows=20) + PLAIN.format(turn="Turn, ", side=19) + CORNER_FANS


def laid(text):
    fabric = work_text(text).fabric
    shape = fabric_shape(fabric)
    rounds = edging_of(fabric)
    return shape, shape.lay(fabric).rings[-rounds:]


def middle(points):
    xs, ys = zip(*points, strict=True)
    return sum(xs) / len(xs), sum(ys) / len(ys)


def places(ring):
    """The spots of a round that share a place, in the order of work."""
    made = [s for s in zip(ring.laid.spots, ring.worked.row.stitches, strict=True) if s[1].role == "stitch" and s[0].feet]
    return [[spot for spot, _ in same] for _, same in itertools.groupby(made, key=lambda each: each[1].feet)]


def aside(way, spots):
    """How far beside its feet a place's stitches stand, along the straight of a side; None about a corner."""
    (fx, fy), (hx, hy) = middle([s.feet[0] for s in spots]), middle([s.head for s in spots])
    x, y = abs(fx - way.middle[0]), abs(fy - way.middle[1])
    if x < way.wide - 1.0 and y > way.high:
        return abs(hx - fx)
    return abs(hy - fy) if y < way.high - 1.0 and x > way.wide else None


@pytest.mark.parametrize("text", [SHELLED, FANNED], ids=["shells", "corner fans"])
def test_what_goes_into_one_place_along_a_side_stands_over_it(text):
    shape, rings = laid(text)
    off = [found for spots in places(rings[1]) if (found := aside(shape.way, spots)) is not None]
    assert len(off) > 20
    shells = [aside(shape.way, spots) for spots in places(rings[1]) if len(spots) == 5]
    assert max((each for each in shells if each is not None), default=0.0) < 0.5
    assert max(off) < 0.8 and sorted(off)[int(0.7 * len(off))] < 0.3


def test_three_in_a_corner_go_into_one_place():
    _, rings = laid(SHELLED)
    first = rings[0]
    in_corner = [s for s, made in zip(first.laid.spots, first.worked.row.stitches, strict=True) if made.place >= 0]
    assert len(in_corner) == 12
    for k in range(0, 12, 3):
        feet = [s.feet[0] for s in in_corner[k : k + 3]]
        assert max(math.dist(a, b) for a, b in itertools.combinations(feet, 2)) < 0.4


def test_the_outermost_stems_of_a_fan_in_a_corner_do_not_turn_back_over_the_sides():
    _, rings = laid(FANNED)
    fans = [spots for spots in places(rings[1]) if len(spots) == 9]
    assert len(fans) == 4
    for fan in fans:
        x, y = middle([s.feet[0] for s in fan])
        ways = [math.atan2(s.head[1] - y, s.head[0] - x) for s in fan]
        opens = abs(math.remainder(ways[-1] - ways[0], math.tau))
        assert math.radians(90.0) < opens < math.radians(140.0)
        gaps = [math.dist(a.head, b.head) for a, b in itertools.pairwise(fan)]
        assert max(gaps) < 1.15 * min(gaps)


@pytest.mark.parametrize("high", [0.9, 1.0, 1.2, 1.35, 1.6])
def test_a_cross_that_hangs_down_is_one_that_stands_turned_over(high):
    up = mark_of(Spot(1, "sc", "stitch", (3.0, -high), ((3.0, 0.0),)))
    down = mark_of(Spot(1, "sc", "stitch", (3.0, high), ((3.0, 0.0),)))

    def ends(mark, sign):
        return sorted((round(x, 6), round(sign * y, 6)) for stroke in mark.strokes for _, pts in stroke for x, y in pts)

    assert ends(up, -1.0) == ends(down, 1.0)


def said(text):
    def texts(items):
        for item in items:
            if isinstance(item, Group):
                yield from texts(item.items)
            elif isinstance(item, Text):
                yield item.text

    sheets = written_chart(worked_text(text, "a.txt"), "A", Setting()).sheets
    return " ".join(" ".join(texts(sheet.items)) for sheet in sheets)


def test_a_chart_says_which_rounds_it_leaves_out_and_why():
    unsaid = "Rnd 1: Ch 1, sc evenly around, working 3 sc in each corner, join with sl st in first sc.\n"
    words = said(SINGLES.format(rows=6) + unsaid)
    assert "Rnd 1 and what follows it could not be proved and is left out" in words
    assert "along the edge is not said" in words
    assert "left out" not in said(SINGLES.format(rows=6))


def test_a_chart_of_one_piece_names_the_others():
    leaf = "Leaf (make 2):\nCh 8.\nRow 1: Sc in 2nd ch from hook and in each ch across. (7 sc)\n"
    disc = "Terms: US\nDisc:\nRnd 1: Make a magic ring, ch 1, 6 sc in ring, join with sl st in first sc. (6 sc)\n\n"
    assert "Disc is drawn here; not drawn are the other pieces: Leaf." in said(disc + leaf)
    assert "not drawn" not in said(disc)
