"""Any stitch drawn between its feet and its head, and every glyph at its natural size for the keys."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from .chains import chain, chain_stack, picot
from .clasp import clasp_below, clasped_stem, hook, lane_of
from .dictionary import StitchKind, heights, known, stitch
from .groups import crosses_together, gathered, leg_frames, popcorn, puff, worked_together
from .ink import Box, Mark, Point, SubPath
from .loops import feet_marks, foot_mark, foot_of
from .pen import Frame, extent, frame, strokes
from .posts import HEAD_GAP, Foot, cross, cross_top, lifted, long_post, post, post_top, routed, slip, wave

#: Feet nearer than this are one foot.
ONE_FOOT = 0.05
#: How much deeper than its height a foot lies in the key; in a chart it is where it was worked.
DEPTHS = {"spike": 1.0}
#: How high the middle of a slip stitch lies over its foot where it holds a single loop or a post: off the arc, on the
#: end of the hook.
SLIP_ON = {"front loop": 0.38, "back loop": 0.52, "front post": 0.58, "back post": 0.66}
#: How a foot holds that a cross reaches down to however far it is: on the loop's arc, round the post.
_REACHED = tuple(SLIP_ON)
#: How the feet of a post stitch hold.
POSTED = ("front post", "back post")


@dataclass(frozen=True, slots=True)
class Glyph:
    """A stitch at its natural size: its ink, the exact box of that ink, its foot (0, 0) and its head."""

    kind: str
    mark: Mark
    box: Box
    foot: Point
    head: Point


@dataclass(frozen=True, slots=True)
class _Drawing:
    """Everything one stitch is drawn from."""

    what: StitchKind
    feet: tuple[Point, ...]
    head: Point
    hold: str
    sc_form: str
    behind: tuple[Point, ...]
    along_deg: float | None = None
    own_height: float = 0.0
    route: tuple[Point, ...] = ()
    hidden: tuple[float, float] | None = None
    signed: bool = True
    wide: float = 1.0
    crosses: bool = False
    reaches: bool = False

    @property
    def sign(self) -> str:
        """What is drawn of how the feet hold: nothing where that is drawn apart."""
        return self.hold if self.signed else "top"

    @property
    def form(self) -> str:
        """What of its form is drawn at the feet: no hook, where that is drawn apart."""
        return "plain" if self.what.form in POSTED and not self.signed else self.what.form

    @property
    def slashes(self) -> int:
        """Slashes: the yarn-overs of the plain stitch; a half double's one yarn-over has none."""
        return 0 if self.what.base == "hdc" else self.what.yarn_overs

    @property
    def foot(self) -> Foot:
        return foot_of(self.what.form, self.hold)


def draw(
    kind: str,
    feet: Sequence[Point],
    head: Point,
    *,
    hold: str = "top",
    legs: int = 0,
    chains: int = 0,
    sc_form: str = "plus",
    base: str = "",
    behind: Sequence[Point] = (),
    along_deg: float | None = None,
    own_height: float = 0.0,
    route: Sequence[Point] = (),
    hidden: tuple[float, float] | None = None,
    signed: bool = True,
    wide: float = 1.0,
    crosses: bool = False,
    reaches: bool = False,
) -> Mark:
    """The ink of a stitch between its feet and its head, in stitch widths.

    `kind` is a US name of the dictionary, or a special stitch's own: that one is drawn as `legs` legs of
    `base` (dc when not given) gathered as its name says (puff, popcorn, else as a bobble). `chains` draws a
    beginning chain of so many chains instead. `hold` is how the feet hold (see the model's table). `behind`
    are points where another post passes in front: the posts are broken there. `along_deg` is the direction of
    the row on the sheet, which the arms of a single crochet keep. `own_height` is how much of a post stitch
    stands in its own row, where it goes round a post further down than the row below. `route` is the line its stem
    follows from head to foot where it winds between other stitches, `hidden` the shares of that line which go behind
    them. Without `signed` what the feet hold is left out, though they keep clear of it: see `hold_sign`.
    `wide` is the share of their width that the bar, the slashes and the arms of a single stitch have in a crowd.
    `crosses` says that `route` is upright only as far below the head as its slashes reach. A single crochet
    that `reaches` its foot does so however far it is, as where it has it together with others; alone it keeps its size.

    >>> len(draw("dc", [(0.0, 0.0)], (0.0, -2.1)).strokes)   # stem, bar, one slash
    3
    """
    if not feet:
        raise ValueError(f"{kind} needs a foot to be drawn from")
    if chains:
        return chain_stack(feet[0], head, chains)
    what = kind_of(kind, legs, base)
    return _DRAWN[what.form](
        _Drawing(
            what, tuple(feet), head, hold, sc_form, tuple(behind), along_deg, own_height, tuple(route), hidden, signed,
            wide, crosses, reaches,
        )
    )


