"""The images that are shared, each composed for its shape: the fabric first, then words, colours and chart."""

from __future__ import annotations

import functools
import io
from collections.abc import Sequence

from ...drawing.display import Group, Ink, Sheet, Text
from ...drawing.letters import fitted, wrapped
from ...drawing.style import style
from ...made_late import dataclass
from ...picture.cloth import Cloth
from ...picture.encoded import DPI, srgb
from ...picture.scene import Image as Pixels
from ...picture.views import Look, close_views
from ...setting import Heading
from ..stroked import sheet_image
from .share import MM_PER_PX, SHAPES, Coloured, Stretch, chart_group, swatches

Box = tuple[int, int, int, int]
#: Small pictures, and where they stand.
Tiles = list[tuple[Box, Pixels]]

#: No image is larger than this, in bytes; fewer colours are taken until it is not.
MOST_BYTES = 500_000
COLOURS = (192, 128, 80, 48, 24)
GROUND = "#fbfaf7"
#: A small picture is no smaller, in pixels.
LEAST_TILE = 54
_LOOK = style()
#: Other yarns to see a piece in, light to dark, so that what was light stays light (our own choice).
OTHERS = (
    ("#f0dfc6", "#cf8a6b", "#7a3f36"), ("#e4e7e2", "#8fa9a4", "#31505a"), ("#f1dfe0", "#b98aa0", "#4c3a5c"),
    ("#efe3b8", "#c99b3d", "#4a4a35"),
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Shape:
    """The boxes of what stands in an image, in pixels (left, top, right, bottom)."""

    whole: Box
    close: Box
    words: Box
    chart: Box


BOXES: dict[str, Shape] = {
    "square": Shape((40, 40, 560, 560), (572, 40, 1040, 560), (40, 576, 540, 1040), (572, 590, 1040, 1040)),
    "portrait": Shape((40, 40, 620, 760), (632, 40, 1040, 760), (40, 780, 540, 1310), (560, 792, 1040, 1310)),
    "tall": Shape((40, 40, 570, 900), (582, 40, 960, 900), (40, 920, 490, 1460), (510, 932, 960, 1460)),
    "wide": Shape((36, 36, 540, 684), (552, 36, 876, 348), (896, 36, 1244, 684), (552, 360, 876, 684)),
}


@dataclass(frozen=True, slots=True)
class Shown:
    """What is shown: the pictures of the whole piece, of one repeat and of its steps by name, the cloth and its
    colours, the words, and the maker's photograph, which stands for the drawn whole where there is one."""

    whole: Pixels
    close: Pixels
    steps_say: str
    steps: tuple[tuple[str, Pixels], ...]
    cloth: Cloth
    colours: dict[str, str]
    heading: Heading
    yarns: Coloured
    stretch: Stretch | None
    photo: Pixels | None = None


def composed(shown: Shown, name: str) -> bytes:
    """One image, by the name of its shape, as a PNG of few enough bytes."""

    shape, size = BOXES[name], SHAPES[name]
    unit = max(20, round(min(size) * 0.021))
    items, tiles = _words(shown, shape, unit)
    if shown.stretch is not None:
        left, top, right, bottom = shape.chart
        steps = _strip(shown.steps_say, [p for _, p in shown.steps], shape.chart, unit, items)
        tiles += steps
        over = bottom - min((box[1] for box, _ in steps), default=bottom)
        room = (left, top, right, bottom - (over + unit * 2 if steps else 0))
        items.append(chart_group(shown.stretch, shown.yarns, _mm(room), thin=True, up=True))
    wide, high = size
    sheet = Sheet(wide * MM_PER_PX, high * MM_PER_PX, shown.heading.title, tuple(items), "", GROUND)
    image = sheet_image(sheet, 96.0).resize(size)
    if shown.photo is None:
        _paste(image, shown.whole, shape.whole, whole=True)
    else:
        _paste(image, shown.photo, shape.whole)
    _paste(image, shown.close, shape.close)
    if shown.stretch is None:
        _paste(image, shown.steps[-1][1], shape.chart, whole=True)
    for box, picture in tiles:
        _paste(image, picture, box, whole=True)
    return small_enough(image)


def _paste(image: object, pixels: Pixels, box: Box, *, whole: bool = False) -> None:
    """A picture cut about its middle to fill a box, or whole in it on more of its ground."""
    from PIL import Image, ImageOps

    picture, room = Image.fromarray(pixels), (box[2] - box[0], box[3] - box[1])
    if whole:
        red, green, blue = (int(p) for p in pixels[1, 1])
        fitted_in = ImageOps.pad(picture, room, Image.Resampling.LANCZOS, color=(red, green, blue))
    else:
        fitted_in = ImageOps.fit(picture, room, Image.Resampling.LANCZOS)
    image.paste(fitted_in, box[:2])  # type: ignore[attr-defined]


def small_enough(image: object) -> bytes:
    """An image as PNG with as many colours as its bytes allow, in sRGB and with its dots per inch."""
    data = b""
    for colours in COLOURS:
        out = io.BytesIO()
        few = image.quantize(colours, dither=0)  # type: ignore[attr-defined]
        few.save(out, "PNG", optimize=True, dpi=(DPI, DPI), icc_profile=srgb())
        data = out.getvalue()
        if len(data) < MOST_BYTES:
            break
    return data


def _mm(box: Box) -> tuple[float, float, float, float]:
    left, top, right, bottom = (p * MM_PER_PX for p in box)
    return left, top, right, bottom


def _words(shown: Shown, shape: Shape, unit: int) -> tuple[list[Ink | Text | Group], Tiles]:
    """The words in their box from the top, and the tiles of steps and other colours under them."""
    left, top, right, bottom = shape.words
    room = right - left
    items: list[Ink | Text | Group] = []
    y = float(top)
    heading = shown.heading
    size = unit * 2.0
    while len(wrapped(heading.title, room, size, "bold")) > 2 and size > unit * 1.2:
        size *= 0.94
    for line in wrapped(heading.title, room, size, "bold")[:3]:
        y += size * 1.1
        items.append(_text(left, y, fitted(line, room, size, "bold"), size, bold=True))
    if heading.author:
        y += unit * 1.7
        items.append(_text(left, y, fitted(f"by {heading.author}", room, unit), unit))
    y += unit * 0.9
    yarns = shown.yarns.used_colours
    if yarns:
        y += unit * 1.6
        made, rows = swatches(yarns, left * MM_PER_PX, y * MM_PER_PX, room * MM_PER_PX, unit * 1.1 * MM_PER_PX)
        items += made
        y += unit * (0.9 + 2.0 * (rows - 1))
    gauge = f"{heading.gauge}, hook {heading.hook}" if heading.hook else heading.gauge
    for fact in (heading.finished, gauge, heading.licence):
        for line in wrapped(fact, room, unit)[:3] if fact else ():
            y += unit * 1.45
            items.append(_text(left, y, line, unit, quiet=True))
    return items, _tiles(shown, (left, int(y + unit * 0.9), right, bottom), items, unit)


def _text(x: float, y: float, words: str, size: float, *, bold: bool = False, quiet: bool = False) -> Text:
    at = (x * MM_PER_PX, y * MM_PER_PX)
    colour = _LOOK.quiet if quiet else _LOOK.dark
    return Text(*at, words, size * MM_PER_PX, weight="bold" if bold else "regular", colour=colour)


def _tiles(shown: Shown, box: Box, items: list[Ink | Text | Group], unit: int) -> Tiles:
    """A row of the piece in other colours under a line of words, as large as there is room for."""
    left, top, right, bottom = box
    gap = unit // 2
    side = min((right - left - gap * 3) // 4, 150, bottom - top - round(unit * 1.6))
    if side < LEAST_TILE:
        return []
    items.append(_text(left, top + unit, "In other colours", unit * 0.95, quiet=True))
    return _row(recoloured(shown), (left, top + round(unit * 1.6)), side, gap)


def _strip(says: str, pictures: Sequence[Pixels], box: Box, unit: int, items: list[Ink | Text | Group]) -> Tiles:
    """The steps along the foot of a box under a line of words; no more than a third of its height."""
    if not pictures:
        return []
    left, top, right, bottom = box
    gap = unit // 2
    side = min((right - left - gap * (len(pictures) - 1)) // len(pictures), (bottom - top) // 3 - unit)
    y = bottom - side
    items.append(_text(left, y - unit * 0.6, fitted(says, right - left, unit * 0.95), unit * 0.95, quiet=True))
    return _row(pictures, (left, y), side, gap)


def _row(pictures: Sequence[Pixels], at: tuple[int, int], side: int, gap: int) -> Tiles:
    """At most four pictures of one size side by side."""
    x, y = at
    places = [x + k * (side + gap) for k in range(4)]
    return [((left, y, left + side, y + side), picture) for left, picture in zip(places, pictures, strict=False)]


@functools.lru_cache(maxsize=1)
def _swatches(cloth: Cloth, tables: tuple[tuple[tuple[str, str], ...], ...]) -> list[Pixels]:
    """Some of a cloth close up in each table of colours by their keys."""
    return [drawn.image for drawn in close_views(cloth, [dict(table) for table in tables], Look("right", 150, 150))]


def recoloured(shown: Shown) -> list[Pixels]:
    """A close-up in other yarns: the light ones for the light, the dark for the dark."""
    keys = sorted(shown.colours, key=lambda key: -_bright(shown.colours[key]))
    found = []
    for others in OTHERS:
        spread = [others[min(2, round(k * 2 / max(len(keys) - 1, 1)))] if len(keys) > 1 else others[1]
                  for k in range(len(keys))]
        table = dict(zip(keys, spread, strict=True))
        found.append(tuple((key, table[key]) for key in shown.colours))
    return _swatches(shown.cloth, tuple(found))


def _bright(colour: str) -> float:
    r, g, b = (int(colour[i : i + 2], 16) for i in (1, 3, 5))
    return 0.3 * r + 0.6 * g + 0.1 * b
