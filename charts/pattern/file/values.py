"""One reader for each kind of value a key takes. A reader returns the value or raises `Wrong`."""

from __future__ import annotations

import math
import re
import unicodedata
from collections.abc import Callable
from difflib import get_close_matches
from typing import TypeGuard

from ...measure import GRAMS_PER_OUNCE, METRES_PER_YARD, Length, parse_length, show_percent
from .book_sizes import head_size, named_size, nearest_size
from .keys import ALIASES, LEAST_MM, MOST_MM, MOST_NAME, MOST_WORDS, Key

_NUMBER = r"(\d+(?:[.,]\d+)?)"
_WEIGHT = re.compile(rf"^\s*{_NUMBER}\s*(g|oz)\s*$", re.IGNORECASE)
_GRAMS = r"(\d+(?:[.,]\d+)?)\s*(g|gr|grams?|oz|ounces?)\.?"
_METRES = r"(\d+(?:[.,]\d+)?)\s*(m|met(?:er|re)s?|yd|yds|yards?)\.?"
_BETWEEN = r"\s*(?:/|,|=|\(|per|to|for|in)?\s*"
#: A ball's label: its weight and its length, either first.
_BALL = re.compile(rf"^\s*{_GRAMS}{_BETWEEN}{_METRES}\s*\)?\s*$", re.IGNORECASE)
_BALL_TURNED = re.compile(rf"^\s*{_METRES}{_BETWEEN}{_GRAMS}\s*\)?\s*$", re.IGNORECASE)
_HOOK = re.compile(rf"^\s*{_NUMBER}\s*mm\b(.*)$", re.IGNORECASE)
_PERCENT = re.compile(r"^\s*([-−+]?)\s*(\d+(?:[.,]\d+)?)\s*%\s*$")
_HEX = re.compile(r"^#[0-9A-Fa-f]{6}$")
_LETTER = re.compile(r"^[A-Z]{1,2}$")


class Wrong(Exception):
    """A value that does not do: what is wrong, and one thing to try."""

    def __init__(self, says: str, remedy: str) -> None:
        super().__init__(says)
        self.says, self.remedy = says, remedy


def shown(value: object) -> str:
    """A value as a message quotes it, at most 40 characters."""
    if isinstance(value, list | dict):
        return "a list" if isinstance(value, list) else "a table"
    words = (
        f'"{value}"'
        if isinstance(value, str)
        else str(value).lower()
        if isinstance(value, bool)
        else str(value)
    )
    return words if len(words) <= 40 else words[:38] + '…"'


def is_number(value: object) -> TypeGuard[int | float]:
    return isinstance(value, int | float) and not isinstance(value, bool)


def read_text(value: object, key: Key) -> str:
    """A text of characters that print, on one line or several, in one normal form (NFC)."""
    if not isinstance(value, str):
        raise Wrong(
            f"{key.name} takes a text, and this is {shown(value)}.", f'write {key.name} = "{shown(value)}".'
        )
    for character in value:
        if not _prints(character):
            raise Wrong(
                f"{key.name} holds the character U+{ord(character):04X}, which cannot be printed.",
                "take the character out; copying from a web page or a word processor often brings it in.",
            )
    return unicodedata.normalize("NFC", value)


def _prints(character: str) -> bool:
    """Whether a character may stand in a drawing; controls and bidi overrides may not."""
    code = ord(character)
    if character in "\n\t":
        return True
    if (
        0x202A <= code <= 0x202E
        or 0x2066 <= code <= 0x2069
        or code & 0xFFFE == 0xFFFE
        or 0xFDD0 <= code <= 0xFDEF
    ):
        return False
    return unicodedata.category(character) not in ("Cc", "Cs")


def read_name(value: object, key: Key) -> str:
    """A text of one line that is not empty."""
    text = " ".join(read_text(value, key).split())
    if not text:
        raise Wrong(f"{key.name} is empty.", f"give {key.name}: {key.says}.")
    if len(text) > MOST_NAME:
        raise Wrong(f"{key.name} has {len(text)} characters; {MOST_NAME} is the most.", "shorten it.")
    return text


def read_work(value: object, key: Key) -> str:
    """The rows of a section, lines kept."""
    text = read_text(value, key)
    if not text.strip():
        raise Wrong("work is empty.", 'write at least one row, as "Row 1: Ch 1, turn. Sc in each st across."')
    if len(text) > MOST_WORDS:
        raise Wrong(
            f"work has {len(text)} characters; {MOST_WORDS} is the most.", "write repeats instead of rows."
        )
    return text


def read_choice(value: object, key: Key) -> str:
    """One of the words that the key may be."""
    text = read_name(value, key)
    also = ALIASES.get(key.name, {})
    text = also.get(" ".join(text.lower().split()), text)
    if text not in key.choices:
        words = ", ".join(f'"{choice}"' for choice in key.choices)
        raise Wrong(f"{key.name} is {shown(text)}; it can be {words}.", nearest_of(text, (*key.choices, *also)))
    return text


