"""Stated counts against what was worked. What a count names that the fabric does not know is left alone."""

from __future__ import annotations

import functools
import re
from collections.abc import Iterable, Mapping
from itertools import groupby, takewhile

from ...pattern.lexicon import RAISED, height_of, together
from ...pattern.tree import Noun, Stated
from .fabric import Row, counts
from .ground import Ground, slots_of
from .shapes import run_size, without_size
from .tiles import tiles_of

_PETALS = re.compile(r"petal|scallop", re.IGNORECASE)
_STITCHES = re.compile(r"[a-z]{2}", re.IGNORECASE)
_ALIKE = {"cluster": "cl", "clusters": "cl", "bo": "bobble", "pc": "popcorn"}


def differs(
    stated: Stated, row: Row, named: list[str], aliases: Mapping[str, frozenset[str]], beside: tuple[Stated, ...] = ()
) -> int | None:
    """What the row makes of what the count names, if that is another number than stated; None if it agrees or cannot
    be told. `beside` are all parts of the count."""
    possible = numbers(stated, row, named, aliases, frozenset(part.noun.name.lower() for part in beside))
    if not possible or stated.count in possible:
        return None
    return possible[0]


def numbers(
    stated: Stated,
    row: Row,
    named: list[str],
    aliases: Mapping[str, frozenset[str]],
    beside: frozenset[str] = frozenset(),
) -> list[int]:
    """The numbers that may rightly stand for the noun, the usual one first; empty if it is not known. A kind named
    `beside` it is not counted with it."""
    name, size = stated.noun.name, stated.noun.size
    if name == "st":
        led = row.stitches[0].chains if row.stitches and row.stitches[0].role == "chain" else 0
        slips = fastening_slips(row)
        made = [row.made, row.made - slips] if slips else [row.made]
        made += [row.made + 1] if row.closing else []
        if (blocks := _only_blocks(row)) and not _STITCHES.search(stated.words):
            return [blocks, *made]  # "(3)", "(2 A, 1 B)": of its blocks
        chained = row.chains - _rising(row)
        return [*made, row.made + chained] if chained > led else made
    if name in ("sp", "lp"):
        everywhere, outside = _runs(row, size, range(len(row.stitches))), _runs(row, size, _outside(row))
        return [everywhere + 1, everywhere] if _is_closed_by_tall(row) else [everywhere, outside]
    if name == "corner sp" or (name == "corner" and size):
        return _corner_spaces(row, size)
    if name == "ch":
        return [row.chains]
    if name in RAISED:
        return [sum(1 for s in row.stitches if counts(s) and s.kind.startswith(RAISED[name]))]
    if name == "picot":
        plain = sum(1 for s in row.stitches if s.kind == "picot")
        return [plain, sum(1 for s in row.stitches if s.role == "picot")] if not plain else [plain]
    special = sum(1 for n in named if _is_named(n, name, aliases))
    if special:
        told = max(special, sum(1 for _, _, n in row.groups if n and _is_named(n, name, aliases)))
        alike = _unnamed_alike(name, row, aliases)
        gathered = _gathered(row) if name.lower() in _CLUSTERS else 0
        return [gathered] if gathered > told and not alike else [told, told + alike] if alike else [told]
    if name == "block" and (tiles := tiles_of(row)):
        return [len(tiles)]
    if name in ("block", "petal") and _PETALS.search(stated.words):
        return _petals(row)
    if name in ("shell", "V-st", "group", "block", "corner", "petal"):
        found = _groups(name, row)
        runs = _between_chains(row) if name == "group" else []
        level = [len(runs)] if len(set(runs)) == 1 and runs[0] > 1 else []  # also the one a beginning chain begins
        return list(dict.fromkeys((*(found or _as_found(stated.noun, row)), *level)))
    called = aliases.get(name.lower(), frozenset())
    found = _kinds(name, row, called, beside)
    if found and row.closing.lower() in {name.lower(), *called}:
        found = [*found, found[0] + 1]
    if not found and height_of(name) is None and name != "mesh":  # solid meshes are meshes, too
        return _as_found(stated.noun, row)
    if name.lower() in _CLUSTERS and not _gathered(row) and (apart := _parted(stated.noun.size, row)):
        return list(dict.fromkeys((*found, apart)))
    return [*found, found[0] + row.chains] if found[:1] == [row.made] and _bridges_a_hole(row) else found


