"""Spots drawn as glyphs, and the glyphs of a row gathered by kind into path data that is made once and moved.

Each kind of a row becomes one path whose sub-paths are relative from their first point on, so that a row
drawn again further up only gets new first points.
"""

from __future__ import annotations

import functools
import math
from collections import defaultdict
from collections.abc import Iterable, Sequence

from hookfold.symbols import (
    BEND,
    Clasp,
    Mark,
    Point,
    chain,
    chain_stack,
    draw,
    hold_sign,
    hook,
    join,
    kind_of,
    lane_of,
    magic_ring,
    picot,
    ring,
)
from hookfold.symbols.chains import PITCH, stacked_size
from hookfold.symbols.groups import leg_frames
from hookfold.symbols.ink import SubPath
from hookfold.symbols.pen import Frame, frame

from ...drawing.display import Ink
from ...drawing.geometry import PEN_LIMIT_MM, number, pen_mm
from ...made_late import dataclass, replace
from ...pattern.lexicon import height_of, together
from ...setting import ScForm
from . import behind
from .chain_room import length
from .placed import Spot, Stem, along, held_by
from .tops import drawn_kind

#: How far below its level the middle of a foundation chain lies.
FOUNDATION_DROP = 0.27
#: How far under the bar of what is gathered a beginning chain ends that is its first leg; where its legs stand in one
#: place, the way from the middle of the bar to the chain beside them.
CHAIN_CLEAR, BESIDE_BAR = 0.2, 0.42
#: The way from a hook to the chains on both sides of it that it closes round.
HOOK_ROOM = 0.13
_QUIET_ROLES = ("risen",)


@dataclass(frozen=True, slots=True)
class KindInk:
    """One kind of a row: how many glyphs, and its sub-paths as (x, y, relative rest) in mm from the row's
    origin.
    """

    name: str
    count: int
    strokes: tuple[tuple[float, float, str], ...]
    fills: tuple[tuple[float, float, str], ...]


@functools.lru_cache(maxsize=256)
def mark_of(spot: Spot, sc_form: ScForm = "plus") -> Mark:
    """The ink of one placed item; empty for what is not drawn. Kept a while, as a glyph's name is told by its ink."""
    if spot.role in _QUIET_ROLES:
        return Mark()
    if spot.role == "foundation" and spot.kind == "ch":
        return chain((spot.head[0], spot.head[1] + FOUNDATION_DROP), 0.0)
    if spot.role == "chain":
        ovals = sum((chain((x, y), angle, spot.size) for x, y, angle in spot.ovals), Mark())
        return behind.behind(ovals, (*spot.under, *spot.clasped))
    if spot.role in ("turning", "start") and spot.chains:
        return _stack(spot)
    if spot.role == "picot":
        return picot(spot.chains, spot.feet[0], spot.angle_deg)
    if spot.role == "ring" and spot.ovals:
        return sum((chain((x, y), angle, spot.size) for x, y, angle in spot.ovals), Mark())
    if spot.role == "ring":
        return magic_ring(spot.head, spot.size) if spot.kind == "magic ring" else ring(spot.head, spot.size)
    if spot.role == "join":
        return join(spot.head, spot.angle_deg, spot.size)
    if spot.role == "stitch" and spot.chains and spot.legs > 1 and len(spot.feet) > 1:
        return behind.behind(_on_chain(spot, sc_form), (*spot.under, *spot.behind, *spot.clasped))
    hooks = Mark() if _holds_apart(spot) else hooks_of(spot)
    return behind.behind(_stitch(spot, sc_form), (*spot.under, *spot.behind, *spot.clasped)) + sign_of(spot) + hooks


