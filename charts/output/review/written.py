"""The points of a written pattern: what its words can show."""

from __future__ import annotations

from ...model.rows.working import Worked
from ..checking.report import Report
from ..checking.verdict import AGREES, SILENT, UNCHECKED, UNREAD, WRONG
from .point import Point


def points_of_written(worked: Worked, checked: Report) -> tuple[Point, ...]:
    """Every point that the words of a written pattern can show; gauge, yarn and size are not told by them."""
    rows = [row for part in checked.parts for row in part.rows]
    wrong = [row.row.label for row in rows if row.state in (WRONG, UNREAD)]
    silent = sum(row.state == SILENT for row in rows)
    agreeing = sum(row.state == AGREES for row in rows)
    open_rows = sum(row.state == UNCHECKED for row in rows)
    return (
        Point("rows add up", "failed" if wrong else "passed", f"{agreeing} of {len(rows)} rows agree with their counts"
              + (f"; wrong or unread: {', '.join(wrong[:6])}" if wrong else "")),
        Point("every row states its count", "look" if silent else "passed", f"{silent} of {len(rows)} rows state none"),
        Point("every row can be checked", "look" if open_rows else "passed", f"{open_rows} rows cannot"),
        Point("one set of terms", "passed", f"{checked.terms} terms: {checked.terms_why}"),
        Point("nothing has to be assumed", "look" if worked.assumed else "passed",
              "; ".join(worked.assumed) or "nothing was"),
        Point("gauge, yarn, hook and size", "look", "the words of a written pattern are not measured; look yourself"),
    )  # fmt: skip
