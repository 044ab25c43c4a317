"""A small programme on a small flight, for tests of what the board says of the air.

The craft is lost at 4:50 p.m. on voice and at 4:48 on the picture; the loss is a live moment with
a guard of three minutes, and the burn at five one of a minute. The network joins at 5:30.
"""

from pathlib import Path

from tests.core.board.boards import FLIGHT, Seat, seat

PROGRAMME = """
[air]
on = 2031-05-14T15:30:00
off = 2031-05-14T19:00:00
item_gap = "20s"
break_gap = "12m"

[[junction]]
at = 2031-05-14T17:30:00
name = "Network joins"

[[item]]
id = "break-3"
kind = "break"
name = "Break 3"
length = "2m 10s"
turnaround = "30s"
owed = true
sponsor = "A"
earliest = 2031-05-14T16:30:00
latest = 2031-05-14T17:00:00

[[item]]
id = "break-4"
kind = "break"
name = "Break 4"
length = "2m"
turnaround = "30s"
owed = true
can_cut = false
sponsor = "B"
earliest = 2031-05-14T17:00:00
latest = 2031-05-14T18:30:00

[[item]]
id = "hall"
kind = "remote"
name = "Remote, the hall"
length = "4m"
turnaround = "20s"
needs = "voice"

[[item]]
id = "stop"
kind = "tape"
name = "Tape, how they stop"
length = "5m 40s"
prefers = "gap"
"""


def on_the_air(folder: Path, clock: str = "16:41:12", more: str = "", flight: str = FLIGHT) -> Seat:
    """A desk with that programme, and more of it where given."""
    return seat(folder, clock, flight + PROGRAMME + more)


def row(taken: Seat, item: str) -> str:
    """What the panel of clear time says of an item."""
    assert taken.view.clear is not None
    return next(each.words.text for each in taken.view.clear.rows if each.item == item)


def owed(taken: Seat) -> list[str]:
    """What the panel says is owed."""
    assert taken.view.clear is not None
    return [said.text for said in taken.view.clear.owed]


def broken(taken: Seat) -> list[tuple[str, ...]]:
    """What is lost as things stand, with the ways out."""
    return [(each.words, *each.ways) for each in taken.desk.on_air(taken.now_ms).broken]
