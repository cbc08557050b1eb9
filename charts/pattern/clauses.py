"""Reading what a row tells the hands to do, clause by clause, into the tree.

A clause that cannot be read is a problem at its words; reading goes on after the next comma, so that all problems
of a row are found at once.
"""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise
from dataclasses import replace

from . import lexicon
from .cursor import Cursor, Source, Unread
from .lex import Token
from .places import read_noun, read_place, read_places, read_reach, starts_place
from .tree import (
    Act,
    Again,
    Chain,
    Corner,
    Either,
    Into,
    Make,
    Noun,
    Op,
    Place,
    Skip,
    Span,
    Special,
    Star,
    Times,
)

MOST_DEPTH = 20
MOST_TIMES = 100_000
_JOINERS = (",", ";", ".", "and", "then", ":")
_PASSED = ("place", "move", "mark", "pm", "moving", "placing", "weave", "cut", "pull", "tighten", "remember", "do", "leaving", "end", "finish", "draw", "close", "secure", "sew", "block", "hold", "insert", "count", "note", "you", "this", "always", "adjust", "put", "take", "now", "using", "beg", "marker", "sl", "drop", "carry", "pick", "with", "first", "for", "at")  # fmt: skip


class Clauses:
    """Reads one row's tokens. `specials` are the pattern's own stitches by canonical name."""

    def __init__(self, tokens: list[Token], source: Source, terms: str, specials: dict[str, Special]) -> None:
        self.c = Cursor(tokens, terms, frozenset(specials))
        self.specials, self.source = specials, source
        self.problems: list[Unread] = []
        self.notes: list[str] = []
        self.counts: list[tuple[Token, ...]] = []
        self.defining = False
        self.base = _shaping_base(tokens)

    def span(self, first: Token) -> Span:
        last = self.c.tokens[self.c.place - 1] if 0 < self.c.place <= len(self.c.tokens) else first
        return self.source.span(first.start, max(last.end, first.end))

    def read(self) -> tuple[Op, ...]:
        """The whole row."""
        ops = self.ops(())
        if not self.c.done:
            self._complain(_stray(self.c.step()))
        return tuple(ops)

    def _complain(self, complaint: Unread) -> None:
        """Note what cannot be read and go on behind it; a bracket or star out of place makes the rest guesswork."""
        self.problems.append(complaint)
        if complaint.token.kind in ("(", ")", "[", "]", "*", "**"):
            self.c.place = len(self.c.tokens)
        else:
            self.c.until(",", ";", ".", "*", "**")

    # -- sequences ------------------------------------------------------------------------------------------------

    def ops(self, stops: tuple[str, ...]) -> tuple[Op, ...]:
        """Clauses up to (not over) one of `stops` or a closing bracket."""
        out: list[Op] = []
        while not self.c.done:
            word = self.c.word()
            if word in stops or word in (")", "]"):
                break
            if word == "and" and self._goes_on(out):
                continue
            if word in _JOINERS:
                self._joiner(out)
                continue
            before = self.c.place
            try:
                self._one(out, stops)
            except Unread as complaint:
                self._complain(complaint)
            if self.c.place == before:
                self.c.step()
        return tuple(out)

    def _joiner(self, out: list[Op]) -> None:
        """A comma or full stop; behind a colon or full stop a bare count may stand: ": 20 sc.", ". 18 sts."."""
        c = self.c
        sign = c.step().kind
        if sign not in (":", ".") or not out or c.now().kind != "n":
            return
        keep = c.place
        said = c.until(".", ";", "(", "[", "*", "**", ":", "turn")
        rest = c.word() == "." and c.place + 1 >= len(c.tokens) or c.done or c.word() == "turn"
        if _is_bare_count(said) and (rest or sign == ":"):
            self.counts.append(tuple(said))
        else:
            c.place = keep

    def _goes_on(self, out: list[Op]) -> bool:
        """ "dc in 4th ch from hook (beg 3 sk ch count as dc) and in each ch across": more places of the same stitch."""
        c = self.c
        at = len(out) - 1
        while at >= 0 and isinstance(op := out[at], Act) and op.name == "opening":
            at -= 1
        if at < 0 or not isinstance(op := out[at], Make) or not op.places or c.word(1) not in ("in", "around"):
            return False
        keep = c.place
        c.place += 2
        if not starts_place(c):
            c.place = keep
            return False
        out[at] = replace(op, places=op.places + read_places(c))
        return True

    def _one(self, out: list[Op], stops: tuple[str, ...]) -> None:
        word = self.c.word()
        if word == "*":
            out.append(self._star())
        elif word == "**" and "**" not in stops:
            raise Unread(self.c.step(), '"**" stands outside a repeat', "put it between * and rep from *")
        else:
            op = self.clause()
            if op is not None:
                _add(out, op)

    # -- one clause -----------------------------------------------------------------------------------------------

    def clause(self) -> Op | None:
        """One clause, with "or" between readings of it."""
        op = self._clause()
        choices = [op] if op else []
        while op and self.c.word() == "or":
            self.c.step()
            other = self._clause()
            if other:
                choices.append(other)
        if len(choices) > 1:
            return Either(tuple(choices), at=choices[0].at)
        return op

    def _clause(self) -> Op | None:
        c, token, word = self.c, self.c.now(), self.c.word()
        if word in ("(", "["):
            return self._bracket()
        reader = _BY_WORD.get(word)
        if reader:
            return reader(self)
        if token.kind == "stitch":
            return self._make(1)
        if token.kind == "n":
            return self._numbered()
        if token.kind in ("-", "=") and c.now(1).kind == "n":
            return self._dashed_count()
        if token.kind in ("chref", "sp", "grp", "ord") or word in (")", "]"):
            raise _stray(c.step())
        if token.value in self.specials or token.value in _STANDARD:
            return self._make(1)
        if word == "beg" and self._is_special_ahead(1):
            c.step()
            return self._make(1)
        if token.word == "ending" and c.word(1) in ("with", "in"):
            c.place += 2
            return self._clause()
        return self._prose()

    def _dashed_count(self) -> None:
        """A count after a dash at the row's end: " - 12 dc, 4 ch-2 sps." """
        c = self.c
        c.step()
        said = []
        while not c.done and c.word() not in (".", ";", "(", "[", "*", "turn"):
            said.append(c.step())
        self.counts.append(tuple(said))

    def _is_special_ahead(self, ahead: int) -> bool:
        token = self.c.now(ahead)
        return token.value in self.specials or token.value in _STANDARD or token.kind == "stitch"

    def _numbered(self) -> Op | None:
        """ "2 dc in next st", "3 OM", "6 ch", "1 dc into each of next 30 ch"."""
        c = self.c
        token = c.now()
        following = c.now(1)
        if c.word(1) == "ch" and c.word(2) not in ("sp", "lp"):
            c.place += 2
            return self._chain(token, token.size)
        if following.kind == "stitch" or following.value in self.specials or following.value in _STANDARD:
            c.step()
            return self._make(self._amount(token))
        if c.word(1) == "more":
            c.place += 2
            return self._numbered_more(token)
        return self._prose()

    def _numbered_more(self, token: Token) -> Op | None:
        if self.c.now().kind == "stitch":
            return self._make(self._amount(token))
        return self._prose()

    def _amount(self, token: Token) -> int:
        if not 0 <= token.size <= MOST_TIMES:
            raise Unread(token, "that is more than this tool works (100,000)", "use a smaller number", "limit")
        return token.size

    def _make(self, count: int) -> Op:
        """A stitch (or special stitch) and where it goes."""
        c = self.c
        token = c.step()
        name = _STANDARD.get(token.value, token.value)
        special = self.specials.get(name)
        if name in ("inc", "dec"):
            return self._shaped(name, count, token)
        if c.word() == "x" and c.now(1).kind == "n":
            c.step()
            return Times((self._one_make(name, special, count, token),), self._amount(c.step()), at=self.span(token))
        return self._one_make(name, special, count, token)

    def _one_make(self, name: str, special: Special | None, count: int, token: Token) -> Op:
        c = self.c
        after = 0
        if c.now().kind == "n" and c.word(1) in ("", ",", ".", ";", ")", "]") and c.now(1).kind in (",", ".", ";", ")", "]", "end"):
            after = self._amount(c.step())
        places = self._places()
        if after and not places:
            places = (Place("next", Noun("st"), count=after),)
        if special and special.ops:
            return self._special(special, count, places, token)
        if places and places[0].which == "next" and places[0].count > 1 and (legs := lexicon.together(name)) > 1 and places[0].count == legs:
            places = (replace(places[0], count=legs), *places[1:])
        return Make(name, count, places, at=self.span(token))

    def _shaped(self, name: str, count: int, token: Token) -> Op:
        """inc: 2 in the next; dec: the next 2 together (single crochet where the text does not say)."""
        c = self.c
        places = self._places()
        if not places and (c.now().kind == "n" or (c.word() == "x" and c.now(1).kind == "n")):
            c.take_any("x")
            count = self._amount(c.step())
            c.take_any("times")
        if name == "inc":
            return Make(self.base, 2, places or (Place("next", count=count),), at=self.span(token))
        one = Make(f"{self.base}2tog", 1, places, at=self.span(token))
        return one if count == 1 else Times((one,), count, at=one.at)

    def _special(self, special: Special, count: int, places: tuple[Place, ...], token: Token) -> Op:
        at = self.span(token)
        if special.in_place:
            body: Op = Into(special.ops, places, name=special.abbreviation, at=at)
            if not places:
                body = Times(special.ops, 1, name=special.abbreviation, at=at)
        else:
            body = Times(special.ops, 1, name=special.abbreviation, at=at)
        return body if count == 1 else Times((body,), count, at=at)

    def _places(self) -> tuple[Place, ...]:
        """What follows a stitch: in / into / around / over a place; nothing where none is said."""
        c = self.c
        word = c.word()
        if word in ("loopblo", "loopflo"):
            hold = "back loop" if c.step().value == "loopblo" else "front loop"
            c.skip_any("only", "lp")
            places = self._places()
            return tuple(replace(p, hold=hold) for p in places) or (Place("next", hold=hold),)
        if word in ("in", "around") and self._ends_ahead():
            return (self._edge(),)
        if word in ("in", "around", "over", "on", "round", "rnd", "to") or (word == "across" and starts_place_at(c, 1)):
            if word in ("around", "across", "rnd") and not starts_place_at(c, 1):
                return self._whole()
            if word == "to" and c.word(1) in ("end", "last", "within"):
                return self._whole()
            c.step()
            c.skip_any("post", "of", "the")
            found = read_places(c)
            self._together_tail()
            return found
        if word == "to" or word == "across":
            return self._whole()
        if word in ("evenly", "along", "down", "up"):
            return (self._edge(),)
        if word in ("each", "next", "first", "last") or c.now().kind == "ord" or (word == "between"):
            return read_places(c)
        return ()

    def _whole(self) -> tuple[Place, ...]:
        """ "sc around", "dc across": each stitch."""
        return (read_reach(self.c, Place("each")),)

    def _ends_ahead(self) -> bool:
        """ "in ends of rows", "in each row-end", "in end of each row"."""
        ahead = [self.c.now(i) for i in range(1, 5)]
        return any(t.word in ("ends", "row-end", "row-ends") for t in ahead[:3]) or (
            any(t.word == "end" for t in ahead[:3]) and any(t.value == "row" for t in ahead)
        )

    def _edge(self) -> Place:
        """Along the ends of the rows: "evenly along side edge", "in each row end"."""
        words = self.c.words(self.c.until(",", ";", ".", "(", ")", "[", "]", "*", "**", ":"))
        if _says(words, "side", "edge", "ends", "row", "rows", "row-end", "row-ends"):
            return Place("edge", Noun("row" if _says(words, "each") else "st"))
        return Place("each")

    def _together_tail(self) -> None:
        """ "over next 3 sts, skipping the middle one" says nothing the feet need."""
        c = self.c
        if c.word() == "sk" or (c.word() == "," and c.word(1) == "sk"):
            keep = c.place
            c.take_any(",")
            words = c.words(c.until(",", ";", ".", ")", "]", "*"))
            if not ("skipping" in words and "middle" in words or "skipping" in words and "center" in words):
                c.place = keep

    # -- chains ---------------------------------------------------------------------------------------------------

    def _ch(self) -> Op:
        """ "ch 3", "chain three", "ch" alone (one)."""
        c = self.c
        token = c.step()
        if c.now().kind == "n":
            return self._chain(token, c.step().size)
        if c.word() in ("st", "sp", "lp"):
            raise _stray(token)
        return self._chain(token, 1)

    def _chain(self, token: Token, count: int) -> Op:
        if not 0 < count <= MOST_TIMES:
            raise Unread(token, "that is more chains than this tool works (100,000)", "use a smaller number", "limit")
        at = self.span(token)
        counts, throughout = self._counts_as(count)
        return Chain(count, counts, throughout, at=at)

    def _counts_as(self, count: int) -> tuple[tuple[str, ...] | None, str]:
        """What a beginning chain counts as, said in a bracket or after a comma."""
        c = self.c
        keep = c.place
        opened = c.take_any("(", "[", ",")
        c.skip_any("first", "this", "here", "beg", "ch", "it")
        if c.word() not in ("counts", "count", "does", "do", "counting", "counted", "not"):
            c.place = keep
            return None, ""
        said = c.until(")", "]") if opened in ("(", "[") else c.until(",", ";", ".", "*", "**")
        if opened in ("(", "["):
            c.take_any(")", "]")
        words = c.words(said)
        throughout = "throughout" if "throughout" in words or "always" in words else ""
        if "not" in [t.word for t in said]:
            return (), throughout
        return counted_as(said, count), throughout

    # -- brackets -------------------------------------------------------------------------------------------------

    def _bracket(self) -> Op | None:
        c = self.c
        opening = c.step()
        close = ")" if opening.kind == "(" else "]"
        if self.c.depth >= MOST_DEPTH:
            self._drain(close)
            raise Unread(opening, f"brackets stand more than {MOST_DEPTH} deep", "write the row with fewer brackets", "limit")
        inside = self._inside(close)
        if inside is None:
            raise Unread(opening, f'the "{opening.word}" is never closed', f'put a "{close}" where the group ends')
        counted = self._opening_counts(inside, opening)
        if counted is not None:
            return counted
        after = self._after_bracket(inside)
        if after == "count":
            c.place = inside[1]
            self.counts.append(tuple(c.tokens[inside[0] : inside[1] - 1]))
            return None
        if after == "note":
            c.place = inside[1]
            self.notes.append(c.words(c.tokens[inside[0] : inside[1] - 1]))
            return None
        c.depth += 1
        ops = self.ops(())
        c.depth -= 1
        if c.word() != close:
            raise Unread(opening, f'the "{opening.word}" is closed by "{c.word() or "nothing"}"', f'close it with "{close}"')
        c.step()
        return self._closed(ops, opening)

    def _opening_counts(self, inside: tuple[int, int], opening: Token) -> Op | None:
        """ "(beg 3 sk ch count as dc)" after a stitch in the nth chain from the hook."""
        body = list(self.c.tokens[inside[0] : inside[1] - 1])
        at = next((i for i, t in enumerate(body) if t.word in ("count", "counts", "counting")), -1)
        if at < 0 or not any(t.value == "ch" or t.kind == "chref" for t in body[:at]) and at > 0:
            return None
        self.c.place = inside[1]
        parts = () if any(t.word == "not" for t in body) else counted_as(body[at:], 0)
        return Act("opening", ", ".join(parts or ()), at=self.span(opening))

    def _drain(self, close: str) -> None:
        self.c.place = len(self.c.tokens)

    def _inside(self, close: str) -> tuple[int, int] | None:
        """Where the bracket's inside begins and where its closing sign ends, as token places."""
        c, depth, at = self.c, 0, self.c.place
        while at < len(c.tokens):
            kind = c.tokens[at].kind
            if kind in ("(", "["):
                depth += 1
            elif kind in (")", "]"):
                if depth == 0:
                    return (c.place, at + 1)
                depth -= 1
            at += 1
        return None

    def _after_bracket(self, inside: tuple[int, int]) -> str:
        """Whether a bracket is a note: nothing to do stands in it, or it ends in "made"."""
        c = self.c
        body = c.tokens[inside[0] : inside[1] - 1]
        if not body:
            return "note"
        if body[-1].word in ("made", "completed", "formed", "counts", "complete") or body[0].value in ("counts", "count", "does", "see", "to", "note", "multiple"):
            return "note"
        acts = any(t.kind == "stitch" or t.value in ("ch", "sk", "inc", "dec") or t.value in self.specials or t.value in _STANDARD for t in body)
        following = c.tokens[inside[1]] if inside[1] < len(c.tokens) else None
        placed = following is not None and (following.value in ("in", "into", "around", "each", "rep", "twice", "across", "x", "over", "next", "to", "between") or following.kind in ("n", "ord"))
        if not placed and not self.defining and _is_count(body):
            return "count"
        if not acts:
            return "note"
        if not placed and any(t.value in ("counts", "goes", "center", "worked") for t in body):
            return "note"
        return "ops"

    def _closed(self, ops: tuple[Op, ...], opening: Token) -> Op | None:
        """What is done with a group: k times, around, or into a place."""
        c = self.c
        if not ops:
            return None
        times = self._times()
        if times is not None:
            return Times(ops, times, at=self.span(opening))
        if c.word() in ("in", "over", "each", "next", "between") or (c.word() == "around" and starts_place_at(c, 1)):
            c.take_any("in", "over", "around")
            return Into(ops, read_places(c), at=self.span(opening))
        if c.take_any("around", "across") or c.take("to", "end"):
            return Times(ops, 0, at=self.span(opening))
        if c.word() in ("rep", "repeat") and c.now(1).kind != "word":
            c.step()
            return Times(ops, self._times() or 1, at=self.span(opening))
        return Times(ops, 1, at=self.span(opening)) if len(ops) > 1 else ops[0]

    def _times(self) -> int | None:
        """ "3 times", "twice", "x 6", "6 times more" after a bracket."""
        c = self.c
        if c.word() == "x" and c.now(1).kind == "n":
            c.step()
            return self._amount(c.step())
        token = c.now()
        if token.kind != "n":
            return None
        if token.word in ("twice", "once", "thrice"):
            c.step()
            return token.size
        if c.word(1) in ("times", "time", "x"):
            c.place += 2
            self._amount(token)
            return token.size + (1 if c.take_any("more") else 0)
        if c.word(1) == "more" and c.word(2) in ("times", "time"):
            c.place += 3
            return self._amount(token) + 1
        return None

    # -- the star -------------------------------------------------------------------------------------------------

    def _star(self) -> Op:
        c = self.c
        token = c.step()
        if c.depth >= MOST_DEPTH:
            raise Unread(token, f"repeats stand more than {MOST_DEPTH} deep", "write the row with fewer repeats", "limit")
        c.depth += 1
        ops = list(self.ops(("rep", "**", "*")))
        cut = None
        if c.take_any("**"):
            cut = len(ops)
            ops += self.ops(("rep", "**", "*"))
        c.depth -= 1
        if c.word() == "*" and c.now(1).kind in (";", ",", "."):
            c.step()
            ops += self.ops(("rep",))
        if not c.take_any("rep"):
            raise Unread(token, 'the "*" opens a repeat that never says "rep from *"', 'write "rep from *" where the repeat ends')
        return self._rep(token, tuple(ops), cut)

    def _rep(self, token: Token, ops: tuple[Op, ...], cut: int | None) -> Op:
        """What follows "rep": from * across / around / to ... / k more times, ending ..."""
        c = self.c
        c.skip_any("from", "between", "the")
        if not c.take_any("*", "**"):
            raise Unread(c.now() if not c.done else token, '"rep" does not say from where', 'write "rep from *"')
        c.skip_any("to", "*") if c.word() == "to" and c.word(1) in ("*", "**") else None
        c.take_any("*", "**")
        more, until, word = self._extent()
        star = Star(ops, more, until, cut, word=word, at=self.span(token))
        return self._ending(star)

    def _extent(self) -> tuple[int | None, tuple[int, Noun] | None, str]:
        c = self.c
        more: int | None = None
        until: tuple[int, Noun] | None = None
        word = "across"
        while True:
            token = c.now()
            if token.kind == "n" and until is None and more is None and (c.word(1) in ("more", "times", "time") or token.word in ("once", "twice", "thrice")):
                more = self._amount(c.step())
                c.skip_any("more", "times", "time")
            elif c.word() in ("across", "around", "evenly"):
                word = "around" if c.step().value == "around" else word
            elif c.word() in ("to", "until") and c.word(1) in ("last", "end", "the", "within", "*", "**", "next"):
                until = self._until() or until
            else:
                return more, until, word

    def _until(self) -> tuple[int, Noun] | None:
        c = self.c
        c.step()
        c.skip_any("the", "within")
        if c.take_any("end", "*", "**", "next"):
            c.until(",", ";", ".", "(", ")", "[", "]", "*", "**", "ending")
            return None
        c.take_any("last")
        count = self._amount(c.step()) if c.now().kind == "n" else 1
        noun = read_noun(c)
        c.skip_any("rem")
        return count, noun

    def _ending(self, star: Star) -> Op:
        """ "ending last rep at **", "ending with sc in last st", "end sc in last st"."""
        c = self.c
        keep = c.place
        c.take_any(",", ";")
        if not c.take_any("ending", "end"):
            c.place = keep
            return star
        replaces = any(c.word(ahead) == "rep" for ahead in range(4))
        c.skip_any("last", "rep", "final", "on", "with")
        if c.take_any("at"):
            c.skip_any("*", "**")
            return replace(star, cut=star.cut if star.cut is not None else len(star.ops))
        c.skip_any("with", "in") if c.word() == "with" else None
        ending: list[Op] = []
        while not c.done and c.word() not in (";", ".", ")", "]"):
            if c.word() in (",", "and"):
                if c.word(1) in ("turn", "join", "fasten") or c.now(1).value in ("turn", "join"):
                    break
                c.step()
                continue
            op = self.clause()
            if op is None:
                break
            _add(ending, op)
        return replace(star, ending=tuple(ending), replaces=replaces)

    # -- words that lead a clause ---------------------------------------------------------------------------------

    def _skip(self) -> Op:
        c = self.c
        token = c.step()
        places = [self._skipped_place()]
        while c.word() == "and" and (c.now(1).kind in ("sp", "chref", "n") or c.word(1) in ("next", "ch", "picot", "first", "last", "sp", "lp")):
            c.step()
            places.append(self._skipped_place())
        op: Op = Skip(tuple(places), at=self.span(token))
        if c.word() == "or" and c.word(1) in ("next",):
            c.step()
            other = Skip((self._skipped_place(),), at=op.at)
            lead = tuple(places[:-1])
            either = Either((Skip((places[-1],), at=op.at), other), at=op.at)
            return Times((Skip(lead, at=op.at), either), 1, at=op.at) if lead else either
        return op

    def _skipped_place(self) -> Place:
        c = self.c
        c.skip_any("the")
        token = c.now()
        if token.kind == "chref":
            c.step()
            return Place("next", Noun("sp", token.size))
        if token.kind == "n":
            c.step()
            place = Place("next", read_noun(c), count=self._amount(token))
            c.until(",", ";", ".", ")", "]", "*", "**", "and", "or") if c.word() in ("behind", "between", "on", "of") else None
            return place
        return read_place(c)

    def _turn(self) -> Op:
        return Act("turn", at=self.span(self.c.step()))

    def _do_not(self) -> Op | None:
        c = self.c
        token = c.step()
        c.take_any("not")
        if c.take_any("turn"):
            return Act("do not turn", at=self.span(token))
        if c.take_any("join"):
            c.until(",", ";", ".", ")", "]")
            return Act("do not join", at=self.span(token))
        c.until(",", ";", ".", ")", "]", "*")
        return None

    def _join(self) -> Op:
        """Closing a round, or taking a new yarn up: "join B with sc in any st"."""
        c = self.c
        token = c.step()
        tokens_left = c.place
        yarn = self._yarn_name()
        if c.take_any("with", "by"):
            c.skip_any("a")
            if c.now().kind == "stitch":
                stitch = c.step().value
                place = self._join_place()
                if stitch != "sl st" or yarn:
                    return self._joined(token, yarn, stitch, place)
                return Act("join", "", place, at=self.span(token))
            yarn = yarn or self._yarn_name()
        if c.place == tokens_left or not yarn:
            place = self._join_place()
            return Act("join", "", place, at=self.span(token))
        stitch = "sl st"
        if c.take_any("with"):
            stitch = c.step().value if c.now().kind == "stitch" else stitch
        return self._joined(token, yarn, stitch, self._join_place())

    def _joined(self, token: Token, yarn: str, stitch: str, place: Place | None) -> Op:
        if stitch == "sl st":
            return Act("yarn", yarn, place, at=self.span(token))
        make = Make(stitch, 1, (place,) if place else (), at=self.span(token))
        return Times((Act("yarn", yarn, place, at=make.at), make), 1, at=make.at)

    def _yarn_name(self) -> str:
        """The yarn taken up: "yarn", "new yarn", a letter, or a colour word before "with"."""
        c = self.c
        keep = c.place
        c.skip_any("new", "a", "the", "color", "colour", "next")
        token = c.now()
        if token.kind == "word" and (token.word in ("yarn", "thread", "mc", "cc") or len(token.word) == 1) and token.word not in ("a",):
            c.step()
            return token.word.upper() if len(token.word) <= 2 else "yarn"
        if token.word == "a" and c.word(1) in ("with", "in", ","):
            c.step()
            return "A"
        c.place = keep
        if c.now().word == "a" and c.word(1) in ("with", "in"):
            c.step()
            return "A"
        return ""

    def _join_place(self) -> Place | None:
        c = self.c
        if c.take_any("in", "to", "on", "around"):
            if c.word() in ("form", "a", "rnd", "make"):
                c.until(",", ";", ".", ")", "]")
                return None
            place = read_place(c)
            if c.word() == "to":
                c.until(",", ";", ".", ")", "]", "(")
            return place
        if c.word() == "to":
            c.until(",", ";", ".", ")", "]")
        return None

    def _fasten(self) -> Op:
        c = self.c
        token = c.step()
        c.until(",", ";", ".", "(", ")", "]")
        return Act("fasten off", at=self.span(token))

    def _colour(self) -> Op | None:
        """ "with B", "using A", "change to B in last yo"."""
        c = self.c
        token = c.step()
        change = token.value in ("change", "changing", "switch", "switching")
        if token.word == "with" and c.now().word in ("rs", "ws", "right", "wrong"):
            side = "RS" if c.now().word in ("rs", "right") else "WS"
            c.until(",", ";", ".", ")", "]")
            return Act("facing", side, at=self.span(token))
        c.skip_any("to", "color", "colour", "yarn")
        name = c.step().word if not c.done and c.now().kind == "word" else ""
        c.until(",", ";", ".", "(", ")", "]", "*")
        if not name:
            return None
        return Act("change" if change else "colour", name.upper() if len(name) <= 2 else name, at=self.span(token))

    def _working(self) -> Op | None:
        """ "working in BLO", "working behind petals", "working 3 sc in center sc of each 3-sc corner"."""
        c = self.c
        token = c.step()
        if c.take_any("even"):
            return Make("sc", 1, (Place("each"),), at=self.span(token))
        word = c.word()
        if word in ("last", "first") and c.now(1).kind in ("stitch", "word") and token.word == "working":
            c.step()
            c.step()
            c.take_any("in")
            return Act("last", "", read_place(c), at=self.span(token))
        if c.now().kind == "n" or c.now().kind == "stitch" or c.word() in ("(", "ch") or c.now().value in self.specials:
            return self._working_make(token)
        if word in ("in", "loopblo", "loopflo", "along", "on", "into", "across", "behind", "over", "from", "down", "up"):
            return self._working_in(token)
        said = c.words(c.until(",", ";", ".", ")", "]", "*", "**"))
        self.notes.append(said)
        return None

    def _working_make(self, token: Token) -> Op | None:
        c = self.c
        if c.now().kind == "n" and c.word(1) in ("row", "rnd"):
            return self._stripes(token)
        op = self.clause()
        if c.take("in", "place", "of") or c.take_any("instead"):
            c.skip_any("of")
            other = self.clause()
            return Again(0, 0, swap=((other, op),), at=self.span(token)) if other and op else None
        if isinstance(op, Make) and op.places and token.word == "working":
            places = tuple(_each_corner(p) for p in op.places)
            return Corner(replace(op, places=places), at=self.span(token))
        return op

    def _stripes(self, token: Token) -> Op | None:
        """ "working 2 rows B, 2 rows A"."""
        c = self.c
        said = c.until(";", ".", "(", ")", "]")
        colours: list[str] = []
        for number, word, colour in zip(said, said[1:], said[2:], strict=False):
            colour = said[said.index(colour) + 1] if colour.value in ("in", "of", "with") and said[-1] is not colour else colour
            if number.kind == "n" and word.value in ("row", "rnd") and colour.kind == "word":
                colours += [colour.word.upper() if len(colour.word) <= 2 else colour.word] * min(max(number.size, 1), 100)
        return Act("stripes", ",".join(colours), at=self.span(token)) if colours else None

    def _working_in(self, token: Token) -> Op | None:
        c = self.c
        keep = c.place
        words = c.words(c.until(",", ";", ".", ")", "]", "*", "**"))
        stop = c.place
        if _is_opposite(words):
            return Act("opposite", at=self.span(token))
        if _says(words, "row ends", "row-ends", "ends of rows", "end of rows", "side edge", "edge"):
            return Act("edge", at=self.span(token))
        hold = "back loop" if _says(words, "blo", "back loop", "back loops", "bl") else "front loop" if _says(words, "flo", "front loop", "front loops", "fl") else ""
        row = _row_named(c, keep, stop)
        if "in front" in words and not hold and not row:
            return None
        if row and words.startswith(("behind", "in front", "over")) and "loop" not in words and not _says(words, "in sts", "into"):
            return Act("behind", at=self.span(token))
        if row:
            return Act("row", hold, Place("next", row=row), at=self.span(token))
        if hold:
            return Act("loops", hold, at=self.span(token))
        if words.startswith(("in sts", "in the sts")):
            return None
        if words.startswith("in "):
            c.place = keep + 1
            return self._in_place(token)
        return None

    def _in_place(self, token: Token | None = None) -> Op:
        """ "in next ch-11 lp work [3 sc, picot] 3 times and 3 sc": the place first, then what goes there."""
        c = self.c
        first = token or c.step()
        if c.word() in ("loopblo", "loopflo", "back", "front") and c.word(1) != "post":
            keep = c.place
            hold = "back loop" if c.word() in ("loopblo", "back") else "front loop"
            c.step()
            c.skip_any("lp", "only")
            if c.word() in (",", ";", ".") or c.done:
                return Act("loops", hold, at=self.span(first))
            c.place = keep
        places = read_places(c)
        c.skip_any(",", ":")
        c.skip_any("work", "make")
        ops = self._run()
        if not ops:
            raise Unread(first, "nothing is said to be worked there", 'write what goes there, as "5 dc in next st"')
        return Into(ops, places, at=self.span(first))

    def _run(self) -> tuple[Op, ...]:
        """Clauses to the end of the phrase (; or .), over commas and "and"."""
        c = self.c
        out: list[Op] = []
        while not c.done and c.word() not in (";", ".", ")", "]", "*", "**", "rep"):
            if c.word() in (",", "and"):
                if c.word(1) in ("rep", "turn", "join", "sk", "in", "*") or c.now(1).kind == "*":
                    break
                c.step()
                continue
            op = self.clause()
            if op is not None:
                _add(out, op)
        return tuple(out)

    def _work(self) -> Op | None:
        """ "work 22 sc in ring", "make 5 dc in next sp"."""
        c = self.c
        token = c.step()
        if c.word() in ("in", "along", "across", "loopblo", "loopflo", "even", "behind", "over"):
            c.place -= 1
            return self._working()
        if c.now().word in ("as", "rows", "in", "pattern", "pat"):
            return self._prose()
        if c.now().word in ("a", "an", "one", "another"):
            c.step() if c.now().kind != "n" else None
        op = self.clause()
        if op is None and c.place == c.tokens.index(token) + 1 if token in c.tokens else False:
            return self._prose()
        return op

    def _leave(self) -> Op:
        token = self.c.step()
        self.c.until(",", ";", ".", ")", "]")
        return Act("leave", at=self.span(token))

    def _rep_rows(self) -> Op | None:
        """ "Rep Row 2", "Rep Rows 2 and 3 twice"; a bare "rep from *" here has lost its star."""
        c = self.c
        token = c.step()
        if c.word() in ("from", "*", "**", "between"):
            if c.take("from", "beg") or c.take("from", "beginning"):
                return None
            c.until(",", ";", ".")
            raise Unread(token, '"rep from *" but no * stands before it in this row', "put * where the repeat begins")
        if c.word() in ("row", "rnd"):
            return self._again(token)
        if c.now().kind == "n" and c.word(1) in ("row", "rnd"):
            c.step()
            return self._again(token)
        if c.word() in ("prev", "last", "these", "this", "same"):
            return self._again_prev(token)
        return self._prose()

    def _again_prev(self, token: Token) -> Op | None:
        c = self.c
        c.step()
        count = c.step().size if c.now().kind == "n" else 1
        if c.take_any("row", "rnd"):
            c.until(",", ";", ".", "(")
            return Again(-count, -1, at=self.span(token))
        return self._prose()

    def _again(self, token: Token) -> Op:
        c = self.c
        c.step()
        if c.now().kind != "n":
            raise Unread(c.now(), "it does not say which row to repeat", 'name the row, as "Rep Row 2"')
        first = last = self._amount(c.step())
        if c.word() in ("-", "and", "to", "&", ","):
            keep = c.place
            c.step()
            c.take_any("row", "rnd")
            if c.now().kind == "n" and c.word(1) not in ("times", "time", "more"):
                last = self._amount(c.step())
            else:
                c.place = keep
        times = self._again_times()
        return Again(first, last, times, at=self.span(token))

    def _again_times(self) -> int:
        c = self.c
        c.skip_any("another", "a", "further")
        token = c.now()
        if token.kind == "n" and (token.word in ("once", "twice", "thrice") or c.word(1) in ("times", "time", "more")):
            c.step()
            c.skip_any("more", "times", "time")
            return self._amount(token)
        if c.word() in ("until", "for", "to", "ending"):
            c.until(";", ".", "(")
        return 0

    def _as_row(self) -> Op | None:
        """ "As Row 3", "same as Row 3", "work as for Row 2"."""
        c = self.c
        keep = c.place
        token = c.step()
        c.skip_any("as", "for")
        if c.word() in ("row", "rnd") and c.now(1).kind == "n":
            return self._again(token)
        c.place = keep
        return self._prose()

    def _continue(self) -> Op | None:
        """ "Continue as established, working 1 more sc before each increase": a round that grows."""
        c = self.c
        token = c.step()
        said = c.until(".", "(", ";")
        words = c.words(said)
        more = next((t.size for i, t in enumerate(said[:-1]) if t.kind == "n" and said[i + 1].word == "more"), 0)
        if more and ("before each" in words or "between inc" in words or "between each" in words or "between increases" in words):
            return Again(-1, -1, grow=more, at=self.span(token))
        self.notes.append(words)
        return None

    def _prose(self) -> Op | None:
        """Words that are no notation: passed over with a note if they name no stitch, else a problem."""
        c = self.c
        token = c.now()
        c.step()
        rest = c.until(",", ";", ".", "(", "[", "*", "**")
        passed = [token, *rest]
        if _is_opposite(c.words(passed)):
            return Act("opposite", at=self.span(token))
        other = next((t for t in passed if t.kind == "word" and lexicon.foreign(t.word, c.terms)), None)
        if other:
            raise _foreign(other, c.terms)
        if token.kind == "word" and _like_a_stitch(token, rest) and token.word not in _PASSED:
            raise Unread(
                token,
                f'"{_shown(token, rest)}" is neither a stitch this tool knows nor one the pattern explains',
                f'explain it above the rows ("{token.word.upper()}: ..."), or use a usual abbreviation',
            )
        if any(t.kind == "stitch" for t in passed) and token.word not in _PASSED and token.kind != "n":
            raise Unread(token, f'"{c.words(passed)[:60]}" cannot be read as something to work', 'write it as "2 dc in next st"')
        if token.kind == "n" or (token.kind not in ("word",) and token.kind not in _JOINERS):
            raise _stray(token)
        self.notes.append(c.words(passed))
        return None


