"""How surely pages of loops, shells, posts and corners are read that tell the same work in many manners.

    python tests/bench/loops.py [--seed N] [--count N] [--show N] [--kind NAME] [--run-on]

Beside `manners.py`, whose writers these are too: rounds and rows of loops, V-stitches, shells, post stitches, edges with
corners, and the manners of old pages, US and UK. The stitches and the chains of every row are reckoned here, from what is
told, and compared. The manners are ours and common practice, no source.
"""

from __future__ import annotations

import random
import re
from collections.abc import Callable
from dataclasses import dataclass, field

from hookfold.charts.model.rows.work import work_text
from manners import NTH, Page, Writer
from outcomes import Outcome, options, report, rows_of, told_of

#: How the last loop of so many chains is closed so that the next round begins in its middle: chains and a stitch.
CLOSED = {3: ((1, "hdc"),), 4: ((2, "hdc"), (1, "dc")), 5: ((2, "dc"),), 6: ((3, "dc"), (2, "tr")), 7: ((3, "tr"),), 8: ((4, "tr"),)}
UK = {"sc": "dc", "hdc": "htr", "dc": "tr", "tr": "dtr"}
LONG_US = {"sc": "single crochet", "hdc": "half double crochet", "dc": "double crochet", "tr": "treble crochet"}
LONG_UK = {"sc": "double crochet", "hdc": "half treble", "dc": "treble", "tr": "double treble"}
#: The chains of a row are not compared where the count of a turning chain is a matter of taste.
UNTOLD = -1


@dataclass
class Told(Page):
    """Lines of a page; the stitches its rows make, and the chains that lie in them."""

    chains: list[int] = field(default_factory=list)
    #: The last line where it holds no count.
    words: str = ""


