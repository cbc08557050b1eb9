"""Stitches of the pattern's own that are explained in passing, and what stands for the first of them in a row."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping

from ....made_late import replace
from ... import lexicon
from ...notation.chain_counts import counts_as
from ...notation.words import Words, vocabulary
from ...tree import Act, Chain, Into, Make, Op, Special, Star, Times, walk
from ...when_used import when_used

_NOT_GROUPS = frozenset(
    ("corner", "side", "picot", "ring", "loop", "inc", "increase", "dec", "decrease", "row", "round", "rnd", "rs", "ws", "turn", "end", "base",
     "space", "sp", "mesh", "square", "st", "stitch", "arch", "optional", "center", "centre", "tip", "edge", "color", "colour", "center st",
     "note", "tip", "hint", "beginning", "ending", "pm", "sm", "rm", "mm", "marker", "place marker", "slip marker")
)  # fmt: skip
#: Of these, the names that are work of their own where they are put into a place: "corner in next ch".
_PUT = frozenset(("corner", "inc", "increase"))
_FIRST = when_used(
    r"(?:(?:at|on) (?:the )?(?:beginning|beg|start) of (?:an?|each|every|the|all|any) (?:row|rnd|round)s?[, ]+)?(?:work |make )?(?:the |each |every )?(?:first|1st) (?P<name>[a-z]+(?: [a-z]+)??)"
    r"(?: (?:of|in|on) (?:an?|each|every|the|all|any) (?:row|rnd|round)s?)?,? (?:is |are )?(?:always )?(?:worked|made|as|formed|consists of)(?: as| by| with| thus)?:? (?P<words>[^.;]{4,120})"
)


def named_in_passing(named: Iterable[tuple[str, Op]], known: Mapping[str, Special], text: str) -> list[Special]:
    """The groups that a row gave a name in passing, as stitches of the pattern's own, where the text uses the name."""
    out: list[Special] = []
    for name, op in named:
        if isinstance(op, Times):
            out += _way(name, op, known, text)
            continue
        group = in_one_place(op, each=any(kind == "GROUP" for kind, _ in vocabulary().get(name, ())))
        put = name in _PUT and _worked_as(name, text)
        if not group or (name in _NOT_GROUPS and not put) or not (put or _free(name, known) or _grown(name, group, known)) or any(s.abbreviation == name for s in out):
            continue
        standard = next((value for kind, value in vocabulary().get(name, ()) if kind == "GROUP"), name)
        called = standard if standard in ("shell", "V-st") else name
        spelled = re.escape(re.sub(r"(?<=st)itch$", "", name)).replace(r"\ ", "[ -]").replace(r"\-", "[ -]")
        if (called not in known or _grown(called, group, known)) and len(re.findall(rf"\b{spelled}(?:itch|itches|s)?\b", text)) > 1:
            out.append(Special(name, called, "", group, form="group", in_place=True))
    return out


def _worked_as(name: str, text: str) -> bool:
    """Whether a text puts into a place what it calls so: "..., corner in next ch, ..."."""
    return re.search(rf"[,;*(.\[]\s*(?:then |work |make |an? )*{name} in(?:to)? (?:the )?(?:next|each|same|last|first|foll\w*|cent(?:er|re)|ch|corner|1st|2nd|3rd)\b", text) is not None


def _way(name: str, op: Times, known: Mapping[str, Special], text: str) -> list[Special]:
    """ "2 dc in next sp, dc in next dc (bl over sp)": the name stands for that stretch where it is said alone."""
    own = {form for s in known.values() for form in (s.name.lower(), s.abbreviation.lower())}
    group = any(kind == "GROUP" and value in ("shell", "V-st") for kind, value in vocabulary().get(name.split()[0], ()))
    if name in known or group or name.split()[0] in own or not re.search(rf"(?<![(\w]){re.escape(name)}s?\b", text):
        return []
    return [Special(name, name, "", op.ops, form="group")]


