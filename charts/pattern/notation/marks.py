"""Brackets and repeat marks, solved first: a row of words becomes a row of words, brackets and starred stretches.

A bracket of any kind is one word with what stands in it inside. So is a starred stretch: from its mark to "rep from *",
or to the mark that closes it, whatever the mark is (*, **, +, †, a bar).
"""

from __future__ import annotations

import re
from dataclasses import field

from ...made_late import dataclass, replace
from .. import lexicon
from ..when_used import when_used
from .brackets import told_pattern
from .complaint import Complaint
from .words import Word, vocabulary

PAIRS = {"(": ")", "[": "]", "{": "}"}
CLOSING = {close: opening for opening, close in PAIRS.items()}
MARKS = ("*", "**", "***", "****", "+", "†", "‡", "#", "~", "^", "§", "|", "¶", "°")
_REPEAT = ("rep", "repeat", "repeating", "rpt", "reps", "repeats", "rept", "repeated")
#: What may stand before "* to *", which alone says that the stretch comes again.
_AGAIN = ("then", "and", "work", "crochet", "do", "make", "keep", "working", "crocheting", "go", "continue", "continuing",
          "cont", "from", "going", "back", "on")  # fmt: skip
MOST_DEPTH = 20
#: A bracket that tells a place in more words than this tells more than a place.
MOST_OF_PLACE = 7
#: What follows "repeat" in a bracket that sends back to what stands before it.
_AGAIN_FROM = ("from", "between", "to", "around", "across", "along", "until", "till", "all", "twice", "once", "x", "this",
               "these", "that", "round", "for", "one", "two", "three", "four", "five", "six", "seven", "eight")  # fmt: skip
_ROWS_SAID = ("row", "rows", "rnd", "rnds", "round", "rounds", "last", "previous")


@dataclass(slots=True)
class Inside:
    """What stands in a bracket or a starred stretch. `cut` is the word before which the last repetition ends (**);
    `part` what is worked once more behind the repeat ("then from * to ** once more")."""

    words: list[Word]
    mark: str
    cut: int | None = None
    paired: bool = False
    said_rep: bool = True
    part: list[Word] | None = None


@dataclass(slots=True)
class Folded:
    words: list[Word]
    complaints: list[Complaint] = field(default_factory=list)
    respelt: dict[str, str] = field(default_factory=dict)
    set_aside: list[tuple[str, int]] = field(default_factory=list)
    plain: list[Complaint] = field(default_factory=list)


def fold(words: list[Word]) -> Folded:
    """The words with brackets and starred stretches folded in."""
    complaints: list[Complaint] = []
    _closed_otherwise(words)
    _star_and_times(words)
    _rep_told_first(words)
    _marks_worked(words)
    _without_names(words)
    _stars_placed(words)
    _mend_brackets(words)
    respelt = _close_last(words)
    bracketed = _brackets(words, complaints)
    _parts_of_brackets_recalled(bracketed)
    _brackets_recalled(bracketed)
    _stars_behind(bracketed)
    _star_for_around(bracketed)
    aside = _star_alone(bracketed)
    plain = [complaint for complaint in complaints if complaint.plain]
    complaints = [complaint for complaint in complaints if not complaint.plain]
    if complaints:
        return Folded(words, complaints)
    told_pattern(bracketed)
    plain += _opened_at_first(bracketed)
    return Folded(_stars(_listed(_alternated(bracketed)), complaints, 0), complaints, respelt, aside, plain)


def _opened_at_first(words: list[Word]) -> list[Complaint]:
    """ "Ch 3, 2 sc in next sp, sc in next sc; rep from * around": where the one star of a row says what to repeat and none
    stands before it, the row itself comes again, but for a chain that is its first stitch. Opened there, and told."""
    stars = [at for at, word in enumerate(words) if word.text in MARKS and word.text != "+"]
    at = stars[0] if len(stars) == 1 and words[stars[0]].text == "*" else 0
    if at < 2 or words[at - 1].text != "from" or words[at - 2].text not in _REPEAT or any(w.inside for w in words[: at - 2] if w.text == "**"):
        return []
    first = max(_behind_a_first_stitch(words[: at - 2]), _behind_turn(words[: at - 2]))
    opened = words[first].start
    words.insert(first, Word("*", opened, opened))
    return [replace(_unmatched(words[at + 1], words[at - 1]), plain=True)]


def _behind_turn(words: list[Word]) -> int:
    """Where a row goes on behind the chain it is turned with, "ch 1, turn."; 0 where it does not begin so."""
    turn = next((n for n, w in enumerate(words[:5]) if w.text == "turn"), -1)
    _, behind = _chain_at(words, 0)
    if turn < 0 or any(not w.is_sign for w in words[behind:turn]):
        return 0
    turn += 1
    while turn < len(words) and words[turn].is_sign and words[turn].inside is None:
        turn += 1
    return turn if turn < len(words) else 0


def _behind_a_first_stitch(words: list[Word]) -> int:
    """Where a row goes on behind a beginning chain that is as high as a stitch of the row, or is said to count, and behind
    what is said of it; 0 where it has none."""
    at = 2 if [w.text for w in words[:2]] in (["turn", ","], ["turn", "."]) else 0
    chains, at = _chain_at(words, at)
    made = {name for w in words for _, name in w.kinds.get("STN", ())}
    high = {lexicon.TURNING.get(name) for name in made} or {lexicon.TURNING["dc"]}
    told = at < len(words) and (words[at].inside is not None or "COUNTSAS" in words[at].kinds)
    if chains < 2 or len(words) < at + 2 or not (chains in high or told):
        return 0
    at += told
    while at < len(words) and (words[at].text in (",", ";", ".", "turn")):
        at += 1
    return at


def _chain_at(words: list[Word], at: int) -> tuple[int, int]:
    """How many chains are told at a place, "ch 3", "3 ch", "ch-3", and where the words behind them begin; 0 for none."""
    said = [w.text for w in words[at : at + 2]]
    for name, number in (said, said[::-1]) if len(said) == 2 else ():
        if name in ("ch", "chain", "chs") and number.isdigit():
            return int(number), at + 2
    size = words[at].kinds.get("CHREF") if at < len(words) else None
    return (int(size[0][1]), at + 1) if size else (0, at)


def closed_alike(words: list[Word]) -> dict[str, str]:
    """Give the one bracket of a row that is closed by another kind its own: "(sc, dc] twice"; what was taken for what."""
    stack: list[Word] = []
    wrong: list[tuple[Word, str]] = []
    for word in words:
        if word.text in PAIRS:
            stack.append(word)
        elif word.text in CLOSING:
            if not stack:
                return {}
            right = PAIRS[stack.pop().text]
            if right != word.text:
                wrong.append((word, right))
    if stack or len(wrong) != 1:
        return {}
    word, right = wrong[0]
    said, word.text = word.text, right
    return {said: right}


def _often_at(words: list[Word], at: int) -> bool:
    """Whether "x 6", "6 x" or "6 times" stands there: how often a group is worked."""
    said = [w.text for w in words[at : at + 2]]
    return len(said) == 2 and ((said[0] == "x" and said[1].isdigit()) or (said[0].isdigit() and said[1] in ("x", "times")))


