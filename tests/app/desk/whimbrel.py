"""A small plan for tests of the window: a burn out of contact, and two ways it may turn out."""

from datetime import datetime
from zoneinfo import ZoneInfo

PLAN = """
limbwatch = 1
title = "Whimbrel 2"
zones = ["America/Halifax", "America/Chicago"]
elapsed_from = "liftoff"
sources = ["flight", "desk"]

[[event]]
id = "liftoff"
name = "Liftoff"
at = 2031-05-11T13:28:00
happened = 2031-05-11T13:28:00

[[event]]
id = "go"
name = "Go for the burn"
at = 2031-05-14T16:50:00

[[event]]
id = "ignition"
name = "Insertion burn, ignition"
after = "go"
offset = "8m"
least = "2m"
live = true
guard = "60s"
at_craft = true

[[event]]
id = "cutoff"
name = "Insertion burn, cutoff"
after = "ignition"
offset = "6m"
fixed = true
at_craft = true

[[event]]
id = "photo"
name = "First picture from orbit"
after = "cutoff"
offset = "20m"
least = "15m"

[[event]]
id = "school"
name = "School call"
at = 2031-05-14T18:05:00
after = { event = "photo", offset = "20m", least = "10m" }
pinned = true

[[event]]
id = "return-none"
name = "Signal back, if no burn"
edge = { lane = "voice", change = "back", after = "go" }
only_if = "no-burn"

[[event]]
id = "return"
name = "Signal back, after the burn"
edge = { lane = "voice", change = "back", after = "ignition" }
only_if = "burned"

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
lanes = ["voice", "picture"]

[[course]]
id = "way-in"
kind = "passes"
gap = "behind the Moon"
rows = [
  { lane = "voice", ground = "tarn", back = "2031-05-14T12:00:00", lost = "2031-05-14T16:52:00" },
  { lane = "picture", ground = "tarn", back = "2031-05-14T12:00:00", lost = "2031-05-14T16:51:00" },
]

[[course]]
id = "past"
kind = "passes"
only_if = "no-burn"
gap = "behind the Moon"
rows = [
  { lane = "voice", ground = "tarn", back = "2031-05-14T17:12:00", lost = "2031-05-14T23:00:00" },
]

[[course]]
id = "round"
kind = "passes"
follows = "ignition"
only_if = "burned"
gap = "behind the Moon"
rows = [
  { lane = "voice", ground = "tarn", back = "2031-05-14T17:22:00", lost = "2031-05-14T18:34:00" },
  { lane = "picture", ground = "tarn", back = "2031-05-14T17:23:00", lost = "2031-05-14T18:30:00" },
]
"""

HALIFAX = ZoneInfo("America/Halifax")
SECOND_MS = 1000
MINUTE_MS = 60_000


def at(clock: str, day: int = 14) -> int:
    """An instant of the plan's May, by its clock time in Halifax."""
    written = f"2031-05-{day:02d}T{clock}"
    return round(datetime.fromisoformat(written).replace(tzinfo=HALIFAX).timestamp() * 1000)


NOW_MS = at("16:40:00")
