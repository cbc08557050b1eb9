"""Written patterns made by chance that are right by construction: every row's count is known before it is written."""

from __future__ import annotations

import random
from collections.abc import Callable
from dataclasses import dataclass, field

#: Stitches that take one and make one, by their short and their long US names.
PLAIN = {"sc": "single crochet", "hdc": "half double crochet", "dc": "double crochet", "tr": "treble crochet"}
#: The chains of a foundation that the first of each skips.
SKIPPED = {"sc": 1, "hdc": 2, "dc": 3, "tr": 4}
_TH = {1: "nd", 2: "rd", 3: "th", 4: "th"}
UK = {"sc": "dc", "hdc": "htr", "dc": "tr", "tr": "dtr"}
WIDEST = 160


@dataclass
class Draft:
    """A pattern in the making: its lines, and what its last row makes; `counts` are the rows' counts by label."""

    rng: random.Random
    lines: list[str] = field(default_factory=list)
    made: int = 0
    number: int = 0
    head: str = "Row"
    counts: dict[str, int] = field(default_factory=dict)
    terms: str = "US"

    def stitch(self) -> str:
        """A plain stitch in the pattern's terms."""
        return self.said(self.rng.choice(list(PLAIN)))

    def said(self, us: str) -> str:
        return UK[us] if self.terms == "UK" else us

    def add(self, words: str, made: int) -> None:
        """One more row of these words that makes so many."""
        self.number += 1
        label = f"{self.head} {self.number}"
        says = self.rng.choice(("", f" ({made} sts)", f" ({made})", f" — {made} sts", f" [{made} sts]"))
        self.lines.append(f"{label}: {words}.{says}")
        self.made = self.counts[label] = made

    def again(self, most: int) -> None:
        """The last row some times more."""
        more = self.rng.randint(1, most)
        label, first, last = f"{self.head} {self.number}", self.number + 1, self.number + more
        heads = f"{self.head}s {first}-{last}" if more > 1 else f"{self.head} {first}"
        self.lines.append(f"{heads}: Rep {label}.")
        self.number = last
        self.counts[f"{self.head} {last}"] = self.made


def times(rng: random.Random, words: str, number: int) -> str:
    """So many times these words, in one of the ways that patterns say it."""
    if number == 1:
        return words
    ways = [f"[{words}] {number} times", f"({words}) x {number}", f"*{words}; rep from * {number - 1} more times"]
    return rng.choice(ways if "*" not in words else ways[:2])


def stitches(rng: random.Random, stitch: str, number: int) -> str:
    """A stitch in each of the next so many."""
    if number == 1:
        return f"{stitch} in next st"
    return rng.choice((f"{stitch} in next {number} sts", f"{stitch} in each of next {number} sts"))


def _ended(d: Draft, words: str, left: int) -> str:
    """The words and plain stitches into what is left."""
    return words if left == 0 else f"{words}, {stitches(d.rng, d.stitch(), left)}"


def plain(d: Draft) -> tuple[str, int]:
    rng, st = d.rng, d.stitch()
    return rng.choice((f"{st} in each st across", f"{st} across", f"{st} in BLO of each st across")), d.made


def blocks(d: Draft) -> tuple[str, int]:
    """Two or three stretches in turn, and what is left in plain stitches."""
    sizes = [d.rng.randint(1, 4) for _ in range(d.rng.randint(2, 3))]
    number = d.made // sum(sizes)
    if not number:
        return plain(d)
    words = ", ".join(stitches(d.rng, d.stitch(), size) for size in sizes)
    return _ended(d, times(d.rng, words, number), d.made - number * sum(sizes)), d.made


def nested(d: Draft) -> tuple[str, int]:
    inner, outer = d.rng.randint(2, 4), d.rng.randint(1, 3)
    size = 2 * inner + outer
    number = d.made // size
    if not number:
        return plain(d)
    words = f"[{d.stitch()} in next st, {d.stitch()} in next st] {inner} times, {stitches(d.rng, d.stitch(), outer)}"
    words = times(d.rng, words, number).replace("(", "[").replace(")", "]")
    return _ended(d, words, d.made - number * size), d.made


