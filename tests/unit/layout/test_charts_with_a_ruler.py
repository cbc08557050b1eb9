"""What charts show, measured with a ruler: stitches as far apart as the sheet says, rows as far from each other, numbers
and counts level with their rows, bands over the rows of their colour, squares in their places."""

import functools
import itertools
import math
import random
import re

import pytest
from hookfold.charts.drawing.display import Group, Ink, Text
from hookfold.charts.drawing.letters import cap_height
from hookfold.charts.layout.chart.either import chart_document
from hookfold.charts.layout.squares.grid import Grid, SquareRow
from hookfold.charts.layout.squares.sheet import squares_document
from hookfold.charts.model.rows.work import work_text
from hookfold.charts.setting import Heading, Setting
from sheet_boxes import flat, points_of

RULER = 0.02
TWO_YARNS = """Ch 14. With A.
Row 1: With A, dc in 4th ch from hook and in each ch across. (12 dc)
Row 2: With B, ch 3 (counts as dc), turn. Dc in next 11 dc. (12 dc)
Row 3: Ch 1, turn. Sc in each dc across. (12 sc)
Row 4: With A, ch 1, turn. Sc in each sc across. (12 sc)
Row 5: With A, ch 1, turn. Hdc in each sc across. (12 hdc)
Row 6: With B, ch 1, turn. Sc in each hdc across. (12 sc)"""
ONE_YARN = """Ch 10.
Row 1: Sc in 2nd ch from hook and in each ch across. (9 sc)
Row 2: Ch 1, turn. Hdc in each sc across. (9 hdc)
Row 3: Ch 1, turn. Sc in each hdc across. (9 sc)"""
TEXTS = {"two yarns": TWO_YARNS, "one yarn": ONE_YARN}
WAYS = [(name, hand) for name in TEXTS for hand in ("right", "left")]
#: Which kinds a row of these texts is worked in, by its number.
KINDS = {"two yarns": ["dc", "dc", "sc", "sc", "hdc", "sc"], "one yarn": ["sc", "hdc", "sc"]}


@functools.cache
def sheet(name, hand):
    worked = work_text(TEXTS[name])
    assert not worked.problems
    return chart_document(worked.fabric, Heading("Ruled"), Setting(hand=hand)).sheets[0]


def group(of, name):
    return next(g for g in of.items if isinstance(g, Group) and g.name == name)


def groups(item):
    for inner in item.items:
        if isinstance(inner, Group):
            yield inner
            yield from groups(inner)


def cell(of):
    """How many mm to a stitch the sheet says it is drawn at."""
    return next(float(m[1]) for t in flat(of.items) if isinstance(t, Text) and (m := re.search(r"drawn ([\d.]+) mm to a stitch", t.text)))


def stems(of, number, kind):
    """The upright lines of a row's stitches, from foot to head, from the left."""
    (ink,) = [i for i in flat(group(of, f"row-{number}").items) if i.name == f"row-{number} {kind}"]
    found = re.findall(r"M(-?[\d.]+) (-?[\d.]+)l(-?[\d.]+) (-?[\d.]+)", ink.d)
    return sorted((float(x), float(y), float(y) + float(dy)) for x, y, dx, dy in found if abs(float(dx)) < 1e-6 and abs(float(dy)) > 2.0)


@pytest.mark.parametrize(("name", "hand"), WAYS)
def test_stitches_of_plain_rows_are_a_cell_apart_and_stand_over_each_other(name, hand):
    made = sheet(name, hand)
    for number, kind in enumerate(KINDS[name], 1):
        xs = [x for x, _, _ in stems(made, number, kind)]
        assert all(b - a == pytest.approx(cell(made), abs=RULER) for a, b in itertools.pairwise(xs))
        least = {x for x, _, _ in stems(made, 1, KINDS[name][0])}
        assert all(min(abs(x - low) for low in least) < RULER or min(abs(abs(x - low) - cell(made)) for low in least) < RULER for x in xs)


