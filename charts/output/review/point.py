"""A point of the review: what was looked at, how it came out, and the figure it rests on."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Literal, get_args

from ...made_late import dataclass

#: Words of the other terms that a row in these never has.
ONE_SIDED = {"US": r"\b(?:htr|yrh|miss|tension)\b", "UK": r"\b(?:sc|hdc|yo|skip|gauge)\b"}
Found = Literal["passed", "failed", "look", "does not apply"]


@dataclass(frozen=True, slots=True)
class Point:
    """One point: `what` was looked at, how it came out ("look" asks for a person's eye), `figure` is what was found."""

    what: str
    found: Found
    figure: str


def review_lines(points: Iterable[Point]) -> list[str]:
    """The points as lines, and how many came out how."""
    every = list(points)
    lines = [f"{point.found:>14}  {point.what}: {point.figure}" for point in every]
    counts = [(how, sum(point.found == how for point in every)) for how in get_args(Found)]
    return [*lines, "", "; ".join(f"{n} {how}" for how, n in counts if n) + "."]
