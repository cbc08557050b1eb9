"""How a row begins: its name, number and side; lines cut where rows begin."""

from __future__ import annotations

import re
from dataclasses import dataclass

HEADER = re.compile(
    r"(?P<label>(?:(?P<lead>edging|border|trim|foundation|base|set-?up|joining|next|last|final|first)\s+)?"
    r"(?P<word>rows?|rnds?|rounds?)\s*(?:(?P<first>\d{1,6})\s*"
    r"(?:(?:-|to|and|&|,)\s*(?:(?:row|rnd|round)\s+)?(?P<last>\d{1,6})|(?P<more>(?:,\s*\d{1,6})+(?:\s*(?:and|&)\s*\d{1,6})?))?)?"
    r"|(?:edging|border|trim)|(?P<ord>\d{1,4}(?:st|nd|rd|th))\s+(?P<word2>row|rnd|round))"
    r"\s*(?P<side>\((?:rs|ws|right side|wrong side)\))?(?:\s*\([^():]{1,60}\))?"
    r"\s*(?::|\.(?=\s+[a-z0-9*(\[])|-(?=\s))\s*"
)  # fmt: skip


@dataclass(slots=True)
class Block:
    """A statement as it is gathered: its lines, where it begins, whether it is a row."""

    lines: list[str]
    line: int
    column: int
    is_row: bool

    def go_on(self, number: int, text: str) -> None:
        """Take a further line, keeping the lines between as empty ones so that places stay right."""
        self.lines += [""] * (number - self.line - len(self.lines)) + [text]


def split_rows(line: str, low: str, number: int) -> list[Block]:
    """One line's statements: rows written one after the other in a line are taken apart."""
    starts = [0]
    for found in HEADER.finditer(low):
        numbered = (found["first"] or found["ord"]) and ":" in found[0]
        if found.start() and numbered and _ends_statement(low, found.start()):
            starts.append(found.start())
    ends = [*starts[1:], len(line)]
    return [_block(line[a:b].rstrip(), low[a:b], number, a + 1) for a, b in zip(starts, ends, strict=True)]


def _block(text: str, low: str, number: int, column: int) -> Block:
    return Block([text], number, column, bool(HEADER.match(low.lstrip())))


def _ends_statement(low: str, at: int) -> bool:
    """Whether what stands before place `at` ends a statement."""
    while at and low[at - 1].isspace():
        at -= 1
    return at > 0 and low[at - 1] in ".)];"


def label_of(header: re.Match[str]) -> tuple[str, int, int]:
    """The row's label as printed (without its side) and its first and last number."""
    label = re.sub(r"\s+", " ", header["label"]).strip()
    word = label[0].upper() + label[1:]
    word = re.sub(r"\b(rnds?|rows?|rounds?)\b", lambda m: m[0].capitalize(), word)
    if header["ord"]:
        n = int(re.match(r"\d+", header["ord"])[0])  # type: ignore[index]
        return f"{header['word2'].capitalize()} {n}", n, n
    first = int(header["first"] or 0)
    last = int(header["last"] or 0)
    if header["more"]:
        last = int(re.findall(r"\d+", header["more"])[-1])
    return word, first, max(first, last)
