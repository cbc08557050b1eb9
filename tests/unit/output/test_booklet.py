"""The booklet, read back by a general reader of PDF (pypdf): its words, its pages, its letters."""

import io
import json
import re
from functools import cache
from pathlib import Path

import pytest
from hookfold.charts import engrave
from hookfold.charts.output.booklet.sized import merged
from hookfold.charts.output.images import fabric
from hookfold.charts.setting import Setting
from pdf_words import words_on
from pypdf import PdfReader

SIZED = '''
title = "Tide table wallet"
author = "Perpetua Linde"
licence = "CC0"
terms = "US"
hook = "3.5 mm"
notions = "one button of 15 mm"
notes = "The first row is the only one that is worked into chains."
testers = "Ida, Bo"
yarn = { category = 3, fibre = "cotton", swatch_weight = "10 g", swatch_size = "12 cm x 12 cm", ball = "50 g / 125 m" }
[gauge]
stitches = 18
rows = 22
over = "10 cm"
[object]
kind = "book"
height = "180 mm"
wrap = "270 mm"
flap = "55 mm"
[colours]
A = { name = "slate", hex = "#46535e" }
B = { name = "sand", hex = "#d8c7a0" }
[[section]]
name = "front flap"
length = "flap"
colour = "A"
work = "Row 1: Ch 1, turn. Sc in each st across."
[[section]]
name = "body"
length = "wrap"
stripes = ["A", "A", "B", "B"]
work = """
Row 1: Ch 1, turn. Sc in each st across.
Row 2: Ch 1, turn. Sc in first st, *hdc in next st, sc in next st; rep from * across.
"""
[[section]]
name = "back flap"
length = "flap"
colour = "A"
work = "Row 1: Ch 1, turn. Sc in each st across."
[border]
stitch = "sc"
joins = true
[sizes]
small = { height = "150 mm", wrap = "230 mm" }
large = { height = "210 mm", wrap = "310 mm" }
'''
#: A small flat piece of one section and one size.
FLAT = SIZED[: SIZED.index("[object]")] + '''[object]
kind = "panel"
width = "60 mm"
height = "90 mm"
[[section]]
name = "all"
length = "height"
work = "Row 1: Ch 1, turn. Sc in each st across."
'''
RING = "Terms: US\nCh 4, join with sl st to form a ring.\nRnd 1: Ch 1, 8 sc in ring, join. (8 sc)\nRnd 2: Ch 1, 2 sc in each st around, join. (16 sc)\n"


def asked_as(columns=1, paper="A4", terms="US", plain=False):
    return columns, paper, terms, plain


def printed(**asked):
    """The wallet's booklet as bytes, set once for all that ask for it alike."""
    return _printed(*asked_as(**asked))


@cache
def _printed(columns, paper, terms, plain):
    text = SIZED.split("[sizes]")[0] if plain else SIZED
    return engrave.booklet(text, "wallet.toml", Setting(paper=paper, terms=terms), columns=columns)


def book(**asked):
    return _book(*asked_as(**asked))


@cache
def _book(*asked):
    return PdfReader(io.BytesIO(_printed(*asked)))


def words(**asked):
    return said_in(book(**asked))


@cache
def of_gallery(*path):
    """The booklet of a pattern of the gallery, read back."""
    file = Path(__file__).parents[3].joinpath("gallery", *path)
    return PdfReader(io.BytesIO(engrave.booklet(file.read_text("utf-8"), file.name, Setting())))


@cache
def of_ring():
    return PdfReader(io.BytesIO(engrave.booklet(RING, "little-ring.txt", Setting())))


@cache
def said_in(reader):
    """The words of the pages that are set: those before the first drawn page and after the last."""
    first = {entry["/Title"]: reader.get_destination_page_number(entry) for entry in reader.outline if not isinstance(entry, list)}
    chart, after = first["Chart"], first["Take care"]
    some = [*reader.pages[:chart], *(reader.pages[after:] if after > chart else [])]
    return " ".join(" ".join(words_on(page) for page in some).split())


def test_rows_of_one_size_stand_in_it_word_for_word_as_the_instructions_have_them():
    text = engrave.instructions(SIZED.split("[sizes]")[0], "wallet.toml", Setting())
    rows = re.findall(r"^Rows? .*$", text, re.MULTILINE)
    assert len(rows) > 5
    assert [row for row in rows if " ".join(row.split()) not in words(plain=True)] == []


def test_counts_of_all_sizes_are_those_that_each_size_makes_alone():
    every = []
    for height, wrap in ((150, 230), (210, 310)):
        alone = SIZED.split("[sizes]")[0].replace("180 mm", f"{height} mm").replace("270 mm", f"{wrap} mm")
        found = engrave.check(alone, "alone.toml").as_json()
        every.append((found["fit"]["foundation"], found["fit"]["rows"], found["rows"][0]["stitches"]))
    (chain, rows, sts), (chains, more, wide) = every
    assert f"ch {chain} ({chains})" in words()
    assert f"across. {sts} ({wide}) sts." in words()
    assert re.search(rf"Rows \d+–{rows} \(\d+–{more}\): ", words())


