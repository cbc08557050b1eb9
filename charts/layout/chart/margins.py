"""What stands beside a flat chart: row numbers with their arrows, counts, colours, sections and brackets."""

from __future__ import annotations

import functools
import string
from collections.abc import Mapping, Sequence

from ...drawing.display import Group, Ink, Text
from ...drawing.geometry import number
from ...drawing.letters import cap_height, text_width
from ...drawing.style import contrast
from ...made_late import dataclass
from ...model.cloth.fabric import Fabric
from ...model.cloth.yarns import changes_within, renamed, yarns_in
from ...pattern.file.colour_names import known_colour
from ..labels.label import ARROW_GAP_MM, ARROW_MM, arrow_ink
from ..labels.yarn_marks import MOST_MM, TALL, YarnMark, mark_group
from ..placing.ink import FOUNDATION_DROP
from ..placing.isotonic import place as place_apart
from ..placing.laid import Course
from ..sheets.page import DARK, HAIR, QUIET, SMALL_MM
from .picture import Place, Window, band, inside, is_there
from .view import RowBracket, StitchBracket, View

Item = Ink | Text | Group

#: From the picture to its row numbers, and from a mark of the yarn to a number.
ASIDE_MM = 1.6
MARK_GAP_MM = 1.0
#: How far inside the picture a row must end for its label to stand beside that end, and its way from there, in stitch
#: widths.
SLOPES_BY, SLOPE_GAP = 2.5, 0.6
#: A stem is looked at in so many places.
ALONG = 8
#: What stands beside a row that is there already.
THERE = "edge"
BAND_MM = 5.0
SECTION_MM = 4.6
BRACKET_GAP_MM = 2.0
TICK_MM = 1.4
LEADING_MM = SMALL_MM * 1.15


@dataclass(frozen=True, slots=True)
class Colour:
    """A colour of the pattern: its name and #rrggbb."""

    name: str
    hex: str


#: The grounds of colours that a pattern only names by letter, in the order they come: greys, since none is known.
GREYS = ("#f2f2f0", "#cfcfca", "#a9a9a3", "#85857e", "#62625c", "#43433e")


@functools.lru_cache(maxsize=4)
def lettered(fabric: Fabric) -> tuple[Fabric, Mapping[str, Colour]]:
    """The fabric with a letter for each colour of its rows, and a ground and the name for each letter.

    Colours that a pattern names by more than a letter get the letters that are left, in the order they come; one that
    the page gives a short name is the same by either. A name that is known has its hue. The last few are kept, so that
    what is laid of them can be, too.
    """
    known = {name.lower(): short for short, name in fabric.yarns}
    said = yarns_in(fabric.rows)
    meant = {key: known.get(key.lower(), key) for key in said}
    letters = letters_of(list(dict.fromkeys(meant.values())))
    called = {short: name for short, name in fabric.yarns if short in letters}
    names = {letter: called.get(name, f"yarn {name}" if name == letter else name) for name, letter in letters.items()}
    greys = iter(range(len(names)))
    table = {
        letter: Colour(name, known_colour(name) or GREYS[next(greys) % len(GREYS)])
        for letter, name in sorted(names.items())
    }
    return (renamed(fabric, {key: letters[name] for key, name in meant.items()}) if said else fabric), table


def letters_of(named: Sequence[str]) -> dict[str, str]:
    """A letter for each name of a colour: its own where it is one, else those that are left, in their order.

    >>> letters_of(["rose", "A"])
    {'rose': 'B', 'A': 'A'}
    """
    taken = {name for name in named if len(name) <= 2}
    spare = (letter for letter in string.ascii_uppercase if letter not in taken)
    return {name: name if name in taken else next(spare, name) for name in named}


@dataclass(frozen=True, slots=True)
class Sides:
    """How wide the columns beside the picture are, in mm."""

    left_label: float
    right_label: float
    band: float
    section: float
    bracket: float

    @property
    def left(self) -> float:
        """Everything left of the picture."""
        return self.left_label + self.band + self.section

    @property
    def right(self) -> float:
        """Everything right of the picture."""
        return self.right_label + self.bracket


