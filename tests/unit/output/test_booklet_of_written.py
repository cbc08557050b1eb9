"""A written pattern's booklet keeps what its page says, under the page's own headings and in the booklet's terms."""

import io
import re
from functools import cache

import pytest
from hookfold.charts import engrave
from hookfold.charts.output import drawn
from hookfold.charts.output.booklet.page_parts import parts_of
from hookfold.charts.pattern.said_in import said_in
from hookfold.charts.setting import Setting
from pdf_words import words_on
from pypdf import PdfReader

#: A runner of our own, with a heading over everything.
RUNNER = """Thistle Row Runner
by Bettine Holm

A narrow runner of tufts between bars, for a window sill.

Materials
Linen, weight category 2, one cone of 200 g, in flax: some 60 g are used in all
4 mm hook
Blunt needle

Gauge
16 dc and 9 rows = 10 cm

Finished size
18 cm by 60 cm

Abbreviations (US terms)
ch = chain
dc = double crochet
CC = contrast colour
sk = skip

Special stitches
Tuft: 3 dc in st indicated.
Knot (kn): dc4tog in same st.

Notes
1. Turn after every row.
2. Ch 3 at the start of a row counts as a dc.
3. Press it under a damp cloth.

Instructions
Ch 30 (a multiple of 4 plus 2).
Row 1 (RS): Dc in 4th ch from hook (skipped ch count as dc) and in each ch across. (28 dc)
Row 2: Ch 3, turn, dc in next dc, *sk next dc, tuft in next dc, sk next dc, dc in next dc; rep from * to last 2 dc, dc in last 2 dc. (6 tufts, 10 dc)
Row 3: Ch 3, turn, dc in next dc, *kn in center dc of next tuft, ch 2, dc in next dc; rep from * to last 2 sts, dc in next dc, dc in top of turning ch. (10 dc, 6 kn)
Rows 4-5: Ch 3, turn, dc in each st across. (28 dc)

Finishing
Fasten off and hide the ends. Lay it flat under a board.
"""
#: A round of our own: shells, and a join into a stitch that is there once.
MAT = """Bramble Coaster
Beginning bead (beg-bead): Ch 2, dc2tog in same sp.
Bead: dc3tog in same sp.
Clam: (2 dc, ch 1, 2 dc) in same sp.

Ch 5, join with sl st in first ch to form a ring.
Rnd 1: Ch 4 (counts as dc and ch 1), [dc in ring, ch 1] 7 times, join with sl st in 3rd ch of beg ch-4. (8 dc, 8 ch-1 sps)
Rnd 2: Sl st in first ch-1 sp, beg-bead in same sp, ch 4, *bead in next ch-1 sp, ch 4; rep from * around, join with sl st in top of beg-bead. (8 beads, 8 ch-4 sps)
Rnd 3: Sl st in first ch-4 sp, ch 3 (counts as dc), (dc, ch 1, 2 dc) in same sp, ch 2, *clam in next ch-4 sp, ch 2; rep from * around, join with sl st in top of beg ch-3. (8 clams, 8 ch-2 sps)
Rnd 4: Sl st in next dc and in next ch-1 sp, ch 3 (counts as dc), (dc, ch 1, 2 dc) in same sp, ch 3, *clam in ch-1 sp of next clam, ch 3; rep from * around, join with sl st in top of beg ch-3. (8 clams, 8 ch-3 sps)
"""
TITLES = ("Ripple Cowl", "Sea Garden: Mitten", "Heather Mat", "Dune Grass Table Runner", "Fern and Fog Wrap")


@cache
def made(text, terms="US", columns=1):
    return PdfReader(io.BytesIO(engrave.booklet(text, "a.txt", Setting(terms=terms), columns=columns)))


@cache
def said(text, terms="US", columns=1):
    """The words between cover and chart, without the running heads."""
    pages = [words_on(page) for page in made(text, terms, columns).pages[1:-1]]
    return " ".join(" ".join(re.sub(r"^.* – .*$", "", page, count=1, flags=re.MULTILINE) for page in pages).split())


