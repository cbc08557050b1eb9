"""PNG and PDF from the same SVG: true size, same bytes, metadata, words that can be found."""

import builtins
import io
import re
import struct
import subprocess
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from hookfold.charts.drawing.display import Group, Ink, Sheet, Text
from hookfold.charts.drawing.svg import write
from hookfold.charts.output.export import (
    AREA_LIMIT_PX,
    SIDE_LIMIT_PX,
    CairoMissing,
    Metadata,
    OutlineEntry,
    TooLarge,
    dpi_that_fits,
    pdf,
    pixels,
    png,
    size_mm,
)
from PIL import Image
from pypdf import PdfReader

WORDS = "Row 1 (RS): ½ → ✓ “Zoë”"


def page(width: float = 210.0, height: float = 297.0, words: str = WORDS) -> bytes:
    bar = Ink("M20 50L120 50", stroke="#000000", width=1.0, name="bar")
    text = Text(20.0, 80.0, words, 4.0, weight="bold")
    turned = Text(15.0, 150.0, "turned words", 4.0, "middle", angle=-90.0)
    return write(Sheet(width, height, "A page", (Group("all", (bar, text, turned)),)))


PAGES = (page(), page(215.9, 279.4), page(297.0, 210.0))
ABOUT = Metadata(
    "Mat <1>", "A. Maker", "A mat", keywords=("crochet", "mat"), labels=("Cover", "1", "2"), language="en"
)
OUTLINE = (OutlineEntry("Mat", 1), OutlineEntry("Chart", 2, 1), OutlineEntry("Words", 3, 1))


@pytest.fixture(scope="module")
def booklet() -> bytes:
    return pdf(PAGES, ABOUT, OUTLINE)


@pytest.fixture(scope="module")
def read(booklet: bytes) -> PdfReader:
    return PdfReader(io.BytesIO(booklet))


def test_the_size_is_read_from_the_sheet() -> None:
    assert size_mm(PAGES[1]) == (215.9, 279.4)
    with pytest.raises(ValueError, match="size in mm"):
        size_mm(b"<svg width='10'/>")


@pytest.mark.parametrize("dpi", [72.0, 150.0, 300.0])
def test_a_png_has_its_size_and_says_its_resolution(dpi: float) -> None:
    data = png(PAGES[0], dpi)
    image = Image.open(io.BytesIO(data))
    assert image.size == pixels(*size_mm(PAGES[0]), dpi) == (round(210 / 25.4 * dpi), round(297 / 25.4 * dpi))
    assert image.info["dpi"] == pytest.approx((dpi, dpi), abs=0.02)


def test_the_resolution_stands_right_after_the_header() -> None:
    """PNG specification, 11.3.5.3: pHYs comes before the image data; 300 dpi is 11811 pixels a metre."""
    data = png(PAGES[0], 300.0)
    assert data[37:41] == b"pHYs"
    assert struct.unpack(">IIB", data[41:50]) == (11811, 11811, 1)


def test_a_bar_of_100_mm_is_100_mm_on_the_png() -> None:
    image = Image.open(io.BytesIO(png(PAGES[0], 254.0))).convert("L")
    row = [image.getpixel((x, 500)) for x in range(image.width)]
    dark = [x for x, value in enumerate(row) if value < 128]
    assert dark[-1] - dark[0] + 1 == pytest.approx((100.0 + 1.0) * 10, abs=1)


def test_a_png_too_large_says_what_would_fit() -> None:
    wide = write(Sheet(3000.0, 10.0, "Wide", ()))
    with pytest.raises(TooLarge, match="use 277 dpi or less"):
        png(wide, 300.0)
    assert max(pixels(*size_mm(wide), 277.0)) <= SIDE_LIMIT_PX


def test_pages_keep_their_own_true_size(read: PdfReader) -> None:
    sizes = [(float(p.mediabox.width), float(p.mediabox.height)) for p in read.pages]
    wanted = [(210.0, 297.0), (215.9, 279.4), (297.0, 210.0)]
    assert sizes == [pytest.approx((w / 25.4 * 72, h / 25.4 * 72), abs=0.01) for w, h in wanted]


def test_the_same_sheets_give_the_same_bytes(booklet: bytes) -> None:
    assert pdf(PAGES, ABOUT, OUTLINE) == booklet


def test_metadata_and_fixed_dates(read: PdfReader) -> None:
    about = read.metadata
    assert about is not None
    assert (about.title, about.author, about.subject) == ("Mat <1>", "A. Maker", "A mat")
    assert about["/Keywords"] == "crochet, mat"
    assert about["/CreationDate"] == about["/ModDate"] == "D:20000101000000Z"


