"""What can be worked as it is said and still deserves a word: spaces passed over, stitches worked together over chains,
a round joined below the top of its beginning chain."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import work_text

_FRAME = """Rnd 1: Ch 4, join with sl st to form a ring. Ch 3 (counts as dc), 2 dc in ring, *ch 2, 3 dc in ring; rep from * 2 more times, ch 2, join with sl st in top of ch-3. (12 dc)
Rnd 2: Sl st in next 2 dc and in ch-2 sp, ch 3, (2 dc, ch 2, 3 dc) in same sp, *ch 4, (3 dc, ch 2, 3 dc) in next ch-2 sp; rep from * 2 more times, ch 4, join. (24 dc)
Rnd 3: Ch 1, """


def _notes(text: str) -> list[str]:
    worked = work_text(text)
    assert worked.problems == []
    return [note.says for note in worked.notes]


def test_a_space_of_another_size_on_the_way_is_remarked_on() -> None:
    leaping = "sc in same st, *4 sc in next ch-4 sp; rep from * around, join.\n"
    led = "sc in same st, *ch 5, sc in next ch-4 sp; rep from * around, ch 5, join.\n"
    counted = leaping.replace("join.", "join. (17 sc)")
    assert any("on the way to the next ch-4 sp" in says for says in _notes(_FRAME + leaping))
    for text in (led, counted):
        assert not any("on the way" in says for says in _notes(_FRAME + text))


def test_stitches_worked_together_over_chains_are_remarked_on() -> None:
    mesh = """Row 1: Ch 14, sc in 2nd ch from hook and in each ch across. (13 sc)
Row 2: Ch 3 (counts as dc), turn, dc in next st, *ch 1, sk next st, dc in next st; rep from * 4 more times, dc in last st. (8 dc)
Row 3: Ch 1, turn, sc in first 2 sts, OVER, sc in each dc and ch-1 sp across.
"""
    over = [says for says in _notes(mesh.replace("OVER", "sc3tog over next 3 sts")) if "worked together" in says]
    assert over == ["3 sts are worked together over chains that lie between them"]
    assert not any("worked together" in s for s in _notes(mesh.replace("OVER", "sc3tog over next 3 dc")))


@pytest.mark.parametrize(("chain", "beside", "joined", "top"), [(5, 2, 2, 3), (5, 2, 3, 3), (6, 3, 2, 3), (4, 1, 3, 3)])
def test_a_round_joined_below_the_top_of_its_chain_is_told(chain: int, beside: int, joined: int, top: int) -> None:
    nth = {2: "2nd", 3: "3rd"}[joined]
    counts = f"(counts as dc and ch {beside})"
    text = (
        f"Rnd 1: Make a magic ring, ch {chain} {counts}, *dc in ring, ch {beside}; rep from * 6 more times, join with sl st "
        f"in {nth} ch of beg ch-{chain}. (8 dc)\n"
    )
    assert chain - beside == top
    worked = work_text(text)
    assert [p.where for p in worked.problems if "is joined in the" in p.says] == ["Rnd 1"] * (joined < top)
    assert any("is joined in the" in s for s in _notes(text.replace(f" {counts}", ""))) == (joined < top)


def test_the_chain_that_all_first_stitches_go_into_counts_among_the_beginning_ones() -> None:
    text = (
        "Rnd 1: Ch 5, dc in 5th ch from hook (counts as dc, ch 1), *ch 1, dc in same ch; rep from * 9 more times, ch 1, "
        "join with sl st in NTH ch of beg ch-5. (12 dc)\n"
    )
    assert not any("joined" in s for s in _notes(text.replace("NTH", "4th")))
    assert any("the top" in s and "4th" in s for s in _notes(text.replace("NTH", "2nd")))
