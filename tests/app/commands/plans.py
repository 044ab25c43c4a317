"""Small plans for the commands, and a way to run one of them."""

import json
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

HEAD = 'limbwatch = 1\ntitle = "Petrel 4"\nsubtitle = "a trial"\nzones = ["UTC"]\n'

SQUEEZED = (
    HEAD
    + """
[[event]]
id = "turn"
name = "Turn"
at = 2031-05-14T10:00:00
[[event]]
id = "mate"
name = "Mating"
after = "turn"
offset = "10m"
least = "5m"
[[event]]
id = "door"
name = "Door opens"
after = "mate"
offset = "10m"
least = "5m"
give = "20s"
[[event]]
id = "call"
name = "School call"
at = 2031-05-14T10:30:00
pinned = true
after = "door"
offset = "10m"
least = "5m"
"""
)
"""A chain with five minutes' room in each gap before a pin."""

LOST_AND_FOUND = (
    HEAD
    + """
auto_edges = ["voice"]
[lane.voice]
name = "VOICE"
[lane.picture]
name = "PICTURE"
[[ground]]
id = "tarn"
name = "Tarn Hill"
lanes = ["voice", "picture"]
[[ground]]
id = "kestrel"
name = "Kestrel Bay"
lanes = ["voice"]
[[event]]
id = "ignition"
name = "Ignition"
at = 2031-05-14T10:00:00
[[event]]
id = "return"
name = "Signal back"
edge = { lane = "voice", change = "back", after = "ignition" }
give = "20s"
[[event]]
id = "checks"
name = "Checks done"
after = "return"
offset = "5m"
[[course]]
id = "turn"
kind = "passes"
follows = "ignition"
times = "offset"
gap = "behind the Moon"
rows = [
  { lane = "voice", ground = "tarn", back = "-30m", lost = "-10m" },
  { lane = "voice", ground = "tarn", back = "20m", lost = "50m" },
  { lane = "voice", ground = "kestrel", back = "45m", lost = "1h 30m" },
  { lane = "picture", ground = "tarn", back = "21m", lost = "40m" },
]
"""
)
"""A loss, a return, and a hand-over, all following the ignition."""


@dataclass(frozen=True)
class Answer:
    """What a command gave."""

    status: int
    out: str
    err: str

    @property
    def told(self) -> Any:
        """The JSON it printed."""
        return json.loads(self.out)

    def event(self, name: str) -> Any:
        """One event of the JSON."""
        return next(event for event in self.told["events"] if event["id"] == name)

    def line(self, beginning: str) -> str:
        """The one line of the text that begins so, its spaces single."""
        found = [line for line in self.out.splitlines() if line.startswith(beginning)]
        assert len(found) == 1, found
        return " ".join(found[0].split())


Run = Callable[..., Answer]
"""Runs a command on a plan's text: run('times', SQUEEZED, 'turn +5m', '--json')."""
