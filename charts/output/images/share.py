"""Images for sharing: the title, a stretch of the chart large enough to read, the colours by name, the size.

Each image comes with a text that says what it shows, for readers who cannot see it.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from statistics import mean
from typing import Literal, Protocol

from ...drawing import svg
from ...drawing.display import Group, Ink, Sheet, Text
from ...drawing.letters import fitted, text_width, wrapped
from ...drawing.style import contrast, style
from ...layout.chart.picture import Inker, Place, Window, band, picture
from ...layout.placing.clearing import ink_points
from ...layout.placing.ink import mark_of
from ...layout.placing.laid import Course, LaidFabric, mirrored
from ...layout.placing.placed import Spot
from ...layout.points.spurs import lay_flat
from ...layout.posts.rows import clasped_fabric
from ...layout.shapes.edged import without_edging
from ...layout.sheets.marks import fill, stroke
from ...layout.sheets.seen import as_seen
from ...made_late import dataclass
from ...model.cloth.fabric import Fabric
from ...model.cloth.typical import typical_rows
from ...pattern.file.records import Colour, Pattern
from ...pattern.lexicon import show_stitch
from ...setting import Heading, Setting

MM_PER_PX = 25.4 / 96.0
#: The images: name, width and height in pixels.
SHAPES: dict[str, tuple[int, int]] = {
    "square": (1080, 1080), "portrait": (1080, 1350), "tall": (1000, 1500), "wide": (1280, 720),
}  # fmt: skip
MOST_STITCHES, LEAST_STITCHES = 17, 9
#: How many widths a side may be narrower so that the cut goes between stitches.
_SHIFT = 3
MOST_ROWS = 8
#: What a row's number and arrow take beside the stretch, in stitch widths.
_LABEL = 2.1
#: The heaviest pen: an image is looked at from farther than a page.
PEN_MM = 0.9
_LOOK = style()


class Coloured(Protocol):
    """What tells the colours that are worked with."""

    @property
    def colours(self) -> tuple[Colour, ...]: ...

    @property
    def used_colours(self) -> tuple[Colour, ...]: ...


@dataclass(frozen=True, slots=True)
class Yarns:
    """The colours of a written pattern."""

    colours: tuple[Colour, ...] = ()

    @property
    def used_colours(self) -> tuple[Colour, ...]:
        return self.colours


@dataclass(frozen=True, slots=True)
class Stretch:
    """The stretch of chart shown: the laid fabric and the window on it."""

    laid: LaidFabric
    window: Window

    @property
    def courses(self) -> Sequence[Course]:
        return self.laid.courses[self.window.first : self.window.last]

    @property
    def size(self) -> tuple[float, float]:
        """Width and height in stitch widths, with half a stitch of air."""
        tops, foots = zip(*map(self.levels, self.courses), strict=True)
        top, bottom = min(tops), max(foots)
        return self.window.right - self.window.left + 2.0 * self.air, bottom - top + 0.8

    @property
    def air(self) -> float:
        """What is left beside the window: the ink of its outermost stitches with some white."""
        left, right = self.window.left, self.window.right
        outer = [
            s for c in self.courses for s in c.laid.spots
            if s.role in _STANDS and 0.0 <= min(s.head[0] - left, right - s.head[0]) < _WIDEST_HALF
        ]  # fmt: skip
        over = [max(left - low, high - right) for low, high in map(_reach, outer)]
        return max(_AIR, max(over, default=0.0) + _AIR / 2.0)

    def levels(self, course: Course, beside: float | None = None) -> tuple[float, float]:
        """How high a row's tops and its feet lie in the window, on the mean or (`beside`) where the window's edge at
        that x cuts it: a row that widens lies lower towards its ends than its rise says."""
        left, right = self.window.left, self.window.right
        here = [s for s in course.laid.spots if s.role in _STANDS and s.feet and left <= s.head[0] <= right]
        if beside is not None:
            here = sorted(here, key=lambda s: abs(s.head[0] - beside))[:2]
        if not here:
            return course.y - course.laid.rise, course.y
        low = [min(max(foot[1] for foot in s.feet), s.head[1] + course.laid.rise) for s in here]
        return course.y + mean(s.head[1] for s in here), course.y + mean(low)


#: The least white beside a stretch, how far the ink about a head reaches at most to either side of it, and how much
#: darker than the white about it the ground of a colour is at least, so that it can be seen where its rows end.
_AIR, _WIDEST_HALF, _SEEN = 0.2, 1.2, 1.15
#: What stands in a row from foot to top.
_STANDS = ("stitch", "turning", "foundation")


def charts_only(
    fabric: Fabric, pattern: Pattern, heading: Heading, setting: Setting, special: Mapping[str, str]
) -> dict[str, bytes]:
    """The square image and its description as SVG, where the system can make no PNG: the stretch of chart alone."""
    stretch = stretch_of(fabric, setting)
    wide, high = SHAPES["square"]
    sheet = image(stretch, pattern, heading, (wide * MM_PER_PX, high * MM_PER_PX))
    words = described(stretch, pattern, heading, setting, special) + "\n"
    return {"share-square.svg": svg.write(sheet), "share-square.txt": words.encode("utf-8")}


# -- which part of the chart ----------------------------------------------------------------------------------------


def stretch_of(fabric: Fabric, setting: Setting) -> Stretch:
    """The part worth showing: rows of the section with the most looks, its middle stitches; not the rounds about it."""
    fabric = without_edging(fabric)
    first, last = typical_rows(fabric, MOST_ROWS)
    laid = lay_flat(as_seen(fabric, setting.seen))
    if setting.hand == "left":
        laid = mirrored(laid)
    left, right = _columns([s for c in laid.courses[first:last] for s in c.laid.spots])
    return Stretch(clasped_fabric(laid), Window(first, last, left, right))


def _columns(spots: Sequence[Spot]) -> tuple[float, float]:
    """From where to where: a middle stretch of at most MOST_STITCHES widths, cut through as few stitches as can be."""
    heads = [spot.head[0] for spot in spots]
    low, high = min(heads), max(heads)
    if high - low + 1 <= MOST_STITCHES:
        return low - 0.5, high + 0.5
    spans = [_span(spot) for spot in spots]
    middle = round((low + high) / 2.0)
    steps = [i / 2 for i in range(2 * _SHIFT + 1)]
    left, right = middle - MOST_STITCHES / 2.0, middle + MOST_STITCHES / 2.0
    return (
        min((left + step for step in steps), key=lambda x: (_cut_through(spans, x), x)),
        min((right - step for step in steps), key=lambda x: (_cut_through(spans, x), -x)),
    )


def _span(spot: Spot) -> tuple[float, float]:
    """From where to where a stitch reaches across, its own width and its feet."""
    xs = [spot.head[0] - 0.35, spot.head[0] + 0.35, *(foot[0] for foot in spot.feet)]
    return min(xs), max(xs)


def _reach(spot: Spot) -> tuple[float, float]:
    """From where to where the ink about a stitch's head reaches."""
    xs = [x for x, _ in ink_points(mark_of(spot)) if abs(x - spot.head[0]) < _WIDEST_HALF]
    return min(xs, default=spot.head[0]), max(xs, default=spot.head[0])