def _mend_brackets(words: list[Word]) -> None:
    """A bracket that was forgotten before "x 6": "(sc, inc x 6 [18]" is closed there, "sc in next 3, inc) x 6" opened where
    the row's group begins."""
    texts = [w.text for w in words]
    if any(texts.count(a) != texts.count(b) for a, b in PAIRS.items() if a != "("):
        return
    openings = [i for i, w in enumerate(words) if w.text == "("]
    closings = [i for i, w in enumerate(words) if w.text == ")"]
    if len(openings) == len(closings) + 1 and not any(w.text in MARKS for w in words):
        at = openings[-1]
        often = [i for i in range(at + 1, len(words)) if _often_at(words, i)]
        if len(often) == 1 and not any(i > at for i in closings if i < often[0]):
            words.insert(often[0], Word(")", words[often[0] - 1].end, words[often[0] - 1].end))
    elif len(closings) == len(openings) + 1 and not any(w.text in MARKS for w in words):
        at = next((i for i in closings if not openings or i < openings[0]), -1)
        if at > 0 and _often_at(words, at + 1):
            begins = max((i + 1 for i in range(at) if words[i].text in ("turn", "join", ".", ";")), default=0)
            while begins < at and words[begins].text in (",", "."):
                begins += 1
            words.insert(begins, Word("(", words[begins].start, words[begins].start))


#: What words to the reader begin with in a bracket.
_TELLS = frozenset(("or", "counts", "note", "see", "again", "if", "you", "i", "remember", "tip", "when", "we", "my", "this", "it", "hint"))

#: Words of which one tells of what was just worked, where it opens a bracket.
_TELLS_OF = frozenset(("which", "these", "this", "that", "those", "it", "they", "you", "i", "we", "remember", "note", "make"))


def _close_last(words: list[Word]) -> dict[str, str]:
    """A bracket that is never closed, with nothing but a count or another way behind it: "(12 sc", "(or 6 sc in a ring";
    what was taken for what."""
    texts = [w.text for w in words]
    at = next((i for i in range(len(words) - 1, -1, -1) if texts[i] in PAIRS), -1)
    if at < 1 or texts.count(texts[at]) != texts.count(PAIRS[texts[at]]) + 1 or PAIRS[texts[at]] in texts[at:]:
        return {}
    stop = next((i for i in range(at + 2, len(words)) if words[i].text == "."), -1)
    if stop > 0 and texts[at + 1] in _TELLS_OF and stop + 1 < len(words):  # "(which should be the middle one. Repeat from *"
        words.insert(stop, Word(PAIRS[texts[at]], words[stop].start, words[stop].start))
        return {f"{texts[at]}{texts[at + 1]}": f"{texts[at]}{texts[at + 1]} ...{PAIRS[texts[at]]}"}
    said = [w for w in words[at + 1 :] if w.text != "."]
    counted = 0 < len(said) <= 4 and said[0].text.isdigit() and all(w.text.isalpha() for w in said[1:])
    if counted or (said and said[0].text in _TELLS):
        words.append(Word(PAIRS[texts[at]], words[-1].end, words[-1].end))
        begun = " ".join(texts[at + 1 : at + 4])
        return {texts[at] + begun: f"{texts[at]}{begun}{PAIRS[texts[at]]}"} if len(texts) - at <= 4 else {texts[at]: f"{texts[at]} ... {PAIRS[texts[at]]}"}
    return {}


#: How a stretch behind a star that is never sent back to ends, where it goes to the row's end by itself.
_TO_THE_END = ("around", "across", "round", "along")


def _star_alone(words: list[Word]) -> list[tuple[str, int]]:
    """ "*Sc in each sc and ch-1 sp around", "*ch 2, sk 1 sc, sc in next sc around": the one star of a row that no "rep from"
    sends back to, before a stretch that goes to the end by itself, says nothing more. The mark that was set aside, and where."""
    stars = [i for i, w in enumerate(words) if w.text in MARKS]
    if len(stars) != 1 or any(w.text in _REPEAT for w in words) or any(w.inside is not None for w in words[stars[0] :]):
        return []
    behind = words[stars[0] + 1 :]
    end = next((i for i, w in enumerate(behind) if w.text in _TO_THE_END), -1)
    said = [w.text for w in behind[:end]]
    bare = end > 0 and (end + 1 == len(behind) or behind[end + 1].text in (",", ".", ";", "-"))
    one = "each" in said and not {",", ";", "."} & set(said)
    if not bare or not (one or "next" in said[-3:]):
        return []
    mark = words.pop(stars[0])
    return [(mark.text, mark.start)]


def _star_and_times(words: list[Word]) -> None:
    """ "*(2 dc) in next sp. 11 times": one star and, behind all that it opens, so many times: as in brackets."""
    stars = [i for i, w in enumerate(words) if w.text in MARKS]
    if len(stars) != 1 or words[stars[0]].text != "*" or any(w.text in _REPEAT for w in words):
        return
    at, depth, often = stars[0], 0, []
    for i in range(at + 1, len(words)):
        depth += (words[i].text in PAIRS) - (words[i].text in CLOSING)
        if depth == 0 and words[i].text.isdigit() and [w.text for w in words[i + 1 : i + 2]] == ["times"]:
            often.append(i)
    signs = (",", ".", ";", "-")
    if len(often) != 1 or words[often[0] - 1].text not in signs or (at and words[at - 1].inside is not None):
        return
    end = often[0] - 1
    words[at].text = "("
    words[end].text = ")"


def _closed_otherwise(words: list[Word]) -> None:
    """ "*3 sc, inc #, rep * to # across": a stretch that is closed by another mark than it is opened by, and sent back to by
    both, is as one between two alike."""
    for at in range(len(words) - 2):
        opened, to, closed = (w.text for w in words[at : at + 3])
        if opened != "*" or to not in ("to", "-", "until", "till") or closed not in MARKS or closed in ("*", "**", "+"):
            continue
        signs = [w for w in words[: at + 3] if w.text == closed]
        if len(signs) == 2 and any(w.text == "*" and w.start < signs[0].start for w in words[:at]):
            words[at + 1].text = "to"
            for sign in signs:
                sign.text = "*"


def _rep_told_first(words: list[Word]) -> None:
    """ "Rep 5 times from *": how often, said before from where."""
    for i in range(len(words) - 3):
        said = [w.text for w in words[i : i + 5]]
        if said[0] in _REPEAT and said[1].isdigit() and "times" in said[2:4] and said[2] in ("times", "more") and "from" in said[3:5]:
            start = said.index("from") + i
            if start + 1 < len(words) and words[start + 1].text in MARKS:
                words[i + 1 : start + 2] = [*words[start : start + 2], *words[i + 1 : start]]
                return


def _marks_worked(words: list[Word]) -> None:
    """ "Work * * 3 times": a verb before two marks that hold nothing sends back to what stands between them."""
    at = 0
    while at < len(words) - 2:
        verb, one, two = words[at : at + 3]
        apart = len(words) > at + 3 and two.text in ("to", "-", "and") and words[at + 3].text == one.text
        if verb.text in _WORKS and one.text in ("*", "**", "+", "\u2020") and (two.text == one.text or apart):
            verb.text = "rep"
            words.insert(at + 1, Word("between", verb.end, verb.end))
        elif verb.text in _WORKS and one.text in ("from", "between") and two.text in ("*", "**"):
            verb.text = "rep"
        at += 1


