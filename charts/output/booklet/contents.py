"""The booklet of a pattern file: what stands on its pages, from the piece as it is worked."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from ...measure import show_length
from ...model.sizing.fit import between_words, fit_lines
from ...model.sizing.yarn import YarnReport
from ...pattern.writer import write_special
from ...setting import Setting
from .. import words
from ..piece import Piece, heading_of
from ..size_words import SizedPlan, several, table_cells
from ..yarn_words import HEAD, need_cells, yarn_line
from .book import (
    Band,
    Block,
    Book,
    Chapter,
    Pairs,
    Paragraphs,
    Picture,
    Plate,
    Points,
    RowLine,
    Rows,
    Sides,
    Signs,
    Table,
)
from .level import level_of
from .signs import signs_of
from .sized import merged, repeats_line, sized_finishing, sized_foundation, sized_rows

#: Single rows are ticked one by one; rows that repeat others by the rows that come again, the rest in fives.
_TICKED_BY = 5


def book_of(
    piece: Piece, yarn: YarnReport, sizes: Mapping[str, tuple[Piece, YarnReport]], plates: Sequence[Plate],
    setting: Setting, *, cover: Picture | None = None, columns: int = 1,
) -> Book:  # fmt: skip
    """The booklet of a piece, its drawn pages being `plates`; `sizes` are its pieces in all sizes, smallest first."""
    pattern, heading = piece.pattern, heading_of(piece, setting)
    every = {name: one for name, (one, _) in sizes.items()} if len(sizes) > 1 else {pattern.title: piece}
    finishing = sized_finishing(list(every.values()), list(every), setting)
    chapters = (
        _materials(piece, yarn, sizes),
        _gauge(piece, setting),
        _size(piece, every),
        *_notes(piece, setting),
        *_stitches(piece, finishing, setting),
        *_instructions(every, setting),
        Chapter("Finishing", (Points(tuple(finishing), steps=True),)),
    )
    return Book(
        pattern.title, pattern.author, pattern.licence, heading.facts(setting), cover, _bands(piece), chapters,
        tuple(plates), _last(piece), setting.paper, columns,
        ("crochet", pattern.object.kind, *(c.name for c in pattern.used_colours)),
    )  # fmt: skip


def _bands(piece: Piece) -> tuple[Band, ...]:
    """The stripes of the piece from the last row down, rows of one colour together."""
    hexes = {colour.letter: colour.hex for colour in piece.pattern.colours}
    found: list[Band] = []
    for section in piece.plan.sections:
        for letter, mm in zip(section.colours, section.row_heights_mm, strict=True):
            if letter not in hexes:
                return ()
            if found and found[-1].hex == hexes[letter]:
                found[-1] = Band(found[-1].mm + mm, hexes[letter])
            else:
                found.append(Band(mm, hexes[letter]))
    return tuple(reversed(found))


def _materials(piece: Piece, yarn: YarnReport, sizes: Mapping[str, tuple[Piece, YarnReport]]) -> Chapter:
    """The yarn by colour, of several sizes side by side, and what else is needed."""
    pattern = piece.pattern
    hexes = {colour.letter: colour.hex for colour in pattern.colours}
    reports = [report for _, report in sizes.values()] if len(sizes) > 1 else [yarn]
    rows = tuple(
        tuple(merged(cells) or " / ".join(cells) for cells in zip(*alike, strict=True))
        for alike in zip(*([need_cells(n, pattern, r.estimated) for n in r.needs] for r in reports), strict=True)
    )
    swatches = tuple(hexes.get(need.letter, "") for need in yarn.needs)
    said = yarn_line(pattern)
    blocks: list[Block] = [Paragraphs((said,))] if said else []
    blocks += [Table(HEAD, rows, swatches if any(swatches) else ()), Points(yarn.assumptions)]
    needed = [f"Hook: {pattern.hook}" if pattern.hook else "", "A yarn needle for the ends and scissors"]
    needed += ["Stitch markers to hold the edges together" if piece.folding.stages else "", pattern.notions]
    return Chapter("Materials", (*blocks, Points(tuple(one for one in needed if one))))


def _gauge(piece: Piece, setting: Setting) -> Chapter:
    called = "Gauge" if setting.terms == "US" else "Tension"
    says = [f"{piece.pattern.gauge.words()}, counted on a blocked swatch in the stitch of the body."]
    says.append("With more stitches than this to the length take a larger hook, with fewer a smaller one.")
    return Chapter(called, (Paragraphs((*says, *piece.plan.estimates)),))


def _size(piece: Piece, sizes: Mapping[str, Piece]) -> Chapter:
    plan = piece.plan
    blocks: list[Block] = []
    names = list(plan.between_mm)
    if len(names) >= 2 and not piece.pattern.folds:
        across, up = names[1], names[0]
        blocks.append(
            Sides(
                (plan.over_all_mm[across], plan.over_all_mm[up]), (plan.between_mm[across], plan.between_mm[up]),
                (show_length(plan.over_all_mm[across], plan.unit), show_length(plan.over_all_mm[up], plan.unit)),
                (show_length(plan.between_mm[across], plan.unit), show_length(plan.between_mm[up], plan.unit)),
                (across, up), between_words(plan, up),
            )
        )  # fmt: skip
    blocks.append(Points(fit_lines(plan)))
    if len(sizes) > 1:
        plans = [SizedPlan(name, one.plan) for name, one in sizes.items()]
        head, *rows = table_cells(plans, piece.pattern.object.unit)
        shown = next((name for name, one in sizes.items() if one.plan == plan), "")
        if shown:
            blocks.append(Paragraphs((f"The drawings, the chart and the paper mock-up are those of size {shown}.",)))
        blocks.append(Table(tuple(head), tuple(tuple(row) for row in rows)))
    return Chapter("Finished size", tuple(blocks))


def _notes(piece: Piece, setting: Setting) -> list[Chapter]:
    pattern = piece.pattern
    level, why = level_of(piece.fabric)
    says = f"Difficulty: {pattern.difficulty}."
    if not pattern.difficulty:
        says = f"Difficulty: {level}, reckoned from the stitches" + (f" ({', '.join(why)})." if why else ".")
    lines = [says, pattern.notes_to_maker, words.handed(setting.hand, piece.fabric)]
    return [Chapter("Before you begin", (Paragraphs(tuple(line for line in lines if line)),))]


def _stitches(piece: Piece, finishing: Sequence[str], setting: Setting) -> list[Chapter]:
    """The abbreviations in full, and every stitch with its sign."""
    terms = setting.terms
    specials = [write_special(s, terms, piece.rows.terms) for s in piece.rows.specials]
    lines = [line.text for _, some in words.row_lines(piece.rows, piece.fabric, terms) for line in some]
    said = " ".join([*lines, *words.foundation_words(piece.rows, piece.fabric, terms), *finishing, *specials])
    table = Pairs(tuple(words.abbreviations(piece.rows, piece.fabric, terms, said)))
    own = words.special_table(piece.rows.specials, terms, piece.rows.terms)
    rows = [piece.fabric.foundation, *(worked.row for worked in piece.fabric.rows)]
    signs = Signs(signs_of(rows, terms, own, setting.sc_form))
    return [
        Chapter(f"Abbreviations ({terms} terms)", (table,)),
        Chapter("Stitches and their signs", (signs,)),
    ]


def _instructions(every: Mapping[str, Piece], setting: Setting) -> list[Chapter]:
    """The rows by section; of several sizes in one set of words."""
    pieces = list(every.values())
    begin = sized_foundation(pieces, setting)
    if pieces[0].pattern.used_colours:
        begin.append(words.change_line(setting.terms))
    sizes = [f"Sizes: {several(list(every))}. Where one number stands, it is for all sizes."] if len(every) > 1 else []
    sizes += [line for line in [repeats_line(pieces)] if line]
    out = [Chapter("Instructions", (Paragraphs(tuple(sizes)),) if sizes else ())]
    out.append(Chapter("Foundation", (Paragraphs(tuple(begin)),), 2))
    for name, lines in sized_rows(pieces, setting):
        titled = name[:1].upper() + name[1:]
        if lines is None:
            out += [_section(f"{titled}, size {size}", name, piece, setting) for size, piece in every.items()]
            continue
        rows = tuple(RowLine(line.label, line.words, max(line.rows, 1), line.period or _TICKED_BY) for line in lines)
        out.append(Chapter(titled, (Rows(rows),), 2))
    return out


def _section(title: str, name: str, piece: Piece, setting: Setting) -> Chapter:
    """The rows of one section in one size."""
    lines = dict(words.row_lines(piece.rows, piece.fabric, setting.terms))[name]
    rows = tuple(
        RowLine(words.label_of(piece.fabric, line), line.text, line.last - line.first + 1, line.period or _TICKED_BY)
        for line in lines
    )
    return Chapter(title, (Rows(rows),), 2)


def _last(piece: Piece) -> tuple[Chapter, ...]:
    pattern = piece.pattern
    lines = [f"Thanks to those who tried this pattern: {pattern.testers}." if pattern.testers else ""]
    owner = f"{pattern.title}" + (f", by {pattern.author}" if pattern.author else "")
    lines.append(f"{owner}. {pattern.licence}" + "." * bool(pattern.licence) if pattern.licence else f"{owner}.")
    return (
        Chapter("Take care", (Points(tuple(words.cautions(pattern))),)),
        Chapter("About this pattern", (Paragraphs(tuple(line for line in lines if line)),)),
    )
