"""How surely the unit tests notice a fault in the code they stand beside.

    python tests/bench/faults.py [--seed N] [--count N] [--room model/hands] [--slow]

One token of charts/ is changed at a time (a comparison, a sum, a number, a truth, a "not"), in a copy of the project,
and the unit tests of its storey are run over the copy: first it is written down which files of tests come by which
fault, then for each fault only those that do are run, the quickest first. Printed are the share of faults noticed,
by room, and those that were not. The comparison of the gallery's drawings is not among the tests; what only pinned
places, laws over random work or figures of print notice is counted by itself. Tests that are left out of the usual run are
left out here too unless asked for. A fault that changes nothing that can be seen counts as not noticed, so that no
suite reaches 100 %. So many processes are used as the variable PROCESSES says.
"""

from __future__ import annotations

import argparse
import ast
import compileall
import functools
import importlib.util
import json
import os
import random
import shutil
import subprocess
import sys
import tempfile
from collections import Counter, defaultdict
from collections.abc import Callable, Iterator, Mapping
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from pathlib import Path
from queue import SimpleQueue
from typing import Any

from called import ASKED, marked

ROOT = Path(__file__).resolve().parents[2]
PROCESSES = int(os.environ.get("PROCESSES", "2"))
#: The variable with which all tests are run.
ALL = "HOOKFOLD_ALL_CHECKS"
#: How much longer than over sound code tests may take; what takes longer does not end.
LONGEST_SECONDS, LONGEST_TIMES = 60, 10
#: Unit tests of several storeys: the examples in docstrings, and those of rooms that few tests come by.
EVERYWHERE = ("tests/unit/test_examples.py", "tests/unit/test_seldom_reached.py")
#: The unit tests beside each storey of charts/.
TESTS = {
    "drawing": ("tests/unit/drawing", *EVERYWHERE),
    "pattern": ("tests/unit/pattern", "tests/unit/notation", "tests/invalid", *EVERYWHERE),
    "model": ("tests/unit/model", "tests/unit/notation", *EVERYWHERE),
    "folding": ("tests/unit/folding", *EVERYWHERE),
    "layout": ("tests/unit/layout", *EVERYWHERE),
    "picture": ("tests/unit/picture", *EVERYWHERE),
    "output": ("tests/unit/output", *EVERYWHERE),
}
_LAW, _FACT = "tests/property/test_{}.py", "tests/reference/test_{}.py"
#: What else looks at one storey, counted by itself: places that are pinned as a person reads them, laws over random work,
#: figures of print.
BESIDE = {
    "layout": ("tests/golden/chart", "tests/golden/sheets", _LAW.format("layout_place"), _LAW.format("layout_rows")),
    "drawing": (_LAW.format("ink_placing"),),
    "pattern": tuple(map(_LAW.format, ("writer_inverse", "notation_robust", "file_reading_holds"))),
    "model": (*map(_LAW.format, ("sizing", "further_down", "tries_taken_back")), *map(_FACT.format, ("gauge_sums", "printed_rows"))),
    "folding": (_LAW.format("folding_laws"), _LAW.format("room_for_the_object"), _FACT.format("border_counts")),
}
#: What a comparison or a sum is turned into.
OTHER = {
    ast.Lt: "<=", ast.LtE: "<", ast.Gt: ">=", ast.GtE: ">", ast.Eq: "!=", ast.NotEq: "==", ast.Add: "-", ast.Sub: "+",
    ast.And: "or", ast.Or: "and", ast.In: "not in", ast.NotIn: "in", ast.Is: "is not", ast.IsNot: "is",
}  # fmt: skip
_SIGNS = {
    ast.Lt: "<", ast.LtE: "<=", ast.Gt: ">", ast.GtE: ">=", ast.Eq: "==", ast.NotEq: "!=", ast.Add: "+", ast.Sub: "-",
    ast.And: "and", ast.Or: "or", ast.In: "in", ast.NotIn: "not in", ast.Is: "is", ast.IsNot: "is not",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Fault:
    """One token of a file put in place of another: line from 1, column from 0."""

    file: str
    line: int
    column: int
    was: str
    now: str

    @property
    def name(self) -> str:
        return f"{self.file}:{self.line}:{self.column}: {self.was.strip()} -> {self.now or '(gone)'}"

    @property
    def room(self) -> str:
        return str(Path(self.file).parent.relative_to("charts"))

    def put(self, text: str) -> str:
        """The file's text with the fault in it."""
        lines = text.split("\n")
        line = lines[self.line - 1]
        assert line[self.column : self.column + len(self.was)] == self.was, self
        lines[self.line - 1] = line[: self.column] + self.now + line[self.column + len(self.was) :]
        return "\n".join(lines)


def faults_in(file: str, text: str) -> Iterator[Fault]:
    """Every fault that one token of a file can have; not in decorators, where it changes nothing that can be seen."""
    lines = text.split("\n")

    def between(before: ast.expr, after: ast.expr, sign: type[ast.AST]) -> Iterator[Fault]:
        if before.end_lineno != after.lineno or sign not in OTHER:
            return
        start, end = before.end_col_offset or 0, after.col_offset
        at = lines[after.lineno - 1].find(f" {_SIGNS[sign]} ", start, end)
        if at >= 0 and lines[after.lineno - 1].isascii():
            yield Fault(file, after.lineno, at + 1, _SIGNS[sign], OTHER[sign])

    tree = ast.parse(text)
    marks = (mark for node in ast.walk(tree) for mark in getattr(node, "decorator_list", ()))
    aside = {id(inner) for mark in marks for inner in ast.walk(mark)}
    for node in ast.walk(tree):
        if id(node) in aside:
            continue
        if isinstance(node, ast.Compare):
            for before, sign, after in zip([node.left, *node.comparators], node.ops, node.comparators, strict=False):
                yield from between(before, after, type(sign))
        elif isinstance(node, ast.BinOp):
            yield from between(node.left, node.right, type(node.op))
        elif isinstance(node, ast.BoolOp):
            for before, after in zip(node.values, node.values[1:], strict=False):
                yield from between(before, after, type(node.op))
        elif isinstance(node, ast.Constant) and lines[node.lineno - 1].isascii():
            if isinstance(node.value, bool):
                yield Fault(file, node.lineno, node.col_offset, str(node.value), str(not node.value))
            elif isinstance(node.value, int) and lines[node.lineno - 1][node.col_offset :].startswith(str(node.value)):
                yield Fault(file, node.lineno, node.col_offset, str(node.value), str(node.value + 1))
        elif isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.Not) and lines[node.lineno - 1].isascii():
            yield Fault(file, node.lineno, node.col_offset, "not ", "")


