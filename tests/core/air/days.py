"""Drawn small days, in whole units: minutes or seconds, it is all the same to the rules."""

import random

from core.air.cutting import demand
from core.air.fitting import Fitting
from core.air.model import Day, Fixed, Moment, Since
from core.plan.model import Item
from tests.core.air.brute import Trial

NEVER = -(2**62)


def draw(seed: int, *, items: int = 4, end: int = 26, uniform: bool = False) -> Trial:
    """A day of some 26 units with everything a day may have."""
    chance = random.Random(seed)
    gap = chance.choice((0, 1, 1, 2))
    day = Day(
        on_ms=chance.choice((0, 0, 2)),
        off_ms=end,
        item_gap_ms=gap,
        break_gap_ms=0 if uniform else chance.choice((0, gap, gap + 2, 6, 9)),
        moments=tuple(_moment(chance, number, end) for number in range(chance.randrange(3))),
        away=((chance.randrange(3, 20), 22),) if chance.random() < 0.2 else (),
        contact=(("voice", ((0, chance.randrange(4, 14)), (16, end + 4))),),
    )
    some = tuple(_item(chance, f"i{n}", uniform=uniform) for n in range(chance.randint(1, items)))
    now = chance.randrange(0, 8)
    placed: tuple[tuple[Item, int], ...] = ()
    if chance.random() < 0.5 and not uniform:
        placed = tuple(
            (_item(chance, f"p{n}", uniform=False), start)
            for n, start in enumerate(sorted(chance.sample(range(now + 1, end - 4), 2)))
        )
    ran = chance.random() < 0.5
    ran_break = ran and chance.random() < 0.8
    last_end = chance.randrange(0, now + 1) if ran else None
    return Trial(
        day=day,
        items=some,
        placed=placed,
        now=now,
        last_end=last_end,
        last_break_end=last_end if ran_break else None,
        last_sponsor=chance.choice(("", "A", "B")) if ran_break and not uniform else "",
    )


def _moment(chance: random.Random, number: int, end: int) -> Moment:
    at = chance.randrange(1, end)
    if chance.random() < 0.3:
        return Moment(f"j{number}", f"j{number}", at, at, at, at, junction=True)
    guard, stay, give = (chance.choice((0, 0, 1, 2)) for _ in range(3))
    back = at - guard
    return Moment(f"m{number}", f"m{number}", at, back, at + stay, back - give)


def _item(chance: random.Random, name: str, *, uniform: bool) -> Item:
    kind = "tape" if uniform else chance.choice(("break", "break", "tape", "remote"))
    early = chance.choice((None, None, chance.randrange(0, 14)))
    return Item(
        id=name,
        kind=kind,
        name=name,
        length_ms=chance.randint(1, 4),
        turnaround_ms=chance.choice((0, 0, 1)),
        owed=chance.random() < 0.8,
        sponsor=chance.choice(("", "A", "A", "B")) if kind == "break" else "",
        earliest_ms=early,
        latest_ms=chance.choice((None, None, (early or 0) + chance.randrange(4, 16))),
        needs="voice" if chance.random() < 0.2 else None,
        booked=((2, 12), (14, 24)) if chance.random() < 0.15 else (),
        weight=chance.randint(1, 3),
    )


def fitting_of(trial: Trial) -> Fitting:
    """The same day for the fitting."""
    day = trial.day
    demands = [demand(item, day, trial.placed) for item in trial.items]
    fixed = [
        Fixed(item.id, start, start + item.length_ms, item.sponsor)
        for item, start in trial.placed
        if item.kind == "break"
    ]
    return Fitting(demands, day.item_gap_ms, day.break_gap_ms, fixed)


def since_of(trial: Trial) -> Since:
    """From when on things may start."""
    day = trial.day
    item = trial.now
    if trial.last_end is not None:
        item = max(item, trial.last_end + day.item_gap_ms)
    last = trial.last_break_end
    gap = max(day.item_gap_ms, day.break_gap_ms)
    return Since(item, NEVER if last is None else last + gap, trial.last_sponsor)
