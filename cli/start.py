"""The questions that `hookfold start` asks, and the pattern file that the answers make."""

from __future__ import annotations

import shutil
import sys
from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any

import click
from hookfold.charts import engrave
from hookfold.charts.errors import PatternError
from hookfold.charts.measure import parse_length, show_length
from hookfold.charts.output.start import PUBLISHED, STITCHES, Start, starter, stitch_words
from hookfold.charts.pattern.file.book_sizes import HAT_HEIGHT, head_size
from hookfold.charts.pattern.file.checks import MELTS
from hookfold.charts.pattern.file.keys import LEVELS, Key
from hookfold.charts.pattern.file.kinds import (
    MEASUREMENTS,
    OBJECT_KINDS,
    Measurement,
    directions,
    flap_room_mm,
    kind_called,
    may_lack,
)
from hookfold.charts.pattern.file.values import READERS, Wrong

from .files import printable, write_one
from .options import F, LengthText, TextType
from .photograph import photograph

#: The order in which a kind is offered; the first is the usual one.
KINDS = tuple(OBJECT_KINDS)

_GAUGE = click.FloatRange(0.5, 400)


class KindText(TextType):
    """A kind by its name or by what makers call it; gives its name."""

    name = "kind"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> str:
        found = kind_called(str(value))
        if found is None:
            also = ", ".join(f"{kind.called[0]} ({kind.name})" for kind in OBJECT_KINDS.values() if kind.called)
            self.fail(f'"{value}" is not one of: {", ".join(KINDS)}; nor what they are called, as {also}.', param, ctx)
        return found.name


#: How one says that a piece is to do without something.
_NONE = ("none", "no", "0", "-", "without")


class LengthOrNone(LengthText):
    """A length, or "none" for what a piece is to do without."""

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> str:
        return "none" if str(value).strip().lower() in _NONE else super().convert(value, param, ctx)


class MeasuredText(LengthText):
    """A length inside what a measurement may be, and no longer than what it lies on; "" for one done without."""

    def __init__(self, rule: Measurement, most_mm: float, *, may_lack: bool = False) -> None:
        self.rule, self.most_mm, self.may_lack = rule, most_mm, may_lack

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> str:
        head = head_size(str(value)) if self.rule.picture.startswith("head") else None
        if self.may_lack and str(value).strip().lower() in _NONE:
            return ""
        if head is not None:
            value = show_length(head.around_mm if self.rule.name == "around" else head.height_mm, "cm")
        text = super().convert(value, param, ctx)
        length = parse_length(text)
        least, most = self.rule.least, min(self.rule.most.mm, self.most_mm)
        if not least.mm <= length.mm <= most:
            low, high = (show_length(mm, "mm" if mm < 100 else "cm") for mm in (least.mm, most))
            self.fail(f"it lies between {low} and {high}; look at the unit.", param, ctx)
        return text


class KeyText(TextType):
    """What a key of the pattern file takes, read as the file is read."""

    def __init__(self, takes: str) -> None:
        self.takes = self.name = takes

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> str:
        try:
            if value:
                READERS[self.takes](str(value), Key(self.takes, self.takes, self.takes))
        except Wrong as wrong:
            self.fail(f"{wrong.says} {wrong.remedy}", param, ctx)
        return str(value)


class FibreText(KeyText):
    """What the yarn is spun of; near hot things nothing that melts."""

    def __init__(self, kind: str) -> None:
        super().__init__("name")
        self.kind = kind

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> str:
        text = super().convert(value, param, ctx)
        if OBJECT_KINDS[self.kind].fibres == "heat" and MELTS.search(text):
            self.fail(f"{text} melts, and a {self.kind} comes near hot things; take cotton or wool.", param, ctx)
        return text


class PhotoText(KeyText):
    """A photograph that lies beside the file and can be opened."""

    def __init__(self, folder: Path) -> None:
        super().__init__("name")
        self.folder = folder

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> str:
        text = super().convert(value, param, ctx)
        try:
            photograph(str(self.folder / text) if text else None, "", self.folder)
        except click.UsageError as wrong:
            remedy = f"Put the picture into {printable(str(self.folder))} first, or leave it out."
            self.fail(f"{wrong.format_message()} {remedy}", param, ctx)
        return text


class LevelText(TextType):
    """How difficult a piece is: one of the levels, or nothing."""

    name = "level"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> str:
        text = " ".join(str(value).lower().split())
        if text and text not in LEVELS:
            self.fail(f'"{value}" is not one of: {", ".join(LEVELS)}.', param, ctx)
        return text


