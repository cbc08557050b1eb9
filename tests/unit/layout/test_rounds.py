"""Rounds: circles, corners, spirals, arches, both hands."""

from __future__ import annotations

import dataclasses
import itertools
import math
import re

import pytest
import svg_ruler
from hookfold.charts.drawing.svg import write
from hookfold.charts.layout.chart import round as round_charts
from hookfold.charts.layout.chart.condense import fold_rows
from hookfold.charts.layout.chart.either import ChartSetting, chart_document
from hookfold.charts.layout.chart.round_words import deep_words, made_words
from hookfold.charts.layout.rounds import lay
from hookfold.charts.layout.rounds.lay import lay_rounds
from hookfold.charts.layout.shapes.corners import corners_of
from hookfold.charts.layout.sheets.chart_setting import PALE, RowNotShown
from hookfold.charts.model.cloth.fabric import Fabric, Foot, Row, Stitch, WorkedRow
from hookfold.charts.model.rows.work import work_text
from hookfold.charts.setting import Heading, Setting


def made(kind: str, at: int, hold: str = "top", place: int = -1) -> Stitch:
    return Stitch(kind, (Foot(at, hold=hold),), place=place)


def chain(count: int, place: int = -1) -> Stitch:
    return Stitch("ch", role="chain", chains=count, place=place)


def joined(first: int) -> Stitch:
    return Stitch("sl st", (Foot(first, 0),), "join")


def fabric(rounds: list[Row], start: str = "ring", turned: bool = False) -> Fabric:
    ring = Row((Stitch("ring", role="ring", chains=4 if start == "ring" else 0),))
    worked = tuple(
        WorkedRow(
            f"Rnd {i + 1}", i + 1, row, "WS" if turned and i % 2 else "RS",
            "left-to-right" if turned and i % 2 else "right-to-left", turned=turned, is_round=True,
        )
        for i, row in enumerate(rounds)
    )  # fmt: skip
    return Fabric(start, ring, worked, 4 if start == "ring" else 0)


def circle(rounds: int, kind: str = "sc", first: int = 6) -> Fabric:
    """A flat spiral: `first` more stitches in every round."""
    rows = [Row(tuple(made(kind, 0, "ring") for _ in range(first)))]
    for r in range(2, rounds + 1):
        items = []
        for at in range(first * (r - 1)):
            twice = at % (r - 1) == r - 2
            items += [made(kind, at, place=at if twice else -1)] * (2 if twice else 1)
        rows.append(Row(tuple(items)))
    return fabric(rows, "magic ring")


def granny(rounds: int) -> Fabric:
    """Groups of three dc, corners of ch 2; every round begins in a corner."""
    first: list[Stitch] = []
    for _ in range(4):
        first += [made("dc", 0, "ring")] * 3 + [chain(2)]
    rows = [Row((*first, joined(0)), joined=True)]
    for _ in range(rounds - 1):
        below = rows[-1].stitches
        spaces = [i for i, s in enumerate(below) if s.role == "chain"]
        corners = [i for i in spaces if below[i].chains == 2]
        items: list[Stitch] = []
        for place, space in enumerate(spaces):
            group = [made("dc", space, "space", place)] * 3
            items += group + ([chain(2, place), *group] if space in corners else []) + [chain(1)]
        rows.append(Row((*items, joined(0)), joined=True))
    return fabric(rows)


def square_of_sc(rounds: int) -> Fabric:
    """Three sc in each corner stitch."""
    rows = [Row(tuple(made("sc", 0, "ring") for _ in range(12)))]
    corners = [1, 4, 7, 10]
    for _ in range(rounds - 1):
        items: list[Stitch] = []
        mine = []
        for at in range(len(rows[-1].stitches)):
            if at in corners:
                mine.append(len(items) + 1)
                items += [made("sc", at, place=at)] * 3
            else:
                items.append(made("sc", at))
        corners = mine
        rows.append(Row(tuple(items)))
    return fabric(rows, "magic ring")


