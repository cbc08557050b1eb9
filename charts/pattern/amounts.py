"""How large a number may be, and how deep brackets and repeats may stand."""

from __future__ import annotations

from .cursor import Unread
from .lex import Token

MOST_DEPTH = 20
MOST_TIMES = 100_000


def amount(token: Token) -> int:
    """The number of a token; Unread if it is more than this tool works."""
    if not 0 <= token.size <= MOST_TIMES:
        raise Unread(token, f"that is more than this tool works ({MOST_TIMES:,})", "use a smaller number", "limit")
    return token.size
