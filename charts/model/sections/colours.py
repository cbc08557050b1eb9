"""Whether a pattern's colours can be told apart: in grey, and by readers who see colours differently.

Contrast is that of WCAG 2.2 (1.4.11 asks 3 : 1 of graphics). How a dichromat sees a colour is computed with
the matrices of Machado, Oliveira and Fernandes, "A physiologically-based model for simulation of color vision
deficiency", IEEE TVCG 15(6), 2009 (severity 1.0), on linear sRGB. Differences are CIE 1976 L*a*b* distances.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations
from math import dist

from ...errors import Note
from ...pattern.file.records import Colour, Pattern

Rgb = tuple[float, float, float]

#: WCAG 2.2, 1.4.11: graphics.
LEAST_CONTRAST = 3.0
#: Nearer than this two yarns are easily mixed up under a lamp: a working limit of our own, no source.
LEAST_DIFFERENCE = 15.0

#: Machado, Oliveira and Fernandes (2009), severity 1.0; rows give red, green and blue.
DICHROMATS: dict[str, tuple[Rgb, Rgb, Rgb]] = {
    "red-blind": (
        (0.152286, 1.052583, -0.204868), (0.114503, 0.786281, 0.099216), (-0.003882, -0.048116, 1.051998),
    ),
    "green-blind": (
        (0.367322, 0.860646, -0.227968), (0.280085, 0.672501, 0.047413), (-0.01182, 0.04294, 0.968881),
    ),
    "blue-blind": (
        (1.255528, -0.076749, -0.178779), (-0.078411, 0.930809, 0.147602), (0.004733, 0.691367, 0.3039),
    ),
}  # fmt: skip


def linear(hex_colour: str) -> Rgb:
    """ "#rrggbb" as linear-light red, green and blue from 0 to 1 (WCAG 2.2, "relative luminance")."""
    parts = (int(hex_colour[i : i + 2], 16) / 255 for i in (1, 3, 5))
    red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts)
    return red, green, blue


def luminance(hex_colour: str) -> float:
    """Relative luminance, 0 black to 1 white."""
    red, green, blue = linear(hex_colour)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(first: str, second: str) -> float:
    """The contrast of two colours, 1 to 21.

    >>> round(contrast("#000000", "#ffffff"), 3)
    21.0
    """
    low, high = sorted((luminance(first), luminance(second)))
    return (high + 0.05) / (low + 0.05)


def seen_by(reader: str, rgb: Rgb) -> Rgb:
    """Linear light as a dichromat's eye has it, kept between 0 and 1."""
    red, green, blue = (
        min(1.0, max(0.0, sum(m * c for m, c in zip(row, rgb, strict=True)))) for row in DICHROMATS[reader]
    )
    return red, green, blue


def lab(rgb: Rgb) -> Rgb:
    """Linear sRGB as CIE L*a*b*, white point D65 (IEC 61966-2-1; CIE 15)."""
    red, green, blue = rgb
    x = (0.4124 * red + 0.3576 * green + 0.1805 * blue) / 0.9505
    y = 0.2126 * red + 0.7152 * green + 0.0722 * blue
    z = (0.0193 * red + 0.1192 * green + 0.9505 * blue) / 1.089
    fx, fy, fz = (t ** (1 / 3) if t > 216 / 24389 else (24389 / 27 * t + 16) / 116 for t in (x, y, z))
    return 116 * fy - 16, 500 * (fx - fy), 200 * (fy - fz)


def difference(first: str, second: str, reader: str = "") -> float:
    """How far two colours are apart, to a dichromat where `reader` names one."""
    one, other = linear(first), linear(second)
    if reader:
        one, other = seen_by(reader, one), seen_by(reader, other)
    return dist(lab(one), lab(other))


def colour_notes(colours: Sequence[Colour]) -> tuple[Note, ...]:
    """A note for each two colours that are hard to tell apart, in grey or for some readers."""
    notes = (_pair_note(first, second) for first, second in combinations(colours, 2))
    return tuple(Note("[colours]", says) for says in notes if says)


def unused_notes(pattern: Pattern) -> tuple[Note, ...]:
    """A note for each colour that nothing is worked in."""
    unused = [c for c in pattern.colours if c not in pattern.used_colours]
    return tuple(Note("[colours]", f"{c.letter} ({c.name}) is used in no section and no border.") for c in unused)


def _pair_note(first: Colour, second: Colour) -> str:
    pair = f"{first.letter} ({first.name}) and {second.letter} ({second.name})"
    ratio = contrast(first.hex, second.hex)
    if difference(first.hex, second.hex) < LEAST_DIFFERENCE:
        return f"{pair} look nearly alike; their letters tell them apart on the chart."
    if ratio >= LEAST_CONTRAST:
        return ""
    blind = [reader for reader in DICHROMATS if difference(first.hex, second.hex, reader) < LEAST_DIFFERENCE]
    alike = f", and look alike to {' and '.join(blind)} readers" if blind else ""
    return (
        f"{pair} are close in grey (contrast {ratio:.1f} : 1, where 3 : 1 is asked of graphics){alike}; "
        "their letters tell them apart on the chart."
    )
