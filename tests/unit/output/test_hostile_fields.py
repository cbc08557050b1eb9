"""Foreign text in every field ends as text in every format, and nothing is fetched for it."""

import io
import re
import sys
import zipfile
from xml.parsers import expat

import pytest
from hookfold.charts import engrave
from hookfold.charts.drawing.checker import violations
from hookfold.charts.output.texts.formats import formatted
from hookfold.charts.setting import Setting
from hostile_fields import HOSTILE, Tags, file_with

CALLS: list[str] = []
PLAIN = "plain words"


@pytest.fixture(autouse=True)
def no_network():
    """Whatever asks for a connection or an address is noted, and fails the test."""
    if not CALLS:
        CALLS.append("listening")
        sys.addaudithook(lambda event, _: CALLS.append(event) if event.startswith(("socket.", "urllib.")) else None)
    del CALLS[1:]
    yield
    assert CALLS == ["listening"]


@pytest.fixture(params=HOSTILE)
def words(request):
    return HOSTILE[request.param]


def sheets(text):
    yield engrave.chart(text, "x.toml", Setting())["svg"]
    yield engrave.assembly(text, "x.toml", Setting())["svg"]


def pages(text):
    yield engrave.follow(text, "x.toml", Setting()).decode()
    yield engrave.fit_page(text, "x.toml", Setting()).decode()
    for said in (engrave.instructions(text, "x.toml", Setting()), engrave.yarn(text, "x.toml")):
        yield formatted(said, "html").decode()


def test_sheets_keep_to_the_subset_and_are_xml(words):
    for svg in sheets(file_with(words)):
        assert violations(svg) == []
        expat.ParserCreate().Parse(svg, True)


def test_pages_have_the_tags_of_one_with_plain_words(words):
    told = 0
    for hostile, plain in zip(map(Tags, pages(file_with(words))), map(Tags, pages(file_with(PLAIN))), strict=True):
        assert sorted(set(hostile.tags)) == sorted(set(plain.tags))
        assert [t for t in hostile.tags if t[0] == "script"] == [t for t in plain.tags if t[0] == "script"]
        assert hostile.addresses == plain.addresses
        told += re.sub(r"\s+", "", words[:20]) in re.sub(r"\s+", "", "".join(hostile.text))
    assert told >= 2, "the words are there, as text"


def test_a_document_is_xml_in_every_part_and_leads_nowhere(words):
    said = engrave.instructions(file_with(words), "x.toml", Setting())
    with zipfile.ZipFile(io.BytesIO(formatted(said, "docx"))) as parts:
        for name in (n for n in parts.namelist() if n.endswith((".xml", ".rels"))):
            content = parts.read(name)
            expat.ParserCreate().Parse(content, True)
            assert b"TargetMode" not in content and b"<w:hyperlink" not in content and b"instrText" not in content


@pytest.mark.parametrize("plane", range(17))
def test_every_plane_is_well_formed(plane):
    """Letters of every plane of Unicode, or a problem that says where one stands; never half a file."""
    words = "".join(chr(plane * 0x10000 + at) for at in (0x0041, 0x03C0, 0x0E01, 0x4E2D, 0xAC00, 0xF8FF, 0xFFFD))
    words = "".join(char for char in words if char.isprintable()) or words
    found = engrave.check(file_with(words), "x.toml")
    if found.problems:
        assert all(problem.line for problem in found.problems)
        return
    for svg in sheets(file_with(words)):
        expat.ParserCreate().Parse(svg, True)
