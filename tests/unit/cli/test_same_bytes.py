"""The same pattern gives the same bytes on any day, in any zone, locale, folder, and whatever the seed of hashes."""

import os
import subprocess
import sys
from pathlib import Path

import pytest
from hostile_fields import file_with

#: A clock that stands elsewhere, for all that asks Python for the time.
OTHER_DAY = """
import time
_now = time.time
time.time = lambda: _now() - 86_400 * 700
"""
WORLDS = {
    "here": {"TZ": "UTC", "LC_ALL": "C", "PYTHONHASHSEED": "1"},
    "far": {"TZ": "Pacific/Kiritimati", "LC_ALL": "tr_TR.UTF-8", "LANG": "tr_TR.UTF-8", "PYTHONHASHSEED": "4242"},
    "plain": {"TZ": "America/St_Johns", "LC_ALL": "POSIX", "PYTHONHASHSEED": "0", "PYTHONOPTIMIZE": "1", "COLUMNS": "40"},
}
RUN = "from hookfold.cli import main; main()"


def run(world, tmp_path, args):
    """Run the tool in a world of its own: another environment, day, working directory and folder of the pattern."""
    home = tmp_path / world / ("deep/er" if world == "far" else ".")
    home.mkdir(parents=True)
    (home / "sitecustomize.py").write_text(OTHER_DAY if world == "far" else "", "utf-8")
    (home / "cover.toml").write_text(file_with("plain"), "utf-8")
    path = os.pathsep.join([str(home), *(p for p in sys.path if p)])
    env = {**os.environ, **WORLDS[world], "PYTHONPATH": path, "HOME": str(home)}
    there = home / "cover.toml" if world == "plain" else Path("cover.toml")
    cwd = tmp_path if world == "plain" else home
    out = home / "out"
    out.mkdir()
    words = [str(there) if word == "@" else word.replace("%", str(out)) for word in args.split()]
    done = subprocess.run([sys.executable, "-c", RUN, *words], env=env, cwd=cwd, capture_output=True, check=False)
    assert done.returncode == 0, done.stderr.decode()
    return {p.name: p.read_bytes() for p in out.iterdir()}


@pytest.mark.parametrize("args", ["chart @ -o %/chart.pdf", "instructions @ -o %/words.docx"])
def test_the_same_bytes_in_two_worlds(args, tmp_path):
    assert run("here", tmp_path, args) == run("far", tmp_path, args)


@pytest.mark.slow
def test_the_whole_set_is_the_same_in_every_world(tmp_path):
    sets = [run(world, tmp_path, "make @ -o %") for world in WORLDS]
    assert len(sets[0]) > 15
    for other in sets[1:]:
        assert [name for name in sets[0] if other.get(name) != sets[0][name]] == [] and other.keys() == sets[0].keys()
