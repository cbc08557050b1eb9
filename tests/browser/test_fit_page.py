"""The page that fits a pattern says what the tool says: counts, fit, yarn and rows, whatever is typed in."""

from __future__ import annotations

import functools
import random
import re
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner
from hookfold.charts import engrave
from hookfold.charts.model.sections import read as sections_read
from hookfold.charts.model.sizing.fit import fit_lines
from hookfold.charts.setting import Setting
from hookfold.cli import main
from reading_once import read_once_in

from .conftest import DESK, PHONE, ROOT

#: A browser takes its time to begin: all checks in one are left out of the usual run.
pytestmark = pytest.mark.slow

PIECES = ("field-book-cover", "spectacle-pouch", "reading-cushion", "strapped-journal", "pocket-shawl", "bench-scarf")
#: What the numbers of the page are compared with is printed to a tenth of a millimetre or four places of a fraction.
NEAR = {"mm": 0.0501, "stretch": 0.000051}


@dataclass(frozen=True)
class Given:
    """What a reader types: lengths as text, a gauge."""

    unit: str
    lengths: dict[str, str]
    stitches: str
    rows: str
    over: str


#: Pieces that the gallery has none of: a chain round the book, lace over chains, sections of fixed rows, a sewn pouch.
MORE = {
    "chain-round": """title = "Ledger"
[gauge]
stitches = 16
rows = 18
over = "10 cm"
border_stitches = 17
[object]
kind = "book"
height = "200 mm"
wrap = "310 mm"
flap = "60 mm"
chain_along = "wrap"
[colours]
A = { name = "ink", hex = "#223344" }
B = { name = "chalk", hex = "#eeeeee" }
[[section]]
name = "body"
length = "height"
stripes = ["A", "B", "B"]
work = "Row 1: Ch 1, turn. Sc in first st, *dc in next st, sc in next st; rep from * across."
[border]
stitch = "sc"
joins = true
""",
    "lace-runner": """title = "Runner"
hook = "4 mm"
[gauge]
stitches = 20
rows = 10
over = "10 cm"
[object]
kind = "panel"
width = "300 mm"
height = "700 mm"
[[section]]
name = "hem"
rows = 3
work = "Row 1: Ch 1, turn. Sc in each st across."
[[section]]
name = "lace"
length = "rest"
repeat_from = 2
work = '''
Row 1: Ch 3, turn. Dc in next st and in each st across.
Row 2: Ch 1, turn. Sc in first st, *sk 2 sts, 5 dc in next st, sk 2 sts, sc in next st; rep from * across.
Row 3: Ch 3, turn. 2 dc in first st, *sk 2 sts, sc in next st, sk 2 sts, 5 dc in next st; rep from * to last 6 sts, sk 2 sts, sc in next st, sk 2 sts, 3 dc in last st.
'''
[[section]]
name = "end"
rows = 2
work = "Row 1: Ch 1, turn. Sc in each st across."
""",
    "tablet-sleeve": """title = "Tablet sleeve"
[gauge]
stitches = 18
rows = 20
over = "10 cm"
[object]
kind = "sleeve"
width = "180 mm"
height = "245 mm"
thickness = "9 mm"
flap = "70 mm"
ease = ["1 %", "6 %"]
[[section]]
name = "front"
length = "height"
work = "Row 1: Ch 1, turn. Sc in each st across."
[[section]]
name = "back"
length = "height"
work = "Row 1: Ch 1, turn. Sc in each st across."
[[section]]
name = "flap"
length = "flap"
work = "Row 1: Ch 1, turn. Sc in each st across."
[border]
stitch = "sc"
joins = true
""",
    "open-pouch": """title = "Pencil pouch"
[gauge]
stitches = 20
rows = 21
over = "10 cm"
[object]
kind = "pouch"
width = "90 mm"
height = "190 mm"
[[section]]
name = "front"
length = "height"
work = '''
Row 1 (RS): Ch 1, turn. Sc in each st across.
Row 2 (WS): Ch 1, turn. Sc in first st, *dc in next st, sc in next st; rep from * across.
Row 3: Ch 1, turn. Sc in each st across.
'''
[[section]]
name = "back"
length = "height"
work = "Row 1: Ch 1, turn. Sc in each st across."
[border]
stitch = "sc"
rounds = 3
joins = true
""",
    "sewn-pouch": """title = "Coin pouch"
yarn = { ball = "50 g / 125 m" }
[gauge]
stitches = 22
rows = 24
over = "10 cm"
[object]
kind = "pouch"
width = "110 mm"
height = "90 mm"
flap = "40 mm"
[[section]]
name = "front"
length = "height"
work = "Row 1: Ch 1, turn. Sc in each st across."
[[section]]
name = "back"
length = "height"
work = "Row 1: Ch 1, turn. Sc in each st across."
[[section]]
name = "flap"
length = "flap"
work = "Row 1: Ch 1, turn. Sc in each st across."
""",
}


