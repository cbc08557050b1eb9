"""What is said of a row that cannot be worked, or makes another count than stated, and of words set aside."""

from __future__ import annotations

import re
from collections.abc import Sequence

from ...errors import Note, Problem
from ...pattern.lexicon import TURNING, height_of
from ...pattern.notation.plain import plain
from ...pattern.notation.talk.named_work import named_work
from ...pattern.spikes import counted_from
from ...pattern.tree import Chain, Into, Make, Noun, RowText, Skip, Star, Times, walk
from ...pattern.when_used import when_used
from ..cloth.each_side import BySide, leaves_a_side, may_be_groups, possible, told_by_side
from ..cloth.faults import OtherStart, Stuck
from ..cloth.tiles import tiles_of
from ..cloth.wording import many, one
from ..hands.edges import UNSAID
from . import readings
from .working import Task, Tried, Worked, WorkedPiece, Working


def report(w: Working, task: Task, tried: Tried) -> None:
    """Say what is wrong with a row, unless an earlier fault makes it doubtful: a count that comes out as stated ends
    the doubt."""
    if tried.stuck is not None and tried.stuck.kind == UNSAID:
        _unsaid(w, task)
        return
    if tried.stuck is not None:
        if not (w.broken or _begun_amiss(w, task, tried.stuck)):
            stuck_once(w, task.text, tried.stuck, task.label)
        w.broken = True
        return
    if not w.broken:
        _growth_off(w, task, tried)
        counts_off(w, task, tried)
        _read_in_all(w, task, tried)
    elif not tried.off and task.stated:
        w.broken = False
    if tried.replaced and not task.stated:
        says = "stitches worked further down were read as taking the place of those above; a count would settle it"
        w.notes.append(Note(task.label, says, task.text.line))
    _spikes_from_one(w, task, tried)
    if tried.misnamed[0]:
        said, *there = (one(Noun(name), w.pattern.terms) for part in tried.misnamed for name in part.split(" and "))
        proof = ", and the count comes out" if task.stated else ""
        says = f'"{said}" was taken for {" and ".join(there)}: the row below has nothing else{proof}'
        if said in there:
            says = f"stitches are named one for the other, as in the row repeated: each goes into the next{proof}"
        w.notes.append(Note(task.label, says, task.text.line))
    if tried.misprint is not None and not (w.broken or tried.off or w.proved[-1:] == ["no"]):
        stuck_once(w, task.text, tried.misprint, task.label)
    if tried.choice.cut_short:
        why = ", which gives the count stated" if task.stated else ": a whole one would leave spaces of the row below"
        why = f": only so does {tried.told_by} come out" if tried.told_by else why
        says = f"the last repeat was worked only as far as the round goes{why}"
        w.notes.append(Note(task.label, says, task.text.line))
    if tried.in_all:
        says = f"{tried.in_all} in each was read as {tried.in_all} in all, one in each"
        w.notes.append(Note(task.label, says, task.text.line))
    if tried.leapt and not task.stated:
        w.notes.append(Note(task.label, tried.leapt, task.text.line))
    if tried.joined_low:
        w.notes.append(Note(task.label, tried.joined_low, task.text.line))
    if tried.usual is not None and readings.rises(task.ops) and not w.broken:
        w.notes.append(Note(task.label, _against_usual(tried, tried.usual), task.text.line))
    w.notes += [Note(task.label, says, task.text.line) for says in _taken_so(tried)]
    if (passed := _spaces_passed(w, task, tried)) > 1:
        says = f'its "each st" passed over the {passed} chain spaces of {w.rows[-1].label}'
        says += "; a count would tell whether their chains are stitches too"
        w.notes.append(Note(task.label, says, task.text.line))


