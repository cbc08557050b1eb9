"""A stitch, a special stitch, an increase or a decrease, with its number."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from . import chains, lexicon, prose, spots
from .amounts import amount, read_times
from .lex import Token
from .standing import STANDARD
from .tree import Into, Make, Noun, Op, Place, Special, Times

if TYPE_CHECKING:
    from .clauses import Clauses


def numbered(r: Clauses) -> Op | None:
    """ "2 dc in next st", "3 OM", "6 ch", "1 dc into each of next 30 ch"."""
    c = r.c
    token = c.now()
    following = c.now(1)
    if c.word(1) == "ch" and c.word(2) not in ("sp", "lp"):
        c.place += 2
        return chains.chain(r, token, token.size)
    if following.kind == "stitch" or following.value in r.specials or following.value in STANDARD:
        c.step()
        return read_make(r, amount(token))
    if c.word(1) == "more":
        c.place += 2
        return numbered_more(r, token)
    return prose.prose(r)


def numbered_more(r: Clauses, token: Token) -> Op | None:
    if r.c.now().kind == "stitch":
        return read_make(r, amount(token))
    return prose.prose(r)


def read_make(r: Clauses, count: int) -> Op:
    """A stitch (or special stitch) and where it goes."""
    c = r.c
    token = c.step()
    name = STANDARD.get(token.value, token.value)
    special = r.specials.get(name)
    if name in ("inc", "dec"):
        return shaped(r, name, count, token)
    if c.word() == "x" and c.now(1).kind == "n":
        c.step()
        return Times((one_make(r, name, special, count, token),), amount(c.step()), at=r.span(token))
    made = one_make(r, name, special, count, token)
    times = read_times(r)
    return made if times is None else Times((made,), times, at=r.span(token))


def sized_make(r: Clauses) -> Op:
    """ "3-dc cluster in next st": a gathered stitch that says its legs; the row's reader learns it as it stands."""
    size = r.c.step()
    token = r.c.now()
    kind = STANDARD.get(token.value, token.value)
    name = f"{size.word} {token.value}"
    r.specials.setdefault(
        name, Special(name, name, name, (), kind, size.value or "dc", max(size.size, 1), 0, "gathered", True)
    )
    r.c.step()
    return one_make(r, name, r.specials[name], 1, token)


def one_make(r: Clauses, name: str, special: Special | None, count: int, token: Token) -> Op:
    c = r.c
    after = 0
    if (
        c.now().kind == "n"
        and c.now().word.isdigit()
        and c.word(1) in ("", ",", ".", ";", ")", "]")
        and c.now(1).kind in (",", ".", ";", ")", "]", "end")
    ):
        after = amount(c.step())
    places = spots.read_spots(r)
    if name[:2] in ("FP", "BP"):
        places = tuple(replace(p, hold="") if p.hold.endswith("post") else p for p in places)
    if after and not places:
        places = (Place("next", Noun("st"), count=after),)
    if special and special.ops:
        return special_op(r, special, count, places, token)
    if (
        places
        and places[0].which == "next"
        and places[0].count > 1
        and (legs := lexicon.together(name)) > 1
        and places[0].count == legs
    ):
        places = (replace(places[0], count=legs), *places[1:])
    return Make(name, count, places, at=r.span(token))


def shaped(r: Clauses, name: str, count: int, token: Token) -> Op:
    """inc: 2 in the next; dec: the next 2 together (single crochet where the text does not say)."""
    c = r.c
    places = spots.read_spots(r)
    if not places and (c.now().kind == "n" or (c.word() == "x" and c.now(1).kind == "n")):
        c.take_any("x")
        count = amount(c.step())
        c.take_any("times")
    if name == "inc":
        return Make(r.base, 2, places or (Place("next", count=count),), at=r.span(token))
    one = Make(f"{r.base}2tog", 1, places, at=r.span(token))
    return one if count == 1 else Times((one,), count, at=one.at)


def special_op(r: Clauses, special: Special, count: int, places: tuple[Place, ...], token: Token) -> Op:
    at = r.span(token)
    if (deep := _further_down(special)) and places:
        return replace(deep, count=count, places=tuple(_placed_down(deep.places[0], p) for p in places), at=at)
    if special.in_place:
        body: Op = Into(special.ops, places, name=special.abbreviation, at=at)
        if not places:
            body = Times(special.ops, 1, name=special.abbreviation, at=at)
    else:
        body = Times(special.ops, 1, name=special.abbreviation, at=at)
    return body if count == 1 else Times((body,), count, at=at)


def _further_down(special: Special) -> Make | None:
    """The one stitch of a special stitch that says itself in which row further down it is worked."""
    only = special.ops[0] if len(special.ops) == 1 else None
    if special.in_place or not isinstance(only, Make) or len(only.places) != 1:
        return None
    return only if only.places[0].row or only.places[0].which in ("skipped", "unworked") else None


def _placed_down(own: Place, said: Place) -> Place:
    """The place a special stitch names for itself, as often as the row says."""
    noun = own.noun if said.noun.name in ("sp", "lp", "ch") else said.noun
    which = "unworked" if own.which in ("skipped", "unworked") else own.which
    return replace(own, which=which, noun=noun, count=max(said.count, 1), nth=0, row=said.row or own.row)


def is_special_ahead(r: Clauses, ahead: int) -> bool:
    token = r.c.now(ahead)
    return token.value in r.specials or token.value in STANDARD or token.kind == "stitch"


def shaping_base(tokens: list[Token]) -> str:
    """What inc and dec are made of: the one plain stitch the row is worked in, else single crochet."""
    plain = {t.value for t in tokens if t.kind == "stitch"} & {"sc", "hdc", "dc", "tr"}
    return plain.pop() if len(plain) == 1 else "sc"
