"""A reader of finished charts that shares no code with what draws them: it knows SVG and a ruler, nothing
else.

Every row is a group whose id is "row-N" or "round-N"; in it one path for each kind, whose id is "row-n-kind".
A glyph is as many sub-paths as its kind has; that table is written here by hand from the printed key.
"""

from __future__ import annotations

import functools
import math
import re
import xml.etree.ElementTree as ET
from collections.abc import Iterator
from dataclasses import dataclass, field

import numpy as np
import shapely
from shapely import LineString, Polygon, STRtree, union_all
from shapely.geometry.base import BaseGeometry

SVG = "{http://www.w3.org/2000/svg}"
HREF = "{http://www.w3.org/1999/xlink}href"

#: Sub-paths of one glyph, as anyone can count them in the key.
STROKES = {
    "sc": 2, "hdc": 2, "dc": 3, "tr": 4, "dtr": 5, "ch": 1, "beginning-ch": 1, "sl-st-solid": 1, "join-solid": 1,
    "dc2tog": 5, "sc2tog": 4, "dc3tog": 7, "bobble": 7, "magic-ring": 2,
}  # fmt: skip

#: Slashes of the plain stitches, as printed: one for each yarn-over beyond a half double's.
SLASHES = {"sc": 0, "hdc": 0, "dc": 1, "tr": 2, "dtr": 3, "trtr": 4}
#: The pieces of a hook: one that goes behind is parted by the stem in front of it.
HOOK = {"fp": 1, "bp": 2}
#: What a special stitch is made of: its legs and their plain stitch.
Special = tuple[int, str]
#: A sub-path: its first point, and the rest of its path data relative to it.
Stroke = tuple[tuple[float, float], str]


def parts_of(kind: str, special: dict[str, Special] | None = None) -> int:
    """The sub-paths of one glyph, by how the key shows it.

    A post has a stem and a bar, a cross a stem and arms, and a slash for each yarn-over; a hook is one more,
    two where it goes behind the post, of which the end may lie behind other work; what a hook lies over is in as many more pieces as its kind says; the
    sign of a loop or a post is drawn apart, once for all that share the place; legs worked together share one bar (crosses none); gathered legs share a bar or a cap, and their slashes
    unless they are two; a post that others cross is in as many more pieces as its kind says; one with
    another straight in front of it shows the two ends of its bar or its arms; a picot has an oval for each chain, and a dot.
    """
    if picot := re.fullmatch(r"ch-(\d+)-picot", kind):
        return int(picot[1])
    if kind.endswith("-sign"):
        return 2 if kind == "back-post-sign" else 1
    if clasped := re.fullmatch(r"(.+)-clasped(?:-(\d+))?", kind):
        return parts_of(clasped[1], special) + int(clasped[2] or 1)
    if ended := re.fullmatch(r"(.+)-ended-behind(?:-(\d+))?", kind):
        return parts_of(ended[1], special) - int(ended[2] or 1)
    if held := re.fullmatch(r"(.+)-(?:front|back)-(?:loop|post)", kind):
        return parts_of(held[1], special)
    if kind.endswith("-solid"):
        return 1
    if kind.endswith("-covered"):
        return 2
    if crossed := re.fullmatch(r"(.+)-crossed(?:-(\d+))?", kind):
        return parts_of(crossed[1], special) + int(crossed[2] or 1)
    legs, base = (special or {}).get(kind, (0, "")) if kind[:2] not in ("fp", "bp") else (0, "")
    if legs > 1 and "puff" in kind:
        return legs  # loops, with neither a bar nor a slash
    if legs > 1:
        return legs + 1 + SLASHES[base] * (legs if legs == 2 else 1)
    if base:
        return parts_of(base)
    if kind in STROKES:
        return STROKES[kind]
    if found := re.fullmatch(r"(?:[fb]p)?(\w+?)(\d+)tog", kind):
        base, legs = found[1], int(found[2])
        hooks = legs * HOOK.get(kind[:2], 0)
        return legs * (2 if base == "sc" else 1 + SLASHES[base]) + (base != "sc") + hooks
    if (found := re.fullmatch(r"[fb]p(\w+)", kind)) and found[1] in SLASHES:
        return 2 + HOOK[kind[:2]] + SLASHES[found[1]]
    return 2 + SLASHES[kind]


@dataclass
class Glyph:
    """One glyph read back: its row, its kind, its ink as a shape, and its first sub-path's points (foot
    first).
    """

    row: str
    kind: str
    ink: BaseGeometry
    lines: list[list[tuple[float, float]]]


