"""A row that does not add up, drawn over its base: what was made, what is left over, what is missing.

What is left of the row below is ringed and counted; what the words still ask for after the base has run out
is drawn beside it as open frames with a question mark. The picture goes with the words of the problem.
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence

from hookfold.symbols import Mark, extent, moved
from hookfold.symbols.pen import circle, strokes

from ...drawing.display import Group, Ink, Sheet, Text
from ...drawing.geometry import Affine, ink_of, number
from ...drawing.letters import text_width, wrapped
from ...drawing.style import style
from ...made_late import dataclass, replace
from ...model.cloth.fabric import Foot, Role, Row, Stitch
from ...setting import ScForm
from ..placing.feet import Bases
from ..placing.ink import inked, mark_of, row_inks
from ..placing.laid import LEAST_SPREAD
from ..placing.placed import Spot
from ..placing.row import lay_row
from ..placing.tops import rise_of
from ..placing.tracks import FlatWay
from .page import DARK, QUIET, SMALL_MM

Item = Ink | Text | Group

STITCH_MM = 6.0
MARGIN_MM = 5.0
RING_RADIUS = 0.38
#: The way of one chain against a stitch, and how far apart the base is set at most.
CHAIN_WIDE, WIDEST = 0.35, 2.0


@dataclass(frozen=True, slots=True)
class Mistake:
    """A row that does not add up.

    `base` is the row below as worked, `made` the items worked into it so far, `left` the items of the base
    (by their place in its order of work) that nothing went into, `missing` the stitches that the words still
    ask for. `turned` says that the work was turned before it, so that it runs against the order of its base.
    `shown` are the items of the base that are drawn, where that is only the end of the row; () for all.
    """

    base: Row
    made: tuple[Stitch, ...]
    left: tuple[int, ...] = ()
    missing: tuple[str, ...] = ()
    says: str = ""
    leftward: bool = True
    turned: bool = True
    shown: tuple[int, ...] = ()


def mistake_sheet(mistake: Mistake, *, sc_form: ScForm = "plus", mono: bool = False) -> Sheet:
    """The picture of a mistake, as wide as it needs to be, with its sentence underneath."""
    below, above = _laid(mistake)
    look = style(mono=mono)
    ghosts = _ghosts(mistake, above or below)
    hidden = set(range(len(below))) - set(mistake.shown) if mistake.shown else set()
    below = tuple(replace(s, role="risen") if s.role in ("start", "join") or s.item in hidden else s for s in below)
    marks = [mark_of(s, sc_form) for s in (*below, *above)] + [g for g, _ in ghosts]
    box = _box(marks)
    x = MARGIN_MM - box[0] * STITCH_MM
    y = MARGIN_MM + 4.0 - box[1] * STITCH_MM
    width = max((box[2] - box[0]) * STITCH_MM + 2 * MARGIN_MM, 60.0)
    items: list[Item] = [
        Group(
            "row-below",
            inked(row_inks(below, STITCH_MM, sc_form), x, y, STITCH_MM, QUIET, "row-below"),
            "The row below",
        ),
        Group(
            "row-made",
            inked(row_inks(above, STITCH_MM, sc_form), x, y, STITCH_MM, look.right_side, "row-made"),
            "Worked so far",
        ),
    ]
    items += _left_over(mistake, below, x, y, look.accent)
    items += _missing(ghosts, x, y, look.accent)
    foot = y + box[3] * STITCH_MM + 6.0
    said, height = _sentence(mistake, width, foot)
    return Sheet(width, foot + height + MARGIN_MM, mistake.says or said_of(mistake), (*items, *said))


def said_of(mistake: Mistake) -> str:
    """What is wrong, in numbers.

    >>> said_of(Mistake(Row(()), (), left=(0, 1)))
    '2 stitches of the row below are left over.'
    """
    over, short = len(mistake.left), len(mistake.missing)
    if over:
        return f"{over} stitch{'' if over == 1 else 'es'} of the row below {'is' if over == 1 else 'are'} left over."
    if short:
        return f"The row below runs out {short} stitch{'' if short == 1 else 'es'} too early."
    return "The row adds up."


def _laid(mistake: Mistake) -> tuple[tuple[Spot, ...], tuple[Spot, ...]]:
    """The base as a level row of its own, and what was made over it."""
    sign = -1.0 if mistake.leftward else 1.0
    below = _base_spots(mistake.base, -sign if mistake.turned else sign, _spacing(mistake))
    bases: Bases = {1: below}
    top = lay_row(Row(mistake.made), bases, FlatWay(sign)) if mistake.made else None
    return below, tuple(_bare(s) for s in top.spots) if top else ()


def _spacing(mistake: Mistake) -> float:
    """How far apart the stitches of the base are set: wide enough that what stands on them does not lean out."""
    tops = sum(s.chains * CHAIN_WIDE if s.role == "chain" else s.role in ("stitch", "turning") for s in mistake.made)
    used = {foot.at for s in mistake.made for foot in s.feet if foot.back == 1}
    spacing = tops / max(len(used), 1)
    return min(max(spacing, LEAST_SPREAD), WIDEST) if spacing > 1.05 else 1.0


def _bare(spot: Spot) -> Spot:
    """A spot as it is drawn here: what closes a round has no place beside a row laid out straight."""
    return replace(spot, role="risen") if spot.role == "join" else spot


def _base_spots(base: Row, sign: float, spacing: float) -> tuple[Spot, ...]:
    """The row below as if each of its stitches stood on a place of its own, `spacing` apart, its level at y = 0."""
    ground: list[Spot] = []
    feet: list[Stitch] = []
    for item, made in enumerate(base.stitches):
        ground.append(Spot(item, "ch", "risen", (sign * spacing * item, 0.0)))
        placed = made.role in ("stitch", "turning", "travel", "foundation")
        feet.append(
            Stitch(
                made.kind, (Foot(item),) if placed else (), _role(made), made.chains, -1, made.legs, made.base
            )
        )
    laid = lay_row(Row(tuple(feet)), {1: ground}, FlatWay(sign))
    if all(s.role == "foundation" for s in base.stitches):
        return tuple(Spot(i, "ch", "foundation", (sign * spacing * i, 0.0)) for i in range(len(base.stitches)))
    return tuple(s.moved(0.0, laid.rise) for s in laid.spots)


def _role(made: Stitch) -> Role:
    return "stitch" if made.role in ("travel", "foundation") else made.role


def _left_over(mistake: Mistake, below: Sequence[Spot], x: float, y: float, colour: str) -> list[Item]:
    """A ring round the head of everything that nothing went into, and the count above the middle of them."""
    spots = [below[i] for i in mistake.left if 0 <= i < len(below)]
    if not spots:
        return []
    rings = [(strokes(circle((s.head[0], s.head[1] - 0.1), RING_RADIUS)), _to(x, y)) for s in spots]
    items: list[Item] = list(ink_of(rings, STITCH_MM, colour, "left over", pen=0.07))
    middle = sum(s.head[0] for s in spots) / len(spots)
    high = min(s.head[1] for s in spots) - 0.75
    words = f"{len(spots)} left over"
    items.append(
        Text(
            x + middle * STITCH_MM,
            y + high * STITCH_MM,
            words,
            SMALL_MM,
            "middle",
            "bold",
            colour,
            name="left over count",
        )
    )
    return [Group("left-over", tuple(items), words)]


def _ghosts(mistake: Mistake, row: Sequence[Spot]) -> list[tuple[Mark, str]]:
    """An open frame for each stitch that has nothing to go into, beyond the end of the row in its
    direction.
    """
    way = -1.0 if mistake.leftward else 1.0
    heads = [s.head for s in row if s.role in ("stitch", "turning", "chain")] or [(0.0, 0.0)]
    end = max(heads, key=lambda p: way * p[0])
    ghosts = []
    for k, kind in enumerate(mistake.missing):
        height = rise_of(kind, 2) if kind else 1.0
        left = end[0] + way * (k + 1) - 0.36
        frame = _frame(height)
        ghosts.append((moved(frame, left, 0.0), kind))
    return ghosts


def _frame(height: float) -> Mark:
    """A dashed upright box, one stitch wide, standing on y = 0."""
    pieces = []
    corners = [(0.0, 0.0), (0.72, 0.0), (0.72, -height), (0.0, -height), (0.0, 0.0)]
    for (ax, ay), (bx, by) in itertools.pairwise(corners):
        steps = max(2, round((abs(bx - ax) + abs(by - ay)) / 0.18) // 2 * 2 + 1)
        for i in range(0, steps, 2):
            a, b = i / steps, (i + 1) / steps
            pieces.append(
                (
                    ("M", ((ax + (bx - ax) * a, ay + (by - ay) * a),)),
                    ("L", ((ax + (bx - ax) * b, ay + (by - ay) * b),)),
                )
            )
    return Mark(strokes=tuple(pieces))


def _missing(ghosts: Sequence[tuple[Mark, str]], x: float, y: float, colour: str) -> list[Item]:
    if not ghosts:
        return []
    items: list[Item] = list(
        ink_of([(g, _to(x, y)) for g, _ in ghosts], STITCH_MM, colour, "missing", pen=0.07)
    )
    for mark, kind in ghosts:
        box = extent(mark)
        middle = x + (box[0] + box[2]) / 2.0 * STITCH_MM
        items.append(
            Text(
                middle, y + (box[1] + box[3]) / 2.0 * STITCH_MM + 1.0, "?", SMALL_MM, "middle", "bold", colour
            )
        )
        fits = text_width(kind, SMALL_MM) <= STITCH_MM
        if fits:
            items.append(Text(middle, y + box[1] * STITCH_MM - 1.2, kind, SMALL_MM, "middle", colour=colour))
    return [Group("missing", tuple(items), f"{len(ghosts)} missing")]


def _to(x: float, y: float) -> Affine:
    return Affine.shift(x, y) @ Affine.scale(STITCH_MM)


def _box(marks: Sequence[Mark]) -> tuple[float, float, float, float]:
    boxes = [extent(m) for m in marks if m.strokes or m.fills] or [(0.0, -1.0, 1.0, 0.0)]
    return (
        min(b[0] for b in boxes), min(b[1] for b in boxes) - 0.6, max(b[2] for b in boxes), max(b[3] for b in boxes),
    )  # fmt: skip


def _sentence(mistake: Mistake, width: float, foot: float) -> tuple[list[Item], float]:
    said = mistake.says or said_of(mistake)
    if mistake.shown and len(mistake.shown) < len(mistake.base.stitches):
        said += ". Only the end of the row is drawn."
    lines = wrapped(said, width - 2 * MARGIN_MM, SMALL_MM)
    rule = Ink(
        f"M{number(MARGIN_MM)} {number(foot - 3.6)}L{number(width - MARGIN_MM)} {number(foot - 3.6)}",
        stroke=QUIET,
        width=0.15,
    )
    texts: list[Item] = [
        Text(MARGIN_MM, foot + 0.6 + k * SMALL_MM * 1.4, line, SMALL_MM, colour=DARK)
        for k, line in enumerate(lines)
    ]
    return [rule, *texts], len(lines) * SMALL_MM * 1.4
