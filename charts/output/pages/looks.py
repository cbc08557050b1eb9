"""How the rows of a chart look, packed small: every glyph once, and a row as the steps from one glyph to the next.

A step is what a walker does who looks along the row: so far ahead, so far aside, turned so much. Rows that lie in an
arc or in sectors take the same steps again and again, and so do straight ones; steps that come again are told once.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import field

from hookfold.symbols import Mark
from hookfold.symbols.ink import Point

from ...layout.placing.ink import mark_of
from ...layout.placing.placed import Spot
from ...made_late import dataclass
from ...setting import ScForm

#: Units of a page to a stitch width, and to a degree.
PER_STITCH, PER_DEGREE = 100, 10
#: How far a glyph may be drawn from its place so that a step can be taken again, in those units: no eye sees it.
NEAR, NEAR_TURN = 1.2, 1.5
#: How far the points of a glyph may be from those of one that is drawn in its place, in units.
ALIKE = 1.6
#: The longest run of steps that is looked for as coming again, and the steps of a kind that are tried.
_LONGEST, _TRIED = 64, 12

#: A glyph about its own place: the commands of its strokes, a bar, those of its fills; and all points in turn.
Shape = tuple[str, tuple[int, ...]]
Step = tuple[int, int, int, int]


@dataclass(slots=True)
class Looks:
    """The glyphs, steps and rows of one chart. `glyphs` are (strokes, fills) as relative path data about the glyph's
    own place, for the right hand and, where they differ, for the left; `rows` are made of steps, see `packed`."""

    sc_form: ScForm = "plus"
    glyphs: list[tuple[str, ...]] = field(default_factory=list)
    steps: list[Step] = field(default_factory=list)
    rows: list[list[int]] = field(default_factory=list)
    _glyph_at: dict[tuple[Shape, Shape], int] = field(default_factory=dict)
    _alike: dict[tuple[str, str], list[tuple[tuple[int, ...], int]]] = field(default_factory=dict)
    _step_at: dict[Step, int] = field(default_factory=dict)
    _of_glyph: dict[int, list[int]] = field(default_factory=dict)
    _row_at: dict[tuple[int, ...], int] = field(default_factory=dict)

    def row(self, spots: Sequence[Spot], left: Sequence[Spot]) -> int:
        """The place in `rows` of a row's look: its spots and, one for one, the same for the left hand."""
        walker = _Walker(self)
        other = {spot.item: spot for spot in left}
        for spot in sorted(spots, key=lambda s: s.item):
            walker.fill_to(spot.item)
            walker.to(spot, other[spot.item])
        found = packed(walker.taken)
        if tuple(found) not in self._row_at:
            self._row_at[tuple(found)] = len(self.rows)
            self.rows.append(found)
        return self._row_at[tuple(found)]

    def glyph(self, right: Shape, left: Shape) -> int:
        """The place in `glyphs` of a glyph as both hands see it, or of one that no eye tells from it."""
        key = (right, left)
        if key not in self._glyph_at:
            self._glyph_at[key] = self._glyph_like(right, left)
        return self._glyph_at[key]

    def _glyph_like(self, right: Shape, left: Shape) -> int:
        points = (*right[1], *left[1])
        known = self._alike.setdefault((right[0], left[0]), [])
        for other, at in known:
            if len(other) == len(points) and all(abs(a - b) <= ALIKE for a, b in zip(points, other, strict=True)):
                return at
        known.append((points, len(self.glyphs)))
        self.glyphs.append(path_of(right) if right == left else (*path_of(right), *path_of(left)))
        return len(self.glyphs) - 1

    def tried(self, glyph: int) -> Sequence[int]:
        """The steps to a glyph that were taken last, the latest first."""
        return self._of_glyph.get(glyph, [])[::-1]

    def step(self, step: Step) -> int:
        """The place in `steps` of a step."""
        if step not in self._step_at:
            self._step_at[step] = len(self.steps)
            self.steps.append(step)
        at = self._step_at[step]
        known = [k for k in self._of_glyph.get(step[0], []) if k != at]
        self._of_glyph[step[0]] = [*known[-_TRIED + 1 :], at]
        return at


