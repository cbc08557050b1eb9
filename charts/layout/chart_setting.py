"""What a chart is drawn with: sizes on the page, and what the reader wants beside the stitches."""

from __future__ import annotations

from dataclasses import dataclass

from ..drawing.geometry import number

NAME = "Stitch chart"

#: The size of a stitch on the page: never smaller, and the size that is aimed at.
LEAST_MM = 3.0
BEST_MM = 7.0
#: A stitch on the pages of a tiled chart.
TILE_MM = 4.0
#: White above and below the picture, in mm.
ABOVE_MM = 2.0
BELOW_MM = 2.5
#: Ink beyond the places of a row, in stitch widths: half a bar, half a chain.
OVER = 0.5


@dataclass(frozen=True, slots=True)
class ChartSetting:
    """What a chart shows besides the page's own setting: counts at the row ends, a row lit up (1-based)."""

    counts: bool = True
    lit_row: int = 0


def scale_of(stitch_mm: float) -> str:
    """The scale as printed.

    >>> scale_of(5.04)
    '1 stitch = 5 mm'
    """
    return f"1 stitch = {number(round(stitch_mm, 1))} mm"
