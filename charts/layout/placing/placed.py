"""Where the things of a row stand: in stitch widths, y downward, seen from the right side of the work."""

from __future__ import annotations

import functools
import math
from collections.abc import Callable, Iterable, Sequence
from typing import Literal

from hookfold.symbols import Clasp, Point

from ...made_late import dataclass, replace
from ...model.cloth.fabric import Role
from ...pattern.tree import Hold

#: What a thing is to its row: what it is in the work; "risen" what is drawn and no row goes into as it lies there;
#: "unseen" what a picture of the fabric leaves out.
SpotRole = Role | Literal["risen", "unseen"]
Oval = tuple[float, float, float]
#: The stem of a stitch, from its head to its foot.
Stem = tuple[Point, Point]

#: From the middle of a chain to where a foot stands on it.
CHAIN_HALF = 0.24


@dataclass(frozen=True, slots=True)
class Spot:
    """One item of a row, placed.

    `head` is where the next row goes into it; `feet` where its own legs stand; `ovals` are its chains as (x,
    y, angle in degrees), in the order of work; `curve` the middle line of a chain run in the order of work.
    `size` is that of its chains, or how wide the bar of a stitch is in a crowd, as a share of its own.
    `angle_deg` is the direction of the row there, clockwise from level; `behind` are the stems of its own row that run
    in front of this one, and `crosses` says that it crosses others. `own_height` is how much of a stitch that reaches
    past the row below stands in its own row; 0 for all others. `route` is the line of a stem that winds from its head
    down between the stitches of other rows, `hidden` the shares of it that go behind them. `signed` says whether how it
    holds is drawn here: of those that share a place only the middle one shows it. `under` are the stems of a later
    row's stitches that run in front of this one. `clasps` are where its hooks close round the stems of the stitches it
    goes round, one for each foot, `unseen` the stretches that hide its hooks; `clasped` are the stretches of others'
    hooks that hide it. `shared` says whether others stand in one place with it.
    `led` are the shares of a run of chains, at its two ends, that only lead out from under a fan.
    """

    item: int
    kind: str
    role: SpotRole
    head: Point
    feet: tuple[Point, ...] = ()
    hold: Hold = "top"
    legs: int = 0
    chains: int = 0
    ovals: tuple[Oval, ...] = ()
    size: float = 1.0
    curve: tuple[Point, ...] = ()
    angle_deg: float = 0.0
    base: str = ""
    behind: tuple[Stem, ...] = ()
    crosses: bool = False
    own_height: float = 0.0
    route: tuple[Point, ...] = ()
    hidden: tuple[float, float] | None = None
    signed: bool = True
    under: tuple[Stem, ...] = ()
    clasps: tuple[Clasp, ...] = ()
    unseen: tuple[Stem, ...] = ()
    clasped: tuple[Stem, ...] = ()
    shared: bool = False
    led: tuple[float, float] = (0.0, 0.0)

    @property
    def is_posted(self) -> bool:
        """Whether the stitch goes round a post: by its own kind, or by how it holds."""
        return self.hold.endswith("post") or self.kind.startswith(("FP", "BP"))

    @property
    def is_beside_chain(self) -> bool:
        """Whether the stitch is gathered of a beginning chain and of legs in one place beside it."""
        gathered = self.role == "stitch" and self.chains > 0 and self.legs > 1 and self.kind != "picot"
        return gathered and len(self.feet) > 1 and len(set(self.feet[1:])) == 1 and self.feet[0] != self.feet[1]

    def moved(self, dx: float, dy: float) -> Spot:
        """The spot shifted by (dx, dy)."""
        return replace(
            self,
            head=(self.head[0] + dx, self.head[1] + dy),
            feet=tuple((x + dx, y + dy) for x, y in self.feet),
            ovals=tuple((x + dx, y + dy, angle) for x, y, angle in self.ovals),
            curve=tuple((x + dx, y + dy) for x, y in self.curve),
            behind=_each(self.behind, lambda p: (p[0] + dx, p[1] + dy)),
            route=tuple((x + dx, y + dy) for x, y in self.route),
            under=_each(self.under, lambda p: (p[0] + dx, p[1] + dy)),
            clasps=tuple(replace(c, at=(c.at[0] + dx, c.at[1] + dy)) for c in self.clasps),
            unseen=_each(self.unseen, lambda p: (p[0] + dx, p[1] + dy)),
            clasped=_each(self.clasped, lambda p: (p[0] + dx, p[1] + dy)),
        )

    def mirrored(self) -> Spot:
        """The spot seen in a mirror whose plane is x = 0."""
        return replace(
            self,
            head=(-self.head[0], self.head[1]),
            feet=tuple((-x, y) for x, y in self.feet),
            ovals=tuple((-x, y, -angle) for x, y, angle in self.ovals),
            curve=tuple((-x, y) for x, y in self.curve),
            behind=_each(self.behind, lambda p: (-p[0], p[1])),
            route=tuple((-x, y) for x, y in self.route),
            under=_each(self.under, lambda p: (-p[0], p[1])),
            clasps=tuple(map(_other_side, self.clasps)),
            unseen=_each(self.unseen, lambda p: (-p[0], p[1])),
            clasped=_each(self.clasped, lambda p: (-p[0], p[1])),
            angle_deg=-self.angle_deg,
        )

    def rounded(self) -> Spot:
        """The spot with its places to a thousandth, so that rows laid alike are equal."""
        return replace(
            self,
            head=_round(self.head),
            feet=tuple(_round(p) for p in self.feet),
            ovals=tuple((round(x, 3), round(y, 3), round(a, 2)) for x, y, a in self.ovals),
            curve=tuple(_round(p) for p in self.curve),
            route=tuple(_round(p) for p in self.route),
            angle_deg=round(self.angle_deg, 1) + 0.0,
        )


