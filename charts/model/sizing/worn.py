"""The piece as it lies on its object: as large as the object where it stretches, for paper that does not."""

from __future__ import annotations

from dataclasses import replace

from ...pattern.file.kinds import OBJECT_KINDS, directions
from .plan import Plan, SectionPlan


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
