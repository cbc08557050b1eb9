"""Reading special stitches: what a pattern calls a stitch of its own, and what it is made of.

Either the words are notation ("Shell: 5 dc in st indicated") and the name stands for it, or they are the moves of the
hook ("yo, insert hook ...") and the stitch is one of its own, whose legs and height are read off the moves.
"""

from __future__ import annotations

import re

from . import lexicon
from .clauses import Clauses
from .cursor import Source
from .hook import read_legs
from .lex import plain, tokens
from .spikes import read_spikes
from .tree import Act, Chain, Into, Make, Op, Skip, Special, Times, walk

_LEAD = re.compile(r"^\s*special\s+st(?:itch)?(?:es)?\s*:?\s*")
_DEFINED = re.compile(
    r"^\s*(?P<name>[a-z][a-z0-9'\- ]{0,60}?)\s*(?:\((?P<abbr>[a-z][a-z0-9\- ]{0,24})\))?"
    r"\s*(?::|=|-(?=[\s\[(a-z0-9])(?<![a-z]-)|-(?=\[))\s*(?P<words>\S.*)$",
    re.DOTALL,
)
_MOVES = re.compile(
    r"\byo\b|\byrh\b|\byoh\b|insert(?:ing)?\s+(?:the\s+)?hook|pull up|draw (?:up|through)"
    r"|drop(?:ping)? (?:the )?l(?:oo)?p|remove (?:the )?hook"
    r"|yarn over|last l(?:oo)?p of each|holding back|leaving (?:the )?last"
)
_SPOT = r"(?:ch-?\d{1,3}\s?)?(?:st(?:itch)?|sp(?:ace)?|ch-sp|ch|place|lp|loop)"
_SPOTS = rf"{_SPOT}(?:\s+or\s+{_SPOT}){{0,3}}"
_INDICATED = re.compile(
    r"\s*\b(?:all\s+)?(?:in(?:to)?|around(?:\s+post\s+of)?)\s+(?:the\s+)?"
    rf"(?:(?:same|next|one|indicated|specified)\s+)?{_SPOTS}\s+(?:indicated|specified|stated|given|named)"
)
_ONE_PLACE = re.compile(rf"\s*\bin(?:to)?\s+(?:the\s+)?(?:same|one|a single|indicated|next)\s+{_SPOTS}\s*\.?\s*$")


def read_special(source: Source, terms: str, known: dict[str, Special]) -> Special | None:
    """A special stitch from the line that explains it; None if the line explains none."""
    low = plain(source.text)
    lead = _LEAD.match(low)
    body = low[lead.end() :] if lead else low
    found = _DEFINED.match(body)
    if not found or len(found["name"].split()) > 6:
        return None
    shift = lead.end() if lead else 0
    name, short, words = (
        source.text[shift + a : shift + b].strip() if a >= 0 else ""
        for a, b in map(found.span, ("name", "abbr", "words"))
    )
    return define(name, short or _short(name), words, terms, known, source.line)


def _short(name: str) -> str:
    """A name used as its own abbreviation: in lower case unless it is written with capitals inside."""
    return name.lower() if name[1:] == name[1:].lower() else name


def define(
    name: str, abbreviation: str, words: str, terms: str, known: dict[str, Special], line: int = 0
) -> Special | None:
    """A special stitch from its name and its words; None if the words say nothing that can be worked."""
    low = plain(words)
    canonical = lexicon.stitch_name(abbreviation.replace(" ", ""), terms)
    if canonical:
        abbreviation = canonical
    standard = {"v-stitch": "V-st", "v-st": "V-st"}.get(abbreviation.lower())
    abbreviation = standard or abbreviation
    if _MOVES.search(low):
        return _moved(name, abbreviation, words, low, line, canonical, terms)
    if canonical:
        return None
    return _noted(name, abbreviation, words, terms, known, line)


