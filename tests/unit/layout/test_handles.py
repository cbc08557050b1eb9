"""A bag's handles on its folding sheet and in its paper, by sums that share nothing with the drawing."""

import math
import re
from itertools import pairwise
from pathlib import Path

import pytest
from hookfold.charts import engrave
from hookfold.charts.engrave import work_file
from hookfold.charts.layout.assembly.handles import handle_paper, handle_way
from hookfold.charts.output.drawn import piece_template
from hookfold.charts.setting import Setting

BAG = (Path(__file__).parents[3] / "gallery/more/allotment-bag/pattern.toml").read_text("utf-8")
NONE = BAG.replace('handle = "500 mm"\n', "")


def sheet(text):
    return engrave.assembly(text, "bag.toml", Setting(), ("svg",))["svg"].decode()


@pytest.mark.parametrize(("apart", "long"), [(150.0, 500.0), (150.0, 236.0), (178.0, 203.0), (100.0, 110.0)])
def test_a_handle_is_as_long_as_asked_between_its_ends(apart, long):
    way = handle_way(apart, long)
    assert sum(math.dist(a, b) for a, b in pairwise(way)) == pytest.approx(long, rel=0.002)
    assert math.dist(way[0], way[-1]) == pytest.approx(apart, abs=0.01)
    assert max(y for _, y in way) <= long / 2


def test_the_folding_sheet_shows_where_the_handles_sit():
    drawn = sheet(BAG)
    # Over all the bag is 299 mm wide: a quarter from each side leaves a half between, 75 + 149 + 75.
    assert "75 mm" in drawn and "149 mm" in drawn and "each 500 mm long" in drawn and "and 30 mm wide" in drawn
    assert "each 500 mm long" not in sheet(NONE)


def test_words_and_drawing_say_the_same_width():
    words = engrave.instructions(BAG, "bag.toml", Setting())
    assert "each 500 mm long between its seams and about 30 mm wide" in words and "a quarter of the width" in words and "two rows deep" in words
    assert "handle" not in engrave.instructions(NONE, "bag.toml", Setting()).split("## Finishing")[1]


def test_a_handle_without_room_for_a_hand_is_told_of_and_its_yarn_is_said_to_be_in_it():
    # 300 mm across: the ends lie 150 mm apart.
    notes = {long: engrave.check(BAG.replace("500 mm", long), "bag.toml").notes for long in ("200 mm", "500 mm")}
    told = {long: [note.says for note in found if note.where == "Handles"] for long, found in notes.items()}
    assert "150 mm apart" in told["200 mm"][0] and not told["500 mm"]
    assert re.search(r"yarn of the handles is in (it|that of [A-Z])\.", engrave.yarn(BAG, "bag.toml"))
    assert "handles" not in engrave.yarn(NONE, "bag.toml")


def test_the_paper_has_a_strip_as_large_as_a_handle():
    plans = [work_file(text, "bag.toml").plan for text in (BAG, NONE)]
    assert handle_paper(plans[1], (0.0, 0.0)) is None
    pages = [piece_template(work_file(text, "bag.toml"), Setting(), "worn").sheets for text in (BAG, NONE)]
    told = ["cut it twice" in str(sheets) for sheets in pages]
    assert told == [True, False]
    _, (left, top, right, foot) = handle_paper(plans[0], (10.0, 20.0))
    assert (right - left, foot - top) == (30.0, 500.0)
