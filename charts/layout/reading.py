"""What a chart says of itself that its glyphs cannot: what goes into a space, and what a beginning chain counts."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from hookfold.symbols import known, stitch

from ..model.grid import Row
from .sheet import Terms


def said_of(rows: Iterable[Row], terms: Terms) -> list[str]:
    """The sentences that these rows call for."""
    every = list({id(row): row for row in rows}.values())
    return [*_spaces(every), *_beginnings(every, terms)]


def counted_words(rows: Iterable[Row]) -> str:
    """What a number in brackets counts; chains where there are any are said to be left out."""
    chained = any(row.chains for row in rows)
    return "A number in brackets is the stitches the row makes" + (", chains not counted." if chained else ".")


def _spaces(rows: Sequence[Row]) -> list[str]:
    """How a stitch into a space is told from one into a chain: by where its foot stands."""
    holds = {
        foot.hold
        for row in rows
        for made in row.stitches
        if made.role in ("stitch", "turning")
        for foot in made.feet
        if foot.back > 0
    }
    if "space" not in holds:
        return []
    if "chain" not in holds:
        return ["Stitches that stand over chains go into the space under them, not into the chains."]
    return [
        "Stitches over the middle of a run of chains go into the space under it; one that stands on an oval of its "
        "own goes into that chain."
    ]


def _beginnings(rows: Sequence[Row], terms: Terms) -> list[str]:
    """What the beginning chains count as, each sort once."""
    begins = [s for row in rows for s in row.stitches if s.role in ("turning", "start") and s.chains]
    counts = {f"ch {s.chains} counts as {short_name(s.kind, terms)}" for s in begins if s.role == "turning"}
    idle = sorted({s.chains for s in begins if s.role == "start"})
    said = sorted(counts)
    if idle:
        verb = "does not count as a stitch" if len(idle) == 1 else "do not count as stitches"
        said.append(f"{' and '.join(f'ch {chains}' for chains in idle)} {verb}")
    return [f"At the beginning of a row {'; '.join(said)}."] if said else []


def short_name(kind: str, terms: Terms) -> str:
    """A stitch's abbreviation in the reader's terms.

    >>> short_name("dc", "UK")
    'tr'
    """
    if not known(kind):
        return kind
    what = stitch(kind)
    return what.name if terms == "US" else what.uk
