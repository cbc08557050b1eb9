"""Writing places as the trade writes them: "next 2 sts", "4th dc of next shell", "each skipped sc 3 rows below"."""

from __future__ import annotations

from collections.abc import Callable

from .lexicon import show_stitch
from .tree import MIDDLE_OF, PETAL_ST, Noun, Place


def write_place(place: Place, terms: str) -> str:
    """A place without its preposition."""
    text = _PLACES.get(place.which, _next)(place, terms)
    if place.hold in ("front loop", "back loop", "third loop"):
        text = f"{place.hold} of {text}"
    if place.row is not None:
        text += f" of Row {place.row.number}" if place.row.number else f" {place.row.below} rows below"
    return text


def _next(place: Place, terms: str) -> str:
    if place.nth and place.which == "last":
        return f"next to last {plural(place.noun, 1, terms)}"
    if place.nth:
        return f"{write_nth(place.nth)} {plural(place.noun, 1, terms)}"
    if place.noun.name == "middle st":
        return plural(place.noun, 1, terms)
    number = f"{place.count} " if place.count != 1 else ""
    which = "" if place.bare and place.noun.name == "ch" else f"{place.which} "
    return f"{which}{number}{plural(place.noun, place.count, terms)}"


def _each(place: Place, terms: str) -> str:
    nouns = " and each ".join(plural(n, 1, terms) for n in (place.noun, *place.also))
    upto = f" to next {plural(place.upto, 1, terms)}" if place.upto else " across"
    until = f" to last {write_amount(place.until, terms)}" if place.until else upto
    if place.until and place.upto:
        until = f" to {write_amount(place.until, terms)} before {plural(place.upto, 1, terms)}"
    if place.after:
        until += f", omitting first {write_amount((place.after, place.noun), terms)}"
    if place.of is not None:
        return f"other {nouns} of that {plural(place.of.noun, 1, terms)}"
    every = {1: "each", 2: "every other"}.get(place.step, f"every {write_nth(place.step)}")
    return f"{every} {nouns}{until}"


def _of_nth(place: Place, terms: str) -> str:
    if not place.count and place.of:
        return f"each {plural(place.noun, 1, terms)} of {write_place(place.of, terms)}"
    number = f"{place.count} " if place.count != 1 else ""
    which = {0: _middle(terms), -1: "last"}.get(place.nth, write_nth(place.nth))
    which = "first" if place.nth == 1 and place.count > 1 else which
    of = write_place(place.of, terms) if place.of else "next group"
    if place.bare and place.nth == 1 and place.count == 1:
        return f"{plural(place.noun, 1, terms)} of {of}"
    return f"{which} {number}{plural(place.noun, place.count, terms)} of {of}"


def _beg(place: Place, terms: str) -> str:
    if place.noun.name in ("ch", "st"):
        return f"beg ch-{place.noun.size}" if place.noun.size else "beg ch"
    return f"beg {show_stitch(place.noun.name, terms)}"


def _beside(place: Place, terms: str) -> str:
    return f"sp {place.which} {write_place(place.of, terms)}" if place.of else "next sp"


def _any(place: Place, terms: str) -> str:
    beside = f" {place.of.which} {write_place(place.of.of, terms)}" if place.of and place.of.of else ""
    return f"any {plural(place.noun, 1, terms)}{beside}"


def _unworked(place: Place, terms: str) -> str:
    number = f"next {place.count} " if place.count > 1 else "next " if place.count else "each "
    return f"{number}skipped {plural(place.noun, max(place.count, 1), terms)}"


