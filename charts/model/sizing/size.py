"""Counts for a piece that fits: stitches, rows, the foundation, and how it stretches on the object."""

from __future__ import annotations

from itertools import accumulate

from ...errors import PatternError, Problem
from ...made_late import replace
from ...pattern.file.kinds import OBJECT_KINDS, beyond_mm, directions
from .across import Weighed, choose_across
from .advice import absurd, absurd_problem, across_problem, rows_problem, sides_problem, up_problem
from .plan import Option, Plan, SectionPlan
from .request import SectionRequest, SizingRequest
from .rows_up import Target, choose_rows, counts_of, heights_of, length_of, side_remarks, stripe_remarks, targets
from .shape import crown_of, section_counts
from .span import Span, borders_mm, moved, spans


def size(request: SizingRequest) -> Plan:
    """Settle the counts; PatternError (kind "fit") where nothing fits, with what would make it fit.

    Stitches and rows are settled apart: the repeat allows certain counts, the object wants a length, and the
    count nearest to it inside the stretch range wins. Rows also keep raised stitches on wrong-side rows.
    """
    across, up = spans(request)
    endless = [s for s, t in zip(request.sections, targets(request, up), strict=True) if not counts_of(s, request, t)]
    if endless:
        raise PatternError([rows_problem(section, request) for section in endless])
    weighed, across_options = choose_across(request, across)
    request = _crowned(request, weighed.count)
    rows = choose_rows(request, up) or choose_rows(request, up, liked=False)
    problems: list[Problem] = []
    if rows is None:
        problems.append(sides_problem(request, up))
        rows = choose_rows(request, up, sides=False) or ()
    if not across.holds(weighed.stretch):
        problems.append(across_problem(request, across))
    up_options = body_options(request, up, rows)
    if not up.holds(up.stretch_of(body_mm(request, rows))):
        problems.append(up_problem(request, up, rows))
    found = _found(across, up, weighed, request, rows)
    problems += [absurd_problem(request, span, stretch) for span, stretch in found if absurd(stretch)]
    if problems:
        raise PatternError(problems)
    return plan_of(request, (across, up), weighed, rows, (across_options, up_options))


def _found(
    across: Span, up: Span, weighed: Weighed, request: SizingRequest, rows: tuple[int, ...]
) -> list[tuple[Span, float]]:
    """The directions without a range of their own, each with the stretch that was found; rows that are all given count
    as wanted so."""
    both = [(across, weighed.stretch)]
    if any(s.rows is None and s.role != "part" for s in request.sections):
        both.append((up, up.stretch_of(body_mm(request, rows))))
    return [(span, stretch) for span, stretch in both if span.stretch is None]


def body_mm(request: SizingRequest, rows: tuple[int, ...]) -> float:
    """The length of the sections that lie on the object."""
    pairs = zip(request.sections, rows, strict=True)
    return sum(length_of(s, request, n) for s, n in pairs if s.role != "part")


def body_options(request: SizingRequest, span: Span, rows: tuple[int, ...]) -> tuple[Option, ...]:
    """The row counts weighed for the longest body section, the other sections as chosen."""
    bodies = [i for i, s in enumerate(request.sections) if s.role != "part" and s.rows is None]
    if not bodies:
        return ()
    main = max(bodies, key=lambda i: rows[i])
    section, target = request.sections[main], targets(request, span)[main]
    counts = sorted({*counts_of(section, request, target), rows[main]})
    at = counts.index(rows[main])
    return tuple(_row_option(request, span, rows, main, n) for n in counts[max(0, at - 2) : at + 3])


def _row_option(request: SizingRequest, span: Span, rows: tuple[int, ...], main: int, count: int) -> Option:
    section = request.sections[main]
    changed = (*rows[:main], count, *rows[main + 1 :])
    whole = body_mm(request, changed)
    stretch = span.stretch_of(whole)
    repeats, past = divmod(count - section.lead, section.repeat_rows)
    ending = f"{repeats} repeats" + (f" and {past} row" + ("s" if past > 1 else "") if past else "")
    why = f"{ending}; {moved(stretch, eases=span.eases)}" + ("" if span.holds(stretch) else ", outside the range")
    mm = length_of(section, request, count)
    off_mm = whole - span.wanted_mm
    return Option(count, repeats, mm, off_mm, count == rows[main], why)


