"""What playing a row changes, and how a try is taken back: every part of it, so that a failed try leaves nothing."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field, fields
from operator import attrgetter
from typing import Any, NoReturn, TypeVar

from ...made_late import dataclass
from ...pattern.tree import Act, Held, Into, Make, Noun, Place
from .fabric import Stitch
from .faults import Stuck
from .ground import Ground, Hit
from .site import Beside, Choice, Site, Target

T = TypeVar("T")


class Grown(list[T]):
    """A list that only grows at its end, so that its length tells what it held. What is to be changed further back is
    changed in a new list."""

    __slots__ = ()

    def _held(self, *_: object, **__: object) -> NoReturn:
        raise TypeError("this list only grows at its end; make a new one")

    __setitem__ = __delitem__ = insert = pop = remove = clear = sort = reverse = _held

    def cut(self, length: int) -> None:
        """Take off what was added since it was so long."""
        super().__delitem__(slice(length, None))


class Gained(dict[T, None]):
    """A set that only gains, in the order in which it does, so that its length tells what it held."""

    __slots__ = ()

    def _held(self, *_: object, **__: object) -> NoReturn:
        raise TypeError("this set only gains")

    __setitem__ = __delitem__ = pop = popitem = clear = _held

    def cut(self, length: int) -> None:
        """Take off what was added since it was so long."""
        while len(self) > length:
            super().popitem()


@dataclass(frozen=True, slots=True)
class Mark:
    """A point to come back to: how much was made and where the hook was, the whole state, and how long it was."""

    made: int
    here: int
    values: tuple[Any, ...]
    lengths: tuple[int, ...]


@dataclass(slots=True, eq=False)
class State:
    """All that playing a row changes. A field holds a value that is never changed in place, or what only grows."""

    site: Site
    choice: Choice
    ground: Ground
    loops: Held
    here: int
    out: Grown[Stitch] = field(default_factory=Grown)
    last: Target | None = None
    skipped: tuple[int, ...] = ()
    passed: tuple[int, ...] = ()
    skipped_back: int = 1
    others: Mapping[int, tuple[int, int]] = field(default_factory=dict)
    pending: int = 0
    closing: tuple[Place, int] | None = None
    beside: Beside = field(default_factory=Beside)
    near: bool = False
    in_spaces: bool = False
    replaced: bool = False
    gathering: bool = False
    taken: Gained[tuple[int, int]] = field(default_factory=Gained)
    taken_of: int = 0
    chained: bool = False
    wide: bool = False
    groups: Grown[tuple[int, int, str]] = field(default_factory=Grown)
    named: Grown[str] = field(default_factory=Grown)
    place: int = 0
    taken_before: int = 0
    main: int = 1
    context: Target | None = None
    group: int = -1
    landmark: bool = False
    left_on_purpose: bool = False
    turned_short: bool = False
    goes_on: bool = False
    leaving: int = 0
    told: bool = False
    joined: bool = False
    into_closing: bool = False
    in_part: bool = False
    reserve: Hit | None = None
    towards: Noun | None = None
    follows: Noun | None = None
    corners: Mapping[int, Make | Into] = field(default_factory=dict)
    repeat: tuple[int, int, int] | None = None
    used_ground: bool = False
    counted_start: bool = False
    leads: bool = False
    looping: int = 0
    opposite: bool = False
    rotated: bool = False
    landed: int = 0
    touched: Grown[tuple[int, int]] = field(default_factory=Grown)
    begun_with: int = 0
    first_leg: tuple[Target | None, int, str] | None = None
    own: tuple[int, int, bool] | None = None
    on_edge: bool = False
    wrapped: bool = False
    exact: bool = False
    most_skipped: int = 0
    slips_from_first: bool = False
    offset: int = 1
    covered: int = 0
    within: int = 0
    chains: int = 0
    stopped: int = -1
    gap_passed: int = -1
    corner_spaces: tuple[Hit, ...] = ()
    repeating: int = 0
    tiles: tuple[int, ...] = ()
    passing: str = ""
    tinted: tuple[tuple[int, str], ...] = ()
    edges_told: tuple[Act, ...] = ()
    leapt: str = ""
    joined_low: str = ""
    amiss: Stuck | None = None

    def mark(self) -> Mark:
        """Where the row is now, to come back to."""
        return Mark(len(self.out), self.here, _values(self), tuple(map(len, _grown(self))))

    def kept(self, mark: Mark) -> tuple[list[Any], ...]:
        """What had grown by a mark, for `come_back` to it after going back further."""
        grown = zip(GROWN_AT, mark.lengths, strict=True)
        return tuple(list(mark.values[at])[:length] for at, length in grown)

    def come_back(self, mark: Mark, kept: tuple[list[Any], ...]) -> None:
        """Be at a mark again that was gone back behind, with what was `kept` of it."""
        for name, was in zip(CHANGING, mark.values, strict=True):
            setattr(self, name, was)
        for held, rest in zip(_grown(self), kept, strict=True):
            held.cut(0)
            if isinstance(held, Gained):
                held.update(dict.fromkeys(rest))
            else:
                held.extend(rest)

    def go_back(self, mark: Mark) -> None:
        """Take back all that was done since the mark; marks made later are done with."""
        for name, was, now in zip(CHANGING, mark.values, _values(self), strict=True):
            if was is not now:
                setattr(self, name, was)
        for grown, length in zip(_grown(self), mark.lengths, strict=True):
            grown.cut(length)


#: What a row is played with, the same from its first clause to its last.
CONSTANT = ("choice",)
#: What a try may change: all else.
CHANGING = tuple(f.name for f in fields(State) if f.name not in CONSTANT)
#: Of it, what is added to in place.
GROWING = tuple(f.name for f in fields(State) if f.default_factory in (Grown, Gained))
GROWN_AT = tuple(CHANGING.index(name) for name in GROWING)

_values = attrgetter(*CHANGING)
_grown = attrgetter(*GROWING)
