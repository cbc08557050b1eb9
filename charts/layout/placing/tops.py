"""The tops of a row while it is being placed: how tall and how wide, and how close they may stand."""

from __future__ import annotations

import functools
import itertools
from collections.abc import Callable, Container, Sequence
from dataclasses import field

from hookfold.symbols import extent, glyph, kind_of, natural_height, stitch
from hookfold.symbols import known as known_kind

from ...made_late import dataclass
from ...model.cloth.fabric import Role, Row, Stitch
from .chain_room import picot_wide, room, tight_room
from .feet import Footing

#: The least share of its height that a stitch may be drawn at: a cross cannot be squeezed, a bobble can.
LEAST_CROSS, LEAST_GATHERED, LEAST_POST = 0.85, 0.6, 0.75


#: The ink width of a plain head, and the white kept between the ink of neighbours.
BAR_WIDTH = 0.74


INK_GAP = 0.05


#: From so many chains on a run can stand up as an arch, and how much wider than what it stands on it may ask to
#: be.
ARCH, ARCH_OVER = 3, 1.1


#: The way from a stitch with a picot on it to the next that has one, by the way that the picot takes on chains.
PICOT_ROOM = 2.4


#: The closest that tops may stand, and how many stitches a row may grow before it is drawn closer.
CLOSEST = 0.8


GROWTH = 2


@dataclass(frozen=True, slots=True)
class Below:
    """What the row below is to the width of a row: its width, its tops, how close they stand, and what stands in or out
    from its round fans."""

    width: float
    tops: int
    pitch: float
    fans: frozenset[int] = frozenset()


@dataclass(slots=True)
class Slot:
    """One top of the row while it is being placed; `radial` where it stands out from a round fan."""

    item: int
    stitch: Stitch
    feet: tuple[Footing, ...]
    want: float
    rise: float
    u: float = 0.0
    v: float = 0.0
    bridge: list[int] = field(default_factory=list)
    radial: bool = False


@functools.cache
def rise_of(kind: str, legs: int, base: str = "") -> float:
    """The height of a stitch between two level rows (a beginning chain's is that of the stitch it counts
    as).
    """
    if kind in ("sl st", "ch"):
        return natural_height(kind)
    return natural_height(drawn_kind(kind, legs, base), legs, base)


#: How much higher a slip stitch stands that holds one loop or a post: its dot lies on the arc, or on the hook.
HELD_SLIP = {"front loop": 0.2, "back loop": 0.3, "front post": 0.4, "back post": 0.45}


def own_rise(made: Stitch) -> float:
    """The height of a stitch between two level rows, however it holds."""
    held = HELD_SLIP.get(made.feet[0].hold, 0.0) if made.kind == "sl st" and made.feet else 0.0
    return rise_of(made.kind, made.legs, made.base) + held


def drawn_kind(kind: str, legs: int, base: str) -> str:
    """The kind a stitch is drawn as: a special stitch of a single post is drawn as the stitch it is made
    of.
    """
    return base if base and legs <= 1 and not known_kind(kind) else kind


@functools.cache
def width_of(kind: str, legs: int, base: str = "") -> float:
    """How wide the ink of a stitch is at its natural size: a bar's width, or what its gathered legs need."""
    kind = drawn_kind(kind, legs, base)
    if kind in ("sl st", "ch") or (known_kind(kind) and stitch(kind).form != "gathered"):
        return BAR_WIDTH
    box = extent(glyph(kind_of(kind, legs, base).name).mark)
    return box[2] - box[0]


def need_of(row: Row, slots: Sequence[Slot]) -> float:
    """How wide a row is with its tops one stitch apart."""
    return 1.0 + sum(gap_after(row, a, b, 1.0) for a, b in itertools.pairwise(slots))


def pitch_of(need: float, tops: int, below: Below) -> float:
    """How close tops may stand: one stitch, less where the row makes far more than the row below is wide.

    A row may grow by as many stitches as it makes more, up to `GROWTH`, as shaped work does; what grows
    faster, as lace and ruffles do, is drawn closer instead, and the rows on it keep its spacing.
    """
    more = max(tops - below.tops, 0)
    growth = more if more <= GROWTH else 0
    pitch = min(1.0, max(below.pitch, below.width / need))
    if need * pitch > below.width + growth:
        pitch = (below.width + growth) / need
    return max(pitch, CLOSEST)


def gaps_of(row: Row, slots: Sequence[Slot], pitch: float) -> list[float]:
    """The least way from each top to the next, with the chains between them crowded together."""
    return [_tight_gap(row, a, b, pitch) for a, b in itertools.pairwise(slots)]


def rooms_of(row: Row, slots: Sequence[Slot], pitch: float) -> list[float | None]:
    """The way that chains would take from each top to the next; None where there are none."""
    return [_eased(row, a, b, pitch) for a, b in itertools.pairwise(slots)]


