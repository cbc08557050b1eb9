"""Stitches told by the moves of the hook in the middle of a row, put into the name that the moves have.

"Draw up a loop in each of next 2 sc, yo and draw through all 3 loops on hook" is a decrease over the next 2 sc. The
name stands where the moves stood, the rest of their place is blotted out, so that all other words stay where they are.
"""

from __future__ import annotations

import re

from . import lexicon
from .when_used import when_used

_NUMBER = rf"(?:\d{{1,2}}|{lexicon.NUMBER_WORDS})"
_YO = (
    r"(?:yo|yrh|yoh|wrh|(?:yarn|thread|wool|cotton) (?:over|round|around|on)(?: (?:the )?hook)?"
    r"|wrap yarn(?: over hook)?|(?:wrap|throw) (?:the )?(?:yarn|thread) (?:over|round|around) (?:the )?hook)"
)
#: What stands between two moves.
SEP = r"(?:\s*[,;:]?\s*(?:(?:and|then|again|&)\s+)*)"
_LOOP = r"(?:loops?|lps?|yarn|thread|wool|st)"
_UP = (
    rf"(?:(?:pull|draw)(?:ing)? (?:(?:up|through|the|a) )*{_LOOP}(?: (?:up|through))*(?: to (?:the )?height[^,;.()\[\]]{{0,24}})?(?: to \d[^,;.()\[\]]{{0,16}})?)"
)
_INTO = r"(?:insert(?:ing)? (?:(?:your|the) )?hook|hook) (?:back )?(?:in(?:to)?|through|under) (?:the )?"
_THROUGH = (
    rf"(?:(?:draw|pull)(?:ing)?(?: (?:a |the )?(?:{_LOOP}|hook))? )?(?:through|thru|off) (?:(?:the|first|next|remaining|rem|last|all|both|of) )*(?:{_NUMBER} )?"
    rf"(?:(?:remaining|rem) )?(?:loops|lps|loop|lp)(?: (?:left |remaining |rem )?on (?:(?:the|your) )?hook)?(?: at (?:one time|once))?"
)
_TWO = (
    rf"{_YO}{SEP}(?:(?:draw|pull)(?:ing)?(?: (?:a |the |it )?(?:{_LOOP}|hook)?)? ?)?(?:through|thru|off) (?:(?:the|first|next|remaining|last|all|both|of) )*"
    rf"(?:2|two|(?<=both )|(?<=all )) ?(?:remaining |rem )?(?:loops|lps)(?: (?:left |remaining |rem )?on (?:(?:the|your) )?hook)?"
)
_CLOSED = rf"(?:{SEP}(?:ch(?:ain)? ?(?:1|one)|1 ch) (?:to (?:close|secure|fasten|tighten|lock)[^,;.()\[\]]{{0,20}}|(?= ?\((?:an? |another |1st |first |the |one )?(?:pc|popcorn)\b)))?"
_ENDED = rf"{SEP}(?:{_YO}{SEP})?{_THROUGH}(?:{SEP}{_YO}{SEP}{_THROUGH})?"
_TIMES = rf"(?:[,;.] )?(?P<rep>rep(?:eat)?(?:ing)?(?: this| that| it)? )?(?:(?:(?P<n>{_NUMBER}) (?P<m1>more )?times|(?P<twice>once|twice|thrice))(?P<m2> more)?)"
_PLACE = r"[a-z0-9][a-z0-9 -]{1,38}?"