class Lacemaker(Writer):
    """One who tells loops, today or a hundred years ago, in either terms."""

    def __init__(self, rng: random.Random, *, old: bool = False, british: bool = False) -> None:
        super().__init__(rng)
        self.old, self.british = old, british

    # -- words ------------------------------------------------------------------------------------------------------

    def name(self, kind: str, n: int = 1) -> str:
        short = UK[kind] if self.british else kind
        long = (LONG_UK if self.british else LONG_US)[kind] + "s" * (n > 1)
        letters = short in ("sc", "dc")
        dots = "".join(f"{letter}." for letter in short) if letters else f"{short}."
        spaced = " ".join(short) if letters else short
        if self.old:
            return self.habit("name", (short, short, dots, f"{short}.", spaced, long))
        return self.habit("name", (short, short, short, short.upper(), long))

    def st(self, n: int = 1) -> str:
        return self.habit("st", ("st", "st", "stitch")) if n == 1 else self.habit("st", ("sts", "sts", "stitches"))

    def into(self) -> str:
        return self.habit("into", ("in", "in", "in", "into"))

    def one(self, kind: str) -> str:
        return self.habit("one", ("", "1 ", "one ") if not self.old else ("1 ", "1 ", "")) + self.name(kind)

    def some(self, n: int, kind: str) -> str:
        return f"{self.number(n)} {self.name(kind, n)}" if n > 1 else self.one(kind)

    def ch(self, n: int) -> str:
        if self.british:
            return self.habit("ch", (f"{n} ch", f"{n}ch", f"{n} ch.", f"{n} chain"))
        if self.old:
            return self.habit("ch", (f"ch {n}", f"ch. {n}", f"chain {n}", f"ch {n}", f"ch {self.number(n)}"))
        return self.habit("ch", (f"ch {n}", f"ch {n}", f"ch {n}", f"chain {n}", f"ch{n}", f"ch-{n}"))

    def skip_word(self) -> str:
        return self.habit("skip", ("miss", "miss", "skip") if self.british else ("skip", "sk", "skip", "sk", "miss") if self.old else ("sk", "skip", "sk"))

    def skipped(self, n: int, what: str) -> str:
        """Words for passing over so many of what lies below."""
        verb, number = self.skip_word(), self.number(n)
        if n == 1:
            return self.habit("skip one", (f"{verb} next {what}", f"{verb} 1 {what}", f"{verb} one {what}", f"{verb} 1", f"{verb} next st", f"{verb} {what}"))
        return self.habit("skip more", (f"{verb} next {number} {what}", f"{verb} {number} {what}", f"{verb} {n}", f"{verb} next {n} sts"))

    def loop(self, k: int) -> str:
        ways = [f"ch-{k} loop", f"ch-{k} lp", f"ch-{k} sp", f"ch-{k} space", "loop", "lp", "sp", "space", f"{k}-ch loop", f"{k}-ch lp", f"{k} ch loop", f"ch {k} sp", f"ch{k} sp", "ch loop", "ch lp", "ch-sp", "chain loop", f"chain-{k} space"]
        if self.old:
            ways = ["loop", "lp", "loop", "lp.", "space", "sp", f"{k} ch loop", f"{k}-ch loop", f"ch-{k} loop", "ch loop"]
        return self.habit("loop", ways)

    def loops(self, k: int) -> str:
        return self.habit("loops", ("loops", "lps", f"ch-{k} loops", f"ch-{k} sps", "ch lps", f"{k}-ch loops", f"ch-{k} spaces", "spaces", "sps"))

    def in_loop(self, k: int) -> str:
        """The place of one stitch in the next loop."""
        into, loop = self.into(), self.loop(k)
        following = self.habit("following", ("next", "next", "next", "the next", "following"))
        ways = [f"{into} {following} {loop}"] * 5
        if k % 2:
            ways += [f"{into} {NTH[(k + 1) // 2]} ch of {following} ch-{k}", f"{into} {NTH[(k + 1) // 2]} ch of {following} {loop}", f"{into} center ch of {following} {loop}", f"{into} middle ch of {following} {loop}"] if k < 8 else []
        ways += [f"{into} center of {following} {loop}", f"{into} middle of {following} {loop}", f"{into} centre of {following} {loop}", f"over {following} {loop}", f"under {following} {loop}"]
        return self.habit("in loop", ways)

    def slip(self) -> str:
        if self.british:
            return self.habit("slip", ("ss", "s.s.", "sl st", "sl.st.", "slip stitch", "slst"))
        return self.habit("slip", ("sl st", "sl st", "ss", "slip stitch", "slst", "sl-st", "sl. st.") if not self.old else ("sl st", "sl. st.", "slip stitch", "sl st", "s. st."))

    def first(self) -> str:
        return self.habit("first", ("first", "first", "1st", "beg", "the first") if not self.old else ("first", "1st", "first"))

    def join(self, kind: str, chains: int = 0) -> str:
        slip = self.slip()
        if chains:
            third, ch = NTH[chains], f"{chains} ch" if self.british else f"ch-{chains}"
            return self.habit("join chain", (
                "join", f"join with {slip} in top of beg {ch}", f"{slip} to top of {ch}", f"join with {slip} to {third} ch of beg {ch}",
                f"{slip} into {third} of {ch}", f"join to top of {ch}", f"{slip} in top of first {ch} to join", f"join in {third} ch",
                f"join to {third} st of {ch}", f"join with {slip} in {third} ch of starting ch",
            ))  # fmt: skip
        first = f"{self.first()} {self.name(kind)}"
        return self.habit("join stitch", (
            "join", f"join with {slip} in {first}", f"join with a {slip} to {first}", f"{slip} in {first}", f"{slip} to {first} to join",
            f"{slip} to join", f"join to {first}", f"join with {slip}", f"join in {first}", f"join with {slip} into {first}",
            f"join round with {slip} to {first}", f"close with {slip} in {first}",
        ))  # fmt: skip

    # -- repeats ----------------------------------------------------------------------------------------------------

    def again(self, body: str, times: int, ways: tuple[str, ...]) -> str:
        """A body so often, which is as often as there is room; only where it is more than once."""
        end, more = self.habit("end", ways), times - 1
        rep = self.habit("rep", ("rep", "rep", "repeat") if not self.old else ("rep.", "rep", "repeat", "repeat"))
        stop = self.habit("stop before rep", ("; ", "; ", ", ", ". "))
        rep = rep.capitalize() if stop == ". " else rep
        star = self.habit("star", ("*", "*", "* "))
        times_word = "time" + "s" * (more > 1)
        ways_said = [
            f"{star}{body}{stop}{rep} from * {end}", f"{star}{body}{stop}{rep} from * {end}", f"*{body}* {end}", f"*{body}*, {rep} from * to * {end}",
            f"({body}) {end}", f"[{body}] {end}", f"{star}{body}{stop}{rep} from first * {end}" if not self.old else f"{star}{body}{stop}{rep} from star {end}",
        ]  # fmt: skip
        if times > 2:
            ways_said += [
                f"{star}{body}{stop}{rep} from * {more} more {times_word}", f"{star}{body}{stop}{rep} from * {self.number(more)} times more",
                f"({body}) {times} times", f"[{body}] {times} times", f"*{body}* {times} times", f"*{body}*; {rep} from * to * {more} more {times_word}",
                f"[{body}] x {times}", f"{star}{body}{stop}{rep} {more} more {times_word}", f"*{body}*; {rep} between *s {more} more {times_word}",
            ]  # fmt: skip
        self.counted = False
        said = self.habit(f"again {times > 2}", ways_said)
        self.counted = bool(re.search(r"\d|times|time", said[said.rfind("*" if "*" in said else ")" if ")" in said else "]") :]))
        return said

    def around(self, body: str, times: int) -> str:
        return self.again(body, times, ("around", "around", "around", "all around", "round", "to end of round") if not self.old else ("around", "all around", "round", "around", "to end"))

    def across(self, body: str, times: int) -> str:
        return self.again(body, times, ("across", "across", "to end", "to end of row", "across row") if not self.old else ("across", "across row", "to end", "to end of row", "along"))

    # -- rows -------------------------------------------------------------------------------------------------------

    def head(self, number: int, *, is_round: bool) -> str:
        if self.old:
            nth = f"{number}{({1: 'st', 2: 'nd', 3: 'rd'}).get(number, 'th')}"
            word = self.habit("word", ("Round", "round", "rnd", "Rnd.", "ROUND") if is_round else ("Row", "row", "row", "ROW", "Row"))
            cap = word.capitalize().rstrip(".")
            return self.habit("head", (f"{nth} {word}:", f"{nth} {word.rstrip('.')}.", f"{nth} {word.rstrip('.')}.—", f"{cap} {number}.", f"{cap} {number}—", f"{nth} {word}:", f"{nth} {word} -"))
        return super().head(number, is_round=is_round)

    def says(self, loops: int, what: str) -> str:
        return self.habit("says", ("", "", f" ({loops} {what})", f" [{loops} {what}]", f" - {loops} {what}.", f" {loops} {what}.", f" ({loops} {what} made)"))

    def put(self, page: Told, told: str, made: int, chains: int = UNTOLD, *, is_round: bool, said: str = "") -> None:
        told = re.sub(r"\s+", " ", told).strip()
        upper = self.habit("capital", ("upper", "upper", "upper", ""))
        if upper:
            at = re.search(r"[a-zA-Z0-9*(\[]", told)
            where = 0 if at is None else at.start()
            where += 1 + (told[1:2] == " ") if told[where] == "*" else 0
            told = told[:where] + told[where : where + 1].upper() + told[where + 1 :]
        stop = "" if told.endswith((".", ")")) else self.habit("stop", (".", ".", ".", ""))
        if stop == "" and said[:2].strip().isdigit():
            stop = "."
        page.lines.append(f"{self.head(len(page.counts) + 1, is_round=is_round)} {told}{stop}{said}")
        page.words = "" if said else page.lines[-1]
        page.counts.append(made)
        page.chains.append(chains)

    def heading(self, page: Told) -> None:
        if self.british:
            page.lines.append(self.habit("terms", ("UK terms.", "Terms: UK", "UK terms are used.", "Abbreviations: dc = double crochet, tr = treble, ss = slip stitch, htr = half treble.", "Tension: 10 tr = 4 in.")))
        if self.rng.random() < 0.3:
            page.lines.insert(0, self.habit("title", ("DOILY", "Lacy Mat", "Small Centerpiece", "A Pretty Mat for the Tea Table", "Luncheon Set")))

    def ring(self, page: Told, wide: int, kind: str = "sc") -> str:
        """The ring on a line or in the first round; what begins that round."""
        n, slip = self.rng.choice((4, 5, 6, 8)), self.slip()
        make = self.ch(n)
        said = self.habit("ring", (
            f"{make}, join with {slip} to form ring", f"{make}, join with a {slip} to form a ring", f"{make}; {slip} in first ch to form a ring",
            f"{make}, join", f"{make} and join into a ring with {slip}", f"{make}, join to form a ring", f"{make}, {slip} to first ch",
        ))  # fmt: skip
        said = said[0].upper() + said[1:]
        if self.rng.random() < 0.5:
            page.lines.append(f"{said}.")
            return ""
        return f"{said}. "


