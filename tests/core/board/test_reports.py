from pathlib import Path

import pytest

from core.board.written import Tone
from tests.core.board.boards import FLIGHT, Seat, seat

CHECKED = FLIGHT.replace('name = "VOICE"', 'name = "VOICE"\ndelay = "4s"').replace(
    'name = "PICTURE"',
    """name = "PICTURE"
delay = "9s"

[air]
delay = "7s"

[[checkoff]]
id = "clamps"
name = "Clamps released"
of = "go"
count = 8
enough = 4
spaced = true""",
)


@pytest.fixture
def desk(tmp_path: Path) -> Seat:
    return seat(tmp_path, text=CHECKED)


def checks(desk: Seat) -> list[str]:
    return [said.text for said in desk.card("go").checks]


def test_a_check_off_stands_on_the_card_of_its_event_from_the_start(desk: Seat) -> None:
    assert checks(desk) == ["Clamps released: 0 of 8 heard, 4 evenly spread will do"]
    assert desk.card("go").checks[0].tone is Tone.QUIET
    assert desk.card("ignition").checks == ()


def test_the_last_count_that_stands_is_on_the_card(desk: Seat) -> None:
    desk.take("clamps 3")
    assert checks(desk) == ["Clamps released: 3 of 8; 4 evenly spread are needed"]
    desk.take("clamps 1 3 5 7")
    assert checks(desk) == ["Clamps released: 4 of 8, evenly spread: enough"]
    desk.desk.undo(desk.now_ms)
    assert checks(desk) == ["Clamps released: 3 of 8; 4 evenly spread are needed"]


def test_one_more_than_the_named_ones_is_counted_without_a_name(desk: Seat) -> None:
    desk.take("clamps 1 3 5")
    desk.take("clamps +1")
    assert checks(desk)[0].endswith("name them")


def test_contact_says_how_late_lanes_come_and_when_viewers_see_it(desk: Seat) -> None:
    told = "Voice comes 4 s late, picture 9 s; viewers see it 7 s later"
    assert desk.view.contact.delays == (told,)


def test_a_delay_to_the_viewers_alone_is_said_alone(tmp_path: Path) -> None:
    text = FLIGHT.replace("[lane.voice]", '[air]\ndelay = "1m 5s"\n\n[lane.voice]')
    assert seat(tmp_path, text=text).view.contact.delays == ("Viewers see it 1 min 05 s later",)


def test_without_delays_contact_says_nothing_of_them(tmp_path: Path) -> None:
    assert seat(tmp_path).view.contact.delays == ()


@pytest.mark.parametrize(
    ("shown", "words"),
    [
        ("4:41:03p", "is 9 s behind ours, seen 4:41 p.m."),
        ("4:41:15p", "is 3 s ahead of ours, seen 4:41 p.m."),
        ("4:41:12p", "agrees with ours, seen 4:41 p.m."),
        ("4:39:00p", "is 2 min 12 s behind ours, seen 4:41 p.m."),
    ],
)
def test_a_clock_seen_in_the_picture_is_told_against_ours(
    desk: Seat, shown: str, words: str
) -> None:
    desk.take(f"picture clock {shown}")
    desk.go_to("16:45")
    assert f"The clock in the picture {words}" in desk.view.contact.delays


def test_the_last_clock_seen_counts_and_can_be_taken_back(desk: Seat) -> None:
    desk.take("picture clock 4:41:03p")
    desk.go_to("16:43")
    desk.take("picture clock 4:42:50p")
    last = "The clock in the picture is 10 s behind ours, seen 4:43 p.m."
    assert last in desk.view.contact.delays
    desk.desk.undo(desk.now_ms)
    before = "The clock in the picture is 9 s behind ours, seen 4:41 p.m."
    assert before in desk.view.contact.delays
    assert last not in desk.view.contact.delays


def test_a_fact_heard_late_says_when_it_was_and_when_it_was_heard(desk: Seat) -> None:
    desk.take("go now on picture")
    card = desk.card("go")
    assert card.clock == "4:41:03 p.m."
    assert card.note.text == "1 min 03 later; heard 4:41:12 p.m."


def test_a_fact_corrected_by_a_clock_time_was_not_heard_late(desk: Seat) -> None:
    desk.take("go now on picture")
    desk.take("go happened 4:41:02p")
    assert desk.card("go").note.text == "1 min 02 later"


def test_a_loss_heard_late_says_both_times_too(desk: Seat) -> None:
    desk.go_to("16:49:50")
    desk.take("voice lost now")
    card = desk.card("loss")
    assert card.clock == "4:49:46 p.m."
    assert card.note.text == "14 s earlier; heard 4:49:50 p.m."


def test_a_loss_corrected_on_its_card_was_not_heard_late(desk: Seat) -> None:
    desk.go_to("16:49:50")
    desk.take("voice lost now")
    desk.take("loss happened 4:49:40p")
    assert desk.card("loss").note.text == "20 s earlier"
