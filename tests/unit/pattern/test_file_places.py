"""The scanner of places: keys, values and the lines of texts, wherever TOML lets them stand."""

import tomllib

import pytest
from hookfold.charts.pattern.file.places import locate
from hypothesis import given
from hypothesis import strategies as st


def key(text, *path):
    place = locate(text).of_key(path)
    return place.line, place.column, place.text[place.column - 1 : place.column - 1 + place.length]


def value(text, *path):
    place = locate(text).of_value(path)
    return place.line, place.column, place.text[place.column - 1 : place.column - 1 + place.length]


def test_plain_and_dotted_keys():
    text = 'a = 1 # note\nb.c = "x"\n"d e" = [1,\n 2]\n'
    assert value(text, "a") == (1, 5, "1")
    assert value(text, "b", "c") == (2, 7, '"x"')
    assert key(text, "d e") == (3, 1, '"d e"')
    assert value(text, "d e", 1) == (4, 2, "2")


def test_tables_and_arrays_of_tables():
    text = "[a.b]\nx = 1\n[[s]]\nx = 2\n[[s]]\nx = 3\n[s.t]\ny = 4\n"
    assert value(text, "a", "b", "x") == (2, 5, "1")
    assert value(text, "s", 0, "x") == (4, 5, "2")
    assert value(text, "s", 1, "x") == (6, 5, "3")
    assert value(text, "s", 1, "t", "y") == (8, 5, "4")
    assert key(text, "s", 1) == (5, 1, "[[s]]")
    assert key(text, "s", 1, "missing") == (5, 1, "[[s]]")


def test_inline_tables():
    text = 'yarn = { fibre = "a, } # b", ball = "50 g" }'
    assert value(text, "yarn", "ball") == (1, 37, '"50 g"')


@pytest.mark.parametrize(
    ("text", "starts"),
    [
        ('w = """\nOne\nTwo\n"""', [(2, 1), (3, 1), (4, 1)]),
        ('w = """One\nTwo"""', [(1, 8), (2, 1)]),
        ("w = '''\nOne\nTwo'''", [(2, 1), (3, 1)]),
        ('w = "One\\nTwo"', [(1, 6), (1, 11)]),
        ('w = """\nOne \\\n   more\nTwo"""', [(2, 1), (4, 1)]),
        ('w = """\r\nOne\r\nTwo"""', [(2, 1), (3, 1)]),
    ],
)
def test_the_lines_of_a_text(text, starts):
    words = locate(text).words(("w",), tomllib.loads(text)["w"])
    assert list(words.starts) == starts
    assert len(words.text.split("\n")) == len(starts)


def test_quotes_before_the_closing_fence():
    text = 'a = """x"""""\nb = 2'
    assert tomllib.loads(text) == {"a": 'x""', "b": 2}
    assert value(text, "b") == (2, 5, "2")


@given(st.text(alphabet="ab=[]{}\"'\\#,.\n 1", max_size=60))
def test_it_ends_on_anything(text):
    places = locate(text)
    assert places.of_key(("a",)).line >= 1


NAMES = st.text("abcxyz_", min_size=1, max_size=4)
VALUES = st.integers(0, 99) | st.text('ab "\\#]},=', max_size=6) | st.lists(st.integers(0, 9), max_size=3)


def written(value):
    if isinstance(value, str):
        return '"' + value.replace("\\", "\\\\").replace('"', '\\"') + '"'
    return str(value)


@given(st.dictionaries(NAMES, st.dictionaries(NAMES, VALUES, max_size=4), max_size=4))
def test_every_value_is_found_where_it_is_written(tables):
    text = "".join(
        f"[{name}]\n" + "".join(f"{k} = {written(v)}  # note\n" for k, v in table.items())
        for name, table in tables.items()
    )
    assert tomllib.loads(text) == tables
    for name, table in tables.items():
        for k, v in table.items():
            assert value(text, name, k)[2] == written(v)
            assert key(text, name, k)[2] == k
