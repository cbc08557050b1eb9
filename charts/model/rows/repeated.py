"""Rows worked as other rows: whose words a row takes, moved along, with what is put in place of what."""

from __future__ import annotations

from collections.abc import Iterator

from ...made_late import replace
from ...pattern.lexicon import TURNING
from ...pattern.tree import (
    NOWHERE,
    ROUND_THOSE,
    Act,
    Again,
    Chain,
    Corner,
    Into,
    Make,
    Noun,
    Op,
    Place,
    RowRef,
    RowText,
    Skip,
    Star,
    Times,
    walk,
)
from ..cloth.faults import MOST_WORKED_ROWS, Stuck
from . import growth, misnamed, readings, reporting
from .working import Working

#: Below this number stand the rows before, where one of them has no number of its own.
UNNUMBERED = 10_000_000
_MOST_BACK = 40
#: Rows that come again until so many stitches are there are so many at most.
_MOST_UNTIL = 400


def expanded(w: Working) -> Iterator[tuple[RowText, int, tuple[Op, ...], int]]:
    """Every row with its own number, repeated rows by the words of the row they repeat."""
    before: list[tuple[int, tuple[Op, ...]]] = []
    latest = 0
    for index, text in enumerate(w.pattern.rows):
        total = text.last - text.first + 1 if text.last >= text.first > 0 else 1
        if total > MOST_WORKED_ROWS:
            reporting.problem(
                w,
                "limit",
                text.label,
                f"{total:,} rows; this tool works {MOST_WORKED_ROWS:,}",
                "split the pattern into parts",
                text.line,
            )
            total = 1
        again = next((op for op in text.ops if isinstance(op, Again) and op.first), None)
        if (
            again is not None
            and again.last >= again.first > 0
            and text.first
            and total == 1
            and again.last > again.first
        ):
            total = 1
        if again is not None and again.last == -1 and -len(before) <= again.first < 0:
            back = before[again.first :]
            if not text.first or not all(number for number, _ in back):
                again = replace(again, first=UNNUMBERED + again.first, last=UNNUMBERED - 1)
                w.by_number.update({again.first + at: (ops, 0) for at, (_, ops) in enumerate(back)})
        for n in range(_MOST_UNTIL if text.until and text.ops else total):
            if text.until and _come_to(w, text, n, again):
                break
            number = text.first + n if text.first else 0
            ops, source = ops_of(w, text, number, n, again)
            ops = ops if n == total - 1 else _going_on(ops)
            before = [*before[-_MOST_BACK:], (number, ops)]
            latest = number or latest + 1
            if number:
                w.by_number[number] = w.by_part.setdefault(text.part, {})[number] = (ops, source)
            else:
                w.by_number[latest] = (ops, source)
            yield text, number, ops, index


def _going_on(ops: tuple[Op, ...]) -> tuple[Op, ...]:
    """The words of a row that is not the last of those told together: "Rnds 5-7: sc in each sc around, sl st in next
    sc, fasten off" ends so once, as yarn that is cut cannot be worked with; where it is joined anew each ends so."""
    at, last = len(ops) - 1, ops[-1] if ops else None
    ends = at > 1 and isinstance(last, Act) and last.name == "fasten off"
    if not ends or not _slips_on(ops[at - 1]) or any(isinstance(op, Act) and op.name == "yarn" for op in ops):
        return ops
    return ops[: at - 1]


def _slips_on(op: Op) -> bool:
    """Whether a clause is slip stitches into the next stitches, which lead down from a spiral's end."""
    return isinstance(op, Make) and op.stitch == "sl st" and [p.which for p in op.places] == ["next"]


def _come_to(w: Working, text: RowText, n: int, again: Again | None) -> bool:
    """Whether rows that come again until so many stitches are there have come to them behind `n` rows; a problem where
    they do not come nearer."""
    made = w.base().made
    if made == text.until:
        return True
    if not n:
        return False
    if len(w.rows) - 1 in w.not_worked or not text.ops:
        return True
    span = max(again.last - again.first + 1, 1) if again is not None else 1
    before = w.rows[-1 - span].row.made if len(w.rows) > span else made
    past = (made - text.until) * (before - text.until) < 0
    if not past and (n < span or abs(made - text.until) < abs(before - text.until)):
        return False
    says = f"these rows do not come to {text.until} sts: they make {before}, then {made}"
    remedy = "change the count at which they end, or what each row takes in"
    reporting.stuck_once(w, text, Stuck(says, remedy, again.at if again is not None else NOWHERE))
    return True


