"""Progress on a terminal, for what takes longer than a second; nothing where it is not one."""

from __future__ import annotations

import os
import sys
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager

import click

#: How long a command may be silent, in seconds.
PATIENCE_S = 1.0

Step = Callable[[int, int, str], None]


def on_terminal() -> bool:
    """Whether progress can be shown: it goes to standard error, so that standard output stays clean."""
    return sys.stderr.isatty()


#: Lines are wrapped to the terminal, but to no less and no more than this.
NARROWEST, WIDEST = 48, 102


def terminal_width() -> int:
    """How many characters a line of the terminal holds; the most where there is none."""
    if "COLUMNS" not in os.environ and not (sys.__stdout__ and sys.__stdout__.isatty()):
        return WIDEST
    import shutil

    return max(NARROWEST, min(shutil.get_terminal_size((WIDEST, 24)).columns, WIDEST))


@contextmanager
def working(label: str) -> Iterator[None]:
    """Say what is being done if it takes longer than a second."""
    if not on_terminal():
        yield
        return
    timer = threading.Timer(PATIENCE_S, click.echo, [f"{label} ..."], {"err": True})
    timer.daemon = True
    timer.start()
    try:
        yield
    finally:
        timer.cancel()


@contextmanager
def steps() -> Iterator[Step]:
    """A progress bar as a function: steps done, steps in all, what comes next."""
    if not on_terminal():
        yield lambda done, total, name: None
        return
    try:
        yield _draw
    finally:
        click.echo("\r\x1b[K", err=True, nl=False)


def _draw(done: int, total: int, name: str) -> None:
    width = 24
    full = round(width * done / max(total, 1))
    bar = "#" * full + "-" * (width - full)
    click.echo(f"\r\x1b[K[{bar}] {done}/{total} {name}", err=True, nl=False)
