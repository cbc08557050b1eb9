"""Writing a tree as the trade writes it, in US or UK terms, so that reading the words gives the same tree again."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from .lexicon import show_stitch, together
from .place_writer import plural, write_amount, write_nth, write_place
from .said_in import said_in
from .tree import (
    FIRST_LEG,
    FROM_THERE,
    OTHER_SIDE,
    ROUND_THOSE,
    Act,
    Again,
    Chain,
    Corner,
    Either,
    Into,
    Make,
    Noun,
    Op,
    Place,
    RowText,
    Skip,
    Special,
    Star,
    Start,
    Stated,
    Times,
    WrittenPattern,
)  # fmt: skip

_TIMES = {1: "once", 2: "twice"}
_BRACKETED = (Times, Into)


def write_pattern(pattern: WrittenPattern, terms: str = "") -> str:
    """A whole written pattern: terms, start, special stitches, rows."""
    shown = terms or pattern.terms
    lines = [f"Terms: {shown}"]
    lines += [write_special(s, shown, pattern.terms) for s in pattern.specials]
    if pattern.start is not None and pattern.start.how != "none":
        lines.append(write_start(pattern.start, shown))
    return "\n".join([*lines, *(write_row(row, shown) for row in pattern.rows if not row.chain_only)]) + "\n"


def write_special(special: Special, terms: str, own: str = "US") -> str:
    """ "Bobble (bo): dc4tog in one st." A stitch told by the moves of the hook keeps its words."""
    name = special.name[:1].upper() + special.name[1:]
    head = name if special.abbreviation.lower() == special.name.lower() else f"{name} ({special.abbreviation})"
    return f"{head}: {special_words(special, terms, own)}"


def special_words(special: Special, terms: str, own: str = "US") -> str:
    """What a special stitch is, in `terms`; told by moves, or in its own terms, in the words it was given."""
    if special.ops:
        words = _inside(special.ops, terms)
        return f"({words}) in st indicated." if special.in_place else f"{words}."
    shown = show_stitch(special.kind, terms)
    if special.kind.startswith(("FP", "BP")) and special.form == "single" and shown != special.abbreviation:
        return f"{shown}."
    if terms != own and special.form == "gathered" and "tog" in special.words:
        return f"{show_stitch(f'{special.base}{special.legs}tog', terms)} in one st."
    return said_in(special.words, own, terms)


def write_start(start: Start, terms: str) -> str:
    """ "Ch 26.", "With A, ch 4, join with sl st in first ch to form a ring.", "Over 20 sc." """
    slip = show_stitch("sl st", terms)
    if start.how == "over":
        return f"Over {start.count} {'sts' if start.kind == 'st' else show_stitch(start.kind, terms)}."
    said = f"Ch {start.count}."
    if start.how == "ring":
        said = f"Ch {start.count}, join with {slip} in first ch to form a ring."
    if start.how == "magic ring":
        said = "Make a magic ring."
    return f"With {start.colour}, {said[0].lower()}{said[1:]}" if start.colour else said


def write_row(row: RowText, terms: str, *, side: str | None = None) -> str:
    """ "Row 2 (WS): Ch 1, turn. Sc in each st across. (25 sts)"."""
    shown = row.side if side is None else side
    head = f"{row.label} ({shown})" if shown else row.label
    words = write_ops(row.ops, terms, is_round=row.is_round)
    return f"{head}: {words}{write_stated(row.stated, terms, at_end=row.stated_at_end)}"


def write_stated(stated: Sequence[Stated], terms: str, *, at_end: bool = False) -> str:
    """The count at the row's end, in brackets; nothing where none is stated."""
    if not stated:
        return ""
    parts = [f"{s.count} {plural(s.noun, s.count, terms)}" for s in stated]
    return f" ({', '.join(parts)}{' at end' if at_end else ''})"


