"""The report on a checked pattern: its rows as worked, its problems, its notes; in words and as JSON."""

from __future__ import annotations

from dataclasses import dataclass, field

from ..errors import Note, Problem
from ..model.grid import Fabric


@dataclass(frozen=True, slots=True)
class Report:
    """What checking a pattern found: the rows as worked, the problems, and notes on what is not wrong."""

    file: str
    problems: tuple[Problem, ...] = ()
    notes: tuple[Note, ...] = ()
    fabric: Fabric | None = None
    facts: dict[str, object] = field(default_factory=dict)
    says: tuple[str, ...] = ()

    def as_json(self) -> dict[str, object]:
        """The report as `check --json` prints it."""
        rows = self.fabric.rows if self.fabric else ()
        chained = self.fabric is not None and self.fabric.start in ("chain", "ring")
        return {
            "file": self.file,
            "ok": not self.problems,
            "foundation": self.fabric.chains if self.fabric and chained else None,
            "multiple": None,
            "rows": [
                {
                    "label": r.label, "side": r.side, "direction": r.direction, "stitches": r.row.made,
                    "takes": r.row.takes, "chains": r.row.chains, "kinds": r.row.kinds(),
                }
                for r in rows
            ],
            "problems": [problem.as_json() for problem in self.problems],
            "notes": [{"where": n.where, "says": n.says, "line": n.line} for n in self.notes],
            **self.facts,
        }  # fmt: skip

    def lines(self) -> tuple[str, ...]:
        """The report in words, without the problems."""
        count = len(self.problems)
        found = "no problem found" if not count else "1 problem" if count == 1 else f"{count} problems"
        return (
            f"{self.file}: {found}",
            *self.says,
            *(f"Note: {note.where}: {note.says}" for note in self.notes),
        )
