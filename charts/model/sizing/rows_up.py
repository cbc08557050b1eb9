"""The rows of every section: whole repeats, raised rows on the wrong side, the wrap inside its stretch.

Rows are numbered through all sections and row 1 is a right-side row (unless the first section says
otherwise), so how many rows a flap has decides on which side the body's raised rows fall. The sections are
therefore settled together: from the first to the last, keeping for each side that the next row may be on the
best choice so far.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import product
from math import ceil, floor

from ...made_late import dataclass
from ...pattern.file.keys import MOST_ROWS
from ...pattern.file.kinds import OBJECT_KINDS
from .request import SectionRequest, SizingRequest
from .row_heights import row_heights_mm
from .span import Span

#: How many counts on each side of the wanted length are weighed for each ending.
REACH = 3
#: How much longer a part may be than what it lies on: less than any row.
SLACK_MM = 1.0


@dataclass(frozen=True, slots=True)
class Cost:
    """What a choice costs, the weightiest first: stretch missed, more stretch than the yarn likes, ending, length."""

    outside: float = 0.0
    forced: int = 0
    other_ending: int = 0
    off_mm: float = 0.0

    def __add__(self, other: Cost) -> Cost:
        return Cost(
            self.outside + other.outside, self.forced + other.forced,
            self.other_ending + other.other_ending, self.off_mm + other.off_mm,
        )

    def key(self) -> tuple[float, int, int, float]:
        return round(self.outside, 9), self.forced, self.other_ending, round(self.off_mm, 6)


@dataclass(frozen=True, slots=True)
class Target:
    """What a section should come to, and the lengths that keep the stretch inside its range; under `firm_mm` yarn that
    hardly stretches takes force, over `tight_mm` only whole stripes are worth the slack."""

    wanted_mm: float
    low_mm: float = 0.0
    high_mm: float = float("inf")
    firm_mm: float = 0.0
    tight_mm: float = float("inf")

    def outside(self, mm: float) -> float:
        """How far a length is outside, against the wanted one."""
        return max(0.0, self.low_mm - mm, mm - self.high_mm) / max(self.wanted_mm, 1.0)


def heights_of(section: SectionRequest, request: SizingRequest, rows: int) -> tuple[float, ...]:
    """The planned height of each of a section's first `rows` rows."""
    kinds = section.kinds(rows)
    if section.row_mm is not None:
        repeat = section.text.row_kinds[section.lead :] or section.text.row_kinds
        return row_heights_mm(kinds, section.row_mm, repeat)
    return row_heights_mm(kinds, request.row_mm, request.gauge_kinds)


def length_of(section: SectionRequest, request: SizingRequest, rows: int) -> float:
    """The planned length of `rows` rows, without listing them: whole repeats are multiplied."""
    if rows <= section.lead + section.repeat_rows:
        return sum(heights_of(section, request, rows))
    once = heights_of(section, request, section.lead + section.repeat_rows)
    repeats, left = divmod(rows - section.lead, section.repeat_rows)
    return sum(once[: section.lead]) + repeats * sum(once[section.lead :]) + sum(once[section.lead :][:left])


def as_it_began(section: SectionRequest, rows: int) -> bool:
    """Whether a section of so many rows ends as it began, in text and in colour."""
    past = (rows - section.lead) % section.repeat_rows
    if section.repeat_rows > 1 and not 1 <= past <= section.text.begins:
        return False
    stripes = section.stripes
    if len(set(stripes)) < 2:
        return True
    if section.repeat_rows > 1:
        return section.colour(rows - 1) == section.colour(0)
    first = next(i for i, letter in enumerate(stripes) if letter != stripes[0])
    return rows % len(stripes) == first


def ends_whole(section: SectionRequest, rows: int) -> bool:
    """Whether the last stripe of so many rows is as wide as the stripes have it."""
    stripes = section.stripes
    if len(set(stripes)) < 2 or rows <= len(section.text.opening_stripes):
        return True
    return section.colour(rows) != section.colour(rows - 1)


def endings(section: SectionRequest) -> tuple[int, ...]:
    """The rows past whole repeats that a section may end with."""
    return tuple(range(section.text.begins + 1)) if section.as_began and section.repeat_rows > 1 else (0,)


