"""What was asked for last, kept: of many answers the one that was not asked for longest goes."""

from collections import OrderedDict
from typing import Generic, TypeVar

_Key = TypeVar("_Key")
_Value = TypeVar("_Value")


class Recent(Generic[_Key, _Value]):
    """Values by key, no more than `most` of them."""

    __slots__ = ("_kept", "_most")

    def __init__(self, most: int) -> None:
        self._kept: OrderedDict[_Key, _Value] = OrderedDict()
        self._most = most

    def __contains__(self, key: _Key) -> bool:
        return key in self._kept

    def __getitem__(self, key: _Key) -> _Value:
        self._kept.move_to_end(key)
        return self._kept[key]

    def __setitem__(self, key: _Key, value: _Value) -> None:
        self._kept[key] = value
        self._kept.move_to_end(key)
        if len(self._kept) > self._most:
            self._kept.popitem(last=False)

    def get(self, key: _Key) -> _Value | None:
        """The value of a key; None where there is none."""
        return self[key] if key in self._kept else None

    def clear(self) -> None:
        """Let all go."""
        self._kept.clear()
