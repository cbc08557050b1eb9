"""Where outputs go: never over the input, through links and pipes, and how a run ends that cannot go on."""

import json
import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest
from click.testing import CliRunner
from hookfold.cli import commands, main
from hookfold.cli.disk.files import write_all
from hookfold.cli.report import FINE, INTERRUPTED, NOBODY_READS, PROBLEMS, WRONG_USE

SQUARE = "Ch 6.\nRow 1: Sc in 2nd ch from hook and in each ch across. (5 sts)\nRow 2: Ch 1, turn. Sc in each st across.\n"


def run(*arguments):
    return CliRunner().invoke(main, [str(a) for a in arguments], catch_exceptions=False)


def process(*arguments, **more):
    script = "from hookfold.cli import main; main()"
    return subprocess.run([sys.executable, "-c", script, *map(str, arguments)], stderr=subprocess.PIPE, **more)


@pytest.fixture
def square(tmp_path):
    path = tmp_path / "square.txt"
    path.write_text(SQUARE, "utf-8")
    return path


COMMANDS = {
    "instructions.txt": ["instructions"], "instructions.md": ["instructions"], "chart.svg": ["chart"],
    "folding.svg": ["assembly"], "mock-up.pdf": ["template"], "yarn.md": ["yarn"], "sizes.txt": ["sizes"],
}  # fmt: skip


@pytest.mark.parametrize("out", COMMANDS)
@pytest.mark.parametrize("link", [None, os.symlink, os.link])
def test_an_output_is_never_the_pattern(tmp_path, out, link):
    pattern = tmp_path / ("square.txt" if link else out)
    pattern.write_text(SQUARE, "utf-8")
    if link:
        link(pattern, tmp_path / out)
    found = run(*COMMANDS[out], pattern, "-o", tmp_path / out)
    assert found.exit_code == WRONG_USE and "is the pattern" in found.stderr
    assert pattern.read_text("utf-8") == SQUARE


def test_the_picture_of_a_mistake_is_never_the_pattern(tmp_path):
    pattern = tmp_path / "square.svg"
    pattern.write_text(SQUARE, "utf-8")
    assert run("check", pattern, "--picture", pattern).exit_code == WRONG_USE
    assert pattern.read_text("utf-8") == SQUARE


def test_standard_streams_may_be_the_same_file_too(square):
    with square.open("rb") as given, square.open("ab") as taken:
        assert process("instructions", "-", stdin=given, stdout=taken).returncode == WRONG_USE
    assert square.read_text("utf-8") == SQUARE


def test_links_are_followed_and_pipes_written_to(tmp_path):
    (tmp_path / "real").mkdir()
    (tmp_path / "real" / "a.svg").write_bytes(b"old")
    (tmp_path / "a.svg").symlink_to(tmp_path / "real" / "a.svg")
    os.mkfifo(tmp_path / "b.svg")
    with subprocess.Popen(["cat", str(tmp_path / "b.svg")], stdout=subprocess.PIPE) as reader:
        write_all({tmp_path / "a.svg": b"new", tmp_path / "b.svg": b"through"})
        assert reader.communicate()[0] == b"through"
    assert (tmp_path / "a.svg").is_symlink() and (tmp_path / "real" / "a.svg").read_bytes() == b"new"
    assert sorted(p.name for p in (tmp_path / "real").iterdir()) == ["a.svg"]


def test_what_a_killed_run_left_is_swept(tmp_path):
    gone = subprocess.run([sys.executable, "-c", "import os; print(os.getpid())"], stdout=subprocess.PIPE)
    left = tmp_path / f".a.svg.hookfold-{int(gone.stdout)}"
    mine = tmp_path / ".a.svg.swp"
    for path in (left, mine):
        path.write_bytes(b"half")
    write_all({tmp_path / "a.svg": b"new"})
    assert sorted(p.name for p in tmp_path.iterdir()) == [".a.svg.swp", "a.svg"]


def test_a_new_folder_is_said(tmp_path, square):
    assert "new folder" in run("chart", square, "-o", tmp_path / "fresh" / "a.svg").stderr
    assert "new folder" not in run("chart", square, "-o", tmp_path / "fresh" / "a.svg").stderr


def test_a_message_names_the_path_that_was_given(tmp_path, square):
    (tmp_path / "dir.svg").mkdir()
    found = run("chart", square, "-o", tmp_path / "dir.svg")
    assert found.exit_code == WRONG_USE and f"{tmp_path / 'dir.svg'} cannot be written: Is a directory." in found.stderr


def test_nobody_reads(square):
    read, write = os.pipe()
    os.close(read)
    found = process("instructions", square, stdout=write)
    os.close(write)
    assert (found.returncode, found.stderr) == (NOBODY_READS, b"")


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="needs /dev/full")
@pytest.mark.parametrize("command", [["check"], ["instructions"], ["chart", "-o", "-"], ["chart", "-o", "/dev/full"]])
def test_no_room_on_the_output_is_one_line(square, command):
    with open("/dev/full", "wb") as full:
        found = process(*command, square, stdout=full)
    assert found.returncode == WRONG_USE
    assert found.stderr.count(b"\n") <= 4 and b"No space left" in found.stderr and b"Traceback" not in found.stderr


