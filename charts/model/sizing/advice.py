"""What is said where nothing fits: the two nearest fits, and what would make them work."""

from __future__ import annotations

from math import ceil, floor

from ...errors import Problem
from ...made_late import replace
from ...measure import show_percent
from ...pattern.file.keys import MOST_ROWS
from ...pattern.file.kinds import along
from ...pattern.file.places import Place
from .across import Weighed, counts_near, weigh
from .request import SectionRequest, SizingRequest
from .rows_up import choose_rows, counts_of, first_side, length_of, side_fault, sides_allow, targets
from .span import Span, moved, percent_range


def problem_at(place: Place, where: str, says: str, remedy: str, file: str = "") -> Problem:
    """A problem of fit at a place in the file."""
    return Problem("fit", where, says, remedy, place.line, place.column, place.text, place.length, file)


def across_problem(request: SizingRequest, span: Span) -> Problem:
    """No count of stitches fits: both neighbours, and the gauge that would make each fit."""
    weighed = [weigh(count, span, request) for count in counts_near(span.wanted_mm, request)]
    under = [w for w in weighed if w.length_mm <= span.wanted_mm][-1:]
    near = under + [w for w in weighed if w.length_mm > span.wanted_mm][:1]
    fits = " and ".join(f"{w.count} sts: it {moved(w.stretch, eases=span.eases)}" for w in near)
    says = f"no count of stitches fits {percent_range(span)}: {fits}."
    if span.border_mm >= span.fit_mm:
        return problem_at(request.place, f"Fit {along(span.name)}", _all_border(span), "leave out the border.")
    gauges = "; or ".join(_across_fit(w, request, span) for w in near)
    wider = _wider_range(span, min((w.stretch for w in near), key=span.off))
    remedy = f"{gauges}; or let it {wider}."
    return problem_at(request.place, f"Fit {along(span.name)}", says, remedy)


#: A piece that comes out a third smaller or larger than asked for is no answer: our own limit, no source.
ABSURD = 1 / 3


def absurd(stretch: float) -> bool:
    """Whether a piece is so far from what was asked for that the answer is none."""
    return not 1 - ABSURD <= 1 + stretch <= 1 / (1 - ABSURD)


def absurd_problem(request: SizingRequest, span: Span, stretch: float) -> Problem:
    """No count comes anywhere near the measurement."""
    off = 1 / (1 + stretch) - 1 if stretch > -1 else 0.0
    says = f"the nearest count makes it {show_percent(abs(off))} {'larger' if off > 0 else 'smaller'} than asked for."
    remedy = "look at the gauge and the measurement, or use a stitch with a smaller repeat or fewer fixed rows."
    return problem_at(request.place, f"Fit {along(span.name)}", says, remedy)


def _all_border(span: Span) -> str:
    """A border wider than the object."""
    return f"the border alone takes {span.border_mm:.1f} mm of {span.fit_mm:.1f} mm."


def _across_fit(weighed: Weighed, request: SizingRequest, span: Span) -> str:
    """The gauge that would make a count of stitches fit."""
    gauge = gauge_range(span, weighed.count - 2 * weighed.flap, request.over_mm)
    return f"{weighed.count} sts fit at {gauge} stitches over {request.over_text}"


def gauge_range(span: Span, count: float, over_mm: float) -> str:
    """The least and the most stitches (or rows) over a length at which `count` of them fit, as printed.

    Rounded inward, to a tenth where the range has one, so that what is printed does fit.
    """
    low, high = span.stretch or (0.0, 0.0)
    shortest, longest = span.fit_mm / (1 + high) - span.border_mm, span.fit_mm / (1 + low) - span.border_mm
    least, most = over_mm * count / longest, over_mm * count / shortest
    for digits in (1, 2, 3):
        printed = ceil(least * 10**digits) / 10**digits, floor(most * 10**digits) / 10**digits
        if printed[0] <= printed[1]:
            return " to ".join(dict.fromkeys(f"{number:.{digits}f}" for number in printed))
    return f"about {(least + most) / 2:.2f}"


def _wider_range(span: Span, stretch: float) -> str:
    low, high = span.stretch or (0.0, 0.0)
    low, high = min(low, stretch), max(high, stretch)
    if span.eases:
        return f"have {show_percent(1 / (1 + high) - 1)} to {show_percent(1 / (1 + low) - 1)} of room"
    return f"stretch {show_percent(low)} to {show_percent(high)}"