def counts_of(section: SectionRequest, request: SizingRequest, target: Target) -> list[int]:
    """The row counts worth weighing for each ending: near the wanted length and its range."""
    if section.rows is not None:
        return [section.rows]
    inside = min(max(target.wanted_mm, target.low_mm), target.high_mm)
    found = {
        rows
        for mm in (target.wanted_mm, inside)
        for past in endings(section)
        for rows in _counts_near(section, request, mm, past)
    }
    return sorted(found)


def _counts_near(section: SectionRequest, request: SizingRequest, mm: float, past: int) -> Iterator[int]:
    """The counts of whole repeats and `past` rows on each side of a length."""
    once = length_of(section, request, section.lead + section.repeat_rows)
    lead_mm = length_of(section, request, section.lead)
    tail_mm = length_of(section, request, section.lead + section.repeat_rows + past) - once
    repeats = (mm - lead_mm - tail_mm) / (once - lead_mm)
    step = len(section.stripes) if section.repeat_rows == 1 and len(set(section.stripes)) > 1 else 0
    for k in range(floor(repeats) - REACH - step + 1, ceil(repeats) + REACH + step):
        rows = section.lead + max(1, k) * section.repeat_rows + past
        if rows <= MOST_ROWS:
            yield rows


def side_fault(
    section: SectionRequest, rows: int, first_is_right: bool, *, liked: bool = True
) -> tuple[int, str] | None:
    """The first row (from 0) that falls on the wrong one of its sides when the section's first row is RS or WS.

    The fault is "raised" for a raised row on a right-side row, "near" for one that stands towards the worker on a
    wrong-side row, else the side ("RS", "WS") that the text states. These last two are only `liked`.
    Rounds all lie right side out.
    Stated sides hold for the first time the rows are worked; raised rows keep to the wrong side throughout, but for
    rows that the designer marked: what is marked wins.
    """
    if section.rounds:
        return None
    for row in range(min(rows, section.lead + 2 * section.repeat_rows)):
        written = section.written(row)
        right = (row % 2 == 0) == first_is_right
        stated = section.text.sides[written] if written < len(section.text.sides) else ""
        if liked and row == written and stated and (stated == "RS") != right:
            return row, stated
        raised = written < len(section.text.raised) and section.text.raised[written]
        if raised and right and section.raised_on_wrong_side and not stated:
            return row, "raised"
        near = written < len(section.text.near) and section.text.near[written]
        if liked and near and not right and section.raised_on_wrong_side and not stated:
            return row, "near"
    return None


def sides_allow(section: SectionRequest, rows: int, first_is_right: bool, *, liked: bool = True) -> bool:
    """Whether raised rows fall on the wrong side and, where that is asked for too, `liked` sides hold."""
    return side_fault(section, rows, first_is_right, liked=liked) is None


def side_remarks(request: SizingRequest, rows: tuple[int, ...]) -> tuple[str, ...]:
    """The rows that fall on the other side than was marked or is liked, in words."""
    right, found = first_side(request), []
    for section, count in zip(request.sections, rows, strict=True):
        fault = side_fault(section, count, right)
        if fault is not None and fault[1] != "raised":
            row, what = fault
            side = "right" if (row % 2 == 0) == right else "wrong"
            meant = f"marked {what}" if what != "near" else "of stitches that stand out towards you"
            found.append(f'row {row + 1} of "{section.name}", {meant}, comes to be a {side}-side row of the piece.')
        right = right if count % 2 == 0 else not right
    return tuple(found)