def _joined_ring(w: Lacemaker, page: Told, wide: int) -> str:
    """A ring and a first joined round of so many sc or dc; their name."""
    begun = w.ring(page, wide)
    if w.rng.random() < 0.6:
        work = w.habit("round 1", ("", "", "work ", "make ")) + f"{wide} {w.name('sc', wide)} in ring"
        w.put(page, f"{begun}{w.ch(1)}, {work}, {w.join('sc')}", wide, 0, is_round=True, said=w.says(wide, "sc" if not w.british else "dc"))
        return "sc"
    counts = w.habit("counts", (f" (counts as first {w.name('dc')})", f" (counts as 1 {w.name('dc')})", f" (counts as {w.name('dc')})", ""))
    w.put(page, f"{begun}{w.ch(3)}{counts}, {wide - 1} {w.name('dc')} in ring, {w.join('dc', 3)}", wide, 0, is_round=True, said=w.says(wide, "dc" if not w.british else "tr"))
    return "dc"


def _to_middle(w: Lacemaker, k: int) -> str:
    """From the join to the middle of the first loop, and the first sc there."""
    slip, half, loop, sc = w.slip(), k // 2, w.loop(k), w.one("sc")
    go = w.habit("go", (
        f"{slip} in next {half} ch", f"{slip} to center of first {loop}", f"{slip} in first {loop}", f"{slip} to center of next {loop}",
        f"{slip} in each of next {half} ch", f"{slip} to middle of {loop}", f"{slip} into next {loop}", f"{slip} across to center of first {loop}",
        f"{slip} in next {half} chs", f"{slip} to centre of loop", f"{slip} into first {half} ch of first {loop}", f"{slip} up to center of {loop}",
    ))  # fmt: skip
    return go + w.habit("go sc", (f", {w.ch(1)}, {sc} in same {loop}", f", {sc} in same {loop}", f", {w.ch(1)}, {sc} in same sp", f", {w.ch(1)}, {sc} in loop", f"; {sc} in same place", f", {w.ch(1)}, {sc} in same place"))


def _on_closing(w: Lacemaker, kind: str, k: int) -> str:
    """The first sc of a round behind a loop that a stitch has closed."""
    sc, st, loop = w.one("sc"), w.name(kind), w.loop(k)
    one = w.habit("ch 1", (f"{w.ch(1)}, ", f"{w.ch(1)}, ", ""))
    return one + w.habit("on closing", (
        f"{sc} in same sp", f"{sc} in same {loop}", f"{sc} in loop just made", f"{sc} around post of {st} just made", f"{sc} over {st}",
        f"{sc} in {loop} just made", f"{sc} in same st", f"{sc} in same place", f"{sc} in top of {st}", f"{sc} in same loop as joining", f"{sc} around {st}",
    ))  # fmt: skip


def _closing(w: Lacemaker, k: int, rest: str, *, counted: bool, base: str) -> tuple[str, int, str]:
    """How a round of loops ends behind its last whole repeat: the words, the chains there and the stitch ("" a slip stitch)."""
    first = f"first {w.name(base)}"
    skip = f", {rest}" if rest and w.rng.random() < 0.5 else ""
    if w.rng.random() < 0.5:
        a, kind = w.rng.choice(CLOSED[k])
        ch, st = w.ch(a), w.one(kind)
        ways = [
            f", {ch}, {st} in {first}", f", ending last rep with {ch}, {st} in {first}", f", {ch}, join with {w.name(kind)} in {first}",
            f", ending with {ch}, {st} in {first}", f", end {ch}, {st} in {first}", f", {ch}, {st} in {first} to form last loop",
            f", {ch}, {st} in {first} instead of last ch-{k} loop", f"; end with {ch}, {st} in {first}", f", ending {ch}, {st} in {first}",
            f", ending last repeat {ch}, {st} in {first}", f", last rep ends with {ch}, {st} in {first}", f", {ch}, {st} in {first} (last loop made)",
            f", {ch}, {st} in {first} (counts as last ch-{k} loop)", f". End last rep with {ch}, {st} in {first}", f", {ch} and {st} in {first} for last loop",
            f", joining last loop with {ch}, {st} in {first}",
        ]  # fmt: skip
        said = w.habit("closing", ways)
        if not counted and said.startswith((f", {ch}, {st} in {first} instead", ", joining last")):
            said = ways[0]
        return said, a, kind
    ch, join = w.ch(k), w.join(base)
    ways = [
        f", {ch}{skip}, {join}", f", ending with {ch}{skip}, {join}", f", ending last rep with {ch}, {join}", f", ending {ch}, {join}", f", end {ch}, {join}",
        f"; end with {ch}{skip}, {join}", f", ending last repeat {ch}, {join}", f", {ch}{skip}; {join}", f". End with {ch}, {join}",
    ]  # fmt: skip
    return w.habit("whole closing", ways), k, ""


