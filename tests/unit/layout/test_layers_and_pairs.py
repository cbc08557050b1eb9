"""Layers of petals hooked behind each other, pairs of low stitches in wide spaces, and one size of chain.

Measured on the finished sheet. Source: that a hook is one line but where it passes behind, that a cross stands square to
its stem, and that chains of one sheet are of one size, is common practice of printed charts, no source.
"""

import itertools
import math

import pytest
import svg_ruler
from hookfold.charts.drawing.svg import write
from hookfold.charts.layout.chart.either import chart_document
from hookfold.charts.model.rows.work import work_text
from hookfold.charts.setting import Heading, Setting

LAYERS = """Terms: US
Ch 6, join with sl st in first ch to form ring.
Rnd 1 (RS): Ch 1, [sc in ring, ch 4] 6 times, join with sl st in first sc.
Rnd 2: Ch 1, (sc, hdc, 3 dc, hdc, sc) in each ch-4 sp around, join with sl st in first sc.
Rnd 3: Ch 1, *BPsc around next sc of Rnd 1, ch 6; rep from * 5 more times, join with sl st in first BPsc.
Rnd 4: Ch 1, (sc, hdc, 6 dc, hdc, sc) in each ch-6 sp around, join with sl st in first sc.
"""
PAIRS = """Terms: US
Ch 6, join with sl st in first ch to form ring.
Rnd 1 (RS): Ch 3 (counts as dc), 15 dc in ring, join with sl st in top of beg ch-3.
Rnd 2: Ch 1, *sc in next dc, ch 4, sk next dc; rep from * around, join with sl st in first sc.
Rnd 3: Ch 1, 2 sc in each ch-4 sp around, join with sl st in first sc.
"""
MESH = """Terms: US
Ch 24.
Row 1 (RS): Dc in 6th ch from hook (beg 5 sk ch count as dc, ch 1 and 1 sk ch), *ch 1, sk next ch, dc in next ch; rep from * across, turn.
Row 2: Ch 1, sc in first dc, *sc in next ch-1 sp, sc in next dc; rep from * across, turn.
Row 3: Ch 3 (counts as dc), dc in next sc and in each sc across.
"""


def sheet(text, **more):
    found = work_text(text)
    assert not found.problems, found.problems
    return svg_ruler.read(write(chart_document(found.fabric, Heading("Try"), Setting(extent="full", **more)).sheets[0]))


@pytest.mark.parametrize("hand", ["right", "left"])
def test_a_hook_behind_a_post_is_parted_by_that_post_alone(hand):
    """A cross has its stem and its arms; the hook runs on from the stem past the arms below, and only its end lies apart."""
    hooked = [g for g in sheet(LAYERS, hand=hand).glyphs if g.kind.startswith("bpsc")]
    assert len(hooked) == 6
    assert [len(g.lines) for g in hooked] == [4] * 6  # stem, arms, hook, end
    assert all(g.kind == "bpsc" for g in hooked)  # nothing lies over the hooks' ends


@pytest.mark.parametrize("hand", ["right", "left"])
def test_a_hook_reaches_round_the_post_it_belongs_to(hand):
    """Its end lies on the other side of that stem, under the head of the cross; it does not end above it."""
    read = sheet(LAYERS, hand=hand)
    unit = svg_ruler.stitch_mm(read)
    posts = [max(g.lines, key=lambda line: math.dist(line[0], line[-1])) for g in read.glyphs
             if g.row == "round-1" and g.kind == "sc"]  # fmt: skip
    ring = [g.ink.centroid for g in read.glyphs if g.row == "centre"]
    x, y = sum(p.x for p in ring) / len(ring), sum(p.y for p in ring) / len(ring)
    for hooked in (g for g in read.glyphs if g.kind == "bpsc"):
        ends = [p for line in hooked.lines for p in line]
        post = min(posts, key=lambda line: min(math.dist(p, line[0]) for p in ends))
        foot, head = sorted((post[0], post[-1]), key=lambda p: math.dist(p, (x, y)))
        long = math.dist(foot, head)
        up = ((head[0] - foot[0]) / long, (head[1] - foot[1]) / long)
        placed = [((p[0] - foot[0]) * up[0] + (p[1] - foot[1]) * up[1],
                   (p[0] - foot[0]) * up[1] - (p[1] - foot[1]) * up[0]) for p in ends]  # fmt: skip
        near = [across for along, across in placed if -0.3 * unit < along < long and abs(across) < 0.7 * unit]
        assert min(near) < -0.3 * unit and max(near) > 0.3 * unit


