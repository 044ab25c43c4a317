from pathlib import Path

import pytest

from core.board.facts import facts
from core.board.programme import FactLine
from core.session.desk import Desk
from tests.core.board.boards import FLIGHT, Seat, seat

UNTIL = "until 5:10:00 p.m."
FACTS = """at_craft = true
facts = [
  { text = "One engine, 30 kN." },
  { text = "Half the day's fuel goes.", source = "agency", date = 2031-03-02 },
  { text = "It worked.", after_confirmed = true },
  { text = "The crew chose the song.", not_before = 2031-05-14T17:10:00, source = "pool" },
  { text = "Both at once.", after_confirmed = true, not_before = 2031-05-14T17:10:00 },
]

[[event]]
id = "cutoff\""""
WITH_FACTS = FLIGHT.replace('at_craft = true\n\n[[event]]\nid = "cutoff"', FACTS)
FREE = (
    FactLine("One engine, 30 kN."),
    FactLine("Half the day's fuel goes.", "agency, 2 March 2031"),
)


@pytest.fixture
def desk(tmp_path: Path) -> Seat:
    return seat(tmp_path, text=WITH_FACTS)


def told(desk: Seat) -> tuple[FactLine, ...]:
    return tuple(line for line in desk.card("ignition").facts if not line.held)


def test_a_fact_has_its_source_and_its_date_in_words(desk: Seat) -> None:
    assert desk.card("ignition").facts[:2] == FREE
    assert desk.card("cutoff").facts == ()


def test_a_fact_under_embargo_is_held_without_its_text_and_says_why_and_until_when(
    desk: Seat,
) -> None:
    assert desk.card("ignition").facts[2:] == (
        FactLine("", held="A fact is held until this is confirmed"),
        FactLine("", held=f"A fact is held {UNTIL}"),
        FactLine("", held=f"A fact is held {UNTIL} and until this is confirmed"),
    )
    assert told(desk) == FREE


def test_a_fact_that_waits_for_its_event_comes_with_the_confirmation_alone(desk: Seat) -> None:
    desk.go_to("17:05")
    assert told(desk) == FREE
    desk.take("ignition happened 5:00:10p")
    assert [line.text for line in told(desk)[2:]] == ["It worked."]
    held = [line.held for line in desk.card("ignition").facts if line.held]
    assert held == [f"A fact is held {UNTIL}"] * 2


def test_taking_the_confirmation_back_holds_it_again(desk: Seat) -> None:
    desk.go_to("17:05")
    desk.take("ignition happened 5:00:10p")
    desk.desk.undo(desk.now_ms)
    assert told(desk) == FREE


def test_a_fact_that_waits_for_a_time_comes_to_the_second(desk: Seat) -> None:
    desk.go_to("17:09:59")
    assert told(desk) == FREE
    desk.go_to("17:10:00")
    assert told(desk)[2:] == (FactLine("The crew chose the song.", "pool"),)


def test_the_day_is_said_where_a_fact_is_held_to_another(tmp_path: Path) -> None:
    desk = seat(tmp_path, text=WITH_FACTS.replace("14T17:10", "15T17:10"))
    held = [line.held for line in desk.card("ignition").facts if line.held]
    assert held[1] == "A fact is held until Thu 5:10:00 p.m."


@pytest.mark.parametrize(
    ("date", "words"),
    [('"2031-03"', "March 2031"), ('"1969"', "1969"), ("1969-07-20", "20 July 1969")],
)
def test_a_date_may_be_a_month_or_a_year(date: str, words: str, tmp_path: Path) -> None:
    desk = seat(tmp_path, text=WITH_FACTS.replace("date = 2031-03-02", f"date = {date}"))
    assert desk.card("ignition").facts[1].source == f"agency, {words}"


@pytest.mark.parametrize(("usage", "shown"), [("american", "meters"), ("british", "metres")])
def test_units_are_put_side_by_side_as_the_audience_spells_them(
    usage: str, shown: str, tmp_path: Path
) -> None:
    plan = WITH_FACTS.replace("elapsed_from", f'usage = "{usage}"\nelapsed_from')
    desk = seat(tmp_path, text=plan)

    def both(text: str, *, american: bool) -> str:
        return f"{text} ({'meters' if american else 'metres'})"

    again = Desk(desk.desk.plan, desk.clock, both=both)
    (fact, *_) = next(card for card in again.view(desk.now_ms).cards if card.id == "ignition").facts
    assert fact.text == f"One engine, 30 kN. ({shown})"
    assert facts(again._session.scene, "ignition", desk.now_ms)[0].text == "One engine, 30 kN."


def shown(desk: Seat) -> str:
    presenter = desk.view.presenter
    return "" if presenter is None else presenter.fact


def test_the_presenter_is_shown_the_fact_that_was_asked_for_and_one_held_not_before(
    desk: Seat,
) -> None:
    assert shown(desk) == ""
    for fact, words in enumerate(("One engine, 30 kN.", "Half the day's fuel goes.", "")):
        desk.desk.show_facts("ignition", fact)
        assert shown(desk) == words
    desk.take("ign now")
    assert shown(desk) == "It worked."
    desk.desk.show_facts("ignition", 9)
    assert shown(desk) == ""
