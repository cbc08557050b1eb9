"""How surely pages are read that tell the same work in many manners of saying it.

    python tests/bench/manners.py [--seed N] [--count N] [--show N]

Every page is told by an invented writer with habits of their own: how a row is headed, a stitch named, a place, a
repeat, a join and a count said. The counts of its rows are reckoned here, from what is told, and compared. The manners
are ours and common practice, no source.
"""

from __future__ import annotations

import random
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

from hookfold.charts.model.rows.work import work_text
from outcomes import Outcome, options, report, rows_of, told_of

WORDS = ("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")
LONG = {
    "sc": "single crochet", "hdc": "half double crochet", "dc": "double crochet", "tr": "treble crochet",
}  # fmt: skip
CHAINS = {"hdc": 2, "dc": 3, "tr": 4}
NTH = {1: "1st", 2: "2nd", 3: "3rd", 4: "4th"}
#: So often a writer keeps to a habit.
FAITHFUL = 0.85


@dataclass
class Page:
    """Lines of a page, and how many stitches each of its rows makes."""

    lines: list[str] = field(default_factory=list)
    counts: list[int] = field(default_factory=list)

    @property
    def text(self) -> str:
        return "\n".join(self.lines) + "\n"


class Writer:
    """One who tells rows, with habits."""

    def __init__(self, rng: random.Random) -> None:
        self.rng = rng
        self.habits: dict[str, int] = {}

    def habit(self, name: str, ways: Sequence[str]) -> str:
        """One of several ways of saying a thing: mostly the one that this writer has."""
        if name not in self.habits or self.rng.random() > FAITHFUL:
            way = self.rng.randrange(len(ways))
            self.habits.setdefault(name, way)
            return ways[way]
        return ways[self.habits[name] % len(ways)]

    def number(self, n: int) -> str:
        worded = self.habit("number", ("", "", "", "worded"))
        return WORDS[n] if worded and n < len(WORDS) else str(n)

    def name(self, kind: str, n: int = 1) -> str:
        dotted = ".".join(kind) + "." if kind in ("sc", "dc") else kind
        long = LONG[kind] + "s" * (n > 1)
        return self.habit("name", (kind, kind, kind, kind, kind.upper(), long, dotted))

    def sts(self, n: int) -> str:
        long = self.habit("sts", ("st", "st", "st", "stitch"))
        return long if n == 1 else "stitches" if long == "stitch" else "sts"

    def into(self) -> str:
        return self.habit("into", ("in", "in", "in", "into")) + self.habit("the", ("", " the"))

    def next(self, n: int) -> str:
        following = self.habit("following", ("next", "next", "next", "following"))
        if n == 1:
            return f"{self.into()} {following} {self.sts(1)}"
        into, number, sts = self.into(), self.number(n), self.sts(n)
        return self.habit("next", (f"{into} next {number} {sts}", f"{into.split()[0]} each of the next {number} {sts}"))

    def plain(self, kind: str, n: int) -> str:
        """One of a kind in each of the next so many."""
        name = self.name(kind)
        one = self.habit("one", ("", "", "1 ", "one ", "work 1 ", "make 1 "))
        placed = f"{one}{name} {self.next(n)}"
        bare = self.habit("bare", (f"{n} {self.name(kind, n)}", f"{n}{kind}", f"{kind} {n}"))
        ways = [placed, placed, placed, bare, f"{one}{name} in next" + (f" {self.number(n)}" if n > 1 else "")]
        if n > 1:
            ways += [f"{kind} x {n}", f"{name} over next {self.number(n)} {self.sts(n)}"]
        return self.habit("plain" if n > 1 else "plain one", ways)

    def increase(self, kind: str) -> str:
        name, there = self.name(kind, 2), self.next(1)
        return self.habit("increase", (
            f"2 {name} {there}", f"2 {name} {there}", f"two {name} {there}", "inc", "inc", f"inc {there}", f"{kind} inc",
            f"work 2 {name} {there}", f"2{kind} in next st", f"({kind}, {kind}) {there}", f"{self.name(kind)} twice {there}",
        ))  # fmt: skip

    def decrease(self, kind: str) -> str:
        two = self.sts(2)
        return self.habit("decrease", (
            f"{kind}2tog", f"{kind}2tog", f"{kind}2tog over next 2 {two}", f"{kind} next 2 {two} together",
            f"{kind} 2 tog", "dec", "dec over next 2 sts", f"{kind} dec", f"work next 2 {two} together", "decrease",
        ))  # fmt: skip

    def skip(self, n: int) -> str:
        verb, number, sts = self.habit("skip", ("sk", "skip", "sk", "skip")), self.number(n), self.sts(n)
        if n == 1:
            ways = (f"{verb} next {sts}", f"{verb} 1 {sts}", f"{verb} 1", f"{verb} {sts}", f"{verb} the next {sts}")
            return self.habit("skip one", ways)
        return self.habit("skip more", (f"{verb} next {number} {sts}", f"{verb} {number} {sts}", f"{verb} {n}"))

    def joined(self, parts: Sequence[str]) -> str:
        return self.habit("joint", (", ", ", ", ", ", "; ", ", then ", " and ")).join(parts)

    def repeat(self, body: str, times: int, *, is_round: bool) -> str:
        """A body so often, which is as often as there is room."""
        ends = ("around", "around", "all around", "around the round") if is_round else ("across", "across", "to end", "across the row")
        end, more = self.habit("end", ends), times - 1
        once_more = f"{more} more time" + "s" * (more > 1)
        ways = [
            f"*{body}; rep from * {end}", f"*{body}, repeat from * {end}", f"*{body}* {end}", f"*{body}*, rep {end}",
            f"({body}) {end}", f"[{body}] {end}", f"*{body}. Rep from * {end}", f"*{body}* repeat from * to * {end}",
            f"{{{body}}} repeat {end}", f"({body}) repeat {end}", f"** {body} ** repeat {end}",
        ]  # fmt: skip
        if times > 1:
            ways += [
                f"({body}) {times} times", f"[{body}] {times} times", f"({body}) x {times}", f"({body}) x{times}",
                f"*{body}; rep from * {once_more}", f"*{body}* {times} times", f"*{body}* x {times}",
                f"({body})*{times}", f"{times} x ({body})", f"repeat ({body}) {times} times", f"*{body}* repeat {times} times",
                f"work ({body}) {times} times",
            ]  # fmt: skip
        return self.habit(f"repeat {times > 1}", ways)

    def each(self, kind: str, *, is_round: bool) -> str:
        name, st = self.name(kind), self.sts(1)
        one, into = self.habit("one in each", ("", "", "1 ", "one ")), self.habit("into", ("in", "in", "in", "into"))
        end = "around" if is_round else "across"
        return self.habit("each", (
            f"{one}{name} {into} each {st} {end}", f"{one}{name} {into} each {st}", f"{one}{name} {into} every {st} {end}",
            f"{kind} {end}", f"{kind} in all {self.sts(2)}", f"{kind} {into} each {kind} {end}", f"{kind} {into} ea st {end}",
            f"{one}{name} {into} each of the {self.sts(2)} {end}",
        ))  # fmt: skip

    def head(self, number: int, *, is_round: bool) -> str:
        word = self.habit("word", ("Rnd", "Round", "Rnd.", "Rd", "R", "rnd", "ROUND") if is_round else ("Row", "Row", "ROW", "row", "R"))
        order = f"{NTH.get(number, f'{number}th')} {word if len(word) > 1 else 'Rnd' if is_round else 'Row'}"
        return self.habit("head", (
            f"{word} {number}:", f"{word} {number}:", f"{word} {number}.", f"{word} {number} -", f"{word} {number})",
            f"{word}{number}:", f"{word} {number} :", f"{word} #{number}:", f"{order}:", f"**{word} {number}:**",
        ))  # fmt: skip

    def count(self, n: int, kind: str) -> str:
        said = self.habit("count", (
            f"({n} {kind})", f"({n} {kind})", f"({n})", f"[{n}]", f"({n} sts)", f"= {n}", f"(= {n} sts)", f"- {n} sts",
            f"--{n} {kind}.", f"{n} sts.", f"({n} sts total)", f"You should have {n} sts.", f"[{n} {kind}]",
            f"(total {n})", f"({n} {kind}s)", f"<{n}>", f": {n} {kind}.", f"(you will now have {n} sts)", "",
        ))  # fmt: skip
        return f" {said}" if said else ""

    def join(self, kind: str, chains: int = 0) -> str:
        slip = self.habit("slip", ("sl st", "sl st", "ss", "slip stitch", "slst", "sl-st", "slip st"))
        if chains:
            return self.habit("join chain", (
                "join", f"join with {slip} in top of beg ch", f"join with {slip} to top of ch-{chains}",
                f"{slip} in top of beginning ch-{chains}", f"{slip} to top of ch {chains} to join", f"{slip} to join",
                f"join to top of ch-{chains} with {slip}", f"join with a {slip} in {NTH[chains]} ch of beg ch-{chains}",
                f"close with {slip}", f"{slip} into {NTH[chains]} ch", f"join round with {slip}",
            ))  # fmt: skip
        return self.habit("join stitch", ("join", f"join with {slip} to first {kind}", f"{slip} in first {kind}", f"{slip} to join"))

    def row(self, page: Page, number: int, told: str, count: int, kind: str, *, is_round: bool) -> None:
        """Put a row on a page."""
        said = (self.habit("capital", ("upper", "upper", "")) and told[0].upper() + told[1:]) or told
        stop = self.habit("stop", (".", ".", ".", ""))
        page.lines.append(f"{self.head(number, is_round=is_round)} {said}{stop}{self.count(count, kind)}")
        page.counts.append(count)


