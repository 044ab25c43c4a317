"""CLEAR UNTIL YOU MUST BE LIVE, TO SAY, check-offs and facts, as they stand in the window."""

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

import pytest
from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QFontMetricsF, QPainter
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from app.desk.ink import Placed
from app.desk.laid_panel import LaidPanel
from app.desk.side import Side
from app.desk.to_say import Length
from app.theme import DARK
from core.board.model import LaneNow, Preview, Said, Tone, View
from core.board.programme import ClearPanel, ItemState, Sentence, ToSay
from tests.app.air_views import (
    CHECK,
    CORRECTION,
    LINE,
    LONG,
    TWENTY,
    clear_panel,
    correction,
    item_row,
    programme_view,
    sentence,
    to_say,
)
from tests.app.desk.seat import CTRL, Seat, seated
from tests.app.desk.test_card_changes import SMOOTHED, furthest_apart
from tests.app.desk.test_renewed import noted
from tests.app.looking import overlaps, pixels
from tests.app.views import arrival_view, figure, last_change, rehearsing

SIZES = [(1280, 720), (1600, 1000), (3840, 2160)]
WINDOWS = pytest.mark.parametrize("size", SIZES, ids=str)
FOLLOW = tuple(Said(f"Event {n} follows, 45 s later", Tone.CHANGE) for n in range(9))


def written(panel: LaidPanel) -> list[Placed]:
    return panel._words


def text_of(panel: LaidPanel) -> str:
    return " ".join(piece.run.text for piece in written(panel))


def ink_of(placed: Placed) -> QRectF:
    """The pixels that a piece of text blackens."""
    box = QFontMetricsF(placed.run.font).tightBoundingRect(placed.run.text)
    return box.translated(placed.left_px, placed.baseline_px)


def piece(panel: LaidPanel, text: str) -> Placed:
    return next(found for found in written(panel) if found.run.text == text)


def panels(side: Side) -> list[QWidget]:
    found = (side.contact, side.clear, side.to_say, side.change, side.if_entered)
    return [panel for panel in found if panel.isVisible()]


def crowded(view: View) -> View:
    """Three lanes, a clock that was stepped, corrections owed, many items."""
    far = "behind the Moon"
    data = LaneNow("data", "Data", "data", figure(468_000), "until back", far, "then back")
    rows = tuple(
        item_row(f"b{n}", f"Break {n}", "2 min", f"fits after {n}:00") for n in range(3, 9)
    )
    clear = replace(clear_panel(), rows=(*clear_panel().rows, *rows))
    told = replace(to_say(), owed=(correction(), correction()), away="Since we left: nothing new.")
    return replace(
        view,
        contact=replace(view.contact, lanes=(*view.contact.lanes, data)),
        clear=clear,
        to_say=told,
        notices=(Said("The clock was set back by 3 s."), Said("The plan has changed on disk.")),
    )


# How the column is shared


@pytest.mark.parametrize("size", [(1024, 600), *SIZES], ids=str)
@pytest.mark.parametrize("typed", ["", "x"], ids=["reading", "typing"])
@pytest.mark.parametrize("full", [False, True], ids=["usual", "crowded"])
def test_the_panels_stand_in_order_and_none_is_cut(
    qtbot: QtBot, size: tuple[int, int], typed: str, full: bool
) -> None:
    view = crowded(programme_view()) if full else programme_view()
    with seated(qtbot, view, size=size) as seat:
        seat.desk.previews["x"] = Preview(headline="later", lines=FOLLOW)
        seat.type(typed)
        side = seat.window.side
        shown = panels(side)
        tiny = size == (1024, 600)  # there the strip and the cards tell of the contact
        assert shown[:3] == [side.contact, side.clear, side.to_say] or tiny
        told = [line.text for line in FOLLOW] if typed else seat.lines
        assert side.if_entered.isVisible() or seat.lines == told
        for above, below in pairwise(shown):
            assert above.geometry().bottom() < below.geometry().top()
        assert shown[-1].geometry().bottom() < side.height()
        for panel in (side.clear, side.to_say):
            bottoms = [found.reach().bottom() for found in written(panel)]
            assert max(bottoms) <= panel.height()
            rights = [found.reach().right() for found in written(panel)]
            assert max(rights) <= panel.width()
        assert not any("…" in found.run.text for found in written(side.to_say))


@WINDOWS
def test_a_sentence_that_has_no_room_is_shown_shorter_and_never_cut(
    qtbot: QtBot, size: tuple[int, int]
) -> None:
    view = replace(programme_view(), to_say=replace(to_say(), sentences=(_long(),)))
    with seated(qtbot, crowded(view), size=size) as seat:
        seat.desk.shown = replace(seat.desk.shown, to_say=ToSay(sentences=(_long(),)))
        seat.pass_time(1)
        seat.press(Qt.Key.Key_L, CTRL)
        panel = seat.window.side.to_say
        assert panel.length is not Length.LONG
        assert f"“{panel.spoken}”" in text_of(panel)
        assert "the panel is full" in text_of(panel)


