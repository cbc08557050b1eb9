"""Several sizes in one text: "Ch 21 (25, 29)", "S (M, L)". One is taken, the others blotted out, places kept."""

from __future__ import annotations

import re

from ... import lexicon
from ...when_used import when_used

_SIZED = when_used(
    r"(?P<a>\b\d{1,4}|(?<![\w)\]-])[-\u2013](?=\s*[(\[]))(?P<gap>\s*)(?P<open>[(\[{])\s*(?P<rest>\d{1,4}(?:\s*[,:;/|-]\s*\d{1,4})+|(?:\d{1,4}|[-\u2013])(?:\s*[,;]\s*(?:\d{1,4}|[-\u2013]))+|\d{1,4}(?:\s*[,:;/|-]\s*\d{1,4})*)\s*(?P<close>[)\]}])"
)
#: "5 (6) 6 (7) 7", "11, (13), 15", "11 (13) (15)": sizes told with every second number, or each, in a bracket of its own.
_BY_TURNS = when_used(
    r"(?<![\d/.-])\d{1,4}[ ,]*[(\[]\d{1,4}[)\]](?:[ ,]*[(\[]\d{1,4}[)\]]|[ ,]*\d{1,4}[ ,]*[(\[]\d{1,4}[)\]])+(?:[ ,]*\d{1,4}(?![\d/]|\.\d|\s*(?:mm|cm|in\b|inch|\")|\s?(?:st|nd|rd|th)\b))?"
    r"|(?<![\d/.-])\d{1,4}[ ,]*[(\[]\d{1,4}[)\]][ ,]*\d{1,4}(?![\d/]|\.\d|\s*(?:mm|cm|in\b|inch|\")|\s?(?:st|nd|rd|th)\b)(?=[ ]+(?:sts?|stitches|sc|h?dc|h?tr|chs?|rows|rnds)\b)"
)
#: Rows of each size: "Rows 2-8 (2-8, 2-10)", "Row 3 (3-5)".
_RANGED = when_used(
    r"(?<![\d-])(?P<a>\d{1,4}(?:[-–]\d{1,4})?)\s*(?P<open>[(\[])\s*(?P<rest>\d{1,4}(?:[-–]\d{1,4})?(?:\s*,\s*\d{1,4}(?:[-–]\d{1,4})?)*)\s*[)\]]"
)
_NAMED = when_used(
    r"\bsizes?\b[^\n:]{0,12}:?\s*(?P<a>(?!(?:rows?|rnds?|rounds?)\b)[a-z0-9][a-z0-9 /-]{0,24}?)\s*[(\[](?P<rest>[a-z0-9][^()\[\]\n]{0,80})[)\]]"
)
_NAMES = (
    "xs",
    "s",
    "m",
    "l",
    "xl",
    "small",
    "medium",
    "large",
    "newborn",
    "toddler",
    "child",
    "adult",
    "baby",
    "preemie",
    "teen",
    "youth",
    "women",
    "men",
    "kid",
    "kids",
    "doll",
)


_DASHED = when_used(
    r"(?<![\d/.-])\d{1,4}(?: - \d{1,4}){2,7}(?=\s*(?:[a-z]|[.,;)]|$))(?!\s*(?:mths|months|yrs|years|cm|in))"
)


#: "Ch 15 / 19", "(11/15)": two or three sizes parted by strokes; no fraction and no measure.
_STROKED = when_used(
    r"(?<![\d/.-])(?!1/[2-9]\b|3/[48]\b|5/8\b|7/8\b)\d{1,4}(?:\s?/\s?\d{1,4}){1,5}(?![\d/]|\.\d|\s*(?:mm|cm|in\b|inch|\"|oz|yd|ply))"
)
_STROKED_CHAIN = when_used(r"(?:^|\n)[^\w\n]*(?:[a-z ]{0,24}\b)?(?:: ?)?(?:ch|chain)\s?\d{1,4}(?P<more>(?:\s?/\s?\d{1,4})+)\b(?!\s*(?:sp|loop))")
#: "(8, 9, 10)" at a line's end: what a row makes in each size.
_EACH_COUNT = when_used(r"(?<=[.,;:a-z)]\s)[(\[]\s*\d{1,4}(?:\s*,\s*\d{1,4}){1,11}(?P<of>\s*(?:sts?|stitches|sc|hdc|dc|tr))?\s*[)\]](?=\W*$)")
_RUN_OF_ROWS = when_used(r"(?:rows?|rnds?|rounds?|r)\s?\d+\s?(?:-|to|,|&|and)\s?\d")

