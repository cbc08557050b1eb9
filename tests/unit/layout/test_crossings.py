"""Over and under, measured on the finished file: what lies behind is broken where it is crossed, the rest is whole.

That the stem behind is broken, and that charts show wrong-side rows as the right side shows them, is common practice of
printed charts, no source.
"""

import itertools
import math

import pytest
from hookfold.charts.drawing import svg
from hookfold.charts.layout.chart.view import view_of
from hookfold.charts.layout.placing.laid import lay_fabric
from hookfold.charts.model.rows.work import work_text
from hookfold.charts.output.drawn import written_chart
from hookfold.charts.output.written import worked_text
from hookfold.charts.setting import Setting
from hookfold.symbols import natural_height
from svg_ruler import overlaps, read

CROSSED = """Terms: US
Ch 11.
Row 1 (RS): Sc in 2nd ch from hook and in each ch across, turn. (10 sc)
Row 2: Ch 1, sc in each sc across, turn. (10 sc)
Row 3: Ch 3 (counts as dc), *sk next sc, dc in next sc, working {how} dc just made, dc in skipped sc; rep from * to last \
sc, dc in last sc, turn. (10 dc)
"""
TURNED = """Terms: US
Ch 11.
Row 1 (RS): Sc in 2nd ch from hook and in each ch across, turn. (10 sc)
Row 2: Ch 3 (counts as dc), *sk next sc, dc in next sc, working {how} dc just made, dc in skipped sc; rep from * to last \
sc, dc in last sc, turn. (10 dc)
"""
ROPE = """Terms: US
Ch 14.
Row 1 (RS): Dc in 4th ch from hook (beg 3 sk ch count as dc) and in each ch across, turn. (12 dc)
Row 2: Ch 2 (counts as hdc), hdc in next 3 dc, BPdc around next 4 dc, hdc in last 4 dc, turn. (12 sts)
Row 3: Ch 2 (counts as hdc), hdc in next 3 hdc, sk next 2 sts, FPtr around next 2 sts, working {how} sts just made, FPtr \
around 2 skipped sts, hdc in last 4 sts, turn. (12 sts)
"""
LONG = """Terms: US
Ch 14.
Row 1 (RS): Dc in 4th ch from hook (beg 3 sk ch count as dc) and in each ch across, turn. (12 dc)
Row 2: Ch 1, sc in each dc across, turn. (12 sc)
Row 3: Ch 3 (counts as dc), dc in next 3 sc, sk next 2 dc of Row 1, FPtr around next 2 dc of Row 1, working {how} FPtr \
just made, FPtr around 2 skipped dc of Row 1, sk 4 sc, dc in last 4 sc, turn. (4 FPtr, 8 dc)
"""
WAYS = ("in front of", "behind")


def sheet(text, **how):
    worked = worked_text(text, "piece.txt")
    return read(svg.write(written_chart(worked, "piece.txt", Setting(**how)).sheets[0]))


def stems(found, row, kind):
    """The glyphs of a row as (whole, pieces of the stem), a stem being what no bar, slash or hook is: its long lines."""
    every = [g for g in found.glyphs if g.row == row and g.kind.startswith(kind)]
    return [("-crossed" not in g.kind, g) for g in every]


def heads(found, row, kind):
    """From left to right: whether each stitch of a kind is whole."""
    return [whole for _, whole in sorted((g.ink.bounds[0] + g.ink.bounds[2], whole) for whole, g in stems(found, row, kind))]


@pytest.mark.parametrize(("text", "row", "kind"), [(CROSSED, "row-3", "dc"), (ROPE, "row-3", "fptr"), (LONG, "row-3", "fptr")])
def test_in_front_and_behind_are_two_drawings(text, row, kind):
    front, behind = (sheet(text.format(how=how)) for how in WAYS)
    by_way = [sorted((g.kind, [tuple(line[0]) for line in g.lines]) for g in s.glyphs if g.row == row) for s in (front, behind)]
    assert by_way[0] != by_way[1]
    assert sum(not whole for whole, _ in stems(front, row, kind)) == sum(not whole for whole, _ in stems(behind, row, kind)) > 0


