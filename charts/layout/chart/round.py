"""The chart of work that is drawn in its own shape: rounds, rows about a ring, mitres; on one page or over several."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping, Sequence
from dataclasses import field

from hookfold.symbols import Point

from ...drawing.display import Document, Group, Ink, Sheet, Text
from ...drawing.letters import cap_height, text_width
from ...drawing.style import style
from ...made_late import dataclass
from ...model.cloth.fabric import Fabric
from ...model.cloth.yarns import changes_within, yarns_in
from ...setting import ChartSetting, Heading, Setting
from ..labels.among import Labels, Wanted, labels_of
from ..labels.label import Box, beyond, label_items
from ..labels.yarn_marks import mark_group, unmarked
from ..placing.ink import inked, row_inks
from ..placing.placed import Laid
from ..rounds.lay import lay_rounds
from ..shapes.found import Shape
from ..shapes.ring import BETWEEN, LaidRounds, Ring, mirrored
from ..sheets.apart import stitch_groups
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
    lit_words,
    scale_of,
    shown_or_raise,
    whole_mm,
)
from ..sheets.page import DARK, QUIET, Frame, finish, own_page, page
from .condense import Folded, fold_rows
from .key import Entry, entries, mark_entries, with_wrong_sides
from .margins import Colour
from .notes import notes
from .picture import SIDES, counts_in_words, made_in_words
from .reading import side_words
from .round_parts import OVERLAP, Part, inside, parts_of_sheet
from .round_words import round_sentences, shape_sentences
from .yarn_grounds import SAID, grounds, told

Item = Ink | Text | Group
#: The size of a round's number, and the most and the least of it against a stitch.
NUMBER_MM = 2.5
#: Half the ink across a chain of a ring, in stitch widths, with a little white.
RING_INK = 0.28
#: What is said of thin lines from numbers.
LED = "Where a number stands apart, a thin line leads from it to where its round begins."
#: What numbers and marks may take up beyond the stitches of rounds, in mm.
AROUND_MM = 2.6



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
    labelled: dict[float, Labels] = field(default_factory=dict)

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
    one_page = stitch_mm >= least
    return Document(
        lambda: [_sheet(job, frame, stitch_mm)] if one_page else _tiled(job, frame),
        heading.title, heading.author, heading.licence,
        whole=lambda: _whole(job, stitch_mm if one_page else _whole_mm(job)),
    )  # fmt: skip


def _whole(job: _Job, mm: float) -> Sheet:
    """All rounds on one sheet of its own size, a stitch `mm` wide."""
    return _sheet(job, _own_frame(job, mm, _labels(job, mm)), mm)


def _whole_mm(job: _Job) -> float:
    """How large a stitch is on that sheet where the rounds are too large for a page, with labels as on the smallest."""
    labels = _labels(job, LEAST_MM)

    def size_at(mm: float) -> tuple[float, float]:
        frame = _own_frame(job, mm, labels)
        return frame.width, frame.height

    return whole_mm(job.setting.paper, size_at)


def _own_frame(job: _Job, mm: float, labels: Labels) -> Frame:
    left, top, right, bottom = box_of(job.laid)
    a, b, c, d = _around(job, labels, mm)
    wide, high = (right - left) * mm + a + c, (bottom - top) * mm + b + d
    frame = own_page(job.heading, job.setting, name=NAME, width=wide, height=high)
    high += ABOVE_MM + BELOW_MM + _notes(job, frame, 0.0, labels)[1]
    return own_page(job.heading, job.setting, name=NAME, width=wide, height=high)


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
    if setting.extent == "full" or (shape and not shape.nested):
        folded = Folded(fabric, tuple(range(len(fabric.rows))), ())
    laid = _laid(folded.fabric, shape, setting)
    drawn = entries(laid.spots, setting.terms, words, setting.sc_form)
    key = with_wrong_sides(drawn, [ring.worked for ring in laid.rings], setting.seen, setting.terms)
    used = yarns_in(r.worked for r in laid.rings)
    look = style(mono=setting.tone == "mono")
    shown = {k: c for k, c in colours.items() if k in used}
    return _Job(heading, setting, extra, folded, laid, shown, key, (look.right_side, look.wrong_side), shape)


def _laid(fabric: Fabric, shape: Shape | None, setting: Setting) -> LaidRounds:
    """The fabric as the reader's hand works it."""
    if shape is None:
        return lay_rounds(fabric, setting.hand)
    laid = shape.lay(fabric)
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


