"""Pages of loops, shells, posts and corners in many manners are read, and none wrongly without a word."""

from loops import KINDS, measured

SEED, COUNT = 11, 42


def test_nearly_every_page_of_loops_is_read_and_none_wrongly_without_a_word() -> None:
    outcomes = measured(SEED, COUNT)
    assert {o.kind for o in outcomes} == {kind.__name__ for kind in KINDS}
    assert [o.text for o in outcomes if o.silent] == []
    unclean = [o for o in outcomes if not o.clean]
    assert len(unclean) <= 0.06 * COUNT, "\n\n".join(o.told or o.text for o in unclean)
