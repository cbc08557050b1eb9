"""What the stitches of rounds want: their own height above all, then room, order, and an even line.

Every pull is one wish about some references; weights say which of them give way. A stem weighs most: widths, the
curve of arches and petals, and the size of the whole give way before the height of a stitch does.
"""

from __future__ import annotations

import itertools
from collections.abc import Callable, Sequence

import numpy as np

from ...model.cloth.fabric import Foot
from ..placing.chain_room import picot_tall
from ..placing.chain_runs import HOOK_ASIDE
from ..placing.placed import CHAIN_HALF
from ..placing.tops import INK_GAP, PICOT_ROOM, own_rise, width_of
from .corners import Sides
from .form import Form
from .net import LOW, Net
from .plan import Planned, Top, bridge_of, groups
from .springs import Ids, Points, Pull, Reals, Ref, Table, mean

STEM, GAP, HALF, SPAN, BOW, LEAN, LEVEL, ORDER, KEEP, UPRIGHT = 6.0, 1.6, 2.0, 1.6, 0.6, 0.35, 0.35, 2.0, 1.0, 2.0
#: Of what a stem that passes other rounds is too long, the share that it is pulled back.
DEEP_BACK = 0.03
#: How strongly neighbours draw together where they stand too wide, and push where too close; nearer than the last not.
WIDE, CLOSE, CLOSEST = 0.35, 0.22, 0.66
#: Half a run of chains: of one, what each more adds, and the share it may shrink to.
HALF_ONE, HALF_MORE, SHRUNK = 0.84, 0.42, 0.72
#: The height of a cross at least: a slip stitch is lower.
LEAST_CROSS = 0.7
#: The share where as a loop they would be in the way of a cross: where they lead from one to a stitch so much taller,
#: or from a stitch so much taller that a cross stands on; and how firmly those keep the way that they need.
UNEQUAL, LOW_SHRUNK, LOW_SPAN_FIRM = 0.9, 0.58, 3.0
#: How much closer than it wants the next stitch may stand to one with a picot on it.
PICOT_CLOSEST = 0.95
#: How far a stem keeps from the heads beside the one it stands on, and how firmly.
STEM_OFF, OFF = 0.62, 2.0
#: How much longer chains may be drawn that lie behind what other rounds made.
BEHIND_LONG = 1.5
#: The least way from head to head over 1, 2, 3, ... chains; long runs stand up as loops.
SPANS = (1.45, 2.0, 2.1, 2.1, 2.1, 1.9, 1.6)
#: The same over chains between two stitches in one place that are no taller than a cross: these stand up as a loop.
LOW_SPAN = 1.2
#: The same over chains, from so many on, between stitches that stand on neighbours.
LOOPED, NEIGHBOURS_SPAN = 3, 1.4
#: How much more firmly stitches stand upright on the sides of a shape, or the shape would shear, and along a chain.
SIDE_LEAN, ALONG_LEAN = 4.0, 20.0
#: A sheaf of so many stitches may curve; the lean of several in one place weighs more, a solid round is kept level.
PETAL, SHEAF_LEAN, PETAL_LEVEL, SOLID_LEVEL = 4, 0.6, 0.06, 3.0
#: How firmly the stitches in one place fan evenly, and few of them open; by which share of the room they want.
FANNED, OPEN, OPENED = 4.0, 2.0, 0.9
#: How firmly few of them open that have chains beside them in that place.
OPEN_BESIDE = 4.0
#: How firmly a sheaf that reads the same backwards stands even about its middle.
MIRRORED = 3.0
#: So many stitches at each end of a chain are a fan that turns about it; how near its line the chains at its ends lie.
END_FAN, ON_LINE = 3, 1e-6
#: From where a fan turns to the side of the chain that its stems stand on, in stitch widths.
END_MORE = 0.15
#: How firmly the stitches of a round that is alike all round stand evenly; more round an oval, whose ends would crowd.
EVEN, EVEN_OVAL = 1.5, 4.0
#: How firmly the arches of a round that is alike all round rise alike; more about an oval, whose ends would have taller
#: ones. About a point they nearly do by themselves, and held firmly they push together what stands over them.
BOWED, BOWED_OVAL = 0.1, 3.0
#: How far the top of an arch keeps from the next one, and from the stitches beyond its ends.
ARCH_OFF = 0.95
#: How firmly chains keep from sagging under the line of the heads beside them.
UNSAGGED = 6.0
#: From this share of the stitches of a round on the one inside it has too much room for it to be even.
LOOSE = 1.35
#: The least way along the work from a top to the next, the way to others near by, and the share of its height that a
#: stitch of a sheaf of two, three, and more reaches outward.
STEP, NEAR, OUTWARD = 0.34, 0.82, {2: 0.75, 3: 0.6}
LEAST_OUTWARD = 0.4


