"""Writes what stands where on the sheets that the golden cases pin: run it after a change that was looked at and is wanted."""

from __future__ import annotations

import re
import sys
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path

HERE = Path(__file__).parent
for folder in (HERE.parents[1], HERE.parents[1] / "unit" / "layout"):
    sys.path.insert(0, str(folder))

import cloth  # noqa: E402
import folding_plans as plans  # noqa: E402
from hookfold.charts.drawing.display import Group, Ink, Sheet, Text  # noqa: E402
from hookfold.charts.layout.assembly.sheets import assembly_document  # noqa: E402
from hookfold.charts.layout.assembly.template import template_document  # noqa: E402
from hookfold.charts.layout.chart.either import chart_document  # noqa: E402
from hookfold.charts.layout.sheets.measuring import measuring_document  # noqa: E402
from hookfold.charts.layout.sheets.mistake import Mistake, mistake_sheet  # noqa: E402
from hookfold.charts.model.rows.work import work_text  # noqa: E402
from hookfold.charts.setting import Heading, Setting  # noqa: E402

HEAD = Heading("Quay cover", "A. Weir", "CC0")
Sheets = Sequence[Sheet]

ROUNDS = """Ch 4, join with sl st to form a ring.
Rnd 1: With A, ch 1, 6 sc in ring, join with sl st to first sc. (6 sc)
Rnd 2: With B, ch 1, 2 sc in each sc around, join with sl st to first sc. (12 sc)
Rnd 3: Ch 1, *sc in next sc, ch 3, sk next sc; rep from * around, join with sl st to first sc. (6 sc)
Rnd 4: With A, ch 1, *sc in next sc, 3 hdc in next ch-3 sp; rep from * around, join with sl st to first sc. (6 sc, 18 hdc)
"""
CONDENSED = """Ch 64.
Row 1: Sc in 2nd ch from hook, *sk 2 ch, 5 dc in next ch, sk 2 ch, sc in next ch; rep from * across, sk 2 ch, 2 dc in next ch, sc in last ch.
"""
WORK = """Ch 42.
Row 1: Sc in 2nd ch from hook and in each ch across. (41 sc)
Row 2: Ch 1, turn. Sc in first sc, *ch 3, sk 3 sc, sc in next sc; rep from * across. (11 sc)
Row 3: Ch 1, turn. Sc in first sc, *3 sc in next ch-3 sp, sc in next sc; rep from * across. (41 sc)
Rows 4-9: Rep Rows 2 and 3.
"""


def folded(kind: str, hand: str = "right") -> Callable[[], Sheets]:
    return lambda: assembly_document(plans.ALL[kind](), HEAD, Setting(hand=hand)).sheets


def paper(kind: str) -> Callable[[], Sheets]:
    return lambda: template_document(plans.ALL[kind](), HEAD).sheets


def charted(text: str, **setting: str) -> Callable[[], Sheets]:
    return lambda: chart_document(work_text(text).fabric, HEAD, Setting(**setting)).sheets


def mistaken() -> Sheets:
    base = cloth.each("sc", 13, 2, 1, False).rows[1].row
    hook = cloth.Hook(base).start(1).do("sc", 3).one("dc", "dc").do("sc", 4)
    return (mistake_sheet(Mistake(base, tuple(hook.made), left=tuple(hook.items))),)


#: Each case pins one kind of sheet, said in its first line.
CASES: dict[str, tuple[str, Callable[[], Sheets]]] = {
    "book": ("A book cover: folded, joined and bordered.", folded("book")),
    "pouch-left": ("A pouch with its flap, for the left hand.", folded("pouch", "left")),
    "open-bag": ("A bag that stays open at the top.", folded("open bag")),
    "hat": ("A hat: what is measured, and how it is worn.", folded("hat")),
    "paper-pouch": ("A pouch's paper in true size, over its pages.", paper("pouch")),
    "measuring-book": ("How a book is measured.", lambda: measuring_document("book", HEAD, Setting()).sheets),
    "mistake": ("Five stitches left over.", mistaken),
    "rounds": ("Four rounds in two colours, with their numbers.", charted(ROUNDS)),
    "repeated-rows": ("Rows that repeat, and a repeat in each, in brackets.", charted(WORK)),
}  # fmt: skip


def things(items: Sequence[Group | Ink | Text], within: str = "") -> Iterator[str]:
    """A line for each text and each ink: its group, what it is, and its place or its box in mm."""
    for item in items:
        if isinstance(item, Group):
            yield from things(item.items, item.name)
        elif isinstance(item, Text):
            turned = " upright" if item.angle else ""
            yield f"{within}; text{turned} {item.anchor}: {item.text}; {item.x:.1f}; {item.y:.1f}"
        else:
            numbers = [float(v) for v in re.findall(r"-?\d+(?:\.\d+)?", item.d)]
            xs, ys = numbers[::2], numbers[1::2]
            what = f"{item.name or 'ink'}{' filled' if item.fill else ''}{' dashed' if item.dash else ''}, {len(xs)} points"
            if re.search(r"[a-z]", item.d):  # steps from point to point: where it starts
                yield f"{within}; {what}, stepped; {xs[0]:.1f}; {ys[0]:.1f}"
            else:
                yield f"{within}; {what}; {min(xs):.1f}; {min(ys):.1f}; {max(xs):.1f}; {max(ys):.1f}"


def listing(name: str) -> str:
    """What stands where on the sheets of a case, but for the lines in common of every sheet."""
    says, make = CASES[name]
    lines = [f"# {says}"]
    for number, sheet in enumerate(make(), 1):
        lines.append(f"sheet {number}; {sheet.title}; {sheet.width:.1f}; {sheet.height:.1f}")
        lines += things([item for item in sheet.items if not (isinstance(item, Group) and item.name in ("header", "footer"))])
    return "\n".join(lines) + "\n"


if __name__ == "__main__":
    for case in CASES:
        (HERE / f"{case}.txt").write_text(listing(case), "utf-8")
