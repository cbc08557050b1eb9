"""The finishing in words: read back, its numbers are the border's and the joins' own."""

import re

import folding_plans as plans
import pytest
from hookfold.charts.folding.border import border_plan
from hookfold.charts.folding.edgings import EDGINGS
from hookfold.charts.folding.finishing import finishing_of, finishing_steps, in_terms
from hookfold.charts.folding.folds import folding_of
from hookfold.charts.folding.kinds import kind_of
from hookfold.charts.folding.said.border_words import side_sentence


@pytest.mark.parametrize("name", sorted(plans.ALL))
@pytest.mark.parametrize("hand", ["right", "left"])
def test_the_sum_in_words_adds_up_to_the_total(name, hand):
    plan = plans.ALL[name]()
    border = border_plan(plan, hand=hand)
    said = " ".join(finishing_steps(plan, border, folding=folding_of(plan, hand=hand)))
    left, total = re.search(r"((?:\d+ \+ )+\d+) = (\d+) sc", said).groups()
    assert sum(map(int, left.split(" + "))) == int(total) == border.total


@pytest.mark.parametrize("name", sorted(plans.ALL))
def test_every_side_says_its_counts(name):
    border = border_plan(plans.ALL[name]())
    for side in range(max(s.side for s in border.stretches) + 1):
        said = side_sentence(border, side)
        for stretch in border.of_side(side):
            assert re.search(rf"\b{stretch.count}\b", said)


@pytest.mark.parametrize("name", sorted(n for n, make in plans.ALL.items() if kind_of(make().kind).folds))
def test_folds_come_before_joins_and_joins_before_the_border(name):
    steps = finishing_steps(plans.ALL[name](), border_plan(plans.ALL[name]()))
    fold = next(k for k, s in enumerate(steps) if s.startswith(("Fold", "Turn")))
    join = next(k for k, s in enumerate(steps) if " lie " in s)
    border = next(k for k, s in enumerate(steps) if s.startswith("Border"))
    assert fold < join < border


def test_easing_is_told_after_the_first_edge_and_before_the_others():
    steps = finishing_steps(plans.book(), border_plan(plans.book()))
    ease = next(k for k, s in enumerate(steps) if "if it ruffles" in s)
    top, left = (next(k for k, s in enumerate(steps) if s.startswith(f"{side} edge")) for side in ("Top", "Left"))
    assert top < ease < left


def test_every_doubling_of_unequal_edges_is_told():
    """Two rows of 8 mm of the flap lie on three of the body, twice over: both places where one row meets two."""
    rows = [("front flap", ["hdc"] * 8, 9.0), ("body", ["hdc", "sc"] * 24, 7.2), ("back flap", ["hdc"] * 8, 9.0)]
    plan = plans.plan_of("book", rows, 42, plans.STITCH_MM, {"height": 250.0, "wrap": 345.0, "flap": 72.0}, "height",
                         border_stitch_mm=6.0, border_row_mm=6.0, joins=True)  # fmt: skip
    said = next(s for s in finishing_steps(plan, border_plan(plan)) if "of the front flap lie on" in s)
    pairs = re.findall(r"(\d+) meets (\d+) and (\d+)", said)
    assert len(pairs) == 2 and all(int(c) == int(b) + 1 for _, b, c in pairs)


def test_a_step_and_its_drawing_have_one_name():
    drawn = [step.drawn for step in finishing_of(plans.pouch(), border_plan(plans.pouch()))]
    assert drawn == ["flat", "fold 0", "joins", "border", "fold 1", "object", ""], "closing it is drawn nowhere, so it is the last"


def test_a_pouch_closes_its_flap_last():
    steps = finishing_steps(plans.pouch(), border_plan(plans.pouch()))
    assert steps[-3] == "Turn the piece over, the front facing you. Fold the flap down over the front (14 rows, 70 mm)."
    assert steps[-2] == "To put the object in, open the flap, slide it in from the top, behind the front, and close the flap over it."


def test_rounds_and_edging_are_said_with_their_counts():
    border = border_plan(plans.panel(), rounds=2, edging="shell")
    said = " ".join(finishing_steps(plans.panel(), border))
    assert f"Border, round 2: sc in each st, 3 in one at each corner ({border.totals[1]} sts)." in said
    assert f"Edging, {border.totals[1] // 6} repeats of 6 sts" in said


@pytest.mark.parametrize("name", sorted(EDGINGS))
def test_uk_terms_leave_no_us_stitch_behind(name):
    border = border_plan(plans.panel(), edging=name)
    said = " ".join(finishing_steps(plans.panel(), border, terms="UK"))
    assert not re.search(r"\b(sc|hdc|sl st|sk)\b", said)
    assert re.search(r"\bdc all round\b", said)


def test_terms_are_swapped_once():
    assert in_terms("sc, hdc, dc, tr, sl st, sk 2", "UK") == "dc, htr, tr, dtr, ss, miss 2"
    assert in_terms("sc", "US") == "sc"
