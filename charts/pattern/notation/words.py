"""The words of a row as a lattice: at every word, what kinds of things may begin there and where they end.

`words.txt` says which spellings are of which kind; the stitches come from the stitch names of the text's terms and from
the pattern's own definitions. A spelling of several words stands beside its single words, so that nothing is decided
before the grammar asks.
"""

from __future__ import annotations

import functools
import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import field
from itertools import pairwise
from pathlib import Path
from types import MappingProxyType
from typing import Any

from ...made_late import dataclass
from .. import lexicon
from ..when_used import when_used
from .plain import plain

#: One way on from a word: the index of the word behind it, and what it stands for.
Arc = tuple[int, Any]


@dataclass(slots=True)
class Word:
    """A word, a number, a sign, or a bracket with what is in it."""

    text: str
    start: int
    end: int
    kinds: dict[str, list[Arc]] = field(default_factory=dict)
    inside: Any = None
    begins_line: bool = False

    @property
    def is_sign(self) -> bool:
        return not self.text[:1].isalnum()


@functools.cache
def vocabulary() -> MappingProxyType[str, tuple[tuple[str, str], ...]]:
    """Every spelling with its kinds and values, from the page of words."""
    out: dict[str, list[tuple[str, str]]] = {}
    page = Path(__file__).with_name("words.txt").read_text("utf-8")
    for line in page.split("\n"):
        if not line.strip() or line.startswith("#"):
            continue
        kind, _, spellings = line.partition(":")
        kind = kind.strip()
        for form in spellings.split(","):
            spelled, _, value = form.strip().partition("|")
            entry = (kind, value or spelled)
            for written in (spelled, spelled.replace("n't", "nt")) if "n't" in spelled else (spelled,):
                if written not in out:
                    out[written] = [entry]
                elif entry not in out[written]:
                    out[written].append(entry)
    return MappingProxyType({spelled: tuple(kinds) for spelled, kinds in out.items()})


Trie = dict[str, Any]
_HERE = ""


def add_to(trie: Trie, spelled: str, entries: Sequence[tuple[str, Any]]) -> None:
    """Put a spelling into a trie of words."""
    node = trie
    for word in split(spelled):
        node = node.setdefault(word, {})
    node.setdefault(_HERE, []).extend(entries)


class _Root(Trie):
    """A trie that takes up the spellings that begin with a word when that word is first looked up: a text uses few."""

    def __init__(self) -> None:
        super().__init__()
        self._waiting: dict[str, list[tuple[str, Sequence[tuple[str, Any]]]]] = {}

    def add(self, spellings: Iterable[tuple[str, Sequence[tuple[str, Any]]]]) -> None:
        """Keep spellings for later, where it is plain what their first word is."""
        waiting = self._waiting
        for one in spellings:
            spelled = one[0]
            first, _, rest = spelled.partition(" ")
            if not (first.isalpha() and (not rest or rest[0].islower()) and "rep" not in first and first.islower() and spelled.isascii()):
                found = _PLAINLY_BEGUN.match(spelled)
                if not found:
                    add_to(self, *one)
                    continue
                first = found[1]
            if first in waiting:
                waiting[first].append(one)
            else:
                waiting[first] = [one]

    def get(self, word: str, default: Any = None) -> Any:
        for spelled, entries in self._waiting.pop(word, ()):
            add_to(self, spelled, entries)
        return super().get(word, default)

    def __iter__(self) -> Iterator[str]:
        for word in list(self._waiting):
            self.get(word)
        return super().__iter__()


#: A spelling whose first word is plain (`_PIECES` takes it as one) and has no number behind it.
_PLAINLY_BEGUN = re.compile(r"(?!\S*rep|w/)([a-z]+(?:'[a-z]+)?(?:[-/][a-z]+)*)(?:\.? (?:[a-z].*|[^0-9]*))?\Z")


def _keys(trie: Trie) -> set[str]:
    """The words of all spellings in a trie."""
    out = {word for word in trie if word != _HERE}
    return out.union(*(_keys(trie[word]) for word in out))


@functools.cache
def _common() -> Trie:
    trie = _Root()
    trie.add(vocabulary().items())
    return trie


