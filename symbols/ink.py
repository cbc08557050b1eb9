"""Ink in stitch widths: sub-paths to stroke and to fill, y downward. What every glyph is made of."""

from __future__ import annotations

from dataclasses import dataclass

Point = tuple[float, float]
#: A drawing step: "M" and "L" with one point, "C" with three, "Z" with none (all absolute).
Step = tuple[str, tuple[Point, ...]]
SubPath = tuple[Step, ...]
Box = tuple[float, float, float, float]


@dataclass(frozen=True, slots=True)
class Mark:
    """A drawn glyph: `strokes` are inked with the one pen, `fills` are solid; in stitch widths."""

    strokes: tuple[SubPath, ...] = ()
    fills: tuple[SubPath, ...] = ()

    def __add__(self, other: Mark) -> Mark:
        return Mark(self.strokes + other.strokes, self.fills + other.fills)
