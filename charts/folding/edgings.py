"""Simple edgings worked on the border's last round, whose repeat must come out even right round the piece."""

from __future__ import annotations

from ..errors import PatternError, Problem
from ..made_late import dataclass
from ..measure import round_half_up


@dataclass(frozen=True, slots=True)
class Edging:
    """An edging: its repeat in stitches of the round below, and its words in US terms."""

    name: str
    of: int
    words: str

    def even(self, stitches: int) -> int:
        """The nearest count that the repeat divides, halves up.

        >>> EDGINGS["shell"].even(101)
        102
        """
        return max(1, round_half_up(stitches / self.of)) * self.of


#: Every edging (our own words; the stitches themselves are common property).
EDGINGS: dict[str, Edging] = {
    "shell": Edging("shell", 6, "*Sk 2 sts, 5 dc in next st, sk 2 sts, sl st in next st; rep from * around."),
    "picot": Edging("picot", 3, "*Sc in next 3 sts, ch 3, sl st in last sc made; rep from * around."),
    "reverse sc": Edging(
        "reverse sc", 1, "Do not turn. Reverse sc (crab stitch) in each st around, back the way you came."
    ),
}


def edging_of(name: str) -> Edging:
    """The edging by name; PatternError names the known ones."""
    if name not in EDGINGS:
        known = ", ".join(EDGINGS)
        raise PatternError(
            [Problem("value", "Border", f'"{name}" is not an edging', f"write one of: {known}")]
        )
    return EDGINGS[name]