def chapter(text, heading, after, terms="US"):
    """What stands between two headings of the pages of words."""
    told = said(text, terms)
    begin = told.index(f"{heading} ")
    return told[begin + len(heading) : told.index(after, begin + len(heading))].strip()


@pytest.mark.parametrize("title", TITLES)
@pytest.mark.parametrize("head", ["{}\nby Bettine Holm\n\n", "{}\n\nMaterials:\nLinen\n\nPattern:\n", "Wool, any\nTitle: {}\n", "Pattern: {}\n\n"])
def test_the_title_of_a_page_is_the_title_of_its_booklet_however_it_is_headed(title, head):
    text = head.format(title) + "Ch 10.\nRow 1: Sc in 2nd ch from hook and in each ch across. (9 sc)\n"
    book = made(text)
    assert book.metadata.title == title
    assert words_on(book.pages[0]).startswith(title)
    assert title in words_on(book.pages[1]) and title in words_on(book.pages[-1])


def test_a_page_without_a_title_says_so_and_a_piece_among_several_lends_it_none():
    two = "Sole\nCh 5.\nRow 1: Sc in 2nd ch from hook and in each ch across. (4 sc)\n\nStrap\nCh 8.\nRow 1: Sc in 2nd ch from hook and in each ch across. (7 sc)\n"
    assert any(lack.startswith("no title") for lack in engrave.booklet_lacks(two, "slipper.txt"))
    assert not any("title" in lack for lack in engrave.booklet_lacks(f"Sand Slipper\n\n{two}", "slipper.txt"))
    assert words_on(made(two).pages[0]).startswith("A\n") or made(two).metadata.title == "A"


def test_what_stands_under_a_heading_of_the_page_stands_under_it_in_the_booklet():
    assert chapter(RUNNER, "Materials", "Gauge").startswith("Linen, weight category 2, one cone of 200 g")
    assert "4 mm hook" in chapter(RUNNER, "Materials", "Gauge") and "yarn needle" not in chapter(RUNNER, "Materials", "Gauge")
    assert chapter(RUNNER, "Gauge", "Finished size") == "16 dc and 9 rows = 10 cm"
    assert chapter(RUNNER, "Finished size", "Abbreviations") == "18 cm by 60 cm"
    assert chapter(RUNNER, "Special stitches", "Stitches and").startswith("Tuft: 3 dc in st indicated. Knot (kn): dc4tog in same st")
    assert chapter(RUNNER, "Notes", "Instructions").startswith("1. Turn after every row. 2. Ch 3 at the start of a row counts as a dc. 3. Press")
    assert chapter(RUNNER, "Finishing", "Take care") == "Fasten off and hide the ends. Lay it flat under a board."
    assert "A narrow runner of tufts" in chapter(RUNNER, "Before you begin", "Notes")
    outline = [entry["/Title"] for entry in made(RUNNER).outline if not isinstance(entry, list)]
    assert [title for title in outline if title in ("Notes", "Finishing", "Gauge")] == ["Gauge", "Notes", "Finishing"]


def test_nothing_of_a_page_is_lost_and_nothing_is_said_twice():
    told = said(RUNNER)
    for line in RUNNER.splitlines()[3:]:
        bare = line.strip()
        if re.match(r"Materials|Gauge|Finished|Abbrev|Special|Notes|Instr|Finishing|Row|(ch|dc|sk) =|CC|Knot|$", bare):
            continue
        assert told.count(bare) == 1, bare
    assert told.count("CC contrast colour") == 1 and told.count("double crochet") == 2, "in the list and beside its sign"


def test_size_gauge_and_hook_stand_on_the_cover():
    cover = words_on(made(RUNNER).pages[0])
    for fact in ("18 cm by 60 cm", "16 dc and 9 rows = 10 cm", "4 mm hook"):
        assert fact in cover


