"""An image as a file: JPEG or PNG, in sRGB, with its dots per inch, the same bytes every time."""

from __future__ import annotations

import functools
import io
from typing import Any

from .scene import Image

#: Pictures for the screen say so many dots an inch.
DPI = 144
QUALITY = 88


@functools.cache
def srgb() -> bytes:
    """The sRGB profile, without the day on which it was made."""
    from PIL import ImageCms

    made = bytearray(ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes())
    made[24:36] = bytes((7, 208, 0, 1, 0, 1, 0, 0, 0, 0, 0, 0))
    made[84:100] = bytes(16)
    return bytes(made)


def encoded(image: Image, suffix: str, *, quality: int = QUALITY) -> bytes:
    """An image (high, wide, 3) as a ".jpg" or a ".png" file."""
    from PIL import Image as Pictures

    out = io.BytesIO()
    picture = Pictures.fromarray(image)
    more: dict[str, Any] = {"dpi": (DPI, DPI), "icc_profile": srgb()}
    if suffix == "png":
        picture.save(out, "PNG", optimize=True, **more)
    else:
        picture.save(out, "JPEG", quality=quality, optimize=True, subsampling=0, **more)
    return out.getvalue()
