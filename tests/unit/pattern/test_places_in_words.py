"""Places, stitches and acts in words, one by one and in both terms: what a hand is told for each node of the tree."""

import pytest
from hookfold.charts.pattern.place_writer import plural, write_amount, write_nth, write_place
from hookfold.charts.pattern.tree import Act, Again, Chain, Corner, Into, Make, Noun, Place, RowRef, Skip, Star, Times
from hookfold.charts.pattern.writer import write_op
from hookfold.charts.pattern.written.document import read_written

ST, DC, SP = Noun("st"), Noun("dc"), Noun("sp", 3)

PLACES = {
    "next st": Place("next", ST), "next 4 dc": Place("next", DC, 4), "first 2 sts": Place("first", ST, 2), "last ch-3 sp": Place("last", SP),
    "3rd dc": Place("next", DC, nth=3), "next to last st": Place("last", ST, nth=2),
    "each dc across": Place("each", DC), "every other st across": Place("each", ST, step=2), "every 3rd st across": Place("each", ST, step=3),
    "each st to last 2 sts": Place("each", ST, until=(2, ST)), "each st to last st": Place("each", ST, until=(1, ST)),
    "each dc and each ch-3 sp across": Place("each", DC, also=(SP,)), "each st to next ch-3 sp": Place("each", ST, upto=SP),
    "each st to 2 dc before ch-3 sp": Place("each", ST, until=(2, DC), upto=SP), "each dc across, omitting first 2 dc": Place("each", DC, after=2),
    "2nd dc of next shell": Place("nth", DC, nth=2, of=Place("next", Noun("shell"))), "center dc of next shell": Place("nth", DC, of=Place("next", Noun("shell"))),
    "last dc of next group": Place("nth", DC, nth=-1), "first 2 dc of next shell": Place("nth", DC, 2, nth=1, of=Place("next", Noun("shell"))),
    "each dc of next shell": Place("nth", DC, 0, of=Place("next", Noun("shell"))),
    "2nd ch from hook": Place("hook", Noun("ch"), nth=2), "last ch from hook": Place("hook", Noun("ch")),
    "top of beg ch-3": Place("top", of=Place("beg", Noun("ch", 3))), "beg ch": Place("beg", Noun("ch")), "beg cl": Place("beg", Noun("cl")),
    "first half of ch-3 sps": Place("half", SP, nth=1), "last half of ch-3 sps": Place("half", SP, nth=2),
    "skipped st": Place("skipped", ST), "2nd skipped dc": Place("skipped", DC, nth=2),
    "next skipped dc": Place("unworked", DC), "next 3 skipped dc": Place("unworked", DC, 3), "each skipped dc": Place("unworked", DC, 0),
    "each row end": Place("edge", Noun("row")), "next 3 row ends": Place("edge", ST, 3), "any st": Place("any", ST),
    "sp before next dc": Place("before", of=Place("next", DC)), "sp after last dc": Place("after", of=Place("last", DC)), "next sp": Place("after"),
    "back loop of next dc": Place("next", DC, hold="back loop"), "next dc of Row 3": Place("next", DC, row=RowRef(number=3)),
    "next dc 2 rows below": Place("next", DC, row=RowRef(below=2)), "ring": Place("ring"), "marked st": Place("marked"),
}  # fmt: skip


@pytest.mark.parametrize("words", PLACES)
def test_a_place_in_words(words):
    assert write_place(PLACES[words], "US") == words


UK_PLACES = {
    "next 4 tr": Place("next", DC, 4), "centre tr of next shell": Place("nth", DC, of=Place("next", Noun("shell"))),
    "each htr to last 2 tr": Place("each", Noun("hdc"), until=(2, DC)), "next skipped dtr": Place("unworked", Noun("tr")),
}  # fmt: skip


@pytest.mark.parametrize("words", UK_PLACES)
def test_a_place_in_words_of_the_other_terms(words):
    assert write_place(UK_PLACES[words], "UK") == words


NOUNS = {
    ("ch-3 sp", "ch-3 sps"): SP, ("ch-sp", "ch-sps"): Noun("sp"), ("ch-5 lp", "ch-5 lps"): Noun("lp", 5), ("lp", "lps"): Noun("lp"),
    ("ch-2 corner sp", "ch-2 corner sps"): Noun("corner sp", 2), ("5-dc group", "5-dc groups"): Noun("group", 5, "dc"),
    ("3-st shell", "3-st shells"): Noun("shell", 3), ("sp", "sps"): Noun("gap"), ("sp between groups", "sps between groups"): Noun("gap", of="group"),
    ("sp between 3-dc groups", "sps between 3-dc groups"): Noun("gap", 3, "dc"), ("popcorn", "popcorns"): Noun("popcorn"), ("dc", "dc"): DC,
    ("center dc", "center dc"): Noun("middle st", of="dc"),
}  # fmt: skip


@pytest.mark.parametrize("words", [w for w in NOUNS if w != ("sp between groups", "sps between groups")])
def test_one_and_several_of_a_noun(words):
    assert (plural(NOUNS[words], 1, "US"), plural(NOUNS[words], 2, "US")) == words
    assert write_amount((4, NOUNS[words]), "US") == f"4 {words[1]}" and write_amount((1, NOUNS[words]), "US") == words[0]