@dataclass
class ReadSheet:
    """A sheet read back: its size, the glyphs of its rows, every ink and text on it as shapes; `marks` are the arrows
    beside numbers and the marks of the yarn, each with the id of its group."""

    width: float
    height: float
    glyphs: list[Glyph] = field(default_factory=list)
    inks: list[BaseGeometry] = field(default_factory=list)
    texts: list[tuple[str, BaseGeometry]] = field(default_factory=list)
    groups: dict[str, tuple[str, str]] = field(default_factory=dict)
    special: dict[str, Special] = field(default_factory=dict)
    marks: list[tuple[str, BaseGeometry]] = field(default_factory=list)
    defined: dict[str, str] = field(default_factory=dict)


def read(svg: bytes, special: dict[str, Special] | None = None) -> ReadSheet:
    """A sheet as it is on paper; `special` says what the pattern's own stitches are made of, by their id."""
    root = ET.fromstring(svg)
    size = [float(root.attrib[name].removesuffix("mm")) for name in ("width", "height")]
    assert root.attrib["viewBox"] == f"0 0 {root.attrib['width'][:-2]} {root.attrib['height'][:-2]}"
    sheet = ReadSheet(size[0], size[1], special=special or {})
    sheet.defined = {path.attrib["id"]: path.attrib["d"] for defs in root.iter(f"{SVG}defs") for path in defs}
    for child in root:
        _walk(child, "", sheet)
    return sheet


def read_page(svg: bytes) -> ReadSheet:
    """Inks and letters only, whatever kinds of stitches there are."""
    sheet = read(re.sub(rb' id="(?!letter)[^"]*"', b"", svg))
    assert not sheet.glyphs
    return sheet


def _walk(element: ET.Element, row: str, sheet: ReadSheet) -> None:
    name = element.attrib.get("id", "")
    if "aria-label" in element.attrib:
        _text(element, sheet)
    elif element.tag == f"{SVG}g":
        title, desc = element.find(f"{SVG}title"), element.find(f"{SVG}desc")
        sheet.groups[name] = (_words(title), _words(desc))
        inner = name if re.fullmatch(r"(row|round)-(unnumbered-)?\d+|foundation|centre", name) else row
        for child in element:
            if name in MARKED and child.tag == f"{SVG}path":
                sheet.marks.append((name, _whole(child)))
            _walk(child, inner, sheet)
    elif element.tag == f"{SVG}path":
        _path(element, name, row, sheet)


#: The groups that hold marks beside their words.
MARKED = ("row-numbers", "round-numbers", "yarn-marks")


def _whole(element: ET.Element) -> BaseGeometry:
    """All ink of a path as one shape."""
    width, filled = float(element.attrib.get("stroke-width", "0")), element.attrib.get("fill", "none") != "none"
    return union_all([_shape(line, width, filled) for line in sub_paths(element.attrib["d"])])


def marks_over(sheet: ReadSheet) -> list[tuple[str, str]]:
    """Arrows and marks of the yarn that lie on a glyph, on letters, or on each other (an arrow's line and its head are
    two inks)."""
    glyphs, letters = STRtree([g.ink for g in sheet.glyphs]), STRtree([s for _, s in sheet.texts])
    found = []
    for name, shape in sheet.marks:
        found += [(name, sheet.glyphs[j].kind) for j in glyphs.query(shape, "intersects")]
        found += [(name, sheet.texts[j][0]) for j in letters.query(shape, "intersects")]
    yarn = [shape for name, shape in sheet.marks if name == "yarn-marks"]
    arrows = [shape for name, shape in sheet.marks if name != "yarn-marks"]
    return found + [("yarn-marks", "arrow") for a in yarn for b in arrows if a.intersects(b)]


def _words(element: ET.Element | None) -> str:
    return (element.text or "") if element is not None else ""


def _path(element: ET.Element, name: str, row: str, sheet: ReadSheet) -> None:
    width = float(element.attrib.get("stroke-width", "0"))
    filled = element.attrib.get("fill", "none") != "none"
    sheet.inks += shapes_of(element.attrib["d"], width, filled)
    strokes = list(strokes_in(element.attrib["d"]))
    if row and name.startswith(row + "-"):
        _glyphs(row, name.removeprefix(row + "-"), strokes, (width, filled), sheet)


def shapes_of(d: str, width: float, filled: bool) -> list[BaseGeometry]:
    """The sub-paths of path data as they are on paper."""
    strokes = list(strokes_in(d))
    return _placed([_drawn(rest, width, filled) for _, rest in strokes], [start for start, _ in strokes])


def _placed(shapes: list[BaseGeometry], starts: list[tuple[float, float]]) -> list[BaseGeometry]:
    """Shapes moved, each by its own way: many are the same one in other places."""
    moved = np.array(shapes, dtype=object)
    points, of = shapely.get_coordinates(moved, return_index=True)
    return list(shapely.set_coordinates(moved, points + np.array(starts).reshape(-1, 2)[of]))