def _eased(row: Row, a: Slot, b: Slot, pitch: float) -> float | None:
    """The way that the chains between two tops ask for; an arch keeps near the width of what it stands on."""
    chains, _ = bridge_size(row, a.bridge)
    if not chains or (a.radial and b.radial):
        return None
    whole = gap_after(row, a, b, pitch)
    over = (b.want - a.want) * ARCH_OVER
    if chains < ARCH and a.stitch.feet == b.stitch.feet:
        return whole
    return min(whole, max(over, _tight_gap(row, a, b, pitch))) if over > pitch else whole


def gap_after(row: Row, a: Slot, b: Slot, pitch: float) -> float:
    """The way from one top to the next, over the chains between them."""
    return _gap(row, a, b, pitch, room)


def _tight_gap(row: Row, a: Slot, b: Slot, pitch: float) -> float:
    """The least way from one top to the next; a few chains between two in one place hold them open."""
    chains, _ = bridge_size(row, a.bridge)
    open_ = 0 < chains < ARCH and a.stitch.feet == b.stitch.feet
    return _gap(row, a, b, pitch, room if open_ else tight_room)


def _gap(row: Row, a: Slot, b: Slot, pitch: float, needs: Callable[[int, float], float]) -> float:
    chains, picots = bridge_size(row, a.bridge)
    ink = (_width(a) + _width(b)) / 2.0
    least = max(pitch, ink + INK_GAP)
    if chains:
        return least + needs(chains, picots)
    return max(least, ring_room(row, a, b) * pitch)


def ring_room(row: Row, a: Slot, b: Slot) -> float:
    """The way from one top to the next that rings on both need, with nothing else between; 0 where not both have one: a
    ring stands over its own stitch, above the arms and the bars beside it, and only another ring needs room."""
    rings = [_rings(row, slot.bridge) for slot in (a, b)]
    return PICOT_ROOM * max(rings) if min(rings) and not bridge_size(row, a.bridge)[0] else 0.0


def _width(slot: Slot) -> float:
    return width_of(slot.stitch.kind, slot.stitch.legs, slot.stitch.base)


def tops_of(
    row: Row, top: Callable[[int, Stitch, Slot | None], Slot], roles: Container[Role]
) -> tuple[list[Slot], list[int]]:
    """The tops of a row in the order of work: what has one of the `roles`, as `top` makes it of the item, the stitch
    and the top before it, each with the chains and picots behind it; and those before the first."""
    slots: list[Slot] = []
    lead: list[int] = []
    for item, made in enumerate(row.stitches):
        if made.role in ("chain", "picot"):
            (slots[-1].bridge if slots else lead).append(item)
        elif made.role in roles:
            slots.append(top(item, made, slots[-1] if slots else None))
    return slots, lead


def bridge_size(row: Row, bridge: Sequence[int]) -> tuple[int, float]:
    """The chains lying in a bridge, and the way that the picots on it take along it; one that stands on the stitch
    before chains takes none."""
    chains = sum(row.stitches[i].chains for i in bridge if row.stitches[i].role == "chain")
    return chains, _rings(row, bridge[len(crowned(row, bridge)) :])


def crowned(row: Row, bridge: Sequence[int]) -> Sequence[int]:
    """The picot of a bridge that crowns the stitch before it, though chains follow: one made at once, and alone."""
    roles = [row.stitches[i].role for i in bridge[:2]]
    return bridge[:1] if roles == ["picot", "chain"] else ()


def _rings(row: Row, bridge: Sequence[int]) -> float:
    return sum(picot_wide(row.stitches[i].chains) for i in bridge if row.stitches[i].role == "picot")


def least_rise(slot: Slot) -> float:
    """The lowest that a top may stand."""
    made = slot.stitch
    height = rise_of(made.kind, made.legs, made.base)
    kind = kind_of(drawn_kind(made.kind, made.legs, made.base), made.legs, made.base)
    share = LEAST_CROSS if kind.base == "sc" else LEAST_GATHERED if kind.form == "gathered" else LEAST_POST
    return slot.rise - height * (1.0 - share)


def is_gathered(made: Stitch) -> bool:
    """Whether a stitch is several legs gathered under one top, which may be drawn lower than it is tall."""
    return kind_of(drawn_kind(made.kind, made.legs, made.base), made.legs, made.base).form == "gathered"


def is_cross(slot: Slot) -> bool:
    """Whether a stitch is drawn as a cross."""
    made = slot.stitch
    return kind_of(drawn_kind(made.kind, made.legs, made.base), made.legs, made.base).base == "sc"


#: So many stitches in one place make a fan.
FAN = 3


def fans_of(slots: Sequence[Slot]) -> set[int]:
    """The items that fan from one place with two others or more: only there does a round fall away."""
    places: dict[tuple[object, ...], list[int]] = {}
    for slot in slots:
        places.setdefault(slot.stitch.feet, []).append(slot.item)
    return {item for feet, items in places.items() if feet and len(items) >= FAN for item in items}
