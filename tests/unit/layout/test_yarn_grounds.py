"""Grounds in the colour of each stitch's yarn, where it changes within a row."""

import re
import xml.etree.ElementTree as ET
from itertools import pairwise

import pytest
from hookfold.charts.drawing.style import contrast, luminance, style
from hookfold.charts.drawing.svg import write
from hookfold.charts.layout.chart.either import chart_document
from hookfold.charts.layout.chart.margins import Colour
from hookfold.charts.layout.chart.yarn_grounds import SAID, pale
from hookfold.charts.layout.squares.grid import UNNAMED, grid_of
from hookfold.charts.model.rows.work import work_text
from hookfold.charts.setting import Heading, Setting

SVG = "{http://www.w3.org/2000/svg}"
TOLD = "Colours: A (navy), B (sand)\n"
BEGUN = "With A, ch 13.\nRow 1 (RS): Sc in 2nd ch from hook and in each ch across. (12 sc)\n"
BLOCK = BEGUN + "Row 2: Ch 1, turn, sc in first 5 sts, with B sc in next 4 sts, with A sc in last 3 sts. (12 sc)\n"


def drawn(text: str, **setting: str) -> ET.Element:
    document = chart_document(work_text(text).fabric, Heading("Sample"), Setting(**setting))
    return ET.fromstring(write(document.sheets[0]))


def box(path: ET.Element) -> tuple[float, float, float, float]:
    numbers = [float(n) for n in re.findall(r"-?\d+(?:\.\d+)?", path.get("d", ""))]
    return min(numbers[::2]), min(numbers[1::2]), max(numbers[::2]), max(numbers[1::2])


def by_id(sheet: ET.Element) -> dict[str, ET.Element]:
    return {e.get("id", ""): e for e in sheet.iter() if e.get("id")}


@pytest.mark.parametrize("hand", ["right", "left"])
def test_a_ground_is_as_wide_as_the_stitches_in_its_yarn_and_stands_where_they_do(hand):
    found = by_id(drawn(TOLD + BLOCK, hand=hand))
    left, top, right, bottom = box(found["row-2-in-b"])
    whole = box(found["row-2-in-a"])
    unit = (whole[2] - whole[0]) / 12
    assert (right - left) / unit == pytest.approx(4, abs=0.02)
    before, after = (left - whole[0]) / unit, (whole[2] - right) / unit
    assert (before, after) == pytest.approx((5, 3) if hand == "right" else (3, 5), abs=0.02)
    assert bottom == pytest.approx(box(found["row-1-in-a"])[1], abs=0.05)
    assert top < bottom


def test_the_key_calls_yarns_by_name_in_the_tones_of_the_grounds():
    sheet = drawn(TOLD + BLOCK)
    said = " ".join(t for t in ET.tostring(sheet, encoding="unicode").split())
    assert "5 A, 4 B, 3 A" in said
    ground = by_id(sheet)["row-2-in-b"].get("fill")
    assert [e.get("fill") for e in sheet.iter(f"{SVG}path")].count(ground) >= 2


def test_rows_in_one_yarn_each_have_no_grounds():
    sheet = drawn(BEGUN + "Row 2: With B, ch 1, turn, sc in each st across. (12 sc)")
    assert not [name for name in by_id(sheet) if "in-A" in name or "grounds" in name]


@pytest.mark.parametrize("hues", [["#000000", "#ffffff"], ["#b3363a", "#2f6f73", "#3f5f8a"], ["#f5f3ee", "#f3eddd", "#ede2cb", "#dccfb2"]])
def test_signs_stand_out_on_grounds_which_are_told_apart_in_grey(hues):
    made = pale({chr(65 + n): Colour(hue, hue) for n, hue in enumerate(hues)}).values()
    look = style()
    for colour in made:
        assert min(contrast(colour.hex, ink) for ink in (look.right_side, look.wrong_side)) >= 2.95
    tones = sorted((c.hex for c in made), key=luminance)
    assert all(contrast(a, b) > 1.15 for a, b in pairwise(tones))


def test_rows_alike_but_for_their_yarns_are_not_cut_as_one_repeat():
    once = "with A sc in next 5 sts, with B sc in next 5 sts"
    rows = f"With A, ch 121.\nRow 1: Sc in 2nd ch from hook and in each ch across. (120 sc)\nRow 2: Ch 1, turn, *{once}; rep from * across. (120 sc)\n"
    text = ET.tostring(drawn(rows), encoding="unicode")
    assert "10 sts" in text


def test_rounds_have_a_ground_for_each_run_in_a_yarn():
    rounds = "With A, make a magic ring.\nRnd 1: 6 sc in ring, join with sl st in first sc. (6 sc)\n"
    rounds += "Rnd 2: Ch 1, *with A sc in next st, with B 2 sc in same st; rep from * around, join with sl st in first sc. (18 sc)\n"
    found = by_id(drawn(rounds))
    assert found["round-2-in-b"].get("d", "").count("M") == 6


def test_squares_are_in_the_yarn_of_each_stitch():
    grid = grid_of(work_text(BLOCK).fabric)
    assert grid is not None
    assert grid.rows[1].cells == ("A",) * 5 + ("B",) * 4 + ("A",) * 3
    bare = grid_of(work_text(BLOCK.replace("With A, ch 13", "Ch 13")).fabric)
    assert bare is not None
    assert set(bare.rows[0].cells) == {UNNAMED}


def test_what_grounds_are_is_said_only_where_they_are():
    words = ET.tostring(drawn(BEGUN), encoding="unicode")
    assert SAID not in words
