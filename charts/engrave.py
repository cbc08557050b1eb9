"""The whole flow on one page: a pattern's text in; a report, words, sheets and images out."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import replace

from .drawing import svg
from .drawing.display import Document
from .errors import PatternError, Problem
from .folding.border import BorderPlan, border_plan
from .folding.finishing import finishing_steps
from .folding.folds import Folding, folding_of
from .folding.seams import edges_of
from .layout.assembly.sheets import assembly_document
from .layout.assembly.template import template_document
from .layout.chart.either import ChartSetting, chart_document
from .layout.chart.margins import Colour as InkColour
from .layout.sheets.measuring import measuring_document
from .layout.sheets.mistake import Mistake, mistake_sheet
from .layout.sheets.mistake_found import mistake_of
from .layout.sheets.specimen import specimen
from .layout.squares.grid import is_filet
from .model.multiples.of_foundation import chain_multiple
from .model.multiples.of_row import row_multiples
from .model.rows.work import work_text
from .model.rows.working import Worked
from .model.sections.colour_turns import colours_within
from .model.sections.colours import colour_notes, unused_notes
from .model.sections.read import Read, read_sections, stuck_work
from .model.sections.whole import work_piece
from .model.sizing.fit import fit_json, fit_lines, fit_notes, size_json, worked_notes
from .model.sizing.from_pattern import request_of, requests_of
from .model.sizing.plan import Plan
from .model.sizing.size import size
from .model.sizing.worn import worn_plan
from .model.sizing.yarn import YarnReport, border_colour, yarn_report
from .output import words
from .output.booklet.book import Picture
from .output.booklet.contents import book_of
from .output.booklet.of_written import written_book
from .output.booklet.plates import plates_of
from .output.booklet.press import press_here, pressed
from .output.booklet.sized import sized_words
from .output.colouring.sheet import FORMS, Coloured, colour_sheet, colour_words
from .output.colouring.ways import Way, ways_of
from .output.export import cairo_here
from .output.images.fabric import Asked, fabric_file
from .output.images.shared import shared_piece, shared_written
from .output.pages.fit_page import fit_page as page_to_fit
from .output.pages.follow import follow_piece, follow_written
from .output.pages.gallery import Card, card_of_piece, card_of_written
from .output.piece import Piece, heading_of, laid_open, placed_in
from .output.rendered import Wanted, rendered
from .output.report import Report
from .output.review.point import Point
from .output.review.points import points_of
from .output.review.tester import tester_sheet
from .output.review.written import points_of_written
from .output.size_words import SizedPlan, size_words, smallest_first
from .output.sizes_read import SizeUnknown, all_names, which
from .output.yarn_words import yarn_words
from .pattern.file.kinds import OBJECT_KINDS
from .pattern.file.read import read_pattern
from .pattern.file.records import Pattern
from .pattern.writer import write_special
from .pattern.written.document import read_written
from .setting import Hand, Heading, Setting

Step = Callable[[int, int, str], None]


def is_written(name: str, text: str) -> bool:
    """Whether a file is a written pattern (.txt) rather than a pattern file (.toml)."""
    if name.lower().endswith((".txt", ".md")):
        return True
    return not name.lower().endswith(".toml") and "[gauge]" not in text and "[object]" not in text


#: Tables that a pattern file cannot do without; no row of a written pattern looks so.
_TABLES = re.compile(r"^[ \t]*\[(?:object|gauge)\]", re.MULTILINE)


def _misnamed(text: str, name: str) -> Problem | None:
    """A pattern file under the name of a written pattern."""
    found = _TABLES.search(text) if name.lower().endswith((".txt", ".md")) else None
    if found is None:
        return None
    says = "this is a pattern file (TOML) under the name of a written pattern."
    line = text.count("\n", 0, found.end()) + 1
    shown = text.split("\n")[line - 1].rstrip()
    remedy = f"name it {name.rsplit('/', 1)[-1].rsplit('.', 1)[0]}.toml."
    return Problem("file", "", says, remedy, line, 1, shown, max(len(shown), 1), name)


def work_file(text: str, name: str, hand: str = "right") -> Piece:
    """Read, size, work, fold and border a pattern file; PatternError with every problem found."""
    pattern = read_pattern(text, name)
    read = read_sections(pattern)
    return _worked_piece(pattern, read, size(request_of(pattern, [section.text for section in read.sections])), hand)


def pieces_of_sizes(piece: Piece, hand: str) -> dict[str, Piece]:
    """A pattern's piece worked in each of its sizes, by name, smallest first; {} where it has none."""
    if not piece.pattern.sizes:
        return {}
    plans, problems = _sized_plans(piece.pattern, piece.read)
    if problems:
        raise PatternError(problems)
    sized = ((one.name, replace(piece.pattern, object=piece.pattern.sizes[one.name]), one.plan) for one in plans)
    made = {name: _worked_piece(pattern, piece.read, plan, hand) for name, pattern, plan in sized}
    return {one.name: made[one.name] for one in smallest_first(plans)}


