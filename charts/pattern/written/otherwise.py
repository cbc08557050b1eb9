"""Other ways to take a whole row, tried where it does not come out even as it stands but states what it makes."""

from __future__ import annotations

from collections.abc import Sequence

from ...made_late import replace
from .. import lexicon
from ..tree import NOWHERE, Act, Again, Chain, Corner, Into, Make, Noun, Op, Place, RowText, Skip, Star, Times, walk
from ..when_used import when_used


def all_along(ops: tuple[Op, ...]) -> tuple[tuple[Op, ...], ...]:
    """ "(6 sc, dec) [21]": a row that is one group, or a few stitches in a row, and does not say how often: again and
    again to its end; "sc in 2nd ch from hook (17)": so are the chains behind that one."""
    work = [at for at, op in enumerate(ops) if not isinstance(op, Act)]
    if work and isinstance(ops[work[0]], Chain):
        work = work[1:]
    if not work or work != list(range(work[0], work[-1] + 1)):
        return ()
    first, last = work[0], work[-1]
    part = ops[first : last + 1]
    only = part[0]
    if len(part) == 1 and isinstance(only, Make) and only.count == 1 and [p.which for p in only.places] == ["hook"]:
        return ((*ops[:first], replace(only, places=(*only.places, Place("each", Noun("ch")))), *ops[last + 1 :]),)
    group = only.ops if len(part) == 1 and isinstance(only, Times) and only.times == 1 and not only.name else part
    if len(group) < 2 or any(_is_settled(op) for op in walk(group)):
        return ()
    return ((*ops[:first], Times(group, 0), *ops[last + 1 :]),)


def on_joined_row(ops: tuple[Op, ...], number: int) -> tuple[tuple[Op, ...], ...]:
    """ "Attach gold to any sc of Rnd 3. *Sc in sc, ...": row `number` worked into the one its yarn is joined to, where
    that is not the one right below."""
    at = next((n for n, op in enumerate(ops) if isinstance(op, Act) and op.name == "yarn" and op.place is not None), None)
    joined = ops[at] if at is not None else None
    if at is None or not isinstance(joined, Act) or joined.place is None or joined.place.row is None or joined.place.hold:
        return ()
    if not 0 < joined.place.row.number < number - 1 or any(isinstance(op, Act) and op.name == "row" for op in ops):
        return ()
    there = Act("row", place=Place("next", row=joined.place.row), at=joined.at)
    return ((*ops[: at + 1], there, *ops[at + 1 :]),)


_POINTS = when_used(r"\bpoints?\b")


def points_as_stitches(ops: tuple[Op, ...], low: str) -> tuple[tuple[Op, ...], ...]:
    """ "Sc in each point": a stitch, in the words of some who write in English, where the row below has no points."""
    if not _POINTS.search(low):
        return ()
    changed = in_stitches(ops)
    return (changed,) if changed != ops else ()


def in_stitches(ops: tuple[Op, ...]) -> tuple[Op, ...]:
    """Ops with each place at a corner in stitches."""
    out: list[Op] = []
    for op in ops:
        if isinstance(op, Star | Times):
            op = replace(op, ops=in_stitches(op.ops))
        elif isinstance(op, Make | Into | Skip):
            op = replace(op, places=tuple(replace(p, noun=Noun("st")) if p.noun.name == "corner" else p for p in op.places))
        out.append(op)
    return tuple(out)


_NAMES_STITCH = when_used(rf"\b\d*(?:{lexicon.ANY_PLAIN})\b|crochet(?!ing\b)|treble")
_EVEN = when_used(r"\b(?:even|evenly|straight|unchanged)\b|\b(?:without|with no|no) (?:any |more |further )?(?:shaping|changes?|inc|dec)")


def even_as_before(ops: tuple[Op, ...], low: str, before: Sequence[RowText]) -> tuple[Op, ...]:
    """ "Work 3 rows even", which names no stitch: in the one that the row above is worked in, where it is one."""
    work = [op for op in ops if not isinstance(op, Act | Chain)]
    only = work[0] if len(work) == 1 else None
    if before and not work and [op.name for op in ops if isinstance(op, Act)] in (["pattern"], []) and _ONLY_EVEN.fullmatch(low):
        return _unshaped(ops or (Act("pattern"),), before)
    if not isinstance(only, Make) or not before or [p.bare for p in only.places] != [True]:
        return ops
    if _NAMES_STITCH.search(low) or not _EVEN.search(low):
        return ops
    above = next((row.ops for row in reversed(before) if not any(isinstance(op, Again) for op in row.ops)), ())
    made = {op.stitch for op in walk(above) if isinstance(op, Make)} - {"sl st"}
    stitch = made.pop() if len(made) == 1 else only.stitch
    stitch = lexicon.height_of(stitch) or ""  # plain ones above post stitches
    if stitch not in lexicon.US_HEIGHTS:
        return ops
    return tuple(replace(op, stitch=stitch) if op is only else op for op in ops)


