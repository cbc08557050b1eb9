"""How tall a row of each stitch is against the width of one stitch, where no swatch says it.

The ratios are estimates, with their sources in the table of stitches, and are labelled so wherever they are used.
"""

from __future__ import annotations

import functools
import re
from collections.abc import Sequence

from hookfold.symbols.dictionary import heights

#: Stands between two stitches of which a row is midway high.
MIDWAY = "+"
_PLAIN = re.compile("|".join(sorted(heights(), key=len, reverse=True)))


@functools.cache
def relative_height(kind: str) -> float:
    """The height of a row of a stitch, in stitch widths; a stitch made of plain ones counts as those, and a row midway
    between two stitches ("sc+hdc") as their mean.

    >>> relative_height("FPdc"), relative_height("hdc2tog"), relative_height("sc+hdc")
    (2.0, 1.3, 1.1)
    """
    if MIDWAY in kind:
        parts = kind.split(MIDWAY)
        return sum(map(relative_height, parts)) / len(parts)
    found = _PLAIN.search(kind)
    return heights()[found[0] if found else "sc"].row_height


def row_heights_mm(kinds: Sequence[str], row_mm: float, measured: Sequence[str]) -> tuple[float, ...]:
    """The height of each row, when rows of the stitches `measured` are `row_mm` tall on average.

    >>> row_heights_mm(["sc", "hdc"], 11.0, ["sc", "hdc"])
    (9.0, 13.0)
    """
    mean = sum(map(relative_height, measured)) / len(measured)
    by_kind = {kind: round(row_mm * relative_height(kind) / mean, 9) for kind in set(kinds)}
    return tuple([by_kind[kind] for kind in kinds])