def write_ops(ops: Sequence[Op], terms: str, *, is_round: bool = False) -> str:
    """Clauses as a sentence: a capital first, a full stop last, and one after "turn" at the row's beginning. What goes
    "across" a row goes "around" a round; before its first stitch the "same st" is that of the join. The beginning chain
    of the row below is its turning chain, that of a round its own."""
    out = ""
    begins = _first_worked(ops) if is_round else -1
    for at, op in enumerate(ops):
        text = write_op(op, terms) + _whole(ops[at - 1] if at else None, terms)
        text = text.replace(" same st", " same st as join", 1) if at == begins else text
        text = _closing_loop(op, ops[at - 1]) or text if at else text
        if not text:
            continue
        new = not out or out.endswith(". ")
        out += text[:1].upper() + text[1:] if new else text
        last = at == len(ops) - 1
        turned = isinstance(op, Act) and op.name in ("turn", "do not turn") and at <= 1
        follows_opening = not last and isinstance(ops[at + 1], Act) and getattr(ops[at + 1], "name", "") == "opening"
        out += "" if last else ". " if turned else " " if follows_opening else ", "
    said = out + "." if out and not out.endswith(".") else out
    return said.replace(" across", " around") if is_round else said.replace("top of beg ch", "top of turning ch")


def _closing_loop(op: Op, before: Op) -> str:
    """ "Ch 2, dc in first sc (counts as ch-5 sp)": said of the stitch that closes a round's last loop, and no other."""
    chains = op.text.removeprefix("ch ") if isinstance(op, Act) and op.name == "opening" else ""
    closes = isinstance(before, Make) and all(place.which == "first" for place in before.places)
    return f"(counts as ch-{chains} sp)" if closes and chains.isdigit() else ""


def _first_worked(ops: Sequence[Op]) -> int:
    """Which clause is the first that works a stitch, where it goes into the same stitch as the join; -1 else."""
    at = next((k for k, op in enumerate(ops) if not isinstance(op, Chain | Act)), -1)
    op = ops[at] if at >= 0 else None
    places = op.places if isinstance(op, Make | Into) else ()
    moved = any(isinstance(one, Act) and one.name in _MOVES for one in ops[: max(at, 0)])
    return at if places and places[0] == Place("same", Noun("st")) and not moved else -1


#: What takes the hook elsewhere before the first stitch.
_MOVES = ("along", "yarn")


def _whole(before: Op | None, terms: str) -> str:
    """What the stitch behind a beginning chain makes with it: " (counts as dc3tog)"."""
    counts = before.counts if isinstance(before, Chain) and before.counts else ("",)
    whole = counts[0].removeprefix(FIRST_LEG).strip() if counts[0].startswith(FIRST_LEG) else ""
    return f" (counts as {show_stitch(whole, terms)})" if whole else ""


def write_op(op: Op, terms: str) -> str:
    """One clause."""
    return _WRITERS[type(op)](op, terms)


def _inside(ops: Sequence[Op], terms: str) -> str:
    return ", ".join(filter(None, (write_op(op, terms) for op in ops)))


# -- clauses --------------------------------------------------------------------------------------------------------


def _make(op: Make, terms: str) -> str:
    if op.stitch == "picot" and op.places and op.places[0].which == "made" and op.places[0].nth:
        nth = op.places[0].nth
        return f"ch {nth}, {show_stitch('sl st', terms)} in {write_nth(nth)} ch from hook"
    if op.stitch == "ch":
        return f"ch {op.count} over " + " and ".join(_placed(p, op, terms).removeprefix("in ") for p in op.places)
    name = show_stitch(op.stitch, terms)
    head = f"{op.count} {name}" if op.count != 1 else name
    if not op.places:
        return head
    if op.places[0].which == "evenly":
        return f"{op.places[0].count} {name} evenly across"
    if op.places[0].noun.name == "side":
        return f"{head} evenly along side"
    beside = "".join(f" and {_make(other, terms)}" for other in op.beside)
    return f"{head} " + " and ".join(_placed(p, op, terms) for p in op.places) + beside


def _placed(place: Place, op: Make, terms: str) -> str:
    """A place with its preposition: around a post, over stitches worked together, in anything else.

    Several stitches go "in each of" several places.
    """
    posted = op.stitch[:2] in ("FP", "BP")
    word = "around" if posted else "over" if together(op.stitch) > 1 and place.count > 1 else "in"
    if place.hold.endswith("post"):
        word = f"around {place.hold} of"
    plain = place.which in ("next", "first", "last", "unworked") and not place.nth and not place.hold
    if plain and op.count > 1 and place.count > 1:
        word = f"{word} each of"
    if place.which in ("before", "after", "between"):
        return f"in {write_place(place, terms)}"
    return f"{word} {write_place(place, terms)}"


