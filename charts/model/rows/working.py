"""What a row is worked with: the task, how one try of it went, and all that has been worked of its piece so far."""

from __future__ import annotations

from dataclasses import field

from ...errors import Note, Problem
from ...made_late import dataclass
from ...pattern.tree import Again, Op, RowText, Stated, WrittenPattern
from ...pattern.written.document import Reading
from ..cloth import foundation_row
from ..cloth.fabric import Fabric, Row, WorkedRow
from ..cloth.faults import Steps, Stuck
from ..cloth.shapes import shapes_of
from ..cloth.site import Choice

#: How a row begins: its chain, the first stitch behind it, where that goes.
Opening = tuple[int, str, str, str]

@dataclass(frozen=True, slots=True)
class WorkedPiece:
    """One piece of a pattern: its name, how often it is made, and its fabric with the text of each row; `unchecked` is
    why rows of it could not be checked though nothing is wrong with them."""

    name: str
    make: int
    fabric: Fabric
    texts: tuple[RowText, ...]
    ops: tuple[tuple[Op, ...], ...] = ()
    proved: tuple[str, ...] = ()
    unchecked: str = ""


@dataclass(slots=True)
class Worked:
    """A pattern worked: the fabric as far as it could be made, every problem, every note. `fabric` and `texts` are
    those of the first piece; `proved` says of every row of all pieces whether it was worked ("yes"), rests on its
    stated count ("stated") or is not checked ("no"); `left_out` says which rows were dropped because of it."""

    pattern: WrittenPattern
    fabric: Fabric
    problems: list[Problem] = field(default_factory=list)
    notes: list[Note] = field(default_factory=list)
    texts: list[RowText] = field(default_factory=list)
    pieces: tuple[WorkedPiece, ...] = ()
    proved: tuple[str, ...] = ()
    assumed: tuple[str, ...] = ()
    prose: tuple[tuple[int, str], ...] = ()
    terms_why: str = ""
    sizes: int = 1
    size_names: tuple[str, ...] = ()
    left_out: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Task:
    """A row to be worked: its text, its own number and label, its words, and which way it goes."""

    text: RowText
    number: int
    label: str
    ops: tuple[Op, ...]
    direction: int

    @property
    def stated(self) -> tuple[Stated, ...]:
        """Its stated counts; a count that holds at the end of a run is not the other rows' count."""
        text = self.text
        if text.stated_each:
            return text.stated[self.number - text.first : self.number - text.first + 1]
        run = text.last > text.first and self.number != text.last
        if run and (text.stated_at_end or any(isinstance(op, Again) for op in text.ops)):
            return ()
        return text.stated


@dataclass(frozen=True, slots=True)
class Tried:
    """One reading of a row, played: what it made, where it stuck, the stated counts (by place) that are off, and
    whether stitches worked further down took the place of others without a word, and how many stitches of the row
    below are `left`; `closed`: its last repetition was taken to come back to its first stitch; `in_all`: so many
    "in each" were taken as all of them; `misprint`: what is wrong in the words although it is plain what they mean;
    `skip_unsaid`: what its repeats pass over first was passed over before the round was closed; `parted`: the last of
    its repetitions stops where the row is full; `under_chain`: the stitch it skips first is the one its chain stands
    on; `adds`: its first place was worked twice, as it says that it adds a stitch; `leapt`: what it goes past or over
    without saying so; `joined_low`: that it is joined below the top of its beginning chain; `opening`: what the chains
    that it skips first count as; `usual`: what usual practice makes of it, which comes out even but for its count;
    `told_by`: the row above that comes out only over this reading; `whole`: though it is stuck its row goes all the way
    round; `left_loops`: it goes into the loops that the row below left free; `otherwise`: what it was read as, where
    that is not the first way."""

    row: Row
    named: tuple[str, ...]
    stuck: Stuck | None
    choice: Choice
    off: tuple[tuple[int, int], ...] = ()
    replaced: bool = False
    misnamed: tuple[str, str] = ("", "")
    misprint: Stuck | None = None
    skip_unsaid: bool = False
    parted: bool = False
    under_chain: bool = False
    adds: bool = False
    left: int = 0
    closed: bool = False
    in_all: int = 0
    leapt: str = ""
    joined_low: str = ""
    opening: tuple[str, ...] | None = None
    usual: Tried | None = None
    told_by: str = ""
    otherwise: tuple[Op, ...] = ()
    whole: bool = False
    left_loops: bool = False

    @property
    def faults(self) -> int:
        return (100 if self.stuck else 0) + len(self.off)


