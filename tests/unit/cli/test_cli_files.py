"""Reading and writing of files: whole or not at all, and wrong use said in a line."""

import os
import stat

import click
import pytest
from hookfold.charts.errors import PatternError
from hookfold.cli.disk.files import MOST_BYTES, decoded, read_text, suffix_of, write_all


def test_a_byte_order_mark_is_left_out(tmp_path):
    (tmp_path / "a.txt").write_bytes(b"\xef\xbb\xbfRow 1")
    assert read_text(str(tmp_path / "a.txt")) == ("Row 1", str(tmp_path / "a.txt"))


def test_what_is_not_utf8_says_where():
    with pytest.raises(PatternError) as caught:
        decoded(b"one\ntwo \xff", "x.txt")
    problem = caught.value.problems[0]
    assert (problem.kind, problem.line) == ("file", 2)


def test_too_large(tmp_path):
    (tmp_path / "a.txt").write_bytes(b"x" * (MOST_BYTES + 1))
    with pytest.raises(PatternError) as caught:
        read_text(str(tmp_path / "a.txt"))
    assert caught.value.problems[0].kind == "limit"


@pytest.mark.parametrize("name", ["missing.toml", "."])
def test_what_cannot_be_opened_is_wrong_use(tmp_path, name):
    with pytest.raises(click.UsageError):
        read_text(str(tmp_path / name))


def test_files_are_written_with_usual_rights_and_nothing_beside_them(tmp_path):
    mask = os.umask(0o022)
    try:
        write_all({tmp_path / "in" / "a.svg": b"1", tmp_path / "b.svg": b"2"})
    finally:
        os.umask(mask)
    assert sorted(p.name for p in tmp_path.rglob("*") if p.is_file()) == ["a.svg", "b.svg"]
    assert stat.S_IMODE((tmp_path / "b.svg").stat().st_mode) == 0o644


def test_a_failed_run_leaves_what_was_there(tmp_path):
    (tmp_path / "a.svg").write_bytes(b"old")
    (tmp_path / "dir.svg").mkdir()
    (tmp_path / "dir.svg" / "full").write_bytes(b"")
    with pytest.raises(click.UsageError):
        write_all({tmp_path / "a.svg" / "b.svg": b"x", tmp_path / "c.svg": b"y"})
    with pytest.raises(click.UsageError):
        write_all({tmp_path / "dir.svg": b"new"})
    assert (tmp_path / "a.svg").read_bytes() == b"old"
    assert sorted(p.name for p in tmp_path.iterdir()) == ["a.svg", "dir.svg"]


def test_the_ending_says_the_format():
    assert suffix_of("a/b.PNG", ("svg", "png"), "svg") == "png"
    assert suffix_of("-", ("svg", "png"), "svg") == "svg"
    with pytest.raises(click.UsageError):
        suffix_of("a/b", ("svg", "png"), "svg")


def test_utf16_is_called_by_its_name():
    with pytest.raises(PatternError) as caught:
        decoded("Row 1".encode("utf-16"), "x.txt")
    assert "UTF-16" in caught.value.problems[0].says


def test_bare_carriage_returns_end_lines():
    assert decoded(b"Ch 11.\rRow 1", "x.txt") == "Ch 11.\nRow 1"


@pytest.mark.parametrize("begins", ["<svg xmlns='http://www.w3.org/2000/svg'>", '<?xml version="1.0"?>\n<svg>', "\n <SVG>"])
def test_a_drawing_is_refused_as_soon_as_it_is_read(begins):
    with pytest.raises(PatternError) as refused:
        decoded((begins + "<path d='M0 0'/>" * 1000).encode(), "chart.svg")
    assert "markup" in refused.value.problems[0].says
    assert decoded(b"<b>Row 1:</b> ch 3", "x.txt").startswith("<b>")
