"""A line that says rows again, part by part: which rows, how often or until how many there are, in which yarns."""

from __future__ import annotations

import re

from ....made_late import dataclass
from ... import lexicon
from ...when_used import when_used
from .blocks import blocks_told, is_yarn

#: More rows than this no line says.
_MOST_ROWS = 2_000
_ROW = r"(?:rows?|rnds?|rounds?)"
_N = rf"(?:\d{{1,3}}|one|{lexicon.NUMBER_WORDS})"
_TO = r"(?: ?(?:-|to|through|thru|and|&|,) ?)"
_PAT = r"(?:patterns?|patt?s?|ptn|stitch patterns?|pattern stitch)\b\.?"

#: What may be a line that says rows again, asked first.
MAYBE_AGAIN = when_used(r"\b(?:rows?|rnds?|rounds?|pat\w*|rep(?:eat)?|rpt|do this)\b")
#: Words that close a piece, and what is said of how the rows end or how long they go on.
_TAILS = tuple(
    when_used(pattern)
    for pattern in (
        r"[.,;]? *(?:(?:and|then) )*(?:(?:do not|don'?t) turn|turn|fasten off|end off|break off|finish off|(?:break|cut) (?:the )?(?:yarn|thread)|f/?o)\W*$",
        rf"[,;]? *\(?(?:and )?(?:end|ending|finish|finishing|ended)\b(?: off)?(?: (?:with|on|after|by|at|working))* (?:an? |the )?(?:rs|ws|right[ -]side|wrong[ -]side|{lexicon.ANY_PLAIN}|{_ROW}|color|colour)\b[^.;]{{0,14}}\W*$",
        r"[,;] *(?:with |always |making sure |taking care |so |keeping |that )*(?:the |all |each |your )?[a-z'-]+(?: [a-z'-]+){0,2} (?:should |will |must |to |are |is )?(?:always |now |again |keep )*(?:fall|lie|ly|sit|stack|line|lin|stand|com|stagger|alternat)(?:s|es|ing|ting|ed)?\b[^.;]{0,70}\W*$",
        r"[,;]? *(?:or )?(?:until|to|for) (?:the )?(?:desired|required) (?:length|size|width)\W*$",
        r"[,;]? *(?:always )?(?:chang|switch|alternat|carry|join)ing (?:colou?rs?|yarns?|to)\b[^.;]{0,50}\W*$",
        rf"[,;]? *[(\[-] *\d{{1,4}} (?:{_ROW}|sts|stitches|{lexicon.ANY_PLAIN})(?: (?:in all|in total|total|altogether|completed|made|worked))?[)\]]?\W*$",
        rf"[,;]? *(?:for|in|to form|to make) (?:the )?(?:{_PAT}|ribbing|rib)\W*$",
    )
)
_LEADS = when_used(rf"^\W*(?:(?:then|now|next|and|also|again|to continue),? |(?:cont(?:inue|inuing)?|working|keep(?:ing)?)(?: on)? in {_PAT}(?: as (?:set|established))?, (?=\w))*")
_WITH = r"(?:with|using|in|change to|changing to|switch to|join|attach) (?:the )?(?:(?:colou?r|yarn) )?(?P<yarn>[a-z]+\d?(?: (?!and\b)[a-z]+)?)"
_YARN_AHEAD = when_used(rf"^{_WITH}(?:,| and| :|:|\.| (?=work|rep)) ?(?=\S)")
_YARN_BEHIND = when_used(rf" {_WITH}$")
_VERB = r"(?:(?:(?:cont(?:inue|inuing)?|keep(?: on)?|go(?:ing)? on|carry(?:ing)? on|proceed)(?: to)? )?(?:rep(?:eat(?:ing)?)?|rpt|work(?:ing)?|alternat(?:e|ing)|follow(?:ing)?|cont(?:inue|inuing)?|crochet|do|make)\b)"
_FURTHER = r"(?:more|further|additional|extra)"
_TIMES = (
    rf"(?P<w>once|twice|thrice)(?: more| again)?|(?:an? (?:further|additional) )?(?P<t>{_N}) (?:{_FURTHER} )?times(?: {_FURTHER}| again)?|x ?(?P<x>\d{{1,3}})"
    rf"|(?:for|over) (?:the )?(?:next )?(?P<r>{_N}) (?:{_FURTHER} )?{_ROW}(?: {_FURTHER})?|(?P<m>{_N}) {_FURTHER}(?: times)?|(?:for )?(?P<m2>{_N}) {_ROW} {_FURTHER}"
)
_UNTIL = (
    rf"(?:(?:until|till|'til|til|to|making|to make) (?:(?:you|there|it|piece|work|strip|we) (?:have|are|has|is)(?: (?:completed|worked|made|done|finished|crocheted|got))? )?(?:a total of |in all |altogether )?|for (?:a total of|in all|altogether) )(?P<u>{_N}) (?:pattern )?{_ROW}\b"
    rf"(?: (?:in all|in total|total|altogether|are|have|has|is|been|were|done|worked|made|completed?|finished|from|the|beg(?:inning)?|start|reached|crocheted|counting|including|foundation|row|1))*"
)
_OFTEN = when_used(rf"[,;]? *(?:\(?(?:{_UNTIL})|(?:{_TIMES}))\)?$")
#: What stands between the rows and their yarns: "in this sequence:", "in stripes as follows:".
_SEQUENCE = when_used(
    r"(?:[ ,;:(-]|\b(?:in|with|using|for|working|work|worked|following|follow|the|this|these|that|below|above|next|same|colou?rs?|stripes?|striping|yarns?|sequences?|order|as|follows|alternating|alternate|changing|keeping to|maintaining|throughout|thus|at the same time|by)\b)+$"
)
_IN_SEQUENCE = when_used(
    r"[,;]? *\b(?:in|following|keeping(?: to)?|maintaining|continuing|with|using|working)(?: in)? (?:the )?(?:same |above |established |given )?(?:colou?r|stripe|striping) (?:sequence|order|pattern)(?: (?:as established|above|given))?\b(?! of\b| ?:| as follows)"
)
_IN_TURN = when_used(r",? *\b(?:alternately|in turn|throughout|across|in order|respectively|exactly|straight)\b")
#: Which rows are meant.
_TARGETS = (
    ("numbers", when_used(rf"{_VERB}? ?(?:the )?(?:instructions? for )?(?:{_ROW} ?)(?P<a>\d{{1,3}})(?:{_TO}(?:{_ROW} ?)?(?P<b>\d{{1,3}}))?")),
    ("back", when_used(rf"{_VERB}(?: (?:the|these|those|this|that|last|previous|above|preceding))+ ?(?P<k>{_N})? ?(?:{_PAT} )?{_ROW}")),
    ("pattern", when_used(rf"{_VERB}(?: (?:the|these|those|this|last))* (?P<k>{_N} )?{_PAT} {_ROW}")),
    (
        "on",
        when_used(
            rf"(?:{_VERB}|even|(?:keep|go|carry)(?: going| on)?)(?: (?:working|even|straight|to work|on))*(?: ?(?:in|as|with|the|same|this|that|like|est(?:ablished)?|set|before|manner|way|{_PAT}|evenly|even|straight))*"
        ),
    ),
    ("it", when_used(r"(?:rep(?:eat)?|rpt|do (?=this|that|it))(?: ?(?:it|this|these|them|that))?")),
)
#: What tells that rows are meant: "rep 4 times", "do this 6 more times" inside a row are said of its repeat.
_OF_ROWS = when_used(r"\b(?:pat\w*|ptn|even(?:ly)?|straight|manner|way|same|established|set|before)\b")
#: "4 rows hdc", "hdc 4 rows", "Work in hdc for 4 rows", "Continue in hdc until there are 8 rows".
_IN_STITCH = when_used(
    rf"(?:(?:{_VERB} )?(?P<n>{_N}) (?:{_FURTHER} )?{_ROW} (?:(?:of|in|plain) )*(?P<k>{lexicon.ANY_PLAIN})|(?P<k2>{lexicon.ANY_PLAIN}) (?:for )?(?:another )?(?P<n2>{_N}) (?:{_FURTHER} )?{_ROW}"
    rf"|{_VERB}(?: (?:on|even|working))* (?:in|with) (?P<k3>{lexicon.ANY_PLAIN})(?: only)?,? (?:for (?:the next )?(?P<n3>{_N}) (?:more )?{_ROW}(?: more)?|(?P<until>{_UNTIL})))"
)
_IN_ALL = when_used(rf"{_VERB} (?:(?P<total>a total of |in all |altogether )?(?P<u>{_N}) {_ROW}(?P<all> (?:in all|in total|total|altogether))?)(?: (?:in this way|in this manner|in pattern|even|alike|the same))?")
_COUNTED_ON = when_used(rf"{_VERB} (?P<n>{_N}) (?P<more>{_FURTHER} )?{_ROW}(?: {_FURTHER})?(?P<how>(?: (?:in|as|even|evenly|straight|with|the|same|this|that|like|one|last|just|exactly|est(?:ablished)?|set|manner|way|{_PAT}))*)")
#: ", alternating colors every row," inside a sentence.
_BETWEEN = when_used(r", (?:alternating|changing|switching) (?:colou?rs?|yarns?)\b[^,;.]{0,24},")
#: "Work the next 4 rows as Row 2", "Next 4 rows are the same".
_AS_NEXT = when_used(
    rf"^\W*(?:(?:work|make|do) )?(?:the )?(?:next|following) (?P<n>{_N}) {_ROW} (?:are |is |were )?(?:worked )?(?:all )?(?:exactly )?(?:(?:the )?same(?: (?:as|way as|manner as))?|as(?: for)?|like)(?: (?P<rows>{_ROW} ?\d{{1,3}}))?(?=\W*$)"
)
#: "Row 2 forms the pattern", "Rows 2 and 3 establish pat".
FORMS = when_used(
    rf"\b{_ROW} ?(?P<a>\d{{1,3}})(?:{_TO}(?:{_ROW} ?)?(?P<b>\d{{1,3}}))? (?:(?:forms?|establish(?:es)?|sets?|makes?|constitutes?|is|are) (?:the )?(?:[a-z]+ )?{_PAT})"
)


