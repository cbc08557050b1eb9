"""The numbers of rows to and fro: each outside the edge where its row begins, with an arrow into the row.

All stand equally far from the edges, as near as white allows; what a row makes stands in brackets at its other end.
Where there is no room for arrows there are numbers alone, without counts, which would be read with the number beside
them. Where one count would touch anything all are left out too: the notes say them instead.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from hookfold.symbols import Point

from ...drawing.display import Group, Ink, Text
from ...drawing.letters import cap_height, text_width
from ...setting import Hand
from ..placing.clearing import InkMap, map_of
from ..placing.placed import Spot
from ..shapes.ring import Edge, LaidRounds, Ring
from ..shapes.wedge import Wedge, turn_of
from ..sheets.page import DARK, QUIET, SMALL_MM
from .margins import ARROW_GAP_MM, ARROW_MM, arrow_ink

Box = tuple[float, float, float, float]

#: How near the edge, in stitch widths, a label may begin, and how far from it.
NEAREST, FARTHEST, STEP = 0.45, 2.6, 0.1
#: White about a label, in stitch widths and in mm: the greater counts.
ROOM, ROOM_MM = 0.2, 0.7
#: The points that stand for a label lie so far apart, in stitch widths.
DENSE = 0.2


@dataclass(frozen=True, slots=True)
class Label:
    """A number or a count in mm from the ring's middle: the middle of its words; its arrow from tail to tip."""

    words: str
    at: Point
    is_number: bool
    arrow: tuple[Point, Point] | None = None

    @property
    def box(self) -> Box:
        """Left, top, right and bottom of the words and the arrow."""
        half = self.half
        xs = [self.at[0] - half[0], self.at[0] + half[0], *(x for x, _ in self.arrow or ())]
        ys = [self.at[1] - half[1], self.at[1] + half[1], *(y for _, y in self.arrow or ())]
        return min(xs), min(ys), max(xs), max(ys)

    @property
    def half(self) -> Point:
        """Half the width and half the height of the words."""
        return half_of_words(self.words, is_number=self.is_number)


def half_of_words(words: str, *, is_number: bool) -> Point:
    """Half the width and half the height of a number or a count, in mm."""
    weight = "bold" if is_number else "regular"
    return text_width(words, SMALL_MM, weight) / 2.0, cap_height(SMALL_MM) / 2.0


@dataclass(frozen=True, slots=True)
class WedgeLabels:
    """All labels of a half motif; `counted` says whether the counts are among them."""

    labels: tuple[Label, ...]
    counted: bool

    @property
    def box(self) -> Box:
        """What they take up, in mm from the ring's middle."""
        boxes = [label.box for label in self.labels]
        return (
            min(b[0] for b in boxes),
            min(b[1] for b in boxes),
            max(b[2] for b in boxes),
            max(b[3] for b in boxes),
        )


def wedge_edge(wedge: Wedge, sign: float) -> Edge:
    """The edge where rows begin that go about as `sign` says."""
    edge = wedge.edge(sign)
    out = edge - sign * math.pi / 2.0
    return Edge((0.0, 0.0), (math.cos(edge), -math.sin(edge)), (math.cos(out), -math.sin(out)))


def wedge_labels(laid: LaidRounds, wedge: Wedge, hand: Hand, mm: float, *, counts: bool) -> WedgeLabels:
    """The labels of a half motif drawn at `mm` a stitch; `laid` is as it is seen, for a left-hander mirrored."""
    edges = {sign: wedge_edge(wedge, sign) for sign in (1.0, -1.0)}
    return edge_labels(laid, edges, hand, mm, counts=counts)


def edge_labels(
    laid: LaidRounds, edges: Mapping[float, Edge], hand: Hand, mm: float, *, counts: bool, begun: str = ""
) -> WedgeLabels:
    """The labels of a piece whose rows begin at the edge for the sign of their turn; `edges` are a right-hander's.

    `begun` is what stands at the end of a foundation where its first stitch is, like a count.
    """
    seen = {sign: edge.mirrored() if hand == "left" else edge for sign, edge in edges.items()}
    ink = map_of([("centre", laid.centre.spots), *((ring.index, ring.laid.spots) for ring in laid.rings)])
    ends = [_ends(ring, seen) for ring in laid.rings]
    several = len({ring.worked.colour for ring in laid.rings} - {""}) > 1
    names = [_name(ring, lettered=several) for ring in laid.rings]
    numbers, nearest = _numbers([begin for begin, _ in ends], names, ink, mm)
    found: tuple[Label, ...] = ()
    if counts and numbers[0].arrow:
        made = [f"({ring.worked.row.made})" for ring in laid.rings]
        found, _ = _outside([end for _, end in ends], made, ink, mm, number=False, arrow=False, nearest=nearest)
    first = _beginning(laid, seen, begun, ink, mm) if counts and begun else ()
    return WedgeLabels((*numbers, *found, *first), bool(found))


