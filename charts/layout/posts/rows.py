"""Hooks closed in flat rows, where rows laid alike stay one shared object, and in rounds."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Mapping, Sequence

from hookfold.symbols import NARROW

from ...made_late import replace
from ...model.cloth.fabric import Row
from ..placing.behind import led_to_hooks
from ..placing.feet import Bases
from ..placing.laid import Course, LaidFabric
from ..placing.placed import Laid, Spot, Stem
from .clasping import Clasped, clasped_row, is_hooked


def clasped_fabric(laid: LaidFabric) -> LaidFabric:
    """A flat fabric with all hooks closed; the time goes with the number of different rows."""
    if not any(is_hooked(s) for c in {id(c.laid): c.laid for c in laid.courses}.values() for s in c.spots):
        return laid
    led = {id(c.laid): led_row(c.laid, c.worked.row) for c in laid.courses}
    courses = [replace(c, laid=led[id(c.laid)]) for c in laid.courses]
    known: dict[tuple[int, ...], Clasped] = {}
    hidden: dict[int, dict[int, list[Stem]]] = defaultdict(lambda: defaultdict(list))
    narrow: dict[int, set[int]] = defaultdict(set)
    closed: dict[int, Clasped] = {}
    for k, course in enumerate(courses):
        found = _row(course, courses[:k], known)
        if found is None:
            continue
        closed[k] = found
        for (back, item), stems in found.hidden.items():
            down = courses[k - back].y - course.y if back else 0.0
            hidden[k - back][item] += [_moved(stem, -down) for stem in stems]
        for back, item in found.narrow:
            narrow[k - back].add(item)
    made: dict[tuple[object, ...], Laid] = {}
    return replace(
        laid,
        courses=tuple(
            _with(c, closed.get(k), hidden.get(k, {}), narrow.get(k, ()), made) for k, c in enumerate(courses)
        ),
    )


def led_row(laid: Laid, row: Row) -> Laid:
    """A row whose crossing stems lead to where their hooks pass the heads below; itself where none does."""
    spots = led_to_hooks(laid.spots, row)
    return laid if spots == laid.spots else replace(laid, spots=spots)


def _row(course: Course, below: Sequence[Course], known: dict[tuple[int, ...], Clasped]) -> Clasped | None:
    """The hooks of one row, as it is seen on its own level; None where it has none."""
    if not any(is_hooked(s) for s in course.laid.spots):
        return None
    row = course.worked.row
    depth = min(max((f.back for s in row.stitches for f in s.feet), default=1), len(below))
    under = below[len(below) - depth :][::-1]
    key = (id(course.laid), *(id(u.laid) for u in under))
    if key not in known:
        bases: Bases = {
            back: [s.moved(0.0, u.y - course.y) for s in u.laid.spots] for back, u in enumerate(under, start=1)
        }
        known[key] = clasped_row(course.laid.spots, row, bases)
    return known[key]


def _moved(stem: Stem, down: float) -> Stem:
    (x, y), (a, b) = stem
    return (round(x, 3), round(y + down, 3)), (round(a, 3), round(b + down, 3))


def _with(
    course: Course,
    closed: Clasped | None,
    hidden: dict[int, list[Stem]],
    narrow: Collection[int],
    made: dict[tuple[object, ...], Laid],
) -> Course:
    if closed is None and not hidden and not narrow:
        return course
    stems = tuple(sorted((item, tuple(each)) for item, each in hidden.items()))
    key = (id(course.laid), id(closed), stems, tuple(sorted(narrow)))
    if key not in made:
        spots = closed.spots if closed else course.laid.spots
        made[key] = replace(course.laid, spots=hiding(spots, hidden, narrow))
    return replace(course, laid=made[key])


def hiding(
    spots: Sequence[Spot], hidden: Mapping[int, list[Stem]], narrow: Collection[int] = ()
) -> tuple[Spot, ...]:
    """Spots with the stretches of hooks that hide them, by item, and those of `narrow` with less than their width."""
    return tuple(
        replace(
            s,
            clasped=(*s.clasped, *hidden.get(s.item, ())),
            size=NARROW if s.item in narrow and s.role == "stitch" else s.size,
        )
        for s in spots
    )
