"""The user's own words made fit for a file."""

import unicodedata
from xml.etree import ElementTree

import pytest
from hookfold.charts.drawing.plain import LINE_LIMIT, clean_line, clean_text
from hypothesis import given
from hypothesis import strategies as st


@given(st.text(max_size=300))
def test_a_cleaned_line_can_stand_in_xml_and_is_composed(text: str) -> None:
    line = clean_line(text)
    assert ElementTree.fromstring(f"<a>{line.replace('&', '').replace('<', '')}</a>") is not None
    assert line == unicodedata.normalize("NFC", line)
    assert "\n" not in line


@given(st.text(max_size=300))
def test_cleaning_twice_changes_nothing_more(text: str) -> None:
    assert clean_line(clean_line(text)) == clean_line(text)


@pytest.mark.parametrize(
    ("given_", "kept"),
    [
        ("nul\0 and\x07bell", "nul andbell"),
        ("one\r\ntwo\tthree", "one two three"),
        ("\u202eevil\u202c", "evil"),
        ("zero\u200bwidth", "zerowidth"),
        ("lone \ud800 surrogate", "lone  surrogate"),
        ("Ame\u0301lie", "Amélie"),
    ],
)
def test_what_must_go_goes(given_: str, kept: str) -> None:
    assert clean_line(given_) == kept


def test_a_long_line_is_cut() -> None:
    assert len(clean_line("x" * 10_000)) == LINE_LIMIT
    assert clean_line("x" * 10_000).endswith("…")


def test_text_keeps_its_breaks() -> None:
    assert clean_text("a\r\nb\tc\x00") == "a\nb\tc"
