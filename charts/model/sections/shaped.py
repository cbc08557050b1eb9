"""The rows of a section that changes its width, written from its one plain row: a crown that grows in rounds, edges
that take in or make stitches row by row.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from ...errors import PatternError, Problem
from ...made_late import replace
from ...pattern.file.records import Pattern
from ...pattern.tree import Noun, RowText, Special, Stated
from ...pattern.written.document import read_written
from .texts import SectionRows, in_file

#: One row of one stitch: what stands before it, the stitch, what follows.
_PLAIN = re.compile(
    r"^\s*(?:(?:Row|Rnd|Round)\s*1\b[^:]*:\s*)?(?P<before>.*?)(?P<st>\b[\w-]+) in (?:each|every) (?:st|stitch)\b"
    r"(?: across| around)?(?P<after>[^;*\[]*)$",
    re.IGNORECASE | re.DOTALL,
)


def shaped_rows(
    section: SectionRows, counts: Sequence[int], below: int, read: tuple[str, tuple[Special, ...]], pattern: Pattern,
) -> tuple[RowText, ...]:  # fmt: skip
    """The rows that make so many stitches each over the `below` of what they stand on (0: a magic ring), each with its
    count. `read` are the terms and the special stitches. PatternError where the section is not one row of one stitch.
    """
    found = _PLAIN.match(section.section.work.text)
    if found is None or len(section.rows) != 1 or re.search(r"(?<!not )\bcounts?\b", found["before"], re.I):
        raise PatternError([in_file(_not_plain(section), section.section, pattern)])
    written: dict[str, RowText] = {}
    rows: list[RowText] = []
    for count in counts:
        if section.rows[0].is_round:
            says = _growing(found, below, count)
        elif section.section.over is not None and count < below:
            says = _inside(found, section, below, count, read[0])
        else:
            says = _slanting(found, below, count)
        if says not in written:
            written[says] = _read(says, section, read)
        row = replace(written[says], stated=(Stated(count, Noun("st")),), line=section.rows[0].line)
        rows.append(replace(row, is_round=section.rows[0].is_round))
        below = count
    return tuple(rows)


def _not_plain(section: SectionRows) -> Problem:
    round_ = section.rows[0].is_round
    says = "a section that changes its width is one row of one stitch, and its turning chain counts as none"
    words = "Row 1: Ch 1, turn. Sc in each st across."
    words = "Rnd 1: Ch 1, sc in each st around, join with sl st." if round_ else words
    return Problem("impossible", "Row 1", says, f'write its work as "{words}", in any one stitch', 1, 1)


def _read(says: str, section: SectionRows, read: tuple[str, tuple[Special, ...]]) -> RowText:
    """One row read from its words."""
    label = "Rnd 1" if section.rows[0].is_round else "Row 1"
    return read_written(f"{label}: {says}", *read).pattern.rows[0]


def _growing(found: re.Match[str], below: int, count: int) -> str:
    """A round with its increases spread evenly: into the ring, into every stitch, or every so many stitches."""
    before, st, after = found["before"], found["st"], found["after"]
    if not below:
        return f"{before}{count} {st.lower()} in ring{after}"
    more = count - below
    if not more:
        return f"{before}{st} in each st around{after}"
    if more == below:
        return f"{before}2 {st.lower()} in each st around{after}"
    gap, over = divmod(below, more)
    parts = [(more - over, gap), (over, gap + 1)]
    said = ", ".join(_every(st.lower(), times, apart) for times, apart in parts if times)
    return f"{before}{said}{after}"


def _every(st: str, times: int, apart: int) -> str:
    """So many times 2 in one stitch, each the first of so many."""
    plain = f", {st} in next {apart - 1} sts" if apart > 2 else f", {st} in next st" if apart == 2 else ""
    said = f"2 {st} in next st{plain}"
    return f"[{said}] {times} times" if times > 1 else said


def _inside(found: re.Match[str], section: SectionRows, below: int, count: int, terms: str) -> str:
    """A row over the middle of the one below: slip stitches to where it begins, the last stitches left."""
    aside, slip = (below - count) // 2, "sl st" if terms == "US" else "ss"
    rises = max(1, section.text.chain_plus)
    leave = f", leave remaining {_sts(below - count - aside)} unworked"
    return f"Turn, {slip} in first {_sts(aside)}, ch {rises}, {found['st'].lower()} in next {_sts(count)}{leave}."


def _slanting(found: re.Match[str], below: int, count: int) -> str:
    """A row that takes in or makes stitches at both its ends; at its beginning one more where they are odd."""
    before, st, after = found["before"], found["st"], found["after"]
    low, change = st.lower(), count - below
    first, last = -(-abs(change) // 2), abs(change) // 2
    if not change:
        return f"{before}{st} in each st across{after}"
    if change > 0:
        ends = f" to last {_sts(last)}, {_made(low, last, 'last')}" if last else ""
        return f"{before}{_made(low, first, 'first')}, {low} in each st across{ends}{after}"
    if below == 2 * (first + last):
        return f"{before}{_times(f'{low}2tog', first + last)}{after}"
    ends = f" to last {_sts(2 * last)}, {_times(f'{low}2tog', last)}" if last else ""
    return f"{before}{_times(f'{low}2tog', first)}, {low} in each st across{ends}{after}"


def _made(st: str, times: int, where: str) -> str:
    return f"2 {st} in {where} st" if times == 1 else f"2 {st} in each of {where} {times} sts"


def _times(st: str, times: int) -> str:
    return st if times == 1 else f"{st} twice" if times == 2 else f"{st} {times} times"


def _sts(count: int) -> str:
    return "st" if count == 1 else f"{count} sts"
