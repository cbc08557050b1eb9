"""Trying the readings of a row until one comes out even and gives the stated count."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import takewhile

from ...made_late import replace
from ...pattern.tree import Act, Again, Chain, Into, Make, Noun, Op, Skip, Star, Times, walk
from ..cloth.fabric import Row
from ..cloth.faults import Steps, Stuck
from ..cloth.ground import Ground, slots_of
from ..cloth.site import Choice, Site
from ..cloth.stated import differs
from ..hands import moves, row_end
from ..hands.player import Player
from . import misnamed, numbers_meant, readings, round_closed, unsaid
from .working import Task, Tried, Working

_BELOW = {"chain": "the foundation chain", "ring": "the ring", "magic ring": "the ring"}


#: What stands for a row that could not be read.
UNREAD = Stuck("the row could not be read", "mend its words", kind="unread")


def best(w: Working, task: Task, others: tuple[tuple[Op, ...], ...] = ()) -> Tried:
    """The first reading without a fault, in the order of usual practice; else the one with the fewest. `others` are
    further ways to read the row's words. A row worked before on the same ground is not worked again."""
    meant = misnamed.between_petals(task.ops, [row.row for row in w.rows[-misnamed.DEEPEST :]])
    meant = numbers_meant.from_hook(meant) if _on_a_chain(w) else meant
    meant = misnamed.last_of_row(misnamed.holes_between(meant, w.base()), w.base()) if w.rows else meant
    task = task if meant is task.ops else replace(task, ops=w.canonical.setdefault(meant, meant))
    found = _in_corner_spaces(w, task) or _past_turning(w, task, _best(w, task))
    for ops in others:
        if not found.faults:
            break
        again = _best(w, replace(task, ops=w.canonical.setdefault(ops, ops)))
        if again.faults < found.faults:
            found = replace(again, otherwise=ops)
    found = _in_turn(w, task, _first_place_again(w, task, _so_many_in_all(w, task, found)))
    found = _over_its_own_chains(w, task, _into_no_chain(w, task, found))
    found = _joined_to_its_own(w, task, _between_groups(w, task, _in_no_corner(w, task, found)))
    found = _round_posts_below(w, task, _into_left_loops(w, task, found))
    if found.stuck is not None and not w.rows:
        return _on_chain(w, task, found)
    return _by_another_name(w, task, found) if found.stuck is not None else found


def _round_posts_below(w: Working, task: Task, found: Tried) -> Tried:
    """A row that is stuck and goes round posts that only the row under the one below has, worked round those."""
    if found.stuck is None:
        return found
    meant = misnamed.posts_further_down(task.ops, [row.row for row in w.rows[-2:]])
    if meant == task.ops:
        return found
    again = _best(w, replace(task, ops=w.canonical.setdefault(meant, meant)))
    return found if again.faults else replace(again, otherwise=meant)


def _on_a_chain(w: Working) -> bool:
    """Whether a row is the first one, on a chain that is not joined."""
    return not w.rows and w.start is not None and w.start.how == "chain"


def _past_turning(w: Working, task: Task, found: Tried) -> Tried:
    """A first row that does not come out and leaves just the chains it is turned with, begun behind them."""
    if found.stuck is None or not _on_a_chain(w):
        return found
    left = found.left if isinstance(found.stuck, row_end.LeftOver) else None
    for ops in numbers_meant.past_turning(task.ops, left):
        again = _best(w, replace(task, ops=w.canonical.setdefault(ops, ops)))
        if not again.faults:
            return again
    return found


def _by_the_same_words(task: Task) -> bool:
    """Whether a row is told by the words of another: of a run, or by name."""
    return (task.text.last > task.text.first != task.number) or _says_again(task)


def _into_no_chain(w: Working, task: Task, found: Tried) -> Tried:
    """A row told by the words of another that ends in its turning chain, over a row whose chain counts for nothing."""
    off = found.faults or (w.rows and found.row.made != w.base().made)
    if not w.rows or not off or not _by_the_same_words(task) or _chain_counts(w):
        return found
    ops = misnamed.without_turning_chain(task.ops)
    again = _best(w, replace(task, ops=w.canonical.setdefault(ops, ops))) if ops else found
    return again if ops and not again.faults and again.row.made == w.base().made else found


def _chain_counts(w: Working) -> bool:
    """Whether the row below begins with a chain that counts as a stitch."""
    return w.base().turns_in_stitch


