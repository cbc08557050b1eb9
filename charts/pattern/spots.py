"""What follows a stitch: where it goes."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from . import phrases
from .cursor import Cursor, Unread
from .places import read_places, starts_place
from .reach import read_reach
from .tree import Noun, Place

if TYPE_CHECKING:
    from .clauses import Clauses


def read_spots(r: Clauses) -> tuple[Place, ...]:
    """What follows a stitch: in / into / around / over a place; nothing where none is said."""
    c = r.c
    word = c.word()
    if word in ("loopblo", "loopflo"):
        hold = "back loop" if c.step().value == "loopblo" else "front loop"
        c.skip_any("only", "lp")
        places = read_spots(r)
        return tuple(replace(p, hold=hold) for p in places) or (Place("next", hold=hold),)
    if word in ("in", "around") and ends_ahead(r):
        return (edge(r),)
    if word in ("in", "around", "over", "on", "round", "rnd", "to") or (word == "across" and starts_place_at(c, 1)):
        if word in ("around", "across", "rnd") and not starts_place_at(c, 1):
            return whole(r)
        if word == "to" and c.word(1) in ("end", "last", "within"):
            return whole(r)
        c.step()
        hold = post(c)
        found = _beyond(c, word, read_places(c))
        together_tail(r)
        return tuple(replace(p, hold=hold) for p in found) if hold else found
    if word == "to" or word == "across":
        return whole(r)
    if word in ("evenly", "along", "down", "up"):
        return (edge(r),)
    if word in ("each", "next", "first", "last") or c.now().kind == "ord" or (word == "between"):
        return read_places(c)
    return ()


def _beyond(c: Cursor, word: str, places: tuple[Place, ...]) -> tuple[Place, ...]:
    """ "Over ch-1 sp into skipped sc below", "around ch-2 sp and into sc 3 rows below": the chains are only in the
    way."""
    over_chains = word in ("over", "around") and places[0].noun.name in ("sp", "lp", "ch")
    if over_chains and len(places) == 1 and c.word() == "in" and starts_place_at(c, 1):
        c.step()
        return read_places(c)
    deep = len(places) > 1 and (places[1].row is not None or places[1].which in ("skipped", "unworked"))
    return places[1:] if over_chains and deep else places


def post(c: Cursor) -> str:
    """ "Around post of", "around back post of": which side of the fabric the hook goes round it from; front unless
    the words say back."""
    keep = c.place
    c.skip_any("the")
    side = c.take_any("front", "back")
    if not c.take_any("post", "posts"):
        c.place = keep
        c.skip_any("of", "the")
        return ""
    c.skip_any("of", "the")
    return f"{side or 'front'} post"


def whole(r: Clauses) -> tuple[Place, ...]:
    """ "sc around", "dc across": each stitch."""
    return (read_reach(r.c, Place("each")),)


def ends_ahead(r: Clauses) -> bool:
    """ "in ends of rows", "in each row-end", "in end of each row"."""
    ahead = [r.c.now(i) for i in range(1, 5)]
    return any(t.word in ("ends", "row-end", "row-ends") for t in ahead[:3]) or (
        any(t.word == "end" for t in ahead[:3]) and any(t.value == "row" for t in ahead)
    )


def edge(r: Clauses) -> Place:
    """Along the ends of the rows: "evenly along side edge", "in each row end"."""
    first = r.c.now()
    words = r.c.words(r.c.until(",", ";", ".", "(", ")", "[", "]", "*", "**", ":"))
    if phrases.says(words, "post", "posts"):
        raise Unread(
            first, f'stitches worked {first.word} along a post ("{words}") have no place in the row',
            "work this row from its words: this tool draws stitches round a post, not along one",
        )  # fmt: skip
    if phrases.says(words, "side", "edge", "ends", "row", "rows", "row-end", "row-ends"):
        return Place("edge", Noun("row" if phrases.says(words, "each") else "st"))
    return Place("each")


def together_tail(r: Clauses) -> None:
    """ "over next 3 sts, skipping the middle one" says nothing the feet need."""
    c = r.c
    if c.word() == "sk" or (c.word() == "," and c.word(1) == "sk"):
        keep = c.place
        c.take_any(",")
        words = c.words(c.until(",", ";", ".", ")", "]", "*"))
        if not (("skipping" in words and "middle" in words) or ("skipping" in words and "center" in words)):
            c.place = keep


def starts_place_at(c: Cursor, ahead: int) -> bool:
    c.place += ahead
    found = starts_place(c) or c.word() in ("the", "post")
    c.place -= ahead
    return found