KIND = KindText()
_HOOK, _BALL, _NAME = KeyText("hook"), KeyText("ball"), KeyText("name")
#: What is said in print, and what each takes.
_IN_PRINT: dict[str, click.ParamType[Any]] = {key: LevelText() if key == "difficulty" else _NAME for key in PUBLISHED}
_STITCH, _TERMS = (click.Choice(words, case_sensitive=False) for words in (tuple(STITCHES), ("US", "UK")))


def measure_options(command: F) -> F:
    """An option for every measurement that some kind asks for."""
    for name, measurement in reversed(MEASUREMENTS.items()):
        if any(m.name == name and m.asked for kind in OBJECT_KINDS.values() for m in kind.measures):
            command = click.option(f"--{name}", type=LengthOrNone(), help=f"{measurement.asks}.")(command)
    return command


def said_options(command: F) -> F:
    """An option for every answer beside the measurements and the gauge."""
    given: tuple[tuple[str, click.ParamType[Any], str], ...] = (
        ("--hook", _HOOK, 'The hook, as "4 mm".'),
        ("--terms", _TERMS, "Terms of the rows."),
        ("--stitch", _STITCH, "The stitch to begin with."),
        ("--fibre", _NAME, "What the yarn is spun of, as cotton."),
        ("--ball", _BALL, 'The ball\'s label, as "50 g / 115 m".'),
        ("--colours", _NAME, "The colours' names, with commas between."),
        *((f"--{key}", _IN_PRINT[key], f"For print: {says}.") for key, (_, says) in PUBLISHED.items()),
    )
    for flag, takes, says in reversed(given):
        command = click.option(flag, type=takes, help=says)(command)
    return command


def answers(given: Mapping[str, str | float | None], title: str, folder: Path) -> Start:
    """What was not given as an option is asked for; the answer offered is in brackets. `folder` is the file's own."""
    kind = str(given["kind"] or _ask("What is it for?", KINDS[0], KIND))
    measures = _measures(kind, given)
    inches = all(parse_length(text).unit == "in" for text in measures.values())
    over = str(given["over"] or ("4 in" if inches else "10 cm"))
    stitches = given["stitches"] or _ask(f"Stitches over {over} of the swatch", 17, _GAUGE)
    rows = given["rows"] or _ask(f"Rows over {over} of the swatch", 14, _GAUGE)
    hook = _maybe(given, "hook", 'Hook, as 4 mm (Enter to leave it out)', "", _HOOK)
    terms = _maybe(given, "terms", "Terms of the rows, US or UK", "US", _TERMS)
    if not given["stitch"]:
        for name in STITCHES:
            click.echo(f"  {name}: {stitch_words(name, terms)}", err=True)
    stitch = _maybe(given, "stitch", "Stitch", "medium", _STITCH)
    spun = FibreText(kind)
    fibre = _maybe(given, "fibre", "Yarn, as cotton (Enter to leave it out)", "", spun)
    ball = _maybe(given, "ball", "Ball, as 50 g / 115 m (Enter to leave it out)", "", _BALL)
    colours = _maybe(given, "colours", "Colours, as navy, cream (Enter for one not named)", "", _NAME)
    names = tuple(" ".join(name.split()) for name in colours.split(",") if name.strip())[:26]
    published = _published(given, folder)
    return Start(
        kind=kind, title=str(given["title"] or title), measures=measures, stitches=float(stitches), rows=float(rows),
        over=over, hook=hook, terms=terms, stitch=stitch, fibre=fibre, ball=ball, colours=names,
        published=published,
    )  # fmt: skip


def _published(given: Mapping[str, str | float | None], folder: Path) -> dict[str, str]:
    """What is said in print, by its key: as given, else asked for of who wants to say more."""
    takes = {**_IN_PRINT, "photo": PhotoText(folder)}
    said = {key: takes[key].convert(given[key], None, None) for key in PUBLISHED if given[key]}
    if said or not _publishes():
        return said
    asked = {
        key: _maybe(given, key, f"{key.capitalize()}: {says}, as {example} (Enter to leave it out)", "", takes[key])
        for key, (example, says) in PUBLISHED.items()
    }
    return {key: value for key, value in asked.items() if value}


def _publishes() -> bool:
    """Whether the maker wants to say more; not, where nobody is there to answer."""
    try:
        question = "More about the pattern: author, licence, what else is needed, notes?"
        return click.confirm(question, default=False, err=True)
    except click.Abort:
        if sys.stdin.isatty():
            raise
        click.echo(err=True)
        return False


