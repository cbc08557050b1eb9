"""The page on which a reader fits a pattern to her own object and gauge: the tables that it reckons from.

What the page does with them is the tool's own reckoning (`model/sizing`) written once more in its script; tests hold
the two to each other.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np

from ...drawing.plain import clean_line
from ...errors import PatternError
from ...folding.border import BorderPlan
from ...folding.folds import Folding
from ...folding.joins import edges_of
from ...folding.kinds import kind_for
from ...made_late import dataclass, replace
from ...model.cloth.fabric import Fabric
from ...model.sections.whole import work_piece
from ...model.sizing.across import weigh
from ...model.sizing.from_pattern import request_of
from ...model.sizing.plan import Plan
from ...model.sizing.request import SectionRequest, SizingRequest
from ...model.sizing.row_heights import relative_height
from ...model.sizing.shape import sewn_handles
from ...model.sizing.size import plan_of
from ...model.sizing.span import spans
from ...model.sizing.yarn import (
    EDGING_HEIGHTS,
    END_MM,
    LEAST_OF,
    MOST_CARRIED,
    MOST_OF,
    SEWING,
    SPARE,
    YARN_PER_AREA,
    border_colour,
    has_loop,
    yarn_unit,
)
from ...pattern.file.keys import MOST_ROWS
from ...pattern.file.kinds import OBJECT_KINDS, border_adds_mm, directions
from ...pattern.file.records import Pattern, Section
from ...pattern.tree import WrittenPattern
from ...setting import Setting
from ..piece import Piece, heading_of
from .fit_rows import NotTold, RowTable, row_table
from .page import page, text

#: Folds and borders a plan as the pattern says.
Folder = Callable[[Plan], tuple[Folding, BorderPlan | None]]


@dataclass(frozen=True, slots=True)
class Making:
    """How a piece of other counts is made: the pattern's piece, what sizing was asked, and how a plan is folded."""

    piece: Piece
    request: SizingRequest
    least: int

    def plan(self, repeats: int, rows: tuple[int, ...]) -> Plan:
        """The plan of `repeats` repeats more than the least width, and of these rows."""
        across, up = spans(self.request)
        count = self.least + repeats * self.request.multiple_of
        return plan_of(self.request, (across, up), weigh(count, across, self.request), rows, ((), ()))

    def worked(self, repeats: int, rows: tuple[int, ...]) -> tuple[Plan, WrittenPattern, Fabric]:
        """The same with its rows worked; PatternError where they do not go."""
        plan = self.plan(repeats, rows)
        return plan, *work_piece(self.piece.read, plan, self.piece.pattern)


def fit_page(piece: Piece, setting: Setting, edged: Folder) -> bytes:
    """The page; NotTold where the pattern's rows cannot be told for other counts, or it has folds of its own.

    `edged` folds and borders a plan.
    """
    pattern = piece.pattern
    if pattern.folds or pattern.joins:
        raise NotTold("a pattern with folds or joins of its own cannot be fitted on a page; fit it with the tool")
    if OBJECT_KINDS[pattern.object.kind].rounds:
        raise NotTold(f"a {pattern.object.kind} is worked in rounds, which no page fits; fit it with the tool")
    request = request_of(pattern, [section.text for section in piece.read.sections])
    making, table = _told(piece, request)
    heading = heading_of(piece, setting)
    data = tables(piece, request, table, making.least) | {
        "title": clean_line(pattern.title), "terms": setting.terms, "yarn": yarn_table(piece, making, edged),
        "guessed": [says for says in piece.plan.estimates if says.startswith('Rows of "')],
        "firstSides": [row.side for row in piece.fabric.rows[:2]],
    }  # fmt: skip
    fields = {"title": text(pattern.title), "byline": text(", ".join(filter(None, (heading.author, heading.licence))))}
    return page("fit.html", ("page.css", "fit.css"), ("sizing.js", "adapted.js", "fit.js"), data, fields)


def _told(piece: Piece, request: SizingRequest) -> tuple[Making, RowTable]:
    """The rows told from the least width on that they repeat over, or from one a little wider where their words are not
    yet those of all others."""
    first = piece.read.sections[0].multiple
    least = request.multiple_plus
    while least < max(first.least + first.of, request.least, 1):
        least += request.multiple_of
    for more in (0, 1, 2):
        making = Making(piece, request, least + more * request.multiple_of)
        try:
            return making, row_table(request, piece.pattern, making.worked)
        except NotTold:
            if more == 2:
                raise
    raise AssertionError


