"""Opens an empty Qt window, prints when it was painted, and closes it.

    python3 tests/bench/start_empty.py BEGUN

What Python and Qt take by themselves on this machine: beside it stands what the board takes.
"""

import sys
import time

from PySide6.QtCore import QEvent, QTimer
from PySide6.QtWidgets import QApplication, QWidget


class Empty(QWidget):
    """A window that tells when it was painted first."""

    painted_s = 0.0

    def event(self, event: QEvent) -> bool:
        """Note the end of the first painting."""
        done = super().event(event)
        if event.type() == QEvent.Type.UpdateRequest and not self.painted_s:
            self.painted_s = time.time()
            QTimer.singleShot(0, self, self.close)
        return done


def main(begun_s: float) -> int:
    """Show it once; prints the length of time in seconds."""
    app = QApplication(sys.argv[:1])
    window = Empty()
    window.resize(1600, 1000)
    window.show()
    status = app.exec()
    print(window.painted_s - begun_s)
    return status


if __name__ == "__main__":
    sys.exit(main(float(sys.argv[1])))