_SPACE = r"(?:sps?|spaces?|spots?|lps?|loops?|arch(?:es)?)"
_PIECES = when_used(
    rf"""(?P<chsp>(?:ch(?:ain)?[-\ ]?(?P<s1>\d{{1,4}})|(?P<s2>\d{{1,4}})-?ch(?:ain)?)(?:[-\ ]|\s*\n\s*)?(?P<w1>{_SPACE})(?![a-z0-9]))
    |(?P<chspb>(?P<s2b>\d{{1,4}})\ ch(?:ain)?[-\ ]{{0,2}}(?P<w1b>sp|space|lp|loop|arch)(?![a-z0-9]))
    |(?P<chref>(?:ch(?:ain)?-|(?:(?<=of\ )|(?<=the\ ))ch-\ )(?P<s3>\d{{1,4}})(?![a-z0-9]))
    |(?P<measure>\d+(?:[.,/]\d+)?(?:\ \d/\d)?\s?(?:mm|cm|inch(?:es)?|yards?|yds?|grams?|meters?|metres?|"|''|oz)(?![a-z0-9]))
    |(?P<tog>\d{{0,3}}(?P<t1>(?:fp|bp)?(?:{lexicon.ANY_PLAIN}))[-\ ]?(?P<t2>\d{{1,2}})[-\ ]?(?:tog(?:ether)?|t)(?![a-z0-9]))
    |(?P<ntog>(?P<t3>[2-9])[-\ ]?(?P<t4>(?:fp|bp)?(?:{lexicon.ANY_PLAIN}))[-\ ]?tog(?:ether)?(?![a-z0-9]))
    |(?P<grp>(?P<s4>\d{{1,3}})(?:-|(?=(?:[hsd]?dc|sc|h?tr|dtr)\ (?:groups?|grps?)(?![a-z])))(?P<k4>(?:[sd]|h\ ?d|d?\ ?tr)\ c(?![a-z])|(?!inc|dec|(?:sts|stitches|chs|chains)(?![a-z]))[a-z]+)(?![a-z0-9-]))
    |(?P<ord>(?:\d{{1,4}}\ ?(?:nd|rd|th)|\d{{0,2}}[23]d|(?:\d{{0,2}}[02-9])?1st|(?:\d{{0,2}}[02-9])?1\ st(?=\ (?:sts?|stitch|sc|h?dc|h?tr|ch|sp|loop)\b))(?![a-z0-9]))
    |(?P<num>\d+)(?:-(?=(?:sts|stitches|chs|chains)(?![a-z])))?
    |(?P<x>(?<=\d)x(?=\d|(?:sc|hdc|dc|htr|tr|dtr|inc|dec|ch)(?![a-z])))
    |(?P<word>rep(?:eat)?(?=from(?![a-z]))|w/(?!o(?![a-z]))|[a-z]+(?:'[a-z]+)?(?:[-/][a-z]+)*)
    |(?P<dstar>\*\*+)|(?P<dots>\.\.\.+)
    |(?P<sign>[^\s])""",
    re.VERBOSE | re.ASCII,
)


@functools.lru_cache(maxsize=4096)
def split(spelled: str) -> tuple[str, ...]:
    """The words of a spelling as `read` would part them.

    >>> split("front post dc"), split("2 tog"), split("ch-3 sp")
    (('front', 'post', 'dc'), ('2', 'tog'), ('ch-3 sp',))
    """
    if spelled.isascii() and "rep" not in spelled and spelled.replace(" ", "").isalpha():
        return tuple(spelled.split())  # plain words, as most are, need no looking into
    return tuple(m[0] for m in _PIECES.finditer(spelled))


@functools.lru_cache(maxsize=32)
def _stitches(terms: str) -> Trie:
    trie = _Root()
    for spelled, name in lexicon.long_names(terms).items():
        named = [("STN", name)]
        trie.add((form, named) for form in (spelled, spelled + "s", spelled.replace(" crochet", " crochets")))
    for base, us in lexicon.spelled_bases(terms).items():
        trie.add((form, [("STN", name)]) for form, name in lexicon.spelled_forms(base, us, terms))
    return trie


@functools.lru_cache(maxsize=32)
def _known(terms: str) -> frozenset[str]:
    """Every single word that some spelling holds, of those that all patterns in these terms have."""
    return frozenset(_keys(_common()) | _keys(_stitches(terms)))


