"""Words the clause readers share: what joins clauses, what is passed over, which stitches need no explaining."""

from __future__ import annotations

from types import MappingProxyType

JOINERS = (",", ";", ".", "and", "then", ":")

#: Words that may begin a remark which moves no stitch.
PASSED = frozenset(
    (
        "place",
        "move",
        "mark",
        "pm",
        "moving",
        "placing",
        "weave",
        "cut",
        "pull",
        "tighten",
        "remember",
        "do",
        "leaving",
        "end",
        "finish",
        "draw",
        "close",
        "secure",
        "sew",
        "block",
        "hold",
        "insert",
        "count",
        "note",
        "you",
        "this",
        "always",
        "adjust",
        "put",
        "take",
        "now",
        "using",
        "beg",
        "marker",
        "sl",
        "drop",
        "carry",
        "pick",
        "with",
        "first",
        "for",
        "at",
    )
)

#: Stitches that every crocheter knows by name, each with the reader's own name for it.
STANDARD = MappingProxyType(
    {
        "bobble": "bobble",
        "puff": "puff",
        "popcorn": "popcorn",
        "cluster": "cl",
        "picot": "picot",
        "inc": "inc",
        "dec": "dec",
        "V-st": "V-st",
        "shell": "shell",
        "rsc": "rsc",
    }
)
