"""A rigid box of the object's size against the pocket between the joins, by sums that share nothing with the tool.

The pocket is stitches times the swatch's stitch, whatever border stands outside it.
"""

import random
import tomllib
from pathlib import Path

import pytest
from hookfold.charts import engrave
from hookfold.charts.errors import PatternError
from hookfold.charts.model.sizing.fit import fit_json, size_json
from hookfold.charts.model.sizing.from_pattern import request_of
from hookfold.charts.model.sizing.request import SectionText
from hookfold.charts.model.sizing.size import size
from hookfold.charts.pattern.file.read import read_pattern

GALLERY = sorted((Path(__file__).parents[2] / "gallery").glob("*/pattern.toml"))
POCKETS = [p for p in GALLERY if tomllib.loads(p.read_text("utf-8"))["object"]["kind"] in
           ("book", "book with strap", "pouch", "cushion")]  # fmt: skip

BOOK = """title = "Box"
terms = "US"
[gauge]
stitches = {stitches}
rows = {rows}
over = "10 cm"
border_rows = {border_rows}
[object]
kind = "book"
height = "{height} mm"
wrap = "{wrap} mm"
flap = "60 mm"
{stretch}
[[section]]
name = "front flap"
length = "flap"
work = "Row 1: Ch 1, turn. Sc in each st across."
[[section]]
name = "body"
length = "wrap"
work = "Row 1: Ch 1, turn. Sc in first {edge} sts, *sc in next {of} sts; rep from * across."
[[section]]
name = "back flap"
length = "flap"
work = "Row 1: Ch 1, turn. Sc in each st across."
[border]
stitch = "sc"
joins = true
rounds = {rounds}
"""


def pocket_mm(found, text):
    """How high the pocket is inside: the stitches of a row, by the swatch."""
    return found["fit"]["stitches"] * 100 / tomllib.loads(text)["gauge"]["stitches"]


def sized(text, of, edge):
    """What is settled of a box's cover, as `check --json` has it; the body takes a multiple of `of` plus `edge`."""
    plain, body = SectionText(("sc",)), SectionText(("sc",), multiple_of=of, multiple_plus=edge % of, least=edge + of)
    try:
        plan = size(request_of(read_pattern(text), (plain, body, plain)))
    except PatternError as found:
        return {"problems": [p.as_json() for p in found.problems]}
    return {"size": size_json(plan), "fit": fit_json(plan), "problems": []}


@pytest.mark.parametrize("path", POCKETS, ids=lambda p: p.parent.name)
def test_the_gallery_s_objects_go_in(path):
    text = path.read_text("utf-8")
    found = engrave.check(text, path.name).as_json()
    across = next(iter(found["size"]["between_joins_mm"]))
    box, room = found["fit"]["object_mm"][across], pocket_mm(found, text)
    assert found["size"]["between_joins_mm"][across] == pytest.approx(room, abs=0.1)
    assert found["size"]["stretch"][across] == pytest.approx(box / room - 1, abs=1e-3)
    assert 0 <= box / room - 1 <= 0.09, "a little stretch, and no more than a cover takes (common practice)"
    assert found["size"]["over_all_mm"][across] > room


def test_five_hundred_boxes():
    chance = random.Random(20260)
    fitted = 0
    for _ in range(500):
        low, high = chance.choice(((0, 6), (-2, 4), (1, 9), (0, 12)))
        of, edge = chance.randint(2, 9), chance.randint(1, 5)
        box = {"height": chance.randint(90, 420), "wrap": chance.randint(150, 700)}
        text = BOOK.format(
            stitches=chance.randint(10, 30), rows=chance.randint(12, 34), border_rows=chance.randint(8, 30),
            rounds=chance.randint(1, 8), of=of, edge=edge, stretch=f'stretch = ["{low} %", "{high} %"]', **box,
        )  # fmt: skip
        found = sized(text, of, edge)
        gauge = tomllib.loads(text)["gauge"]
        fits = [n for n in range(edge + of, 200, of) if low - 0.05 <= (box["height"] * gauge["stitches"] / n - 100) <= high + 0.05]  # fmt: skip
        tall = [p for p in found["problems"] if "along the height" in p["where"]]
        assert bool(tall) is not bool(fits), text
        if found["problems"]:
            continue
        fitted += 1
        room = pocket_mm(found, text)
        body = next(s["rows"] for s in found["fit"]["sections"] if s["name"] == "body") * 100 / gauge["rows"]
        for inside, way in ((room, "height"), (body, "wrap")):
            assert found["size"]["between_joins_mm"][way] == pytest.approx(inside, abs=0.1)
            assert found["size"]["stretch"][way] == pytest.approx(box[way] / inside - 1, abs=1e-3)
            border = 2 * tomllib.loads(text)["border"]["rounds"] * 100 / gauge["border_rows"]
            assert found["size"]["over_all_mm"][way] == pytest.approx(inside + border, abs=0.2)
            assert inside * (1 + (high + 0.05) / 100) >= box[way], "stretched as far as allowed it takes the box"
    assert fitted > 150
