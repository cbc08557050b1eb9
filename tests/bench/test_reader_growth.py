"""Reading and working grow in step with what is written: ratios, never times."""

from __future__ import annotations

import time
from collections.abc import Callable

import pytest
from hookfold.charts.model.rows.work import work_text

H = "Terms: US\nCh 21.\nRow 1: Sc in 2nd ch from hook and in each ch across. (20 sc)\n"


#: A text four times as long may take so many times as long.
MOST_TIMES = 10
RUNS = 3


def seconds(text: str) -> float:
    """The processor time of one run, which what else the machine does hardly changes."""
    begun = time.process_time()
    worked = work_text(text)
    taken = time.process_time() - begun
    assert not worked.problems
    return taken


def equal_rows(size: int) -> str:
    return H + "".join(f"Row {n}: Ch 1, turn, sc in each st across. (20 sc)\n" for n in range(2, size + 2))


def repeated_rows(size: int) -> str:
    return H + f"Row 2: Ch 1, turn, sc in each st across.\nRows 3-{10 * size}: Rep Row 2.\n"


def wide_row(size: int) -> str:
    return (
        f"Terms: US\nCh {size * 6 + 2}.\n"
        "Row 1: Sc in 2nd ch from hook, *sk 2 ch, 5 dc in next ch, sk 2 ch, sc in next ch; rep from * across.\n"
        "Row 2: Ch 3 (counts as dc), turn, 2 dc in first sc, sk 2 dc, sc in next dc, *sk 2 dc, 5 dc in next sc, "
        "sk 2 dc, sc in center dc of next shell; rep from * across, sk 2 dc, 3 dc in last sc.\n"
    )


def long_words(size: int) -> str:
    return f"Terms: US\nOver {size * 3} sc.\nRow 1: Ch 1, " + ", ".join(["sc in next st, hdc in next 2 sts"] * size) + ".\n"


def filet(size: int) -> str:
    """Rows of six squares, open and filled by the digits of their number, so that few are alike."""
    out = ["Terms: US\nCh 21.\nRow 1: Dc in 4th ch from hook and in each ch across. (19 dc)\n"]
    below = [True] * 6
    for number in range(2, size // 4 + 2):
        squares = [bool(number * 7 >> at & 1) for at in range(6)]
        words = []
        for filled, on_filled in zip(squares, below, strict=True):
            if filled:
                words.append("dc in next 3 dc" if on_filled else "2 dc in next ch-2 sp, dc in next dc")
            else:
                words.append(f"ch 2, sk {'2 dc' if on_filled else 'next ch-2 sp'}, dc in next dc")
        out.append(f"Row {number}: Ch 3 (counts as dc), turn, {', '.join(words)}.\n")
        below = squares[::-1]
    return "".join(out)


@pytest.mark.parametrize("make", [equal_rows, repeated_rows, wide_row, long_words, filet])
def test_four_times_as_much_takes_about_four_times_as_long(make: Callable[[int], str]):
    """The best of three runs; none is made after one of the long text that is quick enough."""
    text = make(160)
    small = min(seconds(make(40)) for _ in range(RUNS))
    ratios = (seconds(text) / small for _ in range(RUNS))
    assert any(ratio < MOST_TIMES for ratio in ratios)


def test_equal_rows_are_one_object():
    rows = work_text(repeated_rows(200)).fabric.rows
    assert len(rows) == 2000 and len({id(row.row) for row in rows[2:]}) <= 2
