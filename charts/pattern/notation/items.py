"""What is read of a row before it is put in order: clauses and what stands between them."""

from __future__ import annotations

from dataclasses import field
from typing import Any

from ...made_late import dataclass
from ..tree import Act, Make, Noun, Op, Special, Star, walk
from .complaint import Complaint
from .words import Word

Ops = tuple[Op, ...]

CLAUSES = (
    "make", "chain", "picot_c", "skip", "turn", "join", "newyarn", "travel", "colour", "facing", "manner", "even", "except",
    "leave", "into", "group", "repeat", "ending", "again", "rows", "fasten", "goes_on", "begin",
)  # fmt: skip
SIGNS = {",": "COMMA", ";": "SEMI", ":": "COLON", ".": "STOP", "-": "HYPHEN", "/": "SLASH", "+": "PLUSW"}


@dataclass(slots=True)
class Node:
    """A bracket or starred stretch as it was read."""

    ops: Ops = ()
    star: Star | None = None
    paired: bool = False
    parsed_as_note: bool = False


@dataclass(slots=True)
class RowRead:
    """What was read of a row. `others` are further readings, the usual first; `sure` is False where words of work were
    not taken. `named` are things made that the words give a name in passing ("5 dc in next ch (shell)"); `labels` are
    names that stand inside their words ("5 dc (a shell) in next ch"), with where; `other_way` is the second of two ways to
    begin, which was left out; `plain` is the one plain stitch that its words name, if it is one; `passed` is where words stand that no clause takes and
    that name no work."""

    ops: Ops = ()
    counts: list[tuple[tuple[tuple[int, Noun], ...], int, int]] = field(default_factory=list)
    complaints: list[Complaint] = field(default_factory=list)
    notes: list[tuple[str, int]] = field(default_factory=list)
    prose: list[str] = field(default_factory=list)
    others: tuple[Ops, ...] = ()
    learned: dict[str, Special] = field(default_factory=dict)
    named: list[tuple[str, Op]] = field(default_factory=list)
    labels: list[tuple[str, int]] = field(default_factory=list)
    cost: float = 0.0
    count_words: str = ""
    respelt: dict[str, str] = field(default_factory=dict)
    other_way: str = ""
    plain: str = ""
    passed: list[tuple[int, int]] = field(default_factory=list)

    @property
    def sure(self) -> bool:
        return not self.complaints


@dataclass(slots=True)
class Item:
    """One thing of a row: an op, or what is said between ops; the words it stands in."""

    value: Any
    first: int
    last: int


class Mark:
    """What stands where no clause does."""

    def __init__(self, name: str) -> None:
        self.name = name


#: A sign or soft word between clauses; a word that no clause takes.
GAP, LOST = Mark("gap"), Mark("lost")


def is_clause(value: Any) -> bool:
    return isinstance(value, tuple) and value[0] in CLAUSES


def copied(word: Word) -> Word:
    """A word that may be given other kinds."""
    return Word(word.text, word.start, word.end, {k: list(v) for k, v in word.kinds.items()}, word.inside)


def coloured_first(items: list[Item], words: list[Word]) -> list[Item]:
    """A colour told right behind the work that is done in it, up to the next sign, before that work: "sc in next 3 sts
    with B, sc in last st with A"."""
    out = list(items)
    for at in range(1, len(out)):
        item, before = out[at], out[at - 1]
        ends = item.last >= len(words) or words[item.last].is_sign
        if ends and is_clause(item.value) and is_clause(before.value) and item.value[0] == "colour" and before.value[0] in _WORKED:
            named = [op for op in item.value[1] if isinstance(op, Act) and op.name == "colour"]
            made = [op for op in walk(tuple(before.value[1])) if isinstance(op, Make)]
            if named and any(op.stitch != "sl st" for op in made):
                out[at - 1 : at + 1] = [item, before]
    return out


#: Clauses that make stitches.
_WORKED = frozenset(("make", "into", "group"))
