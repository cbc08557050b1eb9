"""Images for sharing: the right size, nothing cut, and described in words."""

import io
import itertools
import re
import xml.etree.ElementTree as ET

import numpy as np
import pytest
from conftest import ALL_CHECKS
from hookfold.charts import engrave
from hookfold.charts.drawing import svg
from hookfold.charts.drawing.display import Text
from hookfold.charts.drawing.style import contrast
from hookfold.charts.layout.placing.clearing import ink_points
from hookfold.charts.layout.placing.ink import mark_of
from hookfold.charts.model.rows.work import work_text
from hookfold.charts.output import words
from hookfold.charts.output.booklet.book import Picture
from hookfold.charts.output.images import composed, fabric, share, shared
from hookfold.charts.output.images.fabric import cloth_of_piece, cloth_of_written
from hookfold.charts.output.piece import heading_of
from hookfold.charts.output.start import Start, starter
from hookfold.charts.picture.views import Look
from hookfold.charts.setting import Heading, Setting
from PIL import Image, ImageChops
from test_words import SCARF

WRITTEN = "Terms: US\nCh 9.\nRow 1 (RS): Sc in 2nd ch from hook and in each ch across. (8 sc)\nRow 2: Ch 1, turn, sc in each st across. (8 sc)\n"
#: The image of one shape is made in the usual run, those of all shapes where everything is asked for.
ONE = "square"
EACH = [pytest.param(name, marks=[] if name == ONE else pytest.mark.slow) for name in sorted(share.SHAPES)]


@pytest.fixture(scope="module")
def made(request):
    shapes = share.SHAPES if ALL_CHECKS or request.config.option.markexpr else {ONE: share.SHAPES[ONE]}
    with pytest.MonkeyPatch.context() as patched:
        patched.setattr(shared, "SHAPES", shapes)
        return engrave.share(SCARF, "scarf.toml", Setting())


#: A short scarf, of which an image has the same boxes.
SHORT = SCARF.replace('"60 cm"', '"15 cm"')


def drawn_small(patched):
    """One shape only, and in it the fabric's pictures of few dots, laid at their size all the same."""
    patched.setattr(shared, "SHAPES", {ONE: share.SHAPES[ONE]})
    patched.setattr(fabric, "WHOLE_PX", 60)
    patched.setattr(shared, "CLOSE", Look("right", 48, 74))


@pytest.mark.parametrize("name", EACH)
def test_each_image_has_its_size_and_an_empty_edge(made, name):
    image = Image.open(io.BytesIO(made[f"share-{name}.png"])).convert("RGB")
    assert image.size == share.SHAPES[name]
    ground = Image.new("RGB", image.size, image.getpixel((0, 0)))
    left, top, right, bottom = ImageChops.difference(image, ground).getbbox()
    air = min(image.size) * 0.03
    assert left > air and top > air and image.width - right > air and image.height - bottom > air


@pytest.mark.parametrize("name", EACH)
def test_each_image_is_light_and_says_what_its_colours_and_dots_are(made, name):
    data = made[f"share-{name}.png"]
    image = Image.open(io.BytesIO(data))
    assert len(data) < 500_000
    assert image.info["icc_profile"] and image.info["dpi"][0] == pytest.approx(144, abs=1)
    assert len(made[f"share-{name}.txt"].decode().split()) > 25


def test_boxes_do_not_overlap_and_leave_an_edge():
    for name, boxes in composed.BOXES.items():
        every = (boxes.whole, boxes.close, boxes.words, boxes.chart)
        for a, b in itertools.combinations(every, 2):
            assert a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] or b[3] <= a[1], name
        wide, high = share.SHAPES[name]
        assert all(x0 >= 36 and y0 >= 36 and x1 <= wide - 36 and y1 <= high - 36 for x0, y0, x1, y1 in every)


def test_the_words_name_title_colours_and_size(made):
    said = made["share-square.txt"].decode("utf-8")
    for part in ("Ferry scarf", "Invented Maker", "A tide", "B sand", "Finished size", "sc"):
        assert part in said


