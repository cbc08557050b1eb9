"""Rows that do not add up, drawn."""

import cloth
import svg_ruler
from hookfold.charts.drawing.svg import write
from hookfold.charts.layout.sheets.mistake import Mistake, mistake_sheet, said_of
from hookfold.charts.model.cloth.fabric import Row

BASE = cloth.each("sc", 13, 2, 1, False).rows[1].row


def test_what_is_left_over_is_ringed_and_counted():
    hook = cloth.Hook(BASE).start(1).do("sc", 3).one("dc", "dc").do("sc", 4)
    sheet = mistake_sheet(Mistake(BASE, tuple(hook.made), left=tuple(hook.items)))
    read = svg_ruler.read(write(sheet))
    assert said_of(Mistake(BASE, (), left=tuple(hook.items))) == "5 stitches of the row below are left over."
    assert {"5 left over"} <= {words for words, _ in read.texts}
    assert read.groups["left-over"][0] == "5 left over"
    assert svg_ruler.outside(read, 1.0) == []


def test_what_is_missing_is_framed():
    hook = cloth.Hook(BASE).start(1).do("sc", 13)
    sheet = mistake_sheet(Mistake(BASE, tuple(hook.made), missing=("sc", "dc")), mono=True)
    read = svg_ruler.read(write(sheet))
    assert sum(1 for words, _ in read.texts if words == "?") >= 2
    assert "The row below runs out 2 stitches too early." in {words for words, _ in read.texts}
    assert svg_ruler.outside(read, 1.0) == []


def test_rightward_rows_and_foundations_are_drawn_too():
    base = cloth.foundation(8)
    hook = cloth.Hook(base).do("hdc", 5)
    sheet = mistake_sheet(Mistake(base, tuple(hook.made), left=tuple(hook.items), leftward=False))
    assert svg_ruler.outside(svg_ruler.read(write(sheet)), 1.0) == []


def test_nothing_made_yet():
    assert mistake_sheet(Mistake(BASE, (), left=(1, 2))).width >= 60.0
    assert said_of(Mistake(Row(()), ())) == "The row adds up."