def test_what_the_file_says_beside_the_rows_is_printed():
    for said in ("Tide table wallet", "Perpetua Linde", "CC0", "One button of 15 mm", "only one that is worked into chains",
                 "Thanks to those who tried this pattern: Ida, Bo", "A (slate)", "18 sts and 22 rows = 10 cm (4 in)"):  # fmt: skip
        assert said in words(), said


def test_yarn_is_that_of_the_yarn_page():
    page = engrave.yarn(SIZED.split("[sizes]")[0], "wallet.toml")
    cells = [row.strip("| ").split(" | ") for row in page.splitlines() if row.startswith(("| A (", "| B ("))]
    assert len(cells) == 2
    told = words(plain=True)
    assert [cell for row in cells for cell in row if cell not in told] == []
    metres = int(re.search(r"(\d+) m", cells[0][2])[1])
    assert re.search(rf"\b{metres} m (\d+) yd", told), "in yards beside it"
    assert abs(int(re.search(rf"\b{metres} m (\d+) yd", told)[1]) - metres / 0.9144) <= 1.5


def test_what_is_to_be_bought_is_one_figure_the_most_that_may_be_needed():
    file = Path(__file__).parents[3] / "gallery" / "strapped-journal" / "pattern.toml"
    piece = engrave.work_file(file.read_text("utf-8"), "pattern.toml")
    from hookfold.charts.output.said import yarn_of_piece
    from hookfold.charts.output.yarn_words import buying_cells

    report = yarn_of_piece(piece)
    for need in report.needs:
        _, grams, metres, yards, balls, _ = buying_cells(need, piece.pattern)
        most = need.metres_range[1]
        assert most <= int(metres.split()[0]) < most + 5
        assert int(yards.split()[0]) * 0.9144 >= most and int(balls) == need.balls_range[1]
        assert int(grams.split()[0]) >= most / 170 * 50


def test_letters_are_embedded_and_the_file_has_bookmarks_tags_and_its_true_size():
    reader = book()
    fonts = {str(font.get_object().get("/BaseFont", "unseen")): font.get_object()
             for page in reader.pages for font in page["/Resources"].get("/Font", {}).values()}  # fmt: skip
    assert fonts
    for name, font in fonts.items():
        if font["/Subtype"] == "/Type3":
            assert font["/CharProcs"], name
            continue
        descriptor = font["/DescendantFonts"][0].get_object()["/FontDescriptor"]
        assert any(key in descriptor for key in ("/FontFile2", "/FontFile3")), name
    titles = [entry["/Title"] for entry in reader.outline if not isinstance(entry, list)]
    assert {"Materials", "Instructions", "Chart", "Folding and joining", "Paper mock-up, size small", "Take care"} <= set(titles)
    assert reader.root_object["/MarkInfo"]["/Marked"] and reader.root_object["/Lang"] == "en"
    assert reader.root_object["/ViewerPreferences"]["/PrintScaling"] == "/None"
    assert len(printed()) < 2_000_000


@pytest.mark.parametrize(("paper", "mm"), [("A4", (210.0, 297.0)), ("Letter", (215.9, 279.4))])
def test_every_page_has_the_size_of_its_paper(paper, mm):
    for page in book(paper=paper).pages:
        sides = sorted(float(side) / 72 * 25.4 for side in page.mediabox[2:])
        assert sides == pytest.approx(mm, abs=0.1)


def test_the_same_pattern_gives_the_same_bytes():
    again = engrave.booklet(SIZED, "wallet.toml", Setting(), columns=1)
    assert again == printed()


def test_two_columns_hold_the_same_rows():
    one, two = (set(words(columns=n).split()) for n in (1, 2))
    assert one - two <= {"Materials"} | {w for w in one if not w.isalpha()}


def test_uk_terms_say_tension_and_uk_stitches():
    assert "Tension" in words(terms="UK") and "double crochet" in words(terms="UK")
    assert "single crochet" not in words(terms="UK")


@pytest.mark.parametrize("title", ["#panic() $x$ *bold* _em_ @ref <label> `raw`", 'a "quoted" \\\\ back', "// no comment /* here"])
def test_signs_of_markup_are_printed_as_they_are(title):
    """A small piece without sizes: where the title stands does not hang on what is made."""
    text = FLAT.replace('"Tide table wallet"', json.dumps(title))
    made = PdfReader(io.BytesIO(engrave.booklet(text, "wallet.toml", Setting())))
    assert made.metadata.title == title
    assert " ".join(title.split()) in " ".join(words_on(made.pages[0]).split())


def test_a_written_pattern_has_its_rounds_signs_and_chart():
    made = of_ring()
    said = said_in(made)
    for line in ("Little ring", "8 sc in ring, join", "(16 sc)", "sc single crochet", "Rounds"):
        assert line in said, line
    titles = [entry["/Title"] for entry in made.outline if not isinstance(entry, list)]
    assert "Chart" in titles and "Paper mock-up" not in titles


