"""The booklet of a written pattern: its rows in tidy words, piece by piece, its stitches and charts, and its talk."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace
from itertools import pairwise

from ...model.cloth.fabric import WorkedRow
from ...model.rows.working import Worked, WorkedPiece
from ...pattern.lexicon import show_stitch
from ...pattern.tree import Act, RowText
from ...pattern.writer import write_ops, write_special, write_start, write_stated
from ...setting import Setting, Terms
from .. import words
from ..tidied import begun, fastened
from .book import Block, Book, Chapter, Drawn, Pairs, Paragraphs, Picture, Plate, Points, RowLine, Rows, Signs
from .how_to_read import ways_of_writing
from .level import level_of
from .making import begun_at_the_join, every_row, told_in_full
from .own_words import OwnWords
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
    words."""
    care = Chapter("Take care", (Points(words.general_cautions()),))
    needs = own.needs
    stated = (Paragraphs(tuple(said for _, said in needs)),) if needs else ()
    also = "Also: a" if needs else "A"
    tools = Paragraphs((f"{also} yarn needle for the ends, scissors, a tape measure{_to_block(worked)}.",))
    needed = [Chapter("Materials and gauge" if needs else "Materials", (*stated, tools))]
    sized = own.sized
    own = replace(own, talk=tuple(one for one in own.talk if one not in needs))
    chapters = (
        *needed, *_stitches(worked, setting), _before(worked, own, setting),
        *_instructions(worked, own, setting), *_finishing(worked, own, sized=sized), care,
    )  # fmt: skip
    facts = (("Worked", _worked(worked)), ("Terms", setting.terms))
    return Book(
        title, own.author, own.licence, facts, cover, chapters=chapters, plates=tuple(plates),
        paper=setting.paper, columns=columns,
    )  # fmt: skip


def _worked(worked: Worked) -> str:
    """How it is worked and how far: "in 5 rounds", "in 2 pieces: 6 rows, 2 rounds"."""
    told = []
    for piece in worked.pieces:
        rows = piece.fabric.rows
        one = "round" if rows and all(row.is_round for row in rows) else "row"
        told.append(f"{len(rows)} {one}{'' if len(rows) == 1 else 's'}")
    return f"in {told[0]}" if len(told) == 1 else f"in {len(told)} pieces: {', '.join(told)}"


def _to_block(worked: Worked) -> str:
    """What open work is pinned out with (common practice, no source)."""
    open_work = any(s.role == "chain" for p in worked.pieces for row in p.fabric.rows for s in row.row.stitches)
    return ", rustproof pins and a soft board to block it on" if open_work else ""


#: That the pattern tells of its finishing itself.
_FINISHED = re.compile(r"\b(?:weave in|block(?:ed|ing)?|finishing|press(?:ed)?)\b", re.IGNORECASE)


#: That the work is ended, in a page's own words.
_ENDED = re.compile(r"\b(?:fasten(?:ed)? off|break (?:off|the)|cut (?:the )?yarn)\b", re.IGNORECASE)


def _finishing(worked: Worked, own: OwnWords, *, sized: bool) -> list[Chapter]:
    """How a piece is usually finished (common practice, no source), where the page does not tell it; to its size where
    the page is `sized`."""
    if any(_FINISHED.search(said) for _, said in own.talk):
        return []
    rounds = all(row.is_round for piece in worked.pieces for row in piece.fabric.rows)
    how = "from its middle, all points equally far out" if rounds else "with straight edges"
    far = ", to the finished size" if sized else ""
    block = f"Block it: wet it, pin it out evenly {how}{far}, and let it dry."
    last = worked.pieces[-1].texts[-1] if worked.pieces and worked.pieces[-1].texts else None
    off = last is not None and any(isinstance(op, Act) and op.name == "fasten off" for op in last.ops)
    off = off or any(_ENDED.search(said) for _, said in own.talk)
    ends = "Weave in the ends." if off else "Fasten off and weave in the ends."
    return [Chapter("Finishing", (Points((ends, block)),))]


def _before(worked: Worked, own: OwnWords, setting: Setting) -> Chapter:
    level, why = level_of(worked.fabric, pieces=len(worked.pieces))
    says = [f"Difficulty: {level}" + (f" ({', '.join(why)})." if why else ".")]
    said = " ".join(line.words for piece in worked.pieces for _, line in _lines(piece, setting.terms))
    says += every_row([row for piece in worked.pieces for row in piece.fabric.rows], said, noted=True)
    says += [f"How these rows are to be understood: {line}" for line in worked.assumed]
    says += worked.left_out
    first = min((row.line for piece in worked.pieces for row in piece.texts), default=0)
    told = own.between(0, first)
    if told and worked.pattern.terms != setting.terms:
        says.append(f"What follows here is said in the pattern's own words, in {worked.pattern.terms} terms.")
    return Chapter("Before you begin", (Paragraphs((*says, *told)),))


