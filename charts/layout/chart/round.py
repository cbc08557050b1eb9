"""The chart of work that is drawn in its own shape: rounds, rows about a ring, mitres; on one page or over several."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from ...drawing.display import Document, Group, Ink, Sheet, Text
from ...drawing.letters import cap_height, text_width
from ...drawing.style import style
from ...model.cloth.fabric import Fabric
from ...setting import ChartSetting, Heading, Setting
from ..placing.ink import inked, row_inks
from ..placing.placed import Laid
from ..rounds.lay import lay_rounds
from ..shapes.mitre import Mitre
from ..shapes.mitre_rows import edges_of, lay_mitre
from ..shapes.ring import LaidRounds, Ring, mirrored
from ..shapes.wedge import Wedge
from ..shapes.wedge_rows import lay_wedge
from ..sheets.chart_setting import (
    ABOVE_MM,
    BELOW_MM,
    BEST_MM,
    LEAST_MM,
    LEAST_ROUND_MM,
    NAME,
    OVER,
    PALE,
    TILE_MM,
    WHOLE_MM,
    lit_words,
    scale_of,
    shown_or_raise,
)
from ..sheets.page import DARK, QUIET, Frame, finish, own_page, page
from .condense import Folded, fold_rows
from .key import Entry, entries
from .margins import Colour
from .notes import notes
from .picture import SIDES, counts_in_words, made_in_words
from .reading import side_words
from .round_parts import OVERLAP, Part, inside, parts_of_sheet
from .round_words import mitre_sentences, round_sentences, wedge_sentences
from .row_numbers import WedgeLabels, beyond, edge_labels, label_items, wedge_labels

Item = Ink | Text | Group
#: The shape of rows that are worked to and fro.
Shape = Wedge | Mitre
#: The size of a round's number, and the most and the least of it against a stitch.
NUMBER_MM = 2.5
#: Half the ink across a chain of a ring, in stitch widths, with a little white.
RING_INK = 0.28


@dataclass(frozen=True, slots=True)
class _Job:
    """Everything one chart in rounds is made from."""

    heading: Heading
    setting: Setting
    extra: ChartSetting
    folded: Folded
    laid: LaidRounds
    colours: Mapping[str, Colour]
    entries: Sequence[Entry]
    tones: tuple[str, str]
    shape: Shape | None = None

    @property
    def word(self) -> str:
        """What one of its rounds is called."""
        return "row" if self.shape else "round"

    @property
    def by_side(self) -> bool:
        """Whether the tones tell the sides apart; else odd rounds from even ones."""
        return any(r.worked.side == "WS" for r in self.laid.rings)

    def tone(self, ring: Ring) -> str:
        """The ink of a round; where one is lit up, the others are pale."""
        if self.extra.lit_row and ring.worked.number != self.extra.lit_row:
            return PALE
        second = ring.worked.side == "WS" if self.by_side else ring.index % 2 == 1
        return self.tones[second]


def round_document(
    fabric: Fabric,
    heading: Heading,
    setting: Setting,
    colours: Mapping[str, Colour],
    words: Mapping[str, str],
    extra: ChartSetting,
    shape: Shape | None = None,
) -> Document:
    """The chart of work in rounds; with a `shape`, of rows to and fro that have this one."""
    job = _job(fabric, heading, setting, colours, words, extra, shape)
    shown_or_raise(extra.lit_row, [r.worked.number for r in job.laid.rings], job.word)
    frame = page(heading, setting, name=NAME)
    stitch_mm = fit_mm(job, frame)
    least = LEAST_MM if shape else LEAST_ROUND_MM
    sheets = [_sheet(job, frame, stitch_mm)] if stitch_mm >= least else _tiled(job, frame)
    whole = _whole(job, WHOLE_MM if len(sheets) > 1 else stitch_mm)
    return Document(tuple(sheets), heading.title, heading.author, heading.licence, whole=whole)


def _whole(job: _Job, mm: float) -> Sheet:
    """All rounds on one sheet of its own size, a stitch `mm` wide."""
    left, top, right, bottom = box_of(job.laid)
    labels = _labels(job, mm)
    a, b, c, d = beyond(labels, box_of(job.laid), mm)
    wide, high = (right - left) * mm + a + c, (bottom - top) * mm + b + d
    frame = own_page(job.heading, job.setting, name=NAME, width=wide, height=high)
    high += ABOVE_MM + BELOW_MM + _notes(job, frame, 0.0, labels)[1]
    frame = own_page(job.heading, job.setting, name=NAME, width=wide, height=high)
    return _sheet(job, frame, mm)


def _job(
    fabric: Fabric,
    heading: Heading,
    setting: Setting,
    colours: Mapping[str, Colour],
    words: Mapping[str, str],
    extra: ChartSetting,
    shape: Shape | None,
) -> _Job:
    folded = fold_rows(fabric)
    if setting.extent == "full":
        folded = Folded(fabric, tuple(range(len(fabric.rows))), ())
    laid = _laid(folded.fabric, shape, setting)
    key = entries(laid.spots, setting.terms, words, setting.sc_form)
    used = {r.worked.colour for r in laid.rings}
    look = style(mono=setting.tone == "mono")
    shown = {k: c for k, c in colours.items() if k in used}
    return _Job(heading, setting, extra, folded, laid, shown, key, (look.right_side, look.wrong_side), shape)


def _laid(fabric: Fabric, shape: Shape | None, setting: Setting) -> LaidRounds:
    """The fabric as the reader's hand works it."""
    if shape is None:
        return lay_rounds(fabric, setting.hand)
    laid = lay_mitre(fabric, shape) if isinstance(shape, Mitre) else lay_wedge(fabric, shape)
    return mirrored(laid) if setting.hand == "left" else laid


