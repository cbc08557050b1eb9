"""Stitches pointed at: "sc in each st to last 2 sts, hdc in those", where the work before stops short of them; the last one
worked into, the loops of another motif, and what lies about an opening, as that of a thumb."""

from __future__ import annotations

from ....made_late import replace
from ...lexicon import height_of
from ...tree import Act, Chain, Into, Make, Noun, Op, Place, Skip, Star, Times
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


def round_the_last(ops: tuple[Op, ...], *, again: bool = False) -> tuple[Op, ...]:
    """The ops with "*2 dc in next st, FPdc around last st*" gone round the stitch just worked into: the row's last stitch
    is not meant by it, as more work follows. `again`: what is told here comes again."""
    work = [n for n, op in enumerate(ops) if isinstance(op, Make | Into | Skip | Star | Times)]
    out = list(ops)
    for n, op in enumerate(ops):
        goes_on = again or (bool(work) and n < work[-1])
        before = ops[n - 1] if n else None
        there = before.places[-1].which if isinstance(before, Make) and before.places else ""
        if isinstance(op, Star | Times):
            out[n] = replace(op, ops=round_the_last(op.ops, again=True))
        elif isinstance(op, Make) and goes_on and there in ("next", "same", "first") and _post_of_last(op):
            out[n] = replace(op, places=(replace(op.places[0], which="same"),))
    return tuple(out)


def fastened_to_others(ops: tuple[Op, ...], *, again: bool = False) -> tuple[Op, ...]:
    """The ops with "ch 2, sl st in loop of first motif, ch 2" kept where chains lead to it; elsewhere it is a stitch into
    this piece: "sl st in first ch-3 sp of first motif, ch 1, ...". `again`: what is told here comes again."""
    out = list(ops)
    for n, op in enumerate(ops):
        before = ops[n - 1] if n else ops[-1] if again else None
        if isinstance(op, Star | Times):
            out[n] = replace(op, ops=fastened_to_others(op.ops, again=True))
        elif isinstance(op, Act) and op.name == "other piece" and op.place is not None and not isinstance(before, Chain):
            out[n] = Make(op.text, 1, (op.place,), at=op.at)
    return tuple(out)


def _post_of_last(op: Make) -> bool:
    """Whether a stitch goes round the post of what is called the last stitch."""
    place = op.places[0] if len(op.places) == 1 else None
    return place is not None and (place.which, place.count, place.row) == ("last", 1, None) and op.stitch.startswith(("FP", "BP"))


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


#: What moves no stitch and holds about an opening as elsewhere.
_KEPT = frozenset(("join", "do not join", "fasten off", "facing", "turn", "colour", "loops"))
#: An opening has so many stitches about it at least.
_LEAST = 4


def about_opening(ops: tuple[Op, ...]) -> tuple[int, tuple[Op, ...]] | None:
    """How many stitches lie about an opening, and the first round of a piece that is begun there, "join yarn in first
    skipped st, sc in 4 skipped sts, sc in opposite side of next 4 ch", in these as they come; None for a row that is not
    told so stitch by stitch. What is picked up at a side or a corner is one stitch each."""
    total, out, there = 0, list[Op](), False
    for op in ops:
        if isinstance(op, Act):
            there = there or op.name == "opposite"
            if op.name == "yarn":
                out.append(replace(op, place=None))
            elif op.name in _KEPT:
                out.append(op)
            elif op.name not in ("opposite", "edge"):
                return None
        elif isinstance(op, Chain) and not total:
            out.append(op)
        else:
            many = _stitches(op)
            if not many or not isinstance(op, Make):
                return None
            there = there or op.places[0].which in ("skipped", "unworked")
            total += many
            out.append(replace(op, count=1, places=(Place("next", count=many),)))
    return (total, tuple(out)) if there and total >= _LEAST else None


def _stitches(op: Op) -> int:
    """How many stitches a clause works, one in each; 0 where it is none of those about an opening."""
    if not isinstance(op, Make) or op.beside or len(op.places) != 1 or height_of(op.stitch) != op.stitch:
        return 0
    place = op.places[0]
    if place.which in ("skipped", "unworked"):
        return place.count if op.count == 1 else op.count if place.count <= 1 else 0
    if place.which in ("next", "first") and place.noun.name in ("st", "ch", op.stitch):
        return place.count if op.count == 1 and not place.nth else 0
    beside = place.noun.name in ("side", "corner", "row") or place.which == "same"
    return op.count if beside and place.count == 1 else 0
