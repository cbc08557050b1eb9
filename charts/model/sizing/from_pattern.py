"""From a pattern's records to what sizing is asked."""

from __future__ import annotations

from collections.abc import Sequence

from ...errors import PatternError
from ...made_late import dataclass
from ...measure import MM_PER_INCH, Length, round_half_up
from ...pattern.file.kinds import OBJECT_KINDS, ObjectKind, border_adds_mm, roomed_mm, section_lengths_mm
from ...pattern.file.records import Measured, Pattern, Section
from .across import common_multiple
from .advice import problem_at
from .request import BorderRequest, SectionRequest, SectionText, SizingRequest
from .row_heights import relative_height
from .span import FIRM


def request_of(pattern: Pattern, texts: Sequence[SectionText], size: Measured | None = None) -> SizingRequest:
    """What to ask of sizing for a pattern's object, or for one of its sizes; `texts` are its rows.

    Raises PatternError where the sections' multiples cannot meet.
    """
    thing = size or pattern.object
    object_mm = roomed_mm(thing.kind, {name: length.mm for name, length in thing.lengths.items()})
    border = border_request(pattern)
    adds_mm = (0.0, 0.0)
    if border is not None:
        adds_mm = border_adds_mm(thing.kind, object_mm, border.row_mm, border.rounds, joins=border.joins)
    lengths = section_lengths_mm(thing.kind, object_mm, adds_mm)
    of, plus = _multiple(pattern, texts)
    sections = tuple(
        _section(section, text, role, lengths, pattern)
        for section, text, role in zip(pattern.sections, texts, roles(pattern), strict=True)
    )
    body = max(sections, key=lambda s: (s.role != "part", s.wanted_mm or 0.0, len(s.text.row_kinds)))
    gauge_kinds = body.text.row_kinds[body.lead :] or body.text.row_kinds
    row_mm, guesses = _row_mm(pattern, gauge_kinds)
    return SizingRequest(
        kind=thing.kind, chain_along=thing.chain_along, object_mm=object_mm,
        stitch_mm=pattern.gauge.stitch_mm, row_mm=row_mm, gauge_kinds=gauge_kinds, sections=sections,
        multiple_of=of, multiple_plus=plus, chain_plus=texts[0].chain_plus, least=max(t.least for t in texts),
        border=border, stretch=thing.stretch, unit=thing.unit, over_mm=pattern.gauge.over.mm,
        over_text=pattern.gauge.over.text, estimates=(*guesses, *_guessed_rows(sections, gauge_kinds),
        *_guessed_border(pattern)), place=thing.place, rows_measured=not guesses,
        firm=FIRM.search(pattern.yarn.fibre) is not None,
    )  # fmt: skip


def roles(pattern: Pattern) -> tuple[str, ...]:
    """What each section is: those that fold over are parts, the others are the body.

    A panel has no parts; nor has a book with its chain along the wrap, whose flaps lie in every row.
    """
    count = len(pattern.sections)
    kind = OBJECT_KINDS[pattern.object.kind]
    along = pattern.object.chain_along
    ends = set() if along == "wrap" or not kind.folds else _folding_ends(kind, pattern, count)
    extras = {name for any_kind in OBJECT_KINDS.values() for name in any_kind.extras}
    flaps = {i for i, s in enumerate(pattern.sections) if s.length in extras}
    rest = {i for i, s in enumerate(pattern.sections) if s.length == "rest"}
    return tuple(
        "part"
        if i in ends or (i in flaps and along != "wrap")
        else "rest"
        if i in rest
        else "body"
        for i in range(count)
    )


def _folding_ends(kind: ObjectKind, pattern: Pattern, count: int) -> set[int]:
    """The sections that the kind's folding parts take; of a kind that they do not come out for, the first and the last
    of three and more."""
    there = kind.takes
    if count < len(there) and not all(pattern.object.mm(name) for name in kind.loose):
        there = there[: len(there) - len(kind.loose)]
    if count < len(there):
        return {0, count - 1} if count >= 3 else set()
    places = {"first": 0, "last": count - 1, "second last": count - 2}
    return {places[take] for take in there if take != "rest"}


def _multiple(pattern: Pattern, texts: Sequence[SectionText]) -> tuple[int, int]:
    met = common_multiple(tuple(texts))
    if met is not None:
        return met
    for i, text in enumerate(texts):
        if common_multiple(tuple(texts[: i + 1])) is None:
            before = common_multiple(tuple(texts[:i])) or (1, 0)
            section = pattern.sections[i]
            own = f"its rows take {_multiple_words(text.multiple_of, text.multiple_plus)}"
            others = f"the sections before it take {_multiple_words(*before)}"
            says = f"{own}; {others}, and no count is both."
            remedy = "change the edge stitches of one of them so that the remainders agree."
            where = f'section "{section.name}"'
            raise PatternError([problem_at(section.place, where, says, remedy, pattern.file)])
    return 1, 0


