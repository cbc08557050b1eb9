"""How far a place goes: across, to the end, to the last stitches, to the next corner."""

from __future__ import annotations

from dataclasses import replace

from .cursor import Cursor, Unread
from .nouns import read_noun
from .tree import Noun, Place


def read_reach(c: Cursor, place: Place) -> Place:
    """across, around, to the end, to the last n of something, to the next corner."""
    across = False
    while c.word() in ("across", "around", "along", "evenly") or (c.word() in ("to", "until") and _stops_at(c)):
        if c.word() in ("to", "until"):
            c.step()
            c.skip_any("the", "within")
            if c.take_any("end"):
                c.until(",", ";", ".", "and", "(", ")", "[", "]", "*", "**")
                across = True
                break
            if c.take_any("last"):
                count = amount_of(c, c.step()) if c.now().kind == "n" else 1
                place = replace(place, until=(count, read_noun(c)))
                c.skip_any("rem", "unworked")
                continue
            if c.now().kind == "n":
                count = amount_of(c, c.step())
                place = replace(place, until=(count, read_noun(c)), which="each")
                c.until(",", ";", ".", "and", "(", ")", "[", "]", "*", "**")
                continue
            place = replace(place, upto=_bare_noun(c))
            break
        across = True
        c.step()
    if place.which == "next" and place.count == 1 and across and place.nth == 0:
        return replace(place, which="each")
    if (place.until or place.upto) and place.which == "next":
        return replace(place, which="each")
    return place


def _stops_at(c: Cursor) -> bool:
    """Whether "to" here says how far: to end, to last 2 sts, to within 2 sts, to next corner sp, to corner."""
    ahead = 2 if c.word(1) in ("the", "next") else 1
    token = c.now(ahead)
    return (
        c.word(ahead)
        in ("end", "last", "within", "corner", "picot", "shell", "bobble", "V-st", "sp", "lp", "marker", "marked")
        or token.kind == "sp"
    )


def _bare_noun(c: Cursor) -> Noun:
    c.skip_any("next", "the")
    return read_noun(c)


def amount_of(c: Cursor, token: object) -> int:
    size = getattr(token, "size", -1)
    if size == 0:
        raise Unread(token, "0 stitches is nothing to work", "leave it out, or write a number", "not notation")  # type: ignore[arg-type]
    if size < 0 or size > 100_000:
        raise Unread(token, "that is more stitches than this tool works (100,000)", "use a smaller number", "limit")  # type: ignore[arg-type]
    return int(size)