def _in_turn(w: Working, task: Task, found: Tried) -> Tried:
    """A row that is stuck behind all stitches of one kind, with those of another that it names next between them; one
    that ends in the 3rd chain, with that of the chain below."""
    if found.stuck is None or not w.rows:
        return found
    for ops in (misnamed.side_by_side(task.ops, w.base()), misnamed.in_beginning_chain(task.ops)):
        again = _best(w, replace(task, ops=w.canonical.setdefault(ops, ops))) if ops else found
        if not again.faults:
            return again
    return found


def _in_corner_spaces(w: Working, task: Task) -> Tried | None:
    """A round over one whose corners are groups round a space, worked into these spaces where it comes out so."""
    if not w.rows or not _names_corner(task.ops) or not _over_chains(w):
        return None
    ground = _ground_at(w, 1, task.direction)
    hits = ground.hits(Noun("corner")) if ground is not None else []
    corners = [ground.slots[h.start : h.end] for h in hits] if ground is not None else []
    ops = misnamed.in_corner_spaces(task.ops, corners)
    again = _best(w, replace(task, ops=w.canonical.setdefault(ops, ops))) if ops else None
    return again if again is not None and not again.faults else None


def _names_corner(ops: tuple[Op, ...]) -> bool:
    """Whether a row goes into corners by that name alone, or up to them."""
    named = any(isinstance(op, Make | Into) and any(p.noun.name == "corner" for p in op.places) for op in walk(ops))
    return named or any(isinstance(op, Star) and op.upto == Noun("corner") for op in ops)


def _says_again(task: Task) -> bool:
    """Whether a row is told by another one, whose words name the stitches that it found."""
    return any(isinstance(op, Again) and op.first and not op.swap for op in task.text.ops)


def _on_chain(w: Working, task: Task, found: Tried) -> Tried:
    """A row on the foundation chain that is stuck and names stitches there, with these taken for chains, where that
    gives the count it states. Without a count it is worked so too, and told as a misprint."""
    meant = misnamed.on_chain(task.ops)
    if meant is None:
        return found
    ops, said = meant
    again = _best(w, replace(task, ops=w.canonical.setdefault(ops, ops)))
    if again.faults:
        return found
    return replace(again, misnamed=(said, "ch")) if task.stated else replace(again, misprint=found.stuck)


def _so_many_in_all(w: Working, task: Task, found: Tried) -> Tried:
    """A row that says a large number in each stitch, read as so many in all where that is what one in each makes."""
    other = numbers_meant.one_in_each(task.ops) if found.faults or not task.stated else None
    if other is None:
        return found
    ops, said = other
    again = _best(w, replace(task, ops=w.canonical.setdefault(ops, ops)))
    return found if again.faults or not numbers_meant.comes_out(again.row, said) else replace(again, in_all=said.count)


def _first_place_again(w: Working, task: Task, found: Tried) -> Tried:
    """A row that says it adds a stitch, "dc in same st (1 st increased), dc in each st around", with its first place
    worked twice where that gives its count; and a row that has the same words."""
    ops = numbers_meant.first_again(task.ops) if found.off and found.stuck is None else None
    if ops is None or not (task.ops in w.adding or numbers_meant.said_to_add(task.text.text.lower())):
        return found
    again = _best(w, replace(task, ops=w.canonical.setdefault(ops, ops)))
    if again.faults:
        return found
    w.adding.add(task.ops)
    return replace(again, adds=True)


def _over_its_own_chains(w: Working, task: Task, found: Tried) -> Tried:
    """A row told by the words of the one below, which skip stitches that this one worked chains over, with these
    skipped where the row then makes as much as that one and would not else: "Rows 2-6: ch 1, sc in first sc, *ch 1,
    skip 1 sc, sc in next sc; rep from * across"."""
    if not _by_the_same_words(task) or task.stated or not w.rows or found.row.made == w.base().made:
        return found
    meant = misnamed.over_chains(task.ops, w.base())
    if meant is None:
        return found
    ops, said, there = meant
    again = _best(w, replace(task, ops=w.canonical.setdefault(ops, ops)))
    same = not again.faults and again.row.made == w.base().made
    return replace(again, misnamed=(said, there)) if same else found


def _into_left_loops(w: Working, task: Task, found: Tried) -> Tried:
    """A round that is stuck over one worked in single loops, into the other loops of the stitches under that."""
    ready = found.stuck is not None and len(w.rows) > 1 and task.text.is_round
    ops = misnamed.into_left_loops(task.ops, w.base(), counted=bool(task.stated)) if ready else None
    if ops is None:
        return found
    again = _best(w, replace(task, ops=w.canonical.setdefault(ops, ops)))
    return found if again.faults else replace(again, left_loops=True)


