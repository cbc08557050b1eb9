"""A row as it is gathered from the page, before its words are read."""

from __future__ import annotations

import functools
import re

from ...made_late import dataclass, replace
from .. import lexicon
from ..notation.plain import plain
from ..notation.words import vocabulary
from ..tree import Start
from ..when_used import when_used
from .again.at_times import shaped_at_times
from .heads import Head
from .starts import turning_in


@dataclass(slots=True)
class Draft:
    """A row as it is gathered from the page; `in_turn` the `nth` of a run of which some rows are shaped."""

    head: Head
    line: int
    column: int
    lines: list[str]
    part: str = ""
    make: int = 1
    start: Start | None = None
    colour: str = ""
    done: bool = False
    at_will: bool = False
    leaves: bool = False
    loops: str = ""
    in_turn: bool = False
    nth: int = 0

    def go_on(self, number: int, text: str) -> None:
        """Take a further line, keeping lines between as empty ones so that places stay right."""
        self.lines += [""] * (number - self.line - len(self.lines)) + [text]

    @property
    def low(self) -> str:
        return plain("\n".join(self.lines))


_BROKEN = when_used(r"(?P<a>[A-Za-z0-9]+(?:-\d+)?)-\n(?P<gap>\s*)(?P<b>[A-Za-z]+|\d+(?![A-Za-z]))")


@functools.cache
def _known_words() -> frozenset[str]:
    spelled = [*vocabulary(), *lexicon.long_names("US"), *lexicon.long_names("UK")]
    return frozenset(word for phrase in spelled for word in phrase.split())


def unbroken(text: str) -> str:
    """A row's lines with the words that a line's end cut in two put together, letter for letter as long as before.

    >>> unbroken("3 sc in next ch-\\nsp"), unbroken("dou-\\nble crochet")
    ('3 sc in next ch-sp\\n', 'double\\n  crochet')
    >>> unbroken("sc in each ch a-\\ncross")
    'sc in each ch across\\n '
    """
    return _BROKEN.sub(_put_together, text) if "-\n" in text else text


def _put_together(found: re.Match[str]) -> str:
    a, b, gap = found["a"], found["b"], found["gap"]
    apart = len(a) > 1 and plain(a) in _known_words() and plain(b) in _known_words()
    if plain(a + b) in _known_words() and not apart:
        return f"{a}{b}\n {gap}"
    whole = re.fullmatch(r"\d*ch(?:ain)?(?:-\d+)?|\d+", plain(a))
    return f"{a}-{b}\n{gap}" if whole else found[0]


def row_by_row(draft: Draft) -> list[Draft]:
    """A run of rows whose text tells each of them, parted by ";" or by stops behind counts, as that many drafts; else
    the draft as it is: "Rnds 1-3: 6 sc in ring (6); 6 inc (12); [1 sc, 1 inc] 6 times (18)"."""
    head = draft.head
    count = head.last - head.first + 1
    if count < 2 or head.numbers or head.open_end:
        return [draft]
    text = "\n".join(draft.lines)
    parts = _parts(text)
    if len(parts) != count or not all(re.search(r"[a-z]", text[a:b], re.IGNORECASE) for a, b in parts):
        return [draft]
    plural, _, _ = head.label.rpartition(" ")
    kind = plural.removesuffix("s") or head.label
    out = []
    for n, (a, b) in enumerate(parts):
        own = "".join(c if a <= at < b or c == "\n" else " " for at, c in enumerate(text))
        number = head.first + n
        one = replace(head, label=f"{kind} {number}", first=number, last=number)
        out.append(replace(draft, head=one, lines=own.split("\n"), start=draft.start if not n else None))
    return out


_AT_TIMES = when_used(r"\b(?:every|each|following)\b")
#: A count behind a run, which its last row comes to.
_COUNT_BEHIND = when_used(r"\s*[.;:=(\[<\u2013\u2014-]+\s*\d{1,4}\s*(?:sts?|stitches|[sdh]{1,2}c|h?tr|total)?(?: (?:in all|total|at end))?\s*[)\]>]?\s*\.?\s*$")


#: "Cont in patt as set": a pattern that no row is said to form is taken for the two rows above (common practice, no source).
_IN_PATTERN = when_used(r"\b(?:cont(?:inue|inuing)?|work(?:ing)?|keep(?:ing)?)(?: to)?(?: work(?:ing)?)? in (?:the )?(?:patt?|pattern)\b\.?(?: as (?:set|established|est|before))?", re.IGNORECASE)
_OF_PATTERN = 2


def beside_shaping(draft: Draft) -> list[str]:
    """What a run of which some rows are shaped says besides, how its increases are made or what its pattern is."""
    head, text = draft.head, "\n".join(draft.lines)
    said = shaped_at_times(plain(text), head.first, head.last) if _AT_TIMES.search(draft.low) else None
    return [" ".join(text[start:end].split()).strip(" ,") for start, end in said.aside] if said is not None else []


