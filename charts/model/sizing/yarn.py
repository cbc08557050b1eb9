"""Yarn for each colour, with what was assumed.

Best is a weighed swatch: yarn = area / swatch area x swatch weight. Without one, a length is estimated from the
gauge: the same fabric in a yarn twice as thick takes half the length, so metres to an area go as 1 / row height. What
is said is a range, wide enough for the published figures in the tests.
"""

from __future__ import annotations

import re
from collections import Counter, defaultdict
from collections.abc import Mapping, Sequence
from math import ceil, sqrt

from hookfold.symbols.dictionary import heights

from ...made_late import dataclass, replace
from ...measure import MM_PER_INCH, show_grams, show_length, show_metres, show_percent
from ...pattern.file.kinds import OBJECT_KINDS
from ...pattern.file.records import Pattern
from .plan import Plan
from .raised import height_kind, raised_name
from .row_heights import relative_height
from .shape import sewn_handles

#: Yarn to an area, times the thickness of the yarn (the height of a row against its stitch's usual one): a middle of
#: published figures (tests/unit/model/test_yarn_needs.py), and how far they lie from it.
YARN_PER_AREA = 8.0
LEAST_OF, MOST_OF = 0.45, 1.6
#: Sewing takes so many times the seam's length (common practice, no source).
SEWING = 3.0
#: A raised stitch takes the yarn of so many dc, its usual legs (an estimate; no published ratio is known).
RAISED_LEGS = 4
#: How tall an edging is, in widths of a border stitch: estimates.
EDGING_HEIGHTS = {"shell": 2.0, "picot": 1.5, "reverse sc": 1.2}
#: To be on the safe side: 10 to 15 % (common practice, no source).
SPARE = 0.15
#: An end to weave in: 15 cm, 6 in (common practice, no source).
END_MM = 150.0


@dataclass(frozen=True, slots=True)
class Edges:
    """What is worked or sewn round the piece: the border's length, the seams' length, and how many are sewn."""

    border_mm: float = 0.0
    seam_mm: float = 0.0
    seams: int = 0


@dataclass(frozen=True, slots=True)
class YarnNeed:
    """The yarn of one colour: grams, metres and whole balls, where they can be known, and its ends to weave in.

    `metres_range` and `balls_range` are the least and the most of an estimate, None from a weighed swatch.
    """

    letter: str
    grams: float | None
    metres: float | None
    balls: int | None
    ends: int = 0
    metres_range: tuple[float, float] | None = None
    balls_range: tuple[int, int] | None = None


@dataclass(frozen=True, slots=True)
class YarnReport:
    """What each colour needs; `estimated` where no swatch was weighed; `assumptions` in words."""

    needs: tuple[YarnNeed, ...]
    estimated: bool
    assumptions: tuple[str, ...]


def yarn_unit(pattern: Pattern) -> str:
    """The unit in which yarn is told: as the ball's label has its length, else as the piece is measured."""
    label = pattern.yarn.label
    return pattern.object.unit if not label else "in" if re.search(r"\d\s*y", label, re.IGNORECASE) else "mm"


def yarn_report(
    plan: Plan, pattern: Pattern, rows: Sequence[Mapping[str, int]] = (), *, edges: Edges | None = None,
    within: Sequence[tuple[str, ...]] = (),
) -> YarnReport:  # fmt: skip
    """The yarn of each colour of a planned piece.

    `rows` may give each row's stitches by kind; they weigh raised stitches when no swatch says it. `within` are the
    colours that each row takes on its way beside its own. Without colours there is one need under the letter "".
    """
    edges = edges or Edges(_round_mm(plan))
    areas = colour_areas_mm2(plan, pattern, edges, within)
    ends = colour_ends(plan, pattern, edges, within)
    weighed = pattern.yarn.swatch_weight_g is not None
    raised = () if weighed else tuple(raised_factor([row]) for row in rows)
    more = {letter: area / areas[letter] for letter, area in
            colour_areas_mm2(plan, pattern, edges, within, raised).items()}  # fmt: skip
    make = OBJECT_KINDS[plan.kind].make
    areas = {letter: make * area for letter, area in areas.items()}
    ends = {letter: make * count for letter, count in ends.items()}
    edges = replace(edges, seam_mm=make * edges.seam_mm)
    needs = tuple(_need(letter, areas[letter] * more[letter], ends[letter], plan, pattern, edges) for letter in areas)
    said = _assumptions(plan, pattern, more, edges, any(within))
    balls = ("Each ball after a colour's first adds 2 ends.",) if any((need.balls or 0) > 1 for need in needs) else ()
    return YarnReport(needs, not weighed, (*said, *balls))


