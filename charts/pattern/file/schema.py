"""The pattern file's JSON Schema, made from the table of keys, for editors that complete and check files."""

from __future__ import annotations

from .book_sizes import head_sizes, named_sizes
from .keys import ALIASES, MOST_NAME, MOST_SECTIONS, MOST_WORDS, TABLES, Key

Schema = dict[str, object]

_FRACTIONS = "½¼¾⅛⅜⅝⅞⅓⅔"
_NUMBER = r"\d+([.,]\d+)?"
_AMOUNT = rf"(\d+\s+\d+\s*/\s*\d+|\d+\s*/\s*\d+|{_NUMBER}|\d*\s*[{_FRACTIONS}])"
_LENGTH = rf"^\s*{_AMOUNT}\s*(mm|cm|m|met(er|re)s?|in|inch|inches|\"|″)\s*$"

#: The schema of each kind of value a key takes; what depends on the key is added by `value_schema`.
_SHAPES: dict[str, Schema] = {
    "name": {"type": "string", "minLength": 1, "maxLength": MOST_NAME},
    "work": {"type": "string", "minLength": 1, "maxLength": MOST_WORDS},
    "choice": {"type": "string"},
    "number": {"type": "number"},
    "count": {"type": "integer"},
    "flag": {"type": "boolean"},
    "length": {"type": "string", "pattern": _LENGTH},
    "section length": {"type": "string", "minLength": 1},
    "width": {"oneOf": [{"type": "integer", "minimum": 1}, {"type": "string", "pattern": _LENGTH}]},
    "hook": {"type": "string", "pattern": rf"^\s*{_NUMBER}\s*[mM][mM]\b"},
    "weight": {"type": "string", "pattern": rf"^\s*{_NUMBER}\s*(g|oz)\s*$"},
    "ball": {"type": "string", "pattern": rf"^\s*{_NUMBER}\s*(g|oz)\s*/\s*{_NUMBER}\s*(m|yd|yds|yards)\s*$"},
    "area": {"type": "string", "pattern": r"[xX×]"},
    "percents": {
        "type": "array", "minItems": 2, "maxItems": 2,
        "items": {"type": "string", "pattern": rf"^\s*[-−+]?\s*{_NUMBER}\s*%\s*$"},
    },
    "hex": {"type": "string", "pattern": "^#[0-9A-Fa-f]{6}$"},
    "letter": {"type": "string", "pattern": "^[A-Z]{1,2}$"},
    "letters": {
        "type": "array", "minItems": 1, "maxItems": 400,
        "items": {"type": "string", "pattern": "^[A-Z]{1,2}$"},
    },
    "names": {"type": "array", "minItems": 2, "maxItems": 2, "items": {"type": "string"}},
    "size": {"type": "string"},
}  # fmt: skip


def schema() -> Schema:
    """The whole schema (JSON Schema 2020-12)."""
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "hookfold pattern file",
        **table_schema(""),
    }


def table_schema(name: str) -> Schema:
    """The schema of one table: its keys, which are needed, and no others."""
    keys = TABLES[name]
    found: Schema = {
        "type": "object",
        "properties": {key.name: key_schema(key) for key in keys},
        "additionalProperties": False,
    }
    needed = [key.name for key in keys if key.needed]
    if needed:
        found["required"] = needed
    if name == "section":
        found["oneOf"] = [{"required": ["length"]}, {"required": ["rows"]}]
    return found


def key_schema(key: Key) -> Schema:
    """The schema of what one key takes, with its meaning."""
    if key.takes == "table":
        inner = table_schema(key.name) if key.name in TABLES else _own_names(f"{key.name}.*")
    elif key.takes == "tables":
        inner = {"type": "array", "minItems": 1, "maxItems": MOST_SECTIONS, "items": table_schema(key.name)}
    else:
        inner = value_schema(key)
    return {"description": key.says, **inner}


def _own_names(name: str) -> Schema:
    """A table whose keys are the user's own names."""
    found: Schema = {"type": "object", "additionalProperties": table_schema(name)}
    if name == "colours.*":
        found["propertyNames"] = {"pattern": "^[A-Z]{1,2}$"}
    return found


def value_schema(key: Key) -> Schema:
    """The schema of a plain value: its shape, its choices, its bounds."""
    found = dict(_SHAPES[key.takes])
    if key.choices:
        found["enum"] = [*key.choices, *ALIASES.get(key.name, {})]
    if key.takes in ("number", "count"):
        found |= {"minimum": key.low, "maximum": key.high}
    if key.takes == "size":
        named = {size.name for size in named_sizes().values()} | {head.name for head in head_sizes().values()}
        found["examples"] = sorted(named)
    elif key.example and key.takes not in ("number", "count", "flag", "percents", "letters", "names"):
        found["examples"] = [key.example]
    return found
