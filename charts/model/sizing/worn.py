"""The piece as it lies on its object: as large as the object where it stretches, for paper that does not; and how far
a tube has to stretch on its way there."""

from __future__ import annotations

from collections.abc import Iterable

from ...made_late import replace
from ...measure import show_length, show_percent
from ...pattern.file.kinds import OBJECT_KINDS, directions, passes_mm
from .plan import Plan, SectionPlan
from .row_heights import relative_height

#: How far joined rounds stretch without force, by their stitch, the least first: our own limits, no source. Taller
#: stitches have more of their yarn upright and give more.
GIVES = {"sc": 0.25, "hdc": 0.30, "dc": 0.35}


def gives(kinds: Iterable[str]) -> tuple[str, float]:
    """Of rows of these stitches, the one that stretches least, by its plain stitch, and how far it does.

    >>> gives(["dc", "hdc"]), gives(["sc", "dc"])
    (('hdc', 0.3), ('sc', 0.25))
    """
    lowest = min(map(relative_height, kinds), default=1.0)
    plain = max((kind for kind in GIVES if relative_height(kind) <= lowest), key=relative_height, default="sc")
    return plain, GIVES[plain]


def over_stretch(plan: Plan) -> float:
    """How far the piece has to stretch to go over what lies before where it sits; 0 where nothing does."""
    passes, round_mm = passes_mm(plan.kind, plan.object_mm), plan.finished_mm["across"]
    return max(0.0, passes / round_mm - 1) if passes and round_mm else 0.0


def over_words(plan: Plan) -> tuple[str, ...]:
    """How far it has to stretch on its way, whether its stitch does, and how its two edges are worked so that they do;
    () where it goes over nothing."""
    passes = OBJECT_KINDS[plan.kind].passes
    if passes is None:
        return ()
    far, (stitch, most) = over_stretch(plan), gives(kind for s in plan.sections for kind in s.row_kinds)
    measured = "" if plan.object_mm.get(passes.measure) else ", reckoned from the way round it"
    large = show_length(passes_mm(plan.kind, plan.object_mm), plan.unit)
    over = f"over {passes.over}, {large}{measured}: it has to stretch {show_percent(far)} on its way"
    if show_percent(far) == "0 %":
        return (f"over {passes.over}, {large}{measured}: it goes over without stretch",)
    eased = "Work the foundation chain and the last round loosely, or with a hook half a millimetre larger: both edges "
    eased += f"have to open to {large}."
    return f"{over}; {_gives_words(far, stitch, most)}", eased


def _gives_words(far: float, stitch: str, most: float) -> str:
    usual = f"rounds of its stitch give about {show_percent(most)} without force (our own limit)"
    if far <= most:
        return usual
    other = "" if stitch == "dc" else ", a taller stitch"
    less = "let it stretch less where it sits (more stitches)"
    return f"{usual}, so it will hardly go on: {less}{other}, or a larger hook"


def worn_plan(plan: Plan) -> Plan:
    """The plan with every measure as the object has it: its stitches and rows a little wider and taller.

    Along the rows each section but a flap is as long as it was to be; across, the piece is as wide as the object. Where
    the chain runs round the object, the stitches between the flaps come to the wrap. A piece that holds nothing, or
    holds it with room to spare, is worn as it is worked.
    """
    if OBJECT_KINDS[plan.kind].fit != "stretch":
        return plan
    plain, strip = directions(plan.kind, plan.object_mm)
    across = plan.chain_along if plan.chain_along in plan.between_mm else plain
    between_mm = plan.between_mm.get(across, 0.0)
    stitch_mm = plan.stitch_mm * (plan.object_mm[across] / between_mm if between_mm > 0 else 1.0)
    flaps = _flaps(plan)
    sections = tuple(s if k in flaps else _worn(s) for k, s in enumerate(plan.sections))
    if OBJECT_KINDS[plan.kind].crown:
        sections = _below_crown(sections, plan.object_mm[strip])
    finished_mm = {"across": plan.stitches * stitch_mm, "up": sum(s.length_mm for s in sections)}
    on_object = {name: plan.object_mm[name] for name in (plain, strip) if name in plan.object_mm}
    return replace(
        plan, stitch_mm=stitch_mm, sections=sections, finished_mm=finished_mm, flat_mm=finished_mm, between_mm=on_object
    )


def _flaps(plan: Plan) -> frozenset[int]:
    """Which sections are flaps: they lie on the object and are not drawn over it, so they stay as worked."""
    kind = OBJECT_KINDS[plan.kind]
    if len(plan.sections) < len(kind.takes):
        return frozenset()
    at = {"first": 0, "last": len(plan.sections) - 1, "second last": len(plan.sections) - 2}
    extras = {name for name in plan.object_mm if name in kind.extras}
    flap_last = kind.takes[-1] == "last" and bool(extras & {"flap"}) and kind.part_measures[-1] == "rest"
    found = {at[take] for take, of in zip(kind.takes, kind.part_measures, strict=True) if of == "flap" and take in at}
    return frozenset(found | ({at["last"]} if flap_last else set()))


def _below_crown(sections: tuple[SectionPlan, ...], height_mm: float) -> tuple[SectionPlan, ...]:
    """The sections with those below the crown as long as the height leaves them."""
    crown, sides = sections[0], sections[1:]
    left_mm, long_mm = height_mm - crown.length_mm, sum(s.length_mm for s in sides)
    if left_mm <= 0 or long_mm <= 0:
        return sections
    grown = (replace(s, row_heights_mm=tuple(mm * left_mm / long_mm for mm in s.row_heights_mm)) for s in sides)
    return (crown, *grown)


def _worn(section: SectionPlan) -> SectionPlan:
    """A section as long as it was to be."""
    if not section.wanted_mm or section.length_mm <= 0:
        return section
    factor = section.wanted_mm / section.length_mm
    return replace(section, row_heights_mm=tuple(mm * factor for mm in section.row_heights_mm))
