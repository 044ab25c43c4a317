"""A drop just before a planned loss: once the lane is back, the loss is still to come.

The loss of signal is planned for 4:50 p.m. A drop at 4:48:15 is within two minutes of it, so what
is typed is taken for it, until the voice is back at 4:48:32.
"""

from pathlib import Path

from core.board.model import CardState
from core.entries.model import Observe, standing
from core.session.desk import Desk
from core.session.store import MemoryStore
from tests.core.board.boards import Seat, at_ms, plan_of, seat
from tests.fakes import HandMachine


def dropped(folder: Path, *before: str) -> Seat:
    desk = seat(folder, "16:48:20")
    for line in before:
        desk.take(line)
    desk.take("voice lost 4:48:15p")
    assert desk.card("loss").state is CardState.HAPPENED
    desk.go_to("16:48:40")
    return desk


def left(desk: Seat) -> str:
    lane = desk.view.contact.lanes[0]
    parts = () if lane.figure is None else lane.figure.parts
    return " ".join([*(f"{digits} {unit}" for digits, unit in parts), lane.word])


def test_once_the_lane_is_back_the_planned_loss_is_to_come_at_its_time(tmp_path: Path) -> None:
    desk = dropped(tmp_path)
    desk.take("voice back 4:48:32p")
    card = desk.card("loss")
    assert (card.state, card.at_ms) == (CardState.AHEAD, at_ms("16:50"))
    assert left(desk) == "1 min 20 s left"


def test_the_bar_says_so_before_it_is_entered(tmp_path: Path) -> None:
    desk = dropped(tmp_path)
    said = desk.preview("voice back 4:48:32p").headline
    assert "the loss was a drop, the planned one is to come" in said


def test_a_time_that_the_ground_gave_for_it_before_holds_again(tmp_path: Path) -> None:
    desk = dropped(tmp_path, "loss 4:49:30p per flight")
    desk.take("voice back 4:48:32p")
    assert desk.card("loss").at_ms == at_ms("16:49:30")


def test_and_one_that_it_gives_afterwards_is_taken(tmp_path: Path) -> None:
    desk = dropped(tmp_path)
    desk.take("voice back 4:48:32p")
    desk.take("loss 4:57:54p per flight")
    assert desk.card("loss").at_ms == at_ms("16:57:54")


def test_when_it_comes_it_is_matched_with_it_again(tmp_path: Path) -> None:
    desk = dropped(tmp_path)
    desk.take("voice back 4:48:32p")
    desk.go_to("16:50:04")
    desk.take("voice lost 4:50:02p")
    card = desk.card("loss")
    assert (card.state, card.at_ms) == (CardState.HAPPENED, at_ms("16:50:02"))
    assert desk.view.contact.lanes[0].word.startswith("until back")


def test_a_flicker_after_the_loss_is_none(tmp_path: Path) -> None:
    desk = seat(tmp_path, "16:50:10")
    desk.take("voice lost 4:50:02p")
    desk.go_to("16:50:40")
    desk.take("voice back 4:50:30p")
    assert desk.card("loss").at_ms == at_ms("16:50:02")


def test_taken_back_and_brought_back_the_loss_goes_with_it(tmp_path: Path) -> None:
    desk = dropped(tmp_path)
    desk.take("voice back 4:48:32p")
    desk.desk.undo(desk.now_ms)
    assert desk.card("loss").state is CardState.HAPPENED
    desk.desk.redo(desk.now_ms)
    assert desk.card("loss").state is CardState.AHEAD


def test_a_board_built_anew_stands_as_it_does(tmp_path: Path) -> None:
    plan, store = plan_of(tmp_path), MemoryStore()
    clock = HandMachine.at(0).sim_clock(at_ms("16:48:40"))
    desk = Seat(Desk(plan, clock, store), clock)
    for line in ("voice lost 4:48:15p", "ignition +2m", "voice back 4:48:32p", "cutoff +30s"):
        desk.take(line)
    other = Desk(plan, clock, store).view(desk.now_ms)
    assert list(desk.view.cards) == list(other.cards)
    assert desk.view.contact == other.contact
    lost, _, back, _ = [entry.action for entry in standing(store.entries)]
    assert isinstance(lost, Observe)
    assert lost.edge == ""
    assert isinstance(back, Observe)
    assert back.drop == 1
    assert store.entries[0].action == Observe(
        "voice", lost.change, lost.time_ms, edge="approach.voice.2.lost"
    )