#: Nouns that a hyphen joins to the name of a stitch.
_JOINED_ON = frozenset(("group", "groups", "grp", "grps", "shell", "shells", "cluster", "clusters", "cl", "cls", "st", "sts", "stitch", "stitches", "sp", "sps", "space", "spaces"))
#: What a sign joins to the word behind it, and that word: "sk-next", "slst/ch 1", "st/ch-sp".
_MOVES = {"-": frozenset(("sk", "skip", "miss", "work")), "/": frozenset(("st", "sts", "stitch", "slst", "ss", "join", "sp", "sps"))}
_MOVED_TO = {
    "-": frozenset(("next", "each", "first", "last", "st", "sts", "ch", "sc", "dc", "hdc", "tr")),
    "/": frozenset(("ch", "ch-sp", "ch-sps", "chsp", "chsps", "sp", "sps", "space", "spaces", "st", "sts", "turn", "chain")),
}
#: Nouns, the longer before what it begins with, and what was set onto them without a space: "chscount", "stsacross".
_RUN_TOGETHER = ("chs", "ch", "sts", "st", "sps", "sp", "hdc", "sc", "dc", "tr")
_BEHIND = frozenset(("count", "counts", "across", "around", "from", "in", "into", "each", "next", "made", "turn", "remain", "left", "together"))
#: Words of rows that are often set onto each other ("allaround", "inthe", "skipnext", "fromhook"); the second kind only behind.
_SET_ON = frozenset(
    ("all", "and", "around", "across", "at", "chain", "each", "first", "from", "in", "into", "join", "last", "make", "next", "of", "on",
     "repeat", "same", "skip", "the", "then", "to", "turn", "until", "with", "work")
)  # fmt: skip
_SET_ON_BEHIND = _SET_ON | {"st", "sts", "ch", "chs", "sp", "sps", "stitch", "stitches", "space", "spaces", "loop", "loops", "hook", "ring", "row", "round", "rnd", "twice", "times"}
_NO_TWO_WORDS = frozenset(("inch", "atall"))
SHORTEST_SET_ON = 5


def set_on(text: str) -> tuple[str, ...]:
    """The words that were set as one, where they can be parted in one way; empty where they cannot.

    >>> set_on("allaround"), set_on("intheround"), set_on("string"), set_on("inch")
    (('all', 'around'), ('in', 'the', 'round'), (), ())
    """
    ways = _ways_apart(text) if len(text) >= SHORTEST_SET_ON and text not in _NO_TWO_WORDS else []
    return ways[0] if len(ways) == 1 and len(ways[0]) > 1 else ()


def _ways_apart(text: str) -> list[tuple[str, ...]]:
    whole: list[tuple[str, ...]] = [(text,)] if text in _SET_ON_BEHIND else []
    parted = (((text[:cut], *rest)) for cut in range(2, len(text) - 1) if text[:cut] in _SET_ON for rest in _ways_apart(text[cut:]))
    return whole or list(parted)


#: "Ch 1+ 2 sc": the number before belongs to the chains.
_OF_CHAINS = frozenset(("ch", "chain", "chs", "chains"))
#: Small words that a slip of the pen says twice: "repeat to to end".
_SAID_TWICE = frozenset(("to", "the", "in", "into", "of", "and", "from", "next", "each", "with", "around", "across", "top", "first", "st", "sts", "skip", "sk", "turn"))


@functools.lru_cache(maxsize=4096)
def _letters_mean(text: str, terms: str) -> tuple[tuple[str, Any], ...]:
    """What a word may be by its letters alone, kind and value; rows say the same few hundred words again and again."""
    found: list[tuple[str, Any]] = []
    number, order = lexicon.number(text), lexicon.ordinal(text)
    if number is not None and text not in ("once", "twice", "thrice"):
        found.append(("NUM", number))
    if order is not None:
        found.append(("ORD", order))
    name = lexicon.stitch_name(text.removesuffix("'s"), terms)
    spelled = _stitches(terms).get(text, {}).get(_HERE, ()) if not name else ()
    name = name or next((value for kind, value in spelled if kind == "STN"), None)
    if name:
        found.append(("STN", name))
    held = lexicon.held_name(text, terms)
    if held:
        found.append(("HELD", held))
    return tuple(found)


