"""What happens when something happens that should not: one line, a log, and the board goes on.

Qt calls Python for every paint, key and timer; an error in one of those calls ends up in
`sys.excepthook` and nowhere else, and the next call comes all the same. So this is the one place.
"""

import logging
import os
import sys
import threading
from logging.handlers import RotatingFileHandler
from pathlib import Path
from types import TracebackType

from PySide6.QtCore import QMessageLogContext, QObject, QtMsgType, Signal, qInstallMessageHandler

_LOG = logging.getLogger("limbwatch")
_LOG_BYTES = 1_000_000

_QT_LEVELS = {
    QtMsgType.QtDebugMsg: logging.DEBUG,
    QtMsgType.QtInfoMsg: logging.INFO,
    QtMsgType.QtWarningMsg: logging.WARNING,
    QtMsgType.QtCriticalMsg: logging.ERROR,
    QtMsgType.QtFatalMsg: logging.CRITICAL,
}


class Alarm(QObject):
    """Writes what was not expected to a log file, and says it in one line.

    A log that cannot be written (no room, no right) is no reason to stop either.
    """

    raised = Signal(str)
    """The line for the window."""

    def __init__(self, log_path: Path, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.log_path = log_path
        self._handler = _log_to(log_path)
        self._saying = False
        if self._handler is not None:
            _LOG.addHandler(self._handler)

    def install(self) -> None:
        """Take over every uncaught error, those of threads, and Qt's own messages."""
        sys.excepthook = self.error
        threading.excepthook = self._thread_error
        qInstallMessageHandler(self._qt_said)

    def remove(self) -> None:
        """Hand everything back as Python and Qt had it."""
        sys.excepthook = sys.__excepthook__
        threading.excepthook = threading.__excepthook__
        qInstallMessageHandler(None)
        if self._handler is not None:
            _LOG.removeHandler(self._handler)
            self._handler.close()

    def error(
        self, kind: type[BaseException], value: BaseException, trace: TracebackType | None
    ) -> None:
        """Log an uncaught error and say it; Ctrl+C in the terminal still ends the program."""
        if issubclass(kind, KeyboardInterrupt):
            sys.__excepthook__(kind, value, trace)
            return
        _LOG.error("not expected", exc_info=(kind, value, trace))
        if self._saying:  # what went wrong is the saying itself
            return
        self._saying = True
        try:
            self.raised.emit(self._line(kind, value))
        finally:
            self._saying = False

    def _line(self, kind: type[BaseException], value: BaseException) -> str:
        what = " ".join(str(value).split())[:120]
        said = f"{kind.__name__}: {what}" if what else kind.__name__
        return (
            f"Something went wrong, the board goes on. {said}. Written to {_short(self.log_path)}"
        )

    def _thread_error(self, args: threading.ExceptHookArgs) -> None:
        value = args.exc_value if args.exc_value is not None else args.exc_type()
        self.error(args.exc_type, value, args.exc_traceback)

    def _qt_said(self, kind: QtMsgType, context: QMessageLogContext, message: str | None) -> None:
        _LOG.log(_QT_LEVELS[kind], "Qt: %s (%s)", message, context.category)


def state_folder() -> Path:
    """Give the folder for logs of this user on this system, as its conventions have it."""
    home = Path.home()
    if sys.platform == "win32":
        return Path(os.environ.get("LOCALAPPDATA", home / "AppData" / "Local")) / "Limbwatch"
    if sys.platform == "darwin":
        return home / "Library" / "Logs" / "Limbwatch"
    return Path(os.environ.get("XDG_STATE_HOME") or home / ".local" / "state") / "limbwatch"


def _log_to(path: Path) -> logging.Handler | None:
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        handler = RotatingFileHandler(
            path, maxBytes=_LOG_BYTES, backupCount=1, encoding="utf-8", delay=True
        )
    except OSError:
        return None
    handler.setFormatter(logging.Formatter("%(asctime)s %(levelname)s %(message)s"))
    return handler


def _short(path: Path) -> str:
    home = Path.home()
    return f"~/{path.relative_to(home)}" if path.is_relative_to(home) else str(path)
