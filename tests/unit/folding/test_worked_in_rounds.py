"""Tubes: a joined chain, rounds that fit round the thing, a chart laid open, no border and no turning."""

import re
import struct

import pytest
from click.testing import CliRunner
from hookfold.charts import engrave
from hookfold.charts.drawing.display import Group, Text
from hookfold.charts.output.drawn import piece_assembly, piece_chart
from hookfold.charts.output.start import Start, starter
from hookfold.charts.pattern.file.kinds import OBJECT_KINDS
from hookfold.charts.setting import Setting
from hookfold.cli.commands import main

COSY = """title = "Night-shift mug cosy"
terms = "US"
hook = "4 mm"
yarn = { fibre = "cotton" }
[gauge]
stitches = 20
rows = 16
over = "10 cm"
[object]
kind = "mug cosy"
around = "250 mm"
height = "75 mm"
stretch = ["2 %", "12 %"]
[[section]]
name = "cosy"
ends = "whole repeat"
length = "height"
work = \"\"\"
Rnd 1: Ch 1, *sc in next 2 sts, dc in next st; rep from * around, join with sl st.
Rnd 2: Ch 1, sc in each st around, join with sl st.
\"\"\"
"""


def words(text):
    return engrave.instructions(text, "cosy.toml", Setting())


def test_the_chain_is_the_multiple_that_stretches_round_the_mug():
    report = engrave.check(COSY, "cosy.toml")
    assert not report.problems
    # 250 mm stretched by 2 to 12 % are 223 to 245 mm: 45 to 49 stitches of 5 mm; of these 3 divides 45 and 48.
    assert report.facts["fit"]["foundation"] == report.facts["fit"]["stitches"] == 48
    # 75 mm are 12 rounds of 6.25 mm on average, whatever the stretch round it.
    assert report.facts["fit"]["rows"] == 12
    assert {row.side for row in report.fabric.rows} == {"RS"} and all(row.is_round for row in report.fabric.rows)


def test_the_words_begin_with_a_ring_and_go_round():
    said = words(COSY)
    assert "ch 48, join with sl st in first ch to form a ring" in said.lower()
    assert "Multiple of 3." in said and "Rnd 1 (RS): " in said and "Row" not in said.split("## Cosy")[1]
    assert "Block it to 240 mm round and 75 mm high." in said
    stated = [int(n) for n in re.findall(r"\((\d+) sts\)", said)]
    assert stated and set(stated) <= {48}


def test_the_words_read_back_alike():
    part = words(COSY).split("## Foundation")[1].split("After Rnd")[0]
    again = engrave.check("Terms: US\n" + part.replace("## Cosy", ""), "back.txt")
    assert not again.problems and {row.row.made for row in again.fabric.rows} == {48}


def test_every_sheet_is_drawn():
    chart = engrave.chart(COSY, "cosy.toml", Setting())["svg"].decode()
    assert "ch 48" in chart or "ch-48" in chart or "svg" in chart
    assert b"round and 75 mm high" in engrave.assembly(COSY, "cosy.toml", Setting())["svg"]
    assert engrave.template(COSY, "cosy.toml", Setting()).startswith(b"%PDF")


def test_rows_in_a_tube_and_rounds_in_a_panel_are_refused():
    rows = COSY.replace("Rnd", "Row")
    assert any("worked in rounds, not in rows" in p.says for p in engrave.check(rows, "cosy.toml").problems)


def test_a_border_has_no_place_on_a_tube():
    (found,) = engrave.check(COSY + '[border]\nstitch = "sc"\n', "cosy.toml").problems
    assert found.where == "[border]" and "last rows of the work" in found.remedy


@pytest.mark.parametrize("fibre", ["acrylic", "wool blend", "polyester"])
def test_what_is_for_hot_things_melts_not(fibre):
    (found,) = engrave.check(COSY.replace("cotton", fibre), "cosy.toml").problems
    assert "melts" in found.says and "cotton" in found.remedy
    panel = COSY.replace("cotton", fibre).replace('"mug cosy"', '"wrist warmer"')
    assert not engrave.check(panel, "cosy.toml").problems


def test_what_a_ball_holds_is_no_fibre():
    (found,) = engrave.check(COSY.replace("cotton", "100 g / 300 m"), "cosy.toml").problems
    assert found.where == "[yarn]" and 'ball = "100 g / 300 m"' in found.remedy


