"""Records: data classes whose methods are made when they are first needed.

The library's `dataclass` writes the text of six methods for every class and compiles it: 0.7 ms a class, of which a
short check loads a hundred. Here comparing, hashing and showing are functions of the fields' names, and `__init__` is
written when the first record is made: 0.06 ms. So is, for records that are often changed, what `replace` does. To a
checker of types these are the library's `dataclass` and `replace`.
"""

from __future__ import annotations

import dataclasses
import inspect
from collections.abc import Callable
from operator import attrgetter
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from dataclasses import dataclass as dataclass
    from dataclasses import replace as replace
else:

    def dataclass(*, frozen: bool = False, slots: bool = False, eq: bool = True) -> Callable[[type], type]:
        """A data class like the library's of the same options; fields have default, factory, init, repr, compare.

        >>> @dataclass(frozen=True, slots=True)
        ... class Place:
        ...     row: int
        ...     stitch: int = 1
        >>> Place(3), Place(3) == Place(3, 1), hash(Place(3)) == hash((3, 1))
        (Place(row=3, stitch=1), True, True)
        """

        def made(cls: type) -> type:
            own = cls.__dict__
            # What is told of a class without words is looked up in its signature, which is not there yet.
            if cls.__doc__ is None:
                cls.__doc__ = f"{cls.__name__}(...)"
            # Of one that cannot change only such can inherit, which the library gives its own two methods.
            fixed = any(base.__dataclass_params__.frozen for base in cls.__bases__ if dataclasses.is_dataclass(base))
            new = _with_fields(cls, fixed=fixed, slots=slots)
            fields, said = dataclasses.fields(new), new.__dataclass_params__
            said.init, said.repr, said.eq, said.frozen = True, True, eq, frozen
            if "__init__" not in own:
                new.__init__ = _init_of(new, fields, frozen=frozen)
            if "__repr__" not in own:
                new.__repr__ = _repr_of([f.name for f in fields if f.repr])
            if eq:
                _make_comparable(new, fields, own, frozen=frozen)
            if frozen:
                new.__setattr__, new.__delattr__ = _cannot_assign, _cannot_delete
                if slots:
                    new.__getstate__, new.__setstate__ = _getstate, _setstate
            return new

        return made

    def replace(record: Any, /, **changes: Any) -> Any:
        """A record like another but for some fields, as the library's function of this name makes it.

        >>> @dataclass(frozen=True, slots=True)
        ... class Place:
        ...     row: int
        ...     stitch: int = 1
        >>> replace(Place(3), stitch=2)
        Place(row=3, stitch=2)
        """
        cls = record.__class__
        anew = _ANEW.get(cls)
        if anew is not None:
            return anew(record, **changes)
        left = _LEFT[cls] = _LEFT.get(cls, SELDOM) - 1
        if not left:
            _ANEW[cls] = _written_anew(cls)
        return dataclasses.replace(record, **changes)


#: Records of a class that are changed more often than this are by a function that is written for it, which takes half
#: the time but as much to compile as some tens of records take. What is left of it of each class; these functions.
SELDOM = 40
_LEFT: dict[type, int] = {}
_ANEW: dict[type, Callable[..., Any]] = {}


def _written_anew(cls: type) -> Callable[..., Any]:
    """A function that makes a record of a class like another but for what is given, written and compiled."""
    given = [field.name for field in dataclasses.fields(cls) if field.init]
    asked = ", ".join(f"{name}=_left" for name in given)
    taken = cls.__init__.__code__  # type: ignore[misc]
    in_order = taken.co_varnames[1 : taken.co_argcount] == tuple(given)
    kept = [f"_record.{name} if {name} is _left else {name}" for name in given]
    values = ", ".join(kept if in_order else [f"{name}={value}" for name, value in zip(given, kept, strict=True)])
    names: dict[str, Any] = {"_cls": cls, "_left": _LEFT_OUT}
    exec(f"def anew(_record, {asked}):\n return _cls({values})", names)
    anew: Callable[..., Any] = names["anew"]
    return anew


