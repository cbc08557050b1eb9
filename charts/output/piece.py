"""A pattern file worked through, and what every sheet says of it."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from contextlib import contextmanager

from ..errors import PatternError, Problem
from ..folding.border import BorderPlan, border_plan
from ..folding.folds import Folding, folding_of
from ..folding.written_folds import placed
from ..made_late import dataclass, replace
from ..measure import show_length
from ..model.cloth.fabric import Fabric, Stitch
from ..model.sections.read import Read
from ..model.sections.whole import work_piece
from ..model.sizing.fit import laid_out_words
from ..model.sizing.plan import Plan
from ..model.sizing.yarn import border_colour
from ..model.sizing.yarn_weights import between_us_hooks, us_hook
from ..pattern.file.kinds import OBJECT_KINDS
from ..pattern.file.records import Pattern
from ..pattern.tree import WrittenPattern
from ..setting import Heading, Setting


@dataclass(frozen=True, slots=True, eq=False)
class Piece:
    """A pattern file worked through: what it says, its plan, its rows in words and worked, its folding and border. Each
    is itself alone, so that what was drawn of it can be kept for what shows it next."""

    pattern: Pattern
    read: Read
    plan: Plan
    rows: WrittenPattern
    fabric: Fabric
    folding: Folding
    border: BorderPlan | None


def is_tube(fabric: Fabric) -> bool:
    """Whether rounds stand on each other from a joined chain, all as wide: they are drawn laid open."""
    return fabric.rows[0].is_round and fabric.start == "ring"


def laid_open(fabric: Fabric) -> Fabric:
    """A tube cut open where its rounds begin, so that its chart is read as rows: all from one edge, right side up.

    A ring's chains are met as they were made, a chain's from its end: so the first row's places are told anew.
    """
    stitches = tuple(_from_the_end(made, fabric.chains) for made in fabric.rows[0].row.stitches)
    first = replace(fabric.rows[0], row=replace(fabric.rows[0].row, stitches=stitches))
    fabric = replace(fabric, rows=(first, *fabric.rows[1:]))
    rows = tuple(
        replace(row, is_round=False, side="RS", direction="right-to-left", turned=False) for row in fabric.rows
    )
    return replace(fabric, start="chain", rows=rows)


def _from_the_end(made: Stitch, chains: int) -> Stitch:
    """A stitch of the first round, its places counted from the chain's end."""
    feet = tuple(replace(foot, at=chains - 1 - foot.at) if foot.back == 1 else foot for foot in made.feet)
    return replace(made, feet=feet)


def worked_piece(pattern: Pattern, read: Read, plan: Plan, hand: str) -> Piece:
    """A piece from its plan: worked row over row, folded and bordered; PatternError with what cannot be."""
    # The rows written out over the plan's stitches, and worked one over the other.
    rows, fabric = work_piece(read, plan, pattern)
    # How the piece folds and is joined, and the border worked through its edges.
    with placed_in(pattern):
        folding = folding_of(plan, hand=hand, folds=pattern.folds, joins=pattern.joins)
        border = bordered(pattern, plan, folding, hand)
        _follow_joins(pattern, joins=border is not None and border.joins)
    return Piece(pattern, read, plan, rows, fabric, folding, border)


def _follow_joins(pattern: Pattern, *, joins: bool) -> None:
    """Refuse a join of the pattern's own that is held otherwise than the words will say: where the border `joins` the
    layers by that, else sewn."""
    found = []
    for number, join in enumerate(pattern.joins, 1):
        if join.by == ("border" if joins else "sewn") or (join.by == "border" and not joins):
            continue
        says = f"it is held by {join.by}, and the border joins the layers" if joins else (
            f"it is held by {join.by}, and where no border joins the layers they are sewn"
        )  # fmt: skip
        remedy = "take by out, or write joins = false in [border]" if joins else 'write by = "sewn"'
        found.append(placed(Problem("fold", f"Join {number}", says, remedy), join.place))
    if found:
        raise PatternError(found)


