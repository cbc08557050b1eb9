"""The commands, a few lines each: read, ask the engraver, write.

Each loads what it needs when it runs, so that help comes at once.
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any, get_args

import click
from hookfold.charts import engrave
from hookfold.charts.errors import PatternError, Unable
from hookfold.charts.pattern.text_kind import is_written
from hookfold.charts.setting import TextForm

from .disk.files import folder_of, printable, read_text, refuse_input, suffix_of, write_drawn, write_one
from .ending import ending_plainly, ending_quietly
from .fitting import COMMANDS as FITTING
from .options import OUT_HELP, F, OptionsLater, chart_setting_of, setting_of, setting_options, wanted_of
from .progress import steps, terminal_width, working
from .report import FINE, PROBLEMS, WRONG_USE, report, reporting, stumbled
from .version import VERSION

if TYPE_CHECKING:
    from .disk.folders import Written

TEXTS = get_args(TextForm)
SHEETS = ("svg", "png", "pdf")

_FILE = click.argument("file", metavar="FILE")
_TEXT_HELP = f"A .{', .'.join(TEXTS)} file; else standard output."
_OUT = click.option("-o", "--out", required=True, metavar="OUT", help=OUT_HELP)


class InOrder(click.Group):
    """Lists the commands in the order of this page, which is that of the work; ends as other tools of the shell do."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return list(self.commands)

    def main(self, *args: Any, **extra: Any) -> Any:
        with ending_quietly():
            return super().main(*args, **extra)

    def invoke(self, ctx: click.Context) -> Any:
        with ending_plainly():
            return super().invoke(ctx)


@click.group(cls=InOrder, context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100})
@click.version_option(VERSION)
def main() -> None:
    """Fitted crochet from one pattern file: counts, fit, chart, words, folding and joining diagram.

    \b
    Example:
      hookfold start cover.toml
      hookfold check cover.toml
      hookfold make cover.toml -o out
    """


def _start_options(command: F) -> F:
    from .start import start_options

    return start_options(command)


def _measuring_options(command: F) -> F:
    from .start import measuring_options

    return measuring_options(command)


@main.command(cls=OptionsLater, later=_start_options)
@reporting
def start(file: str, *, force: bool, **given: Any) -> None:
    """Write a commented pattern file; asks for what is not given.

    \b
    Example:
      hookfold start cover.toml --kind book --height "250 mm" --wrap "385 mm" --flap "65 mm"
    """
    from .start import answers, folder_for, own_name, refuse_to_overwrite, title_of, write_start

    refuse_to_overwrite(file, force=force)
    write_start(file, answers(given, title_of(file), Path(file).parent))
    if file != "-":
        import shlex

        tool, named = shlex.quote(own_name()), shlex.quote(file)
        says = f"{printable(file)} is written; look with: {tool} check {named}"
        click.echo(f"{says}\nmake everything with: {tool} make {named} -o {shlex.quote(folder_for(file))}", err=True)


@main.command()
@click.argument("files", metavar="FILE...", nargs=-1, required=True)
@click.option("--json", "as_json", is_flag=True, help="One JSON object a file, a line each.")
@click.option("--explain", is_flag=True, help="Of a written pattern: tell how each row was read.")
@click.option("--prose", is_flag=True, help="Of a written pattern: list the lines taken as talk.")
@click.option("--size", metavar="SIZE", help="Of a written pattern: the size to read, by name or by place (2).")
@click.option("--review", is_flag=True, help="Look at what a technical editor looks at, point by point.")
@click.option("--tester", is_flag=True, help="Print a sheet for those who try the pattern.")
@click.option("--picture", metavar="OUT", help="Draw the first row that does not add up (.svg).")
@click.pass_context
def check(
    ctx: click.Context, /, files: tuple[str, ...], *, as_json: bool, picture: str | None, review: bool, tester: bool,
    **asked: Any,
) -> None:  # fmt: skip
    """Say what is made, how it fits, and every problem.

    Each problem has its place and a remedy.

    \b
    Example:
      hookfold check cover.toml shell.txt
      hookfold check hat.txt --size medium --explain
      hookfold check --json shell.txt
      hookfold check shell.txt --picture mistake.svg
      hookfold check cover.toml --review
      hookfold check cover.toml --tester > tester.md
    """
    if picture:
        refuse_input([picture], files)
    if review or tester:
        ctx.exit(max(_reviewed(file, tester) for file in files))
    ended = [_check_one(file, as_json, **asked) for file in files]
    if picture:
        _draw_mistake(files, picture)
    ctx.exit(max(ended))


