"""What stands beside the stitches: numbers with arrows, counts, and where yarn begins and ends.

Source: that a chart marks where work begins, where yarn is joined and cut, and which way rounds go, is common practice
of printed charts, no source.
"""

import math
import re
from pathlib import Path

import pytest
import svg_ruler
from hookfold.charts import engrave
from hookfold.charts.drawing.svg import write
from hookfold.charts.layout.chart.condense import fold_rows
from hookfold.charts.layout.chart.either import chart_document
from hookfold.charts.layout.labels.among import Wanted, labels_of
from hookfold.charts.layout.labels.round_numbers import name_of
from hookfold.charts.layout.rounds.lay import lay_rounds
from hookfold.charts.model.rows.work import work_text
from hookfold.charts.setting import ChartSetting, Heading, Setting
from shapely import Polygon, box

SCARF = Path(__file__).parents[3] / "gallery" / "bench-scarf" / "pattern.toml"
DENSE = """Ch 6, join with sl st in first ch to form ring.
Rnd 1: Ch 1, 12 sc in ring, join with sl st in first sc.
Rnd 2: Ch 1, 2 sc in each sc around, join with sl st in first sc.
Rnd 3: Ch 1, *sc in next sc, 2 sc in next sc; rep from * around, join with sl st in first sc. Fasten off.
Rnd 4: Join B with sl st in any sc, ch 3 (counts as dc), dc in each sc around, join with sl st in top of beg ch-3.
Rnd 5: Ch 1, sc in each dc around, join with sl st in first sc. Fasten off.
"""
GROWING = """Ch 6, join with sl st in first ch to form ring.
Rnd 1: Ch 5 (counts as dc and ch 2), [dc in ring, ch 2] 7 times, join with sl st in 3rd ch of beg ch-5.
Rnd 2: Ch 1, *sc in next dc, 2 sc in next ch-2 sp; rep from * around, join with sl st in first sc.
Rnd 3: Ch 6 (counts as dc and ch 3), skip next 2 sc, *dc in next sc, ch 3, skip next 2 sc; rep from * around, \
join with sl st in 3rd ch of beg ch-6.
Rnd 4: Ch 1, 4 sc in each ch-3 sp around, join with sl st in first sc.
"""
FLAT = """Ch 13.
Row 1 (RS): Sc in 2nd ch from hook and in each ch across, turn.
Row 2: Ch 1, sc in each sc across. Fasten off.
Row 3: Join B with sl st in first sc, ch 1, sc in each sc across, turn.
Row 4: Ch 1, sc in each sc across. Fasten off.
"""


def worked(text):
    found = work_text(text)
    assert not found.problems
    return found.fabric


def sheet_of(text, **more):
    (sheet,) = chart_document(worked(text), Heading("Try"), Setting(**more)).sheets
    return svg_ruler.read(write(sheet))


def ids(text, **more):
    (sheet,) = chart_document(worked(text), Heading("Try"), Setting(**more)).sheets
    return re.findall(r'id="((?:begin|join-yarn|fasten-off)[^"]*)"', write(sheet).decode())


def words(sheet):
    return list(dict.fromkeys(said for said, _ in sheet.texts))


@pytest.mark.parametrize("text", [DENSE, FLAT], ids=["rounds", "rows"])
@pytest.mark.parametrize("hand", ["right", "left"])
def test_begin_join_and_cut_are_marked_once_each_where_they_happen(text, hand):
    """One work begun, one yarn joined to it, two cut; solid marks apart from lines, and each named in the key."""
    found = sorted(re.sub(r"(-solid)?(-\d+)?$", "", name) for name in ids(text, hand=hand))
    assert found == ["begin", "fasten-off", "fasten-off", "join-yarn"]
    sheet = sheet_of(text, hand=hand)
    assert {"begin", "join yarn", "fasten off"} <= set(words(sheet))
    assert svg_ruler.marks_over(sheet) == svg_ruler.text_over_glyphs(sheet) == svg_ruler.outside(sheet) == []


def test_words_that_close_a_round_join_no_yarn():
    """Only after a cut can a yarn without a name be joined."""
    joined = "Rnd 2: Join with sl st in first sc, ch 1, 2 sc in each sc around."
    for end, joins in (("", False), (" Fasten off.", True)):
        rows = worked(f"Make a magic ring.\nRnd 1: Ch 1, 6 sc in ring.{end}\n{joined}").rows
        assert [row.joins for row in rows] == [False, joins]


