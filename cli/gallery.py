"""The patterns of a folder, and what lies beside them that a gallery can show."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from urllib.parse import quote

import click
from hookfold.charts import engrave
from hookfold.charts.errors import PatternError, Unable
from hookfold.charts.made_late import replace
from hookfold.charts.output.pages.gallery import Card

from .disk.files import printable, read_text

#: A gallery of more patterns than this is no page.
MOST_PATTERNS = 500
#: Pictures in the order in which they are taken, and sheets with what they are called on the page.
PICTURES = ("picture.png", "picture.jpg", "share-square.png")
SHEETS = {
    "follow.html": "follow it", "instructions.md": "words", "chart.pdf": "chart (PDF)", "chart.svg": "chart (SVG)",
    "assembly.pdf": "folding (PDF)", "assembly.svg": "folding (SVG)", "template.pdf": "paper template",
    "yarn.md": "yarn", "sizes.md": "sizes", "booklet.pdf": "booklet", "fit-page.html": "fit it to yours",
}  # fmt: skip


def patterns_in(folder: Path) -> list[Path]:
    """The files that may be patterns: in the folder and in those right inside it, hidden ones aside."""
    inside = [folder, *sorted(p for p in folder.iterdir() if p.is_dir() and not p.name.startswith("."))]
    found = [p for each in inside for p in sorted(each.iterdir()) if p.suffix in (".toml", ".txt") and p.is_file()]
    return [p for p in found if not p.name.startswith(".") and p.with_suffix(".png").name not in _ALONE]


#: What `share` writes to describe its images: text, but no pattern.
_ALONE = {f"share-{shape}.png" for shape in ("square", "portrait", "tall", "wide")}


def cards_of(folder: Path) -> list[Card]:
    """A card for every pattern; wrong use where the folder has none, or more than a page can show."""
    files = patterns_in(folder)
    if len(files) > MOST_PATTERNS:
        says = f"has {len(files):,} files that may be patterns; {MOST_PATTERNS} go on a page"
        raise click.UsageError(f"{printable(str(folder))} {says}.")
    cards = [card for file in files for card in _card(file, folder, files)]
    if not cards:
        raise click.UsageError(f"{printable(str(folder))} has no patterns (.toml or .txt), nor have the folders in it.")
    return cards


def _card(file: Path, folder: Path, files: list[Path]) -> Iterator[Card]:
    try:
        text, name = read_text(str(file))
        if file.suffix == ".toml" and "[gauge]" not in text and "[object]" not in text:
            return
        card = engrave.card(text, name)
    except PatternError as unread:
        card = Card(file.stem, wrong=unread.problems[0].says)
    except Unable as undrawn:
        card = Card(file.stem, wrong=str(undrawn))
    if card is None:
        return
    near = list(_near(file, files))
    picture = next((p for p in near if p.name in PICTURES or p == file.with_suffix(".png")), None)
    links = tuple((label, _to(p, folder)) for called, label in SHEETS.items() for p in near if p.name == called)
    own = (f"the pattern ({printable(file.name)})", _to(file, folder))
    yield replace(card, picture=_to(picture, folder) if picture else "", links=(*links, own))


def _near(file: Path, files: list[Path]) -> Iterator[Path]:
    """What was made of a pattern: files of its own name, those in a folder of its name, and all beside it where it is
    the only pattern there."""
    alone = sum(other.parent == file.parent for other in files) == 1
    if file.with_suffix(".png").is_file():
        yield file.with_suffix(".png")
    for where in (file.parent / file.stem, *([file.parent, file.parent / "out"] if alone else [])):
        for name in (*PICTURES, *SHEETS):
            if (where / name).is_file():
                yield where / name


def _to(path: Path, folder: Path) -> str:
    """The way from the page to a file."""
    return quote(path.relative_to(folder).as_posix(), errors="surrogateescape")
