"""The border: how many stitches along every stretch of the edge, through how many layers, and what the
corners take.

The counts follow the edge's length and the border's gauge where one is given, else the row-end rule
(edge_rates.py), unless the swatch shows that rule to be far off for these rows: then the edge's length and the width of
the body's own stitch. A corner takes one place of the side that ends there and puts `corner` stitches into it, so that
a round on four corners grows by 8 at 3 in one (PG 20776: 3 plain on the middle corner stitch).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from fractions import Fraction

from ..errors import PatternError, Problem
from ..made_late import dataclass, replace
from ..measure import round_half_up
from ..model.sizing.plan import Plan
from ..pattern.file.kinds import OBJECT_KINDS
from ..pattern.lexicon import BACKWARD
from .edge_rates import row_end_sum
from .edges import Interval
from .edgings import Edging, edging_of
from .facets import Point
from .folds import Folding, folding_of
from .mouth import outline_of, refuse_closed
from .said.held import held_words, left_bare
from .stretch import Stretch, stretch_of

#: One in so many is left out or added where the border ruffles or pulls in (common practice, no source).
USUAL_EASE = 10
#: By so much the row-end rule may miss the edge's length in stitches of the swatch; a border ruffles or pulls in where
#: it misses it by more (our own limit, no source).
MOST_OFF = 0.15


@dataclass(frozen=True, slots=True)
class Corner:
    """A corner of the outline, after side `after`: `count` stitches in one place, or 1 over two (an inner corner).

    `ends` tells whose place that is: the last one of the side that ends there, or the first one of the next.
    """

    after: int
    at: Point
    count: int
    inner: bool = False
    ends: bool = True


@dataclass(frozen=True, slots=True)
class Easing:
    """What to do where the border does not lie flat: leave out or add one in so many, and what that makes."""

    leave_out_every: int
    add_every: int
    fewer: int
    more: int


@dataclass(frozen=True, slots=True)
class BorderPlan:
    """The whole border. `totals` holds the stitches of each round; `by` says how the counts were found.

    `held` says how the piece is held, the outside facing; `clockwise` is the way round so; `bare` are the edges that
    get no border, in words; `adjusted` is how many stitches were added (or left
    out) for the edging's repeat to come out even; `colour` is what it is worked in ("" where the pattern has none).
    """

    stitch: str
    stretches: tuple[Stretch, ...]
    corners: tuple[Corner, ...]
    clockwise: bool
    joins: bool
    by: str
    totals: tuple[int, ...]
    easing: Easing
    edging: Edging | None = None
    adjusted: int = 0
    colour: str = ""
    hand: str = "right"
    held: str = "the outside facing"
    bare: tuple[str, ...] = ()

    @property
    def total(self) -> int:
        """Stitches in the first round: the sum of the stretches and the corners."""
        return sum(s.count for s in self.stretches) + sum(c.count for c in self.corners)

    @property
    def edged(self) -> int:
        """Stitches that an edging is worked over: those of the last round, or round the opening where there is one."""
        if len(self.totals) > 1:
            return self.totals[-1]
        return sum(s.count for s in self.stretches if s.mouth) or self.totals[-1]

    @property
    def start(self) -> Point:
        return self.stretches[0].start

    def of_side(self, side: int) -> tuple[Stretch, ...]:
        return tuple(s for s in self.stretches if s.side == side)

    def corner_after(self, side: int) -> Corner | None:
        return next((c for c in self.corners if c.after == side), None)


def border_plan(
    plan: Plan, *, stitch: str = "sc", rounds: int | None = None, edging: str = "", hand: str = "right",
    folding: Folding | None = None, colour: str = "",
) -> BorderPlan:  # fmt: skip
    """The border of a planned piece, outside facing; anticlockwise for a right-hander, clockwise for a left-hander,
    and the other way for a border of reverse stitches.

    `rounds` of the border stitch (the plan's own when not given), then an `edging` if named (edgings.py), whose
    repeat comes out even; `colour` is what it is worked in. PatternError (kind "fold" or "value") where it cannot be
    worked.
    """
    rounds = (plan.border_rounds or 1) if rounds is None else rounds
    if not 1 <= rounds <= 20:
        raise PatternError(
            [Problem("value", "Border", f"{rounds} rounds of border", "ask for 1 to 20 rounds")]
        )
    folding = folding or folding_of(plan, hand=hand)
    clockwise = (hand == "left") != (stitch in BACKWARD)
    stack = folding.joined_stack if plan.joins else folding.start
    found = _begun(outline_of(folding, folding.outside(stack), clockwise=clockwise))
    plan, by = _counted_by(plan, folding, found)
    if plan.joins and OBJECT_KINDS[plan.kind].holds:
        refuse_closed(folding, found)
    corners = _corners(found, plan.corner)
    exact = [_exact(plan, folding, i) for i in found]
    given = [k for c in corners for k in _givers(found, c, by)]
    counts = [max(0, n - given.count(k)) for k, n in enumerate(_counts(found, exact))]
    trim = edging_of(edging) if edging else None
    wanted = _even(found, counts, corners, trim, rounds) if trim else counts
    adjusted = sum(wanted) - sum(counts)
    stretches = tuple(
        stretch_of(plan, folding, (i, exact[k], wanted[k]), _own_places(found, corners, k)) for k, i in enumerate(found)
    )
    totals = _totals(found, wanted, corners, rounds)
    easing = _easing(plan, folding, found, totals[0], ruled=by != BY_LENGTH)
    return BorderPlan(
        stitch, stretches, corners, clockwise, plan.joins, by, totals, easing, trim, adjusted, colour, hand,
        held_words(folding, folding.outside(stack)), left_bare(folding, stretches) if plan.joins else (),
    )  # fmt: skip


#: How the stitches were counted, in words.
BY_GAUGE, BY_RULE, BY_LENGTH = (
    "border gauge", "row-end rule (common practice)",
    "length of the edges and the gauge of the piece, since at this gauge the usual count for each row end would not "
    "lie flat",
)  # fmt: skip


def _counted_by(plan: Plan, folding: Folding, found: Sequence[Interval]) -> tuple[Plan, str]:
    """The plan with the width of a border stitch where the counts go by length, and how they are found, in words."""
    if plan.border_stitch_mm:
        return plan, BY_GAUGE
    ends = [i for i in found if not i.mouth and i.runs[0].counts == "row ends"]
    by_length = sum(i.length_mm for i in ends) / plan.stitch_mm
    ruled = float(sum((by_rule(folding, i) for i in ends), Fraction(0)))
    if not plan.rows_measured or not by_length or abs(ruled / by_length - 1) <= MOST_OFF:
        return plan, BY_RULE
    return replace(plan, border_stitch_mm=plan.stitch_mm), BY_LENGTH


def _totals(
    found: Sequence[Interval], counts: Sequence[int], corners: Sequence[Corner], rounds: int
) -> tuple[int, ...]:
    """The stitches of each round: with a mouth, every round after the first goes round that alone."""
    base = sum(counts) + sum(c.count for c in corners)
    mouth = sum(n for i, n in zip(found, counts, strict=True) if i.mouth)
    growth = sum(-2 if c.inner else c.count - 1 for c in corners)
    return tuple(mouth if k and mouth else base + growth * k for k in range(rounds))


def _even(
    found: Sequence[Interval], counts: list[int], corners: Sequence[Corner], trim: Edging, rounds: int
) -> list[int]:
    """The counts with which the edging comes out even: side by side, so that it falls the same on every corner, where
    all corners are alike; else over the whole round."""
    later = rounds - 1
    if any(i.mouth for i in found):
        return [trim.even(n) if i.mouth else n for i, n in zip(found, counts, strict=True)]
    if any(c.inner for c in corners) or len({c.count for c in corners}) > 1:
        growth = sum(-2 if c.inner else c.count - 1 for c in corners)
        whole = sum(counts) + sum(c.count for c in corners) + growth * later
        return _adjusted(counts, trim.even(whole) - whole)
    out = list(counts)
    for side in {i.side for i in found}:
        here = [k for k, i in enumerate(found) if i.side == side]
        turns = next((c.count + (c.count - 1) * later for c in corners if c.after == side), 0)
        whole = sum(counts[k] for k in here) + turns
        for k, n in zip(here, _adjusted([counts[k] for k in here], trim.even(whole) - whole), strict=True):
            out[k] = n
    return out


def _begun(found: Sequence[Interval]) -> tuple[Interval, ...]:
    """The intervals from the corner where the first joined stretch begins; from the first corner if none is
    joined.
    """
    starts = [k for k, i in enumerate(found) if k == 0 or found[k - 1].side != i.side]
    first = next((k for k in starts if found[k].layers > 1), 0)
    sides = max(i.side for i in found) + 1
    begun = [*found[first:], *found[:first]]
    shift = begun[0].side
    return tuple(replace(i, side=(i.side - shift) % sides) for i in begun)


def _corners(found: Sequence[Interval], corner: int) -> tuple[Corner, ...]:
    """Where the outline turns: `corner` stitches at a square corner, fewer at a blunt one, 1 over two at an
    inner one.
    """
    made = []
    for here, following in zip(found, [*found[1:], found[0]], strict=True):
        if here.side == following.side or here.mouth or following.mouth:
            continue
        turn = _turn(here, following)
        outer = turn * _way(found) > 0
        count = corner if abs(turn) > 60 else 2 if abs(turn) > 30 else 1
        corner_here = Corner(here.side, here.end, count if outer else 1, not outer)
        ends = max(k for k, i in enumerate(found) if i.side == here.side)
        made.append(replace(corner_here, ends=ends in _takers(found, corner_here)))
    return tuple(made)


def _turn(a: Interval, b: Interval) -> float:
    """The angle between two sides, degrees."""
    first = math.atan2(a.end[1] - a.start[1], a.end[0] - a.start[0])
    then = math.atan2(b.end[1] - b.start[1], b.end[0] - b.start[0])
    return (math.degrees(then - first) + 180) % 360 - 180


def _way(found: Sequence[Interval]) -> float:
    """Positive where the outline goes round with growing angle."""
    return sum(i.start[0] * i.end[1] - i.end[0] * i.start[1] for i in found)


def _exact(plan: Plan, folding: Folding, interval: Interval) -> float:
    """The stitches that an interval asks for, before rounding and corners."""
    if plan.border_stitch_mm:
        return interval.length_mm * (len(interval.runs) if interval.mouth else 1) / plan.border_stitch_mm
    return float(by_rule(folding, interval))


def by_rule(folding: Folding, interval: Interval) -> Fraction:
    """The stitches by the row-end rule; along a slant by the length in stitches."""
    if interval.mouth:
        return sum((by_rule(folding, replace(interval, runs=(r,), mouth=False)) for r in interval.runs), Fraction(0))
    run = interval.runs[0]
    if run.counts == "row ends":
        lo, hi = run.numbers
        return row_end_sum(folding.piece.row_kinds[lo - 1 : hi]) if lo else Fraction(0)
    if run.counts == "slant":
        return Fraction(round_half_up(interval.length_mm / folding.piece.stitch_mm))
    return Fraction(run.count)


def _counts(found: Sequence[Interval], exact: Sequence[float]) -> list[int]:
    """Whole stitches: each side rounded as a whole; what rounding its stretches leaves goes to the
    longest.
    """
    counts = [round_half_up(value) for value in exact]
    for side in {i.side for i in found}:
        here = [k for k, i in enumerate(found) if i.side == side]
        longest = max(here, key=lambda k: found[k].length_mm)
        counts[longest] += round_half_up(sum(exact[k] for k in here)) - sum(counts[k] for k in here)
    return counts


def _takers(found: Sequence[Interval], corner: Corner) -> list[int]:
    """Which intervals give the corner its place: the one with stitches there, else the one that ends there.

    An inner corner takes one from both sides, for its one stitch is worked over the last and the first.
    """
    ends = max(k for k, i in enumerate(found) if i.side == corner.after)
    pair = [ends, (ends + 1) % len(found)]
    after = {"row ends": 2, "slant": 1}  # a slanting edge has no stitches of its own, so both slants keep theirs
    return pair if corner.inner else sorted(pair, key=lambda k: after.get(found[k].runs[0].counts, 0))[:1]


def _givers(found: Sequence[Interval], corner: Corner, by: str) -> list[int]:
    """Which intervals have one stitch fewer for a corner: by a border's own gauge each side one, that before the
    corner, so that edges of one length have one number; else the interval whose stitch the corner stands in, so that
    the other stitches of an edge have one each."""
    if by != BY_GAUGE or corner.inner:
        return _takers(found, corner)
    return [max((k for k, i in enumerate(found) if i.side == corner.after), key=lambda k: found[k].length_mm)]


def _adjusted(counts: list[int], by: int) -> list[int]:
    """The counts with `by` stitches more (or fewer), each given where the stretch is longest for what it has
    had.
    """
    out, had = list(counts), [0] * len(counts)
    step = 1 if by > 0 else -1
    for _ in range(abs(by)):
        k = max(range(len(out)), key=lambda i: (counts[i] / (had[i] + 1), -i))
        out[k] += step
        had[k] += 1
    return out


def _own_places(found: Sequence[Interval], corners: Sequence[Corner], k: int) -> tuple[bool, bool]:
    """Whether corners have the first and the last place of an interval, of one that has stitches to give."""
    if found[k].mouth or found[k].runs[0].counts in ("row ends", "slant"):
        return False, False
    before, after = (next((c for c in corners if c.after == found[at].side), None) for at in (k - 1, k))
    first = found[k - 1].side != found[k].side and before is not None and (before.inner or not before.ends)
    last = found[(k + 1) % len(found)].side != found[k].side and after is not None and after.ends
    return first, last


def _easing(plan: Plan, folding: Folding, found: Sequence[Interval], total: int, *, ruled: bool = True) -> Easing:
    """One in how many: where gauge and rule differ, what leads from one to the other; else, and where the rule is known
    to be off (not `ruled`), the usual tenth.
    """
    rule = round_half_up(float(sum((by_rule(folding, i) for i in found), Fraction(0))))
    length = (
        round_half_up(sum(i.length_mm * (len(i.runs) if i.mouth else 1) for i in found) / plan.border_stitch_mm)
        if plan.border_stitch_mm and ruled
        else rule
    )
    off = length - rule
    every = max(4, round_half_up(length / abs(off))) if off else USUAL_EASE
    every = every if every <= 2 * USUAL_EASE else USUAL_EASE
    leave_out = every if off > 0 else USUAL_EASE
    add = every if off < 0 else USUAL_EASE
    return Easing(leave_out, add, total - total // leave_out, total + total // add)