@functools.lru_cache(maxsize=65536)
def _drawn(rest: str, width: float, filled: bool) -> BaseGeometry:
    """The shape of a sub-path that begins at (0, 0)."""
    (line,) = sub_paths("M0 0" + rest)
    return _shape(line, width, filled)


@functools.lru_cache(maxsize=65536)
def _drawn_together(parts: tuple[tuple[float, float, str], ...], width: float, filled: bool) -> BaseGeometry:
    """The shape of the sub-paths of one glyph whose first begins at (0, 0)."""
    shapes = [_drawn(rest, width, filled) for _, _, rest in parts]
    return shapely.union_all(_placed(shapes, [(x, y) for x, y, _ in parts]))


def _text(element: ET.Element, sheet: ReadSheet) -> None:
    """A line of text: letters that are defined once, each laid down at its x, and all moved to their place."""
    dx, dy, turn = _moves(element.attrib.get("transform", ""))
    cos, sin = math.cos(math.radians(turn)), math.sin(math.radians(turn))
    found = [
        (shape, (float(use.attrib.get("x", "0")), 0.0))
        for use in element
        for shape in letters(sheet.defined[use.attrib[HREF].removeprefix("#")])
    ]
    shapes = _placed([shape for shape, _ in found], [at for _, at in found])
    way = np.array(((cos, sin), (-sin, cos)))
    moved = shapely.transform(shapes, lambda at: at @ way + (dx, dy)) if shapes else ()
    sheet.texts += [(element.attrib["aria-label"], s) for s in moved]


@functools.lru_cache(maxsize=4096)
def letters(d: str) -> tuple[BaseGeometry, ...]:
    """The shapes of a letter's outline where it is not yet moved to its place: the same letters stand everywhere."""
    shapes = [_shape(line, 0.0, True) for line in sub_paths(d)]
    return tuple(s for s in shapes if not s.is_empty)


def _glyphs(row: str, kind: str, strokes: list[Stroke], pen: tuple[float, bool], sheet: ReadSheet) -> None:
    count = parts_of(kind, sheet.special)
    assert len(strokes) % count == 0, f"{row}: {len(strokes)} sub-paths are no whole number of {kind}"
    glyphs = [strokes[k : k + count] for k in range(0, len(strokes), count)]
    starts = [glyph[0][0] for glyph in glyphs]
    shapes = [
        _drawn_together(tuple((round(x - a, 6), round(y - b, 6), rest) for (x, y), rest in glyph), *pen)
        for glyph, (a, b) in zip(glyphs, starts, strict=True)
    ]
    for glyph, ink in zip(glyphs, _placed(shapes, starts), strict=True):
        lines = [[(x + dx, y + dy) for dx, dy in _line(rest)] for (x, y), rest in glyph]
        sheet.glyphs.append(Glyph(row, kind, ink, lines))


@functools.lru_cache(maxsize=65536)
def _line(rest: str) -> tuple[tuple[float, float], ...]:
    """The points of a sub-path that begins at (0, 0)."""
    (line,) = sub_paths("M0 0" + rest)
    return tuple(line)


def strokes_in(d: str) -> Iterator[Stroke]:
    """The sub-paths of path data, each as its first point and the rest relative to it. Their rests are relative in the
    file, so that the same glyph has the same; where one is not, it is said in points."""
    if re.fullmatch(r"(?:M-?[\d.]+ -?[\d.]+[a-z\d. ,-]*)*", d) and "m" not in d:
        for x, y, rest in re.findall(r"M(-?[\d.]+) (-?[\d.]+)([^M]*)", d):
            yield (float(x), float(y)), rest
        return
    for line in sub_paths(d):
        (x, y), *more = line
        yield (x, y), "".join(f"L{a - x!r} {b - y!r}" for a, b in more)


def _moves(transform: str) -> tuple[float, float, float]:
    """The translation and the turn of a text; a second translation is along the turned line."""
    dx = dy = turn = 0.0
    for what, numbers in re.findall(r"(\w+)\(([^)]*)\)", transform):
        values = [float(v) for v in numbers.split()]
        if what == "rotate":
            turn = values[0]
        else:
            angle = math.radians(turn)
            dx += values[0] * math.cos(angle) - values[1] * math.sin(angle)
            dy += values[0] * math.sin(angle) + values[1] * math.cos(angle)
    return dx, dy, turn


def _shape(line: list[tuple[float, float]], width: float, filled: bool) -> BaseGeometry:
    if filled:
        return Polygon(line).buffer(0) if len(line) > 2 else Polygon()
    if len(line) < 2 or len(set(line)) < 2:
        return LineString([line[0], (line[0][0] + 1e-6, line[0][1])]).buffer(width / 2)
    return LineString(line).buffer(width / 2, quad_segs=4)


