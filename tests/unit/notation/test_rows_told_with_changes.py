"""Rows told by other rows with a change, corners that go by their name, V's, petals told by a list, and repeats that cannot
be worked once. Common practice, no source."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import Worked, work_text

_STRIP = "Ch 25.\nRow 1: Sc in 2nd ch from hook and in each ch across. (24)\nRow 2: Ch 1, turn, sc in each sc. (24)\n"
_SPOKES = "Ch 6, join.\nRnd 1: Ch 3, 15 dc in ring, join. (16)\nRnd 2: Ch 5, *dc in next dc, ch 2; rep from * around, join to 3rd ch. (16)\n"
_RING = "Ch 4, join.\nRnd 1: Ch 3, 2 dc in ring, ch 2, *3 dc in ring, ch 2; rep from * twice more; join.\n"
_SQUARE = _RING + "Rnd 2: Sl st to corner sp, ch 3, (2 dc, ch 2, 3 dc) in same sp, *(3 dc, ch 2, 3 dc) in next sp; rep from * around; join.\n"
_SIDES = "Rnd 3: Sl st to corner sp, ch 3, (2 dc, ch 2, 3 dc) in same sp, 3 dc in next sp, *(3 dc, ch 2, 3 dc) in corner, 3 dc in next sp; rep from * around; join.\n"


def _rows(worked: Worked) -> list[tuple[int, int]]:
    return [(row.row.made, row.row.chains) for row in worked.fabric.rows]


def _told(worked: Worked) -> list[str]:
    return [problem.where for problem in worked.problems]


def _last(text: str) -> tuple[list[str], tuple[int, int]]:
    worked = work_text(text)
    return _told(worked), _rows(worked)[-1]


# -- a change behind a row told by another -------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "said",
    ["Work same as Row 2, but work in the back loops.", "As Row 2 but through back loops only.", "Repeat Row 2 except work in back loops.",
     "As Row 2, picking up the back loop of each st.", "Rep Row 2 but in blo."],
)  # fmt: skip
def test_the_loops_are_another_way_of_the_same_row(said: str) -> None:
    worked = work_text(f"{_STRIP}Row 3: {said}\n")
    feet = {foot.hold for stitch in worked.fabric.rows[-1].row.stitches if stitch.kind == "sc" for foot in stitch.feet}
    assert (_told(worked), _rows(worked)[-1], feet) == ([], (24, 0), {"back loop"})


def test_another_yarn_is_no_other_work() -> None:
    assert _last(f"{_STRIP}Row 3: Row 2 again but using B.\n") == ([], (24, 0))


@pytest.mark.parametrize(
    "said",
    ["Same as Rnd 2, but ch 3 between each dc.", "Same as Rnd 2 with 3 ch between dc.", "Work as for Rnd 2, making ch 3 between dcs instead of ch 2.",
     "Rep Rnd 2, having ch 3 between.", "As Rnd 2, but work ch 3 between each dc.", "As Rnd 2, but with ch-3 lps.", "Repeat Rnd 2, making ch 3 instead of ch 2."],
)  # fmt: skip
def test_the_loop_in_the_beginning_chain_changes_with_the_others(said: str) -> None:
    assert _last(f"{_SPOKES}Rnd 3: {said}\n") == ([], (16, 48))


def test_a_beginning_chain_that_is_only_a_stitch_stays() -> None:
    pairs = "Ch 6, join.\nRnd 1: Ch 3, dc in ring, *ch 2, 2 dc in ring; rep from * 4 times, ch 2, join.\n"
    pairs += "Rnd 2: Ch 3, dc in next dc, *ch 3, dc in each of next 2 dc; rep from * around, ch 3, join.\n"
    worked = work_text(f"{pairs}Rnd 3: Work same as 2nd rnd, but work ch 5 between each group.\nRnd 4: Same as last rnd, making ch 7 between the groups.\n")
    assert (_told(worked), _rows(worked)[-2:]) == ([], [(12, 30), (12, 42)])


# -- squares that grow ---------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "said",
    ["As rnd 3, having one more 3-dc group on each side.", "Repeat Rnd 3, working one more group of 3 dc between corners.",
     "Work as for Rnd 3 but with an extra 3-dc group on each side.", "Continue in this manner, increasing 1 group on each side."],
)  # fmt: skip
def test_one_more_group_goes_along_each_side(said: str) -> None:
    assert _last(f"{_SQUARE}{_SIDES}Rnd 4: {said}\n") == ([], (48, 8))


def test_each_round_that_goes_on_has_one_more_group() -> None:
    worked = work_text(f"{_SQUARE}{_SIDES}Rnds 4-6: Continue in this manner, increasing 1 group on each side every round.\n")
    assert (_told(worked), [made for made, _ in _rows(worked)]) == ([], [12, 24, 36, 48, 60, 72])


def test_a_round_named_further_back_has_one_more_for_each_round_since() -> None:
    text = f"{_SQUARE}{_SIDES}Rnd 4: As Rnd 3, having one more group on each side.\nRnd 5: As Rnd 3, having one more group on each side.\n"
    assert _last(text) == ([], (60, 8))


def test_longer_sides_begin_and_end_at_the_middle_of_one() -> None:
    text = _RING + "Rnd 2: Ch 3, dc in next 2 dc, (2 dc, ch 2, 2 dc) in corner sp, *dc in next 3 dc, (2 dc, ch 2, 2 dc) in corner sp; rep from * around; join.\n"
    text += "Rnd 3: Ch 3, dc in next 4 dc, (2 dc, ch 2, 2 dc) in corner sp, *dc in next 7 dc, (2 dc, ch 2, 2 dc) in corner sp; rep from * around, dc in last 2 dc; join.\n"
    worked = work_text(text + "Rnd 4: Repeat Rnd 3, having 11 dc on each side between corners.\nRnd 5: As Rnd 4, with 4 more dc on each side.\n")
    assert (_told(worked), [made for made, _ in _rows(worked)]) == ([], [12, 28, 44, 60, 76])


def test_a_side_without_groups_cannot_have_one_more() -> None:
    worked = work_text(_STRIP + "Row 3: As Row 2, having one more group on each side.\n")
    assert _told(worked) == ["Row 3"]


# -- corners and V's -----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "said",
    ["corner in corner, 3 dc in sp between groups, *corner in corner, 3 dc in sp between groups; rep from * around; join.",
     "make a beginning corner; 3 dc between next two 3-dc groups, *corner in corner, 3 dc between groups; rep from * around; join.",
     "work corner in same sp, 3 dc in next sp, *corner in next ch-2 sp, 3 dc in next sp; rep from * around; join."],
)  # fmt: skip
def test_a_corner_is_what_the_round_below_worked_in_one(said: str) -> None:
    worked = work_text(f"{_SQUARE}Rnd 3: Sl st to corner sp, {said}\n")
    assert (_told(worked), _rows(worked)[-1]) == ([], (36, 8))
    assert any("(3 dc, ch 2, 3 dc)" in note.says for note in worked.notes)


def test_a_corner_that_the_round_begins_with_has_the_stitch_of_its_chain() -> None:
    text = _RING + "Rnd 2: Sl st to corner sp, ch 3, (2 dc, ch 2, 3 dc) in same sp (corner made), *corner in next sp; rep from * around; join.\n"
    assert _last(text) == ([], (24, 8))


_VS = "Ch 27.\nRow 1: (Dc, ch 1, dc) in 6th ch from hook, *sk 2 ch, (dc, ch 1, dc) in next ch; rep from * across to last 3 ch, sk 2 ch, dc in last ch. Turn.\n"


@pytest.mark.parametrize(
    ("said", "made"),
    [("Ch 3, V-st in each V across, dc in top of turning ch.", 16), ("Ch 3, (dc, ch 1, dc) in next V, *(dc, ch 1, dc) in next V; rep from * across, dc in last st.", 16),
     ("Ch 3, 3 dc in center of each V, dc in turning ch.", 23), ("Ch 3, *V in sp of next V; rep from * to turning ch, dc in turning ch.", 16)],
)  # fmt: skip
def test_a_v_is_a_v_stitch(said: str, made: int) -> None:
    told, (count, _) = _last(f"{_VS}Row 2: {said}\n")
    assert (told, count) == ([], made)


def test_a_yarn_may_be_called_v() -> None:
    assert _last("With V, ch 21.\nRow 1: Sc in 2nd ch from hook and each ch across.\nRow 2: With V, ch 1, sc in each sc across.\n") == ([], (20, 0))


# -- what only names or repeats the work beside it ---------------------------------------------------------------------------

_LOOPS = "Ch 8, join.\nRnd 1: Ch 6, (dc in ring, ch 3) 5 times, join to 3rd ch of ch-6.\n"


@pytest.mark.parametrize(
    "said",
    ["In each sp work petal of 1 sc, 1 hdc, 3 dc, 1 hdc, 1 sc; join.", "Work a petal in each sp as follows: 1 sc, 1 hdc, 3 dc, 1 hdc, 1 sc; join.",
     "Make petals of 1 sc, 1 hdc, 3 dc, 1 hdc, 1 sc in every space.", "1 petal in each sp: (sc, hdc, 3 dc, hdc, sc)."],
)  # fmt: skip
def test_a_petal_is_the_list_behind_its_name(said: str) -> None:
    told, (made, _) = _last(f"{_LOOPS}Rnd 2: {said}\n")
    assert (told, made) == ([], 42)


_DISC = "Magic ring.\nRnd 1: 12 sc in ring. (12)\n"


@pytest.mark.parametrize(
    "said",
    ["(2 sc in next st - increase) around.", "*2 sc in next st = increase; rep from * around.", "[2 sc in next sc (2 sc group)] x 12.", "[2 sc in next st (2-sc group made)] 12 times."],
)
def test_what_a_clause_is_called_is_not_worked_once_more(said: str) -> None:
    assert _last(f"{_DISC}Rnd 2: {said}\n") == ([], (24, 0))


def test_an_increase_told_by_its_name_alone_is_worked() -> None:
    assert _last(f"{_DISC}Rnd 2: (1 sc, inc), repeat between () around. (18)\nRnd 3: (2 sc, inc), repeat between () around. (24)\n") == ([], (24, 0))


@pytest.mark.parametrize("said", ["Fsc 20, or ch 21 and sc in 2nd ch from hook and in each ch across. (20)", "Ch 21 and sc in 2nd ch and across, or fsc 20. (20)"])
def test_one_of_two_foundations_is_worked(said: str) -> None:
    assert _last(f"Row 1: {said}\nRow 2: Ch 1, turn, sc in each st. (20)\n") == ([], (20, 0))


# -- repeats that cannot be worked once ----------------------------------------------------------------------------------

_GROUPS = "Ch 8, join.\nRnd 1: Ch 4, 3 tr in ring, *ch 3, 4 tr in ring; rep from * 4 times, ch 3, join. (24)\n"


@pytest.mark.parametrize("skip", ["sk the chain", "sk chs", "skip the chain below", "sk ch-3"])
def test_all_chains_of_a_loop_are_passed_over(skip: str) -> None:
    assert _last(f"{_GROUPS}Rnd 2: Ch 4, tr in next 3 tr, *ch 5, {skip}, tr in next 4 tr; rep from * around, ending with ch 5, join in top st of ch 4.\n") == ([], (24, 30))


def test_stitches_below_in_the_plural_stand_in_the_row_below() -> None:
    said = "Ch 4, tr in each of the 3 tr in first group below, *ch 5, tr in each of the next 4 tr below; rep from * around, end with ch 5, join."
    assert _last(f"{_GROUPS}Rnd 2: {said}\n") == ([], (24, 30))


def test_one_stitch_below_may_be_any_spike() -> None:
    assert _told(work_text(_STRIP + "Row 3: Ch 1, *sc in next sc, sc in next sc below; rep from * across.\n")) == ["Row 3"]


def test_a_repeat_that_fits_nowhere_is_not_left_out_for_its_ending() -> None:
    told = _told(work_text(f"{_GROUPS}Rnd 2: Ch 4, tr in next 3 tr, *ch 5, sk next 2 ch, tr in next 4 tr; rep from * around, ending with ch 5, join.\n"))
    assert told == ["Rnd 2"]


# -- ribs, bases and ends ------------------------------------------------------------------------------------------------

_RIB = "Ch 32.\nRow 1: Dc in 4th ch from hook and in each ch across. Turn. (30)\nRow 2: Ch 3, *FPdc around next st, BPdc around next st; rep from * across to last st, hdc in last st, turn. (30)\n"


@pytest.mark.parametrize("said", ["*fpdc over fpdc, bpdc over bpdc; rep from * across, hdc in last st.", "*FPdc around next FPdc, BPdc around next BPdc* across, hdc in last st."])
def test_raised_stitches_are_named_as_they_look_from_this_side(said: str) -> None:
    worked = work_text(f"{_RIB}Row 3: Ch 3, {said}\n")
    below, row = (r.row for r in worked.fabric.rows[-2:])
    over = {(stitch.kind, below.stitches[foot.at].kind) for stitch in row.stitches if "Pdc" in stitch.kind for foot in stitch.feet}
    assert (_told(worked), row.made, over) == ([], 30, {("FPdc", "BPdc"), ("BPdc", "FPdc")})


@pytest.mark.parametrize("where", ["at base", "at base of ch", "at the base of the ch 3", "into base of same ch"])
def test_a_stitch_at_the_base_stands_beside_the_beginning_chain(where: str) -> None:
    assert _last(f"Magic ring.\nRnd 1: Ch 3, 11 dc in ring, join. (12)\nRnd 2: Ch 3, 1 dc {where}, 2 dc in each st around, join.\n") == ([], (24, 0))


@pytest.mark.parametrize("said", ["Dec 1 st each side.", "Dec 1 st on each side.", "Dec 1 dc at both sides of row."])
def test_each_side_of_a_row_is_an_end_and_no_count(said: str) -> None:
    assert _last(f"Ch 20.\nRow 1: Dc in 4th ch from hook and in each ch. (18)\nRow 2: {said}\n") == ([], (16, 0))


# -- repeats and chains that a page leaves half said ---------------------------------------------------------------------

_LOOPED = "Ch 6, join.\nRnd 1: Ch 1, 24 sc in ring, join. (24)\n"


@pytest.mark.parametrize("said", ["*Ch 7. Skip 1 sc and sc into next sc. (12 loops)", "*Ch 7, sk 1, sc in next; join. (12 loops)"])
def test_a_repeat_that_is_never_closed_goes_round_where_the_count_says_so(said: str) -> None:
    worked = work_text(f"{_LOOPED}Rnd 2: {said}\nRnd 3: *7 sc in each loop. Join. (84)\n")
    assert (_told(worked), [made for made, _ in _rows(worked)]) == ([], [24, 12, 84])


def test_a_repeat_that_is_never_closed_goes_round_without_a_count_too_and_it_is_said() -> None:
    worked = work_text(f"{_LOOPED}Rnd 2: *Ch 7, sk 1, sc in next; join.\n")
    assert (_told(worked), _rows(worked)[-1]) == ([], (12, 84))
    assert [note.where for note in worked.notes if "never says where it ends" in note.says] == ["Rnd 2"]


def test_from_the_star_repeat() -> None:
    assert _last(_STRIP + "Row 3: Ch 1, *sc in next st, hdc in next st; from * repeat to the end of the row.\n") == ([], (24, 0))


@pytest.mark.parametrize("said", ["Sc, dc across, ch 1, turn.", "Alternate sc, dc across.", "Ch 1, sc 1, dc 1 across.", "Sc, dc repeat to end."])
def test_two_stitches_told_once_are_worked_by_turns(said: str) -> None:
    worked = work_text(f"{_STRIP}Row 3: {said}\n")
    made = [stitch.kind for stitch in worked.fabric.rows[-1].row.stitches if stitch.kind in ("sc", "dc")]
    assert (_told(worked), made) == ([], ["sc", "dc"] * 12)


def test_the_chain_of_the_first_row_is_one_more_of_the_foundation_where_only_so_it_comes_out() -> None:
    fans = "Row 1: Ch 1, sc in 2nd ch from hook, *ch 1, sk 3 ch, 5 dc in next ch, ch 1, sk 3 ch, sc in next ch, rep from * across. Turn.\n"
    assert _last(f"Ch 25.\n{fans}") == ([], (19, 7))
    assert _told(work_text("Ch 25.\nRow 1: Sc in 1st ch from hook, sc in each ch across.\n")) == ["Row 1"]


# -- runs told by how many rows they are, and what is said beside a row's end ------------------------------------------------

_TWELVE = "Magic ring.\nRnd 1: 6 sc. (6)\nRnd 2: 6 inc. (12)\n"


@pytest.mark.parametrize("said", ["3-5. 3 rows 12 sc", "3-5. 3 rows (12)", "3-5. 3 rounds of 12 sc", "3-5. for 3 rows sc in each (12)", "3-5. 3 rnds without changes (12)", "3.-5. (3 rows) unchanged (12)"])
def test_a_run_is_told_by_how_many_rows_it_is(said: str) -> None:
    worked = work_text(f"{_TWELVE}{said}\n6. (1 sc, inc) x 6 (18)\n".replace("Rnd 1:", "1.").replace("Rnd 2:", "2."))
    assert (_told(worked), [made for made, _ in _rows(worked)]) == ([], [6, 12, 12, 12, 12, 18])


@pytest.mark.parametrize("count", ["(12 dc in ring) join to chain 3", "(12 dc in ring), join", "(12 dc in the circle). Join"])
def test_a_count_in_the_ring_is_not_worked_once_more(count: str) -> None:
    assert _last(f"Ch 4, join.\nRnd 1: Ch 3 (counts as dc), 11 dc into {'circle' if 'circle' in count else 'ring'} {count}.\n")[1][0] == 12


def test_rows_are_named_with_a_stop_behind_their_abbreviation() -> None:
    worked = work_text(f"{_STRIP}Rows 3 - 6: Repeat rows. 1 and 2 twice.\n".replace("Row 1: Sc in 2nd ch from hook and in each ch across", "Row 1: Sc in 2nd ch from hook, sc in each ch across"))
    assert (_told(worked), [made for made, _ in _rows(worked)]) == ([], [24] * 6)


def test_a_turn_may_be_told_of_all_rows() -> None:
    assert _last("Ch 13.\nRow 1: Sc in 2nd ch from hook and in each ch, ch 1 to turn all rows. (12 sc)\nRow 2: Sc in each sc.\n") == ([], (12, 0))


@pytest.mark.parametrize(
    ("said", "made"),
    [("Inc 1 st at beg of row, sc in each sc to last 2 sts, dec 1 st at end of row.", 24), ("Sc in each sc to last 2 sts, dec 1 st at end of row.", 23),
     ("Sc in each sc to last st, inc 1 st at end of row.", 25), ("Dec at beg, sc across, dec at end.", 22)],
)  # fmt: skip
def test_what_is_left_for_the_end_is_worked_there(said: str, made: int) -> None:
    assert _last(f"{_STRIP}Row 3: {said}\n") == ([], (made, 0))


def test_the_last_chain_of_a_row_without_chains_is_its_last_stitch() -> None:
    shells = "Ch 23.\nRow 1: Sc in 2nd ch from hook, sk 2 ch, (5 dc in next ch, sk 2 ch, sc in next ch, sk 2 ch) across, ending with 3 dc in last ch. Ch 1, turn.\n"
    worked = work_text(shells + "Row 2: Sc in first dc, sk 2, (5 dc in sc, sk 2, sc, sk 2) across, ending with 3 dc in last ch.\n")
    assert (_told(worked), [made for made, _ in _rows(worked)]) == ([], [22, 22])


@pytest.mark.parametrize("where", ["center", "the center of ring", "centre"])
def test_the_center_of_a_first_round_is_its_ring(where: str) -> None:
    assert _last(f"Ch 4. Join.\nRnd 1: Ch 2, 12 hdc in {where}. Join. (12)\nRnd 2: Ch 2, 2 hdc in each st. Join. (24)\n") == ([], (24, 0))


# -- numbers behind their stitches, and words cut short ------------------------------------------------------------------


def test_numbers_behind_their_stitches_go_where_the_group_goes() -> None:
    ring = "Ch 5, sl st in first ch to make a circle.\nRnd 1: Ch 3, dc 2 in circle, ch 3, *dc 3, ch 3* three times, sl st in top of ch 3.\n"
    worked = work_text(ring + "Rnd 2: Sl st in next 2 dc and in ch sp, ch 3, dc 2, ch 3, dc 3 in same sp, *dc 3, ch 3, dc 3 in next ch sp* around, sl st.\n")
    assert (_told(worked), _rows(worked)) == ([], [(12, 12), (24, 12)])


def test_numbers_behind_stitches_go_on_along_the_row_where_no_group_is_told() -> None:
    assert _last(_STRIP + "Row 3: Ch 1, sc 5, ch 3, sk 3, dc 3, sc 13.\n") == ([], (21, 3))


def test_words_cut_short() -> None:
    assert _last(_STRIP + "Row 3: Ch 1, trn, *sc in nxt sc, dc in nxt sc; rep frm * acrs.\n") == ([], (24, 0))


def test_shaping_that_goes_on_at_the_beginning_of_each_row() -> None:
    worked = work_text(_STRIP + "Row 3: Ch 1, turn, inc at beginning, sc across.\nRows 4-6: Cont to inc 1 st at beg of each row.\n")
    assert (_told(worked), [made for made, _ in _rows(worked)]) == ([], [24, 24, 25, 26, 27, 28])


@pytest.mark.parametrize("said", ["sc over sc and dc over dc across.", "sc in sc, dc in dc to end."])
def test_two_stitches_over_their_like_are_told_of_all(said: str) -> None:
    rows = "Ch 25.\nRow 1: Sc in 2nd ch from hook, dc in next ch, *sc in next ch, dc in next ch; rep from * across. (24)\n"
    assert _last(f"{rows}Row 2: Ch 1, turn, {said}\n") == ([], (24, 0))


def test_a_last_skip_is_left_out_where_nothing_is_left_to_skip() -> None:
    rows = _STRIP + "Row 3: Ch 1, *(sc, dc) in next st, sk next st; rep from * across, turn.\n"
    assert _last(rows + "Row 4: Ch 1, *(sc, dc) in next sc, sk next dc; rep from * across.\n") == ([], (24, 0))
    assert _told(work_text(_STRIP + "Row 3: Ch 1, *sc in next 2 sts, ch 1, sk next 2 sts; rep from * across to last 2 sts.\n")) == ["Row 3"]


@pytest.mark.parametrize("said", ["Ch2 we don't count as stitch, ", "Ch 2 does not count as a stitch, ", "Ch 2, which doesn't count as a dc, "])
def test_a_chain_may_be_told_in_passing_to_be_no_stitch(said: str) -> None:
    disc = f"Make a magic circle.\nRnd 1: {said}make 12 dc into circle, sl st to join into 1st dc. (12 dc)\n"
    rounds = f"Rnd 2: {said}2 dc in each st around, sl st to join into 1st dc. (24 dc)\n"
    assert _last(disc + rounds + "Rnd 3: Ch1 don't count, *make front post into next dc, back post into next dc*, repeat from * to * around, join.\n") == ([], (24, 0))


# -- nothing said beside a change is lost --------------------------------------------------------------------------------


def test_work_told_beside_a_side_that_grows_is_worked() -> None:
    assert _last(f"{_SQUARE}{_SIDES}Rnd 4: As rnd 3, having one more group on each side, ch 5.\n") == ([], (48, 13))


def test_a_side_that_cannot_grow_is_told_as_a_side() -> None:
    worked = work_text(_STRIP + "Row 3: As Row 2, having one more group on each side.\n")
    assert ["between corners" in problem.says for problem in worked.problems] == [True]


def test_how_many_petals_are_made_is_not_lost_with_their_name() -> None:
    assert _told(work_text(f"{_LOOPS}Rnd 2: 6 petals of sc, hdc, 3 dc, hdc, sc in next sp.\n")) == ["Rnd 2"]


def test_a_name_that_a_clause_does_not_bear_is_no_remark() -> None:
    worked = work_text(f"{_DISC}Rnd 2: [2 sc in next sc (3 sc group)] x 12. (24)\n")
    assert (_told(worked), _rows(worked)[-1]) != ([], (24, 0))


def test_the_foundation_that_is_not_worked_is_named() -> None:
    worked = work_text("Row 1: Fsc 20, or ch 21 and sc in 2nd ch from hook and in each ch across. (20)\n")
    assert ["fsc 20" in note.says for note in worked.notes] == [True]


def test_a_chain_that_turns_all_rows_begins_each_of_them() -> None:
    rows = "Ch 13.\nRow 1: Dc in 4th ch from hook and in each ch, ch 3 to turn all rows. (11 dc)\nRow 2: Sk first dc, dc in each dc. (11)\n"
    assert _last(rows) == ([], (11, 0))