def _in_no_corner(w: Working, task: Task, found: Tried) -> Tried:
    """A round over one that hands on nothing but its count, with the corners it names taken for stitches like the
    others, where it comes out so."""
    ops = misnamed.in_no_corner(task.ops) if w.on_carried and found.faults and task.text.is_round else None
    if ops is None:
        return found
    again = _best(w, replace(task, ops=w.canonical.setdefault(ops, ops)))
    return found if again.faults or again.left else again


def _between_groups(w: Working, task: Task, found: Tried) -> Tried:
    """A round over groups side by side that goes into spaces and into corners, with the spaces between the groups,
    where it comes out so; a row too that is stuck over its spaces."""
    unsure = found.choice.in_all or found.stuck is not None
    asked = w.rows and (task.text.is_round or unsure)
    ops = misnamed.between_groups(task.ops, w.base(), stuck=unsure or bool(found.faults)) if asked else None
    if ops is None:
        return found
    again = _best(w, replace(task, ops=w.canonical.setdefault(ops, ops)))
    leaps = again.leapt and not (task.text.is_round or w.base().joined) and not task.stated
    return found if again.faults or leaps else again


def _joined_to_its_own(w: Working, task: Task, found: Tried) -> Tried:
    """A round that is stuck and is joined to a beginning chain which it has not, joined to the one that it has."""
    meant = misnamed.other_chain(task.ops) if found.stuck is not None else None
    if meant is None:
        return found
    ops, wrong = meant
    again = _best(w, replace(task, ops=w.canonical.setdefault(ops, ops)))
    return found if again.faults else replace(again, misprint=wrong)


def _by_another_name(w: Working, task: Task, found: Tried) -> Tried:
    """A row that is stuck and names a stitch that is not there, read as meaning those that are, where that gives the
    count it states; "hdc in each chain" of a run of rounds, of which only the first lies on the chain. Without a count
    it is worked so too, and told as a misprint."""
    if not w.rows:
        return found
    only = not task.stated and not _says_again(task)
    run = task.text.last > task.text.first
    meant = misnamed.meant(task.ops, w.base(), chains_only=only) if run or not only else None
    slip = meant is None and only
    meant = misnamed.meant(task.ops, w.base()) if slip else meant
    if meant is None and _says_again(task):
        meant = misnamed.over_chains(task.ops, w.base()) or misnamed.one_for_the_other(task.ops, w.base())
    if meant is None:
        return found
    ops, said, there = meant
    again = _best(w, replace(task, ops=w.canonical.setdefault(ops, ops)))
    if again.faults and _by_the_same_words(task) and not _chain_counts(w):
        ops = misnamed.without_turning_chain(ops) or ops  # "dc in top of turning chain" over a row that has none
        again = _best(w, replace(task, ops=w.canonical.setdefault(ops, ops)))
    if again.faults:
        return found
    return replace(again, misprint=found.stuck) if slip else replace(again, misnamed=(said, there))


def cut_short(w: Working, task: Task) -> Tried:
    """A row with its last repetition broken off where the row below ends."""
    w.steps = Steps()
    return _first_good(w, task, in_all=False, cut_short=True)


def faultless(w: Working, task: Task, others: tuple[tuple[Op, ...], ...]) -> Iterator[Tried]:
    """Every reading of a row without a fault, in the order of usual practice."""
    for ops in (task.ops, *others):
        way = replace(task, ops=w.canonical.setdefault(ops, ops))
        w.steps = Steps()
        for choice, opening in readings.readings(w, way.text, way.ops):
            tried = _played(w, way, choice, opening)
            if not tried.faults:
                yield tried
        if not way.text.is_round and _slips_on(way.ops):
            tried = _first_good(w, way, in_all=False, moved_on=True)
            if not tried.faults:
                yield tried


