"""Charts as files: the whole on one sheet, nothing left out without need, true counts at brackets, even parts."""

import functools
import re
from pathlib import Path

import cloth
import pytest
import svg_ruler
from hookfold.charts import engrave
from hookfold.charts.drawing.svg import write
from hookfold.charts.layout.chart import round as round_charts
from hookfold.charts.layout.chart.either import chart_document
from hookfold.charts.layout.chart.tiles import tiles_of
from hookfold.charts.layout.chart.view import view_of
from hookfold.charts.layout.placing.laid import lay_fabric
from hookfold.charts.layout.sheets.chart_setting import MOST_ACROSS, WHOLE_FROM_MM, TooMuchToDraw
from hookfold.charts.model.rows.work import work_text
from hookfold.charts.output.drawn import piece_assembly
from hookfold.charts.output.rendered import whole_of
from hookfold.charts.setting import Heading, Setting

FABRICS = Path(__file__).parents[3] / "gallery" / "fabrics"
WIDE = {
    "shells": cloth.shells(40, 6), "trellis": cloth.trellis(40, 6), "mesh": cloth.mesh(40, 6),
    "bobbles": cloth.bobbles(40, 6), "v-stitches": cloth.v_stitches(40, 5), "ripple": cloth.ripple(12, 6),
    "sc": cloth.each("sc", 90, 12, 1, False),
}  # fmt: skip


#: A mat of so many rounds takes more than a page where a stitch is to be 9 mm wide.
ROUNDS = 14


def chart(fabric, repeat=None, **setting):
    return chart_document(fabric, Heading("Piece"), Setting(**setting), {}, {}, repeat)


def scale_of(sheet):
    return float(re.search(r"drawn ([\d.]+) mm to a stitch", write(sheet).decode()).group(1))


def test_a_chart_too_large_for_a_page_is_whole_on_one_sheet():
    document = chart(cloth.each("sc", 90, 70, 1, False), extent="full")
    assert len(document.sheets) > 2
    sheet = svg_ruler.read(write(whole_of(document)))
    rows = [sum(1 for g in sheet.glyphs if g.row == f"row-{k}" and g.kind == "sc") for k in range(1, 71)]
    assert rows == [90] * 70
    assert svg_ruler.outside(sheet) == [] and svg_ruler.overlaps(sheet) == []
    assert 3.0 <= scale_of(whole_of(document)) <= WHOLE_FROM_MM


@pytest.mark.parametrize(("paper", "larger"), [("A4", [(297.0, 420.0), (420.0, 594.0)]), ("Letter", [(279.4, 431.8), (431.8, 558.8)])])
def test_what_is_too_large_for_a_page_lies_on_the_next_larger_paper_that_holds_it(paper, larger):
    """A tenth of a millimetre more to the stitch, and it would not; only where the least is too much is the sheet larger."""
    sizes = []
    for stitches in (84, 100, 120, 260):
        sheet = whole_of(chart(cloth.each("sc", stitches, 30, 1, False), extent="full", paper=paper))
        mm, (short, long) = scale_of(sheet), sorted((sheet.width, sheet.height))
        fits = [k for k, (a, b) in enumerate(larger) if short <= a and long <= b]
        sizes.append(fits[0] if fits else 2)
        assert fits or 3.0 <= mm < 3.3
        assert mm == 5.0 or not fits or long + stitches * 0.11 > larger[fits[0]][1]
    assert sizes == sorted(sizes) and sizes[0] == 0 and sizes[-1] == 2


def test_rounds_too_large_for_a_page_are_whole_on_one_sheet():
    document = circle_document()
    assert len(document.sheets) > 1 and document.whole is not None
    drawn = svg_ruler.read(write(document.whole))
    assert {g.row for g in drawn.glyphs} >= {f"round-{k}" for k in range(1, ROUNDS + 1)}


@functools.cache
def circle_document():
    """A mat as a chart that a page of its own cannot hold, drawn once for all that ask: a round motif stands whole down
    to 2.2 mm a stitch, which 42 rounds would need, and fewer show the same sooner."""
    with pytest.MonkeyPatch.context() as patched:
        for least in ("LEAST_ROUND_MM", "TILE_MM"):
            patched.setattr(round_charts, least, 9.0)
        document = chart_document(cloth_circle(), Heading("Mat"), Setting(extent="full"))
        assert len(document.sheets) > 2
    return document


def cloth_circle():
    rounds = ["Rnd 1: 6 sc in magic ring. (6 sts)", "Rnd 2: 2 sc in each st around. (12 sts)"]
    rounds += [
        f"Rnd {n}: *Sc in next {n - 2} sts, 2 sc in next st; rep from * around. ({6 * n} sts)" for n in range(3, ROUNDS + 1)
    ]
    return work_text("\n".join(rounds)).fabric


