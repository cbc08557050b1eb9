"""What checking says of each row of a written pattern, in one sentence, in the list of rows and row by row."""

import jsonschema
import pytest
from hookfold.charts import engrave
from hookfold.charts.output.checking.report_schema import report_schema
from hookfold.charts.output.checking.sizes_read import SizeUnknown, all_names, which
from hookfold.charts.output.checking.verdict import STATES

BEAR = """Little bear
Stuff it as you go.

Head
Rnd 1: 6 sc in magic ring. (6)
Rnd 2: Inc in each st around. (12)
Rnds 3-5: Sc in each st around. (12)
Fasten off.

Arm (make 2)
Rnd 1: 5 sc in magic ring. (5)
Rnd 2: Inc in each st around. (10)
Rnd 3: Sc around.
Rnd 4: Sc in next 3 sts, wob in next st. (10)
Rnd 5: Sc in each st around. (11)
"""
HAT = """Sizes: Small (Medium, Large)
Rnd 1: Make a magic ring, ch 2, 10 (11, 12) dc in ring, join. 10 (11, 12) dc
Rnd 2: Ch 2, 2 dc in each st around, join. 20 (22, 24) dc
Rnd 3: Ch 2, dc in each st around, join.
"""
STRIP = "Terms: US\nCh 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 sc)\n"


def row(number, words="Ch 1, turn. Sc in each sc across.", stated=""):
    return f"Row {number}: {words}{f' ({stated} sc)' if stated else ''}\n"


def lines(text, **asked):
    return engrave.check(text, "x.txt").lines(**asked)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (STRIP, "1 row: agrees with the count stated"),
        (STRIP + row(2, stated=10), "2 rows: all agree with the counts stated"),
        (STRIP.replace(" (10 sc)", ""), "1 row: it states no count to compare with"),
        (STRIP.replace(" (10 sc)", "") + row(2), "2 rows: none states a count to compare with"),
        (STRIP + row(2) + row(3, stated=10), "3 rows: 2 agree with the counts stated, 1 states none"),
        (STRIP + row(2, stated=9), "2 rows: 1 agrees with the count stated, 1 is wrong (Row 2)"),
        (STRIP + row(2, "Ch 1, turn. Wob in each sc across."), "2 rows: 1 agrees with the count stated, "
         "1 cannot be read (Row 2)"),
        (STRIP + row(2, "Ch 1, turn. Sc in next 14 sc.") + row(3) + row(4),
         "4 rows: 1 agrees with the count stated, 1 is wrong (Row 2), 2 are not checked (Rows 3-4)"),
    ],
)  # fmt: skip
def test_the_verdict(text, said):
    assert lines(text)[1] == said


def test_each_part_has_its_verdict_and_the_rows_are_named_with_it():
    said = lines(BEAR)
    assert said[1] == (
        "10 rounds: 7 agree with the counts stated, 1 states none, 1 agrees, but comes after a row in doubt (Arm Rnd 5)"
        ", 1 cannot be read (Arm Rnd 4)"
    )
    assert said[2] == "  Head, 5 rounds: all agree with the counts stated"
    assert said[3].startswith("  Arm (make 2), 5 rounds: 2 agree")
    assert "  Rnds 3-5 (RS): 12 sts each" in said and "  Rnd 4 (RS): not read, see below" in said


def test_parts_without_a_heading_are_numbered():
    said = lines(STRIP + "Fasten off.\n" + STRIP.removeprefix("Terms: US\n").replace("(10 sc)", "(9 sc)"))
    assert said[1] == "2 rows: 1 agrees with the count stated, 1 is wrong (Part 2 Row 1)"


def test_parts_under_one_heading_are_told_apart():
    text = "Turtle\nRnd 1: 6 sc in magic ring. (6)\nFasten off.\n\nRnd 1: 5 sc in magic ring. (6)\n"
    said = lines(text)
    assert said[1].endswith("1 is wrong (Turtle (part 2) Rnd 1)") and "Turtle" in said and "Turtle (part 2)" in said


