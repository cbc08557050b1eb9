"""The same pattern gives the same bytes on any day, in any zone, locale, folder, and whatever the seed of hashes."""

import os
import subprocess
import sys
from pathlib import Path

import pytest
from hostile_fields import file_with

#: Two cores, so that pictures are drawn in a second process.
TWO_CORES = """
import os
os.sched_getaffinity = lambda _: {0, 1}
"""
#: One core, and a clock that stands elsewhere, for all that asks Python for the time.
OTHER_DAY = """
import os, time
os.sched_getaffinity = lambda _: {0}
_now = time.time
time.time = lambda: _now() - 86_400 * 700
"""
#: Two worlds that differ in all that a run could take from one.
WORLDS = {
    "here": {"TZ": "America/St_Johns", "LC_ALL": "POSIX", "PYTHONHASHSEED": "1"},
    "far": {
        "TZ": "Pacific/Kiritimati", "LC_ALL": "tr_TR.UTF-8", "LANG": "tr_TR.UTF-8", "PYTHONHASHSEED": "4242",
        "PYTHONOPTIMIZE": "1", "COLUMNS": "40",
    },
}  # fmt: skip
RUN = "from hookfold.cli import main; main()"
#: What a picture's bytes could take from the world, which is the order of things, names, the clock, the process that draws
#: it, is the same for few dots as for many: pictures are drawn an eighth as wide here, which
#: was most of what a set takes.
FEW_DOTS = """
from hookfold.charts.output.images import fabric
fabric.WHOLE_PX //= 8
from hookfold.charts.output.images import shared
shared.CLOSE = type(shared.CLOSE)("right", shared.CLOSE.width_px // 8, shared.CLOSE.height_px // 8)
"""


def run(world, tmp_path, args, program=RUN):
    """Run the tool in a world of its own: another environment, day, working directory and folder of the pattern."""
    home = tmp_path / world / ("deep/er" if world == "far" else ".")
    home.mkdir(parents=True)
    (home / "sitecustomize.py").write_text(OTHER_DAY if world == "far" else TWO_CORES, "utf-8")
    (home / "cover.toml").write_text(file_with("plain"), "utf-8")
    path = os.pathsep.join([str(home), *(p for p in sys.path if p)])
    env = {**os.environ, **WORLDS[world], "PYTHONPATH": path, "HOME": str(home)}
    there, cwd = (home / "cover.toml", tmp_path) if world == "far" else (Path("cover.toml"), home)
    out = home / "out"
    out.mkdir()
    words = [str(there) if word == "@" else word.replace("%", str(out)) for word in args.split()]
    done = subprocess.run([sys.executable, "-c", program, *words], env=env, cwd=cwd, capture_output=True, check=False)
    assert done.returncode == 0, done.stderr.decode()
    return {p.name: p.read_bytes() for p in out.iterdir()}


@pytest.mark.parametrize("args", ["chart @ -o %/chart.pdf", "instructions @ -o %/words.docx"])
def test_the_same_bytes_in_two_worlds(args, tmp_path):
    assert run("here", tmp_path, args) == run("far", tmp_path, args)


#: What a set holds at least.
WANTED = {
    *(f"{name}.{ending}" for name in ("chart", "assembly") for ending in ("svg", "png", "pdf")), "instructions.md",
    "booklet.pdf", "follow.html", *(f"share-{shape}.{ending}" for shape in ("square", "tall", "wide") for ending in ("png", "txt")),
}  # fmt: skip


@pytest.mark.slow
def test_the_whole_set_is_the_same_in_both_worlds(tmp_path):
    """Its pictures drawn in a second process in the one, and in the first in the other."""
    here, far = (run(world, tmp_path, "make @ -o %", FEW_DOTS + RUN) for world in WORLDS)
    assert here.keys() >= WANTED
    assert [name for name in here if far.get(name) != here[name]] == [] and far.keys() == here.keys()
