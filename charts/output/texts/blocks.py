"""A page of Markdown as blocks: headings, paragraphs, lists and tables, each with its plain text.

Read by markdown-it as CommonMark with tables and without emphasis: the stars of a page are those of its repeats.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from markdown_it import MarkdownIt
from markdown_it.token import Token

from ...made_late import dataclass


@dataclass(frozen=True, slots=True)
class Title:
    """A heading of level 1, 2, ..."""

    level: int
    text: str


@dataclass(frozen=True, slots=True)
class Text:
    """A paragraph; its lines as they stand."""

    text: str


@dataclass(frozen=True, slots=True)
class Items:
    """A list, numbered or not."""

    texts: tuple[str, ...]
    numbered: bool


@dataclass(frozen=True, slots=True)
class Cells:
    """A table: its head and its rows."""

    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


Block = Title | Text | Items | Cells


#: What no page of ours means, so that what looks so is a pattern's own words.
_NOT_MEANT = ("emphasis", "link", "image", "autolink")


def blocks_of(page: str) -> tuple[Block, ...]:
    """The blocks of a page in order.

    >>> blocks_of("# Mat\\n\\n*sc in next st; rep from * across.")
    (Title(level=1, text='Mat'), Text(text='*sc in next st; rep from * across.'))
    """
    reader = MarkdownIt("commonmark", {"html": False}).enable("table").disable(list(_NOT_MEANT))
    return tuple(_blocks(reader.parse(page)))


def _blocks(tokens: Sequence[Token]) -> Iterator[Block]:
    at = 0
    while at < len(tokens):
        token = tokens[at]
        end = _end(tokens, at)
        inside = tokens[at + 1 : end]
        if token.type == "heading_open":
            yield Title(int(token.tag[1:]), _said(inside))
        elif token.type == "paragraph_open":
            yield Text(_said(inside))
        elif token.type in ("bullet_list_open", "ordered_list_open"):
            texts = tuple(_said(item) for item in _each(inside, "list_item_open"))
            yield Items(texts, token.type.startswith("ordered"))
        elif token.type == "table_open":
            head, *rows = (tuple(_said(cell) for cell in _cells(row)) for row in _each(inside, "tr_open"))
            yield Cells(head, tuple(rows))
        elif token.content:
            yield Text(token.content.rstrip("\n"))
        at = end + 1


def _cells(row: Sequence[Token]) -> list[Sequence[Token]]:
    return [*_each(row, "th_open"), *_each(row, "td_open")]


def _each(tokens: Sequence[Token], opening: str) -> list[Sequence[Token]]:
    """What stands inside each of the outermost tokens of a kind."""
    out, at = [], 0
    while at < len(tokens):
        if tokens[at].type == opening:
            end = _end(tokens, at)
            out.append(tokens[at + 1 : end])
            at = end
        at += 1
    return out


def _end(tokens: Sequence[Token], at: int) -> int:
    """Where the token that opens at `at` is closed; itself where it opens nothing."""
    depth = 0
    for end in range(at, len(tokens)):
        depth += tokens[end].nesting
        if depth <= 0:
            return end
    return len(tokens) - 1


def _said(tokens: Sequence[Token]) -> str:
    """The plain text of what stands inside, breaks as breaks."""
    out = []
    for token in tokens:
        for child in token.children or ():
            out.append("\n" if child.type in ("softbreak", "hardbreak") else child.content)
    return "".join(out)
