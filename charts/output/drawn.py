"""The sheets of a piece and of a written pattern: what of each goes to the layout that draws it."""

from __future__ import annotations

import functools

from ..drawing.display import Document
from ..folding.folds import folding_of
from ..layout.assembly.sheets import assembly_document
from ..layout.assembly.template import template_document
from ..layout.chart.either import chart_document
from ..layout.chart.margins import Colour
from ..layout.shapes.edged import edging_of
from ..made_late import replace
from ..model.multiples.of_foundation import chain_multiple
from ..model.rows.working import Worked
from ..model.sections.read import Read
from ..model.sizing.worn import worn_plan
from ..pattern.tree import WrittenPattern
from ..picture.encoded import encoded
from ..setting import ChartSetting, Heading, Setting
from . import words
from .booklet.book import Picture
from .booklet.own_words import titled
from .images.fabric import WHOLE_PX, cover_view, fabric_file
from .images.shared import shared_piece, shared_written
from .piece import Piece, heading_of, is_tube, laid_open
from .written import name_of, not_drawn, worked_text


@functools.lru_cache(maxsize=1)
def piece_chart(piece: Piece, setting: Setting, extra: ChartSetting | None = None) -> Document:
    """The stitch chart of a piece, in the colours it names and with its own stitches in words."""
    colours = {c.letter: Colour(c.name, c.hex) for c in piece.pattern.colours}
    special = _special(piece.read, setting)
    repeat = piece.plan.multiple_of if piece.plan.multiple_of > 1 else None
    fabric = laid_open(piece.fabric) if is_tube(piece.fabric) else piece.fabric
    return chart_document(fabric, heading_of(piece, setting), setting, colours, special, repeat, extra=extra)


def _special(read: WrittenPattern | Read, setting: Setting) -> dict[str, str]:
    """What the key says of the stitches of a written pattern, or of a pattern file, in words, by their kind."""
    rows = [row for each in (read.sections if isinstance(read, Read) else (read,)) for row in each.rows]
    told = words.special_table(read.specials, setting.terms, read.terms)
    return words.invisible_decreases([row.text for row in rows]) | told


def written_chart(worked: Worked, title: str, setting: Setting, extra: ChartSetting | None = None) -> Document:
    """The stitch chart of a written pattern under its title."""
    special = _special(worked.pattern, setting)
    multiple = chain_multiple(worked)
    repeat = multiple.of if multiple and multiple.of > 1 else None
    heading = Heading(title, terms=setting.terms)
    more = extra or ChartSetting()
    more = replace(more, says=(*more.says, *not_drawn(worked)))
    return chart_document(worked.fabric, heading, setting, {}, special, repeat, extra=more)


def written_charts(worked: Worked, title: str, setting: Setting) -> list[tuple[str, Document]]:
    """The stitch chart of every piece of a written pattern of that title, each under its own heading."""
    if len(worked.pieces) < 2:
        return [("Chart", written_chart(worked, title, setting))]
    special = _special(worked.pattern, setting)
    out = []
    for number, piece in enumerate(worked.pieces, 1):
        called = name_of(piece, number)
        heading = Heading(f"{title}: {called}", terms=setting.terms)
        out.append((f"Chart: {called}", chart_document(piece.fabric, heading, setting, {}, special)))
    return out


@functools.lru_cache(maxsize=1)
def piece_assembly(piece: Piece, setting: Setting, in_words: bool = True) -> Document:
    """How a piece is folded, joined and bordered; the joins and the border `in_words` too where these stand nowhere
    else."""
    return assembly_document(
        piece.plan, heading_of(piece, setting), setting,
        folding=piece.folding, border=piece.border, bordered=piece.border is not None, in_words=in_words,
    )  # fmt: skip


def piece_template(piece: Piece, setting: Setting, cut: str = "worn") -> Document:
    """The paper mock-up: cut as "worn" on the object with the piece as worked dotted, or as "worked"."""
    heading, unit = heading_of(piece, setting), piece.plan.unit
    worn = folding_of(worn_plan(piece.plan), hand=setting.hand, folds=piece.pattern.folds)
    lies = {"worn": (worn, piece.folding, "the piece as worked"), "worked": (piece.folding, worn, "the size as worn")}
    folding, other, called = lies[cut]
    return template_document(piece.plan, heading, setting.paper, unit, folding=folding, dotted=(other, called))


def piece_images(piece: Piece, setting: Setting, photo: Picture | None = None) -> dict[str, bytes]:
    """Images for sharing and their descriptions, by file name; `photo` stands in them where the maker has one."""
    special = _special(piece.read, setting)
    return shared_piece(piece, heading_of(piece, setting), setting, special, photo.data if photo else None)


def text_images(text: str, name: str, setting: Setting, photo: Picture | None = None) -> dict[str, bytes]:
    """Images of a written pattern and their descriptions, by file name."""
    worked = worked_text(text, name)
    special = _special(worked.pattern, setting)
    heading = Heading(titled(text, worked, name), terms=setting.terms)
    return shared_written(worked, heading, setting, special, photo.data if photo else None)


def cover_of(worked: Piece | Worked, name: str, setting: Setting) -> Picture:
    """The fabric as it will look, on its object where it is folded, for a cover; a long piece also close up."""
    if isinstance(worked, Piece):
        made, bare = encoded(cover_view(worked, setting.hand), "jpg"), False
    else:
        bare = bool(edging_of(worked.fabric))
        made = fabric_file(worked, name, setting.hand, ("flat", "right", WHOLE_PX, "jpg"))
    under = "Drawn stitch by stitch from the pattern; not a photograph."
    if bare:
        under = f"{under} The rounds about its edge are not in it."
    return Picture(made, "jpg", "The piece as it will look, drawn from its stitches", under)
