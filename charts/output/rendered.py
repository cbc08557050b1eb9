"""A document in the file formats asked for."""

from __future__ import annotations

from collections.abc import Sequence

from ..drawing import svg
from ..drawing.display import Document
from .export import pdf, png
from .pdf import Metadata, OutlineEntry

PNG_DPI = 150.0


def rendered(document: Document, formats: Sequence[str]) -> dict[str, bytes]:
    """A document in the formats asked for. SVG and PNG hold the first sheet; "svg-2", ... the others."""
    pages = [svg.write(sheet) for sheet in document.sheets]
    out: dict[str, bytes] = {}
    for wanted in formats:
        if wanted == "svg":
            out["svg"] = pages[0]
        elif wanted == "png":
            out["png"] = png(pages[0], PNG_DPI)
        else:
            metadata = Metadata(document.title, document.author, keywords=document.keywords)
            outline = [OutlineEntry(sheet.title, number) for number, sheet in enumerate(document.sheets, 1)]
            out["pdf"] = pdf(pages, metadata, outline)
    return out
