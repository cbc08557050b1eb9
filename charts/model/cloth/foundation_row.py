"""The start of the work as a row."""

from __future__ import annotations

from ...pattern.lexicon import TURNING, height_of
from ...pattern.tree import Into, Make, Op, Special, Start, walk
from .fabric import Row, Stitch


def foundation(start: Start | None, opening: tuple[Op, ...]) -> tuple[Row, int]:
    """The start as a row, and its chains. A chain joined into a ring is one place, unless the `opening` round goes into
    its chains one by one."""
    if start is not None and start.how == "edge":
        return Row((Stitch("edge", (), "edge", 0),)), 0
    if start is None or start.how in ("magic ring", "none"):
        return Row((Stitch("ring", (), "ring", 0),)), 0
    if start.how == "ring" and not _into_chains(opening, start.count):
        return Row((Stitch("ring", (), "ring", start.count),)), start.count
    if start.how == "over":
        kind = start.kind
        first = Stitch(kind, (), "turning", TURNING.get(kind, 1)) if TURNING.get(kind, 0) >= 3 else Stitch(kind)
        return Row((first, *([Stitch(kind)] * (start.count - 1)))), 0
    return Row((Stitch("ch", (), "foundation", 1),) * start.count), start.count


#: A ring of so many chains is worked along, also where a round only tells stitches (our own limit, no source).
MANY_CHAINS = 20


def _into_chains(ops: tuple[Op, ...], count: int) -> bool:
    """Whether a round goes into chains of the foundation, and never into the ring."""
    places = [place for op in walk(ops) if isinstance(op, Make | Into) for place in op.places]
    chains = any(
        (p.noun.name == "ch" and p.which in ("each", "next", "same", "first"))
        or (p.noun.name == "st" and (p.which == "each" or (p.which == "next" and count >= MANY_CHAINS)) and not p.row)
        for p in places
    )
    return chains and not any(p.which == "ring" for p in places)


def aliases(specials: tuple[Special, ...]) -> dict[str, frozenset[str]]:
    """What a count may call a special stitch: each word of its name ("5 bobbles" for MB, make bobble), but not the
    plain stitch that a group is made of ("8 hdc" in hdc shells)."""
    out: dict[str, set[str]] = {}
    for special in specials:
        for word in special.name.lower().replace("-", " ").split():
            if special.form == "group" and height_of(word) == word:
                continue
            out.setdefault(word, set()).add((special.kind or special.abbreviation).lower())
    return {word: frozenset(kinds) for word, kinds in out.items() if len(kinds) == 1}
