"""The whole flow on one page: a pattern's text in; a report, words, sheets and images out.

A storey is loaded where its step is taken: what checks a text loads nothing that folds or draws.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from .errors import PatternError
from .pattern.text_kind import is_written, measured_or_raise
from .setting import ChartSetting, Heading, Setting, Wanted

if TYPE_CHECKING:
    from .model.rows.working import Worked
    from .output.booklet.book import Picture
    from .output.checking.report import Report
    from .output.images.fabric import Asked
    from .output.pages.gallery import Card
    from .output.piece import Piece
    from .output.review.point import Point

Step = Callable[[int, int, str], None]


def work_file(text: str, name: str, hand: str = "right", size: str = "") -> Piece:
    """Read, size, work, fold and border a pattern file, as its object is measured or in one of its sizes; PatternError
    with every problem found, SizeUnknown where it gives no such size."""
    from .model.sections.read import read_sections
    from .model.sizing.from_pattern import request_of
    from .model.sizing.size import size as sized
    from .output.checking.sizes_read import of_size
    from .output.piece import worked_piece
    from .pattern.file.read import read_pattern

    # What the file says, key by key.
    pattern = of_size(read_pattern(text, name), size)
    # What the rows of its sections say, and of how many stitches they are a multiple.
    read = read_sections(pattern)
    # How many stitches and rows fit the object.
    plan = sized(request_of(pattern, [section.text for section in read.sections]))
    # The rows worked over that many stitches, the piece folded, joined and bordered.
    return worked_piece(pattern, read, plan, hand)


def worked_through(text: str, name: str, hand: str = "right", size: str = "") -> Piece | Worked:
    """A pattern of either kind, worked as far as it can be drawn; PatternError with every problem found."""
    from .output.written import worked_text

    return worked_text(text, name) if is_written(name, text) else work_file(text, name, hand, size)


def _written(text: str, name: str, setting: Setting) -> bool:
    """Whether it is a written pattern; SizeUnknown where one of its sizes is asked for, which only `check` reads."""
    written = is_written(name, text)
    if written and setting.size:
        from .output.checking.sizes_read import SizeUnknown

        raise SizeUnknown("of a written pattern hookfold check reads a size; leave --size out")
    return written


# -- said -----------------------------------------------------------------------------------------------------------


def check(text: str, name: str, size: str = "") -> Report:
    """Read and work a pattern and say what is wrong with it, what it makes and how it fits. `size` is which of the
    sizes of a written pattern is read, by name or by place from 1; SizeUnknown where it gives no such size."""
    from .output.checking.checked import checked_piece, checked_text, refused
    from .output.checking.sizes_read import SizeUnknown

    if is_written(name, text):
        return checked_text(text, name, size)
    if size:
        raise SizeUnknown("a pattern file is checked in all its sizes; leave --size out")
    try:
        return checked_piece(work_file(text, name), name)
    except PatternError as found:
        return refused(found, name)


def review(text: str, name: str, setting: Setting) -> tuple[Point, ...]:
    """What a technical editor looks at, point by point; PatternError where a pattern file cannot be worked."""
    from .output.review.reviewed import reviewed_piece, reviewed_text

    checked = check(text, name)
    if is_written(name, text):
        return reviewed_text(text, checked)
    return reviewed_piece(work_file(text, name, setting.hand, setting.size), checked, setting)


def tester(text: str, name: str, setting: Setting) -> str:
    """The sheet for those who try a pattern file before it is published, as Markdown."""
    from .output.review.reviewed import tested_piece

    return tested_piece(work_file(measured_or_raise(text, name), name, setting.hand, setting.size), setting.hand)


def instructions(text: str, name: str, setting: Setting) -> str:
    """The written pattern, every row with its count; PatternError where it cannot be worked."""
    from .output.said import piece_words
    from .output.tidied import tidied
    from .output.written import worked_text

    if _written(text, name, setting):
        return tidied(worked_text(text, name), setting.terms)
    return piece_words(work_file(text, name, setting.hand, setting.size), setting)


def follow(text: str, name: str, setting: Setting) -> bytes:
    """The page to work from, row by row, as HTML; PatternError where the pattern cannot be worked."""
    from .output.pages.followed import followed_piece, followed_text

    if _written(text, name, setting):
        return followed_text(text, name, setting)
    return followed_piece(work_file(text, name, setting.hand, setting.size), setting)


def fit_page(text: str, name: str, setting: Setting) -> bytes:
    """The page on which a reader fits a pattern file to her own object and gauge, as HTML; NotTold where none can."""
    from .output.pages.followed import fitted_piece

    return fitted_piece(work_file(measured_or_raise(text, name), name, setting.hand, setting.size), setting)


def card(text: str, name: str) -> Card | None:
    """What a gallery shows of a pattern, its faults too; None of a text that gives no rows at all."""
    from .output.pages.carded import faults_card, piece_card, text_card

    try:
        return text_card(text, name) if is_written(name, text) else piece_card(work_file(text, name))
    except PatternError as found:
        return faults_card(found, name)


def yarn(text: str, name: str, size: str = "") -> str:
    """The yarn of each colour, with what was assumed; of one of the sizes where it is named."""
    from .output.said import piece_yarn

    return piece_yarn(work_file(measured_or_raise(text, name), name, size=size))


def sizes(text: str, name: str) -> str:
    """The table of all sizes and the counts of each, smallest first, and the words for all in one."""
    from .output.said import all_sizes

    return all_sizes(work_file(measured_or_raise(text, name), name), Setting())


# -- drawn ----------------------------------------------------------------------------------------------------------


def chart(
    text: str, name: str, setting: Setting, formats: Sequence[str] = ("svg",), extra: ChartSetting | None = None,
    wanted: Wanted | None = None,
) -> dict[str, bytes]:  # fmt: skip
    """The stitch chart in each of the formats asked for; `extra` is what is wanted beside the stitches."""
    from .output.booklet.own_words import titled
    from .output.drawn import piece_chart, written_chart
    from .output.rendered import rendered
    from .output.written import worked_text

    if _written(text, name, setting):
        worked = worked_text(text, name)
        return rendered(written_chart(worked, titled(text, worked, name), setting, extra), formats, wanted)
    return rendered(piece_chart(work_file(text, name, setting.hand, setting.size), setting, extra), formats, wanted)


def assembly(
    text: str, name: str, setting: Setting, formats: Sequence[str] = ("svg",), wanted: Wanted | None = None
) -> dict[str, bytes]:
    """The folding and joining diagram in each of the formats asked for."""
    from .output.drawn import piece_assembly
    from .output.rendered import rendered

    piece = work_file(measured_or_raise(text, name), name, setting.hand, setting.size)
    return rendered(piece_assembly(piece, setting), formats, wanted)


def template(text: str, name: str, setting: Setting, cut: str = "worn") -> bytes:
    """The paper mock-up in true size, as PDF: cut as "worn" on the object, or as "worked"."""
    from .output.drawn import piece_template
    from .output.rendered import rendered

    piece = work_file(measured_or_raise(text, name), name, setting.hand, setting.size)
    return rendered(piece_template(piece, setting, cut), ("pdf",))["pdf"]


def share(text: str, name: str, setting: Setting, *, photo: Picture | None = None) -> dict[str, bytes]:
    """Images for sharing and their descriptions, by file name; `photo` stands in them in place of the drawn whole."""
    from .output.drawn import piece_images, text_images
    from .output.export import cairo_here

    if is_written(name, text) and cairo_here():
        return text_images(text, name, setting, photo)
    return piece_images(work_file(measured_or_raise(text, name), name, setting.hand, setting.size), setting, photo)


def booklet(text: str, name: str, setting: Setting, *, columns: int = 1, photo: Picture | None = None) -> bytes:
    """All that a pattern gives as one printed document, as PDF; `photo` stands on its cover."""
    from .output.whole_set import piece_booklet, text_booklet

    if is_written(name, text):
        return text_booklet(text, name, setting, columns, photo)
    return piece_booklet(work_file(text, name, setting.hand, setting.size), setting, columns, photo)


def booklet_lacks(text: str, name: str) -> tuple[str, ...]:
    """What a buyer looks for in a booklet and the pattern does not give, each in a few words with a remedy."""
    from .output.booklet.contents import lacks_of
    from .output.whole_set import text_lacks
    from .pattern.file.read import read_pattern

    return text_lacks(text, name) if is_written(name, text) else lacks_of(read_pattern(text, name))


def cover(text: str, name: str, setting: Setting) -> Picture:
    """The picture of a booklet's cover where there is no photograph: the fabric as it will look."""
    from .output.drawn import cover_of

    return cover_of(worked_through(text, name, setting.hand, setting.size), name, setting)