@functools.cache
def _every(room: str) -> tuple[Fault, ...]:
    """All faults that the code of the rooms whose name begins so can have."""
    return tuple(
        fault
        for path in sorted((ROOT / "charts").rglob("*.py"))
        if len(path.relative_to(ROOT).parts) > 2 and str(path.parent.relative_to(ROOT / "charts")).startswith(room)
        for fault in faults_in(str(path.relative_to(ROOT)), path.read_text("utf-8"))
    )


def chosen(seed: int, count: int, room: str) -> list[Fault]:
    """So many faults, drawn with a seed from all that the code can have."""
    every = _every(room)
    return random.Random(seed).sample(every, min(count, len(every)))


def copied(folder: Path) -> Path:
    """The project copied so that its tests run on the copy."""
    for part in ("charts", "symbols", "cli"):
        shutil.copytree(ROOT / part, folder / "code" / "hookfold" / part, ignore=shutil.ignore_patterns("__pycache__"))
        (folder / part).symlink_to(folder / "code" / "hookfold" / part)
    shutil.copytree(ROOT / "tests", folder / "tests", ignore=shutil.ignore_patterns("__pycache__"))
    (folder / "gallery").symlink_to(ROOT / "gallery")
    for name in ("pyproject.toml", "README.md", "DEVELOPERS.md"):
        shutil.copy(ROOT / name, folder / name)
    compileall.compile_dir(folder / "code", quiet=1)
    return folder


