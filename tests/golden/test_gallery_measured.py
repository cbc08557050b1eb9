"""Every chart of the gallery, measured on the finished file by a reader that shares nothing with what draws it.

A whole fabric is measured on the file that is committed, to which the tool is held byte for byte (`test_gallery.py`). Nothing lies over anything else, nothing leaves the page, no word is cut; a row's tops are even, a stitch stands on
what it is worked into, and the glyphs of a row are the stitches of the worked fabric.
"""

import functools
import importlib.util
import itertools
import math
import re
import sys
from collections import Counter, defaultdict
from dataclasses import replace
from pathlib import Path

import pytest
import shapely
from hookfold.charts import engrave
from hookfold.charts.drawing import svg
from hookfold.charts.layout.chart.condense import fold_rows
from hookfold.charts.output.drawn import piece_chart, written_chart
from hookfold.charts.output.written import worked_text
from hookfold.charts.setting import Setting

ROOT = Path(__file__).parents[2]
GALLERY = ROOT / "gallery"


def _module(path):
    spec = importlib.util.spec_from_file_location(path.stem, path)
    module = importlib.util.module_from_spec(spec)
    sys.modules[spec.name] = module
    spec.loader.exec_module(module)
    return module


ruler = _module(ROOT / "tests" / "unit" / "layout" / "svg_ruler.py")

FABRICS = sorted((GALLERY / "fabrics").glob("*.txt"))
PIECES = sorted(GALLERY.glob("*/pattern.toml"))
#: Every way a chart can be asked for, the usual one first and last the one that differs from it in all.
WAYS = [*itertools.product(("A4", "Letter"), ("right", "left"), ("US", "UK"))]


def others(number, path):
    """The other ways that a chart is asked for: in every second those that differ from the usual one in two things, so
    that any two things meet in it; in the others, and in a large piece, which takes seconds to draw, the one that differs
    in all."""
    if number % 2 or path.stem.startswith(("large-", "long-")):
        return WAYS[-1:]
    return [way for way in WAYS[1:] if sum(map(str.__ne__, way, WAYS[0])) == 2]


def name_of(path):
    return path.stem if path.suffix == ".txt" else path.parent.name


def drawn(path, extent, paper="A4", hand="right"):
    """The fabric of a gallery file and the sheets of its chart, read back."""
    fabric, files = filed(path, Setting(extent=extent, paper=paper, hand=hand))
    special = specials(fabric)
    return fabric, [ruler.read(file, special) for file in files]


def filed(path, setting):
    """The fabric of a gallery file and the files of its chart."""
    if path.suffix == ".txt":
        worked = written(path)
        fabric, document = worked.fabric, written_chart(worked, path.name, setting)
    else:
        piece = piece_of(path, setting.hand)
        fabric, document = piece.fabric, piece_chart(piece, setting)
    return fabric, [svg.write(sheet) for sheet in document.sheets]


@functools.cache
def written(path):
    """A written pattern, worked once for all checks and all the ways it is drawn in."""
    return worked_text(path.read_text("utf-8"), path.name)


@functools.lru_cache(maxsize=2)
def piece_of(path, hand):
    """A pattern file, worked once for all the ways it is drawn in."""
    return engrave.work_file(path.read_text("utf-8"), path.parent.name, hand)


def specials(fabric):
    """What the fabric's own stitches are made of, by how they are named in a file."""
    made = [s for worked in fabric.rows for s in worked.row.stitches]
    return {plain(s.kind): (s.legs, s.base or "dc") for s in made if s.legs and "tog" not in s.kind}


def plain(kind):
    """A kind as an id has it."""
    return re.sub(r"[^a-z0-9]+", "-", kind.lower())


def clean(sheets):
    """Nothing over anything, nothing outside, no word shortened."""
    for sheet in sheets:
        assert ruler.overlaps(sheet) == []
        assert ruler.text_over_glyphs(sheet) == []
        assert ruler.marks_over(sheet) == []
        assert ruler.outside(sheet) == []
        assert [words for words, _ in sheet.texts if words.endswith(("…", "..."))] == []


def committed(path):
    """A fabric of the gallery with every stitch drawn, in the usual way, and the sheet that is committed of it."""
    fabric = written(path).fabric
    return fabric, [ruler.read(path.with_suffix(".svg").read_bytes(), specials(fabric))]


@pytest.fixture(scope="module", params=FABRICS, ids=name_of)
def whole(request):
    """A fabric with every stitch drawn."""
    return committed(request.param)