def _name(ring: Ring, *, lettered: bool) -> str:
    """A row's number, with the letter of its colour where they change."""
    number = str(ring.worked.number or ring.index + 1)
    return f"{number} {ring.worked.colour}" if lettered and ring.worked.colour else number


def _beginning(
    laid: LaidRounds, edges: Mapping[float, Edge], words: str, ink: InkMap, mm: float
) -> tuple[Label, ...]:
    """How many chains a foundation has, outside it beside the first; none where there is no room."""
    x, y = edges[-turn_of(laid.rings[0].worked)].along
    first = _End(laid.centre.spots[0].ovals[0][:2], (-x, -y))
    return _outside([first], [words], ink, mm, number=False, arrow=False)[0]


@dataclass(frozen=True, slots=True)
class _End:
    """One end of a row: the middle of its last post along the edge, and the unit vector out of the wedge."""

    at: Point
    out: Point


def _ends(ring: Ring, edges: Mapping[float, Edge]) -> tuple[_End, _End]:
    """Where a row begins and where it ends."""
    sign = turn_of(ring.worked)
    tops = [s for s in ring.laid.spots if s.role in ("stitch", "turning")] or list(ring.laid.spots)
    return _end(tops[0], edges[sign]), _end(tops[-1], edges[-sign])


def _end(spot: Spot, edge: Edge) -> _End:
    """The end of a row at an edge: beside the middle of its last post."""
    points = (spot.head, *spot.feet)
    (x0, y0), (a, b) = edge.at, edge.along
    reaches = [(x - x0) * a + (y - y0) * b for x, y in points]
    middle = (max(reaches) + min(reaches)) / 2.0
    return _End((x0 + a * middle, y0 + b * middle), edge.out)


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
        if all(ink.free(_points(label, mm), room) >= room for label in labels) and _apart(labels):
            for label in labels:
                ink.add(("label", label), _points(label, mm))
            return tuple(labels), far
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
    best = max(tries, key=lambda t: (round(ink.free(_points(t, mm), ROOM), 2), -tries.index(t)))
    ink.add(("label", best), _points(best, mm))
    return best


def _label(end: _End, words: str, far: float, mm: float, *, number: bool, arrow: bool) -> Label:
    """A label whose near side lies `far` mm outside the edge, with its arrow between."""
    base = (end.at[0] * mm, end.at[1] * mm)
    half = half_of_words(words, is_number=number)
    reach = far + (ARROW_MM + ARROW_GAP_MM if arrow else 0.0) + _support(half, end.out)

    def at(way: float) -> Point:
        return (base[0] + end.out[0] * way, base[1] + end.out[1] * way)

    return Label(words, at(reach), number, (at(far + ARROW_MM), at(far)) if arrow else None)


def _support(half: Point, out: Point) -> float:
    """From the middle of a rectangle to its side, along a direction."""
    tries = [h / abs(o) for h, o in zip(half, out, strict=True) if abs(o) > 1e-9]
    return min(tries)


def _points(label: Label, mm: float) -> list[Point]:
    """Points over the words and along the arrow, in stitch widths."""
    wide, high = label.half
    across, down = _steps(wide, mm), _steps(high, mm)
    points = [(label.at[0] + x, label.at[1] + y) for x in across for y in down]
    if label.arrow:
        (x0, y0), (x1, y1) = label.arrow
        points += [(x0 + (x1 - x0) * t, y0 + (y1 - y0) * t) for t in (k / 10.0 for k in range(11))]
    return [(x / mm, y / mm) for x, y in points]


def _steps(half: float, mm: float) -> list[float]:
    count = max(1, math.ceil(2.0 * half / (DENSE * mm)))
    return [-half + 2.0 * half * k / count for k in range(count + 1)]


def beyond(labels: WedgeLabels | None, box: Box, mm: float) -> Box:
    """How far labels reach beyond the stitches on the left, above, on the right and below, in mm.

    `box` is that of the stitches, in stitch widths of `mm`.
    """
    if labels is None:
        return (0.0, 0.0, 0.0, 0.0)
    left, top, right, bottom = (mm * side for side in box)
    a, b, c, d = labels.box
    return max(0.0, left - a), max(0.0, top - b), max(0.0, c - right), max(0.0, d - bottom)


def label_items(labels: Iterable[Label], x: float, y: float) -> Group:
    """The labels as ink, the ring's middle at (x, y)."""
    items: list[Ink | Text] = []
    for label in labels:
        if label.arrow:
            (x0, y0), (x1, y1) = label.arrow
            items += arrow_ink(x + x0, y + y0, x + x1, y + y1)
        at_x, at_y = x + label.at[0], y + label.at[1] + cap_height(SMALL_MM) / 2.0
        weight, colour = ("bold", DARK) if label.is_number else ("regular", QUIET)
        name = "row number" if label.is_number else "count"
        items.append(Text(at_x, at_y, label.words, SMALL_MM, "middle", weight, colour, name=name))
    return Group("row numbers", tuple(items), "Row numbers with the direction of each row")
