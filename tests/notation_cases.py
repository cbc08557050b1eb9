"""Reading the tables of written patterns and comparing them with what was worked."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

from hookfold.charts.model.rows.working import Worked

NOTATION = Path(__file__).parent / "unit" / "notation"


def table(key: str) -> list[dict[str, Any]]:
    """All entries called `key` of every table, in the order of the files."""
    entries = []
    for path in sorted(NOTATION.glob("*.toml")):
        entries += tomllib.loads(path.read_text("utf-8")).get(key, [])
    return entries


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