def test_nothing_touches_leaves_the_page_or_is_cut(whole):
    _, sheets = whole
    clean(sheets)


@pytest.mark.parametrize("path", PIECES, ids=name_of)
def test_nothing_touches_in_a_piece(path):
    _, sheets = drawn(path, "repeat")
    clean(sheets)


@pytest.mark.slow
@pytest.mark.parametrize(
    ("path", "paper", "hand", "terms"),
    [(path, *way) for number, path in enumerate((*FABRICS, *PIECES)) for way in others(number, path)],
    ids=lambda v: name_of(v) if isinstance(v, Path) else v,
)
def test_nothing_touches_on_other_paper_in_other_hands_and_terms(path, paper, hand, terms):
    """With its repeat drawn once, and a fabric whole where it repeats anything: where that is the same file, it is
    measured once."""
    extents = ("repeat", "full") if path.suffix == ".txt" and repeats(written(path).fabric) else ("repeat",)
    made = [filed(path, Setting(extent=extent, paper=paper, hand=hand, terms=terms)) for extent in extents]
    special = specials(made[0][0])
    clean(ruler.read(file, special) for file in dict.fromkeys(file for _, files in made for file in files))


def repeats(fabric):
    """Whether less than the whole is drawn of a fabric with its repeat once: of flat rows, and of rounds of which some
    are alike."""
    return not all(row.is_round for row in fabric.rows) or fold_rows(fabric).fabric is not fabric


@pytest.mark.slow
def test_rounds_that_do_not_repeat_are_one_file():
    path = GALLERY / "fabrics" / "hexagon.txt"
    assert not repeats(written(path).fabric)
    once, whole = (filed(path, Setting(extent=extent, hand="left"))[1] for extent in ("repeat", "full"))
    assert once == whole


@pytest.mark.slow
@pytest.mark.parametrize("path", PIECES, ids=name_of)
def test_nothing_touches_on_the_pages_of_a_whole_piece(path):
    clean(drawn(path, "full")[1])


def test_the_glyphs_of_every_row_are_its_stitches(whole):
    fabric, (sheet,) = whole
    for index, worked in enumerate(fabric.rows):
        there = [g for g in sheet.glyphs if g.row == group_of(worked, index)]
        found = Counter(re.sub(r"(-covered|-crossed(-\d+)?|-clasped(-\d+)?)+$", "", g.kind) for g in there)
        row = right_side(worked)
        assert found == wanted(row) + signs(row), worked.label


FACES = {"front": "back", "back": "front", "FP": "BP", "BP": "FP"}


def right_side(worked):
    """The row as the right side shows it: on the wrong side each face is the other (common practice, no source)."""
    def turned(made):
        feet = tuple(replace(f, hold=re.sub("^(front|back)", lambda m: FACES[m[0]], f.hold)) for f in made.feet)
        return replace(made, kind=re.sub("^(FP|BP)", lambda m: FACES[m[0]], made.kind), feet=feet)

    row = worked.row
    return replace(row, stitches=tuple(map(turned, row.stitches))) if worked.side == "WS" else row


def group_of(worked, index):
    word = "round" if worked.is_round else "row"
    return f"{word}-{worked.number}" if worked.number else f"{word}-unnumbered-{index + 1}"


def wanted(row):
    """What is drawn of a row: chains one by one, a picot as its chains and its dot."""
    found = Counter()
    for made in row.stitches:
        if made.role == "picot":
            found[f"ch-{made.chains}-picot"] += 1
            found[f"ch-{made.chains}-picot-solid"] += 1
        elif made.role in ("join", "travel") or made.kind == "sl st":
            found["join-solid" if made.role == "join" else f"{held(made)}-solid"] += 1
        elif made.role in ("turning", "start"):
            found["beginning-ch"] += made.chains
        elif made.role == "chain":
            found["ch"] += made.chains
        else:
            found[held(made)] += 1
    return found


def signs(row):
    """The signs of a row: one for every place that is held by a loop or round a post, and for every leg there."""
    apart = [s for s in row.stitches if s.role in ("stitch", "foundation") and s.kind[:2] not in ("FP", "BP")]
    places = {(f.back, f.at, f.part, f.hold) for s in apart for f in s.feet if f.hold in SIGNED}
    return Counter(f"{plain(hold)}-sign" for *_, hold in places)


SIGNED = ("front loop", "back loop", "front post", "back post")