def colour_areas_mm2(
    plan: Plan, pattern: Pattern, edges: Edges | None = None, within: Sequence[tuple[str, ...]] = (),
    raised: Sequence[float] = (),
) -> dict[str, float]:  # fmt: skip
    """The area worked in each colour, the border's among them, in the order of the colours.

    A row in several colours counts in equal shares; where `raised` says how much more yarn each row takes for its
    raised stitches, its area counts so many times.
    """
    areas: defaultdict[str, float] = defaultdict(float)
    for section in plan.sections:
        rows = zip(section.colours, section.row_heights_mm, section.counts(plan.stitches), strict=True)
        for row, (letter, height_mm, stitches) in enumerate(rows):
            at = section.first_row - 1 + row
            width_mm = stitches * plan.stitch_mm * (raised[at] if at < len(raised) else 1.0)
            named = _named_in(letter, at, within)
            for one in named:
                areas[one] += width_mm * height_mm / len(named)
    if pattern.border and plan.border_row_mm:
        areas[border_colour(pattern)] += border_area_mm2(plan, pattern, edges)
    sewn = sewn_handles(plan)
    if sewn is not None:
        areas[border_colour(pattern)] += sewn.count * sewn.length_mm * sewn.width_mm
    order = [c.letter for c in pattern.colours] or [""]
    return {letter: areas[letter] for letter in order if areas[letter]}


def _named_in(letter: str, row: int, within: Sequence[tuple[str, ...]]) -> tuple[str, ...]:
    """The colours of a row (from 0), its own first."""
    return tuple(dict.fromkeys((letter, *(within[row] if row < len(within) else ()))))


def border_area_mm2(plan: Plan, pattern: Pattern, edges: Edges | None = None) -> float:
    """The border's area: its thickness along the edge and round four corners, and an edging's beyond it."""
    around_mm = (edges or Edges(_round_mm(plan))).border_mm
    thick_mm = (plan.border_row_mm or 0.0) * plan.border_rounds
    edging = EDGING_HEIGHTS.get(pattern.border.edging, 0.0) if pattern.border else 0.0
    beyond_mm = edging * (plan.border_stitch_mm or plan.stitch_mm)
    return around_mm * (thick_mm + beyond_mm) + 4 * thick_mm**2


def _round_mm(plan: Plan) -> float:
    """The way round the folded piece, where nothing more is known of its edge."""
    return 2 * sum(plan.between_mm.values())


def border_colour(pattern: Pattern) -> str:
    """The letter of the colour that the border is worked in: its own, else the first; "" without colours."""
    if pattern.border and pattern.border.colour:
        return pattern.border.colour
    return pattern.colours[0].letter if pattern.colours else ""


#: A colour is carried up the edge past no more rows than this (common practice, no source).
MOST_CARRIED = 4


