"""Yokes, blocks from corner to corner, cables, overlay rows and motifs as pages of today tell them: each text's rows end
with the stitches they make, worked out by hand. Rules of the trade: common practice, no source."""

from __future__ import annotations

import pytest
from hookfold.charts.model.cloth.stated import as_counted
from hookfold.charts.model.rows.work import work_text
from keyed_rows import made, worked_and_keys

_CABLE = """
Terms: US
Chains at the start of a row do not count.
Row 1: fhdc 16. => 16
Row 2: ch 1, turn, hdc in first 6 sts, FPdc around next 4 sts, hdc in last 6 sts. => 16
Row 3: ch 1, turn, hdc in each hdc, BPdc around each FPdc. => 16
Row 4: ch 1, turn, hdc in next 6 sts, sk next 2 sts, FPtr around each of next 2 sts, {}, hdc in last 6 sts. => 16
"""
_CROSSED = (
    "working in front of these FPtr around each of the 2 skipped sts",
    "working behind those FPtr around each of the 2 sts skipped",
    "passing in front of them FPtr around each skipped st",
    "working in front of these 2 FPtr, FPtr around each of the 2 skipped sts",
    "then working in front of these FPtr around first skipped st and FPtr around second skipped st",
    "working in front of the FPtr just made, FPtr around each of the 2 sts skipped",
)
_BLOCKS = """
Terms: US
{}
Row 1: Ch 6. Dc in 4th ch from hook, dc in next 2 ch. [1 {name}]
Row 2: Ch 6, turn. Dc in 4th ch from hook, dc in next 2 ch, (sl st, ch 3, 3 dc) in ch-3 sp of next {name}. [2 {name}s]
Row 3: Ch 6, turn. Dc in 4th ch from hook, dc in next 2 ch, (sl st, ch 3, 3 dc) in each ch-3 sp across. [3 {name}s]
Row 4: Turn. Sl st in each of the first 3 dc and in the ch-3 sp, (ch 3, 3 dc) in same sp, *(sl st, ch 3, 3 dc) in next ch-3 sp; \
rep from * to last {name}, sl st in ch-3 sp of last {name}. [2 {name}s]
"""
_MADE_OF = ("1 tile = ch 3 + 3 dc. The chains never count.", "One tile = ch 3, 3 dc in same sp", "Tile: 3 ch and 3 dc", "Square = ch 3 + 3 dc", "A block is ch 3 and 3 dc.", "Pixel = ch 3, 3 dc")


def _right(text: str) -> None:
    worked, keys = worked_and_keys(text)
    assert ([str(p.says) for p in worked.problems], made(worked, keys)) == ([], keys)


@pytest.mark.parametrize("words", _CROSSED)
def test_a_cable_s_second_half_is_worked_once(words: str) -> None:
    _right(_CABLE.format(words))


@pytest.mark.parametrize("said", _MADE_OF)
def test_a_block_that_the_page_explains_is_the_block_of_its_rows(said: str) -> None:
    name = next(word for word in ("tile", "square", "block", "pixel") if word in said.lower())
    worked = work_text(_BLOCKS.format(said, name=name))
    assert [str(p.says) for p in worked.problems] == []
    assert [sum(s.kind == "dc" and s.role == "stitch" for s in w.row.stitches) for w in worked.fabric.rows] == [3, 6, 9, 6]


def test_a_square_of_a_motif_is_no_block() -> None:
    worked = work_text("Terms: US\nSquare = ch 3 + 3 dc\nRow 1: Ch 12, dc in 4th ch from hook and in each ch across.\nRow 2: Ch 3, turn, dc in next square.\n")
    assert worked.problems != []


_OVERLAY = """
Terms: US
{}
Ch 14.
Row 1: sc in 2nd ch from hook and each ch across. (13) => 13
Row 2: {edge}, 11 blo, {edge}. => 13
Row 3: {edge}, 3 blo, [1 mdc, 3 blo] x2, {edge}. => 13
Rows 4-5: Repeat Rows 2-3, keeping the colors in turn (A, B).
"""
_TOLD = (
    ('The first and last st of each row is a sc through both loops ("edge").\nblo = sc in the back loop only\nmdc = mosaic double: dc in the free front loop of the st two rows below. Always skip the st behind it.', "edge"),
    ("Every row begins and ends with an edge st: sc in both loops.\nblo = sc in back loop only\nmdc = dc in the front loop 2 rows below", "edge st"),
    ("The first and last stitch of every row, called the border st, is a sc through both loops.\nblo = back loop sc\nmdc = overlay dc: a dc in the front loop of the stitch 2 rows down", "border st"),
    ("Each row starts and ends with a sc in both loops (rim).\nblo: sc blo\nmdc: mosaic dc, worked in the front loop two rows down", "rim"),
    ("e: edge stitch, a single crochet in both loops\nblo: single crochet in the back loop only\nmdc: dc in the front loop of the stitch two rows below; skip the stitch behind it", "e"),
    ('"edge" = sc through both loops in the first and last st of a row\n"blo" = sc blo\n"mdc" = drop-down dc (dc in the unworked front loop 2 rows below)', "edge"),
)


