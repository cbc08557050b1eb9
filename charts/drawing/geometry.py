"""Moving glyphs onto the sheet: affine maps of marks and boxes, path data, the one number formatter."""

from __future__ import annotations

import math
from collections.abc import Iterable

from hookfold.symbols import PEN, Mark
from hookfold.symbols.ink import Box, Point, SubPath

from ..made_late import dataclass
from .display import Ink

#: The heaviest the pen becomes, however large a chart is drawn; beyond this stitches look like beams.
PEN_LIMIT_MM = 0.5


@dataclass(frozen=True, slots=True)
class Affine:
    """The map (x, y) -> (a x + c y + e, b x + d y + f), as SVG writes a matrix.

    >>> (Affine.shift(10.0, 0.0) @ Affine.scale(3.0)).point((1.0, -1.0))
    (13.0, -3.0)
    """

    a: float = 1.0
    b: float = 0.0
    c: float = 0.0
    d: float = 1.0
    e: float = 0.0
    f: float = 0.0

    @staticmethod
    def shift(dx: float, dy: float) -> Affine:
        """Move by (dx, dy)."""
        return Affine(e=dx, f=dy)

    @staticmethod
    def scale(by: float, down: float | None = None) -> Affine:
        """Enlarge about the origin, differently downward if `down` is given."""
        return Affine(a=by, d=by if down is None else down)

    @staticmethod
    def rotate(angle_deg: float) -> Affine:
        """Turn clockwise on the sheet about the origin."""
        turn = math.radians(angle_deg)
        cos, sin = math.cos(turn), math.sin(turn)
        return Affine(cos, sin, -sin, cos)

    @staticmethod
    def mirror(x: float = 0.0) -> Affine:
        """Swap left and right about the upright line at `x`."""
        return Affine(a=-1.0, e=2.0 * x)

    def __matmul__(self, inner: Affine) -> Affine:
        """First `inner`, then this."""
        return Affine(
            self.a * inner.a + self.c * inner.b,
            self.b * inner.a + self.d * inner.b,
            self.a * inner.c + self.c * inner.d,
            self.b * inner.c + self.d * inner.d,
            self.a * inner.e + self.c * inner.f + self.e,
            self.b * inner.e + self.d * inner.f + self.f,
        )

    def point(self, p: Point) -> Point:
        """Where a point lands."""
        return (self.a * p[0] + self.c * p[1] + self.e, self.b * p[0] + self.d * p[1] + self.f)

    def box(self, box: Box) -> Box:
        """The upright box round where a box lands."""
        corners = [self.point((x, y)) for x in (box[0], box[2]) for y in (box[1], box[3])]
        xs, ys = [p[0] for p in corners], [p[1] for p in corners]
        return (min(xs), min(ys), max(xs), max(ys))

    def path(self, path: SubPath) -> SubPath:
        """Where a path lands."""
        return tuple((command, tuple(self.point(p) for p in points)) for command, points in path)

    def mark(self, mark: Mark) -> Mark:
        """Where a mark lands (its pen is scaled by whoever inks it)."""
        return Mark(tuple(map(self.path, mark.strokes)), tuple(map(self.path, mark.fills)))


def number(value: float) -> str:
    """A number as it leaves for a file: at most 3 decimals, no trailing zeros, no -0.

    >>> number(1.5), number(-0.0001), number(2.0)
    ('1.5', '0', '2')

    ValueError for what is not a finite number.
    """
    if not math.isfinite(value):
        raise ValueError(f"{value} cannot be drawn: it is not a finite number")
    text = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def path_data(paths: Iterable[SubPath], to: Affine | None = None) -> str:
    """SVG path data of sub-paths, absolute, through the formatter."""
    placed = paths if to is None else map(to.path, paths)
    return "".join(_command(command, points) for path in placed for command, points in path)


@dataclass(frozen=True, slots=True)
class Stencil:
    """Marks written once and laid down anywhere: path text that is relative to where it is laid.

    Laying a row down again costs one number pair, however many stitches it has.
    """

    strokes: str
    fills: str

    def at(self, x: float, y: float) -> tuple[str, str]:
        """The absolute path data (strokes, fills) of the marks with their origin at (x, y); "" where none."""
        start = f"M{number(x)} {number(y)}"
        return (start + self.strokes if self.strokes else "", start + self.fills if self.fills else "")


def stencil(placed: Iterable[tuple[Mark, Affine]]) -> Stencil:
    """A stencil of marks, each with its map to mm about the stencil's origin.

    >>> from hookfold.symbols import glyph
    >>> stencil([(glyph("hdc").mark, Affine.scale(3.0))]).at(10.0, 20.0)[0]
    'M10 20m0 -0.36l0 -3.84m-0.99 0l1.98 0'
    """
    marks = [to.mark(mark) for mark, to in placed]
    stroked = relative_data(path for m in marks for path in m.strokes)
    return Stencil(stroked, relative_data(path for m in marks for path in m.fills))


def relative_data(paths: Iterable[SubPath]) -> str:
    """Path data in which every step is relative, the first to wherever the pen is.

    Steps are differences of rounded places, so rounding does not add up along a row.
    """
    parts: list[str] = []
    here = start = (0.0, 0.0)
    for command, points in (step for path in paths for step in path):
        placed = [(round(x, 3), round(y, 3)) for x, y in points]
        steps = (f"{number(x - here[0])} {number(y - here[1])}" for x, y in placed)
        parts.append(command.lower() + " ".join(steps))
        here = placed[-1] if placed else start
        start = here if command == "M" else start
    return "".join(parts)


def _command(command: str, points: tuple[Point, ...]) -> str:
    return command + " ".join(f"{number(x)} {number(y)}" for x, y in points)


def pen_mm(stitch_mm: float, pen: float = PEN, limit_mm: float = PEN_LIMIT_MM) -> float:
    """The weight of the pen where a stitch is `stitch_mm` wide: in proportion, up to `limit_mm` (on paper: 0.5 mm).

    >>> pen_mm(3.0), pen_mm(7.0)
    (0.30000000000000004, 0.5)
    """
    return min(pen * stitch_mm, limit_mm)


def ink_of(
    placed: Iterable[tuple[Mark, Affine]], stitch_mm: float, colour: str, name: str = "", pen: float = PEN
) -> tuple[Ink, ...]:
    """Marks in stitch widths, each with its map to the sheet, as at most two inks: strokes and fills.

    One path for all the marks of a row in one colour is what every renderer draws fastest. The pen follows
    `stitch_mm`.
    """
    stroked: list[str] = []
    filled: list[str] = []
    for mark, to in placed:
        stroked.append(path_data(mark.strokes, to))
        filled.append(path_data(mark.fills, to))
    inks = (
        Ink("".join(stroked), stroke=colour, width=pen_mm(stitch_mm, pen), name=name),
        Ink("".join(filled), fill=colour, name=f"{name} solid" if name else ""),
    )
    return tuple(ink for ink in inks if ink.d)
