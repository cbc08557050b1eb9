"""A document in the file formats asked for."""

from __future__ import annotations

from collections.abc import Sequence

from ..drawing import svg
from ..drawing.display import Document, Sheet
from ..setting import Wanted
from .export import TooLarge, dpi_that_fits
from .pdf import Metadata, OutlineEntry
from .stroked import sheet_png, sheets_pdf

PNG_DPI = 150.0


def rendered(document: Document, formats: Sequence[str], wanted: Wanted | None = None) -> dict[str, bytes]:
    """A document in the formats asked for. SVG and PNG hold all of it on one sheet, or as "svg-1", "svg-2", ... its
    pages where those are wanted; PDF holds the pages.
    """
    how = wanted or Wanted()
    out: dict[str, bytes] = {}
    for asked in formats:
        if asked == "pdf":
            metadata = Metadata(document.title, document.author, keywords=document.keywords)
            outline = [OutlineEntry(sheet.title, number) for number, sheet in enumerate(document.sheets, 1)]
            out["pdf"] = sheets_pdf(document.sheets, metadata, outline)
        elif how.pages:
            out |= {f"{asked}-{k}": _inked(sheet, asked, how) for k, sheet in enumerate(document.sheets, 1)}
        else:
            out[asked] = _inked(whole_of(document), asked, how)
    return out


def whole_of(document: Document) -> Sheet:
    """All of a document on one sheet."""
    return document.whole or document.sheets[0]


def _inked(sheet: Sheet, asked: str, how: Wanted) -> bytes:
    if asked == "svg":
        return svg.write(sheet)
    try:
        return sheet_png(sheet, how.dpi or PNG_DPI)
    except TooLarge:
        if how.dpi:
            raise
        return sheet_png(sheet, dpi_that_fits(sheet.width, sheet.height))
