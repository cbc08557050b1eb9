"""Working a written pattern: every row played over the one below, rows worked alike shared.

What the words leave open (whether a beginning chain counts, whether "st" includes chains) is settled by trying the
readings in the order of usual practice: the first that comes out even and gives the stated count is taken.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace

from ..errors import Note, Problem
from ..pattern.document import Reading, read_written
from ..pattern.lexicon import height_of
from ..pattern.tree import (
    Act,
    Again,
    Chain,
    Into,
    Make,
    Op,
    Place,
    RowRef,
    RowText,
    Special,
    Star,
    Start,
    Times,
    WrittenPattern,
    walk,
)
from . import row_end
from .grid import Fabric, Row, Stitch, WorkedRow
from .ground import Ground, slots_of
from .play import Player
from .site import Choice, Site
from .stated import differs
from .stuck import Steps, Stuck

_TURNING = {"sc": 1, "hdc": 2, "dc": 3, "tr": 4, "dtr": 5, "trtr": 6}
MOST_WORKED_ROWS = 20_000


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
    worker = _Worker(reading, text.replace("\r\n", "\n").replace("\r", "\n").split("\n"))
    return worker.work()


@dataclass(frozen=True, slots=True)
class _Tried:
    """One reading of a row, played."""

    row: Row
    named: list[str]
    stuck: Stuck | None
    choice: Choice
    off: tuple[tuple[int, int], ...] = ()

    @property
    def faults(self) -> int:
        return (100 if self.stuck else 0) + len(self.off)


class _Worker:
    def __init__(self, reading: Reading, lines: list[str]) -> None:
        self.pattern, self.lines = reading.pattern, lines
        self.problems, self.notes, self.bad = list(reading.problems), list(reading.notes), set(reading.bad_rows)
        self.rows: list[WorkedRow] = []
        self.texts: list[RowText] = []
        self.directions: list[int] = []
        self.by_number: dict[int, tuple[tuple[Op, ...], int]] = {}
        self.specials = {s.abbreviation: s for s in self.pattern.specials}
        self.aliases = _aliases(self.pattern.specials)
        self.throughout: dict[int, tuple[str, ...]] = {}
        self.foundation, self.chains = _foundation(self.pattern.start)
        self.risen = 0
        self.cache: dict[tuple[object, ...], _Tried] = {}
        self.grounds: dict[tuple[int, bool], tuple[Row, tuple[object, ...]]] = {}
        self.broken = False
        self.alike: dict[tuple[object, ...], Row] = {}
        self.reported: set[tuple[int, str]] = set()
        self.turn_next = True
        self.colour = self.next_colour = self.pattern.start.colour if self.pattern.start else ""

    def work(self) -> Worked:
        if self.pattern.start is None and self.pattern.rows:
            self.broken = True
            self._problem("missing", "Foundation", "the pattern does not say what it begins with", 'begin with "Ch 26.", a ring, or "Over 20 sts."', self.pattern.rows[0].line)
        for text, number, ops, source in self._expanded():
            if len(self.rows) >= MOST_WORKED_ROWS:
                self._problem("limit", text.label, f"more than {MOST_WORKED_ROWS:,} rows", "split the pattern into parts", text.line)
                break
            self._work_row(text, number, ops, source)
        self._sides()
        fabric = Fabric(self.pattern.start.how if self.pattern.start else "chain", self.foundation, tuple(self.rows), self.chains, self.risen)
        self.problems.sort(key=lambda p: p.line)
        return Worked(self.pattern, fabric, self.problems, self.notes, self.texts)

    # -- rows one by one ------------------------------------------------------------------------------------------

    def _expanded(self) -> Iterator[tuple[RowText, int, tuple[Op, ...], int]]:
        """Every row with its own number, repeated rows by the words of the row they repeat."""
        for text in self.pattern.rows:
            total = text.last - text.first + 1 if text.last >= text.first > 0 else 1
            if total > MOST_WORKED_ROWS:
                self._problem("limit", text.label, f"{total:,} rows; this tool works {MOST_WORKED_ROWS:,}", "split the pattern into parts", text.line)
                total = 1
            again = next((op for op in text.ops if isinstance(op, Again) and op.first), None)
            if again is not None and again.last >= again.first > 0 and text.first and total == 1 and again.last > again.first:
                total = 1
            for n in range(total):
                number = text.first + n if text.first else 0
                ops, source = self._ops_of(text, number, n, again)
                if number:
                    self.by_number[number] = (ops, source)
                yield text, number, ops, source

    def _ops_of(self, text: RowText, number: int, n: int, again: Again | None) -> tuple[tuple[Op, ...], int]:
        if again is None:
            return text.ops, number
        if again.grow:
            base = self.by_number.get(number - 1, ((), 0))[0]
            return _grown(base, again.grow), number
        first, last = (again.first, again.last) if again.first > 0 else (number + again.first if n == 0 else text.first + again.first, text.first + again.last)
        span = max(last - first + 1, 1)
        source = first + n % span
        found = self.by_number.get(source)
        if found is None:
            self._stuck_once(text, Stuck(f"Row {source} is not there to repeat", "name a row that stands before this one", again.at))
            return (), number
        ops, origin = found
        extra = tuple(op for op in text.ops if op is not again)
        return self._again_ops(ops, origin or source, number, extra), origin or source

    def _again_ops(self, ops: tuple[Op, ...], origin: int, number: int, extra: tuple[Op, ...]) -> tuple[Op, ...]:
        """The words of the row repeated, with other rows they name moved along, and with what this row adds."""
        if any(_names_row(op) for op in walk(ops)):
            ops = tuple(_moved(op, number - origin) for op in ops)
        swaps = [pair for op in extra if isinstance(op, Again) for pair in op.swap]
        for old, new in swaps:
            ops = tuple(_swapped(op, old, new) for op in ops)
        added = tuple(op for op in extra if not isinstance(op, Again) and not (isinstance(op, Act) and op.name in ("row", "colour", "change", "facing")))
        leading = tuple(op for op in extra if isinstance(op, Act) and op.name == "row" and op.text)
        kept = tuple(op for op in ops if not (isinstance(op, Act) and op.name == "fasten off")) if added else ops
        if not added and not leading and not swaps:
            return ops
        return leading + kept + added

    # -- working one row ------------------------------------------------------------------------------------------

    def _work_row(self, text: RowText, number: int, ops: tuple[Op, ...], source: int) -> None:
        label = _row_label(text, number)
        turned = self._turned(text, ops)
        direction = self._direction(text, turned)
        if label in self.bad or text.label in self.bad:
            self.broken = True
        self._take_colours(ops, text, number)
        tried = self._best(text, number, ops, direction, label)
        self._keep(text, number, label, tried, turned, direction)
        self._report(text, number, label, tried)
        self._afterwards(text, ops)

    def _keep(self, text: RowText, number: int, label: str, tried: _Tried, turned: bool, direction: int) -> None:
        if not self.rows and self.pattern.start and self.pattern.start.how == "chain":
            self.risen = sum(s.chains for s in tried.row.stitches if not s.feet and s.role in ("turning", "start")) if _opened(text.ops) else 0
        self.directions.append(direction)
        self.texts.append(text)
        self.rows.append(WorkedRow(label, number, tried.row, text.side, "", turned, text.is_round, colour=self.colour, line=text.line, words=text.text))

    def _turned(self, text: RowText, ops: tuple[Op, ...]) -> bool:
        first = next((op for op in ops if isinstance(op, Chain | Make | Into | Star | Times) or (isinstance(op, Act) and op.name in ("turn", "do not turn"))), None)
        begins_turned = (isinstance(first, Act) and first.name == "turn") or any(
            isinstance(op, Act) and op.name == "turn" and at <= 1 for at, op in enumerate(ops)
        )
        if text.is_round:
            return begins_turned or (self.turn_next is True and bool(self.rows) and self._said_turn()) or (self.pattern.turn_rounds and bool(self.rows))
        return begins_turned or self.turn_next

    def _said_turn(self) -> bool:
        return self._last_said == "turn"

    _last_said: str = ""

    def _direction(self, text: RowText, turned: bool) -> int:
        """1 and -1 are the two ways of working; the foundation is made in direction 1."""
        before = self.directions[-1] if self.directions else 1
        if text.is_round and not self.rows:
            return -1 if self.pattern.start and self.pattern.start.how == "chain" else 1
        return -before if turned else before

    def _take_colours(self, ops: tuple[Op, ...], text: RowText, number: int) -> None:
        """The colour the row is worked in, and the one it changes to for the next. A row that repeats another with a
        colour of its own does not take that row's colours."""
        own = [op for op in text.ops if isinstance(op, Act) and op.name in ("colour", "yarn", "stripes") and op.text]
        stripes = next((op.text.split(",") for op in own if op.name == "stripes"), None)
        if stripes:
            self.colour = self.next_colour = stripes[max(number - text.first, 0) % len(stripes)]
            return
        if own and ops is not text.ops:
            ops = text.ops
        self.colour = self.next_colour
        begun = False
        for op in walk(ops):
            if isinstance(op, Act) and op.name in ("colour", "yarn") and op.text and op.text != "yarn" and not begun:
                self.colour = self.next_colour = op.text
            elif isinstance(op, Act) and op.name in ("change", "colour") and op.text:
                self.next_colour = op.text
            begun = begun or (isinstance(op, Make) and op.stitch != "sl st")

    def _afterwards(self, text: RowText, ops: tuple[Op, ...]) -> None:
        said = [op.name for op in ops[1:] if isinstance(op, Act) and op.name in ("turn", "do not turn")]
        self._last_said = said[-1] if said else ""
        self.turn_next = said[-1] == "turn" if said else not text.is_round
        for op in walk(ops):
            if isinstance(op, Chain) and op.throughout and op.counts is not None:
                self.throughout[op.count] = op.counts

    # -- readings -------------------------------------------------------------------------------------------------

    def _best(self, text: RowText, number: int, ops: tuple[Op, ...], direction: int, label: str) -> _Tried:
        stated = self._stated_here(text, number)
        key = self._key(ops, direction, text, stated)
        if key in self.cache:
            return self.cache[key]
        best: _Tried | None = None
        self.steps = Steps()
        for choice, opening in self._readings(text, ops):
            tried = self._try(text, number, ops, direction, choice, opening, stated)
            if best is None or tried.faults < best.faults:
                best = tried
            if not tried.faults or (tried.stuck is not None and tried.stuck.kind == "limit"):
                break
        assert best is not None
        if not any(_names_row(op) for op in walk(ops)):
            self.cache[key] = best
        return best

    def _key(self, ops: tuple[Op, ...], direction: int, text: RowText, stated: tuple[object, ...]) -> tuple[object, ...]:
        base = self.rows[-1].row if self.rows else self.foundation
        before = self.directions[-1] if self.directions else 1
        reach = self.rows[-2].row if len(self.rows) > 1 and self.specials else None
        return (ops if len(ops) == 0 else id(ops), id(base), direction * before, text.is_round, id(reach), bool(self.rows), stated, len(self.throughout))

    def _stated_here(self, text: RowText, number: int) -> tuple[object, ...]:
        """A count that holds at the end of a run is not the other rows' count."""
        run = text.last > text.first
        if run and number != text.last and (text.stated_at_end or any(isinstance(op, Again) for op in text.ops)):
            return ()
        return tuple(text.stated)

    def _readings(self, text: RowText, ops: tuple[Op, ...]) -> Iterator[tuple[Choice, tuple[str, ...] | None]]:
        openings = self._openings(ops)
        chains = self._chain_choices(ops)
        loose = (False, True) if self.rows and self._base_has_chains() else (False,)
        wraps = (False, True) if text.is_round and self.rows and _travels(ops) else (False,)
        for is_loose in loose:
            for opening in openings:
                for chain in chains:
                    for wrap in wraps:
                        yield Choice(chain, is_loose, wrap), opening

    def _base_has_chains(self) -> bool:
        return any(s.role == "chain" for s in self.rows[-1].row.stitches)

    def _openings(self, ops: tuple[Op, ...]) -> list[tuple[str, ...] | None]:
        """What the foundation's skipped chains may count as, the usual reading first."""
        hook = _hook(ops)
        if hook is None or self.rows:
            return [None]
        stitch, nth = hook
        said = _opened(ops)
        skipped = nth - 1
        if said is not None:
            return [_opening_parts(said, skipped)]
        return _usual_openings(stitch, skipped, ops)

    def _chain_choices(self, ops: tuple[Op, ...]) -> list[tuple[str, ...]]:
        plain = [op for op in walk(ops) if isinstance(op, Chain | Make | Star) and not (isinstance(op, Make) and op.stitch == "sl st")]
        chain = plain[0] if plain else None
        if self.rows and len(plain) > 1 and isinstance(plain[1], Make) and any(p.which == "hook" for p in plain[1].places):
            return [("ch",)]
        if not isinstance(chain, Chain) or chain.counts is not None or chain.count in self.throughout:
            return [()]
        return _usual_counts(chain.count, ops)

    def _try(self, text: RowText, number: int, ops: tuple[Op, ...], direction: int, choice: Choice, opening: tuple[str, ...] | None, stated: tuple[object, ...]) -> _Tried:
        player = Player(self._site(text, number, direction, opening), choice)
        stuck: Stuck | None = None
        try:
            player.run(ops)
            row_end.check_end(player)
        except Stuck as fault:
            stuck = fault
        row = self._shared(player.row())
        off = tuple((i, got) for i, part in enumerate(stated) if (got := differs(part, row, player.named, self.aliases)) is not None)  # type: ignore[arg-type]
        return _Tried(row, list(player.named), stuck, choice, off)

    def _shared(self, row: Row) -> Row:
        """The one object for all rows worked alike."""
        return self.alike.setdefault((row.stitches, row.takes, row.joined, row.repeat, row.groups), row)

    def _site(self, text: RowText, number: int, direction: int, opening: tuple[str, ...] | None) -> Site:
        made: dict[int, Ground] = {}

        def ground(back: int) -> Ground | None:
            if back not in made:
                found = self._ground_at(back, direction)
                if found is None:
                    return None
                made[back] = found
            return made[back]

        below = self.rows[-1].label if self.rows else {"chain": "the foundation chain", "ring": "the ring", "magic ring": "the ring"}.get(self.pattern.start.how if self.pattern.start else "", "the stitches given")
        on_foundation = not self.rows and bool(self.pattern.start) and self.pattern.start.how in ("chain", "ring")  # type: ignore[union-attr]
        return Site(ground, below, self.specials, text.is_round, opening, self.pattern.loops, self.throughout, number, on_foundation, rows_below=len(self.rows), steps=self.steps, terms=self.pattern.terms)

    def _ground_at(self, back: int, direction: int) -> Ground | None:
        at = len(self.rows) - back
        if at < -1:
            return None
        row = self.rows[at].row if at >= 0 else self.foundation
        way = self.directions[at] if at >= 0 else 1
        if at < 0 and self.pattern.start and self.pattern.start.how == "ring" and not self.rows:
            hooked = Row(tuple(Stitch("ring", (), "ring", self.chains) for _ in range(1)))
            return Ground(row, slots_of(row, backwards=False)) if row.stitches else Ground(hooked, slots_of(hooked, backwards=False))
        return Ground(row, slots_of(row, backwards=way != direction))

    # -- what went wrong ------------------------------------------------------------------------------------------

    def _report(self, text: RowText, number: int, label: str, tried: _Tried) -> None:
        if tried.stuck is not None:
            if not self.broken:
                self._stuck_once(text, tried.stuck, label)
            self.broken = True
            if text.label not in self.bad:
                self._counts_off(text, label, tried) if tried.off and tried.stuck.kind == "count" else None
            return
        if tried.off and not self.broken:
            self._counts_off(text, label, tried)
        elif not tried.off:
            self.broken = False if text.stated or not self.broken else self.broken
        self._counted_note(text, label, tried)

    def _counts_off(self, text: RowText, label: str, tried: _Tried) -> None:
        stated = text.stated
        for at, got in tried.off:
            part = stated[at]
            line, column, length = part.at
            self._problem(
                "impossible", label, f"the row makes {got} {_counted_word(part.words)}; the count says {part.count}",
                f"change the count to {got}, or the row to make {part.count}", line, column, length,
            )  # fmt: skip

    def _counted_note(self, text: RowText, label: str, tried: _Tried) -> None:
        if tried.choice.loose:
            self.notes.append(Note(label, '"st" was read as counting the chains of the row below too', text.line))

    def _stuck_once(self, text: RowText, stuck: Stuck, label: str = "") -> None:
        line, column, length = stuck.at if stuck.at[0] else (text.line, 1, len(text.text.split("\n")[0]))
        key = (line, stuck.says)
        if key not in self.reported:
            self.reported.add(key)
            self._problem(stuck.kind, label or text.label, stuck.says, stuck.remedy, line, column, length)

    def _problem(self, kind: str, where: str, says: str, remedy: str, line: int, column: int = 1, length: int = 1) -> None:
        shown = self.lines[line - 1] if 0 < line <= len(self.lines) else ""
        self.problems.append(Problem(kind, where, says, remedy, line, column, shown, length))

    # -- sides ----------------------------------------------------------------------------------------------------

    def _sides(self) -> None:
        """Right and wrong side of every row: from the row that says it, by turning from there; else row 1 is RS."""
        anchor = next((i for i, row in enumerate(self.rows) if row.side), None)
        base = self.directions[anchor] * (1 if self.rows[anchor].side == "RS" else -1) if anchor is not None else (self.directions[0] if self.directions else 1)
        for i, row in enumerate(self.rows):
            side = "RS" if self.directions[i] == base else "WS"
            way = "right-to-left" if side == "RS" else "left-to-right"
            self.rows[i] = replace(row, side=side, direction=way)


