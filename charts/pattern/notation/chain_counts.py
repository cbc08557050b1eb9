"""What a beginning chain, or chains passed over, are said to count as, and stated counts that say whether they hold it:
"(24 dc, counting ch 3 as 1 dc)"."""

from __future__ import annotations

import re
from collections.abc import Sequence

from ...made_late import replace
from .. import lexicon
from ..lexicon import TURNING, height_of, together
from ..tree import FIRST_LEG, Act, Chain, Into, Make, Op
from ..when_used import when_used
from .items import Ops
from .meanings.parts import CountsAs
from .words import Word, Words, vocabulary

#: A beginning chain stands for no more stitches than this.
_MOST_FOR_CHAIN = 2
#: What is behind a number of chains that count as nothing.
_PASSED = ("sk", "skipped", "missed", "skip", "base", "foundation")
_EQUALS = when_used(
    r"[^=a-z]*(?:(?:\d+|first|beg|beginning|missed|skipped|sk|ch|chs|chains?|ch-\d+|tch|turning|this|the|and|sts?)[\s.-]*)*=\s*(?P<tail>.+)"
)
#: More stitches than a chain can stand for.
_SO_MANY = when_used(r"(?<![a-z0-9-])(?:[2-9]|[1-9]\d+) ?(?!ch)[a-z]")
_COUNTS = when_used(
    r"(?:(?:the |this |these |first |beg(?:inning)? |skipped |turning |starting |missed |initial |sk |beg\. )*"
    r"(?:(?:ch(?:s|ain|ains)?|tch)?[- ]?(?P<n>\d{1,2})?(?: ?(?:missed |skipped |sk )?(?:ch|chs|chains?|sts?))?(?: sts?| stitches)?|it|which|here|both(?: together)?|(?:together )?(?:they|these)|together|(?:these|the) two(?: together)?|\d+ (?:skipped |missed )?ch(?:s|ain|ains)?)? ?"
    r"(?:(?:that |which )?(?:(?:are|were|was|is|you|you.ve) )?(?:just )?(?:skipped|missed|passed over|left) )?"
    r"(?:at (?:the )?(?:beg(?:inning)?|start) (?:of (?:each |the |every )?(?:row|rnd|round) )?)?(?:here |always |now |will )*)"
    r"(?P<verb>(?P<not>(?:do|does|is|are|will)(?:n'?t| not)|never|not) ?(?:to be )?(?:count(?:s|ed|ing)?|be counted|a|the|considered)?|counts?|counting|counted|counts here|is considered|are considered|considered|is|are|equals|stands|serves|acts|makes?|forms|replaces|represents|=|will count|to (?:count|stand|act|serve|represent|equal|replace|form)|equal to)\b"
    r"(?P<tail>.*)",
    re.DOTALL,
)
#: "Ch 2 is not a stitch", "does not stand for a dc": what follows "not" where "count" does not.
_NO_STITCH = when_used(
    r" ?(?:(?:act|stand|serve|replace|equal|represent|form|make|become|use|be)\w* )?(?:in )?(?:as |for )?(?:(?:an?|the|one|your|any|1) )?(?:first |1st )?"
    r"(?:count\w*|sts?|stitch(?:es)?|sc|hdc|dc|htr|tr|dtr)\b"
)
#: "Counting ch 3 as 1 dc".
_COUNTING = when_used(r"^(?:counting|count) (?P<chain>(?:(?:the|first|beg|beginning|turning|skipped) )*(?:ch|chain|tch)s?(?:[ -]?\d{1,2})?) (?:as|for) ")
#: Other words for "counts as": "to stand for 1 tr", "cts as 1st dc", "in place of first dc".
_STANDS = when_used(
    r"^(?P<lead>.{0,40}?)\b(?:to |will |this |which |that )?(?:stand(?:s|ing)? (?:in )?(?:for|as)|act(?:s|ing)? (?:as|for)|serv(?:es?|ing) (?:as|for)|represent(?:s|ing)?"
    r"|(?:to )?replac(?:es?|ing)|to equal|equal(?:s|ling)?(?: to)?|tak(?:es?|ing) (?:the |up the )?place of|cts?(?: as)?|in place of|do(?:es|ing)? duty for|for (?=(?:the |your )?(?:first|1st)\b)"
    r"|(?:is|forms?|makes?|being) (?=(?:the |your |our )?(?:first|1st)\b))(?: |(?<= ))"
)
_THROUGHOUT = when_used(r"throughout|always|every (?:row|round|rnd)|each (?:row|round|rnd)|all (?:rows|rounds|rnds)")


