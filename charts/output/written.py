"""A written pattern worked for drawing and writing out: only what is proved."""

from __future__ import annotations

from dataclasses import replace

from ..errors import PatternError, Problem
from ..model.rows.work import work_text
from ..model.rows.working import Worked
from ..pattern.text_kind import misnamed


def worked_text(text: str, name: str) -> Worked:
    """A written pattern worked, as far as it is proved; PatternError with every problem, or where nothing is."""
    worked = all_of_text(text, name)
    _drop_unproved(worked, name)
    return worked


def all_of_text(text: str, name: str) -> Worked:
    """A written pattern worked, its unproved rows too; PatternError with every problem found."""
    wrong = misnamed(text, name)
    if wrong is not None:
        raise PatternError([wrong])
    worked = work_text(text)
    if worked.problems:
        raise PatternError([p.in_file(name) for p in worked.problems])
    return worked


def _drop_unproved(worked: Worked, name: str) -> None:
    """Draw the rows as far as they are proved: of a row whose stitches are not told there is nothing to draw."""
    proved = worked.pieces[0].proved if worked.pieces else ()
    whole = next((n for n, how in enumerate(proved) if how != "yes"), len(proved))
    if whole == len(proved) and worked.fabric.start != "edge":
        return
    if not whole or worked.fabric.start == "edge":
        says = "what the first row is worked on is not given, so there is nothing to draw"
        remedy = 'say what it begins with, as "Ch 26." or "Over 20 sts."'
        raise PatternError([Problem("missing", "Foundation", says, remedy, 1, file=name)])
    worked.fabric = replace(worked.fabric, rows=worked.fabric.rows[:whole])
    worked.texts = worked.texts[:whole]


def title_of(name: str) -> str:
    """What a written pattern is called: its file's name in words.

    >>> title_of("patterns/fan_edge-2.txt")
    'Fan edge 2'
    """
    title = name.rsplit("/", 1)[-1].rsplit(".", 1)[0].replace("-", " ").replace("_", " ").strip() or "Stitch chart"
    return title[:1].upper() + title[1:]