#: The first and the last of the rows meant, and how many of them are done.
_Span = tuple[int, int, int]


@dataclass(frozen=True, slots=True)
class SoFar:
    """What stands above a line: the number of the last row (0 without one), the rows that form the pattern (0, 0 where
    that is not said), how the page calls its yarns, what it calls its rows, and whether the line is its own, so that
    "rep 3 times" is said of the row above."""

    last: int
    pattern: tuple[int, int] = (0, 0)
    yarns: frozenset[str] = frozenset()
    word: str = "row"
    alone: bool = False


@dataclass(frozen=True, slots=True)
class RowsAgain:
    """Rows that come again: the words that say it in the usual way, how many rows, in which yarn ("" as before)."""

    said: str
    count: int
    yarn: str = ""


def rows_again(low: str, so_far: SoFar) -> tuple[RowsAgain, ...]:
    """The rows that a sentence says again, in their order; () where it says none, or not how many.

    >>> [row.said for row in rows_again("rep pattern rows twice more.", SoFar(3, (2, 3)))]
    ['rep row 2', 'rep row 3', 'rep row 2', 'rep row 3']
    >>> [(row.said, row.count, row.yarn) for row in rows_again("rep row 2 in this sequence: 2 rows a, 4 rows b.", SoFar(2))]
    [('rep row 2', 2, 'a'), ('rep row 2', 4, 'b')]
    >>> rows_again("rep row 2 until desired length.", SoFar(2))
    ()
    """
    if MAYBE_AGAIN.search(low) is None:
        return ()
    said = " ".join(low.split())
    formed = FORMS.search(said)
    if formed is not None and formed.start() < 4 and (rest := said[formed.end() :].lstrip(" .;,:-")):
        span = int(formed["a"]), int(formed["b"] or formed["a"])
        return rows_again(re.sub(r"^and ", "", rest), SoFar(so_far.last, span, so_far.yarns, so_far.word, alone=True))
    return _one_after_other(said, so_far) or _one(said, so_far)


