"""All that is shared of a pattern: four images, each with its description for readers who cannot see it."""

from __future__ import annotations

import io
from collections.abc import Mapping, Sequence

import numpy as np

from ...layout.shapes.edged import edging_of
from ...model.cloth.fabric import Fabric, counts
from ...model.rows.working import Worked
from ...pattern.file.kinds import OBJECT_KINDS
from ...pattern.lexicon import show_stitch
from ...picture.cloth import Cloth
from ...picture.parts import make_up
from ...picture.scene import Image
from ...picture.views import Look, close_view, flat_view
from ...setting import Heading, Setting
from ..export import cairo_here
from ..piece import Piece
from .composed import Shown, composed
from .fabric import WHOLE_PX, cloth_of_piece, cloth_of_written, colours_of_piece, cover_view, piece_view
from .share import SHAPES, Coloured, Stretch, Yarns, charts_only, described, stretch_of

#: The steps are drawn so wide.
STEP_PX = 150
#: One repeat, large enough for the largest box; it is cut to each.
CLOSE = Look("right", 480, 740)
#: A stitch of which there are so many of another's share the cloth with it (our own limit, no source).
ALIKE = 0.7
#: How a stitch that stands out of the cloth is called for those who cannot see it.
RAISED = {"bobble": "raised bobbles", "popcorn": "raised popcorns", "puff": "raised puffs"}


def shared_piece(
    piece: Piece, heading: Heading, setting: Setting, special: Mapping[str, str], photo: bytes | None = None
) -> dict[str, bytes]:
    """Images and descriptions of a sized piece, by file name, with the maker's photograph (a JPEG) where there is one;
    the chart alone where the system can make no PNG."""
    if not cairo_here():
        return charts_only(piece.fabric, piece.pattern, heading, setting, special)
    folds = bool(piece.folding.stages)
    views = ("flat", "folded") if folds else ("flat",)
    whole = cover_view(piece, setting.hand)
    steps = [(view, piece_view(piece, setting.hand, view, Look(width_px=STEP_PX, height_px=STEP_PX)).image)
             for view in views if folds]
    says = "Flat, folded and joined, in use" if folds else "The whole piece"
    steps = [*steps, ("done", whole)] if folds else []
    cloth, colours = cloth_of_piece(piece, setting.hand), colours_of_piece(piece)
    shown = Shown(whole, close_view(cloth, colours, CLOSE).image, says, tuple(steps), cloth, colours,
                  heading, piece.pattern, stretch_of(piece.fabric, setting), pixels(photo))
    where = "on its object" if OBJECT_KINDS[piece.plan.kind].goes_in else "folded"
    how = f"the {piece.plan.kind} {where}" if folds else "the whole piece"
    said = _pictured(shown.cloth, how if photo is None or folds else "", piece.fabric, piece.pattern, setting)
    return _made(shown, said, setting, special)


def shared_written(
    worked: Worked, heading: Heading, setting: Setting, special: Mapping[str, str], photo: bytes | None = None
) -> dict[str, bytes]:
    """Images and descriptions of a written pattern: its fabric from both sides or the maker's photograph, and of work
    in rows a stretch of chart. Nothing where the system can make no PNG."""
    cloth, colours = cloth_of_written(worked.fabric, setting.hand)
    whole = flat_view(cloth, colours, Look(width_px=WHOLE_PX)).image
    back = flat_view(cloth, colours, Look("wrong", WHOLE_PX)).image
    flat = not worked.fabric.rows[0].is_round
    sides = (("right side", whole), ("wrong side", back))
    bare = bool(edging_of(worked.fabric))
    says = "Both sides, without the border" if bare else "Right side and wrong side"
    shown = Shown(whole, close_view(cloth, colours, CLOSE).image, says, sides, cloth, colours,
                  heading, Yarns(),
                  stretch_of(worked.fabric, setting) if flat else None, pixels(photo))
    how = "the piece without the rounds about its edge" if bare else "the whole piece"
    return _made(shown, _pictured(cloth, how, worked.fabric, Yarns(), setting), setting, special)


def pixels(photo: bytes | None) -> Image | None:
    """A photograph as rows of sRGB pixels; None of none."""
    from PIL import Image as Pictures

    return None if photo is None else np.asarray(Pictures.open(io.BytesIO(photo)).convert("RGB"))


def _made(shown: Shown, pictured: str, setting: Setting, special: Mapping[str, str]) -> dict[str, bytes]:
    out: dict[str, bytes] = {}
    chart = _charted(shown.stretch, shown.yarns, shown.heading, setting, special)
    words = f"{shown.heading.title}" + (f" by {shown.heading.author}" if shown.heading.author else "")
    for name in SHAPES:
        out[f"share-{name}.png"] = composed(shown, name)
        photo = "A photograph of the finished piece. " if shown.photo is not None else ""
        out[f"share-{name}.txt"] = f"{words}. {photo}{pictured} {chart}\n".encode()
    return out


def _charted(
    stretch: Stretch | None, yarns: Coloured, heading: Heading, setting: Setting, special: Mapping[str, str]
) -> str:
    """What is said of the chart, the colours and the size."""
    if stretch is not None:
        return "Beside it: " + described(stretch, yarns, heading, setting, special)
    return f"Finished size: {heading.finished}." if heading.finished else ""


def _pictured(cloth: Cloth, how: str, fabric: Fabric, yarns: Coloured, setting: Setting) -> str:
    """What the pictures of the fabric show: how it lies, its stripes, what it is made of."""
    kinds: dict[str, int] = {}
    for row in fabric.rows:
        for made in row.row.stitches:
            if counts(made):
                kinds[made.kind] = kinds.get(made.kind, 0) + 1
    shapes = {make_up(m.spot.kind, m.spot.legs, m.spot.base)[1] for m in cloth.stitches if m.spot.role == "stitch"}
    raised = [words for shape, words in RAISED.items() if shape in shapes]
    made_of = _mostly(kinds, setting) + (f", with {' and '.join(raised)}" if raised else "")
    stripes = _striped(fabric, yarns)
    how = f"{how}, and " if how else ""
    return f"A drawing of the fabric stitch by stitch: {how}one repeat close up, {made_of}{stripes}."


def _mostly(kinds: Mapping[str, int], setting: Setting) -> str:
    """The stitch that most are of, or the two that share the cloth: "mostly dc", "sc and dc in like number"."""
    first, second = [*sorted(kinds, key=lambda kind: -kinds[kind]), "", ""][:2]
    if second and kinds[second] >= ALIKE * kinds[first]:
        return f"{show_stitch(first, setting.terms)} and {show_stitch(second, setting.terms)} in like number"
    return f"mostly {show_stitch(first, setting.terms)}"


def _striped(fabric: Fabric, yarns: Coloured) -> str:
    """How the colours change from row to row, in words; nothing of one colour."""
    names = {c.letter: c.name for c in yarns.colours}
    colours = [names.get(row.colour, row.colour) for row in fabric.rows if row.colour]
    if len(set(colours)) < 2:
        return ""
    return f"; striped in {_listed(list(dict.fromkeys(colours)))}"


def _listed(names: Sequence[str]) -> str:
    return names[0] if len(names) == 1 else ", ".join(names[:-1]) + " and " + names[-1]
