"""Reading places: "in each of next 3 sts", "in top of beg ch-3", "in 4th dc of next shell"."""

from __future__ import annotations

from dataclasses import replace

from .cursor import Cursor, Unread
from .nouns import GROUP_WORDS, read_noun
from .reach import amount_of, read_reach
from .rowrefs import read_row
from .skipped import numbered_ahead, read_bare, read_corresponding, read_skipped, refuse_behind, skipped_ahead
from .tree import Noun, Place

_PLACE_WORDS = (
    "mr", "joining", "next", "first", "last", "each", "same", "any", "top", "ring", "center", "beg", "skipped", "sp",
    "st", "ch", "lp", "every", "base", "tch", "magic", "rem", "prev", "front", "back", "loopblo", "loopflo", "picot",
    "all", "between", "before", "after", "missed", "corresponding", "unworked", "turning", "end", "both",
)  # fmt: skip


def starts_place(c: Cursor) -> bool:
    """Whether a place can begin here."""
    token = c.now()
    if token.kind in ("ord", "sp", "chref", "grp") or numbered_ahead(c):
        return True
    return token.kind == "stitch" or token.value in _PLACE_WORDS or token.value in GROUP_WORDS


def read_places(c: Cursor) -> tuple[Place, ...]:
    """One place, or several joined by "and in": "in 2nd ch from hook and in each ch across"."""
    places = [read_place(c)]
    while c.word() == "and" and c.word(1) in ("in", "around", "on", "each", "next") and c.word(1) != "":
        keep = c.place
        c.step()
        said = c.take_any("in", "around", "on")
        if not (starts_place(c) or c.word() == "each") or (not said and c.word() not in ("each", "next")):
            c.place = keep
            break
        try:
            places.append(read_place(c))
        except Unread:
            c.place = keep
            break
    return tuple(places)


def read_place(c: Cursor) -> Place:
    """One place with what follows it: of which row, until where, which loop."""
    hold = _hold(c)
    place = _place(c)
    hold = hold or _hold(c)
    place = _just_made(c, place)
    refuse_behind(c)
    place = replace(place, row=place.row or read_row(c), hold=place.hold or hold)
    place = _also(c, place)
    _tail_notes(c)
    return read_reach(c, place)


def _just_made(c: Cursor, place: Place) -> Place:
    """ "last sc made", "dc just worked": the stitch the hook has just left."""
    keep = c.place
    c.take_any("just")
    if c.word(1) in ("in", "on") and (c.word(2) in ("row", "rnd") or c.word(3) in ("row", "rnd")):
        c.place = keep
        return place
    if not c.take_any("made", "worked", "completed"):
        c.place = keep
        return place
    return Place("made") if place.which in ("last", "next") and place.count == 1 and not place.nth else place


def _hold(c: Cursor) -> str:
    """ "back loop only of", "in front loops of", "BLO of"."""
    keep = c.place
    c.skip_any("the", "free", "rem")
    found = ""
    if word := c.take_any("loopblo", "loopflo"):
        found = "back loop" if word == "loopblo" else "front loop"
    elif c.word() in ("back", "front") and c.word(1) == "lp":
        found = c.step().value + " loop"
        c.step()
    if not found and c.word() in ("both", "two") and c.word(1) == "lp":
        c.skip_any("both", "two", "lp", "only", "of", "in")
        return ""
    if found:
        c.skip_any("lp", "only", "of", "in")
    else:
        c.place = keep
    return found


def _place(c: Cursor) -> Place:
    c.skip_any("the", "a", "an")
    token, word = c.now(), c.word()
    if word in ("each", "every", "all"):
        return _each(c)
    if word in ("next", "rem", "prev"):
        return _counted(c, "next")
    if word in ("first", "last"):
        return _part_of(c, _counted(c, word))
    if word in ("same", "base") or _at_base(c):
        return _same(c)
    if token.kind == "ord" or word == "center":
        return _nth(c)
    if word == "top":
        c.step()
        c.skip_any("of", "the")
        return Place("top", of=_beginning(c) or _place(c))
    if word == "any":
        c.step()
        return Place("any", read_noun(c))
    if word in ("ring", "magic", "mr", "mc") or token.word in ("adjustable", "sliding"):
        c.until(",", ";", ".", "(", ")", "[", "]", "and", "*", "**", ":")
        return Place("ring", Noun("ring"))
    if word in ("joining", "join"):
        c.step()
        c.place += c.now().value == "sl st" or c.word() == "st"
        return Place("same")
    if found := read_bare(c):
        return found
    if word == "unworked":
        return _counted(c, "next", step=0)
    if token.kind == "n" and (found := _numbered(c)):
        return found
    if word in ("between", "before", "after"):
        return _gap(c)
    if word == "end":
        says = "stitches along row ends are not counted from the words alone"
        raise Unread(c.now(), says, 'say how many, as "sc in next 12 sts"')
    return _beginning(c) or _bare(c)