def stripe_remarks(request: SizingRequest, span: Span, rows: tuple[int, ...]) -> tuple[str, ...]:
    """Where stripes settled the number of rows, what they did; where they could not, that the last is cut short."""
    found = []
    for section, count, target in zip(request.sections, rows, targets(request, span), strict=True):
        if (shorter := _left_too_short(section, request, count, target)) is not None:
            said = f'"{section.name}" has {count} rounds; {shorter} would be nearer'
            found.append(f"{said}, but a hat is made rather too long than too short.")
            continue
        if section.rows is not None or section.role == "part" or not section.as_began or len(set(section.stripes)) < 2:
            continue
        row = "rounds" if section.rounds else "rows"
        off_mm = abs(length_of(section, request, count) - target.wanted_mm)
        nearer = [n for n in counts_of(section, request, target)
                  if abs(length_of(section, request, n) - target.wanted_mm) < off_mm - 1e-6
                  and not target.outside(length_of(section, request, n))]  # fmt: skip
        if not ends_whole(section, count):
            forced = [n for n in counts_of(section, request, target) if ends_whole(section, n)
                      and not target.outside(mm := length_of(section, request, n)) and mm < target.firm_mm]  # fmt: skip
            why = f"{max(forced)} would stretch this yarn far" if forced else "whole stripes do not"
            found.append(f'the last stripe of "{section.name}" is not whole: {count} {row} fit, {why}.')
        elif nearer and section.repeat_rows == 1:
            best = min(nearer, key=lambda n: abs(length_of(section, request, n) - target.wanted_mm))
            ends = "with the stripe that it began with" if as_it_began(section, count) else "with a whole stripe"
            found.append(f'"{section.name}" has {count} {row}, so that it ends {ends}; {best} would be nearer.')
    return tuple(found)


def _left_too_short(section: SectionRequest, request: SizingRequest, count: int, target: Target) -> int | None:
    """A count of a hat's sides that would be nearer to the height and is shorter than it; None where there is none."""
    if section.rows is not None or section.crown or not any(other.crown for other in request.sections):
        return None
    off = [abs(length_of(section, request, n) - target.wanted_mm) for n in (count, count - 1)]
    return count - 1 if off[1] < off[0] - 1e-6 and target.outside(length_of(section, request, count - 1)) else None


def cost_of(section: SectionRequest, request: SizingRequest, rows: int, target: Target) -> Cost:
    """What a count costs."""
    if section.rows is not None:
        return Cost()
    mm = length_of(section, request, rows)
    wants = section.as_began and (section.repeat_rows > 1 or len(set(section.stripes)) > 1)
    off_mm = abs(mm - target.wanted_mm)
    ranged = request.stretch is not None and not section.rounds  # a tube's range is round it, not upward
    near = ranged or off_mm <= leeway_mm(section, request, target)
    ending = 0 if near and as_it_began(section, rows) else 1 if near and ends_whole(section, rows) else 2
    forced = int(mm < target.firm_mm)
    whole = wants and ending < 2 and ends_whole(section, rows)
    loose_mm = 0.0 if whole else max(0.0, min(mm, target.high_mm) - target.tight_mm)
    return Cost(target.outside(mm) + loose_mm / max(target.wanted_mm, 1.0), forced, ending if wants else 0, off_mm)


def leeway_mm(section: SectionRequest, request: SizingRequest, target: Target) -> float:
    """How far from the wanted length an ending as it began is worth going, where no stretch range says it.

    One row, or 2 % of the length: our own limit, no source.
    """
    return max(length_of(section, request, len(section.text.row_kinds)) / len(section.text.row_kinds),
               0.02 * target.wanted_mm)  # fmt: skip


def targets(request: SizingRequest, span: Span) -> tuple[Target, ...]:
    """What each section should come to; the bodies share what fixed rows leave of the span."""
    fixed_mm = sum(
        length_of(s, request, s.rows) for s in request.sections if s.rows is not None and s.role != "part"
    )
    flexible = [s for s in request.sections if s.rows is None and s.role != "part"]
    asked_mm = sum(s.wanted_mm or 0.0 for s in flexible if s.role == "body")
    resting_mm = max(0.0, span.wanted_mm - fixed_mm - asked_mm)
    low, high = (max(0.0, bound - fixed_mm) for bound in span.bounds_mm)
    whole_mm = asked_mm + (resting_mm if any(s.role == "rest" for s in flexible) else 0.0)
    if any(section.crown for section in request.sections):
        low = max(low, asked_mm + resting_mm - SLACK_MM)  # a hat rather too long than too short: it covers the ears
    firm_mm = max(0.0, span.firm_mm - fixed_mm) if request.firm else 0.0
    tight_mm = max(0.0, span.tight_mm - fixed_mm)
    return tuple(_target(s, resting_mm, (low, high, firm_mm, tight_mm), whole_mm) for s in request.sections)


