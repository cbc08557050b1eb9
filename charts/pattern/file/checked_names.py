"""Whether the names in a pattern file agree: special stitches, and the sections that folds and joins name."""

from __future__ import annotations

from typing import cast

from hookfold.symbols.dictionary import heights

from .checks import table, tables
from .table import Reading, Values, nearest_key

#: The sides of a section that a join may name (right side up), and what folding calls them.
EDGES = {"left": "left", "right": "right", "start": "foundation", "end": "last row"}


def edge_named(text: str) -> tuple[str, str]:
    """The section and the side that an edge names, said either way round.

    >>> edge_named("front flap left"), edge_named("last row of body")
    (('front flap', 'left'), ('body', 'end'))
    """
    edge, of, name = text.partition(" of ")
    if of:
        plain = edge.strip()
        return name.strip(), next((own for own, folded in EDGES.items() if folded == plain), plain)
    name, _, edge = text.rpartition(" ")
    return name.strip(), edge


def check_names(values: Values, reading: Reading) -> None:
    """Every check of this module; the values may be incomplete where they could not be read."""
    check_specials(values, reading)
    check_folds(values, reading)


def check_specials(values: Values, reading: Reading) -> None:
    """No special stitch goes by the abbreviation of a stitch everyone knows, nor two by the same one."""
    taken: dict[str, str] = {}
    for name, entry in table(values, "stitches").items():
        short = str(cast(Values, entry).get("abbreviation", name))
        place = reading.places.of_value(("stitches", name, "abbreviation"))
        if short in heights() or short == "ch":
            reading.add(
                "value",
                f"[stitches] {name}",
                f'"{short}" is the abbreviation of another stitch.',
                "choose one of its own.",
                place,
            )
        if short in taken:
            reading.add(
                "value",
                f"[stitches] {name}",
                f'"{short}" is the abbreviation of "{taken[short]}" too.',
                "choose one of its own.",
                place,
            )
        taken.setdefault(short, name)


def check_folds(values: Values, reading: Reading) -> None:
    """The sections that folds and joins name are there."""
    names = [str(s.get("name", "")) for s in tables(values, "section")]
    for i, fold in enumerate(tables(values, "fold")):
        _check_fold(fold, i, names, reading)
    for i, join in enumerate(tables(values, "join")):
        for key in ("first", "second"):
            name, edge = edge_named(str(join.get(key, "")))
            if key in join and (name not in names or edge not in EDGES):
                reading.add(
                    "fold",
                    f"join {i + 1}",
                    f'{key} = "{join[key]}" is not an edge: a section\'s name and {", ".join(EDGES)}.',
                    f'write {key} = "{names[0] if names else "body"} left".',
                    reading.places.of_value(("join", i, key)),
                )


def _check_fold(fold: Values, index: int, names: list[str], reading: Reading) -> None:
    """A fold lies between two sections that follow each other, one of which moves; two points are left to folding."""
    where = f"fold {index + 1}"
    at = cast("tuple[str, ...]", fold.get("at", ()))
    if any("," in point for point in at):
        return
    strange = [name for name in at if name not in names]
    for name in strange:
        advice = nearest_key(name, names).replace("the keys here", "the sections")
        place = reading.places.of_value(("fold", index, "at"))
        reading.add("fold", where, f'"{name}" is not the name of a section.', advice, place)
    if at and not strange and abs(names.index(at[0]) - names.index(at[1])) != 1:
        says = f'"{at[0]}" and "{at[1]}" do not lie next to each other.'
        place = reading.places.of_value(("fold", index, "at"))
        reading.add("fold", where, says, "name two sections that follow each other.", place)
    if at and fold.get("moves", at[0]) not in at:
        place = reading.places.of_value(("fold", index, "moves"))
        says = f'moves = "{fold["moves"]}" is neither of the two sections of the fold.'
        reading.add("fold", where, says, f'write moves = "{at[0]}".', place)
