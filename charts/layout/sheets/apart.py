"""The stitches of a row each as a group of its own, for who moves them in a drawing program."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Sequence

from hookfold.symbols import Point

from ...drawing.display import Group
from ...drawing.geometry import PEN_LIMIT_MM
from ...made_late import replace
from ...setting import ScForm
from ..placing.ink import inked, row_inks
from ..placing.placed import Spot

#: What the id of a stitch calls it, by its role; each is numbered along its row, as its row counts it.
_CALLED = {
    "stitch": "stitch", "turning": "stitch", "start": "beginning chain", "chain": "chain", "picot": "picot",
    "join": "join", "travel": "slip stitch", "foundation": "stitch", "ring": "ring",
}  # fmt: skip


def stitch_groups(
    spots: Sequence[Spot], shown: Callable[[Point], bool], at: Point, stitch_mm: float, colour: str, row: str,
    sc_form: ScForm, limit_mm: float = PEN_LIMIT_MM,
) -> tuple[Group, ...]:  # fmt: skip
    """A group for every stitch and every chain of a row whose head is `shown`, named "<row> stitch 7" in the order of
    work; `at` are the mm of the row's origin."""
    counted: Counter[str] = Counter()
    groups = []
    for spot in (one for whole in spots for one in _chain_by_chain(whole)):
        called = "chain" if spot.kind == "ch" and spot.role == "foundation" else _CALLED.get(spot.role, "")
        counted[called] += 1
        kinds = row_inks([spot], stitch_mm, sc_form) if called and shown(spot.head) else ()
        inks = tuple(replace(ink, name="") for ink in inked(kinds, *at, stitch_mm, colour, row, limit_mm))
        groups += [Group(f"{row} {called} {counted[called]}", inks)] if inks else []
    return tuple(groups)


def _chain_by_chain(spot: Spot) -> tuple[Spot, ...]:
    """A run of chains as its single chains; else the spot."""
    if spot.role != "chain" or len(spot.ovals) < 2:
        return (spot,)
    return tuple(replace(spot, ovals=(oval,), chains=1) for oval in spot.ovals)
