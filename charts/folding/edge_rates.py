"""How many border stitches an edge takes: by its length, or row end by row end; and how to say the spacing.

Row ends as the table of stitches says of each, with its sources; along tops 1 in each stitch.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import pairwise
from math import ceil

from hookfold.symbols.dictionary import heights

from ..model.sizing.row_heights import MIDWAY


def row_end_rate(kind: str) -> Fraction:
    """Border stitches for the end of a row whose tallest stitch is `kind` (a special stitch counts as its base; a row
    midway between two stitches as their mean).

    >>> row_end_rate("sc+hdc") * 2 == row_end_rate("sc") + row_end_rate("hdc")
    True
    """
    if MIDWAY in kind:
        parts = kind.split(MIDWAY)
        return sum(map(row_end_rate, parts), Fraction(0)) / len(parts)
    known = max((name for name in heights() if name in kind), key=len, default="sc")
    return heights()[known].row_end


def row_end_sum(kinds: Sequence[str]) -> Fraction:
    """The exact sum of the rule over rows, before rounding."""
    return sum((row_end_rate(k) for k in kinds), Fraction(0))


def spread(stitches: int, places: int) -> tuple[int, ...]:
    """How many stitches go into each of so many places: as even as can be, and the same from both ends.

    >>> spread(11, 9), spread(14, 16).index(0), spread(3, 2)
    ((1, 1, 2, 1, 1, 1, 2, 1, 1), 3, (1, 2))
    """
    if places < 1:
        return ()
    each, more = divmod(stitches, places)
    if abs(2 * more - places) <= 1:
        return tuple(each + (at % 2 == (2 * more <= places)) for at in range(places))
    fewer = 2 * more > places
    odd = set(_apart(places - more if fewer else more, places))
    most = each + 1 if fewer else each
    return tuple(most + (-1 if fewer else 1) * (place in odd) for place in range(places))


def _apart(times: int, places: int) -> list[int]:
    """So many of the places (from 0), as far apart as can be; a few lie alike on both sides of the middle."""
    every = [ceil((k + 0.5) * places / times - 1.0) for k in range(times)]
    if times > MOST_NAMED:
        return every
    return [*every[: (times + 1) // 2], *(places - 1 - at for at in reversed(every[: times // 2]))]


#: No more places than this are named one by one.
MOST_NAMED = 8
#: From so many places on it is said of two numbers that they come in turn.
_IN_TURN = 6


def spacing(each: Sequence[int], numbers: Sequence[int], place: str) -> str:
    """How stitches are spread over numbered places, in the order in which they are met and in words that can be counted
    back; `each` are the stitches of every place, "" where there are none.

    >>> spacing([1, 1, 1], [4, 5, 6], "row end"), spacing([1, 2, 1], [4, 5, 6], "row end")
    ('1 in each row end', '1 in each row end, but 2 in row end 5')
    >>> spacing(spread(14, 16), range(17, 33), "row end")
    '1 in each row end, but skip row ends 20 and 29'
    >>> spacing(spread(3, 9), range(1, 10), "stitch")
    '1 each in stitches 2, 5 and 8, none in the others'
    """
    if not sum(each):
        return ""
    low, high = min(each), max(each)
    if low == high:
        return f"{low} in each {place}"
    met = [n for _, n in sorted(zip(numbers, each, strict=True))]
    if len(each) >= _IN_TURN and all(a != b for a, b in pairwise(met)):
        begins = f"beginning with {each[0]} in {_named([numbers[0]], place)}"
        return f"{each[0]} and {each[1]} in turn over the {plural(place)}, {begins}"
    usual = low if 2 * sum(n == low for n in each) >= len(each) else high
    other = low + high - usual
    odd = [number for n, number in zip(each, numbers, strict=True) if n == other]
    odd = odd if len(odd) > MOST_NAMED else sorted(odd)
    if not usual:
        several = " each" if len(odd) > 1 else ""
        return f"{other}{several} in {_named(odd, place)}, none in the others"
    return f"{usual} in each {place}, but {f'{other} in' if other else 'skip'} {_named(odd, place)}"


def _named(odd: Sequence[int], place: str) -> str:
    """Some places by their numbers; of many how far they lie apart, how many they are, and the first that is met."""
    head, *_ = place.partition(" of ")
    if len(odd) == 1:
        return f"{head} {odd[0]}"
    if len(odd) <= MOST_NAMED:
        return f"{plural(head)} {', '.join(map(str, odd[:-1]))} and {odd[-1]}"
    apart = sorted({abs(b - a) for a, b in pairwise(odd)})
    steps = " or ".join(ordinal(n) for n in (apart if len(apart) < 3 else (apart[0], apart[-1])))
    return f"every {steps} {head}, {len(odd)} times, the first of them {head} {odd[0]}"


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
