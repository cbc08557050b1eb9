"""The command that prints everything as one booklet."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click
from hookfold.charts import engrave

from .commands import main
from .disk.files import read_text, suffix_of, write_one
from .options import setting_of, setting_options
from .progress import working
from .report import reporting


@main.command()
@click.argument("file", metavar="FILE")
@click.option("-o", "--out", required=True, metavar="OUT", help='A .pdf file, or "-": standard output.')
@click.option("--columns", type=click.IntRange(1, 2), default=1, help="Columns of the text; one where not given.")
@click.option("--photo", metavar="PHOTO", help="A photograph for the cover; else the pattern's own.")
@setting_options("terms", "hand", "paper", "extent", "sc", "mono")
@reporting
def booklet(file: str, out: str, *, columns: int, photo: str | None, **asked: Any) -> None:
    """Print all of a pattern as one booklet (PDF).

    \b
    Example:
      hookfold booklet cover.toml -o cover.pdf
      hookfold booklet shawl.txt -o shawl.pdf --paper Letter --columns 2
    """
    from .disk.photograph import photograph

    suffix_of(out, ("pdf",), "pdf")
    text, name = read_text(file)
    setting = setting_of(text, asked)
    picture = photograph(photo, text, Path(file).parent if file != "-" else Path())
    with working("Setting the booklet"):
        picture = picture or engrave.cover(text, name, setting)
        made = engrave.booklet(text, name, setting, columns=columns, photo=picture)
    write_one(out, made)
    for lack in engrave.booklet_lacks(text, name):
        click.echo(f"Note: {file}: the booklet has {lack}", err=True)
