"""`make` killed at many moments while it writes: the old set stands, or the new one, and nothing is left behind.

    python tests/bench/kills.py [--count 200]

The set of a real pattern is made once; each of the runs writes it over another and is killed with SIGKILL, half of them
before their nth step in the file system, half at a moment by the clock. In every other run the folder holds folders too.
"""

from __future__ import annotations

import argparse
import os
import random
import signal
import sys
import tempfile
import time
from collections import Counter
from pathlib import Path

from hookfold.charts import engrave
from hookfold.charts.setting import Setting
from hookfold.cli.disk.folders import write_set

PATTERN = Path(__file__).resolve().parents[2] / "gallery" / "strapped-journal" / "pattern.toml"
STEPS = frozenset((
    "open", "os.rename", "os.remove", "os.rmdir", "os.mkdir", "os.link", "os.chmod", "os.scandir", "os.listdir",
    "shutil.rmtree", "ctypes.call_function",
))  # fmt: skip


def contents(folder: Path) -> dict[str, bytes]:
    """What a folder shows: its files that are not hidden."""
    return {p.name: p.read_bytes() for p in folder.iterdir() if p.is_file() and not p.name.startswith(".")}


def killed(out: Path, files: dict[str, bytes], step: int, seconds: float) -> bool:
    """Write the files in a process that is killed before its nth step (0: never), or after so many seconds; whether it
    came to that."""
    child = os.fork()
    if child == 0:
        left = [step]

        def count(event: str, _: object) -> None:
            if event in STEPS:
                left[0] -= 1
                if left[0] == 0:
                    os.kill(os.getpid(), signal.SIGKILL)

        sys.addaudithook(count)
        write_set(out, files)
        os._exit(0)
    if seconds:
        time.sleep(seconds)
        os.kill(child, signal.SIGKILL)
    return os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) == -signal.SIGKILL


def main() -> None:
    """Kill and look, so many times; print what was found."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--count", type=int, default=200)
    count = parser.parse_args().count
    text = PATTERN.read_text("utf-8")
    sets = [engrave.make(text, "pattern.toml", Setting(hand=hand)) for hand in ("right", "left")]
    rng, found = random.Random(1), Counter[str]()
    with tempfile.TemporaryDirectory(prefix="kills-") as home:
        out = Path(home) / "out"
        write_set(out, sets[0])
        for run in range(count):
            inside = out / "drafts"
            if run % 2:
                inside.mkdir(exist_ok=True)
                (inside / "mine.txt").write_bytes(b"mine")
            new = sets[(run + 1) % 2]
            before = contents(out)
            step, seconds = (rng.randint(1, 120), 0.0) if run % 4 < 2 else (0, rng.uniform(0.0005, 0.03))
            found["killed while writing"] += killed(out, new, step, seconds)
            stands = contents(out)
            kind = "old set" if stands == before else "new set" if stands == new else "MIXED"
            found[kind] += 1
            found["LOST a file of the user's"] += bool(run % 2) and (inside / "mine.txt").read_bytes() != b"mine"
            write_set(out, new)
            found["not mended by the next run"] += contents(out) != new
            found["LEFT temporary files"] += [p.name for p in Path(home).iterdir()] != ["out"]
    print(f"{count} moments: " + ", ".join(f"{what} {number}" for what, number in sorted(found.items())))


if __name__ == "__main__":
    main()
