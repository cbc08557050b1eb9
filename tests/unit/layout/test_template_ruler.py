"""The paper template under a ruler: rasterised pages measured pixel by pixel, and the piece folded by plain
sums.
"""

import shutil
import subprocess
from pathlib import Path

import folding_plans as plans
import numpy
import pytest
from hookfold.charts import engrave
from hookfold.charts.drawing.display import Ink
from hookfold.charts.drawing.svg import write
from hookfold.charts.folding.folds import folding_of
from hookfold.charts.layout.assembly.template import full_size, template_document
from hookfold.charts.layout.assembly.template_tiles import FOOTER_MM, OVERLAP_MM, count_along, seams, tiling
from hookfold.charts.layout.sheets.page import MARGIN_MM
from hookfold.charts.model.sizing.worn import worn_plan
from hookfold.charts.output.export import Metadata, pdf
from hookfold.charts.setting import Heading
from PIL import Image
from sheet_boxes import colliding, crossed, flat, outside, points_of, segments, words_on

HEAD = Heading("Field-book cover", "Ada Loom")
DPI = 300
PX = 25.4 / DPI
NEEDS_PDFTOPPM = pytest.mark.skipif(not shutil.which("pdftoppm"), reason="pdftoppm is not installed")


def named(sheet, name):
    return [i for i in flat(sheet.items) if isinstance(i, Ink) and i.name == name]


def ink_span(pixels, axis, at_mm, lo_mm, hi_mm):
    """The first and last dark pixel edges, in mm, on a line across (axis 0: a column, 1: a row) between two
    places.
    """
    at = round(at_mm / PX)
    line = pixels[:, at] if axis == 0 else pixels[at, :]
    lo, hi = max(0, round(lo_mm / PX)), round(hi_mm / PX)
    dark = numpy.flatnonzero(line[lo:hi] < 128) + lo
    return dark[0] * PX, (dark[-1] + 1) * PX


def rasterised(document, folder):
    """The document's PDF as grey pages at 300 dpi."""
    file = folder / "template.pdf"
    file.write_bytes(pdf([write(s) for s in document.sheets], Metadata(title=document.title)))
    subprocess.run(["pdftoppm", "-r", str(DPI), "-gray", str(file), str(folder / "page")], check=True)
    return [numpy.asarray(Image.open(p)) for p in sorted(folder.glob("page*.pgm"))]


@NEEDS_PDFTOPPM
@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("name", ["book", "pouch"])
def test_squares_and_pieces_measure_what_they_say(name, paper, tmp_path):
    """Within 0.2 mm on every tile: both squares, and every cut edge and fold where it should lie on its
    page.
    """
    plan = plans.ALL[name]()
    made = template_document(plan, HEAD, paper)
    pages = rasterised(made, tmp_path)
    assert len(pages) == len(made.sheets)
    for side, words in ((50.0, "test square 50 mm"), (50.8, "test square 2 in")):
        square = points_of(named(made.sheets[0], words)[0])
        x, y = min(p[0] for p in square), min(p[1] for p in square)
        left, right = ink_span(pages[0], 1, y + 13.0, x - 1.5, x + side + 1.5)
        top, foot = ink_span(pages[0], 0, x + 13.0, y - 1.5, y + side + 1.5)
        assert right - left == pytest.approx(side, abs=0.2)
        assert foot - top == pytest.approx(side, abs=0.2)
    seen = [_measured(made.sheets[k], page) for k, page in enumerate(pages)]
    assert all(seen), "every tile has an edge to measure"


def _measured(sheet, page):
    """Compare every straight cut edge on a tile with its ink; how many were measured."""
    count = 0
    for ink in named(sheet, "cut line"):
        for (x0, y0), (x1, y1) in segments(ink):
            if max(abs(x1 - x0), abs(y1 - y0)) < 20 or min(abs(x1 - x0), abs(y1 - y0)) > 0.01:
                continue
            mx, my = x0 + (x1 - x0) * 0.43, y0 + (y1 - y0) * 0.43
            span = (
                ink_span(page, 1, my, mx - 1, mx + 1)
                if abs(x1 - x0) < 0.01
                else ink_span(page, 0, mx, my - 1, my + 1)
            )
            assert sum(span) / 2 == pytest.approx(mx if abs(x1 - x0) < 0.01 else my, abs=0.2)
            count += 1
    return count


