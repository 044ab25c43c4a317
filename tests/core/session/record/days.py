"""Days at the desk, typed line by line, and their records."""

from pathlib import Path

from core.plan.model import Plan
from core.plan.reader import read_plan_text
from core.session.desk import Desk
from core.session.model import Answer
from core.session.record.making import Source, record_of
from core.session.record.model import DayRecord, EdgeRow, EventRow, ItemRow
from core.session.store import MemoryStore
from core.times.clocks import RealClock, SimClock
from core.times.writing import Hours
from core.times.zones import typed_to_ms
from tests.fakes import HandMachine

ZONE = "America/Halifax"
PLAN = """
limbwatch = 1
title = "Petrel 4"
subtitle = "arrival"
zones = ["America/Halifax"]
sources = ["flight", "agency"]

[[event]]
id = "ignition"
name = "Ignition"
at = 2031-05-14T17:00:00
give = "20s"
live = true

[[event]]
id = "cutoff"
name = "Cutoff"
after = "ignition"
offset = "6m"

[[event]]
id = "burned-back"
name = "Signal back, after the burn"
after = "cutoff"
offset = "10m"
only_if = "burned"

[[event]]
id = "quiet-back"
name = "Signal back, if no burn"
after = "ignition"
offset = "5m"
only_if = "no-burn"

[[event]]
id = "school"
name = "School call"
at = 2031-05-14T18:00:00

[[outcome]]
id = "burned"
of = "ignition"
name = "after the burn"
[[outcome]]
id = "no-burn"
of = "ignition"
name = "if no burn"

[[ground]]
id = "tarn"
name = "Tarn Hill"
lanes = ["voice"]

[lane.voice]
name = "VOICE"

[[course]]
id = "passes"
kind = "passes"
gap = "behind the Moon"
rows = [
  { lane = "voice", ground = "tarn", back = 2031-05-14T16:00:00, lost = 2031-05-14T16:50:00 },
  { lane = "voice", ground = "tarn", back = 2031-05-14T17:20:00, lost = 2031-05-14T19:00:00 },
]

[air]
on = 2031-05-14T16:00:00
off = 2031-05-14T18:30:00

[[item]]
id = "break-1"
kind = "break"
name = "Break 1"
length = "2m"
owed = true
sponsor = "A"

[[item]]
id = "break-2"
kind = "break"
name = "Break 2"
length = "90s"
owed = true
sponsor = "B"

[[item]]
id = "tape"
kind = "tape"
name = "Tape, the crew"
length = "3m"

[[checkoff]]
id = "clamps"
name = "Clamps released"
of = "ignition"
count = 8
enough = 4
"""


def at(clock: str) -> int:
    """A clock time of the day, in the desk's zone."""
    return typed_to_ms(f"2031-05-14T{clock}", ZONE)


def plan(text: str = PLAN) -> Plan:
    return read_plan_text(text, "petrel.toml", Path("plans"))


class Day:
    """A desk on a clock turned by hand; `type` is what the producer enters at a clock time."""

    def __init__(self, *, rehearsal: bool = False, text: str = PLAN) -> None:
        self.plan = plan(text)
        self.machine = HandMachine.at(at("16:30:00"))
        self.store = MemoryStore()
        clock: RealClock | SimClock = self.machine.real_clock()
        if rehearsal:
            clock = SimClock(at("16:30:00"), paused=True)
        self.clock = clock
        self.rehearsal = rehearsal
        self.desk = Desk(self.plan, clock, self.store)

    def type(self, clock: str, line: str) -> int:
        """Enter a line, with a second Enter where it asks; gives the entry's number."""
        now_ms = at(clock)
        taken = self.desk.enter(line, "", now_ms)
        if taken.answer is Answer.ASKS:
            taken = self.desk.enter(line, "", now_ms, again=True)
        assert taken.answer is Answer.DONE, (line, taken)
        assert taken.number is not None
        return taken.number

    def record(self, until: str = "18:10:00", hours: Hours = Hours.TWENTY_FOUR) -> DayRecord:
        source = Source(self.plan, self.store.entries, "a-day", self.rehearsal, end_ms=at(until))
        return record_of(source, hours=hours)


def event(record: DayRecord, name: str) -> EventRow:
    return next(row for row in record.events if row.id == name)


def item(record: DayRecord, name: str) -> ItemRow:
    return next(row for row in record.items if row.id == name)


def edge(record: DayRecord, clock: str) -> EdgeRow:
    """The edge that was computed for that clock time."""
    return next(row for row in record.edges if row.computed_ms == at(clock))


def long_day(*, rehearsal: bool = False) -> Day:
    """A day with something of everything."""
    day = Day(rehearsal=rehearsal)
    day.type("16:31:00", "sign in KM")
    day.type("16:32:00", "note line to the hall is noisy")
    day.type("16:35:00", "ignition +45s per flight")
    day.type("16:36:00", "said")
    day.type("16:40:00", "ignition +30s per flight")
    day.type("16:50:20", "voice lost 16:50:12")
    day.type("16:52:00", "break 1 now")
    day.type("16:54:20", "break 1 over")
    day.type("16:55:00", "break 2 off")
    day.type("17:01:20", "ignition happened 17:01:16 per agency")
    day.type("17:02:00", "clamps 6")
    day.type("17:17:00", "voice back 17:19:20")
    day.type("17:20:00", "burned per flight")
    number = day.type("17:30:00", "school +20m per agency")
    day.desk.take_back(number, at("17:31:00"))
    return day
