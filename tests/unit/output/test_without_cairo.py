"""A system without the cairo library still gets SVG and words, and one line that says how to get the rest."""

import sys

import pytest
from click.testing import CliRunner
from hookfold.charts.output.export import cairo_here
from hookfold.charts.output.images import fabric, shared
from hookfold.charts.picture.views import Look
from hookfold.cli import main
from test_words import SCARF

#: A short scarf: which files are made does not hang on its length.
SHORT = SCARF.replace("60 cm", "8 cm").replace('"20 cm"', '"8 cm"')


def without_cairo(patched):
    patched.setitem(sys.modules, "cairosvg", None)
    patched.setitem(sys.modules, "cairocffi", None)


@pytest.fixture
def no_cairo(monkeypatch):
    without_cairo(monkeypatch)


@pytest.fixture(scope="module")
def made(tmp_path_factory):
    """A whole set made without cairo, its pictures of few dots: how the command ended, and the names of its files."""
    folder = tmp_path_factory.mktemp("without-cairo")
    pattern = folder / "scarf.toml"
    pattern.write_text(SHORT, "utf-8")
    with pytest.MonkeyPatch.context() as patched:
        without_cairo(patched)
        patched.setattr(fabric, "WHOLE_PX", 60)
        patched.setattr(shared, "CLOSE", Look("right", 48, 74))
        run = CliRunner().invoke(main, ["make", str(pattern), "-o", str(folder / "out")])
    return run, [path.name for path in (folder / "out").iterdir()]


def test_cairo_is_missed_where_it_is_not(no_cairo):
    assert not cairo_here()


def test_everything_but_png_and_pdf_is_made(made):
    names = made[1]
    assert {"chart.svg", "assembly.svg", "instructions.md", "share-square.svg", "share-square.txt"} <= set(names)
    assert [name for name in names if name.endswith((".png", ".pdf"))] == ["booklet.pdf"]  # which cairo has no part in


def test_make_says_how_to_get_them(made):
    run = made[0]
    assert run.exit_code == 0
    said = [line for line in run.stderr.split("\n") if "the cairo library" in line]
    assert len(said) == 1 and "apt-get install libcairo2" in said[0] and "brew install cairo" in said[0]


def test_asking_for_a_png_alone_is_refused_in_one_line(no_cairo, tmp_path):
    pattern = tmp_path / "scarf.toml"
    pattern.write_text(SCARF, "utf-8")
    run = CliRunner().invoke(main, ["chart", str(pattern), "-o", str(tmp_path / "chart.png")])
    assert run.exit_code == 2 and "Traceback" not in run.output
    assert not (tmp_path / "chart.png").exists()