def _stars_placed(words: list[Word]) -> None:
    """ "*2 dc, ch 2, 2 dc* in the ch-2 sp, 1 chain between": two stars round stitches that all go into the one place named behind
    them, and nothing of a repeat: the stitches are as in brackets, and what comes again goes on to the place's end. Before
    "each" it is the place that comes again."""
    stars = [i for i, w in enumerate(words) if w.text in MARKS]
    if len(stars) != 2 or any(words[i].text != "*" for i in stars) or any(w.text in _REPEAT or w.text in _SO_FAR for w in words):
        return
    first, second = stars
    end = next((i for i in range(second + 1, len(words)) if words[i].text in (".", ";")), len(words))
    said = [w.text for w in words[second + 1 : end]]
    if len(said) < 2 or said[0] not in ("in", "into", "between") or any(w.text in _GOING_IN for w in words[first + 1 : second]):
        return
    each = any(text in ("each", "every", "all", "both", "ea") for text in said)
    apart = said[-1] == "between"
    if (each and not apart) or (not each and not any(text in _BELOW_IT for text in said)):
        return
    if apart and not each:
        del words[end - 1]
        end -= 1
    words[second].text = ")"
    if each:
        words[first].text = "("
        return
    words.insert(end, Word("*", words[end - 1].end, words[end - 1].end))
    words.insert(first + 1, Word("(", words[first].end, words[first].end))


#: How far or how often a repeat goes; how a stitch goes in; what names the row below, or a space of it.
_SO_FAR = ("around", "across", "times", "time", "twice", "end", "until", "x", "to")
_GOING_IN = ("in", "into", "around", "over", "between")
_BELOW_IT = ("row", "round", "rnd", "sp", "space", "previous", "loop", "lp", "arch", "next")

#: What sends back to marks like "repeat" does.
_WORKS = ("work", "working", "do", "make", "crochet")


def _without_names(words: list[Word]) -> None:
    """ "2 sc in next st (an inc)": a bracket right behind work that names it once more says nothing to work."""
    at = len(words) - 1
    while at > 0:
        end = next((i for i in range(at, min(at + 6, len(words))) if words[i].text == ")"), 0) if words[at].text == "(" else 0
        said = [w.text for w in words[at + 1 : end]]
        named = said[1:] if said[:1] and said[0] in ("a", "an", "one", "1", "the", "first") else said
        named = named[:-1] if named[-1:] == ["made"] else named
        behind = words[end + 1].text if end + 1 < len(words) else "."
        bare = behind in (".", ",", ";", ")", "]", "*", "and", "then") and words[at - 1].text in _WORKED_INTO
        if end and bare and len(named) == 1 and named[0] in _SHAPED:
            del words[at : end + 1]
        at -= 1


#: What the words of a stitch end in.
_WORKED_INTO = ("st", "sts", "stitch", "stitches", "next", "sc", "hdc", "dc", "htr", "tr", "dtr", "tog", "together", "sp", "ch", "same", "first", "last", "it")


def _star_for_around(words: list[Word]) -> None:
    """ "(1 sc, 1 inc)*": one star behind a bracket, and nothing else of a repeat, sends round with it. One before a
    bracket that is itself told how often it is worked marks nothing: "*[sc, inc] to end"."""
    stars = [i for i, w in enumerate(words) if w.text in MARKS]
    if len(stars) != 1 or words[stars[0]].text != "*":
        return
    at = stars[0]
    if at + 1 < len(words) and words[at + 1].inside is not None and _told_how_often(words, at + 2):
        if not _repeated_further_on(words, at + 2):
            del words[at]
        return
    if any(w.text in _REPEAT for w in words):
        return
    ends = at + 1 == len(words) or words[at + 1].is_sign or words[at + 1].inside is not None
    if at and words[at - 1].inside is not None and ends:
        words[at].text = "around"


def _repeated_further_on(words: list[Word], at: int) -> bool:
    """ "*(ch 4, sc in next sp) twice, ch 4, sc in next dc; repeat around": whether more work stands behind a bracket that is
    worked some times, before a repeat that goes round with all of it."""
    again = next((n for n in range(at, len(words)) if words[n].text in _REPEAT), at)
    work = any({"STN", "CHREF", "OWN", "GROUP"} & w.kinds.keys() or w.text in ("ch", "chain") for w in words[at:again])
    return work and again + 1 < len(words) and words[again + 1].text in _TO_THE_END


def _stars_behind(words: list[Word]) -> None:
    """A star behind a bracket marks it as what comes again: "(ch 3, sc in next sp)* repeat 9 times around", "[...]* 5 times"
    say so themselves; where "rep from *" sends back to it, it stands before the bracket."""
    for at in range(len(words) - 1, 0, -1):
        if words[at].text not in ("*", "**") or words[at - 1].inside is None or any(w.text in MARKS for w in words[:at]):
            continue
        behind = next((i for i in range(at + 1, len(words)) if not words[i].is_sign and words[i].text not in ("and", "then")), at)
        said = [w.text for w in words[behind + 1 : behind + 3]]
        if words[behind].text not in _REPEAT:
            if _often_at(words, at + 1):
                del words[at]
        elif said[:1] in (["from"], ["after"]) and said[1:] == [words[at].text]:
            words.insert(at - 1, words.pop(at))
        else:
            if said[:1] and said[0] in _POINTING and _told_how_often(words, behind + 2):
                del words[behind + 1]
            if _told_how_often(words, behind + 1):
                del words[at:behind]


def _brackets(words: list[Word], complaints: list[Complaint]) -> list[Word]:
    stack: list[tuple[Word, list[Word]]] = []
    level: list[Word] = []
    for number, word in enumerate(words):
        if word.text in PAIRS:
            if len(stack) >= MOST_DEPTH:
                says = f"brackets stand more than {MOST_DEPTH} deep"
                complaints.append(Complaint(word.start, word.end, says, "write the row with fewer brackets", "limit"))
                return level
            stack.append((word, level))
            level = []
        elif word.text in CLOSING:
            if not stack:
                plain = number + 1 == len(words) or words[number + 1].text in (".", ",", ";", ":", "*", *_REPEAT)
                complaints.append(replace(_never_opened(word), plain=plain))
                if not plain:
                    return level
                continue
            opening, outer = stack.pop()
            if PAIRS[opening.text] != word.text:
                says = f'the "{opening.text}" is closed by "{word.text}"'
                complaints.append(Complaint(opening.start, opening.end, says, f'close it with "{PAIRS[opening.text]}"'))
            if (not outer and not stack and _says_rows(level)) or (_only_times(level) and outer and outer[-1].text[:1] not in (",", ".", ";", "*")) or _says_again(level):
                level = [*outer, *level]
                continue
            if outer and _tells_which(level, outer[-1]):
                level = [*outer, *level]
                continue
            if outer and number + 1 < len(words) and _sizes_group(level, outer[-1], words[number + 1]):
                level = [*outer, *level]
                continue
            if _only_meant(level, outer):
                outer.append(Word("brackets", opening.start, word.end))
                level = outer
                continue
            node = Word(opening.text + word.text, opening.start, word.end)
            node.inside = Inside(level, opening.text)
            outer.append(node)
            level = outer
        else:
            level.append(word)
    if stack:
        opening = stack[0][0]
        says = f'the "{opening.text}" is never closed'
        complaints.append(
            Complaint(opening.start, opening.end, says, f'put a "{PAIRS[opening.text]}" where the group ends')
        )
    return level


