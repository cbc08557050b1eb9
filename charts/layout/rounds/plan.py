"""What of the rounds is to be placed: their tops, the runs of chains between them, and how often they repeat.

A sector is the smallest part of all rounds that gives the whole when it is turned about the centre: kinds, chains and
feet come again. A beginning chain counts as its stitch; joins, and slip stitches that only travel, are left out.
"""

from __future__ import annotations

import cmath
import itertools
import math
from collections import Counter
from collections.abc import Callable, Mapping, Sequence, Set
from dataclasses import field

from ...made_late import dataclass, replace
from ...model.cloth.fabric import Fabric, Foot, Row, Stitch, WorkedRow
from ...model.cloth.shapes import run_size
from ..placing.chain_room import picot_wide
from ..placing.fans import WIDE_FAN
from ..placing.feet import visits

#: How near two places of the centre must lie to be one.
ONE_PLACE = 0.01


@dataclass(frozen=True, slots=True)
class Top:
    """A stitch of a round, and the chains and picots that lie between it and the next one; round how many of the two a
    later stitch goes with its hook."""

    item: int
    made: Stitch
    bridge: tuple[int, ...] = ()
    chains: int = 0
    picots: float = 0.0
    hooks: int = 0


@dataclass(frozen=True, slots=True)
class Run:
    """A run of chains within those after top `after`, or a picot among them, as shares of the whole length."""

    after: int
    first: float
    last: float


@dataclass(frozen=True, slots=True, eq=False)
class Planned:
    """A round to be placed: `sign` is 1 where it goes counter-clockwise. `at` finds a top, `runs` a run by its item.

    `each` is how many tops one sector has; `corners` are the tops on corners, with whether the chains after them are.
    """

    index: int
    worked: WorkedRow
    tops: tuple[Top, ...]
    sign: float
    at: dict[int, int] = field(default_factory=dict)
    runs: dict[int, Run] = field(default_factory=dict)
    spaces: dict[tuple[int, int], list[int]] = field(default_factory=dict)
    corners: tuple[tuple[int, bool], ...] = ()

    @property
    def row(self) -> Row:
        return self.worked.row


def planned(fabric: Fabric, corners: Sequence[tuple[int, ...]] | None) -> list[Planned]:
    """The rounds to be placed, up to the first without a stitch."""
    found, hooked = [], gone_round([worked.row for worked in fabric.rows])
    for index, worked in enumerate(fabric.rows):
        tops = _with_hooks(_tops(worked.row), {item for k, item in hooked if k == index})
        if not tops:
            break
        at = {top.item: t for t, top in enumerate(tops)}
        runs = {item: run for t, top in enumerate(tops) for item, run in _runs(worked.row, t, top)}
        sign = 1.0 if worked.direction == "right-to-left" else -1.0
        here = tuple(_corner(tops, at, runs, item) for item in (corners[index] if corners else ()))
        found.append(Planned(index, worked, tops, sign, at, runs, _spaces(worked.row), here))
    return found


def _corner(tops: Sequence[Top], at: Mapping[int, int], runs: Mapping[int, Run], item: int) -> tuple[int, bool]:
    """A corner's top, and whether it is the chains after it; of a picot without chains beside it the next stitch."""
    if item in at:
        return at[item], False
    after = runs[item].after
    return (after, True) if tops[after].chains else ((after + 1) % len(tops), False)


def _tops(row: Row) -> tuple[Top, ...]:
    """The tops of a round; what lies before its first is after its last."""
    found: list[tuple[int, list[int]]] = []
    lead: list[int] = []
    for item, made in enumerate(row.stitches):
        if made.role in ("chain", "picot"):
            (found[-1][1] if found else lead).append(item)
        elif made.role in ("stitch", "turning"):
            found.append((item, []))
        elif found and closes_chains(row, item):
            found[-1][1].append(item)
    if found:
        found[-1][1].extend(lead)
    return tuple(Top(item, row.stitches[item], tuple(bridge), *_size(row, bridge)) for item, bridge in found)


