"""The border: counts, spacing in words, corners, rounds, edgings, easing."""

import itertools
import re

import folding_plans as plans
import pytest
from hookfold.charts import engrave
from hookfold.charts.errors import PatternError
from hookfold.charts.folding.border import border_plan
from hookfold.charts.folding.edge_rates import MOST_NAMED, row_end_rate, spacing, spacing_by_kind, spread
from hookfold.charts.folding.edgings import EDGINGS
from hookfold.charts.folding.said.border_words import border_steps
from hookfold.charts.output.start import Start, starter
from hookfold.charts.setting import Setting


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
    assert not any("gauge" in said for said in border_steps(measured))
    assert any("follow the row-end rule" in said for said in border_steps(not_measured))


def test_what_stays_bare_is_said_before_the_round_and_easing_after_the_first_edge():
    steps = border_steps(border_plan(plans.book()))
    assert steps[0].startswith("Border: with ") and "No border goes along the foundation of the front flap" in steps[0]
    assert steps[1].startswith("Top edge") and steps[2].startswith("Look at this edge before you go on")
    assert border_steps(border_plan(plans.book(), rounds=2))[0].startswith("Border, round 1: ")


def test_stitches_along_a_fold_are_numbered_from_an_edge_that_is_named():
    said = " ".join(border_steps(border_plan(plans.strap_book())))
    for numbers in ("2–16 of row 63", "27–41 of row 63", "41–2 of row 10"):
        assert f"stitches {numbers}, numbered from the top edge" in said, "stitch 1 of every row lies at the top"


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


def counted(words, numbers):
    """The stitches that spacing words make over numbered places, read back by rules of our own."""
    places = len(numbers)
    if not words:
        return 0
    if found := re.fullmatch(r"(\d+) and (\d+) in turn over the .+, beginning with \1 in row end (\d+)", words):
        assert int(found[3]) == numbers[0]
        return sum(int(found[1 + k % 2]) for k in range(places))
    if found := re.fullmatch(r"(\d+) in each row end", words):
        return int(found[1]) * places
    usual, many, where = re.fullmatch(
        r"(?:(\d+) in each row end, but )?(skip|\d+(?: each)? in) (.+?)(?:, none in the others)?", words
    ).groups()
    if found := re.fullmatch(r"every .+ row end, (\d+) times, the first of them row end (\d+)", where):
        times, named = int(found[1]), [int(found[2])]
    else:
        named = [int(number) for number in re.findall(r"\d+", where)]
        times = len(named)
    assert len(set(named)) == len(named) and set(named) <= set(numbers), words
    return int(usual or 0) * (places - times) + (0 if many == "skip" else int(many.split()[0])) * times


@pytest.mark.parametrize("places", [1, 2, 5, 9, 11, 42, 54])
def test_the_words_for_spacing_count_back_to_the_stitches(places):
    numbers = range(17, 17 + places)
    for stitches in range(1, 3 * places + 2):
        each = spread(stitches, places)
        words = spacing(each, numbers, "row end")
        assert counted(words, numbers) == sum(each) == stitches, words


def test_stitches_are_spread_evenly_and_a_few_the_same_from_both_ends():
    for places in range(1, 60):
        for stitches in range(1, 2 * places):
            each = spread(stitches, places)
            odd = [k for k, n in enumerate(each) if n != max(set(each), key=each.count)]
            apart = [b - a for a, b in itertools.pairwise(odd)]
            assert max(each) - min(each) <= 1
            assert not apart or max(apart) - min(apart) <= 2, (stitches, places)
            if len(odd) <= MOST_NAMED and (len(odd) % 2 == 0 or places % 2):
                assert each == each[::-1] or abs(2 * (stitches % places) - places) <= 1, (stitches, places)


def test_corners_leave_out_the_stitches_that_are_theirs():
    """A pouch of 31 stitches: the corners have the first and the last, so 30 go over 29 places, two in the middle."""
    pouch = plans.plan_of(
        "pouch", [("front", ["sc"] * 16, 5.0), ("back", ["sc"] * 16, 5.0), ("flap", ["sc"] * 8, 5.0)], 31, 100 / 18,
        {"width": 175.0, "height": 80.0, "flap": 45.0}, "width",
        border_stitch_mm=100 / 18, border_row_mm=5.0, joins=True,
    )  # fmt: skip
    border = border_plan(pouch)
    said = border_steps(border)
    assert "with the outside of the back facing, the flap at the top" in said[0] and "into row end 17" in said[0]
    assert "30 along the tops of stitches 2–30 of the flap (1 in each stitch, but 2 in stitch 16)" in said[3]
    assert "3 in the corner (stitch 31)" in said[3] and "(stitch 1 of the top edge)" in said[1]
    assert "(1 in each row end, but skip row ends 20 and 29)" in said[1]
    assert "round the posts of stitches 30–2 of row 17, numbered from the " in said[5]
    assert "No border goes along the foundation of the front." in said[0]


