"""Stitches told with dashes: "dc-ch 1-dc in next st", "(3 dc, ch 2, 3 dc) -shell made-".

A row's text in lower case is given letter for letter as long as before.
"""

from __future__ import annotations

import re

from ...when_used import when_used

_PART = r"(?:\d ?)?(?:sc|hdc|dc|htr|tr|dtr)"
_CHAINS = r"(?:ch(?:ain)? ?\d|\d ?ch)"
#: "dc-ch 1-dc": a group of one place, with room for its brackets.
_GROUP = when_used(rf"(?:(?<=[,;*(\s])|^) (?P<a>{_PART}) ?- ?(?P<ch>{_CHAINS}) ?- ?(?P<b>{_PART})(?=[\s,;.)*(]|$)")
#: "-shell made-", "- 12 dc made -": what has been made, told aside.
_MADE = when_used(r"(?<=[\s)\]a-z])-(?P<said> ?(?:[a-z0-9]+[ -]){1,4}(?:made|formed|completed?) ?)-(?=[\s,;.]|$)")


def hyphens_evened(low: str) -> str:
    """The text with stitches that dashes join in brackets, and so what dashes tell aside.

    >>> hyphens_evened("ch 1, dc-ch 1-dc in next st"), hyphens_evened("5 dc in ring -shell made-, join")
    ('ch 1,(dc ch1 dc) in next st', '5 dc in ring (shell made), join')
    """
    low = _MADE.sub(lambda found: f"({found['said']})", low)
    return _GROUP.sub(_bracketed, low) if "-" in low else low


def _bracketed(found: re.Match[str]) -> str:
    said = f"({found['a']} {found['ch'].replace(' ', '')} {found['b']})"
    return said.ljust(len(found[0])) if len(said) <= len(found[0]) else found[0]
