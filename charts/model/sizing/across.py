"""The number of stitches: the count nearest to the wanted length that the stitch repeat allows."""

from __future__ import annotations

from math import ceil, floor, gcd

from ...made_late import dataclass
from ...measure import round_half_up
from .plan import Option
from .request import SectionText, SizingRequest
from .span import Span, moved, percent_range


@dataclass(frozen=True, slots=True)
class Weighed:
    """A count of stitches weighed: its flap's stitches (0 where none lie in the row) and its stretch."""

    count: int
    flap: int
    length_mm: float
    stretch: float


def common_multiple(texts: tuple[SectionText, ...]) -> tuple[int, int] | None:
    """The multiple (of, plus) that every section's own multiple allows; None where there is none.

    Two multiples meet where their gap divides evenly (the Chinese remainder theorem).

    >>> common_multiple((SectionText(("sc",)), SectionText(("sc",), multiple_of=4, multiple_plus=3)))
    (4, 3)
    """
    of, plus = 1, 0
    for text in texts:
        met = _meet(of, plus, text.multiple_of, text.multiple_plus)
        if met is None:
            return None
        of, plus = met
    return of, plus


def _meet(of: int, plus: int, other_of: int, other_plus: int) -> tuple[int, int] | None:
    shared = gcd(of, other_of)
    if (other_plus - plus) % shared:
        return None
    step = other_of // shared
    turns = (other_plus - plus) // shared * pow(of // shared, -1, step) % step if step > 1 else 0
    whole = of * step
    return whole, (plus + of * turns) % whole


def counts_near(length_mm: float, request: SizingRequest, reach: int = 2) -> list[int]:
    """The `reach` allowed counts on each side of a length, fewest first."""
    repeats = (length_mm / request.stitch_mm - request.multiple_plus) / request.multiple_of
    near = range(floor(repeats) - reach + 1, ceil(repeats) + reach)
    fewest = max(1, request.least)
    lowest = ceil((fewest - request.multiple_plus) / request.multiple_of)
    ks = sorted({max(k, lowest) for k in near}) or [lowest]
    return [request.multiple_plus + request.multiple_of * k for k in ks]


def weigh(count: int, span: Span, request: SizingRequest) -> Weighed:
    """A count with its flap and its stretch.

    The flap takes the whole number of stitches nearest to its depth; where that leaves the wrap outside the
    stretch range, one or two stitches more or fewer on each flap, nearest first.
    """
    length_mm = count * request.stitch_mm
    if not span.flap_mm:
        return Weighed(count, 0, length_mm, span.stretch_of(length_mm))
    nearest = round_half_up(span.flap_mm / request.stitch_mm)
    flaps = (f for f in (nearest, nearest - 1, nearest + 1, nearest - 2, nearest + 2) if 0 < 2 * f < count)
    tries = [Weighed(count, f, length_mm, span.stretch_of(length_mm, f * request.stitch_mm)) for f in flaps]
    return min(tries, key=lambda w: span.off(w.stretch), default=Weighed(count, 0, length_mm, float("inf")))


def choose_across(request: SizingRequest, span: Span) -> tuple[Weighed, tuple[Option, ...]]:
    """The chosen count and those weighed: inside the stretch range first, then nearest."""
    low, high = span.bounds_mm
    inside = min(max(span.wanted_mm, low), high)
    counts = sorted({*counts_near(span.wanted_mm, request), *counts_near(inside, request)})
    weighed = [weigh(count, span, request) for count in counts]
    best = min(weighed, key=lambda w: (span.off(w.stretch), abs(w.length_mm - span.wanted_mm), w.count))
    return best, tuple(_option(w, best, span, request) for w in _around(weighed, best))


def _around(weighed: list[Weighed], best: Weighed) -> list[Weighed]:
    """The chosen count and two on each side, for showing."""
    at = weighed.index(best)
    return weighed[max(0, at - 2) : at + 3]


def _option(weighed: Weighed, best: Weighed, span: Span, request: SizingRequest) -> Option:
    repeats = (weighed.count - request.multiple_plus) // request.multiple_of
    off_mm = weighed.length_mm - span.wanted_mm
    chosen = weighed is best
    return Option(weighed.count, repeats, weighed.length_mm, off_mm, chosen, why(span, weighed.stretch,
    chosen, off_mm))


def why(span: Span, stretch: float, chosen: bool, off_mm: float) -> str:
    """One option in words."""
    if not span.holds(stretch):
        return f"{moved(stretch, eases=span.eases)}: outside {percent_range(span)}"
    if chosen:
        return f"{moved(stretch, eases=span.eases)}; nearest that the repeat allows"
    return f"{moved(stretch, eases=span.eases)}; {abs(off_mm):.1f} mm {'over' if off_mm > 0 else 'short'}"
