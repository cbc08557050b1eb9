"""Valid patterns and changed ones through every command: nothing may fail, be slow, be large, or write elsewhere.

    python tests/bench/fuzz.py [--seed N] [--from N] [--count N] [--seconds S] [--only COMMAND] [--small]
                               [--faults FILE.jsonl] [--tally FILE.md]

`--small` makes patterns of a few short rows and draws the fabric seldom: twenty times as many runs in the same time.

Each run is told by its seed and number alone, so that one that fails can be run again: `--from 4711 --count 1`. Half of
the patterns are right by construction: `check` must find nothing in them, and the counts they were made with.
"""

from __future__ import annotations

import argparse
import importlib
import json
import os
import pkgutil
import random
import re
import sys
import tempfile
import time
import zipfile
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, field
from io import BytesIO
from pathlib import Path
from xml.parsers import expat

from click.testing import CliRunner
from fuzz_files import valid_file
from fuzz_guard import Guard, Watched, megabytes_alone
from fuzz_texts import valid_text
from hookfold import charts, cli, symbols
from hookfold.cli import commands

sys.path.insert(0, str(Path(__file__).parents[1]))
from notation_cases import table

#: What one run may take; memory is looked at again in a process of its own, as a worker keeps what other runs left.
MOST_SECONDS, MOST_MB = 2.0, 300.0
#: What draws the fabric yarn by yarn, or everything there is, may take longer.
DRAWN_SECONDS, DRAWN = 20.0, frozenset(("make", "booklet", "share", "picture", "colours", "gallery"))
#: How much more seldom these run over small patterns.
SELDOM = 20
#: A worker is made anew after so many runs.
RUNS_OF_ONE = 1000

#: What is run, how often; "@" is the pattern, "%" a name in the output folder.
TEXT_RUNS: tuple[tuple[int, str], ...] = (
    (300, "check --json @"), (60, "check @ --explain --prose"), (20, "check --review @"), (20, "check @ --picture %.svg"),
    (100, "chart @ -o %.svg"), (40, "chart @ -o %.svg --extent full --stitches separate --seen as-worked"),
    (30, "chart @ -o %.svg --hand left --terms UK --sc x --row 2 --mono"), (10, "chart @ -o %.svg --style squares"),
    (10, "chart @ -o %.pdf"), (5, "chart @ -o %.png --dpi 60"), (10, "chart @ -o %.svg --pages"),
    (40, "instructions @ -o %.txt"), (20, "instructions @ --terms UK"), (10, "instructions @ -o %.html"),
    (10, "instructions @ -o %.docx --hand left"), (30, "follow @ -o %.html"), (3, "share @ -o %"),
    (3, "booklet @ -o %.pdf"), (4, "picture @ -o %.png --width 200"), (4, "picture @ -o %.jpg --width 200 --view close"),
    (2, "check --tester @"), (2, "gallery %"),
)  # fmt: skip
FILE_RUNS: tuple[tuple[int, str], ...] = (
    (200, "check --json @"), (30, "check --review @"), (20, "check --tester @"), (60, "instructions @"),
    (10, "instructions @ -o %.html --terms UK --hand left"), (5, "instructions @ -o %.docx"), (30, "yarn @"),
    (20, "sizes @"), (30, "gauge @"), (20, "refit @ --rows 12 --measures 100mm"), (60, "chart @ -o %.svg"),
    (20, "chart @ -o %.svg --extent full"), (5, "chart @ -o %.pdf"), (30, "assembly @ -o %.svg"),
    (10, "template @ -o %.pdf"), (20, "follow @ -o %.html"), (20, "fit-page @ -o %.html"), (10, "colours @"),
    (2, "colours @ -o %.png"), (2, "booklet @ -o %.pdf"), (2, "share @ -o %"), (3, "picture @ -o %.png --width 200"),
    (2, "picture @ -o %.png --width 200 --view folded"), (2, "picture @ -o %.png --width 200 --view on-object"),
    (1, "make @ -o %"), (3, "gallery %"), (3, "check @ --picture %.svg"), (1, "symbols -o %.svg"),
    (1, "schema -o %.json"), (2, "measure -o %.pdf --kind pouch"), (5, "start %.toml --kind pouch --title @"),
)  # fmt: skip

NUMBER = re.compile(r"\d+")
WORDS = re.compile(r"\w+|[^\w\s]|\s+")


