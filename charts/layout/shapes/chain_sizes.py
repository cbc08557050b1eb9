"""How large the chains of a chart in rounds are drawn: those of a round alike, and none much larger than others."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from ..placing.placed import Laid, Spot
from .ring import LaidRounds, Ring

#: The bounds of the size that the chains of a round have in common; of size 1 they are as long as a bar is wide. A run
#: that is crowded more than that has smaller ones, so that none touches the next.
LEAST, LARGEST = 0.65, 0.76
#: What is drawn as chains.
_CHAINS = ("chain", "turning", "start")


def evened(figures: Sequence[LaidRounds]) -> tuple[LaidRounds, ...]:
    """The figures of a chart with the chains of each round of one size, that which fits its tightest run within bounds;
    without a run of chains between stitches they are left as they are."""
    runs = any(s.role == "chain" for figure in figures for ring in figure.rings for s in ring.laid.spots)
    return tuple(_evened(figure) if runs else figure for figure in figures)


def common_size(spots: Iterable[Spot]) -> float:
    """The size that the chains of a round have in common."""
    tightest = min((s.size for s in spots if s.role == "chain"), default=LARGEST)
    return min(max(tightest, LEAST), LARGEST)


def _evened(figure: LaidRounds) -> LaidRounds:
    again = _ring(figure.again) if figure.again else None
    rings = tuple(_ring(ring) for ring in figure.rings)
    return replace(figure, rings=rings, again=again)


def _ring(ring: Ring) -> Ring:
    return replace(ring, laid=_sized(ring.laid, common_size(ring.laid.spots)))


def _sized(laid: Laid, size: float) -> Laid:
    return replace(laid, spots=tuple(replace(s, size=min(s.size, size)) if _is_chains(s) else s for s in laid.spots))


def _is_chains(spot: Spot) -> bool:
    return spot.role in _CHAINS and bool(spot.ovals)
