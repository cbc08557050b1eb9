"""How large a number may be, and how deep brackets and repeats may stand."""

from __future__ import annotations

from typing import TYPE_CHECKING

from .cursor import Unread
from .lex import Token

if TYPE_CHECKING:
    from .clauses import Clauses

MOST_DEPTH = 20
MOST_TIMES = 100_000


def amount(token: Token) -> int:
    """The number of a token; Unread if it is more than this tool works."""
    if not 0 <= token.size <= MOST_TIMES:
        raise Unread(token, f"that is more than this tool works ({MOST_TIMES:,})", "use a smaller number", "limit")
    return token.size


def read_times(r: Clauses) -> int | None:
    """ "3 times", "twice", "x 6", "6 times more" after a bracket or a stitch; None where none stands here."""
    c = r.c
    if c.word() == "x" and c.now(1).kind == "n":
        c.step()
        return amount(c.step())
    token = c.now()
    if token.kind != "n":
        return None
    if token.word in ("twice", "once", "thrice"):
        c.step()
        return token.size
    if c.word(1) in ("times", "time", "x"):
        c.place += 2
        amount(token)
        return token.size + (1 if c.take_any("more") else 0)
    if c.word(1) == "more" and c.word(2) in ("times", "time"):
        c.place += 3
        return amount(token) + 1
    return None
