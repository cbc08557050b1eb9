"""Filet told by its meshes: what an open and a solid one are where a pattern uses the names and explains neither."""

from __future__ import annotations

import re
from collections.abc import Collection

from ...when_used import when_used

_OPEN, _SOLID = r"open mesh(?:es)?", r"(?:solid|closed|filled) mesh(?:es)?"
#: "3 open meshes": so many of them as work.
_WORKED = when_used(rf"\b(?:\d{{1,3}}|an?|one)\s+(?:{_OPEN}|{_SOLID})\b")
_ASIDE = when_used(rf"\((?:=|an?|one|1|forms an?|makes an?)\s*(?:{_OPEN}|{_SOLID})(?:\s+made)?\)", re.IGNORECASE)
_CALLED = when_used(r"\b(?:solid|closed|filled)(?= mesh)")
#: "ch 2, skip 2 sts, d c in next st": how wide the meshes are, and of which stitch.
_FIRST = when_used(
    r"\b(?:ch ?(?P<n>[123])|(?P<n2>[123]) ?ch),? *(?:sk|skip|miss) (?:next )?(?P<m>[123])\b[^,;]{0,20}, *(?:1 )?(?P<stitch>d ?c|tr)(?: c)? in(?:to)? (?:the )?next"
)
#: So many chains are as high as the stitch of a mesh (common practice, no source).
_HIGH = 3


def usual_meshes(low: str, known: Collection[str]) -> tuple[tuple[str, str], ...]:
    """For each kind of mesh that a text in lower case works and does not explain, its explanation and how it begins a
    row, of the width and the stitch of the text's first mesh; `known` are the names explained. Empty where no first mesh
    is told.

    >>> [said for said, _ in usual_meshes("ch 2, skip 2 sts, dc in next st. 3 open meshes, 1 solid mesh.", ())]
    ['Open mesh: Ch 2, sk next 2 dc or next ch-2 sp, dc in next dc.', 'Solid mesh: 2 dc in next ch-2 sp or dc in each of next 2 dc, dc in next dc.']
    """
    first = _FIRST.search(low)
    if first is None or not _WORKED.search(low) or "open mesh" in known:
        return ()
    wide, stitch = int(first["n"] or first["n2"]), first["stitch"].replace(" ", "")
    if wide != int(first["m"]):
        return ()
    across = f"sk next {wide} {stitch} or next ch-{wide} sp"
    begun = f"ch {_HIGH + wide} (counts as {stitch} and ch {wide}), {across}, {stitch} in next {stitch}"
    told = [(f"Open mesh: Ch {wide}, {across}, {stitch} in next {stitch}.", _begin("open mesh", begun))]
    for name in sorted({f"{found[0]} mesh" for found in _CALLED.finditer(low)} - set(known)):
        filled = f"{wide} {stitch} in next ch-{wide} sp or {stitch} in each of next {wide} {stitch}, {stitch} in next {stitch}"
        begun = f"ch {_HIGH} (counts as {stitch}) followed by the first {name}"
        told.append((f"{name.capitalize()}: {filled}.", _begin(name, begun)))
    return tuple(told)


def without_asides(text: str) -> str:
    """Words of a row without what they call a mesh that was just told, letter for letter as long as before.

    >>> without_asides("2 dc in sp, dc in next dc (a solid mesh), ch 2")
    '2 dc in sp, dc in next dc                , ch 2'
    """
    return _ASIDE.sub(lambda found: " " * len(found[0]), text)


def _begin(name: str, words: str) -> str:
    return f"Begin a row that starts with {name} with {words}"



# -- squares that are counted off: "3 sps, 1 bl, 2 sps" ----------------------------------------------------------------