@pytest.mark.parametrize("name", sorted(plans.ALL))
def test_every_stitch_of_a_stretch_has_its_place(name):
    for s in border_plan(plans.ALL[name]()).stretches:
        if s.each:
            assert sum(s.each) == s.count and len(s.each) == s.facing.count


def test_spacing_by_kind_names_each_kind_once():
    assert spacing_by_kind(["hdc", "sc", "hdc"]) == "3 in every 2 hdc row ends, 1 in each sc row end"


def test_a_later_round_takes_two_away_at_each_inner_corner():
    border = border_plan(plans.strap_book(), rounds=2)
    assert border.totals[1] - border.totals[0] == 6 * 2 - 2 * 2


def test_the_plans_own_rounds_are_worked():
    assert len(border_plan(plans.panel(border_rounds=3)).totals) == 3


def test_a_rule_far_off_the_swatch_gives_way_to_the_length():
    """Common practice: as many stitches as the edge is long; the rule for row ends is no more than a short cut to them.

    58.4 in of rows of sc and dc in turn at 14 sts to 4 in ask for 204, and the tallest stitch's rule for 292; the rule
    stays where it is near, and where nobody counted rows."""
    rows, stitch_mm, row_mm = 146, 101.6 / 14, 101.6 / 10
    scarf = {"kind": "panel", "sections": [("body", ["dc"] * rows, row_mm)], "stitches": 26, "stitch_mm": stitch_mm,
             "object_mm": {}, "along": "width", "border_row_mm": 6.5}  # fmt: skip
    measured, guessed = (plans.plan_of(**scarf, rows_measured=known) for known in (True, False))
    by_length = round(rows * row_mm / stitch_mm)
    sides = [s.count for s in border_plan(measured).stretches if s.facing.counts == "row ends"]
    assert by_length == 204 and sides == [by_length] * 2, "the corners' places are stitches of the ends"
    ends = [s for s in border_plan(measured).stretches if s.facing.counts != "row ends"]
    assert [s.count for s in ends] == [24] * 2, "26 stitches less the two corners', 1 in each"
    assert "length of the edges" in border_steps(border_plan(measured))[-1]
    assert [s.count for s in border_plan(guessed).stretches if s.facing.counts == "row ends"] == [2 * rows] * 2
    near = plans.plan_of(**scarf | {"sections": [("body", ["hdc"] * rows, row_mm)]}, rows_measured=True)
    assert 1.5 * rows / by_length - 1 < 0.15
    assert [s.count for s in border_plan(near).stretches if s.facing.counts == "row ends"] == [219] * 2


def test_spacing_is_told_from_the_place_that_is_met_first():
    """Ten row ends met from the last to the first, the last with two: 2 1 2 1 ...; 60 with 2 in every 5th."""
    assert spacing([2, 1] * 5, range(10, 0, -1), "row end") == "2 and 1 in turn over the row ends, beginning with 2 in row end 10"
    assert spacing([1, 2] * 5, range(1, 11), "row end") == "1 and 2 in turn over the row ends, beginning with 1 in row end 1"
    each = [2 if n % 5 == 3 else 1 for n in range(60, 0, -1)]
    said = "1 in each row end, but 2 in every 5th row end, 12 times, the first of them row end 58"
    assert spacing(each, range(60, 0, -1), "row end") == said


def test_a_border_round_an_opening_says_which_corners_it_has():
    """A bag has two corners, at its fold; it is begun at the opening, where there is none."""
    bag = Start("open bag", "Bag", {"width": "33 cm", "height": "35 cm"}, 16, 18, stitch="close")
    step = next(s for s in engrave.instructions(starter(bag), "bag.toml", Setting()).splitlines() if " Border: " in s)
    assert "3 in one at both corners away from the opening, none at the opening" in step
    assert "gets its stitches last" not in step
    assert "facing you, the fold at the foot, join the yarn at the top left corner" in step


def test_a_border_on_four_corners_ends_in_the_first():
    said = border_steps(border_plan(plans.ALL["book"]()))[0]
    assert "3 in one at each corner" in said and "The corner where you begin gets its stitches last." in said
