"""What a PDF carries beside its drawings: metadata, outline, page labels, true size, words to search.

The words lie over their outlines in render mode 3 (neither filled nor stroked), so no pixel changes and the
file can be searched, copied from and read aloud. Their font is named but not drawn with; its widths are those
of our outlines.
"""

from __future__ import annotations

import io
import itertools
import re
from collections.abc import Iterator, Sequence
from xml.etree import ElementTree

from pypdf import PageObject, PdfReader, PdfWriter
from pypdf.generic import (
    ArrayObject,
    BooleanObject,
    DecodedStreamObject,
    DictionaryObject,
    FloatObject,
    IndirectObject,
    NameObject,
    NumberObject,
    PdfObject,
    StreamObject,
    TextStringObject,
)

from ..drawing.geometry import Affine
from ..drawing.letters import text_width
from ..drawing.plain import clean_line
from .pdf import Metadata, OutlineEntry, Words

POINTS_PER_MM = 72.0 / 25.4
#: No clock: every file is dated the same.
FIXED_DATE = "D:20000101000000Z"
#: The first code of a font of ours, and how many characters one font holds.
FIRST_CODE = 32
FONT_SIZE = 224


def finished(
    drawn: bytes, metadata: Metadata, outline: Sequence[OutlineEntry], words: Sequence[Sequence[Words]]
) -> bytes:
    """The drawn pages with everything else a printed document's file should carry."""
    writer = PdfWriter(clone_from=PdfReader(io.BytesIO(drawn)))
    writer.pdf_header = "%PDF-1.6"  # the first version that knows PrintScaling
    _describe(writer, metadata)
    _catalogue(writer, metadata)
    _bookmarks(writer, outline)
    lay_words(writer, list(writer.pages), words)
    out = io.BytesIO()
    writer.write(out)
    return out.getvalue()


def lay_words(writer: PdfWriter, pages: Sequence[PageObject], words: Sequence[Sequence[Words]]) -> None:
    """The words of each of these pages over their outlines, unseen, so that they can be found and copied."""
    fonts = _Fonts(writer, sorted({c for page in words for line in page for c in line.text}))
    for page, said in zip(pages, words, strict=True):
        _lay_words(writer, page, said, fonts)


def words_of(svg: bytes) -> list[Words]:
    """The words of a sheet in the order of the file."""
    root = ElementTree.fromstring(svg)
    return [
        Words(
            node.get("aria-label", ""), node.get("transform", ""),
            float(node.get("font-size", "0")), node.get("font-weight", "regular"),
        )
        for node in root.iter()
        if node.get("aria-label") and node.get("font-size")
    ]  # fmt: skip


def _describe(writer: PdfWriter, metadata: Metadata) -> None:
    said = {
        "/Title": metadata.title, "/Author": metadata.author, "/Subject": metadata.subject,
        "/Keywords": ", ".join(metadata.keywords),
    }  # fmt: skip
    kept = {key: clean_line(value) for key, value in said.items() if value}
    dates = {"/CreationDate": FIXED_DATE, "/ModDate": FIXED_DATE}
    writer.metadata = {**kept, "/Producer": "hookfold", **dates}


def _catalogue(writer: PdfWriter, metadata: Metadata) -> None:
    """Print at true size, show the title, name the language, label the pages."""
    root = writer.root_object
    root[NameObject("/Lang")] = TextStringObject(metadata.language)
    root[NameObject("/ViewerPreferences")] = _dictionary(
        {"/PrintScaling": NameObject("/None"), "/DisplayDocTitle": BooleanObject(True)}
    )
    if metadata.labels:
        root[NameObject("/PageLabels")] = _labels(metadata.labels)


def _labels(labels: Sequence[str]) -> DictionaryObject:
    """The page labels, one range a page (ISO 32000-1, 12.4.2)."""
    ranges = ArrayObject()
    for index, label in enumerate(labels):
        ranges += [NumberObject(index), _dictionary({"/P": TextStringObject(clean_line(label))})]
    return _dictionary({"/Nums": ranges})


def _bookmarks(writer: PdfWriter, outline: Sequence[OutlineEntry]) -> None:
    """The outline; a deeper entry hangs on the last shallower one before it."""
    parents: list[tuple[int, IndirectObject]] = []
    for entry in outline:
        parents = [p for p in parents if p[0] < entry.level]
        parent = parents[-1][1] if parents else None
        title = clean_line(entry.title)
        item = writer.add_outline_item(title=title, page_number=entry.page - 1, parent=parent)
        parents.append((entry.level, item))


def _added(writer: PdfWriter, thing: PdfObject) -> IndirectObject:
    """An object put into the file, as what refers to it. pypdf has no public name for this in all its releases; the
    project's dependency is bounded to those in which this one stands."""
    return writer._add_object(thing)


class _Fonts:
    """Fonts that together hold every character of the document, and the (font, code) of each."""

    def __init__(self, writer: PdfWriter, chars: Sequence[str]) -> None:
        starts = range(0, len(chars), FONT_SIZE)
        chunks = {f"/F{i // FONT_SIZE}": chars[i : i + FONT_SIZE] for i in starts}
        self.codes = {c: (n, FIRST_CODE + i) for n, chunk in chunks.items() for i, c in enumerate(chunk)}
        self.resources = DictionaryObject(
            {NameObject(n): _added(writer, _font(writer, chunk)) for n, chunk in chunks.items()}
        )

    def runs(self, text: str) -> Iterator[tuple[str, str, bytes]]:
        """The text in runs of one font each, as (font, text, codes)."""
        for font, run in itertools.groupby(text, lambda c: self.codes[c][0]):
            piece = "".join(run)
            yield font, piece, bytes(self.codes[c][1] for c in piece)


