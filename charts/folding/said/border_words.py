"""The border in words: how the piece is held, every side with its counts and places, and what follows."""

from __future__ import annotations

from collections.abc import Sequence

from ...made_late import replace
from ..border import BorderPlan
from ..edges import EdgeRun
from ..edgings import Edging
from ..stretch import Stretch


def border_steps(border: BorderPlan) -> list[str]:
    """The border: how the piece is held, what stays without a border, where it starts and which way it goes; every side
    with its counts, after the first one the easing; the total, later rounds.
    """
    sides = max(s.side for s in border.stretches) + 1
    worked = stitch_words(border)
    steps = [" ".join([begin_sentence(border), *bare_sentences(border)])]
    told = [side_sentence(border, side) for side in range(sides)]
    steps += [*told[:1], easing_sentence(border), *told[1:], total_sentence(border)]
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


def begin_sentence(border: BorderPlan) -> str:
    """How the piece is held, where the yarn is joined, which way the round goes, and which stitch is its first."""
    way = "left to right" if border.clockwise else "right to left"
    yarn, worked = border.colour or "the yarn", stitch_words(border)
    first = ", round 1" if len(border.totals) > 1 or border.edging else ""
    said = (
        f"Border{first}: with {border.held}, join {yarn} at the {corner_name(border)} corner, ch 1 (does not count "
        f"as a st), and work {worked} all round, {way} along the edge that faces up, {corner_words(border)}"
    )
    first = _first_place(border.stretches[0])
    said += f"; the first {worked} goes {first}" if first else ""
    last = border.corner_after(max(s.side for s in border.stretches))
    return f"{said}. The corner where you begin gets its stitches last." if last else f"{said}."


def _first_place(s: Stretch) -> str:
    """Where the round's first stitch goes; "" where no place is counted."""
    if not s.worked:
        return ""
    number = s.worked[0]
    if s.facing.edge == "fold":
        return f"round the post of stitch {number} of row {s.beside}" if s.beside else f"round the end of row {number}"
    return f"into {'row end' if s.facing.counts == 'row ends' else 'stitch'} {number}"


def bare_sentences(border: BorderPlan) -> list[str]:
    """The edges that get no border, where there are any."""
    return [f"No border goes along {' or '.join(border.bare)}."] if border.bare else []


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
    if border.corners and any(s.mouth for s in border.stretches):
        many = len(border.corners)
        there = "both corners" if many == 2 else f"each of the {many} corners"
        said = f"{outer[0]} in one at {there} away from the opening, none at the opening"
    if len(outer) > 1:
        said += f" ({outer[-1]} at the blunt ones)"
    if not any(c.inner for c in border.corners):
        return said
    return f"{said}, 1 over {'3 sts' if later else 'the last and first sts'} at each inner corner"


def corner_name(border: BorderPlan, at: tuple[float, float] | None = None) -> str:
    """Where the border starts, or the corner `at` a place, as lying with the outside facing: "top right"."""
    xs = [s.start[0] for s in border.stretches]
    ys = [s.start[1] for s in border.stretches]
    x, y = at or border.start
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
    said = "; ".join(
        f"{s.count} {along_words(s)}{_numbered_from(s)}{f' ({s.spacing})' if s.spacing else ''}" for s in here
    )
    total = sum(s.count for s in here)
    if _repeats_earlier(border, side):
        counts = ", ".join(str(s.count) for s in here)
        said = f"the same as the edge facing it, the other way ({counts})"
    sums = f" = {total}" if len(here) > 1 else ""
    return f"{_capital(side_name(border, side))}: {said}{sums}{turn_words(border, side)}."


def _numbered_from(s: Stretch) -> str:
    """From which edge the stitches along a fold are numbered: not as a wrong-side row works them, but as row 1."""
    if not _fold_row(s) or len(s.worked) < 2:
        return ""
    low, high = (s.start, s.end) if s.worked[0] < s.worked[-1] else (s.end, s.start)
    level = abs(high[0] - low[0]) > abs(high[1] - low[1])
    edge = ("left" if low[0] < high[0] else "right") if level else ("top" if low[1] < high[1] else "bottom")
    return f", numbered from the {edge} edge"


def side_cells(border: BorderPlan, side: int) -> list[tuple[str, str]]:
    """One side as lines of a table in which sizes stand side by side: what a stretch goes along, and its numbers; at
    last the side's sum with its corner."""
    here, called = border.of_side(side), _capital(side_name(border, side))
    turn = turn_words(border, side).removeprefix("; ") or "no corner"
    sums = f"{sum(s.count for s in here)} in all; {turn}"
    if _repeats_earlier(border, side):
        counts = ", ".join(str(s.count) for s in here)
        return [(f"{called}: as the edge facing it, the other way", f"{counts} = {sums}")]
    cells = []
    for s in here:
        numbers = s.facing.each if s.facing.counts == "row ends" else s.worked
        row = f" of row {s.beside}" if _fold_row(s) else ""
        shown = f"{numbers[0]}–{numbers[-1]}{row}: " if numbers and not s.mouth else ""
        name = f"{called}: {_stretch_name(s)}{_numbered_from(s)}"
        cells.append((name, f"{shown}{s.count} sts{f', {s.spacing}' if s.spacing else ''}"))
    if len(here) == 1:
        return [(cells[0][0], f"{cells[0][1]}; {turn}")]
    return [*cells, (f"{called}, sum", sums)]


