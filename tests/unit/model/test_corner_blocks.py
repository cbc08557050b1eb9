"""Rows worked from corner to corner: what fixes a block where, and how many blocks a row has.

That every block has one side of chains which the next row goes into, that a row which decreases slips over the posts of
the last block to its side, and that such rows are counted in blocks is common practice, no source.
"""

import pytest
from hookfold.charts.engrave import check, follow, instructions
from hookfold.charts.model.cloth.tiles import counted_in_blocks, rows_of_tiles, tiles_of
from hookfold.charts.model.rows.work import work_text
from hookfold.charts.output.checking.told import row_lines
from hookfold.charts.setting import Setting

ONE = "Ch 6, dc in 4th ch from hook, dc in next 2 ch."
TWO = "Ch 6, turn, dc in 4th ch from hook, dc in next 2 ch, sl st in ch-3 sp of next block, ch 3, 3 dc in same sp."
MORE = (
    "Ch 6, turn, dc in 4th ch from hook, dc in next 2 ch, *sl st in ch-3 sp of next block, ch 3, 3 dc in same sp; rep "
    "from * across."
)
FEWER = (
    "Turn, sl st in next 3 dc, *sl st in ch-3 sp of next block, ch 3, 3 dc in same sp; rep from * to last block, sl st in "
    "ch-3 sp of last block."
)


def page(*rows, terms="Terms: US\n"):
    return terms + "".join(f"Row {n}: {row}\n" for n, row in enumerate(rows, 1))


def blocks(text):
    found = work_text(text)
    assert not found.problems, found.problems
    return [counted_in_blocks(tiles)[0] for tiles in rows_of_tiles(found.fabric)]


SQUARE = page(ONE, TWO, MORE, FEWER, FEWER)


def test_a_square_grows_and_shrinks_by_a_block():
    assert blocks(SQUARE) == [1, 2, 3, 2, 1]


def test_gaps_on_the_way_to_the_side_of_the_first_block_are_no_spaces():
    skipped = "Ch 6, dc in 4th ch from hook (beg 3 sk ch count as dc), dc in next 2 ch."
    assert not work_text(page(skipped, TWO.replace(" of next block", ""))).notes


def test_a_block_goes_into_the_side_of_the_one_whose_posts_were_slipped_over():
    rows = work_text(SQUARE).fabric.rows
    below = [tile.side for tile in tiles_of(rows[2].row)]
    into = [rows[3].row.stitches[tile.posts[0]].feet[0].at for tile in tiles_of(rows[3].row)]
    assert into == below[:0:-1]


@pytest.mark.parametrize(
    "said",
    [
        "Ch 1, turn, sl st in each of 3 dc and in ch-3 sp, ch 3, 3 dc in same sp, *sl st in ch-3 sp of next block, ch 3, "
        "3 dc in same sp; rep from * to last block, sl st in ch-3 sp of last block.",
        "Turn, sl st across 3 dc to ch-3 sp, sl st in sp, ch 3, 3 dc in same sp, *sl st in ch-3 sp of next block, ch 3, 3 dc "
        "in same sp; rep from * to last block, sl st in ch-3 sp of last block.",
        "Turn, sl st across first 3 dc and into ch-3 sp, (ch 3, 3 dc in same sp, sl st in ch-3 sp of next block) across.",
    ],
)
def test_ways_to_tell_a_row_that_decreases(said):
    assert blocks(page(ONE, TWO, MORE, said, FEWER)) == [1, 2, 3, 2, 1]


def test_a_rectangle_increases_at_one_end_and_decreases_at_the_other():
    last = MORE.replace("across.", "to last block, sl st in ch-3 sp of last block.")
    first = "Turn, sl st in next 3 dc, *sl st in ch-3 sp of next block, ch 3, 3 dc in same sp; rep from * across."
    assert blocks(page(ONE, TWO, MORE, last, first, last, FEWER, FEWER)) == [1, 2, 3, 3, 3, 3, 2, 1]


@pytest.mark.parametrize(
    ("chains", "back", "stitch", "posts"), [(5, 3, "hdc", 3), (4, 3, "hdc", 2), (8, 5, "tr", 4), (6, 4, "dc", 3)]
)
def test_blocks_of_other_stitches(chains, back, stitch, posts):
    side = back - 1
    begun = f"{stitch} in {back}{'rd' if back == 3 else 'th'} ch from hook, {stitch} in next {posts - 1} ch"
    each = f"*sl st in ch-{side} sp of next block, ch {side}, {posts} {stitch} in same sp; rep from * across"
    made = page(f"Ch {chains}, {begun}.", f"Ch {chains}, turn, {begun}, {each}.", f"Ch {chains}, turn, {begun}, {each}.")
    assert blocks(made) == [1, 2, 3]