def _worked_piece(pattern: Pattern, read: Read, plan: Plan, hand: str) -> Piece:
    rows, fabric = work_piece(read, plan, pattern)
    with placed_in(pattern):
        folding = folding_of(plan, hand=hand, folds=pattern.folds, joins=pattern.joins)
        border = _border(pattern, plan, folding, hand)
    return Piece(pattern, read, plan, rows, fabric, folding, border)


def _border(pattern: Pattern, plan: Plan, folding: Folding, hand: str) -> BorderPlan | None:
    asked = pattern.border
    if asked is None:
        return None
    return border_plan(
        plan,
        stitch=asked.stitch,
        rounds=asked.rounds,
        edging="" if asked.edging == "plain" else asked.edging,
        hand=hand,
        folding=folding,
        colour=border_colour(pattern),
    )


# -- check ----------------------------------------------------------------------------------------------------------


def check(text: str, name: str, size: str = "") -> Report:
    """Read and work a pattern and say what is wrong with it, what it makes and how it fits. `size` is which of the
    sizes of a written pattern is read, by name or by place from 1; SizeUnknown where it gives no such size."""
    if is_written(name, text):
        return _check_written(text, name, size)
    if size:
        raise SizeUnknown("a pattern file is checked in all its sizes; leave --size out")
    try:
        piece = work_file(text, name)
    except PatternError as found:
        return Report(name, tuple(p if p.file else p.in_file(name) for p in found.problems))
    plan, pattern = piece.plan, piece.pattern
    unfit = tuple(p if p.file else p.in_file(name) for p in _sized_plans(pattern, piece.read)[1])
    made = [row.row.made for row in piece.fabric.rows]
    notes = (
        *pattern.notes,
        *piece.read.notes,
        *colour_notes(pattern.used_colours),
        *unused_notes(pattern),
        *fit_notes(plan, pattern),
        *worked_notes(plan, made, [row.row.chains for row in piece.fabric.rows]),
    )
    multiple = {
        "of": plan.multiple_of,
        "plus": plan.multiple_plus,
        "chain_plus": (plan.multiple_plus + plan.chain_plus) % max(plan.multiple_of, 1),
    }
    facts = {"multiple": multiple, "size": size_json(plan), "fit": fit_json(plan)}
    return Report(name, unfit, notes, piece.fabric, facts, (_counts_line(plan), *fit_lines(plan)))


def _counts_line(plan: Plan) -> str:
    one = "round" if OBJECT_KINDS[plan.kind].rounds else "row"
    sections = ", ".join(f"{s.name} {s.rows} {one}{'s' if s.rows != 1 else ''}" for s in plan.sections)
    return f"chain {plan.foundation}, {plan.stitches} stitches a {one}; {sections}"