@pytest.mark.parametrize("how", WAYS)
def test_the_one_worked_behind_is_the_broken_one(how):
    """Row 3 runs from right to left: the stitch made second has its foot on the right and its head on the left."""
    found = sheet(CROSSED.format(how=how))
    for whole, glyph in stems(found, "row-3", "dc"):
        ends = [glyph.lines[0][0], glyph.lines[0][-1], *(p for line in glyph.lines[1:2] for p in (line[0], line[-1]))]
        low, high = max(ends, key=lambda p: p[1]), min(ends, key=lambda p: p[1])
        if abs(low[0] - high[0]) > 2.0:
            second = low[0] > high[0]
            assert whole == (second if how == "in front of" else not second)


@pytest.mark.parametrize("text", [ROPE, LONG])
@pytest.mark.parametrize("how", WAYS)
def test_a_rope_of_two_over_two_is_broken_at_each_of_its_four_crossings(text, how):
    found = sheet(text.format(how=how))
    broken = [g for whole, g in stems(found, "row-3", "fptr") if not whole]
    assert [g.kind for g in broken] == ["fptr-crossed-2"] * 2
    whole = [g for is_whole, g in stems(found, "row-3", "fptr") if is_whole]
    assert len(whole) == 2
    for a, b in itertools.product(broken, whole):
        assert a.ink.distance(b.ink) > 0.25  # white between, in mm at 7 mm a stitch
    assert overlaps(found) == []


@pytest.mark.parametrize(("text", "row"), [(CROSSED, "row-3"), (ROPE, "row-3")])
def test_slashes_keep_one_slope_and_bars_lie_level(text, row):
    found = sheet(text.format(how="behind"))
    short = [
        (b[0] - a[0], b[1] - a[1])
        for g in found.glyphs
        if g.row == row
        for a, b in ((line[0], line[-1]) for line in g.lines if len(line) == 2)
        if abs(b[0] - a[0]) > abs(b[1] - a[1])
    ]
    slopes = {round(math.degrees(math.atan2(-y, x))) for x, y in short}
    assert len(slopes) == 2 and 0 in slopes, slopes


def test_hooks_keep_off_the_row_below():
    found = sheet(ROPE.format(how="behind"))
    mm = 7.0
    for glyph in found.glyphs:
        if glyph.kind.startswith(("fptr", "bpdc", "fpdc")):
            others = [g.ink for g in found.glyphs if g.row != glyph.row]
            assert min(glyph.ink.distance(o) for o in others) > 0.04 * mm, (glyph.row, glyph.kind)


@pytest.mark.parametrize("how", WAYS)
def test_on_the_wrong_side_in_front_lies_behind(how):
    """The same words in a wrong-side row: the right side shows the other face, drawn as worked the same."""
    text = TURNED.format(how=how)
    right, worked = sheet(text), sheet(text, seen="as-worked")
    one, other = heads(right, "row-2", "dc"), heads(worked, "row-2", "dc")
    assert one[-1] and other[-1]  # the last stands alone
    assert len(one) == 9 and one[:-1] == [not whole for whole in other[:-1]]


RIB = """Terms: US
Ch 9.
Row 1 (RS): Dc in 4th ch from hook (beg 3 sk ch count as dc) and in each ch across, turn. (7 dc)
Row 2: Ch 2 (counts as hdc), *FPdc around next dc, BPdc around next dc; rep from * to last 2 dc, FPdc around next dc, hdc in \
last dc, turn. (7 sts)
Row 3: Ch 1, sc in front loop of each st across, turn. (7 sc)
Row 4: Ch 1, sc in front loop of each sc across. (7 sc)
"""


