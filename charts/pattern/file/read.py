"""Reads a pattern file (TOML) into records; reports every problem at once, each with its place."""

from __future__ import annotations

import re
import tomllib
from typing import cast

from ...errors import PatternError, Problem
from ...measure import MM_PER_UNIT, Length, show_given
from .book_sizes import named_size
from .checked_names import EDGES, check_names, edge_named
from .checks import check_all, measured, size_lengths, table, tables
from .keys import MOST_TEXT
from .kinds import OBJECT_KINDS, closing_notions, directions, roomed_mm
from .places import Place, Places, locate
from .records import Border, Colour, Fold, Gauge, Join, Measured, Pattern, Section, Special, Yarn
from .table import Reading, Values, visible
from .values import hook_mm

_AT = re.compile(r"\s*\(at (?:line (\d+), column (\d+)|end of document)\)\s*$")
_DOUBLED = re.compile(r"overwrite|twice|already", re.IGNORECASE)
#: The beginning of a line of a written pattern, where a key is expected.
_ROW = re.compile(r"\s*(?:terms\s*:|(?:row|rnd|round)s?\s+\d|ch\s+\d|over\s+\d)", re.IGNORECASE)
#: A dotted key deeper than any that is known, by so much that the reader of TOML would hold gigabytes for it. Nothing
#: in it can be read in two ways, so that it takes time by its length only.
MOST_DOTS = 64
_DEEP_KEY = re.compile(rf"""(?<![\w.-])(?:(?:[\w-]++|"[^"\n]*+"|'[^'\n]*+')[ \t]*+\.[ \t]*+){{{MOST_DOTS}}}""")
_TEN_CM = Length(100.0, "cm", "10 cm")
_UK_BORDER = {"dc": "sc", "htr": "hdc", "tr": "dc", "ss": "sl st"}


def read_pattern(text: str, name: str = "pattern.toml") -> Pattern:
    """A pattern file's text as records; `name` is the file's name as problems print it.

    Raises PatternError with every problem found: what the file says is read key by key, and what can be read
    is checked against the rest, so that one run shows all there is to mend.

    >>> read_pattern('title = 3')
    Traceback (most recent call last):
    ...
    hookfold.charts.errors.PatternError: ...
    """
    raw = parse(text, name)
    reading = Reading(name, locate(text.replace("\r\n", "\n")))
    values = reading.table(raw, "", (), "")
    check_all(values, reading)
    check_names(values, reading)
    if reading.problems:
        raise PatternError(sorted(reading.problems, key=lambda p: (p.line, p.column)))
    return build(values, reading.places, name)


def parse(text: str, name: str) -> dict[str, object]:
    """The text as TOML; PatternError says where it is not."""
    if not text.strip():
        remedy = "write a pattern file: hookfold start FILE."
        raise PatternError([Problem("file", "", "the file is empty.", remedy, file=name)])
    if len(text) > MOST_TEXT:
        says = f"the file has {len(text):,} characters; {MOST_TEXT:,} is the most."
        raise PatternError([Problem("limit", "", says, "write repeats instead of rows.", file=name)])
    deep = _DEEP_KEY.search(text)
    if deep is not None:
        raise PatternError([_too_deep(deep.start(), text, name)])
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as wrong:
        raise PatternError([_not_toml(str(wrong), text, name)]) from None
    except ValueError as wrong:
        raise PatternError([_unreadable(wrong, text, name)]) from None
    except RecursionError:
        says = "brackets are nested too deep to read."
        raise PatternError(
            [Problem("file", "", says, "take out the brackets that are not needed.", file=name)]
        ) from None


def _unreadable(wrong: ValueError, text: str, name: str) -> Problem:
    """A value that is TOML but cannot be held: a number of thousands of digits, a day that is not."""
    found = re.search(r"\d{400,}", text)
    if found is None:
        says = f"a value cannot be read: {visible(str(wrong)[:120])}."
        return Problem("value", "", says, "put it in quotes if it is a text.", file=name)
    line, start = text.count("\n", 0, found.start()) + 1, text.rfind("\n", 0, found.start())
    says = f"the number has {len(found[0]):,} digits."
    shown = visible(text.split("\n")[line - 1])
    remedy, column = "write the number meant.", found.start() - start
    return Problem("value", "", says, remedy, line, column, shown, len(found[0]), name)


def _too_deep(start: int, text: str, name: str) -> Problem:
    """A key of so many parts that it is none of a pattern file."""
    line, column = text.count("\n", 0, start) + 1, start - text.rfind("\n", 0, start)
    says = f"a name of more than {MOST_DOTS} parts with dots between is no key of a pattern file."
    shown = visible(text.split("\n")[line - 1][:400])
    return Problem("file", "", says, "take the line out.", line, column, shown, 1, name)