_THEN = when_used(r"[,;]? (?:and )?then (?=(?:rep|rpt|work|row|rnd|round|once|twice|\d|with|one|two|three|four|five|six)\b)")
_NAMES_ROWS = when_used(rf"\W*(?P<rows>{_VERB} (?:(?:the|last|these|this|previous) )*(?:\d )?(?:{_ROW} ?\d{{1,3}}\b(?! times| more)(?:{_TO}(?:{_ROW} ?)?\d{{1,3}})?|{_ROW}))\b")


def _one_after_other(said: str, so_far: SoFar) -> tuple[RowsAgain, ...]:
    """ "Rep last row 3 times with B, then twice with A": part by part; what is said no number of times comes once."""
    parts = _THEN.split(said)
    first = _NAMES_ROWS.match(said) if len(parts) > 1 else None
    if first is None or blocks_told(parts[-1], so_far.yarns, bare=True):
        return ()
    out: list[RowsAgain] = []
    for part in parts:
        named = part if _NAMES_ROWS.match(part) else f"rep {part}" if re.match(_ROW, part) else f"{first['rows']} {part}"
        told = _one(named, so_far) or _one(f"{named.strip(' .')} once", so_far)
        if not told:
            return ()
        out += told
    return tuple(out)


def _one(said: str, so_far: SoFar) -> tuple[RowsAgain, ...]:
    said = _AS_NEXT.sub(lambda m: f"rep {m['rows'] or 'last ' + so_far.word} {m['n']} times", _BETWEEN.sub(",", _unbracketed(said)))
    said = _bare(said)
    yarn, said = _yarn_of(said, so_far.yarns)
    return _in_stitch(said, so_far, yarn) or _in_yarns(said, so_far) or _often(said, so_far, yarn)


