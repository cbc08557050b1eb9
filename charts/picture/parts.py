"""What each stitch is made of: its posts, wraps and loops as strokes, its V, its chains."""

from __future__ import annotations

import functools
import itertools
import math
from collections.abc import Mapping, Sequence

import numpy as np
from hookfold.symbols import kind_of

from ..made_late import replace
from .cloth import Cloth, Made, Place, along_line, leaned, square_to
from .tension import pressed
from .yarn import LOOPS, Bundle, Frame, Skein, unit_to

#: The heads of legs worked together stand so far apart, in stitch widths.
TOGETHER = 0.16
#: How far gathered legs bulge, away from the one who makes them (negative) or towards her.
BULGE = {"bobble": -1.1, "puff": 0.98, "popcorn": 1.3, "cluster": -0.1}
#: How wide a gathered stitch swells to each side.
SWELL = {"bobble": 0.78, "puff": 0.72, "popcorn": 1.0, "cluster": 0.3}
#: Gathered legs stand round a half turn and a little more or less (radians to each side).
ROUND_TURN = 1.3
#: A puff shows so many loops side by side on each face at most, of which the outermost stand out so much at least.
PUFF_LOOPS, PUFF_SIDES = 5, 0.55
#: The tops of a popcorn's stitches lie so far up, in a ring drawn so close, which is seen so far round to either side.
CROWN, CROWN_CLOSE, CROWN_TURN = 0.95, 0.72, 1.4
#: Legs worked together are each so narrow at the head, beside a post that stands alone; what reaches down past the row
#: below lies so far over it.
DRAWN_IN, OVER_ROWS = 0.62, 0.4
#: A slip stitch in one strand of a V lies so far out on the side of the strand (back loop: -1).
SLIP_OVER = -0.7
#: How narrow a post is drawn together by the one that is worked round it.
PINCHED = 0.7
#: A post held round another stands off so much more at its joints, which lie so much lower than those of others.
STANDS_OFF, HELD_JOINT = 1.15, 0.84
#: So many posts have room in one place; where there are more, they are no narrower than this there.
FAN, NARROWEST = 1.5, 0.34
#: A tall post ends so far under its head.
UNDER = 0.36
#: A chain is so long where it lies free.
CHAIN_LONG = 0.75
#: The loop of a picot is as long as its chains and so much more, where they are closed; so its height and its width
#: share that.
PICOT_FOOT, PICOT_ROUND = 1.3, (0.52, 0.48)
#: Its chains lie so narrow beside others, so that it keeps an eye.
PICOT_NARROW = 0.25
#: A stitch stands beside one before it where its V is at least so long, and no longer.
LEAST_BEFORE, MOST_BEFORE = 0.6, 1.5


def skein_of(cloth: Cloth, colours: Mapping[str, int], *, first: int = 0) -> Skein:
    """All strands of a cloth; `colours` gives the place of each colour key, `first` the number of the first stitch."""
    skein = Skein(levels=np.array([s.level for s in cloth.stitches], dtype=np.float32), first=first)
    for at, made in enumerate(leaned(cloth.stitches), first):
        _draw(skein, made, at, colours.get(made.colour, 0))
    if cloth.ended and cloth.stitches:
        _end(skein, cloth.stitches[-1], first + len(cloth.stitches) - 1, colours)
    return skein


@functools.lru_cache(maxsize=1)
def bundles_of(cloth: Cloth, colours: tuple[str, ...]) -> tuple[Bundle, ...]:
    """The yarn of a cloth as its strokes have it; `colours` are the keys in their places."""
    return tuple(skein_of(cloth, {key: at for at, key in enumerate(colours)}).bundles())


@functools.lru_cache(maxsize=1)
def yarn_in(cloth: Cloth, colours: tuple[str, ...]) -> tuple[Bundle, ...]:
    """The yarn of a cloth where it lies after giving way to yarn; `colours` are the keys in their places."""
    return tuple(pressed(bundles_of(cloth, colours), cloth.yarn))


