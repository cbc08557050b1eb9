"""Playing a row: the hands follow the tree over the ground and make stitches.

The player keeps where the hook is (`here`), what was made (`out`), and where the last stitch went. A `*` repeat
"across" is played as often as the ground allows and as lets the words after it come out even: the number of
repetitions is found by trying, from the most downwards.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from itertools import pairwise

from ..pattern.lexicon import height_of, together
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
    Special,
    Star,
    Times,
)
from .grid import Foot, Row, Stitch, counts
from .ground import Ground, Hit

MOST_MADE = 100_000
MOST_STEPS = 200_000
_TRIES = 12
_SPACES = ("sp", "lp", "gap", "corner sp")


class Stuck(Exception):
    """The row cannot go on: what is wrong, one thing to try, and where the words stand."""

    def __init__(self, says: str, remedy: str, at: Span = NOWHERE, kind: str = "impossible") -> None:
        super().__init__(says)
        self.says, self.remedy, self.at, self.kind = says, remedy, at, kind


@dataclass(frozen=True, slots=True)
class Target:
    """A place found: how a foot stands in it, the slots it covers, and on which row below (`back`) they are."""

    foot: Foot
    start: int
    end: int
    back: int = 1
    size: int = 1


@dataclass(frozen=True, slots=True)
class Choice:
    """How to read what the words leave open: what a beginning chain counts as (None: as the words or the usual
    practice say), whether "st" includes chains, and whether a round ends on what its first slip stitches passed."""

    chain: tuple[str, ...] | None = None
    loose: bool = False
    wrap: bool = False


@dataclass(slots=True)
class Steps:
    """What working may still cost: one step a clause played, over all readings tried of one row."""

    left: int = MOST_STEPS

    def spend(self, op: Op) -> None:
        self.left -= 1
        if self.left < 0:
            raise Stuck(
                f"working this row takes more than {MOST_STEPS:,} steps, which is the limit",
                "write it with fewer or smaller repeats", getattr(op, "at", NOWHERE), "limit",
            )  # fmt: skip


@dataclass(slots=True)
class Site:
    """All the player must know of where a row is worked: the ground of the row below and of earlier rows (by how
    many rows below), what below is called, the pattern's special stitches, and the row's own manner."""

    ground: Callable[[int], Ground | None]
    below: str
    specials: dict[str, Special]
    is_round: bool = False
    opening: tuple[str, ...] | None = None
    loops: str = ""
    throughout: dict[int, tuple[str, ...]] = field(default_factory=dict)
    number: int = 0
    on_foundation: bool = False
    starts_at: int = 0
    rows_below: int = 0
    steps: Steps = field(default_factory=Steps)


@dataclass(slots=True)
class _Mark:
    """A point to come back to."""

    made: int
    here: int
    last: Target | None
    skipped: tuple[int, ...]
    others: dict[int, int]
    chained: bool
    wide: bool
    named: int
    groups: int
    place: int
    takes: int
    repeat: tuple[int, int, int] | None


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
        self.others: dict[int, int] = {}
        self.chained = self.wide = False
        self.groups: list[tuple[int, int, str]] = []
        self.named: list[str] = []
        self.place = 0
        self.takes = 0
        self.main = 1
        self.context: Target | None = None
        self.group = -1
        self.loops = site.loops
        self.landmark = self.left_on_purpose = self.joined = False
        self.reserve: int | None = None
        self.corners: dict[int, Make] = {}
        self.repeat: tuple[int, int, int] | None = None
        self.round_done = False
        self.used_ground = False
        self.counted_start = False
        self.top_ops: tuple[Op, ...] = ()
        self.leads = False
        self.opposite = self.rotated = False
        self.landed = 0
        self.begun_with = 0
        self.own: tuple[int, int] | None = None
        self.on_edge = self.wrapped = False

    # -- the whole row --------------------------------------------------------------------------------------------

    def run(self, ops: tuple[Op, ...]) -> None:
        """Play the row; Stuck says where it cannot go on."""
        self.top_ops = ops
        self._ready(ops)
        self._sequence(ops, 0, top=True)

    def _ready(self, ops: tuple[Op, ...]) -> None:
        for op in ops:
            if isinstance(op, Corner):
                self._mark_corners(op)
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

    def _sequence(self, ops: tuple[Op, ...], start: int, *, top: bool = False) -> None:
        for at in range(start, len(ops)):
            op = ops[at]
            if top:
                self.reserve = self._reserved(ops, at) if _takes_each(op) else None
            if isinstance(op, Star) and op.more is None and op.until is None:
                self._across(op, ops[at + 1 :] if top else (), top=top)
                if top:
                    return
                continue
            self._play(op)
        if top:
            self.reserve = None

    def _play(self, op: Op) -> None:
        self.site.steps.spend(op)
        if len(self.out) > MOST_MADE:
            raise Stuck(f"the row makes more than {MOST_MADE:,} stitches", "use a smaller number", getattr(op, "at", NOWHERE), "limit")
        if isinstance(op, Make):
            self._make(op)
        elif isinstance(op, Chain):
            self._chain(op)
        elif isinstance(op, Skip):
            self._skip(op)
        elif isinstance(op, Into):
            self._into(op)
        elif isinstance(op, Times):
            self._times(op)
        elif isinstance(op, Star):
            self._star(op)
        elif isinstance(op, Either):
            self._either(op)
        elif isinstance(op, Act):
            self._act(op)
        elif isinstance(op, Again):
            raise Stuck("the row to repeat is not there", "name a row that stands before this one", op.at)

    # -- points to come back to -----------------------------------------------------------------------------------

    def _mark(self) -> _Mark:
        return _Mark(len(self.out), self.here, self.last, self.skipped, dict(self.others), self.chained, self.wide, len(self.named), len(self.groups), self.place, self.takes, self.repeat)

    def _back(self, mark: _Mark) -> None:
        del self.out[mark.made :]
        del self.named[mark.named :]
        del self.groups[mark.groups :]
        self.here, self.last, self.skipped, self.others = mark.here, mark.last, mark.skipped, dict(mark.others)
        self.chained, self.wide, self.place, self.takes = mark.chained, mark.wide, mark.place, mark.takes
        self.repeat = mark.repeat
        self.landmark = False

    # -- repeats --------------------------------------------------------------------------------------------------

    def _star(self, op: Star) -> None:
        if op.until is not None:
            self._until(op, *op.until)
        elif op.more is not None:
            self._fixed(op)
        else:
            self._across(op, (), top=False)

    def _fixed(self, op: Star) -> None:
        total = (op.more or 0) + 1
        bounds = [len(self.out)]
        for turn in range(total):
            last = turn == total - 1
            ops = op.ops[: op.cut] if last and op.cut is not None else op.ops
            try:
                self._sequence(ops, 0)
            except Stuck as stuck:
                raise Stuck(f"{stuck.says} (in repetition {turn + 1} of {total})", stuck.remedy, stuck.at if stuck.at != NOWHERE else op.at, stuck.kind) from None
            bounds.append(len(self.out))
        self._note_repeat(bounds)
        if op.ending:
            self._sequence(op.ending, 0)

    def _until(self, op: Star, count: int, noun: Noun) -> None:
        """Repeat until `count` of a noun are left."""
        made = 0
        bounds = [len(self.out)]
        left = self._left(noun)
        while left > count:
            before = self.here
            try:
                self._sequence(op.ops, 0)
            except Stuck as stuck:
                raise Stuck(
                    f"the repeat does not come out even: after {made} of them {left} {_many(noun, left)} are left of {self.site.below}, not {count}; {stuck.says}",
                    "change the foundation to the multiple the repeat needs, or the count after \"to last\"", op.at,
                ) from None  # fmt: skip
            made += 1
            bounds.append(len(self.out))
            if self.here == before:
                raise Stuck("the repeat moves nowhere, so it never ends", "say how often, as \"rep from * 3 more times\"", op.at, "ambiguous")
            left = self._left(noun)
        if left != count:
            raise Stuck(
                f"the repeat does not come out even: after {made} of them {left} {_many(noun, left)} are left of {self.site.below}, not {count}",
                "change the foundation to the multiple the repeat needs, or the count after \"to last\"", op.at,
            )  # fmt: skip
        self._note_repeat(bounds)
        if op.ending:
            self._sequence(op.ending, 0)

    def _left(self, noun: Noun) -> int:
        return self._ground(self.main).left(noun, self._spot(self.main))

    def _across(self, op: Star, tail: tuple[Op, ...], *, top: bool) -> None:
        """As often as the ground allows; at the top of the row, as often as lets the tail come out even."""
        marks, stuck = self._as_often_as_goes(op)
        best: tuple[Stuck | None, int] | None = None
        for tries, turns in enumerate(range(len(marks) - 1, -1, -1)):
            if tries >= _TRIES:
                break
            for part in self._endings(op):
                fault = self._try_tail(marks[turns], part, tail, top=top)
                if fault is not None and fault.kind == "limit":
                    raise fault
                if fault is None and (turns or part or stuck is None):
                    self._note_repeat([m.made for m in marks[: turns + 1]])
                    return
                if best is None and turns:
                    best = (fault, turns)
        self._uneven(op, marks, stuck, best, top=top)

    def _as_often_as_goes(self, op: Star) -> tuple[list[_Mark], Stuck | None]:
        marks = [self._mark()]
        while True:
            before = (self.here, dict(self.others))
            try:
                self._sequence(op.ops, 0)
            except Stuck as stuck:
                return marks, stuck
            marks.append(self._mark())
            if (self.here, self.others) == before:
                raise Stuck("the repeat moves nowhere, so it never ends", "say how often, as \"rep from * 3 more times\"", op.at, "ambiguous")

    def _endings(self, op: Star) -> list[tuple[Op, ...]]:
        """What may follow the last whole repetition: a part of one more, and the ending said."""
        if op.ending:
            whole = len(op.ops) - 1 if op.replaces else len(op.ops)
            return [op.ops[:n] + op.ending for n in range(whole, -1, -1)]
        if op.cut is not None:
            return [op.ops[: op.cut], ()]
        return [()]

    def _try_tail(self, mark: _Mark, part: tuple[Op, ...], tail: tuple[Op, ...], *, top: bool) -> Stuck | None:
        self._back(mark)
        try:
            self._sequence(part, 0)
            self._sequence(tail, 0, top=top)
            if top:
                self.check_end()
        except Stuck as stuck:
            return stuck
        return None

    def _uneven(self, op: Star, marks: list[_Mark], stuck: Stuck | None, best: tuple[Stuck | None, int] | None, *, top: bool) -> None:
        """No number of repetitions comes out even: say what is left over, and leave the most that could be worked."""
        turns = len(marks) - 1
        if stuck is not None and stuck.kind in ("limit", "ambiguous"):
            raise stuck
        self._back(marks[turns])
        left = self._ground(self.main).stitches_between(self._spot(self.main), len(self._ground(self.main).slots))
        each = (marks[turns].here - marks[0].here) // turns if turns else 0
        fault = best[0] if best else None
        if turns == 0 and stuck is not None:
            raise stuck
        if fault is not None and left == 0:
            raise fault
        after = f"; the words after it then fail: {fault.says}" if fault and left == 0 else ""
        raise Stuck(
            f"the repeat does not come out even: {turns} of them use {turns * each} of {self.site.below} and {left} {'stitch is' if left == 1 else 'stitches are'} left over{after}",
            "change the foundation to the multiple the repeat needs, or say what to do with the rest", op.at,
        )  # fmt: skip

    def _note_repeat(self, bounds: list[int]) -> None:
        """Remember the largest stretch of repetitions that made the same number of items each. `bounds` are where
        each began, and where the last ended; a last one of another length is no whole repetition."""
        if self.context is not None or len(bounds) < 3:
            return
        each = bounds[1] - bounds[0]
        turns = sum(1 for a, b in pairwise(bounds) if b - a == each)
        if turns < len(bounds) - 2 or not each or bounds[turns] != bounds[0] + each * turns:
            return
        if turns > 1 and (self.repeat is None or each * turns > self.repeat[1] * self.repeat[2]):
            self.repeat = (bounds[0], each, turns)

    def _times(self, op: Times) -> None:
        if op.times == 0:
            self._across(Star(op.ops, at=op.at), (), top=False)
            return
        begun = len(self.out)
        bounds = [begun]
        for turn in range(op.times):
            try:
                self._sequence(op.ops, 0)
            except Stuck as stuck:
                if op.times == 1:
                    raise
                raise Stuck(f"{stuck.says} (in repetition {turn + 1} of {op.times})", stuck.remedy, stuck.at if stuck.at != NOWHERE else op.at, stuck.kind) from None
            bounds.append(len(self.out))
        if op.name:
            self.named.append(op.name)
            self._close_group(begun, op.name)
        elif op.times > 1:
            self._note_repeat(bounds)

    def _either(self, op: Either) -> None:
        """The reading that the place right here allows."""
        mark = self._mark()
        for choice in op.choices:
            try:
                before = self.here
                self._play(choice)
                if self._adjacent(before):
                    return
            except Stuck as stuck:
                if stuck.kind == "limit":
                    raise
            self._back(mark)
        raise Stuck("neither of the two ways to work this place fits the row below", "say which is meant", op.at)

    def _adjacent(self, before: int) -> bool:
        return self.landed <= before

    # -- grounds --------------------------------------------------------------------------------------------------

    def _ground(self, back: int) -> Ground:
        if back == 1:
            return self.ground
        ground = self.site.ground(back)
        if ground is None:
            raise Stuck("there is no such row below", "name a row that stands before this one")
        return ground

    def _spot(self, back: int) -> int:
        return self.here if back == 1 else self.others.get(back, 0)

    def _go(self, back: int, slot: int) -> None:
        if back == 1:
            self.here = slot
        else:
            self.others[back] = slot

    def _back_of(self, place: Place) -> int:
        """How many rows below a place lies."""
        if place.row is None and place.of is not None and place.of.row is not None:
            return self._back_of(place.of)
        if place.row is None:
            return self.main
        if place.row.below:
            return place.row.below
        back = self.site.number - place.row.number
        if back < 1 or self.site.number == 0:
            raise Stuck(f"Row {place.row.number} does not stand before this row", "name a row that has been worked")
        return back

    # -- places ---------------------------------------------------------------------------------------------------

    def targets(self, place: Place, at: Span, *, moving: bool = True) -> list[Target]:
        """The targets of a place; the hook moves on past them."""
        try:
            return self._targets(place, at)
        except Stuck as stuck:
            raise Stuck(stuck.says, stuck.remedy, stuck.at if stuck.at != NOWHERE else at, stuck.kind) from None

    def _targets(self, place: Place, at: Span) -> list[Target]:
        which = place.which
        own = self._own_next(place)
        if own is not None:
            return own
        if which == "edge" or (self.on_edge and which in ("next", "each")):
            return self._along_edge(place)
        if which == "ring":
            return [Target(Foot(0, 1, "ring"), 0, 0)]
        if which == "made":
            return [Target(Foot(max(len(self.out) - 1, 0), 0), 0, 0, 0)]
        if which == "same":
            return [self._same(place)]
        if which == "hook":
            return [self._hook(place)]
        if which in ("top", "beg"):
            return [self._beginning(place)]
        if which == "nth":
            return self._nth(place)
        if which == "skipped":
            return self._skipped_targets(place)
        if which == "opening":
            return [Target(Foot(0, 1, "under"), 0, 1)]
        if which in ("before", "after", "between"):
            return [self._beside(place)]
        if which == "each":
            return self._each(place)
        if which == "any":
            return self._any(place)
        if which == "first":
            return self._first(place)
        if which == "last":
            return self._last(place)
        return self._next(place)

    def _target(self, back: int, hit: Hit, place: Place) -> Target:
        ground = self._ground(back)
        if hit.start == hit.end:
            slot = ground.slots[min(hit.start, len(ground.slots) - 1)]
            return Target(Foot(slot.item, back, "between"), hit.start, hit.end, back)
        slot = ground.slots[hit.start]
        hold = place.hold or (self.loops if counts(slot.stitch) or slot.stitch.role == "foundation" else "")
        if slot.stitch.role == "chain":
            whole = hit.end - hit.start == slot.stitch.chains and place.noun.name in ("sp", "lp", "mesh", "corner", "corner sp")
            foot = Foot(slot.item, back, "space" if whole else "chain", 0 if whole else slot.part)
            return Target(foot, hit.start, hit.end, back)
        if slot.stitch.role == "picot":
            return Target(Foot(slot.item, back, "picot"), hit.start, hit.end, back)
        return Target(Foot(slot.item, back, "under" if self.opposite else hold or "top"), hit.start, hit.end, back)

    def _next(self, place: Place) -> list[Target]:
        back = self._back_of(place)
        ground = self._ground(back)
        out: list[Target] = []
        for number in range(place.count * max(place.nth, 1)):
            spot = self._spot(back)
            if place.noun.name in _SPACES and not ground.has_spaces:
                spot = self._past_gap(spot)
            hit = ground.find(place.noun, spot)
            if hit is None:
                raise self._none_left(place, number, place.count)
            self._passable(back, spot, hit, place)
            self._go(back, hit.end)
            if number >= place.nth - 1:
                out.append(self._target(back, hit, place))
        self._remember(out)
        return out

    def _past_gap(self, spot: int) -> int:
        """The gap just used is not the next one."""
        return spot + 1 if self.last is not None and self.last.foot.hold == "between" and self.last.start == spot else spot

    def _passable(self, back: int, spot: int, hit: Hit, place: Place) -> None:
        """Passing over stitches without a word is allowed only towards a landmark, under chains, or beside a shell."""
        if back != 1 or place.noun.name not in ("st", "ch") and height_of(place.noun.name) is None:
            return
        over = self.ground.stitches_between(spot, hit.start)
        if not over or self.chained or self.wide or (self.site.on_foundation and place.noun.name == "ch"):
            return
        if self.site.is_round and spot == 0 and over == 1:
            return
        raise Stuck(
            f"the next {_one(place.noun)} of {self.site.below} lies {over} {'stitch' if over == 1 else 'stitches'} further on",
            f'say what to do with the {over} between, as "sk next {over if over > 1 else "st"}{" sts" if over > 1 else ""}"',
        )

    def _none_left(self, place: Place, found: int, wanted: int) -> Stuck:
        noun = _many(place.noun, 2 if wanted > 1 else 1)
        left = "none is left" if not found else f"only {found} {'is' if found == 1 else 'are'} left"
        total = len(self._ground(self._back_of(place)).hits(place.noun))
        if not total:
            return Stuck(f"{self.site.below} has no {_one(place.noun)}", f"name what {self.site.below} is made of")
        return Stuck(f"the words need {wanted} more {noun} of {self.site.below}; {left}", f"work fewer stitches here, or make more in {self.site.below}")

    def _remember(self, targets: list[Target]) -> None:
        if targets:
            self.last = targets[-1]
            self.landed = targets[0].start
            self.used_ground = True
            self.takes += sum(t.end - t.start for t in targets)

    def _along_edge(self, place: Place) -> list[Target]:
        """Along the ends of the rows: one place a row end, as many as are said, or one for every row."""
        count = place.count if place.which != "each" and place.noun.name != "row" else max(self.site.rows_below, 1)
        self.landmark = True
        return [Target(Foot(0, 1, "edge"), 0, 0, 0)] * count

    def _same(self, place: Place) -> Target:
        if self.context is not None and self.last is None:
            return self.context
        if self.last is not None:
            if self.last.back == 1:
                self.here = max(self.here, self.last.end)
            return self.last
        hit = self.ground.find(place.noun if place.noun.name not in ("sp", "lp") else Noun("st"), 0) or self.ground.find(Noun("st"), 0)
        if hit is None:
            raise Stuck('nothing has been worked yet that "same" could mean', "name the place")
        target = self._target(1, hit, place)
        self.here = max(self.here, hit.end)
        self.last = target
        self.takes += 1
        return target

    def _hook(self, place: Place) -> Target:
        slot = place.nth - 1
        if not self.site.on_foundation:
            if self.out and self.out[-1].kind == "ch":
                return self._own_hook(place)
            raise Stuck("there is no foundation chain below to count from the hook", "name the stitch of the row below")
        if slot >= len(self.ground.slots):
            raise Stuck(f"the foundation has {len(self.ground.slots)} ch; there is no {_ordinal(place.nth)} ch from the hook", f"make at least {place.nth} ch")
        self.here = slot + 1
        target = self._target(1, Hit(slot, slot + 1), place)
        self._remember([target])
        return target

    def _own_hook(self, place: Place) -> Target:
        """ "in 4th ch from hook" of a chain made in this row: the row goes on along it, back towards its first chain."""
        at, chain = len(self.out) - 1, self.out[-1]
        if place.nth > chain.chains:
            raise Stuck(f"the chain just made has {chain.chains} ch; there is no {_ordinal(place.nth)} ch from the hook", f"make at least {place.nth} ch")
        if chain.role == "start":
            self.out[at] = replace(chain, role="chain")
        part = chain.chains - place.nth
        self.own = (at, part)
        return Target(Foot(at, 0, "chain", part), 0, 0, 0)

    def _own_next(self, place: Place) -> list[Target] | None:
        """The next chains of a chain made in this row that is being worked along."""
        if self.own is None or place.noun.name not in ("ch", "st") or place.which not in ("next", "each", "last", "rem"):
            return None
        at, part = self.own
        count = part if place.which in ("each", "last") and place.count == 1 and place.which == "each" else place.count
        if count > part or not count:
            return None
        self.own = (at, part - count)
        return [Target(Foot(at, 0, "chain", part - 1 - i), 0, 0, 0) for i in range(count)]

    def _beginning(self, place: Place) -> Target:
        """The beginning chain of the row below: its top, or the stitch it counts as."""
        back = self._back_of(place)
        chain = place.of if place.which == "top" and place.of is not None else place
        back = self._back_of(chain) if chain.row else back
        if chain.which not in ("beg",):
            return self._targets(chain, NOWHERE)[-1]
        item = self._start_item(back)
        ground = self._ground(back)
        stitch = ground.row.stitches[item]
        wanted = chain.noun.size
        if wanted and stitch.chains and self._start_chains(back) != wanted and not self.site.on_foundation:
            raise Stuck(f"{self.site.below} begins with ch {self._start_chains(back)}, not ch {wanted}", f'write "beg ch-{self._start_chains(back)}"')
        return self._start_target(back, item, place)

    def _start_target(self, back: int, item: int, place: Place, part: int | None = None) -> Target:
        ground = self._ground(back)
        slot = ground.of_item(item, part)
        if slot is None:
            target = Target(Foot(item, back, "top"), len(ground.slots), len(ground.slots), back)
        else:
            first = item if ground.row.stitches[item].role != "chain" else None
            target = self._target(back, Hit(slot, slot + 1), place if first is not None else Place("next", Noun("ch"), hold=place.hold))
        return self._landmark(back, target)

    def _landmark(self, back: int, target: Target) -> Target:
        spot = self._spot(back)
        if back == 1 and target.start < spot and not self._at_round_start(target):
            raise Stuck(f"the beginning chain of {self.site.below} has been worked into already", "work one stitch fewer before it")
        if back == 1 and not self.site.is_round:
            over = self.ground.stitches_between(spot, target.start)
            if over and not (self.chained or self.wide):
                raise Stuck(f"{over} {'stitch' if over == 1 else 'stitches'} of {self.site.below} {'is' if over == 1 else 'are'} left before its beginning chain", f"work {'it' if over == 1 else 'them'}, or say that {'it is' if over == 1 else 'they are'} skipped")
        self._go(back, max(spot, target.end))
        self.landmark = True
        self._remember([target])
        return target

    def _at_round_start(self, target: Target) -> bool:
        return self.site.is_round

    def _start_item(self, back: int) -> int:
        row = self._ground(back).row
        for item, stitch in enumerate(row.stitches):
            if stitch.role == "travel":
                continue
            return item
        raise Stuck(f"{self.site.below} has no beginning chain", "name the stitch")

    def _start_chains(self, back: int) -> int:
        """How many chains the row below began with."""
        row, item = self._ground(back).row, self._start_item(back)
        total = row.stitches[item].chains if row.stitches[item].role in ("turning", "start", "chain") else 0
        after = row.stitches[item + 1] if item + 1 < len(row.stitches) else None
        if row.stitches[item].role == "turning" and after is not None and after.role == "chain" and after.place == -1:
            total += after.chains
        return total

    def _nth(self, place: Place) -> list[Target]:
        """The nth noun of a group, a loop, or the beginning chain."""
        of = place.of
        assert of is not None
        if of.which == "beg":
            return [self._nth_of_beginning(place, of)]
        back = self._back_of(place)
        if of.which == "each" or of.count > 1:
            return self._nth_of_each(place, of, back)
        hit = self._group_hit(of, back)
        ground = self._ground(back)
        inside = ground.within(place.noun, hit.start, hit.end)
        if place.noun.name == "ch" and ground.slots[hit.start].stitch.role == "chain":
            inside = [Hit(i, i + 1) for i in range(hit.start, hit.end)]
        if not inside:
            raise Stuck(f"there is no {_one(place.noun)} in that {_one(of.noun)}", "name what it is made of")
        first = len(inside) // 2 if place.nth == 0 else len(inside) - place.count if place.nth < 0 else place.nth - 1
        chosen = inside[first : first + place.count]
        if len(chosen) < place.count or first < 0:
            raise Stuck(f"that {_one(of.noun)} has {len(inside)} {_many(place.noun, len(inside))}; there is no {_ordinal(place.nth + place.count - 1)}", "count again")
        if of.which == "any" and back == 1:
            chosen = [self._begin_round_at(chosen[0])]
        out = [self._target(back, h, place) for h in chosen]
        self._go(back, max(self._spot(back), chosen[-1].end))
        self.wide = True
        self._remember(out)
        return out

    def _nth_of_each(self, place: Place, of: Place, back: int) -> list[Target]:
        """ "in ch-1 sp of each V-st", "in center dc of next 3 shells"."""
        ground, spot = self._ground(back), self._spot(back)
        groups = ground.within(of.noun, spot, len(ground.slots))[: of.count if of.which != "each" else None]
        if not groups or (of.which != "each" and len(groups) < of.count):
            raise self._none_left(of, len(groups), of.count)
        out: list[Target] = []
        for hit in groups:
            self._go(back, hit.start)
            out += self._nth(replace(place, of=replace(of, which="next", count=1)))
        self._remember(out)
        return out

    def _group_hit(self, of: Place, back: int) -> Hit:
        ground, spot = self._ground(back), self._spot(back)
        hits = ground.hits(of.noun)
        if of.which in ("any", "first") and hits:
            if of.which == "any" and not self.out:
                return hits[0]
            return hits[0] if of.which == "first" else next((h for h in hits if h.start >= spot), hits[0])
        if of.which == "last" and hits:
            return hits[-1]
        if of.which == "same" and self.last is not None:
            return Hit(self.last.start, self.last.end)
        found = next((h for h in ground.from_about(of.noun, spot) if h.end > spot and (h.start >= spot or not self._been_in(h))), None)
        if found is None:
            raise self._none_left(of, 0, 1)
        return found

    def _been_in(self, hit: Hit) -> bool:
        return self.last is not None and hit.start <= self.last.start < hit.end

    def _nth_of_beginning(self, place: Place, of: Place) -> Target:
        back = self._back_of(of)
        item = self._start_item(back)
        row = self._ground(back).row
        stitch = row.stitches[item]
        total = self._start_chains(back)
        if of.noun.size and total and total != of.noun.size and not self.site.on_foundation:
            raise Stuck(f"{self.site.below} begins with ch {total}, not ch {of.noun.size}", f'write "beg ch-{total}"')
        if place.noun.name in ("sp", "lp"):
            run = next((i for i in range(item, min(item + 2, len(row.stitches))) if row.stitches[i].role == "chain"), None)
            if run is None:
                raise Stuck(f"the beginning chain of {self.site.below} leaves no space", "name the stitch")
            slot = self._ground(back).of_item(run)
            assert slot is not None
            start = self._ground(back).of_item(run, None) or 0
            return self._landmark(back, self._target(back, Hit(start, start + row.stitches[run].chains), place))
        if place.nth > total and total:
            raise Stuck(f"the beginning chain of {self.site.below} has {total} ch; there is no {_ordinal(place.nth)}", "count again")
        if stitch.role == "turning" and place.nth > stitch.chains:
            return self._start_target(back, item + 1, place, place.nth - stitch.chains - 1)
        if stitch.role == "chain":
            return self._start_target(back, item, place, place.nth - 1)
        return self._start_target(back, item, place)

    def _skipped_targets(self, place: Place) -> list[Target]:
        if not self.skipped:
            raise Stuck("nothing has been skipped here", "say which stitch is meant")
        slot = self.skipped[-1]
        self.skipped = self.skipped[:-1]
        return [self._target(1, Hit(slot, slot + 1), place)]

    def _beside(self, place: Place) -> Target:
        """The gap beside a stitch or a group."""
        assert place.of is not None
        back = self._back_of(place.of)
        ground = self._ground(back)
        hits = ground.hits(place.of.noun)
        spot = self._spot(back)
        if place.of.which == "first":
            hit = hits[0] if hits else None
        elif place.of.which == "last":
            hit = hits[-1] if hits else None
        else:
            hit = ground.find(place.of.noun, spot)
        if hit is None:
            raise self._none_left(place.of, 0, 1)
        gap = hit.start if place.which == "before" else hit.end
        if place.which == "between" and place.of.count > 1:
            gap = hit.start + 1
        target = Target(Foot(ground.slots[min(gap, len(ground.slots) - 1)].item, back, "between"), gap, gap, back)
        past = hit.end if place.which == "before" and hit.end - hit.start > 1 else gap
        self._go(back, max(spot, past))
        self.landmark = self.landmark or place.of.which == "last"
        self._remember([target])
        self.wide = True
        return target

    def _each(self, place: Place) -> list[Target]:
        """All that are left, as far as `until` and as what the row does afterwards leave it."""
        back = self._back_of(place)
        ground = self._ground(back)
        nouns = (place.noun, *place.also)
        end = self._end_of_each(place, back)
        found = {h: n for n in reversed(nouns) for h in ground.within(n, self._spot(back), end)}
        kept = sorted(found, key=lambda h: (h.start, h.end))
        if not kept and not ((place.until or place.upto) and self._spot(back) == end):
            raise self._none_left(place, 0, 1)
        if back == 1:
            self._each_passes(kept, nouns)
        out = [self._target(back, h, Place("each", found[h], hold=place.hold)) for h in kept]
        if kept:
            self._go(back, kept[-1].end)
        if any(n.name in _SPACES for n in nouns):
            self.wide = True
        self._remember(out)
        return out

    def _end_of_each(self, place: Place, back: int) -> int:
        ground = self._ground(back)
        end = len(ground.slots)
        if place.until:
            count, noun = place.until
            hits = ground.within(noun, self._spot(back), end)
            if len(hits) < count:
                raise Stuck(f"the words leave the last {count} {_many(noun, count)} of {self.site.below}; only {len(hits)} {'is' if len(hits) == 1 else 'are'} left", f"leave {len(hits)}")
            end = hits[len(hits) - count].start if count else end
        elif place.upto is not None:
            hit = ground.find(place.upto, self._spot(back))
            end = hit.start if hit else end
        elif self.reserve is not None and back == 1:
            end = min(end, self.reserve)
        return end

    def _each_passes(self, kept: list[Hit], nouns: tuple[Noun, ...]) -> None:
        """ "each sc" that passes over other stitches leaves them unworked without a word."""
        if not kept or any(n.name in ("sp", "lp", "picot", "ch", "mesh") or height_of(n.name) is None and n.name != "st" for n in nouns):
            return
        worked = sum(self.ground.stitches_between(h.start, h.end) for h in kept)
        over = self.ground.stitches_between(self.here, kept[-1].end) - worked
        if over and not self.corners:
            raise Stuck(f'"each {_one(nouns[0])}" passes over {over} other {"stitch" if over == 1 else "stitches"} of {self.site.below}', 'write "each st", or say that the others are skipped')

    def _any(self, place: Place) -> list[Target]:
        """A new yarn joined anywhere: the round begins there."""
        hit = self.ground.find(place.noun, 0)
        if hit is None:
            raise self._none_left(place, 0, 1)
        hit = self._begin_round_at(hit)
        target = self._target(1, hit, place)
        self.here = max(self.here, hit.end)
        self._remember([target])
        return [target]

    def _begin_round_at(self, hit: Hit) -> Hit:
        """A round begun at "any" place is worked from there: the ground is turned to it, once."""
        if not self.site.is_round or not self._travelling():
            return hit
        if not self.rotated:
            self.ground = self.ground.turned_to(hit.start)
            self.rotated = True
        return Hit(0, hit.end - hit.start)

    def _first(self, place: Place) -> list[Target]:
        back = self._back_of(place)
        ground = self._ground(back)
        hits = ground.hits(place.noun)[: place.count]
        if len(hits) < place.count:
            raise self._none_left(place, len(hits), place.count)
        out = [self._target(back, h, place) for h in hits]
        self._go(back, max(self._spot(back), hits[-1].end))
        self._remember(out)
        return out

    def _last(self, place: Place) -> list[Target]:
        back = self._back_of(place)
        ground = self._ground(back)
        hits = ground.hits(place.noun)
        if len(hits) < place.count:
            raise self._none_left(place, len(hits), place.count)
        hits = hits[-place.count :]
        if back == 1 and hits[0].start < self.here:
            left = ground.left(place.noun, self.here)
            raise Stuck(f"the words need the last {place.count if place.count > 1 else ''} {_many(place.noun, place.count)} of {self.site.below}, but {'all are' if not left else f'only {left} {chr(105) + chr(115) if left == 1 else chr(97) + chr(114) + chr(101)}'} {'worked already' if not left else 'left'}".replace("  ", " "), "work fewer stitches before")
        self._last_passes(hits, place)
        out = [self._target(back, h, place) for h in hits]
        self._go(back, hits[-1].end)
        self.landmark = True
        self._remember(out)
        return out

    def _last_passes(self, hits: list[Hit], place: Place) -> None:
        if place.noun.name not in ("st", "ch") and height_of(place.noun.name) is None:
            return
        over = self.ground.stitches_between(self.here, hits[0].start)
        if over and not (self.chained or self.wide or self.site.is_round):
            raise Stuck(f"{over} {'stitch' if over == 1 else 'stitches'} of {self.site.below} {'is' if over == 1 else 'are'} left before the last {_one(place.noun)}", f"work {'it' if over == 1 else 'them'}, or say that {'it is' if over == 1 else 'they are'} skipped")

    def _reserved(self, ops: tuple[Op, ...], at: int) -> int | None:
        """Where the stitches begin that a later clause of the row works into: "each" stops before them."""
        for op in ops[at + 1 :]:
            if isinstance(op, Star) and op.more is None:
                return None
            places = op.places if isinstance(op, Make | Into) else ()
            for place in places:
                found = self._reserved_by(place)
                if found is not None:
                    return found
        return None

    def _reserved_by(self, place: Place) -> int | None:
        if self._back_of(place) != 1:
            return None
        if place.which == "last":
            hits = self.ground.hits(place.noun)
            return hits[-place.count].start if len(hits) >= place.count else None
        beginning = place.which in ("top", "beg") or (place.which == "nth" and place.of is not None and place.of.which == "beg")
        if beginning and not self.site.is_round:
            item = self._start_item(1)
            return self.ground.of_item(item)
        return None

    # -- making ---------------------------------------------------------------------------------------------------

    def _make(self, op: Make) -> None:
        if op.stitch == "picot" or (op.stitch in self.site.specials and self.site.specials[op.stitch].form == "picot"):
            self._picot(op)
            return
        if op.stitch == "sl st" and self._closes(op):
            self._join(op.places[0])
            return
        if self._closes_with_stitch(op):
            self._join(op.places[0], op.stitch)
            return
        legs = together(op.stitch)
        if op.stitch[:1] == "f" and height_of(op.stitch) and not op.places:
            self._foundation_stitches(op)
            return
        places = op.places or (() if self.context is not None else (Place("next", count=legs if legs > 1 else op.count),))
        if not op.places and self.context is None and legs == 1:
            self._put(op, self.targets(places[0], op.at), 1)
            return
        if not places:
            self._put(op, [self.context], op.count) if self.context else None
            return
        if legs > 1:
            self._gather(op, places, legs)
            return
        for place in places:
            wide = _is_shell(op)
            self.wide = self.wide or wide
            self._put(op, self.targets(place, op.at), op.count)

    def _put(self, op: Make, targets: list[Target], count: int) -> None:
        """`count` stitches in each target."""
        for target in targets:
            corner = self.corners.get(target.start) if target.back == 1 and target.end > target.start else None
            number = corner.count if corner else count
            group = self._new_place() if number > 1 and self.group < 0 else self.group
            begun = len(self.out)
            self._room_for(number, op)
            self.out += [self._stitch(op.stitch, (target,), group, op)] * number
            if number > 1 and self.group < 0:
                self.groups.append((begun, number, ""))
        self.chained = False
        self.wide = (count >= 3 and height_of(op.stitch) not in ("sc", None)) or (self.wide and bool(targets) and targets[-1].foot.hold in ("space", "between"))

    def _room_for(self, number: int, op: Make | Chain) -> None:
        if len(self.out) + number > MOST_MADE:
            raise Stuck(f"the row makes more than {MOST_MADE:,} stitches", "use a smaller number", op.at, "limit")

    def _stitch(self, kind: str, targets: tuple[Target, ...], group: int, op: Make) -> Stitch:
        special = self.site.specials.get(kind)
        feet = tuple(t.foot for t in targets)
        if kind[:2] in ("FP", "BP"):
            hold = "front post" if kind[:2] == "FP" else "back post"
            feet = tuple(Foot(f.at, f.back, hold, f.part) for f in feet)
        if special and special.kind:
            if special.reach > 1 and feet and feet[0].back == 1:
                feet = self._deeper(feet, special.reach)
            return Stitch(special.kind, feet, "stitch", special.chains, group, special.legs)
        role = "travel" if kind == "sl st" and self._travelling() else "stitch"
        legs = {"bobble": 5, "puff": 3, "popcorn": 5, "cl": 3}.get(kind, together(kind) if together(kind) > 1 else 0)
        return Stitch(kind, feet, role, 0, group, legs)

    def _travelling(self) -> bool:
        return all(s.role == "travel" for s in self.out)

    def _deeper(self, feet: tuple[Foot, ...], reach: int) -> tuple[Foot, ...]:
        """A long stitch goes into what the stitch below it stands on."""
        out = []
        for foot in feet:
            deep = foot
            for _ in range(reach - 1):
                row = self._ground(deep.back).row
                below = row.stitches[deep.at].feet
                if not below or below[0].back == 0:
                    break
                deep = Foot(below[0].at, deep.back + below[0].back, "top", below[0].part)
            out.append(deep)
        return tuple(out)

    def _gather(self, op: Make, places: tuple[Place, ...], legs: int) -> None:
        """Several feet under one top: over as many places as it has legs, or all in one."""
        targets = [t for p in places for t in self.targets(p, op.at)]
        one_place = len(targets) == 1
        if one_place:
            targets *= legs
        elif len(targets) == legs + 1 and legs == 2:
            targets = [targets[0], targets[2]]
        if len(targets) % legs:
            raise Stuck(f"{op.stitch} works {legs} stitches together, but the words give it {len(targets)}", f'write "over next {legs} sts"', op.at)
        self._room_for(op.count * len(targets) // legs, op)
        for _ in range(op.count):
            for first in range(0, len(targets), legs):
                self.out.append(self._stitch(op.stitch, tuple(targets[first : first + legs]), self.group, op))
        self.chained = self.wide = False

    def _picot(self, op: Make) -> None:
        special = self.site.specials.get(op.stitch)
        chains = special.chains if special else next((p.nth for p in op.places if p.which == "made" and p.nth), 3)
        kind = special.kind if special else "picot"
        self._room_for(op.count, op)
        at = next((i for i in range(len(self.out) - 1, -1, -1) if self.out[i].role not in ("chain", "picot")), max(len(self.out) - 1, 0))
        self.out += [Stitch(kind, (Foot(at, 0),), "picot", chains, self.group)] * op.count

    def _foundation_stitches(self, op: Make) -> None:
        self._room_for(op.count, op)
        self.out += [Stitch(op.stitch, (), "stitch")] * op.count

    def _new_place(self) -> int:
        self.place += 1
        return self.place

    def _into(self, op: Into) -> None:
        """A group into each target of a place."""
        places = op.places or (Place("next"),)
        for place in places:
            targets = [self.context] if not op.places and self.context is not None else self.targets(place, op.at)
            for target in targets:
                self._into_one(op, target)

    def _into_one(self, op: Into, target: Target) -> None:
        keep = (self.context, self.group)
        self.context, self.group = target, self._new_place() if keep[1] < 0 else keep[1]
        begun = len(self.out)
        try:
            self._sequence(op.ops, 0)
        finally:
            self.context, self.group = keep
        if op.name:
            self.named.append(op.name)
        self._close_group(begun, op.name)
        self.chained, self.wide = False, True

    def _close_group(self, begun: int, name: str) -> None:
        if len(self.out) > begun and (self.group < 0 or name):
            self.groups.append((begun, len(self.out) - begun, name))

    # -- chains ---------------------------------------------------------------------------------------------------

    def _chain(self, op: Chain) -> None:
        if self._beginning_chain():
            self._begin(op, self._counted(op))
            return
        self.out.append(Stitch("ch", (), "chain", op.count, self.group))
        self.chained = True

    def _beginning_chain(self) -> bool:
        """Whether no stitch has been made: this chain lifts the work to its height."""
        return all(s.role == "travel" for s in self.out) and not self.leads

    def _counted(self, op: Chain) -> tuple[str, ...]:
        if op.counts is not None:
            return op.counts
        if op.count in self.site.throughout:
            return self.site.throughout[op.count]
        return self.choice.chain if self.choice.chain is not None else ()

    def _begin(self, op: Chain, parts: tuple[str, ...]) -> None:
        self.begun_with = op.count
        runs = [int(p.split()[1]) for p in parts if p.startswith("ch ")]
        rises = [p for p in parts if not p.startswith(("ch", "sk"))]
        if not rises:
            if runs or "ch" in parts:
                self.out.append(Stitch("ch", (), "chain", runs[0] if runs else op.count, self.group))
                self.chained = True
            else:
                self.out.append(Stitch("ch", (), "start", op.count, self.group))
            return
        kind = _rise(op.count) if rises[0] == "st" else rises[0]
        target = self._stand(op)
        self.out.append(Stitch(kind, (target.foot,) if target else (), "turning", max(op.count - sum(runs), 1), self.group))
        self.counted_start = True
        for run in runs:
            self.out.append(Stitch("ch", (), "chain", run, -1 if self.group < 0 else self.group))
            self.chained = True

    def _wrap(self) -> None:
        """What the slip stitches at a round's beginning passed over comes again at its end."""
        if not self.choice.wrap or self.wrapped or not self.site.is_round or self.last is None or not self.out:
            return
        self.wrapped = True
        passed = self.ground.slots[: self.last.start]
        if passed and self.last.back == 1:
            self.ground = Ground(self.ground.row, self.ground.slots + passed, self.ground.loose)

    def _stand(self, op: Chain) -> Target | None:
        """Where a beginning chain that counts stands: the group's place, the last slip stitch, or the first stitch."""
        self._wrap()
        if self.context is not None:
            return self.context
        if self.out and self.last is not None:
            return self.last
        if self.last is not None and self.last.end:
            self.here = max(self.here, self.last.end)
            return self.last
        if self.ground.slots and self.ground.slots[0].stitch.role == "ring":
            return Target(Foot(0, 1, "ring"), 0, 0)
        hit = self.ground.find(Noun("st"), self.here)
        if hit is None:
            return None
        self.here = hit.end
        target = self._target(1, hit, Place("first"))
        self._remember([target])
        return target

    # -- skipping and acts ----------------------------------------------------------------------------------------

    def _skip(self, op: Skip) -> None:
        passed: list[int] = []
        for place in op.places:
            if place.which == "first" and place.noun.name not in ("shell", "V-st", "group", "block") and self._already(place):
                continue
            keep = self.last
            for target in self.targets(place, op.at):
                passed += range(target.start, target.end)
            self.last = keep
        self.skipped = tuple(passed)
        self.landmark = False

    def _already(self, place: Place) -> bool:
        hits = self.ground.hits(place.noun)[: place.count]
        return bool(hits) and hits[-1].end <= self.here

    def _closes(self, op: Make) -> bool:
        """A slip stitch back into the row's own beginning closes a round."""
        if not self.site.is_round or self._travelling() or not op.places:
            return False
        place = op.places[0]
        if place.which in ("first", "top", "beg") or (place.which == "nth" and place.of is not None and place.of.which == "beg"):
            return True
        return place.which == "next" and self.here >= len(self.ground.slots)

    def _closes_with_stitch(self, op: Make) -> bool:
        """ "ch 2, dc in first sc to join": chains and a stitch into the round's own first stitch end the round."""
        if not (self.site.is_round and self.chained and op.places and op.count == 1) or self.left_over():
            return False
        place = op.places[0]
        return place.which in ("first", "top", "beg") and self.used_ground and self.counted_in()

    def counted_in(self) -> bool:
        """Whether stitches have been made in this round that a join could go into."""
        return sum(map(counts, self.out)) > 1

    def _join(self, place: Place | None, kind: str = "sl st") -> None:
        self._check_join(place)
        first = next((i for i, s in enumerate(self.out) if s.role != "travel" and s.role != "start"), 0)
        self.out.append(Stitch(kind, (Foot(first, 0),), "join"))
        self.joined = True

    def _check_join(self, place: Place | None) -> None:
        """The place joined to must be there: "3rd ch of beg ch-6" needs a beginning chain of 6 with a third chain."""
        of = place.of if place is not None and place.which in ("nth", "top") else place
        if place is None or of is None or of.which != "beg" or of.noun.name not in ("st", "ch"):
            return
        total = self._own_start()
        if not total:
            return
        if of.noun.size and of.noun.size != total:
            raise Stuck(f"this round begins with ch {total}, not ch {of.noun.size}", f'write "beg ch-{total}"')
        if place.which == "nth" and place.nth > total:
            raise Stuck(f"the beginning chain has {total} ch; there is no {_ordinal(place.nth)}", f"name one of its {total} ch")

    def _own_start(self) -> int:
        """How many chains this row's own beginning chain has; 0 if it has none."""
        at = next((i for i, s in enumerate(self.out) if s.role != "travel"), None)
        if at is None or self.out[at].role not in ("turning", "start", "chain"):
            return 0
        total = self.out[at].chains
        if self.out[at].role == "turning" and at + 1 < len(self.out) and self.out[at + 1].role == "chain" and self.begun_with > total:
            total += self.out[at + 1].chains
        return self.begun_with or total

    def _act(self, op: Act) -> None:
        if op.name == "join":
            self._join(op.place)
        elif op.name == "yarn":
            self._take_up(op)
        elif op.name == "leave":
            self.left_on_purpose = True
        elif op.name == "loops":
            self.loops = op.text
        elif op.name == "row" and op.place is not None:
            self._other_row(op)
        elif op.name == "opposite":
            self._turn_to_opposite()
        elif op.name == "edge":
            self.on_edge = True
        elif op.name == "behind":
            self.left_on_purpose = True
        elif op.name == "last":
            self.landmark = True

    def _take_up(self, op: Act) -> None:
        """A new yarn joined at a place: the hook is there, and has used nothing yet."""
        if op.place is None:
            return
        target = self.targets(op.place, op.at)[0]
        if target.back == 1 and self.main == 1:
            self.here = target.start
        elif target.back != 1:
            self.others[target.back] = target.start
        self.last = target

    def _other_row(self, op: Act) -> None:
        assert op.place is not None
        back = self._back_of(op.place)
        ground = self._ground(back)
        self.ground, self.main = Ground(ground.row, ground.slots, ground.loose), 1
        self.here = 0
        self.loops = op.text or self.loops
        self._shift = back
        site = self.site
        below = site.ground

        def moved(wanted: int, below: Callable[[int], Ground | None] = below) -> Ground | None:
            return below(wanted)

        self.site = Site(moved, f"Row {site.number - back}", site.specials, site.is_round, site.opening, site.loops, site.throughout, site.number, site.on_foundation)
        self.offset = back

    offset: int = 1
    _shift: int = 1

    def _turn_to_opposite(self) -> None:
        """Along the other side of the foundation chain, back towards its beginning."""
        first = max((s.feet[0].at for s in self.out if s.feet and s.feet[0].back == 1), default=0)
        row = self.ground.row
        slots = tuple(s for s in reversed(self.ground.slots[:-1]) if s.item <= first)
        self.ground = Ground(row, slots)
        self.here = 0
        self.opposite = True
        self.landmark = True
        self.left_on_purpose = True

    # -- the end of the row ---------------------------------------------------------------------------------------

    def _mark_corners(self, op: Corner) -> None:
        for place in op.make.places:
            of = place.of
            noun = of.noun if of is not None else place.noun
            for hit in self.ground.hits(noun):
                inside = [i for i in range(hit.start, hit.end) if counts(self.ground.slots[i].stitch)]
                if not inside:
                    continue
                at = len(inside) // 2 if place.nth == 0 or of is None else min(place.nth, len(inside)) - 1
                self.corners[inside[at]] = op.make

    def left_over(self) -> int:
        """Stitches of the row below that were neither worked nor passed over."""
        return self.ground.stitches_between(self.here, len(self.ground.slots))

    def check_end(self) -> None:
        """Raise Stuck if the row leaves stitches of the row below unworked without a word."""
        left = self.left_over()
        if not left or self.left_on_purpose or self.landmark or not self.used_ground or self._only_ring():
            return
        spaced = self.last is not None and self.last.foot.hold in ("space", "picot", "chain")
        if spaced and (self.site.is_round or (left == 1 and not self.counted_start)):
            return
        if self.site.is_round and self.chained:
            return
        if spaced and self.last is not None and self.ground.ends_with_group(self.last.start):
            return
        if self.others and self.last is not None and self.last.back != 1 and self.here == 0:
            return
        made = sum(1 for s in self.out if counts(s))
        raise Stuck(
            f"{left} {'stitch' if left == 1 else 'stitches'} of {self.site.below} {'is' if left == 1 else 'are'} left unworked at the end (the row makes {made})",
            f'work {"it" if left == 1 else "them"} ("sc in last {left if left > 1 else "st"}{" sts" if left > 1 else ""}"), or write "leave last {left if left > 1 else "st"}{" sts" if left > 1 else ""} unworked"',
        )

    def _only_ring(self) -> bool:
        return bool(self.ground.slots) and self.ground.slots[0].stitch.role == "ring"

    def row(self) -> Row:
        """The worked row. A row of nothing but slip stitches counts them."""
        made = self.out
        if not any(counts(s) for s in made) and any(s.role == "travel" for s in made):
            made = [Stitch(s.kind, s.feet, "stitch", s.chains, s.place, s.legs) if s.role == "travel" else s for s in made]
        if self.offset != 1:
            made = [Stitch(s.kind, tuple(Foot(f.at, f.back + self.offset - 1 if f.back == 1 else f.back, f.hold, f.part) for f in s.feet), s.role, s.chains, s.place, s.legs) for s in made]
        return Row(tuple(made), self.takes, self.joined, self.repeat, tuple(sorted(self.groups)))