_WORDS_OF_NUMBERS = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")
_NUMBER = rf"(?:\d{{1,3}}|an?|another|{'|'.join(_WORDS_OF_NUMBERS)})"
_SQUARE = r"(?:(?:open|empty|solid|filled|full|closed) )?(?:(?:spaces?|sps?|holes?|blocks?|blks?|bls?)\b\.?|(?<=solid )mesh\b)"
#: What a square is worked over: "over next 3 sps", "over each of the next 2 bls", "over turning chain", "over 9 dc".
_OVER = (
    r" (?:over|on|above|in|into|across) (?:(?P<each>each of |all |both )?(?:the |of )*(?:(?:next|last|first|end|following|same|center|centre|beg|beginning) )*"
    rf"(?:(?P<m>{_NUMBER}) )?(?:more )?(?:{_SQUARE}|(?:turning |t-?|end )?(?:ch(?:ain)?|dc|tr|sts?|stitch(?:es)?)\b\.?(?:-\d)?)"
    r"|(?:next|last|first)(?= *[,;.*)]))"
)
_TOLD_SQUARE = (
    rf"(?:(?:work|make|then|and|have|with) ){{0,3}}(?:(?P<n>{_NUMBER}) )?(?:more |extra |plain )?(?P<square>{_SQUARE})(?P<over>{_OVER})?"
    r"(?: (?:across|along|as before|to end|made|again)\b)?"
)
#: Squares as work stand between stops.
_IN_A_ROW = when_used(
    rf"(?P<before>^|[,;:*(\[]|[.!](?= )|\b(?:and|then|turn|with|from \*)(?= )) *(?P<all>{_TOLD_SQUARE})(?= *(?:[,;:.*)\]]|$|\n|(?:and|then|rep|repeat|turn|working|making|having|with|ending)\b|\())",
    re.MULTILINE,
)
_COUNTED = when_used(rf"(?:(?<=^)|(?<=[,;:*(\[\n])) *(?:(?:work|make) )?{_NUMBER} (?:more )?(?:(?:open|solid|filled|closed) )?(?:sps?|spaces?|holes?|bls?|blks?|blocks?)\b", re.MULTILINE)
_OVER_EACH = when_used(rf"(?:^|[,;:*(\[]) *(?:{_NUMBER} )?{_SQUARE} over (?:{_NUMBER} )?{_SQUARE}", re.MULTILINE)
#: A bracket that says which square was just worked: "(1 bl made)", "(block over space)", "(a space)".
_SAID_OF_WORK = when_used(
    rf"\((?:=|this is|forms|makes|(?:the )?(?:first|1st|last|beg|inc|increase)\b)? *(?:{_NUMBER} )?(?:(?:first|1st|last|more) )?{_SQUARE}(?:{_OVER.replace('<each>', '<each2>').replace('<m>', '<m2>')})?(?: (?:is|are))?"
    r"(?: (?:made|formed|completed|increased|inc|decreased|now made))?(?: (?:at|over|for|on) [a-z ]{2,24})?\.?\)"
)
_LISTED = when_used(rf"\((?:{_NUMBER} {_SQUARE}(?:,? (?:and )?|; ?)?){{2,12}}\.?\)")
_TIMES_BEHIND = when_used(r"\s*(?:\d+(?: more)? times|across|around|to end|twice|once|three|four|five|six|x ?\d)\b")
#: What may stand behind a row's count.
_CLOSES = when_used(r"\W*(?:(?:ch(?:ain)? ?\d+|\d+ ?ch|turn|with|and)\W*)*")
_BLOCK = when_used(r"\b(?:solid|filled|full|closed)\b|\bbl(?:oc)?k?s?\b")
#: "Space (sp): ch 2, skip 2 sts, dc in next st.", "Bl = dc in next 3 sts".
_EXPLAINED = when_used(
    rf"(?:^|(?<=[.;:] )|(?<=, ))\W{{0,3}}(?:to make )?(?:an? |the |each |every |one |1 )?(?:beg(?:inning)? )?{_SQUARE}(?: (?:st|stitch))?(?: over (?:an? )?{_SQUARE})?(?: ?[(\[][a-z. ]{{1,12}}[)\]])?"
    r" ?(?:=|:|-|is(?: made by| worked)?|consists? of) ?(?:work )?(?=(?:ch|\d ch|(?:\d |one |two |three |1 )?(?:d ?c|tr))\b)[^.;\n]{6,90}(?:\.|;|$)",
    re.MULTILINE,
)
#: How a first space is begun on the chain: "dc in 8th ch from hook".
_FROM_HOOK = when_used(r"\b(?P<stitch>d ?c|tr)(?: into| in) (?:the )?(?P<n>[6789])th (?:ch|st|chain|stitch)\b")
#: "dc in 4th ch from hook, dc in next 2 ch": a first block.
_BLOCK_FIRST = when_used(
    r"\b(?P<stitch>d ?c|tr)(?: into| in) (?:the )?(?P<n>[45])th (?:ch|st|chain|stitch) from (?:the )?hook,? (?:and )?(?:1 )?(?:d ?c |tr )?in(?:to)? (?:each of )?(?:the )?next (?P<more>[12])\b"
)
#: "sl st in ch-3 sp of next block, ch 3, 3 dc in same sp", "(sl st, ch 3, 3 dc)", "ch 3, 3 dc around same ch": a block
#: that is worked from corner to corner, and no square of filet.
_CORNER_BLOCK = when_used(
    r"\b(?:sl\.? ?sts?|ss|slip ?st(?:itch)?)\b[^.;]{0,70}?(?:\bch(?:ain)? ?-?[2-5]|\b[2-5] ?ch),? (?:and |then )?(?:work )?"
    r"[2-6] ?(?:hdc|dc|htr|tr)\b(?: *\)|[^.;,*]{0,14}\b(?:in|into|around|over|under)\b[^.;,*]{0,14}\b(?:same|sp|space|loop)\b)"
)
#: "1 d.c. in 8th ch.": points of abbreviations.
_POINT = when_used(r"(?<=[a-z])\.(?=[a-z],? ?|,| [a-z0-9])")
_WIDE = {6: (1, 3), 7: (1, 4), 8: (2, 3), 9: (2, 4)}