def starts_place_at(c: Cursor, ahead: int) -> bool:
    c.place += ahead
    found = starts_place(c) or c.word() in ("the", "post")
    c.place -= ahead
    return found


def _shown(token: Token, rest: list[Token]) -> str:
    return token.word


def _like_a_stitch(token: Token, rest: list[Token]) -> bool:
    """Whether an unknown word stands where a stitch would: before "in", "over", "around" or at a clause of its own."""
    if token.kind != "word":
        return False
    ahead = [t.word for t in rest[:2]]
    return any(w in ("in", "into", "over", "around", "across") for w in ahead[:2]) or (not rest and len(token.word) <= 5)


def _shaping_base(tokens: list[Token]) -> str:
    """What inc and dec are made of: the one plain stitch the row is worked in, else single crochet."""
    plain = {t.value for t in tokens if t.kind == "stitch"} & {"sc", "hdc", "dc", "tr"}
    return plain.pop() if len(plain) == 1 else "sc"


def _is_bare_count(said: list[Token]) -> bool:
    """Whether words are nothing but numbers of things: "18 sts", "12 dc and 4 ch-2 sps"."""
    if not said or said[0].kind != "n" or len(said) < 2:
        return False
    known = ("st", "ch", "sp", "lp", "picot", "shell", "group", "V-st", "block", "bobble", "puff", "popcorn", "cluster", "and", "total", "rem", "mesh")
    return all(t.kind in ("n", "stitch", "sp", "chref", ",") or t.value in known for t in said)


