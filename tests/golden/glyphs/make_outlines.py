"""Make charts/drawing/outlines.json from an OFL font: run by hand when the font or the characters change.

    pip install fontpkg-source-sans-3 fonttools
    python tests/golden/glyphs/make_outlines.py PATH/TO/THE/VARIABLE/FONT.ttf charts/drawing/outlines.json

One line a character: its advance and its outline in thousandths of an em, y downward from the baseline,
quadratic. Kerning is kept for pairs of the characters that headings, names and figures are set in. The font
has the reserved name "Source", so the table goes by another name; its licence lies beside it.
"""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import Any

from fontTools.pens.basePen import BasePen
from fontTools.ttLib import TTFont
from fontTools.varLib.instancer import instantiateVariableFont

WEIGHTS = {"regular": 400, "bold": 650}
RANGES = (
    (0x20, 0x7F), (0xA0, 0x180), (0x18F, 0x190), (0x1A0, 0x1A2), (0x1AF, 0x1B1), (0x218, 0x21C),
    (0x386, 0x3CF), (0x401, 0x460),
    (0x490, 0x492), (0x1E80, 0x1E86), (0x1E9E, 0x1E9F), (0x1EA0, 0x1EFA), (0x2010, 0x2028),
    (0x202F, 0x203B), (0x2044, 0x2045), (0x20AC, 0x20AD), (0x2150, 0x215F), (0x2190, 0x2194),
)  # fmt: skip
SINGLE = "№™−≈≠≤≥√∞✓△▲■□●○◆"
KERNED = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789.,:;-–—'’‘“”\"()/&"
LEAST_KERN = 8


class Outline(BasePen):
    """Collects an outline as whole-number M, L, Q, Z with y turned downward."""

    def __init__(self, glyphs: Any) -> None:
        super().__init__(glyphs)
        self.parts: list[str] = []

    def _say(self, command: str, *points: tuple[float, float]) -> None:
        self.parts.append(command + " ".join(f"{round(x)} {round(-y)}" for x, y in points))

    def _moveTo(self, pt: tuple[float, float]) -> None:
        self._say("M", pt)

    def _lineTo(self, pt: tuple[float, float]) -> None:
        self._say("L", pt)

    def _qCurveToOne(self, pt1: tuple[float, float], pt2: tuple[float, float]) -> None:
        self._say("Q", pt1, pt2)

    def _closePath(self) -> None:
        self._say("Z")


def wanted() -> list[int]:
    return sorted({c for a, b in RANGES for c in range(a, b)} | {ord(c) for c in SINGLE})


def outlines(font: TTFont) -> dict[str, list[Any]]:
    """Character -> [advance, outline]."""
    cmap, glyphs = font.getBestCmap(), font.getGlyphSet()
    table = {}
    for code in wanted():
        if code in cmap and not 0x7F <= code < 0xA0:
            pen = Outline(glyphs)
            glyphs[cmap[code]].draw(pen)
            table[chr(code)] = [font["hmtx"][cmap[code]][0], "".join(pen.parts)]
    return table


def kerning(font: TTFont) -> dict[str, int]:
    """Pair of characters -> kern, from the font's pair adjustments, first match first as a shaper has it."""
    cmap = font.getBestCmap()
    names = {c: cmap[ord(c)] for c in KERNED if ord(c) in cmap}
    tables = list(pair_tables(font))
    found = {}
    for a, left in names.items():
        for b, right in names.items():
            value = next((v for t in tables if (v := pair_value(t, left, right)) is not None), 0)
            if abs(value) >= LEAST_KERN:
                found[a + b] = value
    return found


def pair_tables(font: TTFont) -> Any:
    gpos = font["GPOS"].table
    wanted_lookups = {
        i for f in gpos.FeatureList.FeatureRecord if f.FeatureTag == "kern" for i in f.Feature.LookupListIndex
    }
    for index in sorted(wanted_lookups):
        for sub in gpos.LookupList.Lookup[index].SubTable:
            sub = getattr(sub, "ExtSubTable", sub)
            if sub.LookupType == 2:
                yield sub


def pair_value(table: Any, left: str, right: str) -> int | None:
    if left not in table.Coverage.glyphs:
        return None
    if table.Format == 1:
        pairs = table.PairSet[table.Coverage.glyphs.index(left)].PairValueRecord
        return next((advance(r.Value1) for r in pairs if r.SecondGlyph == right), None)
    first = table.ClassDef1.classDefs.get(left, 0)
    second = table.ClassDef2.classDefs.get(right, 0)
    return advance(table.Class1Record[first].Class2Record[second].Value1)


def advance(value: Any) -> int:
    return int(getattr(value, "XAdvance", 0) or 0) if value is not None else 0


def main(source: str, target: str) -> None:
    weights = {}
    for name, weight in WEIGHTS.items():
        font = instantiateVariableFont(TTFont(source), {"wght": weight})
        weights[name] = {"kern": kerning(font), "letters": outlines(font)}
        x_height, cap_height = font["OS/2"].sxHeight, font["OS/2"].sCapHeight
    Path(target).write_text(written(weights, x_height, cap_height), "utf-8")


def written(weights: dict[str, Any], x_height: int, cap_height: int) -> str:
    """JSON with one character a line, so that a change reads well in a diff."""
    blocks = []
    for name, table in weights.items():
        lines = ",\n".join(f"{say(c)}: {say(entry)}" for c, entry in table["letters"].items())
        blocks.append(f'{say(name)}: {{"kern": {say(table["kern"])},\n"letters": {{\n{lines}}}}}')
    head = f'"name": "Hookfold Sans outlines", "em": 1000, "x_height": {x_height}, "cap_height": {cap_height}'
    return "{" + head + ',\n"weights": {' + ",\n".join(blocks) + "}}\n"


def say(value: object) -> str:
    return json.dumps(value, ensure_ascii=False, separators=(",", ":"))


if __name__ == "__main__":
    main(*sys.argv[1:3])
