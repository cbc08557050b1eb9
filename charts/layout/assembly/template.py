"""The paper template: the flat piece at full size on as few pages as will do, to cut, fold and try on the object.

Paper does not stretch, so what is cut is the piece as worn, as large as the object; dotted inside it lies the piece as
worked (or the other way round).
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from functools import cached_property
from itertools import islice

from ...drawing.display import Document, Group, Ink, Sheet, Text
from ...drawing.letters import cap_height, fitted, text_width
from ...drawing.style import Style, style
from ...folding.facets import Point, carry, moved
from ...folding.folds import Folding, folding_of
from ...folding.views import Barrier, clipped, filled, rings, touches
from ...made_late import dataclass, replace
from ...measure import show_length
from ...model.sizing.plan import Plan
from ...pattern.file.kinds import OBJECT_KINDS
from ...setting import Heading, Paper
from ..sheets.marks import Item, disc, label, stroke
from ..sheets.page import MARGIN_MM
from .handles import handle_paper
from .hat import crown_rounds, disc_ring
from .template_block import block, block_shapes, note_lines
from .template_tiles import OVERLAP_MM, Box, Seam, Tile, Tiling, seams, tiling

Line = tuple[Point, ...]
_DOTS = (0.35, 1.5)
_NUMBER_MM = 3.4
_MARK = 4.2


@dataclass(frozen=True)
class Full:
    """The full-size drawing: the cut outline, folds with their dashes, the dotted outline and its name, names with
    their parts' boxes, and what edges are called with the boxes beside them.
    """

    bounds: Box
    piece: Box
    outline: tuple[Line, ...]
    folds: tuple[tuple[Line, str], ...]
    dotted: tuple[Line, ...]
    dotted_folds: tuple[Line, ...]
    dotted_name: str
    parts: tuple[tuple[str, Box], ...]
    edges: tuple[tuple[str, Box], ...] = ()

    @cached_property
    def barrier(self) -> Barrier:
        """All lines of the drawing."""
        return Barrier([*self.outline, *(line for line, _ in self.folds), *self.dotted, *self.dotted_folds])


def template_document(
    plan: Plan, heading: Heading, paper: Paper = "A4", unit: str = "mm", *, hand: str = "right",
    folding: Folding | None = None, dotted: tuple[Folding, str] | None = None,
) -> Document:  # fmt: skip
    """The template's pages at true size, inside (wrong side for a piece folded right side out) printed up.

    `folding` is what is cut, `dotted` what is drawn inside it with its name ("the piece as worked"). The border is
    not in it; the first page says so. PatternError (kind "fold") where the piece cannot be
    folded.
    """
    folding = folding or folding_of(plan, hand=hand)
    look = style()
    full = _with_border(_with_handle(full_size(folding, dotted), plan), plan)
    pages = _fewest(folding, full, paper)
    notes = note_lines(_notes(folding, plan, unit, full), look)
    spot = _block_spot(pages, full, len(notes), look)
    sheets = [
        _sheet(tile, pages, full, heading, look, notes, spot if tile.number == 1 else None)
        for tile in pages.tiles
    ]
    if spot is None:
        sheets = [_cover(pages, full, heading, look, notes), *sheets]
    return Document(tuple(sheets), f"{heading.title}: paper template", heading.author, heading.licence)


def _fewest(folding: Folding, full: Full, paper: Paper) -> Tiling:
    """The tiles for the piece, and for the dotted outline too where that costs no page."""
    cloth = filled(full.outline)

    def holds(box: Box) -> bool:
        return touches(cloth, box)

    with_dots, piece = tiling(full.bounds, paper, holds), tiling(full.piece, paper, holds)
    return with_dots if len(with_dots.tiles) == len(piece.tiles) else piece


def full_size(folding: Folding, dotted: tuple[Folding, str] | None = None) -> Full:
    """Everything the template shows, on the folded plane in mm: `piece` bounds the cloth, `bounds` all of
    it.
    """
    if crown_rounds(folding):
        return _of_hat(folding)
    shape = folding.start.facets[0].shape
    to_plane = folding.start.facets[0].to_plane
    folds = []
    for stage in folding.stages:
        line = folding.line_inside(stage.spec.line)
        ends = tuple(carry(to_plane, (x, y)) for x, y in line.coords)
        folds.append((ends, stage.spec.direction))
    thing, creases, name = _dotted(folding, *dotted) if dotted else ((), (), "")
    parts = tuple((p.name, _part_box(folding, p.lo_mm, p.hi_mm)) for p in folding.piece.parts)
    xs = [shape.bounds[0], shape.bounds[2], *(x for line in thing for x, _ in line)]
    ys = [shape.bounds[1], shape.bounds[3], *(y for line in thing for _, y in line)]
    bounds = (min(xs), min(ys), max(xs), max(ys))
    x0, y0, x1, _ = shape.bounds
    edges = (("top edge", (x0, y0, x1, y0 + _BY_EDGE)),)
    return Full(bounds, _four(shape.bounds), rings([shape]), tuple(folds), thing, creases, name, parts, edges)


#: So near an edge, in mm, the words that name it stand.
_BY_EDGE = 14.0


def _with_handle(full: Full, plan: Plan) -> Full:
    """The drawing with the strip of a handle beside it, of a bag that has handles."""
    paper = handle_paper(plan, (full.bounds[2] + _APART_MM, full.bounds[1]))
    if paper is None:
        return full
    outline, (_, _, right, foot) = paper
    bounds = (*full.bounds[:2], right, max(full.bounds[3], foot))
    whole = (*full.piece[:2], right, max(full.piece[3], foot))
    parts = (*full.parts, ("handle", paper[1]))
    return replace(full, bounds=bounds, piece=whole, outline=(*full.outline, outline), parts=parts)


def _of_hat(folding: Folding) -> Full:
    """A hat's paper: a band as long as the way round and as high as the sides, and the crown's disc above it."""
    piece, crown = folding.piece, folding.piece.parts[0]
    wide, high, radius = piece.width_mm, piece.height_mm - crown.length_mm, crown.length_mm
    top = 2 * radius + _APART_MM
    band = ((0.0, top), (wide, top), (wide, top + high), (0.0, top + high), (0.0, top))
    bounds = (0.0, 0.0, max(wide, 2 * radius), top + high)
    parts = (("crown", (0.0, 0.0, 2 * radius, 2 * radius)), ("sides", (0.0, top, wide, top + high)))
    edges = (("edge to the crown", (0.0, top, wide, top + _BY_EDGE)),
             ("brim", (0.0, top + high - _BY_EDGE, wide, top + high)))  # fmt: skip
    return Full(bounds, bounds, (band, disc_ring((radius, radius), radius)), (), (), (), "", parts, edges)


def _with_border(full: Full, plan: Plan) -> Full:
    """The drawing of what is laid round a thing, cut as large as its border makes it."""
    edge = (plan.border_row_mm or 0.0) * plan.border_rounds
    if not OBJECT_KINDS[plan.kind].tried or not edge:
        return full
    x0, y0, x1, y1 = full.piece
    whole = (x0 - edge, y0 - edge, x1 + edge, y1 + edge)
    a, b, c, d = whole
    ring = ((a, b), (c, b), (c, d), (a, d), (a, b))
    return replace(full, bounds=whole, piece=whole, outline=(ring,), dotted=full.outline, dotted_name=_BARE)


#: What the dotted line is of a paper that has the border in it.
_BARE = "the piece before its border"
#: How far the papers of a piece of two lie from each other.
_APART_MM = 6.0


def _four(bounds: Sequence[float]) -> Box:
    return bounds[0], bounds[1], bounds[2], bounds[3]


def _part_box(folding: Folding, lo: float, hi: float) -> Box:
    """The box of a part on the plane."""
    to_plane = folding.start.facets[0].to_plane
    corners = [carry(to_plane, p) for at in (lo, hi) for p in folding.piece.line_at(at)]
    xs, ys = [p[0] for p in corners], [p[1] for p in corners]
    return min(xs), min(ys), max(xs), max(ys)


def _dotted(folding: Folding, other: Folding, name: str) -> tuple[tuple[Line, ...], tuple[Line, ...], str]:
    """The other size of the piece with its folds, the middles of their longest parts together; none where both are one
    size."""
    main = max(range(len(folding.piece.parts)), key=lambda k: folding.piece.parts[k].length_mm)
    here, there = (f.piece.parts[main] for f in (folding, other))
    x0, y0, x1, y1 = _part_box(folding, here.lo_mm, here.hi_mm)
    a0, b0, a1, b1 = _part_box(other, there.lo_mm, there.hi_mm)
    dx, dy = (x0 + x1 - a0 - a1) / 2, (y0 + y1 - b0 - b1) / 2
    shape = moved(other.start, (1.0, 0.0, 0.0, 1.0, dx, dy)).facets[0].shape
    same = shape.symmetric_difference(folding.start.facets[0].shape).area < 1.0
    if same:
        return (), (), ""
    to_plane = other.start.facets[0].to_plane
    creases: list[Line] = []
    for stage in other.stages:
        ends = (carry(to_plane, (x, y)) for x, y in other.line_inside(stage.spec.line).coords)
        creases += _ends_of(tuple((x + dx, y + dy) for x, y in ends))
    return rings([shape]), tuple(creases), name


#: So much of a fold of the dotted piece is drawn at either end, in mm: room for the test squares lies between.
_TICK_MM = 16.0


def _ends_of(line: Line) -> list[Line]:
    """A straight line's two ends."""
    (x0, y0), (x1, y1) = line[0], line[-1]
    length = math.dist((x0, y0), (x1, y1)) or 1.0
    ux, uy = (x1 - x0) / length * _TICK_MM, (y1 - y0) / length * _TICK_MM
    return [((x0, y0), (x0 + ux, y0 + uy)), ((x1 - ux, y1 - uy), (x1, y1))]


