"""How a pattern begins: its chain, its ring, the stitches it goes over."""

from __future__ import annotations

import re

from . import lexicon
from .tree import Chain, Make, RowText, Start, walk

START = re.compile(
    r"^(?:foundation(?: chain| ch| row)?\s*:\s*|to begin[,:]?\s*|begin[,:]?\s*|start[,:]?\s*)?"
    r"(?:(?:with|using|in)\s+(?P<colour>[^,]{1,40}),\s*)?"
    r"(?:(?:ch|chain|make)\s+(?P<n>\d{1,9})(?:\s*ch(?:ain)?s?)?|(?P<n2>\d{1,9})\s*ch(?:ain)?s?)"
    r"(?![a-z0-9-])(?P<rest>.*)$",
    re.DOTALL,
)
NO_MORE = re.compile(r"\s*(?:\.|\(|$|[,;]?\s*(?:join|sl st|ss)\b)")
OVER = re.compile(r"^(?:worked\s+)?over\s+(?P<n>\d{1,9})\s+(?P<kind>[a-z][a-z ]*?)\s*(?:\([^)]*\))?\s*\.?\s*$")
FOUNDATION_STITCHES = re.compile(
    r"^(?:(?:with|using)\s+[^,]{1,40},\s*)?(?:(?:make|work)\s+)?(?:(?P<n>\d{1,9})\s+(?P<kind>f[a-z]{2,4})|(?P<kind2>f[a-z]{2,4})\s+(?P<n2>\d{1,9}))"
    r"\b(?P<rest>[^a-z]*(?:turn)?[^a-z]*)$"
)
RING = re.compile(
    r"^(?:(?:with|using|in)\s+(?P<colour>[^,]{1,40}),\s*)?(?:make |form |begin with |start with )?(?:a |an )?"
    r"(?:adjustable |magic )(?:ring|loop|circle)(?:\s+(?:with|in|using)\s+(?P<colour2>(?:(?:colou?r|yarn) )?[a-z])\b)?"
)


def yarn_of(found: re.Match[str]) -> str:
    """The yarn that a beginning is worked in: its letter in capitals, or its name.

    >>> yarn_of(RING.match("with colour b, make a magic ring"))
    'B'
    """
    said = next((found[name] for name in ("colour", "colour2") if name in found.re.groupindex and found[name]), "")
    name = re.sub(r"^(?:colou?r|yarn)\s+", "", said.strip())
    return name.upper() if len(name) <= 2 else name


def over_kind(words: str, terms: str) -> str | None:
    word = words.strip()
    if word in lexicon.SYNONYMS["st"]:
        return "st"
    return lexicon.long_names(terms).get(word) or lexicon.stitch_name(word.replace(" ", ""), terms)


def start_in_row(rows: list[RowText]) -> Start | None:
    """The start that the first row itself makes: a chain, a ring, or a row of foundation stitches."""
    row = rows[0]
    hooks = [p for op in walk(row.ops) if isinstance(op, Make) for p in op.places if p.which == "hook"]
    if row.ops and isinstance(row.ops[0], Chain) and hooks:
        return Start("chain", row.ops[0].count, "ch", None, row.line, row.text)
    if any(isinstance(op, Make) and any(p.which == "ring" for p in op.places) for op in walk(row.ops)):
        return Start("magic ring", line=row.line, text=row.text)
    if any(isinstance(op, Make) and op.stitch.startswith("f") and lexicon.height_of(op.stitch) for op in walk(row.ops)):
        return Start("none", line=row.line, text=row.text)
    return None
