"""Drawn days by the hundred: how many run in how long, and every check that did not hold.

On a small flight with a programme, for the perfect, the slow and the careless desk in turn; the
severity goes round. Processor time of one core. What fails is told with the number that draws it.

    python3 tasks.py bench days
    .venv/bin/python tests/bench/bench_days.py 10000 0     # so many days, from that number on
"""

import sys
from collections import Counter
from pathlib import Path
from time import process_time

sys.path.insert(0, str(Path(__file__).parents[2]))

from core.rehearsal.driver import Run
from core.rehearsal.habits import DESKS, Hand
from core.rehearsal.score import score_of
from core.rehearsal.watching import EVERY, as_from_scratch
from tests.core.rehearsal.aloud_check import heard_aloud
from tests.core.rehearsal.days import drawn, small

DAYS = 60


def main(days: int, first: int) -> int:
    """Run so many days; 1 where anything failed."""
    found: Counter[str] = Counter()
    looks = lost = avoidable = 0
    begun = process_time()
    for number in range(first, first + days):
        desk, severity = list(DESKS)[number % len(DESKS)], 1 + number // len(DESKS) % 5
        run = Run(
            small(),
            drawn(number, severity),
            Hand(DESKS[desk], number),
            checks=(*EVERY, heard_aloud),
        )
        record = run.go()
        run.note(as_from_scratch(run.look()))
        score = score_of(record, small())
        looks += record.looks
        lost += len(score.lost)
        if desk == "perfect":
            missed = [each for each in score.lost if not each.unavoidable]
            avoidable += len(missed)
            for each in missed:
                print(f"day {number}, severity {severity}: {each}", flush=True)
        for trouble in record.troubles:
            found[trouble.check] += 1
            told = f"{trouble.at_ms} {trouble.check}: {trouble.what}"
            print(f"day {number}, severity {severity}, {desk}: {told}", flush=True)
    took_s = process_time() - begun
    print(f"{days} days, {looks} looks in {took_s:.0f} s: {days / took_s:.2f} days a second")
    print(f"{lost} live moments lost, {avoidable} by the perfect desk that could have been kept")
    print(f"checks that failed: {dict(found) or 'none'}")
    return 1 if found or avoidable else 0


if __name__ == "__main__":
    given = [int(word) for word in sys.argv[1:] if word.isdigit()]
    sys.exit(main(*(given + [DAYS, 0][len(given) :])))
