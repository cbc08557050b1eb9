"""What stands on the first screen of the page to work from: all that a row is worked by, and nothing over the chart."""

from __future__ import annotations

import pytest

from .conftest import DESK, PHONE

pytestmark = pytest.mark.slow

#: Long rows: the words and the count of the longest want most of a phone.
LACE = """Reed Lace (US terms)

Ch 44.
Row 1 (RS): Sc in 2nd ch from hook, *skip next 2 ch, 5 dc in next ch, skip next 2 ch, sc in next ch; rep from * across. (35 dc, 8 sc)
Row 2: Ch 5 (counts as dc and ch 2), turn. *Skip next 2 dc, sc in next dc, ch 2, skip next 2 dc, dc in next sc, ch 2; rep from * 5 more times, skip next 2 dc, sc in next dc, ch 2, skip next 2 dc, dc in last sc. (8 dc, 7 sc, 14 ch-2 sps)
Row 3: Ch 1, turn. Sc in first dc, *skip next ch-2 sp, 5 dc in next sc, skip next ch-2 sp, sc in next dc; rep from * across, working last sc in 3rd ch of beginning ch-5. (35 dc, 8 sc)
Rows 4-39: Rep Rows 2 and 3.
Row 40: Ch 1, turn. Sc in each st across. (43 sc)
Fasten off.
"""
#: Three rounds alike: on the chart they lie in one place.
BALL = """Small Ball (US terms). Worked in a continuous spiral; do not join.

Rnd 1: 6 sc in magic ring. (6 sc)
Rnd 2: 2 sc in each st around. (12 sc)
Rnd 3: *Sc in next st, 2 sc in next st; rep from * around. (18 sc)
Rnds 4-6: Sc in each st around. (18 sc)
Rnd 7: *Sc in next st, sc2tog; rep from * around. (12 sc)
Fasten off.
"""

#: Steps through the page; what is not wholly in the window, and the highest lie of the chart's buttons over the chart.
SEEN = """() => {
  const out = [], box = (id) => document.getElementById(id).getBoundingClientRect();
  for (let more = true; more;) {
    const foot = box("steps").top;
    for (const id of ["where", "name", "words", "count"]) {
      if (box(id).top < 0 || box(id).bottom > foot + .5) out.push(document.getElementById("name").textContent + ": " + id);
    }
    const pane = box("pane"), zoom = box("zoom");
    if (zoom.left < pane.right && zoom.right > pane.left && zoom.top < pane.bottom && zoom.bottom > pane.top) out.push("over the chart");
    if (scrollY) out.push("scrolled");
    more = !document.getElementById("next").disabled;
    document.getElementById("next").click();
  }
  return out;
}"""


@pytest.mark.parametrize("viewport", [PHONE, DESK], ids=["phone", "desk"])
@pytest.mark.parametrize("text", [LACE, BALL], ids=["lace", "ball"])
def test_a_row_with_its_count_and_the_steps_stands_on_one_screen(text, viewport, follow_page, opened):
    assert opened(follow_page(text, "piece.txt"), viewport).page.evaluate(SEEN) == []


@pytest.mark.parametrize("name", ["fabrics/large-doily.txt", "field-book-cover/pattern.toml"])
def test_a_piece_of_the_gallery_stands_on_one_screen(name, gallery_page, opened):
    assert opened(gallery_page(name)).page.evaluate(SEEN) == []


def test_the_chart_keeps_its_height_from_row_to_row(follow_page, opened):
    page = opened(follow_page(LACE, "piece.txt")).page
    heights = set()
    for _ in range(5):
        heights.add(page.evaluate("document.getElementById('pane').clientHeight"))
        page.click("#next")
    assert len(heights) == 1


def test_the_step_after_the_beginning_is_called_what_it_is(follow_page, opened):
    assert opened(follow_page(BALL, "ball.txt")).page.inner_text("#next") == "Next round"
    assert opened(follow_page(LACE, "lace.txt")).page.inner_text("#next") == "Next row"


