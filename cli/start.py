"""The questions that `hookfold start` asks, and the pattern file that the answers make."""

from __future__ import annotations

import shutil
import sys
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any, cast

import click
from hookfold.charts import engrave
from hookfold.charts.errors import PatternError
from hookfold.charts.made_late import replace
from hookfold.charts.measure import parse_length, round_half_up, show_length
from hookfold.charts.output.start import (
    PUBLISHED,
    STITCHES,
    Start,
    met_by,
    starter,
    stitch_words,
    stripes_of,
)
from hookfold.charts.pattern.file.book_sizes import HAT_HEIGHT, head_size
from hookfold.charts.pattern.file.colour_names import known_colour
from hookfold.charts.pattern.file.kinds import (
    MEASUREMENTS,
    OBJECT_KINDS,
    Measurement,
    closing_notions,
    directions,
    flap_room_mm,
    may_lack,
)

from .answers import (
    KINDS,
    BallText,
    CountText,
    FibreText,
    HookText,
    KeyText,
    KindText,
    LengthOrNone,
    LevelText,
    MeasuredText,
    PhotoText,
    WeightText,
    kind_lines,
    whose,
)
from .disk.files import write_one
from .options import LENGTH, OUT_HELP, F, setting_options

KIND = KindText()
_COUNT, _HOOK, _BALL, _NAME, _WEIGHT = CountText(), HookText(), BallText(), KeyText("name"), WeightText()
#: What is said in print, and what each takes.
_IN_PRINT: dict[str, click.ParamType[Any]] = {key: LevelText() if key == "difficulty" else _NAME for key in PUBLISHED}
_STITCH, _TERMS, _PAPER = (
    click.Choice(words, case_sensitive=False) for words in (tuple(STITCHES), ("US", "UK"), ("A4", "Letter"))
)
#: The stitches over 10 cm that are offered to go on with.
_USUAL_STITCHES = 17

Given = Mapping[str, str | float | None]


def start_options(command: F) -> F:
    """The options of `start`."""
    options: tuple[Callable[[F], F], ...] = (
        click.argument("file", metavar="FILE"),
        click.option("--kind", type=KIND, metavar="KIND", help=f"What the piece is for: {', '.join(KINDS)}."),
        click.option("--title", help="What it is called; from the file's name where not given."),
        measure_options,
        click.option("--stitches", type=click.FloatRange(0.5, 400), help="Stitches over the length of the swatch."),
        click.option("--rows", type=click.FloatRange(0.5, 400), help="Rows over the same length."),
        click.option("--over", type=LENGTH, help="The length they were counted over; 10 cm where not given."),
        said_options,
        click.option("--force", is_flag=True, help="Write over a file that is there."),
    )
    for option in reversed(options):
        command = option(command)
    return command


def measuring_options(command: F) -> F:
    """The options of `measure`."""
    says = f"What is to be measured, a book if not said: {', '.join(KINDS)}."
    command = setting_options("terms", "paper")(command)
    command = click.option("-o", "--out", required=True, metavar="OUT", help=OUT_HELP)(command)
    return click.option("--kind", type=KIND, metavar="KIND", default=KINDS[0], help=says)(command)


def measure_options(command: F) -> F:
    """An option for every measurement that some kind asks for."""
    for name, measurement in reversed(MEASUREMENTS.items()):
        if any(m.name == name and m.asked for kind in OBJECT_KINDS.values() for m in kind.measures):
            command = click.option(f"--{name}", type=LengthOrNone(), help=f"{measurement.asks}.")(command)
    return command


def said_options(command: F) -> F:
    """An option for every answer beside the measurements and the gauge."""
    given: tuple[tuple[str, click.ParamType[Any], str], ...] = (
        ("--hook", _HOOK, 'The hook, as "4 mm" or G-6.'),
        ("--terms", _TERMS, "Terms of the rows."),
        ("--stitch", _STITCH, "The stitch to begin with."),
        ("--weight", _WEIGHT, "The yarn weight, as DK or 3."),
        ("--fibre", _NAME, "What the yarn is spun of, as cotton."),
        ("--ball", _BALL, 'The ball\'s label, as "50 g / 115 m".'),
        ("--colours", _NAME, "The colours' names, with commas between."),
        ("--paper", _PAPER, "The paper its sheets are printed on."),
        *((f"--{key}", _IN_PRINT[key], f"For print: {says}.") for key, (_, says) in PUBLISHED.items()),
    )
    for flag, takes, says in reversed(given):
        command = click.option(flag, type=takes, help=says)(command)
    return command


