"""Records whose methods are made late behave as the library's data classes do."""

from __future__ import annotations

import ast
import copy
import dataclasses
import importlib
import inspect
import pickle
import subprocess
import sys

import pytest
from hookfold.charts import made_late
from hookfold.charts.made_late import dataclass as late
from test_house import import_nodes, modules, names


def _records(dataclass):
    @dataclass(frozen=True, slots=True)
    class Fixed:
        row: int
        marks: dict = dataclasses.field(default_factory=dict)
        at: int = dataclasses.field(default=0, compare=False)
        hidden: str = dataclasses.field(default="x", repr=False)

    @dataclass(slots=True)
    class Changing:
        count: int = 0
        kept: tuple = dataclasses.field(init=False, default=(1,))
        made: list = dataclasses.field(init=False, default_factory=list)
        put: int = dataclasses.field(init=False)

        def __post_init__(self):
            self.put = self.count + 1

    @dataclass(frozen=True, slots=True)
    class More(Fixed):
        more: tuple = ()

        def __post_init__(self):
            if self.more == (0,):
                raise ValueError("none")

    @dataclass(frozen=True, slots=True, eq=False)
    class Itself:
        row: int = 1

    @dataclass(frozen=True)
    class Own:
        row: int = 1

        def __repr__(self):
            return "own"

    return Fixed, Changing, More, Itself, Own


def _says(work):
    """What comes of a piece of work: its value or the kind of its fault."""
    try:
        return work()
    except Exception as wrong:
        return type(wrong)


def _found(Fixed, Changing, More, Itself, Own):
    """Everything a record is asked, in words."""
    one, other = Fixed(1), Fixed(1, {}, 7)
    changing = Changing(2)
    changing.count += 1
    yield repr(one).split(".")[-1], one == other, one == Fixed(2), one != 1, one.marks is other.marks
    yield hash(Own(3)) == hash((3,)), hash(More(1, (), 2)) == hash((1, (), "x", ())), len({Own(3), Own(3)})
    yield changing.count, changing == Changing(3), changing.kept, changing.made is Changing().made, changing.put, _says(lambda: hash(changing)), repr(changing).split(".")[-1]
    yield repr(More(1, more=(2,))).split(".")[-1], More(1) == Fixed(1), _says(lambda: More(1, more=(0,)))
    yield Itself() == Itself(), len({Itself(), Itself()}), repr(Own(2))
    unlike_itself = Own(float("nan"))
    yield unlike_itself == unlike_itself, unlike_itself == Own(float("nan")), unlike_itself != unlike_itself
    yield _says(lambda: setattr(one, "row", 2)), _says(lambda: delattr(one, "row")), _says(lambda: setattr(Own(), "new", 2))
    yield _says(lambda: Fixed()), _says(lambda: Fixed(1, 2, 3, 4, 5)), _says(lambda: Fixed(row=1, no=2))
    yield dataclasses.replace(one, row=5).row, dataclasses.asdict(other), dataclasses.astuple(other), Fixed.__match_args__
    yield copy.copy(other) == other, copy.deepcopy(other).at, hasattr(one, "__dict__"), hasattr(Own(), "__dict__")
    yield [(f.name, f.compare, f.repr) for f in dataclasses.fields(More)], Fixed.__dataclass_params__.frozen
    match one:
        case Fixed(1, marks):
            yield marks


def test_they_do_all_that_the_library_s_do():
    assert list(_found(*_records(late))) == list(_found(*_records(dataclasses.dataclass)))


@pytest.mark.parametrize("made_by", [late, dataclasses.dataclass], ids=["late", "library"])
def test_a_record_often_changed_is_changed_as_the_library_does(made_by):
    """Before a function is written for its class and after; what comes of it is made, so that it is looked at as new."""
    _, Changing, More, _, Own = _records(made_by)

    class Positional(Own):
        def __init__(self, *, row):
            object.__setattr__(self, "row", row + 1)

    seen = []
    for _ in range(made_late.SELDOM + 2):
        one = More(1, {"a": 1}, 2, "y", (3,))
        found = [made_late.replace(one, at=5, more=(4,)), made_late.replace(one), made_late.replace(Changing(2), count=7)]
        assert [made_late.replace(Positional(row=2), row=7).row, found[-1].put] == [8, 8]
        assert [type(f) for f in found[:2]] == [More, More] and found[1] is not one and found[0].marks is one.marks
        faults = [_says(lambda one=one: made_late.replace(one, more=(0,))), _says(lambda one=one: made_late.replace(one, no=1))]
        seen.append((*(dataclasses.astuple(f) for f in found), *faults))
    assert seen == [((1, {"a": 1}, 5, "y", (4,)), (1, {"a": 1}, 2, "y", (3,)), (7, (1,), [], 8), ValueError, TypeError)] * len(seen)
    assert {More, Changing, Positional} <= made_late._ANEW.keys()


def test_a_record_is_pickled_and_read_back():
    from hookfold.charts.setting import Setting

    assert pickle.loads(pickle.dumps(Setting(hand="left"))) == Setting(hand="left")


def every_record():
    for name in names():
        for found in vars(importlib.import_module(name)).values():
            if isinstance(found, type) and dataclasses.is_dataclass(found) and found.__module__ == name:
                yield found


def test_each_record_takes_what_the_library_would_have_it_take():
    looked_at = 0
    for record in every_record():
        if record.__module__.startswith("hookfold.symbols"):
            continue
        spec = [
            (f.name, object, dataclasses.field(default=f.default) if f.default is not dataclasses.MISSING
             else dataclasses.field(default_factory=f.default_factory))
            if f.default is not dataclasses.MISSING or f.default_factory is not dataclasses.MISSING else (f.name, object)
            for f in dataclasses.fields(record)
            if f.init
        ]  # fmt: skip
        wanted = inspect.signature(dataclasses.make_dataclass("Wanted", spec)).parameters.values()
        assert not any(f.kw_only for f in dataclasses.fields(record)), record
        if "__init__" not in vars(record):
            continue
        from hookfold.charts.made_late import _written_init

        made = _written_init(record, dataclasses.fields(record), frozen=True)
        taken = list(inspect.signature(made).parameters.values())[1:]
        assert [p.name for p in taken] == [p.name for p in wanted], record
        assert [p.default is p.empty for p in taken] == [p.default is p.empty for p in wanted], record
        looked_at += 1
    assert looked_at > 250


def test_only_late_records_are_made():
    nodes = ((file, node) for file in modules() if not file.startswith("symbols/") for node in import_nodes(file))
    libraries = {
        file for file, node in nodes
        if isinstance(node, ast.ImportFrom) and node.module == "dataclasses" and {"dataclass", "replace"} & {alias.name for alias in node.names}
    }  # fmt: skip
    assert libraries - {"charts/made_late.py"} == set()


def test_no_method_is_compiled_until_a_record_is_made():
    code = (
        "import builtins; real = builtins.exec; seen = []\n"
        "builtins.exec = lambda *given: (seen.append(given[0]), real(*given))[1]\n"
        "import hookfold.charts.pattern.tree as tree\n"
        "before = sum(isinstance(text, str) for text in seen); tree.Skip(()); tree.Skip(())\n"
        "print(before, sum(isinstance(text, str) for text in seen))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    before, after = map(int, done.stdout.split())
    assert before < 5 and after == before + 1