def colour_ends(
    plan: Plan, pattern: Pattern, edges: Edges | None = None, within: Sequence[tuple[str, ...]] = ()
) -> dict[str, int]:
    """The ends to weave in of each colour: two for each time it is joined anew.

    A row begins at one edge and ends at the other. A colour that comes back is carried up the edge where it hangs,
    past at most four rows; where the row begins at the other edge, after an odd number of rows, it is cut and joined
    anew. In rounds it hangs where they are joined, whatever came between. A colour that a row takes on its way is
    joined in that row, unless the row before took it too.
    """
    rows = [letter for section in plan.sections for letter in section.colours]
    ends: Counter[str] = Counter()
    last: dict[str, int] = {}
    for row, letter in enumerate(rows):
        gap = row - last[letter] - 1 if letter in last else None
        if gap is None or gap % _back_every(plan) or gap > MOST_CARRIED:
            ends[letter] += 2
        for other in _named_in(letter, row, within)[1:]:
            if row - last.get(other, -2) > 1:
                ends[other] += 2
            last[other] = row
        last[letter] = row
    if pattern.border:
        ends[border_colour(pattern)] += 2
    if has_loop(plan):
        ends[border_colour(pattern)] += 2
    sewn = sewn_handles(plan)
    if sewn is not None:
        ends[border_colour(pattern)] += 2 * sewn.count
    if edges and edges.seams:
        ends[border_colour(pattern)] += 2 * edges.seams
    return dict(ends)


def has_loop(plan: Plan) -> bool:
    """Whether the piece is closed with a button and a loop of its own yarn."""
    closing = OBJECT_KINDS[plan.kind].closing
    return closing is not None and "{yarn}" in closing.says and closing.of(plan.object_mm)


def may_carry(between: int, *, rounds: bool) -> bool:
    """Whether a colour that rests for so many rows is carried up to where it comes back."""
    return between <= MOST_CARRIED and (rounds or between % 2 == 0)


def _back_every(plan: Plan) -> int:
    """After a multiple of how many rows the hook is where it was: every second row, every round."""
    return 1 if OBJECT_KINDS[plan.kind].rounds else 2


def carries(plan: Plan) -> bool:
    """Whether some colour is carried up the edge to where it comes back, as `colour_ends` reckons it."""
    rows = [letter for section in plan.sections for letter in section.colours]
    last: dict[str, int] = {}
    for row, letter in enumerate(rows):
        gap = row - last.get(letter, row) - 1
        if 0 < gap <= MOST_CARRIED and gap % _back_every(plan) == 0:
            return True
        last[letter] = row
    return False


def raised_factor(rows: Sequence[Mapping[str, int]]) -> float:
    """How much more yarn the rows take than the same rows without raised stitches: an estimate.

    A raised stitch counts as the legs of dc it is usually made of, four (an estimate; no published ratio is
    known).
    """
    plain, given = 0.0, 0.0
    for row in rows:
        ground = yarn_of(height_kind(row))
        for kind, count in row.items():
            given += count * (RAISED_LEGS * yarn_of("dc") if raised_name(kind) else yarn_of(kind))
            plain += count * (ground if raised_name(kind) else yarn_of(kind))
    return given / plain if plain else 1.0


def yarn_of(kind: str) -> float:
    """The yarn of one stitch against one sc, from the dictionary of stitches."""
    plain = heights()
    if kind in plain:
        return plain[kind].yarn
    return max((plain[name].yarn for name in plain if name in kind), default=1.0)


def thickness_mm(plan: Plan) -> float:
    """How thick the yarn lies: a stitch's width and, by the usual heights, a row's, their geometric mean.

    One kind of stitch is so much taller than another in the same yarn, so a row is held against its own usual height.
    """
    kinds = [kind for section in plan.sections for kind in section.row_kinds]
    usual = sum(map(relative_height, kinds))
    row_mm = sum(section.length_mm for section in plan.sections) / usual if usual else plan.stitch_mm
    return sqrt(plan.stitch_mm * row_mm)


