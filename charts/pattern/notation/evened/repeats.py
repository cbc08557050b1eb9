"""Where a repeat begins and how often it is worked, told with other signs and words than "rep from * 5 times".

Every function takes a row's text in lower case and gives it letter for letter as long as before.
"""

from __future__ import annotations

import re

from ... import lexicon
from ...when_used import when_used

_REP = r"\b(?:rep(?:eat(?:ing|s)?|s)?|rpt)\b"
_NUMBER = rf"(?:\d{{1,2}}|{lexicon.NUMBER_WORDS})"
#: "nine (9) times", "9 (nine) more times": a number said twice.
_TWICE = when_used(rf"\b(?P<a>{_NUMBER})(?P<again> ?\((?P<b>{_NUMBER})\))(?= ?(?:more |further |additional )?times?\b)")
#: "rep from * 3 x's", "(sc, inc) 6 x's": times.
_XS = when_used(rf"(?P<lead>(?:{_REP}|\*|[)\]])[^.;()]{{0,24}}?\b{_NUMBER} ?)(?P<x>x'?s)(?=\s*(?:$|[.,;)(]))")
#: "between *'s": of several stars.
_STARS = when_used(r"(?<=\*)'s(?![a-z])")
#: "rep * to across until last st": a word too many.
_TO_ALONG = when_used(r"\bto (?=(?:across|around) (?:to|until|till)\b)")
#: "rep from (*)", "rep from [*]": the star in brackets.
_IN_BRACKETS = when_used(rf"(?P<lead>{_REP}(?: instructions| the)* ?(?:from|between|to)? ?)[(\[](?P<sign>\*{{1,2}}|\+|\u2020)[)\]]")
#: "rep *...*": from star to star.
_DOTS = when_used(rf"(?P<lead>{_REP}(?: instructions| the| from| between| what is)* ?)\*(?P<dots> ?(?:\.{{3}}|\.{{2}}|_|~) ?)\*")
#: "rep from the sign": the one star of the row.
_NAMED = when_used(rf"(?P<lead>{_REP}(?: again| back)? from )(?P<sign>(?:the )?(?:sign|mark|symbol|asterix|asterisks?|astrick|star sign))\b")
#: "rep from @", "rep from \u201d": another sign, or what is left of one.
_OTHER = when_used(rf"{_REP}[^.;,]{{0,16}}?\b(?:from|between|fr) ?(?:the )?(?P<sign>[@#$%~\u00a7\u00a4\u2022\u00ac\"'`\u00ba\u00b0\u2021])")
#: "do it 5 more", "do this for 5 more times", "repeat this step 5 times": what a star before it opened.
_POINTS = when_used(
    rf"\b(?P<said>(?:do|work|make|repeat|rep) (?:it|this|that|these|this (?:step|part|bit|section|sequence|pattern)|these (?:steps|stitches|sts)|the (?:sequence|steps?|pattern) above))"
    rf"(?= (?:for )?(?:another |a further )?{_NUMBER} (?:more|times|further|additional)\b)"
)
#: "(Same as Row 2)": a whole row in brackets.
_ROW_IN_BRACKETS = when_used(r"^(?P<lead>\W*)\((?P<said>(?:same as|as|repeat|rep|work as|like) (?:for )?(?:row|rnd|round|r) ?\d{1,3}[^()]{0,40})\)(?=\W*$)")
#: "Blue yarn/repeat row 5": the yarn of a row, and the row that it is worked as.
_YARN_FIRST = when_used(r"^(?P<yarn>\W*(?:with |using |in )?[a-z]+(?: [a-z]+){0,3}) ?[/-] ?(?=(?:same as|as|repeat|rep|work as|like) (?:for )?(?:row|rnd|round|r) ?\d)")
#: "'Sc 1, dec 1*. Rep 6 times", "f Sc 2, dec 1*": what a scanned page has for the star that opens what is repeated, and for the one that closes it.
_MISREAD = when_used(
    rf"^(?P<lead>\s*(?:ch(?:ain)? ?\d[,.;]? ?(?:turn[,.;]? ?)?)?)(?P<open>['\"\u2018\u2019\u201c\u201d\u2022\u00b7\u00b0`~^\\]|[ft](?= ))(?P<said> ?(?:\d ?)?[a-z][^*+\u2020\[\]'\"\u2018\u2019\u201c\u201d\u2022\\]*?)(?P<close>[*'\"\u2018\u2019\u201c\u201d\u2022\\])(?=\s*[.,;]?\s*{_REP}\s+(?:{_NUMBER}\s+(?:more )?times|around|across))"
)
#: "Repeat 7x from *to*", "repeat 5 times from * to *": how often before from where.
_TIMES_FIRST = when_used(rf"(?P<rep>{_REP}) (?:(?P<n>{_NUMBER}) ?(?P<x>x|times)|(?P<once>once|twice|thrice)) from (?P<stars>\* ?(?:to|-|\u2013|\.\.\.) ?\*|\*)(?! ?\d)")
#: "*hdc, dc, hdc in next st, rep bet ** around": two stars for what stands between the one star and here.
_TO_ITSELF = when_used(rf"(?<=[^*\s])(?P<said>[,;.]? {_REP} (?:between|bet|betw|btw|from) )\*\*(?=[\s,.;]|$)")
#: "(sc, dec) 3 (6)", "(sc, inc)3, sc 3": times, where the row's count stands behind it, or it stands against its bracket.
_TIMES_BARE = when_used(r"(?P<close>[)\]])(?: (?P<n>\d{1,2})(?P<gap> ?)(?=[(\[=]\s*\d)|(?P<m>\d{1,2})(?=\s*(?:$|[,.;(\[=]))(?P<sign>[,.;]?)(?P<room> ?))")
#: "*sc, ch 1, sk 1; rep ending with sc": from the one star before.
_REP_ENDING = when_used(rf"\b(?P<rep>{_REP})(?P<sign>,?) (?P<end>ending|finishing|end|finish)(?= (?:the (?:row|round|rnd) )?(?:with|in|by|at)\b)")
#: "Rep 3+4", "repeat rows 3 + 4": rows from one to the other.
_ROWS_ADDED = when_used(rf"(?P<rep>{_REP}(?: (?:rows?|rnds?|rounds?|r))? ?)(?P<a>\d{{1,3}})(?P<plus> ?\+ ?)(?P<b>\d{{1,3}})(?=\W*$| )")
#: "In each ch back to body": that it leads back.
_BACK_TO = when_used(r"(?<=[a-z]) back(?: down| up)? (?:to|toward|towards) (?:the )?(?:body|ring|round|circle|base|start|beginning|head|piece|flower|cent(?:er|re))(?=\s*[,.;*)])")
#: "Repeat for the remaining 2 corners", "do the same in the last two corners": so many more, from the one star.
_REMAINING = when_used(
    rf"\b(?:(?:{_REP}|do)(?: (?:this|that|it|the same|all this))?(?: again)?) (?:for|in|on|at|into|along|across) (?:the |each of the |all )?(?:remaining|rem|other|others|last|next) (?P<n>{_NUMBER}) (?:corners?|sides?|(?:corner |ch-?\d )?(?:sps?|spaces|loops|lps)|points|petals)\b"
)
#: "[Inc, sc 6, inc] on each half".
_EACH_HALF = when_used(r"(?P<close>[)\]]) (?:on|for|in|across|over) (?:each|both)(?: of the)? hal(?:f|ves)\b")
#: "Rep from * around, last time stopping at **".
_STOPPING = when_used(r"\b(?:the )?last (?:time|round|go)(?: round| around)? (?:stopping|stop|quitting|quit|breaking off|break off) (?:at|with|by) (?=\*\*)")
#: "*sk 2, v-st in next; keep repeating till 2 ch remain", "*...; carry on until you run out of sts": from the one star.
_KEEP_ON = when_used(
    r"\b(?P<said>(?:keep|keeping|carry|carrying|go|going|continue|continuing)(?: on| going)?(?: with (?:this|that|it)| like (?:this|that)| (?:in )?this way)?(?: repeating| doing (?:this|that|it))?)(?P<til> (?:un)?till? )(?=(?:only |just )?(?:\d{1,2}|one|two|three|four|five) |(?:the )?last |(?P<out>you(?:'ve)? (?:run|ran) out(?: of [a-z]+)?))"
)
_RUN_OUT = when_used(r"\b(?:un)?till? you(?:'ve)? (?:run|ran) out(?: of [a-z]+)?")
_WORD_FOR_REPEAT = when_used(_REP)
#: "end rep at +": where the last repetition breaks off.
_ENDS_AT = when_used(
    r"\b(?:end|ends|ending|finish|finishing|stop|stopping)\b(?: (?:the )?(?:last |final )?(?:rep(?:eat)?|time|round|rnd|row))? (?:at|with|on|by) (?:the )?(?P<sign>[+\u2020\u2021#@^|\u00a7])"
)
#: "to" has room between stars that stand farther apart than one sign.
TWO_LETTERS = 2
#: Signs that open and close words too.
_QUOTES = "\"'`"

