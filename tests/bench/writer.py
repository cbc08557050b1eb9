"""How much longer our writer takes than joining plain strings, for the same 100,000 glyphs.

    python tests/bench/writer.py

Ratios are what matters; absolute times are those of the machine.
"""

from __future__ import annotations

import statistics
import time
from collections.abc import Callable

from hookfold.charts.drawing.display import Group, Ink, Sheet
from hookfold.charts.drawing.geometry import Affine, number, stencil
from hookfold.charts.drawing.svg import write
from hookfold.symbols import PEN, glyph

ROW = 250
ROWS = 400
MM = 3.0
DARK = "#1d1d1b"


def ours(rows: int = ROWS) -> bytes:
    """Each glyph written once as a stencil, laid down for every stitch, one path a row."""
    marks = [stencil([(glyph(kind).mark, Affine.scale(MM))]) for kind in ("dc", "sc")]
    groups = tuple(_row(marks[r % 2], r) for r in range(rows))
    return write(Sheet(ROW * MM, rows * MM * 2, "Bench", groups))


def shared(rows: int = ROWS) -> bytes:
    """Whole rows as stencils: a row that is worked again costs one pair of numbers."""
    lines = [
        stencil([(glyph(kind).mark, Affine.shift(i * MM, 0.0) @ Affine.scale(MM)) for i in range(ROW)])
        for kind in ("dc", "sc")
    ]
    groups = tuple(
        Group(f"row {r}", (_ink(lines[r % 2].at(0.0, r * MM * 2)[0]),), f"Row {r}") for r in range(rows)
    )
    return write(Sheet(ROW * MM, rows * MM * 2, "Bench", groups))


def _row(mark: object, r: int) -> Group:
    laid = "".join(mark.at(i * MM, r * MM * 2)[0] for i in range(ROW))  # type: ignore[attr-defined]
    return Group(f"row {r}", (_ink(laid),), f"Row {r}")


def _ink(d: str) -> Ink:
    return Ink(d, stroke=DARK, width=PEN * MM)


def plain(rows: int = ROWS) -> bytes:
    """The same document by joining strings, with no checks: the least that any writer must do."""
    marks = [stencil([(glyph(kind).mark, Affine.scale(MM))]).strokes for kind in ("dc", "sc")]
    parts = [f'<svg xmlns="http://www.w3.org/2000/svg" width="{ROW * MM}mm" height="{rows * MM * 2}mm">']
    for r in range(rows):
        laid = "".join(f"M{number(i * MM)} {number(r * MM * 2)}{marks[r % 2]}" for i in range(ROW))
        parts.append(f'<g id="row-{r}"><title>Row {r}</title><path d="{laid}" stroke="{DARK}"/></g>')
    return "".join([*parts, "</svg>"]).encode()


def seconds(make: Callable[[int], bytes], rows: int, times: int = 5) -> float:
    """The median time of one writing."""
    taken = []
    for _ in range(times):
        begun = time.perf_counter()
        make(rows)
        taken.append(time.perf_counter() - begun)
    return statistics.median(taken)


def ratios(rows: int = ROWS) -> dict[str, float]:
    """Ours and the shared rows, each against plain strings."""
    least = seconds(plain, rows)
    each, row = seconds(ours, rows), seconds(shared, rows)
    return {"one stencil a stitch": each / least, "one stencil a row": row / least}


if __name__ == "__main__":
    print(f"{ROW * ROWS} glyphs, plain strings 1.0 ({seconds(plain, ROWS):.2f} s)")
    for name, ratio in ratios().items():
        print(f"  {name}: {ratio:.2f}")
