"""How many sides or points a page's name for its shape gives it: "hexagon", "a six-petal flower"."""

from __future__ import annotations

import re
from collections.abc import Iterable

from ... import lexicon
from ...when_used import when_used

_POLYGONS = {"pentagon": 5, "hexagon": 6, "heptagon": 7, "octagon": 8, "decagon": 10}
_SHAPE = when_used(
    rf"\b(?:(?P<shape>{'|'.join(_POLYGONS)})(?:s|al)?\b"
    r"|(?P<n>\d{1,2}|[a-z]+)[- ](?:pointed|pointe?r?|sided|petal(?:l?ed)?|cornered|armed) (?:[a-z]+ )?(?:star|flower|motif|snowflake|doily|shape|daisy|block))"
)
_MOST = 24


def sides_told(lines: Iterable[str]) -> int:
    """The number that all names of shapes on a page give; 0 where none gives one, or two differ.

    >>> sides_told(["lilac hexagon", "make 7 hexagons"]), sides_told(["a 5-petal flower"]), sides_told(["hexagon or octagon"])
    (6, 5, 0)
    """
    found = {_number(told) for low in lines for told in _SHAPE.finditer(low)} - {0}
    return found.pop() if len(found) == 1 else 0


def _number(told: re.Match[str]) -> int:
    if told["shape"]:
        return _POLYGONS[told["shape"]]
    number = int(told["n"]) if told["n"].isdigit() else lexicon.number(told["n"]) or 0
    return number if 2 < number <= _MOST else 0
