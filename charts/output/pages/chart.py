"""The chart of a page: every row's look, where it lies, and the number beside it, for both hands."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from hookfold.symbols import PEN, extent

from ...layout.chart.condense import Folded, fold_rows
from ...layout.chart.key import Entry, entries
from ...layout.chart.view import whole_view_of
from ...layout.labels.round_numbers import number_places
from ...layout.placing.laid import Course
from ...layout.placing.placed import Laid, Spot
from ...layout.rounds.lay import lay_for_both_hands
from ...layout.shapes.found import Shape, fabric_shape
from ...layout.shapes.ring import LaidRounds, mirrored
from ...layout.sheets.chart_setting import all_drawable_or_raise
from ...layout.sheets.seen import as_seen
from ...made_late import dataclass
from ...model.cloth.fabric import Fabric
from ...setting import Seen, Setting, Terms
from .looks import PER_STITCH, Looks, path_of, shape_of

#: How wrong-side rows are drawn.
SEEN: Seen = "right-side"
#: A row's look for the right hand and for the left, the same number where the left is the right seen in a mirror.
Look = tuple[int, int]


@dataclass(frozen=True, slots=True)
class PageChart:
    """A chart as a page needs it.

    `shape` is "rows", "rounds" or "turned" (rows about a corner or a ring); `looks` has each different row once;
    `row_looks` says which of them a row of the fabric has, and `rises` how high it lifts the next (0 where rows do not
    lie level), in units; `labels` are the places of rounds' numbers for both hands. `ground` is the look of what the
    first row is worked on, `again` that of a round drawn once more where the work closes again. `spots` are all things
    drawn, for the key, and `drawn` the fabric as it is drawn.
    """

    shape: str
    looks: Looks
    ground: Look
    row_looks: tuple[Look, ...]
    rises: tuple[int, ...]
    labels: tuple[tuple[int, int, int, int], ...]
    spots: tuple[Spot, ...]
    drawn: Fabric
    again: Look | None = None


def page_chart(fabric: Fabric) -> PageChart:
    """The whole chart of a fabric; TooMuchToDraw where it has more stitches than can be drawn."""
    all_drawable_or_raise(fabric)
    fabric = as_seen(fabric, SEEN)
    shape = fabric_shape(fabric, large=True)
    if fabric.rows[0].is_round or shape:
        return _about_a_centre(fabric, shape)
    laid = whole_view_of(fabric, Setting(extent="full")).laid
    looks = Looks()
    seen: dict[int, int] = {}

    def look_of(row: Laid) -> Look:
        if id(row) not in seen:
            seen[id(row)] = looks.row(row.spots, [spot.mirrored() for spot in row.spots])
        return seen[id(row)], seen[id(row)]

    courses: Sequence[Course] = laid.courses
    return PageChart(
        "rows", looks, look_of(laid.foundation), tuple(look_of(c.laid) for c in courses),
        tuple(round(c.laid.rise * PER_STITCH) for c in courses), (),
        (*laid.foundation.spots, *(s for row in {id(c.laid): c.laid for c in courses}.values() for s in row.spots)),
        fabric,
    )  # fmt: skip


def _about_a_centre(fabric: Fabric, shape: Shape | None) -> PageChart:
    """Rounds and rows that turn: rows worked alike over and over are drawn once, as on the printed chart."""
    whole = shape is not None and not shape.nested
    folded = Folded(fabric, tuple(range(len(fabric.rows))), ()) if whole else fold_rows(fabric)
    right, left = _laid(folded.fabric, shape)
    looks = Looks()
    drawn = [_both(looks, one.laid, other.laid) for one, other in zip(right.rings, left.rings, strict=True)]
    again = _both(looks, right.again.laid, left.again.laid) if right.again and left.again else None
    at = _drawn_at(len(fabric.rows), {(f.first, f.rows): f.times for f in folded.folds}, len(folded.origin))
    labels = [
        tuple(round(v * PER_STITCH) for v in (*one, *other))
        for one, other in zip(number_places(right), number_places(left), strict=True)
    ]
    return PageChart(
        "turned" if shape else "rounds", looks, _both(looks, right.centre, left.centre),
        tuple(drawn[k] for k in at), (0,) * len(at),
        tuple((labels[k][0], labels[k][1], labels[k][2], labels[k][3]) for k in at),
        tuple(right.spots), fabric, again,
    )  # fmt: skip


def _laid(fabric: Fabric, shape: Shape | None) -> tuple[LaidRounds, LaidRounds]:
    if shape is None:
        return lay_for_both_hands(fabric)
    laid = shape.lay(fabric)
    return laid, mirrored(laid)


def _both(looks: Looks, right: Laid, left: Laid) -> Look:
    """A row's look; with one of its own for the left hand where that is not the mirror image."""
    pairs = zip(right.spots, left.spots, strict=True)
    if all(_is_mirrored(one, other) for one, other in pairs):
        both = looks.row(right.spots, left.spots)
        return both, both
    turned = [spot.mirrored() for spot in left.spots]
    return looks.row(right.spots, [s.mirrored() for s in right.spots]), looks.row(turned, left.spots)


def _is_mirrored(one: Spot, other: Spot) -> bool:
    """Whether a spot is another seen in a mirror, as near as it is drawn."""
    (x, y), (a, b) = one.head, other.head
    return one.item == other.item and abs(x + a) < 0.012 and abs(y - b) < 0.012 and _turns(one, other)


def _turns(one: Spot, other: Spot) -> bool:
    off = (one.angle_deg + other.angle_deg) % 360.0
    return min(off, 360.0 - off) < 0.2


def _drawn_at(rows: int, folds: Mapping[tuple[int, int], int], shown: int) -> list[int]:
    """Which drawn row each row of the whole is."""
    out: list[int] = []
    starts = {first: (size, times) for (first, size), times in folds.items()}
    at = 0
    while at < shown:
        size, times = starts.get(at, (1, 1))
        out += list(range(at, at + size)) * times
        at += size
    assert len(out) == rows
    return out


@dataclass(frozen=True, slots=True)
class KeyLine:
    """A line of the key: the glyph as path data with its box, and the names in both terms."""

    shape: tuple[str, str]
    box: tuple[int, int, int, int]
    short: tuple[str, str]
    name: tuple[str, str]
    words: tuple[str, str]


def key_lines(spots: Sequence[Spot], words: Mapping[Terms, Mapping[str, str]]) -> list[KeyLine]:
    """The key of what is drawn, low stitches first, in both terms."""
    us, uk = (entries(spots, terms, words[terms]) for terms in ("US", "UK"))
    return [_key_line(one, other) for one, other in zip(us, uk, strict=True)]


def _key_line(us: Entry, uk: Entry) -> KeyLine:
    left, top, right, bottom = extent(us.mark)
    box = tuple(round(v * PER_STITCH) for v in (left - PEN, top - PEN, right + PEN, bottom + PEN))
    return KeyLine(
        path_of(shape_of(us.mark, (0.0, 0.0), 0.0)), (box[0], box[1], box[2], box[3]),
        (us.short, uk.short), (us.name, uk.name), (us.words, uk.words),
    )  # fmt: skip
