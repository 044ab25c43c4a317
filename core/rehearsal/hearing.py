"""What of a rehearsal's flight is heard on the ground: its real losses and returns, and when."""

from collections.abc import Iterator, Sequence

from core.board.scene import DISTANT_MS
from core.plan.model import Change, Plan
from core.session.desk import Desk
from core.signal.model import Edge
from core.signal.tables import Tables


class Ears:
    """The signal of a flight as its desk has it. Returns that never come are told to it."""

    def __init__(self, desk: Desk, plan: Plan) -> None:
        self._desk = desk
        self._plan = plan
        self._silent: list[tuple[str, int]] = []

    def never(self, edge: Edge) -> None:
        """Nobody hears that return."""
        self._silent.append((edge.lane, edge.time_ms))

    def edges(self) -> Iterator[Edge]:
        """Every loss and return there really is, in no order between lanes."""
        for lane in self._desk.signal():
            for edge in lane.edges:
                if not self.silenced(edge.id):
                    yield edge

    def hears(self, lane: str, from_ms: int, to_ms: int) -> bool:
        """Whether the lane is in contact from one instant to another, without a break."""
        edges = [each for each in self.edges() if each.lane == lane]
        before = [each for each in edges if each.time_ms <= from_ms]
        if any(from_ms < each.time_ms <= to_ms for each in edges):
            return False
        if before:
            return before[-1].change is Change.BACK
        return bool(edges) and edges[0].change is Change.LOST

    def silenced(self, edge_id: str) -> bool:
        """Whether nobody notices that edge: a return that never comes, and the loss after it."""
        for lane, back_ms in self._silent:
            edges = next(each.edges for each in self._desk.signal() if each.lane == lane)
            later = [each for each in edges if each.time_ms >= back_ms]
            if edge_id in {each.id for each in later[:2]}:
                return True
        return False

    def next_edge(self, lane: str, change: Change, at_ms: int) -> Edge | None:
        """The first such edge at or after an instant."""
        of_lane = (each for each in self.edges() if each.lane == lane and each.change is change)
        return next((each for each in of_lane if each.time_ms >= at_ms), None)

    def has_room(self, edge_id: str, at_ms: int) -> bool:
        """Whether the edge can be then: after the one before it on its lane, before the next."""
        for lane in self._desk.signal():
            ids = [each.id for each in lane.edges]
            if edge_id in ids:
                place = ids.index(edge_id)
                before, after = lane.edges[:place][-1:], lane.edges[place + 1 :][:1]
                late = all(each.time_ms < at_ms for each in before)
                return late and all(at_ms < each.time_ms for each in after)
        return True

    def standing_for(self, edge: Edge) -> Sequence[str]:
        """The events of the plan that stand for that edge."""
        events = (event.id for event in self._plan.events)
        return [event for event in events if self._desk.schedule.edge(event) == edge.id]

    def delay_ms(self, lane: str) -> int:
        """How late the lane comes to the studio."""
        return next((each.delay_ms for each in self._plan.lanes if each.id == lane), 0)

    def heard_ms(self, at_ms: int, *, at_craft: bool) -> int | None:
        """When the desk knows of something: at the next contact, if it is at the craft."""
        if not at_craft or not self._plan.lanes:
            return at_ms
        at_ms += self._way_ms(at_ms)
        lane = self._plan.lanes[0]
        signal = next((each for each in self._desk.signal() if each.lane == lane.id), None)
        if signal is None or not signal.contacts:
            return at_ms
        if self.hears(lane.id, at_ms, at_ms):
            return at_ms
        edges = [each for each in self.edges() if each.lane == lane.id]
        back = next((e for e in edges if e.time_ms > at_ms and e.change is Change.BACK), None)
        return None if back is None else back.time_ms + lane.first_words_ms

    def _way_ms(self, at_ms: int) -> int:
        edges = self._desk.schedule.edges
        if not self._plan.light_time or not isinstance(edges, Tables):
            return 0
        light = edges.light(self._desk.schedule.expected_ms, at_ms)
        return light.way_ms if light is not None and light.way_ms >= DISTANT_MS else 0
