"""How surely a mistake put into a pattern is reported, and reported at its own row only.

    python tests/bench/mutations.py FOLDER... [--seed N] [--count N] [--phrases FILE.jsonl] [--one-of N]

Patterns that are read without any problem are spoiled in one place each, and worked again:

* vanishing: a clause of work that nobody can know stands at a comma of a row; it must be reported at that row;
* numbers: one number of a row that states its count is one more or less; that row, and no other, must be reported;
* rubble: a row that states its count is broken by such a clause; no other row may be reported.
"""

from __future__ import annotations

import argparse
import json
import random
import re
import signal
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace
from itertools import islice, zip_longest
from multiprocessing import Pool
from pathlib import Path

from hookfold.charts.errors import Problem
from hookfold.charts.model.cloth.fabric import Row
from hookfold.charts.model.rows.work import work_text
from hookfold.charts.model.rows.working import Worked
from hookfold.charts.pattern.tree import RowText, walk

MEASURES = ("vanishing", "numbers", "rubble")
PROCESSES = 2
LONGEST_SECONDS = 20
#: No more samples than this are taken from one text for one measure.
MOST_FROM_ONE = 2

#: Work that no reader can know: invented verbs, with stitches, places and numbers in them.
UNKNOWN = (
    "flurb in next 3 sts",
    "gobble the next 2 ch together sideways",
    "twine 4 loops around the second sc",
    "knot 2 sts below the next space",
    "plonk 1 sc against each of next 2 sts",
    "sc crabwise over and under the next 4 sts",
    "wumple across to the 5th st from here",
    "nudge 3 ch behind the last sc",
    "splay next st into 2 halves",
    "quibble twice in the same space",
    "ch 4 and spindle it through the first st",
    "trade places with the next 2 sc",
)

#: A number that is not part of a name (sc2tog, dc3) nor of a decimal, with the ending of an ordinal.
NUMBER = re.compile(r"(?<![A-Za-z0-9.,/½¼¾])(?<![A-Za-z]\d)(\d+)(st|nd|rd|th)?(?![A-WYZa-wyz0-9/½¼¾]|\.\d|tog)")
#: What follows a number that measures something.
MEASURE = re.compile(
    r"\s?-?(?:mm|cm|m|in\.|inch|inches|[\"”″']|g|oz|yds?|yards|met(?:er|re)s|grams|%|\d*[½¼¾])(?![A-Za-z])", re.IGNORECASE
)
#: What comes before a number that names a row, a colour, a size, or one end of a range of rows.
NAMED = re.compile(
    r"\b(?:rows?|rnds?|rounds?|colou?r|size|step|no\.)\s?#?(?:\d+\s?(?:,|-|–|to|and|&|or)\s?(?:and\s)?)*$", re.IGNORECASE
)
OF_ROW = re.compile(r"\s(?:(?:more|further|other)\s)?(?:rows?|rnds?|rounds?)\b", re.IGNORECASE)


