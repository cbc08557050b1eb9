"""Rounds that go into corners and the gaps of their sides, post stitches among others, increases told in a few words: each
text with the stitches and the chains that every row makes, worked out by hand. Rules of the trade: common practice, no
source."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import work_text
from keyed_rows import made, worked_and_keys

_SQUARE = """
Ch 4, join.
Rnd 1: Ch 3, 2 dc in ring, ch 2, (3 dc in ring, ch 2) 3 times, join. => 12
Rnd 2: Sl st to corner sp, ch 3, (2 dc, ch 2, 3 dc) in same sp, (3 dc, ch 2, 3 dc) in each corner sp around, join. => 24
"""
_HEXAGON = """
Ch 4, join.
Rnd 1: Ch 3, dc in ring, ch 1, (2 dc in ring, ch 1) 5 times, join. => 12
Rnd 2: Sl st to sp, ch 3, (dc, ch 2, 2 dc) in same sp, (2 dc, ch 2, 2 dc) in each ch-1 sp around, join. => 24/12
"""
_PONCHO = """
With A, ch 36; taking care not to twist, join with sl st.
Rnd 1: Ch 3, 2 dc in joining st, ch 2, 3 dc in same st (center back corner), (sk next 2 ch, 3 dc in next ch) 5 times, sk 2 ch, in next ch work 3 dc, ch 2, 3 dc (center front corner), (sk 2 ch, 3 dc in next ch) 5 times. Sk last 2 ch, join to top of ch 3. => 42
Rnd 2: Sl st to corner sp, ch 3, 2 dc, ch 2, 3 dc in same sp, 3 dc in sp between each 3-dc group to front corner, (3 dc, ch 2, 3 dc) in corner sp, 3 dc between each group to back corner, join. There are now 8 groups on each side including corners. => 48
"""
_CABLED = """
Ch 22.
Row 1: Dc in 4th ch from hook and in each ch across. => 20
Row 2: Ch 3, turn. Dc in next 4 sts, *FPdc around next st, dc in next 4 sts; rep from * across. => 20
"""
_BALL = """
Magic ring.
R1: 6 sc in ring. (6) => 6
R2: inc in each st around (12) => 12
"""
_LACE = """
Ch 5, join.
Rnd 1: 12 dc in ring, join. => 12
Rnd 2: Ch 4, *dc in next dc, ch 1; rep from * around, join in 3rd ch of ch 4. => 12/12
"""
_RIGHT = {
    "corners and the spaces beside them, from a corner": _SQUARE + """
Rnd 3: Sl st to corner sp, ch 3, (2 dc, ch 2, 3 dc) in same sp, (3 dc, ch 2, 3 dc) in each corner sp and 3 dc in each sp between groups, join. => 36
Rnd 4: (3 dc, ch 2, 3 dc) in each corner, 3 dc in each sp along the sides, join. => 48""",
    "the sides told before the corners": _SQUARE + """
Rnd 3: (3 dc, ch 2, 3 dc) in each corner and 3 dc in each sp between groups, join. => 36
Rnd 4: 3 dc in each sp between groups and (3 dc, ch 2, 3 dc) in each corner, join. => 48
Rnd 5: 3 dc in each space on the sides, (3 dc, ch 2, 3 dc) in every corner. => 60""",
    "spaces of one chain beside the corners": """
Ch 4, join.
Rnd 1: Ch 3, 2 dc in ring, ch 2, (3 dc in ring, ch 2) 3 times, join. => 12
Rnd 2: Sl st to corner sp, ch 3, (2 dc, ch 2, 3 dc) in same sp, ch 1, *(3 dc, ch 2, 3 dc) in corner sp, ch 1; rep from * around, join. => 24
Rnd 3: Sl st to corner sp, ch 3, (2 dc, ch 2, 3 dc) in same sp, (3 dc, ch 2, 3 dc) in each corner sp and 3 dc in each ch-1 sp around, join. => 36""",
    "gaps up to the first corner, and the one where the round began": _SQUARE + """