_STITCH = rf"(?:[fb]p ?)?(?:{lexicon.ANY_PLAIN.lower()})"
#: Where a clause ends, before a blank; and a clause of one stitch.
_CLAUSE = when_used(r"(?:[,;.]|,? (?:and|then)) (?=(?:work |make )?(?:\d |an? |one )?[a-z])")
_ONE_STITCH = when_used(rf"(?:and |then |work |make )*(?:1 |an? |one )?(?P<st>{_STITCH})\b(?! ?\d)(?:(?!\beach\b|\bch\b|\bturn\b|\bto\b).)*$")
#: "fpdc around next st, hdc in next st, repeat last 2 sts across": the clauses that come again, with no sign before them.
_LAST_ONES = when_used(
    rf"\b(?P<rep>rep(?:eat)?(?:ing)?) (?:(?:the |these |those )?(?:last|previous|these|those) (?P<n>[2-6]|two|three|four) (?:sts?|stitches|steps)\b(?: made| worked)?"
    rf"|(?P<a>{_STITCH}) (?:and|then|&) (?P<b>{_STITCH})\b)(?= (?:across|to|around|until|along|all)\b|\s*[.;]|$)"
)


#: "Rep from * twice more, then from * to last set of brackets once, omitting the brackets": once more, without these.
_TO_LAST_BRACKETS = when_used(
    rf"\b(?P<rep>rep(?:eat)? (?:from )?\* ?)(?P<n>once|twice|(?:\d{{1,2}}|{lexicon.NUMBER_WORDS}) times)(?: more)?,? (?:and |then |and then )?(?:from \* |rep(?:eat)? from \* )(?:once )?(?:up )?to (?:the )?last (?:set of |pair of )?(?:brackets?|parenthes[ie]s)(?: once| again)*(?:,? (?:but )?omitting (?:the |these )?(?:brackets?|parenthes[ie]s|instructions in brackets))?"
)


