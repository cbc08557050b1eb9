"""Sizing against brute force: every allowed count is tried, and the chosen one is the best of them."""

from itertools import product

import pytest
from conftest import some
from hookfold.charts.errors import PatternError
from hookfold.charts.model.sizing.across import common_multiple
from hookfold.charts.model.sizing.request import BorderRequest, SectionRequest, SectionText, SizingRequest
from hookfold.charts.model.sizing.size import size
from hypothesis import Phase, assume, given, settings
from hypothesis import strategies as st

REL = {"sc": 0.9, "hdc": 1.3, "dc": 2.0}


@st.composite
def body_texts(draw):
    """A row repeat of one to six rows, raised rows only where every repeat can have them on the same side."""
    rows = draw(st.integers(1, 6))
    kinds = tuple(draw(st.sampled_from(sorted(REL))) for _ in range(rows))
    parity = draw(st.integers(0, 1))
    raised = tuple(rows % 2 == 0 and i % 2 == parity and draw(st.booleans()) for i in range(rows))
    return SectionText(kinds, raised)


@st.composite
def requests(draw):
    along = draw(st.sampled_from(("height", "wrap")))
    object_mm = {
        "height": draw(st.integers(100, 400)),
        "wrap": draw(st.integers(150, 600)),
        "flap": draw(st.integers(40, 70)),
    }
    body = draw(body_texts())
    flap = SectionText((draw(st.sampled_from(sorted(REL))),))
    border = draw(st.none() | st.builds(BorderRequest, st.just(6.0), st.floats(3, 9), st.integers(1, 2)))
    body_mm = object_mm["wrap"] if along == "height" else object_mm["height"]
    main = SectionRequest("body", body, wanted_mm=body_mm, as_began=draw(st.booleans()))
    part = SectionRequest("flap", flap, wanted_mm=object_mm["flap"], role="part", twin="flap")
    sections = (part, main, part) if along == "height" else (main,)
    of = draw(st.integers(1, 12))
    low = draw(st.integers(-3, 3)) / 100
    stretch = draw(st.none() | st.just((low, low + draw(st.integers(0, 8)) / 100)))
    return SizingRequest(
        "book", along, object_mm, draw(st.floats(3, 9)), draw(st.floats(4, 14)), body.row_kinds, sections,
        of, draw(st.integers(0, of - 1)), draw(st.integers(0, 3)), border=border, stretch=stretch,
    )  # fmt: skip


def row_mm(request, kind):
    """The height of a row, worked out anew."""
    return request.row_mm * REL[kind] * len(request.gauge_kinds) / sum(REL[k] for k in request.gauge_kinds)


def length(request, section, rows):
    kinds = section.text.row_kinds
    return sum(row_mm(request, kinds[i % len(kinds)]) for i in range(rows))


def outside(stretch, allowed):
    if allowed is None or allowed[0] - 5e-4 <= stretch <= allowed[1] + 5e-4:
        return 0.0
    return max(allowed[0] - stretch, stretch - allowed[1])


def stretch_across(request, stitches):
    """The least-outside stretch of a count of stitches, its flaps chosen as near to their depth as helps."""
    width = request.stitch_mm
    if request.chain_along == "height":
        return request.object_mm["height"] / (stitches * width) - 1
    nearest = int(request.object_mm["flap"] / width + 0.5)
    flaps = [f for f in (nearest, nearest - 1, nearest + 1, nearest - 2, nearest + 2) if 0 < 2 * f < stitches]
    tries = [request.object_mm["wrap"] / ((stitches - 2 * f) * width) - 1 for f in flaps]
    return min(tries, key=lambda s: outside(s, request.stretch), default=float("inf"))


