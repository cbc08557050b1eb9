"""The finishing in words: folding, joining and the border, with the same counts as the diagram."""

from __future__ import annotations

import re
from collections.abc import Sequence

from hookfold.symbols.dictionary import heights

from ..made_late import dataclass
from ..measure import round_half_up, show_length
from ..model.sizing.plan import Plan
from ..model.sizing.shape import sewn_handles
from ..pattern.file.kinds import OBJECT_KINDS, passes_mm
from .border import BorderPlan
from .edges import EdgeRun
from .folds import Folding, folding_of
from .joins import Join, groups_met, joins_of
from .said.border_words import border_steps


@dataclass(frozen=True, slots=True)
class FinishingStep:
    """One step from the last row to the finished piece: its sentences, and what is told line by line under them.

    `drawn` names the drawing that shows it ("flat", "fold 0", "joins", "border", "object"; "" for none), so that the
    drawing bears the step's number.
    """

    drawn: str
    says: str
    lines: tuple[str, ...] = ()


def finishing_of(
    plan: Plan, border: BorderPlan | None, *, terms: str = "US", folding: Folding | None = None
) -> tuple[FinishingStep, ...]:
    """The steps in their order, in US or UK terms; the words and the drawings are numbered by them.

    `border` None leaves the border out (the layers are then sewn together). The counts are those of `border`
    itself.
    """
    folding = folding or folding_of(plan)
    first = border is not None and border_first(folding, border)
    begin = [*opened_sentences(plan), "Fasten off and weave in the ends.", block_sentence(plan, border)]
    edge = [] if border is None else [_border_step(border)]
    if folding.stages and not first:
        begin.append(lay_sentence(folding))
    steps = [FinishingStep("flat", " ".join(begin)), *(edge if first else ())]
    if folding.stages:
        laid = f"{lay_sentence(folding)} " if first else ""
        steps += [FinishingStep(f"fold {k}", (laid if not k else "") + fold_sentence(folding, k))
                  for k in range(folding.joined)]  # fmt: skip
        steps += _join_steps(folding, border)
    steps += [] if first else edge
    turned = "" if first or border is None else turn_sentence(folding)
    for k in range(folding.joined, len(folding.stages)):
        steps.append(FinishingStep(f"fold {k}", (turned if k == folding.joined else "") + fold_sentence(folding, k)))
    handles = OBJECT_KINDS[plan.kind].handles if plan.kind in OBJECT_KINDS else None
    held = handles is not None and plan.object_mm.get(handles.measure, 0.0) > 0
    said_after = after_sentences(plan, border.colour if border else "")
    steps += [FinishingStep("handles" if held and not k else "", said) for k, said in enumerate(said_after)]
    if OBJECT_KINDS[folding.kind.name].goes_in:
        steps.append(FinishingStep("object", goes_in_sentence(folding)))
    steps += [FinishingStep("", said) for said in last_sentences(plan, border)]
    return tuple(
        FinishingStep(step.drawn, in_terms(step.says, terms), tuple(in_terms(line, terms) for line in step.lines))
        for step in steps
    )


def finishing_steps(
    plan: Plan, border: BorderPlan | None, *, terms: str = "US", folding: Folding | None = None
) -> tuple[str, ...]:
    """The same steps as plain sentence groups, one line after the other."""
    steps = finishing_of(plan, border, terms=terms, folding=folding)
    return tuple(said for step in steps for said in (step.says, *step.lines))


def finishing_texts(
    plan: Plan, border: BorderPlan | None, *, terms: str = "US", folding: Folding | None = None
) -> tuple[str, ...]:
    """The same steps as one text each, the lines of a step below its sentences."""
    return tuple(
        "\n".join((step.says, *step.lines)) for step in finishing_of(plan, border, terms=terms, folding=folding)
    )


def _border_step(border: BorderPlan) -> FinishingStep:
    begin, *lines = border_steps(border)
    return FinishingStep("border", begin, (*lines, "Fasten off and weave in the last ends."))


def _join_steps(folding: Folding, border: BorderPlan | None) -> list[FinishingStep]:
    """The edges laid together and held, each join under its letter; nothing where none are."""
    joins = joins_of(folding)
    if not joins:
        return []
    lettered = tuple(f"{join_letter(k)}: {join_sentence(join)}" for k, join in enumerate(joins))
    return [FinishingStep("joins", hold_sentence(folding, border), lettered)]


def join_letter(index: int) -> str:
    """A, B, C ... for the joins in order."""
    return "ABCDEFGHJKLMNPQRSTUVWXYZ"[index % 24]


