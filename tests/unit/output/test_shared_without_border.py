"""A picture that leaves out the rounds about a piece says so."""

import pytest
from hookfold.charts.output.drawn import text_images
from hookfold.charts.output.export import cairo_here
from hookfold.charts.setting import Setting

SWATCH = (
    "Terms: US\nCh 7.\nRow 1 (RS): Sc in 2nd ch from hook and in each ch across. (6 sc)\n"
    "Row 2: Ch 1, turn. Sc in each st across. (6 sc)\n"
)
ROUND = "Rnd 3: Ch 1, turn. Work 20 sc evenly around, join with sl st in first sc. (20 sc)\n"


@pytest.mark.skipif(not cairo_here(), reason="no cairo library")
@pytest.mark.parametrize(("text", "says"), [(SWATCH, False), (SWATCH + ROUND, True)], ids=["plain", "bordered"])
def test_a_shared_picture_without_its_border_says_so(text, says):
    told = text_images(text, "a.txt", Setting())["share-square.txt"].decode("utf-8")
    assert ("the piece without the rounds about its edge" in told) is says
    assert ("the whole piece" in told) is not says
