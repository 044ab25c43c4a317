"""Whether the window may be closed: entries that are kept nowhere are not forgotten unasked."""

from PySide6.QtCore import QObject, QTimer, Signal
from PySide6.QtGui import QGuiApplication

AGAIN_WITHIN_S = 5
"""By the computer's own time: the board's may stand or race."""
_SESSION_ENDS_WITHIN_S = 60


class Closing(QObject):
    """Lets the window close at once, or at the second time of asking.

    The end of the system's session is never held up.
    """

    fell = Signal()
    """The second asking did not come in time."""

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self.asked = self._timer(AGAIN_WITHIN_S)
        self.asked.timeout.connect(self.fell)
        self.session_ends = self._timer(_SESSION_ENDS_WITHIN_S)
        app = QGuiApplication.instance()
        if isinstance(app, QGuiApplication):
            app.commitDataRequest.connect(self.end_session)

    def end_session(self, _manager: object = None) -> None:
        """Hold nothing up: the system ends the session. Forgotten where it thinks better of it."""
        self.session_ends.start()

    def lets(self, unsaved: int) -> bool:
        """Tell whether to close, where so many entries would be forgotten; starts the wait."""
        if not unsaved or self.asked.isActive() or self.session_ends.isActive():
            self.asked.stop()
            self.session_ends.stop()
            return True
        self.asked.start()
        return False

    def _timer(self, seconds: int) -> QTimer:
        timer = QTimer(self)
        timer.setSingleShot(True)
        timer.setInterval(seconds * 1000)
        return timer


def closing_words(unsaved: int) -> str:
    """Give what is said at the first time of asking."""
    return _asks(f"forgets {_entries(unsaved)}")


def ending_words(unsaved: int = 0) -> str:
    """The same where a rehearsal that a trainer leads would end."""
    if unsaved:
        return _asks(f"ends the rehearsal, writes the score page and forgets {_entries(unsaved)}")
    return _asks("ends the rehearsal and writes the score page")


def _asks(what: str) -> str:
    return f"Closing {what}; close again within {AGAIN_WITHIN_S} seconds to do it"


def _entries(unsaved: int) -> str:
    return "1 entry" if unsaved == 1 else f"{unsaved} entries"
