"""Drawn days by the thousand: how many run in how long, and every check that did not hold.

On the small flight of the tests, the arrival, the first steps and the low orbit, for the perfect,
the slow and the careless desk; the severity goes round. Each look is checked, and every so many the
whole board against one built anew. Processor time of one core; what a look costs with all that is
typed and checked around it stands beside what it costs to build the board anew, in the same run.
What fails is told with the number that draws it, and that number alone runs it again.

    python3 tasks.py bench days
    .venv/bin/python tests/bench/bench_days.py 10000 0            # so many, from that number on
    .venv/bin/python tests/bench/bench_days.py 1 4711             # that one again
    .venv/bin/python tests/bench/bench_days.py 10000 0 2 days.jsonl   # two at once, a line a day
    .venv/bin/python tests/bench/bench_days.py 10000 0 seldom   # quiet hours looked at less
"""

import json
import sys
from collections import Counter
from collections.abc import Iterator
from concurrent.futures import Future, ProcessPoolExecutor
from dataclasses import asdict, dataclass, field
from functools import cache
from itertools import chain, islice
from multiprocessing import get_context
from pathlib import Path
from time import perf_counter, process_time
from traceback import format_exception

sys.path.insert(0, str(Path(__file__).parents[2]))

from app.skies import skies_for
from core.plan.model import Plan
from core.plan.reader import read_plan
from core.rehearsal.drawing import drawn_day
from core.rehearsal.driver import STRIDE_MS, Run
from core.rehearsal.frame import Frame, frame_of
from core.rehearsal.habits import DESKS, Hand
from core.rehearsal.score import score_of
from core.rehearsal.watching import EVERY, as_from_scratch, seldom
from core.session.ground import SkiesFor
from core.signal.computing import Skies
from tests.core.rehearsal.aloud_check import heard_aloud
from tests.core.rehearsal.days import ROOT, draws, first_steps, small

DAYS = 60
PLANS = (
    *("small", "petrel-arrival", "first-steps"),
    *("small", "petrel-arrival", "petrel-low-orbit", "first-steps"),
)
SEVERITIES = 5
SELDOM_MS = 600_000
SCRATCH_LOOKS = 60
"""So many looks from one board built anew to the next."""
AHEAD = 20
"""So many days are handed out for each process before the first has come back."""


@dataclass(frozen=True, slots=True)
class Done:
    """One day that ran, or broke off: then `broke` says how."""

    number: int
    plan: str
    desk: str
    severity: int
    stride_ms: int = STRIDE_MS
    looks: int = 0
    took_s: float = 0.0
    anew_s: float = 0.0
    lasts_s: float = 0.0
    lost: int = 0
    avoidable: tuple[str, ...] = ()
    troubles: tuple[str, ...] = ()
    checks: tuple[str, ...] = ()
    broke: str = ""

    @property
    def is_well(self) -> bool:
        """Whether nothing failed in it."""
        return not (self.avoidable or self.troubles or self.broke)


@cache
def known(name: str) -> tuple[Plan, Frame]:
    """A plan, and within what its days are drawn."""
    if name == "first-steps":
        return first_steps()
    plan = small() if name == "small" else read_plan(ROOT / "sample_plans" / f"{name}.toml")
    return plan, frame_of(plan, skies_of(name))


def skies_of(name: str) -> SkiesFor:
    """Who computes that plan's courses."""
    return lambda plan: one_sky(name, plan)


@cache
def one_sky(_name: str, plan: Plan) -> Skies | None:
    """The same for every day on that plan: what was asked once is known from then on."""
    return skies_for(plan)


def kind(number: int) -> Done:
    """What day that number draws: desk, severity and plan go round."""
    desks = list(DESKS)
    rest, desk = divmod(number, len(desks))
    rest, severity = divmod(rest, SEVERITIES)
    return Done(number, PLANS[rest % len(PLANS)], desks[desk], 1 + severity)


def run(number: int, stride_ms: int = STRIDE_MS) -> Done:
    """The day of that number, with every look checked."""
    begun = process_time()
    day = kind(number)
    plan, frame = known(day.plan)
    drawn = drawn_day(plan, draws(), frame, number, day.severity)
    checks = (*EVERY, heard_aloud, seldom(as_from_scratch, SCRATCH_LOOKS))
    hand = Hand(DESKS[day.desk], number)
    rehearsal = Run(plan, drawn, hand, skies_of(day.plan), checks, stride_ms)
    record = rehearsal.go()
    last, before_s = rehearsal.look(), process_time()
    rehearsal.note(as_from_scratch(last))
    anew_s = process_time() - before_s
    score = score_of(record, plan)
    perfect = day.desk == "perfect"
    missed = [f"{each}" for each in score.lost if perfect and not each.unavoidable]
    return Done(
        number,
        day.plan,
        day.desk,
        day.severity,
        stride_ms,
        record.looks,
        process_time() - begun,
        anew_s,
        (drawn.end_ms - drawn.begin_ms) / 1000,
        len(score.lost),
        tuple(missed),
        tuple(f"{each.at_ms} {each.check}: {each.what}" for each in record.troubles),
        tuple(each.check for each in record.troubles),
    )


