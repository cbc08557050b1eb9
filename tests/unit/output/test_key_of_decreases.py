"""The key names an invisible decrease, whose sign is that of any other."""

import pytest
from hookfold.charts.drawing.display import Group, Text
from hookfold.charts.output.drawn import written_chart
from hookfold.charts.output.written import worked_text
from hookfold.charts.setting import Setting

BALL = """Rnd 1: 6 sc in magic ring. (6)
Rnd 2: Inc in each st around. (12)
Rnd 3: Sc in each st around. (12)
Rnd 4: {dec} 6 times. (6)
"""


def said(items):
    for item in items:
        if isinstance(item, Group):
            yield from said(item.items)
        elif isinstance(item, Text):
            yield item.text


@pytest.mark.parametrize("dec, named", [("Invdec", True), ("Inv dec", True), ("Sc2tog", False), ("Dec", False)])
def test_the_key_says_that_a_decrease_is_invisible(dec, named):
    (sheet,) = written_chart(worked_text(BALL.format(dec=dec), "ball.txt"), "Ball", Setting()).sheets
    text = " ".join(said(sheet.items))
    assert "single crochet 2 together" in text
    assert ("invdec in the rows: an invisible decrease" in text) is named
