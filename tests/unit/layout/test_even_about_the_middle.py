"""Work that reads the same backwards lies the same about its middle, whichever way its rows run and whatever begins them;
rounds lie the same after each of their parts; work over more repeats lies as the same over fewer does."""

import functools
import math
from pathlib import Path

import pytest
from hookfold.charts.layout.placing.laid import lay_fabric, mirrored
from hookfold.charts.layout.rounds.lay import lay_for_both_hands
from hookfold.charts.model.rows.work import work_text

FABRICS = Path(__file__).parents[3] / "gallery" / "fabrics"
#: Fabrics of the gallery whose rows read the same backwards, and how far a place may be from its mirror image, in
#: stitches: where a chain that counts begins a row of chain spaces it stands a little nearer than a stitch.
ALIKE = {
    "basketweave": 0.01, "bobbles": 0.01, "clusters": 0.01, "crossed": 0.01, "double-crochet": 0.01, "filet-heart": 0.01,
    "half-double": 0.01, "leaning-cables": 0.01, "mesh": 0.01, "mosaic": 0.01, "moss-stitch": 0.01, "pineapple": 0.01,
    "popcorns": 0.01, "post-rib": 0.01, "puffs": 0.01, "ripple": 0.01, "shells": 0.03, "single-crochet": 0.01,
    "picot-shells": 0.01, "scalloped-edging": 0.01, "spikes": 0.01, "v-stitch": 0.2, "trellis": 0.05, "chevron": 0.03,
}  # fmt: skip
#: Rows that read the same backwards, of our own: places, groups, loops and rows further down.
OWN = {
    "decreases in the middle": """Ch 14.
Row 1: Sc in 2nd ch from hook and in each ch across. (13 sc)
Row 2: Ch 1, turn. Sc in first 5 sc, sc3tog, sc in last 5 sc. (11 sc)
Row 3: Ch 1, turn. Sc in first 4 sc, sc3tog, sc in last 4 sc. (9 sc)""",
    "a fan between arches": """Ch 20.
Row 1: Sc in 2nd ch from hook and in each ch across. (19 sc)
Row 2: Ch 1, turn. Sc in first sc, ch 5, sk 3 sc, sc in next sc, sk 4 sc, 7 tr in next sc, sk 4 sc, sc in next sc, ch 5, sk 3 sc, sc in last sc.
Row 3: Ch 1, turn. Sc in first sc, 5 sc in next ch-5 sp, sc in next sc, sc in next 7 tr, sc in next sc, 5 sc in next ch-5 sp, sc in last sc. (21 sc)""",
    "stitches further down": """Ch 12.
Row 1: Sc in 2nd ch from hook and in each ch across. (11 sc)
Row 2: Ch 1, turn. Sc in each sc across. (11 sc)
Row 3: Ch 1, turn. Sc in each sc across. (11 sc)
Row 4: Ch 1, turn. Sc in first 2 sc, dc in corresponding sc 2 rows below, sk sc behind it, sc in next 5 sc, dc in corresponding sc 2 rows below, sk sc behind it, sc in last 2 sc. (9 sc, 2 dc)""",
    "tall between low": """Ch 12.
Row 1: Sc in 2nd ch from hook and in each ch across. (11 sc)
Row 2: Ch 1, turn. Sc in first 2 sc, hdc in next sc, dc in next sc, tr in next 3 sc, dc in next sc, hdc in next sc, sc in last 2 sc. (11 sts)
Row 3: Ch 1, turn. Sc in each st across. (11 sc)""",
    "legs apart": """Ch 12.
Row 1: Sc in 2nd ch from hook and in each ch across. (11 sc)
Row 2: Ch 1, turn. Sc in first 3 sc, dc5tog, sc in last 3 sc. (7 sts)
Row 3: Ch 1, turn. Sc in first 3 sc, 5 dc in next st, sc in last 3 sc. (11 sts)""",
}  # fmt: skip
TEXTS = OWN | {name: (FABRICS / f"{name}.txt").read_text("utf-8") for name in ALIKE}


@functools.cache
def laid(name):
    return lay_fabric(work_text(TEXTS[name]).fabric)


def standing(course):
    return [s for s in course.laid.spots if s.role in ("stitch", "turning", "chain")]


def middle_of(course):
    xs = [s.head[0] for s in standing(course)]
    return (min(xs) + max(xs)) / 2


@pytest.mark.parametrize("name", TEXTS)
def test_rows_that_read_the_same_backwards_lie_even_about_their_middle(name):
    """Heads, feet and the chains between, each with another of its kind over against it; all rows about one line."""
    still = ALIKE.get(name, 0.01)
    middles = set()
    for course in laid(name).courses:
        middle = middle_of(course)
        middles.add(round(middle, 1))
        spots = standing(course)
        turning = any(s.role == "turning" for s in spots)  # it has no mirror image but for its head
        for what in ("head",) if turning else ("head", "feet", "ovals"):
            points = [(x - middle, y) for s in spots for x, y, *_ in ([s.head] if what == "head" else getattr(s, what))]
            for x, y in points:
                assert min(math.dist((-x, y), p) for p in points) <= still + 0.005, (course.worked.label, what, x, y)
    assert max(middles) - min(middles) <= 2 * still + 0.1


