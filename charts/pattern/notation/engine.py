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
from dataclasses import field
from pathlib import Path
from typing import Any, NamedTuple

from ...made_late import dataclass
from .words import Word

Meaning = Callable[..., Any]
#: A reading: where it ends, what it costs, what it stands for.
Found = tuple[int, float, Any]
#: A step that may be taken at a word: it, what it lacks, whether the word may stand for it, and the productions that are
#: complete if it is left out there.
Open = tuple["Step", int, bool, list[tuple[int, "Production"]]]
#: A production read to its end: its place, itself, where it ends, what its elements cost, what it keeps.
Way = tuple[int, "Production", int, tuple[float, ...], tuple[tuple[str, Any], ...]]


class Element(NamedTuple):
    """One place of a pattern: the kinds of words and the productions that may stand there. Elements of one `choice`
    allow the same."""

    kinds: tuple[str, ...]
    names: tuple[str, ...]
    keep: str
    optional: bool
    choice: int


class Production(NamedTuple):
    """A line of the page."""

    name: str
    cost: float
    elements: tuple[Element, ...]
    meaning: str
    line: int


class Step:
    """An element with what may follow it, in a tree of the productions of one name: those that begin alike share their
    first steps. `first` is what kinds of words it may begin with; `ends` are the productions that are complete here,
    by their place among those of the name; `open_at` is what has been worked out of `further` for each set of kinds.
    `lacking` has the kinds of words of which one must still come. `further`, `ends` and `lacking` are found when they are
    first asked for, as a short text comes by few steps: of the productions `led_through` here, `depth` elements have been
    taken, and `known` tells of an element what it may begin with and what it needs."""

    __slots__ = ("depth", "element", "ends", "first", "further", "known", "lacking", "led_through", "open_at")
    further: list[Step]
    ends: list[tuple[int, Production]]
    lacking: int

    def __init__(self, element: Element, depth: int, known: _Trees) -> None:
        self.element, self.depth, self.known = element, depth, known
        self.first = known.begins(element)
        self.led_through: list[tuple[int, Production]] = []
        self.open_at: dict[int, tuple[Open, ...]] = {}

    def __getattr__(self, name: str) -> Any:
        """`further` and `ends`, of which neither is there yet, or `lacking`. Elements that are alike are one object."""
        if name == "lacking":
            self.lacking = self.known.lacking([production for _, production in self.led_through], self.depth)
            return self.lacking
        if name not in ("further", "ends"):
            raise AttributeError(name)
        steps: dict[int, Step] = {}
        self.ends = []
        for place in self.led_through:
            elements = place[1].elements
            if len(elements) == self.depth:
                self.ends.append(place)
                continue
            element = elements[self.depth]
            step = steps.get(id(element))
            if step is None:
                step = steps[id(element)] = Step(element, self.depth + 1, self.known)
            step.led_through.append(place)
        self.further = list(steps.values())
        return getattr(self, name)

    def open_to(self, number: int, kinds: frozenset[str]) -> tuple[Open, ...]:
        """The steps that may be taken next at a word of these kinds, whose set has this number, and behind each that may
        be left out there those that may be taken next without it."""
        found = self.open_at.get(number)
        if found is None:
            out: list[Open] = []
            for step in self.further:
                stands = not step.first.isdisjoint(kinds)
                left_out = step.element.optional and step.may_go_on(kinds)
                if stands or left_out:
                    out.append((step, step.lacking, stands, step.ends if left_out else []))
                if left_out and step.further:
                    out += step.open_to(number, kinds)
            found = self.open_at[number] = tuple(out)
        return found

    def may_go_on(self, kinds: frozenset[str]) -> bool:
        """Whether a production is complete behind this step, or a word of these kinds may stand for what follows."""
        return bool(self.ends) or any(
            not s.first.isdisjoint(kinds) or (s.element.optional and s.may_go_on(kinds)) for s in self.further
        )


@dataclass(frozen=True, slots=True)
class Grammar:
    """The productions by name, the kinds of words that those of a name may begin with, and the tree of their steps;
    `sets` numbers the sets of kinds that words had so far, and `masks` has each of them as bits."""

    productions: Mapping[str, tuple[Production, ...]]
    first: Mapping[str, frozenset[str]]
    trees: _Trees
    sets: dict[frozenset[str], int] = field(default_factory=dict, compare=False)
    masks: list[int] = field(default_factory=list, compare=False)

    def number(self, kinds: frozenset[str]) -> int:
        """The number of a set of kinds."""
        found = self.sets.get(kinds)
        if found is None:
            found = self.sets[kinds] = len(self.masks)
            self.masks.append(self.trees.mask(kinds))
        return found


#: A name is read inside itself so often at most: a list of more stitches is read as several, since reading goes on inside
#: itself for each of them.
MOST_INSIDE = 60
#: The bit of what needs no further word; all words have it.
NOTHING_LACKING = 1
#: More kinds than any element stands for.
_MANY = 10_000
_NOTHING = Element((), (), "", False, -1)