#: "- sc2tog made", "(decrease made)": what the moves before it are called.
_SO_CALLED = r"(?:\s*[-\u2013(,]\s*(?:an? |one |1 )?(?:[a-z]+ ?[2-9]tog|dec(?:rease)?|inc(?:rease)?|cluster|cl|puff|popcorn|pc) ?(?:st )?(?:made|completed?|formed|done)\)?)?"
#: "Draw up a loop in each of next 2 sc, yo and draw through all 3 loops on hook".
_DRAWN_UP = when_used(
    rf"\b{_UP} in(?:to)? (?:each of )?(?:the )?(?P<order>next|last|first) (?P<n>{_NUMBER}) (?P<noun>[a-z]+(?: c\b)?)(?:{SEP}{_YO})?{SEP}{_THROUGH}{_SO_CALLED}"
)
#: The same one after the other: "draw up a loop in next st, skip next st, draw up a loop in next st, yo, draw through all".
_DRAWN_APART = when_used(
    rf"\b{_UP} in(?:to)? (?:the )?next (?P<noun>[a-z]+(?: c\b)?){SEP}(?P<skip>(?:sk|skip|miss) (?:the )?(?:next|1|one|center|centre) (?:[a-z]+(?: c\b)?){SEP})?{_UP} in(?:to)? (?:the )?(?:next|following) [a-z]+(?: c\b)?"
    rf"(?:{SEP}{_YO})?{SEP}{_THROUGH}{_SO_CALLED}"
)
#: "(Insert hook in next st, pull up a loop) twice, yo, pull through all 3 loops".
_HOOKED = when_used(
    rf"[(\[]\s*{_INTO}next (?P<noun>[a-z]+(?: c\b)?){SEP}(?:{_YO}{SEP})?{_UP}\s*[)\]]\s*{_TIMES}{_ENDED}"
)
#: The same one after the other, without a bracket.
_HOOKED_TWICE = when_used(
    rf"\b{_INTO}next (?P<noun>[a-z]+(?: c\b)?){SEP}(?:{_YO}{SEP})?{_UP}{SEP}{_INTO}(?:next|following) [a-z]+(?: c\b)?{SEP}(?:{_YO}{SEP})?{_UP}{_ENDED}"
)
#: "5 dc in next sp, drop loop, insert hook in first dc, pull loop through".
_LET_GO = when_used(
    rf"(?P<begun>\bch(?:ain)? ?(?P<ch>[2-4]|two|three|four)(?:, ?| ))?\b(?P<n>{_NUMBER}) (?P<st>d ?c|h ?d ?c|tr|t ?r ?c?|double crochets?|trebles?) (?P<where>(?:in|into|under|over) (?:the )?{_PLACE}){SEP}"
    rf"(?:(?:draw|pull) (?:up|out) (?:(?:the|a) )?(?:loop|lp)(?: on (?:the )?hook)?{SEP})?(?:drop|remov|withdraw|tak|slip)(?:e|p)?(?:ing)? (?:(?:the|your|last|working) )*(?:loop?|lp|hook|st|stitch)(?: (?:from|out of|off|out) ?(?:(?:the|your|last) )*(?:hook|loop|lp|st|work|stitch|h?dc|tr)?)?{SEP}"
    rf"(?:insert|put|plac|stick)(?:e|t)?(?:ing)?(?: (?:(?:your|the|it) )?(?:hook|it))? (?:back )?(?:from [a-z ]{{4,24}} )?(?:in(?:to)?|through|under) (?:the )?(?:top (?:st |loops )?of (?:the )?)?(?P<first>{_PLACE}){SEP}"
    rf"(?:(?:pick(?:ing)? up|grab|catch|plac\w+|put|hook|return|replace) (?:(?:the|dropped) )*(?:{_LOOP})?(?: (?:back )?(?:on|onto|to) (?:the )?hook)?(?: size)?{SEP})?"
    rf"(?:{_YO}{SEP}{_THROUGH}|(?:draw|pull)(?:ing)? (?:(?:it|the|dropped|a|that|this) )*(?:{_LOOP} )?(?:through|thru)\b(?: (?:it|this st|st|the st|the one on hook|(?:the )?(?:loop|lp|st)(?: on hook)?|both loops))?){_CLOSED}"
)
#: "(Yo, insert hook in next sp, draw up a loop, yo, draw through 2 loops) 3 times, yo, draw through all loops".
_GATHERED = when_used(
    rf"[(\[]\s*{_YO}(?: (?P<wraps>twice|two times|2 times|(?:3|three) times))?{SEP}{_INTO}(?P<place>{_PLACE})(?:{SEP}(?:{_YO}{SEP})?{_UP}|(?={SEP}{_TWO}))"
    rf"(?P<worked>{SEP}(?:[(\[]\s*)?(?:{_YO}{SEP})?{_THROUGH}(?:\s*[)\]]\s*(?:twice|two times|2 times))?(?:{SEP}{_YO}{SEP}{_THROUGH})?)?\s*[)\]]\s*{_TIMES}"
    rf"(?P<again> (?:all )?in(?:to)? (?:the )?{_PLACE})?{_ENDED}{_CLOSED}"
)


