"""A swatch that tells a pattern's gauge, and what a wrong one would do to the object."""

from __future__ import annotations

from math import ceil

from ...measure import show_length
from ...pattern.file.read import read_pattern
from ...pattern.file.records import Pattern
from ..sizing.advice import gauge_range
from ..sizing.fit import fit_words
from ..sizing.from_pattern import request_of
from ..sizing.plan import Plan
from ..sizing.request import SizingRequest
from ..sizing.size import size
from ..sizing.span import Span, spans
from .read import Read, read_sections

#: A swatch this large has a middle to count in (Crochet World: at least 4 in square, counted in its middle).
SWATCH_MM = 150.0
#: How many stitches or rows off a wrong gauge is told for.
OFF = (-2, -1, 1, 2)


def gauge_words(text: str, name: str) -> str:
    """The swatch to work and what gauges off by a little make of the piece, as Markdown; PatternError."""
    pattern = read_pattern(text, name)
    read = read_sections(pattern)
    request = request_of(pattern, [section.text for section in read.sections])
    plan = size(request)
    parts = ["# Swatch for " + pattern.title, *_swatch(pattern, read, plan), *_wrong(pattern, request, plan)]
    return "\n\n".join(parts) + "\n"


def _swatch(pattern: Pattern, read: Read, plan: Plan) -> list[str]:
    """What to work, what to do with it, what to count."""
    body = max(plan.sections, key=lambda s: (s.length_mm, s.rows))
    at = plan.sections.index(body)
    repeat = len(read.sections[at].rows)
    of, plus = plan.multiple_of, plan.multiple_plus
    count = plus + of * ceil((SWATCH_MM / plan.stitch_mm - plus) / of)
    row_mm = body.length_mm / body.rows
    rows = repeat * ceil(SWATCH_MM / row_mm / repeat)
    hook = f" with the {pattern.hook} hook" if pattern.hook else ""
    wide, tall = (show_length(mm, plan.unit) for mm in (count * plan.stitch_mm, rows * row_mm))
    rows_over = pattern.gauge.rows or pattern.gauge.over.mm / row_mm
    given = "" if pattern.gauge.rows else " (an estimate: the pattern gives no rows)"
    return [
        f"1. Chain {count + plan.chain_plus}{hook} and work {rows} rows as in \"{body.name}\" over {count} stitches "
        f"(about {wide} x {tall}).",
        "2. Treat it as the piece will be treated: wash and block it, and let it dry.",
        f"3. Lay a ruler in the middle, away from the edges, and count over {pattern.gauge.over.text}: "
        f"{pattern.gauge.stitches:g} stitches and {rows_over:.3g} rows{given}.",
        "4. Weigh it and write it down (swatch_weight): the yarn is then reckoned from it.",
    ]  # fmt: skip


def _wrong(pattern: Pattern, request: SizingRequest, plan: Plan) -> list[str]:
    """What the piece becomes at other gauges, its counts kept, and how far off still fits."""
    across, up = spans(request)
    over = pattern.gauge.over.text
    rows_over = pattern.gauge.over.mm / request.row_mm
    out = ["## What another gauge would do to this piece"]
    out.append(_table("Stitches", over, pattern.gauge.stitches, across, plan))
    out.append(_table("Rows", over, rows_over, up, plan))
    fits = [
        _holding("stitches", across, plan.stitches - 2 * plan.flap_stitches, request),
        _holding("rows", up, plan.between_mm[up.name] / request.row_mm, request),
    ]
    out += [line for line in fits if line]
    out.append(
        f"Fewer stitches to {over} than {pattern.gauge.stitches:g}: you work loosely; take a smaller hook. "
        f"More: take a larger hook. Change it half a millimetre at a time and work a new swatch."
    )
    return out


def _table(what: str, over: str, usual: float, span: Span, plan: Plan) -> str:
    thing = show_length(span.fit_mm, plan.unit)
    lines = [f"| {what} to {over} | {span.name} | for {thing} | hook |", "|---|---|---|---|"]
    for off in OFF:
        count = usual + off
        if count <= 0:
            continue
        mm = plan.between_mm[span.name] * usual / count
        stretch = span.fit_mm / (mm + span.border_mm) - 1
        hook = "smaller" if off < 0 else "larger"
        lines.append(f"| {count:.3g} | {show_length(mm, plan.unit)} | {fit_words(plan, span.name, stretch)} | {hook} |")
    return "\n".join(lines)


def _holding(what: str, span: Span, count: float, request: SizingRequest) -> str:
    if span.stretch is None:
        return ""
    found = gauge_range(span, count, request.over_mm)
    return f"The {span.name} still fits at {found} {what} to {request.over_text}, the counts kept."
