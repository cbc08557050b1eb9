"""What all tests share: steady Hypothesis examples, and heavier checks that run when all are asked for."""

import os
import shutil
from collections import Counter
from collections.abc import Callable

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


def some(examples: int) -> int:
    """How many random examples are tried of so many."""
    return examples if ALL_CHECKS else max(examples // SPARED, 5)


settings.register_profile("steady", derandomize=True, deadline=None, print_blob=False, max_examples=some(100))
settings.load_profile("steady")


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Leave the slow tests out, unless all are asked for or the command line chooses by mark."""
    if ALL_CHECKS or config.option.markexpr:
        return
    later = pytest.mark.skip(reason="slow")
    for item in items:
        if "slow" in item.keywords:
            item.add_marker(later)


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """What was left out, why, and how to run it."""
    if not ALL_CHECKS and any("property" in report.nodeid for report in terminalreporter.stats.get("passed", ())):
        remedy = REMEDIES["slow"].partition(",")[0]
        terminalreporter.write_line(f"random examples: one of {SPARED} of those meant (quicker); to try all: {remedy}")
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
