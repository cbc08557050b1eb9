"""The numbers of rows to and fro: each outside the edge where its row begins, with an arrow into the row.

All stand equally far from the edges, as near as white allows; what a row makes stands in brackets at its other end.
Where there is no room for arrows there are numbers alone, without counts, which would be read with the number beside
them. Where one count would touch anything all are left out too: the notes say them instead.
"""

from __future__ import annotations

from collections.abc import Callable, Container, Sequence

from hookfold.symbols import Point

from ...made_late import dataclass
from ...setting import Hand
from ..placing.clearing import InkMap
from ..placing.placed import Spot
from ..shapes.ring import Edge, LaidRounds, Ring
from .label import ARROW_GAP_MM, ARROW_MM, Label, half_of_words, laid_down, points_of, support
from .round_numbers import name_of

#: How near the edge, in stitch widths, a label may begin, and how far from it.
NEAREST, FARTHEST, STEP = 0.45, 2.6, 0.1
#: White about a label, in stitch widths and in mm: the greater counts.
ROOM, ROOM_MM = 0.2, 0.7


@dataclass(frozen=True, slots=True)
class EdgeLabels:
    """All labels of a half motif; `counted` says whether the counts are among them."""

    labels: tuple[Label, ...]
    counted: bool


def edge_labels(
    laid: LaidRounds, edges: Callable[[Ring], tuple[Edge, Edge]], hand: Hand, ink: InkMap, mm: float, *, counts: bool,
    begun: str = "",
) -> EdgeLabels:  # fmt: skip
    """The labels of a piece whose rows begin and end at the two `edges` of each, which are a right-hander's.

    `begun` is what stands at the end of a foundation where its first stitch is, like a count. `ink` is what is drawn;
    the labels are laid down on it.
    """
    def seen(ring: Ring) -> tuple[Edge, Edge]:
        begin, end = edges(ring)
        return (begin.mirrored(), end.mirrored()) if hand == "left" else (begin, end)

    ends = [_ends(ring, seen(ring)) for ring in laid.rings]
    several = len({ring.worked.colour for ring in laid.rings} - {""}) > 1
    rows = {ring.worked.number for ring in laid.rings if not ring.worked.is_round}
    names = [_named(ring, name_of(ring, lettered=several), rows) for ring in laid.rings]
    numbers, nearest = _numbers([begin for begin, _ in ends], names, ink, mm)
    found: tuple[Label, ...] = ()
    if counts and numbers[0].arrow:
        made = [f"({ring.made})" for ring in laid.rings]
        found, _ = _outside([end for _, end in ends], made, ink, mm, number=False, arrow=False, nearest=nearest)
    first = _beginning(laid, seen(laid.rings[0])[1], begun, ink, mm) if counts and begun else ()
    return EdgeLabels((*numbers, *found, *first), bool(found))


def _named(ring: Ring, number: str, rows: Container[int | None]) -> str:
    """A row's number; that of a round about the rows which one of these has too says that it is one."""
    return f"rnd {number}" if ring.worked.is_round and ring.worked.number in rows else number


def _beginning(
    laid: LaidRounds, edge: Edge, words: str, ink: InkMap, mm: float
) -> tuple[Label, ...]:
    """How many chains a foundation has, outside it beside the first; none where there is no room."""
    x, y = edge.along
    first = _End(laid.centre.spots[0].ovals[0][:2], (-x, -y), (x, y))
    return _outside([first], [words], ink, mm, number=False, arrow=False)[0]


@dataclass(frozen=True, slots=True)
class _End:
    """One end of a row: the middle of its last post along the edge, and the unit vectors out of the wedge and along
    which rows begin there."""

    at: Point
    out: Point
    way: Point


def _ends(ring: Ring, edges: tuple[Edge, Edge]) -> tuple[_End, _End]:
    """Where a row begins and where it ends."""
    tops = [s for s in ring.laid.spots if s.role in ("stitch", "turning")] or list(ring.laid.spots)
    return _end(tops[0], edges[0]), _end(tops[-1], edges[1])


def _end(spot: Spot, edge: Edge) -> _End:
    """The end of a row at an edge: beside the middle of its last post."""
    points = (spot.head, *spot.feet)
    (x0, y0), (a, b) = edge.at, edge.along
    reaches = [(x - x0) * a + (y - y0) * b for x, y in points]
    middle = (max(reaches) + min(reaches)) / 2.0
    return _End((x0 + a * middle, y0 + b * middle), edge.out, edge.way)


def _numbers(ends: Sequence[_End], names: Sequence[str], ink: InkMap, mm: float) -> tuple[tuple[Label, ...], float]:
    """The numbers with their arrows, else alone, and how far from the edges; else each where it is freest."""
    for arrow in (True, False):
        found, far = _outside(ends, names, ink, mm, number=True, arrow=arrow)
        if found:
            return found, far
    return tuple(_freest(end, name, ink, mm) for end, name in zip(ends, names, strict=True)), NEAREST


def _outside(
    ends: Sequence[_End],
    words: Sequence[str],
    ink: InkMap,
    mm: float,
    *,
    number: bool,
    arrow: bool,
    nearest: float = NEAREST,
) -> tuple[tuple[Label, ...], float]:
    """The labels at the least distance from the edges where all of them are free, and that distance in stitch widths.

    None where there is none. They are then laid down on the ink map.
    """
    room = max(ROOM, ROOM_MM / mm)
    for k in range(round((FARTHEST - nearest) / STEP) + 1):
        far = nearest + k * STEP
        labels = [
            _label(end, said, far * mm, mm, number=number, arrow=arrow) for end, said in zip(ends, words, strict=True)
        ]
        if all(ink.free(points_of(label, mm), room) >= room for label in labels) and _apart(labels):
            return tuple(laid_down(ink, label, mm) for label in labels), far
    return (), nearest


def _apart(labels: Sequence[Label]) -> bool:
    """Whether no two labels of one sort come near each other."""
    boxes = [label.box for label in labels]
    return not any(
        a[0] - ROOM_MM < b[2] and b[0] - ROOM_MM < a[2] and a[1] - ROOM_MM < b[3] and b[1] - ROOM_MM < a[3]
        for i, a in enumerate(boxes)
        for b in boxes[i + 1 :]
    )


def _freest(end: _End, words: str, ink: InkMap, mm: float) -> Label:
    """A number at the distance from its edge where most white is about it."""
    tries = [
        _label(end, words, (NEAREST + k * STEP) * mm, mm, number=True, arrow=False)
        for k in range(round((FARTHEST - NEAREST) / STEP) + 1)
    ]
    best = max(tries, key=lambda t: (round(ink.free(points_of(t, mm), ROOM), 2), -tries.index(t)))
    return laid_down(ink, best, mm)


def _label(end: _End, words: str, far: float, mm: float, *, number: bool, arrow: bool) -> Label:
    """A label whose near side lies `far` mm outside the edge, with its arrow between, the way the row begins."""
    half = half_of_words(words, is_number=number)
    tip = _along((end.at[0] * mm, end.at[1] * mm), end.out, far)
    if not arrow:
        return Label(words, _along(tip, end.out, support(half, end.out)), number)
    tail = _along(tip, end.way, -ARROW_MM)
    return Label(words, _along(tail, end.way, -ARROW_GAP_MM - support(half, end.way)), number, (tail, tip))


def _along(at: Point, way: Point, far: float) -> Point:
    return (at[0] + way[0] * far, at[1] + way[1] * far)