def held(made):
    hold = made.feet[0].hold if made.feet else "top"
    loop = hold in ("front loop", "back loop") or (hold.endswith("post") and made.kind[:2] not in ("FP", "BP"))
    return plain(f"{made.kind} {hold}" if loop else made.kind)


#: Rows whose tops are not asked to be even: what stands in them is deliberately uneven.
def is_even(row):
    """A row of single stitches without chains, picots and fans, whose base is as regular: one stitch a stitch."""
    tops = [s for s in row.stitches if s.role == "stitch"]
    places = Counter((f.at, f.back, f.hold, f.part) for s in tops for f in s.feet)
    return (
        len(tops) > 3
        and not any(s.role in ("chain", "picot") or s.kind == "sl st" for s in row.stitches)
        and all(len(s.feet) == 1 and s.feet[0].hold in ("top", "front post", "back post") for s in tops)
        and max(places.values()) == 1
    )


def heads(sheet, row):
    """The heads of the posts and crosses of a flat row from left to right: the middle of a bar, the top of a stem."""
    found = []
    for glyph in sheet.glyphs:
        if glyph.row == row and not glyph.kind.startswith(("beginning", "ch", "join", "sl")):
            left, top, right, _ = glyph.ink.bounds
            found.append(((left + right) / 2, top))
    return sorted(found)


def test_tops_are_even_and_level(whole):
    """Flat rows that take one stitch for one: from each top to the next within 15 % of their mean, heads on a line."""
    fabric, (sheet,) = whole
    for index, worked in enumerate(fabric.rows):
        if worked.is_round or not is_even(worked.row) or not even_below(fabric, index):
            continue
        if any(g.row == group_of(worked, index) and "-crossed" in g.kind for g in sheet.glyphs):
            continue  # crossed stitches stand in pairs on purpose
        tops = heads(sheet, group_of(worked, index))
        gaps = [b[0] - a[0] for a, b in itertools.pairwise(tops)]
        mean = sum(gaps) / len(gaps)
        # A hook on one side of a post moves the middle of its box by up to 0.03 of a stitch: well inside the 15 %.
        assert all(abs(gap - mean) < 0.15 * mean for gap in gaps), worked.label


def round_tops(row):
    """The tops of a round of one kind of single stitch with nothing between them; none of any other round.

    Stitches in spaces stand in groups over them.
    """
    tops = [s for s in row.stitches if s.role == "stitch"]
    loose = any(s.role in ("chain", "picot") or (s.kind == "sl st" and s.role == "stitch") for s in row.stitches)
    single = all(len(s.feet) == 1 and s.feet[0].hold != "space" for s in tops) and len({held(s) for s in tops}) == 1
    return tops if len(tops) > 4 and single and not loose else []


def top_of(glyph):
    """Where a glyph of a round ends: the upper end of a cross's stem, the middle of a post's bar."""
    if glyph.kind.startswith("sc"):
        return glyph.lines[0][-1]
    return tuple(sum(p[axis] for p in glyph.lines[1]) / len(glyph.lines[1]) for axis in (0, 1))


def along_and_about(sheet, steps):
    """The steps along the sides of a chain, between the first and the last chain not at an end, and all others."""
    chains, unit = sorted(g.ink.centroid.x for g in sheet.glyphs if g.row == "centre"), stitch_mm(sheet)
    low, high = chains[1] - 0.1 * unit, chains[-2] + 0.1 * unit
    sides = [step for step in steps if all(low < x < high for x, _ in step)]
    about = [step for step in steps if step not in sides]
    assert len(sides) > 2
    assert len(about) > 2
    return [sides, about]


def test_tops_of_rounds_are_even(whole):
    """Rounds of one single stitch, increases and all: from each top to the next within 15 % of their mean.

    Left out is the way over the seam, where the join and the number stand, and over a corner, which is cut short; of an
    oval the straight sides and the ends are each looked at for themselves, since about its ends stitches stand wider.
    """
    fabric, sheets = whole
    checked = 0
    for index, worked in enumerate(fabric.rows):
        tops = round_tops(worked.row) if worked.is_round else []
        if not tops:
            continue
        there = [g for g in sheets[0].glyphs if g.row == group_of(worked, index) and g.kind == held(tops[0])]
        assert len(there) == len(tops)
        sizes = Counter(s.feet for s in tops)
        cornered = [sizes[s.feet] >= 3 and s.feet[0].hold != "ring" for s in tops]
        steps = [
            (top_of(a), top_of(b))
            for (a, x), (b, y) in itertools.pairwise(zip(there, cornered, strict=True))
            if not (x or y)
        ]
        for part in along_and_about(sheets[0], steps) if fabric.start == "chain" else [steps]:
            gaps = [math.dist(a, b) for a, b in part]
            if not gaps:
                continue  # each stitch is at a corner, or beside one
            mean = sum(gaps) / len(gaps)
            assert all(abs(gap - mean) < 0.15 * mean for gap in gaps), worked.label
        checked += 1
    assert checked or not fabric.rows[0].is_round or any(s.role == "chain" for s in fabric.rows[0].row.stitches)


