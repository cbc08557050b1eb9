"""How many rows a run is said to have behind its words: "Rnds 5-9: sc in each st around for a total of 5 rounds"."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from ... import lexicon
from ...notation.complaint import Complaint
from ...notation.plain import plain
from ...when_used import when_used

_N = r"(?P<n{0}>\d{{1,3}}|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve)\s+(?:more\s+)?(?:rounds?|rnds?|rows?)\b"
_LENGTH = when_used(
    r"(?:,\s*|-\s+)?(?<![a-z])(?:(?:(?:work(?:ed|ing)?\s+)?(?:for|over)\s+)(?:an?\s+|the\s+)?(?:total\s+of\s+|next\s+|following\s+)?"
    rf"{_N.format(1)}(?:\s+(?:total|in\s+total|in\s+all|altogether))?"
    rf"|(?:an?\s+)?total\s+of\s+{_N.format(2)}"
    rf"|{_N.format(3)}\s+(?:total|in\s+total|in\s+all|altogether)"
    rf"|\(\s*(?:an?\s+)?(?:total\s+of\s+)?{_N.format(4)}(?:\s+(?:total|in\s+total|in\s+all|altogether))?\s*\))"
    r"(?=\s*(?:[.,;:(\[!]|$))"
    rf"|^\s*(?:for\s+)?(?:(?:the\s+)?next\s+)?{_N.format(5)}(?:\s+of\b)?(?=\s*(?::|[(\[=]|\d+\s*[a-z]|(?:without|with\s+no|even|unchanged|plain|sc|hdc|dc|htr|tr)\b))"
)
#: What stands beside the number of rows of a run, where that is all it tells.
_NOTHING_ELSE = when_used(
    r"\W*(?:(?:without|with no) (?:any )?(?:more |further )?(?:changes?|increases?|decreases?|increasing|decreasing|shaping|incs?|decs?)|unchanged|even|plain)?\s*(?P<count>[(\[=]?\s*\d[^()\[\]]*[)\]]|= ?\d[^()]*)?[\W]*"
)


def only_length(rest: str) -> bool:
    """Whether a row that is told by its number of rows tells no other work: it is worked even.

    >>> only_length(" (66)"), only_length(" without changes (12)"), only_length(" 60 sc")
    (True, True, False)
    """
    return _NOTHING_ELSE.fullmatch(rest) is not None


def said_length(low: str) -> tuple[int, int, int] | None:
    """Where a row's words say how many rows it is worked for, and how many: (start, end, rows)."""
    found = _LENGTH.search(low)
    if not found:
        return None
    rows = next(lexicon.number(found[f"n{k}"]) or 0 for k in (1, 2, 3, 4, 5) if found[f"n{k}"])
    start, end = found.span()
    if not low[:start].strip() and low[end : end + 1] in (",", ":"):
        end += 1  # "for 3 rounds, sc in each st"
    return start, end, rows


_EACH_ROW = r"\b(?:each|every|per) (?:rows?|rnds?|rounds?|time)\b"
_MORE = when_used(rf"\b(?:(?:more|extra|additional)\b.*|(?:add|adding|adds|gains?|gaining|increas\w+|grows?|goes up)\b.*){_EACH_ROW}")
_FEWER = when_used(rf"\b(?:less|fewer|decreas\w+|losing|loses)\b.*{_EACH_ROW}")


def growth_told(remarks: Iterable[str]) -> int:
    """Whether remarks within a row say that each row has more than the one before (1), fewer (-1), or neither (0).

    >>> growth_told(["there will be one more block in each row"]), growth_told(["losing 2 sts every row"])
    (1, -1)
    """
    told = [plain(said) for said in remarks]
    if any(_FEWER.search(said) for said in told):
        return -1
    return int(any(_MORE.search(said) for said in told))


