"""'No place' stands only where there is none, whatever moves: panel, rows and proposal agree."""

import random
from collections.abc import Callable
from pathlib import Path

import pytest

from core.board.model import Tone
from tests.core.board.boards import Seat, at_ms
from tests.core.board.programmes import on_the_air, owed, row

Sit = Callable[..., Seat]

_FIGURES = ("ignition +2m", "ignition -3m", "loss 4:49p", "school 5:52p", "stop at 4:52:40p")

_TWO = """
[[item]]
id = "{0}"
kind = "studio"
name = "{1}"
length = "{2}"
owed = true
earliest = 2031-05-14T{3}:00
latest = 2031-05-14T{4}:00
"""


@pytest.fixture
def sit(tmp_path: Path) -> Sit:
    """Sits down at a desk with the small programme."""

    def made(clock: str, more: str = "") -> Seat:
        return on_the_air(tmp_path, clock, more)

    return made


def status(taken: Seat) -> str:
    return taken.view.header.status.text


def test_what_fits_if_something_placed_moves_is_not_said_to_have_no_place(sit: Sit) -> None:
    taken = sit("16:50:30")
    taken.take("stop at 4:51:30p")
    assert owed(taken)[0] == "break 3 fits only if others move: place says how"
    assert row(taken, "break-3") == "if others move"
    assert status(taken) == "On the air; break 3 is owed by 5:00 p.m."
    assert not taken.desk.proposed(taken.now_ms).left
    taken.take("place")
    assert not any("break 3" in each for each in owed(taken))


def test_what_has_no_place_even_then_says_so(sit: Sit) -> None:
    taken = sit("16:50:30")
    taken.take("stop at 4:51:30p")
    taken.go_to("16:57:51")
    assert owed(taken)[0] == "no place for break 3"
    assert row(taken, "break-3") == "no place"


def test_of_two_that_have_a_place_each_but_not_together_it_says_beside_what(sit: Sit) -> None:
    first = _TWO.format("east", "Word from the east", "8m", "17:31", "17:45")
    taken = sit("17:20", first + _TWO.format("west", "Word from the west", "9m", "17:31", "17:45"))
    assert owed(taken)[1] in (
        "no place for word from the east beside word from the west",
        "no place for word from the west beside word from the east",
    )
    words = taken.desk.no_place_words(taken.now_ms)
    assert words[1].lower() == owed(taken)[1]


def test_one_that_is_homeless_already_is_not_asked_about_again_in_other_words(sit: Sit) -> None:
    first = _TWO.format("east", "Word from the east", "8m", "17:31", "17:45")
    taken = sit("17:20", first + _TWO.format("west", "Word from the west", "9m", "17:31", "17:45"))
    homeless = taken.desk.on_air(taken.now_ms).panel.homeless
    other = "west" if "east" in homeless else "east"
    taken.go_to("17:31:10")
    assert taken.preview(f"{other} now").ask == ""


def test_an_item_nobody_is_owed_has_no_room_beside_what_is_placed(sit: Sit) -> None:
    lone = _TWO.format("word", "A word", "3m", "17:01", "17:08").replace("owed = true\n", "")
    taken = sit("16:55", lone)
    taken.take("stop at 5:02:00p")
    assert row(taken, "word") == "no room beside what is placed"


@pytest.mark.parametrize("number", range(16))
def test_at_any_second_it_says_no_place_of_those_that_no_proposal_has_one_for(
    number: int, sit: Sit
) -> None:
    chance = random.Random(number)
    taken = sit("16:30")
    for line in chance.sample(_FIGURES, number % 3):
        taken.take(line)
    for second in sorted(chance.sample(range(5400), 12)):
        now_ms = at_ms("16:30") + second * 1000
        panel = taken.desk.on_air(now_ms).panel
        left = {each.items[0] for each in taken.desk.proposed(now_ms).left}
        assert {*panel.homeless} == left
        red = [r for r in panel.rows if r.owed and r.words.text == "no place"]
        assert {r.item for r in red} <= left
        told = [said for said in panel.owed if said.text.startswith("no place")]
        assert len(told) == len(left)
        assert all(said.tone is Tone.CLASH for said in told)
