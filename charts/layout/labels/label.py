"""A number, a count or an arrow: what it takes up on the sheet, and how it is inked."""

from __future__ import annotations

import functools
import math
from collections.abc import Iterable, Mapping, Sequence
from types import MappingProxyType

from hookfold.symbols import Point, arrow

from ...drawing.display import Group, Ink, Text
from ...drawing.geometry import Affine, ink_of
from ...drawing.letters import cap_height, text_width
from ...made_late import dataclass
from ..placing.clearing import InkMap, map_of
from ..shapes.ring import LaidRounds
from ..sheets.page import DARK, QUIET, SMALL_MM, line_ink
from .leaders import along_line

Box = tuple[float, float, float, float]

#: The length of a direction arrow beside rows and of its head, and the way from it to its number.
ARROW_MM, HEAD_MM, ARROW_GAP_MM = 4.0, 2.1, 1.0
#: Half the width of an arrow's head, as a share of its length.
WING = 0.35
#: The pen of a leader.
LEADER_MM = 0.18
#: The points that stand for a label lie so far apart, in stitch widths.
DENSE = 0.2
#: No row has a tone of its own.
NO_TONES: Mapping[int, str] = MappingProxyType({})


@dataclass(frozen=True, slots=True)
class Label:
    """A number or a count in mm from the middle of the work: the middle of its words; its arrow from tail to tip.

    `row` is the place of its row, from 0; `head_mm` the size of the arrow's head; `leader` a thin line to where the row
    begins; `size_mm` the size of its letters.
    """

    words: str
    at: Point
    is_number: bool
    arrow: tuple[Point, Point] | None = None
    row: int = -1
    head_mm: float = HEAD_MM
    leader: tuple[Point, Point] | None = None
    size_mm: float = SMALL_MM

    @property
    def box(self) -> Box:
        """Left, top, right and bottom of the words and the arrow."""
        left, top, right, bottom = self.words_box
        xs = [left, right, *(x for x, _ in self.arrow or ())]
        ys = [top, bottom, *(y for _, y in self.arrow or ())]
        return min(xs), min(ys), max(xs), max(ys)

    @property
    def words_box(self) -> Box:
        """Left, top, right and bottom of the words alone."""
        return box_about(self.at, self.half)

    @property
    def half(self) -> Point:
        """Half the width and half the height of the words."""
        return half_of_words(self.words, is_number=self.is_number, size_mm=self.size_mm)


def box_about(middle: Point, half: Point) -> Box:
    """The box about a point that is half as wide and high as given."""
    (x, y), (wide, high) = middle, half
    return x - wide, y - high, x + wide, y + high


@functools.lru_cache(maxsize=1024)
def half_of_words(words: str, *, is_number: bool, size_mm: float = SMALL_MM) -> Point:
    """Half the width and half the height of a number or a count, in mm."""
    weight = "bold" if is_number else "regular"
    return text_width(words, size_mm, weight) / 2.0, cap_height(size_mm) / 2.0


def apart(one: Box, other: Box) -> float:
    """The white between two boxes; 0 where they meet.

    >>> apart((0.0, 0.0, 2.0, 2.0), (5.0, 1.0, 6.0, 6.0))
    3.0
    """
    across = max(other[0] - one[2], one[0] - other[2], 0.0)
    return math.hypot(across, max(other[1] - one[3], one[1] - other[3], 0.0))


def support(half: Point, way: Point) -> float:
    """From the middle of a rectangle to its side, along a unit vector."""
    return min(h / abs(o) for h, o in zip(half, way, strict=True) if abs(o) > 1e-9)


def points_of(label: Label, mm: float) -> list[Point]:
    """Points over the words and along the arrow, in stitch widths of `mm`."""
    wide, high = label.half
    across, down = _steps(wide, mm), _steps(high, mm)
    points = [(label.at[0] + x, label.at[1] + y) for x in across for y in down]
    if label.arrow:
        (x0, y0), (x1, y1) = label.arrow
        points += [(x0 + (x1 - x0) * t, y0 + (y1 - y0) * t) for t in (k / 10.0 for k in range(11))]
        points += _wings(label.arrow, label.head_mm)
    if label.leader:
        points += along_line(label.leader, DENSE * mm)
    return [(x / mm, y / mm) for x, y in points]