@dataclass(frozen=True, slots=True)
class Case:
    """One run: its number, the pattern, its ending, the words of the command; `counts` where the pattern is right."""

    number: int
    text: str
    suffix: str
    command: str
    counts: dict[str, int] | None = None


@dataclass
class Tally:
    """What came of the runs."""

    runs: Counter[str] = field(default_factory=Counter)
    refused: Counter[str] = field(default_factory=Counter)
    faults: list[tuple[str, Case, str]] = field(default_factory=list)
    slowest: dict[str, float] = field(default_factory=dict)
    largest: dict[str, float] = field(default_factory=dict)


# -- changed patterns -----------------------------------------------------------------------------------------------


def _other_number(rng: random.Random, text: str) -> str:
    found = list(NUMBER.finditer(text))
    if not found:
        return text
    at = rng.choice(found)
    value = rng.choice((0, 1, 2, 7, 40, 399, int(at[0]) + 1 if len(at[0]) < 9 else 3, max(int(at[0][:9]) - 1, 0), 10**6))
    return text[: at.start()] + str(value) + text[at.end() :]


def _word_gone(rng: random.Random, text: str) -> str:
    words = WORDS.findall(text)
    del words[rng.randrange(len(words))]
    return "".join(words)


def _word_moved(rng: random.Random, text: str) -> str:
    words = WORDS.findall(text)
    words.insert(rng.randrange(len(words)), words[rng.randrange(len(words))])
    return "".join(words)


def _clauses_twice(rng: random.Random, text: str) -> str:
    parts = text.split(", ")
    at = rng.randrange(len(parts))
    return ", ".join([*parts[:at], *parts[at : at + 2], *parts[at:]])


def _line_moved(rng: random.Random, text: str) -> str:
    lines = text.split("\n")
    line = lines.pop(rng.randrange(len(lines)))
    lines.insert(rng.randint(0, len(lines)), line)
    return "\n".join(lines)


def _line_of_another(rng: random.Random, text: str) -> str:
    lines, other = text.split("\n"), rng.choice(POOL).split("\n")
    lines.insert(rng.randint(0, len(lines)), rng.choice(other))
    return "\n".join(lines)


def _letters(rng: random.Random, text: str) -> str:
    at = rng.randrange(len(text) + 1)
    new = rng.choice(("*", "(", ")", "[", "]", ";", ".", "½", "\u200b", "\U0001f9f6", "&", "<", "—", "\u00a0", "ﬁ", "\n", "\n\n", "**"))
    return text[:at] + new + text[at + rng.randint(0, 1) :]


def _in_brackets(rng: random.Random, text: str) -> str:
    a, b = sorted(rng.randrange(len(text) + 1) for _ in range(2))
    return f"{text[:a]}[{text[a:b]}] {rng.choice((2, 3, 12, 100))} times{text[b:]}"


CHANGES: tuple[Callable[[random.Random, str], str], ...] = (
    _other_number, _other_number, _other_number, _word_gone, _word_moved, _clauses_twice, _line_moved, _line_of_another,
    _letters, _in_brackets,
)  # fmt: skip
POOL = [str(entry["text"]).strip() + "\n" for entry in table("pattern")]


def case_of(seed: int, number: int, only: str = "", *, small: bool = False) -> Case:
    """The run of this seed and number; `small` of a small pattern."""
    rng = random.Random(f"{seed}-{number}")
    written = rng.random() < 0.75
    runs = [run for run in (TEXT_RUNS if written else FILE_RUNS) if run[1].startswith(only)] or list(TEXT_RUNS[:1])
    often = [n / (SELDOM if small and words.split()[0] in DRAWN else 1) for n, words in runs]
    command = rng.choices([words for _, words in runs], often)[0]
    counts: dict[str, int] | None = None
    if written:
        text, counts = valid_text(rng, small=small)
        if rng.random() < (0.05 if small else 0.3):
            text, counts = rng.choice(POOL), None
    else:
        text = valid_file(rng, small=small)
    if rng.random() < 0.5:
        counts = None
        for _ in range(rng.choice((1, 1, 2, 4))):
            text = rng.choice(CHANGES)(rng, text) or "x"
    return Case(number, text, ".txt" if written else ".toml", command, counts)


# -- one run --------------------------------------------------------------------------------------------------------