def _best(w: Working, task: Task) -> Tried:
    known = _state(w, task)
    if known in w.cache:
        return w.cache[known]
    over = round_closed.over_its_closing(task.ops, w.base()) if w.rows and task.text.is_round else None
    if over is not None and not (again := _best(w, replace(task, ops=w.canonical.setdefault(over, over)))).faults:
        return again
    w.steps = Steps()
    may_be_in_all = any(isinstance(op, Star) and not op.said_more for op in walk(task.ops))
    habit = may_be_in_all and not task.stated and (w.rep_in_all == {True} or as_many_as_sides(w, task))
    found = _first_good(w, task, in_all=habit)
    if found.faults and may_be_in_all:
        other = _first_good(w, task, in_all=not habit)
        found = other if not other.faults else found
    if found.faults and task.stated and (_may_be_cut_short(task) or (_begun_by_chain(task) and _over_chains(w))):
        other = _first_good(w, task, in_all=False, cut_short=True)
        found = other if not other.faults and other.row.made != w.base().made else found
    if found.faults and any(isinstance(op, Act) and op.name == "ends in" for op in task.ops):
        other = _first_good(w, task, in_all=False, cut_short=True)
        found = found if other.faults else other
    found = _on_past_its_start(w, task, found)
    open_end = not found.faults and not task.stated and _over_chains(w)
    if open_end and (_may_be_cut_short(task) or _begun_by_chain(task) or _slips_to_its_start(task)):
        other = _first_good(w, task, in_all=False, cut_short=True)
        further = _goes_further(other.row, found.row, w.base()) or other.left < found.left - 1
        further = further or (_as_loop_alone(w, task, found) and other.choice.chain != found.choice.chain)
        found = other if not other.faults and further else found
    if open_end and not found.choice.wrap and _goes_between_groups(task):
        other = _first_good(w, task, in_all=False, wrapped=True)
        found = other if not other.faults and other.row.made > found.row.made else found
    if found.faults:
        found = _by_the_part(w, task, found)
    if found.faults and w.rows:
        found = _skips_its_own(w, task, found)
    if found.faults and w.rows and readings.base_has_chains(w):
        other = _first_good(w, task, in_all=False, runs=True)
        found = other if not other.faults else found
    if w.rows and task.text.is_round and not task.stated:
        found = _broken_off(w, task, found)
    doubled = not found.faults and round_closed.comes_round_to_its_first(found.row)
    if w.rows and task.text.is_round and (found.faults or found.left or doubled or round_closed.by_chains(task.ops)):
        found = _closed_by_its_first(w, task, found)
    elif w.rows and task.text.is_round and not task.stated and not round_closed.alike_in_spaces(found.row):
        found = _closed_by_its_first(w, task, found, alike=True)
    elif w.rows and task.text.is_round and found.choice.chain == () and not task.stated:
        found = _closed_by_its_chain(w, task, found)
    if task.text.is_round and found.stuck is not None and found.stuck.kind != "limit":
        found = _skipped_to_its_end(w, task, found)
    if task.text.is_round and found.stuck is not None and found.left > 0:
        found = _passed_to_its_end(w, task, found)
    if found.faults and found.stuck is None and task.stated and _slips_on(task.ops):
        other = _first_good(w, task, in_all=False, moved_on=True)
        found = other if not other.faults else found
    if not found.faults and not task.text.is_round and _slips_on(task.ops):
        found = _bound_off(w, task, found)
    if not any(_depends_on_place(op) or _goes_deep(w, op) for op in walk(task.ops)):
        w.cache[known] = found
    return found


def _on_past_its_start(w: Working, task: Task, found: Tried) -> Tried:
    """A round that slips to where it begins and comes out though it leaves spaces below, gone on over what it slipped
    past where it then works all of them."""
    slips = task.text.is_round and not task.stated and _over_chains(w) and readings.travels(task.ops)
    if not slips or found.faults or found.choice.wrap or works_all_spaces(found.row, w.base()):
        return found
    if not _spaces_worked(found.row, w.base()):
        return found
    for choice, opening in readings.readings(w, task.text, task.ops):
        again = _played(w, task, choice, opening) if choice.wrap else found
        if not again.faults and works_all_spaces(again.row, w.base()):
            return again
    return found


def _is_slip(op: Op) -> bool:
    return isinstance(op, Make) and op.stitch == "sl st"


def _leaves_as_many(ops: tuple[Op, ...]) -> bool:
    """Whether a row stops as many stitches before its end as it has slipped over."""
    work = [op for op in ops if not isinstance(op, Act | Chain)]
    slips = [op for op in takewhile(_is_slip, work) if isinstance(op, Make)]
    last = work[-1] if len(work) > len(slips) else None
    until = last.places[-1].until if isinstance(last, Make) and last.places else None
    slipped = sum(place.count for op in slips for place in op.places)
    return until is not None and until[0] == slipped > 1


