"""Every stitch as drawn: what stretches, what keeps its size, what it stands on."""

from __future__ import annotations

import itertools
import math

import pytest
from hookfold import symbols
from hookfold.symbols import (
    PEN,
    chain,
    chain_stack,
    draw,
    extent,
    glyph,
    heights,
    natural_height,
    picot,
    stitch,
)
from hookfold.symbols.dictionary import PREFIXES, SHAPES
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString

PLAIN = [k for k in heights() if k != "sl st"]
EVERY = [
    *heights(), "ch", "picot",
    *(prefix + base for prefix in PREFIXES for base in PLAIN),
    *(f"{base}{n}tog" for base in PLAIN for n in (2, 3, 5)),
    *(f"{base}-{shape}-{n}" for base in PLAIN for shape in SHAPES for n in (2, 3, 5, 7)),
    "FPdc2tog", "BPtr3tog",
]  # fmt: skip
HOLDS = ("top", "front loop", "back loop", "space", "front post", "back post")


def ink_points(mark: symbols.Mark) -> list[tuple[float, float]]:
    """Points close together along the strokes of a mark."""
    found = []
    for path in mark.strokes:
        here = path[0][1][0]
        for command, ends in path[1:]:
            handles = (here, *ends) if command in "LC" else (here, path[0][1][0])
            for k in range(41):
                points = list(handles)
                while len(points) > 1:
                    points = [
                        (a[0] + (b[0] - a[0]) * k / 40, a[1] + (b[1] - a[1]) * k / 40)
                        for a, b in itertools.pairwise(points)
                    ]
                found.append(points[0])
            here = handles[-1]
    return found


def slashes(kind: str) -> int:
    """Short straight strokes that lean across an upright post."""
    mark = draw(kind, [(0.0, 0.0)], (0.0, -natural_height(kind)))
    straight = [path for path in mark.strokes if len(path) == 2]
    ends = [(path[0][1][0], path[1][1][0]) for path in straight]
    return sum(1 for a, b in ends if abs(a[0] - b[0]) > 0.01 and abs(a[1] - b[1]) > 0.01)


@pytest.mark.parametrize("sc_form", ["plus", "x"])
def test_every_stitch_has_ink_between_its_foot_and_its_head(sc_form: str) -> None:
    for kind in EVERY:
        shown = glyph(kind, sc_form=sc_form)
        left, top, right, bottom = shown.box
        assert shown.box == extent(shown.mark), kind
        round_a_post = kind[:2] in ("FP", "BP")
        assert shown.head[1] - 0.1 <= top < bottom <= shown.foot[1] + (1.3 if round_a_post else 0.3), kind
        assert left < 0 < right and -left == pytest.approx(right, abs=0.5), kind


@pytest.mark.parametrize(("kind", "count"), [("hdc", 0), ("dc", 1), ("tr", 2), ("dtr", 3), ("trtr", 4)])
def test_a_post_has_one_slash_for_each_yarn_over(kind: str, count: int) -> None:
    """Shape convention: common practice, no source."""
    assert slashes(kind) == count


@pytest.mark.parametrize("base", PLAIN)
def test_each_post_is_taller_than_the_one_below(base: str) -> None:
    order = list(heights())
    below = order[order.index(base) - 1]
    assert natural_height(below) < natural_height(base)


@pytest.mark.parametrize("kind", ["hdc", "dc", "tr"])
@given(length=st.floats(1.4, 9.0), lean=st.floats(-80.0, 80.0))
def test_a_post_stretches_but_bar_and_slashes_keep_their_size(kind: str, length: float, lean: float) -> None:
    head = (length * math.sin(math.radians(lean)), -length * math.cos(math.radians(lean)))
    sizes = [_length(path) for path in draw(kind, [(0.0, 0.0)], head).strokes]
    natural = [_length(path) for path in glyph(kind).mark.strokes]
    assert sizes[0] == pytest.approx(natural[0] + length - natural_height(kind))
    assert sizes[1:] == pytest.approx(natural[1:])


def _length(path: symbols.ink.SubPath) -> float:
    points = [points[-1] for _, points in path]
    return sum(math.dist(a, b) for a, b in itertools.pairwise(points))


def test_neighbours_of_one_kind_do_not_touch() -> None:
    """Tops stand one stitch apart; what is gathered or works several may be wider than one stitch."""
    for kind in EVERY:
        what = stitch(kind)
        left, _, right, _ = glyph(kind).box
        several = max(1.0, (what.legs - 1) * 0.28 + 0.3) if what.form == "gathered" else what.takes
        room = max(several, 1.05 if kind == "picot" else 1.0)
        posted = what.form.endswith("post") or kind[:2] in ("FP", "BP")
        over = 0.5 if posted and what.takes > 1 else 0.25 if what.takes > 1 or posted else 0.0
        assert right - left < room + over, kind


