"""The colour every row is worked in."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ...pattern.tree import Act, Make, Op, RowText, walk

if TYPE_CHECKING:
    from .work import Worker


def take_colours(w: Worker, ops: tuple[Op, ...], text: RowText, number: int) -> None:
    """The colour the row is worked in, and the one it changes to for the next. A row that repeats another with a
    colour of its own does not take that row's colours."""
    own = [op for op in text.ops if isinstance(op, Act) and op.name in ("colour", "yarn", "stripes") and op.text]
    stripes = next((op.text.split(",") for op in own if op.name == "stripes"), None)
    if stripes:
        w.colour = w.next_colour = stripes[max(number - text.first, 0) % len(stripes)]
        return
    if own and ops is not text.ops:
        ops = text.ops
    w.colour = w.next_colour
    begun = False
    for op in walk(ops):
        if isinstance(op, Act) and op.name in ("colour", "yarn") and op.text and op.text != "yarn" and not begun:
            w.colour = w.next_colour = op.text
        elif isinstance(op, Act) and op.name in ("change", "colour") and op.text:
            w.next_colour = op.text
        begun = begun or (isinstance(op, Make) and op.stitch != "sl st")
