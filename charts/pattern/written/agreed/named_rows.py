"""Rows that a pattern gives a name and calls again by it: "Row 2 (Dec Row): ...", "Row 6: Work dec row"."""

from __future__ import annotations

from collections.abc import Container

from ....made_late import dataclass
from ...when_used import when_used

_WORD = r"(?:rows?|rnds?|rounds?)"
#: What a row is called behind its number: "(Increase Row)", "- Dec row".
_CALLED = when_used(rf"^\W*(?P<name>[a-z][a-z -]{{1,28}}?)\s+{_WORD}\b\W*$")
_CALLED_FIRST = when_used(rf"^\s*(?P<name>(?:[a-z-]+ ){{0,2}}[a-z-]+)\s+{_WORD}\s*(?:-|:)\s")
_AGAIN = when_used(
    r"^\W*(?:(?:then|now|next)\s+)?(?:(?:work|rep(?:eat)?|rpt|do|make|follow|(?:work |same )?as(?: for)?|like)\s+)?(?:(?:the|an?|another|one)\s+)?"
    rf"(?P<name>(?:[a-z-]+ ){{0,2}}[a-z-]+)\s+{_WORD}(?:\s+again)?(?=\W*$|\s*[.:]?\s*[(\[]\s*\d[^()\[\]]*[)\]]\W*$|\s*[:.,=\u2013-]+\s*\d{{1,4}} ?(?:sts?|stitches|[a-z]{{1,4}}c|tr)\W*$)"
)
_ALIKE = (
    (when_used(r"\binc(?:r|rease|reasing)?s?\b"), "inc"),
    (when_used(r"\bdec(?:r|rease|reasing)?s?\b"), "dec"),
    (when_used(r"[\s-]+"), " "),
)
#: Words that tell a row by its place or side, and so are no name.
_NO_NAMES = frozenset(
    ("last", "previous", "prev", "next", "this", "that", "first", "same", "right side", "wrong side", "rs", "ws", "each", "every", "one", "more",
     "second", "third", "other", "alternate", "even", "odd", "whole", "entire", "current", "above", "below", "row", "following", "final")
)  # fmt: skip


_PIECE = when_used(
    r"\s*(?:then |now )?(?P<said>(?:(?:is |are )?(?:work|worked|make|made|crochet|do|repeat|rep|follow)\s+)?(?:exactly\s+)?(?:the\s+)?"
    rf"(?:(?P<word>{_WORD})\s*(?P<a>\d{{1,3}})(?:\s*(?:-|to|through|thru|and|&)\s*(?P<b>\d{{1,3}}))?\s+)?(?:same\s+)?(?P<as>as|like|of|for)\s+"
    r"(?:(?:for|on|in|of)\s+)?(?:the\s+|your\s+)?(?P<piece>[a-z][a-z0-9 -]{1,30}?)"
    rf"(?:,?\s+(?:to|through|until|up to)\s+(?:and including\s+)?(?:the\s+)?(?:end\s+of\s+)?{_WORD}\s*(?P<n>\d{{1,3}}))?)\s*(?=[.;,]|$)"
)


@dataclass(frozen=True, slots=True)
class PieceAgain:
    """Words that say that a piece's rows are another's: the piece in lower case, the last of these rows (0 where none is
    named), and where the words stand."""

    piece: str
    last: int
    start: int
    end: int


def piece_again(low: str, pieces: Container[str]) -> PieceAgain | None:
    """What a line in lower case says of rows that are worked as those of another piece, from their first.

    >>> piece_again("work as for the front to end of row 4.", {"front"})
    PieceAgain(piece='front', last=4, start=0, end=37)
    >>> piece_again("work as before.", {"front"})
    """
    found = _PIECE.match(low)
    if found is None or found["piece"].strip() not in pieces or (found["as"] in ("of", "for") and not found["a"]):
        return None
    if int(found["a"] or 1) != 1:
        return None
    last = int(found["b"] or found["a"] or found["n"] or 0)
    return PieceAgain(found["piece"].strip(), last, *found.span("said"))


_FIRST_OF = when_used(r"(?:the )?(?:first|1st|one) (?P<rest>[a-z].*)")
_LATER = ("second", "2nd", "third", "3rd", "other")


def names_of_piece(part: str) -> tuple[str, ...]:
    """What a piece is called elsewhere on its page.

    >>> names_of_piece("motif"), names_of_piece("second motif")
    (('motif', 'motif', 'first motif', '1st motif'), ('second motif',))
    """
    found = _FIRST_OF.fullmatch(part)
    bare = found["rest"] if found else part
    return (part,) if part.startswith(_LATER) else (part, bare, f"first {bare}", f"1st {bare}")


class NamedRows:
    """The names that rows of a page have been given so far, and the number of each."""

    def __init__(self) -> None:
        self.numbers: dict[str, int] = {}

    def learn(self, number: int, after: str, low: str) -> None:
        """Take the name that a row is given: behind its number (`after`), or where its words begin."""
        found = _CALLED.match(after) or _CALLED_FIRST.match(low)
        name = _same(found["name"]) if found else ""
        if name and name not in _NO_NAMES:
            self.numbers[name] = number

    def again(self, low: str) -> tuple[int, int, int] | None:
        """Where a row's words call a named row again, and its number: (start, end, number)."""
        found = _AGAIN.match(low) if self.numbers else None
        number = self.numbers.get(_same(found["name"]), 0) if found else 0
        return (*found.span(), number) if found and number else None


def _same(name: str) -> str:
    for spelled, one in _ALIKE:
        name = spelled.sub(one, name)
    return name.strip()