def _is_count(body: list[Token] | tuple[Token, ...]) -> bool:
    if not body or body[0].kind != "n" or any(t.kind in ("(", "[") or t.value in ("in", "sk", "next") for t in body):
        return False
    return not any(a.value == "ch" and a.kind == "word" and b.kind == "n" for a, b in pairwise(body))


def _stray(token: Token) -> Unread:
    if token.kind in (")", "]"):
        return Unread(token, f'"{token.word}" closes a bracket that was never opened', f'put "{"(" if token.kind == ")" else "["}" where the group begins')
    return Unread(token, f'"{token.word}" cannot be read here', "say what to work and where, as \"sc in next st\"")


def _foreign(token: Token, terms: str) -> Unread:
    other = lexicon.foreign(token.word, terms) or ("US" if terms == "UK" else "UK")
    us = lexicon.stitch_name(token.word, other) or token.word
    return Unread(token, f'"{token.word}" is a {other} term in a pattern in {terms} terms', f'write "{lexicon.show_stitch(us, terms)}" if that is the stitch meant, or put the whole pattern in {other} terms')


def _add(out: list[Op], op: Op) -> None:
    """Put an op at the end; "ch 3, sl st in first ch of ch-3" becomes one picot."""
    last = out[-1] if out else None
    if isinstance(op, Make) and op.stitch == "sl st" and isinstance(last, Chain) and op.places and _own_chain(op.places[0], last):
        out[-1] = Make("picot", 1, (Place("made", nth=last.count),), at=last.at)
    else:
        out.append(op)


