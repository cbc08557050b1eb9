"""Yarn for each colour, with what was assumed.

Best is a weighed swatch: yarn = area / swatch area x swatch weight. Without one, the length of yarn in a
piece of fabric is estimated from a published test, in which rows of sc, hdc and dc used 31.4, 32.1 and 31.6
in of yarn per square inch, and labelled as an estimate.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import ceil

from hookfold.symbols.dictionary import heights

from ...measure import MM_PER_INCH, show_percent
from ...pattern.file.records import Pattern
from .plan import Plan
from .raised import height_kind, raised_name

#: Mean of the published test above: inches of yarn per square inch, so millimetres per mm2 x 25.4.
YARN_MM_PER_MM2 = (31.4 + 32.1 + 31.6) / 3 / MM_PER_INCH
#: To be on the safe side: 10 to 15 % (common practice, no source).
SPARE = 0.15
#: An end to weave in: 15 cm, 6 in (common practice, no source).
END_MM = 150.0


@dataclass(frozen=True, slots=True)
class YarnNeed:
    """The yarn of one colour: grams, metres and whole balls, where they can be known."""

    letter: str
    grams: float | None
    metres: float | None
    balls: int | None


@dataclass(frozen=True, slots=True)
class YarnReport:
    """What each colour needs; `estimated` where no swatch was weighed; `assumptions` in words."""

    needs: tuple[YarnNeed, ...]
    estimated: bool
    assumptions: tuple[str, ...]


def yarn_report(plan: Plan, pattern: Pattern, rows: Sequence[Mapping[str, int]] = ()) -> YarnReport:
    """The yarn of each colour of a planned piece.

    `rows` may give each row's stitches by kind; they weigh raised stitches when no swatch says it. Without
    colours there is one need under the letter "".
    """
    areas = colour_areas_mm2(plan, pattern)
    ends = colour_ends(plan, pattern)
    yarn = pattern.yarn
    weighed = yarn.swatch_weight_g is not None
    factor = 1.0 if weighed else raised_factor(rows)
    needs = tuple(_need(letter, areas[letter] * factor, ends[letter], pattern) for letter in areas)
    return YarnReport(needs, not weighed, _assumptions(pattern, factor))


def colour_areas_mm2(plan: Plan, pattern: Pattern) -> dict[str, float]:
    """The area worked in each colour, the border's among them, in the order of the colours."""
    width_mm = plan.stitches * plan.stitch_mm
    areas: defaultdict[str, float] = defaultdict(float)
    for section in plan.sections:
        for letter, height_mm in zip(section.colours, section.row_heights_mm, strict=True):
            areas[letter] += width_mm * height_mm
    if pattern.border and plan.border_row_mm:
        areas[_border_letter(pattern)] += border_area_mm2(plan)
    order = [c.letter for c in pattern.colours] or [""]
    return {letter: areas[letter] for letter in order if areas[letter]}


def border_area_mm2(plan: Plan) -> float:
    """The border's area: its thickness along the outside of the folded piece."""
    around_mm = 2 * sum(plan.between_mm.values())
    return around_mm * (plan.border_row_mm or 0.0) * plan.border_rounds


def _border_letter(pattern: Pattern) -> str:
    if pattern.border and pattern.border.colour:
        return pattern.border.colour
    return pattern.colours[0].letter if pattern.colours else ""


def colour_ends(plan: Plan, pattern: Pattern) -> dict[str, int]:
    """The ends to weave in of each colour: two for each time it is joined anew.

    A colour that comes back within four rows is carried up the edge.
    """
    rows = [letter for section in plan.sections for letter in section.colours]
    ends: Counter[str] = Counter()
    last: dict[str, int] = {}
    for row, letter in enumerate(rows):
        if letter not in last or row - last[letter] > 4:
            ends[letter] += 2
        last[letter] = row
    if pattern.border:
        ends[_border_letter(pattern)] += 2
    return dict(ends)


def raised_factor(rows: Sequence[Mapping[str, int]]) -> float:
    """How much more yarn the rows take than the same rows without raised stitches: an estimate.

    A raised stitch counts as the legs of dc it is usually made of, four (an estimate; no published ratio is
    known).
    """
    plain, given = 0.0, 0.0
    for row in rows:
        ground = _yarn_of(height_kind(row))
        for kind, count in row.items():
            given += count * (4 * _yarn_of("dc") if raised_name(kind) else _yarn_of(kind))
            plain += count * (ground if raised_name(kind) else _yarn_of(kind))
    return given / plain if plain else 1.0


def _yarn_of(kind: str) -> float:
    """The yarn of one stitch against one sc, from the dictionary of stitches."""
    plain = heights()
    if kind in plain:
        return plain[kind].yarn
    return max((plain[name].yarn for name in plain if name in kind), default=1.0)


def _need(letter: str, area_mm2: float, ends: int, pattern: Pattern) -> YarnNeed:
    yarn, gauge = pattern.yarn, pattern.gauge
    per_gram = yarn.ball_m / yarn.ball_g if yarn.ball_m and yarn.ball_g else None
    ends_m = ends * END_MM / 1000
    grams: float | None
    metres: float | None
    if yarn.swatch_weight_g is not None:
        width_mm, height_mm = yarn.swatch_mm or (gauge.over.mm, gauge.over.mm)
        grams = area_mm2 / (width_mm * height_mm) * yarn.swatch_weight_g * (1 + SPARE)
        grams += ends_m / per_gram if per_gram else 0.0
        metres = grams * per_gram if per_gram else None
    else:
        metres = area_mm2 * YARN_MM_PER_MM2 / 1000 * (1 + SPARE) + ends_m
        grams = metres / per_gram if per_gram else None
    balls = ceil(grams / yarn.ball_g) if grams is not None and yarn.ball_g else None
    return YarnNeed(letter, grams, metres, balls)


def _assumptions(pattern: Pattern, factor: float) -> tuple[str, ...]:
    yarn, gauge = pattern.yarn, pattern.gauge
    spare = f"{show_percent(SPARE)} are added to be on the safe side, and 15 cm for each end to weave in."
    if yarn.swatch_weight_g is None:
        texture = f" Raised stitches add {show_percent(factor - 1)}, an estimate." if factor > 1.001 else ""
        return (
            f"An estimate: no swatch was weighed. {YARN_MM_PER_MM2 * 10:.1f} m of yarn are reckoned for each "
            f"100 cm2 of fabric, from a published test with one yarn; yours may take "
            f"a third more or less.{texture}",
            spare,
        )
    size = yarn.swatch_mm or (gauge.over.mm, gauge.over.mm)
    given = (
        "" if yarn.swatch_mm else " (taken to be as large as the gauge's length, for no swatch_size is given)"
    )
    return (
        f"From the swatch: {yarn.swatch_weight_g:g} g for {size[0] / 10:g} x {size[1] / 10:g} cm{given}.",
        spare,
    )
