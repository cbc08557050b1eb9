"""The booklet of a written pattern: its rows in tidy words, piece by piece, its stitches, and its chart."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ...model.rows.working import Worked, WorkedPiece
from ...pattern.tree import RowText
from ...pattern.writer import write_ops, write_special, write_start, write_stated
from ...setting import Setting
from .. import words
from .book import Block, Book, Chapter, Pairs, Paragraphs, Picture, Plate, Points, RowLine, Rows, Signs
from .level import level_of
from .signs import signs_of


def written_book(
    worked: Worked, title: str, plates: Sequence[Plate], setting: Setting, *,
    cover: Picture | None = None, columns: int = 1,
) -> Book:  # fmt: skip
    """The booklet of a written pattern; it says nothing of sizes, gauge and yarn, which the text does not give."""
    care = Chapter("Take care", (Points(words.general_cautions()),))
    chapters = (_before(worked), *_stitches(worked, setting), *_instructions(worked, setting), care)
    called = worked.pattern.title or title
    return Book(
        called, facts=(("Terms", setting.terms),), cover=cover, chapters=chapters, plates=tuple(plates),
        paper=setting.paper, columns=columns,
    )  # fmt: skip


def _before(worked: Worked) -> Chapter:
    level, why = level_of(worked.fabric, pieces=len(worked.pieces))
    says = [f"Difficulty: {level}, reckoned from the stitches" + (f" ({', '.join(why)})." if why else ".")]
    says += [f"Taken as so: {line}" for line in worked.assumed]
    says.append("Yarn, hook, gauge and size are not given by the words of the pattern; work a swatch first.")
    return Chapter("Before you begin", (Paragraphs(tuple(says)),))


def _stitches(worked: Worked, setting: Setting) -> list[Chapter]:
    terms, pattern = setting.terms, worked.pattern
    said = " ".join(line.words for piece in worked.pieces for line in _lines(piece, terms))
    said += " ".join(write_special(s, terms, pattern.terms) for s in pattern.specials)
    table = Pairs(tuple(words.abbreviations(pattern, worked.fabric, terms, said)))
    own = words.special_table(pattern.specials, terms, pattern.terms)
    rows = [row for piece in worked.pieces for row in (piece.fabric.foundation, *(r.row for r in piece.fabric.rows))]
    signs = Signs(signs_of(rows, terms, own, setting.sc_form))
    return [
        Chapter(f"Abbreviations ({terms} terms)", (table,)),
        Chapter("Stitches and their signs", (signs,)),
    ]


def _instructions(worked: Worked, setting: Setting) -> list[Chapter]:
    out = [Chapter("Instructions")]
    for number, piece in enumerate(worked.pieces, 1):
        blocks: list[Block] = []
        start = worked.pattern.start if number == 1 else None
        if start is not None and start.how != "none":
            blocks.append(Paragraphs((write_start(start, setting.terms),)))
        blocks.append(Rows(_lines(piece, setting.terms)))
        rounds = all(row.is_round for row in piece.fabric.rows)
        named = piece.name or (f"Piece {number}" if len(worked.pieces) > 1 else "Rounds" if rounds else "Rows")
        times = f" (make {piece.make})" if piece.make > 1 else ""
        out.append(Chapter(f"{named[:1].upper()}{named[1:]}{times}", tuple(blocks), 2))
    return out


def _lines(piece: WorkedPiece, terms: str) -> tuple[RowLine, ...]:
    """The rows in words with their worked counts; rows told together on one line."""
    out: list[RowLine] = []
    before: RowText | None = None
    for text, row in zip(piece.texts, piece.fabric.rows, strict=True):
        if before is text or (before is not None and text.line == before.line and text.last > text.first):
            last = out[-1]
            out[-1] = replace(last, rows=last.rows + 1)
            continue
        before = text
        stated = words.stated_of(row.row) if text.first == text.last else text.stated
        count = write_stated(stated, terms, at_end=text.stated_at_end)
        side = f" ({row.side})" if text.side else ""
        said = f"{write_ops(text.ops, terms, is_round=row.is_round)}{count}"
        out.append(RowLine(f"{text.label}{side}", said))
    return tuple(out)