def nearest_of(text: str, choices: tuple[str, ...]) -> str:
    """Advice: the choice nearest to what was written."""
    close = get_close_matches(text.lower(), [c.lower() for c in choices], n=1, cutoff=0.6)
    best = next((c for c in choices if close and c.lower() == close[0]), "")
    return f'write "{best}".' if best else "choose one of these."


def read_number(value: object, key: Key) -> float:
    """A number inside the bounds of its key."""
    if not is_number(value):
        raise Wrong(f"{key.name} takes a number, and this is {shown(value)}.", _plain_number(value, key))
    try:
        number = float(value)
    except OverflowError:
        number = math.inf if value > 0 else -math.inf
    if not math.isfinite(number):
        raise Wrong(
            f"{key.name} is {shown(value)}, which is no number to count with.", f"write {key.name} = 17."
        )
    if not key.low <= number <= key.high:
        raise Wrong(
            f"{key.name} is {number:g}; it can be {key.low:g} to {key.high:g}.", _sign_advice(number, key)
        )
    return number


def _plain_number(value: object, key: Key) -> str:
    found = re.search(r"\d+(?:\.\d+)?", value) if isinstance(value, str) else None
    return f"write {key.name} = {found[0] if found else key.example or '1'}, without quotes."


def _sign_advice(number: float, key: Key) -> str:
    if number < 0 and key.low <= -number <= key.high:
        return f"leave the minus out: {key.name} = {-number:g}."
    return f"count again; {key.says}."


def read_count(value: object, key: Key) -> int:
    """A whole number."""
    number = read_number(value, key)
    if number != int(number):
        raise Wrong(
            f"{key.name} is {number:g}; it is counted in whole numbers.",
            f"write {key.name} = {round(number)}.",
        )
    return int(number)


def read_flag(value: object, key: Key) -> bool:
    if not isinstance(value, bool):
        raise Wrong(f"{key.name} is true or false, and this is {shown(value)}.", f"write {key.name} = true.")
    return value


def read_length(value: object, key: Key) -> Length:
    """A length with its unit, from 1 mm to 10 m."""
    if is_number(value):
        raise Wrong(
            f"{key.name} is {shown(value)} without a unit.",
            f'write {key.name} = "{value} mm" (or cm, or in).',
        )
    text = read_name(value, key)
    if re.match(r"^\s*[-−]", text):
        raise Wrong(f"{key.name} is {shown(text)}; a length is more than 0.", "leave the minus out.")
    try:
        length = parse_length(text)
    except ValueError as wrong:
        raise Wrong(f"{key.name}: {wrong}.", f'write {key.name} = "{key.example or "250 mm"}".') from None
    if not LEAST_MM <= length.mm <= MOST_MM:
        says = f"{key.name} is {length.text}; lengths can be {LEAST_MM:g} mm to {MOST_MM / 1000:g} m."
        raise Wrong(says, "look at the unit: mm, cm or in.")
    return length


def read_section_length(value: object, key: Key) -> str | Length:
    """A length, or the name of one: a measurement of the object, "rest", or a section (in a fold)."""
    if is_number(value) or (isinstance(value, str) and re.match(r"^\s*[-−]?[\d½¼¾⅛⅜⅝⅞⅓⅔]", value)):
        return read_length(value, key)
    return read_name(value, key)


def read_width(value: object, key: Key) -> int | Length:
    """A number of stitches, or a length."""
    return read_count(value, key) if isinstance(value, int) else read_length(value, key)


def read_hook(value: object, key: Key) -> str:
    """A hook's size in millimetres, kept as written."""
    if is_number(value):
        raise Wrong(f"hook is {shown(value)} without a unit.", f'write hook = "{value} mm".')
    text = read_name(value, key)
    found = _HOOK.match(text)
    if not found:
        raise Wrong(
            f"hook is {shown(text)}; hooks are named by millimetres.",
            'write the size as "4 mm" or "4 mm (G-6)".',
        )
    size_mm = float(found[1].replace(",", "."))
    if not 0.3 <= size_mm <= 50:
        raise Wrong(f"hook is {size_mm:g} mm; hooks are 0.3 to 50 mm.", "look at the number on the hook.")
    return text


def hook_mm(text: str) -> float | None:
    """The millimetres of a hook's size."""
    found = _HOOK.match(text)
    return float(found[1].replace(",", ".")) if found else None


def read_weight(value: object, key: Key) -> float:
    """A weight in grams."""
    found = _WEIGHT.match(read_name(value, key))
    grams = _grams(found[1], found[2]) if found else 0.0
    if not 0 < grams <= 10_000:
        raise Wrong(
            f'{key.name} is {shown(value)}; it is a weight, as "9.6 g" or "0.3 oz".', 'write "9.6 g".'
        )
    return grams


def _grams(number: str, unit: str) -> float:
    return float(number.replace(",", ".")) * (GRAMS_PER_OUNCE if unit.lower().startswith("o") else 1.0)


