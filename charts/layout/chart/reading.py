"""What a chart says of itself that its glyphs cannot: what goes into a space, and what a beginning chain counts."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from hookfold.symbols import known, stitch

from ...model.cloth.fabric import Row, Stitch, WorkedRow
from ...setting import Seen, Terms
from ..placing.placed import Spot
from ..placing.row import rises_on_chain
from ..sheets.chart_setting import listed, ranges

#: So many gaps in the numbers of the rows of one sort are too many to be read.
MANY_RANGES = 4
#: What is not the same from both sides of the work, and how a foot then holds; what it is from the other side.
_HOLDS = {"FP": "front post", "BP": "back post", "FLO": "front loop", "BLO": "back loop"}
_FACES = tuple(_HOLDS)
_OTHER = {"FP": "BP", "BP": "FP", "FLO": "BLO", "BLO": "FLO"}
_AS_SHOWN = "Wrong-side rows are drawn as the right side shows them"


def said_of(rows: Sequence[Row], terms: Terms, numbers: Sequence[int] = ()) -> list[str]:
    """The sentences that these rows call for; `numbers` are theirs, by which those are named that begin otherwise than
    others."""
    every = list({id(row): row for row in rows}.values())
    return [*_spaces(every), *(_named_beginnings(rows, terms, numbers) or _beginnings(every, terms))]


def counted_words(rows: Iterable[Row]) -> str:
    """What a number in brackets counts; chains where there are any are said to be left out."""
    chained = any(row.chains for row in rows)
    return "A number in brackets is the stitches the row makes" + (", chains not counted." if chained else ".")


def foundation_words(chains: int, risen: int, word: str = "row") -> list[str]:
    """That the chains a foundation is begun with are more than those that lie flat.

    >>> foundation_words(16, 1)
    ['The last of the 16 chains is the beginning chain of row 1.']
    """
    if not (chains and risen):
        return []
    last = "last" if risen == 1 else f"last {risen}"
    return [f"The {last} of the {chains} chains {'is' if risen == 1 else 'are'} the beginning chain of {word} 1."]


def hidden_words(spots: Iterable[Spot]) -> list[str]:
    """How what lies behind other stitches is drawn, where there is any."""
    every = list(spots)
    said = []
    if any(s.under for s in every):
        said.append(
            "Where a longer stitch worked later stands in front of a stitch or a chain, only the ends of that one are "
            "drawn; work it like the others of its row."
        )
    if any(s.hidden for s in every):
        said.append("A stem with a gap in it passes behind what lies in the gap.")
    if any(not s.signed and s.hold in ("front loop", "back loop") for s in every):
        said.append("Stitches in one loop share its arc.")
    return said


def side_words(rows: Iterable[WorkedRow], seen: Seen) -> list[str]:
    """How stitches are drawn that look otherwise from the side they are not worked on, and in which rows what is worked
    for what is shown; `rows` are as drawn."""
    found: dict[tuple[str, ...], list[int]] = {}
    for worked in rows:
        if worked.side == "WS" and (faces := _faces(worked.row)):
            found.setdefault(faces, []).append(worked.number)
    if not found:
        return []
    every = {face for faces in found for face in faces}
    posts, loops = every & {"FP", "BP"}, every & {"FLO", "BLO"}
    if seen == "as-worked":
        which = " and ".join(word for word, there in (("round a post", posts), ("in one loop", loops)) if there)
        return [f"Stitches {which} are drawn as they are worked, front or back as the worker sees it."]
    numbers = [n for held in found.values() for n in held]
    if not all(numbers) or len(set(numbers)) < len(numbers) or any(_is_long(held) for held in found.values()):
        return [f"{_AS_SHOWN}: when you work them, work {_turned_words(sorted(every, key=_FACES.index))}."]
    told = (f"in {_rows_named(held)} work {_turned_words(faces)}" for faces, held in found.items())
    return [f"{_AS_SHOWN}: {'; '.join(told)}."]


def _is_long(numbers: Sequence[int]) -> bool:
    return listed(sorted(numbers)).count(",") > MANY_RANGES


def _faces(row: Row) -> tuple[str, ...]:
    """What of a row looks otherwise from its other side, as abbreviations that are the same in both terms."""
    holds = {foot.hold for made in row.stitches for foot in made.feet}
    kinds = {made.kind[:2] for made in row.stitches}
    there = {short for short, hold in _HOLDS.items() if hold in holds} | (kinds & {"FP", "BP"})
    return tuple(short for short in _FACES if short in there)


def _turned_words(faces: Iterable[str]) -> str:
    """ "BP where FP is shown and FP where BP is shown"."""
    return " and ".join(f"{_OTHER[face]} where {face} is shown" for face in faces)


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
    """What the beginning chains count as, each sort once, in a sentence; none where no row begins with chains."""
    begins = [s for row in rows for s in row.stitches if s.role in ("turning", "start") and s.chains]
    said = [one for one in (*counting_words(rows, terms), *_leg_words(rows, terms), idle_words(begins)) if one]
    return [f"At the beginning of {_which_row(rows)} {'; '.join(said)}."] if said else []


def _leg_words(rows: Iterable[Row], terms: Terms) -> list[str]:
    """Of what the beginning chains are the first leg."""
    gathered = [s for row in rows for s in row.stitches if rises_on_chain(s)]
    return sorted({f"ch {s.chains} is the first leg of {short_name(s.kind, terms)}" for s in gathered})


def _named_beginnings(rows: Sequence[Row], terms: Terms, numbers: Sequence[int]) -> list[str]:
    """The same where rows begin in several ways: each sort with the rows it holds for, those of the commonest as the
    others where they would be many. None where all begin alike, or a row has no number."""
    found: dict[str, list[int]] = {}
    for number, row in zip(numbers, rows, strict=True) if numbers else ():
        begins = [s for s in row.stitches if s.role in ("turning", "start") and s.chains]
        for said in (*counting_words([row], terms), *_leg_words([row], terms), idle_words(begins)):
            if said:
                found.setdefault(said, []).append(number)
    if len(found) < 2 or not all(numbers) or len(set(numbers)) < len(numbers):
        return []
    first, *less = sorted(found, key=lambda said: -len(found[said]))
    if ranges(found[first]).count(",") < MANY_RANGES or len(found[less[0]]) == len(found[first]):
        return [f"Beginning chains: {'; '.join(f'in {_rows_named(held)} {said}' for said, held in found.items())}."]
    told = [f"in {_rows_named(held)} {said}" for said, held in found.items() if said != first]
    return [f"Beginning chains: {'; '.join(told)}; in the other rows {first}."]


def _rows_named(numbers: Sequence[int]) -> str:
    """ "row 1", "rows 2–4, 6"."""
    return f"row{'s' if len(set(numbers)) > 1 else ''} {listed(sorted(set(numbers)))}"


def _which_row(rows: Sequence[Row]) -> str:
    """Of which rows the beginning chains are told: of the first where later ones begin with chains that are none."""
    begun = [bool(row.stitches) and row.stitches[0].role in ("turning", "start") for row in rows]
    others = [row.stitches[0].role == "chain" for row in rows[1:] if row.stitches]
    return "the first row" if begun[0] and not any(begun[1:]) and any(others) else "a row"


def counting_words(rows: Sequence[Row], terms: Terms) -> list[str]:
    """What the beginning chains count as that count as a stitch, each sort once."""
    return sorted({_counts_as(row, at, terms) for row in rows for at, s in enumerate(row.stitches)
                   if s.role == "turning" and s.chains})  # fmt: skip


def _counts_as(row: Row, at: int, terms: Terms) -> str:
    """What a beginning chain counts as; with the chains that follow at once, as the words have it: "ch 8 counts as dc
    and ch 5"."""
    made = row.stitches[at]
    after = row.stitches[at + 1] if at + 1 < len(row.stitches) else None
    more = after.chains if after is not None and after.role == "chain" else 0
    tail = f" and ch {more}" if more else ""
    return f"ch {made.chains + more} counts as {short_name(made.kind, terms)}{tail}"


def idle_words(begins: Iterable[Stitch]) -> str:
    """Which beginning chains count as no stitch; "" where all do."""
    idle = sorted({s.chains for s in begins if s.role == "start" and s.chains})
    verb = "does not count as a stitch" if len(idle) == 1 else "do not count as stitches"
    return f"{' and '.join(f'ch {chains}' for chains in idle)} {verb}" if idle else ""


def short_name(kind: str, terms: Terms) -> str:
    """A stitch's abbreviation in the reader's terms.

    >>> short_name("dc", "UK")
    'tr'
    """
    if not known(kind):
        return kind
    what = stitch(kind)
    return what.name if terms == "US" else what.uk