def test_a_single_foot_in_a_round_stands_on_its_base(whole):
    """A stitch that has its base to itself stands in line with the centre and that base within 0.1 stitch."""
    fabric, (sheet,) = whole
    middles = [g.ink for g in sheet.glyphs if g.row == "centre"]
    if not middles or not fabric.rows[0].is_round or fabric.start == "chain":
        return  # an oval has no centre to be in line with
    centre, unit, checked = shapely.union_all(middles).envelope.centroid.coords[0], stitch_mm(sheet), 0
    closing = closing_from(sheet)
    for index, worked in enumerate(fabric.rows[1:], start=1):
        if closing and worked.number >= closing:
            break  # these lie about a centre of their own; they are held to be even, and their stems to their height
        below = fabric.rows[index - 1].row
        here = by_kind(sheet, group_of(worked, index))
        there = by_kind(sheet, group_of(fabric.rows[index - 1], index - 1))
        for (kind, k), (base, m) in alone(worked.row, below):
            if base not in ruler.SLASHES or in_pieces(kind, here) or in_pieces(base, there):
                continue
            checked += 1
            assert beside(here[kind][k], there[base][m], centre, unit) < 0.1 * unit + 0.02, worked.label
    tops_on_tops = any(list(alone(b.row, a.row)) and round_tops(b.row) for a, b in itertools.pairwise(fabric.rows))
    assert checked or not tops_on_tops or any(s.role == "chain" for row in fabric.rows for s in row.row.stitches)


def closing_from(sheet):
    """The first of the rounds that the sheet says are drawn apart, closing the work; 0 where none are."""
    said = re.search(r"Rounds (\d+)–\d+ close the work", " ".join(dict.fromkeys(words for words, _ in sheet.texts)))
    return int(said[1]) if said else 0


def alone(row, below):
    """Every stitch that has a stitch or a chain of the row below to itself, and that: each as (kind, how-manieth)."""
    mine, under = order(row), order(below)
    places = Counter(f for s in row.stitches for f in s.feet)
    for item, made in enumerate(row.stitches):
        foot = made.feet[0] if len(made.feet) == 1 else None
        if foot is None or foot.back != 1 or foot.hold != "top" or places[foot] > 1:
            continue
        if item in mine and foot.at in under and mine[item][0] in ruler.SLASHES:
            yield mine[item], under[foot.at]


def beside(glyph, base, centre, unit):
    """How far a stem misses the head below it, square to the way from the centre."""
    foot, head = reached_foot(glyph, unit), top_of(base)
    out = math.dist(centre, head)
    across = (foot[0] - head[0]) * (head[1] - centre[1]) - (foot[1] - head[1]) * (head[0] - centre[0])
    return abs(across) / out


def even_below(fabric, index):
    below = fabric.base_of(index)
    return index == 0 or (below is not None and is_even(below))


def stitch_mm(sheet):
    says = next(words for words, _ in sheet.texts if " mm to a stitch" in words)
    return float(re.search(r"drawn ([\d.]+) mm to a stitch", says)[1])


def order(row):
    """For every item of a row its kind as drawn and the how-manieth of that kind it is."""
    seen, places = Counter(), {}
    for item, made in enumerate(row.stitches):
        kind = "ch" if made.role in ("chain", "foundation") and made.kind == "ch" else held(made)
        if made.role in ("stitch", "foundation"):
            places[item] = (kind, seen[kind])
        if made.role not in ("turning", "start"):
            seen[kind] += made.chains if made.role == "chain" else 1
    return places


def in_pieces(kind, row):
    """Whether some of a kind are drawn in pieces: then the how-manieth of it is not to be told from the file."""
    return any(there.startswith((f"{kind}-crossed", f"{kind}-covered", f"{kind}-clasped")) for there in row)


def by_kind(sheet, group):
    found = defaultdict(list)
    for glyph in sheet.glyphs:
        if glyph.row == group:
            found[glyph.kind].append(glyph)
    return found