def _spaces_passed(w: Working, task: Task, tried: Tried) -> int:
    """How many chain spaces of the row below a row leaves without a word that is one stitch in "each st" all along, and
    states no count."""
    if task.stated or not w.rows or tried.choice.loose or w.broken:
        return 0
    work = [op for op in task.ops if isinstance(op, Make | Into | Star | Times | Skip)]
    work = [op for op in work if not (isinstance(op, Make) and op.stitch == "sl st")]
    only = work[0] if len(work) == 1 else None
    if not isinstance(only, Make) or [(p.which, p.noun.name, p.step) for p in only.places] != [("each", "st", 1)]:
        return 0
    spaces = {n for n, s in enumerate(w.base().stitches) if s.role == "chain"}
    return 0 if any(f.at in spaces for s in tried.row.stitches for f in s.feet if f.back == 1) else len(spaces)


def _begun_amiss(w: Working, task: Task, stuck: Stuck) -> bool:
    """Say at the row below that its beginning chain is wrong, where this row names the number that the stitch it counts
    as, and the chains beside it, have (common practice, no source). False where that is not so."""
    if not isinstance(stuck, OtherStart) or not w.rows:
        return False
    below, text = w.rows[-1], w.texts[-1]
    begun = [s for s in below.row.stitches if s.role != "travel"][:2]
    beside = begun[1].chains if len(begun) > 1 and begun[1].role == "chain" and begun[1].place == -1 else 0
    if not begun or begun[0].role != "turning" or TURNING.get(begun[0].kind, 0) + beside != stuck.named:
        return False
    chain = next((op for op in walk(w.read_as[-1]) if isinstance(op, Chain) and op.count == stuck.has), None)
    if chain is None or not chain.at[0] or any(p.line == text.line for p in w.problems):
        return bool(chain is not None and chain.at[0])
    as_what = one(Noun(begun[0].kind), w.pattern.terms) + (f" and ch {beside}" if beside else "")
    says = f"it begins with ch {stuck.has}, counted as {as_what}; {task.label} goes into its ch {stuck.named}"
    problem(w, "impossible", below.label, says, f'write "ch {stuck.named}"', *chain.at)
    return True


def _taken_so(tried: Tried) -> list[str]:
    """How places were taken that the words leave open."""
    each_again = '"each" was read as counting the first place again: that adds the stitch said, and the count comes out'
    beyond = "the next so many were taken for those that stand side by side, past one that a chain parts from them"
    taken = (
        (tried.skip_unsaid, "what its repeats skip first was skipped once more before the round's end"),
        (tried.choice.runs, beyond),
        (tried.under_chain, "the stitch skipped first was taken for the one that the beginning chain stands on"),
        (tried.left_loops, "it was worked into the loops that the round below left free"),
        (tried.parted, "the last repeat was worked only as far as the row goes"),
        (tried.closed, "the last repetition comes back to the round's first stitch, which was not worked again"),
        (tried.adds, each_again),
        (tried.choice.loose, '"st" was read as counting the chains of the row below too'),
    )
    return [says for so, says in taken if so]


def _against_usual(tried: Tried, usual: Tried) -> str:
    """That only its count told what the chain that a row begins with is."""
    taken, other = (_begins_with(each.opening or each.choice.chain or ()) for each in (tried, usual))
    makes = f"so read the row makes {usual.row.made}"
    return f"the chain it begins with was taken for {taken}, as its count asks; usually it is {other}, and {makes}"


def _begins_with(parts: tuple[str, ...]) -> str:
    """What a beginning chain is: "no stitch", "a space", "dc", "dc and a space"."""
    names = [part.split()[0] for part in parts]
    said = [("a space" if name == "ch" else name) for name in names if name not in ("start", "sk")]
    return " and ".join(said) or "no stitch"


def _unsaid(w: Working, task: Task) -> None:
    """A row along an edge whose number of stitches is not said: not checked, which is said once."""
    w.broken = w.broken or not task.stated
    rests = "its stated count is carried on" if task.stated else "it is not checked"
    if not task.stated:
        w.unchecked = w.unchecked or f"how many stitches {task.label} makes along the edge is not said"
    says = "how many stitches go along the edge is not said"
    says = f"how these rows come to {task.text.until} sts is not said row by row" if task.text.until else says
    w.notes.append(Note(task.label, f"{says}; {rests}", task.text.line))


