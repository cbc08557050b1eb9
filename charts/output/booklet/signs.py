"""The stitches of a piece with their signs, as the charts draw them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from hookfold.symbols import PEN, Mark, beneath, extent, glyph, kind_of, known, picot, stitch
from hookfold.symbols import chain as chain_mark
from hookfold.symbols import join as join_mark
from hookfold.symbols.dictionary import heights

from ...drawing import svg
from ...drawing.display import Sheet
from ...drawing.geometry import Affine, ink_of
from ...layout.placing.tops import drawn_kind
from ...layout.sheets.page import DARK, QUIET
from ...made_late import replace
from ...model.cloth.fabric import Row, Stitch
from ...setting import ScForm, Terms
from .book import Sign

#: The scale of a sign: one stitch width in mm; the white round it.
STITCH_MM = 4.0
AROUND_MM = 0.6
_HELD = {
    "front loop": ("FLO", "front loop only"), "back loop": ("BLO", "back loop only"),
    "front post": ("FP", "round the post, from the front"), "back post": ("BP", "round the post, from the back"),
}  # fmt: skip
#: No stitch has a longer name.
_LONGEST_NAME = 40
_ORDER = ("ch", "sl st", *heights())


def signs_of(rows: Iterable[Row], terms: Terms, words: Mapping[str, str], sc_form: ScForm = "plus") -> tuple[Sign, ...]:
    """Every different stitch of these rows once, low ones before tall ones, special ones last with their words."""
    found: dict[tuple[str, str], tuple[Stitch, str]] = {}
    for row in rows:
        for made in row.stitches:
            kind, hold = _sort(made)
            if kind:
                found.setdefault((kind, hold), (made, hold))
    every = (_sign(kind, hold, made, terms, words, sc_form) for (kind, hold), (made, _) in _sorted(found))
    return tuple(map(_told_once, every))


def _told_once(sign: Sign) -> Sign:
    """A sign whose words begin with its name: that as its name, where it is not its abbreviation."""
    name, told, words = sign.words.partition(": ")
    if not told or len(name) > _LONGEST_NAME:
        return sign
    called = "" if name.lower() == sign.short.lower() else name[:1].lower() + name[1:]
    return replace(sign, name=sign.name or called, words=words[:1].lower() + words[1:])


def named_once(
    short: Iterable[tuple[str, str]], specials: Iterable[tuple[str, str]]
) -> tuple[tuple[str, str], ...]:  # fmt: skip
    """The abbreviations with those of the special stitches; what a stitch is stands beside its sign, and what is called
    as it is written needs no line here."""
    named = [(one, name.partition(":")[0]) for one, name in short]
    there = {one for one, _ in named}
    every = (*named, *((one, name) for one, name in specials if one not in there))
    return tuple((one, name) for one, name in every if one.lower() != name.lower())


def _sorted(found: dict[tuple[str, str], tuple[Stitch, str]]) -> list[tuple[tuple[str, str], tuple[Stitch, str]]]:
    def rank(item: tuple[tuple[str, str], tuple[Stitch, str]]) -> tuple[int, float, str, str]:
        (kind, hold), (made, _) = item
        place = _ORDER.index(kind) if kind in _ORDER else len(_ORDER) + (not known(kind))
        return place, _tall(kind, made), kind, hold

    return sorted(found.items(), key=rank)


def _tall(kind: str, made: Stitch) -> float:
    if kind == "ch" or made.role == "picot":
        return 0.0
    return kind_of(drawn_kind(kind, made.legs, made.base), made.legs, made.base).height


def _sort(made: Stitch) -> tuple[str, str]:
    """What makes two stitches the same sign; ("", "") for what has none."""
    if made.role in ("chain", "foundation", "start", "turning") and made.chains:
        return "ch", ""
    if made.role in ("join", "travel"):
        return "sl st", ""
    if made.role == "picot":
        return made.kind, ""
    if made.role not in ("stitch", "turning") or not made.kind:
        return "", ""
    hold = made.feet[0].hold if made.feet else "top"
    return made.kind, hold if hold in _HELD and not made.kind.startswith(("FP", "BP")) else ""


def _sign(
    kind: str, hold: str, made: Stitch, terms: Terms, words: Mapping[str, str], sc_form: ScForm
) -> Sign:  # fmt: skip
    if made.role == "picot":
        drawn = picot(made.chains, (0.0, 0.0))
        said = words.get(kind, "")
        return Sign(kind, "" if said else f"picot of {made.chains} ch", said, *_drawn(drawn, kind))
    if kind == "ch":
        return Sign("ch", "chain", "", *_drawn(chain_mark((0.0, 0.0), 0.0), "ch"))
    if kind == "sl st" and not hold:
        return Sign(*_names("sl st", terms), "", *_drawn(join_mark((0.0, 0.0)), "sl st"))
    shape = drawn_kind(kind, made.legs, made.base)
    mark = glyph(shape, hold=hold or "top", legs=made.legs, sc_form=sc_form, base=made.base).mark
    short, name = _names(kind, terms) if known(kind) else (kind, "")
    if hold:
        loop, said = _HELD[hold]
        short, name = f"{loop} {short}", f"{name}, {said}"
    return Sign(short, name, words.get(kind, ""), *_drawn(mark, short, beneath(shape, hold)))


def _names(kind: str, terms: Terms) -> tuple[str, str]:
    what = stitch(kind)
    return (what.name, what.us_name) if terms == "US" else (what.uk, what.uk_name)


def _drawn(mark: Mark, called: str, below: Mark | None = None) -> tuple[bytes, tuple[float, float]]:
    """A sign alone on a ground of its own size, and that size; every sign to the same scale. `below` is the stitch that
    its hook closes round, in grey."""
    box = extent(mark + below if below else mark)
    wide, tall = ((box[2] - box[0]) * STITCH_MM + 2 * AROUND_MM, (box[3] - box[1]) * STITCH_MM + 2 * AROUND_MM)
    to = Affine.shift(AROUND_MM - box[0] * STITCH_MM, AROUND_MM - box[1] * STITCH_MM) @ Affine.scale(STITCH_MM)
    pale = ink_of([(below, to)], STITCH_MM, QUIET, pen=PEN) if below and below.strokes else ()
    items = (*pale, *ink_of([(mark, to)], STITCH_MM, DARK, pen=PEN))
    return svg.write(Sheet(wide, tall, f"Sign of {called}", items)), (wide, tall)
