"""Pictures of one sheet by several renderers, as grey, and how much of their ink differs."""

import io
import re
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

import numpy as np
from numpy.typing import NDArray
from PIL import Image

CHROMIUM = (
    "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--hide-scrollbars",
    "--disable-background-networking", "--disable-component-update", "--disable-sync",
    "--force-device-scale-factor=1",
)  # fmt: skip

Grey = NDArray[np.float32]


def laid_out(svg: str) -> str:
    """A sheet with the letters themselves wherever one is used that is defined once: CairoSVG reads its definition anew
    each time, which is most of what it does. Other renderers are handed the sheet as it is, so they must agree on what
    a use means with what is laid out here."""
    letters = {found["name"]: found["d"] for found in re.finditer(r'<path d="(?P<d>[^"]*)" id="(?P<name>letter[^"]*)" />', svg)}

    def letter(use: re.Match[str]) -> str:
        moved = f' transform="translate({use["x"]} 0)"' if use["x"] else ""
        return f'<path d="{letters[use["name"]]}"{moved} />'

    out = re.sub(r'<use (?:x="(?P<x>[^"]*)" )?xlink:href="#(?P<name>[^"]*)" />', letter, svg)
    assert "<use" not in out
    return out


@contextmanager
def outlines_read_once() -> Iterator[None]:
    """CairoSVG reads path data anew wherever it stands, and nearly all of a sheet's is the outlines of letters: within
    this each outline that is only filled is read by CairoSVG once, and its path laid down wherever it stands."""
    from cairosvg.surface import TAGS

    read, known = TAGS["path"], {}

    def path(surface: Any, node: Any) -> None:
        data = node.get("d", "")
        if "stroke" in node or data not in known:
            read(surface, node)
            if "stroke" not in node:
                known[data] = surface.context.copy_path(), node.vertices
            return
        surface.context.append_path(known[data][0])
        node.vertices = known[data][1].copy()

    TAGS["path"] = path
    try:
        yield
    finally:
        TAGS["path"] = read


@contextmanager
def pixels_kept() -> Iterator[list[Grey]]:
    """What CairoSVG draws within this, as grey, without a way through a file that is packed and unpacked again: a quarter
    of the time. That the file shows the pixels is held by checks of the export."""
    from cairosvg.surface import PNGSurface

    kept: list[Grey] = []
    finish = PNGSurface.finish

    def finished(self: Any) -> Any:
        self.cairo.flush()
        wide, high, stride = self.cairo.get_width(), self.cairo.get_height(), self.cairo.get_stride()
        drawn = np.frombuffer(self.cairo.get_data(), np.uint8).reshape(high, stride // 4, 4)[:, :wide].astype(np.float32)
        # Blue, green, red, each as much as is not see-through, over white paper.
        blue, green, red = (drawn[..., k] + (255.0 - drawn[..., 3]) for k in range(3))
        kept.append((0.114 * blue + 0.587 * green + 0.299 * red) / 255.0)
        self.output = None
        return finish(self)

    PNGSurface.finish = finished
    try:
        yield kept
    finally:
        PNGSurface.finish = finish


def grey(data: bytes) -> Grey:
    image = Image.open(io.BytesIO(data)).convert("RGBA")
    paper = Image.new("RGBA", image.size, "white")
    return np.asarray(Image.alpha_composite(paper, image).convert("L"), dtype=np.float32) / 255.0


def differing(one: Grey, other: Grey) -> float:
    """The share of the inked pixels that differ by more than a quarter of the scale."""
    assert one.shape == other.shape
    inked = (one < 0.9) | (other < 0.9)
    return float((np.abs(one - other) > 0.25).sum() / inked.sum())