def _cut_through(spans: Sequence[tuple[float, float]], x: float) -> int:
    """How many stitches a cut at x goes through."""
    return sum(1 for low, high in spans if low + 0.05 < x < high - 0.05)


# -- the picture ----------------------------------------------------------------------------------------------------


def image(stretch: Stretch, pattern: Pattern, heading: Heading, size_mm: tuple[float, float]) -> Sheet:
    """One image of `size_mm`: title above, chart in the middle, colours and size below."""
    wide, high = size_mm
    margin = min(wide, high) * 0.065
    items: list[Ink | Text | Group] = []
    top = _title(items, heading, margin, wide)
    foot = _foot(items, pattern, heading, margin, wide, high)
    items.append(chart_group(stretch, pattern, (margin, top, wide - margin, foot)))
    return Sheet(
        wide,
        high,
        heading.title,
        tuple(items),
        f"A stretch of the stitch chart of {heading.title}, its colours and its size",
        "#fbfaf7",
    )


def _title(items: list[Ink | Text | Group], heading: Heading, margin: float, wide: float) -> float:
    """The title, shrunk to fit, and who made it; the y below them."""
    room, size = wide - 2 * margin, wide * 0.062
    while text_width(heading.title, size, "bold") > room and size > wide * 0.036:
        size *= 0.95
    y = margin + size * 0.8
    for line in wrapped(heading.title, room, size, "bold")[:2]:
        items.append(Text(margin, y, line, size, weight="bold"))
        y += size * 1.15
    y -= size * 1.15
    if heading.author:
        small = wide * 0.026
        y += small * 1.75
        items.append(Text(margin, y, fitted(f"by {heading.author}", room, small), small, colour=_LOOK.quiet))
    return y + margin * 0.55


