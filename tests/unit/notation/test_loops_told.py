"""Which loops a row is worked in, told in a sentence, a bracket, behind the work, or on a line before the row."""

from __future__ import annotations

import pytest
from hookfold.charts.model.rows.work import Worked, work_text

BEGINS = "US terms.\nRnd 1: 9 sc in magic ring. (9)\nRnd 2: 2 sc in each st around. (18)\n"


def _holds(worked: Worked) -> list[set[str]]:
    assert [p.says for p in worked.problems] == []
    return [{foot.hold for stitch in row.row.stitches for foot in stitch.feet} for row in worked.fabric.rows]


@pytest.mark.parametrize("row", [
    "This rnd is worked in BLO only. Sc in each st around. (18)",
    "(For this round only work in the back loops) sc in each st around. (18)",
    "Sc in each st around (this round is worked in back loops only). (18)",
    "Sc in each st around. Work this round in back loops only. (18)",
    "Sc in each st around. (18) (Work in back loops only.)",
    "Working in back loops only for this rnd only, sc in each st around. (18)",
    "In back loops only on this round only, sc in each st around. (18)",
    "Working the back of loop only on this rnd, sc in each st around. (18)",
    "You will be working in the back loops for this round. Sc in each st around. (18)",
    "Crochet this whole round through the back loop only: sc in each st around. (18)",
])  # fmt: skip
def test_a_round_in_back_loops(row: str) -> None:
    assert _holds(work_text(f"{BEGINS}Rnd 3: {row}\nRnd 4: Sc in each st around. (18)\n"))[1:] == [{"top"}, {"back loop"}, {"top"}]


@pytest.mark.parametrize(("line", "later"), [
    ("Working in front loops only:", "top"), ("Now work into the front loops only.", "top"), ("Work in FLO.", "top"),
    ("From now on work in the front loops only.", "front loop"), ("Work through the front loops only from here on", "front loop"),
])  # fmt: skip
@pytest.mark.parametrize("gap", ["", "\n"])
def test_a_line_before_a_row_tells_its_loops(line: str, later: str, gap: str) -> None:
    worked = work_text(f"{BEGINS}{line}\n{gap}Rnd 3: Sc in each st around. (18)\nRnd 4: Sc in each st around. (18)\n")
    assert _holds(worked)[1:] == [{"top"}, {"front loop"}, {later}]
    assert "Rnd 3" in [note.where for note in worked.notes]


def test_a_row_that_names_loops_itself_keeps_them() -> None:
    worked = work_text(f"{BEGINS}From now on work in the front loops only.\nRnd 3: Sc in back loop of each st around. (18)\n")
    assert _holds(worked)[2] == {"back loop"}


def test_a_colon_behind_a_row_leads_to_the_next() -> None:
    worked = work_text(f"{BEGINS}Rnd 3: Sc in each st around. (18) Working in back loops only:\nRnd 4: Sc in back loop of each st around. (18)\n")
    assert _holds(worked)[2] == {"top"}


@pytest.mark.parametrize("where", ["center of the 5 ch", "the middle of the 5 chains", "the centre of the chain ring", "the center of ring"])
def test_the_middle_of_the_chains_of_a_ring_is_the_ring(where: str) -> None:
    worked = work_text(f"US terms.\nCh 5 and join with a sl st.\nRnd 1: Ch 3, 11 dc into {where}, join. (12)\n")
    assert worked.problems == []
    assert worked.fabric.rows[0].row.made == 12
