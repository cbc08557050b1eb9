"""All rounds placed together: concentric at first, then relaxed."""

from __future__ import annotations

import cmath
import math
from collections.abc import Callable, Sequence

import numpy as np

from ...made_late import dataclass
from ..placing.tops import own_rise
from .about_chain import set_about_chain
from .clear import clears
from .corners import Sides
from .form import Form, circular_mean
from .mirror import Mirror, Turning, mirror_of, mirrors_of, turning_of
from .net import Net
from .plan import Planned
from .pulls import half_run, need_of, pulls_of, unsagged
from .springs import Points, Ref, Table, relaxed

#: The least way from one round's beginning line to the next, how wide an arch is at first against half its chains, and
#: at most, and how far its middle stands over its ends.
LEAST_STEP, SPANNED, WIDEST, RISEN = 0.5, 1.3, 2.6, 0.35
#: The same way to a round that goes in past others: begun close about petals it would press them into their loops, and
#: these inward.
BEHIND_STEP = 2.0
#: How near the middle a round worked inward may begin.
LEAST_FAR = 0.6
#: How far chains may sag under the heads beside them, in stitch widths.
SAGGED = 0.05
#: Two ways out from the middle in which the work reaches as far as this, in stitch widths, are alike.
SAME_REACH = 0.3
#: Where on the way from one round of a spiral to the next the first ends and the next begins, of the first two, whose
#: stitches stand about a ring, and of others; how far below its middle the first begins, as a share of its height, and
#: how far above it the last ends, which nothing goes on from.
SPIRAL_ENDS, FIRST_ENDS, FIRST_BEGINS, LAST_ENDS = 0.4, 0.43, 0.28, 0.14
#: The angle of a corner that sets a shape on a flat side.
UPRIGHT = {3: math.pi / 2.0, 4: math.pi / 4.0, 5: math.pi / 2.0, 6: 0.0, 8: math.pi / 8.0}


@dataclass(frozen=True, slots=True)
class Places:
    """Where everything is: the heads of all tops of each round, and the middles of the chains after them."""

    heads: tuple[tuple[complex, ...], ...]
    arches: tuple[dict[int, complex], ...]


def placed(net: Net, form: Form, level: float) -> Places:
    """The rounds relaxed; `level` is the height of the ring that the first stands in."""
    table = Table()
    sides = Sides.found(net, form, level, table)
    pulls = [*pulls_of(net, table, form, sides), *sides.lines(table), *clears(net, table, form, sides)]
    pulls += set_about_chain(net, table, form)
    start, free = begun(net, form, level), not form.half and not net.feet(0, 0)
    mirrors = mirrors_of(net, apart=not form.half and not any(r.corners for r in net.rounds))
    turning = turning_of(net) if not form.half else None
    even = _even([*mirrors, *([turning] if turning else [])]) if mirrors or turning else None
    points = relaxed(table, pulls, start, free=free, even=even)
    firm = unsagged(net, table, sides)
    values = table.packed().values(points)
    if any(np.abs(pull.wish(values) - values[pull.refs]).max() > SAGGED for pull in firm):
        points = relaxed(table, [*pulls, *firm], points, free=free, even=even)
    return Places(
        tuple(tuple(_value(net.head(k, t), points) for t in range(len(r.tops))) for k, r in enumerate(net.rounds)),
        tuple(
            {t: _value(net.arch(k, t), points) for t, top in enumerate(r.tops) if top.chains}
            for k, r in enumerate(net.rounds)
        ),
    )


def _even(likenesses: Sequence[Mirror | Turning]) -> Callable[[Points], Points]:
    """What makes points even in all mirrors and turned by all sectors, from within."""

    def even(points: Points) -> Points:
        for likeness in likenesses:
            points = likeness.even(points)
        return points

    return even


def _value(ref: Ref, points: Points) -> complex:
    return complex(sum(points[k] * factor for k, factor in ref.terms) + ref.const)


def begun(net: Net, form: Form, level: float) -> Points:
    """The concentric start: each round even about the one inside, turned over its feet."""
    points = np.zeros(net.count, dtype=np.complex128)
    lowest = level
    for k, round_ in enumerate(net.rounds):
        feet = [[_value(f, points) for f in net.feet(k, t)] for t in range(len(round_.tops))]
        standing = [sum(f) / len(f) for f in feet if f]
        bases = [float(form.far(np.array([p]))[0]) for p in standing] or [level]
        rises = [own_rise(top.made) for top in round_.tops]
        rise = sum(rises) / len(rises)
        deep = any(f.back > 1 for top in round_.tops for f in top.made.feet)
        far = max(sum(bases) / len(bases) + rise, lowest + (BEHIND_STEP if deep else LEAST_STEP))
        if form.inward:
            far = max(lowest - rise, LEAST_FAR) if k else _reach(net)
        shares = _shares(round_)
        offs = [form.share(round_.sign, sum(f) / len(f)) - s for f, s in zip(feet, shares, strict=True) if f]
        first = circular_mean(offs) if offs else 0.0
        _set(net, form, k, round_, points, [first + s for s in shares], far)
        lowest = far
    return points