@NEEDS_PDFTOPPM
@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_flap_and_total_across_the_pages(paper, tmp_path):
    """From the left cut edge to the fold, and over all tiles to the right cut edge, measured in pixels."""
    plan = plans.book()
    made = template_document(plan, HEAD, paper)
    pages = rasterised(made, tmp_path)
    step = made.sheets[0].width - 2 * MARGIN_MM - OVERLAP_MM
    y = 200.0
    left = ink_span(pages[0], 1, y, MARGIN_MM - 1, MARGIN_MM + 1)
    right = ink_span(pages[-1], 1, y, 30.0, made.sheets[0].width - MARGIN_MM + 0.5)
    total = (len(pages) - 1) * step + right[1] - left[0]
    assert total == pytest.approx(72 * plans.ROW_MM + 0.35, abs=0.2)
    dashes = [
        ink_span(pages[0], 1, y + k * 0.4, 60.0, 85.0) for k in range(8) if _has_ink(pages[0], y + k * 0.4)
    ]
    assert sum(dashes[0]) / 2 - sum(left) / 2 == pytest.approx(9 * plans.ROW_MM, abs=0.2)


def _has_ink(page, y):
    return bool((page[round(y / PX), round(60 / PX) : round(85 / PX)] < 128).any())


def test_the_template_folded_by_plain_sums_is_the_cover():
    """Cut from its own ink and folded by x -> 2c - x: outside size, pocket depth and overlap, to 0.1 mm."""
    made = template_document(plans.book(), HEAD)
    tiles = tiling_of(plans.book())
    xs, ys, folds = [], [], []
    for tile, sheet in zip(tiles.tiles, made.sheets, strict=True):
        dx, dy = tile.window[0] - MARGIN_MM, tile.window[1] - MARGIN_MM
        for ink in named(sheet, "cut line"):
            xs += [x + dx for x, _ in points_of(ink)]
            ys += [y + dy for _, y in points_of(ink)]
        folds += [points_of(ink)[0][0] + dx for ink in named(sheet, "fold line") if ink.d]
    left, right, (first, second) = min(xs), max(xs), sorted(folds)
    flap_ends = 2 * first - left, 2 * second - right
    assert second - first == pytest.approx(54 * plans.ROW_MM, abs=0.1)
    assert flap_ends[0] - first == pytest.approx(9 * plans.ROW_MM, abs=0.1), "depth of the front pocket"
    assert second - flap_ends[1] == pytest.approx(9 * plans.ROW_MM, abs=0.1), "depth of the back pocket"
    assert flap_ends[1] - flap_ends[0] == pytest.approx(36 * plans.ROW_MM, abs=0.1), (
        "the gap between the flaps"
    )
    assert max(ys) - min(ys) == pytest.approx(42 * plans.STITCH_MM, abs=0.1)


def tiling_of(plan, paper="A4"):
    folding = folding_of(plan)
    bounds = full_size(folding).bounds
    return tiling(bounds, paper, lambda box: folding.start.facets[0].shape.intersects(_box(box)))


def _box(box):
    from shapely.geometry import box as rectangle

    return rectangle(*box).buffer(-0.5)


@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("name", sorted(plans.ALL))
def test_pages_cover_the_piece_and_nothing_touches(name, paper):
    made = template_document(plans.ALL[name](), HEAD, paper)
    for sheet in made.sheets:
        assert colliding(sheet) == []
        assert outside(sheet) == []
        assert crossed(sheet, {"cut line", "fold line", "join mark", "overlap"}, 0.15) == []
    said = [w.text for s in made.sheets for w in words_on(s)]
    folding = folding_of(plans.ALL[name]())
    assert {p.name for p in folding.piece.parts} <= set(said)
    assert {f"fold {k}" for k in range(1, len(folding.stages) + 1)} <= set(said)
    assert {"50 mm", "2 in", "edge to the crown" if name == "hat" else "top edge", "cut line"} <= set(said)
    assert any(t.startswith("Print at 100 %") for t in said)