def test_interrupted(square):
    script = "from hookfold.cli import main; print('ready', flush=True); main()"
    command = [sys.executable, "-c", script, "check", "-"]
    pipes = {"stdin": subprocess.PIPE, "stdout": subprocess.PIPE, "stderr": subprocess.PIPE}
    heard = signal.signal(signal.SIGINT, signal.default_int_handler)  # a shell's job in the background is deaf to it
    with subprocess.Popen(command, **pipes) as child:
        signal.signal(signal.SIGINT, heard)
        child.stdout.readline()
        time.sleep(0.5)
        child.send_signal(signal.SIGINT)
        said = child.stderr.read()
        assert child.wait() == INTERRUPTED and said == b"Interrupted; nothing was written.\n"


@pytest.mark.slow
@pytest.mark.skipif(sys.platform != "linux", reason="a second process is begun on Linux only")
def test_make_interrupted_while_two_processes_draw_leaves_neither_and_no_file(tmp_path):
    out = tmp_path / "set" / "out"
    out.parent.mkdir()
    two = "from hookfold.charts.output.images import beside; beside._of_use = lambda: True; "
    script = f"{two}import signal as s; s.signal(s.SIGINT, s.default_int_handler); import hookfold.cli as c; c.main()"
    cover = Path(__file__).resolve().parents[3] / "gallery" / "field-book-cover" / "pattern.toml"
    command = [sys.executable, "-c", script, "make", str(cover), "-o", str(out)]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE) as child:
        children = Path(f"/proc/{child.pid}/task/{child.pid}/children")
        while not (second := children.read_text("utf-8").split()):
            time.sleep(0.05)
        began = time.monotonic()
        child.send_signal(signal.SIGINT)
        said = child.stderr.read()  # to the end: it is the second's too
        assert child.wait() == INTERRUPTED and said == b"Interrupted; nothing was written.\n"
        assert time.monotonic() - began < 5
    assert len(second) == 1 and list(out.parent.iterdir()) == []


@pytest.mark.parametrize("name", [b"caf\xe9.txt", "naïve \u202e.txt".encode(), b"new\nline.txt", b'quo"te.txt'])
def test_check_as_json_whatever_the_file_is_called(tmp_path, name):
    path = os.fsencode(tmp_path) + b"/" + name
    try:
        Path(os.fsdecode(path)).write_text(SQUARE, "utf-8")
    except OSError:
        pytest.skip("this file system has no such names")
    script = "from hookfold.cli import main; main()"
    found = subprocess.run([sys.executable, "-c", script, "check", "--json", path], capture_output=True)
    assert found.returncode == FINE and json.loads(found.stdout.decode("utf-8"))["ok"]


def test_a_fault_of_the_tool_is_one_line_in_every_command(square, monkeypatch):
    monkeypatch.setattr(commands.engrave, "chart", lambda *_: 1 / 0)
    found = run("chart", square, "-o", square.parent / "a.svg")
    assert found.exit_code == PROBLEMS and "The fault is hookfold's" in found.stderr


def test_pages_are_files_of_their_own_and_dots_as_asked_for(tmp_path):
    wide = tmp_path / "wide.txt"
    wide.write_text("Ch 91.\nRow 1: Sc in 2nd ch from hook and in each ch across.\n" + "".join(
        f"Row {n}: Ch 1, turn. {'Hdc' if n % 7 else 'Sc'} in each st across.\n" for n in range(2, 60)), "utf-8")
    assert run("chart", wide, "-o", tmp_path / "a.svg", "--extent", "full").exit_code == FINE
    assert run("chart", wide, "-o", tmp_path / "b.svg", "--extent", "full", "--pages").exit_code == FINE
    pages = sorted(p.name for p in tmp_path.glob("b*.svg"))
    assert pages == [f"b-{k}.svg" for k in range(1, len(pages) + 1)] and len(pages) > 2
    assert (tmp_path / "a.svg").read_text("utf-8").count('<g id="row-') >= 59
    assert run("chart", wide, "-o", "-", "--extent", "full", "--pages").exit_code == WRONG_USE
    (tmp_path / "small.txt").write_text(SQUARE, "utf-8")
    sizes = []
    for dpi in (50, 100):
        assert run("chart", tmp_path / "small.txt", "-o", tmp_path / "c.png", "--dpi", dpi).exit_code == FINE
        sizes.append(int.from_bytes((tmp_path / "c.png").read_bytes()[16:20], "big"))
    assert sizes[1] == pytest.approx(2 * sizes[0], abs=1)


def test_what_is_too_large_to_draw_is_said_with_what_can_be(tmp_path):
    wide = tmp_path / "wide.txt"
    wide.write_text("Ch 3100.\nRow 1: Sc in 2nd ch from hook and in each ch across.\nRow 2: Ch 1, turn. Sc in each st across.")
    found = run("chart", wide, "-o", tmp_path / "a.svg")
    assert found.exit_code == WRONG_USE and "3,000" in found.stderr and not (tmp_path / "a.svg").exists()


def test_stitches_can_be_had_one_by_one(square, tmp_path):
    out = tmp_path / "apart.svg"
    assert run("chart", square, "-o", out, "--stitches", "separate").exit_code == 0
    assert 'id="row-1-stitch-2"' in out.read_text("utf-8")
    assert run("chart", square, "-o", out, "--stitches", "apart").exit_code == 2