def ball(w: Writer) -> Page:
    """Spiral rounds of sc that widen, go straight and narrow."""
    page, wide = Page(), w.rng.choice((5, 6, 6, 6, 7, 8))
    w.row(page, 1, w.habit("ring", (
        f"{wide} sc in magic ring", f"{wide} sc in a magic ring", f"Make a magic ring, {wide} sc in ring", f"MR, {wide} sc",
        f"Ch 2, {wide} sc in 2nd ch from hook", f"start with a magic circle with {wide} sc", f"{wide} sc in MR",
        f"Magic ring, {wide} sc into ring", f"Ch 2, work {wide} sc in second chain from hook",
        f"In a magic loop make {wide} sc", f"ch 3, join with sl st to form ring, {wide} sc in ring",
    )), wide, "sc", is_round=True)  # fmt: skip
    number, widest = 2, w.rng.randint(2, 5)
    for between in range(widest):
        parts = [w.plain("sc", between), w.increase("sc")] if between else [w.increase("sc")]
        told = w.repeat(w.joined(parts[:: w.rng.choice((1, 1, 1, -1))]), wide, is_round=True)
        if not between:
            told = w.habit("first", (told, "2 sc in each st around", "inc in each st around", "inc around", f"inc x {wide}"))
        w.row(page, number, told, wide * (between + 2), "sc", is_round=True)
        number += 1
    for _ in range(w.rng.randint(0, 2)):
        w.row(page, number, w.each("sc", is_round=True), wide * (widest + 1), "sc", is_round=True)
        number += 1
    for between in range(widest - 1, max(widest - 3, -1), -1):
        parts = [w.plain("sc", between), w.decrease("sc")] if between else [w.decrease("sc")]
        w.row(page, number, w.repeat(w.joined(parts), wide, is_round=True), wide * (between + 1), "sc", is_round=True)
        number += 1
    return page


