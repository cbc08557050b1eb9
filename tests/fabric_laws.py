"""What holds of every worked fabric, whatever its words: the hand goes on along the row below, sides and directions turn
together, what stands in one place shares it, and no stitch of the row below is passed over unless the words say so."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import pairwise

from hookfold.charts.model.cloth.fabric import Fabric, Row, WorkedRow, counts

#: Words that lead the hand back, or over to the other side of a chain.
BACK = re.compile(r"(?i)cross|x-st|skipped|behind|in front|missed|before|back to|going back|corresp|both sides|other side|opposite|cable|previous|prev|unused|free|: as |between|around the chain|same")
#: Words that leave stitches of the row below without one of their own.
PASSED = re.compile(
    r"(?i)sk|miss|omit|pass|leav|left|unwork|last|remain|\bsp|space|lp|loop|arch|ring|tog|dec|join|sl ?st|ss\b|slip|only|middle|cent|every|other"
    r"|alternate|corner|post|between|shell|fan|group|cluster|of (?:the )?(?:next|first)|\bv|tip|point|peak|valley|half|nd |rd |th |popcorn|pc|picot"
    r"|below|short|mesh|square|block|rep\w* rows?|(?-i:\b[A-Z]{2}\b)"
)


def broken_laws(fabric: Fabric) -> Iterator[str]:
    """Each law that a fabric breaks, with the row."""
    for index, row in enumerate(fabric.rows):
        base = fabric.base_of(index, 1)
        for law in (*_in_order(fabric, index, base), *_turned(fabric, index), *_in_one_place(row), *_parts(row), *_all_met(row, base, index)):
            yield f"{row.label}: {law}"


def _feet(row: Row) -> list[int]:
    """The items of the row below that are gone into, in the order of work."""
    return [foot.at for stitch in row.stitches if counts(stitch) for foot in stitch.feet if foot.back == 1]


def _in_order(fabric: Fabric, index: int, base: Row | None) -> Iterator[str]:
    """The hand goes along the row below, against the way that row was worked where the work was turned."""
    row = fabric.rows[index]
    if base is None or index == 0 or BACK.search(row.words):
        return
    on = 1 if row.direction == fabric.rows[index - 1].direction else -1
    back = sum((b - a) * on < 0 for a, b in pairwise(_feet(row.row)))
    if back > (1 if row.is_round else 0):
        yield f"goes back {back} times over {_feet(row.row)}"


def _turned(fabric: Fabric, index: int) -> Iterator[str]:
    """Side and direction change together, and only where the work is turned."""
    if index == 0:
        return
    row, before = fabric.rows[index], fabric.rows[index - 1]
    if row.is_round and before.is_round and row.section == before.section and row.direction and before.direction:
        if (row.side != before.side) != (row.direction != before.direction):
            yield "its side and its direction do not change together"
        if row.turned != (row.side != before.side):
            yield "it is turned and its side does not say so"


def _in_one_place(row: WorkedRow) -> Iterator[str]:
    """What shares a place goes into the same things."""
    places: dict[int, set[tuple[int, int]]] = {}
    for stitch in row.row.stitches:
        if stitch.place >= 0 and stitch.feet and stitch.feet[0].back == 1:
            places.setdefault(stitch.place, set()).add((stitch.feet[0].at, stitch.feet[0].back))
    if any(len(found) > 1 for found in places.values()):
        yield f"one place is several: {places}"
    ends = [(first, first + many) for first, many, _ in row.row.groups]
    if any(not 0 <= a < b <= len(row.row.stitches) for a, b in ends) or any(a[0] != b[0] and a[1] > b[0] and b[1] > a[1] for a, b in pairwise(ends)):
        yield f"groups reach over each other: {row.row.groups}"


def _parts(row: WorkedRow) -> Iterator[str]:
    """Chains are of one chain at least; a beginning chain begins, a join ends, and only a round is joined."""
    stitches = row.row.stitches
    if any(s.chains < 1 for s in stitches if s.role in ("chain", "start", "turning")):
        yield "a run of no chains"
    begun = [i for i, s in enumerate(stitches) if s.role in ("start", "turning")]
    if any(s.role not in ("start", "turning", "travel") for s in stitches[: max(begun, default=0)]):
        yield "a beginning chain in the middle"
    joins = [i for i, s in enumerate(stitches) if s.role == "join" and i]
    if joins and any(s.role in ("stitch", "turning", "picot") for s in stitches[joins[0] :]):
        yield "a join in the middle"


def _all_met(row: WorkedRow, base: Row | None, index: int) -> Iterator[str]:
    """Every stitch of the row below has one on it."""
    if base is None or index == 0 or PASSED.search(row.words):
        return
    met = set(_feet(row.row))
    left = [i for i, s in enumerate(base.stitches) if counts(s) and i not in met]
    if left:
        yield f"nothing on {left}"
