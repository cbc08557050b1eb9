"""Whatever is skipped and spanned by chains is found again straight below, however the gaps lie."""

from __future__ import annotations

from hookfold.charts.model.rows.work import work_text
from hypothesis import given
from hypothesis import strategies as st
from notation_feet import feet_of

#: Stitches worked, and stitches skipped, in turn: the row begins and ends with stitches.
STRETCHES = st.lists(st.tuples(st.integers(1, 4), st.integers(1, 4)), min_size=1, max_size=5)


def gaps_row(stretches, last, gap):
    """A row of stitches with `gap` words for each number skipped."""
    parts = [f"sc in next {n} sc, {gap(skipped)}" for n, skipped in stretches]
    return "Ch 1, " + ", ".join([*parts, f"sc in last {last} sc"])


def pattern(stretches, last, chain_rows, closing):
    """Gaps opened over a plain row, kept open for so many rows in all, and closed."""
    width = sum(a + b for a, b in stretches) + last
    rows = [f"Terms: US\nCh {width + 1}.\nRow 1 (RS): Sc in 2nd ch from hook and in each ch across, turn. ({width} sc)"]
    way = (stretches, last)
    for number in range(2, chain_rows + 2):
        there = (lambda n: f"ch {n}, sk next {n} sc") if number == 2 else (lambda n: f"ch {n}, sk next ch-{n} sp")
        rows.append(f"Row {number}: {gaps_row(way[0], way[1], there)}, turn.")
        way = turned(*way)
    rows.append(f"Row {chain_rows + 2}: {gaps_row(way[0], way[1], closing)}. ({width} sts)")
    return "\n".join(rows) + "\n", way


def turned(stretches, last):
    """The same gaps met from the other side."""
    worked = [n for n, _ in stretches] + [last]
    skipped = [n for _, n in stretches]
    return list(zip(worked[:0:-1], skipped[::-1], strict=True)), worked[0]


def by_hand(way, deep):
    """The feet a hand finds: stitches in their order, skipped ones at their place in the plain row."""
    out, near, place = [], 0, 0
    for worked, skipped in [*way[0], (way[1], 0)]:
        out += [f"sc 1:{near + i + 1}" for i in range(worked)]
        near, place = near + worked, place + worked
        out += [f"dc {deep}:{place + i + 1}" for i in range(skipped)]
        place += skipped
    return out


@given(STRETCHES, st.integers(1, 4), st.integers(1, 3), st.sampled_from(["below", "number", "each", "unsaid"]))
def test_skipped_stitches_are_found_again(stretches, last, chain_rows, said):
    deep = chain_rows + 1
    words = {
        "below": lambda n: f"dc in next {n} skipped sc {deep} rows below",
        "number": lambda n: f"dc in {n} skipped sc of Row 1",
        "each": lambda n: f"dc in each skipped sc {deep} rows below",
        "unsaid": lambda n: f"working over chs, dc in next {n} skipped sc",
    }
    text, way = pattern(stretches, last, chain_rows, words[said])
    worked = work_text(text)
    assert [p.report() for p in worked.problems] == []
    assert feet_of(worked) == by_hand(way, deep)


@given(st.integers(2, 5), st.integers(0, 6), st.integers(1, 6))
def test_straight_below_in_plain_rows(deep, before, count):
    width = before + count + 2
    text = f"Terms: US\nCh {width + 1}.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. ({width} sc)\n"
    text += f"Rows 2-{deep}: Ch 1, sc in each sc across, turn. ({width} sc)\n"
    first = f"sc in first {before} sc, " if before else ""
    text += f"Row {deep + 1}: Ch 1, {first}dc in next {count} sts {deep} rows below, sc in last 2 sc. ({width} sts)\n"
    worked = work_text(text)
    assert [p.report() for p in worked.problems] == []
    near = [f"sc 1:{n + 1}" for n in range(before)]
    far = [f"dc {deep}:{before + n + 1}" for n in range(count)]
    assert feet_of(worked) == near + far + [f"sc 1:{width - 1}", f"sc 1:{width}"]
