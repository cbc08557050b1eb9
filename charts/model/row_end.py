"""The end of a row: what is left of the row below."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..pattern.lexicon import show_stitch
from .grid import counts
from .stuck import Stuck
from .wording import are, stitches, sts, them

if TYPE_CHECKING:
    from .play import Player


def left_over(p: Player) -> int:
    """Stitches of the row below that were neither worked nor passed over."""
    return p.ground.stitches_between(p.here, len(p.ground.slots))


def check_end(p: Player) -> None:
    """Raise Stuck if the row leaves stitches of the row below unworked without a word."""
    left = left_over(p)
    if not left or p.left_on_purpose or p.landmark or not p.used_ground or only_ring(p):
        return
    spaced = p.last is not None and p.last.foot.hold in ("space", "picot", "chain")
    if spaced and (p.site.is_round or (left == 1 and not p.counted_start)):
        return
    if p.site.is_round and p.chained:
        return
    if spaced and p.last is not None and p.ground.ends_with_group(p.last.start):
        return
    if p.others and p.last is not None and p.last.back != 1 and p.here == 0:
        return
    made = sum(1 for s in p.out if counts(s))
    plain = show_stitch("sc", p.site.terms)
    raise Stuck(
        f"{stitches(left)} of {p.site.below} {are(left)} left unworked at the end (the row makes {made})",
        f'work {them(left)} ("{plain} in last {sts(left)}"), or write "leave last {sts(left)} unworked"',
    )


def only_ring(p: Player) -> bool:
    return bool(p.ground.slots) and p.ground.slots[0].stitch.role == "ring"
