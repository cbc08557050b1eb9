"""Working a written pattern: every row played over the one below, rows worked alike shared.

What the words leave open (whether a beginning chain counts, whether "st" includes chains, how a sentence is meant) is
settled by trying the readings in the order of usual practice: the first that comes out even and gives the stated count
is taken. A failure stays where it is: a row that cannot be worked but states its count hands on that many stitches.
"""

from __future__ import annotations

from itertools import pairwise

from ...made_late import replace
from ...pattern.tree import Again, Into, Make, Op, RowText, Star, Start, walk
from ...pattern.written.document import Reading, read_written
from ..cloth import carried, foundation_row
from ..cloth.fabric import Fabric, Row, WorkedRow
from ..cloth.faults import MOST_TOTAL, MOST_WORKED_ROWS
from ..cloth.tiles import tiles_of
from ..hands.edges import UNSAID
from ..hands.row_end import LeftOver
from . import (
    growth,
    looking_back,
    not_given,
    numbers_meant,
    readings,
    recovering,
    repeated,
    reporting,
    trying,
    turning,
    unsaid,
)
from .working import Task, Tried, Worked, WorkedPiece, Working


def work_text(text: str, terms: str | None = None, size: int = 0) -> Worked:
    """Read and work a written pattern; of several sizes the one asked for (from 0), the others for their mistakes.

    >>> worked = work_text("Ch 11.\\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 sc)")
    >>> worked.problems, worked.fabric.rows[0].row.made
    ([], 10)
    """
    reading = read_written(text, terms, size=size)
    worked = work_reading(reading, text)
    for other in range(reading.sizes):
        if other != size:
            _add_size(worked, work_reading(read_written(text, terms, size=other), text), other)
    return worked


def _add_size(worked: Worked, other: Worked, size: int) -> None:
    """The mistakes that only another size has."""
    known = {(p.where, p.line) for p in worked.problems}
    name = worked.size_names[size] if size < len(worked.size_names) else str(size + 1)
    worked.problems += [
        replace(p, says=f"size {name}: {p.says}") for p in other.problems if (p.where, p.line) not in known
    ]
    worked.problems.sort(key=lambda p: p.line)


def work_reading(reading: Reading, text: str = "", *, to_first_fault: bool = False) -> Worked:
    """Work what was read; problems of reading come first row by row. `to_first_fault`: no further than the first row
    that does not go."""
    lines = text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
    out = Worked(
        reading.pattern, Fabric("chain", foundation_row.foundation(None, ())[0], ()), list(reading.problems),
        list(reading.notes), prose=tuple(reading.prose), assumed=tuple(reading.assumed), terms_why=reading.terms_why,
        sizes=reading.sizes, size_names=reading.size_names,
    )  # fmt: skip
    pieces: list[WorkedPiece] = []
    proved: list[str] = []
    before: Worker | None = None
    workers: list[Worker] = []
    for part in _pieces(reading):
        part = _on_the_rest(part, workers)
        worker = Worker(part, lines, out, before)
        pieces.append(worker.work(to_first_fault=to_first_fault))
        proved += worker.proved
        before = worker
        workers.append(worker)
    pieces = list(turning.cut_where_done(pieces, reading.prose))
    if pieces:
        out.fabric, out.texts = pieces[0].fabric, list(pieces[0].texts)
    out.pieces, out.proved = tuple(pieces), tuple(proved)
    reporting.passed_over(out, reading.passed, lines)
    reporting.sides_told(out, reading.passed, lines)
    out.problems.sort(key=lambda p: p.line)
    return out


def _pieces(reading: Reading) -> list[Reading]:
    """The pattern cut where a piece begins on a foundation of its own."""
    rows = reading.pattern.rows
    starts = [0, *(i for i, row in enumerate(rows) if i and row.begins is not None)]
    out = []
    for first, end in zip(starts, [*starts[1:], len(rows)], strict=True):
        begins = rows[first].begins if rows else None
        start = reading.pattern.start if first == 0 else begins
        own = tuple(row for row in rows[first:end] if not row.chain_only)
        gone = [i for i in range(first, end) if not rows[i].chain_only]
        part = replace(
            reading, pattern=replace(reading.pattern, start=start, rows=own),
            others={n: reading.others[i] for n, i in enumerate(gone) if i in reading.others},
            bad_rows={n for n, i in enumerate(gone) if i in reading.bad_rows},
            asides={n: reading.asides[i] for n, i in enumerate(gone) if i in reading.asides},
            guesses={n: reading.guesses[i] for n, i in enumerate(gone) if i in reading.guesses},
        )  # fmt: skip
        out.append(part)
    return out


