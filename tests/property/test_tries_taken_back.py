"""A row is tried in many ways: whatever a try did is gone when it is taken back, and the row goes on as if untried."""

from __future__ import annotations

from contextlib import contextmanager
from dataclasses import fields, replace
from functools import cache
from itertools import count

from conftest import some
from hookfold.charts.model.cloth.faults import Steps, Stuck
from hookfold.charts.model.cloth.ground import Ground
from hookfold.charts.model.cloth.state import State
from hookfold.charts.model.hands import deep, row_end
from hookfold.charts.model.hands.player import Player
from hookfold.charts.model.rows.work import work_text
from hypothesis import given, settings
from hypothesis import strategies as st
from notation_cases import table

TEXTS = [entry["text"].lstrip("\n") for key in ("pattern", "fault", "below") for entry in table(key)]
#: Words that leave much behind where they end a row that they do not fit.
ENDINGS = (
    "sc in next st, ch 4, sc in 2nd ch from hook, sc in last sc",
    "sk next 2 sts, dc in first skipped st, ch 1, leave rem sts unworked",
    "3 dc in next st, ch 3, sk next 3 sts, sc in last st",
    "[dc, ch 2, dc] in next st, dc in next st 2 rows below",
    "sc2tog over next 2 sts, sl st in first st",
    "working in opposite side, sc in each st to last 2 sts",
)


def held(state):
    """Every field as it is now; what is added to in place is copied."""
    now = {f.name: getattr(state, f.name) for f in fields(State)}
    return {name: type(v)(v) if isinstance(v, list | dict) else v for name, v in now.items()}


def changed(before, after):
    """The fields that differ. A ground only remembers what was looked up on it: it is the same or another."""
    return [
        name
        for name, value in before.items()
        if (value is not after[name] if isinstance(value, Ground) else value != after[name])
    ]


def outcome(player, ops, *, top):
    """What playing some clauses comes to."""
    try:
        player.sequence(ops, 0, top=top)
        row_end.check_end(player)
    except Stuck as stuck:
        return stuck.says, held(player)
    return "", held(player)


@contextmanager
def watched(run, share):
    """Every seventh reading of a pattern's rows, with `run` called first on the player of its own that it is given."""
    usual, number = Player.run, count(share)

    def both(player, ops):
        if next(number) % 7 == 0:
            own = Player(replace(player.site, steps=Steps()), player.choice)
            own.near = deep.works_near(ops)
            run(own, ops)
        usual(player, ops)

    Player.run = both
    try:
        yield
    finally:
        Player.run = usual


@cache
def clauses():
    """The rows' clauses of every twelfth text of the tables, and endings that often do not fit."""
    ended = "".join(f"Row {n}: *Sc in next 2 sts; rep from * across, {e}.\n" for n, e in enumerate(ENDINGS, 1))
    return [row.ops for text in (*TEXTS[::12], f"Terms: US\nOver 12 sc.\n{ended}") for row in work_text(text).pattern.rows]


@settings(max_examples=some(40))
@given(st.sampled_from(TEXTS), st.data())
def test_what_was_tried_is_gone_and_the_row_goes_on_alike(text, data):
    tries = data.draw(st.lists(st.integers(0, len(clauses()) - 1), min_size=1, max_size=3))
    share = data.draw(st.integers(0, 6))

    def run(player, ops):
        cut = len(ops) * share // 6
        outcome(player, ops[:cut], top=False)
        mark, before = player.mark(), held(player)
        whole = outcome(player, ops[cut:], top=True)
        for tried in tries:
            player.go_back(mark)
            assert changed(before, held(player)) == []
            outcome(player, clauses()[tried], top=True)
        player.go_back(mark)
        assert changed(before, held(player)) == []
        again = outcome(player, ops[cut:], top=True)
        assert again[0] == whole[0] and not [n for n in changed(whole[1], again[1]) if not replaced(n, whole, again)]

    with watched(run, share):
        work_text(text)


def replaced(name, whole, again):
    """Whether a ground laid anew is laid alike."""
    one, other = whole[1][name], again[1][name]
    return isinstance(one, Ground) and (one.row, one.slots, one.loose) == (other.row, other.slots, other.loose)


@contextmanager
def compared():
    """Every mark that is gone back to anywhere gives the state that it was taken in."""
    mark, go_back, seen = State.mark, State.go_back, {}

    def marking(self):
        made = mark(self)
        seen[id(made)] = (made, held(self))
        return made

    def going_back(self, made):
        go_back(self, made)
        assert changed(seen[id(made)][1], held(self)) == []
        counted.append(made)

    counted = []
    State.mark, State.go_back = marking, going_back
    try:
        yield counted
    finally:
        State.mark, State.go_back = mark, go_back


@settings(max_examples=some(40))
@given(st.integers(4, 13), st.sampled_from(ENDINGS), st.sampled_from(("sc", "dc")), st.integers(1, 3), st.booleans())
def test_a_repeat_is_tried_from_where_its_repetitions_ended(width, ending, stitch, skipped, said):
    said_end = f", ending with {ending}" if said else f", {ending}"
    row = f"*{stitch} in next st, ch 1, sk next {skipped} sts; rep from * across{said_end}."
    with compared() as counted:
        work_text(f"Terms: US\nOver {width} sc.\nRow 1: Ch 1, sc in each sc, turn.\nRow 2: Ch 1, {row}\n")
    assert counted
