"""Stitches told by the moves of the hook, worked out on the loops that the hook holds.

"Yo, insert hook in next ch and pull up a loop, yo and draw through 2 loops, yo, insert hook in next ch and pull up a
loop, yo and draw through 2 loops, yo and draw through all 3 loops" is dc2tog: two legs, each begun with one wrap and
drawn through once, and closed together. Moves that make no stitch of the trade stay as they stand.
"""

from __future__ import annotations

import re

from ....made_late import dataclass
from ... import lexicon
from ...told_moves import SEP
from ...when_used import when_used

_NUMBER = rf"(?:\d{{1,2}}|{lexicon.NUMBER_WORDS})"
_OFTEN = rf"(?:(?P<n>{_NUMBER}) times|(?P<word>once|twice|thrice))"
_LOOPS = r"(?:loops?|lps?)"
_BETWEEN = when_used(SEP)
#: Where the hook goes in, told up to the next move or sign.
_PLACE = r"(?P<place>[a-z0-9][^,;:.()\[\]*&+]{1,46}?)(?=\s*(?:[,;:.()\[\]*&]|\band\b|\bthen\b|\b(?:yo|yrh|yoh|pull|draw)\b|$))"
_WHICH_WAY = r"(?:from (?:the )?(?P<from>front|back)(?: (?:to (?:the )?)?(?:front|back))?(?: to (?:the )?(?:front|back))? )?"
_INTO = when_used(
    rf"(?:insert(?:ing)? (?:(?:your|the) )?hook|hook (?=in|under|through|around)) ?{_WHICH_WAY}(?:(?:(?:in(?:to)?|through|under)|(?P<round>around|round|behind)(?: (?:the )?(?:post|stem|bar) of| (?:the )?(?=next|each|same|first|last|following)))\s(?:the )?{_PLACE})?"
)
_UP = when_used(
    rf"(?:pull|draw)(?:ing)? (?:up (?:a |the )?(?:{_LOOPS}|yarn)|(?:a |the )?(?:{_LOOPS}|yarn) up|up)(?: to (?:the )?height[^,;.()\[\]]{{0,24}}| (?:to|about) ?\d[^,;.()\[\]]{{0,12}})?(?: in(?:to)? (?:the )?{_PLACE})?"
)
_THROUGH = when_used(
    rf"(?:(?:draw|pull)(?:ing)? )?(?:(?:a |the )?(?:{_LOOPS}|yarn) )?(?:through|thru|off) (?:(?:the|first|next|remaining|rem|last|of) )*(?P<all>all|both)?(?: (?:the|of|remaining|rem))*\s*(?P<through>{_NUMBER})? ?(?:remaining |rem )?{_LOOPS}(?: (?:left |remaining |rem )?on (?:(?:the|your) )?hook)?"
)
_YO = when_used(
    rf"(?:yo|yrh|yoh|wrh|(?:yarn|thread|wool|cotton) (?:over|round|around|on)|wrap (?:the )?yarn(?: over| round| around)?)(?: (?:the |your )?(?:hook|needle|ook)\b)?(?: {_OFTEN})?(?![a-z])"
)
_TIMES = when_used(rf"(?:\s*,)?\s*{_OFTEN}(?: (?:all )?in(?:to)? (?:the )?{_PLACE})?")
_CLOSING = when_used(r"\s*,?\s*(?:(?:and|then) )?(?:ch(?:ain)? ?(?:1|one)|1 ch) (?:tightly|to (?:close|secure|fasten|tighten|lock)[^,;.()\[\]]{0,20})")
#: No row is looked through for moves without one of these.
_ANY = when_used(r"\binsert|\b(?:pull|draw)(?:ing)? (?:up|a |the )|\b(?:lps?|loops?) on (?:the )?hook")
_BEGINS = when_used(r"(?<![a-z-])(?:[(\[]\s*)?(?=yo\b|yrh\b|yoh\b|wrh\b|yarn |thread |wool |cotton |wrap |insert|pull|draw|hook )")
#: "Drop loop from hook, insert hook in loop of first motif, draw dropped loop through": fastened there.
_DROPPED = when_used(
    r"(?:drop|remove|take) (?:the )?(?:loop|lp|hook) (?:from|off)(?: of)? (?:the |your )?(?:hook|loop|lp),? ?(?:and |then )?insert (?:the |your )?hook (?:from (?:front|back) to (?:front|back) )?"
    r"(?P<place>(?:in(?:to)?|through) [^,;.()*]{3,60}?),? ?(?:and |then )?(?:pick up (?:the )?dropped (?:loop|lp)|(?:pick up and )?(?:pull|draw) (?:the )?(?:dropped )?(?:loop|lp) through)(?: (?:it|that loop|and (?:pull|draw) (?:it )?through))?(?=\s*(?:[,;.)*]|$|and\b))"
)
_OF_OTHERS = when_used(r"\b(?:of|on|from) (?:the )?(?:[a-z0-9]+ ){0,2}(?:motif|medallion|square|flower|hexagon|octagon|wheel|rosette|piece|circle|star|triangle)s?\b")
#: More moves than any stitch has are not gone through.
_MOST = 60
#: A plain stitch by its wraps and by how often the yarn is drawn through.
_PLAIN = {(0, 1): "sc", (1, 1): "hdc", (1, 2): "dc", (2, 3): "tr", (3, 4): "dtr"}
#: What is done of it where its last loops wait for other legs.
_LEG = {(0, 0): "sc", (1, 0): "hdc", (1, 1): "dc", (2, 2): "tr", (3, 3): "dtr"}
_KINDS = (("yo", _YO), ("into", _INTO), ("up", _UP), ("through", _THROUGH))
#: A stitch, of which each leg takes one; a space takes them all.
_ONE_EACH = when_used(r"(?:next|following) (?P<noun>st|stitch|sc|hdc|dc|htr|tr|ch|chain)")
_SAME = when_used(r"(?:same|that|this)\b.*")


