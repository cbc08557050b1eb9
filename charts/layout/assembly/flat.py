"""The flat piece: both sides told apart, parts with their rows, dimensions, fold lines, where the work
begins.
"""

from __future__ import annotations

from collections.abc import Sequence

from ...drawing.display import Text
from ...drawing.letters import text_width
from ...drawing.style import Style
from ...folding.facets import Point, carry
from ...folding.folds import Folding
from ...folding.piece import Part
from ...measure import show_length
from ..sheets.marks import (
    Item,
    View,
    centred,
    disc,
    label,
    level_dimension,
    stroke,
    tiers,
    upright_dimension,
    upright_label,
)
from ..sheets.panel import Picture, scale_for, scale_words
from .cloth import cloth, tone

_LEFT, _RIGHT, _TOP, _FOOT = 17.0, 8.0, 9.0, 17.0


def flat_picture(folding: Folding, style: Style, wide: float, tall: float) -> Picture:
    """The piece laid out before the first fold, to scale."""
    left, top, right, bottom = folding.start.silhouette.bounds
    level = runs_level(folding)
    margins = (_LEFT, _TOP + 3.4, _RIGHT, _FOOT) if level else (_LEFT + 8.0, _TOP, _RIGHT + 34.0, _FOOT)
    room = (wide - margins[0] - margins[2], tall - margins[1] - margins[3])
    divisor = scale_for(right - left, bottom - top, *room)
    size = ((right - left) / divisor, (bottom - top) / divisor)

    def draw(x: float, y: float) -> tuple[Item, ...]:
        view = View(1 / divisor, x + margins[0] - left / divisor, y + margins[1] - top / divisor)
        items: list[Item] = [
            cloth(folding.start, folding.piece, view, style),
            *_fold_lines(folding, view, style),
        ]
        items += _level_marks(folding, view, style) if level else _upright_marks(folding, view, style)
        return tuple(items)

    return Picture(
        size[0] + margins[0] + margins[2], size[1] + margins[1] + margins[3], draw, scale_words(divisor)
    )


def runs_level(folding: Folding) -> bool:
    """Whether the parts lie side by side on the page (else one above the other)."""
    return (folding.turned == "sideways") == (folding.piece.axis == "rows")


def part_span(folding: Folding, part: Part, view: View) -> tuple[float, float]:
    """Where a part lies along its axis on the page, on the flat piece as laid."""
    ends = [_placed(folding, along) for along in (part.lo_mm, part.hi_mm)]
    values = [view.at(p)[0 if runs_level(folding) else 1] for p in ends]
    return min(values), max(values)


def _across(folding: Folding, part: Part, view: View) -> tuple[float, float]:
    """How far a part reaches across the page at its middle: a strap is narrower than the piece."""
    line = folding.line_inside(folding.piece.line_at((part.lo_mm + part.hi_mm) / 2))
    ends = [view.at(carry(folding.start.facets[0].to_plane, (x, y))) for x, y in (line.coords[0], line.coords[-1])]
    values = [p[1 if runs_level(folding) else 0] for p in ends]
    return min(values), max(values)


def _placed(folding: Folding, along: float) -> Point:
    (x0, y0), (x1, y1) = folding.piece.line_at(along)
    return carry(folding.start.facets[0].to_plane, ((x0 + x1) / 2, (y0 + y1) / 2))


def _fold_lines(folding: Folding, view: View, style: Style) -> list[Item]:
    """Every fold line on the flat piece, reaching a little past the edges; dashed valley, dash-dot
    mountain.
    """
    items: list[Item] = []
    to_plane = folding.start.facets[0].to_plane
    for stage in folding.stages:
        line = folding.line_inside(stage.spec.line)
        a, b = (view.at(carry(to_plane, (p[0], p[1]))) for p in (line.coords[0], line.coords[-1]))
        dash = style.valley if stage.spec.direction == "over" else style.mountain
        items.append(
            stroke([_reaching(a, b, 1.6)], style.fold_mm * 1.4, style.accent, dash, f"fold {stage.number}")
        )
    return items