def _own_chain(place: Place, chain: Chain) -> bool:
    """Whether a slip stitch goes back into the chain just made, or the stitch before it: a picot."""
    if place.which == "hook" and place.nth in (chain.count, chain.count - 1) and chain.count <= 12:
        return True
    if place.which == "nth" and place.of is not None and place.of.which == "beg" and place.of.noun.size == chain.count:
        return True
    return place.which in ("last", "top", "same", "made") and place.row is None and chain.count <= 12


def _is_opposite(words: str) -> bool:
    """Whether words turn the work to the other side of the foundation chain."""
    sides = ("opposite", "other side", "underside", "unused loops of", "free loops of foundation", "bottom of foundation")
    return any(side in words for side in sides) and not words.startswith(("fasten", "sew"))


def _each_corner(place: Place) -> Place:
    return place


def _says(words: str, *phrases: str) -> bool:
    padded = f" {words} "
    return any(f" {p} " in padded for p in phrases)


def _row_named(c: Cursor, start: int, stop: int) -> object:
    from .tree import RowRef

    found = None
    for i in range(start, stop - 1):
        if c.tokens[i].value in ("row", "rnd") and c.tokens[i + 1].kind == "n":
            found = RowRef(number=c.tokens[i + 1].size)
    return found


def counted_as(said: list[Token], count: int) -> tuple[str, ...] | None:
    """ "counts as dc and ch 2" -> ("dc", "ch 2"); "counts as ch-2 sp" -> ("ch 2",); "counts as first lp" -> ("ch",)."""
    out: list[str] = []
    at = 0
    while at < len(said):
        token = said[at]
        following = said[at + 1] if at + 1 < len(said) else None
        if token.kind == "stitch":
            out.append(token.value)
        elif token.kind in ("sp", "chref"):
            out.append(f"ch {token.size}" if token.size else "ch")
        elif token.value == "sk":
            out.append(f"sk {said[at - 1].size}" if at and said[at - 1].kind == "n" else "sk 1")
            at += 1
        elif token.value == "ch" and following is not None and following.kind == "n":
            out.append(f"ch {following.size}")
            at += 1
        elif token.kind == "n" and following is not None and following.value == "ch":
            out.append(f"ch {token.size}")
            at += 1
        elif token.value in ("lp", "sp"):
            out.append("ch")
        elif token.value == "st":
            out.append("st")
        at += 1
    return tuple(out) or None