def test_bookmarks_labels_language_and_printing_at_true_size(read: PdfReader) -> None:
    top, below = read.outline
    assert (top["/Title"], [entry["/Title"] for entry in below]) == ("Mat", ["Chart", "Words"])
    assert [read.get_destination_page_number(entry) for entry in (top, *below)] == [0, 1, 2]
    assert read.page_labels == ["Cover", "1", "2"]
    root = read.trailer["/Root"]
    assert root["/ViewerPreferences"]["/PrintScaling"] == "/None"
    assert root["/Lang"] == "en"


def test_words_can_be_found_on_every_page(read: PdfReader) -> None:
    for number in range(3):
        text = read.pages[number].extract_text()
        assert WORDS in text
        assert "turned words" in text


def test_more_characters_than_one_font_holds_can_be_found() -> None:
    many = [chr(c) for c in (*range(0x21, 0x7F), *range(0xA1, 0xAD), *range(0xAE, 0x180))]
    lines = ["".join(many[i : i + 40]) for i in range(0, len(many), 40)]
    items = tuple(Text(10.0, 20.0 + 8 * i, line, 4.0) for i, line in enumerate(lines))
    found = PdfReader(io.BytesIO(pdf([write(Sheet(210.0, 297.0, "Many", items))], Metadata("Many"))))
    text = re.sub(r"\s", "", found.pages[0].extract_text())
    assert text == re.sub(r"\s", "", "".join(lines))


def test_without_sheets_there_is_no_pdf() -> None:
    with pytest.raises(ValueError, match="at least one sheet"):
        pdf([], Metadata("Nothing"))


def test_words_change_no_pixel(tmp_path: Path, tool: Callable[[str], str]) -> None:
    program = tool("pdftoppm")
    with_words = pdf([PAGES[0]], Metadata("A"))
    without = pdf([re.sub(rb' aria-label="[^"]*"', b"", PAGES[0])], Metadata("A"))
    assert with_words != without
    assert raster(program, with_words, tmp_path / "with") == raster(program, without, tmp_path / "without")


def raster(program: str, data: bytes, stem: Path) -> bytes:
    stem.with_suffix(".pdf").write_bytes(data)
    subprocess.run([program, "-r", "100", "-gray", stem.with_suffix(".pdf"), stem], check=True, timeout=60)
    return next(stem.parent.glob(f"{stem.name}-*.pgm")).read_bytes()


def test_words_lie_over_their_outlines(tmp_path: Path, tool: Callable[[str], str]) -> None:
    (tmp_path / "a.pdf").write_bytes(pdf([PAGES[0]], Metadata("A")))
    done = subprocess.run(
        [tool("pdftotext"), "-bbox", "a.pdf", "-"], cwd=tmp_path, check=True, capture_output=True, timeout=60
    )
    sides = "".join(rf' {side}="([\d.]+)"' for side in ("xMin", "yMin", "xMax", "yMax"))
    found = re.search(sides + ">Row<", done.stdout.decode())
    assert found
    left, top, _, bottom = (float(v) / 72 * 25.4 for v in found.groups())
    assert left == pytest.approx(20.0, abs=0.05)
    assert top < 80.0 < bottom + 0.5


def test_where_cairo_is_missing_the_error_says_how_to_get_it(monkeypatch: pytest.MonkeyPatch) -> None:
    real = builtins.__import__

    def missing(name: str, *rest: Any, **more: Any) -> Any:
        if name.split(".")[0] in ("cairosvg", "cairocffi"):
            raise OSError("no library called cairo was found")
        return real(name, *rest, **more)

    monkeypatch.setattr(builtins, "__import__", missing)
    for make in (lambda: png(PAGES[0], 72.0), lambda: pdf([PAGES[0]], Metadata("A"))):
        with pytest.raises(CairoMissing, match="apt-get install libcairo2"):
            make()


@pytest.mark.parametrize("side_mm", [500.0, 3000.0, 9000.0, 60_000.0, 83_000.0])
def test_what_is_too_large_is_drawn_as_finely_as_it_can_be_in_tens(side_mm: float) -> None:
    dpi = dpi_that_fits(side_mm, 300.0)
    assert dpi >= 10.0 and dpi % 10.0 == 0.0

    def fits(at: float) -> bool:
        wide, high = pixels(side_mm, 300.0, at)
        return max(wide, high) <= SIDE_LIMIT_PX and wide * high <= AREA_LIMIT_PX

    assert fits(dpi) and not fits(dpi + 20.0)
