"""Points: a run of chains and the stitches that are worked back along it, as in stars, leaves and fringes.

Such a point stands out from its row as a whole: its chains straight out, its stitches square to them, on the side that
the row goes on to (common practice, no source). Where rows are laid it takes the room of a picot as wide as its tallest
stitch; what stands there is drawn when the row lies.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from hookfold.symbols import Point, picot_radius

from ...made_late import dataclass, replace
from ...model.cloth.fabric import Fabric, Foot, Row, Stitch
from ..placing.laid import WIDEST, LaidFabric, lay_fabric
from ..placing.placed import CHAIN_HALF, Laid, Spot
from ..placing.tops import PICOT_ROOM, own_rise
from .sc_rings import sc_rings_of, with_ring_room, with_sc_ring

#: Fewer stitches than this along chains of their own are no point.
LEAST = 2
#: From one chain of a point to the next, from what it stands on to the first, and the white beside its tallest stitch.
PITCH, FOOT, BESIDE = 0.86, 0.45, 0.3
#: How often a foundation is set wider for points without room.
SPREADS = 3
#: How large the bars of its stitches are, which stand as close as its chains.
BAR = 0.9


@dataclass(frozen=True, slots=True)
class Spur:
    """A point: the item of its chains, those of its stitches from the tip down, and how tall the tallest is."""

    chain: int
    items: tuple[int, ...]
    tall: float


def spurs_of(row: Row) -> tuple[Spur, ...]:
    """The points of a row, in the order of work."""
    found, at = [], 0
    while at < len(row.stitches):
        items = _along(row.stitches, at) if row.stitches[at].role == "chain" else ()
        if len(items) >= LEAST:
            found.append(Spur(at, items, max(own_rise(row.stitches[i]) for i in items)))
        at += 1 + len(items)
    return tuple(found)


def _along(stitches: Sequence[Stitch], chain: int) -> tuple[int, ...]:
    """The stitches right after a run of chains that are worked back along it, each nearer to its beginning."""
    found: list[int] = []
    last = stitches[chain].chains
    for item in range(chain + 1, len(stitches)):
        feet = stitches[item].feet
        if not feet or any(f.back or f.at != chain or f.hold not in ("chain", "top", "back loop") for f in feet):
            break
        part = max(f.part for f in feet)
        if part >= last:
            break
        found.append(item)
        last = min(f.part for f in feet)
    return tuple(found)


def with_room(fabric: Fabric) -> Fabric:
    """A fabric to be laid: each point is a picot as wide as the point, and its stitches take no room of their own."""
    made, under = dict[int, Row](), _worked_into(fabric)
    for worked in fabric.rows:
        if id(worked.row) not in made:
            made[id(worked.row)] = _with_room(worked.row, under=id(worked.row) in under)
    if all(made[id(worked.row)] is worked.row for worked in fabric.rows):
        return fabric
    below = [worked.row for worked in fabric.rows]
    rows = (_into_rings(made[id(worked.row)], below[:k]) for k, worked in enumerate(fabric.rows))
    return replace(fabric, rows=tuple(replace(w, row=row) for w, row in zip(fabric.rows, rows, strict=True)))


def _worked_into(fabric: Fabric) -> set[int]:
    """The rows, by their id, of whose rings that single crochets close one at least is worked into."""
    rows = [worked.row for worked in fabric.rows]
    feet = [(k - f.back, f.at) for k, row in enumerate(rows) for s in row.stitches for f in s.feet if 0 < f.back <= k]
    rings = {(k, at) for k, row in enumerate(rows) for ring in sc_rings_of(row) for at in (ring.chain, ring.item)}
    return {id(rows[k]) for k, at in feet if (k, at) in rings}


def _into_rings(row: Row, below: Sequence[Row]) -> Row:
    """A row whose feet go into the picots that stand for rings of the rows `below`, whatever they hold there."""
    def led(foot: Foot) -> Foot:
        rings = sc_rings_of(below[-foot.back]) if 0 < foot.back <= len(below) else ()
        place = next((ring.place for ring in rings if foot.at in (ring.chain, ring.item) and not ring.lead), foot.at)
        return foot if place == foot.at else replace(foot, at=place, hold="picot")

    stitches = tuple(replace(s, feet=feet) if (feet := tuple(map(led, s.feet))) != s.feet else s for s in row.stitches)
    return row if all(a is b for a, b in zip(stitches, row.stitches, strict=True)) else replace(row, stitches=stitches)


def _with_room(row: Row, *, under: bool) -> Row:
    spurs, rings = spurs_of(row), sc_rings_of(row)
    if rings:
        row = with_ring_room(row, rings, under=under)
    if not spurs:
        return row
    stitches = list(row.stitches)
    for spur in spurs:
        stitches[spur.chain] = replace(stitches[spur.chain], kind="picot", role="picot", chains=_as_wide(spur))
        for item in spur.items:
            stitches[item] = Stitch("edge", (), "edge", 0)
    return replace(row, stitches=tuple(stitches))


def _as_wide(spur: Spur) -> int:
    """The chains of the picot that takes as much room along a row as a point."""
    return next(n for n in range(1, 60) if PICOT_ROOM * 2.0 * picot_radius(n) >= spur.tall + 2.0 * BESIDE)


def with_points(spots: Sequence[Spot], row: Row, *, closed: bool) -> tuple[Spot, ...]:
    """The spots of a row that was laid `with_room`, its points drawn; `closed` where it comes round to its start."""
    out = list(spots)
    for spur in spurs_of(row):
        out = list(_drawn(out, row, spur, closed=closed))
    for ring in sc_rings_of(row):
        out = with_sc_ring(out, row, ring)
    return tuple(spot.rounded() for spot in out)


def _drawn(spots: Sequence[Spot], row: Row, spur: Spur, *, closed: bool) -> Sequence[Spot]:
    """The spots with one point drawn where its picot stands."""
    picot, out = spots[spur.chain], list(spots)
    (x, y), (a, b) = picot.feet[0], picot.head
    tall = math.dist((x, y), (a, b)) or 1.0
    up = ((a - x) / tall, (b - y) / tall)
    before, after = _neighbours(spots, row, spur, closed=closed)
    (p, q), (u, v) = before or (x, y), after or (x, y)
    on = (-up[1], up[0]) if (u - p) * -up[1] + (v - q) * up[0] >= 0.0 else (up[1], -up[0])
    half = spur.tall / 2.0 + BESIDE
    if before and after and math.dist(before, after) > 1e-6:  # midway between them, square to the way
        x, y, over = (p + u) / 2.0, (q + v) / 2.0, math.dist(before, after)
        on = ((u - p) / over, (v - q) / over)
        up = (on[1], -on[0]) if on[1] * up[0] - on[0] * up[1] >= 0.0 else (-on[1], on[0])
    elif before or after:  # a row begins or ends with it: as far from that stitch as it is wide
        far = half if before else -half
        x, y = p + on[0] * far if before else u + on[0] * far, q + on[1] * far if before else v + on[1] * far
    back = (spur.tall + CHAIN_HALF) / 2.0
    many, (x, y) = row.stitches[spur.chain].chains, (x - on[0] * back, y - on[1] * back)
    places = [(x + up[0] * (FOOT + PITCH * k), y + up[1] * (FOOT + PITCH * k)) for k in range(many)]
    angle = math.degrees(math.atan2(up[1], up[0]))
    both = ((places[0], -0.5 * PITCH), (places[-1], 0.5 * PITCH))
    ends = [(p + up[0] * far, q + up[1] * far) for (p, q), far in both]
    made = row.stitches[spur.chain]
    out[spur.chain] = Spot(
        spur.chain, made.kind, "chain", ends[1], chains=made.chains, curve=(ends[0], *places, ends[1]),
        ovals=tuple((p, q, angle) for p, q in places),
    )  # fmt: skip
    turn = math.degrees(math.atan2(on[0], -on[1]))
    for item in spur.items:
        stitch = row.stitches[item]
        feet = [places[min(f.part, len(places) - 1)] for f in stitch.feet]
        out[item] = _beside(item, stitch, feet, on, turn)
    return out


def _beside(item: int, made: Stitch, chains: Sequence[Point], on: Point, turn: float) -> Spot:
    """A stitch of a point, square to the chains that it goes into."""
    feet = tuple((x + on[0] * CHAIN_HALF, y + on[1] * CHAIN_HALF) for x, y in chains)
    x, y = (sum(p[axis] for p in feet) / len(feet) for axis in (0, 1))
    rise = own_rise(made)
    if made.kind == "sl st":
        at = (x + on[0] * rise / 2.0, y + on[1] * rise / 2.0)
        return Spot(item, made.kind, "stitch", at, (at,), angle_deg=turn)
    head = (x + on[0] * rise, y + on[1] * rise)
    return Spot(
        item, made.kind, "stitch", head, feet, made.feet[0].hold, made.legs, size=BAR, angle_deg=turn, base=made.base
    )


def _neighbours(spots: Sequence[Spot], row: Row, spur: Spur, *, closed: bool) -> tuple[Point | None, Point | None]:
    """The heads before and after a point of what stands in the row itself."""
    around = [i for i, s in enumerate(row.stitches) if s.role in ("stitch", "turning") and not _in_spur(s)]
    before, after = [i for i in around if i < spur.chain], [i for i in around if i > spur.items[-1]]
    if closed and around:
        before, after = before or around, after or around
    return spots[before[-1]].head if before else None, spots[after[0]].head if after else None


def _in_spur(made: Stitch) -> bool:
    return bool(made.feet) and all(f.back == 0 for f in made.feet)


def _room(laid: LaidFabric, fabric: Fabric) -> float:
    """The share of the way that a point takes which the narrowest has between its neighbours."""
    shares = [1.0]
    for course, worked in zip(laid.courses, fabric.rows, strict=True):
        for spur in spurs_of(worked.row):
            before, after = _neighbours(course.laid.spots, worked.row, spur, closed=False)
            if before and after:
                shares.append(math.dist(before, after) / (spur.tall + 2.0 * BESIDE))
    return max(min(shares), 0.2)


def lay_flat(fabric: Fabric) -> LaidFabric:
    """A flat fabric laid row upon row, its points standing out."""
    with_picots = with_room(fabric)
    laid = lay_fabric(with_picots)
    if with_picots is fabric:
        return laid
    for _ in range(SPREADS):
        room = _room(laid, fabric)
        if room >= 1.0 or laid.spacing >= WIDEST:
            break
        laid = lay_fabric(with_picots, min(laid.spacing / room, WIDEST))
    drawn: dict[int, Laid] = {}
    courses = []
    for course, worked in zip(laid.courses, fabric.rows, strict=True):
        key = id(course.laid)
        if key not in drawn:
            drawn[key] = replace(course.laid, spots=with_points(course.laid.spots, worked.row, closed=False))
        courses.append(replace(course, worked=worked, laid=drawn[key]))
    return replace(laid, courses=tuple(courses))

