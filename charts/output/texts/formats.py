"""A page of Markdown as plain text, as HTML, and as DOCX."""

from __future__ import annotations

import html
import io
import zipfile
from collections.abc import Callable
from importlib.resources import files

from .blocks import Block, Cells, Items, Text, Title, blocks_of

#: What every entry of a DOCX is dated: no clock.
_DATE = (2000, 1, 1, 0, 0, 0)


def formatted(page: str, suffix: str) -> bytes:
    """The page in the format of a file's suffix: md, txt, html or docx."""
    return FORMATS[suffix](page)


def _markdown(page: str) -> bytes:
    return page.encode("utf-8")


def _plain(page: str) -> bytes:
    """Headings underlined, tables in columns, everything else as it stands."""
    return ("\n\n".join(_plain_block(block) for block in blocks_of(page)) + "\n").encode("utf-8")


def _plain_block(block: Block) -> str:
    if isinstance(block, Title):
        return f"{block.text}\n{('=' if block.level == 1 else '-') * len(block.text)}"
    if isinstance(block, Items):
        marks = (f"{n}." if block.numbered else "*" for n in range(1, len(block.texts) + 1))
        return "\n".join(f"{mark} {text}" for mark, text in zip(marks, block.texts, strict=True))
    if isinstance(block, Cells):
        rows = [block.head, *block.rows]
        wide = [max(len(row[k]) for row in rows if k < len(row)) for k in range(len(block.head))]
        return "\n".join("  ".join(c.ljust(w) for c, w in zip(row, wide, strict=False)).rstrip() for row in rows)
    return block.text


def _html(page: str) -> bytes:
    """One page that needs nothing else: its style is in it, it has no script, and every word is escaped."""
    blocks = blocks_of(page)
    title = next((block.text for block in blocks if isinstance(block, Title)), "Pattern")
    style = files(__package__).joinpath("page.css").read_text("utf-8")
    body = "\n".join(_html_block(block) for block in blocks)
    policy = "default-src 'none'; style-src 'unsafe-inline'"
    return (
        f'<!DOCTYPE html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
        f'<meta http-equiv="Content-Security-Policy" content="{policy}">\n'
        f'<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        f"<title>{html.escape(title)}</title>\n<style>\n{style}</style>\n</head>\n<body>\n<main>\n{body}\n</main>\n"
        f"</body>\n</html>\n"
    ).encode()


def _html_block(block: Block) -> str:
    if isinstance(block, Title):
        return f"<h{block.level}>{html.escape(block.text)}</h{block.level}>"
    if isinstance(block, Items):
        tag = "ol" if block.numbered else "ul"
        return f"<{tag}>\n" + "".join(f"<li>{html.escape(text)}</li>\n" for text in block.texts) + f"</{tag}>"
    if isinstance(block, Cells):
        head = "".join(f'<th scope="col">{html.escape(cell)}</th>' for cell in block.head)
        rows = "".join("<tr>" + "".join(f"<td>{html.escape(c)}</td>" for c in row) + "</tr>\n" for row in block.rows)
        return f"<table>\n<thead><tr>{head}</tr></thead>\n<tbody>\n{rows}</tbody>\n</table>"
    return "<p>" + html.escape(block.text).replace("\n", "<br>\n") + "</p>"


def _docx(page: str) -> bytes:
    """A document with real headings, lists and tables, dated alike whenever it is made."""
    from docx import Document

    made = Document()
    for block in blocks_of(page):
        if isinstance(block, Title):
            made.add_heading(block.text, level=block.level - 1)
        elif isinstance(block, Items):
            for number, text in enumerate(block.texts, 1):
                if block.numbered:
                    made.add_paragraph(f"{number}. {text}")
                else:
                    made.add_paragraph(text, style="List Bullet")
        elif isinstance(block, Cells):
            table = made.add_table(rows=1, cols=len(block.head), style="Table Grid")
            for cells, row in ((table.rows[0].cells, block.head), *((table.add_row().cells, r) for r in block.rows)):
                for cell, text in zip(cells, row, strict=False):
                    cell.text = text
        elif isinstance(block, Text):
            made.add_paragraph(block.text)
    said = made.core_properties
    first = next((block.text for block in blocks_of(page) if isinstance(block, Title)), "Pattern")
    said.title, said.author, said.comments = first[:255], "", ""
    out = io.BytesIO()
    made.save(out)
    return _undated(out.getvalue())


def _undated(docx: bytes) -> bytes:
    """The same file with one date for all of its entries."""
    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(docx)) as old, zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as new:
        for entry in old.infolist():
            new.writestr(zipfile.ZipInfo(entry.filename, _DATE), old.read(entry), zipfile.ZIP_DEFLATED)
    return out.getvalue()


#: Every format of words, by the suffix of its file.
FORMATS: dict[str, Callable[[str], bytes]] = {"md": _markdown, "txt": _plain, "html": _html, "docx": _docx}
