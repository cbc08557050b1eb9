"""The same pattern for several objects: a table of the sizes, and the counts in one line each, smallest first."""

from __future__ import annotations

from collections.abc import Sequence

from ..drawing.plain import markdown
from ..errors import PatternError, Problem
from ..made_late import dataclass, replace
from ..measure import show_length
from ..model.sections.read import Read
from ..model.sizing.fit import fit_words
from ..model.sizing.from_pattern import requests_of
from ..model.sizing.plan import Plan
from ..model.sizing.size import size
from ..pattern.file.records import Pattern
from .piece import Piece, worked_piece


@dataclass(frozen=True, slots=True)
class SizedPlan:
    """A plan under its size's name."""

    name: str
    plan: Plan


def sized_plans(pattern: Pattern, read: Read) -> tuple[list[SizedPlan], list[Problem]]:
    """A plan for each size that can be made; the problems of the others, each with its size."""
    plans: list[SizedPlan] = []
    problems: list[Problem] = []
    for sized in requests_of(pattern, [section.text for section in read.sections]):
        try:
            plans.append(SizedPlan(sized.name, size(sized.request)))
        except PatternError as found:
            problems += [replace(p, where=f'size "{sized.name}": {p.where}') for p in found.problems]
    return plans, problems


def pieces_of_sizes(piece: Piece, hand: str) -> dict[str, Piece]:
    """A pattern's piece worked in each of its sizes, by name, smallest first; {} where it has none. PatternError where
    one cannot be made."""
    if not piece.pattern.sizes:
        return {}
    plans, problems = sized_plans(piece.pattern, piece.read)
    if problems:
        raise PatternError(problems)
    sized = ((one.name, replace(piece.pattern, object=piece.pattern.sizes[one.name]), one.plan) for one in plans)
    made = {name: worked_piece(pattern, piece.read, plan, hand) for name, pattern, plan in sized}
    return {one.name: made[one.name] for one in smallest_first(plans)}


def size_words(pattern: Pattern, plans: Sequence[SizedPlan]) -> str:
    """The table of sizes and the counts as printed patterns give several sizes: "Ch 29 (41, 49)"."""
    ordered = smallest_first(plans)
    lines = [f"# {markdown(pattern.title)}: sizes", "", *table_lines(ordered, pattern.object.unit), ""]
    if len(ordered) > 1:
        lines += [f"Sizes: {markdown(several([p.name for p in ordered]))}.", ""]
    return "\n".join([*lines, *count_lines(ordered), ""])


def smallest_first(plans: Sequence[SizedPlan]) -> tuple[SizedPlan, ...]:
    """The plans by the area that they cover."""
    return tuple(sorted(plans, key=lambda p: p.plan.finished_mm["across"] * p.plan.finished_mm["up"]))


def several(values: Sequence[object]) -> str:
    """One value for each size, smallest first; one alone where all are the same.

    >>> several([52, 56, 60]), several([8, 8])
    ('52 (56, 60)', '8')
    """
    words = [str(value) for value in values]
    if len(set(words)) == 1:
        return words[0]
    return f"{words[0]} ({', '.join(words[1:])})"


def table_lines(plans: Sequence[SizedPlan], unit: str) -> list[str]:
    """A Markdown table in one unit: what each size is for, what comes out, how it fits."""
    head, *rows = ([markdown(cell) for cell in row] for row in table_cells(plans, unit))
    return [f"| {' | '.join(head)} |", f"|{'---|' * len(head)}", *(f"| {' | '.join(row)} |" for row in rows)]


def table_cells(plans: Sequence[SizedPlan], unit: str) -> list[list[str]]:
    """The cells of that table, its head first."""
    names = list(plans[0].plan.between_mm)
    head = ["size", *names, "chain", "stitches", "rows", "worked flat", "over all", *(f"fit, {name}" for name in names)]
    return [head, *(_cells(sized, names, unit) for sized in plans)]


def _cells(sized: SizedPlan, names: list[str], unit: str) -> list[str]:
    plan = sized.plan
    flat = " x ".join(show_length(plan.finished_mm[way], unit) for way in ("across", "up"))
    over_all = " x ".join(show_length(plan.over_all_mm[name], unit) for name in names)
    return [
        sized.name, *(show_length(plan.object_mm[name], unit) for name in names), str(plan.foundation),
        str(plan.stitches), str(plan.rows), flat, over_all, *(fit_words(plan, name) for name in names),
    ]  # fmt: skip


def count_lines(plans: Sequence[SizedPlan]) -> list[str]:
    """The counts of all sizes in one text."""
    lines = [
        f"- Ch {several([p.plan.foundation for p in plans])}; "
        f"{several([p.plan.stitches for p in plans])} sts in every row."
    ]
    for index, section in enumerate(plans[0].plan.sections):
        rows = several([p.plan.sections[index].rows for p in plans])
        last = several([p.plan.sections[index].first_row + p.plan.sections[index].rows - 1 for p in plans])
        name = markdown(section.name[:1].upper() + section.name[1:])
        lines.append(f"- {name}: {rows} rows; it ends with row {last}.")
    flaps = [p.plan.flap_stitches for p in plans]
    if any(flaps):
        lines.append(f"- The first and the last {several(flaps)} sts of every row are the flaps.")
    return lines
