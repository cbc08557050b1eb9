"""The ways to colour a piece as one image, and in words."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping, Sequence
from importlib.resources import files
from typing import Literal

from ...drawing.plain import markdown
from ...made_late import dataclass
from ...model.sizing.yarn import YarnReport
from ...pattern.file.records import Colour
from ..booklet.press import typeset
from ..piece import Piece
from .bundles import bundles_of

#: The kinds of image that the sheet is set as.
FORMS: dict[str, Literal["png", "pdf"]] = {"png": "png", "pdf": "pdf"}


@dataclass(frozen=True, slots=True)
class Coloured:
    """One way, worked: what is done, the piece, its yarn."""

    says: str
    piece: Piece
    yarn: YarnReport

    @property
    def ends(self) -> int:
        return sum(need.ends for need in self.yarn.needs)


def colour_sheet(
    ways: Sequence[Coloured], picture: Callable[[Piece], bytes], form: Literal["png", "pdf"]
) -> bytes:  # fmt: skip
    """The pictures side by side, each with its yarns and its ends to weave in."""
    pictures = {f"way-{n}.png": picture(way.piece) for n, way in enumerate(ways, 1)}
    told = [
        {
            "says": way.says, "file": name, "ends": f"{way.ends} ends to weave in",
            "yarns": [{"name": c.name, "hex": c.hex} for c in _yarns(way.piece)],
        }
        for way, name in zip(ways, pictures, strict=True)
    ]  # fmt: skip
    data = {"title": f"{ways[0].piece.pattern.title}: in other colours", "ways": told}
    template = files(__package__).joinpath("colours.typ").read_bytes()
    page = json.dumps(data, ensure_ascii=False).encode("utf-8")
    return typeset({"main.typ": template, "sheet.json": page, **pictures}, form)


def _yarns(piece: Piece) -> list[Colour]:
    """The yarns that are seen, each once."""
    seen: dict[str, Colour] = {}
    for colour in piece.pattern.used_colours:
        seen.setdefault(colour.hex, colour)
    return list(seen.values())


def colour_words(ways: Sequence[Coloured]) -> str:
    """The ways in words: ends to weave in, the fewest, and the small balls of the way as written."""
    title = markdown(ways[0].piece.pattern.title)
    lines = [f"# {title}: colours", "", "| way | yarns | ends to weave in |", "|---|---|---:|"]
    for way in ways:
        yarns = ", ".join(colour.name for colour in _yarns(way.piece))
        lines.append(f"| {markdown(way.says)} | {markdown(yarns)} | {way.ends} |")
    several = [way for way in ways if len(_yarns(way.piece)) > 1]
    if several:
        least = min(several, key=lambda way: way.ends)
        lines += ["", f"Fewest ends in more than one colour: {markdown(least.says)}, {least.ends}."]
    lines += ["", "## Small balls wound beforehand, as written", "", *_bundle_lines(ways[0])]
    return "\n".join([*lines, ""])


def _bundle_lines(way: Coloured) -> list[str]:
    names: Mapping[str, str] = {c.letter: c.name for c in way.piece.pattern.colours}
    about = "about " if way.yarn.estimated else ""
    out = ["| colour | balls | rows of each | length of each |", "|---|---:|---:|---:|"]
    for bundle in bundles_of(way.piece, way.yarn):
        length = "not known" if bundle.metres is None else f"{about}{bundle.metres:.1f} m"
        name = f"{bundle.letter} ({names[bundle.letter]})" if bundle.letter in names else "the yarn"
        out.append(f"| {markdown(name)} | {bundle.stretches} | {bundle.rows} | {length} |")
    says = "A colour that is carried up the edge needs no ball for each stripe; the border is worked from the rest."
    return [*out, "", says]
