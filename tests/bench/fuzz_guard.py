"""One run of the tool in this process, watched: its time, its memory, what it writes and whether it asks for a network."""

from __future__ import annotations

import ctypes
import gc
import re
import resource
import signal
import subprocess
import sys
import tempfile
import time
import traceback
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path

from click.testing import CliRunner
from hookfold.cli import commands, ending

#: A run is stopped after so many seconds of processor time, and gets no more memory than this.
LONGEST_S, MOST_BYTES = 60.0, 4_000_000_000
#: What opens, makes or takes away files, with the place of the path among its arguments.
PATHS = {
    "os.rename": 1, "os.remove": 0, "os.rmdir": 0, "os.mkdir": 0, "os.link": 1, "os.symlink": 1, "os.truncate": 0,
    "os.chmod": 0, "shutil.rmtree": 0,
}  # fmt: skip


class TooSlowError(BaseException):
    """A run took longer than it may; not an Exception, so that nothing on the way takes it for its own."""


@dataclass(slots=True)
class Watched:
    """What one run did: its exit code, processor seconds, most memory in MB, output, traces of faults, files touched
    and network calls."""

    code: int = 0
    seconds: float = 0.0
    megabytes: float = 0.0
    output: bytes = b""
    faults: list[str] = field(default_factory=list)
    touched: set[str] = field(default_factory=set)
    calls: list[str] = field(default_factory=list)


class Guard:
    """Runs the tool with arguments and watches it. There is one for a process: what listens cannot be taken away."""

    def __init__(self) -> None:
        self._now: Watched | None = None
        sys.addaudithook(self._hear)
        for module in (commands, ending):
            module.stumbled = self._stumbled  # type: ignore[attr-defined]
        signal.signal(signal.SIGPROF, self._ring)
        resource.setrlimit(resource.RLIMIT_DATA, (MOST_BYTES, MOST_BYTES))

    def run(self, args: list[str]) -> Watched:
        """Run the tool once."""
        watched = Watched()
        give_back()
        peak_from_here()
        begun = time.process_time()
        self._now = watched
        signal.setitimer(signal.ITIMER_PROF, LONGEST_S)
        try:
            result = CliRunner().invoke(commands.main, args, catch_exceptions=False)
            watched.code, watched.output = result.exit_code, result.output_bytes
        except TooSlowError:
            watched.faults.append(f"stopped after {LONGEST_S:g} s\n{traceback.format_exc()}")
        except BaseException:
            watched.faults.append(traceback.format_exc())
        finally:
            signal.setitimer(signal.ITIMER_PROF, 0)
            self._now = None
        watched.seconds, watched.megabytes = time.process_time() - begun, peak_mb()
        return watched

    def _stumbled(self, fault: Exception) -> str:
        if self._now is not None:
            self._now.faults.append("".join(traceback.format_exception(fault)))
        return "stumbled"

    def _ring(self, _number: int, _frame: object) -> None:
        raise TooSlowError

    def _hear(self, event: str, args: tuple[object, ...]) -> None:
        now = self._now
        if now is None:
            return
        if event.startswith("socket.") and event != "socket.gethostname":
            now.calls.append(event)
        elif event == "open" and isinstance(args[1], str) and re.search("[wax+]", args[1]):
            now.touched.add(_named(args[0]))
        elif event in PATHS and not _inside_a_folder(event, args):
            now.touched.add(_named(args[PATHS[event]]))


def _inside_a_folder(event: str, args: tuple[object, ...]) -> bool:
    """Whether a name is told of an open folder: what takes a whole temporary folder away goes about it so."""
    return event in ("os.remove", "os.rmdir", "os.mkdir") and isinstance(args[-1], int) and args[-1] >= 0


def _named(path: object) -> str:
    """A path as an absolute name; what is no path as it stands."""
    if isinstance(path, bytes):
        path = path.decode("utf-8", "replace")
    return str(Path(path).absolute()) if isinstance(path, (str, Path)) else f"<{path}>"


def give_back() -> None:
    """Give memory that is no longer used back to the system, where it can be: what one run took is not another's.

    What is kept from the run is not searched again after the next: among all that this process has kept the search would
    take longer than the run.
    """
    gc.collect()
    gc.freeze()
    with suppress(OSError, AttributeError):
        ctypes.CDLL(None).malloc_trim(0)


def peak_from_here() -> None:
    """Begin to measure the most memory anew (Linux alone can)."""
    with suppress(OSError):
        Path("/proc/self/clear_refs").write_text("5")


#: The tool run in a process of its own, which tells what the system says of it at its end.
OURS = """import atexit, pathlib, sys
told = pathlib.Path(sys.argv[1])
atexit.register(lambda: told.write_text(pathlib.Path("/proc/self/status").read_text()))
sys.argv = ["hookfold", *sys.argv[2:]]
from hookfold.cli import main; main()"""


def megabytes_alone(args: list[str]) -> float:
    """The most memory of a run in a process of its own, in MB: one that has run others keeps what they left."""
    with tempfile.TemporaryDirectory(prefix="fuzz-") as folder:
        told = Path(folder) / "status"
        subprocess.run([sys.executable, "-c", OURS, str(told), *args], capture_output=True, check=False)
        return _most_of(told.read_text()) if told.exists() else 0.0


def _most_of(status: str) -> float:
    """The most memory that a process has had since it began, or since that was last measured, in MB."""
    return next((int(line.split()[1]) / 1024 for line in status.splitlines() if line.startswith("VmHWM")), 0.0)


def peak_mb() -> float:
    """The most memory since then, in MB."""
    with suppress(OSError):
        if most := _most_of(Path("/proc/self/status").read_text()):
            return most
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