def loops(w: Lacemaker) -> Told:
    """Joined rounds of loops, closed whole or with a stitch, and stitches that fill them."""
    page = Told()
    w.heading(page)
    many, gap = w.rng.randint(5, 9), w.rng.choice((1, 1, 2, 3))
    base = _joined_ring(w, page, many * (gap + 1))
    k = w.rng.choice((3, 4, 5, 5, 6, 7))
    what, says = w.name(base), lambda: w.says(many, w.loops(k))
    skip = w.skipped(gap, what)
    sc, there = w.one("sc"), f"{w.into()} next {w.habit('what', (what, 'st'))}"
    begun = w.habit("begun loops", (f"{w.ch(1)}, {sc} in same st", f"{w.ch(1)}, {sc} in same st as joining", f"{sc} in same st", f"{w.ch(1)}, {sc} in first {what}", f"{w.ch(1)}, {sc} in same place", f"{w.ch(1)}, {sc} in joining", f"{w.ch(1)}, {sc} in same st as join", f"{w.ch(1)}, {sc} in joined st", f"{w.ch(1)}, {sc} in same {what}"))
    if base == "dc" and "first" in begun:
        begun = f"{w.ch(1)}, {sc} in same st"
    kind = ""
    if w.rng.random() < 0.35:
        body = f"{sc} {there}, {w.ch(k)}, {skip}"
        first = w.habit("plain first", (f"{w.ch(1)}, *{sc} in same st", ""))
        told = f"{w.ch(1)}, {w.around(body, many)}, {w.join('sc')}" if not first or base == "dc" else f"{begun}, {w.ch(k)}, {skip}, {w.around(body, many - 1)}, {w.join('sc')}"
        chains = k * many
    else:
        told = w.around(f"{w.ch(k)}, {skip}, {sc} {there}", many - 1)
        ends, last, kind = _closing(w, k, skip, counted=w.counted, base="sc")
        told, chains = f"{begun}, {told}{ends}", k * (many - 1) + last
    w.put(page, told, many, chains, is_round=True, said=says())
    for _ in range(w.rng.randint(0, 2)):
        was, k = k, min(k + w.rng.choice((0, 1)), 7)
        begun = _on_closing(w, kind, was) if kind else _to_middle(w, was)
        told = w.around(f"{w.ch(k)}, {sc} {w.in_loop(was)}", many - 1)
        ends, last, kind = _closing(w, k, "", counted=w.counted, base="sc")
        w.put(page, f"{begun}, {told}{ends}", many, k * (many - 1) + last, is_round=True, said=w.says(many, w.loops(k)))
    if kind:
        return page
    _filled(w, page, many, k)
    return page


def _filled(w: Lacemaker, page: Told, many: int, k: int) -> None:
    """A last round that fills every loop."""
    slip, loop = w.slip(), w.loop(k)
    n = w.rng.randint(3, 7)
    go = w.habit("go in", (f"{slip} in first {loop}, {w.ch(1)}, ", f"{slip} into {loop}, ", f"{w.ch(1)}, ", f"{slip} in next {loop}, "))
    way = w.rng.choice(("sc", "picot", "petal", "group"))
    each, there = f"in each {loop} around", f"next {loop}"
    if way in ("petal", "picot"):
        go = f"{w.ch(1)}, "
    if way == "sc":
        each = w.habit("each loop", (f"in each {loop} around", f"in each {loop}", f"into each {loop}", f"in every {loop} around", f"over each {loop}"))
        w.put(page, f"{go}{w.some(n, 'sc')} {each}, {w.join('sc')}", n * many, 0, is_round=True, said=w.says(n * many, "dc" if w.british else "sc"))
    elif way == "petal":
        group = f"{w.one('sc')}, {w.one('hdc')}, {w.some(n, 'dc')}, {w.one('hdc')}, {w.one('sc')}"
        told = w.habit("petal", (f"({group}) {each}", f"*({group}) in {there}; rep from * around", f"[{group}] in each {loop}", f"in each {loop} work ({group})", f"work {group} in each {loop}", f"{group} in each {loop} around", f"in each loop work {group}"))
        w.put(page, f"{go}{told}, {w.join('sc')}", (n + 4) * many, 0, is_round=True, said=w.says(many, "petals"))
    elif way == "picot":
        half = w.rng.randint(2, 4)
        group = f"{w.some(half, 'sc')}, {w.ch(3)}, {w.some(half, 'sc')}"
        told = w.habit("picots", (f"({group}) {each}", f"*({group}) in {there}; rep from * around", f"in each loop work {group}", f"work ({group}) in each {loop}", f"{group} in each {loop}"))
        w.put(page, f"{go}{told}, {w.join('sc')}", 2 * half * many, UNTOLD, is_round=True)
    else:
        counts = w.habit("counts", (f" (counts as first {w.name('dc')})", f" (counts as {w.name('dc')})", ""))
        begun = f"{slip} in first {loop}, {w.ch(3)}{counts}, {w.some(n - 1, 'dc')} in same {w.habit('same', ('sp', loop, loop))}"
        body = w.habit("group body", (f"{w.ch(2)}, {w.some(n, 'dc')} {w.into()} next {loop}",))
        told = w.around(body, many - 1)
        end = w.habit("group end", (f", {w.ch(2)}, {w.join('dc', 3)}", f", ending with {w.ch(2)}, {w.join('dc', 3)}", f", end {w.ch(2)}, {w.join('dc', 3)}"))
        w.put(page, f"{begun}, {told}{end}", n * many, 2 * many, is_round=True)


def _foundation(w: Lacemaker, page: Told, n: int) -> str:
    """The chain on a line of its own or in the first row; what begins that row."""
    said = w.habit("chain", (f"{w.ch(n)}", f"{w.ch(n)}", f"make {w.ch(n) if w.british else f'{n} ch'}", f"{w.ch(n)} loosely", f"foundation: {w.ch(n)}", f"begin with {n} ch", f"make a chain of {n}", f"make a ch of {n} sts"))
    said = said[0].upper() + said[1:]
    if said.startswith("Foundation") or w.rng.random() < 0.7:
        page.lines.append(f"{said.rstrip('.')}.")
        return ""
    return f"{said}, " if w.rng.random() < 0.5 else f"{said.rstrip('.')}. "