def _multiple_words(of: int, plus: int) -> str:
    """A multiple in words: "a multiple of 4 plus 3", "any number of stitches"."""
    if of == 1:
        return "any number of stitches"
    return f"a multiple of {of}" + (f" plus {plus}" if plus else "")


def _section(
    section: Section, text: SectionText, role: str, lengths: dict[str, float], pattern: Pattern
) -> SectionRequest:
    """One section's request; sections of one length and text are twins, as two flaps are."""
    wanted = section.length.mm if isinstance(section.length, Length) else lengths.get(section.length or "")
    alike = f"{wanted}|{section.work.text}" if section.rows is None and section.length not in ("rest", "crown") else ""
    whole = role != "part" or section.length == "height"
    over_mm = pattern.gauge.over.mm
    return SectionRequest(
        name=section.name, text=text, wanted_mm=wanted, rows=section.rows, lead=_lead(section, text),
        stripes=text.stripes or section.stripes, role=role, as_began=whole and section.ends == "as it began",
        raised_on_wrong_side=section.texture == "raised", twin=alike,
        row_mm=over_mm / section.gauge_rows if section.gauge_rows else None, place=section.place,
        rounds=OBJECT_KINDS[pattern.object.kind].rounds, to=_stitches(section.to, pattern),
        over=_stitches(section.over, pattern), crown=section.length == "crown",
    )  # fmt: skip


def _stitches(width: int | Length | None, pattern: Pattern) -> int | None:
    """A width in stitches; None where none is given."""
    return max(1, round_half_up(width.mm / pattern.gauge.stitch_mm)) if isinstance(width, Length) else width


def _lead(section: Section, text: SectionText) -> int:
    """The rows before the row repeat; at least one row repeats."""
    if text.lead is not None:
        return text.lead
    return min(section.repeat_from, len(text.row_kinds)) - 1


def border_request(pattern: Pattern) -> BorderRequest | None:
    """The border's measures: from its own gauge, else from the body's stitch."""
    border, gauge = pattern.border, pattern.gauge
    if border is None:
        return None
    stitch_mm = gauge.over.mm / (gauge.border_stitches or gauge.stitches)
    estimated = relative_height("sc" if border.stitch == "rsc" else border.stitch) * stitch_mm
    row_mm = gauge.over.mm / gauge.border_rows if gauge.border_rows else estimated
    measured = gauge.border_stitches is not None
    return BorderRequest(stitch_mm, row_mm, border.rounds, border.corner, border.joins, measured)


def _row_mm(pattern: Pattern, kinds: Sequence[str]) -> tuple[float, tuple[str, ...]]:
    """The mean row height of the body, and what was guessed of it."""
    if pattern.gauge.row_mm is not None:
        return pattern.gauge.row_mm, ()
    mean = sum(map(relative_height, kinds)) / len(kinds)
    row_mm = pattern.gauge.stitch_mm * mean
    high = _exactly(row_mm, pattern.object.unit)
    return row_mm, (
        f"Rows are taken to be {high} high, from the stitch's width, for no row gauge is "
        "given: an estimate.",
    )


def _exactly(mm: float, unit: str) -> str:
    """The height of a row, to a tenth of a millimetre or a hundredth of an inch.

    >>> _exactly(6.53, "cm"), _exactly(6.53, "in")
    ('6.5 mm', '0.26 in')
    """
    return f"{mm / MM_PER_INCH:.2f} in" if unit == "in" else f"{mm:.1f} mm"


def _guessed_rows(sections: Sequence[SectionRequest], measured: Sequence[str]) -> tuple[str, ...]:
    """The sections whose row height is scaled from the body's by the usual ratios."""
    names = [s.name for s in sections if s.row_mm is None and set(s.text.row_kinds) != set(measured)]
    if not names:
        return ()
    said = f"{', '.join(names[:-1])} and {names[-1]}" if len(names) > 1 else names[0]
    return (f"The {said} may come out a little taller or shorter than planned: the gauge is of another stitch.",)


def _guessed_border(pattern: Pattern) -> tuple[str, ...]:
    border, gauge = border_request(pattern), pattern.gauge
    if border is None or gauge.border_rows:
        return ()
    high = _exactly(border.row_mm, pattern.object.unit)
    return (f"A border round is taken to be {high} high, for no border_rows are given: an estimate.",)


@dataclass(frozen=True, slots=True)
class Sized:
    """A size by its name, for a table of several."""

    name: str
    request: SizingRequest


def requests_of(pattern: Pattern, texts: Sequence[SectionText]) -> tuple[Sized, ...]:
    """A request for each of [sizes], in the order of the file; for the object itself where there are none."""
    if not pattern.sizes:
        return (Sized(pattern.object.size or pattern.title, request_of(pattern, texts)),)
    return tuple(Sized(name, request_of(pattern, texts, size)) for name, size in pattern.sizes.items())
