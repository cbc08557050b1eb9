"""The trade's words in both systems of terms, and how a stitch name in either becomes its US one.

Term pairs are common practice, no source; "single crochet / sc" exists in US terms only (common practice).
"""

from __future__ import annotations

import functools
import re
from types import MappingProxyType

US_HEIGHTS = ("sc", "hdc", "dc", "tr", "dtr", "trtr")
#: Chains of a beginning chain as tall as a stitch (PG 26113, 1918, for sc to dtr; trtr continues the row).
TURNING = MappingProxyType({"sc": 1, "hdc": 2, "dc": 3, "tr": 4, "dtr": 5, "trtr": 6})
UK_TO_US = MappingProxyType(
    {"dc": "sc", "htr": "hdc", "tr": "dc", "dtr": "tr", "trtr": "dtr", "ttr": "dtr", "qtr": "trtr", "qdtr": "trtr"}
)
US_TO_UK = MappingProxyType({"sc": "dc", "hdc": "htr", "dc": "tr", "tr": "dtr", "dtr": "trtr", "trtr": "qtr"})

_US_LONG = {
    "single crochet": "sc", "half double crochet": "hdc", "half-double crochet": "hdc", "double crochet": "dc",
    "treble crochet": "tr", "triple crochet": "tr", "treble": "tr", "double treble crochet": "dtr",
    "double treble": "dtr", "triple treble crochet": "trtr", "triple treble": "trtr",
}  # fmt: skip
_UK_LONG = {
    "double crochet": "sc", "half treble crochet": "hdc", "half treble": "hdc", "treble crochet": "dc", "treble": "dc",
    "double treble": "tr", "triple treble": "dtr", "quadruple treble": "trtr",
}  # fmt: skip
_SLIP = (
    "sl st",
    "slip stitch",
    "slip st",
    "sl-st",
    "slst",
    "ss",
    "slip-stitch",
    "s st",
    "sl stitch",
    "sl. st",
    "slip",
    "sl sts",
    "sl st.",
    "slip sts",
    "slip stitches",
    "s/s",
    "s s",
    "sl",
    "ss st",
)

_NUMBERS = {
    "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10,
    "eleven": 11, "twelve": 12, "thirteen": 13, "fourteen": 14, "fifteen": 15, "sixteen": 16, "seventeen": 17,
    "eighteen": 18, "nineteen": 19, "twenty": 20, "thirty": 30, "forty": 40, "fifty": 50,
    "sixty": 60, "seventy": 70, "eighty": 80, "ninety": 90, "hundred": 100,
    "once": 1, "twice": 2, "thrice": 3,
}  # fmt: skip
_TENS = {word: n for word, n in _NUMBERS.items() if n % 10 == 0 and 20 <= n < 100}
_NUMBERS |= {f"{ten}-{one}": _TENS[ten] + n for ten in _TENS for one, n in list(_NUMBERS.items())[:9]}

#: Any number in words, longest first, for patterns of heads and foundations.
NUMBER_WORDS = "|".join(
    word.replace("-", "[- ]")
    for word in sorted(_NUMBERS, key=len, reverse=True)
    if _NUMBERS[word] > 1 and word[-2:] != "ce"
)
_ORDINALS = {
    "second": 2, "third": 3, "fourth": 4, "fifth": 5, "sixth": 6, "seventh": 7, "eighth": 8, "ninth": 9, "tenth": 10,
    "eleventh": 11, "twelfth": 12, "thirteenth": 13, "fourteenth": 14, "fifteenth": 15, "sixteenth": 16,
    "seventeenth": 17, "eighteenth": 18, "nineteenth": 19, "twentieth": 20,
}  # fmt: skip

#: Words that are one idea; the first is the reader's own. A test walks this table.
SYNONYMS = MappingProxyType({
    "st": ("st", "sts", "stitch", "stitches"),
    "ch": ("ch", "chs", "chain", "chains"),
    "sp": ("sp", "sps", "space", "spaces", "arch", "arches", "ch-sp", "ch-sps", "chsp", "chsps"),
    "lp": ("lp", "lps", "loop", "loops"),
    "sk": ("sk", "skip", "miss", "skipping", "missing"),
    "rep": ("rep", "repeat"),
    "rnd": ("rnd", "rnds", "round", "rounds"),
    "row": ("row", "rows"),
    "beg": ("beg", "beginning"),
    "rem": ("rem", "remaining"),
    "next": ("next", "following", "foll"),
    "prev": ("prev", "previous"),
    "in": ("in", "into"),
    "tch": ("tch", "t-ch", "turning-ch"),
    "picot": ("picot", "picots"),
    "shell": ("shell", "shells"),
    "group": ("group", "groups", "grp"),
    "corner": ("corner", "corners"),
    "mesh": ("mesh", "meshes", "square", "squares"),
    "block": ("block", "blocks", "fan", "fans", "petal", "petals", "scallop", "scallops"),
    "center": ("center", "centre", "middle"),
    "inc": ("inc", "incs"),
    "dec": ("dec", "decs", "invdec"),
    "V-st": ("v-st", "v-sts", "v-stitch", "v-stitches", "vst", "vsts"),
    "loopblo": ("blo", "blp", "bl", "back-loop", "tbl"),
    "loopflo": ("flo", "flp", "fl", "front-loop"),
    "bobble": ("bobble", "bobbles", "bo"),
    "puff": ("puff", "puffs", "puff-st"),
    "popcorn": ("popcorn", "popcorns", "pc", "pop"),
    "cluster": ("cluster", "clusters", "cl", "cls"),
})  # fmt: skip


