"""Playing a row: the hands follow the tree over the ground and make stitches.

The player keeps where the hook is (`here`), what was made (`out`), and where the last stitch went. A `*` repeat
"across" is played as often as the ground allows and as lets the words after it come out even: the number of
repetitions is found by trying, from the most downwards.
"""

from __future__ import annotations

from itertools import groupby, takewhile

from ...made_late import replace
from ...pattern.tree import (
    NOWHERE,
    Act,
    Again,
    Chain,
    Corner,
    Either,
    Into,
    Make,
    Op,
    Place,
    Skip,
    Span,
    Star,
    Times,
)
from ..cloth.fabric import Foot, Row, Stitch, counts
from ..cloth.faults import MOST_MADE, OtherStart, Stuck
from ..cloth.site import Choice, Site, Target
from . import beginnings, below, deep, edges, footing, making, moves, named_places, remaining, repeats, row_end, targets
from .hand import Hand


def _turns_over(op: Op) -> bool:
    return isinstance(op, Act) and op.name == "opposite"


class Player(Hand):
    """Plays one row. After `run`, `out` holds what was made and `row()` the worked row."""

    __slots__ = ()

    def __init__(self, site: Site, choice: Choice) -> None:
        ground = site.ground(1)
        assert ground is not None
        ground.loose, ground.wide_gaps = choice.loose, choice.wide_gaps
        super().__init__(site, choice, ground, site.loops, site.starts_at)

    def run(self, ops: tuple[Op, ...]) -> None:
        """Play the row; Stuck says where it cannot go on."""
        if self.site.is_round and len(self.ground.slots) > 1 and (closed := beginnings.closed_where_begun(ops)):
            footing.turn_ground(self, 1)
            ops = closed
        ops = beginnings.closed_in_slips(ops, wrap=self.choice.wrap)
        self.near = deep.works_near(ops)
        self.tiles = beginnings.tile_sides(ops)
        self.in_spaces = targets.in_spaces_only(ops)
        self._ready(ops)
        self.sequence(ops, 0, top=True)

    def _ready(self, ops: tuple[Op, ...]) -> None:
        edges.told(ops)
        self._mark(ops)
        if self.site.opening is not None:
            self._open(self.site.opening)

    def _mark(self, ops: tuple[Op, ...]) -> None:
        """What is done at some places along the row, up to where it turns to the other side of a foundation."""
        for op in takewhile(lambda op: not _turns_over(op), ops):
            if isinstance(op, Corner):
                moves.mark_corners(self, op)
            elif isinstance(op, Act) and op.name in ("spread", "spread to"):
                moves.mark_spread(self, op, ops)

    def _open(self, parts: tuple[str, ...]) -> None:
        """The foundation's skipped chains, as what they count as."""
        if beginnings.several(parts):
            self.amiss = beginnings.one_stitch_only(parts[0].split()[0])
        for part in parts:
            kind, _, number = part.partition(" ")
            if kind == "start":
                self.out.append(Stitch("ch", (), "start", int(number)))
            elif kind == "ch":
                self.out.append(Stitch("ch", (), "chain", int(number or 1)))
            elif kind != "sk":
                self.out.append(Stitch(kind, (), "turning", int(number or 0)))
                self.counted_start = True

    def sequence(self, ops: tuple[Op, ...], start: int, *, top: bool = False) -> None:
        before = self.follows
        for at in range(start, len(ops)):
            op = ops[at]
            if len(ops) > 1:
                self.follows = remaining.what_follows(ops, at, top=top, specials=self.site.specials)
            else:
                self.follows = before
            self.beside = deep.beside(self, ops, at)
            deep.settle_before(self, ops, at)
            if top:
                self.reserve = remaining.reserved(self, ops, at) if remaining.takes_each(op) else None
            corner = repeats.corner_in_spaces(self, op, ops) if top and isinstance(op, Star | Times) else None
            if corner is not None and isinstance(op, Star | Times):
                self.leads = True
                repeats.side_by_side(self, op, corner)
                continue
            if top and isinstance(op, Times) and not op.times and not op.name and repeats.goes_on_behind(ops[at + 1 :]):
                op = Star(op.ops, at=op.at)  # "(sc in next lp, ch 5) across, sc in last lp"
            if isinstance(op, Star):
                op = repeats.stopped_where_it_goes_on(op, ops[at + 1 :], is_round=self.site.is_round)
            if isinstance(op, Star) and op.more is None and op.until is None:
                self.leads = True
                if op.upto is not None and not top:
                    repeats.up_to(self, op, op.upto)
                    continue
                repeats.across(self, op, ops[at + 1 :] if top else (), top=top)
                if top:
                    return
                continue
            if isinstance(op, Skip):
                self.towards = remaining.what_follows(ops, at, top=False)
            self.play(op)
            if top and _turns_over(op):
                self._mark(ops[at + 1 :])
        self.follows = before
        if top:
            self.reserve = None
            self.settle()

    def settle(self) -> None:
        """What stitches worked further down lie over is done with."""
        there = below.settled(self)
        self.replaced = self.replaced or self.ground.stitches_between(self.here, there) > 0
        self.here, self.pending = there, 0

    def play(self, op: Op) -> None:
        self.site.steps.spend(op)
        if len(self.out) > MOST_MADE:
            raise Stuck(
                f"the row makes more than {MOST_MADE:,} stitches",
                "use a smaller number",
                getattr(op, "at", NOWHERE),
                "limit",
            )
        if isinstance(op, Make):
            making.make(self, op)
            self.passing = "" if self.context is None else self.passing
        elif isinstance(op, Chain):
            beginnings.chain(self, op)
        elif isinstance(op, Skip):
            moves.skip(self, op)
        elif isinstance(op, Into):
            making.into(self, op)
            self.passing = "" if self.context is None else self.passing
        elif isinstance(op, Times):
            repeats.times(self, op)
        elif isinstance(op, Star):
            repeats.star(self, op)
        elif isinstance(op, Either):
            repeats.either(self, op)
        elif isinstance(op, Act):
            moves.act(self, op)
        elif isinstance(op, Again):
            raise Stuck("the row to repeat is not there", "name a row that stands before this one", op.at)

    def spot(self, back: int) -> int:
        return self.here if back == 1 else below.spot(self, back)

    def targets(self, place: Place, at: Span, *, moving: bool = True) -> list[Target]:
        """The targets of a place; the hook moves on past them."""
        try:
            return targets.targets(self, place, at)
        except OtherStart as other:
            raise other.at_place(at) from None
        except Stuck as stuck:
            raise Stuck(stuck.says, stuck.remedy, stuck.at if stuck.at != NOWHERE else at, stuck.kind) from None

    def row(self, *, finished: bool) -> Row:
        """The worked row; `finished` is whether it could be worked to its end. A row of nothing but slip stitches
        counts them."""
        made: list[Stitch] = list(self.out)
        ends = [*(at for at, _ in self.tinted[1:]), len(made)]
        for (at, colour), end in zip(self.tinted, ends, strict=False):
            made[at:end] = [replace(s, colour=colour) for s in made[at:end]]
        if not any(counts(s) for s in made) and any(s.role == "travel" for s in made):
            made = [replace(s, role="stitch") if s.role == "travel" else s for s in made]
        elif led := _slips_of_the_row(made):
            made[:led] = [replace(s, role="stitch") for s in made[:led]]
        if self.offset != 1:
            made = [replace(s, feet=tuple(self._lowered(f) for f in s.feet)) for s in made]
        taken = row_end.taken(self, finished=finished)
        return Row(tuple(made), taken, self.joined, self.repeat, named_places.with_begun(made, self.groups))

    def _lowered(self, foot: Foot) -> Foot:
        """A foot of a row that was worked into an earlier row as if that were the row below."""
        return replace(foot, back=self.offset) if foot.back == 1 else foot


def _slips_of_the_row(made: list[Stitch]) -> int:
    """How many slip stitches a row begins with that are stitches of it, as "sl st in first st, *dc in next st, sl st
    in next st; rep from *" does: worked on from at once in the next stitch, and as many come again further on."""
    led = next((i for i, s in enumerate(made) if s.role != "travel"), 0)
    if not 0 < led < len(made) or made[led].role != "stitch" or not made[led].feet or made[led].kind == "sl st":
        return 0
    last, after = made[led - 1].feet[:1], made[led].feet[0]
    if not last or last[0].back != after.back or abs(after.at - last[0].at) != 1:
        return 0
    slips = groupby(made[led:], lambda s: s.kind == "sl st" and s.role == "stitch")
    return led if led in [len(list(run)) for slipped, run in slips if slipped] else 0
