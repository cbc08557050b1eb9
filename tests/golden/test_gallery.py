"""The gallery as committed is what the tool draws today, and every piece and fabric is whole."""

import importlib.util
import io
from pathlib import Path

import numpy as np
import pytest
from hookfold.charts.drawing.checker import violations
from PIL import Image

ROOT = Path(__file__).parents[2]
_spec = importlib.util.spec_from_file_location("gallery_draw", ROOT / "gallery" / "draw.py")
draw = importlib.util.module_from_spec(_spec)
_spec.loader.exec_module(draw)


@pytest.mark.parametrize("pattern", draw.pieces(), ids=lambda p: p.parent.name)
def test_a_piece_is_as_committed(pattern):
    for name, data in draw.piece_files(pattern).items():
        if name.endswith((".svg", ".md")):
            assert (pattern.parent / name).read_bytes() == data, f"{pattern.parent.name}/{name}: run gallery/draw.py and look at it"


@pytest.mark.parametrize("pattern", draw.pieces(), ids=lambda p: p.parent.name)
def test_a_fabric_picture_is_as_committed(pattern):
    """Compared as pixels, drawn small: the bytes of a JPEG are its encoder's."""
    small = 160
    drawn = Image.open(io.BytesIO(draw.fabric_picture(pattern, small))).convert("RGB")
    kept = Image.open(pattern.parent / "fabric.jpg")
    assert kept.width == draw.PICTURE_PX and kept.info["dpi"] and kept.info["icc_profile"]
    shrunk = kept.convert("RGB").resize(drawn.size, Image.Resampling.BOX)
    off = np.abs(np.asarray(drawn, dtype=float) - np.asarray(shrunk, dtype=float))
    assert off.mean() < 14 and np.corrcoef(np.asarray(drawn).ravel(), np.asarray(shrunk).ravel())[0, 1] > 0.9


@pytest.mark.parametrize("pattern", draw.small_pieces(), ids=lambda p: p.parent.name)
def test_the_words_of_a_small_piece_are_as_committed(pattern):
    text, name = pattern.read_text("utf-8"), str(pattern.relative_to(ROOT))
    said = draw.engrave.instructions(text, name, draw.Setting(terms=draw.own_terms(text)))
    assert (pattern.parent / "instructions.md").read_text("utf-8") == said, "run gallery/draw.py and look at it"


@pytest.mark.slow
@pytest.mark.parametrize("pattern", draw.small_pieces(), ids=lambda p: p.parent.name)
def test_a_small_piece_is_as_committed(pattern):
    for name, data in draw.piece_files(pattern).items():
        assert (pattern.parent / name).read_bytes() == data, f"{pattern.parent.name}/{name}: run gallery/draw.py"


def test_the_small_pieces_are_six_of_further_kinds_and_small():
    kinds = {draw.engrave.work_file(p.read_text("utf-8"), p.name).plan.kind for p in draw.small_pieces()}
    assert {"hat", "mug cosy", "open bag", "sleeve", "patch pocket", "wrist warmer"} <= kinds
    for pattern in draw.small_pieces():
        assert sum(file.stat().st_size for file in pattern.parent.iterdir()) < 600_000


def test_the_pictures_together_are_small():
    assert sum((p.parent / "fabric.jpg").stat().st_size for p in draw.pieces()) < 4_000_000


@pytest.mark.parametrize("pattern", draw.fabrics(), ids=lambda p: p.stem)
def test_a_fabric_is_as_committed_and_keeps_to_the_subset(pattern):
    chart = draw.fabric_chart(pattern)
    assert pattern.with_suffix(".svg").read_bytes() == chart, f"{pattern.name}: run gallery/draw.py and look at it"
    assert violations(chart) == []
    squares = draw.fabric_squares(pattern)
    if squares is not None:
        assert pattern.with_name(f"{pattern.stem}-squares.svg").read_bytes() == squares
        assert violations(squares) == []


@pytest.mark.parametrize("pattern", draw.in_squares(), ids=lambda p: p.stem)
def test_a_picture_in_squares_is_as_committed_on_one_page(pattern):
    squares = draw.fabric_squares(pattern)
    assert pattern.with_suffix(".svg").read_bytes() == squares, f"{pattern.name}: run gallery/draw.py and look at it"
    assert violations(squares) == [] and b"Sheet 1 of 1" in squares


def test_at_least_24_fabrics_and_a_piece_of_every_kind():
    assert len(draw.fabrics()) >= 24
    kinds = {line.split('"')[1] for p in draw.pieces() for line in p.read_text("utf-8").split("\n") if line.replace(" ", "").startswith("kind=")}
    assert {"book", "book with strap", "pouch", "cushion", "pocket panel", "panel"} <= kinds


def test_the_readme_names_every_fabric():
    words = " ".join((ROOT / "gallery" / "README.md").read_text("utf-8").split()).lower().replace("-", " ")
    names = [p.stem.replace("-", " ") for p in draw.fabrics()]
    assert [name for name in names if f" {name}" not in words] == []
    assert f"contact sheet of {len(names)} charts" in words
