"""Rows with a slip in them end as a report: nothing is looked for beyond the words, or over widths that nobody works."""

from types import SimpleNamespace

import pytest
from hookfold.charts.model.rows import recovering
from hookfold.charts.model.rows.work import work_text

RING = "Terms: US\nCh 6, join with sl st to form a ring.\n"


@pytest.mark.parametrize("number", ["0sl st", "0 sl st", "3sl st"])
def test_words_cut_off_before_a_full_stop_are_read_no_further(number: str) -> None:
    worked = work_text(f"{RING}Rnd 1: Ch 1, 8 sc in ring, join with {number}.\n")
    assert [row.row.made for row in worked.fabric.rows][:1] == [8]


def test_a_row_over_a_broken_wide_one_is_not_tried_over_every_width(monkeypatch: pytest.MonkeyPatch) -> None:
    """Of 20,000 stitches that was tens of seconds."""
    widths: list[int] = []
    monkeypatch.setattr(recovering, "_kind_below", lambda w: "sc")
    monkeypatch.setattr(recovering, "_plain", lambda w, width, kind: widths.append(width))
    monkeypatch.setattr(recovering, "_over", lambda w, task, base: SimpleNamespace(faults=1, row=None))
    for about, tried in ((50, 25), (5_000, 0)):
        widths.clear()
        recovering._over_near(None, None, about)  # type: ignore[arg-type]
        assert len(widths) == tried


def test_a_digit_of_another_script_is_no_number_and_no_fault_of_the_reader():
    worked = work_text("Rnd 1: 7 sc in magic ring\nRnd 2: 2 sc in each sc around\nRnd 3: Decrease over;\uff19 every 5th and 6th stitch, inc, 5, inc\n")
    assert {problem.where for problem in worked.problems} == {"Rnd 3"}
