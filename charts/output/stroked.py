"""Sheets stroked by cairo straight from the display list: PNG and PDF with no SVG read on the way.

What is inked is what `svg.write` writes: the same paths in the same order, ends and joins round, dashes cut square,
words as outlines. CairoSVG drawing that SVG is the reference that tests compare with. The pages of a PDF are drawn
on one surface.
"""

from __future__ import annotations

import functools
import io
import math
import re
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, Any

from ..drawing.display import Group, Ink, Sheet, Text
from ..drawing.letters import outline, placed_line
from .export import MM_PER_INCH, CairoMissing, png_of_pixels, size_px
from .pdf import Metadata, OutlineEntry, Words

if TYPE_CHECKING:
    from PIL import Image

_STEPS = re.compile("([MLCQZmlcqz])([^MLCQZmlcqz]*)")
_BEGINS = re.compile(r"\s*(-?[\d.]+)[ ,]+(-?[\d.]+)")
#: How many numbers a step takes.
_COUNTS = {"m": 2, "l": 2, "q": 4, "c": 6}
_NUMBERS = re.compile(r"-?(?:\d+\.?\d*|\.\d+)")
_POINTS_PER_MM = 72.0 / 25.4


def sheet_png(sheet: Sheet, dpi: float) -> bytes:
    """The sheet as PNG at `dpi`, which the file states.

    TooLarge where a side or the area passes the limits; CairoMissing without cairo.
    """
    out = io.BytesIO()
    _surface(sheet, dpi).write_to_png(out)
    return png_of_pixels(out.getvalue(), dpi)


def sheet_image(sheet: Sheet, dpi: float) -> Image.Image:
    """The pixels of `sheet_png` as a picture in RGB, without the way through a file that is packed and unpacked again.

    TooLarge where a side or the area passes the limits; CairoMissing without cairo.
    """
    from PIL import Image

    surface = _surface(sheet, dpi)
    surface.flush()
    size = surface.get_width(), surface.get_height()
    return Image.frombuffer("RGB", size, bytes(surface.get_data()), "raw", "BGRX", surface.get_stride(), 1)


def _surface(sheet: Sheet, dpi: float) -> Any:
    """The sheet on a surface of pixels, none of which is see-through: its background is painted first."""
    cairo = _cairo()
    width, height = size_px(sheet.width, sheet.height, dpi)
    surface = cairo.ImageSurface(cairo.FORMAT_ARGB32, width, height)
    pen = cairo.Context(surface)
    pen.scale(dpi / MM_PER_INCH, dpi / MM_PER_INCH)
    _stroke_sheet(pen, sheet)
    return surface


def sheets_pdf(sheets: Sequence[Sheet], metadata: Metadata, outline_entries: Sequence[OutlineEntry] = ()) -> bytes:
    """One PDF of all the sheets, each page at its own true size, with metadata, outline, and words to search.

    The same sheets give the same bytes. CairoMissing without cairo; ValueError without sheets.
    """
    if not sheets:
        raise ValueError("a PDF needs at least one sheet")
    from .pdf_file import finished  # only here: its library takes as long to load as a sheet to draw

    cairo = _cairo()
    out = io.BytesIO()
    surface = cairo.PDFSurface(out, 1, 1)
    for sheet in sheets:
        surface.set_size(sheet.width * _POINTS_PER_MM, sheet.height * _POINTS_PER_MM)
        pen = cairo.Context(surface)
        pen.scale(_POINTS_PER_MM, _POINTS_PER_MM)
        _stroke_sheet(pen, sheet)
        surface.show_page()
    surface.finish()
    return finished(out.getvalue(), metadata, outline_entries, [list(_words(sheet.items)) for sheet in sheets])


def _cairo() -> Any:
    """The cairocffi module, imported when it is first needed."""
    try:
        import cairocffi
    except (OSError, ImportError) as missing:
        raise CairoMissing from missing
    return cairocffi


def _stroke_sheet(pen: Any, sheet: Sheet) -> None:
    """A sheet from its background to its last item, in mm."""
    pen.set_line_join(_cairo().LINE_JOIN_ROUND)
    pen.set_source_rgb(*_rgb(sheet.background))
    pen.paint()
    _stroke(pen, sheet.items)