def _fold_row(s: Stretch) -> bool:
    """Whether a stretch goes round the posts of one row, which lies along a fold."""
    return s.facing.edge == "fold" and bool(s.beside)


def _stretch_name(s: Stretch) -> str:
    """What a stretch goes along, without its numbers."""
    if s.mouth:
        return "round the opening, one layer at a time"
    layers = f", {s.layers} layers" if s.layers > 1 else ""
    if s.facing.edge == "fold":
        return f"the fold, round the posts of stitches{layers}" if s.beside else f"the fold{layers}"
    names = {"row ends": "row ends", "foundation": "foundation stitches", "last row": "tops of the last row"}
    return f"{names.get(s.facing.edge, s.facing.edge)} of the {s.facing.part}{layers}"


def turn_words(border: BorderPlan, side: int) -> str:
    """What is worked in the corner after a side, and in whose place; "" where the edge goes on."""
    corner = border.corner_after(side)
    if corner is None:
        return ""
    if corner.inner:
        return "; 1 over the inner corner"
    sides = max(s.side for s in border.stretches) + 1
    s = border.of_side(side)[-1] if corner.ends else border.of_side((side + 1) % sides)[0]
    if s.facing.counts in ("row ends", "slant") or not s.facing.each:
        return f"; {corner.count} in the corner"
    number = s.facing.each[-1 if corner.ends else 0]
    whose = f"stitch {number}" if corner.ends else f"stitch {number} of the {side_name(border, s.side)}"
    return f"; {corner.count} in the corner ({whose})"


def _repeats_earlier(border: BorderPlan, side: int) -> bool:
    """Whether the side is an earlier one met the other way: the same counts, layers and spacing."""

    here = border.of_side(side)[::-1]
    earlier = (border.of_side(k) for k in range(side))
    return len(here) > 1 and any(
        len(there) == len(here) and all(map(_alike, here, there)) for there in earlier
    )


def _alike(one: Stretch, other: Stretch) -> bool:
    """Whether two stretches take as many stitches through as many layers, spread in the same words or over the same
    places."""
    same = (one.count, one.layers, one.facing.edge) == (other.count, other.layers, other.facing.edge)
    placed = [sorted((at, n) for at, n in zip(s.facing.each, s.each, strict=False) if n) for s in (one, other)]
    return same and (one.spacing == other.spacing or placed[0] == placed[1])


def _met(runs: Sequence[EdgeRun]) -> list[EdgeRun]:
    """The edges of an opening as they are met: there along the first, back along the other."""
    return [runs[0], *(replace(run, first=run.last, last=run.first) for run in runs[1:])]


def along_words(s: Stretch) -> str:
    """Along what a stretch goes, and through how many layers."""
    if s.mouth:
        along = ", then along ".join(_edge_words(run) for run in _met(s.runs))
        return f"round the opening, one layer at a time, along {along}"
    through = {1: "", 2: " through both layers", 3: " through all three layers"}.get(
        s.layers, f" through {s.layers} layers"
    )
    if s.facing.edge == "fold":
        return f"along the fold{through}, {_fold_places(s)}"
    return f"along {_edge_words(s.facing, s.worked)}{through}"


def _fold_places(s: Stretch) -> str:
    """Where the hook goes at a fold, which has no tops: round the posts beside it (common practice, no source)."""
    if not s.beside:
        return "round the end of each row"
    return f"round the posts of stitches {s.worked[0]}–{s.worked[-1]} of row {s.beside}" if s.worked else "at the fold"


def _edge_words(run: EdgeRun, worked: Sequence[int] = ()) -> str:
    lo, hi = (worked[0], worked[-1]) if worked and run.counts != "row ends" else (run.first, run.last)
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
    worked = stitch_words(border)
    by_gauge = border.by.startswith("border gauge")
    ruled = "" if by_gauge else f" The counts follow the {border.by}; trust your own edge more."
    return f"{' + '.join(parts)} = {border.total} {worked}; join with a sl st to the first {worked}{ends}.{ruled}"


def easing_sentence(border: BorderPlan) -> str:
    """What to do where the edge does not lie flat: said after its first side."""
    e = border.easing
    less, more = (f"one st in every {every} (about {total} in all)" for every, total in
                  ((e.leave_out_every, e.fewer), (e.add_every, e.more)))  # fmt: skip
    return f"Look at this edge before you go on: if it ruffles, leave out {less}; if it pulls in, add {more}."


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
