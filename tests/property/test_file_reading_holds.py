"""Whatever stands in a pattern file, reading gives records or problems, never anything else."""

import tomllib
from pathlib import Path

import jsonschema
from conftest import some
from hookfold.charts.errors import KINDS, PatternError
from hookfold.charts.pattern.file.keys import TABLES
from hookfold.charts.pattern.file.read import read_pattern
from hookfold.charts.pattern.file.schema import schema
from hypothesis import example, given, settings
from hypothesis import strategies as st

SOUND = (Path(__file__).parents[1] / "invalid" / "sound.toml.txt").read_text("utf-8")
LINES = SOUND.split("\n")
CHECKER = jsonschema.Draft202012Validator(schema())

KEYS = sorted({key.name for keys in TABLES.values() for key in keys})
ODD = st.sampled_from((
    '""', '"x"', "3", "-3", "0", "1e308", "nan", "inf", "true", "[]", '["A"]', "{}", "{ a = 1 }", '"0 mm"', '"-1 mm"',
    '"1/0 in"', '"\\u0000"', '"\\uFFFF"', "1979-05-27", "[[1]]", '["0 %", "6 %"]', '"A"', '"rest"', "'''\n\n'''",
    '"9999999999999999999999 mm"', "99999999999999999999", '"½ in"', '"A4"',
))  # fmt: skip


def holds(text):
    try:
        return read_pattern(text, "sample.toml")
    except PatternError as found:
        assert found.problems
        lines = text.replace("\r\n", "\n").split("\n")
        for problem in found.problems:
            assert problem.kind in KINDS and problem.says and problem.remedy and problem.report()
            assert 0 <= problem.line <= len(lines) + 1
            assert all(c.isprintable() or c in "\n" for c in problem.says + problem.remedy)
        return None


@given(st.lists(st.tuples(st.integers(0, len(LINES) - 1), st.sampled_from(KEYS), ODD), min_size=1, max_size=4))
@settings(max_examples=some(150))
def test_odd_values_anywhere(changes):
    lines = list(LINES)
    for at, key, value in changes:
        lines[at] = f"{key} = {value}"
    holds("\n".join(lines))


@given(st.integers(0, len(SOUND)), st.integers(0, 60), st.text(max_size=12))
@settings(max_examples=some(150))
@example(0, 0, "\ufeff")
def test_any_stretch_replaced(at, length, new):
    holds(SOUND[:at] + new + SOUND[at + length :])


@given(st.lists(st.integers(0, len(LINES) - 1), max_size=6, unique=True))
@settings(max_examples=some(100))
def test_any_lines_left_out(gone):
    holds("\n".join(line for i, line in enumerate(LINES) if i not in gone))


@given(st.sampled_from(sorted(TABLES)), st.data())
@settings(max_examples=some(100))
def test_what_reads_holds_by_the_schema(table, data):
    """A file that the reader takes is one that the schema takes (editors do not cry wolf)."""
    at = data.draw(st.integers(0, len(LINES) - 1))
    lines = list(LINES)
    lines[at] = f"{data.draw(st.sampled_from([k.name for k in TABLES[table]]))} = {data.draw(ODD)}"
    text = "\n".join(lines)
    if holds(text):
        assert CHECKER.is_valid(tomllib.loads(text)), [e.message for e in CHECKER.iter_errors(tomllib.loads(text))]
