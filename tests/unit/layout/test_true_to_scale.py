"""What folding sheets of every kind of piece show, measured with a ruler: lengths are those they say, numbers meet in
pairs, a border lies as far out on every side, and words stand in the middle of their ground."""

import functools
import itertools
import math
import re

import folding_plans as plans
import pytest
from hookfold.charts.drawing.display import Group, Ink, Text
from hookfold.charts.drawing.letters import cap_height, text_width
from hookfold.charts.layout.assembly.sheets import assembly_document
from hookfold.charts.setting import Heading, Setting
from sheet_boxes import flat, points_of

FOLDED = ("book", "wrapped book", "strap book", "pouch", "cushion", "pocket panel", "open bag", "sleeve")
#: Millimetres on paper that a ruler does not tell apart.
RULER = 0.06


@functools.cache
def panels(name, hand="right"):
    """The numbered panels of a plan's sheets, by name."""
    made = assembly_document(plans.ALL[name](), Heading("Ruled"), Setting(hand=hand))
    return {g.name: g for s in made.sheets for g in s.items if isinstance(g, Group) and g.name.startswith("step")}


@functools.cache
def things(name, panel, hand="right"):
    return tuple(flat(panels(name, hand)[panel].items))


def divisor(items):
    """What the panel says that its picture is divided by; 0 where it is not to scale."""
    said = [re.search(r"1 : ([\d.]+)", t.text) for t in items if isinstance(t, Text)]
    return next((float(m[1]) for m in said if m), 0.0)


def inks(items, name):
    return [i for i in items if isinstance(i, Ink) and i.name == name]


def strokes(ink):
    """The sub-paths of straight lines of an ink, as points."""
    return [[(float(x), float(y)) for x, y in re.findall(r"(-?[\d.]+) (-?[\d.]+)", part)] for part in re.findall(r"M[^M]+", ink.d)]


def box(points):
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return min(xs), min(ys), max(xs), max(ys)


def silhouette(items):
    """The box of the cloth that a panel shows first."""
    return box(points_of(inks(items, "edges in view")[0]))


@pytest.mark.parametrize("name", plans.ALL)
def test_every_dimension_is_as_long_as_it_says(name):
    found = 0
    for panel in panels(name):
        items = things(name, panel)
        by = divisor(items)
        for k, ink in enumerate(items):
            if not isinstance(ink, Ink) or ink.name != "dimension":
                continue
            one, other, line = strokes(ink)
            words = next((t.text for t in items[k + 1 : k + 4] if isinstance(t, Text)), "")
            if length := re.match(r"(\d+) mm", words):
                found += 1
                assert abs(math.dist(*line) * by - int(length[1])) <= 0.5 + RULER * by, (panel, words)
            assert {tuple(sorted(p)) for p in (one, other)} and all(
                any(abs(a[0] - b[0]) < 1e-6 or abs(a[1] - b[1]) < 1e-6 for b in line) for a in (one[0], other[0])
            ), "extension lines stand at the ends of the line"
            heads = [points_of(i) for i in items[k + 1 : k + 3]]
            assert [h[0] for h in heads] == line, "a head at each end"
    assert found


@pytest.mark.parametrize("name", [n for n in FOLDED if n != "strap book"])
def test_the_parts_of_a_piece_are_as_long_together_as_the_whole(name):
    items = things(name, "step 1")
    lengths = [strokes(ink)[2] for ink in inks(items, "dimension")]
    level, upright = ([math.dist(*s) for s in lengths if abs(s[0][axis] - s[1][axis]) < 1e-6] for axis in (1, 0))
    along = max((level, upright), key=len)
    assert len(along) == len(plans.ALL[name]().sections) + (name != "wrapped book") or name == "wrapped book"
    assert abs(sum(sorted(along)[:-1]) - max(along)) < RULER * len(along)
    left, top, right, bottom = silhouette(items)
    assert abs(max(level) - (right - left)) < RULER and abs(max(upright) - (bottom - top)) < RULER


#: How large the piece lies in each step that shows it, folded by hand: across the page, down the page, in mm.
LYING = {
    "pouch": {"step 1": (220, 315), "step 2": (220, 315), "step 3": (220, 195), "step 4": (220, 195), "step 5": (220, 195)},
    "open bag": {"step 1": (180, 280), "step 2": (180, 280), "step 3": (180, 140)},
    "book": {"step 1": (514.3, 247.1), "step 2": (514.3, 247.1), "step 3": (450, 247.1), "step 4": (385.7, 247.1)},
    "cushion": {"step 1": (396, 828), "step 2": (396, 828), "step 3": (396, 588), "step 4": (396, 396)},
}  # fmt: skip


