"""Spots drawn as glyphs, and the glyphs of a row gathered by kind into path data that is made once and moved.

Each kind of a row becomes one path whose sub-paths are relative from their first point on, so that a row
drawn again further up only gets new first points.
"""

from __future__ import annotations

import functools
import math
from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from hookfold.symbols import Mark, chain, chain_stack, draw, hold_sign, join, magic_ring, picot, ring
from hookfold.symbols.ink import SubPath

from ...drawing.display import Ink
from ...drawing.geometry import PEN_LIMIT_MM, number, pen_mm
from ...pattern.lexicon import height_of, together
from ...setting import ScForm
from . import behind
from .placed import Spot
from .tops import drawn_kind

#: How far below its level the middle of a foundation chain lies.
FOUNDATION_DROP = 0.27
#: How far under the bar of what is gathered a beginning chain ends that is its first leg.
CHAIN_CLEAR = 0.2
#: How many chains may stand in a stack before they are drawn smaller, a stitch width.
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
        return behind.behind(ovals, spot.under)
    if spot.role in ("turning", "start") and spot.chains:
        return chain_stack(spot.feet[0], spot.head, spot.chains)
    if spot.role == "picot":
        return picot(spot.chains, spot.feet[0], spot.angle_deg)
    if spot.role == "ring" and spot.ovals:
        return sum((chain((x, y), angle, spot.size) for x, y, angle in spot.ovals), Mark())
    if spot.role == "ring":
        return magic_ring(spot.head, spot.size) if spot.kind == "magic ring" else ring(spot.head, spot.size)
    if spot.role == "join":
        return join(spot.head, spot.angle_deg, spot.size)
    if spot.role == "stitch" and spot.chains and spot.legs > 1 and len(spot.feet) > 1:
        return behind.behind(_on_chain(spot, sc_form), (*spot.under, *spot.behind))
    mark = _stitch(spot, sc_form) + sign_of(spot)
    return behind.behind(mark, (*spot.under, *spot.behind))


#: How a foot can hold that is drawn beside the stitch, and what such signs are called in the file.
SIGNED = ("front loop", "back loop", "front post", "back post")


def sign_of(spot: Spot) -> Mark:
    """How a stitch holds, where that is drawn apart from it; a post stitch has its hook in itself."""
    if spot.hold not in SIGNED or not spot.signed or not _holds_apart(spot):
        return Mark()
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
    (x, y), (u, v) = spot.feet[0], spot.head
    if len(set(spot.feet[1:])) == 1:
        # Legs in one place: the chain goes up beside them, and leans to them a little.
        (p, q), lean = spot.feet[1], 0.85
        u, v = u + (x - p) * lean, v + (y - q) * lean
    share = 1.0 - CHAIN_CLEAR / max(math.dist((x, y), (u, v)), 1.0)
    below = (x + (u - x) * share, y + (v - y) * share)
    return chain_stack(spot.feet[0], below, spot.chains) + _stitch(others, sc_form)


def _stitch(spot: Spot, sc_form: ScForm) -> Mark:
    kind = drawn_kind(spot.kind, spot.legs, spot.base)
    feet = spot.feet or (spot.head,)
    return draw(
        kind, feet, spot.head, hold=spot.hold, legs=spot.legs, sc_form=sc_form, base=spot.base,
        along_deg=spot.angle_deg, own_height=spot.own_height,
        route=spot.route, hidden=spot.hidden, signed=not _holds_apart(spot), wide=spot.size, crosses=spot.crosses,
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
        return f"{held} covered"
    gaps = _gaps(spot)
    return held if not gaps else f"{held} crossed" if gaps == 1 else f"{held} crossed {gaps}"


def _gaps(spot: Spot) -> int:
    """In how many places more than a whole one a stem is parted."""
    parted = int(spot.hidden is not None and spot.hidden[1] < 1.0)
    if not spot.behind:
        return parted
    whole = mark_of(replace(spot, behind=()), "plus")
    return parted + len(mark_of(spot, "plus").strokes) - len(whole.strokes)


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
    """A run of chains with stems in front of it as those chains it leaves whole and those it covers; else the spot."""
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
