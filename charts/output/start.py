"""A pattern file to start from: commented, complete, made from a few measurements."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import field

from ..made_late import dataclass
from ..measure import parse_length, show_length, show_percent
from ..pattern.file.colour_names import drawn_colours
from ..pattern.file.kinds import OBJECT_KINDS, StartSection, may_lack, passes_mm

#: Stitches to begin with, our own words, in US terms: what it is called, and its rows.
STITCHES: dict[str, tuple[str, ...]] = {
    "close": ("Row 1: Ch 1, turn. Sc in each st across.",),
    "medium": ("Row 1: Ch 2, turn. Hdc in each st across.",),
    "tall": ("Row 1: Ch 2 (does not count as a st), turn. Dc in each st across.",),
    "crunch": ("Row 1: Ch 1, turn. *Sc in next st, dc in next st; rep from * across.",),
    "ridges": ("Row 1: Ch 1, turn. Sc in back loop only of each st across.",),
}
#: Those of them that a crown can be grown in: one stitch in each.
GROWS = ("close", "medium", "tall")

#: What is said of a piece in print: the key, an example, what it is.
PUBLISHED: dict[str, tuple[str, str]] = {
    "author": ("...", "printed on every sheet"),
    "licence": ("CC BY 4.0", "printed on every sheet"),
    "difficulty": ("easy", "reckoned from the stitches where it is not said"),
    "notions": ("two buttons of 15 mm", "what is needed beside hook and yarn"),
    "notes": ("Work the border loosely.", "what a maker should know before beginning"),
    "photo": ("cover.jpg", "a photograph beside this file, for the booklet's cover"),
    "testers": ("Ida, Bo", "who tried it, thanked on the booklet's last page"),
}


@dataclass(frozen=True, slots=True)
class Start:
    """The answers: kind, title, measurements by name (as written), gauge; hook, terms, stitch, yarn and colours as far
    as they were said. `fitted` is whether the range of stretch that the kind has is written; `published` what is
    said in print, by its key; `called` what makers call such a piece, "" where that is its kind; `stripes` the colours
    of each row in turn, by section, where they do not go as in all others."""

    kind: str
    title: str
    measures: dict[str, str]
    stitches: float
    rows: float
    over: str = "10 cm"
    hook: str = ""
    terms: str = "US"
    stitch: str = "medium"
    fibre: str = ""
    ball: str = ""
    colours: tuple[str, ...] = ()
    weight: str = ""
    paper: str = ""
    fitted: bool = True
    published: Mapping[str, str] = field(default_factory=dict)
    called: str = ""
    stripes: Mapping[str, tuple[str, ...]] = field(default_factory=dict)


def met_by(stripes: Sequence[str], rows: int) -> tuple[str, ...]:
    """The stripes of a back of so many rows, in turn from its first, that meet those of the front that lies on it: its
    last row lies on the front's first.

    >>> met_by("AABB", 7), met_by("AABB", 6)
    (('B', 'A', 'A', 'B'), ('A', 'A', 'B', 'B'))
    """
    return tuple(stripes[(rows - 1 - row) % len(stripes)] for row in range(len(stripes)))


def stripes_of(start: Start) -> tuple[str, ...]:
    """The colours of each row in turn: two rows of each."""
    return tuple(chr(ord("A") + n) for n in range(len(start.colours)) for _ in range(2))


def starter(start: Start) -> str:
    """The text of a pattern file for the answers.

    It has one stitch throughout and a border where the kind has one: a piece that can be made as it stands. Nothing
    stands in it that was not said, but as a comment.
    """
    blocks = [_head(start), _gauge(start), _object(start), _colours(start)]
    kind = OBJECT_KINDS[start.kind]
    lacks = {m.name for m in kind.measures if may_lack(kind.name, m.name)} - set(start.measures)
    blocks += [_section(section, start) for section in kind.sections if section.length not in lacks]
    bordered = OBJECT_KINDS[start.kind].border != "none"
    return "\n".join([*blocks, *([_border(start)] if bordered else [])])


def stitch_words(stitch: str, terms: str, *, rounds: bool = False) -> str:
    """The rows of one of the stitches to begin with, or its rounds.

    >>> stitch_words("close", "UK")
    'Row 1: Ch 1, turn. Dc in each st across.'
    >>> stitch_words("close", "US", rounds=True)
    'Rnd 1: Ch 1, sc in each st around, join with sl st.'
    """
    from ..folding.finishing import in_terms

    said = in_terms("\n".join(STITCHES[stitch]), terms)
    if not rounds:
        return said
    said = re.sub(r", turn\. (\*?)(\w)", lambda m: f", {m[1]}{m[2].lower()}", said.replace("Row 1", "Rnd 1"))
    return said.replace(" across.", f" around, join with {in_terms('sl st', terms)}.")


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
{_published(start)}
terms  = "{start.terms}"                  # the terms the rows below are written in
{_said("paper", quoted(start.paper) if start.paper else "", '"A4"')}
{_said("hook", quoted(start.hook) if start.hook else "", '"4 mm"')}
{_said("yarn", _yarn(start), '{ fibre = "cotton", swatch_weight = "9.6 g", ball = "50 g / 115 m" }')}
"""


