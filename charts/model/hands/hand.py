"""The hand that plays a row, as the modules of the clauses know it: its state, and what they ask of it."""

from __future__ import annotations

from abc import ABC, abstractmethod

from ...pattern.tree import Noun, Op, Place, Span
from ..cloth.faults import Stuck
from ..cloth.ground import Ground
from ..cloth.site import Target
from ..cloth.state import State
from ..cloth.wording import many, one


class Hand(State, ABC):
    """The state of a row being played, and what a clause may ask for while it is played itself."""

    __slots__ = ()

    @abstractmethod
    def play(self, op: Op) -> None:
        """Play one clause."""

    @abstractmethod
    def sequence(self, ops: tuple[Op, ...], start: int, *, top: bool = False) -> None:
        """Play clauses from one on; `top` is whether they are the row's own and not those of a repeat."""

    @abstractmethod
    def settle(self) -> None:
        """What stitches worked further down lie over is done with."""

    @abstractmethod
    def spot(self, back: int) -> int:
        """Where the hook is on a row so many rows below."""

    @abstractmethod
    def targets(self, place: Place, at: Span, *, moving: bool = True) -> list[Target]:
        """The targets of a place; the hook moves on past them."""

    def ground_at(self, back: int) -> Ground:
        if back == 1:
            return self.ground
        ground = self.site.ground(back)
        if ground is None:
            raise Stuck("there is no such row below", "name a row that stands before this one")
        return ground

    def go(self, back: int, slot: int) -> None:
        if back == 1:
            self.here = slot
        else:
            self.others = {**self.others, back: (slot, self.here)}

    def travelling(self) -> bool:
        still = ("travel", "start") if self.choice.moved_on else ("travel",)
        return all(s.role in still for s in self.out)

    def new_place(self) -> int:
        self.place += 1
        return self.place

    def one(self, noun: Noun) -> str:
        """A noun in the terms of the text."""
        return one(noun, self.site.terms)

    def many(self, noun: Noun, count: int) -> str:
        """A noun in the terms of the text, in the plural where the count asks for it."""
        return many(noun, count, self.site.terms)