def circle(w: Writer) -> Page:
    """Joined rounds with a beginning chain that counts."""
    page, kind = Page(), w.rng.choice(("dc", "dc", "hdc", "tr"))
    chains, wide = CHAINS[kind], w.rng.choice((10, 12, 12, 14, 16))
    counts = w.habit("counts", (
        f" (counts as {kind})", f" (counts as first {kind})", f" (counts as 1 {kind} here and throughout)",
        f" (= 1 {kind})", f" (first {kind} made)", f" (counts as a {kind} now and throughout)",
    ))  # fmt: skip
    begun = w.habit("begun", (
        f"Ch 4, join with sl st to form ring. Ch {chains}{counts}, {wide - 1} {kind} in ring",
        f"Make a magic ring, ch {chains}{counts}, {wide - 1} {kind} in ring",
        f"Magic ring: ch {chains}{counts}, work {wide - 1} more {kind} in ring",
        f"ch {chains}{counts} and work {wide - 1} {kind} into magic ring",
        f"Ch 5, sl st in first ch to make a ring; ch {chains}{counts}, {wide - 1} {kind} into ring",
    ))  # fmt: skip
    w.row(page, 1, f"{begun}, {w.join(kind, chains)}", wide, kind, is_round=True)
    for between in range(w.rng.randint(1, 3)):
        told = f"ch {chains}, {kind} in same st, "
        if between:
            body = w.joined([w.increase(kind), w.plain(kind, between)])
            told += f"{w.plain(kind, between)}, {w.repeat(body, wide - 1, is_round=True)}"
        else:
            told += w.habit("all", (f"2 {kind} in each st around", f"2 {kind} in each {kind} around", f"2 {kind} in each remaining st"))
        w.row(page, between + 2, f"{told}, {w.join(kind, chains)}", wide * (between + 2), kind, is_round=True)
    return page


