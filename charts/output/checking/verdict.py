"""What checking found of each row of a written pattern, and of all of them in one sentence."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from ...errors import Problem
from ...made_late import dataclass
from ...model.cloth.fabric import WorkedRow
from ...model.cloth.tiles import counted_in_blocks, rows_of_tiles
from ...model.rows.working import Task, WorkedPiece
from ...pattern.tree import Op, RowText

AGREES, SILENT, FOLLOWS = "agrees", "states none", "agrees after doubt"
WRONG, UNREAD, UNCHECKED = "wrong", "unread", "unchecked"
#: What a row can be, each with its clause for one row and for several; the order is that of the sentence.
STATES: dict[str, tuple[str, str]] = {
    AGREES: ("agrees with the count stated", "agree with the counts stated"),
    SILENT: ("states none", "state none"),
    FOLLOWS: ("agrees, but comes after a row in doubt", "agree, but come after a row in doubt"),
    WRONG: ("is wrong", "are wrong"),
    UNREAD: ("cannot be read", "cannot be read"),
    UNCHECKED: ("is not checked", "are not checked"),
}
#: The states whose rows are named in the sentence, and how many names it gives.
_NAMED = (FOLLOWS, WRONG, UNREAD, UNCHECKED)
_MOST_NAMED = 4


@dataclass(frozen=True, slots=True)
class CheckedRow:
    """A row as worked, the text it comes from, its words as read, whether it was proved, its state (`STATES`), the
    heading it stands under, and where it is worked from corner to corner its blocks, with the stitches in them."""

    row: WorkedRow
    text: RowText
    ops: tuple[Op, ...]
    proved: str
    state: str
    under: str
    blocks: tuple[int, int] = (0, 0)


@dataclass(frozen=True, slots=True)
class Part:
    """The rows under one heading, the `number`th; `begins` is how they begin, "" where they go on from the part
    before, `unchecked` why some of them are not checked though nothing is wrong with them."""

    number: int
    name: str
    make: int
    begins: str
    chains: int | None
    rows: tuple[CheckedRow, ...]
    unchecked: str = ""

    @property
    def title(self) -> str:
        """ "Arm (make 2)"; "Part 2" where it has no heading."""
        return f"{self.rows[0].under} (make {self.make})" if self.make > 1 else self.rows[0].under


def parts_of(pieces: Sequence[WorkedPiece], problems: Sequence[Problem], sizes: Sequence[str] = ()) -> tuple[Part, ...]:
    """The rows of all pieces under their headings. What is wrong in another of the sizes only is no fault here."""
    others = tuple(f"size {name}: " for name in sizes)
    own: dict[str, list[Problem]] = {}
    for problem in problems:
        if not (others and problem.says.startswith(others)):
            own.setdefault(problem.where, []).append(problem)
    lines = sorted({row.line for piece in pieces for row in piece.fabric.rows})
    ends = dict(zip(lines, [*lines[1:], float("inf")], strict=True)) if lines else {}
    out: list[Part] = []
    for piece in pieces:
        rows: list[CheckedRow] = []
        began, tiles = len(out), rows_of_tiles(piece.fabric)
        told = zip(piece.fabric.rows, piece.texts, piece.ops, piece.proved, strict=True)
        for at, (row, text, ops, proved) in enumerate(told):
            if rows and rows[-1].text.part != text.part:
                out.append(_part(piece, rows, len(out) + 1, first=len(out) == began))
                rows = []
            state = _state(row, text, proved, own, ends[row.line])
            blocks = counted_in_blocks(tiles[at]) if at < len(tiles) else (0, 0)
            rows.append(CheckedRow(row, text, ops, proved, state, _under(text.part, out), blocks))
        if rows:
            out.append(_part(piece, rows, len(out) + 1, first=len(out) == began))
    return tuple(out)


def _under(name: str, before: Sequence[Part]) -> str:
    """What the rows of a heading are called by: one that comes again, and one without a name, by its number."""
    if not name:
        return f"Part {len(before) + 1}"
    again = sum(part.name == name for part in before)
    return f"{name} (part {again + 1})" if again else name


def _part(piece: WorkedPiece, rows: list[CheckedRow], number: int, *, first: bool) -> Part:
    how = piece.fabric.start if first else ""
    text = rows[0].text
    chains = piece.fabric.chains if how in ("chain", "ring") else None
    why = piece.unchecked if any(row.state == UNCHECKED for row in rows) else ""
    return Part(number, text.part, text.make, how, chains, tuple(rows), why)


def _state(row: WorkedRow, text: RowText, proved: str, problems: dict[str, list[Problem]], end: float) -> str:
    for problem in (*problems.get(row.label, ()), *problems.get(text.label, ())):
        if row.line <= problem.line < end:
            return WRONG if problem.kind == "impossible" else UNREAD
    if proved == "yes":
        return AGREES if Task(text, row.number, row.label, (), 0).stated else SILENT
    return FOLLOWS if proved == "stated" else UNCHECKED


def counts(rows: Sequence[CheckedRow]) -> dict[str, int]:
    """How many rows there are, and how many of each state."""
    found = Counter(row.state for row in rows)
    return {"rows": len(rows), **{state.replace(" ", "_"): found[state] for state in STATES}}


def sentence(rows: Sequence[CheckedRow], *, with_part: bool = False) -> str:
    """ "14 rows: 11 agree with the counts stated, 3 state none"."""
    found = {state: [row for row in rows if row.state == state] for state in STATES}
    head = counted(rows)
    if len(rows) > 1 and len(found[AGREES]) == len(rows):
        return f"{head}: all agree with the counts stated"
    if rows and len(found[SILENT]) == len(rows):
        return f"{head}: {'it states no count' if len(rows) == 1 else 'none states a count'} to compare with"
    clauses = []
    for state, some in found.items():
        if some:
            one, several = STATES[state]
            clause = f"{len(some)} {one if len(some) == 1 else several}"
            clauses.append(f"{clause} ({names(some, with_part=with_part)})" if state in _NAMED else clause)
    return f"{head}: {', '.join(clauses)}" if len(rows) > 1 else f"{head}: {STATES[rows[0].state][0]}"


def counted(rows: Sequence[CheckedRow]) -> str:
    """ "1 row", "14 rounds", "5 rows and rounds"."""
    rounds = sum(row.row.is_round for row in rows)
    one = "round" if rounds == len(rows) else "row"
    if len(rows) == 1:
        return f"1 {one}"
    return f"{len(rows):,} {'rows and rounds' if 0 < rounds < len(rows) else one + 's'}"


def names(rows: Sequence[CheckedRow], *, with_part: bool = False) -> str:
    """ "Row 4, Rows 9-12"; with the heading before each where there are several."""
    runs: list[list[CheckedRow]] = []
    for row in rows:
        last = runs[-1][-1] if runs else None
        if last is not None and _word(row) and _word(row) == _word(last) and row.row.number == last.row.number + 1:
            runs[-1].append(row)
        else:
            runs.append([row])
    said = [(f"{run[0].under} " if with_part else "") + run_label(run) for run in runs]
    more = len(said) - _MOST_NAMED
    return ", ".join(said[:_MOST_NAMED]) + (f" and {more} more" if more > 0 else "")


def run_label(run: Sequence[CheckedRow]) -> str:
    """ "Row 4", "Rows 9-12"."""
    first, last = run[0].row, run[-1].row
    return first.label if len(run) == 1 else f"{_word(run[0])}s {first.number}-{last.number}"


def _word(row: CheckedRow) -> str:
    """ "Row" of "Row 4"; "" of a row that is not called by its number."""
    word, _, number = row.row.label.rpartition(" ")
    return word if number == str(row.row.number) else ""


def runs_alike(rows: Sequence[CheckedRow]) -> list[list[CheckedRow]]:
    """Rows of one line of the text that were read alike and make as many, together."""
    out: list[list[CheckedRow]] = []
    for row in rows:
        last = out[-1][-1] if out else None
        alike = last is not None and _word(row) and last.text is row.text and last.state == row.state
        if alike and last is not None and last.ops == row.ops and _made(last) == _made(row):
            out[-1].append(row)
        else:
            out.append([row])
    return out


def _made(row: CheckedRow) -> tuple[int, int]:
    return row.row.row.made, row.row.row.chains