SOLE = """Harbour slippers
Designed by Nettie Voss
Licence: CC BY 4.0
Materials: 100 g of aran wool, 5 mm hook
Terms: US
The sole comes first.

Sole (make 2)
Ch 10.
Row 1 (RS): Hdc in 3rd ch from hook and in each ch across. (8 sts)
Rows 2-6: Ch 2, turn, hdc in each st across. (8 sts)
Fasten off.

Flower
Make a magic ring.
Rnd 1: Ch 1, 6 sc in ring, join with sl st in first sc. (6 sc)
Rnd 2: Ch 1, 2 sc in each st around, join. (12 sc)
Fasten off. Sew the flower to the toe.
"""


def test_every_piece_of_a_written_pattern_has_its_beginning_its_rows_and_its_chart():
    made = PdfReader(io.BytesIO(engrave.booklet(SOLE, "slippers.txt", Setting())))
    titles = [entry["/Title"] for entry in made.outline if not isinstance(entry, list)]
    assert [title for title in titles if title.startswith("Chart")] == ["Chart: Sole", "Chart: Flower"]
    said = " ".join(" ".join(words_on(page) for page in made.pages[: len(made.pages) - 2]).split())
    order = ["Sole (make 2)", "Ch 10.", "Row 1 (RS)", "Fasten off.", "Flower Make a magic ring.", "Rnd 2", "Sew the flower to the toe."]
    places = [said.index(one, said.index("Instructions Chart")) for one in order]
    assert places == sorted(places)
    # What the page says is said once, the fastening off where the page has it.
    assert said.lower().count("fasten off") == 2 and "Materials: 100 g of aran wool, 5 mm hook" in said
    assert made.metadata.title == "Harbour slippers" and made.metadata.author == "Nettie Voss"


def test_words_of_a_drawn_page_can_be_found_and_copied():
    made = book()
    first = {entry["/Title"]: made.get_destination_page_number(entry) for entry in made.outline if not isinstance(entry, list)}
    chart, folding = (" ".join(words_on(made.pages[first[title]]).split()) for title in ("Chart", "Folding and joining"))
    assert words_on(made.pages[first["Chart"]]) == made.pages[first["Chart"]].extract_text(), "what is left out says nothing"
    for said in ("Tide table wallet, size small", "single crochet", "half double crochet", "A number in brackets"):
        assert said in chart, said
    assert "Fold the front flap over onto the wrong side of the body" in folding


ONE_STITCH = SIZED.replace('stripes = ["A", "A", "B", "B"]', 'colour = "A"').replace("Row 2: Ch 1, turn. Sc in first st, *hdc in next st, sc in next st; rep from * across.\n", "")


#: The numbers of two sizes side by side, alone or from one to another.
NUMBERS = re.compile(r"(\d+(?:[-–]\d+)?) \((\d+(?:[-–]\d+)?)\)")


@cache
def sized_rows():
    """The foundation and the rows for all sizes as a stranger copies them from the booklet."""
    said = said_in(PdfReader(io.BytesIO(engrave.booklet(ONE_STITCH, "wallet.toml", Setting()))))
    body = said[said.index("With A, ch") : said.index(" Finishing 1.")]
    begin, *rows = re.split(r"(?=\bRows? \d[\d (),–-]*(?: \(RS\)| \(WS\))?: )", body)
    return (
        re.search(r"ch \d+ \(\d+\)", begin)[0].capitalize() + ".",
        *(re.sub(r"(?: all sizes| small| large| more| Body| Back flap)+ ?$", "", row.strip()) for row in rows),
    )


@pytest.mark.parametrize(("size", "height", "wrap"), [(1, 150, 230), (2, 210, 310)])
def test_rows_copied_from_it_make_in_each_size_what_that_size_makes(size, height, wrap):
    text = "\n".join(["Terms: US", *(NUMBERS.sub(lambda found: found[size], row) for row in sized_rows())])
    found = engrave.check(text, "copied.txt").as_json()
    alone = ONE_STITCH.split("[sizes]")[0].replace("180 mm", f"{height} mm").replace("270 mm", f"{wrap} mm")
    wanted = engrave.check(alone, "alone.toml").as_json()
    assert not found["problems"]
    assert [(r["stitches"], r["kinds"]) for r in found["rows"]] == [(r["stitches"], r["kinds"]) for r in wanted["rows"]]


def test_the_chart_says_how_often_each_size_works_what_is_drawn_once():
    said = words()
    for height, wrap, place in ((150, 230, 1), (210, 310, 2)):
        alone = SIZED.split("[sizes]")[0].replace("180 mm", f"{height} mm").replace("270 mm", f"{wrap} mm")
        drawn = engrave.chart(alone, "alone.toml", Setting(), ("svg",))["svg"].decode()
        times = re.search(r"repeat of 2 sts(?:: (?:\d+ of )?|, drawn )(\d+)", drawn)[1]
        told = re.search(r"the repeat of 2 sts is worked (\d+) \((\d+)\) times", said)
        assert told[place] == times


def test_what_the_rows_are_called_is_explained():
    assert "RS right side" in words()
    assert "rnd(s) round(s)" in said_in(of_ring())


