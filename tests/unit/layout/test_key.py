"""The key: each glyph once, in order, in the reader's terms."""

import cloth
import pytest
from hookfold.charts.drawing.svg import write
from hookfold.charts.layout.chart.key import entries, key_block
from hookfold.charts.layout.placing.laid import lay_fabric
from hookfold.charts.layout.placing.placed import Spot
from hookfold.charts.model.rows.work import work_text
from hookfold.charts.output.drawn import written_chart
from hookfold.charts.output.words import special_table
from hookfold.charts.output.written import worked_text
from hookfold.charts.setting import Setting
from hookfold.symbols import Mark, chain, chain_stack, extent
from svg_ruler import read


def spots(fabric):
    laid = lay_fabric(fabric)
    return [s for c in laid.courses for s in c.laid.spots] + list(laid.foundation.spots)


def test_low_stitches_come_first_and_each_once():
    made = entries(spots(cloth.shells(2, 3)), "US", {})
    assert [(e.short, e.name) for e in made] == [
        ("ch", "chain"),
        ("sc", "single crochet"),
        ("dc", "double crochet"),
    ]


def test_the_other_terms():
    made = entries(spots(cloth.ripple(1, 2)), "UK", {})
    assert [e.short for e in made] == ["ch", "tr", "tr2tog"]


def test_special_stitches_have_their_words():
    made = entries(spots(cloth.bobbles(2, 3)), "US", {"bobble": "5 dc worked together in one st"})
    assert made[-1].short == "bobble" and made[-1].words == "5 dc worked together in one st"


def test_a_loop_is_named():
    hook = cloth.Hook(cloth.foundation(4)).do("sc", 4, hold="back loop")
    made = entries(spots(cloth.fabric(4, [hook.row()])), "US", {})
    assert made[-1].short == "BLO sc" and "back loop only" in made[-1].name


def test_columns_fill_the_width():
    made = entries(spots(cloth.bobbles(2, 3)), "US", {"bobble": "word " * 60})
    wide, narrow = key_block(made, 0.0, 0.0, 180.0), key_block(made, 0.0, 0.0, 60.0)
    assert wide.height < narrow.height
    assert len(wide.items) == len(made)


LONG = """Terms: US
Deep sc (dsc): Insert hook in st 2 rows below next st, yo and pull up a loop, yo and draw through both loops.
Deep dc (ddc): Yo, insert hook in st 2 rows below next st, yo, pull up a loop, [yo and draw through 2 loops] twice.
Ch 10.
Row 1: Sc in 2nd ch from hook and in each ch across, turn. (9 sc)
Row 2: Ch 1, sc in each sc across, turn. (9 sc)
Row 3: Ch 1, sc in first sc, {row}, turn.
"""


def long_key(row):
    """The entries and the heights of their glyphs of a row over two rows of sc."""
    worked = work_text(LONG.format(row=row))
    assert [p.report() for p in worked.problems] == []
    made = entries(spots(worked.fabric), "US", {"dsc": "one down"})
    return {(e.short, e.name): extent(e.mark)[3] - extent(e.mark)[1] for e in made}


@pytest.mark.parametrize(("short", "plain"), [("dsc", "sc"), ("ddc", "dc")])
def test_a_stitch_into_a_row_further_down_has_a_long_stem(short, plain):
    """It is one post, a whole row longer than the plain stitch, and not the same entry."""
    high = long_key(f"{short} over next sc, dc in next sc, sc in each sc across")
    name = {"sc": "single crochet", "dc": "double crochet"}[plain]
    assert high[short, ""] == pytest.approx(high[plain, name] + 1.0, abs=0.05)


def test_a_plain_stitch_into_a_row_further_down_is_an_entry_of_its_own():
    high = long_key("sc in next sc 2 rows below, sc in each sc across")
    assert list(high) == [
        ("ch", "chain"),
        ("sc", "single crochet"),
        ("sc", "single crochet, into a row further down"),
    ]
    assert high["sc", "single crochet, into a row further down"] > high["sc", "single crochet"] + 0.9


def test_a_slip_stitch_in_one_loop_has_an_entry_of_its_own():
    spots = [
        Spot(0, "sl st", "stitch", (0.0, -0.4), ((0.0, 0.0),), "front loop"),
        Spot(1, "sl st", "join", (1.0, 0.0), ((1.0, 0.0),)),
    ]
    made = entries(spots, "US", {})
    assert [e.short for e in made] == ["sl st", "FLO sl st"]
    assert len(made[1].mark.strokes) == 1 and not made[0].mark.strokes


def test_legs_from_several_rows_are_shown_as_they_are_drawn():
    gathered = Spot(0, "spcl", "stitch", (5.0, -3.2), ((5.0, -2.0), (5.0, -1.0), (5.0, 0.0)), legs=3, base="sc")
    (made,) = entries([gathered], "US", {"spcl": "in words"})
    assert made.short == "spcl" and made.words == "in words"
    box = extent(made.mark)
    assert box[3] - box[1] > 2.8 and -0.5 < box[0] < box[2] < 0.5


