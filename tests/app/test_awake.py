from dataclasses import dataclass, field

import pytest
from PySide6.QtDBus import QDBusMessage

from app.awake import SERVICE, Awake, session_bus

pytestmark = pytest.mark.usefixtures("qapp")


@dataclass
class FakeBus:
    """A session that promises, or one where nobody answers."""

    answers: bool = True
    calls: list[tuple[str, list[object]]] = field(default_factory=list)
    left: bool = False

    def call(self, message: QDBusMessage, /, *, timeout: int) -> QDBusMessage:
        assert message.service() == SERVICE
        assert timeout <= 1000
        self.calls.append((message.member(), list(message.arguments())))
        if not self.answers:
            return QDBusMessage.createError("org.freedesktop.DBus.Error.ServiceUnknown", "no one")
        return message.createReply(7)

    def leave(self) -> None:
        self.left = True


def test_the_session_is_asked_to_keep_the_screen_on_until_the_board_leaves() -> None:
    bus = FakeBus()
    awake = Awake(bus)
    assert awake.hold()
    assert bus.calls == [("Inhibit", ["Limbwatch", "live coverage"])]
    assert not bus.left
    awake.release()
    assert bus.left


def test_it_is_asked_only_once() -> None:
    bus = FakeBus()
    awake = Awake(bus)
    awake.hold()
    awake.hold()
    assert len(bus.calls) == 1


def test_where_nobody_answers_nothing_is_promised() -> None:
    assert not Awake(FakeBus(answers=False)).hold()


def test_without_a_session_it_does_nothing() -> None:
    awake = Awake(None)
    assert not awake.hold()
    awake.release()


def test_no_bus_is_looked_for_where_there_is_no_session(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("DBUS_SESSION_BUS_ADDRESS", raising=False)
    monkeypatch.delenv("XDG_RUNTIME_DIR", raising=False)
    assert session_bus() is None
