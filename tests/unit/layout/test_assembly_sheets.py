"""The folding sheets: nothing touches or leaves the page, the numbers are the border's own, text is never
mirrored.
"""

import itertools
import re

import folding_plans as plans
import pytest
from hookfold.charts.drawing.display import Text
from hookfold.charts.drawing.svg import write
from hookfold.charts.folding.border import border_plan
from hookfold.charts.folding.finishing import finishing_of, finishing_steps
from hookfold.charts.folding.folds import folding_of
from hookfold.charts.layout.assembly.flat import spread
from hookfold.charts.layout.assembly.sheets import assembly_document
from hookfold.charts.layout.sheets.marks import tiers
from hookfold.charts.layout.sheets.panel import SCALES, scale_for
from hookfold.charts.pattern.file.kinds import OBJECT_KINDS
from hookfold.charts.setting import Heading, Setting
from sheet_boxes import colliding, crossed, flat, outside, words_on

HEAD = Heading(
    "Field-book cover", "Ada Loom", "CC BY 4.0", "250 x 385 mm", "17 sts and 14 rows = 10 cm", "4 mm", "US"
)
#: Lines that no word may stand on (rows and hatching lie under a word's own ground).
LINES = {"dimension", "border", "arrow", "edges in view", "hidden edges", "layers", "second layer", "places", "edge",
         "what meets", "right side", "fold line", "fold 1", "fold 2", "fold 3", "fold 4"}  # fmt: skip
WAYS = [
    (name, paper, hand, unit)
    for name in plans.ALL
    for paper, hand, unit in (("A4", "right", "mm"), ("Letter", "left", "in"))
]


def document(name, paper="A4", hand="right", unit="mm", **more):
    import dataclasses

    plan = dataclasses.replace(plans.ALL[name](), unit=unit)
    return assembly_document(plan, HEAD, Setting(paper=paper, hand=hand, unit=unit, **more))


@pytest.mark.parametrize(("name", "paper", "hand", "unit"), WAYS)
def test_no_words_touch_and_nothing_leaves_the_page(name, paper, hand, unit):
    for sheet in document(name, paper, hand, unit).sheets:
        assert colliding(sheet) == []
        assert outside(sheet) == []
        assert crossed(sheet, LINES, 0.15) == []


@pytest.mark.parametrize("name", sorted(plans.ALL))
def test_steps_are_numbered_through_and_every_sheet_says_which_it_is(name):
    made = document(name)
    titles = [g.title for s in made.sheets for g in s.items if getattr(g, "title", "").startswith("Step")]
    plan = plans.ALL[name]()
    steps = finishing_of(plan, None if OBJECT_KINDS[plan.kind].rounds else border_plan(plan))
    drawn = [str(n) for n, step in enumerate(steps, 1) if step.drawn]
    assert [re.match(r"Step (\d+):", t)[1] for t in titles] == drawn, "the words' own numbers"
    for k, sheet in enumerate(made.sheets, 1):
        assert any(w.text == f"Sheet {k} of {len(made.sheets)}" for w in words_on(sheet))
        assert write(sheet).startswith(b"<?xml")


@pytest.mark.parametrize("name", sorted(n for n, make in plans.ALL.items() if not OBJECT_KINDS[make().kind].rounds))
def test_the_counts_drawn_are_those_of_the_border(name):
    border = border_plan(plans.ALL[name]())
    drawn = [w.text for s in document(name).sheets for w in words_on(s)]
    for stretch in border.stretches:
        assert str(stretch.count) in drawn
    assert any(f"= {border.total} sc" in text for text in drawn)


def test_the_words_and_the_drawing_give_the_same_sums():
    border = border_plan(plans.book())
    said = " ".join(finishing_steps(plans.book(), border))
    assert "61 + 3 + 39 + 3 + 61 + 3 + 39 + 3 = 212 sc" in said
    assert "61 + 3 + 39 + 3 + 61 + 3 + 39 + 3 = 212 sc" in " ".join(
        w.text for s in document("book").sheets for w in words_on(s)
    )


def test_uk_terms_reach_the_drawing():
    drawn = " ".join(w.text for s in document("book", terms="UK").sheets for w in words_on(s))
    assert "= 212 dc" in drawn and "join with a ss" in drawn and not re.search(r"\bsc\b", drawn)


def test_a_left_handers_sheets_turn_the_border_and_not_the_words():
    right, left = (document("book", hand=h) for h in ("right", "left"))
    said = [" ".join(w.text for s in d.sheets for w in words_on(s)) for d in (right, left)]
    assert "top right corner" in said[0] and "right to left" in said[0]
    assert "top left corner" in said[1] and "left to right" in said[1]
    angles = {t.angle for s in left.sheets for t in flat(s.items) if isinstance(t, Text)}
    assert angles <= {0.0, -90.0}


def test_inches_are_inches():
    drawn = [w.text for s in document("book", unit="in").sheets for w in words_on(s)]
    assert "20 1/4 in" in drawn and not any(re.fullmatch(r"\d\d+ mm", t) for t in drawn)


