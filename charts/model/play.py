"""Playing a row: the hands follow the tree over the ground and make stitches.

The player keeps where the hook is (`here`), what was made (`out`), and where the last stitch went. A `*` repeat
"across" is played as often as the ground allows and as lets the words after it come out even: the number of
repetitions is found by trying, from the most downwards.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ..pattern.tree import (
    NOWHERE,
    Act,
    Again,
    Chain,
    Corner,
    Either,
    Into,
    Make,
    Noun,
    Op,
    Place,
    Skip,
    Span,
    Star,
    Times,
)
from . import acts, beginnings, below, deep, making, remaining, repeats, row_end, targets
from .grid import Foot, Row, Stitch, counts
from .ground import Ground, Hit
from .site import Beside, Choice, Mark, Site, Target
from .stuck import MOST_MADE, Stuck
from .wording import many, one


class Player:
    """Plays one row. After `run`, `out` holds what was made and `row()` the worked row."""

    def __init__(self, site: Site, choice: Choice) -> None:
        ground = site.ground(1)
        assert ground is not None
        self.site, self.choice, self.ground = site, choice, ground
        self.ground.loose = choice.loose
        self.out: list[Stitch] = []
        self.here = site.starts_at
        self.last: Target | None = None
        self.skipped: tuple[int, ...] = ()
        self.passed: tuple[int, ...] = ()
        self.skipped_back = 1
        self.others: dict[int, tuple[int, int]] = {}
        self.pending = 0
        self.closing: tuple[Place, int] | None = None
        self.beside = Beside()
        self.near = self.replaced = self.gathering = False
        self.stands: dict[int, Sequence[Hit]] = {}
        self.used: dict[int, set[int]] = {}
        self.taken: dict[int, tuple[int, set[int]]] = {}
        self.chained = self.wide = False
        self.groups: list[tuple[int, int, str]] = []
        self.named: list[str] = []
        self.place = 0
        self.taken_before = 0
        self.main = 1
        self.context: Target | None = None
        self.group = -1
        self.loops = site.loops
        self.landmark = self.left_on_purpose = self.joined = False
        self.reserve: int | None = None
        self.corners: dict[int, Make | Into] = {}
        self.repeat: tuple[int, int, int] | None = None
        self.round_done = False
        self.used_ground = False
        self.counted_start = False
        self.top_ops: tuple[Op, ...] = ()
        self.leads = False
        self.looping = 0
        self.opposite = self.rotated = False
        self.landed = 0
        self.touched: list[tuple[int, int]] = []
        self.begun_with = 0
        self.own: tuple[int, int] | None = None
        self.on_edge = self.wrapped = self.exact = False
        self.offset = 1
        self.covered = self.chains = 0
        self.stopped = -1
        self.corner_spaces: tuple[Hit, ...] = ()
        self.repeating = 0

    def run(self, ops: tuple[Op, ...]) -> None:
        """Play the row; Stuck says where it cannot go on."""
        self.top_ops = ops
        self.near = deep.works_near(ops)
        self._ready(ops)
        self.sequence(ops, 0, top=True)

    def _ready(self, ops: tuple[Op, ...]) -> None:
        for op in ops:
            if isinstance(op, Corner):
                acts.mark_corners(self, op)
            elif isinstance(op, Act) and op.name in ("spread", "spread to"):
                acts.mark_spread(self, op, ops)
        if self.site.opening is not None:
            self._open(self.site.opening)

    def _open(self, parts: tuple[str, ...]) -> None:
        """The foundation's skipped chains, as what they count as."""
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
        for at in range(start, len(ops)):
            op = ops[at]
            self.beside = deep.beside(self, ops, at)
            deep.settle_before(self, ops, at)
            if top:
                self.reserve = remaining.reserved(self, ops, at) if remaining.takes_each(op) else None
            if isinstance(op, Star) and op.more is None and op.until is None:
                self.leads = True
                repeats.across(self, op, ops[at + 1 :] if top else (), top=top)
                if top:
                    return
                continue
            self.play(op)
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
        elif isinstance(op, Chain):
            beginnings.chain(self, op)
        elif isinstance(op, Skip):
            acts.skip(self, op)
        elif isinstance(op, Into):
            making.into(self, op)
        elif isinstance(op, Times):
            repeats.times(self, op)
        elif isinstance(op, Star):
            repeats.star(self, op)
        elif isinstance(op, Either):
            repeats.either(self, op)
        elif isinstance(op, Act):
            acts.act(self, op)
        elif isinstance(op, Again):
            raise Stuck("the row to repeat is not there", "name a row that stands before this one", op.at)

    def mark(self) -> Mark:
        return Mark(
            len(self.out),
            self.here,
            self.last,
            self.skipped,
            self.skipped_back,
            self.passed,
            dict(self.others),
            self.pending,
            self.chained,
            self.wide,
            len(self.named),
            len(self.groups),
            self.place,
            self.repeat,
            self.covered,
            self.chains,
        )

    def go_back(self, mark: Mark) -> None:
        del self.out[mark.made :]
        del self.named[mark.named :]
        del self.groups[mark.groups :]
        self.here, self.last, self.others, self.pending = (mark.here, mark.last, dict(mark.others), mark.pending)
        self.skipped, self.skipped_back, self.passed = mark.skipped, mark.skipped_back, mark.passed
        self.chained, self.wide, self.place = mark.chained, mark.wide, mark.place
        self.repeat, self.covered, self.chains = mark.repeat, mark.covered, mark.chains
        self.landmark = self.exact = False
        self.taken.clear()

    def ground_at(self, back: int) -> Ground:
        if back == 1:
            return self.ground
        ground = self.site.ground(back)
        if ground is None:
            raise Stuck("there is no such row below", "name a row that stands before this one")
        return ground

    def spot(self, back: int) -> int:
        return self.here if back == 1 else below.spot(self, back)

    def go(self, back: int, slot: int) -> None:
        if back == 1:
            self.here = slot
        else:
            self.others[back] = (slot, self.here)

    def targets(self, place: Place, at: Span, *, moving: bool = True) -> list[Target]:
        """The targets of a place; the hook moves on past them."""
        try:
            return targets.targets(self, place, at)
        except Stuck as stuck:
            raise Stuck(stuck.says, stuck.remedy, stuck.at if stuck.at != NOWHERE else at, stuck.kind) from None

    def travelling(self) -> bool:
        return all(s.role == "travel" for s in self.out)

    def new_place(self) -> int:
        self.place += 1
        return self.place

    def row(self, *, finished: bool) -> Row:
        """The worked row; `finished` is whether it could be worked to its end. A row of nothing but slip stitches
        counts them."""
        made = self.out
        if not any(counts(s) for s in made) and any(s.role == "travel" for s in made):
            made = [replace(s, role="stitch") if s.role == "travel" else s for s in made]
        if self.offset != 1:
            made = [replace(s, feet=tuple(self._lowered(f) for f in s.feet)) for s in made]
        taken = row_end.taken(self, finished=finished)
        return Row(tuple(made), taken, self.joined, self.repeat, tuple(sorted(self.groups)))

    def _lowered(self, foot: Foot) -> Foot:
        """A foot of a row that was worked into an earlier row as if that were the row below."""
        return replace(foot, back=self.offset) if foot.back == 1 else foot

    def one(self, noun: Noun) -> str:
        """A noun in the terms of the text."""
        return one(noun, self.site.terms)

    def many(self, noun: Noun, count: int) -> str:
        """A noun in the terms of the text, in the plural where the count asks for it."""
        return many(noun, count, self.site.terms)