def _chain(op: Chain, terms: str) -> str:
    text = f"ch {op.count}"
    tail = " here and throughout" if op.throughout else ""
    if op.counts is None:
        return text
    if op.counts and op.counts[0].startswith(FIRST_LEG):
        return text  # said behind the stitch: `write_ops`
    if not op.counts:
        return f"{text} (does not count as st{tail})"
    return f"{text} (counts as {' and '.join(_counted(c, terms) for c in op.counts)}{tail})"


def _counted(part: str, terms: str) -> str:
    if part == "ch":
        return "first lp"
    return part if " " in part else show_stitch(part, terms)


def _skip(op: Skip, terms: str) -> str:
    word = "miss" if terms == "UK" else "sk"
    return f"{word} " + " and ".join(write_place(p, terms) for p in op.places)


def _into(op: Into, terms: str) -> str:
    name = op.name or f"({_inside(op.ops, terms)})"
    return name + "".join(
        " and in " * (i > 0) + " in " * (i == 0) + write_place(p, terms) for i, p in enumerate(op.places)
    )


def _times(op: Times, terms: str) -> str:
    if op.name and op.times == 1:
        return op.name
    if (
        len(op.ops) == 1
        and isinstance(only := op.ops[0], Times | Into)
        and only.name
        and not getattr(only, "places", ())
    ):
        return f"{op.times} {only.name}"
    inside = f"[{_inside(op.ops, terms)}]"
    return f"{inside} around" if op.times == 0 else f"{inside} {_TIMES.get(op.times, f'{op.times} times')}"


def _star(op: Star, terms: str) -> str:
    ops = [write_op(o, terms) for o in op.ops]
    if op.cut is not None and op.cut < len(ops) and not op.ending:
        inside = ", ".join(ops[: op.cut]) + "**, " + ", ".join(ops[op.cut :])
    else:
        inside = ", ".join(ops)
    return f"*{inside}; rep from * {_extent(op, terms)}{_ending(op, terms)}"


def _extent(op: Star, terms: str) -> str:
    if op.more is not None:
        return "once more" if op.more == 1 else f"{op.more} more times"
    word = "around" if op.word == "around" else "across"
    if op.upto is not None and op.until is not None:
        return f"to {write_amount(op.until, terms)} before {plural(op.upto, 1, terms)}"
    if op.upto is not None:
        return f"to next {plural(op.upto, 1, terms)}"
    if op.until:
        return f"{'around ' if op.word == 'around' else ''}to last {write_amount(op.until, terms)}"
    return word


def _ending(op: Star, terms: str) -> str:
    if op.cut is not None and not op.ending:
        return ", ending last rep at **"
    lead = "ending last rep with" if op.replaces else "ending with"
    return f", {lead} {_inside(op.ending, terms)}" if op.ending else ""


def _either(op: Either, terms: str) -> str:
    return " or ".join(write_op(o, terms) for o in op.choices)


def _act(op: Act, terms: str) -> str:
    slip = show_stitch("sl st", terms)
    if op.name == "opening":
        return f"({_opening(op.text, terms)})"
    if op.name == "join":
        return f"join with {slip}" + (f" in {_joined_in(op.place, terms)}" if op.place else "")
    if op.name == "along" and op.place and op.text == FROM_THERE:
        return f"beginning in {write_place(op.place, terms)}"
    if op.name == "along" and op.place:
        return f"{slip} along to {write_place(op.place, terms)}"
    yarn = f"colour {op.text}" if op.text.isdigit() else op.text
    if op.name == "yarn":
        return f"join {yarn or 'yarn'} with {slip}" + (f" in {write_place(op.place, terms)}" if op.place else "")
    if op.name == "leave" and op.text:
        return f"leave {write_amount((int(op.text), Noun('st')), terms)} unworked"
    if op.name == "last" and op.place:
        return f"working last st in {write_place(op.place, terms)}"
    if op.name == "row" and op.place and op.place.row:
        return f"working in {op.text + 's of ' if op.text else 'sts of '}Row {op.place.row.number}"
    if op.name in ("ends in", "begins in"):
        return f"{'last' if op.name == 'ends in' else 'first'} st being {show_stitch(op.text, terms)}"
    if op.name == "edge" and op.text == OTHER_SIDE:
        return "working down other side"
    if op.name == "other piece" and op.place:
        return f"{show_stitch(op.text, terms)} in {write_place(op.place, terms)} of other motif"
    if op.name == "crossing":
        return f"working {'behind' if op.text == 'behind' else 'in front of'} sts just made"
    if op.name == "loops" and op.text not in ("front loop", "back loop", "third loop"):
        return "working in both loops"
    text = yarn if op.name in ("colour", "change") else op.text
    return _ACTS.get(op.name, op.name).format(text=text, slip=slip, over="yrh" if terms == "UK" else "yo")


