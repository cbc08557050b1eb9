"""The sheet for those who try a pattern before it is published: what to measure, count and say."""

from __future__ import annotations

from collections.abc import Mapping

from ...drawing.plain import markdown
from ...measure import show_grams, show_length, show_metres
from ...model.sizing.yarn import YarnReport
from ..booklet.sized import merged
from ..piece import Piece

_BLANK = "__________"
_QUESTIONS = (
    "Which row did you have to read twice?", "Where did words and chart differ?",
    "Did it fit as it should? Where did it pull or ruffle?", "May you be thanked by name?",
)  # fmt: skip


def tester_sheet(sizes: Mapping[str, tuple[Piece, YarnReport]]) -> str:
    """The sheet as Markdown: what the pattern says in each of its sizes (one, under any name, where it has no others)
    beside a blank for what came out."""
    pattern = next(iter(sizes.values()))[0].pattern
    many = len(sizes) > 1
    says = [f"size {name}" for name in sizes] if many else ["the pattern says"]
    lines = [f"# {markdown(pattern.title)}: sheet for testers", ""]
    lines += ["Write down what came out, also where it agrees.", ""]
    lines += [f"| {' | '.join(['what', *map(markdown, says), 'yours'])} |", "|---" * (len(says) + 2) + "|"]
    if many:
        lines.append(f"| size made |{'  |' * len(says)} {_BLANK} |")
    for every in zip(*(_asked(piece, yarn) for piece, yarn in sizes.values()), strict=True):
        what = merged([what for what, _ in every]) or every[0][0]
        cells = [what, *(said for _, said in every)]
        lines.append(f"| {' | '.join(map(markdown, cells))} | {_BLANK} |")
    for question in _QUESTIONS:
        lines += ["", f"{question} {_BLANK}"]
    return "\n".join([*lines, ""])


def _asked(piece: Piece, yarn: YarnReport) -> list[tuple[str, str]]:
    """What is measured and counted, and what the pattern says of it, in one size."""
    pattern, plan, gauge = piece.pattern, piece.plan, piece.pattern.gauge
    asked = [("yarn, colour, fibre", pattern.yarn.fibre), ("hook", pattern.hook),
             (f"stitches over {gauge.over.text}, blocked", f"{gauge.stitches:g}"),
             (f"rows over {gauge.over.text}, blocked", f"{gauge.rows:g}" if gauge.rows else "not counted")]  # fmt: skip
    asked += [("chains", str(plan.foundation)), ("stitches in row 1", str(piece.fabric.rows[0].row.made))]
    for section in plan.sections:
        last = section.first_row + section.rows - 1
        asked.append((f"length of {section.name}, after row {last}", show_length(section.length_mm, plan.unit)))
    asked += [(f"width after row {plan.rows}", show_length(plan.finished_mm["across"], plan.unit))]
    if piece.border is not None:
        over_all = plan.over_all_mm.items()
        asked += [(f"{name}, over all, with the border", show_length(mm, plan.unit)) for name, mm in over_all]
    about = "about " if yarn.estimated else ""
    for need in yarn.needs:
        grams, unit = need.grams, plan.unit
        said = about + (show_metres(need.metres or 0, unit) if grams is None else show_grams(grams, unit))
        asked.append((f"yarn used, {need.letter or 'in all'} (weigh before and after)", said))
    return [*asked, ("hours", ""), ("difficulty, from 1 to 5", "")]