def _but_last_brackets(found: re.Match[str]) -> str:
    said = found["n"]
    often = {"once": 1, "twice": 2}.get(said) or lexicon.number(said.split()[0]) or 0
    told = f"{found['rep'].rstrip()} {often + 1} more times, omitting last group"
    return told.ljust(len(found[0])) if often and len(told) <= len(found[0]) else found[0]

_HOW_MANY = rf"(?:\d{{1,2}}|{lexicon.NUMBER_WORDS})"
#: "In each of the 4 spaces on each side": in each on each side.
_SPACES_OF_SIDE = when_used(rf"\b(?P<in>in(?:to)?) each of (?:the )?(?:\d{{1,2}}|{lexicon.NUMBER_WORDS}) (?P<sp>(?:ch-?\d |\d-?ch )?(?:spaces|sps|gaps))(?P<between> between (?:the )?groups)?(?P<side> (?:on|along|of|in) (?:each|every) sides?)\b")
#: "Along every side": on each.
_ALONG_EVERY = when_used(r"(?P<what>\b(?:groups|spaces|sps|gaps) )(?:along|on|in|down) (?:every|each|all(?: four)?) sides?\b(?! of)")
#: "As Rnd 4 but you now have 3 ch-1 spaces on each side, so 3 groups of 3 dc between the corners": so many groups there.
_GROUPS_NOW = when_used(
    rf"(?P<as>\b(?:as|like|same as|repeat|rep|as for|as in) (?:the )?(?:(?:last |previous )?(?:rnd|round|row)(?: \d{{1,2}})?|before|that|last|previous))(?P<but>,? (?:but|only|except(?: that)?|and|with) (?:this time |now |with )*(?:(?:you(?:'ll| will)?|we|there)(?: now)? (?:have|are|is|will be|get)(?: now)? )?)"
    rf"(?P<n>{_HOW_MANY})(?P<sps> (?:ch-?\d )?(?:sps?|spaces|gaps|holes)(?: (?:on|along|in|for|to|per|at|down) (?:each|every|a|the) sides?)?)(?:,? (?:so|and|that is|meaning|which (?:makes|gives)|giving|making)(?: (?:you have|there are|work))? (?P<m>{_HOW_MANY}) (?:groups|clusters|sets)(?: of \d [a-z]{{2,3}})?(?: (?:between (?:the |each )?corners|(?:on|along|in) (?:each|every) side))?)?(?=\s*(?:[.,;(]|$))"
)

