"""Rows over rows: tops over feet, fans, decreases, arches, and what is shared."""

import itertools
import math
from dataclasses import replace

import cloth
import pytest
from hookfold.charts.layout.placing.ink import mark_of
from hookfold.charts.layout.placing.laid import lay_fabric, mirrored
from hookfold.charts.model.cloth.fabric import Foot, Row, Stitch
from hookfold.charts.model.rows.work import work_text
from hookfold.symbols import natural_height

EVERY = {
    "sc": cloth.each("sc", 12, 5, 1, False),
    "hdc": cloth.each("hdc", 12, 5, 2, True),
    "dc": cloth.each("dc", 12, 5, 3, True),
    "shells": cloth.shells(3, 5),
    "v-stitches": cloth.v_stitches(4, 5),
    "mesh": cloth.mesh(5, 5),
    "trellis": cloth.trellis(5, 6),
    "ripple": cloth.ripple(2, 6),
    "bobbles": cloth.bobbles(3, 6),
    "widening": cloth.triangle(5, 8, 1),
    "narrowing": cloth.triangle(20, 8, -1),
}


def stitches(course):
    return [s for s in course.laid.spots if s.role in ("stitch", "turning")]


@pytest.mark.parametrize("name", EVERY)
def test_tops_stand_in_the_order_of_work(name):
    for course in lay_fabric(EVERY[name]).courses:
        xs = [s.head[0] * course.sign for s in course.laid.spots if s.role in ("stitch", "turning", "chain")]
        assert xs == sorted(xs)


@pytest.mark.parametrize("name", ["sc", "hdc", "dc", "shells", "ripple", "bobbles", "widening", "narrowing"])
def test_tops_are_even_where_no_chain_lies_between(name):
    """Within 15 % of one stitch; a bobble may ask for a little more."""
    for course in lay_fabric(EVERY[name]).courses:
        xs = sorted(s.head[0] for s in stitches(course))
        gaps = [b - a for a, b in itertools.pairwise(xs)]
        assert all(0.85 <= gap <= 1.15 for gap in gaps), (course.worked.label, gaps)


@pytest.mark.parametrize("name", EVERY)
def test_feet_stand_on_what_they_are_worked_into(name):
    """A single foot is within 0.1 stitch of its base's head, across and up; fanned feet stay within half a
    fan.
    """
    fabric = EVERY[name]
    laid = lay_fabric(fabric)
    for course in laid.courses:
        below = laid.courses[course.index - 1].laid if course.index else laid.foundation
        rise = below.rise
        feet = [
            (spot, foot)
            for spot in stitches(course)
            for foot in fabric.rows[course.index].row.stitches[spot.item].feet
        ]
        for spot, foot in feet:
            if foot.hold != "top" or foot.back != 1:
                continue
            x, y = below.spots[foot.at].head
            near = min(math.hypot(px - x, py - (y + rise)) for px, py in spot.feet)
            shared = sum(1 for _, other in feet if other.at == foot.at)
            assert near <= 0.1 or (shared > 1 and near <= 0.41), (course.worked.label, spot.item, near)


def test_a_shell_fans_from_one_foot():
    course = lay_fabric(EVERY["shells"]).courses[0]
    shell = course.laid.spots[2:7]
    assert [s.kind for s in shell] == ["dc"] * 5
    assert max(s.feet[0][0] for s in shell) - min(s.feet[0][0] for s in shell) == pytest.approx(4 * 0.13)
    heights = [-s.head[1] for s in shell]
    assert heights[2] == max(heights) and heights[0] < heights[1] < heights[2]


def test_a_decrease_gathers_its_feet():
    course = lay_fabric(EVERY["narrowing"]).courses[1]
    first = next(s for s in course.laid.spots if s.kind == "sc2tog")
    assert len(first.feet) == 2 and abs(first.feet[0][0] - first.feet[1][0]) == pytest.approx(1.0, abs=0.15)


