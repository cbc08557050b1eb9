"""What letters the reader's patterns need, written down beforehand in `charts/pattern/letters.json`.

    .venv/bin/python tests/unit/pattern/letters_known.py

writes them anew. A pattern that is not there is reckoned when it is asked, which takes its time and changes nothing.
"""

from __future__ import annotations

import importlib
import json
import pkgutil
from pathlib import Path

import hookfold.charts.pattern
from hookfold.charts.pattern import when_used

FILE = Path(hookfold.charts.pattern.__path__[0]) / "letters.json"


def late_patterns() -> dict[tuple[str, int], object]:
    """Every pattern of the reader that is compiled late, also inside tables, by its text and flags."""
    found: dict[tuple[str, int], object] = {}

    def look(value: object, depth: int) -> None:
        if isinstance(value, when_used._WhenUsed):
            found[value.pattern, int(value._flags)] = value
        elif depth and isinstance(value, dict):
            for one in [*value, *value.values()]:
                look(one, depth - 1)
        elif depth and isinstance(value, (tuple, list, frozenset, set)):
            for one in value:
                look(one, depth - 1)

    for module in pkgutil.walk_packages(hookfold.charts.pattern.__path__, "hookfold.charts.pattern."):
        for value in vars(importlib.import_module(module.name)).values():
            look(value, 3)
    return found


def reckoned(patterns: dict[tuple[str, int], object]) -> dict[str, list[object]]:
    """What each pattern needs, by its key, as a file of JSON gives it back."""
    needs = {when_used.key_of(*asked): when_used.letters_needed(*asked) for asked in patterns}
    return {key: json.loads(json.dumps(needed)) for key, needed in sorted(needs.items())}


def written() -> str:
    """The file, a pattern to each line."""
    lines = [f"{json.dumps(key)}:{json.dumps(n, separators=(',', ':'))}" for key, n in reckoned(late_patterns()).items()]
    return "{\n" + ",\n".join(lines) + "\n}\n"


if __name__ == "__main__":
    FILE.write_text(written(), "utf-8")
