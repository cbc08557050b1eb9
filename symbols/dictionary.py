"""The stitch dictionary: every stitch's names, height and make-up, read from stitches.toml.

A stitch is a plain one, or a plain one with something done to it: worked together with others ("dc2tog"),
round a post ("FPdc"), extended ("edc"), as a foundation stitch ("fsc"), or several legs gathered
("dc-cluster-3"). `stitch("FPdc")` takes such a name apart by rule, so that all heights have all forms.
"""

from __future__ import annotations

import functools
import re
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from types import MappingProxyType
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from fractions import Fraction


@dataclass(frozen=True, slots=True)
class StitchKind:
    """What is known of a stitch.

    `name` is its US abbreviation; `base` the plain stitch it is made of; `form` what is done to it ("plain",
    "together", "front post", "back post", "extended", "foundation", "reverse", "spike", "gathered", "chain",
    "picot"); `shape` says how a gathered one is gathered (of `SHAPES`); `legs` its posts. `takes` is how many
    stitches of the row below it uses, `makes` how many it leaves; `height` is in stitch widths, `yarn`
    against one sc (an estimate but for the plain heights with a source). `row_height` is how tall its row is in
    stitch widths, `row_end_said` and `row_end` how many border stitches the end of its row takes.
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
    row_height: float
    row_end_said: str
    shape: str = ""

    @property
    def row_end(self) -> Fraction:
        """The fraction that is said in words: what only a border reckons with is loaded for it alone."""
        from fractions import Fraction

        return Fraction(self.row_end_said)


@functools.cache
def _table() -> dict[str, Any]:
    return tomllib.loads(Path(__file__).with_name("stitches.toml").read_text("utf-8"))


@functools.cache
def heights() -> dict[str, StitchKind]:
    """The plain stitches, low to tall, by their US abbreviation."""
    return {
        name: StitchKind(
            name=entry["us"], uk=entry["uk"], us_name=entry["us_name"], uk_name=entry["uk_name"], base=name,
            form="plain", legs=1, takes=1, makes=1, height=entry["height"], turning=entry["turning"],
            yarn_overs=entry["yarn_overs"], yarn=entry["yarn"], row_height=entry["row_height"],
            row_end_said=entry["row_end"],
        )
        for name, entry in _table()["heights"].items()
    }  # fmt: skip


@functools.cache
def abbreviations(terms: str) -> Mapping[str, str]:
    """How the plain stitches but the slip stitch are abbreviated in US or UK terms -> their US abbreviation.

    >>> abbreviations("UK")["ttr"], abbreviations("US")["dc"]
    ('dtr', 'dc')
    """
    out = {}
    for us, entry in _table()["heights"].items():
        if us != "sl st":
            names = [entry["uk"], *entry.get("uk_short", ())] if terms == "UK" else [entry["us"]]
            out.update(dict.fromkeys(names, us))
    return MappingProxyType(out)


@functools.cache
def full_names(terms: str) -> Mapping[str, str]:
    """How the plain stitches are spelled in full, or in some other way than abbreviated -> their US abbreviation.

    >>> full_names("US")["triple crochet"], full_names("UK")["half treble"]
    ('tr', 'hdc')
    """
    key, also = ("uk_name", "also_uk") if terms == "UK" else ("us_name", "also_us")
    return MappingProxyType({
        spelled: us
        for us, entry in _table()["heights"].items()
        for spelled in (entry[key], *entry.get(also, ()), *((us, entry["uk"]) if us == "sl st" else ()))
    })  # fmt: skip


@dataclass(frozen=True, slots=True)
class Gathered:
    """Several legs gathered into one place, as it is taken to be where a pattern does not explain it; `also` is what
    else its kinds are called."""

    kind: str
    name: str
    legs: int
    base: str
    also: tuple[str, ...] = ()


@functools.cache
def gathered() -> Mapping[str, Gathered]:
    """The gathered stitches by their kind."""
    table = _table()["gathered"]
    return MappingProxyType({
        kind: Gathered(kind, entry["name"], entry["legs"], entry["base"], tuple(entry.get("also", ())))
        for kind, entry in table.items()
    })  # fmt: skip


#: How several legs from one foot may be gathered under one top.
SHAPES = ("cluster", "bobble", "puff", "popcorn")

#: What may stand before a plain stitch's abbreviation: the form it makes, and the words before its full name.
PREFIXES: dict[str, tuple[str, str]] = {
    "FP": ("front post", "front post"),
    "BP": ("back post", "back post"),
    "e": ("extended", "extended"),
    "f": ("foundation", "foundation"),
    "r": ("reverse", "reverse"),
    "spike ": ("spike", "spike"),
    "l": ("spike", "long"),
}

#: What a form adds to the height (in stitch widths) and to the yarn (against one sc) of its plain stitch;
#: both are estimates: an extended and a foundation stitch make one chain more, a post or spike stitch reaches
#: further.
ADDED: dict[str, tuple[float, float]] = {
    "front post": (0.0, 0.3),
    "back post": (0.0, 0.3),
    "extended": (0.5, 0.4),
    "foundation": (0.4, 0.4),
    "reverse": (0.35, 0.2),
    "spike": (0.0, 0.6),
}

_GATHERED = re.compile(rf"(?P<base>.+)-(?P<shape>{'|'.join(SHAPES)})-(?P<legs>\d{{1,2}})")
_TOGETHER = re.compile(r"(?P<stitch>.+?)(?P<legs>\d{1,2})tog")


@functools.cache
def stitch(name: str) -> StitchKind:
    """The stitch of a US name: plain, or taken apart by rule ("dc2tog", "FPdc", "edc", "fsc", "dc-bobble-5").

    KeyError for a name that is neither; `known` asks first.

    >>> stitch("FPdc").uk, stitch("FPdc").uk_name, stitch("dc2tog").uk
    ('FPtr', 'front post treble', 'tr2tog')
    """
    found = _read(name)
    if found is None:
        raise KeyError(f'"{name[:60]}" is not a stitch of the dictionary')
    return found


def known(name: str) -> bool:
    """Whether `name` is a plain stitch or one that can be taken apart."""
    return _read(name) is not None


@functools.cache
def _read(name: str) -> StitchKind | None:
    if name in heights():
        return heights()[name]
    if name in loose():
        return loose()[name]
    if found := _GATHERED.fullmatch(name):
        return _gathered(found["base"], found["shape"], int(found["legs"]))
    if found := _TOGETHER.fullmatch(name):
        return _together(found["stitch"], int(found["legs"]))
    return _prefixed(name)


@functools.cache
def loose() -> dict[str, StitchKind]:
    """The chain, and the picot made of chains: what a row holds that is worked into nothing."""
    ch = _table()["chains"]["ch"]
    plain = StitchKind(
        name=ch["us"], uk=ch["uk"], us_name=ch["us_name"], uk_name=ch["uk_name"], base="ch", form="chain",
        legs=0, takes=0, makes=1, height=ch["height"], turning=0, yarn_overs=0, yarn=ch["yarn"],
        row_height=heights()["sc"].row_height, row_end_said="1",
    )  # fmt: skip
    hung = replace(
        plain, name="picot", uk="picot", us_name="picot", uk_name="picot", form="picot", makes=0, height=1.0,
        yarn=3 * ch["yarn"],
    )  # fmt: skip
    return {"ch": plain, "picot": hung}


def _prefixed(name: str) -> StitchKind | None:
    for prefix, (form, words) in PREFIXES.items():
        base = heights().get(name.removeprefix(prefix)) if name.startswith(prefix) else None
        if base is not None and base.name != "sl st":
            taller, more = ADDED[form]
            return replace(
                base, name=name, uk=prefix + base.uk, us_name=f"{words} {base.us_name}",
                uk_name=f"{words} {base.uk_name}", form=form, takes=0 if form == "foundation" else 1,
                height=base.height + taller, yarn=base.yarn + more,
            )  # fmt: skip
    return None


def _together(name: str, legs: int) -> StitchKind | None:
    """Several stitches ended as one; a leg may be a post stitch. The top counts once, the yarn by the leg."""
    leg = heights().get(name) or _prefixed(name)
    if leg is None or legs < 2 or leg.form not in ("plain", "front post", "back post") or leg.base == "sl st":
        return None
    return replace(
        leg, name=f"{leg.name}{legs}tog", uk=f"{leg.uk}{legs}tog", us_name=f"{leg.us_name} {legs} together",
        uk_name=f"{leg.uk_name} {legs} together", form="together" if leg.form == "plain" else leg.form,
        legs=legs, takes=legs, yarn=leg.yarn * legs,
    )  # fmt: skip


def _gathered(name: str, shape: str, legs: int) -> StitchKind | None:
    """Several legs from one foot under one top: made of its legs, so its yarn is theirs (an estimate)."""
    leg = heights().get(name)
    if leg is None or legs < 2 or leg.base == "sl st":
        return None
    return replace(
        leg, name=f"{leg.name}-{shape}-{legs}", uk=f"{leg.uk}-{shape}-{legs}",
        us_name=f"{legs}-{leg.us_name} {shape}", uk_name=f"{legs}-{leg.uk_name} {shape}", form="gathered",
        legs=legs, shape=shape, yarn=leg.yarn * legs,
    )  # fmt: skip
