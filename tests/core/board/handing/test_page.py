"""The handover page: what whoever comes next has to know, each part by its own rule."""

from pathlib import Path

import pytest

from core.board.handing.model import HandPage, HandPart, HandRow, as_text
from core.board.handing.parts import LAST
from core.board.written import Said, Tone
from core.session.model import Answer
from tests.core.board.boards import FLIGHT, Seat, seat
from tests.core.board.programmes import on_the_air

FACTS = """
facts = [
  { text = "Its third flight.", not_before = 2031-05-14T16:55:00 },
  { text = "Six minutes of thrust.", after_confirmed = true },
  { text = "One engine." },
]
"""
HELD = FLIGHT.replace('id = "ignition"\n', f'id = "ignition"{FACTS}', 1)
DUE, SAID, OWED, PROMISES, EMBARGOES, ENTRIES = range(6)


def page(taken: Seat) -> HandPage:
    return taken.desk.hand_page(taken.now_ms)


def rows(taken: Seat, part: int) -> list[tuple[str, str]]:
    """The times and words of one part."""
    return [(row.when, row.words.text) for row in page(taken).parts[part].rows]


@pytest.fixture
def here(tmp_path: Path) -> Seat:
    return on_the_air(tmp_path, "16:35")


# ------------------------------------------------------------------ who


def test_until_somebody_signs_in_the_page_says_so(here: Seat) -> None:
    assert page(here).who == Said("Nobody is signed in", Tone.QUIET)
    assert (here.view.desk, page(here).away) == ("", "")


def test_who_is_there_since_when_and_after_whom_stands_on_top(here: Seat) -> None:
    here.take("sign in AB")
    assert page(here).who.text == "AB since 4:35:00 p.m."
    here.go_to("16:41")
    here.take("sign in CD")
    assert (page(here).who.text, here.view.desk) == ("CD since 4:41:00 p.m.; before, AB", "CD")
    here.go_to("16:42")
    here.take("sign out")
    assert page(here).who.text == "Nobody is signed in; CD was here last"


def test_only_another_who_signs_in_has_the_desk_handed_over(here: Seat) -> None:
    assert not here.take("sign in AB").hands_over
    here.take("sign out")
    assert not here.take("sign in AB").hands_over
    assert here.take("sign in CD").hands_over
    here.take("sign out")
    assert here.take("sign in EF").hands_over
    assert not here.take("note quiet").hands_over


def test_every_entry_has_the_initials_of_who_typed_it(here: Seat) -> None:
    here.take("note before anybody")
    here.take("sign in AB")
    here.take("go +2m")
    here.take("sign in CD")
    here.take("ignition 5:01p per flight")
    assert [row.by for row in here.desk.entries()] == ["", "AB", "AB", "CD", "CD"]


def test_undo_takes_back_what_was_entered_never_who_signed(here: Seat) -> None:
    here.take("go +2m")
    here.take("sign in AB")
    assert here.desk.undo(here.now_ms).words.startswith("Taken back: Go for the burn")
    assert here.desk.undo(here.now_ms).answer is Answer.NOTHING
    assert here.view.desk == "AB"
    signed = here.desk.entries()[-1]
    assert not signed.can_take_back
    assert here.desk.take_back(signed.number, here.now_ms).answer is Answer.NOTHING


def test_one_who_was_here_before_is_told_what_has_changed(here: Seat) -> None:
    here.take("sign in AB")
    here.go_to("16:36")
    here.take("sign in CD")
    assert page(here).away == ""
    here.go_to("16:36:30")
    here.take("school 6:00:45p per flight")
    here.go_to("16:38")
    here.take("sign in AB")
    line = "Since we left: school call and supper are 45 seconds later; nothing else has changed."
    assert here.view.to_say is not None
    assert page(here).away == here.view.to_say.away == line
    here.go_to("16:44")
    assert page(here).away == line
    assert here.view.to_say is not None
    assert here.view.to_say.away == ""


def test_who_comes_back_within_a_minute_was_not_away(here: Seat) -> None:
    here.take("sign in AB")
    here.take("sign out")
    here.go_to("16:35:30")
    here.take("sign in AB")
    assert page(here).away == ""


# ------------------------------------------------------------------ its parts


def test_the_parts_stand_in_their_order_and_say_where_there_is_nothing(here: Seat) -> None:
    parts = page(here).parts
    assert [part.heading for part in parts] == [
        "DUE AND UNCONFIRMED",
        "SAID, BUT NO LONGER TRUE",
        "BREAKS AND ITEMS OWED",
        "PROMISES",
        "EMBARGOES",
        "THE LAST ENTRIES",
    ]
    assert all(part.rows or part.none == "none" for part in parts)


