"""The measuring sheet: every measurement a kind needs has a picture, a sentence and a blank under its own key."""

import pytest
from hookfold.charts.drawing.svg import write
from hookfold.charts.layout.sheets.measuring import measures, measuring_document
from hookfold.charts.pattern.file.kinds import OBJECT_KINDS, needed
from hookfold.charts.setting import Heading, Setting
from sheet_boxes import colliding, outside, words_on


@pytest.mark.parametrize("kind", sorted(OBJECT_KINDS))
def test_every_needed_measurement_has_a_blank(kind):
    keys = [m.key for m in measures(kind)]
    assert set(needed(kind, ())) | set(OBJECT_KINDS[kind].extras) <= set(keys)
    drawn = [w.text for s in measuring_document(kind, Heading("Cover"), Setting()).sheets for w in words_on(s)]
    assert set(keys) <= set(drawn)


@pytest.mark.parametrize("kind", sorted(OBJECT_KINDS))
@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_nothing_touches_and_nothing_leaves_the_page(kind, paper):
    for sheet in measuring_document(kind, Heading("Cover", "Ada Loom"), Setting(paper=paper, unit="in")).sheets:
        assert colliding(sheet) == []
        assert outside(sheet) == []
        assert write(sheet)


@pytest.mark.parametrize("kind", ["wrist warmer", "mug cosy", "headband"])
def test_what_is_measured_round_bears_its_own_name_in_its_picture(kind):
    """A second way round under the first one's name would be written into the wrong blank."""
    drawn = [w.text for s in measuring_document(kind, Heading("Tube"), Setting()).sheets for w in words_on(s)]
    for key in ("around", "hand"):
        blanks = [text for text in drawn if text == key]
        wanted = OBJECT_KINDS[kind].measure(key) is not None
        assert len(blanks) == (2 if wanted else 0), "once in the picture and once beside its blank"