def run(case: Case, guard: Guard, home: Path) -> tuple[Watched, list[str]]:
    """Run a case in its own folders inside `home`; what is wrong with it, in words."""
    source, out = home / f"pattern{case.suffix}", home / "out" / "made"
    source.write_text(case.text, "utf-8")
    out.parent.mkdir(exist_ok=True)
    if case.command.startswith("gallery"):
        out.mkdir(exist_ok=True)
        (out / source.name).write_text(case.text, "utf-8")
    words = [word.replace("@", str(source)).replace("%", str(out)) for word in case.command.split()]
    watched = guard.run(words)
    wrong = [f"fault: {fault}" for fault in watched.faults]
    if watched.code not in (0, 1, 2):
        wrong.append(f"ended with {watched.code}")
    if watched.code and not watched.output.strip():
        wrong.append("ended with a problem and said nothing")
    if watched.seconds > (DRAWN_SECONDS if words[0] in DRAWN else MOST_SECONDS):
        wrong.append(f"took {watched.seconds:.1f} s")
    if watched.megabytes > MOST_MB and (alone := megabytes_alone(words)) > MOST_MB:
        wrong.append(f"took {alone:.0f} MB")
    wrong += [f"asked the network: {call}" for call in watched.calls]
    wrong += [f"touched {path}" for path in sorted(watched.touched) if not _is_own(path, out.parent, home)]
    if source.read_bytes() != case.text.encode("utf-8"):
        wrong.append("changed the pattern")
    wrong += _disagreements(case, watched)
    for path in sorted(out.parent.rglob("*")):
        if path.is_file() and (says := malformed(path)):
            wrong.append(f"{path.name}: {says}")
    return watched, wrong


def _is_own(path: str, out: Path, home: Path) -> bool:
    """Whether a run may write there: into its folder, to what is no file, or to temporary files that are gone by now."""
    if path.startswith((str(out), "/dev/", "/proc/", "<")) or "__pycache__" in path:
        return True
    temporary = path.startswith(tempfile.gettempdir()) and not path.startswith(str(home))
    return temporary and (path == tempfile.gettempdir() or not Path(path).exists())


def _disagreements(case: Case, watched: Watched) -> list[str]:
    """What `check` finds in a pattern that is right, or counts otherwise."""
    if case.command != "check --json @" or watched.faults:
        return []
    try:
        found = json.loads(watched.output)
    except ValueError:
        return [] if watched.code == 2 else ["is no JSON"]
    if found["ok"] == bool(found["problems"]) or watched.code != (1 if found["problems"] else 0):
        return ["its verdict, its problems and its exit code do not agree"]
    if case.counts is None:
        return []
    if found["problems"]:
        first = found["problems"][0]
        return [f"a right pattern is refused: {first['where']}: {first['says']}"]
    rows = {row["label"]: row["stitches"] for row in found["rows"]}
    return [f"{k} makes {rows.get(k)}, not {v}" for k, v in case.counts.items() if rows.get(k, v) != v][:1]


def malformed(path: Path) -> str:
    """What is wrong with a file by its format; "" where nothing is."""
    data = path.read_bytes()
    if path.suffix == ".svg":
        try:
            expat.ParserCreate().Parse(data, True)
        except expat.ExpatError as wrong:
            return f"no XML: {wrong}"
    elif path.suffix == ".docx":
        with zipfile.ZipFile(BytesIO(data)) as parts:
            for name in parts.namelist():
                if name.endswith((".xml", ".rels")):
                    expat.ParserCreate().Parse(parts.read(name), True)
    elif path.suffix == ".pdf":
        return "" if data.startswith(b"%PDF") and b"%%EOF" in data[-64:] else "no PDF"
    elif path.suffix == ".png":
        return "" if data.startswith(b"\x89PNG") and data[-8:-4] == b"IEND" else "no PNG"
    elif path.suffix in (".html", ".md", ".txt", ".json"):
        data.decode("utf-8")
    return "a temporary file was left" if ".hookfold-" in path.name else ""


# -- all runs -------------------------------------------------------------------------------------------------------


def runs_of_one(cases: list[Case], until: float, send: Callable[[object], None]) -> None:
    """Run cases in this process, telling of each."""
    guard = Guard()
    for case in cases:
        if time.monotonic() > until:
            return
        with tempfile.TemporaryDirectory(prefix="fuzz-") as home:
            watched, wrong = run(case, guard, Path(home))
        send((case, watched.code, watched.seconds, watched.megabytes, wrong))


