"""How the booklet's words lie on its pages: rows that would run a few lines over stand on one page together."""

from __future__ import annotations

import io

import pytest
from hookfold.charts import engrave
from hookfold.charts.output.booklet.press import press_here
from hookfold.charts.setting import Setting
from pdf_words import words_on
from pypdf import PdfReader

pytestmark = [pytest.mark.slow, pytest.mark.skipif(not press_here(), reason="typst is not installed")]

HAT = """Hill Hat (US terms)

Bobble: 4 dc worked together in one stitch.

Make a magic ring.
Rnd 1: Ch 2 (does not count as a st), 10 hdc in ring; join with sl st in first hdc. (10 hdc)
Rnd 2: Ch 2 (does not count as a st), 2 hdc in each st around; join with sl st in first hdc. (20 hdc)
Rnd 3: Ch 2 (does not count as a st), *hdc in next st, 2 hdc in next st; rep from * around; join with sl st in first hdc. (30 hdc)
Rnd 4: Ch 1, *sc in next 2 sts, bobble in next st; rep from * around; join with sl st in first sc. (20 sc, 10 bobbles)
Rnd 5: Ch 3 (counts as dc), dc in next st and in each st around; join with sl st in top of beginning ch-3. (30 dc)
Rnd 6: Ch 1, *sc in next st, ch 1, skip next st; rep from * around; join with sl st in first sc. (15 sc, 15 ch-1 sps)
Rnd 7: Ch 3 (counts as dc), dc in next ch-1 sp, *dc in next sc, dc in next ch-1 sp; rep from * around; join with sl st in top of beginning ch-3. (30 dc)
Rnds 8-9: Ch 2 (does not count as a st), *FPdc around next st, BPdc around next st; rep from * around; join with sl st in first FPdc. (15 FPdc, 15 BPdc)
Rnd 10: Ch 1, sc in each st around; join with sl st in first sc. (30 sc)
Fasten off.
"""


def test_rows_that_would_run_a_few_lines_over_stand_on_one_page_together():
    pages = [words_on(page) for page in PdfReader(io.BytesIO(engrave.booklet(HAT, "hat.txt", Setting()))).pages]
    assert len(pages) == 4
    assert "Rnd 1:" not in pages[1]
    assert all(f"Rnd {n}:" in pages[2] for n in (1, 2, 3, 4, 5, 6, 7, 10))
