"""Arches keep clear of what they pass over: the tops of the rounds inside, and what stands up in them."""

from __future__ import annotations

import math

import numpy as np

from ..placing.tops import own_rise
from .corners import Sides
from .form import Form
from .net import Net
from .plan import Planned
from .springs import Ids, Points, Pull, Table

#: How firmly an arch keeps clear, one that runs behind petals more; by how much, and of how many rounds inside.
CLEAR, BEHIND = 1.5, 8.0
OVER, ROUNDS = 0.5, 3
#: Where along its chains an arch is looked at, and how far to either side of there, as a share of its span.
SHARES, INSIDE = (0.22, 0.5, 0.78), 0.22
#: How far to either side of a head that reaches past a round it must stand outside that, and by how much at most.
BESIDE, MOST_OVER = 0.8, 1.0


def clears(net: Net, table: Table, form: Form, sides: Sides) -> list[Pull]:
    """The pulls that lift arches over the rounds inside them."""
    every_head = [_heads(net, table, k, round_) for k, round_ in enumerate(net.rounds)]
    found = []
    for k, round_ in enumerate(net.rounds):
        here = [t for t in range(net.each(round_)) if round_.tops[t].chains and not sides.is_corner(k, t)]
        if here and k:
            found.append(_clear(net, table, form, sides, k, here, np.concatenate(every_head[max(k - ROUNDS, 0) : k])))
        deep = [t for t in range(net.each(round_)) if any(f.back > 1 for f in round_.tops[t].made.feet)]
        if deep and k > 1:
            found.append(_heads_clear(net, table, sides, k, deep, every_head[k - 1]))
    return found


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

    return Pull(ids, np.full(len(ids), (BEHIND if deep else CLEAR) / len(SHARES)), wish)
