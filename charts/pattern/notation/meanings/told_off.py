"""Stitches told off one by one from where a row or a repeat begins: "*sc in first st, sc in second st, 2 sc in third
st; rep from *". The second is then the one behind the first, not the second from there."""

from __future__ import annotations

from dataclasses import replace

from ...lexicon import height_of
from ...tree import Act, Chain, Into, Make, Op, Place, Skip, Star, Times


def told_off(ops: tuple[Op, ...], *, first: bool = True) -> tuple[Op, ...]:
    """The ops with numbers of stitches that go up by one from the beginning made "next". `first`: only where the first
    of them is called so; else also behind "next"."""
    out: list[Op] = []
    passed: int | None = 0 if not first else None
    for op in ops:
        if isinstance(op, Star | Times):
            out.append(replace(op, ops=told_off(op.ops, first=first)))
            passed = None
            continue
        if isinstance(op, Make | Into | Skip) and len(op.places) == 1:
            place = op.places[0]
            if place.which == "first" and place.row is None and not place.nth and passed in (0, None) and not _worked(out):
                passed = place.count
            elif place.which == "hook" and not _worked(out):
                passed = place.nth
            elif passed is not None and _behind(place, passed):
                out.append(replace(op, places=(replace(place, nth=0),)))
                passed += place.count
                continue
            else:
                passed = _further(place, passed)
        elif isinstance(op, Make) and not op.places:
            passed = passed + op.count if passed is not None and height_of(op.stitch) == op.stitch else None
        elif not isinstance(op, Act | Chain):
            passed = None
        out.append(op)
    return tuple(out)


def _worked(ops: list[Op]) -> bool:
    return any(isinstance(op, Make | Into | Skip | Star | Times) for op in ops)


def _behind(place: Place, passed: int) -> bool:
    """Whether a place is the stitch whose number comes next."""
    return _plain(place) and place.nth == passed + 1 > 1


def _plain(place: Place) -> bool:
    noun = place.noun.name in ("st", "ch") or height_of(place.noun.name) is not None
    return place.which == "next" and noun and place.row is None


def _further(place: Place, passed: int | None) -> int | None:
    """How many stitches have been worked into or passed behind one more place; None where that is not known."""
    if passed is None or place.row is not None or place.nth:
        return None
    if place.which == "same":
        return passed
    return passed + place.count if place.which == "next" and _plain(place) else None
