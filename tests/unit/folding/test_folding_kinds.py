"""Kinds as tables: every kind folds its sample plan, with the parts, folds and joins that its table says."""

import folding_plans as plans
import pytest
from hookfold.charts.errors import PatternError
from hookfold.charts.folding.border import border_plan
from hookfold.charts.folding.folds import folding_of
from hookfold.charts.folding.joins import joins_of
from hookfold.charts.folding.kinds import kind_of, kinds
from hookfold.charts.pattern.file.kinds import OBJECT_KINDS


@pytest.mark.parametrize("name", sorted(kinds()))
def test_every_kind_is_sound(name):
    kind = kinds()[name]
    roles = [p.role for p in kind.parts]
    assert sum(p.take == "rest" for p in kind.parts) == 1
    assert kind.joined <= len(kind.folds)
    for fold in kind.folds:
        assert fold.moves in fold.at and set(fold.at) <= set(roles) and fold.direction in ("over", "under")
    assert {c.part for c in kind.covers} | {c.on for c in kind.covers} <= set(roles)
    assert any(p.kind == name for p in (make() for make in plans.ALL.values())), "no sample plan of this kind"


def test_an_unknown_kind_names_the_known_ones():
    with pytest.raises(PatternError) as found:
        kind_of("teapot")
    assert "book" in found.value.problems[0].remedy


@pytest.mark.parametrize("name", sorted(plans.ALL))
def test_every_sample_folds(name):
    plan = plans.ALL[name]()
    folding = folding_of(plan)
    assert sum(p.length_mm for p in folding.piece.parts) == pytest.approx(
        folding.piece.height_mm if folding.piece.axis == "rows" else folding.piece.width_mm
    )
    assert len(folding.stages) == len(folding.kind.folds)


def test_a_book_folds_right_side_out_with_both_flaps_on_one_layer():
    folding = folding_of(plans.book())
    assert folding.end.layers == (0, 1, 1)
    assert [f.side_up for f in folding.end.facets] == ["WS", "RS", "RS"]
    assert [f.part for f in folding.end.facets] == ["body", "front flap", "back flap"]
    left, _, right, _ = folding.end.silhouette.bounds
    assert right - left == pytest.approx(54 * plans.ROW_MM)


def test_a_wrapped_book_has_its_front_flap_in_the_first_stitches_for_either_hand():
    right, left = (folding_of(plans.wrapped_book(), hand=h).piece for h in ("right", "left"))
    assert (right.part("front flap").first, right.part("front flap").last) == (1, 11)
    assert (left.part("front flap").first, left.part("front flap").last) == (78, 88)
    assert right.part("front flap").lo_mm == left.part("front flap").lo_mm > right.part("body").lo_mm


def test_flap_stitches_that_sizing_settled_are_kept():
    piece = folding_of(plans.wrapped_book(flap_stitches=13)).piece
    assert piece.part("front flap").count == piece.part("back flap").count == 13


def test_a_pouch_without_a_flap_has_one_fold():
    sections = [("front", ["sc"] * 24, 5.0), ("back", ["sc"] * 24, 5.0)]
    folding = folding_of(
        plans.plan_of("pouch", sections, 40, 5.5, {"height": 120.0, "width": 200.0}, "width")
    )
    assert [p.role for p in folding.piece.parts] == ["front", "back"]
    assert len(folding.stages) == folding.joined == 1


def test_a_pouch_in_one_section_is_cut_by_the_objects_measures():
    one = plans.plan_of(
        "pouch",
        [("all", ["sc"] * 60, 5.0)],
        40,
        5.5,
        {"height": 120.0, "width": 200.0, "flap": 60.0},
        "width",
    )
    parts = folding_of(one).piece.parts
    assert [(p.first, p.last) for p in parts] == [(1, 24), (25, 48), (49, 60)]


def test_a_pouch_with_its_chain_up_the_strip_folds_along_stitches():
    one = plans.plan_of(
        "pouch",
        [("all", ["sc"] * 40, 5.0)],
        60,
        5.0,
        {"height": 120.0, "width": 200.0, "flap": 60.0},
        "height",
    )
    folding = folding_of(one)
    assert folding.piece.axis == "stitches"
    front = next(f for f in folding.after(1).facets if f.part == "front")
    left, top, right, bottom = front.shape.bounds
    assert (right - left, bottom - top) == pytest.approx((200, 120)), "the front lies across, not on end"
    assert bottom == pytest.approx(folding.after(1).silhouette.bounds[3]), "it is folded up from the foot"


def test_a_cushion_has_three_layers_where_its_backs_overlap():
    folding = folding_of(plans.cushion())
    assert folding.end.layers == (0, 1, 2)
    assert max(len(j.runs) for j in joins_of(folding)) == 3


def test_sections_of_one_name_are_told_apart_by_their_roles():
    names = [p.name for p in folding_of(plans.pocket_panel()).piece.parts]
    assert names == ["first pocket", "scarf", "second pocket"]


def test_a_strap_stands_out_beyond_the_cover():
    folding = folding_of(plans.strap_book())
    assert folding.end.layers == (0, 1, 1, 2)
    body = next(f for f in folding.end.facets if f.part == "body").shape.bounds
    reach = folding.end.silhouette.bounds[2] - body[2]
    assert reach == pytest.approx(
        folding.piece.part("strap").length_mm - folding.piece.part("back flap").length_mm
    )
    inner = [c for c in border_plan(plans.strap_book()).corners if c.inner]
    assert len(inner) == 2 and all(c.count == 1 for c in inner)


def test_every_kind_that_a_pattern_may_name_can_be_folded():
    assert set(OBJECT_KINDS) <= set(kinds())
