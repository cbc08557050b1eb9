"""The finishing for all sizes: step by step, and in a table where the sizes differ in more than a few numbers."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

from ...folding.border import BorderPlan
from ...folding.finishing import FinishingStep, finishing_of, in_terms
from ...folding.said.border_words import side_cells, side_name
from ...setting import Setting
from ..piece import Piece
from .book import Step, Table
from .sized import merged

#: More numbers that differ by size than this in one line are set in a table instead, a column a size.
_MOST_BESIDE = 2
#: The numbers of several sizes side by side, as "11 (11, 14)".
_SEVERAL = re.compile(r"\d \(\d[^()]*\)")


def sized_steps(pieces: Mapping[str, Piece], setting: Setting) -> tuple[Step, ...]:
    """The steps of the finishing of all sizes by name, numbered as the drawings are."""
    every = [
        finishing_of(one.plan, one.border, terms=setting.terms, folding=one.folding) for one in pieces.values()
    ]
    if len(every) == 1:
        return tuple(Step(step.says, step.lines) for step in every[0])
    if len({tuple(step.drawn for step in steps) for steps in every}) != 1:
        return tuple(
            Step(f"{name}: {step.says}", step.lines)
            for name, steps in zip(pieces, every, strict=True)
            for step in steps
        )
    return tuple(_step(alike, pieces, setting) for alike in zip(*every, strict=True))


def _step(alike: Sequence[FinishingStep], pieces: Mapping[str, Piece], setting: Setting) -> Step:
    """A step of all sizes."""
    says = _together([step.says for step in alike], list(pieces))
    borders = [piece.border for piece in pieces.values()]
    if alike[0].drawn == "border" and (table := _border_table(borders, list(pieces), setting)) is not None:
        sides = {side_name(borders[0], k).capitalize() for k in _sides(borders[0])} if borders[0] else set()
        first = side_name(borders[0], 0) if borders[0] else ""
        told = [
            [_at_the_first(line, first) for line in step.lines if line.partition(":")[0] not in sides] for step in alike
        ]
        return Step(says, (), table, tuple(_lines(told, list(pieces))))
    if len({len(step.lines) for step in alike}) != 1:
        lines = [f"{name}: {line}" for name, step in zip(pieces, alike, strict=True) for line in step.lines]
        return Step(says, tuple(lines))
    every = list(zip(*(step.lines for step in alike), strict=True))
    plain = [merged(texts) for texts in every]
    if all(text is not None and len(_SEVERAL.findall(text)) <= _MOST_BESIDE for text in plain):
        return Step(says, tuple(text for text in plain if text is not None))
    rows = tuple((texts[0].partition(": ")[0], *(text.partition(": ")[2] for text in texts)) for texts in every)
    return Step(says, (), Table(("", *pieces), rows))


def _at_the_first(line: str, side: str) -> str:
    """What is said of the edge just worked, below a table of all edges: of the first one, by its name."""
    return line.replace("Look at this edge before you go on:", f"Look at the {side} before you go round its corner:")


def _together(texts: Sequence[str], names: Sequence[str]) -> str:
    """One text for all sizes, or each under its name."""
    return merged(texts) or " ".join(f"{name}: {text}" for name, text in zip(names, texts, strict=True))


def _lines(told: Sequence[Sequence[str]], names: Sequence[str]) -> list[str]:
    """The n-th lines of all sizes together."""
    return [_together(texts, names) for texts in zip(*told, strict=False)]


def _sides(border: BorderPlan | None) -> range:
    return range(max((s.side for s in border.stretches), default=-1) + 1) if border else range(0)


def _border_table(
    borders: Sequence[BorderPlan | None], names: Sequence[str], setting: Setting
) -> Table | None:  # fmt: skip
    """The border edge by edge, a column a size; None where the edges of the sizes are not the same ones."""
    found = []
    for border in borders:
        if border is None:
            return None
        found.append([cell for side in _sides(border) for cell in side_cells(border, side)])
    if len({tuple(label for label, _ in cells) for cells in found}) != 1:
        return None
    rows = tuple(
        tuple(in_terms(text, setting.terms) for text in (alike[0][0], *(cell for _, cell in alike)))
        for alike in zip(*found, strict=True)
    )
    return Table(("border, edge by edge", *names), rows)
