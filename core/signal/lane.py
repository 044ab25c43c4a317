"""One lane at one state of the day: its tiles and edges in each world, made when asked for."""

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Sequence
from functools import cached_property
from itertools import pairwise
from typing import NamedTuple

from core.plan.model import Change, EdgeRef
from core.signal.book import LaneBook, Part
from core.signal.cuts import EVER_MS, UNKNOWN, Cut
from core.signal.placing import Expected, Placed, dark_cut, place, shift_of
from core.signal.rows import Rows
from core.signal.tiles import Tile, carried, cut, enforce, settled, tiled
from core.signal.told import Anchor, Fact, Heard
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
            if _is_unknown(before) or _is_unknown(after):
                continue
            if before.contact and not after.contact:
                losses.append(Brink(after.from_ms, before.lost, before.ground, after.cause))
            elif after.contact and not before.contact:
                backs.append(Brink(after.from_ms, after.back, after.ground, before.cause))

    @property
    def named(self) -> dict[str, Brink]:
        """The edges by id, of several the first; a return before a loss."""
        both = (self.edges[Change.LOST], self.edges[Change.BACK])
        return {edge.id: edge for edges in both for edge in reversed(edges)}

    def find(self, ref: EdgeRef, from_ms: int | None) -> Brink | None:
        """The edge that a reference means that names none, counted from an instant."""
        edges = self.edges[ref.change]
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
    """One lane with its rows laid beside the day, all of it made when it is needed.

    `expected` gives the times it hangs on as they were when it was asked for, `bounds` when those
    of its bounds and blackouts are heard.
    """

    def __init__(
        self,
        book: LaneBook,
        heard: Heard,
        expected: Expected,
        bounds: Expected,
        planned: Expected,
    ) -> None:
        self._book = book
        self._heard = heard
        self._expected = expected
        self._bounds = bounds
        self._planned = planned
        self._worlds: dict[World, InWorld] = {}
        self._foreseen: dict[World, InWorld] = {}
        self._table: dict[str, int] = {}

    @cached_property
    def _rows(self) -> tuple[Rows, ...]:
        book, heard, expected = self._book, self._heard, self._expected
        return tuple(rows_of(book, part, heard, expected) for part in book.parts)

    @cached_property
    def _shifts(self) -> dict[str, int | None]:
        courses = (part.course for part in self._book.parts)
        return {each.id: shift_of(each, self._expected, self._planned) for each in courses}

    @cached_property
    def _parts(self) -> list[tuple[World, Placed]]:
        return [
            (part.condition, self._placed(part, rows))
            for part, rows in zip(self._book.parts, self._rows, strict=True)
        ]

    def _placed(self, part: Part, rows: Rows) -> Placed:
        course, heard = part.course.id, self._heard
        anchors = _anchors(self._book.lane, part, rows, heard.anchors.get(course, ()))
        return place(part, rows, self._shifts[course], anchors, heard.facts, self._bounds)

    @cached_property
    def _cuts(self) -> list[tuple[World, Cut]]:
        return [
            (dark.condition, each)
            for dark in self._book.darks
            if (each := dark_cut(dark, self._heard.facts, self._bounds)) is not None
        ]

    @cached_property
    def _gives(self) -> dict[str, int]:
        return {
            name: give_ms
            for rows in self._rows
            for row in rows.rows
            for name, give_ms in ((row.back, row.back_give_ms), (row.lost, row.lost_give_ms))
        }

    @cached_property
    def named(self) -> dict[str, Brink]:
        """The edges by id, as they are in the first world that has them."""
        found: dict[str, Brink] = {}
        for world in reversed(self._heard.worlds):
            found |= self.world(world).named
        return found

    def world(self, world: World) -> InWorld:
        """The lane as it is in that world."""
        found = self._worlds.get(world)
        if found is None:
            found = self._worlds[world] = InWorld(self._tiles(world))
        return found

    def foreseen(self, world: World) -> InWorld:
        """The lane without losses and returns that are not in the plan: those shift nothing."""
        found = self._foreseen.get(world)
        if found is None:
            same = all(fact.planned for fact in self._standing(world))
            found = self.world(world) if same else InWorld(self._tiles(world, foreseen=True))
            self._foreseen[world] = found
        return found

    def told(self, edge: Brink) -> tuple[int, int | None, bool]:
        """An edge's give, the time that its course alone would give it, and if it was observed."""
        give_ms = self.give_ms(edge.id)
        if not self._heard.facts and not self._heard.unplanned and not self._heard.anchors:
            return give_ms, edge.time_ms, False
        fact = self._heard.word_on(edge.id)
        return give_ms, self._table_ms(edge.id), fact is not None and fact.observed

    def give_ms(self, edge: str) -> int:
        """How uncertain an edge is: as the desk has said, else as it was computed."""
        fact = self._heard.word_on(edge)
        if fact is not None and (fact.observed or fact.give_ms is not None):
            return fact.give_ms or 0
        return self._gives.get(edge, 0)

    def computed(self, edge: str) -> tuple[int, int] | None:
        """When the edge's course alone would have it, and its give; None where no row does."""
        at_ms = self._table_ms(edge)
        return None if at_ms is None else (at_ms, self._gives.get(edge, 0))

    def _table_ms(self, edge: str) -> int | None:
        if not self._table:
            for part, rows in zip(self._book.parts, self._rows, strict=True):
                shift_ms = self._shifts[part.course.id]
                for row in rows.rows if shift_ms is not None else ():
                    self._table |= {name: ms + (shift_ms or 0) for name, ms in row.ends()}
        return self._table.get(edge)

    def _tiles(self, world: World, *, foreseen: bool = False) -> list[Tile]:
        here = [placed for condition, placed in self._parts if condition <= world]
        pieces = sorted((tile for placed in here for tile in placed.pieces), key=_beginning)
        closed = [cut for placed in here for cut in placed.closed] + _unknown(here)
        tiles = tiled(carried(pieces), sorted(closed))
        cut(tiles, sorted(each for condition, each in self._cuts if condition <= world))
        facts = self._standing(world)
        if facts:
            due = {edge: due_ms for placed in here for edge, due_ms in placed.due.items()}
            enforce(tiles, [fact for fact in facts if fact.planned or not foreseen], due)
        return settled(tiles)

    def _standing(self, world: World) -> list[Fact]:
        """What the desk has said of edges, also of such as no row of this world knows, by time."""
        told = (fact.in_world(world) for fact in self._heard.facts.values())
        facts = [fact for fact in told if fact is not None]
        facts += self._heard.unplanned
        return sorted(facts, key=lambda fact: (fact.time_ms, fact.number))