def answers(given: Given, title: str, folder: Path) -> Start:
    """What was not given as an option is asked for; the answer offered is in brackets. `folder` is the file's own."""
    called = cast("str", given["kind"] or _ask_kind())
    kind, word = _told_apart(str(called), given), getattr(called, "word", "")
    typed = getattr(called, "typed", word)
    if word and word not in (typed, typed.removesuffix("s")):
        click.echo(f'  "{typed}" is made as {word}{f" ({kind})" if kind != word else ""}.', err=True)
    measures = _measures(kind, word, given)
    inches = _inches(measures)
    over = str(given["over"] or ("4 in" if inches else "10 cm"))
    asking = _Asking(given)
    terms = asking.maybe("terms", "Terms of the rows, US or UK", "US", _TERMS)
    stitch = _stitch(kind, terms, asking)
    counted = f"Stitches over {over} of a swatch in that stitch"
    stitches = float(given["stitches"] or _ask(counted, _USUAL_STITCHES, _COUNT))
    usual = max(1, round_half_up(stitches / _row_to_stitch(stitch)))
    row = "Rounds" if OBJECT_KINDS[kind].rounds else "Rows"
    rows = float(given["rows"] or _ask(f"{row} over {over} of the same swatch", usual, _COUNT))
    hook = asking.maybe("hook", "Hook, as 4 mm or G-6 (Enter to leave it out)", "", HookText(us=terms == "US"))
    weight = asking.maybe("weight", "Yarn weight, as DK or 3 (Enter to leave it out)", "", _WEIGHT)
    fibre = asking.maybe("fibre", "Fibre of the yarn, as cotton (Enter to leave it out)", "", FibreText(kind))
    label = "3.5 oz / 210 yd" if inches else "50 g / 115 m"
    ball = asking.maybe("ball", f"Ball, as {label} (Enter to leave it out)", "", _BALL)
    colours = asking.maybe("colours", "Colours, as navy, cream (Enter for one not named)", "", _NAME)
    names = tuple(" ".join(name.split()) for name in colours.split(",") if name.strip())[:26]
    _tell_unknown(names)
    paper = asking.maybe("paper", "Paper, A4 or Letter", "Letter" if inches and terms == "US" else "A4", _PAPER)
    named = asking.maybe("title", "Title", title, _NAME)
    published = _published(asking, folder)
    published.setdefault("notions", closing_notions(kind, measures, "in" if inches else "mm"))
    asking.tell_ended()
    return Start(
        kind=kind, title=named, measures=measures, stitches=stitches, rows=rows, over=over, hook=hook,
        terms=terms, stitch=stitch, fibre=fibre, ball=ball, colours=names, weight=weight, paper=paper,
        published={key: said for key, said in published.items() if said},
        called=typed if word in (kind, *OBJECT_KINDS[kind].called) and typed != kind else "",
    )  # fmt: skip


def _ask_kind() -> Any:
    """What it is for, of all that is made here."""
    click.echo("\n".join(["What is made here:", *kind_lines()]), err=True)
    return _ask("What is it for?", KINDS[0], KIND)


def _told_apart(kind: str, given: Given) -> str:
    """The kind, or the one that it is instead where a question says so; asked only of who is asked for measures."""
    instead = OBJECT_KINDS[kind].instead
    if instead is None or not instead.asks or any(given.get(m.name) for m in OBJECT_KINDS[kind].measures):
        return kind
    try:
        yes = click.confirm(instead.asks, default=True, err=True)
    except click.Abort:
        raise click.UsageError(f'"{instead.asks}" was not answered; give --kind "{instead.kind}" if so.') from None
    return instead.kind if yes else kind