@pytest.mark.parametrize(("height", "longer"), [("20.4 cm", True), ("21.1 cm", False)])
def test_a_hat_that_is_rather_too_long_says_so(height, longer):
    hat = """title = "Cap"
terms = "US"
[gauge]
stitches = 16
rows = 9
over = "10 cm"
[object]
kind = "hat"
around = "50.3 cm"
height = "%s"
chain_along = "around"
stretch = ["5 %%", "9 %%"]
[[section]]
name = "crown"
length = "crown"
work = "Rnd 1: Ch 2, dc in each st around, join with sl st."
[[section]]
name = "sides"
length = "rest"
work = "Rnd 1: Ch 2 (does not count as a st), dc in each st around, join with sl st."
"""
    report = engrave.check(hat % height, "cap.toml")
    assert not report.problems
    said = [note.says for note in report.notes if "rather too long than too short" in note.says]
    total, wanted = 9 * float(height.split()[0]) / 10.0, 19
    assert bool(said) is longer is (wanted - total > 0.5)


@pytest.mark.parametrize("kind", sorted(k for k, v in OBJECT_KINDS.items() if v.rounds))
@pytest.mark.parametrize("stitch", ["close", "medium", "tall", "ridges"])
def test_start_writes_rounds_that_hold(kind, stitch):
    measures = {m.name: m.offers for m in OBJECT_KINDS[kind].measures}
    for terms in ("US", "UK"):
        text = starter(Start(kind, "Tube", measures, 16, 12, terms=terms, stitch=stitch))
        assert not engrave.check(text, "tube.toml").problems, text


def test_a_tube_is_pictured_laid_open_as_wide_as_it_is_round():
    made = engrave.fabric_picture(COSY, "cosy.toml", Setting(), ("flat", "right", 320, "png"))
    wide, high = struct.unpack(">II", made[16:24])
    # 240 mm round and 75 mm high, with a margin on all sides.
    assert 2.2 < wide / high < 3.3


def texts(items):
    for item in items:
        if isinstance(item, Text):
            yield item.text
        elif isinstance(item, Group):
            yield from texts(item.items)


def test_the_chart_of_a_tube_speaks_of_rounds():
    sheet = piece_chart(engrave.work_file(COSY, "cosy.toml"), Setting()).whole
    spoken = " ".join([sheet.desc, *texts(sheet.items)])
    assert "laid open where it begins" in spoken and "the round makes" in spoken
    assert "right-side rounds" in spoken and not re.search(r"\brows? \d|side rows|a row\b", spoken)
    assert re.search(r"\brounds \d", spoken), "the bracket beside the repeat"
    key = " ".join(texts(piece_assembly(engrave.work_file(COSY, "cosy.toml"), Setting()).sheets[0].items))
    assert "round 1 begins" in key and " row 1" not in key and "rows as" not in key


def test_a_tube_is_worked_smaller_than_the_mug_and_says_why():
    counts, line, upright = engrave.check(COSY, "cosy.toml").says[:3]
    assert counts == "chain 48, 48 stitches a round; cosy 12 rounds"
    assert line == "around: as worked 240 mm for 250 mm: stretches 4.2 %, worked so much smaller that it holds on"
    assert upright == "height: as worked 75 mm for 75 mm: as wanted"


def test_stripes_never_make_a_tube_lower_than_asked():
    # A row repeat that ends as it began is worth one round at most; the range of stretch is round the tube only.
    for rows in (12, 14, 17, 20):
        measures = {"around": "250 mm", "height": "80 mm"}
        text = starter(Start("mug cosy", "Tube", measures, 17, rows, colours=("ash", "bone")))
        high = engrave.check(text, "tube.toml").facts["size"]["between_joins_mm"]["height"]
        assert abs(high - 80) <= 100 / rows + 0.1, (rows, high)


def test_in_rounds_every_yarn_waits_at_the_join():
    text = COSY + 'stripes = ["A", "B"]\n' + '[colours]\nA = { name = "ash", hex = "#888888" }\nB = { name = "bone", hex = "#eeeeee" }\n'
    assert not engrave.check(text, "cosy.toml").problems
    # Each colour is joined once and carried up at the join: two ends each; in rows every stripe would be cut.
    assert all(line.split("|")[5].strip() == "2" for line in engrave.yarn(text, "cosy.toml").splitlines() if line[:4] in ("| A ", "| B "))


def test_start_refuses_what_melts_at_the_question_and_asks_for_print_only_on_yes(tmp_path):
    file = tmp_path / "mug.toml"
    typed = "mug cosy\nn\n25 cm\n8 cm\n\nclose\n17\n14\n\n\nacrylic\nwool\n\n\n\n\ny\nIda\n\nodd\neasy\ntwo beads\n\n\n\n"
    ran = CliRunner().invoke(main, ["start", str(file)], input=typed)
    assert ran.exit_code == 0, ran.output
    assert "acrylic melts" in ran.output and '"odd" is not one of' in ran.output
    text = file.read_text("utf-8")
    assert 'author = "Ida"' in text and 'difficulty = "easy"' in text and 'notions = "two beads"' in text
    assert "# notes" in text and not engrave.check(text, "mug.toml").problems
