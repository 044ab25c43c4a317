"""The arrival's board when voice is heard before anybody has named an outcome."""

import pytest

from app.resources import sample_plan
from app.skies import skies_for
from core.board.model import View
from core.plan.reader import read_plan
from core.session.desk import Desk
from core.signal.model import Fill
from core.times.clocks import SimClock
from core.times.zones import instant_to_ms
from tests.core.board.boards import shown

PLAN = read_plan(sample_plan("petrel-arrival"))
PART_MS = 400
"""Nobody presses a key on the whole second."""


def at_ms(clock: str) -> int:
    return instant_to_ms(f"2031-05-14T{clock}", PLAN.zones[0]) + PART_MS


def board(looked: str, *entered: tuple[str, str]) -> View:
    """The board at a clock time, with lines entered at theirs before it."""
    desk = Desk(PLAN, SimClock(at_ms(looked), paused=True), skies_for=skies_for)
    for clock, text in entered:
        desk.enter(text, "", at_ms(clock))
    return desk.view(at_ms(looked))


def voice(view: View) -> tuple[str, str, str]:
    lane = next(each for each in view.contact.lanes if each.lane == "voice")
    figure = "" if lane.figure is None else shown(lane.figure)
    return f"{figure} {lane.word}", lane.through, lane.then


def first_line(view: View) -> str:
    assert view.to_say is not None
    return view.to_say.sentences[0].line


BACK = ("17:12:40", "voice back now")


@pytest.mark.parametrize("looked", ["17:12:40", "17:13:40"])
def test_voice_back_is_contact_at_once_and_whatever_the_outcome(looked: str) -> None:
    view = board(looked, BACK)
    assert first_line(view) == "We have voice again."
    length, through, then = voice(view)
    assert length.endswith(" left")
    assert through == "through Tarn Hill; hand-over to Kestrel Bay 5:40 p.m."
    assert then == "then as the outcome has it"
    drawn = next(lane for lane in view.strip.lanes if lane.lane == "voice")
    begin = next(n for n, end in enumerate(drawn.ends_ms) if end > at_ms(looked))
    assert drawn.fills[begin] is Fill.CONTACT
    later = next(card for card in view.cards if card.id == "return")
    assert later.note.text == "voice is back already"
    assert view.big_index is not None
    assert view.cards[view.big_index].id == "photo"  # nobody counts down to what is so already


@pytest.mark.parametrize("looked", ["17:17:40", "17:21:40", "17:22:30", "17:24:00"])
def test_with_voice_there_is_no_time_to_watch_and_no_silence(looked: str) -> None:
    view = board(looked, BACK)
    assert view.to_say is not None
    said = view.to_say.sentences[0]
    for words in (said.line, said.twenty, said.long):
        assert "watch" not in words
        assert "Nobody has reported" not in words
        assert "Silence" not in words
    assert "A signal alone proves nothing." in said.twenty
    assert "How it went is for mission control to say." in said.twenty


def test_an_edge_in_this_second_has_begun() -> None:
    now = "17:21:39"
    view = board(now, (now, "voice back now"))
    assert first_line(view) == "We have voice again."
    assert voice(view)[0] == "1 h 25 min 56 s left"
    named = board(now, (now, "voice back now"), (now, "burned"))
    assert voice(named) == (
        "1 h 25 min 56 s left",
        "through Tarn Hill; hand-over to Kestrel Bay 5:40 p.m.",
        "then behind the Moon for 43 min",
    )


def test_a_loss_in_this_second_has_begun() -> None:
    now = "17:30:00"
    view = board(now, ("17:21:39", "voice back now"), (now, "voice lost now"))
    assert not voice(view)[0].endswith(" left")


def test_without_a_burn_nothing_is_to_come_that_only_an_orbit_brings() -> None:
    view = board("17:14:00", BACK, ("17:13:30", "no-burn per flight"))
    coming = [card.id for card in list(view.cards)[view.next_index :] if ".voice." not in card.id]
    assert [name for name in coming if name not in ("ignition", "closest", "cutoff")] == [
        "turn",
        "school",
        "school-end",
        "homeward",
        "briefing",
        "wake-thursday",
        "desk-hands-over",
    ]