def _only_blocks(row: Row) -> int:
    """How many blocks a row has that is no row of a few plain stitches behind a beginning chain; else 0."""
    tiles = tiles_of(row)
    plain = len(tiles) == 1 and row.stitches[tiles[0].side].role != "chain"
    return 0 if plain else len(tiles)


def _as_found(noun: Noun, row: Row) -> list[int]:
    """As many as the next row would find by that name; empty where it would find none."""
    there = len(Ground(row, slots_of(row, backwards=False)).hits(noun))
    apart = _parted(noun.size, row) if noun.name == "group" and noun.size else 0
    return list(dict.fromkeys(n for n in (there, apart) if n))


def _parted(size: int, row: Row) -> int:
    """How many groups of so many stitches, or of three and more (0), lie between chains, with the one over the round's
    seam: "4 groups of 3 dc" of "ch 5, *3 dc in ring, ch 2; rep from * twice, 2 dc in ring, join"."""
    runs = _between_chains(row)
    return runs.count(size) if size else sum(1 for run in runs if run >= _CLUSTERED)


def _between_chains(row: Row) -> list[int]:
    """How many stitches stand between a row's chains each time, with those over the round's seam together; none
    are left out but behind the last chain."""
    runs: list[int] = [0]
    for stitch in row.stitches:
        if stitch.role == "chain":
            runs.append(0)
        elif counts(stitch):
            runs[-1] += 1
    if row.joined and len(runs) > 1 and row.stitches[-1].role != "chain":
        runs[0] += runs.pop()
    return runs[:-1] if len(runs) > 1 and not runs[-1] else runs


#: A chain of so many lifts a row of the tallest plain stitches; a longer one adds stitches at the side.
_LIFT = 4


def _rising(row: Row) -> int:
    """The chains at a row's end that lift the next one, which no count holds: behind the join, or the only ones."""
    if not row.stitches:
        return 0
    last, others = row.stitches[-1], row.stitches[:-1]
    ends = last.role == "chain" and last.chains <= _LIFT and (row.joined or not any(s.role == "chain" for s in others))
    return last.chains if ends else 0


def fastening_slips(row: Row) -> int:
    """Slip stitches that only fasten chains, in a ring, in a space or beside chains of their own row: most do not count
    them. Those of a row that makes nothing else, or side by side, are its stitches."""
    made = row.stitches
    if all(s.kind == "sl st" for s in made if counts(s)):
        return 0
    chained = [s.role == "chain" for s in made]
    beside = (chained[max(at - 1, 0)] or any(chained[at + 1 : at + 2]) for at in range(len(made)))
    held = (any(f.hold in ("space", "ring") for f in s.feet) for s in made)
    slips = (s.kind == "sl st" and counts(s) for s in made)
    return sum(1 for slip, near, into in zip(slips, beside, held, strict=True) if slip and (near or into))


def as_counted(row: Row, stated: Iterable[Stated]) -> int:
    """What a row makes as the pattern counts: as it states in stitches where that may be, else all that stand in it
    but slip stitches that only fasten."""
    said = [part.count for part in stated if part.noun.name == "st"]
    possible, usual = _counts_of(row)
    return said[0] if len(said) == 1 and said[0] in possible else usual


@functools.lru_cache(maxsize=64)
def _counts_of(row: Row) -> tuple[frozenset[int], int]:
    """What a count in stitches may say of a row, and what it usually says; once for all rows that are worked alike."""
    possible = numbers(Stated(0, Noun("st")), row, [], {})
    return frozenset(possible), row.made + bool(row.closing) - fastening_slips(row)


