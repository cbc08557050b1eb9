"""The multiple found by working the rows over stitch after stitch."""

import pytest
from hookfold.charts.model.multiples import multiple, of_foundation
from hookfold.charts.model.multiples.multiple import Multiple, multiple_of, period, repeats_evenly
from hookfold.charts.model.multiples.of_foundation import ChainMultiple, chain_multiple
from hookfold.charts.model.multiples.of_row import row_multiples
from hookfold.charts.model.multiples.uneven import uneven_problem
from hookfold.charts.model.rows.work import work_text
from hookfold.charts.pattern.written.document import read_written

ANY = "Row 1: Ch 1, turn. Sc in each st across."
BOBBLES = """Row 1: Ch 2, turn. Hdc in each st across.
Row 2: Ch 1, turn. Sc in first 3 sts, *bobble in next st, sc in next 3 sts; rep from * across.
Row 3: Ch 2, turn. Hdc in each st across.
Row 4: Ch 1, turn. Sc in first st, *bobble in next st, sc in next 3 sts; rep from * to last 2 sts, bobble in next st, sc in last st."""
SIX_AND_ONE = "Row 1: Ch 1, turn. Sc in first st, *puff in next st, sc in next 5 sts; rep from * across."


def rows_of(text):
    reading = read_written("Terms: US\n" + text)
    assert not reading.problems
    return reading.pattern.rows


@pytest.mark.parametrize(
    ("text", "of", "plus"),
    [
        (ANY, 1, 0),
        (BOBBLES, 4, 3),
        (SIX_AND_ONE, 6, 1),
        ("Row 1: Ch 1, turn. *Sc in next st, puff in next st; rep from * across.", 2, 0),
    ],
)
def test_the_multiple_is_worked_out(text, of, plus):
    found = multiple_of(rows_of(text), "US")
    assert (found.of, found.plus) == (of, plus)


def test_counts_that_hold_work_and_the_others_do_not():
    rows = rows_of(BOBBLES)
    found = multiple_of(rows, "US")
    for count in range(1, 40):
        assert repeats_evenly(rows, count, "US") == found.holds(count), count


def test_rows_that_lose_stitches_have_no_multiple():
    assert multiple_of(rows_of("Row 1: Ch 1, turn. Sc2tog over first 2 sts, sc in each st across."), "US") is None


def test_period_of_a_plain_rule():
    assert period(lambda n: n > 8 and n % 10 == 3) == Multiple(10, 3, 13)
    assert period(lambda n: False) is None


@pytest.mark.parametrize(
    ("text", "found"),
    [
        # 6k + 1 stitches over a chain one longer; the shell itself is common practice, no source.
        (
            "Ch 26.\nRow 1: Sc in 2nd ch from hook, *sk 2 ch, 5 dc in next ch, sk 2 ch, sc in next ch; rep from * across.",
            ChainMultiple(6, 1, 2),
        ),
        # PG 73303 (1854), filet: open squares of 3 chains, a row of n squares on 3n + 1 stitches.
        (
            "Ch 26.\nRow 1: Dc in 8th ch from hook (beg 7 sk ch count as dc, ch 2 and 2 sk ch), *ch 2, sk next 2 ch, dc in next ch; rep from * across.",
            ChainMultiple(3, 0, 2),
        ),
        # The same number of repeats said in figures: the width may still be varied.
        (
            "Ch 22.\nRow 1: Sc in 2nd ch from hook, [ch 3, sk next 3 ch, sc in next ch] 5 times.",
            ChainMultiple(4, 1, 2),
        ),
    ],
)
def test_multiple_of_a_foundation_chain(text, found):
    got = chain_multiple(work_text("Terms: US\n" + text))
    assert (got.of, got.chain_plus) == (found.of, found.chain_plus)


def test_rows_and_rounds_have_their_own_multiple():
    """A round of k stitches and an increase needs k + 1; a bobble row of 4k + 3 keeps its remainder."""
    text = "Terms: US\nRnd 1: 6 sc in magic ring. (6 sc)\nRnd 2: 2 sc in each sc around. (12 sc)\n"
    text += "Rnd 3: *Sc in next sc, 2 sc in next sc; rep from * around. (18 sc)\n"
    text += "Rnd 4: [Sc in next 2 sc, 2 sc in next sc] 6 times. (24 sc)\n"
    found = row_multiples(work_text(text))
    assert {at: (m.of, m.plus) for at, m in found.items()} == {2: (2, 0), 3: (3, 0)}
    flat = work_text("Terms: US\nOver 23 sc.\nRow 1: Ch 1, sc in first 3 sc, *bobble in next sc, sc in next 3 sc; rep from * across.")
    assert [(m.of, m.plus) for m in row_multiples(flat).values()] == [(4, 3)]


@pytest.mark.parametrize(
    "text",
    [
        # Row 1 goes over 6k + 1 stitches, Row 2 over none of them: only those are worked beyond the first counts.
        "Row 1: Ch 1, turn. Sc in first st, *puff in next st, sc in next 5 sts; rep from * across.\n"
        "Row 2: Ch 1, turn. Sc in first st, *puff in next st, sc in next 5 sts; rep from * to last st, sc2tog.",
        # Every row loses a stitch over each count, so none keeps its width.
        "Row 1: Ch 1, turn. Sc2tog over first 2 sts, sc in each st across.",
    ],
)
def test_counts_that_the_first_ones_rule_out_are_not_worked(text, monkeypatch):
    worked = []
    trial = multiple._trial
    monkeypatch.setattr(multiple, "_trial", lambda rows, count, *rest: worked.append(count) or trial(rows, count, *rest))
    assert multiple_of(rows_of(text), "US") is None
    assert len(worked) < multiple.FIRST_TRIED + (multiple.MOST_TRIED - multiple.FIRST_TRIED) // 4
    assert all(count % 6 == 1 for count in worked if count > multiple.FIRST_TRIED)


