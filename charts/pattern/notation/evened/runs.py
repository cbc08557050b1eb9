"""Runs of stitches told by their numbers: "sc in 3 sts with an increase on the fourth", "4 sc, then increase in 5th and 6th".

Every function takes a row's text in lower case and gives it letter for letter as long as before.
"""

from __future__ import annotations

import re

from ... import lexicon
from ...when_used import when_used

_NUMBER = rf"(?:\d{{1,3}}|{lexicon.NUMBER_WORDS})"
_NTH = r"(?:\d{1,3}(?:st|nd|rd|th)|(?:second|third|fourth|fifth|sixth|seventh|eighth|ninth|tenth|eleventh|twelfth))"
_STITCH = r"(?:sts?|stitch(?:es)?|sc|hdc|dc|htr|tr|spaces?|sps?)"
#: "with an increase (2 sc) on the third": one more clause of the run.
_WITH = when_used(r"(?P<with>,? with (?:an? )?)(?P<inc>inc(?:rease)?|dec(?:rease)?)(?P<told> ?\(\d? ?[a-z ]{2,16}\))? (?P<on>on|in|into|at) (?=the |every )?")
#: So many stitches, and behind them a number that is one more, or that and the one after it.
_RUN = when_used(
    rf"(?P<run>(?<![-\d])\b(?P<n>{_NUMBER}) (?:more )?(?:{_STITCH}|single crochets?|double crochets?)\b|\b(?:sc|hdc|dc|htr|tr) (?P<m>\d{{1,3}})\b(?! (?:in|into)\b))"
    rf"(?P<between>[^.;:()*\d]{{0,16}}?\b(?:[2-9] ?(?:sc|hdc|dc|htr|tr) |increas\w* +|inc +|dec +|decreas\w* +|[a-z0-9]+tog )(?:in|into|on|at) )(?P<nth>(?:the |every |each )?(?P<a>{_NTH})(?: (?:and|&) (?:the )?(?P<b>{_NTH}))?)(?P<noun> {_STITCH}\b)?(?=\s*(?:$|[.,;*)\]]|and\b|then\b|rep))"
)

#: What stitches are called where no chain stands between them.
_SPACES = when_used(r"\bspaces\b")
_OF_CHAINS = when_used(r"\bch(?:ain)?s?[ -]?\d* ?(?:sps?|spaces?|lps?|loops?)\b|[,*(] ?ch(?:ain)? ?\d+ ?[,;)](?! turn)")


def runs_evened(low: str) -> str:
    """The text with a number that goes on from a run before it told as "next".

    >>> runs_evened("*sc in next 2 sts with an increase on the third; rep from * around").split()
    ['*sc', 'in', 'next', '2', 'sts,', 'increase', 'in', 'next', '; rep', 'from', '*', 'around']
    """
    if "with" in low:
        low = _WITH.sub(_as_clause, low)
    return _RUN.sub(lambda found: _next(found, chains=bool(_OF_CHAINS.search(low))), low)


def _as_clause(found: re.Match[str]) -> str:
    told = " " * len(found["told"] or "")
    return f"{','.ljust(len(found['with']))}{found['inc']}{told} in".ljust(len(found[0]))


def _next(found: re.Match[str], *, chains: bool) -> str:
    many = lexicon.number(found["n"] or found["m"]) or 0
    first, second = lexicon.ordinal(found["a"]), lexicon.ordinal(found["b"]) if found["b"] else 0
    if first != many + 1 or (second and second != first + 1):
        return found[0]
    nxt = "next 2" if second else "next" if len(found["nth"]) > 3 else "nxt"
    run = found["run"] if chains else _SPACES.sub(lambda said: "sts".ljust(len(said[0])), found["run"])
    kept = run + found["between"]
    return kept + nxt.ljust(len(found["nth"])) + (found["noun"] or "")
