"""How often whoever follows one name through the code comes back to a room that was left before.

    python tests/bench/followed.py [FOLDER]

From a function of the flow (`charts/engrave.py`) every function is looked up that is handed the thing, under whatever
name it takes it, in the order of the calls and each once: what it is handed as an argument, what is handed on as
`job.setting` by its own name, and the methods of a class that keeps it. Each step from one room (folder) into another
that was left before is a return. Printed are the functions, rooms and returns of each way, and of the imports: the
files in the largest room, and the files that import each other in a circle, also for their types only. FOLDER is the
project; the one that this file stands in where none is given.
"""

from __future__ import annotations

import ast
import itertools
import sys
from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path

#: The ways: where each begins, and the name that is followed.
WAYS = (("chart", "setting"), ("instructions", "text"))
PARTS = ("charts", "symbols", "cli")
Defined = ast.FunctionDef | ast.ClassDef


@dataclass
class Module:
    """A file of the code: what it defines, and what its imports name, as dotted names."""

    dotted: str
    room: str
    tree: ast.Module
    package: str
    defined: Mapping[str, Defined] = field(init=False)
    named: Mapping[str, str] = field(init=False)

    def __post_init__(self) -> None:
        self.defined = {n.name: n for n in self.tree.body if isinstance(n, ast.FunctionDef | ast.ClassDef)}
        self.named = dict(self.names_in(self.tree))

    def names_in(self, tree: ast.AST) -> Iterator[tuple[str, str]]:
        """What the imports in a tree call what."""
        for node in ast.walk(tree):
            if isinstance(node, ast.ImportFrom):
                up = self.package.split(".")[: len(self.package.split(".")) - node.level + 1] if node.level else []
                base = ".".join([*up, *([node.module] if node.module else [])])
                yield from ((alias.asname or alias.name, f"{base}.{alias.name}") for alias in node.names)


def modules_of(root: Path) -> dict[str, Module]:
    """Every module of the three parts by its dotted name."""
    found = {}
    for path in (p for part in PARTS for p in sorted((root / part).rglob("*.py"))):
        inside = path.relative_to(root).with_suffix("").parts
        own = ["hookfold", *(inside[:-1] if inside[-1] == "__init__" else inside)]
        package = own if inside[-1] == "__init__" else own[:-1]
        room = "/".join(inside[:-1])
        found[".".join(own)] = Module(".".join(own), room, ast.parse(path.read_text("utf-8")), ".".join(package))
    return found


@dataclass
class Walk:
    """A way through the code: the functions in the order in which they are come by."""

    modules: Mapping[str, Module]
    steps: list[tuple[str, str]] = field(default_factory=list)
    seen: set[tuple[str, str]] = field(default_factory=set)

    def follow(self, module: Module, made: Defined, name: str, owner: ast.ClassDef | None = None) -> None:
        """A function that is handed the thing as `name`, and every one that it hands it to."""
        key = (module.dotted, f"{owner.name}.{made.name}" if owner else made.name)
        if key in self.seen:
            return
        self.seen.add(key)
        if isinstance(made, ast.ClassDef):
            for method in (n for n in made.body if isinstance(n, ast.FunctionDef)):
                if any(isinstance(n, ast.Attribute) and n.attr == name for n in ast.walk(method)):
                    self.follow(module, method, name, made)
            return
        self.steps.append((module.room, f"{module.dotted}.{key[1]}"))
        here = {**module.named, **dict(module.names_in(made))}
        calls = [n for n in ast.walk(made) if isinstance(n, ast.Call)]
        for call in sorted(calls, key=lambda n: (n.lineno, n.col_offset)):
            for place in _handed(call, name):
                found = self._found(call.func, module, here, owner)
                if found is not None:
                    there, callee, inside = found
                    self.follow(there, callee, _called(callee, place, name, inside is not None), inside)

    def _found(
        self, func: ast.expr, module: Module, here: Mapping[str, str], owner: ast.ClassDef | None
    ) -> tuple[Module, Defined, ast.ClassDef | None] | None:
        """What a call calls, where it is of ours: its module, itself, and the class whose method it is."""
        if isinstance(func, ast.Attribute) and isinstance(func.value, ast.Name):
            if func.value.id == "self" and owner is not None:
                methods = {n.name: n for n in owner.body if isinstance(n, ast.FunctionDef)}
                return (module, methods[func.attr], owner) if func.attr in methods else None
            beside = self.modules.get(here.get(func.value.id, ""))
            return (beside, beside.defined[func.attr], None) if beside and func.attr in beside.defined else None
        if not isinstance(func, ast.Name):
            return None
        if func.id in module.defined:
            return module, module.defined[func.id], None
        place, _, name = here.get(func.id, "").rpartition(".")
        there = self.modules.get(place)
        if there is not None and name in there.named and name not in there.defined:  # handed on by another module
            place, _, name = there.named[name].rpartition(".")
            there = self.modules.get(place)
        return (there, there.defined[name], None) if there and name in there.defined else None

    @property
    def returns(self) -> int:
        """How many steps lead into a room that was left before."""
        rooms = [room for room, _ in itertools.groupby(room for room, _ in self.steps)]
        return len(rooms) - len(set(rooms))


