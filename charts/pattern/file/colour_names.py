"""How a colour of a common name is drawn: plain colour words, those of yarn and cloth, and words that shade them.

Values are the open names of CSS Color Module Level 4 (after the X11 list) made duller, as yarn is, or our own choice
for the words of yarn and cloth: the name is what a maker buys by, the drawing is only near it.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

#: Names and how they are drawn; spellings that share one stand together.
_NAMES = {
    "black, jet, ebony": "#2b2b2b", "white, snow, bright white": "#f5f3ee", "off-white, ivory, natural": "#f3eddd",
    "cream, vanilla": "#ede2cb", "ecru, undyed": "#dccfb2", "oatmeal, oat": "#d3c4a3",
    "beige, linen, flax, hemp, jute": "#d8c6a5",
    "sand, wheat": "#d6bd8f", "tan, camel, fawn": "#c09a68", "taupe, mushroom": "#93826f", "khaki": "#a99b68",
    "grey, gray, mid grey": "#8c8c8c", "silver, pearl": "#c3c6c8", "charcoal, graphite, anthracite": "#44484c",
    "slate, slate grey, slate gray": "#5f6b73", "stone, pebble": "#b5ab9b", "ash": "#b4b4ad", "smoke": "#9a9ea1",
    "red, scarlet": "#b3363a", "cherry, cherry red, cardinal": "#a3243b", "crimson": "#9c2138", "ruby": "#8e1e3f",
    "burgundy, maroon": "#6d2135", "wine, claret, bordeaux": "#70293f", "brick, brick red": "#9a4a3a",
    "rust": "#a5512c", "terracotta, terra cotta": "#bd6a4a", "copper": "#a9683f", "cinnamon": "#a5653a",
    "coral": "#e58070", "salmon": "#e4967f", "peach, apricot": "#f0b68f", "orange, pumpkin": "#d97b2f",
    "tangerine": "#e0852f", "amber, honey": "#d79a32", "mustard, ochre, ocher": "#c99a2e", "gold, golden": "#caa23c",
    "yellow, sunflower": "#e3bd45", "lemon, primrose, butter": "#f0df86", "saffron": "#dfa02f",
    "green, grass": "#55713f", "forest green, forest, bottle green": "#2f5138", "dark green, hunter green": "#33523a",
    "olive, olive green": "#767338", "sage, sage green": "#9dab86", "moss, moss green": "#6b7a3f",
    "mint, mint green": "#a9d6b9", "lime, lime green": "#9fbf4a", "emerald, jade": "#2f8562", "sea green": "#4f9479",
    "pistachio": "#b6c78c", "eucalyptus, seafoam": "#9bbcac", "teal, petrol": "#2f6f73",
    "turquoise": "#3ea6a6", "aqua, cyan": "#6cc0c4", "blue": "#3f5f8a", "light blue, baby blue": "#a5c3dd",
    "sky blue, sky, powder blue": "#8fb9d9", "royal blue, cobalt": "#3350a0", "navy, navy blue, marine": "#26364f",
    "dark blue, midnight blue, midnight": "#243350", "denim, jeans": "#506a8c", "indigo": "#3d3f73",
    "steel blue": "#5f86a8", "ice blue": "#cfe0ea", "purple, amethyst": "#6d4b7c", "plum, damson": "#5e2f52",
    "aubergine, eggplant": "#452a42", "violet": "#7a5aa0", "lilac": "#bfa3cf", "lavender": "#b5a8d6",
    "mauve, heather": "#a1839f", "orchid": "#b877b0", "magenta, fuchsia": "#b33a7f", "pink": "#d893a6",
    "light pink, baby pink, blush": "#ecc4cb", "hot pink": "#d64d8b", "rose, old rose, dusty pink": "#c0828b",
    "raspberry, berry": "#a12f57", "brown": "#7a5a42", "dark brown, chocolate": "#4b3427", "coffee, mocha": "#6a4e3c",
    "caramel, toffee": "#b07a45", "chestnut": "#7e4a33", "walnut": "#634936", "bronze": "#8a6b3c",
}  # fmt: skip
COLOUR_NAMES = {name: drawn for names, drawn in _NAMES.items() for name in names.split(", ")}
#: Words that shade the name after them: how much white or black they mix in.
_SHADES = {"light": 0.4, "pale": 0.5, "soft": 0.3, "pastel": 0.5, "baby": 0.45, "dark": -0.4, "deep": -0.3,
           "bright": 0.0, "medium": 0.0, "mid": 0.0, "dusty": 0.15, "warm": 0.0, "cool": 0.0}  # fmt: skip
#: What a colour that is not known is drawn in.
_GREYS = ("#5f6b73", "#d5d0c6", "#98a2a8", "#3d3f45", "#bdb7aa", "#7d766c", "#e6e3dc", "#525049")


def known_colour(name: str) -> str:
    """How a colour of that name is drawn, "" where it is not known: the name itself, one with a word that shades it, or
    a kind of a colour that stands last.

    >>> known_colour("Forest green"), known_colour("apple green") == known_colour("green"), known_colour("zxq")
    ('#2f5138', True, '')
    """
    words = re.sub(r"[\s-]+", " ", name.lower()).strip()
    for spelled in (words, words.replace(" ", "-")):
        if spelled in COLOUR_NAMES:
            return COLOUR_NAMES[spelled]
    first, _, rest = words.partition(" ")
    if first in _SHADES and rest:
        base = known_colour(rest)
        return _mixed(base, _SHADES[first]) if base else ""
    last = words.rpartition(" ")[2]
    return COLOUR_NAMES.get(last, "") if rest else ""


def _mixed(drawn: str, share: float) -> str:
    """A colour with so much white (below 0: black) in it."""
    to = 255 if share > 0 else 0
    parts = (int(drawn[k : k + 2], 16) for k in (1, 3, 5))
    return "#" + "".join(f"{round(part + (to - part) * abs(share)):02x}" for part in parts)


def drawn_colours(names: Sequence[str]) -> tuple[str, ...]:
    """How each of several colours is drawn; those not known in greys that none of the others has.

    >>> len(set(drawn_colours(["a", "b", "c", "d", "e", "f", "g", "h", "i", "j"])))
    10
    """
    taken = {drawn for drawn in map(known_colour, names) if drawn}
    greys = (grey for grey in _all_greys() if grey not in taken)
    return tuple(known_colour(name) or next(greys) for name in names)


def _all_greys() -> Iterable[str]:
    """Greys without end that are all different, the far apart ones first."""
    yield from _GREYS
    for n in range(len(_GREYS), 256):
        tone = 40 + n * 67 % 200
        yield f"#{tone:02x}{tone:02x}{(tone + 1 + n // 100):02x}"
