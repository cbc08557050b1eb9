"""The kinds of fitted piece, read from kinds.toml: parts, folds and what the border joins."""

from __future__ import annotations

import functools
from typing import Any

from ..errors import PatternError, Problem
from ..made_late import dataclass, replace
from ..model.sizing.plan import Plan
from ..pattern.file.kinds import entries


@dataclass(frozen=True, slots=True)
class PartRule:
    """Which sections make a part, and the measure that settles it where no section does.

    A part with `unless` is not there where the object has no such measure and the pattern no section for it.
    """

    role: str
    take: str
    measure: str
    unless: str = ""


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
    """A kind of piece; `joined` is after how many folds the border joins the layers, `open` the edges of the mouth."""

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
    open: tuple[str, ...] = ()


@functools.cache
def kinds() -> dict[str, Kind]:
    """Every kind, by name.

    >>> kinds()["pouch"].joined
    1
    """
    return {name: _kind(name, entry) for name, entry in entries().items()}


def kind_of(name: str) -> Kind:
    """The kind by name; PatternError names the known ones."""
    known = kinds()
    if name not in known:
        says, remedy = f'"{name}" is not a kind of piece', f"write one of: {', '.join(known)}"
        raise PatternError([Problem("fold", "Folding", says, remedy)])
    return known[name]


def kind_for(plan: Plan) -> Kind:
    """The plan's kind, without the parts that this piece does not have (a pouch without a flap)."""
    kind = kind_of(plan.kind)
    gone = {
        p.role
        for p in kind.parts
        if p.unless and plan.object_mm.get(p.unless, 0.0) <= 0 and len(plan.sections) < len(kind.parts)
    }
    if not gone:
        return kind
    parts = tuple(p for p in kind.parts if p.role not in gone)
    loose = replace(parts[-1], measure="rest")
    folds = tuple(f for f in kind.folds if not gone & {*f.at})
    covers = tuple(c for c in kind.covers if c.part not in gone)
    return replace(
        kind, parts=(*parts[:-1], loose), folds=folds, covers=covers, joined=min(kind.joined, len(folds))
    )


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
        open=tuple(entry.get("open", ())),
        beyond=tuple((b["part"], b["past"]) for b in entry.get("beyond", ())),
    )
