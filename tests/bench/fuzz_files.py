"""Pattern files made by chance: started ones of every kind with other rows, colours, stripes and edges."""

from __future__ import annotations

import random

from fuzz_texts import Draft
from hookfold.charts.measure import parse_length, show_length
from hookfold.charts.output.start import STITCHES, Start, starter
from hookfold.charts.pattern.file.kinds import OBJECT_KINDS, may_lack

NAMES = ("moss", "oat", "dusk", "brick", "sea", "plum", "<b>ash</b>", "a|b", "crème", "雪")


def valid_file(rng: random.Random, *, small: bool = False) -> str:
    """A started pattern file, its rows or colours changed for others that fit; `small`: of few stitches."""
    kind = rng.choice(sorted(OBJECT_KINDS))
    measures: dict[str, str] = {}
    for rule in OBJECT_KINDS[kind].measures:
        if rule.asked and (not may_lack(kind, rule.name) or rng.random() < 0.8):
            scale = rng.uniform(0.2, 0.5) if small else rng.uniform(0.6, 1.4)
            unit = "mm" if small else rng.choice(("mm", "cm", "in"))
            mm = min(max(parse_length(rule.offers).mm * scale, rule.least.mm), rule.most.mm)
            measures[rule.name] = rule.offers if rng.random() < 0.3 and not small else show_length(round(mm), unit)
    start = Start(
        kind=kind, title=rng.choice(("Marsh cover", "Thé & <i>tisane</i>", "Ox-eye 'n' all")), measures=measures,
        stitches=rng.randint(8, 12) if small else rng.randint(12, 30), rows=rng.randint(5, 9) if small else rng.randint(8, 26), over="10 cm", hook=rng.choice(("4 mm", "3.5 mm", "4 mm (G-6)")),
        terms=rng.choice(("US", "US", "UK")), stitch=rng.choice(sorted(STITCHES)), fibre=rng.choice(("", "cotton", "wool")),
        ball=rng.choice(("", "50 g / 115 m")), colours=tuple(rng.sample(NAMES, rng.randint(0, 4))),
        fitted=rng.random() < (0.1 if small else 0.5),
    )  # fmt: skip
    text = starter(start)
    others = _other_rows(rng, text, start.terms, rounds=OBJECT_KINDS[kind].rounds)
    # Rows over a multiple fit the measures only now and then, and a crown is grown from a row of one stitch.
    return others if rng.random() < 0.5 and "grows this round" not in text else text


def _other_rows(rng: random.Random, text: str, terms: str, *, rounds: bool) -> str:
    """The rows of every section changed for others over any number of stitches."""
    out = []
    inside = False
    for line in text.split("\n"):
        if inside:
            inside = '"""' not in line
            continue
        if line.startswith("work"):
            inside = line.count('"""') == 1
            out.append(f'work = """\n{_work(rng, terms, rounds=rounds)}\n"""')
        else:
            out.append(line)
    return "\n".join(out)


def _work(rng: random.Random, terms: str, *, rounds: bool) -> str:
    """One row or some that go over any number of stitches, or over a multiple that they tell."""
    draft = Draft(rng, terms=terms)
    lines = []
    for number in range(1, rng.choice((2, 3, 3, 5))):
        draft.made = 24
        words = rng.choice((_any, _any, _bobbled, _shelled, _crossed))(draft)
        around = f"Ch 1, {words[0].lower()}{words[1:]}, join with sl st".replace("across", "around")
        lines.append(f"Rnd {number}: {around}." if rounds else f"Row {number}: Ch 1, turn. {words}.")
    return "\n".join(lines)


def _any(d: Draft) -> str:
    return f"{d.stitch().capitalize()} in each st across"


def _bobbled(d: Draft) -> str:
    low, apart = d.said("sc"), d.rng.randint(1, 4)
    knob = d.rng.choice(("bobble", "puff st", f"{d.said('dc')}4tog"))
    return f"{low.capitalize()} in first st, *{knob} in next st, {low} in next {apart} sts; rep from * across"


def _shelled(d: Draft) -> str:
    low, tall = d.said("sc"), d.said("dc")
    return f"{low.capitalize()} in first st, *sk 2 sts, 5 {tall} in next st, sk 2 sts, {low} in next st; rep from * across"


def _crossed(d: Draft) -> str:
    tall = d.said("dc")
    return f"*Sk next st, {tall} in next st, {tall} in skipped st; rep from * across"