def sides_of(view: View, *, counts: bool, colours: Mapping[str, Colour]) -> Sides:
    """The room that the columns of this chart need."""
    labels: dict[bool, float] = {True: 0.0, False: 0.0}
    for course in view.laid.courses:
        starts_left = course.sign > 0
        wide = text_width(number_of(course), SMALL_MM, "bold") + ARROW_MM + ARROW_GAP_MM
        labels[starts_left] = max(labels[starts_left], wide + room_of(course.worked.joins))
        made = text_width(count_of(course), SMALL_MM) if counts else 0.0
        labels[not starts_left] = max(labels[not starts_left], made + room_of(course.worked.cut))
    if view.chains or is_there(view.laid):
        first_left = view.laid.courses[0].sign < 0
        said = text_width(foundation_count(view), SMALL_MM) if counts or not view.chains else 0.0
        labels[first_left] = max(labels[first_left], said + room_of(bool(view.chains)))
    says = [line for b in view.row_brackets for line in b.says]
    bracket = max((text_width(line, SMALL_MM) for line in says), default=0.0)
    has_band = any(c.worked.colour in colours and not _is_mixed(c) for c in view.laid.courses)
    return Sides(
        left_label=labels[True] + ASIDE_MM + 0.8,
        right_label=labels[False] + ASIDE_MM + 0.8,
        band=BAND_MM + 1.0 if has_band else 0.0,
        section=SECTION_MM if any(c.worked.section for c in view.laid.courses) else 0.0,
        bracket=bracket + BRACKET_GAP_MM + TICK_MM + 1.2 if says else 0.0,
    )


def room_of(marked: bool) -> float:
    """What a mark of the yarn takes before a number or a count, in mm."""
    return TALL * MOST_MM + MARK_GAP_MM if marked else 0.0


def number_of(course: Course) -> str:
    """The row's number as printed; the label of a row without one."""
    return str(course.worked.number) if course.worked.number else course.worked.label


def count_of(course: Course) -> str:
    """The stitches the row makes."""
    return f"({course.worked.row.made})"


def row_labels(
    view: View, window: Window, place: Place, edges: tuple[float, float], *, counts: bool
) -> tuple[Group, ...]:
    """Numbers and arrows where the rows begin, stitch counts where they end, kept one line apart; and the marks where
    the work begins, and yarn is joined and cut, nearest to the stitches.

    `edges` are the mm of the picture's left and right edge. A row that goes on beyond the cut of a page has its number
    alone there: it neither begins nor ends at it.
    """
    items: list[Item] = []
    marks: list[YarnMark] = []
    courses = view.laid.courses[window.first : window.last]
    for left in (True, False):
        ys = [place.at_y(label_y(c, window, left=left)) for c in courses]
        order = sorted(range(len(ys)), key=lambda k: ys[k])
        apart = place_apart([ys[k] for k in order], [LEADING_MM] * max(len(ys) - 1, 0))
        for k, y in zip(order, apart, strict=True):
            about = courses[max(k - 2, 0) : k + 3]
            x = _label_x(about, y, window, place, edges, left=left)
            if goes_on(courses[k], window, left=left):
                items += _number_alone(courses[k], left, x, y + cap_height(SMALL_MM) / 2.0)
                continue
            mark = _mark_of(courses[k], left, x, y)
            marks += [mark] if mark else []
            x += (-1.0 if left else 1.0) * room_of(mark is not None)
            items += _label(courses[k], left, x, y + cap_height(SMALL_MM) / 2.0, counts)
    begun_here = not goes_on(view.laid.courses[0], window, left=view.laid.courses[0].sign < 0)
    if window.first == 0 and begun_here and (view.chains or is_there(view.laid)):
        mark, said = _foundation_label(view, place, edges)
        marks += [mark] if view.chains else []
        items += [said] if counts or not view.chains else []
    numbers = Group("row numbers", tuple(items), "Row numbers with the direction of each row")
    return (numbers, mark_group(marks, 0.0, 0.0)) if marks else (numbers,)


def goes_on(course: Course, window: Window, *, left: bool) -> bool:
    """Whether a row goes on beyond the left or the right end of a window."""
    shown = {spot.item for spot in inside(course.laid, window)}
    beyond = (spot.head[0] for spot in course.laid.spots if spot.item not in shown)
    return any(x < window.left if left else x >= window.right for x in beyond)


def _number_alone(course: Course, left: bool, x: float, y: float) -> list[Item]:
    """The number of a row where a page is cut, in the ink of what is no part of the work."""
    if not course.worked.number:
        return []
    said = str(course.worked.number)
    return [Text(x, y, said, SMALL_MM, "end" if left else "start", colour=QUIET, name="number at the cut")]


def _mark_of(course: Course, left: bool, x: float, y: float) -> YarnMark | None:
    """The mark at one end of a row: where yarn is joined as it begins, or cut as it ends."""
    begins = (course.sign > 0) == left
    name = "join yarn" if begins and course.worked.joins else "fasten off" if not begins and course.worked.cut else ""
    return YarnMark(name, (x, y), (-1.0 if left else 1.0, 0.0), MOST_MM) if name else None