def test_a_single_foot_stands_on_its_base(whole):
    """The foot of a stitch that has its base to itself is within 0.1 stitch of the middle of it, along the row; that of
    a cross, which is of one size however far its head stands from its base, is on the way there, in the order of bases.

    Measured where both are stitches under both loops of flat rows, or chains of the foundation. Left out: crossed
    posts, which are drawn in pieces; stitches in a space, whose place is their own; decreases as a base lean.
    """
    fabric, (sheet,) = whole
    unit, checked = stitch_mm(sheet), 0
    if "is drawn bent" in " ".join(words for words, _ in sheet.texts):
        return  # mitred pieces are measured along their sides, in a test of their own
    for index, worked in enumerate(fabric.rows):
        if worked.is_round:
            continue
        below = fabric.base_of(index)
        group = group_of(fabric.rows[index - 1], index - 1) if index else "foundation"
        here = with_clasped(by_kind(sheet, group_of(worked, index)), worked.direction)
        there = with_clasped(by_kind(sheet, group), fabric.rows[index - 1].direction if index else "")
        crosses = []
        for (kind, k), (base, m) in alone(worked.row, below):
            if len(here[kind]) <= k or len(there[base]) <= m or in_pieces(kind, here) or in_pieces(base, there) or "tog" in base:
                continue
            checked += 1
            foot, wanted = foot_x(here[kind][k], unit), head_x(there[base][m], unit)
            led = 0.65 * abs(head_x(here[kind][k], unit) - wanted) if kind == "sc" else 0.0
            apart = abs(foot - wanted)
            assert apart < 0.1 * unit + 0.02 + led, f"{worked.label} {kind}: {apart / unit:.2f} stitch"
            crosses += [(wanted, foot)] if kind == "sc" else []
        feet = [foot for _, foot in sorted(crosses)]
        assert all(a < b for a, b in itertools.pairwise(feet)), worked.label
    assert checked or not is_even(fabric.rows[-1].row) or fabric.rows[0].is_round


def with_clasped(row, direction):
    """The glyphs of a flat row by kind in the order of work; stems that a hook breaks are whole again, from foot to head."""
    found = defaultdict(list)
    for kind, glyphs in row.items():
        whole = [g if "-clasped" not in kind else replace(g, lines=[[g.lines[0][0], g.lines[1][-1]], *g.lines[2:]]) for g in glyphs]
        found[re.sub("-clasped$", "", kind)] += whole
    for kind in {re.sub("-clasped$", "", k) for k in row if k.endswith("-clasped")}:
        found[kind].sort(key=lambda g: g.lines[0][-1][0], reverse=direction == "right-to-left")
    return found


#: The white at a foot and at a head, in stitches, as the key shows it: a stem stops so far short of its places.
FOOT_WHITE, HEAD_WHITE = 0.12, 0.1


def reached(end, start, unit, white):
    """The point that a stem would reach beyond its end if the white were inked."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    share = white * unit / max(math.hypot(dx, dy), 1e-6)
    return end[0] + dx * share, end[1] + dy * share


def foot_x(glyph, unit):
    """Where a stem reaches its base: the first sub-path is the stem, from its lower end."""
    return reached_foot(glyph, unit)[0]


def reached_foot(glyph, unit):
    low, high = glyph.lines[0][0], glyph.lines[0][-1]
    return reached(low, high, unit, FOOT_WHITE)


def head_x(glyph, unit):
    """Where a glyph is gone into: the middle of a chain, the upper end of a stem."""
    if glyph.kind == "ch" or glyph.kind.removeprefix("fp").removeprefix("bp") not in ruler.SLASHES:
        return glyph.ink.centroid.x
    low, high = glyph.lines[0][0], glyph.lines[0][-1]
    return reached(high, low, unit, HEAD_WHITE)[0]


def test_a_glyph_that_is_moved_is_noticed():
    """The reader itself: a sc pushed onto its neighbour, and one pushed off the page, are both found."""
    _, (sheet,) = drawn(GALLERY / "fabrics" / "single-crochet.txt", "full")
    from shapely import affinity

    sheet.glyphs[0].ink = affinity.translate(sheet.glyphs[1].ink, 0.3, 0.0)
    assert ruler.overlaps(sheet)
    sheet.inks.append(affinity.translate(sheet.glyphs[0].ink, 500.0, 0.0))
    assert ruler.outside(sheet)
