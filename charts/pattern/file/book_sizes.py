"""Named sizes of books, paper and heads, read from sizes.toml with their sources."""

from __future__ import annotations

import functools
import tomllib
from difflib import get_close_matches
from pathlib import Path
from typing import Any

from ...made_late import dataclass


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


#: A hat is as high as so much of the way round the head: the usual rule (hookthatyarn.wordpress.com, How to size a
#: hat; thecountrywillows.com, hat sizing: both 4/10).
HAT_HEIGHT = 0.4


@dataclass(frozen=True, slots=True)
class HeadSize:
    """A head: the way round it, and how high a hat for it is."""

    name: str
    around_mm: float
    height_mm: float
    source: str


@functools.cache
def head_sizes() -> dict[str, HeadSize]:
    """Every size of head by each of its names in lower case.

    >>> round(head_sizes()["child"].around_mm), round(head_sizes()["child"].height_mm)
    (503, 201)
    """
    table = tomllib.loads(Path(__file__).with_name("sizes.toml").read_text("utf-8"))
    made = [(entry, 10.0 * entry["cm"]) for entry in table["head"]]
    return {
        name.lower(): HeadSize(entry["names"][0], around_mm, around_mm * HAT_HEIGHT, entry["source"])
        for entry, around_mm in made for name in entry["names"]
    }  # fmt: skip


def head_size(name: str) -> HeadSize | None:
    """The head of that name, whatever its capitals and an s at its end; None where there is none."""
    low = " ".join(name.lower().split())
    return head_sizes().get(low) or head_sizes().get(low.removesuffix("'s").removesuffix("s"))


def nearest_size(name: str) -> str:
    """The known name nearest to `name`.

    >>> nearest_size("B-5")
    'B5'
    """
    every = {low: size.name for low, size in named_sizes().items()}
    every |= {low: head.name for low, head in head_sizes().items()}
    close = get_close_matches(name.lower(), list(every), n=1, cutoff=0.4)
    return every[close[0]] if close else "A5"
