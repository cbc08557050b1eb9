"""How difficult a piece is, reckoned from its worked stitches.

The four levels and what they mean are those that the Craft Yarn Council recommends (from memory): basic, easy,
intermediate, complex. What is counted here is our own reading of them, so a pattern may say its own.
"""

from __future__ import annotations

import itertools
from collections import Counter
from collections.abc import Sequence

from hookfold.symbols.dictionary import heights

from ...model.cloth.fabric import Fabric, Row
from ...pattern.file.keys import LEVELS

_PLAIN = {"ch", "sl st", "sc", "hdc", "dc", "tr"}


def level_of(fabric: Fabric, *, pieces: int = 1, joined: bool = False) -> tuple[str, tuple[str, ...]]:
    """The level and what makes it so, as "stripes", "stitches round the post"; `joined` says that a counted border is
    worked through layers, which weighs double. Increases of two in one place are the counts' change and no more."""
    rows = [worked.row for worked in fabric.rows]
    one = "round" if fabric.rows and all(worked.is_round for worked in fabric.rows) else "row"
    chained, shaped = _chained(rows), _shaped(rows)
    placed = rows[1:] if rows and fabric.rows[0].is_round else rows
    found = [(says, weighs) for says, weighs, is_there in (
        ("colour changes", 1, len({worked.colour for worked in fabric.rows}) > 1),
        (f"counts that change from {one} to {one}", 1, shaped),
        ("several stitches in one place", 1, _crowded(placed, 3 if shaped and not chained else 2)),
        ("chains between stitches", 1 if _mixed(rows) else 0, chained),
        ("single loops", 1, _held(rows, ("front loop", "back loop"))),
        ("stitches worked together in one place", 1, _gathered(rows)),
        ("stitches round the post", 1, _posts(rows)),
        ("stitches into rows further down", 1, _deep(rows)),
        ("crossed stitches", 1, _crossed(rows)),
        ("several pieces", 1, pieces > 1),
        ("a counted border that joins the layers", 2, joined),
    ) if is_there]  # fmt: skip
    heavy = sum(weighs for _, weighs in found)
    return LEVELS[0 if not found else 1 if heavy <= 2 else 2 if heavy <= 4 else 3], tuple(says for says, _ in found)


def _mixed(rows: Sequence[Row]) -> bool:
    """Whether stitches of several heights are worked."""
    return len({made.kind for row in rows[1:] for made in row.stitches if made.role == "stitch"}) > 1


def _shaped(rows: Sequence[Row]) -> bool:
    made = [row.made for row in rows]
    return any(a != b for a, b in itertools.pairwise(made))


def _chained(rows: Sequence[Row]) -> bool:
    return any(made.role == "chain" for row in rows for made in row.stitches)


def _crowded(rows: Sequence[Row], least: int) -> bool:
    """Whether so many stitches or more stand in one place somewhere."""
    together = (Counter(made.place for made in row.stitches if made.place >= 0 and made.role != "chain")
                for row in rows)  # fmt: skip
    return any(many >= least for some in together for many in some.values())


def _held(rows: Sequence[Row], holds: tuple[str, ...]) -> bool:
    return any(foot.hold in holds for row in rows for made in row.stitches for foot in made.feet)


def _posts(rows: Sequence[Row]) -> bool:
    return _held(rows, ("front post", "back post"))


def _gathered(rows: Sequence[Row]) -> bool:
    return any(
        made.role == "stitch" and made.kind not in _PLAIN and (made.legs > 1 or made.kind not in heights())
        for row in rows
        for made in row.stitches
    )


def _deep(rows: Sequence[Row]) -> bool:
    return any(foot.back > 1 for row in rows for made in row.stitches for foot in made.feet)


def _crossed(rows: Sequence[Row]) -> bool:
    """Whether some stitches of a row go in against the way that the others go; the end of a round back to its beginning
    is no such thing."""
    for row in rows:
        single = [m for m in row.stitches if m.role == "stitch" and len(m.feet) == 1 and m.feet[0].back == 1]
        places = [made.feet[0].at for made in single]
        far = max(places, default=0) / 2
        steps = [b - a for a, b in itertools.pairwise(places) if 0 < abs(b - a) <= far]
        if any(step > 0 for step in steps) and any(step < 0 for step in steps):
            return True
    return False