@dataclass(slots=True)
class Told:
    """All days so far."""

    days: int = 0
    looks: int = 0
    lost: int = 0
    took_s: float = 0.0
    failing: int = 0
    found: Counter[str] = field(default_factory=Counter)
    by_plan: dict[str, list[Done]] = field(default_factory=dict)

    def add(self, day: Done) -> None:
        """One day more; what failed in it is told at once."""
        self.days += 1
        self.looks += day.looks
        self.lost += day.lost
        self.took_s += day.took_s
        self.failing += not day.is_well
        self.by_plan.setdefault(day.plan, []).append(day)
        self.found.update(day.checks)
        self.found.update({"lost, and need not have been": len(day.avoidable)})
        self.found.update({"broke off": bool(day.broke)})
        for what in (*day.avoidable, *day.troubles, *filter(None, [day.broke])):
            of = f"{day.plan}, severity {day.severity}, {day.desk}"
            print(f"day {day.number}, {of}: {what}", flush=True)


def days_of(numbers: range, processes: int, stride_ms: int) -> Iterator[Done]:
    """Those days in order, so many of them side by side."""
    waiting: list[tuple[int, Future[Done]]] = []
    with ProcessPoolExecutor(processes, mp_context=get_context("spawn")) as pool:
        coming = iter(numbers)
        while True:
            room = AHEAD * processes - len(waiting)
            waiting += [
                (number, pool.submit(run, number, stride_ms)) for number in islice(coming, room)
            ]
            if not waiting:
                return
            number, future = waiting.pop(0)
            broke = future.exception()
            yield future.result() if broke is None else _broken(number, broke)


def _broken(number: int, broke: BaseException) -> Done:
    day = kind(number)
    how = "".join(format_exception(broke)).strip()
    return Done(number, day.plan, day.desk, day.severity, broke=how)


def table(told: Told) -> Iterator[str]:
    """What a second of one core runs, by plan, and a look beside a board built anew."""
    head = f"{'days':>7}{'days/s':>9}{'looks/s':>9}{'ms a look':>11}{'ms anew':>9}{'ratio':>7}"
    yield f"{'':15}{head}{'of the clock':>15}"
    for plan, days in (*told.by_plan.items(), ("all", [*chain(*told.by_plan.values())])):
        took_s, looks = sum(each.took_s for each in days), sum(each.looks for each in days)
        look_ms = 1000 * took_s / max(1, looks)
        anew_ms = 1000 * sum(each.anew_s for each in days) / len(days)
        speed = sum(each.lasts_s for each in days) / max(0.001, took_s)
        yield (
            f"{plan:15}{len(days):7}{len(days) / took_s:9.2f}{looks / took_s:9.0f}"
            f"{look_ms:11.2f}{anew_ms:9.1f}{anew_ms / look_ms:7.1f}{speed:13,.0f} x"
        )


def main(days: int, first: int, processes: int, path: Path | None, stride_ms: int) -> int:
    """Run so many days; 1 where anything failed."""
    told, begun = Told(), perf_counter()
    for day in days_of(range(first, first + days), processes, stride_ms):
        told.add(day)
        if path is not None:
            with path.open("a", encoding="utf-8") as file:
                file.write(json.dumps(asdict(day)) + "\n")
    took_s = perf_counter() - begun
    print(f"{told.days} days, {told.looks} looks in {told.took_s:.0f} s of one core's time")
    print("\n".join(table(told)))
    print(f"by the clock {told.days / took_s:.2f} days a second, {processes} at once")
    print(f"{told.lost} live moments lost; {told.failing} days with something that failed")
    print(f"what failed: {dict(+told.found) or 'nothing'}")
    return 1 if told.failing else 0


if __name__ == "__main__":
    words = sys.argv[1:]
    given = [int(word) for word in words if word.isdigit()]
    paths = [Path(word) for word in words if word.endswith(".jsonl")]
    many, at, side_by_side = given + [DAYS, 0, 1][len(given) :]
    stride = SELDOM_MS if "seldom" in words else STRIDE_MS
    sys.exit(main(many, at, side_by_side, next(iter(paths), None), stride))