def _fitting(job: _Job, frame: Frame, labels: Labels | None, most: float) -> float:
    """The size up to `most` at which everything fits about these labels, which were laid at that size."""
    left, top, right, bottom = box_of(job.laid)
    a, b, c, d = _around(job, labels, most)
    high = frame.content_height - _notes(job, frame, 0.0, labels)[1] - ABOVE_MM - BELOW_MM
    return min(most, (frame.content_width - a - c) / (right - left), (high - b - d) / (bottom - top))


def _around(job: _Job, labels: Labels | None, mm: float) -> Box:
    """What labels need beyond the stitches on the left, above, on the right and below, in mm."""
    if job.shape is None:
        return (AROUND_MM, AROUND_MM, AROUND_MM, AROUND_MM)
    return beyond(labels.boxes if labels else (), box_of(job.laid), mm)


def _labels(job: _Job, mm: float) -> Labels:
    """What stands among the stitches where one is `mm` wide: in rounds among them, of rows to and fro at the edges."""
    if mm not in job.labelled:
        left, top, right, bottom = (side * mm for side in box_of(job.laid))
        bounds = (left - AROUND_MM, top - AROUND_MM, right + AROUND_MM, bottom + AROUND_MM)
        says, chains = _ring_says(job.laid.centre, mm), job.folded.fabric.chains
        taken = (text_width(says, NUMBER_MM) / 2.0, cap_height(NUMBER_MM) / 2.0) if says else None
        named = _again_says(job.laid)
        over = (*named[0], text_width(named[1], NUMBER_MM) / 2.0, cap_height(NUMBER_MM) / 2.0) if named else None
        wanted = Wanted(job.setting.hand, job.extra.counts, len(job.colours) > 1, chains, taken, job.folded.until, over)
        job.labelled[mm] = labels_of(job.laid, job.shape, wanted, mm, bounds)
    return job.labelled[mm]


def box_of(laid: LaidRounds) -> tuple[float, float, float, float]:
    """Everything in the rounds, ink included, in stitch widths."""
    points = [p for s in laid.spots for p in (s.head, *((x, y) for x, y, _ in s.ovals), *s.feet)]
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    over = OVER + 0.2
    return min(xs) - over, min(ys) - over, max(xs) + over, max(ys) + over


def _sheet(job: _Job, frame: Frame, stitch_mm: float) -> Sheet:
    left, top, right, bottom = box_of(job.laid)
    labels = _labels(job, stitch_mm)
    a, b, c, d = _around(job, labels, stitch_mm)
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
        scale=scale_of(stitch_mm, terms=job.setting.terms),
        title=f"{NAME}: {job.heading.title}",
        desc=_describe(job),
    )


def _describe(job: _Job) -> str:
    rings = job.laid.rings
    drawn = f"Stitch chart of {len(rings)} {job.word}s, from {rings[0].worked.label} to {rings[-1].worked.label}."
    return f"{drawn} {made_in_words(r.worked for r in rings)}"


