"""What the page to work from is told: every stitch at its place, rows that come again once, all of it as data."""

from __future__ import annotations

import json
import math
import re
from pathlib import Path

import pytest
from click.testing import CliRunner
from hookfold.charts import engrave
from hookfold.charts.layout.chart.view import whole_view_of
from hookfold.charts.layout.rounds.lay import lay_rounds
from hookfold.charts.layout.sheets.seen import as_seen
from hookfold.charts.model.rows.work import work_text
from hookfold.charts.output.pages.chart import PageChart, page_chart
from hookfold.charts.output.pages.looks import unpacked
from hookfold.charts.setting import Setting
from hookfold.cli import main

GALLERY = Path(__file__).parents[3] / "gallery"


def fabric_of(name: str):
    text = (GALLERY / name).read_text("utf-8")
    return engrave.work_file(text, name).fabric if name.endswith("toml") else work_text(text).fabric


def places(chart: PageChart, look: int, *, left: bool = False) -> list[tuple[float, float]]:
    """Where a page draws the items of a row, in stitch widths: the steps taken one after the other."""
    x = y = turn = 0.0
    out = []
    for at in unpacked(chart.looks.rows[look]):
        _, forward, aside, by = chart.looks.steps[at]
        cos, sin = math.cos(math.radians(turn / 10)), math.sin(math.radians(turn / 10))
        x, y, turn = x + forward * cos - aside * sin, y + forward * sin + aside * cos, turn + by
        out.append(((-x if left else x) / 100, y / 100))
    return out


def assert_placed(chart: PageChart, look: int, spots, *, left: bool = False) -> None:
    found = places(chart, look, left=left)
    for spot in spots:
        assert math.dist(found[spot.item], spot.head) < 0.02, spot


@pytest.mark.parametrize("name", ["field-book-cover/pattern.toml", "fabrics/ripple.txt", "fabrics/spikes.txt", "fabrics/post-rib.txt"])
def test_a_page_draws_every_stitch_where_the_chart_does(name):
    """0.02 of a stitch is the pen's fifth: no eye sees it."""
    fabric = fabric_of(name)
    chart = page_chart(fabric)
    for hand in ("right", "left"):
        laid = whole_view_of(as_seen(fabric, "right-side"), Setting(extent="full", hand=hand)).laid
        for course, look in zip(laid.courses, chart.row_looks, strict=True):
            assert_placed(chart, look[hand == "left"], course.laid.spots, left=hand == "left")


BALL = "Terms: US\nRnd 1: Make a magic ring, ch 1, 6 sc in ring, join.\nRnd 2: Ch 1, 2 sc in each st around, join. (12 sc)\nRnd 3: Ch 1, sc in each st around, join.\nRnd 4: Ch 1, *sc2tog; rep from * around, join. (6 sts)\n"


@pytest.mark.parametrize("fabric", [fabric_of("fabrics/solid-square.txt"), work_text(BALL).fabric], ids=["square", "ball"])
def test_rounds_stand_where_each_hand_lays_them(fabric):
    chart = page_chart(fabric)
    for hand in ("right", "left"):
        for ring, look in zip(lay_rounds(fabric, hand).rings, chart.row_looks, strict=True):
            assert_placed(chart, look[hand == "left"], ring.laid.spots, left=hand == "left")


def test_rows_that_come_again_are_told_once():
    name = "bench-scarf/pattern.toml"
    fabric = fabric_of(name)
    page = engrave.follow((GALLERY / name).read_text("utf-8"), name, Setting())
    told = data_of(page)["parts"][0]
    assert sum(len(row.row.stitches) for row in fabric.rows) > 4000
    assert len(told["looks"]) < 8 and len(json.dumps(told)) < 6_000
    assert len(unpacked(told["rows"])) == len(fabric.rows) == 189


def data_of(page: bytes):
    return json.loads(re.search(r'<script type="application/json" id="data">(.*?)</script>', page.decode("utf-8"), re.DOTALL)[1])


