"""What `start` asks, what it takes as an answer, and in whose units it goes on."""

import pytest
from click.testing import CliRunner
from hookfold.charts import engrave
from hookfold.charts.measure import parse_length
from hookfold.charts.output.words import cautions
from hookfold.charts.pattern.file.kinds import OBJECT_KINDS
from hookfold.charts.pattern.file.read import read_pattern
from hookfold.cli import main
from hookfold.cli.options import own_paper


def started(tmp_path, *typed, name="piece.toml"):
    file = tmp_path / name
    ran = CliRunner().invoke(main, ["start", str(file), "--force"], input="\n".join(typed) + "\n", catch_exceptions=False)
    assert ran.exit_code == 0, ran.output
    return read_pattern(file.read_text("utf-8")), ran.stderr, file


def test_the_stitch_comes_before_its_gauge_and_settles_what_is_offered(tmp_path):
    """17 sts of dc, whose rows are twice as high as wide, are 8.5 rows; of sc (0.9) 19 (ratios: table of stitches)."""
    for stitch, rows in (("tall", 9), ("close", 19), ("medium", 13)):
        pattern, asked, _ = started(tmp_path, "scarf", "18 cm", "150 cm", "US", stitch, "", "")
        assert asked.index("Stitch (") < asked.index("Stitches over 10 cm of a swatch in that stitch [17]")
        assert (pattern.gauge.stitches, pattern.gauge.rows) == (17, rows)


@pytest.mark.parametrize(("typed", "mm"), [
    ("6-1/2 in", 165.1), ("6 1/2''", 165.1), ("5 feet", 1524.0), ("1 yd", 914.4), ("2 ft", 609.6), ('6"', 152.4),
    ("1.5 yards", 1371.6),
])  # fmt: skip
def test_lengths_as_makers_write_them(typed, mm):
    """1 ft = 12 in and 1 yd = 3 ft of 25.4 mm (international yard and foot, 1959)."""
    assert parse_length(typed).mm == pytest.approx(mm) and parse_length(typed).unit == "in"


def test_a_bare_number_is_in_the_unit_before_it_and_bounds_are_told_in_it(tmp_path):
    pattern, asked, _ = started(tmp_path, "tote", "14 in", "5000", "16", "none", "", "", "", "")
    assert pattern.object.mm("height") == pytest.approx(16 * 25.4)
    assert "it lies between 2 in and 39 3/8 in" in asked


def test_a_length_is_asked_of_a_scarf_and_its_own_is_offered(tmp_path):
    pattern, asked, _ = started(tmp_path, "scarf", "", "", "", "", "", "")
    assert "Length of the piece" in asked and "[1500 mm]" in asked and "Height" not in asked
    assert pattern.object.mm("height") == 1500
    pattern, *_ = started(tmp_path, "baby blanket", "", "", "", "", "", "")
    assert (pattern.object.mm("width"), pattern.object.mm("height")) == (750, 900)


@pytest.mark.parametrize(("typed", "mm"), [("G", 4), ("g-6", 4), ("3.5", 3.5), ("H/8", 5), ("5.5 mm (I-9)", 5.5)])
def test_hooks_as_makers_name_them(tmp_path, typed, mm):
    """Letters: the Craft Yarn Council's table of hook sizes (from memory)."""
    pattern, *_ = started(tmp_path, "scarf", "", "", "", "", "", "", typed)
    assert pattern.hook_mm == mm


@pytest.mark.parametrize(("typed", "grams", "metres"), [
    ("50g (115m)", 50, 115), ("220 yards per 100 g", 100, 220 * 0.9144), ("3.5 oz / 210 yd", 3.5 * 28.349523, 210 * 0.9144),
    ("100 g = 200 m", 100, 200), ("115 m / 50 g", 50, 115),
])  # fmt: skip
def test_balls_as_their_labels_say(tmp_path, typed, grams, metres):
    pattern, *_ = started(tmp_path, "scarf", "", "", "", "", "", "", "", "", "", typed)
    assert (pattern.yarn.ball_g, pattern.yarn.ball_m) == (pytest.approx(grams), pytest.approx(metres))


def test_the_yarn_weight_is_asked_and_a_half_label_refused_kindly(tmp_path):
    pattern, asked, _ = started(
        tmp_path, "scarf", "", "", "us", "", "us", "17", "", "", "thick", "DK", "", "DK", "100g", "100g / 220 m"
    )
    assert pattern.yarn.category == 3 and pattern.yarn.ball_m == 220
    assert '"us" is no count' in asked and '"thick" is no yarn weight' in asked
    assert '"DK" is a yarn weight' in asked and '"100g" is the weight alone' in asked


