"""Row counts that end whole stripes where the fit allows it, by counting colours on fingers."""

import pytest
from hookfold.charts import engrave
from hookfold.charts.output.start import Start, starter


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
