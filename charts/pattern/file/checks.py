"""Whether the values of a pattern file agree with each other: measurements, letters, lengths, names."""

from __future__ import annotations

import re
from typing import cast

from ...measure import MM_PER_UNIT, Length, show_length
from .book_sizes import NamedSize, head_size, named_size
from .kinds import MEASUREMENTS, OBJECT_KINDS, Measurement, directions, flap_room_mm, named_lengths, needed
from .table import Reading, Values, nearest_key


def check_all(values: Values, reading: Reading) -> None:
    """Every check of this module; the values may be incomplete where they could not be read."""
    if "object" in values:
        check_object(table(values, "object"), reading)
    for own in table(values, "sizes"):
        check_size(own, values, reading)
    check_border(values, reading)
    check_fibre(values, reading)
    check_letters(values, reading)
    check_sections(values, reading)


def table(values: Values, name: str) -> Values:
    return cast(Values, values.get(name, {}))


def tables(values: Values, name: str) -> list[Values]:
    return cast("list[Values]", values.get(name, []))


def measured(values: Values) -> dict[str, Length]:
    """The measurements given, with those that follow from a named size and a spine."""
    given = {name: cast(Length, values[name]) for name in MEASUREMENTS if name in values}
    return {**from_size(values, given), **given}


def from_size(values: Values, given: dict[str, Length]) -> dict[str, Length]:
    """Height, and wrap (a book's) or width, of a named size."""
    kind = OBJECT_KINDS.get(cast(str, values.get("kind", "book")))
    if "size" in values and kind is not None and kind.crown:
        head = head_size(cast(str, values["size"]))
        made = {"around": head.around_mm, "height": head.height_mm} if head else {}
        return {name: Length(mm, "cm", show_length(mm, "cm")) for name, mm in made.items()}
    size = named_size(cast(str, values["size"])) if "size" in values else None
    if size is None:
        return {}
    found = {"height": _made(size.height_mm, size)}
    if kind is not None and kind.strip != "wrap":
        found["width"] = _made(size.width_mm, size)
    elif "spine" in given:
        found["wrap"] = _made(size.wrap_mm(given["spine"].mm), size)
    return found


def _made(mm: float, size: NamedSize) -> Length:
    return Length(mm, size.unit, show_length(mm, size.unit))


def check_object(values: Values, reading: Reading) -> None:
    """A size or measurements, not both; what the kind needs; a chain along a measurement; flaps that fit."""
    kind = values.get("kind")
    _refuse_both(values, ("object",), "[object]", reading)
    if not isinstance(kind, str):
        return
    lengths = measured(values)
    _need(kind, lengths, values, reading)
    along = values.get("chain_along")
    ways = directions(kind, lengths)
    allowed = ways if OBJECT_KINDS[kind].either else ways[:1]
    if along is not None and along not in allowed:
        says = f"the chain cannot run along the {along}; in a {kind} it runs along {' or '.join(allowed)}."
        reading.add(
            "value",
            "[object]",
            says,
            f'write chain_along = "{ways[0]}".',
            reading.places.of_value(("object", "chain_along")),
        )
    in_row = along == ways[1] and "flap" in OBJECT_KINDS[kind].extras and OBJECT_KINDS[kind].either
    if in_row and not ("flap" in lengths or reading.wrote(("object", "flap"))):
        reading.add(
            "missing",
            "[object]",
            f"flap is missing: with the chain along the {along} the flaps lie in every row.",
            'add flap = "65 mm".',
            reading.places.of_key(("object",)),
        )
    check_flap(kind, lengths, ("object",), "[object]", reading)
    check_ranges(kind, lengths, ("object",), "[object]", reading)
    _check_room(kind, values, reading)


def _check_room(kind: str, values: Values, reading: Reading) -> None:
    """Room is asked of what slides in, stretch of what is worn tight; not both."""
    if "ease" not in values:
        return
    place = reading.places.of_key(("object", "ease"))
    if OBJECT_KINDS[kind].fit != "ease":
        says = f"a {kind} has no ease: it stretches over what it holds, or is as large as asked for."
        reading.add("value", "[object]", says, 'write stretch = ["0 %", "6 %"], or take ease out.', place)
    elif "stretch" in values:
        reading.add("value", "[object]", "ease and stretch are both given.", "take out one of them.", place)


