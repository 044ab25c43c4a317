"""The clock under the desk: stepped, slept through, and steered from the bar."""

from pathlib import Path

import pytest

from core.board.model import Figure, Tone
from core.entries.model import ClockStep
from core.session.desk import Desk
from core.session.model import Answer
from core.session.store import MemoryStore
from core.times.clocks import SimClock
from tests.core.board.boards import Seat, at_ms, plan_of, seat, shown
from tests.fakes import HandMachine


class Watched:
    """A desk on a fake machine's real clock, watched at each second as a window does."""

    def __init__(self, folder: Path, clock: str = "16:41:12") -> None:
        self.machine = HandMachine.at(at_ms(clock))
        self.clock = self.machine.real_clock()
        self.store = MemoryStore()
        self.seat = Seat(Desk(plan_of(folder), self.clock, self.store), self.clock)

    def tick(self) -> None:
        step = self.clock.watch()
        if step is not None:
            self.seat.desk.clock_stepped(step.by_ms, step.slept, self.clock.now_ms())

    def lines(self) -> list[str]:
        return [said.text for said in self.seat.view.notices]

    def steps(self) -> list[ClockStep]:
        return [e.action for e in self.store.entries if isinstance(e.action, ClockStep)]


def seconds(figure: Figure | None) -> int:
    assert figure is not None
    units_s = {"d": 86_400, "h": 3_600, "min": 60, "s": 1}
    return sum(int(digits) * units_s[unit] for digits, unit in figure.parts)


def right(watched: Watched) -> bool:
    """Every exact countdown ahead is the shown time less the wall, whatever the clock did."""
    view = watched.seat.view
    cards = [card for card in view.cards[view.next_index :] if card.figure is not None]
    return all(
        card.figure is None
        or card.figure.about
        or seconds(card.figure) == ((card.at_ms or 0) // 1000) - watched.clock.now_ms() // 1000
        for card in cards
    )


@pytest.mark.parametrize(
    ("by_ms", "said"),
    [
        (-3_000, "The machine's clock was put back by 3 s"),
        (40_000, "The machine's clock was put forward by 40 s"),
    ],
)
def test_a_stepped_clock_is_told_in_one_line_and_leaves_no_countdown_wrong(
    tmp_path: Path, by_ms: int, said: str
) -> None:
    desk = Watched(tmp_path)
    desk.machine.run(1_000)
    desk.tick()
    desk.machine.set_clock(by_ms)
    desk.tick()
    assert desk.lines() == [f"{said}; every countdown is right again"]
    assert right(desk)
    assert desk.steps() == [ClockStep(by_ms, slept=False)]


def test_a_slept_machine_is_told_in_one_line_and_recorded(tmp_path: Path) -> None:
    desk = Watched(tmp_path)
    desk.machine.sleep(600_000)
    desk.tick()
    assert desk.lines() == ["The machine slept for 10 min; every countdown is right again"]
    assert desk.steps() == [ClockStep(600_000, slept=True)]
    assert right(desk)
    assert desk.seat.view.header.clock == "4:51:12 p.m."


def test_a_clock_that_only_runs_is_not_spoken_of(tmp_path: Path) -> None:
    desk = Watched(tmp_path)
    for _ in range(5):
        desk.machine.run(1_000)
        desk.tick()
    assert desk.lines() == []
    assert desk.steps() == []


def test_the_line_about_the_clock_goes_after_some_minutes_and_its_entry_stays(
    tmp_path: Path,
) -> None:
    desk = Watched(tmp_path)
    desk.machine.set_clock(40_000)
    desk.tick()
    assert desk.seat.view.notices[0].tone is Tone.CHANGE
    desk.machine.run(301_000)
    assert desk.lines() == []
    row = desk.seat.desk.entries()[0]
    assert row.meaning == "The machine's clock was put forward by 40 s"
    assert not row.can_take_back


def test_what_the_clock_did_is_not_taken_back_by_undo(tmp_path: Path) -> None:
    desk = Watched(tmp_path)
    desk.seat.take("supper +2m")
    desk.machine.set_clock(40_000)
    desk.tick()
    assert desk.seat.desk.undo(desk.clock.now_ms()).words.startswith("Taken back: Supper")
    assert desk.seat.desk.take_back(2, desk.clock.now_ms()).answer is Answer.NOTHING
    assert len(desk.steps()) == 1


def test_a_held_count_keeps_what_was_left_over_a_step_and_a_sleep(tmp_path: Path) -> None:
    desk = Watched(tmp_path)
    desk.seat.take("ignition hold")
    desk.machine.set_clock(-3_000)
    desk.tick()
    assert shown(desk.seat.card("ignition").figure) == "18 min 48 s"
    desk.machine.sleep(600_000)
    desk.tick()
    assert shown(desk.seat.card("ignition").figure) == "18 min 48 s"


# ----- a simulated clock, steered from the bar


def sim(desk: Seat) -> SimClock:
    assert isinstance(desk.clock, SimClock)
    return desk.clock


def test_the_bar_steers_a_simulated_clock_and_makes_no_entry(tmp_path: Path) -> None:
    desk = seat(tmp_path)
    desk.take("clock pause")
    assert sim(desk).paused
    badge = desk.view.rehearsal
    assert badge is not None
    assert badge.paused
    desk.take("clock go")
    assert not sim(desk).paused
    desk.take("clock rate 60")
    assert sim(desk).rate == 60
    badge = desk.view.rehearsal
    assert badge is not None
    assert badge.rate == "60"
    desk.take("clock step 5m")
    assert desk.now_ms == at_ms("16:46:12")
    desk.take("clock step -1m")
    assert desk.now_ms == at_ms("16:45:12")
    desk.take("clock 4:30p")
    assert desk.now_ms == at_ms("16:30")
    assert desk.desk.entries() == ()


def test_next_goes_to_a_minute_before_the_next_event(tmp_path: Path) -> None:
    desk = seat(tmp_path)
    desk.take("clock next")
    assert desk.now_ms == at_ms("16:49")


def test_a_rate_below_one_is_shown_as_it_is(tmp_path: Path) -> None:
    desk = seat(tmp_path)
    desk.take("clock rate 1/10")
    badge = desk.view.rehearsal
    assert badge is not None
    assert badge.rate == "0.1"


def test_a_held_count_slides_when_the_clock_is_put_on(tmp_path: Path) -> None:
    desk = seat(tmp_path)
    desk.take("ignition hold")
    desk.take("clock step 2m")
    assert desk.card("ignition").at_ms == at_ms("17:02")


def test_nobody_sets_the_real_clock_from_here(tmp_path: Path) -> None:
    desk = Watched(tmp_path)
    taken = desk.seat.enter("clock pause")
    assert taken.answer is Answer.REFUSED
    assert "real clock" in taken.words


def test_a_rate_typed_while_the_clock_stands_says_that_it_stands(tmp_path: Path) -> None:
    desk = seat(tmp_path)
    desk.take("clock pause")
    said = "The clock runs at 10 times the real one, once it goes: it stands until clock go"
    assert desk.preview("clock rate 10").headline == said
    assert desk.enter("clock rate 10").words == said
    assert desk.view.rehearsal is not None
    assert desk.view.rehearsal.paused
    desk.take("clock go")
    assert desk.preview("clock rate 60").headline == "The clock runs at 60 times the real one"
