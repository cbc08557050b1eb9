"""The kinds of object: what must be measured of each, and how its measurements make the piece.

Every piece has two directions. One lies as it is (`plain`); along the other, the `strip`, the piece is
folded. A book's strip is its wrap with a flap at each end; a pouch's is its height twice and a flap.
All of it stands in one table, charts/folding/kinds.toml, which says what each of its keys means.
"""

from __future__ import annotations

import functools
import re
import tomllib
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import field
from math import pi
from pathlib import Path
from typing import Any

from ...made_late import dataclass
from ...measure import Length, parse_length, show_length


@dataclass(frozen=True, slots=True)
class Measurement:
    """One measurement of a kind: its key in [object], how it is asked for and taken, and what it may be.

    `least` and `most` are the bounds that a piece of the kind is worked in; `within` is what is usual, None where
    anything is. `means` are a few words for the file, `how` a sentence for the measuring sheet, `picture` the name of
    the drawing beside it. `asked` says whether `start` asks for it, `plus` which measurements it adds to the answer,
    `of` what it offers for pieces by what they are called.
    """

    name: str
    means: str
    least: Length
    most: Length
    asks: str = ""
    offers: str = ""
    how: str = ""
    picture: str = ""
    within: tuple[Length, Length] | None = None
    needed: bool = False
    asked: bool = True
    plus: tuple[str, ...] = ()
    of: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class StartSection:
    """A section of a started file: its name, the measurement it is as long as (or its rows), whether it has stripes,
    and the width of one that is worked over the middle alone."""

    name: str
    length: str | int
    stripes: bool
    over: str = ""


@dataclass(frozen=True, slots=True)
class Handles:
    """Handles worked apart: the measure of their length, how wide they are, which share of the width in from the sides
    their ends are sewn, and how many rows deep."""

    measure: str
    width_mm: float
    from_side: float
    rows: int


@dataclass(frozen=True, slots=True)
class Caution:
    """What is printed beside a piece of a kind: of every one, or only where a measurement is less than `under_mm`, or
    where it is called by a `word` (a regular expression that words begin with)."""

    says: str
    measure: str = ""
    under_mm: float = 0.0
    word: str = ""

    def concerns(self, lengths_mm: Mapping[str, float], called: str = "") -> bool:
        """Whether it is for a piece of these measurements that is `called` so."""
        if self.word and not re.search(rf"\b(?:{self.word})", called, re.IGNORECASE):
            return False
        return not self.measure or 0.0 < lengths_mm.get(self.measure, 0.0) < self.under_mm


@dataclass(frozen=True, slots=True)
class Closing:
    """How a piece is closed: the measure that it `needs` ("" for none), the notions, how wide button or snap is, and
    the sentences, in which lengths and counts are left open."""

    says: str
    notions: str
    button_mm: float
    needs: str = ""

    def of(self, given: Iterable[str]) -> bool:
        """Whether a piece of these measures is closed so."""
        return not self.needs or self.needs in set(given)


@dataclass(frozen=True, slots=True)
class Instead:
    """What is asked before measuring (a question of yes and no, "" for none), the kind that the piece then is, and what
    is said of this one."""

    says: str
    asks: str = ""
    kind: str = ""


@dataclass(frozen=True, slots=True)
class Passes:
    """What a tube has to stretch over before it sits: its `measure`, how many times the way round it usually is, and
    what it is called."""

    measure: str
    share: float
    over: str


