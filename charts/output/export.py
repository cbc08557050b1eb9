"""Sheets as PNG and PDF, made from the same SVG: the only module that touches cairo.

Cairo is a library of the system. Where it is missing, everything but PNG and PDF works, and `CairoMissing`
says how to get it. PDF pages are drawn on one surface, so a booklet of a hundred pages shares nothing but the
file.
"""

from __future__ import annotations

import io
import math
import re
import struct
import zlib
from collections.abc import Sequence
from typing import Any

from ..errors import Unable
from .pdf import Metadata, OutlineEntry

__all__ = ["CairoMissing", "Metadata", "OutlineEntry", "TooLarge", "cairo_here", "pdf", "png", "size_mm"]

#: The longest side of a PNG in pixels (cairo's own limit), and the most pixels in all (400 MB of them).
SIDE_LIMIT_PX = 32_767
AREA_LIMIT_PX = 100_000_000
MM_PER_INCH = 25.4
_INCHES_PER_METRE = 1000.0 / MM_PER_INCH


class CairoMissing(Unable, RuntimeError):
    """No cairo library here, so PNG and PDF cannot be made; the message says how to install it."""

    def __init__(self) -> None:
        super().__init__(
            "PNG and PDF need the cairo library, which this system does not have: install it with"
            ' "apt-get install libcairo2" (Debian, Ubuntu) or "brew install cairo" (macOS);'
            " SVG works without it"
        )


class TooLarge(Unable, ValueError):
    """A PNG of more pixels than can be drawn; the message says what would fit."""


def png(svg: bytes, dpi: float = 300.0) -> bytes:
    """The sheet as PNG at `dpi`, which the file states (pHYs), so that it prints at true size.

    TooLarge where a side or the area passes the limits; CairoMissing without cairo.
    """
    width, height = size_px(*size_mm(svg), dpi)
    drawn = _cairosvg().svg2png(bytestring=svg, output_width=width, output_height=height)
    return png_of_pixels(drawn, dpi)


def size_px(width_mm: float, height_mm: float, dpi: float) -> tuple[int, int]:
    """The size in pixels of a sheet at `dpi`; TooLarge where a side or the area passes the limits."""
    width, height = pixels(width_mm, height_mm, dpi)
    if max(width, height) > SIDE_LIMIT_PX or width * height > AREA_LIMIT_PX:
        raise TooLarge(_too_large(width, height, dpi))
    return width, height


def dpi_that_fits(width_mm: float, height_mm: float) -> float:
    """The most dots per inch, in tens, at which a sheet is no larger than can be drawn."""
    width, height = pixels(width_mm, height_mm, 100.0)
    most = 100.0 * min(SIDE_LIMIT_PX / max(width, height), (AREA_LIMIT_PX / (width * height)) ** 0.5)
    return float(max(10 * (math.floor(most / 10.0) - 1), 10))


def pixels(width_mm: float, height_mm: float, dpi: float) -> tuple[int, int]:
    """The size in pixels of a sheet at `dpi`."""
    return round(width_mm / MM_PER_INCH * dpi), round(height_mm / MM_PER_INCH * dpi)


def _too_large(width: int, height: int, dpi: float) -> str:
    fits = dpi * min(SIDE_LIMIT_PX / max(width, height), (AREA_LIMIT_PX / (width * height)) ** 0.5)
    return (
        f"a PNG of {width} x {height} pixels is too large (at most {SIDE_LIMIT_PX} a side and"
        f" {AREA_LIMIT_PX // 1_000_000} million in all): use {int(fits)} dpi or less, or write SVG or PDF"
    )


def size_mm(svg: bytes) -> tuple[float, float]:
    """The width and height in mm that an SVG file of ours states."""
    head = svg[:2000].decode("utf-8", "replace")
    found = {side: re.search(rf'\b{side}="([\d.]+)mm"', head) for side in ("width", "height")}
    if not (found["width"] and found["height"]):
        raise ValueError("the SVG does not state its size in mm")
    return float(found["width"][1]), float(found["height"][1])


def png_of_pixels(data: bytes, dpi: float) -> bytes:
    """A PNG that states its resolution, in a pHYs chunk (pixels per metre) after its header (PNG specification,
    11.3.5.3)."""
    header_end = 8 + 4 + 4 + 13 + 4
    per_metre = round(dpi * _INCHES_PER_METRE)
    body = b"pHYs" + struct.pack(">IIB", per_metre, per_metre, 1)
    chunk = struct.pack(">I", 9) + body + struct.pack(">I", zlib.crc32(body))
    return data[:header_end] + chunk + data[header_end:]


def pdf(document_svgs: Sequence[bytes], metadata: Metadata, outline: Sequence[OutlineEntry] = ()) -> bytes:
    """One PDF of all the sheets, each page at its own true size, with metadata, outline, and words to search.

    The same sheets give the same bytes: the dates are fixed. CairoMissing without cairo; ValueError without
    sheets.
    """
    if not document_svgs:
        raise ValueError("a PDF needs at least one sheet")
    from .pdf_file import finished, words_of  # only here: its library takes as long to load as a sheet to draw

    return finished(_drawn_pages(document_svgs), metadata, outline, [words_of(svg) for svg in document_svgs])


def _drawn_pages(svgs: Sequence[bytes]) -> bytes:
    """All pages on one cairo surface."""
    _cairosvg()
    from cairocffi import PDFSurface
    from cairosvg.parser import Tree

    out = io.BytesIO()
    surface = PDFSurface(out, 1, 1)
    page_class = _page_class()
    for svg in svgs:
        page_class.shared = surface
        page_class(Tree(bytestring=svg), None, 96.0)
        surface.show_page()
    surface.finish()
    return out.getvalue()


def _page_class() -> Any:
    """CairoSVG's PDF surface, drawing on the next page of a shared one instead of making its own."""
    from cairosvg.surface import PDFSurface as OnePage

    class Page(OnePage):  # type: ignore[misc]
        """One page of the shared surface."""

        shared: Any = None

        def _create_surface(self, width: float, height: float) -> tuple[Any, float, float]:
            self.shared.set_size(width, height)
            return self.shared, width, height

    return Page


def cairo_here() -> bool:
    """Whether this system has the cairo library, so that PNG and PDF can be made."""
    try:
        _cairosvg()
    except CairoMissing:
        return False
    return True


def _cairosvg() -> Any:
    """The cairosvg module, imported when it is first needed."""
    try:
        import cairosvg
    except (OSError, ImportError) as missing:
        raise CairoMissing from missing
    return cairosvg
