"""What the machine says of its clock: kept where it changes, shown where it matters."""

from pathlib import Path

import pytest

from core.entries.model import ClockTold
from core.session.desk import Desk
from core.session.model import Answer
from core.session.store import MemoryStore
from core.times.trust import NOT_TOLD, ClockTrust, Trust
from tests.core.board.boards import Seat, at_ms, plan_of, seat
from tests.fakes import HandMachine

FINE = ClockTrust(Trust.SYNCHRONISED, 3)
ALONE = ClockTrust(Trust.ALONE)
OFF = ClockTrust(Trust.SYNCHRONISED, 820)


class ReadsOnly(MemoryStore):
    """Another window writes."""

    reads_only = True


def on_a_real_clock(folder: Path, store: MemoryStore | None = None) -> Seat:
    clock = HandMachine.at(at_ms("16:41:12")).real_clock()
    return Seat(Desk(plan_of(folder), clock, store), clock)


def kept(taken: Seat) -> list[str]:
    return [row.meaning for row in taken.desk.entries()]


@pytest.mark.parametrize(
    ("told", "line", "words"),
    [
        (FINE, "", "The machine's clock is synchronised"),
        (ALONE, "clock not synchronised", "The machine's clock is not synchronised"),
        (
            OFF,
            "clock may be 0.8 s off",
            "The machine's clock is synchronised, but may be 0.8 s off by its own estimate",
        ),
        (NOT_TOLD, "", "Whether the machine's clock is synchronised is not known"),
        (ClockTrust(Trust.SYNCHRONISED, 500), "", "The machine's clock is synchronised"),
    ],
)
def test_the_header_tells_of_it_only_where_it_matters(
    tmp_path: Path, told: ClockTrust, line: str, words: str
) -> None:
    here = on_a_real_clock(tmp_path)
    assert here.view.header.trust == ""
    here.desk.clock_told(told, here.now_ms)
    assert here.view.header.trust == line
    assert told.matters is bool(line)
    assert kept(here) == [words]


def test_only_what_has_changed_is_kept(tmp_path: Path) -> None:
    here = on_a_real_clock(tmp_path)
    for told in (FINE, ClockTrust(Trust.SYNCHRONISED, 90), ALONE, ALONE, OFF, OFF, FINE):
        here.desk.clock_told(told, here.now_ms)
    store = [e.action for e in here.desk._session.store.entries]
    assert store == [ClockTold(FINE), ClockTold(ALONE), ClockTold(OFF), ClockTold(FINE)]


def test_nobody_typed_it_and_no_undo_takes_it_back(tmp_path: Path) -> None:
    here = on_a_real_clock(tmp_path)
    here.take("sign in AB")
    here.desk.clock_told(ALONE, here.now_ms)
    row = here.desk.entries()[-1]
    assert (row.by, row.typed, row.can_take_back) == ("", "", False)
    assert here.desk.undo(here.now_ms).answer is Answer.NOTHING


def test_it_moves_nothing_and_is_no_last_change(tmp_path: Path) -> None:
    here = on_a_real_clock(tmp_path)
    here.take("supper +2m")
    before = here.view
    here.desk.clock_told(ALONE, here.now_ms)
    assert here.view.last_change == before.last_change
    assert list(here.view.cards) == list(before.cards)


def test_a_window_that_only_reads_shows_it_and_keeps_nothing(tmp_path: Path) -> None:
    here = on_a_real_clock(tmp_path, ReadsOnly())
    here.desk.clock_told(ALONE, here.now_ms)
    assert here.view.header.trust == "clock not synchronised"
    assert kept(here) == []


def test_a_rehearsal_never_shows_it(tmp_path: Path) -> None:
    here = seat(tmp_path)
    here.desk.clock_told(ALONE, here.now_ms)
    assert here.view.header.trust == ""
