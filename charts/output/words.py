"""The written pattern: what to get, what to chain, every row with its count, and the finishing, as plain Markdown.

The row lines are the trade's own notation, so that the notation reader reads the page back row for row.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from hookfold.symbols.dictionary import full_names, gathered, stitch

from ..drawing.plain import markdown
from ..made_late import dataclass, replace
from ..model.cloth.fabric import Fabric, Row, WorkedRow, counts
from ..model.cloth.shapes import run_size
from ..model.sizing.raised import raised_row
from ..model.sizing.yarn import may_carry
from ..pattern.file.checks import MELTS
from ..pattern.file.kinds import OBJECT_KINDS
from ..pattern.file.records import Pattern
from ..pattern.lexicon import height_of, show_stitch, stitch_name
from ..pattern.tree import Act, Noun, Op, Place, RowText, Special, Start, Stated, WrittenPattern
from ..pattern.writer import special_words, write_ops, write_special, write_start, write_stated

_MOST_PERIOD = 24


@dataclass(frozen=True, slots=True)
class Line:
    """One line of the rows: rows `first` to `last`, either in full (`text`) or repeating `period` others."""

    first: int
    last: int
    text: str
    period: int = 0


def stated_of(row: Row) -> tuple[Stated, ...]:
    """The count that stands at a row's end: the stitches if they are all one kind, else each kind; spaces by size."""
    kinds: dict[str, int] = {}
    for made in row.stitches:
        if counts(made) or made.role == "picot":
            kinds[made.kind] = kinds.get(made.kind, 0) + 1
    spaces: dict[int, int] = {}
    for item, made in enumerate(row.stitches):
        if made.role == "chain":
            size = run_size(row, item)
            spaces[size] = spaces.get(size, 0) + 1
    if len(kinds) == 1 and not spaces:
        return (Stated(row.made or sum(kinds.values()), Noun("st" if row.made else next(iter(kinds)))),)
    parts = [Stated(n, Noun(kind)) for kind, n in kinds.items()]
    return (*parts, *(Stated(n, Noun("sp", size)) for size, n in sorted(spaces.items())))


def stated_as(row: Row, text: RowText) -> tuple[Stated, ...]:
    """The count that stands at a row's end; stitches of one kind by the name of the kind where the page has it so."""
    found, own = stated_of(row), text.stated
    kinds = {made.kind for made in row.stitches if counts(made)}
    named = len(own) == 1 and {own[0].noun.name} == kinds and found == (Stated(row.made, Noun("st")),)
    return (replace(found[0], noun=own[0].noun),) if named else found


# -- rows gathered --------------------------------------------------------------------------------------------------


def row_lines(piece: WrittenPattern, fabric: Fabric, terms: str) -> list[tuple[str, list[Line]]]:
    """The rows of each section as lines: rows alike gathered, repeats named by the rows they repeat."""
    keys = [_key(text, row, after) for text, row, after in _with_next(piece, fabric)]
    sections = _section_bounds(fabric)
    out = []
    for name, start, end in sections:
        out.append((name, _gathered(piece, fabric, terms, keys, start, end)))
    return out


def _with_next(piece: WrittenPattern, fabric: Fabric) -> list[tuple[RowText, WorkedRow, str]]:
    """Each row with the colour to change to at its end ("" for none)."""
    rows = fabric.rows
    after = [
        rows[i + 1].colour if i + 1 < len(rows) and rows[i + 1].colour != rows[i].colour else ""
        for i in range(len(rows))
    ]
    return list(zip(piece.rows, rows, after, strict=True))


def _key(text: RowText, row: WorkedRow, after: str) -> tuple[object, ...]:
    return (text.ops, tuple(sorted(row.row.kinds().items())), row.row.made, after)


def _section_bounds(fabric: Fabric) -> list[tuple[str, int, int]]:
    bounds: list[tuple[str, int, int]] = []
    for i, row in enumerate(fabric.rows):
        if bounds and bounds[-1][0] == row.section:
            bounds[-1] = (row.section, bounds[-1][1], i + 1)
        else:
            bounds.append((row.section, i, i + 1))
    return bounds