def _stack(spot: Spot) -> Mark:
    """A beginning chain; where a hook closes round it, with room for the hook between two of its chains."""
    foot, head = spot.feet[0], spot.head
    if not spot.clasped or spot.chains < 2:
        return behind.behind(chain_stack(foot, head, spot.chains, spot.size), spot.clasped)
    way = frame(foot, head)
    (a, b), (c, d) = spot.clasped[0]
    high = ((a + c) / 2.0 - foot[0]) * way.up[0] + ((b + d) / 2.0 - foot[1]) * way.up[1]
    below = min(max(round(spot.chains * high / max(way.length, 1e-6)), 1), spot.chains - 1)
    return chain_stack(foot, way.at(0.0, high - HOOK_ROOM), below, spot.size) + chain_stack(
        way.at(0.0, high + HOOK_ROOM), head, spot.chains - below, spot.size
    )


def unhooked(spot: Spot) -> Mark:
    """The ink of a stitch round a post without its hooks."""
    anywhere = Clasp(spot.head, (0.0, -1.0))
    return behind.behind(_stitch(replace(spot, clasps=(anywhere,)), "plus"), spot.behind)


def hooks_of(spot: Spot) -> Mark:
    """The hooks of a stitch round the stems that it clasps."""
    marks = (hook_at(spot, k, clasp) for k, clasp in enumerate(spot.clasps))
    return behind.behind(sum(marks, Mark()), spot.unseen)


def hook_at(spot: Spot, k: int, clasp: Clasp) -> Mark:
    """One hook of a stitch, from its own stem round that of another."""
    start, down = _hook_start(spot, k)
    return hook(start, down, clasp, behind=held_by(spot) == "back post")


def _hook_start(spot: Spot, k: int) -> tuple[Point, Point]:
    """Where a hook leaves its stem, and the direction in which it does."""
    if spot.own_height and not spot.route:
        lane = lane_of(behind=held_by(spot) == "back post")
        return (spot.feet[0][0] + lane, spot.head[1] + spot.own_height), (0.0, 1.0)
    if spot.route:
        (x, y), angle = along(spot.route[::-1], BEND / max(length(spot.route), BEND))
        return (x, y), (-math.cos(math.radians(angle)), -math.sin(math.radians(angle)))
    way = _leg(spot, k)
    return way.at(0.0, BEND), (-way.up[0], -way.up[1])


def _leg(spot: Spot, k: int) -> Frame:
    """The frame of one leg of a stitch, as it is drawn."""
    gathered = kind_of(drawn_kind(spot.kind, spot.legs, spot.base), spot.legs, spot.base).form == "gathered"
    return frame(spot.feet[k], spot.head) if len(spot.feet) == 1 or gathered else leg_frames(spot.feet, spot.head)[k]


#: How a foot can hold that is drawn beside the stitch, and what such signs are called in the file.
SIGNED = ("front loop", "back loop", "front post", "back post")


def sign_of(spot: Spot) -> Mark:
    """How a stitch holds, where that is drawn apart from it; a post stitch has its hook in itself."""
    if spot.hold not in SIGNED or not spot.signed or not _holds_apart(spot):
        return Mark()
    if spot.clasps:
        return hooks_of(spot)
    head = spot.head
    if spot.kind == "sl st" and spot.feet:
        # Its dot stands square to the row over its foot, and so does what it holds.
        (x, y), turn = spot.feet[0], math.radians(spot.angle_deg)
        head = (x + math.sin(turn), y - math.cos(turn))
    return hold_sign(spot.feet or (spot.head,), head, spot.hold, spot.angle_deg)


def _holds_apart(spot: Spot) -> bool:
    if spot.role not in ("stitch", "foundation") or spot.kind.startswith(("FP", "BP")):
        return False
    return not (spot.own_height and spot.hold.endswith("post"))


def _on_chain(spot: Spot, sc_form: ScForm) -> Mark:
    """What is gathered of a beginning chain, which stands at its first foot, and of legs at the others."""
    kind, legs = spot.kind, spot.legs - 1
    base = spot.base or height_of(kind) or "dc"
    of_one_less = f"{base}{legs}tog" if together(kind) > 1 else kind
    others = replace(spot, kind=base if legs == 1 else of_one_less, legs=legs, chains=0, feet=spot.feet[1:])
    if spot.ovals:
        step = math.dist(spot.ovals[0][:2], spot.ovals[-1][:2]) / max(len(spot.ovals) - 1, 1) or PITCH
        size = stacked_size(step)
        return sum((chain((x, y), angle, size) for x, y, angle in spot.ovals), Mark()) + _stitch(others, sc_form)
    foot, top = chain_leg(spot)
    return chain_stack(foot, top, spot.chains) + _stitch(others, sc_form)