def rows_of(book: LaneBook, part: Part, heard: Heard, expected: Expected) -> Rows:
    """The rows of a part at those times; of those after its course's end only what may matter.

    They do where the desk has told of one of them, or has moved what follows an edge.
    """
    rows = part.now(expected, whole=False)
    course = part.course.id
    if not part.is_ended:
        return rows
    told = {
        edge
        for edge, fact in heard.facts.items()
        if book.courses.get(edge) == course and fact.condition <= part.condition
    }
    if told:
        told.difference_update(edge for row in rows.rows for edge in row.edges())
    return part.now(expected) if told or course in heard.anchors else rows


def _anchors(lane: str, part: Part, rows: Rows, told: tuple[Anchor, ...]) -> tuple[Anchor, ...]:
    """From where on rows are moved; for computed ones from where their edge lies by now."""
    if part.working is None or not told:
        return told
    now_ms = {name: ms for row in rows.rows for name, ms in row.ends()}
    here = [(now_ms.get(each.on(lane, part.course.id)), each) for each in told]
    return tuple(
        sorted(
            each._replace(printed_ms=at_ms, shift_ms=each.time_ms - at_ms)
            for at_ms, each in here
            if at_ms is not None
        )
    )


def _unknown(placed: Iterable[Placed]) -> list[Cut]:
    """The time of which no course says anything; a lane without courses is known to be silent."""
    extents = sorted((each.from_ms, each.to_ms) for each in placed)
    if not extents:
        return []
    found: list[Cut] = []
    known_ms = -EVER_MS
    for from_ms, to_ms in [*extents, (EVER_MS, EVER_MS)]:
        if from_ms > known_ms:
            found.append(Cut(known_ms, from_ms, UNKNOWN))
        known_ms = max(known_ms, to_ms)
    return found


def _is_unknown(tile: Tile) -> bool:
    return not tile.contact and tile.cause == UNKNOWN


def _time(edge: Brink) -> int:
    return edge.time_ms


def _beginning(piece: Tile) -> tuple[int, int]:
    return piece.from_ms, -piece.to_ms