def read_ball(value: object, key: Key) -> tuple[float, float, str]:
    """Grams and metres of a ball, and its label as written; "50 g / 115 m", "50g (115m)" or "126 yards per 1.75 oz"."""
    text = read_name(value, key)
    label, turned = _BALL.match(text), _BALL_TURNED.match(text)
    found = label.groups() if label else (*turned.groups()[2:], *turned.groups()[:2]) if turned else None
    if not found:
        raise Wrong(
            f"ball is {shown(value)}; it is a weight and a length.",
            'write it as "50 g / 115 m" or "1.75 oz / 126 yd".',
        )
    metres = float(found[2].replace(",", ".")) * (METRES_PER_YARD if found[3].lower().startswith("y") else 1.0)
    grams = _grams(found[0], found[1])
    if not (0 < grams <= 10_000 and 0 < metres <= 50_000):
        raise Wrong(
            f"ball is {shown(value)}; both numbers must be more than 0.", "copy them from the ball's label."
        )
    return grams, metres, text


def read_area(value: object, key: Key) -> tuple[float, float]:
    """Width and height in millimetres."""
    parts = re.split(r"\s*[x×]\s*", read_name(value, key), flags=re.IGNORECASE)
    if len(parts) != 2:
        raise Wrong(
            f"{key.name} is {shown(value)}; it is a width and a height.", 'write it as "12 cm x 12 cm".'
        )
    return read_length(parts[0], key).mm, read_length(parts[1], key).mm


def read_percents(value: object, key: Key) -> tuple[float, float]:
    """The least and the most of a range, as fractions; between -50 % and 100 %."""
    if not isinstance(value, list) or len(value) != 2:
        raise Wrong(
            f"{key.name} takes two percentages, the least and the most.", f'write {key.name} = ["0 %", "6 %"].'
        )
    low, high = (_percent(item, key) for item in value)
    if low > high:
        says = f"{key.name} has its least ({show_percent(low)}) above its most ({show_percent(high)})."
        raise Wrong(says, "exchange the two.")
    return low, high


def _percent(value: object, key: Key) -> float:
    found = _PERCENT.match(value) if isinstance(value, str) else None
    if not found:
        raise Wrong(
            f'{key.name} has {shown(value)}, which is not a percentage as "6 %".',
            f'write {key.name} = ["0 %", "6 %"].',
        )
    percent = float(found[2].replace(",", ".")) * (-1 if found[1] in ("-", "−") else 1)
    if not -50 <= percent <= 100:
        raise Wrong(
            f"{key.name} has {percent:g} %; it can be -50 % to 100 %.", "say how far the fabric may stretch."
        )
    return percent / 100


def read_hex(value: object, key: Key) -> str:
    """A colour as "#rrggbb", in small letters."""
    text = read_name(value, key)
    if not _HEX.match(text):
        raise Wrong(
            f"{key.name} is {shown(text)}; a colour is # and six of 0-9 a-f.", 'write it as "#55713f".'
        )
    return text.lower()


def read_letter(value: object, key: Key) -> str:
    """A colour letter."""
    text = read_name(value, key)
    if not _LETTER.match(text):
        raise Wrong(
            f"{key.name} is {shown(text)}; colours go by capital letters.", f'write {key.name} = "A".'
        )
    return text


def read_letters(value: object, key: Key) -> tuple[str, ...]:
    """Colour letters of rows in turn."""
    if not isinstance(value, list) or not value:
        raise Wrong(f"{key.name} takes a list of colour letters.", 'write stripes = ["A", "A", "B", "B"].')
    if len(value) > 400:
        raise Wrong(
            f"{key.name} lists {len(value)} rows; 400 is the most.", "give one repeat of the stripes."
        )
    return tuple(read_letter(item, key) for item in value)


def read_names(value: object, key: Key) -> tuple[str, ...]:
    """Two names."""
    if not isinstance(value, list) or len(value) != 2:
        raise Wrong(f"{key.name} takes a list of two names.", f"write {key.name} = {key.example}.")
    return tuple(read_name(item, key) for item in value)


def read_size(value: object, key: Key) -> str:
    """The name of a size in sizes.toml, in its own spelling."""
    text = read_name(value, key)
    found = named_size(text) or head_size(text)
    if found is None:
        raise Wrong(
            f"{key.name} is {shown(text)}, which is no size named here.",
            f'write "{nearest_size(text)}", or give height and wrap.',
        )
    return found.name


#: The reader of each kind of value.
READERS: dict[str, Callable[[object, Key], object]] = {
    "name": read_name, "work": read_work, "choice": read_choice, "number": read_number, "count": read_count,
    "flag": read_flag, "length": read_length, "section length": read_section_length, "width": read_width,
    "hook": read_hook,
    "weight": read_weight, "ball": read_ball, "area": read_area, "percents": read_percents, "hex": read_hex,
    "letter": read_letter, "letters": read_letters, "size": read_size,
    "names": read_names,
}  # fmt: skip