#: "... as part of the first shell": what a chain is a part of.
_PART_OF = when_used(r" ?(?:as |for |in )?(?:a |the )?part of (?:(?:the|a|an|each|every|this|that|first|1st|beg|beginning|starting) )*(?P<what>[a-z][a-z -]*)")
_PART_ALONE = when_used(r"(?:(?:this|it|these|which) )?(?:is |are |being |to be |forms? |to form |included |includes |counted |taken |as )*(?=(?:as |in )?(?:a |the )?part of )")


def _is_group(said: str) -> bool:
    """Whether what a chain is a part of is several stitches beside each other: of a shell it is the first stitch, while
    in a cluster it is a leg and no stitch of its own."""
    last = said.split(" of ")[0].split()[-1]
    return any(kind == "GROUP" for kind, _ in vocabulary().get(last, ()))


def counts_as(low: str, words: Words) -> CountsAs | None:
    """What a chain is said to count as: "counts as dc and ch 2" -> ("dc", "ch 2"); None where nothing of the kind is
    said."""
    low = _COUNTING.sub(r"\g<chain> counts as ", " ".join(low.split()).strip(" .,"))
    if " not " not in low and not re.search(r"\b(?:do|does|is|are|wo)n'?t\b", low):
        low = _STANDS.sub(r"\g<lead>counts as ", low)
    low = _PART_ALONE.sub("counts ", low, count=1) if _PART_ALONE.match(low) else low
    equals = _EQUALS.fullmatch(low)
    if equals and _SO_MANY.search(equals["tail"]):
        return None  # "1 tr in last ch = 32 tr": what the row makes
    if equals:
        parts = counted_parts(" " + equals["tail"], words)
        number = re.search(r"\d+", low[: equals.start("tail")])
        return CountsAs(parts, said=int(number[0]) if number else 0, first="first" in low) if parts else None
    found = _COUNTS.fullmatch(low)
    if not found:
        return None
    verb = found["verb"]
    lasting = "throughout" if _THROUGHOUT.search(low) else ""
    if found["not"]:
        if not re.search(r"count|consider", verb) and not _NO_STITCH.match(found["tail"]):
            return None  # "do not work over last inc": no chain is spoken of
        return CountsAs((), lasting)
    tail, said, first = found["tail"], int(found["n"] or 0), bool(re.match(r"(?:the )?first\b", low))
    if (of := _PART_OF.match(tail)) is not None:
        return CountsAs(("st",) if _is_group(of["what"]) else (), lasting, said, first)
    if verb.endswith("considered") or verb.startswith(("count", "stand", "serve", "act", "will", "to count", "represent", "replace")):
        parts = counted_parts(tail, words)
        return CountsAs(parts, lasting, said, first) if parts is not None else None
    if not re.match(r" ?(?:as |your |our |the |a |an |also |one )*(?:first |1st )?(?:1 )?[a-z]", tail) or re.search(
        r"\bin\b|\binto\b|,", tail
    ):
        return None
    if not low.startswith(("this", "the", "it", "ch", "counts", "here", "these", "beg", "=", "both", "they", "together")) and verb != "=":
        return None
    parts = counted_parts(tail, words)
    return CountsAs(parts, lasting, said, first) if parts else None


