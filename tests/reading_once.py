"""The same words are read once: a check that works one text many times over need not have it read as often."""

import pickle
from collections.abc import Callable
from functools import cache
from types import ModuleType

import pytest
from hookfold.charts.pattern.written.document import Reading, read_written


def read_once_in(patch: pytest.MonkeyPatch, *modules: ModuleType) -> Callable[..., Reading]:
    """Has these modules, which read pages, be handed a copy of its own each time of what was read the first time."""

    @cache
    def pickled(*asked: object) -> bytes:
        return pickle.dumps(read_written(*asked))  # type: ignore[arg-type]

    def read(text: str, terms: object = None, specials: object = (), first_line: int = 1, size: int = 0) -> Reading:
        return pickle.loads(pickled(text, terms, specials, first_line, size))  # type: ignore[no-any-return]

    for module in modules:
        patch.setattr(module, "read_written", read)
    return read
