"""A pattern file to start from: commented, complete, made from a few measurements."""

from __future__ import annotations

from dataclasses import dataclass

from ..measure import show_percent
from ..pattern.file.kinds import OBJECT_KINDS, StartSection


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
    blocks += [_section(section, start.terms) for section in OBJECT_KINDS[start.kind].sections]
    bordered = OBJECT_KINDS[start.kind].border != "none"
    return "\n".join([*blocks, *([_border(start)] if bordered else [])])


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


#: What is said beside the range of a fit.
_FITS = {
    "stretch": " # how much the finished piece may stretch to fit",
    "ease": " # how much room there may be round the thing",
}


def _object(start: Start) -> str:
    kind = OBJECT_KINDS[start.kind]
    means = {m.name: m.means for m in kind.measures}
    given = start.measures.items()
    lines = [f"{name} = {quoted(value)}".ljust(30) + f" # {means[name]}" for name, value in given]
    low, high = map(show_percent, kind.range or (0.0, 0.06))
    fits = "ease" if kind.fit == "ease" else "stretch"
    stretch = f'{"" if kind.range else "# "}{fits} = ["{low}", "{high}"]'
    return "\n".join([
        "[object]                       # measure the thing itself",
        f'kind = "{start.kind}"',
        *lines,
        f'chain_along = "{kind.plain}"'.ljust(30) + " # the foundation runs along this; rows stack",
        stretch.ljust(30) + _FITS[fits],
        "",
    ])  # fmt: skip


def _colours() -> str:
    return """\
[colours]                      # in the order of the key
A = { name = "moss", hex = "#55713f" }
B = { name = "oat",  hex = "#dccba7" }
"""


def _section(section: StartSection, terms: str) -> str:
    stitch = "Hdc" if terms == "US" else "Htr"
    striped = 'stripes = ["A", "A", "B", "B"] # the colour of each row in turn'
    colour = striped if section.stripes else 'colour = "A"'
    length = f"rows   = {section.length}" if isinstance(section.length, int) else f'length = "{section.length}"'
    return f"""\
[[section]]
name   = "{section.name}"
{length}
{colour}
work   = "Row 1: Ch 2, turn. {stitch} in each st across."
"""


def _border(start: Start) -> str:
    stitch = "sc" if start.terms == "US" else "dc"
    joins = "true" if OBJECT_KINDS[start.kind].border == "joins" else "false"
    return f"""\
[border]
stitch = "{stitch}"
joins  = {joins}                  # worked through both layers where they lie on each other
corner = 3                     # stitches into each corner
"""