def test_what_is_due_stands_until_it_is_confirmed(here: Seat) -> None:
    here.go_to("16:42:10")
    assert rows(here, DUE) == [("4:40:00 p.m.", "Go for the burn, overdue 2 min 10 s")]
    here.desk.confirm_due(here.now_ms)
    assert rows(here, DUE) == []


def test_what_was_said_and_is_no_longer_true_stands_until_it_is_corrected(here: Seat) -> None:
    here.go_to("16:44")
    here.take("said")
    here.go_to("16:45")
    here.take("loss +3m per flight")
    found = rows(here, SAID)
    assert found
    assert all(when == "4:44:00 p.m." and ": said " in words for when, words in found)
    here.take("waive")
    assert rows(here, SAID) == []


def test_what_is_owed_stands_by_when_it_is_due_or_where_it_is_placed(here: Seat) -> None:
    assert rows(here, OWED) == [
        ("5:00:00 p.m.", "Break 3, owed by then"),
        ("6:30:00 p.m.", "Break 4, owed by then"),
    ]
    here.take("break-4 at 5:15p")
    here.take("break-3 now")
    assert rows(here, OWED) == [
        ("4:35:00 p.m.", "Break 3, on the air"),
        ("5:15:00 p.m.", "Break 4, placed"),
    ]
    here.take("break-3 over")
    here.take("break-4 off")
    assert rows(here, OWED) == [("4:35:00 p.m.", "Break 4: off, to be made good")]


def test_what_was_owed_by_a_time_that_is_past_says_was(here: Seat) -> None:
    here.go_to("17:00:10")
    assert rows(here, OWED)[0] == ("5:00:00 p.m.", "Break 3, was owed by then: no place")


def test_what_is_owed_and_has_no_place_says_so(here: Seat) -> None:
    here.go_to("16:59:30")
    assert rows(here, OWED)[0] == ("5:00:00 p.m.", "Break 3, owed by then: no place")


def test_an_item_that_loses_something_where_it_is_placed_says_what(here: Seat) -> None:
    here.take("break-3 at 4:46p")
    (row, _) = page(here).parts[OWED].rows
    assert row.words.tone is Tone.CLASH
    assert row.words.text.startswith("Break 3, placed: back ")


def test_a_promise_stands_with_its_maker_until_it_is_kept(here: Seat) -> None:
    here.take("sign in AB")
    here.take("promise back to the hall after the burn")
    (row,) = page(here).parts[PROMISES].rows
    assert (row.when, row.words.text, row.by) == (
        "4:35:00 p.m.",
        "back to the hall after the burn",
        "AB",
    )
    here.take("kept hall")
    assert rows(here, PROMISES) == []
    here.desk.undo(here.now_ms)
    assert len(rows(here, PROMISES)) == 1


def test_an_embargo_stands_until_when_and_never_says_what_it_holds(tmp_path: Path) -> None:
    here = seat(tmp_path, "16:41", HELD)
    assert rows(here, EMBARGOES) == [
        ("5:00:00 p.m.", "Burn, ignition: a fact is held until 4:55:00 p.m."),
        ("5:00:00 p.m.", "Burn, ignition: a fact is held until this is confirmed"),
    ]
    assert "third flight" not in as_text(page(here))
    here.go_to("16:56")
    assert len(rows(here, EMBARGOES)) == 1
    here.take("scrub with", "ignition")
    assert rows(here, EMBARGOES) == []


def test_the_last_entries_stand_the_newest_first_without_those_taken_back(here: Seat) -> None:
    here.take("sign in AB")
    for number in range(LAST + 2):
        here.take(f"note line {number} per pool")
    here.desk.undo(here.now_ms)
    found = page(here).parts[ENTRIES].rows
    assert [row.words.text for row in found] == [
        f"line {number}, per pool" for number in range(LAST, 0, -1)
    ]
    assert {row.by for row in found} == {"AB"}


def test_a_plan_without_a_programme_owes_nothing(tmp_path: Path) -> None:
    plain = "\n".join(line for line in FLIGHT.splitlines() if not line.startswith("live"))
    assert rows(seat(tmp_path, text=plain), OWED) == []


# ------------------------------------------------------------------ as text


def test_the_page_as_text_has_every_line() -> None:
    made = HandPage(
        Said("CD since 4:41 p.m."),
        "Since we left: nothing has changed.",
        (HandPart("PROMISES", (HandRow("4:40 p.m.", Said("back soon"), "AB"),)), HandPart("DUE")),
    )
    assert as_text(made).splitlines() == [
        "CD since 4:41 p.m.",
        "Since we left: nothing has changed.",
        "",
        "PROMISES",
        "  4:40 p.m.  back soon  (AB)",
        "",
        "DUE",
        "  none",
    ]