def _published(start: Start) -> str:
    """What a booklet prints beside the piece, each key as said or as a comment."""
    lines = []
    for key, (example, says) in PUBLISHED.items():
        said = start.published.get(key, "")
        line = f"{key} = {quoted(said)}" if said else f"# {key} = {quoted(example)}"
        lines.append(f"{line.ljust(38)} # {says}")
    return "\n".join(lines)


def _said(key: str, value: str, example: str) -> str:
    """A line for what was said; for what was not, a comment that shows how."""
    return f"{key:<6} = {value}" if value else f"# {key} = {example}"


def _yarn(start: Start) -> str:
    said = [f"category = {start.weight}"] if start.weight else []
    said += [f"{key} = {quoted(value)}" for key, value in (("fibre", start.fibre), ("ball", start.ball)) if value]
    return f"{{ {', '.join(said)} }}" if said else ""


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
    low, high = map(show_percent, over_range(start) or kind.range or (0.0, 0.06))
    fits = "ease" if kind.fit == "ease" else "stretch"
    stretch = f'{"" if kind.range and start.fitted else "# "}{fits} = ["{low}", "{high}"]'
    return "\n".join([
        "[object]                       # measure the thing itself",
        f'kind = "{start.kind}"',
        *([f"called = {quoted(start.called)}"] if start.called else []),
        *lines,
        f'chain_along = "{kind.plain}"'.ljust(30) + " # the foundation runs along this; rows stack",
        stretch.ljust(30) + _FITS[fits],
        "",
    ])  # fmt: skip


def over_range(start: Start) -> tuple[float, float] | None:
    """The range of stretch of a tube that has to go over more than it sits on: so that it stretches over that no
    further than its stitch gives, as far as it then still holds on; None of any other piece.

    The range is no narrower than a stitch, so that some count lies in it.
    """
    from ..model.sizing.worn import GIVES

    kind = OBJECT_KINDS[start.kind]
    if kind.passes is None or kind.range is None:
        return None
    lengths_mm = {name: parse_length(text).mm for name, text in start.measures.items()}
    around_mm = lengths_mm[kind.plain]
    most = GIVES.get({"medium": "hdc", "tall": "dc"}.get(start.stitch, "sc"), 0.0)
    one = 1.05 * _repeat(start.stitch) * parse_length(start.over).mm / start.stitches / around_mm
    low, high = kind.range
    high = min(high, max(one, around_mm * (1 + most) / passes_mm(start.kind, lengths_mm) - 1))
    return max(0.0, min(low, high - one)), max(high, one)


def _repeat(stitch: str) -> int:
    """How many stitches a stitch to begin with repeats over."""
    return 2 if "*" in STITCHES[stitch][0] else 1


def _colours(start: Start) -> str:
    if not start.colours:
        return '# [colours]                    # in the order of the key\n# A = { name = "...", hex = "#..." }\n'
    lines = ["[colours]                      # in the order of the key; hex is only how it is drawn"]
    for place, (name, drawn) in enumerate(zip(start.colours, drawn_colours(start.colours), strict=True)):
        lines.append(f'{chr(ord("A") + place)} = {{ name = {quoted(name)}, hex = "{drawn}" }}')
    return "\n".join(lines) + "\n"


def _section(section: StartSection, start: Start) -> str:
    striped = ", ".join(f'"{letter}"' for letter in start.stripes.get(section.name, stripes_of(start)))
    turned = section.name in start.stripes
    says = "so that it meets the stripes that lie on it" if turned else "the colour of each row in turn"
    several = section.stripes and len(start.colours) > 1
    colour = f"stripes = [{striped}] # {says}" if several else 'colour = "A"' if start.colours else ""
    length = f"rows   = {section.length}" if isinstance(section.length, int) else f'length = "{section.length}"'
    plain = start.stitch in GROWS or not (section.over or section.length == "crown")
    rounds = OBJECT_KINDS[start.kind].rounds
    said = stitch_words(start.stitch if plain else GROWS[0], start.terms, rounds=rounds)
    if section.length == "crown":
        said += "\" # the tool grows this round from a ring to the whole way round"
        said = said.replace("Ch 2 (does not count as a st), ", "Ch 2, ")
        return "\n".join(["[[section]]", f'name   = "{section.name}"', length, *([colour] if colour else []),
                          f'work   = "{said}', ""])
    if section.over:
        length += f'\nover   = "{_wide(section.over, start)}"'.ljust(31) + "# in the middle of the row"
    work = f'work   = "{said}"'
    lines = ["[[section]]", f'name   = "{section.name}"', length, *([colour] if colour else []), work]
    return "\n".join(lines) + "\n"


def _wide(width: str, start: Start) -> str:
    """A width of the table of kinds, in inches where all was measured so."""
    units = {parse_length(text).unit for text in start.measures.values()}
    return show_length(parse_length(width).mm, "in") if units == {"in"} else width


def _border(start: Start) -> str:
    stitch = "sc" if start.terms == "US" else "dc"
    joins = "true" if OBJECT_KINDS[start.kind].border == "joins" else "false"
    return f"""\
[border]
stitch = "{stitch}"
joins  = {joins}                  # worked through both layers where they lie on each other
corner = 3                     # stitches into each corner
"""
