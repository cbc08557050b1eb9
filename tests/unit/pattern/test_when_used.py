"""Patterns compiled when a text may hold a match: what is not compiled would not have matched."""

import re
from types import BuiltinMethodType

import pytest
from hookfold.charts.pattern import when_used
from hookfold.charts.pattern.when_used import letters_needed
from hypothesis import given, settings
from hypothesis import strategies as st
from letters_known import late_patterns, reckoned
from notation_cases import table

LETTERS = {
    "ab?c": ["a", "c"], "a{2}b": ["a", "b"], "a{0,2}bc": ["bc"], "(?:ab)?cd": ["cd"], "ab*": ["a"], "a|bc": [("a", "bc")],
    "x(?:ab|cd)+y": [("xab", "xcd"), "y"], "(?=zz)qq(?!r)": ["qq"], r"\bfoo\.bar": ["foo.bar"], "(?i:AB)c": ["abc"], "AB": ["AB"],
    "[])a]bb": [("]", ")", "a"), "bb"], "ab{": ["ab{"], "(?:a|)b": ["b"], "(?:a|[bc])d": [("a", [("b", "c")]), "d"],
    r"\d (?:sc|h?dc)": ["0 ", ("sc", ["dc"])], "a(?:b*c|d)": ["a", (["c"], "d")],
    r"(?P<n>one|two)(?P<m>x?)": [("one", "two")], "ab++c": ["ab", "c"], r"\(sc\)": ["(sc)"], "é?sc": ["sc"], "ésc": ["sc"],
    r"[~+]\s": [("~", "+"), " "], r"x[-\u2013.]": [("x-", "x–", "x.")], r"[\])]?a[B!]+": [("aB", "a!")], "[a-c]d": ["d"],
    "[^ab]c": ["c"], r"[\d.]c": [("0", "."), "c"], "[abcdefghi]j": ["j"], r"\d+": ["0"], "a?": [], "": [],
    # Figures and white run together; what looks ahead at the end or back at the beginning is there as well.
    r"ch \d{1,3}\s*\d:": ["ch 0", "0:"], r"\d{1,3}[.0]": ["0", (".", "0")], r"\d(?:st|nd)": [("0st", "0nd")], r"2  \n1[0-9]st": ["0 0st"], r"a(?=b)|(?<=c )d(?=e)": [("ab", "c de")], r"(?=a)b(?<=c)": ["b"],
    "(?:rows?|r) (x(?:y|zx)z)": [("row", "r"), (" xy", " xzx"), "z"], r"(?P<q>['\"])ab(?P=q)": [("'", '"'), "ab"], r"(\()?a(?(1)\)|b)c": ["a", "c"],
    # Not followed: everything may match.
    "(?i)ab": [], "a(?#x)b": [], "(?>ab)c": [], "ab)c": [],
}  # fmt: skip


@pytest.mark.parametrize("pattern", LETTERS)
def test_letters_that_every_match_holds(pattern):
    assert letters_needed(pattern) == LETTERS[pattern]
    assert letters_needed(pattern, re.VERBOSE) == []


def test_letters_before_a_way_that_something_may_begin_do_not_touch_it():
    assert letters_needed("in (?:sc|h?dc) is") == ["in ", ("sc", ["dc"]), " is"]
    assert when_used.when_used("in (?:sc|h?dc) is").search("in hdc is") is not None


def test_letters_count_in_their_order_and_no_further_than_a_text_lacks_them():
    assert when_used.reached(["ab", ("c", ["d", "e"])], "xabdce") == 5
    assert when_used.reached(["0", "0:"], "0:") == 2 and when_used.reached(["b", "a"], "ab") == -1
    assert letters_needed("ab.(?:c|d).e|f(?:g|h).i|j", 0, "ab e f") == [(["ab", ("c", "d")], [("fg", "fh")], "j")]
    asked = when_used.when_used("ab.(?:c|d).e|f(?:g|h).i")
    assert asked.search("ab e f") is None and asked.search("fg i") is not None and asked.search("ab cd") is None


PIECES = st.recursive(
    st.sampled_from(["a", "b c", "Row", "11", r"\d", r"\d{1,2}", r"\s", r"\s+", " ", r"\n", ".", "[abc]", "[^a]", r"[\].]", "[-x]", "[a-c]", r"\.", r"\b", "é", "h?dc", r"\d*a", "(?=a)", "^", "$"]),
    lambda inner: st.one_of(
        st.lists(inner, min_size=1, max_size=4).map("".join),
        st.lists(inner, min_size=1, max_size=4).map(lambda ways: f"(?:{'|'.join(ways)})"),
        st.tuples(st.lists(inner, min_size=1, max_size=3), st.sampled_from(["?", "*", "+", "{2}", "{0,1}", "*?", "{,2}"])).map(
            lambda two: f"({'|'.join(two[0])}){two[1]}"
        ),
    ),
    max_leaves=12,
)


