"""A session's file kept before entries had initials, opened by this program and gone on with."""

import json
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.entries.aired import aired
from core.entries.at_desk import turns
from core.entries.model import Entry, standing
from core.session.codec import entry_of, entry_text
from core.session.database import connect, prepare
from core.session.desk import Desk
from core.session.keeping import about_text
from core.session.opening import reopen
from core.session.sealing import sealed, unsealed
from core.session.sqlite_store import SqliteStore
from core.session.writing import begin
from tests.core.board.boards import FLIGHT, Seat, seat
from tests.core.board.programmes import PROGRAMME, on_the_air
from tests.core.session.days import about, as_read, kept_in, plan
from tests.fakes import HandMachine

OLD = (
    (
        '{"v":1,"number":1,"at_ms":1936207863000,"typed":"liftoff +2m per flight",'
        '"source":"flight","forced":false,"rehearsal":false,"do":"revise","with":{"event":"liftoff",'
        '"time_ms":1936207980000}}'
    ),
    (
        '{"v":1,"number":2,"at_ms":1936207864000,"typed":"note all quiet","source":"",'
        '"forced":false,"rehearsal":false,"do":"note","with":{"text":"all quiet"}}'
    ),
    (
        '{"v":1,"number":3,"at_ms":1936207865000,"typed":"","source":"","forced":false,'
        '"rehearsal":false,"do":"clock-step","with":{"by_ms":-3000,"slept":false}}'
    ),
)
"""As they were kept by the first version, to the letter."""


@pytest.fixture
def older(tmp_path: Path) -> Path:
    """A whole file of that version."""
    path = tmp_path / "day.session"
    with closing(connect(path)) as database:
        prepare(database)
        bodies = [(number, sealed(body)) for number, body in enumerate(OLD, 1)]
        begin(database, about_text(about()), bodies, 1_936_207_866_000)
    return path


def bodies(path: Path) -> list[str]:
    with closing(sqlite3.connect(path)) as database:
        rows = database.execute("SELECT body FROM entry ORDER BY number")
        return [unsealed(str(body)) for (body,) in rows]


def test_an_older_sessions_entries_were_typed_by_nobody_by_name(older: Path) -> None:
    opened = reopen(older, as_read)
    assert isinstance(opened.store, SqliteStore)
    opened.store.let_go()
    assert [entry.by for entry in opened.store.entries] == ["", "", ""]
    assert opened.said == ""


def test_an_older_session_is_gone_on_with_and_its_entries_stay_as_they_were(older: Path) -> None:
    opened = reopen(older, as_read)
    store = opened.store
    assert isinstance(store, SqliteStore)
    store.start()
    clock = HandMachine.at(1_936_207_900_000).real_clock()
    here = Seat(Desk(plan(), clock, store), clock)
    here.take("sign in AB")
    here.take("note still quiet")
    store.close()
    kept = bodies(older)
    assert tuple(kept[:3]) == OLD
    assert [json.loads(body)["by"] for body in kept[3:]] == ["AB", "AB"]
    again = reopen(older, as_read)
    assert isinstance(again.store, SqliteStore)
    again.store.let_go()
    assert [entry.by for entry in again.store.entries] == ["", "", "", "AB", "AB"]


@pytest.mark.parametrize("body", OLD)
def test_an_older_entry_is_written_again_to_the_letter(body: str) -> None:
    assert entry_text(entry_of(body, as_read)) == body


def test_a_session_where_nobody_signs_can_be_read_by_the_first_version(tmp_path: Path) -> None:
    path = tmp_path / "day.session"
    entries = [entry_of(body, as_read) for body in OLD]
    with kept_in(path) as keeper:
        keeper.keep(entries)
        keeper.until("")
    assert tuple(bodies(path)) == OLD


# ------------------------------------------------------------------ a day of signings, kept

LINES = (
    *("sign in AB", "sign in CD", "sign out", "promise back to the hall", "promise the crew first"),
    *("kept", "kept hall", "picture delay 9s", "picture delay 0s", "note quiet", "go +2m"),
    *("picture lost now", "said", "break 3 off", "undo", "undo"),
)


@given(st.lists(st.tuples(st.sampled_from(LINES), st.integers(0, 90_000)), max_size=12))
@settings(max_examples=25, deadline=None)
def test_a_day_of_signings_and_promises_comes_back_as_it_was(
    tmp_path_factory: pytest.TempPathFactory, lines: list[tuple[str, int]]
) -> None:
    folder = tmp_path_factory.mktemp("day")
    here = on_the_air(folder)
    for line, wait_ms in lines:
        here.clock.step(wait_ms)  # type: ignore[union-attr]  # it is simulated
        if line == "undo":
            here.desk.undo(here.now_ms)
        else:
            here.enter(line)
            here.enter(line, again=True)
    entries = tuple(here.desk._session.store.entries)
    again = tuple(entry_of(entry_text(entry), as_read) for entry in entries)
    assert again == entries
    other = seat(folder, "16:41:12", FLIGHT + PROGRAMME)
    for entry in again:
        other.desk._session.keep(entry)
    other.clock.jump(here.now_ms)  # type: ignore[union-attr]  # likewise
    other.desk._session.rebuild(here.now_ms)
    assert other.desk.hand_page(here.now_ms) == here.desk.hand_page(here.now_ms)
    assert other.view.contact == here.view.contact
    _agrees(entries, here.view.desk)


def _agrees(entries: tuple[Entry, ...], there: str) -> None:
    """The initials on each entry are those of whoever was there by the signings before it."""
    stand = standing(entries)
    assert aired(stand).desk == there
    found = turns(stand)
    for entry in entries:
        at = [turn for turn in found if turn.from_ms <= entry.at_ms]
        names = {turn.who for turn in at if turn.until_ms is None or entry.at_ms <= turn.until_ms}
        assert entry.by in names | {""}
