"""Why a row cannot go on, and how much working one row may cost."""

from __future__ import annotations

from ...made_late import dataclass
from ...pattern.tree import NOWHERE, Op, Span
from .wording import are, stitches, them

MOST_MADE = 20_000
MOST_STEPS = 60_000
#: What it costs to try the words after a repeat: patterns of all kinds try them up to thirty times in a row.
TRY_STEPS = 10
MOST_TRIES = 12
MOST_TRIED_STARTS = 400
MOST_TOTAL = 600_000
MOST_WORKED_ROWS = 20_000


class Stuck(Exception):
    """The row cannot go on: what is wrong, one thing to try, and where the words stand."""

    def __init__(self, says: str, remedy: str, at: Span = NOWHERE, kind: str = "impossible") -> None:
        super().__init__(says)
        self.says, self.remedy, self.at, self.kind = says, remedy, at, kind

    def __eq__(self, other: object) -> bool:
        """Faults are values: what is told twice in the same words is one."""
        return type(self) is type(other) and isinstance(other, Stuck) and self._told() == other._told()

    def __hash__(self) -> int:
        return hash(self._told())

    def _told(self) -> tuple[str, str, Span, str]:
        return self.says, self.remedy, self.at, self.kind

    def at_place(self, at: Span) -> Stuck:
        """The same fault, where the words stand if that is not said yet."""
        return self if self.at != NOWHERE else Stuck(self.says, self.remedy, at, self.kind)

    def in_repetition(self, turn: int, total: int, at: Span) -> Stuck:
        """The same fault, saying in which repetition it came up; a limit is a limit in any."""
        inner = self.kind == "limit" or "(in repetition" in self.says
        says = self.says if inner else f"{self.says} (in repetition {turn} of {total})"
        return Stuck(says, self.remedy, self.at if self.at != NOWHERE else at, self.kind)


class OtherStart(Stuck):
    """The row below begins with a chain of another number, `has`, than the words name."""

    def __init__(self, below: str, has: int, named: int, at: Span = NOWHERE) -> None:
        super().__init__(f"{below} begins with ch {has}, not ch {named}", f'write "beg ch-{has}"', at)
        self.below, self.has, self.named = below, has, named

    def at_place(self, at: Span) -> Stuck:
        return self if self.at != NOWHERE else OtherStart(self.below, self.has, self.named, at)


@dataclass(slots=True)
class Steps:
    """What working may still cost: one step a clause played, over all readings tried of one row."""

    left: int = MOST_STEPS

    def spend(self, op: Op, steps: int = 1) -> None:
        """Take steps off; Stuck when none is left."""
        self.left -= steps
        if self.left < 0:
            raise Stuck(
                f"working this row takes more than {MOST_STEPS:,} steps, which is the limit",
                "write it with fewer or smaller repeats", getattr(op, "at", NOWHERE), "limit",
            )  # fmt: skip


def left_before(over: int, below: str, what: str) -> Stuck:
    """Stitches lie between the hook and the place that the words name next."""
    says = f"{stitches(over)} of {below} {are(over)} left before {what}"
    return Stuck(says, f"work {them(over)}, or say that {'it is' if over == 1 else 'they are'} skipped")
