"""What all tests share: steady Hypothesis examples, and heavier checks that run when all are asked for."""

import gc
import os
import resource
import shutil
import time
from collections import Counter
from collections.abc import Callable, Generator, Iterator, Sequence
from pathlib import Path

import pytest
from hypothesis import settings

#: Set where everything must run and nothing may be skipped.
ALL_CHECKS = bool(os.environ.get("HOOKFOLD_ALL_CHECKS"))
#: One of so many random examples is tried where not all is asked for.
SPARED = 4
#: How to run what was left out, by a word of why it was.
REMEDIES = {
    "slow": "HOOKFOLD_ALL_CHECKS=1 sh tests/run, or pytest -m slow FILE",
    "installed": "bash .ci/run, which installs it",
}
#: Tests that take longer than this, in seconds of processor time with what they start, are slow. They are named in a
#: file, each parameter by itself, beside those that say so themselves.
LONGEST = 0.2
SLOW_TESTS = Path(__file__).with_name("slow.txt")


# A run holds thousands of tests and what they keep, and looking through all of it for rings of objects that nothing
# holds any more took a twelfth of its time: it is looked for more seldom.
gc.set_threshold(100_000, 20, 50)


def slow_tests() -> set[str]:
    """The tests named as slow, as pytest names them from the root."""
    return {line for line in SLOW_TESTS.read_text("utf-8").split("\n") if line and not line.startswith("#")}


def some(examples: int) -> int:
    """How many random examples are tried of so many."""
    return examples if ALL_CHECKS else max(examples // SPARED, 5)


settings.register_profile("steady", derandomize=True, deadline=None, print_blob=False, max_examples=some(100))
settings.load_profile("steady")


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Leave the slow tests out, unless all are asked for or the command line chooses by mark."""
    named = slow_tests()
    for item in items:
        if item.nodeid in named:
            item.add_marker(pytest.mark.slow)
    if ALL_CHECKS or config.option.markexpr:
        return
    later = pytest.mark.skip(reason="slow")
    for item in items:
        if "slow" in item.keywords:
            item.add_marker(later)


def pytest_collection_finish() -> None:
    """What collecting made stays to the end, and is not looked through again."""
    gc.collect()
    gc.freeze()


def _spent() -> float:
    """Seconds of processor time so far, of this process and of those it started and waited for."""
    others = resource.getrusage(resource.RUSAGE_CHILDREN)
    return time.process_time() + others.ru_utime + others.ru_stime


@pytest.hookimpl(wrapper=True)
def pytest_runtest_call(item: pytest.Item) -> Generator[None, None, None]:
    """Tell the report what a test that is not known to be slow took."""
    before = _spent()
    try:
        return (yield)
    finally:
        if "slow" not in item.keywords:
            item.user_properties.append(("spent", _spent() - before))


def _to_be_named(passed: Sequence[pytest.TestReport]) -> Iterator[str]:
    """The lines that the file of slow tests lacks, and those in it that name no test."""
    for report in passed:
        spent = dict(report.user_properties).get("spent", 0.0)
        if isinstance(spent, float) and spent > 2 * LONGEST:
            yield f"slow, and not named so in {SLOW_TESTS.name}: {report.nodeid} ({spent:.1f} s)"
    for name in sorted(slow_tests() - {report.nodeid for report in passed}):
        yield f"named in {SLOW_TESTS.name}, and did not pass or is not there: {name}"


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """What was left out, why, and how to run it."""
    if not ALL_CHECKS and any("property" in report.nodeid for report in terminalreporter.stats.get("passed", ())):
        remedy = REMEDIES["slow"].partition(",")[0]
        terminalreporter.write_line(f"random examples: one of {SPARED} of those meant (quicker); to try all: {remedy}")
    if ALL_CHECKS and terminalreporter.config.args == terminalreporter.config.getini("testpaths"):
        for line in _to_be_named(terminalreporter.stats.get("passed", ())):
            terminalreporter.write_line(line)
    left: dict[str, Counter[str]] = {}
    for report in terminalreporter.stats.get("skipped", ()):
        why = report.longrepr[2].removeprefix("Skipped: ") if isinstance(report.longrepr, tuple) else str(report.longrepr)
        left.setdefault(why, Counter())[report.nodeid.split("::")[0]] += 1
    for why, files in sorted(left.items()):
        named = ", ".join(f"{file} ({count})" for file, count in sorted(files.items()))
        remedy = next((told for word, told in REMEDIES.items() if word in why), "not on this system")
        terminalreporter.write_line(f"left out ({why}): {named}; to run them: {remedy}")


@pytest.fixture(scope="session")
def tool() -> Callable[[str], str]:
    """The path of a program that a check needs; without it the check is skipped, or fails where nothing may be."""

    def find(name: str) -> str:
        path = shutil.which(name)
        if path is None and ALL_CHECKS:
            pytest.fail(f"{name} is not installed, and all checks were asked for")
        if path is None:
            pytest.skip(f"{name} is not installed")
        return path

    return find
