"""Plans for the folding tests, invented and built by hand: one of each kind, all lengths in mm."""

from hookfold.charts.model.sizing.plan import Plan, SectionPlan

STITCH_MM, ROW_MM, EDGE_MM = 100 / 17, 100 / 14, 100 / 16


def plan_of(kind, sections, stitches, stitch_mm, object_mm, along, unit="mm", **more):
    """A plan from (name, row kinds, row height[, stitches]) a section."""
    made, first = [], 1
    for name, kinds, height, *narrow in sections:
        heights = tuple(height) if isinstance(height, list) else (height,) * len(kinds)
        made.append(
            SectionPlan(
                name, first, tuple(kinds), heights, ("",) * len(kinds), None, narrow[0] if narrow else None
            )
        )
        first += len(kinds)
    size = {"across": stitches * stitch_mm, "up": sum(s.length_mm for s in made)}
    return Plan(
        kind=kind, unit=unit, chain_along=along, stitches=stitches, foundation=stitches + 1, multiple_of=1,
        multiple_plus=0, chain_plus=1, stitch_mm=stitch_mm, sections=tuple(made), object_mm=object_mm,
        finished_mm=size, flat_mm=size, between_mm={}, over_all_mm={}, stretch={}, **more,
    )  # fmt: skip


_EDGE = {"border_stitch_mm": EDGE_MM, "border_row_mm": EDGE_MM, "joins": True}
_BOOK = {"height": 250.0, "wrap": 385.0, "flap": 65.0}


def book(unit="mm", **more):
    """Rows stacked round the book: 9 + 54 + 9 rows over 42 stitches."""
    sections = [
        ("front flap", ["hdc"] * 9, ROW_MM),
        ("body", ["hdc", "sc"] * 27, ROW_MM),
        ("back flap", ["hdc"] * 9, ROW_MM),
    ]
    return plan_of("book", sections, 42, STITCH_MM, _BOOK, "height", unit, **(_EDGE | more))


def wrapped_book(unit="mm", **more):
    """The foundation round the book: 88 stitches, flaps of 11, 36 rows."""
    return plan_of(
        "book", [("cover", ["hdc"] * 36, ROW_MM)], 88, STITCH_MM, _BOOK, "wrap", unit, **(_EDGE | more)
    )


def strap_book(**more):
    """A book cover with a strap over 8 stitches."""
    sections = [
        ("front flap", ["hdc"] * 9, ROW_MM),
        ("body", ["hdc", "sc"] * 27, ROW_MM),
        ("back flap", ["hdc"] * 9, ROW_MM),
        ("strap", ["sc"] * 22, ROW_MM, 8),
    ]
    return plan_of("book with strap", sections, 42, STITCH_MM, _BOOK, "height", **(_EDGE | more))


def pouch(unit="mm", **more):
    sections = [("front", ["sc"] * 24, 5.0), ("back", ["sc"] * 25, 5.0), ("flap", ["sc"] * 14, 5.0)]
    return plan_of(
        "pouch",
        sections,
        40,
        5.5,
        {"height": 120.0, "width": 200.0, "flap": 70.0},
        "width",
        unit,
        **({"joins": True} | more),
    )


def cushion(**more):
    sections = [
        ("lower back", ["dc"] * 20, 12.0),
        ("front", ["dc"] * 33, 12.0),
        ("upper back", ["dc"] * 16, 12.0),
    ]
    return plan_of("cushion", sections, 72, 5.5, {"height": 400.0, "width": 400.0}, "width", **(_EDGE | more))


def panel(**more):
    return plan_of(
        "panel",
        [("mat", ["dc", "sc"] * 12, [12.0, 5.5] * 12)],
        40,
        5.5,
        {"height": 200.0, "width": 220.0},
        "width",
        **more,
    )


def pocket_panel(**more):
    sections = [("pocket", ["hdc"] * 14, 9.0), ("scarf", ["hdc"] * 140, 9.0), ("pocket", ["hdc"] * 14, 9.0)]
    return plan_of("pocket panel", sections, 36, 5.5, {}, "width", **({"joins": True} | more))


def open_bag(**more):
    sections = [("front", ["hdc"] * 20, 7.0), ("back", ["hdc"] * 20, 7.0)]
    return plan_of("open bag", sections, 30, 6.0, {"height": 140.0, "width": 180.0}, "width", **({"joins": True} | more))


def sleeve(**more):
    sections = [("front", ["sc"] * 24, 5.0), ("back", ["sc"] * 25, 5.0), ("flap", ["sc"] * 14, 5.0)]
    measured = {"height": 120.0, "width": 200.0, "thickness": 8.0, "flap": 70.0}
    return plan_of("sleeve", sections, 40, 5.5, measured, "width", **({"joins": True} | more))


def hat(**more):
    """A crown of 6 rounds and 8 rounds down to the brim."""
    sections = [("crown", ["sc"] * 6, 5.0), ("sides", ["sc"] * 8, 5.0)]
    return plan_of("hat", sections, 40, 5.0, {"around": 205.0, "height": 70.0}, "around", **more)


def flat(kind, measured, along):
    """A flat piece of its own: a strap, a pocket."""
    return lambda **more: plan_of(kind, [("piece", ["sc"] * 6, 5.0)], 40, 5.0, measured, along, **more)


ALL = {
    "book": book, "wrapped book": wrapped_book, "strap book": strap_book, "pouch": pouch, "cushion": cushion,
    "panel": panel, "pocket panel": pocket_panel, "open bag": open_bag, "sleeve": sleeve,
    "strap": flat("strap", {"length": 200.0, "width": 30.0}, "length"),
    "hat": hat,
    "mug cosy": flat("mug cosy", {"around": 200.0, "height": 30.0}, "around"),
    "wrist warmer": flat("wrist warmer", {"around": 200.0, "height": 30.0}, "around"),
    "leg warmer": flat("leg warmer", {"around": 200.0, "height": 30.0}, "around"),
    "headband": flat("headband", {"around": 200.0, "height": 30.0}, "around"),
    "mug wrap": flat("mug wrap", {"around": 200.0, "height": 30.0}, "around"),
    "cowl": flat("cowl", {"around": 200.0, "height": 30.0}, "around"),
    "button loop": flat("button loop", {"length": 200.0, "height": 30.0}, "length"),
    "patch pocket": flat("patch pocket", {"width": 200.0, "height": 30.0}, "width"),
}  # fmt: skip