def _long() -> Sentence:
    return Sentence(LINE, TWENTY, f"{LONG} " * 6, "true for 40 s", 0)


def test_the_last_change_gives_way_before_the_next_items(qtbot: QtBot) -> None:
    with seated(qtbot, crowded(programme_view()), size=(1280, 720)) as seat:
        side = seat.window.side
        assert not side.change.isVisible()
        told = {found.run.text for found in written(side.clear)}
        assert {"Break 3, 2 min 10", "leave by 4:43:50"} <= told
        change = "Last change, 4:38:05 p.m., flight: Loss of signal 1 min 18 later"
        assert seat.lines == [change]  # who said so stands somewhere at every size
        seat.type("a")
        assert seat.lines != [change]


def test_the_next_items_come_before_a_longer_sentence(qtbot: QtBot) -> None:
    with seated(qtbot, rehearsing(programme_view()), size=(1280, 720)) as seat:
        rows, _ = seat.window.side.clear._within(seat.window.side.clear.height())
        assert len(rows) >= 2


def test_quiet_words_of_what_is_owed_give_way_to_the_next_items(qtbot: QtBot) -> None:
    view = crowded(programme_view())
    quiet = Said("all of it fits if the next begins by 4:53:40 p.m.", Tone.QUIET)
    assert view.clear is not None
    view = replace(view, clear=replace(view.clear, owed=(*view.clear.owed, quiet)))
    with seated(qtbot, view, size=(1280, 720)) as seat:
        panel = seat.window.side.clear
        assert quiet.text not in text_of(panel)
        assert "Break 3 is owed" in text_of(panel)
        panel.resize(panel.width(), panel.wanted_px())
        assert quiet.text in text_of(panel)


def test_contact_says_in_a_line_a_lane_what_it_must_where_room_is_short(qtbot: QtBot) -> None:
    with seated(qtbot, crowded(programme_view()), size=(1280, 720)) as seat:
        told = [found.run.text for found in seat.window.side.contact._laid.words]
        assert {"Voice", "Picture", "Data"} <= set(told)
        assert "Data: behind the Moon" in told
        assert not any(text.startswith("then") for text in told)


def test_a_plan_without_a_programme_has_neither_panel(qtbot: QtBot) -> None:
    with seated(qtbot, arrival_view()) as seat:
        side = seat.window.side
        assert panels(side) == [side.contact, side.change]
        seat.desk.shown = programme_view()
        seat.pass_time(1)
        assert panels(side)[:3] == [side.contact, side.clear, side.to_say]
        seat.desk.shown = arrival_view()
        seat.pass_time(1)
        assert panels(side) == [side.contact, side.change]


# Clear time


def _with(view: View, clear: ClearPanel) -> View:
    return replace(view, clear=clear)


@WINDOWS
def test_clear_time_stands_large_with_back_by_at_its_right(
    qtbot: QtBot, size: tuple[int, int]
) -> None:
    with seated(qtbot, programme_view(), size=size) as seat:
        panel = seat.window.side.clear
        minutes, back = piece(panel, "4"), piece(panel, "back by 4:46:00 p.m.")
        assert minutes.baseline_px == back.baseline_px
        assert back.left_px > minutes.left_px
        lane_px = next(
            found.run.font.pixelSize()
            for found in seat.window.side.contact._laid.words
            if found.run.text == "7"
        )
        assert minutes.run.font.pixelSize() > lane_px
        assert "Loss of signal, far side" in text_of(panel)


@pytest.mark.parametrize("lead", ["", "you must be live", "the network has it", "over by"])
@pytest.mark.parametrize("past", [False, True])
def test_whatever_leads_the_figure_nothing_runs_into_anything(
    qtbot: QtBot, lead: str, past: bool
) -> None:
    long = figure(-13_748_000 if past else 13_748_000)
    clear = ClearPanel(long, lead, "back by 4:46:00 p.m. on Thursday", "The school call")
    with seated(qtbot, _with(programme_view(), clear), size=(1280, 720)) as seat:
        panel = seat.window.side.clear
        assert overlaps(map(ink_of, written(panel))) == []
        assert all(found.reach().right() <= panel.width() for found in written(panel))
        assert "back by 4:46:00 p.m. on Thursday" in text_of(panel)


def test_tight_and_no_place_are_said_by_a_word_and_a_tone(qtbot: QtBot) -> None:
    with seated(qtbot, programme_view()) as seat:
        panel = seat.window.side.clear
        tight = piece(panel, "leave by 4:42:00, tight")
        none = piece(panel, "◆ no place")
        usual = piece(panel, "leave by 4:43:50")
        assert tight.run.colour == DARK.change
        assert none.run.colour == DARK.clash
        assert usual.run.colour == DARK.quiet


