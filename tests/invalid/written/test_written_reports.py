"""One fault a pattern: each NAME.txt here gives exactly the report in NAME.report."""

from pathlib import Path

import pytest
from hookfold.charts.errors import KINDS
from hookfold.charts.model.rows.work import work_text

CASES = sorted(Path(__file__).parent.glob("*.txt"))


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.stem)
def test_the_whole_report(case):
    problems = work_text(case.read_text("utf-8")).problems
    assert len(problems) == 1, [p.report() for p in problems]
    assert problems[0].kind in KINDS
    assert problems[0].in_file(case.name).report() + "\n" == case.with_suffix(".report").read_text("utf-8")