#: One chain more at a row's beginning, or before its turn, that stands for no stitch: how high it lifts is left to the
#: maker (common practice, no source).
LIFTED = re.compile(
    r'^1 -> 2 in "(?:\W*(?:turn\W+)?(?:ch(?:ain)?(?: up)? ?\[1\]|\[1\] ?ch)|.*(?:ch ?\[1\]|with \[1\] ch)(?:,? (?:and )?turn|\.))',
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class Source:
    """One pattern: the name of its file or entry, and its words."""

    name: str
    text: str


@dataclass(frozen=True, slots=True)
class Spot:
    """A row where it stands in its text: offsets of the words that are worked, and of each part of its count. `sized`
    is whether the count says how many chains something has ("8 ch-2 sps"), `told` what it counts ("st", "sc", "shell")."""

    label: str
    line: int
    last_line: int
    begin: int
    end: int
    counted: tuple[tuple[int, int], ...] = ()
    sized: bool = False
    told: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Readable:
    """A pattern that is read without any problem, its rows, and whether its terms are US."""

    source: Source
    spots: tuple[Spot, ...]
    terms: str


@dataclass(frozen=True, slots=True)
class Change:
    """One spoiled pattern: what was changed at which row, and the words of that row before."""

    measure: str
    source: Source
    spot: Spot
    what: str
    kind: str
    words: str
    text: str


@dataclass(frozen=True, slots=True)
class Outcome:
    """What was reported of a change: at its row, anywhere else, or why it could not be worked at all; what is `noted` at
    its row that was not before, as a reading that is not the plain one. `effect` is what
    a change that was missed made of the row: "none" (worked as before: the number was not heeded), "neutral" (other
    chains, another stitch of as many, or other stitches than are counted, where no count tells), "other"."""

    change: Change
    here: tuple[str, ...] = ()
    elsewhere: tuple[str, ...] = ()
    failure: str = ""
    effect: str = ""
    noted: tuple[str, ...] = ()

    @property
    def passed(self) -> bool:
        """Whether this is as it should be."""
        if self.failure:
            return False
        found, alone = bool(self.here), not self.elsewhere
        return {"vanishing": found, "numbers": found and alone, "rubble": alone}[self.change.measure]


@dataclass(frozen=True, slots=True)
class Left:
    """A text that could not be looked at, and why."""

    name: str
    why: str


class TooSlowError(BaseException):
    """A text took longer than it may; not an Exception, so that nothing on the way takes it for its own."""


def _ring(_number: int, _frame: object) -> None:
    raise TooSlowError


def timed(text: str) -> Worked | str:
    """The text worked, or why it could not be."""
    signal.signal(signal.SIGALRM, _ring)
    signal.alarm(LONGEST_SECONDS)
    try:
        return work_text(text)
    except TooSlowError:
        return f"took longer than {LONGEST_SECONDS} s"
    except Exception as error:
        return f"crashed: {error!r}"
    finally:
        signal.alarm(0)


# Reading what there is


def texts_of(folder: Path) -> list[Source]:
    """Every text file below a folder."""
    return [Source(str(path), _lines(path.read_text("utf-8"))) for path in sorted(folder.rglob("*.txt"))]


def phrases_of(path: Path) -> list[Source]:
    """The `text` of every line of a file of JSON lines."""
    entries = [json.loads(line) for line in path.read_text("utf-8").splitlines() if line.strip()]
    return [
        Source(f"{path.name}:{entry.get('name', n)}", _lines(entry["text"])) for n, entry in enumerate(entries, 1)
    ]


def _lines(text: str) -> str:
    return text.replace("\r\n", "\n").replace("\r", "\n")


def readable(source: Source) -> Readable | Left | None:
    """The source with its rows; None where it is read with problems (or has no rows)."""
    worked = timed(source.text)
    if isinstance(worked, str):
        return Left(source.name, worked)
    if worked.problems or not worked.pattern.rows:
        return None
    return Readable(source, tuple(spots(source.text, worked.pattern.rows)), worked.pattern.terms)


def spots(text: str, rows: tuple[RowText, ...]) -> Iterator[Spot]:
    """Where the rows stand. Rows that share a line with other rows' words are left out."""
    starts = [0]
    for line in text.split("\n"):
        starts.append(starts[-1] + len(line) + 1)
    heads = sorted({row.line for row in rows})
    found: dict[int, Spot] = {}
    twice: set[int] = set()
    for row in rows:
        nearest = min((line for line in heads if line > row.line), default=len(starts))
        spot = _spot(row, starts, nearest)
        if spot is not None and found.setdefault(row.line, spot).begin != spot.begin:
            twice.add(row.line)
    yield from (spot for line, spot in found.items() if line not in twice)


def _spot(row: RowText, starts: list[int], nearest: int) -> Spot | None:
    """Where one row stands, whose words end before line `nearest`."""
    worked = [op.at for op in walk(row.ops) if row.line <= op.at[0] < nearest]
    stated = [part.at for part in row.stated if row.line <= part.at[0] < nearest]
    if not worked:
        return None
    begin, end = _reach(worked, starts)
    last = max(line for line, _, _ in [*worked, *stated])
    counted = tuple((starts[line - 1] + column - 1, starts[line - 1] + column - 1 + n) for line, column, n in stated)
    sized = any(part.noun.size for part in row.stated)
    told = frozenset(part.noun.name for part in row.stated)
    return Spot(row.label, row.line, last, begin, end, counted, sized, told)


def _reach(places: list[tuple[int, int, int]], starts: list[int]) -> tuple[int, int]:
    """The first and the last offset of places in the text."""
    at = [(starts[line - 1] + column - 1, length) for line, column, length in places]
    return min(begin for begin, _ in at), max(begin + length for begin, length in at)


# Spoiling


def broken(pattern: Readable, spot: Spot, measure: str, chance: random.Random) -> Change | None:
    """An unknown clause after a comma of the row's words."""
    text = pattern.source.text
    commas = list(_commas(text, spot))
    if not commas:
        return None
    at = chance.choice(commas) + 1
    clause = chance.choice(UNKNOWN)
    if pattern.terms == "UK":
        clause = re.sub(r"\bsc\b", "dc", clause)
    what = f'"{clause}" after "{text[max(spot.begin, at - 30):at]}"'
    return _change(measure, pattern, spot, what, "clause", f"{text[:at]} {clause},{text[at:]}")


def _commas(text: str, spot: Spot) -> Iterator[int]:
    """Where commas stand between the row's clauses: in no bracket, and in no stated count."""
    depth = 0
    line_start = text.rfind("\n", 0, spot.begin) + 1
    counted = [*spot.counted, (spot.counted[0][0], spot.counted[-1][1])] if spot.counted else []
    for at in range(line_start, spot.end):
        depth += (text[at] in "([{") - (text[at] in ")]}")
        free = depth <= 0 and not any(begin <= at < end for begin, end in counted)
        if at > spot.begin and text[at : at + 2] == ", " and free:
            yield at


def miscounted(pattern: Readable, spot: Spot, measure: str, chance: random.Random) -> Change | None:
    """One number of the row, one more or one less."""
    numbers = list(_numbers(pattern.source.text, spot)) if spot.counted else []
    if not numbers:
        return None
    match = chance.choice(numbers)
    old = int(match[1])
    return _put(measure, pattern, spot, match, old + (chance.choice((-1, 1)) if old > 1 else 1))


def every_number(pattern: Readable) -> Iterator[Change]:
    """Every number of every row that states its count, one less where that is a number, and one more."""
    for spot in (spot for spot in pattern.spots if spot.counted):
        for match in _numbers(pattern.source.text, spot):
            for new in (int(match[1]) - 1, int(match[1]) + 1):
                if new:
                    yield _put("numbers", pattern, spot, match, new)


def _put(measure: str, pattern: Readable, spot: Spot, match: re.Match[str], new: int) -> Change:
    """The text with another number in the place of one."""
    text = pattern.source.text
    put = f"{new}{_ending(new) if match[2] else ''}"
    around = f"{text[max(spot.begin, match.start() - 25):match.start()]}[{match[0]}]{text[match.end():match.end() + 25]}"
    what = f'{match[0]} -> {put} in "{around}"'.replace("\n", " ")
    kind = kind_of(text, match, spot)
    return _change(measure, pattern, spot, what, kind, text[: match.start()] + put + text[match.end() :])


def _numbers(text: str, spot: Spot) -> Iterator[re.Match[str]]:
    """The numbers of the row's words and of its count that say how many or which."""
    end = max([spot.end, *(end for _, end in spot.counted)])
    begin = min([spot.begin, *(begin for begin, _ in spot.counted)])
    for match in NUMBER.finditer(text, begin, end):
        before, after = text[max(0, match.start() - 40) : match.start()], text[match.end() : match.end() + 12]
        inside = match.start() >= spot.begin or any(a <= match.start() < b for a, b in spot.counted)
        if inside and int(match[1]) and not (MEASURE.match(after) or NAMED.search(before) or OF_ROW.match(after)):
            yield match


def kind_of(text: str, match: re.Match[str], spot: Spot) -> str:
    """What the number says: part of the stated count, which one, how often, how many chains, or how many stitches."""
    before, after = text[max(0, match.start() - 20) : match.start()].lower(), text[match.end() : match.end() + 16].lower()
    if any(begin <= match.start() < end for begin, end in spot.counted):
        return "stated count"
    if match[2]:
        return "ordinal"
    if re.match(r"\s?(?:times|more|x\b|×)", after):
        return "times"
    if re.search(r"\b(?:next|last|first|each of|skip|sk|miss)\s(?:the\s)?(?:next\s)?$", before):
        return "places"
    if re.search(r"\bch(?:ain)?[\s-]$", before) or re.match(r"[\s-]?ch\b", after):
        return "chains"
    return "stitches"


def _ending(number: int) -> str:
    """The ending of an ordinal number.

    >>> [f"{n}{_ending(n)}" for n in (1, 2, 3, 4, 11, 22)]
    ['1st', '2nd', '3rd', '4th', '11th', '22nd']
    """
    return "th" if number % 100 in (11, 12, 13) else {1: "st", 2: "nd", 3: "rd"}.get(number % 10, "th")


def _change(measure: str, pattern: Readable, spot: Spot, what: str, kind: str, text: str) -> Change:
    words = "\n".join(pattern.source.text.split("\n")[spot.line - 1 : spot.last_line])
    return Change(measure, pattern.source, spot, what, kind, words, text)


def changes(
    measure: str, groups: list[list[Source]], read: Callable[[Source], Readable | Left | None], seed: int, count: int
) -> list[Change]:
    """So many changes, the groups in turn, and of no text more than a few; a text is read when it is drawn."""
    chance = random.Random(f"{seed} {measure}")
    shuffled = [chance.sample(group, len(group)) for group in groups]
    in_turn = [source for tier in zip_longest(*shuffled) for source in tier if source is not None]
    out: list[Change] = []
    taken: dict[str, list[Spot]] = {}
    for _ in range(MOST_FROM_ONE):
        for source in in_turn:
            had = taken.setdefault(source.name, [])
            pattern = read(source) if len(out) < count else None
            change = _one(measure, pattern, had, chance) if isinstance(pattern, Readable) else None
            if change is not None:
                had.append(change.spot)
                out.append(change)
    return out


def _one(measure: str, pattern: Readable, had: list[Spot], chance: random.Random) -> Change | None:
    """A change of a row that has none yet."""
    spoil: Callable[[Readable, Spot, str, random.Random], Change | None]
    spoil = miscounted if measure == "numbers" else broken
    for spot in chance.sample(pattern.spots, len(pattern.spots)):
        if spot in had or (measure == "rubble" and not spot.counted):
            continue
        change = spoil(pattern, spot, measure, chance)
        if change is not None:
            return change
    return None


# Measuring


def outcome(change: Change) -> Outcome:
    """What is reported of a change."""
    worked = timed(change.text)
    if isinstance(worked, str):
        return Outcome(change, failure=worked)
    here = tuple(_said(p) for p in worked.problems if _at(p, change.spot))
    elsewhere = tuple(_said(p) for p in worked.problems if not _at(p, change.spot))
    out = Outcome(change, here, elsewhere)
    if out.passed:
        return out
    before = timed(change.source.text)
    if isinstance(before, str):
        return out
    known = {note.says for note in before.notes}
    noted = (n.says for n in worked.notes if change.spot.line <= n.line <= change.spot.last_line and n.says not in known)
    return replace(out, effect=_effect(out, before, worked), noted=tuple(noted))


def _effect(out: Outcome, before: Worked, after: Worked) -> str:
    """What a change that was missed made of its row."""
    old, new = _rows(before, out.change.spot), _rows(after, out.change.spot)
    if [(row.stitches, row.takes) for row in old] == [(row.stitches, row.takes) for row in new]:
        return "neutral" if LIFTED.search(out.change.what) and not out.elsewhere else "none"
    even = [(row.made, row.takes) for row in old] == [(row.made, row.takes) for row in new]
    untold = not out.change.spot.sized or [row.chains for row in old] == [row.chains for row in new]
    silent = not out.here and not out.elsewhere
    alike = not out.elsewhere and (out.change.kind == "chains" or (silent and out.change.kind == "ordinal"))
    if silent and _untold_kinds(out.change.spot.told, old, new):
        return "neutral"
    return "neutral" if (even or out.change.kind == "chains") and untold and not out.here and alike else "other"


def _untold_kinds(told: frozenset[str], old: list[Row], new: list[Row]) -> bool:
    """Whether only stitches differ that the row does not count: how many dc a shell has in "(4 shells, 5 sc)"."""
    kinds = [(a.kinds(), b.kinds()) for a, b in zip(old, new, strict=False)]
    differ = {kind for a, b in kinds for kind in a | b if a.get(kind, 0) != b.get(kind, 0)}
    return bool(told) and "st" not in told and bool(differ) and differ.isdisjoint(told)


def _at(problem: Problem, spot: Spot) -> bool:
    return spot.line <= problem.line <= spot.last_line or problem.where == spot.label


def _said(problem: Problem) -> str:
    return f"line {problem.line}, {problem.where}: {problem.says}"


def _rows(worked: Worked, spot: Spot) -> list[Row]:
    """The row as worked, every time it was."""
    return [row.row for piece in worked.pieces for row in piece.fabric.rows if row.line == spot.line]


def measured(
    groups: list[list[Source]], seed: int, count: int, measures: Iterable[str] = MEASURES, *, sound: bool = False
) -> tuple[dict[str, list[Outcome]], list[Left], int]:
    """The outcomes of each measure, the texts that could not be looked at, and how many were read right. `sound`: all are
    known to be read right, so that only those are read that are drawn, and one that is not is told of."""
    with Pool(PROCESSES) as pool:
        told = {} if sound else {
            source: found for group in groups for source, found in zip(group, pool.map(readable, group, chunksize=4), strict=True)
        }  # fmt: skip

        def read(source: Source) -> Readable | Left | None:
            if source not in told:
                told[source] = readable(source) or Left(source.name, "is read with problems")
            return told[source]

        right = groups if sound else [[s for s in group if isinstance(told[s], Readable)] for group in groups]
        outcomes = {
            measure: pool.map(outcome, changes(measure, right, read, seed, count), chunksize=2) for measure in measures
        }
    left = [found for found in told.values() if isinstance(found, Left)]
    return outcomes, left, sum(map(len, right)) - (len(left) if sound else 0)


def every_change(sources: list[Source], one_of: int) -> list[Outcome]:
    """The outcomes of one in so many of all changes of numbers, text by text, in one process."""
    looked = map(readable, sources)
    all_of_them = (change for found in looked if isinstance(found, Readable) for change in every_number(found))
    return [outcome(change) for change in islice(all_of_them, 0, None, one_of)]


def figures(outcomes: list[Outcome]) -> dict[str, tuple[int, int]]:
    """Of the outcomes of one measure: how many, of how many, for each thing that is measured. Changes that no count
    can tell are not counted."""
    outcomes = [out for out in outcomes if out.effect != "neutral"]
    worked = [out for out in outcomes if not out.failure]
    found = (sum(1 for out in worked if out.here), len(outcomes))
    told = (sum(1 for out in worked if out.here or out.noted), len(outcomes))
    elsewhere = (sum(1 for out in worked if out.elsewhere), len(outcomes))
    failed = {"not worked at all": (len(outcomes) - len(worked), len(outcomes))}
    names = {
        "vanishing": {"reported at the row": found},
        "numbers": {"reported at the row": found, "reported or noted at the row": told, "reported at another place": elsewhere},
        "rubble": {"reported at another place": elsewhere},
    }
    return names[outcomes[0].change.measure] | failed if outcomes else {}


def _print_all(measure: str, results: list[Outcome]) -> None:
    """The figures of one measure, and what fails it."""
    for name, (number, total) in figures(results).items():
        print(f"{measure}: {number} of {total} {name}")
    if measure == "numbers":
        _print_kinds(results)
    for out in results:
        if not out.passed:
            _print_failing(out)


def _print_kinds(outcomes: list[Outcome]) -> None:
    """How many of each kind of number were reported at their row and nowhere else."""
    missed = [out.effect for out in outcomes if not out.here]
    print(f"    not reported at the row: {missed.count('neutral')} neutral (not counted above),", end=" ")
    print(f"{missed.count('none')} worked as before, {len(missed) - missed.count('neutral') - missed.count('none')} other")
    for kind in sorted({out.change.kind for out in outcomes}):
        these = [out for out in outcomes if out.change.kind == kind and out.effect != "neutral"]
        print(f"    {kind}: {sum(1 for out in these if out.passed)} of {len(these)} at the row and nowhere else")


def _print_failing(out: Outcome) -> None:
    change = out.change
    print(f"\n[{change.measure}] {change.source.name}, line {change.spot.line}, {change.spot.label}")
    print("    row:     " + change.words.replace("\n", "\n             "))
    print(f"    changed: {change.what} ({change.kind})")
    if out.failure:
        print(f"    {out.failure}")
        return
    print("    at row:  " + (" | ".join(out.here) or f"nothing; effect on the row: {out.effect}"))
    if out.elsewhere:
        print("    other:   " + " | ".join(out.elsewhere))


def main(arguments: list[str] | None = None) -> None:
    """Measure the texts of folders, and print figures and every failing sample."""
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0] if __doc__ else "")
    parser.add_argument("folders", nargs="+", type=Path)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--count", type=int, default=100)
    parser.add_argument("--phrases", type=Path)
    parser.add_argument("--one-of", type=int, help="try one in so many of all changes of numbers, instead of a sample")
    asked = parser.parse_args(arguments)
    groups = [texts_of(folder) for folder in asked.folders]
    groups += [phrases_of(asked.phrases)] if asked.phrases else []
    if asked.one_of:
        _print_all("numbers", every_change([source for group in groups for source in group], asked.one_of))
        return
    outcomes, left, right = measured(groups, asked.seed, asked.count)
    print(f"{right} of {sum(map(len, groups))} texts are read without any problem (seed {asked.seed})")
    for text in left:
        print(f"  left out: {text.name} {text.why}")
    for measure, results in outcomes.items():
        _print_all(measure, results)


if __name__ == "__main__":
    main()