def _only_times(words: list[Word]) -> bool:
    """Whether a bracket holds nothing but a number of times: "shell [2 times]", "(x 3)"."""
    said = [w.text for w in words]
    number = len(said) == 2 and (said[0].isdigit() or said[1].isdigit())
    return said == ["twice"] or (number and ("times" in said or said[0] == "x"))


#: Spaces and gaps, of which a bracket may say between what they lie.
_LIE_BETWEEN = frozenset(("sp", "sps", "space", "spaces", "lp", "lps", "loop", "loops", "gap", "gaps", "arch", "arches", "place"))


def _tells_which(words: list[Word], before: Word) -> bool:
    """Whether a bracket says between what the space before it lies: "in next sp (between shells)"."""
    if not words or words[0].text not in ("between", "bet", "betw", "in") or (words[0].text == "in" and [w.text for w in words[1:2]] != ["between"]):
        return False
    plain = not any(w.is_sign or w.inside is not None for w in words) and len(words) <= MOST_OF_PLACE
    return plain and ("CHSP" in before.kinds or before.text in _LIE_BETWEEN)


#: What picks a group, before the bracket that says of what it is.
_PICKS = ("each", "next", "between", "first", "last", "same", "every", "of", "the", "two")
_SIZED = when_used(r"\d{1,2}-[a-z]{2,4}")
_GROUP_KINDS = frozenset(("GROUP", "GATHERED", "GROUPW", "SETS"))


def _sizes_group(words: list[Word], before: Word, behind: Word) -> bool:
    """Whether a bracket only says of how many stitches the group is that is named behind it: "between each (2 tr) cluster"."""
    said = [w for w in words if w.text != "-"]
    of_some = (len(said) == 2 and said[0].text.isdigit() and "STN" in said[1].kinds) or (len(said) == 1 and bool(_SIZED.fullmatch(said[0].text)))
    return of_some and before.text in _PICKS and not _GROUP_KINDS.isdisjoint(kind for kind, _ in vocabulary().get(behind.text, ()))


def _says_again(words: list[Word]) -> bool:
    """Whether a bracket says that what stands before it comes again: "(rep from * around)", "[repeat 5 times]"."""
    if len(words) < 2 or words[0].text not in _REPEAT or words[1].text in _ROWS_SAID or words[1].inside is not None:
        return False
    return words[1].text in _AGAIN_FROM or words[1].text.isdigit() or words[1].text in MARKS


def _says_rows(words: list[Word]) -> bool:
    """Whether a bracket that stands first says which rows come again: "[Work Rows 2 and 3] 6 times"."""
    return len(words) > 2 and words[0].text in (*_REPEAT, *_WORKS, "follow") and words[1].text in _ROWS_SAID and not any((w.is_sign and w.text not in ("&", ",")) or w.inside for w in words)


def _only_meant(words: list[Word], before: list[Word]) -> bool:
    """Whether a bracket stands for another one that was written out before: "repeat between [ ] to end"."""
    return [w.text for w in words] in ([], ["to"], ["and"], ["-"], ["..."]) and any(w.inside is not None for w in before)


def _never_opened(word: Word) -> Complaint:
    says = f'"{word.text}" closes a bracket that was never opened'
    return Complaint(word.start, word.end, says, f'put "{CLOSING[word.text]}" where the group begins')


# -- repeat marks ---------------------------------------------------------------------------------------------------


def _adds(words: list[Word], at: int) -> bool:
    """Whether a "+" stands between two stitches that are worked together: "sc + dc in next st", "2 dc + ch 1 + 2 dc"."""
    if not 0 < at < len(words) - 1:
        return False
    before, after = words[at - 1], words[at + 1]
    number = after.text.isdigit() and at + 2 < len(words)
    said = words[at + 2] if number else after
    many = number and at > 1 and words[at - 2].text.isdigit() and before.text[:1].isalpha()  # "12 clusters + 12 ch-1 sps"
    return (many or _names_stitch(before)) and (_names_stitch(said) or said.text.isdigit())


def _comma_for_plus(words: list[Word], at: int) -> list[Word]:
    """ "5 sc + 1 bobble": so many of one stitch, then so many of another, and no place of the first."""
    before, after = words[at - 1 : at], words[at + 1 : at + 3]
    counted = at > 1 and words[at - 2].text.isdigit() and bool(before) and "STN" in before[0].kinds
    added = words[at].text == "+" and counted and len(after) == 2 and after[0].text.isdigit() and after[1].text[:1].isalpha()
    return [Word(",", words[at].start, words[at].end)] if added else []


_SHAPED = frozenset(("inc", "dec", "increase", "decrease", "invdec"))


def _names_stitch(word: Word) -> bool:
    return not {"STN", "CH", "CHREF", "OWN", "GATHERED"}.isdisjoint(word.kinds) or word.text[:2] == "ch" or word.text in _SHAPED


def _is_mark(words: list[Word], at: int) -> bool:
    word = words[at].text
    if word not in MARKS or (word == "+" and _adds(words, at)):
        return False
    if (
        at
        and words[at - 1].text in ("at", "with", "the")
        and word in ("*", "**")
        and not any(w.text in _REPEAT for w in words[at + 1 :])
    ):
        words[at].kinds["MARKS"] = [(1, word)]
        return False
    if word in ("*", "x") and at and words[at - 1].inside is not None and _number_ahead(words, at + 1):
        return False
    if word == "*" and at and words[at - 1].text[:1].isalpha() and _all_times(words):
        return False
    if word == "#" and at + 1 < len(words) and words[at + 1].text.isdigit():
        return False
    between = 0 < at < len(words) - 1 and words[at - 1].text.isdigit() and words[at + 1].text.isdigit()
    return not between or _closes_counted(words, at) or _opens_behind_chain(words, at)


def _opens_behind_chain(words: list[Word], at: int) -> bool:
    """ "Ch 2 *2 dc in next st, ...; rep from *": a star between the chains and a number of stitches opens a repeat that is told
    behind it."""
    chain = at > 1 and words[at - 2].text in ("ch", "chain", "chs", "chains")
    told = any(w.text in _REPEAT for w in words[at + 1 :]) and any(w.text == words[at].text for w in words[at + 1 :])
    return chain and told and at + 2 < len(words) and _names_stitch(words[at + 2])


def _closes_counted(words: list[Word], at: int) -> bool:
    """ "*sc in ring, ch 3* 7 times": a star between two numbers that closes what a star before it opened."""
    opened = sum(w.text == words[at].text for w in words[:at]) % 2
    return bool(opened) and at + 2 < len(words) and words[at + 2].text in ("times", "time", "x", "more")


#: What may stand between "repeat" and the colon before what comes again.
_WHAT_FOLLOWS = frozenset(("the", "following", "this", "these", "steps", "pattern", "sequence", "stitches", "sts", "next", "instructions"))
#: How far it comes again: before the colon, or behind it.
_HOW_FAR = frozenset(("across", "around", "to", "end", "last", "until", "till", "row", "rnd", "round", "of", "st", "sts", "stitch", "all", "way"))
_GOES_ON = ("continue", "cont", "continuing", "keep", "carry", "repeat", "rep", "do", "go", "work")


