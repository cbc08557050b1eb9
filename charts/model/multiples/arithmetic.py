"""What one repetition of a worked row takes and makes: by how much every row grows with the foundation.

Nothing is worked for it, so that of a hundred widths only those are tried that can go.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import accumulate, pairwise

from ...pattern.tree import Act, Again, Chain, Make, RowText, Star, Times, walk
from ..cloth.fabric import Row, Stitch, counts
from ..rows.working import Worked

#: How a foot holds that goes into a stitch, and not into a space beside it.
ON_STITCHES = ("top", "front loop", "back loop", "under", "front post", "back post")


def taken(row: Row, before: Sequence[int]) -> int:
    """How many stitches of the row below one repetition of a row takes, `before` each item of which so many lie; 0
    where the repetitions don't take alike."""
    assert row.repeat is not None
    first, each, turns = row.repeat
    begins = []
    for turn in range(turns):
        stitches = row.stitches[first + turn * each : first + (turn + 1) * each]
        below = [f for s in stitches for f in s.feet if f.back]
        if not below or any(f.back > 1 or f.hold not in ON_STITCHES for f in below):
            return 0
        begins.append(min(before[f.at] for f in below))
    steps = {abs(b - a) for a, b in pairwise(begins)}
    return steps.pop() if len(steps) == 1 else 0


def growing(worked: Worked, shape: Sequence[RowText]) -> list[tuple[int, int]]:
    """For each row of `shape` (the rows of a pattern, in turn) what one more repetition takes and makes: (1, 1) where
    each stitch is worked into. As far as that can be told: up to a row over chains, or whose repetitions differ."""
    first: dict[int, int] = {}
    for at, text in enumerate(worked.texts):
        first.setdefault(id(text), at)
    out: list[tuple[int, int]] = []
    by_number: dict[int, RowText] = {}
    for text, said in zip(worked.pattern.rows, shape, strict=False):
        told = by_number.setdefault(said.first, by_number.get(_repeated(said), said))
        if id(text) not in first:
            break
        step = _grows(worked, first[id(text)], told)
        if not step[0]:
            break
        out += [step] * (said.last - said.first + 1)
    return out


def _repeated(said: RowText) -> int:
    """The number of the one row that a row is told by ("rep row 4"); 0 where it is told in words."""
    works = [op for op in said.ops if not isinstance(op, Act)]
    again = works[0] if len(works) == 1 else None
    return again.first if isinstance(again, Again) and again.last in (0, again.first) else 0


def may_grow(steps: Sequence[tuple[int, int]], more: int) -> bool:
    """Whether rows of such steps may go over so many stitches more: each row over whole repetitions.

    >>> may_grow([(1, 1), (4, 4), (6, 6)], 12), may_grow([(1, 1), (4, 4), (6, 6)], 8)
    (True, False)
    """
    for takes, makes in steps:
        if more % takes:
            return False
        more = more // takes * makes
    return True


def _grows(worked: Worked, at: int, said: RowText) -> tuple[int, int]:
    """What one more repetition of the row at a place takes and makes; (0, 0) where that cannot be told. Over chains
    that is one stitch in each stitch and each space; a row with chains makes stitches and spaces."""
    row, base = worked.fabric.rows[at].row, worked.fabric.base_of(at)
    repeats = [op for op in said.ops if isinstance(op, Star) or (isinstance(op, Times) and not op.times)]
    if base is None:
        return (0, 0)
    if not repeats:
        over_chains = at > 0 and base.chains > 0
        whole = not row.chains and (not over_chains or row.made == sum(map(_is_place, base.stitches)))
        return (1, 1) if whole and _one_in_each(said) else (0, 0)
    mixed = any(isinstance(op, Make) and _in_each(op) for op in said.ops)
    if len(repeats) > 1 or row.repeat is None or mixed or (at and base.chains):
        return (0, 0)
    begin, each, _ = row.repeat
    makes = sum(map(_is_place, row.stitches[begin : begin + each]))
    return taken(row, list(accumulate(map(_is_below, base.stitches), initial=0))), makes


def _is_place(stitch: Stitch) -> bool:
    """Whether a stitch is one that counts, or chains that the next row may go into."""
    return counts(stitch) or stitch.role == "chain"


def _is_below(stitch: Stitch) -> bool:
    """Whether a stitch is one that a row over it takes: one that counts, or a chain of the foundation."""
    return counts(stitch) or stitch.role == "foundation"


def _in_each(make: Make) -> bool:
    return any(place.which == "each" for place in make.places)


def _one_in_each(said: RowText) -> bool:
    """Whether a row is one stitch in each, with whatever else stands at its edges told by number."""
    makes = [op for op in walk(said.ops) if not isinstance(op, Act | Chain)]
    each = [op for op in makes if isinstance(op, Make) and _in_each(op)]
    if not all(isinstance(op, Make) for op in makes) or len(each) != 1:
        return False
    return each[0].count == 1 and not each[0].beside and "tog" not in each[0].stitch
