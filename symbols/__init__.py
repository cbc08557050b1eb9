"""The typeface and the stitch dictionary; imports nothing of ours.

Each name's module is loaded when the name is asked for: who reads a row needs the dictionary and draws nothing.
"""

import importlib
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from .chains import chain, chain_run, chain_stack, magic_ring, picot, picot_radius, ring
    from .clasp import APART, BEND, LANE, NARROW, SHARED_LANE, TAIL_UP, Clasp, clasped_stem, hook, lane_of
    from .dictionary import StitchKind, heights, known, stitch
    from .glyphs import Glyph, beneath, draw, glyph, hold_sign, kind_of, natural_height
    from .ink import Box, Mark, Point
    from .marks import arrow, arrow_head, begin, bracket, fasten_off, join, marker, no_stitch, start, turn
    from .pen import PEN, extent, moved
    from .posts import crossing_way, long_stem

__all__ = [
    "APART",
    "BEND",
    "LANE",
    "NARROW",
    "PEN",
    "SHARED_LANE",
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
    "lane_of",
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

#: The modules that have these names.
_MODULES = ("chains", "clasp", "dictionary", "glyphs", "ink", "marks", "pen", "posts")


def __getattr__(name: str) -> object:
    if name in __all__:
        for module in _MODULES:
            found = importlib.import_module(f".{module}", __name__)
            globals().update({n: getattr(found, n) for n in __all__ if n in found.__dict__})
        return globals()[name]
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
