"""The booklet of a written pattern: its rows in tidy words, piece by piece, its stitches and charts, and its talk."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from itertools import pairwise

from ...made_late import dataclass, replace
from ...model.cloth.fabric import WorkedRow
from ...model.rows.working import Worked, WorkedPiece
from ...pattern.lexicon import show_stitch
from ...pattern.notation.plain import plain
from ...pattern.place_writer import plural
from ...pattern.said_in import said_in
from ...pattern.tree import Act, RowText, Special, Start, Stated
from ...pattern.writer import special_words, write_ops, write_start, write_stated
from ...pattern.written.agreed.definitions import pairs
from ...setting import Setting, Terms
from .. import words
from ..tidied import begun, fastened
from .book import Block, Book, Chapter, Drawn, Pairs, Paragraphs, Picture, Plate, Points, RowLine, Rows, Signs
from .how_to_read import ways_of_writing
from .level import level_of
from .making import begun_at_the_join, counted_words, every_row, told_in_full
from .own_words import OwnWords
from .page_parts import Kind, Part
from .signs import named_once, signs_of

#: After every line of a page.
_END = 1_000_000_000
#: That a row is fastened off, in its words.
_FASTENED = re.compile(r", fasten off(?=\.)|(?<=[.)]) Fasten off\.")


def written_book(
    worked: Worked, own: OwnWords, title: str, plates: Sequence[Plate], setting: Setting, *,
    cover: Picture | None = None, columns: int = 1,
) -> Book:  # fmt: skip
    """The booklet of a written pattern under a title; of sizes, gauge and yarn it says what the page says, in its own
    words under its own headings, in the terms of the booklet."""
    page = _Page(worked, own, setting)
    care = Points((*words.general_cautions(), *page.said("care")))
    chapters = (
        *_needed(page), *_stitches(page), _before(page), *page.chapters("notes", "other"),
        *_instructions(page), *_finishing(page), Chapter("Take care", (care,)),
    )  # fmt: skip
    return Book(
        title, own.author, own.licence, _facts(page), cover, chapters=chapters, plates=tuple(plates),
        paper=setting.paper, columns=columns,
    )  # fmt: skip


@dataclass(frozen=True, slots=True)
class _Page:
    """A written pattern worked, what its page says of itself, and how it is shown."""

    worked: Worked
    own: OwnWords
    setting: Setting

    def told(self, text: str) -> str:
        """Words of the page in the booklet's terms."""
        return said_in(text, self.worked.pattern.terms, self.setting.terms)

    def said(self, *kinds: Kind) -> tuple[str, ...]:
        """What stands in parts of some kinds."""
        return tuple(self.told(line) for part in self.own.of(*kinds) for line in part.said)

    @property
    def all_told(self) -> list[str]:
        """All that is printed of the page beside its rows."""
        parts = [self.told(line) for part in self.own.parts if part.kind != "abbreviations" for line in part.said]
        return parts + [self.told(said) for _, said in self.own.talk]

    def block(self, part: Part) -> Block:
        """What stands in a part: a list where it is one on the page."""
        lines = tuple(map(self.told, part.said))
        return Points(lines) if part.marked else Paragraphs(lines)

    def chapters(self, *kinds: Kind, called: str = "") -> tuple[Chapter, ...]:
        """The parts of some kinds, those of one heading together, under their headings or `called` so."""
        found: dict[str, list[Block]] = {}
        for part in self.own.of(*kinds):
            found.setdefault(called or self.told(part.heading), []).append(self.block(part))
        return tuple(Chapter(heading, tuple(blocks)) for heading, blocks in found.items())


#: No line on the cover is longer.
_LONGEST_FACT = 75


def _facts(page: _Page) -> tuple[tuple[str, str], ...]:
    """What the cover says: how it is worked, and of size, gauge and hook what the page says shortly."""
    size, gauge = page.said("size"), page.said("gauge")
    hook = next((line for line in page.said("materials") if re.search(r"\bhooks?\b", line, re.IGNORECASE)), "")
    facts = (
        ("Finished size", size[0] if size else ""), ("Worked", _worked(page.worked)),
        (_GAUGE[page.setting.terms], gauge[0] if gauge else ""), ("Hook", re.sub(r"(?i)^.{0,8}\bhooks?: *", "", hook)),
        ("Terms", page.setting.terms),
    )  # fmt: skip
    return tuple((label, said.rstrip(".")) for label, said in facts if said and len(said) <= _LONGEST_FACT)