def _wings(arrow: tuple[Point, Point], head_mm: float) -> list[Point]:
    """The two ends of an arrow's head beside its line, and points on the way to them."""
    (x0, y0), (x1, y1) = arrow
    long = max(math.dist(*arrow), 1e-6)
    a, b = (x1 - x0) / long, (y1 - y0) / long
    x, y, wide = x1 - a * head_mm, y1 - b * head_mm, head_mm * WING
    return [(x - b * wide * side, y + a * wide * side) for side in (-1.0, -0.5, 0.5, 1.0)]


def _steps(half: float, mm: float) -> list[float]:
    count = max(1, math.ceil(2.0 * half / (DENSE * mm)))
    return [-half + 2.0 * half * k / count for k in range(count + 1)]


def map_of_rounds(laid: LaidRounds) -> InkMap:
    """All that is drawn of rounds, or of rows about a ring."""
    again = [("again", laid.again.laid.spots)] if laid.again else []
    return map_of([("centre", laid.centre.spots), *again, *((ring.index, ring.laid.spots) for ring in laid.rings)])


def taken_up(ink: InkMap, labels: Iterable[Label], mm: float) -> None:
    """Labels taken off the map of ink again."""
    for label in labels:
        ink.lift(("label", label), points_of(label, mm))


def laid_down(ink: InkMap, label: Label, mm: float) -> Label:
    """The label, put on the map of ink, so that what comes later keeps clear of it."""
    ink.add(("label", label), points_of(label, mm))
    return label


def beyond(taken: Sequence[Box], box: Box, mm: float) -> Box:
    """How far boxes in mm reach beyond the stitches on the left, above, on the right and below, in mm.

    `box` is that of the stitches, in stitch widths of `mm`.
    """
    left, top, right, bottom = (mm * side for side in box)
    return (
        max([0.0, *(left - b[0] for b in taken)]), max([0.0, *(top - b[1] for b in taken)]),
        max([0.0, *(b[2] - right for b in taken)]), max([0.0, *(b[3] - bottom for b in taken)]),
    )  # fmt: skip


def label_items(
    labels: Iterable[Label], x: float, y: float, word: str = "row", tones: Mapping[int, str] = NO_TONES
) -> Group:
    """The labels as ink, the middle of the work at (x, y); `word` is what one of the rows is called, `tones` the ink of
    numbers and arrows by row where it is not the dark one."""
    items: list[Ink | Text] = []
    for label in labels:
        tone = tones.get(label.row, DARK)
        if label.arrow:
            (x0, y0), (x1, y1) = label.arrow
            items += arrow_ink(x + x0, y + y0, x + x1, y + y1, label.head_mm, tone)
        if label.leader:
            (x0, y0), (x1, y1) = label.leader
            items.append(line_ink(x + x0, y + y0, x + x1, y + y1, width=LEADER_MM, colour=QUIET))
        at_x, at_y = x + label.at[0], y + label.at[1] + cap_height(label.size_mm) / 2.0
        weight = "bold" if label.is_number else "regular"
        name = f"{word} number" if label.is_number else "count"
        items.append(Text(at_x, at_y, label.words, label.size_mm, "middle", weight, tone, name=name))
    title = f"{word.capitalize()} numbers with the direction of each {word}"
    return Group(f"{word} numbers", tuple(items), title)


def arrow_ink(
    x0: float, y0: float, x1: float, y1: float, head_mm: float = HEAD_MM, colour: str = DARK
) -> tuple[Ink, ...]:
    """A small arrow in mm."""
    unit = 3.0
    mark = arrow((x0 / unit, y0 / unit), (x1 / unit, y1 / unit), size=head_mm / unit)
    return ink_of([(mark, Affine.scale(unit))], 3.0, colour)
