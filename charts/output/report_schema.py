"""The JSON Schema of the report that `check --json` prints (JSON Schema, draft 2020-12)."""

from __future__ import annotations

from ..errors import KINDS

Schema = dict[str, object]

_NUMBER: Schema = {"type": "number"}
_COUNT: Schema = {"type": "integer", "minimum": 0}
_TEXT: Schema = {"type": "string"}


def _object(says: str, properties: dict[str, Schema], optional: tuple[str, ...] = ()) -> Schema:
    """An object whose properties are all there but the optional ones."""
    needed = [name for name in properties if name not in optional]
    return {"type": "object", "description": says, "properties": properties, "required": needed}


def report_schema() -> Schema:
    """The schema of one file's report. Counts are in stitches, kinds in US abbreviations, lengths in millimetres."""
    row = _object(
        "a row as worked",
        {
            "label": _TEXT,
            "side": {"enum": ["RS", "WS"]},
            "direction": {"enum": ["right-to-left", "left-to-right"]},
            "stitches": {**_COUNT, "description": "what the next row works into, as the pattern counts"},
            "takes": {**_COUNT, "description": "stitches and chains of the row below accounted for"},
            "chains": {**_COUNT, "description": "chain stitches lying in the row"},
            "kinds": {"type": "object", "additionalProperties": _COUNT},
        },
    )
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
    note = _object("worth knowing, not wrong", {"where": _TEXT, "says": _TEXT, "line": _COUNT})
    size = _object(
        "the finished piece flat",
        {"width_mm": _NUMBER, "height_mm": _NUMBER, "stretch": {"type": "object", "additionalProperties": _NUMBER}},
    )
    whole = _object(
        "the report on one pattern",
        {
            "file": _TEXT, "ok": {"type": "boolean"}, "foundation": {"type": ["integer", "null"]},
            "multiple": {"anyOf": [multiple, {"type": "null"}]}, "rows": {"type": "array", "items": row},
            "problems": {"type": "array", "items": problem}, "notes": {"type": "array", "items": note},
            "size": size, "fit": {"type": "object"},
            "row_multiples": {
                "type": "object", "additionalProperties": _object("stitches", {"of": _COUNT, "plus": _COUNT}),
                "description": "rows and rounds that repeat over plain stitches, by label",
            },
        },
        optional=("size", "fit", "row_multiples"),
    )  # fmt: skip
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", "title": "hookfold check report", **whole}