@functools.cache
def synonyms() -> dict[str, str]:
    """Every known spelling -> the reader's own word."""
    return {spelled: word for word, all_spelled in SYNONYMS.items() for spelled in all_spelled}


def number(word: str) -> int | None:
    """A whole number in figures (at most 9 of them) or in words, else None."""
    if word.isascii() and word.isdigit():
        return int(word) if len(word) <= 9 else None
    return _NUMBERS.get(word.replace(" ", "-"))


def ordinal(word: str) -> int | None:
    """ "3rd" -> 3, "third" -> 3."""
    found = re.fullmatch(r"(\d{1,4})(?:st|nd|rd|th)", word)
    return int(found[1]) if found else _ORDINALS.get(word)


@functools.cache
def long_names(terms: str) -> dict[str, str]:
    """Names in full -> US abbreviation, in the given terms; slip stitch in both."""
    table = dict(_UK_LONG if terms == "UK" else _US_LONG)
    table.update(dict.fromkeys(_SLIP, "sl st"))
    table.update(
        {"reverse single crochet": "rsc", "crab stitch": "rsc", "crab st": "rsc", "reverse sc": "rsc", "rev sc": "rsc"}
    )
    if terms == "UK":
        table.update({"reverse dc": "rsc", "rev dc": "rsc", "reverse double crochet": "rsc"})
    return table


_FORM = re.compile(
    r"(?P<form>fp|bp|e|f)?(?P<base>sc|hdc|dc|htr|qtr|trtr|ttr|dtr|tr)(?:(?P<legs>\d{1,2})(?P<tog>tog|cl))?s?"
)
_RAISED = re.compile(r"r(?P<base>htr|dtr|tr|dc)(?P<side>[fb])")


def stitch_name(word: str, terms: str) -> str | None:
    """The US abbreviation of a stitch named `word` in `terms` ("FPdc2tog", "edc", "fsc"), or None.

    >>> stitch_name("tr2tog", "UK"), stitch_name("fptr", "US"), stitch_name("sc", "UK")
    ('dc2tog', 'FPtr', None)
    """
    low = word.lower()
    if low in ("rsc", "ss", "slst", "sl-st", "slpst", "slstitch", "slipstitch", "slst'd"):
        return "rsc" if low == "rsc" else "sl st"
    raised = _RAISED.fullmatch(low) if terms == "UK" else None
    if raised:
        return {"f": "FP", "b": "BP"}[raised["side"]] + UK_TO_US[raised["base"]]
    found = _FORM.fullmatch(low)
    base = _base(found["base"], terms) if found else None
    if not found or base is None:
        return None
    tail = f"{found['legs']}{found['tog']}" if found["tog"] else ""
    form = found["form"] or ""
    return (form.upper() if form in ("fp", "bp") else form) + base + tail


def _base(base: str, terms: str) -> str | None:
    if terms == "UK":
        return UK_TO_US.get(base)
    return base if base in US_HEIGHTS else None


def foreign(word: str, terms: str) -> str | None:
    """If `word` is a stitch of the other system only, the system it belongs to."""
    other = "US" if terms == "UK" else "UK"
    return other if stitch_name(word, terms) is None and stitch_name(word, other) is not None else None


def show_stitch(name: str, terms: str) -> str:
    """A US abbreviation as it is written in `terms`; unknown (special) names stay.

    >>> show_stitch("FPdc", "UK"), show_stitch("sl st", "UK")
    ('FPtr', 'ss')
    """
    if terms != "UK":
        return name
    if name == "sl st":
        return "ss"
    if name == "rsc":
        return "reverse dc"
    found = _FORM.fullmatch(name.lower())
    if not found or found["base"] not in US_TO_UK:
        return name
    tail = f"{found['legs']}{found['tog']}" if found["tog"] else ""
    form = found["form"] or ""
    return (form.upper() if form in ("fp", "bp") else form) + US_TO_UK[found["base"]] + tail


