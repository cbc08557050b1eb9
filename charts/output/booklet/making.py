"""How a piece is made, told before its rows: what is worked in which order, and what holds in every row."""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import pairwise

from hookfold.symbols.dictionary import heights

from ...layout.chart.reading import counting_words, idle_words
from ...model.cloth.fabric import Row, WorkedRow
from ...model.sizing.raised import stands_away
from ...model.sizing.yarn import MOST_CARRIED, carries
from ...pattern.file.kinds import OBJECT_KINDS, along, directions
from ...pattern.tree import Special
from ...pattern.writer import special_words
from ...setting import Setting, Terms
from ..piece import Piece
from ..words import YARN_OVER

#: Several of a stitch worked together in one place, as a special stitch is explained.
_TOGETHER = re.compile(r"^(?P<base>\w+?)(?P<legs>\d+)tog in (?:one|same|next|the same) (?:st|sp)$")
#: The stitches of which each leaves one loop on the hook when its last yarn over is still to be made.
_LEAVE_ONE = ("sc", "dc", "tr", "dtr")


def how_made(piece: Piece) -> str:
    """The way of the work from the first row to the finished piece, in a few sentences."""
    plan, kind = piece.plan, OBJECT_KINDS[piece.plan.kind]
    names = [section.name for section in plan.sections]
    what = f"It is {kind.says}. " if kind.closing else ""
    if kind.rounds:
        way = "from the middle of the crown to the brim" if kind.crown else "from one edge to the other"
        return f"Worked in one piece in joined rounds, {way}, with the right side outside; the work is not turned."
    plain, _ = directions(plan.kind, plan.object_mm)
    order = f": {', then '.join(names)}" if len(names) > 1 else ""
    said = f"{what}Worked back and forth in rows, in one piece{order}. "
    said += f"The foundation runs {along(plan.chain_along)}"
    said += ", so the rows run across it." if plan.chain_along != plain else "."
    return said + _put_together(piece)


def _put_together(piece: Piece) -> str:
    border, folded = piece.border, bool(piece.folding.stages)
    blocked = " The finished piece is blocked"
    if not folded:
        return f"{blocked} and bordered all round." if border else f"{blocked}."
    if border is None:
        return f"{blocked}, folded and sewn."
    if border.joins:
        return f"{blocked} and folded; the border, worked through all layers where they meet, joins its edges."
    return f"{blocked}, bordered, folded and sewn."


def every_row(rows: Sequence[WorkedRow], words: str, *, noted: bool = False) -> list[str]:
    """What holds in every row: which of the beginning chains that the rows' own `words` have count as no stitch (of the
    others the words say it), and where rounds are joined and begun."""
    said = idle_words(
        made for worked in rows for made in worked.row.stitches
        if re.search(rf"\bch {made.chains}\b(?! does not| \(does not)", words, re.IGNORECASE)
    )  # fmt: skip
    one = "round" if rows and all(worked.is_round for worked in rows) else "row"
    told = [f"At the beginning of a {one} {said}."] if said else []
    return [*told, *joined_words(rows, words, noted=noted)]


def raised_words(rows: Sequence[WorkedRow]) -> list[str]:
    """Where stitches stand out that are worked in wrong-side rows: on the far side (common practice, no source)."""
    rows = [worked for worked in rows if worked.side == "WS" and not worked.is_round]
    kinds = {made.kind for worked in rows for made in worked.row.stitches if stands_away(made)}
    if not kinds:
        return []
    names = " and ".join(sorted(kinds))
    return [f"In wrong-side rows (WS) each {names} comes out on the right side, away from you: push it through."]


def counted_words(rows: Sequence[WorkedRow], words: str, terms: Terms) -> list[str]:
    """What the beginning chains count as of which neither the rows nor the page's own `words` say it."""
    every = counting_words([worked.row for worked in rows], terms)
    left = [said for said in every if not _counts(said.split()[1], words)]
    one = "round" if rows and all(worked.is_round for worked in rows) else "row"
    return [f"At the beginning of a {one} {'; '.join(left)}."] if left else []


