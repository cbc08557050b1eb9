"""How a piece is made, told before its rows: what is worked in which order, and what holds in every row."""

from __future__ import annotations

import re
from collections.abc import Sequence

from hookfold.symbols.dictionary import heights

from ...layout.chart.reading import idle_words
from ...model.cloth.fabric import WorkedRow
from ...model.sizing.yarn import MOST_CARRIED, carries
from ...pattern.file.kinds import OBJECT_KINDS, directions
from ...pattern.tree import Special
from ...pattern.writer import special_words
from ...setting import Setting, Terms
from ..piece import Piece
from ..words import YARN_OVER

#: Several of a stitch worked together in one place, as a special stitch is explained.
_TOGETHER = re.compile(r"^(?P<base>\w+?)(?P<legs>\d+)tog in (?:one|same|next|the same) st$")
#: The stitches of which each leaves one loop on the hook when its last yarn over is still to be made.
_LEAVE_ONE = ("sc", "dc", "tr", "dtr")


def how_made(piece: Piece) -> str:
    """The way of the work from the first row to the finished piece, in a few sentences."""
    plan, kind = piece.plan, OBJECT_KINDS[piece.plan.kind]
    names = [section.name for section in plan.sections]
    if kind.rounds:
        way = "from the crown's middle to the brim" if kind.crown else "from one edge to the other"
        return f"It is worked in rounds in one piece, {way}, right side outside, joined and not turned."
    plain, _ = directions(plan.kind, plan.object_mm)
    order = f": {', then '.join(names)}" if len(names) > 1 else ""
    said = f"It is worked to and fro in rows, in one piece{order}. "
    along = plan.chain_along
    said += f"The foundation runs along the {along}" + (", so rows stack the other way." if along != plain else ".")
    return said + _put_together(piece)


def _put_together(piece: Piece) -> str:
    border, folded = piece.border, bool(piece.folding.stages)
    blocked = " The piece is then blocked"
    if not folded:
        return f"{blocked} and bordered all round." if border else f"{blocked}."
    if border is None:
        return f"{blocked}, folded and sewn."
    if border.joins:
        return f"{blocked} and folded, and the border, worked through both layers where they meet, joins it."
    return f"{blocked}, bordered, folded and sewn."


def every_row(rows: Sequence[WorkedRow]) -> list[str]:
    """What holds in every row: which beginning chains count as no stitch; of the others the rows say it."""
    said = idle_words(made for worked in rows for made in worked.row.stitches)
    one = "round" if rows and all(worked.is_round for worked in rows) else "row"
    return [f"At the beginning of a {one} {said}."] if said else []


def colour_words(piece: Piece, setting: Setting) -> list[str]:
    """How colours are changed, and whether the one that rests is carried."""
    letters = {letter for section in piece.plan.sections for letter in section.colours}
    if len(letters) < 2:
        return []
    said = [f"Change colour in the last {YARN_OVER[setting.terms][1]} of the stitch before the new colour."]
    if carries(piece.plan) and OBJECT_KINDS[piece.plan.kind].rounds:
        said.append(
            f"Carry the yarn that rests loosely up the inside, at the joins, past at most {MOST_CARRIED} rounds; where "
            "it would lie longer, cut it and join it anew."
        )
    elif carries(piece.plan):
        said.append(
            f"Carry the yarn that rests loosely up the edge where it hangs, past at most {MOST_CARRIED} rows; where "
            "it would lie longer, or hangs at the other edge, cut it and join it anew."
        )
    return said


def told_in_full(special: Special, terms: Terms, own: str) -> str:
    """A special stitch in words; of several stitches gathered in one place also how the hook goes.

    Legs of sc, dc, tr and taller leave one loop each on the hook (common practice, no source).
    """
    words = special_words(special, terms, own).rstrip(".")
    found = _TOGETHER.match(words)
    uk = {heights()[kind].uk: kind for kind in heights()} if terms == "UK" else {kind: kind for kind in heights()}
    if found is None or uk.get(found["base"]) not in _LEAVE_ONE:
        return words
    legs = int(found["legs"])
    return (
        f"{words}: work {legs} {found['base']} into it, the last loop of each left on the hook, then "
        f"{YARN_OVER[terms][0]} and pull through all {legs + 1} loops"
    )