def turn_sentence(folding: Folding) -> str:
    """That the piece is turned over after its border, where it was folded from the inside; "" where it lies so."""
    if folding.lies_outside_up or folding.joined >= len(folding.stages):
        return ""
    over = folding.stages[folding.joined - 1].spec.moves if folding.joined else ""
    return f"Turn the piece over, the {over} facing you. " if over else ""


def after_sentences(plan: Plan, colour: str = "") -> list[str]:
    """What the kind of piece wants done at the end, with its measurements; what names one not given is left out.

    What is worked apart is worked in `colour`, else in the colour that the piece begins with; "" for the only yarn.
    """
    shown: dict[str, object] = {name: show_length(mm, plan.unit) for name, mm in plan.object_mm.items()}
    sewn, handles = sewn_handles(plan), OBJECT_KINDS[plan.kind].handles if plan.kind in OBJECT_KINDS else None
    yarn = colour or next((letter for s in plan.sections for letter in s.colours), "")
    if sewn is not None and handles is not None:
        shown |= {"handle_yarn": f"with {yarn}, " if yarn else "",
                  "handle_width": show_length(handles.width_mm, plan.unit), "handle_chain": sewn.stitches + 1,
                  "handle_stitches": sewn.stitches, "handle_rows": sewn.rows}  # fmt: skip
    said = OBJECT_KINDS[plan.kind].after if plan.kind in OBJECT_KINDS else ()
    return [s.format(**shown) for s in said if set(re.findall(r"\{(\w+)\}", s)) <= set(shown)]


def opened_sentences(plan: Plan) -> list[str]:
    """That the last round is tried before it is fastened off, of a tube that has to go over more than it sits on."""
    kind = OBJECT_KINDS.get(plan.kind)
    if kind is None or kind.passes is None:
        return []
    large = show_length(passes_mm(plan.kind, plan.object_mm), plan.unit)
    opened = f"Before you fasten off, pull the last round open: it has to reach {large} round, to go over "
    return [f"{opened}{kind.passes.over}; where it does not, work it again more loosely. Leave the end long and loose."]


def last_sentences(plan: Plan, border: BorderPlan | None = None) -> list[str]:
    """How the piece is closed when the thing is in it (a loop in the yarn of the border), and how many are made."""
    kind = OBJECT_KINDS.get(plan.kind)
    if kind is None:
        return []
    closing, said = kind.closing, []
    if closing is not None and closing.of(plan.object_mm):
        chain = max(4, round_half_up(2 * closing.button_mm / plan.stitch_mm))
        button = show_length(closing.button_mm, "in" if plan.unit == "in" else "mm")
        yarn = (border.colour if border is not None else "") or "the yarn"
        said.append(closing.says.format(button=button, loop_chain=chain, yarn=yarn))
    if kind.make > 1:
        more = {2: "a second one"}.get(kind.make, f"{kind.make - 1} more")
        said.append(f"Make {more} in the same way; {NUMBERS.get(kind.make, kind.make)} are needed.")
    return said


#: Small numbers in words.
NUMBERS = {2: "two", 3: "three", 4: "four"}


def goes_in_sentence(folding: Folding) -> str:
    """How the object goes into the finished piece; "" where nothing does."""
    kind = OBJECT_KINDS[folding.kind.name]
    closes = len(folding.stages) > folding.joined
    return kind.goes_in_says if closes or not kind.goes_in_open else kind.goes_in_open


def block_sentence(plan: Plan, border: BorderPlan | None) -> str:
    """The size to block to: the piece before its border, which is worked into the blocked edge."""
    if OBJECT_KINDS[plan.kind].rounds:
        around, high = (show_length(mm, plan.unit) for mm in plan.finished_mm.values())
        return f"Block it to {around} round and {high} {height_words(plan)}."
    size = " x ".join(show_length(mm, plan.unit) for mm in plan.finished_mm.values())
    aside = ", the size before the border" if border is not None else ""
    return f"Block the piece flat to {size}{aside}."


def height_words(plan: Plan) -> str:
    """How the height of what is worked in rounds is measured: a hat's over its curve."""
    return "from the crown's middle to the brim, over the curve" if OBJECT_KINDS[plan.kind].crown else "high"


def border_first(folding: Folding, border: BorderPlan) -> bool:
    """Whether the border is worked round the flat piece before it is folded: where it joins nothing."""
    return bool(folding.stages) and not border.joins


