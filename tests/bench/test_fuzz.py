"""The fuzzer runs what its seed and number say, over the code of all parts, and tells what is wrong with a run."""

import json
import sys
from pathlib import Path

import pytest
from fuzz import Case, _disagreements, case_of, load_all, malformed
from fuzz_guard import Watched, megabytes_alone

ROOT = Path(__file__).resolve().parents[2]


@pytest.mark.slow
def test_no_module_is_left_to_load_within_a_run():
    names = set(load_all())
    files = [p for part in ("charts", "symbols", "cli") for p in (ROOT / part).rglob("*.py") if p.name != "__init__.py"]
    ours = {".".join(["hookfold", *p.relative_to(ROOT).with_suffix("").parts]) for p in files}
    assert ours <= names <= set(sys.modules) and len(ours) > 300


@pytest.mark.parametrize("small", [False, True])
def test_a_run_is_told_by_its_seed_and_number(small):
    cases = [case_of(3, number, small=small) for number in range(20)]
    assert cases == [case_of(3, number, small=small) for number in range(20)]
    assert len({case.text for case in cases}) > 15 and {case.counts is None for case in cases} == {True, False}


def test_what_is_no_file_of_its_kind_is_told(tmp_path):
    for name, text in (("a.svg", "<svg>"), ("a.pdf", "%PDF-1.7"), ("a.png", "PNG")):
        (tmp_path / name).write_text(text, "utf-8")
        assert malformed(tmp_path / name)
    (tmp_path / "b.svg").write_text("<svg/>", "utf-8")
    assert not malformed(tmp_path / "b.svg")


def test_a_right_pattern_that_is_refused_or_counted_otherwise_is_a_fault():
    case = Case(1, "", ".txt", "check --json @", {"Row 1": 7})
    right = {"ok": True, "problems": [], "rows": [{"label": "Row 1", "stitches": 7}]}
    other = right | {"rows": [{"label": "Row 1", "stitches": 8}]}
    refused = right | {"ok": False, "problems": [{"where": "Row 1", "says": "no"}]}
    told = [_disagreements(case, Watched(code=code, output=json.dumps(said).encode())) for code, said in (
        (0, right), (0, other), (1, refused), (1, right),
    )]  # fmt: skip
    assert told == [
        [], ["Row 1 makes 8, not 7"], ["a right pattern is refused: Row 1: no"],
        ["its verdict, its problems and its exit code do not agree"],
    ]  # fmt: skip


@pytest.mark.skipif(not Path("/proc/self/status").exists(), reason="only Linux tells")
def test_memory_is_that_of_a_run_alone():
    kept = bytearray(80_000_000)
    kept[::4096] = b"1" * len(kept[::4096])
    assert 5 < megabytes_alone(["--version"]) < 70
