"""The house rules that a machine can see: what imports what, what is packaged, how long things are."""

import ast
import tomllib
import warnings
from functools import cache
from pathlib import Path

import pytest
from conftest import slow_tests

ROOT = Path(__file__).resolve().parents[2]
RANKS = ("symbols", "drawing", "pattern", "model", "folding", "layout", "picture", "output", "engrave", "cli")
#: The rooms inside the storeys, lowest first: one imports only what stands before it.
ROOMS = (
    "pattern", "pattern.file", "pattern.notation.meanings", "pattern.notation.evened", "pattern.notation.talk", "pattern.notation", "pattern.written.agreed", "pattern.written.again",
    "pattern.written", "model.cloth", "model.hands", "model.rows", "model.multiples", "model.sizing", "model.sections",
    "layout.placing", "layout.points", "layout.posts", "layout.edging", "layout.shapes", "layout.rounds", "layout.sheets", "layout.squares", "layout.labels",
    "layout.chart",
    "layout.assembly",
)  # fmt: skip
#: More modules than this in one room, and nobody knows their way in it.
MOST_IN_A_ROOM = 15
#: Who alone may import what.
ONLY = {
    "shapely": ("charts/folding/",),
    "PIL": ("charts/picture/", "charts/output/", "cli/disk/photograph.py"),
    "svgwrite": ("charts/drawing/svg.py",),
    "cairosvg": ("charts/output/",),
    "typst": ("charts/output/booklet/press.py",),
    "cairocffi": ("charts/output/",),
    "click": ("cli/",),
}
#: Modules at the top of charts that everyone may import; they import none of the ranked ones.
GROUND = ("errors", "made_late", "measure", "setting")
LONGEST_FUNCTION = 60


@cache
def modules() -> dict[str, ast.Module]:
    files = (p for part in ("charts", "symbols", "cli") for p in sorted((ROOT / part).rglob("*.py")))
    return {str(p.relative_to(ROOT)): ast.parse(p.read_text("utf-8")) for p in files}


def rank_of(dotted: str) -> str:
    """The rank of an absolute module name; "" for the ground and for others' packages."""
    parts = dotted.split(".")
    if parts[0] != "hookfold" or len(parts) < 2:
        return ""
    if parts[1] in ("symbols", "cli"):
        return parts[1]
    return parts[2] if len(parts) > 2 and parts[2] in RANKS else ""


def dotted_of(file: str) -> str:
    parts = list(Path(file).with_suffix("").parts)
    return ".".join(["hookfold", *(parts[:-1] if parts[-1] == "__init__" else parts)])


@cache
def names() -> dict[str, str]:
    """Every module by its dotted name, and its file."""
    return {dotted_of(file): file for file in modules()}


@cache
def import_nodes(file: str) -> list[ast.Import | ast.ImportFrom]:
    return [node for node in ast.walk(modules()[file]) if isinstance(node, ast.Import | ast.ImportFrom)]


@cache
def imports(file: str) -> list[str]:
    """Every module that a file imports, absolute; `from x import y` gives x and x.y."""
    package = dotted_of(file) if file.endswith("__init__.py") else dotted_of(file).rpartition(".")[0]
    found = []
    for node in import_nodes(file):
        if isinstance(node, ast.Import):
            found += [alias.name for alias in node.names]
        else:
            up = package.split(".")[: len(package.split(".")) - node.level + 1] if node.level else []
            base = ".".join([*up, *([node.module] if node.module else [])])
            found += [base, *(f"{base}.{alias.name}" for alias in node.names)]
    return found


@pytest.fixture(scope="module", autouse=True)
def all_is_read_before():
    """No single test has to wait for it."""
    every_import()


@cache
def every_import():
    """Every module with each name that it imports."""
    return [(file, name) for file in sorted(modules()) for name in imports(file)]


def test_imports_go_downward():
    upward = []
    for file, name in every_import():
        own, other = rank_of(dotted_of(file)), rank_of(name)
        if other and ((own and RANKS.index(other) > RANKS.index(own)) or Path(file).stem in GROUND):
            upward.append(f"{file} imports {name}")
    assert upward == []


def graph() -> dict[str, set[str]]:
    """What each module imports of ours, also what it imports for its types only."""
    return {name: {x for x in imports(file) if x in names() and x != name} for name, file in names().items()}


def room_of(dotted: str) -> str:
    """The room of a module: the folder it stands in, below charts; none of a module elsewhere."""
    inside = dotted.removeprefix("hookfold.charts.")
    return inside.rpartition(".")[0] if inside != dotted else ""


def test_no_modules_import_each_other_in_a_circle():
    left, packages = graph(), {dotted_of(f) for f in modules() if f.endswith("__init__.py")}
    left = {name: {x for x in needs if x not in packages} for name, needs in left.items() if name not in packages}
    while left:
        free = [name for name, needs in left.items() if not needs & left.keys()]
        assert free, "a circle among " + ", ".join(sorted(left))
        left = {name: needs for name, needs in left.items() if name not in free}