def test_arches_bulge_and_are_held_in_their_middle():
    laid = lay_fabric(EVERY["trellis"])
    arch = next(s for s in laid.courses[0].laid.spots if s.role == "chain")
    assert len(arch.ovals) == 5
    assert arch.head[1] < min(arch.curve[0][1], arch.curve[-1][1]) - 0.5
    held = next(s for s in laid.courses[1].laid.spots if s.kind == "sc")
    middles = [s.head[0] for s in laid.courses[0].laid.spots if s.role == "chain"]
    assert min(abs(held.feet[0][0] - x) for x in middles) < 0.1


def test_ripples_wave_and_plain_rows_do_not():
    waves = {}
    for name in ("dc", "ripple"):
        ys = [s.head[1] for s in stitches(lay_fabric(EVERY[name]).courses[-1])]
        waves[name] = max(ys) - min(ys)
    assert waves["dc"] < 0.01
    assert waves["ripple"] > 0.8


def test_rows_laid_alike_are_one_object():
    laid = lay_fabric(cloth.each("sc", 30, 400, 1, False))
    assert len({id(c.laid) for c in laid.courses}) <= 4


def test_a_bobble_row_stays_level():
    laid = lay_fabric(EVERY["bobbles"])
    ys = [s.head[1] for s in stitches(laid.courses[-1])]
    assert max(ys) - min(ys) < 0.55


def test_mirroring_twice_changes_nothing():
    laid = lay_fabric(EVERY["shells"])
    again = mirrored(mirrored(laid))
    assert [c.laid.spots for c in again.courses] == [c.laid.spots for c in laid.courses]
    assert [c.sign for c in mirrored(laid).courses] == [-c.sign for c in laid.courses]


def test_lace_sets_the_foundation_wider():
    h = cloth.Hook(cloth.foundation(13)).start(1).do("sc")
    for _ in range(4):
        h.sk(1).one(*["dc"] * 7).sk(0).do("sc")
    laid = lay_fabric(cloth.fabric(14, [h.row()], risen=1))
    assert laid.spacing > 1.5
    xs = sorted(s.head[0] for s in stitches(laid.courses[0]))
    assert min(b - a for a, b in itertools.pairwise(xs)) >= 0.79


def test_of_two_posts_that_cross_the_first_is_broken():
    made = [cloth.into("dc", at) for at in (5, 3, 4, 2, 1, 0)]
    course = lay_fabric(cloth.fabric(6, [cloth.Row(tuple(made))])).courses[0]
    broken = [s.item for s in course.laid.spots if s.behind]
    assert broken == [1]
    for at in (p for stem in course.laid.spots[1].behind for p in stem):
        assert 3.0 <= at[0] <= 4.0 and -2.1 < at[1] < 0.0


@pytest.mark.parametrize("turned", [True, False])
def test_a_place_between_two_stitches_is_halfway_to_the_one_passed_before(turned):
    """The row names the stitch that comes next along its own way, whichever way the row below was worked."""
    base = cloth.plain("dc", 6, chains=1, counts=False, base=6)
    order = range(6, 0, -1) if turned else range(1, 7)
    row = Row(tuple(cloth.into("dc", at, hold="between") for at in list(order)[1:]))
    ways = ["right-to-left", "left-to-right" if turned else "right-to-left"]
    rows = tuple(
        replace(w, direction=way, turned=turned)
        for w, way in zip(cloth.fabric(6, [base, row]).rows, ways, strict=True)
    )
    laid = lay_fabric(replace(cloth.fabric(6, [base, row]), rows=rows))
    heads = sorted(s.head[0] for s in laid.courses[0].laid.spots if s.kind == "dc")
    halfway = [(a + b) / 2.0 for a, b in itertools.pairwise(heads)]
    assert sorted(s.feet[0][0] for s in laid.courses[1].laid.spots) == pytest.approx(halfway, abs=0.01)


def test_a_row_of_single_stitches_on_a_level_one_is_level():
    """Post stitches beside the half doubles of the edges: one line of heads."""
    base = cloth.each("dc", 8, 1, 3, True).rows[0].row
    posts = [Stitch("FPdc", (Foot(7 - k, hold="front post"),)) for k in range(1, 7)]
    row = Row((cloth.turning("hdc", 2, 7), *posts, cloth.into("hdc", 0)))
    laid = lay_fabric(cloth.fabric(10, [base, row], risen=3))
    tops = [s.head[1] for s in laid.courses[1].laid.spots]
    assert max(tops) - min(tops) < 0.001
    upright = [abs(s.head[0] - s.feet[0][0]) for s in laid.courses[1].laid.spots if s.kind == "FPdc"]
    assert max(upright) < 0.01


