"""How ink looks: line weights, type sizes and tones, as one setting that travels with every sheet.

Two tones tell right-side and wrong-side rows apart; both keep 4.5 : 1 against white (WCAG 2.2, 1.4.3), and in
grey they still differ by a third of the scale.
"""

from __future__ import annotations

from ..made_late import dataclass, replace


@dataclass(frozen=True, slots=True)
class Style:
    """Line weights in mm, type sizes (the em) in mm, colours as #rrggbb.

    `right_side` and `wrong_side` ink the rows; `dark` is text and outlines, `quiet` secondary text, `hair`
    the thinnest rules, `tint` a ground behind ink, `paper` the page.
    """

    outline_mm: float = 0.35
    fold_mm: float = 0.3
    rule_mm: float = 0.25
    hair_mm: float = 0.15
    title_mm: float = 5.6
    name_mm: float = 3.4
    body_mm: float = 3.0
    small_mm: float = 2.7
    right_side: str = "#1d1d1b"
    wrong_side: str = "#3a6ead"
    dark: str = "#1d1d1b"
    quiet: str = "#595955"
    hair: str = "#8c8c86"
    tint: str = "#f0efeb"
    accent: str = "#a3402a"
    paper: str = "#ffffff"
    valley: tuple[float, ...] = (1.6, 1.0)
    mountain: tuple[float, ...] = (3.0, 0.8, 0.5, 0.8)
    hidden: tuple[float, ...] = (1.0, 0.8)



def style(*, mono: bool = False) -> Style:
    """The house style; `mono` for black-and-white printers: the wrong side in a grey that a copier keeps."""
    house = Style()
    return replace(house, wrong_side="#6b6b6b", accent="#1d1d1b", tint="#efefef") if mono else house


def luminance(colour: str) -> float:
    """The relative luminance of #rrggbb (WCAG 2.2, definition of relative luminance)."""
    parts = [int(colour[i : i + 2], 16) / 255.0 for i in (1, 3, 5)]
    linear = [v / 12.92 if v <= 0.04045 else ((v + 0.055) / 1.055) ** 2.4 for v in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    """The contrast of two colours, from 1 to 21 (WCAG 2.2, definition of contrast ratio).

    >>> contrast("#000000", "#ffffff")
    21.0
    """
    high, low = sorted((luminance(one), luminance(other)), reverse=True)
    return (high + 0.05) / (low + 0.05)
