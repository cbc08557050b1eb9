"""Where each key and value of a TOML text stands, so that a problem can point at it.

`tomllib` reads the values but forgets their places. This scanner walks a text that tomllib has already
accepted and keeps only places: it never judges, and what it does not understand it steps over.
"""

from __future__ import annotations

import re
from bisect import bisect_right
from dataclasses import field

from ...made_late import dataclass

#: A dotted key with the index of each table of an array: ("section", 1, "length").
Path = tuple[str | int, ...]

_BARE = re.compile(r"[A-Za-z0-9_-]+")
_SPACE = re.compile(r"[ \t]*")
_SCALAR = re.compile(r"[^,\]}\n#]*")
_ESCAPE = re.compile(r"\\(?:U[0-9A-Fa-f]{8}|u[0-9A-Fa-f]{4}|.)", re.DOTALL)
_LINE_END = re.compile(r"\\[ \t]*\r?\n[ \t\r\n]*")


@dataclass(frozen=True, slots=True)
class Place:
    """A place in the file: line and column from 1, how many characters it covers, and the line as written."""

    line: int
    column: int
    length: int
    text: str


@dataclass(frozen=True, slots=True)
class Words:
    """A text value with the place in the file where each of its lines begins (line, column, from 1).

    `at(2, 5)` is the place in the file of the fifth character of the text's second line, so that a problem
    found in a section's rows points into the pattern file.
    """

    text: str
    starts: tuple[tuple[int, int], ...] = ()

    def at(self, line: int, column: int = 1) -> tuple[int, int]:
        """The line and column in the file; (0, 0) where the text has no such line."""
        if not 1 <= line <= len(self.starts):
            return 0, 0
        file_line, file_column = self.starts[line - 1]
        return file_line, file_column + max(column, 1) - 1


@dataclass(slots=True)
class Places:
    """The places found in one text: of keys and table heads, of values, and of the lines of text values."""

    text: str
    keys: dict[Path, tuple[int, int]] = field(default_factory=dict)
    values: dict[Path, tuple[int, int]] = field(default_factory=dict)
    lines_of: dict[Path, tuple[int, ...]] = field(default_factory=dict)
    line_starts: list[int] = field(default_factory=list)

    def of_key(self, path: Path) -> Place:
        """Where a key stands; the table that should hold it where it is not written; else the first line."""
        while path and path not in self.keys:
            path = path[:-1]
        start, end = self.keys.get(path, (0, 1))
        return self.place(start, end)

    def of_value(self, path: Path) -> Place:
        """Where a value stands; its key where the value is not written on its own."""
        if path not in self.values:
            return self.of_key(path)
        return self.place(*self.values[path])

    def words(self, path: Path, value: str) -> Words:
        """A text value with the place of each of its lines."""
        starts = (self.place(at, at + 1) for at in self.lines_of.get(path, ()))
        return Words(value, tuple((p.line, p.column) for p in starts))

    def place(self, start: int, end: int) -> Place:
        """The place of the characters from offset `start` to `end`."""
        line = bisect_right(self.line_starts, start)
        head = self.line_starts[line - 1] if line else 0
        tail = self.text.find("\n", head)
        shown = self.text[head : tail if tail >= 0 else len(self.text)].rstrip("\r")
        length = max(1, min(end - start, len(shown) - (start - head)))
        return Place(max(line, 1), start - head + 1, length, shown)


def locate(text: str) -> Places:
    """The places of everything in a TOML text that tomllib accepts.

    >>> places = locate('[gauge]\\nstitches = 17')
    >>> places.of_value(("gauge", "stitches")).column
    12
    """
    places = Places(text)
    places.line_starts = [0, *(m.end() for m in re.finditer("\n", text))]
    _Scanner(text, places).run()
    return places


