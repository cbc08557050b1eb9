"""What meets what, row end for row end and stitch for stitch."""

import folding_plans as plans
import pytest
from hookfold.charts.folding.edges import intervals
from hookfold.charts.folding.finishing import join_sentence
from hookfold.charts.folding.folds import folding_of
from hookfold.charts.folding.joins import joins_of, paired


def named(plan, part):
    return next(j for j in joins_of(folding_of(plan)) if any(r.part == part for r in j.runs))


def test_a_stretch_of_one_row_is_that_row_and_one_without_a_middle_is_none():
    piece = folding_of(plans.book()).piece
    low = [piece.height_mm - edge for edge in piece.row_edges_mm]
    for row in (1, 2, 40, 72):
        assert piece.row_range(low[row - 1], low[row]) == (row, row)
    assert piece.row_range(low[9], low[12]) == (10, 12) and piece.row_range(low[12], low[9]) == (12, 10)
    assert piece.row_range(low[9], low[9] + 0.1 * (low[10] - low[9])) == (0, 0)


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
        "Row ends 1–9 of the front flap lie on row ends 10–18 of the body at both edges: "
        "row 9 meets 10, 1 meets 18."
    )


def test_rows_of_two_heights_meet_by_length():
    """Five rows of 12.8 mm on nine of 7.0: what meets is worked out here from the two heights alone."""
    tall = [("front flap", ["dc"] * 5, 12.8), ("body", ["sc"] * 54, 7.0), ("back flap", ["dc"] * 5, 12.8)]
    plan = plans.plan_of(
        "book", tall, 42, 6.0, {"height": 250.0, "wrap": 378.0, "flap": 64.0}, "height", joins=True
    )
    join = named(plan, "front flap")
    by_hand = {(6 + k, 5 - int((k + 0.5) * 7.0 / 12.8)) for k in range(9)}
    assert {tuple(sorted(pair, reverse=True)) for pair in join.pairs} == by_hand
    said = join_sentence(join)
    assert "Ease" not in said and "row 5 meets 6 and 7, 4 meets 8 and 9, 2 meets 11 and 12, 1 meets 13 and 14" in said


def test_rows_that_alternate_meet_by_length_and_not_by_count():
    """A flap of five rows of 12 mm on rows of 4 and 10 mm in turn; its row next to the fold meets rows 6, 7 and no more."""
    heights = [4.0 if k % 2 == 0 else 10.0 for k in range(54)]
    rows = [("front flap", ["dc"] * 5, 12.0), ("body", ["sc"] * 54, heights), ("back flap", ["dc"] * 5, 12.0)]
    plan = plans.plan_of("book", rows, 42, 6.0, {"height": 250.0, "wrap": 378.0, "flap": 60.0}, "height", joins=True)
    join = named(plan, "front flap")
    middle, met = 0.0, {}
    for k, mm in enumerate(heights[:9]):
        met.setdefault(5 - int((middle + mm / 2) / 12.0), []).append(6 + k)
        middle += mm
    found = {}
    for a, b in sorted(join.pairs):
        found.setdefault(min(a, b), []).append(max(a, b))
    assert found == met


def test_pairing_takes_the_nearest_of_the_shorter_run():
    join = named(plans.book(), "front flap")
    short, long = join.runs[1], join.runs[0]
    met = paired(folding_of(plans.book()).piece, long, short)
    assert len(met) == long.count and {b for _, b in met} == set(range(1, 10))


@pytest.mark.parametrize("name", sorted(plans.ALL))
@pytest.mark.parametrize("clockwise", [True, False])
def test_the_outline_is_walked_once_round(name, clockwise):
    folding = folding_of(plans.ALL[name]())
    found = intervals(folding.piece, folding.joined_stack, clockwise=clockwise)
    assert sum(i.length_mm for i in found) == pytest.approx(folding.joined_stack.silhouette.length, abs=0.01)
    for here, following in zip(found, [*found[1:], found[0]], strict=True):
        assert here.end == pytest.approx(following.start, abs=0.01)
        assert here.runs, "something lies at every stretch"