def hold_sign(feet: Sequence[Point], head: Point, hold: str, along_deg: float | None = None) -> Mark:
    """What says how feet hold, drawn apart from their stitches: those of a fan share one sign.

    >>> [len(hold_sign([(0.0, 0.0)], (0.0, -2.1), hold).strokes) for hold in ("back loop", "top")]
    [1, 0]
    """
    frames = [frame(feet[0], head)] if len(feet) == 1 else leg_frames(feet, head)
    return feet_marks(frames, "plain", hold, along_deg)


def beneath(kind: str, hold: str = "top") -> Mark:
    """The stitch that the hook of a glyph closes round, to be shown with it in a paler tone; empty where it has
    no hook.

    >>> [len(beneath(kind).strokes) for kind in ("FPdc", "BPdc", "dc")]   # a bar and a stem, whole or in two pieces
    [3, 2, 0]
    """
    form = stitch(kind).form if known(kind) else ""
    held = next((h for h in (form, hold) if h in POSTED), "")
    return clasped_stem(front=held == "front post") if held else Mark()


def kind_of(kind: str, legs: int = 0, base: str = "") -> StitchKind:
    """The dictionary's stitch of this name, or the gathered stitch that a special one is made of."""
    if known(kind):
        return stitch(kind)
    return stitch(f"{base if base in heights() else 'dc'}-{_shape_of(kind)}-{max(legs, 2)}")


def _shape_of(kind: str) -> str:
    """How a special stitch is gathered, by its own name."""
    name = kind.lower()
    if "puff" in name:
        return "puff"
    return "popcorn" if name in ("pc", "pop") or "popcorn" in name else "bobble"


def _single(d: _Drawing) -> Mark:
    """One post, or several legs of post stitches."""
    if len(d.feet) > 1:
        return _several(d)
    way = frame(d.feet[0], d.head)
    if d.what.base == "sl st":
        return _slip(way, d)
    if d.route:
        return _routed(d)
    if d.own_height and {d.what.form, d.hold} & set(POSTED):
        lane = lane_of(behind="back post" in (d.what.form, d.hold))
        return long_post(way, d.own_height, d.slashes, lane) + _long_hook(way, d)
    holds = foot_mark(way, d.form, d.sign, d.along_deg)
    if d.what.base == "sc":
        alone = d.what.form == "plain" and d.hold not in _REACHED and not d.reaches and not d.own_height
        here = lifted(way, d.along_deg) if alone else way
        return cross(here, d.sc_form, d.behind, d.foot, d.along_deg, d.wide, reaches=d.reaches) + holds
    return post(way, d.slashes, d.behind, d.foot, d.wide) + holds


def _long_hook(way: Frame, d: _Drawing) -> Mark:
    """The hook of a post stitch round a post further down, from beside what it passes."""
    held = {d.form, d.sign} & set(POSTED)
    if not held:
        return Mark()
    behind = "back post" in held
    start = (way.foot[0] + lane_of(behind=behind), d.head[1] + d.own_height)
    clasp = clasp_below(Frame(way.foot, (0.0, -1.0), way.length), behind=behind)
    return hook(start, (0.0, 1.0), clasp, behind=behind)


def _slip(way: Frame, d: _Drawing) -> Mark:
    """A slip stitch; in a single loop it lies on that loop's arc."""
    lift = SLIP_ON.get(d.hold, 0.0)
    if not lift:
        return slip(way)
    turn = math.radians(way.angle_deg if d.along_deg is None else d.along_deg)
    upright = Frame(way.foot, (math.sin(turn), -math.cos(turn)), 2.0 * lift)
    return slip(upright) + foot_mark(way, d.form, d.sign, d.along_deg)