@dataclass(frozen=True, slots=True)
class ObjectKind:
    """One kind: its directions, what makes up its strip, how it fits, and what `start` and the sheets say of it.

    `sides` counts the strip's measurement where that is a height (front and back: 2). `extras` are added. `fit` is
    "stretch", "ease" or "size". What holds an object must fit it between its joins: a border stands outside them and
    gives no room. Of what holds none the border is a part, and the size asked for has it. `between` says for the plain
    and the strip direction from where to where the piece before its border is measured. `folds` is in how many places
    it is folded and `joined` after how many of them its layers are joined. `open` are the edges of its mouth, `thick`
    the measurement of the thing's thickness, `handles` those worked apart, `after` what is done when the border is on;
    `fibres` "heat" allows only those that stand heat. `beyond` are sections that come out from under others past the
    piece's edge (a strap), each with that other, as places among the sections; `thing` is what goes into it, as its
    buyer calls it.
    `front_on_back` says whether the first two parts lie on each other whole and are joined so,
    as the front and the back of a pouch are; `rounds` whether it is worked round and round on a joined chain, `crown`
    whether its rounds begin in the middle of a crown and grow to the whole way round. `make` are made alike; `passes`
    is what one has to go over first, `firm` what a firm fabric does for it, `tried` how the paper of one that is laid
    round a thing is tried on it.
    """

    name: str
    says: str
    called: tuple[str, ...]
    plain: str
    strip: str
    sides: int
    extras: tuple[str, ...]
    fit: str
    range: tuple[float, float] | None
    between: tuple[str, str]
    either: bool
    border: str
    goes_in: str
    goes_in_says: str
    goes_in_open: str
    cautions: tuple[Caution, ...]
    measures: tuple[Measurement, ...]
    sections: tuple[StartSection, ...]
    takes: tuple[str, ...]
    part_measures: tuple[str, ...]
    loose: frozenset[str]
    folds: int
    joined: int
    open: tuple[str, ...]
    thick: str
    handles: Handles | None
    after: tuple[str, ...]
    fibres: str
    front_on_back: bool
    rounds: bool
    crown: bool
    beyond: tuple[tuple[int, int], ...] = ()
    thing: str = ""
    closing: Closing | None = None
    instead: Instead | None = None
    make: int = 1
    passes: Passes | None = None
    firm: str = ""
    tried: str = ""

    @property
    def holds(self) -> bool:
        """Whether something goes into it."""
        return self.fit != "size"

    def measure(self, name: str) -> Measurement | None:
        """The measurement of that name; None where the kind has none such."""
        return next((m for m in self.measures if m.name == name), None)


@functools.cache
def entries() -> dict[str, dict[str, Any]]:
    """The table of kinds as it is written, by name."""
    return tomllib.loads((Path(__file__).parents[2] / "folding" / "kinds.toml").read_text("utf-8"))


def _kind(name: str, entry: dict[str, Any]) -> ObjectKind:
    ranged = entry.get("range")
    return ObjectKind(
        name=name, says=entry["says"], called=tuple(entry.get("called", ())), plain=entry["plain"],
        strip=entry["strip"], sides=entry.get("sides", 1), extras=tuple(entry.get("extras", ())), fit=entry["fit"],
        range=(_percent(ranged[0]), _percent(ranged[1])) if ranged else None,
        between=(entry["between"][0], entry["between"][1]), either=entry.get("either", False),
        border=entry["border"], goes_in=entry.get("goes_in", ""), goes_in_says=entry.get("goes_in_says", ""),
        goes_in_open=entry.get("goes_in_open", ""), cautions=tuple(map(_caution, entry.get("cautions", ()))),
        measures=tuple(map(_measurement, entry["measures"])),
        sections=tuple(StartSection(*section) for section in entry["sections"]),
        takes=tuple(part["take"] for part in entry["parts"]),
        part_measures=tuple(part["measure"] for part in entry["parts"]),
        loose=frozenset(part["unless"] for part in entry["parts"] if "unless" in part),
        folds=len(entry["folds"]), joined=entry["joined"],
        open=tuple(entry.get("open", ())), thick=entry.get("thick", ""), handles=_handles(entry),
        after=tuple(entry.get("after", ())), fibres=entry.get("fibres", ""), front_on_back=_front_on_back(entry),
        rounds=entry.get("rounds", False), crown=entry.get("crown", False), beyond=_beyond(entry),
        thing=entry.get("thing", ""), closing=_closing(entry),
        instead=Instead(**entry["instead"]) if "instead" in entry else None, make=entry.get("make", 1),
        passes=Passes(**entry["passes"]) if "passes" in entry else None, firm=entry.get("firm", ""),
        tried=entry.get("tried", ""),
    )  # fmt: skip