def repeats_evened(low: str) -> str:
    """The text with repeats told by "*" and "times".

    >>> repeats_evened("@2 sc in next st, repeat from @ five (5) times").split()
    ['*2', 'sc', 'in', 'next', 'st,', 'repeat', 'from', '*', 'five', 'times']
    """
    low = _TO_LAST_BRACKETS.sub(_but_last_brackets, low) if "last" in low and "from *" in low else low
    low = _MISREAD.sub(lambda found: f"{found['lead']}*{found['said']}*", low)
    low = _TIMES_FIRST.sub(_times_behind, low)
    if low.count("*") == len("***"):
        low = _TO_ITSELF.sub(lambda found: f"{found['said']}* ", low)
    low = _ROWS_ADDED.sub(lambda found: f"{found['rep']}{found['a']}{found['plus'].replace('+', '-')}{found['b']}", low)
    low = _BACK_TO.sub(lambda found: " " * len(found[0]), low) if "back" in low else low
    low = _times_bare(_TWICE.sub(_said_once, low))
    low = _XS.sub(lambda found: found["lead"] + "x".ljust(len(found["x"])), low)
    low = _TO_ALONG.sub("   ", _STARS.sub("  ", low))
    low = _IN_BRACKETS.sub(lambda found: f"{found['lead']} {found['sign']} ", low)
    low = _DOTS.sub(lambda found: f"{found['lead']}*" + ("to " if len(found["dots"]) > TWO_LETTERS else "-").ljust(len(found["dots"])) + "*", low)
    if "rep" in low and "*" not in low:
        low = _repeats_last(low)
    if low.count("*") == 1:
        low = _NAMED.sub(lambda found: found["lead"] + "*".ljust(len(found["sign"])), low)
        low = _KEEP_ON.sub(_from_star, low) if "til" in low and "rep from" not in low else low
        low = _REP_ENDING.sub(lambda found: "rep *, end".ljust(len(found[0])) if len(found[0]) >= len("rep *, end") else found[0], low)
        low = _REMAINING.sub(_so_many_more, _pointed(low))
    low = _ROW_IN_BRACKETS.sub(lambda found: f"{found['lead']} {found['said']} ", low)
    low = _YARN_FIRST.sub(lambda found: f"{found['yarn']},".ljust(len(found[0])), low)
    low = _EACH_HALF.sub(lambda found: f"{found['close']} twice".ljust(len(found[0])), low) if "hal" in low else low
    low = _STOPPING.sub(lambda found: "ending last rep at ".ljust(len(found[0])), low) if "**" in low else low
    low = _RUN_OUT.sub(lambda found: "across".ljust(len(found[0])), low) if "out" in low else low
    return _ended_at(_other_sign(low))


def _repeats_last(low: str) -> str:
    """ "A in next st, B in next st, repeat last 2 sts" with a star before A, in the place of the blank there, and "rep *"."""
    found = _LAST_ONES.search(low)
    if found is None:
        return low
    number = 2 if found["a"] else lexicon.number(found["n"]) or 0
    starts = [0]
    for clause in _CLAUSE.finditer(low, 0, found.start()):
        starts.append(clause.end())
    starts = [at for at in starts if low[at : found.start()].strip(" ,.;")][-number:]
    clauses = [low[a:b].strip(" ,.;") for a, b in zip(starts, [*starts[1:], found.start()], strict=True)]
    ones = [_ONE_STITCH.match(clause) for clause in clauses]
    if found["a"] and [one["st"] if one else "" for one in ones] != [found["a"], found["b"]]:  # by turns, and not yet told
        return low[: found.start()] + f"({found['a']}, {found['b']})".ljust(len(found[0])) + low[found.end() :]
    if len(clauses) < number or not starts[0] or not all(ones):
        return low
    blank = starts[0] - 1
    return f"{low[:blank]}*{low[blank + 1 : found.start()]}{'rep *'.ljust(len(found[0]))}{low[found.end() :]}"


def _from_star(found: re.Match[str]) -> str:
    """From the star before, where it stands there, until so many are left, or to the end of all."""
    if "*" not in found.string[: found.start()]:
        return found[0]
    return "rep *".ljust(len(found["said"])) + found["til"]


def _so_many_more(found: re.Match[str]) -> str:
    told = f"rep * {lexicon.number(found['n']) or 0} more times"
    before = found.string[: found.start()].rstrip(" .,;")
    return told.ljust(len(found[0])) if len(told) <= len(found[0]) and not before.endswith((")", "]", "*")) else found[0]