def sub_paths(d: str) -> list[list[tuple[float, float]]]:
    """The sub-paths of path data as points; curves in eight steps."""
    paths: list[list[tuple[float, float]]] = []
    here = start = (0.0, 0.0)
    for command, numbers in re.findall(r"([MmLlCcQqZz])([^MmLlCcQqZz]*)", d):
        values = [float(v) for v in re.findall(r"-?\d*\.?\d+(?:e-?\d+)?", numbers)]
        points = list(zip(values[::2], values[1::2], strict=True))
        if command.islower() and command != "z":
            points = [(x + here[0], y + here[1]) for x, y in points]
        if command in "Mm":
            here = start = points[0]
            paths.append([here])
        elif command in "Zz":
            paths[-1].append(start)
            here = start
        elif command in "Ll":
            paths[-1] += points
            here = points[-1]
        else:
            paths[-1] += _bend([here, *points])
            here = points[-1]
    return paths


#: What each handle of a curve weighs at each of its eight steps, for two ends and one handle, and for two handles.
_WEIGHTS = {
    n + 1: [[math.comb(n, k) * (t / 8) ** k * (1 - t / 8) ** (n - k) for k in range(n + 1)] for t in range(1, 9)]
    for n in (2, 3)
}


def _bend(points: list[tuple[float, float]]) -> list[tuple[float, float]]:
    """The points of a curve after its first."""
    if len(points) == 4:
        (ax, ay), (bx, by), (cx, cy), (dx, dy) = points
        return [
            (a * ax + b * bx + c * cx + d * dx, a * ay + b * by + c * cy + d * dy) for a, b, c, d in _WEIGHTS[4]
        ]
    (ax, ay), (bx, by), (cx, cy) = points
    return [(a * ax + b * bx + c * cx, a * ay + b * by + c * cy) for a, b, c in _WEIGHTS[3]]


def stitch_mm(sheet):
    """How wide a stitch is drawn, in mm, as the sheet says at its foot."""
    said = next(words for words, _ in sheet.texts if " mm to a stitch" in words)
    return float(re.search(r"([0-9.]+) mm to a stitch", said)[1])


def overlaps(sheet: ReadSheet, least_mm2: float = 0.005) -> list[tuple[str, str, float]]:
    """Pairs of glyphs whose inks lie over each other, with the area."""
    shapes = np.array([g.ink for g in sheet.glyphs], dtype=object)
    first, second = _meeting(shapes, shapes)
    pairs = first < second
    first, second = first[pairs], second[pairs]
    areas = shapely.area(shapely.intersection(shapes[first], shapes[second]))
    said = [f"{g.row} {g.kind}" for g in sheet.glyphs]
    return [
        (said[i], said[j], round(float(area), 3))
        for i, j, area in zip(first, second, areas, strict=True)
        if area > least_mm2
    ]


def _meeting(shapes: np.ndarray, others: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """The numbers of those shapes and of those others that meet, pair by pair."""
    if not len(shapes) or not len(others):
        return np.empty(0, dtype=int), np.empty(0, dtype=int)
    return tuple(STRtree(others).query(shapes, predicate="intersects"))


def outside(sheet: ReadSheet, margin: float = 11.5) -> list[tuple[float, float, float, float]]:
    """The boxes of inks and letters that leave the page's margins."""
    every = shapely.bounds([*sheet.inks, *(shape for _, shape in sheet.texts)])
    left, top, right, bottom = every.T
    beyond = (left < margin) | (top < margin) | (right > sheet.width - margin) | (bottom > sheet.height - margin)
    return [tuple(map(float, box)) for box in every[beyond]]


def text_over_glyphs(sheet: ReadSheet) -> list[tuple[str, str]]:
    """Letters that lie on a glyph of the chart, and letters of different texts on each other."""
    shapes = np.array([shape for _, shape in sheet.texts], dtype=object)
    inks = np.array([g.ink for g in sheet.glyphs], dtype=object)
    i, j = _meeting(shapes, inks)
    over = shapely.area(shapely.intersection(shapes[i], inks[j])) > 0.002
    found = [(sheet.texts[k][0], sheet.glyphs[n].kind) for k, n in zip(i[over], j[over], strict=True)]
    i, j = _meeting(shapes, shapes)
    apart = (i < j) & np.array([sheet.texts[k][0] != sheet.texts[n][0] for k, n in zip(i, j, strict=True)], dtype=bool)
    i, j = i[apart], j[apart]
    over = shapely.area(shapely.intersection(shapes[i], shapes[j])) > 0.002
    return found + [(sheet.texts[k][0], sheet.texts[n][0]) for k, n in zip(i[over], j[over], strict=True)]