@pytest.mark.parametrize("kind", PLAIN)
@pytest.mark.parametrize("hold", ["front loop", "back loop"])
def test_a_loop_is_marked_by_an_arc_above_the_bar_below(kind: str, hold: str) -> None:
    plain, held = glyph(kind), glyph(kind, hold=hold)
    assert len(held.mark.strokes) == len(plain.mark.strokes) + 1
    assert held.box[3] <= 0.0


@pytest.mark.parametrize("kind", PLAIN)
def test_front_and_back_differ_by_more_than_a_mirror(kind: str) -> None:
    """The hook of a back post is in two pieces, on both sides of the stem in front of it."""
    front, back = glyph(f"FP{kind}"), glyph(f"BP{kind}")
    assert len(back.mark.strokes) == len(front.mark.strokes) + 1


@pytest.mark.parametrize("legs", range(2, 8))
@pytest.mark.parametrize("shape", [shape for shape in SHAPES if shape != "puff"])
def test_a_gathered_stitch_has_its_legs(shape: str, legs: int) -> None:
    curved = [p for p in glyph(f"dc-{shape}-{legs}").mark.strokes if p[-1][0] == "C"]
    assert len(curved) == legs


@pytest.mark.parametrize("legs", range(2, 8))
@pytest.mark.parametrize("base", ["hdc", "dc"])
def test_a_puff_is_a_lens_of_loops_and_no_stitch_is_read_in_it(base: str, legs: int) -> None:
    """Nothing straight: neither a stem nor a bar nor a slash, whatever its loops are pulled up for; that a puff's sign is
    an oval of gathered loops is common practice, no source."""
    mark = glyph(f"{base}-puff-{legs}").mark
    assert mark.strokes and all(path[-1][0] == "C" for path in mark.strokes)
    ends = {(path[0][1][0], path[-1][1][-1]) for path in mark.strokes}
    assert len(ends) == 1  # all begin in the one foot and end in the one top
    xs = [x for path in mark.strokes for x, _ in path[-1][1][:2]]
    assert min(xs) == pytest.approx(-max(xs)) and max(xs) > 0.2 and len(mark.strokes) == legs


def test_a_special_stitch_is_drawn_as_the_legs_it_is_made_of() -> None:
    assert draw("bo", [(0.0, 0.0)], (0.0, -2.1), legs=5) == glyph("dc-bobble-5").mark
    assert draw("my puff", [(0.0, 0.0)], (0.0, -1.5), legs=3, base="hdc") == glyph("hdc-puff-3").mark
    assert draw("pc", [(0.0, 0.0)], (0.0, -2.1), legs=5) == glyph("dc-popcorn-5").mark


def test_feet_in_one_place_gather_and_feet_apart_do_not() -> None:
    together = draw("dc3tog", [(0.0, 0.0)] * 3, (0.0, -2.1))
    assert together == glyph("dc-cluster-3").mark
    assert draw("dc3tog", [(-1.0, 0.0), (0.0, 0.0), (1.0, 0.0)], (0.0, -2.1)) == glyph("dc3tog").mark


@pytest.mark.parametrize("chains", range(1, 7))
def test_a_beginning_chain_is_a_stack_of_ovals_that_do_not_touch(chains: int) -> None:
    height = 0.7 * chains + 0.1
    ovals = draw("dc", [(0.0, 0.0)], (0.0, -height), chains=chains).strokes
    boxes = sorted(extent(symbols.Mark((o,))) for o in ovals)
    boxes.sort(key=lambda b: b[1])
    assert len(boxes) == chains
    assert all(above[3] < below[1] for above, below in itertools.pairwise(boxes))
    assert boxes[0][1] >= -height and boxes[-1][3] <= 0.0
    assert chain_stack((0.0, 0.0), (0.0, -height), chains).strokes == ovals


def test_a_chain_keeps_the_pen_and_clears_the_next() -> None:
    left, _, right, _ = extent(chain((0.0, 0.0), 0.0))
    assert right - left < 1.0 - PEN / 2


@pytest.mark.parametrize("chains", range(2, 9))
def test_a_picot_s_chains_do_not_touch(chains: int) -> None:
    mark = picot(chains, (0.0, 0.0))
    rings = [[points[-1] for c, points in s if c != "Z"] for s in mark.strokes]
    assert len(rings) == chains
    nearest = min(
        math.dist(p, q) for one, other in itertools.combinations(rings, 2) for p in one for q in other
    )
    assert nearest > PEN