def _times_bare(low: str) -> str:
    """The number behind a bracket with "x" before it, in the place of a blank beside it or in the bracket."""
    found = _TIMES_BARE.search(low)
    while found is not None:
        start, end = found.span()
        if found["n"]:
            low = f"{low[:start]}{found['close']}x{found['n']}{found['gap']}{low[end:]}"
        elif found["room"]:
            low = f"{low[:start]}{found['close']}x{found['m']}{found['sign']}{low[end:]}"
        elif (blank := low.rfind(", ", max(low.rfind("(", 0, start), low.rfind("[", 0, start), 0), start)) >= 0:
            low = f"{low[: blank + 1]}{low[blank + 2 : start + 1]}x{low[start + 1 :]}"
        found = _TIMES_BARE.search(low, end)
    return low


def _times_behind(found: re.Match[str]) -> str:
    often = found["once"] or f"{found['n']} {found['x']}"
    return f"{found['rep']} from {found['stars']} {often}".ljust(len(found[0]))[: len(found[0])]


def _said_once(found: re.Match[str]) -> str:
    same = lexicon.number(found["a"]) == lexicon.number(found["b"])
    return found["a"] + " " * len(found["again"]) if same else found[0]


def _pointed(low: str) -> str:
    """The one "do it 5 more" of a row with one star sent back to that star."""
    said = list(_POINTS.finditer(low))
    others = [w for w in _WORD_FOR_REPEAT.finditer(low) if not said or not said[0].start() <= w.start() < said[0].end()]
    star = low.index("*")
    if len(said) != 1 or others or star > said[0].start() or low[:star].rstrip().endswith((")", "]", "}")):
        return low
    return low[: said[0].start()] + "rep *".ljust(len(said[0]["said"])) + low[said[0].end("said") :]


def _other_sign(low: str) -> str:
    """The sign that "rep from" names, where it is none of the usual ones, made a star, or a dagger beside stars."""
    found = _OTHER.search(low)
    if found is None:
        return low
    sign, at = found["sign"], found.start("sign")
    before = low[:at].count(sign)
    lone = low[:at].count("*") == 1 == low.count("*")
    if sign in _QUOTES and (before != 1 or lone):
        return f"{low[:at]}*{low[at + 1 :]}" if lone and low.count(sign, at) == 1 else low
    if not before:
        return f"{low[:at]}*{low[at + 1 :]}" if lone else low
    usual = next((s for s in ("*", "\u2020", "+") if s not in low), "")
    return low.replace(sign, usual) if usual else low


def _ended_at(low: str) -> str:
    """ "End rep at +": the sign there and the one it means made the two stars at which a last repetition ends."""
    found = _ENDS_AT.search(low)
    if found is None or "**" in low or "*" not in low[: found.start()]:
        return low
    sign, at = found["sign"], found.start("sign")
    if low[:at].count(sign) != 1:
        return low
    return _doubled(_doubled(low, at), low.index(sign))


def _doubled(low: str, at: int) -> str:
    """Two stars for the sign at a place and the blank beside it; the text as it is where there is none."""
    if low[at + 1 : at + 2] in (" ", ""):
        return f"{low[:at]}**{low[at + 2 :]}" if low[at + 1 :] else f"{low[: at - 1]}**"
    return f"{low[: at - 1]}**{low[at + 1 :]}" if low[at - 1] == " " else low


def groups_told(low: str) -> str:
    """The text with what a round told by another has on each side told as so many groups there.

    >>> groups_told("as rnd 4 but you now have 3 ch-1 spaces on each side.").rstrip(" .")
    'as rnd 4, with 3 groups on each side'
    """
    if " side" in low:
        low = _SPACES_OF_SIDE.sub(_in_each_of_side, _ALONG_EVERY.sub(lambda m: f"{m['what']}on each side".ljust(len(m[0])) if len(m[0]) >= len(m["what"] + "on each side") else m[0], low))
    return _GROUPS_NOW.sub(_as_with_groups, low) if " side" in low or "corner" in low else low


def _in_each_of_side(found: re.Match[str]) -> str:
    told = f"{found['in']} each {found['sp'].rstrip('s')}{found['between'] or ''} on each side"
    return told.ljust(len(found[0])) if len(told) <= len(found[0]) else found[0]


def _as_with_groups(found: re.Match[str]) -> str:
    """So many spaces on each side told as so many groups there."""
    if found["m"] is not None and lexicon.number(found["m"]) != lexicon.number(found["n"]):
        return found[0]
    told = f"{found['as']}, with {found['n']} groups on each side"
    return told.ljust(len(found[0])) if len(told) <= len(found[0]) else found[0]
