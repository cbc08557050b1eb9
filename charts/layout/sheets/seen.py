"""Rows as they are seen: what is worked on the wrong side shows its other face on the right side."""

from __future__ import annotations

import functools

from hookfold.symbols import known

from ...made_late import replace
from ...model.cloth.fabric import Fabric, Row, Stitch
from ...pattern.tree import Hold
from ...setting import Seen

#: What a foot holds on one side of the work, and what that is on the other.
OTHER_FACE: dict[Hold, Hold] = {
    "front post": "back post", "back post": "front post", "front loop": "back loop", "back loop": "front loop",
}  # fmt: skip
OTHER_KIND = {"FP": "BP", "BP": "FP"}


@functools.lru_cache(maxsize=4)
def as_seen(fabric: Fabric, seen: Seen) -> Fabric:
    """The fabric with its wrong-side rows as the right side shows them; "as-worked" leaves them as they are.

    A stitch round the front of a post on the wrong side is round the back of it on the right side, one loop is the
    other, and of two that cross the other lies in front (common practice of printed charts, no source). Rows that
    were one object stay one. The last few are kept, so that what is laid of them can be, too.
    """
    if seen == "as-worked":
        return fabric
    turned: dict[int, Row] = {}
    for worked in fabric.rows:
        if worked.side == "WS" and id(worked.row) not in turned:
            turned[id(worked.row)] = replace(worked.row, stitches=tuple(map(_turned, worked.row.stitches)))
    rows = (replace(w, row=turned[id(w.row)]) if w.side == "WS" else w for w in fabric.rows)
    return replace(fabric, rows=tuple(rows))


def _turned(made: Stitch) -> Stitch:
    other = OTHER_KIND.get(made.kind[:2], "") + made.kind[2:]
    kind = other if made.kind[:2] in OTHER_KIND and known(other) else made.kind
    feet = tuple(replace(f, hold=OTHER_FACE.get(f.hold, f.hold)) for f in made.feet)
    return replace(made, kind=kind, feet=feet, passes="front" if made.passes == "behind" else "behind")
