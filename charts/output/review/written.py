"""The points of a written pattern: what its words can show."""

from __future__ import annotations

import itertools
import re

from ...model.rows.working import Worked
from ...pattern.lexicon import show_stitch
from ..checking.report import Report
from ..checking.verdict import AGREES, SILENT, UNCHECKED, UNREAD, WRONG
from .point import ONE_SIDED, Point

#: Where a text lists its abbreviations, up to its first row.
_LIST = re.compile(r"^\W*(?:abbreviations?|stitch key|key)\b", re.IGNORECASE | re.MULTILINE)
#: Kinds that a list names by one word for all: "tog", "fp", "bp".
_PARTS = re.compile(r"^(?:fp|bp)|\d+tog$", re.IGNORECASE)


def points_of_written(worked: Worked, checked: Report, text: str) -> tuple[Point, ...]:
    """Every point that the words of a written pattern can show; gauge, yarn and size are not told by them."""
    rows = [row for part in checked.parts for row in part.rows]
    wrong = [row.row.label for row in rows if row.state in (WRONG, UNREAD)]
    silent = sum(row.state == SILENT for row in rows)
    agreeing = sum(row.state == AGREES for row in rows)
    open_rows = sum(row.state == UNCHECKED for row in rows)
    return (
        Point("rows add up", "failed" if wrong else "passed", f"{agreeing} of {len(rows)} rows agree with their counts"
              + (f"; wrong or unread: {', '.join(wrong[:6])}" if wrong else "")),
        Point("every row states its count", "look" if silent else "passed", f"{silent} of {len(rows)} rows state none"),
        Point("every row can be checked", "look" if open_rows else "passed", f"{open_rows} rows cannot"),
        _numbered(worked),
        _terms(checked, text),
        _explained(worked, text),
        _used(worked),
        Point("nothing has to be assumed", "look" if worked.assumed else "passed",
              "; ".join(worked.assumed) or "nothing was"),
        Point("gauge, yarn, hook and size", "look", "the words of a written pattern are not measured; look yourself"),
    )  # fmt: skip


def _numbered(worked: Worked) -> Point:
    """In every piece each row has the number after that of the row above it; unnumbered rows are passed over."""
    wrong = []
    for piece in worked.pieces:
        texts = [text for text in piece.texts if text.first]
        for above, text in itertools.pairwise(texts):
            if text.first != above.last + 1 and not (text.line == above.line and text.first == above.first):
                wrong.append(f"{text.label} comes after {above.label}")
    says = "; ".join(wrong[:4]) or "no number is left out and none comes twice"
    return Point("rows are numbered in order", "look" if wrong else "passed", says)


def _terms(checked: Report, text: str) -> Point:
    """No word of the other terms in a row."""
    lines, own = text.splitlines(), checked.terms
    told = {row.row.line for part in checked.parts for row in part.rows}
    said = " ".join(lines[at - 1] for at in sorted(told) if 0 < at <= len(lines))
    strays = sorted({word.lower() for word in re.findall(ONE_SIDED.get(own, "(?!)"), said, re.IGNORECASE)})
    says = f"{own} terms: {checked.terms_why}" + (f"; but the rows say {', '.join(strays)}" if strays else "")
    return Point("one set of terms", "failed" if strays else "passed", says)


def _explained(worked: Worked, text: str) -> Point:
    """Every stitch that is worked stands in the list of abbreviations or is explained, where the text has a list."""
    what, found = "abbreviations used are explained", _LIST.search(text)
    if found is None:
        return Point(what, "look", "the text has no list of abbreviations")
    first = min((one.line for piece in worked.pieces for one in piece.texts), default=0)
    until = sum(len(line) + 1 for line in text.splitlines()[: max(first - 1, 0)])
    listed = text[found.start() : max(until, found.end())] if until > found.start() else text[found.start() :]
    words = set(re.findall(r"[a-z]\w*(?: st)?", listed.lower())) | set(re.findall(r"[a-z]+", listed.lower()))
    own = {s.abbreviation.lower() for s in worked.pattern.specials} | {s.name.lower() for s in worked.pattern.specials}
    kinds = {kind for piece in worked.pieces for row in piece.fabric.rows for kind in row.row.kinds()}
    shown = {show_stitch(kind, worked.pattern.terms).lower() for kind in kinds}
    missing = sorted(one for one in shown if not {one, _PARTS.sub("", one), one.rstrip("0123456789")} & (words | own))
    says = f"not listed: {', '.join(missing)}" if missing else f"all {len(shown)} kinds of stitches are"
    return Point(what, "failed" if missing else "passed", says)


def _used(worked: Worked) -> Point:
    """Every special stitch that is explained is worked somewhere."""
    what, specials = "special stitches explained are used", worked.pattern.specials
    if not specials:
        return Point(what, "does not apply", "none is explained")
    kinds = {kind for piece in worked.pieces for row in piece.fabric.rows for kind in row.row.kinds()}
    said = " ".join(text.text for piece in worked.pieces for text in piece.texts).lower()
    idle = [
        s.name for s in specials
        if not {s.kind, s.abbreviation, s.name} & kinds
        and not any(re.search(rf"\b{re.escape(one.lower())}", said) for one in (s.abbreviation, s.name))
    ]  # fmt: skip
    says = f"{len(specials)} explained" + (f"; not used: {', '.join(idle)}" if idle else ", all used")
    return Point(what, "failed" if idle else "passed", says)
