"""What keeps clear of the rounds inside: arches of the tops they pass over, stitches of picots that stand by them, the
stems of a fan of the arches beside what it stands on."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np
from hookfold.symbols import picot_radius

from ..placing.tops import own_rise
from .corners import Sides
from .form import Form
from .net import Net
from .plan import Planned
from .springs import Ids, Points, Pull, Table, mean

#: How firmly an arch keeps clear, more about an oval, whose ends it would cut across, and where it runs behind petals;
#: by how much, and of how many rounds inside.
CLEAR, CLEAR_OVAL, BEHIND = 1.5, 3.0, 8.0
OVER, ROUNDS = 0.5, 3
#: Where along its chains an arch is looked at, and how far to either side of there, as a share of its span.
SHARES, INSIDE = (0.22, 0.5, 0.78), 0.22
#: How far to either side of a head that reaches past a round it must stand outside that, and by how much at most.
BESIDE, MOST_OVER = 0.8, 1.0
#: How firmly a stitch keeps off a picot of the round inside; what it takes to either side where it is widest, and where
#: it is a stem alone; how far over the heads beside it a ring begins; how many tops away it may be in the way.
OFF_PICOT, ARM, STEM_WHITE, PICOT_FOOT, PICOTS_NEAR = 8.0, 0.62, 0.34, 0.2, 2
#: So many stitches in one place are a fan. How firmly its outer stems and the chains beside what it stands on keep off
#: each other, by how much, and where on these chains, counted from there.
FAN, OFF_FAN, FAN_WHITE, FAN_SHARES = 3, 5.0, 0.4, (0.2, 0.4, 0.6)


def clears(net: Net, table: Table, form: Form, sides: Sides) -> list[Pull]:
    """The pulls that lift arches over the rounds inside them."""
    every_head = [_heads(net, table, k, round_) for k, round_ in enumerate(net.rounds)]
    found = []
    for k, round_ in enumerate(net.rounds):
        here = [t for t in range(net.each(round_)) if round_.tops[t].chains and not sides.is_corner(k, t)]
        if here and k:
            found.append(_clear(net, table, form, sides, k, here, np.concatenate(every_head[max(k - ROUNDS, 0) : k])))
        deep = [t for t in range(net.each(round_)) if any(f.back > 1 for f in round_.tops[t].made.feet)]
        if k:
            found += _picots_clear(net, table, form, k)
            found += _fans_clear(net, table, k)
        if deep and k > 1:
            found.append(_heads_clear(net, table, sides, k, deep, every_head[k - 1]))
    return found


def _fans_clear(net: Net, table: Table, k: int) -> list[Pull]:
    """The chains beside what a fan stands on outside its outer stems."""
    offs, stems, inner = list[int](), list[int](), list[int]()
    for t, inward, p, shares in _beside_fans(net, k):
        foot = mean(net.feet(k, t))
        for share in shares:
            offs.append(table.add(net.on_arch(k - 1, p, share) - foot))
            stems.append(table.add(net.head(k, t) - foot))
            inner.append(table.add(net.head(k, inward) - foot))
    if not offs:
        return []
    ids, along, within = np.array(offs), np.array(stems), np.array(inner)

    def wish(every: Points) -> Points:
        off = every[ids]
        stem = every[along] / np.maximum(np.abs(every[along]), 1e-9)
        side = np.sign((every[within] * stem.conj()).imag)
        seen = off * stem.conj()
        beside = (seen.real > 0.0) & (seen.real < np.abs(every[along]))
        short = np.where(beside, np.maximum(FAN_WHITE + side * seen.imag, 0.0), 0.0)
        cleared: Points = off - 1j * side * short * stem
        return cleared

    return [Pull(ids, np.full(len(ids), OFF_FAN / len(FAN_SHARES)), wish)]


def _beside_fans(net: Net, k: int) -> Iterator[tuple[int, int, int, tuple[float, ...]]]:
    """The outer stitches of every fan on a top between chains: each with its neighbour in the fan, the top after which
    the chains beside it lie, and where on these."""
    round_, below = net.rounds[k], net.rounds[k - 1]
    fans: dict[int, list[int]] = {}
    for t in range(net.each(round_)):
        feet = round_.tops[t].made.feet
        if len(feet) == 1 and feet[0].back == 1 and feet[0].hold != "space" and feet[0].at in below.at:
            fans.setdefault(below.at[feet[0].at], []).append(t)
    alike = round_.sign == below.sign
    for base, here in fans.items():
        if len(here) < FAN:
            continue
        for t, inward, before in ((here[0], here[1], alike), (here[-1], here[-2], not alike)):
            p = base - 1 if before else base
            if below.tops[p % len(below.tops)].chains:
                yield t, inward, p, tuple(1.0 - s for s in FAN_SHARES) if before else FAN_SHARES


def _picots_clear(net: Net, table: Table, form: Form, k: int) -> list[Pull]:
    """Stitches off the picots that stand between the stitches inside: by their heads, and along their stems."""
    offs, chords, rings, far = list[int](), list[int](), list[float](), list[float]()
    for t, p in _picots_near(net, k):
        a, b, head = net.head(k - 1, p), net.head(k - 1, p + 1), net.head(k, t)
        foot, under = mean(net.feet(k, t)), mean([a, b])
        ring = _ring(net.rounds[k - 1], p)
        wide = ARM if net.rounds[k].tops[t].made.kind == "sc" else STEM_WHITE
        for at, white in ((head, ARM), (mean([head, foot]), wide), (mean([head, foot, foot, foot]), STEM_WHITE)):
            offs.append(table.add(at - under))
            chords.append(table.add(b - a))
            rings.append(ring)
            far.append(ring + white)
    if not offs:
        return []
    turn = -1j * net.rounds[k - 1].sign * form.facing
    ids, across, ring_of, least = np.array(offs), np.array(chords), np.array(rings), np.array(far)

    def wish(every: Points) -> Points:
        chord = every[across]
        middle = turn * chord / np.maximum(np.abs(chord), 1e-9) * (PICOT_FOOT + ring_of)
        off = every[ids] - middle
        size = np.maximum(np.abs(off), 1e-9)
        cleared: Points = middle + off * (np.maximum(size, least) / size)
        return cleared

    return [Pull(ids, np.full(len(ids), OFF_PICOT), wish)]


def _picots_near(net: Net, k: int) -> list[tuple[int, int]]:
    """The tops of a round, each with the tops inside after which a picot stands near its foot."""
    below, found = net.rounds[k - 1], []
    for t in range(net.each(net.rounds[k])):
        bases = {below.at[f.at] for f in net.rounds[k].tops[t].made.feet if f.back == 1 and f.at in below.at}
        near = sorted({b + step for b in bases for step in range(-PICOTS_NEAR, PICOTS_NEAR)})
        found += [(t, p) for p in near if _ring(below, p)]
    return found


def _ring(round_: Planned, p: int) -> float:
    """The radius of the largest picot between a top and the next; 0 where none stands between them."""
    top = round_.tops[p % len(round_.tops)]
    picots = () if top.chains or not top.picots else top.bridge
    return max((picot_radius(round_.row.stitches[i].chains) for i in picots), default=0.0)


def _heads_clear(net: Net, table: Table, sides: Sides, k: int, here: list[int], inner: Ids) -> Pull:
    """Heads of stitches that reach past a round stand outside what that has beside them."""
    ids = np.array([table.add(net.head(k, t)) for t in here])
    which = np.array([sides.of(k, t) for t in here])
    over = np.array([min(own_rise(net.rounds[k].tops[t].made), MOST_OVER) for t in here])

    def wish(every: Points) -> Points:
        values = every[ids]
        out = sides.out(every, values, which)
        off = (every[inner][None, :] - values[:, None]) * out.conj()[:, None]
        near = (np.abs(off.imag) < BESIDE) & (off.real > -4.0)
        highest = np.where(near, off.real, -math.inf).max(axis=1)
        lifted: Points = values + np.maximum(highest + over, 0.0) * out
        return lifted

    return Pull(ids, np.full(len(ids), BEHIND), wish)


def _heads(net: Net, table: Table, k: int, round_: Planned) -> Ids:
    """The references of all heads of a round and of the middles of its chains."""
    heads = [table.add(net.head(k, t)) for t in range(len(round_.tops))]
    arches = [table.add(net.arch(k, t)) for t in range(len(round_.tops)) if round_.tops[t].chains]
    return np.array([*heads, *arches], dtype=np.intp)


def _clear(net: Net, table: Table, form: Form, sides: Sides, k: int, here: list[int], inner: Ids) -> Pull:
    round_ = net.rounds[k]
    deep = any(f.back > 1 for top in round_.tops for f in top.made.feet)
    spots = [(t, share) for t in here for share in SHARES]
    ids = np.array([table.add(net.on_arch(k, t, share)) for t, share in spots])
    left = np.array([table.add(net.head(k, t)) for t, _ in spots])
    right = np.array([table.add(net.head(k, t + 1)) for t, _ in spots])
    which = np.array([sides.between(k, t) for t, _ in spots])

    def wish(every: Points) -> Points:
        values, heads = every[ids], every[inner]
        out = sides.out(every, values, which)
        across = np.abs(every[right] - every[left])
        off = (heads[None, :] - values[:, None]) * out.conj()[:, None]
        near = (np.abs(off.imag) < (across * INSIDE)[:, None]) & (np.abs(off) < across[:, None] + 6.0)
        highest = np.where(near, off.real, -math.inf).max(axis=1)
        lifted: Points = values + np.maximum(highest + OVER, 0.0) * out
        return lifted

    firm = BEHIND if deep else CLEAR_OVAL if form.half else CLEAR
    return Pull(ids, np.full(len(ids), firm / len(SHARES)), wish)
