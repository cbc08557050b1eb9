"""Problems as they are printed, and what a command ends with."""

from __future__ import annotations

import functools
from collections.abc import Callable, Sequence
from typing import ParamSpec, TypeVar

import click
from hookfold.charts.errors import PatternError, Problem, Unable

from .disk.files import printable, refuse_input

#: What a command ends with; the last two as a shell says it of what SIGINT and SIGPIPE end (128 and the signal).
FINE, PROBLEMS, WRONG_USE, INTERRUPTED, NOBODY_READS = 0, 1, 2, 130, 141

P = ParamSpec("P")
R = TypeVar("R")


def report(problems: Sequence[Problem]) -> str:
    """All problems, a blank line between, and how many there are."""
    counted = f"{len(problems)} problem{'s' if len(problems) > 1 else ''}."
    return "\n\n".join([*(problem.report() for problem in problems), counted])


def stumbled(fault: Exception) -> str:
    """What is said where working a text failed through no fault of the text, with the place for those who mend it."""
    import traceback

    at = traceback.extract_tb(fault.__traceback__)[-1]
    place = f"{type(fault).__name__} in {at.filename.rsplit('/', 1)[-1]}, line {at.lineno}"
    return f"hookfold stumbled over this text ({place}). The fault is hookfold's, not the pattern's: please report it."


def named(path: object) -> list[str]:
    """A path where one was given."""
    return [str(path)] if path else []


def reporting(command: Callable[P, R]) -> Callable[P, R]:
    """A command that prints the problems of a pattern and ends with 1, and whose output is never its input."""

    @functools.wraps(command)
    def reported(*args: P.args, **kwargs: P.kwargs) -> R:
        try:
            refuse_input(named(kwargs.get("out")), named(kwargs.get("file") if "out" in kwargs else None))
            return command(*args, **kwargs)
        except PatternError as found:
            file = printable(str(kwargs.get("file", "")))
            placed = [problem if problem.file else problem.in_file(file) for problem in found.problems]
            click.echo(report(placed), err=True)
            raise SystemExit(PROBLEMS) from None
        except Unable as wrong:
            raise click.UsageError(f"{wrong}.") from None

    return reported
