"""Reading and working never fail with a traceback, whatever is written, and stay inside their bounds."""

from __future__ import annotations

import pytest
from conftest import some
from hookfold.charts.errors import KINDS
from hookfold.charts.model.rows.work import work_text
from hypothesis import given, settings
from hypothesis import strategies as st
from notation_cases import table

SEEDS = [entry["text"].lstrip("\n") for key in ("pattern", "fault") for entry in table(key)]
WORDS = ["sc", "dc", "hdc", "tr", "htr", "dtr", "sl", "st", "ss", "ch", "ch-3", "ch-2", "sp", "5-dc", "group", "picot", "shell", "V-st", "bobble", "bo", "MB", "cl", "inc", "dec", "sc2tog", "dc3tog", "FPdc", "BPtr", "in", "into", "around", "over", "next", "first", "last", "each", "same", "any", "beg", "of", "top", "hook", "from", "to", "the", "st", "sts", "stitch", "rem", "ring", "magic", "loop", "loops", "BLO", "FLO", "back", "front", "only", "working", "behind", "along", "opposite", "side", "ends", "rows", "Row", "Rnd", "Rows", "row", "1", "2", "3", "4", "10", "99999", "100000", "0", "2nd", "3rd", "*", "**", "rep", "repeat", "across", "around", "more", "times", "twice", "once", "ending", "with", "at", "(", ")", "[", "]", ",", ";", ".", ":", "-", "—", "turn", "join", "yarn", "A", "B", "fasten", "off", "sk", "miss", "skip", "skipped", "leave", "unworked", "counts", "as", "throughout", "does", "not", "count", "corner", "center", "middle", "between", "before", "after", "and", "or", "then", "until", "piece", "measures", "cm", "Ch", "Over", "Terms:", "US", "UK", "special", "stitch", "=", "yo", "insert", "hook", "pull", "up", "a", "draw", "through", "5", "times"]
HOSTILE = "‮​﻿\u0000İßΩ½㊿𝟗９ñ\ud800\U0001f9f6\r\t"


def check(text: str) -> None:
    """What must hold for any text at all."""
    worked = work_text(text)
    for problem in worked.problems:
        assert problem.kind in KINDS and problem.says and problem.remedy
        assert problem.line >= 0 and problem.column >= 0 and problem.length >= 1
        assert problem.report()


words = st.lists(st.sampled_from(WORDS), max_size=40).map(" ".join)


@settings(max_examples=some(300))
@given(st.lists(words, max_size=5), st.sampled_from(["Terms: US\nCh 21.\n", "Terms: UK\nOver 12 dc.\n", "Terms: US\n", ""]))
def test_rows_of_any_words(rows, start):
    check(start + "".join(f"Row {n}: {row}\n" for n, row in enumerate(rows, 1)))


@settings(max_examples=some(200))
@given(st.sampled_from(SEEDS), st.data())
def test_patterns_with_words_changed(text, data):
    tokens = text.split(" ")
    for _ in range(data.draw(st.integers(1, 4))):
        at = data.draw(st.integers(0, len(tokens) - 1))
        change = data.draw(st.sampled_from(["drop", "double", "swap", "new"]))
        if change == "drop":
            tokens[at] = ""
        elif change == "double":
            tokens[at] = f"{tokens[at]} {tokens[at]}"
        elif change == "swap":
            tokens[at], tokens[0] = tokens[0], tokens[at]
        else:
            tokens[at] = data.draw(st.sampled_from(WORDS))
    check(" ".join(tokens))


@settings(max_examples=some(100))
@given(st.sampled_from(SEEDS), st.integers(0, 400), st.text(alphabet=HOSTILE + "sc dch*()[],;.:0129\n", max_size=20))
def test_patterns_with_hostile_letters(text, at, letters):
    check(text[:at] + letters + text[at:])


@settings(max_examples=some(100))
@given(st.text(max_size=200))
def test_any_text(text):
    check(text)


H = "Terms: US\nCh 21.\nRow 1: Sc in 2nd ch from hook and in each ch across. (20 sc)\n"


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        (H + "Row 2: " + "[" * 4000 + "sc" + "]" * 4000 + " 2 times.", "limit"),
        (H + "Row 2: " + "(" * 30 + "sc in next st" + ")" * 30 + ".", "limit"),
        ("Terms: US\nCh 999999999.\nRow 1: Sc in 2nd ch from hook and in each ch across.", "limit"),
        (H + "Row 2: Ch 1, turn, *sc in next st; rep from * 10000000 more times.", "limit"),
        (H + "Row 2: Ch 1, turn, [[[ch 1] 99999 times] 99999 times] 99999 times.", "limit"),
        (H + "Row 2: Ch 1, turn, [[sl st in same st] 99999 times] 99999 times.", "limit"),
        (H + "Row 2: Ch 1, turn, [ch 9999] 99999 times.", "limit"),
        (H + "Row 2: Ch 1, turn, sk next 0 sts, sc in next st.", "not notation"),
        (H + "Row 2: Ch 1, turn, 100000 sc in each of next 20 sts.", "limit"),
        (H + "Row 2: Ch 1, turn, *ch 1; rep from * across.", "ambiguous"),
        (H + "Row 2: Ch 1, turn, " + ", ".join(["*sc in next st; rep from * across"] * 12) + ".", "limit"),
        (H + "Rows 2-999999: Ch 1, turn, sc in each st across.", "limit"),
        (H + "Row 2: sc in next st, " + "x" * 20_000, "limit"),  # test_cli_commands reads a row of as many stitches
    ],
)
def test_what_is_too_large_is_refused_in_words(text, kind):
    problems = work_text(text).problems
    assert kind in [p.kind for p in problems], [p.report() for p in problems]
