"""What a written pattern's page says beside its rows: its title, author and licence, and its talk in its own words."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from ...model.rows.working import Worked

#: No title is longer; a longer line is talk.
_LONGEST_TITLE = 70
_AUTHOR = re.compile(
    r"^(?:(?:pattern |designed |written )?by\b|designer:|author:)\s*(?P<said>.{2,60}?)\.?$", re.IGNORECASE
)
_LICENCE = re.compile(r"^licen[cs]e:\s*(?P<said>.{2,100}?)\.?$", re.IGNORECASE)
#: What tells how large the piece comes out.
_SIZED = re.compile(r"\b(?:size|measures?|measurements?|across|diameter)\b.*\d", re.IGNORECASE)
#: What a buyer looks for: its name, what tells that it is spoken of, and a line that gives it.
_WANTED = (
    ("yarn", re.compile(r"\b(?:yarn|wool|cotton|thread|linen|acrylic)\b", re.IGNORECASE), "Yarn: ..."),
    ("hook", re.compile(r"\bhooks?\b", re.IGNORECASE), "Hook: ..."),
    ("gauge", re.compile(r"\b(?:gauge|tension)\b", re.IGNORECASE), "Gauge: ..."),
    ("finished size", _SIZED, "Finished size: ..."),
)


#: How a line begins that says what is needed or how large the piece is.
_NEEDED = re.compile(
    r"^(?:yarn|materials?|hooks?|gauge|tension|notions|size|finished size|measures?)\s*:", re.IGNORECASE
)


@dataclass(frozen=True, slots=True)
class OwnWords:
    """The page's title, author and licence ("" where it gives none), and its other lines of talk by line (from 1)."""

    title: str
    author: str
    licence: str
    talk: tuple[tuple[int, str], ...]

    @property
    def sized(self) -> bool:
        """Whether the talk says how large the piece comes out."""
        return any(_SIZED.search(said) for _, said in self.talk)

    @property
    def lacks(self) -> tuple[str, ...]:
        """What a buyer looks for and the page does not give, each with the line that would give it."""
        told = " ".join(said for _, said in self.talk)
        missing = [f'no {name}: write a line "{line}"' for name, pattern, line in _WANTED if not pattern.search(told)]
        return tuple(missing if self.author else [*missing, 'no author: write a line "By ..."'])

    @property
    def needs(self) -> tuple[tuple[int, str], ...]:
        """The lines that say what is needed, or how large it comes out: "Yarn: ...", "Gauge: ..."."""
        return tuple((line, said) for line, said in self.talk if _NEEDED.match(said))

    def between(self, after: int, before: int) -> tuple[str, ...]:
        """The talk that stands after one line and before another."""
        return tuple(said for line, said in self.talk if after < line < before)


def own_words(text: str, worked: Worked) -> OwnWords:
    """What a page says of itself, from its text as it stands and what was taken as talk in it."""
    title, line = _title(text.splitlines(), worked)
    talk = [(at, said) for at, said in worked.prose if at != line]
    author = _first(_AUTHOR, talk)
    licence = _first(_LICENCE, talk)
    used = {at for at, _ in (author, licence) if at}
    return OwnWords(title, author[1], licence[1], tuple(one for one in talk if one[0] not in used))


def _title(lines: Sequence[str], worked: Worked) -> tuple[str, int]:
    """The first line that says something, where it is short and tells no work, and its number; ("", 0) else."""
    work = {row.line for piece in worked.pieces for row in piece.texts}
    work |= {row.begins.line for piece in worked.pieces for row in piece.texts if row.begins}
    work |= {special.line for special in worked.pattern.specials}
    parts = {piece.name.lower() for piece in worked.pieces}
    for at, line in enumerate(lines, 1):
        said = line.strip()
        if not said or said.startswith("#") or _AUTHOR.match(said):
            continue
        titled = at not in work and len(said) <= _LONGEST_TITLE and ":" not in said and not said.endswith((".", ","))
        return (said, at) if titled and said.lower() not in parts else ("", 0)
    return "", 0


def _first(pattern: re.Pattern[str], talk: Sequence[tuple[int, str]]) -> tuple[int, str]:
    found = ((at, pattern.match(said.strip())) for at, said in talk)
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
