"""One direction of the piece against the object: what is wanted, and what it stretches."""

from __future__ import annotations

import re

from ...made_late import dataclass, replace
from ...measure import show_percent
from ...pattern.file.kinds import OBJECT_KINDS, border_adds_mm, directions
from .request import SizingRequest

#: A stretch is printed to a tenth of a percent; what rounds into the range counts as inside it.
CLOSE = 0.0005
#: Less slack than this is lost in any gauge: our own limit, no source.
LEAST_SLACK = 0.005
#: From here on a cover in yarn that hardly stretches is to be tried on the swatch: our own limit, no source.
#: The fibres' own stretch: definetextile.com, Fiber elongation (cotton 6-10 %, wool 25-45 %).
FIRM_STRETCH = 0.03
FIRM = re.compile(r"cotton|linen|flax|hemp|jute|ramie|raffia|sisal|paper", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Span:
    """A direction: the measurement it must fit, the border that counts in it, and flaps that lie beside it.

    What `eases` has room to spare, and what is said of it is said as room.
    worked length + `border_mm` - 2 x flap = the piece's length on the object; `fit_mm` / that - 1 = its
    stretch. `border_mm` is 0 for a piece that holds something: its border stands outside the joins. By so much `slack`
    it may be under the least stretch.
    """

    name: str
    fit_mm: float
    border_mm: float = 0.0
    flap_mm: float = 0.0
    stretch: tuple[float, float] | None = None
    eases: bool = False
    slack: float = 0.0

    @property
    def wanted_mm(self) -> float:
        """The worked length that fits without stretch."""
        return self.fit_mm - self.border_mm + 2 * self.flap_mm

    @property
    def bounds_mm(self) -> tuple[float, float]:
        """The shortest and the longest worked length inside the stretch range."""
        if self.stretch is None:
            return 0.0, float("inf")
        low, high = self.stretch
        aside = 2 * self.flap_mm - self.border_mm
        return self.fit_mm / (1 + high + CLOSE) + aside, self.fit_mm / max(1e-9, 1 + low - self.slack - CLOSE) + aside

    @property
    def tight_mm(self) -> float:
        """The longest worked length inside the range without its slack."""
        return replace(self, slack=0.0).bounds_mm[1]

    @property
    def firm_mm(self) -> float:
        """The shortest worked length that yarn which hardly stretches takes without force; 0 without a range."""
        return 0.0 if self.stretch is None else self.fit_mm / (1 + FIRM_STRETCH) + 2 * self.flap_mm - self.border_mm

    def stretch_of(self, worked_mm: float, flap_mm: float | None = None) -> float:
        """By which fraction a worked length stretches on the object; negative: it lies slack."""
        on_object = worked_mm + self.border_mm - 2 * (self.flap_mm if flap_mm is None else flap_mm)
        return self.fit_mm / on_object - 1 if on_object > 0 else float("inf")

    def holds(self, stretch: float) -> bool:
        """Whether a stretch is inside the range."""
        return self.stretch is None or self.stretch[0] - self.slack - CLOSE <= stretch <= self.stretch[1] + CLOSE

    def off(self, stretch: float) -> float:
        """How far a stretch is outside the range; 0 inside."""
        if self.stretch is None or self.holds(stretch):
            return 0.0
        return max(self.stretch[0] - self.slack - stretch, stretch - self.stretch[1])


def spans(request: SizingRequest) -> tuple[Span, Span]:
    """The directions across (the stitches) and up (the rows).

    A tube stretches round the thing, not upward.
    Where the chain runs round a book, the flaps lie in every row, so the strip's span has them beside it.
    """
    plain, strip = directions(request.kind, request.object_mm)
    rule = OBJECT_KINDS[request.kind]
    eases = rule.fit == "ease"
    counted = (0.0, 0.0) if rule.holds else borders_mm(request)
    both = {
        name: Span(name, request.object_mm[name], border_mm, 0.0, request.stretch, eases)
        for name, border_mm in zip((plain, strip), counted, strict=True)
    }
    if rule.rounds:
        both[strip] = replace(both[strip], stretch=None)
    across, up = both[request.chain_along], both[strip if request.chain_along == plain else plain]
    if rule.fit == "stretch" and any(section.striped for section in request.sections):
        up = replace(up, slack=LEAST_SLACK)  # so that whole stripes are not lost for less than a gauge is sure of
    if across.name == strip and "flap" in rule.extras:
        across = Span(
            strip, across.fit_mm, across.border_mm, request.object_mm.get("flap", 0.0), request.stretch
        )
    return across, up


def borders_mm(request: SizingRequest) -> tuple[float, float]:
    """What the border adds to the finished piece over all, in the plain and in the strip direction."""
    if request.border is None:
        return 0.0, 0.0
    border = request.border
    return border_adds_mm(request.kind, request.object_mm, border.row_mm, border.rounds, joins=border.joins)


def moved(stretch: float, *, eases: bool = False) -> str:
    """A stretch in words, as what the piece does; of what `eases`, how much room it has.

    >>> moved(0.028), moved(-0.003), moved(-0.035)
    ('stretches 2.8 %', 'fits without stretch', 'is 3.5 % too large')
    """
    if eases:
        room = 1 / (1 + stretch) - 1
        if show_percent(room) == "0 %":
            return "has no room to spare"
        return f"has {show_percent(room)} of room" if room > 0 else f"is {show_percent(-room)} too tight"
    if -LEAST_SLACK <= stretch <= 0 or show_percent(stretch) == "0 %":
        return "fits without stretch"
    return f"stretches {show_percent(stretch)}" if stretch > 0 else f"is {show_percent(-stretch)} too large"


def percent_range(span: Span) -> str:
    """The stretch range as it is printed: "0 % to 6 % of stretch"; the room, of what eases."""
    low, high = span.stretch or (0.0, 0.0)
    if span.eases:
        return f"{show_percent(1 / (1 + high) - 1)} to {show_percent(1 / (1 + low) - 1)} of room"
    return f"{show_percent(low)} to {show_percent(high)} of stretch"
