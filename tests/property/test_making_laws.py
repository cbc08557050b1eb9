"""What holds of every piece that is made: more rows never need less yarn, sizes come in order, units change no count."""

from conftest import some
from hookfold.charts import engrave
from hookfold.charts.output.said import yarn_of_piece
from hookfold.charts.output.size_words import pieces_of_sizes
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

STITCHES = ("Sc in each st across.", "Hdc in each st across.", "Dc in each st across.")
TURNS = {"Sc": "Ch 1, turn. ", "Hdc": "Ch 2, turn. ", "Dc": "Ch 3, turn. "}


def panel(rows, stripes, kind="Sc", weighed=True, border=True):
    """A small panel of so many rows; its colours in turn."""
    stitch = next(words for words in STITCHES if words.startswith(kind))
    swatch = 'swatch_weight = "10 g", ' if weighed else ""
    edge = '[border]\nstitch = "sc"\ncolour = "A"\n' if border else ""
    return f"""
title = "Pier flag"
terms = "US"
yarn = {{ {swatch}ball = "50 g / 120 m" }}
[gauge]
stitches = 16
rows = 18
over = "10 cm"
[object]
kind = "panel"
width = "60 mm"
height = "200 mm"
[colours]
A = {{ name = "tar", hex = "#2f3b45" }}
B = {{ name = "buoy", hex = "#c8553d" }}
[[section]]
name = "flag"
rows = {rows}
stripes = {stripes}
work = "Row 1: {TURNS[kind]}{stitch}"
{edge}"""


def needs(text):
    return {need.letter: need for need in yarn_of_piece(engrave.work_file(text, "flag.toml")).needs}


@given(
    st.integers(1, 30), st.integers(1, 12), st.lists(st.sampled_from("AB"), min_size=1, max_size=5),
    st.sampled_from(tuple(TURNS)), st.booleans(), st.booleans(),
)  # fmt: skip
@settings(max_examples=some(60), phases=(Phase.explicit, Phase.generate))
def test_more_rows_never_need_less_yarn_nor_have_fewer_ends(rows, more, stripes, kind, weighed, border):
    listed = str(list(stripes)).replace("'", '"')
    few, many = (needs(panel(n, listed, kind, weighed, border)) for n in (rows, rows + more))
    for letter, need in few.items():
        assert many[letter].ends >= need.ends
        assert many[letter].metres >= need.metres - 1e-9
        assert (many[letter].grams or 0.0) >= (need.grams or 0.0) - 1e-9
        assert (many[letter].balls or 0) >= (need.balls or 0)


COVER = """
title = "Ferry log cover"
terms = "US"
[gauge]
stitches = 17
rows = 20
over = "10 cm"
[object]
kind = "book"
height = "{height}"
wrap = "{wrap}"
flap = "{flap}"
chain_along = "height"
stretch = ["-6 %", "12 %"]
[[section]]
name = "front flap"
length = "flap"
work = "Row 1: Ch 1, turn. Sc in each st across."
[[section]]
name = "body"
length = "wrap"
work = \"\"\"
Row 1: Ch 1, turn. Sc in each st across.
Row 2: Ch 1, turn. *Sc in next st, dc in next st; rep from * across.
\"\"\"
[[section]]
name = "back flap"
length = "flap"
work = "Row 1: Ch 1, turn. Sc in each st across."
[border]
stitch = "sc"
joins = true
"""


def counts(text):
    """Every count of a piece: chains, stitches, rows by section, the border's stretches."""
    piece = engrave.work_file(text, "log.toml")
    plan = piece.plan
    return plan.foundation, plan.stitches, [s.rows for s in plan.sections], [s.count for s in piece.border.stretches]


@given(st.integers(500, 1100), st.integers(900, 1700), st.integers(180, 300))
@settings(max_examples=some(24), phases=(Phase.explicit, Phase.generate))
def test_a_change_of_unit_changes_no_count(height, wrap, flap):
    """Lengths in hundredths of an inch, so that each unit says them exactly."""
    lengths = {"height": height, "wrap": wrap, "flap": flap}
    inches = COVER.format(**{name: f"{n / 100:.2f} in" for name, n in lengths.items()})
    mm = COVER.format(**{name: f"{n * 0.254:.3f} mm" for name, n in lengths.items()})
    cm = COVER.format(**{name: f"{n * 0.0254:.4f} cm" for name, n in lengths.items()})
    assert counts(mm) == counts(cm) == counts(inches)


@given(st.integers(120, 200), st.integers(220, 300), st.lists(st.tuples(st.integers(0, 60), st.integers(0, 80)), min_size=1, max_size=3))
@settings(max_examples=some(24), phases=(Phase.explicit, Phase.generate))
def test_sizes_come_smallest_first_and_no_larger_one_has_fewer_stitches_or_rows(height, wrap, steps):
    sizes, tall, wide = [(height, wrap)], height, wrap
    for up, along in steps:
        tall, wide = tall + up, wide + along
        sizes.append((tall, wide))
    told = "\n".join(f's{n} = {{ height = "{h} mm", wrap = "{w} mm" }}' for n, (h, w) in reversed(list(enumerate(sizes))))
    text = COVER.format(height="150 mm", wrap="230 mm", flap="55 mm") + f"[sizes]\n{told}\n"
    made = pieces_of_sizes(engrave.work_file(text, "log.toml"), "right")
    plans = [piece.plan for piece in made.values()]
    areas = [plan.finished_mm["across"] * plan.finished_mm["up"] for plan in plans]
    assert areas == sorted(areas)
    named = [made[f"s{n}"].plan for n in range(len(sizes))]
    assert [plan.stitches for plan in named] == sorted(plan.stitches for plan in named)
    assert [plan.rows for plan in named] == sorted(plan.rows for plan in named)