def _bare(said: str) -> str:
    """A sentence without what closes it and what is said beside."""
    said = _LEADS.sub("", said).strip(" .,;:")
    before = ""
    while before != said:
        before = said
        for tail in _TAILS:
            said = tail.sub("", said).strip(" .,;:")
    return _IN_SEQUENCE.sub("", said).strip(" .,;:")


_BRACKETED = when_used(r"^\W*[\[(](?P<rows>[^\[\]()]*)[\])] *(?P<often>(?:once|twice|\d{1,3} times|\d{1,3} more times)\b[^()\[\]]*)$")


def _unbracketed(said: str) -> str:
    found = _BRACKETED.match(said)
    if found is None or not re.match(rf"(?:(?:rep|repeat|rpt|work) )?{_ROW} ?\d", found["rows"]):
        return said
    rows = found["rows"] if found["rows"].startswith(("rep", "rpt", "work")) else f"rep {found['rows']}"
    return f"{rows} {found['often']}"


def _yarn_of(said: str, yarns: frozenset[str]) -> tuple[str, str]:
    """The yarn that a sentence names before all or behind all, and the rest of it."""
    for pattern in (_YARN_AHEAD, _YARN_BEHIND):
        found = pattern.search(said)
        if found is not None and is_yarn(found["yarn"], yarns):
            rest = said[found.end() :] if found.start() == 0 else said[: found.start()]
            if pattern is _YARN_BEHIND and re.search(rf"\d {_ROW}$", rest):
                continue  # "2 rows with B" is a block
            return found["yarn"], rest.strip(" ,")
    return "", said


def _in_stitch(said: str, so_far: SoFar, yarn: str) -> tuple[RowsAgain, ...]:
    found = _IN_STITCH.fullmatch(said)
    if found is None:
        return ()
    n = next((_number(found[k]) for k in ("n", "n2", "n3") if found[k]), 0)
    n = n or (_number(found["u"]) - so_far.last if so_far.last else 0)
    stitch = next(found[k] for k in ("k", "k2", "k3") if found[k])
    return (RowsAgain(f"work {n} {so_far.word}s of {stitch}", n, yarn),) if 0 < n <= _MOST_ROWS else ()


def _in_yarns(said: str, so_far: SoFar) -> tuple[RowsAgain, ...]:
    """Rows told by how many are worked in which yarn."""
    if (blocks := blocks_told(said, so_far.yarns, bare=False)) and (span := _pattern(so_far)) is not None:
        return _worked(blocks, span, so_far)
    for found in re.finditer(r"(?<!\S)[*(\[]*(?:\d{1,3}|an?|one|two|three|four|five|six|eight)\b", said):
        before = said[: found.start()]
        named = _SEQUENCE.search(" " + before)
        blocks = blocks_told(said[found.start() :], so_far.yarns, bare=named is not None and "sequence" in named[0])
        if not blocks:
            continue
        head = _IN_TURN.sub("", _SEQUENCE.sub("", " " + before)).strip(" ,;:")
        each = "alternat" in before
        often = _OFTEN.search(head) if each else None
        head = head[: often.start()] if often is not None else head
        span = _span(head, so_far) if head and head not in ("in", "working", "work") else _pattern(so_far)
        if span is None:
            return ()
        if often is not None and (n := _how_many(often, span, so_far)):
            blocks = _alternating(blocks, n)
        return _worked(blocks, span, so_far)
    return ()


def _alternating(blocks: tuple[tuple[int, str], ...], n: int) -> tuple[tuple[int, str], ...]:
    out: list[tuple[int, str]] = []
    at = 0
    while n > 0 and len(out) < _MOST_ROWS:
        size, yarn = blocks[at % len(blocks)]
        out.append((min(size, n), yarn))
        n, at = n - max(size, 1), at + 1
    return tuple(out)


