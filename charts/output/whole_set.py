"""Everything that a piece gives, as files."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from typing import cast

from ..drawing.display import Document
from ..layout.assembly.sheets import name_of
from ..made_late import replace
from ..pattern.file.kinds import OBJECT_KINDS
from ..setting import ChartSetting, Setting
from .booklet.book import Picture, Plate
from .booklet.contents import MOCK_UP, book_of
from .booklet.of_written import written_book
from .booklet.own_words import own_words
from .booklet.plates import plates_of
from .booklet.press import press_here, pressed
from .booklet.repeats import repeats_of_sizes
from .drawn import cover_of, piece_assembly, piece_chart, piece_images, piece_template, written_charts
from .export import cairo_here
from .images.beside import beside
from .pages.followed import followed_piece
from .piece import Piece
from .rendered import rendered
from .said import all_sizes, piece_words, piece_yarn, yarn_of_piece
from .size_words import pieces_of_sizes
from .written import title_of, worked_text


def _sheet(stem: str, document: Document) -> dict[str, bytes]:
    """A sheet in the formats that can be made on this system."""
    formats = ("svg", "png", "pdf") if cairo_here() else ("svg",)
    return {f"{stem}.{suffix}": data for suffix, data in rendered(document, formats).items()}


def _template(piece: Piece, setting: Setting) -> dict[str, bytes]:
    if not cairo_here() or not _tried_on(piece):
        return {}
    return {"template.pdf": rendered(piece_template(piece, setting), ("pdf",))["pdf"]}


def _tried_on(piece: Piece) -> bool:
    """Whether paper can be tried on something or folded: a flat piece that fits nothing is told by its measures."""
    kind = OBJECT_KINDS[piece.plan.kind]
    return kind.holds or bool(kind.tried) or bool(piece.folding.stages)


def _each_size(piece: Piece, setting: Setting) -> dict[str, bytes]:
    """The folding and the paper mock-up of every size, where the pattern has several."""
    made: dict[str, bytes] = {}
    for name, one in pieces_of_sizes(piece, setting.hand).items() if cairo_here() else ():
        pattern = replace(one.pattern, title=f"{piece.pattern.title}, size {name}")
        titled, stem = replace(one, pattern=pattern), re.sub(r"[^\w.-]+", "-", name).strip("-.") or "size"
        made[f"assembly-{stem}.pdf"] = rendered(piece_assembly(titled, setting), ("pdf",))["pdf"]
        if not _tried_on(titled):
            continue
        made[f"template-{stem}.pdf"] = rendered(piece_template(titled, setting), ("pdf",))["pdf"]
    return made


def _sizes(piece: Piece, setting: Setting) -> dict[str, bytes]:
    """The sizes' table, where the pattern has several."""
    return {"sizes.md": all_sizes(piece, setting).encode("utf-8")} if piece.pattern.sizes else {}


def _booklet(piece: Piece, setting: Setting, shown: Picture | None) -> dict[str, bytes]:
    """The booklet with a picture on its cover, where there is a press to set it."""
    return {"booklet.pdf": piece_booklet(piece, setting, 1, shown)} if press_here() else {}


def piece_booklet(piece: Piece, setting: Setting, columns: int, photo: Picture | None) -> bytes:
    """All that a piece gives as one printed document, as PDF."""
    sizes = pieces_of_sizes(piece, setting.hand)
    shown, name = _drawn_size(piece, sizes)
    titled, extra = shown, None  # the same piece as is drawn alone, so that a chart that is drawn is not drawn again
    if name:
        titled = replace(shown, pattern=replace(shown.pattern, title=f"{piece.pattern.title}, size {name}"))
        extra = ChartSetting(says=repeats_of_sizes(sizes, name))
    plates = (
        *plates_of("Chart", piece_chart(titled, setting, extra)),
        *(() if OBJECT_KINDS[shown.plan.kind].rounds else  # drawn with its sizes where these are told
          plates_of(name_of(titled.folding), piece_assembly(titled, setting, in_words=False))),
        *_mock_ups(sizes if name else {"": titled}, setting),
    )
    sized = {name: (one, yarn_of_piece(one)) for name, one in sizes.items()}
    return pressed(book_of(shown, yarn_of_piece(shown), sized, plates, setting, cover=photo, columns=columns))


