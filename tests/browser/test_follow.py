"""The page to work from, in a browser: every row with its words, every way to step, what is kept, what is safe."""

from __future__ import annotations

import itertools
import math
import re
from pathlib import Path

import pytest
from hookfold.charts import engrave
from hookfold.charts.drawing.style import contrast
from hookfold.charts.model.rows.work import work_text
from hookfold.charts.output.words import stated_of
from hookfold.charts.pattern.writer import write_ops, write_stated
from hookfold.charts.setting import Setting

from .conftest import DESK, ROOT

#: A browser takes its time to begin: all checks in one are left out of the usual run.
pytestmark = pytest.mark.slow

PIECES = ("field-book-cover/pattern.toml", "reading-cushion/pattern.toml", "spectacle-pouch/pattern.toml")
ROUNDS = ("fabrics/layered-flower.txt", "fabrics/solid-square.txt")
COVER, SQUARE = PIECES[0], ROUNDS[1]

#: Steps through the whole page with its own button and tells what stood there.
WALK = """() => {
  const out = [], text = (id) => document.getElementById(id).textContent;
  for (let more = true; more;) {
    const lit = [...document.querySelectorAll("#chart .row.lit")].map((row) => +row.dataset.row);
    out.push([text("name"), text("words"), text("count"), lit, text("live")]);
    more = !document.getElementById("next").disabled;
    document.getElementById("next").click();
  }
  return out;
}"""


def read(name: str) -> str:
    return (ROOT / "gallery" / name).read_text("utf-8")


def told_rows(words: str) -> dict[int, str]:
    """Every row of the instructions with its words and count, repeats written out."""
    rows: dict[int, str] = {}
    for line in words.split("\n"):
        found = re.match(r"Rows? (\d+)(?: \([RW]S\))?(?:[-–](\d+))?(?: \([RW]S\))?: (.*)", line)
        if not found:
            continue
        first, last, said = int(found[1]), int(found[2] or found[1]), found[3]
        again = re.match(r"Rep Rows? (\d+)(?:[-–](\d+))?", said)
        size = int(again[2] or again[1]) - int(again[1]) + 1 if again else 1
        for n in range(first, last + 1):
            rows[n] = rows[int(again[1]) + (n - first) % size] if again else said
    return rows


@pytest.mark.parametrize("name", PIECES)
def test_the_row_in_work_has_the_words_that_the_instructions_give_it(name, gallery_page, opened):
    terms = "UK" if "UK" in read(name)[:400] else "US"
    expected = told_rows(engrave.instructions(read(name), name, Setting(terms=terms)))
    seen = opened(gallery_page(name)).page.evaluate(WALK)
    rows = [each for each in seen if each[0].startswith("Row ")]
    assert [each[0] for each in rows] == [f"Row {n}" for n in expected]
    assert [f"{each[1]} ({each[2]})" for each in rows] == list(expected.values())
    assert [each[3] for each in rows] == [[n - 1] for n in expected]
    assert seen[0][0] == "Beginning" and "hain" not in seen[0][0] and re.match(r"(?:With A, )?[cC]h \d+\.", seen[0][1])
    assert seen[-1][0].startswith("Finishing") and seen[-1][3] == []


@pytest.mark.parametrize("name", ROUNDS)
def test_rounds_have_their_words_in_both_terms(name, gallery_page, opened):
    worked = work_text(read(name))
    page = opened(gallery_page(name)).page
    for terms in ("US", "UK"):
        page.evaluate(f"document.querySelector('input[value={terms}]').click()")
        seen = page.evaluate(WALK)
        rows = [each for each in seen if each[0].startswith("Rnd ")]
        expected = [
            (row.label, write_ops(ops, terms, is_round=True), write_stated(stated_of(row.row), terms).strip(" ()"), [n])
            for n, (row, ops) in enumerate(zip(worked.fabric.rows, worked.pieces[0].ops, strict=True))
        ]
        assert [tuple(each[:4]) for each in rows][-len(expected) :] == expected
        assert all(each[0] in each[4] and each[1] in each[4] for each in rows[1:])
        page.evaluate("document.querySelector('#open-rows').click(); document.querySelector('[data-step]').click()")


