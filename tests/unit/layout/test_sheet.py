"""The page frame: paper, margins, header and footer."""

import pytest
import svg_ruler
from hookfold.charts.drawing.svg import write
from hookfold.charts.layout.sheets.page import finish, page
from hookfold.charts.setting import Heading, Setting

LONG = Heading(
    "A very long title for a very small cover that goes on and on until it no longer fits on a single line of type "
    "and would run into the name of the sheet if nothing stopped it in good time",
    "Ada Loopwell and everyone who ever held a hook for her while the kettle boiled on the stove behind the house",
    "CC BY-SA 4.0, with a long remark on what may and may not be done with it in public and in private",
    "250 × 385 mm flat, 250 × 190 mm folded",
    "17 half double crochet and 14 rows = 10 × 10 cm, worked in the body's own stitch",
    "4 mm (G-6)",
)


def sheet_of(heading, setting, orientation="portrait"):
    frame = page(heading, setting, name="Stitch chart", orientation=orientation)
    return frame, svg_ruler.read(write(finish(frame, heading, [], number=2, of=13, scale="1 stitch = 5 mm")))


@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("orientation", ["portrait", "landscape"])
@pytest.mark.parametrize("heading", [LONG, Heading("Mat"), Heading("")], ids=["long", "short", "none"])
def test_nothing_leaves_the_margins_and_no_words_touch(paper, orientation, heading):
    frame, sheet = sheet_of(heading, Setting(paper=paper), orientation)
    assert svg_ruler.outside(sheet) == []
    assert svg_ruler.text_over_glyphs(sheet) == []
    assert frame.landscape == (orientation == "landscape")
    assert frame.content[0] == 12.0 and frame.content[2] == frame.width - 12.0
    assert frame.content_height > 120.0


def test_the_papers_are_their_own_size():
    """A4: ISO 216, 210 x 297 mm. Letter: 8.5 x 11 in = 215.9 x 279.4 mm."""
    assert sheet_of(LONG, Setting())[1].width == 210.0
    letter = sheet_of(LONG, Setting(paper="Letter"))[1]
    assert (letter.width, letter.height) == (215.9, 279.4)


def test_header_and_footer_say_what_is_known():
    _, sheet = sheet_of(Heading("Mat", "Ada", "CC0", hook="4 mm"), Setting(terms="UK"))
    words = [text for text, _ in sheet.texts]
    assert {"Mat", "Ada", "CC0", "4 mm", "UK", "Sheet 2 of 13", "1 stitch = 5 mm"} <= set(words)
    assert "Tension" not in words and "Finished size" not in words


def test_a_setting_that_does_not_exist_is_refused():
    with pytest.raises(ValueError, match="paper is one of A4, Letter"):
        Setting(paper="A3")  # type: ignore[arg-type]
