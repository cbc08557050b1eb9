"""A scene: yarn in its colours before a camera, drawn to an image, with the stitch that every pixel shows."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np
import numpy.typing as npt

from ..made_late import dataclass
from .loose import loose_fibres
from .seeing.canvas import Canvas, fill_pinholes
from .seeing.light import Ground, linear, lit
from .seeing.tubes import Strands, draw_yarn
from .strokes import Floats, Ints, radius
from .yarn import Bundle

Image = npt.NDArray[np.uint8]
#: Where points of space fall on the canvas: x and y in pixels, depth, and how many pixels a stitch width is there.
Project = Callable[[Floats], tuple[Floats, Floats]]
#: The most pixels that are drawn, before they are made fewer: memory and time go with them.
MOST_CELLS = 10_000_000
#: Yarn is no farther above the ground than this, in stitch widths.
GROUND_BELOW = 0.62
#: Hairs are seen where a stitch width is at least so many pixels.
HAIRS_FROM = 24.0
#: Grounds: for dark and for light yarn, so that gaps are seen as gaps.
GROUNDS = ("#cfc5b5", "#8d857b")
LIGHT_YARN = 0.36


@dataclass(frozen=True, slots=True)
class Camera:
    """An upright look at the cloth: the box that is seen, in stitch widths, on so many pixels."""

    left: float
    bottom: float
    right: float
    top: float
    width_px: int

    @property
    def height_px(self) -> int:
        return max(1, round(self.width_px * (self.top - self.bottom) / (self.right - self.left)))

    def shrink(self) -> int:
        """How many pixels of the canvas, a side, make one of the image."""
        for many in (3, 2):
            if self.width_px * self.height_px * many**2 <= MOST_CELLS and self.width_px * many <= 2400:
                return many
        return 1

    def scale(self, shrink: int) -> float:
        """Pixels of the canvas to a stitch width."""
        return self.width_px * shrink / (self.right - self.left)


@dataclass(frozen=True, slots=True)
class Drawn:
    """An image (high, wide, 3) in sRGB, and for each pixel the number of the stitch it shows (-1: none)."""

    image: Image
    stitches: Ints


def draw_flat(
    bundles: Sequence[Bundle], colours: Sequence[str], camera: Camera, yarn: float = 1.0, *, under: float = 0.0
) -> Drawn:  # fmt: skip
    """Yarn lying before the camera; `colours` are "#rrggbb" by their places, `yarn` how thick it
    is beside the usual, `under` the height of the lowest cloth."""
    return draw_in_colours(bundles, [colours], camera, yarn, under=under)[0]


def draw_in_colours(
    bundles: Sequence[Bundle], tables: Sequence[Sequence[str]], camera: Camera, yarn: float = 1.0, *, under: float = 0.0
) -> list[Drawn]:  # fmt: skip
    """The same in several tables of colours: what lies where is found once."""
    shrink = camera.shrink()
    px = camera.scale(shrink)
    canvas = Canvas(camera.width_px * shrink, camera.height_px * shrink)
    offset = np.array((camera.left, camera.top, 0.0), dtype=np.float32)
    ways = np.array((px, -px, px), dtype=np.float32)

    def strands(bundle: Bundle, least: float = 0.0) -> Strands:
        thick = np.full(len(bundle.points), max(radius() * yarn * bundle.thick * px, least), dtype=np.float32)
        return Strands((bundle.points - offset) * ways, thick, bundle.stitch, bundle.colour)

    draw_yarn(canvas, [strands(bundle) for bundle in bundles])
    fill_pinholes(canvas, 0.05 * px)
    if px / shrink >= HAIRS_FROM:
        canvas.solid = canvas.halved()
        draw_yarn(canvas, [strands(loose_fibres(bundle, yarn, at), 0.5) for at, bundle in enumerate(bundles)])
    low = (under - GROUND_BELOW) * px
    return [finished(canvas, px, colours, Ground(linear(ground_for(colours)), low), shrink) for colours in tables]


def finished(canvas: Canvas, stitch_px: float, colours: Sequence[str], ground: Ground, shrink: int) -> Drawn:
    """The canvas lit and made smaller, with the stitch in the middle of every pixel."""
    palette = np.array([linear(c) for c in colours], dtype=np.float32)
    image = lit(canvas, stitch_px, palette, ground, shrink)
    owners = canvas.owner[:-1].reshape(canvas.high, canvas.wide)
    middle = shrink // 2
    return Drawn(image, owners[middle::shrink, middle::shrink][: image.shape[0], : image.shape[1]])


def ground_for(colours: Sequence[str]) -> str:
    """A ground that stands off from the yarn: dark under light yarn, light under dark."""
    bright = [0.2126 * r + 0.7152 * g + 0.0722 * b for r, g, b in map(linear, colours)]
    return GROUNDS[sum(bright) / len(bright) > LIGHT_YARN]