#: Where among the sections those stand that a part takes.
PLACES = {"first": 0, "last": -1, "second last": -2}


def _beyond(entry: dict[str, Any]) -> tuple[tuple[int, int], ...]:
    at = {part["role"]: PLACES[part["take"]] for part in entry["parts"] if part["take"] in PLACES}
    return tuple((at[one["part"]], at[one["past"]]) for one in entry.get("beyond", ()))


def _caution(entry: str | dict[str, Any]) -> Caution:
    if isinstance(entry, str):
        return Caution(entry)
    under_mm = parse_length(entry["under"]).mm if "under" in entry else 0.0
    return Caution(entry["says"], entry.get("measure", ""), under_mm, entry.get("word", ""))


def _handles(entry: dict[str, Any]) -> Handles | None:
    own = entry.get("handles")
    width = parse_length(own["width"]).mm if own else 0.0
    return Handles(own["measure"], width, own["from_side"], own["rows"]) if own else None


def _closing(entry: dict[str, Any]) -> Closing | None:
    own = entry.get("closing")
    width = parse_length(own["button"]).mm if own else 0.0
    return Closing(own["says"], own["notions"], width, own.get("needs", "")) if own else None


def _front_on_back(entry: dict[str, Any]) -> bool:
    roles = [part["role"] for part in entry["parts"]][:2]
    lies = [[c["part"], c["on"]] for c in entry["covers"][:1] if c["share"] == 1.0]
    return entry["joined"] == 1 and lies == [roles]


def _percent(text: str) -> float:
    return float(text.removesuffix("%")) / 100


def _measurement(entry: dict[str, Any]) -> Measurement:
    bounds = {key: tuple(map(parse_length, entry[key])) for key in ("range", "within") if key in entry}
    least, most = bounds["range"]
    given = {key: value for key, value in entry.items() if key not in ("range", "within", "plus")}
    within = bounds.get("within")
    plus = tuple(entry.get("plus", ()))
    return Measurement(least=least, most=most, within=(within[0], within[1]) if within else None, plus=plus, **given)


#: Every kind, by name, in the order of the table.
OBJECT_KINDS: dict[str, ObjectKind] = {name: _kind(name, entry) for name, entry in entries().items()}

#: Every measurement that some kind has, as the first kind that has it says it.
MEASUREMENTS: dict[str, Measurement] = {
    m.name: m for kind in reversed(OBJECT_KINDS.values()) for m in reversed(kind.measures)
}


def kind_called(words: str) -> ObjectKind | None:
    """The kind of that name, or of what makers call it, whatever its capitals; None where there is none.

    >>> kind_called("Book").name, kind_called("baby blanket").name, kind_called("teapot")
    ('book', 'panel', None)
    """
    plain = " ".join(words.lower().split())
    for kind in OBJECT_KINDS.values():
        if plain in (kind.name, *kind.called):
            return kind
    return None


def border_edges(kind: str, *, joins: bool, flap: bool = False) -> tuple[int, int]:
    """How many thicknesses of the border the finished piece has across its plain and its strip direction.

    A border that joins is worked round the folded piece, folds and all; one that does not goes round the flat
    piece, and its ends lie inside the folds. A pouch's `flap` folds its end down on the front.

    >>> border_edges("book", joins=True), border_edges("pouch", joins=True, flap=True)
    ((2, 2), (2, 1))
    """
    rule = OBJECT_KINDS[kind]
    closes = rule.folds > rule.joined and (flap or not rule.loose)
    if not rule.folds or (joins and not closes):
        return 2, 2
    return 2, int(joins)