def _notes(folding: Folding, plan: Plan, unit: str, full: Full) -> tuple[str, ...]:
    side = "wrong side" if folding.start.facets[0].side_up == "WS" else "right side"
    border: tuple[str, ...] = ()
    if plan.border_row_mm:
        adds = show_length(plan.border_row_mm, unit)
        border = (f"The border is not in it: each round adds {adds} at the edge.",)
    if full.dotted_name == _BARE:
        border = ("Its border is in it.",)
    if any(name == "handle" for name, _ in full.parts):
        border = (*border, "The strip beside the bag is a handle: cut it twice.")
    folds = " with its folds" if full.dotted_folds else ""
    stretches = " Paper does not stretch, the cloth does." if OBJECT_KINDS[plan.kind].holds else ""
    dotted = (f"Dotted: {full.dotted_name}{folds}.{stretches}",) if full.dotted else ()
    return (
        f"{_how_tried(folding)} before you crochet.",
        f"Measure a test square first. The printed side is the {side} of the cloth.", *border, *dotted,
    )  # fmt: skip


def _how_tried(folding: Folding) -> str:
    """How the paper is tried on: folded as the piece is, or laid into the ring that rounds are."""
    if crown_rounds(folding):
        return "Cut out both parts on the full line, tape the band into a ring and the disc over it, and try it on"
    if OBJECT_KINDS[folding.kind.name].rounds:
        return "Cut it out on the full line, lay it round into a ring, and try it on"
    if tried := OBJECT_KINDS[folding.kind.name].tried:
        return f"Cut it out on the full line, {tried}, and look whether it fits"
    if not OBJECT_KINDS[folding.kind.name].holds:
        return "Cut it out on the full line, fold it as the piece is folded, and look whether you like its size"
    return "Cut it out on the full line, fold it as the piece is folded, and try it on"


