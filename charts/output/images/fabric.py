"""The fabric picture of a pattern: its stitches in its colours, in the view that is asked for."""

from __future__ import annotations

import functools

import numpy as np

from ...errors import PatternError, Problem
from ...layout.chart.margins import lettered
from ...made_late import replace
from ...model.cloth.fabric import Fabric
from ...model.rows.work import work_text
from ...model.rows.working import Worked
from ...model.sizing.shape import sewn_handles
from ...pattern.file.colour_names import known_colour
from ...pattern.file.kinds import OBJECT_KINDS
from ...picture.cloth import Cloth
from ...picture.encoded import encoded
from ...picture.flat_cloth import flat_cloth
from ...picture.folded import Folded, folded
from ...picture.parts import yarn_in
from ...picture.round_cloth import cloth_of, crown_and_sides, seen_from_above
from ...picture.scene import Drawn, Image
from ...picture.views import Look, close_view, flat_view, folded_view
from ...picture.worn.things import bag_handles
from ...picture.worn.views import cup_view, hat_view, tube_view, worn_view
from ...picture.yarn import Bundle
from ...setting import Hand
from ..piece import Piece, is_tube, laid_open

#: A view, the side that is seen, the width in pixels, and the kind of file.
Asked = tuple[str, str, int, str]
#: How wide the picture of the whole is.
WHOLE_PX = 1000
#: A piece so many times as long as it is wide has its stitches shown beside it.
LONG = 4.0
#: Views of a piece that is folded and joined.
FOLDED = ("folded", "on-object")
#: What goes round a cup; the edges of a band leave so much room for the cup's handle (mm; an estimate).
CUPS, HANDLE_MM = ("mug cosy", "mug wrap"), 24.0
#: The yarns of a written pattern where their names say no colour: by the letters in their order.
YARNS = ("#c2674c", "#e6d8bd", "#466b7a", "#d3a13c", "#7c4b5e", "#73875c")


@functools.lru_cache(maxsize=1)
def cloth_of_piece(piece: Piece, hand: Hand = "right") -> Cloth:
    """A sized piece as cloth, its rows as high as planned; a tube laid open, as its rounds are all as wide, a
    hat from above."""
    heights = [h / piece.plan.stitch_mm for section in piece.plan.sections for h in section.row_heights_mm]
    fabric = laid_open(piece.fabric) if is_tube(piece.fabric) else piece.fabric
    cloth = cloth_of(fabric, hand, heights)
    crown = next((s.rows for s in piece.plan.sections if OBJECT_KINDS[piece.plan.kind].crown), 0)
    return seen_from_above(cloth, crown) if crown else cloth


def colours_of_piece(piece: Piece) -> dict[str, str]:
    """The colour of each key; a piece without colours has one."""
    return {c.letter: c.hex for c in piece.pattern.colours} or {"": YARNS[0]}


def cloth_of_written(fabric: Fabric, hand: Hand = "right") -> tuple[Cloth, dict[str, str]]:
    """A written pattern as cloth, and a yarn for each colour it names: as its name is drawn, or one of
    some in the order of their letters."""
    fabric, table = lettered(fabric)
    yarns = {key: known_colour(table[key].name) or YARNS[k % len(YARNS)] for k, key in enumerate(table)}
    return cloth_of(fabric, hand), yarns or {"": YARNS[0]}


def fabric_file(worked: Piece | Worked, name: str, hand: Hand, asked: Asked) -> bytes:
    """The picture of a worked pattern as a file; PatternError where there is nothing to draw, or nothing to fold."""
    view, side, width_px, suffix = asked
    look = Look("wrong" if side == "wrong" else "right", width_px)
    if isinstance(worked, Piece):
        drawn = piece_view(worked, hand, view, look)
    elif not worked.fabric.rows:
        raise _problem(name, "the pattern makes nothing after its beginning", "write its rows below it")
    elif view in FOLDED:
        raise _problem(
            name, f'the view "{view}" needs measurements, and a written pattern has none',
            "draw it flat or close, or write a pattern file: hookfold start FILE",
        )  # fmt: skip
    else:
        cloth, colours = cloth_of_written(worked.fabric, hand)
        drawn = close_view(cloth, colours, look) if view == "close" else flat_view(cloth, colours, look)
    return encoded(drawn.image, "png" if suffix == "png" else "jpg")


@functools.lru_cache(maxsize=1)
def whole_view(piece: Piece, hand: Hand) -> Image:
    """The whole piece as it will look, on its object where it is folded or worked in rounds: on a booklet's cover and
    in what is shared."""
    kind = piece.plan.kind
    on_object = bool(piece.folding.stages) or OBJECT_KINDS[kind].rounds or kind in CUPS
    return piece_view(piece, hand, "on-object" if on_object else "flat", Look(width_px=WHOLE_PX)).image


