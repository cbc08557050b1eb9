"""The trade's words in both systems of terms, and how a stitch name in either becomes its US one.

Term pairs are common practice, no source; "single crochet / sc" exists in US terms only (common practice).
"""

from __future__ import annotations

import functools
import re
from collections.abc import Iterable, Mapping
from types import MappingProxyType

from hookfold.symbols.dictionary import abbreviations, full_names, gathered, heights

#: The plain stitches but the slip stitch by their US abbreviations, low to tall.
US_HEIGHTS = tuple(abbreviations("US"))
#: Chains of a beginning chain as tall as a stitch.
TURNING = MappingProxyType({name: heights()[name].turning for name in US_HEIGHTS})
UK_TO_US = abbreviations("UK")
#: Stitches that are worked backwards, from left to right by a right-hander (crab stitch).
BACKWARD = ("rsc",)
US_TO_UK = MappingProxyType({name: heights()[name].uk for name in US_HEIGHTS})
#: Any plain stitch as either system abbreviates it, for patterns; the longest first.
ANY_PLAIN = "|".join(sorted({*US_HEIGHTS, *UK_TO_US}, key=lambda name: (-len(name), name)))

_NUMBERS = {
    "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10,
    "eleven": 11, "twelve": 12, "thirteen": 13, "fourteen": 14, "fifteen": 15, "sixteen": 16, "seventeen": 17,
    "eighteen": 18, "nineteen": 19, "twenty": 20, "thirty": 30, "forty": 40, "fifty": 50,
    "sixty": 60, "seventy": 70, "eighty": 80, "ninety": 90, "hundred": 100,
    "once": 1, "twice": 2, "thrice": 3,
}  # fmt: skip
_TENS = {word: n for word, n in _NUMBERS.items() if n % 10 == 0 and 20 <= n < 100}
_NUMBERS |= {f"{ten}-{one}": _TENS[ten] + n for ten in _TENS for one, n in list(_NUMBERS.items())[:9]}


def _any_of(words: Iterable[str]) -> str:
    """A pattern of any of these, longest first; those of two words are told once for all tens."""
    ends: dict[str, list[str]] = {}
    alone: list[str] = []
    for word in sorted(words, key=len, reverse=True):
        first, _, end = word.partition("-")
        if end:
            ends.setdefault(end, []).append(first)
        else:
            alone.append(word)
    shared: dict[tuple[str, ...], list[str]] = {}
    for end, firsts in ends.items():
        shared.setdefault(tuple(sorted(firsts)), []).append(end)
    return "|".join((*(f"(?:{'|'.join(f)})[- ](?:{'|'.join(e)})" for f, e in shared.items()), *alone))


#: Any number in words, longest first, for patterns of heads and foundations.
NUMBER_WORDS = _any_of(word for word, n in _NUMBERS.items() if n > 1 and word[-2:] != "ce")
_ORDINALS = {
    "second": 2, "third": 3, "fourth": 4, "fifth": 5, "sixth": 6, "seventh": 7, "eighth": 8, "ninth": 9, "tenth": 10,
    "eleventh": 11, "twelfth": 12, "thirteenth": 13, "fourteenth": 14, "fifteenth": 15, "sixteenth": 16,
    "seventeenth": 17, "eighteenth": 18, "nineteenth": 19, "twentieth": 20,
    "thirtieth": 30, "fortieth": 40, "fiftieth": 50,
}  # fmt: skip
_ORDINALS |= {
    f"{ten}-{one}": _TENS[ten] + n
    for ten in ("twenty", "thirty", "forty", "fifty")
    for one, n in (("first", 1), *list(_ORDINALS.items())[:8])
}
#: Any order in words, longest first, for patterns of heads.
ORDER_WORDS = _any_of((*_ORDINALS, "first"))

#: What is worked in one place and gathered at its top.
GATHERED = ("cl", "cluster", "popcorn", "pc", "puff", "bobble")

#: What a stitch and a chain of a foundation are called.
STITCH_WORDS = ("st", "sts", "stitch", "stitches")
CHAIN_WORDS = ("ch", "chs", "chain", "chains")


