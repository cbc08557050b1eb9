"""The row that a stated count stands for, where the row itself could not be read or worked."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from ...pattern.lexicon import height_of
from ...pattern.tree import Make, Op, Special, Stated, walk
from .fabric import Row, Stitch

#: A count beyond this is a slip of the pen, and stands for no row.
MOST_CARRIED = 20_000


def row_of(stated: Sequence[Stated], specials: Mapping[str, Special], ops: tuple[Op, ...] = ()) -> Row | None:
    """That many plain stitches, those of groups too, with the spaces that are counted shared out among them; where
    spaces alone are counted, each with what fastens it. None where neither is counted, or more than any row has.

    >>> from ...pattern.tree import Noun
    >>> row_of((Stated(3, Noun("sc")), Stated(2, Noun("sp", 1))), {}).made
    3
    >>> row_of((Stated(3, Noun("sc")), Stated(10**6, Noun("sp", 1))), {}) is None
    True
    """
    if any(part.count > MOST_CARRIED for part in stated):
        return None
    kinds = [
        (part.count * part.noun.size, part.noun.of) if part.noun.name == "group" and part.noun.of and part.noun.size
        else (part.count, _kind(part.noun.name, specials))
        for part in stated
    ]  # fmt: skip
    known = [(count, kind) for count, kind in kinds if kind]
    total = next((n for n, kind in known if kind == "st"), 0)
    named = [(n, kind) for n, kind in known if kind != "st"]
    stitches = [kind for n, kind in named for _ in range(n)]
    if total > len(stitches):
        stitches = [_only_kind(ops)] * total
    spaces = [
        part.noun.size or 1
        for part in stated
        if part.noun.name in ("sp", "lp")
        for _ in range(part.count)
    ]
    alone = all(part.noun.name in ("sp", "lp") for part in stated)
    stitches = stitches or ([_fastens(ops)] * len(spaces) if alone else [])
    if not stitches:
        return None
    out: list[Stitch] = []
    for at, kind in enumerate(stitches):
        out.append(Stitch(kind))
        first, last = len(spaces) * at // len(stitches), len(spaces) * (at + 1) // len(stitches)
        out += [Stitch("ch", (), "chain", size) for size in spaces[first:last]]
    return Row(tuple(out))


def _only_kind(ops: tuple[Op, ...]) -> str:
    """The one plain stitch that a row's words name, else "st"."""
    kinds = {op.stitch for op in walk(ops) if isinstance(op, Make) and op.stitch != "sl st"}
    return kinds.pop() if len(kinds) == 1 and all(height_of(k) == k for k in kinds) else "st"


def _fastens(ops: tuple[Op, ...]) -> str:
    """The stitch that holds the chains of a row, as far as its words name one."""
    kinds = [op.stitch for op in walk(ops) if isinstance(op, Make) and (op.stitch == "sl st" or height_of(op.stitch))]
    return min(kinds, key=lambda kind: (kind == "sl st", -kinds.count(kind))) if kinds else "sc"


def _kind(name: str, specials: Mapping[str, Special]) -> str:
    if name == "st" or height_of(name) or name in ("sl st", "bobble", "puff", "popcorn", "cl"):
        return name
    if name in specials and specials[name].kind:
        return name
    return ""
