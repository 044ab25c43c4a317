"""Keeps the screen awake while the board is open, where the session bus allows it."""

import os

from PySide6.QtCore import QObject
from PySide6.QtDBus import QDBusConnection, QDBusMessage

# The interface and its path: freedesktop.org, 'Idle Inhibition Service Draft'.
SERVICE = "org.freedesktop.ScreenSaver"
_PATH = "/org/freedesktop/ScreenSaver"
_WAIT_MS = 1000


class Awake(QObject):
    """Asks the session not to blank the screen; silently does nothing where nobody can.

    `bus` is the session bus, or None where there is none (see `session_bus`).
    """

    def __init__(self, bus: QDBusConnection | None, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._bus = bus
        self._cookie: int | None = None

    @property
    def held(self) -> bool:
        """Whether the session has promised to keep the screen on."""
        return self._cookie is not None

    def hold(self) -> None:
        """Keep the screen on from now."""
        if self._cookie is None:
            answer = self._call("Inhibit", ["Limbwatch", "live coverage"])
            if answer and isinstance(answer[0], int):
                self._cookie = answer[0]

    def release(self) -> None:
        """Let the screen sleep again."""
        if self._cookie is not None:
            self._call("UnInhibit", [self._cookie])
            self._cookie = None

    def _call(self, method: str, words: list[str] | list[int]) -> list[object]:
        if self._bus is None:
            return []
        message = QDBusMessage.createMethodCall(SERVICE, _PATH, SERVICE, method)
        message.setArguments(words)
        answer = self._bus.call(message, timeout=_WAIT_MS)
        good = answer.type() == QDBusMessage.MessageType.ReplyMessage
        return list(answer.arguments()) if good else []


def session_bus() -> QDBusConnection | None:
    """Give the session bus if there is one; asking Qt without one would make it complain."""
    if "DBUS_SESSION_BUS_ADDRESS" not in os.environ and "XDG_RUNTIME_DIR" not in os.environ:
        return None
    bus = QDBusConnection.sessionBus()
    return bus if bus.isConnected() else None