def _listed(words: list[Word]) -> list[Word]:
    """ "Repeat: 2 dc, ch 1. Continue across": a list behind "repeat" and a colon comes again, like one between marks. It
    goes to the end of its sentence, or to the words that say how far."""
    at = next((i for i, w in enumerate(words) if w.text in _REPEAT), len(words))
    colon = at + 1
    while colon < len(words) and (words[colon].text in _WHAT_FOLLOWS | _HOW_FAR or words[colon].text.isdigit()):
        colon += 1
    if colon >= len(words) - 1 or words[colon].text != ":" or any(w.text in MARKS for w in words):
        return words
    if at and words[at - 1].inside is not None:
        return words  # "(inc, sc) repeat around: 24": what comes again stands before
    said = words[at + 1 : colon]
    far = said[next((i for i, w in enumerate(said) if w.text in ("across", "around", "to", "until", "till", "all")), len(said)) :]
    end = colon + 1
    while end < len(words) and words[end].text not in (".", ";") and not _tells_end(words, end):
        end += 1
    body, rest = words[colon + 1 : end], words[end:]
    while body and body[-1].text in (",", "and", "then", "all", "the", "way"):
        body.pop()
    if not body:
        return words
    behind = [w.text for w in rest]
    if behind[:1] in (["."], [";"]) and behind[1:2] and behind[1] in _GOES_ON:
        on = next((i for i, text in enumerate(behind[2:6], 2) if text in ("across", "around", "to", "until")), 0)
        rest = rest[on:] if on and not set(behind[1:on]) - {*_GOES_ON, "on", "this", "in", "the", "manner", "way", "pattern", "it", "going"} else rest
    node = Word("*:", words[colon].start, body[-1].end)
    node.inside = Inside(body, "*", said_rep=True)
    node.kinds["STARNODE"] = [(1, None)]
    return [*words[:at], node, *far, *rest]


#: What says that work comes by turns, and what parts one turn from the other.
_BY_TURNS = ("alternate", "alternating", "alternately", "alternatively", "alternatingly")
_PARTS_TURNS = frozenset(("and", "with", "then", "followed", "by"))
#: What may stand before the first turn, and what before "alternating".
_LEADS_TURNS = frozenset(("between", "working", "work", "making", "make", "doing", "crocheting", "crochet", "placing", "with", "from"))
_BEFORE_TURNS = frozenset(("and", "then", "now", "work", "crochet", "continue", "by", "start", "begin", "keep"))
_MADE_IN_TURN = frozenset(("STN", "INC", "DEC", "OWN", "GATHERED", "GROUP", "TOGN"))


def _alternated(words: list[Word]) -> list[Word]:
    """ "Alternate between 1 sc and an increase", "alternately hdc into one stitch and then decrease", "continue with 3 sc
    followed by a bobble to the end": the turns come again to the end of the row, or as often as is said, like a list between
    marks."""
    at, first = _turns_begin(words)
    if first is None or any(w.text in MARKS for w in words):
        return words
    end = first
    while end < len(words) and words[end].text not in (".", ";", *_REPEAT) and not _tells_end(words, end) and not _all_round(words, end):
        end += 1
    last = end
    while last > first and words[last - 1].text in (",", "and", "then", "all", "the", "way"):
        last -= 1
    body = _in_turns(words[first:last])
    if body is None:
        return words
    far, rest = _how_often(words, end)
    node = Word("*:", words[at].start, body[-1].end)
    node.inside = Inside(body, "*", said_rep=True)
    node.kinds["STARNODE"] = [(1, None)]
    return [*words[:at], node, *far, *rest]


def _all_round(words: list[Word], at: int) -> bool:
    return words[at].text == "round" and at > 0 and words[at - 1].text in ("all", "way")


def _turns_begin(words: list[Word]) -> tuple[int, int | None]:
    """Where the words that say it begin, and where the first turn does; None where none is told."""
    for at, word in enumerate(words):
        clause = at == 0 or words[at - 1].is_sign or words[at - 1].text in _BEFORE_TURNS
        first = at + 1
        if word.text in _BY_TURNS and clause:
            while first < len(words) and words[first].text in _LEADS_TURNS | {"a", "an", "the"}:
                first += 1
        elif not (word.text in ("continue", "cont", "continuing") and clause and first < len(words) and words[first].text in ("with", "working", "making")):
            continue
        else:
            end = next((i for i in range(at, len(words)) if words[i].text in (".", ";", ",")), len(words))
            if not any(words[i].text == "followed" and words[i + 1].text == "by" for i in range(at, end - 1)):
                continue
            first += 1
        while at and words[at - 1].text in _BEFORE_TURNS:
            at -= 1
        return at, first
    return 0, None


def _in_turns(words: list[Word]) -> list[Word] | None:
    """The turns as clauses, each into the next stitch where it only says "one stitch"; None where there are not two."""
    turns: list[list[Word]] = [[]]
    for word in words:
        if word.text in _PARTS_TURNS and word.inside is None:
            turns.append([])
        elif word.text != "," or turns[-1]:
            turns[-1].append(word)
    turns = [turn for turn in turns if turn]
    if len(turns) != 2 or not all(any(not _MADE_IN_TURN.isdisjoint(_kinds(w)) or w.text in _INCS for w in turn) for turn in turns):
        return None
    if any(w.text in ("each", "every", "all", "rest") or "COLOURW" in _kinds(w) for turn in turns for w in turn):
        return None
    out: list[Word] = []
    for turn in turns:
        out += [Word(",", turn[0].start, turn[0].start)] if out else []
        out += _into_the_next(turn)
    return out


def _kinds(word: Word) -> set[str]:
    return {*word.kinds, *(kind for kind, _ in vocabulary().get(word.text, ()))}


_INCS = frozenset(("inc", "increase", "increasing", "incs", "dec", "decrease", "decreasing", "decs", "ch", "chain"))


def _into_the_next(turn: list[Word]) -> list[Word]:
    """ "Hdc into one stitch", "2 sc in the other": the next one is meant."""
    out = list(turn)
    for at, word in enumerate(turn):
        rest = [w.text for w in turn[at + 1 : at + 4] if w.text != "the"]
        if word.text not in ("in", "into") or not rest or rest[0] not in ("one", "a", "1", "other", "another", "following"):
            continue
        said = turn[at + 1 : at + 1 + len(turn[at + 1 : at + 4])]
        found = next((w for w in said if w.text == rest[0]), None)
        if found is not None and (rest[1:2] in ([], ["st"], ["sts"], ["stitch"])):
            out[turn.index(found)] = Word("next", found.start, found.end)
    return out


def _how_often(words: list[Word], end: int) -> tuple[list[Word], list[Word]]:
    """The words that say how far turns go or how often they come, and those behind them: "... Repeat the pattern 6 times"."""
    behind = [w.text for w in words[end : end + 6]]
    at = 1 if behind[:1] in ([","], ["."], [";"]) else 0
    if behind[at : at + 1] and behind[at] in _REPEAT:
        said = next((n for n in range(at + 1, len(behind)) if behind[n] not in ("this", "the", "that", "pattern", "sequence", "these", "steps")), len(behind))
        if end + said < len(words) and (behind[said].isdigit() or "TWICE" in words[end + said].kinds or behind[said] in ("around", "across", "to", "until", "a")):
            return words[end + said :], []
    return [], words[end:]


def _tells_end(words: list[Word], at: int) -> bool:
    """Whether words say how far a repeat goes: "across", "to the last st"."""
    following = [w.text for w in words[at + 1 : at + 3]]
    if words[at].text in ("across", "around"):
        return at + 1 >= len(words) or words[at + 1].is_sign or words[at + 1].text in ("to", "and", "until")
    return words[at].text in ("to", "until", "till") and bool({"end", "last"} & set(following))


