"""The booklet of a pattern file: what stands on its pages, from the piece as it is worked."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

from ...folding.finishing import in_terms
from ...measure import MM_PER_INCH
from ...model.cloth.typical import worked_loop
from ...model.sizing.yarn import YarnReport
from ...pattern.file.kinds import OBJECT_KINDS
from ...pattern.file.records import Pattern
from ...pattern.lexicon import show_stitch
from ...pattern.writer import write_special
from ...setting import Setting
from .. import words
from ..piece import Piece, finished_words, gauge_words, heading_of, hook_words
from ..size_words import several
from ..yarn_words import NOT_KNOWN, TO_BUY, buying_cells, buying_note, yarn_line
from .book import (
    Band,
    Block,
    Book,
    Chapter,
    Drawn,
    Pairs,
    Paragraphs,
    Picture,
    Plate,
    Points,
    RowLine,
    Rows,
    Signs,
    Step,
    Steps,
    Table,
)
from .finished import finished_size, made_for
from .how_to_read import ways_of_writing
from .level import level_of
from .making import colour_words, every_row, how_made, raised_words, told_in_full
from .repeats import repeats_of_sizes
from .signs import named_once, signs_of
from .sized import SizedLine, merged, sized_foundation, sized_rows
from .sized_steps import sized_steps

#: The heading of the drawn pages that hold the piece in paper, and what they are for.
MOCK_UP = "Paper mock-up"
_CUT_OUT = (
    "The paper mock-up is the piece at full size, to see before you crochet {sees}: print it at 100 %, cut it out on "
    "the full line{shaped}{tried}."
)
_TRIED = " and try it on what it is made for. If it does not fit, measure that once more"
_DOTTED = "; the dotted line is the piece as it comes off the hook, before it stretches"
_ONLY_YOURS = "Print only the mock-up of your size: the pages from the one named above up to the next."
#: Single rows are ticked one by one; rows that repeat others by the rows that come again, the rest in fives.
_TICKED_BY = 5


def _cut_out_words(piece: Piece) -> str:
    """How the paper mock-up is used: folded, laid round or taped into a ring as the piece is, dotted where it
    stretches."""
    kind = OBJECT_KINDS[piece.plan.kind]
    shaped = ", fold it as the finishing says" if piece.folding.stages else f", {kind.tried}" if kind.tried else ""
    if kind.rounds:
        shaped = ", tape the band into a ring and the disc over it" if kind.crown else ", lay it round into a ring"
    stretches = any(abs(share) > 0.0005 for share in piece.plan.stretch.values())
    dotted = _DOTTED if kind.fit == "stretch" and not kind.crown and stretches else ""
    fits = kind.holds or bool(kind.tried)
    tried = _TRIED + dotted if fits else ""
    return _CUT_OUT.format(sees="whether it will fit" if fits else "how large it will be", shaped=shaped, tried=tried)


def book_of(
    piece: Piece, yarn: YarnReport, sizes: Mapping[str, tuple[Piece, YarnReport]], plates: Sequence[Plate],
    setting: Setting, *, cover: Picture | None = None, columns: int = 1,
) -> Book:  # fmt: skip
    """The booklet of a piece, its drawn pages being `plates`; `sizes` are its pieces in all sizes, smallest first, of
    which it is one."""
    pattern = piece.pattern
    every = {name: one for name, (one, _) in sizes.items()} if len(sizes) > 1 else {pattern.title: piece}
    finishing = sized_steps(every, setting)
    cut_out = any(plate.title.startswith(MOCK_UP) for plate in plates)
    chapters = (
        finished_size(piece, every),
        _materials(piece, yarn, sizes, setting),
        _gauge(piece, setting),
        *_stitches(piece, every, finishing, setting),
        _before(piece, setting),
        *_instructions(every, setting, cut_out=cut_out),
        Chapter("Finishing", (Steps(finishing),)),
        Chapter("Take care", (Points(tuple(words.cautions(pattern))),)),
        *_about(piece),
    )
    return Book(
        pattern.title, pattern.author, pattern.licence, _facts(piece, every, setting), cover, _bands(piece), chapters,
        tuple(plates), setting.paper, columns,
        ("crochet", pattern.object.kind, *(c.name for c in pattern.used_colours)),
    )  # fmt: skip


def lacks_of(pattern: Pattern) -> tuple[str, ...]:
    """What a buyer looks for and a pattern file does not give, each with the key that would give it."""
    yarn = pattern.yarn.category is not None or pattern.yarn.fibre
    wanted = (("author", pattern.author, 'author = "..."'), ("hook", pattern.hook, 'hook = "..."'),
              ("yarn", yarn, "yarn = { category = ..., fibre = ... }"),
              ("licence", pattern.licence, 'licence = "..."'))  # fmt: skip
    return tuple(f"no {name}: write {line}" for name, given, line in wanted if not given)


def _facts(piece: Piece, every: Mapping[str, Piece], setting: Setting) -> tuple[tuple[str, str], ...]:
    """What the cover says of the piece, of several sizes their names and measures side by side."""
    facts = dict(heading_of(piece, setting).facts(setting))
    facts |= {label: _gauge_words(piece) for label in ("Gauge", "Tension") if label in facts}
    facts |= {"Hook": in_terms(hook_words(piece, setting), setting.terms)} if "Hook" in facts else {}
    if len(every) == 1:
        return ((("Made for", made_for(piece)),) if made_for(piece) else ()) + tuple(facts.items())
    sized = merged([finished_words(one) for one in every.values()])
    if sized:
        facts["Finished size"] = sized
    return (("Sizes", several(list(every))), *facts.items())


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


def _materials(
    piece: Piece, yarn: YarnReport, sizes: Mapping[str, tuple[Piece, YarnReport]], setting: Setting
) -> Chapter:  # fmt: skip
    """The yarn by colour, of several sizes side by side, and what else is needed."""
    pattern = piece.pattern
    hexes = {colour.letter: colour.hex for colour in pattern.colours}
    reports = {name: report for name, (_, report) in sizes.items()} if len(sizes) > 1 else {"": yarn}
    head, rows, letters = _yarn_rows(pattern, reports)
    swatches = tuple(hexes.get(letter, "") for letter in letters)
    said = yarn_line(pattern)
    blocks: list[Block] = [Paragraphs((said,))] if said else []
    head, rows = _known(head, rows)
    more = [line for line in yarn.assumptions if _FOR_BUYERS.match(line)]
    note = in_terms(" ".join([buying_note(list(reports.values()), pattern), *more]), setting.terms)
    blocks += [Table(head, rows, swatches if any(swatches) else ()), Paragraphs((note,), True)]
    needed = [f"Hook: {hook_words(piece, setting)}, or the size that gives the gauge" if pattern.hook else ""]
    needed = [in_terms(one, setting.terms) for one in needed]
    needed += ["A yarn needle for the ends, scissors, a tape measure"]
    needed += ["Stitch markers to hold the edges together" if piece.folding.stages else ""]
    needed.append(pattern.notions)
    return Chapter("Materials", (*blocks, Points(tuple(_capital(one) for one in needed if one))))


#: What of the yarn's assumptions a buyer must know.
_FOR_BUYERS = re.compile(r"The yarn of the handles|Each ball after")


def _yarn_rows(
    pattern: Pattern, reports: Mapping[str, YarnReport]
) -> tuple[tuple[str, ...], tuple[tuple[str, ...], ...], tuple[str, ...]]:
    """The head and the rows of the yarn table, a row a colour with the sizes side by side, and the colour of each."""
    cells = [[buying_cells(need, pattern) for need in report.needs] for report in reports.values()]
    beside = (zip(*alike, strict=True) for alike in zip(*cells, strict=True))
    rows = tuple(tuple(merged(some) or " / ".join(some) for some in row) for row in beside)
    return TO_BUY, rows, tuple(need.letter for need in next(iter(reports.values())).needs)


def _known(
    head: tuple[str, ...], rows: tuple[tuple[str, ...], ...]
) -> tuple[tuple[str, ...], tuple[tuple[str, ...], ...]]:
    """A table without the columns of which nothing is known in any row."""
    kept = [k for k in range(len(head)) if any(row[k] != NOT_KNOWN for row in rows)]
    return tuple(head[k] for k in kept), tuple(tuple(row[k] for k in kept) for row in rows)


def _gauge(piece: Piece, setting: Setting) -> Chapter:
    called = "Gauge" if setting.terms == "US" else "Tension"
    gauge, over = piece.pattern.gauge, over_words(piece.pattern)
    says = [f"{_gauge_words(piece)}, counted on a blocked swatch {_swatch_stitch(piece, setting)}."]
    if piece.border is not None and gauge.border_stitches:
        rows = f" and {gauge.border_rows:g} rounds" if gauge.border_rows else ""
        says.append(f"Border: {gauge.border_stitches:g} sts{rows} = {over}, worked along an edge.")
    says.append(f"More stitches than this to {over}: take a larger hook. Fewer: take a smaller one.")
    estimates = tuple(in_terms(one, setting.terms) for one in piece.plan.estimates)
    return Chapter(called, (Paragraphs(tuple(says)), Paragraphs(estimates, small=True)))


def over_words(pattern: Pattern) -> str:
    """The length of a gauge in both units as the trade pairs them: "10 cm (4 in)"."""
    over = pattern.gauge.over
    if over.unit == "in":
        return f"{over.text} ({round(over.mm / 10):g} cm)"
    return f"{over.text} ({round(2 * over.mm / MM_PER_INCH) / 2:g} in)"


def _gauge_words(piece: Piece) -> str:
    return gauge_words(piece).replace(piece.pattern.gauge.over.text, over_words(piece.pattern))


def _swatch_stitch(piece: Piece, setting: Setting) -> str:
    """What the swatch is worked in: the stitch of the longest section, or its pattern where it has several."""
    body = max(piece.plan.sections, key=lambda section: section.rows).name
    kinds = {kind for row in piece.fabric.rows if row.section == body for kind in row.row.kinds()}
    rounds = " in the round" if OBJECT_KINDS[piece.plan.kind].rounds else ""
    if len(kinds) == 1 and (loop := worked_loop(piece.fabric.rows, body)) is not None:
        return f"in {show_stitch(kinds.pop(), setting.terms)}{loop}{rounds}"
    return f"in the pattern of the {body}{rounds}"


def _before(piece: Piece, setting: Setting) -> Chapter:
    """How difficult it is, how it is made, and what holds in every row."""
    pattern = piece.pattern
    level, why = level_of(piece.fabric, joined=piece.border is not None and piece.border.joins)
    says = f"Difficulty: {pattern.difficulty}."
    if not pattern.difficulty:
        says = f"Difficulty: {level}" + (f" ({', '.join(why)})." if why else ".")
    said = " ".join(line.text for _, some in words.row_lines(piece.rows, piece.fabric, setting.terms) for line in some)
    lines = [says, how_made(piece), *every_row(piece.fabric.rows, said), *raised_words(piece.fabric.rows),
             *colour_words(piece, setting)]
    if not piece.fabric.rows[0].is_round:
        lines.append(f"On the chart: {_small(words.handed(setting.hand, piece.fabric))}")
    lines.append(pattern.notes_to_maker)
    return Chapter("Before you begin", (Paragraphs(tuple(line for line in lines if line)),))


def _stitches(
    piece: Piece, every: Mapping[str, Piece], finishing: Sequence[Step], setting: Setting
) -> list[Chapter]:  # fmt: skip
    """The abbreviations in full, and every stitch with its sign."""
    terms, own = setting.terms, piece.rows.terms
    specials = [write_special(s, terms, own) for s in piece.rows.specials]
    told = {s.kind or s.abbreviation: f"{s.name}: {told_in_full(s, terms, own)}" for s in piece.rows.specials}
    sections = words.row_lines(piece.rows, piece.fabric, terms)
    lines = [words.show_line(piece.fabric, line) for _, some in sections for line in some]
    begin = words.foundation_words(piece.rows, piece.fabric, terms)
    steps = [text for step in finishing for text in (step.says, *step.lines, *step.after)]
    said = " ".join([*begin, *lines, *steps, *specials, *told.values()])
    short = words.abbreviations(piece.rows, piece.fabric, terms, said)
    table = Pairs(named_once(short, [(s.abbreviation, s.name) for s in piece.rows.specials]))
    explained = words.special_table(piece.rows.specials, terms, own) | told
    rows = [piece.fabric.foundation, *(worked.row for worked in piece.fabric.rows)]
    signs = Signs(signs_of(rows, terms, explained, setting.sc_form))
    sized = [line.words for section in sized_rows(list(every.values()), setting) for line in section.lines]
    ways = Pairs(ways_of_writing(" ".join([*begin, *(sized if len(every) > 1 else lines)])), long=True)
    return [
        Chapter(f"Abbreviations ({terms} terms)", (table,)),
        Chapter("Stitches and their signs", (signs,)),
        Chapter("How to read the rows", (ways,)),
    ]


def _instructions(every: Mapping[str, Piece], setting: Setting, *, cut_out: bool) -> list[Chapter]:
    """The rows by section; of several sizes in one set of words."""
    pieces = list(every.values())
    begin = sized_foundation(pieces, setting)
    charted = [f"On the chart: {_small(says)}" for says in repeats_of_sizes(every)]
    paper = [" ".join([_cut_out_words(pieces[0]), *([_ONLY_YOURS] if len(every) > 1 else [])])] if cut_out else []
    out = [Chapter("Instructions", (Drawn(), Paragraphs((*charted, *paper))))]
    out.append(Chapter("Foundation", (Paragraphs(tuple(begin)),), 2))
    for section in sized_rows(pieces, setting):
        titled, apart = _capital(section.name), section.apart_from
        rows = tuple(_row_line(line, list(every)) for line in section.lines)
        if rows:
            shared = f"{titled}, all sizes" if apart is not None else titled
            out.append(Chapter(shared, (Rows(rows),), 2))
        if apart is not None:
            out += [_section(f"{titled}, size {size}", section.name, one, setting, apart)
                    for size, one in every.items()]  # fmt: skip
    return out


def _row_line(line: SizedLine, names: Sequence[str]) -> RowLine:
    """A line for all sizes with places to tick for the longest; where the others are done, they are named."""
    ends: dict[int, list[str]] = {}
    for rows, name in zip(line.rows, names, strict=True):
        ends.setdefault(rows, []).append(name)
    stops = tuple((rows, ", ".join(of)) for rows, of in sorted(ends.items())) if len(ends) > 1 else ()
    return RowLine(line.label, line.words, max(line.rows), line.period or _TICKED_BY, stops)


def _section(title: str, name: str, piece: Piece, setting: Setting, start: int) -> Chapter:
    """The rows of one section in one size, from a line (0-based) on."""
    lines = dict(words.row_lines(piece.rows, piece.fabric, setting.terms))[name][start:]
    rows = tuple(
        RowLine(words.label_of(piece.fabric, line), line.text, line.last - line.first + 1, line.period or _TICKED_BY)
        for line in lines
    )
    done = Paragraphs((f"The {name} is complete with what is worked in all sizes.",))
    return Chapter(title, (Rows(rows) if rows else done,), 2)


def _about(piece: Piece) -> list[Chapter]:
    """Who tried it; how it may be used stands on the cover."""
    testers = piece.pattern.testers
    thanks = Paragraphs((f"Thanks to those who tried this pattern: {testers}.",))
    return [Chapter("About this pattern", (thanks,))] if testers else []


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def _small(text: str) -> str:
    return text[:1].lower() + text[1:]
