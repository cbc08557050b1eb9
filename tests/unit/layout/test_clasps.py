"""Which stitch a post stitch goes round, measured on the finished file: the stem it clasps is crossed by its hook.

That front and back are over and under, the one behind broken, is common practice of drawings in which lines cross.
"""

import math
from pathlib import Path

import pytest
import shapely
from hookfold.charts.drawing import svg
from hookfold.charts.layout.chart.view import view_of
from hookfold.charts.layout.placing.laid import lay_fabric
from hookfold.charts.layout.placing.placed import held_by
from hookfold.charts.layout.posts.rows import clasped_fabric
from hookfold.charts.layout.rounds.lay import lay_rounds
from hookfold.charts.model.rows.work import work_text
from hookfold.charts.output.drawn import written_chart
from hookfold.charts.output.written import worked_text
from hookfold.charts.setting import Setting
from shapely import LineString
from svg_ruler import overlaps, read

#: Row 2 is a right-side row here, so front is drawn as front.
ROWS = """Terms: US
Over 9 sc.
Row 1 (WS): Ch 3 (counts as dc), dc in next 8 sc, turn. (9 dc)
Row 2 (RS): Ch 2 (counts as hdc), hdc in next dc, {side}dc around next dc, hdc in next 3 dc, {side}dc around next 2 dc, \
hdc in last dc, turn. (9 sts)
"""
ROUNDS = """Terms: US
Make a magic ring.
Rnd 1: Ch 3 (counts as dc), 11 dc in ring, join with sl st in top of beg ch-3. (12 dc)
Rnd 2: Ch 3 (counts as dc), dc in same st as join, *{side}dc around next dc, 2 dc in next dc; rep from * to last dc, \
{side}dc around last dc, join with sl st in top of beg ch-3. (18 sts)
"""
PAST = """Terms: US
Make a magic ring.
Rnd 1: Ch 3 (counts as dc), 11 dc in ring, join with sl st in top of beg ch-3. (12 dc)
Rnd 2: Ch 1, 2 sc in each st around, join with sl st in first sc. (24 sc)
Rnd 3: Ch 1, *sc in next 3 sc, {side}dc around next dc of Rnd 1; rep from * 5 more times, join with sl st in first sc. (24 sts)
"""


def sheet(text, **how):
    return read(svg.write(written_chart(worked_text(text, "piece.txt"), "piece.txt", Setting(**how)).sheets[0]))


def hooks(found, row, side):
    """The hooks of a row, each whole: the pieces after stem, bar and slash, joined where they are parted."""
    every = [g for g in found.glyphs if g.row == row and g.kind.startswith(f"{side}dc")]
    return [LineString([p for line in g.lines[3:] for p in line]) for g in every]


def stems(found, row):
    """The stems of a row's doubles from foot to head: whole ones, and those in pieces."""
    every = [g for g in found.glyphs if g.row == row and g.kind.startswith("dc")]
    clasped = [LineString([g.lines[0][0], g.lines[1][-1]]) for g in every if "-clasped" in g.kind]
    return [LineString([g.lines[0][0], g.lines[0][-1]]) for g in every if "-clasped" not in g.kind], clasped


@pytest.mark.parametrize("hand", ["right", "left"])
@pytest.mark.parametrize(("text", "count"), [(ROWS, 3), (ROUNDS, 6)], ids=["rows", "rounds"])
def test_a_front_post_hook_crosses_one_stem_which_is_broken_there(text, count, hand):
    found = sheet(text.format(side="FP"), hand=hand)
    under, over = ("row-1", "row-2") if text == ROWS else ("round-1", "round-2")
    whole, broken = stems(found, under)
    for hook in hooks(found, over, "fp"):
        assert sum(hook.crosses(stem) for stem in broken) == 1
        assert not any(hook.crosses(stem) for stem in whole)
    assert len(hooks(found, over, "fp")) == len(broken) == count
    assert overlaps(found) == []


@pytest.mark.parametrize("hand", ["right", "left"])
@pytest.mark.parametrize(("text", "count"), [(ROWS, 3), (ROUNDS, 6)], ids=["rows", "rounds"])
def test_a_back_post_hook_is_broken_where_it_goes_behind_one_whole_stem(text, count, hand):
    found = sheet(text.format(side="BP"), hand=hand)
    under, over = ("row-1", "row-2") if text == ROWS else ("round-1", "round-2")
    whole, broken = stems(found, under)
    assert broken == []
    every = [g for g in found.glyphs if g.row == over and g.kind == "bpdc"]
    for glyph, hook in zip(every, hooks(found, over, "bp"), strict=True):
        assert sum(hook.crosses(stem) for stem in whole) == 1
        assert not any(LineString(line).crosses(stem) for line in glyph.lines[3:] for stem in whole)
    assert len(every) == count
    assert overlaps(found) == []


def test_a_hook_round_a_post_two_rounds_down_clasps_it_past_what_lies_between():
    found = sheet(PAST.format(side="FP"))
    _, broken = stems(found, "round-1")
    crossed = [sum(hook.crosses(stem) for stem in broken) for hook in hooks(found, "round-3", "fp")]
    assert len(crossed) == 6 and set(crossed) == {1}
    assert overlaps(found) == []