def _label_x(
    about: Sequence[Course], y: float, window: Window, place: Place, edges: tuple[float, float], *, left: bool
) -> float:
    """Where a row's label at the height `y` mm stands: outside the picture, or beside the slope where that lies well
    inside. `about` are the row and its neighbours, of which the label keeps clear.
    """
    out = -1.0 if left else 1.0
    edge = edges[0] if left else edges[1]
    ends = [c.laid.x_range()[0 if left else 1] for c in about]
    end = min(ends) if left else max(ends)
    limit = max(window.left, place.stitches_at(edge)) if left else min(window.right, place.stitches_at(edge))
    if (limit - end) * out <= SLOPES_BY:
        return edge + out * ASIDE_MM
    beside = [x for x, at in _ink_of(about) if abs(place.at_y(at) - y) < LEADING_MM]
    end = (min(beside) if left else max(beside)) if beside else end
    return place.at_x(end + out * SLOPE_GAP) + out * ASIDE_MM


def _ink_of(courses: Sequence[Course]) -> list[tuple[float, float]]:
    """Points along the stems, bars and chains of rows."""
    points = []
    for course in courses:
        for spot in course.laid.spots:
            (x, y), low = spot.head, spot.feet or (spot.head,)
            found = [(x + (a - x) * t, y + (b - y) * t) for a, b in low for t in (k / ALONG for k in range(ALONG + 1))]
            found += [(a, b) for a, b, _ in spot.ovals]
            points += [(a, course.y + b) for a, b in found]
    return points


def foundation_count(view: View) -> str:
    """How many chains the foundation is begun with, those that stand up in the first row included; what a row is called
    that is there already; "" where the work begins on neither.
    """
    return f"ch {view.chains}" if view.chains else THERE if is_there(view.laid) else ""


def _foundation_label(view: View, place: Place, edges: tuple[float, float]) -> tuple[YarnMark, Text]:
    """Where the work begins, on the side where the foundation's first chain is made, and what is said of it."""
    left = view.laid.courses[0].sign < 0
    low = label_y(view.laid.courses[0], Window(0, 1), left=left)
    middle = FOUNDATION_DROP if view.chains else view.laid.foundation.y_range()[1] / 2.0
    y = max(place.at_y(middle), place.at_y(low) + LEADING_MM)
    about = view.laid.courses[:3]
    x, out = _label_x(about, y, Window(0, 1), place, edges, left=left), -1.0 if left else 1.0
    anchor, at = "end" if left else "start", x + out * room_of(bool(view.chains))
    base = y + cap_height(SMALL_MM) / 2.0
    said = Text(at, base, foundation_count(view), SMALL_MM, anchor, colour=QUIET, name="foundation count")
    return YarnMark("begin", (x, y), (out, 0.0), MOST_MM), said


def label_y(course: Course, window: Window, *, left: bool) -> float:
    """The height of a row at one of its ends in a window: halfway up the stitch there."""
    tops = [s for s in course.laid.spots if s.role in ("stitch", "turning") and s.feet and window.holds(s.head[0])]
    if not tops:
        return course.middle
    end = min(tops, key=lambda s: s.head[0]) if left else max(tops, key=lambda s: s.head[0])
    low = max(y for _, y in end.feet)
    # Where rows fall away at their ends, the foot lies under their level too; only one that goes further down counts
    # from the level on.
    return course.y + (end.head[1] + (min(low, 0.0) if end.own_height else low)) / 2.0


def _label(course: Course, left: bool, x: float, y: float, counts: bool) -> list[Item]:
    """The label at one end of a row: its number and arrow where it begins, its count where it ends."""
    outward = -1.0 if left else 1.0
    if (course.sign > 0) != left:
        if not counts:
            return []
        return [
            Text(x, y, count_of(course), SMALL_MM, "end" if left else "start", colour=QUIET, name="count")
        ]
    tip, tail = x, x + outward * ARROW_MM
    middle = y - cap_height(SMALL_MM) / 2.0
    at = x + outward * (ARROW_MM + ARROW_GAP_MM)
    text = Text(
        at, y, number_of(course), SMALL_MM, "end" if left else "start", "bold", DARK, name="row number"
    )
    return [*arrow_ink(tail, middle, tip, middle), text]


def colour_bands(view: View, window: Window, place: Place, x: float, colours: Mapping[str, Colour]) -> Group:
    """A strip in the rows' colours with the letter of each; neighbouring rows of one colour are one band, and a row in
    several has none."""
    items: list[Item] = []
    for run in _runs(view.laid.courses[window.first : window.last]):
        colour = colours.get(run[0].worked.colour)
        if colour is None or _is_mixed(run[0]):
            continue
        bottom, top = place.at_y(run[0].y), place.at_y(run[-1].y - run[-1].laid.rise)
        items.append(band(x, top, x + BAND_MM, bottom, colour.hex, f"colour {run[0].worked.colour}"))
        items.append(_outline(x, top, x + BAND_MM, bottom))
        size = min(SMALL_MM, (bottom - top) * 0.9)
        y = (top + bottom + cap_height(size)) / 2.0
        ink = letter_ink(colour.hex)
        items.append(Text(x + BAND_MM / 2.0, y, run[0].worked.colour, size, "middle", "bold", ink))
    return Group("colours", tuple(items), "Colours of the rows")


