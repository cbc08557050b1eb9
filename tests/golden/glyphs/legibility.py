"""Glyphs as a bad photocopy shows them, told apart by nearest match.

Each glyph is inked in the paler of the two mono tones at 3 mm a stitch and 150 dpi, turned, moved by part of
a pixel, blurred, covered with noise, and cut to black and white. What is left is compared with every clean
glyph in every turn; the reader here knows neither the turn nor which way up is.
"""

from __future__ import annotations

import functools
from collections.abc import Container, Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from hookfold.charts.drawing.display import Sheet
from hookfold.charts.drawing.geometry import Affine, ink_of
from hookfold.charts.drawing.style import luminance, style
from hookfold.charts.output.stroked import sheet_image
from hookfold.symbols import Mark, extent, fasten_off, glyph, marker, no_stitch, ring, start
from numpy.typing import NDArray

STITCH_MM = 3.0
DPI = 150.0
CELL_PX = 96
CELL_MM = CELL_PX * 25.4 / DPI
BLUR_PX = 0.9
NOISE = 0.09
CUT = 0.42
FANS = tuple(range(-30, 31, 5))
ROUNDS = tuple(range(0, 360, 5))

PLAIN = ("sl st", "ch", "sc", "hdc", "dc", "tr", "dtr", "trtr", "picot", "rsc", "spike sc")
CHAINED = ("esc", "ehdc", "edc", "etr", "fsc", "fhdc", "fdc")
POSTS = ("FPsc", "BPsc", "FPhdc", "BPhdc", "FPdc", "BPdc", "FPtr", "BPtr")
GROUPS = (
    "sc2tog", "sc3tog", "hdc2tog", "hdc3tog", "dc2tog", "dc3tog", "tr2tog", "tr3tog", "dc-cluster-2",
    "dc-cluster-3", "tr-cluster-3", "dc-bobble-5", "hdc-puff-3", "hdc-puff-5", "dc-popcorn-3", "dc-popcorn-5",
)  # fmt: skip

Pixels = NDArray[np.float32]


@dataclass(frozen=True, slots=True)
class Confusion:
    """How often each kind was read as each other: `counts[i, j]` is kind i read as kind j."""

    names: tuple[str, ...]
    counts: NDArray[np.int64]

    def wrong(self) -> list[str]:
        """The mistakes, worst first."""
        off = self.counts - np.diag(np.diag(self.counts))
        places = sorted(zip(*np.nonzero(off), strict=True), key=lambda ij: -off[ij])
        said = self.names
        return [f"{said[i]} read as {said[j]}: {off[i, j]} of {self.counts[i].sum()}" for i, j in places]

    def table(self) -> str:
        """One line a kind: how many were read rightly, and as what the others were read."""
        rows = []
        for i, name in enumerate(self.names):
            others = [f"{self.names[j]} {n}" for j, n in enumerate(self.counts[i]) if n and j != i]
            rows.append(f"{name:16} {self.counts[i, i]:4} of {self.counts[i].sum():4}  {', '.join(others)}")
        return "\n".join(rows)


def kinds(sc_form: str = "plus") -> dict[str, Mark]:
    """The glyphs of one chart: `sc_form` says which form of the single crochet it uses."""
    marks = {k: glyph(k, sc_form=sc_form).mark for k in (*PLAIN, *CHAINED, *POSTS, *GROUPS)}
    for kind in ("sc", "hdc", "dc"):
        for hold in ("front loop", "back loop"):
            marks[f"{kind} {hold}"] = glyph(kind, hold=hold, sc_form=sc_form).mark
    here = (0.0, 0.0)
    signs = {"start": start(here), "fasten off": fasten_off(here), "marker": marker(here)}
    return marks | signs | {"no stitch": no_stitch(here), "ring": ring(here, 0.7)}


def confusion(
    marks: Mapping[str, Mark], turns: Sequence[int], samples: int, seed: int = 20, *, only: Container[str] | None = None
) -> Confusion:
    """`samples` bad copies of each kind (of `only` those named) in random turns, each read by nearest match among all."""
    random = np.random.default_rng(seed)
    names = tuple(marks)
    templates = [clean(mark, tuple(turns)) for mark in marks.values()]
    between = [turn + 2 for turn in turns]
    counts = np.zeros((len(names), len(names)), dtype=np.int64)
    for i in range(len(names)):
        if only is not None and names[i] not in only:
            continue
        picked = blurred(drawn(marks[names[i]], between))[random.integers(len(turns), size=samples)]
        copies = copied(picked, random)
        sums = _sums(copies)
        read = np.argmax([kind.likeness(copies, sums) for kind in templates], axis=0)
        counts[i] = np.bincount(read, minlength=len(names))
    return Confusion(names, counts)


