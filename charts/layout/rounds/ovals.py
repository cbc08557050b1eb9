"""One size for all chains of a chart in rounds: as large as fits where they are most crowded."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ..placing.chain_room import LEAST_SIZE
from ..placing.placed import Laid, Spot
from ..shapes.ring import LaidRounds, Ring

#: The largest that chains of rounds are drawn; of size 1 they are as long as a bar is wide.
LARGEST = 0.8
#: What is drawn as chains.
_CHAINS = ("chain", "turning", "start", "ring")


def one_size(figures: Sequence[LaidRounds]) -> tuple[LaidRounds, ...]:
    """The rounds of a chart with all their chains of one size, that which fits every run of them."""
    sizes = [s.size for figure in figures for ring in figure.rings for s in ring.laid.spots if s.role == "chain"]
    size = round(max(min([LARGEST, *sizes]), LEAST_SIZE), 2)
    return tuple(_sized(figure, size) for figure in figures)


def _sized(figure: LaidRounds, size: float) -> LaidRounds:
    rings = tuple(_ring(ring, size) for ring in figure.rings)
    again = _ring(figure.again, size) if figure.again else None
    return replace(figure, centre=_laid(figure.centre, size), rings=rings, again=again)


def _ring(ring: Ring, size: float) -> Ring:
    return replace(ring, laid=_laid(ring.laid, size))


def _laid(laid: Laid, size: float) -> Laid:
    return replace(laid, spots=tuple(replace(s, size=size) if _is_chains(s) else s for s in laid.spots))


def _is_chains(spot: Spot) -> bool:
    return spot.role in _CHAINS and bool(spot.ovals)
