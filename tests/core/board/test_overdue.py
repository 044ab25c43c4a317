"""For how long something is overdue that was only about known."""

from app.resources import sample_plan
from app.skies import skies_for
from core.plan.reader import read_plan
from core.session.desk import Desk
from core.times.clocks import SimClock
from core.times.zones import instant_to_ms


def test_what_is_only_about_known_is_never_overdue_by_no_minutes() -> None:
    plan = read_plan(sample_plan("petrel-arrival"))
    now_ms = instant_to_ms("2031-05-14T17:22:40", plan.zones[0])
    desk = Desk(plan, SimClock(now_ms, paused=True), skies_for=skies_for)
    for text in ("burned per flight", "voice back now"):
        desk.enter(text, "", now_ms)
    desk.confirm_due(now_ms)
    figures = next(card for card in desk.view(now_ms).cards if card.id == "checks")
    assert figures.at_ms is not None
    words = []
    for late_ms in (0, 29_000, 59_000, 60_000, 90_000):
        due = desk.view(figures.at_ms + late_ms).due
        assert due is not None
        words.append(due.words.removeprefix("Overdue: Engine and cabin checks done "))
    assert words == ["(under a minute)"] * 3 + ["(1 min)", "(2 min)"]