#: The corner of the block on the first tile, its shape, its width and its height.
Spot = tuple[float, float, str, float, float]
#: So many places for the block are looked at for one that leaves every name its room.
_MOST_SPOTS = 24


def _block_spot(pages: Tiling, full: Full, lines: int, look: Style) -> Spot | None:
    """A place on the first tile for the block that no line crosses: the first that leaves every name its room, else
    one that leaves most of them theirs; None where there is none."""
    shapes, tile = block_shapes(lines, look, alone=len(pages.tiles) < 2), pages.tiles[0]
    names, best, most = len(_words(tile, pages, full, [], look)), None, -1
    for spot in islice(_block_spots(tile, full, shapes), _MOST_SPOTS):
        left = len(_words(tile, pages, full, [_taken(spot, tile)], look))
        if left > most:
            best, most = spot, left
        if left >= names:
            break
    return best


def _block_spots(tile: Tile, full: Full, shapes: Mapping[str, tuple[float, float]]) -> Iterator[Spot]:
    """The places on a tile for the block that no line crosses, in every line of them the first."""
    clear = 1.6
    x0, y0, x1, y1 = tile.window
    for shape, (wide, tall) in shapes.items():
        for y in _steps(y0 + clear, y1 - clear - tall - OVERLAP_MM, 3.0):
            for x in _steps(x0 + clear + 11.0, x1 - OVERLAP_MM - wide, 1.0):
                if _free((x - clear, y - clear, x + wide + clear, y + tall + clear), full):
                    yield x, y, shape, wide, tall
                    break


