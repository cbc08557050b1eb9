"""One set of words for several sizes, as printed patterns give them: "Ch 39 (47, 55)", smallest first.

Each size is worked for itself; where the words of all differ in their numbers only, the numbers are set side by side.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

from ...drawing.plain import markdown
from ...folding.finishing import finishing_texts
from ...made_late import dataclass
from ...setting import Setting
from .. import words
from ..piece import Piece
from ..size_words import several

#: A number, or one to another, or which one in a row: "47", "9-12", "4th".
_NUMBER = re.compile(r"(\d+(?:\.\d+)?(?:[-–]\d+)?(?:(?:st|nd|rd|th)\b)?)")
#: A count at a row's end with the numbers of several sizes in it.
_COUNT = re.compile(r" \(((?:[^()]|\([^()]*\))*\([^()]*\)[^()]*)\)(?=$| Cut )")
#: How often rows are repeated, when it is said in words.
_TWICE = re.compile(r"(Rep (?:Row|Rnd)s \d+[-–]\d+)(?: twice)?\.")


@dataclass(frozen=True, slots=True)
class SizedLine:
    """A line for all sizes: its label and words, how many rows it is in each size, and by how many they come again."""

    label: str
    words: str
    rows: tuple[int, ...]
    period: int


#: That all sizes work something once, or twice.
_SAME_TIMES = re.compile(r"(?<=[)\d]) ([12]) times\.")


def merged(texts: Sequence[str]) -> str | None:
    """One text for several that differ in their numbers only; None where they differ otherwise.

    >>> merged(["Rep Rows 2-3.", "Rep Rows 4-5."])
    'Rep Rows 2-3 (4-5).'
    >>> merged(["Ch 39.", "Ch 47."]), merged(["(45 sts)", "(45 sts)"]), merged(["Sc in next st.", "Turn."])
    ('Ch 39 (47).', '(45 sts)', None)
    """
    if len(set(texts)) == 1:
        return texts[0]
    split = [_NUMBER.split(_TWICE.sub(_counted, text)) for text in texts]
    if len({tuple(parts[::2]) for parts in split}) != 1:
        return None
    said = "".join(
        part if at % 2 == 0 else several([parts[at] for parts in split]) for at, part in enumerate(split[0])
    )
    return _SAME_TIMES.sub(lambda found: "." if found[1] == "1" else " twice.", said)


def _counted(found: re.Match[str]) -> str:
    return f"{found[1]} {2 if 'twice' in found[0] else 1} times."


@dataclass(frozen=True, slots=True)
class SizedSection:
    """A section for all sizes: the lines that are told for all at once, and from which line on (0-based) the rest is
    told size by size (None where nothing is)."""

    name: str
    lines: tuple[SizedLine, ...]
    apart_from: int | None = None


def sized_rows(pieces: Sequence[Piece], setting: Setting) -> list[SizedSection]:
    """The rows of each section for all sizes; where the words of a section do not meet, those that are the same in
    every size come first."""
    every = [words.row_lines(piece.rows, piece.fabric, setting.terms) for piece in pieces]
    out: list[SizedSection] = []
    for at, (name, _) in enumerate(every[0]):
        sections = [some[at][1] for some in every]
        lines = [_line(pieces, sections, n) for n in range(len(sections[0]))]
        told = tuple(line for line in lines if line is not None)
        if len(told) == len(lines) and len({len(section) for section in sections}) == 1:
            out.append(SizedSection(name, told))
            continue
        shared = next((n for n, line in enumerate(lines) if line is None or not _same(sections, n)), len(lines))
        out.append(SizedSection(name, tuple(line for line in lines[:shared] if line is not None), shared))
    return out


def _same(sections: Sequence[Sequence[words.Line]], n: int) -> bool:
    """Whether the n-th line of a section is the same in every size."""
    return len({section[n] for section in sections if n < len(section)}) == 1 and all(n < len(s) for s in sections)


def _line(pieces: Sequence[Piece], sections: Sequence[Sequence[words.Line]], n: int) -> SizedLine | None:
    if any(len(section) <= n for section in sections):
        return None
    lines = [section[n] for section in sections]
    said = merged([line.text for line in lines])
    labels = [words.label_of(piece.fabric, line) for piece, line in zip(pieces, lines, strict=True)]
    label = merged(labels) or merged([re.sub(r" \([RW]S\)$", "", one) for one in labels])
    if said is None or label is None:
        return None
    counts = tuple(line.last - line.first + 1 for line in lines)
    return SizedLine(label, _counted_plainly(said), counts, lines[0].period)


def _counted_plainly(said: str) -> str:
    """A count at the end of a row without brackets round it, where the numbers of other sizes stand in brackets.

    >>> _counted_plainly("Sc in each st across. (37 (45, 53) sts)"), _counted_plainly("Sc in each st. (9 sts)")
    ('Sc in each st across. 37 (45, 53) sts.', 'Sc in each st. (9 sts)')
    """
    found = _COUNT.search(said)
    return f"{said[: found.start()]} {found[1]}.{said[found.end() :]}" if found else said


def sized_foundation(pieces: Sequence[Piece], setting: Setting) -> list[str]:
    """What to chain, for all sizes."""
    every = [
        [line for line in words.foundation_words(piece.rows, piece.fabric, setting.terms) if line] for piece in pieces
    ]
    return _side_by_side(every, [""] * len(pieces)) or every[0]


def sized_finishing(pieces: Sequence[Piece], names: Sequence[str], setting: Setting) -> list[str]:
    """The finishing for all sizes: step by step where the steps meet; a step that does not is told size by size."""
    every = [
        list(finishing_texts(piece.plan, piece.border, terms=setting.terms, folding=piece.folding)) for piece in pieces
    ]
    if len({len(steps) for steps in every}) != 1:
        return [f"{name}: {step}" for name, steps in zip(names, every, strict=True) for step in steps]
    out = []
    for alike in zip(*every, strict=True):
        lines = [step.split("\n") for step in alike]
        together = _side_by_side(lines, names)
        each = [f"{name}: {line}" for name, some in zip(names, lines, strict=True) for line in some]
        out.append("\n".join(together or each))
    return out


def _side_by_side(every: Sequence[Sequence[str]], names: Sequence[str]) -> list[str] | None:
    """The n-th text of each as one; None where there are not as many of each."""
    if len({len(texts) for texts in every}) != 1:
        return None
    out = []
    for texts in zip(*every, strict=True):
        one = merged(texts)
        out.append(one or " ".join(f"{name}: {text}" for name, text in zip(names, texts, strict=True)))
    return out


def sized_words(pieces: Mapping[str, Piece], setting: Setting) -> list[str]:
    """The rows and the finishing of all sizes as lines of Markdown."""
    every = list(pieces.values())
    lines = ["## Foundation", "", *sized_foundation(every, setting), ""]
    for section in sized_rows(every, setting):
        titled = markdown(section.name[:1].upper() + section.name[1:])
        lines += [f"## {titled}", "", *(f"{line.label}: {line.words}\n" for line in section.lines)]
        if section.apart_from is None:
            continue
        for size, piece in pieces.items():
            own = dict(words.row_lines(piece.rows, piece.fabric, setting.terms))[section.name][section.apart_from :]
            lines += [f"For size {markdown(size)} only:", ""]
            shown = [f"{words.show_line(piece.fabric, line)}\n" for line in own]
            lines += shown or ["nothing more is worked here.", ""]
        lines += ["For all sizes:", ""]
    steps = sized_finishing(every, list(pieces), setting)
    return [*lines, "## Finishing", "", *words.numbered(steps), ""]
