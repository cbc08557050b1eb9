"""What a chart is drawn with: sizes on the page, and what of what is asked for it can show."""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable, Sequence

from ...drawing.geometry import number
from ...errors import Unable
from ...model.cloth.fabric import Fabric
from ...setting import Paper, Terms

NAME = "Stitch chart"

#: The size of a stitch on the page: never smaller, and the size that is aimed at.
LEAST_MM = 3.0
#: A motif in rounds is read as a whole: it stands on one page down to this.
LEAST_ROUND_MM = 2.2
BEST_MM = 9.0
#: The size from which on nothing is left out of a chart that could be condensed.
WHOLE_FROM_MM = 5.0
#: A stitch on a sheet of its own size that holds a chart too large for a page, at most; the larger papers that such a
#: sheet should lie on if it can, short side and long side, the smaller first: what is printed beside A4 and Letter.
WHOLE_MM = 5.0
LARGER_MM: dict[Paper, tuple[tuple[float, float], ...]] = {
    "A4": ((297.0, 420.0), (420.0, 594.0)), "Letter": ((279.4, 431.8), (431.8, 558.8)),
}  # fmt: skip
#: The steps in which such a size is tried.
WHOLE_BY = 0.1
#: A stitch on the pages of a tiled chart in rounds, and the least on one in rows.
TILE_MM = 4.0
TILE_LEAST_MM = 3.5
#: The most stitches of one row, and the most in all, that are drawn: what a row costs grows with the square of its
#: width, and what all cost by their number (about a gigabyte of memory for these).
MOST_ACROSS, MOST_DRAWN = 3_000, 250_000
#: The ink of the other rows where one is lit up: pale, but 3 : 1 against the paper (WCAG 2.2, 1.4.11).
PALE = "#949494"
#: White above and below the picture, in mm.
ABOVE_MM = 2.0
BELOW_MM = 4.0
#: Ink beyond the places of a row, in stitch widths: half a bar, half a chain.
OVER = 0.5


class NotShown(Unable, ValueError):
    """Something was asked for that the chart cannot show; its words say what it can."""


class NotInSquares(NotShown):
    """A piece was to be drawn in squares that has none."""


class RowNotShown(NotShown):
    """A row was to be lit up that is not on the chart; its words say which are."""


class TooMuchToDraw(NotShown):
    """A chart of more stitches than can be drawn; its words say what can."""


def whole_mm(paper: Paper, size_at: Callable[[float], tuple[float, float]], least: float = LEAST_MM) -> float:
    """How large a stitch is on the one sheet that holds a chart too large for a page.

    As large as lets the sheet lie on the next larger paper, or on the one after that; where even the `least` size does
    not, that one. `size_at` is the width and height of the sheet in mm by the mm of a stitch.

    >>> whole_mm("A4", lambda mm: (100.0 * mm + 24.0, 60.0 * mm + 60.0))
    3.9
    """
    low = math.ceil(min(least, WHOLE_MM) / WHOLE_BY - 1e-6)
    sizes = [WHOLE_BY * k for k in range(low, round(WHOLE_MM / WHOLE_BY) + 1)]
    for short, long in LARGER_MM[paper]:
        fits = [mm for mm in sizes if _lies_on(size_at(mm), short, long)]
        if fits:
            return round(fits[-1], 1)
    return round(sizes[0], 1)


def _lies_on(size: tuple[float, float], short: float, long: float) -> bool:
    """Whether a sheet lies on a paper, either way up."""
    return min(size) <= short and max(size) <= long


def drawable_or_raise(rows: Sequence[int], *, full: bool) -> None:
    """TooMuchToDraw where rows of so many stitches each are too wide or too many.

    >>> drawable_or_raise([200] * 400, full=True)
    """
    if max(rows, default=0) > MOST_ACROSS:
        raise TooMuchToDraw(
            f"a row of {max(rows):,} stitches is wider than the {MOST_ACROSS:,} that can be drawn; draw the same rows"
            " over fewer stitches, as many as a few repeats take"
        )
    if sum(rows) > MOST_DRAWN:
        other = 'chart it with "--extent repeat", or draw' if full else "draw"
        raise TooMuchToDraw(
            f"{len(rows):,} rows of {sum(rows):,} stitches in all are more than the {MOST_DRAWN:,} that can be drawn;"
            f" {other} fewer rows at a time"
        )


def all_drawable_or_raise(fabric: Fabric) -> None:
    """TooMuchToDraw where a fabric drawn stitch by stitch, in whole, is too wide or too long."""
    drawable_or_raise([fabric.chains, *(len(worked.row.stitches) for worked in fabric.rows)], full=False)


def shown_or_raise(lit_row: int, numbers: Sequence[int], word: str) -> None:
    """RowNotShown where a row is to be lit up that none of the rows drawn is.

    >>> shown_or_raise(0, (1, 2), "row")
    """
    if lit_row and lit_row not in numbers:
        shown = f"{word}s {ranges(numbers)}" if any(numbers) else f"no numbered {word}"
        raise RowNotShown(f"{word} {lit_row} is not drawn: this chart shows {shown}; the full extent shows every one")


def lit_words(lit_row: int, word: str) -> str:
    """What is said where a row is lit up."""
    return f"{word.capitalize()} {lit_row} is lit up; the others are drawn pale."


def ranges(numbers: Sequence[int]) -> str:
    """Numbers in order, those that follow each other as one range.

    >>> ranges((1, 2, 3, 8, 10, 11))
    '1–3, 8, 10–11'
    """
    runs: list[list[int]] = []
    for number_ in sorted(set(numbers) - {0}):
        if runs and number_ == runs[-1][1] + 1:
            runs[-1][1] = number_
        else:
            runs.append([number_, number_])
    return ", ".join(str(a) if a == b else f"{a}–{b}" for a, b in runs)


def scale_of(stitch_mm: float, what: str = "Chart", terms: Terms = "US") -> str:
    """The scale as printed; it says that it is the drawing's, or it is taken for a gauge.

    >>> scale_of(5.04)
    'Chart drawn 5 mm to a stitch; this is not the gauge'
    """
    called = "gauge" if terms == "US" else "tension"
    return f"{what} drawn {number(round(stitch_mm, 1))} mm to a stitch; this is not the {called}"


def listed(numbers: Sequence[int]) -> str:
    """Numbers of rows: what follows each other as a range, every second one as the first two and the last.

    >>> listed((1, 2, 3, 8)), listed((2, 4, 6, 8))
    ('1–3, 8', '2, 4 … 8')
    """
    if len(numbers) > 3 and all(b - a == 2 for a, b in itertools.pairwise(numbers)):
        return f"{numbers[0]}, {numbers[1]} … {numbers[-1]}"
    return ranges(numbers)