Rnd 3: Sl st to corner sp, ch 3, (2 dc, ch 2, 3 dc) in same sp, *3 dc in sp between groups, (3 dc, ch 2, 3 dc) in corner sp; rep from * 2 times, 3 dc in sp between groups, join. => 36
Rnd 4: Sl st to corner sp, ch 3, (2 dc, ch 2, 3 dc) in same sp, *3 dc in each sp between groups to next corner, (3 dc, ch 2, 3 dc) in corner sp; rep from * 2 times, 3 dc in each sp between groups to first corner, join. => 48""",
    "corners by where they will lie; a side that grows by itself": _PONCHO + """
Rnd 3: Work same as Rnd 2 - 1 more group on each side. => 54
Rnd 4: Same as last rnd. => 60
Rnd 5: Attach B in corner sp. Ch 1, 3 sc in corner sp, sc in each dc to front, 3 sc in corner, sc in each dc to end, join. => 66""",
    "a bracket that goes on is none of a group's": """
Ch 36, join.
Rnd 1: Ch 3, in next ch work 3 dc, ch 2, 3 dc, (sk 2 ch, 3 dc in next ch) 5 times, dc in each ch around, join. => 41/2""",
    "yarn joined in a corner space begins the round there": _SQUARE + """
Rnd 3: Join B in corner sp. Ch 1, 3 sc in same sp, *sc in each dc to corner, 3 sc in corner sp; rep from * 2 more times, sc in each dc to end, join. => 36""",
    "a raglan increase explained among notes": """
Notes: ch 1 at beg of rnd doesn't count as a st. "Raglan inc" = (hdc, ch 1, hdc) in same place. Sts are given in brackets.
Ch 20, join with sl st to first ch.
Rnd 1: Ch 1, hdc in next 4 ch, raglan inc in next ch, hdc in next 4 ch, raglan inc in next ch, hdc in next 4 ch, raglan inc in next ch, hdc in next 4 ch, raglan inc in last ch. Join. [24 sts] => 24/4
Rnd 2: Ch 1, hdc in each st around, working a raglan inc in each ch-1 sp. Join. [32 sts] => 32""",
    "a space that is explained in a sentence": """
A space (sp) is ch 2, skip 2 sts, d c in next st. A block (bl) is 3 d c besides the d c which closed the mesh before it.
Ch 23. Row 1 - D c in 8th ch from hook, * ch 2, skip 2 ch, d c in next ch, repeat from * to end (6 sps). => 7
Row 2 - Ch 5, turn, d c in next d c, (2 d c in sp, d c in next d c) 4 times, ch 2, d c in 3rd st of turning ch. => 15""",
    "a corner that is explained by its place": """
A corner increase is (2 dc, ch 2, 2 dc) in the corner space.
Ch 4, join.
Rnd 1: Ch 3, 2 dc in ring, ch 2, (3 dc in ring, ch 2) 3 times, join. => 12
Rnd 2: Sl st to corner, ch 3, (dc, ch 2, 2 dc) in same sp, dc in next 3 dc, *corner increase, dc in next 3 dc; rep from * 2 more times, join. => 28""",
    "what comes again begins behind the place that slip stitches lead to": _LACE + """
Rnd 3: Sl st to next ch-1 sp, sc in same sp, ch 7, sc in next ch-1 sp, ch 7 and continue thus around, join in first sc (12 loops). => 12/84
Rnd 4: In each loop around make sc, half dc, 5 dc, half dc and sc. Join. => 108
Rnd 5: Sl st to center dc of first petal, sc in same place, ch 9, sc in center dc of next petal, repeat around, join. => 12/108""",
    "a count behind the join, in doubled brackets, with its chain told": """
Ch 4, join.
Rnd 1: Ch 3, 11 dc in ring, join to top of ch 3 (12 dc, ch 3 is always a dc) => 12
Rnd 2: Ch 3, dc in same place, 2 dc in every st around, join. {{24 dc}} => 24
Rnd 3: Ch 3, dc in every st around, join, 24 dc. => 24""",
    "what a side has, before the yarn changes": _SQUARE + """
Rnd 3: Sl st to corner sp, ch 3, (dc, ch 2, 2 dc) in same sp, dc in each dc around, (2 dc, ch 2, 2 dc) in each corner sp, join. 10 dc on each side. Fasten off. => 40""",
    "loops filled; the last stitch is the join": """