#: "Ch 96 (106) 116 (128) 140": every second size in brackets.
_ALTERNATE = when_used(r"(?<![\d/.-])\d{1,4}(?: ?[(\[]\d{1,4}[)\]] ?\d{1,4}){1,5}(?: ?[(\[]\d{1,4}[)\]])?(?![\d/]|\.\d)")
_LISTED = when_used(
    r"\b(?:to fit )?sizes?\b[ \t:=-]+(?P<names>[a-z0-9]+(?: [a-z]+)?(?:\s*(?:\s-\s|,|/|;|\s\|\s)\s*[a-z0-9]+(?: [a-z]+)?)+)[ \t]*(?:\n|$)"
)
_ONLY = when_used(r"\W*(?P<whom>(?:for |on )(?:the )?[^,:.]{1,50}? sizes? only|[^,:.]{1,40}? sizes? only)\s*[,:-]\s*(?=\S)")

#: "The larger size is in brackets": numbers stand in pairs.
_IN_BRACKETS = when_used(
    r"\b(?:larger|bigger|large|second|2nd|other|adult|adults|medium) (?:sizes?|ones?|figures?|numbers?|(?:size )?(?:changes|instructions|differences?))\b[^.\n(]{0,40}\b(?:in|inside|within) (?:the )?(?:\( ?\)|\[ ?\]|brackets|parenthes[ei]s|round brackets|parens)"
    r"|\b(?:in|inside|within) (?:the )?(?:\( ?\)|\[ ?\]|brackets|parenthes[ei]s|round brackets|parens)[^.\n(]{0,30}\b(?:larger|bigger|large|second|2nd|other|adult) sizes?\b"
)
#: "Size K (6.50 mm)": a hook's.
_HOOK_SIZE = when_used(r"\d\s?mm\b")
#: "four (five) more times": a pair of numbers in words.
_WORD_PAIR = when_used(rf"\b(?P<a>{lexicon.NUMBER_WORDS})\s*[(\[](?P<b>{lexicon.NUMBER_WORDS})[)\]]")
#: "64 (72 sts)": the count of the second of two sizes with its unit inside the bracket.
_UNIT_INSIDE = when_used(r"(?P<a>\b\d{1,4})\s*[(\[]\s*(?P<b>\d{1,4})\s*(?P<of>sts?|stitches|sc|hdc|dc|htr|tr)\s*[)\]]")


def listed_names(low: str, sizes: int) -> tuple[str, ...]:
    """The names of so many sizes where a line lists them: "To fit size  6 mths - 12 mths - 2 yrs"."""
    for found in _LISTED.finditer(low):
        names = tuple(n.strip() for n in re.split(r"\s-\s|[,/;|]", found["names"]))
        if len(names) == sizes > 1 and all(names):
            return names
    return ()


def said_only_for(low: str, names: tuple[str, ...]) -> tuple[tuple[int, ...], int] | None:
    """The sizes (from 0) that a sentence is for, and where its words begin: "For size 4 only, work 2 more rows"."""
    found = _ONLY.match(low) if names else None
    sizes = only_for(found["whom"], names) if found else None
    return (sizes, found.end()) if found and sizes else None


def size_names(low: str) -> tuple[str, ...]:
    """The names of the sizes that a text says it is for; () where it says none."""
    for found in _NAMED.finditer(low):
        parted = r"[,;:]" if "/" in found["a"] else r"[,;:/]"  # "S/M (L/XL)" is two
        names = (found["a"].strip(), *(n.strip() for n in re.split(parted, found["rest"])))
        if len(names) > 1 and all(names) and not _HOOK_SIZE.search(found[0]):
            return names
    return ()


