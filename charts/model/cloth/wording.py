"""Places and numbers in the words of messages, in the terms of the text."""

from __future__ import annotations

from ...made_late import replace
from ...pattern.lexicon import show_stitch
from ...pattern.tree import MIDDLE_OF, PETAL_ST, Noun


def one(noun: Noun, terms: str = "US") -> str:
    """A noun as a message names it.

    >>> one(Noun("sp", 3)), one(Noun("dc"), "UK"), one(Noun("group", 2, "dc"))
    ('ch-3 sp', 'tr', '2-dc group')
    """
    if noun.of == MIDDLE_OF:
        return f"center {one(replace(noun, of=''), terms)}"
    if noun.name in ("sp", "lp") and noun.size:
        return f"{noun.size}-ch {noun.name}" if terms == "UK" else f"ch-{noun.size} {noun.name}"
    if noun.name == "group" and noun.size:
        return f"{noun.size}-{show_stitch(noun.of or 'st', terms)} group"
    if noun.name == "gap":
        return "space between stitches"
    if noun.name == "corner st":
        return f"corner {show_stitch(noun.of or 'st', terms)}"
    if noun.name == "middle st":
        return f"center {show_stitch(noun.of, terms)}"
    if noun.name == PETAL_ST:
        return f"{show_stitch(noun.of, terms)} between petals"
    return show_stitch(noun.name, terms)


def many(noun: Noun, count: int, terms: str = "US") -> str:
    """A noun in the plural where the count asks for it; stitch abbreviations stay as they are.

    >>> many(Noun("st"), 2), many(Noun("dc"), 2), many(Noun("shell"), 1)
    ('sts', 'dc', 'shell')
    """
    word = one(noun, terms)
    plural = noun.name in _PLURALS
    return word + ("s" if plural and count != 1 else "")


_PLURALS = (
    "st",
    "sp",
    "lp",
    "picot",
    "shell",
    "V-st",
    "group",
    "corner",
    "corner sp",
    "block",
    "petal",
    "bobble",
    "cluster",
    "mesh",
)


def stitches(count: int) -> str:
    """ "1 stitch", "5 stitches"."""
    return f"{count} {'stitch' if count == 1 else 'stitches'}"


def are(count: int) -> str:
    """ "is" for one, "are" for any other number."""
    return "is" if count == 1 else "are"


def them(count: int) -> str:
    """ "it" for one, "them" for any other number."""
    return "it" if count == 1 else "them"


def sts(count: int) -> str:
    """ "st" for one, "5 sts" for more, as words of a row."""
    return "st" if count == 1 else f"{count} sts"


def ordinal(n: int) -> str:
    """ "1st", "2nd", "13th"."""
    return f"{n}{'th' if 10 <= n % 100 <= 20 else {1: 'st', 2: 'nd', 3: 'rd'}.get(n % 10, 'th')}"
