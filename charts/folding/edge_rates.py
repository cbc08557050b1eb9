"""How many border stitches an edge takes: by its length, or row end by row end; and how to say the spacing.

Row ends as the table of stitches says of each, with its sources; along tops 1 in each stitch.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from hookfold.symbols.dictionary import heights


def row_end_rate(kind: str) -> Fraction:
    """Border stitches for the end of a row whose tallest stitch is `kind` (a special stitch counts as its
    base).
    """
    known = max((name for name in heights() if name in kind), key=len, default="sc")
    return heights()[known].row_end


def row_end_sum(kinds: Sequence[str]) -> Fraction:
    """The exact sum of the rule over rows, before rounding."""
    return sum((row_end_rate(k) for k in kinds), Fraction(0))


def spacing(stitches: int, places: int, place: str) -> str:
    """How so many stitches are spread over so many places, in words that can be counted back.

    >>> spacing(12, 12, "row end"), spacing(21, 14, "row end")
    ('1 in each row end', '3 in every 2 row ends')
    >>> spacing(50, 40, "row end")
    '1 in each row end, but 2 in every 4th, 10 times'
    >>> spacing(38, 40, "stitch")
    '1 in each stitch, but none in every 20th, 2 times'
    """
    if places < 1 or stitches < 1:
        return ""
    each, more = divmod(stitches, places)
    if not more:
        return f"{each} in each {place}"
    if 2 * stitches == 3 * places:
        return f"3 in every 2 {plural(place)}"
    if 2 * stitches in (3 * places + 1, 3 * places - 1):
        return f"3 in every 2 {plural(place)} and {'2' if 2 * stitches > 3 * places else '1'} in the last"
    if 2 * more > places:
        return f"{each + 1} in each {place}, but {each or 'none'} in {_every(places, places - more)}"
    if not each:
        return f"1 in {_every(places, more, place)} and none in the others"
    return f"{each} in each {place}, but {each + 1} in {_every(places, more)}"


def _every(places: int, times: int, place: str = "one") -> str:
    """Where to do a thing so many times over so many places."""
    if times == 1:
        return f"the middle {place}"
    where = "" if place == "one" else f" {place}"
    return f"every {ordinal(places // times)}{where}, {times} times"


def spacing_by_kind(kinds: Sequence[str]) -> str:
    """The row-end rule over rows of several kinds, kind by kind."""
    said = []
    for kind in dict.fromkeys(kinds):
        rate = row_end_rate(kind)
        many = (
            f"in each {kind} row end"
            if rate.denominator == 1
            else f"in every {rate.denominator} {kind} row ends"
        )
        said.append(f"{rate.numerator} {many}")
    return ", ".join(said)


def plural(place: str) -> str:
    """More than one of a place.

    >>> plural("stitch of the fold"), plural("row end")
    ('stitches of the fold', 'row ends')
    """
    head, of, tail = place.partition(" of ")
    return (head + ("es" if head.endswith("h") else "s")) + of + tail


def ordinal(n: int) -> str:
    """2nd, 3rd, 4th, 11th, 21st."""
    end = "th" if n % 100 in (11, 12, 13) else {1: "st", 2: "nd", 3: "rd"}.get(n % 10, "th")
    return f"{n}{end}"
