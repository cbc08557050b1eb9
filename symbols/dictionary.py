"""The stitch dictionary: every stitch's names, height and make-up, read from stitches.toml.

A stitch is a plain one, or a plain one with something done to it: worked together with others ("dc2tog"), round a
post ("FPdc"), extended ("edc"), as a foundation stitch ("fsc"), or several legs gathered ("dc-cluster-3").
`stitch("FPdc")` takes such a name apart by rule, so that all heights have all forms.
"""

from __future__ import annotations

import functools
import re
import tomllib
from dataclasses import dataclass
from importlib import resources


@dataclass(frozen=True, slots=True)
class StitchKind:
    """What is known of a stitch.

    `name` is its US abbreviation; `base` the plain stitch it is made of; `form` what is done to it ("plain",
    "together", "front post", "back post", "extended", "foundation", "gathered", "chain"); `legs` its posts.
    `takes` is how many stitches of the row below it uses, `makes` how many it leaves; `height` is in stitch widths,
    `yarn` against one sc (an estimate but for the plain heights with a source).
    """

    name: str
    uk: str
    us_name: str
    uk_name: str
    base: str
    form: str
    legs: int
    takes: int
    makes: int
    height: float
    turning: int
    yarn_overs: int
    yarn: float


@functools.cache
def heights() -> dict[str, StitchKind]:
    """The plain stitches, low to tall, by their US abbreviation."""
    table = tomllib.loads((resources.files("hookfold.symbols") / "stitches.toml").read_text("utf-8"))
    return {
        name: StitchKind(
            name=entry["us"], uk=entry["uk"], us_name=entry["us_name"], uk_name=entry["uk_name"], base=name,
            form="plain", legs=1, takes=1, makes=1, height=entry["height"], turning=entry["turning"],
            yarn_overs=entry["yarn_overs"], yarn=entry["yarn"],
        )
        for name, entry in table["heights"].items()
    }  # fmt: skip
