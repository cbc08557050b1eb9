"""Reading what is asked for and writing what was made: whole or not at all, and never over what was read."""

from __future__ import annotations

import os
import re
import stat
import sys
from collections.abc import Iterable, Mapping
from pathlib import Path

import click
from hookfold.charts.errors import PatternError, Problem

#: The most bytes of a pattern that are read; the reader states its own limit in characters.
MOST_BYTES = 1_000_000
#: What a temporary file's name begins with after its dot and its target's name.
MARK = ".hookfold-"


def read_text(path: str) -> tuple[str, str]:
    """The text of a pattern and the name it is called by; "-" is standard input.

    PatternError where it is not UTF-8 text; a click error where it cannot be opened.
    """
    name = "standard input" if path == "-" else printable(path)
    try:
        data = sys.stdin.buffer.read(MOST_BYTES + 1) if path == "-" else _head_of(path)
    except OSError as wrong:
        raise click.UsageError(f"{name} cannot be read: {wrong.strerror or wrong}.") from None
    if len(data) > MOST_BYTES:
        says = f"the file is larger than {MOST_BYTES:,} bytes."
        raise PatternError([Problem("limit", "", says, "look whether this is the right file.", file=name)])
    return decoded(data, name), name


def printable(path: str) -> str:
    """A file's name as it can be printed: bytes that are no UTF-8, and what has no shape, as question marks.

    >>> printable("cover\\udcff.toml")
    'cover?.toml'
    """
    return "".join(c if c.isprintable() else "?" for c in path)


def _head_of(path: str) -> bytes:
    with open(path, "rb") as file:
        return file.read(MOST_BYTES + 1)


#: How a file of XML begins.
_MARKUP = re.compile(r"\s*<(?:\?xml\b|svg\b|!DOCTYPE\s+(?!html\b))", re.IGNORECASE)


def decoded(data: bytes, name: str) -> str:
    """UTF-8 as text, a byte-order mark left out; lines that end in a bare carriage return end as others do.
    PatternError for what is no such text, and for a drawing or another file of markup, which holds no pattern."""
    try:
        text = data.decode("utf-8-sig")
        if _MARKUP.match(text):
            says = "this is a file of markup, as a drawing (SVG) is, and no pattern."
            remedy = "name the pattern that it was made from: a written pattern (.txt) or a pattern file (.toml)."
            raise PatternError([Problem("file", "", says, remedy, 1, file=name)])
        return text if "\n" in text else text.replace("\r", "\n")
    except UnicodeDecodeError as wrong:
        line = data.count(b"\n", 0, wrong.start) + 1
        says = f"the file is not UTF-8 text (byte {wrong.start + 1})."
        if data[:2] in (b"\xff\xfe", b"\xfe\xff"):
            says = "the file is UTF-16 text, and UTF-8 is read."
        remedy = "save it as UTF-8 in your editor."
        raise PatternError([Problem("file", "", says, remedy, line, file=name)]) from None


def refuse_input(outputs: Iterable[str | Path], inputs: Iterable[str]) -> None:
    """Wrong use where an output is one of the inputs, by whatever name, link or stream."""
    read = {found: name for name in inputs if (found := _identity(name, stream=0))}
    for out in outputs:
        found = _identity(str(out), stream=1)
        if found in read:
            name = "standard input" if read[found] == "-" else f'"{printable(read[found])}"'
            written = "standard output" if str(out) == "-" else f'"{printable(str(out))}"'
            same = "" if written == name else f" {written} is the same file."
            raise click.UsageError(f"{name} is the pattern, and writing would destroy it.{same} Name another output.")


def _identity(path: str, stream: int) -> tuple[int, int] | None:
    """Which file a path leads to, links followed; None for what is no ordinary file."""
    try:
        found = os.fstat(stream) if path == "-" else os.stat(path)
    except (OSError, ValueError):
        return None
    return (found.st_dev, found.st_ino) if stat.S_ISREG(found.st_mode) else None


def write_all(files: Mapping[Path, bytes], inputs: Iterable[str] = ()) -> None:
    """Write all files or none: each to a temporary file beside it, then renamed into place. Links are followed; what
    is no ordinary file (a pipe, a device) is written to as it stands."""
    refuse_input(files, inputs)
    made: list[tuple[Path, Path]] = []
    name = Path()
    try:
        for name, data in files.items():
            _make_folder(name.parent)
            target = Path(os.path.realpath(name))
            if target.exists() and not target.is_file() and not target.is_dir():
                _write_through(target, data)
            else:
                made.append((_temporary(target, data), target))
        for temporary, target in made:
            name = target
            os.replace(temporary, target)
    except OSError as wrong:
        for temporary, _ in made:
            temporary.unlink(missing_ok=True)
        asked = next((path for path in files if Path(os.path.realpath(path)) == name), name)
        raise cannot_be_written(asked, wrong) from None


