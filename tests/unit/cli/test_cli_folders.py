"""A folder of files: the old set or the new one at any moment, and nothing that was changed by hand is lost."""

import os
import signal
import sys

import click
import pytest
from hookfold.cli.disk import folders
from hookfold.cli.disk.folders import LIST, write_set

NAMES = [f"part-{k}.svg" for k in range(5)]


def a_set(generation, names=NAMES):
    return {name: f"{name} of {generation}".encode() for name in names}


def contents(folder):
    return {p.name: p.read_bytes() for p in folder.iterdir() if not p.name.startswith(".") and p.is_file()}


def test_a_set_is_written_and_written_again_and_only_it_stays(tmp_path):
    for generation in (1, 2):
        write_set(tmp_path / "out", a_set(generation))
    assert contents(tmp_path / "out") == a_set(2)
    assert sorted(p.name for p in tmp_path.iterdir()) == ["out"]
    assert sorted(p.name for p in (tmp_path / "out").iterdir()) == sorted([*NAMES, LIST])


@pytest.fixture(params=["swapped", "with a folder", "file by file"])
def folder(request, tmp_path):
    """A folder with a set in it; one that holds a link is not swapped."""
    out = tmp_path / "out"
    write_set(out, a_set(1))
    if request.param == "with a folder":
        (out / "drafts" / "old").mkdir(parents=True)
        (out / "drafts" / "old" / "mine").write_bytes(b"mine")
    elif request.param == "file by file":
        os.symlink(tmp_path / "nowhere", out / "link")
    assert folders._may_swap(out) == (request.param != "file by file")
    return out


def test_a_changed_file_stays_and_the_new_one_stands_beside_it(folder):
    (folder / "part-0.svg").write_bytes(b"my own words")
    written = write_set(folder, a_set(2))
    beside = folder / "part-0.new.svg"
    assert written.kept == ((folder / "part-0.svg", beside),)
    assert (folder / "part-0.svg").read_bytes() == b"my own words" and beside.read_bytes() == a_set(2)["part-0.svg"]
    written = write_set(folder, a_set(3))
    assert written.kept == ((folder / "part-0.svg", beside),) and beside.read_bytes() == a_set(3)["part-0.svg"]
    beside.write_bytes(b"changed too")
    assert write_set(folder, a_set(4)).kept[0][1].name == "part-0.new-2.svg"
    assert beside.read_bytes() == b"changed too" and (folder / "part-0.svg").read_bytes() == b"my own words"


def test_what_was_never_written_by_the_tool_counts_as_changed(folder):
    (folder / LIST).unlink()
    assert len(write_set(folder, a_set(2)).kept) == len(NAMES)
    assert contents(folder).items() >= a_set(1).items()


def test_other_files_stay_and_are_the_same_files(folder):
    other = folder / "notes.txt"
    other.write_bytes(b"mine")
    before = other.stat().st_ino
    write_set(folder, a_set(2))
    assert (other.read_bytes(), other.stat().st_ino) == (b"mine", before)


def test_folders_in_it_stay_as_they_are(folder):
    (folder / "drafts" / "deep").mkdir(parents=True, exist_ok=True)
    write_set(folder / "drafts" / "deep", a_set(1))
    (folder / "drafts").chmod(0o750)
    before = {p.relative_to(folder): p.stat().st_ino for p in folder.glob("drafts/**/*") if p.is_file()}
    write_set(folder, a_set(2))
    assert {p.relative_to(folder): p.stat().st_ino for p in folder.glob("drafts/**/*") if p.is_file()} == before
    assert (folder / "drafts").stat().st_mode & 0o777 == 0o750 and contents(folder / "drafts" / "deep") == a_set(1)
    assert sorted(p.name for p in folder.parent.iterdir()) == ["out"]


def test_what_is_written_into_a_folder_meanwhile_stays(folder, monkeypatch):
    """Somebody puts files into the old folder after it was linked, the moment before the two change places."""
    swap = folders._swap

    def written_meanwhile(one, other):
        (folder / "late").write_bytes(b"late")
        (folder / "new").mkdir()
        (folder / "new" / "note").write_bytes(b"note")
        if (folder / "drafts").is_dir():
            (folder / "drafts" / "late").write_bytes(b"too")
        swap(one, other)

    if not folders._may_swap(folder):
        pytest.skip("written file by file")
    monkeypatch.setattr(folders, "_swap", written_meanwhile)
    write_set(folder, a_set(2))
    assert contents(folder) == {**a_set(2), "late": b"late"} and (folder / "new" / "note").read_bytes() == b"note"
    if (folder / "drafts").is_dir():
        assert (folder / "drafts" / "late").read_bytes() == b"too"
        assert (folder / "drafts" / "old" / "mine").read_bytes() == b"mine"
    assert sorted(p.name for p in folder.parent.iterdir()) == ["out"]