def _rounds(
    job: _Job, x: float, y: float, mm: float, labels: Labels, window: Part | None = None
) -> list[Item]:
    """The centre and every round as a group, and their numbers."""
    form = job.setting.sc_form
    def inks(laid: Laid, colour: str, name: str) -> tuple[Ink | Group, ...]:
        if job.extra.stitches == "together":
            return inked(row_inks(inside(laid.spots, window), mm, form), x, y, mm, colour, name)

        def shown(head: Point) -> bool:
            return window is None or window.holds(head)

        return stitch_groups(laid.spots, shown, (x, y), mm, colour, name, form)

    name = job.shape.ground if job.shape else "centre"
    ground = PALE if job.extra.lit_row else job.tones[0]
    items: list[Item] = _yarn_grounds(job, x, y, mm, window)
    items.append(Group(name, inks(job.laid.centre, ground, name), name.capitalize()))
    if says := _ring_says(job.laid.centre, mm):
        items.append(
            Text(x, y + cap_height(NUMBER_MM) / 2.0, says, NUMBER_MM, "middle", colour=QUIET, name="ring")
        )
    if job.laid.again:
        name = f"{ring_name(job.laid.again)} again"
        drawn = inks(job.laid.again.laid, PALE, name)
        items.append(Group(name, drawn, f"{ring_title(job.laid.again)}, once more"))
        items += _again_named(job, x, y, mm, window)
    for ring in job.laid.rings:
        name = ring_name(ring, job.word)
        drawn = inks(ring.laid, job.tone(ring), name)
        items.append(Group(name, drawn, ring_title(ring), counts_in_words(ring.worked.row)))
    here = [one for one in labels.labels if window is None or window.holds((one.at[0] / mm, one.at[1] / mm))]
    marks = [one for one in labels.marks if window is None or window.holds((one.tip[0] / mm, one.tip[1] / mm))]
    tones = {ring.index: job.tone(ring) for ring in job.laid.rings}  # a number is inked as its round is
    items.append(label_items(here, x, y, job.word, tones))
    return [*items, mark_group(marks, x, y)] if marks else items


def _again_says(laid: LaidRounds) -> tuple[Point, str] | None:
    """What is said of a second figure, and where: midway between the two, which rounds close there."""
    again = laid.again
    if again is None or not all(ring.worked.number for ring in laid.rings):
        return None
    rings = [ring.worked.number for ring in laid.rings if ring.index > again.index]
    xs, top = [s.head[0] for s in again.laid.spots], min(p[1] for s in again.laid.spots for p in (s.head, *s.feet))
    which = f"rounds {rings[0]}–{rings[-1]}" if len(rings) > 1 else f"round {rings[0]}"
    return ((min(xs) + max(xs)) / 2.0, top - BETWEEN / 2.0), f"{which}, from the outside in"


def _again_named(job: _Job, x: float, y: float, mm: float, window: Part | None) -> list[Item]:
    """What the second figure is, over it."""
    found = _again_says(job.laid)
    if found is None or (window is not None and not window.holds(found[0])):
        return []
    (a, b), says = found
    down = b * mm + y + cap_height(NUMBER_MM) / 2.0
    return [Text(a * mm + x, down, says, NUMBER_MM, "middle", colour=QUIET, name="second figure")]


def _yarn_grounds(job: _Job, x: float, y: float, mm: float, window: Part | None) -> list[Item]:
    """The yarn of each stitch behind its sign, where it changes within a round."""
    if not changes_within(ring.worked for ring in job.laid.rings):
        return []
    rings = [
        (ring_name(ring, job.word), ring.worked, Laid(tuple(inside(ring.laid.spots, window)), ring.laid.rise), (x, y))
        for ring in job.laid.rings
    ]
    return [grounds(rings, job.colours, mm, desc=told([ring.worked for ring in job.laid.rings], job.colours))]


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
    word = "round" if ring.worked.is_round else word
    return f"{word}-{number}" if number else f"{word}-unnumbered-{ring.index + 1}"


def ring_title(ring: Ring) -> str:
    """What a screen reader says of a round."""
    made = ring.made
    stitches = f"{made} stitch{'' if made == 1 else 'es'}"
    if ring.blocks:
        stitches = f"{made} block{'' if made == 1 else 's'}"
    return f"{ring.worked.label}, {SIDES.get(ring.worked.side, ring.worked.side)}, {stitches}"


def _notes(job: _Job, frame: Frame, top: float, labels: Labels | None) -> tuple[Group, float]:
    names = [f"{side} {job.word}s" for side in (("right-side", "wrong-side") if job.by_side else ("odd", "even"))]
    if not job.by_side and any((r.worked.number or r.index + 1) % 2 == r.index % 2 for r in job.laid.rings):
        names = [f"one {job.word}", "the next"]
    shown = list(zip(job.tones, names, strict=True))
    if len(job.laid.rings) < 2:
        shown = shown[:1]
    box = (frame.content[0], top, frame.content_width)
    key = (*job.entries, *mark_entries(_marks(job, labels)))
    return notes(key, _sentences(job, labels), shown, _coloured(job), box)