class Words:
    """The page of words in given terms with a pattern's own stitches. `own` is spelling -> (kind, value), `letters` are the
    capitals that stand for a stitch's word, `yarns` the short names of colours, both as printed."""

    def __init__(
        self, terms: str, own: Mapping[str, Sequence[tuple[str, Any]]] = MappingProxyType({}),
        letters: Mapping[str, str] = MappingProxyType({}), yarns: frozenset[str] = frozenset(),
    ) -> None:  # fmt: skip
        self.terms, self.letters, self.yarns = terms, letters, yarns
        self.own: Trie = {}
        for spelled, entries in own.items():
            add_to(self.own, plain(spelled), entries)

    def read(self, low: str) -> list[Word]:
        """The words of a text in lower case (`plain`)."""
        out = [self._word(found) for found in _PIECES.finditer(low)]
        out = _summed([w for at, w in enumerate(out) if not _means_nothing(out, at)])
        out = [part for w in _one_stitch(_counted_spaces(_letters_joined(out))) for part in self._glued(w)]
        for before, word in pairwise(out):
            word.begins_line = "\n" in low[before.end : word.start]
        out = [w for at, w in enumerate(out) if not (w.text == "-" and _skips_number(out, at))]
        twice = (word.text == before.text and word.text in _SAID_TWICE for before, word in pairwise(out))
        return [word for word, again in zip(out, (False, *twice), strict=False) if not again]

    def lettered(self, words: list[Word], text: str) -> None:
        """Give the capitals that stand for a stitch its word: "6V"."""
        for word in words if self.letters else ():
            meant = self.letters.get(text[word.start : word.end])
            if meant is not None:
                word.text = meant
                self._of_letters(word)

    def _glued(self, word: Word) -> list[Word]:
        """ "Dcin next st": a stitch and what was written onto it without a space."""
        parted = self._hyphened(word) or self._moves(word) or self._run_on(word) or self._set_on(word)
        if parted is not None:
            return parted
        tail = next((t for t in ("into", "mr", "mc") if word.text.endswith(t)), "in")
        stem = word.text.removesuffix(tail)
        known = not word.kinds and stem != word.text and (lexicon.stitch_name(stem, self.terms) or stem in self.own)
        if not known or word.text in self.own or len(word.text) != word.end - word.start:
            return [word]
        cut = word.end - len(tail)
        out = [Word(stem, word.start, cut), Word(tail, cut, word.end)]
        self._of_letters(out[0])
        return out

    def _run_on(self, word: Word) -> list[Word] | None:
        """ "ineach", "ltr" (for 1 tr): two words that were set as one."""
        whole = len(word.text) == word.end - word.start and not word.kinds
        if not whole or word.text in self.own or word.text in _common():
            return None
        if word.text[:2] == "in" and word.text[2:] in ("each", "next", "same", "every", "the", "first", "last", "ea"):
            cut, lead = word.start + 2, Word("in", word.start, word.start + 2)
        elif word.text[:3] == "beg" and self._knows(word.text[3:]):
            cut, lead = word.start + 3, Word("beg", word.start, word.start + 3)
            self._of_letters(lead)
        elif word.text[:1] in ("l", "i") and lexicon.stitch_name(word.text[1:], self.terms) in lexicon.US_HEIGHTS:
            cut, lead = word.start + 1, Word("1", word.start, word.start + 1, {"NUM": [(1, 1)]})
        elif (stem := next((s for s in _RUN_TOGETHER if word.text.startswith(s)), "")) and word.text[len(stem) :] in _BEHIND:
            cut, lead = word.start + len(stem), Word(stem, word.start, word.start + len(stem))
            self._of_letters(lead)
        else:
            return None
        rest = Word(word.text[cut - word.start :], cut, word.end)
        self._of_letters(rest)
        return [lead, rest]

    def _set_on(self, word: Word) -> list[Word] | None:
        """ "Allaround", "skipnext": small words that nothing knows as one."""
        whole = len(word.text) == word.end - word.start and not word.kinds
        said = set_on(word.text) if whole and word.text.isalpha() else ()
        if said and word.text in self.known:
            return None
        out: list[Word] = []
        for part in said:
            start = out[-1].end if out else word.start
            out.append(Word(part, start, start + len(part)))
            self._of_letters(out[-1])
        return out or None

    def _knows(self, text: str) -> bool:
        """Whether letters are a chain or the name of a stitch."""
        return text in ("ch", "chain") or bool(lexicon.stitch_name(text, self.terms)) or text in self.own

    def _hyphened(self, word: Word) -> list[Word] | None:
        """ "dc-group", "tr-clusters": a stitch and a noun joined by a hyphen, which nothing knows as one word."""
        stem, _, noun = word.text.partition("-")
        whole = len(word.text) == word.end - word.start and not word.kinds
        if noun not in _JOINED_ON or not whole or word.text in self.own or word.text in _common():
            return None
        if not lexicon.stitch_name(stem, self.terms) and stem not in self.own:
            return None
        cut = word.start + len(stem)
        out = [Word(stem, word.start, cut), Word(noun, cut + 1, word.end)]
        for part in out:
            self._of_letters(part)
        return out

    def _moves(self, word: Word) -> list[Word] | None:
        """ "sk-next", "slst/ch", "st/ch-sp": words of which the first is a move or a stitch, joined by a sign."""
        sign = "/" if "/" in word.text else "-"
        first, _, second = word.text.partition(sign)
        whole = len(word.text) == word.end - word.start and not word.kinds
        if not second or not whole or word.text in self.own or word.text in _common():
            return None
        if first not in _MOVES[sign] and not (sign == "/" and lexicon.stitch_name(first, self.terms)):
            return None
        if second not in _MOVED_TO[sign]:
            return None
        cut = word.start + len(first)
        out = [Word(first, word.start, cut), Word(second, cut + 1, word.end)]
        for part in out:
            self._of_letters(part)
        return [out[0], Word("and", cut, cut + 1), out[1]] if sign == "/" else out

    @functools.cached_property
    def known(self) -> frozenset[str]:
        """Every single word that some spelling holds."""
        return _known(self.terms) | _keys(self.own)

    def respell(self, words: list[Word], tried: Mapping[str, str]) -> dict[str, str]:
        """Give words the spelling of what they are a slip of; what became of which."""
        ones = _ones(words)
        for word in words:
            if not word.kinds and word.text in tried:
                word.text = tried[word.text]
                self._of_letters(word)
        return {**ones, **tried}

    def is_own_stitch(self, text: str) -> bool:
        """Whether the pattern gives these letters to a plain stitch: "S: single crochet"; "B: shell" names a yarn."""
        return any(kind in _OWN_STITCHES for kind, _ in self.own.get(text, {}).get(_HERE, ()))

    def unknown(self, words: Iterable[Word]) -> list[str]:
        """The words that nothing knows, once each."""
        found = (w.text for w in words if not w.kinds and len(w.text) == w.end - w.start)
        return [text for text in dict.fromkeys(found) if text not in self.known]

    def _word(self, found: re.Match[str]) -> Word:
        kind, text = found.lastgroup or "sign", found[0]
        if found["chsp"]:
            size = int(found["s1"] or found["s2"])
            name = "lp" if found["w1"].startswith("l") else "sp"
            return _fixed(found, "CHSP", (name, size))
        if found["chspb"]:
            return _fixed(found, "CHSP", ("lp" if found["w1b"].startswith("l") else "sp", int(found["s2b"])))
        if found["chref"]:
            return _fixed(found, "CHREF", int(found["s3"]))
        if found["measure"]:
            return _fixed(found, "MEASURE", text)
        if found["tog"]:
            gathered = lexicon.stitch_name(f"{found['t1']}{found['t2']}tog", self.terms)
            lead = re.match(r"\d+", text)
            return (
                _fixed(found, "TOGN" if lead else "STN", (int(lead[0]), gathered) if lead else gathered)
                if gathered
                else _plain(found)
            )
        if found["ntog"]:  # "3dctog": 3 dc together
            gathered = lexicon.stitch_name(f"{found['t4']}{found['t3']}tog", self.terms)
            return _fixed(found, "STN", gathered) if gathered else _plain(found)
        if found["grp"]:
            return _grp(found, self.terms)
        if found["ord"]:
            return _fixed(found, "ORD", lexicon.ordinal(text.replace(" ", "")) or 0)
        if found["num"]:
            number = lexicon.number(found["num"])
            word = _fixed(found, "NUM", number if number is not None else 10**9)
            word.text, word.end = found["num"], found.end("num")
            return word
        word = _plain(found)
        if kind == "word":
            self._of_letters(word)
        return word

    def _of_letters(self, word: Word) -> None:
        for kind, value in _letters_mean(word.text, self.terms):
            word.kinds[kind] = [(1, value)]

    @staticmethod
    def _lengths(words: list[Word]) -> None:
        """ "Until it measures 10 in": a stretch up to the next sign that says how long rows go on."""
        for at, word in enumerate(words):
            if word.text not in ("until", "till", "for", "to"):
                continue
            end = at
            while end < len(words) and words[end].text not in (".", ";", ",") and words[end].inside is None:
                end += 1
            said = " ".join(w.text for w in words[at:end])
            if _LENGTH.match(said):
                word.kinds.setdefault("UNTILLEN", []).append((end, said))
            if _SIZE.fullmatch(said):
                word.kinds.setdefault("UNTILSIZE", []).append((end, said))

    def lattice(self, words: list[Word]) -> None:
        """Give every word what may begin at it. Soft words are passed through."""
        tries = (_common(), _stitches(self.terms), self.own)
        for at, word in enumerate(words):
            kinds = {kind: [(at + n, value) for n, value in arcs] for kind, arcs in word.kinds.items()}
            for trie in tries:
                _arcs(trie, words, at, kinds, ())
            word.kinds = kinds
            if len(word.text) == 1 and self.is_own_stitch(word.text):
                kinds.pop("SOFT", None)  # "A" is the pattern's own letter, and no article
            if "CHSP" in kinds:
                _sized_only(kinds)
        self._lengths(words)
        for at in range(len(words) - 2, -1, -1):
            soft = words[at].kinds.get("SOFT")
            if soft:
                _pass_through(words, at, max(end for end, _ in soft))


