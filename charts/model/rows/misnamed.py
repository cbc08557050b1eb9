"""A row that names a stitch where the row below has only others: "2 hdc in each sc" over a round of hdc."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from itertools import takewhile

from ...made_late import replace
from ...pattern.lexicon import GATHERED, height_of
from ...pattern.tree import (
    NOWHERE,
    PETAL_ST,
    Act,
    Chain,
    Held,
    Into,
    Make,
    Noun,
    Op,
    Place,
    RowRef,
    Skip,
    Star,
    Times,
    walk,
)
from ..cloth.fabric import Row, WorkedRow, counts
from ..cloth.faults import Stuck
from ..cloth.ground import Slot, is_called, matches, outside_groups

#: The ways of naming a place in which the kind of stitch only says that the next stitches are meant.
_PLAIN = ("next", "each", "first", "last", "same")


def meant(ops: tuple[Op, ...], below: Row, *, chains_only: bool = False) -> tuple[tuple[Op, ...], str, str] | None:
    """The ops with the stitch that is not there taken for those that are, its name, and theirs; None where all stitches
    named are there, several are not, or the row below has several kinds. A chain over a row without one is such a
    stitch; `chains_only`: only that."""
    kinds = below.kinds_made
    named = {
        p.noun.name
        for op in walk(ops)
        if isinstance(op, Make | Into | Skip)
        for p in op.places
        if p.row is None and _is_plain(p, chains_only=chains_only)
    }
    if "ch" in named and any(s.role == "chain" for s in below.stitches):
        named = named - {"ch"}
    wrong = named - kinds
    heights = {height_of(kind) or kind for kind in kinds}
    there = next(iter(heights), "")
    if not named:
        return None
    if not wrong and not chains_only:
        return _among_others(ops, named, kinds)
    if len(heights) != 1 or len(wrong) != 1 or height_of(there) != there:
        return None
    name = wrong.pop()
    return tuple(_renamed(op, name) for op in ops), name, there


def one_for_the_other(ops: tuple[Op, ...], below: Row) -> tuple[tuple[Op, ...], str, str] | None:
    """The ops of a row told by another, which name plain stitches one by one over a row that has two kinds of them, the
    other way about: "*dc in next dc, sc in next sc", repeated. Each is taken for the next stitch; None for any other
    row."""
    places = [p for op in walk(ops) if isinstance(op, Make | Skip) for p in op.places if p.row is None]
    named = sorted({p.noun.name for p in places if _is_plain(p, chains_only=False)} - {"ch"})
    kinds = sorted(below.kinds_made)
    two = len(kinds) == len(("one", "other")) and all(height_of(kind) == kind for kind in kinds)
    if not named or not two or not set(named) <= set(kinds):
        return None
    for name in named:
        ops = tuple(_renamed(op, name) for op in ops)
    return ops, " and ".join(named), " and ".join(kinds)


#: How many rows down the stitches between petals are looked for.
DEEPEST = 4


def between_petals(ops: tuple[Op, ...], rows: Sequence[Row]) -> tuple[Op, ...]:
    """The ops with "the sc between petals" taken for those of the nearest row that has such stitches in none of its
    groups: of the row below where they stand between its petals, else of the row whose loops the petals fill. `rows`
    are the last ones, DEEPEST at most, the row below at the end."""
    if not any(p.noun.name == PETAL_ST for op in walk(ops) if isinstance(op, Make | Into | Skip) for p in op.places):
        return ops
    return tuple(_changed(op, lambda place: _behind(place, rows)) for op in ops)


def _behind(place: Place, rows: Sequence[Row]) -> Place:
    if place.noun.name != PETAL_ST:
        return place
    plain = replace(place, noun=Noun(place.noun.of))
    for back, row in enumerate(reversed(rows), 1):
        if any(matches(Slot(at, row.stitches[at]), plain.noun) for at in outside_groups(row)):
            return place if back == 1 and row.groups else plain if back == 1 else replace(plain, row=RowRef(below=back))
    return plain


def in_no_loops(ops: tuple[Op, ...]) -> tuple[Op, ...]:
    """The ops of a row repeated in other loops, without those that its places name."""
    return tuple(_changed(op, lambda p: replace(p, hold="") if p.hold in _LEFT_LOOP else p) for op in ops)


def _changed(op: Op, change: Callable[[Place], Place]) -> Op:
    """An op with its places changed."""
    if isinstance(op, Make | Skip):
        return replace(op, places=tuple(map(change, op.places)))
    if isinstance(op, Act) and op.place is not None:
        return replace(op, place=change(op.place))
    if isinstance(op, Into):
        return replace(op, places=tuple(map(change, op.places)), ops=tuple(_changed(o, change) for o in op.ops))
    if isinstance(op, Times):
        return replace(op, ops=tuple(_changed(o, change) for o in op.ops))
    if isinstance(op, Star):
        ops, ending = (tuple(_changed(o, change) for o in part) for part in (op.ops, op.ending))
        return replace(op, ops=ops, ending=ending)
    return op


def of_rows_moved_on(ops: tuple[Op, ...], rows: Sequence[WorkedRow], said: Place | None = None) -> tuple[Op, ...]:
    """The ops of a row repeated further up, whose places in earlier rows were moved along with it, with stitches that
    such a row has not taken for those it has, where they are of one kind, or for those that are `said`, with their row.
    """

    def there(place: Place) -> Place:
        if said is not None and place.row is not None and place.row.number:
            return replace(place, noun=said.noun, row=said.row)
        number = place.row.number if place.row is not None else 0
        row = next((worked.row for worked in rows if number and worked.number == number), None)
        if row is None or height_of(place.noun.name) != place.noun.name:
            return place
        kinds = row.kinds_made - {"sl st"}
        other = len(kinds) == 1 and place.noun.name not in kinds
        return replace(place, noun=Noun(next(iter(kinds)))) if other else place

    return tuple(_changed(op, there) for op in ops)


def posts_further_down(ops: tuple[Op, ...], rows: Sequence[Row]) -> tuple[Op, ...]:
    """The ops with stitches round posts of a kind that the row below has not, but the one under it has ("FPdc around
    each of next 4 FPtr" over a row of sc), worked two rows below (common practice, no source). `rows` are the last
    ones, the row below at the end."""
    if len(rows) <= 1:
        return ops
    below, under = (row.kinds_made for row in rows[-1:-3:-1])

    def deeper(op: Op) -> Op:
        if isinstance(op, Times | Star):
            op = replace(op, ops=tuple(map(deeper, op.ops)))
            return replace(op, ending=tuple(map(deeper, op.ending))) if isinstance(op, Star) else op
        if not isinstance(op, Make) or not op.places or not all(map(raised, [op] * len(op.places), op.places)):
            return op
        return replace(op, places=tuple(replace(p, row=RowRef(below=2)) for p in op.places))

    def raised(op: Make, place: Place) -> bool:
        post = op.stitch[:2] in ("FP", "BP") or place.hold in ("front post", "back post")
        name = place.noun.name
        plain = place.row is None and place.which in ("next", "first", "last") and bool(height_of(name))
        return post and plain and name in under - below

    return tuple(map(deeper, ops))


def in_no_corner(ops: tuple[Op, ...]) -> tuple[Op, ...] | None:
    """The ops with "the next corner sc" taken for the next stitch: over a round known by its count alone.
    None where they name no such place."""
    changed = tuple(_changed(op, _out_of_corner) for op in ops)
    return changed if changed != ops else None


def _out_of_corner(place: Place) -> Place:
    named = place.noun.name in ("corner", "corner st") and place.row is None
    named = named and place.which in ("next", "first", "last")
    return replace(place, noun=_STITCH) if named else place


#: The loop of a stitch that is left where another has been worked into.
_LEFT_LOOP: dict[str, Held] = {"front loop": "back loop", "back loop": "front loop"}


def into_left_loops(ops: tuple[Op, ...], below: Row, *, counted: bool) -> tuple[Op, ...] | None:
    """The ops of a round behind one that was worked in one loop of the stitches below it, into the other loop of these:
    "2 sc in back lp of each sc" behind a round of petals in front loops. Where the round does not say which loop it
    goes into, only if it is `counted`. None where the round below is not worked so, or this one goes into the same
    loop."""
    feet = [foot for stitch in below.stitches for foot in stitch.feet if foot.back == 1]
    holds = {foot.hold for foot in feet}
    left = _LEFT_LOOP.get(holds.pop(), "") if len(holds) == 1 else ""
    said: set[str] = {p.hold for op in walk(ops) if isinstance(op, Make | Into | Skip) for p in op.places if p.hold}
    said |= {op.text for op in ops if isinstance(op, Act) and op.name == "loops" and op.text}
    if not left or said - {left} or not (said or counted):
        return None
    changed = tuple(_changed(op, lambda place: _two_down(place, left)) for op in ops)
    return changed if changed != ops else None


def _two_down(place: Place, loop: Held) -> Place:
    plain = place.which in ("next", "each", "first", "last") and place.row is None and place.of is None
    if not plain or (place.noun.name != "st" and height_of(place.noun.name) is None):
        return place
    return replace(place, row=RowRef(below=2), hold=place.hold or loop)


def over_chains(ops: tuple[Op, ...], below: Row) -> tuple[tuple[Op, ...], str, str] | None:
    """The ops of a row told by another one with the stitches that it skips taken for the chains which that one worked
    over them: "*3 hdc, ch 4, sk 4 hdc", repeated; None where it skips none by name, or nothing below is a chain."""
    skips = [op for op in walk(ops) if isinstance(op, Skip)]
    named = {p.noun.name for op in skips for p in op.places if _is_plain(p, chains_only=False)} - {"ch"}
    if len(named) != 1 or not any(s.role == "chain" for s in below.stitches):
        return None
    name = next(iter(named))
    return tuple(_skips_renamed(op, name) for op in ops), name, "ch"


def _skips_renamed(op: Op, name: str) -> Op:
    if isinstance(op, Star | Times):
        return replace(op, ops=tuple(_skips_renamed(o, name) for o in op.ops))
    return _renamed(op, name) if isinstance(op, Skip) else op


def on_chain(ops: tuple[Op, ...]) -> tuple[tuple[Op, ...], str] | None:
    """The ops of a row on the foundation chain with the stitches it names there taken for chains, and their name; None
    where it names none, or several: "2 sc in 2nd ch from hook, sc in next 3 sc, 2 sc in last ch"."""
    places = [p for op in walk(ops) if isinstance(op, Make | Into | Skip) for p in op.places]
    named = {p.noun.name for p in places if _is_plain(p, chains_only=False)} - {"ch"}
    if len(named) != 1 or not any(p.which == "hook" for p in places):
        return None
    name = named.pop()
    return tuple(_renamed(op, name, Noun("ch")) for op in ops), name


#: Groups that have holes between them are of so many stitches at least.
_GROUPED = 3


def holes_between(ops: tuple[Op, ...], below: Row) -> tuple[Op, ...]:
    """The ops with their gaps and holes taken for those between the groups, where the row below is nothing but groups
    side by side, but for its ends, as a granny stripe is; elsewhere a hole is a chain space or a stitch."""
    if not any(place.noun.name == "hole" for op in walk(ops) for place in _places(op)) or not _all_grouped(below):
        return ops
    return tuple(_changed(op, _in_gap) for op in ops)


def last_of_row(ops: tuple[Op, ...], below: Row) -> tuple[Op, ...]:
    """The ops with "in last ch" taken for the last stitch, where the row below has no chain: words of a first row
    that are said again of the rows behind it."""
    said = any(place.which == "last" and place.noun.name == "ch" for op in walk(ops) for place in _places(op))
    if not said or any(stitch.chains > (stitch.role == "start") for stitch in below.stitches):
        return ops
    return tuple(_changed(op, _last_stitch) for op in ops)


def _last_stitch(place: Place) -> Place:
    return replace(place, noun=Noun("st")) if place.which == "last" and place.noun.name == "ch" else place


def _in_gap(place: Place) -> Place:
    if place.until is not None and place.until[1].name == "hole":
        place = replace(place, until=(place.until[0], Noun("gap")))
    return replace(place, noun=Noun("gap")) if place.noun.name == "hole" else place


def _places(op: Op) -> tuple[Place, ...]:
    if isinstance(op, Make | Into | Skip):
        return op.places
    return (op.place,) if isinstance(op, Act) and op.place is not None else ()


def _all_grouped(row: Row) -> bool:
    held = [range(first, first + length) for first, length, _ in row.groups]
    if len(held) < 2 or any(s.role == "chain" for s in row.stitches):
        return False
    if any(sum(counts(row.stitches[i]) for i in group) < _GROUPED for group in held):
        return False
    within = {i for group in held for i in group}
    between = range(min(held[0]), max(held[-1]))
    return all(i in within or not counts(row.stitches[i]) for i in between)


def between_groups(ops: tuple[Op, ...], below: Row, *, stuck: bool = False) -> tuple[Op, ...] | None:
    """The ops with their bare spaces taken for those between the groups, where the row below has chains only inside
    its groups and the row calls these corners, or by their number: "*3 dc in next sp, (3 dc, ch 2, 3 dc) in next
    corner"; a row that is `stuck`, also loops."""
    if len(below.groups) < 2:
        return None
    there = _slipped_into(ops)
    rest = tuple(op for op in ops if op is not there)
    places = [p for op in walk(rest) if isinstance(op, Make | Into) and not _slips(op) for p in op.places]
    sized = any(p.noun.name.startswith("corner") or (p.noun.name == "sp" and p.noun.size) for p in places)
    sized = sized or (stuck and any(p.noun.name == "lp" for p in places))
    if not sized or not any(map(_bare_space, places)):
        return None
    inside = {item for first, length, _ in below.groups for item in range(first, first + length)}
    chains = [item for item, stitch in enumerate(below.stitches) if stitch.role == "chain"]
    if not chains or not inside.issuperset(chains):
        return None
    return tuple(op if op is there else _in_gaps(op) for op in ops)


def _slipped_into(ops: tuple[Op, ...]) -> Op | None:
    """ "Sl st in ch-3 sp, (ch 3, 2 dc, ch 3, 3 dc) in sp": what a round works first, in the space slipped into."""
    work = [op for op in ops if not isinstance(op, Act | Chain)]
    slips = list(takewhile(_slips, work))
    first = work[len(slips)] if slips and len(work) > len(slips) else None
    last = slips[-1].places[-1] if slips and isinstance(slips[-1], Make) and slips[-1].places else None
    into = last is not None and last.noun.name == "sp" and isinstance(first, Make | Into)
    return first if into and isinstance(first, Make | Into) and any(p.bare for p in first.places) else None


def _bare_space(place: Place) -> bool:
    plain = place.which in ("next", "each", "first", "last") and place.row is None
    return plain and place.noun.name in ("sp", "hole") and not place.noun.size


def _slips(op: Op) -> bool:
    return isinstance(op, Make) and op.stitch == "sl st"


def _in_gaps(op: Op) -> Op:
    if isinstance(op, Star | Times):
        return replace(op, ops=tuple(map(_in_gaps, op.ops)))
    if isinstance(op, Make | Into | Skip) and not _slips(op):
        return replace(op, places=tuple(replace(p, noun=Noun("gap")) if _bare_space(p) else p for p in op.places))
    return op


def other_chain(ops: tuple[Op, ...]) -> tuple[tuple[Op, ...], Stuck] | None:
    """The ops of a round that is joined to a beginning chain of another number than it has ("ch 2, ..., join to beg
    ch-3"), joined to the one that it has, and what is wrong with it. None where it says its own."""
    chains = next((op.count for op in ops if isinstance(op, Chain)), 0)
    joins = ((beg.noun.size, op.at) for op in ops if (beg := _joined_to(op)) is not None and beg.noun.size)
    said, at = next(joins, (0, NOWHERE))
    if not chains or said in (0, chains):
        return None
    wrong = Stuck(f"this round begins with ch {chains}, not ch {said}", f'write "beg ch-{chains}"', at)
    return tuple(_to_its_own(op) for op in ops), wrong


def _joined_to(op: Op) -> Place | None:
    """The beginning chain that a join goes into, or into the top of."""
    place = op.place if isinstance(op, Act) and op.name == "join" else None
    beg = place.of if place is not None and place.which == "top" else place
    return beg if beg is not None and beg.which == "beg" else None


def _to_its_own(op: Op) -> Op:
    beg = _joined_to(op)
    if beg is None or not isinstance(op, Act) or op.place is None:
        return op
    own = replace(beg, noun=replace(beg.noun, size=0))
    return replace(op, place=own if op.place.which == "beg" else replace(op.place, of=own))


def _among_others(
    ops: tuple[Op, ...], named: set[str], kinds: frozenset[str]
) -> tuple[tuple[Op, ...], str, str] | None:
    """ "Sc in each sc" over a row of sc and tr, or of sc and bobbles, all of which it means."""
    places = [p for op in walk(ops) if isinstance(op, Make | Into) for p in op.places]
    each = {p.noun.name for p in places if p.which == "each" and p.row is None}
    plain = all(height_of(kind) == kind or kind in GATHERED for kind in kinds)
    if len(kinds) < 2 or len(each) != 1 or named != each or not plain:
        return None
    name = each.pop()
    return tuple(_renamed(op, name) for op in ops), name, " and ".join(sorted(kinds))


def _is_plain(place: Place, *, chains_only: bool) -> bool:
    """Whether a place is named by the kind of its stitches, and only by that."""
    if place.noun.name == "ch":
        return place.which in _PLAIN or place.which == "hook"
    return not chains_only and height_of(place.noun.name) == place.noun.name and place.which in _PLAIN


#: A stitch of whatever kind.
_STITCH = Noun("st")


def _renamed(op: Op, name: str, to: Noun = _STITCH) -> Op:
    if isinstance(op, Star | Times):
        return replace(op, ops=tuple(_renamed(o, name, to) for o in op.ops))
    if isinstance(op, Make | Into | Skip):
        return replace(op, places=tuple(_called(p, name, to) for p in op.places))
    return op


def _called(place: Place, name: str, to: Noun) -> Place:
    until = place.until
    if until is not None and until[1].name == name:
        until = (until[0], to)
    noun = to if place.noun.name == name else place.noun
    if place.which == "hook" and name == "ch":
        return replace(place, which="next", noun=to, nth=0)
    return replace(place, noun=noun, until=until)


def side_by_side(ops: tuple[Op, ...], below: Row) -> tuple[Op, ...] | None:
    """ "Sc in each dc, dc in each sc": work into each of one kind and then of another, as they come in turn; None where
    no clauses stand so side by side, or the row below has not all that they name. "BPdc around each FPdc, dc in each
    st" goes into each other stitch."""
    out: list[Op] = []
    there = below.kinds_made
    for op in ops:
        before = out[-1] if out else None
        both = _each_of_kind(op, (*there, "st")) and _each_of_kind(before, there)
        if both and isinstance(op, Make) and isinstance(before, Make):
            named = {before.places[0].noun.name, *(b.places[0].noun.name for b in before.beside)}
            name = op.places[0].noun.name
            if name not in named:
                out[-1] = replace(before, beside=(*before.beside, op))
                continue
        out.append(op)
    return tuple(out) if len(out) < len(ops) else None


def _each_of_kind(op: Op | None, kinds: Iterable[str]) -> bool:
    """Whether a clause goes into all stitches of a kind that it names, which is one of these."""
    if not isinstance(op, Make) or len(op.places) != 1:
        return False
    place, name = op.places[0], op.places[0].noun.name
    plain = place == Place("each", place.noun, hold=place.hold)
    return plain and any(kind == name or is_called(kind, name) for kind in kinds)


def without_turning_chain(ops: tuple[Op, ...]) -> tuple[Op, ...] | None:
    """The ops of a row told by one whose last stitch goes into the turning chain, over a row that has none: that goes
    into the next stitch there, or is left out behind work into all of them. None where no stitch goes into one."""
    out: list[Op] = []
    for op in ops:
        ending = without_turning_chain(op.ending) if isinstance(op, Star) else None
        if ending is not None and isinstance(op, Star):
            op = replace(op, ending=ending)
        if isinstance(op, Make) and len(op.places) == 1 and _in_turning_chain(op.places[0]):
            before = out[-1] if out else None
            if isinstance(before, Make) and any(p.which == "each" and not p.until for p in before.places):
                continue
            op = replace(op, places=(Place("next"),))
        out.append(op)
    return tuple(out) if tuple(out) != ops else None


def _in_turning_chain(place: Place) -> bool:
    of = place.of if place.which in ("top", "nth") and place.of is not None else place
    return of.which == "beg"


def in_corner_spaces(ops: tuple[Op, ...], corners: Sequence[Sequence[Slot]]) -> tuple[Op, ...] | None:
    """The ops with the corners they name taken for the spaces in them, where each corner of the row below is a group
    with a chain between its stitches: work goes on behind the space. None where they are none, or none is named."""
    open_ = [[slot.stitch.role == "chain" for slot in corner] for corner in corners]
    if not open_ or any(not any(c) or c[0] or c[-1] for c in open_):
        return None
    meant = tuple(_in_space(op) for op in ops)
    return meant if meant != ops else None


def _in_space(op: Op) -> Op:
    if isinstance(op, Star):
        upto = _CORNER_SPACE if op.upto is not None and op.upto.name == "corner" else op.upto
        return replace(op, ops=tuple(map(_in_space, op.ops)), ending=tuple(map(_in_space, op.ending)), upto=upto)
    if isinstance(op, Times):
        return replace(op, ops=tuple(map(_in_space, op.ops)))
    if isinstance(op, Act) and op.name == "along" and op.place is not None:
        return replace(op, place=_called(op.place, "corner", _CORNER_SPACE))
    if isinstance(op, Make | Into | Skip):
        there = (p if p.of is not None else _called(p, "corner", _CORNER_SPACE) for p in op.places)
        return replace(op, places=tuple(there))
    return op


_CORNER_SPACE = Noun("corner sp")


def in_beginning_chain(ops: tuple[Op, ...]) -> tuple[Op, ...] | None:
    """The ops of a row that ends "dc in 3rd ch", with that of the chain the row below begins with; None where it does
    not end so."""
    at = next((n for n in range(len(ops) - 1, 0, -1) if not isinstance(ops[n], Act)), 0)
    last = ops[at] if at else None
    if not isinstance(last, Make) or last.count != 1 or len(last.places) != 1:
        return None
    place = last.places[0]
    if place != Place("next", Noun("ch"), nth=place.nth) or place.nth < 2:
        return None
    there = Place("nth", Noun("ch"), nth=place.nth, of=Place("beg"))
    return (*ops[:at], replace(last, places=(there,)), *ops[at + 1 :])