def test_the_title_is_not_said_again_over_every_row(follow_page, opened):
    page = opened(follow_page(LACE, "lace.txt")).page
    page.click("#next")
    assert page.inner_text("#where") == "Row 1 of 40"


def test_of_rounds_in_one_place_that_in_work_is_seen(follow_page, opened):
    page = opened(follow_page(BALL, "ball.txt")).page
    for step in range(1, 8):
        page.click("#next")
        seen = page.evaluate(
            "[...document.querySelectorAll('#chart .row')].filter((row) => row.getAttribute('visibility') !== 'hidden')"
            ".map((row) => +row.dataset.row + 1)"
        )
        alike = step if step in (4, 5, 6) else 4
        assert sorted(seen) == [0, 1, 2, 3, alike, 7]
        assert page.evaluate("+document.querySelector('#chart .row.lit').dataset.row + 1") == step


def test_a_round_that_is_wholly_seen_does_not_move_from_repeat_to_repeat(follow_page, opened):
    page = opened(follow_page(BALL, "ball.txt")).page
    for _ in range(3):
        page.click("#next")
    place = "[document.getElementById('pane').scrollLeft, document.getElementById('pane').scrollTop]"
    before = page.evaluate(place)
    for _ in range(4):
        page.click("#rep-more")
        assert page.evaluate(place) == before


#: How far the lit round reaches out of the pane that it is seen through, in pixels; the greatest of all rounds.
CUT = """() => {
  const pane = document.getElementById("pane").getBoundingClientRect();
  let most = -Infinity;
  for (let more = true; more;) {
    const lit = document.querySelector("#pane .lit");
    if (lit) {
      const box = lit.getBoundingClientRect();
      most = Math.max(most, pane.left - box.left, box.right - pane.right, pane.top - box.top, box.bottom - pane.bottom);
    }
    more = !document.getElementById("next").disabled;
    document.getElementById("next").click();
  }
  return most;
}"""


@pytest.mark.parametrize("name", ["lace-doily", "granny-square", "hexagon"])
def test_no_round_is_cut_on_a_phone(name, gallery_page, opened):
    assert opened(gallery_page(f"fabrics/{name}.txt")).page.evaluate(CUT) <= 1.0


def test_the_size_of_the_chart_is_kept_from_round_to_round_and_when_the_page_is_opened_again(gallery_page, opened):
    page = opened(gallery_page("fabrics/lace-doily.txt")).page
    wide = "() => Math.round(document.querySelector('#pane svg').getBoundingClientRect().width)"
    page.click("#next")
    first = page.evaluate(wide)
    page.click("#larger")
    larger = page.evaluate(wide)
    page.click("#next")
    assert larger > 1.2 * first and page.evaluate(wide) == larger
    page.reload()
    assert abs(page.evaluate(wide) - larger) <= 2


@pytest.mark.parametrize("hand", ["right", "left"])
def test_rounds_that_are_drawn_the_other_way_say_so(hand, follow_page, opened):
    text = BALL.replace("Fasten off.", "Rnd 8: [Sc2tog] 6 times. (6 sc)\nFasten off.")
    page = opened(follow_page(text, "piece.txt")).page
    page.tap("#open-more")
    page.check(f"input[name=hand][value={hand}]")
    page.keyboard.press("Escape")
    says = []
    for _ in range(10):
        says.append((page.text_content("#name"), page.text_content("#chips")))
        if page.is_disabled("#next"):
            break
        page.click("#next")
    other = {"right": "on the chart clockwise", "left": "on the chart counter-clockwise"}[hand]
    told = [name for name, chips in says if other in chips]
    assert told and all(name.split()[-1] in ("7", "8") for name in told)
    assert not [chips for _, chips in says if "on the chart" in chips and other not in chips]
