"""The report on a checked pattern: its rows as worked, its problems, its notes; in words and as JSON."""

from __future__ import annotations

from dataclasses import dataclass, field

from ..errors import Note, Problem
from ..model.grid import Fabric, WorkedRow
from ..model.work import WorkedPiece
from ..pattern.writer import write_ops


@dataclass(frozen=True, slots=True)
class Report:
    """What checking a pattern found: the rows as worked, the problems, and notes on what is not wrong."""

    file: str
    problems: tuple[Problem, ...] = ()
    notes: tuple[Note, ...] = ()
    fabric: Fabric | None = None
    facts: dict[str, object] = field(default_factory=dict)
    says: tuple[str, ...] = ()
    pieces: tuple[WorkedPiece, ...] = ()
    terms: str = ""
    assumed: tuple[str, ...] = ()
    prose: tuple[tuple[int, str], ...] = ()
    sizes: tuple[str, ...] = ()

    def as_json(self) -> dict[str, object]:
        """The report as `check --json` prints it."""
        chained = self.fabric is not None and self.fabric.start in ("chain", "ring")
        return {
            "file": self.file,
            "ok": not self.problems,
            "foundation": self.fabric.chains if self.fabric and chained else None,
            "multiple": None,
            "terms": self.terms or None,
            "assumed": list(self.assumed),
            "sizes": list(self.sizes),
            "rows": self._rows(),
            "problems": [problem.as_json() for problem in self.problems],
            "notes": [{"where": n.where, "says": n.says, "line": n.line, "column": n.column} for n in self.notes],
            **self.facts,
        }  # fmt: skip

    def _rows(self) -> list[dict[str, object]]:
        """Every row of every piece, as worked."""
        if not self.pieces:
            return [_row(r, None, "yes", "") for r in (self.fabric.rows if self.fabric else ())]
        out = []
        for piece in self.pieces:
            for row, text, ops, proved in zip(piece.fabric.rows, piece.texts, piece.ops, piece.proved, strict=True):
                out.append(_row(row, text.part or None, proved, write_ops(ops, self.terms or "US")))
        return out

    def lines(self) -> tuple[str, ...]:
        """The report in words, without the problems."""
        count = len(self.problems)
        found = "no problem found" if not count else "1 problem" if count == 1 else f"{count} problems"
        return (
            f"{self.file}: {found}",
            *self.says,
            *(f"Note: {note.where}: {note.says}" for note in self.notes),
        )


def _row(row: WorkedRow, part: str | None, proved: str, read_as: str) -> dict[str, object]:
    return {
        "label": row.label, "part": part, "proved": proved, "read_as": read_as, "side": row.side,
        "direction": row.direction, "stitches": row.row.made, "takes": row.row.takes, "chains": row.row.chains,
        "kinds": row.row.kinds(),
    }  # fmt: skip
