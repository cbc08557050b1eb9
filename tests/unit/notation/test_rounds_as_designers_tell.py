"""Things worked in rounds as designers tell them: each text with the stitches and the chains that every row makes,
worked out by hand. Rules of the trade: common practice, no source."""

from __future__ import annotations

import pytest
from hookfold.charts import engrave
from hookfold.charts.setting import Setting
from keyed_rows import made, worked_and_keys

_EIGHT = """
Ch 4, join with sl st to form ring.
Rnd 1: Ch 1, 8 sc in ring; sl st to first sc. => 8
"""
_WHEEL = """
Ch 6, join with sl st to form ring.
Rnd 1: Ch 5, (dc in ring, ch 2) 7 times, join to 3rd ch of ch-5. => 8/16
"""
_DISC = """
Magic ring.
Rnd 1: 6 sc in ring. => 6
Rnd 2: 2 sc in each st. => 12
"""
_RIGHT = {
    "the last space too, closed by a stitch": _EIGHT + """
Rnd 2: Ch 1, sc in first sc, *ch 3, sc in next sc; rep from * around, ch 3, join. => 8/24
Rnd 3: Sl st in ch-3 sp, ch 1, sc in same sp, *ch 3, sc in next ch-3 sp; rep from * to last ch-3 sp, ch 1, hdc in first sc. => 9/22
Rnd 4: Ch 1, sc in sp just formed, *ch 4, sc in next ch-3 sp; rep from * around, ch 4, join. => 8/32""",
    "the last space too, closed by a stitch alone": _WHEEL + """
Rnd 2: Sl st in first sp, ch 3, 2 dc in same sp, *ch 1, 3 dc in next sp; rep from * to last sp, ch 1, join to top of ch 3. => 24/8
Rnd 3: Sl st in next 2 dc and in sp, ch 3, 3 dc in same sp, (ch 2, 4 dc in next sp) to last sp, hdc in top of ch-3. => 33/14""",
    "the last space too, with nothing but the join behind": _WHEEL + """
Rnd 2: Sl st in first sp, ch 3, 2 dc in same sp, ch 1, *3 dc in next sp, ch 1; rep from * to last sp, join to top of ch 3. => 24/8
Rnd 3: Ch 1, *sc in next 3 dc, 2 sc in next sp; rep from * to last sp, join. => 40""",
    "the last stitch is passed over where the repeat passes over stitches": """
Ch 4, join with sl st to form ring.
Rnd 1: Ch 1, 16 sc in ring; sl st to first sc. => 16
Rnd 2: Ch 1, sc in first sc, *ch 3, sk 1 sc, sc in next sc; rep from * to last sc, ch 1, hdc in first sc. => 9/22
Rnd 3: Ch 1, sc in same sp, *ch 4, sc in next sp; rep from * to last sp, ch 4, sc in last sp, join. => 8/28""",
    "a net is a mesh": _WHEEL + """
Rnd 2: sl st in net, ch 1, 2 sc in same net, *ch 3, 2 sc in next net, rep around, ch 3, join. => 16/24
Rnd 3: sl st to center of net, ch 4, (dc in same net, ch 1) twice, *(dc, ch 1) 3 times in next net; rep from * around, join in 3rd ch. => 24/24""",
    "net before a stitch is a slip of the pen": _DISC + """
Rnd 3: (sc in net st, 2 sc in next st) around. => 18""",
    "some stitches beside all others": _DISC + """
Rnd 3: 2 sc in first and last st, sc in all other sts. => 14
Rnd 4: 2 sc in every 7th st, sc in the others. => 16
Rnd 5: 3 sc in each 4th st, 1 sc in all other sts. => 24
Rnd 6: sc in each st, 2 sc in every 12th st. => 26
Rnd 7: sc in each st but 2 sc in every 13th. => 28
Rnd 8: 2 sc in every 3rd st, sc in the other sts. => 37""",
    "what is left behind a repeat, if anything is": _DISC + """
Rnd 3: (sc in next 2 sts, 2 sc in next) around, sc in rest. => 16
Rnd 4: (sc in next 4 sts, 2 sc in next) around, sc in rest. => 19
Rnd 5: sc2tog over every 6th and 7th st, sc in rest. => 17
Rnd 6: dec over every 7th and 8th st, sc in the others. => 15
Rnd 7: inc in every 3rd st, 1 sc in each other st. => 20""",
    "both ends beside all between": """
Row 1: Ch 13, sc in 2nd ch from hook and in each ch across, turn. => 12
Row 2: Ch 1, 2 sc in the first and in the last st, 1 sc in every other st between, turn. => 14
Row 3: Ch 1, sc2tog at beginning and end, sc in all others, turn. => 12
Row 4: Ch 1, sc2tog at each end, 1 sc in each of the others. => 10
Row 5: Ch 1, turn, 2 sc in both the first and last sts, sc in the remaining sts. => 12
Row 6: Ch 1, turn, 2 sc in the first and 2 sc in the last st, 1 sc in those between. => 14""",
    "a post stitch round the stitch just worked into": """
Ch 4, join with sl st to form ring.
Rnd 1: Ch 3 (counts as dc), 11 dc in ring; join. => 12
Rnd 2: Ch 3, dc in same st, FPdc around last st, *2 dc in next st, FPdc around last st; rep from * around; join. => 36""",
    "a post stitch round the last stitch of the round": """
Ch 4, join with sl st to form ring.
Rnd 1: Ch 3 (counts as dc), 11 dc in ring; join. => 12
Rnd 2: Ch 2, dc in each st to last st, FPdc around last st; join. => 12""",
    "what slip stitches led over comes again": """
Ch 3, join.
Rnd 1: Ch 1, 8 sc in ring. Do not join. => 8
Rnd 2: Sl st in next sc, ch 1, hdc in each sc around, sl st in first hdc. => 8
Rnd 3: Sl st in next hdc, ch 3, dc in same hdc, 2 dc in each hdc around, join. => 16
Rnd 4: Sl st in next dc, ch 3, dc in next dc, *ch 1, dc in next 2 dc; rep from * around, ch 1, join. => 16/8""",
    "petals that pass over stitches, and a round behind them": """
Ch 4, join.
Rnd 1: 8 sc in ring, join. => 8
Rnd 2: (Ch 3, 3 dc, ch 3, sl st) all in same sc, *sk 1 sc, (sl st, ch 3, 3 dc, ch 3, sl st) in next sc; rep from * around. => 12/24
Rnd 3: Fold petals forward. *Ch 5, sl st in next skipped sc; rep from * around. => 4/20""",
    "loops kept in front": _DISC + """
Rnd 3: Ch 1, *sc in next st, (sc, ch 3, sc) in next st; rep from * around, join. => 18/18
Rnd 4: Ch 1, keeping ch-3 loops to front, sc in each sc around, join. => 18""",
    "loops fastened to another motif": """
First motif
Ch 6, join.
Rnd 1: Ch 3, 15 dc in ring, join. => 16
Rnd 2: Ch 1, sc in first st, (ch 5, sk 1 st, sc in next st) 7 times, ch 5, join. Fasten off. => 8/40
Second motif
Rnd 1: Same as first motif. => 16
Joining rnd: Ch 1, sc in first st, (ch 5, sk 1 st, sc in next st) 6 times, ch 2, sl st in ch-5 sp of previous motif, ch 2, sk 1 st, sc in next st, ch 2, drop loop from hook, insert hook in next ch-5 sp of first motif, draw dropped loop through, ch 2, join. => 8/38""",
    "a thumb about its opening": """
Ch 24, join.
Rnd 1: Ch 1, sc in each ch around, join. => 24
Rnd 2: Ch 1, sc in first 10 sts, ch 4, skip next 4 sts, sc in last 10 sts, join. => 20/4
Rnd 3: Ch 1, sc in first 10 sc, sc in next 4 ch, sc in last 10 sc, join. Fasten off. => 24
Thumb
Rnd 1: Join yarn in first skipped st, ch 1, sc in 4 skipped sts, pick up 1 st in corner, sc in opposite side of next 4 ch, 1 sc in corner, join. (10) => 10
Rnd 2: ch 1, sc in each sc, join. => 10""",
    "a thumb told by numbers alone": """
Ch 30, join with sl st.
Round 1: ch 1, 1 sc in each ch, sl st in first sc. => 30
Round 2: ch 1, sc in each of first 3 sc, ch 6, miss 6 sc, sc in each rem sc, sl st in first sc. => 24/6
Round 3: ch 1, sc in first 3 sc, 6 sc in ch-6 loop, sc in each sc to end, join. => 30
Thumb
With RS facing, join yarn to first missed sc of round 2.
Round 1: ch 1, 6 sc in missed sts, 6 sc across underside of ch-6, join. => 12
Round 2: ch 1, *sc2tog; rep from * around. => 6""",
    "a decrease is of the stitch that its round makes": """
Ch 4, join.
Rnd 1: Ch 3, 11 dc in ring, join. => 12
Rnd 2: Ch 1, *sc in 4 dc, dec over next 2 dc. Rep from * around. Join. 10 sc. => 10""",
    "a low chain that a round goes on beside and is closed in": """
Ch 5, sl st in first ch.
Rnd 1: Ch 3, work 13 dc over ring, join. => 14
Rnd 2: Ch 4, *dc in next st, ch 1; rep from * to end, join to 3rd st of ch 4. => 14/14
Rnd 3: Ch 2, hdc in next sp, *hdc in next dc, hdc in next sp; rep from * to end, join to top of ch 2. => 28""",
    "the space just made is the next one of a round that turns": """
Ch 5, join.
Rnd 1: Ch 3, 2 dc in ring, [ch 2, 3 dc] 3 times in ring, ch 2, join. => 12/8
Rnd 2: Turn. Sl st in ch-2 sp just made, ch 3, (2 dc, ch 2, 3 dc) in same sp, [ch 1, (3 dc, ch 2, 3 dc) in next ch-2 sp] 3 times, ch 1, join. => 24/12""",
    "a low chain that every row ends in": """
Ch 14.
Row 1: hdc in 3rd ch from hook and in each ch, turn. (13) => 13
Row 2: ch 2, hdc in next hdc and each hdc, hdc in top of 2 ch from row below, turn. => 13
Row 3: ch 2, hdc in next hdc and each hdc, hdc in top of tch. => 13""",
}  # fmt: skip