def fit_mm(job: _Job, frame: Frame) -> float:
    """The size of a stitch at which the whole round, its labels and its notes fit on the page.

    Labels keep their size, so they are laid at each size found; not where the stitches alone are too many.
    """
    mm = _fitting(job, frame, None, BEST_MM)
    for _ in range(2 if job.shape else 0):
        if mm >= LEAST_MM:
            mm = _fitting(job, frame, _labels(job, mm), mm)
    return mm


def _fitting(job: _Job, frame: Frame, labels: WedgeLabels | None, most: float) -> float:
    """The size up to `most` at which everything fits about these labels, which were laid at that size."""
    left, top, right, bottom = box_of(job.laid)
    a, b, c, d = beyond(labels, box_of(job.laid), most)
    high = frame.content_height - _notes(job, frame, 0.0, labels)[1] - ABOVE_MM - BELOW_MM
    return min(most, (frame.content_width - a - c) / (right - left), (high - b - d) / (bottom - top))


def _labels(job: _Job, mm: float) -> WedgeLabels | None:
    """The numbers of rows to and fro at a size of the stitches; None in rounds, whose numbers stand among them."""
    if job.shape is None:
        return None
    hand, counts = job.setting.hand, job.extra.counts
    if isinstance(job.shape, Wedge):
        return wedge_labels(job.laid, job.shape, hand, mm, counts=counts)
    begun = f"ch {job.folded.fabric.chains}"
    return edge_labels(job.laid, edges_of(job.shape), hand, mm, counts=counts, begun=begun)


def box_of(laid: LaidRounds) -> tuple[float, float, float, float]:
    """Everything in the rounds, ink included, in stitch widths."""
    points = [p for s in laid.spots for p in (s.head, *((x, y) for x, y, _ in s.ovals), *s.feet)]
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    over = OVER + 0.2
    return min(xs) - over, min(ys) - over, max(xs) + over, max(ys) + over


def _sheet(job: _Job, frame: Frame, stitch_mm: float) -> Sheet:
    left, top, right, bottom = box_of(job.laid)
    labels = _labels(job, stitch_mm)
    a, b, c, d = beyond(labels, box_of(job.laid), stitch_mm)
    x = (frame.content[0] + frame.content[2] + a - c) / 2.0 - (left + right) / 2.0 * stitch_mm
    y = frame.content[1] + ABOVE_MM + b - top * stitch_mm
    items = _rounds(job, x, y, stitch_mm, labels)
    block, _ = _notes(job, frame, y + bottom * stitch_mm + d + BELOW_MM, labels)
    return finish(
        frame,
        job.heading,
        [*items, block],
        number=1,
        of=1,
        scale=scale_of(stitch_mm),
        title=f"{NAME}: {job.heading.title}",
        desc=_describe(job),
    )


