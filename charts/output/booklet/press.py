"""The booklet as PDF, set by Typst: real text, embedded letters, bookmarks, tags. Nothing of it is fetched.

What a pattern says goes to the template as data and never as markup, so every sign of it is printed as it is.
"""

from __future__ import annotations

import functools
import io
import json
import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import asdict
from importlib.resources import files
from importlib.util import find_spec
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Literal

from pypdf import PdfReader, PdfWriter
from pypdf.generic import BooleanObject, DictionaryObject, NameObject, StreamObject

from ...errors import Unable
from ..pdf_file import lay_words, words_of
from .book import Book, Plate, Signs
from .own_words import licence_words

#: A number with more than three decimals in a page's content that is none of a map's.
_LONG = re.compile(rb"-?\d+\.\d{4,}(?![-\d.\s]*cm\b)")
#: Keeps a picture under a name of its own, which it gives back.
Kept = Callable[[bytes, str], str]
#: The name of each paper as Typst calls it.
_PAPERS = {"A4": "a4", "Letter": "us-letter"}
#: The last sign of the scripts that the letters of the press hold (Latin, Greek, Cyrillic); others are taken from the
#: letters of the system.
_LAST_OWN = 0x052F


def press_here() -> bool:
    """Whether Typst is installed."""
    return find_spec("typst") is not None


def pressed(book: Book) -> bytes:
    """The booklet as PDF; the same book gives the same bytes. PressMissing where Typst is not installed."""
    made = _set(book, 0)
    for closer in (1, 2):
        if not _nearly_empty(made, len(book.plates)):
            break
        again = _set(book, closer)
        if _pages(again) < _pages(made):
            made = again
    if book.columns == 1 and _nearly_empty(made, len(book.plates), _SOME_LINES):
        again = _set(book, 0, apart=True)
        made = again if _pages(again) <= _pages(made) else made
    return _finished(made, book.plates)


def _pages(pdf: bytes) -> int:
    return len(PdfReader(io.BytesIO(pdf)).pages)


def _set(book: Book, closer: int, *, apart: bool = False) -> bytes:
    """The booklet's pages, their lines so many steps closer than usual; `apart`: the rows begin on a page of their
    own, so that what would be left of them on the next one stands with the others."""
    data, pictures = _sorted_out(book)
    page = json.dumps(data | {"closer": closer, "apart": apart}, ensure_ascii=False).encode("utf-8")
    template = files(__package__).joinpath("booklet.typ").read_bytes()
    return typeset({"main.typ": template, "book.json": page, **pictures}, "pdf")


#: A page of words with so few lines, head and foot among them, is nearly empty, and with these less than half full.
_FEW_LINES, _SOME_LINES = 11, 24


def _nearly_empty(pdf: bytes, plates: int, few: int = _FEW_LINES) -> bool:
    """Whether the last page of words, before so many drawn ones, holds a few lines that pages before it may take."""
    pages = PdfReader(io.BytesIO(pdf)).pages
    last = len(pages) - plates - 1
    return last > 1 and len(pages[last].extract_text().splitlines()) <= few


def typeset(parts: Mapping[str, bytes], form: Literal["pdf", "png"]) -> bytes:
    """A page of Typst, "main.typ" among the parts, as PDF or as PNG of 144 dots to the inch. The system's letters are
    looked for only where a text is in none of the scripts that the press has. PressMissing without Typst."""
    try:
        import typst
    except ImportError:
        raise PressMissing from None
    said = "".join(part.decode("utf-8") for name, part in parts.items() if name.endswith(".json"))
    own = all(ord(c) <= _LAST_OWN or 0x2000 <= ord(c) <= 0x2BFF for c in said)
    with TemporaryDirectory() as folder:
        for name, content in parts.items():
            (Path(folder) / name).write_bytes(content)
        main = str(Path(folder) / "main.typ")
        made = typst.compile(main, root=folder, ignore_system_fonts=own, format=form, ppi=144.0)
    return bytes(made)