def _with_fields(cls: type, *, fixed: bool, slots: bool) -> type:
    """The class with its fields known to the library. What its annotations say is kept from it while it looks, where
    all are plain: it takes each that is text to pieces, to see whether it names a variable of the class."""
    told = inspect.get_annotations(cls)
    plain = not any("Var" in str(one) or "KW_ONLY" in str(one) for one in told.values())
    if plain:
        cls.__annotations__ = dict.fromkeys(told, object)
    new: type = dataclasses.dataclass(init=False, repr=False, eq=False, frozen=fixed, slots=slots)(cls)
    if plain:
        cls.__annotations__ = new.__annotations__ = told
        for field in dataclasses.fields(new):
            field.type = told.get(field.name, field.type)
    return new


#: Stands for a field that is made anew for each record and was not given.
_LEFT_OUT = object()


def _init_of(cls: type, fields: tuple[Any, ...], *, frozen: bool) -> Callable[..., None]:
    """An `__init__` that puts the real one in its place when it is first called."""

    def __init__(self: Any, *args: Any, **kwargs: Any) -> None:
        real = _written_init(cls, fields, frozen=frozen)
        if cls.__dict__.get("__init__") is __init__:
            cls.__init__ = real  # type: ignore[misc]
        real(self, *args, **kwargs)

    return __init__


def _written_init(cls: type, fields: tuple[Any, ...], *, frozen: bool) -> Callable[..., None]:
    """The `__init__` of a class with these fields, written and compiled."""
    given, lines = [], []
    names: dict[str, Any] = {"_put": object.__setattr__, "_left": _LEFT_OUT}
    for field in fields:
        name = value = field.name
        if field.default is not dataclasses.MISSING:
            names[f"_{name}"], asked = field.default, f"{name}=_{name}"
        elif field.default_factory is not dataclasses.MISSING:
            names[f"_{name}"], asked = field.default_factory, f"{name}=_left"
            value = f"_{name}() if {name} is _left else {name}"
        else:
            asked = name
        if field.init:
            given.append(asked)
        elif asked == name:
            continue  # `__post_init__` gives it its value
        else:
            value = value.split(" if ")[0] if asked.endswith("=_left") else f"_{name}"
        put = getattr(getattr(cls, name, None), "__set__", None)
        if frozen and put is not None:  # its slot, which need not be looked for by its name each time
            names[f"_put_{name}"] = put
            lines.append(f" _put_{name}(_self, {value})")
        else:
            lines.append(f" _put(_self, {name!r}, {value})" if frozen else f" _self.{name} = {value}")
    if hasattr(cls, "__post_init__"):
        lines.append(" _self.__post_init__()")
    exec("\n".join([f"def __init__(_self, {', '.join(given)}):", *lines, " pass"]), names)
    init: Any = names["__init__"]
    init.__qualname__ = f"{cls.__qualname__}.__init__"
    return init  # type: ignore[no-any-return]


def _repr_of(names: list[str]) -> Callable[[Any], str]:
    def __repr__(self: Any) -> str:
        return f"{self.__class__.__qualname__}({', '.join(f'{name}={getattr(self, name)!r}' for name in names)})"

    return __repr__


def _make_comparable(cls: Any, fields: tuple[Any, ...], own: Any, *, frozen: bool) -> None:
    """Equal are those of one class whose fields are; what cannot change can be hashed, by its fields."""
    names = [f.name for f in fields if f.compare]
    values = _values_of(names)

    def __eq__(self: Any, other: object) -> bool:
        if self is other:  # as two rows of the same things are equal, whatever these are
            return True
        return bool(values(self) == values(other)) if other.__class__ is self.__class__ else NotImplemented

    def __hash__(self: Any) -> int:
        return hash(values(self))

    if "__eq__" not in own:
        cls.__eq__ = __eq__
    if own.get("__hash__") is None:
        cls.__hash__ = __hash__ if frozen else None


def _values_of(names: list[str]) -> Callable[[Any], tuple[Any, ...]]:
    if len(names) > 1:
        return attrgetter(*names)
    return (lambda _: ()) if not names else (lambda self: (getattr(self, names[0]),))


def _cannot_assign(self: Any, name: str, value: object) -> None:
    raise dataclasses.FrozenInstanceError(f"cannot assign to field {name!r}")


def _cannot_delete(self: Any, name: str) -> None:
    raise dataclasses.FrozenInstanceError(f"cannot delete field {name!r}")


def _getstate(self: Any) -> list[Any]:
    return [getattr(self, f.name) for f in dataclasses.fields(self)]


def _setstate(self: Any, state: list[Any]) -> None:
    for field, value in zip(dataclasses.fields(self), state, strict=True):
        object.__setattr__(self, field.name, value)