def _refuse_both(values: Values, path: tuple[str, ...], where: str, reading: Reading) -> None:
    """A named size says height and wrap (or width) itself."""
    doubled = [name for name in ("height", "wrap", "width") if name in values] if "size" in values else []
    if doubled:
        both = " and ".join(doubled)
        says = f'the size "{values["size"]}" says the {both} already; size and {both} are both given.'
        place = reading.places.of_key((*path, doubled[0]))
        reading.add("value", where, says, f"take out size, or take out {both}.", place)


def _need(kind: str, lengths: dict[str, Length], values: Values, reading: Reading) -> None:
    for name in needed(kind, lengths):
        _miss_measurement(name, kind, lengths, values, ("object",), "[object]", reading)


def _miss_measurement(
    name: str, kind: str, lengths: dict[str, Length], values: Values, path: tuple[str, ...], where: str,
    reading: Reading,
) -> None:  # fmt: skip
    """A measurement that is not given; where it is written and could not be read, that is said already."""
    if name in lengths or reading.wrote((*path, name)):
        return
    if reading.wrote((*path, "size")):
        if "size" in values and name == "wrap" and not reading.wrote((*path, "spine")):
            says = "spine is missing: the wrap of a named size is 2 x its width + the spine."
            place = reading.places.of_key((*path, "size"))
            reading.add("missing", where, says, 'add spine = "12 mm".', place)
        return
    rule = OBJECT_KINDS[kind].measure(name) or MEASUREMENTS[name]
    usual = rule.offers
    says = f"{name} is missing: a {kind} is measured by it."
    reading.add("missing", where, says, f'add {name} = "{usual}".', reading.places.of_key(path))


def check_flap(
    kind: str, lengths: dict[str, Length], path: tuple[str, ...], where: str, reading: Reading
) -> None:
    """A flap or an overlap is no longer than what it lies on: half the wrap, or the height."""
    if kind not in OBJECT_KINDS:
        return
    _, strip = directions(kind, lengths)
    name = "overlap" if "overlap" in OBJECT_KINDS[kind].extras else "flap"
    if name not in lengths or strip not in lengths:
        return
    half = strip == "wrap" and name == "flap"
    given = {each: length.mm for each, length in lengths.items()}
    room_mm = flap_room_mm(kind, given)
    if lengths[name].mm > room_mm:
        unit = lengths[strip].unit
        lies_on = f"half the {strip}" if half else f"the {strip}"
        lies_on += " less half the thickness" if given.get(OBJECT_KINDS[kind].thick) else ""
        room = show_length(room_mm, unit)
        says = f"the {name} is {lengths[name].text}; what it lies on, {lies_on}, is {room}."
        usual = show_length(min(room_mm, 65.0), unit)
        reading.add(
            "fold",
            where,
            says,
            f'make the {name} shorter, as {name} = "{usual}".',
            reading.places.of_value((*path, name)),
        )


def check_ranges(
    kind: str, lengths: dict[str, Length], path: tuple[str, ...], where: str, reading: Reading
) -> None:
    """Every measurement lies in what a piece of the kind can be: a book of two metres is a slip of the unit."""
    for name, length in lengths.items():
        rule = OBJECT_KINDS[kind].measure(name)
        if rule is None or rule.least.mm <= length.mm <= rule.most.mm or not reading.wrote((*path, name)):
            continue
        says = f"{name} is {length.text}; of a {kind} it lies between {_shown(rule.least)} and {_shown(rule.most)}."
        reading.add("value", where, says, _remeasured(length, rule), reading.places.of_value((*path, name)))


def _shown(length: Length) -> str:
    """A bound in the unit that it reads best in."""
    return show_length(length.mm, "mm" if length.mm < 100 else "cm")


