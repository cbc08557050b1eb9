"""Names and sentences of the user's own stay text on Markdown pages, whatever signs they hold (CommonMark 0.31)."""

import re

import pytest
from hookfold.charts import engrave
from hookfold.charts.drawing.plain import markdown
from hookfold.charts.setting import Setting

NASTY = "<script>alert(1)</script> | [here](http://x.example) `x` &lt;"


def pattern():
    said = NASTY.replace('"', "'")
    return f"""
title = "{said}"
author = "{said}"
licence = "{said}"
yarn = {{ category = 3, fibre = "{said}" }}
[gauge]
stitches = 20
rows = 16
over = "10 cm"
[object]
kind = "panel"
width = "20 cm"
height = "30 cm"
chain_along = "width"
[colours]
A = {{ name = "{said}", hex = "#55713f" }}
[[section]]
name = "{said}"
length = "height"
colour = "A"
work = "Row 1: Ch 2, turn. Hdc in each st across."
"""


@pytest.mark.parametrize("page", ["instructions", "yarn"])
def test_nothing_of_the_users_begins_a_tag_a_link_or_a_cell(page):
    text = pattern()
    made = engrave.instructions(text, "p.toml", Setting()) if page == "instructions" else engrave.yarn(text, "p.toml")
    assert "script" in made
    assert not re.search(r"(?<!\\)<", made) and not re.search(r"(?<!\\)\]\(", made) and "`" not in made.replace("\\`", "")
    for line in made.split("\n"):
        if line.startswith("|"):
            assert len(re.findall(r"(?<!\\)\|", line)) in (3, 6)


@pytest.mark.parametrize("plain", ["Row 3: *sc in next st; rep from * across.", "5 mm, 20 sts", 'ch-2 sp ("lace")', "[gauge] gives no rows"])
def test_what_a_page_shows_as_it_stands_is_left_alone(plain):
    assert markdown(plain) == plain