def number(word: str) -> int | None:
    """A whole number in figures (at most 9 of them) or in words, else None."""
    if word.isascii() and word.isdigit():
        return int(word) if len(word) <= 9 else None
    return _NUMBERS.get(word.replace(" ", "-"))


def ordinal(word: str) -> int | None:
    """ "3rd" -> 3, "third" -> 3."""
    found = re.fullmatch(r"(\d{1,4})(?:st|nd|rd|th)|(\d{0,2}[23])d", word)
    return int(found[1] or found[2]) if found else _ORDINALS.get(word.replace(" ", "-"))


@functools.cache
def long_names(terms: str) -> dict[str, str]:
    """Names in full -> US abbreviation, in the given terms; slip stitch in both."""
    table = dict(full_names(terms))
    table.update(
        {"reverse single crochet": "rsc", "crab stitch": "rsc", "crab st": "rsc", "reverse sc": "rsc", "rev sc": "rsc"}
    )
    if terms == "UK":
        table.update({"reverse dc": "rsc", "rev dc": "rsc", "reverse double crochet": "rsc"})
    return table


_FORM = re.compile(
    rf"(?P<form>fp|bp|ex?|f)?(?P<base>{ANY_PLAIN})(?:(?P<legs>[2-9]|[1-9]\d)(?P<tog>tog|cl))?s?"
)
_RAISED = re.compile(r"r(?P<base>htr|dtr|tr|dc)(?P<side>[fb])")


def stitch_name(word: str, terms: str) -> str | None:
    """The US abbreviation of a stitch named `word` in `terms` ("FPdc2tog", "edc", "fsc"), or None.

    >>> stitch_name("tr2tog", "UK"), stitch_name("fptr", "US"), stitch_name("sc", "UK")
    ('dc2tog', 'FPtr', None)
    """
    low = word.lower()
    if low == "rsc":
        return low
    if low != "slip" and low != "sl" and full_names(terms).get(low) == "sl st":
        return "sl st"
    raised = _RAISED.fullmatch(low) if terms == "UK" else None
    if raised:
        return {"f": "FP", "b": "BP"}[raised["side"]] + UK_TO_US[raised["base"]]
    found = _FORM.fullmatch(low)
    base = _base(found["base"], terms) if found else None
    if not found or base is None:
        return None
    tail = f"{found['legs']}{found['tog']}" if found["tog"] else ""
    form = found["form"] or ""
    return (form.upper() if form in ("fp", "bp") else form.removesuffix("x")) + base + tail


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


#: Names of stitches that are words of other uses too ("a single crochet hook", "use the yarn double").
_OF_OTHER_USES = frozenset({"single", "double", "treble", "triple", "slip", "sl"})


@functools.cache
def _names_spelled() -> Mapping[str, str]:
    """Every name of a stitch but the plain abbreviations, and the abbreviation each stands for."""
    plain = {*US_HEIGHTS, *UK_TO_US, "sl st", "ss"}
    both = {**long_names("UK"), **long_names("US")}
    # a seam is told in slip stitches, too, so that their name alone works nothing.
    names = {name: us for name, us in both.items() if name not in plain and us != "sl st"}
    for made in gathered().values():
        names |= {spelled: made.base for spelled in (made.kind, made.name, *made.also) if len(spelled) > 2}
    return names | {f"{name}s": us for name, us in names.items() if not name.endswith(("s", "."))}


@functools.cache
def _any_name() -> re.Pattern[str]:
    """Any of these names where it tells a stitch."""
    longest_first = sorted(_names_spelled(), key=lambda name: (-len(name), name))
    any_name = "|".join(re.escape(name) for name in longest_first if name not in _OF_OTHER_USES)
    alone = "|".join(sorted(_OF_OTHER_USES - {"slip", "sl"}))
    begins = r"(?:^|(?<=[,;:*(\[] )|(?<=\. )|(?<=\ba ))"
    counted = rf"(?<=\d )(?:{alone})(?=[,;.]|\s(?:in|into|on|over)\b)|{begins}(?:{alone})(?=\s(?:in|into)\b)"
    lead = r"(?:(?:front|back)[ -]post |fp|bp)?"
    return re.compile(rf"(?<![a-z]){lead}(?:{any_name})(?![a-z])|{counted}")