def test_rooms_import_from_those_before_them():
    behind = []
    for file, name in every_import():
        own, other = room_of(dotted_of(file)), room_of(name) if name in names() else ""
        if own in ROOMS and other in ROOMS and ROOMS.index(other) > ROOMS.index(own):
            behind.append(f"{file} imports {name}")
    assert behind == []


def test_every_room_is_named_and_small():
    rooms: dict[str, list[str]] = {}
    for file in modules():
        if not file.endswith("__init__.py"):
            rooms.setdefault(str(Path(file).parent), []).append(file)
    named = {folder.removeprefix("charts/").replace("/", ".") for folder in rooms if folder.startswith("charts/")}
    assert {room for room in named if room.split(".")[0] in ("pattern", "model", "layout")} == set(ROOMS)
    assert {room: len(files) for room, files in rooms.items() if len(files) > MOST_IN_A_ROOM} == {}


@pytest.mark.parametrize("library", sorted(ONLY))
def test_each_library_has_its_place(library):
    users = [f for f in modules() if any(n == library or n.startswith(library + ".") for n in imports(f))]
    assert all(user.startswith(ONLY[library]) for user in users), users
    assert users or library == "cairocffi"


def test_imports_are_relative_inside_a_part_and_absolute_across():
    nodes = ((file, node) for file in sorted(modules()) for node in import_nodes(file))
    absolute = ((file, node.module) for file, node in nodes if isinstance(node, ast.ImportFrom) and not node.level and node.module)
    assert [f"{file}: {name}" for file, name in absolute if name.startswith(f"hookfold.{file.split('/')[0]}.")] == []


def test_the_engraver_does_not_print_or_look_at_the_clock():
    banned = {"time", "datetime", "socket", "urllib", "http", "random"}
    for file, tree in modules().items():
        if not file.startswith("charts/"):
            continue
        assert not {name.split(".")[0] for name in imports(file)} & banned, file
        calls = [
            n.func.id for n in ast.walk(tree) if isinstance(n, ast.Call) and isinstance(n.func, ast.Name)
        ]
        assert "print" not in calls and "open" not in calls, file


def test_functions_are_short():
    long = [
        f"{file}:{node.name} has {node.end_lineno - node.lineno + 1} lines"
        for file, tree in modules().items()
        for node in ast.walk(tree)
        if isinstance(node, ast.FunctionDef) and node.end_lineno - node.lineno >= LONGEST_FUNCTION
    ]
    assert not long


def test_modules_are_of_a_readable_length():
    """A list to look at, not a fault: 60 to 350 lines a module."""
    odd = []
    for file in modules():
        lines = len((ROOT / file).read_text("utf-8").splitlines())
        if lines > 350:
            odd.append(f"{file}: {lines} lines")
    if odd:
        warnings.warn("longer than 350 lines: " + "; ".join(odd), stacklevel=1)
    assert len(modules()) > 30


def project():
    return tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["tool"]["setuptools"]


def test_packages_are_those_on_disk():
    on_disk = {dotted_of(f) for f in modules() if f.endswith("__init__.py")}
    assert set(project()["packages"]) == on_disk


def test_package_data_covers_every_file_on_disk():
    for package, folder in project()["package-dir"].items():
        patterns = project()["package-data"][package]
        base = ROOT / folder
        covered = {p for pattern in patterns for p in base.glob(pattern)}
        others = {p for p in base.rglob("*") if p.is_file() and p.suffix not in (".py", ".pyc")}
        assert others <= covered, sorted(str(p) for p in others - covered)
        for pattern in patterns:
            assert pattern == "py.typed" or list(base.glob(pattern)) or folder == "cli", pattern


def test_every_licence_named_has_its_text_in_the_package():
    named = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    texts = [p.read_text("utf-8") for pattern in named["license-files"] for p in ROOT.glob(pattern)]
    words = {"MIT": "MIT License", "CC0-1.0": "CC0 1.0 Universal", "OFL-1.1": "SIL Open Font License, Version 1.1"}
    for licence in named["license"].split(" AND "):
        assert any(words[licence] in text for text in texts), licence


def test_no_module_is_a_drawer_for_anything():
    names = {Path(f).stem for f in modules()}
    assert not names & {"utils", "util", "helpers", "helper", "common", "base", "manager", "misc"}


def test_every_module_says_what_it_is():
    assert not [file for file, tree in modules().items() if not ast.get_docstring(tree)]


def test_longer_public_things_say_what_they_are():
    """A list to look at, not a fault: classes and public functions of more than a dozen lines with no docstring."""
    bare = [
        f"{file}:{node.name}"
        for file, tree in modules().items()
        for node in tree.body
        if isinstance(node, ast.FunctionDef | ast.ClassDef)
        and not node.name.startswith("_")
        and node.end_lineno - node.lineno > 12
        and not ast.get_docstring(node)
    ]
    if bare:
        warnings.warn("no docstring: " + "; ".join(bare), stacklevel=1)
    assert not [name for name in bare if name.startswith("cli/")]


def test_every_test_named_as_slow_is_there():
    """Its file, and in it a test of that name; that each parameter is there is said at the end of a whole run."""
    for name in slow_tests():
        file, _, rest = name.partition("::")
        assert f"def {rest.partition('[')[0]}(" in (ROOT / file).read_text("utf-8"), name