def plan_of(
    request: SizingRequest, directions: tuple[Span, Span], weighed: Weighed, rows: tuple[int, ...],
    options: tuple[tuple[Option, ...], tuple[Option, ...]],
) -> Plan:  # fmt: skip
    """The plan of settled counts."""
    across, up = directions
    sections = planned_sections(request, weighed.count, rows, up)
    up_mm, on_object = sum(s.length_mm for s in sections), body_mm(request, rows)
    flap_mm = weighed.flap * request.stitch_mm
    border = request.border
    between_mm = {across.name: weighed.length_mm - 2 * flap_mm, up.name: on_object}
    outside_mm = _outside_mm(request)
    outside_mm[up.name] += beyond_mm(request.kind, [s.length_mm for s in sections])
    flat = border is not None and not (OBJECT_KINDS[request.kind].folds and border.joins)
    round_flat = 2 * border.thickness_mm if border and flat else 0.0
    return Plan(
        kind=request.kind, unit=request.unit, chain_along=request.chain_along, stitches=weighed.count,
        foundation=0 if request.sections[0].crown else weighed.count + request.chain_plus,
        multiple_of=request.multiple_of,
        multiple_plus=request.multiple_plus, chain_plus=request.chain_plus, stitch_mm=request.stitch_mm,
        sections=sections, object_mm=dict(request.object_mm),
        finished_mm={"across": weighed.length_mm, "up": up_mm},
        flat_mm={"across": weighed.length_mm + round_flat, "up": up_mm + round_flat}, between_mm=between_mm,
        over_all_mm={name: mm + outside_mm[name] for name, mm in between_mm.items()},
        stretch={across.name: across.stretch_of(weighed.length_mm, flap_mm), up.name: up.stretch_of(on_object)},
        across_options=options[0], up_options=options[1],
        border_stitch_mm=border.stitch_mm if border and border.measured else None,
        border_row_mm=border.row_mm if border else None, corner=border.corner if border else 3,
        joins=bool(border and border.joins),
        estimates=request.estimates, flap_stitches=weighed.flap, border_rounds=border.rounds if border else 0,
        stretch_range=request.stretch, remarks=(*side_remarks(request, rows), *stripe_remarks(request, up, rows)),
        rows_measured=request.rows_measured,
    )  # fmt: skip


def _outside_mm(request: SizingRequest) -> dict[str, float]:
    """What the border adds over all in each direction, by its name."""
    return dict(zip(directions(request.kind, request.object_mm), borders_mm(request), strict=True))


def _crowned(request: SizingRequest, stitches: int) -> SizingRequest:
    """The request with the rounds of a crown settled: as many as lead to so many stitches."""
    sections = (replace(s, rows=len(crown_of(s, request, stitches))) if s.crown else s for s in request.sections)
    return replace(request, sections=tuple(sections))


def planned_sections(
    request: SizingRequest, stitches: int, rows: tuple[int, ...], span: Span
) -> tuple[SectionPlan, ...]:
    """The sections with their rows numbered through, of a piece of so many stitches."""
    firsts = accumulate(rows, initial=1)
    counts = section_counts(request, stitches, rows)
    together = zip(request.sections, firsts, counts, targets(request, span), strict=False)
    return tuple(_section(s, request, first, (stitches, of), target) for s, first, of, target in together)


def _section(
    section: SectionRequest, request: SizingRequest, first: int, counted: tuple[int, tuple[int, ...]], target: Target
) -> SectionPlan:
    """One section; `counted` are the stitches of the piece and those of each of the section's rows."""
    stitches, counts = counted
    rows = len(counts)
    return SectionPlan(
        name=section.name, first_row=first, row_kinds=section.kinds(rows),
        row_heights_mm=heights_of(section, request, rows),
        colours=tuple(section.colour(row) for row in range(rows)),
        wanted_mm=section.wanted_mm if section.crown else target.wanted_mm if section.rows is None else None,
        stitches=counts[-1] if counts and counts[-1] != stitches else None,
        widths=counts if section.crown or section.to is not None or section.over is not None else (),
    )  # fmt: skip