def _reach(net: Net) -> float:
    """How far out the outermost of rounds worked inward is begun: with all the others inside it."""
    rises = sum(sum(own_rise(top.made) for top in r.tops) / len(r.tops) for r in net.rounds[1:])
    return rises + max(need_of(net.rounds[-1]) / math.tau, LEAST_FAR)


def _shares(round_: Planned) -> list[float]:
    """The share of the way round at which each top stands, by what lies on it."""
    needs = [min(half_run(top) * SPANNED, WIDEST) if top.chains else 1.0 for top in round_.tops]
    whole, at, shares = sum(needs), 0.0, []
    for need in needs:
        shares.append(at / whole)
        at += need
    return shares


def _set(net: Net, form: Form, k: int, round_: Planned, points: Points, shares: Sequence[float], far: float) -> None:
    each = net.each(round_)
    for t in range(each):
        points[net.head(k, t).terms[0][0]] = form.at(round_.sign, far, shares[t] % 1.0)
        if round_.tops[t].chains:
            after = shares[t + 1] if t + 1 < len(shares) else shares[0] + 1.0
            middle = (shares[t] + after) / 2.0
            points[net.arch(k, t).terms[0][0]] = form.at(round_.sign, far + RISEN, middle % 1.0)


def upright(net: Net, places: Places, *, free: bool) -> Places:
    """Everything turned so that a shape stands on a flat side, petals are even about the middle, or the first stitch
    stands at the top."""
    shaped = next((r for r in net.rounds if r.corners), None)
    if not free or not net.rounds:
        return places
    if shaped is None:
        turn = _petals_upright(net, places)
    else:
        t, run = shaped.corners[0]
        corner = places.arches[shaped.index][t] if run else places.heads[shaped.index][t]
        turn = UPRIGHT[len(shaped.corners)] - cmath.phase(corner)
    by = cmath.rect(1.0, turn)
    return Places(
        tuple(tuple(z * by for z in heads) for heads in places.heads),
        tuple({t: z * by for t, z in arches.items()} for arches in places.arches),
    )


def _petals_upright(net: Net, places: Places) -> float:
    """The turn that sets the first stitch at the top, and on from there that sets a mirror of the rounds upright: one
    through what reaches farthest, the nearest of them."""
    first = math.pi / 2.0 - cmath.phase(places.heads[0][0])
    mirror = mirror_of(net)
    if mirror is None:
        return first
    points = np.array([z for k, r in enumerate(net.rounds) for z in _sector(net, places, k, r)])
    axis = cmath.phase(mirror.axis_of(points)) / 2.0
    every = np.array([z for heads in places.heads for z in heads] + [z for a in places.arches for z in a.values()])
    ways = [axis + math.pi * j / net.n for j in range(2 * net.n)]
    reach = [float((every * cmath.rect(1.0, -way)).real.max()) for way in ways]
    far = [way for way, r in zip(ways, reach, strict=True) if r > max(reach) - SAME_REACH]
    turns = [math.remainder(math.pi / 2.0 - way - first, math.tau) for way in far]
    return first + min(turns, key=lambda turn: (round(abs(turn), 6), -turn))


def _sector(net: Net, places: Places, k: int, round_: Planned) -> list[complex]:
    """The points of a round's first sector, in the order of the net's."""
    each = range(net.each(round_))
    return [*(places.heads[k][t] for t in each), *(places.arches[k][t] for t in each if round_.tops[t].chains)]


def spiralled(net: Net, places: Places) -> Places:
    """Rounds that are not joined, along a spiral: each begins where the one before it ended, without a step."""
    runs, heads = _unjoined(net), list(places.heads)
    far = [sum(abs(z) for z in each) / len(each) for each in heads]
    for k in sorted(runs):
        before = far[k] - far[k - 1] if k else far[k + 1] - far[k]
        after = far[k + 1] - far[k] if k + 1 < len(far) else before
        ended = FIRST_ENDS if k - 2 not in runs else SPIRAL_ENDS
        begins = -FIRST_BEGINS * before if k - 1 not in runs else -(1.0 - ended) * before
        ends = (LAST_ENDS if k + 1 not in runs else FIRST_ENDS if k - 1 not in runs else SPIRAL_ENDS) * after
        count = len(heads[k])
        climbs = (begins + (ends - begins) * t / count for t in range(count))
        heads[k] = tuple(z * (1.0 + climb / max(abs(z), 1e-9)) for z, climb in zip(heads[k], climbs, strict=True))
    return Places(tuple(heads), places.arches)


def _unjoined(net: Net) -> frozenset[int]:
    """The rounds of a spiral: of stitches alone, without corners, the next begun without chains where one that is not
    joined ended; two at least that follow each other."""
    plain = {r.index for r in net.rounds if not r.corners and not any(top.bridge for top in r.tops)}
    begun = {r.index for r in net.rounds if any(s.role in ("turning", "start") for s in r.row.stitches)}
    joined = {r.index for r in net.rounds if any(s.role == "join" for s in r.row.stitches)}
    on = {k for k in plain if k - 1 in plain and k not in begun and k - 1 not in joined}
    return frozenset(on | {k - 1 for k in on if k - 1 not in begun})