def _need(letter: str, area_mm2: float, ends: int, plan: Plan, pattern: Pattern, edges: Edges) -> YarnNeed:
    yarn, gauge = pattern.yarn, pattern.gauge
    per_gram = yarn.ball_m / yarn.ball_g if yarn.ball_m and yarn.ball_g else None
    loose_m = ends * END_MM / 1000
    loose_m += SEWING * edges.seam_mm / 1000 if letter == border_colour(pattern) else 0.0
    worked_m = area_mm2 * YARN_PER_AREA / thickness_mm(plan) / 1000
    if yarn.swatch_weight_g is None:
        metres = worked_m + loose_m
        span = (worked_m * LEAST_OF + loose_m, worked_m * MOST_OF + loose_m)
        grams = metres / per_gram if per_gram else None
        if not yarn.ball_m:
            return YarnNeed(letter, grams, metres, None, ends, span)
        balls = ceil(span[0] / yarn.ball_m), ceil(span[1] / yarn.ball_m)
        return YarnNeed(letter, grams, metres, balls[1], ends, span, balls)
    width_mm, height_mm = yarn.swatch_mm or (gauge.over.mm, gauge.over.mm)
    worked_g = area_mm2 / (width_mm * height_mm) * yarn.swatch_weight_g
    weighed = per_gram or (worked_m / worked_g if worked_g else 0.0)
    total_g = worked_g * (1 + SPARE) + (loose_m / weighed if weighed else 0.0)
    metres_known = total_g * per_gram if per_gram else None
    return YarnNeed(letter, total_g, metres_known, ceil(total_g / yarn.ball_g) if yarn.ball_g else None, ends)


def _assumptions(
    plan: Plan, pattern: Pattern, more_of: Mapping[str, float], edges: Edges, shared: bool
) -> tuple[str, ...]:  # fmt: skip
    yarn, gauge = pattern.yarn, pattern.gauge
    unit = plan.unit
    ends = f"This includes {'6 in' if unit == 'in' else '15 cm'} for each end to weave in"
    weighed = yarn.swatch_weight_g is not None
    more = [f"{ends}, and {show_percent(SPARE)} to spare." if weighed else f"{ends}."]
    if edges.seam_mm:
        more.append(f"Sewing is counted at {SEWING:g} times the length of the seams.")
    if pattern.border and EDGING_HEIGHTS.get(pattern.border.edging):
        more.append(f"How tall the {pattern.border.edging} edging comes out is an estimate.")
    if sewn_handles(plan) is not None:
        letter = border_colour(pattern)
        more.append(f"The yarn of the handles is in {f'that of {letter}' if letter else 'it'}.")
    if OBJECT_KINDS[plan.kind].make > 1:
        more.append(f"It is the yarn of {'both' if OBJECT_KINDS[plan.kind].make == 2 else 'all of them'}.")
    if shared:
        more.append("Rows in several colours count in equal shares: an estimate.")
    if yarn.swatch_weight_g is None:
        added = [(letter, factor) for letter, factor in more_of.items() if factor > 1.001]
        parts = [f"{show_percent(round(factor - 1, 2))}{f' to {letter}' if letter else ''}" for letter, factor in added]
        texture = f" Raised stitches add {' and '.join(parts)}, an estimate." if parts else ""
        told = yarn_unit(pattern)
        square_mm = (4 * MM_PER_INCH) ** 2 if unit == "in" else 100.0**2
        per_square = show_metres(YARN_PER_AREA / thickness_mm(plan) * square_mm / 1000, told)
        square = "a square of 4 in" if unit == "in" else "100 cm² of fabric"
        take = "takes" if unit == "in" else "take"
        return (
            f"An estimate: no swatch was weighed. At this gauge {square} {take} about {per_square} of yarn; "
            f"the range given is {show_percent(LEAST_OF)} to {show_percent(MOST_OF)} of that, as in published pieces; "
            f"the balls to buy, and the booklet's figures, are for the most. To be sure, weigh a swatch.{texture}",
            *more,
        )
    size = yarn.swatch_mm or (gauge.over.mm, gauge.over.mm)
    given = (
        "" if yarn.swatch_mm else " (taken to be as large as the gauge's length, for no swatch_size is given)"
    )
    if not (yarn.ball_m and yarn.ball_g):
        more.append("The weight of the ends is an estimate, for no ball is given.")
    square = " x ".join(show_length(mm, "in") if unit == "in" else f"{mm / 10:g}" for mm in size)
    square += "" if unit == "in" else " cm"
    weighs = show_grams(yarn.swatch_weight_g or 0.0, unit) if unit == "in" else f"{yarn.swatch_weight_g:g} g"
    return (
        f"Calculated from a swatch of {square}{given} that weighs {weighs}.",
        *more,
    )