def test_a_post_behind_another_is_broken_there() -> None:
    whole = draw("dc", [(0.0, 0.0)], (0.0, -2.1))
    broken = draw("dc", [(0.0, 0.0)], (0.0, -2.1), behind=[(0.0, -1.0)])
    assert len(broken.strokes) == len(whole.strokes) + 1


def test_a_stitch_without_a_foot_is_refused() -> None:
    with pytest.raises(ValueError, match="needs a foot"):
        draw("dc", [], (0.0, -1.0))


@pytest.mark.parametrize("sc_form", ["plus", "x"])
def test_two_single_crochets_in_one_stitch_keep_clear(sc_form: str) -> None:
    left, right = (draw("sc", [(0.0, 0.0)], (x, -1.0), sc_form=sc_form, reaches=True).strokes[1] for x in (-0.5, 0.5))
    assert max(points[-1][0] for _, points in left) + PEN < min(points[-1][0] for _, points in right)


@pytest.mark.parametrize("name", ["start", "fasten_off", "join", "turn", "marker", "no_stitch"])
def test_signs_have_ink_near_their_place(name: str) -> None:
    box = extent(getattr(symbols, name)((5.0, 5.0)))
    assert 3.9 < box[0] < box[2] < 6.1 and 3.9 < box[1] < box[3] < 6.1


@given(kind=st.sampled_from(EVERY), hold=st.sampled_from(HOLDS), x=st.floats(-3, 3), y=st.floats(-4, 4))
def test_any_stitch_can_be_drawn_anywhere(kind: str, hold: str, x: float, y: float) -> None:
    legs = max(stitch(kind).legs, 1)
    mark = draw(kind, [(i * 0.8, 0.0) for i in range(legs)], (x, y), hold=hold)
    assert all(math.isfinite(v) for v in extent(mark))


@pytest.mark.parametrize("sc_form", ["plus", "x"])
@pytest.mark.parametrize(("lean", "turned"), [(20.0, 20.0), (45.0, 30.0)])
def test_a_leaning_cross_is_the_upright_one_turned_but_never_becomes_the_other_form(sc_form, lean, turned) -> None:
    head = (1.2 * math.sin(math.radians(lean)), -1.2 * math.cos(math.radians(lean)))
    upright = draw("sc", [(0.0, 0.0)], (0.0, -1.2), sc_form=sc_form, along_deg=0.0, reaches=True)
    leaning = draw("sc", [(0.0, 0.0)], head, sc_form=sc_form, along_deg=0.0, reaches=True)
    arms = {"plus": slice(1, 2), "x": slice(0, 2)}[sc_form]
    for one, other in zip(upright.strokes[arms], leaning.strokes[arms], strict=True):
        assert (_direction(other) - _direction(one)) % 180.0 == pytest.approx(turned)


@given(lean=st.floats(-89.0, 89.0), along=st.floats(-180.0, 180.0))
def test_a_cross_never_closes_up(lean: float, along: float) -> None:
    head = (1.5 * math.sin(math.radians(lean)), -1.5 * math.cos(math.radians(lean)))
    stem, arms = draw("sc", [(0.0, 0.0)], head, along_deg=along).strokes
    assert abs((_direction(stem) - _direction(arms) + 90.0) % 180.0 - 90.0) > 50.0


def _direction(path: symbols.ink.SubPath) -> float:
    (x0, y0), (x1, y1) = path[0][1][0], path[-1][1][-1]
    return math.degrees(math.atan2(y1 - y0, x1 - x0)) % 180.0


def test_the_stitches_of_a_fan_in_one_loop_share_one_arc() -> None:
    heads = [(-1.0, -1.0), (0.0, -1.0), (1.0, -1.0)]
    fan = [draw("sc", [(0.0, 0.0)], head, hold="back loop", along_deg=0.0) for head in heads]
    assert len({mark.strokes[-1] for mark in fan}) == 1


@pytest.mark.parametrize("kind", [f"{side}{k}" for side in ("FP", "BP") for k in PLAIN])
def test_a_post_stitch_stands_upright_and_its_hook_passes_beside_the_bar_below(kind: str) -> None:
    """Its stem is plumb over the bar below it, which is half 0.38 wide with its pen: there the hook is farther out."""
    mark = draw(kind, [(0.0, 0.0)], (0.0, -natural_height(kind)))
    stem = mark.strokes[0]
    assert {p[0] for _, points in stem for p in points} == {0.0}
    assert max(p[1] for _, points in stem for p in points) < -0.3
    lead = [p for path in mark.strokes for p in ink_points(symbols.Mark((path,))) if 0.0 < p[1] < 0.3]
    assert lead and all(abs(x) - 0.05 > 0.38 for x, _ in lead)


