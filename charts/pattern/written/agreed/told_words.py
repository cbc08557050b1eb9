"""The words that an explanation of a stitch puts round its work: "make a bobble by working ..., all made in one st"."""

from __future__ import annotations

import re
from collections.abc import Mapping

from ... import lexicon
from ...notation.words import vocabulary
from ...tree import Special
from ...when_used import when_used

_GROUPS = frozenset(("GROUP", "GATHERED", "PICOT"))
_GROUP_WORDS = sorted(
    [re.escape(word) for word, kinds in vocabulary().items() if not _GROUPS.isdisjoint([kind for kind, _ in kinds]) and len(word) > 2],
    key=len,
    reverse=True,
)
_THING = rf"(?:{'|'.join(_GROUP_WORDS)})(?:\s+st(?:itch(?:es)?)?s?)?"
_BY = r"(?:by|with|of|using|:|=|-|,)"
_DOING = r"(?:working|making|placing|crocheting|doing|work|make|place|crochet)"
_LEADS = (
    rf"\s*(?:to\s+)?(?:make|work|form)\s+(?:an?\s+|one\s+|1\s+|the\s+)?(?:[a-z]+\s+){{0,1}}?{_THING}\s*,?\s*(?:{_BY}\s*)?(?:{_DOING}\s+)?(?=\(?\d|\(|[a-z]+\d+\s?tog)",
    rf"\s*(?:an?\s+|one\s+|1\s+)?{_THING}\s*[,:;-]?\s*(?:(?:is|are)\s+)?(?:made|worked|formed|created)\s+{_BY}\s*(?:{_DOING}\s+)?",
    rf"\s*(?:(?:is|are)\s+)?(?:made|worked|formed|created|done)\s+(?:by|with|of|as|thus|:)\s*:?\s*(?:{_DOING}\s+)?",
    r"\s*(?:is|are)\s+(?=\(?\d)",
    rf"\s*by\s+{_DOING}\s+",
)
_LEAD = when_used("|".join(f"(?:{lead})" for lead in _LEADS))
_WRAPPED = when_used(r"\(([^()]*)\)(?=\s*\.?\s*$)")
_PLURALS = ("s", "es")
_ONE_OF_THEM = when_used(r"(?:1|one|an?|each|every)\s+(?=[a-z])", re.IGNORECASE)


def without_lead(low: str) -> str:
    """The words of an explanation behind those that only say what is made and that it is made, letter for letter.

    >>> without_lead("make bobble by working dc4tog").strip(), without_lead("made by working dc, ch 1, dc").strip()
    ('dc4tog', 'dc, ch 1, dc')
    """
    found = _LEAD.match(low)
    rest = " " * found.end() + low[found.end() :] if found and low[found.end() :].strip() else low
    return _WRAPPED.sub(lambda m: f" {m[1]}".ljust(len(m[0])), rest) if found else rest


def is_work(low: str) -> bool:
    """Whether the words of an explanation begin with work: "5 dc all in same st", "made by working dc, ch 1, dc"."""
    if _LEAD.match(low) or re.match(r"\s*(?:\(?\d{1,2}\s?|\()[a-z]", low):
        return True
    first = re.match(r"\s*([a-z]+)\b", low)
    return first is not None and any(lexicon.stitch_name(first[1], terms) for terms in ("US", "UK"))


def is_told(low: str) -> bool:
    """Whether a sentence is a name, a mark and work in one place: "shell = 5 dc in same st"."""
    found = re.match(r"\s*[a-z0-9/()\- ]{1,40}?\s*(?:=|:|\s-\s)\s*(?P<said>.*)$", low, re.DOTALL)
    return found is not None and is_work(found["said"])


def is_group(low: str) -> bool:
    """Whether a name is that of a group by the stitch it is made of: "hdc shell", "sc bobble stitch"."""
    found = re.fullmatch(rf"([a-z]+) {_THING}", low)
    return found is not None and any(lexicon.height_of(lexicon.stitch_name(found[1], t) or "") for t in ("US", "UK"))


_HALVES = ("beg", "beginning", "half", "first", "last", "end", "ending", "starting", "start", "corner")


