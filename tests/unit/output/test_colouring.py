"""Other ways to colour a piece: which there are, their ends, and the small balls wound beforehand."""

import io
import re

import pytest
from hookfold.charts import engrave
from hookfold.charts.output.colouring import coloured as worked_colours
from hookfold.charts.output.colouring.bundles import bundles_of
from hookfold.charts.output.colouring.coloured import worked_ways
from hookfold.charts.output.colouring.sheet import colour_sheet
from hookfold.charts.output.colouring.ways import MOST_WAYS, ways_of
from hookfold.charts.output.said import yarn_of_piece
from hookfold.charts.pattern.file.read import read_pattern
from PIL import Image

RUNNER = '''
title = "Landing-stage runner"
terms = "US"
yarn = { category = 3, fibre = "wool", swatch_weight = "10 g", swatch_size = "12 cm x 12 cm", ball = "50 g / 125 m" }
[gauge]
stitches = 15
rows = 17
over = "10 cm"
[object]
kind = "panel"
width = "80 mm"
height = "100 mm"
[colours]
A = { name = "plum", hex = "#5a2d4d" }
B = { name = "chalk", hex = "#eeeae0" }
[[section]]
name = "body"
length = "height"
stripes = ["A", "A", "A", "B"]
work = "Row 1: Ch 1, turn. Sc in each st across."
'''


def colours_by_row(pattern, rows=8):
    hexes = {c.letter: c.hex for c in pattern.colours}
    return [hexes[pattern.sections[0].colour(row)] for row in range(rows)]


def test_ways_are_the_written_one_first_and_each_looks_different():
    ways = ways_of(read_pattern(RUNNER))
    assert ways[0].says == "as written" and len(ways) <= MOST_WAYS
    looks = [tuple(colours_by_row(way.pattern, 24)) for way in ways]
    assert len(set(looks)) == len(looks)


def test_each_way_does_what_it_says():
    plum, chalk = "#5a2d4d", "#eeeae0"
    by = {way.says: colours_by_row(way.pattern) for way in ways_of(read_pattern(RUNNER))}
    assert by["plum and chalk swapped"] == [chalk] * 3 + [plum] + [chalk] * 3 + [plum]
    assert by["stripes in the other order"] == [chalk] + [plum] * 3 + [chalk] + [plum] * 3
    assert by["every stripe twice as high"] == [plum] * 6 + [chalk] * 2
    assert by["every stripe an even number of rows"] == [plum] * 4 + [chalk] * 2 + [plum] * 2
    assert by["plum alone"] == [plum] * 8 and by["chalk alone"] == [chalk] * 8


def test_a_piece_of_one_colour_has_one_way():
    text = re.sub(r"stripes = .*", 'colour = "A"', RUNNER)
    assert [way.says for way in ways_of(read_pattern(text))] == ["as written"]


def test_small_balls_are_the_stretches_of_each_colour_and_hold_all_of_its_yarn():
    piece = engrave.work_file(RUNNER, "runner.toml")
    letters = "".join(letter for section in piece.plan.sections for letter in section.colours)
    yarn = yarn_of_piece(piece)
    found = bundles_of(piece, yarn)
    for letter in "AB":
        runs = [run for run in re.findall(r"A+|B+", letters) if run[0] == letter]
        mine = [bundle for bundle in found if bundle.letter == letter]
        assert sum(b.stretches for b in mine) == len(runs)
        assert sum(b.stretches * b.rows for b in mine) == letters.count(letter)
        need = next(n for n in yarn.needs if n.letter == letter)
        wound = sum(b.stretches * (b.metres - 0.3) for b in mine)
        assert wound == pytest.approx(need.metres, rel=0.01)


def test_words_say_the_fewest_ends():
    said = engrave.colours(RUNNER, "runner.toml", "md").decode()
    ends = {name: int(n) for name, n in re.findall(r"^\| (.+?) \| .+? \| (\d+) \|$", said, re.MULTILINE)}
    several = {name: n for name, n in ends.items() if not name.endswith("alone")}
    assert f"{min(several.values())}." in re.search(r"Fewest ends.*", said)[0]
    assert ends["plum alone"] < ends["as written"]


def plain(piece):
    """A small image in the first colour, in place of the fabric's picture."""
    out = io.BytesIO()
    Image.new("RGB", (60, 90), piece.pattern.used_colours[0].hex).save(out, "PNG")
    return out.getvalue()


def test_the_sheet_shows_every_way():
    pattern = read_pattern(RUNNER)
    ways = tuple(worked_ways(pattern))
    made = Image.open(io.BytesIO(colour_sheet(ways, plain, "png"))).convert("RGB")
    seen = {made.getpixel((x, y)) for x in range(0, made.width, 7) for y in range(0, made.height, 7)}
    assert made.width > 900 and {(0x5A, 0x2D, 0x4D), (0xEE, 0xEA, 0xE0)} <= seen


@pytest.mark.slow
def test_the_sheet_is_drawn_with_the_fabric_of_every_way(monkeypatch):
    """Each picture small, which is quicker drawn: what is asked is whether they are of yarn."""
    monkeypatch.setattr(worked_colours, "_SMALL", ("flat", "right", 120, "png"))
    made = Image.open(io.BytesIO(engrave.colours(RUNNER, "runner.toml", "png"))).convert("RGB")
    seen = {made.getpixel((x, y)) for x in range(0, made.width, 7) for y in range(0, made.height, 7)}
    assert len(seen) > 200