def _stroke(pen: Any, items: Sequence[Ink | Text | Group]) -> None:
    for item in items:
        if isinstance(item, Group):
            _stroke(pen, item.items)
        elif isinstance(item, Ink):
            _ink(pen, item)
        else:
            _letters(pen, item)


def _ink(pen: Any, ink: Ink) -> None:
    trace(pen, ink.d)
    if ink.fill:
        pen.set_source_rgb(*_rgb(ink.fill))
        pen.fill_preserve()
    if ink.stroke and ink.width:
        cairo = _cairo()
        pen.set_source_rgb(*_rgb(ink.stroke))
        pen.set_line_width(ink.width)
        pen.set_line_cap(cairo.LINE_CAP_BUTT if ink.dash else cairo.LINE_CAP_ROUND)
        pen.set_dash(list(ink.dash))
        pen.stroke_preserve()
    pen.new_path()


def _letters(pen: Any, text: Text) -> None:
    """The outlines of a line of words, filled at their place."""
    words, back = placed_line(text)
    pen.save()
    pen.translate(text.x, text.y)
    pen.rotate(math.radians(text.angle))
    pen.translate(-back, 0.0)
    trace(pen, outline(words, text.size, text.weight))
    pen.set_source_rgb(*_rgb(text.colour))
    pen.fill()
    pen.restore()


def trace(pen: Any, d: str) -> None:
    """Path data as steps of a cairo pen; strokes that look alike are read once."""
    take = {
        "M": pen.move_to, "L": pen.line_to, "C": pen.curve_to, "m": pen.rel_move_to, "l": pen.rel_line_to,
        "c": pen.rel_curve_to, "Z": pen.close_path, "z": pen.close_path, "Q": lambda *to: _bend(pen, *to),
    }  # fmt: skip
    for stroke in d.split("M")[1:]:
        begins = _BEGINS.match(stroke)
        if begins is None:
            raise ValueError(f'"M{stroke[:20]}" gives no point to begin at')
        pen.move_to(float(begins[1]), float(begins[2]))
        for command, numbers in _steps(stroke[begins.end() :]):
            take[command](*numbers)


@functools.lru_cache(maxsize=4096)
def _steps(said: str) -> tuple[tuple[str, tuple[float, ...]], ...]:
    """The steps of a stroke behind its first point. Cairo bends by two handles: a q has one (SVG 2, 9.3.7)."""
    steps: list[tuple[str, tuple[float, ...]]] = []
    for command, given in _STEPS.findall(said):
        numbers = [float(found) for found in _NUMBERS.findall(given)]
        count = _COUNTS.get(command.lower(), 1)
        for at in range(0, len(numbers), count):
            to = tuple(numbers[at : at + count])
            if command == "q":
                hx, hy, x, y = to
                to = (hx * 2 / 3, hy * 2 / 3, (x + 2 * hx) / 3, (y + 2 * hy) / 3, x, y)
            steps.append(("c" if command == "q" else command, to))
        if not numbers:
            steps.append((command, ()))
    return tuple(steps)


def _bend(pen: Any, hx: float, hy: float, x: float, y: float) -> None:
    """A curve with one handle, told by places of the sheet."""
    x0, y0 = pen.get_current_point()
    pen.curve_to((x0 + 2 * hx) / 3, (y0 + 2 * hy) / 3, (x + 2 * hx) / 3, (y + 2 * hy) / 3, x, y)


def _rgb(colour: str) -> tuple[float, float, float]:
    red, green, blue = (int(colour[at : at + 2], 16) / 255.0 for at in (1, 3, 5))
    return red, green, blue


def _words(items: Sequence[Ink | Text | Group]) -> Iterator[Words]:
    """The lines of words in the order of the file, each with where it is placed as SVG writes that."""
    for item in items:
        if isinstance(item, Group):
            yield from _words(item.items)
        elif isinstance(item, Text) and placed_line(item)[0]:
            said, back = placed_line(item)
            turned = f" rotate({item.angle:g})" if item.angle else ""
            place = f"translate({item.x:.3f} {item.y:.3f}){turned} translate({-back:.3f} 0)"
            yield Words(said, place, item.size, item.weight)