#: A stem: its reference, that of its foot, its height, and whether it passes other rounds.
_Stem = tuple[int, int, float, bool]


def pulls_of(net: Net, table: Table, form: Form, sides: Sides) -> list[Pull]:
    """All pulls but those that keep rounds clear of each other."""
    found: list[Pull] = []
    for k, round_ in enumerate(net.rounds):
        if k or not form.inward:  # inward all hang on the outermost, which is as wide as it comes out
            found += _stems(net, table, form, sides, k, round_)
        found += _neighbours(net, table, form, sides, k, round_)
        found += _sheaves(net, table, form, sides, k, round_)
        found += _arches(net, table, form, sides, k, round_)
    return found


def pull(refs: Sequence[int], weights: Sequence[float] | Reals, wish: Callable[[Points], Points]) -> Pull:
    """A pull whose wish sees only the values of its own references."""
    ids = np.array(refs, dtype=np.intp)
    return Pull(ids, np.array(weights), lambda every: wish(every[ids]))


def to_length(low: Reals, high: Reals) -> Callable[[Points], Points]:
    """The wish for a length from `low` to `high`, whichever way it points."""

    def wish(values: Points) -> Points:
        size = np.maximum(np.abs(values), 1e-9)
        sized: Points = values * (np.clip(size, low, high) / size)
        return sized

    return wish


def height_of(top: Top) -> float:
    """The height of a stitch over what it goes into."""
    spaced = any(f.hold == "space" for f in top.made.feet)
    return own_rise(top.made) + (CHAIN_HALF if spaced else 0.0)


def _on_picot(net: Net, k: int, top: Top) -> float:
    """How much farther than its foot a stitch stands that goes into a picot, which stands on that foot too."""
    into = [net.rounds[k - f.back].row.stitches[f.at] for f in top.made.feet if 1 <= f.back <= k]
    return max((picot_tall(s.chains) for s in into if s.role == "picot"), default=0.0)


def _stems(net: Net, table: Table, form: Form, sides: Sides, k: int, round_: Planned) -> list[Pull]:
    """Stems of their height; those that stand in the centre's ring from its middle."""
    stems: list[_Stem] = []
    turning = _about_ends(net, form, k)
    for t in range(net.each(round_)):
        feet = net.feet(k, t)
        top, head = round_.tops[t], net.head(k, t)
        high = (height_of(top) + _on_picot(net, k, top)) * sides.taller(k, t)
        high += END_MORE if not k and t in turning else 0.0
        deep = any(f.back > 1 for f in top.made.feet)
        ref = table.add(head - mean(feet)) if feet else table.add(head)
        stems.append((ref, table.add(mean(feet) if feet else head), high + (0.0 if feet else sides.level), deep))
    refs = [s[0] for s in stems]
    nominal, passes = np.array([s[2] for s in stems]), np.array([s[3] for s in stems])

    def wish(values: Points) -> Points:
        size = np.maximum(np.abs(values), 1e-9)
        wanted = np.where(passes & (size > nominal), size - DEEP_BACK * (size - nominal), nominal)
        stem: Points = values * (wanted / size)
        return stem

    found = [pull(refs, [STEM] * len(refs), wish), *_kept_off(net, table, k, round_)]
    return found + _leans(net, table, form, sides, k, round_, stems)