@dataclass(frozen=True, slots=True)
class _Move:
    """One move: what it is, how often it is done, its place and the side of the post it goes round, and where it ends."""

    what: str
    end: int
    often: int = 1
    place: str = ""
    post: str = ""


@dataclass(slots=True, eq=False)
class _Leg:
    place: str
    post: str
    wraps: int
    throughs: int = 0


class _Reader:
    """Reads moves one after another from `at` on."""

    def __init__(self, low: str, at: int) -> None:
        self.low, self.at = low, at

    def moves(self, closing: str = "") -> list[_Move]:
        """The moves up to what is none, those in brackets as often as they are told to be done; `at` stands behind."""
        found: list[_Move] = []
        while len(found) < _MOST:
            gap = _BETWEEN.match(self.low, self.at)
            at = gap.end() if gap else self.at
            if closing and self.low.startswith(closing, at):
                self.at = at
                break
            more = self._bracket(at) if self.low[at : at + 1] in ("(", "[") else self._one(at)
            if not more:
                break
            found += more
        return found

    def _one(self, at: int) -> list[_Move]:
        for what, pattern in _KINDS:
            move = pattern.match(self.low, at)
            if move is not None:
                self.at, said = move.end(), move.groupdict()
                often = _often(move) if what == "yo" else 0 if said.get("all") else (lexicon.number(said.get("through") or "") or 0)
                post = "" if not said.get("round") else "bp" if said.get("from") == "back" else "fp"
                return [_Move(what, self.at, often, (said.get("place") or "").strip(), post)]
        return []

    def _bracket(self, at: int) -> list[_Move]:
        kept, closing = self.at, ")" if self.low[at] == "(" else "]"
        self.at = at + 1
        inside = self.moves(closing)
        times = _TIMES.match(self.low, self.at + 1) if inside and self.low.startswith(closing, self.at) else None
        if times is None or len(inside) * _often(times) > _MOST:
            self.at = kept
            return []
        self.at, there = times.end(), (times["place"] or "").strip()
        return [_Move(m.what, self.at, m.often, m.place or (there if m.what == "into" else ""), m.post) for m in inside] * _often(times)


