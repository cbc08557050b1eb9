"""Which places of charts/ each file of tests runs, and what it costs: places are marked in a copy of the code, and a
plugin for pytest writes down which marks were passed."""

from __future__ import annotations

import ast
import json
import os
import time
from collections.abc import Iterable
from pathlib import Path

#: The variable that names the file to write to.
ASKED = "HOOKFOLD_CALLED"
#: The marks that this run has passed.
PASSED: set[str] = set()

Place = tuple[int, int]
Function = ast.FunctionDef | ast.AsyncFunctionDef


def marked(text: str, marks: Iterable[tuple[Place, str]]) -> str:
    """The code with a mark at the head of what holds each place: its function, or else the module."""
    tree = ast.parse(text)
    bodies: list[Function] = [n for n in ast.walk(tree) if isinstance(n, ast.FunctionDef | ast.AsyncFunctionDef)]
    homes = [(max((n for n in bodies if _holds(n, at)), key=lambda n: n.lineno, default=tree), mark) for at, mark in marks]
    for body, mark in homes:
        body.body.insert(_head(body), ast.parse(f"__import__('called').PASSED.add({mark!r})").body[0])
    return ast.unparse(ast.fix_missing_locations(tree))


def _holds(function: Function, place: Place) -> bool:
    """Whether a place is worked when a function runs, and not where it is defined."""
    first, last = function.body[0], function.body[-1]
    return (first.lineno, first.col_offset) <= place <= (last.end_lineno or 0, last.end_col_offset or 0)


def _head(body: ast.Module | Function) -> int:
    """The number of statements that must come first: the docstring, and what is imported from the future."""
    first = 1 if ast.get_docstring(body, clean=False) is not None else 0
    while first < len(body.body) and getattr(body.body[first], "module", "") == "__future__":
        first += 1
    return first


def pytest_unconfigure() -> None:
    """Write down what was passed; only where asked."""
    if ASKED in os.environ:
        told = {"seconds": time.process_time(), "passed": sorted(PASSED)}
        Path(os.environ[ASKED]).write_text(json.dumps(told), "utf-8")
