"""Rows that come out even over no number of stitches: how long one is looked for."""

from __future__ import annotations

import pytest
from hookfold.charts.model.multiples import multiple
from hookfold.charts.pattern.written.document import read_written


def _tried(text: str, monkeypatch: pytest.MonkeyPatch) -> tuple[multiple.Multiple | None, list[int]]:
    """The multiple of rows, and the counts that were worked to find it."""
    counts: list[int] = []
    trial = multiple._trial

    def seen(rows, count, *args):  # type: ignore[no-untyped-def]
        counts.append(count)
        return trial(rows, count, *args)

    monkeypatch.setattr(multiple, "_trial", seen)
    multiple._multiple_of.cache_clear()
    rows = read_written(f"Terms: US\n{text}").pattern.rows
    return multiple.multiple_of(rows, "US"), counts


def test_a_section_that_never_keeps_its_width_is_given_up(monkeypatch: pytest.MonkeyPatch) -> None:
    text = "Row 1: Ch 1, turn. *Sk 1, dc in next st, *sk 1, dc in next st, dc in skipped st; rep from * across.\nRow 2: Ch 1, turn. *Sk 1, dc in next st, dc in skipped st; rep from * across.\n"
    found, counts = _tried(text, monkeypatch)
    assert found is None
    assert sum(counts) <= multiple.MOST_WORKED + multiple.MOST_TRIED


@pytest.mark.parametrize("of", [40, 60])
def test_a_long_repeat_is_found_before_that(of: int, monkeypatch: pytest.MonkeyPatch) -> None:
    text = f"Row 1: Ch 1, turn. *Sc in next {of - 1} sts, hdc in next st; rep from * across.\nRow 2: Ch 1, turn. *Sc in next {of - 1} sts, hdc in next st; rep from * across.\n"
    found, _ = _tried(text, monkeypatch)
    assert found is not None
    assert (found.of, found.plus) == (of, 0)


def test_a_row_of_many_stitches_by_number_is_still_looked_for(monkeypatch: pytest.MonkeyPatch) -> None:
    found, _ = _tried("Row 1: Ch 1, turn. Sc in next 200 sts.\nRow 2: Ch 1, turn. Sc in next 200 sts.\n", monkeypatch)
    assert found is not None
    assert found.holds(200)


def test_rows_that_make_hundreds_out_of_one_stitch_are_given_up_sooner(monkeypatch: pytest.MonkeyPatch) -> None:
    text = "Rnd 1: Ch 1, sc in first st, *{} in next st, sc in next {} sts; rep from * around, join with sl st.\nRnd 2: Ch 1, dc in each st around, join with sl st.\n"
    much, counts = _tried(text.format("399 dc", 2), monkeypatch)
    assert much is None and max(counts) < 120
    worked = [multiple.Trial(0, cost=cost) for cost in (multiple.MOST_MADE // 2, multiple.MOST_MADE // 2 + 1)]
    assert multiple._hopeless(dict(enumerate(worked))) and not multiple._hopeless(dict(enumerate(worked[:1])))
    assert not multiple._hopeless(dict(enumerate([*worked, multiple.Trial(2, 0)])))


def test_fewer_are_tried_where_those_that_go_are_evenly_spaced(monkeypatch: pytest.MonkeyPatch) -> None:
    found, counts = _tried("Row 1: Ch 1, turn. *Sc in next 2 sts, hdc in next st; rep from * across.\n", monkeypatch)
    assert found == multiple.Multiple(3, 0, 3)
    assert max(counts) == multiple.FEWEST_TRIED


def test_what_small_counts_come_out_even_over_is_no_multiple() -> None:
    """Three that are evenly spaced by chance are told apart from what follows them."""
    assert multiple.period(lambda n: n in (20, 22, 24) or (n > 24 and n % 6 == 1)) == multiple.Multiple(6, 1, 25)
    assert multiple.period(lambda n: n > 30 and n % 6 == 1) == multiple.Multiple(6, 1, 31)
    assert multiple.period(lambda n: n < 9) == multiple.Multiple(1, 0, 1)


SHELLS = "Rnd {}: Ch 1, sc in first st, *sk 2 sts, 5 dc in next st, sk 2 sts, sc in next st; rep from * around, join with sl st.\n"
CROSSED = "Rnd {}: Ch 1, *sk next st, dc in next st, dc in skipped st; rep from * around, join with sl st.\n"
ODD = "Rnd {}: Ch 1, dc in first st, *puff st in next st, dc in next st; rep from * around, join with sl st.\n"
FANS = "Row {}: Ch {}, turn. Dc in first st, *sk 2 sts, {} tr in next st, sk 2 sts, dc in next st; rep from * across.\n"


@pytest.mark.parametrize(
    "text",
    [
        CROSSED.format(1) + ODD.format(2),  # even widths, and a row that wants odd ones
        SHELLS.format(1) + CROSSED.format(2),  # counts of two kinds, whose widths meet
        ODD.format(1).replace("dc in next st", "dc in next 3 sts") + SHELLS.format(2) + CROSSED.format(3),
        FANS.format(1, 1, 5) + FANS.format(2, 7, 5) + FANS.format(3, 1, 40),  # over a row with chains
    ],
)
def test_what_the_first_counts_show_is_not_worked_over_more(text: str, monkeypatch: pytest.MonkeyPatch) -> None:
    found, counts = _tried(text, monkeypatch)
    assert found is None
    assert max(counts) <= multiple.FIRST_TRIED


def test_rows_over_many_stitches_are_worked_over_the_counts_that_come_again_alone(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(multiple, "FEWEST_TRIED", multiple.FIRST_TRIED)
    text = "Row 1: Ch 1, turn. {} in next st, *sk 1 st, dc in next st, dc in skipped st; rep from * across, dc in last st.\nRow 2: Ch 1, turn. Dc in each st across.\n"
    plain, all_tried = _tried(text.format("Dc"), monkeypatch)
    assert plain is not None and all_tried == list(range(1, multiple.FIRST_TRIED + 1))
    monkeypatch.setattr(multiple, "DEAR", 300)
    again, fewer = _tried(text.format("Dc"), monkeypatch)
    assert again == plain and len(fewer) < 0.8 * len(all_tried)


@pytest.mark.parametrize("of", [3, 5, 12])
def test_counts_of_two_kinds_are_found_and_rows_over_them(of: int, monkeypatch: pytest.MonkeyPatch) -> None:
    """What is told of later counts is what working all of them finds."""
    text = f"Row 1: Ch 1, turn. *Sc in next {of - 1} sts, 2 sc in next st; rep from * across.\nRow 2: Ch 1, turn. *Sc in next {of - 1} sts, sc2tog; rep from * across.\n"
    found, _ = _tried(text, monkeypatch)
    for name in ("grown", "again"):
        monkeypatch.setattr(multiple, name, lambda *_: None)
    monkeypatch.setattr(multiple, "_never_goes", lambda *_: [])
    multiple.own_counts.cache_clear()
    assert found is not None and _tried(text, monkeypatch)[0] == found
