"""The opening of a pouch, a bag, a sleeve: never joined, bordered one layer at a time; and room for what is thick."""

import pytest
from hookfold.charts import engrave
from hookfold.charts.setting import Setting

HEAD = """title = "Seed bag"
terms = "US"
hook = "4 mm"
[gauge]
stitches = 20
rows = 20
over = "10 cm"
border_stitches = 20
border_rows = 20
[object]
"""
ROWS = 'work = "Row 1: Ch 1, turn. Sc in each st across."\n'


def piece(thing, names, border="[border]\nstitch = \"sc\"\njoins = true\n", more=""):
    sections = "".join(f'[[section]]\nname = "{n}"\nlength = "{length}"\n{ROWS}' for n, length in names)
    return HEAD + thing + sections + border + more


POUCH = 'kind = "pouch"\nwidth = "10 cm"\nheight = "10 cm"\n'
BAG = POUCH.replace("pouch", "open bag")
TWO = [("front", "height"), ("back", "height")]


def finishing(text):
    return engrave.instructions(text, "seed.toml", Setting()).split("## Finishing")[1]


def test_an_open_pouch_has_a_border_round_its_opening_and_no_join_there():
    said = finishing(piece(POUCH, TWO))
    # By hand: 10 cm at 20 to 10 cm are 20 stitches and 20 rows; the opening is 20 of the front and 20 of the back.
    assert "40 round the opening, one layer at a time" in said
    joins = [line for line in said.splitlines() if " lie on " in line]
    assert len(joins) == 1 and "Row ends" in joins[0] and "at both edges" in joins[0]
    # The sides and the fold: 20 each, one fewer for the corner at the foot; 3 in each of two corners.
    assert "= 40 + " in said or " + 40 = " in said
    assert "of the opening, which stays open" in said


def test_every_round_after_the_first_goes_round_the_opening():
    border = '[border]\nstitch = "sc"\njoins = true\nrounds = 3\n'
    said = finishing(piece(BAG, TWO, border).replace('width = "10 cm"', 'width = "11 cm"'))
    # 11 cm less 5 mm of border at each side are 10 cm: 20 stitches, 40 round the opening.
    assert "round 2: sc in each st round the opening (40 sts)" in said
    assert "round 3: sc in each st round the opening (40 sts)" in said
    report = engrave.check(piece(BAG, TWO, border), "seed.toml")
    over, between = report.facts["size"]["over_all_mm"], report.facts["size"]["between_joins_mm"]
    # A border row is 5 mm: one at each side; one at the foot and three at the opening.
    assert over["width"] - between["width"] == pytest.approx(10)
    assert over["height"] - between["height"] == pytest.approx(20)


@pytest.mark.parametrize("edges", [("front start", "back end"), ("front start", "front end")])
def test_a_join_of_the_opening_is_a_problem(edges):
    join = f'[[join]]\nfirst = "{edges[0]}"\nsecond = "{edges[1]}"\n'
    found = engrave.check(piece(BAG, TWO, more=join), "seed.toml").problems
    assert any("is the opening" in p.says for p in found)
    assert all(p.remedy for p in found)


def test_a_join_is_made_as_the_words_say_or_is_a_problem():
    join = '[[join]]\nfirst = "left of front"\nsecond = "left of back"\nby = "{}"\n'
    for by, more in (("border", ""), ("sewn", "the border joins"), ("sl st", "the border joins")):
        found = engrave.check(piece(BAG, TWO, more=join.format(by)), "seed.toml").problems
        assert any(more in p.says and p.remedy and p.line for p in found) if more else not found
    loose = '[border]\nstitch = "sc"\njoins = false\n'
    for by, more in (("sewn", ""), ("border", ""), ("sc", "they are sewn")):
        found = engrave.check(piece(BAG, TWO, loose, join.format(by)), "seed.toml").problems
        assert any(more in p.says and p.remedy for p in found) if more else not found


def test_what_closes_over_the_rest_is_not_joined():
    flap = POUCH + 'flap = "10 cm"\n'
    join = '[[join]]\nfirst = "left of flap"\nsecond = "left of front"\n'
    parts = [*TWO, ("flap", "flap")]
    assert not engrave.check(piece(flap, parts), "seed.toml").problems
    found = engrave.check(piece(flap, parts, more=join), "seed.toml").problems
    assert any("only when the last fold is made" in p.says and p.remedy for p in found)