def test_the_terms_come_with_why_they_are_so():
    assert "US terms: the text says so" in lines(STRIP)
    missed = "Ch 21.\nRow 1: Dc in 2nd ch from hook and in each ch.\nRow 2: 1ch, miss first dc, tr in each dc, turn.\n"
    assert 'UK terms: "miss" is said for skip' in lines(missed)


def test_what_was_assumed_is_said_in_a_line_each():
    text = "Multiple of 4 + 2.\nRow 1: Sc in 2nd ch from hook and in each ch across.\n"
    report = engrave.check(text, "x.txt")
    assert report.assumed
    assert [f"Assumed: {said}" for said in report.assumed] == [x for x in report.lines() if x.startswith("Assumed")]


def test_explained_rows_show_their_words_and_counts():
    said = lines(BEAR, explain=True)
    at = said.index("Rnd 2 (RS), line 6: 12 sts, as stated")
    assert said[at + 1].strip().startswith("2 sc in each st")
    assert "Rnds 3-5 (RS), line 7: 12 sts each, as stated" in said
    assert "Rnd 3 (RS), line 13: 10 sts, no count stated" in said
    assert any("As far as it was read" in line for line in said)


def test_explained_rows_begin_with_the_stitches_the_text_explains():
    own = "Own stitch (os): (dc, ch 1, dc) in same st.\nCh 11"
    text = STRIP.replace("Ch 11", own) + row(2, "Ch 3, turn. Os in each sc across.")
    said = lines(text, explain=True)
    assert said.index("Own stitch (os): (dc, ch 1, dc) in st indicated.") < said.index("Begins with a chain of 11")


def test_talk_is_shown_with_its_lines_when_asked_for_and_counted_else():
    talk = engrave.check(BEAR, "x.txt").prose
    assert f"{len(talk)} lines were taken as talk, not as work; --prose shows them" in lines(BEAR)
    assert "  line 2: Stuff it as you go." in lines(BEAR, prose=True)
    assert "No line was taken as talk." in lines(STRIP, prose=True)


@pytest.mark.parametrize("width", [48, 80])
def test_no_line_is_longer_than_the_terminal(width):
    said = lines(BEAR, explain=True, prose=True, width=width)
    assert max(map(len, said)) <= width
    assert not any(line.endswith(("Rnd", "Row", "line")) for line in said)


def test_sizes_are_named_and_the_one_read_is_said():
    small, large = engrave.check(HAT, "hat.txt"), engrave.check(HAT, "hat.txt", "large")
    assert [r["stitches"] for r in small.as_json()["rows"]] == [10, 20, 20]
    assert [r["stitches"] for r in large.as_json()["rows"]] == [12, 24, 24]
    assert (small.size, large.size) == ("small", "large") and not small.problems
    assert any("3 sizes (small, medium, large)" in line and "for large" in line for line in large.lines())


def test_a_mistake_of_another_size_is_no_mistake_of_the_rows_shown():
    off = HAT.replace("20 (22, 24)", "20 (22, 25)")
    report = engrave.check(off, "hat.txt")
    assert [p.where for p in report.problems] == ["Rnd 2"] and report.problems[0].says.startswith("size large: ")
    assert report.lines()[1] == "3 rounds: 2 agree with the counts stated, 1 states none"
    assert engrave.check(off, "hat.txt", "3").lines()[1].endswith("is wrong (Rnd 2)")


@pytest.mark.parametrize(
    ("names", "asked", "place"),
    [
        (("small", "medium", "large"), "Large", 2),
        (("small", "medium", "large"), "m", 1),
        (("small", "medium", "large"), "1", 0),
        (("6", "8", "10"), "8", 1),
        (("6", "8", "10"), "3", 2),
        (("baby", "child small", "child large"), "child  small", 1),
    ],
)
def test_a_size_is_found_by_name_by_its_beginning_or_by_place(names, asked, place):
    assert which(names, asked) == place