def test_facts_told_on_one_line_each_stand_under_their_headings():
    text = "Sedge Band\nYarn: cotton, 20 g.\nHook: 3 mm.\nGauge: 20 sc = 10 cm.\nMeasurements: 4 cm wide.\nA band for a hat.\nCh 9.\nRow 1: Sc in 2nd ch from hook and in each ch across. (8 sc)\n"
    assert chapter(text, "Materials", "Gauge").startswith("Yarn: cotton, 20 g. Hook: 3 mm.")
    assert chapter(text, "Finished size", "Abbreviations") == "4 cm wide."
    assert "A band for a hat." in chapter(text, "Before you begin", "Instructions")


def test_lists_capitals_and_lines_that_are_broken_off_are_read_as_parts():
    lines = ["**NOTES**", "- Work loosely.", "- Turn gently.", "", "PATTERN NOTES:", "It is worked from the middle of the long edge outwards, and each",
             "side is turned over once.", "", "Blocking - wet it.", "", "To wear:", "Knot it."]  # fmt: skip
    notes, more, block, other = parts_of(list(enumerate(lines, 1)))
    assert (notes.kind, notes.heading, notes.marked, notes.said) == ("notes", "Notes", True, ("Work loosely.", "Turn gently."))
    assert (more.heading, len(more.said)) == ("Pattern notes", 1) and more.said[0].endswith("each side is turned over once.")
    assert (block.kind, block.said) == ("finishing", ("Wet it.",))
    assert (other.kind, other.heading, other.said) == ("other", "To wear", ("Knot it.",))


def test_a_beginning_chain_that_counts_is_said_where_neither_rows_nor_notes_say_it():
    note = "2. Ch 3 at the start of a row counts as a dc."
    assert note in said(RUNNER) and "ch 3 counts as dc" not in said(RUNNER)
    bare = RUNNER.replace(note + "\n", "").replace("3. Press", "2. Press")
    assert "At the beginning of a row ch 3 counts as dc." in said(bare)


def test_words_of_the_page_are_put_into_the_booklets_terms_or_marked():
    told = said(RUNNER, "UK")
    assert chapter(RUNNER, "Tension", "Finished size", "UK") == "16 tr and 9 rows = 10 cm"
    assert "Tuft: 3 tr in st indicated." in told and "tr4tog in same st" in told and "counts as a tr" in told
    assert not re.search(r"\b(?:sc|hdc|sk|yo|Gauge|gauge|center)\b", told) and "kn in centre tr of next tuft" in told
    both = RUNNER.replace("16 dc and 9 rows = 10 cm", "16 dc (tr in UK) = 10 cm")
    assert "16 dc (tr in UK) = 10 cm (US terms)" in said(both, "UK")


@pytest.mark.parametrize(("text", "uk"), [
    ("[Yo, insert hook, yo, pull up a lp] twice in next hdc", "[Yrh, insert hook, yrh, pull up a lp] twice in next htr"),
    ("2 single crochets, 1 treble, bpdc in post", "2 double crochets, 1 double treble, bptr in post"),
    ("Skip 5-dc group; check your gauge", "Miss 5-tr group; check your tension"),
])  # fmt: skip
def test_running_words_in_the_other_terms_and_back(text, uk):
    assert said_in(text, "US", "UK") == uk
    assert said_in(text, "US", "US") == text


def test_counts_are_those_of_the_page_with_its_names_for_groups():
    assert "(6 tufts, 10 dc)" in said(RUNNER) and "(6 tufts, 10 tr)" in said(RUNNER, "UK")
    assert "(8 beads, 8 ch-4 sps)" in said(MAT) and "(8 clams, 8 ch-3 sps)" in said(MAT)


def test_a_join_goes_into_the_top_of_a_stitch_and_never_into_a_next_one():
    assert "join with sl st in top of beg-bead" in said(MAT) and "in next beg-" not in said(MAT)


def test_which_space_of_a_group_is_said_only_where_the_page_says_it():
    assert "clam in ch-1 sp of next clam" in said(MAT) and "1st ch-1 sp" not in said(MAT)
    first = MAT.replace("clam in ch-1 sp of", "clam in first ch-1 sp of")
    assert "clam in 1st ch-1 sp of next clam" in said(first)