def _each(c: Cursor) -> Place:
    c.step()
    c.skip_any("of", "the")
    rest = c.take_any("rem", "other", "of", "the")
    c.skip_any("the")
    if c.word() in ("next", "first", "last"):
        return _counted(c, c.word())
    if skipped_ahead(c):
        return read_skipped(c, "each")
    number = c.now()
    if number.kind == "n" and rest != "rem":
        c.step()
        if skipped_ahead(c):
            return read_skipped(c, "next", amount_of(c, number))
        return Place("next", read_noun(c), count=amount_of(c, number))
    noun = read_noun(c)
    if noun.name in ("sp", "st", "lp") and c.word() == "between":
        c.until(",", ";", ".", "(", ")", "[", "]", "*", "**", "across", "around", "to")
        return Place("each", Noun("gap"))
    if c.word() == "of" and (c.word(1) in ("each", "next", "every") or c.now(1).kind in ("grp",)):
        c.step()
        return Place("nth", noun, nth=0 if noun.name == "st" else 1, of=_place(c))
    return Place("each", noun)


def _numbered(c: Cursor) -> Place | None:
    """ "2 skipped sc", "2 FPdc 2 rows below": a bare number where the place lies in another row or was skipped."""
    keep, number = c.place, c.step()
    if skipped_ahead(c):
        return read_skipped(c, "next", amount_of(c, number))
    noun = read_noun(c) if c.now().kind == "stitch" or c.word() == "st" else None
    row = read_row(c) if noun else None
    if noun is None or row is None:
        c.place = keep
        return None
    return Place("next", noun, amount_of(c, number), row=row)


def _counted(c: Cursor, which: str, step: int = 1) -> Place:
    """next / first / last, with a number and a noun."""
    c.place += step
    if c.word() == "of" and c.now(1).word in ("these", "those") and (c.word(2) == "ch" or c.word(3) == "ch"):
        c.until(",", ";", ".", "(", ")", "[", "]", "*", "**")
        return Place(which, Noun("ch"))
    c.skip_any("the", "rem")
    count = 1
    if c.word() == "unworked" and not skipped_ahead(c):
        c.step()
    if c.now().kind == "n":
        count = amount_of(c, c.step())
    if c.word() == "corresponding":
        return read_corresponding(c, count)
    if skipped_ahead(c):
        return read_skipped(c, which, count)
    return Place(which, read_noun(c), count=count)


def _part_of(c: Cursor, place: Place) -> Place:
    """ "first 2 tr of next block", "first ch of ch-3": an end of a group rather than of the row."""
    token = c.now(1)
    if c.word() != "of" or token.value in ("row", "rnd") or c.word(1) == "prev":
        return place
    if not (
        token.kind in ("chref", "grp", "stitch", "sp")
        or token.value in _PLACE_WORDS
        or token.value in GROUP_WORDS
        or token.value in c.specials
    ):
        return place
    c.step()
    c.skip_any("the")
    return Place("nth", place.noun, place.count, 1 if place.which == "first" else -1, _beginning(c) or _place(c))


def _same(c: Cursor) -> Place:
    base = c.step().word in ("base", "bottom")
    if base:
        c.until(",", ";", ".", "and", "(", ")", "[", "]", "*", "**")
        return Place("same")
    c.skip_any("place", "of")
    noun = Noun("st")
    named = ("st", "ch", "sp", "lp", "picot", "corner", "mesh", "ring")
    if c.now().kind in ("stitch", "sp", "chref", "grp") or c.word() in named:
        noun = read_noun(c)
    if c.take_any("as", "with", "at", "where"):
        c.until(",", ";", ".", "and", "(", ")", "[", "]", "*", "**")
    return Place("same", noun)


def _at_base(c: Cursor) -> bool:
    """ "st at base of ch", "first st at base of tch", "base of ch", "where join was made"."""
    if c.word() == "st" and c.now(1).word == "at" and c.now(2).word in ("base", "bottom"):
        c.place += 2
        return True
    return False


