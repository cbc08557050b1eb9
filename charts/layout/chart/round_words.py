"""How a chart in rounds, or to and fro about a ring, is read, in words."""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import pairwise

from ...model.cloth.fabric import Stitch, WorkedRow
from ...model.cloth.shapes import is_backward
from ...pattern.place_writer import plural
from ...pattern.tree import Noun
from ...setting import Hand, Terms
from ..placing.placed import Laid
from ..shapes.centre import half_of
from ..shapes.found import Shape
from ..shapes.ring import LaidRounds, Ring
from ..sheets.chart_setting import ranges
from .condense import Folded, cut_words
from .reading import counted_words, foundation_words, hidden_words, said_of, short_name


def round_sentences(
    laid: LaidRounds, folded: Folded, hand: Hand, terms: Terms, *, counts: bool, counted: frozenset[int]
) -> list[str]:
    """The sentences under a chart in rounds; `counted` are the places (from 0) of those whose counts stand in them."""
    rows = [ring.worked.row for ring in laid.rings]
    way = "clockwise" if hand == "left" else "counter-clockwise"
    begins = f"begin in the centre and go {way} from each number"
    turns = any(r.worked.direction != "right-to-left" for r in laid.rings)
    other = "; wrong-side rounds go the other way" if turns else ""
    said = [f"Seen from the right side, for {hand}-handed work; {begins}{other}.", *_ring(laid.centre)]
    if counts and counted:
        said.append(counted_words(rows).replace("the row", "the round"))
    if counts and len(counted) < len(laid.rings):
        said.append(made_words(laid, terms, folded, counted))
    every, numbers = [row for row, _ in folded.every()], [number for _, number in folded.every()]
    said += [re.sub(r"\brow(s?)\b", r"round\1", line) for line in said_of(every, terms, numbers)]
    said += [*_backward(laid.rings, hand), *_spiral(laid.rings), *_closing(laid, folded, hand)]
    return [*said, *deep_words(laid, terms, "round"), *_drawn(laid), *_folds(folded, "round")]


def _backward(rings: Sequence[Ring], hand: Hand) -> list[str]:
    """Which rounds are worked backwards, and which way that is."""
    numbers = [ring.worked.number for ring in rings if is_backward(ring.worked.row)]
    if not numbers or not all(numbers):
        return []
    several, way = len(numbers) > 1, "counter-clockwise" if hand == "left" else "clockwise"
    which = f"Round{'s' if several else ''} {ranges(numbers)} {'are' if several else 'is'}"
    return [f"{which} worked backwards: go {way} there."]


def _spiral(rings: Sequence[Ring]) -> list[str]:
    """Which rounds go over into the next one without a join."""
    ends = rings[:-1]
    on = [ring for ring, after in pairwise(rings) if not _is_closed(ring.worked, after.worked)]
    if not on:
        return []
    if len(on) == len(ends):
        return ["Do not join: go on in a spiral."]
    numbers = [ring.worked.number for ring in on]
    which = f"round{'s' if len(on) > 1 else ''} {ranges(numbers)}"
    return [f"Do not join {which}: go on in a spiral."] if all(numbers) else []


def _is_closed(worked: WorkedRow, after: WorkedRow) -> bool:
    """Whether a round is joined, or its yarn or its direction ends with it."""
    joined = worked.row.joined or any(stitch.role == "join" for stitch in worked.row.stitches)
    return joined or worked.cut or after.joins or worked.direction != after.direction


def _closing(laid: LaidRounds, folded: Folded, hand: Hand) -> list[str]:
    """Which rounds are drawn apart, what they go on from, and which way they run there."""
    if laid.again is None:
        return []
    base, last = laid.again.worked.number, laid.rings[-1].worked.number
    alike = next((f.rows * (f.times - 1) for f in folded.folds if f.first + f.rows - 1 == laid.again.index), 0)
    drawn = f"round {base + alike}, drawn like round {base} and" if alike else f"round {base},"
    first = next(ring.worked.number for ring in laid.rings if ring.index > laid.again.index)
    way = "counter-clockwise" if hand == "left" else "clockwise"
    return [
        f"Rounds {first}–{last} close the work: they are drawn apart, from the outside in, as it looks from that end. "
        f"Round {first} goes on from {drawn} pale round it once more; go {way} there."
    ]


#: What a number in brackets counts in work from corner to corner.
BLOCKS_COUNTED = "A number in brackets is the blocks that the row makes."


