"""Mitred pieces measured on the finished file by a reader that shares nothing with what draws them.

Nothing lies over anything else or leaves the page, every row holds its stitches, stands straight on what it goes into
and is even along its sides; a square begins along two straight lines and ends in the corner over against theirs.
"""

import importlib.util
import math
import sys
from collections import Counter
from pathlib import Path

import pytest

HERE = Path(__file__).parent
FABRICS = [*sorted((HERE / "mitres").glob("*.txt")), HERE.parents[1] / "gallery" / "fabrics" / "mitred-square.txt"]
#: Those that come out as squares, and those whose corners are bent less.
SQUARES = ("either-side", "mitred-square", "square-in-dc", "two-left-out")
#: Every paper and every hand; the other two pairs where all is asked for.
ALL = [
    ("A4", "right"),
    ("Letter", "left"),
    pytest.param("A4", "left", marks=pytest.mark.slow),
    pytest.param("Letter", "right", marks=pytest.mark.slow),
]


def _module(path):
    spec = importlib.util.spec_from_file_location(f"mitres_{path.stem}", path)
    module = importlib.util.module_from_spec(spec)
    sys.modules[spec.name] = module
    spec.loader.exec_module(module)
    return module


half_motifs = _module(HERE / "test_half_motifs_measured.py")
measured, PLAIN = half_motifs.measured, half_motifs.PLAIN


@pytest.fixture(scope="module", params=FABRICS, ids=measured.name_of)
def whole(request):
    """A mitred piece with every stitch drawn: its name, its fabric, its one sheet."""
    fabric, sheets = measured.drawn(request.param, "full")
    (sheet,) = sheets
    return request.param.stem, fabric, sheet


@pytest.mark.parametrize(("paper", "hand"), ALL)
@pytest.mark.parametrize("path", FABRICS, ids=measured.name_of)
def test_nothing_touches_on_any_paper_in_any_hand(path, paper, hand):
    measured.clean(measured.drawn(path, "full", paper, hand)[1])


@pytest.mark.parametrize("path", FABRICS, ids=measured.name_of)
def test_a_condensed_one_is_the_whole(path):
    """No two rows are alike: there is nothing to leave out."""
    every, short = (measured.drawn(path, extent)[1] for extent in ("full", "repeat"))
    assert [Counter(g.kind for g in s.glyphs) for s in every] == [Counter(g.kind for g in s.glyphs) for s in short]


def test_the_glyphs_of_every_row_are_its_stitches(whole):
    _, fabric, sheet = whole
    for index, worked in enumerate(fabric.rows):
        found = Counter(g.kind for g in sheet.glyphs if g.row == measured.group_of(worked, index))
        assert found == measured.wanted(worked.row), worked.label


def chains_of(sheet):
    """The middles of the foundation's chains, with y upward, in stitch widths."""
    unit = measured.stitch_mm(sheet)
    boxes = [g.ink.bounds for g in sheet.glyphs if g.row == "foundation"]
    return [((x0 + x1) / 2 / unit, -(y0 + y1) / 2 / unit) for x0, y0, x1, y1 in boxes]


def test_the_foundation_has_its_chains(whole):
    """All of them, but those that stand up as the first row's beginning chain."""
    name, fabric, sheet = whole
    risen = sum(s.chains for s in fabric.rows[0].row.stitches[:1] if s.role in ("start", "turning"))
    over = 1 if name == "corner-in-mesh" else 0
    assert len(chains_of(sheet)) == fabric.chains - risen - over
    assert f"ch {fabric.chains}" in [words for words, _ in sheet.texts]


@pytest.mark.parametrize("hand", ["right", "left"])
@pytest.mark.parametrize("name", SQUARES)
def test_the_foundation_of_a_square_is_two_sides_of_it(name, hand):
    """One along the bottom and one up the side where a right-hander's right-side rows end, equally long."""
    path = next(p for p in FABRICS if p.stem == name)
    _, (sheet,) = measured.drawn(path, "full", hand=hand)
    points = chains_of(sheet)
    low, side = min(y for _, y in points), (min if hand == "right" else max)(x for x, _ in points)
    bottom = [x for x, y in points if y - low < 0.3]
    upright = [y for x, y in points if abs(x - side) < 0.3]
    assert abs(len(bottom) - len(upright)) <= 1
    assert max(bottom) - min(bottom) == pytest.approx(max(upright) - min(upright), abs=1.3)
    assert len(points) - len(bottom) - len(upright) in (-1, 0)


def stems(sheet, row):
    """(foot, head) of the plain stitches of a row with y upward, in stitch widths, in the order of work."""
    unit = measured.stitch_mm(sheet)
    found = []
    for glyph in sheet.glyphs:
        if glyph.row == row and glyph.kind in PLAIN:
            low, high = glyph.lines[0][0], glyph.lines[0][-1]
            foot = half_motifs.reached(low, high, measured.FOOT_WHITE * unit)
            head = half_motifs.reached(high, low, (measured.HEAD_WHITE if glyph.kind != "sc" else 0.0) * unit)
            found.append(tuple((x / unit, -y / unit) for x, y in (foot, head)))
    return found


def plain_items(row):
    return [i for i, s in enumerate(row.stitches) if s.role == "stitch" and s.kind in PLAIN]


