"""The drawn pages of a booklet, from the sheets that are printed alone as well."""

from __future__ import annotations

from ...drawing import svg
from ...drawing.display import Document
from .book import Plate


def plates_of(title: str, document: Document) -> tuple[Plate, ...]:
    """Every sheet of a document as a page; the first stands under the title."""
    return tuple(
        Plate("" if number else title, svg.write(sheet), sheet.desc or sheet.title, (sheet.width, sheet.height))
        for number, sheet in enumerate(document.sheets)
    )
