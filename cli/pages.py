"""The commands that write pages for a browser."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click
from hookfold.charts import engrave

from .commands import main, tell_kept
from .disk.files import printable, read_text, suffix_of, write_one
from .options import setting_of, setting_options
from .progress import working
from .report import reporting

_FILE = click.argument("file", metavar="FILE")
_OUT = click.option("-o", "--out", required=True, metavar="OUT", help='A .html file, or "-": standard output.')


@main.command()
@_FILE
@_OUT
@setting_options("size", "hand", "terms")
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


@main.command("fit-page")
@_FILE
@_OUT
@setting_options("terms")
@reporting
def fit_page(file: str, out: str, **asked: Any) -> None:
    """Write a page on which a reader fits the pattern to her own object and gauge (.html).

    She types her measurements (mm, cm or inches) and her gauge, and the page reckons counts, rows, fit, yarn and the
    rows in words, as the tool would. It is one file and needs no network.

    \b
    Example:
      hookfold fit-page cover.toml -o cover-fit.html
    """
    suffix_of(out, ("html",), "html")
    text, name = read_text(file)
    with working("Writing the page"):
        made = engrave.fit_page(text, name, setting_of(text, asked))
    write_one(out, made)


@main.command()
@click.argument("folder", metavar="DIR", type=click.Path(exists=True, file_okay=False, path_type=Path))
@reporting
def gallery(folder: Path) -> None:
    """Write a contact sheet of a folder of patterns: its index.html.

    It shows the patterns (.toml and .txt) in the folder and in the folders inside it, each with its picture where there
    is one, its chart, its sizes, and links to the sheets that lie beside it.

    \b
    Example:
      hookfold gallery my-patterns
    """
    from hookfold.charts.output.pages.gallery import gallery_page

    from .disk.folders import write_set
    from .gallery import cards_of
    from .start import title_of

    with working("Looking through the folder"):
        made = gallery_page(cards_of(folder), title_of(folder.resolve().name))
    written = write_set(folder, {"index.html": made}, whole=False)
    click.echo("\n".join(printable(str(path)) for path in written.paths))
    tell_kept(written)