def test_the_eleventh_to_the_thirteenth_are_no_first_to_third():
    assert [write_nth(n) for n in (1, 2, 3, 4, 11, 12, 13, 21, 22, 103, 112)] == ["1st", "2nd", "3rd", "4th", "11th", "12th", "13th", "21st", "22nd", "103rd", "112th"]


NEXT = (Place("next", DC),)
OPS = {
    "3 dc in next dc": Make("dc", 3, NEXT), "dc in next 2 dc": Make("dc", 1, (Place("next", DC, 2),)), "2 dc in each of next 3 dc": Make("dc", 2, (Place("next", DC, 3),)),
    "FPdc around next dc": Make("FPdc", 1, NEXT), "dc3tog over next 3 dc": Make("dc3tog", 1, (Place("next", DC, 3),)), "dc3tog in next dc": Make("dc3tog", 1, NEXT),
    "5 sc evenly across": Make("sc", 1, (Place("evenly", count=5),)), "sc in sp before next dc": Make("sc", 1, (Place("before", of=Place("next", DC)),)),
    "ch 3, sl st in 3rd ch from hook": Make("picot", 1, (Place("made", nth=3),)), "dc": Make("dc"), "4 dc": Make("dc", 4),
    "ch 3": Chain(3), "ch 3 (counts as dc)": Chain(3, ("dc",)), "ch 1 (does not count as st)": Chain(1, ()),
    "ch 4 (counts as dc and ch 1)": Chain(4, ("dc", "ch 1")), "ch 3 (counts as dc here and throughout)": Chain(3, ("dc",), throughout="all"),
    "sk next dc and next ch-3 sp": Skip((Place("next", DC), Place("next", SP))),
    "(dc, ch 2, dc) in next ch-3 sp": Into((Make("dc"), Chain(2), Make("dc")), (Place("next", SP),)),
    "[dc in next dc, ch 1] 5 times": Times((Make("dc", 1, NEXT), Chain(1)), 5), "[dc in next dc, ch 1] twice": Times((Make("dc", 1, NEXT), Chain(1)), 2),
    "[dc in next dc, ch 1] around": Times((Make("dc", 1, NEXT), Chain(1)), 0),
    "*dc in next dc, ch 1; rep from * across": Star((Make("dc", 1, NEXT), Chain(1))), "*dc in next dc, ch 1; rep from * around": Star((Make("dc", 1, NEXT), Chain(1)), word="around"),
    "*dc in next dc, ch 1; rep from * once more": Star((Make("dc", 1, NEXT), Chain(1)), more=1), "*dc in next dc, ch 1; rep from * 3 more times": Star((Make("dc", 1, NEXT), Chain(1)), more=3),
    "*dc in next dc, ch 1; rep from * to last 2 sts": Star((Make("dc", 1, NEXT), Chain(1)), until=(2, ST)),
    "*dc in next dc**, ch 1; rep from * across, ending last rep at **": Star((Make("dc", 1, NEXT), Chain(1)), cut=1),
    "*dc in next dc, ch 1; rep from * across, ending with ch 5": Star((Make("dc", 1, NEXT), Chain(1)), ending=(Chain(5),)),
    "*dc in next dc, ch 1; rep from * across, ending last rep with ch 5": Star((Make("dc", 1, NEXT), Chain(1)), ending=(Chain(5),), replaces=True),
    "join with sl st in next dc": Act("join", place=Place("next", DC)), "join with sl st in top of dc": Act("join", place=Place("next", DC, bare=True)),
    "join yarn with sl st in any st": Act("yarn", place=Place("any", ST)), "join colour 2 with sl st": Act("yarn", "2"), "leave 4 sts unworked": Act("leave", "4"),
    "leave rem sts unworked": Act("leave"), "working in back loops only": Act("loops", "back loop"), "working in both loops": Act("loops", "both"),
    "changing to B in last yo": Act("change", "B"), "working behind sts just made": Act("crossing", "behind"), "working in front of sts just made": Act("crossing", "front"),
    "skipped ch count as dc and ch 2": Act("opening", "dc, ch 2"), "skipped ch do not count as st": Act("opening", ""), "with right side facing": Act("facing", "right side"),
    "decreasing 1 st at each end": None, "continue as established, working 1 more st in each block": Again(1, 1, grow=1, of="block"),
}  # fmt: skip
ENDS = (Place("first"), Place("last"))
OPS["decreasing 1 st at each end"] = Corner(Make("dec", 2, ENDS))
OPS["increasing 2 st at beg"] = Corner(Make("inc", 3, ENDS[:1]))
OPS["increasing 2 st at end"] = Corner(Make("inc", 3, ENDS[1:]))


@pytest.mark.parametrize("words", OPS)
def test_what_is_done_in_words(words):
    said = write_op(OPS[words], "US")
    assert said.strip("()") == words.strip("()") if words.startswith("skipped") else said == words


@pytest.mark.parametrize("words", [w for w, op in OPS.items() if isinstance(op, Make | Times | Star | Into | Skip) and not w.startswith(("5 sc", "sc in sp", "ch 3, sl", "dc3tog in"))])
def test_the_words_are_read_as_what_is_done(words):
    (row,) = read_written(f"Over 30 sc.\nRow 1: Ch 1, turn, {words}.\n").pattern.rows
    assert row.ops[2:] == (OPS[words],) or words in ("dc", "4 dc")
