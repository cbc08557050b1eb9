"""The form that rounds grow out of: which way is outward, and where a round begins to be placed."""

from __future__ import annotations

import cmath
import math

import numpy as np

from ...made_late import dataclass
from ..placing.tracks import CircleWay, OvalWay
from .springs import Points, Reals


@dataclass(frozen=True, slots=True)
class Form:
    """A point, or a straight line from -half to half along x, that the rounds lie about.

    Where they are worked `inward` what is called outward is towards the point.
    """

    half: float = 0.0
    inward: bool = False

    @property
    def facing(self) -> float:
        """1 where rounds grow away from the middle, -1 where towards it."""
        return -1.0 if self.inward else 1.0

    def out(self, points: Points) -> Points:
        """The unit vectors outward at points."""
        off = points - np.clip(points.real, -self.half, self.half)
        away: Points = off * (self.facing / np.maximum(np.abs(off), 1e-9))
        return away

    def far(self, points: Points) -> Reals:
        """How far out points lie."""
        return np.abs(points - np.clip(points.real, -self.half, self.half))

    def way(self, sign: float, far: float) -> CircleWay | OvalWay:
        """The way round at a distance."""
        return OvalWay(sign, self.half, far) if self.half else CircleWay(sign, math.pi / 2.0)

    def whole(self, far: float) -> float:
        """How much u a whole turn of that way is."""
        return 4.0 * self.half + math.tau * far if self.half else math.tau

    def at(self, sign: float, far: float, share: float) -> complex:
        """The point at a share of the way round, from its beginning."""
        x, y = self.way(sign, far).at(share * self.whole(far), far)
        return complex(x, -y)

    def share(self, sign: float, point: complex) -> float:
        """The share of the way round at which a point lies."""
        far = max(float(self.far(np.array([point]))[0]), 0.3)
        return self.way(sign, far).u((point.real, -point.imag)) / self.whole(far)


def circular_mean(shares: list[float]) -> float:
    """The middle of shares of a turn, each a whole turn round."""
    return cmath.phase(sum(cmath.rect(1.0, math.tau * s) for s in shares)) / math.tau