@pytest.mark.parametrize("name", TEXTS)
def test_stems_lean_to_the_middle_on_one_side_as_on_the_other(name):
    """The way from foot to head of each stitch is the mirror image of that of the one over against it."""
    for course in laid(name).courses:
        spots = [s for s in sorted(standing(course), key=lambda s: s.head[0]) if s.role != "chain"]
        leans = [(s.kind, s.head[0] - sum(x for x, _ in s.feet) / len(s.feet)) if s.feet and s.role == "stitch" else None for s in spots]
        for one, other in zip(leans, reversed(leans), strict=True):
            assert one is None or other is None or one[0] != other[0] or abs(one[1] + other[1]) < 0.2, course.worked.label


@pytest.mark.parametrize("name", TEXTS)
def test_the_other_hand_sees_the_same_rows_from_the_other_side(name):
    for one, other in zip(laid(name).courses, mirrored(laid(name)).courses, strict=True):
        assert (one.sign, one.y, one.laid.rise) == (-other.sign, other.y, other.laid.rise)
        for a, b in zip(one.laid.spots, other.laid.spots, strict=True):
            assert [(-x, y) for x, y in (a.head, *a.feet, *a.curve, *a.route)] == [tuple(p) for p in (b.head, *b.feet, *b.curve, *b.route)]
            assert [(-x, y, -turn) for x, y, turn in a.ovals] == list(b.ovals) and a.angle_deg == -b.angle_deg


@pytest.mark.parametrize("name", TEXTS)
def test_each_row_begins_where_the_one_below_ends(name):
    """The levels add up: a row stands on the rise of all below it, and no head of it lies under that level."""
    level = 0.0
    for course in laid(name).courses:
        assert course.y == pytest.approx(level)
        assert course.laid.rise > 0 and course.middle == pytest.approx(level - course.laid.rise / 2)
        plain = [s for s in standing(course) if s.role == "stitch"]
        assert all(s.head[1] < min(y for _, y in s.feet) for s in plain)
        heads = [-s.head[1] for s in plain if s.kind != "sl st"]
        assert not heads or min(heads) - 1e-6 <= course.laid.rise <= max(heads) + 0.3
        level -= course.laid.rise


ROUNDS = {"granny-square": 4, "hexagon": 6, "loop-star": 6, "solid-circle": 6, "solid-square": 4, "oval-mat": 2}


@functools.cache
def both(name):
    return lay_for_both_hands(work_text((FABRICS / f"{name}.txt").read_text("utf-8")).fabric)


def rings(name, hand="right"):
    return both(name)[hand == "left"].rings


@pytest.mark.parametrize("name", ROUNDS)
def test_a_motif_turned_by_one_of_its_parts_lies_on_itself(name):
    turn = math.tau / ROUNDS[name]
    cos, sin = math.cos(turn), math.sin(turn)
    for ring in rings(name):
        heads = [s.head for s in ring.laid.spots if s.role in ("stitch", "turning", "chain")]
        for x, y in heads:
            assert min(math.dist((x * cos - y * sin, x * sin + y * cos), p) for p in heads) < 0.02, ring.worked.label


@pytest.mark.parametrize("name", ROUNDS)
def test_rounds_lie_one_outside_the_other_and_stitches_reach_outward(name):
    """The mean way out of heads grows from round to round where rounds go into the one inside; each stitch of a round leads
    outward from what it goes into, by less than twice its own height."""
    far = 0.0
    for ring in rings(name):
        made = [s for s in ring.laid.spots if s.role == "stitch" and s.feet]
        mean = sum(math.hypot(*s.head) for s in made) / len(made)
        assert mean > far, ring.worked.label
        far = mean
        for s in made:
            foot = (sum(x for x, _ in s.feet) / len(s.feet), sum(y for _, y in s.feet) / len(s.feet))
            if name != "oval-mat":
                assert math.hypot(*s.head) > math.hypot(*foot) - 0.05, (ring.worked.label, s.kind)


@pytest.mark.parametrize("name", ROUNDS)
def test_rounds_for_the_other_hand_are_the_mirror_image(name):
    for one, other in zip(rings(name), rings(name, "left"), strict=True):
        for a, b in zip(one.laid.spots, other.laid.spots, strict=True):
            if a.role in ("stitch", "chain"):
                assert math.dist((-a.head[0], a.head[1]), b.head) < 0.02, (one.worked.label, a.kind)
