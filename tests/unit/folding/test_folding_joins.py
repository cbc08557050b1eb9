"""What meets what, row end for row end and stitch for stitch."""

import folding_plans as plans
import pytest
from hookfold.charts.folding.edges import intervals
from hookfold.charts.folding.finishing import join_sentence
from hookfold.charts.folding.folds import folding_of
from hookfold.charts.folding.joins import eased, joins_of, paired


def named(plan, part):
    return next(j for j in joins_of(folding_of(plan)) if any(r.part == part for r in j.runs))


def test_the_flap_of_a_book_lies_on_the_rows_next_to_it():
    join = named(plans.book(), "front flap")
    assert {r.part: r.numbers for r in join.runs} == {"body": (10, 18), "front flap": (1, 9)}
    assert set(join.pairs) == {(10 + k, 9 - k) for k in range(9)}
    assert join.places == 2


def test_the_flap_of_a_wrapped_book_lies_on_the_stitches_next_to_it():
    join = named(plans.wrapped_book(), "back flap")
    assert {r.part: r.numbers for r in join.runs} == {"body": (67, 77), "back flap": (78, 88)}
    assert (77, 78) in join.pairs and (67, 88) in join.pairs


def test_a_pouch_meets_row_for_row_from_its_fold():
    join = named(plans.pouch(), "front")
    assert (25, 24) in join.pairs and (48, 1) in join.pairs and len(join.pairs) == 24


def test_the_joining_sentence_gives_both_runs_and_both_ends():
    said = join_sentence(named(plans.book(), "front flap"))
    assert said == (
        "Row ends 1–9 of the front flap lie on row ends 10–18 of the body: "
        "row 9 meets 10, 1 meets 18, at both edges."
    )


def test_runs_of_unequal_count_are_eased_and_said():
    tall = [("front flap", ["dc"] * 5, 12.8), ("body", ["sc"] * 54, 7.0), ("back flap", ["dc"] * 5, 12.8)]
    plan = plans.plan_of(
        "book", tall, 42, 6.0, {"height": 250.0, "wrap": 378.0, "flap": 64.0}, "height", joins=True
    )
    join = named(plan, "front flap")
    assert eased(join) == 4
    assert [a for a, _ in join.pairs] == list(range(6, 15)) or [a for a, _ in join.pairs] == list(
        range(14, 5, -1)
    )
    assert "Ease in 4" in join_sentence(join)


def test_pairing_takes_the_nearest_of_the_shorter_run():
    join = named(plans.book(), "front flap")
    short, long = join.runs[1], join.runs[0]
    assert len(paired(long, short)) == long.count
    assert {b for _, b in paired(long, short)} == set(range(1, 10))


@pytest.mark.parametrize("name", sorted(plans.ALL))
@pytest.mark.parametrize("clockwise", [True, False])
def test_the_outline_is_walked_once_round(name, clockwise):
    folding = folding_of(plans.ALL[name]())
    found = intervals(folding.piece, folding.joined_stack, clockwise=clockwise)
    assert sum(i.length_mm for i in found) == pytest.approx(folding.joined_stack.silhouette.length, abs=0.01)
    for here, following in zip(found, [*found[1:], found[0]], strict=True):
        assert here.end == pytest.approx(following.start, abs=0.01)
        assert here.runs, "something lies at every stretch"