_ACTS = {
    "turn": "turn", "do not turn": "do not turn", "do not join": "do not join", "fasten off": "fasten off",
    "leave": "leave rem sts unworked", "short": "", "colour": "with {text}",
    "change": "changing to {text} in last {over}",
    "loops": "working in {text}s only", "opposite": "working along opposite side of foundation ch",
    "magic ring": "make a magic ring", "stripes": "in stripes of {text}", "pattern": "continue in pattern",
    "loop": "for button loop",
    "from base": "beginning with st at base of ch", "spread": "increasing {text} sts evenly spaced",
    "spread to": "increasing evenly to {text} sts",
    "chains passed": "skipping ch {text} it",
    "behind": "working behind last rnd", "edge": "working in ends of rows", "facing": "with {text} facing",
}  # fmt: skip


def _joined_in(place: Place, terms: str) -> str:
    """Where a round is joined: in the top of a stitch that is there only once, and not in a "next" one."""
    plain = place.bare and place.which == "next" and place.count == 1 and not place.hold
    return f"top of {plural(place.noun, 1, terms)}" if plain else write_place(place, terms)


def _opening(text: str, terms: str) -> str:
    passed = "missed" if terms == "UK" else "skipped"
    if not text:
        return f"{passed} ch do not count as st"
    return f"{passed} ch count as " + " and ".join(_opened(p.strip(), terms) for p in text.split(","))


def _opened(part: str, terms: str) -> str:
    if part.startswith("sk "):
        return f"{part.split()[1]} {'missed' if terms == 'UK' else 'sk'} ch"
    return "first lp" if part == "ch" else part if part.startswith("ch ") else show_stitch(part, terms)


def _corner(op: Corner, terms: str) -> str:
    if isinstance(op.make, Into):
        return "working " + _into(op.make, terms)
    if op.make.stitch in ("inc", "dec"):
        word = "increasing" if op.make.stitch == "inc" else "decreasing"
        ends = {p.which for p in op.make.places}
        where = "each end" if len(ends) == 2 else "beg" if "first" in ends else "end"
        return f"{word} {op.make.count - 1} st at {where}"
    return "working " + _make(op.make, terms)


def _again(op: Again, terms: str) -> str:
    if op.by:
        return f"continue in this manner, {'increasing' if op.grow > 0 else 'decreasing'} {op.by} sts each rnd"
    if op.ends:
        return f"ending with Row {op.ends}"
    if op.grow and op.of == "block":
        return f"continue as established, working {op.grow} more st in each block"
    if op.grow and op.of == "times":
        return f"continue as established, having {-op.grow} sp less in each row"
    if op.grow:
        return f"continue as established, working {op.grow} more st before each increase"
    named = [str(row) for row in op.listed]
    rows = (
        f"Rows {', '.join(named[:-1])} and {named[-1]}"
        if named
        else f"Row {op.first}"
        if op.first == op.last
        else f"Rows {op.first} and {op.last}"
        if op.last == op.first + 1
        else f"Rows {op.first}-{op.last}"
    )
    times = f" {_TIMES.get(op.times, f'{op.times} times')}" if op.times else ""
    swaps = "".join(map(_swap, op.swap, [terms] * len(op.swap)))
    return f"rep {rows}{times}{swaps}" if op.first else swaps.removeprefix(", ")


def _swap(pair: tuple[Op, Op], terms: str) -> str:
    """What is worked in place of what, or round which posts."""
    old, new = pair
    if old == ROUND_THOSE:
        return f", working {write_op(new, terms).removeprefix('posts ')}"
    return f", working {write_op(new, terms)} in place of {write_op(old, terms)}"


_WRITERS: dict[type, Callable[..., str]] = {
    Make: _make, Chain: _chain, Skip: _skip, Into: _into, Times: _times, Star: _star, Either: _either, Act: _act,
    Corner: _corner, Again: _again,
}  # fmt: skip