def _font(writer: PdfWriter, chars: Sequence[str]) -> DictionaryObject:
    """A font that is never drawn with: our widths, glyphs without ink, and what each code means. As its glyphs are in
    the file (Type 3; ISO 32000-1, 9.6.5), nothing is asked of the reader's system."""
    widths = ArrayObject(FloatObject(round(text_width(c, 1000.0), 1)) for c in chars)
    names = ArrayObject([NumberObject(FIRST_CODE), *(NameObject(f"/u{ord(c):04X}") for c in chars)])
    encoding: dict[str, PdfObject] = {"/Type": NameObject("/Encoding"), "/Differences": names}
    blanks: dict[str, PdfObject] = {
        f"/u{ord(c):04X}": _added(writer, _stream(f"{float(width):.1f} 0 d0".encode("ascii")))
        for c, width in zip(chars, widths, strict=True)
    }
    box = ArrayObject(FloatObject(value) for value in (0, -250, 1000, 750))
    em = ArrayObject(FloatObject(value) for value in (0.001, 0, 0, 0.001, 0, 0))
    return _dictionary(
        {
            "/Type": NameObject("/Font"),
            "/Subtype": NameObject("/Type3"),
            "/Name": NameObject("/Words"),
            "/FontBBox": box,
            "/FontMatrix": em,
            "/CharProcs": _dictionary(blanks),
            "/Resources": DictionaryObject(),
            "/FirstChar": NumberObject(FIRST_CODE),
            "/LastChar": NumberObject(FIRST_CODE + len(chars) - 1),
            "/Widths": widths,
            "/Encoding": _dictionary(encoding),
            "/ToUnicode": _added(writer, _stream(_unicode_map(chars))),
        }
    )


def _unicode_map(chars: Sequence[str]) -> bytes:
    """The ToUnicode map (ISO 32000-1, 9.10.3), at most 100 lines a block."""
    lines = [f"<{FIRST_CODE + i:02X}> <{c.encode('utf-16-be').hex().upper()}>" for i, c in enumerate(chars)]
    blocks = [lines[i : i + 100] for i in range(0, len(lines), 100)]
    body = "".join(f"{len(b)} beginbfchar\n" + "\n".join(b) + "\nendbfchar\n" for b in blocks)
    head = (
        "/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n/CMapName /Words def\n"
        "/CMapType 2 def\n1 begincodespacerange\n<00> <FF>\nendcodespacerange\n"
    )
    foot = "endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n"
    return (head + body + foot).encode("ascii")


def _lay_words(writer: PdfWriter, page: PageObject, said: Sequence[Words], fonts: _Fonts) -> None:
    """Words over their outlines, after what cairo drew, fenced in so that its scale does not leak."""
    if not said:
        return
    height = float(page.mediabox.height)
    lines = [line for words in said for line in _line(words, height, fonts)]
    text = "\n".join(["Q", "BT", "3 Tr", *lines, "ET"]).encode("ascii")
    drawn = page.raw_get("/Contents")
    before, after = (_added(writer, _stream(data)) for data in (b"q", text))
    page[NameObject("/Contents")] = ArrayObject([before, drawn, after])
    resources = page["/Resources"].get_object()
    assert isinstance(resources, DictionaryObject)
    there = resources.get("/Font", DictionaryObject()).get_object()
    assert isinstance(there, DictionaryObject)
    resources[NameObject("/Font")] = DictionaryObject({**there, **fonts.resources})


def _line(words: Words, page_height: float, fonts: _Fonts) -> Iterator[str]:
    """The operators that set one line of text, stretched to the width of its outlines."""
    size, place, x = words.size, _placed(words.transform), 0.0
    plain = sum(text_width(c, size) for c in words.text)
    stretch = text_width(words.text, size, words.weight) / plain if plain else 1.0
    for font, piece, codes in fonts.runs(words.text):
        yield f"{font} {_number(size * POINTS_PER_MM)} Tf {_number(100.0 * stretch)} Tz"
        yield f"{_matrix(place @ Affine.shift(x, 0.0), page_height)} Tm <{codes.hex()}> Tj"
        x += stretch * sum(text_width(c, size) for c in piece)


def _placed(transform: str) -> Affine:
    """The map of an SVG transform list of translations and rotations."""
    place = Affine()
    for name, numbers in re.findall(r"(translate|rotate)\(([^)]*)\)", transform):
        values = [float(v) for v in numbers.split()]
        place = place @ (Affine.rotate(values[0]) if name == "rotate" else Affine.shift(values[0], values[1]))
    return place


def _matrix(place: Affine, page_height: float) -> str:
    """The text matrix of a place in mm, y downward, on a page in points, y upward."""
    x, y = place.e * POINTS_PER_MM, page_height - place.f * POINTS_PER_MM
    return " ".join(_number(v) for v in (place.a, -place.b, -place.c, place.d, x, y))


def _number(value: float) -> str:
    return f"{value:.4f}"


def _stream(data: bytes) -> StreamObject:
    stream = DecodedStreamObject()
    stream.set_data(data)
    return stream.flate_encode()


def _dictionary(entries: dict[str, PdfObject]) -> DictionaryObject:
    return DictionaryObject({NameObject(key): value for key, value in entries.items()})