def arches() -> Fabric:
    """Arches of ch 5 held by sc, with petals in them."""
    first = [s for _ in range(6) for s in (made("sc", 0, "ring"), chain(5))]
    petals = [made(k, 2 * p + 1, "space", p) for p in range(6) for k in ("sc", "dc", "dc", "dc", "sc")]
    return fabric([Row((*first, joined(0)), joined=True), Row((*petals, joined(0)), joined=True)])


def oval(chains: int = 10) -> Fabric:
    """Round a chain: along its upper side, three in its end, back along the lower side, three in its beginning."""
    last = chains - 1
    round1 = [Stitch("ch", role="start", chains=1)]
    round1 += [made("sc", at) for at in range(last - 1, 0, -1)] + [made("sc", 0, place=1)] * 3
    round1 += [made("sc", at, "under") for at in range(1, last)] + [made("sc", last, "under", 2)] * 3
    count = len(round1) - 1
    round2 = [Stitch("ch", role="start", chains=1), *(made("sc", i + 1) for i in range(count))]
    start = Row(tuple(Stitch("ch", role="foundation", chains=1) for _ in range(chains)))
    rounds = fabric([Row((*r, joined(1)), joined=True) for r in (round1, round2)]).rows
    return Fabric("chain", start, rounds, chains)


EVERY = {
    "oval": oval(),
    "sc circle": circle(6),
    "dc circle": circle(4, "dc", 12),
    "granny": granny(3),
    "square": square_of_sc(5),
    "arches": arches(),
}


def test_one_fabric_is_laid_once_for_all_papers_words_and_extents_and_again_for_the_other_hand(monkeypatch):
    """What is kept is kept by the fabric itself: the same words worked anew are laid anew, as they were."""
    laid = []
    monkeypatch.setattr(lay, "_laid", lambda fabric, real=lay._laid: laid.append(fabric) or real(fabric))
    lines = ["Rnd 1: 6 dc in magic ring. (6 sts)", "Rnd 2: 2 dc in each st around. (12 sts)"]
    fabric, again = (work_text("\n".join(lines)).fabric for _ in range(2))

    def drawn(fabric, **asked):
        return write(chart_document(fabric, Heading("Mat"), Setting(**asked)).sheets[0])

    first = drawn(fabric)
    assert drawn(fabric, extent="full") == first and drawn(fabric, paper="Letter") != first != drawn(fabric, terms="UK")
    assert len(laid) == 1
    assert drawn(fabric, hand="left") != first and drawn(fabric, hand="left", paper="Letter") != first and len(laid) == 1
    assert drawn(again) == first and len(laid) == 2


def tops(ring):
    return [s for s in ring.laid.spots if s.role in ("stitch", "turning")]


def angle(point) -> float:
    return math.atan2(-point[1], point[0])


@pytest.mark.parametrize("name", EVERY)
def test_tops_go_round_counter_clockwise_in_the_order_of_work(name):
    for ring in lay_rounds(EVERY[name]).rings:
        turns = [angle(s.head) for s in tops(ring)]
        steps = [(b - a) % math.tau for a, b in itertools.pairwise(turns)]
        assert all(0 < step < math.pi + 0.1 for step in steps)
        assert sum(steps) < math.tau


@pytest.mark.parametrize("name", ["sc circle", "dc circle"])
def test_spirals_are_even_and_grow_by_the_height_of_a_stitch(name):
    """Each round climbs steadily and the next begins where it ended."""
    laid = lay_rounds(EVERY[name])
    for ring, above in itertools.zip_longest(laid.rings, laid.rings[1:]):
        radii = [math.hypot(*s.head) for s in tops(ring)]
        climbs = [b - a for a, b in itertools.pairwise(radii)]
        mean = sum(climbs) / len(climbs)
        assert mean > 0.0
        assert all(abs(climb - mean) < 0.15 for climb in climbs)
        if above is not None:
            assert abs(math.hypot(*tops(above)[0].head) - radii[-1] - mean) < 0.15
        turns = [angle(s.head) for s in tops(ring)]
        steps = [(b - a) % math.tau for a, b in itertools.pairwise(turns)]
        mean = sum(steps) / len(steps)
        assert all(abs(step - mean) < 0.15 * mean for step in steps)


