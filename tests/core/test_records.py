"""A record is what the standard decorator makes of a class, only made more quickly."""

import copy
import inspect
import pickle
from collections.abc import Callable
from dataclasses import (
    FrozenInstanceError,
    astuple,
    dataclass,
    field,
    fields,
    is_dataclass,
    replace,
)
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.records import record

standard = dataclass(frozen=True, slots=True)


def both(make: Callable[[Callable[[type], type]], type]) -> tuple[Any, Any]:
    """The same class as a record, and as the standard decorator makes it."""
    return make(record), make(standard)


def spot(decorate: Callable[[type], type]) -> type:
    @decorate
    class Spot:
        """A place with a name."""

        x: int
        y: float = 0.5
        names: list[str] = field(default_factory=list)
        aside: str = field(default="", compare=False)
        hushed: int = field(default=0, repr=False)

    return Spot


def bare(decorate: Callable[[type], type]) -> type:
    @decorate
    class Bare:
        """Nothing in it."""

    return Bare


@record
class Kept:
    """Found again by its name, for what copies by name."""

    name: str
    parts: tuple[int, ...] = ()


@record
class Longer(Kept):
    """A record that stands on another."""

    more: int = 3


VALUES = {"x": 3, "y": 1.5, "names": ["a"], "aside": "b", "hushed": 7}


@pytest.mark.parametrize("values", [{"x": 1}, VALUES, {"x": 1, "names": []}])
def test_it_holds_and_shows_what_the_standard_one_does(values: dict[str, Any]) -> None:
    ours, theirs = both(spot)
    assert astuple(ours(**values)) == astuple(theirs(**values))
    assert repr(ours(**values)) == repr(theirs(**values))
    assert ours.__match_args__ == theirs.__match_args__
    assert ours.__slots__ == theirs.__slots__
    assert ours.__doc__ == theirs.__doc__
    assert is_dataclass(ours)
    assert [each.name for each in fields(ours)] == [each.name for each in fields(theirs)]


def test_it_is_asked_for_the_same() -> None:
    ours, theirs = both(spot)
    for one, other in zip(
        inspect.signature(ours).parameters.values(),
        inspect.signature(theirs).parameters.values(),
        strict=True,
    ):
        assert (one.name, one.kind, one.annotation) == (other.name, other.kind, other.annotation)
        assert (one.default is one.empty) == (other.default is other.empty)
    for cls in (ours, theirs):
        with pytest.raises(TypeError, match="x"):
            cls()


def test_a_default_that_is_made_is_made_for_each() -> None:
    ours, _ = both(spot)
    assert ours(1).names == []
    assert ours(1).names is not ours(1).names


@given(st.tuples(st.integers(0, 1), st.integers(0, 1)), st.tuples(st.integers(0, 1), st.text()))
def test_it_compares_as_the_standard_one_does(one: tuple[int, int], other: tuple[int, str]) -> None:
    ours, theirs = both(spot)

    def pair(cls: Any) -> tuple[Any, Any]:
        return cls(one[0], hushed=one[1]), cls(other[0], aside=other[1])

    first, second = pair(ours)
    a, b = pair(theirs)
    assert (first == second) == (a == b)
    assert first != a
    assert (first == 3) is False


def test_those_that_are_equal_have_one_hash() -> None:
    assert hash(Kept("a", (1,))) == hash(Kept("a", (1,)))
    assert {Kept("a"): 1}[Kept("a")] == 1
    with pytest.raises(TypeError):
        hash(spot(record)(1))  # a list in it


def test_one_with_nothing_in_it_is_equal_to_its_like() -> None:
    ours, theirs = both(bare)
    assert ours() == ours()
    assert hash(ours()) == hash(theirs())
    assert repr(ours()) == repr(theirs())


def test_it_cannot_be_changed() -> None:
    kept = Kept("a")
    with pytest.raises(FrozenInstanceError):
        kept.name = "b"  # type: ignore[misc]
    with pytest.raises(FrozenInstanceError):
        del kept.name
    with pytest.raises((FrozenInstanceError, AttributeError)):
        kept.other = 1  # type: ignore[attr-defined]
    assert not hasattr(kept, "__dict__")


def test_another_is_made_by_replacing() -> None:
    assert replace(Kept("a", (1,)), name="b") == Kept("b", (1,))
    assert replace(Longer("a"), more=4) == Longer("a", (), 4)


@pytest.mark.parametrize(
    "copied",
    [copy.copy, copy.deepcopy, lambda x: pickle.loads(pickle.dumps(x))],  # noqa: S301  # our own
)
def test_it_is_copied_whole(copied: Callable[[Kept], Kept]) -> None:
    assert copied(Kept("a", (1, 2))) == Kept("a", (1, 2))


def test_it_is_taken_apart_by_match() -> None:
    match Longer("a", (1,), 5):
        case Longer(name, parts, more):
            assert (name, parts, more) == ("a", (1,), 5)


def test_a_record_on_another_has_the_fields_of_both() -> None:
    assert repr(Longer("a")) == "Longer(name='a', parts=(), more=3)"
    assert Longer("a") != Kept("a")


def test_methods_of_its_own_stand() -> None:
    @record
    class Loose:
        """Equal to all of its kind."""

        name: str
        seen: list[str] = field(default_factory=list)

        def __post_init__(self) -> None:
            self.seen.append(self.name)

        def __eq__(self, other: object) -> bool:
            return isinstance(other, Loose)

        def __hash__(self) -> int:
            return 7

        def __repr__(self) -> str:
            return "loose"

    assert Loose("a") == Loose("b")
    assert hash(Loose("a")) == 7
    assert repr(Loose("a")) == "loose"
    assert Loose("a").seen == ["a"]


@pytest.mark.parametrize("odd", [field(init=False, default=1), field(kw_only=True)])
def test_a_field_that_is_not_given_by_its_place_is_refused(odd: Any) -> None:
    with pytest.raises(ValueError, match="by its place"):

        @record
        class Odd:
            """Cannot be made."""

            name: int = odd
