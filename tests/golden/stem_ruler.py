"""A ruler for stems and sectors: finished charts measured against the words, with nothing shared with the layout.

Heights are read from the table of stitches, glyphs from the file. Lengths are in stitch widths as the sheet prints them.
"""

from __future__ import annotations

import cmath
import math
import re
import tomllib
from collections import Counter
from pathlib import Path

import shapely
from shapely import LineString, STRtree
from test_gallery_measured import FOOT_WHITE, HEAD_WHITE, by_kind, group_of, held, in_pieces, ruler, stitch_mm

ROOT = Path(__file__).parents[2]
HEIGHTS = {
    kind: plain["height"]
    for kind, plain in tomllib.loads((ROOT / "symbols" / "stitches.toml").read_text("utf-8"))["heights"].items()
    if kind in ruler.SLASHES
}


def glyphs_of(sheet, worked, index):
    """For every item of a round the glyphs it is drawn with, and its kind; what is drawn in pieces is left out."""
    here, seen, found = by_kind(sheet, group_of(worked, index)), Counter(), {}
    for item, made in enumerate(worked.row.stitches):
        kind = "ch" if made.role == "chain" else "beginning-ch" if made.role in ("turning", "start") else held(made)
        if made.role not in ("stitch", "chain", "turning", "start"):
            continue
        count = made.chains if made.role != "stitch" else 1
        if not in_pieces(kind, here) and len(here[kind]) >= seen[kind] + count:
            found[item] = kind, here[kind][seen[kind] : seen[kind] + count]
        seen[kind] += count
    return found


def stem_of(glyph, unit):
    """The length of a plain stitch from what it stands on to where the next goes in, as inked and with its white."""
    low, high = glyph.lines[0][0], glyph.lines[0][-1]
    return math.dist(low, high) / unit + FOOT_WHITE + HEAD_WHITE


def stems(fabric, sheet):
    """(round, kind, length / nominal height) of every plain stitch on one foot that reaches only the round below."""
    unit, found = stitch_mm(sheet), []
    for index, worked in enumerate(fabric.rows):
        for item, (kind, glyphs) in glyphs_of(sheet, worked, index).items():
            feet = worked.row.stitches[item].feet
            if kind in HEIGHTS and len(feet) == 1 and feet[0].back == 1:
                found.append((worked.label, kind, stem_of(glyphs[0], unit) / HEIGHTS[kind]))
    return found


def fold_of(row):
    """How many equal sectors a round has by its stitches, chains and picots, and by which of them share a place with the
    one before; a beginning chain counts as its stitch."""
    items = [s for s in row.stitches if s.role in ("stitch", "turning", "chain", "picot")]
    before = [items[-1], *items[:-1]]
    made = [
        (
            s.kind,
            s.chains if s.role in ("chain", "picot") else 0,
            bool(s.feet) and s.feet == b.feet and s.feet[0].hold != "ring",
        )
        for s, b in zip(items, before, strict=True)
    ]
    return next(n for n in range(len(made), 0, -1) if len(made) % n == 0 and made == made[len(made) // n :] + made[: len(made) // n])


def folds_of(fabric):
    sides = 2 if fabric.start == "chain" else 0  # a chain in the middle looks the same turned by half a turn
    return math.gcd(sides, *(fold_of(worked.row) for worked in fabric.rows))


def centre_of(sheet):
    middles = [g.ink for g in sheet.glyphs if g.row == "centre"]
    return complex(*shapely.union_all(middles).envelope.centroid.coords[0])


def closing_of(sheet):
    """The first of the rounds that the sheet says are drawn apart, closing the work, and the middle of the last; else None.

    Seen from its closing end, what went one way about goes the other.
    """
    said = re.search(r"Rounds (\d+)–(\d+) close the work", " ".join(dict.fromkeys(words for words, _ in sheet.texts)))
    if said is None:
        return None
    last = [g.ink.centroid for g in sheet.glyphs if g.row == f"round-{said[2]}" and not g.kind.startswith(("join", "begin"))]
    return int(said[1]), complex(*(sum(p) / len(last) for p in zip(*((p.x, p.y) for p in last), strict=True)))


def place_of(kind, glyphs):
    """Where an item stands: the head of a stitch, the middle of a run of chains."""
    points = [g.lines[0][-1] if kind in HEIGHTS else g.ink.centroid.coords[0] for g in glyphs]
    return complex(*(sum(p[axis] for p in points) / len(points) for axis in (0, 1)))


def unevenness(fabric, sheet):
    """The farthest that an item stands from where its fellow stands when the work is turned by one sector."""
    n, unit, whole, worst = folds_of(fabric), stitch_mm(sheet), centre_of(sheet), 0.0
    if n == 1:
        return 0.0
    closing = closing_of(sheet)
    for index, worked in enumerate(fabric.rows):
        found = glyphs_of(sheet, worked, index)
        items = [i for i, s in enumerate(worked.row.stitches) if s.role in ("stitch", "turning", "chain")]
        apart = closing is not None and worked.number >= closing[0]
        centre = closing[1] if apart else whole
        turn = cmath.exp((-1j if (worked.direction == "right-to-left") is not apart else 1j) * math.tau / n)
        step = len(items) // n
        for k, item in enumerate(items):
            other = items[(k + step) % len(items)]
            kinds = {found[i][0] for i in (item, other) if i in found}
            if any(f.back > 1 for f in worked.row.stitches[item].feet):
                continue  # a stem that is led past other rounds keeps clear of what lies at the seam
            if item not in found or other not in found or "beginning-ch" in kinds:
                continue
            here, there = (place_of(*found[i]) - centre for i in (item, other))
            worst = max(worst, abs(here * turn - there) / unit)
    return worst


def crossings(sheet):
    """Pairs of whole stems of one round that cross each other."""
    plain = [g for g in sheet.glyphs if g.kind in HEIGHTS]
    lines = [LineString([g.lines[0][0], g.lines[0][-1]]) for g in plain]
    tree = STRtree(lines)
    pairs = ((i, int(j)) for i, line in enumerate(lines) for j in tree.query(line, predicate="crosses"))
    return [(plain[i].row, plain[i].kind, plain[j].kind) for i, j in pairs if j > i and plain[i].row == plain[j].row]


def share_within(lengths, low=0.7, high=1.6):
    """The share of the stems that keep their height."""
    return sum(low <= x <= high for _, _, x in lengths) / max(len(lengths), 1)
