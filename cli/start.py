"""The questions that `hookfold start` asks, and the pattern file that the answers make."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

import click
from hookfold.charts.output.start import Start, starter
from hookfold.charts.pattern.file.kinds import MEASUREMENTS, OBJECT_KINDS
from hookfold.charts.pattern.file.read import read_pattern

from .files import write_one
from .options import LENGTH, F

#: The order in which a kind is offered; the first is the usual one.
KINDS = tuple(OBJECT_KINDS)

_GAUGE = click.FloatRange(0.5, 400)


def measure_options(command: F) -> F:
    """An option for every measurement that some kind asks for."""
    for name, measurement in reversed(MEASUREMENTS.items()):
        if any(m.name == name and m.asked for kind in OBJECT_KINDS.values() for m in kind.measures):
            command = click.option(f"--{name}", type=LENGTH, help=f"{measurement.asks}.")(command)
    return command


def answers(given: Mapping[str, str | float | None], title: str) -> Start:
    """What was not given as an option is asked for; the answer offered is in brackets."""
    kind = given["kind"] or _ask("What is it for?", KINDS[0], click.Choice(KINDS))
    measures = {
        m.name: str(given.get(m.name) or _ask(m.asks, m.offers, LENGTH))
        for m in OBJECT_KINDS[str(kind)].measures
        if m.asked
    }
    over = str(given["over"] or "10 cm")
    stitches = given["stitches"] or _ask(f"Stitches over {over} of the swatch", 17, _GAUGE)
    rows = given["rows"] or _ask(f"Rows over {over} of the swatch", 14, _GAUGE)
    return Start(
        kind=str(kind), title=str(given["title"] or title), measures=measures, stitches=float(stitches),
        rows=float(rows), over=over, hook=str(given["hook"] or "4 mm"), terms=str(given["terms"] or "US"),
    )  # fmt: skip


def _ask(question: str, usual: str | float, kind: click.ParamType[Any]) -> Any:
    """Ask until the answer is of its kind; wrong use where nobody answers."""
    try:
        return click.prompt(question, default=usual, type=kind, err=True)
    except click.Abort:
        raise click.UsageError(f'"{question}" was not answered; give it as an option.') from None


def refuse_to_overwrite(target: str, *, force: bool) -> None:
    """An existing file is written over only where `force` says so."""
    if target != "-" and Path(target).exists() and not force:
        raise click.UsageError(f"{target} is there already; --force writes over it.")


def write_start(target: str, start: Start) -> None:
    """Write the pattern file, read once to be sure of it."""
    text = starter(start)
    read_pattern(text, target)
    write_one(target, text.encode("utf-8"))


def title_of(target: str) -> str:
    """A title from the file's name.

    >>> title_of("work/field-book_cover.toml")
    'Field book cover'
    """
    words = Path(target).stem.replace("-", " ").replace("_", " ").strip()
    return (words[:1].upper() + words[1:]) if words and words != " " else "Untitled"
