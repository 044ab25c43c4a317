from dataclasses import dataclass

from core.board.onair import day
from core.signal.model import Contact, Edge, Fill, Gap, HandOver, LaneSignal, Stretch


@dataclass(frozen=True)
class Known:
    """A lane of which only the stretches are known."""

    all: tuple[Stretch, ...]

    def contacts(self) -> tuple[Contact, ...]:
        return ()

    def gaps(self) -> tuple[Gap, ...]:
        return ()

    def edges(self) -> tuple[Edge, ...]:
        return ()

    def hand_overs(self) -> tuple[HandOver, ...]:
        return ()

    def stretches(self) -> tuple[Stretch, ...]:
        return self.all


def lane(*fills: tuple[Fill, str]) -> LaneSignal:
    """A lane of stretches ten long, the first and the last without end."""
    last = len(fills) - 1
    stretches = tuple(
        Stretch(
            "voice",
            None if n == 0 else n * 10,
            None if n == last else n * 10 + 10,
            fill,
            cause=cause,
        )
        for n, (fill, cause) in enumerate(fills)
    )
    return LaneSignal("voice", Known(stretches))


def test_only_contact_that_is_sure_and_open_is_contact() -> None:
    fills = [Fill.GAP, Fill.CONTACT, Fill.CONTACT, Fill.EITHER, Fill.CONTACT, Fill.CLOSED, Fill.GAP]
    assert day._contact(lane(*((fill, "") for fill in fills))) == ((10, 30), (40, 50))


def test_a_stretch_of_which_nobody_knows_is_no_gap() -> None:
    moon, unknown = (Fill.GAP, "behind the Moon"), (Fill.GAP, "not computed")
    both = lane((Fill.CONTACT, ""), moon, (Fill.CONTACT, ""), unknown, (Fill.CONTACT, ""))
    assert day._quiet(both) == ((10, 20),)
