""" "Working ...": into what, along what, in place of what; the place before the stitches."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from typing import TYPE_CHECKING

from . import joins, phrases, prose
from .amounts import amount
from .cursor import Cursor, Unread
from .lex import Token
from .places import read_place, read_places
from .tree import Act, Again, Corner, Into, Make, Op, Place, RowRef

if TYPE_CHECKING:
    from .clauses import Clauses


def working(r: Clauses) -> Op | None:
    """ "working in BLO", "working behind petals", "working 3 sc in center sc of each 3-sc corner"."""
    c = r.c
    token = c.step()
    if opposite_ahead(c):
        return Act("opposite", at=r.span(token))
    if c.take_any("even"):
        c.take_any("in")
        stitch = c.step().value if c.now().kind == "stitch" else "sc"
        c.skip_any("across", "around")
        return Make(stitch, 1, (Place("each"),), at=r.span(token))
    word = c.word()
    if word in ("last", "first") and c.now(1).kind in ("stitch", "word") and token.word == "working":
        c.step()
        c.step()
        c.take_any("in")
        return Act("last", "", read_place(c), at=r.span(token))
    if c.now().kind == "n" or c.now().kind == "stitch" or c.word() in ("(", "ch") or c.now().value in r.specials:
        return working_make(r, token)
    if word in ("in", "loopblo", "loopflo", "along", "on", "into", "across", "behind", "over", "from", "down", "up"):
        return working_in(r, token)
    r.notes.append(remark(c))
    return None


_WHERE = ("behind", "in front", "over", "around")


def remark(c: Cursor) -> str:
    """The words up to the next comma; of where the work lies ("over ch-2", "in front of chs") also up to a stitch that
    no comma parts from them: "working over ch-2 dc in next 2 sts". "Sc in Row 3" is no such stitch."""
    start = c.place
    words = c.words(c.until(",", ";", ".", ")", "]", "*", "**"))
    if words.startswith(_WHERE):
        made = (at for at in range(start, c.place - 2) if _makes(*c.tokens[at : at + 3]))
        c.place = next(made, c.place)
        numbered = c.tokens[c.place - 1].kind == "n" and c.tokens[c.place - 2].value not in ("row", "rnd")
        c.place -= numbered and not c.done and c.now().kind == "stitch"
    return c.words(c.tokens[start : c.place])


def _makes(stitch: Token, word: Token, place: Token) -> bool:
    goes_in = word.kind == "word" and word.value in ("in", "around")
    return stitch.kind == "stitch" and goes_in and place.value not in ("row", "rnd", "prev", "last")


def opposite_ahead(c: Cursor) -> bool:
    """Whether the phrase turns the work to the other side of the foundation; if so it is stepped over."""
    keep = c.place
    if phrases.is_opposite(c.words(c.until(",", ";", ".", ":", "(", ")", "[", "]", "*", "**"))):
        return True
    c.place = keep
    return False


def working_make(r: Clauses, token: Token) -> Op | None:
    c = r.c
    if c.now().kind == "n" and c.word(1) in ("row", "rnd"):
        return joins.stripes(r, token)
    op = r.clause()
    if c.take("in", "place", "of") or c.take_any("instead"):
        c.skip_any("of")
        other = r.clause()
        return Again(0, 0, swap=((other, op),), at=r.span(token)) if other and op else None
    if isinstance(op, Make) and op.places and token.word == "working":
        return Corner(op, at=r.span(token))
    return op


def working_in(r: Clauses, token: Token) -> Op | None:
    c = r.c
    keep = c.place
    words = remark(c)
    stop = c.place
    if phrases.is_opposite(words):
        return Act("opposite", at=r.span(token))
    if phrases.says(words, "row ends", "row-ends", "ends of rows", "end of rows", "side edge", "edge"):
        return Act("edge", at=r.span(token))
    hold = (
        "back loop"
        if phrases.says(words, "blo", "back loop", "back loops", "bl")
        else "front loop"
        if phrases.says(words, "flo", "front loop", "front loops", "fl")
        else ""
    )
    row = row_named(c, keep, stop)
    if "in front" in words and not hold and not row:
        return None
    if (
        row
        and words.startswith(("behind", "in front", "over"))
        and "loop" not in words
        and not phrases.says(words, "in sts", "into")
    ):
        return Act("behind", at=r.span(token))
    if row:
        return Act("row", hold, Place("next", row=row), at=r.span(token))
    if hold:
        return Act("loops", hold, at=r.span(token))
    if words.startswith(("in sts", "in the sts")):
        return None
    if words.startswith("in "):
        c.place = keep + 1
        return in_place(r, token)
    return None


def in_place(r: Clauses, token: Token | None = None) -> Op:
    """ "in next ch-11 lp work [3 sc, picot] 3 times and 3 sc": the place first, then what goes there."""
    c = r.c
    first = token or c.step()
    if c.word() in ("loopblo", "loopflo", "back", "front") and c.word(1) != "post":
        keep = c.place
        hold = "back loop" if c.word() in ("loopblo", "back") else "front loop"
        c.step()
        c.skip_any("lp", "only")
        if c.word() in (",", ";", ".") or c.done:
            return Act("loops", hold, at=r.span(first))
        c.place = keep
    places = read_places(c)
    c.skip_any(",", ":")
    c.skip_any("work", "make")
    ops = r.run()
    if not ops:
        raise Unread(first, "nothing is said to be worked there", 'write what goes there, as "5 dc in next st"')
    return Into(ops, places, at=r.span(first))


def work(r: Clauses) -> Op | None:
    """ "work 22 sc in ring", "make 5 dc in next sp"."""
    c = r.c
    token = c.step()
    if c.word() in ("in", "along", "across", "loopblo", "loopflo", "even", "behind", "over"):
        c.place -= 1
        return working(r)
    if c.now().word in ("as", "rows", "in", "pattern", "pat"):
        return prose.prose(r)
    if c.now().word in ("a", "an", "one", "another"):
        c.step() if c.now().kind != "n" else None
    op = r.clause()
    if op is None and c.place == c.tokens.index(token) + 1 if token in c.tokens else False:
        return prose.prose(r)
    return op


def row_named(c: Cursor, start: int, stop: int) -> RowRef | None:
    """The row that the words from token `start` to `stop` name by its number."""
    found = None
    for word, number in pairwise(c.tokens[start:stop]):
        if word.value in ("row", "rnd") and number.kind == "n":
            found = RowRef(number=number.size)
    return found


def loops(reader: Clauses) -> Op | None:
    """ "BLO sc in each st": loops first."""
    token = reader.c.step()
    hold = "back loop" if token.value == "loopblo" else "front loop"
    reader.c.skip_any("only", "lp", ":")
    if reader.c.now().kind in ("stitch", "n"):
        op = reader.clause()
        if isinstance(op, Make):
            return replace(op, places=tuple(replace(p, hold=hold) for p in op.places or (Place("next"),)))
        return op
    return Act("loops", hold, at=reader.span(token))


def evenly(r: Clauses) -> Op | None:
    """ "increasing 8 sc evenly spaced", "inc 6 sts evenly around": where is left to the worker."""
    c = r.c
    keep, token = c.place, c.step()
    number = c.now()
    words = c.words(c.until(",", ";", ".", "(", ")", "[", "]", "*", "**"))
    if number.kind == "n" and phrases.says(words, "evenly"):
        return Act("spread", str(amount(number)), at=r.span(token))
    c.place = keep
    return None