@given(requests())
@settings(max_examples=some(150), phases=(Phase.explicit, Phase.generate))
def test_stitches_divide_and_are_the_nearest(request_):
    across = "height" if request_.chain_along == "height" else "wrap"
    wanted = request_.object_mm[across] + (0 if across == "height" else 2 * request_.object_mm["flap"])
    counts = [request_.multiple_plus + request_.multiple_of * k for k in range(400)]
    counts = [n for n in counts if n >= max(1, request_.least)]
    best = min(
        (outside(stretch_across(request_, n), request_.stretch) > 0, abs(n * request_.stitch_mm - wanted))
        for n in counts
    )
    plan = planned(request_)
    if plan is None:
        return
    got = outside(stretch_across(request_, plan.stitches), request_.stretch) > 0
    assert (plan.stitches - request_.multiple_plus) % request_.multiple_of == 0
    assert plan.foundation == plan.stitches + request_.chain_plus
    assert got is False and best[0] is False
    assert abs(plan.stitches * request_.stitch_mm - wanted) == pytest.approx(best[1], abs=1e-6)


def planned(request_):
    try:
        return size(request_)
    except PatternError as found:
        assert {p.kind for p in found.problems} == {"fit"}
        assert all(p.says and p.remedy for p in found.problems)
        return None


def raised_rows_hold(section, rows, first):
    """Whether each raised row is an even row of the piece (row 1 is a right-side row)."""
    raised = section.text.raised
    return all((first + i) % 2 == 0 for i in range(rows) if raised[i % len(raised)])


@given(requests())
@settings(max_examples=some(60), phases=(Phase.explicit, Phase.generate))
def test_rows_are_the_best_that_whole_repeats_allow(request_):
    plan = planned(request_)
    assume(plan is not None)
    main = next(s for s in request_.sections if s.name == "body")
    m, ends = len(main.text.row_kinds), (0, 1) if main.as_began and len(main.text.row_kinds) > 1 else (0,)
    span_mm = main.wanted_mm
    fit = request_.object_mm["wrap" if request_.chain_along == "height" else "height"]
    bodies = [m * k + e for k in range(1, 300 // m + 2) for e in ends]
    flaps = range(1, 40) if len(request_.sections) == 3 else [0]
    flap = request_.sections[0]

    body_mm = {n: length(request_, main, n) for n in {*bodies, *(s.rows for s in plan.sections)}}
    flap_mm = {n: length(request_, flap, n) for n in {*flaps, plan.sections[0].rows}}

    def cost(flap_rows, rows):
        mm = body_mm[rows]
        missed = outside(fit / mm - 1, request_.stretch) > 0
        leeway = max(length(request_, main, m) / m, 0.02 * span_mm)
        near_enough = request_.stretch is not None or abs(mm - span_mm) <= leeway
        other = main.as_began and m > 1 and not (rows % m == 1 and near_enough)
        beside = 2 * abs(flap_mm[flap_rows] - flap.wanted_mm) if flap_rows else 0.0
        return missed, other, round(abs(mm - span_mm) + beside, 5)

    near = sorted(bodies, key=lambda n: abs(body_mm[n] - span_mm))[:60]
    best = min(cost(f, n) for f, n in product(flaps, near) if raised_rows_hold(main, n, f + 1))
    index = 1 if len(plan.sections) == 3 else 0
    got = cost(plan.sections[0].rows if index else 0, plan.sections[index].rows)
    assert got == pytest.approx(best, abs=1e-4)
    assert raised_rows_hold(main, plan.sections[index].rows, plan.sections[index].first_row)


@given(st.lists(st.tuples(st.integers(1, 12), st.integers(0, 11)), min_size=1, max_size=4))
def test_common_multiple_is_every_count_that_all_allow(pairs):
    texts = tuple(SectionText(("sc",), multiple_of=of, multiple_plus=plus % of) for of, plus in pairs)
    met = common_multiple(texts)
    allowed = {n for n in range(1, 3000) if all((n - plus % of) % of == 0 for of, plus in pairs)}
    mine = set() if met is None else {n for n in range(1, 3000) if (n - met[1]) % met[0] == 0}
    assert mine == allowed
