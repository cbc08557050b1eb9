"""The table of strokes: the way the yarn takes in each part of a stitch, as arrays of control points."""

from __future__ import annotations

import functools
import tomllib
from importlib import resources
from typing import Any

import numpy as np
import numpy.typing as npt

Floats = npt.NDArray[np.float32]
Reals = npt.NDArray[np.floating]
Ints = npt.NDArray[np.int32]


@functools.cache
def _table() -> dict[str, Any]:
    return tomllib.loads((resources.files("hookfold.charts.picture") / "strokes.toml").read_text("utf-8"))


@functools.cache
def stroke(name: str) -> Floats:
    """A stroke's control points as (points, 4): t, v, s, w in stitch widths.

    >>> stroke("top").shape[1]
    4
    """
    return np.array(_table()["strokes"][name]["points"], dtype=np.float32)


def thickness(name: str) -> float:
    """How thick the yarn is in a stroke beside the usual: less where it is drawn out or pressed together."""
    return float(_table()["strokes"][name].get("thick", 1.0))


def radius() -> float:
    """The radius of the yarn in stitch widths."""
    return float(_table()["yarn"]["radius"])


def stray() -> float:
    """How far a control point may lie from its place, in stitch widths: no two stitches are alike."""
    return float(_table()["yarn"]["stray"])


def names() -> tuple[str, ...]:
    """Every stroke of the table."""
    return tuple(_table()["strokes"])
