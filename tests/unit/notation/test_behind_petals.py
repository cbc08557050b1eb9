"""Round a post behind petals: from the back, where the words do not say the side (common practice, no source)."""

import pytest
from hookfold.charts.model.rows.work import work_text

FLOWER = """Terms: US
Rnd 1 (RS): Magic ring, ch 1, 10 sc in ring, sl st in first sc to join. (10 sc)
Rnd 2: Ch 1, *sc in next sc, ch 3, sk next sc; rep from * around, sl st in first sc to join. (5 sc)
Rnd 3: Ch 1, *(sc, hdc, 2 dc, hdc, sc) in next ch-3 sp; rep from * around, sl st in first sc to join. (5 petals)
Rnd 4: Ch 1, {how}*sc around {post} of next sc of Rnd 2, ch 4; rep from * around, sl st in first sc to join. (5 sc)
"""


@pytest.mark.parametrize(
    ("how", "post", "hold"),
    [
        ("working behind petals, ", "post", "back post"),
        ("working behind the petals, ", "post", "back post"),
        ("working behind petals, ", "front post", "front post"),
        ("", "post", "front post"),
    ],
)
def test_a_post_behind_petals_is_gone_round_from_the_back(how, post, hold):
    found = work_text(FLOWER.format(how=how, post=post), "flower")
    assert not found.problems
    held = [foot.hold for made in found.fabric.rows[3].row.stitches if made.kind == "sc" for foot in made.feet]
    assert held == [hold] * 5