@pytest.mark.parametrize("name", _RIGHT)
def test_each_row_makes_what_it_says(name: str) -> None:
    worked, keys = worked_and_keys(_RIGHT[name])
    assert worked.problems == []
    assert made(worked, keys) == keys


def test_a_note_says_that_each_stitch_passed_over_the_spaces() -> None:
    worked, _ = worked_and_keys(_WHEEL + "Rnd 2: Ch 1, sc in each st to end, join.\n")
    assert ["passed over the 8 chain spaces" in note.says for note in worked.notes] == [True]
    for told in ("sc in each dc to end, join.", "sc in each st to end, join. (24)", "sc in each st and 2 sc in each sp, join."):
        assert worked_and_keys(f"{_WHEEL}Rnd 2: Ch 1, {told}\n")[0].notes == [] or "chains of the row below too" in worked_and_keys(f"{_WHEEL}Rnd 2: Ch 1, {told}\n")[0].notes[0].says


_BALL = "Terms: US\nMagic ring.\nRnd 1: 6 sc in ring. (6)\nRnd 2: 2 sc in each st. (12)\nRnds 3-4: sc in each st. (12)\n{}\nRnd 5: (sc2tog) 6 times. (6)\n"


@pytest.mark.parametrize(("said", "kept"), [("Stuff the ball.", True), ("Insert safety eyes between Rnds 2 and 3", True), ("It looks like a cup by now.", False)])
def test_what_is_to_do_between_rounds_stands_in_the_words_and_on_the_page_to_work_from(said: str, kept: bool) -> None:
    text = _BALL.format(said)
    words = engrave.instructions(text, "ball.txt", Setting())
    above, below = words.split("Rnd 5")
    assert (said in above and said not in below) is kept
    page = engrave.follow(text, "ball.txt", Setting()).decode("utf-8")
    assert (f"Sc in each st around. {said}" in page) is kept and page.count(said) == (3 if kept else 0)