def chain_leg(spot: Spot) -> Stem:
    """From where to where the beginning chain goes that is the first leg of what is gathered."""
    (x, y), (u, v) = spot.feet[0], spot.head
    if len(set(spot.feet[1:])) == 1:
        # Legs in one place: the chain goes up beside them and leans to them, so that it ends under their bar.
        (p, q), aside = spot.feet[1], math.dist(*spot.feet[:2])
        lean = min(BESIDE_BAR / max(aside, 1e-6), 1.0)
        u, v = u + (x - p) * lean, v + (y - q) * lean
    share = 1.0 - CHAIN_CLEAR / max(math.dist((x, y), (u, v)), 1.0)
    return (x, y), (x + (u - x) * share, y + (v - y) * share)


def _stitch(spot: Spot, sc_form: ScForm) -> Mark:
    kind = drawn_kind(spot.kind, spot.legs, spot.base)
    feet = spot.feet or (spot.head,)
    return draw(
        kind, feet, spot.head, hold=spot.hold, legs=spot.legs, sc_form=sc_form, base=spot.base,
        along_deg=spot.angle_deg, own_height=spot.own_height,
        route=spot.route, hidden=spot.hidden, signed=not (_holds_apart(spot) or spot.clasps),
        wide=spot.size, crosses=spot.crosses, reaches=spot.shared,
    )  # fmt: skip


def name_of(spot: Spot) -> str:
    """What a glyph is called in the file: its kind, how it holds where that is drawn, and whether it is
    broken.
    """
    if spot.role in ("turning", "start") and spot.chains:
        return "beginning ch"
    if spot.role == "join":
        return "join"
    if spot.role == "ring" and spot.ovals:
        return "ch"
    if spot.role == "picot":
        return f"ch-{spot.chains} picot"
    loop = spot.hold in ("front loop", "back loop", "front post", "back post")
    held = f"{spot.kind} {spot.hold}" if loop and not spot.kind.startswith(("FP", "BP")) else spot.kind
    if spot.under:
        return f"{held} covered{_times(' clasped', _gaps(replace(spot, behind=(), unseen=()))[1])}"
    crossed, clasped = _gaps(spot)
    ended = _times(" ended behind", _hidden_ends(spot))
    return f"{held}{_times(' crossed', crossed)}{_times(' clasped', clasped)}{ended}"


def _hidden_ends(spot: Spot) -> int:
    """How many hooks that go behind a post show no end there, as other work lies over all of it."""
    if not spot.unseen or not spot.clasps:
        return 0
    bare, pieces = (len(hooks_of(s).strokes) for s in (replace(spot, unseen=()), spot))
    return max(bare - pieces, 0)


def _times(what: str, count: int) -> str:
    return f"{what} {count}" if count > 1 else what if count else ""


def _gaps(spot: Spot) -> tuple[int, int]:
    """In how many places more than a whole one a stem is parted: by stems that cross it, and by hooks."""
    whole = replace(spot, behind=(), unseen=(), clasped=())
    if spot == whole:
        return int(spot.hidden is not None and spot.hidden[1] < 1.0), 0
    pieces, bare, crossed = (len(mark_of(s, "plus").strokes) for s in (spot, whole, replace(spot, clasped=())))
    by_stems = min(crossed, pieces) - bare
    parted = int(spot.hidden is not None and spot.hidden[1] < 1.0)
    return parted + max(by_stems, 0), max(pieces - bare - max(by_stems, 0), 0)