def _describe(job: _Job) -> str:
    rings = job.laid.rings
    drawn = f"Stitch chart of {len(rings)} {job.word}s, from {rings[0].worked.label} to {rings[-1].worked.label}."
    return f"{drawn} {made_in_words(r.worked for r in rings)}"


def _rounds(
    job: _Job, x: float, y: float, mm: float, labels: WedgeLabels | None, window: Part | None = None
) -> list[Item]:
    """The centre and every round as a group, and their numbers."""
    form = job.setting.sc_form
    centre = row_inks(inside(job.laid.centre.spots, window), mm, form)
    name = "foundation" if isinstance(job.shape, Mitre) else "centre"
    ground = PALE if job.extra.lit_row else job.tones[0]
    items: list[Item] = [Group(name, inked(centre, x, y, mm, ground, name), name.capitalize())]
    if says := _ring_says(job.laid.centre, mm):
        items.append(
            Text(x, y + cap_height(NUMBER_MM) / 2.0, says, NUMBER_MM, "middle", colour=QUIET, name="ring")
        )
    if job.laid.again:
        name = f"{ring_name(job.laid.again)} again"
        inks = inked(row_inks(inside(job.laid.again.laid.spots, window), mm, form), x, y, mm, PALE, name)
        items.append(Group(name, inks, f"{ring_title(job.laid.again)}, once more"))
    for ring in job.laid.rings:
        name = ring_name(ring, job.word)
        kinds = row_inks(inside(ring.laid.spots, window), mm, form)
        inks = inked(kinds, x, y, mm, job.tone(ring), name)
        items.append(Group(name, inks, ring_title(ring), counts_in_words(ring.worked.row)))
    if labels:
        here = [t for t in labels.labels if window is None or window.holds((t.at[0] / mm, t.at[1] / mm))]
        return [*items, label_items(here, x, y)]
    return [*items, _round_numbers(job, x, y, mm, window)]


def _round_numbers(job: _Job, x: float, y: float, mm: float, window: Part | None) -> Group:
    """The numbers of the rounds that begin in a window."""
    shown = [ring for ring in job.laid.rings if window is None or window.holds(ring.label)]
    numbers = tuple(_number(ring, x, y, mm, lettered=len(job.colours) > 1) for ring in shown)
    return Group("round numbers", numbers, "Round numbers, each where its round begins")


def _ring_says(centre: Laid, mm: float) -> str:
    """What is written inside a ring of chains, where there is room: how many they are."""
    spot = centre.spots[0]
    if spot.role != "ring" or not spot.ovals:
        return ""
    says = f"ch {spot.chains}"
    room = 2.0 * (math.hypot(*spot.ovals[0][:2]) - RING_INK) * mm
    return says if math.hypot(text_width(says, NUMBER_MM), NUMBER_MM * 0.75) < room else ""


def ring_name(ring: Ring, word: str = "round") -> str:
    """The id of a round, or of a row."""
    number = ring.worked.number
    return f"{word}-{number}" if number else f"{word}-unnumbered-{ring.index + 1}"


def ring_title(ring: Ring) -> str:
    """What a screen reader says of a round."""
    made = ring.worked.row.made
    stitches = f"{made} stitch{'' if made == 1 else 'es'}"
    return f"{ring.worked.label}, {SIDES.get(ring.worked.side, ring.worked.side)}, {stitches}"


def _number(ring: Ring, x: float, y: float, mm: float, *, lettered: bool) -> Text:
    """A round's number, upright, centred before its first stitch, with the letter of its colour where they change."""
    size = NUMBER_MM
    at_y = y + ring.label[1] * mm + cap_height(size) / 2.0
    words = str(ring.worked.number or ring.index + 1)
    if lettered and ring.worked.colour:
        words += f" {ring.worked.colour}"
    return Text(x + ring.label[0] * mm, at_y, words, size, "middle", "bold", DARK, name="round number")


