"""Reading a whole written pattern: its terms, start, special stitches, notes and rows, every problem at once."""

from __future__ import annotations

import re
from dataclasses import dataclass, field, replace

from ..errors import Note, Problem
from .clauses import Clauses
from .counts import read_counts
from .cursor import Source, Unread
from .lex import clean, plain, tokens
from .notes import LOOPS, beginnings_said
from .rowheads import HEADER, Block, label_of, split_rows
from .settled import settled_terms
from .specials import read_special
from .starts import FOUNDATION_STITCHES, NO_MORE, OVER, RING, START, over_kind, start_in_row, yarn_of
from .tree import Act, Chain, RowText, Special, Start, Stated, WrittenPattern

MOST_CHARACTERS = 2_000_000
MOST_ROW_CHARACTERS = 20_000
MOST_ROWS = 20_000
MOST_SPECIALS = 200
MOST_FOUNDATION = 20_000

_REPEATED = re.compile(
    r"rep(?:eat)?\s+(?:last\s+)?(?:\d+\s+)?(?:rows?|rnds?|rounds?)\b|cont(?:inue)?\b.*\buntil\b|work(?:ing)? even\b"
)
_MULTIPLE = re.compile(r"multiple of (\d{1,5})(?:\s*(?:sts?|stitches|ch|chs|chains))?(?:\s*(?:\+|plus)\s*(\d{1,5}))?")
_TERMS = re.compile(r"^\s*terms?\s*:?\s*(us|uk|american|british)\b")
_PROSE_HEADS = (
    "note", "notes", "colors", "colours", "color", "colour", "gauge", "tension", "materials", "hook", "yarn", "size",
    "finished size", "abbreviations", "title", "skill level", "measurements", "finishing", "instructions", "pattern",
    "pattern notes", "stitches", "special stitches", "special stitch", "source", "designer", "by",
)  # fmt: skip


@dataclass(slots=True)
class Reading:
    """What reading found: the tree as far as it could be read, the problems, the notes."""

    pattern: WrittenPattern
    problems: list[Problem] = field(default_factory=list)
    notes: list[Note] = field(default_factory=list)
    bad_rows: set[str] = field(default_factory=set)


def read_written(
    text: str, terms: str | None = None, specials: tuple[Special, ...] = (), first_line: int = 1
) -> Reading:
    """Read a written pattern. `terms` settles US or UK where the text does not say; `first_line` is the file line of
    the text's first line."""
    if len(text) > MOST_CHARACTERS:
        return _refused(terms, f"the text has {len(text):,} characters; this tool reads {MOST_CHARACTERS:,}")
    return _Document(clean(text), terms, specials, first_line).read()


def _refused(terms: str | None, says: str) -> Reading:
    problem = Problem("limit", "Pattern", says, "split the pattern into parts", 1)
    return Reading(WrittenPattern(terms or "US", None, ()), [problem])


