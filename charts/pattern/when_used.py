"""Patterns of words that are compiled when they are first asked.

A short text asks some half of three hundred, and what it never asks costs it nothing.
"""

from __future__ import annotations

import re
from typing import Any, cast


class _WhenUsed:
    """Stands for a compiled pattern. What is asked of it once is kept, so that it is asked as fast as that."""

    def __init__(self, pattern: str, flags: int) -> None:
        self.pattern = pattern
        self._flags = flags

    def __getattr__(self, name: str) -> Any:
        if name.startswith("_"):
            raise AttributeError(name)
        found = getattr(re.compile(self.pattern, self._flags), name)
        setattr(self, name, found)
        return found


def when_used(pattern: str, flags: int = 0) -> re.Pattern[str]:
    """A pattern like that of `re.compile`, compiled when it is first asked for a match.

    >>> words = when_used("[a-z]+")
    >>> words.pattern, words.match("sc, dc")[0], words.findall("sc, dc")
    ('[a-z]+', 'sc', ['sc', 'dc'])
    """
    return cast("re.Pattern[str]", _WhenUsed(pattern, flags))
