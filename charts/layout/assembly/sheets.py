"""The folding and joining diagram: flat piece, folds, joins, border, the object going in, and the key."""

from __future__ import annotations

import math
from collections.abc import Sequence

from ...drawing.display import Document, Group, Sheet
from ...drawing.mono import in_greys
from ...drawing.style import Style, style
from ...folding.border import BorderPlan, border_plan
from ...folding.finishing import FinishingStep, block_sentence, finishing_of, goes_in_sentence, in_terms, lay_sentence
from ...folding.folds import Folding, folding_of
from ...made_late import replace
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
from .border_corner import corner_picture, corner_sentence
from .flat import flat_picture, part_notes
from .folds import fold_picture
from .handles import handles_picture
from .hat import crown_rounds, hat_picture
from .joins import joins_picture
from .key import key_picture
from .tube import tube_picture
from .worn import object_picture, slabs_of

#: What the sheets are called: of what is folded, and of what is not.
NAMES = ("Folding and joining", "Shape and size")
#: How high the drawing of the joins may be, and of what is not folded the share of their usual height that its drawings
#: have: the first that takes the fewest pages.
_JOINS_MM = (104.0, 84.0)
_SHARES = (1.0, 0.8, 0.6)


def name_of(folding: Folding) -> str:
    """What the sheets of a piece are called."""
    return NAMES[not folding.stages]


def assembly_document(
    plan: Plan, heading: Heading, setting: Setting, *, folding: Folding | None = None,
    border: BorderPlan | None = None, bordered: bool = True, in_words: bool = True,
) -> Document:  # fmt: skip
    """The sheets that show how the piece is folded, joined and bordered, step by step.

    `folding` and `border` are those already worked out (a pattern's own folds, its border's rounds and
    edging); without them the kind's own. Where the words of the finishing stand elsewhere (not `in_words`), the joins
    and the border are only drawn. PatternError (kind "fold") where the piece cannot be folded.
    """
    folding = folding or folding_of(plan, hand=setting.hand)
    if border is None and bordered:
        border = border_plan(plan, hand=setting.hand, folding=folding)
    look = style(mono=setting.tone == "mono")
    frame = page(heading, setting, name=name_of(folding))
    wide, tall = frame.content_width, frame.content_height
    needs = key_needs(folding, border)
    narrow, broad = (Panel("", "Key to lines and signs", key_picture(look, w, needs), half) for w, half in
                     (((wide - GUTTER_MM) / 2, True), (wide, False)))  # fmt: skip
    sizes = [(most, 1.0) for most in _JOINS_MM] if folding.stages else [(_JOINS_MM[0], share) for share in _SHARES]
    tries = [_panels(plan, folding, border, setting, look, frame, most) for most in sizes]
    if not in_words:
        tries = [[replace(p, notes=()) for p in panels] for panels in tries]
    laid = [_pages(panels, (narrow, broad), wide, tall, look) for panels in tries]
    pages, panels = min(zip(laid, tries, strict=True), key=lambda one: len(one[0]))
    sheets = [_sheet(frame, heading, look, placed, k, len(pages)) for k, placed in enumerate(pages, 1)]
    whole = None
    if len(pages) > 1:
        (strip,) = _pages(panels, (narrow, broad), wide, math.inf, look)
        high = max(y + height_of(panel, w, look) for panel, _, y, w in strip)
        own = own_page(heading, setting, name=name_of(folding), width=wide, height=high)
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
        frame, heading, items, number=number, of=of, scale="The scale is given beside each drawing", title=title,
        desc=steps,
    )  # fmt: skip


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
    plan: Plan, folding: Folding, border: BorderPlan | None, setting: Setting, look: Style, frame: Frame,
    sizes: tuple[float, float],
) -> list[Panel]:  # fmt: skip
    """The drawings in the order of the steps, each under its step's number and sentence; `sizes` are how high that of
    the joins may be, and the share of their usual height that others have."""
    joins, share = sizes
    wide, half = frame.content_width, (frame.content_width - GUTTER_MM) / 2
    steps = {step.drawn: (str(n), step) for n, step in
             enumerate(finishing_of(plan, border, terms=setting.terms, folding=folding), 1) if step.drawn}  # fmt: skip
    if OBJECT_KINDS[plan.kind].rounds:
        says = f"Worked in rounds, right side outside. {block_sentence(plan, None)}"
        if not crown_rounds(folding):
            return [Panel("1", says, tube_picture(folding, look, wide, 150.0))]
        brim = plan.sections[-1] if len(plan.sections) > 2 else None
        return [Panel("1", says, hat_picture(folding, look, wide, 150.0, brim))]
    flat = flat_picture(folding, look, wide * share, 118.0 if folding.stages else 84.0 * share)
    made = [Panel("1", f"{block_sentence(plan, border)} {lay_sentence(folding)}", flat, notes=part_notes(folding))]
    for drawn_as, (number, step) in list(steps.items())[1:]:
        if drawn_as == "border" and border is not None:
            made += _border(folding, border, (number, step), setting, look, (wide, wide * share, 80.0 * share))
        elif drawn_as == "joins":
            made.append(Panel(number, step.says, joins_picture(folding, look, wide, joins), notes=step.lines))
        elif drawn_as == "handles":
            made.append(Panel(number, step.says, handles_picture(plan, look, wide, 104.0)))
        elif drawn_as.startswith("fold"):
            stage = folding.stages[int(drawn_as.split()[1])]
            made.append(Panel(number, step.says, fold_picture(folding, stage, look, half, 78.0), half=True))
    if folding.stages and len(folding.joined_stack.facets) <= 6:
        number = steps["object"][0] if "object" in steps else ""
        made.append(Panel(number, _object_sentence(folding, plan), object_picture(folding, plan, look, wide, 92.0)))
    return made


def _border(
    folding: Folding, border: BorderPlan, step: tuple[str, FinishingStep], setting: Setting, look: Style,
    room: tuple[float, float, float],
) -> list[Panel]:  # fmt: skip
    """The border's panel, with one corner in symbols beside the plan, or in a panel of its own where it is
    too wide. `room` is how wide the sheet is, and how wide and how high the plan may be.
    """
    (number, told), (wide, most, tall) = step, room
    caption = in_terms(corner_sentence(border), setting.terms)
    plan, corner = border_picture(folding, border, look, most, tall), corner_picture(border, look)
    if plan.width + corner.width + GUTTER_MM <= wide:
        return [Panel(number, told.says, side_by_side(plan, captioned(corner, caption, look)), notes=told.lines)]
    return [Panel(number, told.says, plan, notes=told.lines), Panel("", caption, corner, half=True)]


def _object_sentence(folding: Folding, plan: Plan) -> str:
    """What is done with the object, or that the piece is shown open where nothing goes in."""
    if not slabs_of(folding, plan):
        return "The folded piece opened a little, its layers apart."
    return goes_in_sentence(folding)