def _check_written(text: str, name: str, size: str) -> Report:
    misnamed = _misnamed(text, name)
    if misnamed is not None:
        return Report(name, (misnamed,))
    if not text.strip():
        remedy = "paste the pattern into it, save it, and check again."
        return Report(name, (Problem("file", "", "the file is empty.", remedy, file=name),))
    at = _size_place(text, size) if size else 0
    worked = work_text(text, size=at)
    multiple = chain_multiple(worked)
    facts: dict[str, object] = {}
    says = []
    if multiple is not None:
        facts["multiple"] = {"of": multiple.of, "plus": multiple.plus, "chain_plus": multiple.chain_plus}
        if multiple.of > 1:
            plus = f", plus {multiple.chain_plus}" if multiple.chain_plus else ""
            says.append(f"the foundation is a multiple of {multiple.of} chains{plus}")
    if is_filet(worked.fabric):
        says.append("it is filet: hookfold chart --style squares draws it as a numbered grid")
    rows = row_multiples(worked)
    facts["row_multiples"] = {worked.fabric.rows[at].label: {"of": m.of, "plus": m.plus} for at, m in rows.items()}
    problems = tuple(p.in_file(name) for p in worked.problems)
    terms, sizes = worked.pattern.terms, all_names(worked.sizes, worked.size_names)
    return Report(
        name, problems, tuple(worked.notes), worked.fabric, facts, tuple(says), worked.pieces, terms,
        worked.terms_why, worked.assumed, worked.prose, sizes, sizes[at] if sizes else "",
        tuple(write_special(s, terms, terms) for s in worked.pattern.specials),
    )  # fmt: skip


def _size_place(text: str, size: str) -> int:
    """Which of the text's sizes is asked for (from 0); SizeUnknown where it is none."""
    reading = read_written(text)
    return which(all_names(reading.sizes, reading.size_names), size)


def review(text: str, name: str, setting: Setting) -> tuple[Point, ...]:
    """What a technical editor looks at, point by point; PatternError where a pattern file cannot be worked."""
    checked = check(text, name)
    if is_written(name, text):
        return points_of_written(work_text(text), checked)
    piece = work_file(text, name, setting.hand)
    return points_of(piece, checked, pieces_of_sizes(piece, setting.hand), yarn_of(piece), setting)


def tester(text: str, name: str, setting: Setting) -> str:
    """The sheet for those who try a pattern file before it is published, as Markdown."""
    piece = work_file(_sized(text, name), name, setting.hand)
    return tester_sheet(piece, pieces_of_sizes(piece, setting.hand), yarn_of(piece))


# -- words ----------------------------------------------------------------------------------------------------------


def instructions(text: str, name: str, setting: Setting) -> str:
    """The written pattern, every row with its count; PatternError where it cannot be worked."""
    if is_written(name, text):
        worked = _written(text, name)
        return words.tidied(worked.pattern, worked.fabric, worked.texts, setting.terms)
    return _words(work_file(text, name, setting.hand), setting)


def _words(piece: Piece, setting: Setting) -> str:
    heading = heading_of(piece, setting)
    finishing = finishing_steps(piece.plan, piece.border, terms=setting.terms, folding=piece.folding)
    return words.instructions(
        piece.pattern, piece.rows, piece.fabric, setting.terms, setting.hand, heading.facts(setting),
        fit_lines(piece.plan), finishing, piece.plan.estimates,
    )  # fmt: skip


def yarn(text: str, name: str) -> str:
    """The yarn of each colour, with what was assumed."""
    return _yarn(work_file(_sized(text, name), name))


def _yarn(piece: Piece) -> str:
    return yarn_words(piece.pattern, yarn_of(piece))


def yarn_of(piece: Piece) -> YarnReport:
    """What a worked piece takes of each colour."""
    rows = [row.row.kinds() for row in piece.fabric.rows]
    within = [colours_within(row, piece.pattern) for row in piece.rows.rows]
    edges = edges_of(piece.folding, piece.border)
    return yarn_report(piece.plan, piece.pattern, rows, edges=edges, within=within)


