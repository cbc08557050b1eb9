"""The way a row runs: u counts along the work, v outward from the level of the row below."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol

from hookfold.symbols import Point


class Way(Protocol):
    """What the placing needs to know of the shape of a row. All lengths in stitch widths."""

    def at(self, u: float, v: float) -> Point:
        """The point at (u, v)."""

    def u(self, point: Point) -> float:
        """How far along the work a point lies."""

    def v(self, point: Point) -> float:
        """How far out a point lies."""

    def out(self, u: float) -> Point:
        """The unit vector that points outward there."""

    def unit(self, v: float) -> float:
        """How much u one stitch width is at height v."""


@dataclass(frozen=True, slots=True)
class FlatWay:
    """A flat row: `sign` is 1 for left to right, -1 for right to left."""

    sign: float

    def at(self, u: float, v: float) -> Point:
        return (self.sign * u, -v)

    def u(self, point: Point) -> float:
        return self.sign * point[0]

    def v(self, point: Point) -> float:
        return -point[1]

    def out(self, u: float) -> Point:
        return (0.0, -1.0)

    def unit(self, v: float) -> float:
        return 1.0
