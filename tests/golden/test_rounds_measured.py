"""Every chart in rounds of the gallery, measured on the finished file: heights kept, sectors equal, no stems crossing.

Sources: that a stitch of a chart keeps the height of its kind, and that equal parts of a motif are drawn equal, is common
practice of printed charts, no source.
"""

import pytest
import stem_ruler
from test_gallery_measured import FABRICS, committed, name_of

ROUNDS = [path for path in FABRICS if "Rnd 1" in path.read_text("utf-8")]


@pytest.fixture(scope="module", params=ROUNDS, ids=name_of)
def motif(request):
    """A motif of the gallery and its sheet."""
    fabric, (sheet,) = committed(request.param)
    return fabric, sheet


def test_stitches_keep_the_height_of_their_kind(motif):
    lengths = stem_ruler.stems(*motif)
    assert lengths or not any(s.kind in stem_ruler.HEIGHTS for r in motif[0].rows for s in r.row.stitches)
    assert stem_ruler.share_within(lengths) >= 0.99, [x for x in lengths if not 0.7 <= x[2] <= 1.6]


def test_equal_sectors_are_equal(motif):
    assert stem_ruler.unevenness(*motif) < 0.15


def test_no_stems_of_a_round_cross(motif):
    assert stem_ruler.crossings(motif[1]) == []


def test_the_ruler_notices_a_long_stem_and_a_moved_stitch():
    fabric, (sheet,) = committed(next(p for p in ROUNDS if p.stem == "solid-circle"))
    glyph = next(g for g in sheet.glyphs if g.kind == "sc" and g.row == "round-3")
    (x, y), (a, b) = glyph.lines[0][0], glyph.lines[0][-1]
    glyph.lines[0][-1] = (a + 2.0 * (a - x), b + 2.0 * (b - y))
    assert stem_ruler.share_within(stem_ruler.stems(fabric, sheet)) < 1.0
    assert stem_ruler.unevenness(fabric, sheet) > 0.15
