"""Lengths, gauge, and the one rounding rule.

Inside, every length is in millimetres. 1 in = 25.4 mm exactly (international inch, 1959).
"""

from __future__ import annotations

import math
import re

from .made_late import dataclass

MM_PER_INCH = 25.4
GRAMS_PER_OUNCE = 28.349523125  # the avoirdupois ounce, exact by definition (1959)
METRES_PER_YARD = 0.9144  # the international yard, exact by definition (1959)
MM_PER_UNIT = {"mm": 1.0, "cm": 10.0, "in": MM_PER_INCH, "m": 1000.0, "ft": 12 * MM_PER_INCH, "yd": 36 * MM_PER_INCH}
#: What a length in a large unit is shown in.
_SHOWN_IN = {"m": "cm", "ft": "in", "yd": "in"}

_VULGAR = {"½": "1/2", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8", "⅓": "1/3", "⅔": "2/3"}
_LENGTH = re.compile(
    r"^\s*(?:(?P<whole>\d+)(?:\s+|\s*-\s*)(?P<num>\d+)\s*/\s*(?P<den>\d+)|(?P<n>\d+)\s*/\s*(?P<d>\d+)|(?P<dec>\d+(?:[.,]\d+)?))"
    r"\s*(?P<unit>mm|cm|m|met(?:er|re)s?|in|inch|inches|\"|″|''|ft|foot|feet|yds?|yards?)\.?\s*$",
    re.IGNORECASE,
)

_SPELLED = {
    '"': "in", "″": "in", "inch": "in", "inches": "in", "meter": "m", "meters": "m", "metre": "m", "metres": "m",
    "''": "in", "foot": "ft", "feet": "ft", "yds": "yd", "yard": "yd", "yards": "yd",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Length:
    """A length as the user wrote it (`text`) and in millimetres; `unit` is the one it is shown in, cm for
    metres, in for feet and yards."""

    mm: float
    unit: str
    text: str


def parse_length(text: str) -> Length:
    """Read "250 mm", "25 cm", "1.2 m", "9.75 in", "9 7/8 in", "5 ft" or "2 yd"; ValueError says what is wrong.

    >>> parse_length("9 7/8 in").mm, parse_length("1.2 m").mm, parse_length("1.2 m").unit
    (250.825, 1200.0, 'cm')
    >>> parse_length("6-1/2 in").mm == parse_length("6 1/2''").mm, round(parse_length("5 feet").mm)
    (True, 1524)
    """
    plain = text
    for sign, spelled in _VULGAR.items():
        plain = plain.replace(sign, " " + spelled)
    found = _LENGTH.match(plain[:80])
    if not found:
        how = 'write a number and a unit, as "250 mm", "25 cm", "1.2 m" or "9 7/8 in"'
        raise ValueError(f'"{text[:60]}" is not a length: {how}')
    unit = _SPELLED.get(found["unit"].lower(), found["unit"].lower())
    return Length(_number(found) * MM_PER_UNIT[unit], _SHOWN_IN.get(unit, unit), " ".join(text.split()))


def _number(found: re.Match[str]) -> float:
    if found["dec"]:
        return float(found["dec"].replace(",", "."))
    top, bottom = (found["num"], found["den"]) if found["whole"] else (found["n"], found["d"])
    if int(bottom) == 0:
        raise ValueError("a fraction cannot have 0 under the line")
    return (int(found["whole"] or 0) * int(bottom) + int(top)) / int(bottom)


def show_length(mm: float, unit: str) -> str:
    """A length in the pattern's unit: mm whole, cm to one decimal, inches to the nearest eighth.

    >>> show_length(250.0, "in"), show_length(250.4, "mm")
    ('9 7/8 in', '250 mm')
    """
    if unit == "in":
        eighths = round_half_up(mm / MM_PER_INCH * 8)
        whole, rest = divmod(eighths, 8)
        shared = math.gcd(rest, 8)
        part = f"{rest // shared}/{8 // shared}"
        words = [str(whole)] if whole or not rest else []
        return " ".join([*words, part, "in"] if rest else [*words, "in"])
    if unit == "cm":
        return f"{round_half_up(mm) / 10:g} cm"
    return f"{round_half_up(mm)} mm"


def show_given(mm: float, unit: str) -> str:
    """A length that was measured, or made of such: as `show_length`, but a whole sixteenth or tenth of an inch stays
    one, so that sums come out.

    >>> show_given(249.2375, "in"), show_given(4.7625, "in"), show_given(250.0, "in"), show_given(7.62, "in")
    ('9 13/16 in', '3/16 in', '9 7/8 in', '0.3 in')
    """
    tenths = round_half_up(mm / MM_PER_INCH * 10)
    if unit == "in" and tenths % 5 and abs(tenths * MM_PER_INCH / 10 - mm) <= _WHOLE_MM:
        return f"{tenths / 10:g} in"
    sixteenths = round_half_up(mm / MM_PER_INCH * 16)
    if unit != "in" or not sixteenths % 2 or abs(sixteenths * MM_PER_INCH / 16 - mm) > _WHOLE_MM:
        return show_length(mm, unit)
    whole, rest = divmod(sixteenths, 16)
    return f"{whole} {rest}/16 in" if whole else f"{rest}/16 in"


#: So near a length is a whole sixteenth of an inch.
_WHOLE_MM = 0.01


def show_metres(metres: float, unit: str) -> str:
    """A length of yarn for a pattern in `unit`: yards where that is inches.

    >>> show_metres(192.024, "in"), show_metres(192.024, "cm")
    ('210 yd', '192 m')
    """
    return f"{metres / METRES_PER_YARD:.0f} yd" if unit == "in" else f"{metres:.0f} m"


def show_grams(grams: float, unit: str) -> str:
    """A weight of yarn for a pattern in `unit`: ounces where that is inches.

    >>> show_grams(99.22, "in"), show_grams(99.22, "mm")
    ('3.5 oz', '99 g')
    """
    return f"{round(grams / GRAMS_PER_OUNCE, 1):g} oz" if unit == "in" else f"{grams:.0f} g"


def round_half_up(value: float) -> int:
    """The one rounding rule: to the nearest whole number, halves up (as gauge sums are done by hand).

    >>> round_half_up(2.5), round_half_up(115.2)
    (3, 115)
    """
    return math.floor(value + 0.5 + 1e-9)


def show_percent(fraction: float) -> str:
    """A fraction as a percentage, to a tenth, with no minus before a nought.

    >>> show_percent(0.0384), show_percent(-0.0001), show_percent(0.06)
    ('3.8 %', '0 %', '6 %')
    """
    return f"{round(fraction * 100, 1) + 0.0:g} %"
