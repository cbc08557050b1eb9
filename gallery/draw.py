"""Draw the gallery again: every piece's sheets and words, every fabric's chart, the contact sheet.

Run from the repository with the tool's own Python: .venv/bin/python gallery/draw.py
"""

from __future__ import annotations

import io
import sys
from pathlib import Path

from hookfold.charts import engrave
from hookfold.charts.layout.squares.corner import corner_grid
from hookfold.charts.layout.squares.grid import is_filet
from hookfold.charts.model.rows.work import work_text
from hookfold.charts.output.export import png
from hookfold.charts.setting import ChartSetting, Setting

HERE = Path(__file__).parent
FABRICS, SQUARES = HERE / "fabrics", HERE / "squares"
COLUMNS, CELL_PX, DPI = 4, (560, 400), 130.0
PICTURE_PX, SMALL_PX = 900, 480


def pieces() -> list[Path]:
    """The pattern files of the gallery's pieces."""
    return sorted(HERE.glob("*/pattern.toml"))


def small_pieces() -> list[Path]:
    """The pattern files of the pieces that are shown small: one of each further kind."""
    return sorted(HERE.glob("more/*/pattern.toml"))


def fabrics() -> list[Path]:
    """The written fabrics, in the order of the contact sheet."""
    return sorted(FABRICS.glob("*.txt"))


def in_squares() -> list[Path]:
    """The written pictures in filet, too large to be followed stitch by stitch: each is drawn in squares only."""
    return sorted(SQUARES.glob("*.txt"))


def own_terms(text: str) -> str:
    return "UK" if 'terms   = "UK"' in text or text.startswith("Terms: UK") else "US"


def piece_files(pattern: Path) -> dict[str, bytes]:
    """What is committed of a piece beside its pictures: chart and folding as SVG, the words."""
    text = pattern.read_text(encoding="utf-8")
    setting = Setting(terms=own_terms(text))
    name = str(pattern.relative_to(HERE.parent))
    out = {
        "chart.svg": engrave.chart(text, name, setting, ("svg",))["svg"],
        "instructions.md": engrave.instructions(text, name, setting).encode("utf-8"),
    }
    piece = engrave.work_file(text, name)
    if piece.folding.stages or pattern in small_pieces():
        out["assembly.svg"] = engrave.assembly(text, name, setting, ("svg",))["svg"]
    return out


def share_image(pattern: Path) -> bytes:
    """The square image that is shared of a piece."""
    text, name = pattern.read_text(encoding="utf-8"), str(pattern.relative_to(HERE.parent))
    return engrave.share(text, name, Setting(terms=own_terms(text)))["share-square.png"]


def fabric_picture(pattern: Path, width_px: int = PICTURE_PX) -> bytes:
    """A piece as it will look: on its object where it is folded for one, close up where it is a flat panel."""
    text = pattern.read_text(encoding="utf-8")
    name = str(pattern.relative_to(HERE.parent))
    piece = engrave.work_file(text, name)
    view = "close" if not piece.folding.stages else "folded" if piece.plan.kind == "pocket panel" else "on-object"
    view = "flat" if piece.fabric.start == "magic ring" else view
    return engrave.fabric_picture(text, name, Setting(), (view, "right", width_px, "jpg"))


def fabric_chart(pattern: Path) -> bytes:
    """A fabric's chart, straight from its words."""
    text = pattern.read_text(encoding="utf-8")
    return engrave.chart(text, pattern.name, Setting(extent="full", terms=own_terms(text)), ("svg",))["svg"]


def fabric_squares(pattern: Path) -> bytes | None:
    """A fabric of filet, or of blocks from corner to corner, as a grid of squares; None of another."""
    text = pattern.read_text(encoding="utf-8")
    fabric = work_text(text).fabric
    if not is_filet(fabric) and corner_grid(fabric, "right") is None:
        return None
    setting = Setting(extent="full", terms=own_terms(text))
    return engrave.chart(text, pattern.name, setting, ("svg",), ChartSetting(style="squares"))["svg"]


def contact_sheet(charts: dict[str, bytes]) -> bytes:
    """All fabrics on one picture: each chart cut out of its page, with its name."""
    from PIL import Image, ImageDraw, ImageFont

    rows = -(-len(charts) // COLUMNS)
    sheet = Image.new("RGB", (COLUMNS * CELL_PX[0], rows * CELL_PX[1]), "white")
    pen = ImageDraw.Draw(sheet)
    for at, (name, svg) in enumerate(charts.items()):
        x, y = at % COLUMNS * CELL_PX[0], at // COLUMNS * CELL_PX[1]
        picture = _cut_out(Image.open(io.BytesIO(png(svg, DPI))).convert("RGB"))
        picture.thumbnail((CELL_PX[0] - 40, CELL_PX[1] - 80), Image.Resampling.LANCZOS)
        sheet.paste(picture, (x + (CELL_PX[0] - picture.width) // 2, y + 56 + (CELL_PX[1] - 80 - picture.height) // 2))
        pen.text((x + 20, y + 14), name.replace("-", " "), fill="#1d1d1b", font=ImageFont.load_default(26))
    out = io.BytesIO()
    sheet.save(out, "PNG", optimize=True)
    return out.getvalue()


def _cut_out(page):
    """The chart on a page: between the header's rule and the rule above the key."""
    from PIL import Image, ImageChops

    grey = page.convert("L")
    wide, high = grey.size
    pixels = grey.load()
    # A rule runs unbroken from margin to margin; stems in one line do not.
    middle = range(int(wide * 0.15), int(wide * 0.85), 3)
    rules = [y for y in range(high) if all(pixels[x, y] < 225 for x in middle)]
    top = next(y for y in rules if y + 1 not in rules) + 4 if rules else int(high * 0.1)
    after = [y for y in rules if y > top + 20]
    bottom = min(after) - 4 if after else high
    part = page.crop((0, top, wide, bottom))
    box = ImageChops.difference(part, Image.new("RGB", part.size, "white")).getbbox()
    return part.crop(box) if box else part


def main() -> int:
    for pattern in small_pieces():
        for name, data in piece_files(pattern).items():
            (pattern.parent / name).write_bytes(data)
        (pattern.parent / "fabric.jpg").write_bytes(fabric_picture(pattern, SMALL_PX))
        print(pattern.parent.name)
    for pattern in pieces():
        for name, data in piece_files(pattern).items():
            (pattern.parent / name).write_bytes(data)
        (pattern.parent / "fabric.jpg").write_bytes(fabric_picture(pattern))
        (pattern.parent / "picture.png").write_bytes(share_image(pattern))
        print(pattern.parent.name)
    charts = {}
    for pattern in fabrics():
        charts[pattern.stem] = fabric_chart(pattern)
        pattern.with_suffix(".svg").write_bytes(charts[pattern.stem])
        squares = fabric_squares(pattern)
        if squares is not None:
            pattern.with_name(f"{pattern.stem}-squares.svg").write_bytes(squares)
    for pattern in in_squares():
        pattern.with_suffix(".svg").write_bytes(fabric_squares(pattern))
    (FABRICS / "contact-sheet.png").write_bytes(contact_sheet(charts))
    print(f"{len(charts)} fabrics")
    return 0


if __name__ == "__main__":
    sys.exit(main())