def test_a_cut_after_the_last_time_is_said_and_not_marked_inside_the_repeat():
    text = "Ch 9.\nRow 1: Dc in 4th ch from hook and in each ch across, turn.\n"
    text += "\n".join(f"Row {n}: Ch 3 (counts as dc), dc in next 6 sts, turn." for n in range(2, 9))
    folded = fold_rows(worked(text + "\nRow 9: Ch 3 (counts as dc), dc in next 6 sts. Fasten off."))
    assert not any(row.cut for row in folded.fabric.rows) and folded.cut_after == 9
    assert len(folded.fabric.rows) < 9
    kept = fold_rows(worked(text[:-1] + "; do not fasten off."))
    assert not any(row.cut for row in kept.fabric.rows) and not kept.cut_after


def arrows(sheet):
    """Where the arrows of numbers point: the middle of each, and the way from its tail to its head."""
    marks = [shape for name, shape in sheet.marks if name == "round-numbers"]
    pairs = zip(marks[::2], marks[1::2], strict=True)
    return [(line.centroid, (end.centroid.x - line.centroid.x, end.centroid.y - line.centroid.y)) for line, end in pairs]


@pytest.mark.parametrize(("hand", "turn"), [("right", -1.0), ("left", 1.0)])
def test_arrows_of_rounds_go_the_way_of_the_work(hand, turn):
    """Counter-clockwise for a right-hander, clockwise for a left-hander (common practice, no source)."""
    sheet = sheet_of(DENSE, hand=hand)
    centre = next(g.ink for g in sheet.glyphs if g.row == "round-1" and g.kind == "sc").centroid
    rows = [g.ink.centroid for g in sheet.glyphs if g.row == "round-1" and g.kind == "sc"]
    x, y = sum(p.x for p in rows) / len(rows), sum(p.y for p in rows) / len(rows)
    assert math.dist((x, y), (centre.x, centre.y)) > 1.0
    found = arrows(sheet)
    assert len(found) >= 3
    for at, (dx, dy) in found:
        # y grows downward, so a positive cross product is clockwise on the sheet.
        assert ((at.x - x) * dy - (at.y - y) * dx) * turn > 0.0


def long(shape):
    """How long a thin shape is."""
    (a, b), (c, d), (e, f), *_ = shape.minimum_rotated_rectangle.exterior.coords
    return max(math.dist((a, b), (c, d)), math.dist((c, d), (e, f)))


@pytest.mark.parametrize("hand", ["right", "left"])
def test_arrows_of_rounds_have_one_size(hand):
    sheet = sheet_of(DENSE, hand=hand)
    marks = [shape for name, shape in sheet.marks if name == "round-numbers"]
    found = [long(line.union(end)) for line, end in zip(marks[::2], marks[1::2], strict=True)]
    assert len(found) >= 3
    assert max(found) - min(found) < 0.05 and min(found) > 1.9


@pytest.mark.parametrize("hand", ["right", "left"])
def test_a_count_can_be_taken_only_for_that_of_its_own_round(hand):
    """Each count is clearly nearer to its round's number than to any other."""
    found = labels_of(lay_rounds(worked(GROWING), hand), None, Wanted(hand, True, False, 6), 9.0, (-99.0, -99.0, 99.0, 99.0))
    numbers = {label.row: box(*label.words_box) for label in found.labels if label.is_number}
    counts = [label for label in found.labels if not label.is_number]
    assert len(numbers) == 4 and len(counts) >= 2
    for count in counts:
        far = {row: box(*count.box).distance(number) for row, number in numbers.items()}
        mine = far.pop(count.row)
        assert min(far.values()) > mine + 1.0


@pytest.mark.parametrize("hand", ["right", "left"])
def test_marks_of_the_yarn_stand_square_to_their_round_or_along_it(hand):
    """The middle line of scissors, from between their rings to their blades, lies across the dot that closes its round,
    or along it."""
    sheet = sheet_of(DENSE, hand=hand)
    dots = [g.ink for g in sheet.glyphs if g.kind == "join-solid"]
    scissors = [s for name, s in sheet.marks if name == "yarn-marks" and len(getattr(s, "interiors", ())) == 2]
    assert len(scissors) == 2
    for mark in scissors:
        rings = [Polygon(hole).centroid for hole in mark.interiors]
        tip = mark.centroid
        x, y = (rings[0].x + rings[1].x) / 2.0 - tip.x, (rings[0].y + rings[1].y) / 2.0 - tip.y
        dot = min(dots, key=mark.distance)
        (a, b), (c, d), (e, f), *_ = dot.minimum_rotated_rectangle.exterior.coords
        long_way = (c - a, d - b) if math.dist((a, b), (c, d)) > math.dist((c, d), (e, f)) else (e - c, f - d)
        turn = math.degrees(math.atan2(y, x) - math.atan2(long_way[1], long_way[0]))
        assert abs(math.remainder(turn, 90.0)) < 6.0


