"""Filet told by its meshes: what an open and a solid one are where a pattern uses the names and explains neither."""

from __future__ import annotations

import re
from collections.abc import Collection

from ...when_used import when_used

_OPEN, _SOLID = r"open mesh(?:es)?", r"(?:solid|closed|filled) mesh(?:es)?"
#: "3 open meshes": so many of them as work.
_WORKED = when_used(rf"\b(?:\d{{1,3}}|an?|one)\s+(?:{_OPEN}|{_SOLID})\b")
_ASIDE = when_used(rf"\((?:=|an?|one|1|forms an?|makes an?)\s*(?:{_OPEN}|{_SOLID})(?:\s+made)?\)", re.IGNORECASE)
_CALLED = when_used(r"\b(?:solid|closed|filled)(?= mesh)")
#: "ch 2, skip 2 sts, d c in next st": how wide the meshes are, and of which stitch.
_FIRST = when_used(
    r"\b(?:ch ?(?P<n>[123])|(?P<n2>[123]) ?ch),? *(?:sk|skip|miss) (?:next )?(?P<m>[123])\b[^,;]{0,20}, *(?:1 )?(?P<stitch>d ?c|tr)(?: c)? in(?:to)? (?:the )?next"
)
#: So many chains are as high as the stitch of a mesh (common practice, no source).
_HIGH = 3


def usual_meshes(low: str, known: Collection[str]) -> tuple[tuple[str, str], ...]:
    """For each kind of mesh that a text in lower case works and does not explain, its explanation and how it begins a
    row, of the width and the stitch of the text's first mesh; `known` are the names explained. Empty where no first mesh
    is told.

    >>> [said for said, _ in usual_meshes("ch 2, skip 2 sts, dc in next st. 3 open meshes, 1 solid mesh.", ())]
    ['Open mesh: Ch 2, sk next 2 dc or next ch-2 sp, dc in next dc.', 'Solid mesh: 2 dc in next ch-2 sp or dc in each of next 2 dc, dc in next dc.']
    """
    first = _FIRST.search(low)
    if first is None or not _WORKED.search(low) or "open mesh" in known:
        return ()
    wide, stitch = int(first["n"] or first["n2"]), first["stitch"].replace(" ", "")
    if wide != int(first["m"]):
        return ()
    across = f"sk next {wide} {stitch} or next ch-{wide} sp"
    begun = f"ch {_HIGH + wide} (counts as {stitch} and ch {wide}), {across}, {stitch} in next {stitch}"
    told = [(f"Open mesh: Ch {wide}, {across}, {stitch} in next {stitch}.", _begin("open mesh", begun))]
    for name in sorted({f"{found[0]} mesh" for found in _CALLED.finditer(low)} - set(known)):
        filled = f"{wide} {stitch} in next ch-{wide} sp or {stitch} in each of next {wide} {stitch}, {stitch} in next {stitch}"
        begun = f"ch {_HIGH} (counts as {stitch}) followed by the first {name}"
        told.append((f"{name.capitalize()}: {filled}.", _begin(name, begun)))
    return tuple(told)


def without_asides(text: str) -> str:
    """Words of a row without what they call a mesh that was just told, letter for letter as long as before.

    >>> without_asides("2 dc in sp, dc in next dc (a solid mesh), ch 2")
    '2 dc in sp, dc in next dc                , ch 2'
    """
    return _ASIDE.sub(lambda found: " " * len(found[0]), text)


def _begin(name: str, words: str) -> str:
    return f"Begin a row that starts with {name} with {words}"

