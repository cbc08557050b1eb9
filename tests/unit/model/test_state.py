"""What a try may change is all that a player has, but for what is named as constant."""

from __future__ import annotations

import types
import typing
from collections.abc import Mapping
from dataclasses import fields, is_dataclass

import pytest
from hookfold.charts.model.cloth import state
from hookfold.charts.model.cloth.faults import Stuck
from hookfold.charts.model.cloth.ground import Ground
from hookfold.charts.model.cloth.state import CHANGING, CONSTANT, GROWING, Gained, Grown, State
from hookfold.charts.model.hands.player import Player
from hookfold.charts.model.rows.work import work_text
from hookfold.charts.pattern.tree import Op

NAMES = {f.name for f in fields(State)}
HINTS = typing.get_type_hints(State, vars(state))
#: Types whose values stay as they are.
PLAIN = (int, str, bool, type(None), Ellipsis, Stuck)  # a Stuck is raised, never changed


def unchanging(hint):
    """Whether values of a type are never changed in place. A ground only remembers what was looked up on it."""
    if typing.get_origin(hint) is typing.Literal:
        return True
    if typing.get_origin(hint) in (typing.Union, types.UnionType, tuple, Mapping):
        return all(unchanging(part) for part in typing.get_args(hint))
    return hint in PLAIN or hint is Ground or (is_dataclass(hint) and hint.__dataclass_params__.frozen)


def test_every_field_is_taken_back_or_named_as_constant():
    assert set(CHANGING) | set(CONSTANT) == NAMES
    assert not set(CHANGING) & set(CONSTANT) and set(GROWING) <= set(CHANGING)


@pytest.mark.parametrize("name", sorted(NAMES))
def test_a_field_holds_what_stays_as_it_is_or_only_grows(name):
    grows = typing.get_origin(HINTS[name]) in (Grown, Gained)
    assert grows == (name in GROWING) and (grows or unchanging(HINTS[name]))


def test_a_player_has_no_fields_of_its_own(monkeypatch):
    players = []
    usual = Player.run
    monkeypatch.setattr(Player, "run", lambda p, ops: (players.append((p, p.choice)), usual(p, ops)))
    assert not work_text("Terms: US\nOver 4 sc.\nRow 1: *Sc in next 2 sts; rep from * across.").problems
    for player, choice in players:
        assert player.choice is choice and not hasattr(player, "__dict__")
        with pytest.raises(AttributeError):
            player.remembered = True
    assert players


@pytest.mark.parametrize(
    "change",
    [
        lambda held: held.__setitem__(0, 9), lambda held: held.__delitem__(0), lambda held: held.pop(),
        lambda held: held.clear(), lambda held: held.insert(0, 9), lambda held: held.remove(1),
        lambda held: held.sort(), lambda held: held.reverse(),
    ],
)  # fmt: skip
def test_what_only_grows_is_changed_in_no_other_way(change):
    held = Grown([1, 2])
    held.append(3)
    held += [4]
    with pytest.raises(TypeError):
        change(held)
    held.cut(3)
    assert held == [1, 2, 3]


def test_what_only_gains_loses_the_last_gained_first():
    held = Gained()
    for key in (5, 3, 5, 4):
        held.setdefault(key)
    with pytest.raises(TypeError):
        held[6] = None
    held.cut(2)
    assert list(held) == [5, 3]


def test_clauses_are_never_changed_in_place():
    assert all(kind.__dataclass_params__.frozen for kind in typing.get_args(Op))