def moves_evened(low: str, terms: str) -> str:
    """The text with moves of the hook as the stitch that they make, letter for letter as long.

    >>> moves_evened("yo, insert hook from front around post of next dc, pull up a loop, (yo, pull through 2 lps) twice", "US").split()
    ['fpdc', 'around', 'next', 'dc']
    """
    if _ANY.search(low) is None:
        return low
    low = _DROPPED.sub(lambda m: f"sl st {m['place']}".ljust(len(m[0])) if _OF_OTHERS.search(m["place"]) else m[0], low)
    out, done = "", 0
    for begun in _BEGINS.finditer(low):
        if begun.start() < done:
            continue
        told = _stitch_at(low, begun.start(), terms)
        if told is not None:
            name, end = told
            out += low[done : begun.start()] + name.ljust(end - begun.start())
            done = end
    return out + low[done:]


def _stitch_at(low: str, start: int, terms: str) -> tuple[str, int] | None:
    """The stitch that the moves from here on make, and where they end; None where they make none of the trade, or where
    it is made within a bracket that goes on, which is then several of it."""
    moves = _Reader(low, start).moves()
    loops, wraps, legs, n = 1, 0, list[_Leg](), 0
    while n < len(moves):
        move, following = moves[n], moves[n + 1].what if n + 1 < len(moves) else ""
        n += move.what == "yo" and following == "through" and bool(legs)  # that yarn is drawn through
        move = moves[n]
        if move.what == "through" and legs:
            loops, legs[-1].throughs = loops - (move.often or loops) + 1, legs[-1].throughs + 1
            if loops == 1:
                goes_on = n + 1 < len(moves) and moves[n + 1].end == move.end
                return None if goes_on else _named(legs, low, move.end, start, terms)
        elif move.what == "yo":
            wraps, loops = wraps + move.often, loops + move.often
        elif move.what == "into" or (move.what == "up" and move.place):
            legs.append(_Leg(move.place, move.post, wraps))
            wraps, loops = 0, loops + 1
            n += _drawn_up(moves[n + 1 : n + 3]) if move.what == "into" else 0
        else:
            return None
        if loops < 1:
            return None
        n += 1
    return None


def _drawn_up(moves: list[_Move]) -> int:
    """How many of the moves behind the hook's going in draw its loop up."""
    if [m.what for m in moves] == ["yo", "up"] and not moves[1].place:
        return 2
    return int(bool(moves) and moves[0].what == "up" and not moves[0].place)


def _named(legs: list[_Leg], low: str, end: int, start: int, terms: str) -> tuple[str, int] | None:
    first, last = legs[0], legs[-1]
    if not first.place or len({(leg.wraps, leg.post) for leg in legs}) > 1:
        return None
    last.throughs -= len(legs) > 1
    if len({leg.throughs for leg in legs}) > 1:
        return None
    kind = (_PLAIN if len(legs) == 1 else _LEG).get((first.wraps, first.throughs), "")
    if not kind:
        return None
    stitch = lexicon.show_stitch(kind, terms)
    if len(legs) == 1:
        name = f"{first.post}{stitch} {'around' if first.post else 'in'} {first.place}"
    elif first.post or (told := _gathered(legs, kind, stitch)) is None:
        return None
    else:
        name = told
        closed = _CLOSING.match(low, end) if "tog" not in told else None
        end = closed.end() if closed else end
    return (name, end) if len(name) <= end - start else None


def _gathered(legs: list[_Leg], kind: str, stitch: str) -> str | None:
    """Legs closed together: in one stitch each, or all in one place."""
    places = [leg.place for leg in legs]
    one = _ONE_EACH.fullmatch(places[0])
    if one and all(_ONE_EACH.fullmatch(place) for place in places):
        return f"{stitch}{len(legs)}tog over next {len(legs)} {one['noun']}"
    if any(place and place != places[0] and not _SAME.fullmatch(place) for place in places[1:]) or kind == "sc":
        return None
    return f"{len(legs)}-{stitch} {'puff' if kind == 'hdc' else 'cluster'} in {places[0]}"


def _often(found: re.Match[str]) -> int:
    return lexicon.number(found["n"] or found["word"] or "1") or 1
