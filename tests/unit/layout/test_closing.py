"""Balls and crowns, measured on the finished file: rounds that close the work are a figure of their own, never torn.

That the closing half of a ball is drawn towards a centre of its own is common practice, no source.
"""

import itertools
import math

import pytest
from hookfold.charts.drawing import svg
from hookfold.charts.output.drawn import written_chart
from hookfold.charts.output.written import worked_text
from hookfold.charts.setting import Setting
from svg_ruler import outside, overlaps, read, text_over_glyphs

BALL = """Terms: US
Make a magic ring.
Rnd 1 (RS): 6 sc in ring. (6 sc)
Rnd 2: 2 sc in each sc around. (12 sc)
Rnd 3: *Sc in next sc, 2 sc in next sc; rep from * around. (18 sc)
Rnd 4: *Sc in next 2 sc, 2 sc in next sc; rep from * around. (24 sc)
Rnds 5-8: Sc in each sc around. (24 sc)
Rnd 9: *Sc in next 2 sc, sc2tog; rep from * around. (18 sc)
Rnd 10: *Sc in next sc, sc2tog; rep from * around. (12 sc)
Rnd 11: Sc2tog 6 times. Fasten off. (6 sc)
"""
CROWN = """Terms: US
Ch 48, join with sl st in first ch to form a ring.
Rnd 1 (RS): Ch 1, hdc in each ch around, join with sl st in first hdc. (48 hdc)
Rnd 2: Ch 1, hdc in each hdc around, join with sl st in first hdc. (48 hdc)
Rnd 3: Ch 1, *hdc in next 4 hdc, hdc2tog; rep from * around, join with sl st in first hdc. (40 hdc)
Rnd 4: Ch 1, *hdc in next 3 hdc, hdc2tog; rep from * around, join with sl st in first hdc. (32 hdc)
Rnd 5: Ch 1, *hdc in next 2 hdc, hdc2tog; rep from * around, join with sl st in first hdc. (24 hdc)
Rnd 6: Ch 1, *hdc in next hdc, hdc2tog; rep from * around, join with sl st in first hdc. (16 hdc)
Rnd 7: Ch 1, hdc2tog 8 times, join with sl st in first hdc. Fasten off. (8 hdc)
"""
LACE = """Terms: US
Ch 5, join with sl st in first ch to form ring.
Rnd 1 (RS): Ch 3 (counts as dc), 11 dc in ring, join with sl st in top of beg ch-3. (12 dc)
Rnd 2: Ch 4 (counts as dc and ch 1), *dc in next dc, ch 1; rep from * around, join with sl st in 3rd ch of beg ch-4. (12 dc)
Rnd 3: Ch 1, *sc in next ch-1 sp, ch 4; rep from * around, join with sl st in first sc. (12 sc)
Rnd 4: Ch 1, 2 sc in each ch-4 sp around, join with sl st in first sc. (24 sc)
Rnd 5: Ch 1, *sc2tog; rep from * around, join with sl st in first st. (12 sc)
Rnd 6: Ch 1, *sc2tog; rep from * around, join with sl st in first st. Fasten off. (6 sc)
"""
#: The pieces, and the rounds of each that close it.
PIECES = {"ball": (BALL, range(9, 12)), "crown": (CROWN, range(3, 8)), "lace": (LACE, range(5, 7))}


def sheet(text, **how):
    worked = worked_text(text, "piece.txt")
    return read(svg.write(written_chart(worked, "piece.txt", Setting(**how)).sheets[0]))


@pytest.fixture(scope="module", params=sorted(PIECES))
def piece(request):
    text, closing = PIECES[request.param]
    return sheet(text), closing


def middles(found, number):
    """Where the stitches of a round lie, in the order of work."""
    made = ("sc", "hdc", "dc")
    every = [g.ink.centroid for g in found.glyphs if g.row == f"round-{number}" and g.kind.startswith(made)]
    return [(p.x, p.y) for p in every]


def centre(points):
    return [sum(p[axis] for p in points) / len(points) for axis in (0, 1)]


def test_closing_rounds_lie_one_inside_the_other_and_apart_from_the_first_figure(piece):
    found, closing = piece
    far = [max(math.dist(p, centre(middles(found, n))) for p in middles(found, n)) for n in closing]
    assert all(a > b + 3.0 for a, b in itertools.pairwise(far)), far
    first, last = centre(middles(found, 1)), centre(middles(found, closing[-1]))
    assert math.dist(first, last) > far[0] + max(math.dist(p, first) for p in middles(found, 1))


def ring(points):
    """The ways from each stitch to the next round a centre, by their angle."""
    x, y = centre(points)
    around = sorted(points, key=lambda p: math.atan2(p[1] - y, p[0] - x))
    return [math.dist(a, b) for a, b in itertools.pairwise([*around, around[0]])]


def test_no_round_is_torn(piece):
    """From each stitch to the next nowhere much more than the usual way: a decrease takes two, torn petals five."""
    found, closing = piece
    for n in closing:
        gaps = sorted(ring(middles(found, n)))
        assert gaps[-1] < 2.1 * gaps[len(gaps) // 2], n


@pytest.mark.parametrize("hand", ["right", "left"])
def test_closing_rounds_run_the_other_way_about(hand):
    """On paper y goes down, so angles grow clockwise; a right-hander's rounds go counter-clockwise from the middle."""
    found, turns = sheet(BALL, hand=hand), []
    for n in (3, 10):
        points = middles(found, n)
        x, y = centre(points)
        angles = [math.atan2(b - y, a - x) for a, b in points]
        steps = [math.remainder(b - a, math.tau) for a, b in itertools.pairwise(angles)]
        turns.append(sum(s > 0 for s in steps) / len(steps))
    assert [t > 0.9 for t in turns] == ([False, True] if hand == "right" else [True, False]) and min(turns) < 0.1


def test_nothing_touches_and_the_sheet_says_what_goes_on_from_what(piece):
    found, closing = piece
    assert overlaps(found) == [] and text_over_glyphs(found) == [] and outside(found) == []
    said = " ".join(words for words, _ in found.texts)
    assert f"Rounds {closing[0]}–{closing[-1]} close the work" in said
    assert f"goes on from round {closing[0] - 1}," in said
    assert [name for name in found.groups if name.endswith("-again")]
    assert f"rounds {closing[0]}–{closing[-1]}, from the outside in" in said


def test_a_piece_that_lies_flat_is_one_figure():
    flat = BALL[: BALL.index("Rnds 5-8")] + "Rnd 5: Sc in each sc around. (24 sc)\n"
    found = sheet(flat)
    assert not [name for name in found.groups if name.endswith("-again")]
