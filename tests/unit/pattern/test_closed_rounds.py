"""A slip stitch behind all else of a round joins it where the words name no place for it, and is a stitch where they do."""

import pytest
from hookfold.charts.pattern.tree import Act, Chain, Make, Noun, Place
from hookfold.charts.pattern.written.beginnings import closed

SC = Make("sc", 12)


@pytest.mark.parametrize("places", [(), (Place("next", Noun("st"), count=1),)])
def test_without_a_place_it_joins_with_a_chain_behind_it_or_none(places):
    slip = Make("sl st", 1, places)
    assert closed((SC, slip)) == (SC, Act("join"))
    assert closed((SC, slip, Chain(1))) == (SC, Act("join"), Chain(1))


@pytest.mark.parametrize("slip", [
    Make("sl st", 1, (Place("last", Noun("st"), count=1),)), Make("sl st", 1, (Place("next", Noun("ch"), count=1),)),
    Make("sl st", 1, (Place("next", Noun("st"), count=2),)), Make("sl st", 2), Make("sc", 1),
    Make("sl st", 1, (Place("next", Noun("st"), count=1), Place("next", Noun("st"), count=1))),
])  # fmt: skip
def test_with_a_place_or_several_it_is_a_stitch(slip):
    assert closed((SC, slip)) == (SC, slip)


def test_alone_it_is_a_stitch():
    assert closed((Make("sl st", 1),)) == (Make("sl st", 1),)
