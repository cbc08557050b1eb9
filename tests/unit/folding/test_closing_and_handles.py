"""How a piece is closed, what is worked apart and sewn on, and how many are made alike: counts by hand."""

import math
import re
from dataclasses import replace

import folding_plans as plans
import pytest
from hookfold.charts import engrave
from hookfold.charts.folding.border import border_plan
from hookfold.charts.folding.finishing import finishing_of
from hookfold.charts.model.sizing.yarn import yarn_report
from hookfold.charts.output.start import Start, starter
from hookfold.charts.pattern.file.kinds import OBJECT_KINDS
from hookfold.charts.pattern.file.read import read_pattern
from hookfold.charts.setting import Setting

BAG = Start("open bag", "Bag", {"width": "36 cm", "height": "38 cm", "handle": "56 cm"}, 16, 18, stitch="close")
BOOK = Start("book with strap", "Book", {"height": "21 cm", "wrap": "30 cm", "flap": "6 cm", "thickness": "2 cm",
                                         "strap": "13 cm"}, 20, 22, stitch="close")  # fmt: skip


def words(start):
    return engrave.instructions(starter(start), "piece.toml", Setting())


def notes(start):
    return [note.says for note in engrave.check(starter(start), "piece.toml").notes]


def test_a_bags_handles_are_worked_in_its_own_pattern():
    """56 cm and two rows sewn down at each end, 10/18 cm high: 58.2 cm at 16 sts to 10 cm are 93; 30 mm are 5 rows."""
    said = words(BAG)
    stitches = round((56 + 2 * 2 * 10 / 18) * 16 / 10)
    rows = round(3.0 / (10 / 18))
    assert (stitches, rows) == (93, 5)
    assert f"ch {stitches + 1}. Row 1: Sc in 2nd ch from hook and in each ch across ({stitches} sts)" in said
    assert f"Rows 2–{rows}:" in said and "hookfold" not in said


def test_the_yarn_of_the_handles_is_in_it():
    """Two handles of 93 x 5 stitches in a bag of 58 x (2 x 68) or so: 6 % more, and four ends."""
    with_handles, without = (engrave.work_file(starter(start), "bag.toml") for start in
                             (BAG, Start("open bag", "Bag", {"width": "36 cm", "height": "38 cm"}, 16, 18, stitch="close")))  # fmt: skip
    (more,), (less,) = (yarn_report(p.plan, p.pattern).needs for p in (with_handles, without))
    stitch_mm, row_mm = 100 / 16, 100 / 18
    area = 2 * 93 * 5 * stitch_mm * row_mm
    thick = math.sqrt(stitch_mm * row_mm / 0.9)  # sc rows are usually 0.9 of a stitch high
    assert more.metres - less.metres == pytest.approx(area * 8 / thick / 1000 + 4 * 0.15, rel=0.01)
    assert more.ends - less.ends == 4


def test_handles_say_in_which_colour_they_are_worked():
    """In that of the border; of one yarn nothing is said."""
    striped = replace(BAG, colours=("fern", "rose"))
    assert re.search(r"so that they are firm: with A, ch \d+\.", words(striped))
    edged = starter(striped).replace("joins  = true", 'joins  = true\ncolour = "B"')
    assert re.search(r"so that they are firm: with B, ch \d+\.", engrave.instructions(edged, "bag.toml", Setting()))
    assert "The yarn of the handles is in that of B." in engrave.yarn(edged, "bag.toml")
    assert re.search(r"so that they are firm: ch \d+\.", words(BAG))


def test_in_taller_stitches_handles_are_still_of_sc():
    """Rows of dc, 20 mm high, sewn two deep: (560 + 80) / 10 = 64 sts; sc rows of 0.9 x 10 mm: 30 / 9 = 3."""
    plan = plans.plan_of("open bag", [("front", ["dc"] * 20, 20.0), ("back", ["dc"] * 20, 20.0)], 36, 10.0,
                         {"width": 360.0, "height": 400.0, "handle": 560.0}, "width", joins=True)  # fmt: skip
    said = " ".join(step.says for step in finishing_of(plan, border_plan(plan)))
    assert "ch 65." in said and "Rows 2–3:" in said


def test_the_strap_says_how_far_it_reaches():
    """13 cm less a flap of 6 and 2 of book leaves 5 on the front, to a row (4.5 mm)."""
    (said,) = [note for note in notes(BOOK) if "onto the front" in note]
    assert abs(float(re.search(r"reaches ([\d.]+) cm onto", said)[1]) - 5.0) <= 0.7
    short = Start(BOOK.kind, "Book", BOOK.measures | {"strap": "8.5 cm"}, 20, 22, stitch="close")
    assert any("too short to close" in note for note in notes(short))


def test_what_closes_is_sewn_on_after_the_thing_is_in_and_stands_among_what_is_needed():
    for start in (BOOK, Start("sleeve", "Sleeve", {"width": "17 cm", "height": "25 cm", "thickness": "8 mm",
                                                   "flap": "7 cm"}, 16, 18, stitch="close")):  # fmt: skip
        said = words(start)
        steps = [line for line in said.split("## Finishing")[1].splitlines() if re.match(r"\d+\. ", line)]
        assert "sew" in steps[-1].lower() and re.search(r"\d+ mm", read_pattern(starter(start)).notions)
        assert "not for babies" in said
    # A loop round a button of 20 mm, there and back, in chains as wide as a stitch (common practice, no source).
    assert f"ch {round(2 * 20 / (100 / 16))} (or as many" in said
    opened = Start("sleeve", "Sleeve", {"width": "17 cm", "height": "25 cm", "thickness": "8 mm"}, 16, 18, stitch="close")
    assert "button" not in words(opened) and not read_pattern(starter(opened)).notions


def test_drawn_steps_are_numbered_without_a_gap():
    """The steps that no drawing shows stand last, so the drawings' numbers follow each other."""
    for make in plans.ALL.values():
        plan = make()
        drawn = [bool(step.drawn) for step in finishing_of(plan, border_plan(plan) if plan.joins else None)]
        assert drawn == sorted(drawn, reverse=True)


def test_two_are_made_and_reckoned_where_a_pair_is_worn():
    one = Start("wrist warmer", "Wrist", {"around": "17 cm", "height": "9 cm"}, 18, 20, stitch="close")
    assert OBJECT_KINDS["wrist warmer"].make == 2
    assert "Make a second one in the same way; two are needed." in words(one)
    piece = engrave.work_file(starter(one), "wrist.toml")
    (need,) = yarn_report(piece.plan, piece.pattern).needs
    plan = piece.plan
    area = 2 * plan.stitches * plan.stitch_mm * sum(s.length_mm for s in plan.sections)
    thick = math.sqrt(plan.stitch_mm * (100 / 20) / 0.9)
    assert need.metres == pytest.approx(area * 8 / thick / 1000 + need.ends * 0.15, rel=0.01) and need.ends == 4
    assert "no opening for a thumb" in " ".join(notes(one))


def test_a_closed_tube_is_said_to_go_over_no_handle_and_a_band_does():
    tube = Start("mug cosy", "Mug", {"around": "25 cm", "height": "8 cm"}, 18, 20, stitch="close")
    assert any("goes over no handle" in note for note in notes(tube))
    band = Start("mug wrap", "Mug", {"around": "23 cm", "height": "8 cm"}, 18, 20, stitch="close")
    said = words(band)
    assert "button" in said and "Rnd" not in said and "through the handle" in said
    assert not any("no handle" in note for note in notes(band))