def _growth_off(w: Working, task: Task, tried: Tried) -> None:
    """A row whose words say that it has more, or fewer, than the one before, and that has not."""
    grows = task.text.grows
    if not grows or not w.rows or tried.off:
        return
    was, now = len(tiles_of(w.rows[-1].row)), len(tiles_of(tried.row))
    if not was or not now:
        was, now = len(w.rows[-1].row.stitches), len(tried.row.stitches)
    if (now - was) * grows <= 0:
        more, fewer = ("more", "fewer") if grows > 0 else ("fewer", "more")
        has = "as many" if now == was else fewer
        says = f"the words say that each row has {more} than the one before; this one has {has}"
        problem(w, "impossible", task.label, says, "say where it grows, or leave that out", task.text.line, 1, 1)
        w.broken = True


def counts_off(w: Working, task: Task, tried: Tried) -> None:
    """Say which stated counts are off."""
    for at, got in tried.off:
        part = task.stated[at]
        line, column, length = part.at
        in_blocks = part.noun.name == "st" and got == len(tiles_of(tried.row)) > 0
        noun = Noun("block") if in_blocks else part.noun
        says = f"the row makes {got or 'no'} {many(noun, got, w.pattern.terms)}; the count says {part.count}"
        remedy = f"change the count to {got}, or the row to make {part.count}"
        problem(w, "impossible", task.label, says, remedy, line, column, length)


def _spikes_from_one(w: Working, task: Task, tried: Tried) -> None:
    """ "1 row below" has two readings: say which was taken, once for each stitch told so."""
    made = {s.kind for s in tried.row.stitches}
    for special in w.specials.values():
        counted = counted_from(special.words) if special.spikes and special.kind in made else ""
        says = f'{special.abbreviation}: "1 row below" was read as {counted}'
        if counted and not any(note.says == says for note in w.notes):
            w.notes.append(Note(task.label, says, task.text.line))


def _read_in_all(w: Working, task: Task, tried: Tried) -> None:
    """ "rep from * 3 times" is usually 3 more; where only 3 in all comes out even, both readings are shown."""
    star = next((op for op in walk(task.ops) if isinstance(op, Star) and not op.said_more and op.more), None)
    if not tried.choice.in_all or star is None or star.more is None or not says_rep(w, star):
        return
    says = (
        f'"rep from * {star.more} times" usually means {star.more} more, {star.more + 1} in all, which does not come '
        f"out even; {star.more} in all does"
    )
    of_shape = star.more == w.pattern.sides
    if task.stated or _between_stars(w, star) or w.rep_in_all == {True} or of_shape:
        why = "gives the count stated" if task.stated else "comes out even"
        if not task.stated and of_shape:
            why = f"gives the shape its {star.more} sides, and comes out even"
        elif not task.stated and not _between_stars(w, star):
            why = "is what counts stated before proved it to mean, and comes out even"
        taken = f'"rep {star.more} times" was read as {star.more} in all, which {why}'
        w.notes.append(Note(task.label, taken, task.text.line))
        return
    remedy = f'write "rep from * {star.more - 1} more times", or mend the row so that {star.more + 1} fit'
    problem(w, "ambiguous", task.label, says, remedy, *star.at)


def says_rep(w: Working, star: Star) -> bool:
    """Whether a repeat is told by "rep", which adds to what was worked once: "work * to * 5x" may mean in all, and so
    may "(...) repeat what is in brackets 5 times"."""
    said = _words_of(w, star)
    return any(mark in said for mark in "*†+|") and ("rep" in said or "rpt" in said)


#: "*2 hdc, 2 dc* rep 4 times": what stands between the stars is named as a whole, as a bracket is.
_CLOSED = when_used(
    r"\*\s*[,.;:-]?\s*(?:rep|repeat)\s+(?:this\s+|it\s+)?(?:(?:(?:from|between)\s*)?\*\s*(?:(?:to|and|-)\s*)?\*\s*)?(?:for\s+)?"
    r"(?:twice|thrice|(?:\d+|[a-z]+)\s*(?:x|times))"
)