#: "Ch 72 (78)", "72 (78) ch": a foundation of two sizes.
_PAIR_BEGUN = when_used(r"\b(?:(?:ch|chain|fdc|fsc|fhdc)\s?(?P<a>\d{2,4}) ?[(\[](?P<b>\d{2,4})[)\]](?! ?(?:sp|sts|lp|[,;]? ?\d))|(?P<c>\d{2,4}) ?[(\[](?P<d>\d{2,4})[)\]] ?(?:ch|chains?)\b(?! ?(?:sp|lp)))")
#: "12 (13) shells": of what there are so many in each.
_PAIR_OF = when_used(
    rf"(?<![\w(/.-])(?P<a>\d{{1,4}}) ?[(\[](?P<b>\d{{1,4}})[)\]] ?(?:sts?|stitches|shells?|v-?sts?|groups|sps|spaces|lps|loops|chs?|chains|{lexicon.ANY_PLAIN})\b"
)


def _pair_told(low: str) -> bool:
    """Whether a text begins on so many chains and on more in a bracket, and counts something else so too."""
    begun = _PAIR_BEGUN.search(low)
    if begun is None or int(begun["a"] or begun["c"]) >= int(begun["b"] or begun["d"]):
        return False
    return any(int(found["a"]) < int(found["b"]) and found.start() != begun.start() and found.end() != begun.end() for found in _PAIR_OF.finditer(low))


def size_count(low: str) -> int:
    """How many sizes the numbers of a text are given for: 1 where it is for one."""
    counts: dict[int, int] = {}
    ranged = {found.end(): n for found, n in _ranges(low)}
    for found in _SIZED.finditer(low):
        n = ranged.get(found.end()) or 1 + len(_one_each(found["rest"]))
        if n > 2 and found["a"].isdigit():
            counts[n] = counts.get(n, 0) + 1
    names = size_names(low)
    pair = (len(names) == 2 or _IN_BRACKETS.search(low) is not None or _pair_told(low)) and any(
        len(re.findall(r"\d+", m["rest"])) == 1 for m in _SIZED.finditer(low)
    )
    turns = () if pair else _BY_TURNS.finditer(low)  # "row 9 (12) meets 20 (28), 15 (21) meets ..." is of two sizes
    for found in (*_DASHED.finditer(low), *turns):
        n = len(re.findall(r"\d+", found[0]))
        counts[n] = counts.get(n, 0) + 1
    for found in _STROKED_CHAIN.finditer(low):
        n = 1 + len(re.findall(r"\d+", found["more"]))
        again = [m for m in _STROKED.finditer(low) if len(re.findall(r"\d+", m[0])) == n]
        counts.update({n: len(again)} if len(again) > 1 else {})
    for n, often in () if pair else _alternating(low).items():
        counts[n] = counts.get(n, 0) + often
    if counts:
        most = max(counts, key=lambda n: (counts[n], n))
        return most if most <= 12 else 1
    return 2 if pair else 1


def _one_each(rest: str) -> list[str]:
    """The numbers of the further sizes, with a dash for a size that has none: "-, 132, 140"."""
    parts = [part.strip() for part in re.split("[,;]", rest)]
    return parts if all(part.isdigit() or part in ("-", "\u2013") for part in parts) else re.findall(r"\d+", rest)


def _alternating(low: str) -> dict[int, int]:
    """How often numbers stand in and out of brackets by turns, by how many they are; more than once, or they are no sizes."""
    many = [len(re.findall(r"\d+", found[0])) for found in _ALTERNATE.finditer(low)]
    return {n: many.count(n) for n in set(many) if n > 2 and many.count(n) > 1}


def _ranges(low: str) -> list[tuple[re.Match[str], int]]:
    """Where rows are given for each size, one number or two with a dash between them, and for how many sizes. What may
    as well be single numbers of three sizes, as "21 (25-29)", is left to be read so."""
    found = [(one, 1 + len(one["rest"].split(","))) for one in _RANGED.finditer(low)]
    return [
        (one, n) for one, n in found
        if re.search("[-–]", one["a"]) or (n > 2 and re.search("[-–]", one["rest"]))
    ]  # fmt: skip


