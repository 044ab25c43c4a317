"""The board on the samples whose signal is computed: what it says of light, words and edges."""

import pytest

from app.resources import sample_plan
from app.skies import skies_for
from core.board.model import Card, CardState, View
from core.plan.reader import read_plan
from core.session.desk import Desk
from core.times.clocks import SimClock
from core.times.zones import instant_to_ms
from tests.core.board.boards import shown


def board(name: str, when: str, *typed: str) -> View:
    """The board of a sample at a clock time of its desk, once those lines were entered."""
    plan = read_plan(sample_plan(name))
    now_ms = instant_to_ms(when, plan.zones[0])
    desk = Desk(plan, SimClock(now_ms, paused=True), skies_for=skies_for)
    for text in typed:
        desk.enter(text, "", now_ms)
    return desk.view(now_ms)


def card(view: View, event: str) -> Card:
    return next(each for each in view.cards if each.id == event)


def test_an_event_at_a_distant_craft_says_when_it_is_heard() -> None:
    view = board("curlew-landing", "2031-10-21T15:28:48")
    entry = card(view, "entry")
    assert (entry.state, entry.clock) == (CardState.AHEAD, "3:29:48 p.m.")
    assert entry.note.text == "heard 3:41:10 p.m."
    assert view.contact.distance == "204 million km away; its signal needs 11 min 22 s"


def test_then_it_is_on_its_way_and_counts_down_to_being_heard() -> None:
    entry = card(board("curlew-landing", "2031-10-21T15:30:48"), "entry")
    assert (entry.state, entry.lead) == (
        CardState.ON_ITS_WAY,
        "by now it has happened; we hear in",
    )
    assert (shown(entry.figure), entry.clock) == ("10 min 22 s", "3:41:10 p.m.")
    assert entry.note.text == "out there 3:29:48 p.m."


def test_once_it_can_be_heard_it_is_due() -> None:
    assert card(board("curlew-landing", "2031-10-21T15:41:10"), "entry").state is CardState.DUE


def test_it_is_overdue_from_when_it_could_be_heard() -> None:
    view = board("curlew-landing", "2031-10-21T15:42:36")
    entry = card(view, "entry")
    assert (shown(entry.figure), entry.clock) == ("+ 1 min 26 s", "3:41:10 p.m.")
    assert entry.note.text == "out there 3:29:48 p.m."
    assert view.due is not None
    assert "Entry, out there (1 min 26 s)" in view.due.words


def test_at_the_moon_nothing_is_said_of_a_light_second() -> None:
    view = board("petrel-arrival", "2031-05-14T16:40:00")
    assert view.contact.distance == ""
    assert "heard" not in card(view, "ignition").note.text


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ("voice lost 4:49:15p", "12 s late, 4:49:03 p.m. computed"),
        ("voice lost 4:48:58p", "5 s early, 4:49:03 p.m. computed"),
        ("voice lost 4:49:03p", "to the second, 4:49:03 p.m. computed"),
    ],
)
def test_an_edge_seen_stands_beside_its_computed_time(typed: str, words: str) -> None:
    view = board("petrel-arrival", "2031-05-14T16:50:00", typed)
    assert card(view, "loss").note.text == words
    assert card(view, "return").clock == "5:22:22 p.m."


def test_the_first_words_come_some_seconds_after_the_signal() -> None:
    ignition = card(board("petrel-arrival", "2031-05-14T17:00:00"), "ignition")
    assert ignition.state is CardState.OUT_OF_SIGHT
    assert ignition.note.text == "first word 5:13 or 5:23 p.m."


def test_a_return_that_comes_earlier_after_a_later_burn_is_named_first() -> None:
    view = board("petrel-arrival", "2031-05-14T16:40:00", "ignition +45s per flight")
    assert view.last_change is not None
    rows = [(text, said.text) for text, said in view.last_change.rows]
    assert rows[0] == ("Signal back, after the burn and 3 more follow", "51 s earlier")
    assert ("Circularisation burn and 5 more follow", "45 s later") in rows


def test_what_only_the_night_has_in_common_is_not_said_of_the_cards_that_come_first() -> None:
    lines = ("ignition happened 4:58:03p per flight", "burned per flight")
    view = board("petrel-arrival", "2031-05-14T17:30:00", *lines)
    first = [card.change.text for card in view.cards[view.next_index : view.next_index + 8]]
    assert "43 s later" not in first
    assert view.summary.text == ""


def test_a_loss_moved_by_itself_says_that_the_data_go_before_it() -> None:
    loss = card(board("petrel-arrival", "2031-05-14T16:40:00", "loss +90s"), "loss")
    assert (loss.note.text, loss.note_less) == (
        "data goes first; 1 min 30 s before",
        "data goes first",
    )
    as_planned = card(board("petrel-arrival", "2031-05-14T16:40:00"), "loss")
    assert (as_planned.note.text, as_planned.note_less) == (
        "then out of contact 24 min or 33 min",
        "then out of contact",
    )
