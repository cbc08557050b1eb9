"""Names taken apart by rule, in both terms."""

import pytest
from hookfold.symbols import heights, known, stitch
from hookfold.symbols.dictionary import PREFIXES, SHAPES

#: US -> UK. Common practice, printed in every bilingual book, no single source; qtr from memory.
TERMS = {
    "sl st": "ss", "sc": "dc", "hdc": "htr", "dc": "tr", "tr": "dtr", "dtr": "trtr", "trtr": "qtr",
    "dc2tog": "tr2tog", "sc2tog": "dc2tog", "FPdc": "FPtr", "BPtr": "BPdtr", "edc": "etr", "esc": "edc",
    "fsc": "fdc", "rsc": "rdc", "dc-cluster-3": "tr-cluster-3",
}  # fmt: skip


@pytest.mark.parametrize(("us", "uk"), TERMS.items())
def test_both_terms_of_a_stitch(us: str, uk: str) -> None:
    assert stitch(us).uk == uk


@pytest.mark.parametrize("prefix", PREFIXES)
@pytest.mark.parametrize("base", [k for k in heights() if k != "sl st"])
def test_every_height_has_every_form(prefix: str, base: str) -> None:
    made = stitch(prefix + base)
    form, words = PREFIXES[prefix]
    assert (made.form, made.base, made.makes) == (form, base, 1)
    assert made.us_name == f"{words} {heights()[base].us_name}"
    assert made.uk == prefix + heights()[base].uk


def test_a_plain_name_is_never_taken_apart() -> None:
    assert all(stitch(name).form == "plain" for name in heights())


@pytest.mark.parametrize("legs", [2, 3, 5, 12])
def test_stitches_worked_together_take_their_legs_and_make_one(legs: int) -> None:
    made = stitch(f"hdc{legs}tog")
    assert (made.takes, made.makes, made.legs, made.form) == (legs, 1, legs, "together")
    assert made.us_name == f"half double crochet {legs} together"
    assert made.uk_name == f"half treble {legs} together"


@pytest.mark.parametrize("shape", SHAPES)
def test_gathered_stitches_take_one_and_make_one(shape: str) -> None:
    made = stitch(f"tr-{shape}-4")
    assert (made.takes, made.makes, made.legs, made.shape, made.form) == (1, 1, 4, shape, "gathered")
    assert made.yarn == pytest.approx(4 * stitch("tr").yarn)


def test_post_stitches_can_be_worked_together() -> None:
    made = stitch("FPdc2tog")
    assert (made.form, made.legs, made.takes, made.uk) == ("front post", 2, 2, "FPtr2tog")


def test_foundation_stitches_take_nothing() -> None:
    assert stitch("fsc").takes == 0


@pytest.mark.parametrize("name", ["", "bobble", "xdc", "dc1tog", "dc0tog", "esl st", "dc-cluster-1", "DC"])
def test_other_names_are_not_stitches(name: str) -> None:
    assert not known(name)
    with pytest.raises(KeyError, match="not a stitch"):
        stitch(name)


def test_turning_chains_are_one_two_three_four_five() -> None:
    """PG 26113 (1918) for sc to dtr."""
    assert [heights()[k].turning for k in ("sc", "hdc", "dc", "tr", "dtr")] == [1, 2, 3, 4, 5]