#: "*Yo, insert hook in next sp, draw up a loop, yo, draw through 2 loops; rep from * twice more, yo, draw through all".
_STARRED = when_used(
    rf"\*\s*{_YO}(?: (?P<wraps>twice|two times|2 times|(?:3|three) times))?{SEP}{_INTO}(?P<place>{_PLACE}){SEP}(?:{_YO}{SEP})?{_UP}"
    rf"(?P<worked>{SEP}(?:{_YO}{SEP})?{_THROUGH}(?:{SEP}{_YO}{SEP}{_THROUGH})?)?{SEP}\.?\s*rep(?:eat)? from \*\s*"
    rf"(?:(?P<twice>once|twice|thrice)(?: more)?|(?P<n>{_NUMBER}) (?:more times|times more|times))(?P<again> in(?:to)? (?:the )?same {_PLACE})?{_ENDED}{_CLOSED}"
)


#: "Yo, insert hook in next st, yo, draw up a loop, (yo, draw through 2 loops) twice": one plain stitch.
_ONE = when_used(
    rf"\b(?:{_YO}(?: (?P<wraps>twice|two times|2 times|(?:3|three) times))?{SEP})?{_INTO}(?P<place>{_PLACE}){SEP}(?:{_YO}{SEP})?{_UP}{SEP}"
    rf"(?:[(\[]\s*{_TWO}\s*[)\]]\s*{_TIMES}|(?P<pairs>{_TWO}(?:{SEP}{_TWO}){{0,3}})(?! ?(?:\d|twice|two|three|four))|(?P<all>{_YO}{SEP}(?:(?:draw|pull)(?:ing)?(?: (?:a |the )?(?:{_LOOP}|hook))? )?(?:through|thru) (?:all )?(?:of )?(?:the )?(?:3 |three )?(?:loops|lps)(?: on (?:(?:the|your) )?hook)?))"
)
#: "Insert hook in sp below, complete a long sc".
_COMPLETED = when_used(
    rf"\b(?:{_YO}{SEP})?{_INTO}(?P<place>{_PLACE}){SEP}(?:{_YO}{SEP})?(?:{_UP}{SEP})?(?:complet(?:e|ing)|finish(?:ing)?) (?:(?:off )?(?:it )?as )?(?:(?:an?|the|your|this|1) )?"
    rf"(?P<st>(?:(?:long|spike|regular|normal) )?(?:{lexicon.ANY_PLAIN}))(?: (?:st(?:itch)?))?(?: (?:as (?:usual|normal)|in the usual (?:way|manner)))?(?![a-z0-9])"
)
#: "(3 loops on hook)", "- 4 loops now on hook": what the hook should hold.
_HELD = when_used(
    rf"\s?[(\[]\s*(?:you (?:should |will )?(?:now )?have )?{_NUMBER} (?:loops|lps)(?: (?:now|left|remain|remaining|rem|are))* on (?:(?:the|your) )?hook\s*[)\]]"
    rf"|\s?(?:[-\u2013\u2014=:]+|, ?(?:you (?:should |will )?(?:now )?have|having|leaving)) ?{_NUMBER} (?:loops|lps)(?: (?:now|left|remain|remaining|rem|are))* on (?:(?:the|your) )?hook(?=\s*[,;:.*)\]]|$)"
)