def height_of(name: str) -> str | None:
    """The plain stitch a US name is built on: "FPdc2tog" -> "dc"; None for special stitches."""
    found = _FORM.fullmatch(name.lower())
    return found["base"] if found and found["base"] in US_HEIGHTS else None


def together(name: str) -> int:
    """How many stitches a US name works together: "dc3tog" -> 3, "dc" -> 1."""
    found = re.search(r"(\d{1,2})tog$", name)
    return int(found[1]) if found else 1


def spelled_bases(terms: str) -> dict[str, str]:
    """Plain stitches as they are spelled out with spaces or in full -> their US names: for forms built on them."""
    out = {name: us for name, us in long_names(terms).items() if us in US_HEIGHTS}
    short = UK_TO_US if terms == "UK" else {us: us for us in US_HEIGHTS}
    out.update(short)
    for abbreviation, us in short.items():
        out.setdefault(" ".join(abbreviation), us)
    if terms == "UK":
        out.update({"htc": "hdc", "tc": "dc", "dtc": "tr", "trc": "dc"})
        out.update({"half treble crochet": "hdc", "double treble crochet": "tr", "triple treble crochet": "dtr"})
        out.update({"trebles": "dc", "half trebles": "hdc", "dble crochet": "sc", "trb": "dc"})
    else:
        out.update({"half dc": "hdc", "half-dc": "hdc", "hlf dc": "hdc", "dbl tr": "dtr", "trc": "tr", "tc": "tr",
                    "half crochet": "hdc", "half double": "hdc", "triple": "tr", "short double crochet": "hdc",
                    "s c": "sc", "d c": "dc", "t c": "tr", "s d c": "hdc", "tr c": "tr", "h d c": "hdc",
                    "single": "sc", "singles": "sc", "doubles": "dc", "trebles": "tr", "singlecrochet": "sc",
                    "d tr": "dtr", "tr tr": "trtr", "sg cr": "sc", "d cr": "dc", "dbl crochet": "dc",
                    "half-double": "hdc",
                    "dtrc": "dtr", "dtc": "dtr"})  # fmt: skip
    return out


def spelled_forms(spelled: str, us: str, terms: str) -> tuple[tuple[str, str], ...]:
    """The forms of a plain stitch as they are spelled: plain, raised, extended, foundation, reverse, decreased."""
    plural = spelled if spelled.endswith("s") else spelled + "s"
    ahead = (
        (("", us), ("front post ", "FP" + us), ("back post ", "BP" + us), ("fp ", "FP" + us), ("bp ", "BP" + us),
         ("fp-", "FP" + us), ("bp-", "BP" + us), ("front-post ", "FP" + us), ("back-post ", "BP" + us),
         ("extended ", "e" + us), ("ext ", "e" + us), ("ext. ", "e" + us),
         ("foundation ", "f" + us), ("fnd ", "f" + us), ("base ", "f" + us), ("chainless foundation ", "f" + us),
         ("chainless ", "f" + us), ("standing ", us), ("basic ", us), ("raised front ", "FP" + us),
         ("front raised ", "FP" + us), ("raised back ", "BP" + us), ("back raised ", "BP" + us),
         ("front post/", "FP" + us), ("joining ", us), ("beginning ", us) if us == "sc" else ("", us))
    )  # fmt: skip
    forms = [(lead + name, made) for lead, made in ahead for name in (spelled, plural)]
    if us == "sc":
        forms += [(lead + spelled, "rsc") for lead in ("reverse ", "rev ", "rev. ", "backward ", "backwards ")]
    forms += [
        (f"{spelled} {tail}", f"{us}2tog")
        for tail in ("decrease", "dec", "2tog", "two together", "2 tog", "2 together")
    ]
    forms += [(f"{spelled} front post", "FP" + us), (f"{spelled} back post", "BP" + us)]
    if len(spelled) < 5:
        forms += [(spelled + "fp", "FP" + us), (spelled + "bp", "BP" + us)]
    forms += [(f"{count} {plural} together", f"{us}{n}tog") for n, count in ((2, "two"), (3, "three"))]
    return tuple(forms)


_HELD = (("bl", "back loop"), ("fl", "front loop"))


def held_name(word: str, terms: str) -> tuple[str, str] | None:
    """A stitch written together with its loop: "blsc", "scblo", "sc-flo" -> (its US name, the loop).

    >>> held_name("blsc", "US"), held_name("scflo", "US"), held_name("sc", "US")
    (('sc', 'back loop'), ('sc', 'front loop'), None)
    """
    for short, hold in _HELD:
        for form in (short + "o", short):
            for rest in (word.removeprefix(form), word.removesuffix(form)):
                bare = rest.strip("-")
                if rest != word and bare and (name := stitch_name(bare, terms)):
                    return (name, hold)
    return None