Ch 5, join.
Rnd 1: 16 dc in ring, join. => 16
Rnd 2: *Ch 6, skip 1 dc, sc in next dc; repeat from * around (8 loops). => 8/48
Rnd 3: Fill each loop with 9 sc. => 72
Rnd 4: Ch 1, sc in first st, *sk 2, 5 dc in next st, sk 2, sc in next st* around, last sc is just your join. => 72""",
    "fewer or more chains instead, also in the beginning chain and the join": """
Ch 5, join.
Rnd 1: Ch 3, 15 dc in ring, join. => 16
Rnd 2: Ch 5, *dc in next dc, ch 2; rep from * around, join in 3rd ch of ch 5. => 16/32
Rnd 3: As round 2, with 3 ch instead of 2 between the dc. => 16/48""",
    "then to the last brackets once, without these": """
Ch 5, join.
Rnd 1: Ch 3, 15 dc in ring, join. => 16
Rnd 2: Ch 3, 2 dc in same st, *ch 1, sk 1, dc in next st, ch 1, sk 1, (2 dc, ch 2, 2 dc) in next st; rep from * twice more, then from * to last set of brackets once, omitting the brackets, join. => 19/14""",
    "two kinds by turns, repeated the other way about": """
Ch 12.
Row 1: Sc in 2nd ch from hook and in each ch across. => 11
Row 2: Ch 3 (counts as 1 dc throughout), turn; skip first sc, dc in each sc across. => 11
Row 3: Ch 1, turn; sc in first dc, * dc in next dc, sc in next dc; rep from * across, last sc in top of turning ch. => 11
Row 4: Ch 3, turn; * sc in next dc, dc in next sc; rep from * across. => 11
Row 5: Rep Row 3. => 11""",
    "no chains between, gaps between clumps on each side": _HEXAGON + """
