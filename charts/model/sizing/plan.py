"""The plan of a sized piece: what sizing settled, for the worker, the words and the folding to follow.

Two directions: `across` is the stitch direction (along the foundation), `up` the row direction (rows stack).
All lengths are in millimetres, planned from the gauge.
"""

from __future__ import annotations

from ...made_late import dataclass


@dataclass(frozen=True, slots=True)
class SectionPlan:
    """A section as it will be worked: its rows (numbered through all sections from 1) and their heights.

    `row_kinds` names the tallest stitch of each row ("sc", "hdc", ...), `row_heights_mm` their planned heights.
    `colours` is the colour key of each row ("" where the pattern has none). `stitches` is given only for a section
    over fewer stitches than the plan's, worked in the middle of the row (a strap): those of its last row. `widths` are
    the stitches of each row where they differ (a crown, a section that slants).
    """

    name: str
    first_row: int
    row_kinds: tuple[str, ...]
    row_heights_mm: tuple[float, ...]
    colours: tuple[str, ...]
    wanted_mm: float | None = None
    stitches: int | None = None
    widths: tuple[int, ...] = ()

    def counts(self, whole: int) -> tuple[int, ...]:
        """The stitches of each row; `whole` are the plan's."""
        return self.widths or (self.stitches or whole,) * self.rows

    @property
    def rows(self) -> int:
        return len(self.row_kinds)

    @property
    def length_mm(self) -> float:
        return sum(self.row_heights_mm)


@dataclass(frozen=True, slots=True)
class Option:
    """One count that was weighed: stitches or rows, the length it gives, and how far it is from the wanted one."""

    count: int
    repeats: int
    length_mm: float
    off_mm: float
    chosen: bool
    why: str = ""


@dataclass(frozen=True, slots=True)
class Plan:
    """What sizing settled.

    `kind` is book, pouch, cushion or panel; `stitches` per row; `foundation` chains in all (turning share in);
    `chain_along` is "height", "wrap" or "width"; `object_mm` the measured object {"height","wrap","flap"} as far as
    given; `finished_mm` the worked piece {"across","up"} lying flat before its border: the size to block to; `flat_mm`
    the same with the border where that is worked round the flat piece. `between_mm` {"height","wrap"} is the piece
    folded, from join to join or fold to fold, and `over_all_mm` the same with the border outside it and with what
    stands out past its edge (a strap) laid out; `stretch` {"height","wrap"} the fraction by which it stretches on the
    object (0.03 = 3 %; negative: too large).
    `border_stitch_mm` is the width of one border stitch along an edge, if a swatch gives it; `border_row_mm`
    the height of one of its `border_rounds`; None without a border. `flap_stitches` are the stitches of each
    flap where the chain runs round the book (else 0). `estimates` say in words what was not measured;
    `remarks` say which rows fall on another side than was marked; `rows_measured` whether a swatch says how high rows
    are;
    `stretch_range` is what the pattern allows, None where it does not say.
    """

    kind: str
    unit: str
    chain_along: str
    stitches: int
    foundation: int
    multiple_of: int
    multiple_plus: int
    chain_plus: int
    stitch_mm: float
    sections: tuple[SectionPlan, ...]
    object_mm: dict[str, float]
    finished_mm: dict[str, float]
    flat_mm: dict[str, float]
    between_mm: dict[str, float]
    over_all_mm: dict[str, float]
    stretch: dict[str, float]
    across_options: tuple[Option, ...] = ()
    up_options: tuple[Option, ...] = ()
    border_stitch_mm: float | None = None
    border_row_mm: float | None = None
    corner: int = 3
    joins: bool = False
    estimates: tuple[str, ...] = ()
    flap_stitches: int = 0
    border_rounds: int = 1
    stretch_range: tuple[float, float] | None = None
    remarks: tuple[str, ...] = ()
    rows_measured: bool = False

    @property
    def rows(self) -> int:
        return sum(s.rows for s in self.sections)