def _handed(call: ast.Call, name: str) -> Iterator[int | str]:
    """Where a call hands the thing over: the places of arguments, and names of keywords."""
    for place, given in enumerate(call.args):
        if _is_it(given, name):
            yield place
    for keyword in call.keywords:
        if keyword.arg and _is_it(keyword.value, name):
            yield keyword.arg


def _is_it(given: ast.expr, name: str) -> bool:
    return (isinstance(given, ast.Name) and given.id == name) or (isinstance(given, ast.Attribute) and given.attr == name)


def _called(made: Defined, place: int | str, name: str, method: bool) -> str:
    """The name under which what is called takes the thing."""
    if isinstance(place, str):
        return place
    if isinstance(made, ast.ClassDef):
        fields = [n.target.id for n in made.body if isinstance(n, ast.AnnAssign) and isinstance(n.target, ast.Name)]
        begun = [n for n in made.body if isinstance(n, ast.FunctionDef) and n.name == "__init__"]
        fields = [a.arg for a in begun[0].args.args[1:]] if begun else fields
    else:
        fields = [a.arg for a in made.args.args][1 if method else 0 :]
    return fields[place] if place < len(fields) else name


def circles(modules: Mapping[str, Module]) -> list[str]:
    """The modules that import each other in a circle, with those between two circles; also for their types only."""
    left = {
        name: {near for full in module.named.values() for near in (full, full.rpartition(".")[0]) if near in modules}
        for name, module in modules.items()
    }
    left = {name: {n for n in needs if n != name and not _is_package(modules, n)} for name, needs in left.items()}
    while free := [name for name, needs in left.items() if not needs & left.keys()]:
        left = {name: needs for name, needs in left.items() if name not in free}
    while idle := [name for name in left if not any(name in needs for needs in left.values())]:
        left = {name: needs for name, needs in left.items() if name not in idle}
    return sorted(left)


def _is_package(modules: Mapping[str, Module], name: str) -> bool:
    return modules[name].package == name


def figures(root: Path) -> dict[str, int]:
    """All that is printed, by what it is."""
    modules = modules_of(root)
    rooms = Counter(m.room for name, m in modules.items() if not _is_package(modules, name))
    out = {"modules": sum(rooms.values()), "rooms": len(rooms), "modules in the largest room": max(rooms.values())}
    out["modules in circles"] = len(circles(modules))
    for start, name in WAYS:
        walk = Walk(modules)
        engrave = modules["hookfold.charts.engrave"]
        walk.follow(engrave, engrave.defined[start], name)
        told = f"{name} from {start}"
        out |= {f"{told}: functions": len(walk.steps), f"{told}: rooms": len({room for room, _ in walk.steps})}
        out[f"{told}: returns to a room left before"] = walk.returns
    return out


def main() -> None:
    root = Path(sys.argv[1]) if len(sys.argv) > 1 else Path(__file__).parents[2]
    for what, number in figures(root).items():
        print(f"{number:5} {what}")


if __name__ == "__main__":
    main()