def _turn(w: Lacemaker, n: int, told: str, page: Told) -> str:
    """A row with so many turning chains, said before it or at the end of the one before (which `page` holds)."""
    ch = w.ch(n)
    way = w.habit("turning", ("{ch}, turn, {told}", "turn, {ch}, {told}", "behind", "{ch}, turn; {told}", "behind turn", "turn with", "{ch} and turn, {told}"))
    if way.startswith(("{", "turn, ")):
        return way.format(ch=ch, told=told)
    last = page.lines[-1]
    said = {"behind": f"{ch}, turn", "behind turn": f"turn, {ch}", "turn with": f"turn with {n} ch"}[way]
    base = last.rstrip(".")
    counted = re.search(r"[)\]]$|\d [\w-]+( \w+)?( made)?$", base) if last != page.words else None
    page.lines[-1] = f"{base}. {said[0].upper() + said[1:]}." if counted else f"{base}, {said}."
    return told


def loop_rows(w: Lacemaker) -> Told:
    """Rows of loops, to and fro."""
    page = Told()
    w.heading(page)
    many, gap, k = w.rng.randint(3, 8), w.rng.choice((2, 3, 3)), w.rng.choice((4, 5, 5, 6, 7))
    wide = many * (gap + 1) + 1
    begun = _foundation(w, page, wide + 1)
    sc = w.one("sc")
    if w.rng.random() < 0.5:
        told = w.habit("row 1", (f"{sc} in 2nd ch from hook and in each ch across", f"{sc} in 2nd ch from hook, {sc} in each ch to end", f"{sc} into 2nd ch from hook, then {sc} in each ch", f"{sc} in 2nd ch from hook, {sc} in each remaining ch"))
        w.put(page, f"{begun}{told}", wide, 0, is_round=False, said=w.says(wide, "dc" if w.british else "sc"))
        begun, what, start = "", w.name("sc"), w.habit("loops start", (f"{sc} in first {w.name('sc')}", f"{sc} in first st", f"{sc} in 1st {w.name('sc')}"))
        turned = 1
    else:
        what, start, turned = "ch", f"{sc} in 2nd ch from hook", 0
    skip = w.skipped(gap, what)
    body = f"{w.ch(k)}, {skip}, {sc} {w.into()} next {w.habit('what', (what, what, 'st'))}"
    told = f"{begun}{start}, {w.across(body, many)}"
    if turned:
        told = _turn(w, turned, told, page)
    w.put(page, told, many + 1, k * many, is_round=False, said=w.says(many, w.loops(k)))
    for _ in range(w.rng.randint(1, 3)):
        was, k = k, w.rng.choice((k, k, min(k + 1, 7)))
        t = k
        way = w.rng.choice(("ends in loop", "ends dc"))
        many = len(page.counts) and page_loops(page, many)
        if way == "ends in loop":
            # ch t stands as the first loop; sc in each loop.
            body = f"{sc} {w.in_loop(was)}, {w.ch(k)}"
            count = many
            end = w.habit("ends in loop", (f", {sc} in last {w.loop(was)}", f", ending with {sc} in last {w.loop(was)}", f", ending {sc} in last {w.loop(was)}", f"; end with {sc} in last {w.loop(was)}"))
            told = w.across(body, many - 1)
            told = _turn(w, t, told + end, page)
            w.put(page, told, count, UNTOLD, is_round=False)
            page.loops = many  # type: ignore[attr-defined]
        else:
            start = w.habit("first loop", (f"{sc} in first {w.loop(was)}", f"{sc} in next {w.loop(was)}"))
            told = f"{start}, {w.across(f'{w.ch(k)}, {sc} {w.in_loop(was)}', many - 1)}"
            told = _turn(w, 1, told, page)
            w.put(page, told, many, k * (many - 1), is_round=False, said=w.says(many - 1, w.loops(k)))
            page.loops = many - 1  # type: ignore[attr-defined]
        if page_loops(page, many) < 3:
            break
    return page


def page_loops(page: Told, many: int) -> int:
    return getattr(page, "loops", many)


def _dc_row(w: Lacemaker, page: Told, wide: int) -> None:
    begun = _foundation(w, page, wide + 2)
    dc = w.one("dc")
    told = w.habit("dc row", (f"{dc} in 4th ch from hook and in each ch across", f"{dc} in 4th ch from hook, {dc} in each ch to end", f"{dc} into 4th ch from hook and into each ch across", f"{dc} in 4th ch from hook, {dc} in each remaining ch"))
    w.put(page, f"{begun}{told}", wide, 0, is_round=False, said=w.says(wide, "tr" if w.british else "dc"))


def _last(w: Lacemaker, n: int = 3) -> str:
    """The place of the last stitch of a row: the beginning chain of the row below."""
    top = f"{n} ch" if w.british else f"ch-{n}"
    return w.habit("last", ("in last st", "in top of turning ch", "in top of tch", f"in top of {top}", "in top of turning chain", "in top of t-ch", f"in {NTH[n]} ch of turning ch", f"in {NTH[n]} of {top}", "in top ch"))