def _taken(spot: Spot, tile: Tile) -> Box:
    """What the block takes of the page."""
    x, y = spot[0] + MARGIN_MM - tile.window[0], spot[1] + MARGIN_MM - tile.window[1]
    return x, y, x + spot[3], y + spot[4]


def _steps(start: float, end: float, step: float) -> list[float]:
    """Places from start to end."""
    return [start + k * step for k in range(int((end - start) / step) + 1)] if end >= start else []


def _free(box: Box, full: Full) -> bool:
    return not full.barrier.crosses(box)


def _sheet(
    tile: Tile, pages: Tiling, full: Full, heading: Heading, look: Style, notes: tuple[str, ...],
    spot: Spot | None,
) -> Sheet:  # fmt: skip
    """One tile on its page."""
    dx, dy = MARGIN_MM - tile.window[0], MARGIN_MM - tile.window[1]

    def page_lines(of: Sequence[Line]) -> list[list[Point]]:
        return [[(x + dx, y + dy) for x, y in line] for line in clipped(of, tile.window)]

    taken: list[Box] = []
    items: list[Item] = []
    for line, direction in full.folds:
        dash = look.valley if direction == "over" else look.mountain
        items.append(stroke(page_lines([line]), look.fold_mm * 1.4, look.accent, dash, "fold line"))
    if full.dotted:
        items.append(stroke(page_lines(full.dotted), 0.5, look.dark, _DOTS, full.dotted_name))
        items.append(stroke(page_lines(full.dotted_folds), 0.4, look.accent, _DOTS, "folds of it"))
    items.append(stroke(page_lines(full.outline), look.outline_mm, look.dark, name="cut line"))
    items += [_seam(s, tile, full, look) for s in seams(pages) if tile.number in (s.first, s.second)]
    if spot is not None:
        taken.append(_taken(spot, tile))
        items.append(block(*taken[0][:2], spot[2], pages, full.bounds, full.outline, look, notes))
    items += _words(tile, pages, full, taken, look)
    items += _footer(
        f"Part {tile.number} of {len(pages.tiles)}: row {tile.row}, column {tile.column}"
        if len(pages.tiles) > 1 else "Complete on this page",
        pages,
        heading,
        look,
    )
    title = f"{heading.title}: paper template, tile {tile.number}"
    desc = f"Full size. Row {tile.row}, column {tile.column} of {pages.rows} by {pages.columns}."
    return Sheet(*pages.page, title, tuple(i for i in items if _inked(i)), desc=desc)


def _inked(item: Item) -> bool:
    return not (isinstance(item, Ink) and not item.d)


def _seam(seam: Seam, tile: Tile, full: Full, look: Style) -> Group:
    """The overlap's limit as a thin line, and its marks: lozenges on the strip's middle with the seam's letter."""
    dx, dy = MARGIN_MM - tile.window[0], MARGIN_MM - tile.window[1]
    x0, y0, x1, y1 = seam.strip
    first = tile.number == seam.first
    edge = (x0 if first else x1) if seam.upright else (y0 if first else y1)
    line = [(edge, y0), (edge, y1)] if seam.upright else [(x0, edge), (x1, edge)]
    on_page = [(x + dx, y + dy) for x, y in line]
    items: list[Item] = [stroke([on_page], look.hair_mm, look.hair, (4.0, 2.0), "overlap")]
    for x, y in _mark_spots(seam, full):
        px, py = x + dx, y + dy
        ring = [(px - _MARK, py), (px, py - _MARK), (px + _MARK, py), (px, py + _MARK), (px - _MARK, py)]
        items.append(stroke([ring], look.rule_mm, look.dark, name="join mark"))
        items.append(Text(px, py + cap_height(look.body_mm) / 2, seam.letter, look.body_mm, "middle", "bold"))
    return Group(f"seam {seam.letter}", tuple(items))


