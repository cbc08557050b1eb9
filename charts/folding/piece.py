"""The flat piece that a plan describes: its outline, its rows and stitches in mm, and the parts that fold.

On the flat piece the right side faces up and the foundation lies at the foot: x runs to the right across the
stitches, y down from the last row (0) to the foundation (`height_mm`). A right-hander's row 1 begins at the
right.
"""

from __future__ import annotations

from bisect import bisect_left
from itertools import accumulate, pairwise

from shapely.geometry import Polygon, box
from shapely.ops import unary_union

from ..errors import PatternError, Problem
from ..made_late import dataclass, replace
from ..measure import show_length
from ..model.sizing.plan import Plan, SectionPlan
from ..model.sizing.shape import row_counts
from ..pattern.file.kinds import OBJECT_KINDS, directions
from .facets import GRID, Affine, Facet, Point, Stack
from .kinds import Kind, PartRule


@dataclass(frozen=True, slots=True)
class Part:
    """A part of the piece between fold lines: rows (or, where the chain runs round the book, stitches) first
    to last.

    `lo_mm` and `hi_mm` measure from the foundation for rows, from the left edge (right side up) for stitches.
    """

    role: str
    name: str
    first: int
    last: int
    lo_mm: float
    hi_mm: float

    @property
    def length_mm(self) -> float:
        return self.hi_mm - self.lo_mm

    @property
    def count(self) -> int:
        return self.last - self.first + 1


@dataclass(frozen=True, slots=True)
class Piece:
    """The flat piece. `axis` is what the parts count: "rows" or "stitches"; `row_edges_mm` from the
    foundation up.
    """

    outline: Polygon
    width_mm: float
    height_mm: float
    stitches: int
    stitch_mm: float
    row_edges_mm: tuple[float, ...]
    row_kinds: tuple[str, ...]
    axis: str
    parts: tuple[Part, ...]
    hand: str
    unit: str
    row_stitches: tuple[int, ...] = ()

    @property
    def rows(self) -> int:
        return len(self.row_kinds)

    def part(self, role: str) -> Part:
        return next(p for p in self.parts if p.role == role)

    def part_at(self, x: float, y: float) -> Part:
        """The part that a point of the flat piece lies in."""
        along = self.height_mm - y if self.axis == "rows" else x
        return min(self.parts, key=lambda p: max(p.lo_mm - along, along - p.hi_mm, 0.0))

    def row_range(self, y0: float, y1: float) -> tuple[int, int]:
        """The rows whose middles lie between two heights, in the order in which they are met; (0, 0) for
        none.
        """
        lo, hi = sorted((self.height_mm - y0, self.height_mm - y1))
        mids = [(a + b) / 2 for a, b in zip(self.row_edges_mm, self.row_edges_mm[1:], strict=False)]
        first, last = bisect_left(mids, lo - GRID) + 1, bisect_left(mids, hi + GRID)
        if first > last:
            return (0, 0)
        return (first, last) if y0 >= y1 else (last, first)

    def _before(self, y: float | None) -> float:
        """How many stitches narrower at its beginning a row is than the piece: that whose middle is nearest to `y`."""
        if y is None or not self.row_stitches:
            return 0.0
        mids = [self.height_mm - (a + b) / 2 for a, b in pairwise(self.row_edges_mm)]
        row = min(range(len(mids)), key=lambda n: abs(mids[n] - y))
        return (self.stitches - self.row_stitches[row]) / 2

    def stitch_range(self, x0: float, x1: float, y: float | None = None) -> tuple[int, int]:
        """The stitches, counted from row 1's beginning, whose middles lie between two places, as they are
        met: of the row at a height where one is given, which may be narrower than row 1.
        """
        met = [self.stitch_number(x) - self._before(y) for x in (x0, x1)]
        lo, hi = sorted(met)
        first, last = int(lo + 0.5 + GRID) + 1, int(hi + 0.5 - GRID)
        if first > last:
            return (0, 0)
        return (first, last) if met[0] <= met[1] else (last, first)

    def stitch_number(self, x: float) -> float:
        """How many stitches lie between row 1's beginning and a place."""
        from_start = self.width_mm - x if self.hand == "right" else x
        return from_start / self.stitch_mm

    def row_line(self, along_mm: float) -> tuple[Point, Point]:
        """The line across the piece at a height above the foundation."""
        y = self.height_mm - along_mm
        return ((0.0, y), (self.width_mm, y))

    def column_line(self, along_mm: float) -> tuple[Point, Point]:
        """The line up the piece at a distance from its left edge."""
        return ((along_mm, self.height_mm), (along_mm, 0.0))

    def line_at(self, along_mm: float) -> tuple[Point, Point]:
        """The line between two parts."""
        return self.row_line(along_mm) if self.axis == "rows" else self.column_line(along_mm)

    def laid(self, side_up: str, turned: str) -> Stack:
        """The piece on the table with one side up, upright (foundation at the foot) or sideways."""
        facet = Facet(
            self.outline, placement(self, side_up, turned), self.parts[0].name if len(self.parts) == 1 else ""
        )
        return Stack((facet,))


