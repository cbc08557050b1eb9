"""Other ways to colour a piece: each worked, then shown side by side or told in words."""

from __future__ import annotations

from collections.abc import Iterator

from ...errors import PatternError
from ...model.sections.read import read_sections
from ...model.sizing.from_pattern import request_of
from ...model.sizing.size import size
from ...pattern.file.records import Pattern
from ..images.fabric import Asked, fabric_file
from ..piece import worked_piece
from ..said import yarn_of_piece
from .sheet import FORMS, Coloured, colour_sheet, colour_words
from .ways import Way, ways_of

#: How a way is pictured on the sheet.
_SMALL: Asked = ("flat", "right", 420, "png")


def coloured(pattern: Pattern, name: str, form: str) -> bytes:
    """The ways to colour a pattern: pictures side by side as "png" or "pdf", or in words as "md" or "txt"."""
    ways = tuple(worked_ways(pattern))
    if form in FORMS:
        return colour_sheet(ways, lambda one: fabric_file(one, name, "right", _SMALL), FORMS[form])
    return colour_words(ways).encode("utf-8")


def worked_ways(pattern: Pattern) -> Iterator[Coloured]:
    """Each way to colour a pattern that can be worked, its own first; PatternError where its own cannot be."""
    for way in ways_of(pattern):
        try:
            yield _worked(way)
        except PatternError:
            if way.pattern is pattern:
                raise


def _worked(way: Way) -> Coloured:
    read = read_sections(way.pattern)
    plan = size(request_of(way.pattern, [section.text for section in read.sections]))
    piece = worked_piece(way.pattern, read, plan, "right")
    return Coloured(way.says, piece, yarn_of_piece(piece))
