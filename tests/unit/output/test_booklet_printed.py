"""The booklet as it comes out of a printer, seen by another program (poppler): nothing overprinted, nothing torn apart,
true to size."""

import itertools
import re
import subprocess
from functools import cache
from pathlib import Path
from xml.etree import ElementTree

import numpy as np
import pytest
from hookfold.charts import engrave
from hookfold.charts.setting import Setting
from PIL import Image

GALLERY = Path(__file__).parents[3] / "gallery"
PIECES = {"pouch.toml": "spectacle-pouch", "sleeve.toml": "more/tablet-sleeve"}
TEXTS = {
    **{name: (GALLERY / piece / "pattern.toml").read_text(encoding="utf-8") for name, piece in PIECES.items()},
    "fan.txt": "Ch 8.\nRow 1 (RS): Sc in 2nd ch from hook and in each ch across. (7 sc)\n"
    "Row 2: Ch 3 (counts as dc), turn, sk next 2 sc, 5 dc in next sc, sk next 2 sc, dc in last sc. (7 dc)\n",
}
#: Body text is of 10.5 points; its lines stand at least so many points apart.
LEAST_STEP = 10.0


@cache
def booklet(name):
    return engrave.booklet(TEXTS[name], name, Setting())


@pytest.fixture(scope="module")
def lines(tool, tmp_path_factory):
    """The lines of every page of words: the height of their foot in points from the top, their size and their text."""

    def read(name):
        path = tmp_path_factory.mktemp("booklet") / "a.pdf"
        path.write_bytes(booklet(name))
        said = subprocess.run([tool("pdftotext"), "-bbox", str(path), "-"], check=True, capture_output=True).stdout
        tree = ElementTree.fromstring(re.sub(rb' xmlns="[^"]*"|<!DOCTYPE[^>]*>', b"", said))
        pages = [page_lines(page) for page in tree.iter("page")]
        return [page for page in pages[1:] if not any("Stitch chart" in text or "Scale" in text for _, _, text in page)]

    return cache(read)


def page_lines(page):
    rows = {}
    for word in page.iter("word"):
        rows.setdefault(round(float(word.get("yMax")), 0), []).append(word)
    return [
        (foot, max(float(w.get("yMax")) - float(w.get("yMin")) for w in words), " ".join(w.text for w in words))
        for foot, words in sorted(rows.items())
    ]


@pytest.mark.parametrize("name", ["pouch.toml", "fan.txt"])
def test_no_line_is_printed_over_another(name, lines):
    """Lines on nearly one height stand beside each other, as in a table; others keep clear."""
    steps = [b[0] - a[0] for page in lines(name) for a, b in itertools.pairwise(page)]
    assert len(steps) > 20
    assert [step for step in steps if 4.0 < step < LEAST_STEP] == []


def test_what_is_begun_with_stands_above_the_first_row_and_not_in_it(lines):
    page = next(page for page in lines("fan.txt") if any("Ch 8." in text for *_, text in page))
    begin, row = (next(foot for foot, _, text in page if said in text) for said in ("Ch 8.", "Row 1 (RS)"))
    assert row - begin > LEAST_STEP


def told_steps(name):
    """The numbered steps of a piece's words."""
    return re.findall(r"^\d+\. (.*)$", engrave.instructions(TEXTS[name], name, terms(name)), re.MULTILINE)


def terms(name):
    return Setting(terms="UK" if '"UK"' in TEXTS[name] else "US")


def test_no_row_and_no_step_is_torn_over_two_pages(lines):
    looked_for = 0
    for name in PIECES:
        text = engrave.instructions(TEXTS[name], name, terms(name))
        wanted = [line.partition(": ")[2] for line in re.findall(r"^Rows? \d.*$", text, re.MULTILINE)] + told_steps(name)
        pages = [tight(" ".join(text for *_, text in page)) for page in lines(name)]
        assert [one for one in wanted if not any(tight(one) in page for page in pages)] == []
        looked_for += len(wanted)
    assert looked_for > 25