class _Document:
    def __init__(self, text: str, terms: str | None, specials: tuple[Special, ...], first_line: int) -> None:
        self.lines = text.split("\n")
        self.first_line = first_line
        self.problems: list[Problem] = []
        self.notes: list[Note] = []
        self.bad_rows: set[str] = set()
        self.specials: dict[str, Special] = {s.abbreviation: s for s in specials}
        self.start: Start | None = None
        self.multiple: tuple[int, int] | None = None
        self.rows: list[RowText] = []
        self.turn_rounds = self.spiral = False
        self.beginnings: dict[int, tuple[str, ...]] = {}
        self.loops = ""
        self.plain_lines = [plain(line) for line in self.lines]
        self.terms = terms or self._terms()

    # -- terms ----------------------------------------------------------------------------------------------------

    def _terms(self) -> str:
        for number, low in enumerate(self.plain_lines):
            found = _TERMS.match(low)
            if found:
                self.plain_lines[number] = ""
                return "UK" if found[1] in ("uk", "british") else "US"
        settled = settled_terms("\n".join(x for x in self.plain_lines if not x.lstrip().startswith("#")))
        if settled:
            return settled
        self.problems.append(
            Problem("ambiguous", "Terms", "the stitches named here mean one thing in US terms and another in UK terms",
                    'put "Terms: US" or "Terms: UK" in the first line', self.first_line, 1, self.lines[0])
        )  # fmt: skip
        return "US"

    # -- the whole ------------------------------------------------------------------------------------------------

    def read(self) -> Reading:
        blocks = self._blocks()
        for source, is_row in blocks:
            if not is_row:
                self._before_rows(source)
        self._rows([source for source, is_row in blocks if is_row])
        self._opening()
        pattern = WrittenPattern(
            self.terms,
            self.start,
            tuple(self.rows),
            tuple(self.specials.values()),
            self.turn_rounds,
            self.spiral,
            self.loops,
            beginnings=tuple(self.beginnings.items()),
        )
        self._nothing_found()
        return Reading(pattern, self.problems, self.notes, self.bad_rows)

    def _nothing_found(self) -> None:
        if not self.rows and not self.problems:
            self.problems.append(
                Problem(
                    "not notation",
                    "Pattern",
                    "no row was found",
                    'begin each row with its name, as "Row 1: ..."',
                    self.first_line,
                )
            )

    def _blocks(self) -> list[tuple[Source, bool]]:
        """The text cut into statements, each with whether it is a row: a row with its continuation lines, or a line
        of anything else."""
        out: list[Block] = []
        open_row = False
        for number, (line, low) in enumerate(zip(self.lines, self.plain_lines, strict=True), self.first_line):
            if not low.strip() or low.lstrip().startswith("#"):
                open_row = False
                continue
            pieces = split_rows(line, low, number)
            if open_row and not pieces[0].is_row and not self._own_line(pieces[0].lines[0]):
                out[-1].go_on(number, pieces[0].lines[0])
                pieces = pieces[1:]
            out += pieces
            open_row = bool(out) and out[-1].is_row
        return [(Source("\n".join(b.lines), b.line, b.column), b.is_row) for b in out]

    def _own_line(self, text: str) -> bool:
        """Whether a line behind a row is no part of it: another start, a heading, rows repeated to some length."""
        low = plain(text).strip()
        starts = START.match(low)
        if starts and starts["n"] and NO_MORE.match(starts["rest"]):
            return True
        return low.split(":")[0] in _PROSE_HEADS or bool(_REPEATED.match(low))

    # -- what stands before and between the rows ------------------------------------------------------------------

    def _before_rows(self, source: Source) -> None:
        low = plain(source.text).strip()
        found = _MULTIPLE.search(low)
        if found:
            self.multiple = (int(found[1]), int(found[2] or 0))
        self._standing_notes(low)
        head = low.split(":")[0].strip()
        if head in _PROSE_HEADS and head not in ("special stitch", "special stitches"):
            return
        if self._starts(source, low):
            return
        special = read_special(source, self.terms, self.specials) if len(self.specials) < MOST_SPECIALS else None
        if special:
            self.specials[special.abbreviation] = special
            return
        self._passed(source, low)

    def _passed(self, source: Source, low: str) -> None:
        if low.startswith(("rep", "special", "multiple", "pattern", "worked")) or not low:
            return
        self.notes.append(Note("Pattern", f'"{source.text.strip()[:80]}" was passed over', source.line))

    def _standing_notes(self, low: str) -> None:
        """What a note says of every row."""
        if re.search(r"turn (?:work )?at (?:the )?end of (?:every|each) (?:rnd|round|row)", low):
            self.turn_rounds = True
        if "spiral" in low or re.search(r"do not join (?:the )?(?:rnds|rounds|each)", low):
            self.spiral = True
        self.beginnings.update(beginnings_said(low, self.terms))
        if LOOPS.search(low):
            self.loops = "back loop"

    def _starts(self, source: Source, low: str) -> bool:
        if self.start is not None and not low.startswith("over "):
            return False
        over = OVER.match(low)
        if over:
            kind = over_kind(over["kind"], self.terms)
            if kind is None:
                return False
            self._set_start(Start("over", int(over["n"]), kind, None, source.line, source.text), source)
            return True
        made = FOUNDATION_STITCHES.match(low)
        kind = over_kind(made["kind"] or made["kind2"], self.terms) if made else None
        if made and kind:
            count = int(made["n"] or made["n2"])
            self._set_start(Start("over", count, kind, None, source.line, source.text), source)
            return True
        if drawn := RING.match(low):
            self.start = Start("magic ring", line=source.line, text=source.text, colour=yarn_of(drawn))
            return True
        found = START.match(low)
        if not found:
            return False
        count = int(found["n"] or found["n2"])
        rest = found["rest"]
        ring = bool(re.search(r"\b(?:ring|join|sl st|ss)\b", rest)) and not re.search(r"from hook", rest)
        self._set_start(
            Start(
                "ring" if ring else "chain",
                count,
                "ch",
                None,
                source.line,
                source.text,
                yarn_of(found),
            ),
            source,
        )
        return True

    def _set_start(self, start: Start, source: Source) -> None:
        if not 0 < start.count <= MOST_FOUNDATION:
            number = re.search(r"\d+", source.text)
            column = source.column + (number.start() if number else 0)
            says = f"{start.count:,} stitches; this tool works from 1 to {MOST_FOUNDATION:,}"
            remedy = "use a smaller foundation" if start.count else "say how many chains"
            length = len(number[0]) if number else 1
            self.problems.append(Problem("limit", "Foundation", says, remedy, source.line, column, source.text, length))
            return
        self.start = start

    # -- rows -----------------------------------------------------------------------------------------------------

    def _rows(self, sources: list[Source]) -> None:
        if len(sources) > MOST_ROWS:
            self.problems.append(
                Problem(
                    "limit",
                    "Pattern",
                    f"{len(sources):,} rows; this tool works {MOST_ROWS:,}",
                    "split the pattern into parts",
                    sources[MOST_ROWS].line,
                )
            )
        for source in sources[:MOST_ROWS]:
            self.rows.append(self._row(source))

    def _row(self, source: Source) -> RowText:
        low = plain(source.text)
        header = HEADER.match(low, len(low) - len(low.lstrip()))
        assert header is not None
        label, first, last = label_of(header)
        if len(low) > MOST_ROW_CHARACTERS:
            self.problems.append(
                Problem(
                    "limit",
                    label,
                    f"the row has {len(low):,} characters; this tool reads {MOST_ROW_CHARACTERS:,}",
                    "write it with repeats",
                    source.line,
                )
            )
            low = low[:MOST_ROW_CHARACTERS]
        body = " " * header.end() + low[header.end() :]
        reader = Clauses(tokens(body, self.terms, _spellings(self.specials)), source, self.terms, self.specials)
        ops = reader.read()
        self._complaints(reader, label, source)
        stated, at_end = self._stated(reader, source)
        word = header["word"] or header["word2"] or ""
        is_round = word.startswith(("rnd", "round")) or (
            not word and self.start is not None and self.start.how in ("ring", "magic ring")
        )
        side = (
            ""
            if not header["side"]
            else "RS"
            if "r" in header["side"][:2] + header["side"][1:2] and "w" not in header["side"]
            else "WS"
        )
        return RowText(label, first, last, ops, is_round, side, stated, at_end, source.line, source.text)

    def _stated(self, reader: Clauses, source: Source) -> tuple[tuple[Stated, ...], bool]:
        out: list[Stated] = []
        at_end = False
        for said in reader.counts:
            parts, end = read_counts(said, source, self.terms, frozenset(self.specials))
            out += parts
            at_end = at_end or end
        return tuple(out), at_end

    def _complaints(self, reader: Clauses, label: str, source: Source) -> None:
        for complaint in reader.problems:
            line, column, length = source.span(
                complaint.token.start, max(complaint.token.end, complaint.token.start + 1)
            )
            self.problems.append(
                Problem(complaint.kind, label, complaint.says, complaint.remedy, line, column, self._line(line), length)
            )
            self.bad_rows.add(label)
        for said in reader.notes:
            if len(said) > 3 and not said.startswith(("place", "move", "mark")):
                self.notes.append(Note(label, f'"{said[:80]}" was passed over', source.line))

    def _line(self, number: int) -> str:
        at = number - self.first_line
        return self.lines[at] if 0 <= at < len(self.lines) else ""

    # -- the start, where the first row says it -------------------------------------------------------------------

    def _opening(self) -> None:
        if self.start is None and self.rows:
            self.start = start_in_row(self.rows)
            if self.start and self.start.how == "chain" and isinstance(self.rows[0].ops[0], Chain):
                first = self.rows[0]
                self.rows[0] = RowText(
                    first.label,
                    first.first,
                    first.last,
                    first.ops[1:],
                    first.is_round,
                    first.side,
                    first.stated,
                    first.stated_at_end,
                    first.line,
                    first.text,
                )
        if self.start is not None and self.multiple:
            self.start = replace(self.start, multiple=self.multiple)


def _spellings(specials: dict[str, Special]) -> tuple[tuple[str, str], ...]:
    out = {}
    for special in specials.values():
        for spelled in (special.name, special.abbreviation):
            if spelled:
                out[plain(spelled)] = special.abbreviation
    return tuple(sorted(out.items()))


__all__ = ["Act", "Reading", "Unread", "read_written"]
