"""The faults that the bench puts into code are what they say, and one is noticed."""

import ast

import pytest
from faults import ROOT, chosen, copied, faults_in, noticed

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


@pytest.mark.slow
def test_a_fault_is_noticed_and_sound_code_is_not_blamed(tmp_path):
    folder = copied(tmp_path)
    fault = next(f for f in faults_in("charts/drawing/geometry.py", (ROOT / "charts/drawing/geometry.py").read_text()) if f.was == "+")
    assert noticed(folder, fault)