def _gathered(
    piece: WrittenPattern,
    fabric: Fabric,
    terms: str,
    keys: Sequence[tuple[object, ...]],
    start: int,
    end: int,
) -> list[Line]:
    out: list[Line] = []
    at = start
    while at < end:
        run = _run(keys, at, end)
        period, more = _period(keys, at, end) if run < 2 else (0, 0)
        if run >= 2:
            out.append(_line(piece, fabric, terms, at, at + run))
            at += run
        elif more:
            out += _block(piece, fabric, terms, keys, at, at + period)
            out += _repeats(fabric, at, period, more)
            at += period + more
        else:
            out.append(_line(piece, fabric, terms, at, at + 1))
            at += 1
    return out


def _block(
    piece: WrittenPattern, fabric: Fabric, terms: str, keys: Sequence[tuple[object, ...]], at: int, end: int
) -> list[Line]:  # fmt: skip
    """The rows that come again, those alike gathered."""
    out: list[Line] = []
    while at < end:
        run = _run(keys, at, end)
        out.append(_line(piece, fabric, terms, at, at + run))
        at += run
    return out


def _run(keys: Sequence[tuple[object, ...]], at: int, end: int) -> int:
    """How many rows from `at` are alike."""
    run = 1
    while at + run < end and keys[at + run] == keys[at]:
        run += 1
    return run


