"""The usual gauge and hook of each yarn weight category.

Craft Yarn Council, Standard Yarn Weight System, as printed in Crochet World, October 2018, p. 64: single
crochet over 4 in (10 cm), double crochet for category 0. The ranges are guidelines, so being outside one is
a note, never wrong.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from ...made_late import dataclass
from ...measure import MM_PER_INCH
from ...pattern.file.records import Gauge, Section
from ...pattern.lexicon import show_stitch


@dataclass(frozen=True, slots=True)
class YarnWeight:
    """A category: its gauge over 10 cm of a stitch, and its smallest and largest hook."""

    name: str
    stitch: str
    fewest: float
    most: float
    hook_from_mm: float
    hook_to_mm: float


WEIGHTS: tuple[YarnWeight, ...] = (
    YarnWeight("Lace", "dc", 32, 42, 1.5, 2.25),
    YarnWeight("Super Fine", "sc", 21, 32, 2.25, 3.5),
    YarnWeight("Fine", "sc", 16, 20, 3.5, 4.5),
    YarnWeight("Light", "sc", 12, 17, 4.5, 5.5),
    YarnWeight("Medium", "sc", 11, 14, 5.5, 6.5),
    YarnWeight("Bulky", "sc", 8, 11, 6.5, 9),
    YarnWeight("Super Bulky", "sc", 6, 9, 9, 16),
    YarnWeight("Jumbo", "sc", 0, 5, 16, float("inf")),
)


def gauge_note(category: int | None, gauge: Gauge, sections: Sequence[Section], terms: str) -> list[str]:
    """A note where the gauge is outside the category's usual range, in the terms that the sections are written in."""
    if category is None:
        return []
    weight, over = WEIGHTS[category], ("4 in", 4 * MM_PER_INCH) if gauge.over.unit == "in" else ("10 cm", 100.0)
    counted = gauge.stitches / gauge.over.mm * over[1]
    if weight.fewest <= round(counted, 1) <= weight.most:
        return []
    usual = f"{weight.fewest:g} to {weight.most:g}" if weight.fewest else f"{weight.most:g} and fewer"
    stitch = show_stitch(weight.stitch, terms)
    plain = all(re.search(rf"\b{stitch}\b", s.work.text, re.IGNORECASE) for s in sections)
    aside = "" if plain else f" of {stitch}; the gauge here is of the body's own stitch"
    called = f"category {category} ({weight.name})"
    return [f"{counted:.3g} stitches over {over[0]}; for {called} {usual} are usual{aside}."]


def hook_note(category: int | None, hook_mm: float | None, firm_is: str = "") -> list[str]:
    """A note where the hook is outside the category's usual range; smaller makes a firmer fabric, of which `firm_is`
    says what that does for the piece."""
    if category is None or hook_mm is None:
        return []
    weight = WEIGHTS[category]
    if weight.hook_from_mm <= hook_mm <= weight.hook_to_mm:
        return []
    to = f" to {weight.hook_to_mm:g}" if weight.hook_to_mm != float("inf") else " and larger"
    firm = hook_mm < weight.hook_from_mm
    told = f", {firm_is}" if firm_is else ""
    effect = f"a smaller hook makes a firm fabric{told}" if firm else "a larger hook makes a loose one"
    usual = f"{weight.hook_from_mm:g}{to} mm is usual for category {category} ({weight.name})"
    return [f"hook {hook_mm:g} mm; {usual}; {effect}."]


#: What yarn of each category is called by those who sell it (the Craft Yarn Council's table of yarn types and the UK's
#: plies, from memory).
_YARNS = (
    "lace, cobweb, thread, 1 ply, 2 ply", "super fine, superfine, fingering, sock, baby, 3 ply, 4 ply",
    "fine, sport, 5 ply", "light, dk, double knit, double knitting, light worsted, 8 ply",
    "medium, worsted, aran, afghan, 10 ply, 12 ply",
    "bulky, chunky, craft, rug, 14 ply", "super bulky, superbulky, super chunky, roving", "jumbo",
)  # fmt: skip
_CATEGORIES = {name: number for number, names in enumerate(_YARNS) for name in names.split(", ")}


def category_called(words: str) -> int | None:
    """The yarn weight category of a number or a name; None where it is none.

    >>> category_called("DK"), category_called("4ply"), category_called("4"), category_called("thick")
    (3, 1, 4, None)
    """
    apart = re.sub(r"(?<=\d)(?=ply)", " ", words.lower())
    low = re.sub(r"[\s-]+", " ", apart).strip().removesuffix(" weight").removesuffix(" yarn")
    number = re.fullmatch(r"(?:category |cat |no |#)?([0-7])", low)
    return int(number[1]) if number else _CATEGORIES.get(low)


#: What a hook of so many mm is called in the US (the Craft Yarn Council's table of hook sizes, from memory).
US_HOOKS = {
    2.25: "B-1", 2.75: "C-2", 3.125: "D", 3.25: "D-3", 3.5: "E-4", 3.75: "F-5", 4.0: "G-6", 4.25: "G", 4.5: "7",
    5.0: "H-8", 5.25: "I", 5.5: "I-9", 5.75: "J", 6.0: "J-10", 6.5: "K-10 1/2", 8.0: "L-11", 9.0: "M/N-13",
    10.0: "N/P-15",
}  # fmt: skip


def hook_called(words: str) -> str:
    """A hook by its US name as a pattern file says it, "" where it is none; a letter alone is the usual size of it.

    >>> hook_called("g-6"), hook_called("H"), hook_called("4 mm")
    ('4 mm (G-6)', '5 mm (H-8)', '')
    """
    low = words.upper().replace("/", "-").replace(" ", "")
    for mm, name in US_HOOKS.items():
        whole = name.upper().replace("/", "-").replace(" ", "")
        if "-" in whole and low in (whole, whole.split("-")[0]):
            return f"{mm:g} mm ({name})"
    return ""


def hook_numbered(number: str) -> str:
    """A hook by the number of its US name alone, as a pattern file says it; "" where it is none.

    >>> hook_numbered("7"), hook_numbered("8"), hook_numbered("3.5")
    ('4.5 mm', '5 mm (H-8)', '')
    """
    for mm, name in US_HOOKS.items():
        if number.isdigit() and name.split("-")[-1] == number:
            return f"{mm:g} mm" if name == number else f"{mm:g} mm ({name})"
    return ""


def us_hook(hook_mm: float | None) -> str:
    """The US name of a hook; "" where it has none.

    >>> us_hook(3.5), us_hook(3.0)
    ('E-4', '')
    """
    return US_HOOKS.get(hook_mm or 0.0, "")


def between_us_hooks(hook_mm: float | None) -> str:
    """The names of the next smaller and the next larger hook of the US; "" of one that lies outside them.

    >>> between_us_hooks(3.0), between_us_hooks(0.6)
    ('between C-2 and D', '')
    """
    mm = hook_mm or 0.0
    lower, upper = [size for size in US_HOOKS if size < mm], [size for size in US_HOOKS if size > mm]
    return f"between {US_HOOKS[max(lower)]} and {US_HOOKS[min(upper)]}" if lower and upper else ""
