"""The typeface and the stitch dictionary; imports nothing of ours."""

from .chains import chain, chain_run, chain_stack, magic_ring, picot, picot_radius, ring
from .dictionary import StitchKind, heights, known, stitch
from .glyph import Glyph, draw, glyph, hold_sign, kind_of, natural_height
from .ink import Box, Mark, Point
from .marks import arrow, arrow_head, begin, bracket, fasten_off, join, marker, no_stitch, start, turn
from .pen import PEN, extent, moved
from .posts import crossing_way, long_stem

__all__ = [
    "PEN",
    "Box",
    "Glyph",
    "Mark",
    "Point",
    "StitchKind",
    "arrow",
    "arrow_head",
    "begin",
    "bracket",
    "chain",
    "chain_run",
    "chain_stack",
    "crossing_way",
    "draw",
    "extent",
    "fasten_off",
    "glyph",
    "heights",
    "hold_sign",
    "join",
    "kind_of",
    "known",
    "long_stem",
    "magic_ring",
    "marker",
    "moved",
    "natural_height",
    "no_stitch",
    "picot",
    "picot_radius",
    "ring",
    "start",
    "stitch",
    "turn",
]  # fmt: skip