def _unnamed_alike(name: str, row: Row, aliases: Mapping[str, frozenset[str]]) -> int:
    """Groups told stitch by stitch that hold just what those called by a name hold: "5 dc in next sc" among shells."""
    held = [(tuple(s.kind for s in row.stitches[a : a + n]), called) for a, n, called in row.groups]
    shapes = {kinds for kinds, called in held if called and _is_named(called, name, aliases)}
    return sum(1 for kinds, called in held if not called and kinds in shapes)


#: Chains over a hole: so many at least, in so few runs, fewer than half of the stitches (common practice, no source).
_BRIDGE, _HOLES = 3, 2


def _bridges_a_hole(row: Row) -> bool:
    """Whether the only chains of a row stand over a thumb or a buttonhole: they may be counted along. The chain that a
    flat row begins with stands over nothing."""
    begun = [] if row.joined else list(takewhile(lambda s: not s.feet, row.stitches)) or row.stitches[:1]
    runs = [s.chains for s in row.stitches[len(begun) :] if s.role == "chain"]
    return 0 < len(runs) <= _HOLES and min(runs) >= _BRIDGE and 2 * sum(runs) < row.made


def _is_named(name: str, wanted: str, aliases: Mapping[str, frozenset[str]]) -> bool:
    low = name.lower() if wanted[:1].isdigit() else without_size(name.lower())
    low = low.removeprefix("beginning").removeprefix("beg").lstrip(" .-")
    return low == wanted.lower() or name.lower() in aliases.get(wanted.lower(), frozenset())


def _outside(row: Row) -> list[int]:
    """Items that are not part of a named group: a count that names the groups may leave out what they hold."""
    inside = {i for first, length, name in row.groups if name for i in range(first, first + length)}
    return [i for i in range(len(row.stitches)) if i not in inside]


#: What a count may say beside the stitches that stand between: "7 groups and 2 dc".
_OF_SEVERAL = frozenset(("group", "cluster", "cl", "shell", "v-st", "block"))


def _between_groups(name: str, row: Row) -> int:
    """How many stitches of a kind stand in no group, named or not."""
    inside = {i for first, length, _ in row.groups for i in range(first, first + length)}
    return sum(1 for i, s in enumerate(row.stitches) if i not in inside and s.kind == name and counts(s))


def _runs(row: Row, size: int, items: Iterable[int]) -> int:
    return sum(1 for i in items if row.stitches[i].role == "chain" and (not size or run_size(row, i) == size))


def _is_closed_by_tall(row: Row) -> bool:
    """Whether a tall stitch alone stands for a round's last loop."""
    before, last = row.stitches[-2:] if len(row.stitches) > 1 else (None, None)
    if before is None or last is None:
        return False
    return last.role == "join" and last.kind != "sl st" and before.role != "chain"


def _petals(row: Row) -> list[int]:
    """Petals and scallops: what is worked into one place and rises in its middle, of whatever size, or what is
    repeated."""
    sizes = [sum(map(counts, row.stitches[a : a + n])) for a, n, _ in row.groups]
    found = [sum(n >= 3 for n in sizes), *(sizes.count(size) for size in {n for n in sizes if n >= 3})]
    if row.repeat and any(found):
        first, length, times = row.repeat
        beside = any(map(counts, (*row.stitches[:first], *row.stitches[first + length * times :])))
        found += [times, times + 1] if beside else [times]
    return [n for n in found if n]


def _corner_spaces(row: Row, size: int) -> list[int]:
    """Spaces inside groups; where a corner is left open for the round's end, or is no group, those of the size, or the
    largest."""
    every = [i for i, s in enumerate(row.stitches) if s.role == "chain"]
    inside = {i for first, length, _ in row.groups for i in range(first + 1, first + length - 1)}
    most = max((run_size(row, i) for i in every), default=0)
    of_size = [i for i in every if not size or run_size(row, i) == size]
    found = [len([i for i in of_size if i in inside]), len(of_size)]
    found += [] if size else [sum(run_size(row, i) == most for i in every)]
    return [n for n in found if n] or [0]