def border_adds_mm(
    kind: str, given: Mapping[str, float], row_mm: float, rounds: int, *, joins: bool
) -> tuple[float, float]:
    """What a border of so many rounds adds over all, in the plain and in the strip direction.

    Round an opening it goes as often as it has rounds, down the joined sides and along the fold once.

    >>> border_adds_mm("panel", {}, 5.0, 2, joins=False), border_adds_mm("open bag", {}, 5.0, 3, joins=True)
    ((20.0, 20.0), (10.0, 20.0))
    """
    if joins and has_mouth(kind, given):
        return 2 * row_mm, row_mm * (1 + rounds)
    edges = border_edges(kind, joins=joins, flap=given.get("flap", 0.0) > 0)
    return edges[0] * row_mm * rounds, edges[1] * row_mm * rounds


def beyond_mm(kind: str, lengths_mm: Sequence[float]) -> float:
    """How far the folded piece stands out past its edge, from the lengths of its sections in order: a strap less the
    flap that it is folded back over.

    >>> beyond_mm("book with strap", [50.0, 220.0, 50.0, 82.0]), beyond_mm("book", [50.0, 220.0, 50.0])
    (32.0, 0)
    """
    pairs = OBJECT_KINDS[kind].beyond if len(lengths_mm) > 2 else ()
    return sum(max(lengths_mm[part] - lengths_mm[past], 0.0) for part, past in pairs)


def has_mouth(kind: str, given: Mapping[str, object]) -> bool:
    """Whether its front and back lie whole on each other and nothing closes over the mouth.

    >>> has_mouth("pouch", {"width": 90.0, "height": 80.0}), has_mouth("pouch", {"flap": 40.0})
    (True, False)
    """
    rule = OBJECT_KINDS[kind]
    return rule.front_on_back and bool(rule.open) and not all(given.get(name) for name in rule.loose or ("",))


def roomed_mm(kind: str, lengths_mm: Mapping[str, float]) -> dict[str, float]:
    """The measurements with what the thing's thickness takes of each way round it: lying flat, a cover reaches half
    round the edge at both sides, and at the fold; a flap has to cross it before it comes down.

    >>> roomed_mm("pouch", {"width": 90.0, "height": 80.0})
    {'width': 90.0, 'height': 80.0}
    """
    rule = OBJECT_KINDS[kind]
    thick = lengths_mm.get(rule.thick, 0.0) if rule.thick else 0.0
    plain, strip = directions(kind, lengths_mm)
    more = {**dict.fromkeys(rule.extras, thick), plain: thick, strip: thick / 2}
    return {name: mm + more.get(name, 0.0) for name, mm in lengths_mm.items()}


def directions(kind: str, given: Iterable[str]) -> tuple[str, str]:
    """The names of the plain and the strip direction.

    A kind measured by height and wrap, with no width, is taken as a book is: the wrap is the strip.

    >>> directions("pouch", ["width", "height", "flap"])
    ('width', 'height')
    """
    names = set(given)
    if "wrap" in names and "width" not in names:
        return "height", "wrap"
    return OBJECT_KINDS[kind].plain, OBJECT_KINDS[kind].strip


def along(name: str) -> str:
    """The direction of a measurement in a sentence.

    >>> along("height"), along("around")
    ('along the height', 'the way round')
    """
    return "the way round" if name == "around" else f"along the {name}"


def strip_mm(kind: str, lengths_mm: Mapping[str, float]) -> float:
    """The whole strip, laid flat: its measurement as often as it counts, and flaps or overlap.

    >>> strip_mm("book", {"height": 250, "wrap": 385, "flap": 65})
    515.0
    """
    rule, (_, strip) = OBJECT_KINDS[kind], directions(kind, lengths_mm)
    sides = 1 if strip == "wrap" else rule.sides
    return float(sides * lengths_mm.get(strip, 0.0) + sum(lengths_mm.get(name, 0.0) for name in rule.extras))


