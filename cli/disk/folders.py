"""A folder of files made together: the old set or the new one, never some of each, and no edited file lost.

A small list in the folder remembers what was written, by digest. A file that differs from it was changed by hand: it
stays, and the new one is put beside it. The new set is made whole beside the folder, with links to whatever else lies
in it, and the two folders change names in one step of the system. Where that cannot be (the folder is where the shell
stands, holds more than files and folders, or the system has no such step) the set is made inside the folder and its
files are renamed one by one; a run that was killed meanwhile is finished by the next.
"""

from __future__ import annotations

import contextlib
import ctypes
import hashlib
import json
import os
import shutil
import stat
import sys
from collections.abc import Callable, Iterable, Mapping, Sequence
from pathlib import Path

import click
from hookfold.charts.made_late import dataclass

from .files import MARK, cannot_be_written, is_alive, plain, printable, refuse_input

#: The list of what was written, and the folder of a set that is put in its place file by file.
LIST, READY = ".hookfold.json", ".hookfold-new"
#: A mark that a folder is not finished, and the names that go, while a set is put in its place file by file.
UNDER_WAY, GONE = ".hookfold-under-way", ".hookfold-gone"
#: A folder with more than this in it is not linked entry by entry.
MOST_LINKED = 2_000
#: What the system calls are told: names are as they stand (AT_FDCWD), and the two change places.
_HERE, _EXCHANGE, _SWAP = -100, 2, 2


@dataclass(frozen=True, slots=True)
class Written:
    """What became of a set: the paths written, those kept because they were changed by hand (with where the new one
    is), and those that are no longer made and were taken away."""

    paths: tuple[Path, ...]
    kept: tuple[tuple[Path, Path], ...] = ()
    removed: tuple[Path, ...] = ()


def write_set(folder: Path, files: Mapping[str, bytes], inputs: Iterable[str] = (), *, whole: bool = True) -> Written:
    """Write a set of files into a folder, all or none. `whole`: what an earlier set had beyond these is taken away,
    unless it was changed.

    Wrong use where a target is one of the inputs, is a folder, or cannot be written.
    """
    refuse_input([folder / name for name in files], inputs)
    try:
        return _write_set(folder, files, whole=whole)
    except OSError as wrong:
        raise cannot_be_written(folder, wrong) from None


def _write_set(folder: Path, files: Mapping[str, bytes], *, whole: bool) -> Written:
    real = Path(os.path.realpath(folder))
    _mend(real)
    known = _listed(real)
    for name in files:
        if (real / name).is_dir():
            raise click.UsageError(f"{printable(str(folder / name))} is a folder; a file is to be written there.")
    targets = {name: _target(real, name, data, known) for name, data in files.items()}
    data = {targets[name]: content for name, content in files.items()}
    digests = {target: digest(content) for target, content in data.items()}
    kept = tuple((folder / name, folder / target) for name, target in targets.items() if target != name)
    left = {name: old for name, old in known.items() if name not in digests}
    gone = [n for n in left if whole and n not in targets and digest_of(real / n) == left[n]]
    listed = {name: old for name, old in left.items() if name not in gone and (real / name).exists()} | digests
    data[LIST] = (json.dumps({"made": dict(sorted(listed.items()))}, indent=1) + "\n").encode("utf-8")
    new = not folder.exists()
    _place(real, data, gone)
    if new:
        click.echo(f"{printable(str(folder))} is a new folder.", err=True)
    return Written(tuple(folder / n for n in digests), kept, tuple(folder / n for n in gone))


def digest(data: bytes) -> str:
    """What a file's bytes are known by."""
    return hashlib.sha256(data).hexdigest()


def digest_of(path: Path) -> str:
    """The digest of a file; "" where there is none."""
    return digest(path.read_bytes()) if path.is_file() else ""