def test_the_stretch_is_large_enough_to_read():
    """A stitch is at least 2.5 % of the image's width: about 3 mm on a phone 12 cm wide held upright."""
    piece = engrave.work_file(SCARF, "scarf.toml")
    stretch = share.stretch_of(piece.fabric, Setting())
    sheet = share.image(stretch, piece.pattern, heading_of(piece, Setting()), (285.75, 285.75))
    root = ET.fromstring(svg.write(sheet))
    assert root.get("width") == "285.75mm"
    assert stretch.size[0] <= share.MOST_STITCHES + 1
    widths = {float(e.get("stroke-width")) for e in root.iter() if e.get("id", "").startswith("row-") and e.get("stroke-width")}
    assert widths == {share.PEN_MM}
    letters = [e.get("aria-label") for e in root.iter() if e.get("aria-label")]
    assert any(words.endswith(" A") for words in letters) and any(words.endswith(" B") for words in letters)


@pytest.mark.slow
@pytest.mark.parametrize("title", ["A", "A very long title for a very narrow scarf that goes on and on until it is told to stop"])
def test_titles_of_any_length_stay_inside(title, monkeypatch):
    """The pictures of the fabric are drawn small here: the titles stand beside them at their own size."""
    drawn_small(monkeypatch)
    text = SHORT.replace("Ferry scarf", title)
    image = Image.open(io.BytesIO(engrave.share(text, "scarf.toml", Setting())["share-square.png"])).convert("RGB")
    edge = image.crop((image.width - 30, 0, image.width, image.height))
    assert len(edge.getcolors()) == 1


def test_left_handed_stretch_is_mirrored():
    piece = engrave.work_file(SCARF, "scarf.toml")
    right, left = (share.stretch_of(piece.fabric, Setting(hand=hand)) for hand in ("right", "left"))
    heads = lambda s: [round(spot.head[0], 3) for spot in s.courses[1].laid.spots]  # noqa: E731
    assert heads(left) == [-x for x in heads(right)]
    assert words.special_table((), "UK", "UK")["puff"].startswith("puff stitch: [yrh, insert hook in st")


def test_the_stretch_is_cut_between_stitches():
    """V-stitches of a dc, a chain and a dc: every one in the window is whole."""
    text = "Ch 63.\nRow 1: Dc in 4th ch from hook, *sk 1 ch, (dc, ch 1, dc) in next ch, sk 1 ch; rep from * across, dc in last ch."
    fabric = work_text(text).fabric
    cut = share.stretch_of(fabric, Setting()).window
    laid = share.stretch_of(fabric, Setting()).courses[0].laid
    reach = [(min(x), max(x)) for x in ([s.head[0], *(f[0] for f in s.feet)] for s in laid.spots)]
    assert not [1 for low, high in reach for x in (cut.left, cut.right) if low + 0.05 < x < high - 0.05]
    assert cut.right - cut.left >= share.MOST_STITCHES - 6


BOBBLES = """Ch 18.
Row 1: Sc in 2nd ch from hook and in each ch across, turn. (17 sc)
Row 2: Ch 1, bobble in first st, *sc in next st, bobble in next st; rep from * across, turn.
Row 3: Ch 1, sc in each st across, turn.
"""


@pytest.mark.parametrize("chains", [14, 18, 30])
def test_the_last_bobble_stands_on_its_band(chains):
    text = BOBBLES.replace("Ch 18", f"Ch {chains}").replace("17 sc", f"{chains - 1} sc")
    stretch = share.stretch_of(work_text(text).fabric, Setting())
    bobbles = [s for c in stretch.courses for s in c.laid.spots if s.kind == "bobble"]
    shown = [s for s in bobbles if stretch.window.left <= s.head[0] <= stretch.window.right]
    reach = [(min(xs), max(xs)) for xs in ([x for x, _ in ink_points(mark_of(s))] for s in shown)]
    assert len(reach) >= 7
    left, right = stretch.window.left - stretch.air, stretch.window.right + stretch.air
    assert left + 0.05 < min(low for low, _ in reach) and max(high for _, high in reach) < right - 0.05