def _foot(
    items: list[Ink | Text | Group],
    pattern: Pattern,
    heading: Heading,
    margin: float,
    wide: float,
    high: float,
) -> float:
    """The colours by name and the facts, along the lower edge; the y above them."""
    small = wide * 0.024
    facts = [
        t
        for t in (
            heading.finished,
            f"{heading.gauge}, hook {heading.hook}" if heading.hook else heading.gauge,
        )
        if t
    ]
    room = wide - 2 * margin
    y = high - margin
    for fact in reversed(facts):
        for line in reversed(wrapped(fact, room, small)[:2]):
            items.append(Text(margin, y, line, small, colour=_LOOK.quiet))
            y -= small * 1.5
    if pattern.used_colours:
        y -= small * 0.8
        items += swatches(pattern.used_colours, margin, y, room, wide * 0.03)[0]
        y -= wide * 0.055
    return y - margin * 0.1


def swatches(
    colours: Sequence[Colour], x: float, y: float, room: float, size: float
) -> tuple[list[Ink | Text | Group], int]:
    """A square of each colour with its letter in it and its name beside it, and in how many lines they stand."""
    out: list[Ink | Text | Group] = []
    begin, lines = x, 1
    box, gap = size * 1.5, size * 0.5
    end = x + room
    for colour in colours:
        name = fitted(colour.name, room * 0.5, size)
        width = box + gap + text_width(name, size)
        if x + width > end and x > begin:
            x, y, lines = begin, y + box * 1.3, lines + 1
        out.append(band(x, y - box * 0.82, x + box, y + box * 0.18, colour.hex, f"colour {colour.letter}"))
        out.append(
            Text(
                x + box / 2,
                y - box * 0.82 + box / 2 + size * 0.35,
                colour.letter,
                size,
                "middle",
                "bold",
                _on(colour.hex),
            )
        )
        out.append(Text(x + box + gap, y, name, size))
        x += width + size * 1.6
    return out, lines


def _on(ground: str) -> str:
    """Black or white, whichever stands out more on a ground."""
    from ...drawing.style import contrast

    return max((_LOOK.dark, "#ffffff"), key=lambda ink: contrast(ink, ground))


def soft(colour: str, share: float = 0.3) -> str:
    """A colour thinned with white, for a ground behind black ink.

    >>> soft("#000000", 0.5)
    '#808080'
    """
    parts = (int(colour[i : i + 2], 16) for i in (1, 3, 5))
    return "#" + "".join(f"{round(255 - (255 - p) * share):02x}" for p in parts)


def seen(colour: str) -> str:
    """A colour thinned no farther than that it can be told from the white about it; a pale one hardly.

    >>> seen("#2f4f5f") == soft("#2f4f5f"), seen("#f3e9d2") == soft("#f3e9d2")
    (True, False)
    """
    tried = (soft(colour, 0.3 + 0.1 * k) for k in range(8))
    return next((one for one in tried if contrast(one, "#ffffff") >= _SEEN), colour)


def chart_group(
    stretch: Stretch, pattern: Coloured, box: tuple[float, float, float, float], *, thin: bool = False,
    up: bool = False,
) -> Group:  # fmt: skip
    """The stretch of chart, as large as the box allows, in its middle or (`up`) at its top, on grounds of the rows'
    colours."""
    x0, y0, x1, y1 = box
    wide, high = stretch.size
    both = len({course.sign for course in stretch.courses}) > 1
    first = stretch.courses[0].sign
    before, after = (_LABEL * (both or first == sign) for sign in (1.0, -1.0))
    stitch = min((x1 - x0) / (wide + before + after), (y1 - y0) / high)
    width, height = wide * stitch, high * stitch
    left = x0 + before * stitch + (x1 - x0 - (before + after) * stitch - width) / 2
    top = y0 if up else y0 + (y1 - y0 - height) / 2
    shown = stretch.courses
    lowest = max(stretch.levels(course)[1] for course in shown)
    low = top + height - 0.4 * stitch - lowest * stitch
    pen = min(PEN_MM, stitch * 0.09) if thin else PEN_MM
    place = Place(left + (stretch.air - stretch.window.left) * stitch, low, stitch, pen)
    items: list[Ink | Text | Group] = [band(left, top, left + width, top + height, "#ffffff", "ground")]
    items += _grounds(stretch, pattern, place, (left, top, left + width, top + height))
    items += picture(
        stretch.laid,
        Window(stretch.window.first or 0, stretch.window.last, stretch.window.left, stretch.window.right),
        place,
        Inker(stitch, "plus"),
        {"RS": _LOOK.dark, "WS": _LOOK.dark},
    )[1 if stretch.window.first == 0 else 0 :]
    items += _row_numbers(stretch, place, (left, left + width), stitch)
    return Group("chart", tuple(items), "A stretch of the stitch chart")


