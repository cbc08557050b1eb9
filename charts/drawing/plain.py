"""The user's own words made fit for a file: characters XML can carry, composed, no hidden direction signs."""

from __future__ import annotations

import re
import unicodedata

#: The longest text drawn on one line; what is longer is cut with an ellipsis.
LINE_LIMIT = 400

_NOT_XML = re.compile("[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
#: Marks that change the reading direction or hide: they can make a text look like another.
_HIDDEN = re.compile(
    "[\u061c\u200b-\u200f\u202a-\u202e\u2060-\u2064\u2066-\u206f\ufeff\ufff9-\ufffb\ufffe\uffff]"
)
_BREAKS = re.compile(r"[\t\n\r\u0085\u2028\u2029\v\f]+")
_CONTROL = re.compile("[\u0000-\u001f\u007f-\u009f]")


def clean_line(text: str, limit: int = LINE_LIMIT) -> str:
    """One line for a sheet: XML characters only, NFC, no controls, no direction overrides, at most `limit`.

    >>> clean_line("Caf\\u0065\\u0301 \\u202edlof\\x00")
    'Café dlof'
    """
    return _cut(_CONTROL.sub("", _BREAKS.sub(" ", clean_text(text, limit * 4))), limit)


def clean_text(text: str, limit: int = 100_000) -> str:
    """The same, keeping tabs and line breaks."""
    kept = text[: limit * 2].replace("\r\n", "\n")
    return _cut(unicodedata.normalize("NFC", _HIDDEN.sub("", _NOT_XML.sub("", kept))), limit)


#: What turns into something else on a Markdown page: tags and entities, code, cells of a table, links, and at a line's
#: beginning headings, lists and quotes (CommonMark 0.31, 2.4 and 4 to 6).
_MARKDOWN = re.compile(r"[\\`<|]|\](?=[(\[:])|&(?=#?\w+;)|(?:(?<=\n)|\A)\s*(?:[#>+-]|\d+[.)])(?=\s)")


def markdown(text: str) -> str:
    """The user's words on a Markdown page: they stay text and begin no tag, link, table cell, list or heading.

    >>> print(markdown("moss | <b>oat</b>"), markdown("# 1"))
    moss \\| \\<b>oat\\</b> \\# 1
    """
    return _MARKDOWN.sub(lambda found: found[0][:-1] + "\\" + found[0][-1], text)


def _cut(text: str, limit: int) -> str:
    return text if len(text) <= limit else text[: limit - 1] + "…"
