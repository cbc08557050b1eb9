"""The commands that write pages for a browser."""

from __future__ import annotations

from typing import Any

import click
from hookfold.charts import engrave

from .commands import main
from .files import read_text, suffix_of, write_one
from .options import setting_of, setting_options
from .progress import working
from .report import reporting

_FILE = click.argument("file", metavar="FILE")
_OUT = click.option("-o", "--out", required=True, metavar="OUT", help='A .html file, or "-": standard output.')


@main.command()
@_FILE
@_OUT
@setting_options("hand", "terms")
@reporting
def follow(file: str, out: str, **asked: Any) -> None:
    """Write a page to work from, row by row, on a phone (.html).

    It is one file and needs no network: the chart with the row in work lit up, its words and its count, your place
    kept. Hand and terms are only what it begins with.

    \b
    Example:
      hookfold follow cover.toml -o cover.html
    """
    suffix_of(out, ("html",), "html")
    text, name = read_text(file)
    with working("Writing the page"):
        made = engrave.follow(text, name, setting_of(text, asked))
    write_one(out, made)
