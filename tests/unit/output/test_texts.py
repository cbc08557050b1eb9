"""The pages of words in every format, read back by general libraries (python-docx, the standard HTML parser)."""

import io
from html.parser import HTMLParser

import pytest
from docx import Document
from hookfold.charts.output.texts.blocks import Cells, Items, Text, Title, blocks_of
from hookfold.charts.output.texts.formats import FORMATS, formatted

PAGE = """# Harbour mat

by Ida \\<b>Loo\\</b>

* A: sand \\| stone
* B: <script>alert(1)</script>

## Rows

Row 1: *Sc in next st, 2 dc in next st; rep from * across, **end** here_and_there.

Row 2: (sc, ch 1) in [next] (sp).

| short | in full |
|---|---|
| ch | chain |
| `x` | a \\| b |

1. Fold it.
2. Sew it & press.
"""


class Words(HTMLParser):
    """The text of a page and the tags that are in it."""

    def __init__(self):
        super().__init__()
        self.tags, self.text = [], []

    def handle_starttag(self, tag, attrs):
        self.tags.append(tag)

    def handle_data(self, data):
        self.text.append(data)


def test_a_page_is_read_into_blocks():
    title, by, colours, rows, first, second, table, steps = blocks_of(PAGE)
    assert (title, rows) == (Title(1, "Harbour mat"), Title(2, "Rows"))
    assert by == Text("by Ida <b>Loo</b>")
    assert colours == Items(("A: sand | stone", "B: <script>alert(1)</script>"), False)
    assert first.text == "Row 1: *Sc in next st, 2 dc in next st; rep from * across, **end** here_and_there."
    assert second.text == "Row 2: (sc, ch 1) in [next] (sp)."
    assert table == Cells(("short", "in full"), (("ch", "chain"), ("x", "a | b")))
    assert steps == Items(("Fold it.", "Sew it & press."), True)


@pytest.mark.parametrize("suffix", sorted(FORMATS))
def test_every_format_keeps_every_row(suffix):
    made = formatted(PAGE, suffix)
    if suffix == "docx":
        said = "\n".join(paragraph.text for paragraph in Document(io.BytesIO(made)).paragraphs)
    elif suffix == "html":
        page = Words()
        page.feed(made.decode())
        said = "".join(page.text)
    else:
        said = made.decode()
    assert "Row 1: *Sc in next st, 2 dc in next st; rep from * across" in said
    assert "Row 2: (sc, ch 1) in [next] (sp)." in said and "Sew it & press." in said


def test_html_has_no_script_and_loads_nothing():
    made = formatted(PAGE, "html").decode()
    page = Words()
    page.feed(made)
    assert "script" not in page.tags and "b" not in page.tags and "src=" not in made and "href=" not in made
    assert "default-src 'none'" in made
    assert page.tags.count("li") == 4 and page.tags.count("th") == 2


def test_docx_has_real_headings_and_tables_and_the_same_bytes_every_time():
    made = formatted(PAGE, "docx")
    document = Document(io.BytesIO(made))
    assert [p.text for p in document.paragraphs if p.style.name.startswith(("Heading", "Title"))] == ["Harbour mat", "Rows"]
    assert [[cell.text for cell in row.cells] for row in document.tables[0].rows] == [["short", "in full"], ["ch", "chain"], ["x", "a | b"]]
    assert formatted(PAGE, "docx") == made


def test_plain_text_has_no_marks_of_markdown():
    said = formatted(PAGE, "txt").decode()
    assert "\\" not in said and "#" not in said and "|---" not in said
    assert "ch     chain" in said and "Harbour mat\n===========" in said
