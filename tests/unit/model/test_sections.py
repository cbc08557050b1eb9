"""The sections of a pattern file: read at their places, worked into one piece."""

import pytest
from hookfold.charts.errors import PatternError
from hookfold.charts.model.sections.read import read_sections
from hookfold.charts.model.sections.whole import work_piece
from hookfold.charts.model.sizing.from_pattern import request_of
from hookfold.charts.model.sizing.size import size
from hookfold.charts.pattern.file.read import read_pattern
from hookfold.charts.pattern.tree import Make, Place
from hookfold.charts.pattern.writer import write_ops
from section_patterns import HEAD as MAT

HEAD = f"""{MAT}[[section]]
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
        ("Row 1: Ch 2, turn. Hdc in each st across.", 2, "Hdc in 3rd ch from hook and in each ch across (skipped ch do not count as st)."),
        ("Row 1: Ch 3 (counts as dc), turn. Dc in next st, dc in each st across.", 2, "Dc in 4th ch from hook (skipped ch count as dc), dc in each ch across."),
        ("Row 1: Ch 1, turn. Sc in first 3 sts, sc in each st across.", 1, "Sc in 2nd ch from hook and in next 2 ch, sc in each ch across."),
        # A row that begins by passing over stitches, or with a repeat, or with two stitches over one chain: N stitches
        # over N + 3 chains for a mesh of dc and one chain, first dc in 6th ch (common practice, no source).
        ("Row 1: Ch 4 (counts as dc and ch 1), turn. Sk first 2 sts, dc in next st, *ch 1, sk next st, dc in next st; rep from * across.", 3,
         "Dc in 6th ch from hook (skipped ch count as dc and ch 1 and 1 sk ch), *ch 1, sk next ch, dc in next ch; rep from * across."),
        ("Row 1: Ch 4 (counts as tr), turn. Tr in next st and in each st across.", 3, "Tr in 5th ch from hook and in each ch across (skipped ch count as tr)."),
        ("Row 1: Ch 1, turn. *Sc in next 3 sts, ch 1, sk next st; rep from * across.", 1,
         "Sc in 2nd ch from hook and in next 2 ch, ch 1, sk next ch, *sc in next 3 ch, ch 1, sk next ch; rep from * across."),
        ("Row 1: Ch 1, turn. *Sc2tog over next 2 sts, 2 sc in next st; rep from * across.\nRow 2: Ch 1, turn. Sc in each st across.", 1,
         "Sc2tog over 2nd and 3rd ch from hook, 2 sc in next ch, *sc2tog over next 2 ch, 2 sc in next ch; rep from * across."),
        ("Row 1: Ch 3 (counts as dc), turn. *Sk next st, 2 dc in next st; rep from * across.", 2,
         "2 dc in 5th ch from hook (skipped ch count as dc and 1 sk ch), *sk next ch, 2 dc in next ch; rep from * across."),
        ("Row 1: Ch 3 (counts as dc), turn. Dc in first st, dc in each st to last 2 sts, dc2tog.", 3,
         "Dc in 4th ch from hook (skipped ch count as dc), dc in each ch to last 2 ch, dc2tog."),
        ("Row 1: Ch 1, turn. Working in back loops only, sc in each st across.", 1, "Sc in 2nd ch from hook and in each ch across."),
    ],
)
def test_the_first_row_goes_into_the_chain(work, chain_plus, first):
    _, plan, piece, fabric = worked(work)
    assert plan.foundation - plan.stitches == chain_plus
    if first.startswith("Hdc"):
        first = first.replace(" and in each ch across (skipped ch do not count as st).", " and in each ch across (skipped ch do not count as st).")
    assert write_ops(piece.rows[0].ops, "US") == first
    assert {row.row.made + row.row.chains for row in fabric.rows} == {plan.stitches}


def test_rows_are_numbered_through_and_shared():
    _, plan, _piece, fabric = worked("Row 1: Ch 1, turn. Sc in each st across.\nRow 2: Ch 2, turn. Hdc in each st across.")
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


def test_a_chain_said_in_a_section_is_told_and_not_counted():
    rows = "Row 1: Ch 1, turn. Sc in first st, *sk 2 sts, 5 dc in next st, sk 2 sts, sc in next st; rep from * across."
    read, plan, _piece, fabric = worked(f"Ch 14.\n{rows}")
    plain, as_reckoned, *_ = worked(rows)
    assert (read.sections[0].multiple, plan.stitches) == (plain.sections[0].multiple, as_reckoned.stitches)
    assert {row.row.made for row in fabric.rows} == {plan.stitches}
    assert [note.says for note in read.notes] == ['"Ch 14" is not counted: the chain is reckoned from the measurements']


def test_rows_that_cannot_keep_their_width_are_a_problem():
    with pytest.raises(PatternError) as found:
        read_sections(read_pattern(mat("Row 1: Ch 1, turn. 2 sc in first st, sc in each st across."), "mat.toml"))
    assert "width" in found.value.problems[0].says


def test_repeated_rows_of_a_section_are_written_out():
    read, *_ = worked("Row 1: Ch 1, turn. Sc in each st across.\nRow 2: Ch 2, turn. Hdc in each st across.\nRows 3-6: Rep Rows 1 and 2.")
    kinds = [[op.stitch for op in row.ops if isinstance(op, Make)] for row in read.sections[0].rows]
    assert kinds == [["sc"], ["hdc"]] * 3
    assert read.sections[0].rows[0].ops[-1] == Make("sc", 1, (Place("each"),))


def test_a_row_that_begins_with_a_repeat_fits_a_single_repeat():
    text = mat("Row 1: Ch 1, turn. *Sc in next 19 sts, puff in next st; rep from * across.\nRow 2: Ch 1, turn. Sc in each st across.")
    pattern = read_pattern(text.replace('length = "height"', 'rows = 2\ntexture = "any"'), "mat.toml")
    read = read_sections(pattern)
    plan = size(request_of(pattern, [s.text for s in read.sections]))
    _, fabric = work_piece(read, plan, pattern)
    assert plan.stitches == 20 and fabric.rows[0].row.kinds() == {"sc": 19, "puff": 1}


SETUP = """Row 1: Ch 1, turn. Sc in first st, *ch 3, sk 2 sts, sc in next st; rep from * across.
Row 2: Ch 4 (counts as dc and ch 1), turn. Sc in first ch-3 sp, *ch 3, sc in next ch-3 sp; rep from * across, ch 1, dc in last sc.
Row 3: Ch 1, turn. Sc in first st, *ch 3, sc in next ch-3 sp; rep from * to last sp, ch 3, sc in last st."""


def test_rows_before_the_row_repeat_are_worked_once():
    text = mat(SETUP).replace('length = "height"', 'length = "height"\nrepeat_from = 2')
    read = read_sections(read_pattern(text, "mat.toml"))
    found = read.sections[0].multiple
    assert (found.of, found.plus) == (3, 1)


MOSS = """Row 1: Ch 1, turn. Sc in first st, *ch 1, sk next st, sc in next st; rep from * across.
Row 2: Ch 1, turn. Sc in first st, sc in next ch-1 sp, *ch 1, sk next st, sc in next ch-1 sp; rep from * to last st, sc in last st.
Row 3: Ch 1, turn. Sc in first st, *ch 1, sk next st, sc in next ch-1 sp; rep from * to last 2 sts, ch 1, sk next st, sc in last st."""


def two_sections(first, second, more=""):
    head = HEAD.replace('length = "height"', f"rows = 12\n{more}")
    second_head = '[[section]]\nname = "edge"\nrows = 4\n'
    return f'{mat(first, head)}{second_head}work = """\n{second}\n"""\n'


def test_a_section_over_chains_keeps_the_width():
    pattern = read_pattern(two_sections(MOSS, "Row 1: Ch 2, turn. Hdc in each st across.", "repeat_from = 2"), "mat.toml")
    read = read_sections(pattern)
    plan = size(request_of(pattern, [s.text for s in read.sections]))
    _, fabric = work_piece(read, plan, pattern)
    assert {row.row.made for row in fabric.rows[-4:]} == {plan.stitches}


def test_a_section_that_leaves_half_the_width_is_a_problem_of_the_next():
    halves = "Row 1: Ch 1, turn. *Sc2tog over next 2 sts; rep from * across.\nRow 2: Ch 1, turn. 2 sc in each st across."
    text = two_sections(halves, "Row 1: Ch 1, turn. Sc in each st across.").replace("rows = 12", "rows = 11")
    pattern = read_pattern(text, "mat.toml")
    read = read_sections(pattern)
    plan = size(request_of(pattern, [s.text for s in read.sections]))
    with pytest.raises(PatternError) as found:
        work_piece(read, plan, pattern)
    (problem,) = found.value.problems
    assert problem.where == "edge, Row 1 (row 12 of the piece)"
    assert "it makes 10 stitches, and 20 keep the width" in problem.says and 'section "mat" leaves 10' in problem.says
    assert pattern.line(problem.line) == "Row 1: Ch 1, turn. Sc in each st across." == problem.text


def test_rows_that_never_come_out_even_are_shown_near_the_wanted_number():
    granny = """Row 1: Ch 3 (counts as dc), turn. *Sk 2 sts, 3 dc in next st; rep from * to last st, dc in last st.
