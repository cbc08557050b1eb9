"""Blocks worked from corner to corner, found on the worked stitches and never on the words.

A block is a few chains, its side, and a few like stitches beside them: in chains made for them, or in the side of a
block of the row before, where a slip stitch fixes it (common practice, no source).
"""

from __future__ import annotations

import functools
import itertools
from collections.abc import Sequence

from ...made_late import dataclass
from .fabric import Fabric, Row

#: A block is of so many chains and posts at least, and of so many posts at most.
LEAST, MOST = 2, 6


@dataclass(frozen=True, slots=True)
class Tile:
    """A block in its row: the item of its chains, and those of its posts."""

    side: int
    posts: tuple[int, ...]


@functools.lru_cache(maxsize=256)
def tiles_of(row: Row) -> tuple[Tile, ...]:
    """The blocks that a row's whole work is but slip stitches; none of any other row."""
    found: list[Tile] = []
    item = 0
    while item < len(row.stitches):
        made = row.stitches[item]
        if _only_leads(row, item):
            item += 1
            continue
        posts = _posts(row, item)
        if made.chains < LEAST or not LEAST <= len(posts) <= MOST or not _in_one_place(row, item, posts, len(found)):
            return ()
        found.append(Tile(item, posts))
        item = posts[-1] + 1
    return tuple(found) if len({len(tile.posts) for tile in found}) == 1 and len(_kinds(row, found)) == 1 else ()


def _only_leads(row: Row, item: int) -> bool:
    """Whether a thing made is a slip stitch of a flat row, or the chain before those that lead to a block: "ch 1, turn,
    sl st in next 3 dc"."""
    made, after = row.stitches[item], row.stitches[item + 1 : item + 2]
    if made.kind == "sl st":
        return made.role != "join"
    return item == 0 and made.role == "start" and bool(after) and after[0].kind == "sl st"


def _posts(row: Row, side: int) -> tuple[int, ...]:
    """The posts after a run of chains, up to the next run or slip stitch."""
    if row.stitches[side].role not in ("chain", "turning", "start"):
        return ()
    rest = range(side + 1, len(row.stitches))
    posts = itertools.takewhile(lambda i: row.stitches[i].role == "stitch" and row.stitches[i].kind != "sl st", rest)
    return tuple(posts)


def _in_one_place(row: Row, side: int, posts: Sequence[int], before: int) -> bool:
    """Whether posts go into one side of a block, or into chains in a row: their own, or those that the work begins
    with."""
    feet = [row.stitches[i].feet for i in posts]
    if any(len(foot) != 1 for foot in feet):
        return False
    into = {(foot[0].back, foot[0].at) for foot in feet}
    if len(into) == 1:
        back, at = next(iter(into))
        return back == 1 or (back == 0 and at == side and not before)
    ats = [foot[0].at for foot in feet]
    return not before and {back for back, _ in into} == {1} and ats == list(range(len(posts)))[::-1]


def _kinds(row: Row, tiles: Sequence[Tile]) -> set[tuple[str, int, str]]:
    return {(row.stitches[i].kind, row.stitches[i].legs, row.stitches[i].base) for tile in tiles for i in tile.posts}


def rows_of_tiles(fabric: Fabric) -> tuple[tuple[Tile, ...], ...]:
    """The blocks of a fabric's first rows, as far as it is worked from corner to corner; none of any other fabric."""
    if fabric.start != "chain" or len(fabric.rows) < 2 or fabric.rows[0].is_round:
        return ()
    found: list[tuple[Tile, ...]] = []
    for worked in fabric.rows:
        tiles = () if worked.is_round else tiles_of(worked.row)
        if not tiles or (found and not _upon(worked.row, tiles, found[-1])):
            break
        found.append(tiles)
    return tuple(found) if len(found) > 1 else ()


def _upon(row: Row, tiles: Sequence[Tile], below: Sequence[Tile]) -> bool:
    """Whether all blocks but one that is begun stand in sides of blocks of the row before."""
    sides = {tile.side for tile in below}
    feet = [row.stitches[tile.posts[0]].feet[0] for tile in tiles]
    joined = [foot for foot in feet if foot.back == 1]
    return bool(joined) and all(foot.at in sides for foot in joined)


def counted_in_blocks(tiles: Sequence[Tile]) -> tuple[int, int]:
    """How many blocks a row has, and how many stitches stand in them; chains and slip stitches are not counted."""
    return len(tiles), sum(len(tile.posts) for tile in tiles)
