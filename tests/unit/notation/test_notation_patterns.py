"""Written patterns with counts worked out by hand, and patterns with one mistake each."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from fabric_laws import broken_laws
from hookfold.charts.errors import KINDS
from hookfold.charts.model.rows.work import work_text
from hookfold.charts.pattern.writer import write_pattern
from notation_cases import NOTATION, differences, table
from notation_feet import feet_of, hand

PATTERNS = table("pattern")
FAULTS = table("fault")
CLAUSES = table("clause")
BELOW = table("below")
#: Texts of which a row does what the laws of all fabrics cannot tell from its words: it leaves stitches without a word, or
#: rises to the next row in its middle or at its end.
UNSAID = {
    "ear flap goes on": "nothing on", "row that is said beforehand to leave stitches": "nothing on",
    "skip and stitch with no sign between": "nothing on", "chain further on that the round is closed in": "in the middle",
    "terms by both names of one stitch": "",
}  # fmt: skip


def named(entries):
    return [pytest.param(entry, id=entry["name"]) for entry in entries]


@pytest.mark.parametrize("entry", named(PATTERNS))
def test_pattern_is_worked_as_counted_by_hand(entry):
    """Each row as counted, every foot in something that is there, every repeat of equal repetitions; the hand goes on."""
    worked = work_text(entry["text"].lstrip("\n"))
    assert [p.report() for p in worked.problems] == []
    assert differences(worked, entry.get("rows", [])) == []
    assert [law for law in broken_laws(worked.fabric) if UNSAID.get(entry["name"], "never") not in law] == []
    feet_go_into_things_that_are_there(worked.fabric)
    repeats_are_stretches_of_equal_repetitions(worked.fabric)


@pytest.mark.parametrize("entry", named(FAULTS))
def test_mistake_is_found_at_its_row_and_alone(entry):
    text = entry["text"].lstrip("\n")
    problems = work_text(text).problems
    assert [p.where for p in problems] == [entry["where"]], [p.report() for p in problems]
    problem = problems[0]
    assert problem.kind == entry["kind"] and problem.kind in KINDS
    assert all(word in problem.says for word in entry.get("says", []))
    assert problem.remedy
    line = text.split("\n")[problem.line - 1]
    assert 1 <= problem.column <= len(line) + 1 and problem.text == line


@pytest.mark.parametrize("entry", named(CLAUSES))
def test_clause_makes_what_it_says(entry):
    """One row over a given row: what it makes, in one line."""
    terms = entry.get("terms", "US")
    worked = work_text(f"Terms: {terms}\n{entry.get('special', '')}\n{entry['over']}\n{entry.get('word', 'Row')} {entry.get('number', 1)}: {entry['row']}\n")
    assert [p.report() for p in worked.problems] == []
    assert [*broken_laws(worked.fabric)] == []
    row = worked.fabric.rows[-1].row
    assert {k.lower(): n for k, n in row.kinds().items()} == {k.lower(): n for k, n in entry["kinds"].items()}
    assert "chains" not in entry or row.chains == entry["chains"]


@pytest.mark.parametrize("entry", named(BELOW))
def test_feet_further_down_are_those_of_the_hand(entry):
    worked = work_text(entry["text"].lstrip("\n"))
    assert [p.report() for p in worked.problems] == []
    assert feet_of(worked) == hand(entry["feet"])
    assert [*broken_laws(worked.fabric)] == []


@pytest.mark.parametrize("entry", named(BELOW))
def test_rows_further_down_are_written_so_that_they_read_alike(entry):
    worked = work_text(entry["text"].lstrip("\n"))
    for terms in ("US", "UK"):
        again = work_text(write_pattern(worked.pattern, terms))
        assert [p.report() for p in again.problems] == []
        assert feet_of(again) == feet_of(worked)


def feet_go_into_things_that_are_there(fabric):
    for index, row in enumerate(fabric.rows):
        for stitch in row.row.stitches:
            for foot in stitch.feet:
                base = row.row if foot.back == 0 else fabric.base_of(index, foot.back)
                assert base is not None
                assert foot.hold == "edge" or 0 <= foot.at < len(base.stitches)
                if foot.hold == "chain":
                    assert 0 <= foot.part < max(base.stitches[foot.at].chains, 1)
                if foot.hold == "space":
                    assert base.stitches[foot.at].role == "chain"


def repeats_are_stretches_of_equal_repetitions(fabric):
    for row in fabric.rows:
        if row.row.repeat is None:
            continue
        first, each, times = row.row.repeat
        items = [(s.kind, s.role, s.chains) for s in row.row.stitches[first : first + each * times]]
        assert times > 1 and len(items) == each * times
        assert all(items[i] == items[i % each] for i in range(len(items)))


def test_constructs_page_is_up_to_date():
    """The page of constructs is made from these tables by constructs.py."""
    from constructs import page

    assert (NOTATION / "constructs.md").read_text("utf-8") == page()


def test_every_pattern_names_what_it_shows():
    assert all(re.search(r"[a-z]", entry["construct"]) for entry in PATTERNS)
    assert len({entry["name"] for entry in PATTERNS + FAULTS}) == len(PATTERNS) + len(FAULTS)
    assert Path(NOTATION).is_dir()
