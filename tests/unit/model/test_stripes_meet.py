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