def cloth(w: Writer) -> Page:
    """Rows to and fro that widen, narrow and go straight."""
    page, wide = Page(), w.rng.randint(12, 24)
    page.lines.append(w.habit("chain", (
        f"Ch {wide + 1}.", f"Chain {wide + 1}.", f"Foundation: Ch {wide + 1}", f"Foundation chain: ch {wide + 1}.",
        f"Start by chaining {wide + 1}.", f"Ch {wide + 1} loosely.", f"Make {wide + 1} ch.", f"{wide + 1} ch.",
    )))  # fmt: skip
    if w.rng.random() < 0.25:
        begun = page.lines.pop().rstrip(".") + ". Sc"
    else:
        begun = "sc"
    first = w.habit("first row", (
        "in 2nd ch from hook and in each ch across", "in the 2nd chain from the hook and in each chain across",
        "into 2nd ch from hook and each ch across", "in 2nd ch from hook and each remaining ch", "in 2nd ch from hook, sc across",
    ))  # fmt: skip
    turning = w.habit("turning", ("ch 1, turn, {}", "turn, ch 1, {}", "{}. Ch 1, turn", "{}, ch 1 and turn", "ch 1; {}, turn"))
    behind = not turning.startswith(("ch 1, turn", "turn"))
    told = f"{begun} {first}"
    w.row(page, 1, turning.format(told) if behind and turning[0] == "{" else told, wide, "sc", is_round=False)
    for number in range(2, w.rng.randint(4, 7)):
        change = w.rng.choice((0, 0, 2, -2))
        told = {
            0: w.each("sc", is_round=False),
            2: w.habit("wider", (
                "2 sc in first st, sc in each st to last st, 2 sc in last st", "inc in first st, sc to last st, inc in last st",
                "2 sc in 1st st, sc in each st across to last st, 2 sc in last st",
            )),
            -2: w.habit("narrower", (
                "sc2tog, sc in each st to last 2 sts, sc2tog", "dec, sc to last 2 sts, dec",
                "sc2tog over first 2 sts, sc in each st across to last 2 sts, sc2tog over last 2 sts",
                "sc first 2 sts together, sc across until 2 sts remain, sc last 2 sts together",
            )),
        }[change]  # fmt: skip
        wide += change
        w.row(page, number, turning.format(told), wide, "sc", is_round=False)
    return page


def square(w: Writer) -> Page:
    """A square of groups about a ring."""
    page, corner = Page(), w.rng.choice((1, 2, 2, 3))
    side = w.rng.choice([n for n in (0, 1, 1, 2) if n != corner])
    counts = w.habit("group chain", (" (counts as dc)", " (counts as first dc)", " (count as 1 dc)", ""))
    page.lines.append(w.habit("centre", (
        "Ch 4, join with sl st to form a ring.", "Ch 4; join to form ring.", "Make a magic ring.",
        "Ch 6, sl st in first ch to form ring.",
    )))  # fmt: skip
    join, between = w.join("dc", 3), f", ch {side}" if side else ""
    w.row(page, 1, w.habit("square 1", (
        f"ch 3{counts}, 2 dc in ring, ch {corner}, *3 dc in ring, ch {corner}; rep from * 2 more times, {join}",
        f"ch 3{counts}, 2 dc in ring, (ch {corner}, 3 dc in ring) 3 times, ch {corner}, {join}",
        f"ch 3{counts}, 2 dc, ch {corner}, *3 dc, ch {corner}* 3 times in ring, {join}",
    )), 12, "dc", is_round=True)  # fmt: skip
    space = w.habit("corner", (f"ch-{corner} sp", f"ch-{corner} space", "corner sp", "corner space", "corner"))
    go = w.habit("go", (f"sl st in next 2 dc and in {space}", f"sl st to {space}", f"sl st in each of next 2 dc and into {space}"))
    same, group = w.habit("same", ("same sp", "same space", "same corner")), f"3 dc, ch {corner}, 3 dc"
    begun = f"{go}, ch 3{counts}, (2 dc, ch {corner}, 3 dc) in {same}{between}"
    w.row(page, 2, w.habit("square 2", (
        f"{begun}, *({group}) in next {space}{between}; rep from * 2 more times, {join}",
        f"{begun}, [({group}) in next {space}{between}] 3 times, {join}",
        f"{go}. Ch 3{counts}, 2 dc, ch {corner}, 3 dc in {same}{between}; *{group} in next {space}{between}; rep from * around, {join}",
    )), 24, "dc", is_round=True)  # fmt: skip
    if side:
        there = w.habit("side", (f"next ch-{side} sp", f"ch-{side} sp", "side sp"))
        told = f"{begun}, 3 dc in {there}{between}, *({group}) in next {space}{between}, 3 dc in {there}{between}; rep from * 2 more times, {join}"
        w.row(page, 3, told, 36, "dc", is_round=True)
    return page


