"""The kinds of fitted piece, read from kinds.toml: parts, folds and what the border joins."""

from __future__ import annotations

import functools
import tomllib
from dataclasses import dataclass
from importlib import resources
from typing import Any

from ..errors import PatternError, Problem


@dataclass(frozen=True, slots=True)
class PartRule:
    """Which sections make a part, and the measure that settles it where no section does."""

    role: str
    take: str
    measure: str


@dataclass(frozen=True, slots=True)
class FoldRule:
    """A fold between two parts: which moves, over or under, and the sentence that says so."""

    at: tuple[str, str]
    moves: str
    direction: str
    says: str


@dataclass(frozen=True, slots=True)
class Cover:
    """A part that, folded, may be no longer than its share of the part it lies on."""

    part: str
    on: str
    share: float


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of piece; `joined` is after how many folds the border joins the layers."""

    name: str
    says: str
    parts: tuple[PartRule, ...]
    turned: str
    lies: str
    folds: tuple[FoldRule, ...]
    joined: int
    covers: tuple[Cover, ...]
    lap: tuple[str, ...] = ()
    lap_on: str = ""
    beyond: tuple[tuple[str, str], ...] = ()


@functools.cache
def kinds() -> dict[str, Kind]:
    """Every kind, by name.

    >>> sorted(kinds())
    ['book', 'book with strap', 'cushion', 'panel', 'pocket panel', 'pouch']
    """
    table = tomllib.loads((resources.files("hookfold.charts.folding") / "kinds.toml").read_text("utf-8"))
    return {name: _kind(name, entry) for name, entry in table.items()}


def kind_of(name: str) -> Kind:
    """The kind by name; PatternError names the known ones."""
    known = kinds()
    if name not in known:
        says, remedy = f'"{name}" is not a kind of piece', f"write one of: {', '.join(known)}"
        raise PatternError([Problem("fold", "Folding", says, remedy)])
    return known[name]


def _kind(name: str, entry: dict[str, Any]) -> Kind:
    lap = entry.get("lap", {})
    return Kind(
        name=name,
        says=entry["says"],
        parts=tuple(PartRule(**p) for p in entry["parts"]),
        turned=entry["turned"],
        lies=entry["lies"],
        folds=tuple(FoldRule(tuple(f["at"]), f["moves"], f["direction"], f["says"]) for f in entry["folds"]),
        joined=entry["joined"],
        covers=tuple(Cover(**c) for c in entry["covers"]),
        lap=tuple(lap.get("parts", ())),
        lap_on=lap.get("on", ""),
        beyond=tuple((b["part"], b["past"]) for b in entry.get("beyond", ())),
    )