def _reaching(a: Point, b: Point, by: float) -> list[Point]:
    """A line made longer at both ends."""
    length = ((b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2) ** 0.5 or 1.0
    ux, uy = (b[0] - a[0]) / length * by, (b[1] - a[1]) / length * by
    return [(a[0] - ux, a[1] - uy), (b[0] + ux, b[1] + uy)]


def _box(folding: Folding, view: View) -> tuple[float, float, float, float]:
    left, top, right, bottom = folding.start.silhouette.bounds
    return (*view.at((left, top)), *view.at((right, bottom)))


def _level_marks(folding: Folding, view: View, style: Style) -> list[Item]:
    """Dimensions and names for parts side by side."""
    x0, y0, x1, y1 = _box(folding, view)
    unit, piece = folding.piece.unit, folding.piece
    items: list[Item] = []
    spans = [
        (part_span(folding, p, view), p)
        for p in sorted(piece.parts, key=lambda p: part_span(folding, p, view))
    ]
    texts = [show_length(p.length_mm, unit) for _, p in spans]
    placed = [centred((a + b) / 2, t, style.small_mm) for ((a, b), _), t in zip(spans, texts, strict=True)]
    raised = tiers(placed, least=[int(_short(r, t, style)) for (r, _), t in zip(spans, texts, strict=True)])
    if len(spans) > 1:
        for ((a, b), part), text, lift in zip(spans, texts, raised, strict=True):
            items += level_dimension(a, b, y0, y0 - 5.0, text, style, raised=lift)
            low, high = _across(folding, part, view)
            ground = tone(folding.start.facets[0].side_up, style)
            said = _name(part, piece.axis, (a, low, b, high), ground, style)
            wide = show_length((high - low) / view.scale, unit)
            items += said or _over(part, piece.axis, (a, low, b, y0), wide, style)
    whole_w, whole_h = (show_length(v / view.scale, unit) for v in (x1 - x0, y1 - y0))
    items += level_dimension(x0, x1, y1 + 3.0, y1 + 9.5, whole_w, style)
    items += upright_dimension(y0, y1, x0, x0 - 10.5, whole_h, style)
    items += _ends(folding, view, style)
    return items


def _upright_marks(folding: Folding, view: View, style: Style) -> list[Item]:
    """Dimensions and names for parts one above the other: names in a column at the right."""
    x0, y0, x1, y1 = _box(folding, view)
    unit, piece = folding.piece.unit, folding.piece
    items: list[Item] = []
    spans = [(part_span(folding, p, view), p) for p in piece.parts]
    texts = [show_length(p.length_mm, unit) for _, p in spans]
    order = sorted(range(len(spans)), key=lambda k: spans[k][0])
    for k in order if len(spans) > 1 else ():
        shown = texts[k] if spans[k][0][1] - spans[k][0][0] > 4.2 else ""
        items += upright_dimension(*spans[k][0], x0, x0 - 5.0, shown, style)
    names = [(sum(spans[k][0]) / 2, spans[k][1]) for k in order]
    for (middle, part), y in zip(names, spread([m for m, _ in names], 8.6), strict=True):
        items += _beside(part, piece.axis, x1 + 5.5, middle, y, style)
    levelled = [
        text_width(t, style.small_mm) for (r, _), t in zip(spans, texts, strict=True) if _short(r, t, style)
    ]
    out = x0 - (9.0 + max(5.0, *levelled, 0.0) if len(spans) > 1 else 7.0)
    items += upright_dimension(y0, y1, x0, out, show_length((y1 - y0) / view.scale, unit), style)
    items += level_dimension(x0, x1, y1 + 3.0, y1 + 9.5, show_length((x1 - x0) / view.scale, unit), style)
    items += _ends(folding, view, style)
    return items


def _name(
    part: Part, axis: str, box: tuple[float, float, float, float], ground: str, style: Style
) -> list[Item]:
    """A part's name and numbers inside it, level where they fit, else read from the right, else left to the notes."""
    x0, y0, x1, y1 = box
    numbers = numbered(part, axis)
    wide = max(text_width(part.name, style.body_mm, "bold"), text_width(numbers, style.small_mm)) + 3.0
    mx, my = (x0 + x1) / 2, (y0 + y1) / 2
    if wide <= x1 - x0 and y1 - y0 > 9.6:
        return [
            *label(mx, my - 2.2, part.name, style.body_mm, ground, weight="bold"),
            *label(mx, my + 2.2, numbers, style.small_mm, ground),
        ]
    if wide > y1 - y0 or x1 - x0 < 10.0:
        return []
    return [
        *upright_label(mx - 2.1, my, part.name, style.body_mm, ground, "bold"),
        *upright_label(mx + 2.1, my, numbers, style.small_mm, ground),
    ]


def _over(part: Part, axis: str, box: tuple[float, float, float, float], wide: str, style: Style) -> list[Item]:
    """The name, the numbers and the width of a part that is narrower than the piece, in the white over it; `box` is its
    left, its upper edge, its right and the upper edge of the piece."""
    left, edge, right, top = box
    lines = ((f"{wide} wide", style.small_mm, "regular"), (numbered(part, axis), style.small_mm, "regular"),
             (part.name, style.body_mm, "bold"))  # fmt: skip
    if edge - top < 3.9 * len(lines) + 1.0 or max(text_width(*line) for line in lines) > right - left:
        return []
    at = (left + right) / 2
    return [Text(at, edge - 1.8 - 3.9 * k, *line[:2], "middle", line[2]) for k, line in enumerate(lines)]


def _short(span: tuple[float, float], text: str, style: Style) -> bool:
    """Whether a dimension's text is too long to stand along it."""
    return span[1] - span[0] <= text_width(text, style.small_mm) + 1.0


def spread(wanted: list[float], gap: float) -> list[float]:
    """Places in order, no nearer than a gap, as near as they can be to where they are wanted.

    >>> spread([10.0, 11.0, 40.0], 8.0)
    [6.5, 14.5, 40.0]
    """
    groups: list[tuple[float, int]] = []
    for w in wanted:
        groups.append((w, 1))
        while len(groups) > 1 and groups[-1][0] - groups[-2][0] < gap * (groups[-1][1] + groups[-2][1]) / 2:
            (a, n), (b, m) = groups[-2:]
            groups[-2:] = [((a * n + b * m) / (n + m), n + m)]
    return [c + (k - (n - 1) / 2) * gap for c, n in groups for k in range(n)]


def _beside(part: Part, axis: str, x: float, middle: float, y: float, style: Style) -> list[Item]:
    """A part's name and numbers at the right, with a thin line from the part where they had to move."""
    items: list[Item] = [
        Text(x, y - 0.5, part.name, style.body_mm, weight="bold"),
        Text(x, y + style.small_mm * 1.1, numbered(part, axis), style.small_mm),
    ]
    if abs(middle - y) > 0.5:
        items.append(stroke([((x - 4.6, middle), (x - 1.0, y))], style.hair_mm, style.dark))
    return items


def numbered(part: Part, axis: str) -> str:
    """A part's rows or stitches: "rows 10–63"."""
    one = "row" if axis == "rows" else "stitch"
    return f"{axis} {part.first}–{part.last}" if part.count > 1 else f"{one} {part.first}"


def _ends(folding: Folding, view: View, style: Style) -> list[Item]:
    """The foundation and the last row named at their edges, and where row 1 begins marked with a dot."""
    piece, to_plane = folding.piece, folding.start.facets[0].to_plane
    start_x = piece.width_mm if piece.hand == "right" else 0.0
    corner = view.at(carry(to_plane, (start_x, piece.height_mm)))
    x0, y0, x1, y1 = _box(folding, view)
    foundation = view.at(carry(to_plane, (piece.width_mm / 2, piece.height_mm)))
    last = view.at(carry(to_plane, (piece.width_mm / 2, 0.0)))
    size = style.small_mm
    items: list[Item] = []
    spans = [part_span(folding, p, view) for p in piece.parts]
    for (x, y), texts in ((foundation, ("foundation",)), (last, (f"last row ({piece.rows})", "last row"))):
        if abs(x - x0) < 0.1 or abs(x - x1) < 0.1:
            if text := _fitting(texts, y1 - y0, size):
                items += upright_label(x + (-3.4 if abs(x - x0) < 0.1 else 3.4), y, text, size, "")
            continue
        down = abs(y - y1) < 0.1
        room = x1 - x0 + 8.0
        if runs_level(folding) and not down and len(spans) > 1:
            room = max((b - a for a, b in spans if a < x < b), default=0.0)
        if text := _fitting(texts, room, size):
            items.append(Text(x, y + (size * 1.3 if down else -size * 0.6), text, size, "middle"))
    return [*items, *_row_one(corner, (x0, y0, x1, y1), tone(folding.start.facets[0].side_up, style), style)]


def _fitting(texts: Sequence[str], room: float, size: float) -> str:
    """The first of some texts that has room, or none."""
    return next((t for t in texts if text_width(t, size) + 2.0 <= room), "")


def _row_one(corner: Point, box: tuple[float, float, float, float], ground: str, style: Style) -> list[Item]:
    """A dot at the corner where row 1 begins, with its words beside it where there is room."""
    x0, y0, x1, y1 = box
    cx = min(max(corner[0], x0 + 2.4), x1 - 2.4)
    cy = min(max(corner[1], y0 + 2.4), y1 - 2.4)
    left = abs(corner[0] - x0) < 0.1
    anchor = "start" if left else "end"
    x = cx + 2.0 if left else cx - 2.0
    dot = disc((cx, cy), 0.9, fill_colour=style.dark)
    if x1 - x0 < text_width("row 1", style.small_mm) + 7.0 or y1 - y0 < 36.0:
        return [dot]
    return [dot, *label(x, cy, "row 1", style.small_mm, ground, anchor=anchor)]


def part_notes(folding: Folding) -> tuple[str, ...]:
    """Every part with its numbers and length, in one line; none for a piece of one part."""
    piece = folding.piece
    if len(piece.parts) == 1:
        return ()
    said = (f"{p.name}: {numbered(p, piece.axis)}, {show_length(p.length_mm, piece.unit)}" for p in piece.parts)
    words = "; ".join(said) + "."
    return (words[:1].upper() + words[1:],)