def colours(text: str, name: str, form: str) -> bytes:
    """Other ways to colour a piece: their pictures side by side as "png" or "pdf", or in words as "md" or "txt"."""
    pattern = read_pattern(_sized(text, name), name)
    ways = [way for one in ways_of(pattern) if (way := _coloured(one, first=one.pattern is pattern))]
    if form in FORMS:
        small = ("flat", "right", 420, "png")
        return colour_sheet(ways, lambda one: fabric_file(one, name, "right", small), FORMS[form])
    return colour_words(ways).encode("utf-8")


def _coloured(way: Way, *, first: bool) -> Coloured | None:
    """A way of colouring, sized and worked; None where its stripes cannot be, which is a problem of the first only."""
    try:
        read = read_sections(way.pattern)
        plan = size(request_of(way.pattern, [section.text for section in read.sections]))
        piece = _worked_piece(way.pattern, read, plan, "right")
    except PatternError:
        if first:
            raise
        return None
    return Coloured(way.says, piece, yarn_of(piece))


def sizes(text: str, name: str) -> str:
    """The table of all sizes and the counts of each, smallest first, and the words for all in one."""
    return _sizes(work_file(_sized(text, name), name), Setting())


def _sizes(piece: Piece, setting: Setting) -> str:
    plans, problems = _sized_plans(piece.pattern, piece.read)
    if problems:
        raise PatternError(problems)
    table = size_words(piece.pattern, plans)
    pieces = pieces_of_sizes(piece, setting.hand)
    return "\n".join([table, *sized_words(pieces, setting)]) if len(pieces) > 1 else table


def _sized_plans(pattern: Pattern, read: Read) -> tuple[list[SizedPlan], list[Problem]]:
    """A plan for each size that can be made; the problems of the others, each with its size."""
    plans: list[SizedPlan] = []
    problems: list[Problem] = []
    for sized in requests_of(pattern, [section.text for section in read.sections]):
        try:
            plans.append(SizedPlan(sized.name, size(sized.request)))
        except PatternError as found:
            problems += [replace(p, where=f'size "{sized.name}": {p.where}') for p in found.problems]
    return plans, problems


def _written(text: str, name: str) -> Worked:
    worked = _worked(text, name)
    _drop_unproved(worked, name)
    return worked


def _worked(text: str, name: str) -> Worked:
    """A written pattern worked; PatternError with every problem found."""
    misnamed = _misnamed(text, name)
    if misnamed is not None:
        raise PatternError([misnamed])
    worked = work_text(text)
    if worked.problems:
        raise PatternError([p.in_file(name) for p in worked.problems])
    return worked


def _drop_unproved(worked: Worked, name: str) -> None:
    """Draw the rows as far as they are proved: of a row whose stitches are not told there is nothing to draw."""
    proved = worked.pieces[0].proved if worked.pieces else ()
    whole = next((n for n, how in enumerate(proved) if how != "yes"), len(proved))
    if whole == len(proved) and worked.fabric.start != "edge":
        return
    if not whole or worked.fabric.start == "edge":
        says = "what the first row is worked on is not given, so there is nothing to draw"
        remedy = 'say what it begins with, as "Ch 26." or "Over 20 sts."'
        raise PatternError([Problem("missing", "Foundation", says, remedy, 1, file=name)])
    worked.fabric = replace(worked.fabric, rows=worked.fabric.rows[:whole])
    worked.texts = worked.texts[:whole]


def follow(text: str, name: str, setting: Setting) -> bytes:
    """The page to work from, row by row, as HTML; PatternError where the pattern cannot be worked."""
    if not is_written(name, text):
        return _follow(work_file(text, name, setting.hand), setting)
    worked = _worked(text, name)
    if not any(piece.fabric.rows for piece in worked.pieces):
        remedy = 'give its rows, each on a line of its own, as "Row 1: Sc in each st across."'
        raise PatternError([Problem("missing", "Row 1", "there are no rows to follow", remedy, 1, file=name)])
    return follow_written(worked, title_of(name) or "Pattern", setting)


