"""Reading what is asked for and writing what was made: whole or not at all."""

from __future__ import annotations

import os
import sys
import tempfile
from collections.abc import Mapping
from pathlib import Path

import click
from hookfold.charts.errors import PatternError, Problem

#: The most bytes of a pattern that are read; the reader states its own limit in characters.
MOST_BYTES = 1_000_000


def read_text(path: str) -> tuple[str, str]:
    """The text of a pattern and the name it is called by; "-" is standard input.

    PatternError where it is not UTF-8 text; a click error where it cannot be opened.
    """
    name = "standard input" if path == "-" else path
    try:
        data = sys.stdin.buffer.read(MOST_BYTES + 1) if path == "-" else _head_of(path)
    except OSError as wrong:
        raise click.UsageError(f"{path} cannot be read: {wrong.strerror or wrong}.") from None
    if len(data) > MOST_BYTES:
        says = f"the file is larger than {MOST_BYTES:,} bytes."
        raise PatternError([Problem("limit", "", says, "look whether this is the right file.", file=name)])
    return decoded(data, name), name


def _head_of(path: str) -> bytes:
    with open(path, "rb") as file:
        return file.read(MOST_BYTES + 1)


def decoded(data: bytes, name: str) -> str:
    """UTF-8 as text, a byte-order mark left out; lines that end in a bare carriage return end as others do."""
    try:
        text = data.decode("utf-8-sig")
        return text if "\n" in text else text.replace("\r", "\n")
    except UnicodeDecodeError as wrong:
        line = data.count(b"\n", 0, wrong.start) + 1
        says = f"the file is not UTF-8 text (byte {wrong.start + 1})."
        if data[:2] in (b"\xff\xfe", b"\xfe\xff"):
            says = "the file is UTF-16 text, and UTF-8 is read."
        remedy = "save it as UTF-8 in your editor."
        raise PatternError([Problem("file", "", says, remedy, line, file=name)]) from None


def write_all(files: Mapping[Path, bytes]) -> None:
    """Write all files or none: each to a temporary file beside it, then renamed into place."""
    made: list[tuple[str, Path]] = []
    try:
        for path, data in files.items():
            path.parent.mkdir(parents=True, exist_ok=True)
            made.append((_temporary(path, data), path))
        for temporary, path in made:
            os.replace(temporary, path)
    except OSError as wrong:
        for temporary, _ in made:
            Path(temporary).unlink(missing_ok=True)
        name = wrong.filename2 or wrong.filename or "the output"
        raise click.UsageError(f"{name} cannot be written: {wrong.strerror or wrong}.") from None


def _temporary(path: Path, data: bytes) -> str:
    """The data in a new file in the folder of `path`, with the rights a new file usually has."""
    handle, name = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.")
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
        mask = os.umask(0)
        os.umask(mask)
        os.chmod(name, 0o666 & ~mask)
    except OSError:
        Path(name).unlink(missing_ok=True)
        raise
    return name


def write_one(target: str, data: bytes) -> None:
    """Write to a file, or to standard output for "-"."""
    if target == "-":
        sys.stdout.buffer.write(data)
        sys.stdout.buffer.flush()
    else:
        write_all({Path(target): data})


def suffix_of(target: str, allowed: tuple[str, ...], standard: str) -> str:
    """The format that a target asks for by its ending: one of `allowed`; `standard` for standard output.

    >>> suffix_of("out/chart.PDF", ("svg", "pdf"), "svg")
    'pdf'
    """
    if target == "-":
        return standard
    suffix = Path(target).suffix.lower().lstrip(".")
    if suffix not in allowed:
        endings = ", ".join(f".{a}" for a in allowed)
        raise click.UsageError(f'"{target}" must end in {endings}, which says the format.')
    return suffix


def folder_of(out: str) -> Path:
    """The folder to write to; a file of that name, or standard output, is wrong use."""
    folder = Path(out)
    if out == "-" or (folder.exists() and not folder.is_dir()):
        raise click.UsageError(f'"{out}" is not a folder; name one with -o DIR.')
    return folder