def _often(said: str, so_far: SoFar, yarn: str) -> tuple[RowsAgain, ...]:
    """Rows told by how often they come or until how many there are."""
    said = _IN_TURN.sub("", said).strip(" ,;:")
    counted = _COUNTED_ON.fullmatch(said)
    if counted is not None and (counted["more"] or counted["how"] or yarn):
        this = bool(so_far.last) and " one" in counted["how"]  # "2 more rounds like this one"
        span = (so_far.last, so_far.last, 0) if this else _pattern(so_far)
        return _worked(((_number(counted["n"]), yarn),), span, so_far) if span is not None else ()
    whole = _IN_ALL.fullmatch(said)
    if whole is not None and (whole["total"] or whole["all"]) and (span := _pattern(so_far)) is not None and so_far.last:
        return _worked(((max(_number(whole["u"]) - so_far.last, 0), yarn),), span, so_far)
    found = _OFTEN.search(said)
    if found is None:
        return ()
    head = _bare(said[: found.start()].strip(" ,;:("))
    inner, head = _yarn_of(head, so_far.yarns)
    span = _span(head, so_far)
    n = _how_many(found, span, so_far) if span is not None else 0
    return _worked(((n, yarn or inner),), span, so_far) if span is not None and 0 < n <= _MOST_ROWS else ()


def _how_many(found: re.Match[str], span: _Span, so_far: SoFar) -> int:
    """How many rows are worked; 0 where the words do not fit those above."""
    if found["u"]:
        return max(_number(found["u"]) - so_far.last, 0) if so_far.last else 0
    if found["r"] or found["m2"]:
        return _number(found["r"] or found["m2"])
    times = {"once": 1, "twice": 2, "thrice": 3}.get(found["w"] or "", 0) or next((_number(found[k]) for k in ("t", "x", "m") if found[k]), 0)
    return times * (span[1] - span[0] + 1)


def _span(head: str, so_far: SoFar) -> _Span | None:
    """The rows that words mean, from the first to the last, and how many of them are done; None where that is not plain."""
    for kind, pattern in _TARGETS:
        found = pattern.fullmatch(head)
        if found is None or (not so_far.alone and kind in ("on", "it") and not _OF_ROWS.search(head)):
            continue
        if kind == "numbers":
            span = int(found["a"]), int(found["b"] or found["a"])
            return (*span, 0) if 0 < span[0] <= span[1] and (not so_far.last or span[1] <= so_far.last) else None
        several = head.endswith("s")
        if kind == "back" or (kind == "pattern" and found["k"]):
            k = _number((found["k"] or "").strip()) or (0 if several else 1)
            if not k:
                return _pattern(so_far)
            return (so_far.last - k + 1, so_far.last, 0) if k <= so_far.last or (k == 1 and not so_far.last) else None
        if kind == "pattern" and not several:
            return _pattern(so_far) if so_far.pattern != (0, 0) else (so_far.last, so_far.last, 0)
        return _pattern(so_far)
    return None


#: Up to this row the pattern is taken for all rows behind the first, where nothing says which rows form it.
_FEW_ROWS = 3


def _pattern(so_far: SoFar) -> _Span | None:
    """The rows that form the pattern: those that are said to, from where the last row leaves them; else the rows behind
    the first, where they are few."""
    if so_far.pattern != (0, 0):
        first, last = so_far.pattern
        return first, last, max(so_far.last - last, 0) % (last - first + 1)
    if not so_far.last:
        return (0, 0, 0)
    return (2, so_far.last, 0) if 1 < so_far.last <= _FEW_ROWS else None


def _worked(blocks: tuple[tuple[int, str], ...], span: _Span, so_far: SoFar) -> tuple[RowsAgain, ...]:
    """The rows of a span, one after the other and from its beginning again, in blocks of so many rows of one yarn."""
    out: list[RowsAgain] = []
    first, last, at = span
    for n, yarn in blocks:
        if n > _MOST_ROWS:
            return ()
        if first == last:
            out.append(RowsAgain(f"rep {so_far.word} {first}" if first else f"rep last {so_far.word}", n, yarn))
            continue
        for _ in range(n):
            out.append(RowsAgain(f"rep {so_far.word} {first + at % (last - first + 1)}", 1, yarn))
            at += 1
    return tuple(out)


def _number(word: str) -> int:
    return 1 if word == "one" else lexicon.number(word) or 0