def draw_stitch(skein: Skein, made: Made, at: int, colour: int, *, thick: float = 1.0) -> None:
    """A plain stitch of a border: its post so much thicker as it holds layers between its legs."""
    base, _, _ = make_up(made.spot.kind, made.spot.legs, made.spot.base)
    foot, up = made.feet[0], unit_to(made.feet[0], made.head)
    name = "sc" if base in ("sc", "hdc", "sl st") else "low"
    skein.add(name, Frame((*foot, 0.0), (*made.head, 0.0), up, made.along, made.face * thick), at, colour)
    _top(skein, made, at, colour)


def _draw(skein: Skein, made: Made, at: int, colour: int) -> None:
    role = made.spot.role
    if made.spot.kind == "ch" and role == "foundation":
        _foundation_chain(skein, made, at, colour)
    elif role in ("chain", "start", "turning", "ring") and (made.line or made.spot.chains):
        _chains(skein, made, at, colour)
        if role == "turning" and made.back != made.head:
            _top(skein, made, at, colour)
    elif role == "picot":
        _picot(skein, made, at, colour)
    elif role in ("stitch", "turning", "edge", "foundation"):
        _stitch(skein, made, at, colour)
    elif role == "travel":
        _top(skein, made, at, colour)
    elif role == "join":
        _slip(skein, made, at, colour)


@functools.cache
def make_up(kind: str, legs: int, base: str) -> tuple[str, str, int]:
    """What a stitch is made of: its plain stitch, how it is gathered ("" where it is not), and how many legs."""
    if legs <= 1 and base:
        return base, "", 1
    found = kind_of(kind, legs, base)
    shape = found.shape or ("bobble" if found.form == "gathered" else "")
    return found.base, shape, max(found.legs, legs, 1)


def _stitch(skein: Skein, made: Made, at: int, colour: int) -> None:
    base, shape, legs = make_up(made.spot.kind, made.spot.legs, made.spot.base)
    if made.spot.kind == "sl st" or base == "sl st":
        made = replace(made, over=made.over + SLIP_OVER * made.face * LOOPS.get(made.spot.hold, 0.0))
        _slip(skein, made, at, colour)
        _top(skein, made, at, colour)
        return
    feet = made.feet or ((made.head[0], made.head[1] - 1.0),)
    if shape and shape != "cluster" and len(feet) == 1:
        _gathered(skein, made, feet[0], (shape, legs), at, colour)
    else:
        spread = feet if len(feet) > 1 or legs == 1 else _fanned(feet[0], legs, made)
        for k, foot in enumerate(spread):
            aside = (k - (len(spread) - 1) / 2.0) * min(TOGETHER, 0.5 / len(spread))
            head = (made.head[0] + made.along[0] * aside, made.head[1] + made.along[1] * aside)
            _post(skein, made, foot, head, base, at, colour)
    _top(skein, replace(made, over=0.0), at, colour)  # posts that cross do so below their tops


def _fanned(foot: Place, legs: int, made: Made) -> tuple[Place, ...]:
    """The feet of legs that all go into one place."""
    step = min(0.14, 0.5 / legs)
    shares = [(k - (legs - 1) / 2.0) * step for k in range(legs)]
    return tuple((foot[0] + made.along[0] * s, foot[1] + made.along[1] * s) for s in shares)


def _top(skein: Skein, made: Made, at: int, colour: int) -> None:
    """The V over a post; it gives way to what stands out of the cloth."""
    low, high = (made.over * 0.5 + out for out in made.tops)
    up = square_to(made.back, made.head, made.up)
    skein.add("top", Frame((*made.back, low), (*made.head, high), up, (0.0, 0.0), made.face), at, colour)


