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
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from importlib.resources import files
from typing import Any

from .words import Word

Meaning = Callable[..., Any]
#: A reading: where it ends, what it costs, what it stands for.
Found = tuple[int, float, Any]
#: A production read in part: where it stands, what its elements cost, what it keeps.
Partial = tuple[int, tuple[float, ...], tuple[tuple[str, Any], ...]]


@dataclass(frozen=True, slots=True)
class Element:
    """One place of a pattern: the kinds of words and the productions that may stand there. Elements of one `choice`
    allow the same."""

    kinds: tuple[str, ...]
    names: tuple[str, ...]
    keep: str
    optional: bool
    choice: int


@dataclass(frozen=True, slots=True)
class Production:
    """A line of the page. `beginnings` numbers its first element, its first two and so on: productions that begin
    alike have the same numbers so far."""

    name: str
    cost: float
    elements: tuple[Element, ...]
    meaning: str
    line: int
    beginnings: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Grammar:
    """The productions by name, and for each the kinds of words that it may begin with; `allowed` is what has been
    worked out so far of the productions that may begin at a word, for each set of kinds that a word had."""

    productions: Mapping[str, tuple[Production, ...]]
    first: Mapping[tuple[str, int], frozenset[str]]
    allowed: dict[frozenset[str], dict[str, tuple[Production, ...]]] = field(default_factory=dict, compare=False)

    def allowed_by(self, kinds: Iterable[str]) -> dict[str, tuple[Production, ...]]:
        """The table of the productions that may begin at a word of these kinds, filled as they are asked for."""
        return self.allowed.setdefault(frozenset(kinds), {})

    def beginning(self, name: str, kinds: Iterable[str]) -> tuple[Production, ...]:
        """The productions of a name that may begin at a word of these kinds."""
        alive = frozenset(kinds)
        all_ = self.productions[name]
        return tuple(p for n, p in enumerate(all_) if not self.first[name, n].isdisjoint(alive))


def _element(text: str, choices: dict[object, int]) -> Element:
    keep, _, what = text.rpartition("=")
    optional = what.endswith("?")
    allowed = what.rstrip("?").split("/")
    kinds = tuple(c for c in allowed if c.isupper())
    names = tuple(c for c in allowed if not c.isupper())
    return Element(kinds, names, keep, optional, choices.setdefault((kinds, names), len(choices)))


def parse_page(page: str) -> Grammar:
    """The grammar of a page."""
    by_name: dict[str, list[Production]] = {}
    choices: dict[object, int] = {}
    starts: dict[object, int] = {}
    for number, line in enumerate(page.split("\n"), 1):
        if not line.strip() or line.startswith("#"):
            continue
        name, cost, pattern, meaning = (part.strip() for part in line.split("|"))
        elements = tuple(_element(text, choices) for text in pattern.split())
        begun = tuple(starts.setdefault(elements[: n + 1], len(starts)) for n in range(len(elements)))
        production = Production(name, float(cost), elements, meaning, number, begun)
        by_name.setdefault(name, []).append(production)
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
        self.known: list[dict[str, tuple[Found, ...]]] = [{} for _ in words]
        self.allowed = [rules.allowed_by(word.kinds) for word in words]
        self.options: list[dict[int, tuple[Found, ...]]] = [{} for _ in words]
        self.under_way = [0] * len(words)

    def read(self, name: str, at: int) -> tuple[Found, ...]:
        """Every end that the production `name` can have from word `at`, the cheapest reading of each."""
        if at >= len(self.words):
            return ()
        known = self.known[at]
        found = known.get(name)
        if found is None:
            productions = self.allowed[at].get(name)
            if productions is None:
                productions = self.allowed[at][name] = self.rules.beginning(name, self.words[at].kinds)
            known[name] = ()
            if productions:
                self.under_way[at] += 1
                known[name] = self._read(productions, at)
                self.under_way[at] -= 1
            found = known[name]
        return found

    def _read(self, productions: tuple[Production, ...], at: int) -> tuple[Found, ...]:
        best: dict[int, Found] = {}
        begun: dict[int, list[Partial]] = {}
        for production in productions:
            meaning = self.meanings[production.meaning]
            for end, extras, kept in self._match(production, at, begun):
                cost = sum(extras, production.cost)
                if end in best and best[end][1] <= cost:
                    continue
                value = meaning(**dict(kept))
                if value is not None:
                    best[end] = (end, cost, value)
        return tuple(best.values())

    def _match(self, production: Production, at: int, begun: dict[int, list[Partial]]) -> list[Partial]:
        """Every way the elements of a production can follow each other from word `at`, in the order of their choices.

        What productions of one name begin with alike is gone over once: `begun` keeps it by the beginning's number.
        """
        ways: list[Partial] = [(at, (), ())]
        for element, number in zip(production.elements, production.beginnings, strict=True):
            known = begun.get(number)
            if known is None:
                known = begun[number] = self._further(element, ways)
            if not known:
                return known
            ways = known
        return ways

    def _further(self, element: Element, ways: list[Partial]) -> list[Partial]:
        """The ways so far, each taken on by every choice of one more element."""
        out: list[Partial] = []
        keep, size = element.keep, len(self.words)
        for way in ways:
            at, extras, kept = way
            if at < size:
                options = self.options[at].get(element.choice)
                if options is None:
                    options = self._options(element, at)
                for end, extra, value in options:
                    out.append(
                        (end, (*extras, extra) if extra else extras, (*kept, (keep, value)) if keep else kept)
                    )
            if element.optional:
                out.append(way)
        return out

    def _options(self, element: Element, at: int) -> tuple[Found, ...]:
        """What may stand for an element at word `at`; kept unless a reading from there is still under way."""
        kinds = self.words[at].kinds
        out = [(end, 0.0, value) for kind in element.kinds for end, value in kinds.get(kind, ())]
        for name in element.names:
            out += self.read(name, at)
        found = tuple(out)
        if not self.under_way[at]:
            self.options[at][element.choice] = found
        return found
