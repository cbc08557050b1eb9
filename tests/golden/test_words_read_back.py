"""What is written is read again: the words of every piece of the gallery, as Markdown and as plain text, for one size
and for several, make the same rows as the pattern file does."""

from functools import cache
from pathlib import Path

import pytest
from hookfold.charts import engrave
from hookfold.charts.model.rows import work
from hookfold.charts.output.checking import checked
from hookfold.charts.output.size_words import pieces_of_sizes
from hookfold.charts.output.texts.formats import formatted
from hookfold.charts.setting import Setting
from reading_once import read_once_in

GALLERY = Path(__file__).parents[2] / "gallery"
#: Two sizes and three of pieces that have one, by what they measure.
SIZES = {
    "bench-scarf": 'short = { width = "150 mm", height = "90 cm" }\nlong = { width = "180 mm", height = "150 cm" }\n',
    "pocket-shawl": 'small = { width = "300 mm", height = "1300 mm" }\nlarge = { width = "360 mm", height = "1600 mm" }\n',
    "spectacle-pouch": 'slim = { width = "160 mm", height = "80 mm", flap = "40 mm" }\nusual = { width = "175 mm", height = "80 mm", flap = "45 mm" }\nwide = { width = "190 mm", height = "90 mm", flap = "45 mm" }\n',
    "strapped-journal": 'A6 = { size = "A6", spine = "12 mm" }\nA5 = { size = "A5", spine = "14 mm" }\n',
    "reading-cushion": 'small = { width = "350 mm", height = "350 mm" }\nlarge = { width = "450 mm", height = "450 mm" }\n',
    "field-book-cover": "",
}
QUICK = {"bench-scarf", "spectacle-pouch"}
EACH = [pytest.param(name, marks=[] if name in QUICK else pytest.mark.slow) for name in sorted(SIZES)]


@cache
def pattern(name):
    return (GALLERY / name / "pattern.toml").read_text(encoding="utf-8")


def setting(name):
    return Setting(terms="UK" if 'terms   = "UK"' in pattern(name) else "US")


def rows(found):
    return [(row["side"], row["stitches"], row["kinds"]) for row in found["rows"]]


def test_every_piece_of_the_gallery_is_read_back():
    assert set(SIZES) == {path.parent.name for path in GALLERY.glob("*/pattern.toml")}


@pytest.mark.parametrize("name", EACH)
def test_the_words_of_a_piece_make_its_rows(name):
    wanted = engrave.check(pattern(name), f"{name}/pattern.toml").as_json()
    page = engrave.instructions(pattern(name), f"{name}/pattern.toml", setting(name))
    for suffix in ("md", "txt"):
        found = engrave.check(formatted(page, suffix).decode("utf-8"), f"words.{suffix}").as_json()
        assert not found["problems"], suffix
        assert rows(found) == rows(wanted), suffix


@pytest.fixture
def read_once(monkeypatch):
    """Whichever size is asked for, all are read for their mistakes: each is read once, and a copy of that handed out."""
    read_once_in(monkeypatch, work, checked)


@pytest.mark.parametrize("name", EACH)
def test_the_words_for_several_sizes_make_the_rows_of_each(name, read_once):
    """In plain text and as Markdown by turns: that one size is said alike in both is held above."""
    text = pattern(name) + ("[sizes]\n" + SIZES[name] if SIZES[name] else "")
    pieces = pieces_of_sizes(engrave.work_file(text, name), "right")
    page = engrave.sizes(text, f"{name}/pattern.toml")
    for at, piece in enumerate(pieces.values(), 1):
        suffix = ("md", "txt")[at % 2]
        found = engrave.check(formatted(page, suffix).decode("utf-8"), f"words.{suffix}", size=str(at)).as_json()
        assert not found["problems"], (suffix, at)
        called = {special.abbreviation: special.name for special in piece.read.specials}
        wanted = [
            (row.side, row.row.made, {called.get(kind, kind): n for kind, n in row.row.kinds().items()})
            for row in piece.fabric.rows
        ]
        assert rows(found) == wanted, (suffix, at)