def _bound_off(w: Working, task: Task, found: Tried) -> Tried:
    """A row that slips over its first stitches, "ch 1, sl st in first 3 sc, sc in each sc across", without these among
    what it makes, where its count names other stitches alone and that is all of them; one without a count where it
    leaves as many at its end."""
    if not task.stated:
        return _first_good(w, task, in_all=False, moved_on=True) if _leaves_as_many(task.ops) else found
    if any(part.noun.name in ("st", "sl st") or part.noun.size for part in task.stated):
        return found
    other = _first_good(w, task, in_all=False, moved_on=True)
    return other if not other.faults and other.row.made == sum(part.count for part in task.stated) else found


def _closed_by_its_first(w: Working, task: Task, found: Tried, *, alike: bool = False) -> Tried:
    """A round that does not come out, where its last repetition ends with its own first stitch and so it does; one that
    does is to work each space `alike` so. Stitches passed before its first space may lie behind its last too."""
    closed = round_closed.without_the_last(task.ops, w.specials)
    if closed is None:
        return found
    other = _first_good(w, replace(task, ops=w.canonical.setdefault(closed, closed)), in_all=False)
    evened = round_closed.alike_in_spaces(other.row) and not round_closed.alike_in_spaces(found.row)
    arched = round_closed.by_chains(task.ops) and not found.faults  # what stands behind its last group is passed anyway
    passed = found.left if (evened or arched) and not task.stated else int(round_closed.ends_in_its_gap(found.row))
    joined = arched and other.row.made == found.row.made and other.row.chains > found.row.chains  # with the last chain
    apart = other.left > passed and not joined
    return found if other.faults or apart or (alike and not evened) else replace(other, closed=True)


def _by_the_part(w: Working, task: Task, found: Tried) -> Tried:
    """A row that does not come out, where it does with its last repetition broken off: between two parts that say the
    same, or behind what goes along to the end."""
    begun = round_closed.begun_by_its_end(task.ops) if task.text.is_round else None
    for ops in (round_closed.by_the_part(task.ops), round_closed.full_after_each(task.ops), begun):
        other = _read_so(w, task, ops) if ops else found
        if not other.faults:
            return replace(other, parted=True)
    return found


def _skips_its_own(w: Working, task: Task, found: Tried) -> Tried:
    """A row that does not come out and skips a stitch behind its beginning chain, where it makes what it states if that
    is the stitch the chain stands on; and a row that has the same words. Without a count a stitch too many below would
    pass for it."""
    ops = round_closed.skipped_under_chain(task.ops) if task.stated or task.ops in w.under_chain else ()
    other = _read_so(w, task, ops) if ops else found
    if other.faults:
        return found
    w.under_chain.add(task.ops)
    return replace(other, under_chain=True)


def _read_so(w: Working, task: Task, ops: tuple[Op, ...]) -> Tried:
    return _first_good(w, replace(task, ops=w.canonical.setdefault(ops, ops)), in_all=False)


def _closed_by_its_chain(w: Working, task: Task, found: Tried) -> Tried:
    """A round whose beginning chain would count for nothing, and whose last stitch would go where that chain stands:
    the chain is that stitch ("ch 3, *4 dc in next sp, dc in next dc, ch 3, dc in next dc; rep from * around")."""
    usual = readings.chain_choices(w, task.ops)
    closed = round_closed.without_the_last(task.ops, w.specials) if usual[0] not in ((), ("ch",)) else None
    if closed is None:
        return found
    other = _first_good(w, replace(task, ops=w.canonical.setdefault(closed, closed)), in_all=False)
    same = not (other.faults or other.left) and other.choice.chain == usual[0] and other.row.made == found.row.made
    return replace(other, closed=True) if same else found


def _skipped_to_its_end(w: Working, task: Task, found: Tried) -> Tried:
    """A round that leaves over what its repeats pass over first, with that passed over before it is closed."""
    skipped = round_closed.with_last_skip(task.ops)
    if skipped is None:
        return found
    other = _first_good(w, replace(task, ops=w.canonical.setdefault(skipped, skipped)), in_all=False)
    return found if other.faults else replace(other, skip_unsaid=True)


def _passed_to_its_end(w: Working, task: Task, found: Tried) -> Tried:
    """A spiral round whose repetitions go from a group to the next space, past the group's last stitches: the last one
    leaves as many before the space that the next round begins in."""
    passed = round_closed.with_the_rest_passed(task.ops, found.left)
    if passed is None:
        return found
    other = _first_good(w, replace(task, ops=w.canonical.setdefault(passed, passed)), in_all=False)
    return found if other.faults or other.left else replace(other, skip_unsaid=True)