@pytest.mark.parametrize("pale", ["#f3e9d2", "#fdf6e3", "#e2d6b5", "#cfe3ee"])
def test_the_band_of_a_pale_yarn_is_seen_on_white(pale):
    seen = contrast(share.seen(pale), "#ffffff")
    assert seen >= min(1.15, contrast(pale, "#ffffff"))


POUCHED = SCARF[: SCARF.index("[object]")] + '''[object]
kind = "pouch"
width = "12 cm"
height = "20 cm"
flap = "4 cm"
[colours]
A = { name = "tide", hex = "#2f4f5f" }
B = { name = "sand", hex = "#e2d6b5" }
[[section]]
name = "front"
length = "height"
colour = "A"
work = "Row 1: Ch 1, turn. Sc in each st across."
[[section]]
name = "back"
length = "height"
colour = "A"
work = "Row 1: Ch 1, turn. Sc in each st across."
[[section]]
name = "flap"
length = "flap"
stripes = ["B", "B", "A", "A"]
work = """
Row 1: Ch 1, turn. Sc in each st across.
Row 2: Ch 1, turn. Sc in first st, *puff in next st, sc in next st; rep from * across.
"""
[border]
stitch = "sc"
joins = true
'''


def test_the_stretch_shows_the_texture_and_the_stripes_and_not_a_longer_plain_section():
    piece = engrave.work_file(POUCHED, "pouch.toml")
    shown = [c.worked for c in share.stretch_of(piece.fabric, Setting()).courses]
    assert {row.section for row in shown} == {"flap"} and {row.colour for row in shown} == {"A", "B"}
    assert any("puff" in row.row.kinds() for row in shown)
    _, y = cloth_of_piece(piece).middle
    flap = [m.head[1] for m in cloth_of_piece(piece).stitches if piece.fabric.rows[m.row].section == "flap"]
    assert min(flap) <= y <= max(flap)


def test_a_long_striped_piece_is_not_shown_from_its_foundation():
    piece = engrave.work_file(SCARF, "scarf.toml")
    numbers = [c.worked.number for c in share.stretch_of(piece.fabric, Setting()).courses]
    assert numbers == list(range(2, 2 + share.MOST_ROWS))


def test_every_row_has_its_number_and_arrow_where_it_begins():
    piece = engrave.work_file(SCARF, "scarf.toml")
    for hand, first in (("right", 1), ("left", 0)):
        stretch = share.stretch_of(piece.fabric, Setting(hand=hand))
        sheet = share.image(stretch, piece.pattern, heading_of(piece, Setting()), (285.75, 285.75))
        chart = next(item for item in sheet.items if getattr(item, "name", "") == "chart")
        said = {item.text.split()[0]: item.x for item in chart.items if isinstance(item, Text)}
        middle = sum(said.values()) / len(said)
        sides = [int(said[str(c.worked.number)] > middle) for c in stretch.courses]
        begins = [first if c.worked.direction == "right-to-left" else 1 - first for c in stretch.courses]
        assert sides == begins