_BLOCK = r"(?:blocks?|tiles?)"
_BLOCKS = when_used(
    r"(?:,\s*|\s-\s|(?<=\.)\s*)?(?:\band\s+)?\b(?P<verb>(?:adding|working|making|having|with|increasing|decreasing|losing|gaining|there (?:will|should) be|you(?:'ll| will) have)(?: by)? )?"
    rf"(?:an?|one|1) (?:(?P<more>extra|more|additional|less|fewer) {_BLOCK}|{_BLOCK}(?P<behind> (?:extra|more|less|fewer))?)"
    r"(?: (?:in|on|at|with|for))? (?:each|every|per) (?:new |following |other )?(?:row|time)\b"
)
#: "8 blocks at end of row 8", as a sentence.
_AT_ITS_END = when_used(rf"(?<=[.;] )(?P<count>\d{{1,3}} {_BLOCK})(?P<rest> (?:at|by) (?:the )?end of (?:the )?(?:last )?row(?: \d+)?)(?=\W*$)")
_LESS = when_used(r"less|fewer|decreas|losing")


def blocks_told(low: str) -> tuple[str, int]:
    """A row's words without what they say of blocks in each row that follows, letter for letter as long, and whether
    these have one more (1), one fewer (-1), or neither is said (0).

    >>> blocks_told("rep row 2, with one more block in each row")
    ('rep row 2                                 ', 1)
    >>> blocks_told("rep row 9, one tile fewer each row. (1 tile)")[1], blocks_told("1 block in each row")[1]
    (-1, 0)
    """
    low = _AT_ITS_END.sub(lambda m: m["count"] + " " * len(m["rest"]), low)
    found = _BLOCKS.search(low)
    if found is None or not (found["verb"] or found["more"] or found["behind"]):
        return low, 0
    start, end = found.span()
    return low[:start] + " " * (end - start) + low[end:], -1 if _LESS.search(found[0]) else 1


def wrong_length(start: int, end: int, said: int, label: str, rows: int) -> Complaint:
    """A complaint for a run that is said to have another number of rows than its head."""
    says = f'the words say {said} rows; the head "{label}" is {rows}'
    return Complaint(start, end, says, f"write {rows}, or change the head", "impossible")


#: "Continue decreasing in this way until 6 sts remain": rows of one row's words.
_GROWS = when_used(r"\W*(?:cont|continue|keep|carry on|go on|work)\b[^.;()]*?\b(?:inc|dec|increas\w+|decreas\w+|fewer|less)\b[^.;()]*?(?=[,\s]+(?:until|till)\b)")
_UNTIL_COUNT = when_used(
    r"[,\s]+(?:until|till) (?:(?:you have|there are|you reach|you are left with) )?(?:only )?(?:a total of )?(?P<n>\d{1,4}) ?(?:sts|stitches|sc|hdc|dc|htr|tr)\b"
    r"(?: (?:remain|remaining|are left|left|in all|in total|altogether|on the (?:rnd|round|row)|in (?:the )?(?:rnd|round|row)))?(?=[.;]|\s*$)"
)


def grown_to(low: str, counts: Sequence[int]) -> tuple[int, int, int, int] | None:
    """What a row that goes on growing or shrinking says of where it ends: the span of these words, the number of rows it
    takes behind rows that made `counts`, and the number of stitches at the end; None where it says no such thing or
    the number is not reached by as many a row as before.

    >>> said = "continue decreasing in this way until 6 sts remain."
    >>> grown_to(said, (36, 30)), grown_to(said, (36, 29)), said[31:50]
    ((31, 50, 4, 6), None, ' until 6 sts remain')
    """
    grows = _GROWS.match(low)
    found = _UNTIL_COUNT.match(low, grows.end()) if grows else None
    if found is None or len(counts) < 2 or counts[-1] == counts[-2]:
        return None
    rows, over = divmod(int(found["n"]) - counts[-1], counts[-1] - counts[-2])
    return None if over or rows < 1 else (found.start(), found.end(), rows, int(found["n"]))
