"""Which stitches stand out, and what makes a row's height."""

import pytest
from hookfold.charts.model.cloth.fabric import Foot, Row, Stitch
from hookfold.charts.model.sizing.raised import height_kind, raised_name, raised_row, row_kind, stands_out
from hookfold.charts.model.sizing.row_heights import relative_height

SC = [Stitch("sc", (Foot(i),)) for i in range(6)]


@pytest.mark.parametrize("kind", ["bobble", "bo", "puff", "popcorn", "pc", "cluster", "dc-cluster-3", "cl"])
def test_raised(kind):
    assert raised_name(kind)


@pytest.mark.parametrize("kind", ["sc", "dc", "dc2tog", "dc5tog", "FPdc", "BPtr", "shell", "block", "clove"])
def test_flat(kind):
    assert not raised_name(kind)


def test_by_its_words():
    assert raised_name("knot", "dc5tog in one st")
    assert not raised_name("gather", "dc2tog in one st")
    assert not raised_name("dec", "dc3tog over next 3 sts")


def test_by_its_legs():
    one_foot = Stitch("knob", (Foot(2),), legs=4)
    apart = Stitch("dc3tog", (Foot(1), Foot(2), Foot(3)), legs=3)
    post = Stitch("FPcluster", (Foot(2, hold="front post"),), legs=4)
    assert stands_out(one_foot) and not stands_out(apart) and not stands_out(post)


def test_rows():
    row = Row((*SC[:2], Stitch("bo", (Foot(2),), legs=4), *SC[3:]))
    assert raised_row(row) and not raised_row(Row(tuple(SC)))
    assert row_kind(row) == "sc"


def test_puffs_that_stand_close_make_their_row_taller():
    """Every second stitch a puff: midway between sc and hdc. One in four is held down by what stands between."""
    puffs = Row(tuple(Stitch("puff", (Foot(n),), legs=3) if n % 2 else SC[n] for n in range(len(SC))))
    assert row_kind(puffs) == "sc+hdc"
    assert relative_height("sc") < relative_height(row_kind(puffs)) < relative_height("hdc")
    assert row_kind(Row(tuple(Stitch("puff", (Foot(n),), legs=3) for n in range(4)))) == "hdc"


def test_height():
    assert height_kind(["sc", "hdc", "ch", "picot"]) == "hdc"
    assert height_kind([]) == "dc"
