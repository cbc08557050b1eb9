"""A piece that comes out otherwise than planned: the rows still to work, the size there will be, and the hook.

What was worked stays as it is. Its rows over its length are the new gauge, and what is not worked yet is sized by it.
"""

from __future__ import annotations

from ...errors import PatternError, Problem
from ...made_late import dataclass, replace
from ...measure import Length, show_length
from ...pattern.file.read import read_pattern
from ...pattern.file.records import Pattern
from ..sizing.fit import fit_lines
from ..sizing.from_pattern import request_of
from ..sizing.plan import Plan
from ..sizing.size import size
from .read import Read, read_sections

#: Nearer than this to the pattern's gauge no hook is changed: our own limit, no source.
LIKE = 0.03
#: A measure further off than this is a slip, not a gauge: our own limit, no source.
ABSURD = 2.0


@dataclass(frozen=True, slots=True)
class Refit:
    """What is said of a piece on the hook, and what keeps the rest from fitting."""

    lines: tuple[str, ...]
    problems: tuple[Problem, ...] = ()


def refit(text: str, name: str, rows: int, measured: Length) -> Refit:
    """What follows from `rows` worked rows that measure so long; PatternError where that cannot be."""
    pattern = read_pattern(text, name)
    read = read_sections(pattern)
    plan = _sized(pattern, read)
    planned_mm = sum(_heights(plan)[:rows])
    _refuse(plan, rows, measured, planned_mm, name)
    looser = measured.mm / planned_mm
    lines = [_gauge_line(pattern, plan, rows, measured, looser)]
    try:
        again = _sized(_on_the_hook(pattern, plan, rows, looser), read)
    except PatternError as found:
        lines += _as_written(plan, looser)
        return Refit((*lines, hook_line(looser)), tuple(p if p.file else p.in_file(name) for p in found.problems))
    lines += _still_to_work(plan, again, rows)
    lines += [f"Then {line}" for line in fit_lines(again)]
    if again.rows != plan.rows:
        lines += _as_written(plan, looser)
    return Refit((*lines, hook_line(looser)))


def _sized(pattern: Pattern, read: Read) -> Plan:
    return size(request_of(pattern, [section.text for section in read.sections]))


def _heights(plan: Plan) -> list[float]:
    return [mm for section in plan.sections for mm in section.row_heights_mm]


def _refuse(plan: Plan, rows: int, measured: Length, planned_mm: float, name: str) -> None:
    """Rows that the piece does not have, and a length that they cannot measure."""
    if rows > plan.rows:
        says = f"{rows} rows are worked, and the whole piece has {plan.rows}."
        raise PatternError([Problem("value", "Refit", says, "count the rows again.", file=name)])
    if not 1 / ABSURD <= measured.mm / planned_mm <= ABSURD:
        planned = show_length(planned_mm, plan.unit)
        says = f"{rows} rows measure {measured.text}, and by the pattern's gauge {planned}."
        raise PatternError([Problem("value", "Refit", says, "measure again, and look at the unit.", file=name)])


def _on_the_hook(pattern: Pattern, plan: Plan, rows: int, looser: float) -> Pattern:
    """The pattern at the gauge of what was worked, its finished sections fixed at the rows they have."""
    gauge = pattern.gauge
    own = [s.gauge_rows for s in pattern.sections]
    body_mm = gauge.row_mm or plan.sections[0].length_mm / plan.sections[0].rows
    sections = tuple(
        replace(
            section, rows=part.rows if done else section.rows, length=None if done else section.length,
            gauge_rows=rows_over / looser if rows_over else None,
        )
        for section, part, rows_over in zip(pattern.sections, plan.sections, own, strict=True)
        for done in (part.first_row + part.rows - 1 <= rows and section.length != "rest",)
    )  # fmt: skip
    return replace(pattern, gauge=replace(gauge, rows=gauge.over.mm / body_mm / looser), sections=sections)


def _gauge_line(pattern: Pattern, plan: Plan, rows: int, measured: Length, looser: float) -> str:
    over = pattern.gauge.over
    planned = pattern.gauge.rows or over.mm * plan.rows / sum(_heights(plan))
    return (
        f"{rows} rows measure {measured.text}: {planned / looser:.1f} rows to {over.text} where the pattern has "
        f"{planned:.4g}."
    )


def _still_to_work(plan: Plan, again: Plan, rows: int) -> list[str]:
    """The rows still to work, section by section, and where that differs from the pattern."""
    lines, total = [], 0
    for old, new in zip(plan.sections, again.sections, strict=True):
        left = new.first_row + new.rows - 1 - max(rows, new.first_row - 1)
        if left <= 0:
            continue
        total += left
        change = new.rows - old.rows
        differs = f", {abs(change)} {'more' if change > 0 else 'fewer'} than written" if change else ""
        lines.append(f"  {new.name}: {left} more (to row {new.first_row + new.rows - 1}){differs}")
    if not total:
        return ["No row is still to work."]
    return [f"Still to work: {total} row{'s' if total > 1 else ''}, {again.rows} in all.", *lines]


def _as_written(plan: Plan, looser: float) -> list[str]:
    """The size if nothing is changed."""
    up = next((n for n in plan.between_mm if n != plan.chain_along), "")
    if not up:
        return []
    mm = plan.between_mm[up] * looser
    return [f"Left as written ({plan.rows} rows): {up} {show_length(mm, plan.unit)}, "
            f"where {show_length(plan.between_mm[up], plan.unit)} are planned."]  # fmt: skip


def hook_line(looser: float) -> str:
    """Which way to change the hook; Crochet World: more stitches to the inch than wanted, a larger hook."""
    if abs(looser - 1) <= LIKE:
        return "Keep the hook: the gauge is the pattern's, as near as it can be told."
    if looser > 1:
        return (
            "Looser than the pattern (fewer rows and stitches to 10 cm): for the pattern's gauge take a smaller hook, "
            "half a millimetre at a time."
        )
    return (
        "Tighter than the pattern (more rows and stitches to 10 cm): for the pattern's gauge take a larger hook, "
        "half a millimetre at a time."
    )