def picked(line: str, low: str, size: int, sizes: int) -> str:
    """A line with the numbers of one size (from 0), the others blotted out; as long as before."""
    if sizes < 2:
        return line
    out = line
    ranged = set()
    for found, n in _ranges(low):
        if n == sizes:
            ranged.add(found.end())
            one = [found["a"], *re.split(r"\s*,\s*", found["rest"])][size]
            if re.search("[-–]", found["a"]) and one.isdigit():  # "Rows 2-5 (7, 8)": where they end in each size
                one = re.split("[-–]", found["a"])[0] + "-" + one
            out = out[: found.start()] + one.ljust(found.end() - found.start()) + out[found.end() :]
    turned = [found for found in _BY_TURNS.finditer(low) if len(re.findall(r"\d+", found[0])) == sizes]
    places = {found.start() for found in turned}
    others = [found for found in _ALTERNATE.finditer(low) if len(re.findall(r"\d+", found[0])) == sizes > 2]
    turned += [found for found in others if found.start() not in places]
    for found in turned:
        number = re.findall(r"\d+", found[0])[size]
        out = out[: found.start()] + number.ljust(found.end() - found.start()) + out[found.end() :]
    for found in _SIZED.finditer(low):
        numbers = [found["a"], *_one_each(found["rest"])]
        inside = any(one.start() <= found.start() < one.end() for one in turned)
        if len(numbers) != sizes or found.end() in ranged or inside or (sizes == 2 and not found["a"].isdigit()):
            continue
        room = found.end() - found.start()
        number = numbers[size] if numbers[size].isdigit() else "0"  # "- (2, 3)": none in the first
        out = out[: found.start()] + number.ljust(room) + out[found.end() :]
    for found in _UNIT_INSIDE.finditer(low) if sizes == 2 else ():
        said = f"({found['a'] if size == 0 else found['b']} {found['of']})"
        out = out[: found.start()] + said.ljust(found.end() - found.start()) + out[found.end() :]
    for found in _WORD_PAIR.finditer(low) if sizes == 2 else ():
        out = out[: found.start()] + (found["a"] if size == 0 else found["b"]).ljust(found.end() - found.start()) + out[found.end() :]
    each = _EACH_COUNT.search(low)
    more = (each,) if each and sizes > 2 and not _RUN_OF_ROWS.match(low.strip()) else ()
    for found in (*more, *_DASHED.finditer(low), *_STROKED.finditer(low)):
        numbers = re.findall(r"\d+", found[0])
        if len(numbers) == sizes and found in more:
            said = f"({numbers[size]}{found['of'] or ''})"
            out = out[: found.start()] + said.ljust(found.end() - found.start()) + out[found.end() :]
        elif len(numbers) == sizes:
            room = found.end() - found.start()
            out = out[: found.start()] + numbers[size].ljust(room) + out[found.end() :]
    return out


def only_for(low: str, names: tuple[str, ...]) -> tuple[int, ...] | None:
    """Which sizes (from 0) a line says the rows below it are for: "Child size only:"; () for all; None if it says
    nothing of the kind."""
    words = low.strip().rstrip(":. ").strip("*- ")
    if re.fullmatch(r"(?:for )?(?:all|both) sizes?(?: again)?|.{0,30}\(all sizes\)", words):
        return ()
    found = re.fullmatch(r"(?:for |sizes? )?(?:the )?(?P<names>.{1,60}?)(?: sizes?)?(?: only)?", words)
    if not found or (
        "only" not in words and not words.startswith(("for ", "size ", "sizes ")) and not words.endswith(("size", "sizes"))
    ):
        return None
    bare = re.sub(r"\bsizes?\b|\bonly\b|\bthe\b", " ", found["names"])
    said = [n.strip() for n in re.split(r",|&| and |/| or ", bare) if n.strip()]
    said = [_without_unit(n) for n in said] if len({_without_unit(n) for n in names}) == len(names) else said
    out = tuple(i for i, name in enumerate(names) if _is_named(i, name, said, len(names)))
    return out if out and len(out) == len(said) else None


#: What the ages and measures that name sizes are told in.
_UNIT = when_used(r"\s*\b(?:months?|mths?|mos?|years?|yrs?|inch(?:es)?|cm|in)\b\.?$")


def _without_unit(name: str) -> str:
    return _UNIT.sub("", name)


def _is_named(at: int, name: str, said: list[str], many: int) -> bool:
    """Whether one of the names that a line says is that of the size at `at` of so many: by its name, or by where it stands."""
    bare = _without_unit(name)
    if name in said or bare in said or name.rstrip("s") in said or f"{name}s" in said or (name[:1] in said and not name[:1].isdigit()):
        return True
    end = {0: ("smallest",), many - 1: ("largest", "biggest", "last")}.get(at, ())
    return any(word in end or lexicon.ordinal(word) == at + 1 for word in said)
