"""How difficult a piece is, from its stitches: what is named in it, and the level by how many such things it has."""

from dataclasses import replace

import pytest
from hookfold.charts.model.rows.work import work_text
from hookfold.charts.output.booklet.level import level_of

PLAIN = "Terms: US\nCh 13.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (12 sc)\n"
THINGS = {
    "counts that change from row to row": PLAIN + "Row 2: Ch 1, 2 sc in first sc, sc in each sc across. (13 sc)\n",
    "chains between stitches":
        PLAIN + "Row 2: Ch 1, sc in first sc, *ch 1, sk 1 sc, sc in next sc; rep from * to last sc, sc in last sc.\n",
    "single loops": PLAIN + "Row 2: Ch 1, sc in back loop of each sc across.\n",
    "stitches worked together in one place":
        PLAIN + "Row 2: Ch 1, sc in first sc, *dc4tog in next sc, sc in next sc; rep from * to last sc, sc in last sc.\n",
    "stitches round the post":
        "Terms: US\nCh 8.\nRow 1: Dc in 4th ch from hook and in each ch across, turn. (6 dc)\n"
        "Row 2: Ch 3 (counts as dc), FPdc around each of next 4 dc, dc in last dc. (6 sts)\n",
}


def found(text):
    worked = work_text(text)
    assert not worked.problems, [p.report() for p in worked.problems]
    return level_of(worked.fabric)


@pytest.mark.parametrize(
    ("text", "level"),
    [
        # Increases in pairs are the shaping and nothing beside it; a group is one more thing.
        ("Terms: US\nMake a magic ring.\nRnd 1: 6 sc in ring. (6 sc)\nRnd 2: 2 sc in each st around. (12 sc)\n", "easy"),
        # Groups and chains of one stitch alone are easy, of several are lace.
        (PLAIN + "Row 2: Ch 3 (counts as dc), sk 2 sc, (2 dc, ch 1, 2 dc) in next sc, sk 2 sc, dc in each of last 6 sc. (11 dc)\n",
         "easy"),
        (PLAIN + "Row 2: Ch 3 (counts as dc), sk 2 sc, (2 dc, ch 1, 2 dc) in next sc, sk 2 sc, sc in each of last 6 sc. (5 dc, 6 sc)\n",
         "intermediate"),
    ],
)
def test_the_level_is_that_of_what_is_in_it(text, level):
    assert found(text)[0] == level


def test_a_counted_border_through_layers_makes_a_plain_piece_more_than_basic():
    fabric = work_text(PLAIN).fabric
    assert level_of(fabric, joined=True) == ("easy", ("a counted border that joins the layers",))
    two = tuple(replace(row, colour=colour) for row, colour in zip(fabric.rows * 2, "AB", strict=True))
    assert level_of(replace(fabric, rows=two), joined=True)[0] == "intermediate"


def test_plain_rows_are_basic():
    assert found(PLAIN) == ("basic", ())


@pytest.mark.parametrize("name", THINGS)
def test_each_thing_is_named_where_it_is_and_makes_a_piece_easy(name):
    level, why = found(THINGS[name])
    assert name in why and level == ("easy" if len(why) <= 2 else "intermediate")
    assert name not in found(PLAIN)[1]


@pytest.mark.parametrize(("colours", "named"), [(["A", "A"], False), (["A", "B"], True)])
def test_two_colours_are_a_change_and_one_is_none(colours, named):
    fabric = work_text(PLAIN + "Row 2: Ch 1, sc in each sc across. (12 sc)\n").fabric
    rows = tuple(replace(row, colour=colour) for row, colour in zip(fabric.rows, colours, strict=True))
    assert ("colour changes" in level_of(replace(fabric, rows=rows))[1]) == named


@pytest.mark.parametrize(("pieces", "level"), [(1, "basic"), (2, "easy")])
def test_several_pieces_are_one_such_thing(pieces, level):
    assert level_of(work_text(PLAIN).fabric, pieces=pieces)[0] == level