def _nth(c: Cursor) -> Place:
    token = c.step()
    nth = token.size if token.kind == "ord" else 0
    count = _further_ordinals(c, nth)
    if skipped_ahead(c):
        return read_skipped(c, "nth", nth=nth)
    noun = read_noun(c) if c.word() not in ("from", "of") else Noun("ch")
    if c.take("from", "hook") or c.take("from", "the", "hook"):
        return Place("hook", Noun("ch"), nth=nth, count=count)
    if c.word() in ("of", "on", "in"):
        keep = c.place
        c.step()
        c.skip_any("the")
        if _missed_chains(c):
            return Place("top", of=Place("beg"))
        if c.word() not in ("row", "rnd", "prev") or c.word() == "":
            return Place("nth", noun, nth=nth, of=_beginning(c) or _place(c))
        c.place = keep
    return Place("next", noun, nth=nth)


def _further_ordinals(c: Cursor, nth: int) -> int:
    """ "2nd and 3rd", "2nd, 3rd and 4th": how many places in a row are named, from the one just read."""
    count = 1
    while True:
        ahead = 1 if c.word() in ("and", ",") else 0
        ahead += 1 if c.word(ahead) == "and" else 0
        if not ahead or c.now(ahead).kind != "ord" or c.now(ahead).size != nth + count:
            return count
        c.place += ahead + 1
        count += 1


def _missed_chains(c: Cursor) -> bool:
    """ "of 5 missed ch", "of beg sk ch", "of skipped chs": the chains passed over at the foundation's beginning."""
    ahead = 0
    while c.now(ahead).kind == "n" or c.word(ahead) in ("beg", "first", "the"):
        ahead += 1
    if c.now(ahead).word not in ("missed", "skipped", "sk") or not any(c.word(ahead + i) == "ch" for i in (1, 2)):
        return False
    c.place += ahead
    c.until(",", ";", ".", "(", ")", "[", "]", "*", "**")
    return True


def _beginning(c: Cursor) -> Place | None:
    """The row's beginning chain: "beg ch-3", "turning ch", "tch", "beg CL", "5 ch" in UK words, "ch-3" alone."""
    keep = c.place
    if c.take_any("tch"):
        return Place("beg")
    said = bool(c.take_any("beg", "turning", "starting", "initial"))
    token = c.now()
    if token.kind == "chref":
        c.step()
        return Place("beg", Noun("ch", token.size))
    if token.kind == "n" and c.word(1) == "ch":
        c.place += 2
        return Place("beg", Noun("ch", token.size))
    if said and c.word() == "ch":
        c.step()
        return Place("beg", Noun("ch", c.step().size if c.now().kind == "n" else 0))
    if said and (token.kind == "stitch" or token.value in c.specials or token.value == "cluster"):
        c.step()
        return Place("beg", Noun(token.value))
    c.place = keep
    return None


def _gap(c: Cursor) -> Place:
    which = c.step().value
    first = read_place(c)
    if which == "between" and c.take_any("and"):
        read_place(c)
        return Place("after", Noun("gap"), of=first)
    if which == "between":
        return Place("between", Noun("gap"), of=first)
    return Place(which, Noun("gap"), of=first)


def _bare(c: Cursor) -> Place:
    """A noun with no "next": "in ch-2 sp", "in sp between ...", "in sc"."""
    token = c.now()
    noun = read_noun(c)
    if noun.name in ("sp", "st") and c.word() in ("between", "before", "after"):
        return _gap(c)
    if token.kind in ("sp", "stitch") or noun.name != "st":
        leads = ("next", "first", "last", "same", "each", "beg")
        if c.word() == "of" and (c.word(1) in leads or c.now(1).kind == "ord"):
            c.step()
            return Place("nth", noun, nth=1, of=_beginning(c) or _place(c))
        return Place("next", noun)
    return Place("next", noun)


def _also(c: Cursor, place: Place) -> Place:
    """ "each st and ch-1 sp", "each dc and each ch"."""
    if place.which != "each":
        return place
    also: list[Noun] = []
    while c.word() == "and":
        keep = c.place
        c.step()
        c.take_any("in")
        c.take_any("each")
        noun = (
            read_noun(c)
            if c.now().kind in ("stitch", "sp") or c.word() in ("st", "ch", "sp", "lp", "picot", "cluster", "bobble")
            else None
        )
        if noun is None or c.word() in ("from",):
            c.place = keep
            break
        also.append(noun)
    return replace(place, also=tuple(also))


def _tail_notes(c: Cursor) -> None:
    """Where a stitch stands, which the count does not need: "behind FPdc", "in front of ch-4"."""
    if c.word() == "behind" or (c.word() == "in" and c.word(1) == "front" and c.word(2) == "of"):
        c.until(",", ";", ".", "(", ")", "[", "]", "*", "**")
