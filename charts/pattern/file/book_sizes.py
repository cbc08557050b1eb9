"""Named sizes of books and paper, read from sizes.toml with their sources."""

from __future__ import annotations

import functools
import tomllib
from dataclasses import dataclass
from difflib import get_close_matches
from pathlib import Path
from typing import Any


@dataclass(frozen=True, slots=True)
class NamedSize:
    """A size under its first name: its shorter and longer side, and the unit it is known in."""

    name: str
    width_mm: float
    height_mm: float
    unit: str
    source: str

    def wrap_mm(self, spine_mm: float) -> float:
        """Round a book of this size from fore-edge to fore-edge: 2 x width + spine.

        >>> named_size("B5").wrap_mm(20)
        372.0
        """
        return 2 * self.width_mm + spine_mm


@functools.cache
def named_sizes() -> dict[str, NamedSize]:
    """Every size by each of its names in lower case."""
    table = tomllib.loads(Path(__file__).with_name("sizes.toml").read_text("utf-8"))
    return {name.lower(): _size(entry) for entry in table["size"] for name in entry["names"]}


def _size(entry: dict[str, Any]) -> NamedSize:
    width_mm, height_mm = entry["mm"]
    return NamedSize(entry["names"][0], width_mm, height_mm, entry.get("unit", "mm"), entry["source"])


def named_size(name: str) -> NamedSize | None:
    """The size of that name, whatever its capitals; None where there is none."""
    return named_sizes().get(" ".join(name.lower().replace("-", " ").split())) or named_sizes().get(
        name.lower()
    )


def nearest_size(name: str) -> str:
    """The known name nearest to `name`.

    >>> nearest_size("B-5")
    'B5'
    """
    close = get_close_matches(name.lower(), list(named_sizes()), n=1, cutoff=0.4)
    return named_sizes()[close[0]].name if close else "A5"
