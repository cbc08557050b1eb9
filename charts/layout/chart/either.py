"""The stitch chart of a worked fabric: in rows, in rounds, to and fro about a ring, mitred, or in blocks."""

from __future__ import annotations

from collections.abc import Mapping

from ...drawing.display import Document
from ...drawing.mono import in_greys
from ...made_late import replace
from ...model.cloth.fabric import Fabric
from ...model.cloth.yarns import changes_within, renamed, yarns_in
from ...setting import ChartSetting, Heading, Setting
from ..shapes.edged import about_words, edging_of, without_edging
from ..shapes.found import fabric_shape
from ..sheets.chart_setting import NotInSquares, drawable_or_raise
from ..sheets.seen import as_seen
from ..squares.corner import corner_grid
from ..squares.corner_sheet import corner_document
from ..squares.grid import grid_of
from ..squares.sheet import squares_document
from .condense import fold_rows
from .flat import flat_document
from .margins import Colour, lettered
from .round import round_document
from .yarn_grounds import pale

__all__ = ["Colour", "chart_document"]


def chart_document(
    fabric: Fabric,
    heading: Heading,
    setting: Setting,
    colours: Mapping[str, Colour] | None = None,
    special_words: Mapping[str, str] | None = None,
    stitch_repeat: int | None = None,
    *,
    extra: ChartSetting | None = None,
) -> Document:
    """The chart of a fabric, as a document of one sheet or several.

    `colours` names the keys that the rows use, by default by their letters; `special_words` says special
    stitches, by their kind, in words of known ones; `stitch_repeat` is the pattern's repeat in stitches where it
    is known. ValueError for a fabric without rows: there is nothing to draw; TooMuchToDraw for more than can be;
    NotInSquares where squares are asked for and the piece has none, or each stitch as a group of its own.
    """
    if not fabric.rows:
        raise ValueError("there are no rows to draw: the pattern makes nothing after its beginning")
    more = extra or ChartSetting()
    full = setting.extent == "full" or more.style == "squares"
    drawn = fabric if full else fold_rows(fabric).fabric
    drawable_or_raise([fabric.chains, *(len(worked.row.stitches) for worked in drawn.rows)], full=full)
    table: Mapping[str, Colour] = colours or {}
    within = changes_within(fabric.rows)
    if not table:
        fabric, table = lettered(fabric)
    elif within:
        names = {key: (key.lower(), c.name.lower(), c.name, key) for key, c in table.items()}
        fabric = renamed(fabric, {said: key for key, each in names.items() for said in each})
    within = within and more.style == "stitches"
    table = pale({key: table[key] for key in yarns_in(fabric.rows) if key in table}) if within else table
    fabric = fabric if more.style == "squares" else as_seen(fabric, setting.seen)
    shape = None if more.style == "squares" else fabric_shape(fabric)
    if shape is None and edging_of(fabric):
        more = replace(more, says=(*more.says, about_words(fabric)))
        fabric = without_edging(fabric)
    if more.style == "squares":
        document = _in_squares(fabric, heading, setting, table, more)
    elif fabric.rows[0].is_round or shape:
        document = round_document(fabric, heading, setting, table, special_words or {}, more, shape)
    else:
        document = flat_document(fabric, heading, setting, table, special_words or {}, stitch_repeat, more)
    return in_greys(document) if setting.tone == "mono" else document


def _in_squares(
    fabric: Fabric, heading: Heading, setting: Setting, table: Mapping[str, Colour], more: ChartSetting
) -> Document:
    if more.stitches == "separate":
        raise NotInSquares(
            "a grid of squares has no stitches to be moved one by one; leave out --style squares"
            " or --stitches separate"
        )
    named = {key: (colour.name, colour.hex) for key, colour in table.items()}
    if blocks := corner_grid(fabric, setting.hand):
        return corner_document(blocks, heading, setting, named, counts=more.counts)
    grid = grid_of(fabric)
    if grid is None:
        raise NotInSquares(
            "this piece cannot be drawn in squares: they show filet (open and filled meshes), blocks from corner to "
            "corner, and flat work in two colours or more, each stitch over one of the row below; draw it with --style "
            "stitches"
        )
    return squares_document(grid, heading, setting, named)