def _mock_ups(pieces: Mapping[str, Piece], setting: Setting) -> list[Plate]:
    """The paper mock-up of every size, under the size's name where it has one."""
    out: list[Plate] = []
    for name, one in pieces.items():
        if _tried_on(one):
            pattern = replace(one.pattern, title=f"{one.pattern.title}, size {name}" if name else one.pattern.title)
            titled = replace(one, pattern=pattern) if name else one
            out += plates_of(f"{MOCK_UP}, size {name}" if name else MOCK_UP, piece_template(titled, setting))
    return out


def _drawn_size(piece: Piece, sizes: Mapping[str, Piece]) -> tuple[Piece, str]:
    """The piece that is drawn where there are several sizes, and its name: the file's own object where it is one of
    them, else the smallest; of a single size the piece itself and ""."""
    if len(sizes) < 2:
        return piece, ""
    name = next((name for name, one in sizes.items() if one.plan == piece.plan), next(iter(sizes)))
    return sizes[name], name


def text_booklet(text: str, name: str, setting: Setting, columns: int, photo: Picture | None) -> bytes:
    """A written pattern as one printed document, as PDF."""
    worked = worked_text(text, name)
    own = own_words(text, worked)
    title = own.title or title_of(name)
    plates = [plate for head, sheet in written_charts(worked, title, setting) for plate in plates_of(head, sheet)]
    return pressed(written_book(worked, own, title, plates, setting, cover=photo, columns=columns))


def text_lacks(text: str, name: str) -> tuple[str, ...]:
    """What a buyer looks for in a booklet and a written pattern does not give."""
    return own_words(text, worked_text(text, name)).lacks


#: The files of a piece in the order they are made: what is said meanwhile, and how they come from it.
PARTS: dict[str, Callable[[Piece, Setting], dict[str, bytes]]] = {
    "drawing the chart": lambda piece, setting: _sheet("chart", piece_chart(piece, setting)),
    "drawing the folding": lambda piece, setting: _sheet("assembly", piece_assembly(piece, setting)),
    "drawing the paper mock-up": _template,
    "drawing every size": _each_size,
    "writing the words": lambda piece, setting: {"instructions.md": piece_words(piece, setting).encode("utf-8")},
    "reckoning the yarn": lambda piece, setting: {"yarn.md": piece_yarn(piece).encode("utf-8")},
    "tabling the sizes": _sizes,
    "writing the page to follow": lambda piece, setting: {"follow.html": followed_piece(piece, setting)},
}
#: What is made of the pictures, last, for these are drawn meanwhile where there are two cores.
PICTURED = ("setting the booklet", "drawing the images")


def whole_set(
    piece: Piece, setting: Setting, photo: Picture | None, on_step: Callable[[int, str], None]
) -> dict[str, bytes]:
    """Everything a piece gives, by file name; `on_step` hears how many parts are done and which comes next."""

    def cover() -> Picture | None:
        return photo or (cover_of(piece, piece.pattern.file, setting) if press_here() else None)

    out: dict[str, bytes] = {}
    with beside((cover, lambda: piece_images(piece, setting, photo))) as pictures:
        for done, (what, part) in enumerate(PARTS.items()):
            on_step(done, what)
            out.update(part(piece, setting))
        on_step(len(PARTS), PICTURED[0])
        out.update(_booklet(piece, setting, cast("Picture | None", pictures())))
        on_step(len(PARTS) + 1, PICTURED[1])
        out.update(cast("dict[str, bytes]", pictures()))
    return out