@pytest.mark.parametrize(
    ("texts", "one"),
    [
        (["Ch 3.", "Ch 5.", "Ch 7."], "Ch 3 (5, 7)."),
        (["Rows 2-9: a", "Rows 2-11: a"], "Rows 2-9 (2-11): a"),
        (["every 4th (12 sts)", "every 6th (12 sts)"], "every 4th (6th) (12 sts)"),
        (["Rep Rows 2-3 twice.", "Rep Rows 2-3 5 times."], "Rep Rows 2-3 2 (5) times."),
        (["Rep Rows 2-3.", "Rep Rows 2-3 5 times."], "Rep Rows 2-3 1 (5) times."),
        (["sc in next st", "dc in next st"], None),
    ],
)
def test_words_that_differ_in_numbers_only_are_one(texts, one):
    assert merged(texts) == one


def test_columns_of_which_nothing_is_known_are_left_out():
    unweighed = re.sub(r"yarn = .*\n", "", SIZED.split("[sizes]")[0])
    said = said_in(PdfReader(io.BytesIO(engrave.booklet(unweighed, "wallet.toml", Setting()))))
    assert "not known" not in said and "ends to weave in" in said and "weight" not in said[said.index("Materials") : said.index("Gauge")]


def test_a_piece_that_is_tried_on_nothing_has_no_paper_mock_up():
    made = PdfReader(io.BytesIO(engrave.booklet(FLAT, "mat.toml", Setting())))
    titles = [entry["/Title"] for entry in made.outline if not isinstance(entry, list)]
    assert "Paper mock-up" not in titles and "Shape and size" in titles


def test_steps_of_several_sizes_are_those_of_the_drawings_and_their_numbers_stand_in_columns():
    from hookfold.charts.output.booklet.sized_steps import sized_steps
    from hookfold.charts.output.size_words import pieces_of_sizes

    pieces = pieces_of_sizes(engrave.work_file(SIZED, "wallet.toml"), "right")
    steps = sized_steps(pieces, Setting())
    border = next(step for step in steps if step.says.startswith("Border"))
    assert [len(row) for row in border.table.rows] == [3] * len(border.table.rows)
    for column, piece in enumerate(pieces.values(), 1):
        counts = [int(re.search(r"(\d+) sts", row[column])[1]) for row in border.table.rows if " sts" in row[column]]
        sides = [sum(s.count for s in piece.border.of_side(k)) for k in range(4)]
        assert sum(counts) == sum(sides) - sides[2], "the edge that is the same as its opposite is said once"
    assert not any(line.startswith("Look at this edge") for line in border.lines), "after the table of its edges"
    assert any(f"= {' ('.join(str(p.border.total) for p in pieces.values())})" in line for line in border.after)
    assert words().count("Border: with") == 1


def test_rounds_that_are_the_same_in_every_size_are_told_once():
    from hookfold.charts.output.booklet.making import joined_words
    from hookfold.charts.output.booklet.sized import sized_rows
    from hookfold.charts.output.size_words import pieces_of_sizes

    file = Path(__file__).parents[3] / "gallery" / "more" / "ferry-hat" / "pattern.toml"
    piece = engrave.work_file(file.read_text("utf-8"), "hat.toml")
    sizes = list(pieces_of_sizes(piece, "right").values())
    crown = sized_rows(sizes, Setting())[0]
    rounds = zip(*([row.row.made for row in one.fabric.rows] for one in sizes), strict=False)
    alike = next(n for n, made in enumerate(rounds) if len(set(made)) > 1)
    assert alike == 7, "56 stitches are a multiple of 8 that every head has"
    assert [line.label for line in crown.lines] == ["Rnd 1 (RS)", *(f"Rnd {n}" for n in range(2, alike + 1))]
    assert crown.apart_from == alike
    assert joined_words(piece.fabric.rows, "join with sl st in first hdc.") == [
        "The first stitch of a round goes into the same stitch as the join of the round before."
    ]


def test_a_crown_drawn_in_one_size_says_from_which_round_on_the_others_differ():
    from hookfold.charts.output.booklet.repeats import repeats_of_sizes
    from hookfold.charts.output.size_words import pieces_of_sizes

    file = Path(__file__).parents[3] / "gallery" / "more" / "ferry-hat" / "pattern.toml"
    sizes = pieces_of_sizes(engrave.work_file(file.read_text("utf-8"), "hat.toml"), "right")
    assert repeats_of_sizes(sizes, "woman")[0].startswith("From round 8 on the chart is that of size woman only")
    assert not any("From round" in said for said in repeats_of_sizes(sizes))


def test_a_mock_up_stands_in_it_for_every_size_and_it_is_said_what_it_is_for():
    made = book()
    titles = [entry["/Title"] for entry in made.outline if not isinstance(entry, list)]
    assert [title for title in titles if title.startswith("Paper")] == [
        "Paper mock-up, size small", "Paper mock-up, size large",
    ]  # fmt: skip
    assert "The paper mock-up is the piece at full size, to see before you crochet whether it will fit" in said_in(made)