def _moved(
    name: str, abbreviation: str, words: str, low: str, line: int, canonical: str | None, terms: str
) -> Special | None:
    """A stitch told by its moves: legs from the times the hook goes in, height from the yarn-overs before it does."""
    counts_as = re.search(r"counts? as (?:a |an |one )?([a-z][a-z0-9\-]*)", low)
    kind = canonical or abbreviation
    if counts_as and (abbreviation.lower().startswith("beg") or name.lower().startswith("beg")):
        kind = _as_written(counts_as[1], words)
    chains = re.match(r"\s*ch\s*(\d{1,2})", low)
    made = read_legs(low, terms)
    spikes = read_spikes(low, made.count)
    if spikes is None:
        return None
    legs = max(made.count, len(spikes))
    form = "single" if legs == 1 else "gathered"
    return Special(
        name,
        abbreviation,
        words,
        (),
        kind,
        made.base,
        legs + (1 if chains and legs > 1 else 0),
        int(chains[1]) if chains else 0,
        form,
        True,
        line,
        spikes,
    )


def _as_written(word: str, words: str) -> str:
    found = re.search(re.escape(word), words, re.IGNORECASE)
    return found[0].rstrip(".") if found else word


def _noted(
    name: str, abbreviation: str, words: str, terms: str, known: dict[str, Special], line: int
) -> Special | None:
    """A stitch told in notation."""
    low = plain(words)
    in_place = bool(_INDICATED.search(low)) or bool(_ONE_PLACE.search(low))
    low = _INDICATED.sub(lambda m: " " * len(m[0]), low)
    low = _ONE_PLACE.sub(lambda m: " " * len(m[0]), low)
    spell = tuple(sorted((plain(s), k.abbreviation) for k in known.values() for s in (k.name, k.abbreviation)))
    reader = Clauses(tokens(low, terms, spell), Source(words, line), terms, known)
    reader.defining = True
    ops = _bare(reader.read())
    stands_for = next((op.text for op in ops if isinstance(op, Act) and op.name == "opening" and op.text), "")
    ops = tuple(op for op in ops if not isinstance(op, Act))
    gathered = _beginning(name, abbreviation, ops, stands_for, words, line)
    if gathered is not None:
        return gathered
    if not ops or reader.problems:
        return None
    first = ops[0]
    if len(ops) == 1 and isinstance(first, Make) and first.stitch == "picot" and first.places:
        return Special(
            name, abbreviation, words, (), abbreviation, "ch", 1, first.places[0].nth, "picot", True, line
        )
    if in_place and len(ops) == 1 and isinstance(first, Make) and (legs := lexicon.together(first.stitch)) > 1:
        return Special(
            name,
            abbreviation,
            words,
            (),
            abbreviation,
            lexicon.height_of(first.stitch) or "dc",
            legs,
            0,
            "gathered",
            True,
            line,
        )
    several = sum(len(op.places) for op in walk(ops) if isinstance(op, Make | Skip))
    if not in_place and several == 0 and any(isinstance(op, Make) for op in walk(ops)):
        in_place = True
    return Special(name, abbreviation, words, ops, "", "dc", 1, 0, "group", in_place, line)


def _beginning(
    name: str, abbreviation: str, ops: tuple[Op, ...], stands_for: str, words: str, line: int
) -> Special | None:
    """ "Beginning cluster: ch 2, dc2tog in same sp": chains and a gathering that together are one stitch, the
    chains its first leg. It is the stitch it is said to count as, else the one it is named after."""
    if len(ops) != 2 or not isinstance(ops[0], Chain) or ops[0].counts is not None or not isinstance(ops[1], Make):
        return None
    legs = lexicon.together(ops[1].stitch)
    if legs < 2 or not plain(name).startswith("beg"):
        return None
    kind = stands_for or re.sub(r"^beg(?:inning)?[\s.-]*", "", abbreviation, flags=re.IGNORECASE) or abbreviation
    height = lexicon.height_of(ops[1].stitch) or "dc"
    return Special(name, abbreviation, words, (), kind, height, legs + 1, ops[0].count, "gathered", True, line)


def _bare(ops: tuple[Op, ...]) -> tuple[Op, ...]:
    """The ops inside one bracket round them all."""
    if len(ops) == 1 and isinstance(ops[0], Times) and ops[0].times == 1:
        return ops[0].ops
    if len(ops) == 1 and isinstance(ops[0], Into) and not ops[0].name:
        return ops[0].ops
    return ops
