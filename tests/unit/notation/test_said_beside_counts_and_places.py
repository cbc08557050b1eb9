"""What is said behind a count, beside a place or of the way there is read with it; keys worked by hand (common practice, no source)."""

from __future__ import annotations

import pytest
from hookfold.charts import engrave
from keyed_rows import made, worked_and_keys

RIGHT = (
    # Stitches left at a row's end, again and again.
    """Ch 13.
Row 1: Sc in 2nd ch from hook and in each ch across. => 12
Row 2: Ch 1, turn, sc across, stopping two stitches short of the end. => 10
Row 3: Ch 1, turn, sc in each st until 1 st remains. Do not work last st. => 9
Row 4: Ch 1, turn, again leave the last stitch unworked. => 8
Row 5: Ch 1, turn, miss out the last stitch again. => 7""",
    # Remarks behind counts.
    """Rnd 1: 7 sc in magic ring. (7) => 7
Rnd 2: 2 sc in each st. still 14, of course => 14
Rnd 3: Sc in each st around - 14 sts - and 14 at the end of every round from here on => 14
Rnd 4: Sc in each st, 14 sc or 2 repeats. => 14
Rnd 5: Sc in next 3 sts, ch 5, skip 3 sts, sc in last 8. 11 sc and one slit => 11/5
Rnd 6: Sc in each sc, 4 sc in the ch-5 handle loop. 15 sc => 15""",
    # Hopping to corners; sides that get another group.
    """Ch 4, join.
Rnd 1: Ch 3, 2 dc in ring, ch 2, (3 dc in ring, ch 2) 3 times, join to top of ch-3. => 12
Rnd 2: Hop to the corner sp, (ch 3, 2 dc, ch 2, 3 dc) in corner sp, ch 1, *(3 dc, ch 2, 3 dc) in next corner sp, ch 1; rep from * 2 more times, join. => 24
Rnd 3: Travel over to the corner as before, (ch 3, 2 dc, ch 2, 3 dc) in corner sp, ch 1, [3 dc in next ch-1 sp, ch 1] once, *(3 dc, ch 2, 3 dc) in corner, ch 1, [3 dc in next ch-1 sp, ch 1] once; rep from * 2 more times, join. => 36
Rnd 4: As rnd 3 but now there are 2 ch-1 spaces on each side. => 48
Rnd 5: Like rnd 4, with one more group on each side. => 60""",
    # A triangle told by its middle.
    """Ch 4, sl st in first ch.
1. row: ch 3 (= 1 dc), in the ring: 2 dc, ch 2, 3 dc. Turn. => 6
2. row: ch 3, 1 dc in the same stitch, dc in each dc until the middle, there 2 dc, ch 2, 2 dc, dc in each dc until last st, 2 dc in last st. Turn. => 12
3. row: like 2. row. => 18
4. row, the airy bit: ch 3, 1 dc in the same stitch, *ch 1, skip 1 dc, 1 dc in next dc* 4 times, in the middle space: 1 dc, ch 2, 1 dc; then *1 dc in next dc, ch 1, skip 1 dc* 4 times, 2 dc in the last st. => 14""",
    # What lies between, who waits, where the hook goes.
    """Ch 4, join.
Rnd 1: Ch 1, 10 sc in ring, join. => 10
Rnd 2: *Ch 4, skip 1 sc, sc in next sc; rep from * around. => 5
Rnd 3: In each loop work (sc, 3 dc, sc). => 25
Rnd 4: Working behind petals as before, *ch 6, sc around the post of the sc of Rnd 2 that lies between the petals; rep from * around. => 5
Rnd 5: In every loop (sc, 5 dc, sc), leaving all petals of Rnd 3 free. => 35""",
    """Rnd 1: 8 sc in magic ring. => 8
Row 2: We put the hook only under the back half of stitch and make 8 sc. => 8
Rnd 3: Slip stitches in every stitch, not too loose please = 8 => 8
Rnd 4: 2 sc in each st. => 16
Row 5: Sc in next 10, stop there. The other 6 just wait. => 10
Row 6: Ch 1, turn, sc in each st. => 10
Row 7: Ch 1, turn, sc in the 10 heel sts. => 10""",
    """Ch 5, join.
Round 1: 3 ch, 11 tr into the ring. => 12
Round 2: 2 ch (stands for the first htr), 1 htr into same place, * 2 htr into next tr, repeat from * to end. => 24
Round 3: 1 ch, * 1 dc into each of next 2 htr, next 2 htr together as 1 dc, repeat from * to end. => 18
Round 4: 1 ch, 1 dc into each dc, decreasing six times, evenly spaced, so that you are left with 12 stitches. => 12""",
    # A round into the one its yarn is joined to.
    """Rnd 1: 6 sc in magic ring. => 6
Rnd 2: 2 sc in each sc. => 12
Rnd 3: *Sc in next sc, ch 3, skip next sc; rep from * around. Cut yarn. => 6
Rnd 4: Leave Rnd 3 alone; attach Gold to any sc of Rnd 2. *Sc in sc, skip 1 sc, 3 dc in next sc, skip 1 sc*, 3 times in all. => 12""",
    # A border's first round names the piece's last row.
    """PANEL
Ch 7.
Row 1: Sc in 2nd ch from hook and in each ch across. => 6
Row 2: Ch 1, turn, sc in each st. => 6
BORDER
Row 1: Ch 1, turn, 2 sc in first sc of Row 2, sc in each st. => 7""",
    """UK terms
Tr3tog: leaving last loop of each on hook work 1 tr into each of next 3 sts, yrh, draw through all 4 loops.
12 ch
Row 1: 1 tr in 4th ch from hook, 1 tr in each of next 2 ch, tr3tog over next 3 ch, 1 tr in last 3 ch. => 8
Row 2: 1 ch, 1 dc in first 2 sts, dc3tog, 1 dc in last 3 sts. => 6""",
    """A "kiss" = miss 1 st, 1 dc in next st, then go back and put 1 dc in the missed st
Ch 15.
Row 1: Dc in 4th ch from hook and in each ch across. => 13
Row 2: Ch 3, turn, skip first st, *1 kiss over the next 2 dc; rep from * to end. => 13""",
)