def _check_one(file: str, as_json: bool, *, explain: bool, prose: bool, size: str | None) -> int:
    """Print what is found in one file; what it would end with. A file that cannot be read does not keep the others."""
    from hookfold.charts.output.checking.checked import refused

    try:
        text, name = read_text(file)
        with working("Working the rows"):
            found = engrave.check(text, name, size or "")
    except PatternError as unread:
        found = refused(unread, printable(file))
    except click.UsageError as unopened:
        return _not_checked(unopened.message, WRONG_USE)
    except Unable as unknown:
        return _not_checked(f"{printable(file)}: {unknown}.", WRONG_USE)
    except Exception as fault:
        return _not_checked(f"{printable(file)}: {stumbled(fault)}", PROBLEMS)
    if as_json:
        import json

        click.echo(json.dumps(found.as_json(), ensure_ascii=False))
    else:
        width = terminal_width()
        click.echo("\n".join(found.lines(explain=explain, prose=prose, width=width)))
        for problem in found.problems:
            click.echo(f"\n{problem.report(width)}")
    return PROBLEMS if found.problems else FINE


def _reviewed(file: str, tester: bool) -> int:
    """Print the review of one file, or its sheet for testers; what it would end with."""
    from hookfold.charts.output.review.point import review_lines

    try:
        text, name = read_text(file)
        setting = setting_of(text, {})
        if tester:
            click.echo(engrave.tester(text, name, setting))
            return FINE
        points = engrave.review(text, name, setting)
    except PatternError as found:
        placed = [problem if problem.file else problem.in_file(printable(file)) for problem in found.problems]
        click.echo(report(placed), err=True)
        return PROBLEMS
    except click.UsageError as unopened:
        return _not_checked(unopened.message, WRONG_USE)
    click.echo("\n".join(review_lines(points)))
    return PROBLEMS if any(point.found == "failed" for point in points) else FINE


def _not_checked(says: str, ended: int) -> int:
    """Say why a file was not checked."""
    click.echo(f"Error: {says}", err=True)
    return ended


def _draw_mistake(files: tuple[str, ...], out: str) -> None:
    """Draw the first mistake found in the files; say so where there is none."""
    suffix_of(out, ("svg",), "svg")
    for file in files:
        drawn = engrave.picture(*read_text(file))
        if drawn is not None:
            write_one(out, drawn)
            return
    click.echo("No row to draw: no row is short of stitches or leaves any over.", err=True)


for command in FITTING:
    main.add_command(command)


@main.command()
@_FILE
@_OUT
@setting_options(
    "size", "style", "extent", "row", "hand", "terms", "paper", "sc", "seen", "counts", "mono", "stitches", "pages",
    "dpi",
)
@reporting
def chart(file: str, out: str, **asked: Any) -> None:
    """Draw the stitch chart (.svg, .png or .pdf).

    \b
    Example:
      hookfold chart cover.toml -o chart.pdf --extent full --paper Letter
      hookfold chart shell.txt -o row-2.png --row 2 --dpi 300
    """
    suffix = suffix_of(out, SHEETS, "svg")
    text, name = read_text(file)
    with working("Drawing the chart"):
        made = engrave.chart(text, name, setting_of(text, asked), (suffix,), chart_setting_of(asked), wanted_of(asked))
    write_drawn(out, made, [file])


@main.command()
@_FILE
@_OUT
@setting_options("size", "hand", "terms", "paper", "mono", "pages", "dpi")
@reporting
def assembly(file: str, out: str, **asked: Any) -> None:
    """Draw the folding and joining (.svg, .png or .pdf).

    \b
    Example:
      hookfold assembly cover.toml -o folding.svg
    """
    suffix = suffix_of(out, SHEETS, "svg")
    text, name = read_text(file)
    with working("Drawing the folding"):
        made = engrave.assembly(text, name, setting_of(text, asked), (suffix,), wanted_of(asked))
    write_drawn(out, made, [file])


@main.command()
@_FILE
@_OUT
@click.option("--as", "cut", type=click.Choice(("worn", "worked")), default="worn", show_default=True,
              help="Cut it as large as the object, or as the piece is worked.")
@setting_options("size", "terms", "paper")
@reporting
def template(file: str, out: str, cut: str, **asked: Any) -> None:
    """Draw the paper mock-up in true size on tiles, as PDF.

    Paper does not stretch: cut as worn, it fits round the object, and the piece as worked is dotted.

    \b
    Example:
      hookfold template cover.toml -o mock-up.pdf --paper Letter
    """
    suffix_of(out, ("pdf",), "pdf")
    text, name = read_text(file)
    with working("Drawing the paper mock-up"):
        made = engrave.template(text, name, setting_of(text, asked), cut)
    write_one(out, made)


@main.command()
@_FILE
@click.option("-o", "--out", default="-", metavar="OUT", help=_TEXT_HELP)
@setting_options("size", "terms", "hand")
@reporting
def instructions(file: str, out: str, **asked: Any) -> None:
    """Write the pattern in words, with every count.

    \b
    Example:
      hookfold instructions cover.toml --terms UK -o cover.md
    """
    suffix = suffix_of(out, TEXTS, "md")
    text, name = read_text(file)
    write_one(out, _formatted(engrave.instructions(text, name, setting_of(text, asked)), suffix, text, name))


def _formatted(page: str, suffix: str, text: str, name: str) -> bytes:
    """The words in the format asked for; those of a written pattern are plain lines, which stay as they are."""
    from hookfold.charts.output.texts.formats import formatted

    if is_written(name, text):
        page = page if suffix in ("md", "txt") else "\n\n".join(page.splitlines())
        return page.encode("utf-8") if suffix in ("md", "txt") else formatted(page, suffix)
    return formatted(page, suffix)