def glyphs_in(spot: Spot) -> int:
    """How many glyphs a spot is drawn with: a chain run has one for each chain."""
    return spot.chains if spot.role in ("chain", "turning", "start", "ring") and spot.chains else 1


def row_inks(spots: Iterable[Spot], stitch_mm: float, sc_form: ScForm = "plus") -> tuple[KindInk, ...]:
    """The kinds of a row in the order they first appear, in mm from the origin (0, 0) of the spots."""
    kinds: dict[str, list[tuple[int, Mark]]] = defaultdict(list)
    for spot in (part for whole in spots for part in _parts(whole)):
        sign = sign_of(spot)
        mark = mark_of(replace(spot, signed=False) if sign.strokes else spot, sc_form)
        if mark.strokes or mark.fills:
            kinds[name_of(spot)].append((glyphs_in(spot), mark))
        if sign.strokes:
            kinds[f"{spot.hold} sign"].append((1, sign))
    return tuple(_kind_ink(name, found, stitch_mm) for name, found in kinds.items())


def _parts(spot: Spot) -> tuple[Spot, ...]:
    """A run of chains with ink in front of it as those chains it leaves whole and those it hides; else the spot."""
    if spot.role == "chain" and spot.clasped and len(spot.ovals) > 1:
        each = [replace(spot, ovals=(oval,), chains=1) for oval in spot.ovals]
        return tuple(part for one in each for part in _parts(one))
    if spot.role != "chain" or not spot.under:
        return (spot,)
    over = [any(behind.runs_across((x, y), stem) for stem in spot.under) for x, y, _ in spot.ovals]
    ovals = [[o for o, hidden in zip(spot.ovals, over, strict=True) if hidden is want] for want in (False, True)]
    free, covered = (replace(spot, ovals=tuple(each), chains=len(each)) for each in ovals)
    return (replace(free, under=()), covered) if free.ovals else (covered,)


def _kind_ink(name: str, found: Sequence[tuple[int, Mark]], stitch_mm: float) -> KindInk:
    return KindInk(
        name,
        sum(count for count, _ in found),
        tuple(_relative(path, stitch_mm) for _, mark in found for path in mark.strokes),
        tuple(_relative(path, stitch_mm) for _, mark in found for path in mark.fills),
    )


def _relative(path: SubPath, stitch_mm: float) -> tuple[float, float, str]:
    """A sub-path as its first point and the rest relative to it; steps are differences of rounded places."""
    here = first = _mm(path[0][1][0], stitch_mm)
    parts: list[str] = []
    for command, points in path[1:]:
        placed = [_mm(p, stitch_mm) for p in points]
        parts.append(
            command.lower() + " ".join(f"{number(x - here[0])} {number(y - here[1])}" for x, y in placed)
        )
        here = placed[-1] if placed else first
    return first[0], first[1], "".join(parts)


def _mm(point: tuple[float, float], stitch_mm: float) -> tuple[float, float]:
    return round(point[0] * stitch_mm, 3), round(point[1] * stitch_mm, 3)


def inked(
    kinds: Sequence[KindInk],
    x: float,
    y: float,
    stitch_mm: float,
    colour: str,
    prefix: str,
    limit_mm: float = PEN_LIMIT_MM,
) -> tuple[Ink, ...]:
    """The kinds of a row as ink with its origin at (x, y) mm; named "<prefix> <kind>", solids apart."""
    inks: list[Ink] = []
    pen = pen_mm(stitch_mm, limit_mm=limit_mm)
    for kind in kinds:
        if kind.strokes:
            d = _moved(kind.strokes, x, y)
            inks.append(Ink(d, stroke=colour, width=pen, name=f"{prefix} {kind.name}"))
        if kind.fills:
            inks.append(Ink(_moved(kind.fills, x, y), fill=colour, name=f"{prefix} {kind.name} solid"))
    return tuple(inks)


def _moved(paths: Sequence[tuple[float, float, str]], x: float, y: float) -> str:
    return "".join([f"M{number(px + x)} {number(py + y)}{rest}" for px, py, rest in paths])
