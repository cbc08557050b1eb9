"""Where along the edge of a piece a round's stitches go in: what the words tell of it, the rest spread evenly.

Stitches into the last row stand over it. Where four places take more than all others, or chains lead on from four
alone, these are the corners (common practice, no source). What goes anywhere along an edge is spread between those.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

from hookfold.symbols import Point

from ...made_late import dataclass, replace
from ...model.cloth.fabric import Foot, Row, Stitch
from ..placing.placed import Spot, along
from ..placing.tracks import FrameWay

#: How many corners a piece has.
CORNERS = 4
#: What is left free where a round begins, as many stitches wide.
AT_SEAM = 1.0
#: The share of a stitch's way that each of those takes that go into a corner, as they open there.
IN_CORNER = 0.6
#: From one stitch to the next of those that go into one space of the last row.
IN_SPACE = 0.7
#: How far outside the edge what stitches go into lies: about a corner that tells where.
ON_LINE = 0.05


@dataclass(frozen=True, slots=True)
class Place:
    """Stitches that go into one place: their items, what is made there, chains between them counted, and the chains
    behind them."""

    items: tuple[int, ...]
    size: int
    chains: int = 0


def places_of(row: Row) -> list[Place]:
    """The places that a round goes into, in the order of work."""
    found: list[Place] = []
    last: object = None
    for item, made in enumerate(row.stitches):
        if made.role == "chain" and found:
            found[-1] = replace(found[-1], chains=found[-1].chains + made.chains)
        if made.role not in ("stitch", "turning"):
            continue
        key: object = item
        if made.place >= 0:
            key = (made.place, "in one place")
        elif made.feet and made.feet[0].hold != "edge":
            key = made.feet
        if found and last == key:
            before = found[-1]
            found[-1] = Place((*before.items, item), before.size + before.chains + 1)
        else:
            found.append(Place((item,), 1))
        last = key
    return found


def corners_in(places: Sequence[Place]) -> tuple[tuple[int, bool], ...]:
    """The places on the four corners, or before these (True) where chains go round them, as far as that is told."""
    most, chains = max(place.size for place in places), max(place.chains for place in places)
    found = tuple((k, False) for k, place in enumerate(places) if place.size == most)
    if most == 1 and chains > 1:
        found = tuple((k, True) for k, place in enumerate(places) if place.chains == chains)
    return found if most + chains > 1 and len(found) == CORNERS else ()


def sides_of(row: Row) -> tuple[int, ...]:
    """How many stitches go into each of the four sides from corner to corner, the first begun with; () where the words
    do not tell the corners."""
    places = places_of(row)
    corners = corners_in(places)
    if not corners:
        return ()
    cut = [-1, *(k for k, _ in corners), len(places)]
    counts = [sum(len(p.items) for p in places[a + 1 : b + after]) for (a, b), after in
              zip(itertools.pairwise(cut), [*(after for _, after in corners), False], strict=True)]  # fmt: skip
    return tuple(counts[:CORNERS] if _ahead(corners) else counts[1:])


def _ahead(corners: Sequence[tuple[int, bool]]) -> bool:
    """Whether a side comes before the first corner that is told."""
    return corners[0] != (0, False)


def on_edge(row: Row, below: Sequence[Spot], way: FrameWay) -> tuple[Row, tuple[Spot, ...]]:
    """A round whose stitches each go into a spot on the edge, and those spots; `below` is the last row of the piece."""
    places = places_of(row)
    stitches, spots = list(row.stitches), list[Spot]()
    for place, u in zip(places, _along(row, places, below, way), strict=True):
        holds = {foot.hold for item in place.items for foot in row.stitches[item].feet}
        apart = IN_SPACE if "space" in holds else 0.0
        for nth, item in enumerate(place.items):
            if not nth or apart:
                at = u + (nth - (len(place.items) - 1) / 2.0) * apart
                spots.append(Spot(len(spots), "sc", "stitch", way.at(at, ON_LINE), (way.at(at, -1.0),)))
            stitches[item] = replace(stitches[item], feet=(Foot(len(spots) - 1),))
    return replace(row, stitches=tuple(stitches)), tuple(spots)


def _along(row: Row, places: Sequence[Place], below: Sequence[Spot], way: FrameWay) -> list[float]:
    """How far along the way each place lies."""
    corners = corners_in(places)
    in_corner = {k for k, after in corners if not after}
    weights = [len(p.items) * (IN_CORNER if k in in_corner else 1.0) for k, p in enumerate(places)]
    ends = list(itertools.accumulate(w + (1.0 if p.chains else 0.0) for w, p in zip(weights, places, strict=True)))
    begins = [end - w - (1.0 if p.chains else 0.0) for end, w, p in zip(ends, weights, places, strict=True)]
    middles = [begin + w / 2.0 for begin, w in zip(begins, weights, strict=True)]
    whole = ends[-1] + AT_SEAM
    fixed = [
        (ends[k] - 0.5 if after else middles[k], corner_u(way, nth + _ahead(corners)))
        for nth, (k, after) in enumerate(corners)
    ]
    over = [None if k in in_corner else _over(row.stitches[p.items[0]], below) for k, p in enumerate(places)]
    marks = _known(fixed, [(m, p) for m, p in zip(middles, over, strict=True) if p], way)
    if not marks:
        return [(AT_SEAM / 2.0 + middle) / whole * way.whole for middle in middles]
    (a, u), (b, v) = marks[-1], marks[0]
    marks = [(a - whole, u - way.whole), *marks, (b + whole, v + way.whole)]
    return [_between(middle, marks) for middle in middles]


def _between(middle: float, marks: Sequence[tuple[float, float]]) -> float:
    (a, u), (b, v) = next(pair for pair in itertools.pairwise(marks) if middle <= pair[1][0] + 1e-9)
    return u + (v - u) * (middle - a) / max(b - a, 1e-9)


def corner_u(way: FrameWay, nth: int) -> float:
    """How far along the way the middle of a corner lies, from 0 where it begins to 4 where it ends."""
    u = 0.0
    for side in range(nth):
        u += math.pi / 2.0 * way.line + way.long_of(way.start + side)
    return u


def _known(
    fixed: Sequence[tuple[float, float]], over: Sequence[tuple[float, Point]], way: FrameWay
) -> list[tuple[float, float]]:
    """What is known of where a round lies: by how much is made before it, how far along the way it is. Corners are, and
    what stands over the last row, given as points, as far as that comes between them in the order of work."""
    found = list(fixed)
    for middle, point in over:
        low = max((u for at, u in found if at < middle), default=-way.line)
        high = min((u for at, u in found if at > middle), default=way.whole - way.line)
        u = way.near(way.u(point), (low + high) / 2.0)
        if low < u < high:
            found.append((middle, u))
    return sorted(found)


def _over(made: Stitch, below: Sequence[Spot]) -> Point | None:
    """The point of the last row that a stitch goes into; None for one that goes anywhere along an edge."""
    foot = made.feet[0] if made.feet else None
    if foot is None or foot.hold == "edge" or foot.back != 1 or not 0 <= foot.at < len(below):
        return None
    spot = below[foot.at]
    return along(spot.curve, 0.5)[0] if foot.hold == "space" and len(spot.curve) > 1 else spot.head