def _not_toml(message: str, text: str, name: str) -> Problem:
    """tomllib's complaint as a problem at its place."""
    lines = text.replace("\r\n", "\n").split("\n")
    found = _AT.search(message)
    line = int(found[1]) if found and found[1] else len(lines)
    column = int(found[2]) if found and found[2] else len(lines[-1]) + 1
    if _DOUBLED.search(message) and line <= len(lines):
        column = len(lines[line - 1]) - len(lines[line - 1].lstrip()) + 1
    shown = visible(lines[line - 1]) if line <= len(lines) else ""
    says = f"this is not TOML: {visible(_AT.sub('', message)[:120])}."
    return Problem("file", "", says, _toml_advice(message, shown), line, column, shown, 1, name)


def _toml_advice(message: str, line: str) -> str:
    """What most often mends such a line."""
    if _ROW.match(line):
        return "a pattern of rows alone is written in a .txt file; name this one so."
    if _DOUBLED.search(message):
        return "this key or table stands in the file twice; keep one."
    if "character" in message and "·" in line:
        return "take out the character shown as ·; copying from a web page often brings such in."
    value = line.partition("=")[2].strip()
    if value and value[0] not in "\"'[{0123456789+-tf":
        return 'put the text in quotes, as title = "Field-book cover".'
    if line.count('"') % 2:
        return 'close the quotes: each " needs another.'
    return "look for a missing quote, bracket or equals sign here or in the line above."


def build(values: Values, places: Places, name: str) -> Pattern:
    """The records of values that hold together."""
    thing = table(values, "object")
    terms = cast(str, values.get("terms", ""))
    hook = cast(str, values.get("hook", ""))
    colours = tuple(
        Colour(letter, cast(str, entry["name"]), cast(str, entry["hex"]))
        for letter, entry in cast("dict[str, Values]", table(values, "colours")).items()
    )
    measured = _object(thing, places.of_key(("object", "stretch")))
    notions = cast(str, values.get("notions", "")) or closing_notions(measured.kind, measured.lengths, measured.unit)
    return Pattern(
        title=cast(str, values["title"]), gauge=_gauge(table(values, "gauge")),
        object=measured,
        sections=tuple(_section(s, i, places, colours) for i, s in enumerate(tables(values, "section"))),
        file=name, author=cast(str, values.get("author", "")), licence=cast(str, values.get("licence", "")),
        photo=cast(str, values.get("photo", "")), difficulty=cast(str, values.get("difficulty", "")),
        notions=notions, notes_to_maker=cast(str, values.get("notes", "")),
        testers=cast(str, values.get("testers", "")),
        terms=terms, hook=hook, hook_mm=hook_mm(hook), yarn=_yarn(table(values, "yarn")),
        colours=colours, specials=_specials(values, places),
        border=_border(table(values, "border"), terms, places) if "border" in values else None,
        folds=tuple(_fold(f, i, places) for i, f in enumerate(tables(values, "fold"))),
        joins=tuple(_join(j, i, places) for i, j in enumerate(tables(values, "join"))),
        sizes=_sizes(table(values, "sizes"), thing, places),
        lines=tuple(places.text.split("\n")),
    )  # fmt: skip


def _gauge(values: Values) -> Gauge:
    return Gauge(
        stitches=cast(float, values["stitches"]), over=cast(Length, values.get("over", _TEN_CM)),
        rows=cast("float | None", values.get("rows")),
        border_stitches=cast("float | None", values.get("border_stitches")),
        border_rows=cast("float | None", values.get("border_rows")),
        estimated=cast(bool, values.get("estimated", False)),
    )  # fmt: skip


def _object(values: Values, place: Place) -> Measured:
    return _measured(values, measured(values), cast(str, values["kind"]), place)


def _measured(values: Values, lengths: dict[str, Length], kind: str, place: Place) -> Measured:
    along = cast(str, values.get("chain_along", directions(kind, lengths)[0]))
    unit = next(iter(lengths.values())).unit
    stretch = cast("tuple[float, float] | None", values.get("stretch"))
    if "ease" in values:
        least, most = cast("tuple[float, float]", values["ease"])
        stretch = 1 / (1 + most) - 1, 1 / (1 + least) - 1
    size = cast(str, values.get("size", ""))
    computed = (*_computed(size, kind, lengths), *_roomed(kind, lengths))
    called = cast(str, values.get("called", ""))
    return Measured(kind, lengths, along, unit, stretch, size, computed, place, called)


