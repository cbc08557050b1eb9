"""Stated counts against what was worked. What a count names that the fabric does not know is left alone."""

from __future__ import annotations

from ..pattern.lexicon import height_of
from ..pattern.tree import Stated
from .grid import Row, counts

_ALIKE = {"cluster": "cl", "clusters": "cl", "bo": "bobble", "pc": "popcorn"}


def differs(stated: Stated, row: Row, named: list[str]) -> int | None:
    """What the row makes of what the count names, if that is another number than stated; None if it agrees or cannot
    be told."""
    possible = _numbers(stated, row, named)
    if not possible or stated.count in possible:
        return None
    return possible[0]


def _numbers(stated: Stated, row: Row, named: list[str]) -> list[int]:
    """The numbers that may rightly stand for the noun, the usual one first; empty if it is not known."""
    name, size = stated.noun.name, stated.noun.size
    if name == "st":
        return [row.made, row.made + row.chains]
    if name in ("sp", "lp"):
        runs = [s.chains for s in row.stitches if s.role == "chain"]
        return [runs.count(size)] if size else [len(runs)]
    if name == "ch":
        return [row.chains]
    if name == "picot":
        plain = sum(1 for s in row.stitches if s.kind == "picot")
        return [plain, sum(1 for s in row.stitches if s.role == "picot")] if not plain else [plain]
    special = sum(1 for n in named if n == name or n == f"beg {name}")
    if special:
        return [special]
    if name in ("shell", "V-st", "group", "block", "corner", "petal"):
        return _groups(name, row)
    return _kinds(name, row)


def _groups(name: str, row: Row) -> list[int]:
    made = [[s for s in row.stitches[a : a + n]] for a, n, _ in row.groups]
    if name == "V-st":
        vees = [g for g in made if any(s.role == "chain" for s in g) and sum(map(counts, g)) >= 2]
        return [len(vees)] if vees else []
    sizes = [sum(map(counts, g)) for g in made if sum(map(counts, g)) >= 3]
    if name == "shell" and sizes:
        return [sizes.count(max(sizes)), len(sizes)]
    return []


def _kinds(name: str, row: Row) -> list[int]:
    kinds = row.kinds()
    wanted = {name.lower(), _ALIKE.get(name.lower(), name.lower())}
    exact = sum(n for kind, n in kinds.items() if kind.lower() in wanted)
    if height_of(name) is None:
        return [exact] if exact or any(height_of(k) is None for k in kinds) or name.lower() in ("bobble", "puff", "popcorn", "cl", "cluster") else []
    loosely = sum(n for kind, n in kinds.items() if height_of(kind) == height_of(name))
    slips = [row.made] if name == "sl st" else []
    return [exact, loosely, *slips] if name == height_of(name) else [exact, *slips]
