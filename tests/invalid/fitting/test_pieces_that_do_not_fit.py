"""Patterns that read and can be worked, but cannot fit or keep their sides: the whole report of each."""

from pathlib import Path

import pytest
from hookfold.charts import engrave

CASES = sorted(Path(__file__).parent.glob("*.toml"))


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.stem)
def test_the_whole_report(case):
    report = engrave.check(case.read_text("utf-8"), case.name)
    said = "\n\n".join(problem.report() for problem in report.problems)
    assert said + "\n" == case.with_suffix(".report").read_text("utf-8")
    assert {problem.kind for problem in report.problems} == {"fit"}
    assert report.as_json()["ok"] is False


def test_there_are_cases():
    assert len(CASES) >= 4