@settings(max_examples=60)
@given(pattern=PIECES, flags=st.sampled_from([0, re.IGNORECASE]), data=st.data())
def test_what_matches_holds_the_letters(pattern, flags, data):
    text = data.draw(st.from_regex(re.compile(pattern, flags)))
    asked = when_used.when_used(pattern, flags)
    assert not asked._cannot_match(text), (pattern, text, letters_needed(pattern, flags))


def test_the_reader_s_own_patterns_find_in_lines_what_they_found_compiled():
    patterns = late_patterns()
    lines = list(dict.fromkeys(line for entry in table("pattern") for line in str(entry["text"]).splitlines() if line.strip()))
    lines = lines[:: max(1, len(lines) // 60)]
    assert len(patterns) > 250 and len(lines) > 40
    skipped = 0
    for pattern, flags in patterns:
        asked = when_used.when_used(pattern, flags)
        compiled = re.compile(pattern, flags)
        for line in lines:
            if asked._cannot_match(line):
                skipped += 1
                assert compiled.search(line) is None, (pattern, line)
    assert skipped > len(patterns) * len(lines) / 3


def test_what_cannot_match_is_answered_as_the_compiled_pattern_does():
    asked, compiled, text = when_used.when_used("marker(s)"), re.compile("marker(s)"), "sc in next st"
    assert (asked.match(text), asked.search(text), asked.fullmatch(text)) == (None, None, None)
    assert list(asked.finditer(text)) == [] and asked.findall(text) == compiled.findall(text)
    assert asked.sub("x", text) == text and asked.subn("x", text) == compiled.subn("x", text)
    assert asked.split(text) == compiled.split(text)
    assert not isinstance(vars(asked)["search"], BuiltinMethodType)  # not compiled
    assert asked.search("two MARKERS markers")[1] == "s" and isinstance(vars(asked)["search"], BuiltinMethodType)
    assert asked.groups == 1


def test_what_is_asked_often_where_it_begins_is_compiled_whatever_the_text():
    asked = when_used.when_used("marker(s)")
    for _ in range(when_used.OFTEN):
        assert asked.match("sc in next st") is None and asked.search("sc in next st") is None
    assert not isinstance(vars(asked)["match"], BuiltinMethodType)
    assert asked.match("sc in next st") is None and asked.match("markers")[1] == "s"
    assert isinstance(vars(asked)["match"], BuiltinMethodType) and not isinstance(vars(asked)["search"], BuiltinMethodType)


def test_what_is_written_down_of_patterns_is_what_they_need():
    """What is written down of one that has changed is not found; of the rest little may be missing or left over."""
    known, needed = when_used.known_letters(), reckoned(late_patterns())
    assert {key: known[key] for key in needed if key in known} == {key: needed[key] for key in needed if key in known}
    common = len(known.keys() & needed.keys())
    assert common > 0.9 * len(needed) and common > 0.9 * len(known), "write them anew: tests/unit/pattern/letters_known.py"


def test_no_two_patterns_are_kept_under_one_key():
    patterns = late_patterns()
    assert len({when_used.key_of(*asked) for asked in patterns}) == len(patterns) > 800
    changed = {when_used.key_of(pattern + "?", flags) for pattern, flags in patterns}
    assert not changed & when_used.known_letters().keys()


def test_a_pattern_that_is_not_written_down_is_answered_alike(monkeypatch):
    patterns = list(late_patterns())[::20]
    lines = [line for entry in table("pattern") for line in str(entry["text"]).splitlines() if line.strip()][::30]
    told = [[when_used.when_used(*asked)._cannot_match(line) for line in lines] for asked in patterns]
    monkeypatch.setattr(when_used, "known_letters", dict)
    assert told == [[when_used.when_used(*asked)._cannot_match(line) for line in lines] for asked in patterns]
    assert any(map(any, told)) and not all(map(all, told))


def test_letters_written_down_need_no_reckoning(monkeypatch):
    (pattern, flags), line = next(iter(late_patterns())), "sc in next st"
    monkeypatch.setattr(when_used, "letters_needed", None)
    assert when_used.when_used(pattern, flags)._cannot_match(line) in (True, False)
