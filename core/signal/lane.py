"""One lane at one state of the day: its tiles and edges in each world, made when asked for."""

from bisect import bisect_left, bisect_right
from collections.abc import Mapping, Sequence
from dataclasses import replace
from itertools import pairwise
from typing import NamedTuple

from core.plan.model import Change, EdgeRef
from core.signal.book import LaneBook
from core.signal.model import Edge
from core.signal.placing import Expected, dark_cut, place
from core.signal.tiles import Cut, Tile, carried, cut, enforce, settled, tiled
from core.signal.told import Fact, Heard
from core.signal.worlds import World


class Brink(NamedTuple):
    """An edge in a world."""

    time_ms: int
    id: str
    ground: str | None
    cause: str


class InWorld:
    """A lane in one world: tiles that cover all of time, and the edges between them."""

    def __init__(self, tiles: Sequence[Tile]) -> None:
        self.tiles = tiles
        self.edges: dict[Change, list[Brink]] = {Change.BACK: [], Change.LOST: []}
        backs, losses = self.edges[Change.BACK], self.edges[Change.LOST]
        for before, after in pairwise(tiles):
            if before.contact and not after.contact:
                losses.append(Brink(after.from_ms, before.lost, before.ground, after.cause))
            elif after.contact and not before.contact:
                backs.append(Brink(after.from_ms, after.back, after.ground, before.cause))

    def find(self, ref: EdgeRef, from_ms: int | None) -> Brink | None:
        """The edge that a reference means, counted from an instant."""
        edges = self.edges[ref.change]
        if ref.row:
            return next((edge for edge in edges if edge.id == ref.row), None)
        if ref.after is None and ref.before is None:
            place = ref.nth - 1
        elif from_ms is None:
            return None
        elif ref.before is None:
            place = bisect_left(edges, from_ms, key=_time) + ref.nth - 1
        else:
            place = bisect_right(edges, from_ms, key=_time) - ref.nth
        return edges[place] if 0 <= place < len(edges) else None


class LaneNow:
    """One lane with its rows laid beside the day; each world is made once, when it is needed."""

    def __init__(
        self,
        book: LaneBook,
        shifts: Mapping[str, int | None],
        heard: Heard,
        expected: Expected,
    ) -> None:
        self._book = book
        self._shifts = shifts
        self._heard = heard
        self._parts = [
            (
                part.condition,
                place(
                    part,
                    shifts[part.course.id],
                    heard.anchors.get(part.course.id, ()),
                    heard.facts,
                    expected,
                ),
            )
            for part in book.parts
        ]
        self._cuts = [
            (dark.condition, each)
            for dark in book.darks
            if (each := dark_cut(dark, heard.facts, expected)) is not None
        ]
        self._worlds: dict[World, InWorld] = {}
        self._foreseen: dict[World, InWorld] = {}
        self._table: dict[str, int] = {}

    def world(self, world: World) -> InWorld:
        """The lane as it is in that world."""
        found = self._worlds.get(world)
        if found is None:
            found = self._worlds[world] = InWorld(self._tiles(world, self._heard.unplanned))
        return found

    def foreseen(self, world: World) -> InWorld:
        """The lane without losses and returns that are not in the plan: those shift nothing."""
        if not self._heard.unplanned:
            return self.world(world)
        found = self._foreseen.get(world)
        if found is None:
            found = self._foreseen[world] = InWorld(self._tiles(world, ()))
        return found

    def as_told(self, edge: Edge) -> Edge:
        """The edge with what the desk has said of it, and what its table alone would give."""
        if not self._heard.facts and not self._heard.unplanned and not self._heard.anchors:
            return edge
        fact = self._heard.word_on(edge.id)
        return replace(
            edge,
            observed=fact is not None and fact.observed,
            give_ms=(fact.give_ms or 0) if fact is not None else 0,
            table_ms=self._table_ms(edge.id),
        )

    def _table_ms(self, edge: str) -> int | None:
        if not self._table:
            for part in self._book.parts:
                shift_ms = self._shifts[part.course.id]
                for row in part.rows if shift_ms is not None else ():
                    self._table[row.back] = row.back_ms + (shift_ms or 0)
                    self._table[row.lost] = row.lost_ms + (shift_ms or 0)
        return self._table.get(edge)

    def _tiles(self, world: World, unplanned: Sequence[Fact]) -> list[Tile]:
        pieces: list[Tile] = []
        closed: list[Cut] = []
        for condition, placed in self._parts:
            if condition <= world:
                pieces += placed.pieces
                closed += placed.closed
        pieces.sort(key=_beginning)
        tiles = tiled(carried(pieces), sorted(closed))
        cut(tiles, sorted(each for condition, each in self._cuts if condition <= world))
        if self._heard.facts or unplanned:
            enforce(tiles, self._standing(world, unplanned))
        return settled(tiles)

    def _standing(self, world: World, unplanned: Sequence[Fact]) -> list[Fact]:
        """What the desk has said of edges of this world, and of edges no row knows, by time."""
        facts = [fact for fact in self._heard.facts.values() if fact.condition <= world]
        facts += unplanned
        return sorted(facts, key=lambda fact: (fact.time_ms, fact.number))


def _time(edge: Brink) -> int:
    return edge.time_ms


def _beginning(piece: Tile) -> tuple[int, int]:
    return piece.from_ms, -piece.to_ms