IN_KEY = """Terms: US
Over 12 sc.
Row 1 (RS): Ch 3 (counts as dc), {row}, turn.
"""


def key_of(row):
    worked = work_text(IN_KEY.format(row=row))
    return entries(spots(worked.fabric), "US", {})


def test_crossed_stitches_are_shown_as_a_pair_of_which_one_is_broken():
    plain, crossed = (
        key_of(row)
        for row in ("dc in next 11 sc", "*sk next sc, dc in next sc, dc in skipped sc; rep from * to last sc, dc in last sc")
    )
    assert not any("crossed" in e.short for e in plain)
    (entry,) = [e for e in crossed if "crossed" in e.short]
    assert "behind" in entry.name
    single = next(e for e in crossed if e.short == "dc")
    assert len(entry.mark.strokes) == 2 * len(single.mark.strokes) + 1


def test_stitches_closed_together_in_one_place_and_over_several_are_two_signs():
    made = key_of("dc3tog in next sc, ch 2, sk next sc, dc3tog over next 3 sc, dc in next 6 sc")
    names = [e.name for e in made if e.short == "dc3tog"]
    assert len(names) == 2 and sum("one place" in name for name in names) == 1
    marks = {e.name: extent(e.mark) for e in made if e.short == "dc3tog"}
    closed, spread = sorted(marks.values(), key=lambda box: box[2] - box[0])
    assert closed[2] - closed[0] < 1.2 < spread[2] - spread[0]


def test_a_popcorns_oval_is_said_to_be_no_chain():
    text = "Popcorn (pop): 5 dc in next st, drop loop, insert hook in first dc, pull loop through.\n"
    worked = work_text(IN_KEY.format(row="dc in next 4 sc, pop in next sc, dc in next 6 sc").replace("Over", text + "Over"))
    made = entries(spots(worked.fabric), "US", {"pop": "5 dc gathered"})
    (entry,) = [e for e in made if e.short == "pop"]
    assert entry.words.startswith("5 dc gathered; ") and "no chain" in entry.words


@pytest.mark.parametrize(("height", "chains"), [(0.9, 1), (2.2, 2), (4.0, 3)])
def test_beginning_chains_are_no_larger_than_other_chains(height, chains):
    box = extent(chain_stack((0.0, 0.0), (0.0, -height), chains))
    usual = extent(chain((0.0, 0.0), 90.0))
    assert box[3] - box[1] <= height
    single = extent(Mark(chain_stack((0.0, 0.0), (0.0, -height), chains).strokes[:1]))
    assert single[3] - single[1] <= usual[3] - usual[1] + 1e-9
    assert single[2] - single[0] <= usual[2] - usual[0] + 1e-9


@pytest.mark.parametrize("chains", [9, 13])
def test_an_ovals_sentence_says_which_of_its_chains_do_not_lie_in_the_middle(chains):
    text = f"Terms: US\nCh {chains}.\nRnd 1: Sc in 2nd ch from hook and in next {chains - 3} ch, 3 sc in last ch; working along \
opposite side of foundation chain, sc in next {chains - 3} ch, 2 sc in last ch, join with sl st in first sc.\n"
    sheet = written_chart(worked_text(text, "a.txt"), "a.txt", Setting()).sheets[0]
    found = read(write(sheet))
    drawn = sum(g.row == "centre" for g in found.glyphs)
    said = " ".join(dict.fromkeys(words for words, _ in found.texts))
    assert drawn == chains - 1
    assert f"begun with ch {chains}. The last of the {chains} chains is the beginning chain of round 1." in said
    assert "not the gauge" in said


@pytest.mark.parametrize(("side", "pieces"), [("FP", 3), ("BP", 2)])
def test_a_post_stitch_is_shown_with_the_stem_it_clasps(side, pieces):
    made = key_of(f"dc in next 11 sc, turn.\nRow 2: Ch 2 (counts as hdc), {side}dc around next 10 dc, hdc in last st")
    (entry,) = [e for e in made if e.short == f"{side}dc"]
    assert len(entry.beneath.strokes) == pieces
    assert entry.box[3] > extent(entry.mark)[3]
    assert all(not e.beneath.strokes for e in made if e is not entry)


def test_a_cluster_told_by_its_name_alone_is_explained_as_it_is_usually_worked():
    """So many loops are left as the yarn was drawn through, one for each leg and one more."""
    text = "Terms: US\nCh 14.\nRow 1: Dc in 4th ch from hook (beg 3 sk ch count as dc), *ch 1, sk next ch, 4-dc cluster in next ch; "
    text += "rep from * to last 2 ch, ch 1, sk next ch, dc in last ch.\n"
    worked = worked_text(text, "piece.txt")
    words = special_table(worked.pattern.specials, "US", "US")
    said = next(words[s.kind] for s in worked.pattern.specials)
    assert "4 times" in said and "5 loops" in said and said.lower().count("cluster") == 1