def _aliases(specials: tuple[Special, ...]) -> dict[str, frozenset[str]]:
    """What a count may call a special stitch: each word of its name ("5 bobbles" for MB, make bobble)."""
    out: dict[str, set[str]] = {}
    for special in specials:
        for word in special.name.lower().replace("-", " ").split():
            out.setdefault(word, set()).add((special.kind or special.abbreviation).lower())
    return {word: frozenset(kinds) for word, kinds in out.items() if len(kinds) == 1}


def _foundation(start: Start | None) -> tuple[Row, int]:
    """The start as a row, and its chains."""
    if start is None or start.how in ("magic ring", "none"):
        return Row((Stitch("ring", (), "ring", 0),)), 0
    if start.how == "ring":
        return Row((Stitch("ring", (), "ring", start.count),)), start.count
    if start.how == "over":
        kind = start.kind
        first = Stitch(kind, (), "turning", _TURNING.get(kind, 1)) if _TURNING.get(kind, 0) >= 3 else Stitch(kind)
        return Row((first, *([Stitch(kind)] * (start.count - 1)))), 0
    return Row((Stitch("ch", (), "foundation", 1),) * start.count), start.count


def _row_label(text: RowText, number: int) -> str:
    if not number or text.first == text.last:
        return text.label
    word = text.label.split()[0].rstrip("s")
    return f"{word} {number}"


