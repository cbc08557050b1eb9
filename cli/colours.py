"""The command that shows a piece in other colours."""

from __future__ import annotations

import click
from hookfold.charts import engrave

from .commands import main
from .disk.files import read_text, suffix_of, write_one
from .progress import working
from .report import reporting

FORMS = ("png", "pdf", "md", "txt")


@main.command()
@click.argument("file", metavar="FILE")
@click.option("-o", "--out", default="-", metavar="OUT", help="An image (.png, .pdf), or words (.md); else the words.")
@reporting
def colours(file: str, out: str) -> None:
    """Show a piece in other colours: swapped, striped otherwise, one yarn alone; with ends and small balls.

    \b
    Example:
      hookfold colours cover.toml -o colours.png
      hookfold colours cover.toml
    """
    suffix = suffix_of(out, FORMS, "md")
    text, name = read_text(file)
    with working("Drawing the colours"):
        made = engrave.colours(text, name, suffix)
    write_one(out, made)