def _groups(name: str, row: Row) -> list[int]:
    made = [row.stitches[a : a + n] for a, n, _ in row.groups]
    if name == "V-st":
        vees = [g for g in made if any(s.role == "chain" for s in g) and sum(map(counts, g)) >= 2]
        return [len(vees)] if vees else []
    sizes = [sum(map(counts, g)) for g in made if sum(map(counts, g)) >= 3]
    if name == "shell" and sizes:
        return list(dict.fromkeys((sizes.count(max(sizes)), len(sizes), _full_places(row))))
    return []


def _full_places(row: Row) -> int:
    """How many places hold what goes into the fullest, told in one group or in two: "3 dc in loop, ch 2, 3 dc in same
    loop"; the first may lack the stitch that a beginning chain stands for."""
    sizes = [len(list(there)) for _, there in groupby(filter(counts, row.stitches), key=lambda s: s.feet[:1])]
    return sum(size >= max(sizes) - 1 for size in sizes)


def _in_one_place(row: Row) -> int:
    """How many times three stitches or more go into one place, where the row makes nothing else but fewer at its ends:
    some call these clusters. A beginning chain over skipped chains is of the first."""
    made = list(filter(counts, row.stitches))
    sizes = [len(list(there)) for _, there in groupby(made, key=lambda s: s.feet[:1])]
    if len(sizes) > 1 and not made[0].feet and sizes[0] == 1:
        sizes[:2] = [1 + sizes[1]]
    if not row.joined:
        sizes = sizes[bool(sizes and sizes[0] < _CLUSTERED) :]
        sizes = sizes[: len(sizes) - bool(sizes and sizes[-1] < _CLUSTERED)]
    return len(sizes) if sizes and min(sizes) >= _CLUSTERED else 0


#: So many stitches in one place are a cluster to some.
_CLUSTERED = 3
_CLUSTERS = ("cl", "cluster", "clusters")


def _sizes(row: Row) -> set[int]:
    """Of how many legs what is drawn together in a row is made."""
    return {s.legs if s.legs > 1 else together(s.kind) for s in row.stitches if counts(s)} - {1}


def _gathered(row: Row) -> int:
    """All that is drawn together in a row, whatever it is called: the first, told as "ch 3, dc2tog", is one too."""
    return sum(1 for s in row.stitches if counts(s) and (s.legs > 1 or together(s.kind) > 1))


def _kinds(name: str, row: Row, alike: frozenset[str], beside: frozenset[str]) -> list[int]:
    kinds = row.kinds()
    wanted = {name.lower(), _ALIKE.get(name.lower(), name.lower()), *alike}
    exact = sum(n for kind, n in kinds.items() if kind.lower() in wanted)
    gathered = sum(n for kind, n in kinds.items() if together(kind) > 1 or kind.lower().split()[-1] in _CLUSTERS)
    if not exact and gathered and name.lower() in _CLUSTERS:
        return [gathered]
    if exact and name.lower() in _CLUSTERS and (gathered_all := _gathered(row)) > exact:
        return [gathered_all] if len(_sizes(row)) == 1 else [exact, gathered_all]
    if not exact and name.lower() in _CLUSTERS and (side_by_side := _in_one_place(row)):
        return [side_by_side]
    if height_of(name) is None:
        return (
            [exact]
            if exact
            or any(height_of(k) is None for k in kinds)
            or name.lower() in ("bobble", "puff", "popcorn", "cl", "cluster")
            else []
        )
    alone = [(kind, n) for kind, n in kinds.items() if kind.lower() in wanted or kind.lower() not in beside]
    loosely = sum(n for kind, n in alone if height_of(kind) == height_of(name))
    slips = [row.made] if name == "sl st" else []
    apart = sum(1 for i in _outside(row) if row.stitches[i].kind == name and counts(row.stitches[i]))
    if name == height_of(name):
        between = [_between_groups(name, row)] if beside & _OF_SEVERAL else []
        return [exact, loosely, apart, *between, *slips]
    return [exact, *slips]