def text_of(name: str) -> str:
    """A piece for one object, with its measurements written out."""
    if name in MORE:
        return MORE[name]
    text = (ROOT / "gallery" / name / "pattern.toml").read_text("utf-8")
    text = re.sub(r"\n\[sizes\]\n.*?(?=\n\[|\Z)", "\n", text, flags=re.DOTALL)
    for own, mm in measured(text).items():
        if not re.search(rf"(?m)^{own}\s*=", text):
            text = re.sub(r"(?m)^(kind\s*=.*)$", rf'\1\n{own} = "{mm:g} mm"', text, count=1)
    text = re.sub(r"(?m)^(?:size|spine)\s*=.*\n", "", text)
    return text


def measured(text: str) -> dict[str, float]:
    """The measurements of a pattern file in mm."""
    return {name: length.mm for name, length in engrave.work_file(text, "a.toml").pattern.object.lengths.items()}


def with_given(text: str, given: Given) -> str:
    """The pattern file as the tool is given the same."""
    for name, length in given.lengths.items():
        text = re.sub(rf'^({name}\s*=\s*)".*?"', rf'\1"{length}"', text, count=1, flags=re.MULTILINE)
    text = re.sub(r"^stitches\s*=\s*[\d.]+", f"stitches = {given.stitches}", text, count=1, flags=re.MULTILINE)
    rows = f"rows = {given.rows}" if given.rows else ""
    text = re.sub(r"(?<=\n)rows\s*=\s*[\d.]+", rows, text, count=1)
    return re.sub(r'^over\s*=\s*".*?"', f'over = "{given.over}"', text, count=1, flags=re.MULTILINE)


def some(rng: random.Random, own: dict[str, float], gauge: tuple[float, float]) -> Given:
    """Measurements and a gauge as readers have them: mostly near the pattern's, some far off."""
    unit = rng.choice(["mm", "cm", "in"])
    far = rng.choice([0.12, 0.3, 0.6])

    def length(mm: float) -> str:
        mm *= rng.uniform(1 - far, 1 + far)
        if unit == "in":
            eighths = max(1, round(mm / 25.4 * 8))
            whole, left = divmod(eighths, 8)
            return " ".join([*([str(whole)] if whole else []), *([f"{left}/8"] if left else []), "in"])
        return f"{mm:.0f} mm" if unit == "mm" else f"{mm / 10:.1f} cm"

    stitches, rows = (f"{g * rng.uniform(0.8, 1.25):.3g}" for g in gauge)
    over = "4 in" if unit == "in" else "10 cm"
    return Given(unit, {name: length(mm) for name, mm in own.items()}, stitches, rows if rng.random() < 0.9 else "", over)


TYPE = """(given) => {
  const set = (id, value) => { const field = document.getElementById(id); field.value = value; };
  document.querySelector(`input[name=unit][value=${given.unit}]`).click();
  for (const name in given.lengths) set("mm-" + name, given.lengths[name]);
  set("stitches", given.stitches); set("rows-of", given.rows); set("over", given.over);
  document.getElementById("stitches").dispatchEvent(new Event("input", { bubbles: true }));
  const texts = (css) => [...document.querySelectorAll(css)].map((e) => e.textContent), plan = fitted.plan;
  return {
    problems: fitted.problems, shown: texts("#wrong p"), right: !document.getElementById("right").hidden,
    plan: plan && { foundation: plan.foundation, stitches: plan.stitches, rows: plan.rows, flap: plan.flap, flat: plan.flat,
      between: plan.between, overAll: plan.overAll, stretch: plan.stretch,
      sections: plan.sections.map((s) => [s.name, s.first, s.rows, s.length]) },
    fit: texts("#fit li"), lines: fitted.rows && rowLines(plan, fitted.rows, "US"), begins: plan && foundationLine(plan, "US"),
    rows: texts("#rows p"), yarn: [...document.querySelectorAll("#yarn tr")].map((row) => [...row.cells].map((c) => c.textContent)),
    yarnShown: !document.getElementById("yarn-box").hidden,
  };
}"""