def _remeasured(length: Length, rule: Measurement) -> str:
    """What was most likely meant: the same number in another unit, else another measure."""
    number = length.text.rstrip("abcdefghijklmnopqrstuvwxyz\"″ ")
    others = {unit: mm for unit, mm in MM_PER_UNIT.items() if f"{number} {unit}" != length.text}
    meant = [unit for unit, mm in others.items() if _inside(number, mm, rule)]
    return f'look at the unit, as {rule.name} = "{number} {meant[0]}".' if meant else "measure it again."


def _inside(number: str, unit_mm: float, rule: Measurement) -> bool:
    try:
        return rule.least.mm <= float(number.replace(",", ".")) * unit_mm <= rule.most.mm
    except ValueError:
        return False


def check_size(own: str, values: Values, reading: Reading) -> None:
    """One of [sizes]: agrees with itself, and gives the same directions as [object]."""
    entry, path, where = table(table(values, "sizes"), own), ("sizes", own), f"[sizes] {own}"
    _refuse_both(entry, path, where, reading)
    thing = table(values, "object")
    kind = thing.get("kind")
    if not isinstance(kind, str):
        return
    lengths = size_lengths(entry, thing)
    for name in needed(kind, measured(thing)):
        _miss_measurement(name, kind, lengths, entry, path, where, reading)
    check_flap(kind, lengths, path, where, reading)
    check_ranges(kind, lengths, path, where, reading)


def size_lengths(entry: Values, thing: Values) -> dict[str, Length]:
    """The measurements of one of [sizes]; a flap, an overlap or a spine not given is that of [object]."""
    kind = OBJECT_KINDS.get(cast(str, thing.get("kind", "")))
    ways = (kind.plain, kind.strip) if kind else ()
    shared = {
        name: length for name, length in measured(thing).items() if name not in (*ways, "wrap", "width", "height")
    }
    own = {**shared, **{name: cast(Length, entry[name]) for name in MEASUREMENTS if name in entry}}
    return {**from_size({**entry, "kind": thing.get("kind")}, own), **own}


#: Fibres that melt, as they are called on a band.
MELTS = re.compile(r"acryl|poly|nylon|elastan|lycra|spandex|micro ?fib|synthetic|man-made|blend|mix", re.IGNORECASE)


#: What a ball holds, set down for what it is spun of: "100 g / 300 m".
WEIGHED = re.compile(r"\d\s*(?:g|gr|grams?|oz|m|metres?|meters?|yd|yds|yards?)\b", re.IGNORECASE)


def check_fibre(values: Values, reading: Reading) -> None:
    """What is for hot things is worked in cotton or wool: man-made fibres melt (common practice, no source)."""
    kind = OBJECT_KINDS.get(cast(str, table(values, "object").get("kind", "")))
    fibre = str(table(values, "yarn").get("fibre", ""))
    if WEIGHED.search(fibre):
        place = reading.places.of_value(("yarn", "fibre"))
        says = f'"{fibre}" is no fibre, but what a ball holds.'
        reading.add("value", "[yarn]", says, f'write ball = "{fibre}".', place)
        return
    if kind is None or kind.fibres != "heat" or not MELTS.search(fibre):
        return
    says = f"{fibre} melts, and a {kind.name} comes near hot things."
    place = reading.places.of_value(("yarn", "fibre"))
    reading.add("value", "[yarn]", says, 'take cotton or wool, as fibre = "cotton".', place)


def check_border(values: Values, reading: Reading) -> None:
    """No border round what has no edge for one."""
    kind = OBJECT_KINDS.get(cast(str, table(values, "object").get("kind", "")))
    if kind is None or kind.border != "none" or "border" not in values:
        return
    says = f"a {kind.name} has no border."
    remedy = "take [border] out; write an edge as the last rows of the work."
    reading.add("value", "[border]", says, remedy, reading.places.of_key(("border",)))


def check_letters(values: Values, reading: Reading) -> None:
    """Every colour letter used is in [colours]; letters there are capitals."""
    known = list(table(values, "colours"))
    for letter in known:
        if not (letter.isalpha() and letter.isupper() and letter.isascii() and len(letter) <= 2):
            reading.add(
                "value",
                "[colours]",
                f'"{letter}" is not a colour letter; colours go by capital letters.',
                'call it "A", "B", "C" and so on.',
                reading.places.of_key(("colours", letter)),
            )
    for index, section in enumerate(tables(values, "section")):
        _known_letters(
            section, known, ("section", index), f'section "{section.get("name", index + 1)}"', reading
        )
    _known_letters(table(values, "border"), known, ("border",), "[border]", reading)