def _listed(folder: Path) -> dict[str, str]:
    """The digests of what was written to a folder, by name; nothing where no list can be read."""
    try:
        made = json.loads((folder / LIST).read_text("utf-8"))["made"]
        return {str(name): str(old) for name, old in made.items() if Path(str(name)).name == name}
    except (OSError, ValueError, TypeError, KeyError, AttributeError):
        return {}


def _target(folder: Path, name: str, data: bytes, known: Mapping[str, str]) -> str:
    """The name to write under: the file's own, or one beside a file that was changed by hand."""
    stem, dot, suffix = name.rpartition(".")
    tries = [name, *(f"{stem}.new{'' if k == 1 else f'-{k}'}{dot}{suffix}" for k in range(1, 1000))]
    for target in tries:
        there = digest_of(folder / target)
        if not (folder / target).exists() or there in (digest(data), known.get(target)):
            return target
    raise FileExistsError(0, "a thousand files beside it were changed by hand")


# -- one step -------------------------------------------------------------------------------------------------------


def _place(folder: Path, data: Mapping[str, bytes], gone: Sequence[str]) -> None:
    """Put the files into the folder and take others away: in one step where the system can."""
    folder.parent.mkdir(parents=True, exist_ok=True)
    if folder.exists() and not _may_swap(folder):
        _rename_each(folder, data, gone)
        return
    beside = folder.parent / f".{folder.name[:100]}{MARK}{os.getpid()}"
    try:
        _fill(beside, folder, data, gone)
        if folder.exists():
            _swap(beside, folder)
        else:
            os.rename(beside, folder)
    except OSError:
        _take_away(beside, folder)
        if not folder.exists():
            raise
        _rename_each(folder, data, gone)
        return
    _take_away(beside, folder)


def _may_swap(folder: Path) -> bool:
    """Whether a folder may change places with another: all that it holds can stand in both, nobody stands in it, and
    the system has such a step."""
    with contextlib.suppress(OSError):
        here = Path.cwd()
        if folder == here or folder in here.parents:
            return False
    linked = _linkable(folder, MOST_LINKED) >= 0
    return linked and not os.path.ismount(folder) and os.access(folder.parent, os.W_OK) and bool(_exchange())


def _linkable(folder: Path, most: int) -> int:
    """How many more entries than a folder's may be linked; below 0 where it holds too many, or other things than files
    and folders of this file system."""
    device = folder.stat().st_dev
    for entry in os.scandir(folder):
        most -= 1
        if entry.is_dir(follow_symlinks=False):
            same = entry.stat(follow_symlinks=False).st_dev == device
            most = _linkable(Path(entry.path), most) if same else -1
        elif not entry.is_file(follow_symlinks=False):
            return -1
        if most < 0:
            return -1
    return most


def _fill(beside: Path, folder: Path, data: Mapping[str, bytes], gone: Sequence[str]) -> None:
    """Make the new folder: the set, and links to whatever else the old one holds."""
    shutil.rmtree(beside, ignore_errors=True)
    beside.mkdir()
    (beside / UNDER_WAY).touch()
    for name, content in data.items():
        (beside / name).write_bytes(content)
    if folder.exists():
        _link_all(folder, beside, {*data, *gone})
        os.chmod(beside, stat.S_IMODE(folder.stat().st_mode))
    (beside / UNDER_WAY).unlink()


def _link_all(folder: Path, other: Path, but: Iterable[str] = ()) -> None:
    """Let what a folder holds stand in another too, folders inside it made anew."""
    for entry in os.scandir(folder):
        if entry.name in but:
            continue
        there = other / entry.name
        if entry.is_dir(follow_symlinks=False):
            there.mkdir()
            _link_all(Path(entry.path), there)
            shutil.copystat(entry.path, there)
        else:
            os.link(entry.path, there)


def _swap(one: Path, other: Path) -> None:
    """Let two folders change names in one step; OSError where the file system cannot."""
    call = _exchange()
    if call is None or call(os.fsencode(one), os.fsencode(other)):
        raise OSError(ctypes.get_errno(), os.strerror(ctypes.get_errno()))


