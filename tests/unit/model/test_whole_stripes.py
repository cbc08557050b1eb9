"""Row counts that end whole stripes where the fit allows it, by counting colours on fingers."""

from dataclasses import replace

import pytest
from hookfold.charts import engrave
from hookfold.charts.output.start import Start, starter
from hookfold.charts.setting import Setting


def colours(start, section):
    plan = engrave.work_file(starter(start), "piece.toml").plan
    return next(s.colours for s in plan.sections if s.name == section)


def last_stripe(letters):
    """How many rows the last stripe has."""
    return next(n for n in range(1, len(letters) + 1) if n == len(letters) or letters[-n - 1] != letters[-1])


def notes(start):
    return [n.says for n in engrave.check(starter(start), "piece.toml").notes]


@pytest.mark.parametrize("names", [("ash", "bone"), ("ash", "bone", "clay"), ("ash", "bone", "clay", "dusk")])
@pytest.mark.parametrize("tall", [88, 90, 91.5, 93, 95])
def test_a_flat_piece_ends_whole_stripes_within_a_row_or_two(names, tall):
    """Every stripe has two rows: one row more or less always ends one, and a row here is 1.4 % of the piece."""
    made = Start("panel", "Mat", {"width": "75 cm", "height": f"{tall} cm"}, 15, 8, stitch="tall", colours=names)
    letters = colours(made, "body")
    assert last_stripe(letters) == 2
    worked_cm = len(letters) * 10 / 8
    assert abs(worked_cm - (tall - 2 * 0.6)) <= 2.6, "no more than two rows, with the border at both ends"


def test_a_sleeve_has_no_lone_row_at_its_fold_where_its_room_allows_another():
    sleeve = Start("sleeve", "Sleeve", {"width": "7 in", "height": "9.75 in", "thickness": "0.25 in", "flap": "3 in"},
                   15, 17, over="4 in", stitch="close", colours=("ash", "bone"))  # fmt: skip
    letters = colours(sleeve, "front")
    room = len(letters) * 4 / 17 / (9.75 + 0.25 / 2) - 1
    assert last_stripe(letters) == 2 and 0.01 <= room <= 0.06


def test_what_stripes_did_is_said():
    """152 cm less the border at both ends are 150.7 rows of 1 cm; 152 (25 x 6 + 2) end with the colour of row 1."""
    scarf = Start("panel", "Scarf", {"width": "20 cm", "height": "152 cm"}, 14, 10, stitch="crunch", colours=("a", "b", "c"))
    count = len(colours(scarf, "body"))
    said = [note for note in notes(scarf) if "would be nearer" in note]
    wanted = (1520 - 2 * 0.9 * 100 / 14) / 10
    assert count % 6 == 2 and abs(count - wanted) > 0.5 and said and f"has {count} rows" in said[0]
    assert f"; {round(wanted)} would be nearer" in said[0]
    plain = Start("panel", "Scarf", {"width": "20 cm", "height": "152 cm"}, 14, 10, stitch="crunch", colours=("a",))
    assert not [note for note in notes(plain) if "would be nearer" in note]


def cover(**more):
    """Rows of 6.25 mm round 287 mm: 46 are 287.5 mm (0.2 % slack), 45 are 281.25 (2 %), 44 are 275 (4.4 %)."""
    return Start("book", "Cover", {"height": "190 mm", "wrap": "287 mm", "flap": "60 mm"}, 18, 16, stitch="crunch", **more)


def test_a_hair_of_slack_is_better_than_a_stripe_cut_short():
    """46 = 11 x 4 + 2 end with the stripe of row 1; 0.5 mm in 287 is less than a gauge is sure of."""
    letters = colours(cover(colours=("ash", "bone"), fibre="cotton"), "body")
    assert len(letters) == 46 and letters[-1] == letters[0]
    said = engrave.instructions(starter(cover(colours=("ash", "bone"))), "cover.toml", Setting())
    assert "wrap: " in said and "for 287 mm: fits without stretch" in said
    assert len(colours(cover(colours=("ash",)), "body")) == 45, "without stripes nothing speaks for the slack"


def test_slack_is_worth_no_stripe_that_is_cut_short_all_the_same():
    """Round 281 mm 45 rows are 0.1 % slack and end in the middle of a stripe; 44 (2.2 %) end whole, in wool; where only
    one row in four ends one, 45 rows are still not taken."""
    for names, rows in ((("ash", "bone"), 44), (("ash", "bone", "clay", "dusk"), 44)):
        made = replace(cover(colours=names, fibre="wool"),
                       measures={"height": "190 mm", "wrap": "281 mm", "flap": "60 mm"})  # fmt: skip
        assert len(colours(made, "body")) == rows


def test_yarn_that_gives_little_is_stretched_less_than_a_stripe_would_ask():
    """Round 283 mm 46 rows are 1.6 % slack, 45 stretch by 0.6 %, 44 (whole stripes) by 2.9 %; round 285 mm by 3.6 %."""
    for wrap, fibre, rows in ((283, "cotton", 44), (285, "cotton", 45), (285, "wool", 44)):
        made = replace(cover(colours=("ash", "bone"), fibre=fibre),
                       measures={"height": "190 mm", "wrap": f"{wrap} mm", "flap": "60 mm"})  # fmt: skip
        assert len(colours(made, "body")) == rows, (wrap, fibre)


def test_the_words_say_what_settled_the_rows_and_what_the_yarn_does_not_give():
    made = replace(cover(colours=("ash", "bone"), fibre="linen"),
                   measures={"height": "190 mm", "wrap": "285 mm", "flap": "60 mm"})  # fmt: skip
    fits = engrave.instructions(starter(made), "cover.toml", Setting()).split("## Colours")[0]
    report = engrave.check(starter(made), "cover.toml")
    settled = [note.says for note in report.notes if "would be nearer" in note.says or "not whole" in note.says]
    assert settled == ['the last stripe of "body" is not whole: 45 rows fit, 44 would stretch this yarn far.']
    assert settled[0] in fits
    flat = Start("pouch", "Pouch", {"width": "90 mm", "height": "120 mm"}, 18, 16, stitch="crunch")
    assert "there is room for something flat only" in engrave.instructions(starter(flat), "pouch.toml", Setting())


def test_without_a_whole_stripe_in_reach_there_is_no_slack():
    """Stripes of 9 rows: of 43 to 46 rows (4.4 % and less) only 45 end one, and round 295 mm those stretch by 4.9 %; 47
    stretch by 0.4 %. Round 293.2 mm 47 rows would be 0.2 % slack and end no stripe: 46 are taken."""
    text = starter(cover(colours=("ash", "bone"))).replace('["A", "A", "B", "B"]', str(["A"] * 9 + ["B"] * 9).replace("'", '"'))
    for wrap, least, most in (("293.2 mm", 0.0, 0.06), ("287 mm", -0.005, 0.06)):
        plan = engrave.work_file(text.replace("287 mm", wrap), "cover.toml").plan
        letters = next(s.colours for s in plan.sections if s.name == "body")
        whole = last_stripe(letters) == 9
        assert least - 0.0005 <= plan.stretch["wrap"] <= most and (whole or plan.stretch["wrap"] > -0.0005)
