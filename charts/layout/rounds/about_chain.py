"""Rounds about a chain, as they are drawn by hand: upright along its sides, turning evenly about its ends.

A stitch that stands alone on one that stands over the chain keeps its place along it. Those between the last such on
one side and the first on the other share the way round the end evenly, at one distance from the chain.
"""

from __future__ import annotations

import itertools
from collections.abc import Callable, Mapping, Sequence

import numpy as np

from ...made_late import dataclass
from ..placing.tops import own_rise
from .form import Form
from .net import Net
from .plan import Planned, groups
from .springs import Ids, Points, Pull, Table

#: How firmly a stitch is drawn to its place, to its side of it, and how near its line the chains at its ends lie.
SET, ON_LINE = 30.0, 1e-6
#: The least way between those that share one, as a share of a stitch: closer, the round is drawn farther out where they
#: turn about an end, and along a side those towards its end share their way too.
LEAST_END, LEAST_SIDE = 0.74, 0.9
#: So many stitches in one place are a fan of its own, beyond the first round.
FAN = 4

#: Where a stitch stands that keeps its place: along the chain, and 1 above it, -1 below.
_Upright = tuple[float, float]


@dataclass(frozen=True, slots=True)
class _Stretch:
    """The tops from one that keeps its place, `first`, up to the next one, `last`; last may go on round the work."""

    first: int
    last: int

    @property
    def shares(self) -> int:
        """Into how many steps they divide the way between them."""
        return self.last - self.first


def set_about_chain(net: Net, table: Table, form: Form) -> list[Pull]:
    """The pulls of the rounds from the foundation on whose stitches lie so; none where work goes about no chain."""
    if not form.half:
        return []
    found, standing = [], dict[int, _Upright]()
    for k, round_ in enumerate(net.rounds):
        upright = _upright(net, k, standing)
        if not _lies_so(round_, k):
            break
        upright = _with_room(round_, form, upright)
        if len({side for _, side in upright.values()}) < 2:
            break
        ids = np.array([table.add(net.head(k, t)) for t in range(net.each(round_))])
        found.append(Pull(ids, np.full(len(ids), SET), _wish(ids, round_, form, upright)))
        standing = upright
    return found


def _lies_so(round_: Planned, k: int) -> bool:
    """Whether a round is of stitches alone, and without fans but those in the end chains."""
    alike = not any(top.bridge for top in round_.tops)
    plain = all(len(group) < FAN for group in groups(round_)) or not k
    return alike and plain and all(f.back == 1 and f.hold != "space" for top in round_.tops for f in top.made.feet)


def _upright(net: Net, k: int, standing: Mapping[int, _Upright]) -> dict[int, _Upright]:
    """The tops of a round that stand alone on one chain along the foundation, or on such a top of the round inside."""
    round_, found = net.rounds[k], dict[int, _Upright]()
    for group in groups(round_):
        made = round_.tops[group[0]].made
        if len(group) > 1 or len(made.feet) != 1:
            continue
        foot = made.feet[0]
        at = net.middle(foot) if foot.back == k + 1 else None
        if at is not None and abs(at.imag) > ON_LINE:
            found[group[0]] = at.real, float(np.sign(at.imag))
        elif k and foot.back == 1 and net.rounds[k - 1].at.get(foot.at) in standing:
            found[group[0]] = standing[net.rounds[k - 1].at[foot.at]]
    return found


def _with_room(round_: Planned, form: Form, upright: dict[int, _Upright]) -> dict[int, _Upright]:
    """Those that keep their place, but where stitches between them have too little room: there all as far as the
    nearer end share it."""
    while True:
        crowded = [s for s in _stretches(round_, upright) if _is_crowded(s, round_, upright)]
        if not crowded:
            return upright
        x, side = upright[crowded[0].first]
        other, _ = upright[crowded[0].last % len(round_.tops)]
        towards = 1.0 if x + other > 0.0 else -1.0
        least = min(x * towards, other * towards)
        upright = {t: (at, on) for t, (at, on) in upright.items() if on != side or at * towards < least + ON_LINE}


def _is_crowded(stretch: _Stretch, round_: Planned, upright: Mapping[int, _Upright]) -> bool:
    (a, side), (b, other) = upright[stretch.first], upright[stretch.last % len(round_.tops)]
    return side == other and stretch.shares > 1 and 0.0 < abs(b - a) < LEAST_SIDE * stretch.shares


def _stretches(round_: Planned, upright: Mapping[int, _Upright]) -> list[_Stretch]:
    """From each top that keeps its place to the next one."""
    kept = sorted(upright)
    return [_Stretch(a, b) for a, b in itertools.pairwise([*kept, *(t + len(round_.tops) for t in kept[:1])])]


def _wish(ids: Ids, round_: Planned, form: Form, upright: Mapping[int, _Upright]) -> Callable[[Points], Points]:
    """The wish for the places of a round's tops; those of one height for one distance from the chain too."""
    one_height = len({own_rise(top.made) for top in round_.tops}) == 1
    stretches = _stretches(round_, upright)
    ends = [s for s in stretches if upright[s.first][1] != upright[s.last % len(round_.tops)][1]]

    def wish(every: Points) -> Points:
        far = form.far(every[ids])
        middle = max(float(far.mean()), _least_far(ends, round_, form, upright))
        shares = _shares(stretches, round_, form, upright, middle)
        at = far if not one_height else np.full(len(ids), middle)
        return np.array([_place(form, round_.sign, shares[t], middle, float(at[t])) for t in range(len(ids))])

    return wish


def _place(form: Form, sign: float, share: float, middle: float, far: float) -> complex:
    x, y = form.way(sign, middle).at(share * form.whole(middle), far)
    return complex(x, -y)


def _least_far(ends: Sequence[_Stretch], round_: Planned, form: Form, upright: Mapping[int, _Upright]) -> float:
    """How far out a round lies at least, that those that turn about an end have room."""
    found = 0.0
    for stretch in ends:
        (a, side), (b, _) = upright[stretch.first], upright[stretch.last % len(round_.tops)]
        end = -round_.sign * side  # going counter-clockwise the upper side leads to the left end
        straight = 2.0 * form.half - end * (a + b)
        found = max(found, (LEAST_END * stretch.shares - straight) / np.pi)
    return found


def _shares(
    stretches: Sequence[_Stretch], round_: Planned, form: Form, upright: Mapping[int, _Upright], far: float
) -> dict[int, float]:
    """The share of the way round at which each top stands where the round lies so far out."""
    found: dict[int, float] = {}
    for stretch in stretches:
        (a, side), (b, other) = upright[stretch.first], upright[stretch.last % len(round_.tops)]
        first, last = form.share(round_.sign, complex(a, side * far)), form.share(round_.sign, complex(b, other * far))
        way = (last - first) % 1.0 or 1.0
        for t in range(stretch.first, stretch.last):
            found[t % len(round_.tops)] = first + way * (t - stretch.first) / stretch.shares
    return found
