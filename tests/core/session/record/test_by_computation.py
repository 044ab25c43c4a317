"""Edges that the plan did not name, in the record: over by computation, no one's to confirm."""

from core.session.model import Answer
from core.session.record.glance import glance
from core.session.record.model import Stood
from core.session.record.words import stood
from tests.core.session.record.days import PLAN, Day, at, event

AUTOMATIC = PLAN.replace("sources =", 'auto_edges = ["voice"]\nsources =')
LOST, BACK = "passes.voice.1.lost", "passes.voice.2.back"


def day(text: str = AUTOMATIC) -> Day:
    """A day on which two edges were given on their cards before they came, and none observed."""
    typed = Day(text=text)
    for name, clock in ((LOST, "16:50:02"), (BACK, "17:20:05")):
        taken = typed.desk.enter(f"{clock} per flight", name, at("16:40:00"))
        assert taken.answer is Answer.DONE
    return typed


def test_an_edge_nobody_named_is_over_by_computation() -> None:
    record = day().record()
    assert {event(record, name).stood for name in (LOST, BACK)} == {Stood.COMPUTED}
    assert stood(event(record, LOST)) == "by computation"
    assert "2 by computation" in glance(record)[0]


def test_the_desk_is_never_asked_for_it() -> None:
    typed = day()
    due = typed.desk.view(at("17:30:00")).due
    assert due is None or not {LOST, BACK} & set(due.ids)


def test_while_it_is_ahead_it_is_ahead() -> None:
    assert event(day().record(until="17:00:00"), BACK).stood is Stood.AHEAD


def test_observed_it_has_happened() -> None:
    typed = day()
    typed.type("16:50:10", "voice lost 16:50:04")
    assert event(typed.record(), LOST).stood is Stood.HAPPENED


def test_one_of_an_outcome_nobody_named_is_not_taken_as_passed() -> None:
    hanging = AUTOMATIC.replace(
        'gap = "behind the Moon"', 'gap = "behind the Moon"\nonly_if = "burned"'
    )
    record = day(hanging).record()
    assert event(record, BACK).stood is Stood.UNCONFIRMED