class _Elements(dict[str, Element]):
    """The elements of a page by how they are written, each one object."""

    def __init__(self) -> None:
        super().__init__()
        self._choices: dict[object, int] = {}

    def __missing__(self, text: str) -> Element:
        keep, _, what = text.rpartition("=")
        allowed = what.rstrip("?").split("/")
        kinds = tuple([c for c in allowed if c.isupper()])
        names = tuple([c for c in allowed if not c.isupper()]) if len(kinds) < len(allowed) else ()
        choice = self._choices.setdefault((kinds, names), len(self._choices))
        found = self[text] = Element(kinds, names, keep, what.endswith("?"), choice)
        return found


def parse_page(page: str) -> Grammar:
    """The grammar of a page."""
    by_name: dict[str, list[Production]] = {}
    element = _Elements().__getitem__
    for number, line in enumerate(page.split("\n"), 1):
        if not line or line[0] == "#" or line.isspace():
            continue
        name, cost, pattern, meaning = line.split("|")
        name = name.strip()
        production = Production(name, float(cost), tuple(map(element, pattern.split())), meaning.strip(), number)
        if name in by_name:
            by_name[name].append(production)
        else:
            by_name[name] = [production]
    productions = {name: tuple(all_) for name, all_ in by_name.items()}
    by_name_first = _first_by_name(productions)
    first = {name: frozenset(kinds) for name, kinds in by_name_first.items()}
    return Grammar(productions, first, _Trees(productions, by_name_first))


class _Trees(dict[str, Step]):
    """The tree of each name, grown when a row first asks for it: a short text comes by a few names."""

    def __init__(self, productions: Mapping[str, tuple[Production, ...]], first: Mapping[str, set[str]]) -> None:
        super().__init__()
        self._productions, self._first = productions, first
        self._begun: dict[int, frozenset[str]] = {}
        self._bits: dict[str, int] = {}
        self._needed: dict[str, int] = {}
        self._wanted: dict[int, int] = {}
        self._under_way = 0

    def __missing__(self, name: str) -> Step:
        found = self[name] = self._tree(self._productions[name])
        return found

    def _tree(self, productions: Sequence[Production]) -> Step:
        """The productions of one name as a tree; its root takes nothing."""
        root = Step(_NOTHING, 0, self)
        root.led_through = list(enumerate(productions))
        return root

    def begins(self, element: Element) -> frozenset[str]:
        """The kinds of words that an element may begin with, which it is asked for wherever it stands."""
        if id(element) not in self._begun:
            self._begun[id(element)] = frozenset(element.kinds).union(*(self._first[name] for name in element.names))
        return self._begun[id(element)]

    def mask(self, kinds: Iterable[str]) -> int:
        """Kinds as bits, each one of its own."""
        out = 0
        for kind in kinds:
            out |= self._bits.setdefault(kind, NOTHING_LACKING << (1 + len(self._bits)))
        return out

    def lacking(self, productions: Sequence[Production], depth: int) -> int:
        """Kinds, as bits, of which words must hold one if any of these productions, of which so many elements have been
        taken, is to be complete: of each production the one thing it needs that fewest kinds stand for. Where one of them
        needs nothing more, the bit that all words have."""
        out = 0
        for production in productions:
            least, fewest = NOTHING_LACKING, _MANY
            for element in production.elements[depth:]:
                if not element.optional:
                    needs = self._needs(element)
                    many = _MANY if needs & NOTHING_LACKING else needs.bit_count()
                    if many < _MANY and many <= fewest:  # the later of two: what comes first is looked at anyway
                        least, fewest = needs, many
            if least == NOTHING_LACKING:
                return least
            out |= least
        return out

    def _needs(self, element: Element) -> int:
        """The kinds of which one must come where an element stands."""
        found = self._wanted.get(id(element))
        if found is not None:
            return found
        out, settled = self.mask(element.kinds), True
        for name in element.names:
            if name not in self._needed:
                self._needed[name] = NOTHING_LACKING  # for the while, of what a name holds of itself
                self._under_way += 1
                self._needed[name] = self.lacking(self._productions[name], 0)
                self._under_way -= 1
            settled = settled and not self._under_way
            out |= self._needed[name]
        if settled:
            self._wanted[id(element)] = out
        return out


def _first_by_name(productions: Mapping[str, Sequence[Production]]) -> dict[str, set[str]]:
    """The kinds of words that each name may begin with."""
    by_name, led_by = {}, {}
    for name, all_ in productions.items():
        leading = {id(element): element for production in all_ for element in _leading(production)}.values()
        by_name[name] = {kind for element in leading for kind in element.kinds}
        led_by[name] = {name for element in leading for name in element.names}
    changed = True
    while changed:
        changed = False
        for name, kinds in by_name.items():
            more = set().union(*(by_name[other] for other in led_by[name])) - kinds
            kinds |= more
            changed = changed or bool(more)
    return by_name


