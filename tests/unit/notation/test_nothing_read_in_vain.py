"""What of the grammar is not looked at, since words that it needs do not come any more, would not have been found."""

import pytest
from hookfold.charts.model.rows.work import work_text
from hookfold.charts.pattern.notation import engine, row_reader, stated
from hookfold.charts.pattern.notation.words import Word
from hookfold.charts.pattern.written.document import read_written
from notation_cases import table

TEXTS = [entry["text"].lstrip("\n") for key in ("pattern", "fault") for entry in table(key)]
PAGE = """
a | 0 | X? n=b LAST   | both
a | 1 | X n=b Y?      | both
b | 0 | X             | one
b | 0 | X n=b         | one
b | 0 | X m=a FAR/OFF | one
"""


class Everything(engine.Chart):
    """A chart that looks at everything, as if every kind of word always came."""

    def __init__(self, *made):
        super().__init__(*made)
        self.ahead = [-1] * len(self.ahead)


def _chart(kind, said):
    words = [Word(text, at, at + 1, {text: [(at + 1, text)]}) for at, text in enumerate(said.split())]
    meanings = {"both": lambda **kept: ("both", kept), "one": lambda **kept: ("one", kept)}
    return kind(engine.parse_page(PAGE), words, meanings)


@pytest.mark.parametrize("said", ["X X X", "X X LAST", "X X X X LAST OFF", "X X Y X LAST", "X", "X FAR", "X X X X LAST FAR LAST"])
def test_names_that_hold_themselves_are_found_alike(said):
    some, every = _chart(engine.Chart, said), _chart(Everything, said)
    for at in range(len(said.split())):
        for name in "ab":
            assert some.read(name, at) == every.read(name, at), (name, at)


def test_what_needs_a_word_that_does_not_come_is_not_looked_at():
    chart = _chart(engine.Chart, "X X X")
    trees = chart.rules.trees
    (_, with_last), (_, with_y) = trees["a"].led_through
    assert trees.lacking([with_last], 0) == trees.mask(["LAST"]) and not trees.mask(["LAST"]) & chart.ahead[0]
    assert trees.lacking([with_y], 0) == trees.mask(["X"]) and trees.mask(["X"]) & chart.ahead[0]
    assert trees.lacking([with_y], 2) == engine.NOTHING_LACKING == chart.ahead[3]


def test_pages_are_read_alike(monkeypatch):
    """Every fifteenth text that is counted by hand."""
    some = [repr(read_written(text)) for text in TEXTS[::15]]
    for module in (row_reader, stated):
        monkeypatch.setattr(module, "Chart", Everything)
    assert [repr(read_written(text)) for text in TEXTS[::15]] == some


@pytest.mark.parametrize("stitches", ["sc, ", "sc ", "sc, dc, "])
@pytest.mark.parametrize("times", [engine.MOST_INSIDE - 1, engine.MOST_INSIDE, 300])
def test_hundreds_of_stitches_told_one_by_one_are_all_worked(stitches, times):
    """They are one list, which is read inside itself for each of its stitches."""
    made = times * stitches.count("c")
    below = f"Terms: US\nCh {made + 1}.\nRow 1: Sc in 2nd ch from hook and in each ch across. ({made} sc)\n"
    worked = work_text(f"{below}Row 2: Ch 1, turn, {stitches * times}turn.\n")
    assert [p.report() for p in worked.problems] == [] and worked.fabric.rows[-1].row.made == made
    assert work_text(f"{below}Row 2: Ch 1, turn, {stitches * (times + 1)}turn.\n").problems != []