def test_a_border_that_closes_every_edge_is_a_problem():
    """Folded sideways, the foundation lies on itself and every edge is double."""
    fold = '[[fold]]\nat = ["50 mm, 0 mm", "50 mm, 200 mm"]\nmoves = "left"\n'
    assert not engrave.check(piece(POUCH, TWO), "seed.toml").problems
    found = engrave.check(piece(POUCH, TWO, more=fold), "seed.toml").problems
    assert any("nothing could go in" in p.says and p.remedy for p in found)


def test_a_thick_thing_takes_room_at_both_sides_and_at_the_fold():
    thing = 'kind = "sleeve"\nwidth = "10 cm"\nheight = "10 cm"\nthickness = "1 cm"\nflap = "5 cm"\nease = ["0 %", "5 %"]\n'
    report = engrave.check(piece(thing, [*TWO, ("flap", "flap")]), "seed.toml")
    assert not report.problems
    # 10 cm + 1 cm are 22 stitches of 5 mm; 10 cm + 0.5 cm are 21 rows of 5 mm.
    assert report.facts["fit"]["stitches"] == 22
    assert [s["rows"] for s in report.facts["fit"]["sections"]][:2] == [21, 21]
    assert any("has no room to spare" in line or "of room" in line for line in report.says)


def test_ease_is_for_what_slides_in():
    text = piece(POUCH + 'ease = ["0 %", "5 %"]\n', TWO)
    assert [p.where for p in engrave.check(text, "seed.toml").problems] == ["[object]"]


def test_a_book_of_two_metres_is_a_slip_of_the_unit():
    book = 'kind = "book"\nheight = "210 cm"\nwrap = "308 mm"\nflap = "60 mm"\n'
    (found,) = engrave.check(piece(book, [("front flap", "flap"), ("body", "wrap"), ("back flap", "flap")]), "b.toml").problems
    assert "between 10 mm and 60 cm" in found.says and 'height = "210 mm"' in found.remedy


@pytest.mark.parametrize(("kind", "sides"), [("pouch", 'stretch = ["0 %", "6 %"]\n'), ("sleeve", 'ease = ["0 %", "6 %"]\n')])
def test_a_flap_crosses_the_thickness_before_it_comes_down(kind, sides):
    """Folded spectacles, 140 x 70 x 38 mm, and a flap of 30 mm over their front: a thread round them measures it."""
    thing = f'kind = "{kind}"\nwidth = "140 mm"\nheight = "70 mm"\nthickness = "38 mm"\nflap = "30 mm"\n{sides}'
    report = engrave.check(piece(thing, [*TWO, ("flap", "flap")]), "seed.toml")
    assert not report.problems
    inside = report.facts["size"]["between_joins_mm"]
    # A thread round the box crosswise: 2 x (140 + 38) mm; down the back, under the foot and up: 70 + 38 + 70.
    assert 2 * inside["width"] == pytest.approx(2 * (140 + 38), rel=0.06)
    assert 2 * inside["height"] == pytest.approx(70 + 38 + 70, rel=0.06)
    # Over the top, 38 mm, and 30 mm down.
    assert report.facts["fit"]["sections"][2]["wanted_mm"] == pytest.approx(38 + 30)
    assert any("140 mm and its thickness (178 mm)" in line for line in report.says)


def test_a_pouch_without_a_thickness_says_what_it_has_no_room_for():
    notes = engrave.check(piece(POUCH, TWO), "seed.toml").notes
    assert any("flat only" in note.says and "thickness" in note.says for note in notes)


def test_a_flap_over_a_thick_thing_is_no_longer_than_there_is_room():
    thing = 'kind = "pouch"\nwidth = "140 mm"\nheight = "60 mm"\nthickness = "38 mm"\nflap = "45 mm"\n'
    (found,) = engrave.check(piece(thing, [*TWO, ("flap", "flap")]), "seed.toml").problems
    assert "41 mm" in found.says and found.remedy
