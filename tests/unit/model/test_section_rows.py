"""A section's rows as they are numbered, and the row that the row repeat begins with."""

import pytest
from hookfold.charts.errors import PatternError
from hookfold.charts.model.sections.read import read_sections
from hookfold.charts.model.sections.whole import work_piece
from hookfold.charts.model.sizing.from_pattern import request_of
from hookfold.charts.model.sizing.size import size
from hookfold.charts.pattern.file.read import read_pattern
from hookfold.charts.pattern.writer import write_ops
from section_patterns import HEAD

SC = "Row 1: Ch 1, turn. Sc in each st across."
HDC = "Ch 2, turn. Hdc in each st across."
TWO = "Ch 1, turn. *Sc in next st, dc in next st; rep from * across."


def mat(*works):
    return HEAD + "".join(
        f'[[section]]\nname = "part {n}"\nrows = 12\nwork = """\n{work}\n"""\n' for n, work in enumerate(works, 1)
    )


def worked(*works):
    pattern = read_pattern(mat(*works), "mat.toml")
    read = read_sections(pattern)
    plan = size(request_of(pattern, [s.text for s in read.sections]))
    return read, plan, *work_piece(read, plan, pattern)


def kinds(fabric):
    return ["+".join(sorted(row.row.kinds())) for row in fabric.rows]


@pytest.mark.parametrize(
    ("work", "order"),
    [
        (f"{SC}\nRow 2: {HDC}\nRow 3: {TWO}", "123123123123"),
        (f"{SC}\nRow 2: {HDC}\nRow 3: {TWO}\nRep Rows 2 and 3.", "123232323232"),
        (f"{SC}\nRow 2: {HDC}\nRow 3: {TWO}\nRepeat Rows 2-3 for pattern.", "123232323232"),
        (f"{SC}\nRow 2: {HDC}\nRow 3: {TWO}\nRepeat last 2 rows until piece measures 12 in.", "123232323232"),
        # Rows that are not the last: written out once more, and again from there.
        (f"{SC}\nRow 2: {HDC}\nRow 3: {TWO}\nRep Rows 1 and 2.", "123121212121"),
        (f"{SC}\nRow 2: {HDC}\nRow 3 onwards: Rep Rows 1-2.", "121212121212"),
        (f"{SC}\nRow 2: {TWO}\nRow 3 onwards: Rep Row 2.", "133333333333"),
        (f"{SC}\nRow 2 and up: {HDC}", "122222222222"),
        (f"{SC}\nRow 2 and all even rows: {HDC}\nRow 3: {TWO}", "123212321232"),
        (f"{SC}\nRow 2: {HDC}\nRows 3-4: Rep Rows 1-2.", "121212121212"),
    ],
)
def test_rows_go_on_as_the_words_say(work, order):
    *_, fabric = worked(work)
    names = {"1": "sc", "2": "hdc", "3": "dc+sc"}
    assert kinds(fabric) == [names[n] for n in order]


def test_the_row_named_in_the_section_holds_before_the_words():
    text = mat(f"{SC}\nRow 2: {HDC}\nRow 3: {TWO}\nRep Rows 1-3.").replace("rows = 12\n", "rows = 12\nrepeat_from = 3\n")
    pattern = read_pattern(text, "mat.toml")
    assert read_sections(pattern).sections[0].text.lead == 2


@pytest.mark.parametrize(
    ("works", "kind", "where", "says", "line"),
    [
        ([f"{SC}\nRow 3: {HDC}"], "missing", "part 1, Row 3", "Row 2 is missing: Row 1 stands before it", 16),
        ([f"{SC}\nRow 5: {HDC}"], "missing", "part 1, Row 5", "Row 2 to Row 4 are missing: Row 1 stands before it", 16),
        ([f"Row 2: {HDC}"], "missing", "part 1, Row 2", "Row 1 is missing: the section begins here", 15),
        ([f"{SC}\n{SC}"], "ambiguous", "part 1, Row 1", "Row 1 is written twice", 16),
        ([f"{SC}\nRows 2-4: {HDC}\nRow 4: {TWO}"], "ambiguous", "part 1, Row 4", "Row 4 is written twice", 17),
        ([SC, f"Row 2: {HDC}\nRow 4: {HDC}"], "missing", "part 2, Row 4", "Row 3 is missing: Row 2 stands before it", 22),
    ],
)
def test_a_gap_or_a_number_twice_is_told_at_its_row(works, kind, where, says, line):
    with pytest.raises(PatternError) as found:
        read_sections(read_pattern(mat(*works), "mat.toml"))
    problem = found.value.problems[0]
    assert (problem.kind, problem.where, problem.says, problem.line, problem.column) == (kind, where, says, line, 1)



def test_a_later_section_may_number_its_rows_on():
    *_, fabric = worked(f"{SC}\nRow 2: {SC[7:]}", f"Row 3: {HDC}\nRow 4: {HDC}")
    assert kinds(fabric) == ["sc"] * 12 + ["hdc"] * 12


@pytest.mark.parametrize(
    ("work", "of", "plus", "first"),
    [
        # Odd counts: the chain is the first stitch, then tr and dc two by two.
        ("Row 1: Ch 3 (counts as dc), turn. Sk first st, *tr in next st, dc in next st; rep from * across.", 2, 1,
         "Tr in 4th ch from hook (skipped ch count as dc), dc in next ch, *tr in next ch, dc in next ch; rep from * across."),
        ("Row 1: Ch 3 (counts as dc), turn. Sk first st, *2 dc in next st, sk next st; rep from * to last st, dc in last st.", 2, 0,
         "2 dc in 4th ch from hook (skipped ch count as dc), sk next ch, *2 dc in next ch, sk next ch; rep from * to last ch, dc in last ch."),
    ],
)  # fmt: skip
def test_a_counted_chain_before_a_repeat_goes_into_the_foundation_and_stands_on_rows(work, of, plus, first):
    for works in ([work], [SC, work]):
        read, plan, piece, fabric = worked(*works)
        multiple = read.sections[-1].multiple
        assert (multiple.of, multiple.plus) == (of, plus)
        assert plan.stitches % of == plus
        assert {row.row.made for row in fabric.rows} == {plan.stitches}
        if len(works) == 1:
            assert plan.foundation == plan.stitches + 2
            assert write_ops(piece.rows[0].ops, "US") == first
