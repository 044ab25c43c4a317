"""Records as plain values that JSON can hold, and back: by the types of their fields.

A field that is at its default is left out, and one that is not there has its default: so a field
added later, with a default, changes nothing of what was kept before. A name that is not known is
never passed over: it was written by a later version of the program, and means something.
"""

from collections.abc import Mapping
from dataclasses import MISSING, Field, fields, is_dataclass
from enum import StrEnum
from functools import cache
from types import NoneType, UnionType
from typing import Any, get_args, get_origin, get_type_hints

from core.errors import LaterVersion, SessionProblem

Plain = None | bool | int | float | str | list["Plain"] | dict[str, "Plain"]


def to_plain(value: Any) -> Plain:
    """The value as JSON holds it. ValueError for what no entry is made of."""
    if is_dataclass(value) and not isinstance(value, type):
        given = ((each, getattr(value, each.name)) for each in fields(value))
        return {each.name: to_plain(has) for each, has in given if has != _default(each)}
    if isinstance(value, tuple):
        return [to_plain(each) for each in value]
    if value is None or isinstance(value, bool | int | float | str):
        return str(value) if isinstance(value, StrEnum) else value
    raise ValueError(f"{type(value).__name__} is not kept")


def of_plain(kind: Any, plain: Any, where: str) -> Any:
    """The value of that type. Raises SessionProblem, with `where` it stood, for what is none."""
    if is_dataclass(kind):
        return _record(kind, plain, where)
    if isinstance(kind, UnionType):
        return _one_of(get_args(kind), plain, where)
    if get_origin(kind) is tuple:
        return _tuple(get_args(kind), plain, where)
    if isinstance(kind, type) and issubclass(kind, StrEnum):
        return _choice(kind, plain, where)
    if kind not in {bool, int, float, str, NoneType}:
        raise ValueError(f"{kind} is not kept")
    if type(plain) is not kind:
        raise SessionProblem(f"{where} is {type(plain).__name__}, not {kind.__name__}")
    return plain


def _record(kind: Any, plain: Any, where: str) -> Any:
    if not isinstance(plain, Mapping):
        raise SessionProblem(f"{where} is no {kind.__name__}")
    hints = _hints(kind)
    for name in plain:
        if name not in hints:
            raise LaterVersion(f"{where} has '{name}', which only a later version knows")
    given = {name: of_plain(hints[name], plain[name], f"{where}.{name}") for name in plain}
    lacks = [e.name for e in fields(kind) if e.name not in given and _default(e) is MISSING]
    if lacks:
        raise SessionProblem(f"{where} lacks '{lacks[0]}'")
    return kind(**given)


def _one_of(kinds: tuple[Any, ...], plain: Any, where: str) -> Any:
    """A value that may be None; no entry knows another choice."""
    if plain is None and NoneType in kinds:
        return None
    (kind,) = (each for each in kinds if each is not NoneType)
    return of_plain(kind, plain, where)


def _tuple(kinds: tuple[Any, ...], plain: Any, where: str) -> tuple[Any, ...]:
    if not isinstance(plain, list):
        raise SessionProblem(f"{where} is no list")
    if kinds[-1] is Ellipsis:
        return tuple(of_plain(kinds[0], each, where) for each in plain)
    if len(plain) != len(kinds):
        raise SessionProblem(f"{where} has {len(plain)} values, not {len(kinds)}")
    return tuple(of_plain(kind, each, where) for kind, each in zip(kinds, plain, strict=True))


def _choice(kind: type[StrEnum], plain: Any, where: str) -> StrEnum:
    if plain not in {each.value for each in kind}:
        raise LaterVersion(f"{where} is '{plain}', which only a later version knows")
    return kind(plain)


def _default(each: Field[Any]) -> object:
    """The value a field has where none is given; MISSING where one must be."""
    return each.default if each.default_factory is MISSING else each.default_factory()


@cache
def _hints(kind: Any) -> dict[str, Any]:
    return get_type_hints(kind)