def _is_shell(op: Make) -> bool:
    """Whether so many tall stitches go into one place that they spread over the stitches beside it."""
    return op.count >= 3 and height_of(op.stitch) not in ("sc", None)


def _takes_each(op: Op) -> bool:
    """Whether a clause works into all that is left, so that what later clauses need must be kept from it."""
    return isinstance(op, Make | Into | Skip) and any(p.which == "each" for p in op.places) or isinstance(op, Times | Star | Either)


def _rise(chains: int) -> str:
    """The stitch a beginning chain of so many chains is as tall as (PG 26113, 1918, for sc to dtr)."""
    return {1: "sc", 2: "hdc", 3: "dc", 4: "tr", 5: "dtr", 6: "trtr"}.get(chains, "dc")


def _one(noun: Noun) -> str:
    if noun.name in ("sp", "lp") and noun.size:
        return f"ch-{noun.size} {noun.name}"
    if noun.name == "group" and noun.size:
        return f"{noun.size}-{noun.of or 'st'} group"
    return noun.name


def _many(noun: Noun, count: int) -> str:
    word = _one(noun)
    plural = word in ("st", "sp", "lp", "picot", "shell", "V-st") or word.endswith((" sp", " lp", "group"))
    return word + ("s" if plural and count != 1 else "")


def _ordinal(n: int) -> str:
    return f"{n}{'th' if 10 <= n % 100 <= 20 else {1: 'st', 2: 'nd', 3: 'rd'}.get(n % 10, 'th')}"