def _travels(ops: tuple[Op, ...]) -> bool:
    """Whether a row begins with slip stitches."""
    first = next((op for op in ops if isinstance(op, Make | Chain | Into | Star | Times)), None)
    return isinstance(first, Make) and first.stitch == "sl st"


def _hook(ops: tuple[Op, ...]) -> tuple[str, int] | None:
    """The first stitch of the row and the chain from the hook it goes into."""
    for op in walk(ops):
        if isinstance(op, Make | Into):
            for place in op.places:
                if place.which == "hook":
                    stitch = op.stitch if isinstance(op, Make) else next((o.stitch for o in walk(op.ops) if isinstance(o, Make)), "sc")
                    return stitch, place.nth
    return None


def _opened(ops: tuple[Op, ...]) -> str | None:
    found = next((op for op in walk(ops) if isinstance(op, Act) and op.name == "opening"), None)
    if found is not None:
        return found.text
    return None if _hook(ops) is None else None


def _opening_parts(said: str, skipped: int) -> tuple[str, ...]:
    """ "dc, ch 1, sk 1" with 5 chains skipped -> ("dc 3", "ch 1", "sk 1")."""
    if not said:
        return (f"start {skipped}",)
    parts = [p.strip() for p in said.split(",")]
    rest = skipped - sum(int(p.split()[1]) for p in parts if " " in p)
    out = []
    for part in parts:
        if part == "ch":
            out.append(f"ch {rest}")
        elif " " in part:
            out.append(part)
        else:
            out.append(f"{_kind_by_chains(part, rest)} {rest}")
    return tuple(out)


