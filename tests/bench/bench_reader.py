"""Measures how long a plan takes to be read, good and broken, and to be written.

python3 tasks.py bench reader
"""

import statistics
import sys
import time
from collections.abc import Callable
from functools import partial
from pathlib import Path

from core.errors import PlanProblems
from core.plan.reader import read_plan_text
from core.plan.rewriter import update_plan
from core.plan.writer import write_plan

ROUNDS = 5
SIZES = (300, 1_000, 10_000)

HEAD = 'limbwatch = 1\ntitle = "Long day"\nzones = ["America/Halifax"]\n'


def main() -> int:
    """Print the median time of each, in milliseconds."""
    print(f"{'events':>8} {'MB':>5} {'read':>9} {'all broken':>11} {'write':>9} {'change one':>11}")
    for count in SIZES:
        text = plan_text(count)
        plan = read_plan_text(text, "plan", Path())
        broken = text.replace("offset", "ofset")
        changed = read_plan_text(text.replace("Step 7 ", "Step seven "), "plan", Path())
        figures = (
            median_ms(partial(read_plan_text, text, "plan", Path())),
            median_ms(partial(told, broken)),
            median_ms(partial(write_plan, plan)),
            median_ms(partial(update_plan, text, changed)),
        )
        print(
            f"{count:>8} {len(text) / 1e6:>5.1f} {figures[0]:>6.0f} ms {figures[1]:>8.0f} ms"
            f" {figures[2]:>6.0f} ms {figures[3]:>8.0f} ms"
        )
    return 0


def plan_text(count: int) -> str:
    """A plan in chains of five, each event with two ties, as long as a crowded day is wide."""
    return HEAD + "".join(_event(number) for number in range(count))


def _event(number: int) -> str:
    head = f'\n[[event]]\nid = "step-{number}"\nname = "Step {number} of the day"\n'
    if number % 5 == 0:
        clock = f"{number // 60 % 24:02d}:{number % 60:02d}:00"
        return f"{head}at = 2031-05-{number // 1440 % 28 + 1:02d}T{clock}\npinned = true\n"
    first, second = number - 1, number // 5 * 5
    return (
        f'{head}after = [{{ event = "step-{first}", offset = "10m", least = "5m" }}, '
        f'{{ event = "step-{second}", offset = "{number % 5}m" }}]\n'
        f'give = "20s"\nlive = true\nguard = "60s"\nsay = "what we are waiting for"\n'
    )


def told(text: str) -> None:
    """Read a broken plan."""
    try:
        read_plan_text(text, "plan", Path())
    except PlanProblems:
        return
    raise SystemExit("the broken plan was read")


def median_ms(work: Callable[[], object]) -> float:
    """The median time of some rounds, in milliseconds."""
    times = []
    for _ in range(ROUNDS):
        start = time.perf_counter()
        work()
        times.append((time.perf_counter() - start) * 1000)
    return statistics.median(times)


if __name__ == "__main__":
    sys.exit(main())
