"""The finishing in words: folding, joining and the border, with the same counts as the diagram."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from hookfold.symbols.dictionary import heights

from ..measure import show_length
from ..model.sizing.plan import Plan
from ..pattern.file.kinds import OBJECT_KINDS
from .border import BorderPlan, Stretch
from .edges import EdgeRun
from .edgings import Edging
from .folds import Folding, folding_of
from .joins import Join, groups_met, joins_of


def finishing_steps(
    plan: Plan, border: BorderPlan | None, *, terms: str = "US", folding: Folding | None = None
) -> tuple[str, ...]:
    """The steps from the last row to the finished piece, one sentence group each, in US or UK terms.

    `border` None leaves the border out (the layers are then sewn together). The counts are those of `border`
    itself.
    """
    folding = folding or folding_of(plan)
    steps = [f"Fasten off and weave in the ends. {block_sentence(plan, border)}"]
    first = border is not None and border_first(folding, border)
    edge = [*border_steps(border), "Fasten off and weave in the last ends."] if border is not None else []
    if first:
        steps += edge
    if folding.stages:
        steps.append(lay_sentence(folding))
        steps += [fold_sentence(folding, k) for k in range(folding.joined)]
        steps += [join_sentence(j) for j in joins_of(folding)]
        steps += hold_sentences(folding, border)
    if not first:
        steps += edge
    steps += [fold_sentence(folding, k) for k in range(folding.joined, len(folding.stages))]
    steps += after_sentences(plan)
    if OBJECT_KINDS[folding.kind.name].goes_in:
        steps.append(goes_in_sentence(folding))
    return tuple(in_terms(s, terms) for s in steps)


def after_sentences(plan: Plan) -> list[str]:
    """What the kind of piece wants done at the end, with its measurements; what names one not given is left out."""
    shown = {name: show_length(mm, plan.unit) for name, mm in plan.object_mm.items()}
    said = OBJECT_KINDS[plan.kind].after if plan.kind in OBJECT_KINDS else ()
    return [s.format(**shown) for s in said if set(re.findall(r"\{(\w+)\}", s)) <= set(shown)]


def goes_in_sentence(folding: Folding) -> str:
    """How the object goes into the finished piece; "" where nothing does."""
    kind = OBJECT_KINDS[folding.kind.name]
    closes = len(folding.stages) > folding.joined
    return kind.goes_in_says if closes or not kind.goes_in_open else kind.goes_in_open


def block_sentence(plan: Plan, border: BorderPlan | None) -> str:
    """The size to block to: the piece before its border, which is worked into the blocked edge."""
    if OBJECT_KINDS[plan.kind].rounds:
        around, high = (show_length(mm, plan.unit) for mm in plan.finished_mm.values())
        return f"Block it to {around} round and {high} high."
    size = " x ".join(show_length(mm, plan.unit) for mm in plan.finished_mm.values())
    aside = ", the size before the border" if border is not None else ""
    return f"Block the piece flat to {size}{aside}."


def border_first(folding: Folding, border: BorderPlan) -> bool:
    """Whether the border is worked round the flat piece before it is folded: where it joins nothing."""
    return bool(folding.stages) and not border.joins


def hold_sentences(folding: Folding, border: BorderPlan | None) -> list[str]:
    """How the edges are held together, and sewn where the border does not join them."""
    if not joins_of(folding):
        return []
    if border is not None and border.joins:
        return ["Hold the edges together with stitch markers, one at each end of every doubled stretch."]
    inside = ", just inside the border" if border is not None else ""
    return [f"Hold the edges together with stitch markers and sew them through both layers, row for row{inside}."]


def lay_sentence(folding: Folding) -> str:
    """How the piece is laid out before the first fold."""
    side = "wrong side" if folding.start.facets[0].side_up == "WS" else "right side"
    where = {"left": "at the left", "right": "at the right", "near": "towards you", "far": "away from you"}
    return f"Lay the piece flat, {side} up, with the foundation {where[folding.foundation_lies]}."


def fold_sentence(folding: Folding, index: int) -> str:
    """What a fold's panel says: the fold, and how deep it lies."""
    spec = folding.stages[index].spec
    part = next((p for p in folding.piece.parts if p.name == spec.moves), None)
    if part is None:
        return spec.says
    counted = f"{part.count} {folding.piece.axis if part.count != 1 else folding.piece.axis[:-1]}"
    return f"{spec.says.rstrip('.')} ({counted}, {show_length(part.length_mm, folding.piece.unit)})."


def join_sentence(join: Join) -> str:
    """Which numbers lie on which, row for row."""
    over, under = join.runs[-1], join.runs[0]
    where = {1: "", 2: ", at both edges"}.get(join.places, f", in {join.places} places")
    if len(join.runs) > 2:
        said = ", ".join(run_words(r) for r in join.runs[:-1])
        return f"{len(join.runs)} layers: {said} and {run_words(over)} lie together{where}."
    return _capital(f"{run_words(over)} lie on {run_words(under)}{meeting_words(join)}{where}.")


