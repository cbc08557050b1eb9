"""The typeface and the stitch dictionary; imports nothing of ours."""

from .chains import chain, chain_run, chain_stack, magic_ring, picot, picot_radius, ring
from .clasp import APART, BEND, LANE, TAIL_UP, Clasp, clasped_stem, hook
from .dictionary import StitchKind, heights, known, stitch
from .glyph import Glyph, beneath, draw, glyph, hold_sign, kind_of, natural_height
from .ink import Box, Mark, Point
from .marks import arrow, arrow_head, begin, bracket, fasten_off, join, marker, no_stitch, start, turn
from .pen import PEN, extent, moved
from .posts import crossing_way, long_stem

__all__ = [
    "APART",
    "BEND",
    "LANE",
    "PEN",
    "TAIL_UP",
    "Box",
    "Clasp",
    "Glyph",
    "Mark",
    "Point",
    "StitchKind",
    "arrow",
    "arrow_head",
    "begin",
    "beneath",
    "bracket",
    "chain",
    "chain_run",
    "chain_stack",
    "clasped_stem",
    "crossing_way",
    "draw",
    "extent",
    "fasten_off",
    "glyph",
    "heights",
    "hold_sign",
    "hook",
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