TALL_AND_LOW = """Picot: Ch 3, sl st in 3rd ch from hook.
Ch 20.
Row 1: Sc in 2nd ch from hook, *sk next 2 ch, 7 dc in next ch, sk next 2 ch, sc in next ch; rep from * across, turn.
Row 2: Ch 1, sc in first sc, *[dc in next dc, picot] 6 times, dc in next dc, sc in next sc; rep from * across.
"""


def test_a_low_stitch_between_tall_ones_keeps_its_height():
    """A cross on a long stem reads as one that is worked further down (common practice, no source)."""
    top = lay_fabric(work_text(TALL_AND_LOW).fabric).courses[-1].laid
    crosses = [s for s in top.spots if s.kind == "sc" and s.role == "stitch"]
    assert len(crosses) == 4
    assert all(0.7 < math.dist(s.head, s.feet[0]) < 1.6 for s in crosses)
    stems = [max(y for _, points in mark_of(s).strokes[0] for _, y in points) for s in crosses]
    tops = [min(y for _, points in mark_of(s).strokes[0] for _, y in points) for s in crosses]
    assert all(low - high < 1.0 for low, high in zip(stems, tops, strict=True))


SLIPPED = """Row 1: Sc in 2nd ch from hook and in next 8 ch.
Row 2: Turn, sl st in first 4 sts, ch 1, sc in next 3 sts."""


def test_a_chain_after_slip_stitches_stands_where_it_is_worked():
    """Nine stitches, then slip stitches over the first four and a chain that lifts the work to three sc."""
    fabric = work_text(SLIPPED).fabric
    course = lay_fabric(fabric).courses[1]
    along = [(spot.role, spot.head[0] * course.sign) for spot in course.laid.spots]
    slips = [u for role, u in along if role == "travel"]
    (chain,) = (u for role, u in along if role == "start")
    made = [u for role, u in along if role == "stitch"]
    assert (len(slips), len(made)) == (4, 3)
    assert slips[-1] < chain < made[0]
    low, high = (next(s for s in course.laid.spots if s.role == role) for role in ("travel", "start"))
    foot = max(y for stroke in mark_of(high).strokes for _, points in stroke for _, y in points)
    assert foot <= low.head[1] + 1e-6  # on a sheet, up is less: the oval begins over the slip stitch


def test_the_first_stitch_after_slip_stitches_stands_level():
    fabric = work_text(SLIPPED).fabric
    course = lay_fabric(fabric).courses[1]
    first = next(s for s in course.laid.spots if s.role == "stitch")
    assert first.angle_deg % 180.0 == 0.0


@pytest.mark.parametrize("tall", ["bo in next st", "tr in next st", "popcorn in next st"])
def test_crosses_beside_what_is_taller_keep_their_feet_on_the_row_below(tall):
    """A cross hung at the tops of its neighbours would be read as a stitch that is taller, or worked further down."""
    special = "Bobble (bo): dc5tog in one st.\nPopcorn: 5 dc in one st, drop loop, insert hook in first of these dc, pull \
loop through.\n"
    text = f"{special}Ch 12.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn.\n" + (
        f"Row 2: Ch 1, sc in next 2 sc, *{tall}, sc in next 2 sc; rep from * across, turn.\n"
        "Row 3: Ch 1, sc in each st across."
    )
    found = work_text(text)
    assert not found.problems
    for course, more in zip(lay_fabric(found.fabric).courses[1:], (0.12, 0.36), strict=True):
        crosses = [spot for spot in course.laid.spots if spot.kind == "sc"]
        assert crosses
        for spot in crosses:
            assert 0.84 <= abs(spot.feet[0][1] - spot.head[1]) / natural_height("sc") < 1.005 + more
