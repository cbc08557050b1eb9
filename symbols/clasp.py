"""The hook of a post stitch, closed round the stem of the stitch it is worked round.

It leaves its own stem above the bar of that stitch, passes the bar on one side, and crosses the stem under it to a
short tail on the other. Round the front it comes down on the left, round the back on the right, each the other's mirror
image, so that a row of both is told at arm's length (common practice, no source: hooks curl to opposite sides). Nearer
by, front and back are over and under, as where any two stems cross: round the front the hook lies over the stem, which
is broken there; round the back the stem lies over the hook, and the hook is broken. This no mirror can change over.
"""

from __future__ import annotations

from dataclasses import dataclass

from .ink import Mark, Point, Step, SubPath
from .pen import Frame, line, strokes

#: How far beside the middle the hook runs past a bar: midway between neighbours; and where neighbours turn their hooks
#: to each other, past a bar of less than its width.
LANE, SHARED_LANE = 0.5, 0.37
#: The share of its width that such a bar keeps.
NARROW = 0.66
#: How far above the head of the stitch below the hook leaves its own stem, and how far below that head it begins to run
#: straight down.
BEND, STRAIGHT = 0.45, 0.02
#: How far under that head it crosses the stem where the stitch below is not known: under the slash of a double.
UNDER = 0.84
#: The bends of the hook, and how far its tail reaches beyond the stem and up.
CORNER, TAIL_CORNER, TAIL_OUT, TAIL_UP = 0.27, 0.06, 0.34, 0.18
#: The same of a tail behind, of which less is seen: how far it reaches out and up, and its corner; and of one that has
#: room.
BACK_OUT, BACK_UP, BACK_CORNER = 0.37, 0.2, 0.08
LONG_OUT, LONG_UP, LONG_CORNER = 0.5, 0.24, 0.16
#: The same of a hook in narrow room, and the bend it comes in by.
CLOSE_OUT, CLOSE_TAIL, CLOSE_CORNER, CLOSE_BEND = 0.29, 0.1, 0.08, 0.16
#: From the middle of the stem to where a hook behind it ends on either side.
APART = 0.205
#: A bar: half its width, and how far under its head it lies.
BAR_HALF, HEAD_WHITE = 0.33, 0.1
#: The handle of a quarter circle.
_K = 0.5523


@dataclass(frozen=True, slots=True)
class Clasp:
    """Where a hook crosses the stem of another stitch: the place, the unit vector up that stem, how far up its head
    lies, on which side and how far beside it the hook comes down, how far its tail goes up in front, whether it has
    room for a long one behind, and whether it is `close` about its stem, where room is narrow."""

    at: Point
    up: Point
    top: float = UNDER
    side: float = -LANE
    tail: float = TAIL_UP
    roomy: bool = False
    close: bool = False

    @property
    def frame(self) -> Frame:
        """The frame of the stem from the crossing up to its head."""
        return Frame(self.at, self.up, self.top)

    @property
    def across(self) -> tuple[Point, Point]:
        """The stretch of the hook that lies across the stem."""
        return self.frame.at(-TAIL_OUT, 0.0), self.frame.at(TAIL_OUT, 0.0)


def lane_of(*, behind: bool) -> float:
    """How far to the right of a stem the hook round it comes down: round the front on the left, so below 0."""
    return LANE if behind else -LANE


#: How far a stem that is shown with a hook goes on below it.
GOES_ON = 0.42


def clasped_stem(*, front: bool) -> Mark:
    """The head and the stem that a hook at its natural size closes round, under a foot at (0, 0): for the key."""
    bar = line((-BAR_HALF, HEAD_WHITE), (BAR_HALF, HEAD_WHITE))
    if not front:
        return strokes(bar, line((0.0, HEAD_WHITE), (0.0, UNDER + GOES_ON)))
    ends = line((0.0, HEAD_WHITE), (0.0, UNDER - APART)), line((0.0, UNDER + APART), (0.0, UNDER + GOES_ON))
    return strokes(bar, *ends)


def clasp_below(at: Frame, *, behind: bool) -> Clasp:
    """The clasp of a stitch that stands straight over a double's stem."""
    return Clasp(at.at(0.0, -UNDER), at.up, side=lane_of(behind=behind))


def hook(start: Point, down: Point, clasp: Clasp, *, behind: bool) -> Mark:
    """The hook from where it leaves its stem at `start` in the direction `down`; in two pieces where it goes behind."""
    to, far = clasp.frame, -1.0 if clasp.side > 0.0 else 1.0
    lead = _lead(start, down, clasp, far)
    tight, roomy = (BACK_OUT, BACK_UP, BACK_CORNER), (LONG_OUT, LONG_UP, LONG_CORNER)
    out, long, bend_by = (roomy if clasp.roomy else tight) if behind else (TAIL_OUT, TAIL_UP, TAIL_CORNER)
    long = long if behind else clasp.tail
    if clasp.close:
        out, long, bend_by = CLOSE_OUT, min(long, CLOSE_TAIL), CLOSE_CORNER
    corner = min(bend_by, long)
    turn, end = far * (out - corner), far * out
    bend: Step = (
        "C",
        (to.at(turn + far * _K * corner, 0.0), to.at(end, corner - _K * corner), to.at(end, corner)),
    )
    tail: SubPath = (bend, *((("L", (to.at(end, long),)),) if long > corner else ()))
    if behind:
        near, beyond = (to.at(way * far * APART, 0.0) for way in (-1.0, 1.0))
        return strokes((*lead, ("L", (near,))), (("M", (beyond,)), *tail))
    return strokes((*lead, ("L", (to.at(turn, 0.0),)), *tail))


def _lead(start: Point, down: Point, clasp: Clasp, far: float) -> SubPath:
    """From the stem past the bar and round towards the stem below."""
    to, side, bend = clasp.frame, clasp.side, CLOSE_BEND if clasp.close else CORNER
    beside = to.at(side, max(clasp.top - STRAIGHT, bend))
    reach = 0.5 * ((beside[0] - start[0]) ** 2 + (beside[1] - start[1]) ** 2) ** 0.5
    aside = (
        (start[0] + down[0] * reach, start[1] + down[1] * reach),
        (beside[0] + clasp.up[0] * reach, beside[1] + clasp.up[1] * reach),
        beside,
    )
    round_ = (
        to.at(side, bend - _K * bend), to.at(side + far * (1.0 - _K) * bend, 0.0), to.at(side + far * bend, 0.0),
    )  # fmt: skip
    return (("M", (start,)), ("C", aside), ("L", (to.at(side, bend),)), ("C", round_))
