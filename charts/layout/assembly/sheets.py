"""The folding and joining diagram: flat piece, folds, joins, border, the object going in, and the key."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from ...drawing.display import Document, Group, Sheet
from ...drawing.mono import in_greys
from ...drawing.style import Style, style
from ...folding.border import BorderPlan, border_plan
from ...folding.finishing import (
    block_sentence,
    border_first,
    border_steps,
    easing_sentence,
    edging_sentence,
    fold_sentence,
    goes_in_sentence,
    in_terms,
    join_sentence,
    lay_sentence,
    side_sentence,
    total_sentence,
)
from ...folding.folds import Folding, folding_of
from ...folding.joins import joins_of
from ...model.sizing.plan import Plan
from ...pattern.file.kinds import OBJECT_KINDS
from ...setting import Heading, Setting
from ..sheets.page import Frame, finish, own_page, page
from ..sheets.panel import (
    GUTTER_MM,
    Panel,
    Placed,
    captioned,
    draw,
    flow,
    height_of,
    lone_widened,
    side_by_side,
    widened,
    with_key,
)
from .border import border_picture
from .border_corner import CORNER, corner_picture, corner_sentence
from .flat import flat_picture, part_notes
from .folds import fold_picture
from .hat import crown_rounds, hat_picture
from .joins import join_letter, joins_picture
from .key import key_picture
from .tube import tube_picture
from .worn import object_picture, slabs_of

NAME = "Folding and joining"
#: How high the drawing of the joins may be: the first that takes the fewest pages.
_JOINS_MM = (104.0, 84.0)


def assembly_document(
    plan: Plan, heading: Heading, setting: Setting, *, folding: Folding | None = None,
    border: BorderPlan | None = None, bordered: bool = True,
) -> Document:  # fmt: skip
    """The sheets that show how the piece is folded, joined and bordered, step by step.

    `folding` and `border` are those already worked out (a pattern's own folds, its border's rounds and
    edging); without them the kind's own. PatternError (kind "fold") where the piece cannot be folded.
    """
    folding = folding or folding_of(plan, hand=setting.hand)
    if border is None and bordered:
        border = border_plan(plan, hand=setting.hand, folding=folding)
    look = style(mono=setting.tone == "mono")
    frame = page(heading, setting, name=NAME)
    wide, tall = frame.content_width, frame.content_height
    needs = key_needs(folding, border)
    narrow, broad = (Panel("", "Key to lines and signs", key_picture(look, w, needs), half) for w, half in
                     (((wide - GUTTER_MM) / 2, True), (wide, False)))  # fmt: skip
    tries = [_panels(plan, folding, border, setting, look, frame, most) for most in _JOINS_MM]
    laid = [_pages(panels, (narrow, broad), wide, tall, look) for panels in tries]
    pages, panels = min(zip(laid, tries, strict=True), key=lambda one: len(one[0]))
    sheets = [_sheet(frame, heading, look, placed, k, len(pages)) for k, placed in enumerate(pages, 1)]
    whole = None
    if len(pages) > 1:
        (strip,) = _pages(panels, (narrow, broad), wide, math.inf, look)
        high = max(y + height_of(panel, w, look) for panel, _, y, w in strip)
        own = own_page(heading, setting, name=NAME, width=wide, height=high)
        whole = _sheet(own, heading, look, strip, 1, 1)
    title = f"{heading.title}: folding and joining"
    document = Document(tuple(sheets), title, heading.author, heading.licence, whole=whole)
    return in_greys(document) if setting.tone == "mono" else document


def _pages(
    panels: Sequence[Panel], key: tuple[Panel, Panel], wide: float, tall: float, look: Style
) -> list[list[Placed]]:
    """The panels and the key on pages; a half that stands alone has the whole line where that saves a page, or where
    nothing came to stand beside it."""
    halved, whole = (
        with_key(flow(some, wide, tall, look), *key, wide, tall, look) for some in (panels, lone_widened(panels))
    )
    return whole if len(whole) < len(halved) else [widened(placed, wide) for placed in halved]


def _sheet(frame: Frame, heading: Heading, look: Style, placed: Sequence[Placed], number: int, of: int) -> Sheet:
    """One sheet of panels."""
    x0, y0 = frame.content[0], frame.content[1]
    items: list[Group] = [draw(p, x0 + x, y0 + y, w, look) for p, x, y, w in placed]
    title = f"{heading.title}: folding and joining" + (f", sheet {number}" if of > 1 else "")
    steps = "; ".join(p.sentence for p, *_ in placed)
    return finish(
        frame, heading, items, number=number, of=of, scale="Scales stand by each drawing", title=title, desc=steps
    )


def key_needs(folding: Folding, border: BorderPlan | None) -> set[str]:
    """Which signs the key must explain."""
    stacks = (folding.start, *(stage.after for stage in folding.stages))
    wrong = any(f.side_up == "WS" for stack in stacks for f in stack.facets)
    return {
        "always",
        "rounds" if OBJECT_KINDS[folding.kind.name].rounds else "rows",
        *(stage.spec.direction for stage in folding.stages),
        *(("layers",) if folding.stages else ()),
        *(("wrong side",) if wrong else ()),
        *(("border",) if border is not None else ()),
    }


def _panels(
    plan: Plan, folding: Folding, border: BorderPlan | None, setting: Setting, look: Style, frame: Frame, joins: float
) -> list[Panel]:  # fmt: skip
    wide, half = frame.content_width, (frame.content_width - GUTTER_MM) / 2
    if OBJECT_KINDS[plan.kind].rounds:
        says = f"Worked in rounds, right side outside. {block_sentence(plan, None)}"
        drawn = hat_picture if crown_rounds(folding) else tube_picture
        return _numbered([Panel("", says, drawn(folding, look, wide, 150.0))])
    flat = flat_picture(folding, look, wide, 118.0 if folding.stages else 84.0)
    first = border is not None and border_first(folding, border)
    edge = _border(folding, border, setting, look, wide) if border is not None else []
    made = [Panel("", f"{block_sentence(plan, border)} {lay_sentence(folding)}", flat, notes=part_notes(folding))]
    made += edge if first else []
    made += [_fold(folding, k, look, half) for k in range(folding.joined)]
    if folding.joined and joins_of(folding):
        made.append(_joins(folding, look, wide, joins))
    made += [] if first else edge
    made += [_fold(folding, k, look, half) for k in range(folding.joined, len(folding.stages))]
    if folding.stages and len(folding.joined_stack.facets) <= 6:
        made.append(Panel("", _object_sentence(folding, plan), object_picture(folding, plan, look, wide, 92.0)))
    return _numbered(made)


def _numbered(panels: Sequence[Panel]) -> list[Panel]:
    """The panels with their step numbers; the corner in symbols belongs to the step before it."""
    found: list[Panel] = []
    step = 0
    for panel in panels:
        goes_with = panel.sentence.startswith(CORNER)
        step += 0 if goes_with else 1
        found.append(replace(panel, number="" if goes_with else str(step)))
    return found


def _fold(folding: Folding, index: int, look: Style, half: float) -> Panel:
    stage = folding.stages[index]
    return Panel("", fold_sentence(folding, index), fold_picture(folding, stage, look, half, 78.0), half=True)


def _joins(folding: Folding, look: Style, wide: float, tall: float) -> Panel:
    joins = joins_of(folding)
    notes = tuple(f"{join_letter(k)}: {join_sentence(j)}" for k, j in enumerate(joins))
    sentence = (
        "Lay the edges together row for row and hold them with stitch markers at both ends of every "
        "lettered stretch."
    )
    return Panel("", sentence, joins_picture(folding, look, wide, tall), notes=notes)


def _border(
    folding: Folding, border: BorderPlan, setting: Setting, look: Style, wide: float
) -> list[Panel]:  # fmt: skip
    """The border's panel, with one corner in symbols beside the plan, or in a panel of its own where it is
    too wide.
    """
    notes = [*_sides(border), total_sentence(border), easing_sentence(border)]
    notes += [f"Round {k}: {total} sts." for k, total in enumerate(border.totals[1:], 2)]
    if border.edging:
        notes.append(edging_sentence(border, border.edging))
    said = tuple(in_terms(n, setting.terms) for n in notes)
    sentence = in_terms(border_steps(border)[0], setting.terms)
    caption = in_terms(corner_sentence(border), setting.terms)
    plan, corner = border_picture(folding, border, look, wide, 80.0), corner_picture(border, look)
    if plan.width + corner.width + GUTTER_MM <= wide:
        return [Panel("", sentence, side_by_side(plan, captioned(corner, caption, look)), notes=said)]
    return [Panel("", sentence, plan, notes=said), Panel("", caption, corner, half=True)]


def _sides(border: BorderPlan) -> Sequence[str]:
    return [side_sentence(border, k) for k in range(max(s.side for s in border.stretches) + 1)]


def _object_sentence(folding: Folding, plan: Plan) -> str:
    """What is done with the object, or that the piece is shown open where nothing goes in."""
    if not slabs_of(folding, plan):
        return "The folded piece opened a little, its layers apart."
    return goes_in_sentence(folding)