def where(page) -> str:
    return page.inner_text("#name")


def test_it_steps_by_tap_key_and_swipe(gallery_page, opened):
    page = opened(gallery_page(COVER)).page
    page.tap("#next")
    assert where(page) == "Row 1"
    page.keyboard.press("ArrowRight")
    page.keyboard.press("Space")
    assert where(page) == "Row 2" or where(page) == "Row 3"
    page.locator("#name").focus()
    page.keyboard.press("Space")
    page.keyboard.press("ArrowLeft")
    before = int(where(page).split()[1])
    box = page.locator("#words").bounding_box()
    swipe = """([x, y, by]) => { const card = document.getElementById("card");
      const at = (x) => [new Touch({ identifier: 1, target: card, clientX: x, clientY: y })];
      card.dispatchEvent(new TouchEvent("touchstart", { touches: at(x), changedTouches: at(x), bubbles: true }));
      card.dispatchEvent(new TouchEvent("touchend", { changedTouches: at(x + by), bubbles: true })); }"""
    page.evaluate(swipe, [box["x"] + 200, box["y"] + 5, -120])
    assert where(page) == f"Row {before + 1}"
    page.evaluate(swipe, [box["x"] + 50, box["y"] + 5, 120])
    page.evaluate(swipe, [box["x"] + 50, box["y"] + 5, 30])
    assert where(page) == f"Row {before}"
    page.tap("#back")
    assert where(page) == f"Row {before - 1}"


def test_a_tap_on_a_row_of_the_chart_goes_there(gallery_page, opened):
    page = opened(gallery_page(COVER)).page
    page.tap("#next")
    page.locator('#chart [data-row="3"] path').first.evaluate("row => row.scrollIntoView({ block: 'center' })")
    box = page.locator('#chart [data-row="3"] .band').evaluate("band => { const b = band.getBoundingClientRect(); return [b.y + b.height / 2]; }")
    page.touchscreen.tap(200, box[0])
    assert where(page) == "Row 4"


def test_place_repeat_and_notes_are_kept_and_undone(gallery_page, opened):
    page = opened(gallery_page(COVER)).page
    page.keyboard.press("g")
    page.fill("#jump-to", "10")
    page.keyboard.press("Enter")
    assert where(page) == "Row 10"
    page.keyboard.press("+")
    page.tap("#rep-more")
    assert page.inner_text("#rep-said") == "Repeat 3 of 10"
    page.keyboard.press("n")
    page.keyboard.type("left the marker <here> & went home")
    page.reload()
    assert (where(page), page.inner_text("#rep-said")) == ("Row 10", "Repeat 3 of 10")
    assert page.input_value("#note") == "left the marker <here> & went home"
    page.tap("#undo")
    assert page.inner_text("#rep-said") == "Repeat 2 of 10"
    page.tap("#undo")
    page.tap("#undo")
    assert where(page) == "Beginning" and page.is_disabled("#undo")
    assert page.input_value("#note") == ""


def test_the_repeat_in_work_is_the_one_that_is_marked(gallery_page, opened):
    """Row 10 of the cover: sc in first 2 sts, ten times (bobble, 3 sc), the rest; the bracket moves by four stitches."""
    page = opened(gallery_page(COVER)).page
    page.keyboard.press("g")
    page.fill("#jump-to", "10")
    page.keyboard.press("Enter")
    drawn = [page.get_attribute("#chart .lit .under", "d")]
    for _ in range(2):
        page.keyboard.press("+")
        page.wait_for_function("was => document.querySelector('#chart .lit .under').getAttribute('d') !== was", arg=drawn[-1])
        drawn.append(page.get_attribute("#chart .lit .under", "d"))
    lefts = [float(re.match(r"M(-?[\d.]+)", path)[1]) for path in drawn]
    page.keyboard.press("+")
    steps = [b - a for a, b in itertools.pairwise(lefts)]
    assert [abs(step) for step in steps] == pytest.approx([400, 400], abs=3)
    page.wait_for_function("() => document.querySelector('#words mark').innerText.startsWith('*bo in next st')")