def closes_chains(row: Row, item: int) -> bool:
    """Whether a stitch joins the round in place of the last chains of a run: "ch 2, dc in first sc"."""
    made = row.stitches[item]
    return made.role == "join" and made.kind != "sl st" and item > 0 and row.stitches[item - 1].role == "chain"


#: By so many chains a loop that a stitch ends may differ from others and is yet meant to be one of them.
NEARLY = 2


def loop_size(row: Row, item: int) -> int:
    """The chains of a run; of one that a stitch ends, which joins the round, those of the loops that it is nearly like.

    Such a stitch is told for three chains or for four, and ends a loop as all others are (common practice, no source).
    """
    size, chains = run_size(row, item), row.stitches[item].chains
    if size == chains:
        return size
    others = [s.chains for i, s in enumerate(row.stitches) if s.role == "chain" and i != item]
    near = [n for n in others if chains < n and abs(n - size) <= NEARLY]
    return max(sorted(set(near)), key=near.count, default=size)


def gone_round(rows: Sequence[Row]) -> frozenset[tuple[int, int]]:
    """What later rounds go round with a hook: each by its round's place (from 0) and its item."""
    return frozenset(
        (k - foot.back, foot.at)
        for k, row in enumerate(rows)
        for made in row.stitches
        for foot in made.feet
        if foot.hold.endswith("post") or made.kind.startswith(("FP", "BP"))
    )


def _with_hooks(tops: Sequence[Top], hooked: Set[int]) -> tuple[Top, ...]:
    following = [*tops[1:], *tops[:1]]
    return tuple(
        replace(a, hooks=(a.item in hooked) + (b.item in hooked)) if hooked else a
        for a, b in zip(tops, following, strict=True)
    )


def _size(row: Row, bridge: Sequence[int]) -> tuple[int, float]:
    made = [row.stitches[i] for i in bridge]
    chains = sum(loop_size(row, i) for i in bridge if row.stitches[i].role == "chain")
    return chains, sum(picot_wide(s.chains) for s in made if s.role == "picot")


def _runs(row: Row, after: int, top: Top) -> list[tuple[int, Run]]:
    """The runs of chains and the picots after a top, each with its item."""
    found, done, whole = [], 0.0, top.chains + top.picots
    for item in top.bridge:
        made = row.stitches[item]
        if made.role == "join":
            continue
        wide = float(loop_size(row, item)) if made.role == "chain" else picot_wide(made.chains)
        if whole:
            found.append((item, Run(after, done / whole, (done + wide) / whole)))
        done += wide
    return found


def _spaces(row: Row) -> dict[tuple[int, int], list[int]]:
    """The tops that go into each chain space, by (rounds down, item), in the order they lie round the work; the slip
    stitches that lead there need no room of their own."""
    return {
        (place[0], place[1]): [item for item in items if row.stitches[item].role in ("stitch", "turning")]
        for place, items in visits(row, closed=True).items()
        if place[2] == "space"
    }


#: Where a foot goes into the centre; None where it may stand anywhere round it.
Middle = Callable[[Foot], complex | None]


def sectors(rounds: Sequence[Planned], middle: Middle) -> int:
    """How many equal sectors there are."""
    whole = math.gcd(*(len(r.tops) for r in rounds))
    counts = (n for n in range(whole, 0, -1) if whole % n == 0)
    return next(n for n in counts if n == 1 or all(_repeats(rounds, k, n, middle) for k in range(len(rounds))))


def _repeats(rounds: Sequence[Planned], k: int, n: int, middle: Middle) -> bool:
    """Whether a round is the same turned by one of n sectors."""
    tops = rounds[k].tops
    step = len(tops) // n
    return all(_same(rounds, k, a, tops[(t + step) % len(tops)], n, middle) for t, a in enumerate(tops))