def _follow(piece: Piece, setting: Setting) -> bytes:
    """The page of a piece, its finishing told for both hands."""
    other: Hand = "right" if setting.hand == "left" else "left"
    with placed_in(piece.pattern):
        turned = folding_of(piece.plan, hand=other, folds=piece.pattern.folds, joins=piece.pattern.joins)
        border = _border(piece.pattern, piece.plan, turned, other)
    return follow_piece(piece, setting, {setting.hand: (piece.folding, piece.border), other: (turned, border)})


def fit_page(text: str, name: str, setting: Setting) -> bytes:
    """The page on which a reader fits a pattern file to her own object and gauge, as HTML; NotTold where none can."""
    piece = work_file(_sized(text, name), name, setting.hand)
    pattern = piece.pattern

    def edged(plan: Plan) -> tuple[Folding, BorderPlan | None]:
        folding = folding_of(plan, hand=setting.hand)
        return folding, _border(pattern, plan, folding, setting.hand)

    return page_to_fit(piece, setting, edged)


def card(text: str, name: str) -> Card | None:
    """What a gallery shows of a pattern, its faults too; None of a text that gives no rows at all."""
    try:
        if not is_written(name, text):
            piece = work_file(text, name)
            return card_of_piece(piece, Setting(terms="UK" if piece.pattern.terms == "UK" else "US"))
        worked = work_text(text)
        if not any(piece.fabric.rows for piece in worked.pieces):
            return None
        return card_of_written(_written(text, name), title_of(name))
    except PatternError as found:
        return Card(title_of(name), wrong=f"{_counted(len(found.problems))}: {found.problems[0].says}")


def _counted(problems: int) -> str:
    return "1 problem" if problems == 1 else f"{problems} problems, the first"


# -- sheets ---------------------------------------------------------------------------------------------------------


def chart(
    text: str, name: str, setting: Setting, formats: Sequence[str] = ("svg",), extra: ChartSetting | None = None,
    wanted: Wanted | None = None,
) -> dict[str, bytes]:  # fmt: skip
    """The stitch chart in each of the formats asked for; `extra` is what is wanted beside the stitches."""
    if is_written(name, text):
        return rendered(_written_chart(_written(text, name), name, setting, extra), formats, wanted)
    return rendered(_chart(work_file(text, name, setting.hand), setting, extra), formats, wanted)


def _chart(piece: Piece, setting: Setting, extra: ChartSetting | None = None) -> Document:
    colours = {c.letter: InkColour(c.name, c.hex) for c in piece.pattern.colours}
    special = words.special_table(piece.read.specials, setting.terms, piece.read.terms)
    repeat = piece.plan.multiple_of if piece.plan.multiple_of > 1 else None
    fabric = laid_open(piece.fabric) if piece.fabric.rows[0].is_round else piece.fabric
    return chart_document(fabric, heading_of(piece, setting), setting, colours, special, repeat, extra=extra)


def _written_chart(worked: Worked, name: str, setting: Setting, extra: ChartSetting | None = None) -> Document:
    special = words.special_table(worked.pattern.specials, setting.terms, worked.pattern.terms)
    multiple = chain_multiple(worked)
    repeat = multiple.of if multiple and multiple.of > 1 else None
    heading = Heading(title_of(name), terms=setting.terms)
    return chart_document(worked.fabric, heading, setting, {}, special, repeat, extra=extra)


def title_of(name: str) -> str:
    """What a written pattern is called: its file's name in words."""
    title = name.rsplit("/", 1)[-1].rsplit(".", 1)[0].replace("-", " ").replace("_", " ").strip() or "Stitch chart"
    return title[:1].upper() + title[1:]


def assembly(
    text: str, name: str, setting: Setting, formats: Sequence[str] = ("svg",), wanted: Wanted | None = None
) -> dict[str, bytes]:
    """The folding and joining diagram in each of the formats asked for."""
    return rendered(_assembly(work_file(_sized(text, name), name, setting.hand), setting), formats, wanted)