def cannot_be_written(path: str | Path, wrong: OSError) -> click.UsageError:
    """Why a path cannot be written to, by the name it was asked for."""
    return click.UsageError(f"{printable(str(path))} cannot be written: {wrong.strerror or wrong}.")


def _make_folder(folder: Path) -> None:
    """Make a folder that is not there, and say so: a slip in a name would hide the file."""
    if not folder.exists():
        folder.mkdir(parents=True)
        click.echo(f"{printable(str(folder))} is a new folder.", err=True)


def _write_through(target: Path, data: bytes) -> None:
    with open(target, "wb", buffering=0) as file:
        rest = memoryview(data)
        while rest:
            rest = rest[file.write(rest) :]


def _temporary(path: Path, data: bytes) -> Path:
    """The data in a new file in the folder of `path`, with the rights a new file usually has. Those that a killed run
    left there are swept."""
    sweep(path.parent, path.name)
    made = path.parent / f".{path.name[:100]}{MARK}{os.getpid()}"
    try:
        made.unlink(missing_ok=True)
        with open(made, "xb") as file:
            file.write(data)
    except OSError:
        made.unlink(missing_ok=True)
        raise
    return made


def sweep(folder: Path, name: str) -> None:
    """Take away temporary files for `name` that runs left which are no longer alive."""
    for left in folder.glob(f".{plain(name[:100])}{MARK}*"):
        if left.is_file() and not is_alive(left):
            left.unlink(missing_ok=True)


def is_alive(temporary: Path) -> bool:
    """Whether the run that a temporary name belongs to may still be writing to it."""
    number = temporary.name.rpartition("-")[2]
    if os.name != "posix":
        return True  # there is no asking without stopping it
    if not number.isdigit() or int(number) == os.getpid():
        return not number.isdigit()
    try:
        os.kill(int(number), 0)
    except ProcessLookupError:
        return False
    except (OSError, OverflowError):
        return True
    return True


def plain(name: str) -> str:
    """A name as a glob pattern that means itself."""
    return "".join(f"[{c}]" if c in "*?[" else c for c in name)


def write_one(target: str, data: bytes, inputs: Iterable[str] = ()) -> None:
    """Write to a file, or to standard output for "-"; wrong use where that is one of the inputs."""
    if target == "-":
        refuse_input(["-"], inputs)
        sys.stdout.buffer.write(data)
        sys.stdout.buffer.flush()
    else:
        write_all({Path(target): data}, inputs)


def write_drawn(target: str, made: Mapping[str, bytes], inputs: Iterable[str] = ()) -> None:
    """Write a drawing, or its pages ("svg-1", "svg-2") to files of the target's name with -1, -2 and so on."""
    if not any("-" in name for name in made):
        write_one(target, next(iter(made.values())), inputs)
        return
    if target == "-":
        raise click.UsageError("pages go to files of their own; name one with -o OUT, or write a PDF.")
    path = Path(target)
    write_all({path.with_stem(f"{path.stem}-{name.rpartition('-')[2]}"): data for name, data in made.items()}, inputs)


def suffix_of(target: str, allowed: tuple[str, ...], standard: str) -> str:
    """The format that a target asks for by its ending: one of `allowed`; `standard` for standard output.

    >>> suffix_of("out/chart.PDF", ("svg", "pdf"), "svg")
    'pdf'
    """
    if target == "-":
        return standard
    suffix = Path(target).suffix.lower().lstrip(".")
    if suffix not in allowed and not _is_stream(target):
        endings = ", ".join(f".{a}" for a in allowed)
        raise click.UsageError(f'"{printable(target)}" must end in {endings}, which says the format.')
    return suffix if suffix in allowed else standard


def _is_stream(target: str) -> bool:
    """Whether a target is there and is a pipe or a device, which has no ending."""
    path = Path(target)
    return path.exists() and not path.is_file() and not path.is_dir()


def folder_of(out: str) -> Path:
    """The folder to write to; a file of that name, or standard output, is wrong use."""
    folder = Path(out)
    if out == "-" or (folder.exists() and not folder.is_dir()):
        raise click.UsageError(f'"{printable(out)}" is not a folder; name one with -o DIR.')
    there = next((path for path in (folder, *folder.absolute().parents) if path.exists()), folder)
    if not there.is_dir() or not os.access(there, os.W_OK | os.X_OK):
        raise click.UsageError(f"{printable(out)} cannot be written: there is no writing to {printable(str(there))}.")
    return folder