@pytest.mark.parametrize("name", ["sc circle", "dc circle"])
def test_joined_circles_are_round_and_grow_by_the_height_of_a_stitch(name):
    laid = lay_rounds(fabric([Row((*worked.row.stitches, joined(0))) for worked in EVERY[name].rows], "magic ring"))
    for ring in laid.rings:
        radii = [math.hypot(*s.head) for s in tops(ring)]
        assert max(radii) - min(radii) < 0.15
    rises = [b.outer - a.outer for a, b in itertools.pairwise(laid.rings)]
    # Where every stitch is doubled both heads stand half a stitch aside and lose a seventh of their height; else less.
    assert rises[0] > 0.857 and all(rise > 0.91 for rise in rises[1:])


@pytest.mark.parametrize("name", ["granny", "square"])
def test_motifs_with_corners_are_squares(name):
    laid = lay_rounds(EVERY[name])
    assert laid.sides == 4
    spots = tops(laid.rings[-1])
    wide = max(max(abs(s.head[0]), abs(s.head[1])) for s in spots)
    on_sides = [s for s in spots if max(abs(s.head[0]), abs(s.head[1])) > wide - 0.8]
    assert len(on_sides) == len(spots)


def test_corners_are_found_from_the_work():
    found = corners_of(EVERY["granny"].rows)
    assert found is not None and [len(c) for c in found] == [4, 4, 4]
    assert all(EVERY["granny"].rows[1].row.stitches[i].chains == 2 for i in found[1])
    assert corners_of(EVERY["dc circle"].rows) is None
    assert corners_of(EVERY["arches"].rows) is None


def test_feet_stand_on_the_round_inside():
    fabric_ = EVERY["dc circle"]
    laid = lay_rounds(fabric_)
    for inner, ring in itertools.pairwise(laid.rings):
        for spot in tops(ring):
            foot = fabric_.rows[ring.index].row.stitches[spot.item].feet[0]
            base = inner.laid.spots[foot.at].head
            assert math.dist(spot.feet[0], base) <= 0.1


def test_turned_rounds_go_the_other_way():
    rows = [row.row for row in circle(3).rows]
    turned = Fabric(
        "magic ring",
        circle(1).foundation,
        fabric([rows[0], Row(tuple(reversed(rows[1].stitches)))], turned=True).rows,
    )
    ring = lay_rounds(turned).rings[1]
    turns = [angle(s.head) for s in tops(ring)]
    assert all((a - b) % math.tau < math.pi for a, b in itertools.pairwise(turns))


HEADING = Heading("Coaster", "Ada Loopwell", "CC BY 4.0", "10 cm across", hook="4 mm")


@pytest.mark.parametrize("name", EVERY)
@pytest.mark.parametrize(
    "setting", [Setting(), Setting(hand="left", paper="Letter", terms="UK", tone="mono")]
)
def test_charts_of_rounds_are_clean_and_complete(name, setting):
    document = chart_document(EVERY[name], HEADING, setting)
    (sheet,) = [svg_ruler.read(write(s)) for s in document.sheets]
    assert svg_ruler.overlaps(sheet) == []
    assert svg_ruler.outside(sheet) == []
    assert svg_ruler.text_over_glyphs(sheet) == []
    for i, worked in enumerate(EVERY[name].rows):
        drawn = [g.kind for g in sheet.glyphs if g.row == f"round-{i + 1}"]
        for kind, count in worked.row.kinds().items():
            assert drawn.count(kind) == count
        assert drawn.count("ch") == worked.row.chains


def test_the_left_hand_goes_clockwise():
    (sheet,) = chart_document(EVERY["granny"], HEADING, Setting(hand="left")).sheets
    words = [text for text, _ in svg_ruler.read(write(sheet)).texts]
    assert any("go clockwise" in text for text in words)


