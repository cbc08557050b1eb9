"""Texts whose rows end with what they make: "Rnd 1: 8 sc in ring. => 8", with its chains "=> 8/16"."""

from __future__ import annotations

import re

from hookfold.charts.model.cloth.stated import as_counted
from hookfold.charts.model.rows.work import Worked, work_text

_KEYED = re.compile(r" => (\d+)(?:/(\d+))?$")


def worked_and_keys(text: str) -> tuple[Worked, list[tuple[int, int | None]]]:
    """A text worked, without the keys at its rows' ends; and these: stitches, and chains where they are told."""
    keys = [(int(m[1]), int(m[2]) if m[2] else None) for line in text.splitlines() if (m := _KEYED.search(line))]
    return work_text("\n".join(_KEYED.sub("", line) for line in text.strip().splitlines()) + "\n"), keys


def made(worked: Worked, keys: list[tuple[int, int | None]]) -> list[tuple[int, int | None]]:
    """What each row makes, as its key tells it."""
    rows = [(row.row, text) for piece in worked.pieces for row, text in zip(piece.fabric.rows, piece.texts, strict=True)]
    found = [(as_counted(row, text.stated), sum(s.chains for s in row.stitches if s.role == "chain")) for row, text in rows]
    return [(n, c if key[1] is not None else None) for (n, c), key in zip(found, keys, strict=True)]
