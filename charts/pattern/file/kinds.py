"""The kinds of object: what must be measured of each, and how its measurements make the piece.

Every piece has two directions. One lies as it is (`plain`); along the other, the `strip`, the piece is
folded. A book's strip is its wrap with a flap at each end; a pouch's is its height twice and a flap.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class ObjectKind:
    """One kind: its directions, what makes up its strip, and which of its edges have a border.

    `strip_sides` counts the strip's measurement where that is a height (front and back: 2). `extras` are
    added. `bordered` says whether the border lies along the edges that bound the plain and the strip
    direction: a book's strip ends in folds, and a border on a fold gives no room.
    """

    name: str
    plain: str
    strip: str
    strip_sides: int
    extras: tuple[str, ...]
    bordered: tuple[bool, bool]


#: Common practice, no source: how each kind is folded together.
OBJECT_KINDS: dict[str, ObjectKind] = {
    "book": ObjectKind("book", "height", "wrap", 1, ("flap", "flap"), (True, False)),
    "book with strap": ObjectKind("book with strap", "height", "wrap", 1, ("flap", "flap", "strap"), (True, False)),
    "pouch": ObjectKind("pouch", "width", "height", 2, ("flap",), (True, False)),
    "cushion": ObjectKind("cushion", "width", "height", 2, ("overlap",), (True, True)),
    "panel": ObjectKind("panel", "width", "height", 1, (), (True, True)),
    "pocket panel": ObjectKind("pocket panel", "width", "height", 1, ("flap", "flap"), (True, False)),
}


def directions(kind: str, given: Iterable[str]) -> tuple[str, str]:
    """The names of the plain and the strip direction.

    A kind measured by height and wrap, with no width, is taken as a book is: the wrap is the strip.

    >>> directions("pouch", ["width", "height", "flap"])
    ('width', 'height')
    """
    names = set(given)
    if "wrap" in names and "width" not in names:
        return "height", "wrap"
    return OBJECT_KINDS[kind].plain, OBJECT_KINDS[kind].strip


def strip_mm(kind: str, lengths_mm: Mapping[str, float]) -> float:
    """The whole strip, laid flat: its measurement as often as it counts, and flaps or overlap.

    >>> strip_mm("book", {"height": 250, "wrap": 385, "flap": 65})
    515.0
    """
    rule, (_, strip) = OBJECT_KINDS[kind], directions(kind, lengths_mm)
    sides = 1 if strip == "wrap" else rule.strip_sides
    return float(sides * lengths_mm.get(strip, 0.0) + sum(lengths_mm.get(name, 0.0) for name in rule.extras))


def section_lengths_mm(
    kind: str, lengths_mm: Mapping[str, float], border_mm: float = 0.0
) -> dict[str, float]:
    """What a section's `length` may name, in millimetres: the measurements, and a cushion's "back part".

    `border_mm` is the border's thickness on one edge: a measurement with a bordered edge at both ends is
    worked shorter by two of them.
    """
    plain, strip = directions(kind, lengths_mm)
    rule = OBJECT_KINDS[kind]
    less = {plain: 2 * border_mm * rule.bordered[0], strip: 2 * border_mm * rule.bordered[1]}
    worked = {name: mm - less.get(name, 0.0) for name, mm in lengths_mm.items()}
    if kind == "cushion" and "overlap" in worked:
        worked["back part"] = (worked[strip] + worked["overlap"]) / 2
    return worked


def needed(kind: str, given: Iterable[str]) -> tuple[str, ...]:
    """The measurements a kind cannot do without."""
    names = set(given)
    return directions(kind, names) + (("overlap",) if kind == "cushion" else ())
