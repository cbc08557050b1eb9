"""The start of the work as a row."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..pattern.tree import Special, Start
from .grid import Row, Stitch

if TYPE_CHECKING:
    pass


#: Chains of a beginning chain as tall as a stitch (PG 26113, 1918, for sc to dtr; trtr continues the row).
TURNING = {"sc": 1, "hdc": 2, "dc": 3, "tr": 4, "dtr": 5, "trtr": 6}


def foundation(start: Start | None) -> tuple[Row, int]:
    """The start as a row, and its chains."""
    if start is None or start.how in ("magic ring", "none"):
        return Row((Stitch("ring", (), "ring", 0),)), 0
    if start.how == "ring":
        return Row((Stitch("ring", (), "ring", start.count),)), start.count
    if start.how == "over":
        kind = start.kind
        first = Stitch(kind, (), "turning", TURNING.get(kind, 1)) if TURNING.get(kind, 0) >= 3 else Stitch(kind)
        return Row((first, *([Stitch(kind)] * (start.count - 1)))), 0
    return Row((Stitch("ch", (), "foundation", 1),) * start.count), start.count


def aliases(specials: tuple[Special, ...]) -> dict[str, frozenset[str]]:
    """What a count may call a special stitch: each word of its name ("5 bobbles" for MB, make bobble)."""
    out: dict[str, set[str]] = {}
    for special in specials:
        for word in special.name.lower().replace("-", " ").split():
            out.setdefault(word, set()).add((special.kind or special.abbreviation).lower())
    return {word: frozenset(kinds) for word, kinds in out.items() if len(kinds) == 1}