def _period(keys: Sequence[tuple[object, ...]], at: int, end: int) -> tuple[int, int]:
    """The shortest block of rows from `at` that comes again whole at once, and how many rows then follow it."""
    for period in range(2, min(_MOST_PERIOD, (end - at) // 2) + 1):
        more = 0
        while at + period + more < end and keys[at + more] == keys[at + period + more]:
            more += 1
        if more >= period:
            return period, more
    return 0, 0


def _repeats(fabric: Fabric, at: int, period: int, more: int) -> list[Line]:
    """ "Rep Rows 9-12 12 times", and the rows of a last part."""
    first = fabric.rows[at].number
    whole, part = divmod(more, period)
    begin = first + period
    times = "" if whole == 1 else " twice" if whole == 2 else f" {whole} times"
    one = _called(fabric)
    said = f"Rep {one}s {first}–{first + period - 1}{times}."
    out = [Line(begin, begin + whole * period - 1, said, period)]
    if part:
        rest = begin + whole * period
        rows = f"{one} {first}" if part == 1 else f"{one}s {first}–{first + part - 1}"
        out.append(Line(rest, rest + part - 1, f"Rep {rows}."))
    return [replace(line, text=line.text + _cuts(fabric, line, at, period)) for line in out]


def _cuts(fabric: Fabric, line: Line, at: int, period: int) -> str:
    """What is cut after rows of a repeat though the rows that they repeat do not say so."""
    rows = range(at + line.first - fabric.rows[at].number, at + line.last - fabric.rows[at].number + 1)
    found = [k for k in rows if cut_after(fabric, k) and not cut_after(fabric, at + (k - at) % period)]
    return "".join(f" Cut {cut_after(fabric, k)} after {_called(fabric)} {fabric.rows[k].number}." for k in found)


def _line(piece: WrittenPattern, fabric: Fabric, terms: str, at: int, end: int) -> Line:
    text, row = piece.rows[at], fabric.rows[at]
    following = fabric.rows[end].colour if end < len(fabric.rows) else ""
    words = row_words(text.ops, row, following, terms) + write_stated(stated_of(row.row), terms)
    cut = cut_after(fabric, end - 1)
    words += f" Cut {cut}." if cut else ""
    return Line(row.number, fabric.rows[end - 1].number, words)


def row_words(ops: Sequence[Op], row: WorkedRow, following: str, terms: str) -> str:
    """A row in words, without its count; `following` is the colour of the next row, "" where that is not said."""
    ops = joined_ops(ops, row)
    if following and following != row.colour:
        ops = (*ops, Act("change", following))
    said = _SKIPPED.sub(_how_many, write_ops(ops, terms, is_round=row.is_round))
    if not _CHANGED.search(said):
        return said
    joined = len(ops) > 1 and isinstance(ops[-2], Act) and ops[-2].name == "join"
    return said.removesuffix(".") + (f" of the joining {show_stitch('sl st', terms)}." if joined else " of last st.")


#: That a row ends with a change of colour.
_CHANGED = re.compile(r"changing to [^,.]+ in last (?:yo|yrh)\.?$")


def joined_ops(ops: Sequence[Op], row: WorkedRow) -> tuple[Op, ...]:
    """A round's words in which a bare join says where it goes, if that is the round's first stitch."""
    join = next((made for made in reversed(row.row.stitches) if made.role == "join"), None)
    first = next((at for at, made in enumerate(row.row.stitches) if made.role in ("stitch", "turning")), -1)
    if join is None or not join.feet or join.feet[0].back or join.feet[0].at != first:
        return tuple(ops)
    made = row.row.stitches[first]
    if made.role != "stitch" or (height_of(made.kind) is None):
        return tuple(ops)
    place = Place("first", Noun(made.kind))
    return tuple(
        replace(op, place=place) if isinstance(op, Act) and op.name == "join" and op.place is None else op for op in ops
    )


#: The chains passed over at the beginning, of which it is said that they count as no stitch.
_SKIPPED = re.compile(
    r"(?P<before>in (?P<nth>\d)\w\w ch from hook.*?)\((?P<passed>skipped|missed) ch do not count as st\)"
)


def _how_many(found: re.Match[str]) -> str:
    passed = int(found["nth"]) - 1
    return f"{found['before']}({found['passed']} {passed} ch {'do' if passed > 1 else 'does'} not count as a st)"


def cut_after(fabric: Fabric, at: int) -> str:
    """The colour that is cut after a row (from 0): one that comes again later but is not carried, or no more; "" where
    it goes on, rests and is carried, or the work ends."""
    rows = fabric.rows
    colour = rows[at].colour
    if at + 1 >= len(rows) or not colour or rows[at + 1].colour == colour:
        return ""
    back = next((k for k in range(at + 1, len(rows)) if rows[k].colour == colour), None)
    return colour if back is None or not may_carry(back - at - 1, rounds=rows[at].is_round) else ""


def _side(fabric: Fabric, line: Line) -> str:
    """RS or WS on the first row of each side; where all rounds have one, on the first alone. A wrong-side row whose
    stitches stand out away from the worker has it, too."""
    row = next((r for r in fabric.rows if r.number == line.first), None)
    told = 1 if row is not None and row.is_round and all(r.side == row.side for r in fabric.rows) else 2
    away = row is not None and row.side == "WS" and not row.is_round and raised_row(row.row)
    shown = row is not None and line.first == line.last and (line.first <= told or away)
    return f" ({row.side})" if row is not None and shown else ""


def _called(fabric: Fabric) -> str:
    """What the lines of the work are called: rows, or rounds."""
    return "Rnd" if fabric.rows and fabric.rows[0].is_round else "Row"


def show_line(fabric: Fabric, line: Line) -> str:
    return f"{label_of(fabric, line)}: {line.text}"


def label_of(fabric: Fabric, line: Line) -> str:
    """What a line's rows are called: "Row 1 (RS)", "Rows 13–60", "Rnds 2–9"."""
    one = _called(fabric)
    return f"{one} {line.first}{_side(fabric, line)}" if line.first == line.last else f"{one}s {line.first}–{line.last}"


# -- the page -------------------------------------------------------------------------------------------------------


def instructions(
    pattern: Pattern, piece: WrittenPattern, fabric: Fabric, terms: str, hand: str,
    facts: Sequence[tuple[str, str]], fit: Sequence[str], finishing: Sequence[str], estimates: Sequence[str],
) -> str:  # fmt: skip
    """The whole written pattern as Markdown."""
    work = [_foundation(piece, fabric, terms)]
    for name, lines in row_lines(piece, fabric, terms):
        title = f"## {markdown(name[:1].upper() + name[1:])}"
        work.append("\n\n".join([title, *(show_line(fabric, line) for line in lines)]))
    last = fabric.rows[-1].number if fabric.rows else 0
    work.append(f"After {_called(fabric)} {last} the piece is worked. " + handed(hand, fabric))
    work.append("## Finishing\n\n" + "\n".join(numbered(finishing)))
    said = " ".join([*work, *(write_special(s, terms, piece.terms) for s in piece.specials)])
    parts = [_head(pattern, facts, fit, estimates), _materials(pattern, terms)]
    parts += [_abbreviations(piece, fabric, terms, said), *work]
    parts.append("## Take care\n\n" + "\n".join(f"* {line}" for line in cautions(pattern)))
    return "\n\n".join(p for p in parts if p) + "\n"


def numbered(steps: Sequence[str]) -> list[str]:
    """Steps as a numbered list of Markdown, the lines of each under its first."""
    return [f"{i}. " + "\n   ".join(markdown(line) for line in step.split("\n")) for i, step in enumerate(steps, 1)]


def _head(pattern: Pattern, facts: Sequence[tuple[str, str]], fit: Sequence[str], estimates: Sequence[str]) -> str:
    lines = [f"# {markdown(pattern.title)}"]
    if pattern.author:
        lines.append(markdown(f"by {pattern.author}" + (f", {pattern.licence}" if pattern.licence else "")))
    lines.append("\n".join(f"* {label}: {markdown(value)}" for label, value in facts))
    if fit:
        lines.append("How it fits:\n\n" + "\n".join(f"* {markdown(line)}" for line in fit))
    if estimates:
        lines.append("\n".join(f"* {markdown(line)}" for line in estimates))
    return "\n\n".join(lines)


def _materials(pattern: Pattern, terms: str) -> str:
    if not pattern.used_colours:
        return ""
    lines = [f"* {c.letter}: {markdown(c.name)}" for c in pattern.used_colours]
    changes = f"\n\n{change_line(terms)}" if len(lines) > 1 else ""
    return "## Colours\n\n" + "\n".join(lines) + changes


def change_line(terms: str) -> str:
    """Where a colour is changed."""
    return f"Change colour in the last {YARN_OVER[terms][1]} of the stitch before the new colour."


def _abbreviations(piece: WrittenPattern, fabric: Fabric, terms: str, said: str) -> str:
    rows = [f"| {markdown(short)} | {markdown(name)} |" for short, name in abbreviations(piece, fabric, terms, said)]
    lines = [f"## Abbreviations ({terms} terms)", "\n".join(["| short | in full |", "|---|---|", *rows])]
    if piece.specials:
        lines.append("\n\n".join(markdown(write_special(s, terms, piece.terms)) for s in piece.specials))
    return "\n\n".join(lines)


#: The yarn laid over the hook, by the terms' own word: short and in full.
YARN_OVER = {"US": ("yo", "yarn over"), "UK": ("yrh", "yarn round hook")}
#: Every other abbreviation that a page may use, beside its stitches: the pattern that finds it, as listed, in full.
GENERAL = (
    (r"beg", "beg", "beginning"), (r"ch", "ch", "chain"), (r"lps?", "lp(s)", "loop(s)"), (r"rem", "rem", "remaining"),
    (r"rep", "rep", "repeat"), (r"rnds?", "rnd(s)", "round(s)"), (r"RS", "RS", "right side"), (r"sk", "sk", "skip"),
    (r"(?:ch-\d+ )?sps?", "sp(s)", "space(s)"), (r"sts?", "st(s)", "stitch(es)"), (r"\w*\d+tog", "tog", "together"),
    (r"WS", "WS", "wrong side"), (r"yo", *YARN_OVER["US"]), (r"yrh", *YARN_OVER["UK"]),
)  # fmt: skip


def abbreviations(piece: WrittenPattern, fabric: Fabric, terms: str, said: str) -> list[tuple[str, str]]:
    """The abbreviations that stand on the page (`said`), with their names in full, shortest stitch first."""
    own = {s.abbreviation for s in piece.specials} | {s.kind for s in piece.specials}
    kinds = {s.kind for row in fabric.rows for s in row.row.stitches} - {"ch", "ring", "picot"} - own
    kinds |= {kind for kind in ("sl st", "sc", "hdc", "dc", "tr", "dtr") if _stands(show_stitch(kind, terms), said)}
    kinds |= {base for kind in kinds & gathered().keys() if _stands(
        show_stitch(base := gathered()[kind].base, terms), assumed(kind, terms))}  # fmt: skip
    out = [(short, name) for pattern, short, name in GENERAL if re.search(rf"\b{pattern}\b", said, re.IGNORECASE)]
    for kind in sorted(kinds, key=lambda k: (stitch(k).height, k) if _known(k) else (9.0, k)):
        if _known(kind):
            out.append((show_stitch(kind, terms), stitch(kind).uk_name if terms == "UK" else stitch(kind).us_name))
    return out + [(kind, assumed(kind, terms)) for kind in sorted(kinds & gathered().keys())]


def usual(short: str, terms: str) -> bool:
    """Whether an abbreviation is one that any page may use: a stitch in these terms, or a word of the trade."""
    bare = re.sub(r"\((\w{1,2})\)$", "", short.strip())
    general = any(re.fullmatch(pattern, bare, re.IGNORECASE) for pattern, _, _ in GENERAL)
    return general or stitch_name(bare, terms) is not None or bare.lower() in ("miss", "slip st", *full_names(terms))


def _stands(short: str, said: str) -> bool:
    """Whether a stitch's abbreviation stands in a text, alone or before a number of stitches worked together."""
    return re.search(rf"(?<![\w-]){re.escape(short)}(?![a-z])", said, re.IGNORECASE) is not None


def assumed(kind: str, terms: str) -> str:
    """How a gathered stitch is usually worked (common practice, no source), for a pattern that does not tell it."""
    made = gathered()[kind]
    return f"{made.name}: {_usual_way(made.name, made.base, made.legs, terms)}"


def _usual_way(name: str, of: str, legs: int, terms: str) -> str:
    """How so many legs of a stitch are usually gathered."""
    yo, base = YARN_OVER[terms][0], show_stitch(of, terms)
    if of == "hdc":
        how = f"[{yo}, insert hook in st, pull up a loop] {legs} times in same st, {yo}, pull through all "
        how += f"{2 * legs + 1} loops"
    elif "popcorn" in name:
        how = f"{legs} {base} in same st, take hook out of the loop, put it from front to back through the first "
        how += "of them, catch the loop and pull it through"
    else:
        how = f"[{yo}, insert hook in st, pull up a loop, {yo}, pull through 2 loops] {legs} times in same st, "
        how += f"{yo}, pull through all {legs + 1} loops"
    return f"{how} (the usual method)"


def _known(kind: str) -> bool:
    return height_of(kind) is not None or kind == "sl st"


def _foundation(piece: WrittenPattern, fabric: Fabric, terms: str) -> str:
    return "\n\n".join(p for p in ("## Foundation", *foundation_words(piece, fabric, terms)) if p)


def foundation_words(piece: WrittenPattern, fabric: Fabric, terms: str) -> tuple[str, str]:
    """How a piece begins, with its colour, and what its chain is a multiple of ("" where of 1)."""
    start = piece.start or Start("chain", fabric.chains)
    colour = fabric.rows[0].colour if fabric.rows else ""
    words = write_start(start, terms)
    text = f"With {colour}, {words[:1].lower()}{words[1:]}" if colour else words
    note = ""
    if start.multiple and start.multiple[0] > 1:
        of, plus = start.multiple
        turning = _turning_chain(piece) if start.how != "ring" else 0
        rest = (plus - turning) % of
        turns = f", plus {turning} for turning." if turning else "."
        note = f"Multiple of {of}" + (f" + {rest}" if rest else "") + turns
    return text, note


def _turning_chain(piece: WrittenPattern) -> int:
    """How many of the foundation's chains are passed over before the first stitch."""
    ops = piece.rows[0].ops if piece.rows else ()
    found = re.search(r"in (\d+)\w\w ch from hook", write_ops(ops, "US"))
    return int(found[1]) - 1 if found else 0


def handed(hand: str, fabric: Fabric) -> str:
    """Which way the work goes."""
    if _called(fabric) == "Rnd":
        other = "; left-handed: the words are the same, and the rounds go the other way" if hand == "left" else ""
        laid = "The chart shows the rounds laid open: each is read from where it begins."
        if fabric.start == "magic ring":
            laid = "The chart shows the rounds from the crown's middle outwards."
        return f"Every round is worked with the right side outside and joined, not turned{other}. {laid}"
    if hand == "left":
        way = "right-side rows run from left to right, and the drawings are mirrored to match"
        return f"Left-handed: the words are the same; {way}."
    return "Right-side rows run from right to left."


def cautions(pattern: Pattern) -> list[str]:
    """The cautions that concern this piece in one of its sizes; common practice, no source."""
    fibre, kind = pattern.yarn.fibre, OBJECT_KINDS[pattern.object.kind]
    melts = "Man-made fibres (acrylic, polyester, nylon) and blends with them melt: keep the piece away from heat."
    sized = [*(pattern.sizes.values() if pattern.sizes else (pattern.object,))]
    lengths_mm = [{name: length.mm for name, length in one.lengths.items()} for one in sized]
    called = f"{pattern.title} {pattern.object.called}"
    said = [one.says for one in kind.cautions if any(one.concerns(mm, called) for mm in lengths_mm)]
    said += general_cautions()
    said += [melts] if MELTS.search(fibre) or (not fibre and kind.fibres == "heat") else []
    said += [_NO_POT_HOLDER] if kind.fibres == "heat" else []
    if pattern.notions:
        said.append("Small parts such as buttons are not for babies and small children.")
    return said


#: Of what keeps a drink warm (common practice, no source).
_NO_POT_HOLDER = (
    "It keeps a drink warm and is no pot holder: what is to guard a hand from heat is of cotton or wool only, worked "
    "dense and double."
)


def general_cautions() -> tuple[str, ...]:
    """What holds for any piece; common practice, no source."""
    return (
        "Wash, dry and press the piece as the care label of your yarn says.",
    )


def special_table(specials: Sequence[Special], terms: str, own: str) -> dict[str, str]:
    """Special stitches by their kind, in words; the gathered ones that are not explained, as they are assumed."""
    return {kind: assumed(kind, terms) for kind in gathered()} | {
        s.kind or s.abbreviation: f"{s.name}: {_told_of(s, terms, own)}" for s in specials
    }


#: An invisible decrease as rows name it, and any other decrease of two.
_INVISIBLE = re.compile(r"\binv(?:is(?:ible)?)?\.?[ -]?(?:sc[ -])?dec(?:rease)?s?\b", re.IGNORECASE)
_OTHER_DECREASE = re.compile(r"\bdec(?:rease)?s?\b|\b[a-z]+ ?2 ?tog\b", re.IGNORECASE)


def invisible_decreases(texts: Sequence[str]) -> dict[str, str]:
    """What the key says of two worked together where all rows that decrease call it invisible; nothing where some do
    not, as one sign stands for both.

    >>> invisible_decreases(["Rnd 9: *Sc in next 2 sts, invdec; rep from * around."])["sc2tog"]
    'invdec in the rows: an invisible decrease'
    >>> invisible_decreases(["Invdec 6 times.", "Sc2tog 6 times."])
    {}
    """
    named = any(_INVISIBLE.search(text) for text in texts)
    if not named or any(_OTHER_DECREASE.search(_INVISIBLE.sub("", text)) for text in texts):
        return {}
    return dict.fromkeys(("sc2tog", "hdc2tog"), "invdec in the rows: an invisible decrease")


def _told_of(special: Special, terms: str, own: str) -> str:
    """A special stitch in words; as it is usually worked where the pattern says no more than its name."""
    said = special_words(special, terms, own).rstrip(".")
    says_nothing = special.words.strip(" .").lower() == special.name.lower()
    if says_nothing and special.form == "gathered" and special.base in ("hdc", "dc") and special.legs > 1:
        return _usual_way(special.name, special.base, special.legs, terms)
    return said
