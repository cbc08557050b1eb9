"""The page to work from: what it is told of a pattern file or of a written pattern.

Words, counts and looks stand in it once each, and a row names them by their places; rows that come again are told once
(`looks.packed`). So a blanket of four hundred rows of two kinds is two rows and their order.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping, Sequence
from dataclasses import field

from ...drawing.plain import clean_line, clean_text
from ...folding.border import BorderPlan
from ...folding.finishing import finishing_steps
from ...folding.folds import Folding
from ...layout.chart.condense import row_repeats
from ...layout.chart.reading import hidden_words, said_of, side_words
from ...made_late import dataclass
from ...model.cloth.fabric import Fabric, WorkedRow
from ...model.rows.working import Worked, WorkedPiece
from ...pattern.tree import Act, Op, Special, Stated, WrittenPattern
from ...pattern.writer import write_special, write_start, write_stated
from ...setting import Hand, Heading, Setting, Terms
from ..piece import Piece, heading_of
from ..tidied import counts_in_blocks, tidied_rows, told_behind
from ..words import foundation_words, row_lines, row_words, show_line, special_table, stated_of
from .chart import SEEN, KeyLine, PageChart, key_lines, page_chart
from .looks import packed
from .page import page, tag, text

BOTH: tuple[Terms, Terms] = ("US", "UK")
#: Finishing for each hand: the folding and the border that it is told of.
Finishing = Mapping[Hand, tuple[Folding, BorderPlan | None]]


@dataclass(slots=True)
class _Table:
    """What is said, once each, in both terms."""

    said: list[tuple[str, ...]] = field(default_factory=list)
    _at: dict[tuple[str, str], int] = field(default_factory=dict)

    def add(self, us: str, uk: str) -> int:
        """The place of a text; -1 for none."""
        us, uk = clean_text(us).strip(), clean_text(uk).strip()
        if not us:
            return -1
        if (us, uk) not in self._at:
            self._at[us, uk] = len(self.said)
            self.said.append((us,) if us == uk else (us, uk))
        return self._at[us, uk]


@dataclass(frozen=True, slots=True)
class _Row:
    """A row as it is told: its words and its count in both terms."""

    worked: WorkedRow
    words: tuple[str, str]
    count: tuple[str, str]
    proved: bool = True


@dataclass(frozen=True, slots=True)
class _Part:
    """A piece of work: how it begins (with a note), its rows, and its lines for those who read them all at once, under
    the names of its sections. `fabric` is what of it can be drawn."""

    name: str
    make: int
    begins: tuple[str, str]
    note: str
    rows: tuple[_Row, ...]
    fabric: Fabric | None
    lines: tuple[tuple[str, tuple[str, ...]], ...]


# -- a pattern file -------------------------------------------------------------------------------------------------


def follow_piece(piece: Piece, setting: Setting, finishing: Finishing) -> bytes:
    """The page of a pattern file, worked through."""
    fabric, terms = piece.fabric, setting.terms
    after = [row.colour for row in fabric.rows[1:]] + [""]
    rows = tuple(
        _row(row, text.ops, colour) for row, text, colour in zip(fabric.rows, piece.rows.rows, after, strict=True)
    )
    begins = [foundation_words(piece.rows, fabric, each) for each in BOTH]
    lines = [
        (name, tuple(show_line(fabric, line) for line in found))
        for name, found in row_lines(piece.rows, fabric, terms)
    ]
    part = _Part("", 1, (begins[0][0], begins[1][0]), begins[0][1], rows, fabric, tuple(lines))
    steps = {
        hand: [_finish(piece, folding, border, each) for each in BOTH] for hand, (folding, border) in finishing.items()
    }
    special = {each: special_table(piece.read.specials, each, piece.read.terms) for each in BOTH}
    colours = {c.letter: [clean_line(c.name), c.hex] for c in piece.pattern.colours}
    heading = heading_of(piece, setting)
    return _page([part], heading, setting, piece.rows, special, colours, steps)


def _row(
    row: WorkedRow, ops: tuple[Op, ...], following: str, *, proved: bool = True, stated: tuple[Stated, ...] = (),
    told: Sequence[Sequence[str]] = ((), ()),
) -> _Row:  # fmt: skip
    """A row in both terms; behind its words stands what is `told` there."""
    words = [" ".join([row_words(ops, row, following, terms), *said]) for terms, said in zip(BOTH, told, strict=True)]
    count = [write_stated(stated or stated_of(row.row), terms).strip(" ()") for terms in BOTH]
    return _Row(row, (words[0], words[1]), (count[0], count[1]), proved)


def _finish(piece: Piece, folding: Folding, border: BorderPlan | None, terms: Terms) -> tuple[str, ...]:
    return finishing_steps(piece.plan, border, terms=terms, folding=folding)


# -- a written pattern ----------------------------------------------------------------------------------------------


def follow_written(worked: Worked, title: str, setting: Setting) -> bytes:
    """The page of a written pattern that has no problems, all its pieces; rows that were not proved say so."""
    pattern = worked.pattern
    parts = [_written_part(piece, worked, setting) for piece in worked.pieces]
    special = {each: special_table(pattern.specials, each, pattern.terms) for each in BOTH}
    return _page(parts, Heading(title, terms=setting.terms), setting, pattern, special, {}, {})


def _written_part(piece: WorkedPiece, worked: Worked, setting: Setting) -> _Part:
    start = piece.texts[0].begins if piece.texts else None
    start = start or (worked.pattern.start if piece is worked.pieces[0] else None)
    told = start is not None and start.how != "none"
    begins = (write_start(start, "US"), write_start(start, "UK")) if start is not None and told else ("", "")
    in_blocks = counts_in_blocks(piece.fabric)
    behind = [*piece.texts[1:], None]
    told_rows = zip(piece.fabric.rows, piece.ops, piece.proved, piece.texts, behind, strict=True)
    remarks = [told_behind(worked, piece, terms) for terms in BOTH]
    ends = {text.line: at for at, text in enumerate(piece.texts)}
    rows = tuple(
        _row(
            row, _own_ops(ops, row, last=text is not after), "", proved=proved == "yes", stated=in_blocks.get(at, ()),
            told=[each.get(text.line, ()) if ends[text.line] == at else () for each in remarks],
        )
        for at, (row, ops, proved, text, after) in enumerate(told_rows)
    )
    whole = next((n for n, row in enumerate(rows) if not row.proved), len(rows))
    drawn = Fabric(
        piece.fabric.start, piece.fabric.foundation, piece.fabric.rows[:whole], piece.fabric.chains, piece.fabric.risen
    )
    lines = tuple(tidied_rows(piece.fabric, piece.texts, setting.terms, remarks[BOTH.index(setting.terms)]))
    can_draw = whole > 0 and piece.fabric.start != "edge"
    return _Part(clean_line(piece.name), piece.make, begins, "", rows, drawn if can_draw else None, (("", lines),))


def _own_ops(ops: tuple[Op, ...], row: WorkedRow, *, last: bool) -> tuple[Op, ...]:
    """A row's words without the fastening off that is told once for a run of rows, but in its last row."""
    ends = bool(ops) and isinstance(ops[-1], Act) and ops[-1].name == "fasten off"
    return ops[:-1] if ends and not last and not row.cut else ops


