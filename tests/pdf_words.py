"""The words of a page of a PDF, read by pypdf without the thousands of lines that are drawn on it."""

from __future__ import annotations

import re

from pypdf import PageObject
from pypdf.generic import DecodedStreamObject, NameObject

#: Lines and curves of a path (ISO 32000-1, 8.5.2), one after the other: numbers and what they make.
_PATH = re.compile(rb"(?<=\s)(?:(?:-?[\d.]+ ){2}[ml]\s|(?:-?[\d.]+ ){6}c\s)+")


def words_on(page: PageObject) -> str:
    """What pypdf reads on a page. A path says nothing, and to take one to pieces is nearly all that reading takes."""
    contents = page.get_contents()
    if contents is None:
        return ""
    told = DecodedStreamObject()
    told.set_data(_PATH.sub(b"", contents.get_data()))
    bare = PageObject(page.pdf)
    bare.update(page)
    bare[NameObject("/Contents")] = told
    return bare.extract_text()
