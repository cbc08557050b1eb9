"""Which rows of a piece show best what it is made of: for a close look, or a stretch of its chart."""

from __future__ import annotations

from collections.abc import Sequence

from .fabric import Fabric, WorkedRow, counts

#: How a row looks: its kinds of stitches and its colour.
Look = tuple[frozenset[str], str]


def liveliest(fabric: Fabric) -> list[int]:
    """The rows (by their places) of the section that has the most different looks, then kinds, then rows.

    A plain front before a textured flap is passed over, however long it is. Empty of a piece without rows.
    """
    sections: dict[str, list[int]] = {}
    for at, row in enumerate(fabric.rows):
        sections.setdefault(row.section, []).append(at)

    def score(rows: list[int]) -> tuple[int, int, int]:
        looks = [_look(fabric, at) for at in rows]
        return len(set(looks)), len(frozenset[str]().union(*(kinds for kinds, _ in looks))), len(rows)

    return max(sections.values(), key=score, default=[])


def typical_rows(fabric: Fabric, most: int) -> tuple[int, int]:
    """From which row to before which: at most so many of the liveliest section that show the most looks; the earliest
    of them, but not the first row of all, which goes into the foundation, where there are enough others."""
    rows = liveliest(fabric)
    if len(rows) <= most:
        return (rows[0], rows[-1] + 1) if rows else (0, 0)
    starts = [first for first in rows[: len(rows) - most + 1] if first > 0]
    best = max(starts, key=lambda first: (len({_look(fabric, at) for at in range(first, first + most)}), -first))
    return best, best + most


def _look(fabric: Fabric, at: int) -> Look:
    row = fabric.rows[at]
    return frozenset(row.row.kinds()), row.colour


def worked_loop(rows: Sequence[WorkedRow], section: str) -> str | None:
    """In which loop the stitches of a section go, as words behind the stitch's name: "" for both loops; None where they
    do not all go alike. The first row of all goes into the foundation and tells nothing."""
    later = [row.row for row in rows[1:] if row.section == section]
    holds = {foot.hold for row in later for made in row.stitches if counts(made) for foot in made.feet}
    if len(holds) > 1:
        return None
    said = {"back loop": " in the back loop only", "front loop": " in the front loop only", "top": ""}
    return said.get(next(iter(holds), "top"))