@pytest.mark.parametrize(("kind", "measures", "how"), [
    ("hat", {"around": "55 cm", "height": "21 cm"}, "tape the band into a ring and the disc over it and try it on"),
    ("open bag", {"width": "20 cm", "height": "22 cm"}, "to see before you crochet how large it will be: print it at 100 %"),
    ("mug wrap", {"around": "23 cm", "height": "8 cm"}, "lay it round the cup, its short edges at the handle and try it on"),
    ("panel", {"width": "20 cm", "height": "30 cm"}, ""),
])  # fmt: skip
def test_the_booklet_has_the_mock_up_that_the_folder_has(kind, measures, how):
    from hookfold.charts.output.start import Start, starter
    from hookfold.charts.output.whole_set import PARTS, piece_booklet

    piece = engrave.work_file(starter(Start(kind, "Thing", measures, 15, 11)), "thing.toml")
    made = PdfReader(io.BytesIO(piece_booklet(piece, Setting(), 1, None)))
    alone = PARTS["drawing the paper mock-up"](piece, Setting()).get("template.pdf")
    pages = len(PdfReader(io.BytesIO(alone)).pages) if alone else 0
    said = [words_on(page) for page in made.pages]
    assert sum("Full size, print at 100 %" in text for text in said) == pages and bool(pages) == bool(how)
    assert how in " ".join(" ".join(said).split())


def test_how_wide_a_strap_is_and_how_far_two_backs_overlap_stand_in_the_table_of_sizes():
    """5 sts at 18 to 4 in are 28.2 mm; 36 rows twice less 58 of a front, at 15 to 10 cm, are 93 mm."""
    from hookfold.charts.output.booklet.finished import finished_size
    from hookfold.charts.output.start import Start, starter

    def table(start):
        piece = engrave.work_file(starter(start), "thing.toml")
        (found,) = (block for block in finished_size(piece, {"": piece}).blocks if hasattr(block, "rows"))
        return piece, dict(found.rows)

    inches = {"height": "8 1/4 in", "wrap": "13 1/2 in", "flap": "2 1/2 in", "thickness": "1/2 in", "strap": "5 in"}
    started = Start("book with strap", "Book", inches, 18, 20, over="4 in", stitch="close")
    assert 'over   = "1 1/8 in"' in starter(started)
    piece, rows = table(started)
    assert rows["Strap, across, 5 sts"] == "1 1/8 in (2.8 cm)"
    assert piece.plan.border_row_mm == pytest.approx(101.6 / 20, abs=0.1)
    assert rows["Strap, across with the border"] == "1 1/2 in (3.8 cm)"
    sides = next(b for b in finished_size(piece, {"": piece}).blocks if hasattr(b, "beyond"))
    assert sides.beyond[2] == pytest.approx(5 * 101.6 / 18 + 2 * piece.plan.border_row_mm), "drawn as narrow as it is"
    _, rows = table(Start("open bag", "Bag", {"width": "30 cm", "height": "30 cm", "handle": "50 cm"}, 16, 15))
    assert rows["Handles, from seam to seam"] == "50 cm (19 5/8 in)"
    pad = {"width": "40 cm", "height": "40 cm", "overlap": "8 cm"}
    piece, rows = table(Start("cushion", "Pad", pad, 16, 15, stitch="ridges", colours=("ash", "bone")))
    lower, front, upper = (section.rows for section in piece.plan.sections)
    assert rows["Overlap of the two parts"].split(" (")[0] == f"{round((lower + upper - front) / 1.5, 1):g} cm" != "8 cm"


def test_a_change_of_colour_says_the_last_loop_of_which_stitch_and_reads_back():
    file = Path(__file__).parents[3] / "gallery" / "more" / "ferry-hat" / "pattern.toml"
    piece = engrave.work_file(file.read_text("utf-8"), "hat.toml")
    from hookfold.charts.output import words as written

    told = dict(written.row_lines(piece.rows, piece.fabric, "US"))
    assert "join with sl st in first hdc, changing to B in last yo of the joining sl st." in told["sides"][-1].text
    rows = [written.show_line(piece.fabric, line) for some in told.values() for line in some]
    again = engrave.check("\n".join(["Terms: US", "With A, make a magic ring.", *rows]), "back.txt")
    assert not again.problems
    assert [row.row.made for row in again.fabric.rows] == [row.row.made for row in piece.fabric.rows]


def test_raised_stitches_are_laid_to_the_colours_that_have_them():
    file = Path(__file__).parents[3] / "gallery" / "spectacle-pouch" / "pattern.toml"
    said = engrave.yarn(file.read_text("utf-8"), "pouch.toml")
    to = {letter: int(n) for n, letter in re.findall(r"(\d+) % to ([A-Z])\b", said)}
    assert set(to) == {"A", "B"} and to["A"] < 30 < to["B"], "A has as many puffs in nine times the rows"


def test_a_flap_is_cut_as_it_is_worked():
    from hookfold.charts.model.sizing.worn import worn_plan

    piece = engrave.work_file(SIZED.split("[sizes]")[0], "wallet.toml")
    worn = worn_plan(piece.plan)
    for at in (0, -1):
        assert worn.sections[at].length_mm == piece.plan.sections[at].length_mm
    assert worn.sections[1].length_mm == pytest.approx(270.0)