#: What the gauge is called.
_GAUGE = {"US": "Gauge", "UK": "Tension"}
#: What is needed beside yarn and hook: what it is called where a page names it, and how it is said where not (common
#: practice, no source). The last two are for open work.
_TOOLS = (
    (r"needles?\b", "a yarn needle for the ends"), (r"scissors", "scissors"), (r"\btape\b", "a tape measure"),
    (r"\bpins?\b", "rustproof pins"), (r"board|\bmats?\b", "a soft board to block it on"),
)  # fmt: skip


def _needed(page: _Page) -> list[Chapter]:
    """What is needed, the gauge and the size, as the page says them, and the tools that it does not name."""
    told = "\n".join(page.said("materials"))
    open_work = any(s.role == "chain" for p in page.worked.pieces for row in p.fabric.rows for s in row.row.stitches)
    tools = [tool for found, tool in _TOOLS[: 5 if open_work else 3] if not re.search(found, told, re.IGNORECASE)]
    listed = f"{', '.join(tools[:-1])} and {tools[-1]}" if len(tools) > 1 else "".join(tools)
    also = f"Also: {listed}." if told else f"{listed[:1].upper()}{listed[1:]}."
    stated = tuple(block for chapter in page.chapters("materials", called="Materials") for block in chapter.blocks)
    return [
        Chapter("Materials", (*stated, *((Paragraphs((also,)),) if tools else ()))),
        *page.chapters("gauge", called=_GAUGE[page.setting.terms]), *page.chapters("size", called="Finished size"),
    ]  # fmt: skip


def _worked(worked: Worked) -> str:
    """How it is worked and how far: "in 5 rounds", "in 2 pieces: 6 rows, 2 rounds"."""
    told = []
    for piece in worked.pieces:
        rows = piece.fabric.rows
        one = "round" if rows and all(row.is_round for row in rows) else "row"
        told.append(f"{len(rows)} {one}{'' if len(rows) == 1 else 's'}")
    return f"in {told[0]}" if len(told) == 1 else f"in {len(told)} pieces: {', '.join(told)}"


#: That the pattern tells of its finishing itself.
_FINISHED = re.compile(r"\b(?:weave in|block(?:ed|ing)?|finishing|press(?:ed)?)\b", re.IGNORECASE)


#: That the work is ended, in a page's own words.
_ENDED = re.compile(r"\b(?:fasten(?:ed)? off|break (?:off|the)|cut (?:the )?yarn)\b", re.IGNORECASE)


def _finishing(page: _Page) -> list[Chapter]:
    """How the page finishes a piece, else how it is usually done (common practice, no source): to its size where the
    page says that."""
    own, worked = page.own, page.worked
    told = page.chapters("finishing", called="Finishing")
    if told or _FINISHED.search(own.whole):
        return list(told)
    rounds = all(row.is_round for piece in worked.pieces for row in piece.fabric.rows)
    how = "from its middle, all points equally far out" if rounds else "with straight edges"
    far = ", to the finished size" if own.sized else ""
    block = f"Block it: wet it, pin it out evenly {how}{far}, and let it dry."
    last = worked.pieces[-1].texts[-1] if worked.pieces and worked.pieces[-1].texts else None
    off = last is not None and any(isinstance(op, Act) and op.name == "fasten off" for op in last.ops)
    off = off or _ENDED.search(own.whole) is not None
    ends = "Weave in the ends." if off else "Fasten off and weave in the ends."
    return [Chapter("Finishing", (Points((ends, block)),))]


def _before(page: _Page) -> Chapter:
    """What the page says of the piece, how difficult it is, and what holds in every row."""
    worked, setting = page.worked, page.setting
    level, why = level_of(worked.fabric, pieces=len(worked.pieces))
    says = list(page.said("level")) or [f"Difficulty: {level}" + (f" ({', '.join(why)})." if why else ".")]
    said = " ".join(line.words for piece in worked.pieces for _, line in _lines(piece, page))
    said += "\n" + page.own.whole
    says += every_row([row for piece in worked.pieces for row in piece.fabric.rows], said, noted=True)
    says += counted_words([row for piece in worked.pieces for row in piece.fabric.rows], said, setting.terms)
    says += [f"How these rows are to be understood: {line}" for line in worked.assumed]
    return Chapter("Before you begin", (Paragraphs((*page.said("about"), *says, *worked.left_out)),))


