"""The multiple that one row or round needs of the stitches it is worked over."""

from __future__ import annotations

from itertools import accumulate

from ...made_late import replace
from ...pattern.tree import RowText, Special, Star, Start, Times, WrittenPattern
from ...pattern.written.document import Reading
from ..cloth.fabric import Stitch, counts
from ..rows.work import work_reading
from ..rows.working import Worked
from .arithmetic import taken
from .multiple import Multiple
from .of_foundation import loosened, settled

#: More different rows than this are not asked for their multiple.
MOST_ROWS = 40
#: A longer repeat than this is one count that happened to go.
MOST_OF = 200
#: So many repetitions are played at the least: of one alone it is not seen where it ends.
FEWEST = 2


def row_multiples(worked: Worked) -> dict[int, Multiple]:
    """The multiple of each row of a worked pattern that repeats over plain stitches, by its place in the fabric.

    A row worked into spaces, loops or rows further down has none of its own, nor has one that fits any number.
    """
    texts = {id(text): said for text, said in zip(worked.pattern.rows, settled(worked), strict=True)}
    found: dict[int, Multiple | None] = {}
    out: dict[int, Multiple] = {}
    for at, text in enumerate(worked.texts):
        if id(text) not in found and len(found) < MOST_ROWS:
            found[id(text)] = _multiple_of(texts.get(id(text), text), worked, at)
        multiple = found.get(id(text))
        if multiple is not None and multiple.of > 1:
            out[at] = multiple
    return out


def _multiple_of(text: RowText, worked: Worked, at: int) -> Multiple | None:
    """The multiple of a row as it was worked: what one repetition takes, and what is left over.

    Whether it is one is seen by playing the row over plain stitches, with two repetitions and with three.
    """
    row = loosened(replace(text, label="Row 1", first=1, last=1, stated=()))
    if sum(isinstance(op, Star) or (isinstance(op, Times) and not op.times) for op in row.ops) != 1:
        return None  # several repeats share the row between them in more ways than one
    base, made = worked.fabric.base_of(at), worked.fabric.rows[at].row
    if base is None or made.repeat is None or made.repeat[2] < FEWEST:
        return None
    for sizes in ([counts(s) for s in base.stitches], [counts(s) + _lying(s) for s in base.stitches]):
        of, width = taken(made, list(accumulate(sizes, initial=0))), sum(sizes)
        least = width - (made.repeat[2] - FEWEST) * of
        if 1 < of <= MOST_OF and least > 0 and _is_multiple(of, least, row, worked.pattern):
            return Multiple(of, least % of, least)
    return None


def _lying(stitch: Stitch) -> int:
    return stitch.chains if stitch.role == "chain" else 0


def _is_multiple(of: int, least: int, row: RowText, pattern: WrittenPattern) -> bool:
    """Whether a row goes over `least` stitches and over a repeat more, and not over one stitch more."""

    def goes(count: int) -> bool:
        return _goes(row, count, pattern.terms, pattern.specials)

    return goes(least) and goes(least + of) and not goes(least + 1)


def _goes(row: RowText, count: int, terms: str, specials: tuple[Special, ...]) -> bool:
    trial = WrittenPattern(terms, Start("over", count, "st"), (row,), specials)
    return not work_reading(Reading(trial), to_first_fault=True).problems