def write(path: Path, text: str) -> None:
    """Code written anew, so that nothing compiled before stands for it."""
    Path(importlib.util.cache_from_source(str(path))).unlink(missing_ok=True)
    path.write_text(text, "utf-8")


def pytest_in(folder: Path, paths: list[str], seconds: float, **more: str) -> subprocess.CompletedProcess[bytes]:
    """The tests of these files run over a copy until one fails; TimeoutExpired where they take longer."""
    code = f"{folder / 'code'}{os.pathsep}{folder / 'tests' / 'bench'}"
    return subprocess.run(
        [sys.executable, "-m", "pytest", "-x", "-q", "-p", "no:cacheprovider", "-p", "called", *paths],
        cwd=folder, env={**os.environ, "PYTHONPATH": code, "PYTHONDONTWRITEBYTECODE": "1", **more},
        capture_output=True, check=False, timeout=seconds,
    )  # fmt: skip


def failed_in(run: subprocess.CompletedProcess[bytes]) -> str:
    """The test that failed."""
    return next((line for line in run.stdout.decode().splitlines() if line.startswith(("FAILED", "ERROR"))), "")


def files_of(storey: str, beside: Mapping[str, tuple[str, ...]] = TESTS) -> list[str]:
    """The files of tests beside a storey of charts/."""
    tops = [ROOT / top for top in beside.get(storey, ())]
    found = [path for top in tops for path in ([top] if top.is_file() else top.rglob("test_*.py"))]
    return sorted(str(path.relative_to(ROOT)) for path in found)


@dataclass(frozen=True, slots=True)
class Seen:
    """What one file of tests comes by in charts/, by the names of faults, and its processor time in seconds."""

    seconds: float
    passed: frozenset[str]


def mark(folder: Path, faults: list[Fault]) -> None:
    """Mark in a copy where faults are to be."""
    for file in {fault.file for fault in faults}:
        marks = [((f.line, f.column), f.name) for f in faults if f.file == file]
        text = (ROOT / file).read_text("utf-8")
        write(folder / "code" / "hookfold" / file, marked(text, marks))


def unmark(folder: Path, faults: list[Fault]) -> None:
    """The copy as it was."""
    for file in {fault.file for fault in faults}:
        write(folder / "code" / "hookfold" / file, (ROOT / file).read_text("utf-8"))
        compileall.compile_file(folder / "code" / "hookfold" / file, quiet=1)


def seen_by(folder: Path, file: str) -> Seen | str:
    """What a file of tests comes by; the test that fails, where one does."""
    out = folder / "called.json"
    run = pytest_in(folder, [file], 3600, **{ASKED: str(out)})
    if run.returncode not in (0, 5):
        return failed_in(run) or "it cannot be run"
    told = json.loads(out.read_text("utf-8"))
    return Seen(told["seconds"], frozenset(told["passed"]))


def seen_unmarked(folder: Path, file: str, faults: list[Fault]) -> Seen:
    """A file of tests that fails over marked code, as those do that look at the code's text: it is held to come by
    every fault, unless it fails over sound code and tells nothing."""
    found = seen_by(folder, file)
    if isinstance(found, str):
        print(f"left out, as it fails over sound code: {file}: {found}", flush=True)
        return Seen(0.0, frozenset())
    return Seen(found.seconds, frozenset(fault.name for fault in faults))


def asked_for(fault: Fault, seen: dict[str, Seen], beside: Mapping[str, tuple[str, ...]] = TESTS) -> list[str]:
    """The files of tests that come by a fault, the quickest first."""
    found = [file for file in files_of(fault.room.split("/")[0], beside) if fault.name in seen[file].passed]
    return sorted(found, key=lambda file: seen[file].seconds)