def hold_sentence(folding: Folding, border: BorderPlan | None) -> str:
    """How the edges are laid and held together, and sewn where the border does not join them."""
    uneven = any(len({run.count for run in join.runs}) > 1 for join in joins_of(folding))
    how = "so that their ends meet, the rows between spread evenly," if uneven else "row for row"
    lay = f"Lay the lettered edges together {how} and hold them with a stitch marker at both ends of each"
    if border is not None and border.joins:
        return f"{lay}."
    inside = ", just inside the border" if border is not None else ""
    return f"{lay}; then sew them through both layers{inside}."


def lay_sentence(folding: Folding) -> str:
    """How the piece is laid out before the first fold."""
    side = "wrong side" if folding.start.facets[0].side_up == "WS" else "right side"
    where = {"left": "at the left", "right": "at the right", "near": "towards you", "far": "away from you"}
    return f"Lay the piece flat, {side} up, with the foundation {where[folding.foundation_lies]}."


def fold_sentence(folding: Folding, index: int) -> str:
    """What a fold's panel says: the fold, and how deep it lies."""
    spec = folding.stages[index].spec
    part = next((p for p in folding.piece.parts if p.name == spec.moves), None)
    if part is None:
        return spec.says
    counted = f"{part.count} {folding.piece.axis if part.count != 1 else folding.piece.axis[:-1]}"
    return f"{spec.says.rstrip('.')} ({counted}, {show_length(part.length_mm, folding.piece.unit)})."


def join_sentence(join: Join) -> str:
    """Which numbers lie on which, row for row."""
    over, under = join.runs[-1], join.runs[0]
    where = {1: "", 2: " at both edges"}.get(join.places, f" in {join.places} places")
    if len(join.runs) > 2:
        said = ", ".join(run_words(r) for r in join.runs[:-1])
        return f"{len(join.runs)} layers: {said} and {run_words(over)} lie together{where}."
    return _capital(f"{run_words(over)} lie on {run_words(under)}{where}{meeting_words(join)}.")


def meeting_words(join: Join) -> str:
    """Which numbers meet, by length: the first and the last, and where the counts differ one in between."""
    over, under = join.runs[-1], join.runs[0]
    if over.count < 2 or under.count < 2:
        return ""
    one = "row" if over.counts == "row ends" else "stitch"
    if over.count == under.count:
        return f": {one} {over.first} meets {under.first}, {over.last} meets {under.last}"
    met = groups_met(join)
    doubled = [one for one in met if len(one[1]) > 1]
    chosen = sorted({met[0], met[-1], *(doubled if len(doubled) <= _MOST_DOUBLED else ())}, key=met.index)
    fewer_over = over.count < under.count
    said = []
    for number, others in chosen:
        here, there = ((number,), others) if fewer_over else (others, (number,))
        said.append(f"{_numbers(here)} {'meets' if len(here) == 1 else 'meet'} {_numbers(there)}")
    return f": {one} {', '.join(said)}; all the others meet one to one"


#: No more doubled places of a join than this are told one by one.
_MOST_DOUBLED = 6


def _numbers(met: Sequence[int]) -> str:
    return str(met[0]) if len(met) == 1 else f"{met[0]} and {met[1]}" if len(met) == 2 else f"{met[0]} to {met[-1]}"


def run_words(run: EdgeRun) -> str:
    """A run of an edge in words: "row ends 1-9 of the front flap"."""
    names = {
        "row ends": "row ends",
        "stitches": "stitches",
        "chains": "stitches",
        "slant": "the slanting edge",
    }
    lo, hi = run.numbers
    what = names[run.counts]
    if run.edge == "foundation":
        what = "foundation stitches"
    numbers = f" {lo}–{hi}" if hi > lo else f" {lo}" if lo else ""
    return f"{what}{numbers} of the {run.part}"


_WORD = re.compile(r"(?<![\w-])(" + "|".join(heights()) + r")(?![\w-])", re.IGNORECASE)


def in_terms(text: str, terms: str) -> str:
    """The sentence in US or UK terms (the stitch abbreviations, "miss" for "sk", "tension" for "gauge").

    >>> in_terms("3 sc in one, sk 2, by the gauge", "UK")
    '3 dc in one, miss 2, by the tension'
    """
    if terms == "US":
        return text
    table = heights()
    changed = _WORD.sub(lambda m: _like(m[0], table[m[0].lower()].uk), text)
    changed = re.sub(r"\bgauge\b", "tension", changed)
    return re.sub(r"\b[Ss]k\b", lambda m: "Miss" if m[0] == "Sk" else "miss", changed)


def _like(old: str, new: str) -> str:
    return new[:1].upper() + new[1:] if old[:1].isupper() else new


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