Rnd 3: (2 dc, ch 2, 2 dc) in each of the six corners and 2 dc in the gap between the clumps on each side. No chains between. Join. => 36/12""",
}
_ON_SIDES = ("in each gap between the groups", "in the gap between the groups on each side", "in gap on each side", "in each side gap", "between the groups on each side", "in each gap")
_POSTS = (
    "Dc in each dc and BPdc around each post stitch.",
    "Dc in each dc, BPdc around each post st.",
    "BPdc around each FPdc, dc in all other sts.",
    "BPdc around each post st, dc in each st.",
    "In each dc work 1 dc, around each post st work 1 BPdc.",
)
_GROWING = (
    "1 sc 1 inc x6 (18)", "1 sc, 1 inc * 6 = 18", "1 sc then an increase, repeat this 6 times", "1 sc then inc, 6 times (18)",
    "one normal, one increase, all the way round", "one plain sc and one increase, 6 times", "six more stitches evenly spaced (18)",
)  # fmt: skip
_SHRINKING = (
    ("every 2 stitches together", 6), ("work each pair of stitches together (6)", 6), ("dec over every 2 sts", 6),
    ("every 3rd and 4th stitch together (9)", 9),
)  # fmt: skip


def _right(text: str) -> None:
    worked, keys = worked_and_keys(text)
    assert ([str(p.says) for p in worked.problems], made(worked, keys)) == ([], keys)


@pytest.mark.parametrize("text", _RIGHT.values(), ids=_RIGHT.keys())
def test_every_row_makes_what_its_words_say(text: str) -> None:
    _right(text)


@pytest.mark.parametrize("where", _ON_SIDES)
def test_gaps_of_the_sides_lie_beside_the_corners(where: str) -> None:
    _right(_HEXAGON + f"Rnd 3: (2 dc, ch 2, 2 dc) in each of the six corners and 2 dc {where}. => 36/12")


@pytest.mark.parametrize("words", _POSTS)
def test_post_stitches_stand_among_the_others(words: str) -> None:
    _right(_CABLED + f"Row 3: Ch 3, turn. {words} => 20")
    worked, _ = worked_and_keys(_CABLED + f"Row 3: Ch 3, turn. {words} => 20")
    kinds = [s.kind for s in worked.fabric.rows[-1].row.stitches if s.role in ("stitch", "turning")]
    assert [n for n, kind in enumerate(kinds) if kind == "BPdc"] == [4, 9, 14]


@pytest.mark.parametrize("words", _GROWING)
def test_increases_in_a_few_words(words: str) -> None:
    _right(_BALL + f"R3: {words} => 18")


@pytest.mark.parametrize(("words", "left"), _SHRINKING)
def test_decreases_in_a_few_words(words: str, left: int) -> None:
    _right(_BALL + f"R3: {words} => {left}")


def test_more_rounds_like_this_one() -> None:
    rounds = "Ch 4, join.\nRound 1: Ch 3, 11 dc in ring, join.\nRound 2: Ch 3, dc in same st, 2 dc in each st around, join.\n"
    worked = work_text(rounds + "Round 3: Ch 3, dc in every st around, join. Do 2 more rounds like this one.\n")
    assert (worked.problems, [row.row.made for row in worked.fabric.rows]) == ([], [12, 24, 24, 24, 24])


@pytest.mark.parametrize("last", (14, 15))
def test_counts_of_a_run_between_angles(last: int) -> None:
    rows = "Ch 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. <10>\n"
    worked = work_text(rows + f"Rows 2-3: Ch 1, turn, 2 sc in first st, sc in each st to last st, 2 sc in last st. <12, {last}>\n")
    assert [row.row.made for row in worked.fabric.rows] == [10, 12, 14]
    assert [p.where for p in worked.problems] == ([] if last == 14 else ["Row 3"])


_CROSSED = """Ch 18.
Row 1: Dc in 4th ch from hook and each ch across, turn.
Row 2: Ch 3, dc in next 4, FPdc around each of next 6, dc in last 5, turn.
Row 3: Ch 3, dc in next 4, BPdc in next 6, dc to end, turn.
Row 4: Ch 3, dc in next 4, sk 3 sts, FPtr around each of next 3, going in front of those just made FPtr around the 3 skipped sts, dc in last 5.
Row 5: Rep Row 3.
"""


@pytest.mark.parametrize(
    ("words", "side"),
    (
        ("Work as Row 4 but go BEHIND the first 3 tr this time.", "behind"),
        ("As Row 4, but working behind.", "behind"),
        ("Rep Row 4, but work behind the first 3 FPtr.", "behind"),
        ("Rep Row 4, working in back of the sts just made.", "behind"),
        ("Rep Row 4, working in front of the sts just made.", "front"),
    ),
)
def test_a_cable_repeated_is_crossed_on_the_side_that_is_said(words: str, side: str) -> None:
    worked = work_text(_CROSSED + f"Row 6: {words}\n")
    passes = [s.passes for s in worked.fabric.rows[-1].row.stitches if s.kind == "FPtr"]
    assert ([p.says for p in worked.problems], passes) == ([], ["", "", "", side, side, side])


def test_petals_in_a_ring_have_one_gap_each() -> None:
    text = "Ch 6, join.\nRnd 1: *Sc, hdc, 3 dc, hdc, sc in ring; repeat from * 4 times more.\nRnd 2: Working behind the petals, *ch 4, sc in the space between two petals; rep from * around.\n"
    worked = work_text(text + "Rnd 3: Work a petal of sc, hdc, 5 dc, hdc, sc in each ch-4 loop.\n")
    assert (worked.problems, [row.row.made for row in worked.fabric.rows]) == ([], [35, 5, 45])


@pytest.mark.parametrize("place", ("({})", "[{}]", "{}.", "(for {})"))
def test_what_a_row_says_its_picot_is_is_no_work(place: str) -> None:
    told = place.format("picot = ch 3, sl st in 3rd ch from hook")
    worked = work_text(f"Ch 4, join.\nRnd 1: 12 sc in ring, join.\nRnd 2: Ch 1, *sc in next st, picot, sc in next st; rep from * around, join to first sc. {told[0].upper() + told[1:]}\n")
    picots = sum(s.role == "picot" for s in worked.fabric.rows[-1].row.stitches)
    assert (worked.problems, picots) == ([], 6)


_SHAWL = """"point" means the ch-2 sp in the middle of the row.

