"""Reading what was written gives the same tree, in both terms, for trees of every shape the notation has."""

from hookfold.charts.pattern.tree import (
    Act,
    Chain,
    Into,
    Make,
    Noun,
    Place,
    RowText,
    Skip,
    Star,
    Start,
    Stated,
    Times,
    WrittenPattern,
)
from hookfold.charts.pattern.writer import write_pattern
from hookfold.charts.pattern.written.document import read_written
from hypothesis import given
from hypothesis import strategies as st

PLAIN = st.sampled_from(["sc", "hdc", "dc", "tr", "dtr"])
COUNTS = st.integers(2, 40)
NOUNS = st.one_of(st.just(Noun("st")), st.builds(Noun, PLAIN), st.just(Noun("ch")))
SPACES = st.builds(Noun, st.just("sp"), st.integers(1, 9))

RUNS = st.builds(Place, st.sampled_from(["next", "first", "last"]), NOUNS, st.integers(1, 30))
EACH = st.builds(Place, st.just("each"), st.one_of(NOUNS, SPACES), until=st.one_of(st.none(), st.tuples(COUNTS, NOUNS)))
ONE = st.one_of(
    st.builds(Place, st.sampled_from(["next", "same", "first", "last"]), st.one_of(NOUNS, SPACES)),
    st.builds(Place, st.just("hook"), st.just(Noun("ch")), nth=st.integers(2, 9)),
    st.builds(
        lambda n, size: Place("nth", Noun("ch"), nth=n, of=Place("beg", Noun("ch", size))),
        st.integers(2, 5),
        st.integers(5, 9),
    ),
    st.builds(lambda size: Place("top", of=Place("beg", Noun("ch", size))), st.integers(2, 6)),
    st.builds(lambda n, k: Place("nth", Noun(k), nth=n, of=Place("next", Noun("shell"))), st.integers(2, 6), PLAIN),
)
LOOPED = st.builds(
    lambda p, hold: Place(p.which, p.noun, p.count, hold=hold),
    RUNS,
    st.sampled_from(["front loop", "back loop"]),
)

MADE = st.one_of(
    st.builds(lambda k, p: Make(k, 1, (p,)), PLAIN, st.one_of(RUNS, EACH, ONE, LOOPED)),
    st.builds(lambda k, n, p: Make(k, n, (p,)), PLAIN, COUNTS, ONE),
    st.builds(lambda k, n: Make(f"{k}{n}tog", 1, (Place("next", Noun("st"), n),)), PLAIN, st.integers(2, 5)),
    st.builds(lambda side, k, p: Make(side + k, 1, (p,)), st.sampled_from(["FP", "BP"]), PLAIN, RUNS),
)
CHAINS = st.builds(Chain, st.integers(1, 30))
SKIPS = st.builds(lambda n, k: Skip((Place("next", k, n),)), st.integers(1, 9), NOUNS)
GROUPS = st.builds(
    lambda a, n, b, p: Into((Make(a, n), Chain(n), Make(b)), (p,)), PLAIN, COUNTS, PLAIN,
    st.builds(Place, st.just("next"), st.one_of(SPACES, st.just(Noun("st")))),
)  # fmt: skip
SIMPLE = st.one_of(MADE, CHAINS, SKIPS, GROUPS)
SEVERAL = st.lists(SIMPLE, min_size=2, max_size=4).map(tuple)
REPEATS = st.one_of(
    st.builds(Times, SEVERAL, st.integers(2, 12)),
    st.builds(Star, SEVERAL, more=st.integers(1, 12)),
    st.builds(Star, SEVERAL, until=st.tuples(COUNTS, NOUNS)),
    st.builds(Star, SEVERAL, word=st.sampled_from(["across", "around"])),
)
ROWS = st.lists(st.one_of(SIMPLE, REPEATS), min_size=1, max_size=5).map(
    lambda ops: RowText(
        "Row 1", 1, 1, (Chain(1), Act("turn"), *ops), stated=(Stated(7, Noun("sc")), Stated(2, Noun("sp", 3)))
    )
)


@given(ROWS, st.sampled_from(["US", "UK"]))
def test_read_of_write_is_the_tree(row, terms):
    pattern = WrittenPattern("US", Start("over", 40, "sc"), (row,))
    text = write_pattern(pattern, terms)
    reading = read_written(text)
    assert not reading.problems, (text, [p.says for p in reading.problems])
    assert reading.pattern.terms == terms
    assert reading.pattern.rows[0].ops == row.ops, text
    got = [(s.count, s.noun) for s in reading.pattern.rows[0].stated]
    assert got == [(s.count, s.noun) for s in row.stated], text
