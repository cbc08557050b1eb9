"""What all tests share: steady Hypothesis examples, and heavier checks that run when all are asked for."""

import os
import shutil
from collections.abc import Callable

import pytest
from hypothesis import settings

settings.register_profile("steady", derandomize=True, deadline=None, print_blob=False)
settings.load_profile("steady")

#: Set where everything must run and nothing may be skipped.
ALL_CHECKS = bool(os.environ.get("HOOKFOLD_ALL_CHECKS"))


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Leave the slow tests out, unless all are asked for or the command line chooses by mark."""
    if ALL_CHECKS or config.option.markexpr:
        return
    later = pytest.mark.skip(reason="slow: set HOOKFOLD_ALL_CHECKS=1 or choose -m slow")
    for item in items:
        if "slow" in item.keywords:
            item.add_marker(later)


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