@pytest.mark.parametrize("text", RIGHT)
def test_rows_make_what_was_counted_by_hand(text):
    worked, keys = worked_and_keys(text)
    assert [(problem.where, problem.says) for problem in worked.problems] == []
    assert made(worked, keys) == keys


def test_a_hole_of_a_row_without_spaces_is_a_stitch():
    text = "Ch 7.\nRow 1: Sc in 2nd ch from hook and in each ch across.\nRow 2: Ch 1, turn. Sc in each hole across.\n"
    report = engrave.check(text, "a.txt").as_json()
    assert (report["problems"], report["rows"][1]["stitches"]) == ([], 6)


def test_the_height_that_stitches_are_joined_as_is_theirs():
    text = "Ch 5.\nRow 1: Hdc in 3rd ch from hook and in next 2 ch.\nRow 2: Ch 1, turn, next 2 hdc together as 1 sc, sc in last st.\n"
    assert engrave.check(text, "a.txt").as_json()["rows"][1]["kinds"] == {"sc2tog": 1, "sc": 1}


WRONG = (
    "Ch 7.\nRow 1: With navy, sc in 2nd ch from hook and in each ch across.\nRow 2: Work as for Row 1 but staying in cream.\n",
    "Rnd 1: 7 sc in magic ring.\nRnd 2: 2 sc in each st. still 15, of course\n",
    "Ch 13.\nRow 1: Sc in 2nd ch from hook and in each ch across.\nRow 2: Ch 1, turn, sc across, stopping two stitches short of the end. (12)\n",
    "Ch 13.\nRow 1: Sc in 2nd ch from hook and in each ch across.\nRow 2: Ch 1, turn, sc in each st, 12 sc or 2 flurbs.\n",
)


@pytest.mark.parametrize("text", WRONG)
def test_what_is_wrong_is_told_at_its_row(text):
    assert [problem["where"][-1] for problem in engrave.check(text, "a.txt").as_json()["problems"]] == ["2"]


def test_an_ending_in_the_last_shell_is_not_worked_behind_the_repetition_that_went_there():
    shells = "Ch 26.\nRow 1: Sc in 2nd ch from hook, *skip 2 ch, 5 dc in next ch, skip 2 ch, sc in next ch; rep from * across. => 25\n"
    text = shells + "Row 2: Ch 5 (counts as dc, ch 2), turn, *sc in 3rd dc of next shell, ch 2, dc in next sc, ch 2; rep from * across, ending with sc in 3rd dc of last shell, ch 2, dc in last sc. => 9/16"
    worked, keys = worked_and_keys(text)
    assert list(worked.problems) == []
    assert made(worked, keys) == keys


