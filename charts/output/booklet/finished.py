"""The finished size: the piece drawn small with its measurements, and what it measures in every size."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from ...measure import show_length
from ...model.sizing.fit import between_words, fit_lines, fit_words
from ...model.sizing.plan import Plan
from ...pattern.file.kinds import OBJECT_KINDS, bare_mm
from ..piece import Piece
from ..size_words import several
from .book import Block, Chapter, Paragraphs, Points, Sides, Table
from .sized import merged

#: So many sizes stand side by side in a table; more stand below each other.
_MOST_BESIDE = 6


def finished_size(piece: Piece, sizes: Mapping[str, Piece], *, inches: bool = False) -> Chapter:
    """The chapter of the piece that is drawn, and of all its sizes by name, smallest first; with `inches` beside every
    measure."""
    blocks: list[Block] = []
    if len(sizes) > 1:
        names, drawn = list(sizes), next(name for name, one in sizes.items() if one is piece)
        blocks.append(Paragraphs((
            f"Sizes: {several(names)}. Where several numbers stand, the first is for {names[0]} and those in brackets "
            "are for the other sizes in this order; one number alone is for all.",
            f"The pictures and all drawn pages are those of size {drawn}.",
        )))  # fmt: skip
    if piece.pattern.folds:
        blocks.append(Points(fit_lines(piece.plan)))
    else:
        blocks += [_sides(list(sizes.values())), _table(sizes, inches), Paragraphs(_means(piece.plan), small=True)]
    return Chapter("Finished size", tuple(blocks))


def _sides(pieces: list[Piece]) -> Sides:
    """The smallest size with the figures of all."""
    plan = pieces[0].plan
    first, second = list(plan.between_mm)
    up, across = (second, first) if second == "height" else (first, second)

    def shown(of: Callable[[Plan], dict[str, float]], name: str) -> str:
        figures = [show_length(of(piece.plan)[name], plan.unit) for piece in pieces]
        return merged(figures) or " / ".join(figures)

    rounds = OBJECT_KINDS[plan.kind].rounds
    over_all, between = plan.over_all_mm, plan.between_mm
    return Sides(
        (over_all[across], over_all[up]), (between[across], between[up]),
        (shown(lambda one: one.over_all_mm, across), shown(lambda one: one.over_all_mm, up)),
        (shown(lambda one: one.between_mm, across), shown(lambda one: one.between_mm, up)),
        (f"{across}{'' if OBJECT_KINDS[plan.kind].crown else ', laid open'}" if rounds else across, up),
        (between_words(plan, across), between_words(plan, up)),
        _hat_mm(plan) if OBJECT_KINDS[plan.kind].crown else (),
    )  # fmt: skip


def _hat_mm(plan: Plan) -> tuple[float, ...]:
    """A hat as it lies flat: half the way round, how high its crown and its sides are drawn, its last section."""
    crown = plan.sections[0].length_mm
    brim = plan.sections[-1].length_mm if len(plan.sections) > 2 else 0.0
    return plan.finished_mm["across"] / 2, crown, sum(s.length_mm for s in plan.sections[1:]), brim


def _table(sizes: Mapping[str, Piece], inches: bool) -> Table:
    """What is measured, a line each, the sizes beside each other; of many sizes the other way about."""
    plans = [piece.plan for piece in sizes.values()]
    lines = _lines(plans, _shown_too if inches and plans[0].unit != "in" else show_length)
    if len(plans) > _MOST_BESIDE:
        cells = list(zip(*lines, strict=True))
        return Table(("size", *cells[0]), tuple((name, *row) for name, row in zip(sizes, cells[1:], strict=True)))
    return Table(("", *(sizes if len(sizes) > 1 else ("",))), tuple(lines))


def _shown_too(mm: float, unit: str) -> str:
    """A measure in its own unit and in inches, as those are shown."""
    return f"{show_length(mm, unit)} ({show_length(mm, 'in')})"


def _lines(plans: list[Plan], show: Callable[[float, str], str]) -> list[tuple[str, ...]]:
    first, unit = plans[0], plans[0].unit
    kind = OBJECT_KINDS[first.kind]
    out: list[tuple[str, ...]] = []
    for name in first.between_mm:
        inner = [show(plan.between_mm[name], unit) for plan in plans]
        outer = [show(plan.over_all_mm[name], unit) for plan in plans]
        between = between_words(first, name)
        if kind.holds:
            out.append((f"To fit, {name}", *(_thing(plan, name) for plan in plans)))
        out.append((f"{_capital(name)}, {between}", *inner))
        if inner != outer:
            out.append((f"{_capital(name)}, with the border", *outer))
        if kind.holds:
            out.append((f"Fit, {name}", *(_fit(plan, name) for plan in plans)))
    if kind.crown:
        out += _hat_lines(plans, show)
    thick = next((name for name in (kind.thick, "spine") if first.object_mm.get(name)), "")
    if thick:
        out.append(("To fit, thickness", *_of_thing(plans, thick)))
    if not kind.rounds:
        flat = [" x ".join(show(mm, unit) for mm in plan.finished_mm.values()) for plan in plans]
        out.append(("Worked flat, to block to", *flat))
    return out


def _thing(plan: Plan, name: str) -> str:
    """A measurement of the thing itself, with what its thickness adds to it."""
    bare, whole = bare_mm(plan.kind, plan.object_mm)[name], plan.object_mm[name]
    shown, added, both = (show_length(mm, plan.unit) for mm in (bare, whole - bare, whole))
    return f"{shown} + {added} of thickness = {both}" if whole > bare else shown


def _fit(plan: Plan, name: str) -> str:
    """How the piece fits along a measurement; what stretches over a thing with its thickness, to how much."""
    said, whole = fit_words(plan, name), plan.object_mm[name]
    thick = whole > bare_mm(plan.kind, plan.object_mm)[name]
    return f"{said}, to {show_length(whole, plan.unit)}" if thick and said.startswith("stretches") else said


def _hat_lines(plans: list[Plan], show: Callable[[float, str], str]) -> list[tuple[str, ...]]:
    """A hat's crown across and what stands straight below it."""
    unit = plans[0].unit
    crowns = [show(2 * plan.sections[0].length_mm, unit) for plan in plans]
    sides = [show(sum(s.length_mm for s in plan.sections[1:]), unit) for plan in plans]
    return [("Crown, across, laid flat", *crowns), ("Sides, below the crown", *sides)]


def _of_thing(plans: list[Plan], name: str) -> list[str]:
    """A measurement of the thing itself, in each size."""
    return [show_length(bare_mm(plan.kind, plan.object_mm).get(name, 0.0), plans[0].unit) for plan in plans]


def _means(plan: Plan) -> tuple[str, ...]:
    """Where each measurement is taken."""
    found = [(name, OBJECT_KINDS[plan.kind].measure(name)) for name in plan.between_mm]
    said = [f"{_capital(name)}: {rule.means}." for name, rule in found if rule is not None and rule.means]
    return (" ".join(said),) if said else ()


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