def test_a_rib_stands_in_columns_as_the_right_side_shows_it():
    kinds = [{g.kind for g in sheet(RIB, seen=seen).glyphs if g.row == "row-2"} for seen in ("right-side", "as-worked")]
    counts = [[g.kind for g in sheet(RIB, seen=seen).glyphs if g.row == "row-2"] for seen in ("right-side", "as-worked")]
    assert kinds[0] == kinds[1] >= {"fpdc", "bpdc"}
    assert [(c.count("fpdc"), c.count("bpdc")) for c in counts] == [(2, 3), (3, 2)]


@pytest.mark.parametrize(("seen", "row_4"), [("right-side", "back"), ("as-worked", "front")])
def test_single_loops_and_the_words_say_which_way(seen, row_4):
    found = sheet(RIB, seen=seen)
    assert {g.kind for g in found.glyphs if g.row == "row-3"} >= {"sc-front-loop"}
    assert {g.kind for g in found.glyphs if g.row == "row-4"} >= {f"sc-{row_4}-loop"}
    said = " ".join(words for words, _ in found.texts)
    assert ("as the right side shows them" in said) == (seen == "right-side")
    assert ("drawn as they are worked" in said) == (seen == "as-worked")


ROPE_OF_SIX = """Terms: US
Ch 16.
Row 1 (RS): Dc in 4th ch from hook (beg 3 sk ch count as dc) and in each ch across, turn. (14 dc)
Row 2: Ch 2 (counts as hdc), hdc in next 3 dc, BPdc around next 6 dc, hdc in next 4 dc, turn. (14 sts)
Row 3: Ch 2 (counts as hdc), hdc in next 3 hdc, sk next 3 sts, FPtr around next 3 sts, working in front of sts just made, \
FPtr around 3 skipped sts, hdc in last 4 sts, turn. (14 sts)
Row 4: Ch 2 (counts as hdc), hdc in next 3 hdc, BPdc around next 6 sts, hdc in last 4 sts, turn. (14 sts)
"""


def test_what_crosses_pushes_nothing_aside_and_its_row_lies_level():
    """Stitches beside three over three stand over the ones they are worked into, and no row climbs towards the cable."""
    worked = work_text(ROPE_OF_SIX)
    assert worked.problems == []
    laid = lay_fabric(worked.fabric)
    for course, below in zip(laid.courses[1:], laid.courses, strict=False):
        plain = [s for s in course.laid.spots if s.kind == "hdc" and s.role == "stitch"]
        assert len({s.head[1] for s in plain}) == 1
        assert all(abs(s.head[0] - s.feet[0][0]) < 0.3 for s in plain)
        tops = [s.head[1] for s in course.laid.spots if s.role == "stitch"]
        assert max(tops) - min(tops) < 0.4
        assert all(abs(s.head[1] - s.feet[0][1]) < 1.62 * natural_height("hdc") for s in plain)
        assert below.y >= course.y


#: Two ropes, worked over again from the other side with hooks round their stems.
ROPES = ROPE.format(how="in front of") + (
    "Row 4: Ch 2 (counts as hdc), hdc in next 3 sts, BPdc around next 4 sts, hdc in last 4 sts, turn. (12 sts)\n"
)


@pytest.mark.parametrize(("hand", "least"), [("right", 0.25), ("left", 0.14)])
def test_no_piece_of_a_rope_is_a_speck_and_its_heads_hang_straight(hand, least):
    """For the left hand those in front lean toward the side that all hooks come down on, and so lie flatter."""
    found = sheet(ROPES, hand=hand)
    for _, glyph in stems(found, "row-3", "fptr"):
        stem = [line for line in glyph.lines if abs(line[0][1] - line[-1][1]) > 0.1]
        long = [sum(math.dist(a, b) for a, b in itertools.pairwise(line)) for line in stem]
        assert min(long) > least * 9.0  # at 9 mm a stitch
    laid = view_of(work_text(ROPES, "ropes").fabric, Setting(hand=hand, extent="full")).laid
    ups = [clasp.up for spot in laid.courses[3].laid.spots for clasp in spot.clasps]
    assert len(ups) == 4 and all(abs(x) < 0.1 for x, _ in ups)
    assert overlaps(found) == []
