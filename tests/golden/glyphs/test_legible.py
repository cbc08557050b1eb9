"""Every glyph is told from every other on a bad copy, in the turns a chart puts it in."""

import legibility
import pytest


@pytest.mark.parametrize("sc_form", ["plus", "x"])
def test_glyphs_in_rows_and_fans_are_told_apart(sc_form: str) -> None:
    """Of the other form only the glyphs that look otherwise in it are copied, and read among all."""
    found = legibility.confusion(legibility.kinds(sc_form), legibility.FANS[::6], samples=10, only=copied(sc_form))
    assert len(found.names) >= 40
    assert found.wrong() == [], found.table()


def copied(sc_form: str) -> set[str]:
    """The glyphs that are copied: of the other form those that look otherwise in it."""
    plain, marks = legibility.kinds(), legibility.kinds(sc_form)
    only = set(marks) if sc_form == "plus" else {kind for kind in marks if marks[kind] != plain[kind]}
    assert only
    return only


def test_a_glyph_drawn_like_another_is_found_out() -> None:
    marks = legibility.kinds()
    few = {"dc": marks["dc"], "like dc": marks["dc"], "tr": marks["tr"]}
    assert legibility.confusion(few, (0,), samples=20).wrong() != []


@pytest.mark.slow
@pytest.mark.parametrize("sc_form", ["plus", "x"])
@pytest.mark.parametrize("turns", [legibility.FANS, legibility.ROUNDS], ids=["fans", "rounds"])
def test_two_hundred_bad_copies_of_each_glyph_are_read_rightly(sc_form: str, turns: tuple[int, ...]) -> None:
    """Of the other form only the glyphs that look otherwise in it are copied, and read among all."""
    found = legibility.confusion(legibility.kinds(sc_form), turns, samples=200, only=copied(sc_form))
    print(found.table())
    assert found.wrong() == [], found.table()