def _on_the_rest(part: Reading, workers: list[Worker]) -> Reading:
    """A second side on what the sides before it have left of a row: over so many stitches."""
    start = part.pattern.start
    if start is None or start.how != "rest":
        return part
    base, used = None, start.count
    for worker in workers:
        on = worker.start
        if on is not None and on.how == "over" and on.row == start.row and worker.rows:
            used += worker.rows[0].row.takes
        for at, row in enumerate(worker.rows):
            if row.number == start.row:
                base = row.row
                used = start.count + (worker.rows[at + 1].row.takes if at + 1 < len(worker.rows) else 0)
    if start.row == 0:
        base, used = _left_open(workers, start.count)
    left = base.made - used if base is not None else 0
    over = Start("over", left, "st", None, start.line, start.text, row=start.row) if left > 0 else None
    return replace(part, pattern=replace(part.pattern, start=over))


def _left_open(workers: list[Worker], skipped: int) -> tuple[Row | None, int]:
    """The row of which the one behind has left most, more than are `skipped`, and how many of its stitches are
    taken."""
    pairs = [(one.row, after.row) for worker in workers for one, after in pairwise(worker.rows)]
    open_rows = [(below, above) for below, above in pairs if below.made - above.takes > skipped]
    if not open_rows:
        return None, 0
    below, above = max(open_rows, key=lambda pair: pair[0].made - pair[1].takes)
    seconds = (w for w in workers if w.rows and w.start is not None and w.start.how == "over" and not w.start.row)
    others = sum(w.rows[0].row.takes for w in seconds)
    return below, skipped + above.takes + others