def _broken_off(w: Working, task: Task, found: Tried) -> Tried:
    """A round whose repeat is said to end with chains that stand in its midst, broken off behind them the last time,
    where more of the spaces below are worked so."""
    other = round_closed.broken_off(task.ops)
    if other is None:
        return found
    again = _first_good(w, replace(task, ops=w.canonical.setdefault(other, other)), in_all=False)
    further = not again.faults and (found.faults or _goes_further(again.row, found.row, w.base()))
    return again if further else found


def _may_be_cut_short(task: Task) -> bool:
    """Whether a round works some stitches, repeats as often as there is room, and states what it makes: its beginning
    may then stand for the end of a last repetition. Not where it makes as many as it takes, which no repetition would
    change. Without a count only where more of the spaces below are worked so."""
    star = next((n for n, op in enumerate(task.ops) if isinstance(op, Star) and op.more is None), 0)
    begun = any(isinstance(op, Make | Into) for op in task.ops[:star])
    return task.text.is_round and begun and star > 0


def ending_short(w: Working, task: Task) -> Tried | None:
    """A round that does not come out even and states no count, with its last repetition only as far as the round goes;
    None where it does not come out so either, or makes as many as it takes."""
    if not w.rows or task.stated or not _may_be_cut_short(task):
        return None
    found = _first_good(w, task, in_all=False, cut_short=True)
    return found if not found.faults and found.row.made != w.base().made else None


def _as_loop_alone(w: Working, task: Task, found: Tried) -> bool:
    """Whether a round comes out only with the chain that lifts its first group taken for a loop: "ch 3, in loop just
    made work dc, ch 2 and 2 dc, *..., 2 dc, ch 2 and 2 dc in next loop; rep from * around" ends at that group."""
    work = [op for op in task.ops if not isinstance(op, Act)][:2]
    lifts = len(work) == 2 and isinstance(work[0], Chain) and isinstance(work[1], Into) and not work[0].counts
    return lifts and found.choice.chain == ("ch",) != readings.chain_choices(w, task.ops)[0]


def _goes_between_groups(task: Task) -> bool:
    """Whether a round slips on and repeats as often as it goes what also goes between two groups: the last time between
    the last and the first of them."""
    star = next((op for op in task.ops if isinstance(op, Star)), None)
    if star is None or (star.more, star.until) != (None, None) or not readings.travels(task.ops):
        return False
    made = [op for op in walk(star.ops) if isinstance(op, Make | Into)] if task.text.is_round else []
    return any(place.noun.name == "gap" or place.which == "between" for op in made for place in op.places)


def _begun_by_chain(task: Task) -> bool:
    """Whether a round begins with a chain that may be its first stitch, behind which a repeat of several things goes as
    far as there is room: "ch 3, *2 dc in next sp, dc in next dc; rep from * around"."""
    work = [op for op in task.ops if not isinstance(op, Act)][:2]
    if not task.text.is_round or len(work) < 2 or not isinstance(work[0], Chain) or not isinstance(work[1], Star):
        return False
    star = work[1]
    return work[0].count > 1 and work[0].counts != () and star.more is None and star.until is None and len(star.ops) > 1


def _over_chains(w: Working) -> bool:
    return bool(w.rows) and readings.base_has_chains(w)


def _slips_to_its_start(task: Task) -> bool:
    """Whether a round repeats from its beginning on what ends with a slip stitch: the last of them closes the round."""
    star = next((op for op in task.ops if not isinstance(op, Act)), None)
    last = star.ops[-1] if isinstance(star, Star) and star.more is None and star.until is None else None
    return task.text.is_round and isinstance(last, Make) and last.stitch == "sl st"


def _goes_further(row: Row, other: Row, base: Row) -> bool:
    """Whether a row works into more of the spaces below, or of their chains, than another reading of it, which leaves
    some."""
    return len(_spaces_worked(row, base)) > len(_spaces_worked(other, base))


def _spaces_worked(row: Row, base: Row) -> set[int]:
    feet = (f for s in row.stitches for f in s.feet if f.back == 1)
    return {f.at for f in feet if f.hold == "space" or base.stitches[f.at].kind == "ch"}


def works_all_spaces(row: Row, base: Row) -> bool:
    """Whether a row goes into every space of the row below, and there are some."""
    spaces = {n for n, s in enumerate(base.stitches) if s.role == "chain"}
    return bool(spaces) and spaces <= _spaces_worked(row, base)


def _slips_on(ops: tuple[Op, ...]) -> bool:
    """Whether a row begins with a chain and slip stitches behind it: "ch 1, sl st in first 4 sts, ..."."""
    work = [op for op in ops if not isinstance(op, Act)][:2]
    return len(work) == 2 and isinstance(work[0], Chain) and isinstance(work[1], Make) and work[1].stitch == "sl st"