def lace(w: Writer) -> Page:
    """Meshes, V-stitches and shells, to and fro."""
    page, many = Page(), w.rng.randint(4, 9)
    way = w.rng.choice(("mesh", "v", "shell"))
    if way == "mesh":
        page.lines.append(f"Ch {2 * many + 4}.")
        w.row(page, 1, w.habit("mesh 1", (
            "dc in 6th ch from hook, *ch 1, sk next ch, dc in next ch; rep from * across",
            "dc in 6th ch from hook, *ch 1, sk 1 ch, dc in next ch; rep from * to end",
            "dc into sixth chain from hook, *ch 1, skip 1 ch, dc in next ch* across",
        )), many + 1, "dc", is_round=False)  # fmt: skip
        told = w.habit("mesh 2", ("", ", working last dc in 3rd ch of turning ch", ", ending in 3rd ch of tch", ", last dc in third ch of turning ch"))
        start = w.habit("mesh start", ("sk first dc and next ch-1 sp, ", "sk ch-1 sp, ", ""))
        row = f"ch 4 (counts as dc and ch 1), turn, {start}dc in next dc, *ch 1, dc in next dc; rep from * across{told}"
        w.row(page, 2, row, many + 1, "dc", is_round=False)
        return page
    each = 3 if way == "v" else 6
    wide = each * many + (2 if way == "v" else 1)
    page.lines.append(f"Ch {wide + (2 if way == 'v' else 1)}.")
    if way == "v":
        w.row(page, 1, "dc in 4th ch from hook and in each ch across (skipped ch count as dc)", wide, "dc", is_round=False)
        group = w.habit("v", ("(dc, ch 1, dc) in next st", "[dc, ch 1, dc] in next st", "(1 dc, 1 ch, 1 dc) into next st"))
        body = f"{w.skip(1)}, {group}, {w.skip(1)}"
        told = f"ch 3 (counts as dc), turn, {w.repeat(body, many, is_round=False)}, dc in last st"
        w.row(page, 2, told, 2 * many + 2, "dc", is_round=False)
        return page
    w.row(page, 1, "sc in 2nd ch from hook and in each ch across", wide, "sc", is_round=False)
    shell = w.habit("shell", ("5 dc in next st", "work 5 dc in next st", "5 dc into next st"))
    body = f"{w.skip(2)}, {shell}, {w.skip(2)}, sc in next st"
    w.row(page, 2, f"ch 1, turn, sc in first st, {w.repeat(body, many, is_round=False)}", wide, "sts", is_round=False)
    return page


KINDS: tuple[Callable[[Writer], Page], ...] = (ball, circle, cloth, square, lace)


def measured(seed: int, count: int) -> list[Outcome]:
    """So many pages, told by as many writers, read."""
    out = []
    for number in range(count):
        kind = KINDS[number % len(KINDS)]
        page = kind(Writer(random.Random(f"{seed}-{number}")))
        worked = work_text(page.text)
        counts = [row.row.made for row in rows_of(worked)]
        out.append(Outcome(kind.__name__, page.text, told_of(worked), counts, page.counts))
    return out


def main() -> None:
    args = options("Pages that tell the same work in many manners of saying it, read.").parse_args()
    report(measured(args.seed, args.count), args.show)


if __name__ == "__main__":
    main()
