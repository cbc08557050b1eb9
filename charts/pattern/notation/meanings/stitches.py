"""Stitches by name, with their loops and posts; gathered stitches and picots."""

from __future__ import annotations

from ....made_late import dataclass
from ... import lexicon
from ...hook import MOST_LEGS
from ...tree import Make, Special
from .parts import MOST
from .spots import Spots


@dataclass(slots=True)
class Stitches(Spots):
    """Stitches by name, with their loops and posts; gathered stitches and picots."""

    # -- stitches -------------------------------------------------------------------------------------------------

    def plain_stitch(self, k: str, k2: str = "") -> tuple[str, str]:
        return (k, "")

    def held_stitch(self, h: tuple[str, str]) -> tuple[str, str]:
        return h

    def own_stitch(self, x: str) -> tuple[str, str]:
        return (x, "")

    def loop_stitch(self, h: str, k: str) -> tuple[str, str]:
        return (k, h)

    def split_single(self) -> tuple[str, str]:
        """A single crochet worked into the middle of the one below, between its legs."""
        return ("sc", "")

    def fp_stitch(self, k: str) -> tuple[str, str] | None:
        return ("FP" + k, "") if lexicon.height_of(k) == k.removesuffix("2tog") or lexicon.height_of(k) else None

    def bp_stitch(self, k: str) -> tuple[str, str] | None:
        return ("BP" + k, "") if lexicon.height_of(k) else None

    def fnd_stitch(self, k: str) -> tuple[str, str] | None:
        return ("f" + k, "") if k in lexicon.US_HEIGHTS else None

    def tog_stitch(self, k: str, n: int) -> tuple[str, str] | None:
        return (f"{k}{n}tog", "") if 1 < n < 100 and lexicon.together(k) == 1 else None

    def spike_stitch(self, k: str) -> tuple[str, str] | None:
        return None

    def gathered(self, g: str) -> tuple[str, str]:
        return ("cl" if g == "cluster" else g, "")

    def group_stitch(self, g: str) -> tuple[str, str] | None:
        return (g, "") if g in ("shell", "block", "V-st") else None

    def sized_shell(self, g: tuple[int, str], k: str) -> tuple[str, str] | None:
        if k not in ("shell", "block", "petal", "V-st", "group") or g[1] in ("row", "st"):
            return None
        name = f"{g[0]}-{g[1]} {k}"
        self._learn(Special(name, name, name, (Make(g[1], g[0]),), in_place=True, form="group"))
        return (name, "")

    def counted_shell(self, n: int, k: str, g: str) -> tuple[str, str] | None:
        """ "5 dc shell in next st": so many in one place; one of them is a stitch and no shell."""
        return self.sized_shell((n, k), g) if 1 < n <= MOST else None

    def sized_gathered(self, g: tuple[int, str], k: str) -> tuple[str, str] | None:
        return self._legs(g[0], g[1], k)

    def counted_gathered(self, n: int, k: str, g: str) -> tuple[str, str] | None:
        return self._legs(n, k, g)

    def _legs(self, count: int, base: str, kind: str) -> tuple[str, str] | None:
        if count > MOST_LEGS:
            return None
        made = "cl" if kind == "cluster" else kind
        name = f"{count}-{base} {kind}"
        self._learn(
            Special(name, name, name, (), made, base if base != "st" else "dc", max(count, 1), 0, "gathered", True)
        )
        return (name, "")

    def _learn(self, special: Special) -> None:
        self.learned.setdefault(special.abbreviation, special)

    def picot_stitch(self) -> tuple[str, str]:
        return ("picot", "")

    def sized_picot(self, s: int) -> tuple[str, str]:
        return (f"picot {s}", "")

    def counted_picot(self, n: int) -> tuple[str, str]:
        return (f"picot {n}", "")

    def some_stitch(self) -> tuple[str, str]:
        return (self.base, "")