SPOKEN = (
    # Gaps along sides, groups of a round that has more of them.
    """With 1st color ch 4, sl st to join.
RND 1. Ch 3, 15 dc in ring, sl st to top of ch 3. (16 dc.) => 16
RND 2. 2nd color. Work in the spaces BETWEEN the dc's: 2 dc, ch 1 in each space around. Join. => 32
RND 3. Start in any ch-1 space: * corner of (3 tr, ch 2, 3 tr) in the space, 3 dc in next space, 3 hdc in next space, 3 dc in next space *, do this 4 times in all & join. => 60
RND 4. Sl st over to corner. (3 dc, ch 2, 3 dc) in each ch-2 corner & 3 dc in each of the 4 spaces between groups along every side. Join. => 72
RND 5. Same as last, but you now have 5 spaces to a side. => 84""",
    # As one speaks before a camera.
    """Chain 13.
Row 1: So you're gonna skip that first chain right by your hook and put a single crochet in the second chain, and then just single crochet all the way down. => 12
Row 2: We're gonna chain 1 and turn, work one plain single crochet in every stitch, which gives you 12. => 12
Row 3: Do what we did in row 2. => 12
Row 4: Ch 1, turn, sc across, but in the backmost loops only. => 12""",
    """Ch 5, join.
Rnd 1: Ch 3, 2 dc in ring, *ch 2, 3 dc into ring* three times, ch 2, join. => 12
Rnd 2: Ch 3, dc in next 2 dc, *(2 dc, ch 2, 2 dc) in the corner, dc in next 3 dc* 3 times, (2 dc, ch 2, 2 dc) in last corner, join. => 28
Rnd 3: The same again: dc in every dc, and 2 dc 2 ch 2 dc in every corner. => 44""",
    """Rnd 1: Magic ring, 8 puff with 1 ch after each one, join. => 8/8
Rnd 2: In every space of 1 ch we make 2 sc. => 16
Rnd 3: * 1 sc, 2 in 1 * 8 times. => 24
Rnd 4: Ch 1, sc in first sc, * skip 2, 5 dc in next, skip 2, sc in next *. Repeat around; leave off the last sc and join to the first one instead. 4 shells. End off. => 24""",
    # Dc by turns, and the last stitch of the row below.
    """Ch 15
Row 1 - sc in 2nd ch from hook, dc in next ch, *sc in next ch, dc in next ch* across. 14 sts, ending on a dc => 14
Row 2 - ch 1, turn. Sc in first st, dc in next st, keep on sc, dc, sc, dc across. => 14
Row 3 - ch 1, turn, sc in next 3 sts; * sk 2 sts, sc in each of next 3 sts; rep from * across, leaving last sc unworked. => 9""",
    """Lay up 13 chains.
Row 1: 1 sc in the 2. ch from the hook, then 1 sc in every ch out the row = 12 st. => 12
Row 2: Turn with 3 ch (= 1 dc). Hop over the first sc, 1 dc in each sc out. => 12
Row 3: Turn with 3 ch (= 1 dc). *1 front post dc around the next dc, 1 back post dc around the next dc*, repeat *-* until it is 1 st left, 1 ordinary dc in the top of the turning chain. => 12
Row 4: 1 ch, turn. *4 sc, crochet the 2 next together* 2 times. => 10""",
    """Ch 18. UK terms
1st row - 1 d.c. in the 2nd ch. from hook, 1 d.c. in every ch. to the end. => 17
2nd row - 4 ch. (to count as 1 tr. and 1 ch.), miss 2 d.c. altogether counting the one at the foot of the ch., 1 tr. in the next, * 1 ch., miss 1 d.c., 1 tr. in next; repeat from * to end. => 9""",
)


NAMED = (
    (
        """Rnd 1: 10 hdc in magic ring, join.
Rnd 2: Ch 1, 2 hdc in each st, join each one.
Rnd 3: Background. Ch 1, hdc in each st, join every round.
Rnds 4-5: just like 3.
Rnd 6: Heel. Ch 1, hdc in next 10 sts, ch 10, skip 10 sts, join.
Rnds 7 & 8: hdc in each st and in each ch.
Rnd 9: For ONE point: 1 sc in the next stitch, 3 dc in the next stitch. Do that 10 times.
""",
        [10, 20, 20, 20, 20, 10, 20, 20, 40],
    ),
    (
        """Ch 4, join.
Rnd 1: Ch 3 (= dc). Add 11 dc to ring. Sl st to top of ch 3.
Rnd 2: The pretty one! Ch 1, sc in same st, 2 sc in next st, *sc in next st, 2 sc in next st; rep from * around.
Rnd 3: Ch 1, 1 sc in 2 points, 2 sc in next st, *1 sc in 2 points, 2 sc in next st; rep from * around.
Rnds 4 and 5: sc in each st around. 24 sc after Rnd 5.
""",
        [12, 18, 24, 24, 24],
    ),
)


@pytest.mark.parametrize(("text", "counts"), NAMED)
def test_names_of_rows_tell_no_work(text, counts):
    report = engrave.check(text, "a.txt").as_json()
    assert ([problem["says"] for problem in report["problems"]], [row["stitches"] for row in report["rows"]]) == ([], counts)


@pytest.mark.parametrize("text", SPOKEN)
def test_rows_told_as_one_speaks_make_what_was_counted_by_hand(text):
    worked, keys = worked_and_keys(text)
    assert [(problem.where, problem.says) for problem in worked.problems] == []
    assert made(worked, keys) == keys