@main.command()
@_FILE
@click.option("-o", "--out", default="-", metavar="OUT", help=_TEXT_HELP)
@setting_options("size")
@reporting
def yarn(file: str, out: str, size: str | None) -> None:
    """Say the yarn of each colour, with what was assumed.

    \b
    Example:
      hookfold yarn cover.toml
    """
    from hookfold.charts.output.texts.formats import formatted

    suffix = suffix_of(out, TEXTS, "md")
    write_one(out, formatted(engrave.yarn(*read_text(file), size or ""), suffix))


@main.command()
@_FILE
@click.option("-o", "--out", default="-", metavar="OUT", help=_TEXT_HELP)
@reporting
def sizes(file: str, out: str) -> None:
    """Table every size, and give the counts of all in one text.

    \b
    Example:
      hookfold sizes cover.toml
    """
    from hookfold.charts.output.texts.formats import formatted

    suffix = suffix_of(out, TEXTS, "md")
    write_one(out, formatted(engrave.sizes(*read_text(file)), suffix))


@main.command()
@_FILE
@click.option("-o", "--out", required=True, metavar="DIR", help="The folder to write to.")
@click.option("--photo", metavar="PHOTO", help="A photograph of the piece; else the pattern's own.")
@setting_options("terms", "hand")
@reporting
def share(file: str, out: str, *, photo: str | None, **asked: Any) -> None:
    """Make images for sharing, each described in words.

    \b
    Example:
      hookfold share cover.toml -o out
    """
    from .disk.folders import write_set
    from .disk.photograph import photograph

    folder = folder_of(out)
    text, name = read_text(file)
    picture = photograph(photo, text, Path(file).parent if file != "-" else Path())
    with working("Drawing the images"):
        made = engrave.share(text, name, setting_of(text, asked), photo=picture)
    tell_kept(write_set(folder, made, [file], whole=False))


@main.command(cls=OptionsLater, later=_measuring_options)
@reporting
def measure(kind: str, out: str, **asked: Any) -> None:
    """Draw how to measure an object, with blanks for the numbers, as PDF.

    \b
    Example:
      hookfold measure --kind pouch -o measuring.pdf
    """
    suffix_of(out, ("pdf",), "pdf")
    write_one(out, engrave.measuring(kind, setting_of("", asked)))


@main.command()
@_OUT
@setting_options("terms", "paper")
@reporting
def symbols(out: str, **asked: Any) -> None:
    """Draw every stitch symbol with its names, as SVG.

    \b
    Example:
      hookfold symbols -o symbols.svg --terms UK
    """
    suffix_of(out, ("svg",), "svg")
    write_one(out, engrave.symbols(setting_of("", asked)))


@main.command()
@_FILE
@click.option("-o", "--out", required=True, metavar="DIR", help="The folder to write to.")
@setting_options("extent", "hand", "terms", "paper", "mono")
@reporting
def make(file: str, out: str, **asked: Any) -> None:
    """Make everything a pattern gives into one folder.

    \b
    Example:
      hookfold make cover.toml -o out
    """
    from hookfold.charts.output.export import CairoMissing, cairo_here

    from .disk.folders import write_set
    from .disk.photograph import photograph

    folder = folder_of(out)
    text, name = read_text(file)
    setting = setting_of(text, asked)
    photo = photograph(None, text, Path(file).parent)
    with steps() as on_step:
        made = engrave.make(text, name, setting, on_step, photo=photo)
    written = write_set(folder, made, [file])
    click.echo("\n".join(printable(str(path)) for path in written.paths))
    tell_kept(written)
    if not cairo_here():
        click.echo(f"{CairoMissing()}.", err=True)


def tell_kept(written: Written) -> None:
    """Say which files were changed by hand and stay, and which were taken away."""
    for old, new in written.kept:
        says = f"{printable(str(old))} was changed since it was made and is kept; the new one is {printable(str(new))}."
        click.echo(says, err=True)
    for path in written.removed:
        click.echo(f"{printable(str(path))} is no longer made and was taken away.", err=True)


@main.command()
@click.option("-o", "--out", default="-", metavar="OUT", help="A .json file; else standard output.")
@click.option("--report", "of_report", is_flag=True, help="The schema of what check --json prints instead.")
@reporting
def schema(out: str, *, of_report: bool) -> None:
    """Write the JSON Schema of the pattern file.

    Editors complete and check pattern files by it.

    \b
    Example:
      hookfold schema -o pattern.schema.json
      hookfold schema --report -o report.schema.json
    """
    import json

    from hookfold.charts.output.checking.report_schema import report_schema
    from hookfold.charts.pattern.file.schema import schema as pattern_schema

    suffix_of(out, ("json",), "json")
    found = report_schema() if of_report else pattern_schema()
    write_one(out, (json.dumps(found, indent=2, ensure_ascii=False) + "\n").encode("utf-8"))