def test_loops_under_petals_bow_outward_with_a_round_behind_them():
    """The petals stand on loops of their own round's size, as they do without the round that is hooked in behind."""
    read = sheet(LAYERS)
    crosses, loops = far(read, "round-1", "sc"), far(read, "round-1", "ch")
    assert max(loops) > max(crosses) + 0.8 * svg_ruler.stitch_mm(read)
    heads = [g.ink for g in read.glyphs if g.row == "round-2" and g.kind in ("sc", "hdc", "dc")]
    assert min(a.distance(b) for a, b in itertools.combinations(heads, 2)) > 0.2


@pytest.mark.parametrize("hand", ["right", "left"])
def test_two_crosses_in_one_wide_space_stand_upright(hand):
    read = sheet(PAIRS, hand=hand)
    crosses = [g for g in read.glyphs if g.row == "round-3" and g.kind == "sc"]
    assert len(crosses) == 16
    for cross in crosses:
        (a, b), (c, d) = sorted((g for g in cross.lines), key=lambda line: -math.dist(line[0], line[-1]))[:2]
        turn = math.atan2(b[1] - a[1], b[0] - a[0]) - math.atan2(d[1] - c[1], d[0] - c[0])
        assert abs(math.sin(turn)) > math.sin(math.radians(72.0))


def long_side(glyph):
    corners = glyph.ink.minimum_rotated_rectangle.exterior.coords
    return max(math.dist(a, b) for a, b in itertools.pairwise(corners))


def test_chains_of_rows_are_of_about_one_size():
    """Foundation, chains that begin rows, chains between stitches: none a quarter longer than another."""
    read = sheet(MESH)
    sizes = [long_side(g) for g in read.glyphs if g.kind in ("ch", "beginning-ch")]
    assert len(sizes) > 20 and max(sizes) < 1.3 * min(sizes)


TWISTS = """Terms: US
Ch 18.
Row 1 (RS): Dc in 4th ch from hook (beg 3 sk ch count as dc) and in each ch across, turn. (16 dc)
Row 2: Ch 1, sc in each dc across, turn. (16 sc)
Row 3: Ch 3 (counts as dc), dc in next 5 sc, sk next 2 dc of Row 1, FPtr around next 2 dc of Row 1, working in front of FPtr \
just made, FPtr around 2 skipped dc of Row 1, sk 4 sc behind FPtr, dc in next 6 sc, turn. (4 FPtr, 12 dc)
Row 4: Ch 1, sc in each st across, turn. (16 sc)
"""


@pytest.mark.parametrize("hand", ["right", "left"])
def test_stitches_that_cross_further_down_end_level_with_the_row(hand):
    read = sheet(TWISTS, hand=hand)
    tops = [g.ink.bounds[1] for g in read.glyphs if g.row == "row-3" and g.kind != "beginning-ch" and "sign" not in g.kind]
    assert len(tops) >= 15 and max(tops) - min(tops) < 0.1
    over = [g.ink.bounds[3] - g.ink.bounds[1] for g in read.glyphs if g.row == "row-4" and g.kind == "sc"]
    assert len(over) == 16 and max(over) - min(over) < 0.1