Row 2: Ch 3 (counts as dc), turn. Dc in first st, *sk 3 sts, 3 dc in sp before next st; rep from * to last 4 sts, sk 3 sts, 2 dc in last st."""
    pattern = read_pattern(mat(granny), "mat.toml")
    with pytest.raises(PatternError) as found:
        read_sections(pattern)
    (problem,) = found.value.problems
    assert problem.where == "mat, Row 1" and "over 20, worked again" in problem.says and "Row 2" in problem.says
    assert pattern.line(problem.line).startswith("Row 1")
    assert pattern.line(problem.line)[problem.column - 1 :].startswith("*Sk 2 sts")


def test_rows_that_grow_say_both_widths():
    with pytest.raises(PatternError) as found:
        read_sections(read_pattern(mat("Row 1: Ch 1, turn. Sc in each st across.\nRow 2: Ch 1, turn. 2 sc in first st, sc in each st across."), "mat.toml"))
    says = found.value.problems[0].says
    assert "over 20" in says and "Row 1 makes 20 stitches the first time and 21 the second" in says


def test_a_count_that_comes_out_even_by_chance_is_no_multiple():
    by_chance = "Row 1: Ch 3 (counts as dc), turn. *Sk next st, (dc, ch 1, dc) in next st, sk next st; rep from * to last st, dc in last st.\nRow 2: Ch 3 (counts as dc), turn. *(Dc, ch 1, dc) in next ch-1 sp; rep from * to last st, dc in last st."
    try:
        read = read_sections(read_pattern(mat(by_chance), "mat.toml"))
    except PatternError as found:
        assert "no number of stitches" in found.problems[0].says
    else:
        assert read.sections[0].multiple.of == 3


def test_an_unclear_special_stitch_is_told_once_at_its_words():
    head = HEAD.replace("[[section]]", '[stitches.pod]\nis = "whirl it about"\nabbreviation = "pod"\n[[section]]')
    text = mat("Row 1: Ch 1, turn. *Pod in next st, sc in next st; rep from * across.", head)
    pattern = read_pattern(text, "mat.toml")
    with pytest.raises(PatternError) as found:
        read_sections(pattern)
    (problem,) = found.value.problems
    assert pattern.line(problem.line)[problem.column - 1 :].startswith("whirl it about")


def test_more_written_rows_than_a_section_may_have():
    with pytest.raises(PatternError) as found:
        read_sections(read_pattern(mat("Rows 1-999999: Ch 1, turn. Sc in each st across."), "mat.toml"))
    assert found.value.problems[0].kind == "limit"


def test_a_section_may_end_in_any_of_the_rows_it_begins_with():
    """Five rows of sc, one of popcorns: 14 rows wanted end with two of sc, not with one or with none."""
    work = """Row 1: Ch 1, turn. Sc in each st across.
Rows 2-5: Rep Row 1.
Row 6: Ch 1, turn. Sc in first 2 sts, *popcorn in next st, sc in next 2 sts; rep from * across."""
    head = HEAD.replace("rows = 8", "rows = 10").replace('"30 cm"', '"14 cm"')
    pattern = read_pattern(mat(work, head), "mat.toml")
    read = read_sections(pattern)
    assert read.sections[0].text.begins == 5
    assert size(request_of(pattern, [s.text for s in read.sections])).rows == 14