def _target(
    section: SectionRequest, resting_mm: float, bounds_mm: tuple[float, float, float, float], whole_mm: float
) -> Target:
    wanted = resting_mm if section.role == "rest" else section.wanted_mm or 0.0
    if section.role == "part" or section.rows is not None or whole_mm <= 0:
        return Target(wanted)
    share = wanted / whole_mm
    low_mm, high_mm, firm_mm, tight_mm = (mm * share for mm in bounds_mm)
    return Target(wanted, low_mm, high_mm, firm_mm, tight_mm)


def first_side(request: SizingRequest) -> bool:
    """Whether row 1 is a right-side row: it is, unless the first section's text states the wrong side."""
    sides = request.sections[0].text.sides
    return not (sides and sides[0] == "WS")


def choose_rows(
    request: SizingRequest, span: Span, *, sides: bool = True, liked: bool = True
) -> tuple[int, ...] | None:
    """The rows of each section; None where no choice lets the raised rows (and the `liked` ones) fall on their sides.

    Twins (the two flaps) have the same count, so their counts are tried in turn; for each, the best way
    through the other sections is kept for each side the next row may be on.
    """
    wanted = targets(request, span)
    counts = [counts_of(s, request, t) for s, t in zip(request.sections, wanted, strict=True)]
    names = sorted({s.twin for s in request.sections if s.twin})
    first = {name: next(i for i, s in enumerate(request.sections) if s.twin == name) for name in names}
    held: dict[bool, tuple[tuple[float, int, int, float], tuple[int, ...]]] = {}
    for tried in product(*(counts[first[name]] for name in names)):
        fixed = dict(zip(names, tried, strict=True))
        allowed = [[fixed[s.twin]] if s.twin else c for s, c in zip(request.sections, counts, strict=True)]
        for lies, way in _laid_on(request, allowed):
            found = _best_way(request, wanted, way, sides=sides, liked=liked)
            if found and (lies not in held or (found[0].key(), found[1]) < held[lies]):
                held[lies] = (found[0].key(), found[1])
    best = held.get(True) or held.get(False)
    return best[1] if best else None


def _laid_on(request: SizingRequest, allowed: list[list[int]]) -> Iterator[tuple[bool, list[list[int]]]]:
    """The counts to choose from, one way at a time, and whether a pouch's front is no longer than the back it lies on.

    Where it always is, folding says what is too long.
    """
    if not OBJECT_KINDS[request.kind].front_on_back or len(allowed) < 2:
        yield True, allowed
        return
    front, back = request.sections[:2]
    for rows in allowed[0]:
        least_mm = length_of(front, request, rows) - SLACK_MM
        under = [n for n in allowed[1] if length_of(back, request, n) >= least_mm]
        yield bool(under), [[rows], under or allowed[1], *allowed[2:]]


def _best_way(
    request: SizingRequest, wanted: tuple[Target, ...], allowed: list[list[int]], *, sides: bool, liked: bool
) -> tuple[Cost, tuple[int, ...]] | None:
    """The least costly counts, section by section; a state is the side of the next row."""
    states: dict[bool, tuple[Cost, tuple[int, ...]]] = {first_side(request): (Cost(), ())}
    for section, target, counts in zip(request.sections, wanted, allowed, strict=True):
        goes = {
            right: [n for n in counts if not sides or sides_allow(section, n, right, liked=liked)] for right in states
        }
        states = _step(states, section, request, target, goes)
    return min(states.values(), key=lambda found: (found[0].key(), found[1]), default=None)


def _step(
    states: dict[bool, tuple[Cost, tuple[int, ...]]], section: SectionRequest, request: SizingRequest,
    target: Target, counts: Mapping[bool, list[int]],
) -> dict[bool, tuple[Cost, tuple[int, ...]]]:  # fmt: skip
    found: dict[bool, tuple[Cost, tuple[int, ...]]] = {}
    for right, (cost, chosen) in states.items():
        for rows in counts[right]:
            after = right if rows % 2 == 0 else not right
            new = (cost + cost_of(section, request, rows, target), (*chosen, rows))
            if after not in found or (new[0].key(), new[1]) < (found[after][0].key(), found[after][1]):
                found[after] = new
    return found