def vees(w: Lacemaker) -> Told:
    """Rows of V-stitches or shells, each in that of the row below."""
    page = Told()
    w.heading(page)
    many, shell = w.rng.randint(3, 7), w.rng.random() < 0.5
    legs, c = (w.rng.choice((2, 3)), w.rng.choice((1, 2))) if shell else (1, w.rng.choice((1, 2)))
    each = 5 if shell else 3
    _dc_row(w, page, each * many + 2)
    what = w.habit("group", ("shell", "shell", "fan")) if shell else w.habit("group", ("V-st", "V-st", "V-stitch", "v-st", "V st"))
    group = f"{w.some(legs, 'dc')}, {w.ch(c)}, {w.some(legs, 'dc')}"
    group_made = w.habit("made", (f" ({what} made)", f" - {what} made", "above", f" (called {what})", f" for {what}"))
    if group_made == "above":
        group_made = ""
        page.lines.insert(0, w.habit("explained", (f"{what}: ({group}) in same st.", f"{what[0].upper() + what[1:]} = {group} in same st.", f"Work {group} in one st for {what}.")))
    bracket = w.habit("bracket", ("({}) in {}", "({}) in {}", "[{}] in {}", "({}) all in {}", "work ({}) in {}", "({}) into {}"))
    half = each // 2
    below = w.habit("what", (w.name("dc"), w.st(half)))
    body = f"{w.skipped(half, below)}, {bracket.format(group, 'next st')}{group_made}, {w.skipped(half, below)}"
    dc = w.one("dc")
    counts = w.habit("counts", (f" (counts as {w.name('dc')})", f" (counts as first {w.name('dc')})", ""))
    told = _turn(w, 3, f"{w.across(body, many)}, {dc} {_last(w)}", page)
    told = told.replace(w.ch(3), w.ch(3) + counts, 1) if told.startswith(w.ch(3)) and counts else told
    w.put(page, told, 2 * legs * many + 2, c * many, is_round=False, said=w.says(many, "shells" if shell else "V-sts"))
    for _ in range(w.rng.randint(1, 3)):
        sp = f"ch-{c} sp"
        there = w.habit("in group", (f"next {sp}", f"{sp} of next {what}", f"next {what}", f"center of next {what}", f"center sp of next {what}", f"sp of next {what}", "next ch-sp", f"{c}-ch sp of next {what}", f"each {sp} across", f"each {what} across", f"each {sp}"))
        if there.startswith("each"):
            told = bracket.format(group, there)
        elif w.rng.random() < 0.3 and what in ("shell", "V-st"):
            told = w.habit("named", (f"{what} in each {what} across", f"{what} in ch-{c} sp of each {what}", f"{what} in {what} across", w.across(f"{what} in next {what}", many), f"work {what} in each {what}"))
        else:
            told = w.across(bracket.format(group, there), many)
        told = _turn(w, 3, f"{told}, {dc} {_last(w)}", page)
        w.put(page, told, 2 * legs * many + 2, c * many, is_round=False, said=w.says(many, "shells" if shell else "V-sts"))
    if w.rng.random() < 0.4:
        n = w.rng.randint(3, 5)
        plural = f"{what}es" if what.endswith("stitch") else f"{what}s"
        between = w.habit("between", (f"in sp between {plural}", f"between {plural}", f"between next 2 {plural}", f"in sp between next 2 {plural}"))
        told = w.across(f"{w.some(n, 'dc')} {between}", many - 1)
        told = _turn(w, 3, f"{told}, {dc} {_last(w)}", page)
        w.put(page, told, n * (many - 1) + 2, 0, is_round=False)
    return page


def posts(w: Lacemaker) -> Told:
    """Rows of post stitches over dc."""
    page = Told()
    w.heading(page)
    f, b = w.rng.choice(((1, 1), (2, 2), (1, 2), (3, 2), (2, 1)))
    many = w.rng.randint(3, 7)
    wide = many * (f + b) + 2
    _dc_row(w, page, wide)
    tr = w.name("dc")

    def post(side: str, n: int, *, beside: str = "") -> str:
        short, word = ("fp" if side == "front" else "bp"), UK["dc"] if w.british else "dc"
        around = w.habit("around", ("around", "around", "around the post of", "round", "around post of"))
        each = w.habit("post each", (f"next {n} {w.st(n)}", f"each of next {n} {w.st(n)}", f"next {n} {tr}")) if n > 1 else w.habit("post one", ("next st", f"next {tr}", "next stitch"))
        name = w.habit("post", (f"{short}{word}", f"{short.upper()}{word}", f"{short.upper()} {word}", f"{side} post {word}", f"{short.upper()}{word.upper()}"))
        return f"{name} {around} {each}"

    def plain(n: int) -> str:
        each = w.habit("plain each", (f"in next {n} {w.st(n)}", f"in each of next {n} {w.st(n)}")) if n > 1 else "in next st"
        return f"{w.one('dc')} {each}"

    turned = 2 if w.rng.random() < 0.5 else 3
    for _ in range(w.rng.randint(1, 3)):
        body = f"{post('front', f)}, {post('back', b) if w.rng.random() < 0.6 else plain(b)}"
        said = "" if turned == 3 else w.habit("counts 2", (" (counts as first st)", f" (counts as {w.name('dc')})", f" (counts as first {w.name('dc')})"))
        end = w.habit("post end", (f", {w.one('dc')} {_last(w, turned if len(page.counts) > 1 else 3)}", f", {w.one('dc')} in last st"))
        rep = w.rng.choice(("times", "upto"))
        if rep == "upto":
            end = f" to last st, {w.one('dc')} in last st"
            told = w.again(body, many, ("to last st", "across to last st", "until 1 st remains"))
            told += f", {w.one('dc')} in last st"
        else:
            told = w.across(body, many) + end
        if said:
            told = f"{w.ch(turned)}{said}, turn, {told}"
        else:
            told = _turn(w, turned, told, page)
        w.put(page, told, wide, 0, is_round=False, said=w.says(wide, "sts"))
    return page