def test_two_hooks_round_one_stem_keep_clear_of_each_other():
    text = ROWS.format(side="FP").replace("FPdc around next dc, hdc in next 3", "2 FPdc around next dc, hdc in next 3")
    found = sheet(text.replace("(9 sts)", "(10 sts)"))
    assert len(hooks(found, "row-2", "fp")) == 4
    assert overlaps(found) == []


@pytest.mark.parametrize("side", ["FP", "BP"])
def test_a_beginning_chain_is_clasped_between_two_of_its_chains(side):
    text = ROWS.format(side=side).replace("hdc in last dc", f"{side}dc around top of beg ch-3")
    found = sheet(text)
    chains = shapely.union_all([g.ink for g in found.glyphs if g.row == "row-1" and g.kind == "beginning-ch"])
    low, high = chains.bounds[1], chains.bounds[3]
    assert any(low < h.bounds[3] < high and h.bounds[0] < chains.centroid.x < h.bounds[2] for h in hooks(found, "row-2", side.lower()))
    assert overlaps(found) == []


def test_hooks_that_stand_far_apart_have_long_tails_and_those_of_a_rib_short_ones():
    apart = "Ch 5, join with sl st to form ring.\n"
    apart += "Rnd 1 (RS): Ch 1, [sc in ring, ch 3] 5 times, join with sl st in first sc.\n"
    apart += "Rnd 2: Ch 1, (sc, hdc, 2 dc, hdc, sc) in each ch-3 sp around, join with sl st in first sc.\n"
    apart += "Rnd 3: Ch 1, *BPsc around next sc of Rnd 1, ch 5; rep from * 4 more times, join with sl st in first BPsc."
    rib = "Ch 12.\nRow 1 (RS): Dc in 4th ch from hook and in each ch across, turn.\n"
    rib += "Row 2: Ch 2 (counts as hdc), *BPdc around next dc; rep from * to last st, hdc in last st."
    rounds = lay_rounds(work_text(apart, "apart").fabric).rings[2].laid
    row = clasped_fabric(lay_fabric(work_text(rib, "rib").fabric)).courses[1].laid
    for laid, roomy in ((rounds, True), (row, False)):
        clasps = [clasp for spot in laid.spots for clasp in spot.clasps]
        assert len(clasps) >= 5 and all(clasp.roomy == roomy for clasp in clasps)


def test_a_beginning_chain_stands_beside_the_stem_of_what_goes_in_further_down():
    text = (Path(__file__).parents[3] / "gallery" / "fabrics" / "layered-flower.txt").read_text("utf-8")
    for ring in lay_rounds(work_text(text, "flower").fabric).rings[2::2]:
        start = next(s for s in ring.laid.spots if s.role == "start")
        first = next(s for s in ring.laid.spots if s.role == "stitch")
        assert math.hypot(*start.ovals[0][:2]) < math.hypot(*first.head) + 0.35


#: A bobble beside every second post, and posts that two stitches share.
BESIDE = """Terms: US
Over 13 sc.
Row 1 (WS): Ch 1, sc in first 2 sc, *bobble in next sc, sc in next 3 sc; rep from * to last 3 sc, bobble in next sc, \
sc in last 2 sc, turn. (13 sts)
Row 2 (RS): Ch 3 (counts as dc), *FPdc around next st, dc in next st; rep from * to end, turn. (13 sts)
Row 3: Ch 3 (counts as dc), 2 BPdc around next st, dc in next 9 sts, 2 BPdc around next st, dc in last st. (15 sts)
"""


@pytest.mark.parametrize("hand", ["right", "left"])
def test_hooks_come_down_left_round_the_front_and_right_round_the_back_as_in_the_key(hand):
    """Common practice, no source: front and back are each other's mirror image."""
    for text, count in ((BESIDE, 10), (PAST.format(side="FP"), 6), (PAST.format(side="BP"), 6), (ROUNDS.format(side="BP"), 6)):
        sheet_ = sheet(text, hand=hand)
        fabric = work_text(text, "hooks").fabric
        setting = Setting(hand=hand, extent="full")
        if fabric.rows[0].is_round:
            laid = [ring.laid for ring in lay_rounds(fabric, hand).rings]
        else:
            laid = [course.laid for course in view_of(fabric, setting).laid.courses]
        found = [(held_by(spot), clasp.side) for row in laid for spot in row.spots for clasp in spot.clasps]
        assert len(found) == count and all((side < 0.0) == (held == "front post") for held, side in found)
        assert overlaps(sheet_) == []


def test_hooks_of_a_rib_that_face_each_other_share_the_way_between_two_narrow_bars():
    text = "Terms: US\nOver 8 sc.\nRow 1 (WS): Ch 3 (counts as dc), dc in next 7 sc, turn. (8 dc)\n"
    text += "Row 2 (RS): Ch 2 (counts as hdc), *{} around next st; rep from * to last st, hdc in last st.\n"
    rib, plain = (sheet(text.format(what)) for what in ("FPdc around next st, BPdc", "FPdc around next st, FPdc"))
    assert overlaps(rib) == [] and overlaps(plain) == []

    def bars(found):
        return [g.ink.bounds[2] - g.ink.bounds[0] for g in found.glyphs if g.row == "row-1" and g.kind.startswith("dc")]

    assert sorted(bars(rib))[5] < 0.8 * min(bars(plain))
