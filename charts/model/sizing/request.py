"""What sizing is asked: plain data about the object, the gauge and the sections."""

from __future__ import annotations

from ...made_late import dataclass
from ...pattern.file.places import Place

NOWHERE = Place(0, 0, 1, "")


@dataclass(frozen=True, slots=True)
class SectionText:
    """What a section's written rows say of each row: its height, whether it is raised, its side.

    `row_kinds` names the stitch that makes the row's height (for a row of bobbles, the stitch between them);
    `raised` says which rows carry stitches that stand away from the worker, `near` which carry such as stand towards
    the worker and none that stand away; `sides` is "RS", "WS" or "" for
    each. A row takes `multiple_of` x k + `multiple_plus` stitches, at least `least`; `chain_plus` is the
    foundation's share for the turning chain. The row repeat begins with `begins` rows worked alike, after `lead` rows
    where the words say from which row it goes. `opening_stripes` and then `stripes`, again and again, are the colours
    of its rows where the words name them.
    """

    row_kinds: tuple[str, ...]
    raised: tuple[bool, ...] = ()
    sides: tuple[str, ...] = ()
    multiple_of: int = 1
    multiple_plus: int = 0
    least: int = 1
    chain_plus: int = 1
    begins: int = 1
    lead: int | None = None
    opening_stripes: tuple[str, ...] = ()
    stripes: tuple[str, ...] = ()
    near: tuple[bool, ...] = ()


@dataclass(frozen=True, slots=True)
class SectionRequest:
    """A section to be sized: a wanted length or a fixed number of rows, and what its rows are.

    `lead` rows stand once at the start, the others repeat. `role` is "body" (it lies on the object), "part"
    (a flap, a pocket, a half of a back) or "rest" (a body that takes what the other sections leave).
    `as_began` asks for one row more after whole repeats, so that the section ends with the row it began with.
    Sections of the same `twin` get the same number of rows. `row_mm` is the section's own mean row height,
    where a swatch says it. `to` is the number of stitches that it ends with where that changes, `over`
    those in the middle of the row that it is worked over where they are fewer; `crown` says that it
    grows in rounds from its middle to the whole width.
    """

    name: str
    text: SectionText
    wanted_mm: float | None = None
    rows: int | None = None
    lead: int = 0
    stripes: tuple[str, ...] = ()
    role: str = "body"
    as_began: bool = False
    raised_on_wrong_side: bool = True
    twin: str = ""
    row_mm: float | None = None
    place: Place = NOWHERE
    rounds: bool = False
    to: int | None = None
    over: int | None = None
    crown: bool = False

    @property
    def repeat_rows(self) -> int:
        return max(1, len(self.text.row_kinds) - self.lead)

    @property
    def striped(self) -> bool:
        """Whether its number of rows is still to be found and stripes have a say in it."""
        return self.rows is None and self.role != "part" and self.as_began and len(set(self.stripes)) > 1

    def written(self, row: int) -> int:
        """Which written row the section's row `row` (both from 0) is."""
        return row if row < self.lead else self.lead + (row - self.lead) % self.repeat_rows

    def kinds(self, rows: int) -> tuple[str, ...]:
        """The stitch of each of `rows` rows."""
        own, lead, again = self.text.row_kinds, self.lead, self.repeat_rows
        return tuple([own[row if row < lead else lead + (row - lead) % again] for row in range(rows)])

    def colour(self, row: int) -> str:
        """The colour letter of the row `row`, from 0; "" without colours."""
        opening = self.text.opening_stripes
        if row < len(opening):
            return opening[row]
        return self.stripes[(row - len(opening)) % len(self.stripes)] if self.stripes else ""


@dataclass(frozen=True, slots=True)
class BorderRequest:
    """A border: the width of its stitch along an edge, the height of a round, how many rounds.

    `measured` says whether a swatch gives the width: the edge's stitches are counted by it, else row end by row end.
    """

    stitch_mm: float
    row_mm: float
    rounds: int = 1
    corner: int = 3
    joins: bool = False
    measured: bool = True

    @property
    def thickness_mm(self) -> float:
        return self.row_mm * self.rounds


@dataclass(frozen=True, slots=True)
class SizingRequest:
    """Everything sizing needs to know.

    `object_mm` are the measurements by name; `row_mm` is the mean row height of the stitches `gauge_kinds`;
    `over_mm` and `over_text` are the length the gauge was counted over, for advice. `stretch` is the least
    and the most the piece may stretch (fractions), None where any fit will do. `line` is where the file gives
    the stretch. `rows_measured` says whether `row_mm` comes from a swatch, `firm` whether its yarn
    hardly stretches.
    """

    kind: str
    chain_along: str
    object_mm: dict[str, float]
    stitch_mm: float
    row_mm: float
    gauge_kinds: tuple[str, ...]
    sections: tuple[SectionRequest, ...]
    multiple_of: int = 1
    multiple_plus: int = 0
    chain_plus: int = 1
    least: int = 1
    border: BorderRequest | None = None
    stretch: tuple[float, float] | None = None
    unit: str = "mm"
    over_mm: float = 100.0
    over_text: str = "10 cm"
    estimates: tuple[str, ...] = ()
    place: Place = NOWHERE
    rows_measured: bool = False
    firm: bool = False