def assert_as_the_tool(page: Any, text: str, given: Given) -> str:
    """What the page says is what the tool says; which of the two it was: "fits" or where the problem lies."""
    file = with_given(text, given)
    seen = page.evaluate(TYPE, given.__dict__)
    report = engrave.check(file, "a.toml")
    if report.problems:
        assert seen["shown"] and not seen["right"], (given, [p.says for p in report.problems])
        ours = {p.where for p in report.problems}
        assert {where for where, _ in seen["problems"]} <= ours | {"[object]"}, (given, ours, seen["problems"])
        return report.problems[0].where
    assert seen["right"] and not seen["shown"], (given, seen["shown"])
    facts, plan = report.as_json(), seen["plan"]
    fit, size = facts["fit"], facts["size"]
    assert (plan["foundation"], plan["stitches"], plan["rows"], plan["flap"]) == (
        fit["foundation"], fit["stitches"], fit["rows"], fit["flap_stitches"])  # fmt: skip
    assert [s[:3] for s in plan["sections"]] == [[s["name"], s["first_row"], s["rows"]] for s in fit["sections"]]
    assert [s[3] for s in plan["sections"]] == pytest.approx([s["length_mm"] for s in fit["sections"]], abs=NEAR["mm"])
    assert plan["flat"] == pytest.approx([size["width_mm"], size["height_mm"]], abs=NEAR["mm"])
    assert plan["between"] == pytest.approx(size["between_joins_mm"], abs=NEAR["mm"])
    assert plan["overAll"] == pytest.approx(size["over_all_mm"], abs=NEAR["mm"])
    assert plan["stretch"] == pytest.approx(size["stretch"], abs=NEAR["stretch"])
    assert [line.lower() for line in seen["fit"]] == [line.lower() for line in fit_lines(engrave.work_file(file, "a.toml").plan)]
    if seen["lines"] is not None:
        assert_rows_and_yarn(seen, file)
    return "fits" if seen["lines"] is not None else "fits, without its rows"


def assert_rows_and_yarn(seen: dict[str, Any], file: str) -> None:
    words = engrave.instructions(file, "a.toml", Setting(terms="US"))
    assert [line for _, lines in seen["lines"] for line in lines] == re.findall(r"^Rows? .*", words, re.MULTILINE)
    assert seen["begins"] in words
    table = re.findall(r"^\| (.*) \|$", engrave.yarn(file, "a.toml"), re.MULTILINE)
    assert seen["yarnShown"] and seen["yarn"] == [row.split(" | ") for row in table[1:]]


@pytest.fixture
def worked_once(monkeypatch):
    """What one reader typed is worked once for all that the tool is asked of it, however it is asked. No reader changes
    the words of a piece: these are read once for all."""
    read_once_in(monkeypatch, sections_read)
    worked = functools.lru_cache(maxsize=1)(engrave.work_file)
    monkeypatch.setattr(engrave, "work_file", lambda text, name, hand="right", size="": worked(text, name, hand, size))


@pytest.fixture(scope="session")
def fit_file(tmp_path_factory: pytest.TempPathFactory):
    """The page of a piece, and the pattern that it was made of; each made once."""
    folder, made = tmp_path_factory.mktemp("fit"), {}

    def write(name: str) -> tuple[Path, str]:
        if name not in made:
            text = text_of(name)
            made[name] = folder / f"{name}.html", text
            made[name][0].write_bytes(engrave.fit_page(text, f"{name}.toml", Setting()))
        return made[name]

    return write


def gauge_in(text: str) -> tuple[float, float]:
    gauge = engrave.work_file(text, "a.toml").pattern.gauge
    return gauge.stitches, gauge.rows or gauge.stitches