def fewer(d: Draft) -> tuple[str, int]:
    """Decreases spread over the row."""
    st, between, of = d.said(d.rng.choice(("sc", "hdc", "dc"))), d.rng.randint(0, 5), d.rng.choice((2, 2, 3))
    number = d.made // (between + of)
    if not number or d.made < 8:
        return plain(d)
    gathered = f"{st}{of}tog" if d.rng.random() < 0.8 else f"{st}{of}tog over next {of} sts"
    words = f"{stitches(d.rng, st, between)}, {gathered}" if between else gathered
    made = d.made - number * (of - 1)
    return _ended(d, times(d.rng, words, number), d.made - number * (between + of)), made


def more(d: Draft) -> tuple[str, int]:
    """Increases spread over the row."""
    st, between, into = d.stitch(), d.rng.randint(0, 5), d.rng.choice((2, 2, 3))
    number = d.made // (between + 1)
    if not number or d.made + number * (into - 1) > WIDEST:
        return plain(d)
    wider = f"{into} {st} in next st"
    words = f"{stitches(d.rng, st, between)}, {wider}" if between else wider
    return _ended(d, times(d.rng, words, number), d.made - number * (between + 1)), d.made + number * (into - 1)


def shells(d: Draft) -> tuple[str, int]:
    half = d.rng.randint(1, 3)
    size = 2 * half + 2
    number = (d.made - 1) // size
    if number < 1:
        return plain(d)
    st, low = d.said(d.rng.choice(("dc", "tr"))), d.said("sc")
    skip = f"sk next {half} sts" if half > 1 else "sk next st"
    words = f"{skip}, {2 * half + 1} {st} in next st, {skip}, {low} in next st"
    return _ended(d, f"{low} in first st, {times(d.rng, words, number)}", d.made - 1 - number * size), d.made


def crossed(d: Draft) -> tuple[str, int]:
    number, st = d.made // 2, d.said("dc")
    if not number:
        return plain(d)
    words = times(d.rng, f"sk next st, {st} in next st, {st} in skipped st", number)
    return _ended(d, words, d.made % 2), d.made


def knobs(d: Draft) -> tuple[str, int]:
    """Clusters, bobbles, puffs and popcorns in their places."""
    size = d.rng.randint(2, 5)
    number = d.made // size
    if not number:
        return plain(d)
    what = d.rng.choice(("bobble", "puff st", "popcorn", f"{d.rng.randint(3, 5)}-{d.said('dc')} cluster"))
    words = f"{stitches(d.rng, d.said('sc'), size - 1)}, {what} in next st"
    return _ended(d, times(d.rng, words, number), d.made - number * size), d.made


def posts(d: Draft) -> tuple[str, int]:
    number = d.made // 2
    if not number:
        return plain(d)
    st = d.said("dc")
    words = f"FP{st} around next st, BP{st} around next st"
    return _ended(d, times(d.rng, words, number), d.made % 2), d.made


def mesh(d: Draft) -> tuple[str, int]:
    """A chain over every skipped stitch; the next row goes into stitches and spaces alike."""
    number = (d.made - 1) // 2
    if number < 1:
        return plain(d)
    st = d.said("dc")
    words = f"{st} in first st, {times(d.rng, f'ch 1, sk next st, {st} in next st', number)}"
    return _ended(d, words, d.made - 1 - 2 * number), -1


ROWS: tuple[Callable[[Draft], tuple[str, int]], ...] = (
    plain, plain, blocks, blocks, nested, fewer, more, shells, crossed, knobs, posts, mesh,
)  # fmt: skip


def _tallest(d: Draft) -> str:
    return f"Ch {d.rng.randint(1, 2)} (does not count as a st), turn"


def _worked_row(d: Draft) -> None:
    width = d.made
    words, made = d.rng.choice(ROWS)(d)
    begun = f"{_tallest(d)}. {words[0].upper()}{words[1:]}"
    if made < 0:
        # What a row of chain spaces counts as is the pattern's own affair, so no count is stated.
        d.number += 1
        d.lines.append(f"{d.head} {d.number}: {begun}.")
        d.made = width
        st = d.stitch()
        d.add(f"{_tallest(d)}. {st.capitalize()} in each st and ch-1 sp across", width)
    else:
        d.add(begun, made)


