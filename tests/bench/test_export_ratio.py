"""How long PDF and PNG take, as a ratio to what cairo itself needs to stroke the same paths; never a time.

`python tests/bench/test_export_ratio.py` prints the table that stands in DEVELOPERS.md.
"""

from __future__ import annotations

import io
import time
from collections.abc import Callable
from typing import Any

import cairocffi
from hookfold.charts.drawing.display import Sheet
from hookfold.charts.drawing.svg import write
from hookfold.charts.model.rows.work import work_text
from hookfold.charts.output.drawn import written_chart
from hookfold.charts.output.export import pdf, png
from hookfold.charts.output.pdf import Metadata
from hookfold.charts.output.stroked import _stroke_sheet, sheet_png, sheets_pdf
from hookfold.charts.setting import Setting

DPI = 150.0


class Recorder:
    """Writes down what a pen is told, to be told again to a cairo pen with nothing between."""

    def __init__(self) -> None:
        self.steps: list[tuple[str, tuple[Any, ...]]] = []
        self.at = (0.0, 0.0)

    def get_current_point(self) -> tuple[float, float]:
        return self.at

    def __getattr__(self, name: str) -> Callable[..., None]:
        def step(*given: Any) -> None:
            self.steps.append((name, given))
            if name in ("move_to", "line_to", "curve_to"):
                self.at = given[-2:]
            elif name.startswith("rel_"):
                self.at = (self.at[0] + given[-2], self.at[1] + given[-1])

        return step


def steps_of(sheet: Sheet) -> list[tuple[str, tuple[Any, ...]]]:
    pen = Recorder()
    _stroke_sheet(pen, sheet)
    return pen.steps


def again(pen: Any, steps: list[tuple[str, tuple[Any, ...]]]) -> None:
    for name, given in steps:
        getattr(pen, name)(*given)


def bare_pdf(sheet: Sheet, steps: list[tuple[str, tuple[Any, ...]]]) -> bytes:
    """The strokes alone as PDF."""
    out = io.BytesIO()
    surface = cairocffi.PDFSurface(out, sheet.width * 72 / 25.4, sheet.height * 72 / 25.4)
    pen = cairocffi.Context(surface)
    pen.scale(72 / 25.4, 72 / 25.4)
    again(pen, steps)
    surface.finish()
    return out.getvalue()


def bare_png(sheet: Sheet, steps: list[tuple[str, tuple[Any, ...]]]) -> bytes:
    """The strokes alone as PNG."""
    out = io.BytesIO()
    size = (round(sheet.width / 25.4 * DPI), round(sheet.height / 25.4 * DPI))
    surface = cairocffi.ImageSurface(cairocffi.FORMAT_ARGB32, *size)
    pen = cairocffi.Context(surface)
    pen.scale(DPI / 25.4, DPI / 25.4)
    again(pen, steps)
    surface.write_to_png(out)
    return out.getvalue()


def chart(rows: int, stitches: int) -> Sheet:
    """A chart on one sheet, of clusters, shells and plain stitches by turns."""
    lines = ["Terms: US", f"Ch {stitches + 1}.", f"Row 1: Sc in 2nd ch from hook and in each ch across. ({stitches} sc)"]
    work = ("*Dc in next 3 sts, 3-dc bobble in next st, hdc in next 2 sts; rep from * across.", "Sc in each st across.",
            "*Sc in next st, tr in next 2 sts, FPdc in next 3 sts; rep from * across.")  # fmt: skip
    lines += [f"Row {row}: Ch 1, turn. {work[row % 3]}" for row in range(2, rows + 1)]
    found = written_chart(work_text("\n".join(lines)), "cloth.txt", Setting(extent="full"))
    return found.whole or found.sheets[0]


def least(run: Callable[[], bytes], rounds: int) -> float:
    taken = []
    for _ in range(rounds):
        before = time.process_time()
        run()
        taken.append(time.process_time() - before)
    return min(taken)


def ratios(sheet: Sheet, rounds: int) -> dict[str, tuple[float, float]]:
    """For PDF and PNG: ours, and CairoSVG's of our SVG, over the strokes alone."""
    steps, about = steps_of(sheet), Metadata("Cloth")
    runs = {
        "PDF": (lambda: bare_pdf(sheet, steps), lambda: sheets_pdf([sheet], about), lambda: pdf([write(sheet)], about)),
        "PNG": (lambda: bare_png(sheet, steps), lambda: sheet_png(sheet, DPI), lambda: png(write(sheet), DPI)),
    }
    found = {}
    for name, (bare, ours, reference) in runs.items():
        base = least(bare, rounds)
        found[name] = (least(ours, rounds) / base, least(reference, rounds) / base)
    return found


def test_the_strokes_alone_make_the_same_picture(record_property: Callable[[str, object], None]) -> None:
    sheet = chart(4, 24)
    steps = steps_of(sheet)
    assert bare_png(sheet, steps)[-200:] == sheet_png(sheet, DPI)[-200:] and len(steps) > 500
    for name, (ours, reference) in ratios(sheet, 1).items():
        record_property(name, (round(ours, 2), round(reference, 2)))
        assert ours > 0.0 and reference > 0.0


if __name__ == "__main__":
    large = chart(80, 120)
    for name, (ours, reference) in ratios(large, 3).items():
        print(f"| {name} | {ours:.2f} | {reference:.2f} |")
    sizes = [len(bare_pdf(large, steps_of(large))), len(sheets_pdf([large], Metadata("Cloth")))]
    print(f"PDF bytes: strokes alone {sizes[0]}, ours {sizes[1]}")