def chain_before(words: list[Word], at: int) -> int:
    """How long a chain is that stands right before a word, at the beginning of a row or behind a sign; 0 where none
    does."""
    said = [w.text for w in words[max(at - 3, 0) : at]]
    number = next((int(a) for a in said[-2:] if a.isdigit()), 0)
    if len(said) < 2 or not number or not {"ch", "chain", "chs"} & set(said[-2:]):
        return 0
    return number if len(said) == 2 or not said[0][:1].isalnum() or said[0] in ("turn", "join", "with", "then") else 0


#: "dc, ch 1" in a bracket behind a chain: a stitch, and chains besides.
_BESIDE = when_used(r"=?\s*(?:(?:an?|the|1|one|first|1st) )*(?P<st>[a-z]+(?: [a-z]+)?)(?:\s*(?:,|\+|and|&|plus)\s*(?:ch(?:ain)?[ -]?(?P<a>\d)|(?P<b>\d)[ -]?ch)(?: sp(?:ace)?)?)?")


def told_beside(chains: int, low: str, words: Words) -> CountsAs | None:
    """What a chain is that a bracket right behind it tells: "ch 4 (dc, ch 1)"; None where its length does not fit.

    >>> told_beside(4, "dc, ch 1", Words("US")).parts, told_beside(2, "sc, ch 2", Words("US"))
    (('dc', 'ch 1'), None)
    """
    found = _BESIDE.fullmatch(low)
    stitch = lexicon.stitch_name(found["st"], words.terms) or lexicon.long_names(words.terms).get(found["st"]) if found else None
    if not found or stitch is None or stitch not in TURNING:
        return None
    more = int(found["a"] or found["b"] or 0)
    fits = chains - more in (TURNING[stitch], TURNING[stitch] - (TURNING[stitch] > 2))
    return CountsAs((stitch, f"ch {more}") if more else (stitch,)) if fits else None


def counted_parts(tail: str, words: Words) -> tuple[str, ...] | None:
    """ "as first dc, ch 1" -> ("dc", "ch 1")."""
    said = words.read(
        re.sub(r"\b(?:now|here|and) throughout.*|\bthroughout.*|\balways\b|\bin (?:this|each|every|all) .*", "", tail)
    )
    words.lattice(said)
    out: list[str] = []
    at = 0
    while at < len(said):
        kinds = said[at].kinds
        following = said[at + 1].kinds if at + 1 < len(said) else {}
        step = 1
        if "STN" in kinds and kinds["STN"][0][1] != "sl st":
            end, name = max(kinds["STN"], key=lambda arc: arc[0])
            before = said[at - 1].kinds.get("NUM") if at else None
            behind = next((n for n in range(end, len(said)) if said[n].text != "-"), len(said))
            if before and behind < len(said) and (gathered := said[behind].kinds.get("GATHERED")):
                out.append("cl" if gathered[0][1] == "cluster" else gathered[0][1])  # "2dc-cl"
                at = behind + 1
                continue
            if before and before[0][1] > _MOST_FOR_CHAIN:
                return None  # "(ch 3, dc, dc), that equals 3 dc"
            out += [name] * (min(before[0][1], 9) if before and before[0][1] > 1 else 1)
            step = end - at
        elif "CHSP" in kinds:
            out.append(f"ch {min(kinds['CHSP'][0][1][1], 1000)}")
        elif "CHREF" in kinds:
            out.append(f"ch {min(kinds['CHREF'][0][1], 1000)}")
        elif said[at].text in ("ch", "chain") and "NUM" in following:
            out.append(f"ch {min(following['NUM'][0][1], 1000)}")
            step = 2
        elif (
            "NUM" in kinds
            and said[at].text.isdigit()
            and at + 1 < len(said)
            and said[at + 1].text in ("ch", "chain", "chains", "chs")
        ):
            out.append(f"ch {min(kinds['NUM'][0][1], 1000)}")
            step = 2
        elif "NUM" in kinds and at + 1 < len(said) and said[at + 1].text in _PASSED:
            out.append(f"sk {min(kinds['NUM'][0][1], 1000)}")
            step = 3
        elif said[at].text in ("sk", "skipped", "missed"):
            out.append("sk 1")
            step = 2
        elif said[at].text in ("sp", "lp", "loop", "space", "ch-sp", "ch"):
            one = said[at].text == "ch" and at + 1 == len(said) and bool(out)  # "first dc and ch"
            out.append("ch 1" if one else "ch")
        elif "ST" in kinds:
            out.append("st")
            step = max(end for end, _ in kinds["ST"]) - at
        elif "GATHERED" in kinds:
            out.append("cl" if kinds["GATHERED"][0][1] == "cluster" else kinds["GATHERED"][0][1])
        elif "OWN" in kinds:
            end, name = max(kinds["OWN"], key=lambda arc: arc[0])
            out.append(name)
            step = end - at
        at += max(step, 1)
    return tuple(out) or None