def test_a_place_goes_from_one_device_to_another(gallery_page, opened):
    one, other = opened(gallery_page(COVER)).page, opened(gallery_page(COVER)).page
    for _ in range(12):
        one.keyboard.press("ArrowRight")
    one.keyboard.press("+")
    place = one.input_value("#place")
    assert re.fullmatch(r"[0-9a-f]{4}-12-2-[0-9a-z]", place)
    assert where(other) == "Beginning"
    other.tap("#open-more")
    for wrong in ("", "hello", place[:-1] + ("a" if place[-1] != "a" else "b"), "0000" + place[4:]):
        other.fill("#taken", wrong)
        other.keyboard.press("Enter")
        assert other.inner_text("#take-said")
    other.fill("#taken", f" {place.upper()} ")
    other.keyboard.press("Enter")
    assert (where(other), other.inner_text("#rep-said")) == ("Row 12", one.inner_text("#rep-said"))


SPOTS = """() => [...document.querySelectorAll("#chart .row.lit path:not(.glow, .under, .solid)")]
  .flatMap((path) => [...path.getAttribute("d").matchAll(/M(-?[\\d.]+) (-?[\\d.]+)/g)].map((m) => [+m[1], +m[2]]))"""


@pytest.mark.parametrize("name", [COVER, "fabrics/layered-flower.txt"])
def test_the_left_hand_sees_the_rows_in_a_mirror(name, gallery_page, opened):
    page = opened(gallery_page(name)).page
    for _ in range(3):
        page.keyboard.press("ArrowRight")
    right, words = page.evaluate(SPOTS), page.inner_text("#words")
    page.tap("#open-more")
    page.check("input[name=hand][value=left]")
    left = page.evaluate(SPOTS)
    assert len(right) == len(left) > 5
    if name == COVER:
        assert sorted(left) == [pytest.approx(p, abs=1.5) for p in sorted([-x, y] for x, y in right)]
    else:
        away = [sorted(math.hypot(x, y) for x, y in hand) for hand in (left, right)]
        assert away[0] == pytest.approx(away[1], abs=40)
    page.tap("#more [data-close]")
    assert page.inner_text("#words") == words
    next_, back = page.locator("#next").bounding_box(), page.locator("#back").bounding_box()
    assert next_["x"] < back["x"]
    page.reload()
    assert page.evaluate(SPOTS) == left


def test_a_row_that_is_drawn_from_its_other_side_says_so(gallery_page, opened):
    page = opened(gallery_page("fabrics/post-rib.txt")).page
    said = []
    for _ in range(4):
        said.append("as the right side shows it" in page.inner_text("#chips"))
        page.keyboard.press("ArrowRight")
    assert said == [False, False, True, False], "beginning, RS, WS, RS"


def test_terms_change_the_words_and_not_the_chart(gallery_page, opened):
    page = opened(gallery_page(COVER)).page
    for _ in range(10):
        page.keyboard.press("ArrowRight")
    drawn = page.evaluate(SPOTS)
    page.tap("#open-more")
    page.check("input[name=terms][value=UK]")
    page.tap("#more [data-close]")
    expected = told_rows(engrave.instructions(read(COVER), COVER, Setting(terms="UK")))[10]
    assert f"{page.inner_text('#words')} ({page.inner_text('#count')})".replace("\xa0", " ") == expected
    assert "yrh" in expected or "dc" in expected
    assert page.evaluate(SPOTS) == drawn