def _between_stars(w: Working, star: Star) -> bool:
    return bool(_CLOSED.search(_words_of(w, star)))


def _words_of(w: Working, star: Star) -> str:
    line, column, length = star.at
    said = " ".join(w.lines[line - 1 : line + 3])[column - 1 : column - 1 + length] if line > 0 else "rep"
    return said.lower()


def stuck_once(w: Working, text: RowText, stuck: Stuck, label: str = "") -> None:
    line, column, length = stuck.at if stuck.at[0] else (text.line, 1, len(text.text.split("\n")[0]))
    key = (line, stuck.says)
    if key not in w.reported:
        w.reported.add(key)
        problem(w, stuck.kind, label or text.label, stuck.says, stuck.remedy, line, column, length)


def problem(
    w: Working, kind: str, where: str, says: str, remedy: str, line: int, column: int = 1, length: int = 1
) -> None:
    shown = w.lines[line - 1] if 0 < line <= len(w.lines) else ""
    w.problems.append(Problem(kind, where, says, remedy, line, column, shown, length))

# -- words set aside --------------------------------------------------------------------------------------------------
#
# A reader of print goes on past "in each st for scallop" when the row comes out. So does this tool, where the row
# states how many stitches it makes, makes exactly these, and uses up the row below; and it says so. Words that only
# tell a place again ("in same sp of first 2 dc") are set aside where the row states no count, too, if it uses up the
# row below. Else they stay problems.


def proved_without(w: Working, task: Task, tried: Tried, problems: tuple[Problem, ...]) -> bool:
    """Whether a row comes out as counted without its words that were not understood; says so once, or what is wrong."""
    comes_out = not (tried.faults or tried.replaced)
    only_marks = all(not _words(found).strip("*+") for found in problems)
    if not (task.stated and only_marks):  # no work is lost with a star
        comes_out = comes_out and not tried.left and (not task.stated or _counts_all(task, tried))
    proves = comes_out
    for found in problems:
        if proves:
            says = f'not understood and set aside: "{_words(found)}"; the row comes out {_how(task)} without it'
            if only_marks:
                opened = f'the "{_words(found)}" opens a repeat that never says where it ends'
                says = f"{opened}; as it was read the row comes out {_how(task)}"
            note = Note(task.text.label, says, found.line, found.column)
            w.notes += [note] if note not in w.notes else []
        elif found not in w.problems:
            w.problems.append(found)
    return proves


def _how(task: Task) -> str:
    return "as counted" if task.stated else "even"


def _counts_all(task: Task, tried: Tried) -> bool:
    """Whether the stated count holds all stitches of the row."""
    plain = [part.count for part in task.stated if part.noun.name == "st" or height_of(part.noun.name)]
    return bool(plain) and tried.row.made in (plain[0], sum(plain))


def _words(found: Problem) -> str:
    return " ".join(found.text[found.column - 1 : found.column - 1 + found.length].split())


#: Where a sentence of talk ends.
_SENTENCE = re.compile(r"(?<=[.!?])\s+")


def passed_over(out: Worked, passed: Sequence[tuple[int, str]], lines: Sequence[str]) -> None:
    """Say at their rows which sentences that were passed over name work: a note where the row states a count and comes
    out as counted without them, or where it is in doubt that they do; else a problem. `passed`: line and words."""
    said: set[tuple[int, str]] = set()
    for line, text in passed:
        at = _row_above(out.pieces, line, lines)
        if at is None or any(p.line == line and p.where == "Pattern" for p in out.problems):
            continue
        for sentence in _SENTENCE.split(" ".join(text.split())):
            degree = min(named_work(plain(sentence)), 1 if sentence.endswith(":") else 2)  # "...:" leads up to work
            if degree and (line, sentence) not in said:
                said.add((line, sentence))
                _say_passed(out, at, (line, sentence), lines, plainly=degree > 1)