def _stitches(page: _Page) -> list[Chapter]:
    """The abbreviations with those that only the page has, its special stitches as it explains them, every stitch with
    its sign."""
    terms, pattern, worked = page.setting.terms, page.worked.pattern, page.worked
    lines = [line for piece in worked.pieces for _, line in _lines(piece, page)]
    said = [f"{line.label} {line.words}" for line in lines] + page.all_told
    said += [write_start(start, terms) for start in begun(worked) if start]
    every = tuple(row for piece in worked.pieces for row in piece.fabric.rows)
    short = words.abbreviations(pattern, replace(worked.fabric, rows=every), terms, " ".join(said))
    listed, explained = _listed(page)
    named = [(s.abbreviation, _small(s.name)) for s in pattern.specials]
    table = Pairs((*named_once(short, named), *(one for one in listed if one[0] not in dict(short))))
    explained = (*explained, *(line for part in page.own.of("stitches") for line in part.said))
    special = tuple(_in_full(line, page) for line in explained)
    told = {s.kind or s.abbreviation: _told_beside(s, page, special) for s in pattern.specials}
    rows = [row for piece in worked.pieces for row in (piece.fabric.foundation, *(r.row for r in piece.fabric.rows))]
    signed = words.special_table((), terms, pattern.terms) | told
    signs = Signs(signs_of(rows, terms, signed, page.setting.sc_form))
    ways = Pairs(ways_of_writing(" ".join(said[: len(lines)] + list(special))), long=True)
    return [
        Chapter(f"Abbreviations ({terms} terms)", (table,)),
        *([Chapter("Special stitches", (Paragraphs(special),))] if special else []),
        Chapter("Stitches and their signs", (signs,)),
        Chapter("How to read the rows", (ways,)),
    ]


def _told_beside(special: Special, page: _Page, explained: Sequence[str]) -> str:
    """What stands beside a special stitch's sign: its name, and what it is where the page does not print it."""
    terms, own = page.setting.terms, page.worked.pattern.terms
    there = page.told(special.words.rstrip(".")) in "\n".join((*explained, *page.all_told))
    return f"{special.name}: {'' if there else told_in_full(special, terms, own)}"


def _small(name: str) -> str:
    """A stitch's name as it stands inside a line; a letter that is a shape stays one.

    >>> _small("Cluster"), _small("V-stitch")
    ('cluster', 'V-stitch')
    """
    return name[:1].lower() + name[1:] if name[1:2].islower() else name


def _in_full(line: str, page: _Page) -> str:
    """An explanation of the page's, with how the hook goes where it does not say that."""
    special = next((s for s in page.worked.pattern.specials if s.words and s.words.rstrip(".") in line), None)
    said = page.told(line)
    if special is None:
        return said
    terms, own = page.setting.terms, page.worked.pattern.terms
    more = told_in_full(special, terms, own).removeprefix(special_words(special, terms, own).rstrip("."))
    return f"{said.rstrip('.')}{more}." if more else said


#: One entry of a list of abbreviations: what is short, and what it means.
_ENTRY = re.compile(
    r"\s*(?:(?P<short>[^=:]{1,24}?)\s*(?:=|:|\s[–—-]\s)\s*(?P<means>\S.*?)|(?P<one>\S{1,12})\s+(?P<rest>\S.*?))[.;,\s]*"
)


def _listed(page: _Page) -> tuple[list[tuple[str, str]], tuple[str, ...]]:
    """The abbreviations of the page's own list that no one else has, with what they mean; and the explanations of its
    stitches that stand among them."""
    short, told = [], []
    specials = {s.abbreviation.lower() for s in page.worked.pattern.specials}
    lines = [line for part in page.own.of("abbreviations") for _, line in part.lines]
    entries = [line[a:b] for line in lines for a, b in pairs(plain(line))]
    for entry in entries:
        found = _ENTRY.fullmatch(entry)
        name, means = (found["short"] or found["one"], found["means"] or found["rest"]) if found else ("", "")
        if name.lower() in specials or re.sub(r".*\((.*)\)", r"\1", name).lower() in specials:
            told.append(entry.strip())
        elif found and not words.usual(name, page.worked.pattern.terms):
            short.append((name, page.told(means)))
    return short, tuple(told)


