"""The finished size: the piece drawn small with its measurements, and what it measures in every size."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from ...measure import show_given, show_length
from ...model.sizing.fit import between_words, fit_lines, fit_says, fit_words, overlap_mm, upright
from ...model.sizing.plan import Plan
from ...pattern.file.book_sizes import named_size
from ...pattern.file.kinds import OBJECT_KINDS, bare_mm, beyond_mm, directions
from ..piece import Piece
from ..size_words import several
from .book import Block, Chapter, Paragraphs, Points, Sides, Table
from .sized import merged

#: So many sizes stand side by side in a table; more stand below each other.
_MOST_BESIDE = 6


def finished_size(piece: Piece, sizes: Mapping[str, Piece]) -> Chapter:
    """The chapter of the piece that is drawn, and of all its sizes by name, smallest first; every measure in both
    units."""
    blocks: list[Block] = []
    if len(sizes) > 1:
        names, drawn = list(sizes), next(name for name, one in sizes.items() if one is piece)
        blocks.append(Paragraphs((
            f"Sizes: {several(names)}. Where several numbers stand, the first is for {names[0]} and those in brackets "
            "are for the other sizes in this order; one number alone is for all.",
            f"The pictures and all drawn pages are those of size {drawn}.",
        )))  # fmt: skip
    elif made_for(piece):
        blocks.append(Paragraphs((f"Made for {made_for(piece)}.",)))
    if piece.pattern.folds:
        blocks.append(Points(fit_lines(piece.plan)))
    else:
        blocks += [_sides(list(sizes.values())), _table(sizes), Paragraphs(_means(piece.plan), small=True)]
        blocks += [Paragraphs(tuple(f"{_capital(said).rstrip('.')}." for said in _said(piece)), small=True)]
    return Chapter("Finished size", tuple(blocks))


def _said(piece: Piece) -> tuple[str, ...]:
    """What is said of the fit beside the figures of the table."""
    return fit_says(piece.plan, piece.pattern)[len(piece.plan.between_mm) :]


def made_for(piece: Piece) -> str:
    """What the piece is made for, with its measurements: "an A6 book, 105 x 148 mm, 12 mm thick"; "" where its kind
    says nothing of what goes in."""
    thing, object_, plan = OBJECT_KINDS[piece.plan.kind].thing, piece.pattern.object, piece.plan
    if not thing:
        return ""
    named, spine_mm = named_size(object_.size), plan.object_mm.get("spine", 0.0)
    thick = f", {show_given(spine_mm, plan.unit)} thick" if spine_mm else ""
    if named is not None:
        across, up = (show_given(mm, plan.unit) for mm in (named.width_mm, named.height_mm))
        unit = f" {plan.unit}"
        an = "an" if named.name[:1] in "AEIOU" else "a"
        return f"{an} {named.name} {thing}, {across.removesuffix(unit)} x {up}{thick}"
    high, wrap = (show_given(plan.object_mm[name], plan.unit) for name in directions(plan.kind, plan.object_mm))
    return f"a {thing} {high} high, {wrap} round from fore-edge to fore-edge{thick}"


def _sides(pieces: list[Piece]) -> Sides:
    """The smallest size with the figures of all."""
    plan = pieces[0].plan
    first, second = list(plan.between_mm)
    up, across = (second, first) if second == "height" else (first, second)

    def figures(of: Callable[[Plan], dict[str, float]], name: str) -> str:
        each = [show_length(of(piece.plan)[name], plan.unit) for piece in pieces]
        return merged(each) or " / ".join(each)

    rounds = OBJECT_KINDS[plan.kind].rounds
    over_all, between = dict(plan.over_all_mm), plan.between_mm
    past = beyond_mm(plan.kind, [section.length_mm for section in plan.sections])
    over_all[second] -= past
    crown = OBJECT_KINDS[plan.kind].crown
    return Sides(
        (over_all[across], over_all[up]), (between[across], between[up]),
        (figures(_bordered, across), figures(_bordered, up)),
        (figures(lambda one: one.between_mm, across), figures(lambda one: one.between_mm, up)),
        (f"{across}{'' if crown else ', laid open'}" if rounds else across, f"{up}, over the curve" if crown else up),
        (between_words(plan, across), between_words(plan, up)),
        _hat_mm(plan) if crown else (), (past, _reaches(pieces), _beyond_wide_mm(plan, over_all[up])),
        _hat_said(plan) if crown else (),
    )  # fmt: skip


def _hat_said(plan: Plan) -> tuple[str, ...]:
    """What the lines of a hat drawn flat stand for."""
    brim = (f"full line: where the {plan.sections[-1].name} begins",) if len(plan.sections) > 2 else ()
    return "laid flat it is half as wide as it is round", "dotted line: where the crown ends", *brim


def _bordered(plan: Plan) -> dict[str, float]:
    """The size over all, what stands out past the edge left out."""
    past = beyond_mm(plan.kind, [section.length_mm for section in plan.sections])
    *_, strip = plan.over_all_mm
    return {name: mm - (past if name == strip else 0.0) for name, mm in plan.over_all_mm.items()}


def _reaches(pieces: list[Piece]) -> str:
    """How far a part stands out past the edge in each size: "strap, 60 mm"; "" where none does."""
    plans, parts = [piece.plan for piece in pieces], OBJECT_KINDS[pieces[0].plan.kind].beyond
    if not parts or len(plans[0].sections) < 3:
        return ""
    figures = [show_length(beyond_mm(one.kind, [s.length_mm for s in one.sections]), one.unit) for one in plans]
    return f"{plans[0].sections[parts[0][0]].name}, {merged(figures) or ' / '.join(figures)} past the edge"


def _beyond_wide_mm(plan: Plan, whole_mm: float) -> float:
    """How wide the end is of what stands out past the edge, its border with it; as wide as the whole at most."""
    parts = [plan.sections[part] for part, _ in OBJECT_KINDS[plan.kind].beyond if len(plan.sections) > 2]
    stitches = max((part.counts(plan.stitches)[-1] for part in parts), default=plan.stitches)
    edges = 2 * (plan.border_row_mm or 0.0) * plan.border_rounds
    return min(stitches * plan.stitch_mm + edges, whole_mm)


def _hat_mm(plan: Plan) -> tuple[float, ...]:
    """A hat as it lies flat: half the way round, how high its crown and its sides are drawn, its last section."""
    crown = plan.sections[0].length_mm
    brim = plan.sections[-1].length_mm if len(plan.sections) > 2 else 0.0
    return plan.finished_mm["across"] / 2, crown, sum(s.length_mm for s in plan.sections[1:]), brim


def _table(sizes: Mapping[str, Piece]) -> Table:
    """What is measured, a line each, the sizes beside each other; of many sizes the other way about."""
    plans = [piece.plan for piece in sizes.values()]
    lines = _lines(plans)
    if len(plans) > _MOST_BESIDE:
        cells = list(zip(*lines, strict=True))
        return Table(("size", *cells[0]), tuple((name, *row) for name, row in zip(sizes, cells[1:], strict=True)))
    return Table(("", *(sizes if len(sizes) > 1 else ("",))), tuple(lines))


def shown(mm: float, unit: str) -> str:
    """A measure in its own unit, and in the other one: inches beside metres, centimetres beside inches."""
    return f"{show_length(mm, unit)} ({show_length(mm, 'cm' if unit == 'in' else 'in')})"


def _lines(plans: list[Plan]) -> list[tuple[str, ...]]:
    first, unit = plans[0], plans[0].unit
    kind = OBJECT_KINDS[first.kind]
    out: list[tuple[str, ...]] = []
    for name in first.between_mm:
        inner = [shown(plan.between_mm[name], unit) for plan in plans]
        outer = [shown(_bordered(plan)[name], unit) for plan in plans]
        between = between_words(first, name)
        held = kind.holds and not upright(first, name)
        if held:
            out.append((f"To fit, {name}", *(_thing(plan, name) for plan in plans)))
        out.append((f"{_capital(name)}, {between}", *inner))
        if inner != outer:
            out.append((f"{_capital(name)}, with the border", *outer))
        if held:
            out.append((f"Fit, {name}", *(_fit(plan, name) for plan in plans)))
    if kind.crown:
        out += _hat_lines(plans)
    if kind.handles and all(plan.object_mm.get(kind.handles.measure) for plan in plans):
        out.append(("Handles, from seam to seam", *_of_thing(plans, kind.handles.measure)))
    laps = [overlap_mm(plan) for plan in plans]
    if all(mm > 0 for mm in laps):
        out.append(("Overlap of the two parts", *(shown(mm, unit) for mm in laps)))
    for k in (k for k, section in enumerate(first.sections) if section.stitches and len(set(section.widths)) < 2):
        out += _narrow_lines(plans, k)
    for part, _ in kind.beyond if len(first.sections) > 2 else ():
        called = _capital(first.sections[part].name)
        out.append((f"{called}, its whole length", *(shown(p.sections[part].length_mm, unit) for p in plans)))
        out.append((f"{called}, past the edge of the cover", *(
            shown(beyond_mm(p.kind, [s.length_mm for s in p.sections]), unit) for p in plans)))  # fmt: skip
    thick = next((name for name in (kind.thick, "spine") if first.object_mm.get(name)), "")
    if thick:
        out.append(("To fit, thickness", *_of_thing(plans, thick)))
    if not kind.rounds:
        flat = [" x ".join(shown(mm, unit) for mm in plan.finished_mm.values()) for plan in plans]
        out.append(("Worked flat, to block to", *flat))
    return out


def _narrow_lines(plans: list[Plan], at: int) -> list[tuple[str, ...]]:
    """How wide a section over some of the stitches is, as it is worked and with the border along both its edges."""
    called, unit = _capital(plans[0].sections[at].name), plans[0].unit
    bare = [(plan.sections[at].stitches or 0) * plan.stitch_mm for plan in plans]
    out = [(f"{called}, across, {plans[0].sections[at].stitches} sts" if len(plans) == 1 else f"{called}, across",
            *(shown(mm, unit) for mm in bare))]  # fmt: skip
    edges = [2 * (plan.border_row_mm or 0.0) * plan.border_rounds for plan in plans]
    if all(edges):
        wide = (shown(mm + edge, unit) for mm, edge in zip(bare, edges, strict=True))
        out.append((f"{called}, across with the border", *wide))
    return out


def _thing(plan: Plan, name: str) -> str:
    """A measurement of the thing itself, with what its thickness adds to it."""
    bare, whole = bare_mm(plan.kind, plan.object_mm)[name], plan.object_mm[name]
    added = f" + {show_given(whole - bare, plan.unit)} of thickness = {_given(whole, plan.unit)}"
    return f"{show_given(bare, plan.unit)}{added}" if whole > bare else _given(bare, plan.unit)


def _fit(plan: Plan, name: str) -> str:
    """How the piece fits along a measurement; what stretches over a thing with its thickness, to how much."""
    said, whole = fit_words(plan, name), plan.object_mm[name]
    thick = whole > bare_mm(plan.kind, plan.object_mm)[name]
    return f"{said}, to {show_length(whole, plan.unit)}" if thick and said.startswith("stretches") else said


def _hat_lines(plans: list[Plan]) -> list[tuple[str, ...]]:
    """A hat's crown across and what stands straight below it."""
    unit = plans[0].unit
    crowns = [shown(2 * plan.sections[0].length_mm, unit) for plan in plans]
    below = [shown(sum(s.length_mm for s in plan.sections[1:]), unit) for plan in plans]
    with_it = f", {plans[0].sections[-1].name} included" if len(plans[0].sections) > 2 else ""
    return [("Crown, across, laid flat", *crowns), (f"Straight part below the crown{with_it}", *below)]


def _of_thing(plans: list[Plan], name: str) -> list[str]:
    """A measurement of the thing itself, in each size."""
    return [_given(bare_mm(plan.kind, plan.object_mm).get(name, 0.0), plans[0].unit) for plan in plans]


def _given(mm: float, unit: str) -> str:
    """A measure of the thing itself in its own unit, and in the other one."""
    return f"{show_given(mm, unit)} ({show_length(mm, 'cm' if unit == 'in' else 'in')})"


def _means(plan: Plan) -> tuple[str, ...]:
    """Where each measurement is taken."""
    found = [(name, OBJECT_KINDS[plan.kind].measure(name)) for name in plan.between_mm]
    said = [f"{_capital(name)}: {rule.means}." for name, rule in found if rule is not None and rule.means]
    return (" ".join(said),) if said else ()


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