def shaped_in_turn(draft: Draft) -> list[Draft]:
    """A run of rows of which some are shaped, "Rows 3-10: Work in sc, inc 1 st at each end of every other row (42)", as
    so many drafts, the last with the count; any other draft as it is."""
    head = draft.head
    if not 0 < head.first < head.last or head.numbers or head.open_end or not _AT_TIMES.search(draft.low):
        return [draft]
    text = "\n".join(draft.lines)
    said = shaped_at_times(plain(text), head.first, head.last)
    if said is None:
        return [draft]
    kind = head.label.rpartition(" ")[0].removesuffix("s") or head.label
    out = []
    for number in range(head.first, head.last + 1):
        own = text
        counted = _COUNT_BEHIND.search(plain(own)) if number < head.last else None
        for start, end in (*(said.beside if number in said.rows else said.without), *((counted.span(),) if counted else ())):
            own = own[:start] + "".join(c if c == "\n" else " " for c in own[start:end]) + own[end:]
        if head.first > _OF_PATTERN:
            row = f"rep row {head.first - _OF_PATTERN + (number - head.first) % _OF_PATTERN}"
            for found in _IN_PATTERN.finditer(own):
                own = own[: found.start()] + row.ljust(len(found[0])) + own[found.start() + max(len(found[0]), len(row)) :]
        one = replace(head, label=f"{kind} {number}", first=number, last=number)
        out.append(replace(draft, head=one, lines=own.split("\n"), start=draft.start if number == head.first else None, in_turn=True, nth=number - head.first))
    return out


_FROM_HOOK = when_used(r"\bhook\b|\b(?:sk|skip|miss)\b")


def first_apart(draft: Draft, on: Start | None) -> list[Draft]:
    """A run of rows on a chain of which some are told to be for turning ("ch 20 plus 1 to turn"), the first row apart:
    it alone has those before it; any other draft as it is."""
    head = draft.head
    run = head.last > head.first > 0 and not head.numbers and not head.open_end
    if not run or on is None or on.how != "chain" or not turning_in(plain(on.text)) or _FROM_HOOK.search(draft.low):
        return [draft]
    kind = head.label.rpartition(" ")[0].removesuffix("s") or head.label
    first = replace(head, label=f"{kind} {head.first}", last=head.first)
    several = head.last > head.first + 1
    label = f"{kind}s {head.first + 1}-{head.last}" if several else f"{kind} {head.last}"
    return [replace(draft, head=first), replace(draft, head=replace(head, label=label, first=head.first + 1), start=None)]


def _parts(text: str) -> list[tuple[int, int]]:
    """From where to where the parts between semicolons lie that stand in no bracket, each with a count behind all but
    the last."""
    depth, begun, out = 0, 0, []
    for at, c in enumerate(text):
        depth += (c in "([{") - (c in ")]}")
        if c == ";" and not depth:
            out.append((begun, at))
            begun = at + 1
    if text[begun:].strip():
        out.append((begun, len(text)))
    counted = [bool(_COUNT_LAST.search(text[a:b])) for a, b in out]
    return out if all(counted[:-1]) and len(out) > 1 else []


_COUNT_LAST = when_used(r"[(\[]\s*\d+[^()\[\]]{0,12}[)\]]\s*$|[=\u2013-]\s*\d+\s*(?:sts?|sc|hdc|dc)?\s*$", re.IGNORECASE)


#: A row that ends in its beginning: "ss to top of 3 ch", "join with sl st in first sc".
_ENDS_JOINED = when_used(r"\b(?:join\w*|sl ?st|ss|slip ?st\w*|slip stitch)\b[^*\n]{0,60}$")
_TURNED = when_used(r"\bturn|\bspiral|\bdo not join\b|\bdon't join\b")


def joined_without_a_word(drafts: list[Draft], start: Start | None) -> None:
    """Rows round a ring, of which the first is joined and none is turned: one that says no join is a round like the others."""
    pieces: list[list[Draft]] = []
    for draft in drafts:
        if not pieces or draft.start is not None or draft.head.first == 1:
            pieces.append([])
        pieces[-1].append(draft)
    for at, piece in enumerate(pieces):
        on = piece[0].start or (start if at == 0 else None)
        rows = all(draft.head.is_round is False and draft.head.first == draft.head.last for draft in piece)
        if on is None or "ring" not in on.how or not rows or not _ENDS_JOINED.search(piece[0].low.rstrip(" .)")):
            continue
        if any(_TURNED.search(draft.low) for draft in piece):
            continue
        for draft in piece[1:]:
            if not re.search(r"\bjoin|\bsl ?st\b|\bss\b|\bslip|\bsame as\b|\brep(?:eat)? (?:row|rnd|round)", draft.low):
                draft.head = replace(draft.head, is_round=True)
