"""Sections that change their width: counts, slanting edges, borders, a strap worked over the middle."""

import re

import pytest
from hookfold.charts import engrave
from hookfold.charts.model.sizing.shape import edge_counts, row_counts
from hookfold.charts.output.start import Start, starter
from hookfold.charts.setting import Setting

ROW = 'work = "Row 1: Ch 1, turn. Sc in each st across."\n'
POUCH = f"""title = "Needle pouch"
terms = "US"
[gauge]
stitches = 20
rows = 20
over = "10 cm"
[object]
kind = "pouch"
width = "120 mm"
height = "100 mm"
flap = "60 mm"
[[section]]
name = "front"
length = "height"
{ROW}[[section]]
name = "back"
length = "height"
{ROW}[[section]]
name = "flap"
length = "flap"
to = 8
{ROW}[border]
stitch = "sc"
joins = true
"""
JOURNAL = f"""title = "Tide journal"
terms = "US"
[gauge]
stitches = 20
rows = 20
over = "10 cm"
[object]
kind = "book with strap"
height = "150 mm"
wrap = "220 mm"
flap = "50 mm"
strap = "80 mm"
[[section]]
name = "front flap"
length = "flap"
{ROW}[[section]]
name = "body"
length = "wrap"
{ROW}[[section]]
name = "back flap"
length = "flap"
{ROW}[[section]]
name = "strap"
length = "strap"
over = 6
{ROW}[border]
stitch = "sc"
joins = true
"""


def made(text):
    piece = engrave.work_file(text, "piece.toml")
    return piece, [row.row.made for row in piece.fabric.rows]


def test_a_flap_is_worked_to_its_width_evenly():
    piece, counts = made(POUCH)
    flap = counts[-piece.plan.sections[-1].rows :]
    assert counts[0] == 24 and flap[-1] == 8 and tuple(counts) == row_counts(piece.plan)
    steps = [a - b for a, b in zip([24, *flap], flap, strict=False)]
    assert set(steps) <= {0, 2} and sum(steps) == 16
    # 12 rows take in 8 pairs: no two plain rows together, no more than two rows of decreases between plain ones.
    assert "0, 0" not in str(steps)


@pytest.mark.parametrize(("begins", "ends", "rows"), [(24, 8, 12), (9, 2, 7), (6, 15, 20), (10, 10, 3), (30, 6, 6)])
def test_widths_end_where_they_are_to_and_change_evenly(begins, ends, rows):
    counts = edge_counts(begins, ends, rows)
    assert len(counts) == rows and counts[-1] == ends
    ideal = [begins + (ends - begins) * n / rows for n in range(1, rows + 1)]
    assert all(abs(a - b) <= 2 for a, b in zip(counts, ideal, strict=True))


def test_the_drawn_flap_is_the_worked_flap():
    piece, _ = made(POUCH)
    (outline,) = [piece.folding.piece.outline]
    xs = sorted(x for x, y in outline.exterior.coords if abs(y) < 1e-6)
    # 8 stitches of 5 mm in the middle of 24.
    assert (xs[0], xs[-1]) == (pytest.approx(40), pytest.approx(80))
    flap_mm2 = 12 * 5 * (24 + 8) / 2 * 5
    assert outline.area == pytest.approx(2 * 100 * 120 + flap_mm2)


def test_the_border_goes_along_the_slants_and_counts_the_narrow_edge():
    said = engrave.instructions(POUCH, "pouch.toml", Setting()).split("## Finishing")[1]
    slants = [int(n) for n in re.findall(r"(\d+) along the edge of the flap", said)]
    # Each slant is as long as 60 mm up and 40 mm aside: 72.1 mm, 14 stitches of 5 mm, one of them its corner's; both
    # the same.
    assert slants == [13, 13]
    assert re.search(r"along the tops of stitches 2–7 of the flap", said), "the corners have the first and the last"


def test_words_of_a_flap_read_back():
    said = engrave.instructions(POUCH, "pouch.toml", Setting())
    part = re.sub(r"## \w+", "", said.split("## Foundation")[1].split("After Row")[0])
    again = engrave.check("Terms: US\n" + part, "back.txt")
    assert not again.problems and [row.row.made for row in again.fabric.rows] == made(POUCH)[1]


def test_every_sheet_of_a_shaped_piece_is_drawn():
    for text in (POUCH, JOURNAL):
        assert engrave.chart(text, "a.toml", Setting())["svg"] and engrave.assembly(text, "a.toml", Setting())["svg"]
        assert engrave.template(text, "a.toml", Setting()).startswith(b"%PDF")
        assert not engrave.check(text, "a.toml").problems


def test_a_strap_over_six_stitches_is_worked_drawn_and_bordered_with_six():
    piece, counts = made(JOURNAL)
    strap = piece.plan.sections[-1]
    assert set(counts[-strap.rows :]) == {6} and counts[0] == 30
    said = engrave.instructions(JOURNAL, "journal.toml", Setting())
    assert "Sl st in first 12 sts, ch 1, sc in next 6 sts, leave 12 sts unworked." in said
    # The end of the strap: 6 stitches, the first and the last of them the corners'.
    assert "stitches 2–5 of the strap" in said, said
    area = (30 * (50 + 220 + 50) + 6 * 80) * 5
    assert piece.folding.piece.outline.area == pytest.approx(area)


def test_uk_words_of_a_strap_slip_in_uk_terms():
    uk = JOURNAL.replace('terms = "US"', 'terms = "UK"').replace("Sc in each", "Dc in each")
    said = engrave.instructions(uk.replace('stitch = "sc"', 'stitch = "dc"'), "journal.toml", Setting(terms="UK"))
    assert "Ss in first 12 sts" in said and "sl st in first 12" not in said


def test_yarn_follows_the_shape():
    whole = POUCH.replace("to = 8\n", "")
    metres = [float(re.search(r"about (\d+) m", engrave.yarn(t, "a.toml"))[1]) for t in (POUCH, whole)]
    assert metres[0] < metres[1]


@pytest.mark.parametrize(
    ("change", "says"),
    [("to = 40", "grows to 40"), ("to = 8\nROWS", "more than 2 at each edge"), ("over = 24", "worked over 24")],
)
def test_shapes_that_cannot_be_worked_are_problems(change, says):
    text = POUCH.replace("to = 8", change.split("\n")[0])
    if "ROWS" in change:
        text = text.replace('length = "flap"\n', "rows = 3\n")
    found = engrave.check(text, "pouch.toml").problems
    assert any(says in p.says for p in found) and all(p.remedy and p.line for p in found)


def test_a_shaped_section_is_one_row_of_one_stitch():
    text = POUCH.replace('to = 8\nwork = "Row 1: Ch 1, turn. Sc', 'to = 8\nwork = "Row 1: Ch 3 (counts as dc), turn. Dc')
    (found,) = engrave.check(text, "pouch.toml").problems
    assert "one row of one stitch" in found.says and found.line


@pytest.mark.parametrize("stitch", ["close", "tall", "crunch"])
def test_a_started_strap_is_no_wider_than_a_strap(stitch):
    measures = {"height": "210 mm", "wrap": "308 mm", "flap": "60 mm", "strap": "90 mm"}
    _, counts = made(starter(Start("book with strap", "Journal", measures, 17, 14, stitch=stitch)))
    # 30 mm at 17 to 10 cm are 5 stitches, one more where as many are to be left at both sides.
    assert counts[-1] in (5, 6) and counts[-1] < counts[0]
    assert (counts[0] - counts[-1]) % 2 == 0