def test_a_written_pattern_says_what_is_needed_how_it_is_finished_and_where_its_rounds_begin():
    file = Path(__file__).parents[3] / "gallery" / "fabrics" / "lace-doily.txt"
    made = PdfReader(io.BytesIO(engrave.booklet(file.read_text("utf-8"), "lace-doily.txt", Setting())))
    said = said_in(made)
    assert made.metadata.author == "Ottoline Farrow"
    assert said.index("Hook: 2.5 mm") < said.index("Abbreviations") < said.index("Foundation") < said.index("Rnd 1 (RS)")
    for rnd in (2, 5):
        assert f"The first sc goes into the place where rnd {rnd - 1} was joined." in said.split(f"Rnd {rnd}:")[1]
    assert "rustproof pins and a soft board" in said
    assert "in same sp, *" in said and "ch-sp" not in said
    assert "Weave in the ends" in said and "pin it out evenly from its middle" in said
    assert "ch 4 counts as dc and ch 1" in " ".join(words_on(page) for page in made.pages).replace("\n", " ")


def test_it_says_what_it_is_made_for_and_measures_the_strap():
    file = Path(__file__).parents[3] / "gallery" / "strapped-journal" / "pattern.toml"
    piece = engrave.work_file(file.read_text("utf-8"), "pattern.toml")
    from hookfold.charts.output.booklet.finished import finished_size, made_for

    assert made_for(piece) == "an A6 book, 105 x 148 mm, 12 mm thick"
    chapter = finished_size(piece, {piece.pattern.title: piece})
    sides, table = (next(b for b in chapter.blocks if type(b).__name__ == kind) for kind in ("Sides", "Table"))
    past = piece.plan.sections[3].length_mm - piece.plan.sections[2].length_mm
    assert sides.beyond[0] == pytest.approx(past) and sides.beyond[1] == f"strap, {round(past)} mm past the edge"
    strap = piece.plan.sections[3]
    end = next(row for row in reversed(piece.fabric.rows) if row.section == strap.name)
    edges = 2 * piece.plan.border_row_mm * piece.plan.border_rounds
    assert sides.beyond[2] == pytest.approx(end.row.made * piece.plan.stitch_mm + edges)
    assert sides.outer_mm[0] + past == pytest.approx(piece.plan.over_all_mm["wrap"])
    assert any(row[0] == "Strap, its whole length" and row[1].startswith("109 mm (4 1/4 in)") for row in table.rows)


def test_a_hat_has_every_size_where_it_is_drawn_and_no_page_for_one_of_them():
    made = of_gallery("more", "ferry-hat", "pattern.toml")
    titles = [entry["/Title"] for entry in made.outline if not isinstance(entry, list)]
    assert "Shape and size" not in titles
    said = said_in(made)
    assert "47.7 (51.5, 53.8) cm" in said and "dotted line: where the crown ends" in said
    assert "larger" not in said[said.index("Finished size") : said.index("Materials")], "its height fits nothing"


@cache
def lines_of(name):
    file = Path(__file__).parents[3] / "gallery" / "fabrics" / f"{name}.txt"
    return said_in(PdfReader(io.BytesIO(engrave.booklet(file.read_text("utf-8"), f"{name}.txt", Setting()))))


def test_the_first_stitch_at_the_join_is_said_in_the_row_and_not_beside_it():
    said = lines_of("large-doily")
    for rnd in (3, 4, 11, 13, 14):
        assert said.split(f"Rnd {rnd}:")[1].strip().startswith("Ch 1, sc in same st as join, *"), rnd
    assert "goes into the place where" not in said
    assert "rep from * to last ch-2 sp, 3 sc in last ch-2 sp" in said and "(24 dc)" in said and "(144 sc)" in said


def test_what_is_not_fastened_off_in_its_rows_is_so_in_its_finishing():
    assert "Fasten off and weave in the ends." in lines_of("pineapple")
    assert "Fasten off" not in lines_of("large-doily").split("Finishing")[1]
    assert "Row 2 (WS):" in lines_of("pineapple") and "ch 1 does not count" not in lines_of("pineapple")


def test_a_written_pattern_without_materials_says_nothing_to_its_maker_and_the_command_line_does():
    bare = "Terms: US\nCh 9.\nRow 1: Sc in 2nd ch from hook and in each ch across. (8 sc)\n"
    said = said_in(PdfReader(io.BytesIO(engrave.booklet(bare, "strip.txt", Setting()))))
    assert "Materials A yarn needle" in said and "not given" not in said and "its measure" not in said
    lacks = engrave.booklet_lacks(bare, "strip.txt")
    assert [lack.partition(":")[0] for lack in lacks] == [
        "no title", "no yarn", "no hook", "no gauge", "no finished size", "no author",
    ]  # fmt: skip
    told = "Narrow strip\nBy Edda Moor\nYarn: cotton.\nHook: 3 mm.\nGauge: 20 sc = 10 cm.\nFinished size: 4 cm wide.\n" + bare
    assert engrave.booklet_lacks(told, "strip.txt") == ()
    assert "to the finished size" in said_in(PdfReader(io.BytesIO(engrave.booklet(told, "strip.txt", Setting()))))
    assert engrave.booklet_lacks(re.sub('(?m)^(author|hook) = .*$', "", SIZED), "wallet.toml") == (
        'no author: write author = "..."', 'no hook: write hook = "..."',
    )  # fmt: skip