def lying_first(parts: tuple[str, ...]) -> tuple[str, ...]:
    """What passed-over chains of a foundation count as, those told before the stitch taken as chains that lie under it:
    nothing is chained there before the stitch.

    >>> lying_first(("ch 2", "dc", "ch 2")), lying_first(("dc", "ch 2"))
    (('dc', 'ch 2', 'sk 2'), ('dc', 'ch 2'))
    """
    first = parts[0].split() if len(parts) > 1 else []
    if len(first) != 2 or first[0] != "ch" or parts[1].split()[0] in ("ch", "sk"):
        return parts
    return (*parts[1:], f"sk {first[1]}")


# -- counts that say whether they hold the chain --------------------------------------------------------------------

#: A beginning chain of so many may be a stitch with chains beside it.
FEWEST_WITH_SPACE = 4

_NUMBER = rf"(?:\d+|{lexicon.NUMBER_WORDS})"
_CHAIN = (
    r"(?:(?:the|your|first|beg|beginning|starting|start|turning|initial|skipped|opening|last|all|a) )*"
    rf"(?:{_NUMBER}[ -]?)?(?:chs?|chains?|tch|t-ch|turning)(?:\b|(?=\d))(?:[ -]?\d+)?"
)
_STITCHES = (
    r"(?:sts?|stitch(?:es)?|h ?d ?c|d ?tr ?c?|tr ?tr|[sd]\.? ?c|htr|tr ?c?|[hd]?tr|(?:(?:half|single|double|treble|triple) )+crochets?"
    r"|(?:half |double )?trebles?|[a-z]+s)\b\.?"
)
_CLAUSE = (
    rf"(?:(?:and |not |also |this )*(?:counting|includ(?:ing|es|ed)|incl\.?|inclusive of|excluding|with(?! \d)|count(?:s|ed)?) {_CHAIN}[^,;.()\[\]]*"
    rf"|(?:and )?{_CHAIN}[^,;.()\[\]]{{0,24}}? (?:is |are |was )?(?:included|counted|counting|counts?|being|not included|not counted)\b[^,;.()\[\]]*)"
)
#: A number of stitches that states what the row makes, and what it is said to hold besides.
_SAID = when_used(
    rf"(?:[(\[;:=-]|[.)\]]\s|\b(?:have|be|are|makes?|making|gives?|giving|total|total of|count)\b:?|,(?= {_NUMBER} (?:[a-z]+ ){{1,3}}(?:in|counting|including)\b))\s*"
    r"(?:there (?:should be|are|will be|is) |you (?:should |will )?(?:now )?have |(?:a )?total (?:of )?|count:? |= ?)?"
    rf"(?<![a-z0-9]){_NUMBER} ?{_STITCHES}(?: (?:in (?:all|total|(?:the |this |each )?(?:row|rnd|round))|altogether|made))?"
    rf"(?P<gap>\s?,?\s?{_CLAUSE})(?=\s*(?:[)\].;]|$|,))(?!\s*[)\]]\s*(?:in|into|around|over|all|each|twice|x|\d+ ?(?:x|times))\b)"
)


