"""Rows written for a changing width make the count that was asked for, both edges alike; crowns grow evenly; hooks lie
between their neighbours; the liveliest rows are shown."""

import itertools

import pytest
from hookfold.charts.model.cloth.typical import liveliest, typical_rows, worked_loop
from hookfold.charts.model.rows.work import work_text
from hookfold.charts.model.sections.shaped import _PLAIN, _growing, _slanting
from hookfold.charts.model.sizing.shape import crown_counts, edge_counts
from hookfold.charts.model.sizing.yarn_weights import (
    US_HOOKS,
    between_us_hooks,
    category_called,
    hook_called,
    hook_numbered,
    us_hook,
)

ROUND = _PLAIN.match("Rnd 1: Ch 1, sc in each st around, join with sl st in first sc.")
ROW = _PLAIN.match("Row 1: Ch 1, turn. Sc in each st across.")


def gone_into(worked):
    """How many stitches of the last row stand on each stitch of the row below, in the order of work."""
    base = [i for i, s in enumerate(worked.fabric.rows[-2].row.stitches) if s.role == "stitch"]
    feet = [foot.at for s in worked.fabric.rows[-1].row.stitches if s.role == "stitch" for foot in s.feet]
    return [feet.count(at) for at in base]


@pytest.mark.parametrize("below", [6, 7, 12])
def test_a_round_written_for_a_count_makes_it_with_its_increases_spread_evenly(below):
    for count in range(below, 2 * below + 1, 1 + below // 10):
        says = _growing(ROUND, below, count)
        worked = work_text(f"Rnd 1: {below} sc in magic ring, join with sl st in first sc.\nRnd 2: {says}\n")
        assert worked.problems == [] and worked.fabric.rows[-1].row.made == count, says
        on = gone_into(worked)
        assert set(on) <= {1, 2} and on.count(2) == count - below
        two = [at for at, many in enumerate(on) if many == 2]
        ways = {(b - a) % below or below for a, b in zip(two, two[1:] + two[:1], strict=True)}
        assert not ways or max(ways) - min(ways) <= 1, "as far from each to the next"


def test_a_round_of_nothing_is_begun_in_the_ring():
    assert _growing(ROUND, 0, 8) == "Ch 1, 8 sc in ring, join with sl st in first sc."


@pytest.mark.parametrize("count", range(5, 16))
def test_a_row_written_for_a_count_makes_it_at_its_edges_and_as_much_at_both(count):
    says = _slanting(ROW, 10, count)
    worked = work_text(f"Ch 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 sc)\nRow 2: {says}\n")
    assert worked.problems == [] and worked.fabric.rows[-1].row.made == count, says
    row = worked.fabric.rows[-1].row
    made = [len(s.feet) if len(s.feet) > 1 else 0 for s in row.stitches if s.role == "stitch"]
    ends = [list(g) for _, g in itertools.groupby(made)]
    if count < 10:
        taken = [len(g) for g in ends if g[0]]
        assert sum(taken) == 10 - count and all(g[0] in (0, 2) for g in ends)
        assert len(taken) == 1 or taken[0] - taken[-1] in (0, 1)
    on = list(reversed(gone_into(worked)))
    if count > 10:
        first, last = on[::-1].index(1), on.index(1)
        assert on.count(2) == count - 10 == first + last and abs(first - last) <= 1


@pytest.mark.parametrize(("begins", "ends", "rows"), [(12, 6, 3), (20, 4, 9), (6, 30, 12), (9, 9, 4), (11, 4, 5), (4, 5, 1)])
def test_edges_go_from_one_width_to_the_other_without_turning_back(begins, ends, rows):
    counts = edge_counts(begins, ends, rows)
    steps = [b - a for a, b in itertools.pairwise((begins, *counts))]
    assert len(counts) == rows and counts[-1] == ends and sum(steps) == ends - begins
    assert all(s * (ends - begins) >= 0 for s in steps) and all(s % 2 == 0 for s in steps[:-1])
    assert max(map(abs, steps)) - min(map(abs, steps)) <= 2 + (ends - begins) % 2


@pytest.mark.parametrize("stitches", [6, 20, 44, 90])
def test_a_crown_grows_by_the_same_every_round_to_the_last(stitches):
    counts = crown_counts(stitches, 5.0, 5.0)
    grows = [b - a for a, b in itertools.pairwise((0, *counts))]
    assert counts[-1] == stitches and len(set(grows[:-1])) <= 1 and grows[-1] > 0
    assert len(counts) == max(1, round(stitches / 6.28)), "its radius in rounds: the way round by 2 x pi"
    assert not grows[:-1] or grows[0] in (5, 6, 7)


def test_hooks_and_yarns_are_called_by_either_name():
    sizes = sorted(US_HOOKS)
    for small, large in itertools.pairwise(sizes):
        assert between_us_hooks((small + large) / 2) == f"between {US_HOOKS[small]} and {US_HOOKS[large]}"
    assert between_us_hooks(sizes[0] - 0.1) == between_us_hooks(sizes[-1] + 0.1) == between_us_hooks(None) == us_hook(None) == ""
    for mm, name in US_HOOKS.items():
        assert us_hook(mm) == name
        if "-" in name:
            assert hook_called(name.lower()) == f"{mm:g} mm ({name})" and hook_called(name.split("-")[0].split("/")[0])
    assert hook_called("Q-99") == hook_numbered("99") == hook_numbered("x") == ""
    assert hook_numbered("7") == "4.5 mm" and hook_numbered("15") == "10 mm (N/P-15)"
    names = {"lace": 0, "fingering": 1, "dk": 3, "worsted": 4, "aran": 4, "chunky": 5, "super bulky": 6, "jumbo": 7}
    for name, number in names.items():
        assert {category_called(said) for said in (name, name.upper(), f"{name} weight", f"{name}  yarn", str(number), f"#{number}")} == {number}
    assert category_called("8") is category_called("knitted") is None


BANDS = """Ch 12.
Row 1: Sc in 2nd ch from hook and in each ch across. (11 sc)
Row 2: Ch 1, turn. Sc in each sc across. (11 sc)
Row 3: Ch 1, turn. Sc in back loop of each sc across. (11 sc)
Row 4: Ch 3 (counts as dc), turn. Dc in next 10 sc. (11 dc)
Row 5: Ch 1, turn. Sc in each dc across. (11 sc)
Row 6: Ch 1, turn. Hdc in each sc across. (11 hdc)
"""


def test_the_rows_shown_are_the_earliest_that_show_most_but_never_the_first():
    """Of two rows, 4 and 5 are the first with two looks that differ; 3 and 4 are too, and come before."""
    fabric = work_text(BANDS).fabric
    assert liveliest(fabric) == [0, 1, 2, 3, 4, 5]
    assert typical_rows(fabric, 2) == (2, 4) and typical_rows(fabric, 3) == (3, 6)
    assert typical_rows(fabric, 6) == typical_rows(fabric, 9) == (0, 6)
    assert typical_rows(fabric, 5) == (1, 6), "not from the first row, though that shows as much"


def test_the_loop_of_all_rows_is_told_and_of_rows_unlike_none():
    rows = work_text(BANDS).fabric.rows
    assert worked_loop(rows, "") is None and worked_loop(rows[:2], "") == "" and worked_loop(rows[1:3], "") == " in the back loop only"
    assert worked_loop(rows[:1], "") == ""
