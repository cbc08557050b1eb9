"""What was passed over among rows and names work is said at its row; talk is not (common practice, no source)."""

from __future__ import annotations

import pytest
from hookfold.charts import engrave
from hookfold.charts.pattern.notation.talk.named_work import named_work

FLAT = (
    "Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across. (20 sc)\nRow 2: Ch 1, turn{}, sc in each st across{}.{}\n{}"
    "Row 3: Ch 1, turn, sc in each st across. (20 sc)\n"
)
WORK = (
    "skip 3 before the edge", "miss out every sixth stitch", "five in each corner", "leave the last two sts unworked", "go round the post of every fourth one",
    "wrap the yarn twice for each of the last 5", "without the final chain", "one more ch-2 sp on each side", "skip one, work two, to the end", "the last petal has only 4 dc",
    "alternate hdc and sc", "drop the last three", "work into the spaces instead of the stitches", "every seventh st is doubled",
)  # fmt: skip
TALK = (
    "you should still have 20 stitches", "this row is worked on the wrong side", "place a marker in the first stitch of each row", "the square now has four corners",
    "photo 3: the second row", "16 sts and 18 rows make 10 cm", "it is easy to miss the last stitch", "beginners often lose a stitch here", "use a blunt needle for the tails",
    "do you see the three ridges?", "if you like a firmer fabric, take a smaller hook", "that's row two finished", "weave in your ends as you go", "11 dc per side",
)  # fmt: skip
#: Where a sentence may stand: in a bracket within the row and behind it, on a line of its own, as a note or a tip.
PLACES = (" ({low})", "", "", ""), ("", " ({low})", "", ""), ("", "", "", "{said}.\n"), ("", "", "", "Tip: {said}.\n"), ("", "", " Note: {said}.", "")


@pytest.mark.parametrize("said", WORK)
def test_what_names_work_is_known(said):
    assert named_work(said)


@pytest.mark.parametrize(
    "said", [*TALK, "to make a bobble, work 5 dc in the same place", "cluster: 3 tr in the same sc, keeping the last loop of each on the hook"]
)
def test_what_speaks_of_the_piece_names_no_work(said):
    assert named_work(said) == 0


def _checked(said: str, place: tuple[str, ...], count: str) -> dict:
    put = [part.format(low=said, said=said[0].upper() + said[1:]) for part in place]
    text = FLAT.format(put[0], put[1], f"{count}{put[2]}", put[3])
    return engrave.check(text, "a.txt").as_json()


@pytest.mark.parametrize("said", WORK)
@pytest.mark.parametrize("place", PLACES)
def test_work_that_nothing_is_done_with_is_said_at_its_row(said, place):
    report = _checked(said, place, " (20 sc)")
    told = [one for one in report["problems"] + report["notes"] if one["where"] == "Row 2"]
    read = next(row["read_as"] for row in report["rows"] if row["label"] == "Row 2")
    assert told or read != "Ch 1, turn. Sc in each st across."


@pytest.mark.parametrize("said", ["skip 3 before the edge", "miss out every sixth stitch", "five in each corner", "leave the last two sts unworked"])
@pytest.mark.parametrize("place", PLACES[:4])
def test_without_a_count_what_plainly_tells_work_is_a_problem(said, place):
    assert any(problem["where"] == "Row 2" for problem in _checked(said, place, "")["problems"])


@pytest.mark.parametrize("said", TALK)
@pytest.mark.parametrize("place", PLACES[2:4])
@pytest.mark.parametrize("count", ["", " (20 sc)"])
def test_talk_on_a_line_of_its_own_is_neither_problem_nor_note_of_work(said, place, count):
    report = _checked(said, place, count)
    assert report["problems"] == [] and not any("names work" in note["says"] for note in report["notes"])


@pytest.mark.parametrize("said", ["ending with voot", "ending with a voot", "glimmerpuff"])
def test_a_made_up_stitch_is_told(said):
    report = engrave.check(FLAT.format("", f", {said}", " (20 sc)", ""), "a.txt").as_json()
    assert [problem["where"] for problem in report["problems"]] == ["Row 2"]


@pytest.mark.parametrize("said", ["beautiful", "loosely", "afterwards", "with Sand"])
def test_a_word_of_manner_or_a_yarn_is_no_stitch(said):
    assert engrave.check(FLAT.format("", f", {said}", " (20 sc)", ""), "a.txt").as_json()["problems"] == []


SQUARE = (
    "Ch 5, join with sl st to form ring.\nRnd 1: Ch 3, 2 dc in ring, ch 2, (3 dc in ring, ch 2) 3 times, join with sl st in top of ch-3.{}\n"
    "Rnd 2: Ch 1, sc in each dc and 3 sc in each ch-2 sp around, join with sl st in first sc.{}\n"
)


@pytest.mark.parametrize("first", [" (3 dc on each side)", " 3 dc per side.", "\nYou should have 3 dc on each side."])
@pytest.mark.parametrize("second", [" (6 sc per side)", " (3 sc between corners)", "\nThere should be 3 sc on each side plus corners."])
def test_sides_that_are_as_told_are_right(first, second):
    report = engrave.check(SQUARE.format(first, second), "a.txt").as_json()
    assert report["problems"] == [] and not any("checked" in note["says"] for note in report["notes"])


@pytest.mark.parametrize(("first", "second", "where"), [
    (" (4 dc on each side)", "", "Rnd 1"), (" 5 dc per side.", "", "Rnd 1"), (" (20 sts between corners)", "", "Rnd 1"), ("\nYou should have 2 dc on each side.", "", "Rnd 1"),
    (" (3 dc per side)", " (8 sc per side)", "Rnd 2"), (" (5 dc in each side plus corners)", "", "Rnd 1"),
])  # fmt: skip
def test_sides_that_are_not_as_told_are_wrong(first, second, where):
    report = engrave.check(SQUARE.format(first, second), "a.txt").as_json()
    assert [problem["where"] for problem in report["problems"]] == [where]


def test_sides_that_are_not_known_are_noted_as_not_checked():
    report = engrave.check(FLAT.format("", "", " (10 sc on each side)", ""), "a.txt").as_json()
    assert report["problems"] == [] and ["was not checked" in note["says"] for note in report["notes"]] == [True]