class PressMissing(Unable, RuntimeError):
    """Typst is not installed here; the message says how to get it."""

    def __init__(self) -> None:
        super().__init__("a booklet needs the package typst, which is not installed here: pip install typst")


def _finished(pdf: bytes, plates: Sequence[Plate]) -> bytes:
    """The file with the wish to be printed unscaled (ISO 32000-1, 12.2), for the paper mock-up is in it at true size;
    its drawn pages, the last ones, with their words over the outlines and their numbers as short as they were drawn."""
    writer = PdfWriter(clone_from=PdfReader(io.BytesIO(pdf)))
    wish = DictionaryObject({
        NameObject("/PrintScaling"): NameObject("/None"), NameObject("/DisplayDocTitle"): BooleanObject(True),
    })  # fmt: skip
    writer.root_object[NameObject("/ViewerPreferences")] = wish
    writer.pdf_header = "%PDF-1.7"
    marked = writer.root_object.get("/MarkInfo")
    if marked is not None:  # false where it is not said, and some readers stumble over it
        marked.get_object().pop(NameObject("/Suspects"), None)
    pages = list(writer.pages)
    drawn = pages[len(pages) - len(plates) :]
    for page in drawn:
        content = page["/Contents"].get_object()
        assert isinstance(content, StreamObject)
        content.set_data(_LONG.sub(_rounded, content.get_data()))
    lay_words(writer, drawn, [words_of(plate.svg) for plate in plates])
    out = io.BytesIO()
    writer.write(out)
    return out.getvalue()


def _rounded(found: re.Match[bytes]) -> bytes:
    """A number of a path as it stands in the SVG, with three decimals."""
    return _short(found[0])


@functools.lru_cache(maxsize=1 << 15)
def _short(number: bytes) -> bytes:
    """A number with three decimals; a letter that stands often has the same ones wherever it stands."""
    return (b"%.3f" % float(number)).rstrip(b"0").rstrip(b".")


def _sorted_out(book: Book) -> tuple[dict[str, object], dict[str, bytes]]:
    """The book as JSON can hold it, and its pictures by the names that it calls them by."""
    pictures: dict[str, bytes] = {}

    def kept(data: bytes, suffix: str) -> str:
        name = f"picture-{len(pictures) + 1}.{suffix}"
        pictures[name] = data
        return name

    cover = book.cover and {"file": kept(book.cover.data, book.cover.suffix), "says": book.cover.says,
                            "under": book.cover.under}
    data: dict[str, object] = {
        "title": book.title, "author": book.author, "licence": book.licence, "facts": book.facts, "cover": cover,
        "bands": [asdict(band) for band in book.bands], "paper": _PAPERS[book.paper], "columns": book.columns,
        "keywords": book.keywords, "allows": licence_words(book.licence) if book.licence else "",
        "chapters": [{"wide": c.wide} | _chapter(c.title, c.depth, c.blocks, kept) for c in book.chapters],
        "plates": [_plate(plate, kept) for plate in book.plates],
    }  # fmt: skip
    return data, pictures


def _chapter(title: str, depth: int, blocks: tuple[object, ...], kept: Kept) -> dict[str, object]:
    return {"title": title, "depth": depth, "blocks": [_block(block, kept) for block in blocks]}


def _block(block: object, kept: Kept) -> dict[str, object]:
    if isinstance(block, Signs):
        entries = [
            {"short": e.short, "name": e.name, "words": e.words, "mm": e.mm, "file": kept(e.svg, "svg")}
            for e in block.entries
        ]
        return {"is": "signs", "entries": entries}
    return {"is": type(block).__name__.lower(), **asdict(block)}  # type: ignore[call-overload]


def _plate(plate: Plate, kept: Kept) -> dict[str, object]:
    return {"title": plate.title, "says": plate.says, "mm": plate.mm, "file": kept(plate.svg, "svg")}
