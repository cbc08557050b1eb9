"""What a row's words say of its end alone, or of the end of a run: "Rows 2-9: ... At end of Row 9, ch 3 instead of ch 1"."""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import groupby

from ...made_late import dataclass, replace
from .. import lexicon
from ..lexicon import together
from ..tree import Act, Again, Chain, Corner, Make, Op, RowText, Skip, walk
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
    rf"|(?:after|on) (?:completing|finishing|working(?! {_ROW}\b(?! ?\#?\d))) {_WHICH % (3, 3)}|(?:when|once) {_WHICH % (4, 4)} is (?:complete|completed|finished|done))"
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


_EACH_END = (
    rf"(?:(?:at|to|on|for|in|from) (?:the )?(?:very )?(?:ends?|start|beginning) of (?:each|every|all) (?:the )?{_ROW}|(?:after|before ending|before) (?:each|every) {_ROW}"
    r"|at (?:each|every|either) end|at (?:the )?ends? of (?:the )?rows\b"
)
_A_CHAIN = r"(?:ch(?:ain)?s? ?(?:\d|one|two|three|four)|(?:\d|one|two|three|four) ?ch(?:s|ains?)?)"
#: What a row ends with, and nothing that it makes.
_MOVE = (
    rf"(?:{_A_CHAIN}(?: for turning| to turn)?(?:\s*\([^()]*counts? as[^()]*\))?|turn(?:ing)?(?: (?:the |your )?(?:work|piece))?"
    r"|(?:join|close|finish|end)(?: (?:each|the) (?:rnd|round))?(?: with (?:an? )?(?:sl st|ss|slip stitch))?(?: (?:in|into|to|through) (?:the )?(?:top of )?(?:the )?(?:first|1st|beg|beginning|starting)?(?: (?:sc|dc|hdc|htr|tr|st|stitch|ch(?:ain)?(?:[- ]?\d)?))?)?"
    r"|(?:sl st|ss|slip stitch) (?:to join|(?:in|into|to) (?:the )?(?:first|1st) (?:sc|dc|hdc|htr|tr|st|stitch))|fasten off|cut (?:the )?yarn)"
)
_MOVES = rf"{_MOVE}(?:(?:,? (?:and|then)|,)(?: then)? {_MOVE})*"
_BID = r"(?:(?:always|remember to|be sure to|do not forget to|make sure to|please|you will|and|then|now|with|work|make) )*"
#: "At end of each row, ch 1, turn."; "join with sl st at the end of each rnd". Its dear half is compiled where the other is.
_EACH_ENDS = when_used(rf"{_EACH_END}|turn (?:each|every|all) (?:the )?{_ROW})")
_EVERY_END = when_used(rf"(?:(?<=[.;!(\[,])|^)\s*(?P<said>{_BID}{_EACH_END})\s*[,:]?\s+{_BID}{_MOVES}|{_BID}{_MOVES},? {_EACH_END}|(?<=turn )(?:each|every|all) (?:the )?{_ROW}))\s*(?=[.;!)\]]|$|[-=(] ?\d)")


def said_of_every_end(low: str) -> list[tuple[int, int]]:
    """The stretches of a row's words in lower case that say how every row ends, and make nothing in this one.

    >>> low = "1 sc in each st. at the end of each row, ch 1 and turn. fasten off."
    >>> [low[start:end] for start, end in said_of_every_end(low)]
    ['at the end of each row, ch 1 and turn']
    """
    found = [m.span("said") for m in _EVERY_END.finditer(low)] if _EACH_ENDS.search(low) else []
    return [(start, end) for start, end in found if low[:start].strip(" .;([") or low[end:].strip(" .;)]")]


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


def nth_of_run(row: RowText, n: int) -> RowText:
    """A row that says rows by their numbers, as the nth of a run that says them in turn."""
    return replace(row, ops=tuple(_nth_of(op, n) for op in row.ops))


def on_by_turns(row: RowText, begun: int) -> RowText:
    """A row, or a run, that goes on in pattern behind a run from row `begun` on that was worked as the two rows above it by
    turns; any other as it is."""
    at = [n for n, op in enumerate(row.ops) if isinstance(op, Again) and op.first < 0 and not op.swap and not op.grow]
    if len(at) != 1 or any(not isinstance(op, Act | Corner | Again) for op in row.ops) or row.first <= begun:
        return row
    first, second = begun - 2, begun - 1
    turns = (first, second) if (row.first - begun) % 2 == 0 else (second, first)
    alone = row.last == row.first
    again = Again(turns[0], turns[0]) if alone else Again(first, second, listed=turns)
    return replace(row, ops=tuple(replace(again, at=op.at) if n == at[0] and isinstance(op, Again) else op for n, op in enumerate(row.ops)))


def _nth_of(op: Op, n: int) -> Op:
    if not isinstance(op, Again) or op.first <= 0 or op.last <= op.first:
        return op
    rows = op.listed or range(op.first, op.last + 1)
    return replace(op, first=rows[n % len(rows)], last=rows[n % len(rows)], listed=())


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
    rows = op.listed or range(op.first, op.last + 1)
    source = rows[(first - row.first) % len(rows)]
    if source == rows[0]:
        return op
    return replace(op, first=source, last=source, listed=()) if first == row.last else op