def rgb(css: str) -> str:
    return "#" + "".join(f"{int(float(v)):02x}" for v in re.findall(r"[\d.]+", css)[:3])


#: Every text that is seen with its colour and the ground behind it.
TEXTS = """() => [...document.querySelectorAll("body *")].filter((e) => e.checkVisibility() && !e.closest("svg, .unseen, :disabled")
    && [...e.childNodes].some((n) => n.nodeType === 3 && n.data.trim())).map((e) => {
  let ground = "rgba(0, 0, 0, 0)";
  for (let up = e; up && /, 0\\)$|transparent/.test(ground); up = up.parentElement) ground = getComputedStyle(up).backgroundColor;
  return [e.textContent.trim().slice(0, 30), getComputedStyle(e).color, ground];
})"""


@pytest.mark.parametrize("light", ["light", "dark"])
def test_texts_and_rows_stand_out_in_light_and_dark(light, gallery_page, opened):
    """WCAG 2.2, 1.4.3 and 1.4.11: text 4.5 : 1, graphics 3 : 1, by the formula of its definition of contrast ratio."""
    page = opened(gallery_page(COVER), color_scheme=light).page
    for _ in range(10):
        page.keyboard.press("ArrowRight")
    dim = page.evaluate("getComputedStyle(document.body).backgroundColor")
    assert (contrast(rgb(dim), "#000000") < 3) == (light == "dark")
    weak = [t for t in page.evaluate(TEXTS) if contrast(rgb(t[1]), rgb(t[2])) < 4.5]
    assert weak == []
    ground = rgb(page.evaluate("getComputedStyle(document.getElementById('stage')).backgroundColor"))
    band = rgb(page.evaluate("getComputedStyle(document.querySelector('.lit .band')).fill"))
    for row, on in ((".lit", band), (".later", ground), (".row:not(.lit, .later)", ground)):
        ink = rgb(page.evaluate(f"getComputedStyle(document.querySelector('#chart {row} path:not(.glow)')).stroke"))
        assert contrast(ink, on) >= 3, row


def test_light_can_be_chosen_against_the_device(gallery_page, opened):
    page = opened(gallery_page(SQUARE), color_scheme="dark").page
    page.tap("#open-more")
    page.check("input[name=light][value=light]")
    assert contrast(rgb(page.evaluate("getComputedStyle(document.body).backgroundColor")), "#000000") > 15


def test_on_paper_stand_the_rows_in_words_and_no_buttons(gallery_page, opened):
    page = opened(gallery_page(COVER), color_scheme="dark").page
    page.emulate_media(media="print")
    shown = page.inner_text("#all")
    lines = [line for line in engrave.instructions(read(COVER), COVER, Setting()).split("\n") if line.startswith("Row")]
    assert len(lines) > 5 and all(line in shown for line in lines)
    assert not page.locator("button:visible").count() and not page.locator("#live:visible").count()
    assert page.locator("#chart").is_visible()
    assert rgb(page.evaluate("getComputedStyle(document.body).backgroundColor")) == "#ffffff"


HOSTILE = "</script><img src=http://x.invalid/ onerror=alert(1)>{{}}${title}<!-- \" ' & ]]> \\"


def test_what_a_pattern_says_stays_text(follow_page, opened):
    quoted = HOSTILE.replace("\\", "\\\\").replace('"', '\\"')
    text = read(COVER).replace('"Marsh walk field-book cover"', f'"{quoted}"').replace('"Ottoline Farrow"', f'"{quoted}"')
    text = text.replace('"CC BY 4.0"', f'"{quoted}"').replace('"3.5 mm"', '"3.5 mm <b>"').replace('name = "reed"', f'name = "{quoted}"')
    text = text.replace('name   = "front flap"', f'name   = "{quoted}"')
    out = opened(follow_page(text, "hostile.toml"))
    out.page.keyboard.press("ArrowRight")
    assert out.page.inner_text("h1") == HOSTILE
    assert HOSTILE in out.page.inner_text("#chips") and HOSTILE in out.page.inner_text("#where")
    assert out.page.title().startswith("</script><img")
    out.page.tap("#open-rows")
    assert not out.page.locator("img, iframe, b:not(#list b), script[src]").count()


