"""The ground a row is worked over: the row below laid out in the order in which the hook meets it.

A ground is a line of slots. A stitch is one slot, a run of n chains n slots, a picot one. Nouns ("st", "dc",
"ch-3 sp", "shell", "2-dc group") are found on it by `Ground.find`.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import field
from itertools import groupby, pairwise

from ...made_late import dataclass, replace
from ...pattern.lexicon import GATHERED, RAISED, height_of, together
from ...pattern.tree import MIDDLE_OF, PETAL_ST, Noun
from .fabric import Row, Stitch, counts
from .shapes import Shape, run_size, runs_of, without_size
from .tiles import tiles_of


@dataclass(frozen=True, slots=True)
class Slot:
    """One thing the hook can go into: item `item` of the row below, chain `part` of it (0-based, in working order)."""

    item: int
    stitch: Stitch
    part: int = 0
    first: bool = True


@dataclass(frozen=True, slots=True)
class Hit:
    """A noun found: slots `start` to `end` (not included)."""

    start: int
    end: int


def slots_of(row: Row, *, backwards: bool) -> tuple[Slot, ...]:
    """The slots of a row in the order a row worked over it meets them. Chains that the row itself was worked into lie
    under its stitches."""
    out: list[Slot] = []
    under = {(f.at, f.part) for s in row.stitches for f in s.feet if not f.back and f.hold == "chain"}
    items = range(len(row.stitches) - 1, -1, -1) if backwards else range(len(row.stitches))
    for item in items:
        stitch = row.stitches[item]
        if counts(stitch) or stitch.role in ("picot", "foundation", "ring"):
            out.append(Slot(item, stitch))
        elif stitch.role == "chain":
            parts = [part for part in range(stitch.chains) if (item, part) not in under]
            free = stitch if len(parts) == stitch.chains else replace(stitch, chains=len(parts))
            out += [Slot(item, free, part, i == 0) for i, part in enumerate(parts[::-1] if backwards else parts)]
    return tuple(out)


def _skipped_at_first(stitch: Stitch, chains: int) -> bool:
    return stitch.role == "turning" and not stitch.feet and stitch.chains == chains


#: So many chains are called a picot where nothing closes them (common practice, no source).
_PICOT_LOOP = range(3, 6)
#: So many stitches in one place, within more of them, are an increase (common practice, no source).
_PAIR = 2


#: A flower has so many petals at least, and a petal is of so many kinds of stitch.
_PETALS, _KINDS_OF_PETAL = 3, 2


@dataclass(slots=True)
class Ground:
    """Slots in working order, with what is remembered of looking for nouns on them. `loose` also counts chains as
    stitches (the reading in which a pattern's "st" includes chains), `wide_gaps` those beside a group of any kind as
    gaps "between 3-dc groups". `shapes` are those of the pattern's own groups. `stands` remembers what every slot
    stands over on a ground below."""

    row: Row
    slots: tuple[Slot, ...]
    loose: bool = False
    wide_gaps: bool = False
    shapes: Mapping[str, Shape] = field(default_factory=dict, repr=False, compare=False)
    stands: tuple[Ground, Sequence[Hit]] | None = field(default=None, repr=False, compare=False)
    _hits: dict[Noun, list[Hit]] = field(default_factory=dict)
    _starts: dict[Noun, list[int]] = field(default_factory=dict)
    _stitches: list[int] = field(default_factory=list)
    _item_slots: dict[int, tuple[int, int]] = field(default_factory=dict)
    _has_spaces: bool | None = field(default=None, repr=False, compare=False)

    def hits(self, noun: Noun) -> list[Hit]:
        """Every place where the noun stands, in working order."""
        if noun not in self._hits:
            self._hits[noun] = self._look(noun)
            self._starts[noun] = [h.start for h in self._hits[noun]]
        return self._hits[noun]

    def find(self, noun: Noun, after: int) -> Hit | None:
        """The first of them at or after slot `after`."""
        hits = self.hits(noun)
        at = bisect_left(self._starts[noun], after)
        return hits[at] if at < len(hits) else None

    def stops_at(self, hit: Hit) -> int:
        """Where work as far as a place ends: at the space of a corner that has one, before the rest of it."""
        inside = (at for at in range(hit.start, hit.end) if self.slots[at].stitch.role == "chain")
        return next(inside, hit.start)

    def within(self, noun: Noun, start: int, end: int) -> list[Hit]:
        """Those that begin at or after slot `start` and end by slot `end`."""
        hits = self.hits(noun)
        first = bisect_left(self._starts[noun], start)
        last = bisect_right(self._starts[noun], end)
        return [h for h in hits[first:last] if h.end <= end]

    def from_about(self, noun: Noun, slot: int) -> Iterator[Hit]:
        """From the one before the first at or after a slot, on: the slot may lie inside that one."""
        hits = self.hits(noun)
        for at in range(max(bisect_left(self._starts[noun], slot) - 1, 0), len(hits)):
            yield hits[at]

    def left(self, noun: Noun, after: int) -> int:
        """How many of them stand at or after slot `after`."""
        return len(self.hits(noun)) - bisect_left(self._starts[noun], after)

    def stitches_between(self, start: int, end: int) -> int:
        """How many stitches (not chains, not picots) stand in slots start to end."""
        if not self._stitches:
            total = [0]
            for slot in self.slots:
                total.append(total[-1] + (counts(slot.stitch) or slot.stitch.role == "foundation"))
            self._stitches = total
        end = min(end, len(self.slots))
        return self._stitches[end] - self._stitches[start] if end > start else 0

    def turned_to(self, start: int) -> Ground:
        """The same ground round a ring, beginning at slot `start`."""
        return Ground(self.row, self.slots[start:] + self.slots[:start], self.loose, self.wide_gaps, self.shapes)

    def ends_with_group(self, slot: int) -> bool:
        """Whether the group that a space stands in is the last thing on the ground (a shell worked in its middle)."""
        nouns = (Noun("group"), *map(Noun, self.shapes))
        return any(h.start <= slot < h.end == len(self.slots) for noun in nouns for h in self.hits(noun))

    def rest_of_first_group(self, slot: int) -> bool:
        """Whether all from a slot on belongs to the group in whose middle the ground begins."""
        items = {self.slots[0].item, *(each.item for each in self.slots[slot:])} if self.slots else set()
        return any(items <= set(range(first, first + length)) for first, length, _ in self.row.groups)

    def begins_within(self, group: Hit) -> bool:
        """Whether the ground begins in the middle of a group, of which this is the rest."""
        ends = {self.slots[group.start].item, self.slots[-1].item}
        return len(ends) > 1 and any(ends <= set(range(first, first + length)) for first, length, _ in self.row.groups)

    def past_group(self, slot: int) -> int:
        """Past the group that a space stands in: a shell worked in its middle is done with."""
        return max((h.end for h in self.hits(Noun("group")) if h.start <= slot < h.end), default=0)

    @property
    def has_spaces(self) -> bool:
        if self._has_spaces is None:
            self._has_spaces = any(s.stitch.role == "chain" for s in self.slots)
        return self._has_spaces

    def span_of(self, item: int) -> Hit | None:
        """All slots of an item of the row below; None where the hook does not meet it."""
        found = self._places().get(item)
        return Hit(*found) if found else None

    def of_item(self, item: int, part: int | None = None) -> int | None:
        """The slot of an item (and part) of the row below."""
        start, end = self._places().get(item, (0, 0))
        found = (at for at in range(start, end) if part is None or self.slots[at].part == part)
        return next(found, None)

    # -- looking --------------------------------------------------------------------------------------------------

    def _look(self, noun: Noun) -> list[Hit]:
        if noun.name == "hole":
            return self._runs(0) if self.has_spaces else self._look(Noun("st"))
        if noun.name == "sp" and noun.of.startswith("in "):
            return self._spaces_in(noun.of.removeprefix("in ")) or self._look(Noun("sp", noun.size))
        if noun.name in ("sp", "lp", "mesh") and (noun.name == "mesh" or self.has_spaces):
            if noun.of.startswith("between"):
                return self._runs_between(noun.size, noun.of)
            if noun.of == MIDDLE_OF:
                return self._middle_space(noun.size) or self._look(replace(noun, of=""))
            return self._runs(noun.size) or self._risen(noun)
        if noun.name == "petal" and not self._is_group("petal"):
            return self._petals(noun)
        if noun.name == "tip":
            return [Hit(i, i + 1) for i, s in enumerate(self.slots) if counts(s.stitch) or s.stitch.role == "picot"]
        if noun.name == "corner sp":
            return self._corner_spaces(noun.size)
        if noun.name == "corner st":
            return self._corner_stitches(noun.of)
        if noun.name == PETAL_ST:
            apart = outside_groups(self.row)
            return [Hit(i, i + 1) for i, s in enumerate(self.slots) if s.item in apart and matches(s, Noun(noun.of))]
        if noun.name == "middle st":
            there = self._marked() or self._middle()
            return [h for h in there if matches(self.slots[h.start], Noun(noun.of), loose=self.loose)]
        if noun.name in ("marker", "middle"):
            return self._marked() or (self._middle() if noun.name == "middle" else [])
        if noun.name == "gap" and self.has_spaces and not self._gaps():
            return self._runs(0)
        if noun.name == "lp" and not noun.size:
            return self._look(Noun("st"))  # "in every loop" of a row of plain stitches
        if noun.name in ("sp", "lp", "gap"):
            if noun.name == "gap":
                between = self._between(noun) if noun.of and not self.wide_gaps else []
                if not between and noun.of == "cluster" and self.has_spaces:
                    return self._runs(0)  # chains lie between them
                return between or self._gaps()
            return self._gaps() if not noun.size else self._risen(noun)
        if noun.name in ("shell", "group", "corner", "V-st", "block") or self._is_group(noun.name):
            if noun == Noun("block") and noun.name in self.shapes:
                return self._tiles() or self._shaped(noun.name) or self._groups(noun)
            shaped = self._shaped(noun.name) if not noun.size else []
            if shaped and not self._is_group(noun.name):
                return shaped
            found = self._groups(noun)
            if noun.name == "corner" and self.has_spaces:
                found = self._open_corners([h for h in found if not self._holds_all(h)])
            if noun == Noun("block") and not found:
                found = self._groups(Noun("shell"))
            if noun == Noun("group") and self._parted(found):
                return self._stretches(noun)
            beside = self._wide_stretches(noun, found) if noun.name == "block" else shaped
            return _with_others(found, beside) or self._stretches(noun)
        found = [Hit(i, i + 1) for i, slot in enumerate(self.slots) if matches(slot, noun, loose=self.loose)]
        if noun.name == "picot" and not found:
            return self._picot_loops()
        groups = [] if found or noun.name not in ("cluster", "cl") else self._groups(Noun("group"))
        return found or self._shaped(noun.name) or groups  # "between clusters" of a granny stripe: its groups

    def _picot_loops(self) -> list[Hit]:
        """Loops that stand as picots do, between stitches worked into one place: "(2 sc, ch 3, 2 sc) in each sp"."""
        inside = {item for first, length, _ in self.row.groups for item in range(first + 1, first + length - 1)}
        return [h for h in self._runs(0) if self.slots[h.start].item in inside and h.end - h.start in _PICOT_LOOP]

    def _wide_stretches(self, noun: Noun, groups: list[Hit]) -> list[Hit]:
        """What stands between chains; where groups are in the row, of two stitches or more."""
        return [h for h in self._stretches(noun) if not groups or h.end - h.start > 1]

    def _parted(self, groups: list[Hit]) -> bool:
        """Whether chains part the row into runs that hold one group each and more beside it: "sc in next 3 sc, 2 sc in
        next sp, ch 4" makes groups of five."""
        runs = self._stretches(Noun("group"))
        if len(runs) > 1 and len(groups) > len(runs) and self._grown_in(runs, groups):
            return True
        if not len(runs) == len(groups) > 1:
            return False
        both = list(zip(runs, groups, strict=True))
        within = all(run.start <= group.start and group.end <= run.end for run, group in both)
        return within and all(group.end - group.start < run.end - run.start for run, group in both)

    def _grown_in(self, runs: list[Hit], groups: list[Hit]) -> bool:
        """Whether all groups are two stitches in one place, within runs of one length that hold more: increases."""
        pairs = all(h.end - h.start == _PAIR for h in groups)
        alike = len({run.end - run.start for run in runs}) == 1
        held = [sum(run.start <= h.start and h.end <= run.end for h in groups) for run in runs]
        return pairs and alike and all(n * _PAIR < run.end - run.start for n, run in zip(held, runs, strict=True))

    def _tiles(self) -> list[Hit]:
        """The blocks of a row worked from corner to corner, by their posts; also the one begun in chains of its own,
        which is not told as the others are."""
        spans = (self._span(tile.posts[0], tile.posts[-1] + 1) for tile in tiles_of(self.row))
        return sorted((h for h in spans if h), key=lambda h: h.start)

    def _shaped(self, name: str) -> list[Hit]:
        """Groups of the pattern's own that were told stitch by stitch instead of by their name."""
        shape = self.shapes.get(name.lower())
        if not shape:
            return []
        hits = (self._span(first, end) for first, end in self._in_one_place(shape) or runs_of(shape, self.row.stitches))
        return sorted((h for h in hits if h), key=lambda h: h.start)

    def _in_one_place(self, shape: Shape) -> list[tuple[int, int]]:
        """The stretches of a shape, first and end, where some are what was worked into one place: these, and those that
        share no stitch with what stands in another. Three of five tr, a chain and the half of a shell are no shell."""
        items = self.row.stitches
        places = [(first, first + length) for first, length, _ in self.row.groups if length > 1]
        whole = [(a, b) for a, b in places if runs_of(shape, items[a:b]) == [(0, b - a)]]
        runs = runs_of(shape, items)
        apart = [run for run in runs if all(run[1] <= a or b <= run[0] or self._lifted(run, (a, b)) for a, b in places)]
        return sorted((*whole, *apart)) if whole else []

    def _lifted(self, run: tuple[int, int], place: tuple[int, int]) -> bool:
        """Whether a stretch is what was worked into one place with the beginning chain that led up to it."""
        first = self.row.stitches[run[0]]
        return place == (run[0] + 1, run[1]) and bool(first.chains) and counts(first)

    def _is_group(self, name: str) -> bool:
        return any(named_as(g[2], name) for g in self.row.groups)

    def _risen(self, noun: Noun) -> list[Hit]:
        """The skipped chains that the first row began with, as the space beside them: "(sl st, ch 3, 3 dc) in next ch-3
        sp" over a first block of "dc in 4th ch from hook"."""
        if noun.name == "mesh" or not noun.size:
            return []
        there = (at for at, slot in enumerate(self.slots) if _skipped_at_first(slot.stitch, noun.size))
        return [Hit(at, at + 1) for at in there]

    def _runs(self, size: int) -> list[Hit]:
        out = []
        for at, slot in enumerate(self.slots):
            if (
                slot.stitch.role == "chain"
                and slot.first
                and size in (0, slot.stitch.chains, run_size(self.row, slot.item))
            ):
                out.append(Hit(at, at + slot.stitch.chains))
        return out

    def _runs_between(self, size: int, of: str) -> list[Hit]:
        """Spaces of a size that lie between groups, not inside one; all of that size where none does. `of` "between
        dc": those with a stitch of that kind on both sides, wherever they lie."""
        runs, kind = self._runs(size), of.removeprefix("between").strip()
        if kind:
            return self._with_beside(runs, kind) or self._with_beside(self._runs(0), kind) or runs
        inside: set[int] = set()
        for first, length, _ in self.row.groups:
            inside.update(range(first + 1, first + length - 1))
        return [h for h in runs if self.slots[h.start].item not in inside] or runs

    def _spaces_in(self, name: str) -> list[Hit]:
        """The spaces in groups of a name ("V-st sp"); in a row without chains, the gaps in the middle of them."""
        groups = self.hits(Noun(name))
        if not self.has_spaces:
            even = (h for h in groups if (h.end - h.start) % 2 == 0)
            return [Hit(at, at) for at in ((h.start + h.end) // 2 for h in even)]
        inside = {at for h in groups for at in range(h.start, h.end)}
        spaces = [h for h in self._runs(0) if h.start in inside or self._in_one(h)]
        return spaces if any(h.start in inside for h in spaces) else []

    def _in_one(self, run: Hit) -> bool:
        """Whether the stitches on both sides of chains were worked into one place."""
        feet = [{(f.at, f.part, f.back) for f in slot.stitch.feet} for slot in self._beside(run)]
        return len(feet) > 1 and bool(feet[0] & feet[1])

    def _with_beside(self, runs: list[Hit], kind: str) -> list[Hit]:
        return [h for h in runs if all(matches(s, Noun(kind)) for s in self._beside(h))]

    def misses_between(self, noun: Noun) -> str:
        """A space said to be of a size and to lie between stitches of a kind, where those between them are of others;
        "" where one is as it is said, or none lies so."""
        said = noun.of.startswith("between ") and noun.name in ("sp", "lp") and noun.size
        kind = noun.of.removeprefix("between").strip() if said else ""
        if not kind or self._with_beside(self._runs(noun.size), kind):
            return ""
        return f"ch-{noun.size} sp between {kind}" if self._with_beside(self._runs(0), kind) else ""

    def _beside(self, hit: Hit) -> list[Slot]:
        """The slots on both sides of a stretch; round a ring the first stands behind the last."""
        before = self.slots[hit.start - 1] if hit.start or self.row.joined else None
        after = self.slots[hit.end % len(self.slots)] if hit.end < len(self.slots) or self.row.joined else None
        return [slot for slot in (before, after) if slot is not None]

    def _petals(self, noun: Noun) -> list[Hit]:
        """What was worked into one place and spreads, chains and all; else what stands between chains."""
        most = max((length for _, length, _ in self.row.groups), default=0)
        found = [self._span(first, first + length) for first, length, _ in self.row.groups if length == most > 2]
        whole = sorted((h for h in found if h), key=lambda h: h.start)
        return whole or self._groups(Noun("block")) or self._stretches(noun)

    def has_corners(self, noun: Noun) -> bool:
        """Whether corners were worked in the row: a stretch of stitches is none."""
        return bool(self._groups(noun) or self._corner_spaces(0) if noun.name == "corner" else self.hits(noun))

    def _corner_spaces(self, size: int) -> list[Hit]:
        """Chain spaces with stitches of one group on both sides; where no group has one, the largest spaces."""
        inside: set[int] = set()
        for first, length, _ in self.row.groups:
            in_ring = any(f.hold == "ring" for s in self.row.stitches[first : first + length] for f in s.feet)
            if not in_ring and not self._is_all(first, first + length):
                inside.update(range(first + 1, first + length - 1))
        runs = self._runs(size)
        corners = [h for h in runs if self.slots[h.start].item in inside]
        most = max((h.end - h.start for h in runs), default=0)
        return corners or [h for h in runs if h.end - h.start == most]

    def _is_all(self, first: int, end: int) -> bool:
        """Whether all stitches of the row and several of its spaces, or one of what is worked into the ring, lie
        between two of its items: no corner of it."""
        made = [i for i, s in enumerate(self.row.stitches) if counts(s) and s.role in ("turning", "stitch")]
        chains = sum(s.role == "chain" for s in self.row.stitches[first:end])
        in_ring = any(f.hold == "ring" for s in self.row.stitches[first:end] for f in s.feet)
        if chains == 1 and in_ring and self.row.stitches[made[0]].role == "turning":
            made = made[1:]  # the group that goes on behind the beginning chain
        return (chains > 1 or in_ring) and chains > 0 and bool(made) and first <= made[0] and made[-1] < end

    def _holds_all(self, hit: Hit) -> bool:
        items = [slot.item for slot in self.slots[hit.start : hit.end]]
        return bool(items) and self._is_all(min(items), max(items) + 1)

    def _middle_space(self, size: int) -> list[Hit]:
        """The space of the one group that has one, as at the point of a shawl; none where several have."""
        inside = {i for first, length, _ in self.row.groups for i in range(first + 1, first + length - 1)}
        there = [h for h in self._runs(size) if self.slots[h.start].item in inside]
        return there if len(there) == 1 else []

    def _open_corners(self, groups: list[Hit]) -> list[Hit]:
        """Corners where there are spaces: groups with chains inside before those without; where all stitches stand in
        groups between spaces of two chains or more, or of one behind each group, as on the first round of a square or
        the second of a hexagon, those spaces."""
        closed = [self._without_chains_behind(h) for h in groups]
        chained = [h for h in closed if any(self.slots[i].stitch.role == "chain" for i in range(h.start, h.end))]
        spaces = self._corner_spaces(0)
        if chained or not spaces:
            return chained or groups
        grouped = {i for first, length, _ in self.row.groups for i in range(first, first + length)}
        alone = any(counts(s) and s.role == "stitch" and i not in grouped for i, s in enumerate(self.row.stitches))
        wide = [h for h in spaces if h.end - h.start > 1]
        if not wide and len(spaces) > 1 and all(h.end - h.start <= _PAIR for h in closed):
            return spaces  # of pairs with a chain behind each
        if alone or (not wide and len(spaces) != len(groups)):
            return groups or wide
        return wide or spaces

    def _without_chains_behind(self, hit: Hit) -> Hit:
        """A group without the chains that lead on from it, as the last of "(3 dc, ch 2, 3 dc, ch 1) in each sp"."""
        end = hit.end
        while end - 1 > hit.start and self.slots[end - 1].stitch.role == "chain":
            end -= 1
        return Hit(hit.start, end)

    def _corner_stitches(self, kind: str) -> list[Hit]:
        """The middle stitch of every group of an odd number of stitches worked into one place."""
        out = []
        for first, length, name in self.row.groups:
            items = self.row.stitches[first : first + length]
            made = [at for at, s in enumerate(items, first) if counts(s)]
            corner = _group_fits(Noun("corner"), name, [self.row.stitches[at] for at in made], items)
            if not corner or not len(made) % 2:
                continue
            slot = self.of_item(made[len(made) // 2])
            if slot is not None and matches(self.slots[slot], Noun(kind or "st")):
                out.append(Hit(slot, slot + 1))
        return sorted(out, key=lambda h: h.start)

    def _marked(self) -> list[Hit]:
        """Where markers of shaping hang: in decreases of three or more, else in the middle of groups of an odd number
        (common practice, no source)."""
        narrowed = [i for i, s in enumerate(self.slots) if counts(s.stitch) and together(s.stitch.kind) > 2]
        return [Hit(i, i + 1) for i in narrowed] or self._corner_stitches("st")

    def _middle(self) -> list[Hit]:
        """The middle one of an odd number of stitches."""
        at = [i for i, s in enumerate(self.slots) if counts(s.stitch) or s.stitch.role == "foundation"]
        return [Hit(at[len(at) // 2], at[len(at) // 2] + 1)] if len(at) % 2 else []

    def _gaps(self) -> list[Hit]:
        """Between groups: gaps are empty hits at the slot after them."""
        groups = self._groups(Noun("group"))
        ends = {h.start for h in groups} | {h.end for h in groups}
        bounds = sorted(ends | self._comes_back() | self._clusters_meet())
        apart = not bounds or (len(groups) == 1 and self._one_group())
        if apart:
            bounds = list(range(1, len(self.slots) + 1))
        whole = apart or (len(groups) > 1 and groups[0].start == 0 and len(self.slots) in bounds)
        return [Hit(b, b) for b in bounds if 0 < b < len(self.slots) + (whole and self._closes())]

    def _closes(self) -> bool:
        """Whether the end of the ground is where a joined round begins."""
        first = min((slot.item for slot in self.slots), default=-1)
        return self.row.joined and bool(self.slots) and self.slots[0].item == first

    def _clusters_meet(self) -> set[int]:
        """Where two stitches stand side by side that are gathered from several, each a group to look at; where the row
        has other groups."""
        gathered = [slot.stitch.kind in GATHERED or together(slot.stitch.kind) > 1 for slot in self.slots]
        return {at for at in range(1, len(gathered)) if gathered[at - 1] and gathered[at]} if self.row.groups else set()

    def _comes_back(self) -> set[int]:
        """Where, on a ground turned to begin inside a group, the rest of that group begins at its end."""
        if not self.slots:
            return set()
        places = self._places()
        for first, length, _ in self.row.groups:
            if first <= self.slots[0].item < first + length:
                stand = [places[i] for i in range(first, first + length) if i in places]
                return {start for start, end in stand if start and not any(e == start for _, e in stand)}
        return set()

    def _one_group(self) -> bool:
        """Whether all stitches but the beginning chain stand in one group, as on the first round in a ring."""
        first, length, _ = self.row.groups[0]
        others = (s for at, s in enumerate(self.row.stitches) if not first <= at < first + length)
        return not any(counts(s) and s.role == "stitch" for s in others)

    def _between(self, noun: Noun) -> list[Hit]:
        """ "Between 3-dc groups": the gaps that have such a group, or that half of one, on both sides."""
        if noun.of == "group" and (petals := self._petals_begin()):
            return [Hit(at, at) for at in (*petals, len(self.slots))]
        group = Noun("group", noun.size, noun.of if noun.size else "")
        if noun.of == "cluster":
            ends = {h.end for h in self.hits(Noun("cluster"))}
            return [Hit(h.start, h.start) for h in self.hits(Noun("cluster")) if h.start in ends]
        groups = sorted((*self._groups(group), *self._halves(group)), key=lambda h: h.start)
        ends = {h.end for h in groups}
        back = {at for at in self._comes_back() if at in ends and noun.size in (0, len(self.slots) - at)}
        whole = len(self.slots)
        closed = {whole} if len(groups) > 1 and groups[0].start == 0 and whole in ends and self._closes() else set()
        return [Hit(at, at) for at in sorted({h.start for h in groups if h.start in ends} | back | closed)]

    def _petals_begin(self) -> list[int]:
        """Where the petals but the first begin that a round in a ring tells as what comes again, "(sc, hdc, 3 dc, hdc,
        sc) 5 times in ring"; none for any other row."""
        first, length, times = self.row.repeat or (0, 0, 0)
        made = [s for s in self.row.stitches if counts(s)]
        kinds = {s.kind for s in self.row.stitches[first : first + length] if counts(s)}
        if times < _PETALS or len(kinds) < _KINDS_OF_PETAL or any(foot.hold != "ring" for s in made for foot in s.feet):
            return []
        places = self._places()
        begun = [places[first + n * length][0] for n in range(1, times) if first + n * length in places]
        return begun if len(begun) == times - 1 and begun == sorted(begun) else []

    def misses_groups(self, noun: Noun) -> str:
        """The groups, by the number of their stitches, between which a gap is said to lie, where the row has groups, of
        that stitch, and none of them is so large; else ""."""
        kind = Noun("group", noun.size, noun.of)
        if not noun.size or height_of(noun.of) is None or self._groups(kind):
            return ""
        made = [self.row.stitches[a : a + n] for a, n, _ in self.row.groups]
        sizes = {sum(map(counts, items)) for items in made}
        for items in made:  # "(3 dc, ch 2, 3 dc)" is two groups of 3 dc to some
            sizes |= {len(list(side)) for counted, side in groupby(items, key=counts) if counted}
        return f"{noun.size}-{noun.of} group" if sizes and noun.size not in sizes else ""
    def _halves(self, noun: Noun) -> list[Hit]:
        """The parts, of a size, of groups that chains part: "(3 dc, ch 3, 3 dc)" is two groups of three to look at."""
        if not noun.size:
            return []
        whole = [range(h.start, h.end) for h in self._groups(Noun("group"))]
        inside = {at for h in whole if any(self.slots[i].stitch.role == "chain" for i in h) for at in h}
        runs = (h for h in self._stretches(noun) if inside.issuperset(range(h.start, h.end)))
        return [h for h in runs if all(matches(self.slots[at], Noun(noun.of or "st")) for at in range(h.start, h.end))]

    def _groups(self, noun: Noun) -> list[Hit]:
        """Things worked into one place, that fit the noun."""
        out = []
        whole = min((length for _, length, name in self.row.groups if named_as(name, noun.name)), default=0)
        for first, length, name in self.row.groups:
            items = self.row.stitches[first : first + length]
            made = [s for s in items if counts(s)]
            half = not name and length < whole
            if half or not _group_fits(noun, name, made, items):
                continue
            hit = self._span(first, first + length)
            if hit:
                out.append(hit)
        out.sort(key=lambda h: h.start)
        return self._full_shells(out) if noun.name == "shell" and not noun.size and not self._is_group("shell") else out

    def _full_shells(self, hits: list[Hit]) -> list[Hit]:
        """Half shells at the edges are no shells where whole ones are made."""
        most = max((h.end - h.start for h in hits), default=0)
        return [h for h in hits if h.end - h.start == most]

    def _span(self, first: int, last: int) -> Hit | None:
        places = self._places()
        found = [places[i] for i in range(first, last) if i in places]
        if not found:
            return None
        found.sort()
        end = found[0][1]
        for start, stop in found[1:]:
            # a ground turned to begin inside a group has the rest of it at its end
            end = stop if start == end else end
        return Hit(found[0][0], end)

    def _places(self) -> dict[int, tuple[int, int]]:
        """Slots of every item of the row, as (start, end)."""
        if not self._item_slots:
            for at, slot in enumerate(self.slots):
                start, _ = self._item_slots.get(slot.item, (at, at))
                self._item_slots[slot.item] = (start, at + 1)
        return self._item_slots

    def _stretches(self, noun: Noun) -> list[Hit]:
        """Runs of stitches between chains or picots ("block", "9-sc group" where picots part the groups); those of a
        size also where groups stand beside each other without a chain ("3-dc group" in a corner of two)."""
        out: list[Hit] = []
        start: int | None = None
        for at in range(len(self.slots) + 1):
            inside = at < len(self.slots) and counts(self.slots[at].stitch) and self.slots[at].stitch.kind != "sl st"
            if inside and start is None:
                start = at
            elif not inside and start is not None:
                out += self._of_size(Hit(start, at), noun)
                start = None
        return out

    def _of_size(self, run: Hit, noun: Noun) -> list[Hit]:
        """A run of stitches, or those parts of it, as groups part it, that a noun may mean."""
        least = 3 if noun.name in ("shell", "V-st") else 1
        if not noun.size or run.end - run.start == noun.size:
            return [run] if run.end - run.start >= least else []
        groups = self._groups(Noun("group"))
        inside = sorted(at for h in groups for at in (h.start, h.end) if run.start < at < run.end)
        parts = (Hit(a, b) for a, b in pairwise((run.start, *inside, run.end)))
        return [part for part in parts if part.end - part.start == noun.size >= least] if inside else []


#: A group of so many stitches spreads as a petal does.
_PETAL = 3


def outside_groups(row: Row) -> set[int]:
    """The items of a row that stand in none of its petals."""
    petals = (range(first, first + length) for first, length, _ in row.groups)
    inside = {at for petal in petals if sum(counts(row.stitches[at]) for at in petal) >= _PETAL for at in petal}
    return {at for at, stitch in enumerate(row.stitches) if at not in inside and stitch.role == "stitch"}


def _with_others(hits: list[Hit], others: list[Hit]) -> list[Hit]:
    """Places, and those of the others that lie apart from them, in order."""
    apart = [o for o in others if all(o.end <= h.start or h.end <= o.start for h in hits)]
    return sorted((*hits, *apart), key=lambda h: h.start)


def matches(slot: Slot, noun: Noun, *, loose: bool = False) -> bool:
    """Whether the hook may go into a slot when the words say `noun`.

    >>> from .fabric import Stitch
    >>> matches(Slot(0, Stitch("FPdc")), Noun("dc")), matches(Slot(0, Stitch("dc")), Noun("sc"))
    (True, False)
    """
    stitch = slot.stitch
    if stitch.role == "foundation":
        return noun.name in ("ch", "st")
    if noun.name == "st":
        return counts(stitch) or (loose and stitch.role == "chain")
    if noun.name == "ch":
        return stitch.role in ("chain", "turning")
    if noun.name == "picot":
        return stitch.role == "picot"
    if not counts(stitch) and stitch.role != "picot":
        return False
    return is_called(stitch.kind, noun.name)


def is_called(kind: str, name: str) -> bool:
    """Whether a stitch may be called by a name: its own, the plain stitch it is built on, "post st"."""
    if name in RAISED:
        return kind.startswith(RAISED[name])
    if kind == name or kind.lower() == name.lower():
        return True
    if kind == "st":
        return height_of(name) is not None
    if name in ("cluster", "cl"):
        return (height_of(kind) is None or together(kind) > 1) and kind not in ("sl st",)
    return height_of(kind) == name and name == (height_of(name) or "")


def named_as(name: str, wanted: str) -> bool:
    """Whether a group of this name is one of those wanted: the beginning shell is a shell.

    >>> [named_as(name, "shell") for name in ("beg shell", "half shell", "5-dc shell", "")]
    [True, False, True, False]
    """
    low = name.lower() if wanted[:1].isdigit() else without_size(name.lower())
    return bool(low) and low.removeprefix("beginning").removeprefix("beg").lstrip(" .-") == wanted.lower()


def _group_fits(noun: Noun, name: str, made: list[Stitch], items: tuple[Stitch, ...]) -> bool:
    if noun.size and len(made) != noun.size:
        return False
    if noun.of and noun.of != "st" and any(not is_called(s.kind, noun.of) for s in made):
        return False
    if named_as(name, noun.name):
        return True
    has_chain = any(s.role == "chain" for s in items)
    if noun.name == "V-st":
        return has_chain and len(made) >= 2 and not name
    if noun.name == "shell":
        return len(made) >= 3 and not name
    if noun.name == "corner" and any(f.hold == "ring" for s in made for f in s.feet):
        return has_chain
    if noun.name == "corner":
        return len(made) >= 3 or (has_chain and len(made) >= 2)
    if noun.name == "group":
        return len(made) >= 2
    return noun.name == "block" and len(made) >= 2 and not has_chain