def ops_of(w: Working, text: RowText, number: int, n: int, again: Again | None) -> tuple[tuple[Op, ...], int]:
    if again is None:
        return text.ops, number
    growing = next((op for op in text.ops if isinstance(op, Again) and op.grow), None)
    if growing is not None:
        before = again.first if again.first > 0 and n == 0 else number - 1
        base = w.by_number.get(before, ((), 0))[0]
        if growing.of in ("side", "run") and 0 < before < number - 1:
            growing = replace(growing, grow=growing.grow * (number - before))  # a side grows in every round between
        longer = growth.grown(base, growing)
        _check_growth(w, text, growing, number, goes=longer != base or growth.goes_along_sides(base, growing))
        beside = tuple(op for op in text.ops if not isinstance(op, Again))
        return again_ops(w, longer, number, number, beside), number
    first, last = (
        (again.first, again.last)
        if again.first > 0
        else (number + again.first if n == 0 else text.first + again.first, text.first + again.last)
    )
    span = max(last - first + 1, 1)
    source = _in_turn(w, text, n) or _listed(text, again, n) or first + n % span
    _check_end(w, text, number, source)
    found = (w.by_part.get(again.part, {}) if again.part else w.by_number).get(source)
    if found is None:
        reporting.stuck_once(
            w, text, Stuck(f"Row {source} is not there to repeat", "name a row that stands before this one", again.at)
        )
        return (), number
    ops, origin = found if source < UNNUMBERED - _MOST_BACK else (found[0], number)
    text = replace(text, ops=tuple(_loops_named(op, ops) for op in text.ops))
    again = next(op for op in text.ops if isinstance(op, Again) and op.first)
    _check_swaps(w, text, ops, source)
    in_turn = _told_in_turn(text)
    extra = tuple(op for op in text.ops if op is not again and op not in in_turn)
    return again_ops(w, ops, origin or source, number, extra), origin or source


def _told_in_turn(text: RowText) -> tuple[Again, ...]:
    """Several rows that a run of rows repeats one after the other: "rep Row 5 once, then Rows 3-5 twice"."""
    again = (op for op in text.ops if isinstance(op, Again) and not op.part and not op.swap)
    told = tuple(op for op in again if op.last >= op.first > 0)
    return told if len(told) > 1 and text.last > text.first > 0 else ()


def _in_turn(w: Working, text: RowText, n: int) -> int:
    """Which row the nth of a run repeats, where its rows are told in turn; else 0. Reports it where they are another
    number of rows than the run."""
    told = _told_in_turn(text)
    named = ((op.times, op.listed or range(op.first, op.last + 1)) for op in told)
    rows = [number for times, each in named for _ in range(max(times, 1)) for number in each]
    wanted = text.last - text.first + 1
    if told and len(rows) != wanted and n == 0:
        says = f"the rows that are repeated are {len(rows)}, but {text.label} are {wanted}"
        remedy = "change how often they are repeated, or the rows' numbers"
        reporting.stuck_once(w, text, Stuck(says, remedy, told[0].at))
    return rows[n % len(rows)] if rows and told else 0


def _listed(text: RowText, again: Again, n: int) -> int:
    """Which row the nth of a run repeats, where those it repeats are told one by one; else 0. Where two are named the
    later first, the row that is said to be the last settles which of them begins."""
    rows = again.listed
    if not rows:
        return 0
    said = next((op.ends for op in text.ops if isinstance(op, Again) and op.ends), 0)
    if len(rows) == 2 and rows[0] > rows[1] and said in rows and text.last > text.first > 0:
        n += rows.index(said) - (text.last - text.first) % 2
    return rows[n % len(rows)]