def _first_good(
    w: Working, task: Task, *, in_all: bool, cut_short: bool = False, moved_on: bool = False, runs: bool = False,
    wrapped: bool = False,
) -> Tried:  # fmt: skip
    """The first faultless reading, else the one with the fewest faults; `wrapped`: of those only in which what slip
    stitches pass over at its beginning comes again at its end."""
    least: Tried | None = None
    usual: Tried | None = None
    for choice, opening in readings.readings(w, task.text, task.ops):
        if wrapped and not choice.wrap:
            continue
        meant = replace(choice, in_all=in_all, cut_short=cut_short, moved_on=moved_on, runs=runs)
        tried = _played(w, task, meant, opening)
        usual = usual or tried
        if least is None or tried.faults < least.faults:
            least = tried
        if not tried.faults or (tried.stuck is not None and tried.stuck.kind == "limit"):
            break
    assert least is not None and usual is not None
    return replace(least, usual=usual) if _told_by_count_alone(usual, least) else least


def _told_by_count_alone(usual: Tried, found: Tried) -> bool:
    """Whether nothing but its count speaks for reading the chain that a row begins with in another way than usual."""
    other = (usual.opening, usual.choice.chain) != (found.opening, found.choice.chain)
    return other and usual.stuck is None and bool(usual.off) and usual.left in (0, found.left) and not found.faults


def _depends_on_place(op: Op) -> bool:
    """Whether what an op does depends on where in the fabric the row lies."""
    on_edge = isinstance(op, Make) and any(place.which == "edge" for place in op.places)
    return on_edge or (isinstance(op, Act) and op.name == "edge") or readings.names_row(op)


def _goes_deep(w: Working, op: Op) -> bool:
    """Whether a clause may go into rows under the two just worked."""
    special = w.specials.get(op.stitch) if isinstance(op, Make) else None
    spiked = special is not None and any(back > 2 for _, back in special.spikes)
    return spiked or (isinstance(op, Make | Into) and any(q.which in ("unworked", "skipped") for q in op.places))


def as_many_as_sides(w: Working, task: Task) -> bool:
    """Whether each repeat that may be told in all comes as often as the shape has sides, and no count has proved that
    more are meant: "*sc, ch 3*, repeat 6 times" on a hexagon (common practice, no source)."""
    told = [op.more for op in walk(task.ops) if isinstance(op, Star) and not op.said_more and op.more]
    return False not in w.rep_in_all and bool(told) and set(told) == {w.pattern.sides}


def _state(w: Working, task: Task) -> tuple[object, ...]:
    """All that working a row depends on, for rows that name no other row."""
    base = w.base()
    before = w.directions[-1] if w.directions else 1
    reach = w.rows[-2].row if len(w.rows) > 1 and w.specials else None
    return (
        id(task.ops), id(base), id(reach), task.direction * before, task.text.is_round, bool(w.rows), task.stated,
        len(w.throughout), len(w.settled) + len(w.skipped_as), sum(map(len, w.explained.values())),
        w.rep_in_all == {True},
    )  # fmt: skip


def _played(w: Working, task: Task, choice: Choice, opening: tuple[str, ...] | None) -> Tried:
    player = Player(_site(w, task, opening), choice)
    stuck: Stuck | None = None
    try:
        player.run(task.ops)
        moves.check_edges(player)
        row_end.check_end(player)
    except row_end.LeftOver as fault:
        stuck = None if _said_so(w, task, player) else fault
    except Stuck as fault:
        stuck = fault
    w.made += len(player.out)
    row = shared(w, player.row(finished=stuck is None))
    got = ((i, differs(part, row, player.named, w.aliases, task.stated)) for i, part in enumerate(task.stated))
    off = tuple((i, n) for i, n in got if n is not None)
    left = 0 if row_end.only_ring(player) else row_end.left_over(player)
    return Tried(
        row, tuple(player.named), stuck, choice, off, player.replaced,
        left=left, leapt=player.leapt, joined_low=player.joined_low, misprint=player.amiss, opening=opening,
    )  # fmt: skip


def _hangs_a_loop(ops: tuple[Op, ...]) -> bool:
    """Whether a row is a chain fastened down again and cut there: "hanging loop: ch 12, sk next sc, sl st in next sc,
    fasten off"."""
    work = [op for op in ops if not isinstance(op, Act | Skip)]
    if len(work) != 2 or not isinstance(work[0], Chain) or not isinstance(work[1], Make) or work[1].stitch != "sl st":
        return False
    return any(isinstance(op, Act) and op.name == "fasten off" for op in ops)