def in_one_place(op: Op, *, each: bool = False) -> tuple[Op, ...]:
    """What stands in one place: several of a stitch, or several things. `each`: in each place one."""
    places = op.places if isinstance(op, Make | Into) else ()
    if len(places) != 1 or (places[0].which == "each" and not each) or places[0].count != 1 or places[0].row:
        return ()
    if isinstance(op, Make):
        many = op.count > 1 and not op.beside and lexicon.height_of(op.stitch) is not None
        return (replace(op, places=()),) if many else ()
    assert isinstance(op, Into)
    return op.ops if not op.name and all(not getattr(o, "places", ()) for o in walk(op.ops)) else ()


def _free(name: str, known: Mapping[str, Special]) -> bool:
    """Whether a name is no stitch yet: of nobody's, or of those that a pattern is expected to explain."""
    kinds = {kind for kind, _ in vocabulary().get(name, ())}
    if name in known or lexicon.stitch_name(name, "US") or lexicon.stitch_name(name, "UK"):
        return False
    return not kinds or "GROUP" in kinds


def _grown(name: str, group: tuple[Op, ...], known: Mapping[str, Special]) -> bool:
    """Whether a group that was named in passing is named so again for a larger one of its make, "3 dc, ch 3, 3 dc (shell
    over shell)": from there on that is the shell."""
    before = known.get(name)
    if before is None or before.words or before.form != "group" or len(before.ops) != len(group):
        return False
    pairs = list(zip(before.ops, group, strict=True))
    alike = all((isinstance(a, Chain) and isinstance(b, Chain)) or (isinstance(a, Make) and isinstance(b, Make) and a.stitch == b.stitch) for a, b in pairs)
    made = [(a.count, b.count) for a, b in pairs if isinstance(a, Make) and isinstance(b, Make)]
    return alike and any(n < m for n, m in made) and all(n <= m for n, m in made)


_SPACE_IS = when_used(
    r"\W*(?:an?|the|one|each|every)?\s*[\"'“]?(?P<name>[a-z]+?)s?[\"'”]?\s*(?:\bis\b|\bare\b|=|:|\bmeans?\b|stands? for|-)\s*(?:an?|the|one|each)?\s*(?:space of )?"
    r"(?:ch(?:ain)?s?[- ]?(?P<n>\d{1,2})|(?P<m>\d{1,2})[- ]?ch(?:ain)?s?)\s*(?:sp|space|lp|loop|arch|arche)?s?\W*"
)


#: '"point" means the ch-2 sp in the middle of the row': any word, as it is set in quotes and stands for one space.
_QUOTED_SPACE = when_used(
    r"\W*[\"'“](?P<name>(?!corner)[a-z]{3,12})[\"'”]\s*(?:always )?(?:\bis\b|=|:|\bmeans?\b|refers? to|stands? for)\s*(?:always )?the\s*(?:center |centre |middle )?"
    r"(?:ch(?:ain)?s?[- ]?(?P<n>\d{1,2})|(?P<m>\d{1,2})[- ]?ch(?:ain)?s?)[- ](?:sp|space|lp|loop)(?: (?:in|at|of|on|along) (?:the )?[a-z -]{3,40})?\W*"
)


def space_named(low: str) -> tuple[str, int] | None:
    """A word for a space that is said to be of so many chains: 'an "arch" is a ch-5' gives ("arch", 5).

    >>> space_named('an "arch" is a ch-5.'), space_named("body: ch 21")
    (('arch', 5), None)
    """
    quoted = _QUOTED_SPACE.fullmatch(low.strip())
    if quoted is not None:
        return quoted["name"], int(quoted["n"] or quoted["m"])
    found = _SPACE_IS.fullmatch(low.strip())
    name = found["name"] if found else ""
    if found is None or not {"SP", "LP"} & {kind for kind, _ in vocabulary().get(name, ())}:
        return None
    return name, int(found["n"] or found["m"])