#: A row that begins in a corner, and works its first group "in corner", which is no further one.
_BEGUN_IN_CORNER = when_used(
    r"\W*(?:(?:with|using) [a-z]{1,12},? )?(?:sl st|sl|slip st(?:itch)?|slst|ss|join|attach|travel)\b[^*;(\[]{0,60}?\bcorners?\b(?! to\b)(?:[ -](?:ch|sp|space)[- ]?\d?)*(?:[^*(\[]|\(count[^)]*\)){0,70}?(?<!next )\b(?:in|into) (?P<there>(?:the |that )?corner(?: (?:sp|space|lp|loop))?)\b(?! (?:to|of|at)\b)"
)


_TO_CORNER_SPACE = when_used(r"\W*(?:sl ?st|ss|slip stitch)e?s? (?:over |across |along )?(?:in)?to (?:the |next |first )*corner (?:ch-?\d )?(?:sp|space)\b")


def in_that_corner(low: str) -> str:
    """A row's words with "in corner" as "in same", where the row begins in a corner and has gone no further.

    >>> in_that_corner("join in any corner, ch 3, 2 dc in corner, *3 dc in next corner").split("*")[0]
    'join in any corner, ch 3, 2 dc in same  , '
    """
    found = _BEGUN_IN_CORNER.match(low) if low.count("corner") > 1 else None
    if found is None or "next" in low[: found.start("there")]:
        return low
    start, end = found.span("there")
    if _TO_CORNER_SPACE.match(low):  # the space that was slipped to
        return low[:start] + "same sp".ljust(end - start) + low[end:] if end - start >= len("same sp") else low
    return low[:start] + "same".ljust(end - start) + low[end:]


#: "... across, 13 sts at end of row 6": a count, and where it is counted.
_AT_END = when_used(
    rf"(?<=[a-z)\]])[.;,:-](?P<count>\s+(?:there (?:are|will be|should be) |you (?:should |will )?(?:now )?have )?{_NUMBER} {_STITCHES}(?: (?:now|left|in all|total|remain|remaining))*)"
    r" at (?:the )?end(?: of (?:(?:the|this|last|each|every|that) )*(?:row|rnd|round)s?(?: \d+)?)?(?=\s*(?:[.;)]|$))"
)


def without_counting(low: str) -> str:
    """A row's words with what a stated count says of the beginning chain blotted out.

    >>> without_counting("dc across (9 dc, counting ch 3 as dc).").split()
    ['dc', 'across', '(9', 'dc', ').']
    >>> without_counting("dc across; 9 dc counting ch 3.").split()
    ['dc', 'across(', '9', 'dc)', '.']
    """
    low = _AT_END.sub(lambda m: f"({m['count']}".ljust(len(m[0]) - 1) + ")", low)
    if "ch" not in low and "turning" not in low:
        return low
    return _SAID.sub(_blotted, low)


#: "Counting ch-5 of ch-8 as 1 dtr": of which chain they are.
_OF_CHAIN = when_used(r"(?<=\d) of (?:(?:the|first|beg(?:inning)?|starting) )*(?:ch(?:ain)?s?[ -]?\d{1,2}|\d{1,2} ?ch(?:ain)?s?)(?= (?:as|for)\b)")
#: "30 sts including chs": those that stand within the row, too.
_ANY_CHAINS = when_used(r"(?<!beginning )(?<!turning )(?<!starting )(?<!beg )\b(?:chs|chains)\b")