def _assembly(piece: Piece, setting: Setting) -> Document:
    return assembly_document(
        piece.plan,
        heading_of(piece, setting),
        setting,
        folding=piece.folding,
        border=piece.border,
        bordered=piece.border is not None,
    )


def _sized(text: str, name: str) -> str:
    if is_written(name, text):
        says = "a written pattern has no measurements to fold or cut by"
        remedy = 'measure the object and write a pattern file: "hookfold start FILE"'
        raise PatternError([_misnamed(text, name) or Problem("missing", "Pattern", says, remedy, file=name)])
    return text


def template(text: str, name: str, setting: Setting, cut: str = "worn") -> bytes:
    """The paper mock-up in true size, as PDF: cut as "worn" on the object, or as "worked"."""
    return _template(work_file(_sized(text, name), name, setting.hand), setting, cut)


def _template(piece: Piece, setting: Setting, cut: str = "worn") -> bytes:
    return rendered(_template_document(piece, setting, cut), ("pdf",))["pdf"]


def _template_document(piece: Piece, setting: Setting, cut: str = "worn") -> Document:
    heading, unit = heading_of(piece, setting), piece.plan.unit
    worn = folding_of(worn_plan(piece.plan), hand=setting.hand, folds=piece.pattern.folds)
    lies = {"worn": (worn, piece.folding, "the piece as worked"), "worked": (piece.folding, worn, "the size as worn")}
    folding, other, called = lies[cut]
    return template_document(piece.plan, heading, setting.paper, unit, folding=folding, dotted=(other, called))


def booklet(text: str, name: str, setting: Setting, *, columns: int = 1, photo: Picture | None = None) -> bytes:
    """All that a pattern gives as one printed document, as PDF; `photo` stands on its cover."""
    if is_written(name, text):
        worked = _written(text, name)
        plates = plates_of("Chart", _written_chart(worked, name, setting))
        return pressed(written_book(worked, title_of(name), plates, setting, cover=photo, columns=columns))
    return _booklet(work_file(text, name, setting.hand), setting, columns, photo)


def _booklet(piece: Piece, setting: Setting, columns: int = 1, photo: Picture | None = None) -> bytes:
    plates = (
        *plates_of("Chart", _chart(piece, setting)),
        *plates_of("Folding and joining", _assembly(piece, setting)),
        *plates_of("Paper mock-up", _template_document(piece, setting)),
    )
    sized = {name: (one, yarn_of(one)) for name, one in pieces_of_sizes(piece, setting.hand).items()}
    return pressed(book_of(piece, yarn_of(piece), sized, plates, setting, cover=photo, columns=columns))


def cover(text: str, name: str, setting: Setting) -> Picture:
    """The picture of a booklet's cover where there is no photograph: the fabric as it will look."""
    worked: Piece | Worked = _written(text, name) if is_written(name, text) else work_file(text, name, setting.hand)
    folded = isinstance(worked, Piece) and bool(worked.folding.stages)
    view = "on-object" if folded else "flat"
    made = fabric_file(worked, name, setting.hand, (view, "right", 1000, "jpg"))
    return Picture(made, "jpg", "The piece as it will look, drawn from its stitches")


def measuring(kind: str, setting: Setting) -> bytes:
    """How to measure an object of a kind, with blanks for the numbers, as PDF."""
    heading = Heading(f"To measure: {kind}", terms=setting.terms)
    return rendered(measuring_document(kind, heading, setting), ("pdf",))["pdf"]


def picture(text: str, name: str) -> bytes | None:
    """The first row that does not add up, drawn over its base, as SVG; None where every row does.

    Of a pattern file it is the first section whose rows come out even over no number of stitches, worked as far as
    they go.
    """
    mistake = mistake_of(work_text(text)) if is_written(name, text) else _stuck(text, name)
    return svg.write(mistake_sheet(mistake)) if mistake is not None else None


def _stuck(text: str, name: str) -> Mistake | None:
    """The mistake in a section of a pattern file; what cannot be read is reported in words."""
    try:
        found = stuck_work(read_pattern(text, name))
    except PatternError:
        return None
    mistake = mistake_of(found[0]) if found else None
    return replace(mistake, says=f"{found[1].where}: {found[1].says}") if found and mistake else None