@dataclass(frozen=True, slots=True, eq=False)
class Laid:
    """A row laid over the one below it: its spots by item, how far it rises above it (its level), and how
    close its tops may stand. `need` is how wide it is with tops one stitch apart, `crowd` the least share of the
    room that its arches would take beside stitches that lean out over them; `fans` are the items of its round fans and
    what stands out from round fans below, chains too."""

    spots: tuple[Spot, ...]
    rise: float
    pitch: float = 1.0
    need: float = 0.0
    crowd: float = 1.0
    fans: frozenset[int] = frozenset()

    def x_range(self) -> tuple[float, float]:
        """The leftmost and rightmost place of anything in the row."""
        box = _row_box(self)
        return box[0], box[2]

    def y_range(self) -> tuple[float, float]:
        """The highest and lowest place of anything in the row (y downward, 0 at the level below)."""
        box = _row_box(self)
        return box[1], box[3]


@functools.lru_cache(maxsize=4096)
def _row_box(row: Laid) -> tuple[float, float, float, float]:
    """The box of all places of a row; kept, since a row is asked for it once for every time it is worked."""
    xs = [x for spot in row.spots for x in _xs(spot)] or [0.0]
    ys = [y for spot in row.spots for y in _ys(spot)] or [0.0]
    return (min(xs), min(ys), max(xs), max(ys))


def _xs(spot: Spot) -> list[float]:
    return [spot.head[0], *(x for x, _, _ in spot.ovals), *(x for x, _ in spot.feet)]


def _ys(spot: Spot) -> list[float]:
    return [spot.head[1], *(y for _, y, _ in spot.ovals), *(y for _, y in spot.feet)]


def _each(stems: tuple[Stem, ...], to: Callable[[Point], Point]) -> tuple[Stem, ...]:
    return tuple((to(head), to(foot)) for head, foot in stems)


def _other_side(clasp: Clasp) -> Clasp:
    return replace(clasp, at=(-clasp.at[0], clasp.at[1]), up=(-clasp.up[0], clasp.up[1]), side=-clasp.side)


def held_by(spot: Spot) -> str:
    """How the feet of a stitch hold, by its kind or by what is said of them."""
    return {"FP": "front post", "BP": "back post"}.get(spot.kind[:2], spot.hold)


def turned(spot: Spot, by_deg: float) -> Spot:
    """A spot without chains, turned about the middle of its ink.

    >>> turned(Spot(0, "sl st", "travel", (0.0, -1.0), ((0.0, 1.0),)), 90.0).rounded().head
    (1.0, 0.0)
    """
    points = (spot.head, *spot.feet)
    mx, my = (sum(p[axis] for p in points) / len(points) for axis in (0, 1))
    cos, sin = math.cos(math.radians(by_deg)), math.sin(math.radians(by_deg))

    def about(p: Point) -> Point:
        dx, dy = p[0] - mx, p[1] - my
        return (mx + dx * cos - dy * sin, my + dx * sin + dy * cos)

    return replace(
        spot, head=about(spot.head), feet=tuple(map(about, spot.feet)), angle_deg=spot.angle_deg + by_deg
    )


def stack(foot: Point, head: Point, chains: int) -> tuple[tuple[float, float, float], ...]:
    """The middles of the chains of a beginning chain from foot to head, with the direction they run."""
    angle = math.degrees(math.atan2(head[1] - foot[1], head[0] - foot[0]))
    share = [(i + 0.5) / chains for i in range(chains)]
    return tuple((foot[0] + (head[0] - foot[0]) * t, foot[1] + (head[1] - foot[1]) * t, angle) for t in share)


def _round(point: Point) -> Point:
    return (round(point[0], 3) + 0.0, round(point[1], 3) + 0.0)


def along(curve: Sequence[Point], share: float) -> tuple[Point, float]:
    """The point at `share` (0 to 1) of a line's length, and the direction there in degrees."""
    return along_each(curve, (share,))[0]


def along_each(curve: Sequence[Point], shares: Iterable[float]) -> list[tuple[Point, float]]:
    """The points at several shares of one line's length, each as `along` gives it; the line is measured once."""
    lengths = list(map(math.dist, curve, curve[1:]))
    whole = sum(lengths)
    return [_at_length(curve, lengths, max(0.0, min(1.0, share)) * whole) for share in shares]


def _at_length(curve: Sequence[Point], lengths: Sequence[float], rest: float) -> tuple[Point, float]:
    """The point so far along a line whose pieces have these lengths, and the direction there in degrees."""
    for a, b, length in zip(curve, curve[1:], lengths, strict=False):
        if rest <= length and length > 0:
            t = rest / length
            at = (a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t)
            return at, math.degrees(math.atan2(b[1] - a[1], b[0] - a[0]))
        rest -= length
    a, b = curve[-2], curve[-1]
    return b, math.degrees(math.atan2(b[1] - a[1], b[0] - a[0]))