def meeting_words(join: Join) -> str:
    """Which numbers meet, by length: the first and the last, and where the counts differ one in between."""
    over, under = join.runs[-1], join.runs[0]
    if over.count < 2 or under.count < 2:
        return ""
    one = "row" if over.counts == "row ends" else "stitch"
    if over.count == under.count:
        return f": {one} {over.first} meets {under.first}, {over.last} meets {under.last}"
    met = groups_met(join)
    between = max(range(1, len(met) - 1), key=lambda k: (len(met[k][1]), -abs(2 * k - len(met) + 1)), default=0)
    chosen = dict.fromkeys((met[0], met[between], met[-1]))
    fewer_over = over.count < under.count
    said = []
    for number, others in chosen:
        here, there = ((number,), others) if fewer_over else (others, (number,))
        said.append(f"{_numbers(here)} {'meets' if len(here) == 1 else 'meet'} {_numbers(there)}")
    return f", both equally long: {one} {', '.join(said)}"


def _numbers(met: Sequence[int]) -> str:
    return str(met[0]) if len(met) == 1 else f"{met[0]} and {met[1]}" if len(met) == 2 else f"{met[0]} to {met[-1]}"


def run_words(run: EdgeRun) -> str:
    """A run of an edge in words: "row ends 1-9 of the front flap"."""
    names = {
        "row ends": "row ends",
        "stitches": "stitches",
        "chains": "stitches",
        "slant": "the slanting edge",
    }
    lo, hi = run.numbers
    what = names[run.counts]
    if run.edge == "foundation":
        what = "foundation stitches"
    numbers = f" {lo}–{hi}" if hi > lo else f" {lo}" if lo else ""
    return f"{what}{numbers} of the {run.part}"


def border_steps(border: BorderPlan) -> list[str]:
    """The border: where it starts and which way it goes, every side with its counts, the total, the
    easing.
    """
    way = "left to right" if border.clockwise else "right to left"
    sides = max(s.side for s in border.stretches) + 1
    yarn, worked = border.colour or "the yarn", stitch_words(border)
    steps = [
        f"Border, round 1: with the outside facing, join {yarn} at the {corner_name(border)} corner, ch 1, "
        f"and work {worked} all round, {way} along the edge that faces up, "
        f"{corner_words(border)}."
    ]
    steps += [side_sentence(border, side) for side in range(sides)]
    steps.append(total_sentence(border))
    steps.append(easing_sentence(border))
    if any(s.mouth for s in border.stretches):
        steps += [f"Border, round {k}: {worked} in each st round the opening ({n} sts)." for k, n in
                  enumerate(border.totals[1:], 2)]  # fmt: skip
        return steps + ([edging_sentence(border, border.edging)] if border.edging else [])
    for k, total in enumerate(border.totals[1:], 2):
        corners = corner_words(border, later=True)
        steps.append(f"Border, round {k}: {worked} in each st, {corners} ({total} sts).")
    if border.edging:
        steps.append(edging_sentence(border, border.edging))
    return steps


def stitch_words(border: BorderPlan) -> str:
    """The border's stitch as it is written: "sc", "reverse sc"."""
    return {"rsc": "reverse sc"}.get(border.stitch, border.stitch)


def edging_sentence(border: BorderPlan, edging: Edging) -> str:
    """The edging's repeats and words, and what was added or left out for them to come out even."""
    odd = ""
    if border.adjusted:
        done = "added to" if border.adjusted > 0 else "left out of"
        many = abs(border.adjusted)
        odd = f" ({many} {'st' if many == 1 else 'sts'} {done} round 1 so that it comes out even)"
    where = " round the opening" if any(s.mouth for s in border.stretches) else ""
    if edging.of == 1:
        return f"Edging{where}, {border.edged} sts: {edging.words}"
    return f"Edging{where}, {border.edged // edging.of} repeats of {edging.of} sts{odd}: {edging.words}"


def corner_words(border: BorderPlan, *, later: bool = False) -> str:
    """What is worked at the corners, in the first round or a later one."""
    outer = sorted({c.count for c in border.corners if not c.inner}, reverse=True) or [3]
    said = f"{outer[0]} in one at each corner"
    if len(outer) > 1:
        said += f" ({outer[-1]} at the blunt ones)"
    if not any(c.inner for c in border.corners):
        return said
    return f"{said}, 1 over {'3 sts' if later else 'the last and first sts'} at each inner corner"