#: "Even (13)", "work even around": a row without shaping, whatever the one above is.
_ONLY_EVEN = when_used(r"\W*(?:(?:now |then )?(?:work|worked|sew|continue|crochet) )?(?:even|straight)(?: (?:all )?(?:around|round|across))?\W*(?:\d{1,3}[ a-z]{0,10})?\W*")


def _unshaped(ops: tuple[Op, ...], before: Sequence[RowText]) -> tuple[Op, ...]:
    """One stitch in each, where the row above is of one plain stitch and shaped."""
    above = next((row.ops for row in reversed(before) if not any(isinstance(op, Again) for op in row.ops)), ())
    makes = [op for op in walk(above) if isinstance(op, Make)]
    made = {lexicon.height_of(op.stitch) or "" for op in makes if op.stitch not in ("inc", "dec", "sl st")} or {"sc"}
    shaped = any(op.stitch in ("inc", "dec") or lexicon.together(op.stitch) > 1 or op.count > 1 for op in makes)
    if not shaped or len(made) > 1 or made <= {""} or any(isinstance(op, Chain) for op in above[1:]):
        return ops
    return tuple(Make(made.pop(), 1, (Place("each", bare=True),), at=op.at) if isinstance(op, Act) else op for op in ops)


#: "Decrease as before", "inc each end as in the last inc row": shaped as the last row that was.
_SHAPED_AS_BEFORE = when_used(
    r"\W*(?:(?:ch(?:ain)? ?\d|\d ?ch|turn|join)\b\W*)*(?P<how>inc|dec)(?:reas(?:e|ing))?s?(?: (?:1|one|a) (?:st|stitch))?(?: (?:at |on )?(?:each|both|either) (?:ends?|sides?))? "
    r"(?:as|like|same as|the same as|in the same way as|exactly as) (?:(?:you did |we did |done )?(?:before|previously|above|earlier)|(?:in |on )?(?:the )?(?:last|previous) (?:inc|dec)(?:rease)? (?:row|rnd|round))\W*(?:\(?\d{1,3}[ a-z]{0,10}\)?\W*)?"
)


def shaped_as_before(ops: tuple[Op, ...], low: str, before: Sequence[RowText]) -> tuple[Op, ...]:
    """ "Decrease as before": the last row that was shaped so, which tells how; or as it stands."""
    found = _SHAPED_AS_BEFORE.fullmatch(low)
    if found is None:
        return ops
    last = next((row for row in reversed(before) if row.last and row.part == before[-1].part and _shapes(row.ops, found["how"])), None)
    return (Again(last.last, last.last, at=ops[0].at if ops else NOWHERE),) if last is not None else ops


def _shapes(ops: tuple[Op, ...], how: str) -> bool:
    """Whether a row's own words increase ("inc") or decrease ("dec")."""
    made = [op for op in walk(ops) if isinstance(op, Make)] + [op.make for op in ops if isinstance(op, Corner) and isinstance(op.make, Make)]
    if how == "dec":
        return any(op.stitch == "dec" or lexicon.together(op.stitch) > 1 for op in made)
    return any(op.stitch == "inc" or (op.count > 1 and bool(op.places) and lexicon.height_of(op.stitch) is not None) for op in made)


def loops_alone(ops: tuple[Op, ...], before: Sequence[RowText]) -> tuple[Op, ...]:
    """ "This row is worked through the back loops": a row that tells its loops and no work is the one above in these."""
    loops = any(isinstance(op, Act) and op.name == "loops" for op in ops)
    if not loops or not before or any(not isinstance(op, Act | Chain) for op in ops):
        return ops
    return (*(op for op in ops if isinstance(op, Act) and op.name == "loops"), Again(-1, -1))


#: "Again leave the last stitch unworked", "leave the last st unworked again".
_LEFT_AGAIN = when_used(r"\b(?:again|once more|as before|too|as well)\b")


def left_again(ops: tuple[Op, ...], low: str, before: Sequence[RowText]) -> tuple[Op, ...]:
    """ "Ch 1, again leave the last stitch unworked, turn": a row with no work of its own is the one above once more."""
    left = [op for op in ops if isinstance(op, Act) and op.name == "leave"]
    if len(left) != 1 or not before or not _LEFT_AGAIN.search(low) or any(not isinstance(op, Act | Chain) for op in ops):
        return ops
    above = next((row.ops for row in reversed(before) if not any(isinstance(op, Again) for op in row.ops)), ())
    if not _leaves_some(above):
        return ops
    return (Again(-1, -1, at=left[0].at),)


