"""Half motifs measured on the finished file by a reader that shares nothing with what draws them.

Nothing lies over anything else or leaves the page, every row holds its stitches, they are even along it and stand on
what they go into, and its first and last stitch stand on the two straight edges.
"""

import importlib.util
import itertools
import math
import sys
from collections import Counter
from pathlib import Path

import pytest

HERE = Path(__file__).parent
FABRICS = sorted((HERE / "half_motifs").glob("*.txt"))
#: Every paper and every hand; the other two pairs where all is asked for.
PAPERS_AND_HANDS = [
    ("A4", "right"),
    ("Letter", "left"),
    pytest.param("A4", "left", marks=pytest.mark.slow),
    pytest.param("Letter", "right", marks=pytest.mark.slow),
]
#: From edge to edge of each, in degrees, as a crocheter would say.
OPENINGS = {
    "half-circle": 180, "half-circle-in-sc": 180, "half-granny": 180, "half-hexagon": 180, "half-lace": 180,
    "half-square-edged": 180, "growing-square": 90, "open-square": 336, "quarter-circle": 90, "quarter-square": 90,
}  # fmt: skip


def _module(path):
    spec = importlib.util.spec_from_file_location(f"half_motifs_{path.stem}", path)
    module = importlib.util.module_from_spec(spec)
    sys.modules[spec.name] = module
    spec.loader.exec_module(module)
    return module


measured = _module(HERE / "test_gallery_measured.py")
PLAIN = measured.ruler.SLASHES


@pytest.fixture(scope="module", params=FABRICS, ids=measured.name_of)
def whole(request):
    """A half motif with every stitch drawn: its name, its fabric, its one sheet."""
    fabric, sheets = measured.drawn(request.param, "full")
    (sheet,) = sheets
    return request.param.stem, fabric, sheet


@pytest.mark.parametrize(("paper", "hand"), PAPERS_AND_HANDS)
@pytest.mark.parametrize("path", FABRICS, ids=measured.name_of)
def test_nothing_touches_on_any_paper_in_any_hand(path, paper, hand):
    for extent in ("full", "repeat"):
        measured.clean(measured.drawn(path, extent, paper, hand)[1])


def test_the_glyphs_of_every_row_are_its_stitches(whole):
    _, fabric, sheet = whole
    for index, worked in enumerate(fabric.rows):
        found = Counter(g.kind for g in sheet.glyphs if g.row == measured.group_of(worked, index))
        assert found == measured.wanted(worked.row), worked.label


def test_the_ring_is_drawn_as_in_rounds(whole):
    _, fabric, sheet = whole
    found = Counter(g.kind for g in sheet.glyphs if g.row == "centre")
    if fabric.start == "magic ring":
        assert found == {"magic-ring": 1}
        assert "magic ring" in [words for words, _ in sheet.texts]
    else:
        assert found == {"ch": fabric.chains if fabric.start == "ring" else 1}