@pytest.mark.parametrize(("told", "edge"), _TOLD)
def test_words_of_overlay_rows_are_what_the_page_says(told: str, edge: str) -> None:
    text = _OVERLAY.format(told, edge=edge)
    worked, keys = worked_and_keys(text)
    assert ([str(p.says) for p in worked.problems], made(worked, [*keys, (13, None), (13, None)])) == ([], [(13, None)] * 5)
    assert [sum(s.kind in ("dc", "mdc") for s in w.row.stitches) for w in worked.fabric.rows] == [0, 0, 2, 0, 2]


def test_an_edge_that_nothing_names_is_told() -> None:
    text = "Terms: US\nThe first and last st of each row is worked through both loops.\nCh 8.\nRow 1: sc in 2nd ch from hook and each ch across. (7)\nRow 2: hem, 5 sc, hem.\n"
    assert any("hem" in str(p.says) for p in work_text(text).problems)


_WING = """
Terms: US
V-st = (dc, ch 1, dc) in the st or sp indicated
Ch 3 at the beginning of a row counts as dc.
Row 1: ch 4, {} dc in 4th ch from hook, ch 2, {} dc in same ch. => {}
Row 2: Ch 3, turn, dc in same st, *sk next st, V-st in next st; rep from * to ch-2 sp, (V-st, ch 2, V-st) in ch-2 sp, \
**V-st in next st, sk next st; rep from ** to t-ch, 2 dc in top of t-ch. => {}
"""


@pytest.mark.parametrize("half", [5, 25, 41])
def test_a_repeat_to_a_space_stops_there_however_wide_the_row(half: int) -> None:
    _right(_WING.format(half - 1, half, 2 * half, 2 * half + 6))


_YOKE = """
Terms: US
{}
Ch 28, join into a ring.
Rnd 1: ch 2 (does not count), dc in each ch around, join. (28 dc) => 28
Rnd 2: ch 2, dc in next 8 dc, (dc, ch 1, dc) in next dc, dc in next 4 dc, (dc, ch 1, dc) in next dc, dc in next 8 dc, \
(dc, ch 1, dc) in next dc, dc in next 4 dc, (dc, ch 1, dc) in last dc, join. {} => 32
Rnd 3: ch 2, {}, join. => 40
Rnd 4: ch 2, {}, join. 28 dc + 10 underarm ch => 28
"""
_GROWN = (
    "dc in each st around, working (dc, ch 1, dc) in each marked ch-1 sp and moving the markers up as you go",
    "dc in each dc around, (dc, ch 1, dc) in each raglan sp",
    "*dc in each dc to next raglan sp, (dc, ch 1, dc) in raglan sp; rep from * 3 times more, dc in last dc",
    "dc in each dc to first marker, (dc, ch 1, dc) in marked sp, *dc in each dc to next marker, (dc, ch 1, dc) in marked sp; rep from * twice more, dc in each st to end",
    "*dc in each st to marked sp, (dc, ch 1, dc) in marked sp, move marker up; rep from * 3 more times, dc to end",
    "dc around, with (dc, ch 1, dc) in each of the 4 marked ch-1 sps",
)
_DIVIDED = (
    "dc to first raglan sp, dc in raglan sp, ch 5, sk sleeve sts, dc in next raglan sp, dc in each dc to next raglan sp, dc in raglan sp, ch 5, sk sleeve sts, dc in last raglan sp, dc to end",
    "dc in each dc to first marker, dc in marked sp, ch 5, skip the 8 sleeve dc, dc in next marked sp, dc in each dc to next marker, dc in marked sp, ch 5, skip the 8 sleeve dc, dc in last marked sp, dc to end",
)
_LIE = ("32 dc: 10 / 6 / 10 / 6", "32 dc: 10 each front & back, 6 each sleeve", "(32 dc: back 10, sleeve 6, front 10, sleeve 6)", "32 dc (10 + 6 + 10 + 6)")


