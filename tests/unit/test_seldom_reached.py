"""What few tests come by, each held to a fact of its own: rooms where faults of one token were noticed least."""

import io
import zipfile

import numpy as np
import pytest
from hookfold.charts.model.rows.work import work_text
from hookfold.charts.output.texts.formats import formatted
from hookfold.charts.pattern.head_forms import _roman
from hookfold.charts.pattern.place_writer import write_nth
from hookfold.charts.pattern.written.layout import heads_joined
from hookfold.charts.picture.views import turned
from hookfold.charts.picture.yarn import Bundle

NTHS = {1: "st", 2: "nd", 3: "rd", 4: "th", 10: "th", 11: "th", 13: "th", 20: "th", 21: "st", 101: "st", 111: "th", 121: "st", 122: "nd"}


@pytest.mark.parametrize("number", NTHS)
def test_numbers_in_their_order_end_as_they_are_spoken(number):
    assert write_nth(number) == f"{number}{NTHS[number]}"


ROMANS = {"I": 1, "II": 2, "IV": 4, "V": 5, "VIII": 8, "IX": 9, "X": 10, "XIV": 14, "XXXIX": 39, "": 0, "IIX": 0, "VV": 0}


@pytest.mark.parametrize("letters", ROMANS)
def test_roman_numbers(letters):
    assert _roman(letters) == ROMANS[letters]


def test_a_head_broken_over_two_lines_is_joined_on_the_second_where_another_row_stands_before_it():
    lines = ["Rnd 1: 6 sc in ring, join. (6) Rnd", "2: Ch 1, 2 sc in each st, join. (12)", "Rnd 3: Ch 1, sc in each st."]
    assert heads_joined(lines) == [lines[0][:-4], "Rnd 2: Ch 1, 2 sc in each st, join. (12)", lines[2]]


def test_a_head_broken_alone_is_joined_on_the_first():
    assert heads_joined(["Round", "2: 12 sc around.", "Round 3: 12 sc."]) == ["Round 2: 12 sc around.", "", "Round 3: 12 sc."]


def test_a_piece_turned_over_lies_in_its_own_box_with_its_back_to_the_front():
    points = np.array([[[1.0, 5.0, 0.25], [2.0, 6.0, -0.5]]], dtype=np.float32)
    bundle = Bundle(points, np.zeros(1, dtype=np.int32), np.zeros(1, dtype=np.int32))
    box = (1.0, 4.0, 9.0, 7.0)
    over = turned(bundle, box)
    assert over.points.tolist() == [[[9.0, 5.0, -0.25], [8.0, 6.0, 0.5]]]
    assert np.array_equal(turned(over, box).points, points)


def test_a_group_is_what_stands_together_in_one_place_and_one_stitch_is_none():
    start = "Ch 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 sc)\n"
    plain = work_text(start + "Row 2: Ch 1, turn, sc in each st across. (10 sc)").fabric.rows[-1].row
    groups = work_text(start + "Row 2: Ch 1, turn, sc in first st, 3 sc in next st, sc in next 8 sts. (12 sc)").fabric.rows[-1].row
    assert plain.groups == ()
    assert [(begun, number) for begun, number, _ in groups.groups] == [(2, 3)]


def test_no_clock_is_in_a_document():
    with zipfile.ZipFile(io.BytesIO(formatted("# Mat\n\nCh 11.\n", "docx"))) as parts:
        assert {entry.date_time for entry in parts.infolist()} == {(2000, 1, 1, 0, 0, 0)}
