"""Shells, fans, V-stitches: names of groups that a pattern must explain, and the ways it does so in a sentence or in passing."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping

from ....made_late import replace
from ...notation.complaint import Complaint
from ...tree import Chain, Make, Op, Special, Star, walk
from ...when_used import when_used
from .own_stitches import in_one_place

_NAME = r"(?:shells?|fans?|scallops?|v[ -]?st(?:itch(?:es)?|s)?)"
#: "A shell is 5 dc worked in one st", "to make a fan, work 4 tr in one sp", "each shell is made of ...", "shell-3 dc's in ...".
_TOLD = when_used(
    r"\W*(?:(?:note|special(?: st(?:itch)?(?:es)?)?|pattern st(?:itch)?(?:es)?|st(?:itch)?(?:es)? used)\W+)?(?P<to>to (?:make|work|form|do) )?"
    rf"(?:(?:an?|the|each|every|one|1|for an?|for each) )?(?P<name>{_NAME})(?P<st> st(?:itch)?(?:es)?)?\s*,?\s*"
    r"(?P<mark>(?:which |that )?(?:is|are|means?|equals?|consists? of|comprises|stands for)\b|[=:-]|(?<=[a-z,])\s(?=work|make))\s*"
    r"(?:(?:always |each )?(?:made|worked|formed)(?: up)?(?: of| with| by| as)?\b\s*)?(?:(?:working|making|work|make)\b\s*)?"
    r"(?P<words>[(\[]?\s*(?:\d+ ?[a-z]|(?:sc|h?dc|h?tr|dtr|ch)\b)[^.]*\.?)\s*$",
    re.DOTALL,
)
_PLACE_ENDS = when_used(r"(?:\b(?:st|sts|stitch|s?c|h?dc|h?tr|dtr|chs?|sps?|space|loop|lp|corner|place|ring|arch|next|same|picot|between)|\d|[)\]])\s*$")
_BEHIND = r"(?=\s*(?:[,.;:)\]*]|-|$))"
#: "5 dc in next st to form a shell", "... for shell", "... = fan", "... - a shell", "...-shell made-": the name of what stands before.
_ASIDE = when_used(
    rf"(?:[-,]?\s*\b(?:thus )?(?:to (?:form|make)|forming|making|makes|for|as) (?:an?|one|the|1|first|next)? ?(?P<a>{_NAME})(?: st)?(?: made)?{_BEHIND}"
    rf"|\s*(?:-+|=)\s*(?:an?|one|the|1|first) (?P<b>{_NAME})(?: (?:made|formed|completed))?(?:\s*-+)?{_BEHIND}"
    rf"|\s*=\s*(?P<c>{_NAME})(?: (?:made|formed|completed))?{_BEHIND}"
    rf"|\s*-+\s*(?P<d>{_NAME}) (?:made|formed|completed)\s*-+)"
)

#: "Shell (= 5 dc) in next st".
_EQUALS = when_used(rf"\b({_NAME}\s*\()((?:=|i\.e\.?,?|that is,?|meaning)\s*)(?=\d)")


def shape_told(low: str) -> tuple[tuple[int, int], tuple[int, int]] | None:
    """Where a sentence that explains a group names it and tells it; None for any other sentence.

    >>> shape_told("a shell is 5 dc in one st."), shape_told("shell in next st, ch 1")
    (((2, 7), (11, 26)), None)
    """
    found = _TOLD.match(low)
    return (found.span("name"), found.span("words")) if found else None


def named_aside(low: str) -> str:
    """The words of a row with each name given in passing in a bracket, letter for letter as long as before.

    >>> named_aside("5 dc in next st to form a shell, ch 1")
    '5 dc in next st (shell)        , ch 1'
    """

    def bracketed(found: re.Match[str]) -> str:
        name = found["a"] or found["b"] or found["c"] or found["d"]
        size = len(found[0])
        if len(name) + 2 > size or not _PLACE_ENDS.search(low[: found.start()]):
            return found[0]
        lead = " " if size > len(name) + 2 else ""
        return f"{lead}({name})".ljust(size)

    if not re.search(_NAME, low):
        return low
    low = _EQUALS.sub(lambda m: m[1] + " " * len(m[2]), low)
    return _ASIDE.sub(bracketed, low)


def taken_from_sized(specials: Mapping[str, Special], ops: tuple[Op, ...]) -> Special | None:
    """What "shell" alone means behind "a 5-dc shell": the one that was told with its size, where there is only one."""
    for name in sorted({op.stitch for op in walk(ops) if isinstance(op, Make)} & set(UNEXPLAINED) - set(specials)):
        told = [s for s in specials.values() if s.form == "group" and s.abbreviation.endswith(f" {name}")]
        if len(told) == 1:
            return replace(told[0], name=name, abbreviation=name)
    return None


#: Groups that differ from pattern to pattern: without an explanation nobody knows what they make. How one is explained.
UNEXPLAINED = {"shell": "5 dc in one st", "block": "5 dc in one st", "V-st": "(dc, ch 1, dc) in one st"}
_SPELLED = {
    "shell": when_used(r"\b(?P<name>shell)s?\b"), "V-st": when_used(r"\bv[ -]?st(?:itch)?(?:e?s)?\b"),
    "block": when_used(r"\b(?P<name>fan|scallop|block)s?\b"),
}  # fmt: skip


#: What a group is where nobody says otherwise (common practice, no source); a shell may be anything.
_USUAL: dict[str, tuple[Op, ...]] = {"V-st": (Make("dc"), Chain(1), Make("dc"))}


def usual(name: str) -> Special | None:
    """What an unexplained group is most often, as a stitch of the pattern's own; None where it differs too much.

    >>> usual("shell")
    """
    return Special(name, name, "", _USUAL[name], form="group", in_place=True) if name in _USUAL else None


def like_those_above(name: str, rows: Iterable[tuple[Op, ...]]) -> Special | None:
    """What an unexplained shell or V-stitch is by the groups that a pattern works without a name, as a stitch of its own:
    those of the last row that has any, if they are all alike; `rows` are the ops of rows, the latest first.

    >>> from ...tree import Into, Place
    >>> above = (Into((Make("dc", 3), Chain(2), Make("dc", 3)), (Place("next"),)),)
    >>> like_those_above("shell", [above]).ops == above[0].ops, like_those_above("V-st", [above])
    (True, None)
    """
    for ops in rows:
        again = tuple(op for op in walk(ops) if isinstance(op, Star))
        found = _groups(name, again) or _groups(name, ops)
        if len(found) == 1:
            return Special(name, name, "", found.pop(), form="group", in_place=True)
        if found:
            return None
    return None


def before_named(name: str, ops: tuple[Op, ...]) -> tuple[Op, ...]:
    """What a row works before it first names a group that nothing explains.

    >>> before_named("shell", (Make("sc", 2), Make("shell"), Make("dc", 5)))[-1]
    Make(stitch='sc', count=2, places=(), beside=(), at=(0, 0, 0))
    """
    named = (at for at, op in enumerate(ops) if any(isinstance(o, Make) and o.stitch in (name, "block") for o in walk((op,))))
    return ops[: next(named, len(ops))]


def _groups(name: str, ops: tuple[Op, ...]) -> set[tuple[Op, ...]]:
    return {tuple(_bare(o) for o in group) for op in walk(ops) if (group := in_one_place(op)) and _may_be(name, group)}


def _bare(op: Op) -> Op:
    return replace(op, at=(0, 0, 0)) if isinstance(op, Make | Chain) else op


def _may_be(name: str, group: tuple[Op, ...]) -> bool:
    """A V-stitch is two stitches with chains between, a shell three or more."""
    made = sum(op.count for op in group if isinstance(op, Make))
    apart = [type(op) for op in group] == [Make, Chain, Make]
    if isinstance(group[0], Chain):
        return False  # the first of a row, which its chain begins
    return made == 2 and apart if name == "V-st" else made > 2


def unexplained(ops: tuple[Op, ...], low: str, specials: Mapping[str, Special]) -> Complaint | None:
    """A complaint at the first group that is to be worked and that the pattern nowhere explains."""
    for op in walk(ops):
        if isinstance(op, Make) and op.stitch in UNEXPLAINED and op.stitch not in specials:
            found = _SPELLED[op.stitch].search(low)
            name = found["name"] if found and op.stitch == "block" else op.stitch
            start, end = found.span() if found else (0, len(low))
            remedy = f'say once what it is made of, as "{name[0].upper()}{name[1:]}: {UNEXPLAINED[op.stitch]}"'
            worked = f"; it was worked as {UNEXPLAINED[name]}, as is usual" if name in _USUAL else ""
            says = f'"{name}" is nowhere explained{worked}'
            return Complaint(start, end, says, remedy, unknown=name, plain=name in _USUAL)
    return None
