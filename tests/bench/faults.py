"""How surely the unit tests notice a fault in the code they stand beside.

    python tests/bench/faults.py [--seed N] [--count N] [--room model/hands]

One token of charts/ is changed at a time (a comparison, a sum, a number, a truth, a "not"), in a copy of the project,
and the unit tests of its storey are run over the copy. Printed are the share of faults noticed, by room, and those
that were not. The comparison of the gallery's drawings is not among the tests. A fault that changes nothing that can
be seen counts as not noticed, so that no suite reaches 100 %.
"""

from __future__ import annotations

import argparse
import ast
import functools
import os
import random
import shutil
import subprocess
import sys
import tempfile
from collections import defaultdict
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
PROCESSES = 2
LONGEST_SECONDS = 240
#: The unit tests beside each storey of charts/.
TESTS = {
    "drawing": ("tests/unit/drawing",),
    "pattern": ("tests/unit/pattern", "tests/unit/notation", "tests/invalid"),
    "model": ("tests/unit/model", "tests/unit/notation"),
    "folding": ("tests/unit/folding",),
    "layout": ("tests/unit/layout",),
    "output": ("tests/unit/output",),
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
        if len(path.relative_to(ROOT).parts) > 2
        for fault in faults_in(str(path.relative_to(ROOT)), path.read_text("utf-8"))
        if fault.room.startswith(room)
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
    return folder


def noticed(folder: Path, fault: Fault) -> bool:
    """Whether a test of the fault's storey fails with it."""
    path = folder / "code" / "hookfold" / fault.file
    sound = path.read_text("utf-8")
    path.write_text(fault.put(sound), "utf-8")
    try:
        run = subprocess.run(
            [sys.executable, "-m", "pytest", "-x", "-q", "-p", "no:cacheprovider", *TESTS[fault.room.split("/")[0]]],
            cwd=folder, env={**os.environ, "PYTHONPATH": str(folder / "code"), "PYTHONDONTWRITEBYTECODE": "1"},
            capture_output=True, check=False, timeout=LONGEST_SECONDS,
        )  # fmt: skip
    except subprocess.TimeoutExpired:
        return True
    finally:
        path.write_text(sound, "utf-8")
    return run.returncode != 0


def main() -> None:
    asked = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    asked.add_argument("--seed", type=int, default=1)
    asked.add_argument("--count", type=int, default=100)
    asked.add_argument("--room", default="", help="only faults in rooms whose name begins so")
    given = asked.parse_args()
    faults = chosen(given.seed, given.count, given.room)
    by_room: dict[str, list[bool]] = defaultdict(list)
    with tempfile.TemporaryDirectory() as top, ThreadPoolExecutor(PROCESSES) as pool:
        shares = [copied(Path(top) / str(n)) for n in range(PROCESSES)]
        jobs = [
            pool.submit(lambda own, folder: [(f, noticed(folder, f)) for f in own], faults[n::PROCESSES], shares[n])
            for n in range(PROCESSES)
        ]
        for fault, seen in (pair for job in jobs for pair in job.result()):
            by_room[fault.room].append(seen)
            if not seen:
                print(f"not noticed: {fault.file}:{fault.line}: {fault.was.strip()} -> {fault.now or '(gone)'}")
    for room, seen_all in sorted(by_room.items()):
        print(f"{room:32} {sum(seen_all)}/{len(seen_all)}")
    every = [seen for seen_all in by_room.values() for seen in seen_all]
    print(f"noticed {sum(every)} of {len(every)}")


if __name__ == "__main__":
    main()
