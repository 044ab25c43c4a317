"""What we do on the air ourselves asks for Enter once more where it breaks something."""

from pathlib import Path

import pytest

from core.session.model import Answer
from tests.core.board.boards import FLIGHT, Seat
from tests.core.board.programmes import on_the_air, row

AGAIN = """
[[item]]
id = "break-5"
kind = "break"
name = "Break 5"
length = "1m"
sponsor = "A"

[[item]]
id = "line"
kind = "remote"
name = "Remote, the cove"
length = "2m"
booked = [["2031-05-14T17:35:00", "2031-05-14T17:50:00"]]
"""


@pytest.fixture
def taken(tmp_path: Path) -> Seat:
    return on_the_air(tmp_path, "16:31", AGAIN)


def asked(taken: Seat, line: str) -> str:
    """What a line is asked for; it is the same in the preview and at Enter, and taken at the next.

    The clock is set by hand, so that both are of one second.
    """
    first = taken.enter(line)
    preview = taken.preview(line)
    assert preview.ask == (first.words if first.answer is Answer.ASKS else "")
    if first.answer is Answer.ASKS:
        assert taken.enter(line, again=True).answer is Answer.DONE
    else:
        assert first.answer is Answer.DONE
    return preview.ask.removeprefix("Enter once more: ")


@pytest.mark.parametrize(
    ("clock", "line", "words"),
    [
        ("16:20", "break 3 at 4:25p", "Break 3: 5 min sooner than it may run"),
        ("16:20", "break 3 now", "Break 3: 10 min sooner than it may run"),
        ("16:51", "break 3 at 4:58:30p", "Break 3: back 2 min 10 s too late for Burn, ignition"),
        ("17:31", "break 3 at 5:32p", "Break 3: 34 min 10 s later than it may run"),
        ("17:31", "break 3 now", "Break 3: 33 min 10 s later than it may run"),
        ("17:31", "line at 5:34p", "Remote, the cove: 1 min outside the hours of its line"),
        ("17:31", "line now", "Remote, the cove: 2 min outside the hours of its line"),
    ],
)
def test_a_place_or_a_beginning_outside_what_an_item_may(
    taken: Seat, clock: str, line: str, words: str
) -> None:
    taken.go_to(clock)
    assert asked(taken, line).startswith(words)


@pytest.mark.parametrize("line", ["break 5 at 4:40p", "break 5 now"])
def test_a_break_of_the_sponsor_of_the_break_before(taken: Seat, line: str) -> None:
    taken.take("break 3 now")
    taken.go_to("16:33:10")
    taken.take("break 3 over")
    taken.go_to("16:40")
    lines = [said.text.partition(";")[0] for said in taken.preview(line).lines]
    assert "Break 5: the same sponsor as Break 3 before it" in lines
    assert "too near to Break 3" in asked(taken, line)


def test_the_same_sponsor_twice_running_far_enough_apart(taken: Seat) -> None:
    taken.take("break 3 now")
    taken.go_to("16:33:10")
    taken.take("break 3 over")
    taken.go_to("17:02:30")
    taken.take("ignition now")
    taken.go_to("17:04")
    words = "Break 5: the same sponsor as Break 3 before it"
    assert taken.preview("break 5 at 5:05p").ask.startswith(f"Enter once more: {words}")
    assert asked(taken, "break 5 now") == words


def test_too_near_to_what_ran_before(taken: Seat) -> None:
    taken.take("break 3 now")
    taken.go_to("16:33:10")
    taken.take("break 3 over")
    taken.go_to("16:33:25")
    assert asked(taken, "hall now") == "Remote, the hall: 5 s too near to Break 3"


def test_what_costs_something_owed_its_place(taken: Seat) -> None:
    taken.go_to("16:52")
    assert row(taken, "break-3").startswith("leave by 4:56")
    assert asked(taken, "stop now") == "no place for break 3"


def test_what_breaks_nothing_is_taken_at_once(taken: Seat) -> None:
    assert asked(taken, "break 3 now") == ""
    taken.go_to("16:33:10")
    assert asked(taken, "break 3 over") == ""


def test_a_start_that_has_gone_by_is_asked_about_once(taken: Seat) -> None:
    taken.go_to("16:35")
    assert asked(taken, "hall at 4:31p") == "4:31:00 p.m. is 4 min ago"


def test_to_leave_the_air_asks_nothing_for_what_it_moves(taken: Seat) -> None:
    taken.take("hall at 4:35p")
    assert asked(taken, "air off until 4:40p") == ""


def test_an_item_that_begins_while_a_live_moment_waits_for_word(tmp_path: Path) -> None:
    given = FLIGHT.replace('live = true\nguard = "3m"', 'live = true\nguard = "3m"\ngive = "2m"')
    taken = on_the_air(tmp_path, "16:50:40", flight=given)
    taken.take("break 3 off")
    assert asked(taken, "stop now") == "there is no word yet of Loss of signal"
    assert taken.view.clear is not None
    assert taken.view.clear.rows[0].words.text.startswith("on the air")


def test_with_word_of_it_the_same_is_taken_at_once(tmp_path: Path) -> None:
    given = FLIGHT.replace('live = true\nguard = "3m"', 'live = true\nguard = "3m"\ngive = "2m"')
    taken = on_the_air(tmp_path, "16:50:40", flight=given)
    taken.take("break 3 off")
    taken.take("loss happened 4:50:10p")
    assert asked(taken, "stop now") == ""