Ch 4.
Row 1: In the 4th ch from hook work 2 dc, ch 2, 3 dc. (the 3 skipped chs are your first dc.) 6 dc
"""


@pytest.mark.parametrize("count", ("12 dc - 6 on each side", "12 dc (6 on each side)", "12 dc", "6 per side"))
def test_a_word_in_quotes_for_the_space_in_the_middle(count: str) -> None:
    row = "Ch 3, turn. Dc in same st, dc in each dc to point, (2 dc, ch 2, 2 dc) in point, dc in each dc to last st, 2 dc in last st."
    worked = work_text(_SHAWL + f"Row 2: {row} {count}\n")
    assert ([p.says for p in worked.problems], worked.fabric.rows[-1].row.made) == ([], 12)


def test_the_last_behind_spaces_up_to_a_stitch_is_that_stitch() -> None:
    """ "Dc in each ch-1 sp and dc to last st, 2 dc in last": no space."""
    rows = "Ch 12.\nRow 1: Dc in 6th ch from hook, *ch 1, sk 1 ch, dc in next ch; rep from * across.\n"
    worked = work_text(rows + "Row 2: Ch 3, turn, dc in each ch-1 sp and dc to last st, 2 dc in last.\n")
    assert worked.problems == []
    assert [foot.hold for s in worked.fabric.rows[-1].row.stitches[-2:] for foot in s.feet] == ["top", "top"]


def test_work_in_old_abbreviations_is_no_talk() -> None:
    """ "S c in next ch-3 between points" has no subject and no verb."""
    text = """Ch 6, join with sl st to form ring.
Rnd 1: Ch 1, 12 s c in ring, sl st in 1st s c.
Rnd 2: Ch 3, d c in next s c, * ch 3, d c in each of next 2 s c, repeat from * 4 times, ch 3, sl st in top of 1st ch-3.
Rnd 3: Sl st in next d c, sl st in next sp, ch 3, (1 d c, ch 3, 2 d c) in same sp, * ch 3, (2 d c, ch 3, 2 d c) in next sp, repeat from * around, ch 3, join. (6 points)
Rnd 4: Sl st to sp at center of point, ch 3, (2 d c, ch 5, 3 d c) in same sp, * s c in next ch-3 between points, (3 d c, ch 5, 3 d c) in sp of next point, repeat from * around, s c in last ch-3, join.
"""
    worked = work_text(text)
    assert (worked.problems, [row.row.made for row in worked.fabric.rows]) == ([], [12, 12, 24, 42])


@pytest.mark.parametrize("words", ("eyelets again (like Row 2)", "(like Row 2)", "Increase row (as Row 2)"))
def test_a_row_told_in_a_bracket_behind_its_name(words: str) -> None:
    rows = "Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across.\nRow 2: Ch 1, turn, 2 sc in first st, sc in each sc.\n"
    worked = work_text(rows + f"Row 3: {words}\n")
    assert (worked.problems, [row.row.made for row in worked.fabric.rows]) == ([], [20, 21, 22])


def test_chains_are_no_stitches_where_spaces_are_filled_too() -> None:
    rows = "Magic ring.\nRnd 1: 12 sc in ring.\nRnd 2: 2 sc in each st around.\nRnd 3: Sc in next 6 st, ch 8, sk 4 st, sc in next 8 st, ch 8, sk 4 st, sc in last 2 st.\n"
    worked = work_text(rows + "Rnd 4: Sc in each st, and 10 sc around each ch-8 handle.\n")
    assert (worked.problems, worked.fabric.rows[-1].row.made) == ([], 36)


@pytest.mark.parametrize(
    "words",
    ("2 sc in first st, sc in each st to last st, 2 sc in last st-1 st increased each end.", "2 sc in first st, sc in each st to last st, 2 sc in last st (1 st increased at both ends)."),
)
def test_what_a_row_has_done_is_no_more_of_it(words: str) -> None:
    worked = work_text(f"Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across.\nRow 2: Ch 1, turn, {words}\n")
    assert (worked.problems, worked.fabric.rows[-1].row.made) == ([], 22)


def test_post_stitches_as_they_appear_are_told_behind_it() -> None:
    rounds = "Ch 20, join.\nRnd 1: Ch 3, dc in each ch around, join.\nRnd 2: Ch 2, *FPdc around next st, BPdc around next st; rep from * around, join.\n"
    worked = work_text(rounds + "Rnd 3: Ch 2 (does not count), work each post st as it appears: FPdc around each FPdc, BPdc around each BPdc; join.\n")
    kinds = [s.kind for s in worked.fabric.rows[-1].row.stitches if s.role == "stitch"]
    assert (worked.problems, kinds) == ([], ["FPdc", "BPdc"] * 10)
