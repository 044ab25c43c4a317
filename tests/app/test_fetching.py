"""Contacts far ahead are fetched in a thread of their own, told of if slow, and taken if wanted."""

import threading
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from app.fetching import Fetcher
from app.skies import hurried_for, skies_for
from core.plan.model import Course, Plan
from core.plan.reader import read_plan
from core.session.desk import Desk
from core.signal.computing import Branch, Spell, Times
from core.signal.hurried import Question
from core.signal.seen import Light, Seen
from core.times.clocks import SimClock
from core.times.instants import rfc3339_to_ms
from tests.core.plan.test_driving import ARRIVAL, AT, PLACE

QUESTION = Question(Branch("arrival", "burned", ("ignition",)), (7,))
SPELL = Spell(Seen((), ()), 0, 9)
NOW_MS = rfc3339_to_ms("2031-05-14T19:00:00Z")


@dataclass
class Sky:
    """Answers when it is let go; knows in which thread it was asked."""

    gate: threading.Event = field(default_factory=threading.Event)
    thread: int = 0

    def branches(self, course: Course) -> tuple[Branch, ...]:
        return (Branch(course.id),)

    def spell(self, branch: Branch, times: Times) -> Spell | None:
        assert (branch, times) == QUESTION
        self.thread = threading.get_ident()
        assert self.gate.wait(20)
        return SPELL

    def light(self, branch: Branch, times: Times, at_ms: int) -> Light | None:
        raise AssertionError((branch, times, at_ms))


@dataclass
class OpenDesk:
    """A desk with one question open."""

    plan: Plan = field(default_factory=lambda: Plan("A day", ("UTC",)))
    questions: tuple[Question, ...] = (QUESTION,)
    taken: list[tuple[Question, Spell | None, int]] = field(default_factory=list)
    told: list[bool] = field(default_factory=list)

    def unsettled(self) -> tuple[Question, ...]:
        return self.questions

    def settle(self, question: Question, spell: Spell | None, now_ms: int) -> None:
        self.taken.append((question, spell, now_ms))
        self.questions = ()

    def working(self, *, on: bool) -> None:
        self.told.append(on)


@pytest.fixture
def sky() -> Sky:
    return Sky()


@pytest.fixture
def desk() -> OpenDesk:
    return OpenDesk()


@pytest.fixture
def fetcher(desk: OpenDesk, sky: Sky) -> Iterator[Fetcher]:
    made = Fetcher(desk, lambda _: sky, lambda: NOW_MS)
    yield made
    sky.gate.set()
    made.stop()


def test_an_answer_is_worked_out_elsewhere_and_taken_here(
    qtbot: QtBot, fetcher: Fetcher, desk: OpenDesk, sky: Sky
) -> None:
    sky.gate.set()
    with qtbot.waitSignal(fetcher.fetched, timeout=10_000):
        fetcher.look()
    assert desk.taken == [(QUESTION, SPELL, NOW_MS)]
    assert sky.thread not in (0, threading.get_ident())


def test_what_takes_long_is_told_of_until_it_is_there(
    qtbot: QtBot, fetcher: Fetcher, desk: OpenDesk, sky: Sky
) -> None:
    with qtbot.waitSignal(fetcher.fetched, timeout=10_000):
        fetcher.look()
    assert (desk.told, desk.taken) == ([True], [])
    with qtbot.waitSignal(fetcher.fetched, timeout=10_000):
        sky.gate.set()
    assert desk.told == [True, False]
    assert len(desk.taken) == 1


def test_an_answer_of_another_plan_is_dropped(
    qtbot: QtBot, fetcher: Fetcher, desk: OpenDesk, sky: Sky
) -> None:
    with qtbot.waitSignal(fetcher.fetched, timeout=10_000):
        fetcher.look()
    desk.plan = Plan("Another", ("UTC",))
    with qtbot.waitSignal(fetcher.fetched, timeout=10_000):
        sky.gate.set()
    assert desk.taken == []


def test_one_that_fails_leaves_the_fetcher_ready_for_the_next(
    qtbot: QtBot, fetcher: Fetcher, desk: OpenDesk, sky: Sky
) -> None:
    sky.gate.set()
    odd = Question(QUESTION.branch, (8,))
    desk.questions = (odd,)
    with qtbot.capture_exceptions() as raised:
        with qtbot.waitSignal(fetcher.fetched, timeout=10_000):
            fetcher.look()
        qtbot.waitUntil(lambda: len(raised) == 1, timeout=10_000)
    assert (desk.taken, desk.told) == ([], [False])
    desk.questions = (QUESTION,)
    with qtbot.waitSignal(fetcher.fetched, timeout=10_000):
        fetcher.look()
    assert desk.taken == [(QUESTION, SPELL, NOW_MS)]


def test_with_nothing_open_no_thread_is_started(desk: OpenDesk, fetcher: Fetcher) -> None:
    desk.questions = ()
    fetcher.look()
    assert not fetcher._stand.isActive()
    assert not fetcher._thread.isRunning()


def test_the_board_of_a_long_plan_comes_to_what_all_at_once_gives(
    qtbot: QtBot, tmp_path: Path
) -> None:
    late = '\n[[event]]\nid = "home"\nat = 2031-05-28T12:00:00Z\n'
    path = tmp_path / "plan.toml"
    text = ARRIVAL.format(ignition=AT.replace("19:58:05", "19:23:00"), place=PLACE)
    path.write_text(text + late, encoding="utf-8")
    plan = read_plan(path)

    quick = Desk(plan, SimClock(NOW_MS, paused=True), skies_for=hurried_for)
    patient = Desk(plan, SimClock(NOW_MS, paused=True), skies_for=skies_for)
    for desk in (quick, patient):
        desk.enter("ignition +90s", "", NOW_MS)
    assert quick.unsettled()
    made = Fetcher(quick, skies_for, lambda: NOW_MS)
    try:
        made.look()
        qtbot.waitUntil(lambda: quick.unsettled() == (), timeout=20_000)
    finally:
        made.stop()
    assert [lane.edges for lane in quick.signal()] == [lane.edges for lane in patient.signal()]