def test_any_number_of_folds_has_a_panel_each():
    from hookfold.charts.pattern.file.records import Fold

    folds = tuple(Fold((f"0 mm, {60 * k} mm", f"200 mm, {60 * k} mm"), "right", "over") for k in (1, 2, 3, 4))
    plan = plans.plan_of(
        "panel", [("mat", ["sc"] * 70, 5.0)], 36, 5.5, {"height": 350.0, "width": 198.0}, "width"
    )
    folding = folding_of(plan, folds=folds)
    made = assembly_document(plan, HEAD, Setting(), folding=folding)
    titles = [g.title for s in made.sheets for g in s.items if getattr(g, "title", "").startswith("Step")]
    assert sum("Fold the cloth" in t for t in titles) == 4
    for sheet in made.sheets:
        assert colliding(sheet) == [] and outside(sheet) == []


def test_a_piece_without_a_border_is_sewn():
    steps = finishing_steps(plans.book(), None)
    assert any("sew them through both layers" in s for s in steps)
    drawn = assembly_document(plans.book(), HEAD, Setting(), bordered=False)
    assert not any("Border: with" in w.text for s in drawn.sheets for w in words_on(s))


def test_the_same_plan_gives_the_same_bytes():
    assert [write(s) for s in document("strap book").sheets] == [
        write(s) for s in document("strap book").sheets
    ]


def test_tiers_and_spreading():
    assert tiers([(0, 10), (8, 12), (11.5, 20)]) == [0, 1, 0]
    assert tiers([(0, 10), (20, 30)], least=[1, 0]) == [1, 0]
    assert spread([1.0, 1.0, 1.0], 4.0) == [-3.0, 1.0, 5.0]
    placed = spread([0.0, 1.0, 9.0, 9.5], 3.0)
    assert all(b - a >= 3.0 - 1e-9 for a, b in itertools.pairwise(placed))


def test_scales_are_round_numbers_and_fit():
    for width in (60.0, 333.0, 514.0, 1512.0):
        scale = scale_for(width, width / 2, 150.0, 90.0)
        assert scale in SCALES and width / scale <= 150.0


@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("name", sorted(plans.ALL))
def test_no_page_holds_one_small_drawing_alone_that_could_stand_on_its_neighbours(name, paper):
    """Pages in a row that are less than full together are one page; what stands alone on its line has all of it."""
    from hookfold.charts.drawing.style import style
    from hookfold.charts.layout.assembly import sheets
    from hookfold.charts.layout.sheets.page import page
    from hookfold.charts.layout.sheets.panel import height_of

    laid = []
    made = sheets._pages
    frame = page(HEAD, Setting(paper=paper), name="x")

    def noted(*asked):
        laid.append(made(*asked))
        return laid[-1]

    sheets._pages = noted
    try:
        document(name, paper)
    finally:
        sheets._pages = made
    pages = min((found for found in laid[:2]), key=len)
    for placed in pages:
        levels = [y for _, _, y, _ in placed]
        assert all(wide == frame.content_width for _, _, y, wide in placed if levels.count(y) == 1)
    full = [max(y + height_of(p, w, style()) for p, _, y, w in placed) for placed in pages]
    assert all(a + b > frame.content_height for a, b in itertools.pairwise(full))


def test_a_flap_that_is_not_yet_folded_has_its_own_name_and_fold_line():
    made = document("pouch")
    for step in ("2", "3", "4"):
        (panel,) = (g for s in made.sheets for g in s.items if getattr(g, "name", "") == f"step {step}")
        said = [w.text for w in words_in(panel)]
        assert "flap" in said and said.count("back") <= 1 + (step == "3"), step
        assert any(getattr(i, "name", "") == "fold to come" for i in every_item(panel)), step


def every_item(group):
    for item in group.items:
        yield item
        if hasattr(item, "items"):
            yield from every_item(item)


def words_in(group):
    return [item for item in every_item(group) if hasattr(item, "text")]


def test_a_part_too_narrow_for_its_name_has_it_and_its_width_over_it():
    """5 sts at 18 to 4 in are 1.11 in: 1 1/8 in; nothing of it lies on the cloth or on other words."""
    from hookfold.charts import engrave
    from hookfold.charts.output.drawn import piece_assembly
    from hookfold.charts.output.start import Start, starter

    asked = {"height": "8 1/4 in", "wrap": "13 1/2 in", "flap": "2 1/2 in", "thickness": "1/2 in", "strap": "5 in"}
    piece = engrave.work_file(starter(Start("book with strap", "Book", asked, 18, 20, "4 in", stitch="close")), "book.toml")
    sheet = piece_assembly(piece, engrave.Setting()).sheets[0]
    strap = piece.plan.sections[-1]
    said = [i.text for i in flat(sheet.items) if isinstance(i, Text)]
    assert f"rows {strap.first_row}–{strap.first_row + strap.rows - 1}" in said and "1 1/8 in wide" in said
    assert not colliding(sheet)


def test_the_columns_of_the_key_have_their_own_widths():
    """186 mm hold three columns of 12 signs, four lines of 6 mm, where the longest words stand in one of them alone."""
    from hookfold.charts.drawing.style import style
    from hookfold.charts.layout.assembly.key import key_picture

    picture = key_picture(style(), 186.0, {"always", "rows", "over", "layers", "wrong side", "border"})
    assert picture.height == pytest.approx(4 * 6.0)
    words = [item for item in flat(picture.draw(0.0, 0.0)) if isinstance(item, Text)]
    assert len(words) == 12 and len({round(text.x, 2) for text in words}) == 3
