"""Stripes of a front and a back that are joined at the sides: whether the same colours meet there."""

import pytest
from hookfold.charts import engrave
from hookfold.charts.output.start import Start, starter


@pytest.mark.parametrize("height", [150, 170, 190, 205, 220])
@pytest.mark.parametrize("kind", ["sleeve", "open bag"])
def test_stripes_that_do_not_meet_are_told_and_others_are_not(kind, height):
    more = {"thickness": "9 mm"} if kind == "sleeve" else {}
    made = Start(kind, "Case", {"width": "160 mm", "height": f"{height} mm", **more}, 18, 17, stitch="close",
                 colours=("ash", "bone"))  # fmt: skip
    plan = engrave.work_file(starter(made), "case.toml").plan
    front, back = plan.sections[:2]
    meets = all(a == b for a, b in zip(front.colours, reversed(back.colours), strict=False))
    said = [note.says for note in engrave.check(starter(made), "case.toml").notes if note.where == "Stripes"]
    assert bool(said) != meets
    if said:
        assert f"lies on row {back.first_row + back.rows - 1}," in said[0] or "row 1 " not in said[0]
        assert said[0][:-1] in engrave.instructions(starter(made), "case.toml", engrave.Setting())


@pytest.mark.parametrize("height", ["190 mm", "205 mm", "220 mm", "9 13/16 in"])
def test_a_started_sleeve_has_stripes_that_meet_also_where_they_do_not_come_out_whole(height, tmp_path):
    from hookfold.cli.start import write_start

    made = Start("sleeve", "Case", {"width": "160 mm", "height": height, "thickness": "9 mm", "flap": "60 mm"}, 16, 9,
                 stitch="tall", colours=("ash", "bone"))  # fmt: skip
    file = tmp_path / "case.toml"
    write_start(str(file), made)
    plan = engrave.work_file(file.read_text("utf-8"), "case.toml").plan
    front, back, flap = plan.sections
    assert front.rows == back.rows
    colours = [*front.colours, *back.colours]
    assert all(colours[k] == colours[2 * front.rows - 1 - k] for k in range(front.rows))
    assert flap.colours[0] == back.colours[-1] == front.colours[0] == "A"
    said = [note.says for note in engrave.check(file.read_text("utf-8"), "case.toml").notes]
    assert not any("do not meet" in says or "odd number" in says for says in said)
