"""The grammar at work: every way to read a stretch of words as what a production says, the cheapest for each end.

The page `grammar.txt` holds the productions, one a line:

    name | cost | pattern | meaning

A pattern is a row of elements. A word in capitals is a kind of word (`words.txt`), in small letters another
production; `x=` keeps what an element stands for under a name; `?` behind it: it may be missing; `A/B`: either. What
the production stands for is what the function called by its meaning makes of the kept values; None refuses the
reading. Productions are looked at only where their first word can stand, and every name is read once at each word.
"""

from __future__ import annotations

import functools
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from importlib.resources import files
from typing import Any

from .words import Word

Meaning = Callable[..., Any]
#: A reading: where it ends, what it costs, what it stands for.
Found = tuple[int, float, Any]


@dataclass(frozen=True, slots=True)
class Element:
    """One place of a pattern: the kinds of words and the productions that may stand there."""

    kinds: tuple[str, ...]
    names: tuple[str, ...]
    keep: str
    optional: bool


@dataclass(frozen=True, slots=True)
class Production:
    name: str
    cost: float
    elements: tuple[Element, ...]
    meaning: str
    line: int


@dataclass(frozen=True, slots=True)
class Grammar:
    """The productions by name, and for each the kinds of words that it may begin with."""

    productions: Mapping[str, tuple[Production, ...]]
    first: Mapping[tuple[str, int], frozenset[str]]


def _element(text: str) -> Element:
    keep, _, what = text.rpartition("=")
    optional = what.endswith("?")
    choices = what.rstrip("?").split("/")
    kinds = tuple(c for c in choices if c.isupper())
    return Element(kinds, tuple(c for c in choices if not c.isupper()), keep, optional)


def parse_page(page: str) -> Grammar:
    """The grammar of a page."""
    by_name: dict[str, list[Production]] = {}
    for number, line in enumerate(page.split("\n"), 1):
        if not line.strip() or line.startswith("#"):
            continue
        name, cost, pattern, meaning = (part.strip() for part in line.split("|"))
        elements = tuple(map(_element, pattern.split()))
        by_name.setdefault(name, []).append(Production(name, float(cost), elements, meaning, number))
    productions = {name: tuple(all_) for name, all_ in by_name.items()}
    return Grammar(productions, _first_sets(productions))


def _first_sets(productions: Mapping[str, Sequence[Production]]) -> dict[tuple[str, int], frozenset[str]]:
    by_name: dict[str, set[str]] = {name: set() for name in productions}
    changed = True
    while changed:
        changed = False
        for name, all_ in productions.items():
            for production in all_:
                more = _begins(production, by_name) - by_name[name]
                if more:
                    by_name[name] |= more
                    changed = True
    return {
        (name, at): frozenset(_begins(production, by_name))
        for name, all_ in productions.items()
        for at, production in enumerate(all_)
    }


def _begins(production: Production, by_name: Mapping[str, set[str]]) -> set[str]:
    out: set[str] = set()
    for element in production.elements:
        out |= set(element.kinds)
        for name in element.names:
            out |= by_name[name]
        if not element.optional:
            break
    return out


@functools.cache
def grammar() -> Grammar:
    """The grammar of rows."""
    return parse_page(files(__package__).joinpath("grammar.txt").read_text("utf-8"))


class Chart:
    """What has been read of one row of words."""

    def __init__(self, rules: Grammar, words: Sequence[Word], meanings: Mapping[str, Meaning]) -> None:
        self.rules, self.words, self.meanings = rules, words, meanings
        self.known: dict[tuple[str, int], tuple[Found, ...]] = {}
        self.steps = 0

    def read(self, name: str, at: int) -> tuple[Found, ...]:
        """Every end that the production `name` can have from word `at`, the cheapest reading of each."""
        key = (name, at)
        found = self.known.get(key)
        if found is None:
            self.known[key] = ()
            found = self.known[key] = tuple(self._read(name, at))
        return found

    def _read(self, name: str, at: int) -> Iterator[Found]:
        if at >= len(self.words):
            return iter(())
        kinds = self.words[at].kinds
        best: dict[int, Found] = {}
        for number, production in enumerate(self.rules.productions[name]):
            if self.rules.first[name, number].isdisjoint(kinds):
                continue
            meaning = self.meanings[production.meaning]
            for end, cost, kept in self._match(production.elements, 0, at, production.cost, ()):
                if end in best and best[end][1] <= cost:
                    continue
                value = meaning(**dict(kept))
                if value is not None:
                    best[end] = (end, cost, value)
        return iter(best.values())

    def _match(
        self, elements: tuple[Element, ...], number: int, at: int, cost: float, kept: tuple[tuple[str, Any], ...]
    ) -> Iterator[tuple[int, float, tuple[tuple[str, Any], ...]]]:
        self.steps += 1
        if number == len(elements):
            yield at, cost, kept
            return
        element = elements[number]
        if at < len(self.words):
            kinds = self.words[at].kinds
            for kind in element.kinds:
                for end, value in kinds.get(kind, ()):
                    more = (*kept, (element.keep, value)) if element.keep else kept
                    yield from self._match(elements, number + 1, end, cost, more)
            for name in element.names:
                for end, extra, value in self.read(name, at):
                    more = (*kept, (element.keep, value)) if element.keep else kept
                    yield from self._match(elements, number + 1, end, cost + extra, more)
        if element.optional:
            yield from self._match(elements, number + 1, at, cost, kept)