def placement(piece: Piece, side_up: str, turned: str) -> Affine:
    """The map that lays the piece: sideways puts the foundation left with the wrong side up, right with the
    right.
    """
    if turned == "sideways":
        return (0.0, 1.0, -1.0, 0.0, 0.0, piece.width_mm) if side_up == "RS" else (
            0.0, -1.0, -1.0, 0.0, piece.height_mm, piece.width_mm)  # fmt: skip
    return (1.0, 0.0, 0.0, 1.0, 0.0, 0.0) if side_up == "RS" else (-1.0, 0.0, 0.0, 1.0, piece.width_mm, 0.0)


def flat_piece(plan: Plan, kind: Kind, hand: str = "right") -> Piece:
    """The plan's flat piece, cut into the kind's parts; PatternError says what a part lacks."""
    edges = (0.0, *accumulate(h for s in plan.sections for h in s.row_heights_mm))
    width = plan.stitches * plan.stitch_mm
    axis = "stitches" if plan.chain_along == strip_of(plan) else "rows"
    if plan.stitches < 1 or len(edges) < 2 or min(width, edges[-1]) <= 0:
        raise _problem("the piece has no rows or no stitches to fold", "give every section at least one row")
    parts = _parts_of_stitches(plan, kind, hand, width) if axis == "stitches" else _parts_of_rows(plan, kind, edges)
    kinds = tuple(k for s in plan.sections for k in s.row_kinds)
    outline = _outline(plan, edges, width)
    return Piece(
        outline, width, edges[-1], plan.stitches, plan.stitch_mm, edges, kinds, axis, parts, hand, plan.unit,
        row_counts(plan),
    )  # fmt: skip


def slants(plan: Plan, section: SectionPlan) -> bool:
    """Whether a section's edges slant from one width to another; those of a crown are none, it goes round."""
    return len(set(section.widths)) > 1 and not OBJECT_KINDS[plan.kind].crown


def by_sections(piece: Piece, plan: Plan) -> Piece:
    """A piece of one part with its sections as parts, so that a pattern's own folds can lie between them."""
    if len(piece.parts) > 1 or piece.axis != "rows" or len(plan.sections) < 2:
        return piece
    edges = piece.row_edges_mm
    parts = tuple(
        Part(
            s.name,
            s.name,
            s.first_row,
            s.first_row + s.rows - 1,
            edges[s.first_row - 1],
            edges[s.first_row - 1 + s.rows],
        )
        for s in plan.sections
    )
    return replace(piece, parts=parts)


def _outline(plan: Plan, edges: tuple[float, ...], width: float) -> Polygon:
    """The sections one above another, a narrower one in the middle of the one below, one that changes its width with
    straight edges from that below to its own."""
    shapes, below = [], plan.stitches
    for section in plan.sections:
        ends = (section.stitches or plan.stitches) * plan.stitch_mm / 2
        begins = below * plan.stitch_mm / 2 if slants(plan, section) else ends
        lo, hi = (edges[-1] - edges[section.first_row - 1 + n] for n in (0, section.rows))
        middle, below = width / 2, section.stitches or plan.stitches
        shapes.append(Polygon([(middle - begins, lo), (middle + begins, lo), (middle + ends, hi), (middle - ends, hi)]))
    whole = unary_union(shapes)
    ring = whole.simplify(0).exterior if isinstance(whole, Polygon) else box(0, 0, width, edges[-1]).exterior
    return Polygon(ring.coords)


def _parts_of_rows(plan: Plan, kind: Kind, edges: tuple[float, ...]) -> tuple[Part, ...]:
    if len(plan.sections) >= len(kind.parts):
        taken = [_taken(plan, kind, i) for i in range(len(kind.parts))]
        return tuple(_whole(rule, taken[i], edges, _own_name(taken, i)) for i, rule in enumerate(kind.parts))
    cuts = [_nearest(edges, at) for at in _cuts(plan, kind, edges[-1])]
    bounds = list(pairwise(cuts))
    return tuple(
        Part(rule.role, rule.role, a + 1, b, edges[a], edges[b])
        for rule, (a, b) in zip(kind.parts, bounds, strict=True)
    )


