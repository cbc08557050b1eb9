"""A stitch told by its names in both systems: "2 dc (UK)/2 sc (USA)", "sc (UK dc)", "US hdc / UK htr". The name of the
system that the text is read in stays, the other is blotted out, places kept."""

from __future__ import annotations

import re

from ... import lexicon
from ...when_used import when_used

_US, _UK = r"u\.?s\.?(?:a\.?)?|american", r"u\.?k\.?|british|english"
_SYSTEM = rf"(?:{_US}|{_UK})(?: terms?| english| crochet)*"
_LEAD = r"(?:(?:dec(?:rease)?|inc(?:rease)?|work|make|one|two|three|a|an|of|\d{1,3}) ?){0,3}"
_STITCH = r"(?:(?:half|double|triple) )?(?:single|double|treble|triple)(?: crochets?)?|[hd]?tr(?:tr)?|h?dc|sc"
_SAID = rf"(?<![a-z]){_LEAD}(?:{_STITCH})s?(?![a-z])"
_APART = r"\s*(?:/|,|=|\bor\b|-)?\s*"


def _system(name: str) -> str:
    return rf"(?P<{name}>{_SYSTEM})"


_FORMS = (
    # "dc (UK)/sc (USA)"
    when_used(rf"(?P<a>{_SAID})\s*[(\[]\s*{_system('sa')}\s*[)\]]{_APART}(?P<b>{_SAID})\s*[(\[]\s*{_system('sb')}\s*[)\]]", re.IGNORECASE),
    # "[US] sc / [UK] dc", "US sc / UK dc"
    when_used(rf"(?<![a-z])[(\[]?{_system('sa')}[)\]]?:? (?P<a>{_SAID}){_APART}[(\[]?{_system('sb')}[)\]]?:? (?P<b>{_SAID})[)\]]?", re.IGNORECASE),
    # "sc US/dc UK"
    when_used(rf"(?P<a>{_SAID}) {_system('sa')}{_APART}(?P<b>{_SAID}) {_system('sb')}(?![a-z])", re.IGNORECASE),
    # "sc (UK dc)", "sc (UK: dc)", "sc (dc in UK terms)", "sc/dc UK"
    when_used(rf"(?P<a>{_SAID})\s*[(\[]\s*(?:in |= ?)?{_system('sb')} ?[:=]? ?(?:(?:is|for) )?(?P<b>{_SAID})\s*[)\]]", re.IGNORECASE),
    when_used(rf"(?P<a>{_SAID})\s*[(\[]\s*(?:or )?(?P<b>{_SAID}) (?:in )?{_system('sb')}\s*[)\]]", re.IGNORECASE),
    when_used(rf"(?P<a>{_SAID})\s*/\s*(?P<b>{_SAID}) {_system('sb')}(?![a-z])", re.IGNORECASE),
)  # fmt: skip


#: A system by its name, and one beside a bracket: every form holds two of the first, or the second, or a stroke.
_NAMED = when_used(rf"(?<![a-z])(?:{_US}|{_UK})(?![a-z])", re.IGNORECASE)
_BRACKETED = when_used(rf"[(\[]\s*(?:in |= ?)?(?:{_US}|{_UK})|{_SYSTEM}\s*[)\]]", re.IGNORECASE)
#: "2 sc [DC]": no system is said beside it, the page has said both.
_BARE = when_used(rf"(?P<a>{_SAID})\s*[(\[]\s*(?P<b>{_STITCH})s?\s*[)\]]", re.IGNORECASE)


def told_twice(line: str, terms: str) -> str:
    """A line of a page that speaks of both systems, with each stitch that has its other name in brackets told in one.

    >>> told_twice("2 sc [DC] in next st, dc (sc) in ring", "US")
    '2 sc      in next st, dc (sc) in ring'
    """
    return _BARE.sub(lambda found: _one_of(found, terms, "UK" if terms == "US" else "US"), line)


def names_both(text: str) -> bool:
    """Whether a text speaks of a system of terms beside a stitch."""
    return _may_name(text) and any(form.search(text) for form in _FORMS)


def _may_name(text: str) -> bool:
    """Whether any of the forms can be in a text; asked first, as they are dear to compile."""
    named = len(_NAMED.findall(text))
    return named > 1 or (named == 1 and ("/" in text or bool(_BRACKETED.search(text))))


def named_in(line: str, terms: str) -> str:
    """A line with each stitch that is told in both systems told in one, as long as before.

    >>> named_in("Row 2: 2 dc (UK)/2 sc (USA) in each st", "US").split()
    ['Row', '2:', '2', 'sc', 'in', 'each', 'st']
    >>> named_in("sc (UK dc) in each st", "UK").split(), named_in("sc (2 dc in ring)", "US")
    (['dc', 'in', 'each', 'st'], 'sc (2 dc in ring)')
    """
    if not _may_name(line):
        return line
    for form in _FORMS:
        line = form.sub(lambda found: _one(found, terms), line)
    return line


def _one(found: re.Match[str], terms: str) -> str:
    return _one_of(found, terms, _which(found["sb"]))


def _one_of(found: re.Match[str], terms: str, second: str) -> str:
    first = _which(found["sa"]) if "sa" in found.re.groupindex else ("UK" if second == "US" else "US")
    said = {first: found["a"].strip(), second: found["b"].strip()}
    if first == second or not _same(said["US"], said["UK"]):
        return found[0]
    return said[terms].ljust(len(found[0]))


def _which(system: str) -> str:
    return "UK" if system[0] in "ukUKbBeE" and re.match(_UK, system, re.IGNORECASE) else "US"


def _same(us: str, uk: str) -> bool:
    """Whether two tellings differ in the name of the stitch alone."""
    (lead_us, name_us), (lead_uk, name_uk) = _parted(us), _parted(uk)
    same = _canon(name_us, "US") == _canon(name_uk, "UK") != ""
    return same and (lead_us.endswith(lead_uk) or lead_uk.endswith(lead_us))


def _parted(said: str) -> tuple[str, str]:
    low = " ".join(said.lower().split())
    found = re.search(rf"(?<![a-z])(?:{_STITCH})s?$", low)
    return (low[: found.start()].strip(), found[0]) if found else (low, "")


def _canon(name: str, terms: str) -> str:
    for form in (name, name.removesuffix("s")):
        known = lexicon.stitch_name(form, terms) or lexicon.long_names(terms).get(form)
        if known:
            return known
    return ""