def _routed(d: _Drawing) -> Mark:
    """A stitch that reaches down past other rows: its stem winds between their stitches."""
    way = frame(d.feet[0], d.route[-2])
    holds = foot_mark(way, d.form, d.sign, d.along_deg)

    def top(own: Frame) -> tuple[SubPath, ...]:
        if d.what.base == "sc":
            return cross_top(own, d.sc_form, d.along_deg)
        return post_top(own, d.slashes, crosses=d.crosses)

    upright = math.dist(d.route[0], d.route[1]) if d.crosses else 1.0
    return routed(d.route, (HEAD_GAP, d.foot.up), d.hidden, top, upright) + holds


def _several(d: _Drawing) -> Mark:
    """Legs from separate feet; where all feet are one, a gathered stitch."""
    feet = d.feet if len(d.feet) > 1 else d.feet * max(d.what.legs, 1)
    if _spread(feet) < ONE_FOOT and len(feet) > 1:
        return _gather(d, len(feet))
    holds = feet_marks(leg_frames(feet, d.head), d.form, d.sign, d.along_deg)
    if d.what.base == "sc":
        return crosses_together(feet, d.head, d.sc_form, d.foot) + holds
    return worked_together(feet, d.head, d.slashes, d.foot, behind=d.behind) + holds


def _spread(feet: Sequence[Point]) -> float:
    return max(math.dist(feet[0], f) for f in feet)


def _gathered_form(d: _Drawing) -> Mark:
    if _spread(d.feet) >= ONE_FOOT:
        return _several(d)
    if d.what.shape == "popcorn":
        way = frame(d.feet[0], d.head)
        return popcorn(way, d.what.legs, d.slashes, d.foot) + foot_mark(way, "", d.sign, d.along_deg)
    if d.what.shape == "puff":
        way = frame(d.feet[0], d.head)
        return puff(way, d.what.legs, d.foot) + foot_mark(way, d.form, d.sign, d.along_deg)
    return _gather(d, d.what.legs)


def _gather(d: _Drawing, legs: int) -> Mark:
    way = frame(d.feet[0], d.head)
    return gathered(way, legs, d.slashes, d.foot) + foot_mark(way, d.form, d.sign, d.along_deg)


def _reverse(d: _Drawing) -> Mark:
    """Worked backwards: the plain stitch a little lower, with a curve over it."""
    way = frame(d.feet[0], d.head)
    lower = _Drawing(stitch(d.what.base), d.feet, way.at(0.0, way.length - 0.35), d.hold, d.sc_form, d.behind)
    return _single(lower) + strokes(wave(way, way.length - 0.2))


def _chain(d: _Drawing) -> Mark:
    way = frame(d.feet[0], d.head)
    return chain(way.at(0.0, way.length / 2.0), way.angle_deg)


def _picot(d: _Drawing) -> Mark:
    return picot(3, d.feet[0], frame(d.feet[0], d.head).angle_deg)


#: How each form of the dictionary is drawn.
_DRAWN: dict[str, Callable[[_Drawing], Mark]] = {
    "plain": _single,
    "front post": _single,
    "back post": _single,
    "extended": _single,
    "foundation": _single,
    "spike": _single,
    "together": _several,
    "gathered": _gathered_form,
    "reverse": _reverse,
    "chain": _chain,
    "picot": _picot,
}


def natural_height(kind: str, legs: int = 0, base: str = "") -> float:
    """The height of a stitch from foot to head in stitch widths, as the dictionary's table has it."""
    return kind_of(kind, legs, base).height


def glyph(kind: str, *, hold: str = "top", legs: int = 0, sc_form: str = "plus", base: str = "") -> Glyph:
    """A stitch at its natural size, foot at (0, 0), upright: for the key and the specimen.

    Stitches worked together stand on feet one stitch apart.
    """
    what = kind_of(kind, legs, base)
    depth = DEPTHS.get(what.form, DEPTHS.get(hold, 0.0))
    head = (0.0, -what.height - depth)
    spread = max(what.legs, 1) if what.form != "gathered" else 1
    feet = [(i - (spread - 1) / 2.0, 0.0) for i in range(spread)]
    mark = draw(kind, feet, head, hold=hold, legs=legs, sc_form=sc_form, base=base)
    return Glyph(kind, mark, extent(mark), (0.0, 0.0), head)
