"""A page being read: its lines, and what is known of it so far; the modules of this room add to it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from ...errors import Note, Problem
from .. import lexicon
from ..notation.plain import plain
from ..notation.words import Words, vocabulary
from ..tree import Make, Noun, Op, Special, Start
from ..when_used import when_used
from .agreed.both_terms import named_in, names_both, told_twice
from .agreed.conventions import Conventions
from .agreed.definitions import spellings
from .agreed.letters import letters_told, without_told, yarns_told
from .agreed.other_names import in_old_names, in_one_system, one_name, points_as_stitches
from .agreed.sizes import listed_names, only_for, picked, size_count, size_names
from .agreed.terms import Settled, says_long, settle
from .between import torn_heads
from .drafts import Draft
from .heads import bare_head, line_head, names_row
from .layout import heads_evened, heads_joined, line_spacing, moves_joined, steps_joined, unmarked
from .telling import is_comment, workish

MOST_SPECIALS = 200
#: So many repeats are taken where a foundation is given as a multiple only (common practice, no source).
SAMPLE_REPEATS = 3

_TERMS = when_used(r"^\s*terms?\s*:?\s*(us|uk|american|british)\b[^a-z]*(?:terms)?\W*$")


#: The loop that the words of a stitch name.
_LOOP = when_used(r"\b(back|front) (?:loops?|lps?)\b")


class Page:
    """All that is known of a text: lines as printed and in plain small letters, stitches learnt, rows drafted."""

    def __init__(self, text: str, terms: str | None, specials: tuple[Special, ...], first_line: int, size: int) -> None:
        self.raw = moves_joined(heads_joined(steps_joined(text.split("\n"))))
        #: Lines whose words were taken to the one above, and empty ones that part nothing.
        self.taken = frozenset(at for at, line in enumerate(text.split("\n")) if line.strip() and not self.raw[at].strip())
        self.taken |= line_spacing(text.split("\n"))
        self.first_line = first_line
        self.lines = unmarked(heads_evened(self.raw))
        low = [plain(line) for line in self.lines]
        whole = "\n".join(low)
        self.sizes = size_count(whole)
        self.names = size_names(whole) or size_names("\n".join(self.raw).lower()) or listed_names(whole, self.sizes)
        if self.sizes == 1 and self.names and any(only_for(line, self.names) for line in low):
            self.sizes = len(self.names)
        self.size = min(size, self.sizes - 1)
        self.lines = [picked(a, b, self.size, self.sizes) for a, b in zip(self.lines, low, strict=True)]
        self.low = [plain(line) for line in self.lines]
        self.problems: list[Problem] = []
        self.notes: list[Note] = []
        self.prose: list[tuple[int, str]] = []
        #: Of the talk what nothing was done with.
        self.passed: list[tuple[int, str]] = []
        self.assumed: list[str] = []
        self.specials: dict[str, Special] = {s.abbreviation: s for s in specials}
        self.firsts: dict[str, Special] = {}
        self.settled = self._terms(terms)
        self.terms = self.settled.terms
        self.aliases: dict[str, tuple[tuple[str, Any], ...]] = {}
        self.letters = letters_told("\n".join(self.raw), self.terms)
        self.yarns = yarns_told("\n".join(self.raw))
        if names_both("\n".join(self.lines)):
            self.lines = [told_twice(line, self.terms) for line in self.lines]
        self.lines = [one_name(named_in(without_told(line, self.letters), self.terms)) for line in self.lines]
        self._in_one_system()
        self.lines = points_as_stitches(self.lines)
        if self.terms == "UK" and says_long("\n".join(self.lines).lower()):
            self.lines = in_old_names(self.lines)
            self.assumed.append('"long" was taken for treble, and single crochet, if there is any, for slip stitch')
        self.low = [plain(line) for line in self.lines]
        self.words = self.knowing()
        self.conventions = Conventions()
        self.drafts: list[Draft] = []
        self.start: Start | None = None
        self.multiple: tuple[int, int] | None = None
        self.bad_rows: set[int] = set()
        self.asides: dict[int, tuple[Problem, ...]] = {}
        self.others: dict[int, tuple[tuple[Op, ...], ...]] = {}
        self.guesses: dict[int, tuple[tuple[Op, ...], ...]] = {}
        self.bare = self._numbers_alone()
        self.torn = {} if self.bare else torn_heads(self.low)
        self.unheaded = not self.bare and not any(names_row(low) for low in self.low)

    def _in_one_system(self) -> None:
        """A page that tells every stitch by its names in both systems is read by one, which is said."""
        one = in_one_system(self.lines, self.terms)
        if one is not None:
            self.lines = one
            self.assumed.append(f"each stitch is told by two names; those that {self.terms} terms have were taken")

    def sample(self) -> Start:
        """A foundation given as a multiple only: three times it, which is said."""
        assert self.multiple is not None
        of, plus = self.multiple
        count = of * max(SAMPLE_REPEATS, -(-8 // max(of, 1))) + plus
        of_any = "how many chains the foundation has is not said"
        said = f"the foundation is a multiple of {of} plus {plus}" if self.multiple != (1, 0) else of_any
        self.assumed.append(f"{said}; {count} chains were taken")
        return Start("chain", count, "ch", self.multiple, self.first_line, "")

    def _terms(self, given: str | None) -> Settled:
        for number, low in enumerate(self.low):
            found = _TERMS.match(low)
            if found:
                self.low[number] = ""
                self.lines[number] = ""
                return Settled("UK" if found[1] in ("uk", "british") else "US", "the text says so", True)
        if given:
            return Settled(given, "the file says so", True)
        return settle("\n".join(x for x in self.low if not is_comment(x)))

    def _numbers_alone(self) -> bool:
        """Whether the text numbers its rows by bare numbers: no other heads, and work behind the numbers."""
        if any(line_head(low) for low in self.low if low.strip()):
            return False
        found = [
            low for low in self.low if (h := bare_head(low, len(low) - len(low.lstrip()))) and workish(low[h.end :])
        ]
        return len(found) > 0

    def knowing(self, own: Mapping[str, Sequence[tuple[str, Any]]] | None = None) -> Words:
        """The page of words with what the text has explained so far, and with `own` besides."""
        return Words(self.terms, {**spellings(self.specials, self.terms), **self.aliases, **(own or {})}, self.letters, self.yarns)

    def call(self, spelled: str, phrase: str) -> None:
        """Learn another spelling of a phrase."""
        stitch = lexicon.long_names(self.terms).get(phrase)
        self.aliases[spelled] = vocabulary().get(phrase) or ((("STN", stitch),) if stitch else ())
        self.words = self.knowing()

    def call_space(self, spelled: str, size: int) -> None:
        """Learn a word for a space of so many chains."""
        kind = "lp" if spelled.startswith("l") else "sp"
        for form in (spelled, f"{spelled}es" if spelled.endswith("ch") else f"{spelled}s"):
            self.aliases[form] = (("CHSP", (kind, size)),)
        self.words = self.knowing()

    def own(self, special: Special) -> None:
        """Learn a stitch of the pattern's own; one that is a plain stitch in a loop, "hdc-blo: hdc in back loop only", is that."""
        if (held := _held_alone(special)) is not None:
            for spelled in {plain(special.abbreviation), plain(special.name)}:
                self.aliases[spelled] = (("HELD", held),)
            self.specials.pop(special.abbreviation, None)
            self.words = self.knowing()
            return
        if len(self.specials) < MOST_SPECIALS:
            self.specials[special.abbreviation] = special
            self.aliases.pop(plain(special.abbreviation), None)
            self.words = self.knowing()


def _held_alone(special: Special) -> tuple[str, str] | None:
    """The plain stitch and the loop that a stitch of the pattern's own is, where it is nothing else."""
    made = special.ops[0] if len(special.ops) == 1 and not special.kind else None
    if not isinstance(made, Make) or made.count != 1 or len(made.places) != 1 or lexicon.height_of(made.stitch) != made.stitch:
        return None
    place = made.places[0]
    plainly = place.which in ("next", "each", "same") and place.count == 1 and place.noun == Noun("st") and place.row is None and place.of is None
    told = {found[1] for found in _LOOP.finditer(plain(special.words))}
    hold = place.hold or (f"{told.pop()} loop" if len(told) == 1 else "")
    return (made.stitch, hold) if plainly and hold in ("back loop", "front loop") else None
