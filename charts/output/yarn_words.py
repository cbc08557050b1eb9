"""The yarn of a piece as plain Markdown: what each colour takes, and what was assumed."""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil

from ..drawing.plain import markdown
from ..measure import show_grams, show_metres, show_percent
from ..model.sizing.yarn import MOST_OF, YarnNeed, YarnReport, yarn_unit
from ..pattern.file.records import Pattern


def yarn_words(pattern: Pattern, report: YarnReport) -> str:
    """A table of the colours and a line for each assumption; "about" where no swatch was weighed."""
    lines = [f"# {markdown(pattern.title)}: yarn", "", *_yarn_line(pattern)]
    lines += [f"| {' | '.join(HEAD)} |", "|---|---:|---:|---:|---:|"]
    lines += [_need_line(need, pattern, report.estimated) for need in report.needs]
    return "\n".join([*lines, "", *(f"- {markdown(says)}" for says in report.assumptions), ""])


def _yarn_line(pattern: Pattern) -> list[str]:
    said = markdown(yarn_line(pattern))
    return [said, ""] if said else []


def yarn_line(pattern: Pattern) -> str:
    """What the pattern says of its yarn in a sentence; "" where it says nothing."""
    yarn, known = pattern.yarn, []
    if yarn.category is not None:
        known.append(f"yarn weight category {yarn.category}")
    if yarn.fibre:
        known.append(yarn.fibre)
    if yarn.ball_g and yarn.ball_m:
        known.append(f"balls of {yarn.label}")
    return ", ".join(known)[:1].upper() + ", ".join(known)[1:] + "." if known else ""


#: What stands over the cells of what to buy, and a yard in metres.
TO_BUY, YARD_M = ("colour", "weight", "metres", "yards", "balls", "ends to weave in"), 0.9144
#: An estimate to buy by is rounded up to so many metres and grams.
_BOUGHT_IN = 5


def buying_cells(need: YarnNeed, pattern: Pattern) -> tuple[str, ...]:
    """A colour's name and one figure each to buy by: of an estimate the most that may be needed, rounded up."""
    name, weight, length, balls, ends = need_cells(need, pattern, False)
    metres = need.metres
    if need.metres_range and need.metres:
        metres = _bought(need.metres_range[1], need.balls, pattern.yarn.ball_m)
        most = need.grams * need.metres_range[1] / need.metres if need.grams is not None else None
        grams = _bought(most, need.balls, pattern.yarn.ball_g) if most is not None else None
        weight = _weight(grams, pattern) if grams is not None else NOT_KNOWN
        balls = str(need.balls) if need.balls is not None else NOT_KNOWN
        length = f"{metres:.0f} m"
    elif need.grams is not None:
        weight = _weight(need.grams, pattern)
    yards = f"{ceil(metres / YARD_M - 1e-6)} yd" if metres is not None else NOT_KNOWN
    return name, weight, length, yards, balls, ends


def _bought(most: float, balls: int | None, ball: float | None) -> float:
    """The most that may be needed rounded up to buy by, but not past the whole balls that hold it."""
    rounded = float(ceil(most / _BOUGHT_IN) * _BOUGHT_IN)
    return min(rounded, balls * ball) if balls and ball else rounded


def _weight(grams: float, pattern: Pattern) -> str:
    """A weight to buy by, in ounces too where the yarn is told so."""
    return f"{grams:.0f} g" + (f" ({show_grams(grams, 'in')})" if yarn_unit(pattern) == "in" else "")


def buying_note(reports: Sequence[YarnReport], pattern: Pattern) -> str:
    """How the figures to buy by were found, and what of an estimate is likely; of several sizes as a share of them."""
    weighed = not any(report.estimated for report in reports)
    if weighed:
        return "Reckoned from a weighed swatch, with 15 % to spare and 15 cm (6 in) for each end."
    likely = f"about {show_percent(round(1 / MOST_OF, 1))} of them"
    if len(reports) == 1:
        likely = _listed([_likely(need, pattern) for need in reports[0].needs])
    return (
        "Reckoned from the gauge, as no swatch was weighed: the figures are the most that pieces of this gauge take, "
        f"so that you do not run short; most take less, {likely}. 15 cm (6 in) for each end are in them."
    )


def _likely(need: YarnNeed, pattern: Pattern) -> str:
    """What a colour takes in most pieces: "about 95 m of A"."""
    _, _, length, *_ = need_cells(need, pattern, True)
    return length.split(" (")[0] + (f" of {need.letter}" if need.letter else "")


def _listed(said: Sequence[str]) -> str:
    return said[0] if len(said) == 1 else f"{', '.join(said[:-1])} and {said[-1]}"


#: What stands over the cells of a need.
HEAD = ("colour", "weight", "length", "balls to buy", "ends to weave in")
#: A cell of which nothing is known.
NOT_KNOWN = "not known"


def _need_line(need: YarnNeed, pattern: Pattern, estimated: bool) -> str:
    return f"| {' | '.join(markdown(cell) for cell in need_cells(need, pattern, estimated))} |"


def need_cells(need: YarnNeed, pattern: Pattern, estimated: bool) -> tuple[str, ...]:
    """A colour's name, weight, length, balls and ends; "about" where no swatch was weighed."""
    name = next((f"{c.letter} ({c.name})" for c in pattern.colours if c.letter == need.letter), "the yarn")
    about = "about " if estimated else ""
    unit = yarn_unit(pattern)
    weight = f"{about}{show_grams(need.grams, unit)}" if need.grams is not None else NOT_KNOWN
    length = f"{about}{show_metres(need.metres, unit)}" if need.metres is not None else NOT_KNOWN
    if need.metres_range:
        fewest, most = (show_metres(metres, unit) for metres in need.metres_range)
        length += f" ({fewest.split()[0]} to {most})"
    return name, weight, length, _balls(need), str(need.ends)


def _balls(need: YarnNeed) -> str:
    """Whole balls to buy; of an estimate the most that may be needed, and how few may do."""
    if need.balls is None:
        return NOT_KNOWN
    fewest, most = need.balls_range or (need.balls, need.balls)
    return str(most) if fewest == most else f"{most} ({fewest} may do)"