def test_the_hook_crosses_the_stem_below_in_front_and_is_parted_by_it_behind() -> None:
    """The stem of the stitch below is the line x = 0 under the foot: one hook lies on it, the other keeps off it."""
    lying = {}
    for kind in ("FPdc", "BPdc"):
        points = ink_points(draw(kind, [(0.0, 0.0)], (0.0, -natural_height(kind))))
        lying[kind] = min(abs(x) for x, y in points if y > 0.3)
        assert min(x for x, y in points if y > 0.3) < -0.3 and max(x for x, y in points if y > 0.3) > 0.3
    assert lying["FPdc"] < 0.06
    assert lying["BPdc"] > 0.05 + 0.05 + 0.1


def test_a_post_stitch_two_rows_down_runs_between_the_stitches_it_passes() -> None:
    """Upright over its own row, then half a stitch beside the column, to the stem that it clasps: on the left round the
    front, on the right round the back."""
    for kind, pieces, lane in (("FPtr", 5, -0.5), ("BPtr", 6, 0.5)):
        mark = draw(kind, [(0.0, 0.0)], (0.0, -3.0), own_height=2.0)
        assert len(mark.strokes) == pieces
        passing = [p for p in ink_points(mark) if -0.9 < p[1] < 0.3]
        assert all(x == pytest.approx(lane) for x, _ in passing)
        assert max(y for _, y in ink_points(mark)) == pytest.approx(0.84)


@pytest.mark.parametrize("height", [1.0, 1.2, 1.5, 2.4])
def test_a_cross_keeps_its_size_however_high_it_stands_but_reaches_a_row_further_down(height: float) -> None:
    box = extent(draw("sc", [(0.0, 0.0)], (0.0, -height)))
    assert box[3] - box[1] == pytest.approx(0.88)
    long = extent(draw("sc", [(0.0, 0.0)], (0.0, -height), own_height=1.0))
    assert long[3] - long[1] == pytest.approx(height - 0.12)
    assert box[1] == pytest.approx(-height + 0.05)


def test_a_cross_over_its_foot_leans_little_and_all_arms_are_as_wide() -> None:
    for x, height, along in ((0.0, 1.0, 0.0), (1.0, 1.2, 20.0), (-1.0, 1.2, -20.0), (1.0, 1.2, 0.0)):
        stem, arms = draw("sc", [(0.0, 0.0)], (x, -height), along_deg=along).strokes
        assert (_direction(stem) - _direction(arms)) % 180.0 == pytest.approx(90.0)
        off = (_direction(arms) - along + 90.0) % 180.0 - 90.0
        assert abs(off) == pytest.approx(0.0 if not x else 15.0)
        assert math.dist(arms[0][1][0], arms[-1][1][-1]) == pytest.approx(0.62)



@pytest.mark.parametrize("legs", [2, 3])
def test_crosses_worked_together_are_a_cross_on_each_leg(legs: int) -> None:
    """In the key, where feet stand a stitch apart as on the chart, there is white for two pens from arm to arm."""
    strokes = glyph(f"sc{legs}tog").mark.strokes
    lines = [LineString([points[-1] for _, points in path]) for path in strokes]
    stems, arms = lines[:legs], lines[legs:]
    assert len(arms) == legs
    for k, arm in enumerate(arms):
        assert arm.crosses(stems[k])
        assert all(arm.distance(other) > 0.28 for other in (*stems[:k], *stems[k + 1 :], *arms[:k], *arms[k + 1 :]))


@pytest.mark.parametrize("hold", ["front loop", "back loop"])
@pytest.mark.parametrize("tall", [0.8, 1.0])
def test_the_arms_of_crosses_worked_together_keep_off_the_arcs_of_single_loops(hold: str, tall: float) -> None:
    """By more than a pen: one arc under each foot, the arms of both legs over them."""
    mark = draw("sc2tog", [(-0.5, 0.0), (0.5, 0.0)], (0.0, -tall), hold=hold, along_deg=0.0)
    paths = [LineString(ink_points(symbols.Mark((path,)))) for path in mark.strokes]
    arcs = [p for path, p in zip(mark.strokes, paths, strict=True) if any(command == "C" for command, _ in path)]
    arms = [p for p in paths if p not in arcs and abs(p.length - 0.32) < 1e-6]
    assert len(arcs) == 2 and len(arms) == 2
    assert min(arc.distance(arm) for arc in arcs for arm in arms) > 0.1