@pytest.mark.parametrize(("name", "hand"), WAYS)
def test_rows_leave_one_white_between_them_and_have_one_height_a_kind(name, hand):
    made = sheet(name, hand)
    rows = [stems(made, number, kind)[0] for number, kind in enumerate(KINDS[name], 1)]
    assert len({round(below[2] - above[1], 2) for below, above in itertools.pairwise(rows)}) == 1
    tall = {kind: {round(low - high, 2) for k, (_, low, high) in zip(KINDS[name], rows, strict=True) if k == kind} for kind in KINDS[name]}
    assert all(len(found) == 1 for found in tall.values())
    order = [next(iter(tall[k])) for k in ("sc", "hdc", "dc") if k in tall]
    assert order == sorted(order) and len(set(order)) == len(order)


@pytest.mark.parametrize(("name", "hand"), WAYS)
def test_number_arrow_and_count_are_level_with_the_row_and_as_far_out_on_both_sides(name, hand):
    made = sheet(name, hand)
    items = list(flat(group(made, "row numbers").items))
    numbers = {int(t.text): t for t in items if isinstance(t, Text) and t.name == "row number"}
    counts = [t for t in items if isinstance(t, Text) and t.name == "count"]
    assert sorted(numbers) == list(range(1, len(KINDS[name]) + 1)) and len(counts) == len(numbers)
    xs = [x for n, k in enumerate(KINDS[name], 1) for x, _, _ in stems(made, n, k)]
    middle = (min(xs) + max(xs)) / 2
    for number, text in numbers.items():
        _, low, high = stems(made, number, KINDS[name][number - 1])[0]
        level = text.y - cap_height(text.size) / 2
        assert level == pytest.approx((low + high) / 2, abs=0.15)
        begins_right = (number % 2 == 1) == (hand == "right")
        assert (text.x > middle) == begins_right and text.anchor == ("start" if begins_right else "end")
        (count,) = [c for c in counts if abs(c.y - text.y) < RULER]
        assert (count.x > middle) != begins_right and count.text == f"({len(stems(made, number, KINDS[name][number - 1])) + (number in (1, 2) and name == 'two yarns')})"
        arrows = [points_of(i) for i in items if isinstance(i, Ink) and abs(points_of(i)[0][1] - level) < RULER]
        tail = min((p[0] for p in arrows if len(p) == 2), key=lambda p: abs(p[0] - text.x))
        tip = min((p[0] for p in arrows if len(p) == 4), key=lambda p: abs(p[0] - text.x))
        assert abs(middle - tip[0]) < abs(middle - tail[0]) < abs(middle - text.x), "from the number to the row"
    sides = [{round(t.x, 2) for t in numbers.values() if (t.x > middle) == right} for right in (True, False)]
    assert [len(side) for side in sides] == [1, 1], "one under the other"
    (right,), (left,) = sides
    assert abs((right - middle) - (middle - left)) < (0.02 if name == "two yarns" else 0.5 * cell(made)), "a chain stands outside one edge"


@pytest.mark.parametrize("hand", ["right", "left"])
def test_bands_of_colour_lie_on_each_other_and_span_their_rows_with_their_letter_in_the_middle(hand):
    made = sheet("two yarns", hand)
    bands = group(made, "colours").items
    spans = []
    for ground, outline, letter in zip(bands[::3], bands[1::3], bands[2::3], strict=True):
        box = [f(v) for v in zip(*points_of(ground), strict=True) for f in (min, max)]
        assert points_of(ground) == points_of(outline) and ground.name == f"colour {letter.text}"
        assert letter.x == pytest.approx((box[0] + box[1]) / 2, abs=RULER) and letter.y - cap_height(letter.size) / 2 == pytest.approx((box[2] + box[3]) / 2, abs=RULER)
        spans.append((letter.text, box[3], box[2]))
    assert [letter for letter, _, _ in spans] == ["A", "B", "A", "B"]
    assert all(a[2] == pytest.approx(b[1], abs=RULER) for a, b in itertools.pairwise(spans))
    for (_, low, high), rows in zip(spans, ((1, 1), (2, 3), (4, 5), (6, 6)), strict=True):
        kinds = KINDS["two yarns"]
        feet, heads = stems(made, rows[0], kinds[rows[0] - 1])[0][1], stems(made, rows[1], kinds[rows[1] - 1])[0][2]
        assert feet < low and high < feet and low - feet == pytest.approx(1.08, abs=0.7) and abs(heads - high) < 1.2