def _counts(chains: str, words: str) -> bool:
    """Whether words say of so many chains, or of any at the beginning, that they count."""
    those = rf"(?:ch|chain)[- ]?{chains}\b|\b{chains}[- ]ch\b|\b(?:beginning|turning|first) (?:ch|chain)s?\b(?![- ]?\d)"
    counting = r"[^.;:]{0,80}\b(?:counts? (?:as|for)|counted as|stands? for)\b"
    return re.search(f"(?:{those}){counting}", words, re.IGNORECASE) is not None


def joined_words(rows: Sequence[WorkedRow], words: str, *, noted: bool = False) -> list[str]:
    """Where a round is joined, and where the first stitch of the next goes, where the rows' words leave that open;
    `noted` says that rounds that differ in this from the others say it themselves."""
    rounds = [(a.row, b.row) for a, b in pairwise(rows) if a.is_round and b.is_round and not b.turned]
    said = []
    told = re.search(r"\bjoin with (?:sl st|ss) in\b", words) is not None
    if not told and any(m.role == "join" for a, _ in rounds for m in a.stitches) and any(
        m.role == "start" and m.chains for _, b in rounds for m in b.stitches
    ):
        said.append("Join a round with a sl st in its first stitch, not in a beginning chain that counts as none.")
    begun = begun_at_the_join(rows)
    if begun and len(begun) >= len(rounds) - 1:
        said.append("The first stitch of a round goes into the same stitch as the join of the round before.")
    elif begun and not noted:
        which = f"rnds {', '.join(map(str, begun[:-1]))} and {begun[-1]}" if len(begun) > 1 else f"rnd {begun[0]}"
        said.append(f"In {which} the first stitch goes into the same stitch as the join of the round before.")
    return said


def begun_at_the_join(rows: Sequence[WorkedRow]) -> list[int]:
    """The rounds whose first stitch goes where the round before was joined."""
    return [b.number for a, b in pairwise(rows) if a.is_round and b.is_round and _begins_at_the_join(a.row, b.row)]


def _begins_at_the_join(below: Row, row: Row) -> bool:
    """Whether a round that begins with no stitch has its first one where the round below was joined."""
    if not any(made.role == "start" for made in row.stitches) or any(m.role == "travel" for m in row.stitches):
        return False
    first = next((made for made in row.stitches if made.role == "stitch"), None)
    join = next((made for made in reversed(below.stitches) if made.role == "join"), None)
    if first is None or join is None or not first.feet or not join.feet:
        return False
    head = next((at for at, made in enumerate(below.stitches) if made.role in ("stitch", "turning")), 0)
    return first.feet[0].back == 1 and first.feet[0].at in (join.feet[0].at, head)


def colour_words(piece: Piece, setting: Setting) -> list[str]:
    """How colours are changed, and whether the one that rests is carried."""
    letters = {letter for section in piece.plan.sections for letter in section.colours}
    if len(letters) < 2:
        return []
    said = [f"Change colour in the last {YARN_OVER[setting.terms][1]} of the stitch before the new colour."]
    if carries(piece.plan) and OBJECT_KINDS[piece.plan.kind].rounds:
        said.append(
            f"Carry the colour not in use loosely up the inside, at the joins, past at most {MOST_CARRIED} rounds; for "
            "longer, cut it and join it again."
        )
    elif carries(piece.plan):
        said.append(
            f"Carry the colour not in use loosely up the edge, past at most {MOST_CARRIED} rows; for longer, or if it "
            "hangs at the other edge, cut it and join it again."
        )
    return said


def told_in_full(special: Special, terms: Terms, own: str) -> str:
    """A special stitch in words; of several stitches gathered in one place also how the hook goes.

    Legs of sc, dc, tr and taller leave one loop each on the hook (common practice, no source).
    """
    words = special_words(special, terms, own).rstrip(".")
    found = _TOGETHER.match(words)
    uk = {heights()[kind].uk: kind for kind in heights()} if terms == "UK" else {kind: kind for kind in heights()}
    base = uk.get(found["base"]) if found else None
    if found is None or special.chains or base not in (*_LEAVE_ONE, "hdc"):
        return words
    legs, yo = int(found["legs"]), YARN_OVER[terms][0]
    if base == "hdc":
        return f"{words}: [{yo}, insert hook, pull up a loop] {legs} times, {yo}, pull through all {2 * legs + 1} loops"
    return (
        f"{words}: work {legs} {found['base']} into it, the last loop of each left on the hook, then "
        f"{yo} and pull through all {legs + 1} loops"
    )
