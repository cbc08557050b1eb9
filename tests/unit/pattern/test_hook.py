"""Legs and heights of stitches told by the moves of the hook, each counted by hand."""

import pytest
from hookfold.charts.model.rows.work import work_text
from hookfold.charts.pattern.hook import MOST_LEGS, Legs, read_legs

US = [
    ("a long dc", "Yo, insert hook in st 2 rows below, yo, pull up a loop, [yo, draw through 2 loops] twice.", 1, "dc"),
    ("a tr", "Yo twice, insert hook in st, yo and pull up a loop, [yo and draw through 2 loops] 3 times.", 1, "tr"),
    ("a tr, unbracketed", "Yo 2 times, insert hook, pull up a loop, yo, draw through 2 loops 3 times.", 1, "tr"),
    ("a dtr", "Yo 3 times, insert hook in st, pull up a loop, (yo, draw through 2 loops) 4 times.", 1, "dtr"),
    ("a trtr", "Yo four times, insert hook in st, pull up a loop, (yo, draw through 2 loops) 5 times.", 1, "trtr"),
    ("a hdc", "Yo, insert hook in st, yo and pull up a loop, yo and draw through all 3 loops on hook.", 1, "hdc"),
    ("a spike", "Insert hook in st 2 rows below, yo, pull up a long loop, yo, draw through both loops.", 1, "sc"),
    ("a long hdc", "Yo, insert hook in st 3 rows below, pull up a loop, yo, draw through all 3 loops.", 1, "hdc"),
    ("a post dc", "Yo, insert hook from back to front around post of next dc, yo, pull up a loop, [yo, draw through 2 loops] twice.", 1, "dc"),
    ("a dc cluster", "[Yo, insert hook in sp, yo, pull up a loop, yo, draw through 2 loops] 3 times, yo, draw through all 4 loops.", 3, "dc"),
    ("two legs", "[Yo, insert hook in st, pull up a loop, yo, draw through 2 loops] twice, yo, draw through 3 loops.", 2, "dc"),
    ("a tr cluster", "[Yo twice, insert hook in st, pull up a loop, (yo, draw through 2 loops) twice] 3 times, yo, draw through all 4 loops.", 3, "tr"),
    ("two tall legs", "(Yo 3 times, insert hook in st, pull up a loop, [yo, draw through 2 loops] 3 times) twice, yo, draw through all.", 2, "dtr"),
    ("a puff", "[Yo, insert hook in st, yo and pull up a loop] 4 times in same st, yo, draw through all 9 loops.", 4, "hdc"),
    ("a puff in words", "(Yo, insert hook in same sc, pull up a loop) in same sc three times, yo, draw through 7 loops.", 3, "hdc"),
    ("a puff, unbracketed", "Yo, insert hook in st, pull up a loop 3 times, yo, draw through all loops.", 3, "hdc"),
    ("legs one by one", "Yo, insert hook in st, pull up a loop, yo, insert hook in same st, pull up a loop, yo, draw through 5 loops.", 2, "hdc"),
    ("from a star", "*Yo, insert hook in st, pull up a loop, yo, draw through 2 loops; rep from * 3 more times, yo, draw through all.", 4, "dc"),
    ("again", "Yo, insert hook in st, pull up a loop, yo, draw through 2 loops, rep twice more, yo, draw through all.", 3, "dc"),
    ("one, then more", "Yo, insert hook in st, pull up a loop, [yo, insert hook in same st, pull up a loop] 2 more times, yo, draw through all.", 3, "hdc"),
    ("without inserting", "[Yo, pull up a loop in st] 3 times, yo and draw through all 7 loops.", 3, "hdc"),
    ("worked behind", "Insert hook in next st, pull up a loop, yo, draw through 2 loops, insert hook again to begin the next.", 1, "sc"),
    ("a popcorn", "5 dc in st, drop loop from hook, insert hook in first of these 5 dc, pull dropped loop through.", 5, "dc"),
    ("a popcorn, one by one", "[Dc in st] 4 times, remove hook, insert hook in first dc and pull up loop.", 4, "dc"),
    ("held back", "Holding back last loop of each, 3 tr in st, yo, draw through all 4 loops.", 3, "tr"),
    ("passed", "Sk next 2 sc, yo, insert hook in next 3 sc, pull up a loop, [yo, draw through 2 loops] 2 times.", 1, "dc"),
]  # fmt: skip


@pytest.mark.parametrize(("words", "legs", "base"), [pytest.param(*row[1:], id=row[0]) for row in US])
def test_legs_are_counted_by_where_the_hook_goes_in(words, legs, base):
    assert read_legs(words.lower(), "US") == Legs(legs, base)


def test_the_other_terms():
    words = "yrh, insert hook in st, yrh and pull loop through, (yrh and pull through 2 loops) twice"
    assert read_legs(words, "UK") == Legs(1, "dc")
    assert read_legs("leaving last loop of each on hook, 4 tr in st, yrh and pull through all", "UK") == Legs(4, "dc")


def test_numbers_out_of_reach_are_kept_in_it():
    words = "[[yo, insert hook, pull up a loop] 99 times] 99 times, yo, draw through all"
    assert read_legs(words, "US") == Legs(MOST_LEGS, "hdc")
    assert read_legs("insert hook, pull up a loop 0 times, yo, draw through all", "US") == Legs(1, "sc")
    assert read_legs(") ] twice * rep from *", "US") == Legs(1, "sc")


def test_a_long_stitch_is_one_post_into_the_row_before_the_last():
    worked = work_text(
        "Terms: US\n"
        "Tall stem (tst): Yo, insert hook in st 2 rows below next st, yo and pull up a loop, "
        "[yo and draw through 2 loops] twice. Sk st behind tst.\n"
        "Ch 8.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (7 sc)\n"
        "Row 2: Ch 1, sc in each sc across, turn. (7 sc)\n"
        "Row 3: Ch 1, sc in first 2 sc, *tst, sc in next 2 sc; rep from * to last 2 sts, tst, sc in last st. (4 sc, 3 tst)\n"
    )
    stems = [s for s in worked.fabric.rows[-1].row.stitches if s.kind == "tst"]
    assert {(s.legs, s.base, s.feet[0].back) for s in stems} == {(1, "dc", 2)}