def test_rows_without_room_are_counted_beside_the_heading(qtbot: QtBot) -> None:
    with seated(qtbot, crowded(programme_view()), size=(1280, 720)) as seat:
        panel = seat.window.side.clear
        shown = [found for found in written(panel) if found.run.text.startswith("fits after")]
        more = next(found for found in written(panel) if found.run.text.endswith(" more"))
        rows = len(panel._within(panel.height())[0])
        assert more.run.text == f"{10 - rows} more"
        assert len(shown) <= rows


def test_what_is_owed_stands_at_the_foot_whatever_the_room(qtbot: QtBot) -> None:
    with seated(qtbot, crowded(programme_view()), size=(1280, 720)) as seat:
        panel = seat.window.side.clear
        assert "Break 3 is owed by 5:00 p.m." in text_of(panel)
        assert "owed" in panel.accessibleDescription()


def test_what_is_on_the_air_stands_out(qtbot: QtBot) -> None:
    row = replace(
        item_row("b", "Break 2", "2 min 10", "on the air, over in 1 min 12 s"),
        state=ItemState.ON_AIR,
    )
    view = _with(programme_view(), replace(clear_panel(), rows=(row, *clear_panel().rows)))
    with seated(qtbot, view) as seat:
        panel = seat.window.side.clear
        running, placed = (next(f for f in written(panel) if f.run.text.startswith(word))
                           for word in ("Break 2", "Break 3"))  # fmt: skip
        assert running.run.font != placed.run.font


def test_a_second_later_only_the_digits_are_painted_anew(qtbot: QtBot) -> None:
    with seated(qtbot, programme_view()) as seat:
        panel = seat.window.side.clear
        before = written(panel)
        later = replace(clear_panel(), figure=figure(287_000))
        seat.desk.shown = _with(seat.desk.shown, later)
        seat.pass_time(1)
        assert [f.run.text for f in written(panel) if f not in before] == ["47"]


@WINDOWS
@pytest.mark.parametrize("part", ["clear", "to_say", "change"])
def test_painting_what_is_renewed_gives_what_painting_all_gives(
    qtbot: QtBot, size: tuple[int, int], part: str
) -> None:
    with seated(qtbot, programme_view(), size=size) as seat:
        side = seat.window.side
        panel = {"clear": side.clear, "to_say": side.to_say, "change": side.change}[part]
        seat.pass_time(1)
        picture = pixels(panel)
        told, clear = replace(sentence(), true_for="true for 39 s"), seat.desk.shown.clear
        assert clear is not None
        rows = (item_row("break-3", "Break 3", "2 min 10", "no place", Tone.CLASH), *clear.rows[1:])
        seat.desk.shown = replace(
            seat.desk.shown,
            clear=replace(clear, figure=figure(287_000), rows=rows),
            to_say=ToSay(sentences=(told,), said="said at 4:41 p.m."),
            last_change=replace(last_change(), when="4:41:13 p.m.", rows=()),
        )
        with noted(panel) as painted:
            seat.pass_time(1)
        if panel.isVisible() and not painted.region.isEmpty():
            with QPainter(picture) as painter:
                painter.setClipRegion(painted.region)
                panel.render(painter, painted.region.boundingRect().topLeft(), painted.region)
        if panel.size() == picture.size():
            assert furthest_apart(picture, pixels(panel)) <= SMOOTHED


# To say


def test_the_sentence_stands_in_quotes_with_how_long_it_is_true(qtbot: QtBot) -> None:
    with seated(qtbot, programme_view()) as seat:
        panel = seat.window.side.to_say
        assert f"“{TWENTY}”" in text_of(panel)
        assert {"true for 40 s", "20 seconds"} <= {found.run.text for found in written(panel)}


@pytest.mark.parametrize(("presses", "word"), [(0, "20 seconds"), (1, "long"), (2, "a line")])
def test_which_length_is_shown_stands_beside_the_heading(
    qtbot: QtBot, presses: int, word: str
) -> None:
    view = replace(programme_view(), last_change=None)
    with seated(qtbot, view, size=(3840, 2160)) as seat:
        seat.press(Qt.Key.Key_L, CTRL, times=presses)
        assert word in {found.run.text for found in written(seat.window.side.to_say)}


def test_a_sentence_of_one_length_names_none(qtbot: QtBot) -> None:
    told = ToSay(sentences=(Sentence(LINE, LINE, LINE, "true for 40 s", 0),))
    with seated(qtbot, replace(programme_view(), to_say=told)) as seat:
        assert "seconds" not in text_of(seat.window.side.to_say)