# -- what the page is told ------------------------------------------------------------------------------------------


def _page(
    parts: Sequence[_Part], heading: Heading, setting: Setting, pattern: WrittenPattern,
    special: Mapping[Terms, Mapping[str, str]], colours: Mapping[str, object],
    steps: Mapping[Hand, Sequence[Sequence[str]]],
) -> bytes:  # fmt: skip
    table = _Table()
    charts = [page_chart(part.fabric) if part.fabric is not None else None for part in parts]
    spots = [spot for chart in charts if chart is not None for spot in chart.spots]
    data: dict[str, object] = {
        "title": clean_line(heading.title), "terms": setting.terms, "hand": setting.hand, "colours": colours,
        "parts": [_part(part, chart, table) for part, chart in zip(parts, charts, strict=True)],
        "finishing": {hand: [table.add(us, uk) for us, uk in zip(*both, strict=True)] for hand, both in steps.items()},
        "key": [_key(line) for line in key_lines(spots, special)] if spots else [],
        "reading": _reading([chart for chart in charts if chart is not None], table),
        "special": _specials(pattern.specials, pattern.terms, table),
    }  # fmt: skip
    data["said"] = table.said
    data["id"] = hashlib.sha256(json.dumps(data, sort_keys=True).encode("utf-8")).hexdigest()[:8]
    fields = {
        "title": text(heading.title), "byline": _byline(heading), "facts": _facts(heading, setting),
        "lines": _lines(parts, setting, steps),
    }  # fmt: skip
    return page("follow.html", ("page.css", "follow.css"), ("chart.js", "follow.js"), data, fields)


def _reading(charts: Sequence[PageChart], table: _Table) -> list[int]:
    """How the charts are read, in sentences."""
    rows = [row for chart in charts for row in chart.drawn.rows]
    works = [row.row for row in rows]
    both = zip(said_of(works, "US"), said_of(works, "UK"), strict=True)
    same = [*side_words(rows, SEEN), *hidden_words(spot for chart in charts for spot in chart.spots)]
    return [table.add(us, uk) for us, uk in (*both, *((says, says) for says in same))]


