"""The shape of a pattern's own groups, by which they are known again where they were not called by their name."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from hookfold.symbols import dictionary

from ...pattern.lexicon import BACKWARD
from ...pattern.tree import Chain, Make, Op, Special
from ...pattern.when_used import when_used
from .fabric import Row, Stitch, counts

#: What a group is made of, in order: stitches by kind, chains as "ch 2".
Shape = tuple[str, ...]


def shapes_of(specials: Iterable[Special]) -> Mapping[str, Shape]:
    """The shapes of the groups that are worked into one place, by their names in lower case."""
    found = {s.abbreviation.lower(): _shape(s.ops) for s in specials if s.in_place and s.ops}
    return {name: shape for name, shape in found.items() if len(shape) > 1}


def _shape(ops: tuple[Op, ...]) -> Shape:
    out: list[str] = []
    for op in ops:
        if isinstance(op, Make) and not op.places and op.stitch != "picot":
            out += [op.stitch] * op.count
        elif isinstance(op, Chain):
            out.append(f"ch {op.count}")
        else:
            return ()
    return tuple(out)


def runs_of(shape: Shape, items: tuple[Stitch, ...]) -> list[tuple[int, int]]:
    """Where a shape stands among stitches in the order of work, as (first, end), one behind another."""
    made = [_part(s) for s in items]
    out, at = [], 0
    while at + len(shape) <= len(made):
        if tuple(made[at : at + len(shape)]) in (shape, shape[::-1]):
            out.append((at, at + len(shape)))
            at += len(shape)
        else:
            at += 1
    return out


def _part(stitch: Stitch) -> str:
    if stitch.role == "chain":
        return f"ch {stitch.chains}"
    return stitch.kind if counts(stitch) else stitch.role


#: "5-dc shell": how many of what a group is made of.
_SIZED = when_used(r"^\d+-[a-z]+ ")


def without_size(name: str) -> str:
    """A group's name without what it is made of: "5-dc shell" is a shell."""
    return _SIZED.sub("", name)


def run_size(row: Row, item: int) -> int:
    """The chains of a space: a run ended by a stitch that joins the round has that stitch's height besides."""
    after = row.stitches[item + 1] if item + 1 < len(row.stitches) else None
    lifted = (
        dictionary.stitch(after.kind).turning
        if after is not None and after.role == "join" and dictionary.known(after.kind)
        else 0
    )
    return row.stitches[item].chains + lifted


def is_backward(row: Row) -> bool:
    """Whether a row's stitches are worked backwards (crab stitch)."""
    made = [stitch for stitch in row.stitches if stitch.role == "stitch"]
    return bool(made) and all(stitch.kind in BACKWARD for stitch in made)