def up_problem(request: SizingRequest, span: Span, rows: tuple[int, ...]) -> Problem:
    """No count of rows fits: both neighbours, and the gauge that would make each fit."""
    pairs = list(zip(request.sections, rows, strict=True))
    body = [(s, n) for s, n in pairs if s.role != "part"]
    main = max((i for i, (s, _) in enumerate(body) if s.rows is None), key=lambda i: body[i][1], default=-1)
    where = f"Fit {along(span.name)}"
    if span.border_mm >= span.fit_mm:
        return problem_at(request.place, where, _all_border(span), "leave out the border.")
    if main < 0:
        mm = sum(length_of(s, request, n) for s, n in body)
        stretch = span.stretch_of(mm)
        fits = moved(stretch, eases=span.eases)
        says = f"{sum(n for _, n in body)} rows as given; it {fits}, outside {percent_range(span)}."
        return problem_at(request.place, where, says, 'give the section length = "rest" instead of rows.')
    found = [_up_fit(request, span, body, main, n) for n in _row_neighbours(request, span, body, main)]
    says = f"no count of rows fits {percent_range(span)}: {' and '.join(f[0] for f in found)}."
    stretch = min((f[2] for f in found), key=span.off)
    remedy = f"{'; or '.join(f[1] for f in found)}; or let it {_wider_range(span, stretch)}."
    return problem_at(request.place, where, says, remedy)


def _row_neighbours(
    request: SizingRequest, span: Span, body: list[tuple[SectionRequest, int]], main: int
) -> list[int]:
    """The longest count not over the wanted length, and the shortest over it."""
    section = body[main][0]
    others_mm = sum(length_of(s, request, n) for i, (s, n) in enumerate(body) if i != main)
    target = next(t for s, t in zip(request.sections, targets(request, span), strict=True) if s is section)
    counts = counts_of(section, request, target)
    under = [n for n in counts if length_of(section, request, n) + others_mm <= span.wanted_mm]
    over = [n for n in counts if length_of(section, request, n) + others_mm > span.wanted_mm]
    return under[-1:] + over[:1]


def _up_fit(
    request: SizingRequest, span: Span, body: list[tuple[SectionRequest, int]], main: int, count: int
) -> tuple[str, str, float]:
    """A row count in words, the row gauge that would make it fit, and its stretch."""
    mm = sum(length_of(s, request, count if i == main else n) for i, (s, n) in enumerate(body))
    rows = mm / request.row_mm
    gauge = gauge_range(span, rows, request.over_mm)
    section, stretch = body[main][0], span.stretch_of(mm)
    says = f'{count} rows of "{section.name}": it {moved(stretch, eases=span.eases)}'
    return says, f"{count} rows fit at {gauge} rows over {request.over_text}", stretch


def sides_problem(request: SizingRequest, span: Span) -> Problem:
    """Which section's raised or marked rows cannot fall on their side, and what would help."""
    rows = choose_rows(request, span, sides=False) or tuple(s.rows or 1 for s in request.sections)
    right, first = first_side(request), 1
    for section, count in zip(request.sections, rows, strict=True):
        if not sides_allow(section, count, right, liked=False):
            break
        right = right if count % 2 == 0 else not right
        first += count
    return problem_at(section.place, f'section "{section.name}"', *_side_words(section, count, right, first))


def _side_words(section: SectionRequest, count: int, right: bool, first: int) -> tuple[str, str]:
    """What is wrong with a section's sides, and the remedy."""
    if section.repeat_rows % 2 and count > len(section.text.row_kinds) and any(section.text.raised):
        says = f"its row repeat has {section.repeat_rows} rows, so raised stitches fall on both sides in turn."
        return says, 'make the repeat an even number of rows, or say texture = "any".'
    mine, other = (side_fault(section, count, first, liked=False) for first in (right, not right))
    row, fault = mine or other or (0, "raised")
    if mine and other:
        says = f"{_row_words(*mine)} does not go with its other rows: {_row_words(*other)} asks the opposite."
        anyhow = ', or say texture = "any" in the section' if "raised" in (mine[1], other[1]) else ""
        return says, f"mark the rows RS and WS in turn, raised stitches on the WS rows{anyhow}."
    side = "right" if (row % 2 == 0) == right else "wrong"
    says = f"{_row_words(row, fault)} is row {first + row} of the piece, a {side}-side row."
    anyhow = ', or say texture = "any" in the section' if fault == "raised" else ""
    if first == 1:
        return says, f"begin with a plain row, or mark row 1 with the other side{anyhow}."
    return says, f"give the section before it one row more or fewer{anyhow}."


def _row_words(row: int, fault: str) -> str:
    return f"its row {row + 1} ({'raised stitches, for a WS row' if fault == 'raised' else f'marked {fault}'})"


def rows_problem(section: SectionRequest, request: SizingRequest) -> Problem:
    """A section that needs more rows than this tool works."""
    says = f"at this gauge it takes more than {MOST_ROWS:,} rows, which is the most."
    where = f'section "{section.name}"'
    return replace(problem_at(section.place, where, says, "give it a smaller length, or split it."), kind="limit")