def cover_view(piece: Piece, hand: Hand) -> Image:
    """The whole piece, and of one so long that its stitches are not to be seen on it some of them close up below."""
    whole = whole_view(piece, hand)
    short, long = sorted(piece.plan.finished_mm.values())
    if long < LONG * short:
        return whole
    close = piece_view(piece, hand, "close", Look(width_px=WHOLE_PX, height_px=WHOLE_PX // 2)).image
    between = np.full((WHOLE_PX // 40, whole.shape[1], 3), 255, dtype=np.uint8)
    return np.concatenate((whole, between, close))


def piece_view(piece: Piece, hand: Hand, view: str, look: Look) -> Drawn:
    """A sized piece in a view: flat (with its border where that is worked flat), close, folded or on its object."""
    cloth, colours, plan = cloth_of_piece(piece, hand), colours_of_piece(piece), piece.plan
    bordered_flat = view == "flat" and piece.border is not None and not piece.border.joins
    if view == "close" or (view == "flat" and not bordered_flat):
        return close_view(cloth, colours, look) if view == "close" else flat_view(cloth, colours, look)
    keys = {key: at for at, key in enumerate(colours)}
    if view == "on-object" and OBJECT_KINDS[plan.kind].crown:
        return _hat_view(piece, hand, keys, look)
    if view == "on-object" and is_tube(piece.fabric):
        return _tube_view(piece, cloth, keys, look)
    made = _folded(piece, hand, bordered_flat, look.side == "wrong")
    if view == "on-object":
        return _worn_view(piece, made, keys, look)
    return folded_view(made, colours, look)


@functools.lru_cache(maxsize=1)
def _folded(piece: Piece, hand: Hand, flat: bool, other_side: bool) -> Folded:
    """A piece as it is folded (with `flat`, before that), seen from the outside or from the other side."""
    keys, plan = {key: at for at, key in enumerate(colours_of_piece(piece))}, piece.plan
    return folded(cloth_of_piece(piece, hand), piece.folding, piece.border, keys, plan.stitch_mm, plan.border_row_mm,
                  flat=flat, other_side=other_side)


def _worn_view(piece: Piece, made: Folded, keys: dict[str, int], look: Look) -> Drawn:
    """A folded or a flat piece on its object: a bag with its handles, a band round its cup."""
    plan, hexes = piece.plan, list(colours_of_piece(piece).values())
    if plan.kind in CUPS and (closing := OBJECT_KINDS[plan.kind].closing):
        yarn = keys.get(piece.border.colour if piece.border else "", 0)
        button, gap = closing.button_mm / plan.stitch_mm, HANDLE_MM / plan.stitch_mm
        return cup_view(made, button, gap, hexes, look.width_px, yarn)
    return worn_view(made, plan.kind, plan.object_mm, plan.stitch_mm, hexes, look.width_px, _handles(piece, made, keys))


def _handles(piece: Piece, made: Folded, keys: dict[str, int]) -> list[Bundle]:
    """The handles of a piece, worked as its finishing says and sewn on where it says; none where it has none."""
    plan, own, sewn = piece.plan, OBJECT_KINDS[piece.plan.kind].handles, sewn_handles(piece.plan)
    if own is None or sewn is None:
        return []
    strip = work_text(f"Terms: US\nCh {sewn.stitches + 1}.\nRow 1: Sc in 2nd ch from hook and in each ch across.\n"
                      f"Rows 2-{sewn.rows}: Ch 1, turn. Sc in each st across.\n").fabric
    row = sewn.width_mm / sewn.rows / plan.stitch_mm
    cloth = flat_cloth(strip, heights=[row] * sewn.rows)
    colour = piece.border.colour if piece.border and piece.border.colour in keys else ""
    every = [replace(b, colour=b.colour + np.int32(keys.get(colour, 0))) for b in yarn_in(cloth, ("",))]
    moved = [replace(b, points=b.points + np.array((0.5, 0.0, 0.0), dtype=np.float32)) for b in every]
    left, _, right, top = made.box
    aside = own.from_side * (right - left)
    deep = own.rows * sum(plan.sections[0].row_heights_mm[:1]) / plan.stitch_mm
    size, ends = (sewn.length_mm / plan.stitch_mm, sewn.rows * row), (left + aside, right - aside, top)
    return bag_handles(moved, size, ends, deep, (made.top + 0.9, made.low - 0.9), made.low)


def _hat_view(piece: Piece, hand: Hand, keys: dict[str, int], look: Look) -> Drawn:
    """A hat as on a head, from its rounds laid out flat."""
    plan = piece.plan
    around, high = (mm / plan.stitch_mm for mm in plan.finished_mm.values())
    crown, sides = (
        Folded(yarn_in(cloth, tuple(keys)), cloth.box, 0.0, 0.0, yarn=cloth.yarn)
        for cloth in crown_and_sides(cloth_of(piece.fabric, hand), plan.sections[0].rows, around)
    )
    return hat_view(crown, sides, (around, high), list(colours_of_piece(piece).values()), look.width_px)


def _tube_view(piece: Piece, cloth: Cloth, keys: dict[str, int], look: Look) -> Drawn:
    """A tube standing, from its rounds laid open."""
    plan = piece.plan
    heads = [s.head[0] for s in cloth.stitches if s.is_topped]
    box = (min(heads) - 0.5, cloth.box[1], max(heads) + 0.5, cloth.box[3])
    laid = Folded(yarn_in(cloth, tuple(keys)), box, 0.0, 0.0, yarn=cloth.yarn)
    around, high = (mm / plan.stitch_mm for mm in plan.finished_mm.values())
    return tube_view(laid, (around, high), list(colours_of_piece(piece).values()), look.width_px,
                     holds_cup=plan.kind in CUPS)


def _problem(name: str, says: str, remedy: str) -> PatternError:
    return PatternError([Problem("missing", "Picture", says, remedy, file=name)])