def _all_times(words: list[Word]) -> bool:
    """Whether every * stands for "times": "inc * 6, sc * 3"."""
    return all(_number_ahead(words, i + 1) for i, w in enumerate(words) if w.text == "*") and not any(
        w.text in _REPEAT for w in words
    )


def _number_ahead(words: list[Word], at: int) -> bool:
    """Whether "* 6" behind a bracket is a number of times: nothing but a sign follows it."""
    if at >= len(words) or not words[at].text.isdigit():
        return False
    return at + 1 >= len(words) or not words[at + 1].text[:1].isalpha() or words[at + 1].text in ("times", "time")


def _stars(words: list[Word], complaints: list[Complaint], depth: int) -> list[Word]:
    for word in words:
        if word.inside is not None:
            word.inside.words = _stars(word.inside.words, complaints, depth + 1)
    out: list[Word] = []
    at = 0
    while at < len(words):
        word = words[at]
        recalled = _recalled(words, at, out)
        if recalled is not None:
            node, at = recalled
            out.append(node)
            continue
        if not _is_mark(words, at):
            if word.text in MARKS and word.text == "*":
                word.kinds["STARX"] = [(1, "*")]
            out.append(word)
            at += 1
            continue
        if word.text in ("#", "+", "|") and at + 1 < len(words) and words[at + 1].text == word.text:
            at += 2
            continue
        found = _stretch(words, at)
        if found is None:
            if _is_sign_only(words, at):
                out += _comma_for_plus(words, at)
                at += 1
                continue
            from_rep = at > 1 and words[at - 1].text == "from" and words[at - 2].text in _REPEAT
            lead = words[at - 1 - from_rep] if at else None
            complaints.append(_unmatched(word, lead))
            return words
        body_end, after, paired, said = found
        body = words[at + 1 : body_end]
        while body and (
            body[-1].text in ("keep", "continue", "then", "and", "now") or (body[-1].text == "*" and word.text == "**")
        ):
            body = body[:-1]
        cut = None
        again = _part_again(words, after, word.text)
        if again is not None or word.text == "*":
            closing = again or "**"
            cut = next((i for i, w in enumerate(body) if w.text == closing and not _own_rep(body, i, closing)), None)
            if cut is not None:
                body = body[:cut] + body[cut + 1 :]
        node = Word(word.text, word.start, words[after - 1].end)
        inner = _stars(body, complaints, depth + 1)
        if cut is not None:
            cut_word = body[cut] if cut < len(body) else None
            cut = next((i for i, w in enumerate(inner) if w is cut_word or _holds(w, cut_word)), len(inner))
        part = inner[:cut] if again is not None and cut is not None else None
        node.inside = Inside(inner, word.text, None if part else cut, paired, said, part)
        node.kinds["STARNODE"] = [(1, None)]
        out.append(node)
        at = after
    return out


#: What may stand between "repeat" and the brackets whose work is meant, and what brackets are called.
_LEADS_TO = frozenset(("the", "instructions", "directions", "between", "bet", "betw", "in", "inside", "within", "from", "what", "is", "sts", "stitches", "section"))
_CALLED = frozenset(("parentheses", "parenthesis", "brackets", "bracket", "parens"))


#: Behind "repeat from [-]": how often in all.
_IN_ALL = when_used(r"(?:for )?(?:an? )?total of (?:\w+) times?\b|(?:\w+) (?:times?|x) (?:in )?(?:total|all|altogether)\b|(?:\w+) times (?:all ?together|in all)\b")


def _brackets_recalled(words: list[Word]) -> None:
    """ "(2 sc in next st, sc) 3 times, sc, rep between () twice": brackets told again further on in a row, empty or by name,
    are the work that the last ones hold."""
    at = 0
    while at < len(words):
        found = _bracket_again(words, at)
        if found is not None:
            node, after = found
            held = at - 1 - (words[at - 1].text in (",", ";", "."))
            if words[held].inside is not None and _IN_ALL.match(" ".join(w.text for w in words[after : after + 6])):
                del words[held + 1 : after]  # "[...], repeat from [-] a total of 3 times" is three in all
                at = held + 1
                continue
            behind = [w.text for w in words[after : after + 3]]
            more = next((n for n, text in enumerate(behind) if text == "more"), 0) if "more" in behind[1:] else 0
            if more:
                del words[after + more]  # apart from the first ones, "3 more times" is three times
            words[at:after] = [node]
        at += 1


def _parts_of_brackets_recalled(words: list[Word]) -> None:
    """ "(*sc, hdc, sc**, ch 2) 3 times, rep from * to ** once": what two marks hold in a bracket is worked again where the
    row sends back to them, and the marks are nothing more."""
    told: list[Word] = []
    at = 0
    while at < len(words):
        found = _part_of_bracket(words, at)
        if found is not None:
            held, first, last, after = found
            inside = held.inside.words
            node = Word("()", words[at].start, words[after - 1].end)
            node.inside = Inside([_again(w) for w in inside[first + 1 : last] if w.text not in MARKS], "(")
            words[at:after] = [node]
            told.append(held)
        at += 1
    for word in told:
        word.inside.words = [w for w in word.inside.words if w.text not in MARKS]


def _part_of_bracket(words: list[Word], at: int) -> tuple[Word, int, int, int] | None:
    """The bracket before whose two marks a row is sent back to at a place, where these marks stand in it, and the word
    behind what says so."""
    i = at
    while i < len(words) and words[i].text in (*_BETWEEN_WORDS, *_REPEAT, "once", "again", "work"):
        i += 1
    said = [w.text for w in words[i : i + 3]]
    if i == at or len(said) < 3 or said[0] not in MARKS or said[1] not in ("to", "and", "-") or said[2] not in MARKS:
        return None
    for held in reversed(words[:at]):
        marks = [n for n, w in enumerate(held.inside.words) if w.text in MARKS] if held.inside is not None else []
        if len(marks) != 2:
            continue
        told = any(w.text in _REPEAT for w in held.inside.words)
        if told or held.inside.words[marks[0]].text != said[0] or marks[1] == marks[0] + 1:
            return None
        return held, marks[0], marks[1], _behind_once(words, i + 3)
    return None


_ONCE_MORE = (["once", "more"], *([one, *more, time] for one in ("one", "1") for more in (["more"], []) for time in ("time", "times")), ["once"], ["again"])


def _behind_once(words: list[Word], at: int) -> int:
    """The word behind "once more", "one more time"; of "twice more" and "2 more times" the "more" is taken away."""
    said = [w.text for w in words[at : at + 3]]
    for times in _ONCE_MORE:
        if said[: len(times)] == times:
            return at + len(times)
    if said[1:2] == ["more"]:
        del words[at + 1]
    return at


def _bracket_again(words: list[Word], at: int) -> tuple[Word, int] | None:
    """The work of the last bracket before, told again at a place by its empty signs or its name; and the word behind."""
    if words[at].text not in _REPEAT:
        return None
    after = at + 1
    while after < len(words) and words[after].text in _LEADS_TO:
        after += 1
    sign = words[after] if after < len(words) else None
    empty = sign is not None and sign.inside is not None and not sign.inside.words
    if sign is None or not (empty or sign.text in _CALLED):
        return None
    held = next((n for n in reversed(range(at)) if words[n].inside is not None and _holds_work(words[n])), None)
    if held is None or not any(w.is_sign for w in words[held + 1 : at]):
        return None
    node = Word("()", words[at].start, sign.end)
    node.inside = Inside([_again(w) for w in words[held].inside.words], "(")
    return node, after + 1


