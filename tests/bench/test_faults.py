"""The faults that the bench puts into code are what they say; where code runs is known, and a fault is noticed."""

import ast

import called
import pytest
from called import marked
from faults import BESIDE, ROOT, TESTS, chosen, faults_in, files_of, tried

TEXT = "def f(a, b):\n    if not a and b < 3:\n        return a + 1 == b\n    return True\n"


def test_every_kind_of_token_is_changed():
    found = {(f.was.strip(), f.now) for f in faults_in("charts/x/y.py", TEXT)}
    assert {("not", ""), ("and", "or"), ("<", "<="), ("+", "-"), ("==", "!="), ("3", "4"), ("1", "2"), ("True", "False")} == found
    for fault in faults_in("charts/x/y.py", TEXT):
        changed = fault.put(TEXT)
        assert changed != TEXT and ast.parse(changed)


def test_the_same_seed_draws_the_same_faults_and_all_can_be_put():
    room = "layout/placing"
    assert chosen(3, 40, room) == chosen(3, 40, room) != chosen(4, 40, room)
    for fault in chosen(3, 40, room):
        text = (ROOT / fault.file).read_text("utf-8")
        assert ast.dump(ast.parse(fault.put(text))) != ast.dump(ast.parse(text))


def test_marks_are_passed_where_their_code_runs_and_change_nothing(monkeypatch):
    monkeypatch.setattr(called, "PASSED", set())
    text = '"""Doc."""\nfrom __future__ import annotations\nLIMIT = 3 + 1\n' + TEXT + "class C:\n    def g(self):\n        return 1\n"
    marks = {"sum": (3, 10), "f": (5, 8), "first": (4, 6), "g": (10, 15)}
    space: dict = {}
    exec(compile(marked(text, [(place, name) for name, place in marks.items()]), "x", "exec"), space)
    assert {"sum", "first"} == called.PASSED and space["LIMIT"] == 4 and space["__doc__"] == "Doc."
    assert space["f"](1, 2) is True and {"sum", "first", "f"} == called.PASSED
    assert space["C"]().g() == 1 and {"sum", "first", "f", "g"} == called.PASSED


def test_every_storey_has_tests():
    storeys = {p.parent.relative_to(ROOT / "charts").parts[0] for p in (ROOT / "charts").rglob("*/*.py")}
    assert storeys - {"__pycache__"} == set(TESTS)
    assert all((ROOT / folder).exists() for beside in (TESTS, BESIDE) for folders in beside.values() for folder in folders)


def test_what_is_counted_by_itself_is_no_unit_test_and_the_gallerys_bytes_are_neither():
    for storey in TESTS:
        unit, beside = set(files_of(storey)), set(files_of(storey, BESIDE))
        assert unit and not unit & beside and not any("gallery" in file for file in unit | beside)


@pytest.mark.slow
def test_a_fault_is_noticed_and_sound_code_is_not_blamed(monkeypatch):
    """Of two files of tests one comes by it, which passes over sound code, or it would have been left out."""
    two = tuple(f"tests/unit/drawing/test_{name}.py" for name in ("geometry", "style"))
    monkeypatch.setitem(TESTS, "drawing", two)
    monkeypatch.setitem(BESIDE, "drawing", ())
    fault = next(f for f in faults_in("charts/drawing/geometry.py", (ROOT / "charts/drawing/geometry.py").read_text()) if f.was == "+")
    ((there, by, aside, files),) = tried([fault])
    assert there == fault and files == 1 and not aside and by.startswith("FAILED tests/unit/drawing/test_geometry.py")
