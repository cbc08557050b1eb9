"""Which yarn each stitch of a fabric is worked in."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from ...made_late import replace
from .fabric import Fabric, Row, WorkedRow


def yarns_of(worked: WorkedRow) -> list[str]:
    """The key of the yarn of each stitch of a row, in the order of work; "" where the words name none."""
    return [stitch.colour or worked.colour for stitch in worked.row.stitches]


def yarns_in(rows: Iterable[WorkedRow]) -> tuple[str, ...]:
    """The keys of all yarns that rows are worked in, in the order in which they come."""
    found: dict[str, None] = {}
    seen: set[tuple[int, str]] = set()
    for row in rows:
        if (id(row.row), row.colour) not in seen:
            seen.add((id(row.row), row.colour))
            found.update(dict.fromkeys(key for key in (row.colour, *yarns_of(row)) if key))
    return tuple(found)


def changes_within(rows: Iterable[WorkedRow]) -> bool:
    """Whether the yarn changes within any of the rows."""
    each = {(id(row.row), row.colour): row for row in rows}
    return any(stitch.colour not in ("", row.colour) for row in each.values() for stitch in row.row.stitches)


def renamed(fabric: Fabric, keys: Mapping[str, str]) -> Fabric:
    """The fabric with other keys for its yarns, "" for those without one; rows that are one row stay one."""
    rows: dict[int, Row] = {}
    for worked in fabric.rows:
        if id(worked.row) not in rows:
            new = tuple(replace(s, colour=keys.get(s.colour, "")) if s.colour else s for s in worked.row.stitches)
            same = new == worked.row.stitches
            rows[id(worked.row)] = worked.row if same else replace(worked.row, stitches=new)
    again = tuple(replace(w, row=rows[id(w.row)], colour=keys.get(w.colour, "")) for w in fabric.rows)
    return replace(fabric, rows=again)
