"""Stitches pointed at: "sc in each st to last 2 sts, hdc in those", where the work before stops short of them; and
posts of an earlier row told one by one: "sc around bar of first dc of rnd 1, *ch 4, sc around bar of next dc"."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ...tree import Act, Chain, Held, Into, Make, Noun, Op, Place, RowRef, Skip, Star, Times
from .parts import THOSE, Limit


def pointed_at(ops: tuple[Op, ...], before: Limit | None = None) -> tuple[Op, ...]:
    """The ops with "those" made the stitches that are left where the clause before stops. What stands where nothing stops
    short keeps its name, which no row has."""
    out: list[Op] = []
    for op in ops:
        if isinstance(op, Star):
            short = _left_by(op)
            op = replace(op, ops=pointed_at(op.ops), ending=pointed_at(op.ending, short))
        elif isinstance(op, Times):
            op = replace(op, ops=pointed_at(op.ops))
        elif isinstance(op, Make | Into | Skip) and before is not None:
            op = replace(op, places=tuple(_meant(place, before) for place in op.places))
        if not isinstance(op, Act):
            before = _left_by(op)
        out.append(op)
    return tuple(out)


def _left_by(op: Op) -> Limit | None:
    """How many of what a clause leaves at the row's end, where it says so."""
    if isinstance(op, Star):
        return op.until
    last = op.places[-1] if isinstance(op, Make | Into | Skip) and op.places else None
    return last.until if last is not None else None


def _meant(place: Place, left: Limit) -> Place:
    if place == Place("ring", Noun("ring")) and left[0] == 1:
        return Place("next", left[1])  # "to last st, 2 dc in it"
    if place.noun.name != THOSE:
        return place
    noun = left[1] if place.noun.of == "st" else Noun(place.noun.of)
    return replace(place, noun=noun, count=place.count or left[0])


#: How posts and single loops are held.
_ASIDE_HELD = ("front post", "back post", "front loop", "back loop")
#: What is done between two of them without leaving the row they stand in.
_NO_MOVE = (Chain, Act)


def on_that_row(ops: tuple[Op, ...], low: str) -> tuple[Op, ...]:
    """The ops with the row that the first of a run of posts or loops is said to be of, named of the next ones too, as long as
    nothing but chains is worked between them; common practice, no source. Where the first is gone round from behind and the
    words in lower case name no front, the next ones are too. As they are where none names its row."""
    ops = tuple(_followed(_as_first(ops, None)[0], None)[0]) if "front" not in low and "fp" not in low else tuple(_followed(ops, None)[0])
    return ops


def _as_first(ops: tuple[Op, ...], first: Place | None) -> tuple[tuple[Op, ...], Place | None]:
    """The ops with posts of which no side is said held as the first is, that names its row."""
    out: list[Op] = []
    for op in ops:
        if isinstance(op, Star | Times):
            inside, first = _as_first(op.ops, first)
            op = replace(op, ops=inside)
            if isinstance(op, Star) and op.ending:
                ending, first = _as_first(op.ending, first)
                op = replace(op, ending=ending)
        elif isinstance(op, Make) and (place := _held_aside(op)) is not None:
            back = first is not None and first.hold == "back post" and place.hold == "front post" and place.noun == first.noun
            op = replace(op, places=(replace(op.places[0], hold="back post"),)) if back and op.stitch[:2] != "FP" else op
            first = _held_aside(op) if place.row is not None else first
        out.append(op)
    return tuple(out), first


def _followed(ops: tuple[Op, ...], named: Place | None) -> tuple[list[Op], Place | None]:
    """The ops, the last place with its row named before them; and that place behind them."""
    out: list[Op] = []
    for op in ops:
        if isinstance(op, Star | Times):
            inside, behind = _followed(op.ops, named if _all_alike(op.ops) else None)
            op = replace(op, ops=tuple(inside))
            named = behind
            if isinstance(op, Star) and op.ending:
                ending, named = _followed(op.ending, named)
                op = replace(op, ending=tuple(ending))
        elif isinstance(op, Make) and (place := _held_aside(op)) is not None:
            row = place.row or _same_row(place, named)
            op = replace(op, places=(replace(op.places[0], row=row),))
            named = replace(place, row=row) if row is not None else None
        elif not isinstance(op, _NO_MOVE):
            named = None
        out.append(op)
    return out, named


def _held_aside(op: Make) -> Place | None:
    """The one place of a stitch worked round a post or into one loop, with how it is held."""
    place = op.places[0] if len(op.places) == 1 and not op.beside else None
    hold: Held | None = {"FP": "front post", "BP": "back post"}.get(op.stitch[:2], place.hold if place else "")  # type: ignore[assignment]
    return replace(place, hold=hold) if place is not None and hold in _ASIDE_HELD else None


def _same_row(place: Place, named: Place | None) -> RowRef | None:
    """The row of the place before, where this is the next one of the same kind, held alike."""
    alike = named is not None and place.which in ("next", "each") and place.noun == named.noun and place.hold == named.hold
    return named.row if named is not None and alike else None


def _all_alike(ops: tuple[Op, ...]) -> bool:
    """Whether a repeat works nothing but such stitches of one kind, with chains between them."""
    made = list(_made(ops))
    places = [_held_aside(op) if isinstance(op, Make) else None for op in made]
    return bool(made) and len({(p.noun, p.hold) if p is not None else None for p in places}) == 1 and None not in places


def _made(ops: tuple[Op, ...]) -> Iterator[Op]:
    for op in ops:
        if isinstance(op, Star | Times):
            yield from _made(op.ops)
        elif not isinstance(op, _NO_MOVE):
            yield op
