"""A written pattern in tidy words: piece by piece, every row with its worked count."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

from ..made_late import replace
from ..model.cloth.fabric import Fabric
from ..model.cloth.tiles import counted_in_blocks, rows_of_tiles
from ..model.rows.working import Worked, WorkedPiece
from ..pattern.said_in import said_in
from ..pattern.tree import Act, Noun, Op, RowText, Start, Stated
from ..pattern.writer import write_ops, write_special, write_start, write_stated
from .words import stated_as


def tidied(worked: Worked, terms: str) -> str:
    """A written pattern in tidy words, piece by piece, every row with its worked count."""
    lines = [f"Terms: {terms}", ""]
    lines += [write_special(s, terms, worked.pattern.terms) for s in worked.pattern.specials]
    for piece, start in zip(worked.pieces, begun(worked), strict=True):
        if len(worked.pieces) > 1:
            lines += ["", f"{piece.name or 'Piece'}{f' (make {piece.make})' if piece.make > 1 else ''}"]
        if start is not None:
            lines.append(write_start(start, terms))
        lines += tidied_rows(piece.fabric, piece.texts, terms, told_behind(worked, piece, terms))
    return "\n".join([*lines, *(f"# {says}" for says in worked.left_out)]) + "\n"


#: How a sentence begins that tells the hands something to do with the piece between rows: "Stuff the ball."
_TO_DO = re.compile(
    r"^\W*(?:(?:now|then|next|before you go on|at this point|here),? )?"
    r"(?:(?:begin|start|continue|finish)(?: to|ning| by)? )?"
    r"(?:stuff|fill|insert|place|put|attach|fix|sew|embroider|glue|weave|turn|fold|pin|slip|thread|gather|flatten|add|"
    r"remove|mark|leave|close)(?:ing)?\b",
    re.IGNORECASE,
)
#: Longer talk is no remark between two rows.
_LONGEST_REMARK = 200


def told_behind(worked: Worked, piece: WorkedPiece, terms: str) -> dict[int, tuple[str, ...]]:
    """What a page tells the hands to do between the rows of a piece, in its own words, by the line of the row that it
    stands behind."""
    lines = sorted({text.line for text in piece.texts})
    out: dict[int, tuple[str, ...]] = {}
    for line, said in worked.prose:
        above = [n for n in lines if n < line]
        if above and line < lines[-1] and line not in lines and len(said) <= _LONGEST_REMARK and _TO_DO.match(said):
            shown = said_in(said.strip(), worked.pattern.terms, terms)
            out[above[-1]] = (*out.get(above[-1], ()), shown if shown.endswith((".", "!")) else f"{shown}.")
    return out


def begun(worked: Worked) -> list[Start | None]:
    """How each piece of a written pattern begins; None of one that begins on nothing of its own."""
    out: list[Start | None] = []
    for number, piece in enumerate(worked.pieces):
        start = piece.texts[0].begins if piece.texts else None
        start = start or (worked.pattern.start if number == 0 else None)
        out.append(start if start is not None and start.how != "none" else None)
    return out


def tidied_rows(
    fabric: Fabric, texts: Sequence[RowText], terms: str, told: Mapping[int, Sequence[str]] | None = None
) -> list[str]:
    """The rows of a written pattern in tidy words, each with its worked count; rows told together on one line. Behind
    the last row of a line stands what is `told` there."""
    lines = []
    done: set[int] = set()
    in_blocks = counts_in_blocks(fabric)
    for at, (text, row) in enumerate(zip(texts, fabric.rows, strict=False)):
        if text.line in done and text.last > text.first:
            continue
        done.add(text.line)
        own = in_blocks.get(at) or stated_as(row.row, text)
        stated = own if text.first == text.last else text.stated
        shown = replace(text, stated=stated)
        side = f" ({row.side})" if text.side else ""
        count = write_stated(shown.stated, terms, at_end=shown.stated_at_end)
        ops, after = fastened(text)
        lines.append(f"{shown.label}{side}: {write_ops(ops, terms, is_round=row.is_round)}{count}{after}")
        behind = texts[at + 1 :] if text.first == text.last else ()
        if told and not any(other.line == text.line for other in behind):
            lines += told.get(text.line, ())
    return lines


def counts_in_blocks(fabric: Fabric) -> dict[int, tuple[Stated, ...]]:
    """The counts of the rows, from 0, that are worked from corner to corner: blocks, and the stitches in them."""
    out: dict[int, tuple[Stated, ...]] = {}
    for at, tiles in enumerate(rows_of_tiles(fabric)):
        blocks, made = counted_in_blocks(tiles)
        kind = fabric.rows[at].row.stitches[tiles[0].posts[0]].kind
        out[at] = (Stated(blocks, Noun("block")), Stated(made, Noun(kind)))
    return out


def fastened(text: RowText) -> tuple[tuple[Op, ...], str]:
    """A row's words without the fastening off that comes when a run of rows is done, and that as words of its own."""
    last = text.ops[-1] if text.ops else None
    if text.last > text.first and isinstance(last, Act) and last.name == "fasten off":
        return text.ops[:-1], " Fasten off."
    return text.ops, ""