@pytest.mark.parametrize("words", _GROWN)
def test_marked_spaces_are_where_a_yoke_grows(words: str) -> None:
    text = _YOKE.format("PM = place marker", "32 dc", words, "dc in each dc around")
    worked, keys = worked_and_keys(text.replace(" => 28\n\n", "").rsplit("Rnd 4", 1)[0])
    assert ([str(p.says) for p in worked.problems], made(worked, keys)) == ([], keys)


@pytest.mark.parametrize("words", _DIVIDED)
@pytest.mark.parametrize("lie", _LIE)
def test_a_yoke_is_divided_at_them(words: str, lie: str) -> None:
    _right(_YOKE.format('"raglan sp" = the ch-1 between increases.', lie, _GROWN[1], words))


def test_parts_that_do_not_come_to_the_count_stay_a_complaint() -> None:
    text = _YOKE.format("", "32 dc: 9 / 6 / 10 / 6", _GROWN[1], _DIVIDED[0])
    assert worked_and_keys(text)[0].problems != []


_SUN = """
Terms: US
3-dc cl = dc3tog, all worked in the same sp
Rnd 1: In a magic ring, ch 3 (counts as a dc), 11 dc, sl st to top of ch 3. (12) => 12
Rnd 2: {}
Rnd 3: Join in any ch-1 sp. *3-dc cl in ch-1 sp, ch 2; rep from * around, sl st to first cl. [12 cl, 12 ch-2 sps] => 12
Rnd 4: Ch 3 (counts as a dc), (2 dc, ch 2, 3 dc) in next ch-2 sp, *3 hdc in each of next 2 ch-2 sps, (3dc, ch2, 3dc) corner in next ch-2 sp; \
rep from * twice more, 3 hdc in each of last 2 ch-2 sps, sl st to first dc. {{per side: 6 dc + 6 hdc}}
Rnd 5: Ch 1, sc in each st around with 3 sc in each corner sp, sl st to first sc. (60 sc) => 60
Rnd 6: {} => 80
"""
_GAPS = (
    "Join between any 2 sts. *Puff st in the space between sts, ch 1, move to the next space; rep from * around, sl st to first puff. => 12",
    "Join in any space between dc. *Puff in space, ch 1, go on to next space; rep from * around, sl st to first puff. (12 puffs) => 12",
    "Join between any two dc. (Puff in the space, ch 1, move along to the next space) around, sl st to first puff. => 12",
    "*Puff between sts, ch 1, skip to the next space; rep from * around, sl st to first puff. => 12",
)
_FROM_CORNER = (
    "Join in the middle sc of any corner. *(3 hdc, ch 2, 3 hdc) in corner sc, hdc in next 14 sts; rep from * around, sl st to first hdc.",
    "Start in center sc of a corner. *(3 hdc, ch 2, 3 hdc) in corner sc, hdc in next 14 sts; rep from * around.",
    "With a new shade, start with a standing hdc in the centre sc of a corner. *(3 hdc, ch 2, 3 hdc) in corner sc, hdc in next 14 sts; rep from * around. (Your standing hdc is the first hdc of the first corner.)",
    "Join with sl st in the middle sc of any corner. Ch 1, *(3 hdc, ch 2, 3 hdc) in corner sc, hdc in next 14 sts; rep from * around.",
)


@pytest.mark.parametrize("gaps", _GAPS)
@pytest.mark.parametrize("corner", _FROM_CORNER)
def test_a_sunburst_becomes_a_square(gaps: str, corner: str) -> None:
    text = _SUN.format(gaps, corner)
    worked, _ = worked_and_keys(text)
    assert [str(p.says) for p in worked.problems] == []
    assert [as_counted(w.row, t.stated) for w, t in zip(worked.fabric.rows, worked.pieces[0].texts, strict=True)] == [12, 12, 12, 48, 60, 80]


def test_moving_on_within_a_repeat_is_told() -> None:
    text = "Terms: US\nRnd 1: 12 sc in magic ring. (12)\nRnd 2: Sc in next 2 sts, move to next st, sc in next st.\n"
    assert worked_and_keys(text)[0].problems != []