def bordered(pattern: Pattern, plan: Plan, folding: Folding, hand: str) -> BorderPlan | None:
    """The border that the pattern asks for, round the folded piece; None where it asks for none."""
    asked = pattern.border
    if asked is None:
        return None
    edging = "" if asked.edging == "plain" else asked.edging
    return border_plan(
        plan, stitch=asked.stitch, rounds=asked.rounds, edging=edging, hand=hand, folding=folding,
        colour=border_colour(pattern),
    )  # fmt: skip


@contextmanager
def placed_in(pattern: Pattern) -> Iterator[None]:
    """What cannot be folded or bordered is told at the section it names, else where the object is said."""
    try:
        yield
    except PatternError as found:
        raise PatternError([p if p.line else _placed(p, pattern) for p in found.problems]) from None


def _placed(problem: Problem, pattern: Pattern) -> Problem:
    named = [s for s in pattern.sections if re.search(rf"\b{re.escape(s.name)}\b", problem.says)]
    first = min(named, key=lambda s: problem.says.index(s.name), default=None)
    place = first.place if first else pattern.object.place
    return replace(
        problem, line=place.line, column=place.column, text=place.text, length=place.length, file=pattern.file
    )


def heading_of(piece: Piece, setting: Setting) -> Heading:
    """What every sheet says of the piece."""
    pattern = piece.pattern
    return Heading(
        pattern.title,
        pattern.author,
        pattern.licence,
        finished_words(piece),
        gauge_words(piece),
        pattern.hook,
        setting.terms,
    )


def gauge_words(piece: Piece) -> str:
    """The gauge in words; of what is worked in rounds it counts rounds."""
    said = piece.pattern.gauge.words()
    return re.sub(r"\brows\b", "rounds", said) if OBJECT_KINDS[piece.plan.kind].rounds else said


def hook_words(piece: Piece, setting: Setting) -> str:
    """The hook's size, in US terms with the name that it has there, or between which two it lies."""
    name = (us_hook(piece.pattern.hook_mm) or between_us_hooks(piece.pattern.hook_mm)) if setting.terms == "US" else ""
    return piece.pattern.hook if not name or name in piece.pattern.hook else f"{piece.pattern.hook} (US {name})"


def finished_words(piece: Piece) -> str:
    """The finished size: between the joins (or before the border, of what holds nothing), and over all."""
    plan = piece.plan
    if OBJECT_KINDS[plan.kind].rounds:
        around, high = (show_length(mm, plan.unit) for mm in plan.between_mm.values())
        crowned = OBJECT_KINDS[plan.kind].crown
        return f"{around} round, {high} {'from crown to brim' if crowned else 'high'}"
    flat = not piece.folding.stages
    inside = _sides(tuple(plan.finished_mm.values()) if flat else _between_mm(piece), plan.unit)
    holds = OBJECT_KINDS[plan.kind].holds and not flat
    if not plan.border_row_mm:
        laid = _sides(tuple(plan.finished_mm.values()), plan.unit)
        return f"{laid} flat" if flat else f"{inside} {'between the joins' if holds else 'folded'}; {laid} flat"
    over_all = _sides(tuple(plan.flat_mm.values()) if flat else _over_all_mm(piece), plan.unit)
    laid_out = f", {laid_out_words(plan)}" if laid_out_words(plan) and not piece.pattern.folds else ""
    return f"{inside} {'between the joins' if holds else 'before the border'}, {over_all} over all{laid_out}"


def _sides(sizes_mm: Sequence[float], unit: str) -> str:
    return " x ".join(show_length(mm, unit) for mm in sizes_mm)


def _between_mm(piece: Piece) -> tuple[float, ...]:
    """The size folded, its border aside: as planned; of a pattern's own folds, what they leave."""
    if not piece.pattern.folds:
        return tuple(piece.plan.between_mm.values())
    bounds = [facet.shape.bounds for facet in piece.folding.end.facets]
    left, top = min(b[0] for b in bounds), min(b[1] for b in bounds)
    return max(b[2] for b in bounds) - left, max(b[3] for b in bounds) - top


def _over_all_mm(piece: Piece) -> tuple[float, ...]:
    """The size folded with the border outside it."""
    plan = piece.plan
    if not piece.pattern.folds:
        return tuple(plan.over_all_mm.values())
    return tuple(mm + 2 * (plan.border_row_mm or 0.0) * plan.border_rounds for mm in _between_mm(piece))