def squares_of(low: str) -> tuple[str, int, int] | None:
    """The stitch of a page's squares, how many chains a space has and how high a row's beginning chain is, where rows
    count squares off as work; None for any other page. `low` is the page in small letters.

    >>> squares_of("dc in 8th ch from hook, 6 more sps. ch 5, turn."), squares_of("2 dc in each of next 3 sps")
    (('dc', 2, 3), None)
    """
    if _CORNER_BLOCK.search(low):
        return None
    if not _COUNTED.search(low) and not _OVER_EACH.search(re.sub(r" +", " ", low)):
        return None
    low = re.sub(r" +", " ", _POINT.sub("", low))
    hook = _FROM_HOOK.search(low) or _BLOCK_FIRST.search(low)
    first = _FIRST.search(low)
    if first is None and hook is None:
        return None
    if first is not None and (first["n"] or first["n2"]) == first["m"]:
        wide, high = int(first["m"]), _HIGH
        found = first
    elif hook is not None:
        (wide, high), found = _begun_so(hook), hook
    else:
        return None
    if hook is not None and _begun_so(hook)[0] == wide:
        high = _begun_so(hook)[1]
    return found["stitch"].replace(" ", ""), wide, high


def _begun_so(hook: re.Match[str]) -> tuple[int, int]:
    """How wide a space is and how high a stitch, of where the first stitch goes into the chain."""
    n = int(hook["n"])
    return _WIDE[n] if n >= min(_WIDE) else (int(hook["more"]), n - 1)


def squares_explained(stitch: str, wide: int, high: int) -> tuple[tuple[str, str], ...]:
    """What squares are, each with how it begins a row ("" on the foundation): `wide` chains in a space, rows that begin
    with `high` chains.

    >>> squares_explained("tr", 1, 3)[2][0]
    'Open base mesh (OB): Ch 1, sk next ch, tr in next ch.'
    """
    across = f"sk next {wide} {stitch} or next ch-{wide} sp"
    filled = f"{wide} {stitch} in next ch-{wide} sp or {stitch} in each of next {wide} {stitch}, {stitch} in next {stitch}"
    skipped = "sk next ch" if wide == 1 else f"sk next {wide} ch"
    begun = f"ch {high + wide} (counts as {stitch} and ch {wide}), {across}, {stitch} in next {stitch}"
    return (
        (f"Open mesh (OM): Ch {wide}, {across}, {stitch} in next {stitch}.", _begin("OM", begun)),
        (f"Solid mesh (SM): {filled}.", _begin("SM", f"ch {high} (counts as {stitch}) followed by the first SM")),
        (f"Open base mesh (OB): Ch {wide}, {skipped}, {stitch} in next ch.", ""),
        (f"Solid base mesh (SB): {stitch.capitalize()} in each of next {wide + 1} ch.", ""),
    )