_OWN_STITCHES = frozenset(("STN", "INC", "DEC", "CH", "SLSTW"))
_COUNTED = frozenset(("sk", "skip", "miss", "skipping", "missing", "leave", "next", "last", "of"))


def _summed(words: list[Word]) -> list[Word]:
    """ "(7+1 tr) in next sp": as many stitches as both numbers make."""
    out: list[Word] = []
    for word in words:
        if len(out) > 2 and "STN" in word.kinds and out[-2].text == "+" and out[-1].text.isdigit() and out[-3].text.isdigit() and (len(out) < 4 or out[-4].text not in _OF_CHAINS):
            first, second = int(out[-3].text), int(out[-1].text)
            out[-3:] = [Word(str(first + second), out[-3].start, out[-1].end, {"NUM": [(1, first + second)]})]
        out.append(word)
    return out


#: "= 8ch spaces", "8ch sps)": the number and what it counts, written as one.
_CH_SPACES = when_used(r"(?P<n>\d{1,4})(?P<ch>ch)[- ]?(?P<sps>sps|spaces)")


def _counted_spaces(words: list[Word]) -> list[Word]:
    """ "... = 8ch spaces": behind a mark and at the end, so many spaces and not some of 8 chains."""
    out: list[Word] = []
    for at, word in enumerate(words):
        ends = at + 1 == len(words) or words[at + 1].text in (")", "]", ".", "made")
        found = _CH_SPACES.fullmatch(word.text) if ends and (len(words) == 1 or (at and words[at - 1].text in ("=", "(", "[", ":"))) else None
        if found is None:
            out.append(word)
            continue
        number = Word(found["n"], word.start, word.start + found.end("n"), {"NUM": [(1, int(found["n"]))]})
        out += [number, *(Word(found[part], word.start + found.start(part), word.start + found.end(part)) for part in ("ch", "sps"))]
    return out