def with_chain(ops: Ops, low: str, words: Words) -> Ops:
    """A row's ops with its beginning chain counted, where the count that it states is said to hold it."""
    found = _SAID.search(low)
    first = next((at for at, op in enumerate(ops) if not isinstance(op, Act)), None)
    chain = ops[first] if first is not None else None
    if found is None or first is None or not isinstance(chain, Chain) or chain.counts is not None:
        return ops
    gap = _OF_CHAIN.sub("", found["gap"].strip(" ,"))
    if re.search(r"\bnot\b|\bexclud", gap):
        return ops
    if _ANY_CHAINS.search(gap) and any(isinstance(op, Chain) for op in ops[first + 1 :]):
        return ops
    said = counts_as(gap, words) if re.search(r"\bas\b|\bfor\b", gap) else None
    parts = said.parts if said is not None else ("st",) if chain.count in TURNING.values() and chain.count < FEWEST_WITH_SPACE else ()
    rest = chain.count - TURNING.get(parts[0], chain.count) if len(parts) == 1 else 0
    parts = (*parts, f"ch {rest}") if rest > 1 else parts  # "counting ch-5 of ch-8 as 1 dtr": a space of three beside it
    return (*ops[:first], replace(chain, counts=parts), *ops[first + 1 :]) if parts else ops


def _blotted(found: re.Match[str]) -> str:
    """A count without what it is said to hold; one behind a sign stands in brackets, as other counts do."""
    said, at = found[0], found.start("gap") - found.start()
    if said[0] in ";:=-,":
        return "(" + said[1:at] + ")" + " " * (len(said) - at - 1)
    return said[:at] + " " * (len(said) - at)


# -- chains that are a part of what is gathered -----------------------------------------------------------------------

#: What is gathered at its top and may begin with a chain in place of its first leg.
_GATHERED = ("cl", "cluster", "popcorn", "pc", "puff", "bobble", "puff st", "bobble st")


def part_of_gathered(ops: Sequence[Op], at: int, parts: tuple[str, ...]) -> bool:
    """Whether a chain, and the one stitch made behind it, are said to be a gathered stitch together."""
    said = parts[0] if len(parts) == 1 else ""
    if not (together(said) > 1 or said.rsplit(" ", 1)[-1] in _GATHERED):
        return False
    op = ops[at]
    behind: Sequence[Op] = op.ops[1:] if isinstance(op, Into) and isinstance(op.ops[0], Chain) else ops[at + 1 :]
    if not isinstance(op, Chain | Into) or (isinstance(op, Into) and not isinstance(op.ops[0], Chain)):
        return False
    work = [o for o in behind if not isinstance(o, Act)]
    return len(work) == 1 and isinstance(work[0], Make) and work[0].count == 1 and (height_of(work[0].stitch) is not None or together(work[0].stitch) > 1)


def lifted(op: Op) -> Op:
    """The op with its chain counting as nothing."""
    if isinstance(op, Into):
        return replace(op, ops=(lifted(op.ops[0]), *op.ops[1:]))
    return replace(op, counts=()) if isinstance(op, Chain) else op


def first_legs(ops: Ops) -> Ops:
    """A beginning chain said to count as a decrease, or as a leg of one, whose other legs are the stitches that follow it: a leg
    of the whole, and no stitch beside them ("ch 2, dc in next dc (both are one dc2tog)")."""
    at = next((n for n, op in enumerate(ops) if not isinstance(op, Act)), len(ops))
    chain, made = (ops[at] if at < len(ops) else None), next((op for op in ops[at + 1 :] if not isinstance(op, Act)), None)
    if not isinstance(chain, Chain) or not chain.counts or len(chain.counts) != 1 or not isinstance(made, Make):
        return ops
    whole, legs = chain.counts[0], max(together(made.stitch), made.count * sum(p.count for p in made.places))
    if together(whole) != legs + 1 or not whole.startswith(re.sub(r"\d+tog$", "", made.stitch)):
        return ops
    return (*ops[:at], replace(chain, counts=(f"{FIRST_LEG} {whole}",)), *ops[at + 1 :])
