"""One table of the plan, read key by key: what is asked for is what may stand there."""

from collections.abc import Iterator, Mapping
from typing import TypeVar, cast, overload

from core.plan.gather import Named, clip
from core.plan.positions import Trail
from core.plan.values import Page, Reader, identity, kind_of, name, text

T = TypeVar("T")


class Fields:
    """The keys of one table. Whatever was not asked for by the end is an unknown key."""

    def __init__(self, page: Page, trail: Trail, raw: Mapping[str, object]) -> None:
        self.page = page
        self.trail = trail
        self._raw = raw
        self._asked: dict[str, None] = {}

    def __contains__(self, key: str) -> bool:
        return key in self._raw

    def __iter__(self) -> Iterator[str]:
        """The keys that stand in the table, in the file's order."""
        return iter(self._raw)

    def at(self, key: str) -> Trail:
        """The trail of a key, for a problem with its value."""
        return (*self.trail, key)

    def raw(self, key: str) -> object:
        """The value as it stands, and None where there is none; the key counts as asked for."""
        self._asked[key] = None
        return self._raw.get(key)

    @overload
    def get(self, key: str, reader: Reader[T]) -> T | None: ...
    @overload
    def get(self, key: str, reader: Reader[T], default: T) -> T: ...
    def get(self, key: str, reader: Reader[T], default: T | None = None) -> T | None:
        """The value as `reader` takes it; the default where there is none, or a wrong one."""
        self._asked[key] = None
        if key not in self._raw:
            return default
        taken = reader(self.page, (*self.trail, key), self._raw[key])
        return default if taken is None else taken

    def need(self, key: str, reader: Reader[T], example: str) -> T | None:
        """As `get`, but the key must stand; `example` is what one would write."""
        if key not in self._raw:
            self._asked[key] = None
            self.problem(f"'{key}' is missing here", f"Add {key} = {example}")
            return None
        return self.get(key, reader)

    def each(self, key: str, reader: Reader[T]) -> tuple[T, ...]:
        """The values of a list; those that are wrong are left out after being told."""
        value = self.raw(key)
        if value is None:
            return ()
        if not isinstance(value, list):
            self.page.problem(
                self.at(key), f"this is {kind_of(value)}, not a list", "Put it in [brackets]"
            )
            return ()
        taken = (reader(self.page, (*self.at(key), at), one) for at, one in enumerate(value))
        return tuple(one for one in taken if one is not None)

    def table(self, key: str) -> "Fields | None":
        """The table under a key, if there is one."""
        value = self.raw(key)
        if value is None or not _is_table(self.page, self.at(key), value):
            return None
        return Fields(self.page, self.at(key), cast(Mapping[str, object], value))

    def tables(self, key: str) -> Iterator["Fields"]:
        """Each table of the list under a key; a single table in its place is told."""
        value = self.raw(key)
        if isinstance(value, dict):
            self.page.problem(
                self.at(key), f"there may be several of '{key}'", f"Write [[{key}]]", key=True
            )
            return
        for at, _ in enumerate(self.each(key, lambda *_: True)):
            one, trail = cast(list[object], value)[at], (*self.at(key), at)
            if _is_table(self.page, trail, one):
                yield Fields(self.page, trail, cast(Mapping[str, object], one))

    def define(self, kind: Named) -> str | None:
        """The id of this table, noted as a name that stands."""
        taken = self.need("id", identity, '"a-short-name"')
        if taken is not None:
            self.page.gather.define(kind, taken, self.at("id"))
        return taken

    def named(self, otherwise: str | None) -> str:
        """The table's name; its id where the file gives none."""
        return self.get("name", name, otherwise or "")

    def words(self, key: str) -> str:
        """A text, empty where there is none."""
        return self.get(key, text, "")

    def problem(self, what: str, hint: str = "") -> None:
        """Note something wrong with the table as a whole."""
        self.page.problem(self.trail, what, hint)

    def warning(self, key: str, what: str, hint: str = "") -> None:
        """Warn of the value under a key."""
        self.page.gather.warning(self.at(key), what, hint)

    def close(self) -> None:
        """Tell every key that nobody asked for."""
        for key in self._raw:
            if key not in self._asked:
                self.page.problem(
                    (*self.trail, key),
                    f"'{clip(key)}' is not a key that can stand here",
                    self.page.gather.nearest(key, self._asked),
                    key=True,
                )


def _is_table(page: Page, trail: Trail, value: object) -> bool:
    if isinstance(value, dict):
        return True
    page.problem(trail, f"this is {kind_of(value)}, not a table", "Put its keys in {braces}")
    return False