def _stitches(worked: Worked, setting: Setting) -> list[Chapter]:
    terms, pattern = setting.terms, worked.pattern
    told = {s.kind or s.abbreviation: f"{s.name}: {told_in_full(s, terms, pattern.terms)}" for s in pattern.specials}
    lines = [line for piece in worked.pieces for _, line in _lines(piece, terms)]
    said = [f"{line.label} {line.words}" for line in lines]
    said += [write_special(s, terms, pattern.terms) for s in pattern.specials] + list(told.values())
    said += [write_start(start, terms) for start in begun(worked) if start]
    every = tuple(row for piece in worked.pieces for row in piece.fabric.rows)
    fabric = replace(worked.fabric, rows=every)
    short = words.abbreviations(pattern, fabric, terms, " ".join(said))
    table = Pairs(named_once(short, [(s.abbreviation, s.name) for s in pattern.specials]))
    explained = words.special_table(pattern.specials, terms, pattern.terms) | told
    rows = [row for piece in worked.pieces for row in (piece.fabric.foundation, *(r.row for r in piece.fabric.rows))]
    signs = Signs(signs_of(rows, terms, explained, setting.sc_form))
    ways = Pairs(ways_of_writing(" ".join(said)), long=True)
    return [
        Chapter(f"Abbreviations ({terms} terms)", (table,)),
        Chapter("Stitches and their signs", (signs,)),
        Chapter("How to read the rows", (ways,)),
    ]


def _instructions(worked: Worked, own: OwnWords, setting: Setting) -> list[Chapter]:
    out = [Chapter("Instructions", (Drawn(),))]
    alone = len(worked.pieces) == 1
    firsts = [piece.texts[0].line for piece in worked.pieces if piece.texts]
    for number, (piece, start) in enumerate(zip(worked.pieces, begun(worked), strict=True), 1):
        blocks: list[Block] = []
        if start is not None and alone:
            out.append(Chapter("Foundation", (Paragraphs((write_start(start, setting.terms),)),), 2))
        elif start is not None:
            blocks.append(Paragraphs((write_start(start, setting.terms),)))
        until = next((line for line in firsts if piece.texts and line > piece.texts[-1].line), _END)
        blocks += _with_talk(_lines(piece, setting.terms), own, until)
        rounds = all(row.is_round for row in piece.fabric.rows)
        unnamed = f"Piece {number}" if len(worked.pieces) > 1 else "Rounds" if rounds else "Rows"
        named = unnamed if alone else piece.name or unnamed
        times = f" (make {piece.make})" if piece.make > 1 else ""
        out.append(Chapter(f"{named[:1].upper()}{named[1:]}{times}", tuple(blocks), 2))
    return out


def _with_talk(lines: Sequence[tuple[int, RowLine]], own: OwnWords, until: int) -> list[Block]:
    """The rows with what the page says between and after them, each at its place."""
    blocks: list[Block] = []
    for at, (line, row) in enumerate(lines):
        talk = own.between(line, lines[at + 1][0] if at + 1 < len(lines) else until)
        if talk and talk[0].lower().startswith("fasten off"):
            row = replace(row, words=_FASTENED.sub("", row.words))
        if blocks and isinstance(blocks[-1], Rows):
            blocks[-1] = Rows((*blocks[-1].lines, row))
        else:
            blocks.append(Rows((row,)))
        if talk:
            blocks.append(Paragraphs(talk))
    return blocks


def _lines(piece: WorkedPiece, terms: Terms) -> list[tuple[int, RowLine]]:
    """The rows in words with their worked counts, each with its line on the page; rows told together on one line."""
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
        stated = words.stated_as(row.row, text) if text.first == text.last else text.stated
        count = write_stated(stated, terms, at_end=text.stated_at_end)
        side = f" ({row.side})" if text.side or row is turned else ""
        ops, last_words = fastened(text)
        said = f"{write_ops(words.joined_ops(ops, row), terms, is_round=row.is_round)}{count}{last_words}"
        out.append((text.line, RowLine(f"{text.label}{side}", said, note=_first_goes(row, noted, terms, said))))
    return out


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
