"""Impossible foldings: each is refused with its numbers and a remedy, and nothing is drawn of it."""

import dataclasses
import tomllib
from pathlib import Path

import folding_plans as plans
import pytest
from hookfold.charts.errors import PatternError
from hookfold.charts.folding.folds import folding_of
from hookfold.charts.layout.assembly.sheets import assembly_document
from hookfold.charts.layout.assembly.template import template_document
from hookfold.charts.pattern.file.records import Fold, Join
from hookfold.charts.setting import Heading, Setting

CASES = tomllib.loads(Path(__file__).with_name("foldings.toml").read_text("utf-8"))


def plan_for(case):
    plan = plans.ALL[case["plan"]]()
    if "sections" in case:
        rows = [(name, [kind] * count, height) for name, kind, count, height in case["sections"]]
        plan = plans.plan_of(plan.kind, rows, plan.stitches, plan.stitch_mm, plan.object_mm, plan.chain_along)
    kept = {k: v for k, v in plan.object_mm.items() if k != case.get("without")}
    return dataclasses.replace(plan, object_mm=kept)


def folds_of(case):
    return tuple(Fold(**(f | {"at": tuple(f["at"])})) for f in case.get("folds", ()))


@pytest.mark.parametrize("name", sorted(CASES))
def test_it_is_refused_and_said_why(name):
    case = CASES[name]
    with pytest.raises(PatternError) as found:
        folding_of(
            plan_for(case), folds=folds_of(case), joins=tuple(Join(**j) for j in case.get("joins", ()))
        )
    problems = found.value.problems
    assert len(problems) == case.get("count", 1)
    assert {p.kind for p in problems} == {"fold"}
    assert case["says"] in problems[-1].says
    assert case["remedy"] in problems[-1].remedy
    assert "Traceback" not in problems[-1].report()


@pytest.mark.parametrize("name", sorted(n for n, c in CASES.items() if not {"folds", "joins"} & set(c)))
def test_nothing_is_drawn_of_it(name):
    plan = plan_for(CASES[name])
    with pytest.raises(PatternError):
        assembly_document(plan, Heading("Cover"), Setting())
    with pytest.raises(PatternError):
        template_document(plan, Heading("Cover"))


def test_every_fault_of_a_pattern_is_reported_at_once():
    wrong = (Fold(("front", "lid"), "front"), Fold(("front", "back"), "lid"))
    with pytest.raises(PatternError) as found:
        folding_of(plans.pouch(), folds=wrong)
    assert [p.where for p in found.value.problems] == ["Fold 1", "Fold 2"]
