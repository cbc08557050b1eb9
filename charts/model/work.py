"""Working a written pattern: every row played over the one below, rows worked alike shared.

What the words leave open (whether a beginning chain counts, whether "st" includes chains) is settled by trying the
readings in the order of usual practice: the first that comes out even and gives the stated count is taken.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from ..errors import Note, Problem
from ..pattern.document import Reading, read_written
from ..pattern.tree import Op, RowText, Special, WrittenPattern
from . import facing, foundation_row, readings, repeated, reporting, striping, trying
from .grid import Fabric, Row, WorkedRow
from .stuck import MOST_TOTAL, MOST_WORKED_ROWS, Steps
from .trying import Task, Tried


@dataclass(slots=True)
class Worked:
    """A pattern worked: the fabric as far as it could be made, every problem, every note."""

    pattern: WrittenPattern
    fabric: Fabric
    problems: list[Problem] = field(default_factory=list)
    notes: list[Note] = field(default_factory=list)
    texts: list[RowText] = field(default_factory=list)


def work_text(text: str, terms: str | None = None) -> Worked:
    """Read and work a written pattern.

    >>> worked = work_text("Ch 11.\\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 sc)")
    >>> worked.problems, worked.fabric.rows[0].row.made
    ([], 10)
    """
    reading = read_written(text, terms)
    return work_reading(reading, text)


def work_reading(reading: Reading, text: str = "") -> Worked:
    """Work what was read; problems of reading come first row by row."""
    worker = Worker(reading, text.replace("\r\n", "\n").replace("\r", "\n").split("\n"))
    return worker.work()


class Worker:
    """Works a pattern row by row. What has been worked so far is kept here; the modules beside it work on it."""

    def __init__(self, reading: Reading, lines: list[str]) -> None:
        self.pattern, self.lines = reading.pattern, lines
        self.problems, self.notes, self.bad = list(reading.problems), list(reading.notes), set(reading.bad_rows)
        self.rows: list[WorkedRow] = []
        self.texts: list[RowText] = []
        self.directions: list[int] = []
        self.by_number: dict[int, tuple[tuple[Op, ...], int]] = {}
        self.specials = {s.abbreviation: s for s in self.pattern.specials}
        self.aliases = foundation_row.aliases(self.pattern.specials)
        self.throughout: dict[int, tuple[str, ...]] = dict(self.pattern.beginnings)
        self.explained: dict[int, set[tuple[str, ...]]] = {}
        self.foundation, self.chains = foundation_row.foundation(
            self.pattern.start, self.pattern.rows[0].ops if self.pattern.rows else ()
        )
        self.risen = 0
        self.cache: dict[tuple[object, ...], Tried] = {}
        self.broken = False
        self.alike: dict[tuple[object, ...], Row] = {}
        self.reported: set[tuple[int, str]] = set()
        self.turn_next = True
        self.said_turn = False
        self.steps = Steps()
        self.canonical: dict[tuple[Op, ...], tuple[Op, ...]] = {}
        self.made = 0
        self.colour = self.next_colour = self.pattern.start.colour if self.pattern.start else ""

    def work(self) -> Worked:
        """Every row in turn, then the sides, which the whole settles."""
        self._need_start()
        for text, number, ops, _ in repeated.expanded(self):
            if self._limited(text):
                break
            self._work_row(text, number, self.canonical.setdefault(ops, ops))
        facing.sides(self)
        how = self.pattern.start.how if self.pattern.start else "chain"
        fabric = Fabric(how, self.foundation, tuple(self.rows), self.chains, self.risen)
        self.problems.sort(key=lambda p: p.line)
        return Worked(self.pattern, fabric, self.problems, self.notes, self.texts)

    def _need_start(self) -> None:
        if self.pattern.start is not None or not self.pattern.rows:
            return
        self.broken = True
        if not any(p.where == "Foundation" for p in self.problems):
            reporting.problem(
                self, "missing", "Foundation", "the pattern does not say what it begins with",
                'begin with "Ch 26.", a ring, or "Over 20 sts."', self.pattern.rows[0].line,
            )  # fmt: skip

    def _work_row(self, text: RowText, number: int, ops: tuple[Op, ...]) -> None:
        turned = facing.turned(self, text, ops)
        task = Task(text, number, repeated.row_label(text, number), ops, facing.direction(self, text, turned))
        self.broken = self.broken or not self.bad.isdisjoint((task.label, text.label))
        striping.take_colours(self, ops, text, number)
        tried = trying.best(self, task)
        self._keep(task, tried, turned)
        reporting.report(self, task, tried)
        facing.afterwards(self, text, ops)

    def _keep(self, task: Task, tried: Tried, turned: bool) -> None:
        text = task.text
        if (
            not self.rows
            and self.pattern.start
            and self.pattern.start.how == "chain"
            and readings.opened(text.ops) is not None
        ):
            self.risen = sum(s.chains for s in tried.row.stitches if not s.feet and s.role in ("turning", "start"))
        self.directions.append(task.direction)
        self.texts.append(text)
        self.rows.append(
            WorkedRow(
                task.label,
                task.number,
                tried.row,
                text.side,
                "",
                turned,
                text.is_round,
                colour=self.colour,
                line=text.line,
                words=text.text,
            )
        )

    def _limited(self, text: RowText) -> bool:
        """Whether the pattern has grown larger than this tool works; says so once."""
        says = ""
        if len(self.rows) >= MOST_WORKED_ROWS:
            says = f"more than {MOST_WORKED_ROWS:,} rows"
        elif self.made > MOST_TOTAL:
            says = f"the rows before make more than {MOST_TOTAL:,} stitches, all different"
        if says:
            reporting.problem(self, "limit", text.label, says, "split the pattern into parts", text.line)
        return bool(says)


__all__ = ["Special", "Worked", "work_reading", "work_text"]