def _instructions(page: _Page) -> list[Chapter]:
    worked = page.worked
    said = page.said("work")
    out = [Chapter("Instructions", (Drawn(), *((Paragraphs(said, leads=True),) if said else ())))]
    alone = len(worked.pieces) == 1
    firsts = [piece.texts[0].line for piece in worked.pieces if piece.texts]
    for number, (piece, start) in enumerate(zip(worked.pieces, begun(worked), strict=True), 1):
        blocks: list[Block] = []
        if start is not None and alone:
            out.append(Chapter("Foundation", (Paragraphs((_begin(start, page),), leads=True),), 2))
        elif start is not None:
            blocks.append(Paragraphs((_begin(start, page),)))
        until = next((line for line in firsts if piece.texts and line > piece.texts[-1].line), _END)
        blocks += _with_talk(_lines(piece, page), page, until)
        rounds = all(row.is_round for row in piece.fabric.rows)
        unnamed = f"Piece {number}" if len(worked.pieces) > 1 else "Rounds" if rounds else "Rows"
        named = unnamed if alone else piece.name or unnamed
        times = f" (make {piece.make})" if piece.make > 1 else ""
        out.append(Chapter(f"{named[:1].upper()}{named[1:]}{times}", tuple(blocks), 2))
    return out


def _begin(start: Start, page: _Page) -> str:
    """How a piece begins, with the multiple that its page gives."""
    told = re.search(r"\((?:[^()]*\b)?multiples?\b[^()]*\)", start.text, re.IGNORECASE)
    said = write_start(start, page.setting.terms)
    return f"{said.rstrip('.')} {page.told(told[0])}." if told else said


def _with_talk(lines: Sequence[tuple[int, RowLine]], page: _Page, until: int) -> list[Block]:
    """The rows with what the page says between and after them, each at its place."""
    blocks: list[Block] = []
    for at, (line, row) in enumerate(lines):
        talk = tuple(map(page.told, page.own.between(line, lines[at + 1][0] if at + 1 < len(lines) else until)))
        if talk and talk[0].lower().startswith("fasten off"):
            row = replace(row, words=_FASTENED.sub("", row.words))
        if blocks and isinstance(blocks[-1], Rows):
            blocks[-1] = Rows((*blocks[-1].lines, row))
        else:
            blocks.append(Rows((row,)))
        if talk:
            blocks.append(Paragraphs(talk))
    return blocks


def _lines(piece: WorkedPiece, page: _Page) -> list[tuple[int, RowLine]]:
    """The rows in words with their worked counts, each with its line on the page; rows told together on one line."""
    terms = page.setting.terms
    out: list[tuple[int, RowLine]] = []
    before: RowText | None = None
    noted = _begun_otherwise(piece.fabric.rows)
    marked = any(text.side for text in piece.texts)
    turned = next((row for row in piece.fabric.rows if row.side == "WS"), None) if marked else None
    for text, row in zip(piece.texts, piece.fabric.rows, strict=False):
        if before is text or (before is not None and text.line == before.line and text.last > text.first):
            line, last = out[-1]
            out[-1] = line, replace(last, rows=last.rows + 1)
            continue
        before = text
        stated = text.stated or (words.stated_of(row.row) if text.first == text.last else ())
        count = write_stated(_in_number(stated, page), terms, at_end=text.stated_at_end)
        side = f" ({row.side})" if text.side or row is turned else ""
        ops, last_words = fastened(text)
        said = f"{write_ops(words.joined_ops(ops, row), terms, is_round=row.is_round)}{count}{last_words}"
        label = re.sub(r"(?<=\d)-(?=\d)", "–", text.label)
        out.append((text.line, RowLine(f"{label}{side}", said, note=_first_goes(row, noted, terms, said))))
    return out


def _in_number(stated: Sequence[Stated], page: _Page) -> tuple[Stated, ...]:
    """A count with the plural of the stitches that the page calls by a word: "6 fans"; what is short has none."""
    words_of = {s.abbreviation for s in page.worked.pattern.specials if s.abbreviation.lower() == s.name.lower()}
    return tuple(
        replace(one, noun=replace(one.noun, name=f"{one.noun.name}s"))
        if one.count != 1 and one.noun.name in words_of and not plural(one.noun, 2, "US").endswith("s") else one
        for one in stated
    )  # fmt: skip


def _begun_otherwise(rows: Sequence[WorkedRow]) -> dict[int, WorkedRow]:
    """The rounds that begin at the join, with the round before each, where not all of a piece do."""
    begun, rounds = begun_at_the_join(rows), sum(row.is_round for row in rows) - 1
    return {b.number: a for a, b in pairwise(rows) if b.number in begun} if len(begun) < rounds - 1 else {}


def _first_goes(row: WorkedRow, noted: Mapping[int, WorkedRow], terms: Terms, said: str) -> str:
    """Where the first stitch of a round goes, of those that are `noted` and whose words do not say it."""
    before = None if "as join" in said else noted.get(row.number)
    first = next((made.kind for made in row.row.stitches if made.role == "stitch"), "")
    if before is None or not first:
        return ""
    return f"The first {show_stitch(first, terms)} goes into the place where rnd {before.number} was joined."
