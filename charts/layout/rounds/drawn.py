"""Relaxed rounds as spots: heads and feet, chains along their arches, what lies at the seam."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import field

from hookfold.symbols import Point

from ...made_late import dataclass, replace
from ...model.cloth.fabric import Foot, Stitch
from ...model.cloth.shapes import is_backward, run_size
from ..placing.behind import crossed
from ..placing.chain_room import LEAST_PITCH, arch_for, length
from ..placing.chain_runs import along_line, picot_between, run_ends
from ..placing.feet import Bases, Footing, footings, on_chains
from ..placing.placed import CHAIN_HALF, Laid, Spot, along_each, stack
from ..placing.row import stitch_spot
from ..placing.tops import Slot, own_rise
from ..placing.tracks import CircleWay, OvalWay, PolygonWay, Way
from ..shapes.ring import Ring
from ..shapes.seam import ARMS_OFF, DOT_OFF, at_seam, is_tight, label_tries
from .net import Net
from .plan import Planned, Top, closes_chains, gone_round, loop_size
from .relaxing import Places

#: White between a beginning chain and what it stands on: two of them in one line must not be read as one.
RISE_FREE = 0.16
#: The same where others fan from the point it stands on, and how near two points are one.
RISE_SHARED, ONE_POINT = 0.55, 0.45
#: From the middle of a beginning chain to the stem of the second stitch beside its foot; the steps in which it is
#: lifted off that stem, and how many are tried.
RISE_ASIDE, STEP_UP, HIGHEST_STEPS = 0.3, 0.04, 10
#: How far below its head the arms of a cross lie, and of one that shares its place.
ARMS_DOWN, ARMS_SHARED = 0.5, 0.4
#: The white and the pen between neighbours' bars, the width of a bar, and the least share of it in a crowd.
CROWD_WHITE, BAR_INK, NARROWEST = 0.17, 0.66, 0.45
#: A cross on a stitch is turned outward: its foot goes this share of the way to its head along the round, and so far at
#: most. Those that share a stitch are turned as one and lean apart from one foot, which is how an increase is told; one
#: that has it to itself stands on it.
TURNED, MOST_TURNED, MOST_ALONE = 0.7, 0.3, 0.06
#: Half the width and half the height at which feet stand about the chain at an end of an oval.
END_WIDE, END_HIGH = 0.52, 0.34
#: In how many pieces a run of chains is taken that a stitch ends, and how far beyond the last chain that begins; how
#: far from the head of the first stitch it stands, the least share of its height, and the least way for each chain.
PARTS, CLOSING_FREE, ON_FIRST, CLOSING_TALL, CLOSEST_CHAINS = 16, 0.18, 0.2, 0.72, 0.42
#: What the pen and the white beside a stem take of twice the way to it.
ARMS_WHITE = 0.12


@dataclass(slots=True)
class Drawing:
    """One round being drawn where it was placed."""

    net: Net
    places: Places
    k: int
    bases: Bases
    way: Way
    level: float
    _hooked: frozenset[int] = field(init=False, default=frozenset())

    def __post_init__(self) -> None:
        hooked = gone_round([each.row for each in self.net.rounds])
        self._hooked = frozenset(item for k, item in hooked if k == self.k)

    @property
    def round(self) -> Planned:
        return self.net.rounds[self.k]

    def ring(self) -> Ring:
        """The round with all its spots."""
        row, found = self.round.row, self._footings()
        slots = self._slots(found)
        spots: dict[int, Spot] = {}
        for slot in slots:
            out = self.way.out(slot.u)
            angle = math.degrees(math.atan2(out[0], -out[1]))
            spots[slot.item] = replace(self._top(slot, spots, slots), angle_deg=angle)
        for slot, size in zip(slots, self._sizes(slots, [spots[s.item] for s in slots]), strict=True):
            spots[slot.item] = replace(spots[slot.item], size=size)
        for t, (a, b) in enumerate(itertools.pairwise([*slots, slots[0]])):
            spots.update(self._bridge(t, a, b, spots))
        for item, made in enumerate(row.stitches):
            if item not in spots:
                ends = (slots[-1], slots[0])
                spots[item] = at_seam(item, made, found[item], ends, self.level, self.way, self._base(made))
        outer = sum(s.v for s in slots) / len(slots)
        whole = crossed([spots[i].rounded() for i in range(len(row.stitches))], row, self.way)
        laid = Laid(whole, outer - self.level)
        tries = label_tries(slots, self.level, self.way)
        tries = tuple(beside.backward() for beside in tries) if is_backward(row) else tries
        return Ring(self.k, self.round.worked, laid, self.level, outer, tries)

    def _base(self, made: Stitch) -> Spot | None:
        """What a thing on one foot goes into."""
        foot = made.feet[0] if len(made.feet) == 1 else None
        spots = self.bases.get(foot.back, ()) if foot else ()
        return spots[foot.at] if foot and 0 <= foot.at < len(spots) else None

    def _sizes(self, slots: Sequence[Slot], spots: Sequence[Spot]) -> list[float]:
        """How wide each stitch is drawn, by how near its neighbours stand where they are widest."""
        pairs = zip(self.round.tops, itertools.pairwise([*spots, spots[0]]), strict=True)
        gaps = [2.0 if top.chains else _between(a, b) for top, (a, b) in pairs]
        near = [min(gaps[t - 1], gaps[t]) if len(gaps) > 1 else 2.0 for t in range(len(gaps))]
        wide = [(gap - CROWD_WHITE) / BAR_INK for gap in near]
        if self._seam_is_tight(slots):
            half, joined = _between(spots[-1], spots[0]) / 2.0, any(s.role == "join" for s in self.round.row.stitches)
            for t in (0, len(spots) - 1):
                off = ARMS_OFF if spots[t].kind == "sc" else DOT_OFF if joined else 0.0
                wide[t] = min(wide[t], 2.0 * (half - off) / BAR_INK)
        return [round(min(max(share, NARROWEST), 1.0), 2) for share in wide]

    def _seam_is_tight(self, slots: Sequence[Slot]) -> bool:
        """Whether a beginning chain that does not count stands between neighbours."""
        return any(s.role == "start" for s in self.round.row.stitches) and is_tight(slots[-1], slots[0], self.way)

    def _footings(self) -> list[tuple[Footing, ...]]:
        """Where every item goes in; in spaces spread as they were placed."""
        found = footings(self.round.row, self.bases, self.way, closed=True)
        for t, top in enumerate(self.round.tops):
            if any(f.hold == "space" for f in top.made.feet) and len(found[top.item]) == len(top.made.feet):
                pairs = zip(top.made.feet, found[top.item], strict=True)
                found[top.item] = tuple(self._spaced(t, foot, footing) for foot, footing in pairs)
            elif self.k == 0 and isinstance(self.way, OvalWay):
                head = self.places.heads[0][t]
                pairs = zip(top.made.feet, found[top.item], strict=False)
                found[top.item] = tuple(self._round_end(foot, f, (head.real, -head.imag)) for foot, f in pairs)
            elif self._is_turned(top):
                found[top.item] = (self._turned(found[top.item][0], top),)
        return found

    @property
    def _has_chains(self) -> bool:
        """Whether the round is not of stitches alone."""
        return any(top.bridge for top in self.round.tops)

    def _is_turned(self, top: Top) -> bool:
        """Whether a top is a cross that stands on one stitch of the round inside, with no chains beside it, and turns
        about a middle: along the side of a shape it stands square to that."""
        foot = top.made.feet[0] if len(top.made.feet) == 1 else None
        if foot is None or self._has_chains or isinstance(self.way, PolygonWay):
            return False
        if foot.back != 1 or foot.hold not in ("top", "front loop", "back loop"):
            return False
        spots = self.bases.get(1, ())
        return top.made.kind == "sc" and self.k > 0 and 0 <= foot.at < len(spots) and spots[foot.at].role == "stitch"

    def _turned(self, footing: Footing, top: Top) -> Footing:
        """A foot moved along the round towards the middle of the heads of all that share it."""
        u, v = self.way.u(footing.point), self.way.v(footing.point)
        unit, heads = self.way.unit(v), zip(self.round.tops, self.places.heads[self.k], strict=True)
        over = [self.way.u((z.real, -z.imag)) for other, z in heads if other.made.feet == top.made.feet]
        aside = TURNED * sum(self.way.near(at, u) - u for at in over) / len(over) / unit
        most = MOST_TURNED if len(over) > 1 else MOST_ALONE
        point = self.way.at(u + min(max(aside, -most), most) * unit, v)
        return replace(footing, point=point)

    def _round_end(self, foot: Foot, footing: Footing, head: Point) -> Footing:
        """A foot in the chain at an end of an oval's foundation: on the side of the chain that its head lies on."""
        base = self.bases[1][foot.at] if foot.back == 1 and foot.at < len(self.bases[1]) else None
        if base is None or not base.ovals or base.head[1]:
            return footing
        x, y, _ = base.ovals[0]
        turn = math.atan2((head[1] - y) / END_HIGH, (head[0] - x) / END_WIDE)
        point = (x + END_WIDE * math.cos(turn), y + END_HIGH * math.sin(turn))
        return Footing(point, self.way.v(point))

    def _spaced(self, t: int, foot: Foot, footing: Footing) -> Footing:
        down = self.k - foot.back
        if foot.hold != "space" or down < 0 or foot.at not in self.net.rounds[down].runs:
            return footing
        run = self.net.rounds[down].runs[foot.at]
        share = 0.5 + self.net.aside(self.k, t, foot) / (run.last - run.first)
        point = on_chains(self.bases[foot.back][foot.at], share, self.way)
        return Footing(point, self.way.v(point))

    def _slots(self, found: Sequence[tuple[Footing, ...]]) -> list[Slot]:
        slots = []
        for top, head in zip(self.round.tops, self.places.heads[self.k], strict=True):
            at = (head.real, -head.imag)
            feet = () if _in_ring(top, found[top.item], self.way) else found[top.item]
            u = self.way.u(at)
            want = sum(self.way.near(self.way.u(f.point), u) for f in feet) / len(feet) if feet else u
            perch = sum(f.perch for f in feet) / len(feet) if feet else self.level
            rise = perch + own_rise(top.made)
            slots.append(Slot(top.item, top.made, feet, want, rise, u, self.way.v(at), list(top.bridge)))
        return slots

    def _top(self, slot: Slot, spots: dict[int, Spot], slots: Sequence[Slot]) -> Spot:
        """A placed top; one that goes into the ring stands on it straight below its head."""
        spot = stitch_spot(slot, spots, self.way, self.level)
        if slot.stitch.role != "turning":
            return spot
        (x, y), (a, b) = spot.feet[0], spot.head
        free = RISE_SHARED if not slot.feet and _shares_its_foot(spot, slots) else RISE_FREE
        share = free / max(math.dist(spot.feet[0], spot.head), 1.0)
        share = max(share, _clear_of(spot, slots[1], self.way)) if len(slots) > 1 else share
        foot = (x + (a - x) * share, y + (b - y) * share)
        return replace(spot, feet=(foot, *spot.feet[1:]), ovals=stack(foot, spot.head, slot.stitch.chains))

    def _bridge(self, t: int, a: Slot, b: Slot, spots: dict[int, Spot]) -> dict[int, Spot]:
        """The chains and picots after a top; picots alone stand between it and the next."""
        row, top = self.round.row, self.round.tops[t]
        if not top.bridge:
            return {}
        if not top.chains:
            return {i: picot_between(i, row.stitches[i], spots[a.item], spots[b.item], self.way) for i in top.bridge}
        middle = self.places.arches[self.k][t]
        line = self._line(a, b, spots, (middle.real, -middle.imag), top.chains * LEAST_PITCH + top.picots)
        if closes_chains(row, top.bridge[-1]):
            return self._closed(top, line, spots[b.item])
        return along_line(row, top.bridge, line, top.chains, top.picots, self.way)

    def _closed(self, top: Top, line: tuple[Point, ...], first: Spot) -> dict[int, Spot]:
        """Chains whose run a stitch ends that joins the round: it stands on the round's first stitch and leans along
        the rest of the arch, which as a whole is the space."""
        row, (*chains, item) = self.round.row, top.bridge
        made = row.stitches[item]
        drawn = top.chains - (loop_size(row, item - 1) - row.stitches[item - 1].chains)
        foot = _towards(first.head, line[-1], ON_FIRST)
        line = (*line[:-1], foot)
        share = self._closed_share(line, drawn + top.picots, item)
        part = tuple(at for at, _ in along_each(line, [share * k / PARTS for k in range(PARTS + 1)]))
        found = along_line(row, chains, part, drawn, top.picots, self.way)
        run = self.round.runs[chains[-1]]
        shares = [run.first + (1.0 - run.first) * k / PARTS for k in range(PARTS + 1)]
        curve = tuple(at for at, _ in along_each(line, shares))
        middle = curve[PARTS // 2]
        out = self.way.out(self.way.u(middle))
        head = (middle[0] + out[0] * CHAIN_HALF, middle[1] + out[1] * CHAIN_HALF)
        found[chains[-1]] = replace(found[chains[-1]], curve=curve, head=head)
        end = along_each(line, [min(share + CLOSING_FREE / max(length(line), 1e-6), 1.0)])[0][0]
        return found | {item: Spot(item, made.kind, "stitch", end, (foot,), legs=made.legs, base=made.base)}

    def _closed_share(self, line: tuple[Point, ...], drawn: float, item: int) -> float:
        """The share of an arch that its chains take, so many with its picots, whose last ones a stitch stands for: as
        they are to that stitch, less where it would be too short, but no less than they need."""
        row, whole = self.round.row, max(length(line), 1e-6)
        rest = run_size(row, item - 1) - row.stitches[item - 1].chains
        stem = CLOSING_TALL * own_rise(row.stitches[item]) + CLOSING_FREE
        return max(min(drawn / (drawn + rest), 1.0 - stem / whole), min(drawn * CLOSEST_CHAINS / whole, 0.5))

    def _line(self, a: Slot, b: Slot, spots: dict[int, Spot], middle: Point, least: float) -> tuple[Point, ...]:
        start, end = run_ends(spots[a.item], spots[b.item], middle, (a.item in self._hooked, b.item in self._hooked))
        out = self.way.out(self.way.u(((start[0] + end[0]) / 2.0, (start[1] + end[1]) / 2.0)))
        return arch_for(start, end, middle, least, out)


def _towards(a: Point, b: Point, far: float) -> Point:
    """The point so far from one on the way to another."""
    share = min(far / max(math.dist(a, b), 1e-6), 1.0)
    return (a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share)


def _clear_of(spot: Spot, second: Slot, way: Way) -> float:
    """From which share of its height on a beginning chain keeps off the stem of the second stitch; 0 where it does
    nowhere, as those that run side by side do."""
    if not second.feet:
        return 0.0
    (x, y), (a, b) = spot.feet[0], spot.head
    foot, head = second.feet[0].point, way.at(second.u, second.v)
    for k in range(HIGHEST_STEPS):
        share = k * STEP_UP
        if _off_segment((x + (a - x) * share, y + (b - y) * share), foot, head) >= RISE_ASIDE:
            return share
    return 0.0


def _shares_its_foot(spot: Spot, slots: Sequence[Slot]) -> bool:
    """Whether others fan from the very point that a beginning chain stands on."""
    others = [f.point for slot in slots if slot.item != spot.item for f in slot.feet]
    return any(math.dist(spot.feet[0], q) < ONE_POINT for q in others)


def _between(a: Spot, b: Spot) -> float:
    """The way between two stitches where they are widest; the arms of a cross must keep off a neighbour's stem."""
    crosses = [(s, other) for s, other in ((a, b), (b, a)) if s.kind == "sc"]
    beside = [2.0 * _off_stem(_widest(s), other) - ARMS_WHITE for s, other in crosses]
    return min([math.dist(_widest(a), _widest(b)), *beside])


def _off_stem(point: Point, spot: Spot) -> float:
    """How far a point lies from the stem of a stitch."""
    return _off_segment(point, spot.head, spot.feet[0] if spot.feet else spot.head)


def _off_segment(point: Point, one: Point, other: Point) -> float:
    """How far a point lies from the line between two others."""
    (x, y), (a, b) = one, other
    long = (a - x) ** 2 + (b - y) ** 2
    share = min(max(((point[0] - x) * (a - x) + (point[1] - y) * (b - y)) / max(long, 1e-9), 0.0), 1.0)
    return math.dist(point, (x + (a - x) * share, y + (b - y) * share))


def _widest(spot: Spot) -> Point:
    """Where a stitch is widest: at its arms, or at its head."""
    if spot.kind != "sc" or len(spot.feet) != 1:
        return spot.head
    share = (ARMS_SHARED if spot.shared else ARMS_DOWN) / max(math.dist(spot.head, spot.feet[0]), ARMS_DOWN)
    (x, y), (a, b) = spot.head, spot.feet[0]
    return (x + (a - x) * share, y + (b - y) * share)


def _in_ring(top: Top, feet: Sequence[Footing], way: Way) -> bool:
    """Whether a stitch goes into a ring, or a single chain, in the middle."""
    if any(f.hold == "ring" for f in top.made.feet):
        return True
    return isinstance(way, CircleWay) and bool(feet) and all(math.hypot(*f.point) < 0.45 for f in feet)
