"""Every form of the entry bar, typed into the real window on a small plan: preview, card, strip."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from core.board.model import CardState
from core.signal.model import Fill
from core.times.clocks import SimClock
from tests.app.desk.place import Place, opened
from tests.app.desk.whimbrel import MINUTE_MS, NOW_MS, PLAN, SECOND_MS, at


@pytest.fixture
def place(qtbot: QtBot, tmp_path: Path) -> Iterator[Place]:
    path = tmp_path / "whimbrel.toml"
    path.write_text(PLAN, encoding="utf-8")
    with opened(qtbot, path, SimClock(NOW_MS, paused=True)) as taken:
        yield taken


# ------------------------------------------------------------------ times of events

TIMES = [
    ("ignition 4:58:05p", "16:58:05"),
    ("ign 16:58:05", "16:58:05"),
    ("ign 1659", "16:59:00"),
    ("ign 165805", "16:58:05"),
    ("ign 14 May 4:59p", "16:59:00"),
    ("ign 2031-05-14T16:59", "16:59:00"),
    ("ign 2031-05-14T19:58:05.250Z", "16:58:05.250"),
    ("ign 19:58:05z", "16:58:05"),
    ("ign 2:59p central", "16:59:00"),
    ("ign +45s", "16:58:45"),
    ("ign -2m", "16:56:00"),
    ("ign +1:12", "16:59:12"),
    ("ign in 20m", "17:00:00"),
    ("ign elapsed 3d 03:30:30", "16:58:30"),
    ("ign about 4:59p", "16:59:00"),
    ("ign 4:59p +-30s", "16:59:00"),
    ("ign 4:58:05p per flight", "16:58:05"),
]


@pytest.mark.parametrize(("line", "clock"), TIMES, ids=[line for line, _ in TIMES])
def test_a_time_is_previewed_then_moves_card_thread_and_what_follows(
    place: Place, line: str, clock: str
) -> None:
    before_px = place.thread_of("ignition")
    place.type(line)
    assert "Insertion burn, ignition" in place.said
    ghosts = dict(place.desk.preview(line, "", NOW_MS).ghosts)
    assert ghosts["ignition"] == at(clock)
    assert place.card("ignition").at_ms == at("16:58:00")
    place.press(Qt.Key.Key_Return)
    assert place.window.bar.line.text() == "", place.said
    assert place.card("ignition").at_ms == at(clock)
    assert place.card("cutoff").at_ms == at(clock) + 6 * MINUTE_MS
    assert place.card("return").at_ms == at(clock) + 24 * MINUTE_MS
    assert place.card("return-none").at_ms == at("17:12:00")
    after_px = place.thread_of("ignition")
    assert after_px == pytest.approx(place.strip.y_of(at(clock)), abs=1)
    assert (after_px > before_px) == (at(clock) > at("16:58:00")) or after_px == before_px


@pytest.mark.parametrize("line", ["ign about 4:58p", "ign 4:58p +-30s", "ign +-30s"])
def test_a_time_with_give_says_about_and_loses_its_seconds(place: Place, line: str) -> None:
    place.enter(line)
    assert place.card("ignition").clock == "about 4:58 p.m."
    figure = place.card("ignition").figure
    assert figure is not None
    assert figure.about
    assert "about 4:58 p.m." in place.written_on("ignition")


def test_a_date_of_another_day_asks_once_more(place: Place) -> None:
    place.type("ign 15 May 4:58p")
    place.press(Qt.Key.Key_Return)
    assert place.window.bar.line.text() == "ign 15 May 4:58p"
    place.press(Qt.Key.Key_Return)
    assert not place.window.bar.line.text(), place.said
    assert any(c.id == "ignition" and c.at_ms == at("16:58:00", 15) for c in place.view.cards)


def test_a_time_for_the_selected_card_needs_no_name(place: Place) -> None:
    place.window.timeline.select("photo")
    place.enter("+5m")
    assert place.card("photo").at_ms == at("17:29:00")
    assert place.card("ignition").at_ms == at("16:58:00")


def test_two_halves_of_the_day_are_both_listed_and_tab_picks(place: Place) -> None:
    place.type("ign 4:59")
    choices = place.window.bar.answer.shown.choices
    if choices:
        place.press(Qt.Key.Key_Tab)
        assert place.window.bar.answer.shown.picked == 1
        place.press(Qt.Key.Key_Backtab, Qt.KeyboardModifier.ShiftModifier)
    assert "4:59" in place.said


# ------------------------------------------------------------------ what has happened


def test_now_is_the_instant_of_enter(place: Place) -> None:
    place.go_to("16:50:03")
    place.enter("go now")
    go = next(card for card in place.view.cards if card.id == "go")
    assert (go.state, go.at_ms) == (CardState.HAPPENED, at("16:50:03"))


def test_now_less_some_seconds(place: Place) -> None:
    place.go_to("16:50:15")
    place.enter("go now-12s")
    go = next(card for card in place.view.cards if card.id == "go")
    assert (go.state, go.at_ms) == (CardState.HAPPENED, at("16:50:03"))
    assert place.card("ignition").at_ms == at("16:58:03")


def test_happened_at_a_time_moves_what_follows(place: Place) -> None:
    place.go_to("16:51:00")
    place.enter("go happened 4:50:20p")
    assert place.card("ignition").at_ms == at("16:58:20")


def test_a_fact_in_the_future_asks_once_more(place: Place) -> None:
    place.type("go happened 4:50p")
    place.press(Qt.Key.Key_Return)
    assert place.window.bar.line.text()
    place.press(Qt.Key.Key_Return)
    assert place.window.bar.line.text() == ""


def test_one_key_confirms_all_that_is_due(place: Place) -> None:
    place.go_to("16:50:40")
    before = place.view.due
    place.press(Qt.Key.Key_Return, Qt.KeyboardModifier.ControlModifier)
    assert before is not None
    assert place.view.due is None
    go = next(card for card in place.view.cards if card.id == "go")
    assert go.state is CardState.HAPPENED


# ------------------------------------------------------------------ holds, scrubs, pins


def test_a_held_count_stands_and_goes_on(place: Place) -> None:
    place.enter("ign hold")
    assert place.card("ignition").state is CardState.HELD
    held = place.card("ignition").figure
    place.go_to("16:43:00")
    assert place.card("ignition").figure == held
    assert place.card("cutoff").at_ms == at("17:07:00")
    place.enter("ign resume")
    assert place.card("ignition").state is CardState.AHEAD
    assert place.card("ignition").at_ms == at("17:01:00")


def test_a_count_resumes_at_a_given_time(place: Place) -> None:
    place.enter("ign hold", "ign resume 4:45p")
    assert place.card("ignition").at_ms == at("17:03:00")


@pytest.mark.parametrize(
    ("way", "photo"), [("with", None), ("bridge", at("17:24:00")), ("stay", at("17:24:00"))]
)
def test_what_is_called_off_goes_and_those_tied_to_it_as_said(
    place: Place, way: str, photo: int | None
) -> None:
    place.enter(f"cutoff scrub {way}")
    there = {card.id: card.at_ms for card in place.view.cards}
    assert "cutoff" not in there
    assert there.get("photo") == photo


def test_a_pinned_event_stays_and_a_freed_one_follows(place: Place) -> None:
    place.enter("photo pin", "ign +5m")
    assert place.card("photo").at_ms == at("17:24:00")
    assert "pinned" in place.written_on("photo")
    place.enter("photo free")
    assert place.card("photo").at_ms == at("17:29:00")


# ------------------------------------------------------------------ a clash


def test_a_clash_stands_beside_the_line_and_a_second_enter_overrules(place: Place) -> None:
    place.type("ign +40m")
    assert place.window.bar.answer.shown.clash
    place.press(Qt.Key.Key_Return)
    assert place.window.bar.line.text() == "ign +40m"
    assert place.card("ignition").at_ms == at("16:58:00")
    place.press(Qt.Key.Key_Return)
    assert place.window.bar.line.text() == ""
    assert place.card("ignition").at_ms == at("17:38:00")
    place.press(Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert place.card("ignition").at_ms == at("16:58:00")
    assert place.card("return").at_ms == at("17:22:00")


# ------------------------------------------------------------------ outcomes


def test_until_a_source_has_said_the_strip_shows_either(place: Place) -> None:
    assert place.fill_at("voice", at("17:15:00")) is Fill.EITHER
    pair = {place.card("return").pair, place.card("return-none").pair}
    assert len(pair) == 1
    assert "" not in pair


def test_a_named_outcome_takes_the_other_from_cards_and_strip(place: Place) -> None:
    before = place.colours_at(0, at("17:13:00"), at("17:21:00"))
    place.enter("burned per flight")
    assert "return-none" not in {card.id for card in place.view.cards}
    assert place.card("return").at_ms == at("17:22:00")
    assert place.fill_at("voice", at("17:15:00")) is Fill.GAP
    assert place.colours_at(0, at("17:13:00"), at("17:21:00")) != before


def test_an_outcome_is_open_again(place: Place) -> None:
    place.enter("burned", "burned undecided")
    assert place.fill_at("voice", at("17:15:00")) is Fill.EITHER
    assert {"return", "return-none"} <= {card.id for card in place.view.cards}


# ------------------------------------------------------------------ lanes


def test_a_loss_seen_early_moves_the_edge_on_the_strip(place: Place) -> None:
    place.go_to("16:51:30")
    place.enter("voice lost now")
    assert place.fill_at("voice", at("16:51:40")) is Fill.GAP
    assert place.fill_at("voice", at("16:51:20")) is Fill.CONTACT


def test_a_return_seen_late_moves_the_card_that_stands_for_it(place: Place) -> None:
    place.enter("burned")
    place.go_to("17:23:30")
    place.enter("voice back 5:23:10p")
    back = next(card for card in place.view.cards if card.id == "return")
    assert back.at_ms == at("17:23:10")
    assert place.fill_at("voice", at("17:22:30")) is Fill.GAP


def test_alone_moves_one_edge_and_shift_the_later_ones_too(place: Place) -> None:
    def lost_ms() -> int:
        column = next(c for c in place.strip._columns.lanes if c.lane == "voice")
        return max(edge.at_ms for edge in column.edges if edge.lost)

    place.enter("burned")
    place.go_to("17:23:30")
    place.enter("voice back 5:23:10p alone")
    assert lost_ms() == at("18:34:00")
    place.press(Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    place.enter("voice back 5:23:10p shift")
    assert lost_ms() == at("18:35:10")


def test_a_closed_lane_is_no_loss_and_opens_again(place: Place) -> None:
    place.enter("voice closed")
    assert place.fill_at("voice", at("16:41:00")) is Fill.CLOSED
    place.go_to("16:42:00")
    place.enter("voice open")
    assert place.fill_at("voice", at("16:42:30")) is Fill.CONTACT
    assert place.fill_at("voice", at("16:41:00")) is Fill.CLOSED


# ------------------------------------------------------------------ events added, notes


def test_an_event_added_at_a_time_has_a_card_and_a_thread(place: Place) -> None:
    place.enter('new "Correction burn" 5:30p')
    added = next(card for card in place.view.cards if card.name == "Correction burn")
    assert added.at_ms == at("17:30:00")
    assert place.thread_of(added.id) == pytest.approx(place.strip.y_of(at("17:30:00")), abs=1)


def test_an_event_added_far_ahead_comes_into_sight_and_is_not_selected(place: Place) -> None:
    place.enter('new "Crew wakes" 15 May 6:00a')
    shown = [row.card.name for row in place.window.timeline.cards.shown if row.card is not None]
    assert "Crew wakes" in shown
    assert place.window.timeline.selected_id == ""


def test_an_event_added_to_another_follows_it(place: Place) -> None:
    place.enter('new "Crew sleeps" ign +40m', "ign +5m")
    added = next(card for card in place.view.cards if card.name == "Crew sleeps")
    assert added.at_ms == at("17:43:00")


def test_a_note_goes_into_the_days_entries_and_moves_nothing(place: Place) -> None:
    before = [card.at_ms for card in place.view.cards]
    place.enter("note line to the hall is noisy")
    assert [card.at_ms for card in place.view.cards] == before
    place.press(Qt.Key.Key_F2)
    selected = place.window.side.day.selected
    assert selected is not None
    assert "line to the hall is noisy" in f"{selected.typed} {selected.meaning}"


# ------------------------------------------------------------------ taking back


def test_any_entry_can_be_taken_back_from_the_list(place: Place) -> None:
    place.enter("go +3m", "photo +2m")
    place.press(Qt.Key.Key_F2)
    place.press(Qt.Key.Key_Down)
    place.press(Qt.Key.Key_Delete)
    assert place.card("go").at_ms == at("16:50:00")
    assert place.card("photo").at_ms == at("17:29:00")
    place.press(Qt.Key.Key_Return)
    assert place.card("go").at_ms == at("16:53:00")


def test_undo_and_redo_bring_everything_back_exactly(place: Place) -> None:
    held, shift = Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.ShiftModifier
    before = [(card.id, card.at_ms) for card in place.view.cards]
    place.enter("ign +2m", "burned", "photo +1m")
    after = [(card.id, card.at_ms) for card in place.view.cards]
    for _ in range(3):
        place.press(Qt.Key.Key_Z, held)
    assert [(card.id, card.at_ms) for card in place.view.cards] == before
    for _ in range(3):
        place.press(Qt.Key.Key_Z, held | shift)
    assert [(card.id, card.at_ms) for card in place.view.cards] == after


# ------------------------------------------------------------------ what cannot be read


@pytest.mark.parametrize("line", ["ignitoin 4:58p", "ign 4:98p", "ign sometime", "ign +5"])
def test_what_cannot_be_read_says_so_with_a_hint_and_is_not_taken(place: Place, line: str) -> None:
    place.type(line)
    shown = place.window.bar.answer.shown
    assert shown.headline
    assert shown.lines
    place.press(Qt.Key.Key_Return)
    assert place.window.bar.line.text() == line
    assert place.desk.entries() == ()


# ------------------------------------------------------------------ the simulated clock


def test_the_bar_steers_a_simulated_clock(place: Place) -> None:
    place.enter("clock rate 60", "clock step 10s")
    assert place.clock.rate == 60
    assert place.clock.now_ms() == NOW_MS + 10 * SECOND_MS
    assert place.view.header.clock in place.window.header.accessibleName()
    place.enter("clock 4:45p")
    assert place.clock.now_ms() == at("16:45:00")
    place.enter("clock go")
    running = not place.clock.paused
    place.enter("clock pause")
    assert running
    assert place.clock.paused