def test_a_single_foot_stands_on_its_base(whole):
    """Within 0.1 stitch of the head of what it goes into; a cross keeps its size, but its stem points there."""
    _, fabric, sheet = whole
    checked = 0
    for index in range(1, len(fabric.rows)):
        worked, below = fabric.rows[index], fabric.rows[index - 1]
        here = stems(sheet, measured.group_of(worked, index))
        there = stems(sheet, measured.group_of(below, index - 1))
        under = plain_items(below.row)
        assert (len(here), len(there)) == (len(plain_items(worked.row)), len(under))
        for (foot, head), item in zip(here, plain_items(worked.row), strict=True):
            (goes,) = worked.row.stitches[item].feet
            if goes.at in under:
                checked += 1
                base, kind = there[under.index(goes.at)][1], worked.row.stitches[item].kind
                apart = half_motifs.aside(base, foot, head) if kind == "sc" else math.dist(foot, base)
                assert apart < 0.1, f"{worked.label}, item {item}"
    assert checked > 8


def test_tops_are_even_along_the_sides(whole):
    """From stitch to stitch the same way within 15 %, but over chains, at corners and beside a decrease."""
    name, fabric, sheet = whole
    ways = []
    for index, worked in enumerate(fabric.rows):
        row, heads = worked.row, [head for _, head in stems(sheet, measured.group_of(worked, index))]
        items = plain_items(row)
        for k in range(len(items) - 1):
            a, b = items[k], items[k + 1]
            (foot,), (next_foot,) = row.stitches[a].feet, row.stitches[b].feet
            if b - a == 1 and abs(foot.at - next_foot.at) == 1 and straight(stems(sheet, measured.group_of(worked, index)), k):
                ways.append(math.dist(heads[k], heads[k + 1]))
    mean = sum(ways) / len(ways) if ways else 0.0
    assert all(abs(way - mean) < 0.15 * mean for way in ways)
    assert len(ways) > 8 or name == "corner-in-mesh"


def straight(found, k):
    """Whether two neighbours in a row stand alike: on one side of a corner."""
    angles = [math.atan2(head[1] - foot[1], head[0] - foot[0]) for foot, head in found[k : k + 2]]
    return abs(math.remainder(angles[1] - angles[0], math.tau)) < 0.1


@pytest.mark.parametrize("name", SQUARES)
def test_stitches_of_a_square_stand_upright_or_lie(name):
    """But those that stand on a corner."""
    fabric, (sheet,) = measured.drawn(next(p for p in FABRICS if p.stem == name), "full")
    aslant = 0
    for index, worked in enumerate(fabric.rows):
        for foot, head in stems(sheet, measured.group_of(worked, index)):
            dx, dy = abs(head[0] - foot[0]), abs(head[1] - foot[1])
            aslant += min(dx, dy) > 0.1 * max(dx, dy)
    assert aslant == {"either-side": 7, "square-in-dc": 4}.get(name, 0)


@pytest.mark.parametrize("hand", ["right", "left"])
@pytest.mark.parametrize("name", SQUARES)
def test_numbers_stand_where_rows_begin(name, hand):
    """A right-side row's on the right of the square, a wrong-side row's above it; for a left-hander on the left."""
    fabric, (sheet,) = measured.drawn(next(p for p in FABRICS if p.stem == name), "full", hand=hand)
    boxes = [g.ink.bounds for g in sheet.glyphs if g.row.startswith("row-")]
    left, top, right = (f(b[k] for b in boxes) for f, k in ((min, 0), (min, 1), (max, 2)))
    for worked in fabric.rows:
        letters = [shape for words, shape in sheet.texts if words == str(worked.number)]
        x = sum(s.centroid.x for s in letters) / len(letters)
        y = sum(s.centroid.y for s in letters) / len(letters)
        if worked.side == "WS":
            assert y < top, worked.label
        else:
            assert x > right if hand == "right" else x < left, worked.label


def test_the_notes_say_how_it_is_read(whole):
    _, _, sheet = whole
    said = " ".join(dict.fromkeys(words for words, _ in sheet.texts))
    assert "Rows go to and fro, each from its number to the other edge." in said
    assert "drawn bent as the decreases bend it" in said
    assert "round" not in said


def test_a_large_one_is_tiled_with_every_stitch():
    """More than a page holds: every stitch is on one of the sheets, and nothing lies over anything."""
    worked = measured.worked_text(large(64), "large.txt")
    document = measured.written_chart(worked, "large.txt", measured.Setting(extent="full"))
    sheets = [measured.ruler.read(measured.svg.write(sheet)) for sheet in document.sheets]
    assert len(sheets) > 2
    found = Counter(g.kind for sheet in sheets[1:] for g in sheet.glyphs)
    made = Counter(s.kind for row in worked.fabric.rows for s in row.row.stitches if s.role == "stitch")
    assert all(found[kind] >= count for kind, count in made.items())
    measured.clean(sheets[-1:])


def large(side):
    """A square of so many stitches a side in single crochet."""
    rows = [
        "Terms: US", f"Ch {2 * side + 2}.",
        f"Row 1 (RS): Sc in 2nd ch from hook and in next {side - 2} ch, sc3tog over next 3 ch, sc in last {side - 1} ch, turn.",
    ]  # fmt: skip
    for k in range(2, side):
        at = side - k
        rows.append(f"Row {k}: Ch 1, sc in first {at} sc, sc3tog over next 3 sts, sc in last {at} sc, turn.")
    return "\n".join(rows) + "\n"