def noticed(folder: Path, fault: Fault, seen: dict[str, Seen]) -> tuple[str, bool]:
    """What notices a fault put into a copy: the test that fails, or none that ends, empty where all pass; and whether
    that is none of its unit tests."""
    by = failing(folder, fault, asked_for(fault, seen), seen)
    return (by, False) if by else (failing(folder, fault, asked_for(fault, seen, BESIDE), seen), True)


def failing(folder: Path, fault: Fault, files: list[str], seen: dict[str, Seen]) -> str:
    """Which test of some files fails over a copy with a fault; empty where all pass."""
    if not files:
        return ""
    longest = LONGEST_SECONDS + LONGEST_TIMES * sum(seen[file].seconds for file in files)
    path = folder / "code" / "hookfold" / fault.file
    sound = path.read_text("utf-8")
    write(path, fault.put(sound))
    try:
        run = pytest_in(folder, files, longest)
        return (failed_in(run) or "no test can be run") if run.returncode else ""
    except subprocess.TimeoutExpired:
        return "no end"
    finally:
        path.write_text(sound, "utf-8")


def tried(faults: list[Fault]) -> Iterator[tuple[Fault, str, bool, int]]:
    """Each fault, what noticed it (empty where nothing did), whether that is none of its unit tests, and how many
    files of these come by it."""
    storeys = {fault.room.split("/")[0] for fault in faults}
    files = sorted({file for storey in storeys for beside in (TESTS, BESIDE) for file in files_of(storey, beside)})
    with tempfile.TemporaryDirectory() as top, ThreadPoolExecutor(PROCESSES) as pool:
        folders = [copied(Path(top) / str(n)) for n in range(PROCESSES)]
        free: SimpleQueue[Path] = SimpleQueue()
        for folder in folders:
            mark(folder, faults)
            free.put(folder)

        def lent(work: Callable[[Path], Any]) -> Any:
            folder = free.get()
            try:
                return work(folder)
            finally:
                free.put(folder)

        told = dict(zip(files, pool.map(lambda file: lent(lambda to: seen_by(to, file)), files), strict=True))
        for folder in folders:
            unmark(folder, faults)
        seen = {file: f if isinstance(f, Seen) else seen_unmarked(folders[0], file, faults) for file, f in told.items()}
        found = pool.map(lambda fault: lent(lambda to: noticed(to, fault, seen)), faults)
        for fault, (by, aside) in zip(faults, found, strict=True):
            yield fault, by, aside, len(asked_for(fault, seen))


def main() -> None:
    asked = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    asked.add_argument("--seed", type=int, default=1)
    asked.add_argument("--count", type=int, default=100)
    asked.add_argument("--room", default="", help="only faults in rooms whose name begins so")
    asked.add_argument("--slow", action="store_true", help="also by tests that are left out of the usual run")
    given = asked.parse_args()
    os.environ.pop(ALL, None)
    if given.slow:
        os.environ[ALL] = "1"
    faults = chosen(given.seed, given.count, given.room)
    by_room: dict[str, Counter[str]] = defaultdict(Counter)
    for fault, by, aside, files in tried(faults):
        by_room[fault.room][("aside" if aside else "unit") if by else "none"] += 1
        said = ("noticed beside" if aside else "noticed") if by else "NOT noticed"
        print(f"{said}: {fault.name} " + (f"by {by}" if by else f"({files} files come by it)"), flush=True)
    for room, found in sorted(by_room.items()):
        print(f"{room:32} {found['unit']}/{found.total()}" + (f", {found['aside']} more beside" if found["aside"] else ""))
    every = sum(by_room.values(), Counter[str]())
    print(f"noticed {every['unit']} of {every.total()}" + (f", {every['aside']} more beside" if every["aside"] else ""))


if __name__ == "__main__":
    main()