def test_what_is_made_is_listed_and_what_is_not_is_told_what_to_do(tmp_path):
    _, asked, _ = started(tmp_path, "shawl", "scraf", "spectacles pouch", "14 cm", "6 cm", "4 cm", "none", "", "", "", "")
    assert "hat: a crown" in asked and "a rectangle: wrap" in asked and "perhaps scarf is meant" in asked
    for word, kind in (("fingerless gloves", "wrist warmer"), ("pencil case", "pouch"), ("coaster", "panel"),
                       ("headband", "headband")):  # fmt: skip
        assert started(tmp_path, word, "", "", "", "", "", "", "", "")[0].object.kind == kind


def test_a_cup_with_a_handle_is_asked_about(tmp_path):
    assert started(tmp_path, "mug cosy", "y", "23 cm", "8 cm", "", "", "", "")[0].object.kind == "mug wrap"
    assert started(tmp_path, "mug cosy", "n", "23 cm", "8 cm", "", "", "", "")[0].object.kind == "mug cosy"


def test_a_strap_is_measured_on_the_front_and_goes_over_flap_and_book(tmp_path):
    pattern, asked, _ = started(tmp_path, "notebook with strap", "21 cm", "30 cm", "6 cm", "2 cm", "5 cm", "", "", "", "")
    assert pattern.object.mm("strap") == pytest.approx(60 + 20 + 50) and "onto the front" in asked


def test_a_named_head_is_in_the_unit_of_what_is_measured_beside_it(tmp_path):
    """A woman's head is 21 3/4 in or so round (the sizes' own table); with a height in inches nothing is in cm."""
    pattern, _, file = started(tmp_path, "hat", "woman", "8 in", "", "", "", "")
    assert pattern.gauge.over.text == "4 in" and " cm" not in file.read_text("utf-8").split("[object]")[1].split("[colours]")[0]
    assert 540 <= pattern.object.mm("around") <= 580
    assert own_paper(file.read_text("utf-8")) == "Letter"
    metric = started(tmp_path, "hat", "woman", "", "", "", "", "")
    assert metric[0].object.unit == "cm" and own_paper(metric[2].read_text("utf-8")) == "A4"


def test_rounds_are_offered_as_rounds(tmp_path):
    asked = started(tmp_path, "hat", "child", "", "", "", "", "")[1]
    assert "close: Rnd 1: Ch 1, sc in each st around" in asked and ", turn." not in asked and "Rounds over" in asked


def test_the_title_is_asked_and_an_early_end_is_said(tmp_path):
    typed = ["scarf", "", "", "", "", "", "", "", "", "", "", "flurble, mustard", "", "Harbour scarf", "n"]
    pattern, asked, _ = started(tmp_path, *typed)
    assert pattern.title == "Harbour scarf" and "ended early" not in asked
    assert "flurble: no colour of that name is known" in asked and "mustard:" not in asked
    assert "ended early: hook, weight," in started(tmp_path, *typed[:7])[1]


def test_a_glasses_pouch_is_offered_with_the_measures_of_spectacles(tmp_path):
    """Enter throughout makes a piece for folded spectacles, 35 to 40 mm thick, about 165 x 65 mm."""
    for unit, first in (("mm", ""), ("in", "6 1/2 in")):
        pattern, *_ = started(tmp_path, "spectacles case", first, *[""] * 11)
        given = {name: pattern.object.mm(name) for name in ("width", "height", "thickness", "flap")}
        assert given == pytest.approx({"width": 165, "height": 65, "thickness": 38, "flap": 40}, abs=3.3), unit
    pattern, *_ = started(tmp_path, "pouch", *[""] * 12)
    assert pattern.object.mm("thickness") == 0


@pytest.mark.parametrize("kind", OBJECT_KINDS)
def test_every_name_of_a_kind_starts_with_what_it_offers(tmp_path, kind):
    """What is offered lies inside what may be and fits together, for whatever name was typed."""
    for word in OBJECT_KINDS[kind].called:
        pattern, *_ = started(tmp_path, word, *[""] * 12)
        assert pattern.object.kind in (kind, getattr(OBJECT_KINDS[kind].instead, "kind", ""))


def test_a_baby_blanket_says_what_a_baby_needs(tmp_path):
    pattern, *_ = started(tmp_path, "baby blanket", *[""] * 8)
    assert pattern.object.called == "baby blanket"
    assert any("cot" in said for said in cautions(pattern))
    plain, *_ = started(tmp_path, "blanket", *[""] * 8)
    assert plain.object.called == "blanket" and not any("baby" in said for said in cautions(plain) if "buttons" not in said)
    assert started(tmp_path, "panel", *[""] * 8)[0].object.called == ""


@pytest.mark.parametrize(("typed", "again", "mm"), [("7", "7 mm", 7), ("8", "H-8", 5), ("US 7", "", 4.5), ("4", "4 mm", 4), ("6.5", "", 6.5)])
def test_a_bare_number_that_is_a_us_size_too_is_asked_for_again(tmp_path, typed, again, mm):
    """US 7 is 4.5 mm and US 8 5 mm (the Craft Yarn Council's table of hook sizes, from memory)."""
    typed_in = [typed] + [again] * bool(again)
    pattern, asked, _ = started(tmp_path, "scarf", "", "", "US", "", "", "", *typed_in)
    assert pattern.hook_mm == mm and ("is a US size too" in asked) == bool(again)
    if typed == "7":
        assert started(tmp_path, "scarf", "", "", "UK", "", "", "", typed)[0].hook_mm == 7


