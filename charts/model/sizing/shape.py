"""How many stitches each row has where a section changes its width: a crown that grows from its middle, edges that
slant from one width to another; how large the handles are that are sewn on.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import pi

from ...errors import PatternError
from ...made_late import dataclass
from ...measure import round_half_up
from ...pattern.file.kinds import OBJECT_KINDS
from .advice import problem_at
from .plan import Plan
from .request import SectionRequest, SizingRequest
from .row_heights import relative_height
from .rows_up import heights_of

#: So many stitches are taken in or made at each edge of a row at most: more makes steps (common practice, no source).
MOST_AT_EDGE = 2
#: A round that grows is begun with so many stitches at least: fewer leave a point.
LEAST_BEGUN = 5


def crown_counts(stitches: int, stitch_mm: float, row_mm: float) -> tuple[int, ...]:
    """The stitches of each round of a flat crown that ends with so many.

    There are as many rounds as half the crown's diameter takes, and each grows by what keeps a circle flat: 2 x pi x
    the height of a round, in stitches; the last takes what is left. By the usual heights these are 6 of sc, 8 of hdc,
    12 of dc (common practice).

    >>> crown_counts(44, 5.0, 6.5)
    (9, 18, 27, 36, 44)
    """
    rounds = max(1, round_half_up(stitches * stitch_mm / (2 * pi * row_mm)))
    grows = max(LEAST_BEGUN, round_half_up(stitches / rounds))
    return (*(min(grows * n, stitches) for n in range(1, rounds)), stitches)


def crown_of(section: SectionRequest, request: SizingRequest, stitches: int) -> tuple[int, ...]:
    """The stitches of each round of a crown, by the height of its own rounds."""
    return crown_counts(stitches, request.stitch_mm, heights_of(section, request, 1)[0])


def edge_counts(begins: int, ends: int, rows: int) -> tuple[int, ...]:
    """The stitches of each row from one width to another, as even as whole stitches allow; both edges alike as far as
    the difference is even.

    >>> edge_counts(12, 6, 3), edge_counts(12, 8, 4), edge_counts(10, 7, 3)
    ((10, 8, 6), (12, 10, 10, 8), (10, 8, 7))
    """
    whole, way = abs(ends - begins), 1 if ends > begins else -1
    return (*(begins + way * 2 * (whole * n // (2 * rows)) for n in range(1, rows)), ends)


def section_counts(request: SizingRequest, stitches: int, rows: Sequence[int]) -> tuple[tuple[int, ...], ...]:
    """The stitches of every row of each section: all alike, but where a crown grows or a section goes `to` a width.

    PatternError (kind "fit") where a section grows wider than the foundation or narrows too fast.
    """
    width, found = stitches, []
    for at, (section, many) in enumerate(zip(request.sections, rows, strict=True)):
        counts = (width,) * many
        if section.crown:
            counts = crown_of(section, request, stitches)
        elif section.over is not None:
            counts = (_inside(section, width, first=at == 0),) * many
        elif section.to is not None:
            counts = _slanted(section, (width, stitches), many, first=at == 0)
        found.append(counts)
        width = counts[-1] if counts else width
    return tuple(found)


def _inside(section: SectionRequest, width: int, *, first: bool) -> int:
    """The stitches in the middle of a row that a section is worked over, as many left at both its ends."""
    over = section.over or 1
    over += (width - over) % 2 if over < width else 0
    if over >= width or first:
        says = f"it is worked over {over} stitches, and stands on {'no other section' if first else width}."
        remedy = "give it fewer stitches than the section before it, or take over out."
        raise PatternError([problem_at(section.place, f'section "{section.name}"', says, remedy)])
    return over


def _slanted(section: SectionRequest, widths: tuple[int, int], rows: int, *, first: bool) -> tuple[int, ...]:
    """The counts of a section that changes its width; `widths` are the one below it and the foundation's, which the
    first row of the piece keeps."""
    (width, most), to, where = widths, section.to or 1, f'section "{section.name}"'
    if to > most:
        says = f"it grows to {to} stitches, and the piece begins with {most}."
        remedy = "begin the piece with its widest part, or make this one no wider than what it stands on."
        raise PatternError([problem_at(section.place, where, says, remedy)])
    changing = rows - 1 if first else rows
    counts = edge_counts(width, to, changing) if changing > 0 else ()
    counts = (width, *counts) if first else counts
    steps = [abs(b - a) for a, b in zip((width, *counts), counts, strict=False)]
    if not counts or counts[-1] != to or max(steps, default=0) > 2 * MOST_AT_EDGE:
        least = -(-abs(width - to) // (2 * MOST_AT_EDGE)) + first
        says = f"from {width} to {to} stitches in {rows} rows is more than {MOST_AT_EDGE} at each edge of a row."
        remedy = f"give it {least} rows or more, or a width nearer to {width} stitches."
        raise PatternError([problem_at(section.place, where, says, remedy)])
    return counts


def row_counts(plan: Plan) -> tuple[int, ...]:
    """The stitches planned for every row of the piece, in the order of work."""
    return tuple(n for section in plan.sections for n in section.counts(plan.stitches))


@dataclass(frozen=True, slots=True)
class SewnHandles:
    """The handles of a piece, worked lengthwise in rows of sc: how many, stitches and rows of each, how wide one is."""

    count: int
    stitches: int
    rows: int
    width_mm: float
    length_mm: float


#: A bag has two handles.
HANDLES = 2


def sewn_handles(plan: Plan) -> SewnHandles | None:
    """The handles that a piece is to have, each as long as measured and sewn on at both ends beside that; None without.

    A stitch of theirs is taken to be as wide as the body's; a row is as high as the body's where that is sc too, else
    by the usual height of sc.
    """
    kind = OBJECT_KINDS.get(plan.kind)
    own = kind.handles if kind else None
    long_mm = plan.object_mm.get(own.measure, 0.0) if own else 0.0
    if own is None or not long_mm:
        return None
    heights = [mm for section in plan.sections for mm in section.row_heights_mm]
    row_mm = sum(heights) / len(heights)
    plain = all(name == "sc" for section in plan.sections for name in section.row_kinds)
    sc_mm = row_mm if plain else relative_height("sc") * plan.stitch_mm
    rows = max(2, round_half_up(own.width_mm / sc_mm))
    sewn_mm = long_mm + 2 * own.rows * row_mm
    return SewnHandles(HANDLES, round_half_up(sewn_mm / plan.stitch_mm), rows, rows * sc_mm, sewn_mm)