def fabric_picture(text: str, name: str, setting: Setting, asked: Asked = ("flat", "right", 1080, "png")) -> bytes:
    """The fabric as it will look, in a view, from a side, so many pixels wide, as a "png" or "jpg" file."""
    worked: Piece | Worked = _written(text, name) if is_written(name, text) else work_file(text, name, setting.hand)
    return fabric_file(worked, name, setting.hand, asked)


def symbols(setting: Setting) -> bytes:
    """Every stitch symbol with its names, as SVG."""
    return svg.write(specimen(setting.terms, setting.paper))


def share(text: str, name: str, setting: Setting) -> dict[str, bytes]:
    """Images for sharing and their descriptions, by file name."""
    if not is_written(name, text) or not cairo_here():
        return _share(work_file(_sized(text, name), name, setting.hand), setting)
    worked = _written(text, name)
    special = words.special_table(worked.pattern.specials, setting.terms, worked.pattern.terms)
    return shared_written(worked, Heading(title_of(name), terms=setting.terms), setting, special)


def _share(piece: Piece, setting: Setting) -> dict[str, bytes]:
    special = words.special_table(piece.read.specials, setting.terms, piece.read.terms)
    return shared_piece(piece, heading_of(piece, setting), setting, special)


def make(
    text: str, name: str, setting: Setting, on_step: Step = lambda done, total, what: None, *,
    photo: Picture | None = None,
) -> dict[str, bytes]:  # fmt: skip
    """Everything a pattern gives, by file name; `on_step` hears what is done and what comes next. `photo` stands on the
    booklet's cover.

    Without the cairo library there is everything but PNG and PDF.
    """
    on_step(0, len(_PARTS) + 2, "working the rows")
    piece = work_file(_sized(text, name), name, setting.hand)
    parts = dict(_PARTS)
    if press_here():
        shown = photo or cover(text, name, setting)
        parts["setting the booklet"] = lambda piece, setting: {"booklet.pdf": _booklet(piece, setting, photo=shown)}
    out: dict[str, bytes] = {}
    for done, (what, part) in enumerate(parts.items(), 1):
        on_step(done, len(parts) + 1, what)
        out.update(part(piece, setting))
    return out


def _sheets() -> tuple[str, ...]:
    """The formats of a sheet that can be made on this system."""
    return ("svg", "png", "pdf") if cairo_here() else ("svg",)


def _template_file(piece: Piece, setting: Setting) -> dict[str, bytes]:
    return {"template.pdf": _template(piece, setting)} if cairo_here() else {}


def _sizes_file(piece: Piece, setting: Setting) -> dict[str, bytes]:
    """The sizes' table, where the pattern has several."""
    return {"sizes.md": _sizes(piece, setting).encode("utf-8")} if piece.pattern.sizes else {}


#: What `make` makes, in order: what is said while it is made, and how.
_PARTS: dict[str, Callable[[Piece, Setting], dict[str, bytes]]] = {
    "drawing the chart": lambda piece, setting: _named("chart", rendered(_chart(piece, setting), _sheets())),
    "drawing the folding": lambda piece, setting: _named("assembly", rendered(_assembly(piece, setting), _sheets())),
    "drawing the paper mock-up": lambda piece, setting: _template_file(piece, setting),
    "writing the words": lambda piece, setting: {"instructions.md": _words(piece, setting).encode("utf-8")},
    "reckoning the yarn": lambda piece, setting: {"yarn.md": _yarn(piece).encode("utf-8")},
    "tabling the sizes": _sizes_file,
    "drawing the images": lambda piece, setting: _share(piece, setting),
    "writing the page to follow": lambda piece, setting: {"follow.html": _follow(piece, setting)},
}


def _named(stem: str, made: dict[str, bytes]) -> dict[str, bytes]:
    return {f"{stem}.{suffix}": data for suffix, data in made.items()}
