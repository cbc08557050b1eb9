"""All that stands among the stitches of rounds, or beside the edges of rows about a ring: numbers, counts, marks."""

from __future__ import annotations

import functools
import math

from hookfold.symbols import Point

from ...made_late import dataclass
from ...setting import Hand
from ..shapes.found import Shape
from ..shapes.ring import LaidRounds
from .label import Box, Label, map_of_rounds
from .round_numbers import round_labels
from .row_numbers import edge_labels
from .yarn_marks import YarnMark, marks_among


@dataclass(frozen=True, slots=True)
class Labels:
    """What stands among the stitches: numbers and counts, the places of the rounds (from 0) whose counts are among
    them, and the marks of the yarn."""

    labels: tuple[Label, ...]
    counted: frozenset[int]
    marks: tuple[YarnMark, ...]

    @property
    def boxes(self) -> list[Box]:
        """What they take up, in mm from the middle of the work."""
        return [*(label.box for label in self.labels), *(mark.box for mark in self.marks)]


@dataclass(frozen=True, slots=True)
class Wanted:
    """What is to stand there: for which hand, with counts or not, with the letters of colours or not, and how many
    chains are `begun` with; `taken` is half the width and height in mm of words in the middle of the ring, `until` the
    places (from 0) of rounds that stand for others like them, each with the number of the last one; `over` where words
    stand over a second figure, in stitch widths, with half their width and height in mm."""

    hand: Hand
    counts: bool
    lettered: bool
    begun: int
    taken: Point | None = None
    until: tuple[tuple[int, int], ...] = ()
    over: tuple[float, float, float, float] | None = None


@functools.lru_cache(maxsize=4)
def labels_of(laid: LaidRounds, shape: Shape | None, wanted: Wanted, mm: float, bounds: Box) -> Labels:
    """What stands among stitches of `mm`, within `bounds` in mm from the middle of the work. The last few are kept:
    a chart is asked for in other words and on other paper, and again in a booklet."""
    ink = map_of_rounds(laid)
    if wanted.taken:
        half = (wanted.taken[0] / mm, wanted.taken[1] / mm)
        ink.add("ring", [(x * half[0], y * half[1]) for x in (-1.0, -0.5, 0.0, 0.5, 1.0) for y in (-1.0, 0.0, 1.0)])
    if wanted.over:
        x, y, wide, high = wanted.over
        places = [(x + k * wide / mm / 8.0, y + row * high / mm) for k in range(-8, 9) for row in (-1.0, 0.0, 1.0)]
        ink.add("second figure", places)
    counts, every = wanted.counts, frozenset(ring.index for ring in laid.rings)
    if shape is None:
        marks = marks_among(laid, ink, mm, bounds)  # these have one right place each, numbers have several
        until = dict(wanted.until)
        rounds = round_labels(laid, ink, mm, bounds, counts=counts, lettered=wanted.lettered, until=until)
        return Labels(rounds.labels, rounds.counted, marks)
    begun = shape.begun(wanted.begun)
    found = edge_labels(laid, shape.edges, wanted.hand, ink, mm, counts=counts, begun=begun)
    everywhere = (-math.inf, -math.inf, math.inf, math.inf)
    return Labels(found.labels, every if found.counted else frozenset(), marks_among(laid, ink, mm, everywhere))
