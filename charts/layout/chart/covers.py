"""Stitches that a stem worked in front of them hides: they are drawn as what can be seen on both sides of it.

A spike goes in straight below its head, so its stem runs over the whole stem of the stitch between. As where one
line of a drawing lies behind another, that stem is left out, and what crosses it is broken with white on both sides.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import replace

from hookfold.symbols import Point

from ..placing.behind import is_covered
from ..placing.laid import Course
from ..placing.placed import Laid, Spot, Stem


def covered(courses: Sequence[Course]) -> tuple[Course, ...]:
    """The rows with what later rows hide; rows in which the same is hidden stay one shared object."""
    hidden: dict[int, dict[int, list[Stem]]] = defaultdict(lambda: defaultdict(list))
    for course in courses:
        for spot in course.laid.spots:
            if is_spike(spot):
                _hide(course, spot, courses, hidden)
    made: dict[_Hidden, Laid] = {}
    return tuple(_with(c, hidden[c.index], made) if c.index in hidden else c for c in courses)


#: A row and the stems in front of each of its items.
_Hidden = tuple[int, tuple[tuple[int, tuple[Stem, ...]], ...]]


def _round(point: Point) -> Point:
    return (round(point[0], 3), round(point[1], 3))


def is_spike(spot: Spot) -> bool:
    """Whether a stitch reaches down past the row below on a straight stem in front of it."""
    return spot.own_height > 0.0 and len(spot.feet) == 1 and not spot.is_posted and not spot.route


def _hide(
    course: Course, spot: Spot, courses: Sequence[Course], hidden: dict[int, dict[int, list[Stem]]]
) -> None:
    """Note what the stem of a spike hides in the rows between it and what it goes into."""
    for under in reversed(courses[: course.index]):
        down = course.y - under.y
        stem = (_round(spot.moved(0.0, down).head), _round(spot.moved(0.0, down).feet[0]))
        if stem[1][1] < -under.laid.rise + 0.2:
            return
        for item in [s.item for s in under.laid.spots if is_covered(s, stem)]:
            hidden[under.index][item].append(stem)


def _with(course: Course, stems: dict[int, list[Stem]], made: dict[_Hidden, Laid]) -> Course:
    key = (id(course.laid), tuple(sorted((item, tuple(each)) for item, each in stems.items())))
    if key not in made:
        spots = tuple(replace(s, under=tuple(stems.get(s.item, ()))) for s in course.laid.spots)
        made[key] = replace(course.laid, spots=spots)
    return replace(course, laid=made[key])
