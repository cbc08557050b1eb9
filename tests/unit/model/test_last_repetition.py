"""The last repetition of a round that states no count: it goes as far as the round, and leaves nothing over."""

import pytest
from hookfold.charts.model.rows.work import work_text

RING = "Terms: US\nCh 6, join with sl st to form a ring.\n"
SPOKES = "Rnd 1: Ch 7 (counts as dc and ch 4), [dc in ring, ch 4] 5 times, join with sl st in 3rd ch of beg ch-7.\n"
ROUNDS = {
    # every spoke holds a pair, the first one too: five pairs, then one dc beside the beginning chain
    "it ends in the first stitch of the round below": (
        SPOKES + "Rnd 2: Ch 3 (counts as dc), *sk 4 ch, (dc, ch 5, dc) in next dc; rep from * around, ending last rep with "
        "sk 4 ch, dc in first dc, ch 5, sl st in top of ch-3.", {"dc": 12}, 6,
    ),
    # the last sc would be the first one again: a tr over each of nine chains, an sc beside each
    "it goes into the middles of chains": (
        "Rnd 1: Ch 1, 18 sc in ring, join with sl st in first sc.\n"
        "Rnd 2: Ch 1, sc in first sc, *ch 5, sk next sc, sc in next sc; rep from * to last sc, ch 5, join with sl st in first sc.\n"
        "Rnd 3: Ch 1, sc in first sc, *ch 4, tr in center ch of next ch-5 sp, ch 4, sc in next sc; rep from * around, "
        "join with sl st in first sc.", {"sc": 9, "tr": 9}, 18,
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", ROUNDS)
def test_it_leaves_nothing_over(name):
    text, kinds, chains = ROUNDS[name]
    worked = work_text(RING + text)
    last = worked.fabric.rows[-1].row
    assert not worked.problems
    found = {kind: count for kind, count in last.kinds().items() if kind != "sl st"}
    assert found == kinds and sum(s.role == "chain" for s in last.stitches) == chains


def test_what_closes_a_round_that_repeats_from_its_beginning_is_its_last_slip_stitch():
    text = RING + SPOKES + "Rnd 2: *(3 dc, ch 2, 3 dc) in next ch-4 sp, sl st in next dc; rep from * around. Fasten off."
    worked = work_text(text)
    assert not worked.problems and worked.fabric.rows[-1].row.kinds()["dc"] == 36


SIXTEEN = "Rnd 1: 16 sc in magic ring, join. (16)\nRnd 2: Ch 3 (counts as dc), tr in next st, *2 dc in each of next 2 sts, dc in next 2 sts; rep from * around, join.\n"


def test_the_next_count_tells_that_it_breaks_off_where_the_round_ends():
    worked = work_text(f"Terms: US\n{SIXTEEN}Rnd 3: Ch 1, sc in each st around, join. (24)\n")
    assert not worked.problems
    assert [row.row.made for row in worked.fabric.rows] == [16, 24, 24]
    assert "only so does Rnd 3 come out" in worked.notes[0].says


@pytest.mark.parametrize("above", ["Rnd 3: Ch 1, sc in each st around, join. (25)", "Rnd 3: Ch 1, sc in each st around, join.", ""])
def test_where_nothing_tells_so_it_is_a_fault(above):
    worked = work_text(f"Terms: US\n{SIXTEEN}{above}\n")
    assert [p.where for p in worked.problems] == ["Rnd 2"]
    assert "does not come out even" in worked.problems[0].says