def _holds_work(word: Word) -> bool:
    return any(not {"STN", "INC", "DEC", "OWN", "TOGN", "CHREF"}.isdisjoint(w.kinds) or w.text in ("ch", "inc", "dec") for w in word.inside.words)


def _recalled(words: list[Word], at: int, before: list[Word]) -> tuple[Word, int] | None:
    """ "rep between *s once" further on in a row: what the marks hold, worked again there, as in brackets; and the word
    behind it."""
    part = _part_told(words, at, before)
    if part is not None:
        return part
    if words[at].text not in _REPEAT or at + 2 >= len(words):
        return None
    bare = words[at + 1].text in ("*", "**") and (_to_mark(words, at + 1, words[at + 1].text) is not None or _so_often(words, at + 2))
    if not bare and words[at + 1].text not in ("between", "bet", "betw", "from"):
        return None
    held = next((w for w in reversed(before) if not {"STARNODE", "RECALLED"}.isdisjoint(w.kinds) and w.inside.paired), None)
    if held is None or (not bare and words[at + 2].text not in ("*", "**", "the", held.inside.mark)):
        return None
    after = _rep_from(words, at, held.inside.mark, closed=True)
    if after is None or not any(w.text in ("*", "**") for w in words[at:after]):
        return None
    if not held.inside.said_rep:
        held.text, held.kinds = "()", {"RECALLED": [(1, None)]}
    node = Word("()", words[at].start, words[after - 1].end)
    node.inside = Inside([_again(w) for w in held.inside.words], "(")
    behind = [w.text for w in words[after : after + 3]]
    if behind[1:2] == ["more"] and (behind[0] in ("once", "twice") or behind[2:] in (["times"], ["time"])):
        del words[after + 1]  # apart from the first ones, "6 more times" is six times
    return node, after


def _part_again(words: list[Word], start: int, mark: str) -> str | None:
    """The mark up to which a stretch is worked once more behind its repeats: "rep from * twice, then from * to ** once"."""
    for i in range(start, len(words) - 2):
        if words[i].text != mark:
            continue
        to = words[i + 1].text in ("to", "-", "and") and words[i + 2].text in MARKS and words[i + 2].text != mark
        return words[i + 2].text if to and words[i - 1].text in ("from", "between", "first", *_REPEAT) else None
    return None


def _part_told(words: list[Word], at: int, before: list[Word]) -> tuple[Word, int] | None:
    """ "From * to ** once more" behind a repeat: what stands between these marks, once; and the word behind it."""
    if words[at].text not in ("from", "between", "work", *_REPEAT):
        return None
    held = next((w for w in reversed(before) if "STARNODE" in w.kinds), None)
    if held is None or held.inside.part is None:
        return None
    i = at
    while i < len(words) and words[i].text in ("from", "between", "work", "first", "the", "again", *_REPEAT):
        i += 1
    if [w.text == held.text or w.text in ("to", "-", "and") for w in words[i : i + 2]] != [True, True] or i + 2 >= len(words):
        return None
    if words[i].text != held.text or words[i + 2].text not in MARKS:
        return None
    i += 3
    i = _behind_once(words, i)
    node = Word("()", words[at].start, words[i - 1].end)
    node.inside = Inside([_again(w) for w in held.inside.part], "(")
    return node, i


def _again(word: Word) -> Word:
    out = Word(word.text, word.start, word.end, dict(word.kinds), None, word.begins_line)
    if word.inside is not None:
        out.inside = replace(word.inside, words=[_again(w) for w in word.inside.words])
    return out


def _holds(word: Word, part: Word | None) -> bool:
    return part is not None and word.inside is not None and word.start <= part.start < word.end


def _is_sign_only(words: list[Word], at: int) -> bool:
    """A "+" or a bar that marks nothing: between two counts, or at an end; a star that sends to a note ("a magic ring*,")."""
    if words[at].text == "*" and at and words[at - 1].text.isalpha() and words[at - 1].end == words[at].start:
        more = any(w.text in ("*", "**") or w.text in _REPEAT for w in words[:at] + words[at + 1 :])
        return not more and (at + 1 == len(words) or words[at + 1].is_sign)
    if words[at].text == "**" and _ends_talk(words, at):
        return True
    return words[at].text in ("+", "|", "#", "~", "^", "°", "§")


def _ends_talk(words: list[Word], at: int) -> bool:
    """Whether two stars stand alone at a sentence's end: they send to a note or end a stretch of rows that another
    piece repeats. Repeats that are whole stand beside them only where the row ends."""
    last = at + 1 == len(words)
    marks = ("**",) if last else ("*", "**")
    others = [w for n, w in enumerate(words) if n != at and (w.text in marks or (w.kinds.get("STARNODE") and not last))]
    ends = at + 1 == len(words) or words[at + 1].begins_line or words[at + 1].is_sign
    behind = at > 0 and (words[at - 1].text in (".", ")", "!", ";") or (last and _is_count_alone(words[:at])))
    return not others and behind and ends


def _is_count_alone(words: list[Word]) -> bool:
    """Whether words end with a number of stitches that is a sentence or a bracket of its own: "... 16 sc", "... (16 sc)"."""
    held = words[-1].inside
    said = [w.text for w in (held.words if held is not None else words[-2:])]
    apart = held is not None or (len(words) > 2 and words[-3].text in (".", "!", ";"))
    return apart and len(said) == 2 and said[0].isdigit()


def _stretch(words: list[Word], at: int) -> tuple[int, int, bool, bool] | None:
    """Where the stretch that begins with the mark at `at` ends: (end of its body, first word behind it, whether a
    second mark closes it, whether "rep" is said)."""
    mark = words[at].text
    close: int | None = None
    for i in range(at + 1, len(words)):
        if words[i].text in _REPEAT:
            after = _rep_from(words, i, mark, close is not None)
            if after is not None:
                end = close if close is not None and _only_signs(words, close + 1, i) else i
                return end, after, close is not None and end == close, True
        if close is not None and _only_verbs(words, close + 1, i) and (after := _to_mark(words, i, mark)):
            said = after < len(words) and words[after].text in _REPEAT and _rep_from(words, after, mark, True) == after + 1
            return close, after + 1 if said else after, True, True
        if words[i].text == mark and close is None and _is_mark(words, i):
            close = i
            if not _rep_follows(words, i + 1, mark):
                return i, i + 1, True, False
    if mark == "**" and close is None:
        other = next((i for i in range(at + 1, len(words)) if words[i].text == "*"), None)
        if other is not None:
            rep = next((i for i in range(other + 1, len(words)) if words[i].text in _REPEAT), None)
            after = _rep_from(words, rep, mark, True) if rep is not None else None
            if after is not None:
                return other, after, True, True
            if rep is None:
                return other, other + 1, True, False
    if close is not None:
        return close, close + 1, True, False
    return _bare_rep(words, at)


def _to_mark(words: list[Word], at: int, mark: str) -> int | None:
    """The word behind "* to *" or "*-*", which says again what stands between two marks."""
    said = [w.text for w in words[at : at + 3]]
    return at + 3 if len(said) == 3 and said[0] == said[2] == mark and said[1] in ("to", "-") else None


