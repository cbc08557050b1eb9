"""Joining: closing a round, taking up a yarn, changing colour."""

from __future__ import annotations

from typing import TYPE_CHECKING

from .cursor import Unread
from .lex import Token
from .places import read_place
from .tree import Act, Make, Op, Place, Times

if TYPE_CHECKING:
    from .clauses import Clauses


def read_join(r: Clauses) -> Op:
    """Closing a round, or taking a new yarn up: "join B with sc in any st"."""
    c = r.c
    token = c.step()
    tokens_left = c.place
    yarn = yarn_name(r)
    if c.take_any("with", "by"):
        c.skip_any("a")
        if c.now().kind == "stitch":
            stitch = c.step().value
            place = join_place(r)
            if stitch != "sl st" or yarn:
                return joined(r, token, yarn, stitch, place)
            return Act("join", "", place, at=r.span(token))
        yarn = yarn or yarn_name(r)
    if c.place == tokens_left or not yarn:
        place = join_place(r)
        return Act("join", "", place, at=r.span(token))
    stitch = "sl st"
    if c.take_any("with"):
        stitch = c.step().value if c.now().kind == "stitch" else stitch
    return joined(r, token, yarn, stitch, join_place(r))


def joined(r: Clauses, token: Token, yarn: str, stitch: str, place: Place | None) -> Op:
    if stitch == "sl st":
        return Act("yarn", yarn, place, at=r.span(token))
    make = Make(stitch, 1, (place,) if place else (), at=r.span(token))
    return Times((Act("yarn", yarn, place, at=make.at), make), 1, at=make.at)


def yarn_name(r: Clauses) -> str:
    """The yarn taken up: "yarn", "new yarn", a letter, or a colour word before "with"."""
    c = r.c
    keep = c.place
    c.skip_any("new", "a", "the", "color", "colour", "next")
    token = c.now()
    if (
        token.kind == "word"
        and (token.word in ("yarn", "thread", "mc", "cc") or len(token.word) == 1)
        and token.word not in ("a",)
    ):
        c.step()
        return token.word.upper() if len(token.word) <= 2 else "yarn"
    if token.word == "a" and c.word(1) in ("with", "in", ","):
        c.step()
        return "A"
    c.place = keep
    if c.now().word == "a" and c.word(1) in ("with", "in"):
        c.step()
        return "A"
    return ""


def join_place(r: Clauses) -> Place | None:
    c = r.c
    if c.take_any("in", "to", "on", "around"):
        if c.word() in ("form", "a", "rnd", "make"):
            c.until(",", ";", ".", ")", "]")
            return None
        place = read_place(c)
        if c.word() == "to":
            c.until(",", ";", ".", ")", "]", "(")
        return place
    if c.word() == "to":
        c.until(",", ";", ".", ")", "]")
    return None


def colour(r: Clauses) -> Op | None:
    """ "with B", "using A", "change to B in last yo"."""
    c = r.c
    token = c.step()
    change = token.value in ("change", "changing", "switch", "switching")
    if token.word == "with" and c.now().word in ("rs", "ws", "right", "wrong"):
        side = "RS" if c.now().word in ("rs", "right") else "WS"
        c.until(",", ";", ".", ")", "]")
        return Act("facing", side, at=r.span(token))
    c.skip_any("to", "color", "colour", "yarn")
    name = c.step().word if not c.done and c.now().kind == "word" else ""
    c.until(",", ";", ".", "(", ")", "]", "*")
    if not name:
        return None
    return Act("change" if change else "colour", name.upper() if len(name) <= 2 else name, at=r.span(token))


def stripes(r: Clauses, token: Token) -> Op | None:
    """ "working 2 rows B, 2 rows A", "working 1 row in each of A and B"."""
    said = [
        t for t in r.c.until(";", ".", "(", ")", "]") if t.value not in ("in", "of", "with", "each", "color", "colour")
    ]
    if any(t.word in ("below", "down") for t in said):
        raise Unread(
            token, "this does not say which stitches go there", 'say it of the stitch, as "dc in next st 2 rows below"'
        )
    colours: list[str] = []
    for number, word, colour in zip(said, said[1:], said[2:], strict=False):
        if number.kind == "n" and word.value in ("row", "rnd") and colour.kind == "word":
            colours += [colour_name(colour.word)] * min(max(number.size, 1), 100)
    return Act("stripes", ",".join(colours), at=r.span(token)) if colours else None


def colour_name(word: str) -> str:
    """A colour letter in capitals, a colour word as it is.

    >>> colour_name("b"), colour_name("moss")
    ('B', 'moss')
    """
    return word.upper() if len(word) <= 2 else word