#: "Dec as follows:": the name of what is told next.
_AS_FOLLOWS = when_used(
    r"\b(?:(?:make|work) )?(?:an? |the |each )?(?:dec|decreas(?:e|ing)|inc|increas(?:e|ing)|cluster|popcorn|puff|bobble|shell|picot|[a-z]+2tog)(?: st(?:itch)?)?s?"
    r"(?: in(?:to)? (?:the )?(?:next|same|first|each) [a-z0-9-]+(?: (?:sp|st|loop))?)? (?:(?:is|are) )?(?:(?:made|worked|formed|done) )?(?:as follows|thus|this way|in this (?:way|manner)|like (?:this|so))\s*[:,-]\s*(?=\S)"
)
#: "Decrease 1 st by drawing up ...", "dec over next 2 sts like so: draw up ...": the same, with how much or where.
_DONE_BY = when_used(
    rf"\b(?:(?:make|work) )?(?:an? |the |one |1 )?(?:dec|decreas(?:e|ing))(?: (?:an?|one|1) (?:st(?:itch)?|sc|dc))?(?: (?:over|in|across) (?:the )?next (?:2|two) (?:sts|stitches|sc|dc))?"
    rf"(?: by| (?:as follows|thus|this way|like (?:this|so))\s*[:,-])\s*(?=(?:{_UP} in|{_INTO}|[(\[]\s*{_INTO}))"
)
#: "Dec as before over next 2 sts", of moves that were told once.
_AS_BEFORE = when_used(r"(?:(?<=\bdec)|(?<=\bdecrease)) as (?:before|above)(?= (?:over|in|across) (?:the )?next)")


def named_moves(low: str, terms: str) -> str:
    """A row's words with moves of the hook as the stitch that they make, letter for letter as long.

    >>> named_moves("draw up a loop in each of next 2 sc, yo and draw through all 3 loops on hook", "US").split()
    ['sc2tog', 'in', 'next', '2', 'sc']
    """
    flat = _named_in_one_line(low.replace("\n", " "), terms)
    return "".join("\n" if was == "\n" and now == " " else now for was, now in zip(low, flat, strict=True))


def _named_in_one_line(low: str, terms: str) -> str:
    low = _AS_BEFORE.sub(lambda m: " " * len(m[0]), low)
    low = _DONE_BY.sub(lambda m: " " * len(m[0]), _AS_FOLLOWS.sub(lambda m: " " * len(m[0]), low))
    if not any(word in low for word in ("insert", "draw up", "pull up", "drawing up", "pulling up", "put hook", "put the hook", "place hook", "place the hook")):
        return low
    bare = _HELD.sub(lambda m: " " * len(m[0]), low)
    named = _moves_named(bare, terms)
    return named if named != bare else low


def _moves_named(low: str, terms: str) -> str:
    base = lexicon.show_stitch("sc", terms)
    for pattern in (_DRAWN_UP, _HOOKED, _HOOKED_TWICE):
        low = pattern.sub(lambda m: _padded(m, f"{base}{_often(m)}tog in next {_often(m)} {m['noun']}" if "order" not in m.groupdict() else f"{base}{_often(m)}tog in {m['order']} {_often(m)} {m['noun']}"), low)
    low = _DRAWN_APART.sub(lambda m: _padded(m, f"{base}2tog in next {f'3 {_plural(m)} sk center st' if m['skip'] else f'2 {_plural(m)}'}"), low)
    low = _LET_GO.sub(_popcorn, low)
    low = _STARRED.sub(lambda m: _gathered(m, terms, 1), low)
    low = _GATHERED.sub(lambda m: _gathered(m, terms), low)
    low = _COMPLETED.sub(lambda m: _padded(m, f"{m['st']} in {m['place']}"), low)
    return _plain_ones(low, terms)


