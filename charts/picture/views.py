"""The views of a piece: flat and whole, close up, folded, on its object."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Literal

import numpy as np

from ..made_late import dataclass, replace
from .cloth import Cloth, Made
from .folded import Folded
from .parts import bundles_of, yarn_in
from .scene import Camera, Drawn, draw_flat, draw_in_colours
from .yarn import Bundle

View = Literal["flat", "folded", "on-object", "close"]
Side = Literal["right", "wrong"]

#: White round the piece, as a share of its longer side, and in stitch widths at least.
MARGIN, LEAST_MARGIN = 0.05, 1.2
#: White round yarn that reaches out of the cloth, in stitch widths at least.
LEAST_AIR = 0.8
#: An image is no taller, and no flatter, than so many times its width.
TALLEST, FLATTEST = 1.6, 0.4
#: A close-up shows so many stitches across, and is so high for its width.
CLOSE_LEAST, CLOSE_MOST, CLOSE_HIGH = 7.0, 15.0, 0.75


@dataclass(frozen=True, slots=True)
class Look:
    """How the piece is wanted: the side that is seen, the width of the image, and its height where that is set."""

    side: Side = "right"
    width_px: int = 1080
    height_px: int | None = None


def flat_view(cloth: Cloth, colours: Mapping[str, str], look: Look) -> Drawn:
    """The whole piece lying flat."""
    left, bottom, right, top = cloth.box
    margin = max(LEAST_MARGIN, MARGIN * max(right - left, top - bottom))
    box = (left - margin, bottom - margin, right + margin, top + margin)
    return _drawn(cloth, colours, look, _shaped(_round_all(cloth, colours, box), look))


def _round_all(
    cloth: Cloth, colours: Mapping[str, str], box: tuple[float, float, float, float]
) -> tuple[float, float, float, float]:
    """A box made so large that yarn which reaches far out of the cloth (a picot) has air about it."""
    points = np.concatenate([b.points.reshape(-1, 3)[:, :2] for b in bundles_of(cloth, tuple(colours))])
    (left, bottom), (right, top) = points.min(axis=0) - LEAST_AIR, points.max(axis=0) + LEAST_AIR
    return (min(box[0], float(left)), min(box[1], float(bottom)), max(box[2], float(right)), max(box[3], float(top)))


def close_view(cloth: Cloth, colours: Mapping[str, str], look: Look) -> Drawn:
    """One repeat and a little of what lies about it."""
    box = _close_box(cloth, look)
    return _drawn(cloth, colours, look, box)


def close_views(cloth: Cloth, tables: Sequence[Mapping[str, str]], look: Look) -> list[Drawn]:
    """One repeat from its right side in several tables of colours, all with the same keys in the same order."""
    box = _close_box(cloth, look)
    yarn = yarn_in(_within(cloth, box), tuple(tables[0]))
    return draw_in_colours(yarn, [list(table.values()) for table in tables], Camera(*box, look.width_px), cloth.yarn)


def _close_box(cloth: Cloth, look: Look) -> tuple[float, float, float, float]:
    """What a close look is at."""
    left, bottom, right, top = cloth.box
    wide = min(max(cloth.repeat[0] * 1.25 + 1.0, CLOSE_LEAST), CLOSE_MOST, right - left)
    share = look.height_px / look.width_px if look.height_px else CLOSE_HIGH
    x, y = cloth.middle
    high = wide * share
    x = min(max(x, left + wide / 2), right - wide / 2)
    y = min(max(y, bottom + high / 2), top - high / 2) if top - bottom > high else (bottom + top) / 2
    return x - wide / 2, y - high / 2, x + wide / 2, y + high / 2


def folded_view(piece: Folded, colours: Mapping[str, str], look: Look) -> Drawn:
    """The piece folded and joined, seen from straight above."""
    left, bottom, right, top = piece.box
    margin = max(LEAST_MARGIN, MARGIN * max(right - left, top - bottom)) + 1.0
    box = _shaped((left - margin, bottom - margin, right + margin, top + margin), look)
    camera = Camera(*box, look.width_px)
    return draw_flat(list(piece.bundles), list(colours.values()), camera, piece.yarn, under=piece.low)


def _shaped(box: tuple[float, float, float, float], look: Look) -> tuple[float, float, float, float]:
    """A box made as tall or as wide as the image must be, the piece in its middle."""
    left, bottom, right, top = box
    share = (top - bottom) / (right - left)
    want = look.height_px / look.width_px if look.height_px else min(max(share, FLATTEST), TALLEST)
    wide = max(right - left, (top - bottom) / want)
    high = wide * want
    x, y = (left + right) / 2, (bottom + top) / 2
    return x - wide / 2, y - high / 2, x + wide / 2, y + high / 2


def _drawn(
    cloth: Cloth, colours: Mapping[str, str], look: Look, box: tuple[float, float, float, float]
) -> Drawn:
    """What of the cloth lies in a box, from the side that is wanted."""
    bundles = list(yarn_in(_within(cloth, box), tuple(colours)))
    if look.side == "wrong":
        bundles = [turned(b, cloth.box) for b in bundles]
        left, right = cloth.box[0] + cloth.box[2] - box[2], cloth.box[0] + cloth.box[2] - box[0]
        box = (left, box[1], right, box[3])
    return draw_flat(bundles, list(colours.values()), Camera(*box, look.width_px), cloth.yarn)


def _within(cloth: Cloth, box: tuple[float, float, float, float]) -> Cloth:
    """The cloth with what lies far outside the box replaced by nothing to draw; numbers stay."""
    left, bottom, right, top = box
    far = 4.0
    if left - far < cloth.box[0] and right + far > cloth.box[2] and bottom - far < cloth.box[1] and (
        top + far > cloth.box[3]
    ):
        return cloth
    kept = tuple(
        s if left - far < s.head[0] < right + far and bottom - far < s.head[1] < top + far
        else replace(s, spot=replace(s.spot, role="unseen"))
        for s in cloth.stitches
    )
    return replace(cloth, stitches=kept, ended=False)


def turned(bundle: Bundle, box: tuple[float, float, float, float]) -> Bundle:
    """Strands as they lie when the piece is turned over sideways within its box."""
    points = bundle.points * np.array((-1.0, 1.0, -1.0), dtype=np.float32)
    points[:, :, 0] += np.float32(box[0] + box[2])
    return replace(bundle, points=points)


def seen(drawn: Drawn, cloth: Cloth) -> list[Made]:
    """The stitches that are to be seen in an image, in the order of work."""
    return [cloth.stitches[at] for at in np.unique(drawn.stitches).tolist() if at >= 0]