def test_neither_a_heading_nor_a_first_or_last_step_stands_alone_on_a_page(lines, tool, tmp_path):
    """The steps in two columns of Letter paper, where they go over to another page."""
    path = tmp_path / "a.pdf"
    path.write_bytes(engrave.booklet(TEXTS["pouch.toml"], "pouch.toml", Setting(paper="Letter"), columns=2))
    said = subprocess.run([tool("pdftotext"), str(path), "-"], check=True, capture_output=True, text=True).stdout
    last = len(told_steps("pouch.toml"))
    told = [[n for n in map(int, re.findall(r"^(\d{1,2})\.(?= |$)", page, re.MULTILINE)) if n <= last] for page in said.split("\f")]
    told = [found for found in told if found]
    assert [n for found in told for n in found] == list(range(1, last + 1))
    assert len(told) > 1 and all(len(found) > 1 for found in told)
    for page in lines("pouch.toml"):
        *_, (_, size, text), _foot = page
        if text.strip("* "):  # the stars of a row alone stand higher than its letters
            assert size < 14, "a heading at the foot of a page"


def test_what_another_reader_finds_in_it_is_what_the_tool_reports(lines):
    """Chains, rows with their stitches, sizes and yarn, read by poppler, beside the report as JSON."""
    found = engrave.check(TEXTS["pouch.toml"], "pouch.toml").as_json()
    said = " ".join(text for page in lines("pouch.toml") for *_, text in page)
    assert f"With A, ch {found['foundation']}." in said
    counts = [(int(a), int(b or a), int(n)) for a, b, n in re.findall(r"Rows? (\d+)(?:[-–](\d+))?(?: \(RS\))?: [^:]*?\((\d+) sts\)", said)]
    assert len(counts) > 4
    for first, last, stitches in counts:
        assert {row["stitches"] for row in found["rows"][first - 1 : last]} == {stitches}
    for mm in (found["size"]["width_mm"], found["size"]["height_mm"]):
        assert f"{mm:.0f} mm" in said
    for row in engrave.yarn(TEXTS["pouch.toml"], "pouch.toml").splitlines():
        if row.startswith(("| A (", "| B (")):
            name, most = re.search(r"\| (\w \(\w+\)) .* to (\d+) m\)", row).groups()
            to_buy = int(re.search(rf"{re.escape(name)} (\d+) m \d+ yd", said)[1])
            assert int(most) <= to_buy <= int(most) + 5, "the most that may be needed, rounded up"


def test_the_test_squares_of_the_mock_up_have_their_true_size_in_the_printed_file(tmp_path, tool):
    """Their sides measured on the file as poppler draws it at 10 pixels a millimetre."""
    (tmp_path / "a.pdf").write_bytes(booklet("pouch.toml"))
    said = subprocess.run([tool("pdftotext"), str(tmp_path / "a.pdf"), "-"], check=True, capture_output=True, text=True).stdout
    at = next(str(k) for k, page in enumerate(said.split("\f"), 1) if "50 mm" in page and "2 in" in page)
    asked = [tool("pdftoppm"), "-r", "254", "-gray", "-f", at, "-l", at, str(tmp_path / "a.pdf"), str(tmp_path / "p")]
    subprocess.run(asked, check=True, capture_output=True)
    dark = np.asarray(Image.open(next(tmp_path.glob("p*.pgm")))) < 128
    for pixels in (dark, dark.T):
        found = sides(pixels)
        assert min(abs(side - 500) for side in found) <= 2
        assert min(abs(side - 508) for side in found) <= 2


def sides(dark):
    """How long straight level strokes are, from outer edge to outer edge as a ruler is laid on them."""
    return {b - a for line in dark for a, b in runs(line) if b - a > 300}


def runs(line):
    at = np.flatnonzero(np.diff(np.concatenate(([0], line.astype(np.int8), [0])))).tolist()
    return zip(at[::2], at[1::2], strict=True)


def tight(text):
    """Text without spaces and stars, which are raised and so stand on a line of their own."""
    return re.sub(r"[\s*]", "", text)
