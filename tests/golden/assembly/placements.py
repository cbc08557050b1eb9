"""Writes the placements that the golden foldings pin: run it after a change that was looked at and is wanted."""

from __future__ import annotations

import sys
from collections.abc import Iterator, Sequence
from pathlib import Path

HERE = Path(__file__).parent
sys.path.insert(0, str(HERE.parents[1]))

import folding_plans as plans  # noqa: E402
from hookfold.charts.drawing.display import Group, Ink, Text  # noqa: E402
from hookfold.charts.folding.border import border_plan  # noqa: E402
from hookfold.charts.folding.folds import folding_of  # noqa: E402
from hookfold.charts.layout.assembly.sheets import assembly_document  # noqa: E402
from hookfold.charts.setting import Heading, Setting  # noqa: E402
from sheet_boxes import points_of  # noqa: E402

#: Each case pins one property, said in its first line.
CASES = {
    "pouch": ("The front folds up onto the back, the flap down over both.", plans.pouch, "right"),
    "pouch-left": ("For the left hand only the border goes the other way round.", plans.pouch, "left"),
    "book": ("Both flaps fold onto the wrong side and are joined at their short edges.", plans.book, "right"),
    "wrapped-book": ("Worked round the book, the flaps are columns and not rows.", plans.wrapped_book, "right"),
    "strap-book": ("A strap is narrower than the piece and lies beside its middle.", plans.strap_book, "right"),
    "cushion": ("The two parts of the back lie on each other where they overlap.", plans.cushion, "right"),
    "pocket-panel": ("Pockets fold up at both ends of a panel that stays flat.", plans.pocket_panel, "right"),
}


def placements(name: str) -> str:
    """What stands in the steps of a folding, as text: step, what, and its place on the sheet in mm.

    A drawn thing has the box of its points (left, top, right, bottom), words the place where they are set.
    """
    says, make, hand = CASES[name]
    plan = make()
    folding = folding_of(plan, hand=hand)
    border = border_plan(plan, hand=hand, folding=folding)
    setting = Setting(hand=hand, unit=plan.unit)
    document = assembly_document(plan, Heading("Cover"), setting, folding=folding, border=border, bordered=True)
    lines = [f"# {says}"]
    for number, sheet in enumerate(document.sheets, 1):
        for step in sheet.items:
            if isinstance(step, Group) and step.name.startswith("step "):
                lines += [f"sheet {number}, {step.name}; {line}" for line in _things(step.items)]
    return "\n".join(lines) + "\n"


def _things(items: Sequence[object]) -> Iterator[str]:
    for item in items:
        if isinstance(item, Group):
            yield from _things(item.items)
        elif isinstance(item, Text) and item.text.strip():
            yield f'"{item.text}"; {item.x:.1f} {item.y:.1f}'
        elif isinstance(item, Ink) and item.name.strip():
            xs, ys = zip(*points_of(item), strict=True)
            yield f"{item.name.strip()}; {min(xs):.1f} {min(ys):.1f} {max(xs):.1f} {max(ys):.1f}"


if __name__ == "__main__":
    for case in CASES:
        (HERE / f"{case}.txt").write_text(placements(case), "utf-8")
