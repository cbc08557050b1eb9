"""CairoSVG, librsvg and Chromium draw the same sheet alike.

Under 0.5 % of the inked pixels may differ by more than a quarter of the scale.
"""

import io
import subprocess
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from hookfold.charts.drawing.display import Group, Ink, Sheet, Text
from hookfold.charts.drawing.svg import write
from hookfold.charts.layout.sheets.specimen import specimen
from hookfold.charts.output.export import pdf, png
from hookfold.charts.output.pdf import Metadata
from hookfold.charts.output.stroked import sheet_image, sheet_png, sheets_pdf
from PIL import Image
from pypdf import PdfReader
from renderers import CHROMIUM, Grey, differing, grey

PX_PER_MM = 8.0

def furniture() -> Sheet:
    """Dashes, tints, hairlines, turned words: what the specimen has not."""
    pens = ((0.15, ()), (0.3, (1.6, 1.0)), (0.35, (3.0, 0.8, 0.5, 0.8)), (1.0, (1.0, 0.8)))
    lines = tuple(
        Ink(f"M10 {10 + 6 * i}L110 {13 + 6 * i}", stroke="#1d1d1b", width=width, dash=dash)
        for i, (width, dash) in enumerate(pens)
    )
    tint = Ink("M10 40L60 40L60 60L10 60Z", fill="#f0efeb", stroke="#8c8c86", width=0.25)
    curve = Ink("M70 60C80 20 90 80 110 40", stroke="#3a6ead", width=0.3)
    words = (
        Text(12.0, 50.0, "Flat 250 × 385 mm, Größe ½", 4.0),
        Text(60.0, 75.0, "bold and middle 0123456789", 3.0, "middle", "bold"),
        Text(115.0, 45.0, "turned", 3.0, "middle", angle=90.0),
    )
    return Sheet(120.0, 80.0, "Furniture", (Group("lines", lines), tint, curve, *words))


SHEETS = {"specimen": specimen, "furniture": furniture}


@pytest.fixture(scope="module", params=SHEETS)
def drawn(
    request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory
) -> tuple[Path, Sheet, Grey]:
    sheet = SHEETS[request.param]()
    path = tmp_path_factory.mktemp("sheet") / "sheet.svg"
    path.write_bytes(write(sheet))
    return path, sheet, grey(png(path.read_bytes(), PX_PER_MM * 25.4))


def size(sheet: Sheet) -> tuple[int, int]:
    return round(sheet.width * PX_PER_MM), round(sheet.height * PX_PER_MM)


def test_a_sheet_moved_by_one_pixel_would_be_found() -> None:
    picture = grey(png(write(furniture()), PX_PER_MM * 25.4))
    assert differing(picture, np.roll(picture, 1, axis=1)) > 0.05


def test_cairo_strokes_the_sheet_as_cairosvg_draws_its_svg(drawn: tuple[Path, Sheet, Grey]) -> None:
    _, sheet, ours = drawn
    assert differing(ours, grey(sheet_png(sheet, PX_PER_MM * 25.4))) < 0.005


def test_the_pixels_of_a_sheet_are_those_of_its_file() -> None:
    """Its colours in their order, and each line of pixels where it begins."""
    sheet = replace(furniture(), background="#ffe0d0")
    kept, drawn = Image.open(io.BytesIO(sheet_png(sheet, 100.0))).convert("RGB"), sheet_image(sheet, 100.0)
    assert drawn.size == (472, 315) and kept.tobytes() == drawn.tobytes()


def test_a_pdf_holds_the_strokes_and_says_the_words_where_they_stand() -> None:
    """The file that is stroked straight beside the one that CairoSVG makes of the SVG: text by text, its place too."""
    sheet = furniture()
    straight, reference = (placed_words(data) for data in (sheets_pdf([sheet], Metadata("A")), pdf([write(sheet)], Metadata("A"))))
    assert straight == reference and len(straight) == 3


def placed_words(data: bytes) -> list[tuple[str, int, int]]:
    """The words of a file's first page with the points where they begin; the page is 120 mm wide."""
    page = PdfReader(io.BytesIO(data)).pages[0]
    assert float(page.mediabox.width) == pytest.approx(120.0 * 72 / 25.4, abs=0.01)
    found: list[tuple[str, int, int]] = []

    def seen(text: str, _: object, matrix: list[float], *__: object) -> None:
        if text.strip():
            found.append((text, round(matrix[4]), round(matrix[5])))

    page.extract_text(visitor_text=seen)
    return found


def test_librsvg_draws_what_cairosvg_draws(drawn: tuple[Path, Sheet, Grey], tool: Callable[[str], str]) -> None:
    path, sheet, ours = drawn
    width, height = size(sheet)
    done = subprocess.run(
        [tool("rsvg-convert"), "-w", str(width), "-h", str(height), path],
        check=True, capture_output=True, timeout=120,
    )  # fmt: skip
    assert differing(ours, grey(done.stdout)) < 0.005


@pytest.mark.slow
def test_chromium_draws_what_cairosvg_draws(
    drawn: tuple[Path, Sheet, Grey], tmp_path: Path, tool: Callable[[str], str]
) -> None:
    path, sheet, ours = drawn
    width, height = size(sheet)
    page = path.with_suffix(".html")
    look = f"display:block;width:{width}px;height:{height}px"
    page.write_text(f'<body style="margin:0"><img src="sheet.svg" style="{look}">')
    shot = tmp_path / "shot.png"
    subprocess.run(
        [tool("chromium"), *CHROMIUM, f"--user-data-dir={tmp_path / 'profile'}", f"--screenshot={shot}",
         f"--window-size={width},{height}", page.as_uri()],
        check=True, capture_output=True, timeout=180,
    )  # fmt: skip
    assert differing(ours, grey(shot.read_bytes())) < 0.005
