"""What is to be known of the machine's clock, at the end of the top line: only where it matters."""

from dataclasses import replace
from itertools import pairwise

import pytest
from pytestqt.qtbot import QtBot

from core.board.model import Said
from tests.app.desk.seat import Seat, seated
from tests.app.views import arrival_view

ALONE = "clock not synchronised"


def written(seat: Seat) -> list[str]:
    """All words of the top line, from left to right."""
    words = sorted(seat.window.header._words, key=lambda piece: piece.left_px)
    return [piece.run.text for piece in words]


@pytest.mark.parametrize("size", [(1024, 600), (1280, 720), (1600, 1000)])
def test_it_stands_after_the_status_before_whether_all_is_kept(
    qtbot: QtBot, size: tuple[int, int]
) -> None:
    shown = arrival_view()
    header = replace(shown.header, trust=ALONE, status=Said("On the air"))
    with seated(qtbot, replace(shown, header=header, saved="not saved"), size=size) as seat:
        assert written(seat)[-3:] == ["On the air", ALONE, "not saved"]
        last = max(seat.window.header._words, key=lambda piece: piece.left_px)
        assert last.left_px + last.run.width_px <= seat.window.header.width() + 1


def test_a_clock_that_is_set_right_is_not_spoken_of(qtbot: QtBot) -> None:
    with seated(qtbot, replace(arrival_view(), saved="")) as seat:
        assert not any("clock" in text for text in written(seat))


def test_no_clock_of_the_line_is_cut_for_it(qtbot: QtBot) -> None:
    shown = arrival_view()
    long = Said("On the air; break 4 and break 5 are owed by 5:00 p.m.")
    header = replace(shown.header, trust=ALONE, status=long, title="Petrel 4 and its lander")
    with seated(qtbot, replace(shown, header=header, saved="writing …"), size=(1280, 720)) as seat:
        texts = written(seat)
        assert shown.header.clock in texts
        assert shown.header.utc in texts
        assert ALONE in texts
        pieces = sorted(seat.window.header._words, key=lambda piece: piece.left_px)
        for one, other in pairwise(pieces):
            assert one.left_px + one.run.width_px <= other.left_px + 1
