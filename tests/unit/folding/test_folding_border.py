"""The border: counts, spacing in words, corners, rounds, edgings, easing."""

import re

import folding_plans as plans
import pytest
from hookfold.charts.errors import PatternError
from hookfold.charts.folding.border import border_plan
from hookfold.charts.folding.edge_rates import row_end_rate, spacing, spacing_by_kind
from hookfold.charts.folding.edgings import EDGINGS
from hookfold.charts.folding.finishing import border_steps


@pytest.mark.parametrize("name", sorted(plans.ALL))
def test_the_total_is_the_sum_of_its_stretches_and_corners(name):
    border = border_plan(plans.ALL[name]())
    assert (
        border.total
        == sum(s.count for s in border.stretches) + sum(c.count for c in border.corners)
        == border.totals[0]
    )


def test_a_side_is_rounded_as_a_whole_and_both_ends_alike():
    top = border_plan(plans.book()).of_side(0)
    assert [s.count for s in top] == [10, 41, 10]
    assert sum(s.count for s in top) + 1 == round(54 * plans.ROW_MM / plans.EDGE_MM), "one place is the corner's"
    assert [s.layers for s in top] == [2, 1, 2]


def test_without_a_gauge_the_row_ends_rule():
    border = border_plan(plans.pocket_panel())
    assert [s.count for s in border.of_side(0)] == [21, 168, 21], "hdc: 3 in every 2 rows"
    assert border.by == "row-end rule (common practice)"
    mixed = border_plan(plans.panel())
    side = next(s for s in mixed.stretches if s.facing.counts == "row ends")
    assert side.count == 12 * 2 + 12 and side.spacing == "2 in each dc row end, 1 in each sc row end"


def test_corners_take_a_stitch_of_the_side_that_has_stitches():
    border = border_plan(plans.panel())
    assert [s.count for s in border.stretches if s.facing.counts != "row ends"] == [38, 38]
    assert border.total == 2 * 36 + 2 * 40 + 8


def test_each_round_on_four_corners_grows_by_eight():
    assert border_plan(plans.panel(), rounds=3).totals == (160, 168, 176)


def test_hands_go_opposite_ways_from_mirrored_corners():
    right, left = (border_plan(plans.book(), hand=h) for h in ("right", "left"))
    assert not right.clockwise and left.clockwise
    assert right.total == left.total
    low, high = (min(s.start[0] for s in right.stretches), max(s.start[0] for s in right.stretches))
    assert right.start[0] == pytest.approx(high) and left.start[0] == pytest.approx(low)
    assert [s.count for s in right.of_side(0)] == [s.count for s in left.of_side(0)]


def test_a_border_that_joins_nothing_goes_round_the_flat_piece():
    border = border_plan(plans.book(joins=False))
    assert all(s.layers == 1 for s in border.stretches)
    assert sum(s.length_mm for s in border.of_side(0)) == pytest.approx(72 * plans.ROW_MM)


@pytest.mark.parametrize("name", sorted(EDGINGS))
@pytest.mark.parametrize("rounds", [1, 2])
def test_an_edging_comes_out_even(name, rounds):
    for make in plans.ALL.values():
        border = border_plan(make(), edging=name, rounds=rounds)
        plain = border_plan(make(), rounds=rounds)
        assert border.edged % EDGINGS[name].of == 0
        assert border.total - plain.total == border.adjusted
        sides = max(s.side for s in border.stretches) + 1
        assert abs(border.adjusted) <= sides * EDGINGS[name].of / 2
        if all(not c.inner and c.count == 3 for c in border.corners) and len(border.corners) == sides:
            for side in range(sides):
                last = sum(s.count for s in border.of_side(side)) + 3 + 2 * (rounds - 1)
                assert last % EDGINGS[name].of == 0, "the repeat falls the same on every corner"
        assert border.total == sum(s.count for s in border.stretches) + sum(c.count for c in border.corners)


