"""One fault a file: each NAME.toml here gives exactly the report in NAME.report."""

import tomllib
from pathlib import Path

import pytest
from hookfold.charts.errors import KINDS, PatternError
from hookfold.charts.pattern.file.read import read_pattern

FOLDER = Path(__file__).parent
CASES = sorted(FOLDER.glob("*.toml"))


def problems_of(case):
    with pytest.raises(PatternError) as caught:
        read_pattern(case.read_text("utf-8"), case.name)
    return caught.value.problems


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.stem)
def test_the_whole_report(case):
    problems = problems_of(case)
    assert len(problems) == 1, [p.says for p in problems]
    assert problems[0].report() + "\n" == case.with_suffix(".report").read_text("utf-8")


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.stem)
def test_the_marker_stands_on_what_is_written(case):
    problem = problems_of(case)[0]
    assert problem.kind in KINDS and problem.remedy
    lines = case.read_text("utf-8").split("\n")
    if problem.text and problem.kind != "file":
        assert lines[problem.line - 1] == problem.text
        assert problem.column + problem.length - 1 <= len(problem.text)


def test_the_pattern_they_all_spoil_is_fine():
    text = (FOLDER / "sound.toml.txt").read_text("utf-8")
    assert read_pattern(text, "sound.toml").title == "Sample cover"
    assert tomllib.loads(text)


def test_there_are_many_faults():
    assert len(CASES) >= 40