def _measures(kind: str, given: Mapping[str, str | float | None]) -> dict[str, str]:
    """The measurements, each inside what it may be; offered in inches to whom answers in inches."""
    found: dict[str, str] = {}
    for rule in OBJECT_KINDS[kind].measures:
        if not rule.asked:
            continue
        lacks = may_lack(kind, rule.name)
        takes = MeasuredText(rule, _room_mm(kind, rule.name, found), may_lack=lacks)
        said = str(given.get(rule.name) or "")
        if said == "none" and not lacks:
            raise click.UsageError(f"--{rule.name}: a {kind} cannot do without it.")
        answer = said or str(_ask(rule.asks, _offered(kind, rule, takes.most_mm, found), takes))
        found |= {rule.name: answer} if answer not in ("", "none") else {}
    return found


def _offered(kind: str, rule: Measurement, most_mm: float, found: Mapping[str, str]) -> str:
    """The answer to go on with: the usual one, no longer than there is room; none of a thickness that may lack."""
    if rule.name == OBJECT_KINDS[kind].thick and may_lack(kind, rule.name):
        return "none"
    if rule.picture == "head height":
        return show_length(parse_length(found["around"]).mm * HAT_HEIGHT, parse_length(found["around"]).unit)
    inches = bool(found) and all(parse_length(text).unit == "in" for text in found.values())
    usual_mm = parse_length(rule.offers).mm
    if usual_mm <= most_mm and not inches:
        return rule.offers
    return show_length(min(usual_mm, 0.75 * most_mm), "in" if inches else "mm")


def _room_mm(kind: str, name: str, found: Mapping[str, str]) -> float:
    """How long a flap or an overlap may be at most: as what it lies on."""
    _, strip = directions(kind, found)
    if name not in ("flap", "overlap") or strip not in found or name not in OBJECT_KINDS[kind].extras:
        return float("inf")
    return flap_room_mm(kind, {each: parse_length(text).mm for each, text in found.items()})


def _ask(question: str, usual: str | float, kind: click.ParamType[Any]) -> Any:
    """Ask until the answer is of its kind; wrong use where nobody answers."""
    try:
        return click.prompt(question, default=usual, type=kind, err=True)
    except click.Abort:
        raise click.UsageError(f'"{question}" was not answered; give it as an option.') from None


def _maybe(
    given: Mapping[str, str | float | None], key: str, question: str, usual: str, takes: click.ParamType[Any]
) -> str:
    """What can be left out: as given, else asked for, else as usual where nobody is there to answer."""
    if given[key]:
        return str(given[key])
    try:
        return str(click.prompt(question, default=usual, type=takes, err=True, show_default=bool(usual)))
    except click.Abort:
        if sys.stdin.isatty():
            raise
        click.echo(err=True)
        return usual


def refuse_to_overwrite(target: str, *, force: bool) -> None:
    """An existing file is written over only where `force` says so."""
    if target != "-" and Path(target).exists() and not force:
        raise click.UsageError(f"{target} is there already; --force writes over it.")


def write_start(target: str, start: Start) -> None:
    """Write the pattern file, read once to be sure of it; PatternError where it could not be made.

    Where no count comes into the kind's range of fit, the range is left to the maker.
    """
    from hookfold.charts.pattern.file.read import read_pattern

    read_pattern(starter(start), target)
    problems = engrave.check(starter(start), target).problems
    if problems and all(p.kind == "fit" for p in problems):
        start = replace(start, fitted=False)
        problems = engrave.check(starter(start), target).problems
    if problems:
        raise PatternError(problems)
    write_one(target, starter(start).encode("utf-8"))


def own_name() -> str:
    """What to type to call the tool again: its name where that is found, else its place as it was typed."""
    typed = sys.argv[0]
    found = shutil.which("hookfold")
    if found and Path(typed).exists() and Path(found).samefile(typed):
        return "hookfold"
    return typed if Path(typed).name.startswith("hookfold") else "hookfold"


def folder_for(target: str) -> str:
    """A folder beside the file for what is made of it."""
    return str(Path(target).with_suffix("")) if Path(target).suffix else f"{target}-made"


def title_of(target: str) -> str:
    """A title from the file's name.

    >>> title_of("work/field-book_cover.toml")
    'Field book cover'
    """
    words = Path(target).stem.replace("-", " ").replace("_", " ").strip()
    return (words[:1].upper() + words[1:]) if words and words != " " else "Untitled"