def _kind_by_chains(part: str, chains: int) -> str:
    return part if part != "st" else next((k for k, n in _TURNING.items() if n == chains), "dc")


def _usual_openings(stitch: str, skipped: int, ops: tuple[Op, ...]) -> list[tuple[str, ...] | None]:
    """Common practice, no source: skipped chains count as a stitch for dc and taller, not for sc; hdc either way."""
    height = height_of(stitch) or "dc"
    usual = _TURNING[height]
    plain: tuple[str, ...] = (f"start {skipped}",)
    if height == "sc" or skipped < min(usual, 2):
        if skipped <= 2:
            return [plain, (f"ch {skipped}",)]
        mesh = _mesh_chains(ops)
        loops: list[tuple[str, ...] | None] = [(f"ch {skipped - mesh}", f"sk {mesh}"), (f"ch {skipped}",), plain]
        return loops
    if height == "hdc" and skipped == 2:
        return [plain, ("hdc 2",)]
    if skipped <= usual:
        return [(f"{height} {skipped}",), plain]
    extra = skipped - usual
    mesh = _mesh_chains(ops)
    choices: list[tuple[str, ...] | None] = []
    if mesh and extra == 2 * mesh:
        choices.append((f"{height} {usual}", f"ch {mesh}", f"sk {mesh}"))
    choices += [(f"{height} {usual}", f"sk {extra}"), (f"{height} {usual}", f"ch {extra}"), plain]
    return choices