def _post(skein: Skein, made: Made, foot: Place, head: Place, base: str, at: int, colour: int) -> None:
    """One post of a plain stitch from a foot to a head, stage by stage."""
    over = made.over + (OVER_ROWS * made.face if made.deep and not made.spot.is_posted else 0.0)
    a = (*foot, made.low + over)
    b = (*head, made.tops[1] + over * 0.7)
    up = unit_to(foot, head)
    width = min(made.spot.size * 1.15, 1.0) * _pinched(made) * (DRAWN_IN if len(made.feet) > 1 else 1.0)
    along = (made.along[0] * width, made.along[1] * width)
    face = made.face
    hold = made.spot.hold if made.spot.hold in ("back loop", "front loop") else ""
    if made.spot.is_posted:
        _held_post(skein, made, foot, head, base, at, colour)
    elif base == "sc":
        skein.add("sc", Frame(a, b, up, along, face, _narrow(made)), at, colour, hold)
        _before(skein, "down", made, a, at, colour, hold)
    elif base == "hdc":
        skein.add("half", Frame(a, _short(a, b), up, along, face, _narrow(made)), at, colour, hold)
        skein.add("third-loop", Frame(a, b, up, along, face), at, colour)
    else:
        stages = stages_of(base)
        _staged(skein, Frame(a, b, up, along, face, _narrow(made)), stages, at, colour, hold)
        share = (1.0 - 1.0 / stages) * _under_top(a, b)
        joint = (a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share, a[2])
        _before(skein, "lead", made, joint, at, colour)


def _before(
    skein: Skein, name: str, made: Made, foot: tuple[float, float, float], at: int, colour: int, hold: str = ""
) -> None:
    """The yarn that comes from the stitch before, where there is one near by, to a place of this one."""
    if LEAST_BEFORE <= math.dist(made.back, made.head) <= MOST_BEFORE and not made.over:
        frame = Frame(foot, (*made.back, foot[2]), unit_to(foot, made.head), made.along, made.face)
        skein.add(name, frame, at, colour, hold)


def _short(a: tuple[float, float, float], b: tuple[float, float, float]) -> tuple[float, float, float]:
    """The head of the legs of a half double: just under its third loop."""
    far = max(math.dist(a, b), 1e-6)
    share = 1.0 - 0.16 / far
    return (a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share, b[2])


def _under_top(a: tuple[float, float, float], b: tuple[float, float, float]) -> float:
    """The share of the way from a foot to a head where a post ends under its V."""
    return max(0.5, 1.0 - UNDER / max(math.dist(a, b), 1e-6))


@functools.cache
def stages_of(base: str) -> int:
    """How many loops a tall stitch has one on the other: one more than its yarn-overs."""
    return max(kind_of(base).yarn_overs + 1, 2)


def _staged(skein: Skein, whole: Frame, stages: int, at: int, colour: int, hold: str = "") -> None:
    """A tall post in a frame: its loops one on the other, a wrap round every joint."""
    a, b = whole.foot, whole.head
    shares = (*(j / stages * _under_top(a, b) for j in range(stages)), 1.0)
    wide = [whole.taper + (1.0 - whole.taper) * share for share in shares]
    joints = [(a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t, a[2] + (b[2] - a[2]) * t) for t in shares]
    for j, (low, high) in enumerate(itertools.pairwise(joints)):
        along = (whole.along[0] * wide[j + 1], whole.along[1] * wide[j + 1])
        frame = Frame(low, high, whole.up, along, whole.out, wide[j] / wide[j + 1])
        name = "low" if j == 0 else "last" if j == stages - 1 else "stage"
        skein.add(name, frame, at, colour, hold if j == 0 else "")
        if j < stages - 1:
            skein.add("wrap", frame, at, colour)


def _held_post(
    skein: Skein, made: Made, foot: Place, head: Place, base: str, at: int, colour: int
) -> None:
    """A post that is held round another: its lowest loop passes behind that one and comes up on both sides of it, seen
    from the side to which it stands out, which is where all of it lies but its head."""
    out = math.copysign(1.0, made.lift)
    stages = stages_of(base) if base not in ("sc", "hdc") else 1
    levels = [made.low, *(made.lift * STANDS_OFF for _ in range(stages - 1)), made.tops[1]]
    shares = [*(j / stages * HELD_JOINT for j in range(stages)), 1.0]
    joints = [(foot[0] + (head[0] - foot[0]) * t, foot[1] + (head[1] - foot[1]) * t, z + made.over)
              for t, z in zip(shares, levels, strict=True)]
    up, narrow = unit_to(foot, head), min(made.spot.size * 1.15, 1.0)
    for j, (low, high) in enumerate(itertools.pairwise(joints)):
        name = "round-post" if j == 0 else "last-held" if j == stages - 1 else "stage"
        along = made.along if j == 0 else (made.along[0] * narrow, made.along[1] * narrow)
        skein.add(name, Frame(low, high, up, along, out), at, colour)
        if j > 0:
            skein.add("held-wrap", Frame(low, low, up, along, out), at, colour)


