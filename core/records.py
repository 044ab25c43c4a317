"""Frozen dataclasses with slots, made quickly: the program has hundreds of them.

For each class the standard decorator has Python compile six methods, one after the other: most of a
millisecond a class, a fifth of the time until the board is there. Here what depends on the fields
is compiled in one go and the rest is the same for all; and `__init__` fills the slots directly,
which makes an object in half the time. To `dataclasses.replace`, `fields` and `astuple`, to `match`
and to type checkers a record is a dataclass.
"""

from collections.abc import Iterator, Sequence
from dataclasses import MISSING, Field, FrozenInstanceError, dataclass, field, fields
from typing import Any, TypeVar, dataclass_transform

_T = TypeVar("_T")


@dataclass_transform(frozen_default=True, field_specifiers=(field,))
def record(cls: type[_T], /) -> type[_T]:
    """Make a class a record: what `@dataclass(frozen=True, slots=True)` makes of it.

    Methods that the class has itself stand. Raises ValueError for a field that is not given to
    `__init__` by its place.
    """
    made: Any = dataclass(init=False, repr=False, eq=False, slots=True)(cls)
    own, every = vars(made), fields(made)
    methods = {
        "__repr__": _repr,
        "__setattr__": _refuse_setting,
        "__delattr__": _refuse_deleting,
        "__getstate__": _state,
        "__setstate__": _restore,
    } | _written(made, every)
    # A class that compares in its own way has lost its hash to Python: it is None then.
    for name in methods.keys() - {name for name, method in own.items() if method is not None}:
        setattr(made, name, methods[name])
    return made  # type: ignore[no-any-return]


def _written(made: Any, every: Sequence[Field[Any]]) -> dict[str, Any]:
    """Compile the methods that depend on the fields."""
    known: dict[str, Any] = {"_missing": MISSING}
    for each in every:
        known[f"_set_{each.name}"] = getattr(made, each.name).__set__
        known[f"_default_{each.name}"] = each.default
        known[f"_make_{each.name}"] = each.default_factory
    lines = [*_init(made, every), *_comparing([each.name for each in every if each.compare])]
    methods: dict[str, Any] = {}
    exec("\n".join(lines), known, methods)  # noqa: S102  # as the standard one does
    for name, method in methods.items():
        method.__qualname__ = f"{made.__qualname__}.{name}"
    methods["__init__"].__annotations__ = {each.name: each.type for each in every}
    return methods


def _init(made: Any, every: Sequence[Field[Any]]) -> Iterator[str]:
    yield f"def __init__({', '.join(['self', *map(_parameter, every)])}):"
    for each in every:
        name = value = each.name
        if not each.init or each.kw_only:
            raise ValueError(f"{made.__qualname__}.{name}: a record takes every field by its place")
        if each.default_factory is not MISSING:
            value = f"_make_{name}() if {name} is _missing else {name}"
        yield f"  _set_{name}(self, {value})"
    yield "  self.__post_init__()" if hasattr(made, "__post_init__") else "  pass"


def _parameter(each: Field[Any]) -> str:
    if each.default is not MISSING:
        return f"{each.name}=_default_{each.name}"
    return f"{each.name}=_missing" if each.default_factory is not MISSING else each.name


def _comparing(names: Sequence[str]) -> tuple[str, ...]:
    """Equality and hash by the values of those fields, one after the other."""
    mine, others = (
        "(" + "".join(f"{whose}.{name}, " for name in names) + ")" for whose in ("self", "other")
    )
    return (
        "def __eq__(self, other):",
        f"  return {mine} == {others} if other.__class__ is self.__class__ else NotImplemented",
        "def __hash__(self):",
        f"  return hash({mine})",
    )


def _repr(self: Any) -> str:
    shown = (f"{each.name}={getattr(self, each.name)!r}" for each in fields(self) if each.repr)
    return f"{self.__class__.__qualname__}({', '.join(shown)})"


def _refuse_setting(_self: object, name: str, _value: object) -> None:
    raise FrozenInstanceError(f"cannot assign to field {name!r}")


def _refuse_deleting(_self: object, name: str) -> None:
    raise FrozenInstanceError(f"cannot delete field {name!r}")


def _state(self: Any) -> list[object]:
    return [getattr(self, each.name) for each in fields(self)]


def _restore(self: Any, state: list[object]) -> None:
    for each, value in zip(fields(self), state, strict=True):
        object.__setattr__(self, each.name, value)