def _marks(job: _Job, labels: Labels | None) -> list[str]:
    """The names of the marks drawn; where they are not yet laid, of all that may be."""
    if labels is not None:
        return [mark.name for mark in labels.marks]
    worked = [ring.worked for ring in job.laid.rings]
    return ["begin"] + ["join yarn"] * any(r.joins for r in worked) + ["fasten off"] * any(r.cut for r in worked)


def _coloured(job: _Job) -> dict[str, Colour]:
    """Each colour with the rounds that are worked in it."""
    found = {}
    for key, colour in job.colours.items():
        words = f"{job.word}s {_ranges(job, key)}"
        words = words if any(sign in words for sign in ",–") else words.replace("s ", " ", 1)
        found[key] = Colour(f"{colour.name} ({words})", colour.hex)
    return found


def _ranges(job: _Job, colour: str) -> str:
    """The numbers of the rounds in a colour, those that follow each other together: "1–21", "2, 5–8"."""
    worked: list[int] = []
    for ring in job.laid.rings:
        fold = next((f for f in job.folded.folds if f.first <= ring.index < f.first + f.rows), None)
        if colour in yarns_in([ring.worked]):
            step, times = (fold.rows, fold.times) if fold else (1, 1)
            worked += [ring.worked.number + step * k for k in range(times)]
    runs: list[list[int]] = []
    for number in sorted(worked):
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    return ", ".join(str(run[0]) if len(run) == 1 else f"{run[0]}–{run[-1]}" for run in runs)


def _sentences(job: _Job, labels: Labels | None) -> list[str]:
    """How to read this chart."""
    lit = [lit_words(job.extra.lit_row, job.word)] if job.extra.lit_row else []
    seen = side_words((ring.worked for ring in job.laid.rings), job.setting.seen)
    seen = [re.sub(r"\brow(s?)\b", rf"{job.word}\1", line) for line in seen]
    unsaid = unmarked(job.laid.rings, labels.marks, job.word) if labels else []
    led = [LED] if labels and any(label.leader for label in labels.labels) else []
    within = [SAID] if changes_within(ring.worked for ring in job.laid.rings) else []
    return [*_reading(job, labels), *led, *unsaid, *seen, *lit, *within, *job.extra.says]


def _reading(job: _Job, labels: Labels | None) -> list[str]:
    hand, terms, counts = job.setting.hand, job.setting.terms, job.extra.counts
    if job.shape and labels:
        counted = bool(labels.counted)
        return shape_sentences(job.laid, job.shape, job.folded, hand, terms, counts=counts, counted=counted)
    counted_rounds = labels.counted if labels else frozenset()
    return round_sentences(job.laid, job.folded, hand, terms, counts=counts, counted=counted_rounds)


def _tiled(job: _Job, frame: Frame) -> list[Sheet]:
    """A sheet of notes, then the parts from the top left."""
    margin = 2.0
    wide = frame.content_width / TILE_MM - 2 * margin
    high = (frame.content_height - 8.0) / TILE_MM - 2 * margin
    labels = _labels(job, TILE_MM)
    left, top, right, bottom = box_of(job.laid)
    a, b, c, d = (side / TILE_MM for side in _around(job, labels, TILE_MM))
    windows = parts_of_sheet((left - a, top - b, right + c, bottom + d), wide, high)
    of = len(windows) + 1
    block, _ = _notes(job, frame, frame.content[1], labels)
    scale, title = scale_of(TILE_MM, terms=job.setting.terms), f"{NAME}: {job.heading.title}"
    sheets = [
        finish(frame, job.heading, [block], number=1, of=of, scale=scale, title=title, desc=_describe(job))
    ]
    for window, name in windows:
        sheets.append(_part(job, frame, labels, window, name, len(sheets) + 1, of, margin))
    return sheets


def _part(
    job: _Job, frame: Frame, labels: Labels, window: Part, name: str, number: int, of: int,
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
        frame, job.heading, items, number=number, of=of, scale=scale_of(TILE_MM, terms=job.setting.terms),
        title=f"{NAME}: {job.heading.title}, {name}",
    )  # fmt: skip
