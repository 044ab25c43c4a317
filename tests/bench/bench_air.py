"""Fitting twelve items exactly, and clear time at a tick, beside a calibrating loop.

Twelve items nobody has tied to an hour are the worst there is: all 4,096 sets of them are looked
at. Trying all orders of them would take hours, so brute force is timed on eight items of the same
day, both ways, and told as a ratio. Processor time of one core, the shortest of several runs; one
'loop' is a million additions in Python in the same run, so that machines can be compared.

    python3 tasks.py bench air
"""

import random
import sys
from collections.abc import Callable, Sequence
from itertools import permutations
from pathlib import Path
from time import process_time

sys.path.insert(0, str(Path(__file__).parents[2]))

from core.air.cutting import demand
from core.air.fitting import Fitting
from core.air.model import Day, Demand, Moment, Since
from core.air.placing import propose
from core.air.spans import first_from
from core.plan.model import Item
from core.plan.reader import read_plan
from core.session.desk import Desk
from core.session.model import Answer
from core.times.clocks import SimClock
from core.times.instants import rfc3339_to_ms

MINUTE = 60_000
FEW, MANY = 8, 12
TICKS = 200
SAMPLE = Path(__file__).parents[2] / "sample_plans" / "petrel-arrival.toml"
SAMPLE_NOW = rfc3339_to_ms("2031-05-14T18:45:00Z")


def best(work: Callable[[], object], times: int = 3) -> float:
    """The shortest of so many runs, in milliseconds of the processor."""
    shortest = float("inf")
    for _ in range(times):
        begun = process_time()
        work()
        shortest = min(shortest, process_time() - begun)
    return shortest * 1000


def loop() -> int:
    """A million additions."""
    total = 0
    for number in range(1_000_000):
        total += number
    return total


def make_day(minutes: int, break_gap: int) -> Day:
    """A day with five live moments, evenly spread, which may come twenty seconds early."""
    moments = []
    for number in range(1, 6):
        at = number * minutes * MINUTE // 6
        back = at - MINUTE
        moments.append(Moment(f"m{number}", "", at, back, at + MINUTE // 2, back - 20_000))
    return Day(
        on_ms=0,
        off_ms=minutes * MINUTE,
        item_gap_ms=20_000,
        break_gap_ms=break_gap * MINUTE,
        moments=tuple(moments),
    )


def make_items(count: int, *, breaks: bool, sponsors: str) -> list[Item]:
    """Owed items of odd lengths, every other one a break if there are to be any."""
    chance = random.Random(count)
    return [
        Item(
            id=f"i{number}",
            kind="break" if breaks and number % 2 else "tape",
            name=f"i{number}",
            length_ms=chance.randrange(90, 400) * 1000,
            turnaround_ms=20_000,
            owed=True,
            sponsor=chance.choice(sponsors) if breaks and number % 2 and sponsors else "",
            weight=chance.randint(1, 3),
        )
        for number in range(count)
    ]


def reckon(items: Sequence[Item], day: Day) -> Fitting:
    """Everything from nothing: starts cut, all sets looked at, every item asked, all placed."""
    fitting = Fitting([demand(item, day) for item in items], day.item_gap_ms, day.break_gap_ms)
    since = Since(0)
    fitting.latest_first(fitting.owed, since)
    fitting.most(since)
    for item in items:
        fitting.fits(item.id, 0, since)
    propose(fitting, 0, since)
    return fitting


def by_force(items: Sequence[Item], day: Day) -> bool:
    """Whether some order of them all fits: each tried from the first on."""
    demands = [demand(item, day) for item in items]
    return sum(_fits(order, day) for order in permutations(demands)) > 0


def _fits(order: Sequence[Demand], day: Day) -> bool:
    item_ms, break_ms, sponsor = 0, 0, ""
    for each in order:
        from_ms = max(item_ms, break_ms) if each.is_break else item_ms
        at_ms = first_from(each.starts, from_ms)
        if at_ms is None or (each.sponsor and each.sponsor == sponsor):
            return False
        item_ms = at_ms + each.length_ms + day.item_gap_ms
        if each.is_break:
            break_ms, sponsor = at_ms + each.length_ms + day.break_gap_ms, each.sponsor
    return True


KINDS = (
    ("one gap for all", {"breaks": False, "sponsors": ""}, 150, 0),
    ("breaks further apart", {"breaks": True, "sponsors": ""}, 150, 12),
    ("and two sponsors", {"breaks": True, "sponsors": "AB"}, 150, 12),
    ("where not all fit", {"breaks": True, "sponsors": ""}, 50, 12),
)


LOSING = ("break 5 at 4:46p", "hall at 6:00p", "lantern at 5:10p", "break 4 at 4:55p")
"""Places at which thirteen things are lost."""


def tick_ms(lines: Sequence[str] = ()) -> tuple[float, float]:
    """The first look at the arrival sample's programme, and a second that only passes."""
    plan = read_plan(SAMPLE)
    desk = Desk(plan, SimClock(SAMPLE_NOW, paused=True))
    for line in lines:
        if desk.enter(line, "", SAMPLE_NOW).answer is Answer.ASKS:
            desk.enter(line, "", SAMPLE_NOW, again=True)
    first = best(lambda: desk.on_air(SAMPLE_NOW), 1)

    def pass_by() -> None:
        for number in range(TICKS):
            desk.on_air(SAMPLE_NOW + number * 1000)

    return first, best(pass_by) / TICKS


def main() -> None:
    """Print the figures."""
    one_loop = best(loop)
    print(f"one loop: {one_loop:.1f} ms")
    head = f"{'twelve items':<22}{'ms':>8}{'loops':>8}{'sets':>7}"
    print(f"{head}   eight: {'ms':>6}{'by force':>10}{'ratio':>8}")
    for name, made, minutes, break_gap in KINDS:
        day = make_day(minutes, break_gap)
        many, few = (
            make_items(count, breaks=bool(made["breaks"]), sponsors=str(made["sponsors"]))
            for count in (MANY, FEW)
        )
        took = best(lambda many=many, day=day: reckon(many, day))  # type: ignore[misc]
        small = best(lambda few=few, day=day: reckon(few, day))  # type: ignore[misc]
        force = best(lambda few=few, day=day: by_force(few, day), 1)  # type: ignore[misc]
        sets = reckon(many, day).sets.looked_at
        line = f"{name:<22}{took:>8.1f}{took / one_loop:>8.2f}{sets:>7}"
        print(f"{line}          {small:>6.2f}{force:>10.1f}{force / small:>8.0f}")
    for name, lines in (("the arrival sample's programme", ()), ("with much lost", LOSING)):
        first, tick = tick_ms(lines)
        print(f"{name}: first look {first:.2f} ms, a tick {tick:.3f} ms")
        print(f"(in loops: {first / one_loop:.3f} and {tick / one_loop:.4f})")


if __name__ == "__main__":
    main()