def section_lengths_mm(
    kind: str, lengths_mm: Mapping[str, float], border_mm: tuple[float, float] = (0.0, 0.0)
) -> dict[str, float]:
    """What a section's `length` may name, in millimetres: the measurements, and the "back part" of parts that overlap.

    `border_mm` is what the border adds in the plain and in the strip direction. A piece that holds nothing is as
    long as asked for with its border, so it is worked shorter; what holds an object is worked as long as that. A
    "crown" is as long as half its diameter, from its middle to where it goes all the way round.
    """
    plain, strip = directions(kind, lengths_mm)
    rule = OBJECT_KINDS[kind]
    less = {} if rule.holds else {plain: border_mm[0], strip: border_mm[1]}
    worked = {name: mm - less.get(name, 0.0) for name, mm in lengths_mm.items()}
    if rule.crown:
        worked["crown"] = worked[plain] / (2 * pi)
    if "overlap" in worked and "overlap" in rule.extras:
        worked["back part"] = (worked[strip] + worked["overlap"]) / 2
    return worked


def bare_mm(kind: str, roomed: Mapping[str, float]) -> dict[str, float]:
    """The thing's own measurements of those that have the room for its thickness.

    >>> bare_mm("pouch", roomed_mm("pouch", {"width": 140.0, "height": 50.0, "thickness": 38.0}))
    {'width': 140.0, 'height': 50.0, 'thickness': 38.0}
    """
    more = roomed_mm(kind, roomed)
    return {name: 2 * mm - more[name] for name, mm in roomed.items()}


def flap_room_mm(kind: str, lengths_mm: Mapping[str, float]) -> float:
    """How far a flap or an overlap may reach at most: as what it lies on, half the wrap or the height, less what a
    thick thing takes of that when the piece lies flat.

    >>> flap_room_mm("book", {"wrap": 380.0, "height": 250.0})
    190.0
    >>> flap_room_mm("pouch", {"width": 140.0, "height": 60.0, "thickness": 38.0})
    41.0
    """
    rule, (_, strip) = OBJECT_KINDS[kind], directions(kind, lengths_mm)
    half = strip == "wrap" and "overlap" not in rule.extras
    return lengths_mm[strip] / (2 if half else 1) - (lengths_mm.get(rule.thick, 0.0) / 2 if rule.thick else 0.0)


def may_lack(kind: str, name: str) -> bool:
    """Whether a piece may do without a measurement: a flap that may be left out, a thickness, handles.

    >>> may_lack("pouch", "flap"), may_lack("book", "flap"), may_lack("open bag", "handle")
    (True, False, True)
    """
    rule = OBJECT_KINDS[kind]
    found = rule.measure(name)
    return found is not None and not found.needed and (name in rule.loose or name not in rule.extras)


def passes_mm(kind: str, lengths_mm: Mapping[str, float]) -> float:
    """How large that is round which a piece has to stretch over before it sits: as measured, else by its usual share
    of the way round; 0 where there is none.

    >>> passes_mm("wrist warmer", {"around": 160.0}), passes_mm("wrist warmer", {"around": 160.0, "hand": 190.0})
    (200.0, 190.0)
    """
    passes = OBJECT_KINDS[kind].passes
    if passes is None:
        return 0.0
    return lengths_mm.get(passes.measure) or passes.share * lengths_mm.get(OBJECT_KINDS[kind].plain, 0.0)


def closing_notions(kind: str, given: Iterable[str], unit: str) -> str:
    """What closing a piece of these measures takes beside hook and yarn; "" where nothing closes it.

    >>> closing_notions("sleeve", ["width", "flap"], "in"), closing_notions("sleeve", ["width"], "mm")
    ('one button, 3/4 in wide', '')
    """
    closing = OBJECT_KINDS[kind].closing
    if closing is None or not closing.of(given):
        return ""
    return closing.notions.format(button=show_length(closing.button_mm, "in" if unit == "in" else "mm"))


def needed(kind: str, given: Iterable[str]) -> tuple[str, ...]:
    """The measurements a kind cannot do without."""
    rule, ways = OBJECT_KINDS[kind], directions(kind, set(given))
    others = tuple(m.name for m in rule.measures if m.needed and m.name not in (rule.plain, rule.strip))
    return (*ways, *others)


def named_lengths(kind: str) -> tuple[str, ...]:
    """What a section's `length` may name beside the measurements."""
    more = (("back part",) if "overlap" in OBJECT_KINDS[kind].extras else ()) + ("crown",) * OBJECT_KINDS[kind].crown
    return ("rest", *more)
