"""Colours that change within a row: each stitch in the colour its words give it, its V with it."""

import numpy as np
import pytest
from hookfold.charts.model.rows.work import work_text
from hookfold.charts.output.images.fabric import cloth_of_written
from hookfold.charts.picture.parts import skein_of
from hookfold.charts.picture.views import Look, flat_view

BLOCK = """Terms: US
Ch 13.
Row 1 (RS): With A, sc in 2nd ch from hook and in each ch across. (12 sc)
Row 2: Ch 1, turn, {words} (12 sc)
Row 3: Ch 1, turn, sc in each sc across. (12 sc)
"""


@pytest.mark.parametrize(("words", "colours"), [
    ("with A, sc in first 4 sc, with B, sc in next 4 sc, with A, sc in last 4 sc.", "AAAABBBBAAAA"),
    ("sc in first 4 sc, change to B, sc in next 4 sc, change to A, sc in last 4 sc.", "AAAABBBBAAAA"),
    ("sc in first 4 sc changing to B in last st, sc in next 8 sc.", "AAAABBBBBBBB"),
    ("*with A, sc in next 2 sc, with B, sc in next 2 sc; rep from * across.", "AABBAABBAABB"),
    ("sc in each sc across, changing to B in last st.", "AAAAAAAAAAAA"),
])
def test_each_stitch_has_the_colour_its_words_give_it(words, colours):
    cloth, _ = cloth_of_written(work_text(BLOCK.format(words=words)).fabric)
    assert "".join(s.colour for s in cloth.stitches if s.row == 1 and s.spot.role == "stitch") == colours
    assert {s.colour for s in cloth.stitches if s.row == 0} == {"A"}


def test_the_next_row_goes_on_in_the_last_colour():
    words = "sc in first 4 sc, change to B, sc in last 8 sc."
    cloth, _ = cloth_of_written(work_text(BLOCK.format(words=words)).fabric)
    assert {s.colour for s in cloth.stitches if s.row == 2} == {"B"}


def test_the_picture_shows_both_yarns_where_the_stitches_are():
    """The middle of row 2 is of the second yarn, and what is beside it of the first."""
    words = "with A, sc in first 4 sc, with B, sc in next 4 sc, with A, sc in last 4 sc."
    cloth, yarns = cloth_of_written(work_text(BLOCK.format(words=words)).fabric)
    drawn = flat_view(cloth, yarns, Look(width_px=260))
    second = [at for at, s in enumerate(cloth.stitches) if s.colour == "B"]
    first = [at for at, s in enumerate(cloth.stitches) if s.colour == "A" and s.row == 1 and s.spot.role == "stitch"]
    ours, others = (drawn.image[np.isin(drawn.stitches, part)].mean(axis=0) for part in (second, first))
    assert list(yarns) == ["A", "B"] and len(second) == 4
    assert abs(ours - others).max() > 40


def test_the_last_loop_of_the_stitch_before_takes_the_new_colour():
    """The V over the first stitch in the new colour is the loop that finished the one before it."""
    words = "with A, sc in first 4 sc, with B, sc in last 8 sc."
    cloth, yarns = cloth_of_written(work_text(BLOCK.format(words=words)).fabric)
    row = [at for at, s in enumerate(cloth.stitches) if s.row == 1 and s.spot.role == "stitch"]
    before, at = row[3], row[4]
    bundles = list(skein_of(cloth, {key: k for k, key in enumerate(yarns)}).bundles())
    new = np.concatenate([b.points[b.colour == 1].reshape(-1, 3) for b in bundles])
    near = np.abs(new[:, :2] - np.array(cloth.stitches[before].head)).max(axis=1) < 0.35
    assert near.any() and cloth.stitches[at].back == cloth.stitches[before].head
