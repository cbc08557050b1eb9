"""The JSON Schema of the report that `check --json` prints (JSON Schema, draft 2020-12)."""

from __future__ import annotations

from ...errors import KINDS
from .verdict import STATES

Schema = dict[str, object]

_NUMBER: Schema = {"type": "number"}
_COUNT: Schema = {"type": "integer", "minimum": 0}
_TEXT: Schema = {"type": "string"}


def _object(says: str, properties: dict[str, Schema], optional: tuple[str, ...] = ()) -> Schema:
    """An object whose properties are all there but the optional ones."""
    needed = [name for name in properties if name not in optional]
    return {"type": "object", "description": says, "properties": properties, "required": needed}


def _or_null(schema: Schema) -> Schema:
    return {"anyOf": [schema, {"type": "null"}]}


def _texts(says: str) -> Schema:
    return {"type": "array", "items": _TEXT, "description": says}


def _row() -> Schema:
    return _object(
        "a row as worked",
        {
            "label": _TEXT,
            "part": {**_or_null(_TEXT), "description": "the heading it stands under"},
            "line": {**_or_null(_COUNT), "description": "the line of the text it begins on"},
            "proved": {
                "enum": ["yes", "stated", "no"],
                "description": "worked; resting on the count stated for a row before it; not checked",
            },
            "verdict": {**_or_null({"enum": sorted(STATES)}), "description": "null in a pattern file"},
            "read_as": {**_TEXT, "description": "its words as they were read, in the text's terms"},
            "side": {"enum": ["RS", "WS"]},
            "direction": {"enum": ["right-to-left", "left-to-right"]},
            "stitches": {**_COUNT, "description": "what stands in the row, as the pattern counts"},
            "takes": {**_COUNT, "description": "stitches and chains of the row below accounted for"},
            "chains": {**_COUNT, "description": "chain stitches lying in the row"},
            "kinds": {"type": "object", "additionalProperties": _COUNT},
        },
    )


def _verdict(says: str, more: dict[str, Schema]) -> Schema:
    """So many rows in all, and so many of each state."""
    return _object(says, {**more, "rows": _COUNT, **{state.replace(" ", "_"): _COUNT for state in STATES}})


def _piece() -> Schema:
    begins: Schema = {
        "enum": ["chain", "ring", "magic ring", "over", "none", None],
        "description": "null where the rows go on from the part before",
    }
    foundation: Schema = {**_or_null(_COUNT), "description": "its chains, where it begins with any"}
    why: Schema = {**_or_null(_TEXT), "description": "why rows are not checked though nothing is wrong with them"}
    return _verdict(
        "the rows under one heading of a written pattern",
        {"name": _or_null(_TEXT), "make": _COUNT, "begins": begins, "foundation": foundation, "unchecked_why": why},
    )


def _written() -> dict[str, Schema]:
    """What a report says of the text of a written pattern."""
    line = _object("a line taken as talk", {"line": _COUNT, "text": _TEXT})
    return {
        "terms": {"enum": ["US", "UK", None]},
        "terms_why": {**_or_null(_TEXT), "description": "what in the text settles its terms"},
        "assumed": _texts("what was taken for granted, a sentence each"),
        "sizes": _texts("the names of the sizes, where there are several"),
        "size_read": _or_null(_TEXT),
        "verdict": _or_null(_verdict("what checking found of all rows", {})),
        "pieces": {"type": "array", "items": _piece()},
        "prose": {"type": "array", "items": line},
    }


def report_schema() -> Schema:
    """The schema of one file's report. Counts are in stitches, kinds in US abbreviations, lengths in millimetres."""
    problem = _object(
        "one thing wrong",
        {
            "kind": {"enum": sorted(KINDS)}, "where": _TEXT, "line": _COUNT, "column": _COUNT, "text": _TEXT,
            "says": _TEXT, "try": _TEXT,
        },
    )  # fmt: skip
    multiple = _object(
        "a multiple of `of` plus `plus` stitches; the foundation chain plus `chain_plus`",
        {"of": _COUNT, "plus": _COUNT, "chain_plus": _COUNT},
    )
    note = _object("worth knowing, not wrong", {"where": _TEXT, "says": _TEXT, "line": _COUNT, "column": _COUNT})
    size = _object(
        "the finished piece flat",
        {"width_mm": _NUMBER, "height_mm": _NUMBER, "stretch": {"type": "object", "additionalProperties": _NUMBER}},
    )
    whole = _object(
        "the report on one pattern",
        {
            "file": _TEXT, "ok": {"type": "boolean"}, "foundation": {"type": ["integer", "null"]},
            "multiple": {"anyOf": [multiple, {"type": "null"}]}, "rows": {"type": "array", "items": _row()},
            "problems": {"type": "array", "items": problem}, "notes": {"type": "array", "items": note},
            **_written(), "size": size, "fit": {"type": "object"},
            "row_multiples": {
                "type": "object", "additionalProperties": _object("stitches", {"of": _COUNT, "plus": _COUNT}),
                "description": "rows and rounds that repeat over plain stitches, by label",
            },
        },
        optional=("size", "fit", "row_multiples"),
    )  # fmt: skip
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", "title": "hookfold check report", **whole}
