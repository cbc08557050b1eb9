"""A written page beside its rows, in parts under the designer's own headings; every line stands in one of them."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from typing import Literal

from ...made_late import dataclass

Kind = Literal["about", "materials", "gauge", "size", "level", "abbreviations", "stitches", "notes", "work", "finishing",
               "care", "other"]  # fmt: skip

#: How the parts of a page are headed (common practice, no source), by what stands in them.
_HEADS: tuple[tuple[Kind, str], ...] = (
    ("materials",
     r"(?:materials?|supplies|notions|tools|equipment)(?: (?:needed|required|used|list))?|(?:what )?you(?:'ll| will)? need|"
     r"yarns?|(?:crochet )?hooks?|(?:yarn )?needles?|colou?rs?(?: used)?|stuffing"),
    ("gauge", r"gauge|tension(?: square)?"),
    ("size", r"(?:finished |approximate |final )*(?:sizes?|measurements?|dimensions?)(?: when finished)?|sizing"),
    ("level", r"skill|skill level|difficulty|level"),
    ("stitches", r"(?:special|pattern) (?:stitch(?:es)?|abbreviations?|techniques?)|stitch (?:guide|explanations?|patterns?)|"
     r"stitches"),
    ("abbreviations", r"(?:standard |crochet |us |uk |stitch |list of )*(?:abbreviations?|abbrevs?\.?|legend|key|glossary|"
     r"terminology)(?: used)?|stitches used"),
    ("notes", r"(?:pattern |general |helpful |designer'?s )?(?:notes?|tips?|hints?)"),
    ("work", r"(?:the )?(?:pattern|instructions?|directions?|method)|to make"),
    ("finishing", r"(?:to )?finish(?:ing)?(?: off)?|(?:to )?mak(?:e|ing) up|assembl(?:y|ing)|(?:to )?block(?:ing)?"),
    ("care", r"(?:wash|aftercare|care|washing)(?: instructions?)?"),
    ("about", r"introduction|description|about(?: (?:the|this) pattern)?"),
)  # fmt: skip
_ANY = "|".join(f"(?P<{kind}_{at}>{pattern})" for at, (kind, pattern) in enumerate(_HEADS))
_ALONE = re.compile(rf"[\W_]*(?:{_ANY})\s*(?:\([^)]*\))?\s*[:.–—-]*[\W_]*", re.IGNORECASE)
_LEADING = re.compile(rf"(?P<label>[\W_]*(?:{_ANY})\s*(?:\([^)]*\))?)\s*(?:[:=]|\s[–—-]\s|\s{2})\s*(?P<rest>\S.*)", re.IGNORECASE)
#: A heading that is none of these: a few words with a colon and nothing behind it.
_OTHER = re.compile(r"[\W_]*(?P<head>[A-Z][^\d:.,;()]{2,40}):[\s*_]*")
#: What only makes a heading stand out.
_DRESS = "*#_=~:.–—- \t"
#: What a line of a list begins with.
_MARK = re.compile(r"^\s*[-*•·–]\s+")
#: A line that is filled, and goes on below.
_FILLED = re.compile(r".{60,}[^.:;!?)\s]\s*")


@dataclass(frozen=True, slots=True)
class Part:
    """One part of a page: what it is, its heading as printed ("" where it has none), and its lines by number (from 1).
    `marked`: its lines are a list."""

    kind: Kind
    heading: str
    lines: tuple[tuple[int, str], ...]
    marked: bool = False

    @property
    def said(self) -> tuple[str, ...]:
        """Its lines, those that are only broken off joined again."""
        lines = [line for _, line in self.lines]
        return tuple(lines if self.kind in ("materials", "abbreviations") else _joined(lines))


def parts_of(lines: Sequence[tuple[int, str]], *, headed: bool = False) -> tuple[Part, ...]:
    """The parts of some lines of a page, each with its number (from 1); lines before any heading are "about" it.
    `headed`: only what stands under a heading is taken."""
    block: tuple[Kind, str] = ("about", "")
    found: list[tuple[Kind, str, list[tuple[int, str]]]] = [(*block, [])]
    inline = False
    for number, line in lines:
        if not line.strip():
            block = ("about", "") if inline else block
            found += [(*block, [])] if inline else []
            inline = False
            continue
        kind, heading, rest = _read(line)
        if kind is not None and not rest:
            block, inline = (kind, heading), False
            found.append((*block, []))
        elif kind is not None and not (block[0] == kind and not inline):
            found.append((kind, heading, [(number, _labelled(kind, line, rest))]))
            inline = True
        else:
            if inline and not _goes_on(found[-1][0], found[-1][2][-1][1], line):
                inline = False
                found.append((*block, []))
            found[-1][2].append((number, line.strip()))
    out = [_part(kind, heading, said) for kind, heading, said in found if said]
    return tuple(one for one in out if one.heading or not headed)


def begins_part(line: str) -> bool:
    """Whether a line begins a part of a page, as its heading or with it.

    >>> begins_part("Finished size"), begins_part("Notes: work loosely."), begins_part("Left sleeve: short")
    (True, True, False)
    """
    return (_ALONE.fullmatch(line) or _LEADING.fullmatch(line)) is not None


def _read(line: str) -> tuple[Kind | None, str, str]:
    """The part that a line begins, its heading, and what stands behind it on the line; None for a line of a part."""
    alone = _ALONE.fullmatch(line)
    if alone:
        return _kind(alone), _bare(line), ""
    other = _OTHER.fullmatch(line)
    if other:
        return "other", _bare(other["head"]), ""
    leading = _LEADING.fullmatch(line)
    return (_kind(leading), _bare(leading["label"]), leading["rest"].strip()) if leading else (None, "", "")


def _kind(found: re.Match[str]) -> Kind:
    name = next(name for name, hit in found.groupdict().items() if hit and "_" in name)
    return _HEADS[int(name.rpartition("_")[2])][0]


def _bare(heading: str) -> str:
    """A heading without what makes it stand out and without its bracket: "**NOTES**" -> "Notes"."""
    said = re.sub(r"\([^)]*\)\s*$", "", heading.strip().strip(_DRESS)).strip(_DRESS)
    return said.capitalize() if said.isupper() else said[:1].upper() + said[1:]


def _labelled(kind: Kind, line: str, rest: str) -> str:
    """A line that begins a part of its own: without its label where that becomes the heading."""
    return line.strip() if kind in ("materials", "level", "about") else rest[:1].upper() + rest[1:]


def _goes_on(kind: Kind, before: str, line: str) -> bool:
    """Whether a line goes on with what was begun behind a label: a fact is told on one line, unless it is broken off."""
    told_at_length = kind in ("notes", "finishing", "care", "stitches", "abbreviations", "other")
    return told_at_length or _FILLED.fullmatch(before) is not None or re.match(r"\s*[a-z(]", line) is not None


def _part(kind: Kind, heading: str, lines: Sequence[tuple[int, str]]) -> Part:
    marked = len(lines) > 1 and all(_MARK.match(said) for _, said in lines)
    cleared = tuple((number, _MARK.sub("", said)) for number, said in lines) if marked else tuple(lines)
    one = re.fullmatch(r"yarns?|(?:crochet )?hooks?|notions|tools|needles?|colou?rs?|stuffing", heading, re.IGNORECASE)
    if one and not marked and not cleared[0][1].lower().startswith(heading.lower()):
        cleared = ((cleared[0][0], f"{heading}: {cleared[0][1]}"), *cleared[1:])
    return Part(kind, heading, cleared, marked)


def _joined(lines: Sequence[str]) -> Iterator[str]:
    so_far = ""
    for line in lines:
        if so_far and _FILLED.fullmatch(so_far) and re.match(r"[a-z(]", line):
            so_far = f"{so_far} {line}"
            continue
        if so_far:
            yield so_far
        so_far = line
    if so_far:
        yield so_far