def test_large_rounds_are_tiled(monkeypatch):
    """A round motif stands whole down to 2.2 mm a stitch, which 42 rounds of sc need: fewer show the same sooner."""
    for least in ("LEAST_ROUND_MM", "TILE_MM"):
        monkeypatch.setattr(round_charts, least, 9.0)
    document = chart_document(circle(14), HEADING, Setting(extent="full"))
    assert len(document.sheets) > 2
    read = [svg_ruler.read(write(s)) for s in document.sheets]
    assert all(svg_ruler.outside(sheet) == [] for sheet in read)
    last = sum(sum(1 for g in sheet.glyphs if g.row == "round-14") for sheet in read)
    assert last >= 14 * 6


def test_rounds_in_several_colours_carry_the_letter_beside_the_number():
    rows = tuple(dataclasses.replace(r, colour="AB"[i % 2]) for i, r in enumerate(EVERY["granny"].rows))
    coloured = dataclasses.replace(EVERY["granny"], rows=rows)
    (sheet,) = chart_document(coloured, HEADING, Setting()).sheets
    read = svg_ruler.read(write(sheet))
    words = [text for text, _ in read.texts]
    assert "1 A" in words and "2 B" in words
    assert svg_ruler.text_over_glyphs(read) == []


def test_all_but_a_lit_round_are_pale():
    (sheet,) = chart_document(EVERY["granny"], HEADING, Setting(), extra=ChartSetting(lit_row=2)).sheets
    svg = write(sheet).decode("utf-8")
    inks = {
        name: set(re.findall(r'stroke="(#[0-9a-f]{6})"', svg.split(f'<g id="{name}"')[1].split("</g>")[0]))
        for name in ("centre", "round-1", "round-2", "round-3")
    }
    assert PALE not in inks.pop("round-2")
    assert all(strokes == {PALE} for strokes in inks.values())
    with pytest.raises(RowNotShown, match="round 9 is not drawn: this chart shows rounds 1–3"):
        chart_document(EVERY["granny"], HEADING, Setting(), extra=ChartSetting(lit_row=9))


def test_rounds_that_go_into_others_than_the_one_below_are_named():
    text = (
        "Make a magic ring.\nRnd 1: Ch 1, 8 sc in ring, join with sl st in first sc.\n"
        "Rnd 2: Working in front loops only, sl st in each sc around.\n"
        "Rnd 3: Working in back loops only of Rnd 1, ch 1, 2 sc in each sc around, join with sl st in first sc.\n"
        "Rnd 4: Ch 1, *FPdc around next sc of Rnd 1, ch 2; rep from * around, join with sl st in first FPdc.\n"
    )
    worked = work_text(text)
    assert not worked.problems
    said = " ".join(deep_words(lay_rounds(worked.fabric), "US", "round"))
    assert "the stitches of round 3 go into round 1" in said
    assert "the FPdc of round 4 go round stitches of round 1" in said


def test_a_chain_in_the_middle_is_named_with_its_length():
    (sheet,) = chart_document(EVERY["oval"], HEADING, Setting()).sheets
    words = " ".join(text for text, _ in svg_ruler.read(write(sheet)).texts)
    assert re.search(r"The chain in the middle is begun with ch \d+", words)


def test_a_round_on_a_long_joined_chain_stands_round_its_chains():
    text = "Ch 24, join with sl st in first ch to form ring.\nRnd 1: Ch 1, sc in each ch around, join with sl st in first sc.\n"
    worked = work_text(text)
    assert not worked.problems
    laid = lay_rounds(worked.fabric)
    turns = [math.hypot(*s.ovals[0][:2]) for s in laid.centre.spots]
    assert len(turns) == 24 and max(turns) - min(turns) < 1e-6
    document = chart_document(worked.fabric, HEADING, Setting())
    read = svg_ruler.read(write(document.sheets[0]))
    assert svg_ruler.overlaps(read) == []
    assert "The ring that is worked on is ch 24." in " ".join(words for words, _ in read.texts)