_BEGUN = when_used(
    r"\b(?:begin|start) (?:an?|each|every|any|the) (?:row|rnd|round)s? that (?:starts?|begins?) with (?:an? )?(?P<name>[a-z]+(?: [a-z]+)??) with "
    r"(?P<words>[^;.=]+[^;.=\s])"
)
_FOLLOWED = when_used(r"\s*,?\s*followed by (?:the |an? )?(?:first )?(?=[a-z])", re.IGNORECASE)


def first_worked_as(low: str) -> list[re.Match[str]]:
    """Where words say what stands for the first of a stitch in a row: "the first OM is worked as 5 ch, ...", "begin a
    row that starts with OM with ch 5, ..."."""
    return [*_FIRST.finditer(low), *_BEGUN.finditer(low)]


def words_of_first(said: str) -> str:
    """The words of what stands for it, letter for letter: "ch 3 followed by the first SM" is "ch 3, SM"."""
    return _FOLLOWED.sub(lambda m: ", ".ljust(len(m[0])), said)


def as_first(special: Special, words: Words) -> Special:
    """What stands for the first of a stitch, as one stitch: with what its chain is said to count as, and with the words
    of the stitch itself where it is named."""
    said = re.search(r"\((counts? as [^)]*)\)", special.words, re.IGNORECASE)
    counted = counts_as(said[1].lower(), words) if said else None
    ops: list[Op] = []
    for op in special.ops:
        if isinstance(op, Chain) and counted is not None and not ops:
            op = replace(op, counts=counted.parts)
        ops += op.ops if isinstance(op, Times) and op.name and op.times == 1 else (op,)
    return replace(special, ops=tuple(ops), words=" ".join(special.words.split()))


def first_in_row(ops: tuple[Op, ...], specials: Mapping[str, Special]) -> tuple[Op, ...]:
    """The ops of a row with the first stitch of the pattern's own worked as the text says that it begins a row."""
    for at, op in enumerate(ops):
        if isinstance(op, Act):
            continue
        begun = _begun(op, specials)
        behind = next((n for n in range(at + 1, len(ops)) if not isinstance(ops[n], Act)), 0) if isinstance(op, Chain) else 0
        raised = _begun(ops[behind], specials) if behind else ()
        if raised and _raises_alike(op, raised[0]):  # "ch 5 to turn each row" and the chain of the first mesh are one
            return (*ops[:at], *ops[at + 1 : behind], *raised, *ops[behind + 1 :])
        return (*ops[:at], *begun, *ops[at + 1 :]) if begun else ops
    return ops


def _raises_alike(chain: Op, begun: Op) -> bool:
    """Whether a chain that a row begins with is the one that its first stitch begins with."""
    first = begun.ops[0] if isinstance(begun, Times) and begun.ops else None
    return isinstance(chain, Chain) and isinstance(first, Chain) and first.count == chain.count


def _begun(op: Op, specials: Mapping[str, Special]) -> tuple[Op, ...]:
    """An op whose first stitch is one that begins a row in its own way, in two; () where it is none."""
    if isinstance(op, Times) and op.name:
        special = specials.get(first_name(op.name))
        return (Times(special.ops, 1, special.abbreviation, op.at),) if special and op.times == 1 else ()
    if isinstance(op, Times | Star) and op.ops:
        begun = _begun(op.ops[0], specials)
        if not begun:
            return ()
        return (*begun, *op.ops[1:], *_once_less(op))
    return ()


def _once_less(op: Times | Star) -> tuple[Op, ...]:
    if isinstance(op, Star):
        return (op,) if op.more is None else (replace(op, more=op.more - 1),) if op.more else ()
    return (replace(op, times=op.times - 1),) if op.times > 1 else (op,) if not op.times else ()


def first_name(name: str) -> str:
    """The name of what stands for the first of a stitch in a row."""
    return f"beg {name}"