_LISTED = """
Terms: US

Abbreviations
sc       single crochet
{}

Ch 22.
Row 1: sc in 2nd ch from hook and each ch across. (21) => 21
Row 2: ch 1, turn, (sc in next 6 sts, {} in next st) 3 times. => 21
"""
_COLUMNS = (
    ("nb       noodle: (yo, insert hook in st, pull up a loop) 4 times in same st, yo, pull through all loops", "nb"),
    ("bean     bean st: [insert hook, pull up a loop, yo, insert hook in same st, pull up a loop], yo and through all", "bean"),
    ("pc       popcorn (5 dc in one st, take out hook, put it through the first dc and pull the loop through)", "pc"),
    ("MB       make bobble (5 dc in same st, closed together)", "MB"),
    ("bob      4 dc in one st, then worked off together", "bob"),
    ("tuft     3 hdc in same st, all drawn together at the top", "tuft"),
)


@pytest.mark.parametrize(("line", "name"), _COLUMNS)
def test_a_list_in_columns_explains_its_stitches(line: str, name: str) -> None:
    _right(_LISTED.format(line, name))


@pytest.mark.parametrize(("line", "name"), _COLUMNS)
def test_so_does_a_list_with_signs(line: str, name: str) -> None:
    _right(_LISTED.format(" = ".join(line.split(maxsplit=1)), name))


def test_stitches_in_one_place_that_nothing_closes_stay_apart() -> None:
    worked, _ = worked_and_keys(_LISTED.format("fan      5 dc in same st", "fan"))
    assert [as_counted(w.row, t.stated) for w, t in zip(worked.fabric.rows, worked.pieces[0].texts, strict=True)] == [21, 33]


_RIBBED = """
Terms: US
Rnd 1: 12 sc in magic ring, join. (12) => 12
Rnd 2: Ch 1, *sc in next 2 sts, FPdc around next st; rep from * around, join. (8 sc, 4 FPdc) => 12
Rnd 3: {} => 16
"""
_BEGUN = (
    "Ch 1, *FPdc around FPdc, sc in next sc, 2 sc in next sc; rep from * around, starting at any FPdc. (12 sc, 4 FPdc)",
    "Ch 1, starting in any FPdc, *FPdc around FPdc, sc in next sc, 2 sc in next sc; rep from * around, join. (12 sc, 4 FPdc)",
    "Join at any FPdc. Ch 1, *FPdc around FPdc, sc in next sc, 2 sc in next sc; rep from * around, join.",
    "Begin with an FPdc: *FPdc around FPdc, sc in next sc, 2 sc in next sc; rep from * around, join.",
    "Ch 1, *FPdc around FPdc, sc in next sc, 2 sc in next sc; rep from * around, beginning with any FPdc.",
    "Start in any FPdc. Ch 1, *FPdc around FPdc, sc in next sc, 2 sc in next sc; rep from * around, join.",
)


@pytest.mark.parametrize("words", _BEGUN)
def test_a_round_begins_where_it_says(words: str) -> None:
    _right(_RIBBED.format(words))


def test_a_round_that_does_not_say_so_is_told() -> None:
    assert worked_and_keys(_RIBBED.format("Ch 1, *FPdc around FPdc, sc in next sc, 2 sc in next sc; rep from * around, join."))[0].problems != []


_HEXAGON = """
Terms: US
In a magic ring.
Rnd 1: (2 dc, ch 1) 6 times, join. => 12
Rnd 2: Ch 1, {}, join. => 24
Rnd 3: Ch 1, sc in first 3 sts, 3 sc in corner sp, *(sc in next st, hdc in next st) to corner sp, 3 sc in corner sp; rep from * around, sc in last st, join. => 42
"""
_AROUND = (
    "hdc in each st around starting in the same place, and (hdc, ch 1, hdc) in each corner sp",
    "starting in same st as join, hdc in each st around, with (hdc, ch 1, hdc) in each corner sp",
    "hdc in first st and in each st around, (hdc, ch 1, hdc) in each corner sp",
    "hdc in each remaining st around, working (hdc, ch 1, hdc) in each corner sp",
    "hdc in each st around, beginning in the same st, with (hdc, ch 1, hdc) in each corner sp",
    "*hdc in each st to corner sp, (hdc, ch 1, hdc) in corner sp; rep from * around",
)


@pytest.mark.parametrize("words", _AROUND)
def test_a_hexagon_goes_stitch_by_stitch_to_its_corners(words: str) -> None:
    _right(_HEXAGON.format(words))