def called_by_last(specials: Mapping[str, Special]) -> dict[str, Special]:
    """The groups that may be called by the last word of their names alone, as no other is: "fan" for an hdc fan."""
    whole = {word for s in specials.values() for word in (s.name.lower(), s.abbreviation.lower())}
    out: dict[str, list[Special]] = {}
    for special in specials.values():
        first, *_, last = special.name.lower().split() if " " in special.name else ("", "")
        if last and special.form == "group" and first not in _HALVES and re.fullmatch(_THING, last):
            out.setdefault(last, []).append(special)
    return {last: some[0] for last, some in out.items() if len(some) == 1 and last not in whole}


#: A bracket behind a name that says where or over how many stitches it is worked: no short form.
_HOW_IT_LIES = when_used(
    r"(?:(?:is |are )?(?:worked|made|done|placed|crocheted) |(?:uses?|using|takes?|taking|counts?|covers?|covering|spans?|over|across|in|into|on) )[a-z0-9 -]+"
    r"|(?:\d|one|two|three|four) (?:sts?|stitch(?:es)?)", re.IGNORECASE
)


def named(name: str, abbreviation: str, text: str) -> tuple[str, str]:
    """A name and its short form in the text: "shell(s)" is no short form "s", "cluster (worked over 2 sts)" has none, and
    "1 shell" is the name of one.

    >>> named("Shell", "s", "Shell(s) = 5 dc"), named("1 fan", "", "1 fan: 7 tr"), named("Empty square", "ES", "")
    (('Shell', ''), ('fan', ''), ('Empty square', 'ES'))
    >>> named("Cluster", "worked over 3 sts", "")
    ('Cluster', '')
    """
    if _HOW_IT_LIES.fullmatch(abbreviation):
        abbreviation = ""
    if abbreviation in _PLURALS and f"{name}({abbreviation})" in text:
        abbreviation = ""
    return _ONE_OF_THEM.sub("", name, count=1) if _ONE_OF_THEM.match(name) else name, abbreviation


#: "5 dc in same st, closed together", "4 tr in one st, then worked off as one": how they are closed, behind where they go.
_CLOSED_LAST = when_used(
    rf"(?P<legs>(?:\d|two|three|four|five|six) ?(?:{lexicon.ANY_PLAIN}))(?P<where>,? (?:all |worked |made |started |begun )*in(?:to)? (?:the )?(?:same|one|next|a|that)(?: (?:st(?:itch)?|sp(?:ace)?|place|ch|loop))?)[,;]? (?:(?:then|and|all|but|which are|are) )*(?:closed|finished|worked|joined|drawn|pulled|crocheted|fastened|ended)(?: off)? (?:together|tog|as one)(?: (?:at|on) (?:the )?(?:top|end))?(?=\W*$)",
    re.IGNORECASE,
)
#: "Bean        bean st: ...": a list set in columns, with no sign between a name and its words.
_COLUMNS = when_used(r"^(?P<name>\s*[a-z0-9][a-z0-9/.+-]*(?: [a-z0-9/.+-]+){0,2}?)(?P<gap> {3,}|\t\s*|  (?=[a-z(]))(?=[a-z0-9(\[\"'\u201c])", re.IGNORECASE)
_MARKED = when_used(r"^\s*[^\s=:]+(?: [^\s=:]+){0,3}\s*(?:=|:|\s-|\u2013|\u2014)")


def closed_together(said: str) -> str:
    """The words of a gathered stitch with how it is closed before the place it goes into.

    >>> closed_together("5 dc in same st, closed together"), closed_together("5 dc in same st")
    ('5 dc closed together in same st', '5 dc in same st')
    """
    return _CLOSED_LAST.sub(lambda found: f"{found['legs']} closed together{found['where'].lstrip(',')}", said)


def columns_marked(text: str) -> str:
    """A line of a list in columns with a sign between its two, letter for letter as long.

    >>> columns_marked("bean     bean st: (yo) 3 times"), columns_marked("fsc = foundation sc")
    ('bean  =  bean st: (yo) 3 times', 'fsc = foundation sc')
    """
    found = None if _MARKED.match(text) else _COLUMNS.match(text)
    if found is None or len(found["gap"]) < len(" = ") or "   " in text[found.end() :].rstrip():  # two pairs on a line
        return text
    return found["name"] + "=".center(len(found["gap"])) + text[found.end() :]