def edge(w: Lacemaker) -> Told:
    """A square of groups and an edge round it with corners."""
    page = Told()
    w.heading(page)
    c, dc = w.rng.choice((2, 2, 3)), w.name("dc")
    begun = w.ring(page, 12)
    counts = w.habit("counts", (f" (counts as {dc})", f" (counts as first {dc})", ""))
    three = w.some(3, "dc")
    told = w.around(f"{three} in ring, {w.ch(c)}", 3) if w.rng.random() < 0.3 else f"*{three} in ring, {w.ch(c)}; rep from * 2 more times"
    if "around" in told or "round" in told.split(")")[-1] or "end" in told.split("*")[-1]:
        told = f"*{three} in ring, {w.ch(c)}; rep from * 2 more times"
    w.put(page, f"{begun}{w.ch(3)}{counts}, {w.some(2, 'dc')} in ring, {w.ch(c)}, {told}, {w.join('dc', 3)}", 12, 4 * c, is_round=True)
    side = 3
    corner = w.habit("corner", (f"ch-{c} sp", f"corner ch-{c} sp", "corner sp", "corner", f"ch-{c} corner sp", "corner space", f"{c}-ch sp", f"ch-{c} corner"))
    sc = w.one("sc")
    for _ in range(w.rng.randint(1, 3)):
        n = w.rng.choice((3, 3, 5))
        way = w.rng.choice(("each", "star", "group", "working"))
        upto = w.rng.choice(("next ", ""))
        plain = (f"{sc} in next {side} {w.st(side)}", f"{sc} in each of next {side} {w.st(side)}", f"{sc} in each st to {upto}{corner}", f"{w.some(side, 'sc')}")
        went = w.habit("side", plain)
        begun = w.ch(1)
        group = w.some(n, "sc") if way != "group" else f"({sc}, {w.ch(2)}, {sc})"
        gained, chains = (n, 0) if way != "group" else (2, 8)
        first = len(page.counts) == 1
        if not first:
            # Behind a round of sc: the corner's middle stitch.
            break
        if way in ("star", "group"):
            following = w.habit("nextc", ("next ", ""))
            told = f"{begun}, {w.around(f'{went}, {group} in {following}{corner}', 4)}, {w.join('sc')}"
        elif way == "each":
            told = w.habit("edge each", (
                f"{begun}, {sc} in each {dc} and {group} in each {corner} around, {w.join('sc')}",
                f"{begun}, {sc} in each st around, working {group} in each {corner}, {w.join('sc')}",
                f"{begun}, {sc} in each {dc} around, {group} in each {corner}, {w.join('sc')}",
                f"{begun}, {sc} in each st around with {group} in each {corner}, {w.join('sc')}",
                f"{begun}, {sc} in each st and {group} in each {corner} around, {w.join('sc')}",
            ))
        else:
            told = w.habit("edge work", (
                f"{begun}, work {sc} in each {dc} around, making {group} in each {corner}, {w.join('sc')}",
                f"{begun}, {sc} in each st to corner, *{group} in {corner}, {sc} in each of next {side} sts; rep from * 2 more times, {group} in last {corner}, {w.join('sc')}",
                f"{begun}, *{sc} in each {dc} to corner, {group} in corner; rep from * around, {w.join('sc')}",
                f"{begun}, *{sc} in each of next {side} {dc}, {group} in {corner}*, rep from * to * 3 more times, {w.join('sc')}",
            ))
        w.put(page, told, 4 * (side + gained), chains, is_round=True, said=w.says(4 * (side + gained), "dc" if w.british else "sc"))
        # the next round
        if way == "group":
            side2 = side + 2
            side3 = w.habit("side3", (f"next {side + 1} sts", f"each of first {side + 1} sts", f"each of next {side + 1} sts"))
            pair = f"({sc}, {w.ch(2)}, {sc})"
            thrice = w.habit("thrice", (f"*{sc} in next {side2} sts, {pair} in corner sp; rep from * 2 more times", f"[{sc} in next {side2} sts, {pair} in next corner sp] 3 times"))
            told = f"{w.ch(1)}, {sc} in {side3}, {pair} in corner sp, {thrice}, {sc} in last st, {w.join('sc')}"
            w.put(page, told, 4 * (side2 + 2), 8, is_round=True)
        else:
            short = UK["sc"] if w.british else "sc"
            mid = w.habit("mid", (f"center {w.name('sc')} of each corner", f"center st of each {n}-{short} corner", f"middle {w.name('sc')} of each corner", "center st of each corner", f"2nd {w.name('sc')} of each corner" if n == 3 else f"3rd {w.name('sc')} of each corner"))
            told = w.habit("edge 2", (
                f"{w.ch(1)}, {sc} in each {w.name('sc')} around, working 3 {w.name('sc')} in {mid}, {w.join('sc')}",
                f"{w.ch(1)}, {sc} in each st around, 3 {w.name('sc')} in {mid}, {w.join('sc')}",
                f"{w.ch(1)}, {sc} in each {w.name('sc')} around with 3 {w.name('sc')} in {mid}, {w.join('sc')}",
                f"{w.ch(1)}, {sc} in each st, making 3 {w.name('sc')} in {mid}, {w.join('sc')}",
            ))
            w.put(page, told, 4 * (side + n + 2), 0, is_round=True)
    return page


def clusters(w: Lacemaker) -> Told:
    """A ring of clusters and loops of it."""
    page = Told()
    w.heading(page)
    many, legs, c = w.rng.randint(6, 9), w.rng.choice((2, 3)), w.rng.choice((2, 3))
    base = _joined_ring(w, page, many if w.rng.random() < 0.6 else 2 * many)
    twice = page.counts[0] == 2 * many
    short = UK["dc"] if w.british else "dc"
    tog = f"{short}{legs}tog"
    stitch = w.habit("cluster", (f"{tog}", f"{legs}-{short} cluster", "cluster", "cl", f"{tog}"))
    if stitch in ("cluster", "cl"):
        page.lines.insert(0, w.habit("special", (f"Cluster (cl): {tog} in st indicated.", f"Cl = {legs} {w.name('dc')} worked together in same st.", f"Cluster (cl): work {legs} {w.name('dc')} in same st, holding back last loop of each on hook, yo and draw through all loops.")))
    beg = w.habit("beg cluster", (f"{w.ch(3)}, {short}{legs - 1}tog in same st" if legs > 2 else f"{w.ch(3)}, {w.name('dc')} in same st (counts as first cluster)", "beg cl in same st", "beg cluster in same st"))
    if beg.startswith("beg"):
        page.lines.insert(0, f"Beg cl: {w.ch(3)}, {short}{legs - 1}tog in same st." if legs > 2 else f"Beg cl: {w.ch(2)}, {w.name('dc')} in same st (counts as first cl).")
        beg = beg.replace("beg cluster", "beg cl")
    body = f"{w.ch(c)}, {w.skipped(1, w.name(base)) + ', ' if twice else ''}{stitch} in next {w.habit('what', ('st', w.name(base)))}"
    told = w.around(body, many - 1)
    end = w.habit("cluster end", (f", {w.ch(c)}, join", f", {w.ch(c)}, join with {w.slip()} in top of first cluster", f", {w.ch(c)}, {w.slip()} in top of beg cl", f", ending {w.ch(c)}, join in top of first cl", f", {w.ch(c)}, {w.slip()} in first cl", f", ending with {w.ch(c)}, join with {w.slip()} to first cluster"))
    w.put(page, f"{beg}, {told}{end}", many, c * many, is_round=True, said=w.says(many, w.habit("cls", ("clusters", "cls", f"ch-{c} sps"))))
    _filled(w, page, many, c)
    return page