def _check_growth(w: Working, text: RowText, again: Again, number: int, *, goes: bool) -> None:
    """Report a row that is to go on growing after one that does not, or not by as much as is said."""
    word = "Rnd" if text.is_round else "Row"
    if not goes:
        of_sides = again.of in ("side", "side of", "run", "run of")
        longer = "sides between corners that could be longer" if of_sides else ""
        says = f"{word} {number - 1} has no {longer or 'increases between which more could be worked'}"
        reporting.stuck_once(w, text, Stuck(says, "write the row out", again.at))
    elif again.by and not w.broken and len(w.rows) > 1:
        grew = abs(w.rows[-1].row.made - w.rows[-2].row.made)
        if grew and grew != again.by:
            says = f"{word} {number - 1} makes {grew} sts more or fewer than the one before, not {again.by}"
            reporting.stuck_once(w, text, Stuck(says, f"write {grew}, or write the row out", again.at))


def _check_swaps(w: Working, text: RowText, ops: tuple[Op, ...], source: int) -> None:
    """Report what a row puts in place of something that the row it repeats does not hold."""
    for again in text.ops:
        for old, _ in again.swap if isinstance(again, Again) else ():
            if old == ROUND_THOSE and any(readings.names_row(op) for op in walk(ops)):
                continue
            stitch = _for_all(old, old)
            made = {op.stitch for op in walk(ops) if isinstance(op, Make)}
            if ops and stitch not in made and not any(op == old or same_work(op, old) for op in walk(ops)):
                word = "Rnd" if text.is_round else "Row"
                says = f"what this is to take the place of does not stand in {word} {source}"
                reporting.stuck_once(w, text, Stuck(says, "name what stands there", again.at))


def _run_named(old: Op, ops: tuple[Op, ...]) -> Op:
    """ "With 3 sc before each inc": the run of plain stitches of the row repeated, where one length is meant."""
    if isinstance(old, Skip) and not old.places:
        skips = {o for o in walk(ops) if isinstance(o, Skip) and [p.which for p in o.places] == ["next"]}
        return skips.pop() if len(skips) == 1 else old
    if not isinstance(old, Make) or old.count or not old.places:
        return old
    was = old.places[0].count
    runs = [o for o in walk(ops) if isinstance(o, Make) and o.stitch == old.stitch and _plain_run(o)]
    found = {o for o in runs if not was or _plain_run(o) == was}
    if len(found) > 1 and not was:  # a gusset: of its runs one lies between increases, and stands nowhere else
        neighbours = zip(ops, ops[1:], ops[2:], strict=False)
        between = {b for a, b, c in neighbours if b in found and _increases(a, b) and _increases(c, b)}
        found = {o for o in between if runs.count(o) == len(between)}
    return found.pop() if len(found) == 1 else old


def _increases(op: Op, run: Op) -> bool:
    """Whether a clause works several of a run's stitch into one place."""
    alike = isinstance(op, Make) and isinstance(run, Make) and op.stitch in (run.stitch, "inc")
    return alike and isinstance(op, Make) and (op.stitch == "inc" or (op.count > 1 and len(op.places) == 1))


def _plain_run(op: Make) -> int:
    """How many stitches a run of one in each makes; 0 for anything else."""
    if not op.places:
        return op.count
    place = op.places[0]
    return place.count if op.count == 1 and len(op.places) == 1 and place.which == "next" else 0


def _loops_named(op: Op, ops: tuple[Op, ...]) -> Op:
    """ "Having 5 ch in each loop": the chains named that the row repeated has loops of, where alike."""
    if not isinstance(op, Again) or not op.swap:
        return op
    op = replace(op, swap=tuple((_run_named(a, ops), b) for a, b in op.swap))
    if not any(old == Chain(0) for old, _ in op.swap):
        return op
    at = _led_at(ops)
    behind = (op for i, op in enumerate(ops) if i != at or not isinstance(op, Chain))
    sizes = {o.count for op in behind for o in walk((op,)) if isinstance(o, Chain)}
    old = Chain(sizes.pop()) if len(sizes) == 1 else Chain(0)
    return replace(op, swap=tuple((old if a == Chain(0) else a, b) for a, b in op.swap))


