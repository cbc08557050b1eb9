"""The one table of the pattern file's keys: what each takes, whether it is needed, and what it means.

The reader, the nearest-key advice, the JSON Schema and the starter pattern are made from it.
"""

from __future__ import annotations

from ...made_late import dataclass
from .kinds import MEASUREMENTS, OBJECT_KINDS

#: Limits, stated wherever they are met.
MOST_TEXT = 200_000  # characters of a pattern file
MOST_WORDS = 20_000  # characters of one section's work
MOST_NAME = 200  # characters of any other text
MOST_MM = 10_000.0  # 10 m: longer than any blanket
LEAST_MM = 1.0
MOST_ROWS = 5_000  # rows of one section
MOST_SECTIONS = 100

KINDS = tuple(OBJECT_KINDS)
#: How difficult a piece is: the levels that the Craft Yarn Council recommends (from memory).
LEVELS = ("basic", "easy", "intermediate", "complex")


@dataclass(frozen=True, slots=True)
class Key:
    """One key: what reads it (of values.READERS, or "table"), whether it is needed, its meaning.

    `choices` are the words it may be; `low` and `high` the bounds of a number, both allowed.
    """

    name: str
    takes: str
    says: str
    needed: bool = False
    choices: tuple[str, ...] = ()
    low: float = 0.0
    high: float = 0.0
    example: str = ""


#: What a maker may write for a choice, and the choice that it is.
ALIASES: dict[str, dict[str, str]] = {
    "stitch": {
        "single crochet": "sc", "half double crochet": "hdc", "half double": "hdc", "double crochet": "dc",
        "half treble crochet": "htr", "half treble": "htr", "treble crochet": "tr", "treble": "tr",
        "slip stitch": "sl st", "slst": "sl st", "crab stitch": "rsc", "crab": "rsc", "crab st": "rsc",
        "reverse sc": "rsc", "reverse single crochet": "rsc", "reverse dc": "rsc", "reverse double crochet": "rsc",
    },
    "edging": {
        "shells": "shell", "shell edging": "shell", "scallop": "shell", "scallops": "shell", "picots": "picot",
        "picot edging": "picot", "crab stitch": "reverse sc", "crab": "reverse sc", "rsc": "reverse sc",
        "reverse single crochet": "reverse sc", "none": "plain",
    },
}  # fmt: skip


#: The measurements that a chain may run along.
_DIRECTIONS = tuple(dict.fromkeys(name for kind in OBJECT_KINDS.values() for name in (kind.plain, kind.strip)))


def _measured() -> tuple[Key, ...]:
    """The measurements as keys of [object]."""
    return tuple(Key(m.name, "length", f"{m.name}: {m.means}", example=m.offers) for m in MEASUREMENTS.values())


def _as_in_object() -> tuple[Key, ...]:
    """The measurements as keys of one of [sizes]."""
    return tuple(Key(name, "length", "as in [object]") for name in MEASUREMENTS)