def _mesh_chains(ops: tuple[Op, ...]) -> int:
    """The chains of the row's first repeated space."""
    star = next((op for op in ops if isinstance(op, Star | Times)), None)
    chain = next((op for op in walk(star.ops) if isinstance(op, Chain)), None) if star else None
    return chain.count if chain else 0


def _usual_counts(chains: int, ops: tuple[Op, ...]) -> list[tuple[str, ...]]:
    """What an unexplained beginning chain may count as, the usual reading first (common practice, no source)."""
    kinds = {height_of(op.stitch) for op in walk(ops) if isinstance(op, Make)} - {None}
    tall = [k for k in ("dc", "tr", "dtr", "trtr", "hdc") if k in kinds and _TURNING[k] <= chains]
    named = next((k for k, n in _TURNING.items() if n == chains and k in kinds), None)
    if chains == 1:
        return [()]
    if chains == 2:
        lead: list[tuple[str, ...]] = [()] if "dc" not in kinds or "hdc" in kinds else [("dc",), ()]
        return [*lead, ("hdc",), ("ch",), ("dc",)]
    if not tall:
        return [("ch",), ()] + [("hdc", f"ch {chains - 2}")] * (chains > 2)
    base = named or tall[0]
    rest = chains - _TURNING[base]
    counted: tuple[str, ...] = (base,) if not rest else (base, f"ch {rest}")
    return [counted, (), ("ch",)]