def letter_ink(ground: str) -> str:
    """Dark or white, whichever stands out more on a ground (one of the two is always at least 4.5 : 1)."""
    return max(("#000000", "#ffffff"), key=lambda ink: contrast(ink, ground))


def _outline(left: float, top: float, right: float, bottom: float) -> Ink:
    a, b, c, d = number(left), number(top), number(right), number(bottom)
    return Ink(f"M{a} {b}L{c} {b}L{c} {d}L{a} {d}Z", stroke=HAIR, width=0.15)


def _runs(courses: Sequence[Course]) -> list[list[Course]]:
    """Neighbouring rows of one colour."""
    runs: list[list[Course]] = []
    for course in courses:
        alike = runs and runs[-1][0].worked.colour == course.worked.colour
        if alike and _is_mixed(runs[-1][0]) == _is_mixed(course):
            runs[-1].append(course)
        else:
            runs.append([course])
    return runs


def _is_mixed(course: Course) -> bool:
    return changes_within([course.worked])


#: A section's name is set no smaller than this share of the usual size.
LEAST_NAME = 0.6


def section_names(view: View, window: Window, place: Place, x: float) -> Group:
    """The name of each section along its rows, read from the right, with a line beside it; along too few rows to hold
    it whole, as at the end of a page, there is the line alone."""
    items: list[Item] = []
    runs: list[list[Course]] = []
    for course in view.laid.courses[window.first : window.last]:
        if runs and runs[-1][0].worked.section == course.worked.section:
            runs[-1].append(course)
        else:
            runs.append([course])
    for run in runs:
        if not run[0].worked.section:
            continue
        bottom, top = place.at_y(run[0].y) - 0.5, place.at_y(run[-1].y - run[-1].laid.rise) + 0.5
        name = run[0].worked.section
        size = min(SMALL_MM, SMALL_MM * (bottom - top) / max(text_width(name, SMALL_MM, "regular"), 0.1))
        if size >= LEAST_NAME * SMALL_MM:
            items.append(Text(x + 2.4, (top + bottom) / 2.0, name, size, "middle", colour=QUIET, angle=-90.0))
        items.append(_line([(x + 3.6, bottom), (x + 3.6, top)], QUIET, 0.25))
    return Group("sections", tuple(items), "Sections")


def row_brackets(view: View, window: Window, place: Place, x: float) -> Group:
    """Brackets beside repeated rows, open towards the chart, with the rows and how often they are worked."""
    items: list[Item] = []
    for bracket in view.row_brackets:
        if not (window.first <= bracket.first and bracket.last < window.last):
            continue
        items += _row_bracket(bracket, view, place, x)
    return Group("row repeats", tuple(items), "Repeated rows")


def _row_bracket(bracket: RowBracket, view: View, place: Place, x: float) -> list[Item]:
    first, last = view.laid.courses[bracket.first], view.laid.courses[bracket.last]
    bottom, top = place.at_y(first.y) - 0.4, place.at_y(last.y - last.laid.rise) + 0.4
    line = _line([(x, bottom), (x + TICK_MM, bottom), (x + TICK_MM, top), (x, top)], DARK, 0.3)
    middle = (top + bottom) / 2.0 - (len(bracket.says) - 1) * LEADING_MM / 2.0 + cap_height(SMALL_MM) / 2.0
    texts = [
        Text(x + TICK_MM + 1.2, middle + k * LEADING_MM, said, SMALL_MM, colour=DARK, name="row repeat")
        for k, said in enumerate(bracket.says)
    ]
    return [line, *texts]


def stitch_bracket(bracket: StitchBracket, place: Place, y: float) -> Group:
    """The bracket below the foundation, with its count; `y` is the mm of its line."""
    left, right = place.at_x(bracket.left) + 0.3, place.at_x(bracket.right) - 0.3
    line = _line([(left, y - TICK_MM), (left, y), (right, y), (right, y - TICK_MM)], DARK, 0.3)
    text = Text(
        (left + right) / 2.0, y + 3.2, bracket.says, SMALL_MM, "middle", colour=DARK, name="stitch repeat"
    )
    return Group("stitch repeat", (line, text), "The stitches that repeat")


def _line(points: Sequence[tuple[float, float]], colour: str, width: float) -> Ink:
    d = "".join(f"{'M' if k == 0 else 'L'}{number(x)} {number(y)}" for k, (x, y) in enumerate(points))
    return Ink(d, stroke=colour, width=width)
