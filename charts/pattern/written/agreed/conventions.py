"""What the notes of a pattern say of every row: what beginning chains count as, turning, joining, loops."""

from __future__ import annotations

import re
from dataclasses import field

from ....made_late import dataclass
from ...notation.chain_counts import counted_parts
from ...notation.words import Words
from ...tree import Held
from ...when_used import when_used

_CHAIN = r"(?:\b(?:beg(?:inning)?|turning|starting|first|the|initial|every|each)?[- ]?(?:ch|chain)[- ]?(?P<{n}>\d)?(?:s|ains?)?\b|\b(?P<{m}>\d)[- ]?ch\b|\bt[- ]?chs?\b)"
_COUNTING = when_used(
    _CHAIN.format(n="n", m="m")
    + r"(?:\s*(?:,|and|or|&)\s*(?:(?:the )?(?:ch|chain)[- ]?(?P<n2>\d)))?(?P<between>[^.:;]{0,90}?)"
    r"(?P<not>\b(?:do(?:es)?|is|are|will)(?: not|n'?t| never)\s+(?:be )?(?:count(?:ed)?|a st)|\bnever counts?\b|\bnot count(?:ed)?\b|\b(?:is|are)(?: not|n'?t) (?:(?:a|an|the first) )?(?:st|sts|stitch|stitches|sc|hdc|dc|tr)\b|\bnot included\b)?"
    r"(?(not)|\b(?:always |will )?(?:counts? as|counted as|is counted as|counts? for|stands? for|equals?)\s+(?P<as>[^.;]{1,60}))"
)
_LOOPS = when_used(
    r"(?:throughout|all (?:rows|rnds|rounds|sts|stitches)|entire (?:pattern|piece)|everything).{0,40}\b(?:blo|back loops? only|in (?:the )?back loop)\b"
    r"|\b(?:blo|back loops? only)\b.{0,30}throughout"
)
_TURNED = when_used(
    r"turn (?:the |your )?(?:work )?(?:at|after) (?:the )?(?:end of )?(?:every|each|all) (?:rnd|round|row)|rounds are turned|turn(?:ing)? (?:at the end of|after) (?:every|each) (?:rnd|round)"
)
_SPIRAL = when_used(
    r"\bspirals?\b|continuous (?:rnds|rounds)|do(?:n'?t| not) join (?:the )?(?:rnds|rounds|each|at the end)|rounds are not joined|without joining|don'?t join\b|amigurumi style"
)
_JOINED = when_used(
    r"(?:join|close) (?:each|every|all) (?:rnd|round)|(?:each|every|all) (?:rnd|round)s? (?:is|are|ends?|with)? ?(?:closed|joined|with a (?:sl st|slip stitch|ss))|always (?:finish|join|close|end) with a (?:ss|sl st|slip stitch)|end (?:each|every) (?:rnd|round) with a (?:ss|sl st|slip)|join at the end of (?:each|every)"
)
#: "In the brim of the hat the ch 1 counts as a st": said of one part, and not of all rows.
_OF_A_PART = when_used(
    r"(?:^|[.!:;]\s)\W*(?:in|on|for|at) (?:the |every |each )?(?:brim|edge|border|edging|sleeves?|body|crown|sole|cuffs?|ribbing|top|bottom|base|side|sides|neck|yoke|[a-z]+ of the [a-z]+)\b[^.!;]{0,40}$"
)
#: "Always count the ch 3 turning chain as your first dc", "treat the beginning ch 3 as a dc".
_BIDDEN = when_used(
    r"\b(?:count|counting|treat|treating|regard|regarding|consider|considering)(?: (?:the|your|this|that|each|every|these|all))*"
    r" (?P<chain>(?:(?:beg(?:inning)?|turning|starting|first|initial)[ -])?(?:ch|chain)s?[ -]?\d(?: (?:turning|beg(?:inning)?|starting)[ -]?(?:ch|chain))?) (?:as|for|to be) "
)
#: "Do not count the turning ch as a stitch".
_FORBIDDEN = when_used(
    r"\b(?:do not|don'?t|never) (?:count|treat|regard|consider)(?: (?:the|your|this|that|each|every|these|all|any))*"
    r" (?P<chain>(?:(?:beg(?:inning)?|turning|starting|first|initial)[ -])?(?:ch|chain)s?(?:[ -]?\d)?|t-?ch) (?:as|for|to be) (?:an? )?"
)
#: "(ch 3, dc) which equals 2 dc", "ch 3 plus 1 dc counts as 2 dc": said of the chain and what is worked beside it.
_WITH_MORE = when_used(r"^\s*(?:,|\+|&|\band\b|\bplus\b|\bwith\b|\btogether with\b)\s*(?:the |an? |one |your |next |\d+ ?)*(?:sc|hdc|dc|htr|tr|dtr|single|half|double|treble)\b")


@dataclass(slots=True)
class Conventions:
    """What holds for all rows."""

    beginnings: dict[int, tuple[str, ...]] = field(default_factory=dict)
    loops: Held = ""
    turn_rounds: bool = False
    spiral: bool = False
    joined: bool = False

    def take(self, low: str, words: Words) -> bool:
        """Take what a line of notes says; whether it says anything."""
        said = False
        low = _FORBIDDEN.sub(r"\g<chain> does not count ", _BIDDEN.sub(r"\g<chain> counts as ", low))
        for found in _COUNTING.finditer(low):
            if _OF_A_PART.search(low[: found.start()]):
                continue
            said = self._counts(found, words, low) or said
        if _LOOPS.search(low):
            self.loops, said = "back loop", True
        if _TURNED.search(low):
            self.turn_rounds = said = True
        if _SPIRAL.search(low):
            self.spiral = said = True
        if _JOINED.search(low):
            self.joined = said = True
        return said

    def _counts(self, found: re.Match[str], words: Words, low: str) -> bool:
        sizes = [int(n) for n in (found["n"], found["m"], found["n2"]) if n]
        if re.search(r"\bsp\b|\bspace\b|\bskipped\b|\bmiss", found["between"] or ""):
            return False
        if _WITH_MORE.search(found["between"] or ""):
            return True
        if found["not"]:
            others = [int(n) for n in re.findall(r"\bch[- ]?(\d)\b", found[0])]
            for number in sizes or others or range(1, 7):
                self.beginnings.setdefault(number, ())
            return True
        parts = counted_parts(" as " + (found["as"] or ""), words)
        if not parts or not sizes:
            return False
        self.beginnings[sizes[0]] = parts
        return True