def _narrow(made: Made) -> float:
    """How narrow a post is at its foot, where others stand beside it in one place."""
    return max(NARROWEST, FAN / made.fan) if made.fan > 1 else 1.0


def _pinched(made: Made) -> float:
    """How wide a post is that another one is worked round, as a share of its own."""
    return PINCHED if made.held else 1.0


def _gathered(skein: Skein, made: Made, foot: Place, what: tuple[str, int], at: int, colour: int) -> None:
    """Legs in one place gathered under one V, standing round out of the cloth: the plain loops of a puff, which lie on
    both sides; else legs with their yarn-overs, a popcorn's as whole posts with tops of their own, drawn together."""
    shape, legs = what
    bulge, swell = BULGE.get(shape, BULGE["bobble"]), SWELL.get(shape, SWELL["bobble"])
    tall = math.dist(foot, made.head)
    up = unit_to(foot, made.head)
    low = (foot[0] - up[0] * 0.08, foot[1] - up[1] * 0.08)
    bulge *= made.face * min(1.0, 0.62 + 0.24 * tall)
    whole = shape == "popcorn"
    if shape == "puff":
        _puff(skein, made, (low, up), legs, bulge, at, colour)
        return
    for aside, deep in _about(legs + (not whole), swell, bulge):
        frame = Frame((*low, 0.0), (*made.head, 0.0), up, _times(made.along, aside), deep)
        skein.add("gathered" if whole else "bowed", frame, at, colour)
    for aside, deep in _about(legs, swell, bulge):
        x, y = ((low[k] + made.head[k]) / 2.0 + made.along[k] * aside for k in (0, 1))
        across = _times(made.along, abs(deep / bulge))
        skein.add("leg-wrap", Frame((x, y, deep), (x, y, deep), up, across, math.copysign(1.0, deep)), at, colour)
    if whole:
        _crown(skein, made, (low, up), (swell, bulge), legs, at, colour)
    _post(skein, made, foot, made.head, "sc", at, colour)


def _puff(
    skein: Skein, made: Made, stands: tuple[Place, Place], legs: int, bulge: float, at: int, colour: int
) -> None:
    """A puff: upright loops side by side on both faces, full in the middle, all drawn through one loop that lies
    across them under its V."""
    low, up = stands
    for side in (1.0, -1.0):
        for aside, deep in _about(min(legs + 2, PUFF_LOOPS), SWELL["puff"], bulge * side, PUFF_SIDES):
            frame = Frame((*low, 0.0), (*made.head, 0.0), up, _times(made.along, aside), deep)
            skein.add("puffed", frame, at, colour)
    skein.add("closing", Frame((*low, 0.0), (*made.head, made.tops[1]), up, made.along, made.face), at, colour)


def _about(many: int, swell: float, bulge: float, least: float = 0.45) -> list[tuple[float, float]]:
    """How far aside and how far out so many legs stand that are gathered round half of a column, the outermost so
    large a share of the bulge at least."""
    turns = [ROUND_TURN * share for share in _shares(many)]
    return [(swell * math.sin(turn), bulge * max(math.cos(turn), least)) for turn in turns]


def _crown(
    skein: Skein, made: Made, stands: tuple[Place, Place], round_: tuple[float, float], legs: int, at: int, colour: int
) -> None:
    """The tops of a popcorn's stitches in a ring drawn close round its upper end, and the loop drawn through the first
    and the last of them, which closes it in front."""
    low, up = stands
    swell, bulge = (far * CROWN_CLOSE for far in round_)
    turns = [CROWN_TURN * share for share in _shares(legs + 1)]
    x, y = (low[k] + (made.head[k] - low[k]) * CROWN for k in (0, 1))
    rim = [(x + made.along[0] * swell * math.sin(turn), y + made.along[1] * swell * math.sin(turn),
            bulge * math.cos(turn)) for turn in turns]
    out = math.copysign(1.0, bulge)
    for a, b in itertools.pairwise(rim):
        skein.add("rim", Frame(a, b, up, (0.0, 0.0), out), at, colour)
    drawn = Frame((x, y, bulge), (*made.head, made.tops[1]), up, made.along, out)
    skein.add("drawn-through", drawn, at, colour)