def _leaves_some(ops: tuple[Op, ...]) -> bool:
    """Whether a row leaves stitches at its end: it says so, or it goes along to before the last."""
    leaves = any(isinstance(op, Act) and op.name == "leave" for op in ops)
    return leaves or any(isinstance(op, Make | Into) and bool(op.places) and bool(op.places[-1].until) for op in walk(ops))


def rows_in_turn(ops: tuple[Op, ...]) -> tuple[Op, ...]:
    """ "[Rep Rows 2-5] 30 times", "[rep Row 2, then Row 3] twice": rows worked again in turn, which no row can hold."""
    group = next((op for op in ops if isinstance(op, Times | Star)), None)
    often = group.times if isinstance(group, Times) else (group.more or 0) + 1 if isinstance(group, Star) else 0
    if group is None or not often or any(not isinstance(op, Act) for op in ops if op is not group):
        return ops
    again = tuple(op for op in group.ops if not isinstance(op, Act))
    if not again or not all(isinstance(op, Again) and 0 < op.first <= op.last and not op.swap for op in again):
        return ops
    once = tuple(replace(op, times=often) if len(again) == 1 and isinstance(op, Again) else op for op in again)
    at = ops.index(group)
    return (*ops[:at], *(once if len(again) == 1 else once * often), *ops[at + 1 :])


def over_plain_rows(ops: tuple[Op, ...], before: Sequence[RowText]) -> tuple[Op, ...]:
    """ "Work in pattern to last 4 sts" over rows of one plain stitch in each stitch: in that stitch, so far."""
    at = next((n for n, op in enumerate(ops) if isinstance(op, Act) and op.name == "pattern" and op.place is not None), None)
    pattern = ops[at] if at is not None else None
    if at is None:
        return _shaped_in_pattern(ops, before)
    if not isinstance(pattern, Act) or pattern.place is None:
        return ops
    above = next((row.ops for row in reversed(before) if not any(isinstance(op, Again) for op in row.ops)), ())
    stitch = _plain_all_along(above)
    return (*ops[:at], Make(stitch, 1, (pattern.place,), at=pattern.at), *ops[at + 1 :]) if stitch else ops


def _shaped_in_pattern(ops: tuple[Op, ...], before: Sequence[RowText]) -> tuple[Op, ...]:
    """ "Work across, dec 1 st at end" over such rows, whose stitches it works: that is all that going on in pattern says."""
    going = [op for op in ops if isinstance(op, Act) and op.name == "pattern"]
    along = [op for op in ops if isinstance(op, Make) and any(p.which == "each" and not p.until for p in op.places)]
    if not going or len(along) != 1:
        return ops
    above = next((row.ops for row in reversed(before) if not any(isinstance(op, Again) for op in row.ops)), ())
    stitch = _plain_all_along(above)
    return tuple(op for op in ops if op not in going) if stitch == along[0].stitch else ops


def _past_edge(ops: tuple[Op, ...]) -> tuple[Op, ...]:
    """A row's clauses without what only begins it further on: slip stitches, and the first stitch that is skipped as the
    turning chain stands for it."""
    slips = [n for n, op in enumerate(ops) if isinstance(op, Make) and op.stitch == "sl st"]
    led = slips and all(isinstance(op, Act | Chain) or n in slips for n, op in enumerate(ops[: slips[-1] + 1]))
    ops = ops[slips[-1] + 1 :] if led else ops
    at = next((n for n, op in enumerate(ops) if not isinstance(op, Act | Chain)), len(ops))
    first = ops[at] if at < len(ops) else None
    skips = isinstance(first, Skip) and [(p.which, p.count) for p in first.places] in ([("first", 1)], [("next", 1)])
    return (*ops[:at], *ops[at + 1 :]) if skips and any(isinstance(op, Chain) for op in ops[:at]) else ops


def _plain_all_along(ops: tuple[Op, ...]) -> str:
    """The one plain stitch that a row works into each stitch below, shaped or not; "" where it works otherwise."""
    work = [op for n, op in enumerate(_past_edge(ops)) if not isinstance(op, Act | Corner) and not (isinstance(op, Chain) and n < 2)]
    made = {op.stitch for op in work if isinstance(op, Make) and op.stitch in lexicon.US_HEIGHTS}
    whole = any(isinstance(op, Make) and any(p.which == "each" for p in op.places) for op in work)
    plain = all(isinstance(op, Make) and not op.beside and not any(p.hold or p.row for p in op.places) for op in work)
    return made.pop() if whole and plain and len(made) == 1 else ""


def _is_settled(op: Op) -> bool:
    """Whether a clause belongs to one place of the row, or says itself how far it goes."""
    if isinstance(op, Star):
        return True
    places = op.places if isinstance(op, Make | Skip) else ()
    return not isinstance(op, Make | Skip | Times | Chain) or any(
        p.which not in ("next", "same") or p.until or p.upto for p in places
    )