def test_a_written_pattern_and_its_file_name_stay_text_too(follow_page, opened):
    text = "Terms: US\nFan<img src=x onerror=alert(1)> (fan): 5 dc in same st.\nCh 14.\nRow 1: Sc in 2nd ch from hook and in each ch across. (13 sc)\nRow 2: Ch 1, turn. Sc in first st, *sk 2 sts, 5 dc in next st, sk 2 sts, sc in next st; rep from * across.\n"
    out = opened(follow_page(text, "<i>fans.txt"))
    assert "<i>" in out.page.inner_text("h1").lower()
    out.page.tap("#open-more")
    assert not out.page.locator("img, h1 i").count()


def test_the_policy_lets_nothing_in(gallery_page, opened):
    out = opened(gallery_page(SQUARE))
    page = out.page
    policy = page.get_attribute('meta[http-equiv="Content-Security-Policy"]', "content")
    assert policy.startswith("default-src 'none'; script-src 'sha256-") and "unsafe" not in policy
    page.evaluate("window.ran = 0; const s = document.createElement('script'); s.textContent = 'window.ran = 1'; document.body.append(s)")
    assert page.evaluate("window.ran") == 0
    assert len(out.faults) == 1 and "Content Security Policy" in out.faults.pop()


def test_without_its_script_the_rows_can_be_read(gallery_page, browser):
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(gallery_page(SQUARE).as_uri())
    assert "Rnd 3" in page.inner_text("#all") and page.locator(".off").is_visible()
    context.close()


def test_a_viewer_that_keeps_nothing_says_so(gallery_page, browser):
    context = browser.new_context()
    context.add_init_script("Object.defineProperty(window, 'localStorage', { get() { throw new Error('no'); } });")
    page = context.new_page()
    page.goto(gallery_page(SQUARE).as_uri())
    page.keyboard.press("ArrowRight")
    assert where(page) == "Rnd 1" and "does not keep your place" in page.inner_text("#card")
    context.close()


@pytest.mark.parametrize("state", ["card", "rows", "more"])
def test_no_rule_of_access_is_broken(state, gallery_page, opened):
    """The rules of axe-core (bundled with its package, nothing fetched), all that it knows for WCAG 2.2 AA."""
    axe = pytest.importorskip("axe_playwright_python.sync_playwright", reason="axe-playwright-python is not installed")
    page = opened(gallery_page(COVER)).page
    page.keyboard.press("ArrowRight")
    if state != "card":
        page.tap(f"#open-{state}")
    found = axe.Axe().run(page, options={"runOnly": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]})
    assert [(v["id"], [n["html"][:90] for n in v["nodes"]]) for v in found.response["violations"]] == []


def test_everything_has_a_name_and_can_be_reached(gallery_page, opened):
    page = opened(gallery_page(COVER)).page
    page.keyboard.press("ArrowRight")
    reached = []
    for _ in range(14):
        page.keyboard.press("Tab")
        reached.append(page.evaluate("document.activeElement.id || document.activeElement.tagName"))
    assert {"open-rows", "open-more", "pane", "smaller", "larger", "back", "undo", "next"} <= set(reached)
    small = page.evaluate("""() => [...document.querySelectorAll("button, summary, input")].filter((e) => e.checkVisibility())
      .map((e) => [e.id, e.getBoundingClientRect()]).filter(([, b]) => b.width < 24 || b.height < 24).map(([id]) => id)""")
    assert small == [], "WCAG 2.2, 2.5.8: targets of 24 px at least"
    assert page.get_attribute("#live", "aria-live") == "polite" and "Row 1" in page.inner_text("#live")
    page.keyboard.press("ArrowRight")
    assert page.inner_text("#live").startswith("Row 2, wrong side")


