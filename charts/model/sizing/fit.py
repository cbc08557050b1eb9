"""The fit in words and figures: planned size, stretch, and what is worth saying about it."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from ...errors import Note
from ...measure import Length, round_half_up, show_given, show_length, show_percent
from ...pattern.file.kinds import OBJECT_KINDS, PLACES, along, bare_mm, directions, may_lack
from ...pattern.file.records import Pattern
from .plan import Option, Plan, SectionPlan
from .row_heights import relative_height
from .shape import row_counts
from .span import FIRM, FIRM_STRETCH, LEAST_SLACK, moved
from .worn import gives, over_stretch, over_words
from .yarn_weights import gauge_note, hook_note

#: Common practice, no source: how many rows a flap has, and how far a cover may stretch.
LEAST_FLAP_ROWS = 5
MOST_STRETCH = 0.09
#: So much longer than its ends lie apart a handle is at least, for a hand to go through: our own limit, no source.
LEAST_LOOP_MM = 100.0
#: So far a strap is to come onto the front for what closes it: our own limit, no source.
LEAST_REACH_MM = 20.0
#: A panel this much larger or smaller than asked for is told of: our own limit, no source.
FAR_OFF = 0.1
#: Printed gauges lie within a quarter of the usual height of a row, rows of mixed stitches lower; so much off is asked
#: about: our own limit.
ODD_ROWS = 2.0
#: Crochet World: a swatch is at least 4 in square.
LEAST_SWATCH_MM = 100.0


def fit_lines(plan: Plan) -> tuple[str, ...]:
    """Planned against object, a line for each direction.

    Of a tube that has to go over more than it sits on, also how far it stretches on its way.
    Made for printing: "height: between the joins 241 mm, over all 252 mm, for 250 mm: stretches 3.7 %".
    """
    return (*(_fit_line(plan, name) for name in plan.between_mm), *over_words(plan))


def fit_says(plan: Plan, pattern: Pattern) -> tuple[str, ...]:
    """The same with what a maker should know of it before she begins: what settled the rows, what the yarn does not
    give, what there is no room for."""
    flat = [says for says in _flat_words(pattern) if says]
    return (*fit_lines(plan), *plan.remarks, *_firm_words(plan, pattern), *flat, *_meeting_words(plan))


def _fit_line(plan: Plan, name: str) -> str:
    def shown(mm: float) -> str:
        return show_length(mm, plan.unit)

    inside_mm, outside_mm = plan.between_mm[name], plan.over_all_mm[name]
    bordered = outside_mm > inside_mm + 1e-9
    said = f"{between_words(plan, name)} {shown(inside_mm)}"
    said = said if bordered or OBJECT_KINDS[plan.kind].holds else shown(inside_mm)
    laid_out = f", {laid_out_words(plan)}," if laid_out_words(plan) and name == _strip(plan) else ","
    said += f", over all {shown(outside_mm)}{laid_out}" if bordered else ""
    thing = bare_mm(plan.kind, plan.object_mm)[name]
    bare, whole = (show_given(mm, plan.unit) for mm in (thing, plan.object_mm[name]))
    wanted = f"{bare} and its thickness ({whole})" if plan.object_mm[name] > thing else bare
    held = OBJECT_KINDS[plan.kind].rounds and OBJECT_KINDS[plan.kind].holds and not upright(plan, name)
    why = ", worked so much smaller that it holds on" if held and plan.stretch[name] > LEAST_SLACK else ""
    return f"{name}: {said} for {wanted}: {fit_words(plan, name)}{why}"


def between_words(plan: Plan, name: str) -> str:
    """From where to where the piece is measured in a direction, its border aside: "between the joins"."""
    at = directions(plan.kind, plan.object_mm).index(name)
    return OBJECT_KINDS[plan.kind].between[at]


def laid_out_words(plan: Plan) -> str:
    """What of the piece stands out past its edge and counts in its size over all: "the strap laid out"; "" for none."""
    kind = OBJECT_KINDS[plan.kind]
    names = [plan.sections[part].name for part, _ in kind.beyond] if len(plan.sections) > 2 else []
    return f"the {' and the '.join(names)} laid out" if names else ""


def _strip(plan: Plan) -> str:
    return directions(plan.kind, plan.object_mm)[1]


def fit_words(plan: Plan, name: str, other: float | None = None) -> str:
    """How the piece fits along a measurement, or would at an `other` stretch: a panel fits nothing, it only comes out
    smaller or larger."""
    stretch = plan.stretch[name] if other is None else other
    if OBJECT_KINDS[plan.kind].holds and not upright(plan, name):
        return moved(stretch, eases=OBJECT_KINDS[plan.kind].fit == "ease")
    off = 1 / (1 + stretch) - 1
    if show_percent(off) == "0 %":
        return "as wanted"
    return f"comes out {show_percent(abs(off))} {'larger' if off > 0 else 'smaller'}"


def upright(plan: Plan, name: str) -> bool:
    """Whether it is the height of a tube, which stretches round the thing only."""
    kind = OBJECT_KINDS[plan.kind]
    return kind.rounds and name == kind.strip


def size_json(plan: Plan) -> dict[str, object]:
    """The finished piece under "size" of `check --json`.

    Width and height lying flat, with the border where that is worked round the flat piece; then, for each
    direction, what lies between the joins (the room there is) and what it measures over all.
    """
    return {
        "width_mm": round(plan.flat_mm["across"], 1),
        "height_mm": round(plan.flat_mm["up"], 1),
        "between_joins_mm": {name: round(mm, 1) for name, mm in plan.between_mm.items()},
        "over_all_mm": {name: round(mm, 1) for name, mm in plan.over_all_mm.items()},
        "stretch": {name: round(stretch, 4) for name, stretch in plan.stretch.items()},
    }


def fit_json(plan: Plan) -> dict[str, object]:
    """The counts and what was weighed, as `check --json` prints them under "fit"."""
    return {
        "kind": plan.kind,
        "chain_along": plan.chain_along,
        "stitches": plan.stitches,
        "foundation": plan.foundation,
        "rows": plan.rows,
        "sections": [
            {"name": s.name, "first_row": s.first_row, "rows": s.rows, "length_mm": round(s.length_mm, 1),
             "wanted_mm": None if s.wanted_mm is None else round(s.wanted_mm, 1)}
            for s in plan.sections
        ],
        "object_mm": {name: round(mm, 1) for name, mm in plan.object_mm.items()},
        "flap_stitches": plan.flap_stitches,
        "stitches_weighed": [_option_json(o) for o in plan.across_options],
        "rows_weighed": [_option_json(o) for o in plan.up_options],
        "estimates": list(plan.estimates),
    }  # fmt: skip


def _option_json(option: Option) -> dict[str, object]:
    return {
        "count": option.count, "repeats": option.repeats, "length_mm": round(option.length_mm, 1),
        "off_mm": round(option.off_mm, 1), "chosen": option.chosen, "why": option.why,
    }  # fmt: skip


def fit_notes(plan: Plan, pattern: Pattern) -> tuple[Note, ...]:
    """What is worth saying: estimates, fit, flaps, gauge and hook, stripes of odd width."""
    found = [Note("[gauge]", says) for says in plan.estimates]
    found += [Note("Rows", says) for says in plan.remarks]
    found += [Note("Size", says) for says in pattern.object.computed]
    found += _thickness_notes(pattern) + _handle_notes(plan)
    found += _stretch_notes(plan) + _limit_notes(plan, pattern)
    found += _flap_notes(plan) + _strap_notes(plan) + _kind_notes(plan) + _made_notes(plan, pattern)
    found += _border_notes(plan)
    found += _gauge_notes(pattern) + _row_height_notes(plan, pattern)
    found += _stripe_notes(plan) + [Note("Stripes", says) for says in _meeting_words(plan)]
    return tuple(found)


def _stretch_notes(plan: Plan) -> list[Note]:
    """Slack, or more stretch than a cover usually takes; only where the pattern gives no range of its own."""
    if plan.stretch_range is not None:
        return []
    if not OBJECT_KINDS[plan.kind].holds:
        far = [name for name, stretch in plan.stretch.items() if abs(1 / (1 + stretch) - 1) > FAR_OFF]
        return [Note(f"Fit {along(name)}", f"it {fit_words(plan, name)} than asked for.") for name in far]
    notes = []
    kind = OBJECT_KINDS[plan.kind]
    if kind.fit == "ease":
        tight = [name for name, stretch in plan.stretch.items() if stretch > LEAST_SLACK]
        says = "it {} {}; a little room lets the thing slide in and out."
        return [Note(f"Fit {along(name)}", says.format(fit_words(plan, name), along(name))) for name in tight]
    usual = max(MOST_STRETCH, kind.range[1] if kind.range else 0.0)
    for name, stretch in plan.stretch.items():
        if upright(plan, name):
            continue
        if stretch < -LEAST_SLACK:
            says = f"it {moved(stretch)} {along(name)}; a little stretch holds it on, room to spare never does."
            notes.append(Note(f"Fit {along(name)}", says))
        elif stretch > usual:
            most = show_percent(usual)
            says = f"it {moved(stretch)} {along(name)}; up to about {most} is usual (common practice)."
            notes.append(Note(f"Fit {along(name)}", says))
    return notes


def _thickness_notes(pattern: Pattern) -> list[Note]:
    """How thick the thing is, where that was given; that none was, where room is reckoned for it."""
    thing, kind = pattern.object, OBJECT_KINDS[pattern.object.kind]
    for says in _flat_words(pattern):
        thick = f'Folded spectacles are 35 to 40 mm thick: for them write {kind.thick} = "38 mm" in [object].'
        return [Note("Size", f"{says} {thick}")]
    if "spine" in thing.lengths:
        return [Note("Size", f"thickness: {thing.shown('spine')}, the spine; the wrap goes round it.")]
    return []


def _flat_words(pattern: Pattern) -> tuple[str, ...]:
    """That there is room for something flat only, where a kind reckons with a thickness and none is given."""
    kind = OBJECT_KINDS[pattern.object.kind]
    if not kind.thick or kind.thick in pattern.object.lengths or not may_lack(kind.name, kind.thick):
        return ()
    return ("no thickness is given, so there is room for something flat only.",)


def _firm_words(plan: Plan, pattern: Pattern) -> tuple[str, ...]:
    """How the swatch tells whether yarn that gives little does what is asked of it, of a cover over boards."""
    name, far = max(plan.stretch.items(), key=lambda each: each[1])
    if OBJECT_KINDS[plan.kind].goes_in != "boards" or far <= FIRM_STRETCH or not FIRM.search(pattern.yarn.fibre):
        return ()
    return (
        f"{pattern.yarn.fibre} gives little (a cotton fibre stretches by 6 to 10 % before it breaks, wool by 25 to "
        f"45 %), and {along(name)} it is to give {show_percent(far)}: pull the swatch until "
        f"{_pulled(far, plan.unit)}; where that takes force, take the next larger count or write less stretch.",
    )


def _pulled(far: float, unit: str) -> str:
    """How long a stretch of the swatch becomes, as a tape shows it.

    >>> _pulled(0.047, "cm"), _pulled(0.047, "mm"), _pulled(0.047, "in")
    ('10 cm are 10.5 cm', '100 mm are 105 mm', '4 in are 4 3/16 in')
    """
    if unit != "in":
        return f"{show_length(100.0, unit)} are {show_length(100 * (1 + far), unit)}"
    whole, rest = divmod(Fraction(round_half_up(64 * (1 + far)), 16), 1)
    return f"4 in are {whole}{f' {rest}' if rest else ''} in"


def _handle_notes(plan: Plan) -> list[Note]:
    """A handle that is no longer than its ends lie apart makes no loop for a hand."""
    kind = OBJECT_KINDS[plan.kind]
    long_mm = plan.object_mm.get(kind.handles.measure, 0.0) if kind.handles else 0.0
    apart_mm = plan.object_mm[kind.plain] * (1 - 2 * kind.handles.from_side) if kind.handles else 0.0
    if not long_mm or long_mm > apart_mm + LEAST_LOOP_MM:
        return []
    least, apart = (show_length(mm, plan.unit) for mm in (apart_mm + LEAST_LOOP_MM, apart_mm))
    return [Note("Handles", f"their ends lie {apart} apart; make each longer than {least}, or no hand goes through.")]


def _limit_notes(plan: Plan, pattern: Pattern) -> list[Note]:
    """How far a cover over boards may stretch, and why no further; how the swatch tells whether this yarn does."""
    kind = OBJECT_KINDS[plan.kind]
    if kind.goes_in != "boards":
        return []
    most = plan.stretch_range[1] if plan.stretch_range else MOST_STRETCH
    asked = "stretch in [object]" if plan.stretch_range else "none is given in [object]"
    says = [
        f"it may stretch by up to {show_percent(most)} ({asked}); about {show_percent(MOST_STRETCH)} is the most that "
        "covers take (common practice, no source): one that is a little smaller holds on by itself, one stretched "
        "further gapes between its stitches and bends soft boards.",
    ]
    says += _firm_words(plan, pattern)
    return [Note("Fit", each) for each in says]


def _border_notes(plan: Plan) -> list[Note]:
    """A border gives no room: it stands outside the joins."""
    if plan.border_row_mm is None or not OBJECT_KINDS[plan.kind].holds:
        return []
    beyond = show_length(plan.border_row_mm * max(plan.border_rounds, 1), plan.unit)
    says = f"it stands {beyond} outside the joins and gives no room; only the size over all has it."
    return [Note("Border", says)]


def _flap_notes(plan: Plan) -> list[Note]:
    """Flaps that are shallower or deeper than usual, of a kind that says what is usual."""
    kind = OBJECT_KINDS[plan.kind]
    flap = kind.measure("flap")
    if flap is None or flap.within is None:
        return []
    low, high = flap.within
    usual_mm = (low.mm, high.mm)
    if plan.flap_stitches:
        return _depth_notes("flaps", plan.flap_stitches * plan.stitch_mm, plan.unit, usual_mm)
    pairs = zip(kind.takes, kind.part_measures, strict=True)
    places = [PLACES[take] for take, measure in pairs if measure == "flap"]
    flaps = [plan.sections[at] for at in places] if len(plan.sections) >= 3 else []
    notes = [note for flap in flaps for note in _depth_notes(flap.name, flap.length_mm, plan.unit, usual_mm)]
    for section in flaps:
        if section.rows < LEAST_FLAP_ROWS:
            says = f"it has {section.rows} rows; at least five hold well (common practice)."
            notes.append(Note(f'section "{section.name}"', says))
    return notes


def _depth_notes(name: str, mm: float, unit: str, usual_mm: tuple[float, float]) -> list[Note]:
    low, high = usual_mm
    if low - 0.5 <= mm <= high + 0.5:
        return []
    usual = f"{show_length(low, unit)} to {show_length(high, unit)}"
    return [Note(f'section "{name}"', f"{show_length(mm, unit)} deep; {usual} is usual (common practice).")]


def _strap_notes(plan: Plan) -> list[Note]:
    """How far a strap stands out beyond the part that it comes from, and how far that brings it onto the front."""
    beyond = OBJECT_KINDS[plan.kind].beyond
    if not beyond or len(plan.sections) <= 2:
        return []
    part, past = (plan.sections[at] for at in beyond[0])
    out_mm, thick_mm = part.length_mm - past.length_mm, plan.object_mm.get("thickness") or plan.object_mm.get("spine")
    where = f'section "{part.name}"'
    out = f"it stands {show_length(out_mm, plan.unit)} out beyond the {past.name}'s fold"
    if thick_mm is None:
        says = f"{out}; what the closed book is thick comes off that (thickness in [object]) before the front."
        return [Note(where, says)]
    reach_mm = out_mm - thick_mm
    thick = show_length(thick_mm, plan.unit)
    if reach_mm < LEAST_REACH_MM:
        least = show_length(past.length_mm + thick_mm + LEAST_REACH_MM, plan.unit)
        says = f"{out}, and {thick} of that lie over the book's thickness: too short to close; make it {least} long."
        return [Note(where, says)]
    reach = show_length(reach_mm, plan.unit)
    return [Note(where, f"{out}, crosses {thick} of book and reaches {reach} onto the front.")]


def made_says(plan: Plan, pattern: Pattern) -> tuple[str, ...]:
    """How wide a part over the middle of the row comes out, and how far two parts overlap if that is not as asked."""
    return tuple(f"{note.where.removeprefix('section ')}: {note.says}" for note in _made_notes(plan, pattern))


def _made_notes(plan: Plan, pattern: Pattern) -> list[Note]:
    """What comes out otherwise than asked for: how wide a part over the middle of the row is, how far two parts
    overlap."""
    notes = []
    for section, made in zip(pattern.sections, plan.sections, strict=True):
        if isinstance(section.over, Length) and made.stitches:
            wide, asked = (show_length(mm, plan.unit) for mm in (made.stitches * plan.stitch_mm, section.over.mm))
            says = f"{made.stitches} sts wide, {wide} before its border, for {asked}."
            notes.append(Note(f'section "{made.name}"', says))
    asked_mm, lap_mm = plan.object_mm.get("overlap", 0.0), overlap_mm(plan)
    if lap_mm > 0 and show_length(lap_mm, plan.unit) != show_length(asked_mm, plan.unit):
        lap, asked = (show_length(mm, plan.unit) for mm in (lap_mm, asked_mm))
        notes.append(Note("Overlap", f"the two parts overlap by {lap}, for {asked} asked for: their rows are whole."))
    return notes


def overlap_mm(plan: Plan) -> float:
    """How far two parts lie over each other, as worked; 0 of a piece without such parts."""
    asked = plan.object_mm.get("overlap", 0.0) if "overlap" in OBJECT_KINDS[plan.kind].extras else 0.0
    parts = [s for s in plan.sections if s not in _lying(plan)]
    return sum(s.length_mm for s in parts) - plan.between_mm[_strip(plan)] if asked and len(parts) == 2 else 0.0


def _lying(plan: Plan) -> list[SectionPlan]:
    """The sections of a piece of three or more that lie between its first and its last."""
    return list(plan.sections[1:-1])


def _kind_notes(plan: Plan) -> list[Note]:
    """What a piece of the kind does not do, and what does; that it will hardly go over what it has to."""
    instead, passes = OBJECT_KINDS[plan.kind].instead, OBJECT_KINDS[plan.kind].passes
    notes = [Note("[object]", instead.says)] if instead else []
    tight = passes and over_stretch(plan) > gives(kind for s in plan.sections for kind in s.row_kinds)[1]
    return [*notes, Note(f"Fit over {passes.over}", over_words(plan)[0])] if passes and tight else notes


def _gauge_notes(pattern: Pattern) -> list[Note]:
    gauge, notes = pattern.gauge, []
    if gauge.over.mm < LEAST_SWATCH_MM - 0.5:
        says = f"counted over {gauge.over.text}; a swatch 10 cm or 4 in square is surer."
        notes.append(Note("[gauge]", says))
    said = gauge_note(pattern.yarn.category, gauge, pattern.sections, pattern.terms)
    said += hook_note(pattern.yarn.category, pattern.hook_mm, OBJECT_KINDS[pattern.object.kind].firm)
    return notes + [Note("[gauge]", says) for says in said]


def _row_height_notes(plan: Plan, pattern: Pattern) -> list[Note]:
    """Rows much higher or lower beside the stitches than their kind usually is: one of the two was counted wrong."""
    row_mm, body = pattern.gauge.row_mm, max(plan.sections, key=lambda section: section.rows)
    if row_mm is None or not body.rows:
        return []
    usual = sum(map(relative_height, body.row_kinds)) / body.rows
    found = row_mm / plan.stitch_mm
    if 1 / ODD_ROWS <= found / usual <= ODD_ROWS:
        return []
    says = f"a row of this gauge is {found:.2g} times as high as a stitch is wide; in {body.name} about {usual:.2g} "
    return [Note("[gauge]", says + "times is usual. Count the stitches and the rows of the swatch once more.")]


def _stripe_notes(plan: Plan) -> list[Note]:
    """Stripes of an odd number of rows change colour on both edges."""
    notes: list[Note] = []
    if OBJECT_KINDS[plan.kind].rounds:
        return notes
    tail: list[str] = []  # of the stripe that a section goes on with, where the one before it is striped too
    for section in plan.sections:
        widths = _stripe_widths([*tail, *section.colours] if tail[:1] == list(section.colours[:1]) else section.colours)
        striped, last = len(widths) > 1, widths.pop()
        tail = list(section.colours[-1:]) * last if striped else []
        if any(width % 2 for width in widths):
            says = (
                "a stripe has an odd number of rows, so colours change on both edges; "
                "with every stripe an even number they all lie on one (common practice)."
            )
            notes.append(Note(f'section "{section.name}"', says))
    return notes


def _meeting_words(plan: Plan) -> tuple[str, ...]:
    """That the stripes of a front do not meet those of the back that it lies on, at the sides where both are joined."""
    if not OBJECT_KINDS[plan.kind].front_on_back or len(plan.sections) < 2:
        return ()
    front, back = plan.sections[:2]
    last = back.first_row + back.rows - 1
    pairs = [(front.first_row + k, last - k) for k in range(min(front.rows, back.rows))]
    met = [(one, other) for one, other in pairs
           if front.colours[one - front.first_row] != back.colours[other - back.first_row]]  # fmt: skip
    if not met or len({*front.colours, *back.colours}) < 2:
        return ()
    one, other = met[0]
    colours = front.colours[one - front.first_row], back.colours[other - back.first_row]
    return (
        f"the stripes of {front.name} and {back.name} do not meet at the sides: row {one} is in {colours[0]} and lies "
        f"on row {other}, in {colours[1]}; for stripes that meet, end the {front.name} with a whole stripe and begin "
        f"the {back.name} with its colour.",
    )


def _stripe_widths(colours: Sequence[str]) -> list[int]:
    """The rows of each stripe in turn."""
    widths: list[int] = []
    for row, letter in enumerate(colours):
        if row and letter == colours[row - 1]:
            widths[-1] += 1
        else:
            widths.append(1)
    return widths


def worked_notes(plan: Plan, made: Sequence[int], chains: Sequence[int] = ()) -> tuple[Note, ...]:
    """Where the worked rows differ from the plan; `made` is what each row makes, `chains` the chains lying in it.

    A piece that keeps its plan has none: the planned number of rows, each as wide as planned. The width of a row
    with chains in it cannot be read from its count, so such a row is passed over.
    """
    notes = []
    if len(made) != plan.rows:
        notes.append(Note("Fit", f"{len(made)} rows were worked where {plan.rows} are planned."))
    solid = [not (i < len(chains) and chains[i]) for i in range(len(made))]
    planned = row_counts(plan)[: len(made)] or (plan.stitches,)
    planned += planned[-1:] * (len(made) - len(planned))
    off = [i for i, count in enumerate(made) if solid[i] and count != planned[i]]
    if off:
        says = f"row {off[0] + 1} makes {made[off[0]]} stitches where {planned[off[0]]} are planned"
        more = f", and {len(off) - 1} more rows differ." if len(off) > 1 else "."
        notes.append(Note("Fit", says + more))
    return tuple(notes)