def colours(text: str, name: str, form: str) -> bytes:
    """Other ways to colour a piece: their pictures side by side as "png" or "pdf", or in words as "md" or "txt"."""
    from .output.colouring.coloured import coloured
    from .pattern.file.read import read_pattern

    return coloured(read_pattern(measured_or_raise(text, name), name), name, form)


def picture(text: str, name: str) -> bytes | None:
    """The first row that does not add up, drawn over its base, as SVG; None where every row does.

    Of a pattern file it is the first section whose rows come out even over no number of stitches, worked as far as
    they go; what cannot be read is reported in words.
    """
    from .drawing.svg import write
    from .layout.sheets.mistake import mistake_sheet
    from .layout.sheets.mistake_found import mistake_of, stuck_in
    from .model.rows.work import work_text
    from .pattern.file.read import read_pattern

    try:
        mistake = mistake_of(work_text(text)) if is_written(name, text) else stuck_in(read_pattern(text, name))
    except PatternError:
        return None
    return write(mistake_sheet(mistake)) if mistake is not None else None


def measuring(kind: str, setting: Setting) -> bytes:
    """How to measure an object of a kind, with blanks for the numbers, as PDF."""
    from .layout.sheets.measuring import measuring_document
    from .output.rendered import rendered

    heading = Heading(f"To measure: {kind}", terms=setting.terms)
    return rendered(measuring_document(kind, heading, setting), ("pdf",))["pdf"]


