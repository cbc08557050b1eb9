"""What came of pages that were told in many manners: of each its rows as they were read, of all a report."""

from __future__ import annotations

import argparse
import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from hookfold.charts.model.cloth.fabric import WorkedRow
from hookfold.charts.model.rows.work import Worked


@dataclass(frozen=True)
class Outcome:
    """What came of a page of some `kind`: what was told of it, if anything, and the stitches of its rows as they are
    read and as they were `wanted`."""

    kind: str
    text: str
    told: str
    counts: list[int]
    wanted: list[int]

    @property
    def right(self) -> bool:
        return self.counts == self.wanted

    @property
    def clean(self) -> bool:
        return self.right and not self.told

    @property
    def silent(self) -> bool:
        return not self.right and not self.told

    @property
    def compared(self) -> str:
        """What was read beside what was wanted."""
        return f"stitches {self.counts} for {self.wanted}"


def rows_of(worked: Worked) -> list[WorkedRow]:
    """The rows of all pieces of a page."""
    several = len(worked.pieces) > 1
    return [row for piece in worked.pieces for row in piece.fabric.rows] if several else list(worked.fabric.rows)


def told_of(worked: Worked) -> str:
    """The first problem of a page as it is reported; "" where there is none."""
    return worked.problems[0].report() if worked.problems else ""


def options(says: str) -> argparse.ArgumentParser:
    """The options that every such run has."""
    parser = argparse.ArgumentParser(description=says)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--count", type=int, default=500)
    parser.add_argument("--show", type=int, default=20, help="so many kinds of failures are shown, each by one page")
    return parser


def report(outcomes: Sequence[Outcome], show: int) -> None:
    """Print how many pages were read, kind by kind, and the most frequent failures, each with one page."""
    clean, silent = sum(o.clean for o in outcomes), sum(o.silent for o in outcomes)
    print(f"{len(outcomes)} pages: {clean} read without a complaint ({clean / len(outcomes):.1%}), {silent} wrong and silent")
    by_kind = Counter(o.kind for o in outcomes)
    print(", ".join(f"{kind} {sum(o.clean for o in outcomes if o.kind == kind)}/{n}" for kind, n in by_kind.items()))
    failed: dict[str, Outcome] = {}
    often: Counter[str] = Counter()
    for one in outcomes:
        if not one.clean:
            said = one.told.splitlines()[-2] if one.told else "wrong and silent"
            like = f"{one.kind}: {re.sub(r'[0-9]+', 'N', said)}"
            often[like] += 1
            failed.setdefault(like, one)
    for like, times in often.most_common(show):
        one = failed[like]
        print(f"\n{times} of {like}\n{one.text}{one.told}\n  {one.compared}")