def drawn(mark: Mark, turns: Sequence[int]) -> Pixels:
    """Ink from 0 to 1 of a kind in every turn: (turns, pixels, pixels)."""
    placed = [(mark, _cell(column, turn, mark)) for column, turn in enumerate(turns)]
    inks = ink_of(placed, STITCH_MM, "#000000")
    sheet = Sheet(CELL_MM * len(turns), CELL_MM, "Glyphs", inks)
    grey = np.asarray(sheet_image(sheet, DPI).convert("L"), dtype=np.float32)
    grid = (1.0 - grey / 255.0).reshape(CELL_PX, len(turns), CELL_PX)
    return np.ascontiguousarray(grid.transpose(1, 0, 2))


def _cell(column: int, turn: int, mark: Mark) -> Affine:
    """The middle of the glyph's box in the middle of its cell, turned."""
    left, top, right, bottom = extent(mark)
    middle = Affine.shift(CELL_MM * (column + 0.5), CELL_MM * 0.5)
    home = Affine.shift(-(left + right) / 2.0, -(top + bottom) / 2.0)
    return middle @ Affine.rotate(float(turn)) @ Affine.scale(STITCH_MM) @ home


def copied(ink: Pixels, random: np.random.Generator) -> Pixels:
    """A bad copy of each, which is blurred already: moved by part of a pixel, pale, noisy, cut where thin lines just
    hold."""
    tone = 1.0 - luminance_grey(style(mono=True).wrong_side)
    moved = _moved(ink, random.random((len(ink), 2), dtype=np.float32) - 0.5)
    noise = random.standard_normal(ink.shape, dtype=np.float32) * np.float32(NOISE)
    return ((moved * np.float32(tone) + noise) > tone * CUT).astype(np.float32)


def luminance_grey(colour: str) -> float:
    """How light a colour is on a grey copy, from 0 to 1 (luminance brought back to the screen's scale)."""
    return float(luminance(colour) ** (1 / 2.2))


def _moved(ink: Pixels, by: Pixels) -> Pixels:
    """Each picture moved by its own part of a pixel (-1 to 1), across and down."""
    for axis in (2, 1):
        part = by[:, 2 - axis, None, None]
        beside = np.where(part > 0, np.roll(ink, 1, axis=axis), np.roll(ink, -1, axis=axis))
        ink = ink * (1.0 - np.abs(part)) + beside * np.abs(part)
    return ink


def blurred(ink: Pixels) -> Pixels:
    """A Gaussian blur of `BLUR_PX`, by one band of weights down and across."""
    band = _band(ink.shape[-1])
    return np.matmul(np.matmul(band, ink), band.T)


def _sums(copies: Pixels) -> Pixels:
    """The sum of the pixels of each copy once it is blurred."""
    weights = _band(copies.shape[-1]).sum(axis=0)
    found: Pixels = copies @ weights @ weights
    return found


@functools.cache
def _band(pixels: int) -> Pixels:
    """The weights of a blur along a line of pixels, as a matrix; beyond its ends lies no ink."""
    reach = 3
    off = np.subtract.outer(np.arange(pixels), np.arange(pixels))
    weights = np.where(np.abs(off) <= reach, np.exp(-(off**2) / (2 * BLUR_PX**2)), 0.0)
    return (weights / np.exp(-(np.arange(-reach, reach + 1) ** 2) / (2 * BLUR_PX**2)).sum()).astype(np.float32)


@dataclass(frozen=True, slots=True)
class Templates:
    """Clean pictures of one kind, each of length 1 about its mean and blurred as a copy is before it is compared: to
    blur these once is to blur every copy. `box` are the rows and columns in which any has ink, `shares` what each has
    there, `means` what each is beside them. A small glyph has ink in few of a cell's pixels."""

    box: tuple[slice, slice]
    shares: Pixels
    means: Pixels

    @classmethod
    def of(cls, ink: Pixels) -> Templates:
        flat = ink.reshape(len(ink), -1)
        long = np.maximum(flat.std(axis=1, keepdims=True) * flat.shape[1] ** 0.5, 1e-6)
        spread = blurred(ink)
        inked = spread.max(axis=0) > 1e-6
        down, across = (np.flatnonzero(inked.any(axis=axis)) for axis in (1, 0))
        box = slice(down[0], down[-1] + 1), slice(across[0], across[-1] + 1)
        return cls(box, spread[:, *box].reshape(len(ink), -1) / long, (flat.mean(axis=1, keepdims=True) / long)[:, 0])

    def likeness(self, copies: Pixels, sums: Pixels) -> Pixels:
        """For each copy, and the sum of its pixels, its largest product with a template. Its own mean and length change
        the products with all templates alike and are left as they are."""
        products = self.shares @ copies[:, *self.box].reshape(len(copies), -1).T - self.means[:, None] * sums
        most: Pixels = products.max(axis=0)
        return most


@functools.cache
def clean(mark: Mark, turns: tuple[int, ...]) -> Templates:
    """What copies of a kind are compared with, drawn once for all forms of the others."""
    return Templates.of(blurred(drawn(mark, turns)))