def _posts_said(extra: tuple[Op, ...]) -> Place | None:
    """ "As Rnd 3, working around the sc of Rnd 3": the stitches that this row goes round, and their row."""
    swaps = (pair for op in extra if isinstance(op, Again) for pair in op.swap)
    return next((new.places[0] for old, new in swaps if old == ROUND_THOSE and isinstance(new, Make)), None)


def _led_at(ops: tuple[Op, ...]) -> int:
    """Where the row's first work stands among its words."""
    return next((i for i, op in enumerate(ops) if not isinstance(op, Act)), -1)


def _begun_otherwise(ops: tuple[Op, ...], old: Op, new: Op) -> Chain | None:
    """ "As Rnd 2, with ch 3 between": the row's beginning chain, which is the height of a stitch ("ch 3", as before) or
    that and the chains that are replaced ("ch 5", now 6); none where it is a loop like the others."""
    led = ops[_led_at(ops)] if ops else None
    first = next((op.stitch for op in walk(ops) if isinstance(op, Make)), "")
    if not (isinstance(led, Chain) and isinstance(old, Chain) and isinstance(new, Chain)) or first not in TURNING:
        return None
    beyond = led.count - TURNING[first]
    if beyond == old.count:
        return replace(led, count=led.count - beyond + new.count)
    return led if beyond == 0 else None


def _of_that_chain(op: Op, old: int, new: int) -> Op:
    """A clause that names the round's own beginning chain by its length, which is now another one."""
    if isinstance(op, Act) and op.place is not None:
        return replace(op, place=_longer_chain(op.place, old, new))
    if isinstance(op, Make | Into):
        return replace(op, places=tuple(_longer_chain(p, old, new) for p in op.places))
    return op


def _longer_chain(place: Place, old: int, new: int) -> Place:
    if place.of is not None:
        place = replace(place, of=_longer_chain(place.of, old, new))
    own = place.which == "beg" and place.noun.size == old
    return replace(place, noun=replace(place.noun, size=new)) if own else place


def _crossed(ops: tuple[Op, ...], crossing: Act) -> tuple[Op, ...]:
    """A row's ops with what it works into skipped stitches passing the others on the side that is said: "as Row 4, but
    working behind"."""
    out: list[Op] = []
    for op in ops:
        if isinstance(op, Star | Times):
            op = replace(op, ops=_crossed(op.ops, crossing))
        if isinstance(op, Act) and op.name == "crossing":
            continue
        if isinstance(op, Make) and any(place.which in ("skipped", "unworked") for place in op.places):
            out.append(crossing)
        out.append(op)
    return tuple(out)


def _check_end(w: Working, text: RowText, number: int, source: int) -> None:
    """Report it where the last of the rows is another one than the words say that they end with."""
    said = next((op for op in text.ops if isinstance(op, Again) and op.ends), None)
    if said is not None and number and number == text.last and said.ends != source:
        says = f"the rows end with Row {source}, not with Row {said.ends}"
        reporting.stuck_once(w, text, Stuck(says, "change the last row's number, or the row they end with", said.at))