def tables(piece: Piece, request: SizingRequest, table: RowTable, least: int) -> dict[str, object]:
    """What the page reckons from, but the yarn."""
    pattern, thing, kind = piece.pattern, piece.pattern.object, OBJECT_KINDS[piece.pattern.object.kind]
    ways = directions(kind.name, request.object_mm)
    given = {name: length.mm for name, length in thing.lengths.items()}
    edges = (0.0, 0.0)
    if pattern.border is not None:
        edges = border_adds_mm(kind.name, given, 1.0, pattern.border.rounds, joins=pattern.border.joins)
    return {
        "kind": kind.name, "ways": ways, "along": request.chain_along, "holds": kind.holds,
        "between": dict(zip(ways, kind.between, strict=True)),
        "flapsInRow": "flap" in kind.extras, "frontOnBack": kind.front_on_back,
        "backPart": "overlap" in kind.extras and "overlap" in request.object_mm,
        "beyond": kind.beyond, "borderEdges": edges,
        "sectionEdges": (0, 0) if kind.holds else edges, "eases": kind.fit == "ease",
        "thick": kind.thick if kind.thick in given else "",
        "stretch": request.stretch, "stretches": kind.fit == "stretch", "firm": request.firm,
        "of": request.multiple_of, "plus": request.multiple_plus, "least": request.least,
        "chainPlus": request.chain_plus, "mostRows": MOST_ROWS, "width": least, "unit": thing.unit,
        "measures": measures(piece), "flapRoom": flap_room(request, ways),
        "gauge": gauge(pattern), "border": border(pattern),
        "sections": [_section(s, own, pattern) for s, own in zip(request.sections, pattern.sections, strict=True)],
        "folding": folding(piece.plan), "colours": {c.letter: [clean_line(c.name), c.hex] for c in pattern.colours},
        "said": table.said, "entries": table.entries, "rows": table.rows, "begins": table.begins,
    }  # fmt: skip


def measures(piece: Piece) -> list[dict[str, object]]:
    """What is measured, with the pattern's own figure and the bounds of it; a spine tells nothing beside the wrap."""
    kind, given = OBJECT_KINDS[piece.pattern.object.kind], piece.pattern.object.lengths
    out: list[dict[str, object]] = []
    for measure in kind.measures:
        if measure.name in given and measure.name != "spine":
            out.append({
                "name": measure.name, "asks": measure.asks or measure.means, "how": measure.how,
                "mm": given[measure.name].mm, "least": measure.least.mm, "most": measure.most.mm,
            })  # fmt: skip
    known = {str(each["name"]) for each in out} | {"spine"}
    other = [name for name in given if name not in known]
    if other:
        raise NotTold(f"its {other[0]} is no measurement of a {kind.name}, so no page can ask for it")
    return out


def flap_room(request: SizingRequest, ways: Sequence[str]) -> dict[str, object] | None:
    """Which measurement lies on which, and on how much of it."""
    kind, strip = OBJECT_KINDS[request.kind], ways[1]
    name = "overlap" if "overlap" in kind.extras else "flap"
    if name not in request.object_mm or strip not in request.object_mm:
        return None
    return {"name": name, "strip": strip, "share": 0.5 if strip == "wrap" and name == "flap" else 1.0}


def gauge(pattern: Pattern) -> dict[str, object]:
    """The pattern's own gauge, which the reader changes for hers."""
    own = pattern.gauge
    return {
        "stitches": own.stitches, "rows": own.rows, "over": own.over.mm, "unit": own.over.unit, "text": own.over.text,
        "borderStitches": own.border_stitches, "borderRows": own.border_rows,
        "sections": [section.gauge_rows for section in pattern.sections],
    }  # fmt: skip


def border(pattern: Pattern) -> dict[str, object] | None:
    """How the border's height follows where no swatch gives it."""
    own = pattern.border
    if own is None:
        return None
    relative = relative_height("sc" if own.stitch == "rsc" else own.stitch)
    return {"relative": relative, "rounds": own.rounds, "joins": own.joins}