@functools.lru_cache(maxsize=8192)
def in_short(low: str) -> str:
    """Words in lower case with stitches that are told by a name told by a plain abbreviation: to ask of them whether
    they work anything, and no more, as both systems' names are taken and a group is told by the stitch it is made of.

    >>> in_short("3 singles in each space, half treble in next, popcorn in last")
    '3 sc in each space, hdc in next, dc in last'
    >>> in_short("a double strand and a single crochet hook"), in_short("1 double in next")
    ('a double strand and a sc hook', '1 dc in next')
    """
    names = _names_spelled()
    if not any(name in low for name in names) and not any(name in low for name in _OF_OTHER_USES):
        return low
    return _any_name().sub(lambda m: names.get(m[0], "dc"), low)


#: The names of a raised stitch of whatever height, and what the names of such stitches begin with.
RAISED = {"FP st": ("FP",), "BP st": ("BP",), "post st": ("FP", "BP")}


def height_of(name: str) -> str | None:
    """The plain stitch a US name is built on: "FPdc2tog" -> "dc"; None for special stitches."""
    if name in RAISED:
        return "dc"  # of whatever height it may be
    found = _FORM.fullmatch(name.lower())
    return found["base"] if found and found["base"] in US_HEIGHTS else None


@functools.lru_cache(maxsize=256)
def together(name: str) -> int:
    """How many stitches a US name works together: "dc3tog" -> 3, "dc" -> 1."""
    found = re.search(r"(\d{1,2})tog$", name)
    return int(found[1]) if found else 1


def spelled_bases(terms: str) -> dict[str, str]:
    """Plain stitches as they are spelled out with spaces or in full -> their US names: for forms built on them."""
    out = {name: us for name, us in long_names(terms).items() if us in US_HEIGHTS}
    short = abbreviations(terms)
    out.update(short)
    for abbreviation, us in short.items():
        out.setdefault(" ".join(abbreviation), us)
    return out


def spelled_forms(spelled: str, us: str, terms: str) -> tuple[tuple[str, str], ...]:
    """The forms of a plain stitch as they are spelled: plain, raised, extended, foundation, reverse, decreased."""
    plural = spelled if spelled.endswith("s") else spelled + "s"
    ahead = (
        (("", us), ("front post ", "FP" + us), ("back post ", "BP" + us), ("fp ", "FP" + us), ("bp ", "BP" + us),
         ("fp-", "FP" + us), ("bp-", "BP" + us), ("front-post ", "FP" + us), ("back-post ", "BP" + us),
         ("extended ", "e" + us), ("ext ", "e" + us), ("ex ", "e" + us), ("ex-", "e" + us), ("ext. ", "e" + us),
         ("foundation ", "f" + us), ("fnd ", "f" + us), ("base ", "f" + us), ("chainless foundation ", "f" + us),
         ("chainless ", "f" + us), ("foundationless ", "f" + us), ("standing ", us), ("basic ", us),
         ("raised front ", "FP" + us),
         ("front raised ", "FP" + us), ("raised back ", "BP" + us), ("back raised ", "BP" + us),
         ("front post/", "FP" + us), ("joining ", us), ("beginning ", us) if us == "sc" else ("", us))
    )  # fmt: skip
    forms = [(lead + name, made) for lead, made in ahead for name in (spelled, plural)]
    forms += [(spelled + "'s", us)] if len(spelled) < 5 else []
    if spelled.endswith("crochet"):
        forms += [(spelled + "ing", us), (spelled + "ed", us)]
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


def named_in_full(said: str, terms: str) -> set[str]:
    """The stitches that a name in full, or a form and an abbreviation, may stand for.

    >>> named_in_full("foundation sc", "US"), named_in_full("treble crochet", "UK")
    ({'fsc'}, {'dc'})
    """
    bases = spelled_bases(terms).items()
    return {made for spelled, us in bases for form, made in spelled_forms(spelled, us, terms) if form == said}


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
