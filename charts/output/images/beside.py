"""Work that is done in a second process while the first goes on, where the system has two cores for it.

The second process is a copy of this one (fork), so that it has what was worked already. What it makes it leaves in
memory without a name, which goes when both are gone; the system ends it when the first ends, however that comes. What
it could not make is made here, so that a fault is the same as in one process.
"""

from __future__ import annotations

import contextlib
import ctypes
import gc
import os
import pickle
import signal
import sys
import threading
import warnings
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from typing import NoReturn

#: What the system is told: end this process when the one that made it ends (PR_SET_PDEATHSIG).
_END_WITH = 1
#: What the second process says of each piece of work.
_MADE, _NOT_MADE = b"+", b"-"

Work = Callable[[], object]


@contextmanager
def beside(works: Sequence[Work]) -> Iterator[Callable[[], object]]:
    """Begin works in a second process where that is safe and of use; the function that is given waits for what the
    next of them makes and returns it, or does it here. It is asked for each in turn; what is left at the end is let go.
    """
    todo = iter(enumerate(works))
    child = _Second(works) if _of_use() else None

    def take() -> object:
        at, work = next(todo)
        if child is not None and child.has_made():
            return child.made(at)
        return work()

    try:
        yield take
    finally:
        if child is not None:
            child.end()


def _of_use() -> bool:
    """Whether there are two cores, and nothing here that a copy of the process would lack: other threads of ours."""
    alone = threading.active_count() == 1 and threading.current_thread() is threading.main_thread()
    return sys.platform == "linux" and alone and len(os.sched_getaffinity(0)) > 1


class _Second:
    """A copy of this process that does works one after the other."""

    def __init__(self, works: Sequence[Work]) -> None:
        self.kept = [os.memfd_create("made") for _ in works]
        self.says, told = os.pipe()
        first = os.getpid()
        with warnings.catch_warnings():
            warnings.simplefilter("ignore", DeprecationWarning)  # threads of libraries, which the copy does not use
            self.number = os.fork()
        if self.number == 0:
            _work(works, self.kept, told, first)
        os.close(told)

    def has_made(self) -> bool:
        """Wait for the next piece of work; whether it was done."""
        return os.read(self.says, 1) == _MADE

    def made(self, at: int) -> object:
        """What the work in that place made."""
        with os.fdopen(os.dup(self.kept[at]), "rb") as file:
            file.seek(0)
            return pickle.load(file)

    def end(self) -> None:
        """End it, if it has not, and let go what it left."""
        with contextlib.suppress(ProcessLookupError):
            os.kill(self.number, signal.SIGKILL)
        with contextlib.suppress(ChildProcessError):
            os.waitpid(self.number, 0)
        for number in (self.says, *self.kept):
            os.close(number)


def _work(works: Sequence[Work], kept: Sequence[int], told: int, first: int) -> NoReturn:
    """What the second process does: every work, silently; it never returns."""
    try:
        if signal.getsignal(signal.SIGINT) is not signal.SIG_IGN:  # as it is for a job in the background
            signal.signal(signal.SIGINT, signal.SIG_DFL)
        ctypes.CDLL(None).prctl(_END_WITH, int(signal.SIGKILL))
        if os.getppid() != first:
            os._exit(0)
        gc.disable()
        for work, number in zip(works, kept, strict=True):
            try:
                made = pickle.dumps(work())
                with os.fdopen(os.dup(number), "wb") as file:
                    file.write(made)
            except Exception:
                os.write(told, _NOT_MADE)
            else:
                os.write(told, _MADE)
    finally:
        os._exit(0)