def test_a_repeat_longer_than_the_first_counts_is_found():
    """A repeat of 60 stitches goes over one of the first counts only; those after it are still worked."""
    row = "Row 1: Ch 1, turn. *Sc in next 58 sts, puff in next st, sc in next st; rep from * across."
    found = multiple_of(rows_of(row), "US")
    assert (found.of, found.plus) == (60, 0)


def test_a_row_of_fixed_width_beside_one_that_stretches_settles_the_width():
    rows = read_written("Row 1: Ch 1, turn. [Sc in next 4 sts, hdc in next st] 8 times, sc in next st.\n"
                        "Row 2: Ch 1, turn. Sc in each st across.", "US").pattern.rows
    assert multiple_of(rows, "US").least == 41


def test_rows_that_come_out_even_by_chance_are_told_so():
    rows = read_written("Row 1: Ch 1, turn. Sc in first 3 sts, *hdc in next 5 sts; rep from * 3 more times, sc in last 3 sts.\n"
                        "Row 2: Ch 1, turn. Sc in each st across.", "US").pattern.rows
    assert uneven_problem(rows, 26, "US").says.startswith("the rows come out even over 26 stitches and over no other")


def test_no_multiple_is_looked_for_on_a_very_long_chain():
    text = "Terms: US\nCh {n}.\nRow 1: Sc in 2nd ch from hook, *ch 1, sk next ch, sc in next ch; rep from * across."
    short, long = work_text(text.format(n=16)), work_text(text.format(n=1202))
    assert chain_multiple(short).of == 2
    assert not long.problems and chain_multiple(long) is None


EIGHT = "Ch 1, turn. Sc in first st, *puff in next st, sc in next 7 sts; rep from * across."
SEVEN = "Ch 1, turn. Sc in first st, *sc in next 6 sts, puff in next st; rep from * across."
PAIRS = "Ch 1, turn. *Sk next st, dc in next st, dc in skipped st; rep from * across."
NARROWER = "Ch 1, turn. *Sc in next 4 sts, sc2tog; rep from * to last st, sc in last st."


@pytest.mark.parametrize(
    ("rows", "expected"),
    [((EIGHT, SEVEN), [57, 113]), ((EIGHT, PAIRS), []), ((NARROWER, EIGHT), []), ((NARROWER, SEVEN), [])],
)
def test_the_multiple_is_what_working_every_width_gives(rows, expected):
    """Each row's own multiple, learned from a few widths, leaves out the widths that cannot go, and no others."""
    rows = rows_of("\n".join(f"Row {n}: {words}" for n, words in enumerate(rows, 1)))
    found = multiple_of(rows, "US")
    assert [n for n in range(49, 121) if repeats_evenly(rows, n, "US")] == expected
    assert [n for n in range(49, 121) if found is not None and found.holds(n)] == expected


def test_widths_that_rows_alone_rule_out_are_not_worked(monkeypatch):
    worked = []
    trial = multiple._trial
    monkeypatch.setattr(multiple, "_trial", lambda rows, count, *rest: worked.append(count) or trial(rows, count, *rest))
    rows = rows_of(f"Row 1: {EIGHT}\nRow 2: {PAIRS}")
    multiple._multiple_of.cache_clear()
    assert multiple_of(rows, "US") is None and max(worked) == multiple.FIRST_TRIED


@pytest.mark.parametrize(
    ("rows", "of", "most"),
    [
        # Repeats of 6 and 4 over the same width come again every 12; of 6, 5 and 7 not within 120.
        (("[puff in next st, sc in next 5 sts] 4 times, sc in next st", "[Hdc in next 3 sts, dc in next st] 6 times, sc in next st"), 12, 4),
        (("[puff in next st, sc in next 5 sts] 4 times, sc in next st", "[Hdc in next 4 sts, dc in next st] 5 times", "Rep row 3",
          "[Hdc in next 6 sts, dc in next st] 3 times, sc in next 4 sts"), 0, 0),
        # A chain over every second stitch and a row into stitches and spaces: pairs, and fours over them.
        (("dc in first st, [ch 1, sk next st, dc in next st] 12 times", "hdc in each st and ch-1 sp across",
          "[Hdc in next 3 sts, dc in next st] 6 times, sc in next st"), 4, 4),
        # What makes 5 of 6 must grow by four of them for a repeat of 4 over it: 24 stitches more are 20 more.
        (("[sc in next 4 sts, sc2tog] 4 times, sc in next st", "[Hdc in next 3 sts, dc in next st] 5 times, sc in next st"), 24, 4),
    ],
)  # fmt: skip
def test_only_widths_that_whole_repetitions_allow_are_worked(rows, of, most, monkeypatch):
    tried = []
    goes = of_foundation._goes
    monkeypatch.setattr(of_foundation, "_goes", lambda *given: tried.append(given[2]) or goes(*given))
    text = "Terms: US\nCh 26.\nRow 1: Sc in 2nd ch from hook and in each ch across. (25 sts)\n"
    text += "\n".join(f"Row {n}: {words if words[:3] == 'Rep' else 'Ch 1, turn. ' + words}." for n, words in enumerate(rows, 2))
    worked = work_text(text)
    assert not worked.problems, worked.problems
    found = chain_multiple(worked)
    assert (found.of if found else 0) == of and len(tried) <= most
