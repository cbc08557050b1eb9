"""The JSON Schema agrees with the reader: what one takes the other takes."""

import tomllib
from pathlib import Path

import jsonschema
import pytest
from hookfold.charts.pattern.file.keys import TABLES
from hookfold.charts.pattern.file.read import read_pattern
from hookfold.charts.pattern.file.schema import schema
from hookfold.charts.pattern.file.values import READERS

FOLDER = Path(__file__).parents[2] / "invalid"
GALLERY = Path(__file__).parents[3] / "gallery"
CHECKER = jsonschema.Draft202012Validator(schema())

#: Faults that one value shows by itself, which a schema can see.
SEEN = (
    "border-stitch-unknown", "border-corner-half", "colour-letter-lower", "colour-no-name", "colour-not-a-table",
    "colour-not-hex", "gauge-missing", "gauge-not-a-table", "gauge-rows-text", "gauge-zero", "hook-no-unit",
    "hook-letter", "joins-word", "kind-unknown", "key-misspelt", "key-of-nothing", "length-negative",
    "length-no-unit", "length-unit-unknown", "no-sections", "percent-bare", "section-no-length",
    "section-length-and-rows", "section-rows-zero", "section-no-work", "section-work-empty", "stripes-not-a-list",
    "terms-unknown", "title-missing", "title-number", "ball-half", "category-nine", "swatch-weight",
    "special-no-words", "texture-unknown",
)  # fmt: skip


def test_it_is_a_schema():
    jsonschema.Draft202012Validator.check_schema(schema())


@pytest.mark.parametrize("file", sorted(GALLERY.glob("*/pattern.toml")), ids=lambda p: p.parent.name)
def test_gallery_patterns_hold(file):
    text = file.read_text("utf-8")
    CHECKER.validate(tomllib.loads(text))
    assert read_pattern(text, file.name).title


@pytest.mark.parametrize("name", SEEN)
def test_faults_are_seen(name):
    raw = tomllib.loads((FOLDER / f"{name}.toml").read_text("utf-8"))
    assert not CHECKER.is_valid(raw)


def test_every_kind_of_value_has_a_reader_and_every_key_a_meaning():
    used = {key.takes for keys in TABLES.values() for key in keys} - {"table", "tables"}
    assert used == set(READERS)
    assert all(key.says for keys in TABLES.values() for key in keys)
