"""What stands under a chart: how to read it, its tones, its colours, and the key."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from ...drawing.display import Group, Ink, Text
from ...drawing.letters import cap_height, text_width, wrapped
from ..sheets.page import DARK, HAIR, QUIET, SMALL_MM, line_ink
from .key import Entry, key_block
from .margins import Colour, letter_ink
from .picture import band

Item = Ink | Text | Group
LINE_MM = SMALL_MM * 1.4
SWATCH_MM = 5.0
GAP_MM = 5.0


def notes(
    entries: Sequence[Entry],
    said: Sequence[str],
    tones: Sequence[tuple[str, str]],
    colours: Mapping[str, Colour],
    box: tuple[float, float, float],
) -> tuple[Group, float]:
    """The block under a chart and its height; `box` is (left, top, width) in mm.

    `said` are sentences, `tones` pairs of a colour and what is drawn in it.
    """
    left, top, width = box
    items: list[Item] = [line_ink(left, top, left + width, top, width=0.15, colour=HAIR)]
    y = top + LINE_MM + 0.6
    samples, y = _flow(
        [_tone(tone, words) for tone, words in tones] + [_swatch(k, c) for k, c in colours.items()],
        left,
        width,
        y,
    )
    items += samples
    for line in wrapped(" ".join(said), width, SMALL_MM):
        items.append(Text(left, y, line, SMALL_MM, colour=QUIET, name="note"))
        y += LINE_MM
    block = key_block(entries, left, y - SMALL_MM * 0.4, width)
    items.append(Group("key", block.items, "Key"))
    return Group("notes", tuple(items), "How to read the chart"), y - top - SMALL_MM * 0.4 + block.height


#: A sample before its words: what draws it at a left edge and a baseline, and the words.
_Sample = tuple[Callable[[float, float], list[Item]], str]


def _tone(colour: str, words: str) -> _Sample:
    def drawn(x: float, y: float) -> list[Item]:
        return [band(x, y - cap_height(SMALL_MM), x + SWATCH_MM, y, colour)]

    return drawn, words


def _swatch(letter: str, colour: Colour) -> _Sample:
    height = SMALL_MM * 1.05
    low = (height - cap_height(SMALL_MM)) / 2.0

    def drawn(x: float, y: float) -> list[Item]:
        ground = band(x, y + low - height, x + SWATCH_MM, y + low, colour.hex)
        ink = letter_ink(colour.hex)
        name = Text(x + SWATCH_MM / 2.0, y, letter, SMALL_MM, "middle", "bold", ink)
        return [ground, Ink(ground.d, stroke=HAIR, width=0.15), name]

    return drawn, colour.name


def _flow(samples: Sequence[_Sample], left: float, width: float, y: float) -> tuple[list[Item], float]:
    """Samples with their words side by side, on as many lines as they need; the y after them."""
    items: list[Item] = []
    x = left
    for drawn, words in samples:
        whole = SWATCH_MM + 1.4 + text_width(words, SMALL_MM)
        if x > left and x + whole > left + width:
            x, y = left, y + LINE_MM * 1.1
        items += drawn(x, y)
        items.append(Text(x + SWATCH_MM + 1.4, y, words, SMALL_MM, colour=DARK, name="tone"))
        x += whole + GAP_MM
    return items, y + LINE_MM * 1.1 if samples else y