@pytest.mark.parametrize("fabric", ["rows", "rounds"])
def test_the_pages_are_numbered_in_their_order_and_each_says_how_many_there_are(fabric):
    document = chart(cloth.each("sc", 90, 70, 1, False), extent="full") if fabric == "rows" else circle_document()
    sheets = document.sheets
    said = [re.findall(r'aria-label="[^"]*Sheet (\d+) of (\d+)', write(sheet).decode()) for sheet in sheets]
    assert len(sheets) > 2 and said == [[(str(k), str(len(sheets)))] for k in range(1, len(sheets) + 1)]


def test_a_folding_of_several_sheets_is_whole_on_one():
    cover = FABRICS.parent / "field-book-cover" / "pattern.toml"
    document = piece_assembly(engrave.work_file(cover.read_text("utf-8"), str(cover)), Setting())
    assert len(document.sheets) > 1

    def steps(sheet):
        return [item.name for item in sheet.items if getattr(item, "name", "").startswith("step ")]

    assert steps(document.whole) == [name for sheet in document.sheets for name in steps(sheet)]
    assert not svg_ruler.outside(svg_ruler.read(write(document.whole)))


def test_nothing_is_left_out_of_what_fits():
    whole = chart(cloth.each("hdc", 30, 3, 2, False))
    assert scale_of(whole.sheets[0]) >= WHOLE_FROM_MM and b"left out" not in write(whole.sheets[0])
    assert b"left out" in write(chart(cloth.each("hdc", 70, 3, 2, False)).sheets[0])


def test_columns_are_not_cut_out_where_folding_the_rows_will_do():
    sheet = write(chart(cloth.each("hdc", 24, 200, 2, False)).sheets[0])
    assert b"times in all" in sheet and b"left out" not in sheet
    assert scale_of(chart(cloth.each("hdc", 24, 200, 2, False)).sheets[0]) >= WHOLE_FROM_MM


def told(says):
    """What a bracket says, as {row or None for all: (drawn or None, times)}."""
    found = {}
    for part in re.split(r": |, drawn ", says, maxsplit=1)[1].split("; "):
        drawn = re.match(r"(\d+) times \((\d+) drawn\)", part)
        times = int(re.match(r"(\d+) times", part)[1])
        rows = part.partition(" in row")[2].lstrip("s ")
        for number in numbers(rows) if rows else [None]:
            found[number] = (int(drawn[2]) if drawn else None, times)
    return found


def numbers(words):
    if "…" in words:
        first, second, last = map(int, re.findall(r"\d+", words))
        return range(first, last + 1, second - first)
    pairs = [tuple(map(int, part.split("–"))) for part in words.split(", ")]
    return [n for p in pairs for n in range(p[0], p[-1] + 1)]


def check_bracket(fabric, setting, repeat=None):
    view = view_of(fabric, setting, repeat)
    if view.stitch_bracket is None or not re.search(r"(?::|, drawn) \d+ times", view.stitch_bracket.says):
        return 0
    if " to " in view.stitch_bracket.says:
        return 1
    said, checked = told(view.stitch_bracket.says), 0
    for course in view.laid.courses:
        row = course.worked.row
        here = said.get(course.worked.number, said.get(None) if row.repeat else None)
        if here is None or row.repeat is None:
            continue
        first, items, times = row.repeat
        kinds = [(s.kind, s.role, s.chains) for s in row.stitches]
        assert kinds[first : first + items * times] == kinds[first : first + items] * times
        if None not in said:
            assert here[1] == times
        drawn = sum(1 for s in course.laid.spots if first <= s.item < first + items * times)
        if here[0] is not None and course.worked.number in said:
            assert here[0] * items == drawn
        checked += 1
    return checked


@pytest.mark.parametrize("name", WIDE)
@pytest.mark.parametrize("extent", ["repeat", "full"])
def test_a_bracket_says_how_often_each_row_works_the_repeat(name, extent):
    check_bracket(WIDE[name], Setting(extent=extent), 4 if name == "sc" else None)


FLAT = ["shells", "trellis", "mesh", "bobbles", "clusters", "crossed", "basketweave", "spikes", "mosaic", "puffs"]


@pytest.mark.parametrize("name", FLAT)
def test_the_brackets_of_the_fabrics_are_true(name):
    worked = work_text((FABRICS / f"{name}.txt").read_text("utf-8"))
    for extent in ("repeat", "full"):
        check_bracket(worked.fabric, Setting(extent=extent))