def _leading(production: Production) -> tuple[Element, ...]:
    """The elements that a production may begin with: those that may be left out, and the first that may not."""
    for at, element in enumerate(production.elements):
        if not element.optional:
            return production.elements[: at + 1]
    return production.elements


@functools.cache
def grammar() -> Grammar:
    """The grammar of rows."""
    return parse_page(Path(__file__).with_name("grammar.txt").read_text("utf-8"))


class Chart:
    """What has been read of one row of words."""

    def __init__(self, rules: Grammar, words: Sequence[Word], meanings: Mapping[str, Meaning]) -> None:
        self.rules, self.words, self.meanings = rules, words, meanings
        self.known: list[dict[str, tuple[Found, ...]]] = [{} for _ in words]
        self.kinds = [frozenset(word.kinds) for word in words] + [frozenset()]
        self.sets = [rules.number(kinds) for kinds in self.kinds]
        #: The kinds of all words from one on, as bits.
        self.ahead = [NOTHING_LACKING] * (len(words) + 2)
        for at in reversed(range(len(words))):
            self.ahead[at] = self.ahead[at + 1] | rules.masks[self.sets[at]]
        self.options: list[dict[int, tuple[Found, ...]]] = [{} for _ in self.kinds]
        self.under_way: list[list[str]] = [[] for _ in words]
        #: How often each name is under way, here or at a word before.
        self.inside: dict[str, int] = {}

    def read(self, name: str, at: int) -> tuple[Found, ...]:
        """Every end that the production `name` can have from word `at`, the cheapest reading of each."""
        if at >= len(self.words):
            return ()
        known = self.known[at]
        found = known.get(name)
        if found is None:
            often = self.inside.get(name, 0)
            if often >= MOST_INSIDE:
                return ()
            found = known[name] = ()
            root = self.rules.trees[name]
            open_to = root.open_to(self.sets[at], self.kinds[at]) if root.lacking & self.ahead[at] else ()
            if open_to:
                self.under_way[at].append(name)
                self.inside[name] = often + 1
                found = known[name] = self._read(open_to, at)
                self.inside[name] = often
                self.under_way[at].pop()
        return found

    def _read(self, open_to: tuple[Open, ...], at: int) -> tuple[Found, ...]:
        ways: list[Way] = []
        self._walk(open_to, at, (), (), ways)
        if len(ways) > 1:
            ways.sort(key=_production_of)
        best: dict[int, Found] = {}
        for _, production, end, extras, kept in ways:
            cost = sum(extras, production.cost)
            if end in best and best[end][1] <= cost:
                continue
            value = self.meanings[production.meaning](**dict(kept))
            if value is not None:
                best[end] = (end, cost, value)
        return tuple(best.values())

    def _walk(
        self, open_to: tuple[Open, ...], at: int, extras: tuple[float, ...], kept: tuple[tuple[str, Any], ...],
        ways: list[Way],
    ) -> None:  # fmt: skip
        """Every way on by the steps open at word `at`, in the order of the choices: to `ways`."""
        known = self.options[at]
        sets, ahead = self.sets, self.ahead
        here = ahead[at + 1]
        for further, lacking, stands, left_out in open_to:
            if stands and lacking & here:
                element = further.element
                options = known.get(element.choice)
                if options is None:
                    options = self._options(element, at)
                keep, ends, open_at, behind = element.keep, further.ends, further.open_at, further.further
                for end, extra, value in options:
                    # Most ways end here, so what is open is asked before anything is carried on.
                    beyond: tuple[Open, ...] | None = ()
                    if behind and lacking & ahead[end]:
                        beyond = open_at.get(sets[end])
                        if beyond is None:
                            beyond = further.open_to(sets[end], self.kinds[end])
                    if ends or beyond:
                        cost = (*extras, extra) if extra else extras
                        keeps = (*kept, (keep, value)) if keep else kept
                        for number, production in ends:
                            ways.append((number, production, end, cost, keeps))
                        if beyond:
                            self._walk(beyond, end, cost, keeps, ways)
            for number, production in left_out:
                ways.append((number, production, at, extras, kept))

    def _options(self, element: Element, at: int) -> tuple[Found, ...]:
        """What may stand for an element at word `at`; kept unless one of its readings from there is still under way, or was
        refused for now."""
        kinds, size = self.words[at].kinds, len(self.words)  # of words cut off behind, an arc may reach past the last
        out = [(end, 0.0, value) for kind in element.kinds for end, value in kinds.get(kind, ()) if end <= size]
        for name in element.names:
            out += self.read(name, at)
        found = tuple(out)
        if not any(name in self.under_way[at] or self.inside.get(name, 0) >= MOST_INSIDE for name in element.names):
            self.options[at][element.choice] = found
        return found


def _production_of(way: Way) -> int:
    return way[0]