def _same(rounds: Sequence[Planned], k: int, a: Top, b: Top, n: int, middle: Middle) -> bool:
    one, other = a.made, b.made
    if (one.kind, one.legs, one.base) != (other.kind, other.legs, other.base):
        return False
    footless = "turning" in (one.role, other.role) and not (one.feet and other.feet)
    if not footless and len(one.feet) != len(other.feet):
        return False
    if bridge_of(rounds[k].row, a) != bridge_of(rounds[k].row, b):
        return False
    return footless or all(_turned(rounds, k, f, g, n, middle) for f, g in zip(one.feet, other.feet, strict=True))


def bridge_of(row: Row, top: Top) -> list[tuple[str, int]]:
    """What lies after a top: each run of chains and each picot, with how many chains it has or stands for."""
    made = [(i, row.stitches[i]) for i in top.bridge if row.stitches[i].role != "join"]
    return [(s.role, loop_size(row, i) if s.role == "chain" else s.chains) for i, s in made]


def _turned(rounds: Sequence[Planned], k: int, f: Foot, g: Foot, n: int, middle: Middle) -> bool:
    """Whether the second of two feet is the first, turned by one sector."""
    if f.back != g.back or (f.hold == "space") != (g.hold == "space"):
        return False
    if f.back < 1 or k - f.back < -1 or f.hold == "ring":
        return True
    if k - f.back == -1:
        a, b = middle(f), middle(g)
        return a is None or b is None or abs(a * cmath.rect(1.0, rounds[k].sign * math.tau / n) - b) < ONE_PLACE
    below = rounds[k - f.back]
    step = len(below.tops) // n * round(rounds[k].sign * below.sign)
    one, other = place_of(below, f), place_of(below, g)
    if one is None or other is None:
        return False
    return (other[0] - one[0] - step) % len(below.tops) == 0 and one[1:] == other[1:]


def place_of(below: Planned, foot: Foot) -> tuple[int, bool, float] | None:
    """Where a foot goes in: the top, whether into the chains after it, and the share of them; None where in neither. A
    share where it is not into chains says that it goes between the top and the one before, as into a picot there."""
    if foot.at in below.at:
        return below.at[foot.at], False, 0.5 if foot.hold == "between" else 0.0
    if foot.at not in below.runs:
        return None
    run, made = below.runs[foot.at], below.row.stitches[foot.at]
    if made.role == "picot" and not below.tops[run.after].chains:
        return (run.after + 1) % len(below.tops), False, 0.5
    whole, chains = foot.hold == "space" or made.role == "picot", made.chains
    part = 0.5 if whole else (min(max(foot.part, 0), chains - 1) + 0.5) / max(chains, 1)
    return run.after, True, run.first + (run.last - run.first) * part


def in_corner_fans(round_: Planned) -> frozenset[int]:
    """The tops of wide fans that stand on corners: they open about the corner, and lie on no side."""
    many = Counter(top.made.feet for top in round_.tops)
    places = {round_.tops[t].made.feet for t, run in round_.corners if not run}
    wide = {feet for feet in places if feet and many[feet] >= WIDE_FAN}
    return frozenset(t for t, top in enumerate(round_.tops) if top.made.feet in wide)


def groups(rounds: Planned) -> list[list[int]]:
    """The tops of a round by what they go into, in order; those on two sides of a corner apart, but for a wide fan."""
    fanned = in_corner_fans(rounds)
    cut = {t for t, run in rounds.corners if t not in fanned}
    found: list[list[int]] = []
    for t, top in enumerate(rounds.tops):
        last = found[-1][-1] if found else None
        other = last is None or rounds.tops[last].made.feet != top.made.feet
        if other or last in cut or ((t, False) in rounds.corners and t in cut):
            found.append([])
        found[-1].append(t)
    return found


def pairs(tops: Sequence[Top]) -> list[tuple[int, int]]:
    """Every top with the next, the last with the first."""
    return list(itertools.pairwise([*range(len(tops)), len(tops)]))
