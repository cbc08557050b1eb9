"""How the repeats of a chart differ by size: along the row, and row after row."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from ...layout.chart.condense import Fold, row_repeats
from ...pattern.file.kinds import OBJECT_KINDS
from ..piece import Piece
from ..size_words import several

#: A row works the pattern's repeat so many times fewer than would fit its stitches: its ends are no repeats.
_AT_THE_ENDS = 3


def repeats_of_sizes(pieces: Mapping[str, Piece], drawn: str = "") -> tuple[str, ...]:
    """The sentences that a chart of one size needs for all, by name, smallest first; none for one size. With the size
    that is `drawn` they say from which round of a crown on the others differ."""
    every = list(pieces.values())
    if len(every) < 2:
        return ()
    said = [part for part in (_along(every), *_up(every, drawn)) if part]
    sized = (f"By size, {several(list(pieces))}: {'; '.join(said)}.",) if said else ()
    return (*_apart(every, drawn), *sized)


def _apart(every: list[Piece], drawn: str) -> tuple[str, ...]:
    """From which round of a crown on the sizes differ, and whose are drawn."""
    if not drawn or not OBJECT_KINDS[every[0].plan.kind].crown:
        return ()
    made = zip(*([row.row.made for row in piece.fabric.rows] for piece in every), strict=False)
    first = next((n for n, counts in enumerate(made, 1) if len(set(counts)) > 1), 0)
    others = "the rounds of the other sizes stand in the words"
    return (f"From round {first} on the chart is that of size {drawn} only; {others}.",) if first else ()


def _along(every: list[Piece]) -> str:
    """How often a row works the repeat in each size."""
    of = every[0].plan.multiple_of
    times = [_times(piece) for piece in every]
    if of <= 1 or not all(times):
        return ""
    least = several([min(some) for some in times])
    most = several([max(some) for some in times])
    often = least if least == most else f"{least} to {most}"
    return f"the repeat of {of} sts is worked {often} times in a row"


def _times(piece: Piece) -> set[int]:
    """How often the rows of a piece work the repeat that its stitches are a multiple of."""
    fit = piece.plan.stitches // piece.plan.multiple_of
    found = {worked.row.repeat[2] for worked in piece.fabric.rows if worked.row.repeat}
    return {times for times in found if fit - _AT_THE_ENDS < times <= fit}


def _up(every: list[Piece], drawn: str) -> list[str]:
    """How often rows come again in each size, where that or their numbers differ and as many rows do in all."""
    folds = [row_repeats(piece.fabric) for piece in every]
    if len({len(some) for some in folds}) != 1:
        return []
    out = []
    for alike in zip(*folds, strict=True):
        each = [_named(fold, piece) for fold, piece in zip(alike, every, strict=True)]
        same = len({(name, fold.times) for name, fold in zip(each, alike, strict=True)}) == 1
        if same or len({fold.rows for fold in alike}) != 1:
            continue
        names = several(each)
        one = "rounds" if every[0].fabric.rows[0].is_round else "rows"
        if alike[0].rows == 1:
            last = [piece.fabric.rows[fold.first + fold.times - 1].number for fold, piece in
                    zip(alike, every, strict=True)]  # fmt: skip
            ranges = [f"{first}–{end}" for first, end in zip(_firsts(alike, every), last, strict=True)]
            which = f"that {one[:-1]}" if drawn else f"the {one[:-1]} that is drawn once"
            out.append(f"{which} stands for {one} {several(ranges)}")
            continue
        out.append(f"{one} {names} are worked {several([fold.times for fold in alike])} times in all")
    return out


def _firsts(folds: Sequence[Fold], every: Sequence[Piece]) -> list[int]:
    return [piece.fabric.rows[fold.first].number for fold, piece in zip(folds, every, strict=True)]


def _named(fold: Fold, piece: Piece) -> str:
    first, last = (piece.fabric.rows[at].number for at in (fold.first, fold.first + fold.rows - 1))
    return str(first) if first == last else f"{first}–{last}"
