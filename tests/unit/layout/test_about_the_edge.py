"""Rounds about the whole edge of a piece that is worked to and fro: drawn about it, not over its last row.

That an edging is drawn round the outline of what it is worked on is common practice, no source.
"""

import itertools
import math

import pytest
from hookfold.charts.layout.chart.either import chart_document
from hookfold.charts.layout.placing.tracks import FrameWay
from hookfold.charts.layout.shapes.edged import Edged, edging_of
from hookfold.charts.layout.shapes.found import fabric_shape
from hookfold.charts.layout.squares.corner import corner_grid
from hookfold.charts.model.rows.work import work_text
from hookfold.charts.setting import Heading, Setting

SWATCH = "Terms: US\nCh 9.\nRow 1 (RS): Sc in 2nd ch from hook and in each ch across. (8 sc)\n"
ROWS = "".join(f"Row {n}: Ch 1, turn, sc in each sc across. (8 sc)\n" for n in range(2, 8))
ROUND = "Rnd 8: Ch 1, {turn}work {count} sc evenly around, join with sl st in first sc. ({count} sc)\n"
BLOCKS = (
    "Terms: US\nRow 1 (RS): Ch 6, dc in 4th ch from hook, dc in next 2 ch.\n"
    "Row 2: Ch 6, turn, dc in 4th ch from hook, dc in next 2 ch, sl st in next ch-3 sp, ch 3, 3 dc in same sp.\n"
    "Row 3: Turn, sl st in next 3 dc, sl st in next ch-3 sp, ch 3, 3 dc in same sp, sl st in ch-3 sp of last block.\n"
    "Rnd 4: Ch 1, work 24 sc evenly around, join with sl st in first sc. (24 sc)\n"
)


def worked(text):
    found = work_text(text)
    assert not found.problems, found.problems
    return found.fabric


def edged(text):
    fabric = worked(text)
    return fabric, fabric_shape(fabric).lay(fabric)


def box_of(spots):
    points = [p for s in spots for p in (s.head, *s.feet, *((x, y) for x, y, _ in s.ovals))]
    return tuple(edge(p[axis] for p in points) for edge in (min, max) for axis in (0, 1))


@pytest.mark.parametrize(
    "text",
    [
        SWATCH + ROWS + ROUND.format(turn="turn, ", count=32),
        SWATCH + ROWS + ROUND.format(turn="", count=32),
        SWATCH + ROWS + ROUND.format(turn="", count=90),
        BLOCKS,
    ],
    ids=["turned", "not turned", "crowded", "blocks"],
)
def test_a_round_about_the_edge_lies_outside_the_piece_on_all_sides(text):
    fabric, laid = edged(text)
    *body, last = laid.rings
    left, top, right, bottom = box_of([s for ring in body for s in ring.laid.spots])
    made = [s for s in last.laid.spots if s.role == "stitch"]
    for spot in made:
        x, y = spot.feet[0]
        assert x < left or x > right or y < top or y > bottom
        assert 0.7 <= math.dist(spot.head, spot.feet[0]) <= 1.6
    around = [math.atan2(-(s.head[1] - (top + bottom) / 2), s.head[0] - (left + right) / 2) for s in made]
    turns = [math.remainder(b - a, math.tau) for a, b in itertools.pairwise(around)]
    way = 1.0 if fabric.rows[-1].direction == "right-to-left" else -1.0
    assert all(way * turn > 0.0 for turn in turns)
    assert math.pi * 1.6 < way * sum(turns) < math.tau
    gaps = [math.dist(a.head, b.head) for a, b in itertools.pairwise(made)]
    assert min(gaps) > 0.7


def test_it_begins_at_the_corner_where_the_last_row_ends():
    _, laid = edged(SWATCH + ROWS + ROUND.format(turn="", count=32))
    *body, last = laid.rings
    first = next(s for s in last.laid.spots if s.role == "stitch")
    ends = next(s for s in reversed(body[-1].laid.spots) if s.role == "stitch")
    assert math.dist(first.head, ends.head) == min(math.dist(first.head, s.head) for r in body for s in r.laid.spots if s.role == "stitch")


def words_of(fabric, hand):
    sheet = chart_document(fabric, Heading("Swatch", terms="us"), Setting(hand=hand, extent="full")).sheets[0]

    def walk(item):
        for each in getattr(item, "items", ()):
            yield from walk(each)
        if hasattr(item, "anchor"):
            yield item.text

    return [text for item in sheet.items for text in walk(item)]


@pytest.mark.parametrize("hand", ["right", "left"])
def test_its_number_and_all_counts_stand_on_the_chart(hand):
    words = words_of(worked(SWATCH + ROWS + ROUND.format(turn="turn, ", count=32)), hand)
    assert "goes about the whole edge" in " ".join(words)
    assert {"8", "(32)", "(8)", *"1234567"} <= set(words)


def test_a_large_piece_says_that_its_edging_is_not_drawn():
    long = "".join(f"Row {n}: Ch 1, turn, sc in each sc across. (8 sc)\n" for n in range(2, 60))
    words = words_of(worked(SWATCH + long + ROUND.replace("8:", "60:").format(turn="", count=140)), "right")
    assert "Rnd 60 goes about the whole edge and is not drawn." in " ".join(words)
    assert "(140)" not in words


def test_a_later_round_stands_on_the_first():
    more = "Rnd 9: Ch 1, sc in each sc around, join with sl st in first sc. (32 sc)\n"
    _, laid = edged(SWATCH + ROWS + ROUND.format(turn="", count=32) + more)
    below, last = (box_of([s for s in ring.laid.spots if s.role == "stitch"]) for ring in laid.rings[-2:])
    assert last[0] < below[0] - 0.6 and last[1] < below[1] - 0.6
    assert last[2] > below[2] + 0.6 and last[3] > below[3] + 0.6


def test_rounds_of_a_hat_and_large_pieces_are_not_edged():
    hat = worked("Terms: US\nRnd 1: 6 sc in magic ring.\nRnd 2: 2 sc in each sc around. (12 sc)\n")
    assert edging_of(hat) == 0
    long = "".join(f"Row {n}: Ch 1, turn, sc in each sc across. (8 sc)\n" for n in range(2, 60))
    assert not isinstance(fabric_shape(worked(SWATCH + long + ROUND.replace("8:", "60:").format(turn="", count=140))), Edged)


def test_squares_show_the_blocks_without_their_edging():
    assert [len(row.cells) for row in corner_grid(worked(BLOCKS), "right").rows] == [1, 2, 1]


@pytest.mark.parametrize("sign", [1.0, -1.0])
@pytest.mark.parametrize("start", range(4))
def test_a_way_about_a_frame_finds_its_places_again(sign, start):
    way = FrameWay(sign, start, (2.0, 3.0), 4.0, 2.5)
    for k in range(200):
        u = k * way.whole / 200
        for v in (0.3, 1.0, 2.5):
            point = way.at(u, v)
            assert abs(way.near(way.u(point), u) - u) < 1e-6
            assert abs(way.v(point) - v) < 1e-6
