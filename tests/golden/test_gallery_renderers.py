"""CairoSVG, librsvg and Chromium agree on every sheet of the gallery: under 0.2 % of the ink, under 0.5 % in Chromium,
differs by more than a quarter of the scale."""

import hashlib
import math
import os
import re
import subprocess
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest
from hookfold.charts.output.export import png, size_mm
from renderers import CHROMIUM, Grey, differing, grey, laid_out, outlines_read_once, pixels_kept

GALLERY = Path(__file__).parents[2] / "gallery"
SHEETS = sorted(GALLERY.rglob("*.svg"))
PX_PER_MM = 4.0
BATCH = 12
#: Of the ink, what may differ: librsvg strokes as CairoSVG does, by cairo; Chromium by a library of its own.
MOST, MOST_OF_ANOTHER = 0.002, 0.006

pytestmark = pytest.mark.slow


def padded(sheet: Path, to: Path) -> Path:
    """The sheet with paper added on the right and below until its sides are whole pixels.

    A renderer must round the sides of a picture, and each then stretches the drawing by its own part of a pixel, which
    at the far end moves a hair line to the next column: what differs there is the rounding and not the ink.
    """
    text = sheet.read_text("utf-8")
    sides = [math.ceil(side * PX_PER_MM - 1e-6) / PX_PER_MM for side in size_mm(text.encode())]
    for name, side in zip(("width", "height"), sides, strict=True):
        text, found = re.subn(rf'(<svg[^>]*? {name}=")[^"]*mm"', rf'\g<1>{side:g}mm"', text, count=1)
        assert found
    text, found = re.subn(r'(<svg[^>]*? viewBox=")0 0 [^"]*"', rf'\g<1>0 0 {sides[0]:g} {sides[1]:g}"', text, count=1)
    assert found
    (to / sheet.name).write_text(text, "utf-8")
    return to / sheet.name


def _own(folder: Path, number: int) -> Path:
    """A folder of its own for a sheet, since several have one name."""
    own = folder / str(number)
    own.mkdir()
    return own


def pixels(sheet: Path) -> tuple[int, int]:
    wide, high = size_mm(sheet.read_bytes())
    return round(wide * PX_PER_MM), round(high * PX_PER_MM)


@pytest.fixture(scope="session")
def ours(tmp_path_factory: pytest.TempPathFactory) -> Callable[[Path], Grey]:
    """Draws a sheet, once for all renderers and all processes of a run: what is drawn is kept by what stands in it."""
    base = tmp_path_factory.getbasetemp()
    folder = (base.parent if "PYTEST_XDIST_WORKER" in os.environ else base) / "drawn-by-us"
    folder.mkdir(exist_ok=True)

    def draw(sheet: Path) -> Grey:
        data = sheet.read_bytes()
        kept = folder / f"{hashlib.sha256(data).hexdigest()}.npy"
        if not kept.exists():
            own = folder / f"{kept.stem}-{os.getpid()}.npy"
            with outlines_read_once(), pixels_kept() as drawn:
                png(laid_out(data.decode()).encode(), PX_PER_MM * 25.4)
            np.save(own, drawn[0])
            own.rename(kept)
        return np.load(kept)

    return draw


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda p: str(p.relative_to(GALLERY)))
def test_librsvg_agrees(sheet: Path, tmp_path: Path, tool: Callable[[str], str], ours: Callable[[Path], Grey]) -> None:
    whole = padded(sheet, tmp_path)
    wide, high = pixels(whole)
    command = [tool("rsvg-convert"), "-w", str(wide), "-h", str(high), whole]
    drawn = subprocess.run(command, check=True, capture_output=True, timeout=120)
    assert differing(ours(whole), grey(drawn.stdout)) < MOST


@pytest.mark.parametrize("first", range(0, len(SHEETS), BATCH))
def test_chromium_agrees(first: int, tmp_path: Path, tool: Callable[[str], str], ours: Callable[[Path], Grey]) -> None:
    sheets = [padded(sheet, _own(tmp_path, n)) for n, sheet in enumerate(SHEETS[first : first + BATCH])]
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
        assert differing(ours(sheet), drawn[top : top + high, :wide]) < MOST_OF_ANOTHER, sheet
        top += high
