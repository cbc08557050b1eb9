"""The end of a row: what is left of the row below."""

from __future__ import annotations

from itertools import takewhile
from typing import TYPE_CHECKING

from ...pattern.lexicon import show_stitch
from ...pattern.tree import Noun
from ..cloth.fabric import counts
from ..cloth.faults import Stuck
from ..cloth.wording import are, stitches, sts, them
from . import unworked

if TYPE_CHECKING:
    from .player import Player


class LeftOver(Stuck):
    """Stitches of the row below are left at the row's end without a word."""


def left_over(p: Player) -> int:
    """Stitches of the row below that were neither worked nor passed over."""
    return p.ground.stitches_between(p.here, len(p.ground.slots))


def check_end(p: Player) -> None:
    """Raise Stuck if the row leaves stitches of the row below unworked without a word."""
    p.settle()
    check_spaces(p)
    unworked.check_closed(p)
    left = left_over(p)
    check_leaving(p, left)
    if not left or p.left_on_purpose or p.landmark or p.stopped == p.here or not p.used_ground or only_ring(p):
        return
    spaced = p.last is not None and p.last.foot.hold in ("space", "picot", "chain")
    if spaced and (p.site.is_round or (left == 1 and not p.counted_start)):
        return
    if (p.site.is_round or p.joined) and (p.chained or _last_gap(p)):
        return
    if spaced and p.last is not None and p.ground.ends_with_group(p.last.start):
        return
    if p.others and p.last is not None and p.last.back != 1 and p.here == 0:
        return
    made = sum(1 for s in p.out if counts(s))
    plain = show_stitch("sc", p.site.terms)
    raise LeftOver(
        f"{stitches(left)} of {p.site.below} {are(left)} left unworked at the end (the row makes {made})",
        f'work {them(left)} ("{plain} in last {sts(left)}"), or write "leave last {sts(left)} unworked"',
    )


def _last_gap(p: Player) -> bool:
    """Whether a round has been worked between groups and into the last of these gaps: half a group may stand behind."""
    there = p.last is not None and p.last.back == 1 and p.last.foot.hold == "between"
    return there and p.ground.left(Noun("gap"), p.here + 1) == 0


def check_leaving(p: Player, left: int) -> None:
    """Raise Stuck if another number is left than is said to be."""
    whole = p.last is not None and p.last.back == 1 and p.last.foot.hold not in ("space", "picot", "chain", "between")
    if not p.leaving or p.leaving == left or not whole or p.site.is_round or p.main != 1 or only_ring(p):
        return
    raise Stuck(
        f"{stitches(p.leaving)} {are(p.leaving)} said to be left unworked, but {left or 'none'} {are(left)} left",
        f'write "leave {sts(left)} unworked"' if left else "work fewer stitches before",
    )


def check_spaces(p: Player) -> None:
    """Raise Stuck if a row worked in chain spaces leaves spaces of the same size behind; one may lie under its last
    chains."""
    if p.left_on_purpose or p.landmark or p.last is None or p.last.back != 1 or p.last.foot.hold != "space":
        return
    size = p.last.end - p.last.start
    left = p.ground.left(Noun("sp", size), p.here)
    if left > (1 if p.chained else 0):
        noun = p.many(Noun("sp", size), left)
        raise Stuck(
            f"{left} {noun} of {p.site.below} {are(left)} left unworked at the end",
            f"work {them(left)} too, or say that {'it is' if left == 1 else 'they are'} left unworked",
        )


def taken(p: Player, *, finished: bool) -> int:
    """Stitches and chains of the row below accounted for: worked into, skipped, or spanned. Chains of the foundation
    that stand up as the row's beginning are none of them."""
    if only_ring(p) or not p.used_ground:
        return 0
    whole = finished and not p.left_on_purpose and not p.opposite
    reached = p.ground.slots if whole else p.ground.slots[: p.here]
    return p.taken_before + sum(1 for slot in reached if slot.stitch.role != "picot") - _risen(p)


def _risen(p: Player) -> int:
    """Foundation chains that stand up at the beginning of the row."""
    if not p.site.on_foundation or p.site.opening is None:
        return 0
    return sum(s.chains for s in takewhile(lambda s: not s.feet, p.out))


def only_ring(p: Player) -> bool:
    return bool(p.ground.slots) and p.ground.slots[0].stitch.role == "ring"