#: The keys of each table; a name ending in "*" is a table whose keys are the user's own names.
TABLES: dict[str, tuple[Key, ...]] = {
    "": (
        Key("title", "name", "what the pattern is called", needed=True, example="Field-book cover"),
        Key("author", "name", "who made it; printed on every sheet"),
        Key("licence", "name", "how it may be used; printed on every sheet when given", example="CC BY 4.0"),
        Key("terms", "choice", "the terms the rows are written in", choices=("US", "UK"), example="US"),
        Key("paper", "choice", "the paper its sheets are printed on", choices=("A4", "Letter"), example="A4"),
        Key("photo", "name", "a photograph of the finished piece (JPEG or PNG), beside the file", example="cover.jpg"),
        Key("difficulty", "choice", "how difficult it is; reckoned from the stitches where missing", choices=LEVELS),
        Key("notions", "name", "what is needed beside hook and yarn", example="two buttons of 15 mm"),
        Key("notes", "name", "what a maker should know before beginning"),
        Key("testers", "name", "who made it before it was published, thanked on the last page"),
        Key("hook", "hook", "the hook's size in millimetres", example="4 mm"),
        Key("yarn", "table", "the yarn, as far as known"),
        Key("gauge", "table", "stitches and rows of a blocked swatch in the body's stitch", needed=True),
        Key("object", "table", "what the piece is made for, measured", needed=True),
        Key("colours", "table", "the colours by letter, in the order of the key"),
        Key("stitches", "table", "special stitches, in words of known ones"),
        Key("section", "tables", "the stretches of rows, in the order of work", needed=True),
        Key("border", "table", "the border worked round the piece"),
        Key("fold", "tables", "folds of the pattern's own, in order"),
        Key("join", "tables", "joins of the pattern's own, in order"),
        Key("sizes", "table", "the same pattern for several objects"),
    ),
    "yarn": (
        Key("category", "count", "the yarn weight category", low=0, high=7, example="3"),
        Key("fibre", "name", "what it is spun of", example="cotton"),
        Key("swatch_weight", "weight", "what the swatch weighs", example="9.6 g"),
        Key("swatch_size", "area", "width x height of the swatch that was weighed", example="12 cm x 12 cm"),
        Key("ball", "ball", "weight and length on the ball's label", example="50 g / 115 m"),
    ),
    "gauge": (
        Key("stitches", "number", "stitches over the length", needed=True, low=0.5, high=400, example="17"),
        Key(
            "rows",
            "number",
            "rows over the length; estimated from the stitch where missing",
            low=0.5,
            high=400,
            example="14",
        ),
        Key("over", "length", "the length they were counted over", example="10 cm"),
        Key(
            "border_stitches",
            "number",
            "stitches of the border along an edge, over the same length",
            low=0.5,
            high=400,
            example="16",
        ),
        Key("border_rows", "number", "rows of the border over the same length", low=0.5, high=400),
        Key("estimated", "flag", "true where the gauge is a guess; printed with it"),
    ),
    "object": (
        Key("kind", "choice", "what it is", needed=True, choices=KINDS, example="book"),
        Key("called", "name", "what such a piece is called, where that is not its kind", example="baby blanket"),
        *_measured(),
        Key("size", "size", "a named size instead of height and wrap", example="B5"),
        Key(
            "chain_along",
            "choice",
            "the measurement the foundation chain runs along",
            choices=_DIRECTIONS,
            example="height",
        ),
        Key(
            "stretch",
            "percents",
            "the least and the most the piece may stretch to fit",
            example='["0 %", "6 %"]',
        ),
        Key("ease", "percents", "the least and the most room round a thing that slides in", example='["1 %", "6 %"]'),
    ),
    "colours.*": (
        Key("name", "name", "the colour's name", needed=True, example="moss"),
        Key("hex", "hex", "the colour as #rrggbb", needed=True, example="#55713f"),
    ),
    "stitches.*": (
        Key("is", "name", "the stitch in words of known ones", needed=True, example="dc4tog in one st"),
        Key("abbreviation", "name", "how the rows write it", example="bo"),
    ),
    "section": (
        Key("name", "name", "what the section is called", needed=True, example="front flap"),
        Key("length", "section length", 'a measurement of the object, a length, or "rest"', example="flap"),
        Key("rows", "count", "the number of rows instead of a length", low=1, high=MOST_ROWS, example="11"),
        Key("colour", "letter", "the section's colour", example="A"),
        Key("stripes", "letters", "the colour of each row in turn", example='["A", "A", "B", "B"]'),
        Key("work", "work", "the rows, in written form", needed=True),
        Key(
            "texture",
            "choice",
            "raised stitches stand out on the right side, or may face any way",
            choices=("raised", "any"),
            example="raised",
        ),
        Key("repeat_from", "count", "the written row that the row repeat starts with", low=1, high=999),
        Key("ends", "choice", "how the section's last repeat ends", choices=("as it began", "whole repeat")),
        Key("to", "width", "the width or the stitches that it narrows or widens to", low=1, high=9999, example="30 mm"),
        Key("over", "width", "the width or the stitches in the middle that it is worked over", low=1, high=9999),
        Key("gauge_rows", "number", "the section's own rows over the gauge's length", low=0.5, high=400),
    ),
    "border": (
        Key(
            "stitch",
            "choice",
            "the border's stitch",
            choices=("sc", "hdc", "dc", "sl st", "rsc", "htr", "tr", "ss"),
            example="sc",
        ),
        Key("joins", "flag", "worked through both layers where flaps lie", example="true"),
        Key("corner", "count", "stitches worked into each corner", low=1, high=9, example="3"),
        Key("rounds", "count", "rounds of the border", low=1, high=20, example="1"),
        Key(
            "edging", "choice", "what the last round makes", choices=("plain", "shell", "picot", "reverse sc")
        ),
        Key("colour", "letter", "the border's colour"),
    ),
    "fold": (
        Key(
            "at",
            "names",
            "the two sections that the fold lies between, or two points from the lower left corner",
            needed=True,
            example='["front flap", "body"]',
        ),
        Key("moves", "name", "which of the two moves", needed=True, example="front flap"),
        Key(
            "direction",
            "choice",
            "folded over the other (a valley) or under it (a mountain)",
            choices=("over", "under"),
        ),
        Key("says", "name", "the fold in a sentence"),
    ),
    "join": (
        Key(
            "first",
            "name",
            "an edge: a section and left, right, start or end",
            needed=True,
            example="front flap left",
        ),
        Key("second", "name", "the edge it meets", needed=True),
        Key("by", "choice", "how they are held together", choices=("border", "sc", "sl st", "sewn")),
        Key("name", "name", "what the join is called"),
    ),
    "sizes.*": (
        *_as_in_object(),
        Key("size", "size", "as in [object]"),
    ),
}


def keys_of(table: str) -> dict[str, Key]:
    """The keys of a table by name."""
    return {key.name: key for key in TABLES[table]}