_PLACES: dict[str, Callable[[Place, str], str]] = {
    "each": _each,
    "half": lambda p, t: f"{'first' if p.nth == 1 else 'last'} half of {plural(p.noun, 2, t)}",
    "same": lambda p, t: f"same {_plain(p.noun, t)}" + " as beginning" * (p.of is not None),
    "hook": lambda p, t: f"{_nths(p) if p.nth else 'last'} ch from hook",
    "nth": _of_nth,
    "top": lambda p, t: f"top of {write_place(p.of, t)}" if p.of else "top",
    "beg": _beg,
    "any": _any,
    "ring": lambda p, t: "ring",
    "skipped": lambda p, t: f"{write_nth(p.nth)} " * (p.nth > 0) + f"skipped {plural(p.noun, 1, t)}",
    "unworked": _unworked,
    "opening": lambda p, t: "skipped ch at beginning",
    "before": _beside, "after": _beside, "between": _beside,
    "made": lambda p, t: "last st made",
    "edge": lambda p, t: "each row end" if p.noun.name == "row" else f"next {p.count} row ends",
    "again": lambda p, t: f"same last {plural(p.noun, 1, t)}",
    "ends": lambda p, t: "each end", "marked": lambda p, t: "marked st",
}  # fmt: skip


def write_amount(until: tuple[int, Noun], terms: str) -> str:
    """ "3 sts", "st" alone for one."""
    count, noun = until
    return f"{count} {plural(noun, count, terms)}" if count != 1 else plural(noun, 1, terms)


def _lies_between(of: str, terms: str) -> str:
    """Between what a space lies, where that is said: groups, or stitches of one kind."""
    if not of.startswith("between"):
        return ""
    kind = of.removeprefix("between").strip()
    return f" between {show_stitch(kind, terms)}" if kind else " between groups"


def plural(noun: Noun, count: int, terms: str) -> str:
    """A noun as it is written for a count: "sts", "dc", "ch-3 sps", "9-sc group"."""
    many = count != 1
    if noun.name == "sp" and noun.of.startswith("in "):
        return f"{noun.of.removeprefix('in ')} sp" + "s" * many
    if noun.name in ("sp", "lp"):
        sized = f"ch-{noun.size} " if noun.size else "ch-" if noun.name == "sp" else ""
        middle = f"{_middle(terms)} " if noun.of == MIDDLE_OF else ""
        return middle + sized + noun.name + "s" * many + _lies_between(noun.of, terms)
    if noun.name == "corner sp" and noun.size:
        return f"ch-{noun.size} corner sp" + "s" * many
    if noun.name == "gap" and noun.of:
        sized = f"{noun.size}-{show_stitch(noun.of, terms)} " if noun.size else ""
        return "sp" + "s" * many + f" between {sized}groups"
    if noun.size:
        return f"{noun.size}-{show_stitch(noun.of or 'st', terms)} {noun.name}" + "s" * many
    if noun.name == "gap":
        return "sp" + "s" * many
    if noun.name == PETAL_ST:
        return plural(Noun(noun.of), count, terms) + " between petals"
    if noun.name == "middle st":
        return f"{_middle(terms)} " + plural(Noun(noun.of), count, terms)
    if noun.name in ("st", "picot", "shell", "group", "corner", "V-st", "block", "bobble", "popcorn", "cluster"):
        return noun.name + "s" * many
    return show_stitch(noun.name, terms)


def _middle(terms: str) -> str:
    return "centre" if terms == "UK" else "center"


def _plain(noun: Noun, terms: str) -> str:
    """A noun that was named before: "sp" where its size stands with its first naming."""
    return "sp" if noun.name == "sp" and not noun.size else plural(noun, 1, terms)


def _nths(place: Place) -> str:
    """ "2nd", or "2nd, 3rd and 4th" where several stand in a row."""
    named = [write_nth(place.nth + i) for i in range(place.count)]
    return f"{', '.join(named[:-1])} and {named[-1]}" if len(named) > 1 else named[0]


def write_nth(n: int) -> str:
    """ "1st", "12th", "23rd"."""
    return f"{n}{'th' if 10 <= n % 100 <= 20 else {1: 'st', 2: 'nd', 3: 'rd'}.get(n % 10, 'th')}"
