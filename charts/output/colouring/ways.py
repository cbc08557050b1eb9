"""The ways to colour a piece that are worth a look, from its own yarns."""

from __future__ import annotations

import itertools
from collections.abc import Callable, Iterator, Sequence

from ...made_late import dataclass, replace
from ...pattern.file.records import Colour, Pattern, Section

#: So many ways are shown at most, the pattern's own among them.
MOST_WAYS = 8


@dataclass(frozen=True, slots=True)
class Way:
    """One way: what is done to the pattern, in words, and the pattern so coloured."""

    says: str
    pattern: Pattern


def ways_of(pattern: Pattern) -> tuple[Way, ...]:
    """The pattern's own colours first; then its yarns swapped, its stripes turned round and doubled, one yarn alone.
    Ways that colour every row alike are given once."""
    seen: set[tuple[object, ...]] = set()
    out: list[Way] = []
    for way in _all(pattern):
        key = _look(way.pattern)
        if key not in seen:
            seen.add(key)
            out.append(way)
    return tuple(out[:MOST_WAYS])


def _all(pattern: Pattern) -> Iterator[Way]:
    yield Way("as written", pattern)
    used = pattern.used_colours
    if len(used) == 2:
        swapped = dict(zip(used, reversed(used), strict=True))
        yield Way(f"{used[0].name} and {used[1].name} swapped", _dyed(pattern, swapped))
    elif len(used) > 2:
        for turn in range(1, len(used)):
            moved = [*used[turn:], *used[:turn]]
            yield Way(f"each yarn {turn} on: {_names(moved)}", _dyed(pattern, dict(zip(used, moved, strict=True))))
    if any(len(set(s.stripes)) > 1 for s in pattern.sections):
        yield Way("stripes in the other order", _striped(pattern, lambda stripes: tuple(reversed(stripes))))
        yield Way("every stripe twice as high", _striped(pattern, _doubled))
        yield Way("every stripe an even number of rows", _striped(pattern, _evened))
    for colour in used:
        yield Way(f"{colour.name} alone", _alone(pattern, colour))


def _names(colours: Sequence[Colour]) -> str:
    return ", ".join(colour.name for colour in colours)


def _dyed(pattern: Pattern, into: dict[Colour, Colour]) -> Pattern:
    """The pattern with each yarn under its letter replaced by another."""
    colours = tuple(replace(c, name=into[c].name, hex=into[c].hex) if c in into else c for c in pattern.colours)
    return replace(pattern, colours=colours)


def _alone(pattern: Pattern, colour: Colour) -> Pattern:
    """Everything in one yarn; a colour that the rows' own words change to is dyed like it."""
    dyed = _dyed(pattern, dict.fromkeys(pattern.used_colours, colour))
    sections = tuple(replace(section, stripes=(colour.letter,)) for section in dyed.sections)
    border = replace(dyed.border, colour=colour.letter) if dyed.border else None
    return replace(dyed, sections=sections, border=border)


def _striped(pattern: Pattern, change: Callable[[Sequence[str]], tuple[str, ...]]) -> Pattern:
    """The pattern with the stripes of each section changed; one colour stays one colour."""
    sections = tuple(
        replace(section, stripes=change(section.stripes)) if len(set(section.stripes)) > 1 else section
        for section in pattern.sections
    )
    return replace(pattern, sections=sections)


def _runs(stripes: Sequence[str]) -> list[tuple[str, int]]:
    return [(letter, len(list(rows))) for letter, rows in itertools.groupby(stripes)]


def _doubled(stripes: Sequence[str]) -> tuple[str, ...]:
    return tuple(letter for letter, rows in _runs(stripes) for _ in range(2 * rows))


def _evened(stripes: Sequence[str]) -> tuple[str, ...]:
    """Stripes of an odd number of rows a row higher, so that every colour is changed at one edge."""
    return tuple(letter for letter, rows in _runs(stripes) for _ in range(rows + rows % 2))


def _look(pattern: Pattern) -> tuple[object, ...]:
    """What a way looks like: the colour of each row of each section, and of the border."""
    hexes = {colour.letter: colour.hex for colour in pattern.colours}
    border = hexes.get(pattern.border.colour, "") if pattern.border else ""
    return (*(tuple(hexes.get(one, "") for one in _rows(section)) for section in pattern.sections), border)


def _rows(section: Section) -> tuple[str, ...]:
    return tuple(section.colour(row) for row in range(4 * max(len(section.stripes), 1)))