def _one_stitch(words: list[Word]) -> list[Word]:
    """ "Skip 1st, dc in next st": one stitch written without a space, where no noun follows that it could be the first of."""
    out: list[Word] = []
    for at, word in enumerate(words):
        ends = at + 1 == len(words) or words[at + 1].is_sign
        if word.text[-3:] == "1st" and "ORD" in word.kinds and ends and at and words[at - 1].text in _COUNTED:
            split_at = word.end - 2
            number = int(word.text[:-2])
            out.append(Word(word.text[:-2], word.start, split_at, {"NUM": [(1, number)]}))
            out.append(Word("st", split_at, word.end))
            continue
        out.append(word)
    return out


#: Kinds of words that their number may be joined to: "tr-9", "inc-6".
_NUMBERED = frozenset(("STN", "INC", "DEC"))
#: The letters of a stitch's short name that come before its last one, where they are written apart: "d c", "h d c".
_LETTERS_APART = frozenset(("s", "d", "h", "hd", "sd"))


def _letters_joined(words: list[Word]) -> list[Word]:
    """ "d c-group": the last letter of a stitch written in letters, and the noun joined to it by a hyphen."""
    out: list[Word] = []
    for at, word in enumerate(words):
        before = words[at - 1] if at else None
        letter, _, noun = word.text.partition("-")
        if letter == "c" and noun in _JOINED_ON and before is not None and before.text in _LETTERS_APART and not word.kinds:
            out += [Word("c", word.start, word.start + 1), Word(noun, word.start + 2, word.end)]
        else:
            out.append(word)
    return out


