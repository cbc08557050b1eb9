"""Takes a parsed TOML table apart by the table of keys, and keeps every problem with its place."""

from __future__ import annotations

from difflib import get_close_matches

from ...errors import Problem
from .keys import MOST_SECTIONS, TABLES, Key, keys_of
from .places import Path, Place, Places
from .values import READERS, Wrong, shown

Values = dict[str, object]


class Reading:
    """One reading of one file: the places of its keys, and the problems found so far."""

    def __init__(self, file: str, places: Places) -> None:
        self.file, self.places = file, places
        self.problems: list[Problem] = []
        self.meant: set[Path] = set()

    def wrote(self, path: Path) -> bool:
        """Whether a key is written, or one that is nearly it."""
        return path in self.places.keys or path in self.meant

    def add(self, kind: str, where: str, says: str, remedy: str, place: Place) -> None:
        """Keep a problem at a place."""
        self.problems.append(
            Problem(
                kind, visible(where), visible(says), visible(remedy), place.line, place.column,
                visible(place.text), place.length, self.file,
            )
        )  # fmt: skip

    def table(self, raw: dict[str, object], name: str, path: Path, where: str) -> Values:
        """The values of one table that can be read, by key; what cannot is kept as problems."""
        known = keys_of(name)
        self._refuse_unknown(raw, known, path, where)
        values: Values = {}
        for key in TABLES[name]:
            here = (*path, key.name)
            if key.name not in raw:
                if key.needed and here not in self.meant:
                    self._miss(key, path, where)
            elif key.takes == "table":
                values[key.name] = self._inner(raw[key.name], key.name, here)
            elif key.takes == "tables":
                values[key.name] = self._many(raw[key.name], key.name, here)
            else:
                self._value(raw[key.name], key, here, where, values)
        return values

    def _refuse_unknown(self, raw: dict[str, object], known: dict[str, Key], path: Path, where: str) -> None:
        for name in raw:
            if name not in known:
                says = f"{shown(name)} is not a key of {where or 'the pattern file'}."
                self.meant |= {(*path, near) for near in get_close_matches(name.lower(), list(known), n=1)}
                self.add(
                    "key", where, says, nearest_key(name, list(known)), self.places.of_key((*path, name))
                )

    def _miss(self, key: Key, path: Path, where: str) -> None:
        example = _as_written(key)
        says = f'"{key.name}" is missing: {key.says}.'
        place = self.places.of_key(path) if path else Place(1, 1, 1, "")
        self.add("missing", where, says, f"add {example}.", place)

    def _value(self, raw: object, key: Key, path: Path, where: str, values: Values) -> None:
        try:
            values[key.name] = READERS[key.takes](raw, key)
        except Wrong as wrong:
            self.add("value", where, wrong.says, wrong.remedy, self.places.of_value(path))

    def _inner(self, raw: object, name: str, path: Path) -> Values:
        """A table of fixed keys, or one of the user's own names ("colours.*")."""
        if not isinstance(raw, dict):
            says = f"{name} is a table, and this is {shown(raw)}."
            self.add(
                "value",
                f"[{name}]",
                says,
                f"write [{name}] on a line of its own, its keys below it.",
                self.places.of_value(path),
            )
            return {}
        if name in TABLES:
            return self.table(raw, name, path, f"[{name}]")
        return {str(own): self._own(item, name, (*path, own)) for own, item in raw.items()}

    def _own(self, raw: object, name: str, path: Path) -> Values:
        where = f"[{name}] {path[-1]}"
        if isinstance(raw, dict):
            return self.table(raw, f"{name}.*", path, where)
        keys = ", ".join(f"{k.name} = ..." for k in TABLES[f"{name}.*"][:2])
        self.add(
            "value",
            where,
            f"{path[-1]} is {shown(raw)}; it takes keys of its own.",
            f"write {path[-1]} = {{ {keys} }}.",
            self.places.of_value(path),
        )
        return {}

    def _many(self, raw: object, name: str, path: Path) -> list[Values]:
        """An array of tables, `[[section]]`."""
        if not isinstance(raw, list) or not all(isinstance(item, dict) for item in raw):
            self.add(
                "value",
                f"[[{name}]]",
                f"{name} is a list of tables.",
                f"write [[{name}]] with two brackets, once for each.",
                self.places.of_key(path),
            )
            return []
        if len(raw) > MOST_SECTIONS:
            self.add(
                "limit",
                f"[[{name}]]",
                f"there are {len(raw)} of them; {MOST_SECTIONS} is the most.",
                "write repeats instead.",
                self.places.of_key((*path, MOST_SECTIONS)),
            )
        return [
            self.table(item, name, (*path, i), place_name(name, item, i))
            for i, item in enumerate(raw[:MOST_SECTIONS])
        ]


def visible(text: str) -> str:
    """A text as it can be printed: a dot for what has no shape, a space for a tab; as long as it was."""
    return "".join(c if c.isprintable() else " " if c == "\t" else "·" for c in text)


def place_name(name: str, raw: dict[str, object], index: int) -> str:
    """What a message calls one table of a list: by its name, else by its number.

    >>> place_name("section", {"name": "body"}, 1)
    'section "body"'
    """
    own = raw.get("name")
    return (
        f'{name} "{own[:40]}"'
        if isinstance(own, str) and own.isprintable() and own
        else f"{name} {index + 1}"
    )


def nearest_key(name: str, known: list[str]) -> str:
    """Advice for a key that is not known: the nearest one, else all of them."""
    close = get_close_matches(name.lower(), known, n=1, cutoff=0.6)
    if close:
        return f'write "{close[0]}".'
    return f"take it out; the keys here are {', '.join(known)}."


def _as_written(key: Key) -> str:
    if key.takes == "table":
        return f"a [{key.name}] table"
    if key.takes == "tables":
        return f"at least one [[{key.name}]] table"
    if key.takes in ("number", "count", "flag"):
        return f"{key.name} = {key.example or 1}"
    return f'{key.name} = "{key.example or (key.choices[0] if key.choices else "...")}"'
