"""The examples in docstrings run and give what they say."""

import doctest
import importlib
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
FILES = [p for part in ("charts", "symbols", "cli") for p in sorted((ROOT / part).rglob("*.py"))]
WITH_EXAMPLES = [p for p in FILES if ">>> " in p.read_text("utf-8")]
FLAGS = doctest.ELLIPSIS | doctest.IGNORE_EXCEPTION_DETAIL | doctest.NORMALIZE_WHITESPACE


@pytest.mark.parametrize("file", WITH_EXAMPLES, ids=lambda p: str(p.relative_to(ROOT)))
def test_examples(file):
    name = ".".join(["hookfold", *file.relative_to(ROOT).with_suffix("").parts]).removesuffix(".__init__")
    found = doctest.testmod(importlib.import_module(name), optionflags=FLAGS)
    assert found.attempted > 0 and found.failed == 0


def test_there_are_examples():
    assert len(WITH_EXAMPLES) > 15