@pytest.mark.parametrize("size", [{"width": 195, "height": 422}, {"width": 320, "height": 256}, DESK])
def test_nothing_is_cut_where_text_is_large_or_the_window_small(size, gallery_page, opened):
    """WCAG 2.2, 1.4.4 and 1.4.10: at 200 % and at 320 px nothing scrolls sideways but the chart."""
    page = opened(gallery_page(COVER), size).page
    for _ in range(10):
        page.keyboard.press("ArrowRight")
    assert page.evaluate("document.documentElement.scrollWidth <= window.innerWidth")
    page.locator("#next").scroll_into_view_if_needed()
    box = page.locator("#next").bounding_box()
    assert box["x"] >= 0 and box["x"] + box["width"] <= size["width"] and box["y"] + box["height"] <= size["height"] + 1


def test_a_pattern_in_several_pieces_goes_through_all(follow_page, opened):
    text = "Terms: US\nArm (make 2)\nRnd 1: Make a magic ring, ch 1, 6 sc in ring, join. (6 sc)\nRnd 2: Ch 1, 2 sc in each st around, join. (12 sc)\n\nBody\nRnd 1: Make a magic ring, ch 1, 8 sc in ring, join. (8 sc)\n"
    seen = opened(follow_page(text, "bear.txt")).page.evaluate(WALK)
    assert [each[0] for each in seen] == ["Beginning", "Rnd 1", "Rnd 2"] * 2 + ["Beginning", "Rnd 1"] or [each[0] for each in seen] == ["Rnd 1", "Rnd 2"] * 2 + ["Rnd 1"]


@pytest.fixture(scope="module")
def many_stitches(follow_page) -> Path:
    """A scarf of lace of twenty thousand stitches."""
    shell = "Ch 1, turn. Sc in first st, *sk 2 sts, 5 dc in next st, sk 2 sts, sc in next st; rep from * across."
    back = "Ch 3 (counts as dc), turn. 2 dc in first st, *sk 2 sts, sc in next st, sk 2 sts, 5 dc in next st; rep from * to last 6 sts, sk 2 sts, sc in next st, sk 2 sts, 3 dc in last st."
    lines = [f"Row {n}: {back if n % 2 == 0 else shell}" for n in range(2, 103)]
    return follow_page("\n".join(["Terms: US", "Ch 200.", "Row 1 (RS): Sc in 2nd ch from hook and in each ch across. (199 sts)", *lines]), "lace.txt")


@pytest.mark.slow
def test_a_step_on_a_large_piece_is_quick_on_a_slow_phone(many_stitches, opened):
    """From the key to the next frame painted, with the processor slowed down fourfold, beside what a frame takes in which
    nothing happens; the median of forty. A step feels immediate up to about 100 ms (common practice), six frames."""
    assert many_stitches.stat().st_size < 400_000
    page = opened(many_stitches).page
    client = page.context.new_cdp_session(page)
    client.send("Emulation.setCPUThrottlingRate", {"rate": 4})
    idle, took = (page.evaluate("""async (press) => {
      const frame = () => new Promise((done) => requestAnimationFrame(() => { const c = new MessageChannel(); c.port1.onmessage = done; c.port2.postMessage(0); }));
      const out = [];
      for (let n = 0; n < 40; n++) {
        await frame();
        const began = performance.now();
        if (press) document.body.dispatchEvent(new KeyboardEvent("keydown", { key: "ArrowRight", bubbles: true }));
        document.body.offsetHeight;
        await frame();
        out.push(performance.now() - began);
      }
      return out;
    }""", press) for press in (False, True))
    assert where(page) == "Row 40"
    middle = sorted(took)[20]
    print(f"a step: {middle:.0f} ms in the middle, {max(took):.0f} ms at most; an idle frame {sorted(idle)[20]:.0f} ms")
    assert middle < 6 * max(sorted(idle)[20], 1000 / 60)