@pytest.mark.parametrize("name", (*PIECES, *MORE))
def test_many_readers_get_what_the_tool_says(name, fit_file, opened, worked_once):
    """A hundred and sixty in all, of which a good part fit and a good part do not. Those of one piece sit down to one
    page after the other."""
    file, text = fit_file(name)
    page, own, gauge = opened(file, DESK).page, measured(text), gauge_in(text)
    own.pop("spine", None)
    found = []
    for times, seed in ((2, 7), (14, 11)):
        rng = random.Random(seed)
        found = [assert_as_the_tool(page, text, some(rng, own, gauge)) for _ in range(times)]
    print(name, {each: found.count(each) for each in found})
    assert found.count("fits") >= 5


def test_as_it_opens_it_says_what_the_pattern_says(fit_file, opened):
    file, text = fit_file("field-book-cover")
    page = opened(file, PHONE).page
    plan = engrave.work_file(text, "a.toml").plan
    assert page.inner_text("#counts") == f"Chain {plan.foundation}, {plan.stitches} stitches a row, {plan.rows} rows."
    page.check("input[name=unit][value=in]")
    assert page.input_value("#mm-height") == "9 7/8" and f"Chain {plan.foundation}," in page.inner_text("#counts")
    page.check("input[name=terms][value=UK]")
    words = engrave.instructions(text, "a.toml", Setting(terms="UK"))
    assert [line for line in page.locator("#rows p").all_inner_texts() if line.startswith("Row")] == re.findall(r"^Rows? .*", words, re.MULTILINE)


def test_what_cannot_be_read_is_marked_and_nothing_is_reckoned(fit_file, opened):
    page = opened(fit_file("field-book-cover")[0]).page
    for wrong in ("", "abc", "-3", "9 1/0 in", "1e9", "<b>"):
        page.fill("#mm-height", wrong)
        assert page.get_attribute("#mm-height", "aria-invalid") == "true"
        assert page.inner_text("#wrong") and not page.is_visible("#right")
    page.fill("#mm-height", "9 7/8 in")
    assert page.is_visible("#right") and not page.inner_text("#wrong")
    page.fill("#mm-height", "2500")
    assert "height lies between" in page.inner_text("#wrong")
    page.click("#reset")
    assert page.is_visible("#right")


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_no_rule_of_access_is_broken(scheme, fit_file, opened):
    axe = pytest.importorskip("axe_playwright_python.sync_playwright", reason="axe-playwright-python is not installed")
    page = opened(fit_file("field-book-cover")[0], color_scheme=scheme).page
    found = axe.Axe().run(page, options={"runOnly": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]})
    assert [(v["id"], [n["html"][:90] for n in v["nodes"]]) for v in found.response["violations"]] == []


@pytest.mark.parametrize("width", [195, 320])
def test_nothing_scrolls_sideways_where_text_is_large(width, fit_file, opened):
    page = opened(fit_file("field-book-cover")[0], {"width": width, "height": 600}).page
    assert page.evaluate("document.documentElement.scrollWidth <= window.innerWidth")


def test_names_stay_text(opened, tmp_path):
    hostile = "</script><img src=x onerror=alert(1)>"
    text = text_of("spectacle-pouch").replace('"Lantern pouch for spectacles"', f'"{hostile}"').replace('"tar"', f'"{hostile}"')
    text = re.sub(r'name(\s*)= "front"', rf'name\1= "{hostile}"', text)
    file = tmp_path / "fit.html"
    file.write_bytes(engrave.fit_page(text, "a.toml", Setting()))
    page = opened(file).page
    assert page.inner_text("h1") == hostile and not page.locator("img").count()
    assert hostile in page.inner_text("#sections") and hostile in page.inner_text("#yarn")


def test_a_pattern_that_no_page_can_fit_says_so(tmp_path):
    own = tmp_path / "own.toml"
    own.write_text(text_of("spectacle-pouch") + '\n[[fold]]\nat = ["front", "back"]\nmoves = "front"\ndirection = "over"\n', "utf-8")
    done = CliRunner().invoke(main, ["fit-page", str(own), "-o", str(tmp_path / "fit.html")])
    assert done.exit_code == 2 and "folds or joins of its own" in done.output
    assert not (tmp_path / "fit.html").exists()
