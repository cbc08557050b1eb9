"""Rounds of crab stitch go the other way: their arrow, and a sentence, say so for either hand.

Source: that reverse single crochet is worked from left to right by a right-hander is common practice, no source.
"""

import pytest
from hookfold.charts.layout.chart.condense import fold_rows
from hookfold.charts.layout.chart.round_words import round_sentences
from hookfold.charts.layout.rounds.lay import lay_rounds
from hookfold.charts.model.rows.work import work_text

TEXT = """Terms: US
Make a magic ring.
Rnd 1: Ch 1, 8 sc in ring, join with sl st in first sc.
Rnd 2: Ch 1, 2 sc in each sc around, join with sl st in first sc.
Rnd 3: Ch 1, {} in each sc around, join with sl st in first st.
"""


@pytest.mark.parametrize(("hand", "way"), [("right", "clockwise"), ("left", "counter-clockwise")])
def test_the_arrow_and_the_words_turn(hand, way):
    laid = {kind: lay_rounds(work_text(TEXT.format(kind)).fabric, hand) for kind in ("sc", "reverse sc")}
    (a, b), (x, y) = (laid[kind].rings[2].tries[0].along for kind in ("sc", "reverse sc"))
    assert a * x + b * y < -0.98
    folded = fold_rows(work_text(TEXT.format("reverse sc")).fabric)
    said = round_sentences(laid["reverse sc"], folded, hand, "US", counts=False, counted=frozenset())
    assert f"Round 3 is worked backwards: go {way} there." in said