@pytest.mark.parametrize("round_3", ["Ch 1, *(sc in next st, hdc in next st) to corner sp, 3 sc in corner sp; rep from * around, join.", "Ch 1, (sc in next st, hdc in next st) to corner sp, 3 sc in corner sp, *(sc in next st, hdc in next st) to corner sp, 3 sc in corner sp; rep from * around, join."])
def test_a_repeat_that_does_not_come_to_its_corner_is_told(round_3: str) -> None:
    text = _HEXAGON.format(_AROUND[1]).rsplit("Rnd 3", 1)[0] + f"Rnd 3: {round_3}\n"
    assert any("does not end at the corner sp" in str(p.says) for p in worked_and_keys(text)[0].problems)


_SHORT_ROWS = """
Terms: US
Ch 21.
Row 1: sc in 2nd ch from hook and each ch across. => 20
Row 2: ch 1, turn, sc in next 15 sts, leave rest unworked. => 15
Row 3: ch 1, turn, sc in 15. => 15
Row 4: ch 1, turn, sc in 15, {}. => 20
Row 5: ch 1, turn, sc in each st. => 20
"""
_LEFT = (
    "then sc in the 5 sts left unworked in the last full row", "sc in the 5 unworked sts of Row 1", "sc in each of the 5 sts left on the last long row",
    "continue with sc in the 5 unworked sts of the long row", "then sc in the 5 sts you left unworked", "sc in the 5 sts left at the end of the previous full row",
)  # fmt: skip


@pytest.mark.parametrize("words", _LEFT)
def test_what_a_short_row_left_is_worked_by_a_longer_one(words: str) -> None:
    _right(_SHORT_ROWS.format(words))


@pytest.mark.parametrize("said", ["(this is the ch that holds the first sc)", "(that is the ch with the first sc in it)", ", this is the same ch that already holds your first sc", "- it's the ch where you worked the first sc", ""])
def test_the_last_chain_of_an_oval_is_that_of_its_first_stitch(said: str) -> None:
    _right(f"Terms: US\nCh 15.\nRnd 1: Sc in 2nd ch from hook, sc in next 12 ch, 3 sc in last ch. Rotate to work along the other side of the chain: sc in next 12 ch, 2 sc in last ch{' ' * (said[:1] in ('(', '-'))}{said}. Join. (30) => 30\n")


_RING = ("Foundation hdc (fhdc) 32, join into a ring and close the little gap with the tail. (32)", "32 foundation hdc (fhdc), join to work in the round. (32)", "fhdc 32, join in the round. (32)", "Foundation half double crochet (fhdc) 32, join to begin working in the round. (32)")


@pytest.mark.parametrize("words", _RING)
def test_a_foundation_of_stitches_is_joined(words: str) -> None:
    _right(f"Terms: US\nRnd 1: {words} => 32\nRnd 2: Ch 1, hdc around. (32) => 32\n")


_PAIRS = (
    "Join B between any two dc. Ch 3 (counts as dc), dc in the same space, then 2 dc in every space between sts around. Sl st to close. (24)",
    "New color between any two dc. Ch 3 (counts as dc), dc in same sp, 2 dc in each sp between dc around, join. (24)",
    "New color between any two dc. *2 dc in sp between dc; rep from * around, join. (24)",
    "Join between any 2 sts. *2 dc in the space between sts, move to the next space; rep from * around, join.",
)


@pytest.mark.parametrize("words", _PAIRS)
def test_every_gap_is_worked_once_wherever_the_round_begins(words: str) -> None:
    _right(f"Terms: US\nRnd 1: In a magic ring, ch 3 (counts as a dc), 11 dc, sl st to top of ch 3. (12) => 12\nRnd 2: {words} => 24\n")


@pytest.mark.parametrize("said", ["5 sc on every side\nFasten off and weave in ends.", "5 sc along each side\n\nFasten off.", "(5 sts a side)", "{per side: 3 sc + 2 sc}", "(each side: 5 sc)"])
def test_what_a_side_has_is_no_work(said: str) -> None:
    worked = work_text(f"Terms: US\nRnd 1: 12 sc in magic ring.\nRnd 2: Ch 1, *sc in next 2 sts, 3 sc in next st; rep from * around, join.\n{said}\n")
    assert [row.row.made for row in worked.fabric.rows] == [12, 20]


def test_a_marker_set_twice_is_no_name_of_what_stands_between() -> None:
    _right("Terms: US\nRnd 1: 28 fsc, join. (28) => 28\nRnd 2: Ch 1, sc in 13 sts, pm, 2 sc in next st, 2 sc in next st, pm, sc in 13 sts, join. (30) => 30\n")
