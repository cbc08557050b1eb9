"""The command that draws the fabric itself."""

from __future__ import annotations

from typing import Any

import click
from hookfold.charts import engrave

from .disk.files import read_text, suffix_of, write_one
from .options import setting_of, setting_options
from .progress import working
from .report import reporting

VIEWS = ("flat", "folded", "on-object", "close")


@click.command()
@click.argument("file", metavar="FILE")
@click.option("-o", "--out", required=True, metavar="OUT", help='A file (.png or .jpg), or "-": standard output.')
@click.option("--view", type=click.Choice(VIEWS), default="flat", show_default=True,
              help="The whole piece, folded and joined, on what it is for, or one repeat close up.")
@click.option("--side", type=click.Choice(("right", "wrong")), default="right", show_default=True,
              help="The side of the fabric that is seen.")
@click.option("--width", type=click.IntRange(200, 2400), default=1080, show_default=True, metavar="PX",
              help="Width of the picture in pixels.")
@setting_options("hand")
@reporting
def picture(file: str, out: str, view: str, side: str, width: int, **asked: Any) -> None:
    """Draw the fabric as it will look, stitch by stitch (.png or .jpg).

    \b
    Example:
      hookfold picture cover.toml -o cover.jpg --view on-object
      hookfold picture shells.txt -o shells.png --view close --side wrong
    """
    suffix = suffix_of(out, ("png", "jpg", "jpeg"), "png")
    text, name = read_text(file)
    with working("Drawing the fabric"):
        made = engrave.fabric_picture(text, name, setting_of(text, asked), (view, side, width, suffix))
    write_one(out, made, [file])
