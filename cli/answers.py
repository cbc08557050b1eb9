"""What the questions of `hookfold start` take as answers, each read as it is read from a file."""

from __future__ import annotations

import re
from collections.abc import Collection, Sequence
from difflib import get_close_matches
from pathlib import Path
from typing import Any

import click
from hookfold.charts.measure import parse_length, show_length
from hookfold.charts.pattern.file.book_sizes import head_size
from hookfold.charts.pattern.file.checks import MELTS
from hookfold.charts.pattern.file.keys import LEVELS, Key
from hookfold.charts.pattern.file.kinds import OBJECT_KINDS, Measurement, kind_called
from hookfold.charts.pattern.file.values import READERS, Wrong

from .disk.files import printable
from .disk.photograph import photograph
from .options import LengthText, TextType

#: The order in which a kind is offered; the first is the usual one.
KINDS = tuple(OBJECT_KINDS)
#: What is often asked for and is none of the kinds, by what its name ends with, and what to do instead.
_WRITTEN = "in a .txt file, which check and chart read"
ELSEWHERE = {
    ("pot holder", "potholder", "pan holder", "oven glove", "oven mitt", "trivet", "hot pad"):
        "what is to guard a hand or a table from heat must be dense and double, which is not reckoned here; two "
        "squares of cotton or wool, one on the other: square",
    ("shawl", "bandana", "kerchief"):
        "one that is no rectangle is written row by row in a .txt file; a rectangle: wrap, or pocket shawl",
    ("doily", "mandala"): f"flat rounds are written round by round {_WRITTEN}",
    ("bonnet",): "it is open at the neck; the nearest kind is hat",
    ("glove", "mitten", "mitt"): "fingers and thumbs are not worked here; the nearest kind is fingerless gloves",
    ("sock", "slipper", "bootie"): f"a heel is not worked here; write its rounds {_WRITTEN}",
    ("sweater", "jumper", "cardigan", "dress", "vest", "skirt", "coat", "shrug", "poncho"):
        f"shaped garments are written row by row {_WRITTEN}",
    ("amigurumi", "toy", "doll", "teddy", "bear"): f"stuffed figures are written round by round {_WRITTEN}",
}  # fmt: skip
#: How one says that a piece is to do without something.
NONE = ("none", "no", "0", "-", "without")


class Called(str):
    """A kind's name, with the known `word` that it was found by, and all that was `typed`."""

    word = ""
    typed = ""


class KindText(TextType):
    """A kind by its name or by what makers call it, with words before it that tell it from others; gives its name."""

    name = "kind"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> str:
        if isinstance(value, Called):
            return value
        typed = " ".join(str(value).lower().split())
        word = _known(typed)
        found = kind_called(word)
        if found is None:
            self.fail(f'"{value}" is not one of what is made here; {_advice(typed)}.', param, ctx)
        name = Called(found.name)
        name.word, name.typed = word, typed
        return name


def _known(typed: str) -> str:
    """The name of a kind in what was typed: all of it, else its end, where it tells of none that is made elsewhere; ""
    where it has none.

    >>> _known("a notebook"), _known("cat blanket"), _known("beanie for a baby"), _known("pot holder")
    ('notebook', 'blanket', 'beanie', '')
    """
    whole = re.sub(r"\b(?:a|an|the|my) ", "", typed)
    tries = [typed, whole, re.sub(r" for .*", "", whole)]
    if not _elsewhere(typed):
        words = re.split(r"[ -]", tries[-1])
        tries += [" ".join(words[k:]) for k in range(1, len(words))]
    return next((name for one in tries for name in (one, one.removesuffix("s")) if kind_called(name)), "")


def _elsewhere(typed: str) -> str:
    """What to do instead of what is none of the kinds; "" where nothing is known of it."""
    head = re.sub(r" for .*", "", typed).removesuffix("s")
    for names, says in ELSEWHERE.items():
        if any(re.search(rf"\b{name}$", head) for name in names):
            return says
    return ""


#: So many kinds are named at most where none is meant surely.
_NEAREST = 4


def _advice(word: str) -> str:
    """What to write instead of a word that is no kind: of a slip of the pen what is meant, else the kinds of which a
    name has a word in common with it, else all."""
    if says := _elsewhere(word):
        return says
    names = {kind.name: (kind.name, *kind.called) for kind in OBJECT_KINDS.values()}
    close = get_close_matches(word, sum(names.values(), ()), n=1, cutoff=0.85 if " " in word else 0.7)
    if close:
        return f"perhaps {close[0]} is meant"
    said = {kind: {part for name in called for part in name.split()} for kind, called in names.items()}
    parts = [part for part in re.findall(r"[a-z]{4,}", word) if part != "with"]
    met = {part: [kind for kind in said if part in said[kind]] for part in parts}
    near = list(dict.fromkeys(kind for _, kinds in sorted(met.items(), key=lambda one: len(one[1])) for kind in kinds))
    if near:
        return f"the nearest: {', '.join(_by_name(kind, names[kind], met) for kind in near[:_NEAREST])}"
    return f"nothing near it is known; the kinds: {', '.join(KINDS)}"


def _by_name(kind: str, names: Sequence[str], met: Collection[str]) -> str:
    """A kind by that of its names which has a word in common with what was asked for."""
    name = next(name for name in names if set(name.split()) & set(met))
    return name if name == kind else f"{name} ({kind})"