def _row_to_stitch(stitch: str) -> float:
    """How high a row of one of the stitches to begin with usually is, in its stitches."""
    from hookfold.charts.model.sizing.row_heights import relative_height

    heights = {"close": ("sc",), "medium": ("hdc",), "tall": ("dc",), "crunch": ("sc", "dc"), "ridges": ("sc",)}
    return sum(map(relative_height, heights[stitch])) / len(heights[stitch])


def _stitch(kind: str, terms: str, asking: _Asking) -> str:
    """The stitch to begin with, each shown as the piece is worked; which give most, of a piece that has to give."""
    if not asking.given["stitch"]:
        for name in STITCHES:
            click.echo(f"  {name}: {stitch_words(name, terms, rounds=OBJECT_KINDS[kind].rounds)}", err=True)
        if OBJECT_KINDS[kind].passes:
            click.echo("  It has to stretch on its way: tall gives most, medium less, the others least.", err=True)
    return asking.maybe("stitch", "Stitch", "medium", _STITCH)


def _tell_unknown(names: tuple[str, ...]) -> None:
    """Say which colours are drawn in grey."""
    unknown = [name for name in names if not known_colour(name)]
    if unknown:
        says = "no colour of that name is known, so it is drawn in a grey; write its hex in the file."
        click.echo("\n".join(f"  {name}: {says}" for name in unknown), err=True)


#: How each thing said in print is asked for.
_PROMPTS = {
    "author": "Author, printed on every sheet", "licence": "Licence, as CC BY 4.0",
    "difficulty": "Difficulty, basic, easy, intermediate or complex (Enter: reckoned from the stitches)",
    "notions": "What else is needed, as two buttons of 15 mm",
    "notes": "A note to the maker, as Work the border loosely.",
    "photo": "Photograph in the same folder, as cover.jpg", "testers": "Who tried it, as Ida, Bo",
}  # fmt: skip


class _Asking:
    """Asks for what may be left out, as given, else asked for; remembers what was not answered as the input ended."""

    def __init__(self, given: Given) -> None:
        self.given, self.ended = given, list[str]()

    def maybe(self, key: str, question: str, usual: str, takes: click.ParamType[Any]) -> str:
        """What can be left out: as given, else asked for, else as usual where nobody is there to answer."""
        if self.given[key]:
            return str(self.given[key])
        try:
            return str(click.prompt(question, default=usual, type=takes, err=True, show_default=bool(usual)))
        except click.Abort:
            if sys.stdin.isatty():
                raise
            self.ended.append(key)
            click.echo(err=True)
            return usual

    def tell_ended(self) -> None:
        """Say what was not answered."""
        if self.ended:
            says = f"The answers ended early: {', '.join(self.ended)} not answered and left as offered."
            click.echo(says, err=True)


def _published(asking: _Asking, folder: Path) -> dict[str, str]:
    """What is said in print, by its key: as given, else asked for of who wants to say more."""
    takes, given = {**_IN_PRINT, "photo": PhotoText(folder)}, asking.given
    said = {key: takes[key].convert(given[key], None, None) for key in PUBLISHED if given[key]}
    if said or asking.ended or not _publishes():
        return said
    asked = {}
    for key in PUBLISHED:
        question = _PROMPTS[key]
        question += "" if "(Enter" in question else " (Enter to leave it out)"
        asked[key] = asking.maybe(key, question, "", takes[key])
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


def _inches(measures: Mapping[str, str]) -> bool:
    """Whether all that was measured was measured in inches."""
    return bool(measures) and all(parse_length(text).unit == "in" for text in measures.values())


def _unit_of(measures: Mapping[str, str]) -> str:
    """The unit that was answered in last."""
    return parse_length([*measures.values()][-1]).unit


def _measures(kind: str, word: str, given: Given) -> dict[str, str]:
    """The measurements, each inside what it may be; offered in inches to whom answers in inches.

    A head that is named is in the unit of what is measured beside it.
    """
    found: dict[str, str] = {}
    heads: dict[str, float] = {}
    for rule in OBJECT_KINDS[kind].measures:
        if not rule.asked:
            continue
        lacks = may_lack(kind, rule.name)
        measured = [text for name, text in found.items() if name not in heads]
        unit = parse_length(measured[-1]).unit if measured else ""
        takes = MeasuredText(rule, _room_mm(kind, rule.name, found), may_lack=lacks, unit=unit)
        said = str(given.get(rule.name) or "")
        if said == "none" and not lacks:
            raise click.UsageError(f"--{rule.name}: a {kind} cannot do without it.")
        if said and head_size(said):
            said = takes.convert(said, None, None)
        answer = said or str(_ask_measure(rule, kind, word, takes, found, heads))
        found |= {rule.name: _with_what_it_crosses(rule, answer, found)} if answer not in ("", "none") else {}
    inches = any(parse_length(text).unit == "in" for name, text in found.items() if name not in heads)
    return found | ({name: show_length(mm, "in") for name, mm in heads.items()} if inches else {})