class Worker(Working):
    """Works one piece row by row."""

    def work(self, *, to_first_fault: bool = False) -> WorkedPiece:
        """Every row in turn, then the sides, which the whole settles."""
        self.looks_back = not to_first_fault
        if self.start is None and self.pattern.rows:
            not_given.begin(self)
        elif self.start is not None and self.start.how == "tube":
            not_given.round_tube(self, self.before_rows)
        for text, number, ops, index in repeated.expanded(self):
            if self._limited(text) or (to_first_fault and self.problems):
                break
            if text.grows > 0 and self.rows and tiles_of(self.rows[-1].row):
                ops = growth.more_blocks(ops)
            self._work_row(text, number, self.canonical.setdefault(ops, ops), index)
        turning.sides(self)
        how = self.start.how if self.start else "chain"
        fabric = Fabric(how, self.foundation, tuple(self.rows), self.chains, self.risen, self.pattern.yarns)
        name, make = (self.pattern.rows[0].part, self.pattern.rows[0].make) if self.pattern.rows else ("", 1)
        read_as, proved = tuple(self.read_as), tuple(self.proved)
        return WorkedPiece(name, make, fabric, tuple(self.texts), read_as, proved, self.unchecked)

    def _work_row(self, text: RowText, number: int, ops: tuple[Op, ...], index: int) -> None:
        turned = turning.turned(self, text, ops)
        task = Task(text, number, repeated.row_label(text, number), ops, turning.direction(self, text, turned))
        unread = index in self.bad
        turning.take_colours(self, ops, text, number)
        turning.changes_unnamed(self, text, task.label)
        others = self.others.get(index, ())
        if others and ops != text.ops:
            others = ()
        tried = unsaid.settle(self, task, self._on_spare(task, trying.best(self, task, others)))
        if (ended := numbers_meant.at_its_end(self, task, tried)) is not task:
            task = ended
            tried = unsaid.settle(self, task, trying.best(self, task, others))
        if not unread and self.looks_back and not unsaid.is_unsaid(tried):
            tried = looking_back.told_ahead(self, task, tried, self.pattern.rows[index + 1 :])
            tried = looking_back.settle(self, task, tried, others)
            tried = looking_back.blame(self, task, tried, others)
            tried = looking_back.one_number(self, task, tried, others)
        if not unread:
            tried = recovering.settle(self, task, tried)
            tried = recovering.gone_round(self, task, tried) if self.looks_back else tried
        if index in self.asides and not unread:
            told = not self.asides[index]
            unread = bool(tried.faults) if told else not reporting.proved_without(self, task, tried, self.asides[index])
        guesses = self.guesses.get(index, ())
        open_to_guess = ops == text.ops and (unread or (bool(guesses) and bool(tried.faults) and not self.broken))
        above = self.pattern.rows[index + 1 :]
        guessed = recovering.unread_row(self, task, tried, guesses, above) if open_to_guess else None
        if guessed is not None and not unread:
            reporting.report(self, task, tried)
        if guessed is not None:
            task, tried = guessed
        self.tasks.append((task, others))
        if self.unsure and tried.faults:
            self.broken = True
        elif task.stated and not tried.faults:
            self.unsure = False
        self.broken = self.broken or (tried.stuck is not None and tried.stuck.kind == "doubtful")
        doubtful = self.broken or self._repeats_doubtful(text) or self._takes_what_is_left(ops)
        self.broken = doubtful
        if guessed is not None:
            doubtful = True
        elif unread:
            tried = replace(tried, stuck=tried.stuck or trying.UNREAD)
        else:
            reporting.report(self, task, tried)
        self.against_usual = None if unread or guessed is not None or self.broken else tried.usual
        self._keep(task, tried, turned, doubtful=doubtful)
        if tried.otherwise and not tried.faults:
            self._told_by(text, number, tried.otherwise)
        if guessed is not None:
            self.not_worked.add(len(self.rows) - 1)
            self.broken = True
            self.doubtful.add(number)
            self._told_by(text, number, task.ops)
        turning.afterwards(self, text, ops)

    def _told_by(self, text: RowText, number: int, ops: tuple[Op, ...]) -> None:
        """Rows told by this one are told by the words that it was worked by."""
        if number in self.by_number:
            self.by_number[number] = self.by_part.setdefault(text.part, {})[number] = (ops, self.by_number[number][1])

    def _repeats_doubtful(self, text: RowText) -> bool:
        """Whether a row is told by rows of which one could not be read or worked."""
        again = next((op for op in text.ops if isinstance(op, Again) and op.first), None)
        if again is None:
            return False
        first, last = (again.first, again.last) if again.first > 0 else (text.first + again.first, text.first - 1)
        return any(n in self.doubtful for n in again.listed or range(first, last + 1))

    def _takes_what_is_left(self, ops: tuple[Op, ...]) -> bool:
        """Whether a row goes into all that rows below left unworked, of which one could not be read or worked."""
        makes = (op for op in walk(ops) if isinstance(op, Make | Into))
        return bool(self.doubtful) and any(place.which == "unworked" for op in makes for place in op.places)

    def _on_spare(self, task: Task, tried: Tried) -> Tried:
        """After a row whose count is off: whether this one comes out right over the count that was stated."""
        spare, self.spare = self.spare, None
        if spare is None or not tried.faults or not self.rows:
            return tried
        if self.texts[-1] is task.text and tried.stuck is None and self.rows[-1].row.made == tried.row.made:
            self.spare = spare
            return replace(tried, off=())
        kept = self.rows[-1]
        self.rows[-1] = replace(kept, row=trying.shared(self, spare))
        again = trying.best(self, task, ())
        if not again.faults:
            self.unsure = False
            return again
        self.rows[-1] = kept
        self.broken = True
        return tried

    def _keep(self, task: Task, tried: Tried, turned: bool, *, doubtful: bool) -> None:
        text = task.text
        row, proved = tried.row, "yes"
        self.on_carried = False
        if tried.stuck is not None and tried.stuck.kind == UNSAID and task.stated:
            row = carried.row_of(task.stated, self.specials, task.ops) or tried.row
            proved, self.broken, self.on_carried = "stated", False, True
        elif tried.stuck is not None or (doubtful and tried.faults):
            stands = carried.row_of(task.stated, self.specials, task.ops)
            self.not_worked.add(len(self.rows))
            grew = isinstance(tried.stuck, LeftOver) and tried.row.made >= self.base().made
            if stands is None and not grew:
                (self.whole if tried.whole else self.torn).add(len(self.rows))
            row, proved = stands or tried.row, "no"
            self.broken = True
            self.doubtful.add(task.number)
        elif doubtful:
            proved = "stated" if task.stated else "no"
            self.broken = not task.stated and not self._rests_on_count()
        elif tried.off:
            self.spare = carried.row_of(task.stated, self.specials, task.ops)
            self.unsure = True
            proved = "no"
            self.doubtful.add(task.number)
        if proved == "yes" and task.stated and not tried.off and tried.choice.chain is not None:
            said = readings.opening_of(task.ops)
            if said is not None:
                self.settled.setdefault(said, tried.choice.chain)
        if proved == "yes" and tried.choice.chain == () and readings.joined_in_first(task.ops):
            said = readings.opening_of(task.ops)
            if said is not None:
                self.settled.setdefault(said, ())
        if proved == "yes" and task.stated and not tried.off:
            told = (op for op in walk(task.ops) if isinstance(op, Star) and op.more and not op.said_more)
            self.rep_in_all |= {tried.choice.in_all for op in told if reporting.says_rep(self, op)}
        if not self.rows and self.start and self.start.how == "chain" and readings.opened(text.ops) is not None:
            self.risen = sum(s.chains for s in tried.row.stitches if not s.feet and s.role in ("turning", "start"))
        self.directions.append(task.direction)
        self.texts.append(text)
        self.proved.append(proved)
        self.read_as.append(tried.otherwise or task.ops)
        self.rows.append(
            WorkedRow(
                task.label,
                task.number,
                row,
                text.side,
                "",
                turned,
                text.is_round,
                colour=self.colour,
                line=text.line,
                words=text.text,
                joins=turning.joins_yarn(self, task.ops),
                cut=turning.cuts_yarn(task.ops),
            )
        )

    def _rests_on_count(self) -> bool:
        """Whether the row below was handed on by its stated count, and this one came out even over it."""
        return bool(self.texts) and bool(self.texts[-1].stated)

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