@pytest.mark.parametrize("name", LYING)
def test_the_piece_is_drawn_as_large_as_it_lies_after_the_folds_before(name):
    for panel, (wide, tall) in LYING[name].items():
        items = things(name, panel)
        left, top, right, bottom = silhouette(items)
        by = divisor(items)
        assert abs((right - left) * by - wide) < RULER * by + 0.1 and abs((bottom - top) * by - tall) < RULER * by + 0.1, panel


@pytest.mark.parametrize("name", FOLDED)
def test_rows_are_lines_as_far_apart_as_rows_are_high(name):
    """Every row, or every second, fifth, tenth, no nearer on paper than a millimetre and a bit."""
    plan = plans.ALL[name]()
    high = sum(s.length_mm for s in plan.sections) / plan.rows
    items = things(name, "step 1")
    by = divisor(items)
    for ink in inks(items, "rows"):
        lines = strokes(ink)
        axis = 1 if abs(lines[0][0][1] - lines[0][-1][1]) < 1e-6 else 0
        levels = sorted({round(line[0][axis], 2) for line in lines})
        gaps = [b - a for a, b in itertools.pairwise(levels)]
        each = [gap * by / high for gap in gaps]
        assert min(gaps) >= 1.1 - RULER
        assert all(abs(n - round(n)) < 0.1 and round(each[0]) in (1, 2, 5, 10, 20) for n in each), each


@pytest.mark.parametrize("name", FOLDED)
def test_parts_have_their_rows_one_after_the_other_through_the_piece(name):
    plan = plans.ALL[name]()
    said = [t.text for t in things(name, "step 1") if isinstance(t, Text)]
    runs = sorted((int(m[1]), int(m[2])) for t in said if (m := re.fullmatch(r"(?:rows|stitches) (\d+)–(\d+)", t)))
    assert runs and runs[0][0] == 1 and all(b == a + 1 for (_, a), (b, _) in itertools.pairwise(runs))
    assert runs[-1][1] == {"wrapped book": plan.stitches, "pocket panel": 154}.get(name, plan.rows), "14 rows of 168 have no room"


