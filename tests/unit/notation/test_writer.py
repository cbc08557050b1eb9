"""The writer's words: as the trade writes them, in both terms."""

import pytest
from hookfold.charts.pattern.tree import Chain, Into, Make, Noun, Place, Star
from hookfold.charts.pattern.writer import write_op, write_ops, write_pattern
from hookfold.charts.pattern.written.document import read_written

SHELL = Into((Make("dc", 2), Chain(1), Make("dc", 2)), (Place("next", Noun("sp", 2)),))


@pytest.mark.parametrize(
    ("op", "us", "uk"),
    [
        (Make("sc", 1, (Place("each"),)), "sc in each st across", "dc in each st across"),
        (Make("dc", 2, (Place("next", Noun("hdc")),)), "2 dc in next hdc", "2 tr in next htr"),
        (Make("FPdc", 1, (Place("next", Noun("dc")),)), "FPdc around next dc", "FPtr around next tr"),
        (
            Make("dc2tog", 1, (Place("next", Noun("st"), 2),)),
            "dc2tog over next 2 sts",
            "tr2tog over next 2 sts",
        ),
        (Chain(3, ("dc",)), "ch 3 (counts as dc)", "ch 3 (counts as tr)"),
        (SHELL, "(2 dc, ch 1, 2 dc) in next ch-2 sp", "(2 tr, ch 1, 2 tr) in next ch-2 sp"),
        (
            Star((Make("sc"), Chain(2)), 3),
            "*sc, ch 2; rep from * 3 more times",
            "*dc, ch 2; rep from * 3 more times",
        ),
        (
            Star((Make("sc"),), until=(3, Noun("st"))),
            "*sc; rep from * to last 3 sts",
            "*dc; rep from * to last 3 sts",
        ),
    ],
)
def test_words_of_an_op(op, us, uk):
    assert write_op(op, "US") == us
    assert write_op(op, "UK") == uk


def test_a_sentence_begins_with_a_capital_and_stops_after_turn():
    ops = read_written("Terms: US\nRow 1: Ch 1, turn. Sc in each st across.").pattern.rows[0].ops
    assert write_ops(ops, "US") == "Ch 1, turn. Sc in each st across."


def test_a_pattern_changes_terms_and_comes_back():
    text = "Terms: US\nBobble (bo): dc4tog in one st.\nCh 12.\nRow 1: Hdc in 3rd ch from hook and in each ch across.\n"
    text += "Row 2: Ch 1, turn. Sc in first 2 sts, *bo in next st, sc in next st; rep from * across. (6 sc, 4 bo)\n"
    first = read_written(text)
    in_uk = write_pattern(first.pattern, "UK")
    assert "htr in 3rd ch" in in_uk.lower() and "tr4tog in one st" in in_uk
    back = read_written(in_uk)
    assert not back.problems
    assert [r.ops for r in back.pattern.rows] == [r.ops for r in first.pattern.rows]
    assert [(s.count, s.noun) for s in back.pattern.rows[1].stated] == [(6, Noun("sc")), (4, Noun("bo"))]