def all_runs(
    make: Callable[[int], Case], numbers: range, seconds: float, tell: Callable[[Case, list[str]], None],
    keep: Callable[[Tally], None],
) -> Tally:  # fmt: skip
    """Run the case of every number in worker processes, one after the other; a worker that dies is a fault of its case.
    What came of them so far is kept after each worker."""
    from multiprocessing import get_context

    load_all()
    _warmed()
    tally, until, at = Tally(), time.monotonic() + seconds, numbers.start
    context = get_context("fork")
    while at < numbers.stop and time.monotonic() < until:
        cases = [make(n) for n in range(at, min(at + RUNS_OF_ONE, numbers.stop))]
        here, there = context.Pipe(duplex=False)
        worker = context.Process(target=runs_of_one, args=(cases, until, there.send))
        worker.start()
        there.close()
        done = 0
        while True:
            try:
                case, code, took, megabytes, wrong = here.recv()
            except EOFError:
                break
            done += 1
            _count(tally, case, code, took, megabytes, wrong, tell)
        worker.join()
        if worker.exitcode and done < len(cases):
            _count(tally, cases[done], 1, 0.0, 0.0, [f"the process ended with {worker.exitcode}"], tell)
            done += 1
        at += done if done else len(cases)
        keep(tally)
    return tally


def load_all() -> list[str]:
    """Load every module of ours, so that no run is charged for it; their names. An installation that leads to a working
    copy does not tell its parts, so each is named."""
    names = []
    for part in (charts, cli, symbols):
        for module in pkgutil.walk_packages(part.__path__, f"{part.__name__}."):
            importlib.import_module(module.name)
            names.append(module.name)
    return names


def _warmed() -> None:
    """Draw one pattern and read one, so that no worker has to load grammar, letters and looks anew."""
    with tempfile.TemporaryDirectory(prefix="fuzz-") as home:
        source = Path(home) / "a.txt"
        source.write_text("Ch 4.\nRow 1: Sc in 2nd ch from hook and in each ch across. (3 sts)\n", "utf-8")
        for words in (["check"], ["chart", "-o", f"{home}/a.svg"], ["instructions"]):
            CliRunner().invoke(commands.main, [words[0], str(source), *words[1:]])


def _count(
    tally: Tally, case: Case, code: int, took: float, megabytes: float, wrong: list[str],
    tell: Callable[[Case, list[str]], None],
) -> None:  # fmt: skip
    name = case.command.split()[0]
    tally.runs[name] += 1
    tally.refused[name] += bool(code)
    tally.slowest[name] = max(tally.slowest.get(name, 0.0), took)
    tally.largest[name] = max(tally.largest.get(name, 0.0), megabytes)
    tally.faults += [(says.split(":")[0].split(" ")[0], case, says) for says in wrong]
    if wrong:
        tell(case, wrong)


def said(tally: Tally) -> str:
    """The tally as a table."""
    lines = ["| command | runs | ended with a problem | slowest, s | most memory, MB |", "|---|---|---|---|---|"]
    for name, number in tally.runs.most_common():
        lines.append(
            f"| {name} | {number} | {tally.refused[name]} | {tally.slowest[name]:.2f} | {tally.largest[name]:.0f} |"
        )
    kinds = Counter(kind for kind, _, _ in tally.faults)
    return "\n".join([*lines, f"{sum(tally.runs.values())} runs; faults: {dict(kinds) or 'none'}"])


def main() -> None:
    """Run, tell of every fault, print the table."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--from", dest="begin", type=int, default=0)
    parser.add_argument("--count", type=int, default=200_000)
    parser.add_argument("--seconds", type=float, default=1e9)
    parser.add_argument("--only", default="")
    parser.add_argument("--small", action="store_true")
    parser.add_argument("--faults", type=Path, default=Path(os.devnull))
    parser.add_argument("--tally", type=Path, default=Path(os.devnull))
    given = parser.parse_args()
    with given.faults.open("a", encoding="utf-8") as file:

        def tell(case: Case, wrong: list[str]) -> None:
            print(f"{case.number} {case.command}: {wrong[0][-300:]}", flush=True)
            entry = {"number": case.number, "command": case.command, "wrong": wrong, "text": case.text}
            file.write(json.dumps(entry) + "\n")
            file.flush()

        def make(number: int) -> Case:
            return case_of(given.seed, number, given.only, small=given.small)

        def keep(tally: Tally) -> None:
            given.tally.write_text(said(tally) + "\n", "utf-8")

        numbers = range(given.begin, given.begin + given.count)
        print(said(all_runs(make, numbers, given.seconds, tell, keep)))


if __name__ == "__main__":
    main()