@pytest.mark.parametrize(
    ("names", "asked"), [(("s", "m"), "xl"), (("s", "m"), "0"), (("s", "m"), "3"), (("s", "m"), " "),
                         (("child small", "child large"), "child"), ((), "1")],
)  # fmt: skip
def test_a_size_that_is_not_there_is_said_with_what_to_do(names, asked):
    with pytest.raises(SizeUnknown, match="--size"):
        which(names, asked)


def test_sizes_without_names_are_called_by_their_places():
    assert all_names(3, ()) == ("1", "2", "3") and all_names(3, ("s", "m")) == ("s", "m", "3")
    assert all_names(1, ()) == ()


@pytest.mark.parametrize("text", [BEAR, HAT, STRIP + row(2, stated=9) + row(3), "", "Dear Anna, the hat is lovely."])
def test_reports_hold_to_the_schema_and_count_every_row_once(text):
    report = engrave.check(text, "x.txt").as_json()
    jsonschema.validate(report, report_schema(), jsonschema.Draft202012Validator)
    found = report["verdict"] or {"rows": 0}
    assert found["rows"] == len(report["rows"]) == sum(piece["rows"] for piece in report["pieces"])
    assert sum(found.get(state.replace(" ", "_"), 0) for state in STATES) == found["rows"]


def test_what_the_report_says_of_a_text_of_two_pieces():
    report = engrave.check(BEAR, "bear.txt").as_json()
    assert [(p["name"], p["make"], p["rows"]) for p in report["pieces"]] == [("Head", 1, 5), ("Arm", 2, 5)]
    first, last = report["rows"][0], report["rows"][-1]
    assert (first["part"], first["line"], first["proved"], first["verdict"]) == ("Head", 5, "yes", "agrees")
    assert first["read_as"] and (last["proved"], last["verdict"]) == ("stated", "agrees after doubt")
    assert {"line": 2, "text": "Stuff it as you go."} in report["prose"]
    assert report["terms"] == "US" and report["terms_why"] and report["size_read"] is None


def test_a_pattern_file_is_not_read_in_one_size():
    with pytest.raises(SizeUnknown, match="leave --size out"):
        engrave.check('title = "Mat"', "mat.toml", "M")


FLAP = "Side flap\nRow 1: Ch 1, sc in first st, *ch 3, skip 3 sts, sc in next st; rep from * across, turn.\n"


def test_rows_that_nothing_is_told_of_are_no_clean_bill():
    said = lines(FLAP + row(2), explain=True)
    why = "the pattern does not say what Side flap begins with"
    assert said[0] == f"x.txt: no problem found, but none of 2 rows was checked: {why}"
    assert f"Rows are not checked: {why}" in said


def test_the_verdict_says_how_many_rows_it_does_not_speak_of():
    edge = "Border\nRnd 1: Sc evenly around the whole piece, join.\nRnd 2: Ch 1, sc in each sc around, join.\n"
    report = engrave.check(STRIP + row(2, stated=10) + "Fasten off.\n\n" + edge, "x.txt")
    why = "how many stitches Rnd 1 makes along the edge is not said"
    assert report.lines()[0] == f"x.txt: no problem found, but 2 of 4 rows and rounds were not checked: {why}"
    found = report.as_json()
    jsonschema.validate(found, report_schema())
    assert [piece["unchecked_why"] for piece in found["pieces"]] == [None, why]


def test_one_row_alone_is_not_called_one_of_one():
    assert lines(FLAP)[0].startswith("x.txt: no problem found, but its only row was not checked: the pattern")


@pytest.mark.parametrize(("said", "counted"), [(12, 12), (15, 15)])
def test_slip_stitches_into_spaces_count_as_the_pattern_counts_them(said, counted):
    text = (
        "Make a magic ring.\nRnd 1: 6 sc in ring, join. (6)\n"
        "Rnd 2: Ch 1, (2 sc in next sc, ch 1, skip next sc) 3 times, join. (6 sc)\n"
        f"Rnd 3: Ch 1, (2 sc in next sc, 2 sc in next sc, sl st in next ch-1 sp) 3 times, join. ({said} sts)\n"
    )
    read = engrave.check(text, "ring.txt").as_json()
    assert read["problems"] == []
    assert read["rows"][-1]["stitches"] == counted
