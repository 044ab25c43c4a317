import logging
from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import qWarning
from pytestqt.qtbot import QtBot

from app.crash import Alarm, state_folder

pytestmark = pytest.mark.usefixtures("qapp")


@pytest.fixture
def alarm(tmp_path: Path, caplog: pytest.LogCaptureFixture) -> Iterator[Alarm]:
    made = Alarm(tmp_path / "state" / "limbwatch.log")
    yield made
    made.remove()
    caplog.get_records("call").clear()  # each of these tests logs on purpose


def _fail() -> ZeroDivisionError:
    try:
        1 / 0  # noqa: B018  # it is there to fail
    except ZeroDivisionError as error:
        return error
    raise AssertionError


def test_an_error_is_said_in_one_line_and_logged_in_full(alarm: Alarm) -> None:
    said: list[str] = []
    alarm.raised.connect(said.append)
    error = _fail()
    alarm.error(type(error), error, error.__traceback__)
    assert len(said) == 1
    assert "\n" not in said[0]
    assert "division by zero" in said[0]
    logged = alarm.log_path.read_text(encoding="utf-8")
    assert "Traceback" in logged
    assert "_fail" in logged


def test_an_error_in_saying_it_is_logged_and_goes_no_further(alarm: Alarm) -> None:
    def fails_itself(_line: str) -> None:
        error = _fail()
        alarm.error(type(error), error, error.__traceback__)

    alarm.raised.connect(fails_itself)
    error = _fail()
    alarm.error(type(error), error, error.__traceback__)
    assert alarm.log_path.read_text(encoding="utf-8").count("Traceback") == 2


def test_a_log_that_cannot_be_written_stops_nothing(
    tmp_path: Path, qtbot: QtBot, caplog: pytest.LogCaptureFixture
) -> None:
    in_the_way = tmp_path / "file"
    in_the_way.write_text("", encoding="utf-8")
    alarm = Alarm(in_the_way / "limbwatch.log")
    error = _fail()
    with qtbot.waitSignal(alarm.raised, timeout=1000):
        alarm.error(type(error), error, error.__traceback__)
    caplog.clear()


def test_what_qt_says_goes_to_the_log(alarm: Alarm, caplog: pytest.LogCaptureFixture) -> None:
    with caplog.at_level(logging.WARNING, logger="limbwatch"):
        alarm.install()
        qWarning("a pixmap was empty")
        alarm.remove()
    assert "a pixmap was empty" in caplog.text
    caplog.clear()


def test_the_log_stands_where_the_system_keeps_state(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setattr("sys.platform", "linux")
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path))
    assert state_folder() == tmp_path / "limbwatch"
