"""A small flight for tests of the board and the desk, and a desk on it with a clock set by hand.

The flight is invented: it goes behind the Moon at 4:50 p.m., burns at five, and comes back at
5:12:30 if there was no burn, at 5:22:50 after one.
"""

from dataclasses import dataclass
from pathlib import Path

from core.board.model import Card, Figure, Preview, View
from core.plan.model import Plan
from core.plan.reader import read_plan
from core.session.desk import Desk
from core.session.model import Answer, Taken
from core.times.clocks import RealClock, SimClock
from core.times.writing import Hours
from core.times.zones import instant_to_ms
from tests.fakes import HandMachine

ZONE = "America/Halifax"
DAY = "2031-05-14"

FLIGHT = """
limbwatch = 1
title = "Whimbrel 2"
subtitle = "round the Moon"
zones = ["America/Halifax", "America/Chicago"]
elapsed_from = "liftoff"
auto_edges = ["voice"]
sources = ["flight", "pool", "desk"]

[[event]]
id = "liftoff"
name = "Liftoff"
at = 2031-05-11T13:28:00
happened = 2031-05-11T13:28:30.400

[[event]]
id = "go"
name = "Go for the burn"
at = 2031-05-14T16:40:00

[[event]]
id = "loss"
name = "Loss of signal"
edge = { lane = "voice", change = "lost", before = "ignition" }
live = true
guard = "3m"

[[event]]
id = "ignition"
name = "Burn, ignition"
after = "go"
offset = "20m"
least = "5m"
give = "20s"
live = true
guard = "60s"
at_craft = true

[[event]]
id = "cutoff"
name = "Burn, cutoff"
after = "ignition"
offset = "6m"
fixed = true
at_craft = true

[[outcome]]
id = "burned"
of = "ignition"
name = "after the burn"

[[outcome]]
id = "no-burn"
of = "ignition"
name = "if no burn"

[[event]]
id = "return-none"
name = "Signal back, if no burn"
edge = { lane = "voice", change = "back", after = "loss" }
only_if = "no-burn"
live = true
guard = "60s"

[[event]]
id = "return"
name = "Signal back, after the burn"
edge = { lane = "voice", change = "back", after = "ignition" }
only_if = "burned"
live = true
guard = "2m"

[[event]]
id = "checks"
name = "Cabin checks done"
after = "return"
offset = "5m 30s"
least = "3m"
give = "60s"

[[event]]
id = "school"
name = "School call"
at = 2031-05-14T18:00:00
pinned = true
live = true
guard = "2m"

[[event]]
id = "rehearsed"
name = "School call rehearsed"
after = "checks"
offset = "10m"
least = "4m"

[[limit]]
from = "rehearsed"
to = "school"
least = "2m"

[[event]]
id = "supper"
name = "Supper"
after = "school"
offset = "20m"

[[event]]
id = "sleep"
name = "Crew to sleep"
at = 2031-05-14T23:30:00
window = ["2031-05-14T23:00:00", "2031-05-15T01:00:00"]

[lane.voice]
name = "VOICE"
first_words = "40s"

[lane.picture]
name = "PICTURE"

[[ground]]
id = "tarn"
name = "Tarn Hill"
lanes = ["voice", "picture"]

[[ground]]
id = "kestrel"
name = "Kestrel Bay"
lanes = ["voice", "picture"]

[[course]]
id = "approach"
kind = "passes"
gap = "behind the Moon"
rows = [
  { lane = "voice", ground = "tarn", back = 2031-05-14T12:00:00, lost = 2031-05-14T16:20:00 },
  { lane = "voice", ground = "kestrel", back = 2031-05-14T16:15:00, lost = 2031-05-14T16:50:00 },
  { lane = "picture", ground = "kestrel", back = 2031-05-14T12:00:00, lost = 2031-05-14T16:48:00 },
]

[[course]]
id = "past"
kind = "passes"
only_if = "no-burn"
gap = "behind the Moon"
rows = [
  { lane = "voice", ground = "tarn", back = 2031-05-14T17:12:30, lost = 2031-05-15T09:00:00 },
]

[[course]]
id = "orbit"
kind = "passes"
follows = "ignition"
only_if = "burned"
gap = "behind the Moon"
rows = [
  { lane = "voice", ground = "tarn", back = 2031-05-14T17:22:50, lost = 2031-05-14T18:36:10 },
  { lane = "voice", ground = "tarn", back = 2031-05-14T19:25:40, lost = 2031-05-14T20:39:00 },
  { lane = "picture", ground = "tarn", back = 2031-05-14T17:28:00, lost = 2031-05-14T18:30:00 },
]
"""


def at_ms(clock: str, day: str = DAY) -> int:
    """'16:40' or '16:40:05' at the desk's clock."""
    whole = clock if clock.count(":") == 2 else f"{clock}:00"
    return instant_to_ms(f"{day}T{whole}", ZONE)


def plan_of(folder: Path, text: str = FLIGHT) -> Plan:
    """The plan as read from a file."""
    path = folder / "plan.toml"
    path.write_text(text, encoding="utf-8")
    return read_plan(path)


@dataclass
class Seat:
    """A desk and what its clock shows. Lines are entered at the moment the clock shows."""

    desk: Desk
    clock: SimClock | RealClock

    @property
    def now_ms(self) -> int:
        return self.clock.now_ms()

    @property
    def view(self) -> View:
        return self.desk.view(self.now_ms)

    def go_to(self, clock: str) -> None:
        assert isinstance(self.clock, SimClock)
        self.clock.jump(at_ms(clock))

    def card(self, event: str) -> Card:
        return next(card for card in self.view.cards if card.id == event)

    def has(self, event: str) -> bool:
        return any(card.id == event for card in self.view.cards)

    def preview(self, text: str, selected: str = "") -> Preview:
        return self.desk.preview(text, selected, self.now_ms)

    def lines(self, text: str) -> list[str]:
        return [said.text for said in self.preview(text).lines]

    def enter(self, text: str, selected: str = "", *, again: bool = False) -> Taken:
        return self.desk.enter(text, selected, self.now_ms, again=again)

    def take(self, text: str, selected: str = "") -> Taken:
        """Enter a line, twice where it asks for that."""
        taken = self.enter(text, selected)
        if taken.answer is Answer.ASKS:
            taken = self.enter(text, selected, again=True)
        assert taken.answer is Answer.DONE, taken
        return taken


def seat(folder: Path, clock: str = "16:41:12", text: str = FLIGHT) -> Seat:
    """A desk on a simulated clock that stands until it is told to move."""
    sim = HandMachine.at(0).sim_clock(at_ms(clock))
    return Seat(Desk(plan_of(folder, text), sim), sim)


def seat_on(plan: Plan, now_ms: int, hours: Hours = Hours.TWELVE) -> Seat:
    """The same for a plan that was read already."""
    sim = HandMachine.at(0).sim_clock(now_ms)
    return Seat(Desk(plan, sim, hours=hours), sim)


def shown(figure: Figure | None) -> str:
    """A figure as one reads it: '16 min 08 s', '≈ 12 min', '+ 3 s'."""
    if figure is None:
        return ""
    words = " ".join(f"{digits} {unit}" for digits, unit in figure.parts)
    return f"{'+ ' if figure.past else ''}{'≈ ' if figure.about else ''}{words}"
