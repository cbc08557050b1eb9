"""The multiple that one row or round needs of the stitches it is worked over."""

from __future__ import annotations

from dataclasses import replace

from ..pattern.tree import RowText, Special, Star, Start, Times, WrittenPattern
from ..pattern.written.document import Reading
from .multiple import FIRST_TRIED, Multiple, period
from .work import Worked, work_reading
from .written_multiple import loosened, settled

#: More different rows than this are not asked for their multiple.
MOST_ROWS = 40
#: A longer repeat than this is one count that happened to go.
MOST_OF = 200


def row_multiples(worked: Worked) -> dict[int, Multiple]:
    """The multiple of each row of a worked pattern that repeats over plain stitches, by its place in the fabric.

    A row worked into spaces, loops or rows further down has none of its own, nor has one that fits any number.
    """
    texts = {id(text): said for text, said in zip(worked.pattern.rows, settled(worked), strict=True)}
    found: dict[int, Multiple | None] = {}
    out: dict[int, Multiple] = {}
    for at, text in enumerate(worked.texts):
        if id(text) not in found and len(found) < MOST_ROWS:
            found[id(text)] = _multiple_of(texts.get(id(text), text), worked.pattern)
        multiple = found.get(id(text))
        if multiple is not None and multiple.of > 1:
            out[at] = multiple
    return out


def _multiple_of(text: RowText, pattern: WrittenPattern) -> Multiple | None:
    row = loosened(replace(text, label="Row 1", first=1, last=1, stated=()))
    if not any(isinstance(op, Star | Times) for op in row.ops):
        return None
    hits: list[int] = []

    def goes(count: int) -> bool:
        """Whether it goes over so many; a row that went over none of the first counts is not tried further."""
        if (count > FIRST_TRIED and not hits) or not _goes(row, count, pattern.terms, pattern.specials):
            return False
        hits.append(count)
        return True

    found = period(goes)
    return found if found is None or found.of < MOST_OF else None


def _goes(row: RowText, count: int, terms: str, specials: tuple[Special, ...]) -> bool:
    trial = WrittenPattern(terms, Start("over", count, "st"), (row,), specials)
    return not work_reading(Reading(trial)).problems