def test_shells_and_trellis_by_their_rows():
    """The fabrics' own texts: "rep from * across" of 25 and 21 stitches."""
    said = {}
    for name in ("shells", "trellis"):
        worked = work_text((FABRICS / f"{name}.txt").read_text("utf-8"))
        said[name] = told(view_of(worked.fabric, Setting()).stitch_bracket.says)
        for row in worked.fabric.rows:
            if row.number in said[name]:
                assert said[name][row.number][1] == row.row.repeat[2]
    assert said["shells"][1][1] == 4 and said["trellis"][1][1] == 5


@pytest.mark.parametrize(("stitches", "rows"), [(61, 120), (90, 100), (100, 30)])
@pytest.mark.parametrize("room", [(35.0, 50.0), (47.3, 61.9)])
def test_parts_are_few_and_even(stitches, rows, room):
    laid = lay_fabric(cloth.each("sc", stitches, rows, 1, False))
    tiles = tiles_of(laid, room, starts_right=True)
    columns, lines = max(t.column for t in tiles) + 1, max(t.line for t in tiles) + 1
    wide = laid.x_range()[1] - laid.x_range()[0] + 1.0
    assert columns == -(-(wide - 1.0) // (int(room[0]) - 1))
    widths = [t.window.right - t.window.left for t in tiles]
    heights = [t.window.last - t.window.first for t in tiles]
    assert max(widths) <= room[0] and max(widths) - min(widths) <= columns
    assert max(heights) - min(heights) <= max(2, lines) and len(tiles) == columns * lines


def test_a_part_has_only_the_rows_that_are_on_it():
    laid = lay_fabric(cloth.triangle(4, 60, 1))
    tiles = tiles_of(laid, (30.0, 300.0), starts_right=True)
    for tile in tiles:
        for end in (tile.window.first, tile.window.last - 1):
            assert any(tile.window.holds(s.head[0]) for s in laid.courses[end].laid.spots)
    assert {t.window.first for t in tiles} > {0}


def test_numbers_stand_beside_the_slope_on_every_sheet():
    document = chart(cloth.triangle(4, 60, 1), extent="full")
    for page in (*document.sheets[1:], document.whole):
        sheet = svg_ruler.read(write(page))
        assert svg_ruler.outside(sheet) == [] and svg_ruler.overlaps(sheet) == []
        assert svg_ruler.text_over_glyphs(sheet) == []


@pytest.mark.parametrize("hand", ["right", "left"])
def test_rulers_count_stitches_as_the_name_of_the_part_does(hand):
    seen = set()
    for sheet in chart(cloth.each("sc", 90, 70, 1, False), extent="full", hand=hand).sheets[1:]:
        ruler = next(item for item in sheet.items if getattr(item, "name", "") == "rulers")
        texts = [item for item in ruler.items if hasattr(item, "text")]
        below = {int(t.text) for t in texts if t.y == max(other.y for other in texts)}
        first, last = map(int, re.search(r"stitches (\d+) to (\d+)", sheet.desc).groups())
        assert below == {n for n in range(first, last + 1) if n % 10 == 0}
        seen |= below
    assert seen == set(range(10, 91, 10))


def test_the_first_sheet_shows_the_whole_with_the_names_of_the_parts():
    document = chart(cloth.each("sc", 90, 70, 1, False), extent="full")
    first = write(document.sheets[0]).decode()
    names = re.findall(r'aria-label="([A-Z]\d)"', first)
    assert len(names) == len(document.sheets) - 1 and 'id="overview"' in first


def test_more_than_can_be_drawn_is_told_before_it_is_drawn():
    with pytest.raises(TooMuchToDraw, match=f"{MOST_ACROSS:,}"):
        chart(cloth.each("sc", MOST_ACROSS + 1, 2, 1, False))
    with pytest.raises(TooMuchToDraw, match="--extent repeat"):
        chart(cloth.each("sc", 600, 500, 1, False), extent="full")
    assert chart(cloth.each("sc", 600, 500, 1, False)).sheets


def test_yarn_and_pages_keep_the_same_limit_as_charts():
    """The fabric was drawn, and a page's words written, however wide the rows were: gigabytes for 20,000 stitches."""
    from hookfold.charts.output.pages.followed import followed_text
    from hookfold.charts.picture.round_cloth import cloth_of

    text = f"Over {MOST_ACROSS + 10} sc.\nRow 1: Ch 1, turn. Sc in each st across.\n"
    with pytest.raises(TooMuchToDraw, match=f"{MOST_ACROSS:,}"):
        cloth_of(work_text(text).fabric)
    with pytest.raises(TooMuchToDraw, match=f"{MOST_ACROSS:,}"):
        followed_text(text, "wide.txt", Setting())