@pytest.mark.parametrize("made", [
    Start("hat", "Hat", {"around": "50 cm", "height": "19 cm"}, 15, 11, stitch="medium"),
    Start("hat", "Hat", {"around": "44 cm", "height": "17 cm"}, 13, 7, stitch="tall", colours=("ash", "bone")),
    Start("panel", "Mat", {"width": "30 cm", "height": "30 cm"}, 15, 8, stitch="tall"),
])  # fmt: skip
def test_a_number_stands_at_its_own_row_and_every_row_on_the_ground(made):
    """A round that widens lies lower at its ends than its mean rise says; laid open, a hat's rounds drift apart so."""
    piece = engrave.work_file(starter(made), "piece.toml")
    stretch = share.stretch_of(piece.fabric, Setting())
    group = share.chart_group(stretch, piece.pattern, (0.0, 0.0, 200.0, 200.0))
    ground = next(item for item in group.items if getattr(item, "name", "") == "ground")
    places = [float(each) for each in re.findall(r"-?[\d.]+", ground.d)]
    xs, ys = places[::2], places[1::2]
    stitch, low = (max(xs) - min(xs)) / stretch.size[0], max(ys)
    numbers = {item.text.split()[0]: item.y for item in group.items if isinstance(item, Text)}
    tops = {}
    for course in stretch.courses:
        edge = stretch.window.left if course.sign > 0 else stretch.window.right
        here = [s for s in course.laid.spots if s.role in ("stitch", "turning")
                and stretch.window.left <= s.head[0] <= stretch.window.right]  # fmt: skip
        tops[course] = min(here, key=lambda s: abs(s.head[0] - edge))
    foot = max(stretch.levels(c)[1] for c in tops)
    for course, spot in tops.items():
        head_y = low + (course.y + spot.head[1] - foot - 0.4) * stitch
        foot_y = low + (course.y + max(f[1] for f in spot.feet) - foot - 0.4) * stitch
        middle = numbers[str(course.worked.number)] - min(stitch * 0.5, 7.0) * 0.35
        assert head_y < middle < foot_y, course.worked.number
        assert min(ys) <= head_y


def test_the_makers_photograph_stands_in_the_image_and_is_told(made):
    out = io.BytesIO()
    Image.new("RGB", (300, 300), (10, 200, 30)).save(out, "JPEG")
    with pytest.MonkeyPatch.context() as patched:
        drawn_small(patched)
        photo = Picture(out.getvalue(), "jpg", "Photograph of the finished piece")
        some = engrave.share(SHORT, "scarf.toml", Setting(), photo=photo)
    left, top, right, bottom = composed.BOXES[ONE].whole
    image = Image.open(io.BytesIO(some["share-square.png"])).convert("RGB")
    for x, y in ((left + 5, top + 5), (right - 5, bottom - 5)):
        assert max(abs(a - b) for a, b in zip(image.getpixel((x, y)), (10, 200, 30), strict=True)) < 16
    assert b"photograph" in some["share-square.txt"] and b"photograph" not in made["share-square.txt"]


def test_the_steps_of_a_folded_piece_stand_under_its_chart():
    pictures = [np.zeros((20, 20, 3), np.uint8)] * 3
    items = []
    placed = composed._strip("Flat, folded and joined, in use", pictures, (572, 590, 1040, 1040), 23, items)
    assert len(placed) == 3 and all(box[3] == 1040 and 572 <= box[0] < box[2] <= 1040 for box, _ in placed)
    assert [item.text for item in items] == ["Flat, folded and joined, in use"]


def test_a_wide_picture_of_a_step_is_whole_in_its_tile():
    """A picture with a red left and a green right edge shows both in the image, however its tile is shaped."""
    wide = np.full((60, 120, 3), 200, np.uint8)
    wide[10:50, :12], wide[10:50, -12:] = (220, 0, 0), (0, 160, 0)
    setting, worked = Setting(), work_text(WRITTEN)
    cloth, colours = cloth_of_written(worked.fabric)
    shown = composed.Shown(np.full((50, 50, 3), 120, np.uint8), np.full((50, 50, 3), 120, np.uint8), "In use",
                           (("done", wide),), cloth, colours, Heading("Mat"), share.Yarns(),
                           share.stretch_of(worked.fabric, setting))
    image = np.asarray(Image.open(io.BytesIO(composed.composed(shown, ONE))).convert("RGB")).astype(int)
    red, green = image[:, :, 0] - image[:, :, 1], image[:, :, 1] - image[:, :, 0]
    assert (red > 150).sum() > 100 and (green > 110).sum() > 100