def test_edges_of_one_length_have_one_number():
    """A square of 330 mm by the border gauge, row ends at two sides and stitches at two."""
    plan = plans.plan_of("panel", [("mat", ["sc"] * 66, 5.0)], 60, 5.5, {}, "width",
                         border_stitch_mm=6.25, border_row_mm=6.0)  # fmt: skip
    for rounds, edging in ((1, ""), (3, ""), (1, "shell"), (2, "picot")):
        border = border_plan(plan, rounds=rounds, edging=edging)
        assert len({sum(s.count for s in border.of_side(k)) for k in range(4)}) == 1
    assert border_plan(plan).total == round(4 * 330 / 6.25 / 4) * 4 + 8


def test_by_the_border_gauge_only_where_one_is_given():
    measured, not_measured = border_plan(plans.cushion()), border_plan(plans.cushion(border_stitch_mm=None))
    assert "Counted by the border gauge." in border_steps(measured)[-2]
    assert "Counted by the row-end rule" in border_steps(not_measured)[-2]


def test_crab_stitch_goes_from_left_to_right():
    """A right-hander works reverse sc from left to right, a left-hander the other way (common practice, no source)."""
    for hand, way in (("right", "left to right"), ("left", "right to left")):
        border = border_plan(plans.book(), stitch="rsc", hand=hand)
        assert f"work reverse sc all round, {way}" in border_steps(border)[0]
        assert border.clockwise is (hand == "right")
        assert "top left" in border_steps(border)[0] if hand == "right" else "top right" in border_steps(border)[0]


def test_the_border_names_its_colour():
    said = border_steps(border_plan(plans.book(), colour="B"))[0]
    assert "join B at the top right corner" in said
    assert "join the yarn at" in border_steps(border_plan(plans.book()))[0]


def test_what_cannot_be_worked_is_refused():
    for call in ({"edging": "tassels"}, {"rounds": 0}, {"rounds": 99}):
        with pytest.raises(PatternError):
            border_plan(plans.panel(), **call)


def test_easing_leads_from_the_gauge_towards_the_rule():
    easing = border_plan(plans.book()).easing
    assert easing.fewer < border_plan(plans.book()).total < easing.more


@pytest.mark.parametrize(
    ("kind", "rate"), [("sc", 1), ("hdc", 1.5), ("dc", 2), ("bobble", 1), ("FPdc", 2), ("dc4tog", 2)]
)
def test_row_end_rates(kind, rate):
    assert float(row_end_rate(kind)) == rate


def counted(words, places):
    """The stitches that spacing words make over so many places, read back by rules of our own."""
    if found := re.fullmatch(r"(\d+) in every 2 .+ and (\d) in the last", words):
        return int(found[1]) * (places // 2) + int(found[2])
    if found := re.fullmatch(r"3 in every 2 .+", words):
        return 3 * places // 2
    if found := re.fullmatch(
        r"(\d+) in each .+?, but (\d+|none) in (?:the middle one|every \w+, (\d+) times)", words
    ):
        times = int(found[3] or 1)
        return int(found[1]) * (places - times) + (0 if found[2] == "none" else int(found[2])) * times
    if found := re.fullmatch(
        r"1 in (?:the middle .+|every \w+ .+, (\d+) times) and none in the others", words
    ):
        return int(found[1] or 1)
    return int(re.fullmatch(r"(\d+) in each .+", words)[1]) * places


@pytest.mark.parametrize("places", [1, 2, 5, 9, 11, 42, 54])
def test_the_words_for_spacing_count_back_to_the_stitches(places):
    for stitches in range(1, 3 * places + 2):
        words = spacing(stitches, places, "row end")
        assert counted(words, places) == stitches, words


def test_every_nth_stays_inside_its_places():
    for places in range(2, 60):
        for stitches in range(1, 2 * places):
            if found := re.search(r"every (\d+)\w\w.*?, (\d+) times", spacing(stitches, places, "stitch")):
                assert int(found[1]) * int(found[2]) <= places


def test_spacing_by_kind_names_each_kind_once():
    assert spacing_by_kind(["hdc", "sc", "hdc"]) == "3 in every 2 hdc row ends, 1 in each sc row end"


def test_a_later_round_takes_two_away_at_each_inner_corner():
    border = border_plan(plans.strap_book(), rounds=2)
    assert border.totals[1] - border.totals[0] == 6 * 2 - 2 * 2


def test_the_plans_own_rounds_are_worked():
    assert len(border_plan(plans.panel(border_rounds=3)).totals) == 3