def again_ops(w: Working, ops: tuple[Op, ...], origin: int, number: int, extra: tuple[Op, ...]) -> tuple[Op, ...]:
    """The words of the row repeated, with other rows they name moved along, and with what this row adds."""
    if any(readings.names_row(op) for op in walk(ops)):
        ops = tuple(moved(op, number - origin) for op in ops)
        ops = misnamed.of_rows_moved_on(ops, w.rows, _posts_said(extra))
    extra = tuple(op for op in extra if not _of_other_rows(op, number))
    swaps = [pair for op in extra if isinstance(op, Again) for pair in op.swap if pair[0] != ROUND_THOSE]
    told = _skips_otherwise(ops, extra)
    swaps, extra = [*swaps, *told], tuple(op for op in extra if op not in [new for _, new in told])
    for old, new in swaps:
        exact = any(op == old for op in walk(ops))
        led, begun = _led_at(ops), _begun_otherwise(ops, old, new)
        was = ops[led] if ops else None
        ops = tuple(begun if begun and i == led else swapped(op, old, new, exact=exact) for i, op in enumerate(ops))
        if begun is not None and isinstance(was, Chain) and begun.count != was.count:
            ops = tuple(_of_that_chain(op, was.count, begun.count) for op in ops)
    if (crossing := next((op for op in extra if isinstance(op, Act) and op.name == "crossing"), None)) is not None:
        ops, extra = _crossed(ops, crossing), tuple(op for op in extra if op is not crossing)
    added = tuple(
        op
        for op in extra
        if not isinstance(op, Again)
        and not (
            isinstance(op, Act)
            and op.name in ("row", "loops", "colour", "change", "facing", "in spaces", "yarn", "stripes")
        )
    )
    added = tuple(Corner(op, at=op.at) if isinstance(op, Make) and _at_an_end(op) else op for op in added)
    added = tuple(op for op in added if not (isinstance(op, Corner) and _shaped_alike(ops, op)))
    sized = next((int(op.text) for op in extra if isinstance(op, Act) and op.name == "in spaces"), 0)
    if sized:
        ops = tuple(_in_spaces(op, sized) for op in ops)
    leading = tuple(op for op in extra if isinstance(op, Act) and op.name in ("row", "loops") and op.text)
    if any(op.name == "loops" for op in leading):
        ops = misnamed.in_no_loops(tuple(op for op in ops if not (isinstance(op, Act) and op.name == "loops")))
    skipped = tuple(op for op in added if isinstance(op, Skip) and _at_an_end(op))
    added = tuple(op for op in added if op not in skipped)
    skipped = () if any(isinstance(op, Skip) and _at_an_end(op) for op in ops) else skipped
    kept = tuple(op for op in ops if not (isinstance(op, Act) and op.name == "fasten off")) if added else ops
    if w.rows and _on_foundation(ops):
        ops = tuple(_off_chain(op) for op in ops if not (isinstance(op, Act) and op.name == "opening"))
        kept = ops
    if skipped:
        at = next((i for i, op in enumerate(kept) if not isinstance(op, Act | Chain)), len(kept))
        kept = kept[:at] + skipped + kept[at:]
    elif not added and not leading and not swaps and not sized:
        return ops
    return leading + kept + added


def _skips_otherwise(ops: tuple[Op, ...], extra: tuple[Op, ...]) -> list[tuple[Op, Op]]:
    """ "As Row 2, skipping 2 sc": what the row repeated passes over, and what is passed over in its stead."""
    new = [op for op in extra if isinstance(op, Skip) and [p.which for p in op.places] == ["next"]]
    old = _run_named(Skip(()), ops)
    return [(old, new[0])] if len(new) == 1 and isinstance(old, Skip) and old.places else []


def _at_an_end(op: Make | Skip) -> bool:
    """ "As Row 2, 2 sc in first st": the row's first stitch and no further one."""
    return bool(op.places) and all(p.which in ("first", "last") and p.row is None for p in op.places)


def _shaped_alike(ops: tuple[Op, ...], said: Corner) -> bool:
    """ "Continue as Row 3, inc at both ends": the shaping that Row 3 has, said again."""
    if not isinstance(said.make, Make) or said.make.stitch not in ("inc", "dec"):
        return False
    made = [op for op in ops if isinstance(op, Make) and op.places]
    ends = {"first": made[:1], "last": made[-1:]}
    there = [op for place in said.make.places for op in ends.get(place.which, ())]
    more = said.make.stitch == "inc"
    return bool(there) and all(op.count > 1 if more else "tog" in op.stitch for op in there)


def _of_other_rows(op: Op, number: int) -> bool:
    """Whether a clause is said of the even rows only, or of the odd ones, and this row is none of them."""
    if not isinstance(op, Act) or op.text not in ("even rows", "odd rows"):
        return False
    return (number % 2 == 0) != (op.text == "even rows")


def _in_spaces(op: Op, size: int) -> Op:
    """The same words with spaces of another size."""
    if isinstance(op, Make | Into | Skip):
        op = replace(op, places=tuple(_space_place(p, size) for p in op.places))
    if isinstance(op, Into | Times | Star):
        op = replace(op, ops=tuple(_in_spaces(o, size) for o in op.ops))
    return op