def centre_of(sheet):
    """The middle of the ring: of the box about its ink."""
    boxes = [g.ink.bounds for g in sheet.glyphs if g.row == "centre"]
    xs, ys = [x for b in boxes for x in (b[0], b[2])], [y for b in boxes for y in (b[1], b[3])]
    return (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2


def stems(sheet, row):
    """(foot, head) of the plain stitches of a row, about the ring's middle with y upward, in order along the row."""
    x0, y0 = centre_of(sheet)
    unit = measured.stitch_mm(sheet)
    found = []
    for glyph in sheet.glyphs:
        if glyph.row == row and glyph.kind in PLAIN:
            low, high = glyph.lines[0][0], glyph.lines[0][-1]
            foot = reached(low, high, measured.FOOT_WHITE * unit)
            head = reached(high, low, (measured.HEAD_WHITE if glyph.kind != "sc" else 0.0) * unit)
            found.append(tuple(((x - x0) / unit, (y0 - y) / unit) for x, y in (foot, head)))
    return found


def reached(end, start, more):
    long = math.dist(end, start)
    return tuple(e + (e - s) / long * more for e, s in zip(end, start, strict=True))


@pytest.mark.parametrize("name", ["half-circle", "half-circle-in-sc", "quarter-circle"])
def test_tops_are_even_along_the_arc(name):
    """From each stitch to the next the same angle within 15 %, in rows without chains and corners."""
    fabric, (sheet,) = measured.drawn(HERE / "half_motifs" / f"{name}.txt", "full")
    for index, worked in enumerate(fabric.rows):
        heads = [head for _, head in stems(sheet, measured.group_of(worked, index))]
        turns = [math.degrees(math.atan2(y, x)) for x, y in heads]
        gaps = [abs(math.remainder(b - a, 360)) for a, b in itertools.pairwise(turns)]
        mean = sum(gaps) / len(gaps)
        assert all(abs(gap - mean) < 0.15 * mean for gap in gaps), worked.label


def test_a_single_foot_stands_on_its_base(whole):
    """The foot of a stitch that has a stitch of the row below to itself is within 0.1 stitch of that one's head.

    A cross keeps its size and may stand higher: its stem points there.
    """
    name, fabric, sheet = whole
    checked = 0
    for index in range(1, len(fabric.rows)):
        worked, below = fabric.rows[index], fabric.rows[index - 1]
        here = stems(sheet, measured.group_of(worked, index))
        there = stems(sheet, measured.group_of(below, index - 1))
        mine = [i for i, s in enumerate(worked.row.stitches) if s.role == "stitch" and s.kind in PLAIN]
        under = [i for i, s in enumerate(below.row.stitches) if s.role == "stitch" and s.kind in PLAIN]
        assert (len(here), len(there)) == (len(mine), len(under))
        places = Counter(f.at for s in worked.row.stitches for f in s.feet)
        for (foot, head), item in zip(here, mine, strict=True):
            (goes,) = worked.row.stitches[item].feet
            if goes.hold != "top" or places[goes.at] > 1 or goes.at not in under:
                continue
            checked += 1
            base, kind = there[under.index(goes.at)][1], worked.row.stitches[item].kind
            apart = aside(base, foot, head) if kind == "sc" else math.dist(foot, base)
            assert apart < 0.1, f"{worked.label}, item {item}"
    assert checked or name == "half-granny"


def aside(point, a, b):
    """How far a point lies beside the line through a and b."""
    return abs((b[0] - a[0]) * (point[1] - a[1]) - (b[1] - a[1]) * (point[0] - a[0])) / math.dist(a, b)


def edges_of(name):
    """The angles of the right and the left edge, counter-clockwise from the right."""
    return 90 - OPENINGS[name] / 2, 90 + OPENINGS[name] / 2


def test_rows_begin_and_end_on_the_edges(whole):
    """The last stitch of a right-side row stands on the left edge, of a wrong-side row on the right one."""
    name, fabric, sheet = whole
    for index, worked in enumerate(fabric.rows):
        foot, head = stems(sheet, measured.group_of(worked, index))[-1]
        edge = math.radians(edges_of(name)[worked.side == "RS"])
        for x, y in (foot, head):
            assert abs(x * math.sin(edge) - y * math.cos(edge)) < 0.12, worked.label
        assert head[0] * math.cos(edge) + head[1] * math.sin(edge) > 0


@pytest.mark.parametrize("hand", ["right", "left"])
@pytest.mark.parametrize("path", FABRICS, ids=measured.name_of)
def test_numbers_stand_where_rows_begin(path, hand):
    """Outside the edge: a right-hander's right-side rows begin on the right, a left-hander's on the left."""
    fabric, (sheet,) = measured.drawn(path, "full", hand=hand)
    x0, _ = centre_of(sheet)
    for worked in fabric.rows:
        letters = [shape for words, shape in sheet.texts if words == str(worked.number)]
        x = sum(s.centroid.x for s in letters) / len(letters)
        on_right = (worked.side == "RS") == (hand == "right")
        if path.stem == "open-square":
            on_right = None  # its edges lie side by side below the ring
        assert on_right is None or (x > x0) == on_right, worked.label


def test_the_notes_say_how_it_is_read(whole):
    name, fabric, sheet = whole
    said = " ".join(dict.fromkeys(words for words, _ in sheet.texts))
    assert "Rows go to and fro, each from its number to the other edge." in said
    assert ("begin at the ring" in said) == (fabric.start != "chain")
    assert "right-side rows" in said
    assert "round" not in said
    assert ("not joined" in said) == (name == "open-square")


def test_the_same_input_gives_the_same_bytes():
    path = FABRICS[0]
    setting = measured.Setting(extent="full")
    text = path.read_text("utf-8")
    made = [
        [measured.svg.write(sheet) for sheet in measured.written_chart(worked, path.name, setting).sheets]
        for worked in (measured.worked_text(text, path.name) for _ in range(2))
    ]
    assert made[0] == made[1]