def _known_letters(
    entry: Values, known: list[str], path: tuple[str | int, ...], where: str, reading: Reading
) -> None:
    if "colour" in entry and "stripes" in entry:
        reading.add(
            "value",
            where,
            "colour and stripes are both given.",
            "take out one of them.",
            reading.places.of_key((*path, "stripes")),
        )
    uses = [(entry["colour"], (*path, "colour"))] if "colour" in entry else []
    stripes = cast("tuple[str, ...]", entry.get("stripes", ()))
    uses += [(letter, (*path, "stripes", i)) for i, letter in enumerate(stripes)]
    said: set[object] = set()
    for letter, place in uses:
        if letter not in known and letter not in said and str(letter).lower() not in known:
            said.add(letter)
            has = f"which has {', '.join(known)}" if known else "which is not there"
            reading.add(
                "value",
                where,
                f'colour "{letter}" is not in [colours], {has}.',
                f'add {letter} = {{ name = "...", hex = "#..." }} to [colours], or use another letter.',
                reading.places.of_value(place),
            )


def check_sections(values: Values, reading: Reading) -> None:
    """A length or rows each, names that differ, lengths that are measured."""
    names: dict[str, int] = {}
    rest = 0
    for index, section in enumerate(tables(values, "section")):
        where = f'section "{section.get("name", index + 1)}"'
        _check_length(section, index, where, values, reading)
        rest += section.get("length") == "rest"
        if rest > 1 and section.get("length") == "rest":
            reading.add(
                "value",
                where,
                'length = "rest" stands in two sections; only one can take what is left.',
                "give one of them a length.",
                reading.places.of_value(("section", index, "length")),
            )
        name = str(section.get("name", "")).lower()
        if name and name in names:
            reading.add(
                "value",
                where,
                f"sections {names[name] + 1} and {index + 1} have the same name.",
                "give each section its own name.",
                reading.places.of_value(("section", index, "name")),
            )
        names.setdefault(name, index)
    if "section" in values and not values["section"] and not reading.problems:
        reading.add(
            "missing",
            "[[section]]",
            "there is no section.",
            "add one [[section]] with its work.",
            reading.places.of_key(("section",)),
        )


def _check_length(section: Values, index: int, where: str, values: Values, reading: Reading) -> None:
    path = ("section", index)
    has_length, has_rows = reading.wrote((*path, "length")), reading.wrote((*path, "rows"))
    if has_length and has_rows:
        reading.add(
            "value",
            where,
            "length and rows are both given.",
            "take out one of them.",
            reading.places.of_key((*path, "rows")),
        )
    elif not has_length and not has_rows:
        reading.add(
            "missing",
            where,
            "neither length nor rows is given.",
            'add length = "flap" (or another measurement, or a length), or rows = 11.',
            reading.places.of_key(path),
        )
    length = section.get("length")
    if isinstance(length, str) and "object" in values:
        _check_named_length(length, index, where, table(values, "object"), reading)


def _check_named_length(length: str, index: int, where: str, thing: Values, reading: Reading) -> None:
    kind = str(thing.get("kind"))
    given = [*measured(thing), *(named_lengths(kind) if kind in OBJECT_KINDS else ("rest",))]
    said = length in needed(kind, measured(thing)) if kind in OBJECT_KINDS else False
    if said or length in given or reading.wrote(("object", length)):
        return
    place = reading.places.of_value(("section", index, "length"))
    if length in MEASUREMENTS:
        reading.add(
            "missing",
            where,
            f'length = "{length}", but [object] gives no {length}.',
            f'add {length} = "65 mm" to [object], or give a length here.',
            place,
        )
    else:
        advice = nearest_key(length, given) if given else "give a length."
        reading.add(
            "value",
            where,
            f'length = "{length}" is neither a length nor a measurement of [object].',
            advice.replace("the keys here are", "the measurements are"),
            place,
        )
