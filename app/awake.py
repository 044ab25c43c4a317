"""Keeps the screen awake while the board is open, where the session bus allows it."""

import os
from typing import Protocol

from PySide6.QtDBus import QDBusConnection, QDBusMessage

SERVICE = "org.freedesktop.ScreenSaver"
"""The interface and its path: freedesktop.org, 'Idle Inhibition Service Draft'."""

_PATH = "/org/freedesktop/ScreenSaver"
_WAIT_MS = 300
_OUR_CONNECTION = "limbwatch-awake"


class Bus(Protocol):
    """A connection to a bus that carries a call and brings back the answer."""

    def call(self, message: QDBusMessage, /, *, timeout: int) -> QDBusMessage:
        """Send a message and wait for its answer, so many milliseconds at most."""

    def leave(self) -> None:
        """Close the connection."""


class Awake:
    """Asks the session not to blank the screen; silently does nothing where nobody can.

    `bus` is None where there is no session. The promise ends when its connection does: so says
    the interface, and so it ends even if the program is killed.
    """

    def __init__(self, bus: Bus | None) -> None:
        self._bus = bus
        self._asked = False

    def hold(self) -> bool:
        """Keep the screen on from now; gives whether the session has promised it."""
        if self._bus is None or self._asked:
            return False
        self._asked = True
        message = QDBusMessage.createMethodCall(SERVICE, _PATH, SERVICE, "Inhibit")
        message.setArguments(["Limbwatch", "live coverage"])
        answer = self._bus.call(message, timeout=_WAIT_MS)
        return answer.type() == QDBusMessage.MessageType.ReplyMessage

    def release(self) -> None:
        """Let the screen sleep again."""
        if self._bus is not None:
            self._bus.leave()
            self._bus = None


class SessionBus:
    """A connection to the session's bus of our own, so that it can be closed by itself."""

    def __init__(self, connection: QDBusConnection) -> None:
        self._connection = connection

    def call(self, message: QDBusMessage, /, *, timeout: int) -> QDBusMessage:
        """Send a message and wait for its answer."""
        return self._connection.call(message, timeout=timeout)

    def leave(self) -> None:
        """Close the connection."""
        QDBusConnection.disconnectFromBus(_OUR_CONNECTION)


def session_bus() -> SessionBus | None:
    """Connect to the session's bus, if there is one."""
    if "DBUS_SESSION_BUS_ADDRESS" not in os.environ and "XDG_RUNTIME_DIR" not in os.environ:
        return None  # asking all the same makes Qt complain
    connection = QDBusConnection.connectToBus(QDBusConnection.BusType.SessionBus, _OUR_CONNECTION)
    return SessionBus(connection) if connection.isConnected() else None
