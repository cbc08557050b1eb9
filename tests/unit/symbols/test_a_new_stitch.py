"""A stitch that the table does not have, as one entry of it: read, counted, sized, drawn, named and written."""

import json
import re

import pytest
from one_entry import copied, ran, value

ENTRY = """
[heights.mast]
us = "mast"
uk = "mst"
us_name = "mast crochet"
uk_name = "mast treble"
also_us = ["long mast"]
height = 4.9
turning = 7
yarn_overs = 5
yarn = 4.7
row_height = 5.2
row_end = "6"
"""
ROWS = "Ch 21.\nRow 1: Mast in 8th ch from hook and in each ch across. (15 mast)\n"
ROWS += "Row 2: Ch 7, turn, sk first st, *FPmast around next st, mast2tog over next 2 sts; rep from * 3 times more, "
ROWS += "long mast in next st, mast in top of beg ch. (11 sts)\n"
PIECE = """
title = "Net"
[gauge]
stitches = 10
rows = 10
over = "10 cm"
[object]
kind = "panel"
width = "20 cm"
height = "52 cm"
chain_along = "width"
[[section]]
name = "net"
length = "height"
work = "Row 1: Ch 7, turn. Mast in each st across."
gauge_rows = 2
[border]
stitch = "sc"
corner = 3
"""


@pytest.fixture(scope="module")
def said(tmp_path_factory):
    folder = copied(tmp_path_factory.mktemp("stitch"), "symbols/stitches.toml", ENTRY)
    (folder / "rows.txt").write_text(ROWS, "utf-8")
    (folder / "net.toml").write_text(PIECE, "utf-8")
    commands = (
        ["check", "--json", "rows.txt"], ["instructions", "rows.txt", "--terms", "uk", "-o", "rows.md"],
        ["chart", "rows.txt", "-o", "rows.svg"], ["check", "--json", "net.toml"],
        ["instructions", "net.toml", "-o", "net.md"], ["assembly", "net.toml", "-o", "net.svg"],
        ["template", "net.toml", "-o", "net.pdf"], ["yarn", "net.toml"], ["symbols", "-o", "signs.svg"],
        ["start", "new.toml", "--kind", "panel", "--width", "20 cm", "--height", "30 cm", "--stitches", "12", "--rows", "6"],
        ["measure", "--kind", "panel", "-o", "panel.pdf"],
    )  # fmt: skip
    return folder, ran(folder, *commands)


def report(said):
    return json.loads(said[said.index("{") :])


def test_it_is_read_and_counted(said):
    got = report(said[1][0])
    assert got["problems"] == []
    assert [row["stitches"] for row in got["rows"]] == [15, 11]
    assert got["rows"][1]["kinds"] == {"FPmast": 4, "mast2tog": 4, "mast": 3}


def test_it_is_written_in_both_terms(said):
    folder, _ = said
    words = (folder / "rows.md").read_text("utf-8")
    assert "FPmst" in words and "mst2tog" in words
    assert not re.search(r"mast\b", words)


def test_it_is_drawn_with_its_slashes(said):
    """The second row is worked on the wrong side, so its front posts are drawn as the right side shows them."""
    folder, _ = said
    drawn = (folder / "rows.svg").read_text("utf-8")
    assert all(f'id="key-{name}"' in drawn for name in ("mast", "bpmast", "mast2tog"))
    assert "mast crochet" in (folder / "signs.svg").read_text("utf-8")


def test_its_row_and_its_row_end_are_sized(said):
    folder, lines = said
    assert report(lines[3])["problems"] == []
    assert "mast" in (folder / "net.md").read_text("utf-8")
    assert value(folder, "charts.folding.edge_rates", "row_end_rate('FPmast')") == "6"
    assert value(folder, "charts.model.sizing.row_heights", "relative_height('mast2tog')") == "5.2"