def meshes(w: Lacemaker) -> Told:
    """Rounds of dc and chains that begin with a chain for both."""
    page = Told()
    w.heading(page)
    many, c = w.rng.randint(6, 10), w.rng.choice((1, 2, 2, 3))
    twice = w.rng.random() < 0.5
    base = _joined_ring(w, page, 2 * many if twice else many)
    total = 3 + c
    counts = w.habit("mesh counts", (f" (counts as {w.name('dc')} and {w.ch(c)})", f" (counts as first {w.name('dc')} + {w.ch(c)})", f" (counts as 1 {w.name('dc')} and ch-{c} sp)", ""))
    dc, skip = w.one("dc"), f"{w.skipped(1, w.name(base))}, " if twice else ""
    what = w.habit("what", ("st", w.name(base)))
    ch_said = f"{total} ch" if w.british else f"ch-{total}"
    slip = w.slip()
    join = w.habit("mesh join", (f"{slip} in 3rd ch of beg {ch_said}", f"join with {slip} to 3rd ch of {ch_said}", f"join in 3rd ch of {ch_said}", f"{slip} to 3rd of {ch_said}", f"join with {slip} in 3rd ch of beg ch", f"join to 3rd st of {ch_said}", "join"))
    order = w.rng.choice(("dc ch", "ch dc"))
    if order == "dc ch":
        told = f"{w.ch(total)}{counts}, {w.around(f'{skip}{dc} in next {what}, {w.ch(c)}', many - 1)}"
        told += f", {skip}{join}" if twice and w.rng.random() < 0.3 else f", {join}"
    else:
        first = w.habit("counts", (f" (counts as {w.name('dc')})", ""))
        told = f"{w.ch(3)}{first}, {w.around(f'{w.ch(c)}, {skip}{dc} in next {what}', many - 1)}, {w.ch(c)}, {w.join('dc', 3)}"
    w.put(page, told, many, c * many, is_round=True, said=w.says(many, f"ch-{c} sps"))
    if w.rng.random() < 0.5:
        sp = w.loop(c)
        n = c + 1
        told = w.habit("mesh 2", (
            f"{w.ch(1)}, {w.one('sc')} in same st, {w.some(n, 'sc')} in {sp}, *{w.one('sc')} in next {w.name('dc')}, {w.some(n, 'sc')} in next {sp}; rep from * around, {w.join('sc')}",
            f"{w.ch(1)}, *{w.one('sc')} in {w.name('dc')}, {w.some(n, 'sc')} in next {sp}; rep from * around, {w.join('sc')}",
            f"{w.ch(1)}, {w.one('sc')} in each {w.name('dc')} and {w.some(n, 'sc')} in each {sp} around, {w.join('sc')}",
        ))
        w.put(page, told, many * (n + 1), 0, is_round=True)
    else:
        _filled(w, page, many, c)
    return page


KINDS: tuple[Callable[[Lacemaker], Told], ...] = (loops, loop_rows, vees, posts, edge, clusters, meshes)
#: The ages and countries of writers, one after the other.
AGES = ((False, False), (True, False), (True, True), (False, False), (False, True))


@dataclass(frozen=True)
class Chained(Outcome):
    """With the chains of every row as they are read and as they were wanted."""

    chains: list[int]
    chains_wanted: list[int]

    @property
    def right(self) -> bool:
        if self.counts != self.wanted:
            return False
        return all(want in (UNTOLD, made) for want, made in zip(self.chains_wanted, self.chains, strict=True))

    @property
    def compared(self) -> str:
        return f"stitches {self.counts} for {self.wanted}, chains {self.chains} for {self.chains_wanted}"


def run_on(page: Told) -> str:
    """The page with its rows in one paragraph."""
    start = next((i for i, line in enumerate(page.lines) if re.match(r"\W*(?:\d+(?:st|nd|rd|th)|r(?:ou)?n?d|row|r ?\d)", line, re.I)), 0)
    return "\n".join([*page.lines[:start], " ".join(line if line.endswith((".", ")", "]")) else line + "." for line in page.lines[start:])]) + "\n"


def outcome(seed: int, number: int, *, kind: str = "", together: bool = False) -> Chained:
    kinds = [one for one in KINDS if kind in ("", one.__name__)]
    make = kinds[number % len(kinds)]
    old, british = AGES[number // len(kinds) % len(AGES)]
    page = make(Lacemaker(random.Random(f"{seed}-{number}"), old=old, british=british))
    text = run_on(page) if together else page.text
    worked = work_text(text)
    rows = rows_of(worked)
    return Chained(
        make.__name__, text, told_of(worked), [row.row.made for row in rows], page.counts,
        [row.row.chains for row in rows], page.chains,
    )  # fmt: skip


def measured(seed: int, count: int, *, kind: str = "", together: bool = False) -> list[Chained]:
    """So many pages, told by as many writers, read."""
    return [outcome(seed, number, kind=kind, together=together) for number in range(count)]


def main() -> None:
    parser = options("Pages of loops, shells, posts and corners in many manners, read.")
    parser.add_argument("--kind", default="", choices=["", *(one.__name__ for one in KINDS)])
    parser.add_argument("--run-on", action="store_true", help="the rows of a page stand in one paragraph")
    args = parser.parse_args()
    report(measured(args.seed, args.count, kind=args.kind, together=args.run_on), args.show)


if __name__ == "__main__":
    main()