def _notes(job: _Job, frame: Frame, top: float, labels: WedgeLabels | None) -> tuple[Group, float]:
    names = ("right-side", "wrong-side") if job.by_side else ("odd", "even")
    shown = [(tone, f"{name} {job.word}s") for tone, name in zip(job.tones, names, strict=True)]
    if len(job.laid.rings) < 2:
        shown = shown[:1]
    box = (frame.content[0], top, frame.content_width)
    return notes(job.entries, _sentences(job, labels), shown, _coloured(job), box)


def _coloured(job: _Job) -> dict[str, Colour]:
    """Each colour with the rounds that are worked in it."""
    found = {}
    for key, colour in job.colours.items():
        numbers = [str(r.worked.number) for r in job.laid.rings if r.worked.colour == key]
        words = f"{job.word}{'s' if len(numbers) > 1 else ''} {', '.join(numbers)}"
        found[key] = Colour(f"{colour.name} ({words})", colour.hex)
    return found


def _sentences(job: _Job, labels: WedgeLabels | None) -> list[str]:
    """How to read this chart."""
    lit = [lit_words(job.extra.lit_row, job.word)] if job.extra.lit_row else []
    seen = side_words((ring.worked for ring in job.laid.rings), job.setting.seen)
    return [*_reading(job, labels), *seen, *lit]


def _reading(job: _Job, labels: WedgeLabels | None) -> list[str]:
    hand, terms, counts = job.setting.hand, job.setting.terms, job.extra.counts
    if job.shape and labels:
        counted = labels.counted
        if isinstance(job.shape, Mitre):
            return mitre_sentences(job.laid, hand, terms, counts=counts, counted=counted)
        return wedge_sentences(job.laid, job.shape, job.folded, hand, terms, counts=counts, counted=counted)
    return round_sentences(job.laid, job.folded, hand, terms, counts=counts)


def _tiled(job: _Job, frame: Frame) -> list[Sheet]:
    """A sheet of notes, then the parts from the top left."""
    margin = 2.0
    wide = frame.content_width / TILE_MM - 2 * margin
    high = (frame.content_height - 8.0) / TILE_MM - 2 * margin
    labels = _labels(job, TILE_MM)
    left, top, right, bottom = box_of(job.laid)
    a, b, c, d = (side / TILE_MM for side in beyond(labels, box_of(job.laid), TILE_MM))
    windows = parts_of_sheet((left - a, top - b, right + c, bottom + d), wide, high)
    of = len(windows) + 1
    block, _ = _notes(job, frame, frame.content[1], labels)
    scale, title = scale_of(TILE_MM), f"{NAME}: {job.heading.title}"
    sheets = [
        finish(frame, job.heading, [block], number=1, of=of, scale=scale, title=title, desc=_describe(job))
    ]
    for window, name in windows:
        sheets.append(_part(job, frame, labels, window, name, len(sheets) + 1, of, margin))
    return sheets


def _part(
    job: _Job, frame: Frame, labels: WedgeLabels | None, window: Part, name: str, number: int, of: int,
    margin: float,
) -> Sheet:  # fmt: skip
    x = frame.content[0] + (margin - window.left) * TILE_MM
    y = frame.content[1] + 8.0 + (margin - window.top) * TILE_MM
    says = (
        f"{name}: rows of parts run down 1, 2, 3, parts across A, B, C; neighbours share {OVERLAP:g} stitches"
    )
    items: list[Item] = [
        Text(frame.content[0], frame.content[1] + 3.0, says, NUMBER_MM, weight="bold", colour=DARK)
    ]
    items += _rounds(job, x, y, TILE_MM, labels, window)
    return finish(
        frame, job.heading, items, number=number, of=of, scale=scale_of(TILE_MM),
        title=f"{NAME}: {job.heading.title}, {name}",
    )  # fmt: skip