def fabric_picture(text: str, name: str, setting: Setting, asked: Asked = ("flat", "right", 1080, "png")) -> bytes:
    """The fabric as it will look, in a view, from a side, so many pixels wide, as a "png" or "jpg" file."""
    from .output.images.fabric import fabric_file

    return fabric_file(worked_through(text, name, setting.hand, setting.size), name, setting.hand, asked)


def symbols(setting: Setting) -> bytes:
    """Every stitch symbol with its names, as SVG."""
    from .drawing.svg import write
    from .layout.sheets.specimen import specimen

    return write(specimen(setting.terms, setting.paper))


# -- all of it ------------------------------------------------------------------------------------------------------


def make(
    text: str, name: str, setting: Setting, on_step: Step = lambda done, total, what: None, *,
    photo: Picture | None = None,
) -> dict[str, bytes]:  # fmt: skip
    """Everything a pattern gives, by file name; `on_step` hears what is done and what comes next. `photo` stands on the
    booklet's cover and in the images for sharing.

    Without the cairo library there is everything but PNG and PDF.
    """
    from .output.whole_set import PARTS, PICTURED, whole_set

    every = 1 + len(PARTS) + len(PICTURED)
    on_step(0, every, "working the rows")
    piece = work_file(measured_or_raise(text, name), name, setting.hand, setting.size)
    return whole_set(piece, setting, photo, lambda done, what: on_step(1 + done, every, what))