@pytest.mark.parametrize("name", FOLDED)
def test_the_numbers_of_a_join_meet_in_pairs_of_one_sum(name):
    """What lies on each other over one fold: the first of one run on the last of the other, and so on."""
    joins = [g for p in panels(name).values() for g in groups(p) if g.name.startswith("join ")]
    for join in joins:
        numbers = [(t.x, t.y, int(t.text)) for t in join.items if isinstance(t, Text) and t.text.isdigit()]
        rows = [[(x, n) for x, _, n in found] for _, found in itertools.groupby(sorted(numbers, key=lambda t: (t[1], t[0])), lambda t: t[1])]
        assert len(rows) >= 2
        for row in rows:
            steps = [b[1] - a[1] for a, b in itertools.pairwise(row)]
            assert len({s // abs(s) for s in steps}) <= 1 and sum(abs(s) != 1 for s in steps) <= 1, "in order, one gap at most"
        if len({len(row) for row in rows}) == 1 and len(rows) == 2:
            assert len({a[1] + b[1] for a, b in zip(*rows, strict=True)}) == 1, "the sum of what meets is one"
        (meets,) = inks(join.items, "what meets")
        cells = {round(x, 2) for row in rows for x, _ in row}
        for line in strokes(meets):
            assert abs(line[0][1] - line[1][1]) == pytest.approx(4.0, abs=RULER), "from strip to strip"
            if len({len(row) for row in rows}) == 1:
                assert line[0][0] == line[1][0] and min(abs(line[0][0] - x) for x in cells) < RULER


def groups(group):
    for item in group.items:
        if isinstance(item, Group):
            yield item
            yield from groups(item)


BORDERED = ("book", "wrapped book", "pouch", "cushion")


@pytest.mark.parametrize("name", BORDERED)
@pytest.mark.parametrize("hand", ["right", "left"])
def test_a_border_lies_as_far_out_on_every_side_and_its_numbers_farther(name, hand):
    panel = next(p for p in panels(name, hand) if inks(things(name, p, hand), "border"))
    items = things(name, panel, hand)
    cloth, border = silhouette(items), box(points_of(inks(items, "border")[0]))
    assert [abs(a - b) for a, b in zip(cloth, border, strict=True)] == pytest.approx([1.8] * 4, abs=RULER)
    counts = [t for t in items if isinstance(t, Text) and t.text.isdigit() and t.weight == "bold" and t.colour != "#ffffff"]
    outside = [t for t in counts if not (border[0] < t.x < border[2] and border[1] < t.y - cap_height(t.size) / 2 < border[3])]
    near = [t for t in outside if border[0] - 12 < t.x < border[2] + 12 and border[1] - 12 < t.y < border[3] + 12]
    assert len(near) >= 8, "four sides at least and four corners"
    corners = [t for t in near if t.text == "3" and t.size < max(c.size for c in near)]
    off = {round(min(math.dist((t.x, t.y - cap_height(t.size) / 2), (x, y)) for x in (cloth[0], cloth[2]) for y in (cloth[1], cloth[3])), 1) for t in corners}
    assert len(corners) == 4 and len(off) == 1, "the rings of the corners as far off each"


@pytest.mark.parametrize("name", FOLDED)
def test_the_hands_see_the_same_piece_in_a_mirror(name):
    for panel in panels(name):
        right, left = (things(name, panel, hand) for hand in ("right", "left"))
        if not inks(right, "edges in view") or not inks(left, "edges in view"):
            continue
        one, other = silhouette(right), silhouette(left)
        assert (one[2] - one[0], one[3] - one[1]) == pytest.approx((other[2] - other[0], other[3] - other[1]), abs=RULER)
        assert divisor(right) == divisor(left)


@pytest.mark.parametrize("name", FOLDED)
def test_layers_from_the_side_are_as_long_as_the_piece_and_lie_one_thickness_apart(name):
    for panel in panels(name):
        items = things(name, panel)
        if not inks(items, "layers"):
            continue
        after = silhouette(items)
        lines = [s for s in strokes(inks(items, "layers")[0]) if len(s) == 2]
        level = abs(lines[0][0][1] - lines[0][1][1]) < 1e-6
        low, high = ((after[0], after[2]) if level else (after[1], after[3]))
        at = sorted({round(s[0][1 if level else 0], 2) for s in lines})
        assert name == "strap book" or all(low - RULER <= p[0 if level else 1] <= high + RULER for s in lines for p in s), panel
        assert all(b - a == pytest.approx(3.4, abs=0.02) for a, b in itertools.pairwise(at)), panel
        ticks = strokes(inks(items, "right side")[0])
        assert all(math.dist(*tick) == pytest.approx(0.3 * 3.4, abs=0.02) for tick in ticks)
        assert all(min(abs(tick[0][1 if level else 0] - y) for y in at) < 0.02 for tick in ticks), "each stands on a layer"


@pytest.mark.parametrize("name", plans.ALL)
def test_words_stand_in_the_middle_of_their_ground(name):
    for panel in panels(name):
        items = things(name, panel)
        for patch, text in itertools.pairwise(items):
            if not (isinstance(patch, Ink) and isinstance(text, Text) and patch.fill and not patch.name and len(points_of(patch)) == 4):
                continue
            left, top, right, bottom = box(points_of(patch))
            wide, tall = text_width(text.text, text.size, text.weight), cap_height(text.size)
            if text.angle:
                wide, tall = tall, wide
                x0, y0, x1, y1 = text.x - wide, text.y - tall / 2, text.x, text.y + tall / 2
            else:
                start = text.x - wide * {"start": 0.0, "middle": 0.5, "end": 1.0}[text.anchor]
                x0, y0, x1, y1 = start, text.y - tall, start + wide, text.y
            white = (x0 - left, y0 - top, right - x1, bottom - y1)
            assert all(0.3 < w < 1.1 for w in white), (panel, text.text, white)


def test_each_sign_of_the_key_stands_level_with_its_words():
    made = assembly_document(plans.ALL["pouch"](), Heading("Ruled"), Setting())
    (key,) = [g for s in made.sheets for g in s.items if isinstance(g, Group) and g.name == "key"]
    items = list(flat(key.items))
    words = [t for t in items if isinstance(t, Text)][1:]
    assert len(words) >= 10
    for text in words:
        middle = text.y - cap_height(text.size) / 2
        signs = [box(points_of(i)) for i in items if isinstance(i, Ink)]
        level = [b for b in signs if b[0] < text.x and b[1] - RULER <= middle <= b[3] + RULER and text.x - b[0] < 20]
        assert level, text.text
    assert len({round(b.y - a.y, 2) for a, b in itertools.pairwise(words)}) == 1, "as far apart each"
