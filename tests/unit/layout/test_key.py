"""The key: each glyph once, in order, in the reader's terms."""

import cloth
from hookfold.charts.layout.fabric import lay_fabric
from hookfold.charts.layout.key import entries, key_block


def spots(fabric):
    laid = lay_fabric(fabric)
    return [s for c in laid.courses for s in c.laid.spots] + list(laid.foundation.spots)


def test_low_stitches_come_first_and_each_once():
    made = entries(spots(cloth.shells(2, 3)), "US", {})
    assert [(e.short, e.name) for e in made] == [
        ("ch", "chain"),
        ("sc", "single crochet"),
        ("dc", "double crochet"),
    ]


def test_the_other_terms():
    made = entries(spots(cloth.ripple(1, 2)), "UK", {})
    assert [e.short for e in made] == ["ch", "tr", "tr2tog"]


def test_special_stitches_have_their_words():
    made = entries(spots(cloth.bobbles(2, 3)), "US", {"bobble": "5 dc worked together in one st"})
    assert made[-1].short == "bobble" and made[-1].words == "5 dc worked together in one st"


def test_a_loop_is_named():
    hook = cloth.Hook(cloth.foundation(4)).do("sc", 4, hold="back loop")
    made = entries(spots(cloth.fabric(4, [hook.row()])), "US", {})
    assert made[-1].short == "BLO sc" and "back loop only" in made[-1].name


def test_columns_fill_the_width():
    made = entries(spots(cloth.bobbles(2, 3)), "US", {"bobble": "word " * 60})
    wide, narrow = key_block(made, 0.0, 0.0, 180.0), key_block(made, 0.0, 0.0, 60.0)
    assert wide.height < narrow.height
    assert len(wide.items) == len(made)
