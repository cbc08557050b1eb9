"""The specimen: every form of stitch, both terms, nothing cut, nothing touching, everything on the page."""

import itertools
import re

import pytest
from hookfold.charts.drawing.checker import violations
from hookfold.charts.drawing.display import Group, Ink, Sheet, Text
from hookfold.charts.drawing.letters import text_width, x_height
from hookfold.charts.drawing.svg import write
from hookfold.charts.layout.sheets.page import MARGIN_MM
from hookfold.charts.layout.sheets.specimen import sections, specimen
from hookfold.symbols import heights, stitch
from hookfold.symbols.dictionary import ADDED, SHAPES

PAGES = list(itertools.product(("US", "UK"), ("A4", "Letter")))
ENTRIES = [entry for _, entries in sections() for entry in entries]


def flat(items: tuple[Ink | Text | Group, ...]) -> list[Ink | Text]:
    found: list[Ink | Text] = []
    for item in items:
        found += flat(item.items) if isinstance(item, Group) else [item]
    return found


def boxes(group: Group) -> list[tuple[float, float, float, float]]:
    """The boxes of the words and inks of a group, by our own reading of the numbers."""
    return [box(item) for item in flat(group.items)]


def box(item: Ink | Text) -> tuple[float, float, float, float]:
    if isinstance(item, Text):
        width = text_width(item.text, item.size, item.weight)
        left = item.x - {"start": 0.0, "middle": width / 2, "end": width}[item.anchor]
        return (left, item.y - 0.72 * item.size, left + width, item.y + 0.2 * item.size)
    values = [float(v) for v in re.findall(r"-?\d+(?:\.\d+)?", item.d)]
    half = item.width / 2 if item.stroke else 0.0
    return (
        min(values[::2]) - half, min(values[1::2]) - half, max(values[::2]) + half, max(values[1::2]) + half,
    )  # fmt: skip


@pytest.mark.parametrize("base", heights())
def test_every_plain_stitch_is_shown(base: str) -> None:
    assert any((e.us, e.uk) == (base, heights()[base].uk) for e in ENTRIES)


@pytest.mark.parametrize("form", [*ADDED, "together", "gathered", "chain"])
def test_every_form_is_shown(form: str) -> None:
    shown = {stitch(e.us).form for e in ENTRIES if e.us and "LO" not in e.us}
    gathered = {"gathered"} if all(any(s in e.us_name for e in ENTRIES) for s in SHAPES) else set()
    assert form in shown | gathered


@pytest.mark.parametrize(("terms", "paper"), PAGES)
def test_the_page_keeps_to_the_subset_and_cuts_no_text(terms: str, paper: str) -> None:
    sheet = specimen(terms, paper)
    assert violations(write(sheet)) == []
    assert [t.text for t in flat(sheet.items) if isinstance(t, Text) and "…" in t.text] == []


@pytest.mark.parametrize(("terms", "paper"), PAGES)
def test_everything_lies_inside_the_margins_and_nothing_overlaps(terms: str, paper: str) -> None:
    sheet = specimen(terms, paper)
    cells = [g for section in sheet.items[1:-1] for g in section.items if isinstance(g, Group)]
    extents = [whole(boxes(cell)) for cell in cells]
    for left, top, right, bottom in extents:
        assert left >= MARGIN_MM - 0.01 and right <= sheet.width - MARGIN_MM + 0.01
        assert top > MARGIN_MM and bottom < sheet.height - MARGIN_MM - 5.0
    for one, other in itertools.combinations(extents, 2):
        assert apart(one, other) > 0.3


def whole(parts: list[tuple[float, float, float, float]]) -> tuple[float, float, float, float]:
    low = [min(b[i] for b in parts) for i in (0, 1)]
    high = [max(b[i] for b in parts) for i in (2, 3)]
    return (low[0], low[1], high[0], high[1])


def apart(one: tuple[float, ...], other: tuple[float, ...]) -> float:
    """The larger of the gaps across and down; negative where two boxes overlap."""
    across = max(one[0] - other[2], other[0] - one[2])
    return max(across, one[1] - other[3], other[1] - one[3])


@pytest.mark.parametrize("terms", ["US", "UK"])
def test_glyphs_keep_clear_of_their_words_and_headings(terms: str) -> None:
    sheet: Sheet = specimen(terms)
    for section in sheet.items[1:-1]:
        assert isinstance(section, Group)
        heads = [box(item) for item in section.items if not isinstance(item, Group)]
        for cell in (g for g in section.items if isinstance(g, Group)):
            inks = [box(i) for i in cell.items if isinstance(i, Ink)]
            words = [box(i) for i in cell.items if isinstance(i, Text)]
            assert all(apart(i, w) > 0.25 for i in inks for w in words + heads), cell.name
            assert all(apart(w, h) > 0.25 for w in words for h in heads), cell.name


def test_the_smallest_words_can_be_read() -> None:
    sizes = {t.size for t in flat(specimen().items) if isinstance(t, Text)}
    assert min(sizes) >= 7 / 72 * 25.4 and x_height(min(sizes)) > 1.2


@pytest.mark.parametrize("entry", [e for e in ENTRIES if e.us], ids=lambda e: e.us)
def test_both_terms_stand_beside_a_glyph(entry: object) -> None:
    said = {t.text for t in flat(specimen("UK").items) if isinstance(t, Text)}
    assert {entry.us_name, entry.uk_name} <= said
    assert entry.us == entry.uk or {f"US {entry.us}", entry.uk} <= said