@pytest.mark.parametrize(("name", "hand"), WAYS)
def test_signs_of_the_key_stand_over_their_middle_and_level_with_their_words(name, hand):
    entries = [g for g in groups(sheet(name, hand)) if g.name.startswith("key ")]
    assert {g.name.removeprefix("key ") for g in entries} == {"ch", "begin", "fasten off", *KINDS[name]}
    for entry in entries:
        texts = [t for t in flat(entry.items) if isinstance(t, Text)]
        assert len({t.y for t in texts}) == 1 and texts[0].x < texts[1].x and texts[1].text in entry.title
    firsts = [(next(t for t in flat(e.items) if isinstance(t, Text)).x, next(t for t in flat(e.items) if isinstance(t, Text)).y) for e in entries]
    columns = sorted({round(x, 1) for x, _ in firsts})
    assert len({round(b - a, 1) for a, b in itertools.pairwise(columns)}) <= 1, "columns are as wide each"


# -- squares --------------------------------------------------------------------------------------------------------


def grid(columns, rows, seed, from_right=True):
    """A colour grid drawn at random, worked to and fro."""
    pen = random.Random(seed)
    return Grid("colours", tuple(
        SquareRow(n + 1, "WS" if n % 2 else "RS", from_right != bool(n % 2), tuple(pen.choice("AB") for _ in range(columns))) for n in range(rows)
    ), 1)  # fmt: skip


YARNS = {"A": ("flint", "#334455"), "B": ("chalk", "#eeeecc")}


