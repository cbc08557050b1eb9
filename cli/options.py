"""The options that commands share, and the setting they make."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import TYPE_CHECKING, Any, TypeVar, cast

import click
from hookfold.charts.measure import parse_length
from hookfold.charts.setting import (
    ChartSetting,
    ChartStyle,
    Extent,
    Hand,
    Paper,
    ScForm,
    Seen,
    Setting,
    Stitches,
    Terms,
    Wanted,
)

F = TypeVar("F", bound=Callable[..., Any])

OUT_HELP = 'A file, or "-": standard output.'

#: The options of the setting: name, what it may be, what it means.
CHOICES: dict[str, tuple[tuple[str, ...], str]] = {
    "terms": (("US", "UK"), "Terms of the output; as the pattern is written where not given."),
    "hand": (("left", "right"), "The hand that holds the hook; left mirrors the picture."),
    "paper": (("A4", "Letter"), "Paper size; as the pattern file says, else A4."),
    "extent": (("repeat", "full"), "One repeat and the edges, or every stitch. Repeat where not given."),
    "style": (("stitches", "squares"), "Stitch by stitch, or a numbered grid: filet, corner to corner, colour work."),
    "stitches": (
        ("together", "separate"),
        "Of SVG: a row's stitches together, or each as a group with an id, to be moved in a drawing program.",
    ),
    "seen": (
        ("right-side", "as-worked"),
        "Wrong-side rows as the right side shows them, or as they are worked. Right-side where not given.",
    ),
    "sc": (("plus", "x"), "Form of the single crochet (UK double). Plus where not given."),
}

_OWN_PAPER = re.compile(r"^\s*paper\s*=\s*[\"'](A4|Letter)[\"']", re.IGNORECASE | re.MULTILINE)
_OWN_TERMS = re.compile(r"^\s*terms\s*[:=]\s*[\"']?\s*(US|UK)\b", re.IGNORECASE | re.MULTILINE)


#: The options that are no choice: how click makes each.
OTHERS: dict[str, tuple[str, dict[str, Any]]] = {
    "size": ("--size", {"metavar": "SIZE", "help": "Of a pattern file: one of its sizes, by name or by place (2)."}),
    "mono": ("--mono", {"is_flag": True, "help": "Black and greys only."}),
    "row": ("--row", {"type": click.IntRange(1), "metavar": "N", "help": "Light up this row or round."}),
    "pages": ("--pages", {"is_flag": True, "help": "Of SVG and PNG: the printed pages, as OUT-1, OUT-2 and so on."}),
    "dpi": ("--dpi", {"type": click.IntRange(30, 1200), "help": "Dots per inch of a PNG; 150 where not given."}),
    "counts": ("--counts/--no-counts", {"default": True, "help": "Stitch counts at the ends of rows, or none."}),
}


def option(name: str) -> Callable[[F], F]:
    """One of the options of `CHOICES` or `OTHERS`."""
    if name in OTHERS:
        flag, given = OTHERS[name]
        return click.option(flag, **given)
    choices, says = CHOICES[name]
    return click.option(f"--{name}", type=click.Choice(choices, case_sensitive=False), help=says)


def setting_options(*names: str) -> Callable[[F], F]:
    """Several of the options, in the order named."""

    def add(command: F) -> F:
        for name in reversed(names):
            command = option(name)(command)
        return command

    return add


def setting_of(text: str, asked: dict[str, Any]) -> Setting:
    """The setting that was asked for; the terms are the pattern's own where none are asked for."""
    return Setting(
        paper=cast(Paper, asked.get("paper") or own_paper(text)),
        extent=cast(Extent, asked.get("extent") or "repeat"),
        hand=cast(Hand, asked.get("hand") or "right"),
        terms=cast(Terms, asked.get("terms") or own_terms(text)),
        tone="mono" if asked.get("mono") else "colour",
        sc_form=cast(ScForm, asked.get("sc") or "plus"),
        seen=cast(Seen, asked.get("seen") or "right-side"),
        size=asked.get("size") or "",
    )


def chart_setting_of(asked: dict[str, Any]) -> ChartSetting:
    """What is wanted beside the stitches of a chart."""
    return ChartSetting(
        counts=bool(asked.get("counts", True)), lit_row=int(asked.get("row") or 0),
        style=cast(ChartStyle, asked.get("style") or "stitches"),
        stitches=cast(Stitches, asked.get("stitches") or "together"),
    )  # fmt: skip


def wanted_of(asked: dict[str, Any]) -> Wanted:
    """How the drawings become files."""
    return Wanted(bool(asked.get("pages")), asked.get("dpi"))


def own_paper(text: str) -> str:
    """The paper that a pattern file names for its sheets; A4 where it names none.

    >>> own_paper('title = "Mat"\\npaper = "Letter"'), own_paper('title = "Mat"')
    ('Letter', 'A4')
    """
    found = _OWN_PAPER.search(text)
    return {"letter": "Letter"}.get(found[1].lower(), "A4") if found else "A4"


def own_terms(text: str) -> str:
    """The terms a pattern says it is written in; US where it does not say.

    >>> own_terms('title = "Mat"\\nterms = "UK"')
    'UK'
    """
    found = _OWN_TERMS.search(text)
    return found[1].upper() if found else "US"


if TYPE_CHECKING:
    TextType = click.ParamType[str]
else:
    # Older releases of click have the class without its brackets.
    TextType = click.ParamType


class LengthText(TextType):
    """A length with its unit, kept as written."""

    name = "length"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> str:
        try:
            return parse_length(str(value)).text
        except ValueError as wrong:
            self.fail(f"{wrong}.", param, ctx)


LENGTH = LengthText()


class OptionsLater(click.Command):
    """A command whose options are made when they are first looked at, as they come from tables that others do without.
    `later` puts them on a function, as decorators do."""

    def __init__(self, *given: Any, later: Callable[[Callable[[], None]], Callable[[], None]], **named: Any) -> None:
        self._later = later
        self._made: list[click.Parameter] | None = None
        super().__init__(*given, **named)

    @property
    def params(self) -> list[click.Parameter]:
        if self._made is None:

            def nothing() -> None:
                pass

            self._made = click.command()(self._later(nothing)).params
        return self._made

    @params.setter
    def params(self, _: object) -> None:
        """What stands on the command itself: nothing."""