@pytest.mark.parametrize(
    "rest", ["one more tile each row", "working one more block in each row", "1 more block every row", "adding one block each row"]
)
def test_rows_with_one_block_more_each_time(rest):
    assert blocks(page(ONE, TWO) + f"Rows 3-6: Rep Row 2, {rest}. (6 blocks)\n") == [1, 2, 3, 4, 5, 6]


def test_rows_with_one_block_fewer_each_time():
    text = page(ONE, TWO, MORE, MORE, FEWER) + "Rows 6-7: Rep Row 5, one block fewer each row. 1 block at end of Row 7.\n"
    assert blocks(text) == [1, 2, 3, 4, 3, 2, 1]


@pytest.mark.parametrize("count", ["(4 blocks)", "- 4 blocks", "= 4 tiles", "(4 blocks made)"])
def test_a_wrong_count_of_blocks_is_told_at_its_row(count):
    found = work_text(page(f"{ONE} (1 block)", f"{TWO} (2 blocks)", f"{MORE[:-1]} {count}"))
    assert [(p.where, p.says) for p in found.problems] == [("Row 3", "the row makes 3 blocks; the count says 4")]


def test_a_right_count_of_blocks_is_compared():
    told = page(f"{ONE} (1 block)", f"{TWO} (2 blocks)", f"{MORE} (3 blocks)\nFasten off.")
    assert {row.state for part in check(told, "x.txt").parts for row in part.rows} == {"agrees"}


def test_a_count_before_the_end_of_the_yarn_stays_a_count():
    found = work_text(page(f"{ONE} (1 block)", f"{TWO} (2 blocks)", MORE, FEWER, f"{FEWER} (1 block)") + "Fasten off.\n")
    assert found.texts[-1].stated


def test_check_and_words_count_in_blocks():
    assert "Row 3 (RS): 3 blocks (9 sts)" in row_lines(check(SQUARE, "x.txt").parts)
    assert "(3 blocks, 9 dc)" in instructions(SQUARE, "x.txt", Setting())


def test_the_page_to_follow_counts_in_blocks_and_a_check_offers_squares():
    assert b"3 blocks" in follow(SQUARE, "x.txt", Setting())
    assert any("--style squares" in line for line in check(SQUARE, "x.txt").says)


def test_words_read_back_alike():
    assert blocks("Terms: US\n" + instructions(SQUARE, "x.txt", Setting())) == blocks(SQUARE)


IN_YARNS = (
    "Row 1: With A, ch 6, dc in 4th ch from hook, dc in next 2 ch. (1 A)\nRow 2: With A, ch 6, turn, dc in 4th ch from hook, "
    "dc in next 2 ch, with B, sl st in ch-3 sp of next block, ch 3, 3 dc in same sp. "
)


def test_a_count_of_blocks_by_their_yarns():
    assert blocks(f"Terms: US\n{IN_YARNS}(1 A, 1 B)\n") == [1, 2]
    found = work_text(f"Terms: US\n{IN_YARNS}(1 A, 2 B)\n")
    assert [p.says for p in found.problems] == ["the row makes 2 blocks; the count says 3"]


def test_a_bare_number_may_count_blocks_and_a_plain_strip_has_none():
    assert blocks(page(f"{ONE} (1)", f"{TWO} (2)", f"{MORE} (3)")) == [1, 2, 3]
    strip = "Terms: US\nCh 6.\nRow 1: Dc in 4th ch from hook, dc in next 2 ch, turn. (4)\nRow 2: Ch 3 (counts as dc), dc in next 3 dc. (1)"
    assert [p.says for p in work_text(strip).problems] == ["the row makes 4 sts; the count says 1"]


OTHERS = {
    "filet": "Ch 12.\nRow 1: Dc in 4th ch from hook, dc in next 2 ch, ch 2, sk next 2 ch, dc in next ch, dc in next 3 ch, turn.",
    "granny": "Ch 4, join with sl st in first ch.\nRnd 1: Ch 3, 3 dc in ring, ch 2, *3 dc in ring, ch 2; rep from * twice.",
    "rows": "Ch 8.\nRow 1: Dc in 4th ch from hook and in each ch across, turn.\nRow 2: Ch 3 (counts as dc), dc in next 5 dc.",
}


@pytest.mark.parametrize("text", OTHERS.values(), ids=OTHERS)
def test_no_other_work_is_counted_in_blocks(text):
    assert rows_of_tiles(work_text(text).fabric) == ()