def test_skipped_chains_and_the_multiple_are_told_as_on_the_page():
    assert "(skipped ch count as dc)" in said(RUNNER) and "(missed ch count as tr)" in said(RUNNER, "UK")
    assert "Ch 30 (a multiple of 4 plus 2)." in said(RUNNER)
    assert "dc in top of turning ch" in said(RUNNER) and "turning ch the chains at the beginning of the row below" in said(RUNNER)
    assert "in top of beg ch-3" in said(MAT)


def test_a_special_stitch_has_its_explanation_once_and_its_sign_its_name():
    told = said(RUNNER)
    assert told.count("dc4tog") == 1
    assert "work 4 dc into it, the last loop of each left on the hook, then yo and pull through all 5 loops" in told
    assert "beg-bead beginning bead" in said(MAT) and "dc2tog in same sp: work" not in said(MAT)


@pytest.mark.parametrize("gauge", ["Rounds 1-2 = 6 cm across", "Rnds 1 to 2 measure about 6 cm across", 'Rounds 1-2: 2 1/2"'])
def test_a_gauge_told_in_rounds_below_its_heading_is_no_round(gauge):
    text = MAT.replace("Ch 5, join", f"Gauge\n{gauge}\n\nFinished size\n12 cm across\n\nCh 5, join")
    found = engrave.check(text, "a.txt")
    assert not found.problems and len(found.fabric.rows) == 4
    assert chapter(text, "Gauge", "Finished size") == gauge
    assert [row.row.made for row in found.fabric.rows] == [row.row.made for row in engrave.check(MAT, "a.txt").fabric.rows]


@pytest.mark.parametrize("columns", [1, 2])
def test_no_word_is_broken_inside_and_stars_keep_to_their_brackets(columns):
    lines = [line.strip() for page in made(RUNNER, "UK", columns).pages[1:-1] for line in words_on(page).splitlines()]
    assert lines and not [line for line in lines if re.search(r"(?<!from )\*$|[(\[]$", line)]
    told = " ".join(lines)
    for word in ("stitch", "across", "miss", "each", "chain"):
        for at in range(1, len(word)):
            assert f" {word[:at]} {word[at:]} " not in told, word


def test_runs_of_rows_have_a_dash():
    assert "Rows 4–5:" in said(RUNNER) and "Rows 4-5" not in said(RUNNER)


def test_what_stands_under_the_picture_of_the_cover_touches_it(monkeypatch):
    """The foot of the picture and the line under it, in points from the foot of the page."""
    monkeypatch.setattr(drawn, "WHOLE_PX", 120)
    cover = engrave.cover(RUNNER, "a.txt", Setting())
    page = PdfReader(io.BytesIO(engrave.booklet(RUNNER, "a.txt", Setting(), photo=cover))).pages[0]
    feet, lines = [], []
    page.extract_text(
        visitor_operand_before=lambda op, _, cm, tm: feet.append(cm[5]) if op == b"Do" else None,
        visitor_text=lambda text, cm, *_: lines.append(cm[5]) if "stitch by stitch" in text else None,
    )
    assert len(feet) == len(lines) == 1
    assert 5.0 < feet[0] - lines[0] < 25.0


@pytest.mark.parametrize("terms", ["US", "UK"])
def test_words_written_in_either_terms_are_read_back_to_the_same_rows(terms):
    """The rows as printed, with the page's explanations in the same terms, make the same stitches."""
    told = said(RUNNER, terms)
    rows = re.findall(r"Rows? \d.*?(?=Rows? \d|Finishing)", told[told.index("Foundation") :])
    rows = [row[: row.rindex(")") + 1] for row in rows]
    special = said_in("Tuft: 3 dc in st indicated.\nKnot (kn): dc4tog in same st.", "US", terms)
    again = engrave.check("\n".join([f"Terms: {terms}", special, "Ch 30.", *rows]), "back.txt")
    assert not again.problems, again.problems
    assert [row.row.made for row in again.fabric.rows] == [row.row.made for row in engrave.check(RUNNER, "a.txt").fabric.rows]
