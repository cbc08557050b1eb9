"""Which stitches stand out, on which side, and which stitch makes a row's height.

Several legs gathered into one place push the fabric out on the far side, so bobbles and clusters are usually worked
on wrong-side rows (common practice, no source). A popcorn closed by putting the hook from front to back through its
first stitch stands out towards the worker (Crochet Spot, "How to Crochet: Popcorn Stitch"), and puffs are worked on
either side (crochet.com learning center, "Popcorn"). A post stitch lies on the near side and is excepted.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping

from hookfold.symbols.dictionary import gathered, heights

from ..cloth.fabric import Row, Stitch, counts
from .row_heights import MIDWAY, relative_height

#: What raised stitches are called, as whole words of a kind's name.
RAISED_NAMES = tuple(name for kind in gathered().values() for name in (kind.kind, *kind.also))

#: Those of them that stand out towards the worker, as they are usually closed, and those bound to no side.
TOWARDS = ("popcorn", "pc")
EITHER_SIDE = ("puff",)

#: Fewer legs than this lie flat.
LEAST_LEGS = 3

#: From this share of a row's stitches on raised ones make the row taller: nothing that stands between them is wide
#: enough to hold it down. Our own limit, no source.
CROWDED = 1 / 3

_TOGETHER = re.compile(r"\b[a-z]*?(\d+)\s*tog\b", re.IGNORECASE)
_TOGETHER_OF = re.compile(r"\b(?P<base>[a-z]+?)\d+\s*tog\b", re.IGNORECASE)
_ONE_PLACE = re.compile(r"\bin(to)?\s+(the\s+)?(one|same|next|each|a)\s+(?!\d)", re.IGNORECASE)


def raised_name(kind: str, words: str = "") -> bool:
    """Whether a kind stands out by its name, or by the words of a special stitch.

    >>> raised_name("puff"), raised_name("FPdc"), raised_name("dc3tog")
    (True, False, False)
    >>> raised_name("knot", "dc5tog in one st")
    True
    """
    if kind.lower().startswith(("fp", "bp")):
        return False
    if set(re.split(r"[\s\d-]+", kind.lower())) & set(RAISED_NAMES):
        return True
    found = _TOGETHER.search(words)
    return bool(found and int(found[1]) >= LEAST_LEGS and _ONE_PLACE.search(words))


def stands_out(stitch: Stitch) -> bool:
    """Whether a worked stitch stands out: by its name, or as several legs in one place."""
    if not counts(stitch) or any("post" in foot.hold for foot in stitch.feet):
        return False
    one_place = len({(foot.back, foot.at) for foot in stitch.feet}) == 1
    return raised_name(stitch.kind) or (stitch.legs >= LEAST_LEGS and one_place)


def stands_away(stitch: Stitch) -> bool:
    """Whether a worked stitch stands out on the side away from the worker."""
    return stands_out(stitch) and not set(re.split(r"[\s\d-]+", stitch.kind.lower())) & {*TOWARDS, *EITHER_SIDE}


def near_row(row: Row) -> bool:
    """Whether a row holds a stitch that stands out towards the worker, and none that stands away."""
    near = [s for s in row.stitches if stands_out(s) and set(re.split(r"[\s\d-]+", s.kind.lower())) & set(TOWARDS)]
    return bool(near) and not raised_row(row)


def raised_row(row: Row) -> bool:
    """Whether a row holds a stitch that stands out away from the worker, so that it is liked on a wrong-side row."""
    return any(stands_away(stitch) for stitch in row.stitches)


def height_kind(kinds: Iterable[str]) -> str:
    """The stitch that makes a row's height: the tallest of those that do not stand out.

    A bobble is gathered, so the stitches between bobbles set the row's height; a row of nothing else is as
    tall as a row of dc.

    >>> height_kind(["sc", "bobble", "sc"]), height_kind(["sc", "dc", "dc"]), height_kind(["bobble"])
    ('sc', 'dc', 'dc')
    """
    flat = [kind for kind in kinds if kind not in ("ch", "picot") and not raised_name(kind)]
    return max(flat, key=relative_height, default="dc")


def row_kind(row: Row, specials: Mapping[str, str] | None = None) -> str:
    """The stitch that makes a worked row's height; `specials` gives special stitches' words.

    Where raised stitches stand close, the row comes out midway between them and what stands between them (an estimate):
    "sc+hdc" where every second stitch is a puff among sc.
    """
    words = specials or {}
    made = [(s.kind, stands_out(s) or raised_name(s.kind, words.get(s.kind, ""))) for s in row.stitches if counts(s)]
    raised = [kind for kind, stands in made if stands]
    flat = height_kind(kind for kind, stands in made if not stands)
    if not raised or len(raised) < CROWDED * len(made):
        return flat
    own = max((raised_base(kind, words.get(kind, "")) for kind in raised), key=relative_height)
    if len(raised) == len(made):
        return own
    return f"{flat}{MIDWAY}{own}" if relative_height(own) > relative_height(flat) else flat


def raised_base(kind: str, words: str = "") -> str:
    """The plain stitch that a raised one is as tall as: by its words, by its name, else dc.

    >>> raised_base("puff"), raised_base("hdc4tog"), raised_base("knot", "tr5tog in one st"), raised_base("knot")
    ('hdc', 'hdc', 'tr', 'dc')
    """
    told = next((found for text in (words, kind) if (found := _plain_in(text))), "")
    named = set(re.split(r"[\s\d-]+", kind.lower()))
    base = next((one.base for one in gathered().values() if named & {one.kind, *one.also}), "dc")
    return told or base


def _plain_in(text: str) -> str:
    """The plain stitch that several are worked together of in a text; "" where there is none."""
    found = _TOGETHER_OF.search(text)
    return found["base"].lower() if found and found["base"].lower() in heights() else ""
