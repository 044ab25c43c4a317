"""Where in a TOML text a key or a value stands: made only when there is a problem to place."""

import tomllib
from collections.abc import Iterator

import tree_sitter_toml
from tree_sitter import Language, Node, Parser

from core.errors import Place

Trail = tuple[str | int, ...]
"""The way to a value: keys and list indices from the top, like ("event", 3, "after", "offset")."""

_IGNORED = frozenset({"[", "]", "{", "}", ",", "=", ".", "[[", "]]", "comment"})
_KEYS = frozenset({"bare_key", "quoted_key", "dotted_key"})


class Positions:
    """The places of one TOML text that `tomllib` has accepted."""

    def __init__(self, text: str, shown: str) -> None:
        self._shown = shown
        self._data = text.encode()
        self._lines: list[bytes] = []
        self._heads: dict[Trail, Node] = {}
        self._number_heads(
            Parser(Language(tree_sitter_toml.language())).parse(self._data).root_node
        )

    def place(self, trail: Trail, *, key: bool = False) -> Place:
        """Where the value at `trail` begins, or its key; of what is missing, where it would be."""
        for length in range(len(trail), -1, -1):
            head = self._heads.get(trail[:length])
            if head is None:
                continue
            rest = trail[length:]
            found = _find(head, rest, key=key) if rest else _named(head, key=key)
            if found is not None or length:
                return self._of(found or head)
        return Place(self._shown, 1, 1)

    def head(self, trail: Trail) -> Node | None:
        """The table that stands under a heading of its own; for (), the keys before the first."""
        return self._heads.get(trail)

    def point(self, place: Place) -> tuple[int, int]:
        """The row and the byte of a place of this text, both from 0."""
        row = place.line - 1
        line = self._data.split(b"\n")[row] if 0 <= row < self._data.count(b"\n") + 1 else b""
        before = line.decode("utf-8", "replace")[: max(0, place.column - 1)]
        return row, len(before.encode())

    def value(self, trail: Trail) -> Node | None:
        """The value at a trail, written under a heading or in braces; None where there is none."""
        for length in range(len(trail) - 1, -1, -1):
            head = self._heads.get(trail[:length])
            if head is not None:
                return _exact(head, trail[length:])
        return None

    def heading(self, trail: Trail) -> Node | None:
        """The last part of the key in a table's heading."""
        head = self._heads.get(trail)
        keys = [child for child in head.children if child.type in _KEYS] if head else []
        if not keys or head is None or head.type == "document":
            return None
        parts = [child for child in keys[0].children if child.type in _KEYS]
        return parts[-1] if keys[0].type == "dotted_key" and parts else keys[0]

    def trails(self) -> Iterator[tuple[Trail, Node]]:
        """Every heading with its node, the file itself first."""
        return iter(self._heads.items())

    def _number_heads(self, root: Node) -> None:
        """Map each heading to its node; the members of [[lists]] are counted as they come."""
        counts: dict[Trail, int] = {}
        self._heads[()] = root
        for node in root.children:
            if node.type not in {"table", "table_array_element"}:
                continue
            *before, last = _names(next(c for c in node.children if c.type in _KEYS))
            trail: Trail = ()
            for name in before:
                trail += (name,)
                if trail in counts:
                    trail += (counts[trail] - 1,)
            trail += (last,)
            if node.type == "table_array_element":
                self._heads.setdefault(trail, node)
                counts[trail] = counts.get(trail, 0) + 1
                trail += (counts[trail] - 1,)
            self._heads.setdefault(trail, node)

    def _of(self, node: Node) -> Place:
        row, column = node.start_point
        if not self._lines:
            self._lines = self._data.split(b"\n")
        before = self._lines[row][:column] if row < len(self._lines) else b""
        return Place(self._shown, row + 1, len(before.decode("utf-8", "replace")) + 1)


def pairs_of(head: Node) -> Iterator[tuple[Trail, Node]]:
    """The pairs that stand right under a heading, each with the parts of its key."""
    return ((_names(pair.children[0]), pair) for pair in head.children if pair.type == "pair")


def value_of(pair: Node) -> Node:
    """What a pair says of its key."""
    return next(_members(pair, skip=1), pair)


def members_of(array: Node) -> Iterator[Node]:
    """The values in a list."""
    return _members(array)


def _exact(node: Node, rest: Trail) -> Node | None:
    """The node that `rest` leads to from a table or a value; None where it leads nowhere."""
    if not rest:
        return node
    if isinstance(rest[0], int):
        members = list(_members(node)) if node.type == "array" else []
        return _exact(members[rest[0]], rest[1:]) if rest[0] < len(members) else None
    for names, pair in pairs_of(node):
        if names == rest[: len(names)]:
            return _exact(value_of(pair), rest[len(names) :])
    return None


def _named(head: Node, *, key: bool) -> Node:
    """The heading itself, or the key inside its brackets."""
    keys = [child for child in head.children if child.type in _KEYS]
    return keys[0] if key and keys else head


def _find(node: Node, rest: Trail, *, key: bool) -> Node | None:
    """The node that `rest` leads to from a table, or the nearest above it; None if it has none."""
    for names, pair in pairs_of(node):
        if names == rest[: len(names)]:
            return _inside(pair, rest[len(names) :], key=key)
    return None


def _inside(pair: Node, rest: Trail, *, key: bool) -> Node:
    value = value_of(pair)
    while rest and isinstance(rest[0], int):
        members = list(_members(value))
        if value.type != "array" or rest[0] >= len(members):
            return value
        value, rest = members[rest[0]], rest[1:]
        key = key and bool(rest)
    if rest and value.type == "inline_table":
        return _find(value, rest, key=key) or value
    return pair.children[0] if key else value


def _members(node: Node, skip: int = 0) -> Iterator[Node]:
    return (child for child in node.children[skip:] if child.type not in _IGNORED)


def _names(node: Node) -> Trail:
    """The parts of a key, dotted or not, as they read."""
    if node.type == "dotted_key":
        return sum((_names(child) for child in node.children if child.type in _KEYS), ())
    text = (node.text or b"").decode("utf-8", "replace")
    if node.type == "bare_key":
        return (text,)
    return (next(iter(tomllib.loads(f"{text} = 0"))),)