def _only_verbs(words: list[Word], start: int, end: int) -> bool:
    """Whether nothing but signs and "work", "crochet" stand between."""
    return all(not w.text[:1].isalnum() or w.text in _AGAIN for w in words[start:end])


_ALONG = ("across", "around", "along", "round", "to", "until", "till")


def _told_how_often(words: list[Word], at: int) -> bool:
    """Whether the words there say how often what stands before them is worked, without sending to a mark."""
    while at < len(words) and (words[at].text in (",", ";", ".") or words[at].text in _REPEAT):
        at += 1
    along = at < len(words) and words[at].text in ("around", "round", "across", "along", "to", "till", "until", "all")
    return along or _often_at(words, at) or any(w.text in ("times", "twice") for w in words[at : at + 2])


def _keeps_on(words: list[Word], at: int) -> bool:
    """Whether words behind a sign say to go on so: "; keep going like this until ..."."""
    said = " ".join(w.text for w in words[at : at + 3])
    begun = re.match(r"(?:keep going|keep on|keep doing|carry on|go on|continue|continuing|cont|and so on)\b", said)
    return bool(begun) and words[at - 1].text in (",", ";", ".", "and", "...", "-")


def _bare_rep(words: list[Word], at: int) -> tuple[int, int, bool, bool] | None:
    """ "*ch 4, sc in next loop; rep right across": the one repeat said without its mark is the one that a mark opens."""
    keeps = [i for i in range(at + 1, len(words)) if _keeps_on(words, i)]
    if words[at].text == "*" and len(keeps) == 1 and not any(w.text in ("*", *_REPEAT) for w in words[at + 1 :]):
        after = keeps[0]
        while after < len(words) and words[after].text in (*_GOES_ON, "going", "on", "like", "this", "in", "manner", "way", "doing", "and", "so"):
            after += 1
        return keeps[0], after, False, True
    said = [i for i in range(at + 1, len(words)) if words[i].text in _REPEAT and words[i - 1].text not in ("last", "final", "each", "of")]
    if words[at].text != "*" or len(said) != 1 or any(w.text == "*" for w in words[at + 1 :]):
        return None
    rep = said[0]
    following = rep + 2 if rep + 1 < len(words) and words[rep + 1].text in ("right", "all", "this", ".") else rep + 1
    along = (following < len(words) and words[following].text in _ALONG) or _so_often(words, following)
    alone = rep + 1 >= len(words) or words[rep + 1].text in (".", ",", ";")  # "..., repeat." and nothing more
    along = along or alone
    after_sign = words[rep - 1].text in (",", ";", ".", ":", "and") and words[rep - 2].inside is None
    behind = following if words[following - 1].text == "." else rep + 1
    return (rep, behind, False, True) if along and after_sign else None


def _so_often(words: list[Word], at: int) -> bool:
    """Whether "5 more times", "five times more", "twice more" stands there, or "5", "5 more" and nothing else."""
    said = [w.text for w in words[at : at + 3]]
    if not said or (not said[0].isdigit() and lexicon.number(said[0]) is None and said[0] not in ("once", "twice")):
        return False
    behind = said[2:] if said[1:2] == ["more"] else said[1:2]
    bare = not behind or behind[0] in (".", ";", ",")
    return said[0] in ("once", "twice") or "times" in said[1:] or "time" in said[1:] or bare


def _rep_follows(words: list[Word], at: int, mark: str) -> bool:
    """Whether "rep from *" or "* to *" follows, with nothing but signs between."""
    further = next((i for i in range(at, len(words)) if words[i].text == mark), at)
    if _only_verbs(words, at, further) and _to_mark(words, further, mark):
        return True
    while at < len(words) and words[at].text in (",", ";", ".", ":", "-", "and", "then"):
        at += 1
    return at < len(words) and words[at].text in _REPEAT and _rep_from(words, at, mark, True) is not None


def _only_signs(words: list[Word], start: int, end: int) -> bool:
    return all(w.text in (",", ";", ".", ":", "-", "and", "then") for w in words[start:end])


_BETWEEN_WORDS = (
    "after",
    "last",
    "first",
    "second",
    "from",
    "fr",
    "frm",
    "f",
    "between",
    "bet",
    "betw",
    "btw",
    "the",
    "instructions",
    "these",
    "stitches",
    "sequence",
    "pattern",
    "inside",
    "what",
    "is",
    "within",
    "back",
)


def _rep_from(words: list[Word], at: int, mark: str, closed: bool) -> int | None:
    """The word behind "rep from *", "rep * to *", "rep between *s"; None where "rep" at `at` is not of this mark. With
    the stretch closed already, a bare "rep" will do."""
    i = at + 1
    if (
        i < len(words)
        and words[i].inside is not None
        and words[i].text == "()"
        and len(words[i].inside.words) == 1
        and words[i].inside.words[0].text in _REPEAT
    ):
        i += 1
    first = i
    while i < len(words) and words[i].text in _BETWEEN_WORDS:
        i += 1
    said = [mark, "**", "*"] if mark in ("*", "**") and closed else [mark]
    if i < len(words) and words[i].text in said:
        i += 1
        if i < len(words) and words[i].text == "s":
            i += 1
        both = [*said, "*", "**"]
        while i < len(words) and (
            words[i].text in said
            or (words[i].text in ("to", "and", "-") and i + 1 < len(words) and words[i + 1].text in both)
        ):
            i += 2 if words[i].text in ("to", "and", "-") else 1
        return i
    if i < len(words) and words[i].text in ("star", "asterisk", "stars", "asterisks"):
        return i + 1
    if closed and (i == first or i >= len(words)) and not _names_row(words, i):
        return first + 1 if first + 1 < len(words) and _points_back(words, first) else first
    return None


def _points_back(words: list[Word], at: int) -> bool:
    """ "*...* repeat this around": a word that stands for what the marks hold, before how far or how often it goes."""
    after = words[at + 1].text
    return words[at].text in _POINTING and (after.isdigit() or after in _AFTER_POINTING or lexicon.number(after) is not None)


_POINTING = ("this", "it", "these", "that")
_AFTER_POINTING = ("around", "round", "across", "along", "to", "till", "until", "for", "all", "once", "twice")


def _names_row(words: list[Word], at: int) -> bool:
    return at < len(words) and (
        words[at].text.startswith(("row", "rnd", "round", "rd"))
        or words[at].inside is not None
        or (words[at].text[:1].isdigit() and at + 1 < len(words) and words[at + 1].text in ("row", "rnd", "round"))
    )


def _own_rep(body: list[Word], at: int, mark: str) -> bool:
    """Whether a mark inside a stretch opens one of its own, or is the one that such a repeat is sent back to."""
    sent = [i + 2 for i in range(len(body) - 2) if body[i].text in _REPEAT and body[i + 1].text == "from" and body[i + 2].text == mark]
    return bool(sent) and at <= sent[-1]


def _unmatched(word: Word, before: Word | None) -> Complaint:
    if before is not None and before.text in ("from", *_REPEAT):
        start = before.start
        says = f'"rep from {word.text}" but no {word.text} stands before it in this row'
        return Complaint(start, start + 3, says, f"put {word.text} where the repeat begins")
    if word.text == "**":
        return Complaint(word.start, word.end, '"**" stands outside a repeat', "put it between * and rep from *")
    says = f'the "{word.text}" opens a repeat that never says "rep from {word.text}"'
    return Complaint(word.start, word.end, says, f'write "rep from {word.text}" where the repeat ends', lone_mark=True)
