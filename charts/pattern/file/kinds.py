"""The kinds of object: what must be measured of each, and how its measurements make the piece.

Every piece has two directions. One lies as it is (`plain`); along the other, the `strip`, the piece is
folded. A book's strip is its wrap with a flap at each end; a pouch's is its height twice and a flap.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class ObjectKind:
    """One kind: its directions, what makes up its strip, and whether something goes into it.

    `strip_sides` counts the strip's measurement where that is a height (front and back: 2). `extras` are
    added. What `holds` an object must fit it between its joins: a border stands outside them and gives no
    room. Of what holds none the border is a part, and the size asked for has it. `between` says for the plain
    and the strip direction from where to where the piece before its border is measured.
    """

    name: str
    plain: str
    strip: str
    strip_sides: int
    extras: tuple[str, ...]
    holds: bool
    between: tuple[str, str]


_FOLDED = ("between the joins", "from fold to fold")
_OPEN = ("before the border", "before the border")

#: Common practice, no source: how each kind is folded together.
OBJECT_KINDS: dict[str, ObjectKind] = {
    "book": ObjectKind("book", "height", "wrap", 1, ("flap", "flap"), True, _FOLDED),
    "book with strap": ObjectKind("book with strap", "height", "wrap", 1, ("flap", "flap", "strap"), True, _FOLDED),
    "pouch": ObjectKind("pouch", "width", "height", 2, ("flap",), True, ("between the joins", "from fold to opening")),
    "cushion": ObjectKind("cushion", "width", "height", 2, ("overlap",), True, _FOLDED),
    "panel": ObjectKind("panel", "width", "height", 1, (), False, _OPEN),
    "pocket panel": ObjectKind("pocket panel", "width", "height", 1, ("flap", "flap"), False, _OPEN),
}


def border_edges(kind: str, *, joins: bool, flap: bool = False) -> tuple[int, int]:
    """How many thicknesses of the border the finished piece has across its plain and its strip direction.

    A border that joins is worked round the folded piece, folds and all; one that does not goes round the flat
    piece, and its ends lie inside the folds. A pouch's `flap` folds its end down on the front.

    >>> border_edges("book", joins=True), border_edges("pouch", joins=True, flap=True)
    ((2, 2), (2, 1))
    """
    if kind == "panel" or (joins and not (kind == "pouch" and flap)):
        return 2, 2
    return 2, int(joins)


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
    kind: str, lengths_mm: Mapping[str, float], border_mm: float = 0.0, *, joins: bool = True
) -> dict[str, float]:
    """What a section's `length` may name, in millimetres: the measurements, and a cushion's "back part".

    `border_mm` is the border's thickness on one edge. A piece that holds nothing is as long as asked for with
    its border, so it is worked shorter; what holds an object is worked as long as that.
    """
    plain, strip = directions(kind, lengths_mm)
    rule = OBJECT_KINDS[kind]
    edges = (0, 0) if rule.holds else border_edges(kind, joins=joins)
    less = {plain: border_mm * edges[0], strip: border_mm * edges[1]}
    worked = {name: mm - less.get(name, 0.0) for name, mm in lengths_mm.items()}
    if kind == "cushion" and "overlap" in worked:
        worked["back part"] = (worked[strip] + worked["overlap"]) / 2
    return worked


def needed(kind: str, given: Iterable[str]) -> tuple[str, ...]:
    """The measurements a kind cannot do without."""
    names = set(given)
    return directions(kind, names) + (("overlap",) if kind == "cushion" else ())