def without_explained(low: str) -> list[tuple[int, int]]:
    """Where a line in small letters explains squares: the stretches of its sentences.

    >>> line = "space (sp): ch 2, skip 2 sts, dc in next st. block: dc in next 3 sts."
    >>> [line[a:b] for a, b in without_explained(line)]
    ['space (sp): ch 2, skip 2 sts, dc in next st.', 'block: dc in next 3 sts.']
    """
    return [found.span() for found in _EXPLAINED.finditer(low)]


def squares_named(text: str, low: str, base: bool) -> str:
    """A row's words with the squares that it counts off by the names of `squares_explained`, letter for letter as long
    as before; `base` where they stand on a chain.

    >>> line = "2 sps, 1 bl (block made), sp over sp, ch 5"
    >>> squares_named(line, line, base=False)
    '2 OM , 1 SM             , OM        , ch 5'
    """
    kept = [at for at, letter in enumerate(low) if letter != " " or not at or low[at - 1] != " "]
    tight, out = "".join(low[at] for at in kept), list(text)
    kept.append(len(low))
    for found in [*_SAID_OF_WORK.finditer(tight), *_LISTED.finditer(tight)]:
        if _says_what_was_worked(found, tight):
            start, end = found.span()
            tight = tight[:start] + " " * (end - start) + tight[end:]
            out[kept[start] : kept[end]] = " " * (kept[end] - kept[start])
    for found in _IN_A_ROW.finditer(tight):
        if _is_count(found, tight):
            continue
        name = ("SB" if base else "SM") if _BLOCK.search(found["square"]) else ("OB" if base else "OM")
        n = _number(found["n"]) or (_number(found["m"]) if found["each"] else "")
        start, end = (kept[at] for at in found.span("all"))
        out[start:end] = f"{n} {name}".strip().ljust(end - start)
    return "".join(out)


def _says_what_was_worked(found: re.Match[str], low: str) -> bool:
    """Whether squares in a bracket say what was just worked. A count of spaces that ends the row stays its count."""
    worked = low[: found.start()].strip(" ([") and not _TIMES_BEHIND.match(low, found.end())
    counted = re.search(r"\d+ (?:sps|spaces|holes) ?\.?\)$", found[0]) and "," not in found[0]
    return bool(worked) and not (counted and _CLOSES.fullmatch(low[found.end() :]))


def _is_count(found: re.Match[str], low: str) -> bool:
    """Whether squares that close a row are its count: "... dc in last ch. 6 sps.", "(6 sps)"."""
    rest, opened = low[found.end() :], max(low.rfind("(", 0, found.start("all")), low.rfind("[", 0, found.start("all")))
    if opened > max(low.rfind(")", 0, found.start("all")), low.rfind("]", 0, found.start("all"))):
        closed = re.match(r"[^()\[\]]*[)\]]", rest)
        return closed is not None and not _TIMES_BEHIND.match(rest, closed.end()) and bool(low[:opened].strip())
    worked = re.search(r"\b(?:in|each|sk|skip|miss|rep)\b", low[: found.start()])
    last = _CLOSES.fullmatch(rest)
    return found["before"] in (".", ":") and worked is not None and last is not None and not found["over"]


def _number(said: str | None) -> str:
    if not said:
        return ""
    if said in _WORDS_OF_NUMBERS:
        return str(_WORDS_OF_NUMBERS.index(said) + 1)
    return said if said.isdigit() else "1"
