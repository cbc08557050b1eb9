"""How the tool ends where it cannot go on: interrupted, nobody reading, no room left, or by a fault of its own."""

from __future__ import annotations

import atexit
import errno
import gc
import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager, suppress

import click

from .report import INTERRUPTED, NOBODY_READS, PROBLEMS, WRONG_USE, stumbled

#: So many things more than before are there when it is looked for those that are no longer used.
MADE_BETWEEN = 100_000

# The system takes the memory back at the end: looking for what is no longer used would cost a fifth of a short run.
atexit.register(gc.freeze)
# It is looked for seldom too: a run throws away little of what it makes.
if 0 < gc.get_threshold()[0] < MADE_BETWEEN:
    gc.set_threshold(MADE_BETWEEN, 10, 20)


@contextmanager
def ending_plainly() -> Iterator[None]:
    """Whatever a command runs into is said in a line, and what it printed has arrived when it ends well."""
    try:
        yield
        sys.stdout.flush()
    except (click.exceptions.Exit, click.ClickException, click.Abort):
        raise
    except KeyboardInterrupt:
        _leave(INTERRUPTED, "Interrupted; nothing was written.")
    except BrokenPipeError:
        _leave(NOBODY_READS)
    except OSError as wrong:
        _leave(WRONG_USE, f"Error: {_where(wrong)}: {wrong.strerror or wrong}.")
    except MemoryError:
        _leave(PROBLEMS, "Error: there is not enough memory for this; draw or check a part of it.")
    except Exception as fault:
        _leave(PROBLEMS, f"Error: {stumbled(fault)}")


@contextmanager
def ending_quietly() -> Iterator[None]:
    """The same for what is printed before or after a command: help, and the last words in the buffers."""
    try:
        yield
    except KeyboardInterrupt:
        _leave(INTERRUPTED, "Interrupted; nothing was written.")
    except SystemExit as ended:
        try:
            sys.stdout.flush()
        except BrokenPipeError:
            _leave(NOBODY_READS)
        except OSError as wrong:
            _leave(WRONG_USE, f"Error: {_where(wrong)}: {wrong.strerror or wrong}.")
        raise ended from None


def _where(wrong: OSError) -> str:
    """What could not be written or read, as far as the system says."""
    if wrong.filename:
        return str(wrong.filename)
    full = wrong.errno in (errno.ENOSPC, errno.EIO, errno.EFBIG)
    return "standard output cannot be written" if full else "the system"


def _leave(code: int, says: str = "") -> None:
    """End at once with a code; what still stands in the buffers goes nowhere, or Python would try it again."""
    if says:
        with suppress(OSError):
            click.echo(says, err=True)
    with suppress(OSError, ValueError):
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, sys.stdout.fileno())
    raise SystemExit(code)
