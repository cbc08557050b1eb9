"""What a chart says of itself: spaces, beginning chains, counts."""

import cloth
from hookfold.charts.layout.chart.reading import counted_words, said_of, side_words
from hookfold.charts.layout.sheets.seen import as_seen
from hookfold.charts.model.cloth.fabric import Foot, Row, Stitch
from hookfold.charts.model.rows.work import work_text


def test_stitches_in_spaces_are_told_from_stitches_in_chains():
    row = cloth.v_stitches(3, 2).rows[1].row
    assert any("go into the space under them" in line for line in said_of([row], "US"))
    both = Row((*row.stitches, Stitch("dc", (Foot(2, hold="chain"),))))
    assert any("of its own goes into that chain" in line for line in said_of([both], "US"))
    plain = cloth.each("sc", 5, 2, 1, False)
    assert not any("space" in line for line in said_of([w.row for w in plain.rows], "US"))


def test_what_a_beginning_chain_counts_as_is_said_in_the_readers_terms():
    rows = [w.row for w in cloth.each("dc", 5, 2, 3, True).rows]
    assert said_of(rows, "US") == ["At the beginning of a row ch 3 counts as dc."]
    assert said_of(rows, "UK") == ["At the beginning of a row ch 3 counts as tr."]
    rows = [w.row for w in cloth.each("sc", 5, 2, 1, False).rows]
    assert said_of(rows, "US") == ["At the beginning of a row ch 1 does not count as a stitch."]


def test_a_beginning_chain_of_the_first_row_alone_is_told_of_that_row():
    """Corner to corner: the chains that begin later rows are a block's, and count as no stitch."""
    text = (
        "Ch 6.\nRow 1 (RS): Dc in 4th ch from hook (beg 3 sk ch count as dc) and in next 2 ch, turn.\n"
        "Row 2: Ch 6, dc in 4th ch from hook and in next 2 ch, (sl st, ch 3, 3 dc) in next ch-3 sp, turn.\n"
    )
    rows = [w.row for w in work_text(text).fabric.rows]
    assert "At the beginning of the first row ch 3 counts as dc." in said_of(rows, "US")
    assert "At the beginning of a row ch 3 counts as dc." in said_of(rows[:1], "US")


def test_chains_are_said_to_be_left_out_of_the_count_where_there_are_any():
    assert "chains not counted" in counted_words([cloth.mesh(3, 2).rows[0].row])
    assert "chains" not in counted_words([cloth.each("sc", 5, 1, 1, False).rows[0].row])


SEVERAL = """Terms: US
Rnd 1: Ch 5, sl st in first ch to form ring; ch 4 (counts as tr), 11 tr in ring, join with sl st in top of ch-4.
Rnd 2: Ch 4 (counts as dc and ch 1), *dc in next tr, ch 1; rep from * around, join with sl st in 3rd ch of ch-4.
Rnd 3: Ch 1, sc in same st, sc in next ch-1 sp, *sc in next dc, sc in next ch-1 sp; rep from * around, join with sl st in first sc.
"""


def test_rows_that_begin_otherwise_than_others_are_named():
    """Ch 4 once for a treble and once for a double and a chain: which round is which must stand there."""
    rows = [w.row for w in work_text(SEVERAL).fabric.rows]
    (told,) = (line for line in said_of(rows, "US", [1, 2, 3]) if line.startswith("Beginning"))
    assert told == (
        "Beginning chains: in row 1 ch 4 counts as tr; in row 2 ch 4 counts as dc and ch 1; in row 3 ch 1 does not count as a stitch."
    )
    assert [line for line in said_of(rows[1:2], "UK", [2]) if "ch 4" in line] == ["At the beginning of a row ch 4 counts as tr and ch 1."]


def test_the_commonest_beginning_of_many_rows_is_that_of_the_others():
    rows = [w.row for w in work_text(SEVERAL).fabric.rows]
    odd = [rows[0], *[rows[2], rows[1]] * 5, rows[1]]
    (told,) = (line for line in said_of(odd, "US", range(1, 13)) if line.startswith("Beginning"))
    assert told.endswith("in rows 2, 4 … 10 ch 1 does not count as a stitch; in the other rows ch 4 counts as dc and ch 1.")


def test_what_is_worked_in_wrong_side_rows_is_said_by_rows():
    text = "Terms: US\nOver 9 sc.\nRow 1 (RS): Ch 3 (counts as dc), dc in next 8 sc, turn. (9 dc)\n"
    text += "Row 2: Ch 3 (counts as dc), *FPdc around next st, BPdc around next st; rep from * to end, turn. (9 sts)\n"
    text += "Row 3: Ch 1, hdc in each st, turn. (9 hdc)\nRow 4: Ch 1, hdc in FLO of each st, turn. (9 hdc)\n"
    text += "Row 5: Ch 1, hdc in BLO of each st, turn. (9 hdc)"
    rows = as_seen(work_text(text, "ribs").fabric, "right-side").rows
    assert side_words(rows, "right-side") == [
        "Wrong-side rows are drawn as the right side shows them: in row 2 work BP where FP is shown and FP where BP is "
        "shown; in row 4 work FLO where BLO is shown."
    ]
    assert side_words(rows[:1], "right-side") == []
    assert "as they are worked" in side_words(rows, "as-worked")[0]
    again = side_words([*rows, *rows], "right-side")[0]
    assert "when you work them, work BP where FP is shown and FP where BP is shown and FLO where BLO is shown" in again