def _mark_spots(seam: Seam, full: Full) -> list[Point]:
    """Two places in the strip, near a third and two thirds of it, where no line of the drawing crosses the letter."""
    spots: list[Point] = []
    for tries in ((0.3, 0.25, 0.35, 0.2, 0.4, 0.15), (0.7, 0.75, 0.65, 0.8, 0.6, 0.85)):
        places = [_in_strip(seam, t, across) for across in (0.5, 0.44, 0.56) for t in tries]
        free = (p for p in places if _free((p[0] - 1.9, p[1] - 1.9, p[0] + 1.9, p[1] + 1.9), full))
        spots.append(next(free, places[0]))
    return spots


def _in_strip(seam: Seam, along: float, across: float) -> Point:
    """A place in a strip by fractions of its length and breadth."""
    x0, y0, x1, y1 = seam.strip
    fx, fy = (across, along) if seam.upright else (along, across)
    return (x0 + (x1 - x0) * fx, y0 + (y1 - y0) * fy)


def _meets(pages: Tiling, tile: Tile, way: tuple[int, int]) -> bool:
    """Whether a tile has a neighbour that way (rows down, columns right)."""
    return any((t.row, t.column) == (tile.row + way[0], tile.column + way[1]) for t in pages.tiles)


def _words(tile: Tile, pages: Tiling, full: Full, taken: list[Box], look: Style) -> list[Item]:
    """Names of parts, "fold", "top" and the tile's number, each where nothing else stands."""
    items: list[Item] = []
    wx0, wy0, wx1, wy1 = tile.window
    dx, dy = MARGIN_MM - wx0, MARGIN_MM - wy0
    off = [
        OVERLAP_MM + 1.0 if _meets(pages, tile, way) else 1.0 for way in ((0, -1), (-1, 0), (0, 1), (1, 0))
    ]
    inner = (wx0 + off[0], wy0 + off[1], wx1 - off[2], wy1 - off[3])
    items += _tile_number(tile, full, inner, taken, look)
    for text, wants, size, weight in _wanted(full, look):
        wide, tall = text_width(text, size, weight) + 3.0, cap_height(size) + 3.0
        found = (_clear(want, (wide, tall), inner, dx, dy, taken, full) for want in wants)
        spot = next((at for at in found if at is not None), None)
        if spot is None:
            continue
        taken.append((spot[0] - wide / 2, spot[1] - tall / 2, spot[0] + wide / 2, spot[1] + tall / 2))
        items += label(spot[0], spot[1], text, size, look.paper, weight=weight)
    return items


def _tile_number(tile: Tile, full: Full, inner: Box, taken: list[Box], look: Style) -> list[Item]:
    """The tile's number in a disc, near its upper left corner where no line runs."""
    dx, dy = MARGIN_MM - tile.window[0], MARGIN_MM - tile.window[1]
    size = 2 * _NUMBER_MM + 2.0
    for reach in (size, 26.0, 60.0):
        want = (inner[0], inner[1], inner[0] + reach, inner[1] + reach)
        spot = _clear(want, (size, size), inner, dx, dy, taken, full)
        if spot is not None:
            half = size / 2
            taken.append((spot[0] - half, spot[1] - half, spot[0] + half, spot[1] + half))
            y = spot[1] + cap_height(look.name_mm) / 2
            words = Text(spot[0], y, str(tile.number), look.name_mm, "middle", "bold", look.paper)
            return [disc(spot, _NUMBER_MM, fill_colour=look.dark), words]
    return []


#: So near (mm) a line's name stands to it where it can.
_CLOSE = 8.0


