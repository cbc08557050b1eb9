"""CairoSVG, librsvg and Chromium agree on every sheet of the gallery: under 0.5 % of the ink differs by more than a
quarter of the scale."""

import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest
from hookfold.charts.output.export import png, size_mm
from renderers import CHROMIUM, differing, grey

GALLERY = Path(__file__).parents[2] / "gallery"
SHEETS = sorted(GALLERY.rglob("*.svg"))
#: A sheet's sides are rounded to whole pixels, which moves its lines by parts of one: at one of two sizes they agree.
PX_PER_MM, AGAIN = 5.0, 6.0
BATCH = 6
MOST = 0.005

pytestmark = pytest.mark.slow


def pixels(sheet: Path, px: float = PX_PER_MM) -> tuple[int, int]:
    wide, high = size_mm(sheet.read_bytes())
    return round(wide * px), round(high * px)


def ours(sheet: Path, px: float = PX_PER_MM):
    return grey(png(sheet.read_bytes(), px * 25.4))


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda p: str(p.relative_to(GALLERY)))
def test_librsvg_agrees(sheet: Path, tool: Callable[[str], str]) -> None:
    def off(px: float) -> float:
        wide, high = pixels(sheet, px)
        command = [tool("rsvg-convert"), "-w", str(wide), "-h", str(high), sheet]
        drawn = subprocess.run(command, check=True, capture_output=True, timeout=120)
        return differing(ours(sheet, px), grey(drawn.stdout))

    assert off(PX_PER_MM) < MOST or off(AGAIN) < MOST


@pytest.mark.parametrize("first", range(0, len(SHEETS), BATCH))
def test_chromium_agrees(first: int, tmp_path: Path, tool: Callable[[str], str]) -> None:
    sheets = SHEETS[first : first + BATCH]
    sizes = [pixels(sheet) for sheet in sheets]
    page, shot = tmp_path / "page.html", tmp_path / "shot.png"
    images = (
        f'<img src="{sheet.as_uri()}" style="display:block;width:{wide}px;height:{high}px">'
        for sheet, (wide, high) in zip(sheets, sizes, strict=True)
    )
    page.write_text('<body style="margin:0">' + "".join(images))
    size = f"--window-size={max(w for w, _ in sizes)},{sum(h for _, h in sizes)}"
    profile = f"--user-data-dir={tmp_path / 'profile'}"
    command = [tool("chromium"), *CHROMIUM, "--allow-file-access-from-files", profile, f"--screenshot={shot}", size, page.as_uri()]
    subprocess.run(command, check=True, capture_output=True, timeout=240)
    drawn, top = grey(shot.read_bytes()), 0
    for sheet, (wide, high) in zip(sheets, sizes, strict=True):
        assert differing(ours(sheet), drawn[top : top + high, :wide]) < MOST, sheet
        top += high
