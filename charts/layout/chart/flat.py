"""The chart of work in rows: condensed on one page, or every stitch on as many pages as it takes."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import field

from ...drawing.display import Document, Group, Ink, Sheet, Text
from ...drawing.style import Style, style
from ...made_late import dataclass
from ...model.cloth.fabric import Fabric
from ...model.cloth.yarns import changes_within, yarns_in
from ...setting import ChartSetting, Heading, Setting
from ..placing.placed import Laid
from ..sheets.chart_setting import (
    ABOVE_MM,
    BELOW_MM,
    BEST_MM,
    LEAST_MM,
    NAME,
    OVER,
    PALE,
    TILE_LEAST_MM,
    WHOLE_FROM_MM,
    lit_words,
    scale_of,
    shown_or_raise,
    whole_mm,
)
from ..sheets.page import DARK, PAPERS_MM, SMALL_MM, Frame, Orientation, finish, own_page, page
from .breaks import Break, break_mark, break_words, find_break
from .condense import cut_words, fold_rows
from .key import Entry, entries, mark_entries, with_wrong_sides
from .margins import (
    LEADING_MM,
    Colour,
    Sides,
    colour_bands,
    goes_on,
    row_brackets,
    row_labels,
    section_names,
    sides_of,
    stitch_bracket,
)
from .notes import notes
from .picture import Inker, Place, Window, inside, is_there, made_in_words, picture, row_name
from .reading import counted_words, foundation_words, hidden_words, said_of, side_words
from .tiles import RULER_MM, Tile, cut_marks, overview, rulers, tile_count, tiles_of
from .view import View, folded_view_of, view_of, whole_view_of
from .yarn_grounds import SAID, grounds, told

Item = Ink | Text | Group

#: What the bracket below the picture needs, in mm.
BRACKET_MM = 6.5
#: Room round a tile for the names of its cuts, in mm.
CUT_ROOM_MM = 9.0
#: What a tile's name, the names of its neighbours and its ruler need above and below, in mm.
TITLE_ROOM_MM = 13.0
FOOT_ROOM_MM = 13.0


@dataclass(frozen=True, slots=True)
class Job:
    """Everything one chart is made from."""

    heading: Heading
    setting: Setting
    extra: ChartSetting
    view: View
    colours: Mapping[str, Colour]
    entries: Sequence[Entry]
    style: Style
    sides: Sides
    broken: Break | None
    tones: Mapping[str, str] = field(default_factory=dict)

    @property
    def within(self) -> bool:
        """Whether the yarn changes within a row that is drawn."""
        return changes_within(course.worked for course in self.view.laid.courses)


def flat_document(
    fabric: Fabric,
    heading: Heading,
    setting: Setting,
    colours: Mapping[str, Colour],
    words: Mapping[str, str],
    stitch_repeat: int | None,
    extra: ChartSetting,
) -> Document:
    """The chart of work in rows."""
    def job_of(view: View) -> Job:
        return _job(view, heading, setting, colours, words, extra)

    job = job_of(_view(fabric, setting, stitch_repeat, job_of))
    shown_or_raise(extra.lit_row, [c.worked.number for c in job.view.laid.courses], _called(job))
    frame, stitch_mm = _best_frame(job)
    one_page = stitch_mm >= LEAST_MM
    return Document(
        lambda: [_sheet(job, frame, stitch_mm)] if one_page else tiled_sheets(job),
        heading.title, heading.author, heading.licence,
        whole=lambda: _whole(job, stitch_mm if one_page else _whole_mm(job)),
    )  # fmt: skip


def _view(fabric: Fabric, setting: Setting, stitch_repeat: int | None, job_of: Callable[[View], Job]) -> View:
    """What is seen; where it may be condensed no more so than lets it stand on a page in a good size."""
    for view_as in (whole_view_of, folded_view_of):
        if setting.extent == "repeat" and _may_fit(fabric, setting, folded=view_as is folded_view_of):
            view = view_as(fabric, setting, stitch_repeat)
            if _best_frame(job_of(view))[1] >= WHOLE_FROM_MM:
                return view
    return view_of(fabric, setting, stitch_repeat)


def _may_fit(fabric: Fabric, setting: Setting, *, folded: bool) -> bool:
    """Whether all stitches of a fabric, or of its different rows, may stand on a page at the size from which on nothing
    is left out: no row is less than half a stitch high, and no stitch narrower than half of one."""
    most = 2.0 * max(PAPERS_MM[setting.paper]) / WHOLE_FROM_MM
    rows = fold_rows(fabric).fabric.rows if folded else fabric.rows
    return len(rows) <= most and max(len(worked.row.stitches) for worked in rows) <= most


def _whole(job: Job, mm: float) -> Sheet:
    """The chart on one sheet of its own size, a stitch `mm` wide."""
    return _sheet(job, _own_frame(job, mm), mm)


def _whole_mm(job: Job) -> float:
    """How large a stitch is on that sheet where the chart is too large for a page: rows are no closer than their
    numbers."""
    top, bottom = job.view.laid.y_range()
    least = max(LEAST_MM, LEADING_MM * len(job.view.laid.courses) / (bottom - top))

    def size_at(mm: float) -> tuple[float, float]:
        frame = _own_frame(job, mm)
        return frame.width, frame.height

    return whole_mm(job.setting.paper, size_at, least)


def _own_frame(job: Job, mm: float) -> Frame:
    left, right = job.view.laid.x_range()
    top, bottom = job.view.laid.y_range()
    wide = job.sides.left + job.sides.right + (right - left + 2 * OVER) * mm
    frame = own_page(job.heading, job.setting, name=NAME, width=wide, height=0.0)
    high = ABOVE_MM + (bottom - top + 2 * OVER) * mm + below(job) + BELOW_MM + notes_of(job, frame, 0.0)[1]
    return own_page(job.heading, job.setting, name=NAME, width=wide, height=high)


def _job(
    view: View,
    heading: Heading,
    setting: Setting,
    colours: Mapping[str, Colour],
    words: Mapping[str, str],
    extra: ChartSetting,
) -> Job:
    used = yarns_in(c.worked for c in view.laid.courses)
    shown = {key: colour for key, colour in colours.items() if key in used}
    look = style(mono=setting.tone == "mono")
    spots = [s for c in view.laid.courses for s in c.laid.spots] + list(view.laid.foundation.spots)
    rows, drawn = [c.worked for c in view.laid.courses], entries(spots, setting.terms, words, setting.sc_form)
    key = with_wrong_sides(drawn, rows, setting.seen, setting.terms)
    return Job(
        heading, setting, extra, view, shown, key, look,
        sides_of(view, counts=extra.counts, colours=shown), find_break(view.laid),
        {"RS": look.right_side, "WS": look.wrong_side},
    )  # fmt: skip


def _best_frame(job: Job) -> tuple[Frame, float]:
    """The way up in which a stitch is largest; upright when it makes no odds."""
    tries = [(_frame(job, way), way) for way in ("portrait", "landscape")]
    sized = [(frame, fit_mm(job, frame)) for frame, _ in tries]
    upright, lying = sized
    return lying if lying[1] > upright[1] * 1.05 else upright


def _frame(job: Job, way: Orientation) -> Frame:
    return page(job.heading, job.setting, name=NAME, orientation=way)


def fit_mm(job: Job, frame: Frame) -> float:
    """The size of a stitch, up to the best, at which the whole chart and its notes fit on a page."""
    left, right = job.view.laid.x_range()
    top, bottom = job.view.laid.y_range()
    wide = frame.content_width - job.sides.left - job.sides.right
    high = frame.content_height - notes_of(job, frame, 0.0)[1] - below(job) - ABOVE_MM - BELOW_MM
    return min(BEST_MM, wide / (right - left + 2 * OVER), high / (bottom - top + 2 * OVER))


def below(job: Job) -> float:
    """What stands between the picture and the notes, in mm."""
    return BRACKET_MM if job.view.stitch_bracket else 0.0


def notes_of(job: Job, frame: Frame, top: float) -> tuple[Group, float]:
    """The notes under the chart, and their height."""
    left = frame.content[0]
    tones = [(job.tones[side], f"{way}-side {_called(job)}s") for side, way in (("RS", "right"), ("WS", "wrong"))]
    present = {c.worked.side for c in job.view.laid.courses}
    shown = [tone for tone, side in zip(tones, ("RS", "WS"), strict=True) if side in present]
    shown += [(PALE, "the row that is there already")] if is_there(job.view.laid) else []
    key = (*job.entries, *mark_entries(_marks(job.view)))
    return notes(key, _sentences(job), shown, job.colours, (left, top, frame.content_width))


def _marks(view: View) -> list[str]:
    """The names of the marks that stand beside the rows."""
    rows = [course.worked for course in view.laid.courses]
    found = ["begin"] if view.chains else []
    return found + ["join yarn"] * any(r.joins for r in rows) + ["fasten off"] * any(r.cut for r in rows)


def _sentences(job: Job) -> list[str]:
    """How to read this chart."""
    side = "left" if job.setting.hand == "left" else "right"
    rows = [course.worked.row for course in job.view.laid.courses]
    lowest = "the lowest row, which is there already," if is_there(job.view.laid) else "the lowest row"
    begins = "the foundation" if job.view.chains else lowest
    said = [
        f"Seen from the right side, for {side}-handed work; begin at {begins} and follow the arrows."
    ]
    if job.extra.counts:
        said.append(counted_words(rows))
    if job.extra.lit_row:
        said.append(lit_words(job.extra.lit_row, _called(job)))
    said += [SAID] if job.within else []
    said += foundation_words(job.view.chains, sum(s.role == "risen" for s in job.view.laid.foundation.spots))
    said += said_of([row for row, _ in job.view.every], job.setting.terms, [number for _, number in job.view.every])
    said += side_words((course.worked for course in job.view.laid.courses), job.setting.seen)
    said += hidden_words(spot for course in job.view.laid.courses for spot in course.laid.spots)
    if job.view.condensed and (job.view.row_brackets or job.view.stitch_bracket):
        said.append("Repeats are shortened; the brackets say how often they are worked.")
    said += cut_words(job.view.cut_after, "row")
    if job.broken:
        said.append(break_words(job.broken))
    if _called(job) == "round":
        opened = "Each row drawn is a round, laid open where it begins and is joined; the work is not turned."
        said = [said[0], opened, *(re.sub(r"\brow(s?)\b", r"round\1", line) for line in said[1:])]
    return [*said, *job.extra.says]


def _called(job: Job) -> str:
    """What a row of the chart is called: "row", or "round" where rounds are laid open."""
    return job.view.laid.courses[0].worked.called


def _sheet(job: Job, frame: Frame, stitch_mm: float) -> Sheet:
    """The whole chart on one page."""
    left, right = job.view.laid.x_range()
    top, bottom = job.view.laid.y_range()
    wide = (right - left + 2 * OVER) * stitch_mm
    free = frame.content_width - job.sides.left - job.sides.right - wide
    x0 = frame.content[0] + job.sides.left + max(free, 0.0) / 2.0
    y0 = frame.content[1] + ABOVE_MM
    place = Place(x0 + (OVER - left) * stitch_mm, y0 + (OVER - top) * stitch_mm, stitch_mm)
    window = Window(0, len(job.view.laid.courses))
    foot = place.at_y(bottom + OVER)
    items = chart_items(job, window, place, (x0, x0 + wide), foot)
    block, _ = notes_of(job, frame, foot + below(job) + BELOW_MM)
    return finish(
        frame, job.heading, [*items, block], number=1, of=1, scale=scale_of(stitch_mm, terms=job.setting.terms),
        title=f"{NAME}: {job.heading.title}", desc=_describe(job),
    )  # fmt: skip


def _describe(job: Job) -> str:
    rows = job.view.laid.courses
    ends = f"from {rows[0].worked.label} to {rows[-1].worked.label}"
    drawn = f"Stitch chart of {len(rows)} {_called(job)}s as drawn, {ends}."
    return f"{drawn} {made_in_words(c.worked for c in rows)}"


def chart_items(
    job: Job, window: Window, place: Place, edges: tuple[float, float], foot: float
) -> list[Item]:
    """The picture of a window with what stands beside and below it. `foot` is the mm of the picture's lower
    edge.
    """
    view, sides = job.view, job.sides
    inker = Inker(place.stitch_mm, job.setting.sc_form, job.extra.stitches == "separate")
    items: list[Item] = _yarn_grounds(job, window, place)
    items += picture(view.laid, window, place, inker, job.tones, job.extra.lit_row)
    if job.broken and window.holds(job.broken.x):
        items.append(break_mark(job.broken, view.laid, window, place))
    items += row_labels(view, window, place, edges, counts=job.extra.counts)
    column = edges[0] - sides.left_label
    if sides.band:
        items.append(colour_bands(view, window, place, column - sides.band, job.colours))
    if sides.section:
        items.append(section_names(view, window, place, column - sides.band - sides.section))
    if any(not goes_on(view.laid.courses[b.first], window, left=False) for b in view.row_brackets):
        items.append(row_brackets(view, window, place, edges[1] + sides.right_label))
    bracket = view.stitch_bracket
    if bracket and window.first == 0 and window.holds((bracket.left + bracket.right) / 2.0):
        items.append(stitch_bracket(bracket, place, foot + 2.0))
    return items


def _yarn_grounds(job: Job, window: Window, place: Place) -> list[Item]:
    """The yarn of each stitch behind its sign, where it changes within a row."""
    if not job.within:
        return []
    courses = job.view.laid.courses[window.first : window.last]
    rows = [
        (row_name(c), c.worked, Laid(inside(c.laid, window), c.laid.rise), (place.x, place.at_y(c.y)))
        for c in courses
    ]
    return [grounds(rows, job.colours, place.stitch_mm, desc=told([c.worked for c in courses], job.colours))]


def tiled_sheets(job: Job) -> list[Sheet]:
    """A sheet with the notes and the whole chart small, then the tiles from the bottom up, as they are worked."""
    frame, mm = tile_frame(job)
    tiles = tiles_of(job.view.laid, tile_room(job, frame, mm), starts_right=job.setting.hand == "right")
    sheets = [_notes_sheet(job, frame, tiles, mm)]
    for tile in tiles:
        sheets.append(_tile_sheet(job, frame, tiles, tile, mm))
    return sheets


def tile_frame(job: Job) -> tuple[Frame, float]:
    """The way up that needs the fewest pages, and the largest size of a stitch in mm that needs no more."""
    frames = [_frame(job, "portrait"), _frame(job, "landscape")]

    def pages(frame: Frame, mm: float) -> int:
        return tile_count(job.view.laid, tile_room(job, frame, mm))

    fewest = min(pages(frame, TILE_LEAST_MM) for frame in frames)
    sizes = [k / 10.0 for k in range(round(10 * TILE_LEAST_MM), round(10 * WHOLE_FROM_MM) + 1)]
    fits = [(mm, frame) for frame in frames for mm in sizes if pages(frame, mm) <= fewest]
    best = max(mm for mm, _ in fits)
    return next(frame for mm, frame in fits if mm == best), best


def tile_room(job: Job, frame: Frame, mm: float) -> tuple[float, float]:
    """How many stitch widths of `mm` across and up fit on one page beside the columns."""
    wide = frame.content_width - job.sides.left - job.sides.right - 2 * CUT_ROOM_MM
    high = frame.content_height - ABOVE_MM - TITLE_ROOM_MM - FOOT_ROOM_MM
    return wide / mm - 2 * OVER, high / mm - 2 * OVER


def _notes_sheet(job: Job, frame: Frame, tiles: Sequence[Tile], mm: float) -> Sheet:
    """How to read the chart, and the whole of it small with the lines it is cut along."""
    block, height = notes_of(job, frame, frame.content[1])
    left, right = job.view.laid.x_range()
    top, bottom = job.view.laid.y_range()
    y0 = frame.content[1] + height + 10.0
    small = min(
        frame.content_width / (right - left + 2 * OVER),
        max(frame.content[3] - y0 - 2.0, 20.0) / (bottom - top + 2 * OVER),
    )
    x0 = frame.content[0] + (frame.content_width - (right - left + 2 * OVER) * small) / 2.0
    place = Place(x0 + (OVER - left) * small, y0 + (OVER - top) * small, small)
    window = Window(0, len(job.view.laid.courses))
    behind = _yarn_grounds(job, window, place)
    drawn = picture(job.view.laid, window, place, Inker(small, job.setting.sc_form), job.tones, job.extra.lit_row)
    small_groups = tuple(Group("", group.items, group.title) for group in drawn)
    says = "How the parts lie"
    head = Text(frame.content[0], y0 - 3.2, says, SMALL_MM, weight="bold", colour=DARK, name="plan title")
    items: list[Item] = [block, head, Group("overview", (*behind, *small_groups), "The whole chart")]
    items.append(overview(tiles, place))
    return finish(
        frame, job.heading, items, number=1, of=len(tiles) + 1, scale=scale_of(mm, "Parts", job.setting.terms),
        title=f"{NAME}: {job.heading.title}", desc=_describe(job),
    )  # fmt: skip


def _tile_sheet(job: Job, frame: Frame, tiles: Sequence[Tile], tile: Tile, mm: float) -> Sheet:
    """One page of a tiled chart, with its rulers and what lies beyond its cuts."""
    left, right = tile.left, tile.right
    wide = (right - left + 2 * OVER) * mm
    free = frame.content_width - job.sides.left - job.sides.right - 2 * CUT_ROOM_MM - wide
    x0 = frame.content[0] + job.sides.left + CUT_ROOM_MM + max(free, 0.0) / 2.0
    y0 = frame.content[1] + ABOVE_MM + TITLE_ROOM_MM
    place = Place(x0 + (OVER - left) * mm, y0 + (OVER - tile.top) * mm, mm)
    edges = (x0, x0 + wide)
    items = chart_items(job, tile.window, place, edges, place.at_y(tile.bottom + OVER) + RULER_MM)
    outside = (edges[0] - job.sides.left - 3.0, edges[1] + job.sides.right + 3.0)
    right_first = job.setting.hand == "right"
    items.append(rulers(tile, job.view.laid, place, edges, outside, starts_right=right_first))
    items.append(cut_marks(tile, tiles, job.view.laid, place, edges, outside))
    return finish(
        frame, job.heading, items, number=tiles.index(tile) + 2, of=len(tiles) + 1,
        scale=scale_of(mm, terms=job.setting.terms),
        title=f"{NAME}: {job.heading.title}, {tile.name}", desc=tile.says,
    )  # fmt: skip
