"""A kind that the table does not have, as one entry of it: asked for, measured, sized, folded, drawn and written."""

import json
import re

import pytest
from one_entry import copied, ran

ENTRY = """
["comb folder"]
says = "a back with a pocket turned up at its foot and a hood that closes half-way down"
called = ["comb case"]
plain = "width"
strip = "height"
extras = ["trough", "hood"]
fit = "stretch"
range = ["0 %", "8 %"]
between = ["between the joins", "from fold to fold"]
border = "joins"
goes_in = "slide"
goes_in_says = "Push the comb down into the trough and close the hood."
cautions = ["Keep it out of the bath: a wet comb wants air."]
measures = [
  { name = "width", needed = true, asks = "Width of the comb", offers = "60 mm", range = ["20 mm", "200 mm"], means = "over the teeth", how = "the comb over its teeth.", picture = "front across" },
  { name = "height", needed = true, asks = "Length of the comb", offers = "180 mm", range = ["50 mm", "400 mm"], means = "end to end", how = "the comb from end to end.", picture = "front up" },
  { name = "trough", needed = true, asks = "Depth of the trough", offers = "50 mm", range = ["20 mm", "300 mm"], means = "how deep the comb stands in it", how = "how deep the comb shall stand in.", picture = "flap down" },
  { name = "hood", asks = "Depth of the hood", offers = "70 mm", range = ["20 mm", "300 mm"], means = "how far it reaches down", how = "how far the hood shall reach down.", picture = "flap down" },
]
sections = [["trough", "trough", false], ["back", "height", true], ["hood", "hood", false]]
parts = [
  { role = "trough", take = "first", measure = "trough" },
  { role = "back", take = "rest", measure = "rest" },
  { role = "hood", take = "last", measure = "hood" },
]
turned = "upright"
lies = "WS"
folds = [
  { at = ["trough", "back"], moves = "trough", direction = "over", says = "Turn the trough up onto the wrong side of the back." },
  { at = ["back", "hood"], moves = "hood", direction = "over", says = "Fold the hood down." },
]
joined = 1
covers = [{ part = "trough", on = "back", share = 1.0 }, { part = "hood", on = "back", share = 1.0 }]
"""
MEASURES = ("--width", "60 mm", "--height", "180 mm", "--trough", "50 mm", "--hood", "70 mm")
SWATCH = ("--stitches", "20", "--rows", "16", "--over", "10 cm", "--hook", "3 mm", "--terms", "US")


@pytest.fixture(scope="module")
def made(tmp_path_factory):
    folder = copied(tmp_path_factory.mktemp("kind"), "charts/folding/kinds.toml", ENTRY)
    commands = (
        ["start", "comb.toml", "--kind", "comb folder", *MEASURES, *SWATCH], ["check", "--json", "comb.toml"],
        ["chart", "comb.toml", "-o", "chart.svg"], ["instructions", "comb.toml", "-o", "words.md"],
        ["assembly", "comb.toml", "-o", "folding.svg"], ["template", "comb.toml", "-o", "paper.pdf"],
        ["measure", "--kind", "comb folder", "-o", "measure.pdf"], ["schema", "-o", "schema.json"],
    )  # fmt: skip
    return folder, ran(folder, *commands)


def test_it_is_sized_by_its_own_measures(made):
    said = made[1][1]
    got = json.loads(said[said.index("{") :])
    assert got["problems"] == []
    # By hand: 60 mm at 20 sts to 10 cm are 12 sts; 50, 180 and 70 mm at 16 rows to 10 cm are 8, 28.8 and 11.2 rows.
    assert got["fit"]["stitches"] == 12
    assert [abs(s["rows"] - r) <= 2 for s, r in zip(got["fit"]["sections"], (8, 29, 11), strict=True)] == [True] * 3
    assert 0 <= got["size"]["stretch"]["height"] <= 0.08


def test_it_is_folded_joined_and_bordered(made):
    words = (made[0] / "words.md").read_text("utf-8")
    assert "Turn the trough up onto the wrong side of the back (" in words
    assert words.index("Turn the trough up") < words.index("Border: with") < words.index("Fold the hood down")
    assert re.search(r"Row ends \d.* of the trough lie on row ends|[Rr]ow ends .* of the trough", words)
    folding = (made[0] / "folding.svg").read_text("utf-8")
    assert "Push the comb down into the trough" in folding and 'id="object-going-in' in folding


def test_its_cautions_are_printed_with_it(made):
    assert "* Keep it out of the bath: a wet comb wants air." in (made[0] / "words.md").read_text("utf-8")


def test_every_sheet_of_it_is_made(made):
    assert "trough" in (made[0] / "chart.svg").read_text("utf-8")
    assert all((made[0] / name).read_bytes().startswith(b"%PDF") for name in ("paper.pdf", "measure.pdf"))
    keys = json.loads((made[0] / "schema.json").read_text("utf-8"))["properties"]["object"]["properties"]
    assert "comb folder" in keys["kind"]["enum"] and {"trough", "hood"} <= set(keys)