def test_ways_of_writing_are_explained_where_they_are_used():
    doily, ring = lines_of("large-doily"), said_in(of_ring())
    for way in ("… rep from *", "( ) in one place", "ch-2 sp", "same st as join", "counts as", "(24 dc)"):
        assert way in doily.split("How to read the rows")[1].split("Before you begin")[0], way
    assert "rep from" not in ring and "(8 sc)" in ring.split("How to read the rows")[1].split("Before you begin")[0]


def test_what_is_printed_says_what_may_be_done_with_it_and_that_its_picture_is_drawn(monkeypatch):
    """The cover's picture is drawn of few dots: it says of itself that it is drawn, however large it is."""
    monkeypatch.setattr(fabric, "WHOLE_PX", 60)
    text = FLAT.replace('"CC0"', '"CC BY-NC 4.0"')
    cover = engrave.cover(text, "wallet.toml", Setting())
    made = PdfReader(io.BytesIO(engrave.booklet(text, "wallet.toml", Setting(), photo=cover)))
    assert "not for money, if you name its author" in " ".join(" ".join(words_on(p) for p in made.pages).split())
    assert "not a photograph" in words_on(made.pages[0])
    assert words_on(made.pages[0]) and "not a photograph" not in words_on(book(plain=True).pages[0])


def test_the_file_says_its_version_its_title_as_a_title_and_nothing_readers_stumble_over():
    assert printed().startswith(b"%PDF-1.7")
    reader = book()
    assert "/Suspects" not in reader.root_object["/MarkInfo"]
    kinds, todo = set(), [reader.root_object["/StructTreeRoot"]]
    while todo:
        one = todo.pop()
        one = one.get_object() if hasattr(one, "get_object") else one
        if isinstance(one, list):
            todo += one
        elif isinstance(one, dict):
            kinds.add(str(one.get("/S", "")))
            todo += [one["/K"]] if "/K" in one else []
    assert kinds & {"/Title", "/H1"}


SHAWL = '''
title = "Harbour wall shawl"
terms = "UK"
hook = "5 mm"
yarn = { category = 4, fibre = "wool" }
[gauge]
stitches = 12
rows = 8
over = "10 cm"
border_stitches = 12
border_rows = 13
[object]
kind = "pocket panel"
width = "260 mm"
height = "900 mm"
flap = "150 mm"
[colours]
A = { name = "slate", hex = "#31525b" }
B = { name = "sand", hex = "#d8c39a" }
[[section]]
name = "first pocket"
length = "flap"
colour = "B"
work = "Row 1: Ch 2, turn. Htr in each st across."
[[section]]
name = "panel"
length = "height"
stripes = ["A", "A", "A", "A", "A", "B", "B", "B"]
work = """
Row 1: Ch 2, turn. Htr in each st across.
Row 2: Ch 2, turn. Htr in each st across.
"""
[[section]]
name = "second pocket"
length = "flap"
colour = "B"
work = "Row 1: Ch 2, turn. Htr in each st across."
[border]
stitch = "dc"
joins = true
corner = 3
colour = "A"
[sizes]
short = { height = "980 mm", width = "240 mm", flap = "150 mm" }
long = { height = "1180 mm", width = "300 mm", flap = "180 mm" }
'''


@cache
def shawl(columns=1):
    return PdfReader(io.BytesIO(engrave.booklet(SHAWL, "shawl.toml", Setting(terms="UK", paper="Letter"), columns=columns)))


def test_the_easing_below_a_table_of_edges_names_its_edge_and_a_single_size_says_this_edge():
    said = said_in(shawl())
    assert "Look at the top edge before you go round its corner: if it ruffles" in said and "this edge" not in said
    assert "Look at this edge before you go on" in words(plain=True)


def test_stitches_in_turn_are_told_from_where_the_worker_begins():
    from hookfold.charts.folding.edge_rates import spacing

    assert spacing([2, 1] * 4, range(8, 0, -1), "row end") == "2 and 1 in turn over the row ends, beginning with 2 in row end 8"
    assert spacing([1, 2] * 4, range(3, 11), "row end") == "1 and 2 in turn over the row ends, beginning with 1 in row end 3"
    first = re.search(r"first dc goes into row end (\d+)", said_in(shawl()))[1]
    assert re.search(rf"Top edge: row ends of the first pocket, 2 layers {first}–1: [^:]*, beginning with [12] in row end {first}\b", said_in(shawl()))


def test_a_count_is_explained_in_the_form_in_which_it_stands():
    ways = said_in(shawl()).split("How to read the rows")[-1].split("Before you begin")[0]
    shown = re.search(r"(\d+ \(\d+\) sts\.) at the end of a row or round: what it has when it is done, by size", ways)[1]
    assert said_in(shawl()).count(shown) > 3 and not re.search(r"\(\d+ sts\)", ways)


