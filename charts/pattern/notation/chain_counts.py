"""What a beginning chain, or chains passed over, are said to count as."""

from __future__ import annotations

import re

from .meanings.parts import CountsAs
from .words import Words

#: What is behind a number of chains that count as nothing.
_PASSED = ("sk", "skipped", "missed", "skip", "base", "foundation")
_EQUALS = re.compile(
    r"[^=a-z]*(?:(?:\d+|first|beg|beginning|missed|skipped|sk|ch|chs|chains?|ch-\d+|tch|turning|this|the|and|sts?)[\s.-]*)*=\s*(?P<tail>.+)"
)
_COUNTS = re.compile(
    r"(?:(?:the |this |these |first |beg(?:inning)? |skipped |turning |starting |missed |initial |sk |beg\. )*"
    r"(?:(?:ch(?:s|ain|ains)?|tch)?[- ]?(?P<n>\d{1,2})?(?: ?(?:missed |skipped |sk )?(?:ch|chs|chains?|sts?))?(?: sts?| stitches)?|it|which|here|\d+ (?:skipped |missed )?ch(?:s|ain|ains)?)? ?"
    r"(?:at (?:the )?(?:beg(?:inning)?|start) (?:of (?:each |the |every )?(?:row|rnd|round) )?)?(?:here |always |now |will )*)"
    r"(?P<verb>(?P<not>(?:do|does|is|are|will)(?:n't| not)|never|not) ?(?:to be )?(?:count(?:s|ed|ing)?|be counted|a|the|considered)?|counts?|counting|counted|counts here|is|are|equals|stands|serves|acts|makes?|forms|replaces|represents|=|will count|to (?:count|stand|act|serve|represent|equal|replace|form)|equal to)\b"
    r"(?P<tail>.*)",
    re.DOTALL,
)
#: "Counting ch 3 as 1 dc".
_COUNTING = re.compile(r"^(?:counting|count) (?P<chain>(?:(?:the|first|beg|beginning|turning|skipped) )*(?:ch|chain|tch)s?(?:[ -]?\d{1,2})?) (?:as|for) ")
#: Other words for "counts as": "to stand for 1 tr", "cts as 1st dc", "in place of first dc".
_STANDS = re.compile(
    r"^(?P<lead>.{0,40}?)\b(?:to |will |this |which |that )?(?:stand(?:s|ing)? (?:in )?(?:for|as)|act(?:s|ing)? (?:as|for)|serv(?:es?|ing) (?:as|for)|represent(?:s|ing)?"
    r"|(?:to )?replac(?:es?|ing)|to equal|equal(?:s|ling)?(?: to)?|tak(?:es?|ing) the place of|cts?(?: as)?|in place of|do(?:es|ing)? duty for|for (?=(?:the |your )?(?:first|1st)\b)"
    r"|(?:is|forms?|makes?|being) (?=(?:the |your |our )?(?:first|1st)\b))(?: |(?<= ))"
)
_THROUGHOUT = re.compile(r"throughout|always|every (?:row|round|rnd)|each (?:row|round|rnd)|all (?:rows|rounds|rnds)")


def counts_as(low: str, words: Words) -> CountsAs | None:
    """What a chain is said to count as: "counts as dc and ch 2" -> ("dc", "ch 2"); None where nothing of the kind is
    said."""
    low = _COUNTING.sub(r"\g<chain> counts as ", " ".join(low.split()).strip(" .,"))
    if " not " not in low and "n't" not in low:
        low = _STANDS.sub(r"\g<lead>counts as ", low)
    equals = _EQUALS.fullmatch(low)
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
        if not re.search(r"count|st\b|stitch|sc|dc|considered", low):
            return None
        return CountsAs((), lasting)
    tail, said, first = found["tail"], int(found["n"] or 0), bool(re.match(r"(?:the )?first\b", low))
    if re.match(r" ?(?:as |for )?(?:a )?part of (?:the |a |an )?(?:first |1st |beg(?:inning)? )?[a-z]", tail):
        return CountsAs((), lasting, said, first)
    if verb.startswith(("count", "stand", "serve", "act", "will", "to count", "represent", "replace")):
        parts = counted_parts(tail, words)
        return CountsAs(parts, lasting, said, first) if parts is not None else None
    if not re.match(r" ?(?:as |your |our |the |a |an |also |one )*(?:first |1st )?(?:1 )?[a-z]", tail) or re.search(
        r"\bin\b|\binto\b|,", tail
    ):
        return None
    if not low.startswith(("this", "the", "it", "ch", "counts", "here", "these", "beg", "=")) and verb != "=":
        return None
    parts = counted_parts(tail, words)
    return CountsAs(parts, lasting, said, first) if parts else None


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
            out.append("ch")
        elif "ST" in kinds:
            out.append("st")
        elif "OWN" in kinds:
            end, name = max(kinds["OWN"], key=lambda arc: arc[0])
            out.append(name)
            step = end - at
        at += max(step, 1)
    return tuple(out) or None