def box(ink):
    xs, ys = zip(*points_of(ink), strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def laid(made):
    """The squares of a sheet: the left and the foot of the grid, the size of a square, and the lines."""
    lines = [points_of(i) for i in group(made, "grid").items if i.stroke]
    xs = sorted({p[0] for a in lines if a[0][0] == a[1][0] for p in a})
    ys = sorted({p[1] for a in lines if a[0][1] == a[1][1] for p in a})
    return xs, ys


@pytest.mark.parametrize("shape", [(12, 7), (23, 31), (40, 11), (1, 2)])
@pytest.mark.parametrize("hand", ["right", "left"])
def test_every_square_lies_in_its_cell_in_its_yarn(shape, hand):
    asked = grid(*shape, 5)
    (made,) = squares_document(asked, Heading("Ruled"), Setting(hand=hand), YARNS).sheets
    xs, ys = laid(made)
    assert (len(xs), len(ys)) == (shape[0] + 1, shape[1] + 1)
    mm = (xs[-1] - xs[0]) / shape[0]
    assert mm == pytest.approx((ys[-1] - ys[0]) / shape[1], abs=0.01) and mm <= 9.0 + 1e-6
    assert next(t.text for t in flat(made.items) if isinstance(t, Text) and "1 square" in t.text) == f"1 square = {round(mm, 1):g} mm on paper"
    assert all(b - a == pytest.approx(mm, abs=0.01) for v in (xs, ys) for a, b in itertools.pairwise(v))
    found = {}
    for ink in group(made, "squares").items:
        left, top, right, foot = box(ink)
        row = round((ys[-1] - foot) / mm)
        assert foot - top == pytest.approx(mm, abs=0.01)
        for k in range(round((right - left) / mm)):
            found[row, round((left - xs[0]) / mm) + k] = (ink.name, ink.fill)
    for n, row in enumerate(asked.rows):
        cells = row.cells if hand == "right" else row.cells[::-1]
        assert [found[n, k] for k in range(shape[0])] == [(f"row-{row.number}-{what}", YARNS[what][1]) for what in cells]
    assert xs[0] + xs[-1] == pytest.approx(made.width, abs=0.05), "in the middle of the page"


@pytest.mark.parametrize("from_right", [True, False])
@pytest.mark.parametrize("shape", [(12, 7), (23, 31), (40, 11)])
def test_numbers_of_squares_stand_at_their_rows_and_columns_and_every_tenth_line_is_heavy(shape, from_right):
    """Column 1 is where the first row begins; lines are counted from there and from the foot."""
    (made,) = squares_document(grid(*shape, 6, from_right), Heading("Ruled"), Setting(), YARNS).sheets
    xs, ys = laid(made)
    mm = xs[1] - xs[0]
    texts = [t for t in group(made, "numbers").items if isinstance(t, Text)]
    columns = [t for t in texts if t.name == "column number"]
    assert sorted(int(t.text) for t in columns) == [1, *range(5, shape[0] + 1, 5)]
    for t in columns:
        at = xs[-1] - (int(t.text) - 0.5) * mm if from_right else xs[0] + (int(t.text) - 0.5) * mm
        assert t.x == pytest.approx(at, abs=0.02) and t.y > ys[-1]
    rows = [t for t in texts if t.name == "row number"]
    assert [int(t.text) for t in rows] == list(range(1, shape[1] + 1)) or mm < 3.2
    for t in rows:
        right = (int(t.text) % 2 == 1) == from_right
        assert (t.x > xs[-1]) == right and (t.x < xs[0]) != right
        assert t.y - cap_height(t.size) / 2 == pytest.approx(ys[-1] - (int(t.text) - 0.5) * mm, abs=0.02)
    assert len({round(min(abs(t.x - xs[0]), abs(t.x - xs[-1])), 2) for t in rows}) == 1
    for ink in group(made, "grid").items:
        (x0, y0), (x1, _) = points_of(ink)
        at = round((xs[-1] - x0) / mm if from_right else (x0 - xs[0]) / mm) if x0 == x1 else round((ys[-1] - y0) / mm)
        last = shape[0] if x0 == x1 else shape[1]
        assert (ink.width > 0.2) == (at % 10 == 0 or at in (0, last)), at


def test_what_is_too_large_is_cut_so_that_every_square_is_on_one_page_and_the_words_say_which():
    asked = grid(130, 95, 7)
    document = squares_document(asked, Heading("Ruled"), Setting(), YARNS)
    assert len(document.sheets) > 1
    seen = {}
    for made in document.sheets:
        words = " ".join(t.text for t in flat(made.items) if isinstance(t, Text))
        m = re.search(r"columns (\d+) to (\d+) of 130, rows (\d+) to (\d+) of 95", words)
        left, right, low, high = map(int, m.groups())
        xs, ys = laid(made)
        assert (len(xs), len(ys)) == (right - left + 2, high - low + 2)
        for row, column in itertools.product(range(low, high + 1), range(left, right + 1)):
            assert (row, column) not in seen
            seen[row, column] = made
        told = [int(n) for n in re.findall(r"Row (\d+):", made.desc)]
        assert told == list(range(low, high + 1))
        assert sum(int(n) for n in re.findall(r"(\d+) (?:flint|chalk)", made.desc)) == (right - left + 1) * (high - low + 1)
    assert len(seen) == 130 * 95
    whole = document.whole
    xs, ys = laid(whole)
    assert (len(xs), len(ys)) == (131, 96) and math.isclose(xs[1] - xs[0], ys[1] - ys[0], abs_tol=0.01)


def test_squares_that_a_narrower_piece_lacks_are_grounded_and_hold_nothing():
    rows = (SquareRow(1, "RS", True, ("A", "A", "B", "A")), SquareRow(2, "WS", False, ("", "B", "B", "")), SquareRow(3, "RS", True, ("", "A", "A", "")))
    (made,) = squares_document(Grid("colours", rows, 1), Heading("Ruled"), Setting(), YARNS).sheets
    lines = [i for i in group(made, "grid").items if i.name == "no square"]
    sides = [points_of(i) for i in group(made, "grid").items if i.stroke]
    left, foot = min(p[0][0] for p in sides), max(p[0][1] for p in sides)
    mm = 9.0
    places = {(round((box(i)[0] - left) / mm), round((foot - box(i)[3]) / mm)) for i in lines}
    assert places == {(0, 1), (3, 1), (0, 2), (3, 2)} and all(box(i)[2] - box(i)[0] == pytest.approx(mm) for i in lines)
    assert "Row 1: 1 flint, 1 chalk, 2 flint. Row 2: 2 chalk. Row 3: 2 flint." in made.desc
