"""The key: what each line, tone and sign of the folding sheets means."""

from __future__ import annotations

from collections.abc import Callable, Collection, Sequence
from itertools import accumulate

from ...drawing.display import Text
from ...drawing.letters import cap_height, text_width
from ...drawing.style import Style
from ..sheets.marks import Item, arrow, box_ink, disc, head, stroke
from ..sheets.panel import Picture
from .cloth import DOTS, tone
from .joins import marker

_SAMPLE = 13.0
_LINE, _GUTTER = 6.0, 6.0
Sample = Callable[[float, float, Style], list[Item]]


def key_picture(style: Style, wide: float, needs: Collection[str]) -> Picture:
    """Every sign that the sheets use, in columns as the width allows. `needs` names groups of `_ENTRIES`."""
    entries = [(words, sample) for need, words, sample in _ENTRIES if need in needs]
    wides = [_SAMPLE + 3.0 + text_width(words, style.small_mm) + _GUTTER for words, _ in entries]
    fitting = (k for k in range(1, len(entries) + 1) if sum(_columns(wides, k)) <= wide + _GUTTER)
    rows = next(fitting, len(entries))
    lefts = [0.0, *accumulate(_columns(wides, rows))]

    def draw(x: float, y: float) -> tuple[Item, ...]:
        items: list[Item] = []
        for k, (words, sample) in enumerate(entries):
            left, middle = x + lefts[k // rows], y + (k % rows + 0.5) * _LINE
            items += sample(left, middle, style)
            base = middle + cap_height(style.small_mm) / 2
            items.append(Text(left + _SAMPLE + 3.0, base, words, style.small_mm))
        return tuple(items)

    return Picture(wide, rows * _LINE, draw)


def _columns(wides: Sequence[float], rows: int) -> list[float]:
    """How wide the columns of so many rows are, of entries of these widths."""
    return [max(wides[k : k + rows]) for k in range(0, len(wides), rows)]


def _line(x: float, y: float, width: float, colour: str, dash: tuple[float, ...] = ()) -> Item:
    return stroke([((x, y), (x + _SAMPLE, y))], width, colour, dash)


def _swatch(x: float, y: float, style: Style, side: str, dash: tuple[float, ...]) -> list[Item]:
    rows = [((x, y + d), (x + _SAMPLE, y + d)) for d in (-1.0, 0.0, 1.0)]
    ring = [(x, y - 2), (x + _SAMPLE, y - 2), (x + _SAMPLE, y + 2), (x, y + 2), (x, y - 2)]
    return [
        box_ink(x, y - 2, x + _SAMPLE, y + 2, tone(side, style)),
        stroke(rows, style.hair_mm if side == "RS" else style.hair_mm * 1.6, style.hair, dash),
        stroke([ring], style.rule_mm, style.dark),
    ]


def _right(x: float, y: float, style: Style) -> list[Item]:
    return _swatch(x, y, style, "RS", ())


def _wrong(x: float, y: float, style: Style) -> list[Item]:
    return _swatch(x, y, style, "WS", DOTS)


def _dimension(x: float, y: float, style: Style) -> list[Item]:
    ends = [((x, y - 1.4), (x, y + 1.4)), ((x + _SAMPLE, y - 1.4), (x + _SAMPLE, y + 1.4))]
    return [
        stroke([*ends, ((x, y), (x + _SAMPLE, y))], style.hair_mm, style.dark),
        head((x, y), 3.14159265, style.dark), head((x + _SAMPLE, y), 0.0, style.dark),
    ]  # fmt: skip


def _hatch(x: float, y: float, style: Style) -> list[Item]:
    lines = [((x + k * 2.2, y + 2), (x + k * 2.2 + 4.0, y - 2)) for k in range(5)]
    ring = [(x, y - 2), (x + _SAMPLE, y - 2), (x + _SAMPLE, y + 2), (x, y + 2), (x, y - 2)]
    return [stroke(lines, style.hair_mm, style.accent), stroke([ring], style.rule_mm, style.dark)]


def _behind(x: float, y: float, style: Style) -> list[Item]:
    return list(arrow((x, y + 1.0), (x + _SAMPLE, y + 1.0), style, bow=0.22, dash=style.hidden))


def _layer(x: float, y: float, style: Style) -> list[Item]:
    ticks = [((x + 0.8 + k * 1.6, y), (x + 0.8 + k * 1.6, y - 1.0)) for k in range(8)]
    return [_line(x, y, 0.6, style.dark), stroke(ticks, style.hair_mm, style.dark)]


def _begins(x: float, y: float, style: Style) -> list[Item]:
    return [disc((x + _SAMPLE / 2, y), 0.9, fill_colour=style.dark)]


#: What needs a sign ("always", "rows", "rounds", "wrong side", "over", "under", "layers", "border"), its words and its
#: sample.
_ENTRIES: tuple[tuple[str, str, Sample], ...] = (
    ("rows", "right side up: rows as fine lines", _right),
    ("rounds", "outside: rounds as fine lines", _right),
    ("wrong side", "wrong side up: rows dotted", _wrong),
    ("always", "edge in view", lambda x, y, s: [_line(x, y, s.outline_mm, s.dark)]),
    ("layers", "hidden edge", lambda x, y, s: [_line(x, y, s.rule_mm, s.dark, s.hidden)]),
    ("over", "fold line, valley: towards you", lambda x, y, s: [_line(x, y, s.fold_mm * 1.6, s.accent, s.valley)]),
    ("under", "fold line, mountain: away", lambda x, y, s: [_line(x, y, s.fold_mm * 1.6, s.accent, s.mountain)]),
    ("always", "dimension", _dimension),
    ("layers", "two layers or more", _hatch),
    ("layers", "layer from the side, ticks on its right side", _layer),
    ("layers", "fold or tuck this way", lambda x, y, s: list(arrow((x, y + 1.0), (x + _SAMPLE, y + 1.0), s, bow=0.22))),
    ("under", "fold under, behind the rest", _behind),
    ("layers", "stitch marker", lambda x, y, s: [marker((x + _SAMPLE / 2, y), s)]),
    ("rows", "row 1 begins", _begins),
    ("rounds", "round 1 begins", _begins),
    ("border", "border starts", lambda x, y, s: [disc((x + _SAMPLE / 2, y), 1.1, fill_colour=s.accent)]),
)