def _times(way: Place, by: float) -> Place:
    return way[0] * by, way[1] * by


def _shares(legs: int) -> list[float]:
    """Where legs stand from the middle, -1 to 1."""
    return [(k - (legs - 1) / 2.0) / max((legs - 1) / 2.0, 0.5) for k in range(legs)]


# -- chains ---------------------------------------------------------------------------------------------------------


def _foundation_chain(skein: Skein, made: Made, at: int, colour: int) -> None:
    """One chain of the foundation, lying under the first row."""
    x, y = made.head
    far = math.dist(made.back, made.head)
    dx, dy = unit_to(made.back, made.head) if far > 0 else made.along
    long = max(far, 0.8) / 2.0
    low = y - 0.12
    frame = Frame(
        (x - dx * long, low - dy * long, -0.02), (x + dx * long, low + dy * long, -0.02), (dx, dy), (-dy, dx), made.face
    )
    skein.add("chain", frame, at, colour)


def _chains(skein: Skein, made: Made, at: int, colour: int) -> None:
    """A run of chains along its line, or standing one on the other as a beginning chain does."""
    line = made.line
    if len(line) < 2:
        x, y = line[0] if line else made.head
        dx, dy = made.along
        line = ((x - dx * 0.4, y - dy * 0.4), (x + dx * 0.4, y + dy * 0.4))
    _links(skein, made, line, max(made.spot.chains, 1), at, colour)


def _links(
    skein: Skein, made: Made, line: Sequence[Place], count: int, at: int, colour: int, narrow: float = 1.0
) -> None:
    """So many chains along a line, so narrow beside the usual."""
    ends = [along_line(line, k / count) for k in range(count + 1)]
    for a, b in itertools.pairwise(ends):
        dx, dy = unit_to(a, b)
        wide = narrow * min(1.0, 0.55 + 0.6 * math.dist(a, b))
        frame = Frame((*a, made.over), (*b, made.over), (dx, dy), (-dy * wide, dx * wide), made.face)
        skein.add("chain", frame, at, colour)


def _picot(skein: Skein, made: Made, at: int, colour: int) -> None:
    """Chains round a small loop that stands on a head, closed by a slip stitch there."""
    count = max(made.spot.chains, 3)
    (x, y), (ux, uy), (ax, ay) = made.feet[0] if made.feet else made.head, made.up, made.along
    long, wide = (share * (count * CHAIN_LONG + PICOT_FOOT) / math.pi for share in PICOT_ROUND)
    line = []
    for k in range(17):
        turn = math.tau * k / 16.0
        rise, aside = long * (1 - math.cos(turn)), wide * math.sin(turn)
        line.append((x + ux * rise - ax * aside, y + uy * rise - ay * aside))
    _links(skein, made, line, count + 1, at, colour, PICOT_NARROW)


def _slip(skein: Skein, made: Made, at: int, colour: int) -> None:
    """A slip stitch: a loop drawn through what it goes into."""
    foot = made.feet[0] if made.feet else made.head
    far = math.dist(foot, made.head)
    head = made.head if far > 0.15 else (foot[0] + made.up[0] * 0.25, foot[1] + made.up[1] * 0.25)
    frame = Frame((*foot, made.over), (*head, made.over), made.up, made.along, made.face)
    skein.add("slip", frame, at, colour)


def _end(skein: Skein, last: Made, at: int, colours: Mapping[str, int]) -> None:
    """The last loop drawn tight and the yarn cut behind the cloth."""
    (x, y), (dx, dy) = last.head, last.along
    frame = Frame((x, y, 0.0), (x + dx, y + dy, 0.0), last.up, last.along, last.face)
    skein.add("end", frame, at, colours.get(last.colour, 0))