# -- rows turned short ------------------------------------------------------------------------------------------------


def turned_short(rows: Sequence[RowText]) -> list[RowText]:
    """The rows with those marked that turn before the end of the row below without a word of it: "Sc in next 4 sts, turn."
    before "Sc in next 22 sts, turn.", which goes on over what the short row left, or before a row that takes just as many as
    it made, or before another short one."""
    out = list(rows)
    behind: tuple[int, bool] | None = None  # what the row behind takes, and whether it is short itself
    for at in range(len(out) - 1, -1, -1):
        row, own = out[at], _run(out[at])
        turned = any(isinstance(op, Act) and op.name == "turn" for op in row.ops)
        short = own is not None and behind is not None and turned and (own[1] <= behind[0] or behind[1])
        if short:
            out[at] = replace(row, ops=(*row.ops[:-1], Act("short"), row.ops[-1]))
        if short and own is not None and behind is not None and own[1] < behind[0]:
            out[at + 1] = replace(out[at + 1], ops=_goes_on(out[at + 1].ops))
        behind = (own[0], short) if own is not None and row.begins is None else None
    return out


def flat_behind_rounds(rows: Sequence[RowText]) -> list[RowText]:
    """The rows with those told as flat ones that are numbered on from joined rounds: one that works a number of stitches and
    turns, "hdc in next 16 sts, turn", and those behind it that turn and are not joined."""
    out = list(rows)
    for at in range(1, len(out)):
        above, row = out[at - 1], out[at]
        begun = above.is_round and _is_joined(above) and not _turns(above) and row.begins is None
        goes_on = not above.is_round and out[at - 1] != rows[at - 1]
        begun = begun and _run(replace(row, is_round=False)) is not None
        if row.is_round and _turned_flat(row) and (begun or goes_on):
            out[at] = replace(row, is_round=False)
    return out


def _turned_flat(row: RowText) -> bool:
    return _turns(row) and not _is_joined(row) and row.begins is None


def _goes_on(ops: tuple[Op, ...]) -> tuple[Op, ...]:
    """A row's ops with what lets it go on over stitches that short rows have left."""
    first = next(i for i, op in enumerate(ops) if isinstance(op, Make | Skip))
    return (*ops[:first], Act("short", "on"), *ops[first:])


def _run(row: RowText) -> tuple[int, int] | None:
    """How many stitches a row takes and makes that works nothing but numbers of them; None for any other."""
    work = [op for op in row.ops if not isinstance(op, Act | Chain)]
    told = any(isinstance(op, Act) and op.name in ("leave", "join", "short") for op in row.ops)
    if not work or told or row.is_round or any(not isinstance(op, Make | Skip) for op in work):
        return None
    takes = makes = 0
    for op in work:
        assert isinstance(op, Make | Skip)
        if any(p.which not in ("next", "first", "same") or p.row is not None for p in op.places):
            return None
        legs, many = (together(op.stitch), op.count) if isinstance(op, Make) else (1, 0)
        places = [p.count for p in op.places if p.which != "same"] if op.places else [many]
        takes += sum(places) * legs
        makes += (sum(p.count for p in op.places) or 1) * many
    return takes, makes


# -- rounds that are called rows --------------------------------------------------------------------------------------


def rounds_called_rows(rows: Sequence[RowText]) -> list[RowText]:
    """The rows with those marked as rounds that are called rows: those of a piece that begins in a ring and whose first
    row is joined, where none of its rows turns."""
    out: list[RowText] = []
    for begun, piece in groupby(_with_pieces(rows), key=lambda numbered: numbered[0]):
        own = [row for _, row in piece]
        ring = own[0].begins is not None and own[0].begins.how in ("ring", "magic ring") and begun > 0
        round_ = ring and _is_joined(own[0]) and not any(_turns(row) for row in own)
        out += [replace(row, is_round=True) for row in own] if round_ else own
    return out


def _with_pieces(rows: Sequence[RowText]) -> list[tuple[int, RowText]]:
    """Each row with the number of the piece that it belongs to."""
    out: list[tuple[int, RowText]] = []
    for row in rows:
        number = out[-1][0] if out else 0
        out.append((number + (row.begins is not None), row))
    return out


def _is_joined(row: RowText) -> bool:
    """Whether a row ends with a join, or with a slip stitch into its beginning."""
    last = next((op for op in reversed(row.ops) if not isinstance(op, Act) or op.name == "join"), None)
    if isinstance(last, Act):
        return True
    slip = isinstance(last, Make) and last.stitch == "sl st" and len(last.places) == 1
    return slip and isinstance(last, Make) and last.places[0].which in ("first", "top", "beg", "nth")


def _turns(row: RowText) -> bool:
    return any(isinstance(op, Act) and op.name == "turn" for op in walk(row.ops))