class _Scanner:
    """Walks the text once. `at` is the offset; `table` the path that bare keys belong to."""

    def __init__(self, text: str, places: Places) -> None:
        self.text, self.places = text, places
        self.at = 0
        self.table: Path = ()
        self.counts: dict[Path, int] = {}

    def run(self) -> None:
        while self.at < len(self.text):
            self.skip_blank()
            before = self.at
            if self.text.startswith("[", self.at):
                self.head()
            elif self.at < len(self.text):
                self.pair(self.table, ends="\n")
            self.at += self.at == before

    def skip_blank(self) -> None:
        """Past white space, line ends and comments."""
        while self.at < len(self.text):
            if self.text[self.at] == "#":
                self.to_line_end()
            elif self.text[self.at] in " \t\r\n":
                self.at += 1
            else:
                return

    def to_line_end(self) -> None:
        end = self.text.find("\n", self.at)
        self.at = len(self.text) if end < 0 else end

    def head(self) -> None:
        """A table's head, `[a.b]` or `[[a.b]]`."""
        start, many = self.at, self.text.startswith("[[", self.at)
        self.at += 2 if many else 1
        path = self.resolve([name for name, _, _ in self.dotted()], many=many)
        end = self.text.find("]", self.at)
        self.at = len(self.text) if end < 0 else end + (2 if many else 1)
        self.table = path
        self.places.keys.setdefault(path, (start, self.at))
        if many:
            self.places.keys.setdefault(path[:-1], (start, self.at))

    def resolve(self, names: list[str], *, many: bool) -> Path:
        """The path of a head: the newest table of each array on the way, a new one for `[[...]]`."""
        path: Path = ()
        for index, name in enumerate(names):
            path = (*path, name)
            last = index == len(names) - 1
            if many and last:
                self.counts[path] = self.counts.get(path, -1) + 1
            if path in self.counts:
                path = (*path, self.counts[path])
        return path

    def dotted(self) -> list[tuple[str, int, int]]:
        """A dotted key: each part with where it starts and ends."""
        parts: list[tuple[str, int, int]] = []
        while self.at < len(self.text):
            self.space()
            start = self.at
            if self.text[start : start + 1] in ('"', "'"):
                name = self.string(())
            elif found := _BARE.match(self.text, start):
                name, self.at = found[0], found.end()
            else:
                break
            parts.append((name, start, self.at))
            self.space()
            if not self.text.startswith(".", self.at):
                break
            self.at += 1
        return parts

    def space(self) -> None:
        found = _SPACE.match(self.text, self.at)
        self.at = found.end() if found else self.at

    def pair(self, table: Path, ends: str) -> None:
        """`key = value`; `ends` is what may follow a bare value."""
        parts = self.dotted()
        path = table
        for name, start, end in parts:
            path = (*path, name)
            self.places.keys.setdefault(path, (start, end))
        self.space()
        if not parts or not self.text.startswith("=", self.at):
            self.to_line_end()
            return
        self.at += 1
        self.space()
        self.value(path)
        if ends == "\n":
            self.to_line_end()

    def value(self, path: Path) -> None:
        start, first = self.at, self.text[self.at : self.at + 1]
        if first in ('"', "'"):
            self.string(path)
        elif first == "[":
            self.array(path)
        elif first == "{":
            self.inline_table(path)
        elif found := _SCALAR.match(self.text, self.at):
            self.at = start + len(found[0].rstrip())
        self.places.values[path] = (start, self.at)

    def array(self, path: Path) -> None:
        self.at += 1
        index = 0
        while self.at < len(self.text):
            self.skip_blank()
            if self.text.startswith("]", self.at):
                self.at += 1
                return
            before = self.at
            self.value((*path, index))
            self.places.keys.setdefault((*path, index), (before, self.at))
            index += 1
            self.after_comma(before)

    def inline_table(self, path: Path) -> None:
        self.at += 1
        while self.at < len(self.text):
            self.skip_blank()
            if self.text.startswith("}", self.at):
                self.at += 1
                return
            before = self.at
            self.pair(path, ends=",}")
            self.after_comma(before)

    def after_comma(self, before: int) -> None:
        """Past the comma; always forward, so that a broken text cannot hold the scanner."""
        self.skip_blank()
        self.at += self.text.startswith(",", self.at) or self.at == before

    def string(self, path: Path) -> str:
        """Past a string of any of the four kinds; keeps where the lines of its value begin."""
        quote = self.text[self.at]
        fence = quote * 3 if self.text.startswith(quote * 3, self.at) else quote
        self.at += len(fence)
        if len(fence) == 3 and (found := re.compile(r"\r?\n").match(self.text, self.at)):
            self.at = found.end()
        value, starts = self.string_body(fence)
        self.places.lines_of[path] = tuple(starts)
        return value

    def string_body(self, fence: str) -> tuple[str, list[int]]:
        """What stands before the closing fence, and the offset at which each line of the value begins."""
        kept: list[str] = []
        starts = [self.at]
        while self.at < len(self.text) and not self.text.startswith(fence, self.at):
            piece = self.string_piece(fence)
            kept.append(piece)
            if piece == "\n":
                starts.append(self.at)
        self.at += len(fence)
        while len(fence) == 3 and self.text.startswith(
            fence[0], self.at
        ):  # up to two quotes before the fence
            self.at += 1
        return "".join(kept), starts

    def string_piece(self, fence: str) -> str:
        """One character of the value, and past what it is written as."""
        if fence[0] == '"' and self.text[self.at] == "\\":
            if len(fence) == 3 and (found := _LINE_END.match(self.text, self.at)):
                self.at = found.end()
                return ""
            found = _ESCAPE.match(self.text, self.at)
            self.at = found.end() if found else self.at + 1
            return "\n" if found and found[0] == "\\n" else "?"
        self.at += 1
        return self.text[self.at - 1]