def flat(rng: random.Random, terms: str = "US", *, small: bool = False) -> Draft:
    """Rows to and fro over a chain, or over the row below."""
    d = Draft(rng, terms=terms)
    width = rng.randint(1, 12) if small else rng.choice((rng.randint(1, 12), rng.randint(8, 40), rng.randint(30, 120)))
    st = rng.choice(list(PLAIN))
    if rng.random() < 0.2:
        d.lines.append(f"Over {width} {d.said(st)}.")
        d.made = width
    else:
        skipped = SKIPPED[st]
        chain = width + skipped - (0 if st == "sc" else 1)
        if width < 3:
            d.lines.append(f"Over {width} {d.said(st)}.")
            d.made = width
        else:
            d.lines.append(f"Ch {chain}.")
            d.add(f"{d.said(st).capitalize()} in {skipped + 1}{_TH[skipped]} ch from hook and in each ch across", width)
            d.lines[-1] = d.lines[-1].replace("Row 1:", f"Row 1{rng.choice(('', ' (RS)', ' (WS)'))}:")
    for _ in range(rng.choice((1, 1, 2, 3) if small else (1, 2, 4, 9))):
        width = d.made
        _worked_row(d)
        if d.made == width and rng.random() < 0.15:
            d.again(6)
    return d


def _worked_round(d: Draft, *, joined: bool) -> None:
    words, made = d.rng.choice((plain, blocks, nested, fewer, more, more, knobs))(d)
    words = words.replace(" across", " around")
    if joined:
        words = f"Ch 1, {words}, join with sl st in first st"
    d.add(words[0].upper() + words[1:], made)


def rounds(rng: random.Random, terms: str = "US", *, small: bool = False) -> Draft:
    """Rounds from a ring, joined or in a spiral."""
    d = Draft(rng, head=rng.choice(("Rnd", "Round")), terms=terms)
    number, st, joined = rng.randint(4, 12), d.stitch(), rng.random() < 0.5
    if joined:
        d.lines.append("Make a magic ring.")
        d.add(f"Ch 1, {number} {st} in ring, join with sl st in first st", number)
    else:
        d.add(f"{number} {st} in magic ring", number)
    for _ in range(rng.choice((0, 1, 2) if small else (1, 3, 6))):
        width = d.made
        _worked_round(d, joined=joined)
        if d.made == width and rng.random() < 0.1 and not joined:
            d.again(4)
    return d


def granny(rng: random.Random, terms: str = "US", *, small: bool = False) -> Draft:
    """A square of groups with corner spaces, so many rounds."""
    d = Draft(rng, head="Rnd", terms=terms)
    st, groups = d.said("dc"), rng.randint(2, 3)
    d.lines.append("Ch 4, join with sl st in first ch to form ring.")
    each = f"{groups} {st}"
    first = f"Ch 3 (counts as {st}), {groups - 1} {st} in ring, ch 2, [{each} in ring, ch 2] 3 times"
    d.lines.append(f"Rnd 1: {first}, join with sl st in top of ch-3.")
    for k in range(rng.randint(0, 1 if small else 3)):
        sides = "".join(f", {each} in next ch-1 sp, ch 1" for _ in range(k))
        corner = f"({each}, ch 2, {each}) in next ch-2 sp, ch 1"
        begun = f"Sl st to ch-2 sp, ch 3 (counts as {st}), ({groups - 1} {st}, ch 2, {each}) in same sp, ch 1"
        d.lines.append(f"Rnd {k + 2}: {begun}{sides}, [{corner}{sides}] 3 times, join with sl st in top of ch-3.")
    return d


def valid_text(rng: random.Random, *, small: bool = False) -> tuple[str, dict[str, int]]:
    """A pattern that is right, with the counts of its rows by label; `small`: of a few short rows."""
    terms = "UK" if rng.random() < 0.15 else "US"
    d = rng.choices((flat, rounds, granny), (6, 4, 1))[0](rng, terms, small=small)
    head = [f"Terms: {terms}"] if terms == "UK" or rng.random() < 0.3 else []
    ends = ["Fasten off."] if rng.random() < 0.5 else []
    return "\n".join([*head, *d.lines, *ends]) + "\n", d.counts
