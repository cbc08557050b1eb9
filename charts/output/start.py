"""A pattern file to start from: commented, complete, made from a few measurements."""

from __future__ import annotations

from dataclasses import dataclass

#: What must be measured of each kind, in the order of asking, with the question.
QUESTIONS: dict[str, tuple[tuple[str, str], ...]] = {
    "book": (
        ("height", "Height of the book, along the spine"),
        ("wrap", "Round the closed book, fore-edge, spine, fore-edge"),
        ("flap", "Depth of each flap"),
    ),
    "book with strap": (
        ("height", "Height of the book, along the spine"),
        ("wrap", "Round the closed book, fore-edge, spine, fore-edge"),
        ("flap", "Depth of each flap"),
        ("strap", "Length of the strap that closes it"),
    ),
    "pouch": (
        ("width", "Width of the pouch"),
        ("height", "Height of the pouch"),
        ("flap", "Depth of the flap"),
    ),
    "cushion": (
        ("width", "Width of the cushion"),
        ("height", "Height of the cushion"),
        ("overlap", "How far the two parts of the back overlap"),
    ),
    "panel": (("width", "Width of the piece"), ("height", "Height of the piece")),
    "pocket panel": (
        ("width", "Width of the piece"),
        ("height", "Height without the pockets"),
        ("flap", "Depth of each pocket"),
    ),
}

#: Measurements to offer, our own.
USUAL: dict[str, str] = {
    "height": "210 mm", "wrap": "308 mm", "width": "200 mm", "flap": "60 mm", "strap": "90 mm", "overlap": "80 mm",
}  # fmt: skip

#: The sections of each kind with their lengths.
SECTIONS: dict[str, tuple[tuple[str, str], ...]] = {
    "book": (("front flap", "flap"), ("body", "wrap"), ("back flap", "flap")),
    "book with strap": (("front flap", "flap"), ("body", "wrap"), ("back flap", "flap"), ("strap", "strap")),
    "pouch": (("front", "height"), ("back", "height"), ("flap", "flap")),
    "cushion": (("lower back", "back part"), ("front", "height"), ("upper back", "back part")),
    "panel": (("body", "height"),),
    "pocket panel": (("first pocket", "flap"), ("body", "height"), ("second pocket", "flap")),
}

#: What each measurement means, said beside it.
MEANINGS: dict[str, str] = {
    "height": "number and unit: mm, cm or in; fractions too, as 9 7/8 in",
    "wrap": "fore-edge, round the spine, to fore-edge, the book closed",
    "width": "across",
    "flap": "how far it reaches in",
    "strap": "from the back flap's end, round the fore-edge, to where it closes",
    "overlap": "how far the two parts of the back lie on each other",
}


@dataclass(frozen=True, slots=True)
class Start:
    """The answers: kind, title, measurements by name (as written), gauge, hook, terms."""

    kind: str
    title: str
    measures: dict[str, str]
    stitches: float
    rows: float
    over: str = "10 cm"
    hook: str = "4 mm"
    terms: str = "US"


def starter(start: Start) -> str:
    """The text of a pattern file for the answers.

    It has one plain stitch throughout, two colours and a border: a piece that can be made as it stands.
    """
    blocks = [_head(start), _gauge(start), _object(start), _colours()]
    blocks += [_section(name, length, start.terms) for name, length in SECTIONS[start.kind]]
    return "\n".join([*blocks, _border(start)])


def quoted(text: str) -> str:
    """A text as TOML writes it.

    >>> quoted('My "first" cover')
    '"My \\\\"first\\\\" cover"'
    """
    kept = "".join(c for c in text if c.isprintable())
    return '"' + kept.replace("\\", "\\\\").replace('"', '\\"') + '"'


def _head(start: Start) -> str:
    return f"""\
# A pattern file: from it come the counts, the chart, the words, the folding and the paper mock-up.
# What stands after a # is for you; change anything, then look with: hookfold check FILE

title  = {quoted(start.title)}
# author  = "..."              # printed on every sheet
# licence = "CC BY 4.0"        # printed on every sheet
terms  = "{start.terms}"                  # the terms the rows below are written in
hook   = {quoted(start.hook)}
# yarn = {{ category = 3, fibre = "cotton", swatch_weight = "9.6 g", ball = "50 g / 115 m" }}
"""


def _gauge(start: Start) -> str:
    return f"""\
[gauge]                        # count a blocked swatch in the body's stitch, in its middle
stitches = {start.stitches:g}
rows = {start.rows:g}
over = {quoted(start.over)}
# border_stitches = 16         # border stitches along an edge, over the same length
"""


def _object(start: Start) -> str:
    given = start.measures.items()
    lines = [f"{name} = {quoted(value)}".ljust(30) + f" # {MEANINGS[name]}" for name, value in given]
    along = "height" if start.kind.startswith("book") else "width"
    stretch = 'stretch = ["0 %", "6 %"]' if start.kind.startswith("book") else '# stretch = ["0 %", "6 %"]'
    return "\n".join([
        "[object]                       # measure the thing itself",
        f'kind = "{start.kind}"',
        *lines,
        f'chain_along = "{along}"'.ljust(30) + " # the foundation runs along this; rows stack",
        stretch.ljust(30) + " # how much the finished piece may stretch to fit",
        "",
    ])  # fmt: skip


def _colours() -> str:
    return """\
[colours]                      # in the order of the key
A = { name = "moss", hex = "#55713f" }
B = { name = "oat",  hex = "#dccba7" }
"""


def _section(name: str, length: str, terms: str) -> str:
    stitch = "Hdc" if terms == "US" else "Htr"
    body = name in ("body", "back", "front") and length != "flap"
    colour = 'stripes = ["A", "A", "B", "B"] # the colour of each row in turn' if body else 'colour = "A"'
    return f"""\
[[section]]
name   = "{name}"
length = "{length}"
{colour}
work   = "Row 1: Ch 2, turn. {stitch} in each st across."
"""


def _border(start: Start) -> str:
    stitch = "sc" if start.terms == "US" else "dc"
    joins = "false" if start.kind == "panel" else "true"
    return f"""\
[border]
stitch = "{stitch}"
joins  = {joins}                  # worked through both layers where they lie on each other
corner = 3                     # stitches into each corner
"""