def _grounds(
    stretch: Stretch, pattern: Coloured, place: Place, box: tuple[float, float, float, float]
) -> list[Ink]:
    hexes = {c.letter: c.hex for c in pattern.colours}
    out, courses = [], stretch.courses
    bottom = box[3]
    for at, course in enumerate(courses):
        top = box[1] if at == len(courses) - 1 else place.at_y(stretch.levels(course)[0] - 0.05)
        ground = hexes.get(course.worked.colour)
        if ground:
            out.append(band(box[0], top, box[2], bottom, seen(ground), f"row {course.worked.number}"))
        bottom = top
    return out


def _row_numbers(
    stretch: Stretch, place: Place, sides: tuple[float, float], stitch: float
) -> list[Ink | Text]:
    """Each row's number and colour, and an arrow the way it runs, at the side where it begins."""
    size = min(stitch * 0.5, 7.0)
    out: list[Ink | Text] = []
    for c in stretch.courses:
        if not c.worked.number:
            continue
        y = place.at_y(mean(stretch.levels(c, stretch.window.left if c.sign > 0 else stretch.window.right)))
        outward = -1.0 if c.sign > 0 else 1.0
        at = sides[0 if c.sign > 0 else 1] + outward * size * 0.25
        out += _way(at, y, outward, size * 0.9)
        anchor: Literal["start", "end"] = "end" if c.sign > 0 else "start"
        said = f"{c.worked.number} {c.worked.colour}".strip()
        out.append(Text(at + outward * size * 1.25, y + size * 0.35, said, size, anchor, colour=_LOOK.quiet))
    return out


def _way(x: float, y: float, outward: float, long: float) -> list[Ink]:
    """An arrow so long that ends at x and points inward."""
    shaft = stroke([[(x + outward * long, y), (x + outward * long * 0.4, y)]], long * 0.14, _LOOK.dark)
    back, half = x + outward * long * 0.5, long * 0.3
    return [shaft, fill([((x, y), (back, y - half), (back, y + half))], _LOOK.dark)]


# -- in words -------------------------------------------------------------------------------------------------------


def described(
    stretch: Stretch, pattern: Coloured, heading: Heading, setting: Setting, special: Mapping[str, str]
) -> str:
    """What an image shows, in two or three sentences."""
    shown = stretch.courses
    kinds: list[str] = []
    for course in shown:
        for spot in course.worked.row.kinds():
            if spot not in kinds:
                kinds.append(spot)
    names = [special.get(kind, show_stitch(kind, setting.terms)).split(":")[0] for kind in kinds]
    numbers = [c.worked.number for c in shown if c.worked.number]
    one = "round" if all(c.worked.is_round for c in shown) else "row"
    rows = f"{one}s {numbers[0]} to {numbers[-1]}" if len(numbers) > 1 else f"one {one}"
    parts = [
        f"{heading.title}"
        + (f" by {heading.author}" if heading.author else "")
        + f": a stitch chart of {rows}, in {_listed(names)} ({setting.terms} terms)."
    ]
    if pattern.used_colours:
        parts.append("Colours: " + ", ".join(f"{c.letter} {c.name}" for c in pattern.used_colours) + ".")
    if heading.finished:
        parts.append(f"Finished size: {heading.finished}.")
    return " ".join(parts)


def _listed(names: Sequence[str]) -> str:
    return names[0] if len(names) == 1 else ", ".join(names[:-1]) + " and " + names[-1] if names else "no stitches"