def _kept_off(net: Net, table: Table, k: int, round_: Planned) -> list[Pull]:
    """Stems off the heads on either side of the one that they stand on."""
    refs = []
    for t in range(net.each(round_)):
        feet = round_.tops[t].made.feet
        if len(feet) != 1 or feet[0].back != 1 or k == 0 or feet[0].hold in ("ring", "space", "between"):
            continue
        below = net.rounds[k - 1]
        if feet[0].at in below.at and len(below.tops) > 2:
            base, middle = below.at[feet[0].at], mean([net.head(k, t), *net.feet(k, t)])
            refs += [table.add(middle - net.head(k - 1, base + step)) for step in (1, -1)]
    if not refs:
        return []
    return [pull(refs, [OFF] * len(refs), to_length(np.full(len(refs), STEM_OFF), np.full(len(refs), np.inf)))]


def _leans(
    net: Net, table: Table, form: Form, sides: Sides, k: int, round_: Planned, stems: Sequence[_Stem]
) -> list[Pull]:
    """Stems straight out over their feet, sheaves as one; no stitch of a sheaf lies down."""
    each, turning = net.each(round_), _about_ends(net, form, k)
    refs, outs, weights, tilts, side = [], [], [], [], []
    sheaf: list[tuple[int, float]] = []
    for group in groups(round_):
        if group[0] >= each:
            continue
        count = len(group)
        if count == 1:
            ref, out = stems[group[0]][:2]
        else:
            ways = [net.feet(k, t) for t in group]
            if not all(ways):
                continue
            ref = table.add(mean([net.head(k, t) - mean(w) for t, w in zip(group, ways, strict=True)]))
            out = table.add(mean([mean(w) for w in ways]))
            if k or not turning.intersection(group):  # a fan about the end of a chain turns as far as along it
                sheaf += [(t, OUTWARD.get(count, LEAST_OUTWARD)) for t in group if t < each]
        refs.append(ref)
        outs.append(out)
        straight = count == 1 and bool(turning) and group[0] not in turning
        about = count == 1 and bool(turning) and k > 0
        firm = ALONG_LEAN if straight else SIDE_LEAN if round_.corners or about else 1.0
        weights.append(firm * (LEAN if count == 1 else SHEAF_LEAN * count))
        tilts.append(np.exp(1j * sides.tilt(k, group)))
        side.append(sides.of(k, group[len(group) // 2]))
    if not refs:
        return []
    ids, over, turn, which = np.array(refs), np.array(outs), np.array(tilts), np.array(side)

    def lean(every: Points) -> Points:
        leaning: Points = np.abs(every[ids]) * sides.out(every, every[over], which) * turn
        return leaning

    found = [Pull(ids, np.array(weights), lean)]
    if sheaf:
        least = [share * stems[t][2] for t, share in sheaf]
        found.append(_upright([stems[t] for t, _ in sheaf], least, [sides.of(k, t) for t, _ in sheaf], sides))
    return found


def _upright(stems: Sequence[_Stem], high: Sequence[float], side: Sequence[int], sides: Sides) -> Pull:
    ids, over, which = np.array([s[0] for s in stems]), np.array([s[1] for s in stems]), np.array(side)
    least = np.array(high)

    def wish(every: Points) -> Points:
        values, out = every[ids], sides.out(every, every[over], which)
        upright: Points = values + np.maximum(least - (values * out.conj()).real, 0.0) * out
        return upright

    return Pull(ids, np.full(len(ids), UPRIGHT), wish)


def _neighbours(net: Net, table: Table, form: Form, sides: Sides, k: int, round_: Planned) -> list[Pull]:
    """Room from top to top, order along the work, and an even line."""
    each, tops = net.each(round_), round_.tops
    if len(tops) < 2:
        return []
    steps = [table.add(net.head(k, t + 1) - net.head(k, t)) for t in range(each)]
    middles = np.array([table.add(mean([net.head(k, t + 1), net.head(k, t)])) for t in range(each)])
    which = np.array([sides.between(k, t) for t in range(each)])
    ids = np.array(steps)
    bare = [t for t in range(each) if not tops[t].chains]
    found, turn = [], round_.sign * form.facing
    if bare:
        rooms = [_room(tops[t], tops[(t + 1) % len(tops)]) for t in bare]
        least = [room * (PICOT_CLOSEST if tops[t].picots else CLOSEST) for t, room in zip(bare, rooms, strict=True)]
        wide = WIDE if form.inward or _widens(net, k) else 0.0
        shared = _shared(round_) if _is_loose(net, k) else frozenset()
        gaps = _gaps(rooms, least, [WIDE if t in shared else wide for t in bare])

        def gap(every: Points) -> Points:  # two that have changed places are led back, not farther past each other
            along = sides.out(every, every[middles[bare]], which[bare]) * 1j * turn
            values = every[ids[bare]]
            crossed = 0.0 if form.half else np.minimum((values * along.conj()).real, 0.0)
            return gaps(values - 2.0 * crossed * along)

        found.append(Pull(ids[bare], np.full(len(bare), GAP), gap))

    def level(every: Points) -> Points:
        values, out = every[ids], sides.out(every, every[middles], which)
        flat: Points = values - (values * out.conj()).real * out
        return flat

    def order(every: Points) -> Points:
        values, along = every[ids], sides.out(every, every[middles], which) * 1j * turn
        ordered: Points = values + np.maximum(STEP - (values * along.conj()).real, 0.0) * along
        return ordered

    alike = len({(top.chains, top.picots) for top in tops}) == 1
    turning = _about_ends(net, form, k)
    petals = any(len(group) >= PETAL for group in groups(round_))
    if alike and not _is_loose(net, k) and ((turning and not k) or not petals):
        firm = EVEN_OVAL if form.half else EVEN
        for sort in _sorts(len(tops), each, turning):
            found.append(pull([steps[t] for t in sort], [firm] * len(sort), _evenly))
    found += [Pull(ids, _levels(net, round_), level), Pull(ids, np.full(each, ORDER), order)]
    near = [(t, j) for t in range(each) for j in (2, 3, 4) if 2 * j <= len(tops)]
    if near:
        refs = [table.add(net.head(k, t + j) - net.head(k, t)) for t, j in near]
        found.append(pull(refs, [KEEP] * len(refs), to_length(np.full(len(refs), NEAR), np.full(len(refs), np.inf))))
    return found


def _sheaves(net: Net, table: Table, form: Form, sides: Sides, k: int, round_: Planned) -> list[Pull]:
    """Stitches in one place fan open, where they are few, and evenly: along the work each stands midway between its
    neighbours there, where all three are as tall."""
    tops, found = round_.tops, list[Pull]()
    fans = [group for group in groups(round_) if group[0] < net.each(round_)]
    pairs = {t: OPEN for fan in fans if len(fan) < PETAL for t in fan[:-1] if not tops[t].bridge}
    if not form.half:
        pairs |= {t: OPEN_BESIDE for fan in fans if len(fan) >= PETAL for t in _few_together(round_, fan)}
    if pairs:
        steps = [table.add(net.head(k, t + 1) - net.head(k, t)) for t in pairs]
        least = np.array([OPENED * _room(tops[t], tops[(t + 1) % len(tops)]) for t in pairs])
        found.append(pull(steps, list(pairs.values()), to_length(least, np.full(len(steps), np.inf))))
    if not round_.corners:
        turning = _about_ends(net, form, k)
        found += _mirrored(net, table, sides, k, [fan for fan in fans if not turning.intersection(fan)])
    inner = [
        t
        for fan in fans
        for t in fan[1:-1]
        if not (tops[t - 1].bridge or tops[t].bridge) and len({own_rise(top.made) for top in tops[t - 1 : t + 2]}) == 1
    ]
    if not inner:
        return found
    off = [net.head(k, t - 1) + net.head(k, t + 1) - net.head(k, t).times(2.0) for t in inner]
    ids, heads = (np.array([table.add(ref) for ref in refs]) for refs in (off, [net.head(k, t) for t in inner]))
    which = np.array([sides.of(k, t) for t in inner])

    def fanned(every: Points) -> Points:
        values, out = every[ids], sides.out(every, every[heads], which)
        outward: Points = (values * out.conj()).real * out
        return outward

    return [*found, Pull(ids, np.full(len(ids), FANNED), fanned)]


def _few_together(round_: Planned, fan: Sequence[int]) -> list[int]:
    """The tops of a fan that the next follows with nothing between, where few stand so between chains; those that go
    into a ring stand all round it."""
    if any(f.hold == "ring" for f in round_.tops[fan[0]].made.feet):
        return []
    runs: list[list[int]] = [[]]
    for t in fan[:-1]:
        runs[-1].append(t)
        if round_.tops[t].chains:
            runs.append([])
    return [t for run in runs if len(run) < PETAL for t in run if not round_.tops[t].bridge]


def _mirrored(net: Net, table: Table, sides: Sides, k: int, fans: Sequence[Sequence[int]]) -> list[Pull]:
    """A sheaf that reads the same backwards, even on both sides of what it stands in."""
    round_, each = net.rounds[k], net.each(net.rounds[k])
    both, apart, feet, which = list[Ref](), list[Ref](), list[Ref](), list[int]()
    for fan in fans:
        if len(fan) < 3 or fan[-1] >= each or not _reads_alike(round_, fan) or not all(net.feet(k, t) for t in fan):
            continue
        foot = mean([mean(net.feet(k, t)) for t in fan])
        for t, image in zip(fan[: (len(fan) + 1) // 2], reversed(fan), strict=False):
            both.append(mean([net.head(k, t), net.head(k, image)]) - foot)
            apart.append(net.head(k, image) - net.head(k, t))
            feet.append(foot)
            which.append(sides.of(k, fan[len(fan) // 2]))
    if not both:
        return []
    middles, steps, over = (np.array([table.add(ref) for ref in refs]) for refs in (both, apart, feet))
    side = np.array(which)

    def outward(every: Points) -> Points:
        out = sides.out(every, every[over], side)
        straight: Points = (every[middles] * out.conj()).real * out
        return straight

    def level(every: Points) -> Points:
        out = sides.out(every, every[over], side)
        flat: Points = every[steps] - (every[steps] * out.conj()).real * out
        return flat

    return [Pull(ids, np.full(len(ids), MIRRORED), wish) for ids, wish in ((middles, outward), (steps, level))]


def _reads_alike(round_: Planned, fan: Sequence[int]) -> bool:
    """Whether the stitches of a sheaf, with what lies between them, are the same read backwards."""
    tops = [round_.tops[t] for t in fan]
    kinds = [(top.made.kind, top.made.legs) for top in tops]
    between = [bridge_of(round_.row, top) for top in tops[:-1]]
    return kinds == kinds[::-1] and between == [bridge[::-1] for bridge in reversed(between)]


def _about_ends(net: Net, form: Form, k: int) -> frozenset[int]:
    """The tops of a round that turn about the ends of a chain: those of its first round that go into the chains at its
    ends, where they are fans, and what stands on them; none where the work goes about no chain."""
    if not form.half:
        return frozenset()
    ends = frozenset(t for t, top in enumerate(net.rounds[0].tops) if any(_in_end(net, f) for f in top.made.feet))
    if len(ends) < 2 * END_FAN:
        return frozenset()
    found = _with_bare(net.rounds[0], ends)
    for below, round_ in itertools.pairwise(net.rounds[: k + 1]):
        feet = [{below.at.get(f.at, -1) for f in top.made.feet if f.back == 1} for top in round_.tops]
        found = _with_bare(round_, frozenset(t for t, into in enumerate(feet) if found & into))
    return found


def _in_end(net: Net, foot: Foot) -> bool:
    """Whether a foot of the first round goes into the chain at an end, which lies on the line of the foundation."""
    at = net.middle(foot)
    return at is not None and abs(at.imag) < ON_LINE


def _with_bare(round_: Planned, tops: frozenset[int]) -> frozenset[int]:
    """These tops, and a beginning chain without a foot of its own before one of them."""
    many = len(round_.tops)
    return tops | {t for t, top in enumerate(round_.tops) if not top.made.feet and (t + 1) % many in tops}


def _sorts(tops: int, each: int, turning: frozenset[int]) -> list[list[int]]:
    """The steps of an oval along its chain, and those about the ends of it; of any other round all steps."""
    ends = [t for t in range(each) if {t, (t + 1) % tops} & turning]
    return [sort for sort in ([t for t in range(each) if t not in ends], ends) if sort]


def _evenly(values: Points) -> Points:
    """All steps of a solid round as long as their mean."""
    size = np.maximum(np.abs(values), 1e-9)
    even: Points = values * (size.mean() / size)
    return even


def _levels(net: Net, round_: Planned) -> Reals:
    """How firmly each top and the next keep level: in a petal hardly, in a round that is alike all round well: it would
    sink into the hollows of the round inside and have too little room there."""
    solid = len({top.chains for top in round_.tops}) == 1
    sizes = {t: len(group) for group in groups(round_) for t in group}
    petals = any(size >= PETAL for size in sizes.values())
    plain = LEVEL * (SOLID_LEVEL if solid and not petals else 1.0)
    each = range(net.each(round_))
    return np.array([PETAL_LEVEL * LEVEL if petals and not round_.tops[t].chains else plain for t in each])


def _room(a: Top, b: Top) -> float:
    """How far apart two neighbours want to stand."""
    wide = [width_of(top.made.kind, top.made.legs, top.made.base) for top in (a, b)]
    return max(1.0, sum(wide) / 2.0 + INK_GAP, PICOT_ROOM * a.picots if a.picots else 0.0)


def _widens(net: Net, k: int) -> bool:
    """Whether a round needs more room than the one inside it; one that does not stands wide, or it would turn in."""
    return k == 0 or need_of(net.rounds[k]) > need_of(net.rounds[k - 1])


def _is_loose(net: Net, k: int) -> bool:
    """Whether a round has far fewer stitches than the one inside it has room for: they stand over what they go into, as
    drawn evenly they would lean over."""
    return k > 0 and need_of(net.rounds[k - 1]) > LOOSE * need_of(net.rounds[k])


def need_of(round_: Planned) -> float:
    """The way that what lies on a round would take."""
    return sum(2.0 * half_run(top) if top.chains else 1.0 for top in round_.tops)


def _shared(round_: Planned) -> frozenset[int]:
    """The tops that go into one place with the next."""
    return frozenset(t for group in groups(round_) for t in group[:-1])


def _gaps(rooms: Sequence[float], least: Sequence[float], widest: Sequence[float]) -> Callable[[Points], Points]:
    """The wish of neighbours for the room between them."""
    wanted, closest, wide = np.array(rooms), np.array(least), np.array(widest)

    def wish(values: Points) -> Points:
        size = np.maximum(np.abs(values), 1e-9)
        share = np.where(size > wanted, wide, CLOSE)
        there = np.maximum(size + share * (wanted - size), closest)
        spaced: Points = values * (there / size)
        return spaced

    return wish


def half_run(top: Top) -> float:
    """The way from a head to the middle of the chains after it."""
    return HALF_ONE + HALF_MORE * (top.chains - 1) + (top.picots + top.hooks * HOOK_ASIDE) / 2.0


def _arches(net: Net, table: Table, form: Form, sides: Sides, k: int, round_: Planned) -> list[Pull]:
    """Chains as long as they are, bowed outward, over a way that is not less than they need."""
    here = [t for t in range(net.each(round_)) if round_.tops[t].chains]
    if not here:
        return []
    heads = [(net.head(k, t), net.arch(k, t), net.head(k, t + 1)) for t in here]
    loose = BEHIND_LONG if any(f.back > 1 for top in round_.tops for f in top.made.feet) else 1.0
    long = np.array([half_run(round_.tops[t]) for t in here])
    hooked = np.array([round_.tops[t].hooks * HOOK_ASIDE / 2.0 for t in here])
    crossed = _under_crosses(net, k)
    low = np.array([_is_steep(round_, t) or bool({t, t + 1} & crossed) for t in here])
    share = np.where(low, LOW_SHRUNK, SHRUNK)
    shrunk = (long - hooked) * share + hooked  # room for a hook does not shrink
    halves = [table.add(ref) for a, m, b in heads for ref in (m - a, b - m)]
    most = np.repeat(long, 2)
    spans = [table.add(b - a) for a, _, b in heads]
    least = np.array([_span(net, k, t) for t in here])
    bows = np.array([table.add(m - mean([a, b])) for a, m, b in heads])
    up = np.array([sides.bow(k, t) for t in here])
    chords, which = np.array(spans), np.array([sides.between(k, t) for t in here])
    rises = _rises(bows, chords, _middles(table, heads), which, sides)

    def bow(every: Points) -> Points:  # a run too long for its way must rise, or it would be caught lying flat
        risen, normal = rises(every)
        short = np.sqrt(np.maximum(shrunk**2 - np.abs(every[chords]) ** 2 / 4.0, 0.0))
        bowed: Points = np.maximum(risen, np.maximum(short, up)) * normal
        return bowed

    def even(every: Points) -> Points:
        risen, normal = rises(every)
        risen_alike: Points = max(float(risen.mean()), 0.0) * normal
        return risen_alike

    alike = len({(top.chains, top.picots) for top in round_.tops}) == 1 and not round_.corners
    firm = np.full(len(bows), BOWED_OVAL if form.half else BOWED)
    return [
        *_arches_apart(net, table, k, round_),
        *([Pull(bows, firm, even)] if alike else []),
        pull(halves, [HALF] * len(halves), to_length(np.repeat(shrunk, 2), most * loose)),
        pull(spans, np.where(low, LOW_SPAN_FIRM, SPAN), to_length(least, np.full(len(least), np.inf))),
        Pull(bows, np.full(len(bows), BOW), bow),
    ]


#: The ends of an arch and its middle.
_Arch = tuple[Ref, Ref, Ref]


def _middles(table: Table, arches: Sequence[_Arch]) -> Ids:
    """The references of the middles between the ends of arches."""
    return np.array([table.add(mean([a, b])) for a, _, b in arches])


def _rises(bows: Ids, chords: Ids, middles: Ids, which: Ids, sides: Sides) -> Callable[[Points], tuple[Reals, Points]]:
    """How far arches rise over their ends, and which way that is."""

    def rises(every: Points) -> tuple[Reals, Points]:
        normal = 1j * every[chords] / np.maximum(np.abs(every[chords]), 1e-9)
        out = sides.out(every, every[middles], which)
        normal = np.where((normal * out.conj()).real < 0.0, -normal, normal)
        return (every[bows] * normal.conj()).real, normal

    return rises


def unsagged(net: Net, table: Table, sides: Sides) -> list[Pull]:
    """The pulls that keep chains from sagging under the line of the heads beside them, whatever hangs on them. They are
    for rounds that lie already: begun with them, small rounds may be caught turned inside out."""
    every = [[t for t in range(net.each(round_)) if round_.tops[t].chains] for round_ in net.rounds]
    return [_unsagged(net, table, sides, k, here) for k, here in enumerate(every) if here]


def _unsagged(net: Net, table: Table, sides: Sides, k: int, here: Sequence[int]) -> Pull:
    arches = [(net.head(k, t), net.arch(k, t), net.head(k, t + 1)) for t in here]
    bows = np.array([table.add(m - mean([a, b])) for a, m, b in arches])
    chords = np.array([table.add(b - a) for a, _, b in arches])
    which = np.array([sides.between(k, t) for t in here])
    rises = _rises(bows, chords, _middles(table, arches), which, sides)

    def level(every: Points) -> Points:
        risen, normal = rises(every)
        lifted: Points = every[bows] - np.minimum(risen, 0.0) * normal
        return lifted

    return Pull(bows, np.full(len(bows), UNSAGGED), level)


def _under_crosses(net: Net, k: int) -> frozenset[int]:
    """The tall tops of a round that a cross of the next one stands on; those past the last once more."""
    if k + 1 >= len(net.rounds):
        return frozenset()
    round_, many = net.rounds[k], len(net.rounds[k].tops)
    single = [top.made for top in net.rounds[k + 1].tops if len(top.made.feet) == 1]
    crosses = [made for made in single if LEAST_CROSS <= own_rise(made) <= LOW]
    under = {round_.at[s.feet[0].at] for s in crosses if s.feet[0].back == 1 and s.feet[0].at in round_.at}
    tall = {t for t in under if own_rise(round_.tops[t].made) >= LOW + UNEQUAL}
    return frozenset(tall | {t + many for t in tall})


def _is_steep(round_: Planned, t: int) -> bool:
    """Whether the chains after a top lead from a cross to a far taller stitch, or the other way."""
    high = [own_rise(round_.tops[at % len(round_.tops)].made) for at in (t, t + 1)]
    return LEAST_CROSS <= min(high) <= LOW and max(high) >= min(high) + UNEQUAL


def _span(net: Net, k: int, t: int) -> float:
    """The least way from head to head over the chains after a top; low stitches in one place would lie down over it,
    and over those that stand on neighbours the chains stand up as a loop."""
    tops = net.rounds[k].tops
    top, after = tops[t], tops[(t + 1) % len(tops)]
    least = SPANS[min(top.chains, len(SPANS)) - 1]
    if top.made.feet and top.made.feet == after.made.feet and max(own_rise(s.made) for s in (top, after)) <= LOW:
        least = min(least, LOW_SPAN)
    if top.chains >= LOOPED and _on_neighbours(net, k, top, after):
        least = min(least, NEIGHBOURS_SPAN)
    return least + top.picots


def _on_neighbours(net: Net, k: int, top: Top, after: Top) -> bool:
    """Whether two stitches stand on two that follow each other in the round inside, with nothing between."""
    if not k or any(len(each.made.feet) != 1 or each.made.feet[0].back != 1 for each in (top, after)):
        return False
    below = net.rounds[k - 1]
    at, next_at = (below.at.get(each.made.feet[0].at) for each in (top, after))
    if at is None or next_at is None or below.tops[min(at, next_at)].bridge:
        return False
    return abs(at - next_at) == 1


def _arches_apart(net: Net, table: Table, k: int, round_: Planned) -> list[Pull]:
    """The tops of arches off those of their neighbours, and off the stitches beyond their ends."""
    tops, many = round_.tops, len(round_.tops)
    if many < 4:
        return []
    here = [t for t in range(net.each(round_)) if tops[t].chains]
    off = [net.arch(k, t + 1) - net.arch(k, t) for t in here if tops[(t + 1) % many].chains]
    off += [net.head(k, t + step) - net.arch(k, t) for t in here for step in (-1, 2)]
    refs = [table.add(ref) for ref in off]
    return [pull(refs, [KEEP] * len(refs), to_length(np.full(len(refs), ARCH_OFF), np.full(len(refs), np.inf)))]