def test_names_with_a_cover_and_an_article_are_known(tmp_path):
    for typed, kind in (("paperback cover", "book"), ("a notebook cover with a strap", "book with strap"), ("the tote", "open bag")):
        assert started(tmp_path, typed, *[""] * 10)[0].object.kind == kind


def test_what_is_offered_goes_on_in_centimetres(tmp_path):
    _, asked, _ = started(tmp_path, "scarf", "19 cm", *[""] * 8)
    assert "[150 cm]" in asked


@pytest.mark.parametrize(("typed", "kind", "word"), [
    ("cat blanket", "panel", "blanket"), ("coin purse", "pouch", "purse"), ("a beanie for the baby", "hat", "beanie"),
    ("wool-lined laptop case", "sleeve", "laptop case"), ("my note book", "book", "book"), ("phone sock", "sleeve", ""),
])  # fmt: skip
def test_words_before_a_known_name_are_kept_and_it_is_said_what_is_made(tmp_path, typed, kind, word):
    pattern, asked, _ = started(tmp_path, typed, "", "", "", "", "", "", "", "")
    assert pattern.object.kind == kind and pattern.object.called == " ".join(typed.split())
    assert (f'"{typed}" is made as {word}' in asked) == bool(word)


@pytest.mark.parametrize(("typed", "says"), [
    ("planner cover", "the nearest: book cover (book), notebook cover with strap (book with strap), cushion cover"),
    ("flask holder with cosy", "the nearest: mug cosy, mug cosy with handle (mug wrap)"),
    ("pot holders", "dense and double"), ("dog coat", "shaped garments are written row by row"),
    ("felt mittens", "fingerless gloves"), ("scraf", "perhaps scarf is meant"), ("qux", "the kinds: book, book with strap,"),
])  # fmt: skip
def test_what_is_not_made_is_refused_with_the_nearest_kinds(tmp_path, typed, says):
    _, asked, _ = started(tmp_path, typed, "scarf", "", "", "", "", "", "", "")
    (refused,) = (line for line in asked.splitlines() if "not one of what is made here" in line)
    assert says in refused and refused.count("(") < 8


@pytest.mark.parametrize(("typed", "measures", "says"), [
    ("pram blanket", (), "keep it out of the cot"), ("throw", (), ""), ("cotton blanket", (), ""),
    ("headband", ("38 cm",), "take the band off for sleep"), ("headband", ("55 cm",), ""),
    ("hat", ("43 cm",), "take the hat off for sleep"),
])  # fmt: skip
def test_what_is_for_a_baby_has_its_caution_and_nothing_else_has(tmp_path, typed, measures, says):
    pattern, *_ = started(tmp_path, typed, *measures, *[""] * 8)
    said = " ".join(cautions(pattern))
    assert says in said and ("For a baby" in said) == bool(says)


def test_what_goes_on_a_leg_is_asked_of_the_foot_and_says_nothing_of_a_hand(tmp_path):
    for word in ("leg warmers", "boot cuffs"):
        pattern, asked, file = started(tmp_path, word, "", "", "", "", "tall", "16", "8")
        assert pattern.object.kind == "leg warmer" and pattern.object.called == word
        assert "instep" in asked and "thumb" not in asked and "knuckles" not in asked
        checked = engrave.check(file.read_text("utf-8"), "piece.toml")
        said = " ".join([engrave.instructions(file.read_text("utf-8"), "piece.toml", engrave.Setting()),
                         *(note.says for note in checked.notes)])  # fmt: skip
        assert "to go over the foot" in said and "thumb" not in said and "the hand" not in said
        assert "hardly go on" not in said, "what is offered can be put on"


@pytest.mark.parametrize(("typed", "warned"), [
    ("placemat", True), ("set of coasters", True), ("table runner", True), ("scarf", False), ("bath mat", False), ("tote", False),
])  # fmt: skip
def test_what_lies_under_dishes_says_that_it_guards_no_table(tmp_path, typed, warned):
    pattern, *_ = started(tmp_path, typed, *[""] * 9)
    assert any("guards no table" in says for says in cautions(pattern)) == warned
    assert not any("pot holder" in says for says in cautions(pattern))


def test_a_cosy_is_told_once_that_it_is_no_pot_holder(tmp_path):
    for handle in ("y", "n"):
        pattern, *_ = started(tmp_path, "mug cosy", handle, "23 cm", "8 cm", "", "", "", "")
        assert len([says for says in cautions(pattern) if "pot" in says]) == 1
