"""A maker's own photograph: read, turned upright, made as small as print needs, and freed of what the camera noted."""

from __future__ import annotations

import io
from pathlib import Path
from typing import TYPE_CHECKING

import click

from .files import printable

if TYPE_CHECKING:
    from hookfold.charts.output.booklet.book import Picture

#: The longest side in pixels: 170 mm at 240 to the inch; and the most pixels that are read.
LONGEST_PX = 1600
MOST_PX = 120_000_000


def photograph(asked: str | None, text: str, folder: Path) -> Picture | None:
    """The photograph that is asked for, else the one that the pattern names (`photo = "..."`, beside it); None without.

    A click error where it cannot be read or is no picture. Where it was taken (GPS) and by what camera is left out.
    """
    from hookfold.charts.output.booklet.book import Picture

    named = asked or _own(text)
    if not named:
        return None
    path = Path(named) if asked else folder / named
    return Picture(_small(path), "jpg", "Photograph of the finished piece")


def _own(text: str) -> str:
    """The photograph that a pattern file names; "" where it names none, or is no pattern file."""
    import tomllib

    try:
        found = tomllib.loads(text).get("photo", "")
    except (tomllib.TOMLDecodeError, ValueError, RecursionError):
        return ""
    return found if isinstance(found, str) else ""


def _small(path: Path) -> bytes:
    from PIL import Image, ImageOps, UnidentifiedImageError

    name = printable(str(path))
    try:
        with Image.open(path, formats=("JPEG", "PNG")) as found:
            if found.width * found.height > MOST_PX:
                raise click.UsageError(f"{name} has more than {MOST_PX:,} pixels; make it smaller first.")
            upright = ImageOps.exif_transpose(found).convert("RGB")
    except UnidentifiedImageError:
        raise click.UsageError(f"{name} is no JPEG or PNG picture.") from None
    except (OSError, Image.DecompressionBombError) as wrong:
        raise click.UsageError(f"{name} cannot be read: {getattr(wrong, 'strerror', None) or wrong}.") from None
    upright.thumbnail((LONGEST_PX, LONGEST_PX))
    out = io.BytesIO()
    upright.save(out, "JPEG", quality=85, optimize=True)
    return out.getvalue()