def _computed(size_name: str, kind: str, lengths: dict[str, Length]) -> tuple[str, ...]:
    """What a named size settled, in words."""
    size = named_size(size_name) if size_name else None
    if size is None:
        return ()
    unit_mm = MM_PER_UNIT[size.unit]
    width, height = size.width_mm / unit_mm, size.height_mm / unit_mm
    sides = f"{size.name} is {width:.5g} x {height:.5g} {size.unit} ({size.source})"
    if OBJECT_KINDS[kind].strip != "wrap" or "spine" not in lengths:
        return (sides,)
    spine, wrap = lengths["spine"].mm / unit_mm, lengths["wrap"].mm / unit_mm
    return (sides, f"wrap = 2 x {width:.5g} + {spine:.5g} = {wrap:.5g} {size.unit}")


def _roomed(kind: str, lengths: dict[str, Length]) -> tuple[str, ...]:
    """What a thing's thickness adds to its sides, in words."""
    given = {name: length.mm for name, length in lengths.items()}
    unit = next(iter(lengths.values())).unit
    return tuple(
        f"{name}: {lengths[name].text} and {show_given(mm - given[name], unit)} for the thickness, "
        f"{show_given(mm, unit)} in all"
        for name, mm in roomed_mm(kind, given).items()
        if mm > given[name]
    )


def _sizes(entries: Values, thing: Values, places: Places) -> dict[str, Measured]:
    return {
        own: _size(cast(Values, entry), thing, places.of_key(("sizes", own)))
        for own, entry in entries.items()
    }


def _size(entry: Values, thing: Values, place: Place) -> Measured:
    """One of [sizes]: what it does not say is as in [object]."""
    shared: Values = {name: thing[name] for name in ("chain_along", "stretch", "ease") if name in thing}
    return _measured({**shared, **entry}, size_lengths(entry, thing), cast(str, thing["kind"]), place)


def _section(values: Values, index: int, places: Places, colours: tuple[Colour, ...]) -> Section:
    path = ("section", index)
    one = (cast(str, values["colour"]),) if "colour" in values else tuple(c.letter for c in colours[:1])
    return Section(
        name=cast(str, values["name"]), work=places.words((*path, "work"), cast(str, values["work"])),
        length=cast("str | Length | None", values.get("length")), rows=cast("int | None", values.get("rows")),
        stripes=cast("tuple[str, ...]", values.get("stripes", one)),
        texture=cast(str, values.get("texture", "raised")),
        repeat_from=cast(int, values.get("repeat_from", 1)),
        ends=cast(str, values.get("ends", "as it began")),
        gauge_rows=cast("float | None", values.get("gauge_rows")),
        to=cast("int | Length | None", values.get("to")), over=cast("int | Length | None", values.get("over")),
        place=places.of_key(path),
    )  # fmt: skip


def _specials(values: Values, places: Places) -> tuple[Special, ...]:
    return tuple(
        Special(name, cast(str, entry["is"]), cast(str, entry.get("abbreviation", name)),
                places.of_key(("stitches", name)).line)
        for name, entry in cast("dict[str, Values]", table(values, "stitches")).items()
    )  # fmt: skip


def _border(values: Values, terms: str, places: Places) -> Border:
    """The border; its stitch is read in the file's terms."""
    stitch = cast(str, values.get("stitch", "sc"))
    return Border(
        stitch=_UK_BORDER.get(stitch, stitch) if terms == "UK" else stitch,
        joins=cast(bool, values.get("joins", False)), corner=cast(int, values.get("corner", 3)),
        rounds=cast(int, values.get("rounds", 1)), edging=cast(str, values.get("edging", "plain")),
        colour=cast(str, values.get("colour", "")), line=places.of_key(("border",)).line,
    )  # fmt: skip


def _yarn(values: Values) -> Yarn:
    grams, metres, label = cast("tuple[float | None, float | None, str]", values.get("ball", (None, None, "")))
    return Yarn(
        category=cast("int | None", values.get("category")), fibre=cast(str, values.get("fibre", "")),
        swatch_weight_g=cast("float | None", values.get("swatch_weight")),
        swatch_mm=cast("tuple[float, float] | None", values.get("swatch_size")), ball_g=grams, ball_m=metres,
        label=label,
    )  # fmt: skip


def _fold(values: Values, index: int, places: Places) -> Fold:
    return Fold(cast("tuple[str, ...]", values["at"]), cast(str, values["moves"]),
                cast(str, values.get("direction", "over")), cast(str, values.get("says", "")),
                places.of_key(("fold", index)))  # fmt: skip


def _join(values: Values, index: int, places: Places) -> Join:
    return Join(
        _edge(cast(str, values["first"])), _edge(cast(str, values["second"])), cast(str, values.get("by", "border")),
        cast(str, values.get("name", "")), places.of_key(("join", index)),
    )  # fmt: skip


def _edge(text: str) -> str:
    """An edge as folding names it.

    >>> _edge("front flap start"), _edge("left of body")
    ('foundation of front flap', 'left of body')
    """
    name, edge = edge_named(text)
    return f"{EDGES[edge]} of {name}" if edge in EDGES else text
