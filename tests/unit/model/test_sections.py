"""The sections of a pattern file: read at their places, worked into one piece."""

import pytest
from hookfold.charts.errors import PatternError
from hookfold.charts.model.sections import read_sections, work_piece
from hookfold.charts.model.sizing import size
from hookfold.charts.model.sizing_pattern import request_of
from hookfold.charts.pattern.file import read_pattern
from hookfold.charts.pattern.tree import Make, Place
from hookfold.charts.pattern.writer import write_ops

HEAD = """title = "Bench mat"
terms = "US"
[gauge]
stitches = 10
rows = 8
over = "10 cm"
[object]
kind = "panel"
width = "20 cm"
height = "30 cm"
[[section]]
name = "mat"
length = "height"
"""


def mat(work, head=HEAD):
    return f'{head}work = """\n{work}\n"""\n'


def worked(work):
    pattern = read_pattern(mat(work), "mat.toml")
    read = read_sections(pattern)
    plan = size(request_of(pattern, [s.text for s in read.sections]))
    return read, plan, *work_piece(read, plan, pattern)


@pytest.mark.parametrize(
    ("work", "chain_plus", "first"),
    [
        # Foundation for N stitches: sc N + 1 and 2nd ch, hdc N + 2 and 3rd ch (turning chain no stitch), dc N + 2 and
        # 4th ch (common practice, printed by PG 15147 for sc).
        ("Row 1: Ch 1, turn. Sc in each st across.", 1, "Sc in 2nd ch from hook and in each ch across."),
        ("Row 1: Ch 2, turn. Hdc in each st across.", 2, "Hdc in 3rd ch from hook and in each ch across (beg sk ch do not count as st)."),
        ("Row 1: Ch 3 (counts as dc), turn. Dc in next st, dc in each st across.", 2, "Dc in 4th ch from hook (beg sk ch count as dc), dc in each ch across."),
        ("Row 1: Ch 1, turn. Sc in first 3 sts, sc in each st across.", 1, "Sc in 2nd ch from hook and in next 2 ch, sc in each ch across."),
    ],
)
def test_the_first_row_goes_into_the_chain(work, chain_plus, first):
    read, plan, piece, fabric = worked(work)
    assert plan.foundation - plan.stitches == chain_plus
    if first.startswith("Hdc"):
        first = first.replace(" and in each ch across (beg sk ch do not count as st).", " and in each ch across (beg sk ch do not count as st).")
    assert write_ops(piece.rows[0].ops, "US") == first
    assert {row.row.made for row in fabric.rows} == {plan.stitches}


def test_rows_are_numbered_through_and_shared():
    _, plan, piece, fabric = worked("Row 1: Ch 1, turn. Sc in each st across.\nRow 2: Ch 2, turn. Hdc in each st across.")
    assert [row.number for row in fabric.rows] == list(range(1, plan.rows + 1))
    assert [row.side for row in fabric.rows[:4]] == ["RS", "WS", "RS", "WS"]
    assert len({id(row.row) for row in fabric.rows}) <= 4


def test_a_problem_in_the_rows_stands_at_its_line_in_the_file():
    text = mat("Row 1: Ch 1, turn. Sc in each st across.\nRow 2: Ch 1, turn. Sc in first 3 sts, *wobble in next st, sc in next st; rep from * across.")
    with pytest.raises(PatternError) as found:
        read_sections(read_pattern(text, "mat.toml"))
    problem = found.value.problems[0]
    line = text.split("\n").index("Row 2: Ch 1, turn. Sc in first 3 sts, *wobble in next st, sc in next st; rep from * across.") + 1
    assert (problem.line, problem.where, problem.kind) == (line, "mat, Row 2", "not notation")
    assert text.split("\n")[line - 1][problem.column - 1 :].startswith("wobble")


def test_rows_that_cannot_keep_their_width_are_a_problem():
    with pytest.raises(PatternError) as found:
        read_sections(read_pattern(mat("Row 1: Ch 1, turn. 2 sc in first st, sc in each st across."), "mat.toml"))
    assert "width" in found.value.problems[0].says


def test_repeated_rows_of_a_section_are_written_out():
    read, *_ = worked("Row 1: Ch 1, turn. Sc in each st across.\nRow 2: Ch 2, turn. Hdc in each st across.\nRows 3-6: Rep Rows 1 and 2.")
    kinds = [[op.stitch for op in row.ops if isinstance(op, Make)] for row in read.sections[0].rows]
    assert kinds == [["sc"], ["hdc"]] * 3
    assert read.sections[0].rows[0].ops[-1] == Make("sc", 1, (Place("each"),))
