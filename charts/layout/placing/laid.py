"""A flat fabric laid out row upon row; rows laid alike over alike rows are one shared object."""

from __future__ import annotations

from collections.abc import Sequence

from ...made_late import dataclass, replace
from ...model.cloth.fabric import Fabric, Row, WorkedRow
from .fans import Pulls, pulls_on
from .placed import Laid, Spot
from .row import lay_row
from .tops import Below
from .tracks import FlatWay

#: Roles whose heads are part of the edge that the next row starts from.
_ON_THE_EDGE = ("stitch", "turning", "travel", "chain", "foundation")

#: Rows drawn closer than this make the foundation wider, up to so many stitch widths a chain.
CROWDED = 0.93
WIDEST = 2.4
SPREADS = 5
#: The least that a foundation is spread by, when it is: rows keep the spread of what they stand on from here
#: on.
LEAST_SPREAD = 1.15


@dataclass(frozen=True, slots=True, eq=False)
class Course:
    """A row where it lies on the chart.

    `y` is the height of the level it is worked on (0 at the foundation, upward negative); `sign` is 1 where
    it is read from left to right and -1 where from right to left.
    """

    index: int
    worked: WorkedRow
    laid: Laid
    y: float
    sign: float

    @property
    def middle(self) -> float:
        """The y halfway up the row."""
        return self.y - self.laid.rise / 2.0


@dataclass(frozen=True, slots=True, eq=False)
class LaidFabric:
    """The foundation and every row on it, in stitch widths; y grows downward and row 1 stands on y = 0.

    `spacing` is the way from one foundation stitch to the next.
    """

    foundation: Laid
    courses: tuple[Course, ...]
    spacing: float = 1.0

    def x_range(self) -> tuple[float, float]:
        """The leftmost and the rightmost place of anything."""
        ranges = [laid.x_range() for laid in {id(c.laid): c.laid for c in self.courses}.values()]
        ranges.append(self.foundation.x_range())
        return min(r[0] for r in ranges), max(r[1] for r in ranges)

    def y_range(self) -> tuple[float, float]:
        """The highest and the lowest place of anything."""
        ranges = [(c.y + low, c.y + high) for c in self.courses for low, high in [c.laid.y_range()]]
        ranges.append(self.foundation.y_range())
        return min(r[0] for r in ranges), max(r[1] for r in ranges)


def mirrored(laid: LaidFabric) -> LaidFabric:
    """The fabric as a left-hander works it: left and right changed over, in the picture and in the
    reading.
    """
    turned: dict[int, Laid] = {}
    for one in (laid.foundation, *(c.laid for c in laid.courses)):
        if id(one) not in turned:
            turned[id(one)] = Laid(tuple(s.mirrored() for s in one.spots), one.rise)
    courses = tuple(replace(c, laid=turned[id(c.laid)], sign=-c.sign) for c in laid.courses)
    return LaidFabric(turned[id(laid.foundation)], courses, laid.spacing)


def sign_of(worked: WorkedRow) -> float:
    """The direction of a row on the chart, seen from the right side by a right-hander."""
    return 1.0 if worked.direction == "left-to-right" else -1.0


def lay_fabric(fabric: Fabric, least: float = 1.0) -> LaidFabric:
    """Lay every row over those below it; the time goes with the number of different rows, not of rows.

    `least` is how wide the chains of a foundation are set at least, in stitch widths. Where rows had to be drawn closer
    than a stitch, they are set wider and all is laid again.
    """
    laid = _laid_at(fabric, least)
    for _ in range(SPREADS if fabric.start in ("chain", "over") else 0):
        closest = min((min(c.laid.pitch, c.laid.crowd) for c in laid.courses), default=1.0)
        if closest >= CROWDED or laid.spacing >= WIDEST:
            break
        laid = _laid_at(fabric, min(WIDEST, max(LEAST_SPREAD, laid.spacing / closest)))
    return laid


def _laid_at(fabric: Fabric, spacing: float) -> LaidFabric:
    foundation = lay_foundation(fabric, spacing)
    loom = _Loom(foundation, spacing)
    courses: list[Course] = []
    y = 0.0
    for index, worked in enumerate(fabric.rows):
        above = fabric.rows[index + 1].row if index + 1 < len(fabric.rows) else None
        pulls = loom.pulls(worked.row, above)
        laid = loom.lay(worked.row, sign_of(worked), [c.laid for c in reversed(courses)], pulls)
        courses.append(Course(index, worked, laid, y, sign_of(worked)))
        y -= laid.rise
    return LaidFabric(foundation, tuple(courses), spacing)


