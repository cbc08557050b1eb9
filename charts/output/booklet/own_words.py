"""What a written pattern's page says beside its rows: its title, author and licence, and its talk in its own words."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Literal

from ...made_late import dataclass
from ...model.rows.working import Worked
from ...pattern.tree import RowText
from ..written import title_of
from .page_parts import Kind, Part, begins_part, parts_of

#: No title is longer; a longer line is talk.
_LONGEST_TITLE = 70
_AUTHOR = re.compile(
    r"^(?:(?:pattern |designed |written )?by\b|designer:|author:)\s*(?P<said>[^!?()]{2,60}?)\.?$", re.IGNORECASE
)
_LICENCE = re.compile(r"^licen[cs]e:\s*(?P<said>.{2,100}?)\.?$", re.IGNORECASE)
#: What a buyer looks for: its name, under which heading it stands, what else tells of it, and a line that gives it.
_WANTED: tuple[tuple[str, Kind | Literal[""], str, str], ...] = (
    ("yarn", "", r"\b(?:yarn|wool|cotton|thread|linen|acrylic)\b", "Yarn: ..."),
    ("hook", "", r"\bhooks?\b", "Hook: ..."),
    ("gauge", "gauge", r"\b(?:gauge|tension)\b", "Gauge: ..."),
    ("finished size", "size", r"\b(?:size|measures?|measurements?|across|diameter)\b.*\d", "Finished size: ..."),
)
#: A line that gives the title, and one that gives the terms, which are said elsewhere.
_TITLED = re.compile(
    r"^[\W_]*(?:title|pattern(?: name)?|name|design)\s*:\s*"
    r"(?P<said>(?:[a-z][^.;:*\[\]\d]*: )?[^.;:*\[\]]{2,70})$", re.IGNORECASE
)
_TERMS = re.compile(r"^\W*terms?\W*(?:us|uk|american|british)\b(?: terms)?\W*$", re.IGNORECASE)
#: What a title says of the terms, which stand apart: "Slipper (US terms)".
_IN_TERMS = re.compile(r"\s*[(\[](?:us|usa|uk|american|british)(?: crochet)?(?: terms?)?[)\]]\s*$", re.IGNORECASE)
#: A title of two parts: "Sea Garden: a Shawl".
_SUBTITLED = re.compile(r"[A-Z][^\d:]{2,40}: (?:a |an |the )?[A-Z][^\d:]*")
#: How a line of beginning reads that only names a colour, which its foundation says again.
_COLOUR = re.compile(r"^\W*(?:with|using|in|colou?r)\s+\S+(?: \S+)?\W*$", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class OwnWords:
    """The page's title, author and licence ("" where it gives none), its parts before and behind its rows, and its
    talk between them by line (from 1)."""

    title: str
    author: str
    licence: str
    parts: tuple[Part, ...]
    talk: tuple[tuple[int, str], ...]

    def of(self, *kinds: Kind) -> tuple[Part, ...]:
        """The parts of some kinds, in the order of the page."""
        return tuple(part for part in self.parts if part.kind in kinds)

    @property
    def whole(self) -> str:
        """All that the page says beside its rows, headings too."""
        told = [said for part in self.parts for said in (part.heading, *part.said)]
        return "\n".join([*told, *(said for _, said in self.talk)])

    @property
    def sized(self) -> bool:
        """Whether the page says how large the piece comes out."""
        return self._tells("size", _WANTED[-1][2])

    @property
    def lacks(self) -> tuple[str, ...]:
        """What a buyer looks for and the page does not give, each with the line that would give it."""
        lacking = [(name, line) for name, kind, said, line in _WANTED if not self._tells(kind, said)]
        missing = [f'no {name}: write a line "{line}"' for name, line in lacking]
        missing += [] if self.author else ['no author: write a line "By ..."']
        return tuple(missing if self.title else ['no title: write it on the first line, or "Title: ..."', *missing])

    def _tells(self, kind: Kind | Literal[""], said: str) -> bool:
        return bool(kind and self.of(kind)) or re.search(said, self.whole, re.IGNORECASE) is not None

    def between(self, after: int, before: int) -> tuple[str, ...]:
        """The talk that stands after one line and before another."""
        return tuple(said for line, said in self.talk if after < line < before)


def own_words(text: str, worked: Worked) -> OwnWords:
    """What a page says of itself, from its text as it stands and what was taken as talk in it."""
    lines = text.splitlines()
    work = _work_lines(worked)
    title, at = _title(lines, work, worked)
    numbered = list(enumerate(lines, 1))
    first, last = min(work, default=len(lines) + 1), max((row.line for row in _rows(worked)), default=0)
    said = [*numbered[: first - 1], *worked.prose]
    author, licence = _first(_AUTHOR, said), _first(_LICENCE, said)
    used = {at, author[0], licence[0]}
    names = _piece_names(worked)
    before = [(n, line) for n, line in numbered[: first - 1] if not _left_out(n, line, used, names, worked)]
    behind = [(n, line) for n, line in numbered[last:] if n not in used and not line.lstrip().startswith("#")]
    parts = (*parts_of(before), *parts_of(behind, headed=True)) if last else parts_of(before)
    told = {n for part in parts for n, _ in part.lines} | {n for n, _ in before}
    talk = tuple((n, said) for n, said in worked.prose if n not in told and n not in used and n >= first)
    return OwnWords(title, author[1], licence[1], parts, talk)


def titled(text: str, worked: Worked, name: str) -> str:
    """What a written pattern is called: by its page, else by its file."""
    return own_words(text, worked).title or title_of(name)


def _rows(worked: Worked) -> list[RowText]:
    return [row for piece in worked.pieces for row in piece.texts]


def _work_lines(worked: Worked) -> set[int]:
    """The lines that rows and foundations stand on."""
    begun = [row.begins for row in _rows(worked) if row.begins] + [worked.pattern.start]
    return {row.line for row in _rows(worked)} | {start.line for start in begun if start and start.line}


def _piece_names(worked: Worked) -> set[str]:
    """What the pieces are called, where there are several."""
    return {piece.name.lower() for piece in worked.pieces} if len(worked.pieces) > 1 else set()


def _left_out(number: int, line: str, used: set[int], names: set[str], worked: Worked) -> bool:
    """Whether a line before the rows is said elsewhere: the title, the author, the terms, a piece's name; or is a
    remark to the reader alone."""
    taken = {at for at, _ in worked.prose}
    named = line.strip(" *#_=~:.").lower() in names
    colour = number not in taken and _COLOUR.match(line) is not None
    return number in used or _comment(line) or named or colour or _TERMS.match(line) is not None


def _markdown(line: str) -> bool:
    """Whether a line with "#" before it is the heading of a part."""
    return re.match(r"\s*#{2,}\s", line) is not None


def _title(lines: Sequence[str], work: set[int], worked: Worked) -> tuple[str, int]:
    """The page's title and its line: that of a line "Title: ...", else the first line that says something, where it is
    short and neither work nor a sentence nor the name of the piece right below it; ("", 0) where there is none."""
    first = min(work, default=len(lines) + 1)
    said = [(n, line.strip()) for n, line in enumerate(lines[: first - 1], 1) if line.strip() and not _comment(line)]
    told = ((n, _TITLED.match(line)) for n, line in said)
    given = next(((found["said"].strip(), n) for n, found in told if found), None)
    if given:
        return given
    specials = {special.line for special in worked.pattern.specials}
    rest = [(n, line) for n, line in said if not _AUTHOR.match(line) and not _TERMS.match(line)]
    if not rest:
        return "", 0
    (at, line), more = rest[0], rest[1:]
    bare = _IN_TERMS.sub("", line.strip("*#_=~ ").rstrip(":").strip())
    names_piece = bare.lower() in _piece_names(worked) and not more
    sentence = len(bare) > _LONGEST_TITLE or line.endswith((".", ",", ":")) or "=" in line
    labelled = ": " in line and not _SUBTITLED.fullmatch(bare)
    if at in specials or sentence or labelled or names_piece or begins_part(line) or _LICENCE.match(line):
        return "", 0
    return bare, at


def _comment(line: str) -> bool:
    return line.lstrip().startswith("#") and not _markdown(line)


def _first(pattern: re.Pattern[str], lines: Sequence[tuple[int, str]]) -> tuple[int, str]:
    found = ((at, pattern.match(said.strip())) for at, said in lines)
    return next(((at, match["said"]) for at, match in found if match), (0, ""))


#: What the licences allow that makers of patterns use, in plain words (Creative Commons, the deeds of version 4.0 and
#: of CC0 1.0).
_ALLOWS = (
    (r"CC0\b", "you may use it in any way, without asking"),
    (r"CC BY-NC-SA\b", "you may share and change it, not for money, if you name its author and pass it on under the "
     "same licence"),
    (r"CC BY-NC-ND\b", "you may share it unchanged, not for money, if you name its author"),
    (r"CC BY-NC\b", "you may share and change it, not for money, if you name its author"),
    (r"CC BY-SA\b", "you may share and change it, for money too, if you name its author and pass it on under the same "
     "licence"),
    (r"CC BY-ND\b", "you may share it unchanged, for money too, if you name its author"),
    (r"CC BY\b", "you may share and change it, for money too, if you name its author"),
)  # fmt: skip


def licence_words(licence: str) -> str:
    """A licence with what it allows, in plain words where it is a known one.

    >>> licence_words("CC BY 4.0"), licence_words("All rights reserved")
    ('CC BY 4.0: you may share and change it, for money too, if you name its author.', 'All rights reserved.')
    """
    allows = next((said for pattern, said in _ALLOWS if re.match(pattern, licence, re.IGNORECASE)), "")
    return f"{licence}: {allows}." if allows else f"{licence}."
