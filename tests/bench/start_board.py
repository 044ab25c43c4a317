"""Opens the board as its command does, prints when cards and strip were painted, and closes it.

    python3 tests/bench/start_board.py BEGUN

BEGUN is when it was asked for, in seconds since the Unix epoch. `bench_window.py` calls it. Only
what the command loads is loaded here: what a bench needs besides would count as the board's.
"""

import gc
import sys
import time


def main(begun_s: float) -> int:
    """Run the command; prints both lengths of time in seconds."""
    gc.disable()  # as the command begins
    from app import features  # noqa: PLC0415

    features.turn_off()
    from PySide6.QtCore import QEvent, QTimer  # noqa: PLC0415
    from PySide6.QtWidgets import QApplication  # noqa: PLC0415

    import app.main  # noqa: PLC0415
    from app import cli  # noqa: PLC0415
    from app.desk.window import DeskWindow  # noqa: PLC0415

    told: list[float] = []
    wanted = [1]

    class Telling(DeskWindow):
        """The window, noting the end of its first painting, and of the first with the strip."""

        def event(self, event: QEvent) -> bool:
            done = super().event(event)
            if event.type() == QEvent.Type.UpdateRequest and len(told) < wanted[0]:
                told.append(time.time() - begun_s)
            return done

        def _add_strip(self) -> None:
            super()._add_strip()
            wanted[0] = 2
            while len(told) < wanted[0]:
                QApplication.processEvents()
            QTimer.singleShot(0, self, self.close)  # after what is done once all is painted

    vars(app.main)["DeskWindow"] = Telling  # the same window, with a watch on it
    status = cli.main(["board", "--new"])
    print(*told)
    return status


if __name__ == "__main__":
    sys.exit(main(float(sys.argv[1])))
