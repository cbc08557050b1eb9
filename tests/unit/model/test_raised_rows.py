"""Which stitches stand out, and what makes a row's height."""

import pytest
from hookfold.charts.model.cloth.fabric import Foot, Row, Stitch
from hookfold.charts.model.sizing.raised import height_kind, raised_name, raised_row, row_kind, stands_out

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


def test_height():
    assert height_kind(["sc", "hdc", "ch", "picot"]) == "hdc"
    assert height_kind([]) == "dc"