def test_the_same_pattern_gives_the_same_bytes():
    text = (GALLERY / "spectacle-pouch" / "pattern.toml").read_text("utf-8")
    assert engrave.follow(text, "a.toml", Setting()) == engrave.follow(text, "a.toml", Setting())


def test_no_sign_of_markup_stands_in_the_data():
    text = (GALLERY / "spectacle-pouch" / "pattern.toml").read_text("utf-8")
    text = re.sub(r'title(\s*)= ".*?"', r'title\1= "</script><b> & <!--"', text)
    page = engrave.follow(text, "a.toml", Setting()).decode("utf-8")
    inside = re.search(r'id="data">(.*?)</script>', page, re.DOTALL)[1]
    assert not set("<>&") & set(inside) and data_of(page.encode("utf-8"))["title"] == "</script><b> & <!--"
    assert "<h1>&lt;/script&gt;&lt;b&gt; &amp; &lt;!--</h1>" in page


def test_a_row_that_is_not_proved_says_so_and_is_not_drawn():
    text = "Terms: US\nCh 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 sc)\nRow 2: Ch 1, turn. Sc in each st across. (10 sc)\n\nEdging\nRnd 1: Sc evenly around edge. (40 sc)\nRnd 2: Ch 1, sc in each st around. (40 sc)\n"
    assert work_text(text).problems == [] and "stated" in work_text(text).proved
    parts = data_of(engrave.follow(text, "mat.txt", Setting()))["parts"]
    kinds = [part["kinds"][at] for part in parts for at in unpacked(part["rows"])]
    assert [(kind[13], kind[4] >= 0) for kind in kinds] == [(1, True), (1, True), (0, False), (1, False)]


def test_the_command_writes_a_page_or_says_what_is_wrong(tmp_path):
    cover = str(GALLERY / "spectacle-pouch" / "pattern.toml")
    out = tmp_path / "pouch.html"
    assert CliRunner().invoke(main, ["follow", cover, "-o", str(out)]).exit_code == 0
    assert out.read_bytes().startswith(b"<!doctype html>")
    assert CliRunner().invoke(main, ["follow", cover, "-o", str(tmp_path / "pouch.pdf")]).exit_code == 2
    wrong = tmp_path / "wrong.txt"
    wrong.write_text("Ch 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (12 sc)\n", "utf-8")
    found = CliRunner().invoke(main, ["follow", str(wrong), "-o", str(tmp_path / "wrong.html")])
    assert found.exit_code == 1 and not (tmp_path / "wrong.html").exists()
    empty = tmp_path / "empty.txt"
    empty.write_text("Ch 11.\n", "utf-8")
    assert CliRunner().invoke(main, ["follow", str(empty), "-o", str(tmp_path / "e.html")]).exit_code == 1


def told_of(text: str) -> list[str]:
    """The words of every row on the page, in order."""
    page = engrave.follow(text, "piece.txt", Setting()).decode("utf-8")
    data = json.loads(re.search(r'<script type="application/json" id="data">(.*?)</script>', page, re.DOTALL)[1])
    part = data["parts"][0]
    return [data["said"][part["kinds"][at][2]][0] for at in unpacked(part["rows"])]


@pytest.mark.parametrize("unit", ["Row", "Rnd"])
def test_the_yarn_is_cut_after_the_last_of_rows_told_together(unit):
    start, turn = ("Ch 12.", "turn") if unit == "Row" else ("Make a magic ring.", "join")
    first = "Row 1: Sc in 2nd ch from hook and in each ch across, turn. (11 sc)" if unit == "Row" else "Rnd 1: 11 sc in ring, join. (11 sc)"
    said = told_of(f"Terms: US\n{start}\n{first}\n{unit}s 2-4: Ch 1, sc in each st {'across' if unit == 'Row' else 'around'}, {turn}. (11 sc)\nFasten off.\n")
    assert len(said) == 4
    assert ["asten off" in words for words in said] == [False, False, False, True]
