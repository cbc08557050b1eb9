"""Work told of a first stitch: "sc2tog in next st" goes over as many as it gathers, "sl st in first sc" before a round's
chain closes the one below; of the first post of an earlier row, whose row the next ones share: "sc around bar of first dc of
rnd 1, *ch 4, sc around bar of next dc"."""

from __future__ import annotations

from collections.abc import Iterator

from ....made_late import replace
from ...lexicon import height_of, together
from ...tree import Act, Chain, Held, Make, Op, Place, RowRef, Star, Times

_ORDERS = ("next", "first", "last")


def decreased(ops: tuple[Op, ...]) -> tuple[Op, ...]:
    """The ops with each "sc2tog in next st" over as many stitches as it gathers: two of the low stitch never go into
    one."""
    return tuple(_one(op) for op in ops)


def _one(op: Op) -> Op:
    if isinstance(op, Star | Times):
        return replace(op, ops=decreased(op.ops))
    low = isinstance(op, Make) and op.stitch.startswith("sc") and together(op.stitch) > 1 and op.count == 1
    return replace(op, places=over_all(op.places, together(op.stitch))) if low and isinstance(op, Make) else op


def over_all(places: tuple[Place, ...], legs: int) -> tuple[Place, ...]:
    """The one stitch a decrease is said to go into with those behind it.

    >>> over_all((Place("next"),), 2)[0].count, over_all((Place("same"),), 2)[0].count
    (2, 1)
    """
    if len(places) != 1:
        return places
    place = places[0]
    stitch = place.noun.name == "st" or height_of(place.noun.name) == place.noun.name
    alone = place.count == 1 and not place.nth and place.of is None and place.row is None and not place.bare
    return (replace(place, count=legs),) if stitch and alone and place.which in _ORDERS else places


def joined_late(ops: tuple[Op, ...]) -> tuple[Op, ...] | None:
    """The ops with a slip stitch into the first stitch, before the beginning chain, as the join of the round below; None
    where they begin otherwise."""
    first = ops[0] if len(ops) > 2 and isinstance(ops[1], Chain) else None
    if isinstance(first, Make) and first.stitch == "sl st" and first.count == 1 and len(first.places) == 1:
        place = first.places[0]
    elif isinstance(first, Act) and first.name == "yarn" and first.text == "yarn" and first.place is not None:
        place = first.place
    else:
        return None
    at_first = place.which == "first" and place.count == 1 and place.row is None
    return (Act("join", ""), *ops[1:]) if at_first else None


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
