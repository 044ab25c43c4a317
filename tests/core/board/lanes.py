"""A lane's signal as it is given, for tests that need no tables."""

from core.signal.model import Contact, Edge, Gap, HandOver, LaneSignal, Stretch


class Given:
    """What is known of the lane."""

    def __init__(self, contacts: tuple[Contact, ...], stretches: tuple[Stretch, ...]) -> None:
        self._contacts = contacts
        self._stretches = stretches

    def contacts(self) -> tuple[Contact, ...]:
        return self._contacts

    def gaps(self) -> tuple[Gap, ...]:
        return ()

    def edges(self) -> tuple[Edge, ...]:
        return ()

    def hand_overs(self) -> tuple[HandOver, ...]:
        return ()

    def stretches(self) -> tuple[Stretch, ...]:
        return self._stretches


def lane_signal(
    lane: str, contacts: tuple[Contact, ...], stretches: tuple[Stretch, ...]
) -> LaneSignal:
    return LaneSignal(lane, Given(contacts, stretches))