def _skips_number(words: list[Word], at: int) -> bool:
    """ "Sk-1, dc in next st", "tr-9 into the ring": whether a hyphen only joins a move or a stitch to its number."""
    if not 0 < at < len(words) - 1 or not words[at + 1].text.isdigit():
        return False
    before, sign, number = words[at - 1 : at + 2]
    if before.text in ("sk", "skip", "miss"):
        return True
    kinds = {*before.kinds, *(kind for kind, _ in _common().get(before.text, {}).get(_HERE, ()))}
    return bool(_NUMBERED & kinds) and before.end == sign.start and sign.end == number.start


def _means_nothing(words: list[Word], at: int) -> bool:
    """Whether a sign only marks what stands beside it: "#2", "in ea. st"."""
    following = words[at + 1].text if at + 1 < len(words) else ""
    if words[at].text == "#":
        return following.isdigit()
    return words[at].text == "." and at > 0 and words[at - 1].text == "ea" and following in ("st", "sts", "sc", "dc", "hdc", "ch")


def _ones(words: list[Word]) -> dict[str, str]:
    """Give a letter that stands for a one its number: "chain l, turn"; which letters did."""
    out: dict[str, str] = {}
    for before, word in pairwise(words):
        if word.text in ("l", "i") and before.text in ("ch", "chain"):
            out[word.text] = "1"
            word.text, word.kinds = "1", {"NUM": [(1, 1)]}
    return out


#: The signs that part the clauses of a row of bare numbers.
_PARTS = frozenset((",", ";", "."))
_SHAPING = frozenset(("inc", "dec", "increase", "decrease", "invdec"))


def bare_numbers(words: Sequence[Word]) -> list[Word]:
    """The numbers of "3, inc, 5, inc, 2", which count plain stitches: of a row whose every clause is a number or an
    increase or a decrease."""
    coloured = _in_their_yarns(words)
    if coloured:
        return coloured
    clauses: list[list[Word]] = [[]]
    for word in words:
        if word.text in _PARTS:
            clauses.append([])
        elif word.inside is None:
            clauses[-1].append(word)
    numbers = [c[0] for c in clauses if len(c) == 1 and c[0].text.isdigit()]
    shaped = [c for c in clauses if c and c[0].text in _SHAPING and (len(c) == 1 or (len(c) == 2 and c[1].text.isdigit()))]
    plain = [c for c in clauses if len(c) == 2 and c[0].text.isdigit() and "STN" in c[1].kinds]
    whole = len(numbers) + len(shaped) + len(plain) == sum(1 for c in clauses if c)
    alone = len(numbers) == 1 and all(w.inside is not None or w in numbers or w.is_sign for w in words) and words[0] is numbers[0]
    return numbers if numbers and whole and (shaped or alone) else []


def _in_their_yarns(words: Sequence[Word]) -> list[Word]:
    """The numbers of "3 A, 5 B", "A x 7", "8 in red": so many stitches, of which nothing but the yarn is said."""
    clauses: list[list[Word]] = [[]]
    for word in words:
        if word.text in (":", "-") and clauses[-1] and _names_yarn(clauses[-1][-1]):
            continue
        if (word.is_sign and word.inside is None) or word.text in ("and", "then"):
            clauses.append([])
        elif word.inside is None or _names_yarn(word):
            clauses[-1].append(word)
    found: list[Word] = []
    for clause in clauses:
        rest = [w for w in clause if w.text not in _BESIDE_YARN]
        numbers, yarns = [w for w in rest if w.text.isdigit()], [w for w in rest if _names_yarn(w)]
        if numbers and len(numbers) == len(yarns) and len(rest) == 2 * len(numbers):
            found += numbers
    return found


#: What stands between a number and its yarn.
_BESIDE_YARN = frozenset(("x", "in", "with", "of", "times", "sts", "st", "the"))


def _names_yarn(word: Word) -> bool:
    """Whether a word is a yarn's letter or a colour, or a bracket that holds that and nothing else."""
    if word.inside is not None:
        return len(word.inside.words) == 1 and _names_yarn(word.inside.words[0])
    return "LETTER" in word.kinds or any(kind == "COLOURW" for kind, _ in vocabulary().get(word.text, ()))