def _space_place(place: Place, size: int) -> Place:
    return replace(place, noun=replace(place.noun, size=size)) if place.noun.name in ("sp", "lp") else place


def _on_hook(op: Op) -> bool:
    return isinstance(op, Make | Into) and any(p.which == "hook" for p in op.places)


def _on_foundation(ops: tuple[Op, ...]) -> bool:
    """Whether chains are counted from the hook that the row has not made itself."""
    for op in walk(ops):
        if isinstance(op, Chain):
            return False
        if _on_hook(op):
            return True
    return False


def _off_chain(op: Op) -> Op:
    """The words of a first row as they are said of a row of stitches: into the first of them, and so on."""
    if isinstance(op, Make | Into | Skip):
        op = replace(op, places=tuple(_off_place(p) for p in op.places))
    if isinstance(op, Into | Times | Star):
        op = replace(op, ops=tuple(_off_chain(o) for o in op.ops))
    return op


def _off_place(place: Place) -> Place:
    noun = Noun("st") if place.noun.name == "ch" else place.noun
    until = (place.until[0], Noun("st")) if place.until and place.until[1].name == "ch" else place.until
    which = "next" if place.which == "hook" else place.which
    return replace(place, which=which, noun=noun, nth=0 if place.which == "hook" else place.nth, until=until)


def moved(op: Op, shift: int) -> Op:
    """The same words with the row numbers they name moved along."""
    if isinstance(op, Make):
        return replace(op, places=tuple(moved_place(p, shift) for p in op.places))
    if isinstance(op, Into):
        return replace(
            op, ops=tuple(moved(o, shift) for o in op.ops), places=tuple(moved_place(p, shift) for p in op.places)
        )
    if isinstance(op, Times | Star):
        return replace(op, ops=tuple(moved(o, shift) for o in op.ops))
    if isinstance(op, Act) and op.place is not None:
        return replace(op, place=moved_place(op.place, shift))
    return op


def moved_place(place: Place, shift: int) -> Place:
    if place.row is not None and place.row.number:
        place = replace(place, row=RowRef(number=place.row.number + shift))
    if place.of is not None:
        place = replace(place, of=moved_place(place.of, shift))
    return place


def swapped(op: Op, old: Op, new: Op, *, exact: bool) -> Op:
    """An op with `new` in place of `old`, wherever it stands; `exact` where the places that are said are there."""
    if (stitch := _for_all(old, new)) and isinstance(new, Make):
        if not isinstance(op, Make) or op.stitch != stitch:
            return _swapped_inside(op, old, new, exact=exact)
        return replace(op, stitch=new.stitch, beside=tuple(_made(swapped(m, old, new, exact=exact)) for m in op.beside))
    if op == old if exact else same_work(op, old):
        return new
    return _swapped_inside(op, old, new, exact=exact)


def _for_all(old: Op, new: Op) -> str:
    """The stitch that another is worked for wherever it stands: "sc in place of dc" says neither how many nor where."""
    both = isinstance(old, Make) and isinstance(new, Make) and old.count == new.count == 1
    bare = both and not any(isinstance(op, Make) and (op.places or op.beside) for op in (old, new))
    return old.stitch if bare and isinstance(old, Make) else ""


def _made(op: Op) -> Make:
    assert isinstance(op, Make)
    return op


def _swapped_inside(op: Op, old: Op, new: Op, *, exact: bool) -> Op:
    if isinstance(op, Star):
        op = replace(op, ending=tuple(swapped(o, old, new, exact=exact) for o in op.ending))
    if isinstance(op, Into | Times | Star):
        return replace(op, ops=tuple(swapped(o, old, new, exact=exact) for o in op.ops))
    return op


def same_work(a: Op, b: Op) -> bool:
    if isinstance(a, Chain) and isinstance(b, Chain):
        return a.count == b.count and not a.counts
    if isinstance(a, Make) and isinstance(b, Make):
        return a.stitch == b.stitch and (a.count == b.count)
    return a == b


def row_label(text: RowText, number: int) -> str:
    """A row's own label: "Row 7" for the last row of "Rows 3-7"."""
    if not number or text.first == text.last:
        return text.label
    return f"{text.label.split()[0].rstrip('s')} {number}"