def _specials(specials: Sequence[Special], own: str, table: _Table) -> list[int]:
    return [table.add(write_special(s, "US", own), write_special(s, "UK", own)) for s in specials]


def _part(part: _Part, chart: PageChart | None, table: _Table) -> dict[str, object]:
    kinds: list[list[object]] = []
    sections: list[str] = []
    labels: list[tuple[int, int, int, int]] = []
    order = [_kind_at(_kind(n, row, chart, table, sections, labels), kinds) for n, row in enumerate(part.rows)]
    numbers = [row.worked.number for row in part.rows]
    ways = [b - a for a, b in zip([0, *numbers], numbers, strict=False)]
    whole = Fabric("chain", part.rows[0].worked.row, tuple(row.worked for row in part.rows)) if part.rows else None
    told: dict[str, object] = {
        "name": part.name, "make": min(part.make, 12), "begins": table.add(*part.begins),
        "note": table.add(part.note, part.note), "shape": chart.shape if chart else "none", "sections": sections,
        "kinds": kinds, "rows": packed(order), "numbers": _ways(ways), "labels": labels,
        "repeats": [[f.first, f.rows, f.times] for f in row_repeats(whole)] if whole else [],
    }  # fmt: skip
    if chart:
        told |= {
            "glyphs": chart.looks.glyphs, "steps": chart.looks.steps, "looks": chart.looks.rows, "ground": chart.ground,
            "again": chart.again,
        }  # fmt: skip
    return told


def _ways(ways: Sequence[int]) -> list[list[int]]:
    """How the numbers go on: (by how much, how often)."""
    out: list[list[int]] = []
    for way in ways:
        if out and out[-1][0] == way:
            out[-1][1] += 1
        else:
            out.append([way, 1])
    return out


def _kind_at(kind: list[object], kinds: list[list[object]]) -> int:
    if kind not in kinds:
        kinds.append(kind)
    return kinds.index(kind)


def _kind(
    n: int, row: _Row, chart: PageChart | None, table: _Table, sections: list[str],
    labels: list[tuple[int, int, int, int]],
) -> list[object]:  # fmt: skip
    """A row as the script reads it; the order is that of `Kind` there."""
    worked = row.worked
    section = clean_line(worked.section)
    if section not in sections:
        sections.append(section)
    drawn = chart is not None and n < len(chart.row_looks)
    look, rise, label = (-1, -1), 0, -1
    if chart is not None and drawn:
        look, rise = chart.row_looks[n], chart.rises[n]
        if chart.labels:
            if chart.labels[n] not in labels:
                labels.append(chart.labels[n])
            label = labels.index(chart.labels[n])
    word, _, number = worked.label.rpartition(" ")
    name = word if number == str(worked.number) else worked.label
    return [
        clean_line(name), int(name == word), table.add(*row.words), table.add(*row.count), *look, rise, label,
        sections.index(section), clean_line(worked.colour), int(worked.side == "WS"),
        int(worked.direction == "left-to-right"), int(worked.is_round), int(row.proved),
        int(chart is not None and drawn and bool(side_words([chart.drawn.rows[n]], SEEN))), *(worked.row.repeat or ()),
    ]  # fmt: skip


def _key(line: KeyLine) -> list[object]:
    return [*line.shape, list(line.box), *line.short, *line.name, *line.words]


# -- what can be read without the script ----------------------------------------------------------------------------


def _byline(heading: Heading) -> str:
    said = ", ".join(each for each in (heading.author, heading.licence) if each)
    return tag("p", text(f"by {said}" if heading.author else said), class_="byline") if said else ""


def _facts(heading: Heading, setting: Setting) -> str:
    return "".join(tag("dt", text(label)) + tag("dd", text(value)) for label, value in heading.facts(setting))


def _lines(parts: Sequence[_Part], setting: Setting, steps: Mapping[Hand, Sequence[Sequence[str]]]) -> str:
    """Every row in words, as they are printed."""
    which = BOTH.index(setting.terms)
    out = []
    for part in parts:
        head = part.name + (f" (make {part.make})" if part.make > 1 else "")
        out.append(tag("h3", text(head)) if head else "")
        out.append(tag("p", text(part.begins[which])) if part.begins[which] else "")
        for name, lines in part.lines:
            out.append(tag("h3", text(name[:1].upper() + name[1:])) if name else "")
            out.append(tag("ul", "".join(tag("li", text(line)) for line in lines)))
    if setting.hand in steps:
        found = steps[setting.hand][which]
        out += [tag("h3", "Finishing"), tag("ol", "".join(tag("li", text(line)) for line in found))]
    return "".join(out)

