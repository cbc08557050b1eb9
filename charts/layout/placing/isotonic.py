"""One dimension at a time: things in a line, each with a place it wants and neighbours it must clear.

Every top wants to stand over the middle of its feet, and no closer to its neighbour than its gap. Least
squares under such an order is an isotonic regression, which pool-adjacent-violators solves exactly in linear
time (Ayer and others, 1955). Before it, tops that follow each other with no chain between them are drawn
together (`settle`), so that an increase fans out and a decrease closes up over a few stitches instead of
tearing a hole.
"""

from __future__ import annotations

from collections.abc import Sequence

#: How strongly tops without a chain between them keep one gap apart, against standing over their feet.
TIE = 200.0
#: The same in a row that is as wide as what it stands on: it stays even to a hundredth.
FIRM = 1e5
#: How strongly a run of chains asks for its room where its stitches want to stand closer.
EASE = 3.0


def place(
    wants: Sequence[float], gaps: Sequence[float], weights: Sequence[float] | None = None
) -> list[float]:
    """Positions x with x[i+1] - x[i] >= gaps[i], nearest to `wants` by weighted least squares.

    >>> place([0.0, 0.0, 0.0], [1.0, 1.0])
    [-1.0, 0.0, 1.0]
    """
    offsets = _offsets(gaps, len(wants))
    shifted = [want - offset for want, offset in zip(wants, offsets, strict=True)]
    level = pool(shifted, weights or [1.0] * len(wants))
    return [value + offset for value, offset in zip(level, offsets, strict=True)]


def pool(values: Sequence[float], weights: Sequence[float]) -> list[float]:
    """The non-decreasing sequence nearest to `values` (pool adjacent violators)."""
    blocks: list[tuple[float, float, int]] = []
    for value, weight in zip(values, weights, strict=True):
        mean, mass, size = value, weight, 1
        while blocks and blocks[-1][0] >= mean:
            above, heavy, many = blocks.pop()
            mean = (above * heavy + mean * mass) / (heavy + mass)
            mass, size = heavy + mass, many + size
        blocks.append((mean, mass, size))
    return [mean for mean, _, size in blocks for _ in range(size)]


def settle(
    wants: Sequence[float],
    gaps: Sequence[float],
    steps: Sequence[float | None],
    tie: float = TIE,
    rooms: Sequence[float | None] = (),
    masses: Sequence[float] = (),
) -> list[float]:
    """`place` after neighbours that follow each other have been drawn towards one step apart.

    `steps[i]` is the way that items i and i+1 would keep between them if nothing pulled; None where chains
    lie between them. There `rooms[i]` is the way the chains would take: what stands closer is eased apart.
    `masses` are how firmly each item keeps the place it wants, 1 where they are not given.
    """
    ties = [0.0 if step is None else tie for step in steps]
    ways = [step or 0.0 for step in steps]
    for k, room in enumerate(rooms):
        if room is not None and wants[k + 1] - wants[k] < room:
            ties[k], ways[k] = EASE, room
    masses = masses or [1.0] * len(wants)
    return place(follow(wants, masses, ways, ties), gaps, masses)


def follow(
    targets: Sequence[float], weights: Sequence[float], steps: Sequence[float], ties: Sequence[float]
) -> list[float]:
    """The y least in sum weights (y - targets)^2 + sum ties (y[i+1] - y[i] - steps[i])^2.

    A tridiagonal system, solved by elimination.
    """
    count = len(targets)
    diagonal = list(weights)
    right = [weight * target for weight, target in zip(weights, targets, strict=True)]
    for i, (step, tie) in enumerate(zip(steps, ties, strict=True)):
        diagonal[i] += tie
        diagonal[i + 1] += tie
        right[i] -= tie * step
        right[i + 1] += tie * step
    for i in range(1, count):
        factor = -ties[i - 1] / diagonal[i - 1]
        diagonal[i] += factor * ties[i - 1]
        right[i] -= factor * right[i - 1]
    for i in range(count - 1, -1, -1):
        above = ties[i] * right[i + 1] if i + 1 < count else 0.0
        right[i] = (right[i] + above) / diagonal[i]
    return right


def astray(places: Sequence[float], wants: Sequence[float]) -> float:
    """How far the items are from where they want to be, at most.

    >>> astray([0.0, 1.5], [0.0, 1.0])
    0.5
    """
    return max((abs(place - want) for place, want in zip(places, wants, strict=True)), default=0.0)


def _offsets(gaps: Sequence[float], count: int) -> list[float]:
    offsets = [0.0] * count
    for i in range(1, count):
        offsets[i] = offsets[i - 1] + gaps[i - 1]
    return offsets
