"""Small fabrics written by hand for the layout's tests: rows as lists of (kind, where), worked both ways."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from hookfold.charts.model.cloth.fabric import Fabric, Foot, Row, Stitch, WorkedRow


def into(kind: str, *at: int, hold: str = "top", place: int = -1, legs: int = 0) -> Stitch:
    """A stitch into items `at` of the row below."""
    return Stitch(kind, tuple(Foot(i, hold=hold) for i in at), place=place, legs=legs)


def ch(count: int) -> Stitch:
    """A run of chains."""
    return Stitch("ch", role="chain", chains=count)


def turning(kind: str, chains: int, at: int | None = None) -> Stitch:
    """A beginning chain that counts."""
    return Stitch(kind, () if at is None else (Foot(at),), "turning", chains)


def start(chains: int) -> Stitch:
    """A beginning chain that does not count."""
    return Stitch("ch", role="start", chains=chains)


def foundation(chains: int) -> Row:
    return Row(tuple(Stitch("ch", role="foundation", chains=1) for _ in range(chains)))


def fabric(chains: int, rows: Sequence[Row], risen: int = 0, colours: Sequence[str] = ()) -> Fabric:
    """Rows worked back and forth from a chain, row 1 on the right side."""
    worked = tuple(
        WorkedRow(
            f"Row {i + 1}", i + 1, row, "RS" if i % 2 == 0 else "WS",
            "right-to-left" if i % 2 == 0 else "left-to-right",
            colour=colours[i % len(colours)] if colours else "",
        )
        for i, row in enumerate(rows)
    )  # fmt: skip
    return Fabric("chain", foundation(chains), worked, chains, risen)


def plain(kind: str, count: int, *, chains: int, counts: bool, base: int) -> Row:
    """One stitch in each of `count` places of a row of `base` items, from its end."""
    first = turning(kind, chains, base - 1) if counts else start(chains)
    left = count - 1 if counts else count
    top = base - 2 if counts else base - 1
    return Row((first, *(into(kind, top - i) for i in range(left))), takes=count)


def each(kind: str, count: int, rows: int, chains: int, counts: bool) -> Fabric:
    """A plain fabric: `count` stitches in every row."""
    if counts:
        row1 = Row(
            (turning(kind, chains), *(into(kind, count - 2 - i) for i in range(count - 1))), takes=count
        )
        rest = plain(kind, count, chains=chains, counts=True, base=count)
        return fabric(count - 1 + chains, [row1, *[rest] * (rows - 1)], risen=chains)
    row1 = Row((start(chains), *(into(kind, count - 1 - i) for i in range(count))), takes=count)
    rest = plain(kind, count, chains=chains, counts=False, base=count + 1)
    return fabric(count + chains, [row1, *[rest] * (rows - 1)], risen=chains)


class Hook:
    """A cursor over the row below, from its end: what the worker does, small enough to check by eye."""

    def __init__(self, base: Row, skip: Callable[[Stitch], bool] = lambda s: s.role in ("start",)) -> None:
        self.items = [i for i in reversed(range(len(base.stitches))) if not skip(base.stitches[i])]
        self.base = base
        self.made: list[Stitch] = []
        self.place = 0

    def sk(self, count: int) -> Hook:
        self.items = self.items[count:]
        return self

    def do(self, kind: str, count: int = 1, hold: str = "top", legs: int = 0) -> Hook:
        for _ in range(count):
            self.made.append(into(kind, self.items.pop(0), hold=hold, legs=legs))
        return self

    def space(self, *stitches: str) -> Hook:
        """Stitches into the next chain space; "ch N" between them makes chains."""
        while self.base.stitches[self.items[0]].role != "chain":
            self.items.pop(0)
        at = self.items.pop(0)
        return self._group(at, stitches, "space")

    def one(self, *stitches: str) -> Hook:
        """Stitches into the next stitch."""
        return self._group(self.items.pop(0), stitches, "top")

    def _group(self, at: int, stitches: Sequence[str], hold: str) -> Hook:
        for s in stitches:
            made = ch(int(s[3:])) if s.startswith("ch ") else into(s, at, hold=hold, place=self.place)
            self.made.append(made)
        self.place += 1
        return self

    def tog(self, kind: str, count: int) -> Hook:
        self.made.append(into(f"{kind}{count}tog", *self.items[:count]))
        self.items = self.items[count:]
        return self

    def ch(self, count: int) -> Hook:
        self.made.append(ch(count))
        return self

    def turn(self, kind: str, chains: int) -> Hook:
        """A beginning chain that counts: it stands on the first stitch."""
        self.made.append(turning(kind, chains, self.items.pop(0)))
        return self

    def start(self, chains: int) -> Hook:
        self.made.append(start(chains))
        return self

    def row(self, repeat: tuple[int, int, int] | None = None) -> Row:
        return Row(tuple(self.made), repeat=repeat)


def base_of(chains: int) -> Row:
    return foundation(chains)


def shells(repeats: int, rows: int) -> Fabric:
    """Shells of five dc between sc; the shells of one row stand on the sc of the last."""
    chains = 6 * repeats + 1
    h = Hook(foundation(chains)).start(1).do("sc")
    for _ in range(repeats):
        h.sk(2).one(*["dc"] * 5).sk(2).do("sc")
    made = [h.row((2, 6, repeats))]
    for r in range(1, rows):
        h = Hook(made[-1])
        if r % 2:
            h.turn("dc", 3)
            h.items.insert(0, h.made[0].feet[0].at)
            h.one("dc", "dc")
            for k in range(repeats):
                h.sk(2).do("sc").sk(2)
                h.one(*["dc"] * (5 if k < repeats - 1 else 3))
        else:
            h.start(1).do("sc")
            for _ in range(repeats):
                h.sk(2).one(*["dc"] * 5).sk(2).do("sc")
        made.append(h.row())
    return fabric(chains + 1, made, risen=1)


def v_stitches(repeats: int, rows: int) -> Fabric:
    """V-stitches in V-stitches between edge dc."""
    chains = 3 * repeats + 1
    h = Hook(foundation(chains))
    h.made.append(turning("dc", 3))
    for _ in range(repeats):
        h.sk(1).one("dc", "ch 1", "dc").sk(1)
    h.do("dc")
    made = [h.row((1, 3, repeats))]
    for _ in range(1, rows):
        h = Hook(made[-1]).turn("dc", 3)
        for _ in range(repeats):
            h.space("dc", "ch 1", "dc")
        h.items = [0]
        h.do("dc")
        made.append(h.row((1, 3, repeats)))
    return fabric(chains + 3, made, risen=3)


def mesh(squares: int, rows: int) -> Fabric:
    """Open squares: dc, ch 2, skip 2; the first square's chains are the foundation's last."""
    chains = 3 * squares
    h = Hook(foundation(chains))
    h.made.append(turning("dc", 3))
    for _ in range(squares):
        h.ch(2).sk(2).do("dc")
    made = [h.row((1, 2, squares))]
    for _ in range(1, rows):
        h = Hook(made[-1]).turn("dc", 3)
        for _ in range(squares):
            h.ch(2).sk(1).do("dc")
        made.append(h.row((1, 2, squares)))
    return fabric(chains + 5, made, risen=5)


def trellis(arches: int, rows: int) -> Fabric:
    """Arches of five chains, each held by a sc in the arch below."""
    chains = 4 * arches + 1
    h = Hook(foundation(chains)).start(1).do("sc")
    for _ in range(arches):
        h.ch(5).sk(3).do("sc")
    made = [h.row((2, 2, arches))]
    for r in range(1, rows):
        h = Hook(made[-1])
        if r % 2:
            h.turn("dc", 3).ch(2)
            for k in range(arches):
                h.space("sc").ch(5 if k < arches - 1 else 2)
            h.items = [1]
            h.do("dc")
        else:
            h.start(1).do("sc")
            h.items.pop(0)
            for _ in range(arches - 1):
                h.ch(5).space("sc")
            h.items = [0]
            h.ch(5).do("sc")
        made.append(h.row())
    return fabric(chains + 1, made, risen=1)


def ripple(repeats: int, rows: int) -> Fabric:
    """Peaks and valleys in dc: two increases, four plain, two decreases, four plain."""
    chains = 14 * repeats
    made: list[Row] = []
    for r in range(rows):
        h = Hook(made[-1] if made else foundation(chains))
        if r == 0:
            h.items.insert(0, -1)
            h.made.append(turning("dc", 3))
            h.items.pop(0)
        else:
            h.turn("dc", 3)
            h.items.insert(0, h.made[0].feet[0].at)
        if r == 0:
            h.items = h.items[0:]
        h.one("dc")
        for k in range(repeats):
            h.do("dc", 4).tog("dc", 2).tog("dc", 2).do("dc", 4)
            h.one("dc", "dc")
            if k < repeats - 1:
                h.one("dc", "dc")
        made.append(h.row())
    return fabric(chains + 3, made, risen=3)


def bobbles(repeats: int, rows: int) -> Fabric:
    """Bobble rows between sc rows."""
    count = 4 * repeats + 3
    made = [Row((start(1), *(into("sc", count - 1 - i) for i in range(count))))]
    for r in range(1, rows):
        h = Hook(made[-1]).start(1)
        if r % 2:
            h.do("sc", 3)
            for _ in range(repeats):
                h.do("bobble", legs=5).do("sc", 3)
        else:
            h.do("sc", count)
        made.append(h.row())
    return fabric(count + 1, made, risen=1)


def triangle(first: int, rows: int, step: int) -> Fabric:
    """Each row one stitch more (1) or fewer (-1) at both ends."""
    made = [Row((start(1), *(into("sc", first - 1 - i) for i in range(first))))]
    for r in range(1, rows):
        h = Hook(made[-1]).start(1)
        left = len(h.items)
        if step > 0:
            h.one("sc", "sc").do("sc", left - 2).one("sc", "sc")
        else:
            h.tog("sc", 2).do("sc", left - 4).tog("sc", 2)
        made.append(h.row())
        del r
    return fabric(first + 1, made, risen=1)
