"""A system without the cairo library still gets SVG and words, and one line that says how to get the rest."""

import sys

import pytest
from click.testing import CliRunner
from hookfold.charts import engrave
from hookfold.charts.output.export import cairo_here
from hookfold.charts.setting import Setting
from hookfold.cli import main
from test_words import SCARF


@pytest.fixture
def no_cairo(monkeypatch):
    monkeypatch.setitem(sys.modules, "cairosvg", None)
    monkeypatch.setitem(sys.modules, "cairocffi", None)


def test_everything_but_png_and_pdf_is_made(no_cairo):
    assert not cairo_here()
    made = engrave.make(SCARF, "scarf.toml", Setting())
    assert {"chart.svg", "assembly.svg", "instructions.md", "share-square.svg", "share-square.txt"} <= set(made)
    assert [name for name in made if name.endswith((".png", ".pdf"))] == ["booklet.pdf"]  # which cairo has no part in


def test_make_says_how_to_get_them(no_cairo, tmp_path):
    pattern = tmp_path / "scarf.toml"
    pattern.write_text(SCARF, "utf-8")
    run = CliRunner().invoke(main, ["make", str(pattern), "-o", str(tmp_path / "out")])
    assert run.exit_code == 0
    said = [line for line in run.stderr.split("\n") if "cairo" in line]
    assert len(said) == 1 and "apt-get install libcairo2" in said[0] and "brew install cairo" in said[0]


def test_asking_for_a_png_alone_is_refused_in_one_line(no_cairo, tmp_path):
    pattern = tmp_path / "scarf.toml"
    pattern.write_text(SCARF, "utf-8")
    run = CliRunner().invoke(main, ["chart", str(pattern), "-o", str(tmp_path / "chart.png")])
    assert run.exit_code == 2 and "Traceback" not in run.output
    assert not (tmp_path / "chart.png").exists()