@WINDOWS
def test_corrections_owed_stand_on_top_until_they_are_said(
    qtbot: QtBot, size: tuple[int, int]
) -> None:
    owed = replace(to_say(), owed=(correction(),))
    with seated(qtbot, replace(programme_view(), to_say=owed), size=size) as seat:
        panel = seat.window.side.to_say
        first = panel._laid(panel.height())[1]
        assert first[0].lines == ("CORRECTION OWED",)
        assert " ".join(first[1].lines) == f"“{CORRECTION}”"
        seat.desk.shown = replace(seat.desk.shown, to_say=to_say())
        seat.pass_time(1)
        assert "CORRECTION" not in text_of(panel)
        assert panel.spoken == TWENTY or size == (1280, 720)


def test_a_line_for_who_rejoins_and_when_it_was_said_stand_below(qtbot: QtBot) -> None:
    told = replace(to_say(), away="Since we left: ignition is 45 seconds later.")
    with seated(qtbot, replace(programme_view(), to_say=told, last_change=None)) as seat:
        written_there = text_of(seat.window.side.to_say)
        order = [TWENTY[:30], "Since we left", "said at 4:40 p.m."]
        assert [written_there.index(part) for part in order] == sorted(
            written_there.index(part) for part in order
        )


def test_when_there_is_nothing_to_say_the_panel_says_so(qtbot: QtBot) -> None:
    with seated(qtbot, replace(programme_view(), to_say=ToSay())) as seat:
        assert text_of(seat.window.side.to_say) == "nothing now"


# Cards


def _card_words(seat: Seat, card_id: str) -> Sequence[str]:
    rows = seat.window.timeline.cards.shown
    row = next(r for r in rows if r.card is not None and r.card.id == card_id)
    return [words.text for words in row.words]


@WINDOWS
def test_the_big_card_always_has_its_check_off(qtbot: QtBot, size: tuple[int, int]) -> None:
    with seated(qtbot, programme_view(), size=size) as seat:
        assert CHECK.text in _card_words(seat, "loss")


def test_another_card_has_it_where_there_is_room_and_when_it_is_selected(qtbot: QtBot) -> None:
    with seated(qtbot, programme_view()) as seat:
        short = any(CHECK.text.startswith(text) for text in _card_words(seat, "ignition") if text)
        seat.window.timeline.select("ignition")
        assert CHECK.text in _card_words(seat, "ignition")
        assert not short or "…" not in " ".join(_card_words(seat, "ignition"))


@WINDOWS
@pytest.mark.parametrize("card_id", ["loss", "ignition"])
def test_the_selected_card_has_its_facts_and_of_a_held_one_only_why(
    qtbot: QtBot, size: tuple[int, int], card_id: str
) -> None:
    with seated(qtbot, programme_view(), size=size) as seat:
        assert "One engine, six minutes." not in " ".join(_card_words(seat, card_id))
        seat.window.timeline.select(card_id)
        told = " ".join(_card_words(seat, card_id))
        assert "One engine, six minutes. (press kit, 12 May)" in told
        rows = seat.window.timeline.cards.shown
        held = next(
            words
            for row in rows
            for words in row.words
            if words.text == "A fact is held until this is confirmed"
        )
        assert held.colour == DARK.quiet


def test_of_many_facts_each_is_whole_or_counted(qtbot: QtBot) -> None:
    view = programme_view()
    fact = view.cards[1].facts[0]
    long = replace(fact, text="One engine, and it burns for about six minutes with 30 kN. " * 2)
    cards = tuple(replace(card, facts=(long,) * 6) for card in view.cards)
    with seated(qtbot, replace(view, cards=cards), size=(1280, 720)) as seat:
        seat.window.timeline.select("loss")
        told = _card_words(seat, "loss")
        assert not any("…" in text for text in told)
        assert any(text.startswith("and ") and text.endswith(" more") for text in told)


@WINDOWS
def test_what_is_lost_stands_on_top_with_its_way_out(qtbot: QtBot, size: tuple[int, int]) -> None:
    words = "Break 3: back 50 s too late for Loss of signal; end break 3 by 4:42:30 p.m."
    broken = replace(clear_panel(), broken=(Said(words, Tone.CLASH),))
    with seated(qtbot, _with(programme_view(), broken), size=size) as seat:
        panel = seat.window.side.clear
        assert "◆ Break 3: back 50 s too late" in text_of(panel)
        assert "end break 3 by 4:42:30 p.m." in text_of(panel)
        lost = next(found for found in written(panel) if found.run.text.startswith("◆ Break 3"))
        assert lost.run.colour == DARK.clash
        assert lost.baseline_px < piece(panel, "4").baseline_px
        assert overlaps(map(ink_of, written(panel))) == []
        assert words in panel.accessibleDescription()