def corner_name(border: BorderPlan) -> str:
    """Where the border starts, as lying with the outside facing: "top right"."""
    xs = [s.start[0] for s in border.stretches]
    ys = [s.start[1] for s in border.stretches]
    x, y = border.start
    upright = "top" if y < (min(ys) + max(ys)) / 2 else "bottom"
    return f"{upright} {'left' if x < (min(xs) + max(xs)) / 2 else 'right'}"


def side_name(border: BorderPlan, side: int) -> str:
    """Which edge a side is, as lying with the outside facing."""
    here = border.of_side(side)
    (x0, y0), (x1, y1) = here[0].start, here[-1].end
    if abs(x1 - x0) > abs(y1 - y0):
        return "top edge" if (x1 < x0) != border.clockwise else "bottom edge"
    return "left edge" if (y1 > y0) != border.clockwise else "right edge"


def side_sentence(border: BorderPlan, side: int) -> str:
    """One side: its stretches with layers, edge and spacing, then its sum and the corner."""
    here = border.of_side(side)
    said = "; ".join(_stretch_words(s) for s in here)
    total = sum(s.count for s in here)
    if _repeats_earlier(border, side):
        said = f"the same as the edge facing it, the other way ({', '.join(str(s.count) for s in here)})"
    sums = f" = {total}" if len(here) > 1 else ""
    corner = border.corner_after(side)
    turn = (
        ""
        if corner is None
        else f"; {corner.count} in the corner"
        if not corner.inner
        else "; 1 over the inner corner"
    )
    return f"{_capital(side_name(border, side))}: {said}{sums}{turn}."


def _repeats_earlier(border: BorderPlan, side: int) -> bool:
    """Whether the side is an earlier one met the other way: the same counts, layers and spacing."""

    def traits(k: int) -> list[tuple[int, int, str, str]]:
        return [(s.count, s.layers, s.facing.edge, s.spacing) for s in border.of_side(k)]

    return len(traits(side)) > 1 and any(traits(k) == traits(side)[::-1] for k in range(side))


def _met(runs: Sequence[EdgeRun]) -> list[EdgeRun]:
    """The edges of an opening as they are met: there along the first, back along the other."""
    return [runs[0], *(replace(run, first=run.last, last=run.first) for run in runs[1:])]


def _stretch_words(s: Stretch) -> str:
    if s.mouth:
        along = ", then along ".join(_edge_words(run) for run in _met(s.runs))
        spaced = f" ({s.spacing})" if s.spacing else ""
        return f"{s.count} round the opening, one layer at a time, along {along}{spaced}"
    through = {1: "", 2: " through both layers", 3: " through all three layers"}.get(
        s.layers, f" through {s.layers} layers"
    )
    along = "the fold" if s.facing.edge == "fold" else _edge_words(s.facing)
    return (
        f"{s.count} along {along}{through} ({s.spacing})"
        if s.spacing
        else f"{s.count} along {along}{through}"
    )


def _edge_words(run: EdgeRun) -> str:
    lo, hi = run.first, run.last
    names = {
        "row ends": "row ends",
        "foundation": "foundation stitches",
        "last row": "the tops of stitches",
        "tops": "stitches",
    }
    return (
        f"{names.get(run.edge, run.edge)} {lo}–{hi} of the {run.part}"
        if lo
        else f"the edge of the {run.part}"
    )


def total_sentence(border: BorderPlan) -> str:
    """The sum that can be counted on the hook."""
    sides = max(s.side for s in border.stretches) + 1
    parts = []
    for side in range(sides):
        parts.append(str(sum(s.count for s in border.of_side(side))))
        corner = border.corner_after(side)
        if corner:
            parts.append(str(corner.count))
    ends = " of the opening, which stays open" if any(s.mouth for s in border.stretches) else ""
    return (
        f"{' + '.join(parts)} = {border.total} {stitch_words(border)}; join with a sl st to the first{ends}. "
        f"Counted by the {border.by}."
    )


def easing_sentence(border: BorderPlan) -> str:
    e = border.easing
    return (
        f"If the edge ruffles, leave out one st in every {e.leave_out_every} (about {e.fewer} in all); "
        f"if it pulls in, add one in every {e.add_every} (about {e.more})."
    )


_WORD = re.compile(r"(?<![\w-])(" + "|".join(heights()) + r")(?![\w-])", re.IGNORECASE)


def in_terms(text: str, terms: str) -> str:
    """The sentence in US or UK terms (the stitch abbreviations, and "miss" for "sk").

    >>> in_terms("3 sc in one, sk 2", "UK")
    '3 dc in one, miss 2'
    """
    if terms == "US":
        return text
    table = heights()
    changed = _WORD.sub(lambda m: _like(m[0], table[m[0].lower()].uk), text)
    return re.sub(r"\b[Ss]k\b", lambda m: "Miss" if m[0] == "Sk" else "miss", changed)


def _like(old: str, new: str) -> str:
    return new[:1].upper() + new[1:] if old[:1].isupper() else new


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
