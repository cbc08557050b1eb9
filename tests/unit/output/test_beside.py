"""Work in a second process: the same results and the same faults as in one, and nothing left of it however it ends."""

import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable

import pytest
from hookfold.charts.output.booklet.book import Picture
from hookfold.charts.output.images import beside as two
from hookfold.charts.output.images.beside import beside

#: A second process says its number, and both wait for long.
WAITS = """
import os, signal, sys, time
from hookfold.charts.output.images import beside
signal.signal(signal.SIGINT, signal.default_int_handler)
beside._of_use = lambda: True
def work():
    os.write(1, f"{os.getpid()}\\n".encode())
    time.sleep(60)
with beside.beside([work]) as take:
    take()
"""


@pytest.fixture(params=[True, False], ids=["two", "one"])
def processes(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> bool:
    if request.param and sys.platform != "linux":
        pytest.skip("a second process is begun on Linux only")
    monkeypatch.setattr(two, "_of_use", lambda: request.param)
    return bool(request.param)


def test_what_is_made_comes_in_turn_and_from_the_process_that_is_meant(processes: bool) -> None:
    picture = Picture(b"jpeg", "jpg", "what it shows", "what it is")
    works: list[Callable[[], object]] = [os.getpid, lambda: {"a": b"x" * 3_000_000}, lambda: picture, lambda: None]
    with beside(works) as take:
        time.sleep(0.01)
        assert (take() == os.getpid()) is not processes
        assert take() == {"a": b"x" * 3_000_000} and take() == picture and take() is None


def test_a_fault_is_the_same_and_what_follows_it_is_made(processes: bool) -> None:
    def fails() -> object:
        raise ValueError("the yarn is torn")

    with beside([fails, lambda: 7]) as take:
        with pytest.raises(ValueError, match="the yarn is torn"):
            take()
        assert take() == 7


def test_what_cannot_be_sent_is_made_here(processes: bool) -> None:
    with beside([lambda: (lambda: 5)]) as take:
        made = take()
        assert callable(made) and made() == 5


def test_where_the_second_process_is_killed_its_work_is_done_here(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(two, "_of_use", lambda: sys.platform == "linux")
    first = os.getpid()

    def dies() -> object:
        if os.getpid() != first:
            os.kill(os.getpid(), signal.SIGKILL)
        return "made"

    with beside([dies, lambda: 7]) as take:
        assert take() == "made" and take() == 7


def test_nothing_is_left_open_and_nobody_is_left(processes: bool) -> None:
    before = set(os.listdir("/proc/self/fd")) if processes else set()
    with pytest.raises(KeyboardInterrupt), beside([lambda: time.sleep(60)]):
        raise KeyboardInterrupt
    if processes:
        assert set(os.listdir("/proc/self/fd")) == before
        with pytest.raises(ChildProcessError):
            os.waitpid(-1, os.WNOHANG)


@pytest.mark.skipif(sys.platform != "linux", reason="a second process is begun on Linux only")
@pytest.mark.parametrize("number", [signal.SIGINT, signal.SIGTERM, signal.SIGKILL])
def test_both_end_when_the_first_is_ended(number: signal.Signals) -> None:
    with subprocess.Popen([sys.executable, "-c", WAITS], stdout=subprocess.PIPE, stderr=subprocess.DEVNULL) as run:
        assert run.stdout is not None
        assert int(run.stdout.readline()) != run.pid
        began = time.monotonic()
        run.send_signal(number)
        # what both write to ends when both have ended, long before the second would by itself
        assert run.stdout.read() == b"" and time.monotonic() - began < 20
        assert run.wait(10) != 0


def test_one_core_and_other_threads_make_no_second_process(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(two.threading, "active_count", lambda: 1)
    for platform, cores, threads, use in (("linux", 2, 1, True), ("linux", 1, 1, False), ("linux", 4, 2, False),
                                          ("darwin", 2, 1, False), ("win32", 2, 1, False)):
        monkeypatch.setattr(two.sys, "platform", platform)
        monkeypatch.setattr(two.os, "sched_getaffinity", lambda _, n=cores: set(range(n)), raising=False)
        monkeypatch.setattr(two.threading, "active_count", lambda n=threads: n)
        assert two._of_use() is use
