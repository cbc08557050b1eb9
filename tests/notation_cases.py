"""Reading the tables of written patterns and comparing them with what was worked."""

from __future__ import annotations

import functools
import tomllib
from pathlib import Path
from typing import Any

from hookfold.charts.model.rows.working import Worked

NOTATION = Path(__file__).parent / "unit" / "notation"


def table(key: str) -> list[dict[str, Any]]:
    """All entries called `key` of every table, in the order of the files."""
    return [entry for read in _tables() for entry in read.get(key, [])]


@functools.cache
def _tables() -> list[dict[str, Any]]:
    """All tables, read once: a dozen modules ask for entries while tests are collected, each process for itself."""
    return [tomllib.loads(path.read_text("utf-8")) for path in sorted(NOTATION.glob("*.toml"))]


def lower(kinds: dict[str, int]) -> dict[str, int]:
    return {kind.lower(): number for kind, number in kinds.items()}


def differences(worked: Worked, wanted: list[dict[str, Any]]) -> list[str]:
    """What the rows worked differ in from the rows wanted."""
    rows = {row.label.lower(): row for row in worked.fabric.rows}
    out = []
    for want in wanted:
        row = rows.get(want["label"].lower())
        if row is None:
            out.append(f"{want['label']} is not there")
            continue
        kinds = lower(row.row.kinds())
        if "sl st" not in want["kinds"]:
            kinds.pop("sl st", None)
        got = {"kinds": kinds, "stitches": row.row.made, "chains": row.row.chains, "side": row.side, "colour": row.colour}
        expected = {**want, "kinds": lower(want["kinds"])}
        out += [f"{row.label}: {k} {got[k]}, not {v}" for k, v in expected.items() if k in got and got[k] != v]
    return out
