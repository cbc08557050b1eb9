"""What else draws as many glyphs from Python, as ratios to joining plain strings: svgwrite with one element a stitch,
and matplotlib with the same outlines as one collection of paths.

    python tests/bench/others.py [ROWS]

matplotlib is no part of what hookfold needs; its line is left out where it is not installed.
"""

from __future__ import annotations

import re
import sys
from io import BytesIO
from typing import Any

import writer
from hookfold.charts.drawing.geometry import Affine, stencil
from hookfold.symbols import glyph


def _marks() -> list[str]:
    """The strokes of the two glyphs, as `writer` lays them."""
    return [stencil([(glyph(kind).mark, Affine.scale(writer.MM))]).strokes for kind in ("dc", "sc")]


def _outline(mark: str, path: Any) -> tuple[list[tuple[float, float]], list[int]]:
    """Strokes that are moves and straight lines, as points with matplotlib's codes."""
    points, codes, x, y = [], [], 0.0, 0.0
    for letter, dx, dy in re.findall(r"([ml])(\S+) ([^ml]+)", mark):
        x, y = x + float(dx), y + float(dy)
        points.append((x, y))
        codes.append(path.MOVETO if letter == "m" else path.LINETO)
    return points, codes


def svgwritten(rows: int) -> bytes:
    """One svgwrite element a stitch, each a use of its glyph."""
    import svgwrite

    drawing = svgwrite.Drawing(size=(f"{writer.ROW * writer.MM}mm", f"{rows * writer.MM * 2}mm"))
    for mark in _marks():
        drawing.defs.add(drawing.path(d=f"M0 0{mark}", id=f"m{len(drawing.defs.elements)}", fill="none", stroke=writer.DARK))
    for r in range(rows):
        for i in range(writer.ROW):
            drawing.add(drawing.use(f"#m{r % 2}", insert=(i * writer.MM, r * writer.MM * 2)))
    return str(drawing.tostring()).encode()


def plotted(rows: int) -> bytes:
    """The same outlines drawn by matplotlib to SVG, as one collection of each glyph."""
    import matplotlib

    matplotlib.use("svg")
    from matplotlib.collections import PathCollection
    from matplotlib.figure import Figure
    from matplotlib.path import Path

    figure = Figure(figsize=(writer.ROW * writer.MM / 25.4, rows * writer.MM * 2 / 25.4))
    axes = figure.add_axes((0, 0, 1, 1))
    axes.set(xlim=(0, writer.ROW * writer.MM), ylim=(rows * writer.MM * 2, 0))
    for k, mark in enumerate(_marks()):
        places = [(i * writer.MM, r * writer.MM * 2) for r in range(k, rows, 2) for i in range(writer.ROW)]
        axes.add_collection(
            PathCollection([Path(*_outline(mark, Path))], offsets=places, offset_transform=axes.transData,
                           facecolor="none", edgecolor=writer.DARK)
        )
    out = BytesIO()
    figure.savefig(out, format="svg")
    return out.getvalue()


def main() -> None:
    """Print a line for each, and ours beside them."""
    rows = int(sys.argv[1]) if len(sys.argv) > 1 else 100
    least = writer.seconds(writer.plain, rows, 3)
    print(f"{rows * writer.ROW:,} glyphs, over joined strings:")
    for name, make in (("ours", writer.ours), ("svgwrite", svgwritten), ("matplotlib", plotted)):
        try:
            print(f"| {name} | {writer.seconds(make, rows, 3) / least:.1f} | {len(make(rows)) / 1e6:.1f} MB |")
        except ImportError:
            print(f"| {name} | not installed |")


if __name__ == "__main__":
    main()