def lay_foundation(fabric: Fabric, spacing: float = 1.0) -> Laid:
    """The foundation as spots at the level y = 0, running against the first row."""
    sign = -sign_of(fabric.rows[0]) if fabric.rows and fabric.rows[0].turned else 1.0
    items = fabric.foundation.stitches
    flat = len(items) - risen_of(fabric)
    spots = []
    for i, made in enumerate(items):
        x = sign * spacing * min(i, flat)
        role = "risen" if i >= flat else made.role
        feet = ((x, 1.0),) if fabric.start == "over" else ()
        spots.append(Spot(i, made.kind, role, (x, 0.0), feet, legs=made.legs, chains=made.chains))
    shift = (flat - 1) * spacing if sign < 0 else 0.0
    return Laid(tuple(s.moved(shift, 0.0).rounded() for s in spots), 0.0)


def risen_of(fabric: Fabric) -> int:
    """How many of the foundation's last chains stand up, or lie over the chain, at the start of row 1.

    They are the beginning chain of row 1 and the chains that follow it, as far as row 1 leaves them free.
    """
    if fabric.start != "chain" or not fabric.rows:
        return 0
    first = fabric.rows[0].row
    used = max((f.at for s in first.stitches for f in s.feet if f.back == 1), default=-1)
    free = len(fabric.foundation.stitches) - 1 - used
    begins = 0
    for made in first.stitches:
        if made.role not in ("start", "turning", "chain") or made.feet:
            break
        begins += made.chains
    return max(fabric.risen, min(begins, free))


class _Loom:
    """Lays rows and remembers what it has laid, so that equal work over equal work is laid once."""

    def __init__(self, foundation: Laid, spacing: float) -> None:
        self._foundation = foundation
        self._spacing = spacing
        self._laid: dict[tuple[object, ...], Laid] = {}
        self._known: dict[tuple[object, ...], Laid] = {}
        self._pulls: dict[tuple[int, int], Pulls] = {}

    def pulls(self, row: Row, above: Row | None) -> Pulls:
        """How the row above pulls a row, found once for every two rows that follow each other."""
        key = (id(row), id(above))
        if key not in self._pulls:
            self._pulls[key] = pulls_on(row, above)
        return self._pulls[key]

    def lay(self, row: Row, sign: float, below: Sequence[Laid], pulls: Pulls = ()) -> Laid:
        """The row laid over `below` (nearest first) and, under those, the foundation.

        `pulls` is how the row on it pulls its fans wide.
        """
        depth = max((f.back for s in row.stitches for f in s.feet), default=1)
        bases = [*below[: max(depth, 1)], *([self._foundation] if len(below) < max(depth, 1) else [])]
        key = (id(row), sign, pulls, *(id(b) for b in bases))
        if key not in self._laid:
            self._laid[key] = self._shared(row, self._fresh(row, sign, bases, pulls))
        return self._laid[key]

    def _fresh(self, row: Row, sign: float, bases: Sequence[Laid], pulls: Pulls) -> Laid:
        way = FlatWay(sign)
        shifted: dict[int, tuple[Spot, ...]] = {}
        depth = 0.0
        for back, base in enumerate(bases, start=1):
            depth += base.rise
            shifted[back] = tuple(s.moved(0.0, depth) for s in base.spots)
        low, high = width_range(shifted[1])
        tops = sum(1 for s in shifted[1] if s.role in ("stitch", "turning", "foundation"))
        return lay_row(
            row,
            shifted,
            way,
            edge=edge_of(shifted[1], way, self._spacing if bases[0] is self._foundation else 0.0),
            below=Below(high - low + 1.0, tops, bases[0].pitch, bases[0].fans),
            pulls=pulls,
        )

    def _shared(self, row: Row, laid: Laid) -> Laid:
        """The first row laid that is equal to this one to a thousandth of a stitch."""
        spots = tuple(s.rounded() for s in laid.spots)
        rise = round(laid.rise, 3)
        return self._known.setdefault((id(row), spots, rise), replace(laid, spots=spots, rise=rise))


def width_range(base: Sequence[Spot]) -> tuple[float, float]:
    """The leftmost and rightmost place that a row can go into."""
    xs = [s.head[0] for s in base if s.role in _ON_THE_EDGE] or [0.0]
    return min(xs), max(xs)


def edge_of(base: Sequence[Spot], way: FlatWay, beyond: float) -> float:
    """Where along the work a row begins: over the edge stitch, or `beyond` it where a foundation's end
    stands up.
    """
    return min((way.u(s.head) for s in base if s.role in _ON_THE_EDGE), default=0.0) - beyond
