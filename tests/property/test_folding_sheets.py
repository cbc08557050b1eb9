"""Sheets of random pieces: whatever folds is drawn without a word touching another, a line or the margin."""

import folding_plans as plans
from conftest import some
from hookfold.charts.drawing.svg import write
from hookfold.charts.errors import PatternError
from hookfold.charts.folding.border import border_plan
from hookfold.charts.folding.finishing import finishing_steps
from hookfold.charts.folding.folds import folding_of
from hookfold.charts.layout.assembly.sheets import assembly_document
from hookfold.charts.layout.assembly.template import template_document
from hookfold.charts.setting import Heading, Setting
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st
from sheet_boxes import colliding, crossed, outside

NAMES = {
    "book": ("front flap", "body", "back flap"), "pouch": ("front", "back", "flap"), "panel": ("mat",),
    "cushion": ("lower back", "front", "upper back"), "pocket panel": ("first", "middle", "last"),
}  # fmt: skip
SHARES = {"book": (1, 5, 1), "pouch": (2, 2, 1), "panel": (1,), "cushion": (2, 3, 2), "pocket panel": (1, 6, 1)}
LINES = {"dimension", "border", "arrow", "edges in view", "hidden edges", "fold line", "edge", "cut line", "join mark"}


@st.composite
def pieces(draw):
    """A plan of any kind whose parts are in sensible proportion, of any size, stitch and gauge."""
    kind = draw(st.sampled_from(sorted(NAMES)))
    unit = draw(st.integers(4, 14))
    row, per = draw(st.floats(4, 12)), draw(st.floats(4, 8))
    stitch = draw(st.sampled_from(["sc", "hdc", "dc", "bobble"]))
    sections = [(n, [stitch] * (unit * k), row) for n, k in zip(NAMES[kind], SHARES[kind], strict=True)]
    gauge = draw(st.one_of(st.none(), st.floats(4, 8)))
    edge = {"border_stitch_mm": gauge, "border_row_mm": gauge, "joins": draw(st.booleans())}
    thing = {"height": 200.0, "width": 150.0, "flap": 60.0}
    along = "height" if kind == "book" else "width"
    measure = {"height": 200.0, "wrap": 300.0, "flap": 60.0} if kind == "book" else thing
    show = draw(st.sampled_from(["mm", "cm", "in"]))
    return plans.plan_of(kind, sections, draw(st.integers(14, 70)), per, measure, along, show, **edge)


@settings(max_examples=some(20), suppress_health_check=[HealthCheck.too_slow])
@given(pieces(), st.sampled_from(["right", "left"]), st.sampled_from(["A4", "Letter"]))
def test_what_folds_is_drawn_cleanly(plan, hand, paper):
    try:
        folding = folding_of(plan, hand=hand)
    except PatternError:
        assume(False)
    border = border_plan(plan, hand=hand, folding=folding)
    assert finishing_steps(plan, border, folding=folding)
    setting = Setting(paper=paper, hand=hand, unit=plan.unit)
    made = assembly_document(plan, Heading("Cover"), setting, folding=folding, border=border)
    cut = template_document(plan, Heading("Cover"), paper, plan.unit, folding=folding)
    for sheet in (*made.sheets, *cut.sheets):
        assert colliding(sheet, 0.2) == []
        assert outside(sheet) == []
        assert crossed(sheet, LINES, 0.1) == []
    assert write(made.sheets[0]) and write(cut.sheets[0])
