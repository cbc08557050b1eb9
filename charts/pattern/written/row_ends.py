"""What a row's words say of its end alone, or of the end of a run: "Rows 2-9: ... At end of Row 9, ch 3 instead of ch 1"."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from .. import lexicon
from ..tree import Act, Again, Chain, Op, RowText
from ..when_used import when_used
from .beginnings import last_chain

_ROW = r"(?:rows?|rnds?|rounds?)"
_WHICH = (
    r"(?:(?:the |this )?(?:last |final |previous )?(?:rows?|rnds?|rounds?)(?: \#?(?P<n%d>\d{1,4}))?"
    r"|(?:the )?(?P<o%d>\d{1,3}(?:st|nd|rd|th)|[a-z]+th|third|second) (?:rows?|rnds?|rounds?))"
)
_END = r"(?:the )?(?:very )?end of "
_BEFORE = (
    rf"(?:(?:at|on|in) {_END}{_WHICH % (1, 1)}|\*\s*{_END}{_WHICH % (2, 2)}|(?:on|in) (?:the )?(?:last|final) {_ROW}(?: only)?"
    rf"|(?:after|on) (?:completing|finishing|working) {_WHICH % (3, 3)}|(?:when|once) {_WHICH % (4, 4)} is (?:complete|completed|finished|done))"
)
#: "... . At end of Row 5, fasten off."
_LED = when_used(
    rf"(?:^|(?<=[.;!)*])|(?<=[.;!] \()|(?=\s\*\s*(?:the )?end of ))\s*(?P<open>\(\s*)?(?P<when>{_BEFORE})\s*[,:]?\s+(?P<rest>[a-z][^.;!()*]*(?:\([^()]*\)[^.;!()*]*)?)(?(open)\))"
)
_DOES = r"(?:fasten|finish|cut|break|end|tie|change|switch|join|drop|do not|don'?t|ch\b|chain|turn|omit|leave|weave|sew|with)"
#: "Change to B at end of Row 5", "change to B in last st of Row 5".
_BEHIND = when_used(
    rf"(?:(?<=[.;!])|(?<=[.;!] \())\s*(?P<open>\(\s*)?(?P<rest>{_DOES}[^.;!()*]*?)"
    rf"(?P<when>\s+(?:at|on|in|after) {_END}{_WHICH % (5, 5)}|(?<=last st)\s+of {_WHICH % (6, 6)}|(?<=last stitch)\s+of {_WHICH % (7, 7)})(?=\s*(?:[.;!)]|$))(?(open)\s*\))"
)
_NO_CHAIN = when_used(
    r"(?:do not|don'?t|omit|omitting|without|leave off|skip|no) (?:the |making a |make a |making the )?(?:turning |last |final )?(?:ch(?:ain)?s?\b(?:[- ]?\d+)?|\d+ ?ch\b)(?: and)?"
)
_INSTEAD = when_used(r"(?P<chain>ch(?:ain)? ?\d+|\d+ ?ch)(?P<not> (?:instead|rather|in place) ?(?:of|than)? ?(?:the )?(?:(?:ch(?:ain)? ?)?\d+(?: ?ch(?:ains?)?)?)?)")


@dataclass(frozen=True, slots=True)
class RowEnd:
    """What is said of the end of row `number` (0: of the last): where its sentence stands, and its work with its chains
    plain; whether the chain that the rows end with is left out there."""

    number: int
    start: int
    end: int
    low: str
    drops: bool


def row_end_of(low: str) -> RowEnd | None:
    """The sentence of a row's words in lower case that is said of a row's end, if there is one."""
    found = _LED.search(low) or _BEHIND.search(low)
    if not found or not low[: found.start()].strip(" .*("):
        return None
    said = found.groupdict()
    number = next((int(v) for k, v in said.items() if k[0] == "n" and k[1:].isdigit() and v), 0)
    number = number or next((lexicon.ordinal(v) or 0 for k, v in said.items() if k[0] == "o" and k[1:].isdigit() and v), 0)
    start, end = found.span("rest")
    rest = low[start:end]
    plain = _NO_CHAIN.sub(lambda m: " " * len(m[0]), rest)
    plain = _INSTEAD.sub(lambda m: m["chain"] + " " * len(m["not"]), plain)
    drops = plain != rest or bool(re.search(r"\b(?:ch|chain) ?\d|\d ?ch\b", plain))
    return RowEnd(number, *found.span(), " " * start + plain + " " * (len(low) - end), drops)


def joined_here(op: Op, said: RowEnd) -> Op:
    """A join with nothing before it, which would join new yarn, as what it is at a row's end, if no yarn is named."""
    if not isinstance(op, Act) or op.name != "yarn" or op.place is None or re.search(r"\byarn|colou?r|thread", said.low):
        return op
    return Act("join", "", op.place, at=op.at)


def with_end(row: RowText, said: RowEnd, ops: tuple[Op, ...]) -> list[RowText]:
    """The rows of a run, the one whose end is spoken of by itself."""
    number = said.number or row.last
    kept = _without_chain(row.ops) if said.drops else row.ops
    out: list[RowText] = []
    if row.last == row.first:
        return [replace(row, ops=(*kept, *ops))]
    kind = row.label.split()[0].rstrip("s")
    for first, last, own in ((row.first, number - 1, row.ops), (number, number, (*kept, *ops)), (number + 1, row.last, row.ops)):
        if last < first:
            continue
        label = f"{kind}s {first}-{last}" if last > first else f"{kind} {first}"
        stated = row.stated
        if row.stated_each:
            stated = row.stated[first - row.first : last - row.first + 1]
        elif row.stated_at_end and last != row.last:
            stated = ()
        moved = tuple(_moved(op, row, first) for op in own if last == row.last or not _tells_last(op))
        begins = row.begins if first == row.first else None
        out.append(replace(row, label=label, first=first, last=last, ops=moved, stated=stated, begins=begins,
                           stated_each=row.stated_each and last > first))  # fmt: skip
    return out


def _tells_last(op: Op) -> bool:
    """Whether an op says only which row the run's last one is: "ending with Row 5"."""
    return isinstance(op, Again) and bool(op.ends) and not op.first


def _without_chain(ops: tuple[Op, ...]) -> tuple[Op, ...]:
    chain = last_chain(ops)
    return tuple(op for op in ops if op is not chain) if isinstance(chain, Chain) else ops


def _moved(op: Op, row: RowText, first: int) -> Op:
    """Rows said by their numbers, counted on from where the run began."""
    if not isinstance(op, Again) or op.first <= 0 or op.last <= op.first:
        return op
    source = op.first + (first - row.first) % (op.last - op.first + 1)
    if source == op.first:
        return op
    return replace(op, first=source, last=source) if first == row.last else op
