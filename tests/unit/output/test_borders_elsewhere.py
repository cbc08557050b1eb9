"""Rounds about the edge of a piece on what is not the printed chart: about it on the page to follow, whatever its size,
and nowhere over the last row in the stretch of chart that is shared and in the picture of the fabric.

No source: a border goes round a piece.
"""

from hookfold.charts.layout.shapes.edged import Edged
from hookfold.charts.layout.shapes.found import fabric_shape
from hookfold.charts.model.rows.work import work_text
from hookfold.charts.output.images.share import stretch_of
from hookfold.charts.output.pages.chart import page_chart
from hookfold.charts.picture.round_cloth import cloth_of
from hookfold.charts.setting import Setting

BORDER = (
    "Border\nRnd 1: Ch 1, 3 sc in first dc, sc in next 18 dc, 3 sc in last dc, work {side} sc evenly along side, 3 sc in corner, sc "
    "in next 18 ch, 3 sc in corner, work {side} sc evenly along side, join with sl st in first sc.\n"
)


def piece(rows):
    return "Terms: US\nCh 22.\nRow 1: Dc in 4th ch from hook and in each ch across, turn. (20 dc)\n" + "".join(
        f"Row {n}: Ch 3, dc in next dc and in each dc across, turn. (20 dc)\n" for n in range(2, rows + 1)
    )


def worked(text):
    found = work_text(text)
    assert not found.problems, found.problems
    return found.fabric


def bordered(rows):
    return worked(piece(rows) + BORDER.format(side=2 * rows))


def test_a_large_piece_has_its_border_about_it_on_the_page_to_follow():
    fabric = bordered(46)
    assert fabric_shape(fabric) is None and isinstance(fabric_shape(fabric, large=True), Edged)
    page = page_chart(fabric)
    assert page.shape == "turned" and len(page.row_looks) == 47
    spots = [s for s in page.spots if s.kind == "sc"]
    tops = [s for s in page.spots if s.kind == "dc"]
    assert len(spots) == 4 * 3 + 2 * 18 + 2 * 92
    for axis in (0, 1):
        assert min(s.head[axis] for s in spots) < min(s.head[axis] for s in tops)
        assert max(s.head[axis] for s in spots) > max(s.head[axis] for s in tops)


def test_what_is_shared_of_a_chart_is_of_the_piece_itself():
    stretch = stretch_of(bordered(10), Setting())
    assert len(stretch.laid.courses) == 10 and not any(c.worked.is_round for c in stretch.laid.courses)


def test_the_picture_of_a_flat_piece_is_as_wide_as_its_rows():
    assert cloth_of(bordered(10)).box == cloth_of(worked(piece(10))).box
