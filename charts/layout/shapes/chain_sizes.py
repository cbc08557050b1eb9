"""How large chains and crosses of a chart in rounds are drawn: the chains of a round alike and none much larger than
others, the crosses of the whole chart alike."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

from ...made_late import replace
from ..placing.placed import Laid, Spot
from .ring import LaidRounds, Ring

#: The bounds of the size that the chains of a round have in common; of size 1 they are as long as a bar is wide. A run
#: that is crowded more than that has smaller ones, so that none touches the next.
LEAST, LARGEST = 0.65, 0.76
#: The crosses of a chart are as wide as the most crowded of them, but so wide at least.
EVEN_CROSS = 0.8
#: What is drawn as chains.
_CHAINS = ("chain", "turning", "start")


def evened(figures: Sequence[LaidRounds]) -> tuple[LaidRounds, ...]:
    """The figures of a chart with all crosses of one size and the chains of each round of one size, that which fits its
    tightest run within bounds; without a run of chains between stitches these are left as they are."""
    crosses = [s.size for figure in figures for s in _spots(figure) if _is_cross(s)]
    if crosses:
        most = max(min(crosses), EVEN_CROSS)
        figures = [_each_spot(figure, lambda s: _no_wider(s, most)) for figure in figures]
    runs = any(s.role == "chain" for figure in figures for ring in figure.rings for s in ring.laid.spots)
    return tuple(_evened(figure) if runs else figure for figure in figures)


def common_size(spots: Iterable[Spot]) -> float:
    """The size that the chains of a round have in common."""
    tightest = min((s.size for s in spots if s.role == "chain"), default=LARGEST)
    return min(max(tightest, LEAST), LARGEST)


def _spots(figure: LaidRounds) -> Iterable[Spot]:
    return (s for ring in figure.rings for s in ring.laid.spots)


def _is_cross(spot: Spot) -> bool:
    return spot.kind == "sc" and spot.role == "stitch"


def _no_wider(spot: Spot, most: float) -> Spot:
    return replace(spot, size=most) if _is_cross(spot) and spot.size > most else spot


def _each_spot(figure: LaidRounds, changed: Callable[[Spot], Spot]) -> LaidRounds:
    rings = tuple(replace(r, laid=replace(r.laid, spots=tuple(map(changed, r.laid.spots)))) for r in figure.rings)
    return replace(figure, rings=rings)


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