def _section(section: SectionRequest, own: Section, pattern: Pattern) -> dict[str, object]:
    want: object = own.length if isinstance(own.length, str) else own.length.mm if own.length else None
    return {
        "name": clean_line(section.name), "heights": [relative_height(kind) for kind in section.text.row_kinds],
        "raised": section.text.raised, "near": section.text.near,
        "sides": section.text.sides, "begins": section.text.begins, "lead": section.lead,
        "opening": section.text.opening_stripes, "stripes": section.stripes, "role": section.role,
        "asBegan": section.as_began, "raisedOnWrong": section.raised_on_wrong_side, "want": want, "rows": section.rows,
        "text": [s.work.text for s in pattern.sections].index(own.work.text),
    }  # fmt: skip


def folding(plan: Plan) -> dict[str, object]:
    """The parts of the kind and what each must keep to."""
    kind = kind_for(plan)
    return {
        "parts": [{"role": p.role, "take": p.take, "measure": p.measure} for p in kind.parts],
        "covers": [(c.part, c.on, c.share) for c in kind.covers], "lap": kind.lap, "lapOn": kind.lap_on,
        "beyond": kind.beyond,
    }  # fmt: skip


# -- yarn -----------------------------------------------------------------------------------------------------------


def yarn_table(piece: Piece, making: Making, edged: Folder) -> dict[str, object] | None:
    """The rules of the yarn, and how the ways round the piece follow from its lengths; None where they do not, or where
    handles take yarn too."""
    found = edge_weights(making, edged)
    if found is None or sewn_handles(piece.plan) is not None:
        return None
    pattern, (around, seam, seams) = piece.pattern, found
    yarn = pattern.yarn
    return {
        "border": around, "seam": seam, "seams": seams, "borderColour": border_colour(pattern),
        "edging": EDGING_HEIGHTS.get(pattern.border.edging, 0.0) if pattern.border else 0.0,
        "letters": [c.letter for c in pattern.colours] or [""], "weight": yarn.swatch_weight_g,
        "swatch": yarn.swatch_mm,
        "unit": yarn_unit(pattern) if yarn.label else "", "ballG": yarn.ball_g,
        "ballM": yarn.ball_m, "perArea": YARN_PER_AREA, "least": LEAST_OF, "most": MOST_OF,
        "sewing": SEWING, "end": END_MM, "spare": SPARE, "mostCarried": MOST_CARRIED,
        "loop": has_loop(piece.plan),
    }  # fmt: skip


def edge_weights(making: Making, edged: Folder) -> tuple[list[float], list[float], int] | None:
    """The border's way and the seams' as sums of lengths (across, each section, a flap in the row); None where they
    are no such sums."""
    rows = tuple(section.rows for section in making.piece.plan.sections)
    own = (making.piece.plan.stitches - making.least) // making.request.multiple_of
    tries = [(making, own + more, rows) for more in (0, 3, 7)]
    for at, section in enumerate(making.request.sections):
        longer = [(*rows[:at], rows[at] + n * section.repeat_rows, *rows[at + 1 :]) for n in (1, 2)]
        tries += [(making, own, each) for each in longer]
    if making.request.object_mm.get("flap"):
        deeper = making.request.object_mm | {"flap": making.request.object_mm["flap"] + 4 * making.request.stitch_mm}
        tries.append((replace(making, request=replace(making.request, object_mm=deeper)), own + 7, rows))
    lengths, ways, seams = [], [], set()
    for one, repeats, tried in tries:
        plan = one.plan(repeats, tried)
        try:
            edges = edges_of(*edged(plan))
        except PatternError:
            continue
        flap = plan.flap_stitches * plan.stitch_mm
        lengths.append([plan.finished_mm["across"], *(s.length_mm for s in plan.sections), flap])
        ways.append([edges.border_mm, edges.seam_mm])
        seams.add(edges.seams)
    if len(lengths) < 3 or len(seams) != 1:
        return None
    weights, *_ = np.linalg.lstsq(np.array(lengths), np.array(ways), rcond=None)
    if np.abs(np.array(lengths) @ weights - np.array(ways)).max() > 1e-3:
        return None
    around, seam = ([round(v, 6) + 0.0 for v in column] for column in weights.T.tolist())
    return around, seam, seams.pop()