def _sized_only(kinds: dict[str, list[Arc]]) -> None:
    """A word that the pattern says to be a space of so many chains is no space of any size."""
    ends = {end for end, _ in kinds["CHSP"]}
    for kind in ("SP", "LP"):
        kept = [arc for arc in kinds.pop(kind, ()) if arc[0] not in ends]
        if kept:
            kinds[kind] = kept


_LENGTH = when_used(
    r"(?:until|till|for|to)\b.*?(?:measur|inch|\bcm\b|\blong\b|desired|length|\bwide\b|height|\d+ (?:more )?(?:rows|rounds|rnds)|needed|required|size|"
    r"reach|piece|blanket|yarn|work is|you (?:have|like|want|run)|end of (?:the )?(?:ball|skein)|tall|deep|complete|pattern|\bmm\b|\d\"|the rest)"
    r"|(?:until|till)\b.*?(?:\b(?:fits?|covers?|meets?|stretch(?:es|ed)?|goes|happy|satisfied|comfortabl[ey]|snug(?:ly)?|large|big|wide|long|tall|high) ?\b|\benough\b|\b(?:around|over|round) (?:your|the|his|her|a|my)\b)"
)


#: "Until it measures 10 in", "until you reach desired height": a size of the cloth, and no number of rows or stitches.
_SIZE = when_used(
    r"(?:until|till) (?:(?:the|it|its|piece|work|you|we|i|your|desired|required|right|of|is|are|have|has|reach|reached|reaches|reaching|get|measures?|measuring|as|a|an|at"
    r"|about|approx|approximately|height|length|width|depth|size|tall|long|wide|high|deep|big|want|like|need|wish|needed|bag|basket|hat|scarf|strap|body|tube|total)\b ?)*"
    r"(?:(?:height|length|width|depth|size|tall|long|wide|high|deep|big)(?: (?:that )?(?:desired|required|needed|you (?:want|like|need|wish)|as you (?:want|like|need|wish)))?|(?:as you )?(?:want|like|need|wish)"
    r"|\d[\d. /]* ?(?:inch(?:es)?|ins?|cm|mm|\")(?: (?:long|tall|high|wide|deep|in (?:length|height|width)|from .{1,30}))?)"
)


def _pass_through(words: list[Word], at: int, end: int) -> None:
    """What begins behind a soft word begins at it, too."""
    if end >= len(words):
        return
    own = words[at].kinds
    for kind, arcs in words[end].kinds.items():
        if kind == "NUM" and words[at].text == "then" and not (at and words[at - 1].text in ("and", "&", "plus")):
            continue  # "hdc then 3 sc": what comes then is no number of what stands before
        if kind not in own:
            own[kind] = arcs


def _arcs(trie: Trie, words: list[Word], at: int, kinds: dict[str, list[Arc]], _: tuple[()]) -> None:
    """What the spellings of a trie that begin at a word stand for; up to two determiners inside one are passed over."""
    open_ways = [(trie, at, 0)]
    while open_ways:
        node, end, gaps = open_ways.pop()
        if end >= len(words):
            continue
        word = words[end].text
        if end > at and gaps < 2 and word in _DETERMINERS:  # "all the way around the": determiners inside a phrase
            open_ways.append((node, end + 1, gaps + 1))
        following = node.get(word)
        if following is None:
            continue
        for kind, value in following.get(_HERE, ()):
            if (end + 1, value) not in kinds.setdefault(kind, []):
                kinds[kind].append((end + 1, value))
        open_ways.append((following, end + 1, gaps))


_DETERMINERS = frozenset(("the", "a", "an", "your"))


def _fixed(found: re.Match[str], kind: str, value: Any) -> Word:
    return Word(found[0], found.start(), found.end(), {kind: [(1, value)]})


def _plain(found: re.Match[str]) -> Word:
    return Word(found[0], found.start(), found.end())


def _grp(found: re.Match[str], terms: str) -> Word:
    """ "9-sc" of "9-sc group"; "3-ch" is a run of chains."""
    kind, size = found["k4"].replace(" ", ""), int(found["s4"])
    if kind in ("ch", "chain"):
        return _fixed(found, "CHREF", size)
    name = lexicon.stitch_name(kind, terms) or ("st" if kind in ("st", "stitch") else "")
    if not name:
        return Word(found[0], found.start(), found.end(), {"GRP": [(1, (size, kind))]} if kind == "row" else {})
    return _fixed(found, "GRP", (size, name))