@pytest.mark.parametrize("many", [2, 3])
def test_stitches_in_one_space_go_in_side_by_side_about_its_middle(many):
    text = (
        "Terms: US\nCh 6, join with sl st to form a ring.\n"
        "Rnd 1: Ch 1, *sc in ring, ch 4; rep from * 5 times more, join with sl st in first sc. (6 ch-4 sps)\n"
        f"Rnd 2: Ch 1, *{many} dc in next ch-4 sp, ch 2; rep from * around, join with sl st in first dc.\n"
    )
    worked = work_text(text)
    assert not worked.problems, [p.report() for p in worked.problems]
    below, ring = lay_rounds(worked.fabric).rings
    posts = [s for s in ring.laid.spots if s.role == "stitch" and s.kind == "dc"]
    assert len(posts) == 6 * many
    for k in range(0, len(posts), many):
        feet = [s.feet[0] for s in posts[k : k + many]]
        gaps = [math.dist(a, b) for a, b in itertools.pairwise(feet)]
        assert min(gaps) > 0.3 and max(gaps) < min(gaps) * 1.5
        middle = (sum(x for x, _ in feet) / many, sum(y for _, y in feet) / many)
        chain = min((s for s in below.laid.spots if s.role == "chain"), key=lambda s: math.dist(s.head, middle))
        arch = (sum(x for x, _, _ in chain.ovals), sum(y for _, y, _ in chain.ovals))
        aside = math.remainder(math.atan2(middle[1], middle[0]) - math.atan2(arch[1], arch[0]), math.tau)
        assert abs(aside) * math.hypot(*middle) < 0.2


@pytest.mark.parametrize(("colours", "numbers"), [("AAA", {"1", "2", "3"}), ("AAB", {"1 A", "2 A", "3 B"}), ("BAA", {"1 B", "2 A", "3 A"})])
def test_numbers_name_the_colour_of_their_round_where_there_are_several(colours, numbers):
    text = (
        "Terms: US\nRnd 1: 6 sc in magic ring. (6 sc)\nRnd 2: 2 sc in each st around. (12 sc)\n"
        "Rnd 3: *Sc in next st, 2 sc in next st; rep from * around. (18 sc)\n"
    )
    fabric = work_text(text).fabric
    rows = tuple(dataclasses.replace(row, colour=colour) for row, colour in zip(fabric.rows, colours, strict=True))
    (sheet,) = chart_document(dataclasses.replace(fabric, rows=rows), Heading("Disc"), Setting()).sheets
    said = {words for words, _ in svg_ruler.read(write(sheet)).texts}
    assert {words for words in said if re.fullmatch(r"\d( [AB])?", words)} == numbers


def test_what_rounds_make_is_told_in_the_plural():
    text = """Picot: Ch 3, sl st in 3rd ch from hook.
Rnd 1: Ch 4 (counts as dc and ch 1), [dc in magic ring, ch 1] 7 times, join with sl st in 3rd ch of beg ch-4. (8 dc)
Rnd 2: Ch 1, (sc, picot, sc) in next ch-1 sp, ch 4, *(sc, picot, sc) in next ch-1 sp, ch 4; rep from * around, join.
"""
    worked = work_text(text).fabric
    laid, folded = lay_rounds(worked), fold_rows(worked)
    assert made_words(laid, "US", folded, frozenset({0})) == "Stitches of rounds without such a number: rnd 2: 16 (16 sc, 8 picots)."


def test_a_round_of_chains_alone_is_refused_by_its_name() -> None:
    """It is joined to nothing of its round, so nothing says where its chains lie."""
    for words, label in (
        ("Rnd 1: Ch 9, ch 5, join.\n", "Rnd 1"),
        ("Rnd 1: Ch 1, 8 sc in ring, join with sl st in first sc.\nRnd 2: Ch 9, ch 5, join.\n", "Rnd 2"),
    ):
        fabric = work_text("Terms: US\nCh 6, join with sl st to form a ring.\n" + words).fabric
        assert len(fabric.rows) == int(label[-1])
        with pytest.raises(lay.WithoutStitch, match=f"^{label} is made of chains alone"):
            lay_rounds(fabric)
