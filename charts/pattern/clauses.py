"""Reading what a row tells the hands to do, clause by clause, into the tree.

A clause that cannot be read is a problem at its words; reading goes on after the next comma, so that all problems
of a row are found at once.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from types import MappingProxyType

from . import again, brackets, chains, joins, makes, moves, prose, stars, working
from .cursor import Cursor, Source, Unread
from .lex import Token
from .picots import add
from .places import read_places, starts_place
from .standing import JOINERS, STANDARD
from .tree import Act, Either, Make, Op, Span, Special


class Clauses:
    """Reads one row's tokens. `specials` are the pattern's own stitches by canonical name."""

    def __init__(self, tokens: list[Token], source: Source, terms: str, specials: dict[str, Special]) -> None:
        self.c = Cursor(tokens, terms, frozenset(specials))
        self.specials, self.source = specials, source
        self.problems: list[Unread] = []
        self.notes: list[str] = []
        self.counts: list[tuple[Token, ...]] = []
        self.defining = False
        self.base = makes.shaping_base(tokens)

    def span(self, first: Token) -> Span:
        last = self.c.tokens[self.c.place - 1] if 0 < self.c.place <= len(self.c.tokens) else first
        return self.source.span(first.start, max(last.end, first.end))

    def read(self) -> tuple[Op, ...]:
        """The whole row."""
        ops = self.ops(())
        if not self.c.done:
            self.complain(prose.stray(self.c.step()))
        return tuple(ops)

    def complain(self, complaint: Unread) -> None:
        """Note what cannot be read and go on behind it; a bracket or star out of place makes the rest guesswork."""
        self.problems.append(complaint)
        if complaint.token.kind in ("(", ")", "[", "]", "*", "**"):
            self.c.place = len(self.c.tokens)
        else:
            self.c.until(",", ";", ".", "*", "**")

    def ops(self, stops: tuple[str, ...]) -> tuple[Op, ...]:
        """Clauses up to (not over) one of `stops` or a closing bracket."""
        out: list[Op] = []
        while not self.c.done:
            word = self.c.word()
            if word in stops or word in (")", "]"):
                break
            before = self.c.place
            try:
                self.one(out, stops)
            except Unread as complaint:
                self.complain(complaint)
            if self.c.place == before:
                self.c.step()
        return tuple(out)

    def joiner(self, out: list[Op]) -> None:
        """A comma or full stop; behind a colon or full stop a bare count may stand: ": 20 sc.", ". 18 sts."."""
        c = self.c
        sign = c.step().kind
        if sign not in (":", ".") or not out or c.now().kind != "n":
            return
        keep = c.place
        said = c.until(".", ";", "(", "[", "*", "**", ":", "turn")
        rest = (c.word() == "." and c.place + 1 >= len(c.tokens)) or c.done or c.word() == "turn"
        if prose.is_bare_count(said) and (rest or sign == ":"):
            self.counts.append(tuple(said))
        else:
            c.place = keep

    def goes_on(self, out: list[Op]) -> bool:
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

    def goes_beside(self, out: list[Op]) -> bool:
        """ "sc in each sc and 2 sc in each ch-2 sp": other places of the same stretch, with what goes into them."""
        c = self.c
        first = out[-1] if out else None
        if not isinstance(first, Make) or not _in_each(first) or first.places[0].until or first.places[0].upto:
            return False
        keep = c.place
        c.step()
        try:
            other = self.clause() if c.now().kind in ("n", "stitch") else None
        except Unread:
            other = None
        if not isinstance(other, Make) or not _in_each(other):
            c.place = keep
            return False
        end = other.places[-1]
        lead = replace(first.places[0], until=end.until, upto=end.upto)
        out[-1] = replace(first, places=(lead, *first.places[1:]), beside=(*first.beside, other))
        return True

    def one(self, out: list[Op], stops: tuple[str, ...]) -> None:
        """What comes next: more of the clause before, a sign between clauses, a repeat, or a clause."""
        word = self.c.word()
        if word == "and" and (self.goes_on(out) or self.goes_beside(out)):
            return
        if word in JOINERS:
            self.joiner(out)
        elif word == "*":
            out.append(stars.star(self))
        elif word == "**" and "**" not in stops:
            raise Unread(self.c.step(), '"**" stands outside a repeat', "put it between * and rep from *")
        else:
            op = self.clause()
            if op is not None:
                add(out, op)

    def clause(self) -> Op | None:
        """One clause, with "or" between readings of it."""
        op = self.one_clause()
        choices = [op] if op else []
        while op and self.c.word() == "or":
            self.c.step()
            other = self.one_clause()
            if other:
                choices.append(other)
        if len(choices) > 1:
            return Either(tuple(choices), at=choices[0].at)
        return op

    def one_clause(self) -> Op | None:
        c, token, word = self.c, self.c.now(), self.c.word()
        if word in ("(", "["):
            return brackets.bracket(self)
        reader = BY_WORD.get(word)
        if reader:
            return reader(self)
        if token.word in ("increasing", "inc", "increase") and (spread := working.evenly(self)):
            return spread
        if token.kind == "stitch":
            return makes.read_make(self, 1)
        if token.kind == "n":
            return makes.numbered(self)
        if token.kind in ("-", "=") and c.now(1).kind == "n":
            prose.dashed_count(self)
            return None
        if token.kind == "grp" and c.now(1).value in ("cluster", "bobble", "puff", "popcorn"):
            return makes.sized_make(self)
        if token.kind in ("chref", "sp", "grp", "ord") or word in (")", "]"):
            raise prose.stray(c.step())
        if token.value in self.specials or token.value in STANDARD:
            return makes.read_make(self, 1)
        if word == "beg" and makes.is_special_ahead(self, 1):
            c.step()
            return makes.read_make(self, 1)
        if token.word == "ending" and c.word(1) in ("with", "in"):
            c.place += 2
            return self.one_clause()
        return prose.prose(self)

    def skips_ahead(self, ahead: int) -> bool:
        """Whether a place stands ahead with nothing to make in it before the next comma or "and"."""
        c = self.c
        keep, c.place = c.place, c.place + ahead
        try:
            read_places(c)
            return c.word() in (",", "and", ";", ".", ")", "]", "*")
        except Unread:
            return False
        finally:
            c.place = keep

    def run(self) -> tuple[Op, ...]:
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
                add(out, op)
        return tuple(out)


def _in_each(op: Make) -> bool:
    return bool(op.places) and all(place.which == "each" for place in op.places)


#: The words that lead a clause, each with its reader.
BY_WORD: MappingProxyType[str, Callable[[Clauses], Op | None]] = MappingProxyType({
    "ch": chains.read_ch, "sk": moves.skip, "turn": moves.turn, "do": moves.do_not, "join": joins.read_join,
    "fasten": moves.fasten, "with": joins.colour, "using": joins.colour, "change": joins.colour,
    "changing": joins.colour, "switch": joins.colour, "working": working.working, "work": working.work,
    "make": working.work, "leave": moves.leave, "leaving": moves.leave, "rep": again.rep_rows,
    "as": again.as_row, "same": again.as_row, "in": working.in_place, "continue": again.go_on,
    "loopblo": working.loops, "loopflo": working.loops,
})  # fmt: skip