def _plural(found: re.Match[str]) -> str:
    return found["noun"] if found["noun"].endswith("s") else found["noun"] + "s"


#: Moves before a stitch that nothing has ended: its legs may be further ones of theirs.
_OPEN = when_used(rf"(?:\binsert|\bpull|\bdraw|{_YO}\b)[^.;*]*$|(?:\binsert|\bpull|\bdraw)[^.*]*(?:times|twice|thrice|once)[;, ]*$")


def _plain_ones(low: str, terms: str) -> str:
    """Plain stitches told by their moves, one after another; those behind moves that are left open stay as they are."""
    out, done = "", 0
    for found in _ONE.finditer(low):
        if not _OPEN.search(low, done, found.start()):
            out += low[done : found.start()] + _plain(found, terms)
            done = found.end()
    return out + low[done:]


def _plain(found: re.Match[str], terms: str) -> str:
    """One stitch by how often the yarn goes over before the hook goes in, and by twos at its end; the moves as they stand
    where these do not agree."""
    wraps = _wraps(found) if re.match(_YO, found[0]) else 0
    if found["all"]:
        name = "hdc" if wraps == 1 else ""
    else:
        pairs = len(re.findall(_TWO, found["pairs"])) if found["pairs"] else _often(found)
        name = {(0, 1): "sc", (1, 2): "dc", (2, 3): "tr", (3, 4): "dtr"}.get((wraps, pairs), "")
    return _padded(found, f"{lexicon.show_stitch(name, terms)} in {found['place']}") if name else found[0]


def _wraps(found: re.Match[str]) -> int:
    return {"twice": 2, "two times": 2, "2 times": 2}.get(found["wraps"] or "", 3 if found["wraps"] else 1)


def _often(found: re.Match[str]) -> int:
    """How often something is told to be done; "repeat twice" and "twice more" are once more than that."""
    said = found.groupdict()
    more = 1 if said.get("rep") or said.get("m1") or said.get("m2") else 0
    if said.get("n"):
        return (lexicon.number(found["n"]) or 1) + more
    return {"once": 1, "thrice": 3}.get(said.get("twice") or "", 2) + more


def _padded(found: re.Match[str], said: str) -> str:
    return said.ljust(len(found[0])) if len(said) <= len(found[0]) else found[0]


def _popcorn(found: re.Match[str]) -> str:
    count, stitch = _often(found), found["st"].replace(" ", "") if len(found["st"]) < 6 else found["st"]
    begun = bool(found["begun"]) and bool(re.search(r"\bch\b|chain", found["first"]))
    lead = "" if begun else found["begun"] or ""  # that chain is a leg of the popcorn
    return _padded(found, f"{lead}{count + begun}-{_short(stitch)} popcorn {found['where']}")


def _short(stitch: str) -> str:
    return {"double crochet": "dc", "double crochets": "dc", "treble": "tr", "trebles": "tr"}.get(stitch, stitch)


#: A stitch, each of which takes one leg; a space takes them all.
_ONE_LEG = when_used(r"next (?P<noun>st|stitch|sc|hdc|dc|tr|htr|ch)")


def _gathered(found: re.Match[str], terms: str, more: int = 0) -> str:
    legs = _often(found) + more
    if legs < 2:
        return found[0]
    wraps = _wraps(found)
    height = {1: "dc", 2: "tr", 3: "dtr"}[wraps] if found["worked"] else "hdc"
    kind = "cluster" if found["worked"] else "puff"
    where = found["again"] or f" in {found['place']}"
    one = None if found["again"] else _ONE_LEG.fullmatch(found["place"].strip())
    if one and found["worked"]:
        return _padded(found, f"{lexicon.show_stitch(height, terms)}{legs}tog over next {legs} {one['noun']}")
    return _padded(found, f"{legs}-{lexicon.show_stitch(height, terms)} {kind}{where}")
