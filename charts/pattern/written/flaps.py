"""Pieces that go on from what is there, without a foundation of their own: an ear flap, a brim, a strap."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from .. import lexicon
from ..notation.plain import plain
from ..tree import Act, Chain, Make, Op, RowText, Skip, Start

#: More chains than this are a foundation of their own.
_LIFT = 4
_LIFTS = re.compile(
    r"\W*(?:(?:then |and |now )?(?:turn(?: work)?|do not turn|ch(?:ain)? ?[1-4]|[1-4] ?ch|do not (?:cut|break|fasten off)(?: (?:the )?(?:yarn|thread|wool))?)[\s,.;]*)+"
)
_ON_CHAIN = re.compile(
    r"from (?:the )?hook|\b(?:ring|circle|loop)\b|other side|\b(?:in|into|of|across|around|along|down)\b[^.;,*]{0,24}\b(?:chs?|chains?)\b(?! ?-?\d)|\b\d*(?:st|nd|rd|th) ch\b"
)
_HOW_MANY = re.compile(
    rf"\b(?:(?:in|into) (?:the )?(?:next|first|each of(?: the)?(?: next)?) (?P<a>\d+)|(?:{lexicon.ANY_PLAIN}) (?:in )?(?P<b>\d+)|(?P<c>\d+) (?:{lexicon.ANY_PLAIN}))\b"
)
_OVER_ALL = re.compile(rf"\b(?:each|every|across|around|all)\b|^\W*(?:{lexicon.ANY_PLAIN}) in next")


def is_lift(low: str) -> bool:
    """Whether a line does no more than lift the hook or turn: "Ch 1, turn.".

    >>> is_lift("ch 1, do not turn."), is_lift("ch 12")
    (True, False)
    """
    return bool(low.strip()) and bool(_LIFTS.fullmatch(low.strip()))


def lift(start: Start | None, low: str) -> str:
    """The chains at a piece's head that only lift its first row, as words of that row; "" where they are a foundation, as
    the row is worked into them."""
    if start is None or start.how != "chain" or start.count > _LIFT or _ON_CHAIN.search(low):
        return ""
    many = _HOW_MANY.search(low)
    number = int(many["a"] or many["b"] or many["c"]) if many else 0
    if start.count > 1 and number <= start.count and not _OVER_ALL.search(low):
        return ""
    said = " ".join(plain(start.text).split()).strip(" .,;")
    return f"{said}, " if is_lift(said) else f"ch {start.count}, "


def leaves_rest(row: RowText, before: Sequence[RowText]) -> RowText:
    """The first row of a piece of its own name that goes on from the row above and is turned behind so many stitches: the
    others are left, as a flap is narrower than what it hangs on."""
    if not before or row.begins is not None or row.is_round or row.first != 1 or row.part == before[-1].part:
        return row
    work = [op for op in row.ops if isinstance(op, Make | Skip)]
    turned = any(isinstance(op, Act) and op.name == "turn" for op in row.ops[1:])
    if not work or not turned or any(not isinstance(op, Make | Skip | Chain | Act) for op in row.ops) or any(_to_end(op) for op in work):
        return row
    if any(isinstance(op, Act) and op.name in ("leave", "join") for op in row.ops):
        return row
    return replace(row, ops=(*row.ops, Act("leave")))


def _to_end(op: Op) -> bool:
    return isinstance(op, Make | Skip) and any(p.which not in ("next", "first", "same", "nth") or p.bare for p in op.places)
