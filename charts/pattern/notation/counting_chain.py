"""A stated count that says whether it holds the beginning chain: "(24 dc, counting ch 3 as 1 dc)".

Whether a beginning chain counts is settled by the count itself, so what is said of it there is no work.
"""

from __future__ import annotations

import re
from dataclasses import replace

from .. import lexicon
from ..lexicon import TURNING
from ..tree import Act, Chain
from .chain_counts import counts_as
from .items import Ops
from .words import Words

#: A beginning chain of so many may be a stitch with chains beside it.
FEWEST_WITH_SPACE = 4

_NUMBER = rf"(?:\d+|{lexicon.NUMBER_WORDS})"
_CHAIN = (
    r"(?:(?:the|your|first|beg|beginning|starting|start|turning|initial|skipped|opening|last|all|a) )*"
    rf"(?:{_NUMBER}[ -]?)?(?:chs?|chains?|tch|t-ch|turning)\b(?:[ -]?\d+)?"
)
_STITCHES = (
    r"(?:sts?|stitch(?:es)?|h ?d ?c|d ?tr ?c?|tr ?tr|[sd]\.? ?c|htr|tr ?c?|[hd]?tr|(?:(?:half|single|double|treble|triple) )+crochets?"
    r"|(?:half |double )?trebles?|[a-z]+s)\b\.?"
)
_CLAUSE = (
    rf"(?:(?:and |not |also |this )*(?:counting|includ(?:ing|es|ed)|incl\.?|inclusive of|excluding|with(?! \d)|count(?:s|ed)?|plus) {_CHAIN}[^,;.()\[\]]*"
    rf"|(?:and )?{_CHAIN}[^,;.()\[\]]{{0,24}}? (?:is |are |was )?(?:included|counted|counting|counts?|being|not included|not counted)\b[^,;.()\[\]]*)"
)
#: A number of stitches that states what the row makes, and what it is said to hold besides.
_SAID = re.compile(
    rf"(?:[(\[;:-]|[.)\]]\s|\b(?:have|be|are|makes?|making|gives?|giving|total|total of|count)\b:?|,(?= {_NUMBER} (?:[a-z]+ ){{1,3}}(?:in|counting|including)\b))\s*"
    r"(?:there (?:should be|are|will be|is) |you (?:should |will )?(?:now )?have |(?:a )?total (?:of )?|count:? |= ?)?"
    rf"(?<![a-z0-9]){_NUMBER} {_STITCHES}(?: (?:in (?:all|total|(?:the |this |each )?(?:row|rnd|round))|altogether|made))?"
    rf"(?P<gap>\s?,?\s?{_CLAUSE})(?=\s*(?:[)\].;]|$|,))(?!\s*[)\]]\s*(?:in|into|around|over|all|each|twice|x|\d+ ?(?:x|times))\b)"
)


def without_counting(low: str) -> str:
    """A row's words with what a stated count says of the beginning chain blotted out.

    >>> without_counting("dc across (9 dc, counting ch 3 as dc).").split()
    ['dc', 'across', '(9', 'dc', ').']
    >>> without_counting("dc across; 9 dc counting ch 3.").split()
    ['dc', 'across(', '9', 'dc)', '.']
    """
    if "ch" not in low and "turning" not in low:
        return low
    return _SAID.sub(_blotted, low)


def with_chain(ops: Ops, low: str, words: Words) -> Ops:
    """A row's ops with its beginning chain counted, where the count that it states is said to hold it."""
    found = _SAID.search(low)
    first = next((at for at, op in enumerate(ops) if not isinstance(op, Act)), None)
    chain = ops[first] if first is not None else None
    if found is None or first is None or not isinstance(chain, Chain) or chain.counts is not None:
        return ops
    gap = found["gap"].strip(" ,")
    if re.search(r"\bnot\b|\bexclud", gap):
        return ops
    said = counts_as(gap, words) if re.search(r"\bas\b|\bfor\b", gap) else None
    parts = said.parts if said is not None else ("st",) if chain.count in TURNING.values() and chain.count < FEWEST_WITH_SPACE else ()
    return (*ops[:first], replace(chain, counts=parts), *ops[first + 1 :]) if parts else ops


def _blotted(found: re.Match[str]) -> str:
    """A count without what it is said to hold; one behind a sign stands in brackets, as other counts do."""
    said, at = found[0], found.start("gap") - found.start()
    if said[0] in ";:-,":
        return "(" + said[1:at] + ")" + " " * (len(said) - at - 1)
    return said[:at] + " " * (len(said) - at)
