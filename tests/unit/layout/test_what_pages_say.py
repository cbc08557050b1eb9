"""What stands at the cuts of pages, under brackets, and in the notes of rounds."""

import pytest
from hookfold.charts.drawing.display import Group, Text
from hookfold.charts.drawing.letters import text_width, wrapped
from hookfold.charts.drawing.plain import LINE_LIMIT
from hookfold.charts.layout.chart.either import chart_document
from hookfold.charts.layout.chart.picture import inside
from hookfold.charts.layout.chart.tiles import tiles_of
from hookfold.charts.layout.chart.view import view_of, whole_view_of
from hookfold.charts.model.rows.work import work_text
from hookfold.charts.setting import Heading, Setting

RIPPLE = "Ch {n}.\nRow 1: Sc in 2nd ch from hook, *sk 2 ch, 5 dc in next ch, sk 2 ch, sc in next ch; rep from * across.\n"
WIDE = "Ch 151.\nRow 1: Sc in 2nd ch from hook and in each ch across. (150 sc)\n" + "".join(
    f"Row {n}: Ch 1, turn, sc in first {n} sts, hdc in next st, sc in each st across. (150 sts)\n" for n in range(2, 13)
)
SPIRAL = "Rnd 1: 6 sc in magic ring. (6 sc)\nRnd 2: 2 sc in each st around. (12 sc)\nRnd 3: Sc in each st around. (12 sc)\n"


def texts(items):
    for item in items:
        if isinstance(item, Group):
            yield from texts(item.items)
        elif isinstance(item, Text):
            yield item


def sheets(text, **setting):
    return chart_document(work_text(text).fabric, Heading("Sample"), Setting(**setting)).sheets


@pytest.mark.parametrize("hand", ["right", "left"])
def test_rows_are_numbered_alone_at_a_cut_and_begin_and_end_at_the_edges_of_the_work(hand):
    parts = [list(texts(sheet.items)) for sheet in sheets(WIDE, extent="full", hand=hand)[1:]]
    assert len(parts) > 2
    named = [[t.name for t in part] for part in parts]
    assert [part.count("foundation count") for part in named] == [0] * (len(parts) - 1) + [1]
    assert [part.count("number at the cut") for part in named] == [12, *[24] * (len(parts) - 2), 12]
    assert named[0].count("row number") == named[0].count("count") == 6
    assert not any(part.count("row number") or part.count("count") for part in named[1:-1])


@pytest.mark.parametrize("hand", ["right", "left"])
def test_a_row_is_numbered_once_at_each_side_of_a_page(hand):
    for sheet in sheets(WIDE, extent="full", hand=hand)[1:]:
        tens = [t for t in texts(sheet.items) if t.text == "10"]
        rows = [t.y for t in tens if t.name in ("row number", "number at the cut")]
        assert rows
        assert len([t for t in tens if min(abs(t.y - y) for y in rows) < 1.0]) == 2


def test_a_bracket_over_a_repeat_of_many_says_that_all_are_drawn():
    fabric = work_text(RIPPLE.format(n=32)).fabric
    assert whole_view_of(fabric, Setting()).stitch_bracket.says == "one repeat of 6 sts, drawn 5 times"
    wide = view_of(work_text(RIPPLE.format(n=302)).fabric, Setting()).stitch_bracket.says
    assert wide.startswith("repeat of 6 sts: 50 times (") and wide.endswith(" drawn)")


def test_brackets_are_spoken_of_only_where_there_are_some():
    for text in (WIDE, RIPPLE.format(n=602), "Ch 601.\nRow 1: Sc in 2nd ch from hook and in each ch across.\n"):
        names = list(texts(sheets(text)[0].items))
        spoken = "brackets say" in " ".join(t.text for t in names)
        assert not spoken or any(t.name in ("stitch repeat", "row repeat") for t in names)


def test_rounds_that_are_not_joined_go_on_in_a_spiral():
    def said(text):
        return " ".join(t.text for t in texts(sheets(text)[0].items))

    assert "Do not join: go on in a spiral." in said(SPIRAL)
    closed = SPIRAL.replace(" around. (12", " around, join with sl st in first st. (12").replace("ring. (", "ring, join with sl st in first sc. (")
    assert "spiral" not in said(closed)
    half = SPIRAL.replace("ring. (", "ring, join with sl st in first sc. (")
    assert "Do not join round 2: go on in a spiral." in said(half)


@pytest.mark.parametrize("width", [90.0, 400.0, 2000.0])
def test_no_line_has_more_letters_than_are_drawn(width):
    words = " ".join(["seven", "small", "stitches"] * 60)
    lines = wrapped(words, width, 2.7)
    assert " ".join(lines) == words
    assert all(len(line) <= LINE_LIMIT and text_width(line, 2.7) <= width for line in lines)


@pytest.mark.parametrize("hand", ["right", "left"])
def test_a_fan_is_drawn_whole_on_a_page_or_not_at_all(hand):
    rows = work_text(RIPPLE.format(n=302)).fabric
    laid = whole_view_of(rows, Setting(extent="full", hand=hand)).laid
    (course,) = laid.courses
    fans = [course.laid.spots[at : at + 5] for at, s in enumerate(course.laid.spots) if s.kind == "dc"][::5]
    seen = set()
    for tile in tiles_of(laid, (40.0, 60.0), starts_right=hand == "right"):
        shown = {spot.item for spot in inside(course.laid, tile.window)}
        here = [sum(spot.item in shown for spot in fan) for fan in fans]
        assert set(here) <= {0, 5}
        assert all(tile.left <= s.head[0] <= tile.right for s in course.laid.spots if s.item in shown)
        assert tile.right - tile.left <= 40.0
        seen |= shown
    assert seen == {spot.item for spot in course.laid.spots}