def _exchange() -> Callable[[bytes, bytes], int] | None:
    """The system's call that lets two names change places: Linux has renameat2 (since 3.15), macOS renamex_np."""
    library = ctypes.CDLL(None, use_errno=True)
    if sys.platform == "linux" and hasattr(library, "renameat2"):
        return lambda one, other: int(library.renameat2(_HERE, one, _HERE, other, _EXCHANGE))
    if sys.platform == "darwin" and hasattr(library, "renamex_np"):
        return lambda one, other: int(library.renamex_np(one, other, _SWAP))
    return None


def _take_away(beside: Path, folder: Path) -> None:
    """Take away the folder that stood beside: one that was never finished, or the old set. What is in neither list and
    nowhere else (somebody wrote it meanwhile) goes into the folder that stands."""
    if (beside / UNDER_WAY).exists() or not beside.exists():
        shutil.rmtree(beside, ignore_errors=True)
        return
    _give_over(beside, folder, {**_listed(beside), LIST: digest_of(beside / LIST)})


def _give_over(old: Path, new: Path, known: Mapping[str, str]) -> None:
    """Take away a folder of which all but what is `known` stands in another; what does not goes there."""
    for path in sorted(old.iterdir(), key=lambda path: path.name == LIST):  # the list last: it tells what is known
        there = new / path.name
        if not there.exists():
            if digest_of(path) == known.get(path.name, "?"):
                path.unlink()
            else:
                os.rename(path, there)
        elif path.is_dir() and there.is_dir():
            _give_over(path, there, {})
        elif path.samefile(there) or digest_of(path) in (known.get(path.name), digest_of(there)):
            path.unlink()
    with contextlib.suppress(OSError):
        old.rmdir()


# -- file by file ---------------------------------------------------------------------------------------------------


def _rename_each(folder: Path, data: Mapping[str, bytes], gone: Sequence[str]) -> None:
    """Make the set inside the folder; once its list is there it is whole, and its files are renamed into place."""
    ready = folder / READY
    shutil.rmtree(ready, ignore_errors=True)
    ready.mkdir()
    try:
        for name, content in data.items():
            (ready / (UNDER_WAY if name == LIST else name)).write_bytes(content)
        (ready / GONE).write_text(json.dumps(list(gone)), "utf-8")
        os.rename(ready / UNDER_WAY, ready / LIST)
    except OSError:
        shutil.rmtree(ready, ignore_errors=True)
        raise
    _finish(folder)


def _finish(folder: Path) -> None:
    """Rename the files of a whole set into place, the list last; what was changed by hand meanwhile stays."""
    ready, known = folder / READY, _listed(folder)
    for path in sorted(ready.iterdir()):
        if path.name in (LIST, GONE):
            continue
        target = folder / _target(folder, path.name, path.read_bytes(), known)
        if target.is_symlink():
            _replace_linked(path, target)
        else:
            os.replace(path, target)
    for name in json.loads((ready / GONE).read_text("utf-8")):
        (folder / str(name)).unlink(missing_ok=True)
    os.replace(ready / LIST, folder / LIST)
    shutil.rmtree(ready, ignore_errors=True)


def _replace_linked(path: Path, link: Path) -> None:
    """Put a file where a link leads."""
    real = Path(os.path.realpath(link))
    beside = real.parent / f".{real.name[:100]}{MARK}{os.getpid()}"
    shutil.copyfile(path, beside)
    os.replace(beside, real)
    path.unlink()


def _mend(folder: Path) -> None:
    """Finish or sweep what runs left that were killed."""
    if folder.parent.is_dir():
        for left in folder.parent.glob(f".{plain(folder.name[:100])}{MARK}*"):
            if left.is_dir() and not is_alive(left):
                _take_away(left, folder)
    if (folder / READY / LIST).exists():
        _finish(folder)
    elif folder.is_dir():
        shutil.rmtree(folder / READY, ignore_errors=True)