@pytest.mark.parametrize("name", sorted(plans.ALL))
def test_neighbours_overlap_by_ten_and_share_their_letters(name):
    tiles = tiling_of(plans.ALL[name]())
    for seam in seams(tiles):
        x0, y0, x1, y1 = seam.strip
        assert (x1 - x0 if seam.upright else y1 - y0) == pytest.approx(OVERLAP_MM)
    letters = [s.letter for s in seams(tiles)]
    assert len(letters) == len(set(letters))


def test_no_fewer_pages_would_do():
    """Portrait and landscape counted by a formula of the test's own."""
    tiles = tiling_of(plans.book())
    folding = folding_of(plans.book())
    x0, y0, x1, y1 = full_size(folding).bounds
    ways = []
    for wide, tall in ((210.0, 297.0), (297.0, 210.0)):
        area = (wide - 24.0, tall - 24.0 - FOOTER_MM)
        ways.append(-(-(x1 - x0 - 10) // (area[0] - 10)) * -(-(y1 - y0 - 10) // (area[1] - 10)))
    assert len(tiles.tiles) == min(ways)
    assert count_along(5.0, 186.0) == 1


PIECES = sorted((Path(__file__).parents[3] / "gallery").glob("*/pattern.toml"))
#: What goes round the object and how high it is: from fold to fold, and across.
ROUND = {"book": ("wrap", "height"), "book with strap": ("wrap", "height"), "pouch": ("height", "width"),
         "cushion": ("height", "width")}  # fmt: skip


@pytest.mark.parametrize("path", PIECES, ids=lambda p: p.parent.name)
def test_cut_as_worn_the_paper_fits_round_the_object(path):
    """To a hundredth of a millimetre, by the object's measures alone; dotted lies the piece as worked."""
    piece = engrave.work_file(path.read_text("utf-8"), path.name)
    kind, thing = piece.plan.kind, piece.plan.object_mm
    worn = folding_of(worn_plan(piece.plan))
    cut, worked = full_size(worn, (piece.folding, "as worked")), full_size(piece.folding)
    if kind not in ROUND:
        assert cut.piece == pytest.approx(worked.piece) and not cut.dotted
        return
    around, across = ROUND[kind]
    level = abs(cut.folds[0][0][0][0] - cut.folds[0][0][1][0]) < 0.01
    places = sorted(line[0][0 if level else 1] for line, _ in cut.folds)
    x0, y0, x1, y1 = cut.piece
    assert places[1] - places[0] == pytest.approx(thing[around], abs=0.01)
    assert (y1 - y0 if level else x1 - x0) == pytest.approx(thing[across], abs=0.01)
    for at in (0, 1):
        places = [p[at] for p in cut.dotted[0]]
        assert max(places) - min(places) == pytest.approx(worked.piece[at + 2] - worked.piece[at], abs=0.01)


def test_the_dotted_line_is_said_and_named():
    text = PIECES[1].read_text("utf-8")
    piece = engrave.work_file(text, "cover.toml")
    worn = folding_of(worn_plan(piece.plan))
    made = template_document(piece.plan, HEAD, folding=worn, dotted=(piece.folding, "the piece as worked"))
    said = [w.text for s in made.sheets for w in words_on(s)]
    assert "dotted: the piece as worked" in said and any(t.startswith("Dotted: the piece as worked with its folds.") for t in said)
    for sheet in made.sheets:
        assert colliding(sheet) == [] and outside(sheet) == []


@pytest.mark.parametrize("path", PIECES, ids=lambda p: p.parent.name)
def test_each_line_has_its_name_beside_it_and_not_beside_the_other(path):
    """The name of each line at the foot stands within 8 mm of it, nearer to it than to the other line."""
    piece = engrave.work_file(path.read_text("utf-8"), path.name)
    worn = folding_of(worn_plan(piece.plan))
    made = template_document(piece.plan, HEAD, folding=worn, dotted=(piece.folding, "the piece as worked"))
    for sheet in made.sheets:
        points = {name: [p for ink in named(sheet, name) for p in points_of(ink)] for name in ("cut line", "the piece as worked")}
        lines = {name: max(y for _, y in there) for name, there in points.items() if there}
        for word in words_on(sheet):
            name = word.text.removeprefix("dotted: ")
            if name in lines and len(lines) == 2:
                middle = (word.box[1] + word.box[3]) / 2
                away = {line: abs(middle - y) for line, y in lines.items()}
                assert away[name] < 8.0 and away[name] == min(away.values()), (word.text, away)


def texts_of(sheet):
    from hookfold.charts.drawing.display import Text

    return [i for i in flat(sheet.items) if isinstance(i, Text)]


def started(kind, measures, **more):
    from hookfold.charts.output.start import Start, starter

    return engrave.work_file(starter(Start(kind, "Thing", measures, 16, 12, **more)), "thing.toml")


def template_of(piece):
    from hookfold.charts.output.drawn import piece_template
    from hookfold.charts.setting import Setting

    return piece_template(piece, Setting())


@pytest.mark.parametrize("flap", ["76 mm", "86 mm", "60 mm"])
def test_the_block_of_the_squares_leaves_the_names_their_room(flap):
    """The block is 175 mm wide and 73 mm high; a flap of 60 mm has no room for it."""
    sleeve = {"width": "180 mm", "height": "250 mm", "thickness": "9 mm", "flap": flap}
    said = {text.text for text in texts_of(template_of(started("sleeve", sleeve, stitch="tall")).sheets[0])}
    assert {"flap", "top edge", "fold 2", "Print at 100 %, never “fit to page”."} <= said


def test_a_hats_paper_names_its_own_edges_and_its_words_stay_inside_its_disc():
    from hookfold.charts.drawing.letters import text_width

    hat = started("hat", {"around": "560 mm", "height": "220 mm"})
    sheets = template_of(hat).sheets
    said = [text.text for sheet in sheets for text in texts_of(sheet)]
    assert "top edge" not in said and {"edge to the crown", "brim", "crown", "sides"} <= set(said)
    radius = hat.plan.sections[0].length_mm
    middle = MARGIN_MM + radius
    notes = [t for t in texts_of(sheets[0]) if t.text.startswith(("Cut out", "Measure", "Print"))]
    assert len(notes) == 3
    for text in notes:
        for x in (text.x, text.x + text_width(text.text, text.size, text.weight)):
            assert numpy.hypot(x - middle, text.y - middle) < radius


def test_the_strip_for_a_cup_with_a_handle_is_as_large_as_the_piece_with_its_border():
    """231 mm round at 18 sts: 40 sts are 222 mm and the border adds its height at both ends."""
    wrap = started("mug wrap", {"around": "231 mm", "height": "85 mm"})
    (sheet,) = template_of(wrap).sheets
    spans = []
    for name in ("cut line", "the piece before its border"):
        (line,) = named(sheet, name)
        xs, ys = zip(*points_of(line), strict=True)
        spans.append((max(xs) - min(xs), max(ys) - min(ys)))
    (wide, high), (bare, low) = spans
    plan = wrap.plan
    assert bare == pytest.approx(plan.stitches * plan.stitch_mm, abs=0.05)
    assert low == pytest.approx(plan.rows * 100 / 12, abs=0.05)
    assert wide - bare == pytest.approx(2 * plan.border_row_mm, abs=0.05) == pytest.approx(high - low, abs=0.05)
    said = " ".join(text.text for text in texts_of(sheet))
    assert "lay it round the cup" in said and "Its border is in it." in said and "does not stretch" not in said