def test_repeats_whose_rows_have_other_numbers_in_each_size_are_told_and_once_is_not_one_times():
    from hookfold.charts.layout.chart.condense import row_repeats
    from hookfold.charts.output.booklet.repeats import repeats_of_sizes
    from hookfold.charts.output.booklet.sized import merged
    from hookfold.charts.output.size_words import pieces_of_sizes

    sizes = pieces_of_sizes(engrave.work_file(SHAWL, "shawl.toml"), "right")
    told = " ".join(repeats_of_sizes(sizes))
    folds = zip(*(row_repeats(one.fabric) for one in sizes.values()), strict=True)
    assert any(len({fold.times for fold in alike}) == 1 and len({fold.first for fold in alike}) > 1 for alike in folds)
    for one in sizes.values():
        for fold in row_repeats(one.fabric):
            if fold.rows > 1:
                assert re.search(rf"\b{one.fabric.rows[fold.first].number}–{one.fabric.rows[fold.first + fold.rows - 1].number}\b", told)
    assert merged(["Rep Rows 2-3 twice.", "Rep Rows 4-5 twice."]) == "Rep Rows 2-3 (4-5) twice."
    assert merged(["Rep Rows 2-3.", "Rep Rows 4-5 twice."]) == "Rep Rows 2-3 (4-5) 1 (2) times."
    assert "1 times" not in said_in(shawl())


def test_a_piece_in_uk_terms_says_tension_everywhere_and_never_gauge():
    everything = " ".join(words_on(page) for page in shawl().pages)
    assert "Tension" in everything and "this is not the tension" in " ".join(everything.split())
    assert not re.search(r"\bgauge\b", everything, re.IGNORECASE)


def test_what_holds_nothing_has_sides_and_no_outside():
    said = said_in(shawl())
    assert "with the right side of the panel facing you" in said and "outside" not in said
    assert "so that its own wrong side shows" in said


def test_rows_whose_stitches_stand_out_away_from_the_worker_are_marked_and_explained():
    body = SIZED.split("[sizes]")[0].replace("hdc in next st, sc in next st", "bobble in next st, sc in next st")
    said = said_in(PdfReader(io.BytesIO(engrave.booklet(body, "wallet.toml", Setting()))))
    piece = engrave.work_file(body, "wallet.toml")
    raised = [row.number for row in piece.fabric.rows if "bobble" in row.row.kinds()]
    assert raised and f"Row {raised[0]} (WS): Ch 1, turn. Sc in first st, *bobble" in said
    assert "In wrong-side rows (WS) each bobble comes out on the right side, away from you" in said
    assert "WS wrong side" in said and "comes out on the right side" not in words(plain=True)


def test_a_mock_up_is_folded_only_where_the_piece_is():
    cosy = Path(__file__).parents[3] / "gallery" / "more" / "mug-cosy" / "pattern.toml"
    said = said_in(PdfReader(io.BytesIO(engrave.booklet(cosy.read_text("utf-8"), "cosy.toml", Setting()))))
    assert "cut it out on the full line, lay it round into a ring and try it on" in said and "as the finishing says" not in said
    assert "cut it out on the full line, fold it as the finishing says and try it on" in words()


def test_a_hat_is_measured_over_its_curve_where_its_height_is_drawn():
    said = said_in(of_gallery("more", "ferry-hat", "pattern.toml"))
    assert re.search(r"height, over the curve: 20\.4", said)


def test_the_width_of_a_narrow_piece_stands_on_one_line():
    lines = [line.strip() for line in words_on(shawl().pages[1]).splitlines()]
    assert any(re.fullmatch(r"width: ?\d+ \(\d+\) mm", line) for line in lines), lines[:20]


def test_a_page_of_words_with_a_few_lines_is_saved_where_the_pages_before_it_can_take_them():
    from hookfold.charts.output.booklet.book import Book, Chapter, Paragraphs, RowLine, Rows
    from hookfold.charts.output.booklet.press import _set, pressed

    def book(rows):
        lines = tuple(RowLine(f"Row {k}", "Ch 1, turn. Sc in each st across. (20 sc)") for k in range(1, rows + 1))
        return Book("Plain", chapters=(Chapter("Before you begin", (Paragraphs(("Work loosely.",)),)), Chapter("Rows", (Rows(lines),))))

    def long(pdf):
        return len(PdfReader(io.BytesIO(pdf)).pages)

    usual = {rows: long(_set(book(rows), 0)) for rows in range(90, 104)}
    first = next(rows for rows in usual if usual[rows] > usual[90])
    assert [long(pressed(book(rows))) for rows in (first, first + 1, first + 2)] == [usual[90]] * 3
    assert long(pressed(book(first + 30))) == usual[90] + 1, "a page that is filled stays"


def test_a_button_loop_has_its_yarn_named_and_its_ends_counted():
    file = Path(__file__).parents[3] / "gallery" / "spectacle-pouch" / "pattern.toml"
    piece = engrave.work_file(file.read_text("utf-8"), "pouch.toml")
    from hookfold.charts.folding.finishing import finishing_of
    from hookfold.charts.model.sizing.yarn import colour_ends

    last = finishing_of(piece.plan, piece.border, folding=piece.folding)[-1].says
    assert piece.border.colour and f"For its loop, join {piece.border.colour} in the middle" in last
    assert "weave in its two ends" in last
    ends = colour_ends(piece.plan, piece.pattern)
    rows = [letter for section in piece.plan.sections for letter in section.colours]
    joins = sum(2 for a, b in zip(["", *rows], rows, strict=False) if a != b)
    assert sum(ends.values()) <= joins + 2 + 2
    assert ends[piece.border.colour] >= 4, "those of the border and those of the loop"
