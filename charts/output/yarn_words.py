"""The yarn of a piece as plain Markdown: what each colour takes, and what was assumed."""

from __future__ import annotations

from ..drawing.plain import markdown
from ..model.sizing.yarn import YarnNeed, YarnReport
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
        known.append(f"balls of {yarn.ball_g:.4g} g and {yarn.ball_m:.4g} m")
    return ", ".join(known)[:1].upper() + ", ".join(known)[1:] + "." if known else ""


#: What stands over the cells of a need.
HEAD = ("colour", "weight", "length", "balls", "ends to weave in")
#: A cell of which nothing is known.
NOT_KNOWN = "not known"


def _need_line(need: YarnNeed, pattern: Pattern, estimated: bool) -> str:
    return f"| {' | '.join(markdown(cell) for cell in need_cells(need, pattern, estimated))} |"


def need_cells(need: YarnNeed, pattern: Pattern, estimated: bool) -> tuple[str, ...]:
    """A colour's name, weight, length, balls and ends; "about" where no swatch was weighed."""
    name = next((f"{c.letter} ({c.name})" for c in pattern.colours if c.letter == need.letter), "the yarn")
    about = "about " if estimated else ""
    weight = f"{about}{need.grams:.0f} g" if need.grams is not None else NOT_KNOWN
    length = f"{about}{need.metres:.0f} m" if need.metres is not None else NOT_KNOWN
    if need.metres_range:
        length += f" ({need.metres_range[0]:.0f} to {need.metres_range[1]:.0f} m)"
    return name, weight, length, _balls(need), str(need.ends)


def _balls(need: YarnNeed) -> str:
    """Whole balls; of an estimate the fewest and the most that may be needed."""
    if need.balls is None:
        return NOT_KNOWN
    fewest, most = need.balls_range or (need.balls, need.balls)
    return str(most) if fewest == most else f"{fewest} to {most}"