def strip_of(plan: Plan) -> str:
    """The name of the direction along which the piece is folded."""
    return directions(plan.kind, plan.object_mm)[1] if plan.kind in OBJECT_KINDS else "wrap"


def _parts_of_stitches(plan: Plan, kind: Kind, hand: str, width: float) -> tuple[Part, ...]:
    """Parts across the row. A book's front flap lies left seen from the inside, so right seen from outside.

    Stitches count from row 1's beginning, at the right for a right-hander. Parts one above the other are
    laid with the left edge (right side up) at the foot, so there the first part begins at the left.
    """
    per, many = plan.stitch_mm, plan.stitches
    cuts = [min(many, max(0, int(at / per + 0.5))) for at in _cuts(plan, kind, width)]
    found = []
    for rule, a, b in zip(kind.parts, cuts, cuts[1:], strict=False):
        lo, hi = (many - b, many - a) if kind.turned == "sideways" else (a, b)
        numbers = (many - hi + 1, many - lo) if hand == "right" else (lo + 1, hi)
        found.append(Part(rule.role, rule.role, *numbers, lo * per, hi * per))
    return tuple(found)


def _taken(plan: Plan, kind: Kind, index: int) -> tuple[SectionPlan, ...]:
    """The sections of one part: the parts before "rest" take one each from the start, those after it from
    the end.
    """
    rest = next(i for i, rule in enumerate(kind.parts) if rule.take == "rest")
    after = len(kind.parts) - rest - 1
    if index < rest:
        return (plan.sections[index],)
    if index > rest:
        return (plan.sections[len(plan.sections) - len(kind.parts) + index],)
    return plan.sections[rest : len(plan.sections) - after]


def _own_name(taken: list[tuple[SectionPlan, ...]], index: int) -> str:
    """The section's own name where one section makes the part and no other part is called the same."""
    names = [s[0].name if len(s) == 1 else "" for s in taken]
    return names[index] if names.count(names[index]) == 1 else ""


def _whole(rule: PartRule, sections: tuple[SectionPlan, ...], edges: tuple[float, ...], name: str) -> Part:
    first, last = sections[0].first_row, sections[-1].first_row + sections[-1].rows - 1
    return Part(rule.role, name or rule.role, first, last, edges[first - 1], edges[last])


def _cuts(plan: Plan, kind: Kind, total: float) -> list[float]:
    """Where the parts begin and end by the object's measurements, in mm from the first part's free end."""
    given = {i: _measured(plan, kind, rule) for i, rule in enumerate(kind.parts) if rule.measure not in _REST}
    left = total - sum(given.values())
    shares = [i for i in range(len(kind.parts)) if i not in given]
    for i in shares:
        given[i] = left / len(shares)
    if shares and left <= 0:
        raise _problem(
            f"the parts with a measure of their own need {show_length(total - left, plan.unit)} and the "
            f"whole piece is {show_length(total, plan.unit)}, so nothing is left for the "
            f"{kind.parts[shares[0]].role}",
            "make the piece longer, or the flap shorter",
        )
    return [0.0, *accumulate(given[i] for i in range(len(kind.parts)))]


_REST = ("rest", "half of the rest")


def _measured(plan: Plan, kind: Kind, rule: PartRule) -> float:
    value = plan.object_mm.get(rule.measure, 0.0)
    if rule.measure == "flap" and plan.flap_stitches and plan.chain_along == strip_of(plan):
        return plan.flap_stitches * plan.stitch_mm
    if value <= 0:
        raise _problem(
            f"a {kind.name} has a {rule.role}, and neither a section nor the object's {rule.measure} says "
            "how long it is",
            f'give "{rule.measure}" in [object], or a [[section]] for each of: {", ".join(_roles(kind))}',
        )
    return value


def _roles(kind: Kind) -> list[str]:
    return [p.role for p in kind.parts]


def _nearest(edges: tuple[float, ...], at: float) -> int:
    return min(range(len(edges)), key=lambda i: abs(edges[i] - at))


def _problem(says: str, remedy: str) -> PatternError:
    return PatternError([Problem("fold", "Folding", says, remedy)])
