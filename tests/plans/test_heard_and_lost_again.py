"""A lane that came back and is lost again: that it came back is no news then."""

from app.resources import sample_plan
from core.plan.reader import read_plan
from core.session.desk import Desk
from core.times.clocks import SimClock
from core.times.zones import typed_to_ms


def test_that_a_voice_is_back_is_said_only_until_it_is_lost_again() -> None:
    plan = read_plan(sample_plan("first-steps"))

    def at(clock: str) -> int:
        return typed_to_ms(f"2031-06-07T{clock}", plan.zones[0])

    clock = SimClock(at("11:56:54"), paused=True)
    desk = Desk(plan, clock)
    for line in ("voice lost 11:55:56a", "voice back 11:56:10a"):
        desk.enter(line, "", clock.now_ms())

    def said(when: str) -> str:
        panel = desk.view(at(when)).to_say
        assert panel is not None
        return " ".join(sentence.twenty for sentence in panel.sentences)

    assert "We have voice again, since eleven fifty-six." in said("11:57:00")
    lost = desk.view(at("11:57:00")).contact.lanes[0]
    assert lost.figure is not None
    assert "voice again" not in said("11:59:56")
    assert "We are out of contact for now" in said("11:59:56")
