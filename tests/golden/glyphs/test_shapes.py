"""No glyph changes its shape unnoticed: one line a glyph, its box first, then its ink.

After a change that was meant, write the file anew and read its diff:

    python tests/golden/glyphs/test_shapes.py
"""

from pathlib import Path

import legibility
from hookfold.charts.drawing.geometry import number, path_data
from hookfold.symbols import Mark, chain_stack, extent, magic_ring, turn

KEPT = Path(__file__).with_name("shapes.txt")


def shapes() -> dict[str, str]:
    """Every glyph by name, as one line."""
    marks = legibility.kinds() | {f"{k} as x": m for k, m in legibility.kinds("x").items() if "sc" in k}
    marks |= {"magic ring": magic_ring((0.0, 0.0), 0.7), "turn": turn((0.0, 0.0))}
    marks |= {f"beginning chain {n}": chain_stack((0.0, 0.0), (0.0, -0.7 * n - 0.1), n) for n in (1, 3, 5)}
    return {name: shape(mark) for name, mark in sorted(marks.items())}


def shape(mark: Mark) -> str:
    box = " ".join(number(v) for v in extent(mark))
    return f"box {box} | strokes {path_data(mark.strokes)} | fills {path_data(mark.fills)}"


def kept() -> dict[str, str]:
    lines = KEPT.read_text("utf-8").splitlines()
    return dict(line.split(": ", 1) for line in lines)


def changes(before: dict[str, str], after: dict[str, str]) -> list[str]:
    """What changed, in words: gone, new, its box, or only its ink."""
    said = [f"{name} is gone" for name in before if name not in after]
    said += [f"{name} is new" for name in after if name not in before]
    for name in before.keys() & after.keys():
        if before[name] != after[name]:
            old, new = (text.split(" | ")[0] for text in (before[name], after[name]))
            said.append(f"{name}: {old} became {new}" if old != new else f"{name}: its ink changed inside its box")
    return sorted(said)


def test_glyphs_keep_their_shapes() -> None:
    assert changes(kept(), shapes()) == []


def test_a_moved_bar_is_noticed() -> None:
    moved = dict(kept())
    moved["dc"] = moved["dc"].replace("-2.05", "-2.15")
    assert changes(kept(), moved) == [
        "dc: box -0.38 -2.05 0.38 -0.07 became box -0.38 -2.15 0.38 -0.07"
    ]


if __name__ == "__main__":
    KEPT.write_text("".join(f"{name}: {line}\n" for name, line in shapes().items()), "utf-8")
