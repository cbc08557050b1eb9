"""How many rows are worked in which yarn: "2 rows A, 4 rows B", "2 rows each of A, B and C"."""

from __future__ import annotations

from ... import lexicon
from ...file.colour_names import known_colour
from ...when_used import when_used

_ROW = r"(?:rows?|rnds?|rounds?)"
#: A number that is no length.
_N = rf"(?P<n>\d{{1,3}}|one|an?|{lexicon.NUMBER_WORDS})"
_BLOCK = when_used(
    rf"(?:(?:and|then|next|work|with|by) )*{_N} (?:more )?(?:{_ROW},? )?(?:(?:more )?(?:of|in|with|w/|using)? ?)(?:the )?(?:(?:colou?r|yarn) )?(?P<yarn>[a-z]+\d?(?: [a-z]+)?)\W*$"
)
_YARN_FIRST = when_used(rf"(?:(?:and|then|next|work|with) )*(?:(?:colou?r|yarn) )?(?P<yarn>[a-z]+\d?(?: [a-z]+)?)(?: ?[-,:(] ?| for | )(?:work )?{_N} {_ROW}\W*$")
_EACH = when_used(rf"(?:work )?{_N} {_ROW}? ?(?:with |of |in )?each(?: of| in| with)? (?P<yarns>[a-z0-9, &]+?)\W*$")
_PARTS = when_used(r"\s*(?:[,;+]| and | then |&)\s*(?:(?:and|then) )*")
#: "... twice", "rep from * once more": the whole row of blocks again.
_TWICE = when_used(r"^\W*[(\[*]? ?(?P<said>[^()\[\]*]+?)[)\]*;, ]+ *(?P<rep>(?:rep|repeat)(?: from \*)? )?(?:(?P<n>\d{1,2}) times(?P<more> more)?|(?P<w>once|twice)(?P<more2> more)?)\W*$")
_LETTER = when_used(r"[a-h]|[mc]c\d?")


def is_yarn(word: str, yarns: frozenset[str]) -> bool:
    """Whether a word names a yarn: one letter, as "B" or "MC", a colour, or one of the page's own names.

    >>> is_yarn("b", frozenset()), is_yarn("light blue", frozenset()), is_yarn("hdc", frozenset())
    (True, True, False)
    """
    return bool(_LETTER.fullmatch(word)) or word in yarns or bool(known_colour(word))


def blocks_told(said: str, yarns: frozenset[str], *, bare: bool) -> tuple[tuple[int, str], ...]:
    """How many rows each yarn is worked, one after the other; () for any other words. `bare`: whether "2 A" will do
    without the word row.

    >>> blocks_told("2 rows a, 4 rows b and 1 row of a", frozenset(), bare=False)
    ((2, 'a'), (4, 'b'), (1, 'a'))
    >>> blocks_told("2 rows each of a, b and c", frozenset(), bare=False)
    ((2, 'a'), (2, 'b'), (2, 'c'))
    >>> blocks_told("2 rows hdc, 1 row sc", frozenset(), bare=False)
    ()
    """
    whole = _TWICE.match(said)
    if whole is not None:
        times = int(whole["n"] or 0) or {"once": 1, "twice": 2}[whole["w"]]
        more = bool(whole["more"] or whole["more2"] or whole["rep"])
        return blocks_told(whole["said"].strip(), yarns, bare=bare) * (times + more)
    each = _EACH.match(said)
    if each is not None:
        named = [part.strip() for part in _PARTS.split(each["yarns"]) if part.strip()]
        n = _number(each["n"])
        return tuple((n, yarn) for yarn in named) if len(named) > 1 and all(is_yarn(y, yarns) for y in named) else ()
    out: list[tuple[int, str]] = []
    for part in _PARTS.split(said.strip(" .,;()")):
        found = _BLOCK.match(part) or _YARN_FIRST.match(part)
        if found is None or not is_yarn(found["yarn"], yarns) or not (bare or "r" in part.replace(found["yarn"], "", 1)):
            return ()
        out.append((_number(found["n"]), found["yarn"]))
    return tuple(out)


def _number(word: str) -> int:
    return 1 if word in ("a", "an", "one") else lexicon.number(word) or 0
