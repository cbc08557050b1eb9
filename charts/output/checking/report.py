"""The report on a checked pattern: its rows as worked, its problems, its notes; in words and as JSON."""

from __future__ import annotations

from collections import Counter
from dataclasses import field

from ...errors import Note, Problem, wrapped
from ...made_late import dataclass
from ...model.cloth.fabric import Fabric, Row, WorkedRow
from ...model.cloth.stated import as_counted
from ...model.rows.working import WorkedPiece
from ...pattern.writer import write_ops
from . import told
from .verdict import CheckedRow, Part, counts, parts_of


@dataclass(frozen=True, slots=True)
class Report:
    """What checking a pattern found: the rows as worked, the problems, and notes on what is not wrong.

    `pieces`, `terms_why`, `assumed`, `prose`, `sizes` (the names, where there are several), `size` (the one read) and
    `own` (the stitches the text explains) are those of a written pattern.
    """

    file: str
    problems: tuple[Problem, ...] = ()
    notes: tuple[Note, ...] = ()
    fabric: Fabric | None = None
    facts: dict[str, object] = field(default_factory=dict)
    says: tuple[str, ...] = ()
    pieces: tuple[WorkedPiece, ...] = ()
    terms: str = ""
    terms_why: str = ""
    assumed: tuple[str, ...] = ()
    prose: tuple[tuple[int, str], ...] = ()
    sizes: tuple[str, ...] = ()
    size: str = ""
    own: tuple[str, ...] = ()

    @property
    def parts(self) -> tuple[Part, ...]:
        """The rows of a written pattern under their headings, each with its verdict."""
        return parts_of(self.pieces, self.problems, self.sizes)

    def as_json(self) -> dict[str, object]:
        """The report as `check --json` prints it."""
        chained = self.fabric is not None and self.fabric.start in ("chain", "ring")
        parts = self.parts
        return {
            "file": self.file,
            "ok": not self.problems,
            "foundation": self.fabric.chains if self.fabric and chained else None,
            "multiple": None,
            "terms": self.terms or None,
            "terms_why": self.terms_why or None,
            "assumed": list(self.assumed),
            "sizes": list(self.sizes),
            "size_read": self.size or None,
            "verdict": counts([row for part in parts for row in part.rows]) if self.pieces else None,
            "pieces": [_part(part) for part in parts],
            "rows": self._rows(parts),
            "problems": [problem.as_json() for problem in self.problems],
            "notes": [{"where": n.where, "says": n.says, "line": n.line, "column": n.column} for n in self.notes],
            "prose": [{"line": line, "text": text} for line, text in self.prose],
            **self.facts,
        }  # fmt: skip

    def _rows(self, parts: tuple[Part, ...]) -> list[dict[str, object]]:
        """Every row of every piece, as worked."""
        if not self.pieces:
            return [_row(r, None, "yes", "", None) for r in (self.fabric.rows if self.fabric else ())]
        return [_checked(row, self.terms or "US") for part in parts for row in part.rows]

    def lines(self, *, explain: bool = False, prose: bool = False, width: int = 0) -> tuple[str, ...]:
        """The report in words, without the problems, wrapped to `width` where one is given; `explain` tells how each
        row was read, `prose` which lines were taken as talk."""
        parts = self.parts
        found = told.found_line(len(self.problems), parts)
        out = [*told.verdict_lines(parts)]
        if parts and self.terms:
            out.append(f"{self.terms} terms: {self.terms_why}")
        out += [told.size_line(self.sizes, self.size)] if self.sizes and self.size else []
        out += [f"Assumed: {text}" for text in self.assumed]
        out += self.says
        out += [] if explain else told.row_lines(parts)
        out += [f"Note: {note.where}: {note.says}" for note in self.notes]
        out += [told.prose_hint(self.prose)] if self.prose and not prose else []
        told_lines = [line for text in out for line in wrapped(text, width)]
        if explain and parts:
            told_lines += told.explained_lines(parts, self.terms or "US", self.own, width)
        elif explain and self.fabric is not None:
            told_lines += wrapped(f"Its rows in words: hookfold instructions {self.file}", width)
        if prose and (self.prose or parts):
            told_lines += told.prose_lines(self.prose, width)
        return (f"{self.file}: {found}", *told_lines)


def _part(part: Part) -> dict[str, object]:
    return {
        "name": part.name or None, "make": part.make, "begins": part.begins or None, "foundation": part.chains,
        "unchecked_why": part.unchecked or None, **counts(part.rows),
    }  # fmt: skip


def _checked(row: CheckedRow, terms: str) -> dict[str, object]:
    words = write_ops(row.ops, terms, is_round=row.row.is_round)
    out = _row(row.row, row.text.part or None, row.proved, words, row.state)
    return {**out, "stitches": as_counted(row.row.row, row.text.stated)}


def _row(row: WorkedRow, part: str | None, proved: str, read_as: str, verdict: str | None) -> dict[str, object]:
    return {
        "label": row.label, "part": part, "line": row.line or None, "proved": proved, "verdict": verdict,
        "read_as": read_as, "side": row.side, "direction": row.direction, "stitches": as_counted(row.row, ()),
        "takes": row.row.takes, "chains": row.row.chains, "kinds": _kinds(row.row),
    }  # fmt: skip


def _kinds(row: Row) -> dict[str, int]:
    """How many of each kind a row holds, with the stitch that closes it."""
    return dict(Counter(row.kinds()) + Counter([row.closing] if row.closing else []))