def shape_sentences(
    laid: LaidRounds, shape: Shape, folded: Folded, hand: Hand, terms: Terms, *, counts: bool, counted: bool
) -> list[str]:
    """The sentences under rows to and fro in a shape; `counted` says whether the rows' counts stand beside them."""
    rows = [ring.worked.row for ring in laid.rings]
    first, *more = shape.opening(laid, hand)
    said = [first, *(_ring(laid.centre) if shape.ringed else ()), *more]
    if counted:
        said.append(BLOCKS_COUNTED if laid.rings[0].blocks else counted_words(rows))
    elif counts:
        said.append(made_words(laid, terms, folded))
    every, numbers = [row for row, _ in folded.every()], [number for _, number in folded.every()]
    said += said_of(every, terms, numbers)
    return [*said, *deep_words(laid, terms, "row"), *_drawn(laid), *_folds(folded, "row")]


def _drawn(laid: LaidRounds) -> list[str]:
    """How stitches are drawn that lie behind others."""
    return hidden_words(spot for ring in laid.rings for spot in ring.laid.spots)


def _ring(centre: Laid) -> list[str]:
    """How the ring is made, where it is made of chains, or how long the chain in the middle is."""
    spot = centre.spots[0]
    if spot.role == "ring" and spot.ovals:
        return [f"The ring is ch {spot.chains}, joined with a slip stitch."]
    if spot.role == "chain" and len(centre.spots) > 1:
        if not half_of(centre):
            return [f"The ring that is worked on is ch {len(centre.spots)}."]
        risen = sum(s.role == "risen" for s in centre.spots)
        stands = foundation_words(len(centre.spots), risen, "round")
        return [f"The chain in the middle is begun with ch {len(centre.spots)}.", *stands]
    return []


#: So many rounds that reach past others are named; where there are more, their stems must do.
MOST_DEEP = 6


def deep_words(laid: LaidRounds, terms: Terms, word: str) -> list[str]:
    """Into which round the stitches go that reach past the one below."""
    said = [phrase for ring in laid.rings for phrase in _deep(ring, laid.rings, terms, word)]
    return [f"Past what lies between, {'; '.join(said)}."] if 0 < len(said) <= MOST_DEEP else []


def _deep(ring: Ring, rings: Sequence[Ring], terms: Terms, word: str) -> list[str]:
    made = [s for s in ring.worked.row.stitches if s.role == "stitch"]
    deep = [s for s in made if len(s.feet) == 1 and 1 < s.feet[0].back <= ring.index]
    sorts = {(s.kind, s.feet[0].back, _is_round_post(s)): s for s in deep}
    said = []
    for kind, back, posted in sorts:
        which = f"the {short_name(kind, terms)}" if len(deep) < len(made) or posted else "the stitches"
        where = f"{word} {rings[ring.index - back].worked.number}"
        going = f"go round stitches of {where}" if posted else f"go into {where}"
        said.append(f"{which} of {word} {ring.worked.number} {going}")
    return said


def _is_round_post(made: Stitch) -> bool:
    return made.kind.startswith(("FP", "BP")) or made.feet[0].hold.endswith("post")


def made_words(laid: LaidRounds, terms: Terms, folded: Folded, counted: frozenset[int] = frozenset()) -> str:
    """What the rounds make whose counts do not stand in the chart, of several kinds each."""
    left = [ring for ring in laid.rings if ring.index not in counted]
    counts = ", ".join(f"{_called(ring, folded)}: {_counted(ring, terms)}" for ring in left)
    return f"Stitches of rounds without such a number: {counts}." if counted else f"Stitches made in {counts}."


def _called(ring: Ring, folded: Folded) -> str:
    """A round by its number, or with those that are like it and not drawn: "rnd 4", "rnds 6–10"."""
    label, numbers = ring.worked.label.lower(), folded.numbers(ring.index)
    word, _, number = label.rpartition(" ")
    return f"{word}s {ranges(numbers)}" if len(numbers) > 1 and number == str(numbers[0]) else label


def _counted(ring: Ring, terms: Terms) -> str:
    """ "70 (20 sc, 50 dc)", "24"."""
    if ring.blocks:
        return f"{ring.blocks} block{'' if ring.blocks == 1 else 's'}"
    made, kinds = ring.worked.row.made, ring.worked.row.kinds()
    if len(kinds) < 2 or sum(kinds.values()) < made:
        return str(made)
    return f"{made} ({', '.join(f'{n} {plural(Noun(kind), n, terms)}' for kind, n in kinds.items())})"


def _folds(folded: Folded, word: str) -> list[str]:
    """What is drawn once and worked several times."""
    said = []
    for fold in folded.folds:
        first, last = (folded.fabric.rows[k].number for k in (fold.first, fold.first + fold.rows - 1))
        which = f"{word.capitalize()} {first} is" if fold.rows == 1 else f"{word.capitalize()}s {first}–{last} are"
        until = folded.fabric.rows[fold.first].number + fold.times - 1 if fold.rows == 1 else 0
        for_all = f", for {word}s {first}–{until}" if until > first else ""
        said.append(f"{which} drawn once and worked {fold.times} times{for_all}.")
    return [*said, *cut_words(folded.cut_after, word)]