class Working:
    """A piece as far as it has been worked; the modules of this room work on it."""

    def __init__(self, reading: Reading, lines: list[str], out: Worked, before: Working | None) -> None:
        self.pattern, self.lines, self.out = reading.pattern, lines, out
        self.problems, self.notes, self.bad = out.problems, out.notes, reading.bad_rows
        self.asides, self.guesses = reading.asides, reading.guesses
        self.others: dict[int, tuple[tuple[Op, ...], ...]] = reading.others
        self.rows: list[WorkedRow] = []
        self.texts: list[RowText] = []
        self.proved: list[str] = []
        self.read_as: list[tuple[Op, ...]] = []
        self.directions: list[int] = []
        self.looks_back = True
        self.tasks: list[tuple[Task, tuple[tuple[Op, ...], ...]]] = []
        self.by_number: dict[int, tuple[tuple[Op, ...], int]] = dict(before.by_number) if before else {}
        self.by_part: dict[str, dict[int, tuple[tuple[Op, ...], int]]] = before.by_part if before else {}
        self.specials = {s.abbreviation: s for s in self.pattern.specials}
        self.shapes = shapes_of(self.pattern.specials)
        self.aliases = foundation_row.aliases(self.pattern.specials)
        self.throughout: dict[int, tuple[str, ...]] = (
            dict(before.throughout) if before else dict(self.pattern.beginnings)
        )
        self.settled: dict[Opening, tuple[str, ...]] = {}
        #: What so many skipped chains of the foundation proved to count as.
        self.skipped_as: dict[int, tuple[str, ...]] = {}
        self.explained: dict[int, set[tuple[str, ...]]] = before.explained if before else {}
        #: What "rep from * 3 times" proved to mean where a count was stated: 3 in all (True), 3 more (False).
        self.rep_in_all: set[bool] = before.rep_in_all if before else set()
        self.start = self.pattern.start
        self.foundation, self.chains = foundation_row.foundation(
            self.start, self.pattern.rows[0].ops if self.pattern.rows else ()
        )
        #: How many rows a tube has that this piece goes round; 0 where that is open.
        self.before_rows = 0 if before is None or any(text.at_will for text in before.texts) else len(before.rows)
        self.risen = 0
        self.cache: dict[tuple[object, ...], Tried] = {}
        self.broken = self.unsure = False
        self.alike: dict[tuple[object, ...], Row] = {}
        self.reported: set[tuple[int, str]] = set()
        self.turn_next = True
        self.said_turn = False
        self.steps = Steps()
        #: Words of rows whose first place is worked once more among all.
        self.adding: set[tuple[Op, ...]] = set()
        self.under_chain: set[tuple[Op, ...]] = set()
        self.canonical: dict[tuple[Op, ...], tuple[Op, ...]] = {}
        self.made = 0
        self.spare: Row | None = None
        self.on_carried = False
        self.unchecked = ""
        #: The row worked last as usual practice has it, where only its count speaks for another reading.
        self.against_usual: Tried | None = None
        #: By place: rows that stand for what could not be worked, those of them that are no more than a part of it, and
        #: those that go all round though they are stuck.
        self.not_worked: set[int] = set()
        self.torn: set[int] = set()
        self.whole: set[int] = set()
        self.doubtful: set[int] = set(before.doubtful) if before else set()
        self.colour = self.next_colour = self.start.colour if self.start else ""

    def base(self) -> Row:
        """What the next row is worked into: the last row, or the foundation."""
        return self.rows[-1].row if self.rows else self.foundation

    @property
    def flat(self) -> bool:
        """Whether the piece so far is worked to and fro."""
        ring = self.start is not None and self.start.how in ("ring", "magic ring")
        return not ring and not any(text.is_round for text in self.texts)
