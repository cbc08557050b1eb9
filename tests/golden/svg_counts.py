"""An independent reader of a chart's SVG: how many glyphs of each kind every row holds.

It knows nothing of the layout: it parses the XML, finds each row's group by its id, and divides the sub-paths of each
kind's path by the sub-paths that one such glyph has on the specimen sheet or, for a stitch that is not on it, in a
drawing of one.
"""

import re
import xml.etree.ElementTree as ET

SVG = "{http://www.w3.org/2000/svg}"
ROW = re.compile(r"^(?:row|round)-(\d+)$")


def subpaths(data: str) -> int:
    return data.count("M")


def rows(svg: bytes) -> dict[int, dict[str, int]]:
    """Row number -> kind -> sub-paths, strokes and fills together."""
    out: dict[int, dict[str, int]] = {}
    for group in ET.fromstring(svg).iter(f"{SVG}g"):
        found = ROW.match(group.get("id", ""))
        if not found:
            continue
        counted = out.setdefault(int(found[1]), {})
        for path in group.iter(f"{SVG}path"):
            kind = re.sub(r"-(?:solid|fill)?$", "", path.get("id", "").removeprefix(found[0] + "-"))
            counted[kind] = counted.get(kind, 0) + subpaths(path.get("d", ""))
    return out


def described(svg: bytes) -> dict[int, dict[str, int]]:
    """Row number -> kind -> count, from the rows' descriptions."""
    out: dict[int, dict[str, int]] = {}
    for group in ET.fromstring(svg).iter(f"{SVG}g"):
        found = ROW.match(group.get("id", ""))
        desc = group.find(f"{SVG}desc")
        if found and desc is not None and desc.text:
            parts = (p.strip().split(" ", 1) for p in desc.text.split(","))
            out[int(found[1])] = {kind: int(n) for n, kind in parts}
    return out