#: Of so many stitches of a round one is left at least where a flap is begun without a word of it: fewer are a mistake.
LEAST_LEFT = 4


def _said_so(w: Working, task: Task, player: Player) -> bool:
    """Whether stitches left at a row's end are left on purpose: the row goes to no end, and its count says what it
    makes, or it says nothing but "in first 12 sts, turn"."""
    if _hangs_a_loop(task.ops):
        return True
    left = row_end.left_over(player)
    apart = bool(w.rows) and w.rows[-1].row.joined and left * LEAST_LEFT >= w.base().made
    if task.text.is_round or not (task.stated or _turns_after_first(task.ops, on_round=apart)):
        return False
    if any(isinstance(op, Star | Times) or _to_the_end(op) for op in walk(task.ops)):
        return False
    row = player.row(finished=False)
    return all(differs(part, row, player.named, w.aliases, task.stated) is None for part in task.stated)


def _turns_after_first(ops: tuple[Op, ...], *, on_round: bool) -> bool:
    """ "Ch 1, sc in each of first 12 sts, turn": a short row, which leaves the others; `on_round`: on a round also "in
    next 12 sts, turn", as a flap is begun."""
    made = [(at, op) for at, op in enumerate(ops) if not isinstance(op, Act | Chain)]
    if len(made) != 1:
        return False
    at, op = made[0]
    which = ("first", "next") if on_round else ("first",)
    first = isinstance(op, Make) and len(op.places) == 1 and op.places[0].which in which and op.places[0].count > 1
    return first and any(isinstance(o, Act) and o.name == "turn" for o in ops[at + 1 :])


def _to_the_end(op: Op) -> bool:
    return isinstance(op, Make | Into) and any(p.which in ("each", "last") for p in op.places)


def shared(w: Working, row: Row) -> Row:
    """The one object for all rows worked alike."""
    return w.alike.setdefault((row.stitches, row.takes, row.joined, row.repeat, row.groups), row)


def _site(w: Working, task: Task, opening: tuple[str, ...] | None) -> Site:
    made: dict[int, Ground] = {}

    def ground(back: int) -> Ground | None:
        if back not in made:
            found = _ground_at(w, back, task.direction)
            if found is None:
                return None
            made[back] = found
        return made[back]

    how = w.start.how if w.start else ""
    return Site(
        ground=ground, below=w.rows[-1].label if w.rows else _BELOW.get(how, "the stitches given"),
        specials=w.specials, is_round=task.text.is_round, opening=opening, loops=w.pattern.loops,
        throughout=w.throughout, number=task.number or _as_if_numbered(w),
        on_foundation=not w.rows and how in ("chain", "ring"), two_sided=not w.rows and how == "chain",
        rows_below=len(w.rows), along=unsaid.is_along(w, task),
        edged=bool(w.texts) and w.texts[-1].along, at_will=any(t.at_will for t in w.texts),
        counted=bool(task.stated), spiral="ring" in how and w.pattern.spiral,
        steps=w.steps, terms=w.pattern.terms,
    )  # fmt: skip


def _as_if_numbered(w: Working) -> int:
    """The number that a row without one would have behind the last numbered one, by which it names those below; 0 where
    none is numbered."""
    numbered = next((n for n in range(len(w.rows) - 1, -1, -1) if w.rows[n].number), None)
    return w.rows[numbered].number + len(w.rows) - numbered if numbered is not None else 0


def _ground_at(w: Working, back: int, direction: int) -> Ground | None:
    """The row `back` rows below, in the order in which this row meets it."""
    at = len(w.rows) - back
    if at < -1:
        return None
    row = w.rows[at].row if at >= 0 else w.foundation
    way = w.directions[at] if at >= 0 else 1
    rings = at < 0 and w.start is not None and w.start.how == "ring"
    ground = Ground(row, slots_of(row, backwards=way != direction and not rings), shapes=w.shapes)
    return _from_its_join(ground) if way != direction and at >= 0 and row.joined else ground


def _from_its_join(ground: Ground) -> Ground:
    """A round met the other way about, from the stitch that it was joined to: that comes before the chain that led up
    to it."""
    led = bool(ground.slots) and ground.slots[0].stitch.role == "chain" and ground.slots[-1].stitch.role != "chain"
    return ground.turned_to(len(ground.slots) - 1) if led else ground