def _wanted(full: Full, look: Style) -> list[tuple[str, tuple[Box, ...], float, str]]:
    """The words and the boxes (on the drawing) that each may stand in, the best first. Of the two lines each has its
    name on the side away from the other, close to it."""
    found: list[tuple[str, tuple[Box, ...], float, str]] = [
        (name, (box,), look.title_mm, "bold") for name, box in full.parts
    ]
    found += [(words, (box,), look.body_mm, "regular") for words, box in full.edges]
    x0, _, x1, y1 = full.piece
    dotted = max((y for _, y in full.dotted[0]), default=y1) if full.dotted else y1
    beside = ((x0, y1, x1, y1 + _CLOSE),) if full.dotted and dotted <= y1 else ((x0, y1 - _CLOSE, x1, y1),)
    found.append(("cut line", (*beside, (x0, y1 - 26.0, x1, y1)), look.body_mm, "regular"))
    for number, (line, _) in enumerate(full.folds, 1):
        xs, ys = [p[0] for p in line], [p[1] for p in line]
        box = (min(xs) - 12.0, min(ys) - 8.0, max(xs) + 12.0, max(ys) + 8.0)
        found.append((f"fold {number}", (box,), look.body_mm, "regular"))
    if full.dotted:
        a, c = (pick(x for x, _ in full.dotted[0]) for pick in (min, max))
        close = (a, dotted - _CLOSE, c, dotted) if dotted <= y1 else (a, dotted, c, dotted + _CLOSE)
        found.append((f"dotted: {full.dotted_name}", (close, (a, dotted - 26.0, c, dotted)), look.body_mm, "regular"))
    return found


#: Places for a word are tried at most so far apart.
_TRIED_MM = 3.0


def _clear(
    want: Box, size: tuple[float, float], inner: Box, dx: float, dy: float, taken: Sequence[Box], full: Full
) -> Point | None:
    """A place on the page for a text inside its box: as near the middle as nothing else allows."""
    x0, y0, x1, y1 = (
        max(want[0], inner[0]),
        max(want[1], inner[1]),
        min(want[2], inner[2]),
        min(want[3], inner[3]),
    )
    if x1 - x0 < size[0] or y1 - y0 < size[1]:
        return None
    across, down = (max(12, math.ceil(room / _TRIED_MM)) for room in (x1 - x0 - size[0], y1 - y0 - size[1]))
    spots = [
        (x0 + size[0] / 2 + (x1 - x0 - size[0]) * i / across, y0 + size[1] / 2 + (y1 - y0 - size[1]) * j / down)
        for i in range(across + 1) for j in range(down + 1)
    ]  # fmt: skip
    cx, cy = (x0 + x1) / 2, (y0 + y1) / 2
    for x, y in sorted(spots, key=lambda s: abs(s[0] - cx) + abs(s[1] - cy)):
        box = (x - size[0] / 2, y - size[1] / 2, x + size[0] / 2, y + size[1] / 2)
        on_page = (box[0] + dx, box[1] + dy, box[2] + dx, box[3] + dy)
        if _free(box, full) and all(_apart(on_page, t) for t in taken):
            return x + dx, y + dy
    return None


def _apart(a: Box, b: Box) -> bool:
    return a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] or b[3] <= a[1]


def _footer(words: str, pages: Tiling, heading: Heading, look: Style) -> list[Item]:
    y = pages.page[1] - MARGIN_MM
    left, right, middle = MARGIN_MM, pages.page[0] - MARGIN_MM, pages.page[0] / 2
    room = (right - left) / 3 - 6.0
    return [
        Text(left, y, fitted(heading.title, room, look.small_mm), look.small_mm, colour=look.quiet),
        Text(middle, y, f"Full size, print at 100 % on {_paper(pages)}", look.small_mm, "middle", colour=look.quiet),
        Text(right, y, words, look.small_mm, "end", colour=look.quiet),
    ]


def _paper(pages: Tiling) -> str:
    """What the pages are called, lying either way."""
    return "A4" if max(pages.page) > 290.0 else "Letter"


def _cover(pages: Tiling, full: Full, heading: Heading, look: Style, notes: tuple[str, ...]) -> Sheet:
    """A page of its own for the block, where the first tile has no room for it."""
    items: list[Item] = [
        block(MARGIN_MM + 4.0, MARGIN_MM + 10.0, "tall", pages, full.bounds, full.outline, look, notes)
    ]
    items += _footer("Before the tiles", pages, heading, look)
    return Sheet(*pages.page, f"{heading.title}: paper template, test squares", tuple(items))