def kind_lines() -> list[str]:
    """Every kind in a line: its name, what it is, what else it is called."""
    return [
        f"  {kind.name}: {kind.says}" + (f" ({', '.join(kind.called[:5])})" if kind.called else "")
        for kind in OBJECT_KINDS.values()
    ]


class LengthOrNone(LengthText):
    """A length, a head, or "none" for what a piece is to do without."""

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> str:
        text = str(value).strip().lower()
        if text in NONE:
            return "none"
        return text if head_size(text) else super().convert(value, param, ctx)


_BARE = re.compile(r"\s*(?:\d+(?:[.,]\d+)?|\d+(?:\s+|\s*-\s*)\d+\s*/\s*\d+)\s*")


class MeasuredText(LengthText):
    """A length inside what a measurement may be, and no longer than what it lies on; "" for one done without. A bare
    number is in `unit`, the one that was written before."""

    def __init__(self, rule: Measurement, most_mm: float, *, may_lack: bool = False, unit: str = "") -> None:
        self.rule, self.most_mm, self.may_lack, self.unit = rule, most_mm, may_lack, unit

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> str:
        head = head_size(str(value)) if whose(self.rule) else None
        if self.may_lack and str(value).strip().lower() in NONE:
            return ""
        if head is not None:
            value = show_length(head.around_mm, "in" if self.unit == "in" else "cm")
        elif self.unit and _BARE.fullmatch(str(value)):
            value = f"{value} {self.unit}"
        text = super().convert(value, param, ctx)
        length = parse_length(text)
        least, most = self.rule.least, min(self.rule.most.mm, self.most_mm)
        if not least.mm <= length.mm <= most:
            low, high = (show_length(mm, _bound_unit(length.unit, mm)) for mm in (least.mm, most))
            longer = ", for it may be no longer than what it lies on" if length.mm > self.most_mm else ""
            self.fail(f"it lies between {low} and {high}{longer}; look at the unit.", param, ctx)
        return text


def whose(rule: Measurement) -> bool:
    """Whether a measurement may be answered by whose head it is."""
    return "whose it is" in rule.asks


def _bound_unit(unit: str, mm: float) -> str:
    """What a bound is said in to whom answers in a unit."""
    return "in" if unit == "in" else "mm" if mm < 100 else "cm"


class CountText(TextType):
    """How many stitches or rows were counted, as a number."""

    name = "count"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> str:
        found = re.fullmatch(r"\s*(\d+(?:[.,]\d+)?)\s*(?:sts?|stitches|rows?|rnds?|rounds?)?\s*", str(value))
        number = float(found[1].replace(",", ".")) if found else 0.0
        if not 0.5 <= number <= 400:
            self.fail(f'"{value}" is no count; write how many there are, 0.5 to 400, as 17 or 17.5.', param, ctx)
        return f"{number:g}"


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


class HookText(KeyText):
    """A hook by its millimetres, with or without the unit, or by its US letter; where the terms are `us`, a bare number
    that is also the name of another US hook is asked for again."""

    def __init__(self, *, us: bool = False) -> None:
        super().__init__("hook")
        self.us = us

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> str:
        text = " ".join(str(value).split())
        bare = re.fullmatch(r"\d+(?:[.,]\d+)?", text)
        named = _hook_numbered(text) if self.us or not bare else ""
        if bare and named:
            self.fail(f'"{text}" is a US size too: write "{text} mm", or "{named}" for US {text}.', param, ctx)
        if named:
            return super().convert(named, param, ctx)
        return super().convert(f"{text} mm" if bare else _hook_called(text) or text, param, ctx)


def _hook_numbered(text: str) -> str:
    """The hook of a US number, "7" or "US 7"; "" where it is none."""
    from hookfold.charts.model.sizing.yarn_weights import hook_numbered

    return hook_numbered(re.sub(r"^US\s*", "", text, flags=re.IGNORECASE))


def _hook_called(text: str) -> str:
    from hookfold.charts.model.sizing.yarn_weights import hook_called

    return hook_called(text)


def _category_called(text: str) -> int | None:
    from hookfold.charts.model.sizing.yarn_weights import category_called

    return category_called(text)


class WeightText(TextType):
    """A yarn weight category by its number or by its name; gives the number."""

    name = "weight"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> str:
        found = _category_called(str(value))
        if str(value).strip() and found is None:
            says = "is no yarn weight; write its number, 0 to 7, or its name, as DK, worsted or chunky."
            self.fail(f'"{value}" {says}', param, ctx)
        return "" if found is None else str(found)


class BallText(KeyText):
    """A ball's weight and length."""

    def __init__(self) -> None:
        super().__init__("ball")

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> str:
        text = str(value).strip()
        if text and _category_called(text) is not None:
            says = 'is a yarn weight; here the ball\'s label is meant, as "50 g / 115 m".'
            self.fail(f'"{text}" {says}', param, ctx)
        if re.fullmatch(r"\d+(?:[.,]\d+)?\s*(?:g|oz)", text, re.IGNORECASE):
            says = f'is the weight alone; write the length too, as "{text} / 115 m", or leave it out.'
            self.fail(f'"{text}" {says}', param, ctx)
        return super().convert(text, param, ctx)


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
