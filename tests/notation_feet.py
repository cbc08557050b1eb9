"""The feet of the last row of a pattern, told as a hand tells them: how many rows below, and the how manieth there."""

from __future__ import annotations

import re

from hookfold.charts.model.cloth.fabric import Foot, Row, counts
from hookfold.charts.model.rows.working import Worked


def hand(told: str) -> list[str]:
    """Every stitch with its feet: "sc 1:1-2, dc 3:3" is ["sc 1:1", "sc 1:2", "dc 3:3"]."""
    out = []
    for part in told.split(","):
        kind, feet = part.strip().rsplit(" ", 1)
        stretch = re.fullmatch(r"(\d+):(\d+)-(\d+)", feet)
        places = [feet] if not stretch else [f"{stretch[1]}:{n}" for n in range(int(stretch[2]), int(stretch[3]) + 1)]
        out += [f"{kind} {place}" for place in places]
    return out


def feet_of(worked: Worked) -> list[str]:
    """The stitches of the last row that stand on other rows, each with its feet."""
    rows = worked.fabric.rows
    out = []
    for stitch in rows[-1].row.stitches:
        feet = [f for f in stitch.feet if f.back > 0]
        if feet:
            out.append(f"{stitch.kind} " + "+".join(place_of(worked, foot) for foot in feet))
    return out


def place_of(worked: Worked, foot: Foot) -> str:
    """ "3:5": the fifth stitch of the third row below, counted from where the last row begins."""
    rows = worked.fabric.rows
    at = len(rows) - 1 - foot.back
    row = rows[at].row if at >= 0 else worked.fabric.foundation
    alike = rows[at].direction == rows[-1].direction
    if row.stitches[foot.at].role == "chain":
        return f"{foot.back}:ch{nth(row, foot.at, alike=alike, chains=True)}"
    return f"{foot.back}:{nth(row, foot.at, alike=alike, chains=False)}"


def nth(row: Row, item: int, *, alike: bool, chains: bool) -> int:
    """The how manieth run of chains, or stitch, an item is, from the row's beginning or its end."""
    same = [i for i, s in enumerate(row.stitches) if (s.role == "chain" if chains else counts(s) or s.kind == "sl st")]
    return same.index(item) + 1 if alike else len(same) - same.index(item)