class _Walker:
    """Goes along a row, and is where the page will be that takes the same steps."""

    def __init__(self, looks: Looks) -> None:
        self._looks = looks
        self.x = self.y = self.turn = 0.0
        self.taken: list[int] = []

    def fill_to(self, item: int) -> None:
        """Stand still for the items that are not drawn, so that the steps count the items."""
        while len(self.taken) < item:
            self._take(self._looks.step((self._looks.glyph(("|", ()), ("|", ())), 0, 0, 0)))

    def to(self, spot: Spot, left: Spot) -> None:
        """Go to a spot."""
        turn = round(spot.angle_deg * PER_DEGREE) / PER_DEGREE
        glyph = self._looks.glyph(
            shape_of(mark_of(spot, self._looks.sc_form), spot.head, turn),
            shape_of(mark_of(left, self._looks.sc_form), left.head, -turn),
        )
        x, y = spot.head[0] * PER_STITCH, spot.head[1] * PER_STITCH
        for tried in self._looks.tried(glyph):
            at = self._after(self._looks.steps[tried])
            near = math.hypot(at[0] - x, at[1] - y) <= NEAR
            if near and abs(at[2] - turn * PER_DEGREE) <= NEAR_TURN:
                self._take(self._looks.step(self._looks.steps[tried]))
                return
        ahead = math.radians(self.turn / PER_DEGREE)
        dx, dy = x - self.x, y - self.y
        forward = round(dx * math.cos(ahead) + dy * math.sin(ahead))
        aside = round(dy * math.cos(ahead) - dx * math.sin(ahead))
        self._take(self._looks.step((glyph, forward, aside, round(turn * PER_DEGREE - self.turn))))

    def _after(self, step: Step) -> tuple[float, float, float]:
        _, forward, aside, turned = step
        ahead = math.radians(self.turn / PER_DEGREE)
        return (
            self.x + forward * math.cos(ahead) - aside * math.sin(ahead),
            self.y + forward * math.sin(ahead) + aside * math.cos(ahead),
            self.turn + turned,
        )

    def _take(self, at: int) -> None:
        self.x, self.y, self.turn = self._after(self._looks.steps[at])
        self.taken.append(at)


def shape_of(mark: Mark, about: Point, turned_deg: float) -> Shape:
    """A mark about a point, turned back to level."""
    turn = math.radians(-turned_deg)
    cos, sin = math.cos(turn), math.sin(turn)
    commands: list[str] = []
    numbers: list[int] = []
    for paths in (mark.strokes, mark.fills):
        for command, points in (step for path in paths for step in path):
            commands.append(command)
            for px, py in points:
                x, y = px - about[0], py - about[1]
                numbers += [round((x * cos - y * sin) * PER_STITCH), round((x * sin + y * cos) * PER_STITCH)]
        commands.append("|")
    return "".join(commands)[:-1], tuple(numbers)


#: How many numbers follow a command.
_TAKES = {"M": 2, "L": 2, "Q": 4, "C": 6, "Z": 0}


def path_of(shape: Shape) -> tuple[str, str]:
    """A shape as path data, strokes and fills, every step relative and the first to where the pen is.

    >>> path_of(("ML|", (0, -5, 0, 20)))
    ('m0-5l0 25', '')
    """
    numbers = iter(shape[1])
    out = []
    for commands in shape[0].split("|"):
        parts: list[str] = []
        here = start = (0, 0)
        for command in commands:
            taken = [next(numbers) for _ in range(_TAKES[command])]
            points = list(zip(taken[::2], taken[1::2], strict=True))
            parts.append(command.lower() + " ".join(f"{x - here[0]} {y - here[1]}" for x, y in points))
            here = points[-1] if points else start
            start = here if command == "M" else start
        out.append("".join(parts).replace(" -", "-"))
    return out[0], out[1]


def packed(taken: Sequence[int]) -> list[int]:
    """Numbers with what comes again told once: -n, k after n of them says that these n come k times more.

    >>> packed([7, 1, 2, 1, 2, 1, 2, 5])
    [7, 1, 2, -2, 2, 5]
    """
    out: list[int] = []
    at = 0
    while at < len(taken):
        size, more = _block(taken, at)
        out += taken[at : at + size]
        if more:
            out += [-size, more]
        at += size * (more + 1)
    return out


def _block(taken: Sequence[int], at: int) -> tuple[int, int]:
    """The block from `at` that saves most by being told once, and how often it comes again; (1, 0) for none."""
    best, saved = (1, 0), 2
    for size in range(1, min(_LONGEST, (len(taken) - at) // 2) + 1):
        if taken[at] != taken[at + size]:
            continue
        more = 0
        block = list(taken[at : at + size])
        while block == list(taken[at + size * (more + 1) : at + size * (more + 2)]):
            more += 1
        if size * more > saved:
            best, saved = (size, more), size * more
    return best


def unpacked(row: Sequence[int]) -> list[int]:
    """The numbers that were packed.

    >>> unpacked([7, 1, 2, -2, 2, 5])
    [7, 1, 2, 1, 2, 1, 2, 5]
    """
    out: list[int] = []
    numbers = iter(row)
    for number in numbers:
        if number < 0:
            out += out[number:] * next(numbers)
        else:
            out.append(number)
    return out