def _say_passed(
    out: Worked, at: tuple[WorkedPiece, int], words: tuple[int, str], lines: Sequence[str], *, plainly: bool
) -> None:
    """A note, or a problem where nothing proves the row that words stand in or below."""
    (piece, n), (line, sentence) = at, words
    row = piece.fabric.rows[n]
    wrong = any(p.where == row.label and p.line in (line, row.line) for p in out.problems)
    proves = bool(piece.texts[n].stated) and piece.proved[n] == "yes" and not wrong
    says = f'"{sentence[:80]}" names work and was not worked'
    if proves or wrong or not plainly:
        why = "; the row comes out as counted without it" if proves else ""
        out.notes.append(Note(row.label, says + why, line))
        return
    remedy = "say in the row what is worked there and into what, or leave it out"
    _problem_at(out, "not notation", row.label, says, remedy, line, sentence, lines)


def _row_above(
    pieces: Sequence[WorkedPiece], line: int, lines: Sequence[str]
) -> tuple[WorkedPiece, int] | None:
    """The row that words on a line stand in or below: none before the first row of a piece, and none where a blank line
    parts them from its last row."""
    for piece in reversed(pieces):
        rows = [n for n, row in enumerate(piece.fabric.rows) if 0 < row.line <= line]
        if not rows:
            continue
        n = rows[-1]
        last = n + 1 == len(piece.fabric.rows)
        parted = last and any(not one.strip() for one in lines[piece.fabric.rows[n].line - 1 : line])
        return None if parted else (piece, n)
    return None


def sides_told(out: Worked, passed: Sequence[tuple[int, str]], lines: Sequence[str]) -> None:
    """Hold what rows, and words on lines of their own below them, say of each side against their sides: a problem where
    that cannot be, a note where the sides are not known. `passed`: line and words of these."""
    said = [(p, n, row.line, row.words) for p in out.pieces for n, row in enumerate(p.fabric.rows) if row.line]
    for line, text in passed:
        at = _row_above(out.pieces, line, lines)
        row = at[0].fabric.rows[at[1]] if at is not None else None
        if at is not None and row is not None and row.line < line and plain(text) not in plain(row.words):
            said.append((*at, line, text))
    for piece, n, line, text in said:
        low, label = plain(text), piece.fabric.rows[n].label
        if n and line == piece.fabric.rows[n].line and leaves_a_side(low):
            says = "it goes along one side of the piece and is joined to its beginning: the other side is not told"
            out.notes.append(Note(label, says, line))
        if any(w in low for w in ("side", "corner", "edge")) and not any(p.where == label for p in out.problems):
            for told in told_by_side(low, out.pattern.terms):
                _side_held(out, (piece, n), told, line, lines)


def _side_held(
    out: Worked, at: tuple[WorkedPiece, int], told: BySide, line: int, lines: Sequence[str]
) -> None:
    """Hold one count told by the side against a row."""
    piece, n = at
    row, terms = piece.fabric.rows[n], out.pattern.terms
    known = told.stitch and row.is_round and piece.proved[n] == "yes"
    right, sides = possible(row.row, told.stitch) if known else (set(), 0)
    if not right or (told.count not in right and may_be_groups(row.row, told.count)):
        says = f'"{told.words}" was not checked: which sides are meant is not known'
        out.notes.append(Note(row.label, says, line))
    elif told.count not in right:
        roles = ("stitch", "turning")
        made = sum(1 for s in row.row.stitches if s.role in roles and told.stitch in ("st", s.kind))
        shown = many(Noun(told.stitch), made, terms)
        says = f'the row makes {made} {shown} on {sides} sides; "{told.words}" is not so'
        remedy = "change the count, or what the sides hold"
        _problem_at(out, "impossible", row.label, says, remedy, line, told.words, lines)


def _problem_at(
    out: Worked, kind: str, where: str, says: str, remedy: str, line: int, words: str, lines: Sequence[str]
) -> None:
    shown = lines[line - 1] if 0 < line <= len(lines) else words
    column = max(plain(shown).find(plain(words)[:16]), 0) + 1
    out.problems.append(Problem(kind, where, says, remedy, line, column, shown, len(words)))