def test_what_is_no_longer_made_goes_unless_it_was_changed(folder):
    (folder / "part-1.svg").write_bytes(b"mine")
    written = write_set(folder, a_set(2, NAMES[2:]))
    assert [p.name for p in written.removed] == ["part-0.svg"]
    assert contents(folder) == {**a_set(2, NAMES[2:]), "part-1.svg": b"mine"}


def test_a_part_of_a_set_takes_nothing_away(folder):
    assert write_set(folder, {"share.png": b"1"}, whole=False).removed == ()
    assert contents(folder) == {**a_set(1), "share.png": b"1"}
    assert not write_set(folder, a_set(2)).kept


def test_a_folder_where_a_file_belongs_is_said_before_anything_is_written(folder):
    (folder / "part-4.svg").unlink()
    (folder / "part-4.svg").mkdir()
    with pytest.raises(click.UsageError, match=r"part-4\.svg is a folder"):
        write_set(folder, a_set(2))
    assert contents(folder) == a_set(1, NAMES[:4])


@pytest.mark.parametrize("link", [os.symlink, os.link])
def test_the_pattern_is_never_an_output(folder, link):
    pattern = folder.parent / "cover.toml"
    pattern.write_bytes(b"the pattern")
    (folder / "part-3.svg").unlink()
    link(pattern, folder / "part-3.svg")
    with pytest.raises(click.UsageError, match="is the pattern"):
        write_set(folder, a_set(2), [str(pattern)])
    assert pattern.read_bytes() == b"the pattern"


def killed_at(moment, folder, generation):
    """Write a set in a process that kills itself before its nth step in the file system; whether it came to that."""
    child = os.fork()
    if child == 0:
        left = [moment]

        def hook(event, _):
            if event in STEPS:
                left[0] -= 1
                if left[0] == 0:
                    os.kill(os.getpid(), signal.SIGKILL)

        sys.addaudithook(hook)
        write_set(folder, a_set(generation))
        os._exit(0)
    return os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) == -signal.SIGKILL


STEPS = {
    "open", "os.rename", "os.remove", "os.rmdir", "os.mkdir", "os.link", "os.chmod", "os.scandir", "os.listdir",
    "shutil.rmtree", "ctypes.call_function", "ctypes.dlsym",
}  # fmt: skip


@pytest.mark.skipif(sys.platform != "linux" or folders._exchange() is None, reason="needs renameat2")
def test_killed_at_any_moment_the_old_set_stands_or_the_new_one(tmp_path):
    out, generation, moment = tmp_path / "out", 1, 0
    write_set(out, a_set(generation))
    (out / "mine.txt").write_bytes(b"mine")
    (out / "drafts").mkdir()
    (out / "drafts" / "sketch").write_bytes(b"sketch")
    seen = set()
    while True:
        moment += 1
        killed = killed_at(moment, out, generation + 1)
        found = contents(out)
        assert found.pop("mine.txt") == b"mine" and (out / "drafts" / "sketch").read_bytes() == b"sketch"
        assert found in (a_set(generation), a_set(generation + 1)), moment
        seen.add(found == a_set(generation + 1))
        generation += 1
        write_set(out, a_set(generation))
        assert contents(out) == {**a_set(generation), "mine.txt": b"mine"}
        assert sorted(p.name for p in tmp_path.iterdir()) == ["out"], "what a killed run left is swept"
        if not killed:
            break
    assert seen == {True, False} and moment > 40


@pytest.mark.skipif(not hasattr(os, "fork"), reason="needs fork")
def test_killed_file_by_file_the_next_run_mends_it(folder):
    if folders._may_swap(folder):
        os.symlink(folder.parent / "nowhere", folder / "link")
    moment, killed = 0, True
    while killed:
        moment += 1
        killed = killed_at(moment, folder, 2 * moment)
        written = write_set(folder, a_set(2 * moment + 1))
        assert not written.kept and contents(folder) == a_set(2 * moment + 1), moment
    assert moment > 25


def test_the_list_of_the_old_set_goes_last(folder, monkeypatch):
    """A run killed while it takes the old set away leaves the next one a list to go on by."""
    if not folders._may_swap(folder):
        pytest.skip("written file by file")
    gone, unlink = [], folders.Path.unlink
    monkeypatch.setattr(folders.Path, "unlink", lambda path, **said: gone.append(path.name) or unlink(path, **said))
    write_set(folder, a_set(2))
    assert gone[-1] == LIST and {*NAMES} <= {*gone}