def test_every_round_has_its_number_and_counts_are_drawn_or_said():
    sheet = sheet_of(DENSE)
    said = " ".join(words(sheet))
    for row in worked(DENSE).rows:
        assert str(row.number) in " ".join(words(sheet)).split() or f"{row.number} B" in words(sheet)
        assert f"({row.row.made})" in words(sheet) or f"rnd {row.number}: {row.row.made}" in said
    assert not any(re.fullmatch(r"\(\d+\)", w) for w in words(svg_ruler.read(write(without_counts()))))


def without_counts():
    (sheet,) = chart_document(worked(DENSE), Heading("Try"), Setting(), extra=ChartSetting(counts=False)).sheets
    return sheet


def test_a_pattern_file_ends_with_its_yarn_cut():
    """Finishing begins with "Fasten off" (common practice, no source)."""
    rows = engrave.work_file(SCARF.read_text("utf-8"), SCARF.name).fabric.rows
    assert [row.number for row in rows if row.cut] == [rows[-1].number]


BALL = """Terms: US
Make a magic ring.
Rnd 1: Ch 1, 6 sc in ring, join with sl st in first sc. (6 sc)
Rnd 2: Ch 1, 2 sc in each sc around, join with sl st in first sc. (12 sc)
Rnd 3: Ch 1, *sc in next sc, 2 sc in next sc; rep from * around, join with sl st in first sc. (18 sc)
Rnd 4: Ch 1, *sc in next 2 sc, 2 sc in next sc; rep from * around, join with sl st in first sc. (24 sc)
Rnd 5: Ch 1, *sc in next 3 sc, 2 sc in next sc; rep from * around, join with sl st in first sc. (30 sc)
Rnd 6: Ch 1, *sc in next 4 sc, 2 sc in next sc; rep from * around, join with sl st in first sc. (36 sc)
Rnds 7-12: Ch 1, sc in each sc around, join with sl st in first sc. (36 sc)
Rnd 13: Ch 1, *sc in next 4 sc, sc2tog; rep from * around, join with sl st in first st. (30 sts)
Rnd 14: Ch 1, *sc in next 3 sts, sc2tog; rep from * around, join with sl st in first st. (24 sts)
Rnd 15: Ch 1, *sc in next 2 sts, sc2tog; rep from * around, join with sl st in first st. (18 sts)
Rnd 16: Ch 1, *sc in next st, sc2tog; rep from * around, join with sl st in first st. (12 sts)
Rnd 17: Ch 1, [sc2tog] 6 times, join with sl st in first st. (6 sts)
"""


@pytest.mark.parametrize("hand", ["right", "left"])
@pytest.mark.parametrize("mm", [4.2, 6.0])
def test_numbers_of_a_ball_stand_at_their_seams_and_none_on_the_other_side_of_the_work(hand, mm):
    laid = lay_rounds(worked(BALL), hand)
    room = (-999.0, -999.0, 999.0, 999.0)
    found = labels_of(laid, None, Wanted(hand, False, False, 0), mm, room)
    numbers = {label.row: label for label in found.labels if label.is_number}
    for ring in laid.rings:
        first = next(s for s in ring.laid.spots if s.role == "stitch")
        x, y = numbers[ring.index].leader[1] if numbers[ring.index].leader else numbers[ring.index].at
        assert math.dist((x / mm, y / mm), first.head) < 2.2, ring.index + 1


def test_a_round_that_stands_for_others_alike_bears_the_first_number_and_the_last():
    """The first and the last of a run of rounds drawn once; a block of several rounds has none of its own."""
    text = "Rnd 1 (RS): 6 sc in magic ring. (6 sc)\nRnd 2: 2 sc in each sc around. (12 sc)\n"
    text += "Rnds 3-7: Sc in each sc around."
    folded = fold_rows(work_text(text, "tube").fabric)
    assert folded.until == ((2, 7),)
    two = "Rnd 1 (RS): 6 sc in magic ring. (6 sc)\nRnd 2: 2 sc in each sc around. (12 sc)\nRnd 3: Sc in each sc around.\n"
    two += "Rnd 4: Dc in each sc around.\nRnds 5-8: Rep Rnds 3 and 4."
    assert fold_rows(work_text(two, "tube").fabric).folds and fold_rows(work_text(two, "tube").fabric).until == ()


def test_the_name_of_a_round_that_stands_for_others():
    ring = lay_rounds(work_text("Rnd 1 (RS): 6 sc in magic ring. (6 sc)", "r").fabric).rings[0]
    assert name_of(ring, lettered=False) == "1"
    assert name_of(ring, lettered=False, until=4) == "1–4"
