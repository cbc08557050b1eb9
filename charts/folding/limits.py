"""What a folded piece must keep to: flaps no longer than what they cover, laps that meet, straps that reach
out.
"""

from __future__ import annotations

from collections.abc import Sequence

from ..errors import PatternError, Problem
from ..measure import show_length
from ..pattern.file.records import Join
from .kinds import Kind
from .piece import Piece

#: Slack allowed before a part counts as too long: less than any row.
SLACK_MM = 1.0


def limit_problems(piece: Piece, kind: Kind) -> tuple[Problem, ...]:
    """Every way in which the kind's parts do not go together, with both lengths and a remedy."""
    return (*_covers(piece, kind), *_laps(piece, kind), *_beyond(piece, kind))


def _covers(piece: Piece, kind: Kind) -> list[Problem]:
    found = []
    for cover in kind.covers:
        part, on = piece.part(cover.part), piece.part(cover.on)
        room = on.length_mm * cover.share
        if part.length_mm > room + SLACK_MM:
            whole = "half of the " if cover.share == 0.5 else "the "
            says = (
                f"the {part.name} is {_show(piece, part.length_mm)} and {whole}{on.name} that it lies on "
                f"is only {_show(piece, room)}"
            )
            fewer = f"make the {part.name} at most {_show(piece, room)}, or the {on.name} longer"
            found.append(Problem("fold", "Folding", says, fewer))
    return found


def _laps(piece: Piece, kind: Kind) -> list[Problem]:
    if not kind.lap:
        return []
    a, b, on = piece.part(kind.lap[0]), piece.part(kind.lap[1]), piece.part(kind.lap_on)
    lap = a.length_mm + b.length_mm - on.length_mm
    if lap > SLACK_MM:
        return []
    says = (
        f"the {a.name} ({_show(piece, a.length_mm)}) and the {b.name} ({_show(piece, b.length_mm)}) "
        f"must overlap on the {on.name} ({_show(piece, on.length_mm)}), and they leave a gap of "
        f"{_show(piece, max(0.0, -lap))}"
    )
    return [
        Problem(
            "fold", "Folding", says, f"make them {_show(piece, -lap + on.length_mm * 0.15)} longer together"
        )
    ]


def _beyond(piece: Piece, kind: Kind) -> list[Problem]:
    found = []
    for name, past in kind.beyond:
        part, over = piece.part(name), piece.part(past)
        if part.length_mm <= over.length_mm + SLACK_MM:
            says = (
                f"the {part.name} is {_show(piece, part.length_mm)} and the {over.name} that it comes out "
                f"from under is {_show(piece, over.length_mm)}, so nothing of it reaches past the edge"
            )
            remedy = f"make the {part.name} longer than {_show(piece, over.length_mm)}"
            found.append(Problem("fold", "Folding", says, remedy))
    return found


def _show(piece: Piece, mm: float) -> str:
    return show_length(mm, piece.unit)


def refuse(problems: Sequence[Problem]) -> None:
    """Raise what was found, if anything was."""
    if problems:
        raise PatternError(tuple(problems))


def closing_problems(piece: Piece, kind: Kind, joins: Sequence[Join]) -> list[Problem]:
    """The pattern's own joins that would close the kind's opening."""
    found = []
    roles = {p.name: p.role for p in piece.parts}
    for number, join in enumerate(joins, 1):
        for text in (join.first, join.second):
            edge, _, name = text.partition(" of ")
            if f"{edge} of {roles.get(name, name)}" in kind.open:
                says = f"the {edge} of the {name} is the opening; joined, nothing could go in"
                found.append(Problem("fold", f"Join {number}", says, "take this join out"))
                break
    return found