def _names_row(op: Op) -> bool:
    places: tuple[Place, ...] = op.places if isinstance(op, Make | Into | Skip_) else ()
    if isinstance(op, Act) and op.place is not None:
        places = (op.place,)
    return any(p.row is not None or (p.of is not None and p.of.row is not None) for p in places)


def _moved(op: Op, shift: int) -> Op:
    """The same words with the row numbers they name moved along."""
    if isinstance(op, Make):
        return replace(op, places=tuple(_moved_place(p, shift) for p in op.places))
    if isinstance(op, Into):
        return replace(op, ops=tuple(_moved(o, shift) for o in op.ops), places=tuple(_moved_place(p, shift) for p in op.places))
    if isinstance(op, Times | Star):
        return replace(op, ops=tuple(_moved(o, shift) for o in op.ops))
    if isinstance(op, Act) and op.place is not None:
        return replace(op, place=_moved_place(op.place, shift))
    return op


def _moved_place(place: Place, shift: int) -> Place:
    if place.row is not None and place.row.number:
        place = replace(place, row=RowRef(number=place.row.number + shift))
    if place.of is not None:
        place = replace(place, of=_moved_place(place.of, shift))
    return place


def _swapped(op: Op, old: Op, new: Op) -> Op:
    if _same_work(op, old):
        return new
    if isinstance(op, Into | Times | Star):
        return replace(op, ops=tuple(_swapped(o, old, new) for o in op.ops))
    return op


def _same_work(a: Op, b: Op) -> bool:
    if isinstance(a, Chain) and isinstance(b, Chain):
        return a.count == b.count and not a.counts
    if isinstance(a, Make) and isinstance(b, Make):
        return a.stitch == b.stitch and (a.count == b.count)
    return a == b


def _grown(ops: tuple[Op, ...], more: int) -> tuple[Op, ...]:
    """A round of increases with `more` stitches before each increase."""
    out: list[Op] = []
    for op in ops:
        if isinstance(op, Star | Times):
            op = replace(op, ops=_grown_inside(op.ops, more))
        out.append(op)
    return tuple(out)


def _grown_inside(ops: tuple[Op, ...], more: int) -> tuple[Op, ...]:
    out = list(ops)
    for at, op in enumerate(out[:-1]):
        following = out[at + 1]
        if isinstance(op, Make) and op.count == 1 and op.places and isinstance(following, Make) and (following.count > 1 or following.stitch.endswith("tog")):
            out[at] = replace(op, places=(replace(op.places[0], count=op.places[0].count + more), *op.places[1:]))
            break
    return tuple(out)


def _counted_word(words: str) -> str:
    return words.partition(" ")[2] or "sts"


from ..pattern.tree import Skip as Skip_

__all__ = ["Special", "Worked", "work_reading", "work_text"]
