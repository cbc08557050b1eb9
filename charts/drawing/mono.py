"""A sheet in black and greys: every colour as the grey that is as light, so that contrasts stay what they were."""

from __future__ import annotations

import functools

from ..made_late import replace
from .display import Document, Group, Ink, Sheet, Text
from .style import luminance


def in_greys(document: Document) -> Document:
    """All sheets of a document with their colours as greys, each laid when it is asked for."""

    def whole() -> Sheet | None:
        return _sheet(document.whole) if document.whole else None

    return Document(
        lambda: tuple(map(_sheet, document.sheets)), document.title, document.author, document.licence,
        document.keywords, whole,
    )  # fmt: skip


def _sheet(sheet: Sheet) -> Sheet:
    return replace(sheet, items=tuple(map(_item, sheet.items)), background=grey_of(sheet.background))


def _item(item: Ink | Text | Group) -> Ink | Text | Group:
    if isinstance(item, Group):
        return replace(item, items=tuple(map(_item, item.items)))
    if isinstance(item, Text):
        return replace(item, colour=grey_of(item.colour))
    return replace(item, stroke=grey_of(item.stroke), fill=grey_of(item.fill))


@functools.lru_cache(maxsize=256)
def grey_of(colour: str) -> str:
    """The grey as light as #rrggbb (relative luminance, WCAG 2.2; the curve of sRGB, IEC 61966-2-1); "" for none.

    >>> grey_of("#3a6ead"), grey_of("#ffffff"), grey_of("")
    ('#6c6c6c', '#ffffff', '')
    """
    if not colour:
        return ""
    light = luminance(colour)
    share = light * 12.92 if light <= 0.0031308 else 1.055 * light ** (1.0 / 2.4) - 0.055
    return f"#{round(255.0 * share):02x}" + f"{round(255.0 * share):02x}" * 2
