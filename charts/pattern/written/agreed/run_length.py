"""How many rows a run is said to have behind its words: "Rnds 5-9: sc in each st around for a total of 5 rounds"."""

from __future__ import annotations

from ... import lexicon
from ...notation.complaint import Complaint
from ...when_used import when_used

_N = r"(?P<n{0}>\d{{1,3}}|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve)\s+(?:more\s+)?(?:rounds?|rnds?|rows?)\b"
_LENGTH = when_used(
    r"(?:,\s*|-\s+)?(?<![a-z])(?:(?:(?:work(?:ed|ing)?\s+)?(?:for|over)\s+)(?:an?\s+|the\s+)?(?:total\s+of\s+|next\s+|following\s+)?"
    rf"{_N.format(1)}(?:\s+(?:total|in\s+total|in\s+all|altogether))?"
    rf"|(?:an?\s+)?total\s+of\s+{_N.format(2)}"
    rf"|{_N.format(3)}\s+(?:total|in\s+total|in\s+all|altogether)"
    rf"|\(\s*(?:an?\s+)?(?:total\s+of\s+)?{_N.format(4)}(?:\s+(?:total|in\s+total|in\s+all|altogether))?\s*\))"
    r"(?=\s*(?:[.,;:(\[!]|$))"
    rf"|^\s*(?:(?:the\s+)?next\s+)?{_N.format(5)}(?=\s*:)"
)


def said_length(low: str) -> tuple[int, int, int] | None:
    """Where a row's words say how many rows it is worked for, and how many: (start, end, rows)."""
    found = _LENGTH.search(low)
    if not found:
        return None
    rows = next(lexicon.number(found[f"n{k}"]) or 0 for k in (1, 2, 3, 4, 5) if found[f"n{k}"])
    start, end = found.span()
    if not low[:start].strip() and low[end : end + 1] in (",", ":"):
        end += 1  # "for 3 rounds, sc in each st"
    return start, end, rows


def wrong_length(start: int, end: int, said: int, label: str, rows: int) -> Complaint:
    """A complaint for a run that is said to have another number of rows than its head."""
    says = f'the words say {said} rows; the head "{label}" is {rows}'
    return Complaint(start, end, says, f"write {rows}, or change the head", "impossible")
