"""A tube that sits on the wrist has to go over the hand first: how far it stretches there, and what is said of it."""

import pytest
from hookfold.charts import engrave
from hookfold.charts.output.start import Start, over_range, starter
from hookfold.charts.setting import Setting

CUFF = """title = "Night-bus cuffs"
terms = "US"
[gauge]
stitches = 20
rows = 20
over = "10 cm"
[object]
kind = "wrist warmer"
around = "160 mm"
{hand}
height = "90 mm"
stretch = ["{low} %", "20 %"]
[[section]]
name = "cuff"
length = "height"
work = "Rnd 1: Ch 1, {stitch} in each st around, join with sl st."
"""


def checked(stitch="sc", low=10, hand='hand = "200 mm"'):
    return engrave.check(CUFF.format(stitch=stitch, low=low, hand=hand), "cuff.toml")


def test_how_far_it_stretches_over_the_hand_is_said():
    """160 / 1.1 = 145.5 mm: 29 stitches of 5 mm, 145 mm; 200 / 145 = 1.379."""
    report = checked()
    assert report.facts["fit"]["stitches"] == 29
    (said,) = [line for line in report.says if line.startswith("over the hand")]
    assert "200 mm: it has to stretch 37.9 %" in said


@pytest.mark.parametrize(("stitch", "low", "tight"), [("sc", 10, True), ("dc", 10, True), ("dc", 6, False), ("sc", 0, False)])
def test_it_is_remarked_on_where_its_stitch_does_not_give_so_far(stitch, low, tight):
    """Of 5 mm: 30 stitches at 6 % (200 / 150 = 1.333, dc gives 0.35), 32 at 0 % (200 / 160 = 1.25, sc gives 0.25)."""
    notes = [note for note in checked(stitch, low).notes if note.where == "Fit over the hand"]
    assert bool(notes) == tight
    assert all("more stitches" in note.says and ("a taller stitch" in note.says) == (stitch == "sc") for note in notes)


def test_a_hand_that_was_not_measured_is_reckoned_from_the_wrist():
    """A quarter more than round the wrist (common practice, no source): 160 x 1.25 = 200 mm."""
    (said,) = [line for line in checked(hand="").says if line.startswith("over the hand")]
    assert "200 mm, reckoned from the way round it" in said


def test_the_words_say_how_both_edges_are_worked():
    said = engrave.instructions(CUFF.format(stitch="hdc", low=5, hand='hand = "204 mm"'), "cuff.toml", Setting())
    assert "Work the foundation chain and the last round loosely" in said.split("## Foundation")[0]
    finishing = said.split("## Finishing")[1]
    assert finishing.index("pull the last round open: it has to reach 204 mm") < finishing.index("Fasten off and weave")


@pytest.mark.parametrize(("hand", "stitch", "stitches"), [("20 cm", "close", 18), ("21 cm", "tall", 14), ("25 cm", "ridges", 21)])
def test_a_started_range_lets_it_go_over_the_hand_as_its_stitch_allows(hand, stitch, stitches):
    """No count may be missing, and it stretches over the hand by what its stitch gives, or as little as holds it on."""
    start = Start("wrist warmer", "Cuff", {"around": "17 cm", "hand": hand, "height": "10 cm"}, stitches, 16, stitch=stitch)
    low, high = over_range(start)
    assert 0 <= low < high <= 0.2
    report = engrave.check(starter(start), "cuff.toml")
    assert not report.problems
    most, hand_mm = {"tall": 0.35}.get(stitch, 0.25), 10 * float(hand.split()[0])
    worked_mm = report.facts["fit"]["stitches"] * 100 / stitches
    assert hand_mm / worked_mm - 1 <= most + 1e-9 or low == 0
