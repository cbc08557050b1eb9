"""Which of the two a text is: a pattern file with its tables, or a written pattern."""

from __future__ import annotations

import re

from ..errors import PatternError, Problem

#: Tables that a pattern file cannot do without; no row of a written pattern looks so.
_TABLES = re.compile(r"^[ \t]*\[(?:object|gauge)\]", re.MULTILINE)
_WRITTEN = (".txt", ".md")


def is_written(name: str, text: str) -> bool:
    """Whether a file is a written pattern (.txt) rather than a pattern file (.toml).

    >>> is_written("hat.txt", ""), is_written("standard input", "[gauge]")
    (True, False)
    """
    if name.lower().endswith(_WRITTEN):
        return True
    return not name.lower().endswith(".toml") and "[gauge]" not in text and "[object]" not in text


def misnamed(text: str, name: str) -> Problem | None:
    """A pattern file under the name of a written pattern; None where the name fits."""
    found = _TABLES.search(text) if name.lower().endswith(_WRITTEN) else None
    if found is None:
        return None
    says = "this is a pattern file (TOML) under the name of a written pattern."
    line = text.count("\n", 0, found.end()) + 1
    shown = text.split("\n")[line - 1].rstrip()
    remedy = f"name it {name.rsplit('/', 1)[-1].rsplit('.', 1)[0]}.toml."
    return Problem("file", "", says, remedy, line, 1, shown, max(len(shown), 1), name)


def measured_or_raise(text: str, name: str) -> str:
    """The text of a pattern file as it is; PatternError for a written pattern, which measures nothing."""
    if is_written(name, text):
        says = "a written pattern has no measurements to fold or cut by"
        remedy = 'measure the object and write a pattern file: "hookfold start FILE"'
        raise PatternError([misnamed(text, name) or Problem("missing", "Pattern", says, remedy, file=name)])
    return text