def _ask_measure(
    rule: Measurement, kind: str, word: str, takes: MeasuredText, found: Mapping[str, str], heads: dict[str, float]
) -> str:
    """One measurement asked for; a head that is named goes to `heads`, in mm."""
    given = _Kept(takes)
    answer = str(_ask(rule.asks, _offered(kind, word, rule, takes.most_mm, found), given))
    head = head_size(given.typed) if whose(rule) else None
    if head is not None:
        heads[rule.name] = head.around_mm
    return answer


class _Kept(click.ParamType):  # type: ignore[type-arg,unused-ignore]
    """A kind of answer that keeps what was typed."""

    def __init__(self, takes: MeasuredText) -> None:
        self.takes, self.name, self.typed = takes, takes.name, ""

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> Any:
        self.typed = str(value)
        return self.takes.convert(value, param, ctx)


def _with_what_it_crosses(rule: Measurement, answer: str, found: Mapping[str, str]) -> str:
    """A length with those that it lies over before it comes to where it was measured."""
    crosses = [parse_length(found[name]).mm for name in rule.plus if name in found]
    if not crosses:
        return answer
    length = parse_length(answer)
    return show_length(length.mm + sum(crosses), length.unit)


def _offered(kind: str, word: str, rule: Measurement, most_mm: float, found: Mapping[str, str]) -> str:
    """The answer to go on with: the usual one, no longer than there is room; none of a thickness that may lack, unless
    what is made is called by a thing that has one."""
    own = rule.of.get(word, rule.of.get(word.removesuffix("s"), ""))
    if not own and rule.name == OBJECT_KINDS[kind].thick and may_lack(kind, rule.name):
        return "none"
    if rule.picture == "head height":
        return show_length(parse_length(found["around"]).mm * HAT_HEIGHT, parse_length(found["around"]).unit)
    passes = OBJECT_KINDS[kind].passes
    if passes and not own and rule.name == passes.measure and "around" in found:
        around = parse_length(found["around"])
        return show_length(around.mm * passes.share, around.unit)
    usual = own or rule.offers
    usual_mm = parse_length(usual).mm
    if usual_mm <= most_mm and not _inches(found):
        return show_length(usual_mm, _unit_of(found)) if found else usual
    mm = usual_mm if usual_mm <= most_mm else 0.75 * most_mm
    if _inches(found) and mm > WHOLE_INCHES_MM and not OBJECT_KINDS[kind].thick:
        return show_length(round_half_up(mm / 25.4) * 25.4, "in")
    return show_length(mm, "in" if _inches(found) else _unit_of(found) if found else "mm")


#: From here on a length is offered in whole inches, but of a thing that has to go in with its thickness.
WHOLE_INCHES_MM = 100.0


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
    found = engrave.check(starter(start), target)
    if found.problems and all(p.kind == "fit" for p in found.problems):
        start = replace(start, fitted=False)
        found = engrave.check(starter(start), target)
    if found.problems:
        raise PatternError(found.problems)
    meet = not any(note.where == "Stripes" for note in found.notes)
    write_one(target, starter(start if meet else _meeting(start, target)).encode("utf-8"))


def _meeting(start: Start, target: str) -> Start:
    """The answers with a back whose stripes meet those of its front at the sides, if any do, where they did not."""
    back = engrave.work_file(starter(start), target).plan.sections[1]
    met = replace(start, stripes={back.name: met_by(stripes_of(start), back.rows)})
    checked = engrave.check(starter(met), target)
    return start if checked.problems or any(note.where == "Stripes" for note in checked.notes) else met


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