_STANDARD = {"bobble": "bobble", "puff": "puff", "popcorn": "popcorn", "cluster": "cl", "picot": "picot", "inc": "inc", "dec": "dec", "V-st": "V-st", "shell": "shell", "rsc": "rsc"}

_BY_WORD: dict[str, Callable[[Clauses], Op | None]] = {
    "ch": Clauses._ch, "sk": Clauses._skip, "turn": Clauses._turn, "do": Clauses._do_not, "join": Clauses._join,
    "fasten": Clauses._fasten, "with": Clauses._colour, "using": Clauses._colour, "change": Clauses._colour,
    "changing": Clauses._colour, "switch": Clauses._colour, "working": Clauses._working, "work": Clauses._work,
    "make": Clauses._work, "leave": Clauses._leave, "leaving": Clauses._leave, "rep": Clauses._rep_rows,
    "as": Clauses._as_row, "same": Clauses._as_row, "in": Clauses._in_place, "continue": Clauses._continue,
    "loopblo": lambda s: _loops(s), "loopflo": lambda s: _loops(s),
}  # fmt: skip


def _loops(reader: Clauses) -> Op | None:
    """ "BLO sc in each st": loops first."""
    token = reader.c.step()
    hold = "back loop" if token.value == "loopblo" else "front loop"
    reader.c.skip_any("only", "lp", ":")
    if reader.c.now().kind in ("stitch", "n"):
        op = reader.clause()
        if isinstance(op, Make):
            return replace(op, places=tuple(replace(p, hold=hold) for p in op.places or (Place("next"),)))
        return op
    return Act("loops", hold, at=reader.span(token))
