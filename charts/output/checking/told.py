"""What was read of a written pattern, told in lines: the rows, the words they were read as, the talk between them."""

from __future__ import annotations

from collections.abc import Sequence

from ...errors import wrapped
from ...model.cloth.stated import as_counted, fastening_slips
from ...pattern.writer import write_ops
from .verdict import (
    AGREES,
    FOLLOWS,
    SILENT,
    UNCHECKED,
    UNREAD,
    WRONG,
    CheckedRow,
    Part,
    counted,
    run_label,
    runs_alike,
    sentence,
)

#: So many lines of rows are listed; all of them are where they are explained.
MOST_LISTED = 400

#: What stands behind a row in the list in place of a count that is in doubt.
_DOUBT = {
    WRONG: "wrong, see below",
    UNREAD: "not read, see below",
    UNCHECKED: "not checked",
}
#: Said once, where any row is in doubt for one before it.
_AFTER_DOUBT = "After a row that is wrong or cannot be read the next ones are in doubt too: mend that row first."
_SAID = {
    AGREES: "as stated",
    SILENT: "no count stated",
    FOLLOWS: "as stated, but after a row in doubt",
}


def verdict_lines(parts: Sequence[Part]) -> list[str]:
    """The verdict on all rows, then on each part where there are several."""
    rows = [row for part in parts for row in part.rows]
    if not rows:
        return []
    out = [sentence(rows, with_part=len(parts) > 1)]
    if len(parts) > 1:
        out += [f"  {part.title}, {sentence(part.rows)}" for part in parts]
    if any(row.state in (UNCHECKED, FOLLOWS) for row in rows) and any(row.state in (WRONG, UNREAD) for row in rows):
        out.append(_AFTER_DOUBT)
    return out


def found_line(problems: int, parts: Sequence[Part]) -> str:
    """What was found, in one clause; where nothing is wrong, also how many rows that does not speak of, and why."""
    if problems:
        return "1 problem" if problems == 1 else f"{problems} problems"
    rows = [row for part in parts for row in part.rows]
    passed = [row for row in rows if row.state == UNCHECKED]
    if not passed:
        return "no problem found"
    why = "; ".join(dict.fromkeys(part.unchecked for part in parts if part.unchecked))
    how_many = f"{len(passed):,} of {counted(rows)} {'was' if len(passed) == 1 else 'were'} not checked"
    if len(passed) == len(rows):
        how_many = f"none of {counted(rows)} was checked"
    if len(rows) == 1:
        how_many = f"its only {counted(rows)[2:]} was not checked"
    return f"no problem found, but {how_many}" + (f": {why}" if why else "")


def size_line(sizes: Sequence[str], read: str) -> str:
    """Which size is read, where the text gives several."""
    other = next((name for name in sizes if name != read), "")
    place = other if " " not in other else str(sizes.index(other) + 1)
    given = f"{len(sizes)} sizes ({', '.join(sizes)}), all checked"
    return f"{given}; the counts here are for {read}. Another: --size {place}"


def row_lines(parts: Sequence[Part]) -> list[str]:
    """Every row with its count, rows alike on one line, headings above."""
    out: list[str] = []
    for part in parts:
        indent = "  " if _headed(part, parts) else ""
        out += [part.title] if indent else []
        out += [indent + _row_line(run) for run in runs_alike(part.rows)]
    return [*out[:MOST_LISTED], f"and {len(out) - MOST_LISTED:,} lines more"] if len(out) > MOST_LISTED else out


def _headed(part: Part, parts: Sequence[Part]) -> bool:
    return len(parts) > 1 or part.make > 1


def _row_line(run: list[CheckedRow]) -> str:
    return f"{_head(run)}: {_DOUBT.get(run[0].state) or _count(run)}"


def _head(run: list[CheckedRow]) -> str:
    """ "Row 4 (RS)", "Rows 5-9": the side where it is the same for all."""
    sides = {row.row.side for row in run}
    return f"{run_label(run)} ({sides.pop()})" if len(sides) == 1 else run_label(run)


def _count(run: list[CheckedRow]) -> str:
    row = run[0].row.row
    if run[0].blocks[0]:
        blocks, made = run[0].blocks
        return f"{'1 block' if blocks == 1 else f'{blocks} blocks'} ({made} sts)" + (" each" if len(run) > 1 else "")
    number = as_counted(row, run[0].text.stated)
    closes = bool(row.closing) and number == row.made + 1 - fastening_slips(row)
    sts = f"{number - 1} sts and the closing {row.closing}" if closes else f"{number} sts"
    return sts + (f", {row.chains} ch" if row.chains else "") + (" each" if len(run) > 1 else "")


def explained_lines(parts: Sequence[Part], terms: str, own: Sequence[str], width: int) -> list[str]:
    """Every row as it was read, in the trade's words, with its count."""
    out = ["", "How it was read:"]
    for text in own:
        out += wrapped(text, width)
    for part in parts:
        out += ["", part.title] if _headed(part, parts) else []
        beginning = _beginning(part)
        out += [f"Begins with {beginning}"] if beginning else []
        out += wrapped(f"Rows are not checked: {part.unchecked}", width) if part.unchecked else []
        for run in runs_alike(part.rows):
            out += _explained(run, terms, width)
    return out


def _beginning(part: Part) -> str:
    """What a part begins on; "" where it goes on from the one before, or nothing tells."""
    return {
        "chain": f"a chain of {part.chains}",
        "ring": f"a ring of {part.chains} chains",
        "magic ring": "a magic ring",
        "over": "the stitches of a piece that is there already",
    }.get(part.begins if part.chains != 0 else "", "")


def _explained(run: list[CheckedRow], terms: str, width: int) -> list[str]:
    row = run[0]
    found = _DOUBT.get(row.state) or f"{_count(run)}, {_SAID[row.state]}"
    out = wrapped(f"{_head(run)}, line {row.row.line}: {found}", width)
    words = write_ops(row.ops, terms, is_round=row.row.is_round)
    if words and row.state == UNREAD:
        words = f"As far as it was read: {words}"
    return out + (wrapped(words, width, "    ") if words else [])


def prose_hint(prose: Sequence[tuple[int, str]]) -> str:
    """How many lines were taken as talk, and how to see them."""
    what = "1 line was" if len(prose) == 1 else f"{len(prose):,} lines were"
    return f"{what} taken as talk, not as work; --prose shows {'it' if len(prose) == 1 else 'them'}"


def prose_lines(prose: Sequence[tuple[int, str]], width: int) -> list[str]:
    """The lines taken as talk, each with its number."""
    if not prose:
        return ["", "No line was taken as talk."]
    out = ["", "Taken as talk, not as work:"]
    for line, text in prose:
        out += wrapped(f"line {line}: {text.strip()}", width, "  ")
    return out