LOOPS = """Terms: US
Ch 6, join with sl st in first ch to form ring.
Rnd 1 (RS): Ch 1, [sc in ring, ch 6] 6 times, join with sl st in first sc.
Rnd 2: Sl st in next ch-6 sp, ch 3 (counts as dc), 7 dc in same sp, ch 2, *8 dc in next ch-6 sp, ch 2; rep from * around, \
join with sl st in top of beg ch-3.
Rnd 3: Ch 4 (counts as dc and ch 1), *[dc in next dc, ch 1] 6 times, dc in next dc, ch 1, (dc, ch 1) in next ch-2 sp, \
dc in next dc, ch 1; rep from * 4 more times, [dc in next dc, ch 1] 7 times, (dc, ch 1) in last ch-2 sp, join with sl st in \
3rd ch of beg ch-4.
Rnd 4: Sl st in next ch-1 sp, ch 1, sc in same sp, *ch 3, sc in next ch-1 sp; rep from * around, ch 3, join with sl st in \
first sc.
Rnd 5: Sl st in next ch-3 sp, ch 1, sc in same sp, *ch 3, sc in next ch-3 sp; rep from * around, ch 3, join with sl st in \
first sc.
"""


@pytest.fixture(scope="module")
def loops():
    return sheet(LOOPS)


def far(read, row, kind):
    ring = [g.ink for g in read.glyphs if g.row == "centre"]
    x, y = (sum(g.centroid.coords[0][axis] for g in ring) / len(ring) for axis in (0, 1))
    return [math.dist((x, y), g.ink.centroid.coords[0]) for g in read.glyphs if g.row == row and g.kind == kind]


def test_a_round_alike_all_round_does_not_sink_into_hollows(loops):
    unit = svg_ruler.stitch_mm(loops)
    for row in ("round-4", "round-5"):
        reach = far(loops, row, "sc")
        assert len(reach) == 54 and max(reach) - min(reach) < 1.0 * unit


def test_loops_of_one_round_have_one_size(loops):
    for row in ("round-4", "round-5"):
        sizes = [long_side(g) for g in loops.glyphs if g.row == row and g.kind == "ch"]
        assert max(sizes) < 1.25 * min(sizes)


def test_crosses_keep_off_the_loops_they_stand_on(loops):
    loop = [g.ink for g in loops.glyphs if g.row == "round-4" and g.kind == "ch"]
    feet = [g.ink for g in loops.glyphs if g.row == "round-5" and g.kind == "sc"]
    assert min(c.distance(o) for c in feet for o in loop) > 0.05


def test_a_slip_stitch_into_a_wide_space_lies_where_its_round_begins(loops):
    """Seen from the centre, beside the foot of the chains that begin the round: nearer than the middle of their space."""
    ring = [g.ink.centroid for g in loops.glyphs if g.row == "centre"]
    x, y = sum(p.x for p in ring) / len(ring), sum(p.y for p in ring) / len(ring)

    def bearing(point):
        return math.atan2(point[1] - y, point[0] - x)

    (dot,) = [g.ink.centroid.coords[0] for g in loops.glyphs if g.row == "round-2" and g.kind == "sl-st-solid"]
    begun = [g.ink.centroid.coords[0] for g in loops.glyphs if g.row == "round-2" and g.kind == "beginning-ch"]
    foot = min(begun, key=lambda p: math.dist(p, (x, y)))
    aside = abs(math.remainder(bearing(dot) - bearing(foot), math.tau))
    heads = [g.lines[1][0] for g in loops.glyphs if g.row == "round-2" and g.kind == "dc"]
    near = sorted(abs(math.remainder(bearing(p) - bearing(foot), math.tau)) for p in heads)
    assert aside < near[2]  # of its petal's seven other posts


def test_a_count_has_the_ink_of_its_round_and_no_other_number_near():
    found = work_text(PAIRS)
    svg = write(chart_document(found.fabric, Heading("Try"), Setting(extent="full")).sheets[0])
    read = svg_ruler.read(svg)
    numbers = {words: at for words, at in read.texts if words in ("1", "2", "3")}
    for words, at in read.texts:
        if words.startswith("(") and words[1:-1].isdigit():
            away = sorted(at.distance(n) for n in numbers.values())
            assert away[1] > 1.9 * away[0]
