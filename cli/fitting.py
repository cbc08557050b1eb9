"""Commands about gauge: the swatch to work, and a piece that comes out otherwise."""

from __future__ import annotations

import click
from hookfold.charts.measure import parse_length

from .disk.files import read_text, suffix_of, write_one
from .options import LENGTH
from .progress import terminal_width
from .report import PROBLEMS, reporting


@click.command()
@click.argument("file", metavar="FILE")
@click.option("-o", "--out", default="-", metavar="OUT", help="A .md or .txt file; else standard output.")
@reporting
def gauge(file: str, out: str) -> None:
    """Say what to work for a swatch, and what a wrong gauge would do.

    \b
    Example:
      hookfold gauge cover.toml
    """
    from hookfold.charts.model.sections.gauging import gauge_words

    suffix_of(out, ("md", "txt"), "md")
    write_one(out, gauge_words(*read_text(file)).encode("utf-8"))


@click.command()
@click.argument("file", metavar="FILE")
@click.option("--rows", type=click.IntRange(1), required=True, help="How many rows are worked, from the foundation.")
@click.option("--measures", type=LENGTH, required=True, help="How long they are, laid flat.")
@click.pass_context
@reporting
def refit(ctx: click.Context, /, file: str, *, rows: int, measures: str) -> None:
    """Say how many rows are still to work where the piece comes out otherwise.

    \b
    Example:
      hookfold refit cover.toml --rows 20 --measures "134 mm"
    """
    from hookfold.charts.model.sections.refit import refit as refitted

    text, name = read_text(file)
    found = refitted(text, name, rows, parse_length(measures))
    click.echo("\n".join(found.lines))
    for problem in found.problems:
        click.echo(f"\n{problem.report(terminal_width())}")
    if found.problems:
        ctx.exit(PROBLEMS)


#: Every command of this module, in the order of the work.
COMMANDS: tuple[click.Command, ...] = (gauge, refit)
