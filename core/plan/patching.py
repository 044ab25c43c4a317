"""Edits of a plan's text at the places where its keys and tables stand; all else is left alone.

Edits are gathered first and made together, so every place means the text as it was.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from tree_sitter import Node

from core.plan.positions import Positions, Trail, members_of, pairs_of, value_of


@dataclass(frozen=True, slots=True)
class _Edit:
    """These bytes of the text become that."""

    start: int
    end: int
    text: str


class Patch:
    """Gathers the edits of one text; trails are those of the text before any of them."""

    def __init__(self, text: str, positions: Positions) -> None:
        self._positions = positions
        self._data = text.encode()
        self._edits: list[_Edit] = []

    def made(self) -> str:
        """The text with all edits."""
        data = self._data
        in_order = sorted(self._edits, key=lambda edit: (edit.start, edit.end))
        for edit in in_order[::-1]:  # from the end, so that the places before it stay right
            data = data[: edit.start] + self._lines(edit.text) + data[edit.end :]
        return data.decode()

    def _lines(self, text: str) -> bytes:
        """New text with the line ends of the file."""
        return text.replace("\n", "\r\n" if b"\r\n" in self._data else "\n").encode()

    # ------------------------------------------------------------------ keys under a heading

    def set_keys(self, trail: Trail, written: dict[str, str | None]) -> bool:
        """Write keys of a table, each a value as TOML has it; None takes the key out.

        False, and nothing is done, where the table has no heading of its own and is not written
        in braces either.
        """
        head = self._positions.head(trail)
        if head is None:
            return self._set_in_braces(trail, written)
        pairs = {names[0]: pair for names, pair in pairs_of(head) if len(names) == 1}
        fresh = ""
        for key, value in written.items():
            pair = pairs.get(key)
            if pair is None:
                fresh += "" if value is None else f"{key} = {value}\n"
            elif value is not None:
                self._replace(value_of(pair), value)
            else:
                self._edits.append(_Edit(pair.start_byte, self._line_end(pair.end_byte), ""))
        if fresh:
            at = self._end_of(head)
            self._edits.append(_Edit(at, at, self._on_a_line(at, fresh)))
        return True

    def set_value(self, trail: Trail, written: str) -> bool:
        """Write another value where one stands already; False where none does."""
        node = self._positions.value(trail)
        if node is not None:
            self._replace(node, written)
        return node is not None

    def rename_heading(self, trail: Trail, written: str) -> bool:
        """Write another last part in a table's heading."""
        node = self._positions.heading(trail)
        if node is not None:
            self._replace(node, written)
        return node is not None

    # ------------------------------------------------------------------ tables

    def insert(self, after: Trail | None, text: str) -> None:
        """Put new tables behind one that stands; at the end of the file where there is none."""
        heads = self._heads_under(after) if after is not None else []
        at = max((self._end_of(head) for head in heads), default=len(self._data))
        self._edits.append(_Edit(at, at, self._on_a_line(at, text)))

    def remove(self, trail: Trail) -> bool:
        """Take out a table, from its heading to its last key, and the empty lines behind it."""
        heads = self._heads_under(trail)
        for head in heads:
            end = self._end_of(head)
            while self._data[end : end + 1] in (b"\n", b"\r"):
                end += 1
            self._edits.append(_Edit(head.start_byte, end, ""))
        return bool(heads)

    def _heads_under(self, trail: Trail) -> list[Node]:
        """A table's heading, and those of the tables inside it that have one."""
        found = {
            node.start_byte: node
            for name, node in self._positions.trails()
            if name[: len(trail)] == trail
        }
        return list(found.values())

    # ------------------------------------------------------------------ members of a list

    def add_member(self, trail: Trail, after: int, written: str) -> bool:
        """Put a value into a list behind its member `after`; False where there is no such list."""
        node = self._positions.value(trail)
        if node is None or node.type != "array":
            return False
        members = list(members_of(node))
        if not members:
            self._replace(node, f"[\n  {written},\n]")
            return True
        last = members[min(after, len(members) - 1)]
        if not self._alone(last):
            self._edits.append(_Edit(last.end_byte, last.end_byte, f", {written}"))
            return True
        line_end = self._line_end(last.end_byte)
        if not _comma_after(last):
            self._edits.append(_Edit(last.end_byte, last.end_byte, ","))
        self._edits.append(_Edit(line_end, line_end, f"{self._indent(last)}{written},\n"))
        return True

    def remove_member(self, trail: Trail) -> bool:
        """Take a value out of a list, with its line where it has one to itself."""
        node = self._positions.value(trail)
        if node is None or node.parent is None or node.parent.type != "array":
            return False
        start, end = node.start_byte, node.end_byte
        if self._alone(node):
            start, end = self._data.rfind(b"\n", 0, start) + 1, self._line_end(end)
        elif (comma := _comma_after(node)) is not None:
            end = comma.end_byte
            while self._data[end : end + 1] == b" ":
                end += 1
        elif (comma := _comma_before(node)) is not None:
            start = comma.start_byte
        self._edits.append(_Edit(start, end, ""))
        return True

    def _set_in_braces(self, trail: Trail, written: dict[str, str | None]) -> bool:
        table = self._positions.value(trail) if trail else None
        if table is None or table.type != "inline_table":
            return False
        pairs = {str(names[0]): pair for names, pair in pairs_of(table) if len(names) == 1}
        left = [pair for key, pair in pairs.items() if written.get(key, "") is not None]
        fresh = [f"{k} = {v}" for k, v in written.items() if k not in pairs and v is not None]
        for key, pair in pairs.items():
            if (value := written.get(key)) is not None:
                self._replace(value_of(pair), value)
            elif key in written:
                self._take_pair(pair, last=not left)
        if fresh and left:
            at = left[-1].end_byte
            self._edits.append(_Edit(at, at, "".join(f", {one}" for one in fresh)))
        elif fresh:
            self._edits.append(
                _Edit(table.start_byte + 1, table.end_byte - 1, f" {', '.join(fresh)} ")
            )
        return True

    def _take_pair(self, pair: Node, *, last: bool) -> None:
        """Take a pair out of its braces, with the comma that parted it from another."""
        start, end = pair.start_byte, pair.end_byte
        if not last and (comma := _comma_before(pair)) is not None:
            start = comma.start_byte
        elif (comma := _comma_after(pair)) is not None:
            end = comma.end_byte
            while self._data[end : end + 1] == b" ":
                end += 1
        self._edits.append(_Edit(start, end, ""))

    # ------------------------------------------------------------------ inside

    def _replace(self, node: Node, written: str) -> None:
        self._edits.append(_Edit(node.start_byte, node.end_byte, written))

    def _on_a_line(self, at: int, text: str) -> str:
        """Text that begins a line, also where the last line of the file has no end."""
        return text if at == 0 or self._data[at - 1 : at] == b"\n" else f"\n{text}"

    def _end_of(self, head: Node) -> int:
        """Behind the line of the last key under a heading, or of the heading itself."""
        pairs = [pair.end_byte for _, pair in pairs_of(head)]
        if pairs:
            return self._line_end(pairs[-1])
        return self._line_end(head.start_byte) if head.type != "document" else 0

    def _line_end(self, at: int) -> int:
        end = self._data.find(b"\n", at)
        return len(self._data) if end < 0 else end + 1

    def _alone(self, node: Node) -> bool:
        """Whether a member of a list has a line to itself, but for its comma and a comment."""
        begins = self._data.rfind(b"\n", 0, node.start_byte) + 1
        before = self._data[begins : node.start_byte]
        rest = self._data[node.end_byte : self._line_end(node.end_byte)].strip().lstrip(b",")
        return not before.strip() and (not rest.strip() or rest.strip().startswith(b"#"))

    def _indent(self, node: Node) -> str:
        begins = self._data.rfind(b"\n", 0, node.start_byte) + 1
        return self._data[begins : node.start_byte].decode()


def _comma_after(node: Node) -> Node | None:
    return next((one for one in _siblings(node, ahead=True) if one.type == ","), None)


def _comma_before(node: Node) -> Node | None:
    return next((one for one in _siblings(node, ahead=False) if one.type == ","), None)


def _siblings(node: Node, *, ahead: bool) -> Iterator[Node]:
    """What stands beside a node up to the next value: signs and comments."""
    one = node.next_sibling if ahead else node.prev_sibling
    while one is not None and one.type in {",", "comment"}:
        yield one
        one = one.next_sibling if ahead else one.prev_sibling
